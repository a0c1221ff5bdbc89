"""Words that pages share."""

from __future__ import annotations

from collections.abc import Iterable

_NUMBERS = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)


def counted(number: int, one: str, many: str = "") -> str:
    """Write a count with its noun: ``one requirement``, ``14 requirements``."""
    word = _NUMBERS[number] if number < len(_NUMBERS) else str(number)
    return f"{word} {one if number == 1 else many or one + 's'}"


def sentence(text: str) -> str:
    """Start with a capital and end with a full stop, and change nothing else; nothing stays nothing."""
    trimmed = text.strip()
    if not trimmed:
        return ""
    end = "" if trimmed.endswith((".", "!", "?", ":")) else "."
    return f"{trimmed[:1].upper()}{trimmed[1:]}{end}"


def listed(parts: Iterable[str]) -> str:
    """Join words as a sentence does: ``a``, ``a and b``, ``a, b and c``."""
    *head, last = list(parts) or [""]
    return f"{', '.join(head)} and {last}" if head else last
