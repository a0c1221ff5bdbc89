"""The printed weighings, reproduced through a record: scales, supports, arms and what is taken off, in
printed units."""

from __future__ import annotations

from pathlib import Path

import pytest
from book_record import POUND, book, in_inches, in_pounds, item_lb, moment_lb_in, rows_of, weighed
from published import Example, as_printed, number
from sample_project import Draft, support, weighing

from dossier.dossier import Dossier

EMPTY = ("weighed_mass", "weighed_cg")


def made(folder: Path, event: dict[str, object]) -> Dossier:
    draft = Draft()
    draft.events.append(event)
    return draft.make(folder)


# --- any datum: a weighing is masses at arms


@pytest.mark.parametrize("name", ["WB-001", "WB-002"])
def test_masses_on_supports_give_the_printed_total_moment_and_centre_about_either_datum(
    name: str, tmp_path: Path
) -> None:
    table = book(name)
    dossier = made(tmp_path, weighed(*rows_of(table)))
    assert in_pounds(dossier, "weighed_mass") == as_printed(table.expect["total_weight_lb"])
    assert moment_lb_in(dossier, *EMPTY) == as_printed(table.expect["total_moment_lb_in"])
    assert in_inches(dossier, "weighed_cg") == as_printed(table.expect["cg_in_2dp"])


def test_a_datum_100_in_further_aft_moves_the_printed_arm_by_100_in(tmp_path: Path) -> None:
    fore = made(tmp_path / "fore", weighed(*rows_of(book("WB-001"))))
    aft = made(tmp_path / "aft", weighed(*rows_of(book("WB-002"))))
    assert in_inches(fore, "weighed_cg") - in_inches(aft, "weighed_cg") == pytest.approx(100, abs=1e-9)


# --- nose wheel and tail wheel, datum ahead of, behind and at the main wheels


def gear(table: Example, main: float, third: float) -> dict[str, object]:
    """Weigh on the main wheels together and on the third wheel."""
    given = table.given
    on_third = number(given.get("F_lb") or given["R_lb"])
    return weighed((number(given["W_lb"]) - on_third, main), (on_third, third))


@pytest.mark.parametrize(
    ("name", "side", "third"),
    [
        pytest.param("WB-007", 1, -1, id="WB-007: nose wheel, datum ahead of the mains"),
        pytest.param("WB-008", -1, -1, id="WB-008: nose wheel, datum behind the mains"),
        pytest.param("WB-009", 1, 1, id="WB-009: tail wheel, datum ahead of the mains"),
        pytest.param("WB-010", -1, 1, id="WB-010: tail wheel, datum behind the mains"),
    ],
)
def test_each_gear_and_datum_gives_the_printed_empty_centre(
    name: str, side: int, third: int, tmp_path: Path
) -> None:
    table = book(name)
    main = side * number(table.given["D_in"])
    dossier = made(tmp_path, gear(table, main, main + third * number(table.given["L_in"])))
    assert in_inches(dossier, "weighed_cg") == as_printed(table.expect["cg_in"])


def test_a_datum_at_the_main_wheels_gives_the_printed_signed_arm(tmp_path: Path) -> None:
    table = book("WB-011")
    dossier = made(tmp_path, gear(table, 0.0, number(table.given["L_in"])))
    assert in_inches(dossier, "weighed_cg") == as_printed(table.expect["cg_in"])


# --- scale, tare, fuel off, unusable fuel back on


@pytest.fixture(scope="module")
def six_column_record(tmp_path_factory: pytest.TempPathFactory) -> Dossier:
    """WB-006. Its captions place the datum in two ways; the arms fix it to the wheels, and they are
    taken here."""
    given = book("WB-006").given
    fuel = number(given["fuel_on_board_usgal"]) * number(given["fuel_density_lb_per_usgal"])
    supports = [
        support(
            name,
            f"{given['scale_lb'][name]} lb",
            tare=f"{given['tare_lb'][name]} lb",
            arm=f"{given['arm_in'][name]} in",
        )
        for name in ("nose", "left_main", "right_main")
    ]
    return made(
        tmp_path_factory.mktemp("wb006"),
        weighing(
            *supports,
            remove=[item_lb("fuel", fuel, given["fuel_arm_in"])],
            add=[item_lb("unusable fuel", given["unusable_fuel_lb"], given["unusable_fuel_arm_in"])],
        ),
    )


@pytest.mark.parametrize("name", ["nose", "left_main", "right_main"])
def test_scale_less_tare_is_the_printed_net(name: str, six_column_record: Dossier) -> None:
    figure = f"net_mass.{name.replace('_', '-')}"
    assert in_pounds(six_column_record, figure) == as_printed(book("WB-006").expect["net_lb"][name])


def test_the_fuel_taken_off_is_the_printed_mass(six_column_record: Dossier) -> None:
    assert six_column_record.weighing is not None
    fuel = six_column_record.weighing.corrections[0]
    assert -fuel.mass.value / POUND == as_printed(book("WB-006").expect["fuel_removed_lb"])


def test_net_less_fuel_and_with_unusable_fuel_is_the_printed_empty_weight(six_column_record: Dossier) -> None:
    assert in_pounds(six_column_record, "weighed_mass") == as_printed(
        book("WB-006").expect["empty_weight_lb"]
    )


def test_the_empty_moment_is_the_printed_one(six_column_record: Dossier) -> None:
    assert moment_lb_in(six_column_record, *EMPTY) == as_printed(book("WB-006").expect["empty_moment_lb_in"])


def test_the_empty_centre_is_the_printed_one(six_column_record: Dossier) -> None:
    assert in_inches(six_column_record, "weighed_cg") == as_printed(book("WB-006").expect["ewcg_in"])


# --- along and across


def three_points(table: Example, arms: list[str], lateral: list[str]) -> dict[str, object]:
    return weighing(
        *(
            support(f"point {n}", f"{net} lb", arm=f"{arm} in", lateral_arm=f"{across} in")
            for n, (net, arm, across) in enumerate(zip(table.given["net_lb"], arms, lateral, strict=True), 1)
        )
    )


@pytest.fixture(scope="module")
def printed_form(tmp_path_factory: pytest.TempPathFactory) -> Dossier:
    """WB-023 and WB-024 are one form: the same aircraft along and across."""
    along, across = book("WB-023"), book("WB-024")
    assert along.given["net_lb"] == across.given["net_lb"]
    event = three_points(along, along.given["arm_in"], across.given["arm_lateral_in"])
    return made(tmp_path_factory.mktemp("form"), event)


def test_three_points_give_the_printed_total(printed_form: Dossier) -> None:
    assert in_pounds(printed_form, "weighed_mass") == as_printed(book("WB-023").expect["total_lb"])


def test_three_points_give_the_printed_moment(printed_form: Dossier) -> None:
    assert moment_lb_in(printed_form, *EMPTY) == as_printed(book("WB-023").expect["total_moment_lb_in"])


def test_three_points_give_the_printed_centre_along(printed_form: Dossier) -> None:
    assert in_inches(printed_form, "weighed_cg") == as_printed(book("WB-023").expect["cg_in"])


def test_the_printed_table_of_wb_024_has_the_wrong_sign_and_its_text_the_right_one(
    printed_form: Dossier,
) -> None:
    table = book("WB-024")
    across = in_inches(printed_form, "weighed_lateral_cg")
    assert table.disagrees
    assert across == as_printed(table.expect["cg_lateral_in_in_text"])
    assert across != as_printed(table.expect["cg_lateral_in_in_table"])


# --- kilograms with feet and inches


@pytest.mark.parametrize(
    ("key", "mains_in", "sign"), [("cg_in_aft_of_nose", 92, 1), ("cg_in_ahead_of_mains", 0, -1)]
)
def test_kilograms_on_a_wheelbase_in_feet_and_inches_give_the_printed_arm(
    key: str, mains_in: int, sign: int, tmp_path: Path
) -> None:
    table = book("WB-052")
    given = table.given
    base = number(given["wheelbase_ft"]) * 12 + number(given["wheelbase_in_extra"])
    event = weighing(
        support("nose", f"{given['nose_kg']} kg", arm=f"{mains_in - base} in"),
        support("left main", f"{given['left_main_kg']} kg", arm=f"{mains_in} in"),
        support("right main", f"{given['right_main_kg']} kg", arm=f"{mains_in} in"),
    )
    assert sign * in_inches(made(tmp_path, event), "weighed_cg") == as_printed(table.expect[key])


# --- on the mean aerodynamic chord


def on_chord(table: Example, cg: str, folder: Path) -> float:
    draft = Draft()
    draft.aircraft["geometry"] |= {
        "mean_aerodynamic_chord": f"{table.given['mac_in']} in",
        "leading_edge_of_chord": f"{table.given['lemac_in']} in",
    }
    draft.events.append(weighed((1000, cg)))
    return draft.make(folder).figures["empty_cg_chord.without_battery"].value * 100


def test_an_arm_on_the_chord_is_the_printed_percentage(tmp_path: Path) -> None:
    table = book("WB-025")
    assert on_chord(table, table.given["cg_in"], tmp_path) == as_printed(table.expect["percent_mac"])


def test_the_arm_printed_for_a_percentage_has_that_percentage(tmp_path: Path) -> None:
    # the book goes from the percentage to the arm; a record holds arms, so the printed arm is taken back
    table = book("WB-026")
    assert on_chord(table, table.expect["cg_in"], tmp_path) == as_printed(table.given["percent_mac"])
