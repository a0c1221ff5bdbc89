"""A left thing of rigging.yaml has its right one: what is out of the model is out of every list."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from dossier.findings import Finding, Severity
from dossier.model.base import Part
from dossier.model.rigging import Check, Connection, Cover, Load, LooseItem, Setting
from dossier.project import Project

SIDE = re.compile(r"(?<![A-Za-z])([Ll]eft|[Rr]ight)(?![A-Za-z])")
OTHER = {"left": "right", "right": "left", "Left": "Right", "Right": "Left"}
Sided = Load | LooseItem | Setting | Check | Cover | Connection


def check(project: Project) -> Iterator[Finding]:
    """Find every object whose key or name says left or right, and that has no twin on the other side."""
    if project.rigging is None:
        return
    rigging = project.rigging
    groups: tuple[Mapping[str, Sided], ...] = (
        rigging.parts,
        rigging.items,
        rigging.settings,
        rigging.checks,
        rigging.covers,
        rigging.connections,
    )
    known = {text for group in groups for key, one in group.items() for text in (str(key), str(one.name))}
    for group in groups:
        for key, one in group.items():
            yield from _without_twin(one, str(key), str(one.name), known)


def _without_twin(one: Part, key: str, name: str, known: set[str]) -> Iterator[Finding]:
    """Its twin may be another kind of thing: a joint on the left, a bolt on the right that is only looked
    at."""
    if not SIDE.search(key) and not SIDE.match(name):
        return
    twins = [SIDE.sub(lambda found: OTHER[found[1]], text) for text in (key, name) if SIDE.search(text)]
    if not known.intersection(twins):
        yield Finding(
            "V006",
            f"{name!r} stands for one side, and nothing is called {' or '.join(map(repr, twins))}",
            "add the other side, or take the side out of its key and name if there is only one",
            one.place,
            Severity.WARNING,
        )
