"""The gauge card beside a measured discharge: the log read at the charges of the card, the model at its
current."""

from __future__ import annotations

from math import exp
from pathlib import Path

import numpy as np
import pytest
from demos import NAMES, demo
from logged_battery import fitted, log, made

from dossier.dossier import Dossier
from dossier.results.gauge_measured import MeasuredGauge, NotMeasured
from dossier.results_file import as_data


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Dossier:
    return weighed(tmp_path_factory.mktemp("gauge"), log(cells=False))


def weighed(folder: Path, text: str) -> Dossier:
    """Give the sample aircraft a weighing too, without which there is no flight and no card."""
    return made(folder, text, asked={}, weighed=True)


def card(dossier: Dossier) -> MeasuredGauge:
    one = dossier.modelled.measured[0]
    assert isinstance(one, MeasuredGauge)
    return one


def test_the_measured_voltage_is_that_of_the_log_at_the_charge_of_the_row(sample: Dossier) -> None:
    # by hand: 20 A from a straight line of voltage; charge from the start, over the capacity that the log
    # gives
    whole = sample.figures["logged_capacity.test_1"].value
    start = 0.9 + 0.1 * (58.10 / 14 - 4.08) / 0.12
    for line in card(sample).lines:
        seconds = (start - line.charge) * whole / 20
        assert line.measured == pytest.approx(57.4 - 13.4 * seconds / 10920, abs=0.02)


def test_the_modelled_voltage_is_rest_less_the_fall_at_the_current_of_the_test(sample: Dossier) -> None:
    model = sample.modelled.models[0]
    growth = (model.growth.low + model.growth.high) / 2
    warm = np.mean(sample.capacity_logs.logs[0].curve.temperature)  # type: ignore[union-attr,arg-type]
    for line in card(sample).lines:
        volts = 14 * float(np.interp(line.charge, [0, 0.1, 0.5, 0.9, 1.0], [2.9, 3.3, 3.7, 4.08, 4.2]))
        ohms = float(np.interp(line.charge, [0.1, 0.3, 0.9], [0.045, 0.035, 0.033])) * growth
        ohms *= exp(3000 * (1 / warm - 1 / 298.15))
        assert line.modelled == pytest.approx(volts - 20 * 14 / 14 * ohms, rel=1e-6)


def test_at_rest_and_under_load_the_difference_is_the_same(sample: Dossier) -> None:
    for line in card(sample).lines:
        assert line.rest - line.card == pytest.approx(line.difference, abs=1e-9)


def test_the_energy_of_the_log_is_current_times_voltage_over_time(sample: Dossier) -> None:
    one, whole = card(sample), sample.figures["logged_capacity.test_1"].value
    start = 0.9 + 0.1 * (58.10 / 14 - 4.08) / 0.12
    end = 57.4 - 13.4 * (start - one.counted_to) * whole / 20 / 10920
    for line in one.lines:
        span = (line.charge - one.counted_to) * whole / 20
        assert line.energy_left == pytest.approx(20 * (line.measured + end) / 2 * span, rel=1e-3, abs=2e3)


def test_less_charge_never_leaves_more_energy(sample: Dossier) -> None:
    left = [line.energy_left for line in card(sample).lines]
    assert left == sorted(left, reverse=True)


def test_a_log_far_from_the_model_differs(tmp_path: Path) -> None:
    head, *rows = log(cells=False).splitlines()
    fields = [each.split(",") for each in rows]
    low = [
        [t, volts if amps == "0" else f"{float(volts) - 3:.2f}", amps, *more]
        for t, volts, amps, *more in fields
    ]
    dossier = weighed(tmp_path, "\n".join([head, *(",".join(each) for each in low)]) + "\n")
    assert any(not line.agrees for line in card(dossier).lines)


def test_a_battery_without_a_log_has_no_measured_card_and_says_why(tmp_path: Path) -> None:
    assert fitted(tmp_path, measured_capacity="66 Ah ± 1 Ah").modelled.measured == ()


@pytest.mark.parametrize("project", NAMES)
def test_the_demonstrations_agree_with_their_logs(project: str) -> None:
    cards = [one for dossier in demo(project).values() for one in dossier.modelled.measured]
    measured = [one for one in cards if isinstance(one, MeasuredGauge)]
    assert measured
    assert all(line.agrees for one in measured for line in one.lines)


def test_a_card_of_a_battery_that_is_not_fitted_says_so() -> None:
    others = [one for one in demo("quillet-e1")["0003"].modelled.measured if isinstance(one, NotMeasured)]
    assert [one.why for one in others] == ["no battery of this kind is fitted"]


def test_results_hold_every_row(sample: Dossier) -> None:
    rows = next(
        table["rows"] for table in as_data(sample)["tables"] if table["name"] == "gauge_card_measured"
    )
    assert len(rows) == len(card(sample).lines)
