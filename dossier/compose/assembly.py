"""How this aircraft was put together: what is open, every entry of the assembly record, what is fitted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dossier.compose import links
from dossier.compose.environment import render
from dossier.compose.evidence_files import EvidenceLink, evidence_links
from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.notices import notices
from dossier.compose.packet import Page
from dossier.compose.printer import Printer
from dossier.dossier import Dossier
from dossier.model.record import AssemblyEntry

RESULTS = {
    "done": Mark("Done", "conforms"),
    "open": Mark("Open", "not-shown"),
    "out of tolerance": Mark("Out of tolerance", "fails"),
    "accepted with reason": Mark("Accepted with reason", "inconclusive"),
}


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the page."""
    at = Printer(dossier, links.ASSEMBLY)
    entries = entries_by(dossier)
    left = [entry for entry in entries if entry.result != "done"]
    evidence = dict.fromkeys(link for entry in entries for link in evidence_links(at, entry.evidence))
    text = render(
        "assembly.md.jinja",
        top=notices(at),
        build=_build(dossier),
        open_work=_entries("Entries that are not simply done", left) if left else None,
        entries=_entries("Entries in order", entries) if entries else None,
        fitted=_fitted(at),
        evidence=tuple[EvidenceLink, ...](evidence),
    )
    return (Page(links.ASSEMBLY, "Assembly", "Record", text),)


def entries_by(dossier: Dossier) -> tuple[AssemblyEntry, ...]:
    """List the entries up to the date of the dossier; work without a date is open at any date."""
    return tuple(
        entry for entry in dossier.record.assembly if entry.date is None or entry.date <= dossier.state.as_of
    )


def _build(dossier: Dossier) -> tuple[tuple[str, str], ...]:
    build = dossier.record.build
    return (
        ("Started", build.started.isoformat()),
        ("Completed", build.completed.isoformat() if build.completed else "not completed"),
        ("Built at", str(build.built_at)),
        ("Drawings", str(build.design_revision)),
    )


def _entries(caption: str, entries: Iterable[AssemblyEntry]) -> Grid:
    rows = [
        row(
            Cell(str(entry.step), note=_lots(entry)),
            entry.date.isoformat() if entry.date else "no date",
            str(entry.by or "nobody named"),
            str(entry.checked_by or "nobody named"),
            entry.measured.text if entry.measured else "",
            str(entry.required or ""),
            Cell(mark=RESULTS[entry.result], note=str(entry.reason or "")),
        )
        for entry in entries
    ]
    return grid(caption, "+ Step | = Date | By | Checked by | # Measured | Required | Result", rows)


def _lots(entry: AssemblyEntry) -> str:
    return f"Lots: {', '.join(entry.lots)}" if entry.lots else ""


def _fitted(at: Printer) -> Grid:
    """The type's list and which pieces are in this aircraft; a blank cell was never recorded."""
    return grid(
        "Components of this aircraft",
        "Component | Group | # Mass of the design | # Arm | Serial number | Lot | In this aircraft",
        _components(at),
    )


def _components(at: Printer) -> Iterator[Row]:
    for name, item in at.dossier.project.aircraft.items.items():
        fitted = at.dossier.record.fitted.get(name)
        serial_number, lot, note = (
            str(text or "")
            for text in ((fitted.serial_number, fitted.lot, fitted.note) if fitted else ("", "", ""))
        )
        state = "left out" if name in at.dossier.state.left_out else "fitted"
        yield row(
            Cell(str(item.name), note=note),
            str(item.group),
            at.first(item.mass.value, "mass"),
            at.first(item.arm.value, "arm"),
            serial_number,
            lot,
            state,
        )
