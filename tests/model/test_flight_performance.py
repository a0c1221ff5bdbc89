"""The optional aerodynamics of the type and the measured glides of a flight test."""

from __future__ import annotations

from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from dossier.findings import Rejected
from dossier.model.aerodynamics import Aerodynamics
from dossier.model.aircraft import Aircraft
from dossier.model.events import FlightTest
from dossier.model.validation import validate
from dossier.read.yaml_text import read_yaml

AERODYNAMICS = """\
zero_lift_drag_coefficient: {value: "0.0165 ± 0.0010", reason: Glides of the prototype}
oswald_factor: {value: "0.86 ± 0.06", reason: Glides of the prototype}
maximum_lift_coefficient: {value: "1.42 ± 0.08", reason: Stalls of the prototype}
"""
TEST = """\
event: flight-test
date: 2026-04-18
by: A. Builder
results: []
glide_points:
  - {speed: "36 kt ± 0.5 kt", sink: "0.82 m/s ± 0.04 m/s"}
  - {speed: "42 kt", sink: "190 ft/min", at_mass: 205 kg, pressure_altitude: 1500 m, temperature: 10 °C}
"""


def test_the_aerodynamics_keep_value_and_uncertainty(tmp_path: Path) -> None:
    found = validate(Aerodynamics, read(tmp_path, AERODYNAMICS)).zero_lift_drag_coefficient
    assert found.value.value == 0.0165
    assert found.value.standard_uncertainty == pytest.approx(0.0005)
    assert found.reason == "Glides of the prototype"


def test_a_coefficient_without_a_reason_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as rejected:
        validate(Aerodynamics, read(tmp_path, AERODYNAMICS.replace(", reason: Stalls of the prototype", "")))
    (finding,) = rejected.value.findings
    assert "reason" in finding.message
    assert finding.place is not None
    assert finding.place.line == 3


def test_a_coefficient_with_a_unit_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as rejected:
        validate(Aerodynamics, read(tmp_path, AERODYNAMICS.replace('"0.0165 ± 0.0010"', "0.0165 m²")))
    assert [finding.place.line for finding in rejected.value.findings if finding.place] == [1]


def test_a_type_without_aerodynamics_is_still_a_type() -> None:
    assert Aircraft.model_fields["aerodynamics"].default is None


def test_a_flight_test_holds_its_glides_in_si(tmp_path: Path) -> None:
    first, second = validate(FlightTest, read(tmp_path, TEST)).glide_points
    assert first.speed.value == pytest.approx(36 * 1852 / 3600)
    assert first.sink.standard_uncertainty == pytest.approx(0.02)
    assert first.at_mass is None
    assert second.temperature is not None
    assert second.temperature.value == pytest.approx(283.15)


def test_a_flight_test_without_glides_has_none(tmp_path: Path) -> None:
    assert validate(FlightTest, read(tmp_path, TEST.partition("glide_points")[0])).glide_points == []


def test_a_glide_without_sink_is_refused_where_it_stands(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as rejected:
        validate(FlightTest, read(tmp_path, TEST.replace(', sink: "0.82 m/s ± 0.04 m/s"', "")))
    (finding,) = rejected.value.findings
    assert "sink" in finding.message
    assert finding.place is not None
    assert finding.place.line == 6


def test_the_schema_takes_what_the_model_takes() -> None:
    schema = Draft202012Validator(Aerodynamics.model_json_schema())
    good = {"value": "0.0165 ± 0.0010", "reason": "Glides"}
    names = ("zero_lift_drag_coefficient", "oswald_factor", "maximum_lift_coefficient")
    assert list(schema.iter_errors(dict.fromkeys(names, good))) == []
    assert list(schema.iter_errors(dict.fromkeys(names[:2], good)))


def read(folder: Path, text: str) -> object:
    path = folder / "part.yaml"
    path.write_text(text, encoding="utf-8")
    return read_yaml(path, "part.yaml")
