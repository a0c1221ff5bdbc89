"""How a claim stands."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from dossier.findings import Place


class Support(StrEnum):
    """How a claim stands."""

    SUPPORTED = "supported"
    NOT_SUPPORTED = "not supported"
    """The figure does not show it, and does not show the contrary."""
    CONTRADICTED = "contradicted"
    NOT_SHOWN = "not shown"


@dataclass(frozen=True)
class ClaimResult:
    """What is said of one claim. Numbers stand in the unit of the claim, unrounded."""

    claim: str
    """Its name in ``compliance.yaml``."""
    text: str
    """As it stands in public, with the value in it."""
    where: str
    relation: str
    """``at least``, ``at most`` or ``about``."""
    claimed: float
    unit: str
    result: Support = Support.NOT_SHOWN
    reason: str = ""
    """One plain sentence."""
    figure: str | None = None
    value: float | None = None
    standard_uncertainty: float | None = None
    guard_band: float | None = None
    off_by: float | None = None
    """The figure less the claim."""
    would_be_true: float | None = None
    """The boldest number that the figure supports in the same relation; for ``about`` the figure itself."""
    tolerance: float | None = None
    """For ``about``: how far off is still about, as a fraction of the claim."""
    below_landing_limit: float | None = None
    """What the figure counts below a limit at which to land, and ``value`` leaves out."""
    least: float | None = None
    """Where published models leave a range: its lower end."""
    most: float | None = None
    """Its upper end; none where the most lenient model has no end."""
    place: Place | None = None
