"""A worked row of the take-off run with each battery, and of the reach in wind."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from dossier.compute import airspeed, ground_roll, polar, reach
from dossier.figures import Figure, Input, given, taken
from dossier.model.aircraft import Aircraft
from dossier.results.empty import EmptyAircraft
from dossier.results.flight import Performance
from dossier.results.flight_figures import DENSITY
from dossier.results.flight_tables import OFFSETS
from dossier.results.intermediate import plain
from dossier.results.take_off import TakeOffRun
from dossier.results.worked_rows import WorkedRow, held, of_the_row
from dossier.results.worked_wing import Case, WingWork

HEIGHT, WARM = 1, 2
"""Places of the worked height and of the temperature: the first above sea level, on a warm day."""
HEAD = 3
"""Place of the worked wind: a headwind in still air."""


def run_rows(made: Performance, aircraft: Aircraft, empty: EmptyAircraft) -> Iterator[WorkedRow]:
    """Work the run at the first height above sea level on a warm day, with each battery."""
    options = {option.option: option for option in made.options}
    for run in made.take_off.runs if made.take_off else ():
        work = WingWork(made, options[run.option], aircraft, empty)
        yield from held(partial(_run_row, work, run))


def _run_row(work: WingWork, run: TakeOffRun) -> WorkedRow | None:
    row = run.rows[HEIGHT]
    part = work.aircraft.aerodynamics.take_off if work.aircraft.aerodynamics else None
    shafts = work.made.take_off
    if isinstance(row.runs[WARM], str) or part is None or shafts is None:
        return None
    chain = work.chain("run", f"heaviest pilot, {work.height(row.height)}, {OFFSETS[WARM]:+g} K")
    density = work.air_at(chain, row.height, OFFSETS[WARM])
    true = chain.make(
        airspeed.true_from_density, "lift_off", "Lift-off speed, true", "speed",
        {"v_CAS": taken(run.speed), "rho": density},
    )  # fmt: skip
    inputs = {
        "m": taken(work.option.mass),
        "P_s": taken(shafts.shaft),
        "v_LO": taken(true),
        "mu_r": given(part.rolling_friction.value, "rolling friction"),
        "S": work.in_use.area,
        "C_D0": taken(work.in_use.zero_lift),
        "K": taken(work.in_use.induced),
        "C_Lg": given(part.rolling_lift_coefficient.value, "lift coefficient while it rolls"),
        "D_p": given(part.propeller_diameter, "diameter of the propeller"),
        "k_p": given(part.propeller_merit.value, "figure of merit of the propeller"),
        "rho": density,
    }
    way = chain.make(
        ground_roll.take_off_run, "run", "Take-off run, estimate", "length", inputs, style="height",
        points=(ground_roll.points_of_run(**plain(inputs)),),
    )  # fmt: skip
    return WorkedRow("run", "run", chain.words, tuple(chain.figures), {f"runs.{WARM}": way}, row)


def reach_row(made: Performance, aircraft: Aircraft, empty: EmptyAircraft) -> WorkedRow | None:
    """Work the reach against a headwind in air that neither rises nor sinks."""
    if not made.winds or made.fastest is None:
        return None
    row = made.winds[HEAD]
    option = next(one for one in made.options if one.option == row.option)
    work = WingWork(made, option, aircraft, empty)
    chain = work.chain("reach", f"heaviest pilot, headwind {work.speed(row.head)}, sea level")
    case = Case(chain, option.mass, DENSITY)
    moving = {
        "v_w": of_the_row("headwind of the row", "speed", row.head),
        "v_a": of_the_row("sinking air of the row", "speed", row.down),
    }
    best = chain.make(
        reach.speed_to_fly, "speed", "Best speed to fly", "speed",
        {
            "m": taken(option.mass), "rho": DENSITY, **work.wing(), **moving,
            "v_max": given(made.fastest.quantity, made.fastest.name),
        },
        steps=work.of_drag(case),
        note="A calculator meets it by trial: a knot faster or slower, the quotient is smaller.",
    )  # fmt: skip
    glide = work.glide(case, work.stall(case))
    cells = {
        "speed": best,
        "ratio": _ratio(work, case, best, moving, "best"),
        "unchanged": _ratio(work, case, glide["glide_speed"], moving, "unchanged"),
    }
    return WorkedRow("reach", "reach", chain.words, tuple(chain.figures), cells, row)


def _ratio(work: WingWork, case: Case, speed: Figure, moving: dict[str, Input], short: str) -> Figure:
    """Make the sink at a speed and the ratio over the ground."""
    sink = case.chain.make(
        polar.sink_rate, f"sink_{short}", f"Sink at the {speed.label.partition(':')[0].lower()}", "speed",
        {"v": taken(speed), **work.loads(case)}, style="vertical_speed",
    )  # fmt: skip
    return case.chain.make(
        reach.reach_in_wind, f"ratio_{short}",
        f"Distance for height at the {speed.label.partition(':')[0].lower()}", "number",
        {"v": taken(speed), "w": taken(sink), **moving}, style="glide_ratio",
    )  # fmt: skip
