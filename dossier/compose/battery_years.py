"""The years of the batteries on their page: range by year, what comes first, charging."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.grid import Cell, Grid, Row, grid, row
from dossier.compose.printer import Printer
from dossier.compose.worked_rows import with_rows, worked_rows
from dossier.results.years import YearRow, Years


@dataclass(frozen=True)
class YearsPart:
    """One battery. All ready strings."""

    anchor: str
    name: str
    table: Grid | None
    facts: tuple[tuple[str, str], ...]
    words: tuple[str, ...]
    charging: tuple[tuple[str, tuple[Cell, ...]], ...]
    """The sheets of the charging."""


def years(at: Printer) -> tuple[YearsPart, ...]:
    """Make the part of each battery; none where no use is stated."""
    return tuple(_part(at, one) for one in at.dossier.battery_years.years)


def use_facts(at: Printer) -> tuple[tuple[str, str], ...]:
    """Print the stated use."""
    use = at.dossier.project.aircraft.use
    if use is None:
        return ()
    usual = "in the usual band" if at.dossier.battery_years.storage_is_usual else "outside the usual band"
    return (
        ("In a year", f"{use.hours_per_year.text} in the air, {use.flights_per_year} flights"),
        ("A flight", f"from {use.charge_before_flight.text} to {use.charge_after_flight.text} of the charge"),
        (
            "Between flights",
            f"at {use.storage_charge.text}, {usual}, and {at.quantity(use.storage_temperature)}",
        ),
    )


def _part(at: Printer, one: Years) -> YearsPart:
    name = str(at.dossier.project.battery.options[one.option].name)
    table = (
        grid(
            f"{name}, from new, by year",
            "Years | # Capacity, likely and range | # Resistance of that when new "
            f"| # Level flight, reserve kept{_pilot(at, one)}",
            [_row(at, each) for each in one.rows],
        )
        if one.rows
        else None
    )
    return YearsPart(
        links.anchor(one.option), name, table and with_rows(at, table, "years", one.option),
        tuple(_facts(at, one)), one.words, tuple(worked_rows(at, "charging", one.option)),
    )  # fmt: skip


def _pilot(at: Printer, one: Years) -> str:
    return "" if one.pilot is None else f", pilot {at.first(one.pilot, 'mass')}"


def _ends(one: Years) -> dict[str, str]:
    return {
        "capacity": f"capacity at {100 * one.limits.health:.0f} %",
        "resistance": f"resistance {one.limits.growth:g} times that when new",
    }


def _row(at: Printer, one: YearRow) -> Row:
    more = " or more" if one.worst is None else ""
    return row(
        f"{one.year:g}",
        _likely(_share(one.likely), _share(one.worst), _share(one.best)),
        _likely(f"{one.growth:.2f}", f"{one.best_growth:.2f}", f"{one.worst_growth:.2f}{more}"),
        _lasting(at, *one.lasts),
    )


def _likely(value: str, low: str, high: str) -> Cell:
    """Print a value with its range below, where there is one."""
    return Cell(value, note="" if low == high else _range(low, high))


def _range(low: str, high: str) -> str:
    return low if low == high else f"{low} to {high}"


def _lasting(at: Printer, worst: float | None, best: float | None) -> str:
    """Print the range; where the worst battery is beyond the model, only the other end is known."""
    if best is None:
        return "no answer"
    longest = at.first(best, "time")
    if worst is None:
        return f"no answer for the worst, {longest} for the best"
    return _range(at.first(worst, "time"), longest)


def _share(health: float | None) -> str:
    return "below 70\u00a0%" if health is None else f"{100 * health:.0f}\u00a0%"


def _facts(at: Printer, one: Years) -> Iterator[tuple[str, str]]:
    for number, end in enumerate(one.ends):
        band = ""
        if end.earliest is not None or end.latest is not None:
            latest = "later than 40" if end.latest is None else f"{end.latest:.1f}"
            band = f", range {end.earliest or 0:.1f} to {latest} years"
        yield (
            "Comes first" if number == 0 else "Then",
            f"{_ends(one).get(end.limit, end.limit)}: after {end.year:.1f} years{band}",
        )
    if one.rows and not one.ends:
        yield "Comes first", "no limit within 40 years by the likely value"
    if one.charging:
        plan = one.charging
        bulk, taper = (at.first(time, "time") for time in (plan.bulk_time, plan.taper_time))
        full, energy = at.first(plan.end, "ratio"), at.value(plan.energy, "energy")
        yield (
            "Charging after a flight",
            f"{bulk} at full power and {taper} of taper, to {full}; {energy} into the new battery at 25 °C",
        )
