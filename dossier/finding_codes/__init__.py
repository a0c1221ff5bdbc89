"""Every code that a finding may have: one letter for each room, listed once."""

from __future__ import annotations

from dossier.finding_codes.figures import FIGURES
from dossier.finding_codes.lists import LISTS
from dossier.finding_codes.record import RECORD

CODES: dict[str, str] = {**RECORD, **FIGURES, **LISTS}
"""Code -> what it is about."""
