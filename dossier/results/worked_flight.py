"""A worked row of each table of flight performance: gliding, climb, top speed, power, air, run, reach."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.compute import airspeed, atmosphere, climb, energy, level, polar
from dossier.compute.energy import GRAVITY
from dossier.figures import given, taken
from dossier.model.aircraft import Aircraft
from dossier.results.empty import EmptyAircraft
from dossier.results.flight import Performance
from dossier.results.flight_conditions import AirRow, PilotRow
from dossier.results.flight_figures import DENSITY
from dossier.results.flight_tables import OFFSETS, ClimbRow
from dossier.results.intermediate import plain
from dossier.results.worked_reach import reach_row, run_rows
from dossier.results.worked_rows import WorkedRow, held, of_the_row
from dossier.results.worked_wing import Case, WingWork

HEIGHT = 1
"""Place of the worked height among the heights of a table: the first above sea level."""
WARM = 2
"""Place of the worked temperature among :data:`dossier.results.flight_tables.OFFSETS`: a warm day."""
SPEED = 3
"""Place of the worked speed in the table of power: the middle one."""


def flight_rows(made: Performance, aircraft: Aircraft, empty: EmptyAircraft) -> Iterator[WorkedRow]:
    """Work one row of each table and battery; none where the table has words in place of the numbers."""
    for option in made.options:
        maker = _Rows(made, option, aircraft, empty)
        for row in (
            maker.gliding, maker.warm_climb, maker.climb_to_height, maker.climb_by_pilot,
            maker.glide_by_pilot, maker.power, maker.air,
        ):  # fmt: skip
            yield from held(row)
    yield from run_rows(made, aircraft, empty)
    yield from held(lambda: reach_row(made, aircraft, empty))


class _Rows(WingWork):
    """Works the rows of one battery."""

    def gliding(self) -> WorkedRow:
        """The lightest pilot; the heaviest has the headline figures."""
        row = next(one for one in self.made.glides if one.option == self.option.option)
        chain = self.chain("gliding", f"{self.pilot(row.pilot)}, sea level, standard air")
        case = Case(chain, self.mass(chain, row.pilot), DENSITY)
        stalls = self.stall(case)
        cells = {"mass": case.mass, "stall": stalls, **self.glide(case, stalls)}
        ratio = {"C_D0": taken(self.in_use.zero_lift), "K": taken(self.in_use.induced)}
        if not row.glide_clamp:
            cells["glide_ratio"] = chain.make(
                polar.best_glide_ratio, "ratio", "Best glide ratio", "number", ratio, style="glide_ratio"
            )
        return WorkedRow("gliding", "gliding", chain.words, tuple(chain.figures), cells, row)

    def warm_climb(self) -> WorkedRow | None:
        """The first height above sea level on a warm day, with the heaviest pilot."""
        row = self._climb_row()
        if row is None:
            return None
        chain = self.chain("climb", f"heaviest pilot, {self.height(row.height)}, {OFFSETS[WARM]:+g} K")
        case = Case(chain, self.option.mass, self.air_at(chain, row.height, OFFSETS[WARM]))
        rate = self.rate(case, self.glide(case, self.stall(case)))
        return WorkedRow("climb", "climb", chain.words, tuple(chain.figures), {f"rates.{WARM}": rate}, row)

    def climb_to_height(self) -> WorkedRow | None:
        """Time and energy to the first height above sea level, and the top speed there."""
        row = self._climb_row()
        if row is None:
            return None
        chain = self.chain("height", f"heaviest pilot, {self.height(row.height)}, standard air")
        assert self.option.drive is not None
        wing = self.wing()
        shared = {"P": self.full, "eta": taken(self.option.drive), "m": taken(self.option.mass)}
        way = {**shared, "h_p": self.pressure_height(row.height), **wing}
        time = chain.make(
            climb.climb_time_to_height, "time", "Time from sea level", "time", way,
            points=(climb.points_of_climb(**plain(way)),),
        )  # fmt: skip
        spent = chain.make(
            energy.phase_energy, "energy", "Energy from the battery", "energy",
            {"P": self.full, "t": taken(time)},
        )  # fmt: skip
        top = self.top(Case(chain, self.option.mass, self.air_at(chain, row.height, 0.0)))
        cells = {"time": time, "energy": spent, "top_speed": top}
        return WorkedRow("height", "climb", chain.words, tuple(chain.figures), cells, row)

    def climb_by_pilot(self) -> WorkedRow | None:
        """The lightest pilot at the first height above sea level."""
        row = self._pilot_row()
        if self.option.drive is None:
            return None
        chain = self.chain("pilot_climb", f"{self.pilot(row.pilot)}, {self.height(row.height)}, standard air")
        case = Case(chain, self.mass(chain, row.pilot), self.air_at(chain, row.height, 0.0))
        glide = self.glide(case, self.stall(case))
        rate = self.rate(case, glide)
        speed = glide["sink_speed"]
        gradient = chain.make(
            climb.climb_gradient, "gradient", "Gradient of the best rate of climb", "ratio",
            {"v_c": taken(rate), "v_GS": taken(speed)},
        )  # fmt: skip
        cells = {"rate": rate, "gradient": gradient, "climb_speed": speed, "top_speed": self.top(case)}
        return WorkedRow("pilot_climb", "climb", chain.words, tuple(chain.figures), cells, row)

    def glide_by_pilot(self) -> WorkedRow:
        """The lightest pilot at the first height above sea level."""
        row = self._pilot_row()
        chain = self.chain("pilot_glide", f"{self.pilot(row.pilot)}, {self.height(row.height)}, standard air")
        case = Case(chain, self.mass(chain, row.pilot), self.air_at(chain, row.height, 0.0))
        cells = self.glide(case, self.stall(case))
        return WorkedRow("pilot_glide", "gliding", chain.words, tuple(chain.figures), cells, row)

    def power(self) -> WorkedRow | None:
        """The middle speed of the heaviest pilot."""
        rows = [one for one in self.made.powers if one.option == self.option.option]
        if not rows or self.option.drive is None:
            return None
        row = [one for one in rows if one.pilot == self.option.pilots[-1]][SPEED]
        chain = self.chain("power", f"{self.pilot(row.pilot)}, {self.speed(row.speed)}, sea level")
        case = Case(chain, self.option.mass, DENSITY)
        speed = of_the_row("calibrated speed of the row", "speed", row.speed)
        sink = chain.make(
            polar.sink_rate, "sink", "Sink at this speed without power", "speed",
            {"v": speed, **self.loads(case)}, style="vertical_speed",
        )  # fmt: skip
        chains = self.aircraft.propulsion.efficiency
        lift = {"m": taken(case.mass), "w": taken(sink), "g": GRAVITY}
        propeller = given(chains.propeller, "efficiency of the propeller")
        cells = {
            "air": chain.make(level.drag_power, "air", "Power against the drag", "power", lift),
            "shaft": chain.make(
                level.shaft_power, "shaft", "Power at the shaft", "power", {**lift, "eta_p": propeller}
            ),
            "pack": chain.make(
                energy.level_power, "pack", "Power from the battery", "power",
                {**lift, "eta": taken(self.option.drive)},
            ),
        }  # fmt: skip
        return WorkedRow("power", "power", chain.words, tuple(chain.figures), cells, row)

    def air(self) -> WorkedRow | None:
        """The first height above sea level on a warm day; one table, made with the heaviest aircraft."""
        table, heaviest = self.made.air, max(self.made.options, key=lambda one: one.mass.value)
        if table is None or heaviest is not self.option:
            return None
        row: AirRow = table.rows[HEIGHT * len(OFFSETS) + WARM]
        chain = self.chain("air", f"{self.height(row.height)}, {row.offset:+g} K")
        density = self.air_at(chain, row.height, row.offset)
        pressure, temperature, dense = chain.figures
        cells = {"temperature": temperature, "density": dense}
        cells["density_altitude"] = chain.make(
            atmosphere.density_altitude, "density_altitude", "Density altitude", "length", {"rho": density},
            style="height",
        )  # fmt: skip
        around = {"p": taken(pressure), "T": taken(temperature)}
        limit = [given(self.made.fastest.quantity, self.made.fastest.name)] if self.made.fastest else []
        speeds = [taken(self.option.minimum_sink_speed), taken(self.option.best_glide_speed), *limit]
        for number, calibrated in enumerate(speeds):
            cells[f"true.{number}"] = chain.make(
                airspeed.true_airspeed, f"true_{number + 1}", f"True airspeed at the {calibrated.label}",
                "speed", {"v_CAS": calibrated, **around},
            )  # fmt: skip
        return WorkedRow("air", "air", chain.words, tuple(chain.figures), cells, row)

    def _climb_row(self) -> ClimbRow | None:
        rows = [one for one in self.made.climbs if one.option == self.option.option]
        return rows[HEIGHT] if rows and self.option.drive else None

    def _pilot_row(self) -> PilotRow:
        return [one for one in self.made.pilots if one.option == self.option.option][HEIGHT]
