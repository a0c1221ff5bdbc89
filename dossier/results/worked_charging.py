"""The charging of each battery after a flight, worked from the charger to the minutes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from dossier.compute import charge_time
from dossier.compute.charging import HOUR
from dossier.figures import Input, given, taken
from dossier.model.aircraft import Use
from dossier.model.battery import Battery
from dossier.results.cell_model import CellModel
from dossier.results.intermediate import plain
from dossier.results.worked_gauge import CellWork
from dossier.results.worked_rows import Chain, WorkedRow, held
from dossier.results.years import LAST_CURRENT, ChargingPlan, Years
from dossier.sources import cite


def charging_rows(
    years: Sequence[Years], models: Sequence[CellModel], use: Use, battery: Battery
) -> Iterator[WorkedRow]:
    """Work the plan of each battery that has one."""
    by_option = {model.result.option: model for model in models}
    for one in years:
        plan = one.charging
        if plan is not None:
            work = CellWork(by_option[one.option])
            yield from held(partial(_row, work, plan, use, battery))


def _row(work: CellWork, plan: ChargingPlan, use: Use, battery: Battery) -> WorkedRow:
    model, charger = work.model, battery.charger
    words = f"{model.name}, after a flight"
    chain = Chain("charging", model.result.option, words)
    into = Input(
        "power of the charger times its efficiency", "power", charger.power.value * charger.efficiency.value,
        charger.place_of_key("power") or "",
    )  # fmt: skip
    capacity = given(model.cell.nominal_capacity, "nominal capacity of the cell")
    inputs: dict[str, Input | list[Input]] = {
        "P_cell": work.power(chain, into),
        "z_1": given(use.charge_after_flight, "charge after a flight"),
        "U_max": given(model.option.full_cell_voltage, "full, cell"),
        "I_c": Input(
            f"{LAST_CURRENT:g} of the nominal capacity in an hour", "current",
            LAST_CURRENT * model.circuit.capacity / HOUR, cite("practice"),
        ),
        "Q_cell": capacity,
        **model.table,
    }  # fmt: skip
    first, second = charge_time.points_of_charge(**plain(inputs))
    bulk = chain.make(
        charge_time.bulk_time, "bulk", "Charging at full power", "time", inputs, points=(first,)
    )
    taper = chain.make(
        charge_time.taper_time, "taper", "Taper of the charger", "time", inputs, points=(second,)
    )
    cells = taken(model.result.figures["cells"])
    energy = chain.make(
        charge_time.charged_energy, "energy", "Energy into the battery", "energy", {**inputs, "N": cells}
    )
    made = {"bulk_time": bulk, "taper_time": taper, "energy": energy}
    return WorkedRow("charging", "charging", words, tuple(chain.figures), made, plan, chain.option)
