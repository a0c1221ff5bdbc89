"""All claims held against one another and against the type's own numbers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import isfinite

from dossier.figures import OutsideRange
from dossier.findings import Finding, Severity, in_order
from dossier.judge import claim_special_questions as special
from dossier.judge.claim_numbers import Number, Numbers
from dossier.judge.claim_questions import BATTERY, WHOLE, YEAR, Question, simple, specific_energy
from dossier.judge.identity import Identity, Standing
from dossier.judge.identity_bands import BANDS
from dossier.judge.identity_words import SAYS
from dossier.model.compliance import Compliance

OF_THE_WHOLE = (
    special.wing,
    special.two_ratios,
    special.two_masses,
    special.level_speed,
    special.take_off_run,
    special.climb_of_disc,
    special.fuel_mass,
)
OF_A_BATTERY = (
    specific_energy,
    special.endurance,
    special.usable_energy,
    special.fuel_equivalent,
    special.fuel_mass,
    special.voltages,
    special.half_pack,
)
WITHOUT_NUMBER = frozenset({"touch_voltage", "series_count"})
"""Identities whose number that would be true is a count or a voltage of its own, not one of the target."""


@dataclass(frozen=True)
class HeldClaim:
    """How one number stands beside others. Numbers in SI."""

    identity: str
    says: str
    option: str
    """Battery; empty where it is about the whole aircraft."""
    target: Number
    others: tuple[Number, ...]
    standing: Standing | None
    """None: it could not be held."""
    implied: float | None = None
    """What is held against the band: claimed over computed, or what the numbers need."""
    would_be_true: float | None = None
    """None where the number is sound, or no number of its kind would be."""
    off_by: float | None = None
    """As a fraction of the number that would be true."""
    basis: str = ""
    """Of the band: ``read``, ``own``, ``memory``, ``exact`` or ``common practice``."""
    note: str = ""
    reason: str = ""
    """Why it could not be held."""


@dataclass(frozen=True)
class Register:
    """Everything that was held against something."""

    held: tuple[HeldClaim, ...]
    findings: tuple[Finding, ...]


def hold_claims(compliance: Compliance, own: Mapping[str, Number], options: Sequence[str]) -> Register:
    """Hold every claim that names its quantity, and the type's own numbers, against what they meet.

    Args:
        compliance: holds the claims.
        own: as :func:`dossier.judge.claim_facts.own_numbers` gives them.
        options: names of the batteries.
    """
    numbers = Numbers(compliance, own, options)
    held = [_held(question) for question in _questions(numbers)]
    for key, number in numbers.again:
        asked = (_held(question) for question in _questions(numbers.instead(key, number)))
        held += [one for one in asked if number in (one.target, *one.others)]
    held += _alone(numbers, held)
    impossible = (_finding(one) for one in held if one.standing is Standing.IMPOSSIBLE)
    return Register(tuple(held), in_order([*impossible, *_said_twice(numbers)]))


def _said_twice(numbers: Numbers) -> Iterator[Finding]:
    """Tell two published numbers of one quantity that are not the same."""
    for key, number in numbers.again:
        first = numbers.published[key]
        if number.value != first.value:
            yield Finding(
                "J018",
                f"the claims {first.name!r} and {number.name!r} publish two numbers of one quantity, {key}",
                "publish one, or say in their text and battery what sets them apart",
                number.place, Severity.WARNING,
            )  # fmt: skip


def _questions(numbers: Numbers) -> Iterator[Question]:
    for one in WHOLE:
        yield from simple(numbers, one)
    for ask in OF_THE_WHOLE:
        yield from ask(numbers)
    for option in numbers.options:
        for one in BATTERY:
            yield from simple(numbers, one, option)
        for ask_of in OF_A_BATTERY:
            yield from ask_of(numbers, option)


def _held(question: Question) -> HeldClaim:
    band = BANDS[question.name]
    blank = HeldClaim(
        question.name,
        SAYS[question.name],
        question.option,
        question.target,
        question.others,
        None,
        basis=band.basis,
        note=band.note,
    )
    try:
        return _standing(blank, question.ask())
    except OutsideRange as error:
        return replace(blank, reason=f"It cannot be held: {error}.")
    except ZeroDivisionError:
        return replace(blank, reason="It cannot be held: one of the numbers is 0.")


def _standing(blank: HeldClaim, found: Identity) -> HeldClaim:
    stands = replace(blank, standing=found.standing, implied=found.implied)
    if found.standing is Standing.SOUND or blank.identity in WITHOUT_NUMBER:
        return stands
    in_years = YEAR if blank.identity == "calendar_life" else 1.0
    off_by = found.off_by if isfinite(found.off_by) else None
    return replace(stands, would_be_true=found.would_be_true * in_years, off_by=off_by)


def _alone(numbers: Numbers, held: Sequence[HeldClaim]) -> Iterator[HeldClaim]:
    """Name every published number that met no other: silence would read as agreement."""
    met = {number.name for one in held for number in (one.target, *one.others) if number.source == "claim"}
    for number in (*numbers.published.values(), *(number for _, number in numbers.again)):
        if number.name not in met:
            yield HeldClaim(
                "",
                "No identity",
                "",
                number,
                (),
                None,
                reason="No other number of the record meets this claim.",
            )


def _finding(one: HeldClaim) -> Finding:
    claims = [number for number in (one.target, *one.others) if number.source == "claim"]
    names = ", ".join(repr(number.name) for number in claims) or "of the type's own files"
    place = next((number.place for number in (*claims, one.target) if number.place), None)
    return Finding(
        "J015",
        f"numbers that cannot all be true, {names}: {one.says[:1].lower()}{one.says[1:]}, and these do not",
        "correct the claim where it is published, or the number that it is held against",
        place,
        Severity.WARNING,
    )
