"""What is believable and what is possible, for each claim identity, with where the numbers come from.

A band is held against the claim over the computed number, or against what the claim needs: an efficiency, a
coefficient. No number here is a limit of law. They are defaults to think with; a measurement beats every one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf
from types import MappingProxyType

WH = 3600.0
"""J."""
LITRE = 1e-3
"""m³."""


@dataclass(frozen=True)
class Band:
    """Ends in SI, both inside. What is outside ``possible`` cannot be."""

    sound: tuple[float, float]
    possible: tuple[float, float]
    basis: str
    """``read``, ``own``, ``memory``, ``exact`` (arithmetic, balance of energy) or ``common practice``: of the
    sound ends; where the outer ends rest on something else the note says so."""
    note: str


def _near(sound: float, possible: float, basis: str, note: str) -> Band:
    """Make a band about 1, for a claim over the number that follows from the others."""
    return Band((1 - sound, 1 + sound), (1 - possible, 1 + possible), basis, note)


def _at_most(sound: float, possible: float, basis: str, note: str) -> Band:
    """Make a band for a bound: a modest claim is never wrong."""
    return Band((0.0, sound), (0.0, possible), basis, note)


BANDS: Mapping[str, Band] = MappingProxyType(
    {
        # energy and power
        "endurance": Band(
            (0.8, 1.10), (0.0, 1.20), "own", "10 % and 20 % over; far below, the numbers belong apart"
        ),
        "sustain_power": Band(
            (0.45, 0.75),
            (0.0, 0.83),
            "own",
            "chain of the drive; propeller 0.50 to 0.87 read, motor 0.95 read in a post",
        ),
        "sustain_share": Band(
            (1 / 8, 1 / 3),
            (0.0, 1.0),
            "common practice",
            "about a fifth of take-off power; an eighth to a third is own",
        ),
        "climb_rate": Band((0.45, 0.75), (0.0, 0.83), "own", "efficiency from the power named to the thrust"),
        "climb_rate_of_disc": _at_most(
            0.9, 1.0, "exact", "above the ideal disc is impossible; 0.9 of it is own"
        ),
        "range": _at_most(
            1.0, 1.0, "exact", "balance of energy in still air; endurance times speed is the usual trap"
        ),
        "height": _at_most(
            1.0, 1.0, "exact", "balance of energy; the rate of climb falls with height besides"
        ),
        "fuel_equivalent": Band(
            (0.7, 1.3), (0.4, 2.5), "own", "32.0 MJ/L, 0.72 kg/L and an engine at 0.25 were read"
        ),
        "fuel_mass": _near(0.1, 0.2, "common practice", "no source: 6 lb a US gallon; 0.72 kg/L was read"),
        # battery
        "series_count": Band(
            (1.0, 1.0), (1.0, 1.0), "exact", "the count is among those that the marks allow"
        ),
        "nominal_energy": Band(
            (0.95, 1.02), (0.0, 3.75 / 3.6), "memory", "3.6 V a cell; more than 3.75 V a cell is wrong"
        ),
        "usable_energy": Band((0.80, 0.95), (0.0, 1.0), "memory", "of the nominal energy"),
        "pack_mass": Band(
            (110 * WH, 190 * WH),
            (0.0, 265 * WH),
            "own",
            "road packs 148 to 174 Wh/kg read; cells to 265 Wh/kg read, a pack weighs more",
        ),
        "pack_over_cell": Band(
            (0.55, 0.85), (0.0, 1.0), "own", "energy for mass of pack over that of cell; about 0.8 read"
        ),
        "pack_volume": Band(
            (62 * WH / LITRE, 416 * WH / LITRE),
            (0.0, 693 * WH / LITRE),
            "memory",
            "0.25 to 0.6 of cells from 250 to 693 Wh/L, which were read",
        ),
        "cells_in_mass": _at_most(
            0.85,
            1.0,
            "own",
            "mass of the cells over that of the pack; about 0.8 read, above 1 is impossible (exact)",
        ),
        "cells_in_box": _at_most(
            0.66,
            1.0,
            "common practice",
            "no source: cells fill up to 0.6 of a box; here with the room between cylinders, of which they "
            "fill 0.907 at the densest (exact), so 0.66, and above 1 no box holds them",
        ),
        "calendar_life": Band(
            (0.0, 1.2), (0.0, inf), "own", "years claimed over years until the cycles are used up"
        ),
        "cycle_life": _at_most(
            1.0,
            inf,
            "read",
            "cycles over the most of three published models of NMC cells at this rate, to 80 %, by use "
            "alone; the slower, the more (that is common practice, no source)",
        ),
        "discharge_rate": _at_most(
            1.0, 1.05, "own", "rate needed over the rate allowed; voltage under load, not nominal"
        ),
        "voltage_sag": _near(0.15, 0.5, "own", "with the resistance that belongs to the length of the phase"),
        "half_pack": Band(
            (0.38, 0.53),
            (0.0, 0.60),
            "own",
            "runs of the model give 0.38 to 0.476; lighter needs less power, so a little above",
        ),
        "charging_time": Band(
            (0.85, 1.15),
            (0.0, inf),
            "memory",
            "efficiency 0.88 to 0.95, taper 10 to 40 min, 15 % either way; shorter than all of the energy "
            "at full power is impossible",
        ),
        "touch_voltage": _at_most(1.0, 1.0, "read", "60 V d.c., ISO 6469-4:2015, 5.2.2"),
        # flight
        "glide_point": _near(0.05, 0.10, "own", "geometry, if all three are of one glide"),
        "both_optima": Band(
            (0.83, 0.93),
            (0.70, 1.02),
            "own",
            "0.877 for a parabola; 1 means one glide, above 1 the least sink is none; 2 % for rounding",
        ),
        "take_off_run": Band((1.2, 2.0), (1.0, inf), "own", "run over the floor of constant acceleration"),
        "two_masses": _near(0.02, 0.05, "own", "root of mass; a fixed lift coefficient"),
        "two_ratios": _near(0.02, 0.05, "own", "the glide ratio does not change with mass"),
        "level_speed": Band((0.5, 0.8), (0.0, 0.9), "own", "efficiency from the power named to the thrust"),
        "manoeuvring_speed": _near(0.03, 0.10, "own", "stall speed times the root of the load factor"),
        # wing
        "stall_clean": Band(
            (1.2, 1.8),
            (0.5, 2.5),
            "read",
            "pilot's text; above 2.5 without slats is own (slat and flap 2.45 read in a table)",
        ),
        "stall_flapped": Band((1.2, 2.5), (0.5, 3.0), "read", "pilot's text; above 3.0 is own"),
        "lift_at_least_sink": Band((0.4, 1.8), (0.0, 2.5), "own", "what the stall allows, no flaps"),
        "aspect_ratio": _near(0.02, 0.05, "own", "span squared over area"),
        "oswald": Band(
            (0.70, 0.98),
            (0.3, 1.0),
            "read",
            "0.70 to 0.85 conventional, to 0.98 gliders; above 1 less induced drag than the ideal wing has",
        ),
        "zero_lift_drag": Band(
            (0.008, 0.06),
            (0.004, 0.5),
            "own",
            "0.008 sailplane, 0.025 and 0.037 light aeroplanes read; below 0.006 rare, memory",
        ),
        "drag_area": Band(
            (0.08, inf), (0.0, inf), "own", "drag area with an ideal wing; open or strutted single-seater"
        ),
    }
)
