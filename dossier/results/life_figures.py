"""Cycles and years of a battery as figures: the least and the most of the published models."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from dossier.compute.life import LONGEST, YEAR, LifeEnd
from dossier.compute.life_by_rate import MODELS
from dossier.compute.models_apart import least_of_models, most_of_models
from dossier.figures import Figure, Input, evaluate
from dossier.model.battery import Battery
from dossier.results.years import BatteryYears, RateEffect, Years
from dossier.sources import cite

SOURCES = {"no_rate": "schmalstieg-2014", "blended": "wang-2014", "high_nickel": "bui-2021"}
"""Key of a model -> its source."""
ONE_WAY = 2.0
"""The second model counts the charge both ways; read as one way, its source gives twice as many cycles."""
NOTE = (
    "No model is one of this cell, and none was measured on it: what lies between the least and the most of "
    "them is open, and a test of the cell goes before all of it."
)


def life_figures(years: BatteryYears, battery: Battery) -> tuple[Figure, ...]:
    """Make them for each battery whose years are estimated; none where a model has no answer."""
    return tuple(figure for one in years.years for figure in _of(one, battery))


def _of(years: Years, battery: Battery) -> Iterator[Figure]:
    name = str(battery.options[years.option].name)
    if years.rates:
        answers = _cycles(years.rates)
        if answers:
            words = f"Full cycles to 80 % by use alone, at the mean rate of the stated use, {name}"
            yield from _both("cycle_life", years.option, words, "count", answers)
    for end in years.ends:
        if end.limit == "capacity":
            yield from _years(years, end, f"Time until the capacity ends the life, in the stated use, {name}")


def _cycles(rates: RateEffect) -> list[Input]:
    """List the cycles of each model at the mean rate of the use, and the second read the lenient way."""
    found = [row for row in rates.rows if row.time is None]
    answers = []
    for model, cycles in zip(MODELS, found[0].cycles, strict=True) if found else ():
        if cycles is not None:
            source = cite(SOURCES[model.key])
            answers.append(Input(f"full cycles, {source.source.title}", "number", cycles, source))
            if model.key == "blended":
                lenient = ONE_WAY * cycles
                answers.append(Input("the same, its charge counted one way", "number", lenient, source))
    return answers


def _years(years: Years, end: LifeEnd, words: str) -> Iterator[Figure]:
    source = cite("blast-lite")
    if end.earliest is None:
        return
    answers = [
        Input(f"{which} of the models", "time", year * YEAR, source)
        for which, year in (("strictest", end.earliest), ("the one used for the years", end.year))
    ]
    if end.latest is not None:
        answers.append(Input("most lenient of the models", "time", end.latest * YEAR, source))
        yield from _both("calendar_life", years.option, words, "years", answers)
    else:
        note = f"{NOTE} The most lenient model does not come to this end within {LONGEST} years."
        yield evaluate(
            least_of_models, f"calendar_life_least.{years.option}", f"{words}, least of the models", "time",
            {"y_i": answers}, style="years", note=note,
        )  # fmt: skip


def _both(short: str, option: str, words: str, style: str, answers: Sequence[Input]) -> Iterator[Figure]:
    for which, formula in (("least", least_of_models), ("most", most_of_models)):
        yield evaluate(
            formula, f"{short}_{which}.{option}", f"{words}, {which} of the models", answers[0].kind,
            {"y_i": answers}, style=style, note=NOTE,
        )  # fmt: skip
