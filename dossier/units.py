"""The units that a record may use, and the factors that pint gives for them. The only module
that imports pint.

Only listed spellings are taken. A free unit parser would read ``PS`` as petaseconds and ``Nm`` as nanometres,
and a builder would never know.
"""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from functools import cache

import pint

_REGISTRY: pint.UnitRegistry[Fraction] = pint.UnitRegistry(
    autoconvert_offset_to_baseunit=True, non_int_type=Fraction
)
# Fractions: a pound is exactly 0.45359237 kg, and so is the factor.


@dataclass(frozen=True)
class Kind:
    """What a value measures: its SI unit, the spellings that are taken, and how one is written."""

    name: str
    si: str
    example: str
    spellings: dict[str, str]
    """Spelling in a record -> the same unit as pint names it."""


def _kind(name: str, si: str, example: str, **groups: str) -> Kind:
    """Build a kind; each keyword is a pint name, its value the spellings for it, parted by ``|``."""
    spellings = {
        spelling: pint_name.replace("__per__", "/").replace("__times__", "*").replace("__sq", "**2")
        for pint_name, text in groups.items()
        for spelling in text.split("|")
    }
    return Kind(name, si, example, spellings)


KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        _kind("mass", "kg", "108.4 kg", kilogram="kg", gram="g", pound="lb", ounce="oz"),
        _kind(
            "length",
            "m",
            "412 mm",
            meter="m",
            millimeter="mm",
            centimeter="cm",
            kilometer="km",
            inch="in",
            foot="ft",
            nautical_mile="nmi|NM",
            mile="mi",
        ),
        _kind("area", "m²", "13.6 m²", meter__sq="m²|m2", millimeter__sq="mm²|mm2", foot__sq="ft²|ft2"),
        _kind(
            "volume",
            "m³",
            "19.5 L",
            liter="L|l",
            meter__times__meter__sq="m³|m3",
            inch__times__inch__sq="in³|in3",
            gallon="US gal",
            imperial_gallon="imp gal",
        ),
        _kind("time", "s", "25 s", second="s", minute="min", hour="h", day="d", year="years|year|yr"),
        _kind(
            "speed",
            "m/s",
            "55 kt",
            meter__per__second="m/s",
            kilometer__per__hour="km/h",
            knot="kt",
            mile__per__hour="mph",
            foot__per__minute="ft/min",
        ),
        _kind("acceleration", "m/s²", "9.81 m/s²", meter__per__second__sq="m/s²"),
        _kind("power", "W", "9.5 kW", watt="W", kilowatt="kW", horsepower="hp", metric_horsepower="PS"),
        _kind(
            "energy",
            "J",
            "3.1 kWh",
            joule="J",
            kilojoule="kJ",
            megajoule="MJ",
            watt_hour="Wh",
            kilowatt_hour="kWh",
        ),
        _kind("charge", "C", "5.0 Ah", ampere_hour="Ah", milliampere_hour="mAh", coulomb="C"),
        _kind("voltage", "V", "58.8 V", volt="V", millivolt="mV", kilovolt="kV"),
        _kind("current", "A", "120 A", ampere="A", milliampere="mA", kiloampere="kA"),
        _kind(
            "resistance", "Ω", "18 mΩ", ohm="Ω|ohm", milliohm="mΩ|mohm", megaohm="MΩ|Mohm", kiloohm="kΩ|kohm"
        ),
        _kind("temperature", "K", "25 °C", degree_Celsius="°C|degC", degree_Fahrenheit="°F|degF", kelvin="K"),
        _kind(
            "heating_rate",
            "K/s",
            "2 °C/min",
            delta_degree_Celsius__per__minute="°C/min|K/min",
            delta_degree_Celsius__per__hour="°C/h|K/h",
            delta_degree_Fahrenheit__per__minute="°F/min",
        ),
        _kind("angle", "rad", "0.5 deg", degree="deg|°", radian="rad"),
        _kind("ratio", "1", "85 %", percent="%"),
        _kind(
            "torque",
            "N·m",
            "10 N m",
            newton__times__meter="N m|N·m",
            pound_force__times__inch="lbf in|in-lb",
            pound_force__times__foot="lbf ft|ft-lb",
        ),
        _kind("force", "N", "150 N", newton="N", kilonewton="kN", pound_force="lbf"),
        _kind(
            "pressure",
            "Pa",
            "2.2 bar",
            pascal="Pa",
            hectopascal="hPa",
            kilopascal="kPa",
            bar="bar",
            psi="psi",
        ),
        _kind(
            "mass_moment",
            "kg·m",
            "12.5 kg m",
            kilogram__times__meter="kg m|kg·m",
            kilogram__times__millimeter="kg mm|kg·mm",
            pound__times__inch="lb in|lb·in",
        ),
        _kind(
            "surface_loading",
            "kg/m²",
            "15 kg/m²",
            kilogram__per__meter__sq="kg/m²|kg/m2",
            pound__per__foot__sq="lb/ft²|lb/ft2",
        ),
        _kind(
            "density",
            "kg/m³",
            "1.225 kg/m³",
            kilogram__per__liter="kg/L",
            kilogram__per__meter__per__meter__sq="kg/m³|kg/m3",
            pound__per__gallon="lb/US gal",
        ),
        _kind(
            "specific_energy",
            "J/kg",
            "160 Wh/kg",
            watt_hour__per__kilogram="Wh/kg",
            joule__per__kilogram="J/kg",
            kilojoule__per__kilogram="kJ/kg",
        ),
        _kind(
            "energy_density",
            "J/m³",
            "240 Wh/L",
            watt_hour__per__liter="Wh/L",
            joule__per__meter__per__meter__sq="J/m³",
        ),
        _kind("specific_heat", "J/(kg K)", "950 J/(kg K)", joule__per__kilogram__per__kelvin="J/(kg K)"),
        _kind("mass_flow", "kg/s", "0.02 kg/s", kilogram__per__second="kg/s"),
        _kind(
            "volume_flow",
            "m³/s",
            "12 L/s",
            liter__per__second="L/s",
            meter__times__meter__sq__per__second="m³/s",
        ),
        _kind("rotation", "1/s", "2400 rpm", revolution__per__minute="rpm"),
        _kind("number", "1", "1.6"),
    )
}


@cache
def scale(kind: str, spelling: str) -> tuple[float, float]:
    """Return factor and offset so that ``SI value = factor * value + offset``.

    Raises:
        KeyError: the kind has no such spelling.
    """
    if spelling in ("", "1"):
        return 1.0, 0.0
    name = KINDS[kind].spellings[spelling]
    at_zero = _REGISTRY.Quantity(Fraction(0), name).to(_si_unit(kind)).magnitude
    at_one = _REGISTRY.Quantity(Fraction(1), name).to(_si_unit(kind)).magnitude
    return float(at_one - at_zero), float(at_zero)


@cache
def _si_unit(kind: str) -> str:
    text = KINDS[kind].si.replace("·", "*").replace("²", "**2").replace("³", "**3").replace("Ω", "ohm")
    return {"1": "dimensionless", "1/s": "revolution / second"}.get(text, text)


def kinds_of(spelling: str) -> tuple[str, ...]:
    """Name every kind that has this spelling, to say what a unit in the wrong place would measure."""
    return tuple(kind.name for kind in KINDS.values() if spelling in kind.spellings)


def nearest_spelling(kind: str, spelling: str) -> str | None:
    """Return the accepted spelling of this kind that is closest to what was written, if any is close."""
    known = KINDS[kind].spellings
    by_case = {known_spelling.lower(): known_spelling for known_spelling in known}
    if spelling.lower() in by_case:
        return by_case[spelling.lower()]
    close = get_close_matches(spelling, known, n=1, cutoff=0.5)
    return close[0] if close else None
