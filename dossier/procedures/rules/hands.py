"""What can be told of a list without a replay: second checks, tools counted, hands where a hazard is."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.located import place_of
from dossier.procedures.fault import Fault, of_list, of_words
from dossier.procedures.listing import Listing, Step
from dossier.procedures.rules.remedies import first_word
from dossier.procedures.rules.vocabulary import HOLDS, LOOKS, READS, SPEAKS, TRIES, numbers_in, tokens, verbs
from dossier.procedures.system import System


def critical_seconded(listing: Listing) -> Iterator[Fault]:
    """A critical step that has no act asks for its second check in words.

    Source: GFA 6.3 as quoted (independent inspection each time); what is critical the builder marks at the
    step. Alone in the air there is no other person, so an emergency is left out.
    """
    for step in listing.steps:
        written = step.written
        if (
            written.critical
            and not step.doings
            and not written.second_check
            and listing.procedure.kind != "emergency"
        ):
            words = "this step is critical, and it has no second check"
            yield of_words(listing, "V038", step, (words, "write  second_check: ...  for another person"))


def second_tries(listing: Listing) -> Iterator[Fault]:
    """A second check looks, touches, pulls or says what is seen, in the list and on its card.

    Source: GFA 6.3 as quoted (an inspection); own reasoning for which words are one.
    """
    for step in listing.steps:
        card = step.written.on_card
        for text in (step.written.second_check, card.second_check if card else None):
            if text is not None and not verbs(text) & TRIES:
                words = f"the second check neither looks, touches, pulls nor says anything: {str(text)!r}"
                remedy = "write what the other person does, such as: The second person pulls once more."
                yield of_words(listing, "V111", step, (words, remedy), place_of(text))


def surface_held(listing: Listing, system: System) -> Iterator[Fault]:
    """The words of a positive check say that the surface is held; a second check may press on it.

    Source: EASA SIB 2012-04; BGA newsletter September 2013 (definition): somebody holds the surface while
    another works the control. A watched surface shows free movement only.
    """
    for step in listing.steps:
        card = step.written.on_card
        for doing in step.doings:
            if doing.verb != "positive_check":
                continue
            first = (step.written.do, card.do if card else None)
            second = (step.written.second_check, card.second_check if card else None)
            for text in second if doing.second else first:
                held = {*HOLDS, "press"} if doing.second else HOLDS
                if text is not None and not verbs(text) & held:
                    called = system.called(doing.name)
                    words = f"the act holds the {called} against its control, and the words do not"
                    remedy = (
                        "write who holds the surface, such as: while the second person holds the left aileron"
                    )
                    yield of_words(listing, "V110", step, (words, remedy), place_of(text))
            break


def tools_counted(listing: Listing) -> Iterator[Fault]:
    """An inspection counts its tools before the first is used and after the last, to the same number.

    Source: common practice, no source.
    """
    procedure = listing.procedure
    if procedure.kind != "inspection" or not procedure.tools:
        return
    counts = [step for step in listing.steps if _counts_tools(step)]
    used = [step for step in listing.steps if step.written.tool]
    first, last = (used[0].number, used[-1].number) if used else (len(listing.steps) // 2,) * 2
    missing = [
        *(["at the start"] if not counts or counts[0].number > first else []),
        *(["at the end"] if not counts or counts[-1].number < last or len(counts) == 1 else []),
    ]
    if missing:
        words = f"this inspection does not count its tools {' and '.join(missing)}"
        yield of_list(
            listing, "V112", (words, "add the step: Count the tools aloud."), procedure.place_of_key("tools")
        )
    for step in counts:
        said = numbers_in(f"{step.written.do} . {step.written.expect}")
        expected = numbers_in(f"{counts[0].written.do} . {counts[0].written.expect}")
        if said != expected:
            words = f"this counts {_list(said)}, and step {counts[0].number} counted {_list(expected)}"
            yield of_words(
                listing, "V042", step, (words, "write the same number"), place_of(step.written.expect)
            )


def _counts_tools(step: Step) -> bool:
    return first_word(step) == "count" and "tool" in tokens(step.written.do)


def _list(numbers: list[int]) -> str:
    return " and ".join(map(str, numbers)) or "nothing"


def warned_in_words(listing: Listing, system: System) -> Iterator[Fault]:
    """In a list that is only read, what its words lay hands on has its warnings at the head or before it.

    In an emergency that is a plug, or a cover over plugs, and one of its warnings is enough: nobody is asked
    to put hands on a live circuit without a word of it, and nobody reads ten boxes with smoke behind the
    seat.

    Source: S1000D, warning and caution elements, as reprinted; own reasoning for lists that are not replayed.
    """
    if listing.is_replayed:
        return
    warned = {str(name) for name in listing.procedure.hazards}
    emergency = listing.procedure.kind == "emergency"
    for step in listing.steps:
        warned |= {str(name) for name in step.written.hazards}
        if first_word(step) in LOOKS | READS | SPEAKS:
            continue
        for name in _handled(step, system):
            if emergency and not _is_live(name, system):
                continue
            places = system.warnings_before.get(name, ())
            needed = dict.fromkeys(
                hazard for hazard, place in places if not place.only_in or listing.name in place.only_in
            )
            missing = [hazard for hazard in needed if hazard not in warned]
            if missing and not (emergency and len(missing) < len(needed)):
                words = (
                    f"this works on the {system.called(name)}, and no warning {missing[0]!r} stands before it"
                )
                remedy = f"add  hazards: [{missing[0]}]  to this step, or to the head of the list"
                yield of_words(listing, "V071", step, (words, remedy))
                break


def _handled(step: Step, system: System) -> Iterator[str]:
    """List what the command names whole; of two names, one in the other, the longer is meant."""
    said = tokens(step.written.do)
    groups = (system.connections, system.covers, system.parts, system.settings, system.circuits)
    names = {
        name: tokens(system.called(name)) - {"the", "of", "and", "for", "a"}
        for group in groups
        for name in group
    }
    named = {name: own for name, own in names.items() if own <= said}
    for name, own in named.items():
        if not any(own < other for other in named.values()):
            yield name


def _is_live(name: str, system: System) -> bool:
    """Whether hands there are at a circuit: a plug, a cover over one, the circuit itself."""
    plugs = system.covers[name].hides if name in system.covers else [name]
    return name in system.circuits or any(
        plug in system.connections and system.connections[plug].circuit is not None for plug in plugs
    )
