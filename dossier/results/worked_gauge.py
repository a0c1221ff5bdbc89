"""A worked row of each gauge card: half charged, or as near to it as the card has a row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from dossier.compute import energy, open_circuit, pack, pack_share, run_time, traction_current
from dossier.figures import Figure, Input, given, taken
from dossier.results.cell_model import CellModel, conditions
from dossier.results.flight_case import FlightCase
from dossier.results.gauge import Gauge, GaugeLine
from dossier.results.intermediate import plain
from dossier.results.worked_rows import Chain, WorkedRow, held, of_the_row

MIDDLE = 0.5


def gauge_rows(cards: Sequence[Gauge], cases: Sequence[FlightCase]) -> Iterator[WorkedRow]:
    """Work one row of each card."""
    for card in cards:
        case = next(
            one for one in cases if (one.flight.option, one.flight.pilot) == (card.option, card.pilot)
        )
        yield from held(_Row(card, case).made)


class CellWork:
    """What rows of a battery share: its counts, its capacity, its tables."""

    def __init__(self, model: CellModel) -> None:
        """Keep the model."""
        self.model = model

    def counts(self) -> dict[str, Input]:
        """Return the cells in series and the strings in parallel."""
        option = self.model.option
        return {
            "N_s": Input(
                "cells in series", "number", float(option.series), option.place_of_key("series") or ""
            ),
            "N_p": Input(
                "strings in parallel", "number", float(option.parallel), option.place_of_key("parallel") or ""
            ),
        }  # fmt: skip

    def pack_wiring(self) -> Input:
        """Return the wiring in series with the pack."""
        option = self.model.option
        if option.wiring_resistance:
            return given(option.wiring_resistance, "wiring")
        return Input("no resistance of wiring is stated", "resistance", 0.0, option.place or "")

    def wiring(self, chain: Chain) -> Input:
        """Make the share of the wiring at a cell."""
        return taken(
            chain.make(
                pack_share.wiring_at_cell, "wiring", "Share of the wiring at a cell", "resistance",
                {"R_w": self.pack_wiring(), **self.counts()},
            )
        )  # fmt: skip

    def capacity(self) -> Input:
        """Return the capacity of a cell of this battery."""
        own = self.model.result.figures.get("cell_capacity")
        return taken(own) if own else given(self.model.cell.nominal_capacity, "nominal capacity of the cell")

    def nominal(self, chain: Chain, capacity: Input) -> Input:
        """Make the nameplate energy of a cell, which says how high a rate is."""
        return taken(
            chain.make(
                pack.nameplate_energy, "nominal", "Nameplate energy of a cell", "energy",
                {"U_nom": given(self.model.cell.nominal_voltage, "nominal voltage, cell"), "Q": capacity},
                style="cell_energy",
            )
        )  # fmt: skip

    def power(self, chain: Chain, power: Input) -> Input:
        """Make the power of one cell."""
        return taken(
            chain.make(
                pack_share.cell_power, "cell_power", "Power of one cell", "power",
                {"P": power, **self.counts()}, style="cell_power",
            )
        )  # fmt: skip


class _Row(CellWork):
    def __init__(self, card: Gauge, case: FlightCase) -> None:
        super().__init__(case.model)
        self.card, self.case = card, case

    def made(self) -> WorkedRow:
        line = min(self.card.lines, key=lambda one: (abs(one.charge - MIDDLE), one.charge))
        words = f"{self.model.name}, charge of {100 * line.charge:.0f} %"
        chain = Chain("gauge", self.card.option, words)
        charge = of_the_row("charge of the row", "ratio", line.charge)
        cells = {
            "rest_voltage": self._rest(chain, charge), "loaded_voltage": self._loaded(chain, charge),
            **self._left(chain, line, charge),
        }  # fmt: skip
        return WorkedRow("gauge", "gauge", words, tuple(chain.figures), cells, line, self.card.option)

    def _growth(self, which: str, value: float) -> Input:
        grown = self.model.growth
        if grown.low == grown.high:
            return grown.input
        return Input(f"growth of resistance, {which} end of its range", "number", value,
                     "the range of the growth of resistance of this battery")  # fmt: skip

    def _rest(self, chain: Chain, charge: Input) -> Figure:
        table = self.model.table
        one = chain.make(
            open_circuit.open_circuit_voltage, "cell", "Rest voltage of a cell", "voltage",
            {"z": charge, "z_i": table["z_i"], "U_i": table["U_i"]},
        )  # fmt: skip
        return chain.make(
            pack.pack_voltage, "rest", "Voltage at rest", "voltage",
            {"N_s": self.counts()["N_s"], "U_cell": taken(one)}, style="gauge_voltage",
        )  # fmt: skip

    def _loaded(self, chain: Chain, charge: Input) -> Figure:
        own = conditions(self.model)
        inputs: dict[str, Input | list[Input]] = {
            "P": self.case.flight.cruise, "z": charge, **self.counts(), "R_w": self.pack_wiring(),
            **{key: own[key] for key in ("T_b", "b", "U_min")},
            "G": self._growth("lower", self.model.growth.low), **self.model.table,
        }  # fmt: skip
        return chain.make(
            traction_current.voltage_under_power,
            "loaded",
            "Voltage in level flight",
            "voltage",
            inputs,
            style="gauge_voltage",
        )

    def _left(self, chain: Chain, line: GaugeLine, charge: Input) -> dict[str, Figure]:
        power, capacity = self.power(chain, self.case.flight.cruise), self.capacity()
        stop = self.card.lines[-1].charge
        reserve = next(one.charge for one in self.card.lines if one.reserve)
        shared: dict[str, Input | list[Input]] = {
            "P_cell": power, "z_1": charge, "Q_cell": capacity, "R_x": self.wiring(chain),
            "E_nom": self.nominal(chain, capacity), **conditions(self.model),
            "G": self._growth("upper", self.model.growth.high), **self.model.table,
        }  # fmt: skip
        ends = [("time_left", "Time to the end", of_the_row("charge where flying stops", "ratio", stop))]
        if line.charge > reserve:
            words = "charge where the reserve begins, a row of the card"
            ends += [("time_to_reserve", "Time to the reserve", of_the_row(words, "ratio", reserve))]
        cells = {}
        for short, label, end in ends:
            inputs: dict[str, Input | list[Input]] = {**shared, "z_2": end}
            cells[short] = chain.make(
                run_time.time_at_power, short, label, "time", inputs,
                points=(run_time.points_of_run(**plain(inputs)),),
                note="The card prints whole minutes, rounded down.",
            )  # fmt: skip
        cells["energy_left"] = chain.make(
            energy.phase_energy, "energy_left", "Energy left", "energy",
            {"P": self.case.flight.cruise, "t": taken(cells["time_left"])},
        )  # fmt: skip
        return cells
