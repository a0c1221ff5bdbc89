"""Drawings: the same bytes each time, the colours of the page, words for those who do not see them."""

from __future__ import annotations

import re

import pytest
from packet_reading import composed, made, page_of, read

from dossier.compose.balance.envelope_plot import envelope_plot
from dossier.compose.energy_plots import endurance_plot, phase_plot
from dossier.compose.performance_plot import polar_plot
from dossier.compose.plots import INK, LINES, Plot, as_svg, axes, label
from dossier.compose.printer import Printer


def polar_of(at: Printer) -> Plot:
    assert at.dossier.performance is not None
    return polar_plot(at, at.dossier.performance)


DRAWINGS = {
    "envelope": (envelope_plot, "weight-and-balance.md"),
    "endurance": (endurance_plot, "energy.md"),
    "phases": (phase_plot, "energy.md"),
    "polar": (polar_of, "performance.md"),
}
each = pytest.mark.parametrize("name", DRAWINGS)


def svg(name: str) -> str:
    draw, page = DRAWINGS[name]
    plot = draw(Printer(made("quillet-e1", "0004"), page))
    assert plot is not None
    return str(plot.svg)


@each
def test_a_drawing_is_the_same_each_time(name: str) -> None:
    assert svg(name) == svg(name)


@each
def test_every_colour_is_one_of_the_page(name: str) -> None:
    assert re.findall(r"#[0-9a-fA-F]{3,8}\b(?!-)", re.sub(r'(url\(|href=")#[^")]+', "", svg(name))) == []


@each
def test_a_drawing_carries_title_and_description(name: str) -> None:
    found = re.search(
        rf'aria-labelledby="{name}-title {name}-description".*?'
        rf'<title id="{name}-title">(.+?)</title>'
        rf'<desc id="{name}-description">(.+?)</desc>',
        svg(name),
    )
    assert found


@each
def test_a_drawing_brings_no_style_of_its_own_for_the_page(name: str) -> None:
    assert "<style" not in svg(name)


@each
def test_text_in_a_drawing_stays_text(name: str) -> None:
    assert svg(name).count("<text") > 5


def test_two_drawings_on_a_page_share_no_anchor() -> None:
    ids = read(page_of(composed("quillet-e1", "0004"), "energy.md")).ids
    assert len(ids) == len(set(ids))


@each
def test_the_values_stand_in_a_table_under_the_drawing(name: str) -> None:
    draw, page = DRAWINGS[name]
    plot = draw(Printer(made("quillet-e1", "0004"), page))
    assert plot is not None
    assert len(plot.values.rows) > 1


def test_the_words_of_the_envelope_tell_how_many_loadings_are_inside() -> None:
    loads = made("quillet-e1", "0004").loadings
    assert loads is not None
    inside = sum(row.inside for row in loads.rows if row.option == "long-pack")
    total = sum(row.option == "long-pack" for row in loads.rows)
    assert f"With the Long pack {inside} of {total} loadings are inside" in svg("envelope")


@pytest.mark.parametrize("name", ["$x^2$", "_hidden", '<b>bold</b> & "quoted"', "two\nlines", "\u6f22\u5b57"])
def test_a_name_of_the_record_is_drawn_as_text(name: str) -> None:
    with axes("sample", 3.0) as (drawing, plane):
        plane.plot([0, 1], [0, 1], color=LINES[0], label=label(name))
        plane.set_xlabel("Sample", color=INK)
        drawing.legend()
        found = as_svg(drawing, "sample", "Sample", "Sample")
    shown = " ".join(name.split()).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    assert shown in str(found).replace("&quot;", '"')
