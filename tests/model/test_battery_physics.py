"""The optional keys for the physics of the battery: taken, left out, and refused when misspelt."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from dossier.findings import Rejected
from dossier.model.aircraft import Use
from dossier.model.base import Part
from dossier.model.battery import Battery, Cell, ResistancePoint
from dossier.model.validation import validate
from dossier.read.yaml_text import read_yaml
from dossier.starter import TEMPLATE

PHYSICS = """\
    resistance:
      - {state_of_charge: "10 %", resistance: "59 mΩ ± 4 mΩ"}
      - {state_of_charge: "90 %", resistance: "42 mΩ"}
    resistance_temperature_constant: "3000 K"
    application: power
    ageing_model: schmalstieg-2014
"""
USE = """\
hours_per_year: "60 h"
flights_per_year: 70
charge_before_flight: "90 %"
charge_after_flight: "25 %"
storage_charge: "50 %"
storage_temperature: "12 °C"
"""


def read(folder: Path, model: type[Part], text: str) -> Part:
    path = folder / "file.yaml"
    path.write_text(text, encoding="utf-8")
    return validate(model, read_yaml(path, "file.yaml"))


def without_physics(text: str) -> str:
    """Take the optional keys out of the starter's cell."""
    bare = re.sub(r"    resistance:.*\n(?:      - .*\n)+", "", text)
    bare = re.sub(
        r"    (?:application|resistance_temperature_constant|ageing_model|wiring_resistance):.*\n", "", bare
    )
    assert bare != text
    return bare


def battery(folder: Path, more: str) -> Battery:
    text = without_physics((TEMPLATE / "battery.yaml").read_text(encoding="utf-8"))
    mark = "    name: Sample cell\n"
    assert mark in text
    made = read(folder, Battery, text.replace(mark, more + mark, 1))
    assert isinstance(made, Battery)
    return made


def first_cell(folder: Path, more: str) -> Cell:
    return next(iter(battery(folder, more).cells.values()))


def test_a_cell_takes_what_the_physics_needs(tmp_path: Path) -> None:
    cell = first_cell(tmp_path, PHYSICS)
    assert cell.resistance is not None
    first: ResistancePoint = cell.resistance[0]
    assert (first.state_of_charge.value, first.resistance.value) == pytest.approx((0.10, 0.059))
    assert first.resistance.standard_uncertainty == pytest.approx(0.002)
    assert cell.resistance_temperature_constant is not None
    assert cell.resistance_temperature_constant.value == 3000
    assert (cell.application, cell.ageing_model) == ("power", "schmalstieg-2014")


def test_a_record_without_it_stays_valid(tmp_path: Path) -> None:
    cell = first_cell(tmp_path, "")
    assert (cell.resistance, cell.application, cell.ageing_model) == (None, None, None)
    assert all(option.wiring_resistance is None for option in battery(tmp_path, "").options.values())


@pytest.mark.parametrize(
    ("wrong", "code"),
    [
        ("    application: racing\n", "M012"),
        ("    ageing_model: schmalstieg\n", "M012"),
        ("    resistances: []\n", "M002"),
        ('    resistance_temperature_constant: "3000"\n', "M011"),
        ('    resistance: [{state_of_charge: "10 %", resistance: "59 V"}]\n', "M011"),
    ],
)
def test_a_wrong_value_is_refused(tmp_path: Path, wrong: str, code: str) -> None:
    with pytest.raises(Rejected) as refused:
        first_cell(tmp_path, wrong)
    assert [finding.code for finding in refused.value.findings] == [code]


def test_the_use_of_a_year_is_taken(tmp_path: Path) -> None:
    use = read(tmp_path, Use, USE)
    assert isinstance(use, Use)
    assert use.hours_per_year.value == 60 * 3600
    assert use.storage_temperature.value == pytest.approx(285.15)


def test_a_use_is_told_whole(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as refused:
        read(tmp_path, Use, 'hours_per_year: "60 h"\n')
    assert {finding.code for finding in refused.value.findings} == {"M001"}
    assert len(refused.value.findings) == 5
