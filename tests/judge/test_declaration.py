"""The builder's declaration, after ISO/IEC 17050-1:2004, clause 6 (items 1 to 5 second-hand, then memory)."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from invented import Serial, compliance, read, serial

from dossier.judge.declaration import Declaration, declare
from dossier.judge.rule_sets import known_rule_sets
from dossier.judge.verdict import State
from dossier.model.aircraft import Aircraft
from dossier.model.record import SerialRecord

DAY = date(2026, 6, 1)


class Named:
    """An invented type, as far as a declaration reads it."""

    def __init__(self, **entries: Any) -> None:
        self.__dict__.update(entries)


AIRCRAFT: Any = Named(
    identification=Named(name="Invented Tern", designation="IT"),
    builder=Named(
        name="Invented Works",
        address=["1 No Street", "Nowhere"],
        contact="none",
        responsible_person="A. Nobody",
        function="designer",
    ),
)
RECORD: Any = Named(serial_number="0012", build=Named(completed=date(2026, 3, 1)))


@pytest.fixture
def declared(tmp_path: Path) -> Any:
    def make(one: Serial | None = None, **changes: Any) -> Declaration:
        file = compliance(tmp_path, "us-14-cfr-103", **changes)
        judgement = (one or serial()).judged(file)
        return declare(
            "IT-0012-A",
            AIRCRAFT,
            RECORD,
            compliance=file,
            rule_sets=known_rule_sets(),
            judgement=judgement,
            as_of=DAY,
        )

    return make


def test_the_good_serial_is_declared_in_full(declared: Any) -> None:
    assert declared().rule_sets[0].whole.is_shown


def test_only_what_conforms_is_declared(declared: Any) -> None:
    one = declared(serial(figures={"stall_speed": ""})).rule_sets[0]
    assert {row.verdict for row in one.conforms} == {State.CONFORMS}
    assert "us-14-cfr-103/e-4" not in [row.requirement for row in one.conforms]


@pytest.mark.parametrize(
    ("stall", "state"),
    [
        ("", State.NOT_SHOWN),
        ("24 kt ± 1 kt", State.INCONCLUSIVE),
        ("26 kt ± 1 kt", State.DOES_NOT_CONFORM),
    ],
)
def test_what_was_not_shown_stands_there_with_its_reason(declared: Any, stall: str, state: State) -> None:
    one = declared(serial(figures={"stall_speed": stall})).rule_sets[0]
    assert [(row.requirement, row.verdict, bool(row.reason)) for row in one.not_declared] == [
        ("us-14-cfr-103/e-4", state, True)
    ]


def test_an_open_requirement_makes_a_rule_set_incomplete(declared: Any) -> None:
    assert not declared(serial(figures={"stall_speed": ""})).rule_sets[0].whole.is_shown


def test_a_rule_set_of_which_nothing_applies_is_not_complete(declared: Any) -> None:
    assert not declared(serial(as_of="1982-10-03")).rule_sets[0].whole.is_shown


def test_the_statement_counts_what_is_open(declared: Any) -> None:
    assert declared(serial(figures={"stall_speed": ""})).statement == (
        "The builder declares that serial number 0012 in its state of 2026-06-01 meets the requirements "
        "listed here as met (5). For 1 more that apply, this is not declared; they are listed with the "
        "reason."
    )


def test_nothing_shown_is_nothing_declared(declared: Any) -> None:
    empty = declared(Serial(as_of="2026-06-01"), occupants="", purpose="", airworthiness_certificate="")
    assert empty.statement == (
        "No requirement was shown to be met by serial number 0012 in its state of 2026-06-01; "
        "nothing is declared."
    )


def test_the_declaration_covers_one_configuration_state(declared: Any) -> None:
    one = declared()
    assert one.state_of == DAY
    assert "2026-06-01 alone" in one.validity


def test_the_declaration_says_that_it_is_no_approval(declared: Any) -> None:
    assert "no approval" in declared().is_not


@pytest.mark.parametrize(
    ("item", "due"),
    [
        ("number", "IT-0012-A"),
        ("issuer", "Invented Works"),
        ("address", ("1 No Street", "Nowhere")),
        ("serial_number", "0012"),
        ("type_name", "Invented Tern"),
        ("completed", date(2026, 3, 1)),
        ("signatory", "A. Nobody"),
        ("function", "designer"),
    ],
)
def test_the_declaration_has_the_items_of_the_standard(declared: Any, item: str, due: object) -> None:
    assert getattr(declared(), item) == due


def test_the_requirements_carry_their_edition(declared: Any) -> None:
    assert "copies dated" in declared().rule_sets[0].revision


def test_the_basis_of_the_battery_is_said_with_its_letter(declared: Any) -> None:
    more = "battery_basis: not-counted\nauthority_letter: Invented letter of 1 May 2026"
    one = declared(more=more).rule_sets[0]
    assert (one.battery_basis, one.authority_letter) == ("not-counted", "Invented letter of 1 May 2026")


def test_open_points_of_the_law_stand_in_the_declaration(declared: Any) -> None:
    one = declared().rule_sets[0]
    assert any("AC 103-7" in point or "Advisory Circular 103-7" in point for point in one.unsettled)
    e_1 = next(row for row in one.conforms if row.requirement == "us-14-cfr-103/e-1")
    assert any("traction batteries" in point for point in e_1.unsettled)


def test_a_rule_set_as_a_whole_says_which_requirement_keeps_it_from_being_shown(declared: Any) -> None:
    changes = {"stall_speed": "", "maximum_level_speed": "60 kt ± 1 kt"}
    assert declared(serial(figures=changes)).rule_sets[0].whole.words == (
        "As a whole it is not shown that the vehicle is an ultralight vehicle as section 103.1 describes it, "
        "because 103.1(e)(3) does not conform, and 103.1(e)(4) is not shown."
    )


def test_a_rule_set_as_a_whole_is_shown_by_every_requirement_that_applies(declared: Any) -> None:
    assert declared().rule_sets[0].whole.words == (
        "As a whole it is shown that the vehicle is an ultralight vehicle as section 103.1 describes it: "
        "every requirement that applies conforms."
    )


def test_what_lies_outside_a_law_is_counted_apart(tmp_path: Path) -> None:
    file = compliance(tmp_path, "eu-2018-1139-annex-i", parachute="none")
    judgement = serial().judged(file)
    parts = {"compliance": file, "rule_sets": known_rule_sets(), "judgement": judgement, "as_of": DAY}
    one = declare("IT-0012-A", AIRCRAFT, RECORD, **parts)
    assert one.rule_sets[0].lies_outside
    assert one.statement == (
        "The builder declares that serial number 0012 in its state of 2026-06-01 keeps the conditions of "
        "scope listed here as holding (3)."
    )


@pytest.mark.parametrize("project", ["quillet-e1", "barrow-t2"])
def test_a_demo_type_has_everything_that_a_declaration_reads(project: str, tmp_path: Path) -> None:
    folder = Path(__file__).parents[2] / "projects" / project
    aircraft = read(folder / "aircraft.yaml", "aircraft.yaml", Aircraft)
    number = min(path.parent.name for path in folder.glob("serials/*/record.yaml"))
    record = read(folder / "serials" / number / "record.yaml", "record.yaml", SerialRecord)
    file = compliance(tmp_path, "us-14-cfr-103")
    one = declare(
        "1",
        aircraft,
        record,
        compliance=file,
        rule_sets=known_rule_sets(),
        judgement=serial().judged(file),
        as_of=DAY,
    )
    assert one.serial_number == number
