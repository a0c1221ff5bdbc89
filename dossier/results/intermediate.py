"""Values on the way to a figure, for a reader with a calculator."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from dossier.compute import weights
from dossier.figures import Input, Inputs
from dossier.steps import Step


def balance(masses: Sequence[Input], arms: Sequence[Input]) -> tuple[Step, ...]:
    """Give the two sums whose quotient is a centre of gravity."""
    m_i, x_i = [one.value for one in masses], [one.value for one in arms]
    return (
        Step("sum of the masses", weights.total_mass(m_i), "mass"),
        Step("sum of the moments", weights.total_moment(m_i, x_i), "mass_moment"),
    )


def energies(spent: Sequence[Input]) -> tuple[Step, ...]:
    """Give the sum of the energies that the fixed phases take."""
    return (Step("sum of the energies of the fixed phases", sum(one.value for one in spent), "energy"),)


def plain(inputs: Inputs) -> dict[str, Any]:
    """Return the estimates alone, as a formula takes them."""
    return {
        key: one.value if isinstance(one, Input) else [item.value for item in one]
        for key, one in inputs.items()
    }
