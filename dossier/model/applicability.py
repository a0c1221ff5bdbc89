"""To which serials a step or a part applies: what is fitted, what is not, and which battery is in the bay.

*Applicability* is the word of technical publications for it.
"""

from __future__ import annotations

from collections.abc import Collection

from dossier.model.base import Part
from dossier.model.scalars import Name


class Applicability(Part):
    """Something that some serials have and others have not. Left out, every serial has it."""

    option: Name | None = None
    """An optional item of the type's list: only for serials that have it fitted."""
    without: Name | None = None
    """An optional item of the type's list: only for serials that do not have it fitted."""
    for_battery: list[Name] = []
    """Options of battery.yaml: only while one of them is fitted."""

    def applies(self, left_out: Collection[str], battery: str | None) -> bool:
        """Say whether it is there on a serial.

        Args:
            left_out: optional items that the serial does not have.
            battery: the option of battery.yaml that is fitted; None applies to every battery.
        """
        if self.option is not None and str(self.option) in left_out:
            return False
        if self.without is not None and str(self.without) not in left_out:
            return False
        return not self.for_battery or battery is None or battery in map(str, self.for_battery)
