"""Plain data that remembers where it stands: text, mappings and lists with a place in the builder's files."""

from __future__ import annotations

from typing import Any

from dossier.findings import Place


class LocatedText(str):
    """A scalar exactly as the author wrote it; what it means is the model's to say."""

    place: Place
    quoted: bool

    def __new__(cls, text: str, place: Place, *, quoted: bool = False) -> LocatedText:
        """Keep the text with its place."""
        self = super().__new__(cls, text)
        self.place = place
        self.quoted = quoted
        return self


class LocatedMapping(dict[str, Any]):
    """A mapping with the place of its first key and of each key."""

    def __init__(self, place: Place) -> None:
        """Begin empty, at the place of what will be the first key."""
        super().__init__()
        self.place = place
        self.key_places: dict[str, Place] = {}


class LocatedList(list[Any]):
    """A list with the place of its first item."""

    def __init__(self, place: Place) -> None:
        """Begin empty, at the place of what will be the first item."""
        super().__init__()
        self.place = place


def place_of(value: object) -> Place | None:
    """Return where a value stands, if it remembers."""
    place = getattr(value, "place", None)
    return place if isinstance(place, Place) else None
