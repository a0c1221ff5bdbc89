"""Where something stands, what is to be said about it, and a record that was refused."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, order=True)
class Place:
    """A spot in one of the builder's files. Lines and columns count from 1, as editors show them."""

    file: str
    """Path relative to the project folder, with forward slashes."""
    line: int
    column: int
    path: str = ""
    """The path inside the record, such as ``weighing.supports[1].reading``."""
    text: str = ""
    """The whole source line, so that a message can show it."""

    def __str__(self) -> str:
        """Print file, line and column, as editors take them."""
        return f"{self.file}:{self.line}:{self.column}"


class Severity(StrEnum):
    """How much a finding weighs."""

    ERROR = "error"
    """The record cannot be used; nothing is written."""
    WARNING = "warning"
    """The dossier is written and says so at its top."""
    NOTE = "note"
    """Worth knowing; stands on the page that it concerns."""


@dataclass(frozen=True)
class Finding:
    """Something that the builder or the reader must know."""

    code: str
    """One of :data:`dossier.finding_codes.CODES`."""
    message: str
    """What is wrong, lower case, in the author's words."""
    help: str
    """What would be right, preferably a line that can be pasted."""
    place: Place | None = None
    severity: Severity = Severity.ERROR

    @property
    def sort_key(self) -> tuple[str, int, int, str, str]:
        """Order by file, line, column, then code."""
        place = self.place or Place("", 0, 0)
        return (place.file, place.line, place.column, self.code, self.message)

    def __str__(self) -> str:
        """Render as ``file:line:column: CODE sentence``, the line, a caret and a help line."""
        if self.place is None:
            return f"{self.code} {self.message}\n  help: {self.help}"
        lines = [f"{self.place}: {self.code} {self.message}"]
        if self.place.text:
            shown = self.place.text.replace("\t", " ")
            lines += [f"  | {shown}", "  | " + " " * (self.place.column - 1) + "^"]
        if self.place.path:
            lines.append(f"  at: {self.place.path}")
        lines.append(f"  help: {self.help}")
        return "\n".join(lines)


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Order findings by file and line; equal findings appear once."""
    return tuple(sorted(dict.fromkeys(findings), key=lambda finding: finding.sort_key))


class Rejected(Exception):  # noqa: N818 - the name says what happened to the record, it is not a fault of the program
    """The record was refused. Carries every problem, in order."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        """Put the problems in order; equal ones are told once."""
        self.findings = in_order(findings)
        super().__init__(f"{len(self.findings)} problem(s) in the record")

    def __reduce__(self) -> tuple[type[Rejected], tuple[tuple[Finding, ...]]]:
        """Travel whole from a worker process."""
        return type(self), (self.findings,)


def refuse_errors(findings: Iterable[Finding]) -> None:
    """Refuse the record if one of these is an error; warnings and notes alone pass.

    Raises:
        Rejected: with all of them.
    """
    told = tuple(findings)
    if any(finding.severity is Severity.ERROR for finding in told):
        raise Rejected(told)
