"""Where in a step of a mission the first limit is met."""

from __future__ import annotations

import numpy as np

from dossier.compute.cell_circuit import headroom, working_voltage
from dossier.compute.cell_step import CellState, Circuit, advance
from dossier.compute.curve import Array, Codes
from dossier.compute.discharge_outcome import Limit

LIMITS: Codes = np.array(
    [Limit.POWER, Limit.VOLTAGE, Limit.CURRENT, Limit.TEMPERATURE, Limit.FLOOR, Limit.EMPTY], dtype=np.int64
)
"""In the order of the rooms; where two are passed at once the first is told."""
CUTS = 4
"""How often the step that meets a limit is cut again."""


def rooms(circuit: Circuit, floor: Array, state: CellState, power: Array) -> tuple[Array, Array]:
    """Return the room to each of :data:`LIMITS`, shape ``(limits, scenarios)``, negative behind it, and the
    voltage in V."""
    driving, prompt = circuit.driving(state), circuit.prompt(state)
    voltage = working_voltage(driving, prompt, power)
    limits = circuit.cell.limits
    endless = np.full(power.shape, np.inf)
    room = np.stack([
        headroom(driving, prompt, power),
        voltage - limits.voltage,
        limits.current - power / voltage if np.isfinite(limits.current) else endless,
        limits.hottest - state.temperature,
        state.z - floor,
        state.z - circuit.cell.rest.x[0],
    ])  # fmt: skip
    return room, voltage


def crossing(
    circuit: Circuit, floor: Array, state: CellState, *, power: Array, h: Array
) -> tuple[Array, Codes]:
    """Return the part of the step of ``h`` s at which a limit is met, and the limit; for scenarios that meet
    one.

    The voltage has a bend where the step passes a point of the tables, so a straight line over the whole step
    would miss: the step is cut again at the place that the line names.
    """
    low, high = np.zeros(power.shape), np.ones(power.shape)
    room_low, _ = rooms(circuit, floor, state, power)
    room_high, _ = rooms(circuit, floor, advance(circuit, state, power, h)[0], power)
    for _ in range(CUTS):
        at = low + _first_passed(room_low, room_high)[0] * (high - low)
        room, _ = rooms(circuit, floor, advance(circuit, state, power, at * h)[0], power)
        beyond = (room < 0).any(axis=0)
        low, high = np.where(beyond, low, at), np.where(beyond, at, high)
        room_low, room_high = np.where(beyond, room_low, room), np.where(beyond, room, room_high)
    part, limit = _first_passed(room_low, room_high)
    return low + part * (high - low), limit


def _first_passed(before: Array, after: Array) -> tuple[Array, Codes]:
    """Return the part of the way on which straight lines stay inside all limits, and the limit that ends
    it."""
    known = np.isfinite(before)  # a limit of current that nobody set leaves endless room
    fall = np.subtract(before, after, out=np.zeros_like(before), where=known)
    passed = after < 0
    share = np.divide(before, fall, out=np.ones_like(fall), where=passed & (fall > 0))
    part = np.where(passed, share, np.inf)
    first = np.argmin(part, axis=0)
    least = part[first, np.arange(part.shape[1])]
    return np.clip(least, 0.0, 1.0), LIMITS[first]
