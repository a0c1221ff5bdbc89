"""Copies of a demonstration project, each spoiled as a builder in a hurry might: every one is noticed."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from dossier.findings import Rejected
from dossier.model.procedure import Procedure
from dossier.model.validation import validate
from dossier.procedures.system import System
from dossier.procedures.verify import listings, titles_of, variant_faults
from dossier.project import Project, load
from dossier.read.yaml_text import read_yaml

PROJECT = Path(__file__).resolve().parents[2] / "projects" / "quillet-e1"
Spoil = Callable[[Path], None]


def replaced(old: str, new: str) -> Spoil:
    """Replace a text in the one list that has it."""

    def spoil(folder: Path) -> None:
        holding = [
            path for path in sorted(folder.glob("procedures/*.yaml")) if old in path.read_text("utf-8")
        ]
        assert holding, f"no list holds {old!r}"
        text = holding[0].read_text("utf-8")
        holding[0].write_text(text.replace(old, new, 1), "utf-8")

    return spoil


def without_remedies(folder: Path) -> None:
    path = folder / "procedures" / "preflight.yaml"
    path.write_text(re.sub(r" {8}if_not: .*\n", "", path.read_text("utf-8")), "utf-8")


def without_step(name: str, words: str) -> Spoil:
    """Delete the one step of a list that begins with some words."""

    def spoil(folder: Path) -> None:
        path = folder / "procedures" / f"{name}.yaml"
        text, deleted = re.subn(
            rf"      - do: {re.escape(words)}.*\n(?: {{8}}.*\n)+", "", path.read_text("utf-8")
        )
        assert deleted == 1, f"{name} has {deleted} steps {words!r}"
        path.write_text(text, "utf-8")

    return spoil


def later(name: str, words: str, before: str) -> Spoil:
    """Move the one step of a list that begins with some words to just before another one."""

    def spoil(folder: Path) -> None:
        path = folder / "procedures" / f"{name}.yaml"
        text = path.read_text("utf-8")
        (step,) = re.findall(rf"      - do: {re.escape(words)}.*\n(?: {{8}}.*\n)+", text)
        without = text.replace(step, "", 1)
        assert without.count(f"      - do: {before}") == 1, f"not one step {before!r}"
        path.write_text(without.replace(f"      - do: {before}", f"{step}      - do: {before}"), "utf-8")

    return spoil


TORQUE = "Torque at {} in-lb or more, and a slot in line with the hole at {} in-lb or less."
WIND = "{{{}}} or less with gusts, and {{{}}} or less across."
SPOILED: dict[str, tuple[Spoil, str]] = {
    "another torque in the words than under torque": (
        replaced(TORQUE.format(30, 40), TORQUE.format(50, 70)),
        "V082",
    ),
    "a reading without its limit": (
        replaced('"{cell_voltage_spread} or less."\n', "The cells look even.\n"),
        "V108",
    ),
    "ailerons that go the other way": (
        replaced(
            "The left aileron is up and the right aileron is down.",
            "The left aileron is down and the right aileron is up.",
        ),
        "V106",
    ),
    "an elevator that goes the other way": (
        replaced("The trailing edge of the elevator is up.", "The trailing edge of the elevator is down."),
        "V106",
    ),
    "a rudder that goes the other way": (
        replaced("The rudder turns to the left.", "The rudder turns to the right."),
        "V106",
    ),
    "no remedy in the whole preflight": (without_remedies, "V107"),
    "wind and crosswind exchanged": (
        replaced(
            WIND.format("maximum_wind", "maximum_crosswind"), WIND.format("maximum_crosswind", "maximum_wind")
        ),
        "V109",
    ),
    "the wind for flight in a list of rigging": (
        replaced('expect: "{maximum_rigging_wind} or less, gusts', 'expect: "{maximum_wind} or less, gusts'),
        "V109",
    ),
    "the never-exceed speed where the wind is read": (
        replaced(
            'expect: "{maximum_rigging_wind} or less, gusts', 'expect: "{never_exceed_speed} or less, gusts'
        ),
        "V109",
    ),
    "airbrakes that go the other way in the preflight": (
        replaced("Airbrake lever back: both airbrakes rise", "Airbrake lever back: both airbrakes sink"),
        "V106",
    ),
    "a second check that says the other way": (
        replaced('says "left up, right down"', 'says "left down, right up"'),
        "V106",
    ),
    "a pod on its wheel without its props": (without_step("rigging-1-wings", "Hook a prop"), "V010"),
    "props that are hooked in when a panel is carried already": (
        later("rigging-1-wings", "Hook a prop", "Slide the left spar stub"),
        "V010",
    ),
    "props that come off before the left wing is secured": (
        later("rigging-1-wings", "Unhook both pod props", "Fit the safety pin of the left main pin"),
        "V010",
    ),
    "props left on the pod when the wings are joined": (
        without_step("rigging-1-wings", "Unhook both pod props"),
        "V022",
    ),
    "the left panel off a pod without its props": (
        without_step("de-rigging-3-wings", "Hook a prop"),
        "V010",
    ),
    "the pod in the trailer with its props on": (
        without_step("de-rigging-3-wings", "Unhook both pod props"),
        "V010",
    ),
    "a tail lifted before anybody saw the blades tied": (
        later("rigging-1-wings", "Look at the red strap", "Open the battery hatch."),
        "V010",
    ),
    "a power connector that is opened without a look at key and display": (
        without_step("de-rigging-1-battery", "Look at the start key, the red disconnect"),
        "V010",
    ),
    "tools counted when the hatch is closed again": (
        later("de-rigging-1-battery", "Count the tool roll aloud once more.", "Write date"),
        "V010",
    ),
}


@cache
def as_it_is() -> Project:
    return load(PROJECT, ())


def codes(folder: Path) -> set[str]:
    """Return what is told of the lists of a copy with everything fitted; only lists that were changed are
    read anew."""
    written = as_it_is().procedures
    texts = {path.stem: (path.read_text("utf-8"), path) for path in sorted(folder.glob("procedures/*.yaml"))}
    changed = {
        stem: validate(Procedure, read_yaml(path, f"procedures/{path.name}"))
        for stem, (text, path) in texts.items()
        if text != (PROJECT / "procedures" / path.name).read_text("utf-8")
    }
    project = replace(as_it_is(), procedures={**written, **changed})
    assert project.rigging is not None
    heaviest = project.battery.heaviest
    system = System(project.rigging, project.aircraft, project.battery, frozenset(), heaviest)
    lists = listings(project, project.rigging, frozenset(), heaviest)
    return {
        fault.finding.code for fault in variant_faults(system, lists, titles_of(project.procedures.values()))
    }


def copied(folder: Path) -> Path:
    shutil.copytree(PROJECT, folder / "copy", ignore=shutil.ignore_patterns("serials"))
    (folder / "copy" / "serials").mkdir()
    return folder / "copy"


@pytest.mark.parametrize("name", SPOILED)
def test_a_spoiled_copy_is_told(name: str, tmp_path: Path) -> None:
    spoil, code = SPOILED[name]
    folder = copied(tmp_path)
    spoil(folder)
    assert code in codes(folder)


def test_the_copy_as_it_is_has_nothing_to_tell(tmp_path: Path) -> None:
    assert codes(copied(tmp_path)) == set()


def test_a_step_whose_picture_is_not_there_is_refused(tmp_path: Path) -> None:
    folder = copied(tmp_path)
    replaced("pictures/castle-nut.png", "pictures/castle-nut-2.png")(folder)
    with pytest.raises(Rejected) as refused:
        load(folder, ())
    assert any("castle-nut-2.png" in str(finding) for finding in refused.value.findings)
