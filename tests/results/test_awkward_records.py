"""Records that are right but unusual, and values that cannot be: a figure or a finding, and never a fault
of the program."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from demos import SERIALS, demo
from sample_project import Draft, Tree, event, pack_fitted, scale, starter_file, support, weighing

from dossier.dossier import Dossier
from dossier.findings import Rejected
from dossier.references.figure_names import COMPUTED
from dossier.results.weighing import slugs


def starter() -> Draft:
    draft = Draft(record=starter_file("serials/0001/record.yaml"))
    for one in draft.events:
        one.pop("evidence", None)
    return draft


def codes(dossier: Dossier) -> list[str]:
    return [finding.code for finding in dossier.findings]


def refused(draft: Draft, folder: Path) -> list[str]:
    with pytest.raises(Rejected) as rejected:
        draft.make(folder)
    return [finding.code for finding in rejected.value.findings]


# --- names that would give two figures one name


def test_two_supports_whose_names_come_to_one_have_figures_of_their_own(tmp_path: Path) -> None:
    draft = starter()
    draft.events[1]["supports"][1]["name"] = "Left-wheel"
    figures = draft.make(tmp_path).figures
    assert figures["net_mass.left-wheel"].value != figures["net_mass.left-wheel-2"].value


def test_names_in_another_script_have_figures_of_their_own() -> None:
    assert slugs(["左輪", "右輪", "Tail"]) == ("1", "2", "tail")


def test_two_phases_of_one_name_have_figures_of_their_own(tmp_path: Path) -> None:
    draft = starter()
    draft.aircraft["profile"].append(
        {"name": "Reserve", "kind": "reserve", "power": "1 kW", "duration": "6 s"}
    )
    figures = draft.make(tmp_path).figures
    assert figures["energy_reserve-5.standard-pack"].value == pytest.approx(6000)


@pytest.mark.parametrize("quantity", sorted(COMPUTED))
def test_a_flight_test_cannot_measure_what_is_computed(quantity: str, tmp_path: Path) -> None:
    draft = starter()
    result = {"quantity": quantity, "value": "1 kg", "configuration": "any"}
    draft.events.append(event("flight-test", "2026-05-05", results=[result]))
    assert refused(draft, tmp_path) == ["P019"]


@pytest.mark.parametrize(("project", "serial"), SERIALS)
def test_every_computed_figure_without_a_dot_is_guarded(project: str, serial: str) -> None:
    dossier = demo(project)[serial]
    measured = set(dossier.state.measured)
    assert {name for name in dossier.figures if "." not in name} - measured <= COMPUTED


# --- values at the edge of what a formula holds for


def test_an_efficiency_within_its_uncertainty_of_1_is_told_and_no_flight_is_shown(tmp_path: Path) -> None:
    draft = starter()
    draft.aircraft["propulsion"]["efficiency"]["controller"] = "0.99 ± 0.03"
    dossier = draft.make(tmp_path)
    assert "drive_efficiency" not in dossier.figures
    assert "C001" in codes(dossier)


def test_a_battery_efficiency_within_its_uncertainty_of_1_is_told_and_no_energy_is_shown(
    tmp_path: Path,
) -> None:
    draft = starter()
    draft.aircraft["propulsion"]["efficiency"]["battery"] = "0.99 ± 0.03"
    dossier = draft.make(tmp_path)
    assert "deliverable_energy.standard-pack" not in dossier.figures
    assert "capacity.standard-pack" in dossier.figures
    assert "C001" in codes(dossier)


def test_a_stalling_speed_in_kilograms_is_no_speed(tmp_path: Path) -> None:
    draft = starter()
    result = {
        "quantity": "stall_speed",
        "value": "22 kg",
        "configuration": "motor off",
        "at_mass": "200 kg",
        "basis": "CAS",
    }
    draft.events.append(event("flight-test", "2026-05-05", results=[result]))
    dossier = draft.make(tmp_path)
    assert dossier.figures["stall_speed"].kind == "mass"
    assert "J004" in codes(dossier)


def test_a_scale_without_a_last_digit_still_shows_that_its_zero_moved(tmp_path: Path) -> None:
    draft = Draft()
    scales = {"scale": scale(zero_before="0 kg", zero_after="0.1 kg")}
    draft.events.append(weighing(support("all", "50 kg", "50 kg", arm="0.5 m"), scales=scales))
    assert "W002" in codes(draft.make(tmp_path))


# --- values that cannot be


def _set(path: str, value: Any) -> Callable[[Draft], None]:
    def change(draft: Draft) -> None:
        here: Any = draft
        *parents, last = path.split(".")
        here = getattr(here, parents[0])
        for key in parents[1:]:
            here = here[int(key)] if isinstance(here, list) else here[key]
        here[last] = value

    return change


WRONG = {
    "no wing area": _set("aircraft.geometry.wing_area", "0 m²"),
    "no take-off mass": _set("aircraft.limits.take_off_mass.value", "0 kg"),
    "an envelope from no mass": _set("aircraft.loading.envelope.0.mass", "0 kg"),
    "a negative pilot": _set("aircraft.loading.seat.minimum", "-1 kg"),
    "a lightest pilot above the heaviest": _set("aircraft.loading.seat.minimum", "101 kg"),
    "an efficiency in per cent without its sign": _set("aircraft.propulsion.efficiency.motor", "88"),
    "a negative piece of ballast": _set("aircraft.loading.ballast.piece", "-2 kg"),
    "no cells in series": _set("battery.options.standard-pack.series", "0"),
    "a box without height": _set("battery.options.standard-pack.size.height", "0 mm"),
    "a reserve of everything": _set("battery.options.standard-pack.reserve", "100 %"),
    "a charger without power": _set("battery.charger.power", "0 kW"),
    "a negative error of a scale": _set("record.events.1.scales.left.maximum_permissible_error", "-0.1 kg"),
    "a negative last digit": _set("record.events.1.scales.left.resolution", "-0.1 kg"),
    "a negative reading": _set("record.events.1.supports.0.readings", ["53 kg", "-53 kg"]),
    "a negative tare": _set("record.events.1.supports.0.tare", "-0.4 kg"),
    "a battery of no mass": _set("record.events.0.mass", "0 kg"),
    "no reading": _set("record.events.1.supports.0.readings", []),
    "no support": _set("record.events.1.supports", []),
    "no battery": _set("battery.options", {}),
}


@pytest.mark.parametrize("fault", WRONG)
def test_a_value_that_cannot_be_is_refused_at_its_line(fault: str, tmp_path: Path) -> None:
    draft = starter()
    if fault == "no battery":
        del draft.events[0]
    WRONG[fault](draft)
    with pytest.raises(Rejected) as rejected:
        draft.make(tmp_path)
    finding = rejected.value.findings[0]
    assert finding.code in {"P017", "P018"}
    assert finding.place is not None


def _quantities(tree: Any, path: tuple[Any, ...] = ()) -> list[tuple[tuple[Any, ...], str]]:
    """Every value with a unit, by its path."""
    if isinstance(tree, dict):
        return [one for key, value in tree.items() for one in _quantities(value, (*path, key))]
    if isinstance(tree, list):
        return [one for key, value in enumerate(tree) for one in _quantities(value, (*path, key))]
    found = re.fullmatch(r"-?[\d.]+( [^±]+?)?( ±.*)?", str(tree))
    return [(path, found[1] or "")] if found and path[-1] not in {"serial_number", "design_revision"} else []


def _places(part: str) -> list[tuple[str, tuple[Any, ...], str]]:
    tree: Tree = getattr(starter(), part)
    return [(part, path, unit) for path, unit in _quantities(tree)]


@pytest.mark.parametrize("number", ["0", "-1", "1e9"])
@pytest.mark.parametrize("part", ["aircraft", "battery", "record"])
def test_no_value_of_the_starter_can_bring_the_program_down(part: str, number: str, tmp_path: Path) -> None:
    outcomes = []
    for index, (_, path, unit) in enumerate(_places(part)):
        draft = starter()
        here: Any = getattr(draft, part)
        for key in path[:-1]:
            here = here[key]
        here[path[-1]] = number + unit
        try:
            outcomes.append(len(draft.make(tmp_path / str(index)).figures) > 0)
        except Rejected as rejected:
            outcomes.append(len(rejected.findings) > 0)
    assert outcomes
    assert all(outcomes)


def test_a_battery_fitted_but_never_weighed_leaves_the_energy_out(tmp_path: Path) -> None:
    draft = Draft()
    draft.events.append(pack_fitted("P-1", "18 kg"))
    dossier = draft.make(tmp_path)
    assert dossier.energy is None
    assert "usable_energy.standard-pack" in dossier.figures
