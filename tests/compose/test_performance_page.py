"""The page of flight performance, and the claims held against one another on the page of claims."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from packet_reading import composed, made, page_of, read

from dossier.compose import links
from dossier.compose.claim_identities import ORDER, identity_table
from dossier.compose.pages import packet
from dossier.compose.printer import Printer
from dossier.judge.identity import Standing

EVERY = pytest.mark.parametrize(
    ("project", "serial"), [("quillet-e1", "0003"), ("quillet-e1", "0007"), ("barrow-t2", "T2-007")]
)


def text_of(project: str, serial: str, path: str = links.PERFORMANCE) -> str:
    return read(page_of(composed(project, serial), path)).text


@EVERY
def test_the_page_stands_with_weight_and_energy(project: str, serial: str) -> None:
    assert page_of(composed(project, serial), links.PERFORMANCE).group == "Weight and energy"


@EVERY
def test_the_caution_stands_before_the_first_number(project: str, serial: str) -> None:
    text = text_of(project, serial)
    assert 0 < text.index("it does not show that the aircraft is safe") < re.search(r"\d", text).start()  # type: ignore[union-attr]


@EVERY
def test_every_table_says_that_it_is_computed(project: str, serial: str) -> None:
    page = page_of(composed(project, serial), links.PERFORMANCE).text
    captions = re.findall(r"<caption>(.*?)</caption>", page)
    assert captions
    allowed = (
        "computed",
        "Measured in flight tests",
        "What the polar is made of",
        "What the fit rests on",
        "Sink against speed",
    )
    assert [caption for caption in captions if not any(words in caption for words in allowed)] == []


@EVERY
def test_no_cell_holds_what_is_no_number(project: str, serial: str) -> None:
    assert not re.search(r"\b(nan|inf|None|Obstacle|Clamp)\b", text_of(project, serial))


def test_every_headline_leads_to_its_working() -> None:
    reading = read(page_of(composed("quillet-e1", "0003"), links.PERFORMANCE))
    for name in (
        "stall_speed_estimate",
        "least_sink",
        "best_glide_speed",
        "polar_climb_rate",
        "polar_level_power",
    ):
        assert f"working/performance.md#{name}.long-pack" in reading.references


def test_the_stalling_speed_is_called_an_estimate() -> None:
    assert "Stalling speed, estimate 22.76 kt" in text_of("quillet-e1", "0003")


def test_the_working_sheet_says_that_no_verdict_rests_on_the_estimate() -> None:
    assert "No verdict and no claim rests on it" in text_of("quillet-e1", "0003", "working/performance.md")


def test_a_fit_tells_what_it_takes_for_granted_and_from_where() -> None:
    text = text_of("quillet-e1", "0003")
    assert "mass of the aircraft ± 1.0 % usual value of this tool Own judgement" in text
    assert "calibration of the airspeed ± 1.5 % the record of the flight test" in text


def test_a_serial_without_glides_says_that_its_polar_is_the_design() -> None:
    text = text_of("quillet-e1", "0007")
    assert "no glides of this serial were measured" in text
    assert "What the fit rests on" not in text


def test_measured_glides_are_drawn_only_where_there_are_any() -> None:
    assert "Measured glides, reduced" in page_of(composed("quillet-e1", "0003"), links.PERFORMANCE).text
    assert "Measured glides, reduced" not in page_of(composed("quillet-e1", "0007"), links.PERFORMANCE).text


def test_a_speed_that_was_moved_says_so() -> None:
    assert "raised to 1.1 times the stalling speed" in text_of("barrow-t2", "T2-007")


def test_a_climb_beyond_the_battery_is_no_number() -> None:
    assert "more than the battery has 2.95 kWh for 2.88 kWh usable" in text_of("quillet-e1", "0003")


def test_a_climb_longer_than_full_power_is_allowed_says_so() -> None:
    assert "longer than Longest time at full power in one go" in text_of("quillet-e1", "0003")


def test_a_type_without_aerodynamics_has_no_page() -> None:
    without = replace(made("quillet-e1", "0003"), performance=None, figures={
        name: figure for name, figure in made("quillet-e1", "0003").figures.items()
        if name not in {one.name for one in made("quillet-e1", "0003").performance.figures}  # type: ignore[union-attr]
    })  # fmt: skip
    assert links.PERFORMANCE not in [page.path for page in packet(without).pages]


def test_what_is_doubtful_stands_before_what_is_sound() -> None:
    table = identity_table(Printer(made("quillet-e1", "0003"), links.CLAIMS))
    assert table is not None
    words = [one.cells[1].mark.words for one in table.rows if one.cells[1].mark]
    order = [mark.value if mark else "not held" for mark in ORDER]
    assert words == sorted(words, key=order.index)
    assert Standing.DOUBTFUL.value in words


def test_a_doubtful_claim_has_the_number_that_would_be_sound() -> None:
    text = text_of("quillet-e1", "0003", links.CLAIMS)
    assert "190 Wh/kg off by 21 % 230 Wh/kg; sound from 110 Wh/kg to 190 Wh/kg; possible to 265 Wh/kg" in text


def test_sound_is_said_to_mean_no_more_than_no_contradiction() -> None:
    assert "that they do not contradict one another, and no more than that" in text_of(
        "quillet-e1", "0003", links.CLAIMS
    )


def test_a_claim_in_the_table_leads_to_its_reason() -> None:
    reading = read(page_of(composed("quillet-e1", "0003"), links.CLAIMS))
    assert "#specific-energy" in reading.references
    assert "specific-energy" in reading.ids


def test_a_measured_top_speed_stands_in_every_row_that_passes_it() -> None:
    flown = made("quillet-e1", "0003").performance
    assert flown is not None
    assert text_of("quillet-e1", "0003").count("not reached: 49.8 kt measured") == len(flown.climbs)


@pytest.mark.parametrize(
    ("project", "serial", "words"),
    [
        ("quillet-e1", "0003", "155 ft/min ± 12 ft/min (k = 2) at that mass; that is 1 ft/min less"),
        ("barrow-t2", "T2-007", "1.86 m/s ± 0.15 m/s (k = 2) at that mass; that is 0.07 m/s less"),
    ],
)
def test_the_energy_page_says_which_sink_it_uses(project: str, serial: str, words: str) -> None:
    assert words in text_of(project, serial, links.ENERGY).replace("\u00a0", " ")


@EVERY
def test_the_power_of_level_flight_stands_with_both_its_numbers(project: str, serial: str) -> None:
    assert "Power that keeps height with the heaviest pilot, computed in two ways" in text_of(project, serial)


def test_the_runs_of_a_flight_test_stand_with_their_place_and_what_came_of_them() -> None:
    text = text_of("barrow-t2", "T2-007").replace("\u00a0", " ")
    assert "Stalls, calibrated, flight test of 2026-04-11, computed from its readings" in text
    assert (
        "30.1 mph ± 1.2 mph (k = 2) indicated 32.0 mph serials/T2-007/evidence/stall-2026-04-11.csv:2:25"
        in text
    )
    assert "standard deviation of a run 0.44 mph" in text


def test_the_run_is_called_guidance_and_no_distance() -> None:
    text = text_of("barrow-t2", "T2-007")
    assert "An estimate for guidance, and no take-off distance" in text
    assert "rolling friction 0.05 ± 0.02: Short dry grass" in text


def test_a_type_without_take_off_has_no_run_on_its_page() -> None:
    assert "Take-off run" not in text_of("quillet-e1", "0003")


@EVERY
def test_power_air_pilots_and_two_masses_stand_on_the_page(project: str, serial: str) -> None:
    text = text_of(project, serial)
    for words in (
        "Power of level flight against speed",
        "Density altitude and true airspeed",
        "Climb and top speed, lightest and heaviest pilot",
        "Speed of the longest level flight (best endurance)",
        "The thin lines are the same polar at",
    ):
        assert words in text
