"""Working sheets: one for each figure, and a reader with a calculator gets the printed number."""

from __future__ import annotations

import pkgutil
import re
from importlib import import_module

import pytest
from packet_reading import SERIALS, composed, html, made, page_of, read

import dossier.compute
from dossier.compose.working.mathml import formula, numbered, upright
from dossier.compose.working.sheet import in_si, sheet
from dossier.compose.working.topics import topics
from dossier.figures import Figure, Formula, Input
from dossier.glossary import SYMBOLS

MODULES = [
    import_module(f"dossier.compute.{module.name}")
    for module in pkgutil.iter_modules(dossier.compute.__path__)
]
FORMULAS = {one.name: one for module in MODULES for one in vars(module).values() if isinstance(one, Formula)}
everyone = pytest.mark.parametrize(("project", "number"), SERIALS, ids=[number for _, number in SERIALS])
ONE_OF_EACH = [("quillet-e1", "0004"), ("barrow-t2", "T2-009")]
RESULT_STEP = 0.5e-6
"""Half of the last of seven significant digits."""


@everyone
def test_every_figure_has_one_sheet(project: str, number: str) -> None:
    packet = composed(project, number)
    anchors = [one for page in packet.pages if page.path.startswith("working/") for one in read(page).ids]
    assert [anchors.count(name) for name in made(project, number).with_sheets] == [1] * len(
        made(project, number).with_sheets
    )


@everyone
def test_every_sheet_shows_its_formula(project: str, number: str) -> None:
    packet = composed(project, number)
    for topic in topics(made(project, number)):
        assert html(page_of(packet, topic.path)).count(
            '<math xmlns="http://www.w3.org/1998/Math/MathML" display="block">'
        ) == len(topic.names)


@pytest.mark.parametrize("name", sorted(FORMULAS))
def test_every_formula_has_mathml_without_a_rest_of_latex(name: str) -> None:
    assert "\\" not in formula(FORMULAS[name].latex)


def printed_number(text: str) -> float:
    found = re.match(r"\u2212?[\d.]+", text)
    assert found, f"{text!r} starts with no number"
    return float(found[0].replace("\u2212", "-"))


def by_hand(figure: Figure, printed: list[float]) -> float:
    """Evaluate the formula on nothing but the numbers that the sheet prints, in their order."""
    inputs = figure.working.inputs
    rest = iter(printed)
    values: dict[str, float | list[float]] = {
        key: next(rest) for key, one in inputs.items() if isinstance(one, Input)
    }
    lists = {key: one for key, one in inputs.items() if not isinstance(one, Input)}
    columns: dict[str, list[float]] = {key: [] for key in lists}
    for place in range(max(map(len, lists.values()), default=0)):
        for key, one in lists.items():
            if place < len(one):
                columns[key].append(next(rest))
    assert not list(rest)
    return figure.working.formula.function(**values, **columns)


@pytest.mark.parametrize(("project", "number"), ONE_OF_EACH)
def test_the_printed_inputs_give_the_printed_result(project: str, number: str) -> None:
    dossier = made(project, number)
    off = []
    for name, figure in dossier.with_sheets.items():
        one = sheet(figure, dossier)
        result = by_hand(figure, [printed_number(line.si) for line in one.inputs])
        shown = printed_number(one.result_si)
        # a difference of nearly equal numbers has no seven digits: there the inputs' last digit counts
        largest = max((abs(printed_number(line.si)) for line in one.inputs), default=0.0)
        if abs(result - shown) > RESULT_STEP * abs(shown) * 1.001 + 1e-9 * largest:
            off.append((name, result, shown))
    assert off == []


@pytest.mark.parametrize(("project", "number"), ONE_OF_EACH)
def test_every_input_says_where_it_comes_from(project: str, number: str) -> None:
    dossier = made(project, number)
    lines = [
        (name, line) for name, figure in dossier.with_sheets.items() for line in sheet(figure, dossier).inputs
    ]
    assert [
        (name, line.label) for name, line in lines if not (line.place or line.figure or line.source)
    ] == []


def test_an_input_of_the_record_stands_as_it_was_written() -> None:
    dossier = made("quillet-e1", "0004")
    line = sheet(dossier.figures["net_mass.main-wheel"], dossier).inputs[0]
    event = dossier.weighing.event if dossier.weighing else None
    assert event is not None
    assert line.value == ", ".join(reading.text for reading in event.supports[0].readings)


def test_an_input_of_the_record_names_file_and_line() -> None:
    dossier = made("quillet-e1", "0004")
    place = sheet(dossier.figures["net_mass.main-wheel"], dossier).inputs[0].place
    file, _, line = place.partition(":")
    text = (dossier.project.folder / file).read_text("utf-8").splitlines()[int(line) - 1]
    assert "readings" in text


def test_the_three_largest_parts_of_the_uncertainty_come_first() -> None:
    dossier = made("quillet-e1", "0004")
    figure = dossier.figures["empty_mass"]
    assert [label for label, _ in sheet(figure, dossier).contributions] == [
        one.label for one in figure.contributions()[:3]
    ]


@pytest.mark.parametrize(
    ("latex", "shown"),
    [
        ("m_i", "m_{3}"),
        (r"\eta_i", r"\eta_{3}"),
        ("x_{f,j}", "x_{f,3}"),
        ("m_{l,i}", "m_{l,3}"),
        ("m_{tare}", "m_{tare}"),
        ("x_CG", "x_CG"),
    ],
)
def test_an_item_of_a_list_carries_its_number(latex: str, shown: str) -> None:
    assert numbered(latex, 3) == shown


def test_every_symbol_with_a_running_index_takes_a_number() -> None:
    running = [one.latex for one in SYMBOLS.values() if re.search(r"_([ij])\b|_\{\w+,[ij]\}", one.latex)]
    assert running
    assert [latex for latex in running if numbered(latex, 3) == latex] == []


def test_a_word_in_an_index_is_upright_and_a_letter_is_not() -> None:
    assert upright("m_{net} + x_{f,j} + x_P") == r"m_{\text{net}} + x_{f,j} + x_P"


@pytest.mark.parametrize(
    ("value", "kind", "shown"),
    [
        (124.858859741, "mass", "124.8589\u00a0kg"),
        (0.0000123456789, "angle", "0.00001234568\u00a0rad"),
        (10552253.91, "energy", "10552250\u00a0J"),
        (-0.152400, "length", "\u22120.1524\u00a0m"),
        (0.9215, "ratio", "0.9215"),
        (0.0, "length", "0\u00a0m"),
    ],
)
def test_an_si_value_has_seven_digits_and_no_exponent(value: float, kind: str, shown: str) -> None:
    assert in_si(value, kind, 7) == shown
