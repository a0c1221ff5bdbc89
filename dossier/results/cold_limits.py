"""The stated temperature for take-off, beside the temperatures at which the discharge model flies at all."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Option
from dossier.results.discharge_table import Outlook

ZERO = 273.15
"""0 °C in K."""


def findings(
    table: Sequence[Outlook], aircraft: Aircraft, options: Mapping[str, Option]
) -> Iterator[Finding]:
    """Warn of each battery that no pilot can fly at a temperature at which the type allows a take-off.

    Args:
        table: of cold and age; what counts is the battery as old as in the record.
        aircraft: its use names the limit; without one there is nothing to hold.
        options: the batteries.
    """
    named = aircraft.use.coldest_take_off_limit if aircraft.use else None
    if named is None:
        return
    limit = aircraft.limits[named]
    for option in dict.fromkeys(one.flight.option for one in table):
        own = [one for one in table if one.flight.option == option and one.age.health is None]
        refused = warmest_refused(own)
        if refused is None or refused[0] < limit.value.value:
            continue
        temperature, words = refused
        yield Finding(
            "D012",
            f"{limit.name}, {limit.value.text}, allows a take-off with {options[option].name} at "
            f"{temperature - ZERO:.0f} °C, and there and below the discharge model has no answer for any "
            f"pilot: {words}",
            "raise the limit for this battery, or show by a measured discharge at that temperature that it "
            "gives the power, and rely on that",
            options[option].place, Severity.WARNING,
        )  # fmt: skip


def warmest_refused(own: Sequence[Outlook]) -> tuple[float, str] | None:
    """Return the warmest temperature in K from which down no flight has an answer, and why; None where the
    coldest has one.

    Args:
        own: the flights of one battery, all at the same temperatures.
    """
    refused: tuple[float, str] | None = None
    columns = sorted(zip(*(one.lasts for one in own), strict=True), key=lambda each: each[0].temperature)
    for column in columns:
        if any(lasts.shortest is not None for lasts in column):
            break
        refused = column[0].temperature, "; ".join(dict.fromkeys(lasts.words for lasts in column))
    return refused
