"""Each battery that the type may fly with: from cell to pack, its energy, its rates, its room."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field

from dossier.compute import pack, pack_state, performance
from dossier.compute.half_charge import half_charge_voltage
from dossier.figures import Figure, Input, given
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery
from dossier.model.events import PackFitted
from dossier.replay import State
from dossier.results import pack_age
from dossier.results.pack_body import body
from dossier.results.pack_energy import stored_energy
from dossier.results.pack_workings import NotMadeError, PackWorkings
from dossier.results.rest_voltage import rest_points
from dossier.results.retirement import Retirement, retirement


@dataclass(frozen=True)
class PackResult:
    """The figures of one battery by their short names, such as ``usable_energy``."""

    option: str
    fitted: PackFitted | None
    figures: Mapping[str, Figure] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    retirement: Retirement | None = None
    """Of the fitted battery, against the capacity at which the type retires it."""


def packs(
    battery: Battery, aircraft: Aircraft, state: State, coverage: float | None = None
) -> tuple[PackResult, ...]:
    """Compute every battery; the one that is fitted with its own measured mass and capacity.

    Args:
        battery: the battery file.
        aircraft: the type.
        state: says which one is fitted, and its latest test.
        coverage: one-sided probability of the usual decision rule, for the capacity at which it is retired.
    """
    aboard = {str(one.option): one for one in state.packs}
    return tuple(
        _result(PackWorkings(str(name), battery, aircraft, aboard.get(name), state), coverage)
        for name in battery.options
    )


def _result(workings: PackWorkings, coverage: float | None) -> PackResult:
    for make in (_voltages, _capacity, stored_energy, _rates, body, _charging):
        with suppress(NotMadeError):  # what is missing has its finding, and the rest of this step needs it
            make(workings)
    workings.findings += pack_age.unmeasured(workings.figures, workings.option, workings.fitted)
    kept = _retirement(workings, coverage)
    figures, findings = dict(workings.figures), tuple(workings.findings)
    return PackResult(workings.name, workings.fitted, figures, findings, kept)


def _retirement(workings: PackWorkings, coverage: float | None) -> Retirement | None:
    fitted = workings.fitted
    if fitted is None:
        return None
    tested = workings.test is not None or fitted.measured_capacity is not None
    known = workings.figures.get("capacity") if tested else fitted.health
    of = (workings.name, workings.option, workings.cell)
    made = retirement(fitted, of, known, workings.aircraft, coverage)
    if made.share:
        workings.figures["capacity_share"] = made.share
    workings.findings += [made.finding] if made.finding else []
    return made


def _voltages(workings: PackWorkings) -> None:
    for short, label, cell in (
        ("nominal_voltage", "Nominal voltage", workings.cell.nominal_voltage),
        ("full_voltage", "Voltage at rest, full", workings.option.full_cell_voltage),
        ("empty_voltage", "Voltage at rest at which flying stops", workings.option.empty_cell_voltage),
    ):
        workings.make(
            pack.pack_voltage,
            short,
            label,
            "voltage",
            {"N_s": workings.series, "U_cell": given(cell, f"{label.lower()}, cell")},
        )
    points = rest_points(workings.cell)
    workings.make(
        half_charge_voltage,
        "half_voltage",
        "Voltage at rest, half of the charge between both marks",
        "voltage",
        {
            "N_s": workings.series,
            "U_1": given(workings.option.full_cell_voltage, "full, cell"),
            "U_2": given(workings.option.empty_cell_voltage, "flying stops, cell"),
            "z_i": [point.charge for point in points],
            "U_i": [point.voltage for point in points],
        },
    )


def _capacity(workings: PackWorkings) -> None:
    nominal = given(workings.cell.nominal_capacity, "nominal capacity of the cell")
    tested = (
        workings.test.capacity
        if workings.test
        else workings.fitted.measured_capacity
        if workings.fitted
        else None
    )
    if workings.fitted and tested:
        measured = given(tested, f"measured capacity of battery {workings.fitted.pack}")
        workings.make(
            pack_state.cell_capacity,
            "cell_capacity",
            "Capacity of a cell, from the test of the pack",
            "charge",
            {"Q": measured, "N_p": workings.parallel},
        )
    elif workings.fitted and workings.fitted.health:
        workings.make(
            pack_state.aged_capacity,
            "cell_capacity",
            "Capacity of a cell, aged",
            "charge",
            {
                "Q_nom": nominal,
                "H": given(workings.fitted.health, f"health of battery {workings.fitted.pack}"),
            },
        )
    workings.make(
        pack.pack_capacity,
        "capacity",
        "Capacity",
        "charge",
        {"N_p": workings.parallel, "Q_cell": workings.cell_capacity},
    )
    if workings.fitted and "cell_capacity" in workings.figures:
        _growth(workings, workings.fitted, nominal)


def _growth(workings: PackWorkings, fitted: PackFitted, nominal: Input) -> None:
    """Resistance over that when new: as the test of the capacity states it, else from the published range."""
    label = "Resistance of a cell over that when new"
    stated = (workings.test or fitted).resistance_growth
    if stated:
        measured = {"y": given(stated, f"growth of resistance of battery {fitted.pack}")}
        workings.make(performance.as_stated, "resistance_growth", label, "number", {**measured})
    elif workings.cell_capacity.value < nominal.value:
        workings.make(
            pack_state.resistance_growth,
            "resistance_growth",
            label,
            "number",
            {
                "Q_cell": workings.cell_capacity,
                "Q_nom": nominal,
                "k_G": pack_age.growth_per_loss(),
                "G_1": pack_age.last_growth(fitted, workings.state),
            },
            note=pack_age.RANGE,
        )


def _rates(workings: PackWorkings) -> None:
    power = given(workings.aircraft.propulsion.maximum_power, "power at full throttle")
    note = (
        "At the rest voltage at which flying stops; the sag under load is not in it and makes the "
        "current larger."
    )
    workings.make(
        pack.current,
        "maximum_current",
        "Current at full throttle",
        "current",
        {"P": power, "U": workings.take("empty_voltage")},
        note=note,
    )
    workings.make(
        pack.discharge_rate,
        "maximum_rate",
        "Discharge rate at full throttle",
        "number",
        {"P": power, "U": workings.take("empty_voltage"), "Q": workings.take("capacity")},
        style="rate",
        note=note,
    )
    allowed = workings.cell.maximum_discharge_current.value * workings.option.parallel
    drawn = workings.figures["maximum_current"].value
    if drawn > allowed:
        workings.findings.append(
            Finding(
                "C002",
                f"full throttle draws {drawn:.0f} A from {workings.option.name}, and its cells allow "
                f"{allowed:.0f} A",
                "lower the power, or put more cells in parallel",
                workings.option.place,
                Severity.WARNING,
            )
        )


def _charging(workings: PackWorkings) -> None:
    charger = workings.battery.charger
    if "energy_between_limits" in workings.figures:
        workings.make(
            pack.charging_time,
            "charging_time",
            "Time to charge from the lower limit to full",
            "time",
            {
                "E": workings.take("energy_between_limits"),
                "P": given(charger.power, "power of the charger"),
                "eta": given(charger.efficiency, "efficiency of charging"),
                "t_taper": given(charger.taper, "taper at the end"),
            },
        )
