"""Claims that name a quantity and no figure: which computed figure they are held against."""

from __future__ import annotations

from pathlib import Path

import pytest
from demos import demo
from invented import compliance, figure

from dossier.compute.performance import as_stated
from dossier.figures import Figure, Input, evaluate
from dossier.judge.claim_figures import BETWEEN_MODELS, NOT_COMPUTED, OF_A_BATTERY, OF_THE_AIRCRAFT
from dossier.judge.claim_result import ClaimResult, Support
from dossier.judge.claims import judge_claims
from dossier.model.compliance import QUANTITIES

YEAR = 365.25 * 86400.0  # s; the Julian year


def plain(name: str, value: float, kind: str = "number") -> Figure:
    return evaluate(as_stated, name, name, kind, {"y": Input(name, kind, value, "invented")})


FIGURES = {
    one.name: one
    for one in (
        plain("best_glide_ratio.polar", 19.0),
        plain("cycle_life_least.one", 400.0),
        plain("cycle_life_most.one", 2000.0),
        plain("calendar_life_least.one", 4 * YEAR, "time"),
        figure("range.one", "40 km ± 2 km"),
        figure("level_power.one", "3 kW ± 0.1 kW"),
        figure("volume.one", "16 L"),
        figure("half_voltage.one", "67 V"),
        figure("packed_size.width", "2.1 m"),
    )
}


def judged(
    folder: Path,
    value: str,
    quantity: str,
    relation: str,
    *,
    battery: str = "",
    batteries: tuple[str, ...] = ("one",),
) -> ClaimResult:
    more = f", battery: {battery}" if battery else ""
    line = f'  it: {{text: "{{value}}", where: page 1, value: "{value}", relation: {relation}'
    file = compliance(folder, "us-14-cfr-103", claims=f"{line}, quantity: {quantity}, tolerance: 5 %{more}}}")
    return judge_claims(file, FIGURES, batteries=batteries).results[0]


@pytest.mark.parametrize(
    ("value", "quantity", "relation", "result"),
    [
        ("18", "best_glide_ratio", "at least", Support.SUPPORTED),
        ("40", "best_glide_ratio", "at least", Support.CONTRADICTED),
        ("1800 %", "best_glide_ratio", "at least", Support.SUPPORTED),
        ("38 km", "range", "at least", Support.SUPPORTED),
        ("40 km", "range", "at least", Support.NOT_SUPPORTED),
        ("60 km", "range", "at least", Support.CONTRADICTED),
        ("3.2 kW", "level_power", "at most", Support.SUPPORTED),
        ("15 L", "pack_volume", "at most", Support.CONTRADICTED),
        ("67 V", "half_voltage", "about", Support.SUPPORTED),
        ("2.1 m", "trailer_width", "at most", Support.SUPPORTED),
    ],
)
def test_a_quantity_leads_to_its_figure(
    tmp_path: Path, value: str, quantity: str, relation: str, result: Support
) -> None:
    assert judged(tmp_path, value, quantity, relation).result is result


@pytest.mark.parametrize(
    ("value", "relation", "result"),
    [
        ("400", "at least", Support.SUPPORTED),
        ("401", "at least", Support.NOT_SUPPORTED),
        ("2000", "at least", Support.NOT_SUPPORTED),
        ("2001", "at least", Support.CONTRADICTED),
        ("2000", "at most", Support.SUPPORTED),
        ("399", "at most", Support.CONTRADICTED),
        ("1000", "about", Support.NOT_SUPPORTED),
        ("3000", "about", Support.CONTRADICTED),
    ],
)
def test_what_models_leave_open_shows_nothing_between_their_ends(
    tmp_path: Path, value: str, relation: str, result: Support
) -> None:
    assert judged(tmp_path, value, "cycle_life", relation).result is result


@pytest.mark.parametrize(
    ("value", "result"), [("4 years", Support.SUPPORTED), ("40 years", Support.NOT_SUPPORTED)]
)
def test_years_without_a_most_are_never_contradicted(tmp_path: Path, value: str, result: Support) -> None:
    assert judged(tmp_path, value, "calendar_life", "at least").result is result


def test_of_several_batteries_the_claim_must_name_its_own(tmp_path: Path) -> None:
    found = judged(tmp_path, "38 km", "range", "at least", batteries=("one", "two"))
    assert (found.result, found.figure) == (Support.NOT_SHOWN, None)
    assert "does not name its own" in found.reason


def test_the_battery_that_a_claim_names_is_taken(tmp_path: Path) -> None:
    found = judged(tmp_path, "38 km", "range", "at least", battery="one", batteries=("one", "two"))
    assert found.figure == "range.one"


def test_a_figure_that_is_not_there_is_named_with_what_would_give_it(tmp_path: Path) -> None:
    found = judged(tmp_path, "50 kt", "level_speed", "at most")
    assert found.result is Support.NOT_SHOWN
    assert "a flight test that measures the maximum level speed would give it" in found.reason


def test_a_quantity_that_nothing_computes_says_why(tmp_path: Path) -> None:
    found = judged(tmp_path, "11 m", "wing_span", "about")
    assert found.reason.startswith(
        "No figure is held against it: it is a measure that the type's files state"
    )


def test_every_quantity_stands_in_just_one_of_the_tables() -> None:
    tables = (OF_THE_AIRCRAFT, OF_A_BATTERY, BETWEEN_MODELS, NOT_COMPUTED)
    assert sorted(name for table in tables for name in table) == sorted(QUANTITIES)


@pytest.mark.parametrize(("project", "serial"), [("quillet-e1", "0003"), ("barrow-t2", "T2-007")])
def test_every_figure_of_the_table_exists_in_a_demonstration(project: str, serial: str) -> None:
    dossier = demo(project)[serial]
    batteries = list(dossier.project.battery.options)
    wanted = [
        *OF_THE_AIRCRAFT.values(),
        *(f"{name}.{one}" for name in OF_A_BATTERY.values() for one in batteries),
    ]
    missing = {name for name in wanted if name not in dossier.figures}
    assert missing <= {"maximum_level_speed"}  # the Barrow's top speed is not measured


def test_the_demonstrations_publish_what_is_supported_what_is_not_and_what_is_wrong() -> None:
    results = [one.result for one in demo("quillet-e1")["0003"].claims]
    assert set(results) == set(Support)
    assert results.count(Support.SUPPORTED) > len(results) / 2
