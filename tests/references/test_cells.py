"""Generic rest voltages and growth of resistance against what others measured, print, or have modelled."""

from __future__ import annotations

import numpy as np
import pytest
from published import as_printed, example, number, numbers

from dossier.compute.life import YEAR, Use, after
from dossier.compute.pack_state import GROWTH_PER_LOSS
from dossier.results.gauge import HYSTERESIS
from dossier.results.pack_age import for_health
from dossier.tables.rest_voltages import GenericRestVoltages, generic_rest_voltages

TABLES = generic_rest_voltages()


def measured(name: str) -> tuple[list[float], list[float]]:
    rows = example("cells", name).expect
    return numbers(rows["state_of_charge"]), numbers(rows["rest_voltage"])


def between(z: list[float], U: list[float]) -> list[float]:
    """Rest voltages from 2.8 to 4.19 V, over the charge between."""
    ends = np.interp([2.8, 4.19], U, z)
    return list(np.interp(ends[0] + np.linspace(0, 1, 501) * (ends[1] - ends[0]), z, U))


def apart(table: GenericRestVoltages, name: str) -> tuple[float, float]:
    """Largest difference in V from 10 to 95 % of charge, and the difference of the mean as a part."""
    own, other = (
        np.array(between(*columns)) for columns in ((list(table.rest.x), list(table.rest.y)), measured(name))
    )
    inner = slice(50, 476)
    return float(np.abs(own - other)[inner].max()), float(abs(other.mean() / own.mean() - 1))


# --- rest voltages


def test_the_table_of_iron_phosphate_is_the_measured_one_as_printed() -> None:
    z, U = measured("CELL-REST-LFP")
    assert (list(TABLES["lfp"].rest.x), list(TABLES["lfp"].rest.y)) == (z, U)


@pytest.mark.parametrize("name", ["CELL-REST-NICKEL-1", "CELL-REST-NICKEL-2"])
def test_nmc811_lies_within_25_mv_of_two_measured_nickel_rich_cells(name: str) -> None:
    # a cell that the parameter set was not made from: 20 and 22 mV, and 0.2 % of the energy
    volts, energy = apart(TABLES["nmc811"], name)
    assert volts < 0.025
    assert energy < 0.002


def test_the_stated_spread_of_nca_holds_two_measured_nickel_rich_cells() -> None:
    one = TABLES["nca"]
    found = [apart(one, name) for name in ("CELL-REST-NICKEL-1", "CELL-REST-NICKEL-2")]
    volts, energy = (max(column) for column in zip(*found, strict=True))
    assert one.spread_voltage - 0.01 < volts <= one.spread_voltage
    assert one.spread_energy - 0.001 < energy <= one.spread_energy


@pytest.mark.parametrize("name", TABLES)
def test_the_mean_is_near_the_typical_voltage_of_its_chemistry(name: str) -> None:
    # the typical voltage is one under load, so the mean at rest lies above it, by less than 0.2 V
    table = TABLES[name]
    typical = number(example("cells", "CELL-TYPICAL-VOLTAGE").expect[table.chemistry])
    mean = float(np.trapezoid(table.rest.y, table.rest.x))
    assert typical < mean < typical + 0.2


@pytest.mark.parametrize("name", ["lfp", "nmc532", "nmc811"])
def test_it_ends_at_the_usual_charging_voltage(name: str) -> None:
    usual = example("cells", "CELL-FULL-VOLTAGE").expect[TABLES[name].chemistry]
    assert TABLES[name].rest.y[-1] == as_printed(usual)


@pytest.mark.parametrize("name", TABLES)
def test_it_rises_from_empty_to_full(name: str) -> None:
    table = TABLES[name].rest
    assert (table.x[0], table.x[-1]) == (0.0, 1.0)
    assert (np.diff(table.x) > 0).all()
    assert (np.diff(table.y) > 0).all()


def test_iron_phosphate_is_flat_and_the_others_are_not() -> None:
    # common practice, no source: from 30 to 90 % iron phosphate changes by less than 0.1 V, the others by
    # 0.4 V and more
    ends = {name: np.interp([0.3, 0.9], one.rest.x, one.rest.y) for name, one in TABLES.items()}
    fall = {name: float(high - low) for name, (low, high) in ends.items()}
    assert fall.pop("lfp") < 0.1
    assert min(fall.values()) > 0.4


def test_the_hysteresis_that_is_reckoned_with_is_the_upper_end_of_the_printed_one() -> None:
    printed = number(example("cells", "CELL-HYSTERESIS").expect["high_mv"])
    assert pytest.approx(printed) == 1000 * HYSTERESIS


# --- growth of resistance

ROWS = example("cells", "CELL-GROWTH").expect["rows"]
STORED = [row for row in ROWS if row[0] == "nmc111" and row[2] == "none"]


def test_the_published_range_holds_two_published_models_from_a_tenth_of_loss_on() -> None:
    per_loss = [(number(row[6]) - 1) / number(row[5]) for row in ROWS]
    low, high = GROWTH_PER_LOSS
    assert low < min(per_loss) < 1.1 * low + 0.1
    assert max(per_loss) < high


def test_the_range_ends_where_a_battery_is_usually_retired() -> None:
    end = example("cells", "CELL-END-OF-LIFE").expect
    assert for_health(number(end["health"]))[1] == pytest.approx(number(end["resistance"]), rel=1e-12)


@pytest.mark.parametrize("row", STORED, ids=[f"{row[1]} {row[4]} °C {row[5]}" for row in STORED])
def test_the_tools_own_model_of_storage_grows_as_the_library_says(row: list[str]) -> None:
    charge = number(row[1].removesuffix(" %")) / 100
    use = Use(0.0, 0.2, 0.95, charge, number(row[4]) + 273.15)
    low, high = 0.0, 40.0
    for _ in range(60):
        middle = (low + high) / 2
        state = after(use, middle)
        low, high = (middle, high) if 1 - (state.health or 0.0) < number(row[5]) else (low, middle)
    # the library steps by the day and stops on the first step past the loss
    assert after(use, high).growth == pytest.approx(number(row[6]), abs=0.003)


def test_a_year_is_counted_as_the_library_does() -> None:
    assert YEAR == 365 * 86400
