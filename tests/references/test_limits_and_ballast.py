"""The printed envelopes and ballast, reproduced through a project: limits over mass, and pieces that bring
a loading inside."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from book_record import INCH, POUND, book, limits, weighed, without_battery
from published import as_printed, number
from sample_project import Draft

from dossier.dossier import Dossier
from dossier.results.loading import LoadRow

FULLER = 10
"""In lb: the step of the printed table of WB-038."""


def corners(rows: list[dict[str, str]]) -> list[tuple[str, str, str]]:
    """Turn printed corners into the order of a record, the lightest first."""
    return [(row["weight_lb"], row["fwd_in"], row["aft_in"]) for row in reversed(rows)]


def pilot(draft: Draft, lightest: Any, heaviest: Any, arm: Any = "0") -> Draft:
    draft.aircraft["loading"]["seat"] |= {
        "arm": f"{arm} in",
        "minimum": f"{lightest} lb",
        "maximum": f"{heaviest} lb",
    }
    return draft


# --- the limits at a mass


@pytest.mark.parametrize("mass", ["2500", "3090", "3400", "3700"])
def test_the_forward_limit_at_a_mass_is_the_printed_or_interpolated_one(mass: str, tmp_path: Path) -> None:
    # only the corners of WB-014 are printed; the values between them and below the lowest were computed
    table = book("WB-014")
    rows = corners(table.given["limits"])
    draft = pilot(limits(without_battery(Draft()), rows[-1][0], *rows), "170", "170", "90")
    del draft.aircraft["loading"]["ballast"]
    draft.events.append(weighed((number(mass) - 170, "90")))
    row = _rows(draft.make(tmp_path))[0]
    assert row.forward is not None
    assert (row.cg - row.forward) / INCH == as_printed(table.expect[f"fwd_at_{mass}_in"])


def _rows(dossier: Dossier) -> tuple[LoadRow, ...]:
    assert dossier.loadings is not None
    return dossier.loadings.rows


@pytest.fixture(scope="module")
def placard(tmp_path_factory: pytest.TempPathFactory) -> dict[int, LoadRow]:
    """WB-038 in one project: batteries 50 lb apart and pilots 10 lb apart give a loading at every
    printed mass."""
    given = book("WB-038").given
    rows = corners(given["cg_limits"])
    draft = pilot(limits(Draft(), rows[-1][0], *rows), "100", 100 + 4 * FULLER)
    del draft.aircraft["loading"]["ballast"]
    option = draft.battery["options"].pop("standard-pack")
    span = {key: int(given["weights_lb"][key]) for key in ("start", "stop", "step")}
    assert span["step"] == FULLER
    for number_, mass in enumerate(range(span["start"], span["stop"] + 1, 5 * FULLER)):
        draft.battery["options"][f"pack-{number_}"] = {**option, "mass": f"{mass - 1100} lb", "arm": "90 in"}
    draft.compliance["claims"] = {}
    draft.events.append(weighed(("1000", "90")))
    made = _rows(draft.make(tmp_path_factory.mktemp("placard")))
    return {round(row.mass / POUND): row for row in made if row.forward is not None}


def _limit(row: LoadRow, column: str) -> float:
    """Moment limit in lb in / 100."""
    assert row.forward is not None
    assert row.aft is not None
    arm = row.cg - row.forward if column == "min" else row.cg + row.aft
    return row.mass * arm / (POUND * INCH * 100)


def misprints(placard: dict[int, LoadRow]) -> list[dict[str, Any]]:
    """Entries of the printed table that are off by more than 1.5: the book rounds arms and moments."""
    given = book("WB-038").given
    found = []
    for index, mass in enumerate(range(2400, 2951, FULLER)):
        for column in ("min", "max"):
            printed = given[f"printed_{column}_moment_per_100"][index]
            computed = _limit(placard[mass], column)
            if abs(computed - float(printed)) > 1.5:
                found.append(
                    {"weight_lb": str(mass), "column": column, "printed": printed, "computed": computed}
                )
    return found


def test_every_printed_mass_of_wb_038_has_a_loading(placard: dict[int, LoadRow]) -> None:
    assert set(range(2400, 2951, FULLER)) <= set(placard)


def test_the_printed_moment_limits_of_wb_038_hold_but_for_three_misprints(
    placard: dict[int, LoadRow],
) -> None:
    expected = book("WB-038").expect["misprints_found"]
    keys = ("weight_lb", "column", "printed")
    found = sorted(tuple(row[key] for key in keys) for row in misprints(placard))
    assert book("WB-038").disagrees
    assert found == sorted(tuple(row[key] for key in keys) for row in expected)


@pytest.mark.parametrize("row", range(3))
def test_each_misprint_of_wb_038_is_held_at_its_recomputed_value(
    row: int, placard: dict[int, LoadRow]
) -> None:
    wrong = book("WB-038").expect["misprints_found"][row]
    assert _limit(placard[int(wrong["weight_lb"])], wrong["column"]) == as_printed(wrong["computed"])


def test_the_printed_sample_of_wb_038_is_inside(tmp_path: Path) -> None:
    table = book("WB-038")
    sample = table.given["sample"]
    mass, moment = number(sample["weight_lb"]), number(sample["moment_per_100"]) * 100
    rows = corners(table.given["cg_limits"])
    draft = pilot(limits(without_battery(Draft()), rows[-1][0], *rows), "170", "170")
    del draft.aircraft["loading"]["ballast"]
    draft.events.append(weighed((mass - 170, moment / (mass - 170))))
    row = _rows(draft.make(tmp_path))[0]
    assert row.cg * row.mass / (POUND * INCH) == pytest.approx(moment)
    assert table.expect["sample_within_limits"] == "true"
    assert row.inside


# --- ballast: whole pieces, rounded up


def pieces_of_a_pound(cg_in: float, folder: Path) -> Dossier:
    """WB-019: 3,034 lb behind an aft limit of 99 in, ballast at 60 in; the pilot sits at the centre of
    gravity."""
    given = book("WB-019").given
    mass, limit = number(given["total_weight_lb"]), given["limit_in"]
    draft = pilot(
        limits(without_battery(Draft()), "4000", ("100", "0", limit), ("4000", "0", limit)),
        "170",
        "170",
        cg_in,
    )
    draft.aircraft["loading"]["ballast"] = {
        "arm": f"{given['ballast_arm_in']} in",
        "piece": "1 lb",
        "pieces": "60",
    }
    draft.events.append(weighed((mass - 170, cg_in)))
    return draft.make(folder)


def needed(dossier: Dossier) -> int:
    assert dossier.loadings is not None
    pieces = dossier.loadings.ballast_pieces["standard-pack"]
    assert pieces is not None
    return pieces


def test_the_pieces_of_a_pound_that_bring_wb_019_inside_are_the_printed_mass_rounded_up(
    tmp_path: Path,
) -> None:
    table = book("WB-019")
    dossier = pieces_of_a_pound(number(table.given["cg_in"]), tmp_path)
    assert needed(dossier) == int(table.expect["ballast_lb_rounded_up"])


def test_the_loading_with_the_ballast_of_wb_019_has_the_printed_mass_moment_and_centre(
    tmp_path: Path,
) -> None:
    # the ballast was found from the rounded centre, and checked from the unrounded one of 302,060.5
    # lb in / 3,034 lb
    table = book("WB-019")
    dossier = pieces_of_a_pound(302060.5 / number(table.given["total_weight_lb"]), tmp_path)
    row = next(
        row
        for row in _rows(dossier)
        if round(row.ballast / POUND) == int(table.expect["ballast_lb_rounded_up"])
    )
    assert row.mass / POUND == as_printed(table.expect["new_weight_lb"])
    assert row.mass * row.cg / (POUND * INCH) == as_printed(table.expect["new_moment_lb_in"])
    assert row.cg / INCH == as_printed(table.expect["new_cg_in"])
    assert row.inside


def test_the_unrounded_centre_of_wb_019_needs_three_pieces_less_than_printed(tmp_path: Path) -> None:
    # the centre is 99.5585 in and was rounded to 99.60 before use: 43.45 lb and not 46.68 lb
    assert number(book("WB-019").given["cg_in"]) == 99.6
    assert needed(pieces_of_a_pound(99.5585, tmp_path)) == 44


def test_one_piece_less_leaves_wb_019_outside(tmp_path: Path) -> None:
    dossier = pieces_of_a_pound(number(book("WB-019").given["cg_in"]), tmp_path)
    row = next(row for row in _rows(dossier) if round(row.ballast / POUND) == needed(dossier) - 1)
    assert not row.inside
