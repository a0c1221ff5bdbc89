"""What a flight test measured beside what is computed for the same mass: two answers to one question, and
whether they agree."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from math import hypot

import numpy as np

from dossier.compute import energy, stall
from dossier.compute.atmosphere import SEA_LEVEL_DENSITY
from dossier.compute.energy import GRAVITY
from dossier.compute.glide import least_sink
from dossier.compute.level import top_speed
from dossier.figures import Figure, Input, OutsideRange, given, propagate
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.events import TestResult
from dossier.quantities import COVERAGE_FACTOR
from dossier.replay import Measured, State
from dossier.results.flight_draws import Flying, climb_draws
from dossier.results.flight_polar import PolarInUse
from dossier.units import scale

TOP_SPEED, SINK, STALL = "maximum_level_speed", "minimum_sink", "stall_speed"
WORDS = {TOP_SPEED: "top level speed", SINK: "least sink", STALL: "stalling speed"}
POLAR, TYPE, LIFT = "the polar", "the sink that the type states", "the maximum lift coefficient of the type"
CALIBRATED = "CAS"
"""At sea level in standard air calibrated and true are one, by definition; no other basis is compared."""

Answer = tuple[float, float, float]
"""A value and the ends of what holds 95 %, in SI."""


@dataclass(frozen=True)
class Compared:
    """One measured quantity and one computation of it for sea level, standard air. SI."""

    quantity: str
    day: date
    mass: float
    """In kg: that of the test, or the maximum take-off mass where it states none."""
    measured: float
    expanded: float
    """Of the measured value, k = 2; 0 where none is stated."""
    against: str
    """What the computed value comes from."""
    computed: float | None = None
    low: float = 0.0
    high: float = 0.0
    """The ends of what holds 95 % of the computed value."""
    why_not: str = ""
    """Why it is not compared, in words; empty where it is."""
    remark: str = ""
    """What else the comparison rests on."""

    @property
    def difference(self) -> float | None:
        """Measured less computed."""
        return None if self.computed is None else self.measured - self.computed

    @property
    def allowed(self) -> float:
        """What both together may be off, k = 2: of the computed value the side facing the measured one."""
        if self.computed is None:
            return 0.0
        side = self.computed - self.low if self.measured < self.computed else self.high - self.computed
        return hypot(self.expanded, side)

    @property
    def agrees(self) -> bool | None:
        """Whether the difference lies within that; None where it cannot be said."""
        if self.difference is None or self.why_not:
            return None
        return abs(self.difference) <= self.allowed

    @property
    def not_reached(self) -> bool:
        """Whether the aircraft was measured slower, beyond all doubt, than is computed."""
        return self.agrees is False and self.measured < (self.computed or 0.0)


@dataclass(frozen=True)
class Drive:
    """What turns the power of the battery into thrust."""

    power: Input
    efficiency: Figure


def compared(
    aircraft: Aircraft, state: State, in_use: PolarInUse, drive: Drive | None
) -> tuple[Compared, ...]:
    """Hold each measured speed and sink against what is computed for the mass of its test.

    Args:
        aircraft: the type.
        state: with the latest result of each quantity.
        in_use: the polar.
        drive: None where its efficiency is not known; then no top speed is computed.
    """
    made = _Comparison(aircraft, in_use, drive)
    return tuple(
        one for name in WORDS if name in state.measured for one in made.of(name, state.measured[name])
    )


class _Comparison:
    """Computes each quantity for the mass of a test."""

    def __init__(self, aircraft: Aircraft, in_use: PolarInUse, drive: Drive | None) -> None:
        self.aircraft = aircraft
        self.in_use = in_use
        self.drive = drive

    def of(self, quantity: str, measured: Measured) -> Iterator[Compared]:
        result, value = measured.result, measured.result.value
        if value is None or value.kind != "speed":
            return
        mass = self._mass(result)
        ways = {
            TOP_SPEED: ((POLAR, self._top_speed),),
            SINK: ((POLAR, self._least_sink), (TYPE, self._stated_sink)),
            STALL: ((LIFT, self._stall),),
        }
        for against, compute in ways[quantity]:
            shown = Compared(
                quantity,
                measured.test.date,
                mass.value,
                value.value,
                COVERAGE_FACTOR * value.standard_uncertainty,
                against,
            )
            yield self._filled(shown, result, compute(mass), self._remark(shown, measured))

    def _filled(self, one: Compared, result: TestResult, found: Answer | str, remark: str) -> Compared:
        computed, low, high = (None, 0.0, 0.0) if isinstance(found, str) else found
        why = found if isinstance(found, str) else _why_not(one.quantity, result)
        return Compared(
            one.quantity, one.day, one.mass, one.measured, one.expanded, one.against, computed, low, high,
            why, remark,
        )  # fmt: skip

    def _mass(self, result: TestResult) -> Input:
        limit = self.aircraft.limits[self.aircraft.loading.maximum_take_off_mass]
        return (
            given(result.at_mass, "mass of the test")
            if result.at_mass
            else given(limit.value, str(limit.name))
        )

    def _remark(self, one: Compared, measured: Measured) -> str:
        session = self.in_use.session
        fitted = session is not None and session.test is measured.test
        if (one.quantity, one.against) == (SINK, POLAR) and fitted:
            return "the polar was fitted to glides of the same test: no independent check"
        return ""

    def _top_speed(self, mass: Input) -> Answer | str:
        if self.drive is None:
            return "the efficiency of the drive is not known"
        flying = Flying(self.drive.power, self.drive.efficiency, mass)
        (draws,) = climb_draws(self.in_use, flying, np.zeros(1))
        found = draws.top_speed
        if found.quantiles is None or found.unanswered:
            return found.state or "not every draw flies level"
        thrust = self.drive.power.value * self.drive.efficiency.value
        level = top_speed(self.in_use.polar, thrust, mass.value, SEA_LEVEL_DENSITY).one("speed")
        if not isinstance(level, float):
            return "the numbers give no level flight"
        return level, found.quantiles[0], found.quantiles[2]

    def _least_sink(self, mass: Input) -> Answer | str:
        found = least_sink(self.in_use.polar, mass.value, SEA_LEVEL_DENSITY).one("sink")
        if not isinstance(found, float):
            return "the polar gives no least sink"
        return _around(found, sink_uncertainty(self.in_use, found))

    def _stated_sink(self, mass: Input) -> Answer | str:
        glide = self.aircraft.glide
        return self._propagated(
            energy.sink_at_mass,
            {
                "w_ref": given(glide.minimum_sink, "least sink rate"),
                "m": mass,
                "m_ref": given(glide.at_mass, "mass of that sink rate"),
            },
        )

    def _stall(self, mass: Input) -> Answer | str:
        inputs = {"m": mass, "S": self.in_use.area, "C_Lmax": self.in_use.lift_maximum, "g": GRAVITY}
        return self._propagated(stall.stall_speed, inputs)

    def _propagated(self, formula: object, inputs: dict[str, Input]) -> Answer | str:
        try:
            found = propagate(formula, inputs)  # type: ignore[arg-type]
        except OutsideRange as error:
            return str(error)
        return (
            _around(found, 0.0) if isinstance(found, float) else _around(found.nominal_value, found.std_dev)
        )


def _around(value: float, standard: float) -> Answer:
    return value, value - COVERAGE_FACTOR * standard, value + COVERAGE_FACTOR * standard


def _why_not(quantity: str, result: TestResult) -> str:
    if quantity != SINK and result.basis != CALIBRATED:
        return f"it is stated as {result.basis or 'no basis'}, and only a calibrated airspeed can be compared"
    if not result.value or not result.value.standard_uncertainty:
        return "the test states no uncertainty"
    return ""


def sink_uncertainty(polar: PolarInUse, sink: float) -> float:
    """Least sink goes with the fourth root of C_D0 K³; first order, the correlation of a fit kept."""
    quarter = (
        0.25 * polar.zero_lift.estimate / polar.zero_lift.value
        + 0.75 * polar.induced.estimate / polar.induced.value
    )
    return sink * (0.0 if isinstance(quarter, float) else float(quarter.std_dev))


def disagreements(aircraft: Aircraft, made: tuple[Compared, ...], state: State) -> tuple[Finding, ...]:
    """Tell what does not agree: a top speed that was not reached is a note, since controller and propeller
    may hold the aircraft slower than power and drag; all else is a warning."""
    speed = str(aircraft.presentation.airspeed)
    return tuple(
        _disagreement(one, state, "m/s" if one.quantity == SINK else speed)
        for one in made
        if one.agrees is False
    )


def _disagreement(one: Compared, state: State, unit: str) -> Finding:
    slower = one.quantity == TOP_SPEED and one.not_reached
    assert one.computed is not None
    assert one.difference is not None
    decimals = 2 if one.quantity == SINK else 1
    measured, computed, off, allowed = (
        f"{value / scale('speed', unit)[0]:.{decimals}f} {unit}"
        for value in (one.measured, one.computed, abs(one.difference), one.allowed)
    )
    fault = (
        f"the {WORDS[one.quantity]} of {one.day} is {measured} at {one.mass:.0f} kg, and {computed} follow "
        f"from {one.against}: {off} {'less' if one.difference < 0 else 'more'}, and ± {allowed} (k = 2) is "
        "what both may be off"
    )
    remedy = (
        "go by the measured one; look whether propeller, controller or the reach of the stick hold it there"
        if slower
        else "look into the test and its mass, the aerodynamics and the glide of the type: one is wrong"
    )
    return Finding(
        "F009", fault, remedy, state.measured[one.quantity].result.place,
        Severity.NOTE if slower else Severity.WARNING,
    )  # fmt: skip
