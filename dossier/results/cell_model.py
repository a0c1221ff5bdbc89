"""The cell of a battery as the record describes it, ready for the discharge model: nothing is filled in in
silence."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import cast

import numpy as np

from dossier.compute.cell import RATE_RANGES, Application, CellLimits
from dossier.compute.cell import Cell as Circuit
from dossier.compute.cell_resistance import USUAL_CONSTANT, WARM
from dossier.compute.curve import Curve, held_to
from dossier.compute.pack_share import PackShape
from dossier.figures import Input, constant, given
from dossier.model.battery import Battery, Cell, Option
from dossier.results.battery import PackResult
from dossier.results.pack_age import NEW, Growth, growth_of
from dossier.results.rest_voltage import rest_curve, rest_points


@dataclass(frozen=True)
class CellModel:
    """One battery as one of its cells. ``circuit`` holds as much as a new cell; ``health`` says what this one
    holds."""

    option: Option
    cell: Cell
    result: PackResult
    circuit: Circuit
    shape: PackShape
    table: dict[str, list[Input]]
    """Columns ``z_i``, ``U_i`` and ``R_i`` on common points."""
    health: float
    """Capacity of a cell of this battery, of the nominal one."""
    growth: Growth = NEW
    """Of its resistance."""

    @property
    def name(self) -> str:
        """What a reader calls the battery."""
        return str(self.option.name)

    def charge_at(self, rest_voltage: float) -> float:
        """Return the state of charge at a rest voltage of a cell in V, which lies inside the table."""
        return float(np.interp(rest_voltage, self.circuit.rest.y, self.circuit.rest.x))


def cell_model(battery: Battery, result: PackResult) -> CellModel | None:
    """Build the model of one battery; None where the record states no resistance of its cell.

    Raises:
        OutsideRange: the values make no cell for which the solvers hold.
    """
    option = battery.options[result.option]
    cell = battery.cells[option.cell]
    if not cell.resistance or "capacity" not in result.figures:
        return None
    capacity = result.figures["capacity"].value / option.parallel
    return CellModel(
        option,
        cell,
        result,
        _circuit(cell),
        _shape(option),
        common_table(cell),
        capacity / cell.nominal_capacity.value,
        growth_of(result.figures),
    )


def _shape(option: Option) -> PackShape:
    wiring = option.wiring_resistance.value if option.wiring_resistance else 0.0
    return PackShape(option.series, option.parallel, wiring)


def _circuit(cell: Cell) -> Circuit:
    rest, measured = rest_curve(cell), cell.resistance or []
    resistance = Curve(
        tuple(p.state_of_charge.value for p in measured), tuple(p.resistance.value for p in measured)
    )
    return Circuit(
        rest,
        held_to(resistance, rest.x[0], rest.x[-1]),
        cell.nominal_capacity.value,
        cell.nominal_voltage.value,
        cell.nominal_capacity.value,
        CellLimits(cell.empty_voltage.value, cell.maximum_discharge_current.value),
        cast(Application, str(cell.application or "energy")),
        constant=cell.resistance_temperature_constant.value
        if cell.resistance_temperature_constant
        else USUAL_CONSTANT,
    )


def common_table(cell: Cell) -> dict[str, list[Input]]:
    """Put both tables on common points; between two points stands the straight line between them."""
    points = rest_points(cell)
    voltages = [(p.charge.value, replace(p.voltage, label=f"rest voltage at {p.text}")) for p in points]
    resistances = [
        (p.state_of_charge.value, given(p.resistance, f"resistance at {p.state_of_charge.text}"))
        for p in cell.resistance or []
    ]
    first, last = voltages[0][0], voltages[-1][0]
    nodes = sorted({z for z, _ in (*voltages, *resistances) if first <= z <= last})
    places = {p.charge.value: p.charge for p in points}
    places |= {p.state_of_charge.value: given(p.state_of_charge, "") for p in cell.resistance or []}
    return {
        "z_i": [replace(places[z], label=f"state of charge, point {n}") for n, z in enumerate(nodes, 1)],
        "U_i": [_between(voltages, z) for z in nodes],
        "R_i": [_between(resistances, z) for z in nodes],
    }


def _between(points: list[tuple[float, Input]], z: float) -> Input:
    """Take the point at ``z`` or the straight line between its neighbours; beyond the ends the nearest."""
    if z <= points[0][0]:
        return points[0][1]
    for (low, below), (high, above) in pairwise(points):
        if z == high:
            return above
        if z < high:
            share = (z - low) / (high - low)
            between = below.estimate * (1 - share) + above.estimate * share
            return Input(f"between {below.label} and {above.label}", below.kind, between, below.origin)
    return points[-1][1]


def conditions(model: CellModel) -> dict[str, Input]:
    """Return the inputs of the run time that do not depend on the flight: warm, and as old as it is."""
    cell = model.cell
    usual = constant("usual rise of resistance in the cold", "temperature", USUAL_CONSTANT, "pybamm")
    stated = cell.resistance_temperature_constant
    kind = str(cell.application or "energy")
    return {
        "U_min": given(cell.empty_voltage, "empty, cell, under load"),
        "T_b": constant("battery at 25 °C", "temperature", WARM, "definition, the condition of this figure"),
        "G": model.growth.input,
        "b": given(stated, "rise of resistance in the cold") if stated else usual,
        "C_lim": constant(
            f"rate of a cell for {kind}", "number", RATE_RANGES[model.circuit.application].sustained, "pybamm"
        ),
    }
