"""A conductor against the table of its wire, its maker's rating and the drop of voltage of its circuit."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.compute.wiring import LOAD_DROPS
from dossier.findings import Finding, Severity
from dossier.results.conductors import ConductorResult
from dossier.results.wiring_checks import Check, Standing, Told, Valued, joined, standing, told
from dossier.tables.wires import wires

TABLE = "AC 43.13-1B, table 11-9"
DROPS = "AC 43.13-1B, table 11-6"
PROTECTED = "AC 43.13-1B, 11-47"
UNKNOWN = "what it carries is not known: {}"
IN_AIR = "more than the table, which is for bundles; for a wire in free air the circular has a drawing only"
BY_MAKER = "more than the table; its maker's rating stands for it"
ALONE = "if one of the wires breaks, the others carry all of it, and the fuse knows nothing of that"


def conductor_checks(one: ConductorResult, highest: Valued, why_unknown: str) -> Iterator[Check]:
    """Make the comparisons of one conductor.

    Args:
        one: the conductor.
        highest: the highest voltage of its circuit.
        why_unknown: why the current of the battery is not known, where it is not.
    """
    unknown = "" if one.carried else UNKNOWN.format(why_unknown)
    yield _table(one, unknown)
    if one.conductor.rating:
        yield _maker(one, unknown)
    if one.carried and one.carried.burst:
        yield _burst(one)
    if one.conductor.load:
        yield _load_drop(one)
    yield _insulation(one, highest)
    if one.conductor.fuse is None:
        yield _no_fuse(one)


def allowed(one: ConductorResult) -> float | None:
    """Return the current in A that a conductor may carry: by its maker where that is more than the table."""
    rating, table = one.conductor.rating, one.table_current
    by_maker = rating.current.value * one.conductor.parallel if rating else None
    known = [amperes for amperes in (by_maker, table.value if table else None) if amperes is not None]
    return max(known, default=None)


def out_of_table(one: ConductorResult) -> str:
    """Say why the table does not reach a conductor; empty where it does."""
    if one.wire is None:
        size = one.conductor.area.text if one.conductor.area else f"gauge {one.conductor.gauge}"
        return f"the table has no {size}: its gauges are {', '.join(wires())}"
    if one.column is None:
        rated, first = one.conductor.rated_temperature.text, min(one.wire.ampacity)
        return f"the table begins at insulation for {first} °C, and this is rated for {rated}"
    return ""


def _table(one: ConductorResult, unknown: str) -> Check:
    value = one.carried.continuous if one.carried else None
    bound = one.table_current.value if one.table_current else None
    how, beyond = standing(value, bound), unknown or out_of_table(one)
    rating, in_air = one.conductor.rating, one.conductor.laid == "free-air"
    if how is Standing.OVER and (rating or in_air):
        how, beyond = Standing.NOT_COVERED, BY_MAKER if rating else IN_AIR
    if how is Standing.NOT_COVERED:
        finding = None if unknown or rating else _not_reached(one, beyond)
    else:
        finding = told(how, _too_much(one, value, bound))
    words = joined(beyond, _size_words(one), ALONE if one.conductor.parallel > 1 else "")
    basis = f"{TABLE}, gauge {one.wire.gauge} at {one.column} °C" if one.wire and one.column else TABLE
    return Check(one.name, "Lasting current", value, bound, False, "current", how, basis, words, finding)


def _size_words(one: ConductorResult) -> str:
    if one.wire and one.conductor.area:
        return f"{one.conductor.area.text} lies above gauge {one.wire.gauge}, which is taken"
    return ""


def _not_reached(one: ConductorResult, why: str) -> Finding:
    return Finding(
        "C019",
        f"no table here says what {one.name} may carry: {why}",
        "add its maker's rating for the way in which it is laid, or ask a licensed electrician",
        one.conductor.place, Severity.NOTE,
    )  # fmt: skip


def _too_much(one: ConductorResult, value: Valued | None, bound: float | None) -> Told:
    return Told(
        "C010",
        f"{one.name} carries {value.value if value else 0:.0f} A, and the table allows it {bound or 0:.0f} A",
        "take a thicker wire, insulation for a higher temperature, or add its maker's rating",
        one.conductor.place_of_key("area" if one.conductor.area else "gauge"),
    )


def _maker(one: ConductorResult, unknown: str) -> Check:
    rating, value = one.conductor.rating, one.carried.continuous if one.carried else None
    assert rating
    bound = rating.current.value * one.conductor.parallel
    how = standing(value, bound)
    fault = f"{one.name} carries {value.value if value else 0:.0f} A, and its maker allows {bound:.0f} A"
    finding = told(how, Told("C010", fault, "take a thicker wire", rating.current.place))
    words, basis = joined(unknown, str(rating.conditions)), f"maker's rating, {rating.source}"
    return Check(one.name, "Lasting current", value, bound, False, "current", how, basis, words, finding)


def _burst(one: ConductorResult) -> Check:
    assert one.carried
    value, bound = one.carried.burst, allowed(one)
    how, words = standing(value, bound), [f"for {one.carried.burst_time:.0f} s"]
    if how is Standing.OVER:
        how = Standing.NOT_COVERED
        words.append("more than it may carry for good, and no table here is for short times")
    basis = "as for the lasting current"
    return Check(one.name, "Short current", value, bound, False, "current", how, basis, joined(*words))


def _load_drop(one: ConductorResult) -> Check:
    assert one.conductor.load
    volts, drop = one.conductor.load.voltage, one.figures.get("voltage_drop")
    bound = LOAD_DROPS.get(volts.value)
    how, known = standing(drop, bound), ", ".join(f"{one:g}" for one in LOAD_DROPS)
    words = "" if bound else f"The table is for {known} V, not {volts.text}"
    over = Told(
        "C011",
        f"{one.name} takes {drop.value if drop else 0:.2f} V, and may take {bound or 0:g} V at {volts.text}",
        "take a thicker or a shorter wire", one.conductor.place_of_key("one_way_length"),
    )  # fmt: skip
    finding = told(how, over)
    return Check(one.name, "Drop of voltage", drop, bound, False, "voltage", how, DROPS, words, finding)


def _insulation(one: ConductorResult, highest: Valued) -> Check:
    rated, bound = one.conductor.rated_voltage, highest.value
    how = standing(rated, bound, at_least=True) if rated else Standing.NOT_STATED
    over = Told(
        "C014",
        f"the insulation of {one.name} is rated {rated.text if rated else ''}, and is under {bound:.1f} V",
        "take a wire for that voltage", one.conductor.place_of_key("rated_voltage"),
    )  # fmt: skip
    finding, basis = told(how, over), "rating of the insulation"
    return Check(one.name, "Voltage", rated, bound, True, "voltage", how, basis, "", finding)


def _no_fuse(one: ConductorResult) -> Check:
    why = one.conductor.no_fuse_because
    finding = Finding(
        "C017",
        f"no fuse protects {one.name}",
        "name one under  fuse:  close to its source, or say under  no_fuse_because:  why it has none",
        one.conductor.place, Severity.WARNING,
    )  # fmt: skip
    words = f"None, because: {why}" if why else "Every wire is to have one, close to its source"
    return Check(
        one.name, "Fuse", None, None, True, "current", Standing.NOT_STATED, PROTECTED, words,
        None if why else finding,
    )  # fmt: skip
