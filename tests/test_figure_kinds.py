"""In every figure of two invented demo serials each input measures what the glossary says of its symbol."""

from __future__ import annotations

from pathlib import Path

import pytest

from dossier import pipeline
from dossier.figures import Figure, Input
from dossier.glossary import SYMBOLS

PROJECTS = Path(__file__).parent.parent / "projects"
ANY_KIND = {"y", "y_i"}
"""A value as stated keeps its own kind, and so does what published models give."""


def mismatches(figure: Figure) -> list[tuple[str, str, str]]:
    working = figure.working
    pairs = [(working.formula.result, figure.kind)]
    for parameter, one in working.inputs.items():
        pairs += [(parameter, item.kind) for item in ([one] if isinstance(one, Input) else one)]
    return [
        (figure.name, symbol, kind)
        for symbol, kind in pairs
        if symbol not in ANY_KIND and SYMBOLS[symbol].kind != kind
    ]


@pytest.mark.parametrize(("project", "serial"), [("barrow-t2", "T2-007"), ("quillet-e1", "0007")])
def test_no_mass_is_taken_for_a_length(project: str, serial: str) -> None:
    figures = list(pipeline.run(PROJECTS / project, serial).figures.values())
    assert len(figures) > 50
    assert [wrong for figure in figures for wrong in mismatches(figure)] == []
