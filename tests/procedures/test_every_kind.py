"""Charging, inspection and emergency of the bench: a careful list is left alone, a careless one is told."""

from __future__ import annotations

from pathlib import Path

import pytest
from demos import demo

from dossier.compose.operating.verification import verification
from dossier.judge.rule_sets import known_rule_sets
from dossier.procedures.rules.table import NAMES_OF_WORDS, NAMES_WITHOUT_MODEL
from dossier.procedures.verify import verify
from dossier.project import Project, load
from dossier.references import check
from procedures.workbench import MODEL, Edit, written

PLUGS = Edit(
    MODEL,
    "circuits:\n",
    "  charge-plug:\n    name: Charge plug\n    kind: power plug\n    between: []\n    lock: by engaging\n"
    "    safety: false\n    circuit: mains\n"
    "  mains-plug:\n    name: Mains plug\n    kind: power plug\n    between: []\n    lock: none\n"
    "    safety: false\n    circuit: mains\n    before_engaging: {joined: [charge-plug], checked: [place]}\n"
    "circuits:\n  mains: {name: Mains circuit, live_by: [mains-plug]}\n",
)
MORE = (
    PLUGS,
    Edit(MODEL, "checks:\n", "checks:\n  place: {name: Place of charging, required_in: [charge]}\n"),
    Edit(
        MODEL, "  live-battery: {", "  charging-fire: {before: [charge-plug, mains-plug]}\n  live-battery: {"
    ),
    Edit(
        MODEL,
        "complete: true, needs: {settings: {stand: under}}",
        "complete: true, needs: {apart: [charge-plug, mains-plug], settings: {stand: under}}",
    ),
    Edit(
        MODEL,
        "needs: {live: [traction], settings",
        "needs: {apart: [charge-plug, mains-plug], live: [traction], settings",
    ),
    Edit(
        "hazards.yaml",
        "hazards:\n",
        "hazards:\n  charging-fire:\n    word: danger\n    topic: charging\n    hazard: A pack burns.\n"
        "    consequence: Burns.\n    avoidance: Stay near it.\n",
    ),
)

CHARGE = """title: Charge
kind: charging
purpose: In the trailer.
people: 1
starts_from: trailer
ends_in: trailer
hazards: [charging-fire]
sections:
  - title: All
    steps:
      - {do: Choose the place., expect: Nothing burns there., acts: [{act: check, what: place}]}
      - {do: Look at the mains plug., expect: It is out., acts: [{act: see_isolated, what: mains}]}
      - {do: Push the charge plug in., expect: It clicks., acts: [{act: engage, what: charge-plug}]}
      - {do: Push the mains plug in., expect: The lamp is lit., acts: [{act: engage, what: mains-plug}]}
      - {do: Pull the mains plug., expect: The lamp is dark., acts: [{act: open, what: mains-plug}]}
      - {do: Pull the charge plug., expect: It is out., acts: [{act: open, what: charge-plug}]}
closing: Nothing is plugged in.
"""

INSPECT = """title: Inspect
kind: inspection
purpose: Rigged.
people: 2
starts_from: rigged
ends_in: rigged
hazards: [pinch]
tools: [1 mirror]
sections:
  - title: All
    if_not: Do not fly.
    steps:
      - {do: Count the tools., expect: One tool.}
      - {do: Raise the hatch., expect: Up., acts: [{act: uncover, what: hatch}]}
      - {do: Take the aileron safety., expect: Out., acts: [{act: release, what: aileron}]}
      - {do: Slide the sleeve back., expect: Back., acts: [{act: unlock, what: aileron}]}
      - {do: Part the aileron., expect: Apart., acts: [{act: open, what: aileron}]}
      - {do: Look at the ball., expect: Bright., tool: mirror}
      - {do: Join the aileron., expect: Home., acts: [{act: engage, what: aileron}]}
      - {do: Close the sleeve., expect: Shut., acts: [{act: lock, what: aileron}]}
      - {do: Fit the aileron safety., expect: In.,
        critical: true, if_not: Do not fly., second_check: Ben moves its loop.,
        acts: [{act: safety, what: aileron}],
        second_acts: [{act: inspect, what: aileron}]}
      - {do: Pull the rod., expect: It holds., acts: [{act: pull_test, what: aileron}]}
      - {do: Hold the aileron against the stick., expect: It drives., by: Both,
        acts: [{act: positive_check, what: aileron}]}
      - {do: Move the stick left., expect: Left up.,
        critical: true, if_not: Do not fly., second_check: Ben says which way.,
        acts: [{act: sense, what: aileron}],
        second_acts: [{act: sense, what: aileron}]}
      - {do: Move the pedals., expect: Left goes left.,
        critical: true, if_not: Do not fly., second_check: Ben sees the rudder.,
        acts: [{act: check, what: rudder}],
        second_acts: [{act: check, what: rudder}]}
      - {do: Shut the hatch., expect: Flush., acts: [{act: cover, what: hatch}]}
      - {do: Count the tools., expect: One tool.}
closing: Rigged.
"""

EMERGENCY = """title: Fire
kind: emergency
purpose: Smoke.
people: 1
hazards: [charging-fire]
sections:
  - title: All
    steps:
      - {do: Pull the mains plug., expect: The lamp is dark.}
closing: Out.
"""
LISTS = {"charge": CHARGE, "inspect": INSPECT, "fire": EMERGENCY}


def step_of(text: str, do: str) -> str:
    start = text.index(f"      - {{do: {do}")
    return text[start : text.index("}\n", start) + 2]


JOIN = step_of(INSPECT, "Join the aileron.")
SAFETY = step_of(INSPECT, "Fit the aileron safety.")
SECOND = "],\n        second_acts: [{act: inspect, what: aileron}]}\n"
CARELESS: dict[str, tuple[str, str, str, str]] = {
    "hands at the charge plug and nobody saw the mains out": (
        "charge",
        step_of(CHARGE, "Look at"),
        "",
        "V050",
    ),
    "the charger stays on the mains": ("charge", step_of(CHARGE, "Pull the mains"), "", "V100"),
    "charged anywhere": ("charge", step_of(CHARGE, "Choose"), "", "V023"),
    "charged without its warning": ("charge", "hazards: [charging-fire]\n", "", "V071"),
    "charged without any hazard": ("charge", "hazards: [charging-fire]\n", "", "V113"),
    "a charging list without states": ("charge", "starts_from: trailer\nends_in: trailer\n", "", "V005"),
    "a charging list without states whose warning is gone": (
        "charge",
        "starts_from: trailer\nends_in: trailer\nhazards: [charging-fire]\n",
        "",
        "V071",
    ),
    "an inspection leaves a control apart": ("inspect", JOIN, "", "V011"),
    "an inspection leaves a control without its safety part": ("inspect", SAFETY, "", "V021"),
    "an inspection lets nobody else look": (
        "inspect",
        SAFETY,
        SAFETY.replace(" second_check: Ben moves its loop.,", "").replace(SECOND, "]}\n"),
        "V031",
    ),
    "an inspection pulls nothing": ("inspect", step_of(INSPECT, "Pull the rod."), "", "V030"),
    "an inspection holds no surface": ("inspect", step_of(INSPECT, "Hold the aileron"), "", "V033"),
    "an inspection without a count at its start": ("inspect", step_of(INSPECT, "Count"), "", "V112"),
    "a critical step in words only, which nobody sees": (
        "inspect",
        "expect: Bright., tool: mirror",
        "expect: Bright., critical: true, if_not: Do not fly., tool: mirror",
        "V038",
    ),
    "a tool that nobody laid out": ("inspect", "tool: mirror", "tool: lamp", "V092"),
    "an emergency at a live plug without a word of it": ("fire", "hazards: [charging-fire]\n", "", "V071"),
}


def bench(folder: Path, **changed: str) -> Project:
    project = written(folder, *MORE)
    for name, text in {**LISTS, **changed}.items():
        (project / "procedures" / f"{name}.yaml").write_text(text, "utf-8")
    return load(project, ())


def told(project: Project) -> set[tuple[str, str]]:
    found = (*check(project, known_rule_sets()), *verify(project, ()).findings)
    return {(one.code, one.place.file if one.place else "") for one in found if one.code.startswith("V")}


def test_careful_lists_of_every_kind_are_left_alone(tmp_path: Path) -> None:
    assert told(bench(tmp_path)) == set()


@pytest.mark.parametrize("name", CARELESS)
def test_a_careless_list_of_any_kind_is_told(name: str, tmp_path: Path) -> None:
    stem, old, new, code = CARELESS[name]
    text = LISTS[stem].replace(old, new, 1)
    assert text != LISTS[stem]
    assert (code, f"procedures/{stem}.yaml") in told(bench(tmp_path, **{stem: text}))


def test_the_count_at_the_end_must_be_that_at_the_start(tmp_path: Path) -> None:
    head, found, tail = INSPECT.rpartition("expect: One tool.")
    assert found
    assert ("V042", "procedures/inspect.yaml") in told(
        bench(tmp_path, inspect=f"{head}expect: Two tools.{tail}")
    )


def test_an_emergency_need_name_no_states_and_every_other_list_must(tmp_path: Path) -> None:
    project = bench(tmp_path, charge=CHARGE.replace("starts_from: trailer\nends_in: trailer\n", ""))
    assert [one for one in sorted(told(project)) if one[0] == "V005"] == [("V005", "procedures/charge.yaml")]


def test_a_report_tells_a_list_that_was_replayed_from_one_that_was_read(tmp_path: Path) -> None:
    reports = {one.procedure: one for one in verify(bench(tmp_path), ()).reports}
    assert (bool(reports["charge"].checks), reports["charge"].read_only) == (True, ())
    assert (reports["fire"].checks, reports["fire"].read_only) == ((), NAMES_OF_WORDS)


def test_without_a_model_a_report_names_the_checks_of_the_text_alone(tmp_path: Path) -> None:
    project = written(tmp_path)
    (project / "rigging.yaml").unlink()
    reports = verify(load(project, ()), ()).reports
    assert {(one.checks, one.read_only) for one in reports} == {((), NAMES_WITHOUT_MODEL)}


def test_a_report_counts_the_reasons_that_let_a_check_rest(tmp_path: Path) -> None:
    text = CHARGE.replace("do: Choose the place.,", "do: Choose the place., together: One., differs: Two.,")
    report = next(
        one for one in verify(bench(tmp_path, charge=text), ()).reports if one.procedure == "charge"
    )
    assert (report.together, report.differs) == (1, 1)


def test_the_page_of_an_emergency_says_that_it_was_read_only() -> None:
    serial = demo("quillet-e1")["0003"]
    said = verification(serial, "emergency-hard-landing-or-crash")
    assert "was read, and was not replayed" in said.said
    assert f"{len(NAMES_OF_WORDS)} checks of its words: no fault." in said.said


@pytest.mark.parametrize(
    "name",
    ["charging", "storage", "transport", "daily-inspection", "inspection-25-hours", "inspection-yearly"],
)
def test_the_page_of_every_other_kind_says_that_it_was_replayed(name: str) -> None:
    assert "This list was replayed step by step" in verification(demo("quillet-e1")["0003"], name).said


@pytest.mark.parametrize("name", ["de-rigging-2-tail", "de-rigging-3-wings"])
def test_the_page_counts_the_reasons_that_let_a_check_rest(name: str) -> None:
    said = verification(demo("quillet-e1")["0003"], name).silenced
    assert "steps say under \u201ctogether\u201d why they have two actions" in said
