"""The runs of flight tests on the page of performance: what was read, what came of it, the mean."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.compose.grid import Cell, Grid, grid, row
from dossier.compose.printer import Printer
from dossier.results.reduced_runs import Reduced

TITLES = {
    "airspeed_calibration": "Calibration of the airspeed",
    "stalls": "Stalls, calibrated",
    "timed_descents": "Timed descents, at sea level in standard air",
    "timed_glides": "Timed glides, at sea level in standard air, at the mass of the polar",
    "level_runs": "Level runs",
}
READ = {
    "indicated_speed": ("indicated", "speed"),
    "calibrated_speed": ("calibrated", "speed"),
    "from_height": ("from", "height"),
    "to_height": ("to", "height"),
    "time": ("in", "seconds"),
    "temperature": ("at", "temperature"),
    "power": ("with", "power"),
}
"""Quantity of a run -> word before it and style."""
FALLING = ("timed_descents", "timed_glides")
"""Runs of which a rate of sink is made."""
CONTRIBUTORS = 3
"""Of an uncertainty, how many are named."""


def run_tables(at: Printer) -> tuple[Grid, ...]:
    """Make a table for each kind of runs of each flight test."""
    return tuple(_table(at, one) for one in at.dossier.flight_runs.reduced)


def _table(at: Printer, one: Reduced) -> Grid:
    style = "vertical_speed" if one.kind in FALLING else "speed"
    rows = []
    for number, (reading, figure) in enumerate(zip(one.readings, one.runs, strict=True), start=1):
        place = next(iter(reading.values())).place
        printed = at.figure(figure)
        reduced = Cell(at.first(figure.value, style), link=printed.sheet, note=printed.uncertainty)
        read = Cell(", ".join(_read(at, reading)), note=str(place) if place else "")
        rows.append(row(str(number), reduced, *_speed(at, one, number), read))
    if one.kind == "timed_glides":
        rows.append(row("fit", "", "", Cell(note="the drag polar is fitted to all of them"), total=True))
    elif one.mean:
        printed = at.figure(one.mean)
        shares = one.mean.contributions()[:CONTRIBUTORS]
        told = ", ".join(f"{share.label} {at.first(share.amount, style)}" for share in shares)
        scatter = f"standard deviation of a run {at.first(one.scatter, style)}; mostly from (k = 1): {told}"
        mean = Cell(at.first(one.mean.value, style), link=printed.sheet, note=printed.uncertainty)
        rows.append(row("mean", mean, Cell(note=scatter), total=True))
    else:
        about = f"straight line through all, standard deviation about it {at.first(one.scatter, style)}"
        rows.append(row("line", "", Cell(note=about), total=True))
    what = "Correction" if one.kind == "airspeed_calibration" else "Reduced"
    speeds = " | # At calibrated" if one.speeds else ""
    caption = f"{TITLES[one.kind]}, flight test of {one.test.date.isoformat()}, computed from its readings"
    return grid(caption, f"Run | # {what}{speeds} | Read", rows)


def _speed(at: Printer, one: Reduced, number: int) -> Iterator[Cell]:
    """The calibrated speed of a glide, at the mass that it is brought to."""
    if one.speeds:
        printed = at.figure(one.speeds[number - 1])
        yield Cell(printed.first, link=printed.sheet, note=printed.uncertainty)


def _read(at: Printer, reading: object) -> Iterator[str]:
    assert isinstance(reading, dict)
    grounds = [
        at.first(value.value, "speed") for key, value in reading.items() if key.startswith("ground_speed_")
    ]
    for key, value in reading.items():
        if key in READ:
            word, style = READ[key]
            yield f"{word} {at.first(value.value, style)}"
    if grounds:
        yield f"over the ground {' / '.join(grounds)}"
