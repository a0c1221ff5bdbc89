"""Claims of how long rigging takes: the lists of the type state their times, and that shows nothing."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from demos import demo
from invented import read

from dossier.judge.claim_lists import rigging_words
from dossier.judge.claim_result import Support
from dossier.model.procedure import Procedure

UNMEASURED = "Not measured: no event of a serial records it"


def listing(folder: Path, kind: str = "rigging", duration: str = "", times: tuple[str, ...] = ("",)) -> Any:
    steps = "\n".join(
        "      - do: Look at it.\n        expect: It is there." + (f"\n        time: {time}" if time else "")
        for time in times
    )
    head = f"title: A list\nkind: {kind}\npurpose: It is rigged.\npeople: 2\nclosing: Complete.\n"
    head += f"duration: {duration}\n" if duration else ""
    path = folder / "list.yaml"
    path.write_text(f"{head}sections:\n  - title: First\n    steps:\n{steps}\n", "utf-8")
    return read(path, "list.yaml", Procedure)


def test_the_times_of_the_lists_are_added_up(tmp_path: Path) -> None:
    lists = [listing(tmp_path, duration=time) for time in ("18 min", "10 min", "7 min")]
    assert rigging_words(lists) == f"{UNMEASURED}; the 3 rigging lists of the type state 35 min together."


def test_one_list_states_its_time(tmp_path: Path) -> None:
    words = rigging_words([listing(tmp_path, duration="20 min")])
    assert words == f"{UNMEASURED}; the rigging list of the type states 20 min."


def test_a_list_without_a_time_is_the_sum_of_its_steps(tmp_path: Path) -> None:
    words = rigging_words([listing(tmp_path, times=("90 s", "3 min", "90 s"))])
    assert "states 6 min" in words


@pytest.mark.parametrize("times", [("",), ("3 min", "")])
def test_no_sum_is_told_where_a_list_says_nothing(times: tuple[str, ...], tmp_path: Path) -> None:
    lists = [listing(tmp_path, duration="20 min"), listing(tmp_path, times=times)]
    assert rigging_words(lists) == f"{UNMEASURED}; 1 of the 2 rigging lists of the type state a time."


def test_lists_of_another_kind_do_not_count(tmp_path: Path) -> None:
    lists = [listing(tmp_path, kind="de-rigging", duration="20 min")]
    assert rigging_words(lists) == f"{UNMEASURED}, and the type has no list of rigging."


@pytest.mark.parametrize(
    ("project", "serial", "minutes"), [("quillet-e1", "0003", 35), ("barrow-t2", "T2-007", 48)]
)
def test_a_claim_of_rigging_time_is_not_shown_and_says_what_the_lists_state(
    project: str, serial: str, minutes: int
) -> None:
    (claim,) = [one for one in demo(project)[serial].claims if one.claim == "rigging-time"]
    assert claim.result is Support.NOT_SHOWN
    assert f"state {minutes} min together" in claim.reason
