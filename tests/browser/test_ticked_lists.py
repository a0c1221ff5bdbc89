"""Lists that are ticked on a device: a field list in a real browser, from disk, without a network."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from conftest import FLAGS, chromium_program
from field_list import PAGE, write_project
from measures import overflow, printed_sides

from dossier.completed_lists.add import add_record
from dossier.compose.pages import packet
from dossier.pipeline import run
from dossier.web.build import build_site

pytestmark = pytest.mark.browser

COUNTS = 2
NOON = "2026-06-01T12:00:00Z"


@pytest.fixture(scope="session")
def starter(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The starter project with the field list."""
    return write_project(tmp_path_factory.mktemp("starter") / "project")


@pytest.fixture(scope="session")
def starter_site(starter: Path) -> Path:
    """Its site."""
    site = starter.parent / "site"
    build_site(packet(run(starter, "0001")), site, epoch=0)
    return site


@pytest.fixture
def field(starter_site, reader):
    """The page of the field list, on a phone, at noon, with the network off."""
    page = reader.open(starter_site / PAGE, size="phone")
    page.context.set_offline(True)
    page.clock.set_fixed_time(NOON)
    page.reload()
    return page


def box(page, name: str):
    return page.locator(f"input[name={name}]")


def press(page, words: str) -> None:
    page.get_by_role("button", name=words).click()


def begin(page, name: str = "A. Builder") -> None:
    """Make the first tick, which asks for a name, and the rest of the count."""
    box(page, "start-1").click()
    page.get_by_role("textbox", name="Name").fill(name)
    press(page, "Go on")
    for number in range(2, COUNTS + 1):
        box(page, f"start-{number}").click()


def complete(page) -> None:
    begin(page)
    for number in (1, 2, 3):
        box(page, f"step-{number}").click()
    box(page, "step-3-second").click()
    press(page, "I am the other person")
    page.get_by_role("textbox", name="Name").fill("B. Second")
    press(page, "Go on")
    for number in range(1, COUNTS + 1):
        box(page, f"end-{number}").click()


def ticked(page) -> list[str]:
    return page.eval_on_selector_all(".step__tick:checked", "boxes => boxes.map(box => box.name)")


def progress(page) -> str:
    return page.locator(".progress__words").inner_text()


def download(page, folder: Path) -> Path:
    with page.expect_download() as saved:
        page.get_by_role("link", name="Save the record file").last.click()
    file = folder / saved.value.suggested_filename
    saved.value.save_as(file)
    # The page notes the saving only once the browser has followed the link: nothing is asserted before that.
    page.wait_for_function("() => document.querySelector('.desk').innerText.includes('was saved at')")
    return file


def begin_again_on(page, moment: str) -> None:
    page.clock.set_fixed_time(moment)
    page.reload()


def test_ticks_survive_a_reload_and_a_closed_browser(starter_site, chromium, tmp_path):
    def opened():
        context = chromium.browser_type.launch_persistent_context(
            tmp_path / "profile", executable_path=chromium_program(), args=list(FLAGS), offline=True
        )
        page = context.pages[0]
        page.goto((starter_site / PAGE).as_uri())
        return context, page

    context, page = opened()
    begin(page)
    box(page, "step-1").click()
    page.reload()
    assert ticked(page) == ["start-1", "start-2", "step-1"]
    context.close()
    context, page = opened()
    assert ticked(page) == ["start-1", "start-2", "step-1"]
    assert progress(page) == "1 of 3 steps, 1 second check open"
    context.close()


def test_a_step_waits_for_the_one_before_it_or_for_a_reason(field):
    begin(field)
    box(field, "step-3").click()
    assert ticked(field) == ["start-1", "start-2"]
    assert "Not yet: step 1; step 2 come first." in field.locator(".ask").inner_text()
    press(field, "Tick with this reason")
    assert ticked(field) == ["start-1", "start-2"]
    field.get_by_role("textbox", name="Or say why").fill("Done yesterday")
    press(field, "Tick with this reason")
    assert "step-3" in ticked(field)
    assert "Out of order. Reason: Done yesterday" in field.locator("#step-3 .log").first.inner_text()
    assert "Open, passed over" in field.locator("#step-1 .log").inner_text()


def test_a_second_check_waits_for_its_step_and_no_reason_lets_it_pass(field):
    begin(field)
    box(field, "step-3-second").click()
    assert "A second check looks at a step that is done." in field.locator(".ask").inner_text()
    assert field.get_by_role("button", name="Tick with this reason").count() == 0


def test_a_second_check_is_ticked_as_the_other_person(field):
    begin(field)
    for number in (1, 2, 3):
        box(field, f"step-{number}").click()
    box(field, "step-3-second").click()
    assert "step-3-second" not in ticked(field)
    press(field, "I am the other person")
    field.get_by_role("textbox", name="Name").fill("a. builder")
    press(field, "Go on")
    assert "a. builder is the other person" in field.locator(".ask").inner_text()
    field.get_by_role("textbox", name="Name").fill("B. Second")
    field.keyboard.press("Enter")
    assert "12:00, B. Second" in field.locator("#step-3 .log").last.inner_text()


def test_a_tick_that_is_taken_back_takes_what_stands_on_it(field):
    begin(field)
    for number in (1, 2):
        box(field, f"step-{number}").click()
    box(field, "step-1").click()
    assert "step-1" in ticked(field)
    press(field, "Take back 2 ticks")
    assert ticked(field) == ["start-1", "start-2"]


def test_a_new_start_asks_first_and_then_forgets(field):
    begin(field)
    press(field, "Start again")
    field.keyboard.press("Escape")
    assert ticked(field) == ["start-1", "start-2"]
    press(field, "Start again")
    press(field, "Delete and start again")
    assert ticked(field) == []
    field.reload()
    assert ticked(field) == []


def test_what_was_ticked_and_noted_becomes_an_event_on_the_records_page(field, reader, starter, tmp_path):
    complete(field)
    assert progress(field) == "3 of 3 steps, complete"
    press(field, "Note on step 2")
    field.get_by_role("textbox", name="Note on step 2").fill("Pin 2,\u202e greased \U0001f44d")
    press(field, "Keep the note")
    file = download(field, tmp_path)
    told = json.loads(file.read_text(encoding="utf-8"))
    assert told["people"] == ["A. Builder", "B. Second"]
    assert [tick.get("note") for tick in told["ticks"] if tick["tick"] == "step-2"] == [
        "Pin 2, greased \U0001f44d"
    ]
    project = tmp_path / "project"
    shutil.copytree(starter, project)
    add_record(project, "0001", file)
    site = tmp_path / "site"
    build_site(packet(run(project, "0001")), site, epoch=0)
    event = reader.open(site / "records.html").locator(".event").last
    assert "A. Builder, B. Second" in event.inner_text()
    assert f"2026-06-01-{told['procedure']}-1.json" in event.inner_text()
    assert "step 2. Pin 2, greased \U0001f44d" in event.inner_text()


def test_a_browser_that_keeps_nothing_says_so_and_the_list_still_works(starter_site, reader):
    page = reader.open(starter_site / PAGE)
    page.add_init_script(
        "Storage.prototype.setItem = () => { throw new DOMException('no', 'QuotaExceededError'); };"
    )
    page.reload()
    assert "This browser does not keep ticks here" in page.locator(".desk").inner_text()
    begin(page)
    assert ticked(page) == ["start-1", "start-2"]


def test_a_store_that_is_full_in_the_middle_of_work_is_told_in_the_bar_and_no_tick_is_lost(field):
    begin(field)
    field.evaluate(
        "() => { Storage.prototype.setItem = () => { throw new DOMException('', 'QuotaExceededError'); }; }"
    )
    for number in (1, 2):
        box(field, f"step-{number}").click()
    assert ticked(field) == ["start-1", "start-2", "step-1", "step-2"]
    assert progress(field) == "2 of 3 steps, 1 second check open, not kept on this device"


@pytest.mark.parametrize("kept", [
    "[]", '"x"', '{"people": null}', '{"ticks": {"start-1": null}}',
    '{"ticks": {"start-1": {"at": 7, "who": 9}}}',
    '{"ticks": {"start-1": {"at": "2026-06-01T12:00:00+00:00", "who": 0, "override": {}}}}', "{broken",
])  # fmt: skip
def test_a_store_that_somebody_spoiled_gives_an_empty_list_and_says_so(field, kept):
    begin(field)
    field.evaluate(
        "kept => Object.keys(localStorage).filter(key => key.startsWith('dossier'))"
        ".forEach(key => localStorage.setItem(key, kept))",
        kept,
    )
    field.reload()
    assert ticked(field) == []
    if kept not in ("[]", '"x"'):  # these two hold nothing, as a list that nobody began
        assert "What was kept before could not be read" in field.locator(".desk").inner_text()
    begin(field)
    assert ticked(field) == ["start-1", "start-2"]


def test_two_windows_go_on_with_one_list(field):
    other = field.context.new_page()
    other.clock.set_fixed_time(NOON)
    other.goto(field.url)
    begin(field)
    box(other, "step-1").click()
    box(field, "step-2").click()
    assert ticked(field) == ticked(other) == ["start-1", "start-2", "step-1", "step-2"]


def test_a_window_that_slept_does_not_write_over_what_another_did(field):
    begin(field)
    field.evaluate(
        "() => addEventListener('storage', event => event.stopImmediatePropagation(), { capture: true })"
    )
    other = field.context.new_page()
    other.clock.set_fixed_time(NOON)
    other.goto(field.url)
    box(other, "step-1").click()
    box(field, "step-2").click()
    assert ticked(field) == ["start-1", "start-2", "step-1", "step-2"]


def test_ticks_of_an_earlier_day_are_told_in_the_bar_and_gone_on_with_only_when_asked(field):
    begin(field)
    begin_again_on(field, "2026-06-02T08:00:00Z")
    assert progress(field) == "Of 2026-06-01 12:00: 0 of 3 steps, 1 second check open"
    box(field, "step-1").click()
    assert "The last tick is of 2026-06-01 12:00." in field.locator(".ask").inner_text()
    assert "step-1" not in ticked(field)
    press(field, "Go on with that work")
    assert "step-1" in ticked(field)
    assert progress(field) == "1 of 3 steps, 1 second check open"


def test_a_clock_that_was_set_back_is_told_and_needs_a_reason(field):
    begin(field)
    begin_again_on(field, "2026-06-01T09:00:00Z")
    box(field, "step-1").click()
    assert (
        "The clock of this device says 2026-06-01 09:00, which is before the last tick, 2026-06-01 12:00."
        in field.locator(".ask").inner_text()
    )
    field.get_by_role("textbox", name="Or say why").fill("It was an hour of summer time ahead")
    press(field, "Tick with this reason")
    assert "Reason: It was an hour" in field.locator("#step-1 .log").first.inner_text()
    box(field, "step-2").click()  # from here on the clock runs forward again
    assert "step-2" in ticked(field)


def test_a_list_with_a_step_passed_over_is_never_called_complete(field):
    begin(field)
    box(field, "step-2").click()
    field.get_by_role("textbox", name="Or say why").fill("The plug was out")
    press(field, "Tick with this reason")
    box(field, "step-3").click()
    box(field, "step-3-second").click()
    press(field, "I am the other person")
    field.get_by_role("textbox", name="Name").fill("B. Second")
    press(field, "Go on")
    for number in range(1, COUNTS + 1):
        box(field, f"end-{number}").click()
    assert progress(field) == "2 of 3 steps, at its end, 1 passed over"


def test_a_complete_list_offers_its_record_file_in_the_bar_and_remembers_that_it_was_saved(field, tmp_path):
    complete(field)
    bar = field.locator(".progress")
    assert bar.get_by_role("link", name="Save the record file").is_visible()
    assert not field.locator(".progress__next").is_visible()
    press(field, "Start again")
    assert "They are in no record file" in field.locator(".ask").inner_text()
    field.keyboard.press("Escape")
    download(field, tmp_path)
    assert "The record file was saved at 12:00." in field.locator(".desk").inner_text()
    box(field, "end-1").click()
    assert "was saved" not in field.locator(".desk").inner_text()


def test_a_list_that_is_rebuilt_later_with_the_same_words_keeps_the_day_for_which_it_was_begun(
    field, tmp_path
):
    begin(field)
    day = json.loads(download(field, tmp_path).read_text(encoding="utf-8"))["as_of"]
    field.route(
        "**/*.html",
        lambda route: route.fulfill(
            body=Path(field.url.removeprefix("file://"))
            .read_text(encoding="utf-8")
            .replace(f'data-as-of="{day}"', 'data-as-of="2031-01-01"'),
            content_type="text/html",
        ),
    )
    field.reload()
    assert field.locator(".desk").get_attribute("data-as-of") == "2031-01-01"
    assert ticked(field) == ["start-1", "start-2"]
    assert json.loads(download(field, tmp_path).read_text(encoding="utf-8"))["as_of"] == day


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_of_a_list_have_seven_to_one_against_their_ground_for_the_sun(starter_site, reader, scheme):
    """WCAG 2.2, 1.4.6, asks for 7 : 1 at level AAA; its formula of relative luminance is written out here."""
    page = reader.open(starter_site / PAGE, size="phone", scheme=scheme)
    begin(page)
    box(page, "step-3").click()
    found = page.evaluate(CONTRAST, ".steps, .count, .desk, .ask, .progress, .hazard, .list-identity")
    assert len(found) > 40
    assert [(words, ratio) for words, ratio in found if ratio < 7] == []


CONTRAST = """regions => {
  const channel = part => part / 255 <= .04045 ? part / 255 / 12.92 : ((part / 255 + .055) / 1.055) ** 2.4;
  const numbers = text => text.match(/[\\d.]+/g).map(Number);
  const luminance = ([red, green, blue]) =>
    .2126 * channel(red) + .7152 * channel(green) + .0722 * channel(blue);
  const ground = element => {
    for (let one = element; one; one = one.parentElement) {
      const colour = numbers(getComputedStyle(one).backgroundColor);
      if (colour.length < 4 || colour[3] > 0) return colour;
    }
    return [255, 255, 255];
  };
  const has_words = one => [...one.childNodes].some(node => node.nodeType === 3 && node.data.trim());
  const seen = [...document.querySelectorAll(regions)]
    .flatMap(region => [region, ...region.querySelectorAll('*')])
    .filter(one => one.getBoundingClientRect().height > 4 && has_words(one));
  return seen.map(one => {
    const both = [luminance(numbers(getComputedStyle(one).color)), luminance(ground(one))];
    const [more, less] = both.sort((a, b) => b - a);
    return [one.textContent.slice(0, 40), (more + .05) / (less + .05)];
  });
}"""


def test_targets_grow_to_56_pixels_under_a_gloved_finger(starter_site, chromium):
    context = chromium.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto((starter_site / PAGE).as_uri())
    begin(page)
    box(page, "step-3").click()
    targets = [
        one.bounding_box()
        for one in page.locator(".ask button, .progress .desk__button, .step__tick").all()
        if one.is_visible()
    ]
    assert len(targets) > 8
    assert all(target["height"] >= 56 and target["width"] >= 56 for target in targets)
    assert overflow(page) <= 0
    context.close()


@pytest.mark.parametrize("size", [(390, 844), (844, 390)], ids=["upright", "on its side"])
def test_text_of_twice_the_size_leaves_the_bar_whole_and_the_page_no_wider(starter_site, chromium, size):
    context = chromium.new_context(
        viewport={"width": size[0], "height": size[1]}, has_touch=True, is_mobile=True
    )
    page = context.new_page()
    page.goto((starter_site / PAGE).as_uri())
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    begin(page)
    box(page, "step-1").click()
    edges = [one.bounding_box() for one in page.locator(".progress__row > :not([hidden])").all()]
    assert len(edges) == 3
    assert all(edge["x"] >= 0 and edge["x"] + edge["width"] <= size[0] + 1 for edge in edges)
    assert overflow(page) <= 0
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_list_in_the_middle_of_work_keeps_wcag_2_2_aa_and_fits_a_phone(
    starter_site, reader, violations, scheme
):
    page = reader.open(starter_site / PAGE, size="phone", scheme=scheme)
    begin(page)
    box(page, "step-3").click()
    assert page.locator(".ask").is_visible()
    assert violations(page) == []
    assert overflow(page) <= 0
    targets = [
        one.bounding_box()
        for one in page.locator(".ask button, .progress .desk__button, .step__tick, .log button").all()
        if one.is_visible()
    ]
    assert len(targets) > 10
    assert all(target["height"] >= 44 and target["width"] >= 44 for target in targets)


def test_a_list_can_be_worked_with_keys_alone(field):
    box(field, "start-1").focus()
    for key in ("Space", "Tab"):  # the question takes the focus, then its field
        field.keyboard.press(key)
    field.keyboard.type("A. Builder")
    field.keyboard.press("Enter")
    assert ticked(field) == ["start-1"]
    assert field.evaluate("document.activeElement.name") == "start-1"


def test_a_list_on_paper_shows_what_was_ticked_and_when(field, tmp_path):
    begin(field)
    text = " ".join("".join(printed_sides(field, tmp_path / "list.pdf")).split())
    assert (
        "Ticked on a device by A. Builder, begun 2026-06-01 12:00: 0 of 3 steps, 1 second check open." in text
    )
    assert text.count("12:00, A. Builder") == COUNTS
    assert "Start again" not in text


def test_without_a_script_a_list_is_a_list(starter_site, chromium):
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((starter_site / PAGE).as_uri())
    assert not page.locator(".desk").is_visible()
    assert "it keeps no tick: work on paper" in page.locator("p", has_text="runs no script").inner_text()
    assert page.locator(".step__tick").count() == 4 + 2 * COUNTS
    context.close()
