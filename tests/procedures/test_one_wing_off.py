"""A crew stops with one wing on, and takes the aircraft apart or goes on: every way must lead home."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from dossier.findings import Finding
from dossier.procedures.verify import verify
from dossier.project import load
from dossier.starter import TEMPLATE

TWO_WINGS = Path(__file__).parent / "two_wings"
RIG, DERIG, MODEL = "procedures/rig.yaml", "procedures/derig.yaml", "rigging.yaml"
LEFT_CLIP = (
    "      - {do: Clip the left pin., expect: Shut., critical: true, second_check: Ben pulls the clip., "
    "acts: [{act: safety, what: left-pin}], "
    "second_acts: [{act: inspect, what: left-pin}]}\n"
)
RIG_AWAY = (
    "      - {do: Take the stand away., expect: It lies beside., acts: [{act: set, what: stand, to: away}]}\n"
)
CARRY = "      - {do: Carry the left wing.,"
STOWED = (
    "      - {do: Stow the right wing., expect: In its cradle., by: Both, acts: [{act: stow, what: "
    "right-wing}]}\n"
)
NO_STOPS = ((RIG, "    stop: true\n", ""), (DERIG, "    stop: true\n", ""))


def told(folder: Path, *edits: tuple[str, str, str]) -> tuple[Finding, ...]:
    project = folder / "two-wings"
    shutil.copytree(TWO_WINGS, project)
    for name in ("aircraft.yaml", "battery.yaml", "compliance.yaml"):
        shutil.copy(TEMPLATE / name, project / name)
    (project / "hazards.yaml").write_text("hazards: {}\n", "utf-8")
    for file, old, new in edits:
        text = (project / file).read_text("utf-8")
        assert text.count(old) == 1
        (project / file).write_text(text.replace(old, new), "utf-8")
    return verify(load(project, ()), ()).findings


def test_lists_that_lead_home_from_one_wing_are_left_alone(tmp_path: Path) -> None:
    assert told(tmp_path) == ()


SETTINGS = "settings:\n"
STRAIGHT_ONLY: dict[str, tuple[tuple[tuple[str, str, str], ...], str]] = {
    # rigging puts a bar on while the left wing is alone, and takes it off; de-rigging never heard of the bar
    "the way back leaves a bar on": (
        (
            (
                MODEL,
                SETTINGS,
                SETTINGS
                + "  bar: {name: Bar, home: off-it, positions: {off-it: , on-it: {placed: [left-wing]}}}\n",
            ),
            (
                RIG,
                LEFT_CLIP,
                LEFT_CLIP
                + (
                    "      - {do: Put the bar on., expect: It grips., acts: [{act: set, what: bar, to: "
                    "on-it}]}\n"
                ),
            ),
            (
                RIG,
                RIG_AWAY,
                RIG_AWAY
                + (
                    "      - {do: Take the bar off., expect: It lies beside., acts: [{act: set, what: "
                    "bar, to: off-it}]}\n"
                ),
            ),
        ),
        "whoever stops after 'Left' and goes the other way ends with the bar on-it, not off-it",
    ),
    # the right wing hangs in a sling that goes on only while no wing is on; de-rigging takes it off with the
    # right wing
    "the way on needs a sling that no longer goes on": (
        (
            (
                MODEL,
                SETTINGS,
                SETTINGS
                + "  sling: {name: Sling, home: off-it, positions: {off-it: , on-it: {away: [left-wing]}}}\n",
            ),
            (
                MODEL,
                "held_until: [right-pin]}",
                "held_until: [right-pin], before_moving: {settings: {sling: on-it}}}",
            ),
            (
                RIG,
                CARRY,
                (
                    "      - {do: Put the sling on., expect: It hangs., acts: [{act: set, what: sling, to: "
                    "on-it}]}\n"
                )
                + CARRY,
            ),
            (
                DERIG,
                STOWED,
                STOWED
                + (
                    "      - {do: Take the sling off., expect: In its bag., acts: [{act: set, what: "
                    "sling, to: off-it}]}\n"
                ),
            ),
        ),
        (
            "this works on the sling, but the left wing is in place already, begun from the stop point "
            "'Right off'"
        ),
    ),
    # the clip is bent back by a tool that rigging lays out only for the right wing
    "the way back needs what only the other wing brings": (
        (
            (
                MODEL,
                "  clip: {name: Clip, count: 2, kit: box}\n",
                "  clip: {name: Clip, count: 2, kit: box}\n  key: {name: Key, count: 1}\n",
            ),
            (
                MODEL,
                SETTINGS,
                SETTINGS
                + (
                    "  key-place: {name: Place of the key, home: trailer, positions: {trailer: , pod: "
                    "{placed: [right-wing]}}}\n"
                ),
            ),
            (
                MODEL,
                "    name: Left spar pin\n",
                "    name: Left spar pin\n    before_opening: {settings: {key-place: pod}}\n",
            ),
            (
                RIG,
                RIG_AWAY,
                RIG_AWAY
                + (
                    "      - {do: Lay the key into the pod., expect: It lies there., acts: [{act: set, "
                    "what: key-place, to: pod}]}\n"
                ),
            ),
            (
                DERIG,
                "      - {do: Stow the box.",
                (
                    "      - {do: Take the key along., expect: In the locker., acts: [{act: set, what: "
                    "key-place, to: trailer}]}\n      - {do: Stow the box."
                ),
            ),
        ),
        (
            "this works on the left spar pin, but the place of the key stands at 'trailer', not at 'pod', "
            "begun from the stop point 'Left'"
        ),
    ),
}
"""Lists without a fault from end to end, and what is told of the way from one wing."""


@pytest.mark.parametrize("name", STRAIGHT_ONLY)
def test_a_way_that_does_not_lead_home_from_one_wing_is_told(name: str, tmp_path: Path) -> None:
    edits, words = STRAIGHT_ONLY[name]
    found = told(tmp_path, *edits)
    assert words in {finding.message for finding in found}
    assert all("Left" in finding.message or "Right off" in finding.message for finding in found)


@pytest.mark.parametrize("name", STRAIGHT_ONLY)
def test_without_a_stop_point_nobody_notices(name: str, tmp_path: Path) -> None:
    edits, _ = STRAIGHT_ONLY[name]
    assert {finding.code for finding in told(tmp_path, *edits, *NO_STOPS)} == {"V102"}
