"""A serial in a few lines of text, the worst first."""

from __future__ import annotations

from collections import Counter

from dossier.display import show_figure
from dossier.dossier import Dossier
from dossier.findings import Severity
from dossier.judge.verdict import State, Verdict

WORST_FIRST = (State.DOES_NOT_CONFORM, State.INCONCLUSIVE, State.NOT_SHOWN, State.CONFORMS, State.NOT_APPLICABLE)
PLURAL = {State.CONFORMS: "conform", State.DOES_NOT_CONFORM: "do not conform"}
OPEN = WORST_FIRST[:3]


def is_open(dossier: Dossier) -> bool:
    """Whether a requirement does not conform, is inconclusive or is not shown."""
    return any(verdict.verdict in OPEN for verdict in dossier.verdicts)


def worst_first(verdicts: tuple[Verdict, ...]) -> list[Verdict]:
    """Order verdicts with what does not conform at the top."""
    return sorted(verdicts, key=lambda verdict: WORST_FIRST.index(verdict.verdict))


def counts(dossier: Dossier) -> str:
    """Count the verdicts in words, the worst first, such as ``1 inconclusive, 7 conform``."""
    found = Counter(verdict.verdict for verdict in dossier.verdicts)
    return ", ".join(f"{found[state]} {state.value if found[state] == 1 else PLURAL.get(state, state.value)}" for state in WORST_FIRST if found[state])


def summary(dossier: Dossier) -> str:
    """Say how a serial stands: one line, then a line for each requirement that is open."""
    mass = dossier.figures.get("empty_mass")
    shown = show_figure(mass, dossier.preference) if mass else None
    weight = f"empty {shown.first} {shown.uncertainty}".rstrip() if shown else "not weighed"
    warnings = sum(finding.severity is Severity.WARNING for finding in dossier.findings)
    head = f"{dossier.record.serial_number} as of {dossier.state.as_of}: {weight}; {counts(dossier)}"
    if warnings:
        head += f"; {warnings} warning{'s' if warnings != 1 else ''}"
    lines = [f"  {verdict.verdict.value}: {verdict.requirement}: {verdict.reason}" for verdict in worst_first(dossier.verdicts) if verdict.verdict in OPEN]
    return "\n".join([head.replace("\u00a0", " "), *lines])
