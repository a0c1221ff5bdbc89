"""Power that keeps height, and range, of the lighter pilots: the heaviest has the headline figures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial

from dossier.compute import energy
from dossier.compute.energy import GRAVITY
from dossier.compute.still_air_range import still_air_range
from dossier.figures import Figure, taken
from dossier.model.aircraft import Aircraft
from dossier.results.empty import EmptyAircraft
from dossier.results.flight import Performance
from dossier.results.flight_figures import DENSITY
from dossier.results.worked_rows import Chain, WorkedRow, held
from dossier.results.worked_wing import Case, WingWork

LIGHTER = ("lightest_pilot", "middle_pilot")
"""Parts of the names of the flights of the energy table, in the order of the pilots."""


@dataclass(frozen=True)
class PilotReach:
    """One battery with one pilot."""

    option: str
    pilot: float
    """In kg."""


def pilot_reaches(
    made: Performance, aircraft: Aircraft, empty: EmptyAircraft, flown: Mapping[str, Figure]
) -> Iterator[WorkedRow]:
    """Work power and range of the lightest and the middle pilot with each battery.

    Args:
        made: the performance.
        aircraft: the type.
        empty: masses with each battery.
        flown: figures of the energy table by name.
    """
    for option in made.options:
        work = WingWork(made, option, aircraft, empty)
        lighter = dict(zip(LIGHTER, option.pilots, strict=False))
        for who, pilot in lighter.items():
            if option.drive is not None and pilot < option.pilots[-1]:
                yield from held(partial(_row, work, who, pilot, flown))


def _row(work: WingWork, who: str, pilot: float, flown: Mapping[str, Figure]) -> WorkedRow:
    option = work.option
    assert option.drive is not None
    words = f"{option.name}, {work.pilot(pilot)}, sea level, standard air"
    chain = Chain("by_pilot", f"{option.option}.{who}", words)
    case = Case(chain, work.mass(chain, pilot), DENSITY)
    sink = work.glide(case, work.stall(case))["sink"]
    lift = {"m": taken(case.mass), "w": taken(sink), "g": GRAVITY, "eta": taken(option.drive)}
    cells = {"power": chain.make(energy.level_power, "power", "Least power that keeps height", "power", lift)}
    power, time = (flown.get(f"{name}.{option.option}.{who}") for name in ("level_power", "endurance"))
    if power is not None and time is not None and time.value > 0:
        inputs = {
            "P": taken(power), "t": taken(time), "eta": taken(option.drive),
            "l_d": taken(work.in_use.ratio), "m": taken(case.mass), "g": GRAVITY,
        }  # fmt: skip
        cells["range"] = chain.make(
            still_air_range, "range", "Range in level flight, reserve kept", "length", inputs,
            style="distance",
        )  # fmt: skip
    return WorkedRow(
        "by_pilot", "pilots", words, tuple(chain.figures), cells, PilotReach(option.option, pilot)
    )
