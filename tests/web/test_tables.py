from __future__ import annotations

from dossier.web.tables import with_table_regions

REGION = '<div class="table-region" role="region" tabindex="0" aria-label="{name}">{table}</div>'


def test_a_table_is_named_by_its_caption():
    table = "<table><caption>Masses, <b>kg</b></caption><tr><td>1</td></tr></table>"
    assert with_table_regions(table) == REGION.format(name="Table 1: Masses, kg", table=table)


def test_a_table_without_caption_is_named_by_the_heading_above_it():
    table = "<table><tr><td>1</td></tr></table>"
    html = with_table_regions(f'<h2 id="a">Arms &amp; "moments"</h2>{table}')
    assert html.endswith(REGION.format(name="Table 1: Arms &amp; &quot;moments&quot;", table=table))


def test_two_tables_never_have_the_same_name():
    html = with_table_regions("<table></table><table></table>")
    assert [f'aria-label="Table {number}"' in html for number in (1, 2)] == [True, True]


def test_text_without_a_table_stays_as_it_is():
    assert with_table_regions("<h1>x</h1><p>tables</p>") == "<h1>x</h1><p>tables</p>"
