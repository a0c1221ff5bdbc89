"""Flight performance of a whole record: which polar is used, what is made of it, what is said about it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from demos import demo
from sample_project import Draft, event, pack_fitted, support, weighing

from dossier.dossier import Dossier
from dossier.figures import Input
from dossier.quantities import parse
from dossier.results.flight_glides import printed_step
from dossier.results.flight_tables import OFFSETS

KNOT, FOOT = 1852 / 3600, 0.3048
AERODYNAMICS = {
    "zero_lift_drag_coefficient": {"value": "0.0165 ± 0.0010", "reason": "calculation"},
    "oswald_factor": {"value": "0.86 ± 0.06", "reason": "calculation"},
    "maximum_lift_coefficient": {"value": "1.42 ± 0.08", "reason": "stalls"},
}
CALM = {"air_motion": "0 m/s", "airspeed_scale": "0 %", "mass": "0 %", "density": "0 %"}


def draft() -> Draft:
    """Return the starter project, weighed, with aerodynamics."""
    made = Draft()
    made.aircraft["aerodynamics"] = AERODYNAMICS
    made.record["events"] = [
        pack_fitted("P-1", "18.4 kg"),
        weighing(support("left", "54 kg", arm="0.35 m"), support("right", "54 kg", arm="0.35 m"),
                 support("tail", "11 kg", arm="3.6 m")),
    ]  # fmt: skip
    return made


def glide(speed: float, sink: float, **more: str) -> dict[str, str]:
    return {"speed": f"{speed:.3f} m/s", "sink": f"{sink:.4f} m/s ± 0.02 m/s", **more}


def parabola(speed: float, mass: float = 205.0, density: float = 1.225) -> float:
    """Sink of C_D0 0.0172 and e 0.80 on the wing of the starter: 12.0 m, 13.5 m²; worked out here again."""
    weight, wing = mass * 9.80665, density * 13.5
    induced = 1 / (3.141592653589793 * 0.80 * 144 / 13.5)
    return wing * 0.0172 * speed**3 / (2 * weight) + 2 * induced * weight / (wing * speed)


def flown(points: list[dict[str, str]], **more: Any) -> Draft:
    made = draft()
    made.events.append(event("flight-test", "2026-04-18", results=[], glide_points=points, **more))
    return made


SPEEDS = (13.0, 15.0, 18.0, 22.0, 26.0)


def codes(dossier: Dossier) -> list[str]:
    return [finding.code for finding in dossier.findings if finding.code.startswith("F")]


def test_without_aerodynamics_nothing_is_computed(tmp_path: Path) -> None:
    made = draft()
    del made.aircraft["aerodynamics"]
    dossier = made.make(tmp_path)
    assert dossier.performance is None
    assert not [name for name in dossier.figures if name.startswith(("best_glide", "stall_speed_estimate"))]


def test_without_a_weighing_nothing_is_computed(tmp_path: Path) -> None:
    made = draft()
    made.record["events"] = []
    assert made.make(tmp_path).performance is None


def test_the_figures_of_a_type_are_those_of_the_textbook_formulas(tmp_path: Path) -> None:
    # hand: A_R = 144/13.5 = 10.667, K = 1/(pi 0.86 10.667) = 0.0346995
    # ratio = 1/(2 sqrt(0.0165 0.0346995)) = 20.896
    figures = draft().make(tmp_path).figures
    assert figures["aspect_ratio.wing"].value == pytest.approx(10.667, abs=0.0005)
    assert figures["induced_drag.polar"].value == pytest.approx(0.0346995, abs=5e-7)
    assert figures["best_glide_ratio.polar"].value == pytest.approx(20.896, abs=0.0005)


def test_the_stall_is_that_of_weight_over_lift(tmp_path: Path) -> None:
    figures = draft().make(tmp_path).figures
    mass = figures["flying_mass.standard-pack"].value
    expected = (2 * mass * 9.80665 / (1.225 * 13.5 * 1.42)) ** 0.5
    assert figures["stall_speed_estimate.standard-pack"].value == pytest.approx(expected, rel=1e-5)


def test_the_mass_in_flight_is_the_figure_of_the_energy_table(tmp_path: Path) -> None:
    stall = draft().make(tmp_path).figures["stall_speed_estimate.standard-pack"]
    one = stall.working.inputs["m"]
    assert isinstance(one, Input)
    assert one.origin == "flying_mass.standard-pack"


def test_without_a_profile_that_can_be_flown_the_glide_is_still_computed(tmp_path: Path) -> None:
    made = draft()
    made.aircraft["propulsion"]["maximum_power"] = "1 kW"
    dossier = made.make(tmp_path)
    assert "C004" in {finding.code for finding in dossier.findings}
    assert dossier.figures["best_glide_speed.standard-pack"].value > 10


def test_exact_glides_give_the_parabola_back(tmp_path: Path) -> None:
    dossier = flown([glide(v, parabola(v)) for v in SPEEDS], shared_errors=CALM).make(tmp_path)
    assert dossier.figures["zero_lift_drag.polar"].value == pytest.approx(0.0172, rel=0.002)
    assert dossier.performance is not None
    assert dossier.performance.polar.oswald == pytest.approx(0.80, rel=0.002)


def test_glides_flown_heavier_and_higher_give_the_same_polar(tmp_path: Path) -> None:
    # 1500 m: 845.56 hPa (ISO 2533); at 10 °C air of 845.56e2/(287.05287 283.15) = 1.04031 kg/m³
    density, mass = 1.04031, 225.0
    points = [
        glide(v, parabola(v * (1.225 / density) ** 0.5, mass, density),
              at_mass="225 kg", pressure_altitude="1500 m", temperature="10 °C")
        for v in SPEEDS
    ]  # fmt: skip
    dossier = flown(points, shared_errors=CALM).make(tmp_path)
    assert dossier.figures["zero_lift_drag.polar"].value == pytest.approx(0.0172, rel=0.002)
    assert dossier.figures["induced_drag.polar"].value == pytest.approx(
        1 / (3.14159265 * 0.80 * 10.66667), rel=0.004
    )


def test_the_latest_glides_up_to_the_date_count(tmp_path: Path) -> None:
    made = flown([glide(v, parabola(v)) for v in SPEEDS])
    before = made.make(tmp_path, as_of="2026-04-01").performance
    assert before is not None
    assert before.polar.session is None


def test_sinks_that_no_parabola_has_give_no_polar_and_the_type_stands(tmp_path: Path) -> None:
    dossier = flown([glide(v, 20 / v**1.5) for v in SPEEDS]).make(tmp_path)
    assert codes(dossier) == ["F001"]
    assert dossier.figures["zero_lift_drag.polar"].value == 0.0165


def test_a_glide_without_uncertainty_is_told_and_not_taken_as_exact(tmp_path: Path) -> None:
    points = [{"speed": f"{v} m/s", "sink": f"{parabola(v):.3f} m/s"} for v in SPEEDS]
    (finding,) = [one for one in flown(points).make(tmp_path).findings if one.code == "F001"]
    assert "uncertainty of the sink" in finding.message


def test_what_the_glides_share_widens_the_polar(tmp_path: Path) -> None:
    points = [glide(v, parabola(v)) for v in SPEEDS]
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    calm = flown(points, shared_errors=CALM).make(tmp_path / "a").figures["best_glide_ratio.polar"]
    usual = flown(points).make(tmp_path / "b").figures["best_glide_ratio.polar"]
    assert usual.standard_uncertainty > 2 * calm.standard_uncertainty


def test_the_errors_that_are_left_out_are_the_usual_ones(tmp_path: Path) -> None:
    made = flown([glide(v, parabola(v)) for v in SPEEDS], shared_errors={"air_motion": "0.30 m/s"}).make(
        tmp_path
    )
    assert made.performance is not None
    assert made.performance.polar.session is not None
    found = {error.name: (error.expanded, error.stated) for error in made.performance.polar.session.errors}
    assert found == {
        "air_motion": (0.30, True),
        "airspeed_scale": (0.02, False),
        "mass": (0.01, False),
        "density": (0.01, False),
    }


def test_drag_and_induced_drag_of_a_fit_stay_correlated(tmp_path: Path) -> None:
    figures = flown([glide(v, parabola(v)) for v in SPEEDS]).make(tmp_path).figures
    zero_lift, induced = figures["zero_lift_drag.polar"], figures["induced_drag.polar"]
    apart = 0.5 * ((zero_lift.standard_uncertainty / zero_lift.value) ** 2
                   + (induced.standard_uncertainty / induced.value) ** 2) ** 0.5  # fmt: skip
    ratio = figures["best_glide_ratio.polar"]
    assert ratio.standard_uncertainty / ratio.value != pytest.approx(apart, rel=0.02)


def test_an_estimated_stall_supports_no_claim(tmp_path: Path) -> None:
    made = draft()
    made.compliance["claims"] = {
        "stall": {"text": "Stalls at {value}", "where": "leaflet", "value": "90 kt", "relation": "at most",
                  "figure": "stall_speed_estimate.standard-pack"},
    }  # fmt: skip
    (claim,) = made.make(tmp_path).claims
    assert claim.result == "not shown"
    assert "physical estimate" in claim.reason


def test_an_estimated_stall_answers_no_requirement(tmp_path: Path) -> None:
    dossier = draft().make(tmp_path)
    assert not [
        one for one in dossier.verdicts if one.figure and one.figure.startswith("stall_speed_estimate")
    ]
    assert {
        one.verdict for one in dossier.verdicts if "stall" in one.requirement or one.figure == "stall_speed"
    } <= {"not shown"}


def test_a_stated_sink_that_the_polar_does_not_give_is_told(tmp_path: Path) -> None:
    made = draft()
    made.aircraft["glide"]["minimum_sink"] = "0.40 m/s ± 0.02 m/s"
    assert codes(made.make(tmp_path)) == ["F008"]


def test_a_climb_that_the_power_does_not_allow_is_said_in_words(tmp_path: Path) -> None:
    made = draft()
    made.aircraft["propulsion"]["maximum_power"] = "2.2 kW"
    performance = made.make(tmp_path).performance
    assert performance is not None
    assert {row.rates for row in performance.climbs} == {
        ("no climb to this height with this power and mass",) * len(OFFSETS)
    }


def test_wind_stronger_than_the_fastest_speed_has_no_answer(tmp_path: Path) -> None:
    made = draft()
    made.aircraft["limits"]["never_exceed_speed"]["value"] = "14.9 kt"
    performance = made.make(tmp_path).performance
    assert performance is not None
    assert {row.speed for row in performance.winds} == {"the wing stalls at this speed and mass"}


def test_without_a_limit_of_speed_no_speed_is_advised(tmp_path: Path) -> None:
    made = draft()
    limits = made.aircraft["limits"]
    limits["vne"] = limits.pop("never_exceed_speed")
    text = "{vne}"
    made.aircraft["placards"] = [{"where": "panel", "text": text}]
    for mark in made.aircraft["instruments"][0]["marks"]:
        mark |= {key: "vne" for key, value in mark.items() if value == "never_exceed_speed"}
    performance = made.make(tmp_path).performance
    assert performance is not None
    assert performance.winds == ()


def test_an_aircraft_too_heavy_for_any_pilot_flies_nowhere(tmp_path: Path) -> None:
    made = draft()
    made.aircraft["limits"]["take_off_mass"]["value"] = "150 kg"
    performance = made.make(tmp_path).performance
    assert performance is not None
    assert (performance.options, performance.glides, performance.winds) == ((), (), ())


@pytest.mark.parametrize(
    ("text", "step"), [("0.8 m/s", 0.1), ("152 ft/min ± 6 ft/min", FOOT / 60), ("1.25 kt", 0.01 * KNOT)]
)
def test_the_last_printed_digit_is_read_from_the_text(text: str, step: float) -> None:
    assert printed_step(parse(text, "speed")) == pytest.approx(step)


def test_a_headwind_is_flown_faster_and_leads_less_far() -> None:
    performance = demo("quillet-e1")["0003"].performance
    assert performance is not None
    still = [
        row
        for row in performance.winds
        if not row.down and isinstance(row.speed, float) and isinstance(row.ratio, float)
    ]
    assert [row.speed for row in still] == sorted(row.speed for row in still)  # type: ignore[type-var]
    assert [row.ratio for row in still] == sorted((row.ratio for row in still), reverse=True)  # type: ignore[type-var]


def test_the_best_speed_leads_no_less_far_than_that_of_still_air() -> None:
    for serials in (demo("quillet-e1"), demo("barrow-t2")):
        for dossier in serials.values():
            for row in dossier.performance.winds if dossier.performance else ():
                assert isinstance(row.ratio, float)
                assert isinstance(row.unchanged, float)
                assert row.ratio >= row.unchanged - 1e-9


def test_the_demo_with_glides_is_flown_on_its_own_polar() -> None:
    own, design = (demo("quillet-e1")[serial].performance for serial in ("0003", "0004"))
    assert own is not None
    assert design is not None
    assert own.polar.session is not None
    assert design.polar.session is None
    assert codes(demo("quillet-e1")["0003"]) == ["F009"]  # the top speed that is not reached


def test_the_demo_measured_and_computed_agree_within_their_uncertainty() -> None:
    figures = demo("quillet-e1")["0003"].figures
    measured, computed = figures["stall_speed"], figures["stall_speed_estimate.long-pack"]
    apart = abs(measured.value - computed.value)
    assert apart <= 2 * (measured.standard_uncertainty**2 + computed.standard_uncertainty**2) ** 0.5
