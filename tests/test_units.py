"""Units that a record may use, against the exact factors of tests/references/conversions.yaml."""

from __future__ import annotations

from fractions import Fraction

import pytest
from published import read

from dossier import units

TO_SI = {"L": Fraction(1, 1000), "km/h": Fraction(5, 18), "kg mm": Fraction(1, 1000), "kg/L": Fraction(1000)}
"""The units on the right of the table that are not SI, and what they are in it."""
KIND = {
    "lb": "mass", "oz": "mass", "in": "length", "ft": "length", "mi": "length", "nmi": "length",
    "kt": "speed", "mph": "speed", "km/h": "speed", "ft/min": "speed",
    "US gal": "volume", "imp gal": "volume", "in3": "volume", "ft2": "area", "lbf": "force",
    "lbf in": "torque", "lbf ft": "torque", "lb in": "mass_moment", "hp": "power", "PS": "power",
    "lb/ft2": "surface_loading", "lb/US gal": "density", "Wh": "energy", "Ah": "charge", "psi": "pressure",
}  # fmt: skip
NOT_TAKEN = {"slug", "US qt", "kgf", "lbf/ft2"}
FACTORS = [row for row in read("conversions")["factors"] if row["from"] not in NOT_TAKEN]


@pytest.mark.parametrize("row", FACTORS, ids=[f"{row['from']} to {row['to']}" for row in FACTORS])
def test_a_factor_is_the_float_closest_to_the_exact_one(row: dict[str, str]) -> None:
    exact = Fraction(row["exact"]) * TO_SI.get(row["to"], 1)
    assert units.scale(KIND[row["from"]], row["from"]) == (float(exact), 0.0)


@pytest.mark.parametrize("spelling", sorted(NOT_TAKEN))
def test_a_unit_of_the_table_without_a_factor_test_is_not_taken(spelling: str) -> None:
    assert units.kinds_of(spelling) == ()


def test_the_tables_decimals_agree_with_its_fractions() -> None:
    assert [float(Fraction(row["exact"])) for row in FACTORS] == [float(row["value"]) for row in FACTORS]


@pytest.mark.parametrize(
    ("spelling", "factor", "offset"),
    [
        ("K", 1.0, 0.0),
        ("°C", 1.0, 273.15),
        # 5/9 and 459.67 x 5/9, from the definition of the Fahrenheit scale (memory)
        ("°F", 5 / 9, 459.67 * 5 / 9),
    ],
)
def test_temperatures_have_their_offset(spelling: str, factor: float, offset: float) -> None:
    assert units.scale("temperature", spelling) == pytest.approx((factor, offset), rel=1e-15)


def test_a_degree_of_arc_is_its_part_of_pi() -> None:
    assert units.scale("angle", "deg") == pytest.approx((0.017453292519943295, 0.0), rel=1e-15)


def test_revolutions_a_minute_are_revolutions_a_second_and_not_radians() -> None:
    assert units.scale("rotation", "rpm") == (1 / 60, 0.0)


def test_a_percentage_is_a_hundredth() -> None:
    assert units.scale("ratio", "%") == (0.01, 0.0)


EVERY = [(kind.name, spelling) for kind in units.KINDS.values() for spelling in kind.spellings]


@pytest.mark.parametrize(("kind", "spelling"), EVERY)
def test_every_spelling_has_a_positive_factor(kind: str, spelling: str) -> None:
    assert units.scale(kind, spelling)[0] > 0


@pytest.mark.parametrize("kind", [kind for kind in units.KINDS.values() if kind.si in kind.spellings])
def test_the_si_unit_of_a_kind_has_the_factor_1(kind: units.Kind) -> None:
    assert units.scale(kind.name, kind.si) == (1.0, 0.0)


@pytest.mark.parametrize(
    ("one", "other", "kind"), [("nmi", "NM", "length"), ("m²", "m2", "area"), ("N m", "N·m", "torque"),
                               ("Ω", "ohm", "resistance"), ("in-lb", "lbf in", "torque")]
)  # fmt: skip
def test_two_spellings_of_one_unit_agree(one: str, other: str, kind: str) -> None:
    assert units.scale(kind, one) == units.scale(kind, other)


def test_an_unlisted_spelling_has_no_factor() -> None:
    with pytest.raises(KeyError):
        units.scale("torque", "Nm")


@pytest.mark.parametrize(
    ("spelling", "kinds"), [("kg", ("mass",)), ("W", ("power",)), ("Wh", ("energy",)), ("fathom", ())]
)
def test_a_spelling_tells_what_it_measures(spelling: str, kinds: tuple[str, ...]) -> None:
    assert units.kinds_of(spelling) == kinds


@pytest.mark.parametrize(
    ("kind", "written", "meant"),
    [("mass", "KG", "kg"), ("power", "kw", "kW"), ("torque", "Nm", "N·m"), ("length", "inch", "in"),
     ("temperature", "°c", "°C"), ("mass", "zzz", None)],
)  # fmt: skip
def test_a_slip_finds_the_spelling_that_was_meant(kind: str, written: str, meant: str | None) -> None:
    assert units.nearest_spelling(kind, written) == meant


def test_no_spelling_measures_two_kinds() -> None:
    spellings = [spelling for _, spelling in EVERY]
    assert sorted(spellings) == sorted(set(spellings))
