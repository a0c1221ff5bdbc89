"""Which computed figure a claim is held against: the one it names, or that of its quantity by a table."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from dossier.figures import Figure
from dossier.judge.figure_origins import why_missing
from dossier.model.compliance import Claim

OF_THE_AIRCRAFT: Mapping[str, str] = MappingProxyType(
    {
        "take_off_mass": "maximum_take_off_mass",
        "aspect_ratio": "aspect_ratio.wing",
        "stall_speed": "stall_speed",
        "level_speed": "maximum_level_speed",
        "least_sink": "minimum_sink",
        "best_glide_ratio": "best_glide_ratio.polar",
        "trailer_width": "packed_size.width",
    }
)
"""Quantity of the whole aircraft -> figure."""
OF_A_BATTERY: Mapping[str, str] = MappingProxyType(
    {
        "best_glide_speed": "best_glide_speed",
        "level_power": "level_power",
        "climb_rate": "polar_climb_rate",
        "endurance": "endurance",
        "range": "range",
        "energy": "nameplate_energy",
        "usable_energy": "usable_energy",
        "pack_mass": "pack_mass",
        "pack_volume": "volume",
        "specific_energy": "specific_energy",
        "full_voltage": "full_voltage",
        "half_voltage": "half_voltage",
        "empty_voltage": "empty_voltage",
        "highest_voltage": "highest_voltage",
        "charging_time": "charging_time",
    }
)
"""Quantity with a battery -> figure, before the dot and the key of the battery."""
BETWEEN_MODELS: Mapping[str, str] = MappingProxyType(
    {"cycle_life": "cycle_life", "calendar_life": "calendar_life"}
)
"""Quantity of which published models give a least and a most -> figures, before ``_least`` and ``_most``."""
OF_THE_TYPE = "it is a measure that the type's files state, and no event of a serial measures it"
NOT_COMPUTED: Mapping[str, str] = MappingProxyType(
    {
        "wing_span": OF_THE_TYPE,
        "wing_area": OF_THE_TYPE,
        "propeller_diameter": OF_THE_TYPE,
        "manoeuvring_speed": "it is a limit that the builder lays down, and stands among the limits",
        "best_glide_sink": "the sink at the speed of the best glide is no figure of its own",
        "static_thrust": "no formula of this tool gives the thrust at rest, and no event measures it",
        "lift_off_speed": "no event of a serial measures it",
        "take_off_run": "no event measures it; beside the other claims it is held against a floor",
        "height": "no height of a whole battery is computed; the other claims give it a bound",
        "rigging_time": "no event of a serial records it",
        "fuel_equivalent_mass": "it is no property of the aircraft; it is held against its volume below",
        "fuel_equivalent": "it is no property of the aircraft; it is held against the energy below",
    }
)
"""Quantity -> why no figure is held against it."""


@dataclass(frozen=True)
class Found:
    """Where a claim is held: one figure, or the ends that published models leave open; else why not."""

    figure: Figure | None = None
    least: Figure | None = None
    most: Figure | None = None
    """None where the most lenient model has no end."""
    name: str = ""
    """Of the figure, whether it is there or not."""
    reason: str = ""


def figure_of(claim: Claim, figures: Mapping[str, Figure], batteries: Sequence[str]) -> Found:
    """Find the figure of a claim that names none, by its quantity and its battery, and never by likeness.

    Args:
        claim: without ``figure``.
        figures: the computed figures by name.
        batteries: keys of the batteries of the type; an only one need not be named.
    """
    quantity = str(claim.quantity) if claim.quantity is not None else ""
    if not quantity:
        return Found(reason="Nothing in the record computes it.")
    if quantity in NOT_COMPUTED:
        return Found(reason=f"No figure is held against it: {NOT_COMPUTED[quantity]}.")
    if quantity in OF_THE_AIRCRAFT:
        return _named(OF_THE_AIRCRAFT[quantity], figures)
    battery = str(claim.battery) if claim.battery else batteries[0] if len(batteries) == 1 else ""
    if not battery:
        return Found(reason="The type has several batteries, and the claim does not name its own.")
    if quantity in BETWEEN_MODELS:
        return _between(BETWEEN_MODELS[quantity], battery, figures)
    return _named(f"{OF_A_BATTERY[quantity]}.{battery}", figures)


def _named(name: str, figures: Mapping[str, Figure]) -> Found:
    if name in figures:
        return Found(figures[name], name=name)
    what, remedy = why_missing(name, figures)
    return Found(name=name, reason=f"No figure {name!r}: {what}; {remedy}.")


def _between(short: str, battery: str, figures: Mapping[str, Figure]) -> Found:
    least, most = (figures.get(f"{short}_{end}.{battery}") for end in ("least", "most"))
    if least is None:
        return Found(
            name=f"{short}_least.{battery}",
            reason="No model of ageing speaks of it: name one for the cell, and the use of the aircraft.",
        )
    return Found(least=least, most=most, name=least.name)
