"""References of the serials' records, and packs that would be in two aircraft at once."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding, Severity
from dossier.model.events import EquipmentChange, Weighing
from dossier.model.record import SerialRecord
from dossier.project import Project
from dossier.references.names import unknown
from dossier.replay import default_date, replay

ITEMS = "items in aircraft.yaml"


def check(project: Project) -> Iterator[Finding]:
    """Check every serial that was read."""
    for record in project.serials.values():
        yield from _record(record, project)
        yield from _drawings(record, str(project.aircraft.identification.design_revision))
    yield from _packs(project)


def _record(record: SerialRecord, project: Project) -> Iterator[Finding]:
    items = project.aircraft.items
    for name in record.items_left_out:
        yield from unknown(name, items, "item", ITEMS)
        if name in items and not items[name].optional:
            yield Finding(
                "P050",
                f"the item {str(name)!r} is not optional",
                "take it out of items_left_out, or make it optional in the type",
                getattr(name, "place", None),
            )
    for key in record.fitted:
        yield from unknown(key, items, "item", ITEMS)
    for event in record.events:
        if isinstance(event, Weighing):
            for support in event.supports:
                yield from unknown(support.scale, event.scales, "scale", "this weighing")
                for name in support.arm_measured_with:
                    yield from unknown(name, event.instruments, "instrument", "this weighing")
        if isinstance(event, EquipmentChange) and event.item is not None:
            yield from unknown(event.item, items, "item", ITEMS)


def _drawings(record: SerialRecord, revision: str) -> Iterator[Finding]:
    """Tell a serial whose drawings are of another state than those that the type's file describes."""
    build = record.build
    own = str(build.brought_to.revision) if build.brought_to else str(build.design_revision)
    if own != revision and not record.accepts(build.concession):
        yield Finding(
            "A020",
            f"this serial stands at the drawings {own!r}, and aircraft.yaml describes {revision!r}",
            "write  brought_to: {revision: ..., date: ...}, or  concession: ...  with the nonconformity "
            "closed as accepted",
            build.place_of_key("brought_to" if build.brought_to else "design_revision"),
            Severity.WARNING,
        )


def _packs(project: Project) -> Iterator[Finding]:
    """A pack may move from one aircraft to another, but it is in one bay at a time."""
    holder: dict[str, str] = {}
    for number, record in project.serials.items():
        for pack in replay(record, project.battery.options, default_date(record)).packs:
            if str(pack.pack) in holder:
                yield Finding(
                    "P051",
                    f"the pack {str(pack.pack)!r} is also in serial {holder[str(pack.pack)]}",
                    "add the pack-removed event to the record of the other",
                    pack.place_of_key("pack"),
                )
            holder[str(pack.pack)] = number
