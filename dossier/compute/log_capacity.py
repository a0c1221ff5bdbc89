"""The whole capacity of a battery from a test that took a part of it."""

from __future__ import annotations

from dossier.figures import OutsideRange, formula

LEAST_SPAN = 0.3
"""Of the table: over less, the doubt of the rest voltages outweighs the test (source practice)."""


@formula
def whole_capacity(Q_t: float, z_1: float, z_2: float) -> float:
    r"""Capacity between the ends of the table from the charge taken between two states of charge.

    Formula: Q = \frac{Q_t}{z_1 - z_2}
    Result: Q
    Valid: both states of charge from rest voltages, or from a voltage under load with the resistance known;
        at least 0.3 of the table between them
    Source: definition
    """
    if z_1 - z_2 < LEAST_SPAN:
        raise OutsideRange(
            f"the test goes over {z_1 - z_2:.3g} of the charge, and must go over at least {LEAST_SPAN:g}"
        )
    return Q_t / (z_1 - z_2)


@formula
def capacity_beyond(Q: float, Q_s: float) -> float:
    r"""By how much a measured capacity is more than the stated one.

    Formula: \Delta Q = Q - Q_s
    Result: dQ
    Valid: always
    Source: definition
    """
    return Q - Q_s
