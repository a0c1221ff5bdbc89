"""A battery as a body: its mass, its volume, the energy in each, and whether its bay has room for it."""

from __future__ import annotations

from dossier.compute import pack, pack_state, performance
from dossier.figures import given
from dossier.findings import Finding, Severity
from dossier.results.pack_workings import PackWorkings

AXES = ("length", "width", "height")


def body(workings: PackWorkings) -> None:
    """Make mass, volume, what they hold of energy, and the room that the bay leaves.

    Raises:
        NotMadeError: a figure that others need could not be made.
    """
    mass = (
        given(workings.fitted.mass, f"battery {workings.fitted.pack}, mass")
        if workings.fitted
        else given(workings.option.mass, f"{workings.option.name}, mass")
    )
    workings.make(performance.as_stated, "pack_mass", "Mass of the battery", "mass", {"y": mass})
    workings.make(
        pack_state.box_volume,
        "volume",
        "Volume",
        "volume",
        {
            symbol: given(getattr(workings.option.size, axis), axis)
            for symbol, axis in zip(("l_x", "l_y", "l_z"), AXES, strict=True)
        },
        style="pack_volume",
    )
    workings.make(
        pack.specific_energy,
        "specific_energy",
        "Nameplate energy for mass",
        "specific_energy",
        {"E": workings.take("nameplate_energy"), "m": workings.take("pack_mass")},
    )
    workings.make(
        pack.energy_density,
        "energy_density",
        "Nameplate energy for volume",
        "energy_density",
        {"E": workings.take("nameplate_energy"), "V": workings.take("volume")},
    )
    _room(workings)


def _room(workings: PackWorkings) -> None:
    bay = workings.battery.bay
    for axis in AXES:
        short = f"bay_clearance_{axis}"
        workings.make(
            pack.box_clearance,
            short,
            f"Room left in the bay, {axis}",
            "length",
            {
                "l_bay": given(getattr(bay.size, axis), f"bay, {axis}"),
                "l_pack": given(getattr(workings.option.size, axis), f"battery, {axis}"),
                "l_gap": given(bay.clearance, "gap to keep"),
            },
            style="arm",
        )
        if workings.figures[short].value < 0:
            workings.findings.append(
                Finding(
                    "C003",
                    f"{workings.option.name} is {-workings.figures[short].value * 1000:.0f} mm too large "
                    f"for the bay in {axis}",
                    "change the bay or the battery",
                    workings.option.size.place_of_key(axis),
                    Severity.WARNING,
                )
            )
