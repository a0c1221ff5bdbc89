"""The runs of flight tests of whole records, reduced, against invented cards and hand calculation."""

from __future__ import annotations

from math import atan2, degrees, hypot
from pathlib import Path
from typing import Any

import pytest
from demos import demo
from flight_examples import flight_example
from sample_project import SERIAL, Draft, event, pack_fitted, support, weighing

from dossier import pipeline
from dossier.dossier import Dossier
from dossier.figures import Input
from dossier.findings import Rejected
from dossier.results.reduced_runs import Reduced

MPH = 0.44704


def barrow(kind: str) -> Reduced:
    return next(one for one in demo("barrow-t2")["T2-007"].flight_runs.reduced if one.kind == kind)


def test_the_calibration_gives_the_corrections_of_its_card() -> None:
    # the columns true and calibrated of the invented card were worked out apart from this code, to 0.1 mph
    found = [run.value / MPH for run in barrow("airspeed_calibration").runs]
    assert found == pytest.approx([-1.9, -1.8, -1.4, -0.9, -0.5], abs=0.051)


def test_the_stall_of_the_runs_is_that_of_the_card() -> None:
    # card: mean of 31.9 mph indicated, -1.9 mph of correction, 30.0 mph
    mean = barrow("stalls").mean
    assert mean is not None
    assert mean.value / MPH == pytest.approx(30.0, abs=0.06)


def test_the_scatter_of_the_stalls_is_that_of_the_card() -> None:
    assert barrow("stalls").scatter / MPH == pytest.approx(0.4, abs=0.05)


def test_the_doubt_of_the_stall_holds_what_all_runs_share_and_the_scatter() -> None:
    # by hand: 0.6 mph shared, 0.4 / sqrt 5 of scatter, a little of the line: 0.63 mph
    mean = barrow("stalls").mean
    assert mean is not None
    assert mean.standard_uncertainty / MPH == pytest.approx(0.63, abs=0.02)
    first = mean.contributions()[0]
    assert first.label == "shared error of the airspeed calibration of 2026-04-11"
    assert first.amount / MPH == pytest.approx(0.6, abs=0.005)


def test_a_descent_is_brought_to_sea_level_by_hand() -> None:
    # run 1: 984 ft = 299.92 m in 153 s, 1.9603 m/s of pressure height; middle 2508 ft = 764.4 m, standard
    # 283.18 K, flown 282.15 K: 1.9532 m/s; p 924.6 hPa (ISO 2533), rho 1.1416; root of 1.1416/1.225: 0.96537
    run = barrow("timed_descents").runs[0]
    assert run.value == pytest.approx(1.9532 * 0.96537, abs=0.0005)


def test_level_runs_that_a_stop_held_are_only_calibrated() -> None:
    found = [run.value / MPH for run in barrow("level_runs").runs]
    assert found == pytest.approx([61.0, 60.5, 61.5], abs=0.051)


def test_the_figure_of_a_rule_comes_from_the_runs() -> None:
    dossier = demo("barrow-t2")["T2-007"]
    mean = barrow("stalls").mean
    assert mean is not None
    assert dossier.figures["stall_speed"].value == pytest.approx(mean.value)  # flown at the mass of the rule


def test_what_is_compared_is_the_mean_of_the_runs() -> None:
    made, mean = demo("barrow-t2")["T2-007"].performance, barrow("timed_descents").mean
    assert made is not None
    assert mean is not None
    sinks = [one.measured for one in made.compared if one.quantity == "minimum_sink"]
    assert sinks == [mean.value, mean.value]


def test_no_run_of_the_demonstration_is_doubted() -> None:
    assert demo("barrow-t2")["T2-007"].flight_runs.findings == ()


def stalls(*speeds: str, at_mass: str = "200 kg", **more: Any) -> dict[str, Any]:
    runs = [{"calibrated_speed": speed} for speed in speeds]
    result = {
        "quantity": "stall_speed", "value": "40 km/h ± 2 km/h", "basis": "CAS",
        "configuration": "mean", "at_mass": at_mass,
    }  # fmt: skip
    return event(
        "flight-test", "2026-04-18", results=[result], stalls={"at_mass": at_mass, "runs": runs}, **more
    )


def made(folder: Path, *events: dict[str, Any]) -> Dossier:
    draft = Draft()
    draft.events.extend(events)
    return draft.make(folder)


def test_a_stall_is_carried_to_the_mass_of_the_rule(tmp_path: Path) -> None:
    # stall-mass-scaling: v goes with the root of the mass
    dossier = made(tmp_path, stalls("40 km/h", "41 km/h"))
    aircraft = dossier.project.aircraft
    heaviest = aircraft.limits[aircraft.loading.maximum_take_off_mass].value.value
    expected = 40.5 / 3.6 * (heaviest / 200) ** 0.5
    assert dossier.figures["stall_speed"].value == pytest.approx(expected)


def test_the_mass_of_the_runs_counts_and_not_that_of_the_stated_result(tmp_path: Path) -> None:
    test = stalls("40 km/h", "41 km/h")
    test["results"][0]["at_mass"] = "205 kg"
    dossier = made(tmp_path, test)
    mass = dossier.figures["stall_speed"].working.inputs["m_ref"]
    assert isinstance(mass, Input)
    assert mass.value == 200.0


def test_a_stall_is_carried_to_another_mass_as_in_the_question_bank(tmp_path: Path) -> None:
    asked = flight_example("stall-mass-scaling")
    masses = [
        f"{asked[key] * 50:.6f} kg" for key in ("m1_t", "m2_t")
    ]  # a fiftieth of the masses: 285 and 205 kg
    speed = f"{asked['V1_kt'] / 4} kt"
    draft = Draft()
    limit = str(draft.aircraft["loading"]["maximum_take_off_mass"])
    draft.aircraft["limits"][limit]["value"] = masses[1]
    draft.events.append(stalls(speed, speed, at_mass=masses[0]))
    found = draft.make(tmp_path).figures["stall_speed"].value / (1852 / 3600)
    assert found * 4 == asked.near("V2_kt")


def test_three_legs_with_the_printed_airspeed_give_its_correction(tmp_path: Path) -> None:
    legs = flight_example("gps-three-legs")
    pairs = list(zip(legs.column("vx_mps"), legs.column("vy_mps"), strict=True))
    run = {f"ground_speed_{n}": f"{hypot(*pair):.7f} m/s" for n, pair in enumerate(pairs, 1)}
    block = {
        "directions": [f"{degrees(atan2(x, y)):.7f} deg" for x, y in pairs], "directions_are": "tracks",
        "pressure_altitude": "0 m", "temperature": "15 °C", "shared_error": "0.5 m/s",
        "runs": [run | {"indicated_speed": f"{speed} m/s"} for speed in (24, 25, 26)],
    }  # fmt: skip
    test = event("flight-test", "2026-04-18", results=[], airspeed_calibration=block)
    (reduced,) = made(tmp_path, test).flight_runs.reduced
    calibrated = [run.value + speed for run, speed in zip(reduced.runs, (24, 25, 26), strict=True)]
    assert calibrated == pytest.approx([float(legs.expect["TAS"])] * 3, abs=1e-4)  # sea level: CAS is TAS


def test_a_later_test_without_runs_stands_as_it_is_stated(tmp_path: Path) -> None:
    later = stalls("40 km/h", "41 km/h") | {"date": "2026-04-20"}
    del later["stalls"]
    dossier = made(tmp_path, stalls("38 km/h", "39 km/h"), later)
    assert dossier.flight_runs.mean_of("stall_speed", dossier.state.measured["stall_speed"].test) is None


def test_one_run_shows_no_scatter_and_gives_no_mean(tmp_path: Path) -> None:
    dossier = made(tmp_path, stalls("40 km/h"))
    assert dossier.flight_runs.figures == ()
    (finding,) = dossier.flight_runs.findings
    assert (finding.code, "scatter shows from two" in finding.message) == ("F010", True)


def test_a_stated_result_that_its_runs_do_not_bear_out_is_told(tmp_path: Path) -> None:
    dossier = made(tmp_path, stalls("45 km/h", "45.2 km/h"))
    assert [one.code for one in dossier.flight_runs.findings] == ["F011"]


def test_a_level_run_that_the_power_held_needs_a_polar(tmp_path: Path) -> None:
    runs = [{"calibrated_speed": "90 km/h", "power": "8 kW"}] * 2
    level = {
        "at_mass": "200 kg", "held_by": "power", "pressure_altitude": "300 m", "temperature": "15 °C",
        "runs": runs,
    }  # fmt: skip
    dossier = made(tmp_path, event("flight-test", "2026-04-18", results=[], level_runs=level))
    (finding,) = dossier.flight_runs.findings
    assert "no aerodynamics" in finding.message


@pytest.mark.parametrize(
    ("block", "says"),
    [
        ({"at_mass": "200 kg"}, "neither file nor runs"),
        (
            {"at_mass": "200 kg", "runs": [{"indicated_speed": "40 km/h"}] * 2},
            "no calibration of the airspeed",
        ),
        (
            {"at_mass": "200 kg", "runs": [{"calibrated_speed": "40 kg"}] * 2},
            "calibrated_speed is a mass here",
        ),
        (
            {"at_mass": "200 kg", "runs": [{"calibrated_speed": "40 kt", "wind": "3 kt"}] * 2},
            "'wind' is no quantity",
        ),
        ({"at_mass": "200 kg", "file": "evidence/a.csv", "columns": {"time": "t / s"}}, "indicated_speed or"),
    ],
)
def test_runs_that_are_not_whole_are_refused(tmp_path: Path, block: dict[str, Any], says: str) -> None:
    with pytest.raises(Rejected) as rejected:
        made(tmp_path, event("flight-test", "2026-04-18", results=[], stalls=block))
    assert any(says in finding.message for finding in rejected.value.findings)


def written(folder: Path, table: str) -> Path:
    """Write a project whose stalls stand in a table among the evidence."""
    draft = Draft()
    block = {
        "at_mass": "200 kg",
        "file": "evidence/stalls.csv",
        "columns": {"calibrated_speed": "speed / km/h"},
    }
    cited = [{"file": "evidence/stalls.csv", "shows": "stalls"}]
    draft.events.append(event("flight-test", "2026-04-18", results=[], stalls=block, evidence=cited))
    project = draft.write(folder)
    (project / "serials" / SERIAL / "evidence").mkdir()
    (project / "serials" / SERIAL / "evidence" / "stalls.csv").write_text(table, "utf-8")
    return project


def test_runs_of_a_file_are_those_of_the_record(tmp_path: Path) -> None:
    dossier = pipeline.run(written(tmp_path, "run,speed / km/h\n1,40\n2,41\n"), SERIAL)
    (reduced,) = dossier.flight_runs.reduced
    assert [run.value * 3.6 for run in reduced.runs] == pytest.approx([40.0, 41.0])


def test_a_bad_table_refuses_the_record_with_file_line_and_column(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as rejected:
        pipeline.run(written(tmp_path, "run,speed / km/h\n1,40\n2,4l\n"), SERIAL)
    (finding,) = rejected.value.findings
    assert (finding.code, str(finding.place)) == ("R022", f"serials/{SERIAL}/evidence/stalls.csv:3:3")


def test_a_table_that_is_not_evidence_is_refused(tmp_path: Path) -> None:
    block = {"at_mass": "200 kg", "file": "evidence/a.csv", "columns": {"calibrated_speed": "v / kt"}}
    with pytest.raises(Rejected) as rejected:
        made(tmp_path, event("flight-test", "2026-04-18", results=[], stalls=block))
    assert "P024" in {finding.code for finding in rejected.value.findings}


def test_a_level_run_that_the_power_held_is_brought_to_full_power(tmp_path: Path) -> None:
    # the starter gives 9.5 kW at full throttle; power at the sea goes with the root of the density, so at
    # 1500 m in standard air 9.5 kW of the run are 9.5 * sqrt(1.0581/1.2250) = 8.83 kW at the same lift
    draft = Draft()
    draft.aircraft["aerodynamics"] = {
        key: {"value": value, "reason": "calculation"}
        for key, value in (
            ("zero_lift_drag_coefficient", "0.0165"), ("oswald_factor", "0.86"),
            ("maximum_lift_coefficient", "1.42"),
        )
    }  # fmt: skip
    draft.record["events"] = [
        pack_fitted("P-1", "18.4 kg"),
        weighing(support("left", "54 kg", arm="0.35 m"), support("right", "54 kg", arm="0.35 m"),
                 support("tail", "11 kg", arm="3.6 m")),
    ]  # fmt: skip
    full = str(draft.aircraft["propulsion"]["maximum_power"])
    level = {
        "at_mass": "200 kg", "held_by": "power", "pressure_altitude": "1500 m", "temperature": "5.25 °C",
        "runs": [{"calibrated_speed": "30 m/s", "power": full}] * 2,
    }  # fmt: skip
    draft.events.append(event("flight-test", "2026-04-18", results=[], level_runs=level))
    (reduced,) = draft.make(tmp_path).flight_runs.reduced

    def drag_power(v: float) -> float:  # on the wing of the starter, 13.5 m² and an aspect ratio of 10.667
        induced, weight = 1 / (3.141592653589793 * 0.86 * 144 / 13.5), 200 * 9.80665
        return 0.5 * 1.225 * v**3 * 13.5 * 0.0165 + 2 * induced * weight**2 / (1.225 * 13.5 * v)

    ratio = drag_power(reduced.runs[0].value) / drag_power(30.0)
    assert ratio == pytest.approx((1.2250 / 1.0581) ** 0.5, rel=2e-4)
