"""What is wrong with the entry of one assembly step: lots, ages, cure, tolerance, signatures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from dossier.findings import Finding, Place, Severity
from dossier.model.assembly import AssemblyStep, Material
from dossier.model.record import AssemblyEntry, LotUsed
from dossier.months import months_after
from dossier.results.assembly import PASSED, StepRecord
from dossier.results.assembly_cures import NO_RUNS, Runs, log_doubts, logged_cure, not_borne_out
from dossier.results.assembly_tolerances import FAILS, INCONCLUSIVE, held


@dataclass(frozen=True)
class Problem:
    """A fault of a record, with how it stands among what keeps a serial from delivery."""

    code: str
    message: str
    help: str
    place: Place | None
    state: str
    fails: bool = True
    blocks: bool = True
    subject: str = ""
    """What it concerns, in words."""

    @property
    def finding(self) -> Finding:
        """As a finding: the dossier is made, and says so at its top."""
        return Finding(self.code, self.message, self.help, self.place, Severity.WARNING)


def problems(
    record: StepRecord, materials: Mapping[str, Material], coverage: float | None, runs: Runs = NO_RUNS
) -> Iterator[Problem]:
    """Check the entry that counts, if it says that work was done.

    Args:
        record: a step with its entries.
        materials: of assembly.yaml.
        coverage: the one-sided probability of the usual decision rule, none for simple acceptance.
        runs: the logs of cures as read.
    """
    for problem in _of_entry(record, materials, coverage, runs):
        yield replace(problem, subject=record.title)


def _of_entry(
    record: StepRecord, materials: Mapping[str, Material], coverage: float | None, runs: Runs
) -> Iterator[Problem]:
    step, entry = record.step, record.entry
    if entry is None or entry.result == "open":
        return
    if not (record.is_accepted or record.is_undecided):
        yield from _tolerance(record, entry, coverage, runs)
        if step:
            yield from _ages(entry, materials)
            yield from _pot_life(entry, materials)
    if entry.result == "accepted with reason" and not entry.reason:
        yield Problem(
            "A012",
            f"{_named(record)} was accepted without a reason",
            "say why it may stay, behind  reason:",
            entry.place,
            "accepted without a reason",
        )
    if step:
        yield from _cure(record, step, entry, runs)
        yield from _lots(step, entry, materials)
        yield from _lacks(record, step, entry)


def _named(record: StepRecord) -> str:
    return f"the step {record.name or record.title!r}"


def _tolerance(
    record: StepRecord, entry: AssemblyEntry, coverage: float | None, runs: Runs
) -> Iterator[Problem]:
    judged = [*held(record.step, entry, coverage, runs)] if record.step else []
    said = [one.words for one in judged if one.outcome == FAILS]
    unclear = [one.words for one in judged if one.outcome == INCONCLUSIVE]
    place = entry.place_of_key("measured" if entry.measured else "cure" if entry.cure else "result")
    if said or entry.result == "out of tolerance":
        words = "; ".join(said) or "it is entered as out of tolerance"
        yield Problem(
            "A006",
            f"{_named(record)} is out of tolerance and nothing was decided: {words}",
            "do it again, or add a nonconformity that names the step, with its disposition",
            place,
            "out of tolerance",
        )
    elif unclear:
        yield Problem(
            "A015",
            f"{_named(record)} is too close to its limit to tell: {'; '.join(unclear)}",
            "measure again and better, or add a nonconformity that names the step, with its disposition",
            place,
            "too close to its limit to tell",
            fails=False,
        )


def _cure(record: StepRecord, step: AssemblyStep, entry: AssemblyEntry, runs: Runs) -> Iterator[Problem]:
    """What is stated of a cure is borne out by its log, and the log can be trusted."""
    logged = logged_cure(step.cure, entry, runs)
    if logged is None or entry.cure is None:
        return
    said = not_borne_out(logged)
    if said:
        yield Problem(
            "A022",
            f"{_named(record)} states a cure that its log does not bear out: {'; '.join(said)}",
            "state what the log shows, or name the log of this cure",
            entry.cure.place,
            "log does not bear out the cure",
        )
    if not (record.is_accepted or record.is_undecided):
        for doubt in log_doubts(logged):
            yield Problem(
                doubt.code, doubt.message, doubt.help, doubt.place, "log of the cure in doubt", fails=False
            )


def _ages(entry: AssemblyEntry, materials: Mapping[str, Material]) -> Iterator[Problem]:
    for used in entry.materials:
        last = last_day(used, materials)
        used_on = entry.date
        if last and used_on and used_on > last:
            yield Problem(
                "A004",
                f"lot {used.lot} of {used.material} was used on {used_on}, and its last day was {last}",
                "find out whether the work can stay, and add a nonconformity that names the step",
                used.place_of_key("lot"),
                "expired material",
            )


def _pot_life(entry: AssemblyEntry, materials: Mapping[str, Material]) -> Iterator[Problem]:
    """What was mixed is in its place before it sets; beyond its pot life a joint may look whole and be weak.

    Source: common practice, no source; the time is that of the maker's sheet, as the type states it.
    """
    for used in entry.materials:
        material = materials.get(str(used.material))
        if material is None or material.pot_life is None:
            continue
        if used.worked is None:
            yield Problem(
                "A005",
                f"lot {used.lot} of {used.material} has a pot life and no working time",
                "add  worked: ...  , from mixing until the last of it was in its place",
                used.place,
                "working time missing",
                fails=False,
            )
        elif used.worked.value > material.pot_life.value:
            yield Problem(
                "A021",
                f"lot {used.lot} of {used.material} was worked {used.worked.text} after mixing, and its pot "
                f"life is {material.pot_life.text}",
                "find out whether the work can stay, and add a nonconformity that names the step",
                used.place_of_key("worked"),
                "worked beyond its pot life",
            )


def last_day(used: LotUsed, materials: Mapping[str, Material]) -> date | None:
    """Return the last day on which a lot may be used; None if nothing limits it."""
    material = materials.get(str(used.material))
    if used.expires or not (material and material.shelf_life is not None and used.made):
        return used.expires
    return months_after(used.made, material.shelf_life)


def _lots(step: AssemblyStep, entry: AssemblyEntry, materials: Mapping[str, Material]) -> Iterator[Problem]:
    given = {str(used.material) for used in entry.materials}
    for name in step.materials:
        if str(name) not in given:
            yield Problem(
                "A005",
                f"the entry of {str(entry.step)!r} gives no lot of {str(name)!r}",
                f"add  materials: [{{material: {name}, lot: ...}}]",
                entry.place,
                "lot missing",
                fails=False,
            )
    for used in entry.materials:
        material = materials.get(str(used.material))
        if material and material.shelf_life is not None and last_day(used, materials) is None:
            yield Problem(
                "A005",
                f"lot {used.lot} of {used.material} has a shelf life and no date",
                "add  made: ...  or  expires: ...  from its label",
                used.place,
                "age of a lot missing",
                fails=False,
            )


def _lacks_signature(step: AssemblyStep, entry: AssemblyEntry) -> bool:
    """Of a critical step it is told with the second check."""
    return bool(step.checked_by and not entry.checked_by and not step.critical)


def _lacks_log(step: AssemblyStep, entry: AssemblyEntry) -> bool:
    return bool(step.cure and step.cure.log_asked and entry.cure and not entry.cure.log)


def _lacks(record: StepRecord, step: AssemblyStep, entry: AssemblyEntry) -> Iterator[Problem]:
    missing = [
        *(["its date"] if entry.date is None else []),
        *(["who did it"] if not entry.by else []),
        *([f"the signature of the {step.checked_by}"] if _lacks_signature(step, entry) else []),
        *(["the measured value"] if step.required and not entry.measured else []),
        *(["the log of the cure"] if step.cure and not entry.cure else []),
        *(["the log of the cure as a file"] if _lacks_log(step, entry) else []),
        *(["a photo or log"] if step.evidence and not entry.evidence else []),
    ]
    if missing and entry.result in PASSED:
        yield Problem(
            "A010",
            f"{_named(record)} is entered as {entry.result} without {', '.join(missing)}",
            "add what is missing, or enter it as open",
            entry.place,
            "not fully signed",
            fails=False,
        )
    if entry.by and entry.checked_by and entry.by == entry.checked_by and not step.critical:
        yield Problem(
            "A010",
            f"{_named(record)} was checked by {entry.by}, who did it",
            "have it checked by another person",
            entry.place_of_key("checked_by"),
            "not checked by another person",
            fails=False,
        )
