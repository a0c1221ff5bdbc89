from __future__ import annotations

import pytest

from dossier.web.inspection import inspect


@pytest.mark.parametrize(
    "html",
    [
        "<script>x</script>",
        "<SCRIPT src=x></SCRIPT>",
        "<iframe src=x></iframe>",
        "<svg><script>x</script></svg>",
        "<svg onload=x()></svg>",
        "<img src=x onerror=x()>",
        "<base href=/x>",
        "<meta http-equiv=refresh content=0>",
        "<form action=x></form>",
        "<button formaction='javascript:x()'>",
        "<a href='javascript:x()'>x</a>",
        "<a href=' JaVaScRiPt:x()'>x</a>",
        "<a href='java&#115;cript:x()'>x</a>",
        "<a href='java\tscript:x()'>x</a>",
        "<a href='data:text/html,x'>x</a>",
        "<a href='file:///etc/passwd'>x</a>",
        "<img src='https://example.org/x.png'>",
        "<img src='//example.org/x.png'>",
        "<img srcset='https://example.org/x.png 2x'>",
        "<img src='data:text/html,x'>",
        "<svg><use href='https://example.org/x.svg#a'/></svg>",
        "<svg><image xlink:href='https://example.org/x.png'/></svg>",
        "<p style='background:url(https://example.org/x)'>x</p>",
        "<style>@import 'https://example.org/x'</style>",
    ],
)
def test_what_could_run_or_load_something_is_refused(html):
    assert len(inspect(html).refused) == 1


@pytest.mark.parametrize(
    "html",
    [
        "<a href='https://www.ecfr.gov/current/title-14'>14 CFR</a>",
        "<a href='battery.html#basis'>x</a>",
        "<img src='data:image/png;base64,AA=='>",
        "<svg><use href='#mark'/><path style='fill:url(#hatch)'/></svg>",
        "<input type=checkbox class=step__tick>",
        "<details open><summary>x</summary></details>",
        "<p>&lt;script&gt;</p>",
        "<code>@import url(x)</code>",
    ],
)
def test_what_a_document_needs_is_let_through(html):
    assert inspect(html).refused == []


def test_a_refusal_names_the_line():
    assert inspect("<p>\n\n<script></script>").refused == ["line 3 of the page holds the element <script>"]


def test_anchors_and_inner_references_are_collected_and_foreign_ones_are_not():
    page = inspect(
        "<h2 id=a>x</h2><a href='b.html#c'>b</a><img src=p.png><a href='https://example.org'>o</a>"
    )
    assert (page.anchors, page.references) == ({"a"}, ["b.html#c", "p.png"])
