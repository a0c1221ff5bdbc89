"""Small packets, and a stand-in for the pipeline where a test is about the plugin alone."""

from __future__ import annotations

import sys
from collections.abc import Callable
from types import ModuleType

import pytest

from dossier.compose.packet import Asset, Packet, Page, TitleBlock

BLOCK = TitleBlock("Sample <Wren>", "0012", "Works & Co", "Edition A", "2026-05-12", "Open: 1", "open", "a4")
COVER = Page("index.md", "Cover", "", "# Cover\n\n## Basis\n\nSee [two](a/two.md).\n")
SECOND = Page("a/two.md", "Two", "More", '# Two\n\n<a href="../index.md#basis">the basis</a>\n')


@pytest.fixture
def packet_of() -> Callable[..., Packet]:
    """Make a packet of a cover, a second page and whatever else is handed in."""

    def packet(*pages: Page, assets: tuple[Asset, ...] = (), block: TitleBlock = BLOCK) -> Packet:
        return Packet(block, (COVER, SECOND, *pages), assets)

    return packet


@pytest.fixture
def pipeline(monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """A module in the pipeline's place; a test gives it a ``packet_for``."""
    module = ModuleType("dossier.web.record_packet")
    monkeypatch.setitem(sys.modules, "dossier.web.record_packet", module)
    return module
