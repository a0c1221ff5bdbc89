"""Cells for the tests: the shipped tables with another limit, and cells that have an answer in closed
form."""

from __future__ import annotations

from dataclasses import replace
from math import inf

from dossier.compute.cell import Application, Cell, CellLimits
from dossier.compute.curve import curve
from dossier.compute.discharge import Discharge
from dossier.compute.discharge_outcome import NoAnswer
from dossier.compute.mission_answer import Flight
from dossier.tables.cells import generic_cells

AH = 3600.0
CHEN = generic_cells()["nmc-energy"].cell
MOHTAT = generic_cells()["nmc-power"].cell


def limited(cell: Cell, voltage: float, current: float = inf, hottest: float | None = None) -> Cell:
    """Give a cell other limits."""
    warm = cell.limits.hottest if hottest is None else hottest
    return replace(cell, limits=CellLimits(voltage, current, hottest=warm))


def flat(
    voltage: float, resistance: float, charge: float, *, lowest: float, application: Application = "energy"
) -> Cell:
    """Make a cell whose rest voltage hardly falls: by 1e-9 of itself."""
    rest = curve([0.0, 1.0], [voltage * (1 - 1e-9), voltage])
    same = curve([0.0, 1.0], [resistance, resistance])
    return Cell(rest, same, charge, voltage, charge, CellLimits(lowest), application)


def without_resistance(cell: Cell) -> Cell:
    """Take the resistance away."""
    return replace(cell, resistance=curve(list(cell.rest.x), [0.0] * len(cell.rest.x)))


def answered(one: Discharge | Flight | NoAnswer) -> Discharge | Flight:
    """Expect an answer."""
    assert not isinstance(one, NoAnswer), one
    return one
