"""Level flight at the end of a profile as one formula: the flight in phases, stepped in time."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from dossier.compute.cell import Application, Cell, CellLimits
from dossier.compute.curve import Curve
from dossier.compute.mission import fly
from dossier.compute.mission_answer import Flights
from dossier.compute.mission_plan import Conditions, MissionPhase
from dossier.figures import OutsideRange, formula
from dossier.steps import Points, point_columns

INSTANTS = 13
"""Of the level flight that are shown, both ends among them."""


def _flown(
    times: float | Sequence[float] | None, *, P_cell: float, z_1: float, z_2: float, P_ci: Sequence[float],
    t_i: Sequence[float], U_min: float, I_lim: float, T_b: float, Q_cell: float, G: float, R_x: float,
    b: float, E_nom: float, C_lim: float, z_i: Sequence[float], U_i: Sequence[float], R_i: Sequence[float],
) -> Flights:  # fmt: skip
    application: Application = "energy" if C_lim <= 1 else "power"
    cell = Cell(
        Curve(tuple(z_i), tuple(U_i)), Curve(tuple(z_i), tuple(R_i)), Q_cell, 1.0, E_nom,
        CellLimits(U_min, I_lim), application, constant=b,
    )  # fmt: skip
    before = [
        MissionPhase(f"phase {number}", power, time)
        for number, (power, time) in enumerate(zip(P_ci, t_i, strict=True), 1)
    ]
    level = MissionPhase("level flight", P_cell, times)
    at = Conditions(start=z_1, floor=z_2, temperature=T_b, growth=G, wiring=R_x)
    return fly(cell, [*before, level], at)


@formula
def cruise_flown(
    P_cell: float, z_1: float, z_2: float, P_ci: Sequence[float], *, t_i: Sequence[float], U_min: float,
    I_lim: float, T_b: float, Q_cell: float, G: float, R_x: float, b: float, E_nom: float, C_lim: float,
    z_i: Sequence[float], U_i: Sequence[float], R_i: Sequence[float],
) -> float:  # fmt: skip
    r"""Time in level flight after the phases before it, to the charge that is left or to a limit of the cell.

    Formula: t = \int_{z_2}^{z(\sum_i t_i)} \frac{Q_{cell}}{I} \, dz, \quad
        V = \frac{P}{I} = U_{oc} - U_s - 0.65 \, I \, R - I \, R_x, \quad
        \frac{dU_s}{dt} = \frac{0.35 \, I \, R - U_s}{150\,\mathrm{s}}, \quad
        R = R_{25} \, G \, e^{b \left(\frac{1}{T_b} - \frac{1}{298.15\,\mathrm{K}}\right)}
    Result: t
    Valid: stepped in time from rest, one temperature; from 5 °C up; phases
        above the sustained rate of at most 240 s
    Source: equivalent-circuit, slow part fitted to simulated missions
    """
    flights = _flown(
        None, P_cell=P_cell, z_1=z_1, z_2=z_2, P_ci=P_ci, t_i=t_i, U_min=U_min, I_lim=I_lim, T_b=T_b,
        Q_cell=Q_cell, G=G, R_x=R_x, b=b, E_nom=E_nom, C_lim=C_lim, z_i=z_i, U_i=U_i, R_i=R_i,
    )  # fmt: skip
    if int(flights.phase[0]) < len(P_ci):
        raise OutsideRange("the battery does not last to level flight")
    return float(flights.ends[-1].time[0])


def instants_of_cruise(time: float, **inputs: float | Sequence[float]) -> Points:
    """Return level flight at :data:`INSTANTS` even instants; SI, of one cell.

    Args:
        time: of level flight in s, as :func:`cruise_flown` gives it.
        inputs: as there.
    """
    even = np.linspace(0.0, time, INSTANTS)
    # the formula's own inputs by name: a mapping has one type for all of them
    flights = _flown(even.tolist(), **inputs)  # type: ignore[arg-type]
    last = flights.ends[-1]
    power = np.asarray(inputs["P_cell"], float)
    used = -np.diff(last.charge, prepend=last.charge[0])
    titles = (
        ("time", "t", "time", even),
        ("state of charge", "z", "number", last.charge),
        ("voltage under load", "V", "voltage", last.voltage),
        ("current", r"I = P_{cell} / V", "current", power / last.voltage),
        ("charge used since the line above", r"\Delta z", "number", used),
    )
    return Points(
        "Instants of level flight, one cell",
        point_columns(titles),
        "Sum of the charge used: that where level flight begins less that which it leaves",
    )
