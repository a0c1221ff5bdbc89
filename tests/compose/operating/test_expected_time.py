"""How long a list takes and who signs it, in words on its page and card."""

from __future__ import annotations

import pytest
from demonstration import quillet, with_procedures
from page_reading import read

from dossier.compose import assembly
from dossier.compose.operating.cards import page as card_page
from dossier.compose.operating.expected_time import expected_time, minutes
from dossier.compose.operating.lists import List, lists
from dossier.compose.operating.procedure_pages import page, signatures
from dossier.quantities import parse


def spaced(text: str) -> str:
    """With plain spaces for those that keep a number and its unit on one line."""
    return text.replace("\u00a0", " ")


def timed(times: tuple[str | None, ...], duration: str | None, people: int = 2) -> tuple[List, object]:
    dossier = quillet()
    old = dossier.project.procedures["rigging-2-tail"]
    step = old.sections[0].steps[0]
    steps = [step.model_copy(update={"time": parse(time, "time") if time else None}) for time in times]
    section = old.sections[0].model_copy(update={"steps": steps})
    changed = old.model_copy(
        update={
            "sections": [section],
            "people": people,
            "duration": parse(duration, "time") if duration else None,
        }
    )
    (one,) = lists(with_procedures(dossier, rigging=changed))
    return one, dossier.preference


@pytest.mark.parametrize(("times", "duration", "first", "note"), [
    (("10 min", "15 min"), None, "about 25 min with two people", ""),
    (("10 min", None), None, "", "1 of 2 steps state a time, together 10 min"),
    (("10 min", "15 min"), "30 min", "about 30 min with two people",
     "the times of its steps add up to 25 min"),
    ((None, "90 s"), "30 min", "about 30 min with two people", "1 of 2 steps state a time, together 2 min"),
    ((None, None), None, "", ""),
])  # fmt: skip
def test_times_of_steps_are_added_up(times, duration, first, note) -> None:
    said = expected_time(*timed(times, duration))
    assert (spaced(said.first), spaced(said.note)) == (first, note)


def test_one_person_is_no_people() -> None:
    assert spaced(expected_time(*timed(("10 min",), None, people=1)).first) == "about 10 min with one person"


@pytest.mark.parametrize(("seconds", "words"), [(20, "1 min"), (7140, "119 min"), (7200, "2.0 h")])
def test_a_time_is_printed_as_a_crew_says_it(seconds: float, words: str) -> None:
    assert spaced(minutes(seconds)) == words


def test_the_page_and_the_card_of_a_timed_list_say_how_long_it_takes() -> None:
    dossier = quillet()
    (one,) = (one for one in lists(dossier) if one.name == "after-flight")
    assert "the times of its steps add up to 9 min" in spaced(read(page(dossier, one)).text)
    assert "About 10 min with two people." in spaced(read(card_page(dossier, one)).text)


def test_whoever_the_list_names_signs_it_and_nobody_else() -> None:
    dossier = quillet()
    (one,) = (one for one in lists(dossier) if one.name == "inspection-yearly")
    assert signatures(one) == ("Builder or trained person", "Independent inspector")


def test_whoever_signs_one_step_has_a_line_of_his_own() -> None:
    dossier = quillet()
    old = dossier.project.procedures["rigging-2-tail"]
    step = old.sections[0].steps[0].model_copy(update={"signs": "Owner of the field"})
    section = old.sections[0].model_copy(update={"steps": [step]})
    (one,) = lists(with_procedures(dossier, rigging=old.model_copy(update={"sections": [section]})))
    assert signatures(one)[-1] == "Owner of the field"
    assert "Signs: Owner of the field" in read(page(dossier, one)).text


def test_a_stage_of_the_assembly_says_how_long_it_takes() -> None:
    assert "Expected: about 8.8 h." in spaced(read(assembly.pages(quillet())[0]).text)
