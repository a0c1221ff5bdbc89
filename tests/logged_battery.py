"""A sample battery with the log of a test, its cells and its temperature, for the tests of acceptance and
gauge card."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from sample_project import Draft, pack_fitted, support, weighing

from dossier.dossier import Dossier

SERIES = 14
CELLS = [f"Cell {n} / V" for n in range(1, SERIES + 1)]
REST = 58.10 / SERIES


def log(apart: float = 0.010, hottest: float = 24.0, *, temperature: bool = True, cells: bool = True) -> str:
    """Write 20 A for 10920 s of a battery of 14 groups, one of them ``apart`` V below the others at rest."""
    heads = ["Test Time / s", "Voltage / V", "Current / A"]
    heads += ["Surface Temperature T1 / degC"] if temperature else []
    heads += CELLS if cells else []
    lines = [",".join(heads)]
    for t in (0, 1, *range(120, 10921, 120), 12920):
        rest = t in (0, 12920)
        volts = 58.10 if t == 0 else 44.90 if rest else 57.4 - 13.4 * t / 10920
        row = [str(t), f"{volts:.2f}", "0" if rest else "20.0"]
        row += [f"{hottest if t == 10920 else 20.0}"] if temperature else []
        if cells:
            mean = volts / SERIES
            row += [f"{mean + apart / SERIES:.4f}"] * (SERIES - 1)
            row += [f"{mean + apart / SERIES - apart:.4f}"]
        lines.append(",".join(row))
    return "\n".join(lines) + "\n"


LIMITS = {
    "retirement": ("Retired below", "85 %"),
    "apart": ("Cells apart", "30 mV"),
    "cold": ("Coldest", "10 °C"),
    "hot": ("Hottest", "60 °C"),
    "energy": ("Least energy", "60 %"),
    "growth": ("Resistance", "2.5"),
}
ALL = {
    "least_capacity_limit": "retirement",
    "least_energy_limit": "energy",
    "largest_cell_spread_limit": "apart",
    "coldest_limit": "cold",
    "hottest_limit": "hot",
    "largest_resistance_growth_limit": "growth",
}


def made(
    folder: Path, text: str, asked: dict[str, str] | None = None, *, weighed: bool = False, **more: Any
) -> Dossier:
    """Make a dossier of one logged test; weighed, there are flights as well."""
    draft = Draft()
    for name, (words, value) in LIMITS.items():
        draft.aircraft["limits"][name] = {"name": words, "value": value, "reason": "invented"}
    if asked is None or asked:
        draft.battery["acceptance"] = ALL if asked is None else asked
    columns = {"cells": CELLS} if CELLS[0] in text else {}
    event: dict[str, Any] = {
        "measured_capacity": "68 Ah ± 1 Ah",
        "evidence": [{"file": "evidence/log.csv", "shows": "A discharge"}],
        "log": {"file": "evidence/log.csv", "discharge": "positive", **columns, **more},
    }
    draft.events.append(pack_fitted("P-1", "18.4 kg", **event))
    if weighed:
        arms = (("left", "40.0 kg", "0.35 m"), ("right", "40.0 kg", "0.35 m"), ("tail", "2.0 kg", "3.80 m"))
        draft.events.append(weighing(*(support(name, mass, arm=arm) for name, mass, arm in arms)))
    evidence = folder / "project/serials/0001/evidence"
    evidence.mkdir(parents=True)
    (evidence / "log.csv").write_text(text, "utf-8")
    return draft.make(folder)


def fitted(folder: Path, use: bool = True, **more: str) -> Dossier:
    """Make a dossier of a fitted battery without a log."""
    draft = Draft()
    draft.aircraft["limits"]["retirement"] = {"name": "Retired below", "value": "85 %", "reason": "invented"}
    if use:
        draft.aircraft["use"] = {
            "hours_per_year": "40 h", "flights_per_year": "60", "charge_before_flight": "95 %",
            "charge_after_flight": "30 %", "storage_charge": "50 %", "storage_temperature": "15 °C",
            "retirement_limit": "retirement",
        }  # fmt: skip
    draft.events.append(pack_fitted("P-1", "18.4 kg", **more))
    return draft.make(folder)
