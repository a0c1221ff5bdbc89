"""What a poor model or record says is told: a side without its twin, a part that no trailer knows, a check
of a control on what is none, a drawing that is not the designed one."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from dossier.findings import Finding
from dossier.judge.rule_sets import known_rule_sets
from dossier.project import Project, load
from dossier.references import check
from dossier.replay import default_date, replay
from dossier.results.assembly_drawings import drawing_problems
from dossier.results.components import components

QUILLET = Path(__file__).parents[2] / "projects" / "quillet-e1"
RECORD = "serials/0003/record.yaml"
Loaded = Callable[..., Project]


@pytest.fixture
def loaded(tmp_path: Path) -> Loaded:
    """Write the Quillet with edits, each a file, a text in it and what takes its place, and read it."""

    def load_with(*edits: tuple[str, str, str]) -> Project:
        folder = tmp_path / "quillet"
        shutil.copytree(QUILLET, folder, ignore=shutil.ignore_patterns("000[24567]"))
        for file, old, new in edits:
            text = (folder / file).read_text("utf-8")
            assert old in text, f"{file} does not hold {old!r}"
            (folder / file).write_text(text.replace(old, new), "utf-8")
        return load(folder, ["0003"])

    return load_with


def told(project: Project, code: str) -> list[Finding]:
    return [one for one in check(project, known_rule_sets()) if one.code == code]


def between(file: str, start: str, end: str) -> str:
    text = (QUILLET / file).read_text("utf-8")
    return text[text.index(start) : text.index(end, text.index(start))]


def test_a_left_joint_whose_right_one_is_gone_from_the_model_is_told(loaded: Loaded) -> None:
    gone = between("rigging.yaml", "  airbrake-right:\n", "  tailplane-joint:\n")
    found = told(loaded(("rigging.yaml", gone, "")), "V006")
    assert [one.message for one in found] == [
        (
            "'Left airbrake coupling' stands for one side, and nothing is called 'airbrake-right' or "
            "'Right airbrake coupling'"
        )
    ]


def test_the_quillet_as_it_is_has_both_sides_of_everything_and_all_its_parts_packed(loaded: Loaded) -> None:
    project = loaded()
    assert [told(project, code) for code in ("V006", "V007", "V064", "V065", "A020")] == [[], [], [], [], []]


def test_a_positive_check_of_a_structural_pin_is_refused(loaded: Loaded) -> None:
    start = "    name: Left aileron connector\n    kind: "
    found = told(loaded(("rigging.yaml", f"{start}manual control", f"{start}structural pin")), "V002")
    assert {one.message.split(",")[0] for one in found} == {
        "'positive_check' cannot be done to 'aileron-left'",
        "'sense' cannot be done to 'aileron-left'",
    }


def test_a_wing_that_is_not_packed_is_told(loaded: Loaded) -> None:
    line = between("trailer.yaml", "  wing-right:", "  fuselage:")
    found = told(loaded(("trailer.yaml", line, "")), "V065")
    assert [one.message for one in found] == [
        "the part 'Right wing panel' of rigging.yaml is not packed in trailer.yaml"
    ]


def test_a_part_that_travels_elsewhere_need_not_be_packed(loaded: Loaded) -> None:
    line = between("trailer.yaml", "  wing-right:", "  fuselage:")
    elsewhere = ("trailer.yaml", "parts:\n", 'elsewhere: {wing-right: "On a second trailer"}\nparts:\n')
    assert told(loaded(("trailer.yaml", line, ""), elsewhere), "V065") == []


def test_a_serial_built_to_other_drawings_than_the_type_is_told(loaded: Loaded) -> None:
    project = loaded((RECORD, "design_revision: QE1-D4", "design_revision: QE1-D1"))
    assert [one.message for one in told(project, "A020")] == [
        "this serial stands at the drawings 'QE1-D1', and aircraft.yaml describes 'QE1-D4'"
    ]


def test_a_serial_that_was_brought_to_the_drawings_of_the_type_is_left_alone(loaded: Loaded) -> None:
    brought = "design_revision: QE1-D1\n  brought_to: {revision: QE1-D4, date: 2026-01-10}"
    assert told(loaded((RECORD, "design_revision: QE1-D4", brought)), "A020") == []


OTHER_WING = (
    RECORD,
    "wing-left: {part_number: QE1-10-100, issue: D,",
    "wing-left: {part_number: QE1-10-100, issue: B,",
)
UNDER_CONCESSION = (OTHER_WING[0], OTHER_WING[1], OTHER_WING[2] + " concession: NC-9,")
ACCEPTED = (
    RECORD,
    "\nfitted:\n",
    (
        "\nnonconformities:\n  - {number: NC-9, found: 2026-01-05, description: Rib of issue B, "
        "disposition: accepted, reason: Same strength, decided_by: Tamsin Orrel, closed: 2026-01-06}\n\n"
        "fitted:\n"
    ),
)


def problems(project: Project) -> list[str]:
    record = project.serials["0003"]
    state = replay(record, project.battery.options, default_date(record))
    return [one.message for one in drawing_problems(record, state, project.aircraft.items)]


def test_a_component_of_another_issue_than_designed_is_told(loaded: Loaded) -> None:
    assert problems(loaded(OTHER_WING)) == [
        "'Wing panel, left' is issue B and issue D as designed, and no concession accepts it"
    ]


def test_a_concession_that_the_record_closed_as_accepted_lets_it_differ(loaded: Loaded) -> None:
    assert problems(loaded(UNDER_CONCESSION, ACCEPTED)) == []


def test_a_concession_that_nobody_decided_accepts_nothing(loaded: Loaded) -> None:
    assert len(problems(loaded(UNDER_CONCESSION))) == 1


def test_a_change_that_puts_another_part_in_is_compared_as_maintained(loaded: Loaded) -> None:
    change = (
        RECORD,
        "\nevents:\n",
        (
            "\nevents:\n  - {event: equipment-change, date: 2025-01-01, by: A, item: motor, "
            "part_number: FM-12, serial_number: X1, "
            'fitted: [{name: Motor, mass: "11.4 lb", arm: "44.0 in"}], '
            'removed: [{name: Motor, mass: "11.4 lb", arm: "44.0 in"}]}\n'
        ),
    )
    project = loaded(change)
    record = project.serials["0003"]
    state = replay(record, project.battery.options, default_date(record))
    motor = next(one for one in components(project.aircraft.items, record, state) if one.name == "motor")
    assert motor.drawings == ("FM-11", "FM-11", "FM-12")
    assert motor.differs
    assert problems(project) == ["'Motor' is FM-12 and FM-11 as designed, and no concession accepts it"]
