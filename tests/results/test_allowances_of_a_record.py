"""What of this aircraft a rule may leave out: the piece that is fitted, by its own mass if it
is on record."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from sample_project import Draft, event, support, weighing

from dossier.results.allowances import allowances

LISTED = "9 kg"


def draft(**fitted: Any) -> Draft:
    made = Draft()
    made.aircraft["items"]["parachute"] = {
        "name": "Parachute",
        "group": "safety",
        "mass": LISTED,
        "arm": "0.5 m",
        "optional": True,
        "allowance": "parachute",
    }
    if fitted:
        made.record["fitted"] = {"parachute": fitted}
    return made


def change(on: str, **parts: Any) -> dict[str, Any]:
    return event("equipment-change", on, item="parachute", **parts)


def part(mass: str, name: str = "Parachute") -> dict[str, str]:
    return {"name": name, "mass": mass, "arm": "0.5 m"}


def found(made: Draft, folder: Path) -> Any:
    dossier = made.make(folder)
    return allowances(dossier.project.aircraft, dossier.record, dossier.state).get("parachute", ())


def test_a_piece_that_was_weighed_counts_by_its_own_mass(tmp_path: Path) -> None:
    (one,) = found(draft(mass="8.8 kg ± 0.2 kg"), tmp_path)
    assert (one.mass.value, one.mass.standard_uncertainty) == pytest.approx((8.8, 0.1))
    assert one.is_of_piece


def test_without_a_mass_in_the_record_that_of_the_list_stands_in_and_is_told_apart(tmp_path: Path) -> None:
    (one,) = found(draft(serial_number="RP-1"), tmp_path)
    assert (one.mass.text, one.is_of_piece) == (LISTED, False)


def test_a_piece_that_replaced_the_first_counts_by_the_mass_of_the_change(tmp_path: Path) -> None:
    made = draft(mass="8.8 kg ± 0.2 kg")
    made.events.append(
        change("2026-02-01", fitted=[part("9.4 kg ± 0.1 kg")], removed=[part("8.8 kg ± 0.2 kg")])
    )
    (one,) = found(made, tmp_path)
    assert one.mass.value == pytest.approx(9.4)


def test_a_piece_in_two_parts_counts_as_one(tmp_path: Path) -> None:
    # 8.0 kg ± 0.3 kg and 1.0 kg ± 0.4 kg, independent: 9.0 kg, u = sqrt(0.15² + 0.20²) kg (JCGM 100, 5.1.2)
    made = draft()
    made.record["items_left_out"] = ["parachute"]
    parts = [part("8.0 kg ± 0.3 kg", "Canister"), part("1.0 kg ± 0.4 kg", "Bridle")]
    made.events.append(change("2026-02-01", fitted=parts))
    (one,) = found(made, tmp_path)
    assert (one.mass.value, one.mass.standard_uncertainty) == pytest.approx((9.0, 0.25))


def test_a_piece_that_was_taken_out_is_not_left_out_of_anything(tmp_path: Path) -> None:
    made = draft(mass="8.8 kg ± 0.2 kg")
    made.events.append(change("2026-02-01", removed=[part("8.8 kg ± 0.2 kg")]))
    assert found(made, tmp_path) == ()


def test_a_mass_that_went_in_after_the_weighing_and_is_left_out_again_cancels_with_its_error(
    tmp_path: Path,
) -> None:
    # fitted after the weighing it is in the empty mass; the rule takes the piece off: no error of it is left
    made = draft()
    made.record["items_left_out"] = ["parachute"]
    made.events.append(
        weighing(support("nose", "30 kg", "30 kg", arm="0 m"), support("tail", "30 kg", "30 kg", arm="1 m"))
    )
    made.events.append(change("2026-03-05", fitted=[part("9 kg ± 2 kg")]))
    dossier = made.make(tmp_path)
    counted = dossier.figures["counted_mass.us-14-cfr-103.e-1.battery_not_counted"]
    assert counted.value == pytest.approx(60.0)
    assert counted.standard_uncertainty == pytest.approx(0.0, abs=1e-9)
