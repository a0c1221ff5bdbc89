"""The time and the energy of a charge as formulas, so that their points can be shown."""

from __future__ import annotations

from collections.abc import Sequence

from dossier.compute.cell import Cell, CellLimits
from dossier.compute.charging import Charge, Leg, charge, legs
from dossier.compute.curve import Array, Curve
from dossier.figures import formula
from dossier.steps import Points, point_columns


def _question(
    P_cell: float, z_1: float, U_max: float, I_c: float, *, Q_cell: float, z_i: Sequence[float],
    U_i: Sequence[float], R_i: Sequence[float],
) -> tuple[Cell, Charge]:  # fmt: skip
    table = (Curve(tuple(z_i), tuple(U_i)), Curve(tuple(z_i), tuple(R_i)))
    # what ends a discharge and how it is named does not enter a charge
    limits = CellLimits((U_i[-1] + max(U_i[0], U_i[-1] / 2)) / 2)
    return Cell(*table, Q_cell, 1.0, Q_cell, limits, "energy"), Charge(P_cell, U_max, I_c, z_1)


@formula
def bulk_time(
    P_cell: float, z_1: float, U_max: float, I_c: float, *, Q_cell: float, z_i: Sequence[float],
    U_i: Sequence[float], R_i: Sequence[float],
) -> float:  # fmt: skip
    r"""Time of a charge at constant power, until the voltage of the charger is reached.

    Formula: t = \frac{Q_{cell}}{P_{cell}} \int_{z_1}^{z(U_{max})} \frac{U_{oc} + \sqrt{U_{oc}^2 + 4 P_{cell}
        R_{cell}}}{2} \, dz
    Result: t
    Valid: 25 °C, a new cell, to about a rate of 1; the resistance of the discharge is taken for that of the
        charge, which no source shows
    Source: equivalent-circuit
    """
    asked = _question(P_cell, z_1, U_max, I_c, Q_cell=Q_cell, z_i=z_i, U_i=U_i, R_i=R_i)
    return charge(*asked).bulk_time


@formula
def taper_time(
    P_cell: float, z_1: float, U_max: float, I_c: float, *, Q_cell: float, z_i: Sequence[float],
    U_i: Sequence[float], R_i: Sequence[float],
) -> float:  # fmt: skip
    r"""Time of a charge at constant voltage, until the current is that at which the charger stops.

    Formula: t = Q_{cell} \int_{z(U_{max})}^{z(I_c)} \frac{R_{cell}}{U_{max} - U_{oc}} \, dz
    Result: t
    Valid: 25 °C, a new cell; the resistance of the discharge is taken for that of the charge, which no source
        shows
    Source: equivalent-circuit
    """
    asked = _question(P_cell, z_1, U_max, I_c, Q_cell=Q_cell, z_i=z_i, U_i=U_i, R_i=R_i)
    return charge(*asked).taper_time


@formula
def charged_energy(
    P_cell: float, z_1: float, U_max: float, I_c: float, *, N: float, Q_cell: float, z_i: Sequence[float],
    U_i: Sequence[float], R_i: Sequence[float],
) -> float:  # fmt: skip
    r"""Energy that goes into the battery in a whole charge.

    Formula: E = N \, Q_{cell} \int_{z_1}^{z(I_c)} V \, dz
    Result: E
    Valid: as for the times of the charge, whose points hold the voltage
    Source: equivalent-circuit
    """
    asked = _question(P_cell, z_1, U_max, I_c, Q_cell=Q_cell, z_i=z_i, U_i=U_i, R_i=R_i)
    return N * charge(*asked).energy


def points_of_charge(
    P_cell: float, z_1: float, U_max: float, I_c: float, *, Q_cell: float, z_i: Sequence[float],
    U_i: Sequence[float], R_i: Sequence[float],
) -> tuple[Points, Points]:  # fmt: skip
    """Return the points of :func:`bulk_time` and of :func:`taper_time`; SI, of one cell.

    Raises:
        OutsideRange: as there.
    """
    asked = _question(P_cell, z_1, U_max, I_c, Q_cell=Q_cell, z_i=z_i, U_i=U_i, R_i=R_i)
    bulk, taper = legs(*asked)
    volts = (
        (
            r"V = \frac{U_{oc} + \sqrt{U_{oc}^2 + 4 P_{cell} R_{cell}}}{2}",
            r"I = P_{cell} / V",
        ),
        (r"V = U_{max}", r"I = (U_{max} - U_{oc}) / R_{cell}"),
    )
    return _listed(bulk, Q_cell, *volts[0]), _listed(taper, Q_cell, *volts[1])


def _listed(leg: Leg, capacity: float, voltage: str, current: str) -> Points:
    titles: tuple[tuple[str, str, str, Array], ...] = (
        ("state of charge", "z", "number", leg.charge),
        ("width that it stands for", r"\Delta z", "number", leg.width),
        ("rest voltage", r"U_{oc}", "voltage", leg.rest),
        ("resistance", r"R_{cell}", "resistance", leg.resistance),
        ("voltage", voltage, "voltage", leg.voltage),
        ("current", current, "current", leg.current),
        ("time", r"\Delta t = Q_{cell} \Delta z / I", "time", capacity * leg.width / leg.current),
    )
    return Points(
        "The points of the integral, one cell",
        point_columns(titles),
        "Sum of the times",
    )
