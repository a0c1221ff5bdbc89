"""The printed changes of equipment and shifts of weight, reproduced through a record: a weighing and what
came after it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from book_record import INCH, POUND, book, in_inches, in_pounds, item_lb, moment_lb_in, rows_of, weighed
from published import as_printed, number
from sample_project import Draft, Tree, event

from dossier.dossier import Dossier

BEFORE = ("weighed_mass", "weighed_cg")
AFTER = ("empty_mass.without_battery", "empty_cg.without_battery")


def changed(
    folder: Path, mass: Any, arm: Any, *, fitted: list[Tree] | None = None, removed: list[Tree] | None = None
) -> Dossier:
    """Weigh an aircraft, in lb and inches, and change its equipment."""
    draft = Draft()
    draft.events.extend(
        [
            weighed((mass, arm)),
            event("equipment-change", "2026-03-02", fitted=fitted or [], removed=removed or []),
        ]
    )
    return draft.make(folder)


def shift(dossier: Dossier) -> float:
    """How far the centre of gravity moved, in inches; aft is positive."""
    return in_inches(dossier, AFTER[1]) - in_inches(dossier, BEFORE[1])


# --- signs


@pytest.mark.parametrize("row", [0, 1])
def test_something_fitted_adds_the_printed_moment(row: int, tmp_path: Path) -> None:
    table = book("WB-004")
    case = table.given["cases"][row]
    dossier = changed(tmp_path, 300, 20, fitted=[item_lb("item", case["weight_lb"], case["arm_in"])])
    assert moment_lb_in(dossier, *AFTER) - moment_lb_in(dossier, *BEFORE) == as_printed(
        table.expect["moments_lb_in"][row]
    )


@pytest.mark.parametrize("row", range(4))
def test_fitting_and_removing_aft_and_forward_change_the_moment_by_the_printed_sign(
    row: int, tmp_path: Path
) -> None:
    signs = book("WB-004").given["sign_table"][row]
    thing = [item_lb("item", 5, f"{signs['arm']}40")]
    how = {"fitted": thing} if signs["weight"] == "+" else {"removed": thing}
    dossier = changed(tmp_path, 300, 20, **how)
    moved = moment_lb_in(dossier, *AFTER) - moment_lb_in(dossier, *BEFORE)
    assert ("+" if moved > 0 else "-") == signs["moment"]


# --- a list of equipment in and out


@pytest.fixture(scope="module")
def equipment_list(tmp_path_factory: pytest.TempPathFactory) -> Dossier:
    """WB-021: three things in, three out."""
    rows = rows_of(book("WB-021"))
    items = [(f"row {n}", mass, arm) for n, (mass, arm) in enumerate(rows)][1:]
    return changed(
        tmp_path_factory.mktemp("wb021"),
        *rows[0],
        fitted=[item_lb(*row) for row in items if number(row[1]) > 0],
        removed=[item_lb(name, -number(mass), arm) for name, mass, arm in items if number(mass) < 0],
    )


def test_the_list_of_changes_gives_the_printed_mass(equipment_list: Dossier) -> None:
    assert in_pounds(equipment_list, AFTER[0]) == as_printed(book("WB-021").expect["total_weight_lb"])


def test_the_list_of_changes_gives_the_printed_moment(equipment_list: Dossier) -> None:
    assert moment_lb_in(equipment_list, *AFTER) == as_printed(book("WB-021").expect["total_moment_lb_in"])


def test_the_list_of_changes_gives_the_printed_centre(equipment_list: Dossier) -> None:
    assert in_inches(equipment_list, AFTER[1]) == as_printed(book("WB-021").expect["cg_in"])


def test_the_list_of_changes_changes_mass_and_centre_by_what_is_printed(equipment_list: Dossier) -> None:
    expect = book("WB-021").expect
    mass = in_pounds(equipment_list, AFTER[0]) - in_pounds(equipment_list, BEFORE[0])
    assert mass == as_printed(expect["delta_weight_lb"])
    assert shift(equipment_list) == as_printed(expect["delta_cg_in"])


def test_each_row_of_the_list_has_its_printed_moment(equipment_list: Dossier) -> None:
    assert equipment_list.empty is not None
    found = sorted(row.mass.value * row.arm.value / (POUND * INCH) for row in equipment_list.empty.rows)
    printed = sorted(book("WB-021").expect["moments_lb_in"][1:], key=float)
    assert found == [as_printed(text) for text in printed]


# --- something moves, is added, or must be moved


def test_a_moment_that_a_moving_part_takes_along_moves_the_centre_as_printed(tmp_path: Path) -> None:
    # the book's part is a retracting gear; here 1 lb goes forward by as many inches as the moment says
    table = book("WB-013")
    moved = number(table.given["moment_change_lb_in"])
    dossier = changed(
        tmp_path,
        table.given["weight_lb"],
        90,
        removed=[item_lb("part", 1, 0)],
        fitted=[item_lb("part", 1, moved)],
    )
    assert shift(dossier) == as_printed(table.expect["delta_cg_in"])


@pytest.fixture(scope="module")
def shifted(tmp_path_factory: pytest.TempPathFactory) -> Dossier:
    """WB-034: 100 lb from one station to another."""
    given = book("WB-034").given
    centre = number(given["total_moment_lb_in"]) / number(given["total_weight_lb"])
    cargo = [item_lb("cargo", given["shifted_lb"], given[key]) for key in ("from_in", "to_in")]
    folder = tmp_path_factory.mktemp("wb034")
    return changed(folder, given["total_weight_lb"], centre, removed=cargo[:1], fitted=cargo[1:])


def test_a_shifted_weight_gives_the_printed_moment(shifted: Dossier) -> None:
    assert moment_lb_in(shifted, *AFTER) == as_printed(book("WB-034").expect["new_moment_lb_in"])


def test_a_shifted_weight_gives_the_printed_centre_and_shift(shifted: Dossier) -> None:
    assert in_inches(shifted, AFTER[1]) == as_printed(book("WB-034").expect["new_cg_in"])
    assert shift(shifted) == as_printed(book("WB-034").expect["delta_cg_in"])


def test_a_shifted_weight_leaves_the_mass_as_it_was(shifted: Dossier) -> None:
    assert in_pounds(shifted, AFTER[0]) == as_printed(book("WB-034").given["total_weight_lb"])


def test_the_printed_weight_to_shift_brings_the_centre_to_its_limit(tmp_path: Path) -> None:
    # the book solves for the weight; a record holds what was done, so the printed weight is moved
    table = book("WB-035")
    given = table.given
    cargo = [item_lb("cargo", table.expect["weight_to_shift_lb"], given[key]) for key in ("from_in", "to_in")]
    dossier = changed(tmp_path, given["total_weight_lb"], given["cg_in"], removed=cargo[:1], fitted=cargo[1:])
    assert in_inches(dossier, AFTER[1]) == as_printed(given["limit_in"])


@pytest.fixture(scope="module")
def added(tmp_path_factory: pytest.TempPathFactory) -> Dossier:
    """WB-036: 140 lb more."""
    given = book("WB-036").given
    extra = [item_lb("cargo", given["added_lb"], given["at_in"])]
    return changed(tmp_path_factory.mktemp("wb036"), given["total_weight_lb"], given["cg_in"], fitted=extra)


def test_an_added_weight_gives_the_printed_mass(added: Dossier) -> None:
    assert in_pounds(added, AFTER[0]) == as_printed(book("WB-036").expect["new_weight_lb"])


def test_an_added_weight_gives_the_printed_centre_and_shift(added: Dossier) -> None:
    assert in_inches(added, AFTER[1]) == as_printed(book("WB-036").expect["new_cg_in"])
    assert shift(added) == as_printed(book("WB-036").expect["delta_cg_in"])
