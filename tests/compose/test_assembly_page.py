"""The page of the assembly: signatures, open work, components."""

from __future__ import annotations

from datetime import date

from packet_reading import PROJECTS, made, read, text_of

from dossier import pipeline
from dossier.compose.assembly import pages


def page(number: str, as_of: str) -> str:
    dossier = pipeline.run(PROJECTS / "quillet-e1", number, date.fromisoformat(as_of))
    return read(pages(dossier)[0]).text


def test_every_step_of_the_serial_is_on_the_page() -> None:
    text = text_of("quillet-e1", "0003", "assembly.md")
    assert [step.title for step in made("quillet-e1", "0003").assembly.steps if step.title not in text] == []


def test_an_aircraft_with_open_work_is_not_ready_for_delivery() -> None:
    assert "Not ready for delivery: the work below is open." in text_of("quillet-e1", "0006", "assembly.md")


def test_no_aircraft_is_called_ready() -> None:
    for number in ("0002", "0003", "0006"):
        assert "ready for delivery" not in text_of("quillet-e1", number, "assembly.md").replace(
            "Not ready for delivery", ""
        )


def test_an_aircraft_in_the_middle_of_its_build_shows_what_was_signed_by_then() -> None:
    text = page("0003", "2025-02-20")
    assert "Not ready for delivery" in text
    assert "2025-02-14" in text
    assert "2025-02-26" not in text


def test_work_done_again_stays_in_sight() -> None:
    text = text_of("quillet-e1", "0004", "assembly.md")
    assert "28.5 deg" in text
    assert "Done again, see the next line." in text


def test_a_tolerance_stands_with_its_source() -> None:
    assert "0.7500 in to 0.7508 in; measured within ± 0.0001 in (k = 2); drawing QE1-110." in text_of(
        "quillet-e1", "0003", "assembly.md"
    )


def test_a_nonconformity_stands_with_what_was_decided() -> None:
    text = text_of("quillet-e1", "0002", "assembly.md")
    assert "NC-0002-1" in text
    assert "Calculation QE1-S9 shows a margin of 2.1 at that place." in text
