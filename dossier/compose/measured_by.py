"""Which measurement a verdict rests on: its day, its configuration, its mass."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.compose.changes import since_weighing
from dossier.compose.printer import Printer
from dossier.figures import Figure, Input
from dossier.judge.verdict import Verdict
from dossier.replay import Measured

NOT_COMPARED = "The tool does not compare its configuration with the one that the rule asks for"


def words(at: Printer, verdict: Verdict) -> str:
    """Say it in one cell; empty for what was not measured."""
    figure = at.dossier.figures.get(verdict.figure or "")
    if figure is None:
        return ""
    measured = at.dossier.state.measured.get(figure.name)
    if measured:
        return _flight_test(at, measured, figure)
    weighed = at.dossier.weighing.mass.name if at.dossier.weighing else ""
    return _weighing(at) if weighed in _roots(figure) else ""


def _flight_test(at: Printer, measured: Measured, figure: Figure) -> str:
    result = measured.result
    mass = f", at {at.quantity(result.at_mass)}" if result.at_mass else ", at a mass that is not recorded"
    limit = figure.working.inputs.get("m")
    scaled = _scaled(at, result.at_mass.value if result.at_mass else None, limit)
    how = str(result.configuration).rstrip(".")
    return f"Flight test of {measured.test.date.isoformat()}: {how}{mass}{scaled}. {NOT_COMPARED}."


def _scaled(at: Printer, flown: float | None, limit: object) -> str:
    """Say to which mass a speed was scaled; nothing where it was flown at that mass."""
    if not isinstance(limit, Input):
        return ""
    printed = at.value(limit.value, "mass")
    return "" if flown is not None and at.value(flown, "mass") == printed else f", scaled to {printed}"


def _weighing(at: Printer) -> str:
    event = at.dossier.state.weighing
    changes = since_weighing(at.dossier).words
    carried = f"; carried on by what was changed since: {changes}" if changes else ""
    return f"Weighing of {event.date.isoformat()}{carried}" if event else ""


def _roots(figure: Figure) -> Iterator[str]:
    yield figure.name
    for one in figure.working.inputs.values():
        for item in (one,) if isinstance(one, Input) else one:
            if item.figure:
                yield from _roots(item.figure)
