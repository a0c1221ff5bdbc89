"""How the columns of a shipped table are read: plain numbers in the unit that the head of the file names."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TypeVar

from dossier.model.base import Part
from dossier.model.scalars import Number
from dossier.model.validation import validate
from dossier.read.yaml_text import read_yaml

FOLDER = Path(__file__).parent
Table = TypeVar("Table", bound=Part)


class Columns(Part):
    """A value over the state of charge."""

    state_of_charge: list[Number]
    value: list[Number]


def numbers(column: list[Number]) -> list[float]:
    """Return a column as floats."""
    return [one.value for one in column]


@cache
def read_table(model: type[Table], file: str) -> Table:
    """Read one file of this folder.

    Raises:
        Rejected: the file is broken.
    """
    return validate(model, read_yaml(FOLDER / file, f"dossier/tables/{file}"))
