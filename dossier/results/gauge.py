"""The gauge card of each battery: what a voltmeter shows at rest and in level flight against what is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dossier.compute.discharge_outcome import NoAnswer
from dossier.compute.gauge import Age, GaugeRow, gauge_card
from dossier.figures import OutsideRange
from dossier.findings import Finding, Severity
from dossier.results.discharge_table import FlightCase

CHARGES = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.25, 0.2, 0.15, 0.1)
"""States of charge of the rows, besides those where charging ends, the reserve begins and flying stops."""
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
    name: str = ""
    """``full``, ``reserve``, ``flying stops``, or empty."""


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


def gauges(cases: Sequence[FlightCase]) -> tuple[tuple[Gauge, ...], tuple[Finding, ...]]:
    """Make the card of each battery, from its flight with the heaviest pilot for whom there is one.

    A battery without a card gets a note.
    """
    made: dict[str, Gauge] = {}
    refused: dict[str, Finding] = {}
    for case in reversed(cases):  # the heaviest pilot of a battery comes last
        if case.flight.option in made:
            continue
        try:
            made[case.flight.option] = _gauge(case)
        except OutsideRange as error:
            fault = f"no gauge card for {case.model.name}: {error}"
            remedy = "mark the gauge from measured flights"
            refused[case.flight.option] = Finding(
                "D004", fault, remedy, case.model.option.place, Severity.NOTE
            )
    missing = [finding for option, finding in refused.items() if option not in made]
    return tuple(reversed(made.values())), tuple(reversed(missing))


def _gauge(case: FlightCase) -> Gauge:
    model = case.model
    full, stop = (
        model.charge_at(rest.value)
        for rest in (model.option.full_cell_voltage, model.option.empty_cell_voltage)
    )
    reserve = case.floor(model.health)
    named = {full: "full", reserve: "reserve", stop: "flying stops"}
    others = [z for z in CHARGES if stop < z < full and min(abs(z - one) for one in named) > NEAR]
    charges = sorted({*named, *others}, reverse=True)
    age = Age(health=model.health)
    card = gauge_card(model.circuit, model.shape, power=case.cruise.power, charges=charges, age=age)
    if isinstance(card, NoAnswer):
        raise OutsideRange(card.message)
    end = {row.charge: row for row in card.rows}
    lines = tuple(_line(row, end[stop], end[reserve], named.get(row.charge, "")) for row in card.rows)
    return Gauge(case.flight.option, case.cruise.power, case.flight.pilot, lines, model.health)


def _line(row: GaugeRow, stop: GaugeRow, reserve: GaugeRow, name: str) -> GaugeLine:
    return GaugeLine(
        row.charge,
        row.rest_voltage,
        row.loaded_voltage,
        row.energy_left - stop.energy_left,
        row.time_left - stop.time_left,
        max(row.time_left - reserve.time_left, 0.0),
        row.if_taken_as_rested,
        row.if_taken_as_loaded,
        name,
    )
