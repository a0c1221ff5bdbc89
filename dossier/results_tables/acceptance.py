"""Tables of the acceptance of batteries: the fitted one against its retirement, each test against its
criteria."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.dossier import Dossier
from dossier.results.pack_verdict import PackVerdict
from dossier.results_tables.table import FLAG, WORDS, Table, Value, known, table

RETIREMENT = (
    ("pack", WORDS, "serial number of the fitted battery"),
    (
        "outcome",
        WORDS,
        "accepted where its capacity lies above the limit, rejected, too close to tell, or not shown",
    ),
    ("share", "ratio", "capacity left of the nominal one"),
    ("standard_uncertainty", "ratio", "its standard uncertainty"),
    ("limit", "ratio", "capacity at which the type retires a battery, of the nominal one"),
    ("limit_from", WORDS, "where the limit comes from"),
    ("why", WORDS, "why nothing is shown"),
)
ACCEPTANCE = (
    ("pack", WORDS, "serial number of the battery"),
    ("test", WORDS, "battery and day of the test"),
    ("verdict", WORDS, "accepted, rejected, too close to tell or not shown: the worst of its criteria"),
    ("criterion", WORDS, "what is held against a limit"),
    ("outcome", WORDS, "how this criterion stands"),
    ("figure", WORDS, "the figure with its uncertainty"),
    ("limit", WORDS, "the limit, as the record writes it"),
    ("at_least", FLAG, "whether the value must reach the limit; else it must not pass it"),
    ("why", WORDS, "why nothing is shown"),
)


def tables(dossier: Dossier) -> Iterator[Table]:
    """Make the tables."""
    shown = "it is shown"
    held = [pack.retirement for pack in dossier.packs if pack.retirement]
    fitted = (
        (
            one.pack,
            str(one.outcome),
            known(one.share.value if one.share else None, one.why),
            known(one.share.standard_uncertainty if one.share else None, one.why),
            one.limit,
            one.limit_words,
            known(one.why or None, shown),
        )
        for one in held
    )
    title = "The fitted battery against its retirement"
    yield table("battery_retirement", title, RETIREMENT, fitted, "no battery is fitted")
    verdicts = [log.verdict for log in dossier.capacity_logs.logs if log.verdict]
    asked = dossier.project.battery.acceptance
    none = "no test has a log" if asked else "the record asks nothing of a test"
    rows = (line for one in verdicts for line in _rows(one))
    yield table("battery_acceptance", "Batteries by their tests", ACCEPTANCE, rows, none)


def _rows(one: PackVerdict) -> Iterator[tuple[Value, ...]]:
    for held in one.rows:
        yield (
            one.pack,
            one.words,
            str(one.outcome),
            held.name,
            str(held.outcome),
            known(held.figure.name if held.figure else None, held.why),
            held.limit.value.text,
            held.at_least,
            known(held.why or None, "it is shown"),
        )
