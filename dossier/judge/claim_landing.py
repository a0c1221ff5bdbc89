"""Claims of endurance and range where a limit at which to land comes before the reserve: they are held
against what is left down to that limit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from dossier.figures import Figure
from dossier.judge.claim_result import ClaimResult
from dossier.judge.words import short, unit_behind

ENDURANCES = ("endurance", "endurance_modelled")
MINUTE = 60.0


class LandsEarly(Protocol):
    """A limit at which to land, on the gauge card of one battery."""

    @property
    def option(self) -> str:
        """Of the battery."""
        ...

    @property
    def early(self) -> float:
        """Level flight in s that the endurance counts below the limit, with the heaviest pilot."""
        ...

    @property
    def comes_early(self) -> bool:
        """Whether that is worth a word."""
        ...

    @property
    def words(self) -> str:
        """The limit as the record names it, with its value."""
        ...


@dataclass(frozen=True)
class Early:
    """What a figure counts below the tightest limit at which to land."""

    kept: float
    """Part of the figure that is flown down to the limit."""
    minutes: float
    """Level flight below it, with the heaviest pilot."""
    limit: str


def below_limit(figure: Figure, figures: Mapping[str, Figure], landing: Sequence[LandsEarly]) -> Early | None:
    """Find how much of an endurance or a range lies below a limit at which to land; None where nothing does.

    Endurance and range spend the same energy of the cruise, so the same part of both lies below the limit. Of
    a lighter pilot's it is a little less, since more is left for the cruise: what is found here is strict.

    Args:
        figure: what a claim is held against.
        figures: the computed figures by name.
        landing: the limits on the gauge cards.
    """
    quantity, _, behind = figure.name.partition(".")
    option = behind.partition(".")[0]
    if quantity not in (*ENDURANCES, "range"):
        return None
    whole = figures.get(f"{quantity if quantity in ENDURANCES else 'endurance'}.{option}")
    early = [one for one in landing if one.option == option and one.comes_early]
    if whole is None or not early:
        return None
    first = max(early, key=lambda one: one.early)
    return Early(max(0.0, 1 - first.early / whole.value), first.early / MINUTE, first.words)


def strictly(held: ClaimResult, to_reserve: ClaimResult, early: Early) -> ClaimResult:
    """Say beside the result what lies below the limit, and what the result would be with it.

    Args:
        held: the claim held against what is left down to the limit.
        to_reserve: the same claim held against the whole figure.
        early: what lies below.
    """
    if to_reserve.value is None or held.value is None:
        return held
    whole = unit_behind(f"{to_reserve.value:.1f}", held.unit)
    would = f"would be {to_reserve.result}{' as well' if to_reserve.result is held.result else ''}"
    return replace(
        held,
        below_landing_limit=to_reserve.value - held.value,
        reason=f"Held down to the limit at which to land ({early.limit}): {_small(held.reason)} Of the "
        f"{whole} down to the reserve, {short(early.minutes)} min of level flight with the heaviest pilot "
        f"lie below that limit and are not counted; with them the claim {would}.",
    )


def _small(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]
