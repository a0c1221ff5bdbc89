"""The logic errors that rigging lists have, as single changes of a good list, and the fault that each must
give.

The cases RV-00 to RV-18, CK-20, CK-31, CK-32, CK-36, CK-37, CK-44, TQ-drag and TQ-rotate of the collection
of rules. Their sources: EASA SIB
2019-07 and 2012-04, BGA newsletters and "Safe rigging", GFA manual of standard procedures 6.3, ATSB
199504285, HSE L23 paragraph 120,
AC 43.13-1B, as quoted in the docstring of each check; the state model itself is own reasoning.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from procedures.workbench import DERIG, MODEL, PREFLIGHT, RIG, Edit, step, swapped, verified, without

INSPECT_AILERON = "        second_acts: [{act: inspect, what: aileron}]\n"
TWO_BOLTS = Edit(
    MODEL,
    "  tail-bolt: {name: Tail bolt, count: 1, kit: box}",
    "  tail-bolt: {name: Tail bolt, count: 2, kit: box}",
)
THICK_NUT = "nut: shear, figure: table}"

COUPLING = Edit(
    MODEL,
    "  tail-joint:\n",
    "  pitot: {name: Pitot coupling, kind: signal or pitot, between: [fuselage, wing], "
    "made_by_placing: wing, lock: none, safety: false}\n  tail-joint:\n",
)
PART_COUPLING = (
    "      - do: Part the pitot coupling.\n        expect: Apart.\n        acts: [{act: open, what: pitot}]\n"
)

FIXTURES: dict[str, tuple[tuple[Edit, ...], str]] = {
    "a coupling opened whose part stays": (
        (COUPLING, Edit(DERIG, step("Move the stand", DERIG), PART_COUPLING + step("Move the stand", DERIG))),
        "this opens the pitot coupling, and the wing stays in place",
    ),
    "RV-01 a safety part left out": (
        (without(RIG, "Clip the handle"),),
        "the spar joint is left engaged, locked, but not safetied",
    ),
    "RV-02 nobody else looks": (
        (Edit(RIG, INSPECT_AILERON, ""),),
        "the aileron connector is flight-critical, and no other person looks",
    ),
    "RV-03 the checker is the maker": (
        (Edit(RIG, INSPECT_AILERON, INSPECT_AILERON.replace("what: aileron}", "what: aileron, by: [ann]}")),),
        "checked only by a person who made it (Ann)",
    ),
    "RV-04 a piece not back": (
        (without(DERIG, "Stow the box"),),
        "the list ends with the pin 1 out; in the state 'In the trailer' it is 1 stowed",
    ),
    "RV-05 joined before both ends are there": (
        (swapped(RIG, "Place the wing", "Insert the pin"),),
        "this works on the spar joint, but the wing is out",
    ),
    "RV-06 safetied before it is locked": (
        (swapped(RIG, "Close the sleeve", "Fit the aileron safety"),),
        "this safeties the aileron connector before it is locked",
    ),
    "RV-07 touched after the check": (
        (
            Edit(
                RIG,
                step("Move the pedals"),
                step("Move the pedals")
                + "      - do: Grease it.\n        expect: Greased.\n        acts: [{act: disturb, what: "
                "aileron}]\n",
            ),
        ),
        "a check of the aileron connector is made void by a later step",
    ),
    "RV-08 a part left on": (
        (without(DERIG, "Stow the tail"),),
        "the list ends with the tail in place; in the state 'In the trailer' it is stowed",
    ),
    "RV-09 the caution behind its step": (
        (
            Edit(RIG, "        hazards: [pinch]\n", ""),
            Edit(RIG, "        expect: Flush.\n", "        expect: Flush.\n        hazards: [pinch]\n"),
        ),
        "the warning 'pinch' comes only after it",
    ),
    "RV-10 too heavy for two": (
        (Edit(MODEL, '"32 kg"', '"36 kg"'),),
        "2 people lift 36.0 kg of the wing; together they may lift 33.3 kg",
    ),
    "RV-11 no positive check": (
        (without(RIG, "Hold the aileron"),),
        "nobody holds the surface against the control afterwards",
    ),
    "RV-12 no look at the direction": (
        (without(RIG, "Move the stick"),),
        "nobody looks afterwards whether it moves fully and in the right direction",
    ),
    "RV-13 a wing hangs on a rod": (
        (without(DERIG, "Part the aileron"),),
        "this moves the wing while the aileron connector is still engaged",
    ),
    "RV-14 energised before the propeller is clear": (
        (swapped(PREFLIGHT, "Call the propeller", "Energise"),),
        "before the propeller is called clear",
    ),
    "RV-14 energised with an open connector": (
        (Edit(PREFLIGHT, step("Shut the hatch", PREFLIGHT), ""),),
        "this energises the traction circuit, but the hatch is open",
    ),
    "RV-15 inspected under a closed cover": (
        (
            Edit(RIG, step("Shut the hatch"), ""),
            Edit(RIG, step("Close the sleeve"), step("Close the sleeve") + step("Shut the hatch")),
        ),
        "this looks at the aileron connector, and the hatch over it is closed",
    ),
    "RV-16 one of two bolts used": ((TWO_BOLTS,), "this counts 4 in the box, and rigging.yaml lists 5"),
    "RV-18 a list ends in another state than the next one starts": (
        (without(RIG, "Put the stand"),),
        "the list ends in the state 'Rigged', but the stand stands at 'away'",
    ),
    "CK-20 the preflight passes over a joint": (
        (without(PREFLIGHT, "Look at the spar"),),
        "the preflight never looks at the spar joint",
    ),
    "CK-31 a clip in its hole is no joint": (
        (without(RIG, "Secure the pin"),),
        "this safeties the spar joint before it is locked",
    ),
    "CK-32 a quick connector is pulled": (
        (without(RIG, "Pull the rod"),),
        "the aileron connector is made, and never pulled",
    ),
    "CK-36 the one who connects is the one who sees the direction": (
        (Edit(RIG, "        second_acts: [{act: sense, what: aileron}]\n", ""),),
        "is the only one to see which way it moves",
    ),
    "CK-37 parts that can be swapped": (
        (Edit(MODEL, "    marking: Red\n", ""),),
        "would fit on the other side as well",
    ),
    "CK-44 five people": (
        (
            Edit(
                MODEL,
                "  ben: {name: Ben}\n",
                "  ben: {name: Ben}\n  cas: {name: Cas}\n  dee: {name: Dee}\n  eve: {name: Eve}\n",
            ),
            Edit(
                RIG,
                "        acts: [{act: fetch, what: wing}]",
                "        acts: [{act: fetch, what: wing, by: [ann, ben, cas, dee, eve]}]",
            ),
        ),
        "more than four cannot share a load",
    ),
    "TQ-drag the drag of the nut is added": (
        (Edit(MODEL, THICK_NUT, 'nut: tension, figure: table, drag: "12 in-lb"}'),),
        "the table has 62 to 82 in-lb",
    ),
    "TQ-rotate a self-locking nut that turns": (
        (Edit(MODEL, THICK_NUT, "nut: shear self-locking, figure: table, rotates: true}"),),
        "has a self-locking nut",
    ),
    "CK-26 an interruption puts two steps in doubt": (
        (
            Edit(
                RIG,
                step("Pull the rod"),
                "      - do: Answer the call.\n        expect: Done.\n        acts: [{act: pause}]\n      "
                "- do: Go on.\n        expect: Reading.\n        acts: [{act: resume}]\n",
            ),
        ),
        "a check of the aileron connector is made void by an interruption",
    ),
    "a critical step without a second check": (
        (Edit(RIG, "        second_acts: [{act: look, what: spar}]\n", ""),),
        "this step is critical, and it has no second check",
    ),
    "pieces used before anybody counted them": (
        (
            Edit(
                RIG, "{act: fetch, what: box}, {act: count, what: box, number: 4}", "{act: fetch, what: box}"
            ),
        ),
        "the pin is used, and nobody counted what was laid out",
    ),
    "a panel that one person moves": (
        (
            Edit(
                RIG,
                "        by: Both\n        acts: [{act: fetch, what: wing}]",
                "        acts: [{act: fetch, what: wing}]",
            ),
        ),
        "1 person moves the wing; rigging.yaml asks for 2",
    ),
}

LEFT_OUT = {
    "RV-17 and the CK-01 to CK-18 rules of print": "type size, page breaks and wording of responses belong "
    "to the pages, not to the replay",
    "CK-21": "document id, revision and serial are printed by the pages",
    "CK-28, CK-40": "that a daily inspection is done and signed is a record of the day, not of the list",
    "CK-33, CK-35": "periodic inspection of sleeves and a placard are asked for by the builder's "
    "inspection list and placards",
    "CK-38": "the list is made for the serial's own items by construction; tests of variants cover it",
    "CK-42, CK-43": "the lifting equation needs reach and height, which a list does not state",
    "CK-48": "a wind limit is a check of rigging.yaml, required in the lists that need it",
    "TQ-ext-*, TQ-reuse-*, TQ-wire*, TQ-cotter, TQ-record, metric": "adapters, reused nuts, lockwire and "
    "torque records are work on one day; "
    "no list of steps states them",
    "HZ-01 to HZ-07, HZ-12, HZ-18": "signal words and their scheme belong to the hazard boxes of the pages",
}
"""Rules of the collection that no test here holds, and why."""


@pytest.mark.parametrize("name", FIXTURES)
def test_a_logic_error_is_found_and_named(name: str, tmp_path: Path) -> None:
    edits, words = FIXTURES[name]
    messages = [finding.message for finding in verified(tmp_path, *edits).findings]
    assert any(words in message for message in messages), "\n".join(messages)


def test_the_good_list_gives_no_finding(tmp_path: Path) -> None:
    assert verified(tmp_path).findings == ()


def test_a_coupling_that_nobody_opens_comes_apart_with_its_part(tmp_path: Path) -> None:
    assert verified(tmp_path, COUPLING).findings == ()
