"""What a weighing and a flight test say twice, or leave out: a record that would be reckoned
without a word."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from dossier.findings import Finding
from dossier.model.events import FlightTest, Weighing
from dossier.project import Project


def check(project: Project) -> Iterator[Finding]:
    """Check every weighing and every flight test."""
    for record in project.serials.values():
        for event in record.events:
            if isinstance(event, Weighing):
                yield from _weighing(event)
            if isinstance(event, FlightTest):
                yield from _flight_test(event)


def _weighing(event: Weighing) -> Iterator[Finding]:
    if not event.supports:
        return  # told as an empty list; what follows from it need not be told again
    if len(event.supports) == 1 and not event.suspended:
        yield Finding(
            "E010",
            "this weighing has one support, which shows neither the whole mass nor where its centre is",
            "write every wheel or skid that carried the aircraft, or  suspended: true  if it hung from one "
            "point",
            event.place_of_key("supports"),
        )
    used = {str(support.scale) for support in event.supports}
    for key in event.scales:
        if str(key) not in used:
            yield Finding(
                "E011",
                f"the scale {str(key)!r} is listed and no support stands on it",
                "add its support, or take the scale out",
                event.scales[key].place,
            )
    for name, count in Counter(str(support.name) for support in event.supports).items():
        if count > 1:
            second = [support for support in event.supports if support.name == name][1]
            yield Finding(
                "E012",
                f"the support {name!r} stands in this weighing {count} times",
                "put its readings into one support, or give each its own name",
                second.place_of_key("name"),
            )


def _flight_test(event: FlightTest) -> Iterator[Finding]:
    seen: set[str] = set()
    for result in event.results:
        if str(result.quantity) in seen:
            yield Finding(
                "E013",
                f"the quantity {str(result.quantity)!r} stands in this flight test twice, and which one "
                "holds is not said",
                "keep the one that was measured in the configuration that is meant, or write two events",
                result.place_of_key("quantity"),
            )
        seen.add(str(result.quantity))
