"""A working sheet as plain values: the same for the page and for the terminal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import zip_longest

from dossier import units
from dossier.compose.working.mathml import numbered
from dossier.compose.working.sampled_text import interval_in_si, sampled_text
from dossier.display import Preference, Shown, decimals_for, rounded, show, show_figure, with_doubt
from dossier.dossier import Dossier
from dossier.figures import Contribution, Figure, Input
from dossier.findings import Place
from dossier.glossary import SYMBOLS
from dossier.published_work import Citation
from dossier.quantities import COVERAGE_FACTOR
from dossier.steps import Points
from dossier.styles import STYLES

CONTRIBUTIONS_SHOWN = 3
NO_DOUBT = "Without an uncertainty"
"""How a note begins that says why a figure carries none."""
INPUT_DIGITS, POINT_DIGITS, RESULT_DIGITS = 10, 8, 7
"""An input has three digits more than the result, which is then met to its last digit."""


@dataclass(frozen=True)
class InputLine:
    """One value that goes into the formula."""

    symbol: str
    """LaTeX, an item of a list with its number."""
    label: str
    value: str
    """As the author wrote it, or in the reader's units."""
    si: str
    """In the SI unit that the formula takes."""
    spread: str
    """Expanded uncertainty in the same unit, k = 2, or the interval of the draws where that stands instead;
    empty where none is stated."""
    place: str
    """File and line, where it stands in the record."""
    figure: str
    """The name of the figure that it is, where it was computed."""
    source: str
    """The citation, where it is a constant; or a remark."""


@dataclass(frozen=True)
class StepLine:
    """One value on the way. All ready strings; ``latex`` is empty where it needs no formula."""

    label: str
    latex: str
    value: str


@dataclass(frozen=True)
class PointTable:
    """The points of an integral. All ready strings."""

    caption: str
    heads: tuple[tuple[str, str, str], ...]
    """Of each column: what it is, its symbol in LaTeX, its unit."""
    rows: tuple[tuple[str, ...], ...]
    total: str


@dataclass(frozen=True)
class Sheet:
    """How one figure came about."""

    name: str
    label: str
    title: str
    latex: str
    meanings: tuple[tuple[str, str], ...]
    """Each symbol in LaTeX with its meaning; the first is the result."""
    inputs: tuple[InputLine, ...]
    steps: tuple[StepLine, ...]
    points: tuple[PointTable, ...]
    result: str
    result_si: str
    contributions: tuple[tuple[str, str], ...]
    """The largest parts of the standard uncertainty, in the unit of the figure."""
    others: int
    """How many smaller parts are not listed."""
    sampled: tuple[str, ...]
    """What draws say, in sentences; empty where the figure was not sampled."""
    valid: str
    source: str
    basis: str
    """In words: how far the source was read."""
    note: str

    @property
    def without_doubt(self) -> str:
        """Say why no parts of an uncertainty are listed; empty where they are, or where the note says it."""
        if self.contributions or self.note.startswith(NO_DOUBT):
            return ""
        return "No uncertainty is stated for any of its inputs."


BASES = {
    "read": "seen in a copy",
    "read (secondary)": "read in a reprint, or as a third party reports it",
    "memory": "recalled, not seen: to be verified",
    "own": "derived in this project",
    "common practice": "a habit of the trade, no source",
}


def sheet(figure: Figure, dossier: Dossier) -> Sheet:
    """Write the sheet of a figure."""
    formula, preference = figure.working.formula, dossier.preference
    shown = _as_printed(figure, dossier)
    parts = figure.contributions()
    return Sheet(
        name=figure.name,
        label=figure.label,
        title=formula.title,
        latex=formula.latex,
        meanings=tuple(
            (SYMBOLS[key].latex, SYMBOLS[key].meaning) for key in (formula.result, *formula.parameters)
        ),
        inputs=tuple(_lines(figure, dossier)),
        steps=tuple(
            StepLine(step.label, step.latex, in_si(step.value, step.kind, RESULT_DIGITS, step.unit))
            for step in figure.working.steps
        ),
        points=tuple(_points(one) for one in figure.working.points),
        result=with_doubt(str(shown), shown.uncertainty),
        result_si=in_si(figure.value, figure.kind, RESULT_DIGITS),
        contributions=tuple(_part(part, figure, preference) for part in parts[:CONTRIBUTIONS_SHOWN]),
        others=len(parts[CONTRIBUTIONS_SHOWN:]),
        sampled=sampled_text(figure, dossier.sampled.get(figure.name), preference),
        valid=formula.valid,
        source=cited(formula.source),
        basis=BASES[formula.source.source.basis],
        note=figure.working.note,
    )


def _as_printed(figure: Figure, dossier: Dossier) -> Shown:
    """Print a figure as its page does: a cell of a table with the decimals of the table, whatever its ±."""
    shown = show_figure(figure, dossier.preference, dossier.sampled.get(figure.name))
    if not dossier.worked.is_cell(figure.name):
        return shown
    return replace(
        show(figure.value, figure.style or figure.kind, dossier.preference), uncertainty=shown.uncertainty
    )


def _points(one: Points) -> PointTable:
    columns = [[in_si(value, "number", POINT_DIGITS) for value in column.values] for column in one.columns]
    last = one.columns[-1]
    return PointTable(
        one.caption,
        tuple((each.label, each.latex, each.unit or _unit(each.kind).strip()) for each in one.columns),
        tuple(zip(*columns, strict=True)),
        f"{one.sums_to}: {in_si(one.total, last.kind, RESULT_DIGITS, last.unit)}",
    )


def _lines(figure: Figure, dossier: Dossier) -> Iterator[InputLine]:
    """List the inputs; lists run side by side, so that mass and arm of one item stand together."""
    columns = {
        key: (one,) if isinstance(one, Input) else tuple(one) for key, one in figure.working.inputs.items()
    }
    single = {key for key, one in figure.working.inputs.items() if isinstance(one, Input)}
    for key in single_first(columns, single):
        yield _line(SYMBOLS[key].latex, columns[key][0], dossier)
    many = [key for key in columns if key not in single]
    for number, items in enumerate(zip_longest(*(columns[key] for key in many)), 1):
        for key, item in zip(many, items, strict=True):
            if item is not None:
                yield _line(numbered(SYMBOLS[key].latex, number), item, dossier)


def single_first(columns: dict[str, tuple[Input, ...]], single: set[str]) -> list[str]:
    """Keep the order of the formula for the inputs that are one value."""
    return [key for key in columns if key in single]


def _line(latex: str, one: Input, dossier: Dossier) -> InputLine:
    origin = one.origin
    figure = origin if isinstance(origin, str) and origin in dossier.with_sheets else ""
    return InputLine(
        latex,
        one.label,
        _value(one, figure, dossier),
        in_si(one.value, one.kind, INPUT_DIGITS),
        _spread(one, figure, dossier),
        place=f"{origin.file}:{origin.line}" if isinstance(origin, Place) else "",
        figure=figure,
        source=cited(origin)
        if isinstance(origin, Citation)
        else origin
        if isinstance(origin, str) and not figure
        else "",
    )


def _spread(one: Input, figure: str, dossier: Dossier) -> str:
    sampled = dossier.sampled.get(figure)
    if sampled and not sampled.first_order_holds:
        return interval_in_si(sampled, one.kind)
    spread = COVERAGE_FACTOR * one.standard_uncertainty
    return f"± {rounded(spread, decimals_for(spread))}{_unit(one.kind)}" if spread else ""


def _value(one: Input, figure: str, dossier: Dossier) -> str:
    if figure:
        return str(show_figure(dossier.with_sheets[figure], dossier.preference, dossier.sampled.get(figure)))
    return one.text or str(show(one.value, one.kind, dossier.preference))


def cited(citation: Citation) -> str:
    """Write out the work and the place in it, without how far it was read."""
    source = citation.source
    return ", ".join(
        part for part in (source.title, source.publisher, source.edition, citation.locator) if part
    )


def _part(part: Contribution, figure: Figure, preference: Preference) -> tuple[str, str]:
    style = STYLES[figure.style or figure.kind]
    unit = style.us if preference.us_first else style.si
    if style.kind == "speed" and (figure.style or figure.kind) == "speed":
        unit = preference.airspeed
    amount = part.amount / units.scale(style.kind, unit)[0]
    return part.label, f"{rounded(amount, decimals_for(amount))}\u00a0{unit}".rstrip("\u00a0")


def in_si(value: float, kind: str, digits: int, unit: str = "") -> str:
    """Print an SI value to a number of significant digits, never with an exponent.

    ``unit`` goes for a unit that no kind has.
    """
    number = f"{Decimal(f'{value:.{digits - 1}e}'):f}"
    trimmed = number.rstrip("0").rstrip(".") if "." in number else number
    return trimmed.replace("-", "\u2212") + (f"\u00a0{unit}" if unit else _unit(kind))


def _unit(kind: str) -> str:
    si = units.KINDS[kind].si
    return "" if si == "1" else f"\u00a0{si}"
