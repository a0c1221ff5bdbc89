"""Worked cells of the tables of cold and age: a battery with less capacity, and one that is cold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from dossier.compute import charge_left, cruise_flown, pack_state
from dossier.figures import Figure, Input, given, taken
from dossier.results.cell_model import conditions
from dossier.results.discharge_table import WARM, Outlook
from dossier.results.flight_case import Condition, FlightCase
from dossier.results.intermediate import plain
from dossier.results.worked_gauge import CellWork
from dossier.results.worked_rows import Chain, WorkedRow, held, of_the_row

ZERO = 273.15
NOTE = (
    "Without an uncertainty: the flight is stepped in time. Of two lines of the instants, the mean "
    "current by the time between them, over the capacity of a cell, is the charge used; the time of the "
    "last line is the result. The table prints whole minutes, rounded down, and both ends where the "
    "growth of resistance is a range; no colder battery is given more than a warmer one. Below 5 °C it "
    "takes a band of different cells around this, which is not worked here."
)


def outlook_rows(outlooks: Sequence[Outlook], cases: Sequence[FlightCase]) -> Iterator[WorkedRow]:
    """Work both for each battery, with the heaviest pilot of whom there is an answer."""
    by_flight = {id(case.flight): case for case in cases}
    for option in dict.fromkeys(one.flight.option for one in outlooks):
        own = [one for one in outlooks if one.flight.option == option]
        aged = [(one, 0) for one in own if one.age.health is not None]
        new = [(one, at) for at in range(1, len(WARM)) for one in own if one.age.health is None]
        for table, asked in (("old", aged), ("cold", new)):
            told = [(one, at) for one, at in asked if one.lasts[at].shortest]
            if told:
                row, at = told[-1]
                yield from held(partial(_row, table, row, at, by_flight[id(row.flight)]))


def _row(table: str, row: Outlook, at: int, case: FlightCase) -> WorkedRow:
    work = _Flight(table, row, case, f"{case.words}, {_age(row)}, battery at {WARM[at] - ZERO:.0f} °C")
    ends = [("shortest", row.age.growth)]
    if row.lasts[at].longest is not None:
        ends.append(("longest", row.age.least_growth))
    cells = {
        f"lasts.{at}.{end}": work.cruise(end, f"Level flight, the {end}", growth, WARM[at])
        for end, growth in ends
    }
    figures, option = tuple(work.chain.figures), row.flight.option
    return WorkedRow("outlook", "energy", work.chain.words, figures, cells, row, option)


def _age(row: Outlook) -> str:
    health = row.age.health
    return "as in this record" if health is None else f"at {100 * health:.0f} % of its capacity"


class _Flight(CellWork):
    """Makes the level flight of one row in a condition of the battery."""

    def __init__(self, table: str, row: Outlook, case: FlightCase, words: str) -> None:
        super().__init__(case.model)
        self.case = case
        flight = case.flight.endurance.name.partition(".")[2]
        self.chain = Chain(table, flight, words)
        self.health = row.age.health or case.model.health
        self.own = self._capacity(row)
        self.nameplate = self.nominal(self.chain, self.own)
        self.cell_power = self.power(self.chain, case.flight.cruise)
        self.cell_wiring = self.wiring(self.chain)
        self.by_energy = self._kept()

    def _capacity(self, row: Outlook) -> Input:
        if row.age.health is None:
            return self.capacity()
        nominal = given(self.model.cell.nominal_capacity, "nominal capacity of the cell")
        left = {"Q_nom": nominal, "H": of_the_row("part of the capacity that is left", "ratio", self.health)}
        return taken(
            self.chain.make(pack_state.aged_capacity, "capacity", "Capacity of a cell", "charge", left)
        )

    def _kept(self) -> Figure:
        """Make the charge that keeps the energy of the reserve and of later phases."""
        model, figures = self.model, self.model.result.figures
        between = figures["energy_between_limits"]
        whole = Input(
            "energy between the limits, at this capacity", "energy",
            between.value * self.health / model.health,
            f"{between.name}, by {self.health / model.health:.6g}",
        )  # fmt: skip
        return self.chain.exact(
            charge_left.charge_kept, "charge_kept", "Charge that keeps the energy of the reserve", "ratio",
            {
                "U_2": given(model.option.empty_cell_voltage, "flying stops, cell"),
                "r": given(model.option.reserve, "reserve"), "E": whole,
                "E_i": [of_the_row(f"energy of the phase {one.name}", "energy", one.energy)
                        for one in self.case.later],
                "eta_b": Input(
                    "efficiency of the battery", "ratio", self.case.efficiency, "the energy table"
                ),
                "N": taken(figures["cells"]), "Q_cell": self.own,
                "z_i": model.table["z_i"], "U_i": model.table["U_i"],
            },
        )  # fmt: skip

    def cruise(self, short: str, label: str, growth: float, temperature: float) -> Figure:
        """Make the time of level flight at one growth of resistance and one temperature."""
        model = self.model
        floor = self.case.floor(Condition(self.health, growth, temperature))
        needed = floor.charge > self.by_energy.value + 1e-12
        kept = (
            of_the_row(f"charge from which the phase {floor.decided_by} has its power", "ratio", floor.charge)
            if needed
            else taken(self.by_energy)
        )
        at = f"{temperature - ZERO:.0f} °C"
        inputs: dict[str, Input | list[Input]] = {
            "P_cell": self.cell_power, "z_1": of_the_row("charge when full", "ratio", self.case.full),
            "z_2": kept, "P_ci": self._powers(), "t_i": self._times(), "Q_cell": self.own,
            "R_x": self.cell_wiring, "E_nom": self.nameplate, **conditions(model),
            "I_lim": given(model.cell.maximum_discharge_current, "greatest current, cell"),
            "T_b": of_the_row(f"battery at {at}", "temperature", temperature, at),
            "G": of_the_row("growth of resistance, this end of its range", "number", growth), **model.table,
        }  # fmt: skip
        figure = self.chain.exact(cruise_flown.cruise_flown, short, label, "time", inputs, note=NOTE)
        return self.chain.with_points(
            figure, (cruise_flown.instants_of_cruise(figure.value, **plain(inputs)),)
        )

    def _powers(self) -> list[Input]:
        cells = self.model.shape.cells
        return [
            of_the_row(f"power of a cell in the phase {one.name}", "power", one.power / cells)
            for one in self.case.before
        ]

    def _times(self) -> list[Input]:
        return [of_the_row(f"time of the phase {one.name}", "time", one.duration) for one in self.case.before]
