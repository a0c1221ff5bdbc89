"""A battery's test as a table of comma-separated values: columns by name, numbers checked, everything told at
once.

Headings are those of the open Battery Data Format, ``Test Time / s``, ``Voltage / V``, ``Current / A``, or
are named by the record. The sign of the current is not fixed there and stays as it is in the file.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from pathlib import Path

import numpy as np

from dossier.battery_log import BatteryLog, Column, LogColumns
from dossier.findings import Finding, Place, Rejected
from dossier.read.log_labels import LABELS, REQUIRED, Label, conversion, heading, is_headed, nearest, unit_of
from dossier.units import KINDS

LARGEST_LOG = 50_000_000
"""Bytes. A day at ten rows a second stays below."""
MOST_TOLD = 20
"""Faults in cells that are told one by one."""
_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?")
_CELL = Label("a cell", "V", "", "voltage")


def read_log(path: Path, shown_as: str, columns: LogColumns | None = None) -> BatteryLog:
    """Read one log.

    Args:
        path: where the file is.
        shown_as: how messages name it, relative to the project.
        columns: headings of columns, where they are not those of the open format.

    Returns:
        the columns in SI, one value a row; rows that are empty are left out.

    Raises:
        Rejected: with every problem that could be found.
    """
    return _Reader(shown_as, columns or LogColumns()).read(_text_of(path, shown_as))


def _text_of(path: Path, shown_as: str) -> str:
    start = Place(shown_as, 1, 1)
    size = path.stat().st_size
    if size > LARGEST_LOG:
        fault = f"the file has {size} bytes, more than the {LARGEST_LOG} that a log may have"
        raise Rejected([Finding("R001", fault, "keep one test a file, or fewer rows a second", start)])
    raw = path.read_bytes()
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        fault = f"the byte 0x{raw[error.start]:02x} is not UTF-8 text"
        raise Rejected([Finding("R002", fault, "save the file as UTF-8", Place(shown_as, line, 1))]) from None


class _Reader:
    """Turns the text of one log into columns."""

    def __init__(self, file: str, wanted: LogColumns) -> None:
        self.file = file
        self.wanted = wanted
        self.findings: list[Finding] = []

    def read(self, text: str) -> BatteryLog:
        rows = [(line, row) for line, row in self._rows(text) if any(field.strip() for field in row)]
        if len(rows) < 3:
            self._tell(
                "R020", "the log has fewer than two rows of values", "head the columns, one row a sample", 1
            )
            raise Rejected(self.findings)
        (first, headings), *body = rows
        names = [one.strip() for one in headings]
        if len(names) == 1 and ";" in names[0]:
            remedy = "part columns by commas and decimals by points"
            self._tell("R020", "the columns are parted by semicolons", remedy, first)
            raise Rejected(self.findings)
        found = self._found(names, first)
        body = [self._whole(line, row, len(names)) for line, row in body]
        made = {key: self._column(body, at, label, names[at]) for key, (at, label) in found.items()}
        if self.findings:
            raise Rejected(self._few())
        cells = {name: made.pop(name) for name in self.wanted.cells}
        return BatteryLog(self.file, tuple(line for line, _ in body), **made, cells=cells)

    def _rows(self, text: str) -> Iterator[tuple[int, list[str]]]:
        reader = csv.reader(io.StringIO(text, newline=""), strict=True)
        try:
            for row in reader:
                yield reader.line_num, row
        except csv.Error as error:
            self._tell(
                "R020", f"the table breaks off: {error}", "close every quotation mark", reader.line_num
            )
            raise Rejected(self.findings) from None

    def _tell(self, code: str, message: str, remedy: str, line: int, column: int = 1) -> None:
        self.findings.append(Finding(code, message, remedy, Place(self.file, line, column)))

    def _few(self) -> list[Finding]:
        told, left = self.findings[:MOST_TOLD], len(self.findings) - MOST_TOLD
        if left > 0 and told[-1].place:
            self._tell(
                "R022",
                f"{left} more faults like these follow",
                "correct these first",
                told[-1].place.line + 1,
            )
            told.append(self.findings[-1])
        return told

    def _found(self, names: list[str], line: int) -> dict[str, tuple[int, Label]]:
        """Find the place of each column among the headings."""
        found: dict[str, tuple[int, Label]] = {}
        for key, label in LABELS.items():
            named = getattr(self.wanted, key)
            places = [
                at for at, text in enumerate(names) if (text == named if named else is_headed(label, text))
            ]
            if len(places) == 1:
                found[key] = places[0], label
                self._look_at_unit(label, names[places[0]], line)
            elif places:
                fault = f"{len(places)} columns are headed as {label.name.lower()}"
                self._tell("R021", fault, "name the one that counts in the record", line)
            elif named or key in REQUIRED:
                self._missing(named or heading(label), names, line)
        for cell in self.wanted.cells:
            if cell in names:
                found[cell] = names.index(cell), _CELL
                self._look_at_unit(_CELL, cell, line)
            else:
                self._missing(cell, names, line)
        return found

    def _missing(self, wanted: str, names: list[str], line: int) -> None:
        near = nearest(wanted, names)
        hint = f"did you mean {near!r}? " if near else ""
        listed = ", ".join(names) if len(names) <= 12 else f"{len(names)} others"
        self._tell("R021", f"there is no column {wanted!r}", f"{hint}the file has: {listed}", line)

    def _look_at_unit(self, label: Label, text: str, line: int) -> None:
        if conversion(label, text) is None:
            units = ", ".join(KINDS[label.kind].spellings)
            fault = f"{unit_of(label, text)!r} is no unit of {label.name.lower()} in the heading {text!r}"
            self._tell("R021", fault, f"write for example {heading(label)!r}; units: {units}", line)

    def _whole(self, line: int, row: list[str], wanted: int) -> tuple[int, list[str]]:
        if len(row) != wanted:
            fault = f"the row has {len(row)} fields, and the head has {wanted}"
            self._tell(
                "R020", fault, "give every column a value in every row, with a point for decimals", line
            )
        return line, [*row, *[""] * (wanted - len(row))]

    def _column(self, body: list[tuple[int, list[str]]], at: int, label: Label, text: str) -> Column:
        factor, offset = conversion(label, text) or (1.0, 0.0)
        values = np.array([self._number(line, row[at].strip(), text) for line, row in body])
        return np.asarray(values * factor + offset)

    def _number(self, line: int, text: str, column: str) -> float:
        if _NUMBER.fullmatch(text):
            return float(text)
        fault = (
            f"{text!r} in the column {column!r} is no number" if text else f"the column {column!r} is empty"
        )
        self._tell("R022", fault, "write digits with a point, such as 58.4", line)
        return 0.0
