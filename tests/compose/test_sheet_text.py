"""Working sheets in a terminal."""

from __future__ import annotations

from dataclasses import replace

import pytest
from packet_reading import made

from dossier.compose.sheet_text import as_text, formula_text
from dossier.compose.working.sheet import sheet


@pytest.mark.parametrize(
    ("latex", "text"),
    [
        (r"m_{net} = m_{scale} - m_{tare}", "m_net = m_scale - m_tare"),
        (r"x_{CG} = \frac{\sum_i m_i x_i}{\sum_i m_i}", "x_CG = (∑_i m_i x_i)/(∑_i m_i)"),
        (r"e_m = \frac{E}{m}", "e_m = E/m"),
        (r"t_e = \frac{E_u - \sum_i E_i}{P}", "t_e = (E_u - ∑_i E_i)/P"),
        (r"P = \frac{m \, g \, w}{\eta}", "P = (m g w)/η"),
        (r"w = w_{ref} \sqrt{\frac{m}{m_{ref}}}", "w = w_ref √(m/m_ref)"),
        (r"U = \frac{U_0 + \sqrt{U_0^2 - 4 P R}}{2}", "U = (U_0 + √(U_0^2 - 4 P R))/2"),
        (r"\Delta x = h_{CG} \tan\alpha", "Δx = h_CG tan α"),
        (
            r"x_{lim} = x_j + \frac{m - m_j}{m_{j+1} - m_j} \, (x_{j+1} - x_j)",
            "x_lim = x_j + (m - m_j)/(m_[j+1] - m_j) (x_[j+1] - x_j)",
        ),
        (r"V_{f,j} = m_{l,i}", "V_[f,j] = m_[l,i]"),
    ],
)
def test_a_formula_in_one_line_binds_as_the_printed_one_does(latex: str, text: str) -> None:
    assert formula_text(latex) == text


def test_a_fraction_in_a_product_under_a_fraction_keeps_its_brackets() -> None:
    assert formula_text(r"v = \frac{a}{b \, c}") == "v = a/(b c)"


@pytest.mark.parametrize(
    "name", ["empty_mass", "endurance.long-pack", "counted_mass.us-14-cfr-103.e-1", "stall_speed"]
)
def test_the_text_holds_all_that_the_page_holds(name: str) -> None:
    dossier = made("quillet-e1", "0004")
    one, text = sheet(dossier.figures[name], dossier), as_text(dossier.figures[name], dossier)
    wanted = [
        one.label,
        one.result,
        one.result_si,
        one.valid,
        one.source,
        *(line.si for line in one.inputs),
        *(amount for _, amount in one.contributions),
    ]
    assert [words for words in wanted if words.replace("\u00a0", " ") not in text] == []


def test_an_input_names_its_line_of_the_record() -> None:
    dossier = made("quillet-e1", "0004")
    line = sheet(dossier.figures["net_mass.main-wheel"], dossier).inputs[0]
    assert line.place in as_text(dossier.figures["net_mass.main-wheel"], dossier)


def test_a_control_sign_of_the_record_does_not_reach_the_terminal() -> None:
    dossier = made("quillet-e1", "0004")
    figure = replace(dossier.figures["empty_mass"], label="Mass\x1b[31m\x07\u202e red\r")
    assert as_text(figure, dossier).startswith("Mass[31m red  [empty_mass]\n")
