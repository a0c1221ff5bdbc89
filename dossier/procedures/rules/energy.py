"""Hands, plugs and the propeller: isolate first, energise last."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.procedures.acts import HANDS_ON_JOINT
from dossier.procedures.fault import Fault, at_step
from dossier.procedures.run import Run
from dossier.procedures.system import unmet


def isolated(run: Run) -> Iterator[Fault]:
    """A plug is joined or parted only when its circuit is isolated, and somebody saw that in this list.

    Source: BGA aircraft inspection 053/06/2012, caution (isolate the supply before work).
    """
    for moment in run.moments:
        connection = run.system.connections.get(moment.name)
        if connection is None or connection.circuit is None or moment.verb not in HANDS_ON_JOINT:
            continue
        circuit = moment.before.circuits[str(connection.circuit)]
        called = run.system.called(str(connection.circuit))
        if circuit.live:
            words = f"hands are at the {run.system.called(moment.name)} while the {called} is live"
        elif not circuit.seen_isolated:
            words = (
                f"hands are at the {run.system.called(moment.name)}, and nobody saw in this list that the "
                f"{called} is isolated"
            )
        else:
            continue
        yield at_step(
            run,
            "V050",
            moment.doing.step,
            (words, "isolate first, and look that it is so"),
            (moment.name, str(connection.circuit)),
        )


def propeller_clear(run: Run) -> Iterator[Fault]:
    """What lets the propeller turn is energised only after the propeller was called clear, with no hand at
    work since.

    Source: common practice, no source.
    """
    for moment in run.of("energise"):
        if run.system.circuits[moment.name].propeller and not moment.before.propeller_clear:
            words = (
                f"this energises the {run.system.called(moment.name)} before the propeller is called clear"
            )
            yield at_step(
                run,
                "V051",
                moment.doing.step,
                (words, "look behind, call, wait for the answer; then this step"),
                (moment.name,),
            )


def energised_last(run: Run) -> Iterator[Fault]:
    """A circuit is energised only when everything that rigging.yaml asks for beforehand is so: plugs locked,
    covers closed, straps off.

    Source: own reasoning (isolating first, energising last); ISO 6469-4:2015, 5.2.2, for why a live contact
    must be covered.
    """
    for moment in run.of("energise"):
        for lack in unmet(run.system.circuits[moment.name].before_energising, moment.before, run.system):
            words = f"this energises the {run.system.called(moment.name)}, but {lack}"
            yield at_step(
                run,
                "V052",
                moment.doing.step,
                (words, "put the missing step before this one"),
                (moment.name,),
            )
