"""The limits by which a battery is accepted, and the voltages of its cells in the log."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding
from dossier.model.events import CapacityTest, PackFitted
from dossier.project import Project
from dossier.references.limits import LIMITS
from dossier.references.names import unknown

ASKED: tuple[tuple[str, str, str], ...] = (
    ("least_capacity_limit", "ratio", 'a part of the nominal capacity, such as "80 %"'),
    ("least_energy_limit", "ratio", 'a part of the nameplate energy, such as "75 %"'),
    ("largest_cell_spread_limit", "voltage", 'a difference of voltage, such as "30 mV"'),
    ("coldest_limit", "temperature", 'a temperature, such as "10 °C"'),
    ("hottest_limit", "temperature", 'a temperature, such as "60 °C"'),
    ("largest_resistance_growth_limit", "number", 'a number, such as "1.5"'),
)
"""Key of battery.yaml, kind of the limit, and what would be right."""


def check(project: Project) -> Iterator[Finding]:
    """Check that each criterion names a limit of its kind, and that all cells of a log are named."""
    asked, limits = project.battery.acceptance, project.aircraft.limits
    for key, kind, right in ASKED if asked else ():
        name = getattr(asked, key)
        if name is None:
            continue
        yield from unknown(name, limits, "limit", LIMITS)
        limit = limits.get(name)
        fits = limit and limit.value.kind in (("number", "ratio") if kind == "number" else (kind,))
        if limit and (not fits or limit.value.value <= 0):
            place = limit.place_of_key("value")
            yield Finding("P011", f"the limit {str(name)!r} is {limit.value.text}", f"give {right}", place)
    yield from _cells(project)


def _cells(project: Project) -> Iterator[Finding]:
    """A spread over some of the cells is not that of the battery."""
    options = project.battery.options
    for record in project.serials.values():
        fitted = {str(one.pack): str(one.option) for one in record.events if isinstance(one, PackFitted)}
        for event in record.events:
            if not isinstance(event, PackFitted | CapacityTest) or event.log is None:
                continue
            log, option = event.log, options.get(fitted.get(str(event.pack), ""))
            if log.cells and option and len(set(map(str, log.cells))) != option.series:
                yield Finding(
                    "P045",
                    f"the log names {len(set(map(str, log.cells)))} columns of cells, "
                    f"and {option.name} has {option.series} in series",
                    "name one column for each group in series, or none", log.place_of_key("cells"),
                )  # fmt: skip
