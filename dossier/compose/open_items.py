"""What fails and what is open: requirements, work, inspections, what is claimed in public."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier import units
from dossier.compose import links
from dossier.compose.verdict_words import OPEN
from dossier.compose.words import sentence
from dossier.dossier import Dossier
from dossier.judge.claim_result import Support
from dossier.judge.verdict import State, Verdict
from dossier.model.events import Inspection
from dossier.results.battery_outcome import Outcome
from dossier.results.maintenance import OVERDUE, past_words


@dataclass(frozen=True)
class OpenItem:
    """One thing that a reader must not overlook."""

    subject: str
    state: str
    """In words, such as ``does not conform``."""
    reason: str
    fails: bool
    """True for what is known to be wrong; false for what is only open."""
    address: str
    """Where it is told in full, from the root of the packet."""
    pages: tuple[str, ...]
    """The pages at whose top it stands, besides the cover."""


def open_items(dossier: Dossier) -> tuple[OpenItem, ...]:
    """List all of them, what is known to be wrong first."""
    found = [
        *_requirements(dossier),
        *_work(dossier),
        *_inspections(dossier),
        *_overdue(dossier),
        *_batteries(dossier),
        *_claims(dossier),
        *_weighing(dossier),
    ]
    return tuple(sorted(found, key=lambda item: not item.fails))


def _requirements(dossier: Dossier) -> Iterator[OpenItem]:
    for state in OPEN:
        for verdict in dossier.verdicts:
            if verdict.verdict is state:
                yield OpenItem(
                    f"{verdict.clause}, {verdict.statement.rstrip('.')}",
                    str(state),
                    sentence(verdict.reason),
                    state is State.DOES_NOT_CONFORM,
                    f"{links.CONFORMITY}#{links.anchor(verdict.requirement)}",
                    (links.DECLARATION, links.CONFORMITY, *_pages_of(verdict)),
                )


def _pages_of(verdict: Verdict) -> tuple[str, ...]:
    """A limit of mass concerns weight and balance, a limit of speed the flight tests among the records."""
    if verdict.figure is None:
        return ()
    if verdict.unit in units.KINDS["mass"].spellings:
        return (links.BALANCE,)
    return (links.RECORDS,) if verdict.unit in units.KINDS["speed"].spellings else ()


def _work(dossier: Dossier) -> Iterator[OpenItem]:
    address = f"{links.ASSEMBLY}#open-work"
    for block in dossier.assembly.blocks:
        yield OpenItem(
            block.subject, block.state, sentence(block.reason), block.fails, address, (links.ASSEMBLY,)
        )


def _inspections(dossier: Dossier) -> Iterator[OpenItem]:
    """The latest inspection says what is open; what only an earlier one named has been closed."""
    for event in dossier.state.of_kind(Inspection)[-1:]:
        for item in event.open_items:
            yield OpenItem(
                str(item),
                "open",
                f"Named at the latest inspection, of {event.date.isoformat()}.",
                False,
                f"{links.RECORDS}#events",
                (links.RECORDS, links.ASSEMBLY),
            )


def _overdue(dossier: Dossier) -> Iterator[OpenItem]:
    """What should have been done by now; on its own page the warning says it."""
    for item in dossier.maintenance.items if dossier.maintenance else ():
        if item.state == OVERDUE:
            reason = sentence(f"{'Its life ended' if item.is_life else 'It was due'} {past_words(item)} ago")
            yield OpenItem(item.name, OVERDUE, reason, True, f"{links.MAINTENANCE}#due", ())


def _batteries(dossier: Dossier) -> Iterator[OpenItem]:
    """A fitted battery below its retirement, or that its latest test does not accept."""
    address = f"{links.BATTERY}#acceptance"
    for pack in dossier.packs:
        held = pack.retirement
        if held and held.finding:
            below = held.outcome is Outcome.REJECTED
            state = "below the limit" if below else str(held.outcome)
            subject = f"Battery {held.pack}, capacity at which it is retired"
            yield OpenItem(subject, state, sentence(held.finding.message), below, address, (links.BATTERY,))
    for event in dossier.state.packs:
        log = dossier.capacity_logs.latest.get(str(event.pack))
        verdict = log.verdict if log else None
        if verdict and verdict.outcome is not Outcome.ACCEPTED:
            fails = verdict.outcome is Outcome.REJECTED
            subject = f"Battery {event.pack}, its latest test"
            yield OpenItem(
                subject, str(verdict.outcome), sentence(verdict.reason), fails, address, (links.BATTERY,)
            )


def _claims(dossier: Dossier) -> Iterator[OpenItem]:
    for claim in dossier.claims:
        if claim.result is not Support.SUPPORTED:
            yield OpenItem(
                f"Claim \u201c{claim.text}\u201d",
                str(claim.result),
                sentence(claim.reason),
                claim.result is Support.CONTRADICTED,
                f"{links.CLAIMS}#{links.anchor(claim.claim)}",
                (links.CLAIMS,),
            )


def _weighing(dossier: Dossier) -> Iterator[OpenItem]:
    if dossier.weighing is None:
        yield OpenItem(
            "Weighing",
            "not done",
            "Nothing that needs the mass of the aircraft can be shown.",
            False,
            links.BALANCE,
            (links.BALANCE,),
        )
