"""Logs of capacity tests, held against the record."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from demos import NAMES, demo
from sample_project import Draft, pack_fitted

from dossier.dossier import Dossier
from dossier.findings import Rejected
from dossier.results.log_comparison import Comparison
from dossier.results.logged_test import by_voltmeter

HEAD = "Test Time / s,Voltage / V,Current / A\n"
SERIES = 14


def log(
    amps: float = 20.0, seconds: int = 10920, sign: int = 1, *, first: float = 57.4, last: float = 44.0,
    every: int = 120,
) -> str:  # fmt: skip
    # 58.10 V at rest less 20 A times 33 mΩ of 14 cells over 14 strings, then down to where flying stops
    times = (1, *range(every, seconds + 1, every))
    rows = [f"{t},{first - (first - last) * t / seconds:.2f},{sign * amps}" for t in times]
    return HEAD + "0,58.10,0\n" + "\n".join(rows) + f"\n{seconds + 2000},44.90,0\n"


def made(folder: Path, text: str, stated: str, sign: str = "positive") -> Dossier:
    draft = Draft()
    more = {
        "measured_capacity": stated,
        "evidence": [{"file": "evidence/log.csv", "shows": "A discharge <b>&</b> {{ 7 * 7 }}"}],
        "log": {"file": "evidence/log.csv", "discharge": sign},
    }
    draft.events.append(pack_fitted("P-1", "18.4 kg", **more))  # type: ignore[arg-type]
    evidence = folder / "project/serials/0001/evidence"
    evidence.mkdir(parents=True)
    (evidence / "log.csv").write_text(text, "utf-8")
    return draft.make(folder)


def codes(dossier: Dossier) -> set[str]:
    return {finding.code for finding in dossier.findings}


@pytest.mark.parametrize("project", NAMES)
def test_every_stated_capacity_of_the_demonstrations_follows_from_its_log(project: str) -> None:
    logs = [one for dossier in demo(project).values() for one in dossier.capacity_logs.logs]
    assert logs
    assert all(one.agrees and one.acceptance.accepted for one in logs)


def test_the_capacity_is_the_charge_over_the_part_of_the_table(tmp_path: Path) -> None:
    dossier = made(tmp_path, log(), "68 Ah ± 1 Ah")
    # by hand: 20 A for 10920 s; 58.10 V and 44.90 V at rest in 14 groups on the lines of the sample cell
    start = 0.9 + 0.1 * (58.10 / SERIES - 4.08) / 0.12
    end = 0.1 * (44.90 / SERIES - 2.9) / 0.4
    whole = 20 * 10920 / (start - end)
    assert dossier.figures["logged_capacity.test_1"].value == pytest.approx(whole, rel=1e-3)


def test_a_capacity_that_its_log_gives_has_no_remark(tmp_path: Path) -> None:
    assert not {code for code in codes(made(tmp_path, log(), "68 Ah ± 1 Ah")) if code.startswith("L")}


def test_a_capacity_that_its_log_does_not_give_is_a_warning(tmp_path: Path) -> None:
    assert "L009" in codes(made(tmp_path, log(), "80 Ah ± 1 Ah"))


def test_the_sign_of_the_current_is_the_files_own(tmp_path: Path) -> None:
    one = made(tmp_path / "a", log(), "68 Ah ± 1 Ah")
    other = made(tmp_path / "b", log(sign=-1), "68 Ah ± 1 Ah", sign="negative")
    name = "logged_capacity.test_1"
    assert one.figures[name].value == other.figures[name].value


def test_a_log_that_is_no_table_refuses_the_record(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as refused:
        made(tmp_path, "<script>alert(1)</script>", "68 Ah")
    assert {finding.code for finding in refused.value.findings} == {"R020"}


def test_a_log_whose_clock_goes_back_refuses_the_record(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as refused:
        made(tmp_path, HEAD + "0,58.1,0\n10,57,20\n5,56,20\n20,55,20\n", "68 Ah")
    assert "L003" in {finding.code for finding in refused.value.findings}


# --- energy and resistance against the model


def compared(dossier: Dossier, quantity: str) -> Comparison:
    return next(one for one in dossier.capacity_logs.logs[0].compared if one.quantity == quantity)


@pytest.mark.parametrize("project", NAMES)
def test_every_energy_and_resistance_of_the_demonstrations_agrees_with_the_model(project: str) -> None:
    pairs = [
        pair for made in demo(project).values() for one in made.capacity_logs.logs for pair in one.compared
    ]
    assert {pair.quantity for pair in pairs} >= {"energy"}
    assert all(pair.agrees for pair in pairs)


def test_the_computed_energy_is_that_of_the_table_by_hand(tmp_path: Path) -> None:
    dossier = made(tmp_path, log(), "68 Ah ± 1 Ah")
    inputs = compared(dossier, "energy").computed.working.inputs  # type: ignore[union-attr]
    start, end, amps = (inputs[name].value for name in ("z_1", "z_2", "I"))  # type: ignore[union-attr]
    # trapezia by hand: rest voltages and resistances of the sample cell, 14 in series, 14 in parallel; 20 °C
    z = np.linspace(end, start, 20001)
    volts = np.interp(z, [0, 0.1, 0.5, 0.9, 1.0], [2.9, 3.3, 3.7, 4.08, 4.2])
    ohms = np.interp(z, [0.1, 0.3, 0.9], [0.045, 0.035, 0.033])
    warm = np.exp(3000 * (1 / 293.15 - 1 / 298.15))
    # 68 Ah of 14 x 4.9 Ah: the resistance has grown by 2.75 times the 0.875 % that is lost
    grown = 1 + 2.75 * (1 - 68 / 68.6)
    whole = 68 * 3600 * np.trapezoid(14 * volts - amps * 14 / 14 * ohms * warm * grown, z)
    assert compared(dossier, "energy").computed.value == pytest.approx(whole, rel=1e-5)  # type: ignore[union-attr]


def test_a_log_with_too_little_energy_is_a_warning_with_numbers(tmp_path: Path) -> None:
    dossier = made(tmp_path, log(last=40.0), "68 Ah ± 1 Ah")
    pair = compared(dossier, "energy")
    assert pair.agrees is False
    told = next(finding for finding in dossier.findings if finding.code == "L010")
    assert pair.measured
    assert f"{pair.measured.value / 3.6e6:.3f} kWh" in told.message


def test_an_energy_that_only_follows_a_wrong_capacity_is_told_once(tmp_path: Path) -> None:
    assert {"L009", "L010"} & codes(made(tmp_path, log(), "80 Ah ± 1 Ah")) == {"L009"}


def test_a_wider_doubt_of_the_capacity_lets_the_energy_agree(tmp_path: Path) -> None:
    text = log(last=40.0)
    assert compared(made(tmp_path / "a", text, "68 Ah ± 1 Ah"), "energy").agrees is False
    assert compared(made(tmp_path / "b", text, "68 Ah ± 6 Ah"), "energy").agrees is True


def test_the_resistance_of_a_step_by_hand(tmp_path: Path) -> None:
    pair = compared(made(tmp_path, log(), "68 Ah ± 1 Ah"), "resistance")
    # (58.10 V - 57.40 V) / 20 A
    assert pair.measured.value == pytest.approx(0.035, rel=1e-9)
    assert pair.agrees is True


def test_a_step_that_shows_far_more_resistance_is_a_warning(tmp_path: Path) -> None:
    assert "L011" in codes(made(tmp_path, log(first=55.4), "68 Ah ± 1 Ah"))


def test_a_log_whose_rows_are_far_apart_shows_no_step(tmp_path: Path) -> None:
    text = log().replace("\n1,57.40,20.0", "")
    pairs = made(tmp_path, text, "68 Ah ± 1 Ah").capacity_logs.logs[0].compared
    assert [pair.quantity for pair in pairs] == ["energy"]


def test_a_fast_test_is_not_compared_and_says_why(tmp_path: Path) -> None:
    # 68 Ah in a quarter of an hour: a rate of 4, and the model is shown to 3 for power cells
    text = log(amps=240.0, seconds=910, every=10)
    pair = compared(made(tmp_path, text, "68 Ah ± 1 Ah"), "energy")
    assert pair.agrees is None
    assert "and the model is shown to 3" in pair.why


def test_a_log_that_does_not_begin_at_rest_is_not_compared(tmp_path: Path) -> None:
    text = log().replace("0,58.10,0\n", "")
    pair = compared(made(tmp_path, text, "68 Ah ± 1 Ah"), "energy")
    assert pair.agrees is None
    assert pair.why == "it does not begin with the battery at rest"


def under_load(last: float) -> str:
    """Write a log that ends under load, with a voltage of the whole battery."""
    return log(last=last).rsplit("\n", 2)[0] + "\n"


def capacities(dossier: Dossier) -> list[float]:
    return [
        one.figures["logged_capacity"].value
        for one in dossier.capacity_logs.logs
        if "logged_capacity" in one.figures
    ]


def test_a_test_that_ends_under_load_gives_a_capacity_inside_the_tables(tmp_path: Path) -> None:
    assert len(capacities(made(tmp_path, under_load(46.5), "68 Ah ± 5 Ah"))) == 1


@pytest.mark.parametrize("last", [36.1, 28.9, 18.1])
def test_a_last_voltage_below_the_tables_gives_no_capacity(last: float, tmp_path: Path) -> None:
    dossier = made(tmp_path, under_load(last), "68 Ah ± 1 Ah")
    (told,) = [one.message for one in dossier.findings if one.code == "L008"]
    assert "the tables of the cell reach from" in told
    assert capacities(dossier) == []


def test_the_voltmeter_counts_whole_at_the_end_of_a_table() -> None:
    # by hand: 0.2 % of 4.20 V are 8.4 mV; on a slope of 0.1 in 0.12 V that is 0.0070 of the charge,
    # on one side as on both
    table = ((0.0, 0.9, 1.0), (2.9, 4.08, 4.2))
    assert by_voltmeter(4.2, table) == pytest.approx(0.0084 * 0.1 / 0.12)
    assert by_voltmeter(4.14, table) == pytest.approx(0.00828 * 0.1 / 0.12)
