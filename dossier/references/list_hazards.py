"""Has a list of charging, storage, transport or inspection a hazard of what is done in it?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from dossier.findings import Finding, Severity
from dossier.project import Project

TOPICS: Mapping[str, tuple[str, ...]] = {
    "charging": ("charging", "fire"),
    "storage": ("battery", "charging", "fire"),
    "transport": ("ground", "battery"),
    "inspection": ("propeller", "battery", "rigging", "controls"),
}
"""Kind of a list -> topics of hazards.yaml, one of which must be in it. Kinds and topics are own reasoning:
the mains and the pack, a store of energy, a load on the road, hands at a live circuit or at the joints."""


def check(project: Project) -> Iterator[Finding]:
    """Find lists that name no hazard of what is done in them, replayed or not.

    Source: S1000D, warning and caution elements, as reprinted (the warning stands in the list that needs it).
    """
    hazards = project.hazards.hazards
    for procedure in project.procedures.values():
        topics = TOPICS.get(str(procedure.kind), ())
        steps = [step for section in procedure.sections for step in section.steps]
        named = [*procedure.hazards, *(hazard for step in steps for hazard in step.hazards)]
        fitting = [name for name, one in hazards.items() if one.topic in topics]
        if fitting and not any(name in fitting for name in named):
            yield Finding(
                "V113",
                f"the list {str(procedure.title)!r} is of kind {procedure.kind}, and names no hazard of "
                f"{' or '.join(topics)}",
                f"add  hazards: [...]  with one that applies: {', '.join(map(str, fitting))}",
                procedure.place_of_key("title"),
                Severity.WARNING,
            )
