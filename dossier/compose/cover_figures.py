"""The headline figures of the cover, each with the condition under which it holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compose.changes import since_weighing
from dossier.compose.printer import Printed, Printer
from dossier.dossier import Dossier
from dossier.figures import Figure


@dataclass(frozen=True)
class Headline:
    """A figure of the cover."""

    figure: Printed
    condition: str
    """One line: for which pilot, on which basis, measured when. Without it the number says too much."""


def cards(at: Printer) -> tuple[Headline, ...]:
    """Print them, as far as they exist."""
    return tuple(Headline(at.card(figure, label), condition) for label, figure, condition in _headlines(at))


def _headlines(at: Printer) -> Iterator[tuple[str, Figure, str]]:
    dossier = at.dossier
    if dossier.empty:
        mass, arm = dossier.empty.fitted or dossier.empty.without_battery
        words = "battery fitted" if dossier.empty.fitted else "no battery fitted"
        yield f"Empty mass, {words}", mass, _weighed(dossier)
        yield f"Centre of gravity, {words}", arm, _arm(at, arm)
    option = fitted_option(dossier)
    figures = dossier.figures
    for name, label, condition in (
        (f"usable_energy.{option}", "Usable energy, reserve kept", _energy),
        (f"endurance.{option}", "Endurance in level flight, reserve kept", _endurance),
        ("stall_speed", "Stall speed", _stall),
        ("useful_load", "Useful load", _load),
    ):
        if name in figures:
            yield label, figures[name], condition(at, figures[name])


def _weighed(dossier: Dossier) -> str:
    weighed = f"weighed {dossier.weighing.event.date.isoformat()}" if dossier.weighing else "not weighed"
    changed = ", with what was changed since" if since_weighing(dossier).words else ""
    return f"No pilot, no baggage; {weighed}{changed}"


def _arm(at: Printer, arm: Figure) -> str:
    chord = at.dossier.figures.get(arm.name.replace("empty_cg", "empty_cg_chord"))
    part = f"; {at.figure(chord).first} of the chord" if chord else ""
    return f"Behind the datum, empty{part}"


def _energy(at: Printer, energy: Figure) -> str:
    """Name the pack; what its uncertainty counts stands below, and that it has none here."""
    pack = next(iter(at.dossier.state.packs), None)
    told = (
        f"Battery {pack.pack}, capacity as last recorded" if pack else "Battery as designed, none is fitted"
    )
    return told if energy.standard_uncertainty else f"{told}; no ± is stated"


def _endurance(at: Printer, endurance: Figure) -> str:
    energy = at.dossier.energy
    flight = next((one for one in energy.flights if one.endurance is endurance), None) if energy else None
    pilot = f"Heaviest pilot, {at.value(flight.pilot, 'mass')}; " if flight else ""
    return f"{pilot}no wind, warm battery, after the climb{_below_limit(at, flight.option) if flight else ''}"


def _below_limit(at: Printer, option: str) -> str:
    """Say how much of the endurance lies below the tightest limit at which to land; empty below a minute."""
    early = [one for one in at.dossier.modelled.landing if one.option == option and one.comes_early]
    if not early:
        return ""
    first = max(early, key=lambda one: one.early)
    limit = f"{first.limit.name}, {first.limit.value.text}"
    return f"; the last {int(first.early // 60)} min below the limit: {limit}"


def _stall(at: Printer, stall: Figure) -> str:
    measured = at.dossier.state.measured[stall.name]
    basis = f"{measured.result.basis}, " if measured.result.basis else ""
    return f"{basis}flight test {measured.test.date.isoformat()}, {_at_mass(at, stall)}"


def _at_mass(at: Printer, stall: Figure) -> str:
    limit = at.dossier.figures["maximum_take_off_mass"]
    if "m_ref" in stall.working.inputs:
        return f"carried to {at.figure(limit).first}"
    return "at a mass that is not recorded"


def _load(at: Printer, _load: Figure) -> str:
    limit = at.dossier.figures["maximum_take_off_mass"]
    return f"Pilot, baggage and ballast, to {at.figure(limit).first} at take-off"


def fitted_option(dossier: Dossier) -> str:
    """Name the battery option that is fitted, or else the first of the type."""
    fitted = [str(pack.option) for pack in dossier.state.packs]
    return (fitted or [str(option) for option in dossier.project.battery.options])[0]
