"""Headings of a battery log: the labels of the open Battery Data Format, their machine names, and units in a
heading."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches

from dossier import units


@dataclass(frozen=True)
class Label:
    """One quantity of the open format (source batterydf)."""

    name: str
    """As before the stroke of a heading, such as ``Voltage`` in ``Voltage / V``."""
    unit: str
    machine_name: str
    kind: str
    """A key of :data:`dossier.units.KINDS`."""
    also: tuple[str, ...] = ()
    """Other names that are taken for the same."""


LABELS: dict[str, Label] = {
    "time": Label("Test Time", "s", "test_time_second", "time"),
    "voltage": Label("Voltage", "V", "voltage_volt", "voltage"),
    "current": Label("Current", "A", "current_ampere", "current"),
    "charge": Label(
        "Discharging Capacity", "Ah", "discharging_capacity_ah", "charge", ("Discharged Capacity",)
    ),
    "temperature": Label(
        "Surface Temperature T1", "degC", "surface_temperature_t1_celsius", "temperature"
    ),
}  # fmt: skip
"""The machine names of charge and temperature follow the pattern of the others and were not seen."""
REQUIRED = ("time", "voltage", "current")


def heading(label: Label) -> str:
    """Return the heading of the open format, such as ``Voltage / V``."""
    return f"{label.name} / {label.unit}"


def is_headed(label: Label, text: str) -> bool:
    """Tell whether a heading names this quantity, in whatever unit."""
    name, _, _ = text.partition("/")
    return text.strip() == label.machine_name or name.strip().lower() in {
        one.lower() for one in (label.name, *label.also)
    }


def unit_of(label: Label, text: str) -> str:
    """Return the unit of a heading: what stands behind the stroke, or that of the format for a machine
    name."""
    _, stroke, unit = text.partition("/")
    return unit.strip() if stroke else label.unit


def conversion(label: Label, text: str) -> tuple[float, float] | None:
    """Return factor and offset to SI of a heading, or None for a unit that is not known."""
    unit = unit_of(label, text)
    return units.scale(label.kind, unit) if unit in units.KINDS[label.kind].spellings else None


def nearest(text: str, known: list[str]) -> str | None:
    """Return the heading that is closest to a text, if any is close."""
    close = get_close_matches(text, known, n=1, cutoff=0.5)
    return close[0] if close else None
