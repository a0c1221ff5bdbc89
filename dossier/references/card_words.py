"""The few words of a card against the whole words of their step."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding
from dossier.model.aircraft import PLACEHOLDER
from dossier.model.procedure import CardWords, ProcedureStep
from dossier.project import Project
from dossier.references.names import placeholders

_TEXTS = ("do", "expect", "second_check")


def check(project: Project) -> Iterator[Finding]:
    """Check every step that has words for its card: they keep every limit, and are fewer."""
    for procedure in project.procedures.values():
        for section in procedure.sections:
            for step in section.steps:
                if step.on_card is not None:
                    yield from _limits(step, step.on_card, project)
                    yield from _fewer(step, step.on_card)


def _limits(step: ProcedureStep, words: CardWords, project: Project) -> Iterator[Finding]:
    whole: set[str] = set()
    short: set[str] = set()
    for name in _TEXTS:
        yield from placeholders(getattr(words, name), project)
        whole.update(PLACEHOLDER.findall(getattr(step, name) or ""))
        short.update(PLACEHOLDER.findall(getattr(words, name) or getattr(step, name) or ""))
    for limit in sorted(whole - short):
        yield Finding(
            "P041",
            f"the words for the card leave out the limit {limit!r}",
            f"write  {{{limit}}}  in them",
            words.place,
        )


def _fewer(step: ProcedureStep, words: CardWords) -> Iterator[Finding]:
    for name in _TEXTS:
        short, whole = getattr(words, name), getattr(step, name)
        if short is not None and len(short) >= len(whole or ""):
            wrong = (
                f"the words for the card are no fewer than {name} of the step"
                if whole
                else f"the step has no {name}"
            )
            yield Finding("P041", wrong, "write fewer words, or leave them out", words.place_of_key(name))
