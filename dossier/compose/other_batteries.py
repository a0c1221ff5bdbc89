"""How a requirement would stand with each battery of the type. Only the one that is fitted is declared."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.compose import verdict_numbers
from dossier.compose.grid import Cell, Grid, Mark, Row, grid, row
from dossier.compose.printer import Printer
from dossier.compose.verdict_words import verdict_mark
from dossier.dossier import Dossier
from dossier.judge.verdict import State, Verdict

WOULD = {
    State.CONFORMS: "Would conform",
    State.DOES_NOT_CONFORM: "Would not conform",
    State.INCONCLUSIVE: "Would be inconclusive",
    State.NOT_SHOWN: "Would not be shown",
    State.NOT_APPLICABLE: "Would not be applicable",
}


def table(at: Printer, verdict: Verdict) -> Grid | None:
    """Make the table of a requirement; none where it does not depend on the battery."""
    other = verdict.on_other_basis.with_each_battery if verdict.on_other_basis else ()
    asked = verdict.with_each_battery or other
    if not asked:
        return None
    heads = "Battery | # Value ± U (k\u00a0=\u00a02) | Verdict"
    basis = "" if verdict.with_each_battery else ", if the battery counted"
    caption = f"{verdict.clause} with each battery that the type may carry{basis}"
    return grid(caption, heads, [_row(at, one) for one in asked])


def words(dossier: Dossier, verdict: Verdict) -> tuple[str, ...]:
    """Say in one line each how it would stand with the batteries that are not fitted."""
    return tuple(_words(dossier, verdict))


def short_words(dossier: Dossier, verdict: Verdict) -> tuple[str, ...]:
    """Say the same without numbers."""
    return tuple(_would(dossier, one) for one in _others(dossier, verdict))


def _words(dossier: Dossier, verdict: Verdict) -> Iterator[str]:
    for one in _others(dossier, verdict):
        told = (verdict_numbers.value(one), verdict_numbers.margin_words(one))
        yield ", ".join(part for part in (_would(dossier, one), *told) if part)


def _would(dossier: Dossier, one: Verdict) -> str:
    return f"With {dossier.project.battery.names[one.battery]}: {WOULD[one.verdict].lower()}"


def _others(dossier: Dossier, verdict: Verdict) -> list[Verdict]:
    return [one for one in verdict.with_each_battery if one.battery not in _fitted(dossier)]


def _fitted(dossier: Dossier) -> dict[str, str]:
    return {str(pack.option): str(pack.pack) for pack in dossier.state.packs}


def _row(at: Printer, one: Verdict) -> Row:
    fitted = _fitted(at.dossier).get(one.battery)
    how = f"fitted: {fitted}, its own mass" if fitted else "not fitted: mass of the design"
    known = one.figure if one.figure in at.dossier.figures else None
    mark = verdict_mark(one.verdict)
    return row(
        Cell(at.dossier.project.battery.names[one.battery], note=how),
        Cell(
            verdict_numbers.value(one).removesuffix(" (k = 2)") or "not known",
            at.sheet(known) if known else "",
        ),
        Cell(
            mark=mark if fitted else Mark(WOULD[one.verdict], mark.kind),
            note=verdict_numbers.margin_words(one) or one.reason,
        ),
    )
