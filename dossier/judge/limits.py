"""What is held against what: the mass that counts, and the limit with all that the law adds to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compute.allowances import counted_mass
from dossier.figures import Figure, Inputs, OutsideRange, evaluate, given, spread, taken
from dossier.findings import Place
from dossier.judge.case import Case, warning
from dossier.judge.decision import Limit, in_unit, spread_in_unit
from dossier.judge.evidence import Allowance
from dossier.judge.facts import first_failing
from dossier.judge.near_limit import Part
from dossier.judge.verdict import LeftOut, Obstacle
from dossier.judge.words import called, plain, unit_behind
from dossier.model.rule_set import Addition, Exclusion, FigureTest


@dataclass(frozen=True)
class Measured:
    """A figure in the unit of the law, with the limit that it is held against."""

    value: float
    uncertainty: float
    """Standard, of the difference from the limit: a limit that depends on a figure brings its share."""
    limit: Limit
    limit_text: str
    parts: tuple[Part, ...]
    """What the difference from the limit is made of, each with its factor."""


def counted(case: Case, test: FigureTest, figure: Figure, name: str, words: str = "") -> Figure | Obstacle:
    """Return the figure that counts: the mass less what the rule leaves out of it, or the figure itself.

    Args:
        case: what is judged.
        test: what the rule asks of the figure.
        figure: the mass.
        name: of the figure that counts.
        words: with which battery, for its label.
    """
    if not test.exclusions:
        return figure
    pairs = tuple(_pairs(case, test))
    inputs: Inputs = {
        "m_E": taken(figure),
        "m_li": [item.mass for item, _ in pairs],
        "m_ci": [given(exclusion.cap, f"allowance, {item.name}") for item, exclusion in pairs],
    }
    try:
        return evaluate(counted_mass, name, f"Mass that counts, {case.rule_set.title}{words}", "mass", inputs)
    except OutsideRange as error:
        return Obstacle(
            f"The mass that counts cannot be computed: {error}.",
            warning(
                "J003",
                f"the mass that counts cannot be computed: {error}",
                "correct the masses of the items that are left out",
                case.place,
            ),
        )


def excluded(case: Case, test: FigureTest) -> tuple[tuple[Place | None, LeftOut], ...]:
    """Say item by item what the rule leaves out, in the unit of the law, and where its mass stands."""
    return tuple(
        (
            item.mass.origin if isinstance(item.mass.origin, Place) else None,
            _left_out(case, test, item, exclusion),
        )
        for item, exclusion in _pairs(case, test)
    )


def _left_out(case: Case, test: FigureTest, item: Allowance, exclusion: Exclusion) -> LeftOut:
    kind, unit = test.limit.kind, test.limit.unit
    source = case.rule_set.sources[exclusion.source]
    return LeftOut(
        item.name,
        in_unit(item.mass.value, kind, unit),
        spread_in_unit(item.mass.standard_uncertainty, kind, unit),
        is_of_piece=item.is_of_piece,
        allowance=in_unit(exclusion.cap.value, kind, unit),
        source=str(source.title),
        source_basis=str(source.basis),
    )


def _pairs(case: Case, test: FigureTest) -> Iterator[tuple[Allowance, Exclusion]]:
    """Yield each item that is left out; one whose allowance no source shows is counted in full."""
    for exclusion in test.exclusions:
        if case.rule_set.sources[exclusion.source].basis != "memory":
            fitted = case.evidence.allowances.get(exclusion.item, ())
            heaviest_first = sorted(fitted, key=lambda item: -item.mass.value)
            for item in fitted if exclusion.each else heaviest_first[:1]:
                yield item, exclusion


def unread_allowances(case: Case, test: FigureTest) -> tuple[str, ...]:
    """Name the fitted items whose allowance could not be read; they were counted in full."""
    return tuple(
        str(exclusion.item)
        for exclusion in test.exclusions
        if case.rule_set.sources[exclusion.source].basis == "memory"
        and case.evidence.allowances.get(exclusion.item)
    )


def measured(case: Case, test: FigureTest, figure: Figure) -> Measured | Obstacle:
    """Convert a figure to the unit of the law and work out the limit."""
    kind, unit = test.limit.kind, test.limit.unit
    if figure.kind != kind:
        return _wrong_kind(case, figure, kind)
    total = in_unit(test.limit.value, kind, unit)
    difference, parts = figure.estimate, [(1.0, figure)]
    for addition in test.additions:
        added = _added(case, addition)
        if isinstance(added, Obstacle):
            return added
        amount, moving = added
        total += in_unit(amount, kind, unit)
        for factor, part in moving:
            difference = difference - factor * part.estimate
            parts.append((-factor, part))
    value = in_unit(figure.value, kind, unit)
    text = str(test.limit.text) if not test.additions else unit_behind(plain(total), unit)
    uncertainty = spread_in_unit(spread(difference), kind, unit)
    return Measured(value, uncertainty, Limit(total, test.relation), text, tuple(parts))


def _added(case: Case, addition: Addition) -> tuple[float, tuple[tuple[float, Figure], ...]] | Obstacle:
    """Return the amount in SI, and the figure that it goes with, if any, with its factor."""
    open_condition = first_failing(case, addition.applies_if)
    if isinstance(open_condition, Obstacle):
        return open_condition
    if open_condition is not None:
        return 0.0, ()
    if addition.per is None:
        return addition.amount.value, ()
    figure = case.evidence.figures.get(str(addition.figure))
    if figure is None:
        return Obstacle(f"The limit depends on the figure {str(addition.figure)!r}, which is missing.")
    if figure.kind != addition.per.kind:
        return _wrong_kind(case, figure, addition.per.kind)
    slope = addition.amount.value / addition.per.value
    return slope * figure.value, ((slope, figure),)


def _wrong_kind(case: Case, figure: Figure, due: str) -> Obstacle:
    words = (
        f"the figure {figure.name!r} is a {called(figure.kind)}, and {case.name!r} asks for a {called(due)}"
    )
    return Obstacle(
        f"{words[0].upper()}{words[1:]}.",
        warning("J004", words, "correct the name of the figure in the rule set", case.place),
    )
