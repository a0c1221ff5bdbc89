"""The steps of a flight in time, for all scenarios side by side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields

import numpy as np

from dossier.compute.cell import Cell
from dossier.compute.cell_step import CellState, Circuit, Warmth, advance
from dossier.compute.cell_validity import HOUR
from dossier.compute.curve import Array, Flags
from dossier.compute.discharge_outcome import Limit
from dossier.compute.mission_answer import Flights, PhaseEnd
from dossier.compute.mission_limits import LIMITS, crossing, rooms
from dossier.compute.mission_plan import Conditions, MissionPhase, SlowPart
from dossier.figures import OutsideRange

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
        self.lowest_in_phase = np.full(shape, np.inf)
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
        self.lowest_in_phase = np.full(self.shape, np.inf)
        began, lost = self.clock.copy(), self.heat.copy()
        self._look(power)
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
        lost = self.heat - lost
        self.ends.append(
            PhaseEnd(
                phase.name, power, spent, voltage, state.z, state.temperature, lost, self.lowest_in_phase
            )
        )

    def _look(self, power: Array) -> None:
        """End the flight of those whom the new power puts past a limit at once."""
        room, voltage = rooms(self.circuit, self.floor, self.state, power)
        passed = (room < 0).any(axis=0) & self.flying
        self.limit[passed] = LIMITS[np.argmax(room < 0, axis=0)][passed]
        self._note(voltage, power, self.flying | passed)

    def _note(self, voltage: Array, power: Array, who: Flags) -> None:
        rate = power / voltage / self.circuit.capacity * HOUR
        self.lowest = np.where(who, np.minimum(self.lowest, voltage), self.lowest)
        self.lowest_in_phase = np.where(who, np.minimum(self.lowest_in_phase, voltage), self.lowest_in_phase)
        self.fastest = np.where(who, np.maximum(self.fastest, rate), self.fastest)
        self.hottest = np.where(who, np.maximum(self.hottest, self.state.temperature), self.hottest)

    def _step(self, power: Array, h: Array) -> None:
        flying, old = self.flying, self.state
        moved, heat = advance(self.circuit, old, power, h)
        room, voltage = rooms(self.circuit, self.floor, moved, power)
        part = flying.astype(float)
        columns = {
            column.name: np.where(flying, getattr(moved, column.name), getattr(old, column.name))
            for column in fields(old)
        }
        who = np.flatnonzero(flying & (room < 0).any(axis=0))
        if len(who):
            few = self.circuit.of(who)
            part[who], self.limit[who] = crossing(
                few, self.floor[who], old.of(who), power=power[who], h=h[who]
            )
            ended, heat[who] = advance(few, old.of(who), power[who], part[who] * h[who])
            voltage[who] = few.voltage(ended, power[who])
            for name, column in columns.items():
                column[who] = getattr(ended, name)
        self.state = CellState(**columns)
        self.clock = self.clock + part * h
        self.heat += np.where(flying, heat, 0.0)
        self.energy += part * h * power
        self._note(voltage, power, flying)

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
