"""Power that keeps height, and range, by battery and pilot; each cell leads to its sheet."""

from __future__ import annotations

from dossier.compose.grid import Cell, Grid, Row, grid, row
from dossier.compose.performance_tables import option_name
from dossier.compose.printer import Printer
from dossier.display import with_doubt
from dossier.figures import Figure
from dossier.results.flight import Performance
from dossier.results.flight_figures import OptionFlight
from dossier.results.worked_pilots import PilotReach


def reach_by_pilot(at: Printer, made: Performance) -> Grid | None:
    """Put the lighter pilots above the heaviest, for each battery; None where no efficiency is known."""
    rows = [line for option in made.options if option.level_power for line in _rows(at, option)]
    if not rows:
        return None
    heads = "Battery | # Pilot | # Least power that keeps height, from the battery | # Range, reserve kept"
    return grid("Staying up and range by pilot, sea level, standard air, computed", heads, rows)


def _rows(at: Printer, option: OptionFlight) -> list[Row]:
    found: list[tuple[float, Figure | None, Figure | None]] = []
    for one in at.dossier.worked.of("by_pilot"):
        assert isinstance(one.row, PilotReach)
        if one.row.option == option.option:
            found.append((one.row.pilot, one.cells.get("power"), one.cells.get("range")))
    heaviest = at.dossier.figures.get(f"range.{option.option}")
    found.append((option.pilots[-1], option.level_power, heaviest))
    name = option_name(at, option.option)
    return [
        row(name, at.first(pilot, "mass"), _cell(at, power), _cell(at, distance))
        for pilot, power, distance in found
    ]


def _cell(at: Printer, figure: Figure | None) -> Cell:
    if figure is None:
        return Cell("not computed")
    printed = at.figure(figure)
    return Cell(with_doubt(printed.first, printed.uncertainty), printed.sheet)
