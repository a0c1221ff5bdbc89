"""What two published numbers say of a third, and how it then stands: the frame of the claim identities."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from math import inf, isfinite

from dossier.figures import OutsideRange
from dossier.judge.identity_bands import BANDS, Band


class Standing(StrEnum):
    """How a claim stands beside the others."""

    SOUND = "sound"
    DOUBTFUL = "doubtful"
    """Possible, and unusual: ask for the measurement."""
    IMPOSSIBLE = "impossible"
    """The numbers cannot all be true."""


@dataclass(frozen=True)
class Identity:
    """One claim held against others by a formula. Numbers in SI."""

    name: str
    """A key of :data:`dossier.judge.identity_bands.BANDS`."""
    standing: Standing
    claimed: float
    would_be_true: float
    """What the other claims leave: the number that follows from them, or the nearest that is sound."""
    implied: float
    """What is held against the band: claimed over computed, or what the claims need, an efficiency say."""
    band: Band

    @property
    def off_by(self) -> float:
        """How far the claim is from the number that would be true, as a fraction of that."""
        return self.claimed / self.would_be_true - 1 if self.would_be_true else inf


def stand(implied: float, band: Band) -> Standing:
    """Hold a number against a band; its ends count as inside."""
    for standing, (low, high) in ((Standing.SOUND, band.sound), (Standing.DOUBTFUL, band.possible)):
        if low <= implied <= high:
            return standing
    return Standing.IMPOSSIBLE


def compared(name: str, claimed: float, computed: float) -> Identity:
    """Hold a claim against the number that follows from the others.

    Raises:
        OutsideRange: one of them is not a positive number.
    """
    ratio = _positive(name, claimed) / _positive(name, computed)
    return Identity(name, stand(ratio, BANDS[name]), claimed, computed, ratio, BANDS[name])


def needing(name: str, claimed: float, needed: float, truth: Callable[[float], float]) -> Identity:
    """Hold what a claim needs, such as an efficiency, against what there is.

    Args:
        name: a key of the bands.
        claimed: the claim.
        needed: what it needs.
        truth: the claim that would need just this; asked for the nearest end of what is sound.

    Raises:
        OutsideRange: the claim or what it needs is not a positive number.
    """
    band = BANDS[name]
    standing = stand(_positive(name, needed), band)
    low, high = band.sound
    end = low if needed < low else high
    true = claimed if standing is Standing.SOUND else truth(end)
    return Identity(name, standing, _positive(name, claimed), true, needed, band)


def _positive(name: str, value: float) -> float:
    if not (isfinite(value) and value > 0):
        raise OutsideRange(f"the identity {name!r} needs positive numbers, and meets {value:.6g}")
    return value
