"""The temperature at which a take-off is allowed, beside those at which the discharge model flies."""

from __future__ import annotations

from collections.abc import Sequence
from types import SimpleNamespace
from typing import Any

import pytest
from demos import demo

from dossier.findings import Severity
from dossier.quantities import parse
from dossier.results.cold_limits import findings, warmest_refused
from dossier.results.discharge_table import COLD, WARM, Lasting

TEMPERATURES = (*WARM, *COLD)


def flight(option: str, *lasts: float | None, health: float | None = None) -> Any:
    """Write the flights of one pilot from warm to cold; None: no answer."""
    row = tuple(
        Lasting(temperature, shortest, None, "too cold" if shortest is None else "kept")
        for temperature, shortest in zip(TEMPERATURES, lasts, strict=True)
    )
    return SimpleNamespace(
        flight=SimpleNamespace(option=option), age=SimpleNamespace(health=health), lasts=row
    )


def told(table: Sequence[Any], limit: float, unit: str = "°C") -> list[str]:
    written = f"{limit - 273.15:.2f} °C" if unit == "°C" else f"{limit * 1.8 - 459.67:.2f} {unit}"
    named = SimpleNamespace(name="Coldest", value=parse(written, "temperature"))
    aircraft = SimpleNamespace(use=SimpleNamespace(coldest_take_off_limit="cold"), limits={"cold": named})
    options = {name: SimpleNamespace(name=name, place=None) for name in ("long", "short")}
    return [one.message for one in findings(table, aircraft, options)]  # type: ignore[arg-type]


def test_a_battery_without_an_answer_where_a_take_off_is_allowed_is_told() -> None:
    (message,) = told([flight("long", 900.0, 800.0, None, None, None)], limit=276.15)
    assert "at 5 °C" in message
    assert message.endswith("too cold")


def test_the_temperature_is_told_in_the_unit_of_the_limit() -> None:
    (message,) = told([flight("long", 900.0, None, None, None, None)], limit=283.15, unit="°F")
    assert "50.00 °F, allows" in message
    assert "at 59 °F and below" in message  # 15 °C


def test_a_limit_above_the_temperatures_without_an_answer_is_right() -> None:
    assert told([flight("long", 900.0, 800.0, None, None, None)], limit=283.15) == []


def test_a_limit_at_the_very_temperature_without_an_answer_is_told() -> None:
    assert len(told([flight("long", 900.0, 800.0, None, None, None)], limit=278.15)) == 1


def test_one_pilot_with_an_answer_is_enough() -> None:
    table = [flight("long", 900.0, None, None, None, None), flight("long", 900.0, 800.0, 700.0, 600.0, 500.0)]
    assert told(table, limit=263.15) == []


def test_each_battery_is_told_for_itself() -> None:
    table = [flight("long", 900.0, 800.0, 700.0, 600.0, 500.0), flight("short", None, None, None, None, None)]
    (message,) = told(table, limit=283.15)
    assert "with short where" in message
    assert "at 25 °C and below" in message


def test_an_aged_battery_that_is_only_asked_about_is_not_told() -> None:
    table = [flight("long", *(900.0,) * 5), flight("long", *(None,) * 5, health=0.8)]
    assert told(table, limit=283.15) == []


def test_a_gap_between_answers_is_not_from_some_temperature_down() -> None:
    assert warmest_refused([flight("long", 900.0, None, 700.0, None, None)]) == (COLD[0], "too cold")


@pytest.mark.parametrize(("serial", "expected"), [("T2-007", ["Standard battery"])])
def test_the_demonstration_battery_that_the_model_refuses_is_a_warning(
    serial: str, expected: list[str]
) -> None:
    found = [one for one in demo("barrow-t2")[serial].findings if one.code == "D012"]
    assert [name for one in found for name in expected if name in one.message] == expected
    assert [one.severity for one in found] == [Severity.WARNING]
