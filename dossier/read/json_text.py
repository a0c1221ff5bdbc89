"""JSON files as located data, so that a finding can show the line; YAML that is no JSON is refused."""

from __future__ import annotations

import json
from pathlib import Path

from dossier.findings import Finding, Place, Rejected
from dossier.located import LocatedMapping
from dossier.read.yaml_text import read_yaml


def read_json(path: Path, shown_as: str, largest: int) -> LocatedMapping:
    """Read one JSON file whose top level is an object.

    JSON is read by the reader of YAML, of which it is a subset, because that reader knows places and refuses
    a key that stands twice, deep nesting and invisible characters; that the text is JSON is made sure before.

    Args:
        path: where the file is.
        shown_as: how messages name it.
        largest: the largest size in bytes.

    Raises:
        Rejected: with every problem that could be found.
    """
    start = Place(shown_as, 1, 1)
    if not path.is_file():
        raise Rejected(
            [
                Finding(
                    "R014",
                    f"the file {shown_as!r} is not there",
                    "name the record file that the page of the list saved",
                )
            ]
        )
    size = path.stat().st_size
    if size > largest:
        raise Rejected(
            [
                Finding(
                    "R001",
                    f"the file has {size} bytes, more than the {largest} that such a file may have",
                    "name the record file that the page of the list saved",
                    start,
                )
            ]
        )
    _refuse_other_than_json(path.read_bytes(), shown_as)
    return read_yaml(path, shown_as)


def _refuse_other_than_json(content: bytes, shown_as: str) -> None:
    try:
        json.loads(content.decode(), parse_constant=_refuse_constant)
    except json.JSONDecodeError as error:
        line = error.doc.split("\n")[error.lineno - 1]
        raise Rejected(
            [
                _not_json(
                    error.msg[:1].lower() + error.msg[1:],
                    Place(shown_as, error.lineno, error.colno, "", line),
                )
            ]
        ) from None
    except UnicodeDecodeError:
        return  # the other reader says where
    except (ValueError, RecursionError) as error:
        raise Rejected([_not_json(str(error).split(";")[0], Place(shown_as, 1, 1))]) from None


def _refuse_constant(name: str) -> None:
    raise ValueError(f"{name} is no JSON")


def _not_json(what: str, place: Place) -> Finding:
    return Finding(
        "R015", f"the text is not JSON: {what}", "save the record file again from the page of the list", place
    )
