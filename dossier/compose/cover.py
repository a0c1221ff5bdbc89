"""The cover: what this aircraft is, what it weighs and how that is known, and what is still open."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose import left_out, links, other_batteries, verdict_numbers
from dossier.compose.changes import since_weighing
from dossier.compose.cover_figures import cards
from dossier.compose.edition import document_number, edition_words, reason, state_words
from dossier.compose.environment import render
from dossier.compose.governing import governing, is_of_empty_mass
from dossier.compose.grid import Cell, Grid, grid, row
from dossier.compose.notices import Notices, findings_on, made
from dossier.compose.open_items import open_items
from dossier.compose.packet import Page
from dossier.compose.printer import Printed, Printer
from dossier.compose.status import status
from dossier.compose.verdict_words import verdict_mark
from dossier.compose.words import counted, listed, sentence
from dossier.display import with_doubt
from dossier.dossier import Dossier
from dossier.findings import Severity
from dossier.judge.declaration import NOT_AN_APPROVAL
from dossier.model.events import Edition

IS_NOT = (
    NOT_AN_APPROVAL,
    (
        "It does not replace the law of the place where the aircraft is flown, the training of its pilot, "
        "or the work of a person who is licensed to inspect it."
    ),
    "It tells the state of one aircraft on one day. Whatever was changed after that day is not in it.",
    (
        "A number here is as good as the measurement behind it. Each one leads to its working sheet "
        "and to the line of the record that it comes from."
    ),
)


PLACES = {
    links.CONFORMITY: "conformity",
    links.BALANCE: "weight and balance",
    links.BATTERY: "the battery",
    links.ENERGY: "the energy",
    links.PERFORMANCE: "the performance",
    links.CLAIMS: "the claims",
    links.MAINTENANCE: "the maintenance",
    links.ASSEMBLY: "the assembly",
    links.COVER: "the files of the type",
}
"""The pages on which warnings and notes stand, as a sentence names them."""


def pages(dossier: Dossier) -> tuple[Page, ...]:
    """Make the cover."""
    at = Printer(dossier, links.COVER)
    identification = dossier.project.aircraft.identification
    weight = governing(dossier)
    text = render(
        "index.md.jinja",
        title=f"{identification.name}, serial number {dossier.record.serial_number}",
        description=str(identification.description),
        status=status(dossier).words,
        top=_top(at),
        remarks=_remarks(at),
        pointers=_pointers(at),
        cards=cards(at),
        words=at.to(links.WORDS),
        weight=_weight(at) if weight else None,
        mark=verdict_mark(weight.verdict) if weight else None,
        measured=measured_words(dossier),
        links={
            page: at.to(page)
            for page in (links.BALANCE, links.CONFORMITY, links.DECLARATION, links.RECORDS, links.WORKING)
        },
        identity=_identity(dossier),
        editions=_editions(at),
        is_not=IS_NOT,
    )
    return (Page(links.COVER, "Cover", "", text),)


@dataclass(frozen=True)
class Empty:
    """The empty mass, its uncertainty apart so that the reader can ask what k = 2 is."""

    value: str
    uncertainty: str
    coverage: str
    """What stood behind the uncertainty in brackets."""


def _empty(figure: Printed) -> Empty:
    both = f"{figure.first} ({figure.other})" if figure.other else figure.first
    uncertainty, _, coverage = figure.uncertainty.partition(" (")
    return Empty(both, with_doubt("", uncertainty), coverage.removesuffix(")"))


def _weight(at: Printer) -> dict[str, str | Empty]:
    """The empty mass against the requirement that governs, in words."""
    verdict = governing(at.dossier)
    assert verdict is not None
    rule_set = at.dossier.rule_sets[verdict.rule_set]
    figure = at.dossier.figures.get(verdict.figure or "")
    mass = at.dossier.empty.fitted or at.dossier.empty.without_battery if at.dossier.empty else None
    what = (
        "Empty mass"
        if is_of_empty_mass(at.dossier, verdict)
        else "No rule relied on limits the empty mass: the mass"
    )
    return {
        "caption": f"{what} against the requirement that leaves the least room",
        "empty": _empty(at.figure(mass[0])) if mass else "",
        "empty_sheet": at.sheet(mass[0].name) if mass else "",
        "left_out": sentence(left_out.items_words(verdict)),
        "margin": verdict_numbers.margin_words(verdict) or sentence(verdict.reason),
        "value": verdict_numbers.value(verdict),
        "sheet": at.sheet(figure.name) if figure else "",
        "rule": f"{rule_set.title}, {verdict.clause}",
        "basis": verdict.basis,
        "batteries": ". ".join(other_batteries.words(at.dossier, verdict)),
        "link": at.to(f"{links.CONFORMITY}#{links.anchor(verdict.requirement)}"),
    }


def measured_words(dossier: Dossier) -> str:
    """Say when, where and how the aircraft was weighed, and what was changed since."""
    if dossier.weighing is None:
        return "The aircraft has not been weighed by this date."
    event = dossier.weighing.event
    certificates = sorted(
        {f"{scale.certificate} of {scale.calibrated.isoformat()}" for scale in event.scales.values()}
    )
    changes = since_weighing(dossier).words
    since = f" Carried on by what was changed since: {changes}." if changes else ""
    supports, scales = counted(len(event.supports), "support"), counted(len(event.scales), "scale")
    papers = f"{counted(len(certificates), 'certificate')}: {listed(certificates)}"
    return f"Weighed on {event.date.isoformat()} by {event.by}, on {supports} and {scales}, {papers}.{since}"


def _top(at: Printer) -> Notices:
    """All open points. Claims are counted and led to, so that the list stays short enough to be read."""
    return made(
        at, [item for item in open_items(at.dossier) if not item.address.startswith(links.CLAIMS)], ()
    )


def _remarks(at: Printer) -> Notices:
    """The warnings and notes that stand on no other page."""
    return made(at, (), findings_on(at.dossier, at.page))


def _pointers(at: Printer) -> tuple[Cell, ...]:
    """Lead to the claims that are not supported and to the warnings and notes."""
    return (*_claims(at), *_warnings(at))


def _claims(at: Printer) -> Iterator[Cell]:
    claims = [item for item in open_items(at.dossier) if item.address.startswith(links.CLAIMS)]
    counts = [
        (sum(item.state == state for item in claims), state)
        for state in ("contradicted", "not supported", "not shown")
    ]
    if claims:
        of = counted(len(at.dossier.claims), "published claim")
        yield Cell(
            f"Of {of}: {listed(f'{number} {state}' for number, state in counts if number)}",
            at.to(links.CLAIMS),
        )


def _warnings(at: Printer) -> Iterator[Cell]:
    for page, title in PLACES.items():
        here = findings_on(at.dossier, page)
        warnings = sum(finding.severity is Severity.WARNING for finding in here)
        words = [
            *([f"{warnings} {'warning' if warnings == 1 else 'warnings'}"] if warnings else []),
            *(
                [f"{len(here) - warnings} {'note' if len(here) - warnings == 1 else 'notes'}"]
                if len(here) > warnings
                else []
            ),
        ]
        if here:
            yield Cell(
                f"{listed(words)} on {title}", at.to(page if page != links.COVER else f"{page}#remarks")
            )


def _identity(dossier: Dossier) -> tuple[tuple[str, str], ...]:
    aircraft, build = dossier.project.aircraft, dossier.record.build
    fitted = [
        f"{pack.pack} ({dossier.project.battery.options[pack.option].name})" for pack in dossier.state.packs
    ]
    completed = build.completed.isoformat() if build.completed else "not completed"
    return (
        ("Document number", document_number(dossier)),
        ("Designation", f"{aircraft.identification.designation}, {aircraft.identification.layout}"),
        ("Edition", ", ".join(words for words in (edition_words(dossier), state_words(dossier)) if words)),
        ("Reason for this edition", reason(dossier) or _no_reason(dossier)),
        ("Builder", f"{aircraft.builder.name}, {', '.join(aircraft.builder.address)}"),
        ("Built", f"{build.started.isoformat()} to {completed}, {build.built_at}"),
        ("Drawings", build.drawings),
        ("Battery fitted", listed(fitted) or "none"),
    )


def _no_reason(dossier: Dossier) -> str:
    """A draft has none yet; the edition before it had one, which stands in the list of editions."""
    issued = dossier.state.edition
    return f"not issued yet; edition {issued.letter} was the last" if issued else "none issued yet"


def _editions(at: Printer) -> Grid | None:
    issued = at.dossier.state.of_kind(Edition)
    rows = [row(str(one.letter), one.date.isoformat(), str(one.reason), str(one.by)) for one in issued]
    return (
        grid("Issued editions, oldest first", "Edition | = Date | Reason | Issued by", rows) if rows else None
    )
