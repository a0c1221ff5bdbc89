"""Do loose items come back to the same count?"""

from __future__ import annotations

from collections.abc import Iterator

from dossier.procedures.acts import HANDS_ON_JOINT
from dossier.procedures.fault import Fault, at_end, at_step
from dossier.procedures.run import Moment, Run


def counted(run: Run) -> Iterator[Fault]:
    """What was taken out, fitted or put back is counted after the last piece moved, or is stowed, all of it.

    Source: common practice, no source; own reasoning for what counts as counted.
    """
    if run.steps != run.listing.steps or run.begun_at:
        return
    for name, pieces in run.end.pieces.items():
        if not pieces.counted and run.system.items[name].kit:
            words = (
                f"the {run.system.called(name)} moved, and is not counted afterwards: {pieces.fitted} "
                f"fitted, {pieces.out} out, {pieces.home} stowed"
            )
            yield at_end(
                run,
                "V041",
                (words, "count them at the end, behind the last step that moves one"),
                (name, *_using(run, name)),
            )


def counted_out(run: Run) -> Iterator[Fault]:
    """What lies out is counted before the first piece is used, and before the first hand is at a joint: a
    count at the end alone has nothing to be compared with.

    Source: common practice, no source.
    """
    if run.begun_at:
        return
    uncounted = _lying_out(run)
    for moment in run.moments:
        if moment.verb == "fetch":
            uncounted |= set(run.system.pieces_of(moment.name))
        elif moment.verb == "count":
            uncounted -= set(run.system.pieces_of(moment.name))
        elif moment.verb in HANDS_ON_JOINT:
            for name, words in _uncounted(moment, uncounted, run):
                yield at_step(
                    run, "V041", moment.doing.step, (words, "count the kit when it is laid out"), (name,)
                )
                uncounted -= {name}


def _lying_out(run: Run) -> set[str]:
    """Pieces of kits that lie out as the list begins, if the list handles their kit."""
    handled = {piece for moment in run.of("count", "stow") for piece in run.system.pieces_of(moment.name)}
    return {name for name in handled if run.start.pieces[name].out > 0 and run.system.items[name].kit}


def _uncounted(moment: Moment, uncounted: set[str], run: Run) -> Iterator[tuple[str, str]]:
    for name in sorted(uncounted):
        called = run.system.called(name)
        if moment.after.pieces[name].fitted > moment.before.pieces[name].fitted:
            yield name, f"the {called} is used, and nobody counted what was laid out"
        elif run.system.items[name].kit:
            yield name, f"work begins at the joints, and nobody counted the {called} that lies out"


def numbers(run: Run) -> Iterator[Fault]:
    """The number that a count names is the number of pieces that rigging.yaml lists.

    Source: own reasoning (counted multiples match the parts list).
    """
    for moment in run.of("count"):
        wanted = sum(run.system.items[piece].count for piece in run.system.pieces_of(moment.name))
        said = moment.doing.act.number
        if said is not None and said != wanted:
            words = (
                f"this counts {said} in the {run.system.called(moment.name)}, and rigging.yaml lists {wanted}"
            )
            yield at_step(
                run,
                "V042",
                moment.doing.step,
                (words, "correct the text, the act or rigging.yaml"),
                (moment.name,),
            )


def all_back(run: Run) -> Iterator[Fault]:
    """When a list ends, no piece lies about: each is fitted, or lies counted in its kit, or is stowed.

    Source: common practice, no source.
    """
    if run.steps != run.listing.steps or run.begun_at:
        return
    for name, pieces in run.end.pieces.items():
        if pieces.out > 0 and run.system.items[name].kit is None:
            yield at_end(
                run,
                "V040",
                (f"{pieces.out} of the {run.system.called(name)} is left lying", "fit it or stow it"),
                (name, *_using(run, name)),
            )


def _using(run: Run, item: str) -> tuple[str, ...]:
    return tuple(
        name
        for name, one in run.system.connections.items()
        if item in (one.with_items.engage, one.with_items.lock, one.with_items.safety)
    )
