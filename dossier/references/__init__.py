"""What one file says of another must be there: every name that is referred to, checked across the project."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from dossier.findings import Finding, in_order
from dossier.project import Project
from dossier.references import (
    acceptance,
    assembly,
    assembly_critical,
    battery,
    card_words,
    compliance,
    figure_names,
    flight_runs,
    life,
    limits,
    list_hazards,
    maintenance,
    measurements,
    plan_view,
    procedures,
    ranges,
    rigging,
    rigging_open,
    rigging_sides,
    rigging_ways,
    take_off,
    trailer,
    wiring,
)
from dossier.tables.road_limits import known_road_limits


def check(project: Project, shipped_rule_sets: Collection[str]) -> tuple[Finding, ...]:
    """Check every reference of a project.

    Args:
        project: the project as read.
        shipped_rule_sets: names of the rule sets that the tool brings along.
    """
    return in_order(_all(project, shipped_rule_sets))


def _all(project: Project, shipped_rule_sets: Collection[str]) -> Iterator[Finding]:
    yield from ranges.check(project)
    yield from figure_names.check(project)
    yield from limits.check(project)
    yield from battery.check(project)
    yield from acceptance.check(project)
    yield from wiring.check(project)
    yield from compliance.check(project, shipped_rule_sets)
    yield from procedures.check(project)
    yield from card_words.check(project)
    yield from rigging.check(project)
    yield from list_hazards.check(project)
    yield from rigging_open.check(project)
    yield from rigging_sides.check(project)
    yield from rigging_ways.check(project)
    yield from assembly.check(project)
    yield from assembly_critical.check(project)
    yield from maintenance.check(project)
    yield from plan_view.check(project)
    yield from trailer.check(project, known_road_limits().places)
    yield from life.check(project)
    yield from measurements.check(project)
    yield from take_off.check(project)
    yield from flight_runs.check(project)
