"""The frame of a dossier in a real browser, from disk. The sample shows every class of the stylesheet."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections import Counter
from pathlib import Path

import pytest
from measures import dead_links, overflow
from sample_packet import FOLDER, sample_packet

pytestmark = pytest.mark.browser

SHEETS = ["index", "rigging", "placards", "battery", "working/empty-mass", "log"]
EVERY_VIEW = [(size, scheme) for size in ("desktop", "phone") for scheme in ("light", "dark")]


def sheet(site: Path, name: str) -> Path:
    return site / f"{name}.html"


def printed(page, folder: Path) -> list[str]:
    """Print a page to PDF and give back the text of each sheet of paper, read by poppler."""
    program = shutil.which("pdftotext")
    if program is None:
        pytest.skip("pdftotext is not on PATH")
    file = folder / "printed.pdf"
    page.pdf(path=file, prefer_css_page_size=True)
    text = subprocess.run([program, "-layout", file, "-"], capture_output=True, check=True, text=True).stdout
    return text.split("\f")[:-1]


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_opens_from_disk_in_silence_and_asks_for_nothing_outside(built_site, reader, name):
    page = reader.open(sheet(built_site, name))
    page.wait_for_load_state("networkidle")
    assert page.locator("h1").count() == 1


def test_a_request_to_the_outside_would_be_noticed(reader, tmp_path):
    file = tmp_path / "page.html"
    file.write_text('<img src="http://127.0.0.1:9/picture.png" alt=""><script>console.log("said")</script>')
    reader.open(file).wait_for_load_state("load")
    noticed = {complaint.split(":")[0] for complaint in reader.complaints}
    reader.complaints.clear()
    assert {"request to the outside", "console log"} <= noticed


@pytest.mark.parametrize(("size", "scheme"), EVERY_VIEW)
@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_keeps_wcag_2_2_aa(built_site, reader, violations, name, size, scheme):
    page = reader.open(sheet(built_site, name), size=size, scheme=scheme)
    palette = page.locator("body").get_attribute("data-md-color-scheme")
    assert palette == {"light": "paper", "dark": "night"}[scheme]
    assert violations(page) == []


def test_axe_would_find_grey_on_grey(reader, violations, tmp_path):
    file = tmp_path / "page.html"
    file.write_text('<html lang="en"><title>t</title><p style="color:#999;background:#aaa">pale</p>')
    assert any("color-contrast" in breach for breach in violations(reader.open(file)))


@pytest.mark.parametrize("name", SHEETS)
@pytest.mark.parametrize("size", ["desktop", "phone"])
def test_a_sheet_is_no_wider_than_the_screen(built_site, reader, name, size):
    page = reader.open(sheet(built_site, name), size=size)
    assert overflow(page) <= 0


@pytest.mark.parametrize("name", SHEETS)
def test_every_link_leads_to_a_file_and_an_anchor(built_site, reader, name):
    page = reader.open(sheet(built_site, name))
    assert dead_links(page) == []


@pytest.mark.parametrize("size", ["desktop", "phone"])
def test_search_finds_a_word_from_disk(built_site, reader, size):
    page = reader.open(sheet(built_site, "index"), size=size)
    if size == "phone":
        page.get_by_role("button", name="Search").click()
    page.get_by_role("searchbox").fill("chocks")
    found = page.locator(".md-search-result__link")
    found.first.wait_for()
    assert "working/empty-mass.html" in found.first.get_attribute("href")


def test_search_keeps_wcag_2_2_aa_while_it_shows_results(built_site, reader, violations):
    page = reader.open(sheet(built_site, "index"), scheme="dark")
    page.get_by_role("searchbox").fill("pack")
    page.locator(".md-search-result__link").first.wait_for()
    assert violations(page) == []


def test_search_closes_with_escape(built_site, reader):
    page = reader.open(sheet(built_site, "index"))
    page.get_by_role("searchbox").fill("pack")
    page.locator(".md-search-result__link").first.wait_for()
    page.keyboard.press("Escape")
    assert not page.locator(".md-search__output").is_visible()


def test_contents_open_and_close_by_keyboard_on_a_phone(built_site, reader, violations):
    page = reader.open(sheet(built_site, "index"), size="phone")
    contents = page.get_by_role("navigation", name="Contents")
    assert not contents.is_visible()
    page.get_by_role("button", name="Contents").press("Enter")
    assert contents.is_visible()
    assert violations(page) == []
    page.keyboard.press("Escape")
    assert not contents.is_visible()


def test_contents_name_the_sheet_that_is_open(built_site, reader):
    page = reader.open(sheet(built_site, "battery"))
    assert page.locator(".contents [aria-current=page]").inner_text().split()[:2] == ["4", "Battery"]


def test_the_choice_of_colours_is_kept_on_the_next_sheet(built_site, reader):
    page = reader.open(sheet(built_site, "index"))
    for _ in ("to light", "to dark"):
        page.locator(".palette label:visible").click()
    page.get_by_role("link", name="Next sheet").click()
    assert page.locator("body").get_attribute("data-md-color-scheme") == "night"


def test_the_first_tab_stop_skips_to_the_content(built_site, reader):
    page = reader.open(sheet(built_site, "rigging"))
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.getAttribute('href')") == "#rigging"


def test_a_wide_table_is_a_tab_stop_on_a_phone_and_none_on_a_desktop(built_site, reader):
    stops = []
    for size in ("phone", "desktop"):
        page = reader.open(sheet(built_site, "battery"), size=size)
        region = page.get_by_role("region", name="Empty weight on each")
        region.scroll_into_view_if_needed()
        page.wait_for_timeout(50)
        stops.append(region.get_attribute("tabindex"))
    assert stops == ["0", None]


def test_a_tick_box_is_large_enough_for_a_glove(built_site, reader):
    page = reader.open(sheet(built_site, "rigging"), size="phone")
    boxes = [box.bounding_box() for box in page.get_by_role("checkbox").all()]
    assert boxes
    assert all(box["width"] >= 44 and box["height"] >= 44 for box in boxes)


def test_words_tell_the_status_without_colour(built_site, reader):
    page = reader.open(sheet(built_site, "index"))
    assert page.locator(".title-block__status dd").inner_text() == sample_packet().title_block.status


def test_every_sheet_of_paper_carries_the_identity(built_site, reader, tmp_path):
    papers = printed(reader.open(sheet(built_site, "log")), tmp_path)
    assert len(papers) > 2
    for number, paper in enumerate(papers, start=1):
        assert "Sample Sparrow, serial 0012, Edition B, 2026-05-14" in paper
        assert "Log of the packs" in paper
        assert f"Page {number} of {len(papers)}" in paper


def test_a_table_head_is_repeated_on_every_sheet_of_paper(built_site, reader, tmp_path):
    papers = printed(reader.open(sheet(built_site, "log")), tmp_path)
    assert Counter(" Event " in paper for paper in papers) == {True: len(papers)}


def test_print_leaves_out_what_only_a_screen_can_use(built_site, reader, tmp_path):
    text = "".join(printed(reader.open(sheet(built_site, "rigging")), tmp_path))
    assert "Next sheet" not in text
    assert "CONTENTS" not in text


def test_print_says_that_the_document_is_no_approval(built_site, reader, tmp_path):
    text = " ".join("".join(printed(reader.open(sheet(built_site, "index")), tmp_path)).split())
    assert "This document is not an approval and does not say that the aircraft is airworthy." in text


@pytest.mark.parametrize(("paper", "size"), [("a4", "595"), ("letter", "612")])
def test_print_uses_the_paper_that_the_title_block_names(reader, tmp_path, paper, size):
    from dossier.web.build import build_site

    # ISO 216: A4 is 210 mm wide, 595 points; ANSI/ASME Y14.1: size A (letter) is 8.5 in wide, 612 points
    build_site(sample_packet(paper), tmp_path / "site", epoch=0)
    reader.open(tmp_path / "site" / "index.html").pdf(path=tmp_path / "p.pdf", prefer_css_page_size=True)
    boxes = (tmp_path / "p.pdf").read_bytes().split(b"/MediaBox [0 0 ")[1:]
    assert {box.split()[0].split(b".")[0] for box in boxes} <= {size.encode(), str(int(size) - 1).encode()}
    assert boxes


def test_the_sample_uses_every_class_of_the_inventory(built_site):
    used = "".join(file.read_text(encoding="utf-8") for file in FOLDER.rglob("*.md"))
    inventory = (built_site / "sheet.css").read_text(encoding="utf-8").split("*/")[0]
    named = set(re.findall(r"[a-z]+(?:-[a-z]+)*__[a-z]+(?:--[a-z-]+)?", inventory))
    assert len(named) > 20
    assert sorted(name for name in named if name not in used) == []


def test_every_class_of_the_sample_has_a_style(built_site):
    text = "".join(file.read_text(encoding="utf-8") for file in FOLDER.rglob("*.md"))
    used = " ".join(re.findall(r'class="([^"]+)"', text)).split()
    style = (built_site / "sheet.css").read_text(encoding="utf-8").split("*/", 1)[1]
    assert sorted({name for name in used if f".{name}" not in style} - {"findings", "finding", "gauge"}) == []
