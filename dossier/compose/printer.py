"""How one page of one dossier prints values and links: in the reader's units, each figure with its sheet."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from dossier import display, units
from dossier.compose import links
from dossier.compose.contributors import mostly_from, taken_as_exact
from dossier.compose.working.topics import sheet_addresses
from dossier.display import show, show_figure, show_uncertain, with_doubt
from dossier.dossier import Dossier
from dossier.figures import Figure
from dossier.quantities import COVERAGE_FACTOR, Quantity
from dossier.styles import STYLES


@dataclass(frozen=True)
class Printed:
    """A figure as it stands on a page. All ready strings."""

    label: str
    first: str
    other: str
    """The other system; empty where both use the same unit."""
    uncertainty: str
    """Such as ``± 0.42 kg (k = 2)``; empty where there is none."""
    sheet: str
    """The link to the working sheet."""
    causes: str = ""
    """On a card: what the uncertainty mostly comes from."""
    exact: str = ""
    """On a card: what went in without an uncertainty."""

    def __str__(self) -> str:
        """All in one line."""
        both = f"{self.first} ({self.other})" if self.other else self.first
        return with_doubt(both, self.uncertainty)


@dataclass(frozen=True)
class Printer:
    """Prints for one page."""

    dossier: Dossier
    page: str
    """The path of the page, from which links lead on."""

    @cached_property
    def _sheets(self) -> dict[str, str]:
        return sheet_addresses(self.dossier)

    def to(self, target: str) -> str:
        """Link to an address from the root of the packet."""
        return links.relative(target, self.page)

    def figure(self, figure: Figure, label: str = "") -> Printed:
        """Print a figure, under its own name or a shorter one."""
        shown = show_figure(figure, self.dossier.preference, self.dossier.sampled.get(figure.name))
        return Printed(
            label or figure.label, shown.first, shown.other, shown.uncertainty, self.sheet(figure.name)
        )

    def card(self, figure: Figure, label: str = "") -> Printed:
        """Print a headline figure, with what its uncertainty comes from and what it takes as exact."""
        printed = self.figure(figure, label)
        causes = mostly_from(figure)
        if not printed.uncertainty.startswith("±"):  # an interval of draws stands there, and no ±
            causes = causes.removeprefix("± ")
            causes = causes[:1].upper() + causes[1:]
        return replace(printed, causes=causes, exact=taken_as_exact(figure))

    def reach(self, figure: Figure) -> tuple[float, float]:
        """Return in SI how far what is printed as its uncertainty reaches below and above the value."""
        sampled = self.dossier.sampled.get(figure.name)
        if sampled is None or sampled.first_order_holds or sampled.quantiles is None:
            return (COVERAGE_FACTOR * figure.standard_uncertainty,) * 2
        low, _, high = sampled.quantiles
        return max(0.0, figure.value - low), max(0.0, high - figure.value)

    def sheet(self, name: str) -> str:
        """Link to the working sheet of a figure."""
        return self.to(self._sheets[name])

    def value(self, value: float, style: str) -> str:
        """Print an SI value in both systems."""
        return str(show(value, style, self.dossier.preference))

    def first(self, value: float, style: str) -> str:
        """Print an SI value in the reader's own system alone, where a column has no room for both."""
        return show(value, style, self.dossier.preference).first

    def quantity(self, quantity: Quantity, style: str = "") -> str:
        """Print a quantity of the record in both systems, with its uncertainty."""
        shown = show_uncertain(
            quantity.value, quantity.standard_uncertainty, style or quantity.kind, self.dossier.preference
        )
        return f"{shown} {shown.uncertainty}".rstrip()

    def beside(self, value: float, limit: float, style: str, standard_uncertainty: float = 0.0) -> str:
        """Print an SI value in the reader's system so that it stands on its own side of a limit."""
        unit, decimals = self.unit(style)
        factor, offset = units.scale(STYLES[style].kind, unit)
        if standard_uncertainty:
            decimals = display.decimals_for(COVERAGE_FACTOR * standard_uncertainty / factor)
        return display.show_beside((value - offset) / factor, (limit - offset) / factor, unit, decimals)[0]

    def unit(self, style: str) -> tuple[str, int]:
        """Return the reader's unit of a style and its decimals."""
        chosen = STYLES[style]
        if style == "speed":
            return self.dossier.preference.airspeed, 1
        return (
            (chosen.us, chosen.us_decimals)
            if self.dossier.preference.us_first
            else (chosen.si, chosen.si_decimals)
        )

    def in_unit(self, value: float, style: str) -> float:
        """Convert an SI value to the reader's unit, for the axis of a plot."""
        factor, offset = units.scale(STYLES[style].kind, self.unit(style)[0])
        return (value - offset) / factor


def expanded(standard_uncertainty: float, unit: str) -> str:
    """Print an expanded uncertainty, k = 2, that already stands in ``unit``; empty for none."""
    if not standard_uncertainty:
        return ""
    spread = COVERAGE_FACTOR * standard_uncertainty
    return (
        f"± {display.rounded(spread, display.decimals_for(spread))}\u00a0{unit}".rstrip("\u00a0") + " (k = 2)"
    )
