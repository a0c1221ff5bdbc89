"""Limits as words: each printed as the builder set it, and ``{name_of_a_limit}`` in a text replaced by that.

A limit is a number that somebody chose. Rounding it to the habit of its kind would print 90 s as 2 min and a
wear limit of 9.90 mm as 0.01 m, so the unit and the digits of the record are kept; only the other system is
converted and rounded.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from math import ceil, log10

from dossier import units
from dossier.display import Preference, Shown, rounded
from dossier.dossier import Dossier
from dossier.model.aircraft import OF_A_LIST, PLACEHOLDER, Limit
from dossier.quantities import Quantity

COUNTERPARTS: dict[str, str] = {
    "kg": "lb", "g": "oz", "lb": "kg", "oz": "g",
    "m": "ft", "cm": "in", "mm": "in", "km": "nmi", "ft": "m", "in": "mm", "mi": "km", "nmi": "km",
    "NM": "km",
    "m²": "ft²", "ft²": "m²", "L": "US gal", "US gal": "L",
    "°C": "°F", "degC": "°F", "°F": "°C", "degF": "°C",
    "bar": "psi", "psi": "bar", "N": "lbf", "lbf": "N",
    "N m": "lbf in", "N·m": "lbf in", "lbf in": "N m", "in-lb": "N m", "lbf ft": "N m", "ft-lb": "N m",
    "kg/m²": "lb/ft²", "lb/ft²": "kg/m²", "ft/min": "m/s", "hp": "kW", "PS": "kW",
}  # fmt: skip
"""Unit as written -> the unit of the other system beside it. A unit that is not here serves both systems."""

US_UNITS = frozenset({
    "lb", "oz", "ft", "in", "mi", "ft²", "US gal", "°F", "degF", "psi", "lbf", "lbf in", "in-lb", "lbf ft",
    "ft-lb", "lb/ft²", "ft/min", "hp",
})  # fmt: skip

_PRINTED_UNITS = {
    "ohm": "Ω", "kohm": "kΩ", "Mohm": "MΩ", "mohm": "mΩ", "degC": "°C", "degF": "°F", "deg": "°",
    "N·m": "N m", "in-lb": "lbf in", "ft-lb": "lbf ft", "NM": "nmi",
}  # fmt: skip
_WRITTEN_NUMBER = re.compile(r"[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?")
_FINEST_PART = 0.4
"""The last digit of the converted number is at most this part of the last digit that the builder wrote, so
that converting back and rounding gives the builder's number again."""


def printed(quantity: Quantity, preference: Preference) -> Shown:
    """Print a chosen value: in the record's own unit and digits, the other system beside it.

    Airspeeds stand first in the unit of the indicator, all else in the system that the type's file prefers.
    """
    written = _text(quantity.as_written, _decimals(quantity), quantity.unit)
    if quantity.kind == "speed" and quantity.unit != "ft/min":
        return _airspeed(quantity, written, preference)
    other = COUNTERPARTS.get(quantity.unit)
    if other is None:
        return Shown(written)
    converted = _converted(quantity, other)
    written_first = (quantity.unit in US_UNITS) == preference.us_first
    return Shown(written, converted) if written_first else Shown(converted, written)


def _airspeed(quantity: Quantity, written: str, preference: Preference) -> Shown:
    indicator = preference.airspeed
    if quantity.unit != indicator:
        return Shown(_converted(quantity, indicator), written)
    return Shown(written, _converted(quantity, "kt" if indicator == "km/h" else "km/h"))


def _decimals(quantity: Quantity) -> int:
    number = _WRITTEN_NUMBER.match(quantity.text)
    assert number, f"{quantity.text!r} was read as a quantity"
    exponent = Decimal(number[0]).as_tuple().exponent
    assert isinstance(exponent, int)
    return max(0, -exponent)


def _converted(quantity: Quantity, unit: str) -> str:
    factor, offset = units.scale(quantity.kind, unit)
    step = 10.0 ** -_decimals(quantity) * units.scale(quantity.kind, quantity.unit)[0] / factor
    decimals = max(0, ceil(-log10(_FINEST_PART * step)))
    value = (quantity.value - offset) / factor
    whole = rounded(value, 0)
    return _text(value, 0 if rounded(value, 6) == f"{whole}.000000" else decimals, unit)


def _text(value: float, decimals: int, unit: str) -> str:
    shown = _PRINTED_UNITS.get(unit, unit)
    gap = "" if shown in ("", "°") else " "
    return f"{rounded(value, decimals)}{gap}{shown}".replace(" ", "\u00a0")


@dataclass(frozen=True)
class LimitText:
    """Fills the placeholders of a type's texts. Plain text in, plain text out: escaping is the template's."""

    limits: Mapping[str, Limit]
    preference: Preference
    titles: Mapping[str, str]
    """Of the lists, by the name of their file."""

    @classmethod
    def of(cls, dossier: Dossier) -> LimitText:
        """Take the limits, the units and the lists of a dossier's type."""
        titles = {str(name): str(one.title) for name, one in dossier.project.procedures.items()}
        return cls(dossier.project.aircraft.limits, dossier.preference, titles)

    def limit(self, name: str) -> Shown:
        """Print one limit.

        Raises:
            KeyError: there is no such limit; a project that has been read has none.
        """
        return printed(self.limits[name].value, self.preference)

    def on_instrument(self, name: str) -> str:
        """Print one limit for a placard or a mark: an airspeed only as the indicator shows it."""
        shown = self.limit(name)
        return shown.first if self.limits[name].value.kind == "speed" else str(shown)

    def fill(self, text: str) -> str:
        """Replace every placeholder by its limit in both systems, or by a list's title, on one line."""
        return PLACEHOLDER.sub(
            lambda found: self._list(found[1]) or str(self.limit(found[1])), one_line(text)
        )

    def fill_placard(self, text: str) -> str:
        """Replace every placeholder as a placard has it."""
        return PLACEHOLDER.sub(
            lambda found: self._list(found[1]) or self.on_instrument(found[1]), one_line(text)
        )

    def _list(self, name: str) -> str:
        """Name a list by its title in quotation marks; nothing for a limit."""
        key = name.removeprefix(OF_A_LIST)
        return f"\u201c{one_line(self.titles[key])}\u201d" if key != name else ""


def one_line(text: str) -> str:
    """Put a text on one line; spaces that must not break are kept."""
    return re.sub(r"[ \t\r\n]+", " ", text).strip()
