"""An interval of draws in words: on pages and sheets, on the terminal and in results.json."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from packet_reading import page_of, read
from sample_project import Draft, pack_fitted, support, weighing

from dossier.compose import links
from dossier.compose.pages import packet
from dossier.compose.printer import Printer
from dossier.compose.sheet_text import as_text
from dossier.compose.working.sheet import sheet
from dossier.dossier import Dossier
from dossier.results_file import as_json

RATE = "polar_climb_rate.standard-pack"
TIME = "climb_time_climb.standard-pack"
SINK = "least_sink.standard-pack"


@cache
def weak() -> Dossier:
    """Make an invented aircraft whose power is so little and so uncertain that some draws do not climb."""
    made = Draft()
    made.aircraft["aerodynamics"] = {
        "zero_lift_drag_coefficient": {"value": "0.0165 ± 0.0020", "reason": "calculation"},
        "oswald_factor": {"value": "0.80 ± 0.05", "reason": "calculation"},
        "maximum_lift_coefficient": {"value": "1.42 ± 0.08", "reason": "stalls"},
    }
    made.aircraft["propulsion"]["maximum_power"] = "3.6 kW ± 0.7 kW"
    made.aircraft["profile"] = [
        {"name": "Climb", "kind": "climb", "height": "100 m"},
        {"name": "Cruise", "kind": "cruise"},
    ]
    made.record["events"] = [
        pack_fitted("P-1", "18.4 kg"),
        weighing(
            support("left", "54 kg", arm="0.35 m"),
            support("right", "54 kg", arm="0.35 m"),
            support("tail", "11 kg", arm="3.6 m"),
        ),
    ]
    with TemporaryDirectory() as folder:
        return made.make(Path(folder))


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


def test_the_invented_aircraft_climbs_by_its_estimate_and_not_in_every_draw() -> None:
    assert 0.01 < weak().sampled[RATE].unanswered < 0.2
    assert not weak().sampled[RATE].first_order_holds
    assert weak().sampled[SINK].first_order_holds


def test_the_card_of_performance_tells_the_interval_and_the_share_without_an_answer() -> None:
    text = plain(read(page_of(packet(weak()), links.PERFORMANCE)).text)
    card = text.partition("Best rate of climb at sea level, from the polar")[2][:260]
    number = r"−?\d+(\.\d+)?"
    assert re.search(
        rf"from {number} m/s to {number} m/s \(95 % of the draws that have an answer\); "
        r"\d+\.\d % of the draws: the aircraft does not climb",
        card,
    ), card
    assert "±" not in card.partition("How it was computed")[0]


def test_a_figure_that_first_order_describes_keeps_its_plus_minus() -> None:
    shown = Printer(weak(), links.PERFORMANCE).figure(weak().figures[SINK])
    assert shown.uncertainty.startswith("± ")
    assert shown.uncertainty.endswith("(k\u00a0=\u00a02)")


def test_the_table_of_heights_tells_how_many_draws_do_not_climb_there() -> None:
    text = plain(read(page_of(packet(weak()), links.PERFORMANCE)).text)
    assert re.search(r"% of the draws: no climb to this height with this power and mass", text)
    assert re.search(r"% of the draws: no level flight with this power and mass", text)


def test_the_page_says_what_an_interval_without_plus_minus_is() -> None:
    text = plain(read(page_of(packet(weak()), links.PERFORMANCE)).text)
    assert "the range that holds 95 % of 4096 draws stands instead" in text


def test_the_sheet_says_why_the_interval_stands_and_instead_of_what() -> None:
    sentences = [plain(one) for one in sheet(weak().figures[RATE], weak()).sampled]
    assert sentences[0].startswith("Made again from 4096 draws of all errors: from ")
    assert re.fullmatch(
        r"\d+\.\d % of the draws have no answer\. The first of these: the aircraft .*", sentences[1]
    )
    assert re.search(r"The interval of the draws stands instead of ± \d", sentences[2])


def test_the_sheet_of_a_figure_that_first_order_describes_says_how_well() -> None:
    sentences = [plain(one) for one in sheet(weak().figures[SINK], weak()).sampled]
    assert len(sentences) == 2
    assert re.fullmatch(
        r"First order agrees: its 95 % interval is off by \d\.\d % of the width at most\.", sentences[1]
    )


def test_an_input_of_a_sheet_shows_the_interval_of_its_figure() -> None:
    lines = {line.figure: plain(line.spread) for line in sheet(weak().figures[TIME], weak()).inputs}
    climb = lines["climb_rate_climb.standard-pack"]
    assert re.match(r"from .* to .* m/s \(95 %\); .* of the draws: the aircraft does not climb", climb)


def test_a_figure_without_draws_has_no_sentence() -> None:
    assert "specific_energy.standard-pack" not in weak().sampled
    assert sheet(weak().figures["specific_energy.standard-pack"], weak()).sampled == ()


def test_the_page_of_the_sheet_holds_the_sentences() -> None:
    text = plain(read(page_of(packet(weak()), "working/performance.md")).text)
    assert "Made again from 4096 draws of all errors" in text


@pytest.mark.parametrize("name", [RATE, SINK])
def test_the_terminal_prints_what_the_page_prints(name: str) -> None:
    text = as_text(weak().figures[name], weak())
    for sentence in sheet(weak().figures[name], weak()).sampled:
        assert plain(sentence) in text


def test_the_first_line_on_the_terminal_has_the_interval_behind_the_value() -> None:
    assert re.search(r"\n  \S+ m/s \(.*\), from .* to .*", as_text(weak().figures[RATE], weak()))


def test_results_hold_the_draws_of_a_figure() -> None:
    found = json.loads(as_json(weak()))["figures"][RATE]["sampled"]
    assert (found["draws"], found["coverage"]) == (4096, 0.95)
    assert found["low"] < found["median"] < found["high"]
    assert found["state"] == "the aircraft does not climb"
    assert found["first_order"]["holds"] is False
    assert found["first_order"]["low"] < 0 < found["first_order"]["high"]


def test_results_hold_null_for_a_figure_without_draws() -> None:
    assert json.loads(as_json(weak()))["figures"]["specific_energy.standard-pack"]["sampled"] is None


def test_the_bars_of_the_plot_reach_as_far_as_what_is_printed() -> None:
    at = Printer(weak(), links.ENERGY)
    figure, found = weak().figures[TIME], weak().sampled[TIME]
    below, above = at.reach(figure)
    assert found.quantiles is not None
    assert (figure.value - below, figure.value + above) == pytest.approx(
        (found.quantiles[0], found.quantiles[2])
    )
    sink = weak().figures[SINK]
    assert at.reach(sink) == (2 * sink.standard_uncertainty,) * 2
