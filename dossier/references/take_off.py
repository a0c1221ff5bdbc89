"""What an estimate of the take-off run rests on must be what it stands for, and nowhere else another."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding
from dossier.model.aerodynamics import Coefficient, Merit, TakeOff
from dossier.model.plan_view import PlanView
from dossier.project import Project

NEAR = 0.005
"""In m: how far two writings of one diameter may be apart, such as in inches and in millimetres."""


def check(project: Project) -> Iterator[Finding]:
    """Check the part of the type, where it has one."""
    aerodynamics = project.aircraft.aerodynamics
    if aerodynamics is None or aerodynamics.take_off is None:
        return
    part = aerodynamics.take_off
    yield from _within(part.lift_off_factor, "lift_off_factor", (1.0, 1.5))
    yield from _within(part.rolling_friction, "rolling_friction", (0.0, 0.5))
    yield from _within(part.propeller_merit, "propeller_merit", (0.0, 1.0))
    most = aerodynamics.maximum_lift_coefficient.value.value
    yield from _within(part.rolling_lift_coefficient, "rolling_lift_coefficient", (0.0, most))
    yield from _diameter(part, project.aircraft.plan_view)


def _within(stated: Coefficient | Merit, name: str, ends: tuple[float, float]) -> Iterator[Finding]:
    low, high = ends
    if not low <= stated.value.value <= high:
        fault = f"{name} cannot be {stated.value.text!r}"
        yield Finding("P017", fault, f"write a value from {low:g} to {high:g}", stated.value.place)


def _diameter(part: TakeOff, view: PlanView | None) -> Iterator[Finding]:
    stated = part.propeller_diameter
    if stated.value <= 0:
        yield Finding(
            "P017", f"propeller_diameter cannot be {stated.text!r}", "write a value above 0", stated.place
        )
    drawn = view.propeller.diameter if view and view.propeller else None
    if drawn and abs(drawn.value - stated.value) > NEAR:
        yield Finding(
            "P047",
            f"the diameter of the propeller is {stated.text} here and {drawn.text} in plan_view",
            "write the one that was measured in both places",
            stated.place,
        )
