"""A fault of a procedure: what is wrong, where, and the steps that led there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from dossier.findings import Finding, Place, Severity
from dossier.procedures.listing import Listing, Step
from dossier.procedures.run import Run


@dataclass(frozen=True)
class Fault:
    """Something in a procedure that can hurt, or that a reader stumbles over."""

    finding: Finding
    procedure: str
    """The file without its ending."""
    step: int | None
    """The number of the step in the list of this variant; None for the list as a whole."""
    trace: tuple[tuple[int, str], ...]
    """The steps that led there: number and text."""

    @property
    def is_of_safety(self) -> bool:
        """Whether the list may not be worked from until it is put right."""
        return self.finding.severity is not Severity.NOTE


def at_step(run: Run, code: str, step: Step, words: tuple[str, str], about: Iterable[str] = ()) -> Fault:
    """Make a fault of one step.

    Args:
        run: the replay.
        code: of :data:`dossier.finding_codes.CODES`.
        step: where it is.
        words: what is wrong, and what would be right.
        about: objects whose story is told with it.
    """
    began = f", begun from the stop point {run.begun_at!r}" if run.begun_at else ""
    finding = Finding(code, words[0] + began, words[1], step.place, Severity.WARNING)
    return Fault(finding, run.listing.name, step.number, _trace(run, set(about), step))


def at_end(run: Run, code: str, words: tuple[str, str], about: Iterable[str] = ()) -> Fault:
    """Make a fault of the list as a whole; it stands at the last step that had to do with it, else at the
    head."""
    began = f", begun from the stop point {run.begun_at!r}" if run.begun_at else ""
    names = set(about)
    last = next((moment.doing.step for moment in reversed(run.moments) if moment.name in names), None)
    place = last.place if last else head(run.listing)
    finding = Finding(code, words[0] + began, words[1], place, Severity.WARNING)
    return Fault(finding, run.listing.name, last.number if last else None, _trace(run, names, None))


def of_text(
    listing: Listing, code: str, step: Step | None, words: tuple[str, str], place: Place | None = None
) -> Fault:
    """Make a fault of the wording, of a step or of the list as a whole: a note, not a matter of safety."""
    return _of_listing(listing, code, step, words, (place, Severity.NOTE))


def of_words(
    listing: Listing, code: str, step: Step, words: tuple[str, str], place: Place | None = None
) -> Fault:
    """Make a fault of what a step says: whoever follows the words does something wrong."""
    return _of_listing(listing, code, step, words, (place, Severity.WARNING))


def of_list(listing: Listing, code: str, words: tuple[str, str], place: Place | None) -> Fault:
    """Make a fault of what the head of a list says."""
    return _of_listing(listing, code, None, words, (place, Severity.WARNING))


def _of_listing(
    listing: Listing,
    code: str,
    step: Step | None,
    words: tuple[str, str],
    where: tuple[Place | None, Severity],
) -> Fault:
    place, severity = where
    finding = Finding(code, *words, place or (step.place if step else head(listing)), severity)
    return Fault(finding, listing.name, step.number if step else None, ())


def head(listing: Listing) -> Place | None:
    """Return the first line of a procedure."""
    return listing.procedure.place_of_key("title")


def _trace(run: Run, names: set[str], until: Step | None) -> tuple[tuple[int, str], ...]:
    steps = dict.fromkeys(
        moment.doing.step
        for moment in run.moments
        if moment.name in names and (until is None or moment.doing.step.number <= until.number)
    )
    return tuple((step.number, str(step.written.do)) for step in steps)
