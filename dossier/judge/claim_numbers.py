"""Numbers that claims are held against one another with: published ones first, then the type's own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import copy
from dataclasses import dataclass

from dossier.figures import Figure
from dossier.findings import Place
from dossier.model.compliance import Claim, Compliance
from dossier.quantities import Quantity

PRINTED = {
    "least_sink": "vertical_speed",
    "best_glide_sink": "vertical_speed",
    "climb_rate": "vertical_speed",
    "best_glide_ratio": "glide_ratio",
    "aspect_ratio": "rate",
    "cycle_life": "count",
}
"""Quantity -> how it is printed, where its kind does not say it."""


@dataclass(frozen=True)
class Number:
    """One number and where it stands."""

    label: str
    value: float
    """In SI."""
    style: str
    """How it is printed, a key of :data:`dossier.styles.STYLES`."""
    source: str
    """``claim``, ``type``, ``measured`` or ``computed``."""
    name: str = ""
    """Of the claim or the figure."""
    place: Place | None = None
    written: tuple[str, str] | None = None
    """Kind and unit in which somebody wrote it; None for what is computed."""

    @property
    def is_stated(self) -> bool:
        """Whether somebody stated or measured it; what is computed cannot be found out."""
        return self.source != "computed"


def written(label: str, quantity: Quantity, style: str = "") -> Number:
    """Take a value of the type's files."""
    own = (quantity.kind, quantity.unit)
    return Number(label, quantity.value, style or quantity.kind, "type", place=quantity.place, written=own)


def made(figure: Figure, source: str = "computed") -> Number:
    """Take a figure."""
    return Number(figure.label, figure.value, figure.style or figure.kind, source, figure.name)


class Numbers:
    """Looks numbers up by quantity; a published one goes before the type's own."""

    def __init__(self, compliance: Compliance, own: Mapping[str, Number], options: Sequence[str]) -> None:
        """Sort the claims.

        Args:
            compliance: holds the claims.
            own: the type's numbers by quantity, those of a battery by ``quantity.option``.
            options: names of the batteries.
        """
        self.own = own
        self.options = tuple(options)
        self.published: dict[str, Number] = {}
        self.again: list[tuple[str, Number]] = []
        """Further claims of a quantity that one was published of already, by key."""
        self.floors = frozenset(
            str(name) for name, claim in compliance.claims.items() if claim.relation == "at least"
        )
        """Claims that say no more than that it is so much at the least, by name."""
        for name, claim in compliance.claims.items():
            if claim.quantity is not None:
                key, number = self._key(claim), _claimed(name, claim)
                if self.published.setdefault(key, number) is not number:
                    self.again.append((key, number))

    def instead(self, key: str, number: Number) -> Numbers:
        """Return the same numbers with another claim of one quantity in the place of the first."""
        other = copy(self)
        other.published = {**self.published, key: number}
        return other

    def _key(self, claim: Claim) -> str:
        option = self._option(claim)
        return f"{claim.quantity}.{option}" if option else str(claim.quantity)

    def _option(self, claim: Claim) -> str:
        """The battery that a claim is about: named, or that of its figure, or the only one there is."""
        if claim.battery is not None:
            return str(claim.battery)
        behind = str(claim.figure or "").partition(".")[2].partition(".")[0]
        if behind in self.options:
            return behind
        return self.options[0] if len(self.options) == 1 and claim.quantity in OF_A_BATTERY else ""

    def __call__(self, quantity: str, option: str = "") -> Number | None:
        """Return a number, that of the battery first; None where nobody states or computes it."""
        keys = [f"{quantity}.{option}", quantity] if option else [quantity]
        found = [where[key] for where in (self.published, self.own) for key in keys if key in where]
        return found[0] if found else None

    def claim(self, quantity: str, option: str = "") -> Number | None:
        """Return a number only if it is published."""
        return self.published.get(f"{quantity}.{option}" if option else quantity)


OF_A_BATTERY = frozenset(
    {
        "energy",
        "usable_energy",
        "pack_mass",
        "pack_volume",
        "specific_energy",
        "full_voltage",
        "half_voltage",
        "empty_voltage",
        "highest_voltage",
        "charging_time",
        "cycle_life",
        "calendar_life",
        "endurance",
        "range",
        "height",
        "fuel_equivalent",
        "fuel_equivalent_mass",
    }
)


def _claimed(name: str, claim: Claim) -> Number:
    text = claim.text.replace("{value}", claim.value.text)
    style = PRINTED.get(str(claim.quantity), claim.value.kind)
    own = (claim.value.kind, claim.value.unit)
    return Number(text, claim.value.value, style, "claim", name, claim.place, own)
