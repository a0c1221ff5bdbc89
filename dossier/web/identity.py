"""The identity that runs along the margin of every printed sheet."""

from __future__ import annotations

from dossier.compose.packet import TitleBlock

_PAPERS = {"a4": "A4", "letter": "letter"}


def css_string(text: str) -> str:
    """Write text as a CSS string that can stand in a style element: only letters and digits stay plain."""
    escaped = (sign if sign.isascii() and sign.isalnum() else f"\\{ord(sign):x} " for sign in text)
    return '"' + "".join(escaped) + '"'


def running_identity(block: TitleBlock) -> dict[str, str]:
    """Paper and the words above each printed sheet, ready for an ``@page`` rule.

    Raises KeyError for a paper that is neither ``a4`` nor ``letter``.
    """
    return {
        "paper": _PAPERS[block.paper],
        "left": f"{block.type_name}, serial {block.serial_number}, {block.edition}",
        "status": block.status,
    }
