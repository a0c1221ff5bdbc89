"""A worked row of each table: its sheets give the numbers of the table, and a calculator those of the sheets.

The second half recomputes cells from nothing but the numbers that the sheets print, by formulas written out
here, with their source beside them.
"""

from __future__ import annotations

from math import exp, pi, sqrt

import numpy as np
import pytest
from packet_reading import composed, html, made, page_of
from scipy.integrate import quad
from scipy.optimize import brentq

from dossier.compose.sheet_text import as_text
from dossier.compose.working.sheet import sheet
from dossier.display import show
from dossier.figures import Input
from dossier.results.worked_rows import WorkedRow

QUILLET, BARROW = ("quillet-e1", "0004"), ("barrow-t2", "T2-009")
BOTH = pytest.mark.parametrize(("project", "number"), [QUILLET, BARROW])
TABLES = {
    "gliding", "climb", "height", "pilot_climb", "pilot_glide", "power", "air", "run", "reach", "gauge",
    "outlook", "years", "charging", "by_pilot",
}  # fmt: skip
PAGES = {
    "gauge": "gauge-card.md", "outlook": "energy.md", "years": "battery.md", "charging": "battery.md",
}  # fmt: skip
OF_THE_TABLE = {"gauge", "outlook", "years"}
"""Printed otherwise than by the style of a figure: whole minutes and whole per cents."""
G = 9.80665


def in_table(row: WorkedRow, key: str) -> float:
    """Follow a key of ``cells`` to the value of the table."""
    value: object = row.row
    for part in key.split("."):
        value = value[int(part)] if isinstance(value, tuple) else getattr(value, part)
    assert isinstance(value, float)
    return value


def test_every_table_of_the_two_projects_has_a_worked_row() -> None:
    assert {row.table for one in (QUILLET, BARROW) for row in made(*one).worked.rows} == TABLES


@BOTH
def test_every_worked_cell_is_the_number_of_its_table(project: str, number: str) -> None:
    rows = [row for row in made(project, number).worked.rows if row.table != "by_pilot"]
    assert [
        (row.table, key, figure.value, in_table(row, key))
        for row in rows
        for key, figure in row.cells.items()
        if figure.value != pytest.approx(in_table(row, key), rel=1e-9, abs=1e-12)
    ] == []


@BOTH
def test_the_cell_on_the_page_is_the_number_that_the_sheet_says_is_printed(project: str, number: str) -> None:
    dossier, packet = made(project, number), composed(project, number)
    for row in dossier.worked.rows:
        if row.table in OF_THE_TABLE or row.table == "by_pilot":
            continue
        page = html(page_of(packet, PAGES.get(row.table, "performance.md")))
        for key, figure in row.cells.items():
            printed = show(in_table(row, key), figure.style or figure.kind, dossier.preference).first
            assert printed in page, (row.table, key)
            assert sheet(figure, dossier).result.startswith(printed), (row.table, key)


@BOTH
def test_every_worked_row_is_reached_from_its_table(project: str, number: str) -> None:
    dossier, packet = made(project, number), composed(project, number)
    for row in dossier.worked.rows:
        page = html(page_of(packet, PAGES.get(row.table, "performance.md")))
        for figure in row.cells.values():
            assert f"#{figure.name}" in page, figure.name


@BOTH
def test_the_points_of_an_integral_sum_to_its_result(project: str, number: str) -> None:
    figures = made(project, number).with_sheets.values()
    summed = [(one, points) for one in figures for points in one.working.points]
    assert summed
    for figure, points in summed:
        if points.columns[-1].kind == figure.kind:
            assert points.total == pytest.approx(figure.value, rel=1e-9), figure.name
        else:  # instants: the charge that is used
            used = figure.working.inputs["z_2"]
            assert isinstance(used, Input)
            assert points.columns[1].values[-1] == pytest.approx(used.value, abs=1e-6)


def test_a_gauge_card_prints_the_minutes_and_the_volts_of_its_sheets() -> None:
    dossier, page = made(*QUILLET), html(page_of(composed(*QUILLET), "gauge-card.md"))
    for row in dossier.worked.rows:
        if row.table == "gauge":
            assert f">{row.cells['time_left'].value // 60:.0f}<" in page
            assert f">{row.cells['rest_voltage'].value:.1f}<" in page
            assert f">{row.cells['loaded_voltage'].value:.1f}<" in page


def test_a_terminal_shows_the_points_and_the_steps_as_the_page_does() -> None:
    dossier = made(*QUILLET)
    text = as_text(dossier.with_sheets["endurance_modelled.long-pack"], dossier)
    assert "The points of the integral, one cell" in text
    assert f"Sum of the times: {dossier.figures['endurance_modelled.long-pack'].value:.7g} s" in text
    assert "drag for the square of the speed: " in as_text(
        dossier.with_sheets["row_height.top_speed.long-pack"], dossier
    )


@BOTH
def test_a_lighter_pilot_needs_less_power_and_gets_farther(project: str, number: str) -> None:
    dossier = made(project, number)
    for row in dossier.worked.of("by_pilot"):
        option = row.cells["power"].name.split(".")[2]
        assert row.cells["power"].value < dossier.figures[f"polar_level_power.{option}"].value
        if "range" in row.cells:
            assert row.cells["range"].value > dossier.figures[f"range.{option}"].value


# --- by a calculator, from the printed inputs


def printed(name: str, one: tuple[str, str] = QUILLET) -> dict[str, float]:
    """Return the single inputs of a sheet as it prints them, by symbol."""
    dossier = made(*one)
    figure = dossier.with_sheets[name]
    single = [key for key, each in figure.working.inputs.items() if isinstance(each, Input)]
    return {key: number_of(line.si) for key, line in zip(single, sheet(figure, dossier).inputs, strict=False)}


def columns(name: str, keys: str, one: tuple[str, str] = QUILLET) -> list[list[float]]:
    """Return lists of inputs, which stand side by side below the single ones."""
    dossier = made(*one)
    figure = dossier.with_sheets[name]
    lines = sheet(figure, dossier).inputs
    wanted = keys.split()
    values = [number_of(line.si) for line in lines[-len(wanted) * len(figure.working.inputs["z_i"]) :]]  # type: ignore[arg-type]
    return [values[place :: len(wanted)] for place in range(len(wanted))]


def number_of(text: str) -> float:
    return float(text.split("\u00a0")[0].replace("\u2212", "-"))


def result(name: str, one: tuple[str, str] = QUILLET) -> float:
    dossier = made(*one)
    return number_of(sheet(dossier.with_sheets[name], dossier).result_si)


def sink_by_coefficients(v: float, given: dict[str, float]) -> float:
    """Source fossee-anderson: C_D = C_D0 + K C_L², and the power of the drag over the weight."""
    C_L = 2 * given["m"] * G / (given["rho"] * given["S"] * v**2)
    C_D = given["C_D0"] + given["K"] * C_L**2
    return given["rho"] * v**3 * given["S"] * C_D / (2 * given["m"] * G)


def test_the_stall_of_the_lightest_pilot_by_the_lift_coefficient() -> None:
    # source fossee-anderson, definition of the lift coefficient
    given = printed("row_gliding.stall.long-pack")
    v = sqrt(2 * given["m"] * 9.80665 / (1.225 * given["S"] * given["C_Lmax"]))
    assert result("row_gliding.stall.long-pack") == pytest.approx(v, rel=1e-6)


def test_the_density_of_a_warm_day_by_the_gas_law_and_the_barometric_formula() -> None:
    # source iso-2533; p = 101325 (1 - 2.25577e-5 h)^5.25588 as handbooks print it (memory)
    h = printed("row_air.pressure.long-pack")["h_g"]
    given = printed("row_air.temperature.long-pack")
    T = 288.15 - 0.0065 * given["h_p"] + given["dT_s"]
    rho = 101325 * (1 - 2.25577e-5 * h) ** 5.25588 / (287.05287 * T)
    assert result("row_air.density.long-pack") == pytest.approx(rho, rel=1e-5)


def test_the_density_altitude_by_the_formula_of_weather_services() -> None:
    # 145442 ft (1 - (rho / 1.225)^0.235), from memory; three digits of its exponent
    rho = printed("row_air.density_altitude.long-pack")["rho"]
    feet = 145442.16 * (1 - (rho / 1.225) ** 0.234969)
    assert result("row_air.density_altitude.long-pack") == pytest.approx(feet * 0.3048, abs=0.2)


def test_the_warm_climb_by_the_excess_of_power() -> None:
    # source sfsu-220: excess power over weight
    given = printed("row_climb.sink.long-pack")
    climb = printed("row_climb.rate.long-pack")
    rate = climb["P"] * climb["eta"] / (climb["m"] * G) - sink_by_coefficients(given["v"], given)
    assert result("row_climb.rate.long-pack") == pytest.approx(rate, rel=2e-6)


def test_the_time_of_a_climb_by_many_small_steps() -> None:
    given = printed("row_height.time.long-pack")
    steps, t = 20000, 0.0
    dh = given["h_p"] / steps
    for h in (np.arange(steps) + 0.5) * dh:
        rho = 1.225 * (1 - 0.0065 * h / 288.15) ** 4.25588  # source iso-2533
        at = {**given, "rho": rho}
        stall = sqrt(2 * given["m"] * G / (rho * given["S"] * given["C_Lmax"]))
        best = sqrt(2 * given["m"] * G / (rho * given["S"]) * sqrt(given["K"] / (3 * given["C_D0"])))
        w = sink_by_coefficients(max(best, 1.1 * stall), at)
        t += dh / (given["eta"] * given["P"] / (given["m"] * G) - w)
    assert result("row_height.time.long-pack") == pytest.approx(t, rel=1e-6)


def test_the_top_speed_is_where_the_thrust_carries_the_sink() -> None:
    given = printed("row_height.top_speed.long-pack")
    excess = given["P"] * given["eta"] / (given["m"] * G)
    v = brentq(lambda v: excess - sink_by_coefficients(v, given), 20.0, 60.0)
    assert result("row_height.top_speed.long-pack") == pytest.approx(v, rel=1e-6)


def test_the_power_from_the_battery_is_drag_by_speed_over_the_chain() -> None:
    given = printed("row_power.sink.long-pack")
    C_L = 2 * given["m"] * G / (given["rho"] * given["S"] * given["v"] ** 2)
    drag = given["rho"] / 2 * given["v"] ** 2 * given["S"] * (given["C_D0"] + given["K"] * C_L**2)
    power = drag * given["v"] / printed("row_power.pack.long-pack")["eta"]
    assert result("row_power.pack.long-pack") == pytest.approx(power, rel=1e-6)


def test_no_speed_leads_farther_against_the_wind_than_the_printed_one() -> None:
    given = printed("row_reach.speed.long-pack")
    ends = result("row_reach.ratio_best.long-pack")
    speeds = np.linspace(given["v_w"] + 6.0, given["v_max"], 4000)
    reach = [(v - given["v_w"]) / sink_by_coefficients(v, given) for v in speeds.tolist()]
    assert max(reach) == pytest.approx(ends, rel=1e-6)
    assert speeds[int(np.argmax(reach))] == pytest.approx(result("row_reach.speed.long-pack"), abs=0.02)


def test_the_take_off_run_by_the_momentum_of_the_disc() -> None:
    # source momentum-theory: T (v + u) = k P and T = 2 rho A u (v + u)
    option = next(row.cells for row in made(*BARROW).worked.rows if row.table == "run")
    name = next(iter(option.values())).name
    given = printed(name, BARROW)
    disc = pi / 4 * given["D_p"] ** 2

    def way(v: float) -> float:
        power = given["k_p"] * given["P_s"]
        u = brentq(lambda u: 2 * given["rho"] * disc * u * (v + u) ** 2 - power, 1e-6, 200.0)
        q = given["rho"] / 2 * v**2 * given["S"]
        wheels = given["mu_r"] * (given["m"] * G - q * given["C_Lg"])
        force = power / (v + u) - q * (given["C_D0"] + given["K"] * given["C_Lg"] ** 2) - wheels
        return given["m"] * v / force

    assert result(name, BARROW) == pytest.approx(quad(way, 0.0, given["v_LO"])[0], rel=1e-6)


def test_the_loaded_voltage_of_the_gauge_card_by_the_quadratic() -> None:
    # source ohm: U = U_0 - P R / U
    name = "row_gauge.loaded.long-pack"
    given = printed(name)
    z, U, R = columns(name, "z_i U_i R_i")
    warm = exp(given["b"] * (1 / given["T_b"] - 1 / 298.15)) * given["G"]
    rest = given["N_s"] * np.interp(given["z"], z, U)
    inner = given["N_s"] / given["N_p"] * np.interp(given["z"], z, R) * warm + given["R_w"]
    loaded = brentq(lambda V: V - (rest - given["P"] * inner / V), rest / 2, rest)
    assert result(name) == pytest.approx(loaded, rel=1e-6)


@pytest.mark.parametrize("name", ["row_gauge.time_left.long-pack", "endurance_modelled.long-pack"])
def test_the_time_at_a_power_by_many_small_steps(name: str) -> None:
    # source equivalent-circuit: dt = Q V dz / P
    given = printed(name)
    z, U, R = columns(name, "z_i U_i R_i")
    factor = given["G"] * exp(given["b"] * (1 / given["T_b"] - 1 / 298.15))
    steps = 200000
    at = given["z_2"] + (np.arange(steps) + 0.5) / steps * (given["z_1"] - given["z_2"])
    rest, inner = np.interp(at, z, U), np.interp(at, z, R) * factor + given["R_x"]
    volts = (rest + np.sqrt(rest**2 - 4 * given["P_cell"] * inner)) / 2
    t = given["Q_cell"] / given["P_cell"] * volts.mean() * (given["z_1"] - given["z_2"])
    assert result(name) == pytest.approx(t, rel=1e-6)


def test_the_printed_points_of_an_endurance_add_up_to_the_printed_number() -> None:
    dossier = made(*QUILLET)
    figure = dossier.figures["endurance_modelled.long-pack"]
    (table,) = sheet(figure, dossier).points
    assert sum(float(line[-1]) for line in table.rows) == pytest.approx(figure.value, rel=1e-6)
    power, charge = (
        number_of(line.si)
        for line in sheet(figure, dossier).inputs
        if line.symbol in ("P_{cell}", "Q_{cell}")
    )
    for _, width, rest, inner, volt, current, time in (map(float, line) for line in table.rows):
        by_hand = (rest + sqrt(rest**2 - 4 * power * inner)) / 2
        assert volt == pytest.approx(by_hand, rel=1e-6)
        assert current == pytest.approx(power / by_hand, rel=1e-6)
        assert time == pytest.approx(charge * width / current, rel=1e-6)


def test_five_years_by_the_published_model() -> None:
    # source schmalstieg-2014, calendar and cycle part
    stored = printed("row_years.stored.long-pack")
    days = stored["t"] / 86400
    calendar = (7.543 * stored["U_oc"] - 23.75) * 1e6 * exp(-6976 / stored["T_b"]) * days**0.75
    flown = printed("row_years.flown.long-pack")
    beta = 7.348e-3 * (flown["U_rms"] - 3.667) ** 2 + 7.6e-4 + 4.081e-3 * flown["z_d"]
    cycling = beta * sqrt(2 * 2.15 * flown["N_c"] * flown["z_d"])
    assert result("row_years.capacity.long-pack") == pytest.approx(1 - calendar - cycling, rel=1e-6)


def test_charging_at_full_power_by_many_small_steps() -> None:
    # source equivalent-circuit: the charger lifts the voltage by I R
    name = "row_charging.bulk.long-pack"
    given = printed(name)
    z, U, R = columns(name, "z_i U_i R_i")
    at = np.linspace(given["z_1"], 1.0, 400001)
    rest, inner = np.interp(at, z, U), np.interp(at, z, R)
    volts = (rest + np.sqrt(rest**2 + 4 * given["P_cell"] * inner)) / 2
    before = volts < given["U_max"]
    t = given["Q_cell"] / given["P_cell"] * volts[before].sum() * (at[1] - at[0])
    assert result(name) == pytest.approx(t, rel=1e-4)
