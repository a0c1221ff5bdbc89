"""The unit and the decimals in which each use of a kind is printed, by the habit of the field."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Style:
    """The unit and the decimals of one use of a kind, in each system."""

    kind: str
    si: str
    si_decimals: int
    us: str
    us_decimals: int


STYLES: dict[str, Style] = {
    "mass": Style("mass", "kg", 1, "lb", 1),
    "length": Style("length", "m", 2, "ft", 2),
    "arm": Style("length", "mm", 0, "in", 1),
    "height": Style("length", "m", 0, "ft", 0),
    "distance": Style("length", "km", 1, "nmi", 1),
    "area": Style("area", "m²", 2, "ft²", 1),
    "volume": Style("volume", "L", 1, "US gal", 1),
    "pack_volume": Style("volume", "L", 1, "in³", 0),
    "time": Style("time", "min", 0, "min", 0),
    "seconds": Style("time", "s", 0, "s", 0),
    "hours": Style("time", "h", 1, "h", 1),
    "days": Style("time", "d", 0, "d", 0),
    "years": Style("time", "years", 1, "years", 1),
    "speed": Style("speed", "km/h", 1, "kt", 1),
    "vertical_speed": Style("speed", "m/s", 2, "ft/min", 0),
    "acceleration": Style("acceleration", "m/s²", 4, "m/s²", 4),
    "power": Style("power", "kW", 2, "kW", 2),
    "cell_power": Style("power", "W", 2, "W", 2),
    "energy": Style("energy", "kWh", 2, "kWh", 2),
    "cell_energy": Style("energy", "Wh", 2, "Wh", 2),
    "charge": Style("charge", "Ah", 2, "Ah", 2),
    "voltage": Style("voltage", "V", 2, "V", 2),
    "gauge_voltage": Style("voltage", "V", 1, "V", 1),
    "cell_spread": Style("voltage", "mV", 1, "mV", 1),
    "current": Style("current", "A", 0, "A", 0),
    "resistance": Style("resistance", "mΩ", 1, "mΩ", 1),
    "temperature": Style("temperature", "°C", 0, "°F", 0),
    "warming": Style("temperature", "K", 1, "K", 1),
    "heating_rate": Style("heating_rate", "°C/min", 2, "°F/min", 1),
    "heat": Style("energy", "Wh", 0, "Wh", 0),
    "heat_rate": Style("power", "W", 0, "W", 0),
    "specific_heat": Style("specific_heat", "J/(kg K)", 0, "J/(kg K)", 0),
    "mass_flow": Style("mass_flow", "kg/s", 3, "kg/s", 3),
    "volume_flow": Style("volume_flow", "L/s", 1, "L/s", 1),
    "angle": Style("angle", "deg", 1, "deg", 1),
    "ratio": Style("ratio", "%", 1, "%", 1),
    "whole_percent": Style("ratio", "%", 0, "%", 0),
    "torque": Style("torque", "N m", 1, "lbf in", 0),
    "force": Style("force", "N", 0, "lbf", 0),
    "pressure": Style("pressure", "bar", 2, "psi", 0),
    "mass_moment": Style("mass_moment", "kg m", 2, "lb in", 0),
    "surface_loading": Style("surface_loading", "kg/m²", 1, "lb/ft²", 2),
    "density": Style("density", "kg/m³", 3, "kg/m³", 3),
    "specific_energy": Style("specific_energy", "Wh/kg", 0, "Wh/kg", 0),
    "energy_density": Style("energy_density", "Wh/L", 0, "Wh/L", 0),
    "rotation": Style("rotation", "rpm", 0, "rpm", 0),
    "number": Style("number", "", 3, "", 3),
    "rate": Style("number", "", 2, "", 2),
    "glide_ratio": Style("number", "", 1, "", 1),
    "coefficient": Style("number", "", 4, "", 4),
    "count": Style("number", "", 0, "", 0),
}
"""Style -> units. Every kind is a style of its own name."""
