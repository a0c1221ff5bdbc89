"""A working sheet as plain text for a terminal. Nothing of a record reaches it as a control sign."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from functools import lru_cache

from pylatexenc.latex2text import LatexNodes2Text, MacroTextSpec, get_default_latex_context_db

from dossier.compose.working.sheet import InputLine, PointTable, Sheet, StepLine, sheet
from dossier.dossier import Dossier
from dossier.figures import Figure


def as_text(figure: Figure, dossier: Dossier) -> str:
    """Write the working sheet of a figure, ending with a line break."""
    lines = "\n".join(_lines(sheet(figure, dossier), dossier))
    return _plain(lines) + "\n"


def _lines(one: Sheet, dossier: Dossier) -> Iterator[str]:
    yield from (
        f"{one.label}  [{one.name}]",
        f"  {one.result}",
        "",
        one.title,
        f"  {formula_text(one.latex)}",
        "",
    )
    width = max(len(formula_text(latex)) for latex, _ in one.meanings)
    yield from (f"  {formula_text(latex):{width}}  {meaning}" for latex, meaning in one.meanings)
    yield from ("", "Inputs, in SI as the formula takes them")
    for line in one.inputs:
        yield from _input(line, dossier)
    if one.steps:
        yield from ("", "On the way", *(_step(step) for step in one.steps))
    for table in one.points:
        yield from _points(table)
    yield from ("", "Result", f"  {formula_text(one.meanings[0][0])} = {one.result_si}")
    yield from _doubt(one)
    yield from ("", *one.sampled) if one.sampled else ()
    yield from (
        "",
        f"Holds for: {one.valid}",
        f"Source: {one.source} ({one.basis})",
        *([f"Note: {one.note}"] if one.note else []),
    )


def _input(line: InputLine, dossier: Dossier) -> Iterator[str]:
    spread = f" {line.spread}{' (k = 2)' if line.spread.startswith('±') else ''}" if line.spread else ""
    yield f"  {formula_text(line.symbol)} = {line.si}{spread}"
    if line.figure:
        origin = f"figure {line.figure}: {dossier.with_sheets[line.figure].label}, {line.value}"
    else:
        origin = f"{line.label}, {line.value}, {line.place or line.source}"
    yield f"      {origin}"


def _step(step: StepLine) -> str:
    made = f"  {formula_text(step.latex)}" if step.latex else ""
    return f"  {step.label}: {step.value}{made and '    ' + made.strip()}"


def _points(table: PointTable) -> Iterator[str]:
    yield from ("", table.caption)
    yield from (
        f"  {formula_text(latex)}: {label}{f', in {unit}' if unit else ''}"
        for label, latex, unit in table.heads
    )
    lines = [tuple(formula_text(latex) for _, latex, _ in table.heads), *table.rows]
    widths = [max(len(line[column]) for line in lines) for column in range(len(table.heads))]
    for line in lines:
        yield "  " + "  ".join(f"{text:>{width}}" for text, width in zip(line, widths, strict=True))
    yield f"  {table.total}"


def _doubt(one: Sheet) -> Iterator[str]:
    if not one.contributions:
        yield from ("", one.without_doubt) if one.without_doubt else ()
        return
    more = f"; {one.others} smaller not listed" if one.others else ""
    yield from ("", f"Largest parts of the standard uncertainty{more}")
    yield from (f"  {amount}  {label}" for label, amount in one.contributions)


_TIDY = (
    (r"\(([^\s()+/-]+)\)/", r"\1/"),
    (r"/\(([^\s()+/-]+)\)", r"/\1"),  # a bracket around one symbol says nothing
    (r"\s*([=≤≥·])\s*", r" \1 "),
    (r"\b(tan)(?=[^\s(])", r"\1 "),
    (r"\s+", " "),
)


def formula_text(latex: str) -> str:
    """Write a formula in one line, with brackets so that nothing binds otherwise than it is meant."""
    spaced = re.sub(r"\\[,;]", "{} ", re.sub(r"([_^])\{([^{}]*)\}", _index, latex))
    text: str = _converter().latex_to_text(spaced)
    for found, instead in _TIDY:
        text = re.sub(found, instead, text)
    return text.strip()


def _index(index: re.Match[str]) -> str:
    """Keep an index of more than one sign together."""
    mark, inner = index.groups()
    return (
        f"{mark}{{{inner}}}" if re.fullmatch(r"\w+", inner) and "_" not in inner else f"{mark}{{[{inner}]}}"
    )


@lru_cache(maxsize=1)
def _converter() -> LatexNodes2Text:
    known = get_default_latex_context_db()
    known.add_context_category(
        "brackets",
        prepend=True,
        macros=[
            MacroTextSpec("frac", simplify_repl="(%s)/(%s)"),
            MacroTextSpec("sqrt", simplify_repl="√%s(%s)"),
        ],
    )
    return LatexNodes2Text(latex_context=known, math_mode="text", strict_latex_spaces=False)


def _plain(text: str) -> str:
    """Take out control signs and those that turn the direction of writing; every space becomes plain."""
    kept = text.replace("\u00a0", " ").replace("\u202f", " ")
    return "".join(sign for sign in kept if sign == "\n" or unicodedata.category(sign) not in ("Cc", "Cf"))
