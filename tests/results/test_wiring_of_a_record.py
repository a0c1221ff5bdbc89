"""Conductors, fuses and plugs of a record against what flows and what the tables say."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from demos import SERIALS, demo
from sample_project import Draft, support, weighing

from dossier.compute import traction_current
from dossier.dossier import Dossier
from dossier.results.wiring_checks import Check, Standing

MAIN: dict[str, Any] = {
    "name": "Main cable",
    "gauge": "2/0",
    "insulation": "silicone",
    "rated_temperature": "200 °C",
    "one_way_length": "1.2 m",
    "laid": "bundle",
    "fuse": "main-fuse",
    "through": ["plug"],
}
FUSE: dict[str, Any] = {
    "name": "Main fuse",
    "rated_current": "270 A",
    "rated_voltage": "80 V",
    "interrupt_rating": "20 kA",
    "burst": {"current": "400 A", "time": "60 s"},
    "source": "sheet",
}
PLUG: dict[str, Any] = {
    "name": "Main plug",
    "kind": "plug",
    "rated_current": "250 A",
    "rated_voltage": "150 V",
    "burst": {"current": "400 A", "time": "60 s"},
    "source": "sheet",
}


def without(part: Mapping[str, Any], *keys: str) -> dict[str, Any]:
    return {key: value for key, value in part.items() if key not in keys}


def stated(part: Mapping[str, Any], change: Mapping[str, Any]) -> dict[str, Any]:
    """Change a part; what is changed to None is left out."""
    return {key: value for key, value in {**part, **change}.items() if value is not None}


def made(folder: Path, *, weighed: bool = True, **change: Any) -> Dossier:
    """Make the dossier of the sample project with one main cable; ``change`` edits cable, fuse and plug."""
    draft = Draft()
    draft.battery["wiring"] = {
        "coldest_battery": change.get("coldest", "10 °C"),
        "conductors": {"main": stated(MAIN, change.get("cable", {})), **change.get("more", {})},
        "fuses": {"main-fuse": stated(FUSE, change.get("fuse", {}))},
        "connectors": {"plug": stated(PLUG, change.get("plug", {}))},
    }
    draft.battery["wiring"] = change.get("wiring", draft.battery["wiring"])
    draft.battery["options"]["standard-pack"].update(change.get("option", {}))
    if weighed:
        wheels = [support(name, "50 kg", arm=arm) for name, arm in (("Main", "0.3 m"), ("Tail", "0.8 m"))]
        draft.events.append(weighing(*wheels))
    return draft.make(folder)


def check(dossier: Dossier, subject: str, question: str) -> Check:
    found = [one for one in dossier.wiring.checks if (one.subject, one.question) == (subject, question)]
    assert len(found) == 1, [(one.subject, one.question) for one in dossier.wiring.checks]
    return found[0]


def codes(dossier: Dossier) -> list[str]:
    return [finding.code for finding in dossier.wiring.findings]


def value(dossier: Dossier, name: str) -> float:
    return dossier.figures[name].value


# --- what flows


def test_the_current_of_a_phase_is_its_power_over_the_voltage_at_its_end(tmp_path: Path) -> None:
    dossier = made(tmp_path)
    for phase in dossier.wiring.currents[0].phases:
        power = phase.current.working.inputs["P"]
        assert phase.current.value == pytest.approx(power.value / phase.voltage.value)  # type: ignore[union-attr]


def test_the_lasting_current_is_that_of_take_off_and_climb_together(tmp_path: Path) -> None:
    currents = made(tmp_path).wiring.currents[0]
    by_name = {phase.name: phase for phase in currents.phases}
    assert by_name["Take-off"].duration + by_name["Climb"].duration > traction_current.BRIEF
    assert by_name["Climb"].duration > 0
    assert currents.continuous.value >= by_name["Take-off"].current.value


def test_the_lowest_voltage_is_that_of_the_largest_current_at_full_power(tmp_path: Path) -> None:
    currents = made(tmp_path).wiring.currents[0]
    lowest = min(currents.phases, key=lambda one: one.voltage.value)
    assert currents.lowest_voltage.value == lowest.voltage.value
    assert currents.burst_current.value == max(one.current.value for one in currents.phases)


def test_a_colder_battery_makes_more_current(tmp_path: Path) -> None:
    cold, warm = (
        value(made(tmp_path / degrees, coldest=f"{degrees} °C"), "continuous_current.standard-pack")
        for degrees in ("5", "25")
    )
    assert cold > warm


@pytest.mark.parametrize(("project", "number"), SERIALS)
def test_no_current_passes_the_power_at_the_voltage_at_which_the_discharge_ends(
    project: str, number: str
) -> None:
    dossier = demo(project)[number]
    battery = dossier.project.battery
    most = dossier.project.aircraft.propulsion.maximum_power.value
    for one in dossier.wiring.currents:
        option = battery.options[one.option]
        least = option.series * battery.cells[option.cell].empty_voltage.value
        assert one.burst_current.value <= most / least * (1 + 1e-12)
        assert all(phase.voltage.value >= least for phase in one.phases)


def test_a_phase_beyond_the_model_takes_the_most_and_says_so(tmp_path: Path) -> None:
    currents = made(tmp_path, option={"parallel": "8"}).wiring.currents[0]
    beyond = [phase for phase in currents.phases if phase.why_most]
    assert beyond
    assert all(phase.voltage.value == pytest.approx(14 * 2.5) for phase in beyond)
    assert "The most stands here" in beyond[0].current.working.note


# --- conductors


def test_a_good_circuit_is_within_everything_and_has_no_finding(tmp_path: Path) -> None:
    dossier = made(tmp_path)
    assert {one.standing for one in dossier.wiring.checks} == {Standing.WITHIN, Standing.NOT_STATED}
    assert [one.question for one in dossier.wiring.checks if one.standing is Standing.NOT_STATED] == [
        "Voltage"
    ]
    assert codes(dossier) == []


def test_the_table_of_the_circular_is_named_with_its_row_and_column(tmp_path: Path) -> None:
    assert check(made(tmp_path), "Main cable", "Lasting current").basis == (
        "AC 43.13-1B, table 11-9, gauge 2/0 at 200 °C"
    )


def test_the_drop_is_the_current_through_the_warm_wire_by_hand(tmp_path: Path) -> None:
    dossier = made(tmp_path)
    amps = value(dossier, "continuous_current.standard-pack")
    # 2 x 1.2 m of 0.09 Ω per 304.8 m; 70 °C + 130 K x root(I / 285 A); copper: (234.5 + T) / 254.5
    cold = 2 * 1.2 / 304.8 * 0.09
    degrees = 70 + 130 * (amps / 285) ** 0.5
    assert value(dossier, "conductor_voltage_drop.main") == pytest.approx(
        amps * cold * (234.5 + degrees) / 254.5
    )


def test_the_whole_way_is_every_main_conductor_and_no_load(tmp_path: Path) -> None:
    load = {"current": "6 A", "voltage": "14 V", "source": "sheet"}
    feed = {**without(MAIN, "fuse"), "name": "Feed", "load": load, "no_fuse_because": "short"}
    second = {**MAIN, "name": "Second cable", "one_way_length": "0.4 m"}
    dossier = made(tmp_path, more={"second": second, "feed": feed})
    parts = [value(dossier, f"conductor_voltage_drop.{name}") for name in ("main", "second")]
    assert value(dossier, "main_drop.standard-pack") == pytest.approx(sum(parts))


def test_a_cable_that_takes_more_than_two_per_cent_is_told(tmp_path: Path) -> None:
    dossier = made(tmp_path, cable={"one_way_length": "6 m"})
    assert check(dossier, "Whole way, Standard pack", "Drop of voltage").standing is Standing.OVER
    assert "C011" in codes(dossier)


def test_above_200_volts_the_handbooks_say_nothing_of_the_drop(tmp_path: Path) -> None:
    dossier = made(tmp_path, option={"series": "60", "parallel": "4"}, cable={"one_way_length": "60 m"})
    found = check(dossier, "Whole way, Standard pack", "Drop of voltage")
    assert found.standing is Standing.NOT_COVERED
    assert "end at 200 V" in found.words


def test_a_wire_in_a_bundle_over_its_table_is_told(tmp_path: Path) -> None:
    dossier = made(tmp_path, cable={"gauge": "4"})
    assert check(dossier, "Main cable", "Lasting current").standing is Standing.OVER
    assert "C010" in codes(dossier)


def test_a_wire_in_free_air_over_the_table_is_not_covered(tmp_path: Path) -> None:
    dossier = made(tmp_path, cable={"gauge": "4", "laid": "free-air"})
    assert check(dossier, "Main cable", "Lasting current").standing is Standing.NOT_COVERED
    assert "C010" not in codes(dossier)
    assert "C019" in codes(dossier)


def test_over_the_table_no_temperature_is_reckoned(tmp_path: Path) -> None:
    dossier = made(tmp_path, cable={"gauge": "4"})
    assert "conductor_temperature.main" not in dossier.figures
    assert "At 20 °C" in dossier.figures["conductor_voltage_drop.main"].working.note


def test_its_makers_rating_stands_where_the_table_ends(tmp_path: Path) -> None:
    rating = {"current": "300 A", "conditions": "free air of 40 °C", "source": "sheet"}
    dossier = made(tmp_path, cable={"gauge": "4", "laid": "free-air", "rating": rating})
    standings = [
        one.standing
        for one in dossier.wiring.checks
        if (one.subject, one.question) == ("Main cable", "Lasting current")
    ]
    assert standings == [Standing.NOT_COVERED, Standing.WITHIN]
    assert codes(dossier) == []


def test_a_makers_rating_that_is_too_small_is_told(tmp_path: Path) -> None:
    rating = {"current": "150 A", "conditions": "free air", "source": "sheet"}
    assert "C010" in codes(made(tmp_path, cable={"gauge": "4", "laid": "free-air", "rating": rating}))


def test_a_metric_wire_is_taken_as_the_next_thinner_gauge_and_says_so(tmp_path: Path) -> None:
    dossier = made(tmp_path, cable={"gauge": None, "area": "95 mm²"})
    found = check(dossier, "Main cable", "Lasting current")
    assert found.bound == 335
    assert "95 mm² lies above gauge 3/0" in found.words


def test_insulation_below_the_table_is_not_covered(tmp_path: Path) -> None:
    found = check(made(tmp_path, cable={"rated_temperature": "90 °C"}), "Main cable", "Lasting current")
    assert found.standing is Standing.NOT_COVERED
    assert "begins at insulation for 105 °C" in found.words


def test_wires_side_by_side_carry_together(tmp_path: Path) -> None:
    found = check(made(tmp_path, cable={"gauge": "2", "parallel": "2"}), "Main cable", "Lasting current")
    assert found.bound == 2 * 179
    assert "If one of the wires breaks" in found.words


def test_a_load_is_held_against_the_drop_of_its_system(tmp_path: Path) -> None:
    # gauge 16: 2 x 4 m x 4.81 Ω / 304.8 m x 6 A = 0.76 V cold, and 14 V may lose 0.5 V (table 11-6)
    load = {"current": "6 A", "voltage": "14 V", "source": "sheet"}
    feed = {
        **without(MAIN, "fuse", "through"), "name": "Feed", "gauge": "16", "one_way_length": "4 m",
        "load": load, "no_fuse_because": "short",
    }  # fmt: skip
    dossier = made(tmp_path, more={"feed": feed})
    found = check(dossier, "Feed", "Drop of voltage")
    assert (found.standing, found.bound) == (Standing.OVER, 0.5)


def test_a_system_that_the_table_does_not_have_is_not_covered(tmp_path: Path) -> None:
    load = {"current": "6 A", "voltage": "24 V", "source": "sheet"}
    feed = {**without(MAIN, "fuse"), "name": "Feed", "gauge": "16", "load": load, "no_fuse_because": "short"}
    found = check(made(tmp_path, more={"feed": feed}), "Feed", "Drop of voltage")
    assert found.standing is Standing.NOT_COVERED
    assert "14, 28, 115, 200 V, not 24 V" in found.words


# --- fuses and plugs


@pytest.mark.parametrize(
    ("part", "change", "code"),
    [
        ("fuse", {"rated_current": "150 A"}, "C012"),
        ("fuse", {"rated_current": "400 A"}, "C013"),
        ("fuse", {"rated_voltage": "58 V"}, "C014"),
        ("plug", {"rated_voltage": "58 V"}, "C014"),
        ("plug", {"rated_current": "100 A"}, "C015"),
        ("fuse", {"interrupt_rating": "1 kA"}, "C016"),
    ],
)
def test_each_fault_of_a_part_is_told(part: str, change: dict[str, str], code: str, tmp_path: Path) -> None:
    assert codes(made(tmp_path, **{part: change})) == [code]


def test_a_fuse_of_just_the_current_of_its_wire_protects_it(tmp_path: Path) -> None:
    found = check(made(tmp_path, fuse={"rated_current": "285 A"}), "Main fuse", "Protects Main cable")
    assert found.standing is Standing.WITHIN


def test_a_rating_of_just_the_full_voltage_is_enough(tmp_path: Path) -> None:
    # 14 cells of 4.2 V
    dossier = made(tmp_path, fuse={"rated_voltage": "58.8 V"})
    assert value(dossier, "highest_voltage.standard-pack") == pytest.approx(58.8)
    assert check(dossier, "Main fuse", "Direct voltage").standing is Standing.WITHIN


def test_a_fuse_without_a_direct_voltage_is_a_warning(tmp_path: Path) -> None:
    dossier = made(tmp_path, fuse={"rated_voltage": None})
    assert check(dossier, "Main fuse", "Direct voltage").standing is Standing.NOT_STATED
    assert [(one.code, one.severity.value) for one in dossier.wiring.findings] == [("C018", "warning")]


def test_a_fuse_that_carries_nearly_its_rating_is_a_note(tmp_path: Path) -> None:
    dossier = made(tmp_path, fuse={"rated_current": "220 A"})
    assert [(one.code, one.severity.value) for one in dossier.wiring.findings] == [("C012", "note")]


def test_a_point_of_the_curve_that_is_shorter_than_the_burst_does_not_count(tmp_path: Path) -> None:
    short = {"current": "400 A", "time": "5 s"}
    dossier = made(tmp_path, fuse={"rated_current": "205 A", "burst": short})
    found = check(dossier, "Main fuse", "Short current")
    assert found.bound == 205
    assert found.standing is Standing.OVER


def test_a_burst_above_the_rating_without_a_curve_is_not_stated(tmp_path: Path) -> None:
    dossier = made(tmp_path, plug={"rated_current": "205 A", "burst": None})
    assert check(dossier, "Main plug", "Short current").standing is Standing.NOT_STATED
    assert codes(dossier) == ["C018"]


def test_a_conductor_without_fuse_is_told_and_a_reason_ends_that(tmp_path: Path) -> None:
    bare = {**without(MAIN, "fuse"), "name": "Link"}
    assert codes(made(tmp_path / "a", more={"link": bare})) == ["C017"]
    link = {**bare, "no_fuse_because": "it is the link to the fuse"}
    assert codes(made(tmp_path / "b", more={"link": link})) == []


# --- where nothing is known


def test_without_a_weighing_the_current_is_not_known_and_nothing_passes(tmp_path: Path) -> None:
    dossier = made(tmp_path, weighed=False)
    assert check(dossier, "Main cable", "Lasting current").standing is Standing.NOT_COVERED
    assert check(dossier, "Main fuse", "Lasting current").standing is Standing.NOT_COVERED
    assert check(dossier, "Main fuse", "Direct voltage").standing is Standing.WITHIN
    assert codes(dossier) == ["C019"]


def test_a_record_without_wiring_has_no_figures_of_it(tmp_path: Path) -> None:
    dossier = made(tmp_path, wiring=None)
    assert dossier.wiring.checks == ()
    assert not [name for name in dossier.figures if name.startswith(("conductor_", "continuous_current"))]


@pytest.mark.parametrize(("project", "number"), SERIALS)
def test_the_demonstrations_have_nothing_over_and_name_every_table(project: str, number: str) -> None:
    checks = demo(project)[number].wiring.checks
    assert len(checks) > 25
    assert not [one for one in checks if one.standing is Standing.OVER]
    assert all(one.basis for one in checks)
