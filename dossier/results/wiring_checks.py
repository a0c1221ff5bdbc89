"""One comparison of the wiring with a published table or a maker's rating: guidance, never approval."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

from dossier.findings import Finding, Place, Severity
from dossier.quantities import COVERAGE_FACTOR

HAIR = 1e-9
"""Relative: binary numbers do not hold 14 times 4.2 V exactly."""


class Standing(StrEnum):
    """How a value stands to its bound."""

    WITHIN = "within"
    OVER = "over"
    CLOSE = "too close to tell"
    """Within its expanded uncertainty, k = 2, of the bound."""
    NOT_COVERED = "not covered"
    """No table here reaches, or there is no value to hold against it."""
    NOT_STATED = "not stated"
    """The record does not give the rating."""


class Valued(Protocol):
    """A figure, an input or a quantity of the record."""

    @property
    def value(self) -> float:
        """In SI."""

    @property
    def standard_uncertainty(self) -> float:
        """In SI."""


@dataclass(frozen=True)
class Check:
    """One comparison. Value and bound in the unit of ``kind``; None where there is none."""

    subject: str
    """The name of the conductor, fuse or plug."""
    question: str
    value: Valued | None
    bound: float | None
    at_least: bool
    """True if the value must reach the bound, such as a rating; else it must not pass it."""
    kind: str
    """A key of :data:`dossier.units.KINDS`."""
    standing: Standing
    basis: str
    """The table or the maker's rating, named."""
    words: str = ""
    """What a reader must know beside it."""
    finding: Finding | None = None


def standing(value: Valued | None, bound: float | None, *, at_least: bool = False) -> Standing:
    """Hold a value against a bound, with its doubt; where one is missing nothing is covered."""
    if value is None or bound is None:
        return Standing.NOT_COVERED
    doubt = COVERAGE_FACTOR * value.standard_uncertainty
    room = (value.value - bound if at_least else bound - value.value) + HAIR * abs(bound)
    return Standing.WITHIN if room >= doubt else Standing.OVER if room < -doubt else Standing.CLOSE


@dataclass(frozen=True)
class Told:
    """How a bad standing is told."""

    code: str
    fault: str
    remedy: str
    place: Place | None
    severity: Severity = Severity.WARNING


def told(how: Standing, over: Told, missing: Told | None = None) -> Finding | None:
    """Make the finding of a standing: none within, a note where it is too close, else as given.

    Args:
        how: the standing.
        over: for a value that passes its bound.
        missing: for a rating that is not stated, or a table that does not reach; nothing if left out.
    """
    if how is Standing.WITHIN:
        return None
    if how is Standing.OVER:
        return Finding(over.code, over.fault, over.remedy, over.place, over.severity)
    if how is Standing.CLOSE:
        fault = f"{over.fault}, or just not: the uncertainty decides"
        return Finding(over.code, fault, over.remedy, over.place, Severity.NOTE)
    if missing is None:
        return None
    return Finding(missing.code, missing.fault, missing.remedy, missing.place, missing.severity)


def joined(*words: str) -> str:
    """Make sentences of remarks; empty ones are left out."""
    return ". ".join(word[:1].upper() + word[1:] for word in words if word)
