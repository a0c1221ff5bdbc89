"""An invented project whose published numbers cannot be true, as its page tells it."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest
from sample_project import Draft

from dossier.compose.claims import pages
from dossier.dossier import Dossier
from dossier.project import load
from dossier.references.battery import check

CLAIMS = {
    "ratio": ("Glides {value} to 1", "25", "at least", "best_glide_ratio"),
    "sink": ("Sinks {value}", "0.40 m/s", "at most", "least_sink"),
    "speed": ("Best at {value}", "30 km/h", "about", "best_glide_speed"),
    "sink-there": ("Sinks {value} there", "0.90 m/s", "about", "best_glide_sink"),
    "power": ("Stays up on {value}", "0.8 kW", "at most", "level_power"),
    "box": ("All of it in {value}", "4 L", "at most", "pack_volume"),
    "mass": ("A battery of {value}", "12 kg", "at most", "pack_mass"),
}
"""Invented. By hand: 0.90 m/s at 25 : 1 is 22.5 m/s or 81 km/h, and not 30; 210 kg that sink 0.40 m/s take
824 W, more than 0.8 kW even without a loss; 196 cells of 21 mm by 70 mm need 5.2 L however close they stand,
and weigh 13.5 kg."""


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> Dossier:
    draft = Draft()
    draft.compliance["claims"] = {
        name: {
            "text": text,
            "where": "page 1",
            "value": value,
            "relation": relation,
            "quantity": quantity,
            "tolerance": "5 %",
        }
        for name, (text, value, relation, quantity) in CLAIMS.items()
    }
    return draft.make(tmp_path_factory.mktemp("impossible"))


@pytest.fixture(scope="module")
def rows(told: Dossier) -> list[str]:
    """Words of each row of the table of claims held against one another."""
    (page,) = pages(told)
    made: list[str] = []
    table = page.text.partition("Claims held against")[2]
    for row in re.findall(r"<tr><th scope=\"row\">.*?</tr>", table, re.DOTALL):
        words = unescape(re.sub(r"<[^>]+>", " ", row)).replace("\u00a0", " ")
        made.append(" ".join(words.split()))
    return made


@pytest.mark.parametrize(
    ("identity", "number"),
    [
        ("Speed, sink and ratio of one glide belong together", "Best at 30 km/h"),
        (
            "The power of level flight is weight times sink over an efficiency that drives have",
            "Stays up on 0.8 kW",
        ),
        ("The box has room for the cells", "All of it in 4 L"),
        ("The pack weighs more than its cells", "A battery of 12 kg"),
    ],
)
def test_a_page_shows_each_impossible_claim(rows: list[str], identity: str, number: str) -> None:
    (found,) = [row for row in rows if row.startswith(identity) and number in row]
    assert "impossible" in found


def test_the_room_and_the_mass_of_the_cells_stand_beside_the_claims(rows: list[str]) -> None:
    text = " ".join(rows)
    assert "Room of the 196 cells, as close as they can stand, 5.2 L" in text
    assert "Mass of the 196 cells alone, 13.5 kg" in text


def test_what_cannot_be_true_is_a_finding(told: Dossier) -> None:
    told_of = [finding.message for finding in told.findings if finding.code == "J015"]
    assert any("'box'" in message for message in told_of)
    assert any("'power'" in message for message in told_of)


def battery(folder: Path, **changes: object) -> list[str]:
    draft = Draft()
    draft.battery["options"]["standard-pack"].update(changes)
    project = draft.write(folder)
    return [finding.message for finding in check(load(project)) if finding.code == "P046"]


def test_504_cells_of_69_g_do_not_weigh_18_5_kg(tmp_path: Path) -> None:
    assert battery(tmp_path, parallel="36") == [
        "504 cells of 69 g weigh 34.8 kg, more than Standard pack at 18.5 kg ± 0.2 kg"
    ]


def test_196_cells_do_not_go_into_a_box_of_5_l(tmp_path: Path) -> None:
    # by hand: sqrt(3) / 2 x (21 mm)² x 70 mm x 196 = 5.24 L
    assert battery(tmp_path, size={"length": "250 mm", "width": "200 mm", "height": "100 mm"}) == [
        "196 cells need 5.2 L where they stand as close as they can, and the box of Standard pack has 5.0 L"
    ]


def test_the_battery_of_the_starter_fits(tmp_path: Path) -> None:
    assert battery(tmp_path) == []


def test_a_pouch_takes_its_own_volume_and_one_without_measures_has_no_answer(tmp_path: Path) -> None:
    draft = Draft()
    (cell,) = draft.battery["cells"].values()
    del cell["diameter"]
    unknown = load(draft.write(tmp_path / "unknown")).battery.cells.values()
    cell.update(shape="pouch", width="100 mm", thickness="10 mm")
    pouch = load(draft.write(tmp_path / "pouch")).battery.cells.values()
    assert [one.room for one in unknown] == [None]
    assert [one.room for one in pouch] == [pytest.approx(70e-6)]
