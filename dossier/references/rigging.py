"""References of rigging.yaml and of the acts in procedures: every name leads to an object of the right
kind."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from dossier.findings import Finding, Place, Severity
from dossier.located import place_of
from dossier.model.procedure import OBJECTS, Act, Procedure
from dossier.model.rigging import Condition, Connection, Load, Rigging
from dossier.model.rigging_bounds import WarningPlace
from dossier.project import Project
from dossier.references.applicability import applicability
from dossier.references.names import unknown
from dossier.references.rigging_open import CONTROLS


def check(project: Project) -> Iterator[Finding]:
    """Check the names in rigging.yaml, the states of procedures, and the objects and people of acts."""
    rigging = project.rigging
    if rigging is None:
        return
    yield from unknown(rigging.home, rigging.states, "state", "states in rigging.yaml")
    yield from _objects(rigging, project)
    yield from _twice(rigging)
    for procedure in project.procedures.values():
        yield from _procedure(procedure, rigging)


def _objects(rigging: Rigging, project: Project) -> Iterator[Finding]:
    for group in (
        rigging.parts,
        rigging.items,
        rigging.settings,
        rigging.checks,
        rigging.covers,
        rigging.connections,
    ):
        for one in group.values():
            yield from applicability(one, project)
    for part in rigging.parts.values():
        yield from _part(part, rigging, project)
    for item in rigging.items.values():
        yield from unknown(item.kit, rigging.kits, "kit", "kits in rigging.yaml") if item.kit else ()
    for setting in rigging.settings.values():
        yield from unknown(setting.home, setting.positions, "position", "the setting")
        for condition in setting.positions.values():
            yield from _condition(condition, rigging)
    known = (*rigging.connections, *rigging.covers, *rigging.settings, *rigging.circuits, *rigging.parts)
    for one_check in rigging.checks.values():
        yield from _all_known(one_check.required_in, project.procedures, "procedure", "procedures/")
        yield from _condition(one_check.before, rigging)
        yield from _all_known(one_check.after, known, "object", "rigging.yaml")
    for cover in rigging.covers.values():
        yield from _all_known(cover.hides, rigging.connections, "connection", "connections in rigging.yaml")
    for connection in rigging.connections.values():
        yield from _connection(connection, rigging)
    for circuit in rigging.circuits.values():
        yield from _condition(circuit.before_energising, rigging)
        yield from _all_known(
            circuit.live_by, rigging.connections, "connection", "connections in rigging.yaml"
        )
        yield from _positions(circuit.propeller_held_by, rigging, circuit.place_of_key("propeller_held_by"))
    for state in rigging.states.values():
        yield from _condition(state.needs, rigging)
    everything = (*known, *rigging.checks, *rigging.items, *rigging.kits)
    for hazard, places in rigging.warnings.items():
        for place in places:
            yield from unknown(hazard, project.hazards.hazards, "hazard", "hazards.yaml", place.place)
            yield from _all_known(place.before, everything, "object", "rigging.yaml")
            yield from _all_known(place.only_in, project.procedures, "procedure", "procedures/")
            yield from _warned_positions(place, rigging)


def _warned_positions(place: WarningPlace, rigging: Rigging) -> Iterator[Finding]:
    settings = [name for name in place.before if name in rigging.settings]
    positions = [position for name in settings for position in rigging.settings[name].positions]
    yield from _all_known(place.to, positions, "position", f"the settings {', '.join(settings) or 'named'}")


def _part(part: Load, rigging: Rigging, project: Project) -> Iterator[Finding]:
    if not (part.fixed or part.mass or part.items or part.battery):
        yield Finding(
            "V061",
            f"the part {str(part.name)!r} has no mass, so nobody can tell how many people lift it",
            "write  mass: ...  or the items of aircraft.yaml that it is made of",
            part.place,
            Severity.WARNING,
        )
    yield from _all_known(part.items, project.aircraft.items, "item", "items in aircraft.yaml")
    yield from _all_known(part.held_until, rigging.connections, "connection", "connections in rigging.yaml")
    yield from _positions({**part.stands_with, **part.rests_with}, rigging)
    yield from _condition(part.before_moving, rigging)
    yield from _condition(part.before_letting_go, rigging)


def _connection(connection: Connection, rigging: Rigging) -> Iterator[Finding]:
    used = connection.with_items
    yield from _all_known(connection.between, rigging.parts, "part", "parts in rigging.yaml")
    yield from _all_known(
        [name for name in (used.engage, used.lock, used.safety) if name],
        rigging.items,
        "loose item",
        "items in rigging.yaml",
    )
    yield from (
        unknown(connection.made_by_placing, rigging.parts, "part", "parts in rigging.yaml")
        if connection.made_by_placing
        else ()
    )
    yield from (
        unknown(connection.circuit, rigging.circuits, "circuit", "circuits in rigging.yaml")
        if connection.circuit
        else ()
    )
    yield from _condition(connection.before_engaging, rigging)
    yield from _condition(connection.before_opening, rigging)


def _condition(condition: Condition | None, rigging: Rigging) -> Iterator[Finding]:
    if condition is None:
        return
    yield from _all_known(
        (*condition.joined, *condition.secured, *condition.apart),
        rigging.connections,
        "connection",
        "connections in rigging.yaml",
    )
    yield from _all_known(
        (*condition.placed, *condition.away, *condition.held), rigging.parts, "part", "parts in rigging.yaml"
    )
    yield from _all_known(
        (*condition.closed, *condition.opened), rigging.covers, "cover", "covers in rigging.yaml"
    )
    yield from _all_known(condition.checked, rigging.checks, "check", "checks in rigging.yaml")
    yield from _all_known(
        (*condition.isolated, *condition.live), rigging.circuits, "circuit", "circuits in rigging.yaml"
    )
    yield from _positions(condition.settings, rigging, condition.place)


def _positions(wanted: Mapping[str, str], rigging: Rigging, place: Place | None = None) -> Iterator[Finding]:
    for setting, position in wanted.items():
        yield from unknown(
            setting,
            rigging.settings,
            "setting",
            "settings in rigging.yaml",
            place or place_of(position),
        )
        if setting in rigging.settings:
            yield from unknown(
                position, rigging.settings[setting].positions, "position", f"the setting {setting!r}"
            )


def _all_known(names: Collection[str], known: Collection[str], what: str, where: str) -> Iterator[Finding]:
    for name in names:
        yield from unknown(name, known, what, where)


def _twice(rigging: Rigging) -> Iterator[Finding]:
    seen: dict[str, str] = {}
    for group in ("parts", "items", "kits", "settings", "checks", "covers", "connections", "circuits"):
        for name, one in getattr(rigging, group).items():
            if name in seen:
                yield Finding(
                    "V002",
                    f"{str(name)!r} stands under {seen[name]} and under {group}, so an act would not say "
                    "which is meant",
                    "give one of them another name",
                    one.place,
                )
            seen.setdefault(name, group)


def _procedure(procedure: Procedure, rigging: Rigging) -> Iterator[Finding]:
    for state in (procedure.starts_from, procedure.ends_in):
        if state is not None:
            yield from unknown(state, rigging.states, "state", "states in rigging.yaml")
    for section in procedure.sections:
        for step in section.steps:
            for act in (*step.acts, *step.second_acts):
                yield from _act(act, rigging)


def _act(act: Act, rigging: Rigging) -> Iterator[Finding]:
    groups = OBJECTS[act.act]
    known = [name for group in groups for name in getattr(rigging, group)]
    everything = [name for names in OBJECTS.values() for group in names for name in getattr(rigging, group)]
    for name in act.what:
        if name in everything and name not in known:
            wanted = " and ".join(groups) or "nothing"
            yield Finding(
                "V002",
                f"{act.act!r} cannot be done to {str(name)!r}",
                f"{act.act} is done to {wanted} of rigging.yaml",
                place_of(name),
            )
        else:
            yield from unknown(name, known, "object", f"{' and '.join(groups)} in rigging.yaml")
        yield from _of_a_control(act, name, rigging)
    if groups and not act.what:
        yield Finding(
            "V002",
            f"{act.act!r} does not say to what it is done",
            f"add  what: and a name from {' or '.join(groups)} in rigging.yaml",
            act.place,
        )
    yield from _all_known(act.by, rigging.people, "role", "people in rigging.yaml")
    if act.act == "set":
        yield from _new_position(act, rigging)


def _of_a_control(act: Act, name: str, rigging: Rigging) -> Iterator[Finding]:
    connection = rigging.connections.get(name)
    if act.act not in ("positive_check", "sense") or connection is None or connection.kind in CONTROLS:
        return
    yield Finding(
        "V002",
        f"{act.act!r} cannot be done to {str(name)!r}, whose kind in rigging.yaml is "
        f"{str(connection.kind)!r}",
        f"{act.act} is done to a {' or a '.join(CONTROLS)}: correct the kind, or take the act out",
        place_of(name),
    )


def _new_position(act: Act, rigging: Rigging) -> Iterator[Finding]:
    if act.to is None:
        yield Finding("V002", "'set' does not say which position", "add  to: and a position", act.place)
        return
    for name in act.what:
        if name in rigging.settings:
            yield from unknown(
                act.to, rigging.settings[name].positions, "position", f"the setting {str(name)!r}"
            )
