"""The run time of a cell as one formula, so that a figure can carry the uncertainty of each input to it."""

from __future__ import annotations

from collections.abc import Sequence

from dossier.compute.cell import Application, Cell, CellLimits
from dossier.compute.cell_circuit import end_of_charge
from dossier.compute.curve import Curve
from dossier.compute.discharge import discharge, quadrature
from dossier.compute.discharge_outcome import NoAnswer
from dossier.compute.scenarios import scenarios
from dossier.figures import OutsideRange, formula
from dossier.steps import Points, point_columns


@formula
def time_at_power(
    P_cell: float, z_1: float, z_2: float, U_min: float, *, T_b: float, Q_cell: float, G: float, R_x: float,
    b: float, E_nom: float, C_lim: float, z_i: Sequence[float], U_i: Sequence[float], R_i: Sequence[float],
) -> float:  # fmt: skip
    r"""Time that a cell gives a constant power, to a state of charge or to a voltage under load.

    Formula: t = \frac{Q_{cell}}{P_{cell}} \int_{\max(z_2,\, z(U_{min}))}^{z_1} \frac{U_{oc} +
        \sqrt{U_{oc}^2 - 4 P_{cell} R_{cell}}}{2} \, dz
    Result: t
    Valid: to a nominal rate of 1 for energy cells and of 3 for power cells, from 5 °C up, at constant
        temperature; the resistances from a discharge near that rate; all columns of the table on the same
        points
    Source: pybamm, within 1.2 % of time to a rate of 0.5, 5.2 % at 1 for energy cells and 2.5 % at 3 for
        power cells
    """
    cell = _cell(Q_cell, U_min, E_nom, C_lim, b=b, table=(z_i, U_i, R_i))
    case = scenarios([P_cell], start=[z_1], floor=[z_2], temperature=[T_b], growth=[G], wiring=[R_x])
    answer = discharge(cell, case)[0]
    if isinstance(answer, NoAnswer):
        raise OutsideRange(answer.message)
    return answer.time


_Table = tuple[Sequence[float], Sequence[float], Sequence[float]]


def _cell(Q_cell: float, U_min: float, E_nom: float, C_lim: float, *, b: float, table: _Table) -> Cell:
    z_i, U_i, R_i = (tuple(column) for column in table)
    application: Application = "energy" if C_lim <= 1 else "power"
    cell = Cell(
        Curve(z_i, U_i), Curve(z_i, R_i), Q_cell, 1.0, E_nom, CellLimits(U_min), application, constant=b
    )
    if C_lim != cell.rates.sustained:
        raise OutsideRange(f"one resistance is shown to hold to a nominal rate of 1 or 3, not {C_lim:.4g}")
    return cell


def points_of_run(
    P_cell: float, z_1: float, z_2: float, U_min: float, *, T_b: float, Q_cell: float, G: float, R_x: float,
    b: float, E_nom: float, C_lim: float, z_i: Sequence[float], U_i: Sequence[float], R_i: Sequence[float],
) -> Points:  # fmt: skip
    """Return the points at which :func:`time_at_power` is evaluated, from the start to the end; SI.

    Raises:
        OutsideRange: as there.
    """
    cell = _cell(Q_cell, U_min, E_nom, C_lim, b=b, table=(z_i, U_i, R_i))
    case = scenarios([P_cell], start=[z_1], floor=[z_2], temperature=[T_b], growth=[G], wiring=[R_x])
    end, _ = end_of_charge(cell, case)
    at = quadrature(cell, case, end, case.start)
    flown = at.weight.ravel() > 0
    columns = (at.charge, at.rest, at.resistance, at.voltage, at.weight)
    z, U, R, V, dz = (column.ravel()[flown][::-1] for column in columns)
    titles = (
        ("state of charge", "z", "number", z),
        ("width that it stands for", r"\Delta z", "number", dz),
        ("rest voltage", r"U_{oc}", "voltage", U),
        ("resistance with the wiring", r"R_{cell}", "resistance", R),
        ("voltage under load", r"V = \frac{U_{oc} + \sqrt{U_{oc}^2 - 4 P_{cell} R_{cell}}}{2}", "voltage", V),
        ("current", r"I = P_{cell} / V", "current", P_cell / V),
        ("time", r"\Delta t = Q_{cell} \Delta z / I", "time", Q_cell * dz * V / P_cell),
    )
    return Points(
        f"The points of the integral, one cell, from a charge of {case.start[0]:.5f} to {end[0]:.5f}",
        point_columns(titles),
        "Sum of the times",
    )
