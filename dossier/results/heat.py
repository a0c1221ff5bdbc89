"""Heat and cooling of each battery, from the phases as flown: figures with their working, and **an
estimate only**.

Not counted: the heat of the reaction itself, of either sign; that cells in the middle are hotter; what
leaves through
the case. A thermometer in flight decides.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import sqrt

from dossier.compute import cooling
from dossier.compute.cell_resistance import TEMPERATURES, WARM
from dossier.figures import Figure, Formula, Input, Inputs, constant, error_source, evaluate, given, taken
from dossier.model.aircraft import Aircraft, Limit
from dossier.results.phases_flown import FlownRow, PhasesFlown
from dossier.results.warmed import Ends, warmed
from dossier.sources import cite

SPECIFIC_HEAT = (800.0, 1100.0)
"""In J/(kg K), as literature has it for lithium-ion cells (source cell-specific-heat)."""
DOUBT = 0.3
"""Part by which the heat may be off either way (own judgement, no source)."""
HOTTEST = TEMPERATURES[1]
"""In K: to there the law of the resistance holds."""
AIR_WARMING = 10.0
"""In K, that the cooling air is allowed here (own choice, no source)."""
SEA_LEVEL = 1.225
"""Density of the air in kg/m³ (source iso-2533)."""
NOTE = (
    "An estimate, from the discharge model at 25 °C with the resistance at the upper end of its range. "
    "Heat of the reaction "
    "is not in it, and a cell in the middle is hotter than the mean. A thermometer in flight decides."
)


@dataclass(frozen=True)
class CoolingRow:
    """One phase by itself, without uncertainty: rise in K if the heat stays, air in kg/s and m³/s if it
    goes; and the temperature in K at its end with the heat of all phases before it, lowest and highest."""

    name: str
    heat_rate: float
    time: float
    rise: float
    air: float
    air_volume: float
    ends_at: Ends | None
    """None where the warmer cells have no answer."""


@dataclass(frozen=True)
class Heat:
    """What one battery makes of heat with the heaviest pilot."""

    option: str
    words: str
    hottest_phase: FlownRow
    """That with the most heat in a second."""
    limit: Limit | None
    """Of the temperature of the battery in use, where the type names one."""
    lost: Figure
    rise: Figure
    air: Figure
    air_volume: Figure
    rows: tuple[CoolingRow, ...]
    """Of the phases that make heat."""

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All of them, in the order of their making."""
        return (self.lost, self.rise, self.air, self.air_volume)

    @property
    def start(self) -> float:
        """Temperature in K at which the flight begins: 25 °C."""
        return WARM

    @property
    def end(self) -> float:
        """Temperature in K at its end, if nothing cools the cells."""
        return WARM + self.rise.value


def with_heat(
    flown: Sequence[PhasesFlown], aircraft: Aircraft
) -> tuple[tuple[PhasesFlown, ...], tuple[Heat, ...]]:
    """Add the figures of heat to the flight of each battery with the heaviest pilot that was flown whole."""
    last = {one.case.flight.option: one for one in flown if one.rows and not one.why}
    made = {id(one): _heat(one, aircraft) for one in last.values()}
    told = tuple(replace(one, figures=made[id(one)].figures) if id(one) in made else one for one in flown)
    return told, tuple(made.values())


def _heat(one: PhasesFlown, aircraft: Aircraft) -> Heat:
    hottest = max(one.rows, key=lambda row: row.heat_rate)
    error = error_source("estimate of the heat", DOUBT / sqrt(3), bounded=True)
    origin = cite("equivalent-circuit")
    rates = [
        Input(f"mean heat in {row.name}", "power", row.heat_rate * (1 + error), origin) for row in one.rows
    ]
    times = [Input(f"time of {row.name}, as flown", "time", row.time, origin) for row in one.rows]
    lost = _make(
        one, cooling.heat_of_phases, "flight_heat", "Heat of the battery in the whole profile", "energy",
        {"q_i": rates, "t_i": times}, style="heat",
    )  # fmt: skip
    allowed = constant(
        "warming of the air that is allowed", "temperature", AIR_WARMING, "definition, chosen here"
    )
    stream: dict[str, Input] = {"q": rates[one.rows.index(hottest)], "dT_a": allowed}
    label = f"Air that carries the heat of {hottest.name} away"
    air = _make(one, cooling.air_mass_flow, "cooling_air", label, "mass_flow", stream)
    volume = _make(
        one, cooling.air_volume_flow, "cooling_air_volume", f"{label}, as a volume at sea level",
        "volume_flow", {**stream, "rho": constant("air at sea level", "density", SEA_LEVEL, "iso-2533")},
    )  # fmt: skip
    name = aircraft.use.hottest_battery_limit if aircraft.use else None
    limit = aircraft.limits[name] if name is not None else None
    option, words = one.case.flight.option, one.case.words
    return Heat(option, words, hottest, limit, lost, _rise(one, lost), air, volume, tuple(_rows(one)))


def _make(
    one: PhasesFlown, formula: Formula, short: str, label: str, kind: str, inputs: Inputs, **more: str
) -> Figure:
    name = f"{short}.{one.case.flight.option}"
    return evaluate(formula, name, f"{label}, {one.case.words}", kind, inputs, note=NOTE, **more)


def _rise(one: PhasesFlown, lost: Figure) -> Figure:
    low, high = SPECIFIC_HEAT
    spread = (high - low) / 2 / sqrt(3)
    middle = (low + high) / 2 + error_source("specific heat of the cells", spread, bounded=True)
    model = one.case.model
    inputs = {
        "E_h": taken(lost),
        "N": taken(model.result.figures["cells"]),
        "m_c": given(model.cell.mass, "mass of a cell"),
        "c_p": Input("specific heat of the cells", "specific_heat", middle, cite("cell-specific-heat")),
    }
    label = "Rise of the cells if nothing cools them"
    return _make(one, cooling.rise_of_cells, "rise_uncooled", label, "temperature", inputs, style="warming")


def _rows(one: PhasesFlown) -> Iterator[CoolingRow]:
    model = one.case.model
    capacity = model.shape.cells * model.cell.mass.value * sum(SPECIFIC_HEAT) / 2
    ends = warmed(one, SPECIFIC_HEAT, DOUBT)
    for line, ends_at in zip(one.rows, ends, strict=True):
        if line.heat > 0:
            heat, time = line.heat_rate, line.time
            yield CoolingRow(
                line.name,
                heat,
                time,
                cooling.rise_without_cooling(heat, time, capacity),
                cooling.air_mass_flow(heat, AIR_WARMING),
                cooling.air_volume_flow(heat, AIR_WARMING, SEA_LEVEL),
                ends_at,
            )
