"""A packed trailer from the side and from above, to scale: rectangles with numbers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.model.trailer import Trailer

WIDTH = 640.0
"""Of the drawing, in its own units."""
_EDGE = 14.0
_GAP = 34.0
"""Between the two views, for a line of words."""


@dataclass(frozen=True)
class Box:
    """A rectangle. All ready strings; the number is empty for the body."""

    kind: str
    x: str
    y: str
    width: str
    height: str
    number: str = ""
    label_x: str = ""
    label_y: str = ""


@dataclass(frozen=True)
class Drawing:
    """Both views in one frame."""

    height: str
    side: tuple[Box, ...]
    plan: tuple[Box, ...]
    road: str
    """Where the road runs below the side view."""
    plan_words: str
    """Where the words over the plan stand."""


def drawing(trailer: Trailer) -> Drawing:
    """Draw a trailer; the front is on the left."""
    parts = list(trailer.parts.values())
    front = min([-trailer.drawbar.value, *(part.behind.value for part in parts)])
    rear = max([trailer.length.value, *(part.behind.value + part.length.value for part in parts)])
    top = max([trailer.height.value, *(part.above.value + part.height.value for part in parts)])
    half = max([trailer.width.value / 2, *(abs(part.right.value) + part.width.value / 2 for part in parts)])
    scale = (WIDTH - 2 * _EDGE) / (rear - front)
    road = _GAP + top * scale
    middle = road + 2 * _GAP + half * scale
    frame = _Frame(scale, front, road, middle)
    floor = min([0.4 * trailer.height.value, *(part.above.value for part in parts)])
    return Drawing(
        f"{middle + half * scale + _EDGE:.0f}",
        tuple(_side_view(trailer, frame, floor)),
        tuple(_plan(trailer, frame)),
        f"{road:.1f}",
        f"{road + 1.25 * _GAP:.1f}",
    )


def _side_view(trailer: Trailer, frame: _Frame, floor: float) -> Iterator[Box]:
    length, height, drawbar = trailer.length.value, trailer.height.value, trailer.drawbar.value
    yield from _body(
        frame.side(0, length, floor, height - floor), frame.side(-drawbar, drawbar, floor - 0.1, 0.1)
    )
    for number, part in enumerate(trailer.parts.values(), start=1):
        place = frame.side(part.behind.value, part.length.value, part.above.value, part.height.value)
        yield _part(place, number)


def _plan(trailer: Trailer, frame: _Frame) -> Iterator[Box]:
    length, width, drawbar = trailer.length.value, trailer.width.value, trailer.drawbar.value
    yield from _body(frame.plan(0, length, 0, width), frame.plan(-drawbar, drawbar, 0, 0.1))
    for number, part in enumerate(trailer.parts.values(), start=1):
        place = frame.plan(part.behind.value, part.length.value, part.right.value, part.width.value)
        yield _part(place, number)


@dataclass(frozen=True)
class _Frame:
    """Metres to units of the drawing."""

    scale: float
    front: float
    road: float
    middle: float

    def side(
        self, behind: float, length: float, above: float, height: float
    ) -> tuple[float, float, float, float]:
        x = _EDGE + (behind - self.front) * self.scale
        return x, self.road - (above + height) * self.scale, length * self.scale, height * self.scale

    def plan(
        self, behind: float, length: float, right: float, width: float
    ) -> tuple[float, float, float, float]:
        x = _EDGE + (behind - self.front) * self.scale
        return x, self.middle - (right + width / 2) * self.scale, length * self.scale, width * self.scale


def _body(*boxes: tuple[float, float, float, float]) -> Iterator[Box]:
    for (x, y, width, height), kind in zip(boxes, ("body", "drawbar"), strict=True):
        yield Box(kind, f"{x:.1f}", f"{y:.1f}", f"{width:.1f}", f"{height:.1f}")


def _part(box: tuple[float, float, float, float], number: int) -> Box:
    """Numbers stand side by side, so that parts behind one another keep theirs apart."""
    x, y, width, height = box
    along = min(width - 8, 14 + 26 * (number - 1))
    return Box(
        "part",
        f"{x:.1f}",
        f"{y:.1f}",
        f"{width:.1f}",
        f"{height:.1f}",
        str(number),
        f"{x + max(8, along):.1f}",
        f"{y + height / 2 + 4.5:.1f}",
    )
