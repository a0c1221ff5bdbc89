"""A value near its limit as draws of all its errors: a slope is not enough where the limit is close."""

from __future__ import annotations

import numpy as np

from dossier import units
from dossier.figures import Figure, Input
from dossier.halton import Array
from dossier.judge.decision import NEAR, Limit
from dossier.sampling import Draws

Part = tuple[float, Figure | Input]
"""A factor, and what it stands before: of these parts the errors of a value are made."""


def draws_near(
    value: float, uncertainty: float, limit: Limit, parts: tuple[Part, ...], unit: str
) -> Array | None:
    """Return a value as draws, in the unit of the law; None far from the limit or without uncertainty.

    Args:
        value: in the unit of the law.
        uncertainty: its standard uncertainty, in the same unit.
        limit: what it is held against.
        parts: the figure, and the figures that move the limit with a factor of minus their share; their draws
            are taken together, so that what they share cancels or adds.
        unit: of the law.
    """
    if not uncertainty or abs(limit.inside(value)) > NEAR * uncertainty:
        return None
    draws = Draws([part for _, part in parts])
    moved = sum((factor * (draws.of(part).values - part.value) for factor, part in parts), np.zeros(()))
    return np.asarray(value + moved / units.scale(parts[0][1].kind, unit)[0])


def unanswered(draws: Array | None) -> float:
    """Return the share of draws that have no answer."""
    return 0.0 if draws is None else float(np.mean(np.isnan(draws)))
