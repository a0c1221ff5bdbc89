"""Wiring and fuses of the traction circuit as a whole: currents, conductors, comparisons, findings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from dossier.compute import pack
from dossier.compute import wiring as formulas
from dossier.compute.wiring import HIGHEST_VOLTAGE, MAIN_DROP
from dossier.figures import Figure, Input, OutsideRange, evaluate, given, taken
from dossier.findings import Finding, Severity, in_order
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery, Option
from dossier.model.wiring import Connector, Fuse, Wiring
from dossier.published_work import Citation
from dossier.results.conductor_checks import conductor_checks
from dossier.results.conductors import ConductorResult, conductor_result
from dossier.results.discharge import Modelled
from dossier.results.fuse_checks import InTheWay, behind_fuse, connector_checks, fuse_checks, through
from dossier.results.traction_currents import OptionCurrents, heaviest, option_currents
from dossier.results.wiring_checks import Check, Standing, Told, Valued, joined, standing, told
from dossier.sources import cite

WAY = "all conductors one behind the other, there and back; plugs and contactors are not in it"
MAIN_WIRES = "FAA-H-8083-31, main power wires"
SOURCES: tuple[Citation, ...] = (
    cite("ac-43-13-1b, tables 11-3, 11-6 and 11-9, 11-47, 11-48 and 11-66"),
    cite("faa-h-8083-31, drop of voltage in main power wires from the battery, 2 %"),
    cite("practice, 80 % of the rating of a fuse; more than two minutes count as lasting"),
)
"""What the comparisons rest on, in full."""


@dataclass(frozen=True)
class WiringResult:
    """What is known of the wiring; empty where the record states none."""

    currents: tuple[OptionCurrents, ...] = ()
    """Of the batteries for which they can be told."""
    unknown: Mapping[str, str] = field(default_factory=dict)
    """Battery -> why its currents are not known."""
    conductors: tuple[ConductorResult, ...] = ()
    groups: tuple[tuple[str, tuple[Check, ...]], ...] = ()
    """Of what -> the comparisons."""
    figures: tuple[Figure, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def checks(self) -> tuple[Check, ...]:
        """All comparisons."""
        return tuple(check for _, checks in self.groups for check in checks)


def wiring_result(modelled: Modelled, aircraft: Aircraft, battery: Battery) -> WiringResult:
    """Hold conductors, fuses and plugs against what they must carry.

    Every comparison is guidance from the table that it names. Where no table reaches it says so.
    """
    wiring = battery.wiring
    return _Maker(wiring, modelled, aircraft, battery).result() if wiring else WiringResult()


class _Maker:
    """Makes the result, each part from the ones before it."""

    def __init__(self, wiring: Wiring, modelled: Modelled, aircraft: Aircraft, battery: Battery) -> None:
        self.wiring, self.battery = wiring, battery
        self.unknown = {str(name): "" for name in battery.options}
        self.currents = tuple(self._currents(modelled, aircraft))
        self.unknown = {name: why for name, why in self.unknown.items() if why}
        self.why = "; ".join(self.unknown.values())
        self.highest = {name: self._highest(name, option) for name, option in battery.options.items()}
        self.conductors = tuple(
            conductor_result(str(key), one, self.currents, not self.unknown)
            for key, one in wiring.conductors.items()
        )
        self.more: list[Figure] = []

    def result(self) -> WiringResult:
        groups = tuple((what, tuple(checks)) for what, checks in self._groups())
        made = (
            *(figure for one in self.currents for figure in one.figures),
            *self.highest.values(),
            *(figure for one in self.conductors for figure in one.figures.values()),
            *self.more,
        )
        findings = [one.finding for _, checks in groups for one in checks if one.finding]
        if self.why:
            findings.append(self._unknown_currents())
        return WiringResult(self.currents, self.unknown, self.conductors, groups, made, in_order(findings))

    def _unknown_currents(self) -> Finding:
        return Finding(
            "C019", f"what the conductors carry is not known for every battery: {self.why}",
            "weigh the aircraft and state the resistance of the cell, or state a load: at each conductor",
            self.wiring.place, Severity.NOTE,
        )  # fmt: skip

    def _currents(self, modelled: Modelled, aircraft: Aircraft) -> Iterator[OptionCurrents]:
        limit = self.wiring.coldest_battery_limit
        coldest = aircraft.limits[limit].value if limit else self.wiring.coldest_battery
        assert coldest
        cases = {case.flight.option: case for case in heaviest(modelled.cases)}
        for name, option in self.battery.options.items():
            if name not in cases:
                self.unknown[str(name)] = f"{option.name} has no flight by the discharge model"
                continue
            try:
                yield option_currents(cases[name], aircraft, coldest)
            except OutsideRange as error:
                self.unknown[str(name)] = f"{option.name}: {error}"

    def _highest(self, name: str, option: Option) -> Figure:
        cell = self.battery.cells[option.cell]
        place = option.place_of_key("series") or "not in a file"
        count = Input("cells in series", "number", float(option.series), place, str(option.series))
        return evaluate(
            pack.pack_voltage, f"highest_voltage.{name}", f"Highest voltage, every cell full, {option.name}",
            "voltage", {"N_s": count, "U_cell": given(cell.full_voltage, "full, cell")},
        )  # fmt: skip

    def _groups(self) -> Iterator[tuple[str, Iterator[Check]]]:
        yield "Conductors", self._conductors()
        yield "Fuses", self._fuses()
        yield "Plugs, contactors and switches", self._connectors()

    def _conductors(self) -> Iterator[Check]:
        for one in self.conductors:
            yield from conductor_checks(one, self._voltage_of([one]), self.why)
        for current in self.currents:
            yield from self._whole_way(current)

    def _fuses(self) -> Iterator[Check]:
        for key, fuse in self.wiring.fuses.items():
            yield from fuse_checks(self._in_the_way(fuse, behind_fuse(self.conductors, str(key))), fuse)

    def _connectors(self) -> Iterator[Check]:
        for key, connector in self.wiring.connectors.items():
            yield from connector_checks(self._in_the_way(connector, through(self.conductors, str(key))))

    def _in_the_way(self, part: Fuse | Connector, conductors: tuple[ConductorResult, ...]) -> InTheWay:
        batteries = {name for one in conductors for name in self._batteries(one)}
        known = [one.short_circuit for one in self.currents if one.option in batteries]
        short = max(known, key=lambda one: one.value) if len(known) == len(batteries) and known else None
        why = self.why if batteries else "the battery does not feed it directly"
        return InTheWay(part, conductors, self._voltage_of(conductors), short, why)

    def _batteries(self, one: ConductorResult) -> tuple[str, ...]:
        """Name the batteries that feed a conductor; a load at a lower voltage is fed by none directly."""
        named, load = one.conductor.battery, one.conductor.load
        options = (str(named),) if named else tuple(map(str, self.battery.options))
        return tuple(name for name in options if load is None or load.voltage.value >= self._lowest(name))

    def _lowest(self, name: str) -> float:
        option = self.battery.options[name]
        return option.series * self.battery.cells[option.cell].empty_voltage.value

    def _voltage_of(self, conductors: Sequence[ConductorResult]) -> Valued:
        """Return the highest voltage: as stated for a load, and of the batteries that feed it, cells full."""
        voltages: list[Valued] = []
        for one in conductors:
            voltages += [self.highest[name] for name in self._batteries(one)]
            voltages += [one.conductor.load.voltage] if one.conductor.load else []
        return max(voltages, key=lambda one: one.value)

    def _whole_way(self, current: OptionCurrents) -> Iterator[Check]:
        """Add up the drops of the conductors that carry the current of a battery, one behind the other."""
        drops = [taken(one.figures["voltage_drop"]) for one in self._way_of(current.option)]
        if not drops:
            return
        name = str(self.battery.options[current.option].name)
        drop = evaluate(
            formulas.drop_in_a_row, f"main_drop.{current.option}",
            f"Drop of voltage on the whole way, {name}", "voltage", {"dU_i": drops},
        )  # fmt: skip
        share = evaluate(
            formulas.drop_share, f"main_drop_share.{current.option}",
            f"Drop of voltage on the whole way as a part of the voltage, {name}", "ratio",
            {"dU": taken(drop), "U": taken(current.continuous_voltage)},
        )  # fmt: skip
        self.more += [drop, share]
        reached = self.highest[current.option].value <= HIGHEST_VOLTAGE
        how = standing(share, MAIN_DROP) if reached else Standing.NOT_COVERED
        words = joined(WAY, "" if reached else f"the handbooks end at {HIGHEST_VOLTAGE:g} V")
        finding = told(how, self._too_much(share, name))
        subject = f"Whole way, {name}"
        yield Check(
            subject, "Drop of voltage", share, MAIN_DROP, False, "ratio", how, MAIN_WIRES, words, finding
        )

    def _way_of(self, option: str) -> Iterator[ConductorResult]:
        for one in self.conductors:
            main = one.conductor.load is None and option in self._batteries(one)
            if main and "voltage_drop" in one.figures:
                yield one

    def _too_much(self, share: Figure, name: str) -> Told:
        taken_up, usual = f"{100 * share.value:.1f} %", f"{100 * MAIN_DROP:.0f} %"
        fault = f"the conductors take {taken_up} of the voltage of {name}, and usual is at most {usual}"
        place = self.wiring.place_of_key("conductors")
        return Told("C011", fault, "take thicker or shorter wires", place)
