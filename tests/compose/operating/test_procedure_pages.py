import re

import pytest
from demonstration import (
    SERIALS,
    barrow,
    demonstration,
    procedure,
    quillet,
    with_limit,
    with_procedures,
    without,
)
from page_reading import Element, plain, read

from dossier.compose.limit_text import LimitText
from dossier.compose.operating import pages
from dossier.compose.operating.list_text import torque
from dossier.compose.operating.lists import List, lists
from dossier.compose.operating.procedure_pages import options_line, page, signatures
from dossier.dossier import Dossier
from dossier.model.procedure import ProcedureStep, Section, Tightening
from dossier.quantities import parse


def every_list(emergency: bool | None = None) -> list[tuple[Dossier, List]]:
    made = [
        (dossier, one) for serial in SERIALS for dossier in [demonstration(*serial)] for one in lists(dossier)
    ]
    return [(dossier, one) for dossier, one in made if emergency in (None, one.is_emergency)]


def titled(pair: object) -> str:
    return pair[1].path if isinstance(pair, tuple) else str(pair)


def told(dossier: Dossier, name: str) -> list[str]:
    hazard, fill = dossier.project.hazards.hazards[name], LimitText.of(dossier).fill
    return [
        hazard.word.capitalize(),
        *(plain(fill(text)) for text in (hazard.hazard, hazard.consequence, hazard.avoidance)),
    ]


def parts(box: Element) -> list[str]:
    return [box.one(f".hazard__{part}").text for part in ("word", "what", "consequence", "avoid")]


def brief(box: Element) -> list[str]:
    assert not box.all(".hazard__what") + box.all(".hazard__consequence")
    return [box.one(f".hazard__{part}").text for part in ("word", "avoid")]


def remedy(dossier: Dossier, name: str) -> list[str]:
    word, *_, avoidance = told(dossier, name)
    return [word, avoidance]


def one_step(**step: object) -> Dossier:
    made = ProcedureStep.model_construct(**{"do": "Turn the nut.", "expect": "Tight.", "hazards": [], **step})
    return with_procedures(
        quillet(), rigging=procedure(sections=[Section.model_construct(title="A", steps=[made])])
    )


def rendered(dossier: Dossier) -> Element:
    return read(page(dossier, lists(dossier)[0]))


@pytest.mark.parametrize("words", ["purpose", "closing", "note", "by"])
def test_a_limit_in_the_words_around_the_steps_is_filled_in(words):
    text = "Below {maximum_rigging_wind}"
    step = ProcedureStep.model_construct(
        do="Turn the nut.", expect="Tight.", hazards=[], by=text if words == "by" else None
    )
    section = Section.model_construct(title="A", steps=[step], note=text if words == "note" else None)
    around = {words: text} if words in ("purpose", "closing") else {}
    dossier = with_procedures(quillet(), rigging=procedure(sections=[section], **around))
    shown = rendered(dossier).text
    assert plain(LimitText.of(dossier).fill(text)) in shown
    assert "{" not in shown


@pytest.mark.parametrize("pair", every_list(), ids=titled)
def test_no_list_of_the_demonstrations_shows_a_limit_in_braces(pair):
    assert not re.search(r"\{[a-z_]+\}", read(page(*pair)).text)


@pytest.mark.parametrize("pair", every_list(), ids=titled)
def test_every_step_is_rendered_in_order_with_number_action_and_wanted_state(pair):
    dossier, one = pair
    fill = LimitText.of(dossier).fill
    groups = read(page(dossier, one)).all(".step-group")
    shown = [(g.one(".step__number").text, g.all("p")) for g in groups]
    assert [number for number, _ in shown] == [str(numbered.number) for numbered in one.steps]
    for group, numbered in zip(groups, one.steps, strict=True):
        do = plain(fill(numbered.step.do))
        assert group.all(".step__do")[0].all("p")[0].text == (
            f"Critical. {do}" if numbered.step.critical else do
        )
        assert group.one(".step__expect").all("p")[0].text == plain(fill(numbered.step.expect))


@pytest.mark.parametrize("pair", every_list(emergency=False), ids=titled)
def test_the_boxes_of_a_step_stand_before_it_and_with_it(pair):
    dossier, one = pair
    groups = read(page(dossier, one)).all(".step-group")
    for group, numbered in zip(groups, one.steps, strict=True):
        kinds = [
            "box" if "hazard" in element.classes else "step"
            for element in group.children
            if isinstance(element, Element)
        ]
        assert kinds == sorted(kinds)
        shown = sorted(parts(box) for box in group.all(".hazard"))
        assert shown == sorted(told(dossier, name) for name in numbered.step.hazards)


@pytest.mark.parametrize("pair", every_list(), ids=titled)
def test_the_boxes_of_the_whole_procedure_stand_before_its_first_step(pair):
    dossier, one = pair
    before = []
    for element in read(page(dossier, one)).walk():
        if "step-group" in element.classes:
            break
        if "hazard" in element.classes:
            before.append(brief(element) if one.is_emergency else parts(element))
    for name in one.procedure.hazards:
        assert (remedy(dossier, name) if one.is_emergency else told(dossier, name)) in before


@pytest.mark.parametrize("pair", every_list(emergency=True), ids=titled)
def test_in_an_emergency_a_step_has_signal_word_and_remedy_before_it_and_whole_boxes_stand_below(pair):
    dossier, one = pair
    root = read(page(dossier, one))
    for group, numbered in zip(root.all(".step-group"), one.steps, strict=True):
        kinds = [
            "box" if "hazard" in element.classes else "step"
            for element in group.children
            if isinstance(element, Element)
        ]
        assert kinds == sorted(kinds)
        assert sorted(brief(box) for box in group.all(".hazard")) == sorted(
            remedy(dossier, name) for name in numbered.step.hazards
        )
    names = {*one.procedure.hazards, *(name for n in one.steps for name in n.step.hazards)}
    last_step = root.all(".step-group")[-1]
    order = list(root.walk())
    below = [
        box
        for box in order[order.index(last_step) :]
        if "hazard" in box.classes and "hazard--brief" not in box.classes
    ]
    assert sorted(parts(box) for box in below) == sorted(told(dossier, name) for name in names)


@pytest.mark.parametrize("pair", every_list(emergency=True), ids=titled)
def test_an_emergency_has_nothing_to_tick_or_sign(pair):
    root = read(page(*pair))
    assert root.all("input") == []
    assert root.all(".signature") == []


def test_the_worst_word_stands_first():
    first = {str(hazard.word): name for name, hazard in quillet().project.hazards.hazards.items()}
    words = [
        box.one(".hazard__word").text
        for box in rendered(one_step(hazards=[first["caution"], first["danger"]])).all(".hazard")
    ]
    assert words == ["Danger", "Caution"]


@pytest.mark.parametrize("pair", every_list(emergency=False), ids=titled)
def test_every_step_every_second_check_and_every_count_has_its_own_tick(pair):
    dossier, one = pair
    ticks = [tick.attributes["name"] for tick in read(page(dossier, one)).all("input")]
    counted = len(one.procedure.loose_items) + len(one.procedure.tools)
    seconds = sum(numbered.step.second_check is not None for numbered in one.steps)
    assert len(set(ticks)) == len(ticks) == len(one.steps) + seconds + 2 * counted


def test_a_tick_says_by_itself_what_it_is_for():
    labels = [label.text for label in rendered(one_step(second_check="Pull it.")).all("label")]
    assert labels == ["Step 1 Done", "Step 1, second check Seen"]


def test_loose_items_and_tools_are_counted_before_the_first_and_after_the_last_step():
    made = one_step()
    changed = made.project.procedures["rigging"].model_copy(
        update={"loose_items": ["Main pin"], "tools": ["Mallet"]}
    )
    order = [
        element.classes & {"count", "steps"} or element.text
        for element in rendered(with_procedures(made, rigging=changed)).walk()
        if element.classes & {"count", "steps"} or element.tag == "h2"
    ]
    assert order == [
        "Count at the start",
        {"count"},
        "A",
        {"steps"},
        "Count at the end",
        {"count"},
        "Complete",
    ]


def test_a_torque_stands_with_fastener_and_source():
    tightening = Tightening.model_construct(
        value=parse("62 lbf in", "torque"), fastener="AN4 bolt", source="AC 43.13-1B, table 7-1"
    )
    said = rendered(one_step(torque=tightening)).one(".step__do").text
    assert said == "Turn the nut.Torque: 62 lbf in (7.01 N m); AN4 bolt; after AC 43.13-1B, table 7-1"


def test_the_tolerance_of_a_torque_is_not_lost():
    tightening = Tightening.model_construct(
        value=parse("10 N m ± 1 N m", "torque"), fastener="M6", source="drawing 7"
    )
    assert "written as 10 N m ± 1 N m" in torque(tightening, barrow().preference)


def test_who_with_what_and_what_if_not_are_told():
    group = rendered(one_step(by="Leader", tool="Spanner", if_not="Stop.", second_check="Pull it.")).one(
        ".step-group"
    )
    assert group.one(".step__by").text == "Done by: Leader"
    assert group.one(".step__if-not").text == "If not: Stop."
    assert [do.text for do in group.all(".step__do")] == [
        "Turn the nut.Tool: Spanner",
        "Second check, by another person: Pull it.",
    ]


def test_a_critical_step_says_so_in_words():
    assert rendered(one_step(critical=True)).one(".step__do").text == "Critical. Turn the nut."


def test_a_placeholder_in_a_step_changes_with_its_limit():
    dossier = one_step(expect="Less than {maximum_rigging_wind}.")
    for wind, expected in (("12 kt", "12 kt (22.2 km/h)"), ("9 kt", "9 kt (16.7 km/h)")):
        changed = with_limit(dossier, "maximum_rigging_wind", wind, "speed")
        assert rendered(changed).one(".step__expect").text == f"Less than {expected}."


@pytest.mark.parametrize("pair", every_list(), ids=titled)
def test_a_list_says_for_which_serial_and_date_it_is(pair):
    dossier, one = pair
    assert read(page(dossier, one)).one(".list-identity").text.startswith(
        f"This list is for serial {dossier.record.serial_number} as of {dossier.state.as_of.isoformat()}. "
        "After a change of configuration, get a new one."
    )  # fmt: skip


def test_a_list_names_the_options_that_it_is_written_for():
    rigging = {one.path: one for one in lists(quillet())}["rigging-3-battery.md"]
    parachute = quillet().project.aircraft.items["parachute"].name
    battery = (
        f"Written for the battery that is fitted: {quillet().project.battery.options['long-pack'].name}."
    )
    assert (
        options_line(without(quillet()), rigging) == f"Written for this serial with: {parachute}. {battery}"
    )
    missing = f"Written for this serial without: {parachute}. Steps for it are left out. {battery}"
    assert options_line(without(quillet(), "parachute"), rigging) == missing


def test_a_list_that_depends_on_no_option_says_so():
    charging = {one.path: one for one in lists(quillet())}["charging.md"]
    assert options_line(quillet(), charging) == "No step depends on optional equipment."


@pytest.mark.parametrize(("people", "check", "expected"), [
    (1, None, ("Person in charge",)),
    (1, "Pull it.", ("Person in charge", "Person who made the second checks")),
    (2, "Pull it.", ("Person in charge", "Second person")),
    (3, None, ("Person in charge", "Second person", "Third person")),
])  # fmt: skip
def test_everybody_who_is_needed_signs(people, check, expected):
    dossier = one_step(second_check=check)
    changed = dossier.project.procedures["rigging"].model_copy(update={"people": people})
    (one,) = lists(with_procedures(dossier, rigging=changed))
    assert signatures(one) == expected
    assert [who.text for who in read(page(dossier, one)).all(".signature__for")] == list(expected)


@pytest.mark.parametrize("pair", every_list(), ids=titled)
def test_the_closing_line_stands_after_the_last_step(pair):
    dossier, one = pair
    root = read(page(dossier, one))
    texts = [element.text for element in root.walk() if element.tag in ("li", "p")]
    last = max(index for index, text in enumerate(texts) if text == root.all(".step-group")[-1].text)
    assert plain(LimitText.of(dossier).fill(one.procedure.closing)) in texts[last:]


@pytest.mark.parametrize("serial", SERIALS)
def test_no_page_says_that_the_aircraft_is_safe_or_airworthy(serial):
    for made in pages(demonstration(*serial)):
        said = read(made).text.lower()
        for phrase in ("is safe", "are safe", "safe to fly", "is airworthy", "fit to fly", "fit for flight"):
            assert phrase not in said, f"{made.path}: {phrase}"


def stopping(*sections: dict[str, object]) -> Dossier:
    """Make a list of sections with one step each."""
    step = ProcedureStep.model_construct(do="Look.", expect="There.")
    made = [
        Section.model_construct(title=f"Part {number}", steps=[step], **keys)
        for number, keys in enumerate(sections, start=1)
    ]
    return with_procedures(without(quillet()), rigging=procedure(sections=made))


def test_behind_a_section_stands_that_the_crew_may_stop_there_and_how_it_leaves_the_aircraft():
    root = rendered(stopping({"stop": True, "leaves": "One wing is on."}, {}, {"stop": True}, {}))
    order = [element.text for element in root.walk() if element.tag == "h2" or "may-stop" in element.classes]
    assert order == [
        *("Part 1", "You may stop here: One wing is on."),
        *("Part 2", "Part 3", "You may stop here.", "Part 4", "Complete"),
    ]


def test_behind_the_last_section_the_closing_says_what_is_so_and_no_stop_stands_there():
    assert rendered(stopping({}, {"stop": True, "leaves": "All is done."})).all(".may-stop") == []


def test_a_limit_stands_in_what_a_stop_leaves():
    dossier = stopping({"stop": True, "leaves": "Watch for {maximum_rigging_wind}."}, {})
    changed = with_limit(dossier, "maximum_rigging_wind", "9 kt", "speed")
    assert "Watch for 9 kt (16.7 km/h)." in rendered(changed).one(".may-stop").text


@pytest.mark.parametrize("pair", every_list(emergency=False), ids=titled)
def test_a_list_that_takes_a_kit_out_of_its_place_says_that_it_is_counted_there(pair):
    dossier, one = pair
    kits = dossier.project.rigging.kits
    takes_out = any(
        act.act == "fetch" and name in kits for n in one.steps for act in n.step.acts for name in act.what
    )
    text = read(page(dossier, one)).text
    assert ("open the place where it is stowed" in text) == (takes_out and "Count at the start" in text)
