"""One step of time of a cell with a slow part of its resistance and a lumped mass of heat."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from dossier.compute.cell import Cell
from dossier.compute.cell_circuit import working_voltage
from dossier.compute.cell_resistance import resistance_factor
from dossier.compute.curve import Array, Codes

AT_ONCE = 0.65
"""Part of the resistance that acts at once. With :data:`SLOWNESS` fitted to simulated missions of one
parameter set, and met two others unseen within 59 mV (source equivalent-circuit)."""
SLOWNESS = 150.0
"""Time constant in s of the rest."""


@dataclass(frozen=True)
class Warmth:
    """Heat of one cell as a lump."""

    heat_capacity: float
    """In J/K."""
    conductance: float
    """To the air around, in W/K; 0 for a cell that keeps its heat."""
    ambient: float
    """In K."""


@dataclass(frozen=True, eq=False)
class CellState:
    """Columns, one row a scenario."""

    z: Array
    """State of charge."""
    slow: Array
    """Voltage in V across the slow part of the resistance."""
    temperature: Array
    """In K."""

    def of(self, who: Codes) -> CellState:
        """Take some of the scenarios."""
        return CellState(self.z[who], self.slow[who], self.temperature[who])


@dataclass(frozen=True, eq=False)
class Circuit:
    """A cell with the ages of the scenarios, each of shape ``(scenarios,)``."""

    cell: Cell
    growth: Array
    health: Array
    wiring: Array
    warmth: Warmth | None
    at_once: float = AT_ONCE
    slowness: float = SLOWNESS

    def of(self, who: Codes) -> Circuit:
        """Take some of the scenarios."""
        return replace(self, growth=self.growth[who], health=self.health[who], wiring=self.wiring[who])

    @property
    def capacity(self) -> Array:
        """In C."""
        return np.asarray(self.cell.capacity * self.health)

    def resistance(self, state: CellState) -> Array:
        """Return the quasi-steady resistance in Ω without wiring."""
        factor = resistance_factor(np.asarray(self.cell.constant), state.temperature, self.growth)
        return np.asarray(factor * self.cell.resistance.along(state.z))

    def driving(self, state: CellState) -> Array:
        """Return the voltage in V that is left of the rest voltage before what acts at once."""
        return np.asarray(self.cell.rest.along(state.z) - state.slow)

    def prompt(self, state: CellState) -> Array:
        """Return the resistance in Ω that acts at once, wiring included."""
        return np.asarray(self.at_once * self.resistance(state) + self.wiring)

    def voltage(self, state: CellState, power: Array) -> Array:
        """Return the voltage under load in V; half of the driving one where it cannot give the power."""
        return working_voltage(self.driving(state), self.prompt(state), power)


def advance(circuit: Circuit, state: CellState, power: Array, h: Array) -> tuple[CellState, Array]:
    """Go on by ``h`` seconds at a constant power in W a cell; return the new state and the heat in J.

    The current is that at the middle of the step, found in two passes; for that current the slow part and the
    heat are solved exactly. Heat counts what the cell does not give at its terminals, also the little that
    the slow part stores.
    """
    middle = state
    current = heating = np.zeros_like(power)
    for _ in range(2):
        voltage = circuit.voltage(middle, power)
        current = power / voltage
        heating = current * (circuit.cell.rest.along(middle.z) - voltage)
        middle = _moved(circuit, state, current, heating, h / 2, circuit.resistance(middle))
    return _moved(circuit, state, current, heating, h, circuit.resistance(middle)), heating * h


def _moved(
    circuit: Circuit, state: CellState, current: Array, heating: Array, h: Array, R: Array
) -> CellState:
    left = np.exp(-h / circuit.slowness)
    slow = state.slow * left + current * (1 - circuit.at_once) * R * (1 - left)
    z = state.z - current * h / circuit.capacity
    return CellState(z, slow, _warmed(circuit.warmth, state.temperature, heating, h))


def _warmed(warmth: Warmth | None, temperature: Array, heating: Array, h: Array) -> Array:
    """Solve C dT/dt = q - K (T - T_a) exactly for a constant q."""
    if warmth is None:
        return temperature
    if warmth.conductance == 0:
        return np.asarray(temperature + heating * h / warmth.heat_capacity)
    final = warmth.ambient + heating / warmth.conductance
    return np.asarray(final + (temperature - final) * np.exp(-h * warmth.conductance / warmth.heat_capacity))
