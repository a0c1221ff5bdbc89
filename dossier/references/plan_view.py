"""The outline of the aircraft from above must be one, and a place on it needs it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from dossier.findings import Finding, Place
from dossier.model.plan_view import PlanView, SpanStation
from dossier.project import Project


def check(project: Project) -> Iterator[Finding]:
    """Check the outline in the type's file, and the places that procedures name."""
    view = project.aircraft.plan_view
    if view is not None:
        yield from _outline(view)
        return
    for procedure in project.procedures.values():
        for section in procedure.sections:
            if section.station is not None:
                yield _wrong(
                    "a place on the drawing, and aircraft.yaml has no plan_view to draw",
                    "add plan_view to aircraft.yaml",
                    section.place_of_key("station"),
                )


def _wrong(message: str, remedy: str, place: Place | None) -> Finding:
    return Finding("P023", message, remedy, place)


def _outline(view: PlanView) -> Iterator[Finding]:
    yield from _span(view.wing, "wing", view, at_least=2)
    if view.tail:
        yield from _span(view.tail, "tail", view, at_least=2)
    if len(view.fuselage) == 1:
        yield _wrong(
            "the fuselage has one station, and an outline needs two",
            "add the other end",
            view.place_of_key("fuselage"),
        )
    for before, after in pairwise(view.fuselage):
        if after.arm.value <= before.arm.value:
            yield _wrong(
                f"the fuselage's arm {after.arm.text} does not follow {before.arm.text}",
                "go from the nose to the tail",
                after.arm.place,
            )
    for body in view.fuselage:
        if body.half_width.value < 0:
            yield _wrong(
                f"the half width {body.half_width.text} is negative", "write 0 or more", body.half_width.place
            )
    if view.propeller and view.propeller.diameter.value <= 0:
        yield _wrong(
            f"the diameter cannot be {view.propeller.diameter.text}",
            "write a value above 0",
            view.propeller.diameter.place,
        )


def _span(stations: Sequence[SpanStation], name: str, view: PlanView, *, at_least: int) -> Iterator[Finding]:
    if len(stations) < at_least:
        yield _wrong(
            f"the {name} has fewer than two stations", "give the root and the tip", view.place_of_key(name)
        )
    for before, after in pairwise(stations):
        if after.lateral_arm.value <= before.lateral_arm.value:
            said = (
                f"the {name}'s lateral arm {after.lateral_arm.text} does not follow {before.lateral_arm.text}"
            )
            yield _wrong(said, "go from the root outwards", after.lateral_arm.place)
    for one in stations:
        if one.lateral_arm.value < 0:
            yield _wrong(
                f"the lateral arm {one.lateral_arm.text} is negative",
                "write the right half: the left one is the same",
                one.lateral_arm.place,
            )
        if one.trailing_edge.value <= one.leading_edge.value:
            yield _wrong(
                f"the trailing edge {one.trailing_edge.text} is not behind {one.leading_edge.text}",
                "arms grow towards the tail",
                one.trailing_edge.place,
            )
