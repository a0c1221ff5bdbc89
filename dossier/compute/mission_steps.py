"""The steps of a flight in time, for all scenarios side by side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields

import numpy as np

from dossier.compute.cell import Cell
from dossier.compute.cell_circuit import headroom
from dossier.compute.cell_step import CellState, Circuit, Warmth, advance
from dossier.compute.cell_validity import HOUR
from dossier.compute.curve import Array, Codes, Flags
from dossier.compute.discharge_outcome import Limit
from dossier.compute.mission_answer import Flights, PhaseEnd
from dossier.compute.mission_plan import Conditions, MissionPhase, SlowPart
from dossier.figures import OutsideRange

CUTS = 4
"""How often the step that meets a limit is cut again."""
LONGEST = 200 * HOUR
"""In s: a last phase that goes on longer draws no power worth naming."""


class Stepper:
    """Carries the columns of all scenarios from phase to phase."""

    def __init__(
        self,
        cell: Cell,
        phases: Sequence[MissionPhase],
        conditions: Conditions,
        *,
        warmth: Warmth | None,
        slow_part: SlowPart,
    ) -> None:
        """Bring all columns to one length; phases are looked at for theirs."""
        given = [getattr(conditions, column.name) for column in fields(conditions)]
        timed = [phase.duration for phase in phases if phase.duration is not None]
        shape = np.broadcast_shapes(
            (1,), *(np.shape(one) for one in (*given, *timed, *(phase.power for phase in phases)))
        )
        z, self.floor, temperature, growth, health, wiring = (
            np.broadcast_to(np.asarray(one, float), shape).copy() for one in given
        )
        self.cell, self.shape, self.first_temperature = cell, shape, temperature
        self.circuit = Circuit(cell, growth, health, wiring, warmth, slow_part.at_once, slow_part.slowness)
        self.state = CellState(z, np.zeros(shape), temperature)
        self.clock, self.heat, self.energy = np.zeros(shape), np.zeros(shape), np.zeros(shape)
        self.lowest, self.fastest, self.hottest = np.full(shape, np.inf), np.zeros(shape), temperature.copy()
        self.limit = np.full(shape, Limit.NONE, dtype=np.int64)
        self.phase = np.zeros(shape, dtype=np.int64)
        self.ends: list[PhaseEnd] = []

    @property
    def flying(self) -> Flags:
        """True where no limit has ended the flight."""
        return np.asarray(self.limit == Limit.NONE)

    def fly(self, phase: MissionPhase, step: float) -> None:
        """Fly one phase in steps of at most ``step`` s.

        Raises:
            OutsideRange: a phase without duration does not end within :data:`LONGEST`.
        """
        power = np.broadcast_to(np.asarray(phase.power, float), self.shape)
        self.phase[self.flying] = len(self.ends)
        self._look(power)
        began = self.clock.copy()
        if phase.duration is None:
            while self.flying.any():
                self._step(power, np.full(self.shape, step))
                if self.clock.max() > LONGEST:
                    raise OutsideRange(
                        f"the phase {phase.name!r} goes on for more than {LONGEST / HOUR:.0f} h"
                    )
        else:
            duration = np.broadcast_to(np.asarray(phase.duration, float), self.shape)
            steps = int(np.ceil(duration.max() / step))
            for _ in range(steps):
                self._step(power, duration / steps)
        state, spent = self.state, self.clock - began
        voltage = self.circuit.voltage(state, power)
        self.ends.append(PhaseEnd(phase.name, power, spent, voltage, state.z, state.temperature))

    def _margins(self, state: CellState, power: Array) -> tuple[Array, Array]:
        """Return the room to each limit, shape ``(limits, scenarios)``, and the voltage under load."""
        voltage = self.circuit.voltage(state, power)
        limits = self.cell.limits
        room = np.stack([
            headroom(self.circuit.driving(state), self.circuit.prompt(state), power),
            voltage - limits.voltage,
            limits.current - power / voltage if np.isfinite(limits.current) else np.full(self.shape, np.inf),
            limits.hottest - state.temperature,
            state.z - self.floor,
            state.z - self.cell.rest.x[0],
        ])  # fmt: skip
        return room, voltage

    def _look(self, power: Array) -> None:
        """End the flight of those whom the new power puts past a limit at once."""
        room, voltage = self._margins(self.state, power)
        passed = (room < 0).any(axis=0) & self.flying
        self.limit[passed] = LIMITS[np.argmax(room < 0, axis=0)][passed]
        self._note(voltage, power, self.flying | passed)

    def _note(self, voltage: Array, power: Array, who: Flags) -> None:
        rate = power / voltage / self.circuit.capacity * HOUR
        self.lowest = np.where(who, np.minimum(self.lowest, voltage), self.lowest)
        self.fastest = np.where(who, np.maximum(self.fastest, rate), self.fastest)
        self.hottest = np.where(who, np.maximum(self.hottest, self.state.temperature), self.hottest)

    def _step(self, power: Array, h: Array) -> None:
        flying = self.flying
        moved, heat = advance(self.circuit, self.state, power, h)
        after, _ = self._margins(moved, power)
        passed = flying & (after < 0).any(axis=0)
        part = flying.astype(float)
        if passed.any():
            found, limit = self._crossing(power, h, after)
            part = np.where(passed, found, part)
            moved, heat = advance(self.circuit, self.state, power, part * h)
            self.limit[passed] = limit[passed]
        old = self.state
        self.state = CellState(*(
            np.where(flying, getattr(moved, column.name), getattr(old, column.name)) for column in fields(old)
        ))  # fmt: skip
        self.clock = self.clock + part * h
        self.heat += np.where(flying, heat, 0.0)
        self.energy += part * h * power
        self._note(self.circuit.voltage(self.state, power), power, flying)

    def _crossing(self, power: Array, h: Array, after: Array) -> tuple[Array, Codes]:
        """Return the part of the step at which a limit is met, and the limit.

        The voltage has a bend where the step passes a point of the tables, so a straight line over the whole
        step would miss: the step is cut again at the place that the line names.
        """
        low, high = np.zeros(self.shape), np.ones(self.shape)
        room_low, _ = self._margins(self.state, power)
        room_high = after
        for _ in range(CUTS):
            at = low + _first_passed(room_low, room_high)[0] * (high - low)
            room, _ = self._margins(advance(self.circuit, self.state, power, at * h)[0], power)
            beyond = (room < 0).any(axis=0)
            low, high = np.where(beyond, low, at), np.where(beyond, at, high)
            room_low, room_high = np.where(beyond, room_low, room), np.where(beyond, room, room_high)
        part, limit = _first_passed(room_low, room_high)
        return low + part * (high - low), limit

    def flights(self) -> Flights:
        """Return what was flown."""
        circuit = self.circuit
        computed = {
            "time": self.clock, "energy": self.energy, "heat": self.heat, "end_charge": self.state.z,
            "lowest_voltage": self.lowest, "peak_rate": self.fastest, "hottest": self.hottest,
        }  # fmt: skip
        return Flights(
            self.cell,
            tuple(self.ends),
            self.limit,
            self.phase,
            computed,
            self.first_temperature,
            circuit.health,
        )


LIMITS: Codes = np.array(
    [Limit.POWER, Limit.VOLTAGE, Limit.CURRENT, Limit.TEMPERATURE, Limit.FLOOR, Limit.EMPTY], dtype=np.int64
)
"""In the order of the rooms of a step; where two are passed at once the first is told."""


def _first_passed(before: Array, after: Array) -> tuple[Array, Codes]:
    """Return the part of the step that stays inside all limits, and the limit that ends it there."""
    known = np.isfinite(before)  # a limit of current that nobody set leaves endless room
    fall = np.subtract(before, after, out=np.zeros_like(before), where=known)
    passed = after < 0
    part = np.where(
        passed, np.divide(before, fall, out=np.ones_like(fall), where=passed & (fall > 0)), np.inf
    )
    first = np.argmin(part, axis=0)
    least = part[first, np.arange(part.shape[1])]
    inside = np.isinf(least)
    return np.where(inside, 1.0, np.clip(least, 0.0, 1.0)), np.where(inside, Limit.NONE, LIMITS[first])
