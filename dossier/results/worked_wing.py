"""What the worked rows of flight performance share: air, masses, glide and climb as figures of a row."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.compute import airspeed, atmosphere, energy, level, polar, stall
from dossier.compute.energy import GRAVITY
from dossier.compute.glide import drag
from dossier.compute.weights import total_mass
from dossier.figures import Figure, Input, given, taken
from dossier.model.aircraft import Aircraft
from dossier.results.empty import EmptyAircraft
from dossier.results.flight import Performance
from dossier.results.flight_figures import DENSITY, OptionFlight
from dossier.results.flight_tables import HEIGHTS
from dossier.results.worked_rows import Chain, of_the_row
from dossier.steps import Step
from dossier.units import scale

A = r"A = \frac{\rho \, S \, C_{D0}}{2}"
B = r"B = \frac{2 \, K \, (m \, g)^2}{\rho \, S}"


@dataclass(frozen=True)
class Case:
    """A mass in air of some density, in the middle of a row."""

    chain: Chain
    mass: Figure
    density: Input


class WingWork:
    """Makes figures of rows for one battery."""

    def __init__(
        self, made: Performance, option: OptionFlight, aircraft: Aircraft, empty: EmptyAircraft
    ) -> None:
        """Keep what all rows rest on."""
        self.made, self.option, self.aircraft, self.empty = made, option, aircraft, empty
        self.in_use = made.polar
        self.full = given(aircraft.propulsion.maximum_power, "power at full throttle")

    def chain(self, table: str, words: str) -> Chain:
        """Begin a row of this battery."""
        return Chain(table, self.option.option, f"{self.option.name}, {words}")

    def pilot(self, mass: float) -> str:
        """Name a pilot."""
        return f"pilot of {mass:.0f} kg"

    def height(self, height: float) -> str:
        """Name a height in the reader's unit."""
        unit, _ = HEIGHTS[self.aircraft.presentation.units == "us-first"]
        return f"pressure height {height / scale('length', unit)[0]:.0f} {unit}"

    def speed(self, speed: float) -> str:
        """Name a speed in the unit of the airspeed indicator."""
        unit = self.aircraft.presentation.airspeed
        return f"{speed / scale('speed', unit)[0]:.1f} {unit}"

    def pressure_height(self, height: float) -> Input:
        """Take the height of a row."""
        return of_the_row(
            "pressure height of the row", "length", height, self.height(height).partition("height ")[2]
        )

    def mass(self, chain: Chain, pilot: float) -> Figure:
        """Put a pilot into the aircraft."""
        seat = self.aircraft.loading.seat.place or "not in a file"
        bare = taken(self.empty.with_option[self.option.option][0])
        masses = [bare, Input(self.pilot(pilot), "mass", pilot, seat)]
        return chain.make(total_mass, "mass", "Mass in flight", "mass", {"m_i": masses})

    def air_at(self, chain: Chain, height: float, offset: float) -> Input:
        """Make pressure, temperature and density, in this order."""
        at = self.pressure_height(height)
        pressure = chain.make(
            atmosphere.standard_pressure, "pressure", "Pressure of the air", "pressure", {"h_g": at}
        )
        off = of_the_row("off the standard temperature", "temperature", offset, f"{offset:+g} K")
        temperature = chain.make(
            atmosphere.temperature_off_standard, "temperature", "Temperature of the air", "temperature",
            {"h_p": at, "dT_s": off},
        )  # fmt: skip
        around = {"p": taken(pressure), "T": taken(temperature)}
        return taken(chain.make(atmosphere.air_density, "density", "Density of the air", "density", around))

    def wing(self) -> dict[str, Input]:
        """Return the numbers of the wing."""
        return {
            "S": self.in_use.area,
            "C_D0": taken(self.in_use.zero_lift),
            "K": taken(self.in_use.induced),
            "C_Lmax": self.in_use.lift_maximum,
        }

    def loads(self, case: Case) -> dict[str, Input]:
        """Return what the polar needs for a speed or a sink."""
        return {
            "m": taken(case.mass),
            "S": self.in_use.area,
            "rho": case.density,
            "C_D0": taken(self.in_use.zero_lift),
            "K": taken(self.in_use.induced),
            "g": GRAVITY,
        }

    def stall(self, case: Case) -> Figure:
        """Make the stalling speed: calibrated, and true where the air is thinner."""
        calibrated = case.chain.make(
            stall.stall_speed, "stall", "Stalling speed, estimate, calibrated", "speed",
            {
                "m": taken(case.mass), "S": self.in_use.area, "C_Lmax": self.in_use.lift_maximum,
                "g": GRAVITY,
            },
        )  # fmt: skip
        if case.density is DENSITY:
            return calibrated
        return case.chain.make(
            airspeed.true_from_density, "true_stall", "Stalling speed, estimate, true", "speed",
            {"v_CAS": taken(calibrated), "rho": case.density},
        )  # fmt: skip

    def glide(self, case: Case, stalls: Figure) -> dict[str, Figure]:
        """Make the speeds of best glide and least sink, and that sink."""
        make = case.chain.make
        best = make(
            polar.best_glide_speed, "best_glide", "Speed of the best glide of the parabola", "speed",
            self.loads(case),
        )  # fmt: skip
        both = {"v_bg": taken(best), "v_S": taken(stalls)}
        slow = make(polar.minimum_sink_speed, "sink_speed", "Speed of the least sink", "speed", both)
        sink = make(
            polar.sink_rate, "sink", "Least sink", "speed", {"v": taken(slow), **self.loads(case)},
            style="vertical_speed",
        )  # fmt: skip
        fast = make(level.best_range_speed, "glide_speed", "Speed of the best glide", "speed", both)
        return {"sink_speed": slow, "sink": sink, "glide_speed": fast}

    def rate(self, case: Case, glide: dict[str, Figure]) -> Figure:
        """Make the best rate of climb at full power."""
        assert self.option.drive is not None
        inputs = {
            "P": self.full, "eta": taken(self.option.drive), "w": taken(glide["sink"]),
            "m": taken(case.mass), "g": GRAVITY,
        }  # fmt: skip
        return case.chain.make(
            energy.climb_rate, "rate", "Rate of climb", "speed", inputs, style="vertical_speed"
        )

    def top(self, case: Case) -> Figure:
        """Make the top level speed."""
        assert self.option.drive is not None
        inputs = {
            "P": self.full, "eta": taken(self.option.drive), "m": taken(case.mass), "rho": case.density,
            **self.wing(),
        }  # fmt: skip
        return case.chain.make(
            level.level_top_speed, "top_speed", "Top level speed, true", "speed", inputs,
            steps=self.of_drag(case),
            note="A calculator meets it by trial: put the speed into the equation, and what is left is 0.",
        )  # fmt: skip

    def of_drag(self, case: Case) -> tuple[Step, ...]:
        """Give the two numbers of the drag at one mass and density."""
        at = drag(self.in_use.polar, case.mass.value, case.density.value)
        return (
            Step("weight", float(at.weight), "force", r"W = m \, g"),
            Step("drag for the square of the speed", float(at.square), "number", A, "N s²/m²"),
            Step("drag times the square of the speed", float(at.inverse), "number", B, "N m²/s²"),
            Step("stalling speed, true", float(at.stall), "speed",
                 r"v_S = \sqrt{\frac{2 \, W}{\rho \, S \, C_{Lmax}}}"),
        )  # fmt: skip
