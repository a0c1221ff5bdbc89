"""How long the battery lasts by the discharge model: voltage under load, reserve, cold and age, and what ends
the flight."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.figures import Figure, OutsideRange
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery
from dossier.results import cold_limits
from dossier.results.battery import PackResult
from dossier.results.capacity_logs import CapacityLogs
from dossier.results.cell_model import CellModel, cell_model
from dossier.results.discharge_table import Outlook, outlooks
from dossier.results.energy import Energy
from dossier.results.flight_case import FlightCase
from dossier.results.gauge import Gauge, gauges
from dossier.results.gauge_measured import MeasuredGauge, NotMeasured, measured_gauges
from dossier.results.heat import Heat, with_heat
from dossier.results.landing_limits import LandingLimit, landing_charge, landing_limits
from dossier.results.landing_limits import findings as landing_findings
from dossier.results.modelled_endurance import EnduranceMaker, ModelledFlight
from dossier.results.phases_flown import PhasesFlown, phases_flown


@dataclass(frozen=True)
class Modelled:
    """Everything that the discharge model says of one aircraft."""

    flights: tuple[ModelledFlight, ...] = ()
    outlooks: tuple[Outlook, ...] = ()
    gauges: tuple[Gauge, ...] = ()
    findings: tuple[Finding, ...] = ()
    models: tuple[CellModel, ...] = ()
    """Of the batteries whose record states a resistance."""
    cases: tuple[FlightCase, ...] = ()
    """The flights that the model was asked for, those without an answer as well."""
    landing: tuple[LandingLimit, ...] = ()
    """Where the limits at which to land lie on each gauge card."""
    phases: tuple[PhasesFlown, ...] = ()
    """Each flight phase by phase, those without an answer as well."""
    heats: tuple[Heat, ...] = ()
    """Of each battery with the heaviest pilot: an estimate."""
    measured: tuple[MeasuredGauge | NotMeasured, ...] = ()
    """Each gauge card beside a measured discharge of the fitted battery, or why there is none."""

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        return tuple(figure for made in (self.flights, self.heats) for one in made for figure in one.figures)


def discharge_model(
    energy: Energy | None,
    aircraft: Aircraft,
    battery: Battery,
    packs: tuple[PackResult, ...],
    logs: CapacityLogs | None = None,
) -> Modelled:
    """Discharge every battery in every flight of the energy table.

    A battery whose cell has no table of resistance gets a note and no answer; a power that it cannot give is
    a warning.
    """
    findings = list(_without_resistance(battery, packs))
    models: dict[str, CellModel] = {}
    for result in packs:
        try:
            made = cell_model(battery, result)
        except OutsideRange as error:
            findings.append(_no_model(error, battery, result))
            continue
        if made:
            models[result.option] = made
            findings += _not_shown(made)
    cases: list[FlightCase] = []
    flights: list[ModelledFlight] = []
    for flight in energy.flights if energy else ():
        if flight.option in models:
            maker = EnduranceMaker(models[flight.option], flight, aircraft)
            flights += maker.flight_modelled()
            cases += maker.case()
            findings += maker.findings
    table, told = _table(cases, aircraft)
    answered, unanswered = _as_in_the_table(flights, table, models)
    cards, unread = gauges(cases, landing_charge(aircraft))
    landing = landing_limits(cards, aircraft)
    names = {option: str(one.name) for option, one in battery.options.items()}
    cold = cold_limits.findings(table, aircraft, battery.options)
    all_told = (*findings, *told, *unanswered, *unread, *landing_findings(landing, names), *cold)
    phases, heats = with_heat(phases_flown(cases, table), aircraft)
    return Modelled(
        answered,
        table,
        cards,
        all_told,
        tuple(models.values()),
        tuple(cases),
        landing,
        phases,
        heats,
        measured_gauges(cards, tuple(models.values()), logs or CapacityLogs()),
    )


def _table(cases: list[FlightCase], aircraft: Aircraft) -> tuple[tuple[Outlook, ...], tuple[Finding, ...]]:
    """Fly all cases at once, or tell why they cannot be flown."""
    try:
        return outlooks(cases)
    except OutsideRange as error:
        fault = f"no table of cold and age: {error}"
        place = aircraft.place_of_key("profile")
        return (), (Finding("D003", fault, "correct the profile", place, Severity.NOTE),)


def _as_in_the_table(
    flights: list[ModelledFlight], table: tuple[Outlook, ...], models: dict[str, CellModel]
) -> tuple[tuple[ModelledFlight, ...], tuple[Finding, ...]]:
    """Keep the flights whose whole profile can be flown when warm: a cruise alone is no flight."""
    refused = {
        id(row.flight): row.lasts[0].words
        for row in table
        if row.age.health is None and row.lasts[0].shortest is None
    }
    told = tuple(
        Finding(
            "D003",
            f"{one.words}: no endurance by the discharge model, {refused[id(one.flight)]}",
            "rely on measured flights here",
            models[one.flight.option].option.place,
            Severity.NOTE,
        )
        for one in flights
        if id(one.flight) in refused
    )
    return tuple(one for one in flights if id(one.flight) not in refused), told


def _without_resistance(battery: Battery, packs: tuple[PackResult, ...]) -> Iterator[Finding]:
    for name in sorted({str(battery.options[result.option].cell) for result in packs}):
        cell = battery.cells[name]
        if not cell.resistance:
            yield Finding(
                "D001",
                f"the cell {cell.name} has no table of resistance, so no voltage under load, no effect of "
                "cold or age and no gauge card is computed for it",
                "add resistance: to the cell, from the maker's discharge curve or a measurement",
                cell.place, Severity.NOTE,
            )  # fmt: skip


def _not_shown(model: CellModel) -> Iterator[Finding]:
    """Warn where no run of the full model stands behind the discharge model."""
    if model.cell.chemistry == "lithium-iron-phosphate":
        yield Finding(
            "D009",
            f"the discharge model is not shown for iron phosphate ({model.cell.name}): against the one "
            "parameter set that was run, it lasts 3 % too long at a rate of 0.2, 7 % at 0.5 and 12 % at 1",
            "measure a discharge at the power of level flight, and rely on that",
            model.cell.place_of_key("chemistry"), Severity.WARNING,
        )  # fmt: skip


def _no_model(error: OutsideRange, battery: Battery, result: PackResult) -> Finding:
    option = battery.options[result.option]
    fault = f"the discharge of {option.name} cannot be modelled: {error}"
    return Finding(
        "D003", fault, "correct the tables of the cell", battery.cells[option.cell].place, Severity.WARNING
    )
