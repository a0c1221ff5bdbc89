"""The limits at which to land, held against the charge that keeps the reserve: a limit below it lets the
reserve be flown away, one above it comes before the end of the endurance."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft, Limit
from dossier.results.gauge import Gauge

LAST_PER_CENT = 0.005
"""Of the charge: displays show whole per cents (common practice, no source)."""
MINUTE = 60.0


@dataclass(frozen=True)
class LandingLimit:
    """One limit on the gauge card of one battery. SI."""

    option: str
    limit: Limit
    charge: float
    """State of charge at which it is reached in level flight."""
    voltage: float
    """In level flight there."""
    reserve: float
    """State of charge that keeps the reserve and the later phases."""
    early: float
    """Level flight in s that the endurance counts below the limit; negative: what the limit gives away of the
    reserve."""

    @property
    def gives_away(self) -> bool:
        """Whether the reserve is used up before the limit is reached."""
        return self.charge < self.reserve - LAST_PER_CENT

    @property
    def comes_early(self) -> bool:
        """Whether the endurance counts at least a minute below the limit."""
        return self.early >= MINUTE

    @property
    def words(self) -> str:
        """The limit as the record names it, with its value."""
        return f"{self.limit.name}, {self.limit.value.text}"


def landing_limits(cards: Sequence[Gauge], aircraft: Aircraft) -> tuple[LandingLimit, ...]:
    """Find on each card where the limits of ``use`` are reached; none where ``use`` names none."""
    return tuple(
        _on_card(card, limit, by_voltage=by_voltage)
        for card in cards
        for limit, by_voltage in _stated(aircraft)
    )


def landing_charge(aircraft: Aircraft) -> float | None:
    """Return the state of charge at which the builder says to land; None where the type has no such limit."""
    name = aircraft.use.landing_charge_limit if aircraft.use else None
    return aircraft.limits[name].value.value if name else None


def _stated(aircraft: Aircraft) -> Iterator[tuple[Limit, bool]]:
    use = aircraft.use
    if use and use.landing_charge_limit:
        yield aircraft.limits[use.landing_charge_limit], False
    if use and use.landing_voltage_limit:
        yield aircraft.limits[use.landing_voltage_limit], True


def _on_card(card: Gauge, limit: Limit, *, by_voltage: bool) -> LandingLimit:
    """Read the card between its rows. Below its last row nothing is left, above its first it is full."""
    lines = sorted(card.lines, key=lambda line: line.charge)
    charges, volts, times = (
        np.array(column)
        for column in zip(*((one.charge, one.loaded_voltage, one.time_left) for one in lines), strict=True)
    )
    stated = limit.value.value
    charge = float(np.interp(stated, volts, charges)) if by_voltage else stated
    reserve = next(line for line in lines if line.reserve)
    return LandingLimit(
        card.option,
        limit,
        charge,
        float(np.interp(charge, charges, volts)),
        reserve.charge,
        float(np.interp(charge, charges, times)) - reserve.time_left,
    )


def findings(found: Sequence[LandingLimit], names: dict[str, str]) -> tuple[Finding, ...]:
    """Warn of a limit that gives the reserve away; note one that the endurance flies past.

    Args:
        found: limits on the cards.
        names: of the batteries, by option.
    """
    return tuple(finding for one in found for finding in _finding(one, names[one.option]))


def _finding(one: LandingLimit, battery: str) -> Iterator[Finding]:
    place = one.limit.place_of_key("value")
    stated, kept = one.words, f"{100 * one.reserve:.0f} %"
    reached = f"{100 * one.charge:.0f} % of the charge"
    if one.gives_away:
        yield Finding(
            "D010",
            f"{stated}, is reached with {battery} at {reached}, and {kept} keep its reserve and the later "
            f"phases: {-one.early / MINUTE:.1f} min of the reserve are gone by then",
            f"land at {kept} or more with {battery}, or keep less reserve in battery.yaml",
            place, Severity.WARNING,
        )  # fmt: skip
    elif one.comes_early:
        yield Finding(
            "D011",
            f"{stated}, is reached with {battery} at {reached}, before its reserve at {kept}: the endurance "
            f"counts {int(one.early // MINUTE)} min of level flight below that limit",
            "go by the limit, and take these minutes off the endurance",
            place, Severity.NOTE,
        )  # fmt: skip
