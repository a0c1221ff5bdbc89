"""What lists and rigging.yaml make depend on what a serial has fitted: optional items and the battery."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from dossier.model.applicability import Applicability
from dossier.model.procedure import Procedure
from dossier.model.rigging import Check, Connection, Cover, Load, LooseItem, Rigging, Setting
from dossier.project import Project

Applicable = Load | LooseItem | Setting | Check | Cover | Connection
"""An object of rigging.yaml that some serials have and others have not."""


def batteries(project: Project, own: str | None) -> tuple[str, ...]:
    """List the options of battery.yaml that lists are verified with, the serial's own first.

    All of them where a step or a part depends on the battery, else the heaviest beside the own, for the
    lifting.
    """
    options = tuple(map(str, project.battery.options))
    first = own or project.battery.heaviest
    assert project.rigging is not None
    applicable = _applicable(project.procedures.values(), project.rigging)
    others = options if any(one.for_battery for one in applicable) else (project.battery.heaviest,)
    return tuple(dict.fromkeys((first, *others)))


def mentioned(procedures: Iterable[Procedure], rigging: Rigging) -> frozenset[str]:
    """Return the optional items that a replayed procedure or the rigging file asks for."""
    asked = (item for one in _applicable(procedures, rigging) for item in (one.option, one.without))
    return frozenset(str(item) for item in asked if item is not None)


def _applicable(procedures: Iterable[Procedure], rigging: Rigging) -> Iterator[Applicability]:
    """Go through everything that may depend on what is fitted."""
    for procedure in procedures:
        for section in procedure.sections if procedure.starts_from else ():
            yield from section.steps
    for group in _groups(rigging):
        yield from group.values()


def applicable_of(rigging: Rigging, name: str) -> Applicable:
    """Return the object of that name, whether or not a variant has it.

    Raises:
        KeyError: no object that may be left out has this name.
    """
    return {key: one for group in _groups(rigging) for key, one in group.items()}[name]


def _groups(rigging: Rigging) -> tuple[Mapping[str, Applicable], ...]:
    return (
        rigging.parts,
        rigging.items,
        rigging.settings,
        rigging.checks,
        rigging.covers,
        rigging.connections,
    )
