"""Plots as pieces of a page: vector drawings in the colours of the page, with words that tell the result."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import StringIO
from typing import Any
from warnings import catch_warnings, filterwarnings

import matplotlib as mpl
from markupsafe import Markup, escape
from matplotlib.axes import Axes
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure as Drawing

from dossier.compose.grid import Grid

INK, PAPER, ACCENT, GRID, GOOD, BAD, MUTED = (
    "#000001",
    "#000002",
    "#000003",
    "#000004",
    "#000005",
    "#000006",
    "#000007",
)
LINES = ("#000011", "#000012", "#000013", "#000014")
_VARIABLES = {
    INK: "--ink",
    PAPER: "--paper",
    ACCENT: "--accent",
    GRID: "--grid",
    GOOD: "--good",
    BAD: "--bad",
    MUTED: "--muted",
    **{colour: f"--line-{number}" for number, colour in enumerate(LINES, 1)},
}
"""Stand-ins that no drawing uses by chance; each becomes a colour of the page, light, dark or in print."""
DASHES = ("solid", (0, (6, 3)), (0, (2, 2)), (0, (8, 2, 2, 2)))
MARKS = ("o", "s", "^", "D")
"""Lines are told apart by dash and mark as well: print is grey, and not everybody sees every colour."""

_SETTINGS: Any = {
    "svg.fonttype": "none",
    "font.size": 14,
    "axes.edgecolor": INK,
    "axes.labelcolor": INK,
    "text.color": INK,
    "xtick.color": INK,
    "ytick.color": INK,
    "axes.facecolor": "none",
    "figure.facecolor": "none",
    "grid.color": GRID,
    "legend.frameon": False,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.axisbelow": True,
    "hatch.linewidth": 1.2,
    "hatch.color": PAPER,
}


_LONGEST_LABEL = 30
"""Signs in a label: a longer one leaves no room to draw in, and the table below has it in full."""
_DRESS = "min-width: 0; max-width: 44rem; margin: 0 auto; stroke-linejoin: round; stroke-linecap: butt"


@dataclass(frozen=True)
class Plot:
    """A drawing with its words and its values."""

    title: str
    caption: str
    svg: Markup
    values: Grid


@contextmanager
def axes(name: str, height: float) -> Iterator[tuple[Drawing, Axes]]:
    """Open a drawing 7 inches wide, in which text stays legible when a phone shows it at half its size.

    Args:
        name: its name among all drawings; the same name gives the same bytes.
        height: in inches.
    """
    with mpl.rc_context(_SETTINGS | {"svg.hashsalt": name}), catch_warnings():
        # the reader's browser draws the letters: no matter that the library lacks a shape
        filterwarnings("ignore", r"Glyph \d+ .* missing from font")
        drawing = Drawing(figsize=(7.0, height), layout="constrained")
        FigureCanvasSVG(drawing)
        yield drawing, drawing.subplots()


def label(text: str) -> str:
    """Make a name of the record a label: in one line, free of the signs that the library would read."""
    one_line = " ".join(text.split())
    short = one_line if len(one_line) <= _LONGEST_LABEL else f"{one_line[: _LONGEST_LABEL - 1]}…"
    masked = short.replace("$", r"\$")
    return f" {masked}" if masked.startswith("_") else masked


def as_svg(drawing: Drawing, name: str, title: str, description: str) -> Markup:
    """Write a drawing as a piece of HTML.

    Args:
        drawing: as :func:`axes` gave it, still open.
        name: put before every id, so that two drawings on a page do not meet.
        title: what it shows.
        description: what a reader would see in it, in words.
    """
    out = StringIO()
    drawing.savefig(
        out,
        format="svg",
        metadata={"Date": None, "Creator": None, "Format": None, "Type": None},
        transparent=True,
    )
    body = re.search(r"<svg[^>]*?viewBox=\"([^\"]+)\"[^>]*>(.*)</svg>", out.getvalue(), re.DOTALL)
    assert body is not None, "the drawing is no SVG"
    inner = re.sub(
        r"<style.*?</style>|<metadata>.*?</metadata>|<defs>\s*</defs>", "", body[2], flags=re.DOTALL
    )
    for colour, variable in _VARIABLES.items():
        inner = inner.replace(colour, f"var({variable})")
    inner = re.sub(r"""font: ([\d.]+px) [^;"]+""", r"font: \1 var(--text)", inner)
    inner = re.sub(r"font-family: [^;\"]+", "font-family: var(--text)", inner)
    inner = re.sub(r'(\bid="|url\(#|href="#)', rf"\g<1>{name}-", inner)
    # Markup: the library escaped its own texts; title and description are escaped here
    return Markup(
        f'<svg viewBox="{body[1]}" role="img" aria-labelledby="{name}-title {name}-description" '
        f'style="{_DRESS}">'
        f'<title id="{name}-title">{escape(title)}</title>'
        f'<desc id="{name}-description">{escape(description)}</desc>{_one_line(inner)}</svg>'
    )


def _one_line(svg: str) -> str:
    return re.sub(r"\s*\n\s*", " ", svg).strip()
