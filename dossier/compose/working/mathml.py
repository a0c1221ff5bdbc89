"""A formula for a browser: MathML from the LaTeX of its data sheet."""

from __future__ import annotations

import re
from functools import cache

from latex2mathml.converter import convert
from markupsafe import Markup

_WORD = re.compile(r"(?<![A-Za-z\\{])([A-Za-z]{2,})(?![A-Za-z{])")
_INDEX = re.compile(r"_\{([^{}]*)\}")


@cache
def formula(latex: str) -> Markup:
    """Convert a formula that stands on a line of its own."""
    return _convert(latex, "block")


@cache
def symbol(latex: str) -> Markup:
    """Convert a symbol that stands in a table or a sentence."""
    return _convert(latex, "inline")


def _convert(latex: str, display: str) -> Markup:
    # Markup: the formula comes from this project's own docstrings, never from a record
    return Markup(convert(upright(latex), display=display))


def upright(latex: str) -> str:
    """Set words in an index upright: they are no variables, and are read as words (ISO 80000-2, memory)."""
    return _INDEX.sub(lambda index: "_{" + _WORD.sub(r"\\text{\1}", index[1]) + "}", latex)


def numbered(latex: str, number: int) -> str:
    """Give a symbol the number of its item in place of its running index ``i`` or ``j``."""
    single = re.sub(r"_([ij])(?![A-Za-z])", rf"_{{{number}}}", latex)
    return re.sub(r"_\{([^{}]*?)\b[ij]\}", rf"_{{\g<1>{number}}}", single)
