"""Timed glides at several speeds: from clock and altimeter to a drag polar, against one worked out here."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from sample_project import Draft, event, pack_fitted, support, weighing

from dossier.dossier import Dossier
from dossier.findings import Rejected

AERODYNAMICS = {
    "zero_lift_drag_coefficient": {"value": "0.0165 ± 0.0010", "reason": "calculation"},
    "oswald_factor": {"value": "0.86 ± 0.06", "reason": "calculation"},
    "maximum_lift_coefficient": {"value": "1.42 ± 0.08", "reason": "stalls"},
}
CALM = {"air_motion": "0 m/s", "airspeed_scale": "0 %", "mass": "0 %", "density": "0 %"}
SPEEDS = (13.0, 15.0, 18.0, 22.0, 26.0)
"""Calibrated, in m/s."""
MASS, DENSITY, TEMPERATURE = 225.0, 1.04031, 283.15
"""Of the flight at 1500 m: 845.56 hPa (ISO 2533), 10 °C, 845.56e2/(287.05287 283.15) kg/m³."""
STANDARD = 288.15 - 0.0065 * 1500


def true_sink(calibrated: float) -> float:
    """Sink in m/s of C_D0 0.0172 and e 0.80 on the wing of the starter (12.0 m, 13.5 m²), up there."""
    weight, air = MASS * 9.80665, DENSITY * 13.5
    induced = 1 / (3.141592653589793 * 0.80 * 144 / 13.5)
    speed = calibrated * (1.225 / DENSITY) ** 0.5
    return air * 0.0172 * speed**3 / (2 * weight) + 2 * induced * weight / (air * speed)


def run(speed: float, kind: str = "calibrated_speed") -> dict[str, str]:
    """Time a drop of 200 m of pressure altitude: warmer air than standard is taller between two pressures."""
    seconds = 200 * (TEMPERATURE / STANDARD) / true_sink(speed)
    return {
        kind: f"{speed} m/s ± 0.1 m/s", "from_height": "1600 m", "to_height": "1400 m",
        "time": f"{seconds:.3f} s ± 0.5 s", "temperature": "10 °C",
    }  # fmt: skip


def draft(runs: list[dict[str, str]], **more: Any) -> Draft:
    made = Draft()
    made.aircraft["aerodynamics"] = AERODYNAMICS
    made.record["events"] = [
        pack_fitted("P-1", "18.4 kg"),
        weighing(support("left", "54 kg", arm="0.35 m"), support("right", "54 kg", arm="0.35 m"),
                 support("tail", "11 kg", arm="3.6 m")),
        event("flight-test", "2026-04-18",
              **{"results": [], "timed_glides": {"at_mass": "225 kg", "runs": runs}} | more),
    ]  # fmt: skip
    return made


def made(folder: Path, **more: Any) -> Dossier:
    return draft([run(speed) for speed in SPEEDS], **{"shared_errors": CALM} | more).make(folder)


def test_the_polar_is_that_which_the_times_were_made_from(tmp_path: Path) -> None:
    dossier = made(tmp_path)
    assert dossier.figures["zero_lift_drag.polar"].value == pytest.approx(0.0172, rel=0.001)
    expected = 1 / (3.141592653589793 * 0.80 * 144 / 13.5)
    assert dossier.figures["induced_drag.polar"].value == pytest.approx(expected, rel=0.002)


def test_each_speed_and_sink_is_brought_to_the_mass_of_the_polar(tmp_path: Path) -> None:
    (reduced,) = made(tmp_path).flight_runs.reduced
    mass = Draft().aircraft["glide"]["at_mass"]
    lighter = (float(mass.split()[0]) / MASS) ** 0.5
    assert [one.value for one in reduced.speeds] == pytest.approx([v * lighter for v in SPEEDS])
    at_sea = lighter * (DENSITY / 1.225) ** 0.5
    assert [one.value for one in reduced.runs] == pytest.approx(
        [true_sink(v) * at_sea for v in SPEEDS], rel=2e-4
    )


def test_points_of_the_fit_carry_only_what_was_read_in_each_glide(tmp_path: Path) -> None:
    # 0.5 s of 2 * 200 m * 1.0174 / sink: k = 2, so half of it, relative to the time
    performance = made(tmp_path).performance
    assert performance is not None
    assert performance.polar.session is not None
    point = performance.polar.session.points[0]
    seconds = float(run(SPEEDS[0])["time"].split()[0])
    assert point.sink_uncertainty / point.sink == pytest.approx(0.25 / seconds, rel=1e-5)
    assert point.speed_uncertainty / point.speed == pytest.approx(0.05 / SPEEDS[0], rel=1e-5)


def test_what_the_glides_share_widens_the_polar(tmp_path: Path) -> None:
    (tmp_path / "calm").mkdir()
    (tmp_path / "usual").mkdir()
    calm = made(tmp_path / "calm").figures["best_glide_ratio.polar"]
    usual = made(tmp_path / "usual", shared_errors={}).figures["best_glide_ratio.polar"]
    assert usual.standard_uncertainty > 2 * calm.standard_uncertainty


def test_indicated_speeds_go_by_the_calibration_of_an_earlier_test(tmp_path: Path) -> None:
    # over the ground 1.5 m/s more than shown, on three tracks without wind at sea level
    legs = [
        {"indicated_speed": f"{v} m/s", **{f"ground_speed_{n}": f"{v + 1.5} m/s" for n in (1, 2, 3)}}
        for v in (11, 18, 25)
    ]
    calibration = {
        "directions": ["0 deg", "120 deg", "240 deg"], "directions_are": "tracks",
        "pressure_altitude": "0 m", "temperature": "15 °C", "shared_error": "0.5 m/s", "runs": legs,
    }  # fmt: skip
    shown = [run(v) | {"indicated_speed": f"{v - 1.5} m/s ± 0.1 m/s"} for v in SPEEDS]
    for one in shown:
        del one["calibrated_speed"]
    sample = draft(shown, shared_errors=CALM)
    sample.record["events"].insert(
        2, event("flight-test", "2026-04-11", results=[], airspeed_calibration=calibration)
    )
    dossier = sample.make(tmp_path)
    assert dossier.figures["zero_lift_drag.polar"].value == pytest.approx(0.0172, rel=0.001)


def test_glides_that_give_no_polar_are_told_and_the_type_stands(tmp_path: Path) -> None:
    dossier = draft([run(18.0), run(18.0)], shared_errors=CALM).make(tmp_path)
    assert [one.code for one in dossier.findings if one.code.startswith("F")] == ["F001"]
    assert dossier.figures["zero_lift_drag.polar"].value == 0.0165


def test_two_kinds_of_glides_in_one_test_are_refused(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as rejected:
        made(tmp_path, glide_points=[{"speed": "18 m/s", "sink": "0.8 m/s ± 0.02 m/s"}])
    assert any("one polar is fitted" in finding.message for finding in rejected.value.findings)


STALL = {"quantity": "stall_speed", "basis": "CAS", "configuration": "power off", "at_mass": "225 kg"}
STALLS = {"at_mass": "225 kg", "runs": [{"calibrated_speed": "11.0 m/s"}, {"calibrated_speed": "11.4 m/s"}]}


def test_a_result_without_a_value_is_what_its_runs_give(tmp_path: Path) -> None:
    dossier = made(tmp_path, results=[STALL], stalls=STALLS)
    aircraft = dossier.project.aircraft
    heaviest = aircraft.limits[aircraft.loading.maximum_take_off_mass].value.value
    assert dossier.figures["stall_speed"].value == pytest.approx(11.2 * (heaviest / 225) ** 0.5)
    assert [one.quantity for one in dossier.performance.compared] == ["stall_speed"]  # type: ignore[union-attr]


def test_a_result_without_a_value_whose_runs_cannot_be_reduced_gives_no_figure(tmp_path: Path) -> None:
    dossier = made(tmp_path, results=[STALL], stalls=STALLS | {"runs": STALLS["runs"][:1]})
    assert "stall_speed" not in dossier.figures
    assert "F010" in [finding.code for finding in dossier.findings]


def test_a_result_without_a_value_and_without_runs_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as rejected:
        made(tmp_path, results=[STALL])
    (finding,) = [one for one in rejected.value.findings if "has no value" in one.message]
    assert finding.help == "add value, or its runs as stalls"
