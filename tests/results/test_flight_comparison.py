"""What was measured beside what is computed: the numbers, whether they agree, and what is said of it."""

from __future__ import annotations

from math import hypot, sqrt
from pathlib import Path

import pytest
from demos import demo
from sample_project import Draft, event, pack_fitted, support, weighing

from dossier.dossier import Dossier
from dossier.findings import Severity
from dossier.results.flight_comparison import POLAR, SINK, STALL, TOP_SPEED, TYPE, Compared

KNOT, FOOT_A_MINUTE = 1852 / 3600, 0.3048 / 60
AERODYNAMICS = {
    "zero_lift_drag_coefficient": {"value": "0.0165 ± 0.0010", "reason": "calculation"},
    "oswald_factor": {"value": "0.86 ± 0.06", "reason": "calculation"},
    "maximum_lift_coefficient": {"value": "1.42 ± 0.08", "reason": "stalls"},
}


def record_with(folder: Path, quantity: str, value: str, **more: str) -> Dossier:
    """Make the starter project, weighed, with aerodynamics and one result of a flight test at 205 kg."""
    made = Draft()
    made.aircraft["aerodynamics"] = AERODYNAMICS
    result = {
        "quantity": quantity, "value": value, "configuration": "steady", "at_mass": "205 kg", "basis": "CAS",
        **more,
    }  # fmt: skip
    made.record["events"] = [
        pack_fitted("P-1", "18.4 kg"),
        weighing(
            support("left", "54 kg", arm="0.35 m"),
            support("right", "54 kg", arm="0.35 m"),
            support("tail", "11 kg", arm="3.6 m"),
        ),
        event("flight-test", "2026-04-18", results=[result]),
    ]
    return made.make(folder)


def found(dossier: Dossier, quantity: str, against: str = "") -> Compared:
    assert dossier.performance
    (one,) = [
        one
        for one in dossier.performance.compared
        if one.quantity == quantity and (not against or one.against == against)
    ]
    return one


def told(dossier: Dossier) -> list[Severity]:
    return [finding.severity for finding in dossier.findings if finding.code == "F009"]


def test_the_stall_is_computed_at_the_mass_of_the_test(tmp_path: Path) -> None:
    # by hand: v = sqrt(2 m g / (rho S C_L)), 13.5 m², ISO 2533 density
    by_hand = sqrt(2 * 205 * 9.80665 / (1.225 * 13.5 * 1.42))
    assert found(record_with(tmp_path, STALL, "13.2 m/s ± 0.5 m/s"), STALL).computed == pytest.approx(by_hand)


def test_the_top_speed_is_where_power_and_drag_meet(tmp_path: Path) -> None:
    one = found(record_with(tmp_path, TOP_SPEED, "25 m/s ± 0.5 m/s"), TOP_SPEED)
    assert one.computed is not None
    weight, area, speed = 205 * 9.80665, 13.5, one.computed
    pressure = 0.5 * 1.225 * speed**2
    induced = 1 / (3.141592653589793 * 0.86 * 144 / area)
    drag = pressure * area * (0.0165 + induced * (weight / (pressure * area)) ** 2)
    dossier = demo_drive(tmp_path)
    assert drag * speed == pytest.approx(dossier, rel=1e-6)


def demo_drive(folder: Path) -> float:
    """Return full power times the efficiency of the drive of the starter, in W."""
    made = record_with(folder / "again", TOP_SPEED, "25 m/s ± 0.5 m/s")
    power: float = made.project.aircraft.propulsion.maximum_power.value
    return power * made.figures["drive_efficiency"].value


def test_the_sink_of_the_type_is_carried_to_the_mass_of_the_test() -> None:
    # T2-007: the type states 1.90 m/s at 260 kg, the test was flown at 268 kg
    one = found(demo("barrow-t2")["T2-007"], SINK, TYPE)
    assert one.computed == pytest.approx(1.90 * sqrt(268 / 260))


def test_what_both_may_be_off_is_the_root_of_the_squares() -> None:
    one = found(demo("barrow-t2")["T2-007"], SINK, TYPE)
    # the four descents by hand: motion of the air 0.15 m/s, brought to sea level 0.1448; sinks 1.886,
    # 1.826, 1.853 and 1.865 m/s have a standard deviation of 0.0251, so 2 * 0.0251 / sqrt 4 for their mean
    measured = hypot(0.1448, 0.0251)
    assert one.allowed == pytest.approx(hypot(measured, 0.12 * sqrt(268 / 260)), abs=5e-4)


def test_a_difference_within_that_agrees() -> None:
    assert found(demo("barrow-t2")["T2-007"], SINK, TYPE).agrees is True


def test_what_agrees_has_no_finding(tmp_path: Path) -> None:
    assert told(record_with(tmp_path, STALL, "13.1 m/s ± 0.5 m/s")) == []


@pytest.mark.parametrize(
    ("quantity", "value"),
    [(STALL, "18 m/s ± 0.3 m/s"), (SINK, "1.2 m/s ± 0.05 m/s"), (TOP_SPEED, "60 m/s ± 1 m/s")],
)
def test_what_disagrees_is_a_warning(quantity: str, value: str, tmp_path: Path) -> None:
    assert set(told(record_with(tmp_path, quantity, value))) == {Severity.WARNING}


def test_a_top_speed_that_was_not_reached_is_a_note(tmp_path: Path) -> None:
    assert told(record_with(tmp_path, TOP_SPEED, "20 m/s ± 0.5 m/s")) == [Severity.NOTE]


def test_the_top_speed_of_0003_was_not_reached() -> None:
    one = found(demo("quillet-e1")["0003"], TOP_SPEED)
    assert one.not_reached
    assert one.measured / KNOT == pytest.approx(49.8)


def test_an_indicated_speed_is_not_compared(tmp_path: Path) -> None:
    one = found(record_with(tmp_path, STALL, "18 m/s ± 0.3 m/s", basis="IAS"), STALL)
    assert one.agrees is None
    assert "only a calibrated airspeed" in one.why_not


def test_a_speed_without_an_uncertainty_is_not_compared(tmp_path: Path) -> None:
    assert found(record_with(tmp_path, STALL, "18 m/s"), STALL).why_not == "the test states no uncertainty"


def test_a_polar_fitted_to_the_same_test_is_no_independent_check() -> None:
    assert "no independent check" in found(demo("quillet-e1")["0003"], SINK, POLAR).remark


def test_a_polar_of_the_design_is_an_independent_check() -> None:
    assert found(demo("barrow-t2")["T2-007"], SINK, POLAR).remark == ""
