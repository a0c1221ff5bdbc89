"""A strict subset of YAML 1.2: every scalar stays the author's text, and every surprise is an error
with a place.

The usual loader turns ``0012`` into 10, ``12:30`` into 750 and ``no`` into false, and keeps the last of
two equal keys without a word. Here the text is composed into nodes and never constructed: types come
from the model.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import yaml

from dossier.findings import Finding, Place, Rejected
from dossier.located import LocatedList, LocatedMapping, LocatedText

LARGEST_FILE = 2_000_000
"""Bytes. A record of a whole life stays far below; a larger file is the wrong file."""
DEEPEST = 40
"""Levels of nesting."""

_NULL = {"", "~", "null", "Null", "NULL"}  # YAML 1.2.2, 10.3.2, core schema
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\u200b-\u200f\u2028-\u202e\u2066-\u2069\ufeff]")
_PLAIN = (None, "", ":")
"""How the two parsers of PyYAML mark a scalar without quotes."""
_LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


def read_yaml(path: Path, shown_as: str) -> LocatedMapping:
    """Read one file whose top level is a mapping.

    Args:
        path: where the file is.
        shown_as: how messages name it, relative to the project.

    Raises:
        Rejected: with every problem that could be found.
    """
    return _Reader(shown_as, _text_of(path, shown_as)).document()


def _text_of(path: Path, shown_as: str) -> str:
    start = Place(shown_as, 1, 1)
    size = path.stat().st_size
    if size > LARGEST_FILE:
        raise Rejected(
            [
                Finding(
                    "R001",
                    f"the file has {size} bytes, more than the {LARGEST_FILE} that a record file may have",
                    "split the file, or move bulk data into an evidence file",
                    start,
                )
            ]
        )
    raw = path.read_bytes()
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        column = error.start - (raw.rfind(b"\n", 0, error.start) + 1) + 1
        raise Rejected(
            [
                Finding(
                    "R002",
                    f"the byte 0x{raw[error.start]:02x} is not UTF-8 text",
                    "save the file as UTF-8",
                    Place(shown_as, line, column),
                )
            ]
        ) from None
    return text.removeprefix("\ufeff").replace("\r\n", "\n")


class _Reader:
    """One file on its way from text to located data; collects findings as it goes."""

    def __init__(self, file: str, text: str) -> None:
        self.file = file
        self.text = text
        self.lines = text.split("\n")
        self.findings: list[Finding] = []

    def document(self) -> LocatedMapping:
        self._check_characters()
        root = self._compose()
        if not isinstance(root, yaml.MappingNode):
            raise Rejected(
                [
                    *self.findings,
                    Finding(
                        "R003",
                        "the file holds no keys"
                        if root is None
                        else "the file is not a mapping of keys to values",
                        "start with a key and a colon, such as  identification:",
                        Place(self.file, 1, 1, "", self.lines[0]),
                    ),
                ]
            )
        value = self._mapping(root, "", 1)
        if self.findings:
            raise Rejected(self.findings)
        return value

    def _check_characters(self) -> None:
        for number, line in enumerate(self.lines, 1):
            indent = len(line) - len(line.lstrip(" \t"))
            if "\t" in line[:indent]:
                self._say(
                    "R004",
                    "a tab stands in the indentation",
                    "indent with spaces",
                    self._at(number, line.index("\t") + 1),
                )
            bad = _CONTROL.search(line)
            if bad:
                self._say(
                    "R005",
                    f"the invisible character U+{ord(bad[0]):04X} stands here",
                    "delete it",
                    self._at(number, bad.start() + 1),
                )
        if self.findings:
            raise Rejected(self.findings)  # the composer would stumble over the same characters

    def _compose(self) -> yaml.Node | None:
        loader = _LOADER(self.text)
        try:
            self._refuse_extras()
            return loader.get_single_node()
        except yaml.MarkedYAMLError as error:
            raise Rejected([self._from_yaml(error)]) from None
        except yaml.YAMLError as error:
            raise Rejected(
                [
                    Finding(
                        "R006",
                        f"the file is not YAML: {error}",
                        "save the file again as plain text",
                        Place(self.file, 1, 1),
                    )
                ]
            ) from None
        except RecursionError:
            raise Rejected(
                [
                    Finding(
                        "R007",
                        f"the nesting is deeper than {DEEPEST} levels",
                        "flatten it",
                        Place(self.file, 1, 1),
                    )
                ]
            ) from None
        finally:
            loader.dispose()

    def _refuse_extras(self) -> None:
        """Refuse anchors, aliases and tags: a record says each thing where it stands."""
        for event in yaml.parse(self.text, Loader=_LOADER):
            mark: Any = event.start_mark  # of the C parser or of the other: the stubs know two
            place = self._at(mark.line + 1, mark.column + 1) if mark is not None else Place(self.file, 1, 1)
            anchor = getattr(event, "anchor", None)
            if isinstance(event, yaml.AliasEvent):
                self._say("R009", f"an alias (*{anchor}) stands here", "write the value out", place)
            elif anchor:
                self._say(
                    "R009",
                    f"an anchor (&{anchor}) stands here",
                    "delete it, and write the value out where it is used",
                    place,
                )
            if getattr(event, "tag", None):
                self._say(
                    "R010",
                    "a tag (!) stands here",
                    "delete it: the kind of a value comes from its key",
                    place,
                )
        if self.findings:
            raise Rejected(self.findings)  # aliases of aliases would be walked once for each of their uses

    def _from_yaml(self, error: yaml.MarkedYAMLError) -> Finding:
        mark: Any = (
            error.problem_mark or error.context_mark
        )  # of the C parser or of the other: the stubs know two
        place = self._at(mark.line + 1, mark.column + 1) if mark is not None else Place(self.file, 1, 1)
        problem = (error.problem or "cannot be read").removeprefix("found ")
        if (
            "expected a single document" in f"{error.context} {error.problem}"
            or "another document" in problem
        ):
            return Finding(
                "R008", "a second document starts here (---)", "keep one document in a file", place
            )
        context = f" {error.context}" if error.context else ""
        return Finding(
            "R006",
            f"the YAML cannot be read{context}: {problem}",
            "check the indentation, the colons and the quotes here and in the line above",
            place,
        )

    def _value(self, node: yaml.Node, path: str, depth: int) -> Any:
        place = self._place(node, path)
        if depth > DEEPEST:
            self._say("R007", f"the nesting is deeper than {DEEPEST} levels", "flatten it", place)
            return None
        if isinstance(node, yaml.MappingNode):
            return self._mapping(node, path, depth)
        if isinstance(node, yaml.SequenceNode):
            items = LocatedList(place)
            items.extend(
                self._value(item, f"{path}[{index}]", depth + 1) for index, item in enumerate(node.value)
            )
            return items
        quoted = getattr(node, "style", None) not in _PLAIN
        if not quoted and node.value in _NULL:
            return None
        return LocatedText(node.value, place, quoted=quoted)

    def _mapping(self, node: yaml.MappingNode, path: str, depth: int) -> LocatedMapping:
        mapping = LocatedMapping(self._place(node, path))
        for key_node, value_node in node.value:
            if not isinstance(key_node, yaml.ScalarNode):
                self._say(
                    "R011",
                    "a list or mapping stands where a key is due",
                    "write a plain word and a colon",
                    self._place(key_node, path),
                )
                continue
            key = key_node.value
            place = self._place(key_node, f"{path}.{key}" if path else key)
            if key == "<<":
                self._say("R009", "a merge key (<<) stands here", "write the keys out", place)
            elif key in mapping:
                first = mapping.key_places[key].line
                self._say(
                    "R012",
                    f"the key {key!r} is here twice; it stands first in line {first}",
                    "keep one of them",
                    place,
                )
            else:
                mapping.key_places[key] = place
                mapping[LocatedText(key, place)] = self._value(value_node, place.path, depth + 1)
        return mapping

    def _place(self, node: yaml.Node, path: str) -> Place:
        return self._at(node.start_mark.line + 1, node.start_mark.column + 1, path)

    def _at(self, line: int, column: int, path: str = "") -> Place:
        text = self.lines[line - 1] if line <= len(self.lines) else ""
        return Place(self.file, line, column, path, text)

    def _say(self, code: str, message: str, remedy: str, place: Place) -> None:
        self.findings.append(Finding(code, message, remedy, place))
