"""Tables of wiring and fuses: the currents of the phases, the comparisons; and the logs against the model."""

from __future__ import annotations

from collections.abc import Iterator

from dossier import units
from dossier.dossier import Dossier
from dossier.results.capacity_logs import CapacityLog
from dossier.results.log_comparison import Comparison
from dossier.results.traction_currents import OptionCurrents
from dossier.results.wiring_checks import Check
from dossier.results_tables.table import FLAG, WORDS, Table, Value, known, table

NO_WIRING = "battery.yaml states no wiring, or no flight of the profile can be computed"
NO_LOG = "no test has a log, or none has such a step"
CURRENTS = (
    ("option", WORDS, "battery, its key in battery.yaml"),
    ("phase", WORDS, "name of the phase, in the order of the profile"),
    ("duration", "time", "how long it lasts"),
    ("voltage", "voltage", "lowest, at its end, with the heaviest pilot and the coldest battery"),
    ("current", "current", "largest, at its end"),
    ("most", FLAG, "whether the model has no answer, and the most stands here"),
)
COMPARISONS = (
    ("group", WORDS, "conductors, fuses, or plugs, contactors and switches"),
    ("part", WORDS, "what is looked at"),
    ("question", WORDS, "what is compared"),
    ("value", "number", "what it is, in the unit of its row"),
    ("bound", "number", "what it is held against, in the same unit"),
    ("at_least", FLAG, "whether the value must reach the bound, or must not pass it"),
    ("unit", WORDS, "SI unit of both"),
    ("standing", WORDS, "within, over, too close to tell, not covered, not stated"),
    ("basis", WORDS, "the table or the rating"),
)
_TEST = (
    ("pack", WORDS, "serial number of the battery"),
    ("day", "date", "when it was tested"),
)


def _pair(kind: str) -> tuple[tuple[str, str, str], ...]:
    return (
        *_TEST,
        ("measured", kind, "by the log"),
        ("measured_standard_uncertainty", kind, "its standard uncertainty"),
        ("computed", kind, "by the model of the type"),
        ("computed_standard_uncertainty", kind, "its standard uncertainty"),
        ("difference", kind, "measured less computed"),
        ("difference_standard_uncertainty", kind, "its standard uncertainty"),
        ("agrees", FLAG, "whether the difference lies within its expanded uncertainty, k = 2"),
    )


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the tables."""
    made = dossier.wiring
    currents = (row for one in made.currents for row in _currents(one))
    yield table("currents_by_phase", "Currents by phase", CURRENTS, currents, NO_WIRING)
    checks = (_check(group, one) for group, found in made.groups for one in found)
    yield table("wiring_comparisons", "Wiring and fuses, compared", COMPARISONS, checks, NO_WIRING)
    for quantity in ("energy", "resistance"):
        rows = (
            _compared(log, pair)
            for log in dossier.capacity_logs.logs
            for pair in log.compared
            if pair.quantity == quantity
        )
        title = f"{quantity.capitalize()} of the tests, measured and computed"
        yield table(f"{quantity}_of_tests", title, _pair(quantity), rows, NO_LOG)


def _currents(one: OptionCurrents) -> Iterator[tuple[Value, ...]]:
    for phase in one.phases:
        yield (
            one.option, phase.name, phase.duration, phase.voltage.value, phase.current.value,
            bool(phase.why_most),
        )  # fmt: skip


def _check(group: str, one: Check) -> tuple[Value, ...]:
    none = one.words or "the record does not state it"
    return (
        group,
        one.subject,
        one.question,
        known(one.value.value if one.value else None, none),
        known(one.bound, none),
        one.at_least,
        units.KINDS[one.kind].si,
        one.standing.value,
        one.basis,
    )


def _compared(log: CapacityLog, pair: Comparison) -> tuple[Value, ...]:
    computed, difference = pair.computed, pair.difference
    return (
        str(log.event.pack),
        log.event.date,
        pair.measured.value,
        pair.measured.standard_uncertainty,
        known(computed.value if computed else None, pair.why),
        known(computed.standard_uncertainty if computed else None, pair.why),
        known(difference.value if difference else None, pair.why),
        known(difference.standard_uncertainty if difference else None, pair.why),
        known(pair.agrees, pair.why),
    )
