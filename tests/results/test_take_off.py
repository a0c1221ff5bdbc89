"""The estimate of the take-off run of a whole record."""

from __future__ import annotations

from dataclasses import replace

import pytest
from demos import demo

from dossier.dossier import Dossier
from dossier.results.flight import FlightResult
from dossier.results.take_off import TakeOffRuns, take_off_runs


def dossier() -> Dossier:
    return demo("barrow-t2")["T2-007"]


def runs() -> TakeOffRuns:
    made = dossier().performance
    assert made is not None
    assert made.take_off is not None
    return made.take_off


def test_the_row_of_sea_level_in_standard_air_is_the_figure() -> None:
    for one in runs().runs:
        assert one.made.figure is not None
        assert one.rows[0].runs[1] == pytest.approx(one.made.figure.value, rel=1e-6)


def test_the_run_is_longer_than_with_all_of_the_static_thrust_to_the_end() -> None:
    # by hand, long battery: T_0 = (pi/2 1.225 1.4^2 (0.60 21185)^2)^(1/3) = 848 N, 271 kg, v_LO = 15.3 m/s:
    # a = 848/271 - 0.05 g = 2.64 m/s^2, v^2/(2 a) = 44 m
    run = next(one for one in runs().runs if one.option == "long-pack")
    assert run.made.figure is not None
    assert 44 < run.made.figure.value < 80


def test_every_run_is_longer_higher_and_warmer() -> None:
    for one in runs().runs:
        for row in one.rows:
            assert list(row.runs) == sorted(row.runs)  # type: ignore[type-var]
        assert [row.runs[1] for row in one.rows] == sorted(row.runs[1] for row in one.rows)  # type: ignore[type-var]


def test_the_run_has_an_uncertainty_of_friction_thrust_and_lift_off() -> None:
    figure = runs().runs[0].made.figure
    assert figure is not None
    labels = {one.label for one in figure.contributions()}
    assert {"rolling friction", "lift-off factor", "figure of merit of the propeller"} <= labels


def test_nothing_rests_on_the_run() -> None:
    bases = FlightResult(dossier().performance).bases
    assert bases["take_off_run.long-pack"] == bases["lift_off_speed.long-pack"] == "estimate"


def test_a_drive_too_weak_to_lift_off_is_a_finding_and_no_number() -> None:
    made, aircraft = dossier().performance, dossier().project.aircraft
    assert made is not None
    assert made.take_off is not None
    slow = replace(aircraft.propulsion.maximum_power, value=900.0, standard_uncertainty=0.0)
    drive = aircraft.propulsion.model_copy(update={"maximum_power": slow})
    weak = take_off_runs(made.options, made.polar, aircraft.model_copy(update={"propulsion": drive}))
    assert weak is not None
    assert {run.made.figure for run in weak.runs} == {None}
    assert all("no lift-off" in finding.message for finding in weak.findings)
    assert weak.runs[0].rows[0].runs[1] == "no lift-off with this thrust, mass and ground"


def test_a_type_that_states_nothing_for_a_run_has_none() -> None:
    made, aircraft = dossier().performance, dossier().project.aircraft
    assert made is not None
    assert aircraft.aerodynamics is not None
    bare = aircraft.aerodynamics.model_copy(update={"take_off": None})
    assert take_off_runs(made.options, made.polar, aircraft.model_copy(update={"aerodynamics": bare})) is None
