"""Which figures are sampled besides first order, and with which others they share their draws."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from dossier.figures import Figure
from dossier.sampling import Sampled, sample


class Made(Protocol):
    """A result that holds figures."""

    @property
    def figures(self) -> tuple[Figure, ...]:
        """In the order of their making."""


def sample_headlines(*groups: tuple[Made | None, ...]) -> Mapping[str, Sampled]:
    """Sample every figure of some results that carries an uncertainty.

    Each group has draws of its own: the fewer errors share a sequence, the more evenly it fills their space.

    The figures of a pack that no flight rests on, the pilot masses of the loading (130 ms a figure) and the
    discharge model (1 to 2 s a figure) are left out: sums and products of well-known values, a search, and an
    integral whose parts, power and charge, are sampled here.
    """
    found: dict[str, Sampled] = {}
    for group in groups:
        found |= sample(figure for made in group if made for figure in made.figures)
    return found
