"""The headline figures of the cover."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.compose.printer import Printed, Printer
from dossier.dossier import Dossier
from dossier.figures import Figure


def cards(at: Printer) -> tuple[Printed, ...]:
    """Print them, as far as they exist."""
    return tuple(at.figure(figure, label) for label, figure in _headlines(at.dossier))


def _headlines(dossier: Dossier) -> Iterator[tuple[str, Figure]]:
    option = fitted_option(dossier)
    if dossier.empty:
        mass, arm = dossier.empty.fitted or dossier.empty.without_battery
        words = "battery fitted" if dossier.empty.fitted else "no battery fitted"
        yield f"Empty weight, {words}", mass
        yield f"Centre of gravity, {words}", arm
    for name, label in (
        (f"usable_energy.{option}", "Usable energy, reserve kept"),
        (f"endurance.{option}", "Endurance in level flight, reserve kept"),
        ("stall_speed", "Stall speed"),
        ("useful_load", "Useful load"),
    ):
        if name in dossier.figures:
            yield label, dossier.figures[name]


def fitted_option(dossier: Dossier) -> str:
    """Name the battery option that is fitted, or else the first of the type."""
    fitted = [str(pack.option) for pack in dossier.state.packs]
    return (fitted or [str(option) for option in dossier.project.battery.options])[0]
