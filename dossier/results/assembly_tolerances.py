"""A measured value of the assembly against its tolerance: judged with its uncertainty, as every other is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from dossier import units
from dossier.display import as_written
from dossier.judge.decision import Limit, decide
from dossier.model.assembly import AssemblyStep, Tolerance
from dossier.model.record import AssemblyEntry
from dossier.quantities import Quantity
from dossier.results.assembly_cures import NO_RUNS, LoggedCure, Runs, in_unit_of, logged_cure

CONFORMS, FAILS, INCONCLUSIVE = "conforms", "does not conform", "inconclusive"


@dataclass(frozen=True)
class Held:
    """One value held against one limit."""

    outcome: str
    """``conforms``, ``does not conform`` or ``inconclusive``."""
    words: str
    is_measured: bool
    """True for the measured value of the step, False for a value of its cure log."""


def held(
    step: AssemblyStep, entry: AssemblyEntry, coverage: float | None, runs: Runs = NO_RUNS
) -> Iterator[Held]:
    """Hold every value of an entry against the limits of its step.

    The limits of a drawing are exact; the measurement is uncertain (JCGM 106:2012, 8.3). Each of two limits
    has its own guard band. Where the log of a cure is a file, its own figures are held, not the stated ones.

    Args:
        step: with its tolerance and its cure.
        entry: with the values as measured.
        coverage: the one-sided probability of the usual rule, none for simple acceptance.
        runs: the logs of cures as read.
    """
    required, measured = step.required, entry.measured
    if required and measured:
        uncertainty = measured.standard_uncertainty or usual_uncertainty(required)
        for limit, relation in ((required.minimum, ">="), (required.maximum, "<=")):
            if limit is not None and limit.kind == measured.kind:
                yield _held(measured, uncertainty, (limit, relation), coverage, "measured")
    due, log, logged = step.cure, entry.cure, logged_cure(step.cure, entry, runs)
    if logged:
        yield from _held_of_log(logged, coverage)
    elif due and log:
        for value, limit, relation, verb in (
            (log.time, due.time, ">=", "cured for"),
            (log.lowest, due.lowest, ">=", "cured at"),
            (log.highest, due.highest, "<=", "cured at"),
        ):
            yield _held(value, value.standard_uncertainty, (limit, relation), coverage, verb)


def usual_uncertainty(required: Tolerance) -> float:
    """Return the standard uncertainty of the prescribed means, in the SI unit; zero if none is stated.

    An interval of temperature is no temperature: only the factor of its unit counts.
    """
    within = required.measured_within
    return within.as_written * units.scale(within.kind, within.unit)[0] / 2 if within else 0.0


def _held_of_log(cure: LoggedCure, coverage: float | None) -> Iterator[Held]:
    due, found, own = cure.due, cure.figures, cure.temperature_uncertainty
    words = f"its log has {in_unit_of(due.time, found.time)} at {due.lowest.text} or above"
    yield _judged(found.time, cure.time_uncertainty, (due.time, ">="), coverage, words)
    words = f"its log reaches {in_unit_of(due.highest, found.highest)}"
    yield _judged(found.highest, own, (due.highest, "<="), coverage, words)
    if due.heating:
        # an error of the thermometer is the same at both ends of a rise and falls out of it
        words = f"its log rises by {in_unit_of(due.heating, found.heating)}"
        yield _judged(found.heating, 0.0, (due.heating, "<="), coverage, words)


def _held(
    value: Quantity, uncertainty: float, limit: tuple[Quantity, str], coverage: float | None, verb: str
) -> Held:
    found = f"{as_written(value)} measured" if verb == "measured" else f"{verb} {as_written(value)}"
    return _judged(value.value, uncertainty, limit, coverage, found)


def _judged(
    value: float, uncertainty: float, limit: tuple[Quantity, str], coverage: float | None, found: str
) -> Held:
    due, relation = limit
    decision = decide(value, uncertainty, Limit(due.value, relation), coverage)
    wanted = "at least" if relation == ">=" else "at most"
    words = f"{found}, and {wanted} {as_written(due)} is required"
    if decision.outcome == INCONCLUSIVE:
        provable = _on_the_safe_side(due, decision.acceptance_limit, relation)
        words += f"; within its uncertainty neither is shown, and {wanted} {provable} would be proof"
    return Held(decision.outcome, words, is_measured=found.endswith(" measured"))


def _on_the_safe_side(due: Quantity, value: float, relation: str) -> str:
    """Write a value in the unit of the limit with four digits, rounded away from the limit."""
    factor, offset = units.scale(due.kind, due.unit)
    number = (value - offset) / factor
    step = 10.0 ** (math.floor(math.log10(abs(number))) - 3) if number else 1.0
    rounded = (math.floor if relation == "<=" else math.ceil)(number / step) * step
    return f"{rounded:.4g} {due.unit}".rstrip()
