"""Which drawing a piece was made to, or which bought part it is."""

from __future__ import annotations

from dossier.model.base import Part
from dossier.model.scalars import Text


class Numbered(Part):
    """Something that has a drawing or part number."""

    part_number: Text | None = None
    """Its drawing or part number, such as ``QE1-20-100``."""
    issue: Text | None = None
    """The issue of that drawing, or the modification state of a bought part."""
