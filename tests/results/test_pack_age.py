"""An aged battery: its resistance as measured, or a range that nothing takes for new in silence."""

from __future__ import annotations

from math import sqrt
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_project import Draft, event, pack_fitted, support, weighing

from dossier.compose import energy as energy_page
from dossier.compose import gauge_card
from dossier.compute.discharge import discharge
from dossier.compute.scenarios import scenarios
from dossier.dossier import Dossier
from dossier.findings import Rejected
from dossier.results.discharge_table import WARM, FlightCase
from dossier.results.gauge import Gauge

NOMINAL = 4.9
"""Ah of the starter's cell, 14 strings."""
MODELLED = "endurance_modelled.standard-pack"
GROWTH = "resistance_growth.standard-pack"


def draft(*events: dict[str, Any], **fitted: str) -> Draft:
    made = Draft()
    # a cell that gives the power of every phase, also cold and old
    cell = {"nominal_capacity": f"{NOMINAL} Ah", "maximum_discharge_current": "40 A"}
    made.battery["cells"]["cell-a"] |= cell
    supports = (
        support("left", "40.0 kg", arm="0.35 m"),
        support("right", "40.0 kg", arm="0.35 m"),
        support("tail", "2.0 kg", arm="3.80 m"),
    )
    made.events.extend([pack_fitted("P-1", "18.4 kg", **fitted), weighing(*supports), *events])
    return made


def loss_found(health: float, **more: str) -> dict[str, Any]:
    on = more.pop("on", "2026-04-01")
    capacity = f"{14 * NOMINAL * health} Ah"
    return event("capacity-test", on, pack="P-1", capacity=capacity, conditions="at 10 A, 25 °C", **more)


@pytest.fixture(scope="module")
def dossiers(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Dossier]:
    drafts = {
        "new": draft(),
        "nominal": draft(loss_found(1.0)),
        "unmeasured": draft(loss_found(0.88)),
        "measured": draft(loss_found(0.88, resistance_growth="1.25")),
        "as new": draft(loss_found(0.88, resistance_growth="1.0")),
        "worst": draft(loss_found(0.88, resistance_growth="1.6")),
        "before": draft(loss_found(0.90, resistance_growth="1.5"), loss_found(0.88, on="2026-05-01")),
        "fitted": draft(health="88 %", resistance_growth="1.25"),
        "hardly": draft(loss_found(0.99)),
    }
    return {name: made.make(tmp_path_factory.mktemp("made")) for name, made in drafts.items()}


def minutes(dossier: Dossier) -> float:
    return dossier.figures[MODELLED].value / 60


def told(dossier: Dossier) -> list[str]:
    return [finding.message for finding in dossier.findings if finding.code == "D008"]


# --- the figure


def test_an_unmeasured_resistance_has_grown_by_the_middle_of_the_range_and_its_ends_are_in_the_doubt(
    dossiers: dict[str, Dossier],
) -> None:
    grown = dossiers["unmeasured"].figures[GROWTH]
    # 12 % lost: 1 + 2.75 x 0.12; half of the range over the square root of 3 (JCGM 100, 4.3.7)
    assert grown.value == pytest.approx(1.33, abs=1e-9)
    assert grown.standard_uncertainty == pytest.approx(0.12 * 2.25 / sqrt(3), rel=1e-9)
    assert "Nobody measured this resistance" in grown.working.note


@pytest.mark.parametrize("name", ["measured", "fitted"])
def test_a_measured_resistance_stands_as_it_was_stated(name: str, dossiers: dict[str, Dossier]) -> None:
    assert dossiers[name].figures[GROWTH].value == 1.25
    assert told(dossiers[name]) == []


@pytest.mark.parametrize("name", ["new", "nominal"])
def test_a_battery_that_lost_nothing_counts_as_new(name: str, dossiers: dict[str, Dossier]) -> None:
    assert GROWTH not in dossiers[name].figures
    growth = dossiers[name].figures[MODELLED].working.inputs["G"]
    assert getattr(growth, "value", None) == 1.0


def test_what_was_measured_before_is_the_least_that_is_reckoned_with(dossiers: dict[str, Dossier]) -> None:
    # the middle of the range, 1.33, is less than what was there a month before
    assert dossiers["before"].figures[GROWTH].value == pytest.approx(1.5)
    (model,) = dossiers["before"].modelled.models
    assert (model.growth.low, model.growth.high) == pytest.approx((1.5, 1.6))


def test_the_endurance_lies_between_those_of_the_ends_and_its_doubt_reaches_both(
    dossiers: dict[str, Dossier],
) -> None:
    best, worst, middle = (minutes(dossiers[name]) for name in ("as new", "worst", "unmeasured"))
    assert worst < middle < best
    # k = 2 of a rectangular range reaches 2 / sqrt(3) of its half width: over both ends
    doubt = 2 * dossiers["unmeasured"].figures[MODELLED].standard_uncertainty / 60
    assert middle - doubt < worst
    assert middle + doubt > best - (best - worst) * 0.05 / 0.6


def test_the_range_is_a_contributor_by_name(dossiers: dict[str, Dossier]) -> None:
    labels = [one.label for one in dossiers["unmeasured"].figures[MODELLED].contributions()]
    assert "published range of the growth of resistance with the loss of capacity" in labels


# --- the note


def test_a_loss_without_a_measured_resistance_is_told_with_the_range(dossiers: dict[str, Dossier]) -> None:
    (message,) = told(dossiers["unmeasured"])
    assert message == (
        "Standard pack has lost 12 % of its capacity and nobody measured its resistance: 1.06 to 1.60 times "
        "that when new, the published range, is reckoned with"
    )


@pytest.mark.parametrize("name", ["new", "nominal", "hardly", "measured"])
def test_nothing_is_told_of_a_new_or_measured_battery(name: str, dossiers: dict[str, Dossier]) -> None:
    assert told(dossiers[name]) == []


@pytest.mark.parametrize("growth", ["0.79", "10.1"])
def test_a_growth_that_cannot_be_is_refused(growth: str, tmp_path: Path) -> None:
    with pytest.raises(Rejected) as refused:
        draft(loss_found(0.88, resistance_growth=growth)).make(tmp_path)
    (message,) = [str(finding) for finding in refused.value.findings if finding.code == "P017"]
    assert "from 0.8 to 10, where 1 is as when new" in message


# --- the table of cold and age


def as_recorded(dossier: Dossier) -> dict[float, tuple[float, float | None]]:
    """Minutes of level flight of the heaviest pilot, by temperature."""
    outlook = [one for one in dossier.modelled.outlooks if one.age.health is None][-1]
    return {
        one.temperature: (one.shortest / 60, one.longest and one.longest / 60)
        for one in outlook.lasts
        if one.shortest is not None
    }


def test_the_table_of_an_unmeasured_battery_reaches_from_the_worst_to_the_best(
    dossiers: dict[str, Dossier],
) -> None:
    unmeasured, worst = as_recorded(dossiers["unmeasured"]), as_recorded(dossiers["worst"])
    assert len(unmeasured) >= 2
    assert unmeasured.keys() == worst.keys()
    for temperature, (shortest, longest) in unmeasured.items():
        # 1.6 times is the upper end for 12 % lost
        assert shortest == pytest.approx(worst[temperature][0], rel=1e-9)
        assert longest is not None
        assert longest > shortest or longest == 0


def test_the_table_of_a_measured_battery_has_single_values_when_warm(dossiers: dict[str, Dossier]) -> None:
    lasts = as_recorded(dossiers["measured"])
    warm = [longest for temperature, (_, longest) in lasts.items() if temperature in WARM]
    assert len(warm) >= 2
    assert set(warm) == {None}


def test_no_line_of_the_table_takes_an_old_battery_for_a_new_one(dossiers: dict[str, Dossier]) -> None:
    for one in dossiers["new"].modelled.outlooks:
        if one.age.health is not None:
            loss = 1 - one.age.health
            assert (one.age.least_growth, one.age.growth) == pytest.approx((1 + 0.5 * loss, 1 + 5 * loss))
            assert f"{1 + 5 * loss:.2f} times that when new" in one.age.words


def test_the_page_names_the_range_beside_the_times(dossiers: dict[str, Dossier]) -> None:
    (page,) = energy_page.pages(dossiers["unmeasured"])
    assert "as in this record, resistance 1.06 to 1.60 times that when new" in page.text
    assert "at 80 % of its nominal capacity, resistance 1.10 to 2.00 times that when new" in page.text


# --- the gauge card


def card(dossier: Dossier) -> Gauge:
    (one,) = dossier.modelled.gauges
    return one


def test_the_card_takes_minutes_of_the_worst_and_voltages_of_the_best(dossiers: dict[str, Dossier]) -> None:
    # a reading in flight, looked up on a card of more resistance, would promise charge that is not there
    mixed, worst = card(dossiers["unmeasured"]), card(dossiers["worst"])
    assert len(mixed.lines) == len(worst.lines)
    for line, other in zip(mixed.lines, worst.lines, strict=True):
        assert line.time_left == pytest.approx(other.time_left, rel=1e-9)
        assert line.loaded_voltage > other.loaded_voltage
        assert line.rest_voltage == other.rest_voltage


def test_the_card_says_which_resistance_it_reckons_with(dossiers: dict[str, Dossier]) -> None:
    (page,) = gauge_card.pages(dossiers["unmeasured"])
    words = "88.0 % of its nominal capacity and 1.06 to 1.60 times its resistance when new"
    assert words in page.text.replace("\u00a0", " ")
    (page,) = gauge_card.pages(dossiers["new"])
    assert "its resistance when new" not in page.text


@settings(max_examples=25, deadline=None)
@given(charge=st.floats(0.35, 0.95), growth=st.floats(1.06, 1.6))
def test_whatever_the_resistance_the_card_does_not_promise_more_than_there_is(
    charge: float, growth: float, dossiers: dict[str, Dossier]
) -> None:
    # a pilot reads the voltage in flight and looks up the minutes between two lines, on straight lines
    one, case = card(dossiers["unmeasured"]), heaviest(dossiers["unmeasured"])
    model = case.model
    run = discharge(
        model.circuit,
        scenarios(
            case.cruise.power / model.shape.cells, start=[charge, one.lines[-1].charge], health=model.health,
            growth=growth, wiring=model.shape.wiring_at_cell,
        ),
    )  # fmt: skip
    reading = model.shape.series * run.computed["first_voltage"][0]
    left = run.computed["time"][0] - run.computed["time"][1]
    lines = sorted(one.lines, key=lambda line: line.loaded_voltage)
    voltages, times = zip(*((line.loaded_voltage, line.time_left) for line in lines), strict=True)
    promised = np.interp(reading, voltages, times)
    assert promised <= left


def heaviest(dossier: Dossier) -> FlightCase:
    return dossier.modelled.cases[-1]


# --- laws


@settings(max_examples=8, deadline=None)
@given(lightest=st.floats(50, 75), more=st.floats(5, 30), health=st.floats(0.8, 1.0))
def test_more_pilot_never_lasts_longer_by_the_discharge_model(
    lightest: float, more: float, health: float, tmp_path_factory: pytest.TempPathFactory
) -> None:
    made = draft(loss_found(health))
    made.aircraft["loading"]["seat"] |= {"minimum": f"{lightest} kg", "maximum": f"{lightest + more} kg"}
    dossier = made.make(tmp_path_factory.mktemp("flown"))
    flights = dossier.modelled.flights
    assert len(flights) == 3
    times = [one.modelled.value for one in sorted(flights, key=lambda one: one.flight.pilot)]
    assert times == sorted(times, reverse=True)
    recorded = [one for one in dossier.modelled.outlooks if one.age.health is None]
    for step in range(len(recorded[0].lasts)):
        lasts = {one.flight.pilot: one.lasts[step].shortest or 0.0 for one in recorded}
        times = [time for _, time in sorted(lasts.items())]
        assert times == sorted(times, reverse=True)
