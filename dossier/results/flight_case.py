"""One flight of the energy table as the discharge model needs it: what is flown before the cruise, and the
charge that the cruise has to leave so that what comes after it can be flown."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import accumulate

import numpy as np

from dossier.compute.cell import Cell
from dossier.compute.cell_circuit import working_voltage
from dossier.compute.cell_resistance import WARM, resistance_factor
from dossier.compute.cell_validity import HOUR
from dossier.compute.charge_left import charge_kept
from dossier.compute.power_floor import charge_kept_for_power, power_floors
from dossier.compute.scenarios import scenarios
from dossier.figures import OutsideRange
from dossier.results.cell_model import CellModel
from dossier.results.profile import Flight, PhaseRow


@dataclass(frozen=True)
class Floor:
    """The state of charge that the cruise leaves in one condition."""

    charge: float
    decided_by: str = ""
    """Name of the later phase whose power decides it; empty where the energy that is kept does."""
    refused: str = ""
    """Why a later phase cannot be flown at all, however early the cruise ends; empty where it can."""


@dataclass(frozen=True)
class Condition:
    """What the cells are like. ``constant`` is that of the law of temperature; None: that of the cell."""

    health: float
    growth: float = 1.0
    temperature: float = WARM
    constant: float | None = None


@dataclass(frozen=True)
class FlightCase:
    """One flight of the energy table, ready for the discharge model. Energies of the pack, in J."""

    model: CellModel
    flight: Flight
    words: str
    before: tuple[PhaseRow, ...]
    """Flown before the cruise, in order."""
    cruise: PhaseRow
    later: tuple[PhaseRow, ...]
    """Kept for after the cruise, in order."""

    @property
    def full(self) -> float:
        """State of charge when charging has ended."""
        return self.model.charge_at(self.model.option.full_cell_voltage.value)

    def floor(self, at: Condition) -> Floor:
        """Return the state of charge that level flight leaves: for the reserve, and for the energy and the
        power of what is flown later.

        Raises:
            OutsideRange: more is kept than there is.
        """
        by_energy = self.kept(at.health)
        needs: list[float] = []
        for row in self.later:
            need = self._need(row, at)
            if need is None:
                return Floor(
                    self.full, row.name, f"the battery cannot give the power of the phase {row.name}"
                )
            needs.append(need)
        ends = [
            self._kept_for_power(by_energy, needs[: count + 1], at.health) for count in range(len(self.later))
        ]
        floors = list(accumulate((by_energy, *ends), max))
        charge = floors[-1]
        names = [row.name for row, before, after in zip(self.later, floors, floors[1:], strict=False)
                 if after > before]  # fmt: skip
        fast = next((row.name for row in self.later if self._too_fast(row, charge, at)), "")
        refused = f"the phase {fast} is beyond the rate that the model holds for" if fast else ""
        return Floor(charge, names[-1] if names else "", refused)

    @property
    def efficiency(self) -> float:
        """Of the battery, as the energy table has it."""
        figures = self.model.result.figures
        return figures["deliverable_energy"].value / figures["energy_between_limits"].value

    def kept(self, health: float) -> float:
        """Return the state of charge that keeps the reserve and the energy of later phases.

        Raises:
            OutsideRange: more is kept than there is.
        """
        model, figures = self.model, self.model.result.figures
        return charge_kept(
            model.option.empty_cell_voltage.value, model.option.reserve.value,
            figures["energy_between_limits"].value * health / model.health,
            [sum(row.energy for row in self.later)],
            eta_b=self.efficiency, N=float(model.shape.cells), Q_cell=model.circuit.capacity * health,
            z_i=model.circuit.rest.x, U_i=model.circuit.rest.y,
        )  # fmt: skip

    def _kept_for_power(self, by_energy: float, needs: list[float], health: float) -> float:
        model = self.model
        try:
            return charge_kept_for_power(
                by_energy, needs, [row.energy for row in self.later[: len(needs)]],
                eta_b=self.efficiency, N=float(model.shape.cells), Q_cell=model.circuit.capacity * health,
                z_i=model.circuit.rest.x, U_i=model.circuit.rest.y,
            )  # fmt: skip
        except OutsideRange:  # above full: the cruise has no charge to use, and the flight table says so
            return self.full

    def _circuit(self, at: Condition) -> Cell:
        circuit = self.model.circuit
        return circuit if at.constant is None else replace(circuit, constant=at.constant)

    def _need(self, row: PhaseRow, at: Condition) -> float | None:
        """Return the charge that the power of a phase needs; None where it is not given even when full."""
        if row.power <= 0:
            return float(self.model.circuit.rest.x[0])
        case = scenarios(
            row.power / self.model.shape.cells, start=self.full, floor=self.model.circuit.rest.x[0],
            temperature=at.temperature, growth=at.growth, wiring=self.model.shape.wiring_at_cell,
        )  # fmt: skip
        needed, given = power_floors(self._circuit(at), case)
        return float(needed[0]) if given[0] else None

    def _too_fast(self, row: PhaseRow, charge: float, at: Condition) -> bool:
        """Whether a phase that begins at a charge draws more than one resistance is shown for."""
        circuit, power = self._circuit(at), row.power / self.model.shape.cells
        factor = resistance_factor(
            np.asarray(circuit.constant), np.asarray(at.temperature), np.asarray(at.growth)
        )
        resistance = circuit.resistance.along(np.asarray([charge])) * factor + self.model.shape.wiring_at_cell
        voltage = working_voltage(circuit.rest.along(np.asarray([charge])), resistance, np.asarray([power]))
        rate = power / float(voltage[0]) / (circuit.capacity * at.health) * HOUR
        return rate > circuit.rates.burst
