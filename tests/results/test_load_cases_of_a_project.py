"""What may be on board, against brute force: the worst loadings, the ballast, the lightest and the heaviest
pilot."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from demos import SERIALS, demo
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from sample_project import Draft, support, weighing

from dossier.dossier import Dossier
from dossier.results.loading import Loadings

GRID = 201
"""Pilot and baggage masses that brute force tries along each range."""


def draft_of(
    empty: tuple[float, float],
    *,
    seat: tuple[float, float, float] = (-0.3, 60, 100),
    corners: list[tuple[float, float, float]] | None = None,
    ballast: tuple[float, float, int] | None = None,
    baggage: tuple[float, float, float] | None = None,
    packs: dict[str, tuple[float, float]] | None = None,
    limit: float | None = None,
) -> Draft:
    """Write an aircraft in kg and m: arm first, then masses; corners are mass, forward and aft limit."""
    corners = corners or [(150, 0.2, 0.45), (225, 0.2, 0.45)]
    draft = Draft()
    loading = draft.aircraft["loading"]
    draft.aircraft["limits"]["take_off_mass"]["value"] = f"{limit or corners[-1][0]} kg"
    loading["envelope"] = [{"mass": f"{m} kg", "forward": f"{f} m", "aft": f"{a} m"} for m, f, a in corners]
    loading["seat"] |= station(*seat)
    del loading["ballast"]
    if ballast:
        loading["ballast"] = {
            "arm": f"{ballast[0]} m",
            "piece": f"{ballast[1]} kg",
            "pieces": str(ballast[2]),
        }
    if baggage:
        loading["baggage"] = {"name": "Shelf", **station(*baggage)}
    option = draft.battery["options"].pop("standard-pack")
    for name, (mass, arm) in (packs or {"only": (18, 0.25)}).items():
        draft.battery["options"][name] = {**option, "mass": f"{mass} kg", "arm": f"{arm} m"}
    draft.compliance["claims"] = {}
    for cell in draft.battery["cells"].values():
        cell.pop(
            "resistance", None
        )  # no discharge model: it takes most of the time and says nothing of loadings
    draft.events.append(weighing(support("all", f"{empty[0]} kg", arm=f"{empty[1]} m")))
    return draft


def station(arm: float, least: float, most: float) -> dict[str, str]:
    return {"arm": f"{arm} m", "minimum": f"{least} kg", "maximum": f"{most} kg"}


def loads_of(draft: Draft, folder: Path) -> Loadings:
    made = draft.make(folder).loadings
    assert made is not None
    return made


def brute(dossier: Dossier, option: str) -> Iterator[tuple[Any, Any]]:
    """Masses and arms of a dense grid of pilots and baggage, for each number of pieces of ballast."""
    assert dossier.empty is not None
    loading = dossier.project.aircraft.loading
    mass, arm = (figure.value for figure in dossier.empty.with_option[option])
    seat, shelf, ballast = loading.seat, loading.baggage, loading.ballast
    bags = np.linspace(shelf.minimum.value, shelf.maximum.value, GRID)[None, :] if shelf else np.zeros((1, 1))
    at_shelf = shelf.arm.value if shelf else 0.0
    for count in range((ballast.pieces if ballast else 0) + 1):
        piece = count * ballast.piece.value if ballast else 0.0
        # where a limit is steep a grid misses its corner, so the pilots who bring the mass onto one are tried
        # as well
        bends = [
            point.mass.value - mass - piece - bag
            for point in loading.envelope
            for bag in (bags.min(), bags.max())
        ]
        most = dossier.project.aircraft.limits[loading.maximum_take_off_mass].value.value
        bends += [most - mass - piece - bag for bag in (bags.min(), bags.max())]
        inside = [pilot for pilot in bends if seat.minimum.value <= pilot <= seat.maximum.value]
        pilots = np.concatenate([np.linspace(seat.minimum.value, seat.maximum.value, GRID), inside])[:, None]
        total = mass + pilots + bags + piece
        moment = (
            mass * arm
            + pilots * seat.arm.value
            + bags * at_shelf
            + (piece * ballast.arm.value if ballast else 0.0)
        )
        yield total, moment / total


def limits_at(dossier: Dossier, masses: Any) -> tuple[Any, Any]:
    points = dossier.project.aircraft.loading.envelope
    corner = [point.mass.value for point in points]
    sides = [[getattr(point, side).value for point in points] for side in ("forward", "aft")]
    forward, aft = (np.interp(masses, corner, side) for side in sides)
    return forward, aft


def brute_worst(dossier: Dossier) -> dict[str, float]:
    """Least margin to each limit over all batteries; arms are judged up to the mass limit only."""
    loading = dossier.project.aircraft.loading
    most = dossier.project.aircraft.limits[loading.maximum_take_off_mass].value.value
    found: dict[str, float] = {}
    for option in dossier.project.battery.options:
        for masses, arms in brute(dossier, option):
            forward, aft = limits_at(dossier, masses)
            below = masses <= most * (1 + 1e-12)  # what floats leave of a sum that is the limit
            margins = {"forward": (arms - forward)[below], "aft": (aft - arms)[below], "mass": most - masses}
            for limit, margin in margins.items():
                if margin.size:
                    found[limit] = min(found.get(limit, np.inf), float(margin.min()))
    return found


def worst(dossier: Dossier) -> dict[str, float]:
    assert dossier.loadings is not None
    return {corner.limit: corner.margin for corner in dossier.loadings.worst}


MARGIN = {"forward": 5e-4, "aft": 5e-4, "mass": 1e-6}
"""In m and kg: what a grid of 201 masses can miss of the least margin. It can miss it to one side only."""


def assert_worst_is_found(dossier: Dossier) -> None:
    found, tried = worst(dossier), brute_worst(dossier)
    assert set(tried) <= set(found)
    for limit, margin in tried.items():
        assert found[limit] <= margin + 1e-9, f"{limit}: brute force finds a worse loading"
        assert found[limit] >= margin - MARGIN[limit], (
            f"{limit}: the worst loading is not among those allowed"
        )


arms = st.floats(-0.6, 0.8).map(lambda value: round(value, 3))


@st.composite
def aircraft(draw: st.DrawFn) -> Draft:
    masses = sorted(draw(st.lists(st.integers(140, 300), min_size=2, max_size=4, unique=True)))
    corners = [
        (
            float(mass),
            draw(st.floats(0.1, 0.3).map(lambda v: round(v, 3))),
            draw(st.floats(0.35, 0.6).map(lambda v: round(v, 3))),
        )
        for mass in masses
    ]
    lightest = draw(st.integers(40, 90))
    shelf = draw(st.none() | st.tuples(arms, st.integers(0, 5).map(float), st.integers(6, 30).map(float)))
    ballast = draw(st.none() | st.tuples(arms, st.floats(1, 4).map(lambda v: round(v, 2)), st.integers(1, 3)))
    packs = {
        f"pack-{n}": (float(draw(st.integers(10, 35))), draw(arms)) for n in range(draw(st.integers(1, 2)))
    }
    return draft_of(
        (float(draw(st.integers(70, 140))), round(draw(st.floats(0.2, 0.9)), 3)),
        seat=(draw(arms), float(lightest), float(lightest + draw(st.integers(5, 60)))),
        corners=corners,
        ballast=ballast,
        baggage=shelf,
        packs=packs,
    )


@settings(max_examples=40)
@given(draft=aircraft())
def test_the_worst_loadings_are_those_of_brute_force(
    draft: Draft, tmp_path_factory: pytest.TempPathFactory
) -> None:
    assert_worst_is_found(draft.make(tmp_path_factory.mktemp("worst")))


WITH_ENVELOPE = [(project, serial) for project, serial in SERIALS if project == "quillet-e1"]


@pytest.mark.parametrize(("project", "serial"), WITH_ENVELOPE)
def test_the_worst_loadings_of_a_demonstration_are_those_of_brute_force(project: str, serial: str) -> None:
    assert_worst_is_found(demo(project)[serial])


def test_a_pilot_who_brings_the_mass_to_the_limit_is_judged_with_ballast_too(tmp_path: Path) -> None:
    # 92 + 29 + 1.83 + 111.17 kg are 234.00000000000003 kg in floats: at the limit of 234 kg, not over it
    draft = draft_of(
        (92, 0.835),
        seat=(-0.066, 75, 123),
        corners=[(154, 0.24, 0.504), (193, 0.18, 0.513), (234, 0.239, 0.38)],
        ballast=(-0.417, 1.83, 1),
        packs={"pack-0": (29, -0.029)},
    )
    assert_worst_is_found(draft.make(tmp_path))


def test_a_bend_of_the_limit_between_two_baggage_masses_is_found(tmp_path: Path) -> None:
    # the forward limit jumps back at 190 kg and returns at 200 kg: both ends of the baggage lie
    # beside the bend
    corners = [(150, 0.2, 0.6), (185, 0.2, 0.6), (190, 0.3, 0.6), (195, 0.2, 0.6), (225, 0.2, 0.6)]
    draft = draft_of((100, 0.55), seat=(0.2, 62, 62), corners=corners, baggage=(0.2, 0, 20))
    dossier = draft.make(tmp_path)
    assert_worst_is_found(dossier)
    corner = next(
        one for one in (dossier.loadings.worst if dossier.loadings else ()) if one.limit == "forward"
    )
    assert corner.mass == pytest.approx(190)


def test_baggage_behind_the_limit_is_in_the_aft_loading(tmp_path: Path) -> None:
    dossier = draft_of((110, 0.55), baggage=(0.9, 0, 10)).make(tmp_path)
    assert dossier.loadings is not None
    aft = next(corner for corner in dossier.loadings.worst if corner.limit == "aft")
    assert [load.name for load in aft.loads][-1] == "baggage of 10 kg"
    forward = next(corner for corner in dossier.loadings.worst if corner.limit == "forward")
    assert [load.name for load in forward.loads][-1] == "no baggage"


@settings(max_examples=20)
@given(draft=aircraft())
def test_the_figures_of_a_worst_loading_are_its_mass_arm_and_margin(
    draft: Draft, tmp_path_factory: pytest.TempPathFactory
) -> None:
    dossier = draft.make(tmp_path_factory.mktemp("figures"))
    assert dossier.loadings is not None
    for corner in dossier.loadings.worst:
        figures = [
            dossier.figures[f"{name}.worst_{corner.limit}"].value
            for name in ("loaded_mass", "loaded_cg", "margin")
        ]
        assert figures == pytest.approx([corner.mass, corner.arm, corner.margin])


@settings(max_examples=20)
@given(draft=aircraft())
def test_every_row_is_inside_just_where_its_margins_say_so(
    draft: Draft, tmp_path_factory: pytest.TempPathFactory
) -> None:
    for row in loads_of(draft, tmp_path_factory.mktemp("rows")).rows:
        sides = [margin for margin in (row.forward, row.aft) if margin is not None]
        assert row.inside == (row.below_limit >= 0 and len(sides) == 2 and min(sides) >= 0)


# --- ballast


NOSE_BALLAST = (-1.1, 2.5, 8)
TAIL_HEAVY = (110.0, 0.93)


def test_the_pieces_named_bring_the_lightest_pilot_inside_and_one_less_does_not(tmp_path: Path) -> None:
    loads = loads_of(draft_of(TAIL_HEAVY, ballast=NOSE_BALLAST), tmp_path)
    pieces = loads.ballast_pieces["only"]
    lightest = {round(row.ballast / 2.5): row for row in loads.rows if row.pilot == 60}
    assert pieces is not None
    assert pieces > 0
    assert lightest[pieces].inside
    assert not lightest[pieces - 1].inside


def test_no_piece_is_named_where_none_is_needed(tmp_path: Path) -> None:
    assert loads_of(draft_of((110, 0.55), ballast=NOSE_BALLAST), tmp_path).ballast_pieces == {"only": 0}


def test_no_number_is_named_where_all_pieces_are_too_few(tmp_path: Path) -> None:
    loads = loads_of(draft_of(TAIL_HEAVY, ballast=(-1.1, 0.5, 2)), tmp_path)
    assert loads.ballast_pieces == {"only": None}


def test_the_pieces_count_with_the_baggage_that_needs_most(tmp_path: Path) -> None:
    without = loads_of(draft_of(TAIL_HEAVY, ballast=NOSE_BALLAST), tmp_path / "without").ballast_pieces[
        "only"
    ]
    loads = loads_of(draft_of(TAIL_HEAVY, ballast=NOSE_BALLAST, baggage=(1.5, 0, 10)), tmp_path / "with")
    assert without is not None
    assert (loads.ballast_pieces["only"] or 0) > without


# --- the lightest and the heaviest pilot


def pilots_inside(dossier: Dossier) -> Any:
    """Brute force: pilots of 0 to 200 kg in steps of 10 g that the envelope allows, without ballast and
    baggage."""
    assert dossier.empty is not None
    mass, arm = (figure.value for figure in dossier.empty.with_option["only"])
    loading = dossier.project.aircraft.loading
    pilots = np.arange(0, 200, 0.01)
    totals = mass + pilots
    centres = (mass * arm + pilots * loading.seat.arm.value) / totals
    forward, aft = limits_at(dossier, totals)
    most = loading.envelope[-1].mass.value
    return pilots[(centres >= forward) & (centres <= aft) & (totals <= most)]


@settings(max_examples=40)
@given(
    empty=st.tuples(st.integers(80, 130).map(float), st.floats(0.3, 0.9).map(lambda v: round(v, 3))),
    seat_arm=st.floats(-0.6, 0.1).map(lambda v: round(v, 3)),
    bend=st.floats(0.2, 0.3).map(lambda v: round(v, 3)),
)
def test_the_lightest_and_heaviest_pilot_of_the_envelope_are_those_of_brute_force(
    empty: tuple[float, float], seat_arm: float, bend: float, tmp_path_factory: pytest.TempPathFactory
) -> None:
    corners = [(150, 0.2, 0.45), (190, bend, 0.45), (240, 0.3, 0.45)]
    dossier = draft_of(empty, seat=(seat_arm, 60, 100), corners=corners).make(
        tmp_path_factory.mktemp("pilots")
    )
    inside = pilots_inside(dossier)
    assume(inside.size > 10)
    assume(
        np.diff(inside).max() < 0.02
    )  # where the range is broken there is a finding, and no single pilot mass
    assert dossier.figures["minimum_pilot_mass.only"].value == pytest.approx(inside[0], abs=0.011)
    assert dossier.figures["maximum_pilot_mass_by_envelope.only"].value == pytest.approx(
        inside[-1], abs=0.011
    )


def pilots_inside_with_any_baggage(dossier: Dossier) -> Any:
    """Brute force: pilots in steps of 50 g whom the envelope and the mass limit allow with every baggage."""
    assert dossier.empty is not None
    mass, arm = (figure.value for figure in dossier.empty.with_option["only"])
    loading = dossier.project.aircraft.loading
    shelf = loading.baggage
    assert shelf is not None
    bags = np.linspace(shelf.minimum.value, shelf.maximum.value, GRID)[None, :]
    pilots = np.arange(0, 200, 0.05)[:, None]
    totals = mass + pilots + bags
    moments = mass * arm + pilots * loading.seat.arm.value + bags * shelf.arm.value
    forward, aft = limits_at(dossier, totals)
    most = dossier.project.aircraft.limits[loading.maximum_take_off_mass].value.value
    fits = (moments / totals >= forward) & (moments / totals <= aft) & (totals <= most)
    return pilots[fits.all(axis=1), 0]


@settings(max_examples=25)
@given(
    empty=st.tuples(st.integers(80, 130).map(float), st.floats(0.3, 0.9).map(lambda v: round(v, 3))),
    seat_arm=st.floats(-0.6, 0.1).map(lambda v: round(v, 3)),
    shelf=st.tuples(st.floats(-0.5, 1.5).map(lambda v: round(v, 2)), st.just(0.0), st.integers(1, 20)),
    limit=st.integers(200, 240),
)
def test_the_pilots_that_fit_with_any_baggage_are_those_of_brute_force(
    empty: tuple[float, float],
    seat_arm: float,
    shelf: tuple[float, float, float],
    limit: int,
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    corners = [(150, 0.2, 0.45), (190, 0.22, 0.45), (240, 0.25, 0.44)]
    draft = draft_of(empty, seat=(seat_arm, 60, 100), corners=corners, baggage=shelf, limit=limit)
    dossier = draft.make(tmp_path_factory.mktemp("any"))
    inside = pilots_inside_with_any_baggage(dossier)
    assume(inside.size > 10)
    assert dossier.figures["minimum_pilot_mass.only.any_baggage"].value == pytest.approx(inside[0], abs=0.051)
    assert dossier.figures["maximum_pilot_mass.only.any_baggage"].value == pytest.approx(
        inside[-1], abs=0.051
    )


def test_the_limit_with_the_most_baggage_is_that_of_the_aircraft_with_it_aboard(tmp_path: Path) -> None:
    dossier = draft_of((110, 0.55), packs={"only": (20, 0.2)}, baggage=(0.8, 0, 10)).make(tmp_path)
    assert dossier.figures["maximum_pilot_mass_by_mass.only"].value == pytest.approx(225 - 130)
    assert dossier.figures["maximum_pilot_mass_by_mass.only.full_baggage"].value == pytest.approx(225 - 140)


def test_where_some_baggage_must_be_aboard_no_limit_is_given_without_it(tmp_path: Path) -> None:
    dossier = draft_of((110, 0.55), packs={"only": (20, 0.2)}, baggage=(0.8, 3, 10)).make(tmp_path)
    assert dossier.figures["maximum_pilot_mass_by_mass.only"].value == pytest.approx(225 - 133)
    assert "the least baggage" in dossier.figures["maximum_pilot_mass_by_mass.only"].label


def test_without_a_baggage_station_there_is_one_limit_of_each(tmp_path: Path) -> None:
    dossier = draft_of((110, 0.55)).make(tmp_path)
    assert [name for name in dossier.figures if "baggage" in name] == []


def test_an_envelope_that_bends_inward_is_told_where_there_is_baggage(tmp_path: Path) -> None:
    corners = [(150, 0.2, 0.42), (225, 0.2, 0.45)]
    without = draft_of((110, 0.55), corners=corners).make(tmp_path / "without")
    with_it = draft_of((110, 0.55), corners=corners, baggage=(0.8, 0, 10)).make(tmp_path / "with")
    assert [found.code for found in without.findings if found.code == "C006"] == []
    assert [found.code for found in with_it.findings if found.code == "C006"] == ["C006"]


def test_where_no_pilot_fits_with_every_baggage_that_is_told(tmp_path: Path) -> None:
    # without baggage 63.5 to 78.8 kg, with 10 kg at 1.2 m 81.3 to 87 kg: by hand, from the moments
    corners = [(150, 0.2, 0.24), (225, 0.2, 0.24)]
    dossier = draft_of((110, 0.55), corners=corners, baggage=(1.2, 0, 10)).make(tmp_path)
    lightest = [dossier.figures[f"minimum_pilot_mass.only{end}"].value for end in ("", ".full_baggage")]
    assert lightest == pytest.approx([63.5, 81.3], abs=0.05)
    assert ["no pilot fits" in found.message for found in dossier.findings if found.code == "C006"] == [True]


def test_no_pilot_that_fits_is_told_and_not_shown(tmp_path: Path) -> None:
    dossier = draft_of((110, 0.9), seat=(0.9, 60, 100)).make(tmp_path)
    assert "minimum_pilot_mass.only" not in dossier.figures
    assert [f.code for f in dossier.findings if "lightest pilot" in f.message] == ["C001"]


def test_the_heaviest_pilot_by_mass_is_what_the_limit_leaves(tmp_path: Path) -> None:
    dossier = draft_of((110, 0.55), packs={"only": (20, 0.2)}).make(tmp_path)
    assert dossier.figures["maximum_pilot_mass_by_mass.only"].value == pytest.approx(225 - 130)


# --- the limit of mass against the envelope, and no envelope at all


def test_a_mass_limit_below_the_envelope_cuts_it(tmp_path: Path) -> None:
    loads = loads_of(draft_of((110, 0.55), limit=200), tmp_path)
    assert loads.envelope is not None
    assert loads.envelope.max_mass == 200
    assert not any(row.inside for row in loads.rows if row.mass > 200)


@pytest.mark.parametrize("serial", [serial for project, serial in SERIALS if project == "barrow-t2"])
def test_a_weight_shift_aircraft_has_no_envelope_and_is_judged_by_mass_alone(serial: str) -> None:
    dossier = demo("barrow-t2")[serial]
    assert dossier.loadings is not None
    assert dossier.loadings.envelope is None
    assert {(row.forward, row.aft) for row in dossier.loadings.rows} == {(None, None)}
    assert all(row.inside == (row.below_limit >= 0) for row in dossier.loadings.rows)
    assert not [
        name
        for name in dossier.figures
        if name.startswith(("margin.worst_aft", "margin.worst_forward", "minimum_pilot_mass"))
    ]
