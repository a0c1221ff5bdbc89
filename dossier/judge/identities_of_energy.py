"""Claims of endurance, power, climb, range and height, held against energy and mass. All in SI."""

from __future__ import annotations

from dossier.compute.climb import greatest_height
from dossier.compute.energy import (
    STANDARD_GRAVITY,
    endurance,
    implied_efficiency,
    level_power,
)
from dossier.compute.propeller import disc_efficiency
from dossier.judge.identity import Identity, compared, needing

G = STANDARD_GRAVITY
LOADED = 0.97
"""Part of the energy that a pack gives at a rate of about 0.6 in an hour (chen-2020, computed)."""
FUEL_HEAT = 32.0e9
"""Of petrol, in J/m³ (read)."""
PETROL_DENSITY = 720.0
"""In kg/m³ (read)."""
ENGINE = 0.25
"""Efficiency of a small petrol engine (read)."""


def endurance_claim(
    time: float, *, energy: float, usable: float, power: float, loaded: float = LOADED
) -> Identity:
    """Hold an endurance against energy, its usable part and the power of level flight."""
    return compared("endurance", time, endurance(energy * usable * loaded, [], power))


def sustain_power_claim(power: float, *, mass: float, sink: float) -> Identity:
    """Hold the electric power of level flight against mass and least sink: which efficiency does it need?"""
    needed = implied_efficiency(mass, sink, G, power)
    return needing("sustain_power", power, needed, lambda eta: level_power(mass, sink, G, eta))


def sustain_share_claim(power: float, *, take_off_power: float) -> Identity:
    """Hold the power of level flight against that of take-off."""
    return needing("sustain_share", power, power / take_off_power, lambda share: share * take_off_power)


def climb_rate_claim(rate: float, *, mass: float, sink: float, power: float) -> Identity:
    """Hold a rate of climb against power, mass and sink: which efficiency does it need?"""
    needed = implied_efficiency(mass, rate + sink, G, power)
    return needing("climb_rate", rate, needed, lambda eta: eta * power / (mass * G) - sink)


def climb_rate_of_disc_claim(
    rate: float,
    *,
    mass: float,
    sink: float,
    shaft_power: float,
    diameter: float,
    speed: float,
    density: float = 1.225,
) -> Identity:
    """Hold a rate of climb against what an ideal propeller of the diameter gives at that speed."""
    ideal = disc_efficiency(shaft_power, diameter, speed, density)
    needed = implied_efficiency(mass, rate + sink, G, shaft_power) / ideal
    return needing(
        "climb_rate_of_disc", rate, needed, lambda share: share * ideal * shaft_power / (mass * G) - sink
    )


def range_claim(distance: float, *, energy: float, chain: float, glide_ratio: float, mass: float) -> Identity:
    """Hold a range in still air against energy, efficiency from pack to thrust, best glide ratio and mass."""
    return compared("range", distance, energy * chain * glide_ratio / (mass * G))


def height_claim(
    height: float, *, energy: float, chain: float, mass: float, rate: float, sink: float
) -> Identity:
    """Hold the height on one battery against energy, efficiency, mass, rate of climb and sink."""
    return compared("height", height, greatest_height(energy, chain, mass, v_c=rate, w=sink, g=G))


def fuel_equivalent_claim(volume: float, *, energy: float, usable: float, chain: float) -> Identity:
    """Hold a volume of petrol said to equal the pack against its energy; ``chain`` is from pack to shaft."""
    return compared("fuel_equivalent", volume, energy * usable * chain / (FUEL_HEAT * ENGINE))


def fuel_mass_claim(mass: float, *, volume: float) -> Identity:
    """Hold the mass of petrol that a claim names against its volume."""
    return compared("fuel_mass", mass, volume * PETROL_DENSITY)
