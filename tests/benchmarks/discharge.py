"""Scenarios a second: the vectorised discharge against the same circuit in scipy's solve_ivp. Run by hand,
once.

    python tests/benchmarks/discharge.py

Prints what it measures; nothing is asserted, for a time depends on the machine.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from math import sqrt
from time import perf_counter

import numpy as np
from scipy.integrate import solve_ivp

from dossier.compute.cell import Cell, CellLimits
from dossier.compute.discharge import discharge
from dossier.compute.mission import fly
from dossier.compute.mission_plan import Conditions, MissionPhase
from dossier.compute.scenarios import scenarios
from dossier.tables.cells import generic_cells

MANY, FEW = 20_000, 20


def solver_time(cell: Cell, power: float) -> float:
    """Run one discharge in time, to the limit of voltage as an event."""

    def voltage(z: float) -> float:
        U, R = np.interp(z, cell.rest.x, cell.rest.y), np.interp(z, cell.resistance.x, cell.resistance.y)
        return float((U + sqrt(U * U - 4 * power * R)) / 2)

    def limit(_t: float, z: np.ndarray) -> float:
        return voltage(z[0]) - cell.limits.voltage

    limit.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(
        lambda _t, z: [-power / voltage(z[0]) / cell.capacity],
        (0, 1e6),
        [1.0],
        rtol=1e-8,
        atol=1e-10,
        events=limit,
    )
    return float(run.t_events[0][0])


def main() -> None:
    """Measure each once."""
    cell = replace(generic_cells()["nmc-energy"].cell, limits=CellLimits(3.0))
    powers = np.linspace(4, 17, MANY)
    discharge(cell, scenarios(powers[:10]))
    began = perf_counter()
    times = discharge(cell, scenarios(powers)).computed["time"]
    vectorised = MANY / (perf_counter() - began)
    some = np.linspace(0, MANY - 1, FEW).astype(int)
    began = perf_counter()
    solved = np.array([solver_time(cell, float(powers[number])) for number in some])
    stepping = FEW / (perf_counter() - began)
    off = np.abs(times[some] / solved - 1).max()
    phases = [
        MissionPhase("climb", np.linspace(20, 30, 1000), 200),
        MissionPhase("cruise", np.linspace(9, 12, 1000)),
    ]
    began = perf_counter()
    fly(cell, phases, Conditions())
    missions = 1000 / (perf_counter() - began)
    sys.stdout.write(
        f"quadrature  {vectorised:12.0f} scenarios/s\nsolve_ivp   {stepping:12.1f} scenarios/s\n"
        f"ratio       {vectorised / stepping:12.0f}\nlargest difference of time {off:.1e}\n"
        f"missions    {missions:12.0f} scenarios/s, stepped, 1000 side by side\n"
    )


if __name__ == "__main__":
    main()
