"""What each identity says, in one sentence."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

SAYS: Mapping[str, str] = MappingProxyType(
    {
        "endurance": "The time in level flight is the energy left for it over its power",
        "sustain_power": "The power of level flight is weight times sink over an efficiency that drives have",
        "sustain_share": "Level flight takes a part of the power of take-off",
        "climb_rate": "The rate of climb is what the power leaves over, at an efficiency that drives have",
        "climb_rate_of_disc": "No propeller of this diameter gives more than the ideal disc",
        "range": "In still air no range is longer than energy times efficiency times glide ratio over weight",
        "height": "No height is greater than the energy can lift the weight",
        "fuel_equivalent": "The petrol that gives the same work at the shaft",
        "fuel_mass": "Petrol of this volume weighs what it is said to weigh",
        "series_count": "The cells in series give the voltages when full and empty",
        "touch_voltage": "The full pack stays below the voltage that counts as high",
        "nominal_energy": "The nominal energy is cells in series times their voltage times the capacity",
        "usable_energy": "The usable energy is a part of the nominal one, the reserve taken off",
        "pack_mass": "The energy for mass is one that a whole pack can have",
        "pack_over_cell": "A pack has less energy for mass than its cells",
        "cells_in_mass": "The pack weighs more than its cells",
        "cells_in_box": "The box has room for the cells",
        "pack_volume": "The energy for volume is one that a whole pack can have",
        "calendar_life": "The years end when the cycles are used up",
        "cycle_life": "At the rate of this discharge no published model gives more cycles",
        "discharge_rate": "The power asks for no higher rate than the cells allow",
        "voltage_sag": "The sag is current times resistance",
        "half_pack": "Half of the energy flies a little more or less than half of the time",
        "charging_time": "Charging takes the energy that goes in over the power, and a taper",
        "glide_point": "Speed, sink and ratio of one glide belong together",
        "both_optima": "Best glide and least sink of one polar belong together",
        "take_off_run": "No run is shorter than that of constant acceleration",
        "two_masses": "A sink grows with the root of the mass",
        "two_ratios": "The best glide ratio is the same at every mass",
        "level_speed": "The top speed asks for an efficiency that a drive can have",
        "manoeuvring_speed": "The manoeuvring speed is the stalling speed times the root of the load factor",
        "stall_clean": "The stalling speed asks for a lift coefficient that a wing can have",
        "stall_flapped": "The stalling speed asks for a lift coefficient that a wing with flaps can have",
        "lift_at_least_sink": "The least sink is flown at a lift coefficient below the stall",
        "aspect_ratio": "The aspect ratio is span squared over area",
        "oswald": "Glide ratio and least sink ask for a wing no better than the ideal one",
        "zero_lift_drag": "Glide ratio and least sink ask for a zero-lift drag that an aircraft can have",
        "drag_area": "The glide ratio leaves a drag area that an aircraft can have, even with an ideal wing",
    }
)
"""Name of an identity -> the sentence."""
