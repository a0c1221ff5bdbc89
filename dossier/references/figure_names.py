"""Names in a record that become names of figures, and must not be those of a computed one."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding
from dossier.model.events import FlightTest
from dossier.project import Project

COMPUTED = frozenset(
    {
        "designed_mass",
        "drive_efficiency",
        "empty_cg",
        "empty_cg_chord",
        "empty_mass",
        "empty_moment",
        "full_shaft_power",
        "levelling_error",
        "mass_above_design",
        "maximum_power",
        "maximum_take_off_mass",
        "useful_load",
        "weighed_cg",
        "weighed_lateral_cg",
        "weighed_mass",
        "weighed_moment",
        "wing_loading",
    }
)
"""Figures without a dot in their name; a flight test gives its quantities such names as well."""
NO_OPTION = "without_battery"
"""Stands behind the dot where a battery's name stands."""


def check(project: Project) -> Iterator[Finding]:
    """Check the quantities of flight tests and the names of batteries."""
    if NO_OPTION in project.battery.options:
        yield Finding(
            "P019",
            f"a battery cannot be called {NO_OPTION!r}: "
            "the figures of the aircraft without battery have this name",
            "give the battery another name",
            project.battery.options[NO_OPTION].place,
        )
    for record in project.serials.values():
        for event in record.events:
            for result in event.results if isinstance(event, FlightTest) else ():
                if result.quantity in COMPUTED:
                    what = f"{str(result.quantity)!r} is computed, and a flight test cannot measure it"
                    place = result.place_of_key("quantity")
                    yield Finding("P019", what, "choose another name for the measured quantity", place)
