"""Which requirement on weight stands on the cover: the one with the least room."""

from __future__ import annotations

from dossier import units
from dossier.compose.verdict_words import OPEN
from dossier.dossier import Dossier
from dossier.figures import Input
from dossier.judge.verdict import State, Verdict

EMPTY = ("empty_mass", "empty_mass.without_battery")


def governing(dossier: Dossier) -> Verdict | None:
    """Return the worst verdict on the empty mass, and among equals the one with the smallest margin.

    Where no rule limits the empty mass, the same is asked of every verdict on a mass.
    """
    on_mass = [
        verdict
        for verdict in dossier.verdicts
        if verdict.figure
        and verdict.verdict is not State.NOT_APPLICABLE
        and verdict.unit in units.KINDS["mass"].spellings
    ]
    on_empty_mass = [verdict for verdict in on_mass if is_of_empty_mass(dossier, verdict)]
    return min(on_empty_mass or on_mass, key=_rank, default=None)


def is_of_empty_mass(dossier: Dossier, verdict: Verdict) -> bool:
    """Whether a verdict is on the empty mass, or on what of it counts for the rule."""
    if verdict.figure in EMPTY:
        return True
    figure = dossier.figures.get(verdict.figure or "")
    mass = figure.working.inputs.get("m_E") if figure else None
    return isinstance(mass, Input) and mass.origin in EMPTY


def _rank(verdict: Verdict) -> tuple[int, float]:
    order = OPEN.index(verdict.verdict) if verdict.verdict in OPEN else len(OPEN)
    return order, (verdict.margin or 0.0) * units.scale("mass", verdict.unit)[0]
