"""The mass that counts against a limit when a rule leaves something out of it."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum

from dossier.compute.bounds import not_negative
from dossier.figures import OutsideRange, formula


@formula
def counted_mass(m_E: float, m_li: Sequence[float], m_ci: Sequence[float]) -> float:
    r"""Mass that counts against a limit: of each item that the rule leaves out, no more than its allowance.

    Formula: m_{count} = m_E - \sum_i \min(m_{l,i}, m_{c,i})
    Result: m_count
    Valid: as many allowances as items; no mass is negative; what is left out is no more than the empty mass
    Source: derived, from exclusions that a rule caps for each item
    """
    left_out = fsum(
        min(not_negative(item, "mass of an item left out", "kg"), not_negative(cap, "allowance", "kg"))
        for item, cap in zip(m_li, m_ci, strict=True)
    )
    if left_out > m_E:
        raise OutsideRange(
            f"what is left out, {left_out:.6g} kg, is more than the empty mass of {m_E:.6g} kg"
        )
    return m_E - left_out
