"""References inside the wiring of the battery file."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding
from dossier.model.wiring import Conductor, Wiring
from dossier.project import Project
from dossier.references.names import unknown

SIZE = 'write either  gauge: "2"  or  area: "35 mm²"'
COLDEST = 'write either  coldest_battery: "10 °C"  or the name of a limit as  coldest_battery_limit:'


def check(project: Project) -> Iterator[Finding]:
    """Check names, and values of which there must be just one."""
    wiring = project.battery.wiring
    if wiring is None:
        return
    yield from _coldest(wiring, project)
    for conductor in wiring.conductors.values():
        yield from _conductor(conductor, wiring, project)
    yield from _unused(wiring)


def _coldest(wiring: Wiring, project: Project) -> Iterator[Finding]:
    name, limits = wiring.coldest_battery_limit, project.aircraft.limits
    if (wiring.coldest_battery is None) == (name is None):
        how = "in two ways" if name is not None else "nowhere"
        yield Finding("P028", f"the coldest battery is stated {how}", COLDEST, wiring.place)
    if name is not None:
        yield from unknown(name, limits, "limit", "limits in aircraft.yaml")
        if name in limits and limits[name].value.kind != "temperature":
            yield Finding(
                "P011", f"the limit {str(name)!r} is no temperature", 'give it one, such as "10 °C"',
                limits[name].place_of_key("value"),
            )  # fmt: skip


def _conductor(conductor: Conductor, wiring: Wiring, project: Project) -> Iterator[Finding]:
    if (conductor.gauge is None) == (conductor.area is None):
        how = "states two sizes, a gauge and an area" if conductor.gauge else "states no size"
        fault = f"the conductor {conductor.name} {how}"
        yield Finding("P028", fault, SIZE, conductor.place)
    if conductor.fuse is not None:
        yield from unknown(conductor.fuse, wiring.fuses, "fuse", "fuses in battery.yaml")
    for name in conductor.through:
        yield from unknown(name, wiring.connectors, "connector", "connectors in battery.yaml")
    if conductor.battery is not None:
        yield from unknown(conductor.battery, project.battery.options, "battery", "options in battery.yaml")


def _unused(wiring: Wiring) -> Iterator[Finding]:
    """Tell what no conductor names: nothing would be compared for it, and nobody would see that."""
    fuses = {str(one.fuse) for one in wiring.conductors.values() if one.fuse}
    through = {str(name) for one in wiring.conductors.values() for name in one.through}
    kinds = ((wiring.fuses, fuses, "fuse"), (wiring.connectors, through, "through"))
    for parts, used, key in kinds:
        for name, part in parts.items():
            if name not in used:
                fault = f"no conductor names {part.name}, so its current is not known"
                yield Finding("P029", fault, f"name it at its conductor as  {key}: {name}", part.place)
