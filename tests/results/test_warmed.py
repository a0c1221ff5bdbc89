"""The heat of a flight carried from phase to phase, in cells that nothing cools."""

from __future__ import annotations

import pytest
from demos import demo

from dossier.compose import links
from dossier.compose.phases_flown import heat_parts
from dossier.compose.printer import Printer
from dossier.compute.cell_resistance import TEMPERATURES, WARM
from dossier.results.heat import DOUBT, SPECIFIC_HEAT, Heat
from dossier.results.phases_flown import PhasesFlown
from dossier.results.warmed import warmed

SERIAL = "T2-007"
HOT = TEMPERATURES[1]


@pytest.fixture(scope="module")
def flown() -> PhasesFlown:
    made = demo("barrow-t2")[SERIAL].modelled
    return next(one for one in made.phases if one.figures)


@pytest.fixture(scope="module")
def heat() -> Heat:
    return demo("barrow-t2")[SERIAL].modelled.heats[0]


def test_heat_that_is_carried_along_never_cools_a_cell(flown: PhasesFlown) -> None:
    ends = [one for one in warmed(flown, SPECIFIC_HEAT, DOUBT) if one is not None]
    assert len(ends) == len(flown.rows)
    for side in (0, 1):
        rising = [HOT if one[side] is None else one[side] for one in ends]
        assert rising == sorted(rising)
        assert rising[0] > WARM
    assert all(low is not None and (high is None or low < high) for low, high in ends)


def test_cells_that_take_endless_heat_stay_at_25_degrees(flown: PhasesFlown) -> None:
    for ends in warmed(flown, (1e12, 1e12), 0.0):
        assert ends == pytest.approx((WARM, WARM), abs=1e-6)


def test_the_rise_is_the_heat_over_what_the_cells_take_where_the_resistance_hardly_changes(
    flown: PhasesFlown,
) -> None:
    # E = m c dT, with cells of a hundred times the usual specific heat, so that they stay nearly as they are
    model, c = flown.case.model, 1e5
    by_hand = sum(row.heat for row in flown.rows) / (model.shape.cells * model.cell.mass.value * c)
    last = warmed(flown, (c, c), 0.0)[-1]
    assert last is not None
    assert last[0] is not None
    assert last[0] - WARM == pytest.approx(by_hand, rel=0.02)


def test_warmer_cells_resist_less_and_make_less_heat(flown: PhasesFlown) -> None:
    model, c = flown.case.model, 950.0
    at_25 = sum(row.heat for row in flown.rows) / (model.shape.cells * model.cell.mass.value * c)
    last = warmed(flown, (c, c), 0.0)[-1]
    assert last is not None
    assert last[0] is not None
    assert 0.5 * at_25 < last[0] - WARM < 0.9 * at_25


def test_cells_too_hot_for_the_law_of_the_resistance_get_no_number(flown: PhasesFlown) -> None:
    first, *_, last = warmed(flown, (200.0, 1e12), 0.0)
    assert first is not None
    assert last is not None
    assert first[1] is not None
    assert last[1] is None


def test_the_page_says_above_which_temperature_the_cells_end(heat: Heat) -> None:
    made = demo("barrow-t2")[SERIAL]
    (part,) = heat_parts(Printer(made, links.ENERGY))
    assert heat.rows[-1].ends_at is not None
    assert part.table.rows[-1].cells[-1].text.endswith("to above 60\u00a0°C")
