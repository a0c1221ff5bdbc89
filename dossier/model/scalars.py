"""The leaf types of a record: each takes the author's text and says in the author's words what is wrong."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from difflib import get_close_matches
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from dossier import quantities, units
from dossier.located import LocatedText, place_of
from dossier.quantities import NotAQuantity, Quantity

_WORD = re.compile(r"[a-z0-9]+(?:[-_][a-z0-9]+)*")
_MARKUP_LENGTH = 4000


def wrong(code: str, message: str, remedy: str) -> PydanticCustomError:
    """Make the error of a leaf: its code, what is wrong, what would be right."""
    return PydanticCustomError("dossier", "{message}", {"code": code, "message": message, "help": remedy})


def _text_only(value: Any, due: str, example: str) -> LocatedText:
    if isinstance(value, LocatedText):
        return value
    kind = "nothing" if value is None else "a list" if isinstance(value, list) else "a mapping"
    raise wrong("M003", f"{kind} stands where {due} is due", f"write for example {example}")


class Leaf:
    """How a scalar is checked and what an editor is told of it."""

    def __init__(self, check: Callable[[Any], Any], schema: dict[str, Any]) -> None:
        """Take the check, which returns the value or raises, and the JSON Schema."""
        self.check = check
        self.schema = schema

    def __get_pydantic_core_schema__(self, _source: Any, _next: GetCoreSchemaHandler) -> CoreSchema:
        """Let pydantic call the check."""
        return core_schema.no_info_plain_validator_function(self.check)

    def __get_pydantic_json_schema__(
        self, _schema: CoreSchema, _next: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        """Let pydantic describe the scalar."""
        return dict(self.schema)


def _text(value: Any) -> LocatedText:
    text = _text_only(value, "text", "a few words")
    if not text.strip():
        raise wrong("M004", "the text is empty", "write something, or leave the key out")
    if len(text) > _MARKUP_LENGTH:
        raise wrong(
            "M004",
            f"the text has {len(text)} characters, more than {_MARKUP_LENGTH}",
            "shorten it, or put it in an evidence file",
        )
    return text


def _name(value: Any) -> LocatedText:
    text = _text_only(value, "a name", "long-pack")
    if not _WORD.fullmatch(text):
        raise wrong(
            "M005",
            f"{str(text)!r} is not a name that others can refer to",
            "use lower-case letters, digits, - and _, such as  long-pack",
        )
    return text


def _names(value: Any) -> list[LocatedText]:
    return [_name(one) for one in value] if isinstance(value, list) else [_name(value)]


def _figure_name(value: Any) -> LocatedText:
    text = _text_only(value, "the name of a figure", "empty_mass")
    if not re.fullmatch(r"[a-z0-9_-]+(\.[a-z0-9_-]+)*", text):
        raise wrong(
            "M005",
            f"{str(text)!r} is not the name of a figure",
            "write it as results.json has it, such as  empty_mass  or  endurance.long-pack",
        )
    return text


def _edition_letter(value: Any) -> LocatedText:
    text = _text_only(value, "the letter of an edition", "A")
    if not re.fullmatch(r"[A-Z]{1,2}", text):
        raise wrong(
            "M013", f"{str(text)!r} is not the letter of an edition", "write A, B, C ... Z, AA, AB ..."
        )
    return text


def _serial_number(value: Any) -> LocatedText:
    text = _text_only(value, "a serial number", '"0012"')
    if not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9._-]{0,39}", text) or text.endswith("."):
        raise wrong(
            "M006",
            f"{str(text)!r} is not a serial number that a folder can have",
            'use letters, digits, "-", "_" and ".", such as "0012"',
        )
    if text.lower() == "index.html":
        raise wrong(
            "M006",
            f"{str(text)!r} is the name of the index of the fleet, and no serial number",
            'use another one, such as "0012"',
        )
    return text


class LocatedDate(date):
    """A date that remembers where it was written."""

    place: Any = None

    @classmethod
    def at(cls, text: LocatedText) -> LocatedDate:
        """Read ``2026-05-14``."""
        self = cls.fromisoformat(text)
        self.place = text.place
        return self


def _date(value: Any) -> LocatedDate:
    text = _text_only(value, "a date", "2026-05-14")
    try:
        if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
            raise ValueError
        return LocatedDate.at(text)
    except ValueError:
        raise wrong(
            "M007", f"{str(text)!r} is not a date", "write year-month-day, such as 2026-05-14"
        ) from None


def _flag(value: Any) -> bool:
    text = _text_only(value, "true or false", "true")
    if text.quoted or text not in ("true", "True", "TRUE", "false", "False", "FALSE"):  # YAML 1.2.2, 10.3.2
        raise wrong("M008", f"{str(text)!r} is neither true nor false", "write true or false, without quotes")
    return text.lower() == "true"


def _count(value: Any) -> int:
    text = _text_only(value, "a whole number", "18")
    if not re.fullmatch(r"\+?\d{1,9}", text):
        raise wrong("M009", f"{str(text)!r} is not a whole number", "write digits only, such as 18")
    return int(text)


def _digest(value: Any) -> LocatedText:
    text = _text_only(value, "a digest", "64 hexadecimal digits")
    if not re.fullmatch(r"[0-9a-f]{64}", text):
        raise wrong(
            "M015",
            f"{str(text)!r} is not a SHA-256 digest",
            "take the digest over as it stands: 64 digits 0-9 and a-f",
        )
    return text


def _file_path(value: Any) -> LocatedText:
    text = _text_only(value, "the name of a file", "evidence/scale-readings.csv")
    parts = text.split("/")
    if text.startswith("/") or "\\" in text or ":" in text or any(part in ("", ".", "..") for part in parts):
        raise wrong(
            "M010",
            f"{str(text)!r} is not a path inside this folder",
            "write a path with forward slashes that stays inside, such as evidence/scale-readings.csv",
        )
    return text


def _quantity(kind: str) -> Callable[[Any], Quantity]:
    def check(value: Any) -> Quantity:
        text = _text_only(value, f"a {kind.replace('_', ' ')}", f'"{units.KINDS[kind].example}"')
        try:
            return quantities.parse(text, kind, place_of(text))
        except NotAQuantity as error:
            raise wrong("M011", error.wrong, error.right) from None

    return check


def _any_quantity(value: Any) -> Quantity:
    text = _text_only(value, "a quantity with a unit", '"108.4 kg"')
    for kind in units.KINDS:
        try:
            return quantities.parse(text, kind, place_of(text))
        except NotAQuantity:
            continue
    raise wrong(
        "M011",
        f"{str(text)!r} is not a quantity with a unit known here",
        'write for example "108.4 kg" or "55 kt"',
    )


class OneOf(Leaf):
    """One of a few words."""

    def __init__(self, *options: str) -> None:
        """Take the words, in the order in which they are offered."""
        super().__init__(self._choose, {"type": "string", "enum": list(options)})
        self.options = options

    def _choose(self, value: Any) -> LocatedText:
        text = _text_only(value, f"one of {', '.join(self.options)}", self.options[0])
        if text in self.options:
            return text
        near = get_close_matches(text, self.options, n=1, cutoff=0.5)
        hint = f"did you mean {near[0]!r}? " if near else ""
        raise wrong(
            "M012", f"{str(text)!r} is not known here", f"{hint}write one of: {', '.join(self.options)}"
        )


class Measure(Leaf):
    """A quantity of one kind."""

    def __init__(self, kind: str) -> None:
        """Take a kind, a key of :data:`dossier.units.KINDS`."""
        wanted = units.KINDS[kind]
        description = f"A {kind.replace('_', ' ')} with its unit, optionally with ± and its uncertainty."
        if wanted.spellings:
            description += f" Units: {', '.join(wanted.spellings)}."
        bare = kind in ("number", "ratio")
        super().__init__(
            _quantity(kind),
            {
                "type": ["string", "number"] if bare else "string",
                "description": description,
                "examples": [wanted.example],
            },
        )


Text = Annotated[LocatedText, Leaf(_text, {"type": ["string", "number", "boolean"], "minLength": 1})]
"""Words for a reader."""
Name = Annotated[LocatedText, Leaf(_name, {"type": "string", "pattern": "^[a-z0-9]+([-_][a-z0-9]+)*$"})]
"""What other parts of the record refer to."""
Names = Annotated[
    list[LocatedText],
    Leaf(_names, {"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}),
]
"""One name, or a list of names."""
Key = Annotated[str, Leaf(_name, {"type": "string", "pattern": "^[a-z0-9]+([-_][a-z0-9]+)*$"})]
"""A key of a mapping that other parts of the record refer to."""
FigureName = Annotated[
    LocatedText, Leaf(_figure_name, {"type": "string", "pattern": "^[a-z0-9_-]+([.][a-z0-9_-]+)*$"})
]
"""The name of a computed figure, as results.json has it."""
SerialNumber = Annotated[
    LocatedText,
    Leaf(_serial_number, {"type": ["string", "number"], "description": 'Text: "0012" stays 0012.'}),
]
EditionLetter = Annotated[LocatedText, Leaf(_edition_letter, {"type": "string", "pattern": "^[A-Z]{1,2}$"})]
Date = Annotated[LocatedDate, Leaf(_date, {"type": "string", "format": "date"})]
Flag = Annotated[bool, Leaf(_flag, {"type": "boolean"})]
Count = Annotated[int, Leaf(_count, {"type": "integer", "minimum": 0})]
Digest = Annotated[LocatedText, Leaf(_digest, {"type": "string", "pattern": "^[0-9a-f]{64}$"})]
"""SHA-256, in hexadecimal digits."""
FilePath = Annotated[
    LocatedText,
    Leaf(
        _file_path,
        {
            "type": "string",
            "description": "A path relative to the folder of this file, with forward slashes.",
        },
    ),
]
AnyQuantity = Annotated[
    Quantity, Leaf(_any_quantity, {"type": ["string", "number"], "description": "A value with its unit."})
]

Mass = Annotated[Quantity, Measure("mass")]
Length = Annotated[Quantity, Measure("length")]
Area = Annotated[Quantity, Measure("area")]
Duration = Annotated[Quantity, Measure("time")]
Speed = Annotated[Quantity, Measure("speed")]
Power = Annotated[Quantity, Measure("power")]
Charge = Annotated[Quantity, Measure("charge")]
Voltage = Annotated[Quantity, Measure("voltage")]
Current = Annotated[Quantity, Measure("current")]
Resistance = Annotated[Quantity, Measure("resistance")]
Temperature = Annotated[Quantity, Measure("temperature")]
HeatingRate = Annotated[Quantity, Measure("heating_rate")]
Angle = Annotated[Quantity, Measure("angle")]
Ratio = Annotated[Quantity, Measure("ratio")]
Torque = Annotated[Quantity, Measure("torque")]
Number = Annotated[Quantity, Measure("number")]
