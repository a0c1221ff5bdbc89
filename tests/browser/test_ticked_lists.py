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
    return file


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
    assert progress(page) == "1 of 3 steps, 1 check open"
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


def test_a_browser_that_keeps_nothing_says_so_and_the_list_still_works(starter_site, reader):
    page = reader.open(starter_site / PAGE)
    page.add_init_script(
        "Storage.prototype.setItem = () => { throw new DOMException('no', 'QuotaExceededError'); };"
    )
    page.reload()
    assert "This browser does not keep ticks here" in page.locator(".desk").inner_text()
    begin(page)
    assert ticked(page) == ["start-1", "start-2"]


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
    assert "Ticked on a device by A. Builder, begun 2026-06-01 12:00: 0 of 3 steps, 1 check open." in text
    assert text.count("12:00, A. Builder") == COUNTS
    assert "Start again" not in text


def test_without_a_script_a_list_is_a_list(starter_site, chromium):
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((starter_site / PAGE).as_uri())
    assert not page.locator(".desk").is_visible()
    assert page.locator(".step__tick").count() == 4 + 2 * COUNTS
    assert "it keeps no tick: work on paper" in page.locator("noscript").inner_text()
    context.close()
