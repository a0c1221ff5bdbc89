"""Components as designed, as built, as maintained."""

from __future__ import annotations

from collections.abc import Mapping

from demos import demo

from dossier.results.components import Component, components


def of(project: str, serial: str) -> Mapping[str, Component]:
    dossier = demo(project)[serial]
    made = components(dossier.project.aircraft.items, dossier.record, dossier.state)
    return {one.name or one.label: one for one in made}


def test_every_item_of_the_type_has_its_line() -> None:
    dossier = demo("quillet-e1")["0003"]
    assert list(dossier.project.aircraft.items) == [
        name for name, one in of("quillet-e1", "0003").items() if one.name
    ]


def test_an_optional_item_left_out_and_fitted_later_differs_in_all_states() -> None:
    radio = of("quillet-e1", "0002")["radio"]
    assert (radio.designed, radio.built, radio.maintained) == ("optional", "left out", "fitted")
    assert radio.explained == ("Optional, left out when built", "2026-05-16: fitted")


def test_an_item_taken_out_later_was_built_in() -> None:
    skid = of("quillet-e1", "0005")["tail-skid"]
    assert (skid.designed, skid.built, skid.maintained) == ("in every aircraft", "fitted", "removed")


def test_equipment_outside_the_list_of_the_type_has_a_line_of_its_own() -> None:
    wheel = of("quillet-e1", "0005")["Tail wheel with fork"]
    assert (wheel.designed, wheel.built, wheel.maintained) == ("not listed", "not listed", "fitted")
    assert wheel.differs


def test_an_untouched_component_does_not_differ() -> None:
    motor = of("quillet-e1", "0003")["motor"]
    assert not motor.differs
    assert motor.number == "FM11-103"


def test_what_was_left_out_for_good_says_so_in_both_states() -> None:
    parachute = of("barrow-t2", "T2-007")["parachute"]
    assert (parachute.built, parachute.maintained, parachute.number) == ("left out", "left out", "")
