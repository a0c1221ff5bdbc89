"""Lists and models written by hand as a careless builder writes them: each is noticed, the careful one not.

``careless/`` holds whole rigging lists for the bench; the models below are changes of its rigging.yaml.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from dossier.judge.rule_sets import known_rule_sets
from dossier.procedures.verify import verify
from dossier.project import load
from dossier.references import check
from procedures.workbench import DERIG, MODEL, PREFLIGHT, RIG, Edit, findings, step, without, written

CARELESS = Path(__file__).parent / "careless"
NOTICED = {
    "00-good": set[str](),
    "01-two-in-one": {"V090", "V011"},
    "02-looks-at-own-work": {"V032", "V038"},
    "03-act-of-another-joint": {"V095", "V010"},
    "04-battery-first": {"V050", "V051"},
    "05-second-checks-unsaid": {"V099"},
    "06-safety-in-words-only": {"V098"},
    "07-free-but-which-way": {"V034"},
    "08-foot-pounds": {"V082"},
    "09-with-pliers": {"V092", "V021"},
    "10-warned-too-late": {"V070"},
    "11-hatch-shut-early": {"V036"},
    "12-five-pieces": {"V096"},
    "13-hands-full": {"V014"},
    "14-ok": {"V104"},
    "15-only-looked-at": {"V095"},
    "16-nothing-said-of-states": {"V005"},
    "17-unknown-joint": {"V098"},
    "18-safety-first": {"V011", "V035"},
    "19-one-person": {"V062"},
    "20-crowd-at-the-plug": {"V053"},
    "21-hand-on-a-checked-joint": {"V098"},
    "22-nut-backed-off": {"V098"},
    "23-tool-laid-down-inside": {"V098"},
    "24-only-watched": {"V110"},
    "25-nods": {"V111"},
}
"""List -> codes that must be among what is told of it."""
NO_SWITCH = Edit(MODEL, "    propeller: true\n", "    propeller: true\n    live_by: [plug]\n")
SEEN = "        acts: [{act: set, what: stand, to: away}]\n"

LAX: dict[str, tuple[tuple[Edit, ...], str]] = {
    "a control that is not called critical": (
        (Edit(MODEL, "    critical: true\n    handed: true\n", "    handed: true\n"),),
        "the connection 'Aileron connector' is a manual control, and is not called critical",
    ),
    "a pin that nothing keeps in": (
        (
            Edit(
                MODEL,
                "    with_items: {engage: pin, safety: clip}\n    lock: separate\n",
                "    with_items: {engage: pin}\n    lock: none\n    safety: false\n",
            ),
        ),
        "the connection 'Spar joint' has neither a lock nor a safety part",
    ),
    "a bolt without thread and nut": (
        (Edit(MODEL, "    fastening: {thread: 1/4-28, nut: shear, figure: table}\n", ""),),
        "the connection 'Tail joint' is a bolt with a nut, and says neither thread nor nut",
    ),
    "a power plug of no circuit": (
        (Edit(MODEL, "    circuit: traction\n", ""),),
        "the connection 'Plug' is a power plug, and does not say of which circuit",
    ),
    "a propeller that no circuit turns": (
        (Edit(MODEL, "    propeller: true\n", ""),),
        "no circuit can turn the propeller",
    ),
    "a wing that nobody has to hold": (
        (Edit(MODEL, "    held_until: [spar]\n", ""),),
        "the part 'Wing' is carried to its place, and nothing says until when it is held",
    ),
    "no state is complete": (
        (
            Edit(MODEL, "rigged: {name: Rigged, complete: true,", "rigged: {name: Rigged,"),
            Edit(MODEL, "ready: {name: Ready, complete: true,", "ready: {name: Ready,"),
        ),
        "no state is called complete",
    ),
    "a line that is not critical and never joined": (
        (
            Edit(
                MODEL,
                "circuits:\n",
                "  pitot:\n    name: Pitot line\n    kind: signal or pitot\n    between: [fuselage, wing]\n"
                "    lock: none\n    safety: false\ncircuits:\n",
            ),
        ),
        "the pitot line is never joined",
    ),
    "a battery without a switch, plugged in before the propeller is clear": (
        (NO_SWITCH, without(RIG, "Call the propeller")),
        "this energises the traction circuit before the propeller is called clear",
    ),
    "a joint that may be opened only after a wait": (
        (
            Edit(MODEL, "checks:\n", "checks:\n  waited: {name: Wait}\n"),
            Edit(
                MODEL,
                "    circuit: traction\n",
                "    circuit: traction\n    before_opening: {checked: [waited]}\n",
            ),
        ),
        "this works on the plug, but the check 'wait' was not made before",
    ),
    "hands off the wires before the bar is tied": (
        (
            Edit(
                MODEL,
                "    held_until: [spar]\n",
                "    held_until: [spar]\n    before_letting_go: {closed: [hatch]}\n",
            ),
        ),
        "this lets go of the wing while the hatch is open",
    ),
    "a look into a hatch that is shut": (
        (
            Edit(MODEL, "rudder: {name: Rudder,", "rudder: {name: Rudder, before: {opened: [hatch]},"),
            Edit(RIG, step("Shut the hatch"), ""),
            Edit(RIG, step("Move the pedals"), step("Shut the hatch") + step("Move the pedals")),
        ),
        "this works on the rudder, but the hatch is closed",
    ),
    "a battery looked at when it is in": (
        (Edit(MODEL, "wind: {name: Wind,", "wind: {name: Wind, before: {away: [fuselage]},"),),
        "this works on the wind, but the fuselage is in place already",
    ),
    "a plug whose hatch is opened while it is live": (
        (
            Edit(
                MODEL, "hides: [aileron], open_at_home: true}", "hides: [aileron, plug], open_at_home: true}"
            ),
            Edit(
                PREFLIGHT,
                step("Energise", PREFLIGHT),
                step("Energise", PREFLIGHT) + step("Raise the hatch", PREFLIGHT),
            ),
        ),
        "this lays open the plug while the traction circuit is live",
    ),
    "a check outside while the propeller can turn": (
        (
            Edit(MODEL, "wind: {name: Wind,", "wind: {name: Wind, outside: true,"),
            Edit(
                PREFLIGHT,
                step("Energise", PREFLIGHT),
                step("Energise", PREFLIGHT)
                + (
                    "      - do: Read the sock.\n        expect: It hangs.\n"
                    "        acts: [{act: check, what: wind}]\n"
                ),
            ),
        ),
        "somebody is at the wind while the traction circuit is live",
    ),
    "tools that lie out when the list begins": (
        (
            Edit(DERIG, step("Count the box", DERIG), step("Count the box", DERIG) * 1),
            Edit(MODEL, "  cloth: {name: Cloth, count: 1}", "  cloth: {name: Cloth, count: 1, kit: roll}"),
            Edit(MODEL, "  box: {name: Box}\n", "  box: {name: Box}\n  roll: {name: Roll}\n"),
            Edit(
                RIG,
                "[{act: fetch, what: box}, {act: count, what: box, number: 4}]",
                "[{act: fetch, what: [box, roll]}, {act: count, what: [box, roll]}]",
            ),
            Edit(
                RIG,
                "        acts: [{act: count, what: box, number: 4}]\n        if_not",
                "        acts: [{act: count, what: [box, roll]}]\n        if_not",
            ),
            Edit(DERIG, "[{act: stow, what: box}]", "[{act: stow, what: [box, roll]}]"),
        ),
        "work begins at the joints, and nobody counted the cloth that lies out",
    ),
}


def told(folder: Path, name: str) -> set[str]:
    project = written(folder)
    (project / RIG).write_text((CARELESS / f"{name}.yaml").read_text("utf-8"), "utf-8")
    loaded = load(project, ())
    found = (*check(loaded, known_rule_sets()), *verify(loaded, ()).findings)
    return {finding.code for finding in found if finding.code.startswith("V")}


def test_every_careless_list_is_among_those_tried() -> None:
    assert {path.stem for path in CARELESS.glob("*.yaml")} == set(NOTICED)


@pytest.mark.parametrize("name", sorted(NOTICED))
def test_what_is_wrong_with_a_list_is_noticed_and_a_careful_one_is_left_alone(
    name: str, tmp_path: Path
) -> None:
    codes = told(tmp_path, name)
    assert NOTICED[name] <= codes
    assert codes == set() or NOTICED[name]


@pytest.mark.parametrize("name", LAX)
def test_a_model_or_a_list_that_asks_for_too_little_is_named(name: str, tmp_path: Path) -> None:
    edits, words = LAX[name]
    messages = [finding.message for finding in findings(tmp_path, *edits)]
    assert any(words in message for message in messages), "\n".join(messages)


def test_a_reason_lets_a_control_be_uncritical(tmp_path: Path) -> None:
    reason = Edit(
        MODEL, "    critical: true\n    handed: true\n", "    not_critical: A trim tab.\n    handed: true\n"
    )
    assert not any("not called critical" in finding.message for finding in findings(tmp_path, reason))


def test_a_plug_without_a_switch_may_be_parted_when_nothing_it_feeds_is_live(tmp_path: Path) -> None:
    codes = [finding.code for finding in findings(tmp_path, NO_SWITCH)]
    assert "V050" not in codes


def test_a_reason_lets_words_and_acts_differ(tmp_path: Path) -> None:
    sided = Edit(MODEL, "    name: Aileron connector\n", "    name: Right aileron connector\n")
    other = Edit(
        RIG,
        "      - do: Join the aileron.\n",
        "      - do: Join the left aileron.\n        differs: Seen from ahead.\n",
    )
    assert not any(finding.code == "V094" for finding in findings(tmp_path, sided, other))
