"""What is left until something is due, by flight time, by flights and by the calendar."""

from __future__ import annotations

from dossier.figures import formula


@formula
def flight_time_at_due(t_0: float, t_I: float) -> float:
    r"""Flight time of the aircraft at which something is due.

    Formula: t_d = t_0 + t_I
    Result: t_d
    Valid: always
    Source: definition
    """
    return t_0 + t_I


@formula
def flight_time_left(t_d: float, t_F: float) -> float:
    r"""Flight time that is left until something is due.

    Formula: t_l = t_d - t_F
    Result: t_l
    Valid: always; below zero when it is overdue
    Source: definition
    """
    return t_d - t_F


@formula
def flights_at_due(N_0: float, N_I: float) -> float:
    r"""Number of flights of the aircraft at which something is due.

    Formula: N_d = N_0 + N_I
    Result: N_d
    Valid: always
    Source: definition
    """
    return N_0 + N_I


@formula
def flights_left(N_d: float, N_F: float) -> float:
    r"""Flights that are left until something is due.

    Formula: N_l = N_d - N_F
    Result: N_l
    Valid: always; below zero when it is overdue
    Source: definition
    """
    return N_d - N_F


@formula
def days_left(t_p: float, t_g: float) -> float:
    r"""Calendar time that is left of a period; on its last day nothing is left and nothing is overdue.

    Formula: t_l = t_p - t_g
    Result: t_l
    Valid: always; below zero when it is overdue
    Source: definition
    """
    return t_p - t_g
