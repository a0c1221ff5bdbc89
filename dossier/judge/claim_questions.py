"""Which identities can be asked of the numbers there are: each with its numbers, the claim first."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from dossier.judge.claim_identities import IDENTITIES
from dossier.judge.claim_numbers import Number, Numbers
from dossier.judge.identity import Identity, needing


@dataclass(frozen=True)
class Question:
    """One identity, ready to be asked."""

    name: str
    """A key of :data:`dossier.judge.identity_bands.BANDS`."""
    target: Number
    """What is held against the others."""
    others: tuple[Number, ...]
    ask: Callable[[], Identity]
    option: str = ""
    """Battery, where it is about one."""


@dataclass(frozen=True)
class Simple:
    """An identity that takes its numbers as they are."""

    name: str
    target: str
    others: Mapping[str, str]
    """Keyword of the function -> quantity."""
    published_only: bool = False
    """True where the type's own number follows from the others, so that only a claim can be wrong."""


OTHERWISE = {"measured_stall": "stall_speed"}
"""A measured speed goes before a published one, which may say no more than "at most"."""
WHOLE = (
    Simple("stall_clean", "stall_speed", {"mass": "take_off_mass", "area": "wing_area"}),
    Simple("aspect_ratio", "aspect_ratio", {"span": "wing_span", "area": "wing_area"}),
    Simple("drag_area", "best_glide_ratio", {"span": "wing_span"}),
    Simple("glide_point", "best_glide_speed", {"sink": "best_glide_sink", "glide_ratio": "best_glide_ratio"}),
    Simple(
        "both_optima", "best_glide_speed", {"least_sink": "least_sink", "glide_ratio": "best_glide_ratio"}
    ),
    Simple(
        "manoeuvring_speed", "manoeuvring_speed", {"stall": "measured_stall", "load_factor": "load_factor"}
    ),
    Simple(
        "climb_rate",
        "climb_rate",
        {"mass": "take_off_mass", "sink": "least_sink", "power": "maximum_power"},
        True,
    ),
)
"""Identities of the whole aircraft."""
BATTERY = (
    Simple("sustain_power", "level_power", {"mass": "take_off_mass", "sink": "least_sink"}, True),
    Simple("sustain_share", "level_power", {"take_off_power": "maximum_power"}, True),
    Simple(
        "range",
        "range",
        {
            "energy": "usable_energy",
            "chain": "drive",
            "glide_ratio": "best_glide_ratio",
            "mass": "take_off_mass",
        },
        True,
    ),
    Simple(
        "height",
        "height",
        {
            "energy": "usable_energy",
            "chain": "drive",
            "mass": "take_off_mass",
            "rate": "climb_rate",
            "sink": "least_sink",
        },
        True,
    ),
    Simple("nominal_energy", "energy", {"series": "series", "capacity": "capacity"}, True),
    Simple("pack_mass", "pack_mass", {"energy": "energy"}),
    Simple("pack_over_cell", "pack_mass", {"energy": "energy", "cell": "cell_specific_energy"}),
    Simple("pack_volume", "pack_volume", {"energy": "energy"}),
    Simple("cells_in_mass", "pack_mass", {"cells": "cells_mass"}),
    Simple("cells_in_box", "pack_volume", {"room": "cells_room"}),
    Simple("charging_time", "charging_time", {"energy": "charge_energy", "power": "charger_power"}, True),
    Simple(
        "calendar_life",
        "calendar_life",
        {"cycles": "cycle_life", "cycle_time": "endurance", "flown": "hours_per_year"},
        True,
    ),
    Simple("cycle_life", "cycle_life", {"time": "endurance"}, True),
    Simple(
        "discharge_rate",
        "allowed_rate",
        {"power": "maximum_power", "loaded_voltage": "loaded_voltage", "capacity": "capacity"},
    ),
)
"""Identities of one battery."""
COMPUTED_TARGETS = frozenset({"pack_mass", "pack_volume"})
"""Quantities that a figure gives although the type's file states them: mass and outer size of a battery."""


def simple(numbers: Numbers, one: Simple, option: str = "") -> Iterator[Question]:
    """Ask an identity that takes its numbers as they are, if they are all there."""
    target = (
        numbers.claim(one.target, option) or numbers.claim(one.target)
        if one.published_only
        else numbers(one.target, option)
    )
    others = {
        keyword: numbers(quantity, option) or numbers(OTHERWISE.get(quantity, quantity), option)
        for keyword, quantity in one.others.items()
    }
    if target is None or not (target.is_stated or one.target in COMPUTED_TARGETS):
        return
    found = {keyword: number for keyword, number in others.items() if number is not None}
    if len(found) < len(others):
        return
    yield Question(one.name, target, tuple(found.values()), _asking(one.name, target, found), option)


def _asking(name: str, target: Number, others: Mapping[str, Number]) -> Callable[[], Identity]:
    values: dict[str, Any] = {keyword: number.value for keyword, number in others.items()}
    if name == "calendar_life":
        years = target.value / YEAR
        return lambda: IDENTITIES[name](years, **values)
    return lambda: IDENTITIES[name](target.value, **values)


YEAR = 365.25 * 86400.0
"""In s: a life is written in days, and held in years."""


def specific_energy(numbers: Numbers, option: str) -> Iterator[Question]:
    """Hold a published energy for mass against packs and against the cell; its mass is that of the pack."""
    target = numbers.claim("specific_energy", option)
    cell = numbers(f"cell_specific_energy.{option}")
    if target is None or cell is None:
        return
    claimed, of_cell = target.value, cell.value
    yield Question(
        "pack_mass", target, (), lambda: needing("pack_mass", claimed, claimed, lambda end: end), option
    )
    yield Question(
        "pack_over_cell",
        target,
        (cell,),
        lambda: needing("pack_over_cell", claimed, claimed / of_cell, lambda end: end * of_cell),
        option,
    )
