"""Every source that the tool relies on: one home, cited by key."""

from __future__ import annotations

from dossier.published_work import Citation, Source
from dossier.sources.batteries import BATTERIES
from dossier.sources.flight import FLIGHT
from dossier.sources.handbooks import HANDBOOKS

SOURCES: dict[str, Source] = {source.key: source for source in (*HANDBOOKS, *BATTERIES, *FLIGHT)}
"""Key -> source."""


def cite(text: str) -> Citation:
    """Make a citation from ``"key"`` or ``"key, place in it"``.

    Raises:
        KeyError: there is no such source.
    """
    key, _, locator = text.partition(",")
    return Citation(SOURCES[key.strip()], locator.strip())
