"""Which sets of optional equipment are verified: a bounded number, the serial's own always."""

from __future__ import annotations

from pathlib import Path

import pytest

from dossier.procedures.variants import EVERY, PAIRS, variants
from dossier.procedures.verify import Verification, verify
from dossier.project import load
from procedures.workbench import MODEL, RIG, Edit, step, written


def names(count: int) -> list[str]:
    return [f"item-{number:02d}" for number in range(count)]


@pytest.mark.parametrize("count", range(EVERY + 1))
def test_few_items_are_verified_in_every_set(count: int) -> None:
    made = variants((), names(count))
    assert (len(set(made.left_out)), made.possible, made.words) == (2**count, 2**count, "")


@pytest.mark.parametrize("count", [EVERY + 1, PAIRS, PAIRS + 1, 20, 40])
def test_many_items_are_verified_in_a_bounded_number_of_sets(count: int) -> None:
    made = variants((), names(count))
    assert len(made.left_out) == len(set(made.left_out)) <= 70
    assert made.words


@pytest.mark.parametrize("count", [0, 3, EVERY + 1, 20])
def test_the_set_of_the_serial_comes_first(count: int) -> None:
    own = ["elsewhere", *names(count)[::2]]
    assert variants(own, names(count)).left_out[0] == frozenset(own)


def test_twenty_items_are_each_put_in_or_left_out_once() -> None:
    own = frozenset(names(20)[:7])
    sets = variants(own, names(20)).left_out
    assert {one for other in sets for one in other ^ own if len(other ^ own) == 1} == set(names(20))


def test_between_the_bounds_each_pair_is_changed() -> None:
    sets = variants((), names(PAIRS)).left_out
    assert sum(len(one) == 2 for one in sets) == PAIRS * (PAIRS - 1) // 2


@pytest.mark.parametrize("count", [3, EVERY + 1, 20])
def test_an_item_that_no_list_mentions_stays_left_out(count: int) -> None:
    assert all("elsewhere" in one for one in variants(["elsewhere"], names(count)).left_out)


@pytest.mark.parametrize("count", [EVERY + 1, 20])
def test_the_sets_with_every_item_and_with_none_are_verified(count: int) -> None:
    sets = variants(names(count)[:2], names(count)).left_out
    assert {frozenset(), frozenset(names(count))} <= set(sets)


def with_options(folder: Path, count: int) -> Verification:
    """Verify the bench with so many optional items, each with a look of its own in the list."""
    items = "".join(
        f'  {name}: {{name: "{name}", group: instruments, mass: "1 kg", arm: "0 m", optional: true}}\n'
        for name in names(count)
    )
    checks = "".join(
        f"  {name}: {{name: {name}, option: {name}, required_in: [rig]}}\n" for name in names(count)
    )
    looks = "".join(
        f"      - do: Look at {name}.\n        expect: It is in.\n        option: {name}\n"
        f"        acts: [{{act: check, what: {name}}}]\n"
        for name in names(count)
    )
    edits = (
        Edit("aircraft.yaml", "  wing: {name: Wing,", items + "  wing: {name: Wing,"),
        Edit(MODEL, "checks:\n", "checks:\n" + checks),
        Edit(RIG, step("Connect the battery"), looks + step("Connect the battery")),
    )
    return verify(load(written(folder, *edits), ()), ())


def test_twenty_options_are_verified_in_part_and_the_note_says_which(tmp_path: Path) -> None:
    found = with_options(tmp_path, 20)
    (told,) = [finding.message for finding in found.findings if finding.code == "V008"]
    assert told.startswith("the lists are verified with 22 of 1048576 sets of optional equipment: that of")


def test_the_note_counts_the_sets_that_were_replayed(tmp_path: Path) -> None:
    found = with_options(tmp_path, 20)
    assert len({report.variant for report in found.reports}) == 22


def test_two_options_are_verified_in_full_and_without_a_note(tmp_path: Path) -> None:
    found = with_options(tmp_path, 2)
    assert len({report.variant for report in found.reports}) == 4
    assert [finding for finding in found.findings if finding.code == "V008"] == []
