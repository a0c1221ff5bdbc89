"""What is held against what: the mass that counts, and the limit with all that the law adds to it."""

from __future__ import annotations

from dataclasses import dataclass

from uncertainties import UFloat

from dossier.compute.allowances import counted_mass
from dossier.figures import Figure, Input, Inputs, OutsideRange, evaluate, given, spread, taken
from dossier.judge.case import Case, warning
from dossier.judge.decision import Limit, in_unit, spread_in_unit
from dossier.judge.facts import first_failing
from dossier.judge.verdict import Obstacle
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


def counted(case: Case, test: FigureTest, figure: Figure, name: str) -> Figure | Obstacle:
    """Return the figure that counts: the mass less what the rule leaves out of it, or the figure itself."""
    if not test.exclusions:
        return figure
    pairs = [
        (item, given(exclusion.cap, f"allowance, {item.label}"))
        for exclusion in test.exclusions
        if case.rule_set.sources[exclusion.source].basis != "memory"
        for item in _left_out(case, exclusion)
    ]
    inputs: Inputs = {
        "m_E": taken(figure),
        "m_li": [item for item, _ in pairs],
        "m_ci": [cap for _, cap in pairs],
    }
    try:
        return evaluate(counted_mass, name, f"Mass that counts, {case.rule_set.title}", "mass", inputs)
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


def _left_out(case: Case, exclusion: Exclusion) -> tuple[Input, ...]:
    fitted = case.evidence.allowances.get(exclusion.item, ())
    return fitted if exclusion.each else tuple(sorted(fitted, key=lambda item: -item.value)[:1])


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
    difference = figure.estimate
    for addition in test.additions:
        added = _added(case, addition)
        if isinstance(added, Obstacle):
            return added
        amount, moved = added
        total += in_unit(amount, kind, unit)
        difference = difference - moved
    value = in_unit(figure.value, kind, unit)
    text = str(test.limit.text) if not test.additions else unit_behind(plain(total), unit)
    return Measured(value, spread_in_unit(spread(difference), kind, unit), Limit(total, test.relation), text)


def _added(case: Case, addition: Addition) -> tuple[float, UFloat | float] | Obstacle:
    """Return the amount in SI, and the part of it that carries an uncertainty."""
    open_condition = first_failing(case, addition.applies_if)
    if isinstance(open_condition, Obstacle):
        return open_condition
    if open_condition is not None:
        return 0.0, 0.0
    if addition.per is None:
        return addition.amount.value, 0.0
    figure = case.evidence.figures.get(str(addition.figure))
    if figure is None:
        return Obstacle(f"The limit depends on the figure {str(addition.figure)!r}, which is missing.")
    if figure.kind != addition.per.kind:
        return _wrong_kind(case, figure, addition.per.kind)
    slope = addition.amount.value / addition.per.value
    return slope * figure.value, figure.estimate * slope


def _wrong_kind(case: Case, figure: Figure, due: str) -> Obstacle:
    words = (
        f"the figure {figure.name!r} is a {called(figure.kind)}, and {case.name!r} asks for a {called(due)}"
    )
    return Obstacle(
        f"{words[0].upper()}{words[1:]}.",
        warning("J004", words, "correct the name of the figure in the rule set", case.place),
    )
