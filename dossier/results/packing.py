"""The size of a packed trailer: the body and every part on it, and which of them sets each measure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from dossier.compute import packing
from dossier.figures import Figure, Formula, Input, Inputs, constant, evaluate, given, taken
from dossier.model.trailer import PackedPart, Trailer
from dossier.quantities import COVERAGE_FACTOR
from dossier.steps import Step

BODY, DRAWBAR, VEHICLE = "the body", "the drawbar", "the towing vehicle"


@dataclass(frozen=True)
class Size:
    """One measure of the packed trailer."""

    measure: str
    """As in the road limits."""
    figure: Figure
    set_by: str
    """Which part or whether the body, in words."""

    @property
    def value(self) -> float:
        """In m."""
        return self.figure.value

    @property
    def expanded_uncertainty(self) -> float:
        """In m, k = 2, of the lengths that set it."""
        return COVERAGE_FACTOR * self.figure.standard_uncertainty


@dataclass(frozen=True)
class Packing:
    """The sizes, and the figures that they are made from."""

    sizes: tuple[Size, ...]
    reaches: tuple[Figure, ...]
    """How far the farthest thing reaches in each direction."""

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        return (*self.reaches, *(size.figure for size in self.sizes))


@dataclass(frozen=True)
class _Direction:
    """A way in which things reach out, with the formula that says how far."""

    name: str
    words: str
    formula: Formula
    lengths: tuple[str, ...]
    """Keys of a packed part, in the order of the formula's parameters."""


_RIGHT = _Direction("right", "to the right of the centre line", packing.reach_to_right, ("right", "width"))
_LEFT = _Direction("left", "to the left of the centre line", packing.reach_to_left, ("right", "width"))
_REAR = _Direction("rear", "behind the front of the body", packing.far_end, ("behind", "length"))
_TOP = _Direction("top", "above the road", packing.far_end, ("above", "height"))
_FRONT = _Direction("front", "ahead of the front of the body", packing.overhang, ("behind",))


@dataclass(frozen=True)
class _Reach:
    """The thing that reaches farthest in one direction."""

    name: str
    figure: Figure


def sizes(trailer: Trailer) -> tuple[Size, ...]:
    """Return width, height and lengths of a packed trailer; a combination only with the towing vehicle."""
    return packed(trailer).sizes


def packed(trailer: Trailer) -> Packing:
    """Find what reaches farthest in each direction, and add up the measures of the packed trailer."""
    parts = list(trailer.parts.values())
    middle = constant("middle of the body: the centre line", "length", 0.0, "definition")
    front = constant("front of the body: lengths are counted from it", "length", 0.0, "definition")
    road = constant("the road: heights are counted from it", "length", 0.0, "definition")
    width, length, height = (
        given(getattr(trailer, key), f"{key} of the body") for key in ("width", "length", "height")
    )
    right = _farthest(_RIGHT, (middle, width), parts)
    left = _farthest(_LEFT, (middle, width), parts)
    rear = _farthest(_REAR, (front, length), parts)
    top = _farthest(_TOP, (road, height), parts)
    ahead = _farthest(_FRONT, (front,), parts)
    drawbar = (DRAWBAR, given(trailer.drawbar, "drawbar"))
    body_front = [] if ahead.name == BODY else [_reach(ahead)]
    before = _reach(ahead) if ahead.figure.value > trailer.drawbar.value else drawbar
    found = [
        _sum("width", _reach(left), _reach(right)),
        _sum("height", _reach(top)),
        _sum("body length", *(body_front or [(BODY, front)]), _reach(rear)),
        _sum("trailer length", before, _reach(rear)),
    ]
    if trailer.towing_vehicle is not None:
        vehicle = (VEHICLE, given(trailer.towing_vehicle, VEHICLE))
        found.append(_sum("combination length", vehicle, drawbar, _reach(rear)))
    reaches = (right, left, rear, top, *([ahead] if body_front else []))
    return Packing(tuple(found), tuple(reach.figure for reach in reaches))


def _reach(reach: _Reach) -> tuple[str, Input]:
    return reach.name, taken(reach.figure)


def _farthest(way: _Direction, body: tuple[Input, ...], parts: Iterable[PackedPart]) -> _Reach:
    """The body, unless a part reaches farther; the sheet shows what else was considered."""
    things: list[tuple[str, tuple[Input, ...]]] = [(BODY, body)]
    for part in parts:
        lengths = tuple(given(getattr(part, key), f"{_KEY[key]}, {part.name}") for key in way.lengths)
        things.append((str(part.name), lengths))
    how_far = [way.formula(*(one.value for one in lengths)) for _, lengths in things]
    at = max(range(len(things)), key=how_far.__getitem__)
    name, lengths = things[at]
    steps = [Step(thing, far, "length") for (thing, _), far in zip(things, how_far, strict=True)]
    figure = evaluate(
        way.formula, f"packed_reach.{way.name}", f"Farthest reach {way.words}, {name}", "length",
        dict(zip(way.formula.parameters, lengths, strict=True)), steps=steps,
        note="Everything on the trailer was considered; the one that reaches farthest stands in the formula.",
    )  # fmt: skip
    return _Reach(name, figure)


_KEY: Mapping[str, str] = {
    "right": "middle, to the right of the centre line",
    "behind": "front, behind that of the body",
    "above": "lowest point, above the road",
    "width": "width",
    "length": "length",
    "height": "height",
}


def _sum(measure: str, *things: tuple[str, Input]) -> Size:
    inputs: Inputs = {"l_i": [length for _, length in things]}
    name = f"packed_size.{measure.replace(' ', '-')}"
    figure = evaluate(packing.packed_size, name, f"Packed trailer, {measure}", "length", inputs)
    return Size(measure, figure, " and ".join(dict.fromkeys(name for name, _ in things)))
