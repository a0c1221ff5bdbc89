"""Logs of capacity tests, held against the record."""

from __future__ import annotations

from pathlib import Path

import pytest
from demos import NAMES, demo
from sample_project import Draft, pack_fitted

from dossier.dossier import Dossier
from dossier.findings import Rejected

HEAD = "Test Time / s,Voltage / V,Current / A\n"
SERIES = 14


def log(amps: float = 20.0, seconds: int = 10920, sign: int = 1) -> str:
    rows = [f"{t},{57.0 - 13.0 * t / seconds:.2f},{sign * amps}" for t in (1, *range(120, seconds + 1, 120))]
    return HEAD + "0,58.10,0\n" + "\n".join(rows) + f"\n{seconds + 2000},44.90,0\n"


def made(folder: Path, text: str, stated: str, sign: str = "positive") -> Dossier:
    draft = Draft()
    more = {
        "measured_capacity": stated,
        "evidence": [{"file": "evidence/log.csv", "shows": "A discharge <b>&</b> {{ 7 * 7 }}"}],
        "log": {"file": "evidence/log.csv", "discharge": sign},
    }
    draft.events.append(pack_fitted("P-1", "18.4 kg", **more))  # type: ignore[arg-type]
    evidence = folder / "project/serials/0001/evidence"
    evidence.mkdir(parents=True)
    (evidence / "log.csv").write_text(text, "utf-8")
    return draft.make(folder)


def codes(dossier: Dossier) -> set[str]:
    return {finding.code for finding in dossier.findings}


@pytest.mark.parametrize("project", NAMES)
def test_every_stated_capacity_of_the_demonstrations_follows_from_its_log(project: str) -> None:
    logs = [one for dossier in demo(project).values() for one in dossier.capacity_logs.logs]
    assert logs
    assert all(one.agrees and one.acceptance.accepted for one in logs)


def test_the_capacity_is_the_charge_over_the_part_of_the_table(tmp_path: Path) -> None:
    dossier = made(tmp_path, log(), "68 Ah ± 1 Ah")
    # by hand: 20 A for 10920 s; 58.10 V and 44.90 V at rest in 14 groups on the lines of the sample cell
    start = 0.9 + 0.1 * (58.10 / SERIES - 4.08) / 0.12
    end = 0.1 * (44.90 / SERIES - 2.9) / 0.4
    whole = 20 * 10920 / (start - end)
    assert dossier.figures["logged_capacity.test_1"].value == pytest.approx(whole, rel=1e-3)


def test_a_capacity_that_its_log_gives_has_no_remark(tmp_path: Path) -> None:
    assert not {code for code in codes(made(tmp_path, log(), "68 Ah ± 1 Ah")) if code.startswith("L")}


def test_a_capacity_that_its_log_does_not_give_is_a_warning(tmp_path: Path) -> None:
    assert "L009" in codes(made(tmp_path, log(), "80 Ah ± 1 Ah"))


def test_the_sign_of_the_current_is_the_files_own(tmp_path: Path) -> None:
    one = made(tmp_path / "a", log(), "68 Ah ± 1 Ah")
    other = made(tmp_path / "b", log(sign=-1), "68 Ah ± 1 Ah", sign="negative")
    name = "logged_capacity.test_1"
    assert one.figures[name].value == other.figures[name].value


def test_a_log_that_is_no_table_refuses_the_record(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as refused:
        made(tmp_path, "<script>alert(1)</script>", "68 Ah")
    assert {finding.code for finding in refused.value.findings} == {"R020"}


def test_a_log_whose_clock_goes_back_refuses_the_record(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as refused:
        made(tmp_path, HEAD + "0,58.1,0\n10,57,20\n5,56,20\n20,55,20\n", "68 Ah")
    assert "L003" in {finding.code for finding in refused.value.findings}
