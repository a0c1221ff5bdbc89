"""The errors of a weighing: what scales share, what they do not, and what the record says too little of."""

from __future__ import annotations

from math import radians, sqrt, tan
from pathlib import Path
from statistics import fmean, stdev

import pytest
from sample_project import Draft, Tree, item, scale, support, weighing

from dossier.dossier import Dossier
from dossier.figures import Figure
from dossier.findings import Rejected

U = 0.3 / sqrt(3)
"""Standard uncertainty of a scale with a largest error of 0.3 kg: rectangular (JCGM 100:2008, 4.3.7)."""
NAMES = ("left", "right", "tail")
ARMS = (0.3, 0.3, 3.6)
READINGS = (50.0, 50.0, 10.0)


def made(folder: Path, event: Tree) -> Dossier:
    draft = Draft()
    draft.events.append(event)
    return draft.make(folder)


def three(certificates: str, **of_scale: str) -> Tree:
    """Weigh on three scales; ``certificates`` has one letter for each."""
    scales = {
        name: scale(name=name, certificate=letter, **({"maximum_permissible_error": "0.3 kg"} | of_scale))
        for name, letter in zip(NAMES, certificates, strict=True)
    }
    points = [
        support(name, f"{mass} kg", arm=f"{arm} m", scale=name)
        for name, mass, arm in zip(NAMES, READINGS, ARMS, strict=True)
    ]
    return weighing(*points, scales=scales)


def one(*readings: str, **of_scale: str) -> Tree:
    return weighing(support("all", *readings, arm="0.5 m"), scales={"scale": scale(**of_scale)})


def mass(dossier: Dossier) -> Figure:
    return dossier.figures["weighed_mass"]


# --- calibration


def test_scales_of_one_certificate_err_together(tmp_path: Path) -> None:
    assert mass(made(tmp_path, three("AAA"))).standard_uncertainty == pytest.approx(3 * U)


def test_scales_of_their_own_certificates_err_apart(tmp_path: Path) -> None:
    assert mass(made(tmp_path, three("ABC"))).standard_uncertainty == pytest.approx(sqrt(3) * U)


def test_two_scales_of_one_certificate_err_together_and_the_third_apart(tmp_path: Path) -> None:
    assert mass(made(tmp_path, three("AAB"))).standard_uncertainty == pytest.approx(sqrt(2**2 + 1) * U)


def test_two_supports_on_one_scale_share_its_calibration(tmp_path: Path) -> None:
    points = [support(name, "50 kg", arm="0.5 m") for name in ("left", "right")]
    event = weighing(*points, scales={"scale": scale(maximum_permissible_error="0.3 kg")})
    assert mass(made(tmp_path, event)).standard_uncertainty == pytest.approx(2 * U)


@pytest.mark.parametrize(("certificates", "together"), [("AAA", True), ("ABC", False)])
def test_the_centre_of_gravity_takes_each_calibration_at_its_lever(
    certificates: str, together: bool, tmp_path: Path
) -> None:
    dossier = made(tmp_path, three(certificates))
    total = sum(READINGS)
    centre = sum(m * x for m, x in zip(READINGS, ARMS, strict=True)) / total
    slopes = [(x - centre) / total * U for x in ARMS]
    expected = abs(sum(slopes)) if together else sqrt(sum(slope**2 for slope in slopes))
    # to one part in 10,000: the slope is a difference quotient over one standard uncertainty
    assert dossier.figures["weighed_cg"].standard_uncertainty == pytest.approx(expected, rel=1e-4)


def test_the_largest_contribution_names_the_scales_and_their_certificate(tmp_path: Path) -> None:
    first = mass(made(tmp_path, three("AAA", resolution="0.1 kg"))).contributions()[0]
    assert first.label == "calibration of left, right, tail (A)"
    assert first.amount == pytest.approx(3 * U)


# --- last digit, repeatability, tare


def test_the_last_digit_is_a_rectangle_of_half_its_width(tmp_path: Path) -> None:
    dossier = made(tmp_path, one("50 kg", resolution="0.2 kg"))
    assert mass(dossier).standard_uncertainty == pytest.approx(0.1 / sqrt(3))


def test_the_last_digits_of_three_supports_err_apart(tmp_path: Path) -> None:
    dossier = made(tmp_path, three("AAA", maximum_permissible_error="0 kg", resolution="0.2 kg"))
    assert mass(dossier).standard_uncertainty == pytest.approx(sqrt(3) * 0.1 / sqrt(3))


READ = (50.1, 50.3, 50.2, 50.6)


def test_several_readings_count_by_their_mean(tmp_path: Path) -> None:
    assert mass(made(tmp_path, one(*(f"{value} kg" for value in READ)))).value == pytest.approx(fmean(READ))


def test_several_readings_show_their_repeatability(tmp_path: Path) -> None:
    # the standard deviation of the mean (JCGM 100:2008, 4.2.3)
    dossier = made(tmp_path, one(*(f"{value} kg" for value in READ)))
    assert mass(dossier).standard_uncertainty == pytest.approx(stdev(READ) / sqrt(len(READ)))


def test_equal_readings_add_no_repeatability(tmp_path: Path) -> None:
    assert mass(made(tmp_path, one("50.1 kg", "50.1 kg"))).standard_uncertainty == 0


def test_a_tare_is_taken_off_with_its_uncertainty(tmp_path: Path) -> None:
    event = weighing(support("all", "50 kg", arm="0.5 m", tare="2 kg ± 0.4 kg"))
    assert mass(made(tmp_path, event)).value == pytest.approx(48)
    assert mass(made(tmp_path, event)).standard_uncertainty == pytest.approx(0.2)


def test_a_tare_above_its_reading_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as rejected:
        made(tmp_path, weighing(support("all", "2 kg", arm="0.5 m", tare="50 kg")))
    finding = rejected.value.findings[0]
    assert finding.code == "C005"
    assert "tare of 50 kg is larger than the reading of 2 kg" in finding.message


def test_more_taken_off_than_was_weighed_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as rejected:
        made(
            tmp_path, weighing(support("all", "20 kg", arm="0.5 m"), remove=[item("pilot", "80 kg", "0.1 m")])
        )
    assert [finding.code for finding in rejected.value.findings] == ["C005"]


def test_what_is_taken_off_errs_with_its_own_uncertainty(tmp_path: Path) -> None:
    event = weighing(
        support("all", "50 kg", arm="0.5 m"), remove=[item("tool box", "5 kg ± 0.2 kg", "0.1 m")]
    )
    assert mass(made(tmp_path, event)).standard_uncertainty == pytest.approx(0.1)


# --- out of level


def tilted(pitch: str | None, height: str | None) -> Tree:
    more = {key: value for key, value in (("pitch_error", pitch), ("height_of_cg", height)) if value}
    return weighing(support("all", "50 kg", arm="0.5 m"), **more)


def test_an_aircraft_weighed_nose_up_has_its_centre_further_forward_than_it_read(tmp_path: Path) -> None:
    dossier = made(tmp_path, tilted("1 deg", "0.6 m"))
    assert dossier.figures["levelling_error"].value == pytest.approx(0.6 * tan(radians(1)))
    assert dossier.figures["weighed_cg.as_stood"].value == pytest.approx(0.5)
    assert dossier.figures["weighed_cg"].value == pytest.approx(0.5 - 0.6 * tan(radians(1)))


def test_the_uncertainty_of_the_pitch_acts_through_the_height(tmp_path: Path) -> None:
    dossier = made(tmp_path, tilted("0 deg ± 0.2 deg", "0.6 m"))
    assert dossier.figures["weighed_cg"].value == pytest.approx(0.5)
    assert dossier.figures["weighed_cg"].standard_uncertainty == pytest.approx(0.6 * tan(radians(0.1)))


def test_more_than_five_degrees_out_of_level_are_refused(tmp_path: Path) -> None:
    with pytest.raises(Rejected) as rejected:
        made(tmp_path, tilted("5.1 deg", "0.6 m"))
    assert [finding.code for finding in rejected.value.findings] == ["C005"]


@pytest.mark.parametrize(
    ("pitch", "height", "key"), [("1 deg", None, "pitch_error"), (None, "0.6 m", "height_of_cg")]
)
def test_half_of_a_levelling_error_corrects_nothing_and_is_told(
    pitch: str | None, height: str | None, key: str, tmp_path: Path
) -> None:
    dossier = made(tmp_path, tilted(pitch, height))
    told = [finding for finding in dossier.findings if finding.code == "W006"]
    assert "levelling_error" not in dossier.figures
    assert [finding.place and finding.place.text.split(":")[0].strip() for finding in told] == [key]


# --- across


def across(*lateral: str | None) -> Tree:
    points = [
        support(name, f"{value} kg", arm="0.5 m", **({"lateral_arm": arm} if arm else {}))
        for name, value, arm in zip(("left", "right"), (60, 40), lateral, strict=True)
    ]
    return weighing(*points)


def test_a_heavier_left_wheel_puts_the_centre_left_of_the_centre_line(tmp_path: Path) -> None:
    dossier = made(tmp_path, across("-1 m", "1 m"))
    assert dossier.figures["weighed_lateral_cg"].value == pytest.approx((-60 + 40) / 100)


def test_without_lateral_arms_there_is_no_lateral_centre(tmp_path: Path) -> None:
    dossier = made(tmp_path, across(None, None))
    assert "weighed_lateral_cg" not in dossier.figures
    assert "W007" not in {finding.code for finding in dossier.findings}


def test_a_missing_lateral_arm_leaves_the_lateral_centre_out_and_is_told(tmp_path: Path) -> None:
    dossier = made(tmp_path, across("-1 m", None))
    assert "weighed_lateral_cg" not in dossier.figures
    assert ["'right'" in finding.message for finding in dossier.findings if finding.code == "W007"] == [True]


# --- what the builder should know


def codes(folder: Path, event: Tree) -> set[str]:
    return {finding.code for finding in made(folder, event).findings}


def test_a_support_that_was_read_once_is_told(tmp_path: Path) -> None:
    assert "W001" in codes(tmp_path, one("50 kg"))


def test_a_support_that_was_read_twice_is_not_told(tmp_path: Path) -> None:
    assert "W001" not in codes(tmp_path, one("50 kg", "50 kg"))


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        pytest.param("0.0 kg", "0.1 kg", False, id="one digit"),
        pytest.param("0.0 kg", "0.2 kg", True, id="two digits"),
        pytest.param("0.0 kg", "-0.2 kg", True, id="two digits down"),
        pytest.param("0.2 kg", "0.3 kg", False, id="one digit, in numbers that floats do not hold"),
        pytest.param("0 g", "0.2 kg", True, id="two digits in another unit"),
    ],
)
def test_a_zero_that_moved_by_more_than_a_digit_is_told(
    before: str, after: str, told: bool, tmp_path: Path
) -> None:
    event = one("50 kg", "50 kg", resolution="0.1 kg", zero_before=before, zero_after=after)
    assert ("W002" in codes(tmp_path, event)) is told


@pytest.mark.parametrize(
    ("calibrated", "code"),
    [("2024-03-01", None), ("2024-02-28", "W003"), ("2026-03-01", None), ("2026-03-02", "W004")],
)
def test_a_scale_calibrated_long_ago_or_later_than_the_weighing_is_told(
    calibrated: str, code: str | None, tmp_path: Path
) -> None:
    found = codes(tmp_path, one("50 kg", "50 kg", calibrated=calibrated))
    assert found & {"W003", "W004"} == ({code} if code else set())
