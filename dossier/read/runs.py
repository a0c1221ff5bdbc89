"""The runs of a flight test as a table of comma-separated values: each value a quantity with its place."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path

from dossier import units
from dossier.findings import Finding, Place, Rejected
from dossier.quantities import NotAQuantity, Quantity, parse

LARGEST = 1_000_000
"""Bytes: a flight test has tens of runs."""
_NUMBER = re.compile(r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)")
Field = tuple[int, str]
"""Column where a field begins, from 1, and its text."""


def read_runs(
    path: Path, shown_as: str, wanted: Mapping[str, tuple[str, str]], row: str = "run"
) -> list[dict[str, Quantity]]:
    """Read runs, one a row.

    Args:
        path: where the file is.
        shown_as: how messages name it, relative to the project.
        wanted: name of a quantity -> heading of its column and kind of its values.
        row: what a row is called.

    Raises:
        Rejected: with every problem that could be found, each with line and column.
    """
    start = Place(shown_as, 1, 1)
    if path.stat().st_size > LARGEST:
        fault = f"the table has more than {LARGEST} bytes"
        raise Rejected([Finding("R001", fault, f"keep the {row}s of one test in a file, or fewer", start)])
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Rejected([Finding("R002", "the table is not UTF-8", "save it as UTF-8", start)]) from None
    return _Reader(shown_as, wanted, row).read(text)


class _Reader:
    """Turns the text of one table into runs."""

    def __init__(self, file: str, wanted: Mapping[str, tuple[str, str]], row: str) -> None:
        self.file = file
        self.row = row
        self.wanted = wanted
        self.findings: list[Finding] = []

    def read(self, text: str) -> list[dict[str, Quantity]]:
        lines = [(number, line) for number, line in enumerate(text.splitlines(), 1) if line.strip(" ,;")]
        if len(lines) < 2:
            self._tell(
                "R020", f"the table has no {self.row}", f"head the columns, one row a {self.row}", (1, 1)
            )
            raise Rejected(self.findings)
        (first, head), *body = lines
        headings = [(column, one.strip()) for column, one in self._fields(first, head)]
        found = {name: self._found(name, headings, first) for name in self.wanted}
        if self.findings:
            raise Rejected(self.findings)
        runs = [self._run(number, self._fields(number, line), headings, found) for number, line in body]
        if self.findings:
            raise Rejected(self.findings)
        return runs

    def _tell(self, code: str, message: str, remedy: str, at: tuple[int, int]) -> None:
        self.findings.append(Finding(code, message, remedy, Place(self.file, *at)))

    def _fields(self, number: int, line: str) -> list[Field]:
        """Part a line by its commas; a quoted field may hold some."""
        fields = list(_parted(line))
        if fields[-1][1].startswith('"'):
            self._tell(
                "R020", "a quotation mark is not closed", "close it on its line", (number, fields[-1][0])
            )
        return fields

    def _found(self, name: str, headings: list[Field], line: int) -> tuple[int, str]:
        """Return the place of a column among the headings, and its unit."""
        heading, kind = self.wanted[name]
        places = [at for at, (_, text) in enumerate(headings) if text == heading]
        if len(places) != 1:
            found = "no column is" if not places else f"{len(places)} columns are"
            named = ", ".join(repr(text) for _, text in headings)
            fault = f"{found} headed {heading!r}, which {name} names"
            self._tell("R021", fault, f"the headings are {named}", (line, 1))
            return 0, ""
        unit = heading.partition("/")[
            2
        ].strip()  # the first stroke: a unit may have one of its own, as in km/h
        if unit not in units.KINDS[kind].spellings:
            fault = f"the heading {heading!r} gives no unit of {kind} that is known"
            example = units.KINDS[kind].example.split()[-1]
            self._tell("R021", fault, f"write the unit behind a stroke, such as / {example}",
                       (line, headings[places[0]][0]))  # fmt: skip
        return places[0], unit

    def _run(
        self, number: int, row: list[Field], headings: list[Field], found: Mapping[str, tuple[int, str]]
    ) -> dict[str, Quantity]:
        if len(row) != len(headings):
            fault = f"the row has {len(row)} fields, and the heading {len(headings)}"
            remedy = "give every column a value in every row, with a point for decimals"
            self._tell("R020", fault, remedy, (number, row[-1][0]))
            return {}
        run = {}
        for name, (at, unit) in found.items():
            column, text = row[at][0], row[at][1].strip()
            try:
                run[name] = self._quantity(text, unit, name, Place(self.file, number, column))
            except NotAQuantity:
                shown = f"{text!r} in the column {headings[at][1]!r} is no number"
                fault = shown if text else f"the column {headings[at][1]!r} is empty"
                self._tell("R022", fault, "write digits with a point, such as 58.4", (number, column))
        return run

    def _quantity(self, text: str, unit: str, name: str, place: Place) -> Quantity:
        kind = self.wanted[name][1]
        if not _NUMBER.fullmatch(text):
            raise NotAQuantity(f"{text!r} is no number", "write digits with a point")
        return parse(f"{text} {unit}", kind, place)


def _parted(line: str) -> Iterator[Field]:
    """Part a line by commas outside quotation marks; an open quotation keeps its mark."""
    start, quoted = 0, False
    for at, sign in enumerate(line + ","):
        if sign == '"':
            quoted = not quoted
        if at == len(line) or (sign == "," and not quoted):
            text = line[start:at]
            closed = len(text) > 1 and text.startswith('"') and text.endswith('"')
            yield start + 1, text[1:-1].replace('""', '"') if closed and not quoted else text
            start = at + 1
