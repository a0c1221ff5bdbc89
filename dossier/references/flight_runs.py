"""The runs of a flight test: from one place, whole, of the right kinds, calibrated where they need it."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding, Place
from dossier.model.events import FlightTest
from dossier.model.flight_runs import BLOCKS, QUANTITIES, AirspeedCalibration, Runs, kind_of
from dossier.model.record import SerialRecord
from dossier.project import Project


def check(project: Project) -> Iterator[Finding]:
    """Check the runs of every flight test."""
    for record in project.serials.values():
        yield from _record(record)


def _record(record: SerialRecord) -> Iterator[Finding]:
    calibrated = False
    for event in record.events:
        if not isinstance(event, FlightTest):
            continue
        calibrated = calibrated or event.airspeed_calibration is not None
        yield from _given_once(event)
        for name in BLOCKS:
            block: Runs | None = getattr(event, name)
            if block is None:
                continue
            yield from _source(block, name, event)
            for stated, place in _stated(block):
                yield from _whole(stated, block, place)
                if name != "airspeed_calibration" and "indicated_speed" in stated and not calibrated:
                    yield _wrong(
                        "an indicated speed stands here, and no calibration of the airspeed in this or an "
                        "earlier flight test",
                        "add airspeed_calibration, or give calibrated_speed",
                        place,
                    )
            if isinstance(block, AirspeedCalibration) and len(block.directions) < 3:
                fault = f"the calibration has {len(block.directions)} directions, and wind shows from three"
                yield _wrong(fault, "fly three about 120° apart", block.place_of_key("directions"))


def _given_once(event: FlightTest) -> Iterator[Finding]:
    """Glides from one place, and a value for every result."""
    if event.glide_points and event.timed_glides:
        fault = "this flight test has timed_glides and glide_points, and one polar is fitted"
        yield _wrong(
            fault, "keep the timed_glides, from which the others follow", event.place_of_key("glide_points")
        )
    kinds = {quantity: kind for kind, quantity in QUANTITIES.items()}
    for result in event.results:
        runs = kinds.get(str(result.quantity))
        if result.value is None and (runs is None or getattr(event, runs) is None):
            fault = f"{str(result.quantity)!r} has no value" + (f", and this test no {runs}" if runs else "")
            yield _wrong(fault, "add value" + (f", or its runs as {runs}" if runs else ""), result.place)


def _wrong(message: str, remedy: str, place: Place | None) -> Finding:
    return Finding("P048", message, remedy, place)


def _source(block: Runs, name: str, event: FlightTest) -> Iterator[Finding]:
    """A file with columns, or runs in the record, and the file among the evidence."""
    if (block.file is None) == (not block.runs):
        fault = f"{name} has " + ("neither file nor runs" if block.file is None else "a file and runs")
        yield _wrong(fault, "give file with columns, or runs", block.place)
    if block.file is None and block.columns:
        yield _wrong(
            "columns are named, and no file", "give file, or leave columns out", block.place_of_key("columns")
        )
    if block.file and str(block.file) not in {str(cited.file) for cited in event.evidence}:
        yield Finding(
            "P024", f"the log {block.file} is not among the evidence of its event",
            "name it under evidence as well, so that it is sealed", block.place_of_key("file"),
        )  # fmt: skip


def _stated(block: Runs) -> Iterator[tuple[dict[str, str], Place | None]]:
    """Give what each run states: quantity -> kind of its value, empty where a column holds it."""
    if block.file is not None:
        yield {str(key): "" for key in block.columns}, block.place_of_key("columns")
        return
    for run in block.runs:
        first = next(iter(run.values()), None)
        yield {str(key): value.kind for key, value in run.items()}, first.place if first else block.place


def _whole(stated: dict[str, str], block: Runs, place: Place | None) -> Iterator[Finding]:
    wanted = block.needs()
    for group in wanted:
        if sum(name in stated for name in group) != 1:
            yield _wrong(f"a run states {' or '.join(group)}, one of it", f"add {group[0]}", place)
    known = {name for group in wanted for name in group} | {"indicated_speed", "calibrated_speed"}
    for name, kind in stated.items():
        if name not in known:
            fault = f"{name!r} is no quantity of these runs"
            yield _wrong(fault, f"quantities: {', '.join(sorted(known))}", place)
        elif kind and kind != kind_of(name):
            yield _wrong(f"{name} is a {kind} here", f"write a {kind_of(name)}", place)
