"""What a log shows, against logs that were made from a known pack, and what speaks against a log."""

from __future__ import annotations

import re
from dataclasses import replace
from math import sqrt
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dossier.battery_log import BatteryLog
from dossier.compute.log_acceptance import Acceptance, Criteria, Met, accept
from dossier.compute.log_analysis import DischargeTest, LogAnalysis, analyse
from dossier.compute.log_instruments import Instruments
from dossier.compute.log_orientation import orient
from dossier.compute.log_quality import PackUnderTest
from dossier.finding_codes import CODES
from dossier.findings import Finding, Severity

PACK = PackUnderTest(14, 75 * 3600.0)
CURRENT, RESISTANCE = 15.0, 0.040
EXACT = Instruments(current_gain=0.0, voltage_gain=0.0, clock=0.0)


def made(step: float = 10.0, duration: float = 17000.0, **more: object) -> BatteryLog:
    """A pack that falls in a straight line from 58.6 V, 15 A for a time, rest of two rows before and one
    after."""
    time = np.arange(-step, duration + 2 * step, step)
    current = np.where((time >= 0) & (time <= duration), CURRENT, 0.0)
    taken = np.clip(time, 0, duration) * CURRENT
    voltage = 58.6 - taken / 30000 - RESISTANCE * current
    log = BatteryLog("log.csv", tuple(range(2, len(time) + 2)), time + step, voltage, current)
    return replace(log, **more)  # type: ignore[arg-type]


def shown(log: BatteryLog, **more: object) -> DischargeTest:
    found = analyse(log, PACK, **more).test  # type: ignore[arg-type]
    assert found is not None
    return found


def codes(analysis: LogAnalysis) -> set[str]:
    return {finding.code for finding in analysis.findings if finding.severity is not Severity.NOTE}


# --- what it shows


def test_the_charge_is_current_times_time_within_its_doubt() -> None:
    test = shown(made())
    assert test.charge.value == pytest.approx(CURRENT * 17000, abs=2 * test.charge.standard_uncertainty)
    # two edges of 15 A over 10 s, each half an area over root three, and 0.5 % of the instrument
    edges = sqrt(2) * 15 * 10 / 2 / sqrt(3)
    assert test.charge.standard_uncertainty == pytest.approx(
        np.hypot(edges, 0.005 * test.charge.value), rel=1e-3
    )


def test_the_energy_is_that_of_the_known_line_within_its_doubt() -> None:
    test = shown(made(), instruments=EXACT)
    first, last = 58.6 - RESISTANCE * CURRENT, 58.6 - CURRENT * 17000 / 30000 - RESISTANCE * CURRENT
    energy = CURRENT * 17000 * (first + last) / 2
    # both edges came at their rows, half of an area away from the straight lines: root three of the doubt of
    # each
    assert test.energy.value == pytest.approx(
        energy, abs=sqrt(2) * sqrt(3) * test.energy.standard_uncertainty
    )
    assert test.energy.standard_uncertainty < 0.001 * energy


@given(st.floats(0.2, 5))
def test_charge_and_energy_go_with_the_current(factor: float) -> None:
    log = made(50.0)
    one, other = shown(log), shown(replace(log, current=factor * log.current))
    assert other.charge.value == pytest.approx(factor * one.charge.value)
    assert other.energy.value == pytest.approx(factor * one.energy.value)


def test_finer_rows_leave_less_doubt() -> None:
    doubts = [shown(made(step), instruments=EXACT).charge.standard_uncertainty for step in (1.0, 10.0, 100.0)]
    assert doubts == sorted(doubts)
    assert doubts[2] == pytest.approx(100 * doubts[0], rel=0.01)


def test_each_instrument_adds_its_share() -> None:
    log = made()
    plain = shown(log, instruments=EXACT).charge
    gain = shown(log, instruments=replace(EXACT, current_gain=0.01)).charge
    offset = shown(log, instruments=replace(EXACT, current_offset=0.05)).charge
    assert gain.standard_uncertainty == pytest.approx(
        np.hypot(plain.standard_uncertainty, 0.01 * plain.value)
    )
    assert offset.standard_uncertainty == pytest.approx(
        np.hypot(plain.standard_uncertainty, 0.05 * 17020), rel=1e-3
    )


def test_both_steps_of_the_current_give_the_resistance() -> None:
    steps = shown(made(1.0), instruments=replace(EXACT, voltage_noise=0.005)).steps
    assert [step.current_step for step in steps] == [CURRENT, -CURRENT]
    for step in steps:
        # in the second of the edge the charge moves too, by 15 C / 30000 V
        assert step.resistance.value == pytest.approx(RESISTANCE, abs=5e-5)
        assert step.resistance.standard_uncertainty == pytest.approx(sqrt(2) * 0.005 / CURRENT)
        assert step.after == 1.0


def test_rows_far_apart_give_no_resistance() -> None:
    assert shown(made(60.0)).steps == ()


def test_rest_before_and_voltage_at_the_end_are_told() -> None:
    test = shown(made())
    assert test.rest_voltage == 58.6
    assert test.last_voltage == pytest.approx(58.6 - CURRENT * 17000 / 30000 - RESISTANCE * CURRENT)
    assert test.mean_current == pytest.approx(CURRENT, rel=2e-3)


def test_a_log_that_begins_under_load_has_no_rest() -> None:
    log = made()
    cut = BatteryLog("log.csv", log.lines[3:], log.time[3:], log.voltage[3:], log.current[3:])
    assert shown(cut).rest_voltage is None


def test_a_night_after_the_discharge_is_not_counted() -> None:
    log = made()
    time = log.time.copy()
    time[-1] += 30000
    assert shown(replace(log, time=time)).charge.value == pytest.approx(CURRENT * 17000, rel=1e-3)


@pytest.mark.parametrize("pause", [600.0, 30000.0])
def test_a_rest_before_the_discharge_is_not_counted(pause: float) -> None:
    log = made()
    time = log.time.copy()
    first = int(np.flatnonzero(log.current > 1)[0])
    time[:first] -= pause
    test = shown(replace(log, time=time))
    assert test.charge.value == pytest.approx(CURRENT * 17000, rel=1e-3)
    assert test.time == pytest.approx(17000, rel=2e-3)


def test_a_rest_in_between_counts_nothing() -> None:
    log = made()
    current = log.current.copy()
    current[500:800] = 0.0
    whole, less = shown(log).charge.value, shown(replace(log, current=current)).charge.value
    assert whole - less == pytest.approx(300 * 10 * CURRENT, rel=1e-9)


def cells(log: BatteryLog, low: float) -> dict[str, np.ndarray]:
    mean = log.voltage / 14
    row = {f"g{number}": mean.copy() for number in range(1, 15)}
    row["g5"] -= low + 0.0005 * log.current
    row["g9"] += low + 0.0005 * log.current
    return row


def test_the_spread_of_the_cells_at_rest_and_under_load_names_them() -> None:
    log = made()
    test = shown(replace(log, cells=cells(log, 0.010)))
    assert test.spread_at_rest is not None
    assert test.spread_under_load is not None
    assert (test.spread_at_rest.lowest, test.spread_at_rest.highest) == ("g5", "g9")
    assert test.spread_at_rest.voltage == pytest.approx(0.020)
    assert test.spread_under_load.voltage == pytest.approx(0.035)


def test_a_log_without_rest_before_has_the_spread_of_the_rest_after() -> None:
    log = made()
    log = replace(log, cells=cells(log, 0.010))
    cut = BatteryLog("log.csv", log.lines[3:], log.time[3:], log.voltage[3:], log.current[3:],
                     cells={name: column[3:] for name, column in log.cells.items()})  # fmt: skip
    found = shown(cut).spread_at_rest
    assert found is not None
    assert found.row == len(cut) - 1


def test_the_temperatures_are_those_of_the_discharge() -> None:
    log = made()
    warm = 293.15 + log.time / 4000
    test = shown(replace(log, temperature=warm))
    assert (test.coldest, test.hottest) == (warm[0], warm[-1])


# --- the sign of the current


@pytest.mark.parametrize("sign", [1, -1])
def test_the_sign_is_taken_from_the_fall_of_the_voltage_and_told(sign: int) -> None:
    log = made()
    analysis = analyse(replace(log, current=sign * log.current), PACK)
    assert analysis.test is not None
    assert analysis.test.charge.value > 0
    (note,) = analysis.findings
    assert (note.code, note.severity) == ("L002", Severity.NOTE)
    assert ("positive" if sign > 0 else "negative") in note.message


def test_a_declared_sign_that_fits_is_not_talked_about() -> None:
    assert analyse(made(), PACK, discharge_is_positive=True).findings == ()


def test_a_declared_sign_that_the_voltage_contradicts_is_told() -> None:
    log = made()
    current = log.current.copy()
    current[1:4] = -CURRENT  # so that something counts as a discharge
    voltage = np.where(current > 0, log.voltage, log.voltage)
    found = orient(replace(log, current=current, voltage=voltage), discharge_is_positive=False)
    assert not isinstance(found, Finding)
    assert [(one.code, one.severity) for one in found.findings] == [("L002", Severity.WARNING)]


@pytest.mark.parametrize(
    ("change", "declared", "message"),
    [
        ({"current": np.zeros(5)}, None, "the voltage falls under no current"),
        (
            {"current": np.full(5, 2.0), "voltage": np.full(5, 58.0)},
            None,
            "the voltage falls under no current",
        ),
        ({"current": np.array([0, 2.0, 2.0, 2.0, 0])}, False, "no current has the sign that is declared"),
    ],
)
def test_a_log_without_a_discharge_is_no_test(
    change: dict[str, np.ndarray], declared: bool | None, message: str
) -> None:
    log = BatteryLog("log.csv", (2, 3, 4, 5, 6), np.arange(5.0), np.linspace(58, 57, 5), np.zeros(5))
    analysis = analyse(replace(log, **change), PACK, discharge_is_positive=declared)  # type: ignore[arg-type]
    assert analysis.test is None
    assert [one.code for one in analysis.findings] == ["L001"]
    assert message in analysis.findings[0].message


# --- what speaks against a log


def test_a_clock_that_goes_back_or_stands_still_makes_no_test() -> None:
    log = made()
    time = log.time.copy()
    time[700] = time[650]
    time[900] = time[899]
    analysis = analyse(replace(log, time=time), PACK)
    assert analysis.test is None
    assert [one.code for one in analysis.findings] == ["L003", "L003"]
    assert [one.place.line for one in analysis.findings if one.place] == [702, 902]
    assert "goes back" in analysis.findings[0].message
    assert "stands still" in analysis.findings[1].message


def test_a_gap_under_load_is_told_with_its_line_and_one_at_rest_is_not() -> None:
    log = made()
    keep = np.ones(len(log), bool)
    keep[400:420] = False
    lines = tuple(np.array(log.lines)[keep])
    time = log.time[keep]
    time[-1] += 9000
    analysis = analyse(
        replace(log, lines=lines, time=time, voltage=log.voltage[keep], current=log.current[keep]), PACK
    )
    (gap,) = (one for one in analysis.findings if one.code == "L004")
    assert gap.message == "no row for 210 s under load, where rows usually are 10 s apart"
    assert gap.place is not None
    assert gap.place.line == 422


@pytest.mark.parametrize(
    ("column", "factor", "guess"),
    [
        ("voltage", 1000.0, "to mV"), ("voltage", 0.001, "to V"),
        ("voltage", 1 / 14, "take the voltage of the pack"),
        ("current", 1000.0, "of the current to mA"), ("current", 0.001, "of the current to A"),
        ("time", 1 / 60, "of the time to min"), ("time", 1 / 3600, "of the time to h"),
    ],
)  # fmt: skip
def test_a_wrong_unit_is_told_and_guessed(column: str, factor: float, guess: str) -> None:
    log = made()
    analysis = analyse(replace(log, **{column: factor * getattr(log, column)}), PACK)
    helps = [one.help for one in analysis.findings if one.code == "L005"]
    assert any(guess in text for text in helps)


def test_a_count_of_the_instrument_that_does_not_agree_is_told() -> None:
    log = made()
    counted = np.concatenate([[0], np.cumsum(np.diff(log.time) * (log.current[1:] + log.current[:-1]) / 2)])
    assert "L006" not in codes(analyse(replace(log, charge=counted), PACK))
    assert "L006" in codes(analyse(replace(log, charge=0.9 * counted), PACK))


def test_cells_that_do_not_add_up_are_told() -> None:
    log = made()
    some = cells(log, 0.01)
    assert "L006" not in codes(analyse(replace(log, cells=some), PACK))
    del some["g1"]
    assert "L006" in codes(analyse(replace(log, cells=some), PACK))


def test_a_charge_in_between_makes_no_test() -> None:
    log = made()
    current = log.current.copy()
    current[800:810] = -CURRENT
    analysis = analyse(replace(log, current=current), PACK)
    assert analysis.test is None
    assert "L007" in codes(analysis)


# --- accepted or not

FULL = Criteria(least_charge=60 * 3600, rest_voltage_at_start=58.5, voltage_at_end=50.0)


def judged(log: BatteryLog, criteria: Criteria) -> Acceptance:
    return accept(log, analyse(log, PACK), criteria)


def test_a_test_that_meets_everything_is_accepted() -> None:
    found = judged(made(), FULL)
    assert [one.met for one in found.criteria] == [Met.MET] * 3
    assert found.accepted


@pytest.mark.parametrize(
    ("criteria", "met"),
    [
        (Criteria(least_charge=80 * 3600), Met.NOT_MET),
        (Criteria(least_charge=70.8 * 3600), Met.INCONCLUSIVE),
        (Criteria(least_energy=3.0e7), Met.NOT_MET),
        (Criteria(rest_voltage_at_start=58.7), Met.NOT_MET),
        (Criteria(voltage_at_end=49.0), Met.NOT_MET),
        (Criteria(hottest=313.15), Met.NOT_SHOWN),
        (Criteria(coldest=283.15), Met.NOT_SHOWN),
        (Criteria(largest_spread_at_rest=0.05), Met.NOT_SHOWN),
    ],
)
def test_what_is_not_met_or_not_shown_is_not_accepted_and_told(criteria: Criteria, met: Met) -> None:
    found = judged(made(), criteria)
    assert [one.met for one in found.criteria] == [met]
    assert not found.accepted
    assert [one.code for one in found.findings if one.severity is Severity.WARNING] == ["L008"]


def test_nothing_asked_is_nothing_accepted() -> None:
    assert not judged(made(), Criteria()).accepted


def test_a_log_with_a_fault_is_not_accepted_whatever_it_shows() -> None:
    log = made()
    counted = np.zeros(len(log))
    found = judged(replace(log, charge=counted), FULL)
    assert all(one.met is Met.MET for one in found.criteria)
    assert not found.accepted


def test_a_log_that_is_no_test_shows_nothing() -> None:
    log = replace(made(), current=np.zeros(len(made())))
    found = judged(log, FULL)
    assert [one.met for one in found.criteria] == [Met.NOT_SHOWN] * 3
    assert not found.accepted


def test_every_finding_on_a_log_is_shown_here() -> None:
    listed = {code for code in CODES if code.startswith("L")}
    shown_here = set(re.findall(r'"(L\d{3})"', Path(__file__).read_text("utf-8")))
    # 9 to 12 hold a log against the record: tests/results/test_capacity_logs.py, test_pack_acceptance.py;
    # 13 is that of a cure: tests/compute/test_log_cure.py
    assert listed - shown_here == {f"L{number:03}" for number in (9, 10, 11, 12, 13)}
