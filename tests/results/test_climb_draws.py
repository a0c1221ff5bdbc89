"""Draws of a whole record: climb and top speed, and what is said where first order has no slope."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from invented_glider import AREA, LIFT, OSWALD, RHO, SPAN, ZERO_LIFT
from sample_project import Draft, pack_fitted, support, weighing
from uncertainties import ufloat

from dossier.compute import climb, level
from dossier.compute.energy import GRAVITY, climb_rate
from dossier.compute.glide import Polar, Polars
from dossier.compute.polar import aspect_ratio, induced_drag_factor
from dossier.dossier import Dossier
from dossier.figures import Input as GivenInput
from dossier.figures import OutsideRange, evaluate
from dossier.halton import COUNT
from dossier.results.attempt import attempt
from dossier.results.flight_tables import ClimbRow


def draft(power: str, battery: str = "18.4 kg") -> Draft:
    made = Draft()
    made.aircraft["aerodynamics"] = {
        "zero_lift_drag_coefficient": {"value": "0.0165 ± 0.0020", "reason": "calculation"},
        "oswald_factor": {"value": "0.80 ± 0.05", "reason": "calculation"},
        "maximum_lift_coefficient": {"value": "1.42 ± 0.08", "reason": "stalls"},
    }
    made.aircraft["propulsion"]["maximum_power"] = power
    made.record["events"] = [
        pack_fitted("P-1", battery),
        weighing(
            support("left", "54 kg", arm="0.35 m"),
            support("right", "54 kg", arm="0.35 m"),
            support("tail", "11 kg", arm="3.6 m"),
        ),
    ]
    return made


def climbs(dossier: Dossier) -> tuple[ClimbRow, ...]:
    assert dossier.performance is not None
    assert dossier.performance.climbs
    return dossier.performance.climbs


def test_the_draws_of_a_climb_lie_around_the_value_of_the_table(tmp_path: Path) -> None:
    for one in climbs(draft("9 kW ± 0.4 kW").make(tmp_path)):
        for value, drawn in (
            (one.time, one.draws.time),
            (one.energy, one.draws.energy),
            (one.top_speed, one.draws.top_speed),
        ):
            assert isinstance(value, float)
            assert drawn.quantiles is not None
            assert drawn.quantiles[0] <= value <= drawn.quantiles[2]
            assert drawn.quantiles[1] == pytest.approx(value, rel=0.02)


def test_a_longer_climb_is_less_well_known(tmp_path: Path) -> None:
    made = [one for one in climbs(draft("9 kW ± 0.4 kW").make(tmp_path)) if one.height > 0]
    widths = [
        one.draws.time.quantiles[2] - one.draws.time.quantiles[0] for one in made if one.draws.time.quantiles
    ]
    assert len(widths) == len(made) > 2
    assert widths == sorted(widths)


def test_draws_that_reach_no_height_are_told_with_the_height(tmp_path: Path) -> None:
    made = climbs(draft("4.2 kW ± 0.7 kW").make(tmp_path))
    shares = [one.draws.time.unanswered for one in made]
    assert 0 < shares[1] < shares[-1] < 1
    assert shares == sorted(shares)
    assert made[-1].draws.time.state == "no climb to this height with this power and mass"


def test_wings_as_columns_climb_as_each_wing_does_alone() -> None:
    # the same formulas, one wing at a time
    generator = np.random.default_rng(7)
    count = 5
    zero_lift = ZERO_LIFT * generator.uniform(0.8, 1.2, count)
    induced = induced_drag_factor(OSWALD, aspect_ratio(SPAN, AREA)) * generator.uniform(0.8, 1.2, count)
    area, lift = AREA * generator.uniform(0.9, 1.1, count), LIFT * generator.uniform(0.9, 1.1, count)
    mass, power = generator.uniform(180, 240, count), generator.uniform(4000, 6000, count)
    wings = Polars(zero_lift, induced, area, lift)
    way = climb.heights(0.0, 900.0)
    together = climb.climb_to(wings.along(1), power, 1.0, mass, way).computed["time"]
    fast = level.top_speed(wings, power, mass, RHO).computed["speed"]
    for row in range(count):
        alone = Polar(*(float(column[row]) for column in (zero_lift, induced, area, lift)))
        assert together[row] == pytest.approx(
            climb.climb_to(alone, power[row], 1.0, mass[row], way).one("time"), rel=1e-12
        )
        assert fast[row] == pytest.approx(
            level.top_speed(alone, power[row], mass[row], RHO).one("speed"), rel=1e-12
        )


@pytest.mark.parametrize("column", range(4))
def test_wings_that_are_none_are_refused(column: int) -> None:
    columns = [np.array([0.02, 0.03]) for _ in range(4)]
    columns[column] = np.array([0.02, 0.0])
    with pytest.raises(OutsideRange, match="must be positive"):
        Polars(*columns)


def rate(power: float, u: float) -> dict[str, GivenInput]:
    def certain(name: str, value: float) -> GivenInput:
        return GivenInput(name, "number", value, "invented")

    return {
        "P": GivenInput("power", "power", ufloat(power, u, tag="power"), "invented"),
        "eta": certain("eta", 0.6),
        "w": certain("w", 0.7),
        "m": certain("m", 200.0),
        "g": GRAVITY,
    }


def test_where_first_order_has_no_slope_the_finding_tells_what_draws_say() -> None:
    # 0.6 P / (200 g) = 0.7 at 2288 W; 2400 W ± 300 W lie 0.3723 standard uncertainties above: 35.5 % below
    inputs = rate(2400.0, 300.0)
    found = attempt(
        lambda: evaluate(climb_rate, "rate", "Rate", "speed", inputs, style="vertical_speed"),
        "the climb",
        None,
    )
    assert found.figure is None
    assert found.finding is not None
    assert (
        "within one standard uncertainty of the power, the aircraft does not climb" in found.finding.message
    )
    assert f"on {COUNT} draws of all inputs: from 0.0" in found.finding.message
    assert "35.5 % of the draws: the aircraft does not climb" in found.finding.message.replace("\u00a0", " ")


def test_where_the_estimate_itself_does_not_climb_there_is_nothing_to_draw() -> None:
    inputs = rate(2000.0, 100.0)
    found = attempt(lambda: evaluate(climb_rate, "rate", "Rate", "speed", inputs), "the climb", None)
    assert found.finding is not None
    assert "draws" not in found.finding.message


def test_every_headline_figure_with_an_uncertainty_is_sampled(tmp_path: Path) -> None:
    dossier = draft("9 kW ± 0.4 kW").make(tmp_path)
    for name in (
        "stall_speed_estimate.standard-pack",
        "endurance.standard-pack",
        "polar_climb_rate.standard-pack",
        "least_sink.standard-pack",
    ):
        found = dossier.sampled[name]
        assert found.quantiles is not None
        assert found.quantiles[0] < dossier.figures[name].value < found.quantiles[2]


def test_a_speed_that_the_stall_holds_up_is_not_described_by_a_slope(tmp_path: Path) -> None:
    # the larger of two speeds that are about alike lies above either of them more often than not
    made = draft("9 kW ± 0.4 kW")
    made.aircraft["aerodynamics"]["maximum_lift_coefficient"]["value"] = "1.394 ± 0.08"
    dossier = made.make(tmp_path)
    speed, floor = (
        dossier.figures[f"{name}.standard-pack"] for name in ("minimum_sink_speed", "stall_speed_estimate")
    )
    found = dossier.sampled[speed.name]
    assert abs(speed.value - 1.1 * floor.value) < 0.5 * speed.standard_uncertainty
    assert found.quantiles is not None
    assert found.quantiles[1] > speed.value + 0.1 * speed.standard_uncertainty
    assert not found.first_order_holds


def test_the_same_record_gives_the_same_draws(tmp_path: Path) -> None:
    first, second = (draft("9 kW ± 0.4 kW").make(tmp_path / name) for name in "ab")
    assert first.sampled == second.sampled
    assert [one.draws for one in climbs(first)] == [one.draws for one in climbs(second)]
