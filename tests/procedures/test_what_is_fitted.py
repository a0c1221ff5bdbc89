"""Lists that depend on what a serial has fitted: each serial's own is verified, and so is that of every other
fit of the type."""

from __future__ import annotations

from pathlib import Path

from dossier import pipeline
from dossier.compose.operating.lists import lists
from dossier.findings import Finding
from dossier.judge.rule_sets import known_rule_sets
from dossier.procedures.system import System
from dossier.procedures.verify import Verification, verify
from dossier.project import Project, load
from dossier.references import check
from procedures.workbench import MODEL, RIG, Edit, step, verified, written

QUILLET = Path(__file__).parents[2] / "projects" / "quillet-e1"

TWO_BATTERIES = Edit(
    "battery.yaml",
    "bay:\n",
    """  small-pack:
    name: Small pack
    cell: cell-a
    series: 14
    parallel: 8
    mass: "11 kg"
    arm: "0.25 m"
    size: {length: "420 mm", width: "180 mm", height: "170 mm"}
    reserve: "20 %"
    full_cell_voltage: "4.15 V"
    empty_cell_voltage: "3.2 V"

bay:
""",
)
RADIO = Edit(
    "aircraft.yaml",
    "  wing: {name: Wing,",
    '  radio: {name: Radio, group: instruments, mass: "1 kg", arm: "0 m", optional: true}\n'
    "  wing: {name: Wing,",
)
SPACER = Edit(
    MODEL, "checks:\n", "checks:\n  spacer: {name: Spacer, for_battery: [small-pack], required_in: [rig]}\n"
)
LOOK = (
    "      - do: Look at the spacer.\n        expect: It is in.\n"
    "{when}        acts: [{{act: check, what: spacer}}]\n"
)


def look(when: str) -> Edit:
    """Add a look at the spacer before the battery is connected."""
    return Edit(RIG, step("Connect the battery"), LOOK.format(when=when) + step("Connect the battery"))


def about_the_spacer(verification: Verification) -> list[tuple[str, str]]:
    return [(one.code, one.message) for one in verification.findings if "pacer" in one.message]


def of_serial(number: str, name: str) -> list[str]:
    made = next(one for one in lists(pipeline.run(QUILLET, number)) if one.name == name)
    return [str(numbered.step.do) for numbered in made.steps]


def test_two_serials_with_two_batteries_have_two_lists_and_each_is_verified() -> None:
    long, short = (
        "Look beside the long pack for spacer rails.",
        "Look at the spacer rails beside the short pack.",
    )
    with_long, with_short = (of_serial(number, "rigging-3-battery") for number in ("0003", "0007"))
    assert (long in with_long, short in with_long) == (True, False)
    assert (long in with_short, short in with_short) == (False, True)
    for number, battery in (("0003", "long-pack"), ("0007", "short-pack")):
        own = [one for one in pipeline.run(QUILLET, number).procedures if one.own]
        assert {one.battery for one in own} == {battery}
        rigging = [one.is_ready for one in own if one.procedure.startswith("rigging-")]
        assert rigging == [True, True, True]


def test_only_a_serial_with_the_wheel_fairing_takes_it_off_for_the_look_at_tyre_and_brake() -> None:
    off, tyre, on = (
        "Take the wheel fairing off.",
        "Look at tyre, axle and brake cable.",
        "Fit the wheel fairing.",
    )
    fitted = of_serial("0003", "preflight")
    assert fitted.index(off) < fitted.index(tyre) < fitted.index(on)
    bare = of_serial("0007", "preflight")
    assert [text in bare for text in (off, tyre, on)] == [False, True, False]


def test_a_step_for_one_battery_is_a_step_of_every_list_that_needs_it(tmp_path: Path) -> None:
    good = verified(tmp_path, TWO_BATTERIES, SPACER, look("        for_battery: [small-pack]\n"))
    assert about_the_spacer(good) == []
    assert {one.battery for one in good.reports} == {"standard-pack", "small-pack"}


def test_a_list_that_is_right_for_one_battery_only_is_told_for_the_other(tmp_path: Path) -> None:
    found = about_the_spacer(verified(tmp_path, TWO_BATTERIES, SPACER))
    assert [code for code, _ in found] == ["V023"]
    assert found[0][1].endswith(", with the battery 'Small pack' fitted")


def test_a_step_on_something_that_only_one_battery_has_is_told_for_the_other(tmp_path: Path) -> None:
    found = about_the_spacer(verified(tmp_path, TWO_BATTERIES, SPACER, look("")))
    assert (
        "V004",
        "this works on the spacer, and an aircraft with the battery 'Standard pack' has none",
    ) in found


def test_a_step_for_serials_without_an_item_is_not_in_the_list_of_one_that_has_it(tmp_path: Path) -> None:
    blanking = Edit(
        MODEL, "checks:\n", "checks:\n  blank: {name: Blanking plate, without: radio, required_in: [rig]}\n"
    )
    text = (
        "      - do: Look at the blanking plate.\n        expect: It is in.\n        without: radio\n"
        "        acts: [{act: check, what: blank}]\n"
    )
    inserted = Edit(RIG, step("Connect the battery"), text + step("Connect the battery"))
    project = load(written(tmp_path, RADIO, blanking, inserted), ())
    steps = {
        "radio" in report.variant: report.steps
        for report in verify(project, ()).reports
        if report.procedure == "rig"
    }
    assert steps[False] == steps[True] + 1
    assert not [one for one in verify(project, ()).findings if "lank" in one.message]


def test_something_for_serials_with_and_without_an_item_is_refused(tmp_path: Path) -> None:
    both = Edit(
        MODEL, "checks:\n", "checks:\n  blank: {name: Blanking plate, option: radio, without: radio}\n"
    )
    assert "V007" in {one.code for one in told(tmp_path, RADIO, both)}


def test_a_battery_that_the_type_does_not_have_is_refused_where_it_stands(tmp_path: Path) -> None:
    wrong = Edit(MODEL, "checks:\n", "checks:\n  spacer: {name: Spacer, for_battery: [smal-pack]}\n")
    found = [one for one in told(tmp_path, TWO_BATTERIES, wrong) if one.code == "P010"]
    assert found[0].message == "there is no battery option 'smal-pack'"
    assert found[0].help.startswith("did you mean 'small-pack'?")


def test_a_part_that_is_the_battery_weighs_what_the_fitted_one_weighs(tmp_path: Path) -> None:
    battery = Edit(
        MODEL,
        "  tail: {name: Tail, mass",
        "  cell-box: {name: Battery, battery: true}\n  tail: {name: Tail, mass",
    )
    project = load(written(tmp_path, TWO_BATTERIES, battery), ())
    weighs = {name: system(project, name).mass("cell-box") for name in ("standard-pack", "small-pack", None)}
    assert weighs == {"standard-pack": 18.5, "small-pack": 11, None: 18.5}  # as battery.yaml has them


def system(project: Project, battery: str | None) -> System:
    assert project.rigging is not None
    return System(project.rigging, project.aircraft, project.battery, frozenset(), battery)


def told(folder: Path, *edits: Edit) -> list[Finding]:
    return list(check(load(written(folder, *edits), ()), known_rule_sets()))
