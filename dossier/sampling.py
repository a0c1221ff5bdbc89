"""Draws: the same formulas on many values of the same errors, where a slope says too little.

First order (:func:`dossier.figures.propagate`) takes a formula for a straight line over one standard
uncertainty. A ratio with a small denominator is none, and neither is a formula whose range ends close by. A
draw gives every independent error a value and runs the workings of a figure again from the record up, so that
an error that two inputs share stays shared. The draws are points of :mod:`dossier.halton`, one base for each
error, in the order of how much an error matters: no seed, and the same numbers on every build.

Errors are normal, and rectangular where the record gives bounds. A mean of few readings is taken for normal
too, where JCGM 101:2008, 6.4.9, would have a t-distribution.

Source: propagation of distributions, JCGM 101:2008, clauses 5 to 7 (memory)
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from math import floor, log10
from statistics import NormalDist
from typing import Any

import numpy as np

from dossier import halton
from dossier.figures import Figure, Formula, Input, Inputs
from dossier.halton import COUNT, Array
from dossier.quantities import BoundedError

COVERAGE = 0.95
"""Of the interval, probabilistically symmetric: as much below as above it (JCGM 101:2008, 7.7, memory)."""
SHARES = ((1 - COVERAGE) / 2, 0.5, (1 + COVERAGE) / 2)
MULTIPLE = NormalDist().inv_cdf(SHARES[2])
"""1.96: what first order has to be compared with, and not the k = 2 that is printed."""
TOLERATED = 0.1
"""Of the width: how far an end of the first-order interval may be off. Own choice, about 0.4 standard
uncertainties, where JCGM 101:2008, 8.1 (memory), with one digit takes 0.05 to 0.5."""


@dataclass(frozen=True)
class Sampled:
    """What the draws say of one value, beside what first order says. SI."""

    quantiles: tuple[float, float, float] | None
    """At 2.5, 50 and 97.5 % of the draws that have an answer; None where no draw has one."""
    unanswered: float
    """The share of the draws that have none, 0 to 1."""
    state: str = ""
    """Why the first of them has none, in a few words without numbers; empty where it is not known."""
    because: str = ""
    """The same, in full and with the numbers of that draw."""
    first_order: tuple[float, float] | None = None
    """The ends of the 95 % interval by first order; None where none was made."""

    @property
    def largest_difference(self) -> float | None:
        """How far an end by first order is from the end by the draws; None where one of them is not there."""
        if self.quantiles is None or self.first_order is None:
            return None
        low, _, high = self.quantiles
        return max(abs(self.first_order[0] - low), abs(self.first_order[1] - high))

    @property
    def first_order_holds(self) -> bool:
        """Whether the plain ± may stand: every draw has an answer, and both ends agree."""
        off = self.largest_difference
        if off is None or self.quantiles is None or self.unanswered:
            return False
        return off <= TOLERATED * (self.quantiles[2] - self.quantiles[0])


def numerical_tolerance(standard_uncertainty: float, digits: int = 1) -> float:
    """Return half the last digit that a standard uncertainty has when it is written with some digits.

    Formula: u = c 10^l with c of that many digits; delta = 10^l / 2
    Valid: a positive standard uncertainty, at least one digit
    Source: JCGM 101:2008, 7.9.2 (memory); 8.1 takes first order for validated where no end is off by more
    """
    rounded = float(f"{standard_uncertainty:.{digits - 1}e}")
    return 0.5 * 10.0 ** (floor(log10(rounded)) - digits + 1)


@dataclass(frozen=True)
class Refusal:
    """The first draw that has no answer; the default says that there is none."""

    draw: int = COUNT
    message: str = ""
    state: str = ""


@dataclass(frozen=True, eq=False)
class Column:
    """One value in all draws."""

    values: Array
    """Not a number where the draw has no answer; one value alone where all draws have the same."""
    refused: Refusal = Refusal()

    @property
    def is_constant(self) -> bool:
        """Whether no error moves it."""
        return self.values.ndim == 0

    def sampled(self, first_order: tuple[float, float] | None = None) -> Sampled:
        """Sum it up."""
        values = np.broadcast_to(self.values, COUNT)
        answered = np.sort(values[np.isfinite(values)])
        missing = 1 - answered.size / COUNT
        why = self.refused
        if not answered.size:
            return Sampled(None, missing, why.state, why.message, first_order)
        low, median, high = (float(one) for one in np.quantile(answered, SHARES))
        return Sampled((low, median, high), missing, why.state, why.message, first_order)


class Draws:
    """Values of all errors that some figures rest on, and of whatever is made from these errors.

    Args:
        ranked: what will be asked for. An error that makes a large part of the uncertainty of one of them
            gets a small base, whose points are spread most evenly.
    """

    def __init__(self, ranked: Iterable[Figure | Input]) -> None:
        """Give every error its base."""
        self._bases = dict(zip(_sources(tuple(ranked)), halton.primes(), strict=False))
        self._made: dict[int, tuple[Figure, Column]] = {}

    def of(self, one: Figure | Input) -> Column:
        """Return a figure or an input in all draws; what one figure is made of is evaluated once.

        Raises:
            KeyError: it rests on an error that nothing in ``ranked`` rests on.
        """
        figure = _figure(one)
        if figure is None:
            return Column(self._moved(one.estimate))
        if id(figure) not in self._made:
            working = figure.working
            self._made[id(figure)] = (figure, self.evaluate(working.formula, working.inputs))
        return self._made[id(figure)][1]

    def evaluate(self, formula: Callable[..., float], inputs: Inputs) -> Column:
        """Evaluate a formula draw by draw.

        A draw that the formula refuses has no answer, and what is made of it has none either.
        """
        taken = {
            name: [self.of(one)] if isinstance(one, Input) else [self.of(item) for item in one]
            for name, one in inputs.items()
        }
        single = {name for name, one in inputs.items() if isinstance(one, Input)}
        if all(column.is_constant for many in taken.values() for column in many):
            numbers = {name: _numbers(many) for name, many in taken.items()}
            return Column(np.asarray(float(formula(**_arguments(numbers, single)))))
        if isinstance(formula, Formula) and formula.is_elementwise:
            return _at_once(formula, taken, single)
        return _row_by_row(formula, taken, single)

    def _moved(self, estimate: Any) -> Array:
        if isinstance(estimate, float | int):
            return np.asarray(float(estimate))
        values = np.full(COUNT, float(estimate.nominal_value))
        for source, slope in estimate.derivatives.items():
            shape = halton.rectangular if isinstance(source, BoundedError) else halton.normal
            values += slope * source.std_dev * shape(self._bases[source])
        return values


def sample(figures: Iterable[Figure]) -> dict[str, Sampled]:
    """Sample figures that carry an uncertainty, all on the same draws, and hold first order against it."""
    wanted = [figure for figure in figures if not isinstance(figure.estimate, float | int)]
    draws = Draws(wanted)
    return {figure.name: draws.of(figure).sampled(_first_order(figure)) for figure in wanted}


def _first_order(figure: Figure) -> tuple[float, float]:
    reach = MULTIPLE * figure.standard_uncertainty
    return figure.value - reach, figure.value + reach


def _figure(one: Figure | Input) -> Figure | None:
    """Return the figure whose working can be run again; an input that is not just the figure has none."""
    figure = one if isinstance(one, Figure) else one.figure
    if figure is None or isinstance(figure.estimate, float | int) or one.estimate is not figure.estimate:
        return None
    return figure


def _sources(ranked: tuple[Figure | Input, ...]) -> list[Any]:
    """List the independent errors, the ones that matter most to one of the values first."""
    share: dict[Any, float] = {}
    for one in ranked:
        for source in _below(one, set()):
            share.setdefault(source, 0.0)
        if not isinstance(one.estimate, float | int) and one.standard_uncertainty:
            for source, amount in one.estimate.error_components().items():
                share[source] = max(share.get(source, 0.0), (amount / one.standard_uncertainty) ** 2)
    return sorted(share, key=lambda source: -share[source])


def _below(one: Figure | Input, seen: set[int]) -> Iterator[Any]:
    """Walk the workings down to the errors: one whose slope is 0 is not in the estimate of the result."""
    figure = _figure(one)
    if figure is None:
        if not isinstance(one.estimate, float | int):
            yield from one.estimate.derivatives
    elif id(figure) not in seen:
        seen.add(id(figure))
        for items in figure.working.inputs.values():
            for item in (items,) if isinstance(items, Input) else items:
                yield from _below(item, seen)


def _arguments(taken: dict[str, list[Any]], single: set[str]) -> dict[str, Any]:
    """Give each parameter its one value, or the list that it takes."""
    return {name: many[0] if name in single else many for name, many in taken.items()}


def _numbers(columns: list[Column], draw: int = 0) -> list[float]:
    return [float(np.broadcast_to(column.values, COUNT)[draw]) for column in columns]


def _earliest(taken: dict[str, list[Column]]) -> Refusal:
    return min((one.refused for many in taken.values() for one in many), key=lambda refused: refused.draw)


def _at_once(formula: Formula, taken: dict[str, list[Column]], single: set[str]) -> Column:
    """Run a formula that takes columns; the first draw that it refuses is run by itself, to be told why."""
    first = _earliest(taken)
    columns = {name: [one.values for one in many] for name, many in taken.items()}
    with np.errstate(all="ignore"):
        found = np.asarray(formula(**_arguments(columns, single)), float)
    lost = np.flatnonzero(~np.isfinite(found))
    if lost.size and lost[0] < first.draw:
        draw = int(lost[0])
        try:
            formula(**_arguments({name: _numbers(many, draw) for name, many in taken.items()}, single))
        except (ValueError, ArithmeticError) as error:  # an OutsideRange is a ValueError
            first = Refusal(draw, str(error), getattr(error, "state", ""))
    return _finite(found, first)


def _row_by_row(formula: Callable[..., float], taken: dict[str, list[Column]], single: set[str]) -> Column:
    """Run a formula that takes numbers alone; it costs about 2 ms, and 4 ms for each µs of the formula."""
    first = _earliest(taken)
    function = formula.function if isinstance(formula, Formula) else formula
    given = ~np.isnan(sum((one.values for many in taken.values() for one in many), np.zeros(COUNT)))
    still = {name: _numbers(many) for name, many in taken.items() if all(one.is_constant for one in many)}
    fixed = _arguments(still, single)
    moving = [name for name in taken if name not in fixed]
    rows = zip(*(_listed(taken[name], name in single) for name in moving), strict=True)
    found = np.full(COUNT, np.nan)
    for draw, row in enumerate(rows):
        if not given[draw]:
            continue
        try:
            found[draw] = function(**fixed, **dict(zip(moving, row, strict=True)))
        except (ValueError, ArithmeticError) as error:
            if draw < first.draw:
                first = Refusal(draw, str(error), getattr(error, "state", ""))
    return _finite(found, first)


def _listed(columns: list[Column], single: bool) -> Iterable[Any]:
    lists = [np.broadcast_to(column.values, COUNT).tolist() for column in columns]
    return lists[0] if single else zip(*lists, strict=True)


def _finite(found: Array, first: Refusal) -> Column:
    """Take an answer that is no finite number for none."""
    lost = np.flatnonzero(~np.isfinite(found))
    if lost.size and lost[0] < first.draw:
        first = Refusal(int(lost[0]), "the result is no finite number")
    return Column(np.where(np.isfinite(found), found, np.nan), first)
