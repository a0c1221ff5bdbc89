"""A packet made by hand that shows every class of the stylesheet. All in it is invented."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from dossier.compose.packet import Asset, Packet, Page, TitleBlock

FOLDER = Path(__file__).parent / "sample"
PICTURE = Path(__file__).parents[2] / "projects/quillet-e1/pictures/main-pin.png"


def sample_packet(paper: str = "a4") -> Packet:
    block = TitleBlock(
        type_name="Sample Sparrow",
        serial_number="0012",
        builder="Invented Aircraft Works",
        edition="Edition B, 2026-05-14",
        as_of="2026-05-12",
        status="Does not conform: 1 requirement; open: 2",
        status_kind="fails",
        paper=paper,
        notice="Invented demonstration data: no such aircraft exists",
    )
    pages = (
        _page("index.md", "Cover", ""),
        _page("rigging.md", "Rigging", "Before flight"),
        _page("placards.md", "Placards and instrument marks", "Before flight"),
        _page("battery.md", "Battery and endurance", "Figures"),
        _page("working/empty-mass.md", "Working: empty mass", "Figures"),
        _long_page(),
        replace(_page("card.md", "Card: Sample", ""), in_contents=False),
    )
    return Packet(
        block,
        pages,
        (Asset("evidence/scale.txt", b"46.2 kg\n"), Asset("pictures/main-pin.png", PICTURE.read_bytes())),
    )


def _page(path: str, title: str, group: str) -> Page:
    return Page(path, title, group, (FOLDER / path).read_text(encoding="utf-8"))


def _long_page() -> Page:
    rows = "\n".join(f"| {number} | charge cycle | {60 - number / 10:.1f} Ah |" for number in range(1, 121))
    head = "# Log of the packs\n\nSee [the readings](evidence/scale.txt).\n\n| No. | Event | Charge |\n"
    text = f"{head}| ---: | --- | ---: |\n{rows}\n"
    return Page("log.md", "Log of the packs", "Figures", text)
