"""The stated temperature for take-off, beside the temperatures at which the discharge model flies at all."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Option
from dossier.quantities import Quantity
from dossier.results.discharge_table import Outlook
from dossier.units import scale


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
            f"{limit.name}, {limit.value.text}, allows a take-off with {options[option].name} where the "
            f"discharge model has no answer for any pilot, at {_in_unit(temperature, limit.value)} and "
            f"below: {words}",
            "raise the limit for this battery, or show by a measured discharge at that temperature that it "
            "gives the power, and rely on that",
            options[option].place, Severity.WARNING,
        )  # fmt: skip


def _in_unit(temperature: float, written: Quantity) -> str:
    """Print a temperature in K in the unit that the author wrote a limit in."""
    factor, offset = scale("temperature", written.unit)
    return f"{(temperature - offset) / factor:.0f} {written.unit}"


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
