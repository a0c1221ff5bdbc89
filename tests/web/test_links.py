from __future__ import annotations

import pytest

from dossier.web.inspection import inspect
from dossier.web.links import dead_links, to_built_pages

PAGES = {"index.html": inspect("<h1 id=top>x</h1>"), "a/b.html": inspect("<h2 id=é>y</h2>")}
FILES = {"photo one.jpg", "a/log.csv"}


@pytest.mark.parametrize(
    "reference",
    ["../index.html", "../index.html#top", "b.html#é", "#é", "#%C3%A9", "log.csv", "../photo%20one.jpg"],
)
def test_a_link_that_leads_somewhere_is_silent(reference):
    pages = {**PAGES, "a/c.html": inspect(f"<h1 id=é></h1><a href='{reference}'>x</a>")}
    assert dead_links(pages, FILES) == []


@pytest.mark.parametrize(
    "reference", ["index.html", "../index.html#gone", "#gone", "gone.csv", "../../index.html"]
)
def test_a_link_that_leads_nowhere_is_named(reference):
    pages = {**PAGES, "a/c.html": inspect(f"<a href='{reference}'>x</a><a href='{reference}'>again</a>")}
    assert dead_links(pages, FILES) == [f"a/c.html: the link {reference!r} leads nowhere"]


def test_only_links_of_raw_html_to_pages_of_the_packet_are_turned():
    html = '<a class="x" href="a/b.md#c">1</a><a href="https://example.org/x.md">2</a><a href="x.mdx">3</a>'
    assert to_built_pages(html) == html.replace("a/b.md", "a/b.html")
