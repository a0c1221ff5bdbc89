"""The headline figures of one battery with the heaviest pilot: stall, glide, level flight and climb."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from dossier.compute import climb, energy, level, polar, stall
from dossier.compute.atmosphere import SEA_LEVEL_DENSITY
from dossier.compute.energy import GRAVITY
from dossier.compute.still_air_range import still_air_range
from dossier.compute.weights import total_mass
from dossier.figures import Figure, Formula, Input, constant, evaluate, given, taken
from dossier.findings import Finding
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery
from dossier.results.attempt import Attempt, attempt
from dossier.results.empty import EmptyAircraft
from dossier.results.energy import pilot_masses
from dossier.results.flight_polar import PolarInUse
from dossier.results.loading import mass_limit

DENSITY = constant("density of standard air at sea level", "density", SEA_LEVEL_DENSITY, "iso-2533")


@dataclass(frozen=True)
class OptionFlight:
    """One battery with the heaviest pilot that seat and take-off mass allow. Masses in kg."""

    option: str
    name: str
    pilots: tuple[float, float, float]
    """Lightest, middle and heaviest."""
    empty: float
    """Mass of the aircraft with this battery."""
    mass: Figure
    stall: Figure
    """An estimate."""
    best_glide_speed: Figure
    minimum_sink_speed: Figure
    least_sink: Figure
    endurance_speed: Figure
    """Of the longest level flight."""
    range_speed: Figure
    """Of the longest way in still air."""
    level_power: Figure | None
    """None where the efficiency of the drive is not known."""
    climb_rate: Figure | None
    """None besides where the power is too small to climb: that has a finding."""
    climb_gradient: Figure | None
    """None where there is no rate of climb."""
    drive: Figure | None
    """Efficiency from the terminals to the thrust."""
    figures: tuple[Figure, ...]
    """Those that were made here."""
    findings: tuple[Finding, ...] = ()


def option_flight(
    option: str,
    in_use: PolarInUse,
    aircraft: Aircraft,
    battery: Battery,
    empty: EmptyAircraft,
    made: Mapping[str, Figure],
) -> OptionFlight | None:
    """Make the figures; None where the take-off mass leaves no room for the lightest pilot.

    Args:
        option: name of the battery.
        in_use: the polar.
        aircraft: the type.
        battery: for the name of the option.
        empty: masses with each battery.
        made: figures of the energy table by name, for mass in flight and efficiency of the drive.

    Raises:
        OutsideRange: a value outside the range of its formula.
    """
    left = mass_limit(aircraft) - empty.with_option[option][0].value
    if left < aircraft.loading.seat.minimum.value:
        return None
    maker = _Maker(option, str(battery.options[option].name), pilot_masses(left, aircraft), in_use, aircraft)
    return maker.fly(empty, made)


class _Maker:
    """Makes the figures one from the other."""

    def __init__(
        self,
        option: str,
        name: str,
        pilots: tuple[float, float, float],
        in_use: PolarInUse,
        aircraft: Aircraft,
    ) -> None:
        self.option = option
        self.name = name
        self.pilots = pilots
        self.in_use = in_use
        self.aircraft = aircraft
        self.figures: list[Figure] = []

    def fly(self, empty: EmptyAircraft, made: Mapping[str, Figure]) -> OptionFlight:
        bare = empty.with_option[self.option][0]
        mass = made.get(f"flying_mass.{self.option}") or self._mass(bare)
        stalls = self._stall(mass)
        glide = self._best_glide(mass)
        slow = self._make(
            polar.minimum_sink_speed,
            "minimum_sink_speed",
            "Speed of the least sink, computed",
            "speed",
            {"v_bg": taken(glide), "v_S": taken(stalls)},
        )
        sink = self._sink(mass, slow)
        longest, farthest = self._thrifty(glide, stalls)
        drive = made.get("drive_efficiency")
        power, rate = None, Attempt(None, None)
        if drive:
            shared = {"w": taken(sink), "m": taken(mass), "g": GRAVITY, "eta": taken(drive)}
            power, rate = self._level_power(shared), self._climb(shared)
            self._range(mass, drive, made)
        return OptionFlight(
            self.option,
            self.name,
            self.pilots,
            bare.value,
            mass,
            stalls,
            glide,
            slow,
            sink,
            longest,
            farthest,
            power,
            rate.figure,
            self._gradient(rate.figure, slow) if rate.figure else None,
            drive,
            tuple(self.figures),
            rate.findings,
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
        words = f"{label}, {self.name}, heaviest pilot ({self.pilots[-1]:.0f} kg)"
        figure = evaluate(formula, f"{short}.{self.option}", words, kind, inputs, **more)
        self.figures.append(figure)
        return figure

    def _mass(self, bare: Figure) -> Figure:
        pilot = Input(
            f"pilot of {self.pilots[-1]:.0f} kg",
            "mass",
            self.pilots[-1],
            self.aircraft.loading.seat.place or "not in a file",
        )
        return self._make(total_mass, "flying_mass", "Mass in flight", "mass", {"m_i": [taken(bare), pilot]})

    def _stall(self, mass: Figure) -> Figure:
        note = (
            "An estimate from the maximum lift coefficient that the type states. No verdict and no claim "
            "rests on it: the stalling speed that counts is measured in a flight test."
        )
        return self._make(
            stall.stall_speed,
            "stall_speed_estimate",
            "Stalling speed, estimate",
            "speed",
            {
                "m": taken(mass),
                "S": self.in_use.area,
                "C_Lmax": self.in_use.lift_maximum,
                "g": GRAVITY,
            },
            note=note,
        )

    def _wing(self, mass: Figure) -> dict[str, Input]:
        return {
            "m": taken(mass),
            "S": self.in_use.area,
            "rho": DENSITY,
            "C_D0": taken(self.in_use.zero_lift),
            "K": taken(self.in_use.induced),
            "g": GRAVITY,
        }

    def _best_glide(self, mass: Figure) -> Figure:
        return self._make(
            polar.best_glide_speed,
            "best_glide_speed",
            "Speed of the best glide, computed",
            "speed",
            self._wing(mass),
        )

    def _sink(self, mass: Figure, speed: Figure) -> Figure:
        note = "At sea level in standard air, and never nearer to the stall than 1.1 times its speed."
        return self._make(
            polar.sink_rate,
            "least_sink",
            "Least sink rate, computed from the polar",
            "speed",
            {"v": taken(speed), **self._wing(mass)},
            style="vertical_speed",
            note=note,
        )

    def _thrifty(self, glide: Figure, stalls: Figure) -> tuple[Figure, Figure]:
        """With one efficiency at all speeds these are the speeds of the least sink and of the best glide."""
        note = (
            "Calibrated, in still air. The drive is taken to have one efficiency at all speeds; a propeller "
            "that does better when it flies faster moves this speed up."
        )
        inputs = {"v_bg": taken(glide), "v_S": taken(stalls)}
        return (
            self._make(
                level.best_endurance_speed, "best_endurance_speed",
                "Speed of the longest level flight (best endurance), computed", "speed", inputs, note=note,
            ),
            self._make(
                level.best_range_speed, "best_range_speed",
                "Speed of the longest way in still air (best range), computed", "speed", inputs, note=note,
            ),
        )  # fmt: skip

    def _gradient(self, rate: Figure, speed: Figure) -> Figure:
        note = "At sea level in standard air and in still air, at the speed of the best rate of climb."
        inputs = {"v_c": taken(rate), "v_GS": taken(speed)}
        words = "Gradient of the best rate of climb, from the polar"
        return self._make(climb.climb_gradient, "climb_gradient", words, "ratio", inputs, note=note)

    def _level_power(self, shared: Mapping[str, Input]) -> Figure:
        return self._make(
            energy.level_power,
            "polar_level_power",
            "Least power that keeps height, from the polar",
            "power",
            shared,
        )

    def _range(self, mass: Figure, drive: Figure, made: Mapping[str, Figure]) -> None:
        """Take the energy that the table leaves for level flight to the best glide ratio, if there is one."""
        power, time = made.get(f"level_power.{self.option}"), made.get(f"endurance.{self.option}")
        if power is None or time is None or not time.value > 0:
            return
        note = (
            "At the speed of the best glide and in still air, after the other phases of the profile and with "
            "the reserve kept. Endurance times another speed is no range: at that speed the power is another."
        )
        self._make(
            still_air_range,
            "range",
            "Range in level flight, reserve kept",
            "length",
            {
                "P": taken(power),
                "t": taken(time),
                "eta": taken(drive),
                "l_d": taken(self.in_use.ratio),
                "m": taken(mass),
                "g": GRAVITY,
            },
            style="distance",
            note=note,
        )

    def _climb(self, shared: Mapping[str, Input]) -> Attempt:
        power = given(self.aircraft.propulsion.maximum_power, "power at full throttle")
        return attempt(
            lambda: self._make(
                energy.climb_rate,
                "polar_climb_rate",
                "Best rate of climb at sea level, from the polar",
                "speed",
                {"P": power, **shared},
                style="vertical_speed",
            ),
            f"the rate of climb with {self.name}",
            self.aircraft.propulsion.place_of_key("maximum_power"),
        )
