import pytest
from demonstration import barrow, quillet, with_limit

from dossier.compose.limit_text import LimitText, one_line, printed
from dossier.display import Preference
from dossier.quantities import parse

US = Preference(us_first=True, airspeed="kt")
SI = Preference(us_first=False, airspeed="mph")


# Conversions by hand from exact definitions: 1 lb = 0.45359237 kg, 1 in = 25.4 mm, 1 ft = 0.3048 m
# (international yard and pound agreement, 1959), 1 nmi = 1852 m, 1 mi = 1609.344 m, t(°F) = 1.8 t(°C) +
# 32; from memory, verify.
@pytest.mark.parametrize(("text", "kind", "preference", "expected"), [
    ("500 lb", "mass", US, "500 lb (226.8 kg)"),
    ("275 kg", "mass", SI, "275 kg (606.3 lb)"),
    ("275 kg", "mass", US, "606.3 lb (275 kg)"),
    ("70 kt", "speed", US, "70 kt (129.6 km/h)"),
    ("75 mph", "speed", SI, "75 mph (120.7 km/h)"),
    ("130 km/h", "speed", US, "70.2 kt (130 km/h)"),
    ("60 kt", "speed", Preference(False, "km/h"), "111.1 km/h (60 kt)"),
    ("90 s", "time", SI, "90 s"),
    ("24 h", "time", US, "24 h"),
    ("9.90 mm", "length", SI, "9.90 mm (0.3898 in)"),
    ("0.08 in", "length", US, "0.08 in (2.0 mm)"),
    ("150 ft", "length", US, "150 ft (45.7 m)"),
    ("140 °F", "temperature", US, "140 °F (60 °C)"),
    ("25 °C", "temperature", SI, "25 °C (77 °F)"),
    ("30 mV", "voltage", SI, "30 mV"),
    ("4.16 V", "voltage", US, "4.16 V"),
    ("70 %", "ratio", US, "70 %"),
    ("-2.0", "ratio", US, "\u22122.0"),
    ("51 kohm", "resistance", SI, "51 kΩ"),
    ("60 deg", "angle", SI, "60°"),
    ("28 psi", "pressure", US, "28 psi (1.93 bar)"),
    ("10 N m", "torque", SI, "10 N m (89 lbf in)"),
    ("62 in-lb", "torque", US, "62 lbf in (7.01 N m)"),
])  # fmt: skip
def test_a_limit_is_printed_as_it_was_set_with_the_other_system_beside_it(text, kind, preference, expected):
    assert str(printed(parse(text, kind), preference)).replace("\u00a0", " ") == expected


@pytest.mark.parametrize(("text", "kind", "unit", "factor"), [
    ("500 lb", "mass", "kg", 1 / 0.45359237),
    ("70 kt", "speed", "km/h", 1 / 1.852),
    ("0.08 in", "length", "mm", 1 / 25.4),
    ("150 ft", "length", "m", 1 / 0.3048),
])  # fmt: skip
def test_the_converted_number_gives_the_written_one_back(text, kind, unit, factor):
    other = printed(parse(text, kind), US).other
    number, _, printed_unit = other.partition("\u00a0")
    written = text.split()[0]
    decimals = len(written.partition(".")[2])
    assert printed_unit == unit
    assert f"{float(number) * factor:.{decimals}f}" == written


def test_number_and_unit_do_not_part_at_the_end_of_a_line():
    assert " " not in printed(parse("10 N m", "torque"), SI).first


@pytest.mark.parametrize(("wind", "expected"), [("12 kt", "12 kt (22.2 km/h)"), ("9 kt", "9 kt (16.7 km/h)")])
def test_a_placeholder_becomes_the_limit_and_changes_with_it(wind, expected):
    dossier = with_limit(quillet(), "maximum_rigging_wind", wind, "speed")
    filled = LimitText.of(dossier).fill("Rig in less than {maximum_rigging_wind}.")
    assert filled.replace("\u00a0", " ") == f"Rig in less than {expected}."


def test_a_placard_gives_an_airspeed_only_as_the_indicator_shows_it():
    dossier = with_limit(barrow(), "never_exceed_speed", "75 mph", "speed")
    dossier = with_limit(dossier, "maximum_take_off_mass", "275 kg", "mass")
    filled = LimitText.of(dossier).fill_placard("Below {never_exceed_speed}, {maximum_take_off_mass}.")
    assert filled.replace("\u00a0", " ") == "Below 75 mph, 275 kg (606.3 lb)."


def test_a_placeholder_without_a_limit_is_an_error():
    with pytest.raises(KeyError, match="no_such_limit"):
        LimitText.of(quillet()).fill("Below {no_such_limit}.")


def test_text_is_not_escaped_here():
    assert LimitText.of(quillet()).fill("a < b & <c>") == "a < b & <c>"


def test_line_breaks_and_runs_of_blanks_become_one_blank():
    assert one_line("one\n\n  two\u00a0kg ") == "one two\u00a0kg"
