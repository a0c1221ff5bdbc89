"""Where the energy goes: each phase of the profile, and how long the cruise lasts with what is left."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from dossier.compute import energy
from dossier.compute.energy import GRAVITY
from dossier.compute.weights import total_mass
from dossier.figures import Figure, Formula, Input, OutsideRange, evaluate, given, taken
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft, Phase
from dossier.model.battery import Battery
from dossier.results.attempt import attempt, reason
from dossier.results.battery import PackResult
from dossier.results.empty import EmptyAircraft
from dossier.results.intermediate import energies
from dossier.results.loading import mass_limit
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


@dataclass(frozen=True)
class Energy:
    """All flights of the energy table."""

    flights: tuple[Flight, ...]
    """For each battery the lightest pilot, one in the middle, and the heaviest that the take-off mass allows."""
    figures: tuple[Figure, ...]
    findings: tuple[Finding, ...]


PILOTS = ("lightest_pilot", "middle_pilot", "heaviest_pilot")


def energy_table(
    empty: EmptyAircraft, aircraft: Aircraft, battery: Battery, packs: tuple[PackResult, ...]
) -> Energy:
    """Fly the profile with every battery and three pilots."""
    flights: list[Flight] = []
    findings: list[Finding] = []
    made = attempt(
        lambda: _drive_efficiency(aircraft),
        "the efficiency of the drive",
        aircraft.propulsion.efficiency.place,
    )
    drive = made.figure
    if drive is None:
        return Energy((), (), made.findings)
    for result in packs:
        if "usable_energy" not in result.figures:
            continue
        name = str(battery.options[result.option].name)
        left = mass_limit(aircraft) - empty.with_option[result.option][0].value
        if left < aircraft.loading.seat.minimum.value:
            findings.append(
                _finding(
                    f"with {name} the take-off mass leaves {left:.1f} kg for a pilot, less than the lightest considered",
                    aircraft,
                )
            )
            continue
        for word, pilot in zip(PILOTS, pilot_masses(left, aircraft), strict=True):
            try:
                flights.append(_Flight(result, word, pilot, empty, aircraft, drive, name).fly())
            except OutsideRange as error:
                findings.append(
                    _finding(
                        f"the profile cannot be flown with {name} and a pilot of {pilot:.0f} kg: {reason(error)}",
                        aircraft,
                    )
                )
    return Energy(
        tuple(flights), (drive, *(figure for flight in flights for figure in flight.figures)), tuple(findings)
    )


def _drive_efficiency(aircraft: Aircraft) -> Figure:
    chain = aircraft.propulsion.efficiency
    links = [
        given(getattr(chain, link), f"efficiency of the {link}")
        for link in ("controller", "motor", "propeller")
    ]
    return evaluate(
        energy.efficiency_chain,
        "drive_efficiency",
        "Efficiency from the battery's terminals to the thrust",
        "ratio",
        {"eta_i": links},
    )


def pilot_masses(left: float, aircraft: Aircraft) -> tuple[float, float, float]:
    """Lightest, middle and heaviest pilot that seat and take-off mass allow."""
    seat = aircraft.loading.seat
    low, high = seat.minimum.value, min(seat.maximum.value, left)
    return low, (low + high) / 2, high


def _finding(message: str, aircraft: Aircraft) -> Finding:
    return Finding(
        "C004",
        message,
        "correct the profile, the power, the masses or the battery",
        aircraft.place_of_key("profile"),
        Severity.WARNING,
    )


class _Flight:
    """One flight: its figures are made one from the other."""

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
