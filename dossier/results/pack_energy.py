"""The energy of a battery: on its nameplate, at rest between the limits of voltage, at
its terminals, usable."""

from __future__ import annotations

from dossier.compute import open_circuit, pack, pack_state
from dossier.figures import given
from dossier.results.pack_workings import PackWorkings
from dossier.results.rest_voltage import generic_findings, rest_points


def stored_energy(workings: PackWorkings) -> None:
    """Make the energy of the nameplate, of a cell between its limits of voltage, and what of it can be used.

    Raises:
        NotMadeError: a figure that others need could not be made.
    """
    points = rest_points(workings.cell)
    table = {
        "z_i": [point.charge for point in points],
        "U_i": [point.voltage for point in points],
    }
    workings.findings += generic_findings(workings.cell)
    workings.make(
        pack.nameplate_energy,
        "nameplate_energy",
        "Nameplate energy",
        "energy",
        {"U_nom": workings.take("nominal_voltage"), "Q": workings.take("capacity")},
    )
    workings.make(
        open_circuit.cell_energy_between_voltages,
        "cell_energy",
        "Energy of a cell between the limits of voltage, at rest",
        "energy",
        {
            "Q_cell": workings.cell_capacity,
            "U_1": given(workings.option.full_cell_voltage, "full, cell"),
            "U_2": given(workings.option.empty_cell_voltage, "flying stops, cell"),
            **table,
        },
        style="cell_energy",
    )
    workings.make(
        pack.cell_count,
        "cells",
        "Number of cells",
        "number",
        {"N_s": workings.series, "N_p": workings.parallel},
        style="count",
    )
    if "cell_energy" in workings.figures:
        _at_the_terminals(workings)


def _at_the_terminals(workings: PackWorkings) -> None:
    workings.make(
        pack.pack_energy,
        "energy_between_limits",
        "Energy between the limits of voltage, at rest",
        "energy",
        {"N": workings.take("cells"), "E_cell": workings.take("cell_energy")},
    )
    workings.make(
        pack_state.delivered_energy,
        "deliverable_energy",
        "Energy at the terminals",
        "energy",
        {
            "E": workings.take("energy_between_limits"),
            "eta_b": given(workings.aircraft.propulsion.efficiency.battery, "efficiency of the battery"),
        },
    )
    workings.make(
        pack.usable_energy,
        "usable_energy",
        "Usable energy, reserve kept",
        "energy",
        {"E": workings.take("deliverable_energy"), "r": given(workings.option.reserve, "reserve")},
    )
