"""What a step or a part asks of a serial: its names lead somewhere, and some serial can have it."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding
from dossier.model.applicability import Applicability
from dossier.project import Project
from dossier.references.names import unknown


def applicability(one: Applicability, project: Project) -> Iterator[Finding]:
    """Check the optional items and batteries that something depends on."""
    optional = [name for name, item in project.aircraft.items.items() if item.optional]
    for name in (one.option, one.without):
        if name is not None:
            yield from unknown(name, optional, "optional item", "items in aircraft.yaml")
    for battery in one.for_battery:
        yield from unknown(battery, project.battery.options, "battery option", "options in battery.yaml")
    if one.option is not None and one.option == one.without:
        yield Finding(
            "V007",
            f"this is for serials with {str(one.option)!r} and for serials without it, so no serial has it",
            "take  option  or  without  out",
            one.place_of_key("without"),
        )
