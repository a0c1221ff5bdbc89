from itertools import pairwise

import pytest
from demonstration import SERIALS, demonstration, quillet, with_limit, with_type
from page_reading import plain, read

from dossier.compose.limit_text import LimitText
from dossier.compose.operating import limits
from dossier.compose.operating.marks import WIDTH, instruments
from dossier.model.aircraft import Placard


@pytest.mark.parametrize("serial", SERIALS)
def test_every_limit_is_in_the_table_once_in_the_order_of_the_record(serial):
    dossier = demonstration(*serial)
    rows = read(limits.page(dossier)).all("table")[0].one("tbody").all("tr")
    made = dossier.project.aircraft.limits
    assert [row.attributes["id"] for row in rows] == [f"limit-{name}" for name in made]
    assert [row.one("th").text for row in rows] == [plain(limit.name) for limit in made.values()]
    assert all(plain(limit.reason) in row.text for row, limit in zip(rows, made.values(), strict=True))


@pytest.mark.parametrize("serial", SERIALS)
def test_marks_stand_where_the_limits_are(serial):
    dossier = demonstration(*serial)
    texts = LimitText.of(dossier)
    for instrument, made in zip(dossier.project.aircraft.instruments, instruments(dossier), strict=True):
        for mark, row in zip(instrument.marks, made.rows, strict=True):
            ends = [str(name) for name in (mark.at, mark.start, mark.end) if name is not None]
            assert row.where == " to ".join(texts.on_instrument(name) for name in ends)
            assert row.words == mark.mark


def test_a_mark_moves_with_its_limit():
    changed = with_limit(quillet(), "never_exceed_speed", "66 kt", "speed")
    changed = with_limit(changed, "rough_air_speed", "50 kt", "speed")
    rows = {row.words: row.where for row in instruments(changed)[0].rows}
    assert rows["red line"].replace("\u00a0", " ") == "66 kt"
    assert rows["yellow arc"].replace("\u00a0", " ") == "50 kt to 66 kt"


@pytest.mark.parametrize("serial", SERIALS)
def test_a_strip_is_drawn_to_scale(serial):
    dossier = demonstration(*serial)
    all_limits = dossier.project.aircraft.limits
    drawn = 0
    for instrument, made in zip(dossier.project.aircraft.instruments, instruments(dossier), strict=True):
        if made.strip is None:
            continue
        names = {
            str(n) for mark in instrument.marks for n in (mark.at, mark.start, mark.end) if n is not None
        }
        values = sorted({all_limits[name].value.value for name in names})
        places = sorted({float(label.x) for label in made.strip.labels})
        drawn += 1
        for value, x in zip(values, places, strict=True):
            share = (value - values[0]) / (values[-1] - values[0])
            assert x == pytest.approx(places[0] + share * (places[-1] - places[0]), abs=0.1)
    assert drawn


def test_labels_of_one_level_do_not_touch():
    crowded = quillet()
    for name, value in (
        ("best_climb_speed", "31 kt"),
        ("rough_air_speed", "33 kt"),
        ("stall_speed_at_maximum_mass", "30 kt"),
    ):
        crowded = with_limit(crowded, name, value, "speed")
    strip = instruments(crowded)[0].strip
    assert strip is not None
    for level in {label.level for label in strip.labels}:
        places = sorted(float(label.x) for label in strip.labels if label.level == level)
        assert all(right - left > 0.1 * WIDTH for left, right in pairwise(places))


def test_one_marked_limit_needs_no_strip():
    strips = {made.name: made.strip for made in instruments(quillet())}
    assert strips["Motor temperature, power display"] is None


def test_marks_at_calibrated_airspeeds_say_that_the_indicator_shows_another():
    said = "before the marks are painted, each is corrected"
    assert said in read(limits.page(quillet())).text
    bare = {
        name: limit.model_copy(update={"basis": "IAS"})
        for name, limit in quillet().project.aircraft.limits.items()
    }
    assert said not in read(limits.page(with_type(quillet(), limits=bare))).text


@pytest.mark.parametrize("serial", SERIALS)
def test_every_placard_is_printed_without_a_placeholder(serial):
    dossier = demonstration(*serial)
    placards = [placard.text for placard in read(limits.page(dossier)).all(".placard")]
    assert placards == [
        plain(LimitText.of(dossier).fill_placard(one.text)) for one in dossier.project.aircraft.placards
    ]
    assert not any("{" in placard for placard in placards)


def test_a_placard_changes_with_its_limit():
    placard = Placard.model_construct(where="Shelf", text="Maximum {maximum_baggage}, netted.")
    for value, expected in (("10 lb", "10 lb (4.5 kg)"), ("8 lb", "8 lb (3.6 kg)")):
        dossier = with_type(with_limit(quillet(), "maximum_baggage", value, "mass"), placards=[placard])
        assert read(limits.page(dossier)).one(".placard").text == f"Maximum {expected}, netted."
