"""The state of charge after an energy, and the one that keeps it."""

from __future__ import annotations

from typing import Any

import pytest
from battery_cells import CHEN

from dossier.compute.charge_left import charge_after, charge_kept
from dossier.compute.open_circuit import cell_energy_between_charges, open_circuit_voltage
from dossier.figures import OutsideRange

TABLE: dict[str, Any] = {"z_i": list(CHEN.rest.x), "U_i": list(CHEN.rest.y)}
PACK = {"eta_b": 0.9, "N": 432.0, "Q_cell": 18000.0}


def voltage(z: float) -> float:
    return open_circuit_voltage(z, **TABLE)


@pytest.mark.parametrize(("start", "end"), [(1.0, 0.9), (0.97, 0.31), (0.5, 0.02), (0.8, 0.8)])
def test_the_energy_between_two_charges_leads_from_one_to_the_other(start: float, end: float) -> None:
    cell = cell_energy_between_charges(PACK["Q_cell"], start, end, **TABLE)
    given = [cell * PACK["N"] * PACK["eta_b"] * part for part in (0.25, 0.75)]
    assert charge_after(voltage(start), given, **PACK, **TABLE) == pytest.approx(end, abs=1e-12)


def test_a_reserve_and_a_later_phase_are_kept_above_the_end_of_flying() -> None:
    whole = 432 * cell_energy_between_charges(18000.0, 0.97, 0.08, **TABLE)
    kept = charge_kept(voltage(0.08), 0.2, whole, [0.09 * whole], **PACK, **TABLE)
    held = 432 * cell_energy_between_charges(18000.0, kept, 0.08, **TABLE)
    assert held == pytest.approx(0.2 * whole + 0.1 * whole, rel=1e-12)


def test_nothing_given_changes_nothing() -> None:
    assert charge_after(voltage(0.6), [], **PACK, **TABLE) == pytest.approx(0.6, abs=1e-12)


def test_a_flat_rest_voltage_gives_charge_in_proportion_to_energy() -> None:
    flat: dict[str, Any] = {"z_i": [0.0, 1.0], "U_i": [3.6, 3.6 + 1e-9]}
    after = charge_after(3.6 + 1e-9, [3.6 * 100.0], eta_b=1.0, N=1.0, Q_cell=1000.0, **flat)
    assert after == pytest.approx(0.9, abs=1e-8)


def test_more_than_there_is_is_refused() -> None:
    with pytest.raises(OutsideRange, match="more is given than the battery holds"):
        charge_after(voltage(0.5), [1e9], **PACK, **TABLE)
    with pytest.raises(OutsideRange, match="more is kept than the battery holds"):
        charge_kept(voltage(0.08), 1.0, 1e9, [], **PACK, **TABLE)


def test_a_negative_energy_is_refused() -> None:
    with pytest.raises(OutsideRange, match="energy given"):
        charge_after(voltage(0.5), [-1.0], **PACK, **TABLE)
