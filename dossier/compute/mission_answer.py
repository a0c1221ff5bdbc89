"""The answer of a mission: time in each phase, what ended it and when, or by name why there is no answer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from dossier.compute import cell_validity
from dossier.compute.cell import BURST_TIME, Cell
from dossier.compute.curve import Array, Codes, Flags
from dossier.compute.discharge_outcome import Limit, NoAnswer, Reason

NAMES = ("time", "energy", "heat", "end_charge", "lowest_voltage", "peak_rate", "hottest")


@dataclass(frozen=True, eq=False)
class PhaseEnd:
    """A phase as flown, one row a scenario; in SI, of one cell."""

    name: str
    power: Array
    time: Array
    """Spent in the phase."""
    voltage: Array
    """Under load at its end."""
    charge: Array
    """State of charge at its end."""
    temperature: Array
    heat: Array
    """Lost in the phase, in J."""
    lowest_voltage: Array
    """Under load, anywhere in the phase."""


@dataclass(frozen=True)
class FlownPhase:
    """One phase of one flight."""

    name: str
    power: float
    time: float
    voltage: float
    charge: float
    temperature: float
    heat: float
    lowest_voltage: float


@dataclass(frozen=True)
class Flight:
    """One flight; in SI, of one cell."""

    time: float
    energy: float
    heat: float
    end_charge: float
    lowest_voltage: float
    peak_rate: float
    """By current, in 1/h."""
    hottest: float
    limit: Limit
    """What ended it; ``NONE`` when all phases are flown."""
    ended_in: str
    """The phase in which that was."""
    phases: tuple[FlownPhase, ...]


@dataclass(frozen=True, eq=False)
class Flights:
    """Many flights. Take one with ``[number]``, or a column with :meth:`column`."""

    cell: Cell
    ends: tuple[PhaseEnd, ...]
    limit: Codes
    phase: Codes
    """Number of the phase in which the flight ended, from 0."""
    computed: Mapping[str, Array]
    """As the circuit has it, also where it does not hold; ``reason`` must be looked at beside it."""
    first_temperature: Array
    health: Array

    def __len__(self) -> int:
        """Count the scenarios."""
        return len(self.limit)

    @property
    def reason(self) -> Codes:
        """Of :class:`~dossier.compute.discharge_outcome.Reason`: 0 where there is an answer."""
        too_fast = self.computed["peak_rate"] > self.cell.rates.burst
        for number, end in enumerate(self.ends):
            over = cell_validity.nominal_rate(self.cell, end.power, self.health) > self.cell.rates.sustained
            too_fast = too_fast | (over & (end.time > BURST_TIME) & (self.phase >= number))
        impossible = (self.limit == Limit.POWER) & (self.computed["time"] == 0)
        return cell_validity.reasons(
            self.cell, self.first_temperature, impossible=impossible, too_fast=too_fast
        )

    @property
    def answered(self) -> Flags:
        """True where there is an answer."""
        return np.asarray(self.reason == Reason.NONE)

    def column(self, name: str, *, otherwise: float) -> Array:
        """Return one of :data:`NAMES`, with ``otherwise`` where there is no answer."""
        return np.where(self.answered, self.computed[name], otherwise)

    def __getitem__(self, number: int) -> Flight | NoAnswer:
        """Return one flight, or why there is none."""
        reason = Reason(int(self.reason[number]))
        if reason is not Reason.NONE:
            peak = self.computed["peak_rate"][number]
            words = (
                f"the flight reaches {peak:.3g} capacities per hour, or needs more than "
                f"{self.cell.rates.sustained:g} for more than {BURST_TIME:.0f} s, and one resistance stands "
                f"for this {self.cell.application} cell to {self.cell.rates.burst:g} in single short phases"
            )
            power = float(self.ends[int(self.phase[number])].power[number])
            return cell_validity.no_answer(
                reason, self.cell, temperature=float(self.first_temperature[number]), power=power, rate=words
            )
        last = int(self.phase[number])
        flown = tuple(
            FlownPhase(
                end.name,
                *(
                    float(getattr(end, one)[number])
                    for one in ("power", "time", "voltage", "charge", "temperature", "heat", "lowest_voltage")
                ),
            )
            for end in self.ends[: last + 1]
        )
        values = {name: float(self.computed[name][number]) for name in NAMES}
        return Flight(
            **values, limit=Limit(int(self.limit[number])), ended_in=self.ends[last].name, phases=flown
        )
