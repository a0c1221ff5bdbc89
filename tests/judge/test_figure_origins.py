"""What is said of a figure that a serial does not have: what would give it, or which name is meant."""

from __future__ import annotations

from dataclasses import replace

import pytest
from demos import demo

from dossier.dossier import Dossier
from dossier.judge.figure_origins import MEASURED_BY, meant, needs_weighing, why_missing
from dossier.model.events import Weighing
from dossier.pipeline import make

UNWEIGHED = ("cells.long-pack", "capacity.long-pack", "pack_mass.long-pack", "maximum_power")
WEIGHED = (*UNWEIGHED, "empty_mass", "empty_cg", "endurance.long-pack", "level_power.long-pack")


def kinds(dossier: Dossier) -> set[str]:
    """The names of the figures, as far as they say what is measured."""
    return {name.partition(".")[0] for name in dossier.figures}


def never_weighed(dossier: Dossier) -> Dossier:
    """Make the same serial on the same day without any of its weighings."""
    number = str(dossier.record.serial_number)
    events = [event for event in dossier.record.events if not isinstance(event, Weighing)]
    record = dossier.record.model_copy(update={"events": events})
    return make(replace(dossier.project, serials={number: record}), number, dossier.state.as_of)


@pytest.mark.parametrize(("project", "serial"), [("quillet-e1", "0003"), ("barrow-t2", "T2-007")])
def test_the_figures_that_need_a_weighing_are_those_that_go_with_it(project: str, serial: str) -> None:
    weighed = demo(project)[serial]
    without = kinds(never_weighed(weighed))
    assert {kind for kind in without if needs_weighing(kind) and not kind.startswith("energy_")} == set()
    assert {kind for kind in kinds(weighed) - without if not needs_weighing(kind)} == set()


@pytest.mark.parametrize(
    "name",
    ["endurance.long-pack", "useful_load", "loaded_mass.long-pack.heaviest", "climb_rate_circuit.long-pack"],
)
def test_a_figure_of_the_weighed_aircraft_asks_for_a_weighing(name: str) -> None:
    what, remedy = why_missing(name, UNWEIGHED)
    assert what == "a figure that exists only once the aircraft is weighed"
    assert remedy == "add an event of kind weighing"


def test_a_figure_that_a_weighed_aircraft_does_not_have_could_not_be_computed() -> None:
    what, remedy = why_missing("useful_load", WEIGHED)
    assert what == "a figure that could not be computed for this serial"
    assert "the other findings" in remedy


def test_a_figure_that_is_there_without_a_weighing_does_not_ask_for_one() -> None:
    what, remedy = why_missing("energy_density.longpack", (*UNWEIGHED, "energy_density.long-pack"))
    assert what == "a figure that this serial does not have"
    assert remedy.startswith("did you mean 'energy_density.long-pack'?")


@pytest.mark.parametrize("name", sorted(MEASURED_BY)[2:])
def test_a_figure_of_a_flight_test_names_the_test(name: str) -> None:
    assert why_missing(name, WEIGHED)[1] == f"{MEASURED_BY[name]} would give it"


@pytest.mark.parametrize(
    ("written", "figures", "right"),
    [
        ("endurance.longpack", WEIGHED, "endurance.long-pack"),
        ("endurence.long-pack", WEIGHED, "endurance.long-pack"),
        ("endurence.long-pack", UNWEIGHED, "endurance.long-pack"),
        ("usefull_load", UNWEIGHED, "useful_load"),
        ("emty_mass", WEIGHED, "empty_mass"),
        ("cell.long-pack", WEIGHED, "cells.long-pack"),
    ],
)
def test_the_name_that_is_meant_is_alike_before_its_dot(
    written: str, figures: tuple[str, ...], right: str
) -> None:
    assert meant(written, figures) == right


@pytest.mark.parametrize("written", ["xyz", "price.long-pack", ""])
def test_a_name_like_no_figure_gets_no_guess_from_the_name_of_its_battery(written: str) -> None:
    assert meant(written, WEIGHED) is None
    assert "did you mean" not in why_missing(written, WEIGHED)[1]
