"""The take-off run: an estimate for guidance from power, propeller disc, drag and rolling friction."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from dossier.compute import ground_roll, level
from dossier.compute.atmosphere import SEA_LEVEL_DENSITY, air
from dossier.compute.flight_outcome import OBSTACLES, Obstacle
from dossier.compute.ground_roll import Field, Runner
from dossier.figures import Figure, Input, evaluate, given, taken
from dossier.findings import Finding
from dossier.model.aerodynamics import TakeOff
from dossier.model.aircraft import Aircraft
from dossier.results.attempt import Attempt, attempt
from dossier.results.flight_conditions import pressure_heights
from dossier.results.flight_figures import DENSITY, OptionFlight
from dossier.results.flight_polar import PolarInUse
from dossier.results.flight_tables import OFFSETS, Value

NOTE = (
    "An estimate for guidance, on level ground, without wind, at sea level in standard air, at full power. "
    "No take-off distance: the climb over an obstacle, wet or long grass, a slope, a tired battery and an "
    "unpractised pilot come on top, each by a good part of it. Measure the run where you fly."
)


@dataclass(frozen=True)
class RunRow:
    """The runs of one battery with the heaviest pilot at one pressure height, in m."""

    option: str
    height: float
    runs: tuple[Value, ...]
    """In air of each of :data:`dossier.results.flight_tables.OFFSETS`."""


@dataclass(frozen=True)
class TakeOffRun:
    """The estimate of one battery with the heaviest pilot."""

    option: str
    name: str
    speed: Figure
    made: Attempt
    """The run, or why there is none."""
    rows: tuple[RunRow, ...]


@dataclass(frozen=True)
class TakeOffRuns:
    """The estimates of all batteries."""

    shaft: Figure
    runs: tuple[TakeOffRun, ...]

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        return (self.shaft, *(figure for run in self.runs for figure in (run.speed, *run.made.figures)))

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Why there is no run, where there is none."""
        return tuple(finding for run in self.runs for finding in run.made.findings)


def take_off_runs(
    options: Sequence[OptionFlight], in_use: PolarInUse, aircraft: Aircraft
) -> TakeOffRuns | None:
    """Estimate the runs; None where the type states nothing for them.

    Raises:
        OutsideRange: an efficiency that is none, or a lift-off factor below 1.
    """
    part = aircraft.aerodynamics.take_off if aircraft.aerodynamics else None
    if part is None:
        return None
    chain = aircraft.propulsion.efficiency
    links = [given(getattr(chain, link), f"efficiency of the {link}") for link in ("controller", "motor")]
    power = given(aircraft.propulsion.maximum_power, "power at full throttle")
    shaft = evaluate(
        level.full_shaft_power, "full_shaft_power", "Power at the shaft at full throttle", "power",
        {"P": power, "eta_i": links},
    )  # fmt: skip
    maker = _Maker(in_use, aircraft, part, shaft)
    return TakeOffRuns(shaft, tuple(maker.of(option) for option in options))


class _Maker:
    """Makes the estimate of one battery after the other."""

    def __init__(self, in_use: PolarInUse, aircraft: Aircraft, part: TakeOff, shaft: Figure) -> None:
        self.in_use = in_use
        self.aircraft = aircraft
        self.part = part
        self.shaft = shaft

    def of(self, option: OptionFlight) -> TakeOffRun:
        words = f", {option.name}, heaviest pilot ({option.pilots[-1]:.0f} kg)"
        factor = given(self.part.lift_off_factor.value, "lift-off factor")
        speed = evaluate(
            ground_roll.lift_off_speed, f"lift_off_speed.{option.option}",
            f"Lift-off speed, estimate{words}", "speed", {"v_S": taken(option.stall), "f_LO": factor},
        )  # fmt: skip
        made = attempt(
            lambda: evaluate(
                ground_roll.take_off_run, f"take_off_run.{option.option}", f"Take-off run, estimate{words}",
                "length", self._inputs(option, speed), style="height", note=NOTE,
            ),
            f"the take-off run with {option.name}",
            self.part.place,
        )  # fmt: skip
        return TakeOffRun(option.option, option.name, speed, made, tuple(self._rows(option, speed.value)))

    def _inputs(self, option: OptionFlight, speed: Figure) -> dict[str, Input]:
        part, in_use = self.part, self.in_use
        return {
            "m": taken(option.mass),
            "P_s": taken(self.shaft),
            "v_LO": taken(speed),
            "mu_r": given(part.rolling_friction.value, "rolling friction"),
            "S": in_use.area,
            "C_D0": taken(in_use.zero_lift),
            "K": taken(in_use.induced),
            "C_Lg": given(part.rolling_lift_coefficient.value, "lift coefficient while it rolls"),
            "D_p": given(part.propeller_diameter, "diameter of the propeller"),
            "k_p": given(part.propeller_merit.value, "figure of merit of the propeller"),
            "rho": DENSITY,
        }

    def _rows(self, option: OptionFlight, calibrated: float) -> Iterator[RunRow]:
        """The calibrated lift-off speed is the same everywhere, the true one grows in thin air."""
        part = self.part
        runner = Runner(
            self.in_use.polar, part.rolling_lift_coefficient.value.value, part.propeller_diameter.value,
            part.propeller_merit.value.value,
        )  # fmt: skip
        for height in pressure_heights(self.aircraft):
            runs = []
            for density in air(height, np.array(OFFSETS)).density.tolist():
                true = calibrated * (SEA_LEVEL_DENSITY / density) ** 0.5
                field = Field(part.rolling_friction.value.value, density=density)
                found = ground_roll.ground_roll(
                    runner, field, self.shaft.value, option.mass.value, lift_off=true
                ).one("distance")
                runs.append(OBSTACLES[found] if isinstance(found, Obstacle) else found)
            yield RunRow(option.option, height, tuple(runs))
