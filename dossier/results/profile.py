"""The profile of ``aircraft.yaml`` flown once: every phase with its power, its time and the energy
that it takes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from dossier.compute import energy
from dossier.compute.energy import GRAVITY
from dossier.compute.weights import total_mass
from dossier.figures import Figure, Formula, Input, evaluate, given, taken
from dossier.model.aircraft import Aircraft, Phase
from dossier.results.battery import PackResult
from dossier.results.empty import EmptyAircraft
from dossier.results.intermediate import energies
from dossier.results.weighing import slugs


@dataclass(frozen=True)
class PhaseRow:
    """One phase of one flight. Power in W, duration in s, energy in J."""

    name: str
    kind: str
    power: float
    duration: float
    energy: float
    kept: bool
    """True for a reserve: it is not flown."""
    is_open: bool = False
    """True for the cruise that uses up the battery."""


@dataclass(frozen=True)
class Flight:
    """The profile flown with one battery and one pilot."""

    option: str
    pilot: float
    """Mass in kg."""
    mass: float
    rows: tuple[PhaseRow, ...]
    endurance: Figure
    """Time in cruise with what the other phases leave, reserve kept."""
    without_reserve: Figure
    """The same with the reserve used up."""
    cruise: Input
    """Power in that cruise."""
    figures: tuple[Figure, ...]


class ProfileFlight:
    """One flight of the profile, with one battery and one pilot: its figures are made one from the other."""

    def __init__(
        self,
        pack: PackResult,
        word: str,
        pilot: float,
        empty: EmptyAircraft,
        aircraft: Aircraft,
        drive: Figure,
        words: str,
    ) -> None:
        """Say who flies with what: ``pilot`` is a mass in kg, ``word`` the pilot's name,
        ``words`` the battery's."""
        self.pack = pack
        self.word = word
        self.pilot = pilot
        self.aircraft = aircraft
        self.efficiency = drive
        self.suffix = pack.option if word == "heaviest_pilot" else f"{pack.option}.{word}"
        self.words = f"{words}, {word.replace('_', ' ')} ({pilot:.0f} kg)"
        self.figures: list[Figure] = []
        who = Input(
            f"pilot of {pilot:.0f} kg", "mass", pilot, aircraft.loading.seat.place or "not in a file", ""
        )
        self.mass = self._make(
            total_mass,
            "flying_mass",
            "Mass in flight",
            "mass",
            {"m_i": [taken(empty.with_option[pack.option][0]), who]},
        )

    def fly(self) -> Flight:
        """Fly the profile.

        Raises:
            OutsideRange: this aircraft cannot fly it with this pilot.
        """
        self._level_flight()
        rows, spent, kept = self._phases()
        cruise = self._cruise_power()
        usable, whole = self.pack.figures["usable_energy"], self.pack.figures["deliverable_energy"]
        endurance = self._make(
            energy.endurance,
            "endurance",
            "Cruise endurance, reserve kept",
            "time",
            {"E_u": taken(usable), "E_i": [*spent, *kept], "P": cruise},
            steps=energies([*spent, *kept]),
        )
        bare = self._make(
            energy.endurance,
            "endurance_reserve_used",
            "Cruise endurance with the reserve used up",
            "time",
            {"E_u": taken(whole), "E_i": spent, "P": cruise},
            steps=energies(spent),
        )
        at = next(index for index, phase in enumerate(self.aircraft.profile) if _is_open(phase))
        row = PhaseRow(
            str(self.aircraft.profile[at].name),
            "cruise",
            cruise.value,
            endurance.value,
            cruise.value * endurance.value,
            False,
            True,
        )
        rows.insert(at, row)
        return Flight(
            self.pack.option,
            self.pilot,
            self.mass.value,
            tuple(rows),
            endurance,
            bare,
            cruise,
            tuple(self.figures),
        )

    def _make(
        self,
        formula: Formula,
        short: str,
        label: str,
        kind: str,
        inputs: Mapping[str, Input | list[Input]],
        **more: Any,
    ) -> Figure:
        figure = evaluate(formula, f"{short}.{self.suffix}", f"{label}, {self.words}", kind, inputs, **more)
        self.figures.append(figure)
        return figure

    def _level_flight(self) -> None:
        glide = self.aircraft.glide
        self.sink = self._make(
            energy.sink_at_mass,
            "sink",
            "Least sink rate without power",
            "speed",
            {
                "w_ref": given(glide.minimum_sink, "least sink rate"),
                "m": taken(self.mass),
                "m_ref": given(glide.at_mass, "mass of that sink rate"),
            },
            style="vertical_speed",
        )
        self.level = self._make(
            energy.level_power,
            "level_power",
            "Power that keeps height",
            "power",
            {"m": taken(self.mass), "w": taken(self.sink), "g": GRAVITY, "eta": taken(self.efficiency)},
        )

    def _phases(self) -> tuple[list[PhaseRow], list[Input], list[Input]]:
        rows: list[PhaseRow] = []
        spent: list[Input] = []
        kept: list[Input] = []
        profile = self.aircraft.profile
        for phase, name in zip(profile, slugs(str(phase.name) for phase in profile), strict=True):
            if _is_open(phase):
                continue
            power, duration = self._power(phase), self._duration(phase, name)
            figure = self._make(
                energy.phase_energy,
                f"energy_{name}",
                f"Energy of the phase {phase.name}",
                "energy",
                {"P": power, "t": duration},
            )
            (kept if phase.kind == "reserve" else spent).append(taken(figure))
            rows.append(
                PhaseRow(
                    str(phase.name),
                    phase.kind,
                    power.value,
                    duration.value,
                    figure.value,
                    phase.kind == "reserve",
                )
            )
        return rows, spent, kept

    def _power(self, phase: Phase) -> Input:
        if phase.power is not None:
            return given(phase.power, f"power, {phase.name}")
        if phase.kind == "soaring":
            return Input(f"power, {phase.name}: motor off", "power", 0.0, phase.place or "not in a file")
        if phase.kind in ("climb", "take-off", "go-around"):
            return given(self.aircraft.propulsion.maximum_power, "power at full throttle")
        return taken(self.level)

    def _cruise_power(self) -> Input:
        return self._power(next(phase for phase in self.aircraft.profile if _is_open(phase)))

    def _duration(self, phase: Phase, name: str) -> Input:
        if phase.duration is not None:
            return given(phase.duration, f"duration, {phase.name}")
        assert phase.height is not None
        rate = self._make(
            energy.climb_rate,
            f"climb_rate_{name}",
            f"Rate of climb, {phase.name}",
            "speed",
            {
                "P": self._power(phase),
                "eta": taken(self.efficiency),
                "w": taken(self.sink),
                "m": taken(self.mass),
                "g": GRAVITY,
            },
            style="vertical_speed",
        )
        time = self._make(
            energy.climb_time,
            f"climb_time_{name}",
            f"Time of the phase {phase.name}",
            "time",
            {"h": given(phase.height, f"height, {phase.name}"), "v_c": taken(rate)},
        )
        return taken(time)


def _is_open(phase: Phase) -> bool:
    """Whether this is the cruise that uses up the battery."""
    return phase.kind == "cruise" and phase.duration is None
