"""What the ± of a figure comes from, and what it takes as exact, in a line each."""

from __future__ import annotations

from demos import demo

from dossier.compose.contributors import mostly_from, taken_as_exact
from dossier.compose.cover import pages
from dossier.compute.pack import specific_energy
from dossier.figures import Figure, Input, evaluate
from dossier.findings import Place
from dossier.quantities import error

HERE = Place("battery.yaml", 3, 5, "options.pack.mass")


def density(energy: float, mass: float, *, origin: Place = HERE) -> Figure:
    """Make an energy for mass from standard uncertainties; 0 is none."""
    inputs = {
        "E": Input("energy", "energy", error(1e7, energy, "energy", bounded=False) if energy else 1e7, HERE),
        "m": Input(
            "mass of the pack", "mass", error(20.0, mass, "mass", bounded=False) if mass else 20.0, origin
        ),
    }
    return evaluate(specific_energy, "specific_energy", "energy for mass", "specific_energy", inputs)


def test_the_larger_part_stands_first() -> None:
    # JCGM 100, 5.1.2: of a quotient the relative uncertainties add in quadrature; 2 % and 1 %
    assert mostly_from(density(1e5, 0.4)) == "± mostly from mass; energy"


def test_one_cause_is_not_taken_for_all() -> None:
    assert mostly_from(density(1e5, 0.0)) == "± of one cause alone, the energy"


def test_a_value_without_its_own_uncertainty_is_told() -> None:
    assert taken_as_exact(density(1e5, 0.0)) == "Taken as exact: mass of the pack"


def test_nothing_is_told_where_everything_has_its_own() -> None:
    assert taken_as_exact(density(1e5, 0.4)) == ""


def test_a_figure_without_uncertainty_has_no_cause() -> None:
    assert mostly_from(density(0.0, 0.0)) == ""


def test_a_limit_is_exact_and_not_told() -> None:
    limit = Place("aircraft.yaml", 3, 5, "limits.mass.value")
    assert taken_as_exact(density(1e5, 0.0, origin=limit)) == ""


def test_the_inputs_of_inputs_are_told_too() -> None:
    figures = demo("quillet-e1")["0003"].figures
    told = taken_as_exact(figures["charging_time.long-pack"])
    assert told == "Taken as exact: efficiency of charging; power of the charger; rest voltages of the cell"


def test_every_card_of_the_cover_has_both_lines_where_there_is_something_to_tell() -> None:
    text = pages(demo("quillet-e1")["0003"])[0].text
    assert text.count("figure__origin") > 6
    assert "± mostly from least sink rate; efficiency of the propeller; efficiency of the motor" in text
