"""What was changed after the weighing, by name: the weighed aircraft is carried on through it."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.compose.words import listed
from dossier.dossier import Dossier
from dossier.model.events import PackFitted


@dataclass(frozen=True)
class Changes:
    """What went out and what came in, each with its day where a day is told."""

    out: tuple[str, ...]
    into: tuple[str, ...]

    @property
    def words(self) -> str:
        """Say both, such as ``out tail skid (2026-04-18); in tail wheel (2026-04-18)``; else nothing."""
        parts = [("out", self.out), ("in", self.into)]
        return "; ".join(f"{word} {listed(names)}" for word, names in parts if names)


def since_weighing(dossier: Dossier) -> Changes:
    """Collect the equipment changes after the weighing, and the battery if another is in the bay."""
    state = dossier.state
    out = [f"{item.name} ({event.date})" for event in state.changes for item in event.removed]
    into = [f"{item.name} ({event.date})" for event in state.changes for item in event.fitted]
    weighed, now = _packs(state.packs_at_weighing), _packs(state.packs)
    return Changes(
        (*out, *(f"battery {pack}" for pack in weighed if pack not in now)),
        (*into, *(f"battery {pack} ({day})" for pack, day in now.items() if pack not in weighed)),
    )


def _packs(packs: tuple[PackFitted, ...]) -> dict[str, str]:
    return {str(pack.pack): str(pack.date) for pack in packs}
