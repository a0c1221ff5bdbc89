"""A serial in a few lines of text, the worst first."""

from __future__ import annotations

from collections import Counter

from dossier.compose import links
from dossier.compose.open_items import open_items
from dossier.display import show_figure, with_doubt
from dossier.dossier import Dossier
from dossier.findings import Severity
from dossier.judge.verdict import State, Verdict

WORST_FIRST = (
    State.DOES_NOT_CONFORM,
    State.INCONCLUSIVE,
    State.NOT_SHOWN,
    State.CONFORMS,
    State.NOT_APPLICABLE,
)
PLURAL = {State.CONFORMS: "conform", State.DOES_NOT_CONFORM: "do not conform"}
OPEN = WORST_FIRST[:3]


def is_open(dossier: Dossier) -> bool:
    """Whether something keeps the serial from delivery: a requirement that is not met or not shown, the
    assembly, a list that is wrong.

    A claim does not count: it is corrected where it is published, and the aircraft is none the worse.
    What is overdue or was left open by an inspection does not count either: it is for whoever keeps and
    flies the aircraft.
    """
    wrong_list = any(
        fault.is_of_safety for report in dossier.procedures if report.own for fault in report.faults
    )
    return (
        wrong_list
        or bool(dossier.assembly.blocks)
        or any(verdict.verdict in OPEN for verdict in dossier.verdicts)
    )


def worst_first(verdicts: tuple[Verdict, ...]) -> list[Verdict]:
    """Order verdicts with what does not conform at the top."""
    return sorted(verdicts, key=lambda verdict: WORST_FIRST.index(verdict.verdict))


def counts(dossier: Dossier) -> str:
    """Count the verdicts in words, the worst first, such as ``1 inconclusive, 7 conform``."""
    found = Counter(verdict.verdict for verdict in dossier.verdicts)
    return ", ".join(
        f"{found[state]} {state.value if found[state] == 1 else PLURAL.get(state, state.value)}"
        for state in WORST_FIRST
        if found[state]
    )


def summary(dossier: Dossier) -> str:
    """Say how a serial stands: one line, then a line for each requirement, work and other point
    that is open."""
    warnings = sum(finding.severity is Severity.WARNING for finding in dossier.findings)
    told = f"{warnings} warning{'s' if warnings != 1 else ''}" if warnings else ""
    parts = [part for part in (_weight(dossier), counts(dossier), told) if part]
    head = f"{dossier.record.serial_number} as of {dossier.state.as_of}: {'; '.join(parts)}"
    lines = [
        f"  {verdict.verdict.value}: {verdict.requirement}: {verdict.reason}"
        for verdict in worst_first(dossier.verdicts)
        if verdict.verdict in OPEN
    ]
    return "\n".join([head.replace("\u00a0", " "), *lines, *blocks(dossier), *others(dossier)])


def blocks(dossier: Dossier) -> list[str]:
    """List what keeps a serial from delivery; one that was handed over with it is told as such."""
    handover = dossier.state.handover
    words = f"handed over on {handover.date} with this open" if handover else "not ready for delivery"
    return [
        f"  {words}: {block.subject}: {block.state}" + (f", {block.reason}" if block.reason else "")
        for block in dossier.assembly.blocks
    ]


def others(dossier: Dossier) -> list[str]:
    """List what else the cover names as open: inspections, what is overdue, claims. None of it
    makes :func:`is_open` true."""
    elsewhere = (links.CONFORMITY, f"{links.ASSEMBLY}#open-work")
    return [
        f"  {item.state}: {item.subject}: {item.reason}".replace("\u00a0", " ")
        for item in open_items(dossier)
        if not item.address.startswith(elsewhere)
    ]


def _weight(dossier: Dossier) -> str:
    """The empty mass with the battery that is in the bay, else without one."""
    for name, words in (("empty_mass", "empty"), ("empty_mass.without_battery", "empty, without battery,")):
        if name in dossier.figures:
            shown = show_figure(dossier.figures[name], dossier.preference, dossier.sampled.get(name))
            return f"{words} {with_doubt(shown.first, shown.uncertainty)}"
    return "not weighed"
