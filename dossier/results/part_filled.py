"""A box with part of its strings, and each other battery, beside the largest: the same pilot, the same
profile, and what of the plain share of the energy is left once the flight takes its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from dossier.compute import pack, pack_state, weights
from dossier.figures import Figure, Input, OutsideRange, evaluate, given, taken
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery, Option
from dossier.results.attempt import reason
from dossier.results.battery import PackResult
from dossier.results.cell_model import CellModel, cell_model
from dossier.results.empty import EmptyAircraft
from dossier.results.energy import Energy
from dossier.results.flight_case import FlightCase
from dossier.results.modelled_endurance import EnduranceMaker
from dossier.results.part_filled_flown import InLevelFlight, cruises
from dossier.results.profile import Flight, ProfileFlight

PILOT = "heaviest_pilot"
TOO_SMALL = "the climb and what is kept back take more than it gives"


@dataclass(frozen=True)
class Filling:
    """A battery with so many strings of its box fitted, in flight with the pilot of the table. In SI."""

    option: str
    name: str
    strings: int
    of: int
    """Strings that the box takes."""
    battery_mass: float
    flying_mass: float
    energy: float
    """At rest between the limits of voltage."""
    share: float
    """Of the energy of the largest battery."""
    plain: float
    """That share of the endurance of the largest battery by the energy."""
    by_reserve: float
    """What another reserve makes of it, and so on down to ``by_energy``: each step is added."""
    by_phases: float
    """Climb, landing and what is kept back take as much of a small battery as of a large one."""
    by_mass: float | None
    """The aircraft is lighter, or heavier."""
    by_energy: float | None
    """Endurance by the energy, reserve kept: the sum of the four above; None where ``why`` says so."""
    by_load: float | None = None
    """Voltage under load in place of one efficiency."""
    by_power: float | None = None
    """Charge that stays in the battery so that a later phase gets its power."""
    modelled: float | None = None
    """Endurance by the discharge model, reserve kept: the sum of the three above."""
    why: str = ""
    """Why a value is not there."""

    @property
    def whole(self) -> bool:
        """Whether every string is fitted."""
        return self.strings == self.of

    def share_by_energy(self, largest: Filling) -> float | None:
        """Return the endurance by the energy, of that of the largest battery; None where one is missing."""
        return _over(self.by_energy, largest.by_energy)

    def share_modelled(self, largest: Filling) -> float | None:
        """Return the endurance by the discharge model, of that of the largest battery, as above."""
        return _over(self.modelled, largest.modelled)


def _over(part: float | None, whole: float | None) -> float | None:
    return None if part is None or whole is None else part / whole


@dataclass(frozen=True)
class PartFilled:
    """All of them, the largest battery first; without one ``why`` says the reason."""

    pilot: float = 0.0
    """Mass in kg, the same in all."""
    fillings: tuple[Filling, ...] = ()
    why: str = ""

    @property
    def half(self) -> Filling | None:
        """The largest battery with half of its strings."""
        return next((one for one in self.fillings if not one.whole), None)


@dataclass(frozen=True)
class _Box:
    """A battery as it would be with so many strings: its figures belong to no record and are not shown."""

    option: Option
    result: PackResult
    of: int
    mass: float
    empty: Figure
    """Empty mass of the aircraft with it."""


class _Fillings:
    """Makes the fillings of one aircraft."""

    def __init__(
        self, empty: EmptyAircraft, aircraft: Aircraft, battery: Battery, drive: Figure,
        packs: dict[str, PackResult], pilot: float,
    ) -> None:  # fmt: skip
        self.empty, self.aircraft, self.battery, self.drive = empty, aircraft, battery, drive
        self.packs, self.pilot = packs, pilot
        self.largest = max(packs.values(), key=lambda one: one.figures["energy_between_limits"].value)
        self.reference = self._flight(self._box(self.largest))

    def all(self) -> Iterator[Filling]:
        """Give the largest, half of it, the fewest strings that fly where half does not, and the others."""
        yield self._filling(self._box(self.largest))
        yield from self._parts()
        for name, result in self.packs.items():
            if name != self.largest.option:
                yield self._filling(self._box(result))

    def _parts(self) -> Iterator[Filling]:
        strings = self.battery.options[self.largest.option].parallel
        if strings < 2:
            return
        half = self._filling(self._box(self.largest, strings // 2))
        yield half
        if half.modelled is None:
            more = (
                self._filling(self._box(self.largest, count)) for count in range(strings // 2 + 1, strings)
            )
            yield from [one for one in more if one.modelled is not None][:1]

    def _box(self, result: PackResult, strings: int | None = None) -> _Box:
        option = self.battery.options[result.option]
        mass, empty = result.figures["pack_mass"], self.empty.with_option[result.option][0]
        if strings is None or strings == option.parallel:
            return _Box(option, result, option.parallel, mass.value, empty)
        cell = self.battery.cells[option.cell]
        gone = (option.parallel - strings) * option.series
        left_out = Input("cells left out", "mass", -gone * cell.mass.value, "the same cells, taken out")
        lighter = evaluate(
            weights.total_mass, "part.empty", "Empty mass", "mass", {"m_i": [taken(empty), left_out]}
        )
        part = option.model_copy(update={"parallel": strings})
        figures = _figures(result, option, strings, self.aircraft)
        made = replace(result, figures={**result.figures, **figures})
        return _Box(part, made, option.parallel, mass.value + left_out.value, lighter)

    def _flight(self, box: _Box) -> Flight:
        key = box.result.option
        arm = self.empty.with_option[key][1]
        empty = replace(self.empty, with_option={**self.empty.with_option, key: (box.empty, arm)})
        name = str(box.option.name)
        return ProfileFlight(box.result, PILOT, self.pilot, empty, self.aircraft, self.drive, name).fly()

    def _filling(self, box: _Box) -> Filling:
        energy, usable = (box.result.figures[key].value for key in ("energy_between_limits", "usable_energy"))
        largest = self.largest.figures
        share = energy / largest["energy_between_limits"].value
        power = self.reference.cruise.value
        taken_by_phases = sum(row.energy for row in self.reference.rows if not row.is_open)
        by_reserve = (usable - share * largest["usable_energy"].value) / power
        by_phases = (share - 1) * taken_by_phases / power
        plain = share * self.reference.endurance.value
        blank = Filling(
            box.result.option, str(box.option.name), box.option.parallel, box.of, box.mass,
            box.empty.value + self.pilot, energy, share, plain, by_reserve, by_phases, None, None,
        )  # fmt: skip
        try:
            flight = self._flight(box)
        except OutsideRange as error:
            return replace(blank, why=reason(error))
        time = flight.endurance.value
        if time <= 0:
            return replace(blank, why=TOO_SMALL)
        known = replace(blank, by_mass=time - plain - by_reserve - by_phases, by_energy=time)
        return _modelled(known, self._cruise(box, flight), time)

    def _cruise(self, box: _Box, flight: Flight) -> InLevelFlight:
        own = self.battery.model_copy(update={"options": {box.result.option: box.option}})
        try:
            model = cell_model(own, box.result)
        except OutsideRange as error:
            return InLevelFlight(None, None, str(error))
        if model is None:
            return InLevelFlight(None, None, "no resistance of its cell is stated")
        return cruises(self._case(model, flight))

    def _case(self, model: CellModel, flight: Flight) -> tuple[FlightCase, ...]:
        return EnduranceMaker(model, flight, self.aircraft).case()


def _modelled(known: Filling, found: InLevelFlight, by_energy: float) -> Filling:
    if found.time is None or found.by_energy_kept is None:
        return replace(known, why=found.why)
    return replace(
        known,
        by_load=found.by_energy_kept - by_energy,
        by_power=found.time - found.by_energy_kept,
        modelled=found.time,
    )


def _figures(result: PackResult, option: Option, strings: int, aircraft: Aircraft) -> dict[str, Figure]:
    """Make what the flights need of a battery with fewer of the same cells."""
    counts = [
        Input("cells in series", "number", float(option.series), ""),
        Input("strings that are fitted", "number", float(strings), ""),
    ]
    cells = evaluate(
        pack.cell_count, "part.cells", "Cells", "number", dict(zip(("N_s", "N_p"), counts, strict=True))
    )
    stored = evaluate(
        pack.pack_energy, "part.energy", "Energy", "energy",
        {"N": taken(cells), "E_cell": taken(result.figures["cell_energy"])},
    )  # fmt: skip
    efficiency = given(aircraft.propulsion.efficiency.battery, "efficiency of the battery")
    given_off = evaluate(
        pack_state.delivered_energy, "part.deliverable", "Energy at the terminals", "energy",
        {"E": taken(stored), "eta_b": efficiency},
    )  # fmt: skip
    usable = evaluate(
        pack.usable_energy, "part.usable", "Usable energy", "energy",
        {"E": taken(given_off), "r": given(option.reserve, "reserve")},
    )  # fmt: skip
    whole = result.figures["capacity"]
    share = Input("strings that are fitted, of all", "number", strings / option.parallel, "")
    capacity = evaluate(
        pack.pack_capacity, "part.capacity", "Capacity", "charge", {"N_p": share, "Q_cell": taken(whole)}
    )
    return {
        "cells": cells,
        "energy_between_limits": stored,
        "deliverable_energy": given_off,
        "usable_energy": usable,
        "capacity": capacity,
    }


def part_filled(
    energy: Energy | None, empty: EmptyAircraft | None, aircraft: Aircraft, battery: Battery,
    packs: Sequence[PackResult],
) -> PartFilled:  # fmt: skip
    """Fly the largest battery, part of it and each other one with one pilot, who may fly with all of them.

    Args:
        energy: its flights with the heaviest pilot say who may fly with what.
        empty: the aircraft; None without a weighing, as ``energy`` is then.
        aircraft: the type.
        battery: its batteries.
        packs: their figures.
    """
    if empty is None or energy is None:
        return PartFilled(why="the aircraft has not been weighed")
    heaviest = {one.option: one for one in energy.flights if one.endurance.name == f"endurance.{one.option}"}
    able = {one.option: one for one in packs if one.option in heaviest}
    if not able:
        return PartFilled(why="no flight of the profile can be computed; the findings say why")
    pilot = min(one.pilot for one in heaviest.values())
    drive = next(one for one in energy.figures if one.name == "drive_efficiency")
    try:
        made = tuple(_Fillings(empty, aircraft, battery, drive, able, pilot).all())
    except OutsideRange as error:  # the largest battery itself has no flight with this pilot
        return PartFilled(why=f"the largest battery cannot be flown: {reason(error)}")
    return PartFilled(pilot, made)
