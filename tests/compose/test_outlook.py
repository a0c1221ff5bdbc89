"""The table of cold and age on the page of energy: times, or words where a battery has none at all."""

from __future__ import annotations

from demos import demo

from dossier.compose import energy


def page(project: str, serial: str) -> str:
    return energy.pages(demo(project)[serial])[0].text.replace("\u00a0", " ")


def test_a_battery_without_any_answer_gets_words_and_no_table_of_them() -> None:
    text = page("barrow-t2", "T2-007")
    assert "Standard battery: no answer for any pilot and age, from −10 °C (14 °F) to 25 °C (77 °F)." in text
    assert "Standard battery: level flight by temperature and age" not in text


def test_a_battery_with_answers_gets_its_table() -> None:
    text = page("barrow-t2", "T2-007")
    assert "Long battery: level flight by temperature and age" in text
    assert "Long battery: no answer for any pilot" not in text
