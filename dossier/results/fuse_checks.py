"""Fuses, plugs and switches against what flows through them, the voltage, and the wires behind them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from dossier.findings import Severity
from dossier.model.wiring import Burst, Connector, Fuse
from dossier.results.conductor_checks import UNKNOWN, allowed, out_of_table
from dossier.results.conductors import Carried, ConductorResult
from dossier.results.wiring_checks import Check, Standing, Told, Valued, joined, standing, told

FUSE_SHARE = 0.8
"""Of its rating, that a fuse should carry for good: more ages it, and warm air lowers the rating (common
practice, no source)."""
PROTECTION = "AC 43.13-1B, 11-48"
CHART = "AC 43.13-1B, table 11-3"
PRACTICE = "80 % of its rating, common practice, no source"


@dataclass(frozen=True)
class InTheWay:
    """A fuse or a plug with the conductors that lead through it."""

    part: Fuse | Connector
    conductors: tuple[ConductorResult, ...]
    highest: Valued
    """The highest voltage of its circuits."""
    short_circuit: Valued | None
    """The largest of the batteries behind it; None where it is not known."""
    why_unknown: str
    """Why a current is not known, where it is not."""

    @property
    def name(self) -> str:
        """What a reader calls it."""
        return str(self.part.name)

    @property
    def carried(self) -> Carried | None:
        """The largest lasting current; None where one of them is not known."""
        known = [one.carried for one in self.conductors if one.carried]
        whole = len(known) == len(self.conductors)
        return max(known, key=lambda one: one.continuous.value) if whole else None

    @property
    def short(self) -> Carried | None:
        """The one with the largest short current; None where there is none above the lasting one."""
        known = [one.carried for one in self.conductors if one.carried and one.carried.burst]
        return max(known, key=lambda one: one.burst.value if one.burst else 0.0, default=None)


def fuse_checks(one: InTheWay, fuse: Fuse) -> Iterator[Check]:
    """Make the comparisons of one fuse."""
    value = one.carried.continuous if one.carried else None
    unknown = "" if one.carried else UNKNOWN.format(one.why_unknown)
    yield _current(one, "C012", "the fuse opens in flight: take a larger one, and wire for it", unknown)
    how = standing(value, FUSE_SHARE * fuse.rated_current.value)
    share = value.value / fuse.rated_current.value if value else 0.0
    over = Told(
        "C012",
        f"{one.name} carries {100 * share:.0f} % of its {fuse.rated_current.text} lastingly; usual is at "
        f"most {100 * FUSE_SHARE:.0f} %",
        "look into its maker's derating in warm air, or take a larger one, and wire for it",
        fuse.rated_current.place, Severity.NOTE,
    )  # fmt: skip
    finding = told(how, over) if value and value.value <= fuse.rated_current.value else None
    bound, question = FUSE_SHARE * fuse.rated_current.value, "Lasting current, with room"
    yield Check(one.name, question, value, bound, False, "current", how, PRACTICE, unknown, finding)
    yield from _burst(one, "C012")
    yield _voltage(one)
    yield _interrupts(one, fuse)
    for conductor in one.conductors:
        protects = _protects(one, fuse, conductor)
        yield protects
        if conductor.wire and conductor.wire.fuse and conductor.conductor.parallel == 1:
            yield _chart(one, conductor, conductor.wire.fuse, told_already=protects.finding is not None)


def connector_checks(one: InTheWay) -> Iterator[Check]:
    """Make the comparisons of one plug, contactor, switch or terminal."""
    unknown = "" if one.carried else UNKNOWN.format(one.why_unknown)
    yield _current(one, "C015", "take one for that current", unknown)
    yield from _burst(one, "C015")
    yield _voltage(one)


def _current(one: InTheWay, code: str, remedy: str, unknown: str) -> Check:
    value, rated = one.carried.continuous if one.carried else None, one.part.rated_current
    how = standing(value, rated.value)
    fault = f"{value.value if value else 0:.0f} A flow lastingly through {one.name}, rated {rated.text}"
    finding = told(how, Told(code, fault, remedy, rated.place))
    words = joined(unknown, one.carried.words if one.carried else "")
    basis = _rating_of(one.part)
    return Check(
        one.name, "Lasting current", value, rated.value, False, "current", how, basis, words, finding
    )


def _burst(one: InTheWay, code: str) -> Iterator[Check]:
    carried, point, rated = one.short, one.part.burst, one.part.rated_current
    if carried is None or carried.burst is None:
        return
    value, time = carried.burst, carried.burst_time
    bound = _bound(point, time, rated.value)
    how = standing(value, bound)
    if how is Standing.OVER and point is None:
        how = Standing.NOT_STATED
    flows = f"{value.value:.0f} A flow for {time:.0f} s through {one.name}"
    held = f"{point.current.text} for {point.time.text}" if point else ""
    over = Told(
        code, f"{flows}, and its maker allows {held}", "take a larger one", point.place if point else None
    )
    remedy = "take a point from its maker's curve, and add it as  burst: {current: ..., time: ...}"
    missing = Told(
        "C018", f"{flows}, rated {rated.text}, and no burst is stated", remedy, one.part.place, Severity.NOTE
    )
    words = joined(f"for {time:.0f} s", f"a point of its curve: {held}" if held else "")
    finding = told(how, over, missing if how is Standing.NOT_STATED else None)
    yield Check(
        one.name, "Short current", value, bound, False, "current", how, _rating_of(one.part), words, finding
    )


def _bound(point: Burst | None, time: float, rated: float) -> float:
    """Return what may flow for a time in s: the point of the curve if it lasts as long, else the rating."""
    return max(rated, point.current.value) if point and point.time.value >= time else rated


def _voltage(one: InTheWay) -> Check:
    rated, bound = one.part.rated_voltage, one.highest.value
    how = standing(rated, bound, at_least=True) if rated else Standing.NOT_STATED
    over = Told(
        "C014",
        f"{one.name} is rated for {rated.text if rated else ''}, and the circuit has {bound:.1f} V when full",
        "take one for that direct voltage: an arc does not go out by itself",
        rated.place if rated else None,
    )
    missing = Told(
        "C018",
        f"no rating of {one.name} for direct voltage is stated, and the circuit has {bound:.1f} V when full",
        "state rated_voltage: from its maker's sheet; a rating for alternating current is none",
        one.part.place,
    )
    finding = told(how, over, missing)
    basis = _rating_of(one.part)
    return Check(one.name, "Direct voltage", rated, bound, True, "voltage", how, basis, "", finding)


def _interrupts(one: InTheWay, fuse: Fuse) -> Check:
    rated, short = fuse.interrupt_rating, one.short_circuit
    bound = rated.value if rated else None
    how = standing(short, bound) if rated else Standing.NOT_STATED
    about = f"about {short.value / 1000:.1f} kA" if short else "an unknown current"
    over = Told(
        "C016",
        f"a short circuit drives {about}, and {one.name} breaks {rated.text if rated else ''}",
        "take a fuse that breaks more, and put it as close to the cells as possible",
        rated.place if rated else None,
    )
    missing = Told(
        "C018",
        f"what {one.name} can break is not stated, and a short circuit drives {about}",
        "state interrupt_rating: from its maker's sheet, at that direct voltage",
        fuse.place, Severity.NOTE,
    )  # fmt: skip
    words = "" if short else joined(one.why_unknown)
    finding = told(how, over, missing if how is Standing.NOT_STATED else None)
    return Check(
        one.name,
        "Short circuit, an estimate",
        short,
        bound,
        False,
        "current",
        how,
        _rating_of(fuse),
        words,
        finding,
    )


def _protects(one: InTheWay, fuse: Fuse, conductor: ConductorResult) -> Check:
    """The fuse is to open before the wire is too warm, so its rating may not pass that of the wire."""
    bound, rated = allowed(conductor), fuse.rated_current
    how, in_air = standing(rated, bound), conductor.conductor.laid == "free-air"
    words = out_of_table(conductor) if bound is None else ""
    if how is Standing.OVER and in_air and conductor.conductor.rating is None:
        how, words = Standing.NOT_COVERED, "more than the table, which is for bundles and not for free air"
    over = Told(
        "C013",
        f"{one.name}, {rated.text}, does not protect {conductor.name}, which may carry {bound or 0:.0f} A",
        "take a smaller fuse or a thicker wire", rated.place,
    )  # fmt: skip
    unclear = Told(
        "C019",
        f"no table here says whether {one.name}, {rated.text}, protects {conductor.name}: {words}",
        "add its maker's rating for the way in which it is laid, or ask a licensed electrician",
        conductor.conductor.place, Severity.NOTE,
    )  # fmt: skip
    question = f"Protects {conductor.name}"
    finding = told(how, over, None if bound is None else unclear)
    return Check(one.name, question, rated, bound, False, "current", how, PROTECTION, joined(words), finding)


def _chart(one: InTheWay, conductor: ConductorResult, bound: float, *, told_already: bool) -> Check:
    rated = one.part.rated_current
    how = standing(rated, bound)
    gauge = conductor.wire.gauge if conductor.wire else ""
    words = "The chart knows no temperature of the insulation: a guide beside the line above"
    question = f"By the chart of fuses, {conductor.name}"
    basis = f"{CHART}, gauge {gauge}"
    over = Told(
        "C013",
        f"the chart of the circular names a fuse of {bound:.0f} A for gauge {gauge} of {conductor.name}, and "
        f"{one.name} has {rated.text}",
        "take a smaller fuse or a thicker wire, or show why insulation for a higher temperature allows it",
        rated.place, Severity.NOTE,
    )  # fmt: skip
    if how is Standing.OVER and conductor.conductor.rating:
        how, words = (
            Standing.NOT_COVERED,
            "More than the chart, which is for bundles; its maker's rating stands",
        )
    finding = None if told_already else told(how, over)
    return Check(one.name, question, rated, bound, False, "current", how, basis, words, finding)


def _rating_of(part: Fuse | Connector) -> str:
    return f"its maker's rating, {part.source}"


def behind_fuse(conductors: Sequence[ConductorResult], name: str) -> tuple[ConductorResult, ...]:
    """List the conductors that a fuse protects."""
    return tuple(one for one in conductors if one.conductor.fuse == name)


def through(conductors: Sequence[ConductorResult], name: str) -> tuple[ConductorResult, ...]:
    """List the conductors that lead through a plug, contactor, switch or terminal."""
    return tuple(one for one in conductors if name in map(str, one.conductor.through))
