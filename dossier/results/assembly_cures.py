"""The cures of a serial whose logs are files: what each log comes to, and whether it bears out what the entry
states."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from dossier import units
from dossier.compute.log_cure import CureFigures, cure_doubts, cure_figures, time_above
from dossier.cure_log import CureRun
from dossier.findings import Finding
from dossier.model.assembly import Cure
from dossier.model.record import AssemblyEntry
from dossier.quantities import Quantity

Runs = Mapping[tuple[str, str, str], CureRun]
"""File and headings of a log, as ``CureFile.key`` -> the log as read."""
NO_RUNS: Runs = MappingProxyType({})


@dataclass(frozen=True)
class LoggedCure:
    """A cure as its log has it, beside what the step asks and what the entry states."""

    due: Cure
    entry: AssemblyEntry
    run: CureRun
    figures: CureFigures
    time_uncertainty: float
    """Standard uncertainty in s: how far the time moves with the error of the thermometer."""

    @property
    def temperature_uncertainty(self) -> float:
        """Standard uncertainty of the thermometer in K."""
        return self.entry.cure.log.standard_uncertainty if self.entry.cure and self.entry.cure.log else 0.0


def logged_cure(due: Cure | None, entry: AssemblyEntry, runs: Runs) -> LoggedCure | None:
    """Evaluate the log of an entry; None where none is asked for or named."""
    stated = entry.cure
    run = runs.get(stated.log.key) if stated and stated.log else None
    if due is None or stated is None or stated.log is None or run is None:
        return None
    limit, error = due.lowest.value, stated.log.standard_uncertainty
    moved = abs(time_above(run, limit + error) - time_above(run, limit - error)) / 2
    return LoggedCure(due, entry, run, cure_figures(run, limit), moved)


def log_doubts(cure: LoggedCure) -> Iterator[Finding]:
    """Tell what lets a log be doubted."""
    yield from cure_doubts(cure.run, cure.due.lowest.value, cure.due.highest.value)


def not_borne_out(cure: LoggedCure) -> list[str]:
    """Say in words which stated value its log does not bear out: a longer time, a higher lowest or a lower
    highest temperature than logged.

    A difference is told if it is more than half the last digit as written, and twice the standard
    uncertainty of the log. What is stated worse than it was is borne out.
    """
    stated, found = cure.entry.cure, cure.figures
    assert stated is not None, "a cure with a log has an entry that names it"
    own, warm = 2 * cure.temperature_uncertainty, cure.due.lowest.text
    said = []
    if stated.time.value - found.time > _last_digit(stated.time) + 2 * cure.time_uncertainty:
        said.append(
            f"{stated.time.text} stated, and {in_unit_of(stated.time, found.time)} at {warm} or above"
        )
    if found.lowest is not None and stated.lowest.value - found.lowest > _last_digit(stated.lowest) + own:
        said.append(f"lowest {stated.lowest.text} stated, and {in_unit_of(stated.lowest, found.lowest)}")
    if found.highest - stated.highest.value > _last_digit(stated.highest) + own:
        said.append(f"highest {stated.highest.text} stated, and {in_unit_of(stated.highest, found.highest)}")
    return said


def _last_digit(quantity: Quantity) -> float:
    """Half the last digit of a value as written, in SI."""
    number = Decimal(quantity.text.split("±")[0].split(quantity.unit)[0].strip())
    factor, _ = units.scale(quantity.kind, quantity.unit)
    return factor * 0.5 * 10.0 ** int(number.as_tuple().exponent) + 1e-9


def in_unit_of(written: Quantity, value: float) -> str:
    """Write a value of a log in the unit of a written one, with four digits."""
    factor, offset = units.scale(written.kind, written.unit)
    return f"{(value - offset) / factor:.4g} {written.unit}"
