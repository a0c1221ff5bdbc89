"""A worked row of the years of each battery: the fifth year of the stated use."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from dossier.compute import ageing, life, open_circuit
from dossier.figures import Figure, Input, constant, given, taken
from dossier.model.aircraft import Use
from dossier.results.worked_rows import Chain, WorkedRow, held, of_the_row
from dossier.results.years import YearRow, Years

YEAR = 5.0


def year_rows(batteries: Sequence[Years], use: Use | None, names: dict[str, str]) -> Iterator[WorkedRow]:
    """Work the fifth year of each battery whose years are estimated."""
    for one in batteries:
        for row in one.rows:
            if row.year == YEAR and use is not None:
                yield from held(partial(_row, one, row, use, names))


def _row(one: Years, row: YearRow, use: Use, names: dict[str, str]) -> WorkedRow:
    words = f"{names[one.option]}, after {row.year:g} years"
    chain = Chain("years", one.option, words)
    stored, window = _voltages(chain, use)
    warm = given(use.storage_temperature, "mean temperature between flights")
    time = of_the_row(f"{row.year:g} years of 365 days", "time", row.year * life.YEAR)
    cycles = Input(
        f"{row.year:g} years of {use.flights_per_year} flights", "number",
        float(use.flights_per_year) * row.year, use.place_of_key("flights_per_year") or "",
    )  # fmt: skip
    depth = Input(
        "charge before a flight less charge after it", "ratio",
        use.charge_before_flight.value - use.charge_after_flight.value,
        use.place_of_key("charge_after_flight") or "",
    )  # fmt: skip
    storage = {"U_oc": stored, "T_b": warm, "t": time}
    flying = {"U_rms": window, "z_d": depth, "N_c": cycles}
    lost = {
        "dH_cal": taken(
            chain.make(ageing.calendar_loss, "stored", "Capacity lost in storage", "ratio", storage)
        ),
        "dH_cyc": taken(chain.make(ageing.cycling_loss, "flown", "Capacity lost by use", "ratio", flying)),
    }
    grown = {
        "dG_cal": taken(
            chain.make(ageing.calendar_growth, "grown_stored", "Growth in storage", "number", storage)
        ),
        "dG_cyc": taken(chain.make(ageing.cycling_growth, "grown_flown", "Growth by use", "number", flying)),
    }
    cells = {
        "likely": chain.make(
            life.health_left, "capacity", "Capacity left, likely", "ratio", lost, style="whole_percent"
        ),
        "growth": chain.make(
            life.growth_in_years, "resistance", "Resistance of that when new, likely", "number", grown,
            style="rate",
        ),
        **_ends(chain, row, lost),
    }  # fmt: skip
    return WorkedRow("years", "years", words, tuple(chain.figures), cells, row, one.option)


def _voltages(chain: Chain, use: Use) -> tuple[Input, Input]:
    """Make the rest voltage in storage and the root mean square of the window, of the model's own cell."""
    source, cell = "blast-lite", ageing.MODEL_CELL
    table = {
        "z_i": [constant(f"charge of the model's cell, point {n}", "ratio", z, source)
                for n, z in enumerate(cell.x, 1)],
        "U_i": [constant(f"rest voltage of the model's cell, point {n}", "voltage", U, source)
                for n, U in enumerate(cell.y, 1)],
    }  # fmt: skip
    stored = chain.make(
        open_circuit.open_circuit_voltage, "storage_voltage", "Rest voltage in storage", "voltage",
        {"z": given(use.storage_charge, "charge between flights"), **table},
    )  # fmt: skip
    window = chain.make(
        ageing.rms_of_window, "window_voltage", "Rest voltage over the window of a flight", "voltage",
        {
            "z_1": given(use.charge_before_flight, "charge before a flight"),
            "z_2": given(use.charge_after_flight, "charge after a flight"),
            **table,
        },
    )  # fmt: skip
    return taken(stored), taken(window)


def _ends(chain: Chain, row: YearRow, lost: dict[str, Input]) -> dict[str, Figure]:
    """Make the ends of the range where the spread of the four models decides them."""
    cells = {}
    for side, (key, label) in enumerate((("best", "Capacity left, best"), ("worst", "Capacity left, worst"))):
        printed = getattr(row, key)
        stored, flown = life.CALENDAR_BAND[side], life.CYCLING_BAND[side]
        share = {
            "k_cal": constant("spread of the loss in storage", "number", stored, "blast-lite"),
            "k_cyc": constant("spread of the loss by use", "number", flown, "blast-lite"),
        }  # fmt: skip
        if printed is None:
            continue
        made = chain.make(
            life.health_by_spread, key, label, "ratio", {**lost, **share}, style="whole_percent",
            note="The table takes this or what the model with a term of the rate gives, whichever is further "
            "from the likely value.",
        )  # fmt: skip
        if abs(made.value - printed) <= 1e-9:  # else the second model decides this end
            cells[key] = made
    return cells
