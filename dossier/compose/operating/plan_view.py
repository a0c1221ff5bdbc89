"""The aircraft from above, with the sections of a list numbered where they are done."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from dossier.compose.limit_text import one_line
from dossier.compose.operating.lists import List
from dossier.compose.operating.spread import spread
from dossier.dossier import Dossier
from dossier.model.plan_view import PlanView, SpanStation

WIDTH = 640.0
"""Of the drawing, in its own units."""
EDGE = 22.0
"""Left free around it, for a whole number at the border."""
_WHEEL = 5.0

Point = tuple[float, float]
"""Arm and lateral arm in m."""


@dataclass(frozen=True)
class Shape:
    """A closed outline or a line, as the path of an SVG."""

    kind: str
    path: str


@dataclass(frozen=True)
class NumberedPlace:
    """A section of the list where it is done."""

    number: int
    x: str
    y: str


@dataclass(frozen=True)
class NamedPlace:
    """A section in the list beside the drawing."""

    number: int
    title: str
    anchor: str
    on_drawing: bool


@dataclass(frozen=True)
class Plan:
    """The drawing and the words that say the same. All ready strings."""

    height: str
    shapes: tuple[Shape, ...]
    walk: str
    """The way from one number to the next; empty for fewer than two."""
    places: tuple[NumberedPlace, ...]
    sections: tuple[NamedPlace, ...]


def plan(dossier: Dossier, one: List) -> Plan | None:
    """Draw the plan for a list; None without an outline, or if no section says where it is."""
    view = dossier.project.aircraft.plan_view
    found = [
        (number, section.station)
        for number, section in enumerate(one.sections, start=1)
        if section.station is not None
    ]
    if view is None or not found:
        return None
    points = [(station.arm.value, station.lateral_arm.value) for _, station in found]
    outlines = _outlines(view)
    every = [point for _, outline in outlines for point in outline] + points
    place, height = _frame(every)
    marks = spread([place(point) for point in points], WIDTH, height)
    marked = [(number, *mark) for (number, _), mark in zip(found, marks, strict=True)]
    return Plan(
        f"{height:.0f}",
        (*(Shape(kind, _path(map(place, outline), closed=kind != "propeller")) for kind, outline in outlines),
         *(Shape("wheel", _wheel(*place((one.arm.value, one.lateral_arm.value)))) for one in view.wheels)),
        _path(((x, y) for _, x, y in marked), closed=False) if len(marked) > 1 else "",
        tuple(NumberedPlace(number, f"{x:.1f}", f"{y:.1f}") for number, x, y in marked),
        tuple(_named(one, {number for number, _ in found})),
    )  # fmt: skip


def _named(one: List, drawn: set[int]) -> Iterable[NamedPlace]:
    for number, section in enumerate(one.sections, start=1):
        yield NamedPlace(number, one_line(section.title), f"section-{number}", number in drawn)


def _outlines(view: PlanView) -> list[tuple[str, Sequence[Point]]]:
    """Outlines in the order in which they cover one another."""
    drawn: list[tuple[str, Sequence[Point]]] = [("wing", _both_halves(view.wing))]
    if view.tail:
        drawn.append(("tail", _both_halves(view.tail)))
    right = [(station.arm.value, station.half_width.value) for station in view.fuselage]
    if right:
        drawn.append(("fuselage", [*right, *((arm, -half) for arm, half in reversed(right))]))
    if view.propeller:
        arm, half = view.propeller.arm.value, view.propeller.diameter.value / 2
        drawn.append(("propeller", [(arm, -half), (arm, half)]))
    return drawn


def _both_halves(stations: Sequence[SpanStation]) -> list[Point]:
    """Along the right leading edge outwards, back along the trailing edges, and inwards again on the left."""
    leading = [(one.leading_edge.value, one.lateral_arm.value) for one in stations]
    trailing = [(one.trailing_edge.value, one.lateral_arm.value) for one in stations]
    right = [*leading, *reversed(trailing)]
    return [*right, *((arm, -lateral) for arm, lateral in reversed(right))]


def _frame(points: Sequence[Point]) -> tuple[Callable[[Point], Point], float]:
    """Map arms and lateral arms to the drawing, nose up, to one scale; and say how high it becomes."""
    half = max(abs(lateral) for _, lateral in points)
    first, last = min(arm for arm, _ in points), max(arm for arm, _ in points)
    scale = (WIDTH - 2 * EDGE) / (2 * half)

    def place(point: Point) -> Point:
        arm, lateral = point
        return WIDTH / 2 + lateral * scale, EDGE + (arm - first) * scale

    return place, 2 * EDGE + (last - first) * scale


def _path(points: Iterable[Point], *, closed: bool) -> str:
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points) + ("z" if closed else "")


def _wheel(x: float, y: float) -> str:
    return f"M{x - _WHEEL / 2:.1f} {y - _WHEEL:.1f}h{_WHEEL:.1f}v{2 * _WHEEL:.1f}h-{_WHEEL:.1f}z"
