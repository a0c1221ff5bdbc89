"""The band of run time in the cold; its factors are held against the stored cells in tests/references."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from battery_cells import CHEN, limited
from hypothesis import given
from hypothesis import strategies as st

from dossier.compute.cell_step import Warmth
from dossier.compute.cold import discharge_band, flight_band
from dossier.compute.discharge import discharge
from dossier.compute.discharge_outcome import Reason
from dossier.compute.mission import fly
from dossier.compute.mission_plan import Conditions, MissionPhase
from dossier.compute.scenarios import scenarios
from dossier.figures import OutsideRange

CHEN_3V0 = limited(CHEN, 3.0)


def test_at_25_degrees_the_band_is_the_answer() -> None:
    cases = scenarios([9.0])
    band, warm = discharge_band(CHEN_3V0, cases), discharge(CHEN_3V0, cases)
    assert band.shortest[0] == band.longest[0] == warm.computed["time"][0]


@given(st.floats(263.2, 298.1), st.floats(1, 17))
def test_the_band_holds_the_law_with_the_usual_constant(temperature: float, power: float) -> None:
    cases = scenarios([power], temperature=temperature)
    band = discharge_band(CHEN_3V0, cases)
    usual = discharge(CHEN_3V0, cases).computed["time"][0]
    assert band.shortest[0] * (1 - 1e-12) <= usual <= band.longest[0] * (1 + 1e-12)


def test_the_band_at_0_degrees_is_at_least_that_of_the_simulated_cells() -> None:
    warm = discharge(CHEN_3V0, scenarios([9.0])).computed["time"][0]
    band = discharge_band(CHEN_3V0, scenarios([9.0], temperature=273.15))
    assert band.shortest[0] <= 0.822 * warm
    assert band.longest[0] >= 0.958 * warm


def test_the_band_grows_towards_the_cold() -> None:
    band = discharge_band(CHEN_3V0, scenarios(9.0, temperature=[265.0, 273.0, 285.0, 298.0]))
    assert (np.diff((band.longest - band.shortest) / band.longest) < 0).all()


def test_a_power_beyond_the_model_has_no_band() -> None:
    band = discharge_band(CHEN_3V0, scenarios([40.0], temperature=273.15))
    assert Reason(int(band.reason[0])) is Reason.RATE


@pytest.mark.parametrize("temperature", [263.0, 298.3])
def test_the_band_is_known_from_minus_10_to_25_degrees(temperature: float) -> None:
    with pytest.raises(OutsideRange, match="the band is known from -10 to 25 °C"):
        discharge_band(CHEN_3V0, scenarios([9.0], temperature=temperature))


def test_the_band_of_a_flight_holds_the_flight_with_its_own_heat() -> None:
    phases = [MissionPhase("climb", 30.0, 200), MissionPhase("cruise", 11.0)]
    band = flight_band(CHEN_3V0, phases, Conditions(temperature=273.15), warmth=Warmth(65.0, 0.03, 273.15))
    cold, warm = (
        fly(CHEN_3V0, phases, Conditions(temperature=air), warmth=Warmth(65.0, 0.03, air)).computed["time"][0]
        for air in (273.15, 298.15)
    )
    assert band.shortest[0] <= 0.822 * warm
    assert band.shortest[0] < cold < band.longest[0]
    assert 0.958 * warm <= band.longest[0] < warm
    assert band.reason[0] == Reason.NONE


def test_a_steeper_law_only_widens_the_band() -> None:
    steep = replace(CHEN_3V0, constant=9000.0)
    cases = scenarios([9.0], temperature=270.0)
    assert discharge_band(steep, cases).shortest[0] == discharge_band(CHEN_3V0, cases).shortest[0]
