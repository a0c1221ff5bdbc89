"""Steps of the assembly in words: the second check of a critical one, which way controls go, how long it
takes."""

from __future__ import annotations

from dossier.compose.operating.expected_time import minutes
from dossier.compose.words import sentence
from dossier.model.assembly import AssemblyStep
from dossier.model.movement import movement_words
from dossier.model.record import AssemblyEntry
from dossier.results.assembly import StageRecord


def critical_words(step: AssemblyStep | None, entry: AssemblyEntry | None) -> list[str]:
    """Say that a step is critical, what the second check is, and what it saw."""
    if step is None:
        return []
    parts = ["Critical"] if step.critical else []
    parts += [f"Expected time: {step.time.text}"] if step.time else []
    if step.second_check:
        parts.append(f"Second check, by the {step.checked_by}: {step.second_check}")
    if entry and entry.seen:
        parts.append(f"Seen: {'; '.join(movement_words(one) for one in entry.seen)}")
    return parts


def expected_time(stage: StageRecord) -> str:
    """Sum up how long the steps of a stage are expected to last; empty if none says so."""
    steps = [record.step for record in stage.steps if record.step]
    times = [step.time for step in steps if step.time]
    if not times:
        return ""
    total = minutes(sum(time.value for time in times))
    of = "" if len(times) == len(steps) else f", for the {len(times)} of {len(steps)} steps that state a time"
    return sentence(f"expected: about {total}{of}")
