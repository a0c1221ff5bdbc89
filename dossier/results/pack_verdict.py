"""What the test of a battery says of it: every criterion held against its limit, and the worst of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from dossier.compute.log_energy import ZERO
from dossier.figures import Figure
from dossier.findings import Finding, Severity
from dossier.judge.decision import Limit as Bound
from dossier.judge.decision import decide
from dossier.model.aircraft import Limit
from dossier.model.battery import Acceptance
from dossier.quantities import COVERAGE_FACTOR
from dossier.results.battery_outcome import OF_DECISION, WORST_FIRST, Outcome
from dossier.results.logged_test import LoggedTest


@dataclass(frozen=True)
class Asked:
    """What tests are held against."""

    acceptance: Acceptance
    limits: Mapping[str, Limit]
    """Of aircraft.yaml."""
    coverage: float | None
    """The one-sided probability of the usual decision rule, none for simple acceptance."""
    fitted: frozenset[str] = frozenset()
    """Batteries that are in the aircraft now."""


@dataclass(frozen=True)
class CriterionHeld:
    """One value of a test against its limit."""

    name: str
    limit: Limit
    at_least: bool
    figure: Figure | None
    outcome: Outcome
    why: str = ""
    """Why nothing is shown, then."""


@dataclass(frozen=True)
class PackVerdict:
    """What one test says of one battery."""

    words: str
    """Battery and day."""
    pack: str
    rows: tuple[CriterionHeld, ...]
    figures: tuple[Figure, ...] = ()
    """In the order of their making."""

    @property
    def outcome(self) -> Outcome:
        """That of its worst criterion."""
        return next(one for one in WORST_FIRST if any(row.outcome is one for row in self.rows))

    @property
    def reason(self) -> str:
        """Name what keeps the battery from being accepted; empty where nothing does."""
        return "; ".join(_told(row) for row in self.rows if row.outcome is not Outcome.ACCEPTED)


def decided(figure: Figure, limit: Limit, coverage: float | None, *, at_least: bool) -> Outcome:
    """Hold a figure against a limit with the guard band of the decision rule (JCGM 106:2012, 8.3)."""
    bound = Bound(limit.value.value, ">=" if at_least else "<=")
    return OF_DECISION[decide(figure.value, figure.standard_uncertainty, bound, coverage).outcome]


def findings(judged: Sequence[tuple[PackVerdict, LoggedTest]], fitted: frozenset[str]) -> Iterator[Finding]:
    """Tell each battery that a test does not accept; a warning where it is fitted and the test is its
    latest."""
    latest = {verdict.pack: number for number, (verdict, _) in enumerate(judged)}
    for number, (verdict, one) in enumerate(judged):
        if verdict.outcome is Outcome.ACCEPTED:
            continue
        counts = verdict.pack in fitted and latest[verdict.pack] == number
        yield Finding(
            "L012",
            f"{verdict.words}, by its test: {verdict.outcome}; {verdict.reason}",
            "leave it out of the aircraft until a test accepts it"
            if counts
            else "keep it as the history of this battery",
            one.event.place_of_key("log"),
            Severity.WARNING if counts else Severity.NOTE,
        )


def _told(row: CriterionHeld) -> str:
    side = "at least" if row.at_least else "at most"
    found = f", {_measured(row.figure)} measured" if row.figure and not row.why else ""
    why = f", {row.why}" if row.why else ""
    return f"{row.name}, {side} {row.limit.value.text}{found}: {row.outcome}{why}"


def _measured(figure: Figure) -> str:
    """Print a value with its expanded uncertainty in the unit of its kind."""
    factor, offset, unit = {
        "ratio": (0.01, 0.0, "\u00a0%"),
        "voltage": (1e-3, 0.0, "\u00a0mV"),
        "temperature": (1.0, ZERO, "\u00a0°C"),
    }.get(figure.kind, (1.0, 0.0, ""))
    digits = 2 if figure.kind == "number" else 1
    value, spread = (figure.value - offset) / factor, COVERAGE_FACTOR * figure.standard_uncertainty / factor
    return f"{value:.{digits}f}{unit} ± {spread:.{digits}f}{unit}"
