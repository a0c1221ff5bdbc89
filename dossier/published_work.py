"""A published work, and a place in it, as a figure or a limit cites them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Source:
    """A published work."""

    key: str
    title: str
    publisher: str
    edition: str
    basis: str
    """``read``: seen in a copy; ``read (secondary)``: a third party reports it; ``memory``: to be verified;
    ``own``: derived in this project; ``common practice``: a habit of the trade without a source."""
    note: str = ""


@dataclass(frozen=True)
class Citation:
    """A place in a source."""

    source: Source
    locator: str = ""

    def __str__(self) -> str:
        """Write out the work, the place in it, and the basis unless it was read."""
        parts = [self.source.title, self.source.publisher, self.source.edition, self.locator]
        text = ", ".join(part for part in parts if part)
        return text if self.source.basis == "read" else f"{text} ({self.source.basis})"
