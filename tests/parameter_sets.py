"""Open parameter sets of cells, as PyBaMM carries them: rest voltages, and runs of its full electrochemical
model (DFN, isothermal, the temperature of the set). For tests, and for the program that prints the shipped
tables again."""

from __future__ import annotations

import os
from dataclasses import dataclass
from functools import cache

import numpy as np

from dossier.compute.cell import Application, Cell, CellLimits
from dossier.compute.cell_resistance import resistance_curve
from dossier.compute.curve import Array, Curve, curve, held_to

os.environ["PYBAMM_DISABLE_TELEMETRY"] = "true"  # read when the library is imported
import pybamm

pybamm.set_logging_level("ERROR")
MESH = dict.fromkeys(("x_n", "x_s", "x_p", "r_n", "r_p"), 20)
"""Points per domain and radius; 30 change the time by less than 0.06 % (tests/references/battery.yaml)."""
CHARGES = sorted({number / 20 for number in range(21)} | {0.01, 0.02, 0.03, 0.04, 0.97, 0.98, 0.99})


@dataclass(frozen=True)
class ParameterSet:
    """A set with the ratings by which its rates are counted, as in battery.yaml."""

    name: str
    nominal_capacity: float
    """In Ah."""
    nominal_voltage: float
    application: Application

    @property
    def nominal_power(self) -> float:
        """In W: a rate of 1."""
        return self.nominal_capacity * self.nominal_voltage

    @property
    def lowest_voltage(self) -> float:
        """In V, where a discharge ends."""
        return float(pybamm.ParameterValues(self.name)["Lower voltage cut-off [V]"])


CHEN = ParameterSet("Chen2020", 5.0, 3.6, "energy")
OREGAN = ParameterSet("ORegan2022", 5.0, 3.6, "energy")
MOHTAT = ParameterSet("Mohtat2020", 5.0, 3.75, "power")
KIM = ParameterSet("NCA_Kim2011", 0.43, 3.6, "power")
PRADA = ParameterSet("Prada2013", 2.3, 3.2, "power")
"""Iron phosphate; its graphite is borrowed from Chen2020, its iron phosphate from Afshar 2017."""


def rest_voltages(name: str, charges: list[float]) -> tuple[list[float], float]:
    """Return rest voltages in V at states of charge, and the capacity in C between the limits of voltage."""
    values, symbols = pybamm.ParameterValues(name), pybamm.LithiumIonParameters()
    solver = pybamm.lithium_ion.ElectrodeSOHSolver(values, symbols)
    n_empty, n_full, p_full, p_empty = solver.get_min_max_stoichiometries()
    at = values["Reference temperature [K]"]
    sides = {"n": (symbols.n.prim, n_empty, n_full), "p": (symbols.p.prim, p_empty, p_full)}

    def potentials(side: str) -> Array:
        electrode, empty, full = sides[side]
        symbol = values.process_symbol(electrode.U(pybamm.InputParameter(side), at))
        places = [empty + (full - empty) * charge for charge in charges]
        return np.array([float(np.squeeze(symbol.evaluate(inputs={side: one}))) for one in places])

    capacity = float(values.evaluate(symbols.n.prim.Q_init)) * (n_full - n_empty) * 3600
    return [float(one) for one in potentials("p") - potentials("n")], capacity


@dataclass(frozen=True, eq=False)
class Run:
    """One discharge from full, in SI."""

    time: Array
    voltage: Array
    current: Array
    charge: Array
    """Taken."""

    @property
    def energy(self) -> float:
        """In J."""
        return float(np.trapezoid(self.voltage * self.current, self.time))

    @property
    def mean_voltage(self) -> float:
        """Energy over charge."""
        return self.energy / float(np.trapezoid(self.current, self.time))


def _solved(one: ParameterSet, steps: list[str], period: str) -> pybamm.Solution:
    simulation = pybamm.Simulation(
        pybamm.lithium_ion.DFN(), parameter_values=pybamm.ParameterValues(one.name),
        experiment=pybamm.Experiment(steps, period=period), var_pts=MESH,
    )  # fmt: skip
    return simulation.solve(initial_soc=1.0)


def _run(solution: pybamm.Solution) -> Run:
    names = ("Time [s]", "Voltage [V]", "Current [A]", "Discharge capacity [A.h]")
    time, voltage, current, charge = (solution[name].entries for name in names)
    return Run(time, voltage, current, charge * 3600)


@cache
def full_model(one: ParameterSet, load: str) -> Run:
    """Discharge from full at a load such as ``9.0 W`` or ``2.5 A`` to the lowest voltage."""
    return _run(_solved(one, [f"Discharge at {load} until {one.lowest_voltage} V"], "5 seconds"))


@cache
def circuit(one: ParameterSet) -> Cell:
    """Make the tool's cell of the set: rest voltages, and the resistance from the run at a current of 1 C."""
    volts, capacity = rest_voltages(one.name, CHARGES)
    rest = curve(CHARGES, volts)
    run = full_model(one, f"{one.nominal_capacity} A")
    taken = [capacity * (1 - charge) for charge in reversed(CHARGES)]
    inside = [charge for charge in taken if run.charge[1] <= charge <= run.charge[-1]]
    loaded = Curve(tuple(inside), tuple(np.interp(inside, run.charge, run.voltage)))
    made = resistance_curve(rest, loaded, current=one.nominal_capacity, capacity=capacity)
    return _cell(one, rest, made, capacity)


@cache
def circuit_by_pulses(one: ParameterSet, seconds: int) -> Cell:
    """Make it with the resistance from pulses of 1 C, ``seconds`` long, each after an hour of rest."""
    volts, capacity = rest_voltages(one.name, CHARGES)
    rest, points = curve(CHARGES, volts), []
    for run in _pulses(one):
        if run.time[-1] - run.time[0] >= seconds - 1:
            at = run.time[0] + seconds
            charge = 1 - float(np.interp(at, run.time, run.charge)) / capacity
            drop = rest.at(charge, "state of charge") - float(np.interp(at, run.time, run.voltage))
            points.append((charge, drop / one.nominal_capacity))
    columns = zip(*reversed(points), strict=True)
    return _cell(one, rest, held_to(Curve(*columns), 0.0, 1.0), capacity)


@cache
def _pulses(one: ParameterSet) -> tuple[Run, ...]:
    """Pulses of 5 minutes at 1 C from five states of charge."""
    pulse = f"Discharge at {one.nominal_capacity} A for 300 seconds or until {one.lowest_voltage} V"
    between = f"Discharge at {one.nominal_capacity / 2} A for 900 seconds or until {one.lowest_voltage} V"
    steps = [pulse, "Rest for 1 hour", between, "Rest for 1 hour"] * 5
    solution = _solved(one, steps, "5 seconds")
    return tuple(_run(cycle) for cycle in solution.cycles[::4] if cycle is not None)


def _cell(one: ParameterSet, rest: Curve, resistance: Curve, capacity: float) -> Cell:
    limits = CellLimits(one.lowest_voltage)
    nominal = 3600 * one.nominal_capacity
    return Cell(rest, resistance, capacity, one.nominal_voltage, nominal, limits, one.application)
