"""Components as built and as maintained: which one is in, and whether one is missing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from dossier.findings import Place
from dossier.model.aircraft import Item
from dossier.model.assembly import Assembly
from dossier.model.record import SerialRecord
from dossier.replay import State
from dossier.results.assembly_drawings import drawing_problems
from dossier.results.assembly_step_checks import Problem


def component_problems(
    assembly: Assembly | None, record: SerialRecord, state: State, items: Mapping[str, Item]
) -> Iterator[Problem]:
    """Check that each traced component can be told from others, and that none was taken out without a reason.

    An item that every aircraft of the type has, and this one lacks, is no variant of the design: what differs
    from the design is explained (ISO 10007, as read in summaries).
    """
    if assembly:
        for name in map(str, assembly.traced):
            yield from _traced(name, record, state)
    yield from _missing(state, items)
    yield from drawing_problems(record, state, items)


def _traced(name: str, record: SerialRecord, state: State) -> Iterator[Problem]:
    fitted = [change for change in state.changes_of(name) if change.fitted]
    if fitted:
        last = fitted[-1]
        if name not in state.left_out and not (last.serial_number or last.lot):
            yield _unnumbered(
                name,
                f"the change of {last.date} gives neither serial number nor lot of the {name!r} that went in",
                ("add  serial_number: ...  or  lot: ...  to this event", last.place),
            )
        return
    built = record.fitted.get(name)
    if name in record.items_left_out or (built and (built.serial_number or built.lot)):
        return
    yield _unnumbered(
        name,
        f"the record gives neither serial number nor lot of {name!r}",
        (
            f"add under fitted:  {name}: {{serial_number: ...}}",
            built.place if built else record.place_of_key("fitted"),
        ),
    )


def _unnumbered(name: str, message: str, remedy: tuple[str, Place | None]) -> Problem:
    return Problem(
        "A009", message, *remedy, "serial number or lot missing", fails=False, subject=f"Component {name}"
    )


def _missing(state: State, items: Mapping[str, Item]) -> Iterator[Problem]:
    for name, item in items.items():
        changes = state.changes_of(name)
        if name in state.left_out and not item.optional and changes and not changes[-1].note:
            yield Problem(
                "A017",
                f"every aircraft of the type has {name!r}; it was taken out of this one on "
                f"{changes[-1].date}, and nothing says why",
                "add  note: ...  with the reason, or the change that puts it back",
                changes[-1].place,
                "taken out without a reason",
                subject=f"Component {name}",
            )
