"""Figures that come from a limit or a flight test rather than from the scales."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from dossier.compute import performance
from dossier.figures import evaluate, given, taken
from dossier.model.aircraft import Aircraft
from dossier.replay import Measured, State
from dossier.results.attempt import Attempt, attempt
from dossier.results.reduced_runs import FlightRuns

LABELS = {
    "stall_speed": "Stalling speed, measured",
    "maximum_level_speed": "Highest level speed at full power, measured",
    "minimum_sink": "Least sink rate, measured",
}
TO_MAXIMUM_MASS = ("stall_speed",)
"""Quantities that rules ask for at the maximum take-off mass and that were measured at another."""


def general_figures(aircraft: Aircraft, state: State, runs: FlightRuns) -> tuple[Attempt, ...]:
    """Make the figures that need neither scales nor battery."""
    limit = aircraft.limits[aircraft.loading.maximum_take_off_mass]
    mass = given(limit.value, str(limit.name))
    area = given(aircraft.geometry.wing_area, "wing area")
    return (
        Attempt(
            evaluate(performance.as_stated, "maximum_take_off_mass", str(limit.name), "mass", {"y": mass}),
            None,
        ),
        attempt(
            lambda: evaluate(
                performance.wing_loading,
                "wing_loading",
                "Wing loading at the maximum take-off mass",
                "surface_loading",
                {"m": mass, "S": area},
            ),
            "the wing loading",
            aircraft.geometry.place_of_key("wing_area"),
        ),
        Attempt(
            evaluate(
                performance.as_stated,
                "maximum_power",
                "Electrical power at full throttle",
                "power",
                {"y": given(aircraft.propulsion.maximum_power, "power at full throttle")},
            ),
            None,
        ),
        *(
            _flight_test(quantity, measured, aircraft, runs)
            for quantity, measured in sorted(state.measured.items())
        ),
    )


def _flight_test(quantity: str, measured: Measured, aircraft: Aircraft, runs: FlightRuns) -> Attempt:
    """Make the figure of a measured quantity; a speed that a rule wants at the maximum mass
    is carried there."""
    limit = aircraft.limits[aircraft.loading.maximum_take_off_mass]
    result = measured.result
    found = runs.mean_of(quantity, measured.test)
    label = LABELS.get(quantity, quantity.replace("_", " ").capitalize())
    value, mass = (taken(found[0]), found[1]) if found else (None, result.at_mass)
    if value is None and result.value:
        value = given(result.value, f"{LABELS.get(quantity, quantity)}, {measured.test.date}")
    if value is None:
        return Attempt(None, None)  # its runs cannot be reduced, and that is told
    if quantity not in TO_MAXIMUM_MASS or mass is None or value.kind != "speed":
        style = "vertical_speed" if (quantity, value.kind) == ("minimum_sink", "speed") else ""
        return Attempt(
            evaluate(performance.as_stated, quantity, label, value.kind, {"y": value}, style=style),
            None,
        )
    inputs = {
        "v_ref": value,
        "m": given(limit.value, str(limit.name)),
        "m_ref": given(mass, "mass of the test"),
    }
    return attempt(
        lambda: evaluate(
            performance.speed_at_mass, quantity, f"{label}, at the maximum take-off mass", "speed", inputs
        ),
        label.lower(),
        result.place,
    )


def measured_on(state: State) -> Mapping[str, date]:
    """Say on which day each measured figure was measured."""
    dates: dict[str, date] = {quantity: measured.test.date for quantity, measured in state.measured.items()}
    if state.weighing:
        for name in ("weighed_mass", "weighed_cg"):  # all that is made from them finds its date here
            dates[name] = state.weighing.date
    return dates


def bases(state: State) -> Mapping[str, str]:
    """Say on which basis each measured speed stands: CAS, IAS or TAS."""
    return {
        quantity: measured.result.basis
        for quantity, measured in state.measured.items()
        if measured.result.basis
    }
