"""Two answers to one question, side by side: what a flight test measured and what is computed, and the power
of level flight by the polar and by the sink of the energy table."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.printer import Printer
from dossier.compose.words import sentence
from dossier.display import MINUS, show_uncertain
from dossier.figures import Figure
from dossier.quantities import COVERAGE_FACTOR
from dossier.results.flight import Performance
from dossier.results.flight_comparison import SINK, TOP_SPEED, TYPE, WORDS, Compared

_STATES = {
    True: Mark("Agree", "conforms"),
    False: Mark("Disagree", "fails"),
    None: Mark("Not compared", "not-shown"),
}
_NOT_REACHED = Mark("Not reached", "inconclusive")
_HEADS = "What | State | # Measured | # Computed | # Measured less computed"


def measured_table(at: Printer, made: Performance) -> Grid | None:
    """Hold what was measured beside what is computed; None without a flight test."""
    rows = [_line(at, one) for one in made.compared]
    caption = "Measured, and computed at the mass of the test for sea level and standard air"
    return grid(caption, _HEADS, rows) if rows else None


def _line(at: Printer, one: Compared) -> Row:
    style = "vertical_speed" if one.quantity == SINK else "speed"
    day = f"{one.day.isoformat()}, {at.first(one.mass, 'mass')}; against {one.against}"
    computed = "none" if one.computed is None else at.first(one.computed, style)
    ends = "" if one.computed is None else f"{at.first(one.low, style)} to {at.first(one.high, style)} (95 %)"
    return row(
        Cell(sentence(WORDS[one.quantity]), note="; ".join(part for part in (day, one.remark) if part)),
        Cell(mark=_NOT_REACHED if _slower(one) else _STATES[one.agrees], note=one.why_not),
        _plus_minus(at, one.measured, one.expanded, style),
        Cell(computed, note=ends),
        _difference(at, one, style),
    )


def _slower(one: Compared) -> bool:
    return one.quantity == TOP_SPEED and one.not_reached


def _plus_minus(at: Printer, value: float, expanded: float, style: str) -> str:
    shown = show_uncertain(value, expanded / COVERAGE_FACTOR, style, at.dossier.preference)
    return f"{shown.first} {shown.uncertainty}".rstrip()


def _difference(at: Printer, one: Compared, style: str) -> Cell:
    if one.difference is None or one.agrees is None:
        return Cell("")
    return Cell(
        _signed(at, one.difference, style),
        note=f"both may be off by ± {at.first(one.allowed, style)} (k = 2)",
    )


def _signed(at: Printer, value: float, style: str) -> str:
    return f"{MINUS if value < 0 else '+'}{at.first(abs(value), style)}"


def not_reached(made: Performance) -> float | None:
    """Return the measured top speed in m/s where the computed one was not reached; None where it was."""
    return next((one.measured for one in made.compared if _slower(one)), None)


def power_table(at: Printer, made: Performance) -> Grid | None:
    """Hold the power of level flight by the polar beside that of the energy table."""
    figures = at.dossier.figures
    rows = [
        _powers(at, option.name, option.level_power, figures[f"level_power.{option.option}"])
        for option in made.options
        if option.level_power and f"level_power.{option.option}" in figures
    ]
    caption = "Power that keeps height with the heaviest pilot, computed in two ways"
    heads = "Battery | State | # From the polar | # From the sink of the type (energy table) | # Difference"
    return grid(caption, heads, rows) if rows else None


def _powers(at: Printer, name: str, polar: Figure, stated: Figure) -> Row:
    difference = polar.value - stated.value
    # the masses and the efficiency are the same in both: what is shared falls out of the difference
    spread = COVERAGE_FACTOR * _standard(polar, stated)
    return row(
        name,
        _STATES[abs(difference) <= spread],
        _printed(at, polar),
        _printed(at, stated),
        Cell(
            _signed(at, difference, "power"),
            note=f"both may be off by ± {at.first(spread, 'power')} (k = 2)",
        ),
    )


def _standard(one: Figure, other: Figure) -> float:
    difference = one.estimate - other.estimate
    return float(getattr(difference, "std_dev", hypot(one.standard_uncertainty, other.standard_uncertainty)))


def _printed(at: Printer, figure: Figure) -> Cell:
    shown = at.figure(figure)
    return Cell(f"{shown.first} {shown.uncertainty}".rstrip(), shown.sheet)


def sink_words(at: Printer) -> Iterator[str]:
    """Say on the energy page which sink is used, and how this aircraft's own, if measured, lies beside it."""
    made = at.dossier.performance
    for one in made.compared if made else ():
        if (one.quantity, one.against) != (SINK, TYPE) or one.difference is None:
            continue
        both = _plus_minus(at, one.measured, one.expanded, "vertical_speed")
        of_type = at.first(one.computed or 0.0, "vertical_speed")
        off = at.first(abs(one.difference), "vertical_speed")
        less = "less" if one.difference < 0 else "more"
        agree = {
            True: f"that is {off} {less}, and within what both may be off: they agree",
            False: f"that is {off} {less}, and beyond what both may be off: they do not agree, and the "
            "endurance rests on the worse known of the two",
            None: f"they are not compared: {one.why_not}",
        }[one.agrees]
        yield (
            f"The sink in these flights is that of the type, {of_type} at {at.first(one.mass, 'mass')}. This "
            f"aircraft's own, measured on {one.day.isoformat()}, is {both} at that mass; {agree}"
        )
