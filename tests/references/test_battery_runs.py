"""Constant-power runs, missions, cold and gauge against the stored results of the full electrochemical model.

The reference (battery.yaml) was computed once with PyBaMM's DFN model and is stored, missions and the cold
included; test_against_parameter_sets.py runs the library itself. It is a simulation: none of this shows
agreement with a cell that can be bought.
"""

from __future__ import annotations

from functools import cache
from typing import Any

import numpy as np
import pytest
from published import as_printed, example, number, numbers, read

from dossier.compute.cell import Cell, CellLimits
from dossier.compute.cell_resistance import CONSTANT_BAND, resistance_at
from dossier.compute.cell_step import Warmth
from dossier.compute.cold import BEST, TEMPERATURES, WORST
from dossier.compute.curve import curve
from dossier.compute.discharge import discharge
from dossier.compute.discharge_outcome import Limit, NoAnswer, Reason
from dossier.compute.gauge import GaugeCard, gauge_card, spread_of_charge
from dossier.compute.mission import fly
from dossier.compute.mission_answer import Flights
from dossier.compute.mission_plan import Conditions, MissionPhase
from dossier.compute.pack_share import PackShape
from dossier.compute.scenarios import scenarios
from dossier.tables.cells import generic_cells

AH = 3600.0
ZERO = 273.15
CHEN, MOHTAT = (generic_cells()[name].cell for name in ("nmc-energy", "nmc-power"))


def stored(name: str) -> Any:
    return example("battery", name)


def limited(cell: Cell, voltage: float) -> Cell:
    return Cell(
        cell.rest, cell.resistance, cell.capacity, cell.nominal_voltage, cell.nominal_capacity,
        CellLimits(voltage), cell.application,
    )  # fmt: skip


def coarse(voltage: float) -> Cell:
    """The published cell on its table of 21 points, with which the stored results of the circuit were
    made."""
    table = read("battery")["tables"]["chen2020"]
    z, U, R = (numbers(table[key]) for key in ("soc", "ocv_v", "r_quasi_steady_ohm"))
    return Cell(curve(z, U), curve(z, R), CHEN.capacity, 3.6, 5 * AH, CellLimits(voltage), "energy")


# --- constant power, energy cell: the tool within 1 % of time and 15 mV, to a rate of 1

WITHIN = ("BAT-CP-0p2C", "BAT-CP-0p5C", "BAT-CP-1C")
BEYOND = ("BAT-CP-2C", "BAT-CP-5C")


@pytest.mark.parametrize("table", [CHEN, coarse(2.5)], ids=["25 points", "21 points"])
@pytest.mark.parametrize(("voltage", "key"), [(2.5, "t_s"), (3.0, "t_s_to_3v0")])
@pytest.mark.parametrize("name", WITHIN)
def test_the_run_time_is_within_1_percent_of_the_full_model(
    name: str, voltage: float, key: str, table: Cell
) -> None:
    given = stored(name).given
    time = discharge(limited(table, voltage), scenarios([number(given["P_w"])])).column(
        "time", otherwise=np.nan
    )[0]
    assert time == pytest.approx(number(stored(name).expect[key]), rel=0.01)


@pytest.mark.parametrize(("voltage", "key"), [(2.5, "simple_model_t_s"), (3.0, "simple_model_t_s_to_3v0")])
@pytest.mark.parametrize("name", WITHIN)
def test_the_run_time_is_the_stored_one_of_the_same_circuit(name: str, voltage: float, key: str) -> None:
    # 1e-4 is the tolerance of BAT-ANA-003 for the same quantity
    power = number(stored(name).given["P_w"])
    assert raw_time(coarse(voltage), power) == pytest.approx(number(stored(name).expect[key]), rel=1e-4)


def raw_time(cell: Cell, power: float, **more: float) -> float:
    return float(discharge(cell, scenarios([power], **more)).computed["time"][0])


def voltage_at(cell: Cell, power: float, part: float) -> float:
    """Voltage under load when a part of the run time is over."""
    z = np.linspace(0.0, 1.0, 2001)
    runs = discharge(cell, scenarios(power, start=z))
    left = np.where(runs.computed["time"] > 0, runs.computed["time"], 0.0)
    return float(np.interp((1 - part) * left[-1], left, runs.computed["first_voltage"]))


@pytest.mark.parametrize("name", WITHIN)
def test_the_voltage_on_the_way_is_within_15_mv_in_the_mean(name: str) -> None:
    power = number(stored(name).given["P_w"])
    rows = [numbers(row) for row in stored(name).expect["v_at_run_fraction"]]
    off = [voltage_at(limited(CHEN, 2.5), power, part) - voltage for part, voltage in rows]
    assert np.sqrt(np.mean(np.square(off))) < 0.015


@pytest.mark.parametrize("name", BEYOND)
def test_beyond_its_rate_the_tool_does_not_answer(name: str) -> None:
    refused = discharge(CHEN, scenarios([number(stored(name).given["P_w"])]))[0]
    assert isinstance(refused, NoAnswer)
    assert refused.reason is Reason.RATE


def test_it_is_right_not_to_answer_at_a_rate_of_2() -> None:
    # +14 % to 2.5 V as stored for the 21 points: what the full model loses to diffusion no resistance can
    # show
    found = stored("BAT-CP-2C")
    over = raw_time(coarse(2.5), number(found.given["P_w"])) / number(found.expect["t_s"]) - 1
    assert over == pytest.approx(0.14, abs=0.005)


# --- constant power, power cell: 1 % to a rate of 1, 2 % to 3; at 5 the tool does not answer


@pytest.mark.parametrize("row", range(6))
def test_a_power_cell_is_as_far_off_as_stored(row: int) -> None:
    found = stored("BAT-CP-MOHTAT2020")
    power, time = numbers(found.given["P_w"])[row], numbers(found.expect["t_s"])[row]
    percent = (raw_time(MOHTAT, power) / time - 1) * 100
    assert percent == pytest.approx(numbers(found.expect["simple_model_error_percent"])[row], abs=0.01)


@pytest.mark.parametrize(("row", "tolerance"), [(0, 0.01), (1, 0.01), (2, 0.0101), (3, 0.02), (4, 0.02)])
def test_a_power_cell_is_answered_within_its_tolerance_to_a_rate_of_3(row: int, tolerance: float) -> None:
    # the third row is stored as 1.0 % off, and 1.002 % unrounded
    found = stored("BAT-CP-MOHTAT2020")
    time = discharge(MOHTAT, scenarios([numbers(found.given["P_w"])[row]])).column("time", otherwise=np.nan)[
        0
    ]
    assert time == pytest.approx(numbers(found.expect["t_s"])[row], rel=tolerance)


def test_a_power_cell_at_a_rate_of_5_is_not_answered_and_would_be_within_7_percent() -> None:
    found = stored("BAT-CP-MOHTAT2020")
    power, time = numbers(found.given["P_w"])[5], numbers(found.expect["t_s"])[5]
    assert not discharge(MOHTAT, scenarios([power])).answered[0]
    assert raw_time(MOHTAT, power) == pytest.approx(time, rel=0.07)


# --- closed forms and the place of the cut-off


@pytest.mark.parametrize("row", range(2))
def test_the_cut_off_is_the_stored_one(row: int) -> None:
    # stored to 1e-6 from unrounded tables; here the tables are rounded to 0.1 mV and 0.01 milliohm, which
    # moves the place by (0.05 mV + P/V x 0.005 milliohm) / slope: up to 1.4e-5 and 1.7e-5
    found = stored("BAT-ANA-003")
    run = discharge(coarse(3.0), scenarios([numbers(found.given["P_w"])[row]]))
    assert run.computed["end_charge"][0] == pytest.approx(numbers(found.expect["soc_cut"])[row], abs=1.7e-5)
    assert run.computed["time"][0] == pytest.approx(numbers(found.expect["t_s"])[row], rel=1e-4)


@pytest.mark.parametrize(
    ("key", "full", "half", "voltage"),
    [("ratio_to_2v5", 9.0, 18.0, 2.5), ("ratio_to_3v0", 9.0, 18.0, 3.0)],
)
def test_half_a_pack_lasts_less_than_half(key: str, full: float, half: float, voltage: float) -> None:
    # each run is within 1 % of the full model, so their ratio is within 2 %
    cell = limited(CHEN, voltage)
    ratio = raw_time(cell, half) / raw_time(cell, full)
    assert ratio == pytest.approx(number(stored("BAT-X09-HALFPACK").expect[key]), rel=0.02)
    assert ratio < 0.5


def test_half_a_pack_from_a_rate_of_1_is_not_answered() -> None:
    assert not discharge(CHEN, scenarios([36.0])).answered[0]


# --- missions in phases: 1 % of time, 70 mV a cell


MISSIONS = {
    "BAT-MIS-CHEN2020-28S16P": CHEN,
    "BAT-MIS-MOHTAT2020-28S16P": MOHTAT,
    "BAT-MIS-MOHTAT2020-28S12P": MOHTAT,
}


def phases(given: Any, strings: int) -> list[MissionPhase]:
    cells = number(given["ns"]) * strings
    timed = [
        MissionPhase(name, number(power) / cells, number(time))
        for name, power, time in given["phases_name_w_s"]
    ]
    return [*timed, MissionPhase("until_cut", number(given["final_power_w"]) / cells)]


@cache
def mission(name: str) -> Flights:
    given = stored(name).given
    return fly(
        limited(MISSIONS[name], number(given["v_cut_per_cell"])),
        phases(given, int(given["np"])),
        Conditions(),
    )


@pytest.mark.parametrize("name", MISSIONS)
def test_a_mission_lasts_within_1_percent_of_the_full_model(name: str) -> None:
    runs = mission(name)
    assert runs.answered[0]
    assert runs.computed["time"][0] == pytest.approx(number(stored(name).expect["total_s"]), rel=0.01)


@pytest.mark.parametrize("name", MISSIONS)
def test_the_voltage_at_the_end_of_each_phase_is_within_70_mv_of_the_full_model(name: str) -> None:
    ends = [float(end.voltage[0]) for end in mission(name).ends[:-1]]
    assert ends == pytest.approx(numbers(stored(name).expect["v_end_per_cell"]), abs=0.07)


@pytest.mark.parametrize("name", MISSIONS)
def test_a_mission_is_the_stored_one_of_the_same_circuit(name: str) -> None:
    runs, same = mission(name), stored(name).expect["simple_model"]
    # half of the printed digits of the time; of the voltage a digit, for the tables are rounded
    assert runs.computed["time"][0] == as_printed(same["total_s"])
    ends = [float(end.voltage[0]) for end in runs.ends[:-1]]
    assert ends == pytest.approx(numbers(same["v_end_per_cell"]), abs=1e-4)


AGED = stored("BAT-X15-AGED-COLD")
ROWS = [
    (tuple(case), row)
    for case, row in zip(AGED.given["cases_T_soh_rgrow_np"], AGED.expect["rows"], strict=True)
]


@cache
def aged(case: tuple[str, ...]) -> Flights:
    degrees, health, growth, strings = numbers([*case])
    warmth = Warmth(heat_capacity=0.068 * 950, conductance=0.03, ambient=degrees + ZERO)
    given = stored("BAT-MIS-CHEN2020-28S16P").given
    conditions = Conditions(temperature=degrees + ZERO, health=health, growth=growth)
    return fly(limited(CHEN, 3.0), phases(given, int(strings)), conditions, warmth=warmth)


@pytest.mark.parametrize(("case", "row"), ROWS, ids=["/".join(case) for case, _ in ROWS])
def test_an_aged_cold_or_part_filled_pack_flies_as_stored(case: tuple[str, ...], row: list[str]) -> None:
    runs, cells = aged(case), 28 * int(case[3])
    minutes, phase, lowest, rate, hottest, heat = row
    assert runs.computed["time"][0] / 60 == pytest.approx(number(minutes), rel=0.01)
    assert runs.ends[int(runs.phase[0])].name == phase
    assert runs.computed["lowest_voltage"][0] == pytest.approx(number(lowest), abs=0.03)
    # the stored rate counts the capacity when new
    assert runs.computed["peak_rate"][0] * number(case[1]) == pytest.approx(number(rate), abs=0.01)
    assert runs.computed["hottest"][0] - ZERO == pytest.approx(number(hottest), abs=0.1)
    assert runs.computed["heat"][0] * cells / 3600 == pytest.approx(number(heat), rel=0.005)


def test_only_warm_packs_within_their_rate_are_answered() -> None:
    answers = [aged(case)[0] for case, _ in ROWS]
    reasons = [one.reason if isinstance(one, NoAnswer) else Reason.NONE for one in answers]
    assert reasons == [
        Reason.NONE, Reason.NONE, Reason.COLD, Reason.COLD, Reason.NONE,
        Reason.NONE, Reason.RATE, Reason.NONE, Reason.RATE,
    ]  # fmt: skip


def test_half_the_strings_would_end_in_the_go_around() -> None:
    runs = aged(ROWS[-1][0])
    assert (Limit(int(runs.limit[0])), runs.ends[int(runs.phase[0])].name) == (Limit.VOLTAGE, "goaround")


# --- the cold

COLD_SETS = ("BAT-TEMP-ECKER2015", "BAT-TEMP-MARQUIS2019", "BAT-TEMP-OREGAN2022")


def cold_column(name: str, key: str) -> dict[float, float]:
    found = stored(name)
    return dict(zip(numbers(found.given["T_c"]), numbers(found.expect[key]), strict=True))


@pytest.mark.parametrize("name", COLD_SETS)
def test_at_0_degrees_the_resistance_lies_between_the_two_laws_of_the_band(name: str) -> None:
    kind, strict = (resistance_at(1.0, constant, ZERO, 1.0) for constant in CONSTANT_BAND)
    assert kind < cold_column(name, "r_over_r25")[0.0] < strict


@pytest.mark.parametrize(("curve_", "pick"), [(WORST, min), (BEST, max)], ids=["worst", "best"])
def test_the_band_of_run_time_in_the_cold_is_that_of_the_three_cells(curve_: Any, pick: Any) -> None:
    columns = [cold_column(name, "t_halfC_over_25") for name in COLD_SETS]
    degrees = [temperature - ZERO for temperature in TEMPERATURES]
    assert list(curve_.y) == [pick(column[round(one, 6)] for column in columns) for one in degrees]


# --- the gauge card


def card() -> GaugeCard:
    given = stored("BAT-GAUGE-28S16P").given
    shape = PackShape(int(given["ns"]), int(given["np"]))
    made = gauge_card(
        limited(CHEN, number(given["v_cut"])),
        shape,
        power=number(given["P_w"]),
        charges=numbers(given["soc"]),
    )
    assert isinstance(made, GaugeCard)
    return made


@pytest.mark.parametrize("row", range(6))
def test_the_gauge_card_is_the_stored_one(row: int) -> None:
    expect, made = stored("BAT-GAUGE-28S16P").expect, card().rows[row]
    # half of the printed digit, and 28 times 0.05 mV for the rounding of the table
    assert made.rest_voltage == pytest.approx(numbers(expect["rest_v"])[row], abs=0.0515)
    assert made.loaded_voltage == pytest.approx(numbers(expect["loaded_v"])[row], abs=0.0515)
    assert made.time_left / 60 == pytest.approx(numbers(expect["minutes"])[row], abs=0.5)


@pytest.mark.parametrize("row", range(3))
def test_50_mv_between_cells_hide_the_stored_spread_of_charge(row: int) -> None:
    # stored as voltage over the slope of two steps of the table, here along the curve itself: within one
    # point of charge
    found = stored("BAT-SPREAD")
    spread = spread_of_charge(CHEN.rest, numbers(found.given["soc"])[row], number(found.given["spread_v"]))
    assert spread * 100 == pytest.approx(numbers(found.expect["percent"])[row], abs=1.0)


def test_a_card_for_a_power_beyond_the_model_is_refused() -> None:
    refused = gauge_card(CHEN, PackShape(28, 16), power=18e3, charges=[0.5])
    assert isinstance(refused, NoAnswer)
