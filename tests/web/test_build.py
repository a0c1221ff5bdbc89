from __future__ import annotations

import os
import re
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

import pytest

from dossier.compose.packet import Asset, Page
from dossier.web.build import SiteNotBuilt, build_site


def contents(site: Path) -> dict[str, bytes]:
    files = sorted(file for file in site.rglob("*") if file.is_file())
    return {str(file.relative_to(site)): file.read_bytes() for file in files}


def page(text: str) -> Page:
    return Page("extra.md", "Extra", "", f"# Extra\n\n{text}\n")


def test_the_same_packet_gives_the_same_bytes_anywhere_and_at_any_time(packet_of, tmp_path):
    build_site(packet_of(), tmp_path / "one", epoch=0)
    build_site(packet_of(), tmp_path / "two" / "deeper", epoch=1_700_000_000)
    assert contents(tmp_path / "one") == contents(tmp_path / "two" / "deeper")


def test_a_worker_process_builds_the_same_bytes(packet_of, tmp_path):
    build_site(packet_of(), tmp_path / "here", epoch=0)
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as workers:
        workers.submit(build_site, packet_of(), tmp_path / "there", epoch=0).result()
    assert contents(tmp_path / "here") == contents(tmp_path / "there")


def test_a_build_replaces_the_whole_folder_and_leaves_nothing_beside_it(packet_of, tmp_path):
    site = tmp_path / "site"
    site.mkdir()
    (site / "stale.html").write_text("old")
    build_site(packet_of(), site, epoch=0)
    assert not (site / "stale.html").exists()
    assert list(tmp_path.iterdir()) == [site]


def test_a_refused_packet_leaves_the_folder_as_it_was(packet_of, tmp_path):
    site = tmp_path / "site"
    build_site(packet_of(), site, epoch=0)
    before = contents(site)
    with pytest.raises(SiteNotBuilt):
        build_site(packet_of(page("[gone](gone.md)")), site, epoch=0)
    assert contents(site) == before
    assert list(tmp_path.iterdir()) == [site]


def test_packets_built_one_after_the_other_do_not_mix(packet_of, tmp_path):
    build_site(packet_of(page("first")), tmp_path / "first", epoch=0)
    build_site(packet_of(), tmp_path / "second", epoch=0)
    assert not (tmp_path / "second" / "extra.html").exists()
    assert "extra.html" not in (tmp_path / "second" / "search" / "search_index.json").read_text()


def test_the_build_date_of_the_caller_is_given_back(packet_of, tmp_path, monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "42")
    build_site(packet_of(), tmp_path / "site", epoch=7)
    assert os.environ["SOURCE_DATE_EPOCH"] == "42"


def test_nothing_is_printed(packet_of, tmp_path, capfd):
    build_site(packet_of(), tmp_path / "site", epoch=0)
    assert capfd.readouterr() == ("", "")


def test_a_site_loads_nothing_from_outside(packet_of, tmp_path):
    build_site(packet_of(), tmp_path / "site", epoch=0)
    for name, content in contents(tmp_path / "site").items():
        if name.endswith((".html", ".css")):
            assert re.findall(rb"(?:src=|url\(|<link[^>]*href=)[\"']?(?:https?:)?//", content) == [], name
        if name.endswith(".js"):
            assert b"unpkg.com" not in content, name


def test_a_site_holds_no_sitemap_error_page_or_source_map(packet_of, tmp_path):
    build_site(packet_of(), tmp_path / "site", epoch=0)
    unwanted = (".map", ".xml", ".gz", "404.html")
    assert [name for name in contents(tmp_path / "site") if name.endswith(unwanted)] == []


def test_a_site_hands_on_the_licences_of_what_it_carries(packet_of, tmp_path):
    build_site(packet_of(), tmp_path / "site", epoch=0)
    for licence in ("assets/licences/mkdocs-material.txt", "vendor/iframe-worker/LICENSE"):
        assert "Permission is hereby granted" in (tmp_path / "site" / licence).read_text()


def test_a_site_is_small_enough_to_keep_one_for_each_serial(packet_of, tmp_path):
    build_site(packet_of(), tmp_path / "site", epoch=0)
    assert sum(map(len, contents(tmp_path / "site").values())) < 300_000


def test_no_page_names_the_folder_that_it_was_built_in(packet_of, tmp_path):
    build_site(packet_of(), tmp_path / "site", epoch=0)
    folder = str(tmp_path).encode()
    assert [name for name, text in contents(tmp_path / "site").items() if folder in text] == []


def test_words_of_the_title_block_stay_words(packet_of, tmp_path):
    build_site(packet_of(), tmp_path / "site", epoch=0)
    html = (tmp_path / "site" / "index.html").read_text()
    assert "<dd>Sample &lt;Wren&gt;</dd>" in html
    assert "<dd>Works &amp; Co</dd>" in html
    assert "<Wren>" not in html


def test_a_title_stays_words_in_contents_and_search(packet_of, tmp_path):
    bold = Page("x.md", "<b>Bold</b>", "<i>Group</i>", "no heading")
    build_site(packet_of(bold), tmp_path / "site", epoch=0)
    for file in ("x.html", "index.html", "search/search_index.json"):
        text = (tmp_path / "site" / file).read_text()
        assert "&lt;b&gt;Bold&lt;/b&gt;" in text
        assert "<b>Bold" not in text
        assert "<i>Group" not in text


def test_an_asset_arrives_byte_for_byte(packet_of, tmp_path):
    photo = bytes(range(256))
    build_site(packet_of(assets=(Asset("templates/photo.jpg", photo),)), tmp_path / "site", epoch=0)
    assert (tmp_path / "site" / "templates" / "photo.jpg").read_bytes() == photo


@pytest.mark.parametrize("start", ["template: gone.html\nStatus: open", "---\ntemplate: gone.html\n---"])
def test_the_first_lines_of_a_page_are_text_and_never_settings(packet_of, tmp_path, start):
    build_site(packet_of(Page("extra.md", "Extra", "", f"{start}\n\nmore\n")), tmp_path / "site", epoch=0)
    assert "template: gone.html" in (tmp_path / "site" / "extra.html").read_text()


def test_a_link_in_raw_html_may_name_the_markdown_page(packet_of, tmp_path):
    build_site(packet_of(), tmp_path / "site", epoch=0)
    assert 'href="../index.html#basis"' in (tmp_path / "site" / "a" / "two.html").read_text()


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ('<a href="gone.html">x</a>', "extra.html: the link 'gone.html' leads nowhere"),
        ('<a href="index.html#gone">x</a>', "extra.html: the link 'index.html#gone' leads nowhere"),
        ("[x](index.md#gone)", "extra.html: the link 'index.html#gone' leads nowhere"),
        ('<img src="gone.png" alt="">', "extra.html: the link 'gone.png' leads nowhere"),
        ("<script>alert(1)</script>", "extra.html: line 2 of the page holds the element <script>"),
        ('<b onclick="x()">x</b>', "extra.html: line 2 of the page holds the attribute onclick"),
        ("*x*{: onclick=x() }", "extra.html: line 2 of the page holds the attribute onclick"),
    ],
)
def test_a_page_that_breaks_the_packet_is_refused_by_name(packet_of, tmp_path, text, complaint):
    with pytest.raises(SiteNotBuilt) as refused:
        build_site(packet_of(page(text)), tmp_path / "site", epoch=0)
    assert refused.value.complaints == [complaint]


def test_all_that_is_wrong_is_told_at_once(packet_of, tmp_path):
    wrong = page('<a href="one.html">1</a> <a href="two.html">2</a> <script></script> <iframe></iframe>')
    with pytest.raises(SiteNotBuilt) as refused:
        build_site(packet_of(wrong), tmp_path / "site", epoch=0)
    assert len(refused.value.complaints) == 4


def test_a_path_of_the_frame_is_refused(packet_of, tmp_path):
    with pytest.raises(SiteNotBuilt, match=r"'sheet\.css' is a file of the site's frame"):
        build_site(packet_of(assets=(Asset("sheet.css", b""),)), tmp_path / "site", epoch=0)
