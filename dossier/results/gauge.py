"""The gauge card of each battery: what a voltmeter shows at rest and in level flight against what is left."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from dossier.compute.discharge_outcome import NoAnswer
from dossier.compute.gauge import Age, GaugeCard, GaugeRow, change_over, gauge_card
from dossier.figures import OutsideRange
from dossier.findings import Finding, Severity
from dossier.results.cell_model import CellModel
from dossier.results.flight_case import Condition, FlightCase
from dossier.results.pack_age import NEW, Growth

CHARGES = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.25, 0.2, 0.15, 0.1)
"""States of charge of the rows, besides those where charging ends, the reserve begins and flying stops."""
TENTH = 0.1
IRON_PHOSPHATE = "lithium-iron-phosphate"
HYSTERESIS = 0.025
"""In V a cell, the upper end of 5 to 25 mV (source lfp-hysteresis)."""
LAST_DIGIT = 0.1
"""In V, as the card prints it and as voltmeters for a panel mostly show (common practice, no source)."""
DIGITS = 2
"""Last digits by which a reading must change to be one (common practice, no source)."""
SAME = 0.005
"""A limit of the charge that is so near to a named row stands on it; displays show whole per cents."""
NEAR = 0.015
"""A row that is nearer than this to a named one is left out."""


@dataclass(frozen=True)
class GaugeLine:
    """One state of charge of the pack, in SI. Times and energy count to where flying stops."""

    charge: float
    rest_voltage: float
    loaded_voltage: float
    energy_left: float
    time_left: float
    time_to_reserve: float
    """0 below the reserve."""
    if_taken_as_rested: float | None
    """Error of the time in s when the loaded reading is looked up at rest; None: beyond the card."""
    if_taken_as_loaded: float | None
    """Error in s when a reading at rest is looked up under load: the dangerous one."""
    change: float
    """By how much the rest voltage changes over a tenth of the charge, around here."""
    readable: bool
    """Whether that is enough to tell the charge from a rest voltage."""
    name: str = ""
    """``full``, ``reserve``, ``land``, ``flying stops``, two of them, or empty."""
    reserve: bool = False
    """Whether the reserve begins here."""


@dataclass(frozen=True)
class Gauge:
    """The card of one battery at the power of level flight with the heaviest pilot."""

    option: str
    power: float
    pilot: float
    lines: tuple[GaugeLine, ...]
    """From full to where flying stops."""
    health: float
    """Of the nominal capacity."""
    growth: Growth = NEW
    """Of the resistance. Minutes are those of its upper end, voltages in flight those of its lower one:
    whichever of both holds, the card does not promise more than there is."""
    least_change: float = 0.0
    """In V over a tenth of the charge, that a readable row needs."""

    @property
    def flat(self) -> tuple[GaugeLine, ...]:
        """The rows in which a voltage does not tell the charge."""
        return tuple(line for line in self.lines if not line.readable)


def gauges(
    cases: Sequence[FlightCase], landing: float | None = None
) -> tuple[tuple[Gauge, ...], tuple[Finding, ...]]:
    """Make the card of each battery, from its flight with the heaviest pilot for whom there is one.

    A battery without a card gets a note.

    Args:
        cases: the flights.
        landing: state of charge at which the builder says to land, for a row of its own.
    """
    made: dict[str, Gauge] = {}
    refused: dict[str, Finding] = {}
    for case in reversed(cases):  # the heaviest pilot of a battery comes last
        if case.flight.option in made:
            continue
        try:
            made[case.flight.option] = _gauge(case, landing)
        except OutsideRange as error:
            fault = f"no gauge card for {case.model.name}: {error}"
            remedy = "mark the gauge from measured flights"
            refused[case.flight.option] = Finding(
                "D004", fault, remedy, case.model.option.place, Severity.NOTE
            )
    missing = [finding for option, finding in refused.items() if option not in made]
    flat = [_flat(case, made[case.flight.option]) for case in reversed(cases) if case.flight.option in made]
    told = dict.fromkeys(finding for finding in (*flat, *missing) if finding)
    return tuple(reversed(made.values())), tuple(reversed(told))


def _flat(case: FlightCase, one: Gauge) -> Finding | None:
    """Warn where the voltmeter does not tell the charge, with the number that shows it."""
    if not one.flat:
        return None
    low, high = (100 * one.flat[end].charge for end in (-1, 0))
    least = min(line.change for line in one.flat)
    why = "its last digit is 0.1 V"
    if case.model.cell.chemistry == IRON_PHOSPHATE:
        why += f", and whether it was charged or discharged before moves it by up to {one.least_change:.1f} V"
    return Finding(
        "D007",
        f"the voltmeter does not tell the charge of {case.model.name} between {low:.0f} and {high:.0f} %: a "
        f"tenth of the charge changes its rest voltage there by as little as {least:.2f} V; {why}",
        "fit a meter that counts ampere-hours and is set when the battery is full, and go by that",
        case.model.option.place, Severity.WARNING,
    )  # fmt: skip


def least_change(model: CellModel) -> float:
    """Return the change in V of the rest voltage over a tenth of the charge that a reading of it needs.

    Two last digits of the voltmeter, and for iron phosphate the hysteresis of the cells, if that is more.
    """
    hysteresis = HYSTERESIS * model.shape.series if model.cell.chemistry == IRON_PHOSPHATE else 0.0
    return max(DIGITS * LAST_DIGIT, hysteresis)


def _gauge(case: FlightCase, landing: float | None) -> Gauge:
    model = case.model
    full, stop = (
        model.charge_at(rest.value)
        for rest in (model.option.full_cell_voltage, model.option.empty_cell_voltage)
    )
    floor = case.floor(Condition(model.health, model.growth.high))
    if floor.refused:
        raise OutsideRange(floor.refused)
    reserve = floor.charge
    named = {full: "full", reserve: "reserve", stop: "flying stops"}
    if landing is not None and stop < landing < full:
        near = next((z for z in named if abs(z - landing) < SAME), landing)
        named[near] = f"{named[near]}, land" if near in named else "land"
    others = [z for z in CHARGES if stop < z < full and min(abs(z - one) for one in named) > NEAR]
    charges = sorted({*named, *others}, reverse=True)
    light, heavy = (_card(case, charges, end) for end in (model.growth.low, model.growth.high))
    end = {row.charge: row for row in heavy.rows}
    needed = least_change(model)
    lines = tuple(
        _line(best, worst, (end[stop], end[reserve]), _change(model, worst.charge), needed, named)
        for best, worst in zip(light.rows, heavy.rows, strict=True)
    )
    return Gauge(
        case.flight.option, case.cruise.power, case.flight.pilot, lines, model.health, model.growth, needed
    )


def _card(case: FlightCase, charges: Sequence[float], growth: float) -> GaugeCard:
    """Make the card for one growth of resistance.

    Raises:
        OutsideRange: there is none.
    """
    model = case.model
    age = Age(health=model.health, growth=growth)
    card = gauge_card(model.circuit, model.shape, power=case.cruise.power, charges=charges, age=age)
    if isinstance(card, NoAnswer):
        raise OutsideRange(card.message)
    return card


def _change(model: CellModel, charge: float) -> float:
    return model.shape.series * change_over(model.circuit.rest, charge, TENTH)


def _line(
    best: GaugeRow, worst: GaugeRow, ends: tuple[GaugeRow, GaugeRow], change: float, needed: float,
    named: Mapping[float, str],
) -> GaugeLine:  # fmt: skip
    """Make a row: the voltage in flight of the least resistance, all else of the most."""
    stop, reserve = ends
    return GaugeLine(
        worst.charge,
        worst.rest_voltage,
        best.loaded_voltage,
        worst.energy_left - stop.energy_left,
        worst.time_left - stop.time_left,
        max(worst.time_left - reserve.time_left, 0.0),
        worst.if_taken_as_rested,
        worst.if_taken_as_loaded,
        change,
        change >= needed,
        named.get(worst.charge, ""),
        worst.charge == reserve.charge,
    )
