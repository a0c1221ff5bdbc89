"""The weighing record: what stood on which scale, under which conditions."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.compose.evidence_files import EvidenceLink, evidence_links
from dossier.compose.grid import Cell, Grid, grid, row
from dossier.compose.printer import Printed, Printer
from dossier.compose.words import listed
from dossier.figures import Figure
from dossier.model.instruments import ALIKE, OUTWARD, Scale
from dossier.results.weighing import WeighingResult


@dataclass(frozen=True)
class WeighingRecord:
    """The last weighing. All ready strings."""

    facts: tuple[tuple[str, str], ...]
    supports: Grid
    scales: Grid
    instruments: Grid | None
    """With which the arms were measured; none where the record names none."""
    figures: tuple[Printed, ...]
    evidence: tuple[EvidenceLink, ...]


def weighing_record(at: Printer) -> WeighingRecord | None:
    """Print the last weighing, if there is one."""
    result = at.dossier.weighing
    if result is None:
        return None
    lateral = (result.lateral_cg,) if result.lateral_cg else ()
    return WeighingRecord(
        _facts(result),
        _supports(at, result),
        _scales(at, result),
        _instruments(at, result),
        tuple(at.figure(figure) for figure in (result.mass, *result.balance, *lateral)),
        evidence_links(at, result.event.evidence),
    )


def _facts(result: WeighingResult) -> tuple[tuple[str, str], ...]:
    event = result.event
    return (
        ("Date", event.date.isoformat()),
        ("By", str(event.by)),
        ("Place", str(event.place_of_weighing)),
        ("Condition", str(event.condition)),
        ("Levelled", str(event.levelled)),
        *([("Note", str(event.note))] if event.note else []),
    )


def _supports(at: Printer, result: WeighingResult) -> Grid:
    rows = [
        row(
            line.name,
            line.scale,
            ", ".join(line.readings),
            at.first(line.gross, "mass"),
            at.first(line.tare, "mass"),
            _linked(at, line.net),
            at.first(line.arm.value, "arm"),
            _linked(at, line.moment),
        )
        for line in result.rows
    ]
    rows += [
        row(
            line.mass.label,
            "",
            line.mass.text,
            "",
            "",
            at.first(line.mass.value, "mass"),
            at.first(line.arm.value, "arm"),
            "",
        )
        for line in result.corrections
    ]
    rows.append(
        row(
            "As weighed, in the empty condition",
            "",
            "",
            "",
            "",
            _linked(at, result.mass),
            _linked(at, result.balance[0]),
            _linked(at, result.moment),
            total=True,
        )
    )
    return grid(
        "Readings and corrections",
        "Support | Scale | Readings | # Mean | # Tare | # Net | # Arm | # Moment",
        rows,
    )


def _scales(at: Printer, result: WeighingResult) -> Grid:
    rows = [
        row(
            str(scale.name),
            str(scale.serial_number),
            f"{scale.certificate}, {scale.calibrated.isoformat()}",
            at.quantity(scale.maximum_permissible_error),
            at.quantity(scale.resolution),
            _zero(scale),
        )
        for scale in result.event.scales.values()
    ]
    return grid(
        "Scales",
        "Scale | Serial number | Certificate and date | # Largest error | # Last digit | Zero before, after",
        rows,
    )


ACTS = {OUTWARD: "away from the datum", ALIKE: "all arms the same way"}


def _instruments(at: Printer, result: WeighingResult) -> Grid | None:
    """Say which arms share the error of which instrument."""
    rows = [
        row(
            str(one.name),
            str(one.serial_number),
            f"{one.certificate}, {one.calibrated.isoformat()}",
            Cell(at.quantity(one.maximum_permissible_error, "arm"), note=ACTS[one.acts]),
            listed(str(support.name) for support in result.event.supports if key in support.arm_measured_with)
            or "none",
        )
        for key, one in result.event.instruments.items()
    ]
    heads = "Instrument | Serial number | Certificate and date | # Largest error | + Arms measured with it"
    return grid("Measuring of the arms", heads, rows) if rows else None


def _zero(scale: Scale) -> str:
    before, after = (zero.text if zero else "not recorded" for zero in (scale.zero_before, scale.zero_after))
    return f"{before}, {after}"


def _linked(at: Printer, figure: Figure) -> Cell:
    printed = at.figure(figure)
    return Cell(printed.first, printed.sheet)
