"""Widths of type against the published files of the fonts, and lines counted by hand."""

from __future__ import annotations

import re
from pathlib import Path

import matplotlib
import pytest

from dossier.compose.operating.type_widths import lines, lines_of_pieces, width

FONTS = Path(matplotlib.get_data_path()) / "fonts/pdfcorefonts"
NAMED = {
    "endash": "–", "quoteright": "’", "quoteleft": "‘", "quotedblleft": "“", "quotedblright": "”",
    "bullet": "•",
    "degree": "°", "plusminus": "±", "multiply": "×", "onehalf": "½", "onequarter": "¼", "threequarters": "¾",
    "periodcentered": "·", "twosuperior": "²", "threesuperior": "³", "lessequal": "≤", "greaterequal": "≥",
    "minus": "−",
    "eacute": "é", "udieresis": "ü", "Aring": "Å", "ccedilla": "ç", "quotesingle": "'", "grave": "`",
}  # fmt: skip


def published(file: str) -> dict[str, int]:
    """Sign -> width in thousandths, of the AFM file that Adobe publishes and matplotlib ships."""
    text = (FONTS / file).read_text(encoding="latin-1")
    found = {name: int(wide) for wide, name in re.findall(r"WX (\d+) ; N (\S+)", text)}
    plain = {
        chr(int(code)): int(wide)
        for code, wide in re.findall(r"C (\d+) ; WX (\d+)", text)
        if 32 <= int(code) < 127
    }
    return plain | {sign: found[name] for name, sign in NAMED.items()}


@pytest.mark.parametrize(("file", "bold"), [("Helvetica.afm", False), ("Helvetica-Bold.afm", True)])
def test_each_width_is_that_of_the_published_font_file(file, bold):
    wanted = published(file)
    del wanted["`"], wanted["'"]  # in the AFM's own encoding these two codes are quotation marks
    named = {"'": 238 if bold else 191, "`": 333}
    assert len(wanted) > 100
    assert {sign: round(1000 * width(sign, bold=bold)) for sign in wanted | named} == wanted | named


def test_a_sign_that_is_not_in_the_table_is_thought_as_wide_as_its_size():
    assert width("\N{CJK UNIFIED IDEOGRAPH-7FFC}") == 1


def test_words_fill_a_line_up_to_its_measure():
    # n is 0.556 wide and a space 0.278: "nn nn" takes 4 * 0.556 + 0.278 = 2.502
    assert lines([("nn nn", False)], 2.502 + 1e-9) == 1
    assert lines([("nn nn", False)], 2.50) == 2


def test_a_word_of_two_weights_is_one_word():
    assert lines([("nn", False), ("nn", False)], 1.2) == 2
    assert lines([("nn ", False), ("nn", False)], 1.2) == 2


def test_a_space_that_must_not_break_does_not():
    assert lines([("nn\u00a0nn nn", False)], 2.6) == 2


def test_a_word_wider_than_the_column_is_broken_and_counted():
    assert lines([("n" * 10, False)], 2.3) == 3


def test_what_stands_behind_the_last_word_takes_its_place():
    assert lines([("nn nn", False)], 3.0, last=0.4) == 2
    assert lines([("nn nn", False)], 3.3, last=0.4) == 1


def test_pieces_stay_whole_while_they_fit_the_column():
    piece = [("nn nn", False)]
    assert lines_of_pieces([piece, piece], 8.0, 1.0) == 1
    assert lines_of_pieces([piece, piece], 6.0, 1.0) == 2
    assert lines_of_pieces([piece, piece], 3.0, 1.0) == 4


@pytest.mark.parametrize("measure", [5, 9, 14, 33, 60])
def test_a_wider_column_never_has_more_lines(measure):
    text = [
        ("Push the left main pin in by hand. ", False),
        ("The line meets the line, no gap under the head.", True),
    ]
    assert lines(text, measure + 1) <= lines(text, measure)
