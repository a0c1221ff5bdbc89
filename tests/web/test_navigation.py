from __future__ import annotations

from dossier.compose.packet import Page
from dossier.web.navigation import navigation, words_page


def test_pages_stand_in_their_order_and_groups_where_their_first_page_stands():
    pages = [
        Page("index.md", "Cover", "", ""),
        Page("a.md", "A", "One", ""),
        Page("b.md", "B", "", ""),
        Page("c.md", "C", "One", ""),
    ]
    one = {"One": [{"A": "a.md"}, {"C": "c.md"}]}
    assert navigation(pages) == [{"Cover": "index.md"}, one, {"B": "b.md"}]


def test_titles_are_escaped_because_the_theme_takes_them_as_html():
    assert navigation([Page("a.md", "A & <b>", "G<", "")]) == [{"G&lt;": [{"A &amp; &lt;b&gt;": "a.md"}]}]


def test_the_foot_of_a_sheet_leads_to_the_words_where_a_packet_has_them():
    assert words_page([Page("index.md", "Cover", "", ""), Page("words.md", "Words", "", "")]) == "words.html"
    assert words_page([Page("index.md", "Cover", "", "")]) == ""
