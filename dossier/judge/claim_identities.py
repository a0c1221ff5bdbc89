"""Every claim identity by the name of its band: numbers that a builder publishes, held against each other.

Pure functions of SI floats. Each takes the claim first and what it is held against by keyword, and returns an
:class:`~dossier.judge.identity.Identity`: sound, doubtful or impossible, the number that would be true, how
far off. They say that numbers belong together or do not; that an aircraft is good, or safe, they never say.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from dossier.judge import identities_of_battery as battery
from dossier.judge import identities_of_energy as energy
from dossier.judge import identities_of_flight as flight
from dossier.judge import identities_of_wing as wing

IDENTITIES: Mapping[str, Callable[..., Any]] = MappingProxyType(
    {
        "endurance": energy.endurance_claim,
        "sustain_power": energy.sustain_power_claim,
        "sustain_share": energy.sustain_share_claim,
        "climb_rate": energy.climb_rate_claim,
        "climb_rate_of_disc": energy.climb_rate_of_disc_claim,
        "range": energy.range_claim,
        "height": energy.height_claim,
        "fuel_equivalent": energy.fuel_equivalent_claim,
        "fuel_mass": energy.fuel_mass_claim,
        "series_count": battery.series_count_claim,
        "touch_voltage": battery.touch_voltage_claim,
        "nominal_energy": battery.nominal_energy_claim,
        "usable_energy": battery.usable_energy_claim,
        "pack_mass": battery.pack_mass_claim,
        "pack_over_cell": battery.pack_over_cell_claim,
        "pack_volume": battery.pack_volume_claim,
        "cells_in_mass": battery.cells_in_mass_claim,
        "cells_in_box": battery.cells_in_box_claim,
        "calendar_life": battery.calendar_life_claim,
        "cycle_life": battery.cycle_life_claim,
        "discharge_rate": battery.discharge_rate_claim,
        "voltage_sag": battery.voltage_sag_claim,
        "half_pack": battery.half_pack_claim,
        "charging_time": battery.charging_time_claim,
        "glide_point": flight.glide_point_claim,
        "both_optima": flight.both_optima_claim,
        "take_off_run": flight.take_off_run_claim,
        "two_masses": flight.two_masses_claim,
        "two_ratios": flight.two_ratios_claim,
        "level_speed": flight.level_speed_claim,
        "manoeuvring_speed": flight.manoeuvring_speed_claim,
        "stall_clean": wing.stall_claim,
        "stall_flapped": wing.stall_claim,
        "aspect_ratio": wing.aspect_ratio_claim,
        "drag_area": wing.drag_area_claim,
        "oswald": wing.oswald_claim,
        "lift_at_least_sink": wing.lift_at_least_sink_claim,
        "zero_lift_drag": wing.zero_lift_drag_claim,
    }
)
"""Name of a band -> the function that holds a claim against it."""
