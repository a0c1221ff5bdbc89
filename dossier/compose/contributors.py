"""What the ± of a headline figure mostly comes from, and what the figure takes as exact: one line each."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.figures import Figure, Input
from dossier.findings import Place

SHOWN = 3
CHOSEN = frozenset(
    {"N", "N_p", "N_s", "U_1", "U_2", "h", "l_gap", "l_bay", "m_max", "r", "t", "t_taper", "x_lim", "z_i"}
)
"""Parameters that a builder lays down and nobody measures: counts, marks, the reserve, the profile,
limits."""
ONE_NAME = {"U_i": "rest voltages of the cell", "R_i": "resistances of the cell", "m_tare": "tares"}
"""Parameter of which there are many -> its name as a whole."""
OF_A_PHASE = "power, "
"""How the names of the powers of the profile begin."""


LONGEST = 34
"""Signs of a name; a longer one is cut at its first comma, and stands whole on the working sheet."""
FIRST = ("ratio", "area", "power", "energy", "voltage", "charge", "speed")
"""Kinds of what is taken as exact, in the order in which it is named."""


def mostly_from(figure: Figure) -> str:
    """Name up to three contributors, the largest first; empty where the figure has no ±."""
    causes = [_short(part.label) for part in figure.contributions()]
    if not causes:
        return ""
    if len(causes) == 1:
        return f"± of one cause alone, the {causes[0]}"
    return f"± mostly from {'; '.join(causes[:SHOWN])}"


def taken_as_exact(figure: Figure) -> str:
    """Name the values of the record that went in without a ±; empty where every one has its own.

    What is laid down and not measured is left out, see :data:`CHOSEN`, and so are limits, a nought, and
    what a source gives.
    """
    found = sorted(_exact(figure, set()), key=lambda one: _rank(one[1]))
    names = list(dict.fromkeys(_short(name) for name, _ in found))
    if not names:
        return ""
    more = f" and {len(names) - SHOWN} more" if len(names) > SHOWN else ""
    return f"Taken as exact: {'; '.join(names[:SHOWN])}{more}"


def _short(label: str) -> str:
    return label if len(label) <= LONGEST else f"{label.partition(', ')[0]} …"


def _rank(one: Input) -> int:
    return FIRST.index(one.kind) if one.kind in FIRST else len(FIRST)


def _exact(figure: Figure, seen: set[str]) -> Iterator[tuple[str, Input]]:
    seen.add(figure.name)
    for parameter, one in figure.working.inputs.items():
        for item in (one,) if isinstance(one, Input) else one:
            if item.figure is None:
                if _is_exact(parameter, item):
                    yield _whole_name(parameter, item.label), item
            elif item.figure.name not in seen:
                yield from _exact(item.figure, seen)


def _whole_name(parameter: str, label: str) -> str:
    return "powers of the phases" if label.startswith(OF_A_PHASE) else ONE_NAME.get(parameter, label)


def _is_exact(parameter: str, one: Input) -> bool:
    if parameter in CHOSEN or one.standard_uncertainty > 0 or one.value == 0:
        return False
    is_limit = isinstance(one.origin, Place) and one.origin.path.startswith("limits.")
    return parameter in ("U_i", "R_i") or (isinstance(one.origin, Place) and not is_limit)
