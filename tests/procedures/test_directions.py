"""The way in which words have a control go, against rigging.yaml, and rigging.yaml against what controls
commonly do."""

from __future__ import annotations

from pathlib import Path

import pytest

from dossier.model.movement import OPPOSITE, Movement
from dossier.procedures.rules.directions import Said, said
from dossier.project import load
from dossier.references import rigging_ways
from procedures.workbench import MODEL, RIG, Edit, findings

PROJECTS = Path(__file__).resolve().parents[2] / "projects"

# 14 CFR 23.779 (Amdt. 23-51), read in a reprint: right for the right wing down, rearward for nose up, right
# pedal
# forward for nose right, speed brakes aft to extend. A wing goes down as its aileron goes up, the nose as the
# elevator does.
AEROPLANE = {
    ("stick", "right", "right aileron"): "up",
    ("stick", "right", "left aileron"): "down",
    ("stick", "back", "elevator"): "up",
    ("pedal", "right", "rudder"): "right",
    ("airbrake lever", "back", "airbrake"): "out",
}
# Weight shift: the wing hangs above the bar, so that pushing the bar to one side turns the wing to the other,
# and pushing it out
# raises the nose; the nose wheel follows the feet like a bicycle. Common practice, no source.
WEIGHT_SHIFT = {
    ("bar", "right", "left tip"): "down",
    ("bar", "forward", "nose"): "up",
    ("foot", "left", "wheel"): "right",
}


def movement(control: str, moves: str, surface: str, goes: str) -> Movement:
    return Movement.model_construct(control=control, moves=moves, surface=surface, goes=goes)


WAYS = (
    movement("stick", "left", "left aileron", "up"),
    movement("stick", "left", "right aileron", "down"),
    movement("stick", "back", "elevator", "up"),
    movement("pedal", "left", "rudder", "left"),
    movement("airbrake lever", "forward", "airbrake", "in"),
    movement("foot", "left", "wheel", "right"),
)


def told(*texts: str) -> list[Said]:
    return [found for _, found in said(texts, WAYS, WAYS)]


RIGHT = [
    ("Move the stick fully left.", "The left aileron is up and the right aileron is down."),
    ("Move the stick to the right.", "The right aileron rises, the left aileron drops."),
    ("Move the stick fully left.", 'The second person says "left up, right down".'),
    ("Move the stick fully back.", "The trailing edge of the elevator is up."),
    ("Push the stick all the way forward.", "Elevator down."),
    ("Push the left pedal fully forward.", "The rudder turns to the left."),
    ("Pedals right.", "Rudder right."),
    ("Left foot forward turns the wheel to the right.",),
    ("Stick left: left aileron up, right down. Stick back: elevator up. Left pedal: rudder left.",),
    ("Left stick raises the left aileron, back stick raises the elevator, left pedal has the rudder left.",),
    (
        "Push the airbrake lever forward until it goes over centre.",
        "The lever snaps over, and both airbrakes lie flush.",
    ),
    ("Pull the airbrake lever back.", "Both airbrakes rise."),
]


@pytest.mark.parametrize("texts", RIGHT, ids=lambda texts: texts[-1])
def test_words_that_say_what_the_model_has_are_read_and_left_alone(texts: tuple[str, ...]) -> None:
    found = told(*texts)
    assert found
    assert not any(one.is_wrong for one in found)


def against(text: str) -> str:
    """Turn what follows the control round, and the sides of what is meant alone."""
    words = {
        "up": "down",
        "down": "up",
        "rises": "drops",
        "drops": "rises",
        "rise": "sink",
        "raises": "lowers",
        "flush": "open",
    }
    return " ".join(
        words.get(word.strip('.,"'), word.strip('.,"')) + word[len(word.rstrip('.,"')) :]
        for word in text.split(" ")
    )


@pytest.mark.parametrize(
    "texts", [one for one in RIGHT if against(one[-1]) != one[-1]], ids=lambda texts: texts[-1]
)
def test_words_turned_round_are_wrong(texts: tuple[str, ...]) -> None:
    assert any(one.is_wrong for one in told(*texts[:-1], against(texts[-1])))


@pytest.mark.parametrize(
    "texts",
    [
        (
            "Move the stick fully left.",
            "The rudder turns to the right.",
        ),  # nothing is known of stick and rudder
        (
            "Press the stick left and right while the second person holds the left aileron.",
            "Up and down it drives.",
        ),
        ("Move the stick fully left.", "The left aileron does not go down."),
        ("Hold the left aileron down.",),
    ],
    ids=lambda texts: texts[-1],
)
def test_words_that_say_nothing_of_a_known_direction_are_not_judged(texts: tuple[str, ...]) -> None:
    assert not any(one.is_wrong for one in told(*texts))


@pytest.mark.parametrize(
    ("project", "facts"),
    [("quillet-e1", AEROPLANE), ("barrow-t2", WEIGHT_SHIFT)],
    ids=["aeroplane", "weight shift"],
)
def test_the_controls_of_a_demonstration_go_as_controls_go(
    project: str, facts: dict[tuple[str, str, str], str]
) -> None:
    rigging = load(PROJECTS / project, ()).rigging
    assert rigging is not None
    ways = [
        way for group in (rigging.connections, rigging.checks) for one in group.values() for way in one.ways
    ]
    shown = {(str(one.control), str(one.moves), str(one.surface)): str(one.goes) for one in ways}
    shown |= {
        (control, OPPOSITE[moves], surface): OPPOSITE[goes]
        for (control, moves, surface), goes in shown.items()
    }
    assert {key: shown.get(key) for key in facts} == facts
    assert list(rigging_ways.check(load(PROJECTS / project, ()))) == []


WAY = "    ways: [{control: stick, moves: left, surface: left aileron, goes: up}]\n"


def messages(folder: Path, *edits: Edit) -> str:
    return "\n".join(finding.message for finding in findings(folder, *edits))


def test_a_control_whose_directions_are_not_in_the_model_is_told(tmp_path: Path) -> None:
    assert "'Aileron connector' is a manual control, and nothing says which way it goes" in messages(
        tmp_path, Edit(MODEL, WAY, "")
    )


def test_a_model_that_has_a_common_control_the_other_way_round_is_told(tmp_path: Path) -> None:
    told_of = messages(tmp_path, Edit(MODEL, WAY, WAY.replace("goes: up", "goes: down")))
    assert "the left aileron goes down with the stick left; by 14 CFR 23.779 it goes up" in told_of


def test_a_model_that_has_a_surface_go_the_same_way_both_times_is_told(tmp_path: Path) -> None:
    both = WAY.replace("}]", "}, {control: stick, moves: right, surface: left aileron, goes: up}]")
    assert "goes up with the stick left and right: both cannot be" in messages(
        tmp_path, Edit(MODEL, WAY, both)
    )


@pytest.mark.parametrize("key", ["expect", "second_check", "on_card"])
def test_a_direction_turned_round_is_told_wherever_it_stands(key: str, tmp_path: Path) -> None:
    step = "      - do: Move the stick left.\n        expect: Left up.\n"
    step += "        second_check: Ben says which way.\n"
    spoiled = {
        "expect": step.replace("Left up.", "Left down."),
        "second_check": step.replace("Ben says which way.", 'Ben says "left down".'),
        "on_card": step + "        on_card: {do: Stick left., second_check: Left down.}\n",
    }
    codes = {finding.code for finding in findings(tmp_path, Edit(RIG, step, spoiled[key]))}
    assert "V106" in codes


def test_a_sense_check_that_tells_no_direction_of_its_own_surface_is_told(tmp_path: Path) -> None:
    edit = Edit(RIG, "        expect: Left up.\n", "        expect: It goes the right way.\n")
    assert "V034" in {finding.code for finding in findings(tmp_path, edit)}
