"""Arms that were measured with one tape err together, as scales of one certificate do."""

from __future__ import annotations

from math import sqrt
from pathlib import Path

import pytest
from sample_project import Draft, Tree, support, weighing

from dossier.dossier import Dossier
from dossier.findings import Rejected

A = 0.006
"""Largest error of an instrument, in m: rectangular, u = a/√3 (JCGM 100:2008, 4.3.7)."""
U = A / sqrt(3)
MASSES = {"front": 30.0, "left": 50.0, "right": 70.0}
ARMS = {"front": 0.4, "left": 1.2, "right": 1.4}
TOTAL = sum(MASSES.values())


def tape(certificate: str = "T-1", **more: str) -> Tree:
    return {
        "name": f"Tape {certificate}", "serial_number": "1", "calibrated": "2026-01-12",
        "certificate": certificate, "maximum_permissible_error": f"{A} m", **more,
    }  # fmt: skip


def weighed(folder: Path, with_: dict[str, list[str]], instruments: Tree, **arms: str) -> Dossier:
    """Weigh on three supports with scales that do not err."""
    points = [
        {
            **support(name, f"{mass} kg", arm=arms.get(name, f"{ARMS[name]} m")),
            "arm_measured_with": with_.get(name, []),
        }
        for name, mass in MASSES.items()
    ]
    draft = Draft()
    draft.events.append(weighing(*points, instruments=instruments))
    return draft.make(folder)


def spread(dossier: Dossier, figure: str = "weighed_cg") -> float:
    return dossier.figures[figure].standard_uncertainty


ALL = {support: ["tape"] for support in MASSES}


def test_arms_of_one_tape_move_the_centre_of_gravity_by_the_whole_error(tmp_path: Path) -> None:
    # every arm longer by d: the weighted mean is longer by d
    assert spread(weighed(tmp_path, ALL, {"tape": tape()})) == pytest.approx(U, rel=1e-6)


def test_arms_of_tapes_with_their_own_certificates_add_in_squares(tmp_path: Path) -> None:
    instruments = {name: tape(name) for name in MASSES}
    dossier = weighed(tmp_path, {name: [name] for name in MASSES}, instruments)
    expected = U * sqrt(sum((mass / TOTAL) ** 2 for mass in MASSES.values()))
    assert spread(dossier) == pytest.approx(expected, rel=1e-6)


def test_two_tapes_of_one_certificate_err_as_one(tmp_path: Path) -> None:
    instruments = {name: tape("T-1") for name in MASSES}
    dossier = weighed(tmp_path, {name: [name] for name in MASSES}, instruments)
    assert spread(dossier) == pytest.approx(U, rel=1e-6)


def test_two_arms_of_one_tape_and_a_third_without_it(tmp_path: Path) -> None:
    dossier = weighed(tmp_path, {"left": ["tape"], "right": ["tape"]}, {"tape": tape()})
    assert spread(dossier) == pytest.approx(U * (MASSES["left"] + MASSES["right"]) / TOTAL, rel=1e-6)


def test_the_own_error_of_an_arm_comes_on_top_in_squares(tmp_path: Path) -> None:
    own = 0.010
    dossier = weighed(tmp_path, ALL, {"tape": tape()}, left=f"1.2 m ± {2 * own} m")
    assert spread(dossier) == pytest.approx(sqrt(U**2 + (own * MASSES["left"] / TOTAL) ** 2), rel=1e-6)


def test_a_tape_errs_away_from_the_datum_on_both_sides(tmp_path: Path) -> None:
    # 30 kg ahead of the datum pull against 120 kg behind it: u = U (50 + 70 - 30) / 150
    dossier = weighed(tmp_path, ALL, {"tape": tape()}, front="-0.4 m")
    assert spread(dossier) == pytest.approx(U * 90 / TOTAL, rel=1e-6)


def test_what_marks_the_datum_moves_every_arm_the_same_way(tmp_path: Path) -> None:
    dossier = weighed(tmp_path, ALL, {"tape": tape(acts="alike")}, front="-0.4 m")
    assert spread(dossier) == pytest.approx(U, rel=1e-6)


def test_two_instruments_in_one_arm_add_in_squares(tmp_path: Path) -> None:
    instruments = {"tape": tape("T-1"), "plumb": tape("P-1", acts="alike")}
    dossier = weighed(tmp_path, {support: ["tape", "plumb"] for support in MASSES}, instruments)
    assert spread(dossier) == pytest.approx(U * sqrt(2), rel=1e-6)


def test_the_error_of_a_tape_goes_through_to_the_empty_aircraft(tmp_path: Path) -> None:
    dossier = weighed(tmp_path, ALL, {"tape": tape()})
    figure = dossier.figures["empty_cg.without_battery"]
    assert figure.standard_uncertainty == pytest.approx(U, rel=1e-6)
    assert [part.label for part in figure.contributions()] == ["calibration of Tape T-1 (T-1)"]


def test_moments_of_one_tape_are_correlated_through_their_arms(tmp_path: Path) -> None:
    dossier = weighed(tmp_path, ALL, {"tape": tape()})
    # u of a moment is m u(x), and all of one tape add without squares
    assert spread(dossier, "weighed_moment") == pytest.approx(U * TOTAL, rel=1e-6)


def test_without_instruments_an_arm_has_its_own_error_alone(tmp_path: Path) -> None:
    dossier = weighed(tmp_path, {}, {}, left="1.2 m ± 0.02 m")
    assert spread(dossier) == pytest.approx(0.01 * MASSES["left"] / TOTAL, rel=1e-6)


def test_an_instrument_that_is_not_listed_is_refused_with_its_place(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as refused:
        weighed(tmp_path, {"left": ["tapes"]}, {"tape": tape()})
    (finding,) = refused.value.findings
    assert "instrument" in finding.message
    assert finding.place
    assert "arm_measured_with" in finding.place.path


def test_an_instrument_calibrated_after_the_weighing_is_told(tmp_path: Path) -> None:
    dossier = weighed(tmp_path, ALL, {"tape": tape(calibrated="2026-05-01")})
    assert [finding.message for finding in dossier.findings if finding.code == "W004"] == [
        "Tape T-1 was calibrated on 2026-05-01, after this weighing"
    ]
