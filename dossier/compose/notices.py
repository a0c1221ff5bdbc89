"""What stands at the top of a page: what fails or is open there, and what the builder must look at."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from dossier.compose import links
from dossier.compose.open_items import OpenItem, open_items
from dossier.compose.printer import Printer
from dossier.compose.words import counted, listed, sentence
from dossier.dossier import Dossier
from dossier.findings import Finding, Severity


@dataclass(frozen=True)
class Item:
    """One line of the list, with its link as the page needs it."""

    subject: str
    state: str
    reason: str
    link: str


@dataclass(frozen=True)
class Remark:
    """A warning or a note."""

    code: str
    severity: str
    message: str
    help: str
    place: str


@dataclass(frozen=True)
class Notices:
    """The top of a page."""

    heading: str
    items: tuple[Item, ...]
    fails: bool
    findings: tuple[Remark, ...]
    findings_heading: str


def notices(at: Printer) -> Notices:
    """Collect what concerns one page."""
    items = [item for item in open_items(at.dossier) if at.page in item.pages]
    return made(at, items, findings_on(at.dossier, at.page))


def made(at: Printer, items: Iterable[OpenItem], findings: Iterable[Finding]) -> Notices:
    """Make the top of a page from what concerns it."""
    listing, remarks = tuple(items), tuple(_remark(finding) for finding in findings)
    return Notices(
        heading(listing),
        tuple(Item(item.subject, item.state, item.reason, at.to(item.address)) for item in listing),
        any(item.fails for item in listing),
        remarks,
        sentence(f"{counted(len(remarks), 'remark')} on the record").rstrip("."),
    )


def heading(items: tuple[OpenItem, ...]) -> str:
    """Say how many points fail and how many are open."""
    fails = sum(item.fails for item in items)
    left = len(items) - fails
    parts = [
        *([f"{counted(fails, 'point')} {'does' if fails == 1 else 'do'} not hold"] if fails else []),
        *([f"{counted(left, 'point')} {'is' if left == 1 else 'are'} open"] if left else []),
    ]
    return sentence(listed(parts)).rstrip(".")


def _remark(finding: Finding) -> Remark:
    place = f"{finding.place.file}:{finding.place.line}" if finding.place else ""
    word = "Warning:" if finding.severity is Severity.WARNING else "Note:"
    return Remark(finding.code, word, sentence(finding.message), finding.help.rstrip("."), place)


def findings_on(dossier: Dossier, page: str) -> tuple[Finding, ...]:
    """List the findings that concern a page."""
    return tuple(finding for finding in dossier.findings if page_of(dossier, finding) == page)


def page_of(dossier: Dossier, finding: Finding) -> str:
    """Say on which page a finding stands: that of the result it came with, else by the file it points at."""
    results = (
        (links.BALANCE, dossier.weighing.findings if dossier.weighing else ()),
        (links.BALANCE, dossier.loadings.findings if dossier.loadings else ()),
        (links.BATTERY, tuple(one for pack in dossier.packs for one in pack.findings)),
        (links.ENERGY, dossier.energy.findings if dossier.energy else ()),
        (links.PERFORMANCE, dossier.performance.findings if dossier.performance else ()),
        (links.ENERGY, dossier.modelled.findings),
        (links.BATTERY, dossier.capacity_logs.findings),
        (links.WIRING, dossier.wiring.findings),
        (links.BATTERY, dossier.battery_years.findings),
    )
    for page, findings in results:
        if finding in findings:
            return page
    return _by_file(dossier, finding)


def _by_file(dossier: Dossier, finding: Finding) -> str:
    file, path = (finding.place.file, finding.place.path) if finding.place else ("", "")
    if file == "compliance.yaml" and path.startswith("claims"):
        return links.CLAIMS
    if finding.code.startswith("F") or path.startswith("aerodynamics"):
        return links.PERFORMANCE if dossier.performance else links.COVER
    if finding.code.startswith("J") or file == "compliance.yaml" or file.startswith("rule_sets/"):
        return links.CONFORMITY
    if finding.code.startswith("W"):
        return links.BALANCE
    if finding.code.startswith("S") or file == "maintenance.yaml":
        return links.MAINTENANCE
    if file == "battery.yaml":
        return links.BATTERY
    return links.ASSEMBLY if file.startswith("serials/") else links.COVER
