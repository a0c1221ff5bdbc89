"""Text such as ``"108.4 kg ± 0.2 kg"`` to an SI value with a standard uncertainty."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field

from uncertainties import UFloat, ufloat
from uncertainties.core import Variable

from dossier import units
from dossier.findings import Place

COVERAGE_FACTOR = 2.0
"""What a plain ``±`` means: an expanded uncertainty with k = 2 (JCGM 100:2008, 7.2.4 asks that
k be stated)."""

# 0 to 9 and not \d, which takes the digits of every script
_NUMBER = r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?"
_BELOW = r"/\([^±()\n]*\)"
"""What a unit has below its stroke, in brackets: J/(kg K)."""
_SHAPE = re.compile(
    rf"^(?P<value>{_NUMBER})(?P<gap> ?)(?P<unit>[^\W\d_°%](?:[^±+(\n]|{_BELOW})*?|[°%][^±+(\n]*?)?"
    rf"(?:[ ]*(?:±|\+/-)[ ]*(?P<spread>{_NUMBER})[ ]?"
    rf"(?P<spread_unit>[^\W\d_](?:[^±(\n]|{_BELOW})*?|[°%][^±(\n]*?)?"
    r"(?:[ ]*\((?P<meaning>[^)]*)\))?)?\Z"
)
_NOT_ZERO = re.compile(r"[-+.0]*[1-9]")
LARGEST, SMALLEST = 1e15, 1e-15
"""In the SI unit, whatever the kind: nothing of a light aircraft lies beyond, and formulas go on to
squares and quotients."""
LEAST_COVERAGE, MOST_COVERAGE = 0.5, 10.0
"""Coverage factors lie between 2 and 3 in general (JCGM 100:2008, 6.3.3); what is far from that is a slip."""
_COVERAGE = re.compile(r"^k\s*=\s*(?P<k>[0-9]+(?:\.[0-9]+)?)\Z")


class BoundedError(Variable):  # type: ignore[misc]  # the library has no types
    """An error that lies within bounds, every value there as likely: rectangular (JCGM 100:2008, 4.3.7).

    First order takes it by its standard uncertainty like any other; :mod:`dossier.sampling` keeps its shape.
    """

    __slots__ = ()


def error(value: float, standard_uncertainty: float, label: str, *, bounded: bool) -> UFloat:
    """Make one error as a random variable of its own, normal or rectangular."""
    if bounded:
        return BoundedError(value, standard_uncertainty, label)
    return ufloat(value, standard_uncertainty, tag=label)


@dataclass(frozen=True)
class Quantity:
    """A value in SI with its standard uncertainty, and what the author wrote."""

    value: float
    """In the SI unit of the kind."""
    kind: str
    """A key of :data:`dossier.units.KINDS`."""
    standard_uncertainty: float = 0.0
    """In the SI unit of the kind."""
    text: str = ""
    unit: str = ""
    """The unit as written."""
    place: Place | None = field(default=None, compare=False, repr=False)
    bounded: bool = False
    """Whether the uncertainty was written as ``(limits)``: the bounds of a rectangular distribution."""
    _estimates: dict[str, UFloat] = field(default_factory=dict, compare=False, repr=False)

    def estimate(self, label: str) -> UFloat | float:
        """Return the value with its uncertainty as one random variable: the same each time it is asked for.

        Two figures made from this quantity then share its error. The label of the first asking names it.
        """
        if not self.standard_uncertainty:
            return self.value
        if not self._estimates:
            self._estimates[label] = error(self.value, self.standard_uncertainty, label, bounded=self.bounded)
        return next(iter(self._estimates.values()))

    @property
    def as_written(self) -> float:
        """The value in the unit that the author used."""
        factor, offset = units.scale(self.kind, self.unit)
        return (self.value - offset) / factor


class NotAQuantity(ValueError):  # noqa: N818 - says what the text is not
    """The text is no quantity of the wanted kind. Carries what is wrong and what would be right."""

    def __init__(self, wrong: str, right: str) -> None:
        """Take what is wrong, and what would be right."""
        super().__init__(wrong)
        self.wrong = wrong
        self.right = right


def parse(text: str, kind: str, place: Place | None = None) -> Quantity:
    """Read a quantity of one kind.

    Taken: ``"108.4 kg"``; ``"108.4 kg ± 0.2 kg"`` (expanded, k = 2); ``"... ± 0.2 kg (k=1)"``;
    ``"... ± 0.2 kg (limits)"`` (the bounds of an instrument, rectangular, u = a/√3, JCGM 100:2008, 4.3.7);
    ``"9.5 kW ± 5 %"`` (relative). ``+/-`` may stand for ``±``.

    Raises:
        NotAQuantity: with what is wrong and a line that would be right.
    """
    wanted = units.KINDS[kind]
    shape = _SHAPE.match(text)
    if shape is None:
        raise NotAQuantity(f"{text!r} is not a {_called(kind)} with a unit", _remedy(text, wanted))
    unit = _unit(shape["unit"], shape["value"], wanted, shape["gap"])
    factor, offset = units.scale(kind, unit)
    value = factor * float(shape["value"]) + offset
    spread = _standard_uncertainty(shape, unit, kind) if shape["spread"] else 0.0
    for number, written in ((value, shape["value"]), (spread, shape["spread"] or "0")):
        _refuse_absurd(number, written, text, wanted)
    return Quantity(value, kind, spread, text, unit, place, bounded=_is_bounds(shape["meaning"]))


def _refuse_absurd(number: float, written: str, text: str, wanted: units.Kind) -> None:
    if not math.isfinite(number) or abs(number) > LARGEST:
        raise NotAQuantity(f"{text!r} is too large a number", f'write for example "{wanted.example}"')
    vanished = float(written) == 0 and _NOT_ZERO.match(written)
    if vanished or 0 < abs(number) < SMALLEST:
        raise NotAQuantity(f"{text!r} is too small a number", f'write 0, or for example "{wanted.example}"')


def _called(kind: str) -> str:
    return kind.replace("_", " ")


def _remedy(text: str, wanted: units.Kind) -> str:
    if re.match(r"^[-+]?\d+,\d+", text):
        return f'use a point for decimals, for example "{wanted.example}"'
    if re.match(rf"^{_NUMBER}\s*(?:±|\+/-)", text):
        return f'put the unit behind both numbers, for example "{wanted.example} ± 0.2 {_unit_of(wanted)}"'
    return f'write for example "{wanted.example}"'


def _unit_of(wanted: units.Kind) -> str:
    return wanted.example.partition(" ")[2]


def _unit(written: str | None, number: str, wanted: units.Kind, gap: str = " ") -> str:
    spelling = (written or "").strip()
    if not wanted.spellings or wanted.name == "ratio":
        if not spelling:
            return ""
        if spelling in wanted.spellings:
            return spelling
        right = f'write "{number}"' + (f' or "{number} %"' if wanted.spellings else "") + ", without a unit"
        raise NotAQuantity(f"a {_called(wanted.name)} has no unit {spelling!r}", right)
    if not spelling:
        raise NotAQuantity(
            f"the bare number {number} has no unit where a {_called(wanted.name)} is due",
            f'write it with its unit, for example "{number} {_unit_of(wanted)}"',
        )
    if spelling in wanted.spellings:
        return spelling
    elsewhere = units.kinds_of(spelling)
    if elsewhere:
        raise NotAQuantity(
            f"{spelling!r} measures {' or '.join(map(_called, elsewhere))}, and a {_called(wanted.name)} is "
            "due",
            f'write for example "{wanted.example}"',
        )
    if not gap:
        raise NotAQuantity(
            f"{number + spelling!r} is not a {_called(wanted.name)} with a unit",
            f'check for a letter in the number; write for example "{wanted.example}"',
        )
    near = units.nearest_spelling(wanted.name, spelling)
    known = ", ".join(wanted.spellings)
    hint = f'did you mean "{number} {near}"? ' if near else ""
    raise NotAQuantity(
        f"{spelling!r} is not a unit of {_called(wanted.name)} known here", f"{hint}units taken: {known}"
    )


def _standard_uncertainty(shape: re.Match[str], unit: str, kind: str) -> float:
    wanted = units.KINDS[kind]
    spread = float(shape["spread"])
    if spread < 0:
        raise NotAQuantity(
            f"the uncertainty {shape['spread']} is negative", "write the number behind ± without a sign"
        )
    spelling = (shape["spread_unit"] or "").strip()
    if spelling == "%" and kind != "ratio":
        if units.scale(kind, unit)[1]:
            raise NotAQuantity(
                "a percentage of a temperature that has an offset means nothing",
                f'write for example "± 2 {unit}"',
            )
        half_width = abs(float(shape["value"]) * units.scale(kind, unit)[0]) * spread / 100
    else:
        if not spelling and wanted.spellings and unit:
            raise NotAQuantity(
                f"the uncertainty {shape['spread']} has no unit",
                f'repeat the unit: "{shape["value"]} {unit} ± {shape["spread"]} {unit}"',
            )
        half_width = units.scale(kind, _unit(spelling, shape["spread"], wanted))[0] * spread
    return half_width / _divisor(shape["meaning"])


def _is_bounds(meaning: str | None) -> bool:
    return meaning is not None and meaning.strip() == "limits"


def _divisor(meaning: str | None) -> float:
    if meaning is None:
        return COVERAGE_FACTOR
    if _is_bounds(meaning):
        return math.sqrt(3)
    coverage = _COVERAGE.match(meaning.strip())
    if coverage is None or not LEAST_COVERAGE <= float(coverage["k"]) <= MOST_COVERAGE:
        raise NotAQuantity(
            f"({meaning}) does not say what the uncertainty means",
            "write (k=2) for an expanded uncertainty, (k=1) for a standard one, (limits) for the bounds of "
            "an instrument",
        )
    return float(coverage["k"])
