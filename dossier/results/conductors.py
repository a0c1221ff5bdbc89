"""A conductor of the record: its wire in the table, what it carries, its resistance and drop of voltage."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from dossier.compute import wiring as formulas
from dossier.compute.wiring import AROUND, ZERO, Wire
from dossier.figures import Figure, Formula, Input, OutsideRange, constant, evaluate, given, taken
from dossier.model.wiring import Conductor
from dossier.results.traction_currents import OptionCurrents
from dossier.tables.wires import column_for, wire_of_area, wire_source, wires

NOTE_1 = "ac-43-13-1b, table 11-9, note 1"
COLD_DROP = (
    "At 20 °C: more than its table allows flows, how warm it gets is not known, and warm it takes more."
)
WARM_DROP = "As warm as the circular estimates it in air of 70 °C, for which its table holds."


@dataclass(frozen=True)
class Carried:
    """What a conductor carries, and the voltage of its circuit under it."""

    continuous: Input
    burst: Input | None
    burst_time: float
    """In s."""
    voltage: Input
    words: str
    """Whose current it is."""


@dataclass(frozen=True)
class ConductorResult:
    """One conductor. Figures by short names: ``table_current``, ``voltage_drop``, ``drop_share``."""

    key: str
    conductor: Conductor
    wire: Wire | None
    """None where the table has no such size."""
    column: int | None
    """In °C; None where the insulation is rated below the table."""
    carried: Carried | None
    """None where the current is not known."""
    figures: Mapping[str, Figure]

    @property
    def name(self) -> str:
        """What a reader calls it."""
        return str(self.conductor.name)

    @property
    def table_current(self) -> Figure | None:
        """What the table allows it."""
        return self.figures.get("table_current")


def conductor_result(
    key: str, conductor: Conductor, currents: Sequence[OptionCurrents], whole: bool
) -> ConductorResult:
    """Compute one conductor.

    Args:
        key: its key in the record.
        conductor: as recorded.
        currents: of the batteries whose currents are known.
        whole: true if those are all batteries of the type.
    """
    wire = wires().get(str(conductor.gauge)) if conductor.gauge else _by_area(conductor)
    column = column_for(wire, conductor.rated_temperature.value - ZERO) if wire else None
    carried = _carried(conductor, currents, whole)
    figures = _Maker(key, conductor, carried).figures(wire, column) if wire else {}
    return ConductorResult(key, conductor, wire, column, carried, figures)


def _by_area(conductor: Conductor) -> Wire | None:
    return wire_of_area(conductor.area.value) if conductor.area else None


def _carried(conductor: Conductor, currents: Sequence[OptionCurrents], whole: bool) -> Carried | None:
    load = conductor.load
    if load:
        burst = given(load.burst.current, f"burst of {conductor.name}") if load.burst else None
        time = load.burst.time.value if load.burst else 0.0
        words = f"as stated: {load.source}"
        lasting = given(load.current, f"load of {conductor.name}")
        return Carried(lasting, burst, time, given(load.voltage, f"voltage of {conductor.name}"), words)
    own = [one for one in currents if conductor.battery is None or one.option == conductor.battery]
    if not own or not (whole or conductor.battery):
        return None
    worst = max(own, key=lambda one: one.continuous.value)
    highest = max(own, key=lambda one: one.burst_current.value)
    return Carried(
        taken(worst.continuous),
        taken(highest.burst_current) if highest.burst_current.value > worst.continuous.value else None,
        highest.burst_time,
        taken(worst.continuous_voltage),
        f"{worst.words}, and in short {highest.words}" if highest is not worst else worst.words,
    )


class _Maker:
    """Makes the figures of one conductor, each from the ones before it."""

    def __init__(self, key: str, conductor: Conductor, carried: Carried | None) -> None:
        self.key, self.conductor, self.carried = key, conductor, carried
        self.made: dict[str, Figure] = {}
        place = conductor.place_of_key("parallel") or "not in a file"
        written = str(conductor.parallel) if conductor.parallel > 1 else ""
        label = "wires side by side" if written else "one wire"
        self.count = Input(label, "number", float(conductor.parallel), place, written)

    def figures(self, wire: Wire, column: int | None) -> dict[str, Figure]:
        """Make all that can be made; each step needs what stands before it."""
        if column is not None:
            allowed = Input(
                f"gauge {wire.gauge}, {column} °C", "current", wire.ampacity[column], wire_source()
            )
            self._make(
                formulas.carrying_capacity, "table_current", "Current by the table", "current",
                {"I_w": allowed, "N_w": self.count},
            )  # fmt: skip
        self._make(
            formulas.loop_resistance, "resistance_at_20", "Resistance there and back, at 20 °C", "resistance",
            {"l_w": given(self.conductor.one_way_length, f"length of {self.conductor.name}, one way"),
             "R_k": Input(f"gauge {wire.gauge}", "resistance", wire.ohm_per_1000_ft, wire_source()),
             "N_w": self.count},
        )  # fmt: skip
        if self.carried:
            self._drop(self.carried)
        return self.made

    def _drop(self, carried: Carried) -> None:
        resistance, note = self._warm(carried)
        drop = self._make(
            formulas.voltage_drop, "voltage_drop", "Drop of voltage", "voltage",
            {"I": carried.continuous, "R_L": taken(resistance)}, note=note,
        )  # fmt: skip
        self._make(
            formulas.drop_share, "drop_share", "Drop of voltage as a part of the voltage", "ratio",
            {"dU": taken(drop), "U": carried.voltage},
        )  # fmt: skip

    def _warm(self, carried: Carried) -> tuple[Figure, str]:
        """Give the resistance when warm, or that at 20 °C where the table ends."""
        if "table_current" not in self.made:
            return self.made["resistance_at_20"], COLD_DROP
        try:
            temperature = self._make(
                formulas.conductor_temperature, "temperature", "Temperature of the copper, an estimate",
                "temperature",
                {"T_a": constant("air around, of the table", "temperature", AROUND, NOTE_1),
                 "T_R": given(self.conductor.rated_temperature, "rating of the insulation"),
                 "I": carried.continuous, "I_max": taken(self.made["table_current"])},
            )  # fmt: skip
            warm = self._make(
                formulas.warm_resistance, "resistance", "Resistance there and back, warm", "resistance",
                {"R_20": taken(self.made["resistance_at_20"]), "T_L": taken(temperature)},
            )  # fmt: skip
        except OutsideRange:
            self.made.pop("temperature", None)
            return self.made["resistance_at_20"], COLD_DROP
        return warm, WARM_DROP

    def _make(
        self, formula: Formula, short: str, label: str, kind: str, inputs: Mapping[str, Input], **more: Any
    ) -> Figure:
        name = f"conductor_{short}.{self.key}"
        self.made[short] = evaluate(formula, name, f"{label}, {self.conductor.name}", kind, inputs, **more)
        return self.made[short]
