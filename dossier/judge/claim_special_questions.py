"""Identities whose numbers must first be put together: a wing, a polar, what is left of an energy."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from dossier.compute.glide import Polar
from dossier.judge.claim_identities import IDENTITIES
from dossier.judge.claim_numbers import Number, Numbers
from dossier.judge.claim_questions import Question
from dossier.judge.identities_of_battery import Marks
from dossier.judge.identities_of_wing import Wing
from dossier.judge.identity import Identity

HARD_SURFACE = 0.02
"""Rolling friction of the shortest run (source roll-friction)."""
STALL_UNKNOWN = 1e6
"""Maximum lift coefficient of a polar that is asked for its drag alone, above the stall."""


def wing(numbers: Numbers) -> Iterator[Question]:
    """Hold least sink and best glide ratio against the wing that they need."""
    needed = [
        numbers(one) for one in ("least_sink", "best_glide_ratio", "glide_mass", "wing_area", "wing_span")
    ]
    sink, ratio, mass, area, span = needed
    if not (sink and ratio and mass and area and span):
        return
    carries = Wing(mass.value, area.value, span.value)
    rest = (mass, area, span)
    yield Question(
        "oswald",
        sink,
        (ratio, *rest),
        lambda: IDENTITIES["oswald"](sink.value, glide_ratio=ratio.value, wing=carries),
    )
    yield Question(
        "lift_at_least_sink",
        sink,
        (ratio, *rest),
        lambda: IDENTITIES["lift_at_least_sink"](sink.value, glide_ratio=ratio.value, wing=carries),
    )
    yield Question(
        "zero_lift_drag",
        ratio,
        (sink, *rest),
        lambda: IDENTITIES["zero_lift_drag"](ratio.value, least_sink=sink.value, wing=carries),
    )


def two_ratios(numbers: Numbers) -> Iterator[Question]:
    """Hold a published glide ratio against that of the type's file; a floor below it is kept."""
    claim, own = numbers.claim("best_glide_ratio"), numbers.own.get("best_glide_ratio")
    if claim and own and not (claim.name in numbers.floors and claim.value <= own.value):
        yield Question(
            "two_ratios", claim, (own,), lambda: IDENTITIES["two_ratios"](claim.value, other_ratio=own.value)
        )


def two_masses(numbers: Numbers) -> Iterator[Question]:
    """Hold a published least sink, said of the maximum take-off mass, against that of the type's file."""
    claim, own = numbers.claim("least_sink"), numbers.own.get("least_sink")
    mass, glide_mass = numbers.claim("take_off_mass"), numbers("glide_mass")
    if claim and own and mass and glide_mass:
        yield Question(
            "two_masses",
            claim,
            (mass, own, glide_mass),
            lambda: IDENTITIES["two_masses"](
                claim.value, mass=mass.value, other_speed=own.value, other_mass=glide_mass.value
            ),
        )


def level_speed(numbers: Numbers) -> Iterator[Question]:
    """Hold a top speed against power and drag polar."""
    needed = [
        numbers(one)
        for one in ("level_speed", "take_off_mass", "maximum_power", "zero_lift", "induced", "wing_area")
    ]
    speed, mass, power, zero_lift, induced, area = needed
    if not (speed and mass and power and zero_lift and induced and area):
        return
    polar = Polar(zero_lift.value, induced.value, area.value, STALL_UNKNOWN)
    yield Question(
        "level_speed",
        speed,
        (mass, power, zero_lift, induced, area),
        lambda: IDENTITIES["level_speed"](speed.value, polar=polar, mass=mass.value, power=power.value),
    )


def take_off_run(numbers: Numbers) -> Iterator[Question]:
    """Hold a run against the floor of constant acceleration on a hard surface."""
    run, thrust, mass = numbers("take_off_run"), numbers("static_thrust"), numbers("take_off_mass")
    lift_off = numbers("lift_off_speed") or numbers("stall_speed")
    if not (run and thrust and mass and lift_off):
        return
    friction = Number("Rolling friction of a hard surface", HARD_SURFACE, "number", "computed")
    yield Question(
        "take_off_run",
        run,
        (thrust, mass, lift_off, friction),
        lambda: IDENTITIES["take_off_run"](
            run.value,
            mass=mass.value,
            static_thrust=thrust.value,
            lift_off=lift_off.value,
            friction=HARD_SURFACE,
        ),
    )


def climb_of_disc(numbers: Numbers) -> Iterator[Question]:
    """Hold a published rate of climb against an ideal propeller of the published diameter."""
    rate, diameter = numbers.claim("climb_rate"), numbers("propeller_diameter")
    needed = [
        numbers(one)
        for one in ("take_off_mass", "least_sink", "maximum_power", "shaft_efficiency", "climb_speed")
    ]
    mass, sink, power, shaft, speed = needed
    if not (rate and diameter and mass and sink and power and shaft and speed):
        return
    yield Question(
        "climb_rate_of_disc",
        rate,
        (diameter, mass, sink, power, shaft, speed),
        lambda: IDENTITIES["climb_rate_of_disc"](
            rate.value,
            mass=mass.value,
            sink=sink.value,
            shaft_power=power.value * shaft.value,
            diameter=diameter.value,
            speed=speed.value,
        ),
    )


def endurance(numbers: Numbers, option: str) -> Iterator[Question]:
    """Hold a published endurance against the energy that the other phases leave and the level power."""
    time, power = numbers.claim("endurance", option), numbers("level_power", option)
    own_time, own_power = numbers.own.get(f"endurance.{option}"), numbers.own.get(f"level_power.{option}")
    if not (time and power and own_time and own_power):
        return
    left = Number(
        "Energy that the other phases leave",
        own_time.value * own_power.value,
        "energy",
        "computed",
        own_time.name,
    )
    yield Question(
        "endurance",
        time,
        (left, power),
        lambda: IDENTITIES["endurance"](
            time.value, energy=left.value, usable=1.0, power=power.value, loaded=1.0
        ),
        option,
    )


def usable_energy(numbers: Numbers, option: str) -> Iterator[Question]:
    """Hold a published usable energy against the nominal one, less the reserve that is kept."""
    usable, energy, reserve = (
        numbers.claim("usable_energy", option),
        numbers("energy", option),
        numbers("reserve", option),
    )
    if usable and energy and reserve and reserve.value < 1:
        yield Question(
            "usable_energy",
            usable,
            (energy, reserve),
            lambda: IDENTITIES["usable_energy"](usable.value, nominal=energy.value * (1 - reserve.value)),
            option,
        )


def fuel_equivalent(numbers: Numbers, option: str) -> Iterator[Question]:
    """Hold a volume of petrol against the energy of the pack behind controller and motor."""
    volume = numbers.claim("fuel_equivalent", option) or numbers.claim("fuel_equivalent")
    usable, shaft = numbers("usable_energy", option), numbers("shaft_efficiency")
    if volume and usable and shaft:
        yield Question(
            "fuel_equivalent",
            volume,
            (usable, shaft),
            lambda: IDENTITIES["fuel_equivalent"](
                volume.value, energy=usable.value, usable=1.0, chain=shaft.value
            ),
            option,
        )


def fuel_mass(numbers: Numbers, option: str = "") -> Iterator[Question]:
    """Hold the mass of that petrol against its volume; of no battery, unless a claim names one."""
    names = ("fuel_equivalent_mass", "fuel_equivalent")
    of_it = [numbers.claim(name, option) for name in names]
    mass, volume = (one or numbers.claim(name) for one, name in zip(of_it, names, strict=True))
    if mass and volume and any(of_it):
        yield Question(
            "fuel_mass",
            mass,
            (volume,),
            lambda: IDENTITIES["fuel_mass"](mass.value, volume=volume.value),
            option,
        )


def voltages(numbers: Numbers, option: str) -> Iterator[Question]:
    """Hold published voltages against the cells in series."""
    series, full, half, empty = (
        numbers(f"series.{option}"),
        numbers.claim("full_voltage", option),
        numbers.claim("half_voltage", option),
        numbers.claim("empty_voltage", option),
    )
    touch = numbers.claim("highest_voltage", option)
    marks = tuple(mark for mark in (full, half, empty) if mark)
    if series and marks:
        full_at, half_at, low_at = (mark.value if mark else None for mark in (full, half, empty))
        asked = Marks(full=full_at, middle=half_at, low=low_at)
        yield Question(
            "series_count",
            series,
            marks,
            lambda: IDENTITIES["series_count"](asked, series=round(series.value)).claimed,
            option,
        )
    if series and touch:
        yield Question(
            "touch_voltage",
            touch,
            (series,),
            lambda: IDENTITIES["touch_voltage"](round(series.value)),
            option,
        )


def half_pack(numbers: Numbers, option: str) -> Iterator[Question]:
    """Hold a published endurance of a pack of half the energy against that of the whole one."""
    time, energy = numbers.claim("endurance", option), numbers.own.get(f"energy.{option}")
    for other in numbers.options:
        whole, full = numbers.claim("endurance", other), numbers.own.get(f"energy.{other}")
        if time and energy and whole and full and abs(energy.value / full.value - 0.5) < 0.02:
            yield Question("half_pack", time, (whole,), _half(time, whole), option)


def _half(time: Number, whole: Number) -> Callable[[], Identity]:
    return lambda: IDENTITIES["half_pack"](time.value, whole=whole.value)
