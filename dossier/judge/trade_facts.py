"""Holds rules of thumb against the numbers of one serial, and against what the formulas make of them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

from dossier.judge.trade_rules import TRADE_RULES, Range, TradeRule


class Agreement(StrEnum):
    """How a number stands beside a rule of thumb."""

    INSIDE = "inside its band"
    OUTSIDE = "outside its band"
    ACROSS = "across an end of its band"
    """It is a range, of which a part bears the rule out."""
    NOT_HELD = "not held"
    """The record has no number for it."""


class OwnNumber(Protocol):
    """What a record gives for a rule, in SI; with ``missing`` it gives nothing, and that says why."""

    @property
    def key(self) -> str:
        """Of the rule."""
        ...

    @property
    def low(self) -> float:
        """One end, or the number itself."""
        ...

    @property
    def high(self) -> float:
        """The other end, or the number itself."""
        ...

    @property
    def words(self) -> str:
        """What the number is."""
        ...

    @property
    def figure(self) -> str:
        """The figure that it is, or mostly rests on."""
        ...

    @property
    def missing(self) -> str:
        """Why there is none."""
        ...


@dataclass(frozen=True)
class HeldRule:
    """One rule, held."""

    rule: TradeRule
    formula: Range
    by_formula: Agreement
    own: OwnNumber
    result: Agreement
    """Of the serial's own number."""

    @property
    def off_by(self) -> float | None:
        """How far a single number of the serial is from a single one that is said, as a fraction of that."""
        (low, high), own = self.rule.said, self.own
        if self.result is Agreement.NOT_HELD or low != high or own.low != own.high:
            return None
        return own.low / low - 1


def hold_trade_rules(own: Iterable[OwnNumber]) -> tuple[HeldRule, ...]:
    """Hold every rule.

    Args:
        own: the numbers of the serial; each rule has one, if only with what is missing.
    """
    numbers = {one.key: one for one in own}
    return tuple(_held(rule, numbers[rule.key]) for rule in TRADE_RULES)


def _held(rule: TradeRule, own: OwnNumber) -> HeldRule:
    formula = rule.formula()
    result = Agreement.NOT_HELD if own.missing else agreement((own.low, own.high), rule.band)
    return HeldRule(rule, formula, agreement(formula, rule.band), own, result)


def agreement(found: Range, band: Range) -> Agreement:
    """Say whether a range lies in a band, beside it, or across one of its ends; ends count as inside."""
    if band[0] <= found[0] and found[1] <= band[1]:
        return Agreement.INSIDE
    return Agreement.OUTSIDE if found[1] < band[0] or found[0] > band[1] else Agreement.ACROSS
