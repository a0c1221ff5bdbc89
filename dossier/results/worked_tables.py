"""The worked rows of all tables of one aircraft."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from dossier.figures import Figure
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery
from dossier.results.discharge import Modelled
from dossier.results.empty import EmptyAircraft
from dossier.results.flight import Performance
from dossier.results.worked_charging import charging_rows
from dossier.results.worked_flight import flight_rows
from dossier.results.worked_gauge import gauge_rows
from dossier.results.worked_outlook import outlook_rows
from dossier.results.worked_pilots import pilot_reaches
from dossier.results.worked_rows import WorkedRow, WorkedRows
from dossier.results.worked_years import year_rows
from dossier.results.years import BatteryYears


def worked_rows(
    made: Performance | None,
    empty: EmptyAircraft | None,
    modelled: Modelled,
    years: BatteryYears,
    *,
    flights: Mapping[str, Figure],
    of: tuple[Aircraft, Battery],
) -> WorkedRows:
    """Work a row of each table that there is; ``of`` is the type and its batteries."""
    aircraft, battery = of
    flown: tuple[WorkedRow, ...] = ()
    if made and empty:
        rows = flight_rows(made, aircraft, empty)
        flown = (*rows, *pilot_reaches(made, aircraft, empty, flights))
    return WorkedRows((*flown, *_of_batteries(modelled, years, aircraft, battery)))


def _of_batteries(
    modelled: Modelled, years: BatteryYears, aircraft: Aircraft, battery: Battery
) -> Iterator[WorkedRow]:
    names = {key: str(option.name) for key, option in battery.options.items()}
    yield from gauge_rows(modelled.gauges, modelled.cases)
    yield from outlook_rows(modelled.outlooks, modelled.cases)
    yield from year_rows(years.years, aircraft.use, names)
    if aircraft.use is not None:
        yield from charging_rows(years.years, modelled.models, aircraft.use, battery)
