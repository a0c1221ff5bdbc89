"""Words that were right and ask for less now, or for the wrong thing: the acts stay as they are."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence

from dossier.model.aircraft import OF_A_LIST, PLACEHOLDER
from dossier.model.procedure import ProcedureStep
from dossier.procedures.listing import Step
from dossier.procedures.system import System

_TURNED = {
    "up": "down",
    "down": "up",
    "raises": "lowers",
    "rise": "sink",
    "flush": "open",
    "left": "right",
    "right": "left",
}
_GOES = re.compile(
    r"\b(?:up|down|raises|rise|flush)\b|(?<=rudder )(?:left|right)\b|(?<=to the )(?:left|right)\b"
    r"|(?<=wheel )(?:left|right)\b"
)
_FIRM = re.compile(r"^(?:Pull|Press|Push|Hold|Measure|Read|Try|Lift|Shake)\b(?: at)?")
_FIRM_SECOND = re.compile(
    r"\b(?:pulls|pushes|presses|lifts|moves|feels|touches)\b(?: at| on)?"
    r"|^(?:Pulls?|Pushe?s?|Lifts?|Presses)\b(?: at| on)?"
)
_TEXTS = ("do", "expect", "second_check")


def weakened(step: Step, system: System) -> Iterator[tuple[str, ProcedureStep]]:
    """Make each mutant of one step.

    Args:
        step: of a good list.
        system: the variant.
    """
    written = step.written
    yield from _reversed(step, system)
    yield from _other_limit(written, system)
    if written.if_not is not None:
        yield "if_not deleted", written.model_copy(update={"if_not": None})
    if written.critical:
        yield "critical deleted", written.model_copy(update={"critical": False})
    for key in ("tool", "picture"):
        if getattr(written, key) is not None:
            yield f"{key} deleted", written.model_copy(update={key: None})
    if _FIRM.search(str(written.do)):
        yield "verb weakened", written.model_copy(update={"do": _FIRM.sub("Look at", str(written.do))})
    if written.second_check and _FIRM_SECOND.search(str(written.second_check)):
        weaker = _FIRM_SECOND.sub("is near", str(written.second_check))
        yield "verb weakened", written.model_copy(update={"second_check": weaker})


def _reversed(step: Step, system: System) -> Iterator[tuple[str, ProcedureStep]]:
    """Turn one word of direction round, in one of the texts that tell how a control goes."""
    known = {**system.connections, **system.checks}
    if not any(
        doing.name in known and known[doing.name].ways and doing.verb in ("sense", "check")
        for doing in step.doings
    ):
        return
    for changed in _in_texts(step.written, _expectations, _turned):
        yield "direction reversed", changed


def _turned(text: str) -> Iterator[str]:
    for found in _GOES.finditer(text):
        yield text[: found.start()] + _TURNED[found[0]] + text[found.end() :]


def _expectations(key: str) -> bool:
    return key in ("expect", "second_check")


def _in_texts(
    written: ProcedureStep, wanted: Callable[[str], bool], change: Callable[[str], Iterator[str]]
) -> Iterator[ProcedureStep]:
    for key in filter(wanted, _TEXTS):
        for text in change(str(getattr(written, key) or "")):
            yield written.model_copy(update={key: text})
        card = written.on_card
        for text in change(str(getattr(card, key) or "")) if card else ():
            assert card is not None
            yield written.model_copy(update={"on_card": card.model_copy(update={key: text})})


def _other_limit(written: ProcedureStep, system: System) -> Iterator[tuple[str, ProcedureStep]]:
    """Exchange a limit for the next one of its kind, and for the next of another kind, on page and card."""
    limits = system.aircraft.limits
    used = dict.fromkeys(
        name for key in _TEXTS for name in PLACEHOLDER.findall(str(getattr(written, key) or ""))
    )
    for name in (one for one in used if not one.startswith(OF_A_LIST)):
        kind = limits[name].value.kind
        for words, others in (
            ("limit of the same kind", [one for one in limits if limits[one].value.kind == kind]),
            (
                "limit of another kind",
                [one for one in limits if limits[one].value.kind != kind or one == name],
            ),
        ):
            other = _next(others, name)
            if other != name:
                yield words, _exchanged(written, name, other)


def _next(names: Sequence[str], name: str) -> str:
    return names[(names.index(name) + 1) % len(names)]


def _exchanged(written: ProcedureStep, name: str, other: str) -> ProcedureStep:
    def changed(text: object) -> str | None:
        return None if text is None else str(text).replace(f"{{{name}}}", f"{{{other}}}")

    update: dict[str, object] = {key: changed(getattr(written, key)) for key in _TEXTS}
    if written.on_card:
        update["on_card"] = written.on_card.model_copy(
            update={key: changed(getattr(written.on_card, key)) for key in _TEXTS}
        )
    return written.model_copy(update=update)
