"""A figure is a named computed value with unit, uncertainty and working: formula, inputs, source.

A formula in ``compute`` is a plain function on SI floats. Its docstring is its data sheet, read here by
:func:`formula`. Uncertainty wraps the formula and stays out of it: :func:`evaluate` runs the function again
with every input moved by its standard uncertainty (JCGM 100:2008, 5.1.3, note 2) and keeps track of inputs
that two figures share, so that their common errors cancel or add as they should (5.2). Where a slope says too
little, :mod:`dossier.sampling` runs the same formulas on draws of the same errors.
"""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import update_wrapper
from typing import Any

from uncertainties import UFloat

from dossier.findings import Place
from dossier.published_work import Citation
from dossier.quantities import Quantity, error
from dossier.sources import cite
from dossier.steps import Points, Step


class OutsideRange(ValueError):  # noqa: N818 - names the state of the input, not a fault of the program
    """A formula was asked beyond the range in which it holds. The message names the bound and the value."""

    def __init__(self, message: str, state: str = "") -> None:
        """Keep the message, and what it comes to in a few words without numbers, for many cases at once."""
        super().__init__(message)
        self.state = state


class FirstOrderFails(OutsideRange):
    """The estimate has an answer, and a value one standard uncertainty away has none: no slope can be had.

    Carries what was to be evaluated, so that draws can tell how often there is an answer.
    """

    def __init__(self, message: str, formula: Callable[..., float], inputs: Inputs) -> None:
        """Keep the formula and its inputs beside the message."""
        super().__init__(message)
        self.formula = formula
        self.inputs = inputs
        self.style = "number"
        """How the answer would have been printed."""


class Formula:
    """A function of ``compute`` with its data sheet.

    The docstring holds one line of title and then, each at the start of a line: ``Formula:`` in LaTeX,
    ``Result:`` the glossary symbol of the answer, ``Valid:`` the range in words, ``Source:`` a key of
    :mod:`dossier.sources` and, after a comma, the place in it. Every parameter is a symbol of
    :mod:`dossier.glossary`. Values are SI floats; a parameter that takes a sequence is annotated so.
    """

    def __init__(self, function: Callable[..., float]) -> None:
        """Read the sheet; a missing line or an unknown source is an error at import."""
        self.function = function
        self.name = function.__name__
        sheet = inspect.getdoc(function) or ""
        self.title = sheet.partition("\n")[0].rstrip(".")
        self.latex = _entry(sheet, "Formula")
        self.result = _entry(sheet, "Result")
        self.valid = _entry(sheet, "Valid")
        self.source: Citation = cite(_entry(sheet, "Source"))
        self.parameters: tuple[str, ...] = tuple(inspect.signature(function).parameters)
        self.is_elementwise = False
        """Whether it also takes columns of draws, see :func:`elementwise`."""
        update_wrapper(self, function)

    def __call__(self, *values: Any, **named: Any) -> float:
        """Evaluate on plain SI floats."""
        return self.function(*values, **named)

    def __reduce__(self) -> str:
        """Copy and pickle by name, as a function is, so that a working can go to another process."""
        return self.function.__qualname__


def _entry(sheet: str, heading: str) -> str:
    found = re.search(rf"^{heading}:\s*(.+?)(?=\n\S|\n\n|\Z)", sheet, re.MULTILINE | re.DOTALL)
    if found is None:
        raise ValueError(f"the docstring has no {heading!r} line: {sheet.partition(chr(10))[0]!r}")
    return " ".join(found[1].split())


def formula(function: Callable[..., float]) -> Formula:
    """Read the data sheet in the docstring of a function of ``compute``."""
    return Formula(function)


def elementwise(function: Callable[..., float]) -> Formula:
    """Read the data sheet of a formula that takes a column of draws as well wherever it takes a number.

    It then answers with a column, with "not a number" in the rows for which it would raise OutsideRange.
    """
    made = Formula(function)
    made.is_elementwise = True
    return made


@dataclass(frozen=True)
class Input:
    """One value that went into a figure, and where it stands."""

    label: str
    kind: str
    estimate: UFloat | float
    origin: Place | Citation | str
    """A place in the record, a source, or the name of another figure."""
    text: str = ""
    """As the author wrote it, where it comes from the record."""
    figure: Figure | None = field(default=None, compare=False, repr=False)
    """The figure that it is, where it is one: its own working can then be run again."""

    @property
    def value(self) -> float:
        """The best estimate in SI."""
        return nominal(self.estimate)

    @property
    def standard_uncertainty(self) -> float:
        """The standard uncertainty in SI."""
        return spread(self.estimate)


Inputs = Mapping[str, Input | Sequence[Input]]


@dataclass(frozen=True)
class Working:
    """How a figure came about."""

    formula: Formula
    inputs: Inputs
    steps: tuple[Step, ...] = ()
    note: str = ""
    points: tuple[Points, ...] = ()
    """Of the integrals in the formula."""


@dataclass(frozen=True)
class Contribution:
    """What one input adds to the standard uncertainty of a figure, in the unit of the figure."""

    label: str
    amount: float


@dataclass(frozen=True)
class Figure:
    """A computed value. Two figures that share an input know it, so their difference comes out right."""

    name: str
    """Lower case, words joined by ``_``, parts by ``.``: ``endurance.long_pack``."""
    label: str
    kind: str
    estimate: UFloat | float = field(compare=False)
    working: Working = field(compare=False, repr=False)
    style: str = ""
    """How it is printed, a key of :data:`dossier.styles.STYLES`; empty: the usual one of its kind."""

    @property
    def value(self) -> float:
        """The best estimate in SI."""
        return nominal(self.estimate)

    @property
    def standard_uncertainty(self) -> float:
        """The standard uncertainty in SI."""
        return spread(self.estimate)

    def contributions(self) -> tuple[Contribution, ...]:
        """List what makes the uncertainty, the largest first."""
        if isinstance(self.estimate, float | int):
            return ()
        amounts: dict[str, float] = {}
        for variable, amount in self.estimate.error_components().items():
            label = variable.tag or "unnamed"
            amounts[label] = (amounts.get(label, 0.0) ** 2 + amount**2) ** 0.5
        ranked = sorted(amounts.items(), key=lambda item: (-item[1], item[0]))
        return tuple(Contribution(label, amount) for label, amount in ranked if amount > 0)


def nominal(estimate: UFloat | float) -> float:
    """Return the best estimate of a value that may or may not carry an uncertainty."""
    return float(estimate) if isinstance(estimate, float | int) else float(estimate.nominal_value)


def spread(estimate: UFloat | float) -> float:
    """Return the standard uncertainty of a value, 0 where it carries none."""
    return 0.0 if isinstance(estimate, float | int) else float(estimate.std_dev)


def given(quantity: Quantity, label: str) -> Input:
    """Take a quantity of the record as an input. The same quantity taken twice is the same input."""
    origin = quantity.place or "not in a file"
    return Input(label, quantity.kind, quantity.estimate(label), origin, quantity.text)


def taken(figure: Figure) -> Input:
    """Take an earlier figure as an input."""
    return Input(figure.label, figure.kind, figure.estimate, figure.name, figure=figure)


def constant(label: str, kind: str, value: float, source: str) -> Input:
    """Take a constant from a source, written as for :func:`dossier.sources.cite`."""
    return Input(label, kind, value, cite(source))


def error_source(label: str, standard_uncertainty: float, *, bounded: bool = False) -> UFloat:
    """Make an error of estimate zero that inputs may share, such as one calibration of three scales.

    ``bounded`` keeps it rectangular, as the largest permissible error of an instrument is.
    """
    return error(0.0, standard_uncertainty, label, bounded=bounded)


def evaluate(formula: Formula, name: str, label: str, kind: str, inputs: Inputs, **more: Any) -> Figure:
    """Evaluate a formula at the estimates of its inputs and carry their uncertainties to the result.

    Args:
        formula: the function with its data sheet.
        name: the figure's name.
        label: what a reader calls it.
        kind: a key of :data:`dossier.units.KINDS`.
        inputs: for each parameter of the formula one input, or a sequence of them.
        more: ``style`` of the figure, ``steps``, ``points`` and ``note`` of its working.

    Raises:
        OutsideRange: the formula does not hold for these values.
        FirstOrderFails: its range ends within one standard uncertainty of an input, where a slope would say
            nothing.
    """
    shown = tuple(more.pop("steps", ())), more.pop("note", ""), tuple(more.pop("points", ()))
    working = Working(formula, inputs, *shown)
    try:
        estimate = propagate(formula, inputs)
    except FirstOrderFails as failed:
        failed.style = more.get("style") or kind
        raise
    return Figure(name, label, kind, estimate, working, **more)


def propagate(formula: Callable[..., float], inputs: Inputs) -> UFloat | float:
    """Carry uncertainty through any function of floats, first order, with correlation kept.

    Raises:
        OutsideRange: as for :func:`evaluate`.
    """
    values = {
        parameter: one.value if isinstance(one, Input) else [item.value for item in one]
        for parameter, one in inputs.items()
    }
    estimate: UFloat | float = float(formula(**values))
    for parameter, index, item in _singly(inputs):
        if item.standard_uncertainty > 0:
            try:
                slope = _slope(formula, values, parameter, index, item.standard_uncertainty)
            except OutsideRange as outside:
                message = f"within one standard uncertainty of the {item.label}, {outside}"
                raise FirstOrderFails(message, formula, inputs) from outside
            estimate = estimate + slope * (item.estimate - item.value)
    return estimate


def _singly(inputs: Inputs) -> Iterator[tuple[str, int | None, Input]]:
    for parameter, one in inputs.items():
        if isinstance(one, Input):
            yield parameter, None, one
        else:
            for index, item in enumerate(one):
                yield parameter, index, item


def _slope(
    formula: Callable[..., float], values: Mapping[str, Any], parameter: str, index: int | None, step: float
) -> float:
    """Return the difference quotient over plus and minus one standard uncertainty."""
    ends = []
    for move in (step, -step):
        moved = dict(values)
        if index is None:
            moved[parameter] = values[parameter] + move
        else:
            moved[parameter] = [*values[parameter]]
            moved[parameter][index] += move
        ends.append(float(formula(**moved)))
    return (ends[0] - ends[1]) / (2 * step)
