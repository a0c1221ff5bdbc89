from __future__ import annotations

from dossier.web.search_text import ready_for_search


def test_neighbouring_cells_are_kept_apart():
    assert ready_for_search("<tr><td>58</td><td>53</td></tr>") == "<tr> <td>58</td> <td>53</td></tr>"


def test_words_inside_a_line_stay_together():
    assert ready_for_search("<p>m<sub>1</sub><b>x</b>.</p>") == "<p>m<sub>1</sub><b>x</b>.</p>"


def test_the_lettering_of_a_drawing_is_marked_to_be_left_out():
    assert ready_for_search("<svg id='a'>") == "<svg data-search-exclude=\"drawing\" id='a'>"
