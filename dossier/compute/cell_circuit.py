"""The circuit of a cell at a constant power: working voltage, and the state of charge at which it meets a
limit."""

from __future__ import annotations

import numpy as np

from dossier.compute.cell import Cell
from dossier.compute.curve import Array, Codes
from dossier.compute.discharge_outcome import Limit
from dossier.compute.scenarios import Scenarios


def working_voltage(U: Array, R: Array, P: Array) -> Array:
    r"""Voltage in V of cells with rest voltage ``U``, resistance ``R`` and power ``P`` in SI; shapes
    broadcast.

    V = (U + sqrt(U² - 4 P R)) / 2. Valid where U² >= 4 P R: the caller has looked, see :func:`headroom`;
    beyond, the voltage of the greatest power, U/2, is returned.
    Source: equivalent-circuit, Ohm's law solved for constant power.
    """
    return np.asarray((U + np.sqrt(np.maximum(headroom(U, R, P), 0.0))) / 2)


def headroom(U: Array, R: Array, P: Array) -> Array:
    """Return U² - 4 P R in V²: negative where no voltage gives the power."""
    return np.asarray(U * U - 4 * P * R)


def effective_cut_off(cell: Cell, power: Array) -> tuple[Array, Codes]:
    """Return the voltage in V that ends the discharge, and which limit it stands for.

    At a constant power the current meets its limit where the voltage falls to power over that limit, so both
    limits are one voltage: the higher.
    """
    by_current = power / cell.limits.current
    voltage = cell.limits.voltage
    limit = np.where(by_current > voltage, Limit.CURRENT, Limit.VOLTAGE).astype(np.int64)
    return np.maximum(by_current, voltage), limit


def end_of_charge(cell: Cell, cases: Scenarios) -> tuple[Array, Codes]:
    """Return the state of charge at which each discharge ends, and the limit that ends it.

    The voltage under load is at its limit W where U(z) - P R(z)/W = W. Both tables are straight lines, so the
    crossing is exact. As W is above half of the highest rest voltage, the power cannot become impossible
    before. Where the limit is passed at the start already, the start is returned, with ``POWER`` if no
    voltage gives the power.
    """
    z, U, R_25 = cell.nodes()
    R = cases.resistances(cell, R_25)
    P, start = cases.power, cases.start
    W, limit = effective_cut_off(cell, P)
    above = U - (P / W)[:, None] * R - W[:, None]
    at_start = _interpolated(z, above, start)
    crossing = _last_crossing(z, above, start, at_start)
    end = np.where(at_start < 0, start, np.maximum(crossing, cases.floor))
    limit = np.where(crossing <= z[0], Limit.EMPTY, limit)
    limit = np.where(cases.floor > crossing, Limit.FLOOR, limit)
    first = effective_cut_off(cell, P)[1]
    room = headroom(cell.rest.along(start), _interpolated(z, R, start), P)
    limit = np.where(at_start < 0, np.where(room < 0, Limit.POWER, first), limit)
    return end, limit.astype(np.int64)


def _segment(z: Array, x: Array) -> Codes:
    return np.clip(np.searchsorted(z, x, side="left") - 1, 0, len(z) - 2).astype(np.int64)


def _interpolated(z: Array, rows: Array, x: Array) -> Array:
    """Return each row's value at its own ``x`` on straight lines between the points ``z``."""
    k = _segment(z, x)
    own = np.arange(len(x))
    share = (x - z[k]) / (z[k + 1] - z[k])
    return np.asarray((1 - share) * rows[own, k] + share * rows[own, k + 1])


def _last_crossing(z: Array, rows: Array, start: Array, at_start: Array) -> Array:
    """Return the highest state of charge below the start where a row falls below 0; the end of the table if
    none does."""
    below = (rows < 0) & (z < start[:, None])
    found = below.any(axis=1)
    k = len(z) - 1 - np.argmax(below[:, ::-1], axis=1)
    own, k = np.arange(len(start)), np.where(found, k, 0)
    up = np.minimum(k + 1, len(z) - 1)
    upper_z = np.minimum(z[up], start)
    upper = np.where(z[up] < start, rows[own, up], at_start)
    fall = upper - rows[own, k]
    share = np.divide(-rows[own, k], fall, out=np.zeros_like(fall), where=fall > 0)
    return np.asarray(np.where(found, z[k] + share * (upper_z - z[k]), z[0]))
