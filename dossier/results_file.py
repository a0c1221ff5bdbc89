"""``results.json``: the Dossier as plain data, for programs and for the years after this one.

Values are SI, but where a column of a table names another unit. The format is described by :data:`FORMAT`.
Its number rises when a key comes, goes or changes its meaning; what came with which number:

1. figures, verdicts, claims, findings and evidence
2. ``tables``: the rows that the pages show. Each has ``name``, ``title``, ``columns`` (``key``;
   ``holds``, one of number, text, flag and date; ``unit``; ``meaning``), ``rows`` (a value for each
   key), ``nulls`` (the reason of each value that is not there: ``row`` counts from 0) and ``empty`` (why
   there are no rows, else null). All tables are there in every file, in one order. A verdict has
   ``battery`` and ``with_each_battery``.
3. ``sampled`` of a figure: what draws of all its errors say of it, null where it was not sampled.
   ``coverage`` of the interval; ``low``, ``median`` and ``high`` of the draws that have an answer (null where
   none has one); ``unanswered``, the share of the draws that have none, with ``state`` and ``because`` of the
   first; ``first_order`` with the ends of its interval of the same coverage, ``largest_difference`` of an
   end, ``numerical_tolerance`` (JCGM 101, for one digit of the standard uncertainty) and ``holds``: true
   where the standard uncertainty may be relied on, false where the interval of the draws stands instead.
   ``distribution`` of a verdict: ``normal`` or ``sampled``, from which the probability comes, null without
   one. ``whole`` of a verdict: the mass before the law leaves anything out of it, and ``left_out``, item by
   item what it leaves out, in the unit of the verdict. ``battery`` of a
   report on a list: the option that it was read with
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from typing import Any

from dossier import __version__, units
from dossier.dossier import Dossier
from dossier.figures import Figure, Input
from dossier.findings import Finding, Place
from dossier.glossary import SYMBOLS
from dossier.halton import COUNT
from dossier.procedures.report import ProcedureReport
from dossier.published_work import Citation
from dossier.results.flown import HOUR
from dossier.results.maintenance import MaintenanceState, Measure
from dossier.results.road import RoadResult
from dossier.results_tables import tables
from dossier.results_tables.table import as_plain
from dossier.sampling import COVERAGE, Sampled, numerical_tolerance

FORMAT = "dossier-results/4"


def as_json(dossier: Dossier) -> str:
    """Write the Dossier as JSON text, always the same for the same Dossier."""
    return json.dumps(as_data(dossier), ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def as_data(dossier: Dossier) -> dict[str, Any]:
    """Return the Dossier as mappings, lists, text and numbers."""
    identification = dossier.project.aircraft.identification
    edition = dossier.state.edition
    return {
        "format": FORMAT,
        "tool_version": __version__,
        "type": str(identification.name),
        "design_revision": str(identification.design_revision),
        "serial_number": str(dossier.record.serial_number),
        "as_of": dossier.state.as_of.isoformat(),
        "edition": {"letter": str(edition.letter), "date": edition.date.isoformat()} if edition else None,
        "invented": identification.invented,
        "figures": {
            name: _figure(figure, dossier.sampled.get(name)) for name, figure in dossier.figures.items()
        },
        "verdicts": [_plain(verdict) for verdict in dossier.verdicts],
        "not_ready_for_delivery": [_plain(block) for block in dossier.assembly.blocks],
        "claims": [_plain(claim) for claim in dossier.claims],
        "claim_identities": [_plain(one) for one in dossier.claim_identities],
        "maintenance": _maintenance(dossier.maintenance) if dossier.maintenance else None,
        "trailer": _trailer(dossier.road) if dossier.road else None,
        "tables": [as_plain(table) for table in tables(dossier)],
        "procedures": [_report(report) for report in dossier.procedures if report.own],
        "findings": [_finding(finding) for finding in dossier.findings],
        "evidence": [
            {"file": file.path, "shows": file.shows, "size": file.size, "sha256": file.sha256}
            for file in dossier.evidence
        ],
    }


def _trailer(road: RoadResult) -> dict[str, Any]:
    """Sizes in metres."""
    return {
        "sizes": [
            {
                "measure": size.measure,
                "value": size.value,
                "expanded_uncertainty": size.expanded_uncertainty,
                "set_by": size.set_by,
            }
            for size in road.sizes
        ],
        "limits": [
            {
                "place": one.place,
                "measure": str(one.limit.measure),
                "limit": one.limit.limit.value,
                "verdict": one.state,
                "margin": one.margin,
            }
            for one in road.verdicts
        ],
    }


def _maintenance(due: MaintenanceState) -> dict[str, Any]:
    """Flight time in hours, calendar in days; the worst first."""
    totals = due.totals
    return {
        "flight_hours": None if totals.flight_time is None else totals.flight_time.value / HOUR,
        "cycles": None if totals.cycles is None else totals.cycles.value,
        "items": [
            {
                "task": item.key,
                "name": item.name,
                "life": item.is_life,
                "state": item.state,
                "last": _plain(item.last),
                "measures": [_measure(measure) for measure in item.measures],
            }
            for item in due.items
        ],
    }


def _measure(measure: Measure) -> dict[str, Any]:
    scale = HOUR if measure.kind == "flight time" else 1
    due = measure.due
    return {
        "kind": measure.kind,
        "unit": {"calendar": "day", "flight time": "h", "flights": "1"}[measure.kind],
        "interval": measure.interval / scale,
        "due": due.isoformat() if isinstance(due, date) else None if due is None else due / scale,
        "left": None if measure.left is None else measure.left / scale,
    }


def _figure(figure: Figure, sampled: Sampled | None) -> dict[str, Any]:
    working = figure.working
    return {
        "label": figure.label,
        "value": figure.value,
        "unit": units.KINDS[figure.kind].si,
        "standard_uncertainty": figure.standard_uncertainty,
        "contributions": [{"from": one.label, "amount": one.amount} for one in figure.contributions()],
        "sampled": _sampled(figure, sampled) if sampled else None,
        "working": {
            "formula": working.formula.latex,
            "title": working.formula.title,
            "valid": working.formula.valid,
            "source": str(working.formula.source),
            "inputs": [
                _input(symbol, one)
                for symbol, many in working.inputs.items()
                for one in ([many] if isinstance(many, Input) else many)
            ],
            "steps": [
                {"label": step.label, "value": step.value, "unit": units.KINDS[step.kind].si}
                for step in working.steps
            ],
            "note": working.note,
        },
    }


def _sampled(figure: Figure, sampled: Sampled) -> dict[str, Any]:
    low, median, high = sampled.quantiles or (None, None, None)
    first_low, first_high = sampled.first_order or (None, None)
    uncertainty = figure.standard_uncertainty
    return {
        "draws": COUNT, "coverage": COVERAGE, "low": low, "median": median, "high": high,
        "unanswered": sampled.unanswered, "state": sampled.state, "because": sampled.because,
        "first_order": {
            "low": first_low, "high": first_high, "largest_difference": sampled.largest_difference,
            "numerical_tolerance": numerical_tolerance(uncertainty) if uncertainty else None,
            "holds": sampled.first_order_holds,
        },
    }  # fmt: skip


def _input(symbol: str, one: Input) -> dict[str, Any]:
    return {
        "symbol": symbol,
        "meaning": SYMBOLS[symbol].meaning,
        "label": one.label,
        "value": one.value,
        "unit": units.KINDS[one.kind].si,
        "standard_uncertainty": one.standard_uncertainty,
        "as_written": one.text,
        "from": _origin(one.origin),
    }


def _origin(origin: Place | Citation | str) -> dict[str, Any]:
    if isinstance(origin, Place):
        return {"file": origin.file, "line": origin.line, "path": origin.path}
    if isinstance(origin, Citation):
        return {"source": str(origin)}
    return {"figure": origin}


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "code": finding.code,
        "severity": finding.severity.value,
        "message": finding.message,
        "help": finding.help,
        "place": _origin(finding.place) if finding.place else None,
    }


def _report(report: ProcedureReport) -> dict[str, Any]:
    return {
        "procedure": report.procedure,
        "title": report.title,
        "with": list(report.variant),
        "battery": report.battery,
        "starts_from": report.starts_from,
        "ends_in": report.ends_in,
        "steps": report.steps,
        "steps_without_act": report.steps_without_act,
        "checks": list(report.checks),
        "ready": report.is_ready,
        "faults": [
            _finding(fault.finding)
            | {
                "step": fault.step,
                "led_there": [{"step": number, "do": text} for number, text in fault.trace],
            }
            for fault in report.faults
        ],
        "not_proved": list(report.not_proved),
    }


def _plain(value: Any) -> Any:
    """Turn frozen values into plain ones; a place becomes file and line, never a path of this machine."""
    if isinstance(value, Place | Citation):
        return _origin(value)
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: _plain(getattr(value, field.name)) for field in fields(value) if field.repr}
    if isinstance(value, Mapping):
        return {str(key): _plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(item) for item in value]
    return str(value) if isinstance(value, str) else value
