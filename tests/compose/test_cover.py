"""The cover: a stranger finds weight, margin, how it was measured, and what is open."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from markupsafe import escape
from packet_reading import PROJECTS, SERIALS, made, read, text_of

from dossier import pipeline
from dossier.compose import cover, verdict_numbers
from dossier.compose.cover_figures import cards
from dossier.compose.edition import edition_words
from dossier.compose.fleet_index import fleet_index
from dossier.compose.governing import governing
from dossier.compose.open_items import open_items
from dossier.compose.printer import Printer
from dossier.compose.status import status
from dossier.display import show_figure
from dossier.dossier import Dossier
from dossier.judge.claim_result import Support
from dossier.judge.verdict import State, Verdict
from dossier.results.assembly import Block

everyone = pytest.mark.parametrize(("project", "number"), SERIALS, ids=[number for _, number in SERIALS])


def plain(text: str) -> str:
    return " ".join(text.split())


def cover_of(dossier: Dossier) -> str:
    return read(cover.pages(dossier)[0]).text


@everyone
def test_the_cover_shows_the_empty_mass_with_its_uncertainty(project: str, number: str) -> None:
    dossier = made(project, number)
    assert dossier.empty is not None
    mass = (dossier.empty.fitted or dossier.empty.without_battery)[0]
    shown = show_figure(mass, dossier.preference)
    assert f"{plain(str(shown))} {plain(shown.uncertainty)}" in text_of(project, number, "index.md")


@everyone
def test_the_cover_shows_the_margin_to_the_governing_requirement(project: str, number: str) -> None:
    verdict = governing(made(project, number))
    assert verdict is not None
    words = verdict_numbers.margin_words(verdict) or verdict.reason
    assert plain(words) in text_of(project, number, "index.md")


@everyone
def test_the_cover_says_when_and_on_which_scales_it_was_weighed(project: str, number: str) -> None:
    dossier = made(project, number)
    assert dossier.weighing is not None
    event = dossier.weighing.event
    text = text_of(project, number, "index.md")
    assert f"Weighed on {event.date.isoformat()} by {event.by}" in text
    assert [
        str(scale.certificate) for scale in event.scales.values() if str(scale.certificate) not in text
    ] == []


@everyone
def test_the_cover_names_every_requirement_that_fails_or_is_open(project: str, number: str) -> None:
    text = text_of(project, number, "index.md")
    left = [
        one
        for one in made(project, number).verdicts
        if one.verdict in (State.DOES_NOT_CONFORM, State.INCONCLUSIVE, State.NOT_SHOWN)
    ]
    assert [
        one.requirement
        for one in left
        if plain(one.statement).rstrip(".") not in text or f": {one.verdict}." not in text
    ] == []


@everyone
def test_the_cover_names_all_open_work(project: str, number: str) -> None:
    text = text_of(project, number, "index.md")
    blocks = made(project, number).assembly.blocks
    assert [one.subject for one in blocks if f"{plain(one.subject)}: {one.state}." not in text] == []


def test_open_work_there_is() -> None:
    assert "Fit of the front strut pins: out of tolerance." in text_of("barrow-t2", "T2-009", "index.md")


def test_an_open_item_of_an_earlier_inspection_that_the_latest_one_does_not_name_is_closed() -> None:
    # serial 0002: the inspection of 2026-04-11 names the battery, that of 2026-06-08 names nothing
    assert "Retire battery FM-L-003" not in text_of("quillet-e1", "0002", "index.md")


def test_it_is_open_on_the_day_between() -> None:
    dossier = pipeline.run(PROJECTS / "quillet-e1", "0002", date(2026, 4, 11))
    assert "Retire battery FM-L-003: open." in cover_of(dossier)


def test_a_serial_that_was_never_weighed_says_so() -> None:
    dossier = pipeline.run(PROJECTS / "quillet-e1", "0002", date(2025, 3, 22))
    assert "The aircraft has not been weighed by this date." in cover_of(dossier)


def test_the_cover_says_that_it_is_no_approval() -> None:
    assert "It is no approval and no certificate of an authority" in text_of("quillet-e1", "0003", "index.md")


def verdict(state: State, margin: float | None = None, figure: str | None = None) -> Verdict:
    return Verdict(
        requirement="invented/a",
        rule_set="invented",
        clause="a",
        statement="An invented requirement.",
        source="invented",
        source_basis="memory",
        last_checked="2026-01-01",
        unsettled=(),
        place=None,
        verdict=state,
        reason="Invented.",
        figure=figure,
        unit="kg",
        margin=margin,
    )


def judged(*states: State) -> Dossier:
    """A dossier in which nothing is open but these verdicts."""
    dossier = made("quillet-e1", "0003")
    state = replace(dossier.state, events=())
    return replace(dossier, verdicts=tuple(map(verdict, states)), claims=(), findings=(), state=state)


@pytest.mark.parametrize(
    ("states", "words", "kind"),
    [
        ([State.CONFORMS, State.CONFORMS, State.NOT_APPLICABLE], "Conforms to 2 requirements", "conforms"),
        ([State.CONFORMS, State.DOES_NOT_CONFORM], "Does not conform: 1 requirement", "fails"),
        ([State.DOES_NOT_CONFORM, State.NOT_SHOWN], "Does not conform: 1 requirement; 1 not shown", "fails"),
        ([State.CONFORMS, State.INCONCLUSIVE, State.NOT_SHOWN], "Open: 1 inconclusive, 1 not shown", "open"),
        ([], "Open: no requirement was judged", "open"),
        ([State.NOT_APPLICABLE], "Open: no requirement was judged", "open"),
    ],
)
def test_the_status_tells_the_worst_first(states: list[State], words: str, kind: str) -> None:
    found = status(judged(*states))
    assert (found.words, found.kind) == (words, kind)


@pytest.mark.parametrize(
    ("states", "words", "kind"),
    [
        ([State.CONFORMS], "Conforms to 1 requirement; 1 condition of scope holds", "conforms"),
        ([State.CONFORMS] * 2, "Conforms to 1 requirement; 2 conditions of scope hold", "conforms"),
        ([State.DOES_NOT_CONFORM], "Does not conform: 1 condition of scope", "fails"),
        ([State.NOT_SHOWN], "Open: 1 not shown", "open"),
    ],
)
def test_what_takes_an_aircraft_out_of_a_law_is_counted_apart(
    states: list[State], words: str, kind: str
) -> None:
    outside = "eu-2018-1139-annex-i"
    verdicts = tuple(replace(verdict(state), rule_set=outside) for state in states)
    found = status(replace(judged(), verdicts=(verdict(State.CONFORMS), *verdicts)))
    assert (found.words, found.kind) == (words, kind)


def test_open_work_keeps_a_dossier_from_the_mark_that_nothing_is_open() -> None:
    dossier = judged(State.CONFORMS)
    left = replace(dossier.assembly, blocks=(Block("Wing", "open", "", fails=False),))
    assert status(replace(dossier, assembly=left)).words == "Conforms to 1 requirement; 1 other point open"


@pytest.mark.parametrize(
    ("results", "words"),
    [
        ([Support.CONTRADICTED], "; 1 claim contradicted"),
        (
            [Support.CONTRADICTED, Support.NOT_SHOWN, Support.SUPPORTED, Support.CONTRADICTED],
            "; 2 claims contradicted; 1 other point open",
        ),
        ([Support.NOT_SUPPORTED, Support.NOT_SHOWN], "; 2 other points open"),
    ],
)
def test_a_claim_that_is_contradicted_is_told_apart_from_open_points(
    results: list[Support], words: str
) -> None:
    claims = tuple(replace(made("quillet-e1", "0003").claims[0], result=result) for result in results)
    found = status(replace(judged(State.CONFORMS), claims=claims))
    assert (found.words, found.kind) == (f"Conforms to 1 requirement{words}", "open")


def test_a_failing_requirement_governs_before_one_with_a_smaller_margin() -> None:
    verdicts = (
        verdict(State.CONFORMS, 0.1, "empty_mass"),
        verdict(State.DOES_NOT_CONFORM, -5.0, "empty_mass"),
    )
    assert governing(replace(judged(), verdicts=verdicts)) is verdicts[1]


def test_among_equals_the_smaller_margin_governs() -> None:
    verdicts = (verdict(State.CONFORMS, 4.0, "empty_mass"), verdict(State.CONFORMS, 3.0, "empty_mass"))
    assert governing(replace(judged(), verdicts=verdicts)) is verdicts[1]


def test_a_limit_of_the_empty_mass_governs_before_one_of_the_take_off_mass() -> None:
    verdicts = (
        verdict(State.CONFORMS, 0.5, "maximum_take_off_mass"),
        verdict(State.CONFORMS, 9.0, "empty_mass"),
    )
    assert governing(replace(judged(), verdicts=verdicts)) is verdicts[1]


def test_every_headline_figure_says_under_which_condition_it_holds() -> None:
    shown = text_of("quillet-e1", "0003", "index.md")
    for words in (
        "No pilot, no baggage; weighed 2025-04-22",
        "Behind the datum, empty; 53.19 % of the chord",
        "Battery FM-L-007, capacity as last recorded",
        "± mostly from capacity of battery FM-L-007 …; efficiency of the battery",
        "Heaviest pilot, 220.0 lb (99.8 kg); no wind, warm battery, after the climb",
        "CAS, flight test 2025-05-06, carried to 500.0 lb",
        "Pilot, baggage and ballast, to 500.0 lb at take-off",
    ):
        assert words in shown


@everyone
def test_no_headline_figure_goes_without_its_condition(project: str, number: str) -> None:
    at = Printer(made(project, number), "index.md")
    assert [card.figure.label for card in cards(at) if not card.condition] == []


def test_a_draft_behind_an_edition_says_which_one_was_the_last() -> None:
    assert "not issued yet; edition A was the last" in text_of("quillet-e1", "0003", "index.md")


@everyone
def test_the_index_of_the_fleet_tells_the_state_of_each_cover(project: str, number: str) -> None:
    dossier = made(project, number)
    page = fleet_index([dossier])
    assert escape(status(dossier).words) in page
    assert escape(edition_words(dossier)) in page
    assert [item.subject for item in open_items(dossier) if str(escape(item.subject)) not in page] == []
