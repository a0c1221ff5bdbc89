"""From the pack to one of its cells and back, also with a box that is only partly filled."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.compute.bounds import positive
from dossier.figures import OutsideRange, formula


@formula
def strings_fitted(N_p: float, p_f: float) -> float:
    r"""Strings in a box of which a part is filled.

    Formula: N_f = p_f \, N_p
    Result: N_f
    Valid: a part above 0 and up to 1 that makes whole strings
    Source: definition
    """
    if not 0 < p_f <= 1:
        raise OutsideRange(
            f"the part of the strings that is fitted is {p_f:.6g}, and must be above 0 and at most 1"
        )
    strings = p_f * N_p
    if abs(strings - round(strings)) > 1e-9 * N_p:
        raise OutsideRange(
            f"{p_f:.6g} of {N_p:.6g} strings are {strings:.6g}, and only whole strings can be fitted"
        )
    return float(round(strings))


@formula
def cell_power(P: float, N_s: float, N_p: float) -> float:
    r"""Power of one cell from that of the pack.

    Formula: P_{cell} = \frac{P}{N_s \, N_p}
    Result: P_cell
    Valid: equal cells that share the current equally, at least one; strings that are fitted
    Source: ohm
    """
    return P / (positive(N_s, "number of cells in series") * positive(N_p, "number of strings"))


@formula
def wiring_at_cell(R_w: float, N_s: float, N_p: float) -> float:
    r"""Wiring of the pack as a resistance in series with each cell.

    Formula: R_x = \frac{N_p}{N_s} \, R_w
    Result: R_x
    Valid: equal cells that share the current equally, at least one; strings that are fitted
    Source: ohm
    """
    return R_w * positive(N_p, "number of strings") / positive(N_s, "number of cells in series")


@dataclass(frozen=True)
class PackShape:
    """How the cells of a pack are joined; strings are those that are fitted."""

    series: int
    strings: int
    wiring: float = 0.0
    """In Ω in series with the pack: leads, contactors, plugs."""

    @property
    def cells(self) -> int:
        """Cells fitted."""
        return self.series * self.strings

    @property
    def wiring_at_cell(self) -> float:
        """The wiring in Ω in series with each cell."""
        return wiring_at_cell(self.wiring, self.series, self.strings)
