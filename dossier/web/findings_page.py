"""What `serve` shows in place of a dossier while the record is refused."""

from __future__ import annotations

from html import escape

from dossier.compose.packet import Packet, Page, TitleBlock
from dossier.findings import Rejected


def findings_packet(project: str, rejected: Rejected) -> Packet:
    """Make a packet of one page that lists every finding; the server stays up and waits for the next save."""
    number = len(rejected.findings)
    words = "1 problem" if number == 1 else f"{number} problems"
    texts = (escape(str(finding)) for finding in rejected.findings)
    items = "\n".join(f'<li><pre class="finding">{text}</pre></li>' for text in texts)
    text = (
        "# The record was refused\n\n"
        f"There is no dossier yet: the record has {words}. This page is made again at each save.\n\n"
        f'<ol class="findings">\n{items}\n</ol>\n'
    )
    block = TitleBlock(
        type_name=project,
        serial_number="none yet",
        builder="not read",
        edition="Not issued",
        as_of="not read",
        status=f"Refused: {words} in the record",
        status_kind="fails",
        paper="a4",
    )
    return Packet(block, (Page("index.md", "The record was refused", "", text),))
