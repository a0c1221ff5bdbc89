"""Is everything tightened by a torque that its thread and nut bear, in whatever list it stands?"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from dossier.located import place_of
from dossier.model.procedure import Tightening
from dossier.model.rigging import Fastening
from dossier.procedures.fault import Fault, at_step, of_words
from dossier.procedures.listing import Listing, Step
from dossier.procedures.run import Moment, Run
from dossier.procedures.torque_table import INCH_POUND, Nut, names_table, nut_of, outside
from dossier.quantities import NotAQuantity, Quantity, parse

_TORQUE = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?) ?(in-lb|ft-lb|N m|N·m|Nm)(?!\w)")


def in_range(run: Run) -> Iterator[Fault]:
    """A torque after the table lies inside the table's range for thread and nut, with the nut's drag added.

    Source: AC 43.13-1B, table 7-1 and paragraph 7-40 d to g.
    """
    for moment in run.of("torque"):
        for words, remedy in _wrong(moment, run):
            yield at_step(run, "V080", moment.doing.step, (words, remedy), (moment.name,))


def _wrong(moment: Moment, run: Run) -> Iterator[tuple[str, str]]:
    fastening, torque = run.system.connections[moment.name].fastening, moment.doing.step.written.torque
    called = run.system.called(moment.name)
    if fastening is None or torque is None:
        yield (
            f"the {called} is tightened, and no torque is written",
            "write torque with value, fastener and source",
        )
    elif fastening.figure == "table":
        nut = Nut(str(fastening.thread), str(fastening.nut), fastening.drag.value if fastening.drag else 0.0)
        yield from outside(f"the {called}", nut, *bounds(torque.value))


def bounds(value: Quantity) -> tuple[float, float]:
    """Return least and most of a torque in N·m: the bounds of a rectangular distribution, JCGM 100, 4.3.7."""
    half = value.standard_uncertainty * math.sqrt(3)
    return value.value - half, value.value + half


def of_one_joint(run: Run) -> Iterator[Fault]:
    """Thread, nut and source that a step writes are those that rigging.yaml has for the joint.

    Source: own reasoning (a torque looked up for another bolt is a wrong torque).
    """
    for moment in run.of("torque"):
        fastening, torque = run.system.connections[moment.name].fastening, moment.doing.step.written.torque
        if fastening is None or torque is None:
            continue
        for words in _differing(fastening, torque):
            about = f"the {run.system.called(moment.name)} has {words}"
            yield at_step(
                run, "V082", moment.doing.step, (about, "correct the one that is wrong"), (moment.name,)
            )


def _differing(fastening: Fastening, torque: Tightening) -> Iterator[str]:
    nut = nut_of(str(torque.fastener))
    if nut.thread and nut.thread != fastening.thread:
        yield f"the thread {fastening.thread} in rigging.yaml, and {nut.thread} in the step"
    if nut.kind and not str(fastening.nut).startswith(nut.kind):
        yield f"a nut of the {fastening.nut} type in rigging.yaml, and of the {nut.kind} type in the step"
    if fastening.figure == "maker" and names_table(str(torque.source)):
        yield "a torque of its maker in rigging.yaml, and one of the table in the step"


def written(listing: Listing) -> Iterator[Fault]:
    """A torque that names the table lies in the table's range, in a list that is only text as well.

    Source: AC 43.13-1B, table 7-1 and paragraph 7-40 d to g.
    """
    for step in listing.steps:
        torque = step.written.torque
        is_replayed = any(doing.verb == "torque" for doing in step.doings)
        if torque is None or is_replayed or not names_table(str(torque.source)):
            continue
        nut = nut_of(f"{torque.fastener}; {torque.source}", torque.drag.value if torque.drag else 0.0)
        for words in outside("this", nut, *bounds(torque.value)):
            yield of_words(listing, "V080", step, words, place_of(torque.fastener))


def in_words(listing: Listing) -> Iterator[Fault]:
    """A torque in the words of a step lies within the torque that the step writes.

    Source: own reasoning (two figures in one step: one of them is read, and nobody knows which).
    """
    for step in listing.steps:
        if step.written.torque is None:
            continue
        least, most = bounds(step.written.torque.value)
        for text, value in _said(step):
            if not least * (1 - 1e-9) <= value <= most * (1 + 1e-9):
                words = (
                    f"the words say {value / INCH_POUND:.0f} in-lb, and torque says "
                    f"{step.written.torque.value.text}"
                )
                yield of_words(listing, "V082", step, (words, "write one torque"), place_of(text))


def _said(step: Step) -> Iterator[tuple[str, float]]:
    written, card = step.written, step.written.on_card
    on_card = (card.do, card.expect, card.second_check) if card else ()
    for text in (written.do, written.expect, written.second_check, *on_card):
        for number, unit in _TORQUE.findall(text or ""):
            try:
                yield str(text), parse(f"{number} {unit}", "torque").value
            except NotAQuantity:  # a spelling that records do not take: nothing to compare
                continue


def nut_suits(run: Run) -> Iterator[Fault]:
    """Where bolt or nut turns in service, the nut is not self-locking.

    Source: AC 43.13-1B, paragraph 7-64 a, as quoted.
    """
    for moment in run.of("engage"):
        fastening = run.system.connections[moment.name].fastening
        if fastening is not None and fastening.rotates and fastening.nut.endswith("self-locking"):
            words = f"the {run.system.called(moment.name)} turns in service and has a self-locking nut"
            yield at_step(
                run,
                "V081",
                moment.doing.step,
                (words, "use a drilled bolt, a castle nut and a split pin"),
                (moment.name,),
            )
