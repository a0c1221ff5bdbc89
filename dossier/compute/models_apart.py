"""What several published models say of one thing: the least and the most of them, and no middle."""

from __future__ import annotations

from collections.abc import Sequence

from dossier.compute.bounds import positive
from dossier.figures import OutsideRange, formula


@formula
def least_of_models(y_i: Sequence[float]) -> float:
    r"""The least that published models give.

    Formula: y = \min_i y_i
    Result: y
    Valid: one answer at the least, all positive; nothing is said of which model is right
    Source: definition
    """
    return min(_answers(y_i))


@formula
def most_of_models(y_i: Sequence[float]) -> float:
    r"""The most that published models give.

    Formula: y = \max_i y_i
    Result: y
    Valid: one answer at the least, all positive; nothing is said of which model is right
    Source: definition
    """
    return max(_answers(y_i))


def _answers(y_i: Sequence[float]) -> list[float]:
    if not y_i:
        raise OutsideRange("no model has an answer")
    return [positive(one, "answer of a model") for one in y_i]
