"""What the rate of the discharge does to the cycles of a battery: a table of three models, and what they were
measured on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose.grid import Cell, Grid, Row, grid, row
from dossier.compose.printer import Printer
from dossier.results.years import RateEffect, RateRow, YearRow
from dossier.sources import cite

HEADS = "Discharge | # NMC111 | # with spinel | # NMC811"
MEASURED = (
    (
        "NMC111: a cell of 2.15 Ah, tested at 1 an hour and 35 °C; its model has no term of the rate. NMC "
        "with manganese spinel: a cell of 1.5 Ah, 10 to 46 °C, 0.5 to 6.5 an hour; of depth it knows only "
        "the charge. NMC811: a cell of 5 Ah, 0 to 25 °C, charged at 0.3 and discharged at up to 2 an hour, "
        "full cycles only; that it lives longer at 2 than at 1 an hour is what its fit says: do not plan on "
        "it. None of them is this cell, and outside its tests a model gives no answer."
    ),
    (
        "The second counts the charge both ways; its source can be read as one way as well, and then it "
        "gives twice as many cycles. Its constants are rounded, which moves its cycles by about a third, and "
        "the effect of the rate hardly. None of the three lets a fast discharge warm the cell; in a battery "
        "it does, and a warm cell ages faster."
    ),
    (
        "These are cycles by use alone. What is lost in storage comes on top: see the years above. The mean "
        "use is the charge of its flights over its hours in the air, those without power too."
    ),
)
"""What stands below the table of the rates."""
MODELS = ("NMC111, whose model knows no rate", "NMC with spinel", "NMC811")
"""In the order of :data:`dossier.compute.life_by_rate.MODELS`."""
SOURCES = tuple(
    f"{name}: {cite(key)}"
    for name, key in (("NMC111", "schmalstieg-2014"), ("With spinel", "wang-2014"), ("NMC811", "bui-2021"))
)


@dataclass(frozen=True)
class RatesPart:
    """The rate of the discharge: one use, so one part for all batteries. All ready strings."""

    table: Grid
    facts: tuple[tuple[str, str], ...]
    measured: tuple[str, ...] = MEASURED
    sources: tuple[str, ...] = SOURCES


def rates(at: Printer) -> RatesPart | None:
    """Make the part of the rate; None where no years are estimated."""
    for one in at.dossier.battery_years.years:
        if one.rates is not None:
            return RatesPart(_table(at, one.rates), tuple(_facts(one.rates, one.rows)))
    return None


def _table(at: Printer, effect: RateEffect) -> Grid:
    caption = "Full cycles to 80\u00a0% of the capacity by use alone, cells at 25\u00a0°C"
    return grid(caption, HEADS, [_row(at, each) for each in effect.rows])


def _row(at: Printer, one: RateRow) -> Row:
    what = "mean use" if one.time is None else f"in {at.first(one.time, 'time')}"
    return row(Cell(what, note=f"{one.rate:.2g} an hour"), *(_count(cycles) for cycles in one.cycles))


def _count(cycles: float | None) -> str:
    """Print to two digits: nothing here is known better."""
    return "not tested" if cycles is None else _grouped(float(f"{cycles:.2g}"))


def _grouped(number: float) -> str:
    text = f"{number:,.0f}"
    return text.replace(",", "\u00a0" if number >= 1e4 else "")


def _facts(effect: RateEffect, years: tuple[YearRow, ...]) -> Iterator[tuple[str, str]]:
    """Tell what the rate does by the second model, and what that model makes of the years."""
    yield "Two hours against 20 minutes", _times(effect)
    yield "The second model, by year", _second(effect, years)


def _times(effect: RateEffect) -> str:
    told = (
        f"no answer by {name}" if times is None else f"{times:.1f} times as many cycles by {name}"
        for name, times in zip(MODELS, effect.times, strict=True)
    )
    return "; ".join(told)


def _second(effect: RateEffect, years: tuple[YearRow, ...]) -> str:
    if effect.left_out:
        return f"left out: {effect.left_out}"
    told = (f"{_health(one.second)} after {one.year:g}" for one in years if one.year in (1, 5))
    return f"{', '.join(told)} years; the range above holds it, and the four others"


def _health(second: float | None) -> str:
    return "below 70\u00a0%" if second is None else f"{100 * second:.0f}\u00a0%"
