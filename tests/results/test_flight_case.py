"""What a cruise has to leave so that a go-around can be flown: its energy, and its power when cold."""

from __future__ import annotations

from itertools import pairwise

import pytest
from demos import demo
from hypothesis import given, settings
from hypothesis import strategies as st

from dossier.compute.mission import fly
from dossier.compute.mission_plan import Conditions, MissionPhase
from dossier.results.flight_case import Condition, FlightCase

WARM, NEAR_FREEZING = 298.15, 278.15


def cases() -> tuple[FlightCase, ...]:
    return demo("quillet-e1")["0003"].modelled.cases


def long_pack() -> FlightCase:
    return next(case for case in cases() if case.flight.option == "long-pack")


def test_when_warm_and_new_the_energy_decides() -> None:
    assert long_pack().floor(Condition(1.0)).decided_by == ""


def test_when_cold_and_old_the_power_of_the_go_around_decides_and_more_is_left() -> None:
    case = long_pack()
    cold = case.floor(Condition(0.9, 1.5, NEAR_FREEZING))
    assert cold.decided_by == "Go-around"
    assert cold.charge > case.floor(Condition(0.9, 1.5, WARM)).charge


def test_a_go_around_begun_at_the_floor_is_flown_to_its_end() -> None:
    # the stepped flight knows nothing of the floor: voltage, current and power are its own limits
    case, at = long_pack(), Condition(0.9, 1.5, NEAR_FREEZING)
    (row,) = (one for one in case.later if one.power > 0)
    cells = case.model.shape.cells

    def flown(start: float) -> float:
        done = fly(
            case.model.circuit,
            [MissionPhase(row.name, row.power / cells, row.duration)],
            Conditions(
                start=start,
                temperature=at.temperature,
                growth=at.growth,
                health=at.health,
                wiring=case.model.shape.wiring_at_cell,
            ),
        )
        return float(done.computed["time"][0])

    assert flown(case.floor(at).charge) == pytest.approx(row.duration)
    assert flown(case.floor(at).charge - 0.25) < row.duration


def test_a_power_that_is_never_given_is_refused_by_name() -> None:
    assert long_pack().floor(Condition(0.8, 4.0, 263.15)).refused == (
        "the battery cannot give the power of the phase Go-around"
    )


@settings(max_examples=40, deadline=None)
@given(st.floats(0.85, 1.0), st.floats(1.0, 1.3), st.floats(0.0, 12.0))
def test_colder_or_older_never_leaves_less(health: float, growth: float, colder: float) -> None:
    case = long_pack()
    base = case.floor(Condition(health, growth, WARM))
    assert case.floor(Condition(health, growth, WARM - colder)).charge >= base.charge - 1e-9
    assert case.floor(Condition(health, growth * 1.1, WARM)).charge >= base.charge - 1e-9


@pytest.mark.parametrize(("project", "serial"), [("quillet-e1", "0003"), ("barrow-t2", "T2-007")])
def test_no_colder_column_promises_more_and_what_is_refused_stays_refused(project: str, serial: str) -> None:
    rows = demo(project)[serial].modelled.outlooks
    assert rows
    for row in rows:
        for warmer, colder in pairwise(row.lasts):
            if warmer.shortest is None:
                assert colder.shortest is None
            elif colder.shortest is not None:
                assert colder.shortest <= warmer.shortest
                assert (colder.longest or colder.shortest) <= (warmer.longest or warmer.shortest)


@pytest.mark.parametrize(("project", "serial"), [("quillet-e1", "0003"), ("barrow-t2", "T2-007")])
def test_a_flight_that_the_table_refuses_has_no_time_beside_the_energy(project: str, serial: str) -> None:
    modelled = demo(project)[serial].modelled
    refused = {
        id(row.flight)
        for row in modelled.outlooks
        if row.age.health is None and row.lasts[0].shortest is None
    }
    assert not refused & {id(one.flight) for one in modelled.flights}
    assert len(refused) + len(modelled.flights) == len(modelled.cases)
