"""How this aircraft was put together: what is open, every step and its signatures, what is fitted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.assembly_critical import critical_words, expected_time
from dossier.compose.cures import cures
from dossier.compose.environment import render
from dossier.compose.evidence_files import EvidenceLink, evidence_links
from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.notices import notices
from dossier.compose.operating.hazard_boxes import HazardBox, boxes
from dossier.compose.packet import Page
from dossier.compose.pictures import PictureText, picture_text
from dossier.compose.printer import Printer
from dossier.compose.words import sentence
from dossier.display import as_written
from dossier.dossier import Dossier
from dossier.model.assembly import AssemblyStep, Tolerance
from dossier.model.record import AssemblyEntry, Nonconformity
from dossier.results.assembly import Block, StageRecord, StepRecord
from dossier.results.assembly_tolerances import FAILS, INCONCLUSIVE, Held
from dossier.results.components import components

RESULTS = {
    "done": Mark("Done", "conforms"),
    "open": Mark("Open", "not-shown"),
    "out of tolerance": Mark("Out of tolerance", "fails"),
    "accepted with reason": Mark("Accepted with reason", "inconclusive"),
}
TOO_CLOSE = Mark("Too close to its limit to tell", "inconclusive")
HEADS = "+ Step | = Date | By | Checked by | # Measured | Required | Result"


@dataclass(frozen=True)
class StagePart:
    """A stage with its table."""

    title: str
    """Empty where the type has no assembly.yaml."""
    steps: Grid
    boxes: tuple[HazardBox, ...]
    """Hazards of its steps."""
    pictures: tuple[tuple[str, PictureText], ...]
    """Title of the step, and what its picture shows."""
    time: str
    """How long its steps are expected to last."""


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page."""
    at, made = Printer(dossier, links.ASSEMBLY), dossier.assembly
    entries = [entry for step in made.steps for entry in step.entries]
    evidence = dict.fromkeys(link for entry in entries for link in evidence_links(at, entry.evidence))
    text = render(
        "assembly.md.jinja",
        top=notices(at),
        build=_build(dossier),
        delivery=_delivery(dossier),
        open_work=_open_work(made.blocks) if made.blocks else None,
        stages=tuple(_stage(stage, dossier) for stage in made.stages if stage.steps),
        nonconformities=_nonconformities(made.nonconformities) if made.nonconformities else None,
        components=_components(dossier),
        cures=cures(at),
        evidence=tuple[EvidenceLink, ...](evidence),
    )
    return (Page(links.ASSEMBLY, "Assembly", "Record", text),)


def _build(dossier: Dossier) -> tuple[tuple[str, str], ...]:
    build, handover = dossier.record.build, dossier.state.handover
    return (
        ("Started", build.started.isoformat()),
        ("Completed", build.completed.isoformat() if build.completed else "not completed"),
        ("Built at", str(build.built_at)),
        ("Drawings", build.drawings),
        ("Drawings of the type", str(dossier.project.aircraft.identification.design_revision)),
        ("Handed over", handover.date.isoformat() if handover else "not handed over"),
    )


def _delivery(dossier: Dossier) -> str:
    """Say what the record means for delivery. It is never called ready: more than this decides."""
    if not dossier.assembly.blocks:
        nothing = "Nothing in the assembly record keeps this aircraft from delivery."
        return f"{nothing} Whether it is handed over, the builder decides."
    handover = dossier.state.handover
    if handover:
        return f"Handed over on {handover.date.isoformat()} with the work below open."
    return "Not ready for delivery: the work below is open."


def _open_work(blocks: Iterable[Block]) -> Grid:
    rows = [
        row(
            sentence(block.subject).rstrip("."),
            Mark(sentence(block.state).rstrip("."), "fails" if block.fails else "not-shown"),
            sentence(block.reason),
        )
        for block in blocks
    ]
    return grid("What keeps this aircraft from delivery", "+ What | State | + Why", rows)


def _stage(stage: StageRecord, dossier: Dossier) -> StagePart:
    judged = dossier.assembly.judged
    rows = [line for step in stage.steps for line in _step(step, judged.get(step.name, ()))]
    steps = [record.step for record in stage.steps if record.step]
    hazards = dict.fromkeys(str(name) for step in steps for name in step.hazards)
    shown = ((str(step.do), picture_text(dossier, step.picture)) for step in steps)
    return StagePart(
        stage.name,
        grid(stage.name or "Entries in order", HEADS, rows),
        boxes(dossier, hazards),
        tuple((title, picture) for title, picture in shown if picture),
        expected_time(stage),
    )


def _step(record: StepRecord, judged: Sequence[tuple[Held, ...]]) -> Iterator[Row]:
    """One line an entry, so that work done again stays in sight; one line for what has no entry."""
    if not record.entries:
        yield _without_entry(record)
    for number, entry in enumerate(record.entries, start=1):
        counts = number == len(record.entries)
        yield row(
            Cell(record.title, note=_note(record.step, entry)),
            entry.date.isoformat() if entry.date else "no date",
            str(entry.by or "nobody named"),
            Cell(
                str(entry.checked_by or ("nobody named" if _needs_check(record) else "not asked for")),
                note=entry.checked.isoformat() if entry.checked else "",
            ),
            as_written(entry.measured) if entry.measured else "",
            _required(record.step, entry),
            _result(record, entry, judged[number - 1] if judged else (), counts=counts),
        )


def _result(record: StepRecord, entry: AssemblyEntry, held: tuple[Held, ...], *, counts: bool) -> Cell:
    """Mark an entry as it was written, or as its values say where they say something worse."""
    note = _result_note(record, entry, counts=counts)
    worst = [one for outcome in (FAILS, INCONCLUSIVE) for one in held if one.outcome == outcome]
    if not worst or entry.result != "done" or (counts and record.is_accepted):
        return Cell(mark=RESULTS[entry.result], note=note)
    mark = RESULTS["out of tolerance"] if worst[0].outcome == FAILS else TOO_CLOSE
    return Cell(mark=mark, note=" ".join([*(sentence(one.words) for one in worst), note]).strip())


def _needs_check(record: StepRecord) -> bool:
    return record.step is None or record.step.checked_by is not None


def _without_entry(record: StepRecord) -> Row:
    step, event = record.step, record.event
    assert step is not None, "an entry without a step is its own step"
    if event is None:
        wanted = f"Shown by an event of kind {step.shown_by}" if step.shown_by else ""
        return row(
            Cell(record.title, note=_note(step, None)),
            "no date",
            "nobody",
            "nobody",
            "",
            _required(step, None),
            Cell(mark=RESULTS["open"], note=wanted),
        )
    return row(
        Cell(record.title, note=_note(step, None)),
        event.date.isoformat(),
        str(event.by),
        "",
        "",
        _required(step, None),
        Cell(mark=RESULTS["done"], note=f"Shown by the event of that day, {step.shown_by}"),
    )


def _note(step: AssemblyStep | None, entry: AssemblyEntry | None) -> str:
    """Expected state, hold, lots with their age, cure: what stands in small print below the step."""
    parts = [*([str(step.expect)] if step else []), *(["Inspection hold"] if step and step.hold else [])]
    parts += critical_words(step, entry)
    parts += [f"Tool: {step.tool}"] if step and step.tool else []
    parts += [f"If not: {step.if_not}"] if step and step.if_not else []
    if entry and entry.lots:
        parts.append(f"Lots: {', '.join(entry.lots)}")
    for used in entry.materials if entry else ():
        age = "".join(
            f", {word} {day}" for word, day in (("made", used.made), ("expires", used.expires)) if day
        )
        worked = f", worked {used.worked.text} after mixing" if used.worked else ""
        parts.append(f"{sentence(str(used.material)).rstrip('.')}: lot {used.lot}{age}{worked}")
    if entry and entry.cure:
        parts.append(f"Cured {entry.cure.time.text}, {entry.cure.lowest.text} to {entry.cure.highest.text}")
    return " ".join(map(sentence, parts))


def _required(step: AssemblyStep | None, entry: AssemblyEntry | None) -> str:
    if step is None:
        return str(entry.required or "") if entry else ""
    parts = [_tolerance(step.required)] if step.required else []
    if step.cure:
        parts.append(
            f"Cure: {step.cure.time.text} or more, {step.cure.lowest.text} to {step.cure.highest.text}; "
            f"{step.cure.source}"
        )
    return " ".join(map(sentence, parts))


def _tolerance(required: Tolerance) -> str:
    low, high = (limit.text if limit else "" for limit in (required.minimum, required.maximum))
    span = f"{low} to {high}" if low and high else f"{low} or more" if low else f"{high} or less"
    fastener = f"; {required.fastener}" if required.fastener else ""
    drag = f", drag of the nut {required.drag.text}" if required.drag else ""
    within = required.measured_within
    measured = f"; measured within ± {within.text} (k = 2)" if within else ""
    return f"{span}{fastener}{drag}{measured}; {required.source}"


def _result_note(record: StepRecord, entry: AssemblyEntry, *, counts: bool) -> str:
    parts = [
        *([str(entry.reason)] if entry.reason else []),
        *([] if counts else ["Done again, see the next line"]),
    ]
    if counts:
        parts += [f"Nonconformity {one.number}" for one in record.nonconformities]
    return " ".join(map(sentence, parts))


def _nonconformities(found: Iterable[Nonconformity]) -> Grid:
    rows = [
        row(
            Cell(str(one.number), note=f"Step: {one.step}" if one.step else ""),
            one.found.isoformat(),
            str(one.description),
            Cell(sentence(one.disposition or "not decided").rstrip("."), note=sentence(one.reason or "")),
            str(one.decided_by or "nobody named"),
            Cell(one.closed.isoformat()) if one.closed else Cell(mark=RESULTS["open"]),
        )
        for one in found
    ]
    return grid("Nonconformities", "Number | = Found | + What | Disposition | Decided by | Closed", rows)


def _components(dossier: Dossier) -> Grid:
    """The three states beside each other; what differs says why."""
    found = components(dossier.project.aircraft.items, dossier.record, dossier.state)
    rows = [
        row(
            Cell(one.label, note=one.group),
            Cell(one.designed, note=one.drawings[0]),
            Cell(one.built, note=one.drawings[1]),
            Cell(
                sentence(one.maintained).rstrip(".") if one.differs else one.maintained, note=one.drawings[2]
            ),
            one.number,
            " ".join(map(sentence, one.explained)),
        )
        for one in found
    ]
    heads = "+ Component | As designed | As built | As maintained | Serial number, lot | + Changes and notes"
    return grid(f"Components, as of {dossier.state.as_of.isoformat()}", heads, rows)
