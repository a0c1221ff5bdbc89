"""What a figure needs that a serial may not have, and which figure is meant by a name that is none."""

from __future__ import annotations

from collections.abc import Collection
from difflib import get_close_matches

MEASURED_BY = {
    "empty_mass": "a weighing, with the battery that is fitted,",
    "empty_mass.without_battery": "a weighing",
    "stall_speed": "a flight test that measures the stall speed",
    "maximum_level_speed": "a flight test that measures the maximum level speed",
}
"""Figures that rule sets ask for, and the event that would give them."""

OF_THE_WEIGHED_AIRCRAFT = frozenset(
    {
        "counted_mass", "designed_cg", "designed_mass", "empty_cg", "empty_cg_chord",
        "empty_mass", "flying_mass", "levelling_error", "loaded_cg", "loaded_mass", "margin",
        "mass_above_design", "maximum_pilot_mass", "maximum_pilot_mass_by_envelope",
        "maximum_pilot_mass_by_mass", "minimum_pilot_mass", "moment", "net_mass", "ready_cg",
        "ready_mass", "useful_load", "weighed_cg", "weighed_lateral_cg", "weighed_mass",
        "weighed_moment",
        "charge_at_start", "charge_kept", "charge_left", "drive_efficiency", "endurance",
        "endurance_modelled", "endurance_reserve_used", "full_charge", "level_power", "sink",
        "aspect_ratio", "best_glide_ratio", "best_glide_speed", "induced_drag", "least_sink",
        "minimum_sink_speed", "polar_climb_rate", "polar_level_power", "range", "stall_speed_estimate",
        "zero_lift_drag",
        "best_endurance_speed", "best_range_speed", "climb_gradient", "full_shaft_power",
        "lift_off_speed", "take_off_run",
        "burst_current", "cell_nameplate_energy", "cell_power", "continuous_current",
        "lowest_voltage", "main_drop", "main_drop_share", "short_circuit_current",
        "wiring_at_cell",
        "cooling_air", "cooling_air_volume", "flight_heat", "rise_uncooled",
    }
)  # fmt: skip
"""Figures, before their dot, that exist only once the aircraft is weighed: loadings, flights, currents."""
OF_A_PHASE = (
    "cell_power_",
    "charge_after_",
    "charge_for_",
    "charge_in_",
    "climb_rate_",
    "climb_time_",
    "current_in_",
    "energy_",
    "voltage_in_",
)
"""How the names of such figures begin where the name of a phase of the profile follows."""


def _before_dot(name: str) -> str:
    return name.partition(".")[0]


def needs_weighing(name: str) -> bool:
    """Whether a figure of this name exists only once the aircraft is weighed; False for an unknown name."""
    family = _before_dot(name)
    return family in OF_THE_WEIGHED_AIRCRAFT or family.startswith(OF_A_PHASE)


def meant(name: str, figures: Collection[str]) -> str | None:
    """Return the name that is most like this one, of the figures and of those that a weighing would give.

    What stands before the dot says what is measured, so it must be alike; what stands behind it, whose.
    """
    family, dot, rest = name.partition(".")
    families = {_before_dot(one) for one in figures} | OF_THE_WEIGHED_AIRCRAFT
    near = get_close_matches(family, sorted(families), n=1)
    if not near:
        return None
    of_family = sorted(one for one in figures if _before_dot(one) == near[0])
    whole = f"{near[0]}{dot}{rest}"
    return (get_close_matches(whole, of_family, n=1, cutoff=0.0) or [whole])[0]


def why_missing(name: str, figures: Collection[str]) -> tuple[str, str]:
    """Say what a figure is that a serial does not have, and what would give it."""
    weighed = "empty_mass" in figures
    if needs_weighing(name) and _before_dot(name) not in {_before_dot(one) for one in figures}:
        if not weighed:
            return "a figure that exists only once the aircraft is weighed", "add an event of kind weighing"
        remedy = (
            "what it is computed from is missing or impossible: the other findings of this serial say what"
        )
        return "a figure that could not be computed for this serial", remedy
    if name in MEASURED_BY:
        return "a figure that this serial does not have", f"{MEASURED_BY[name]} would give it"
    near = meant(name, figures)
    hint = f"did you mean {near!r}? " if near else ""
    remedy = f"{hint}results.json lists the figures; a measured one needs its event in the record"
    return "a figure that this serial does not have", remedy
