"""How far the energy that is left for level flight goes."""

from __future__ import annotations

from dossier.compute.bounds import efficiency, positive
from dossier.figures import formula


@formula
def still_air_range(P: float, t: float, eta: float, *, l_d: float, m: float, g: float) -> float:
    r"""Distance in level flight at the best glide ratio, from the energy that level flight may use.

    Formula: d = \frac{P \, t \, \eta \, \epsilon}{m \, g}
    Result: d
    Valid: still air; speed of the best glide; one efficiency; no climb or descent counted
    Source: derived, work of the drag m g / epsilon over the distance, against the energy at the propeller
    """
    energy = positive(P, "power", "W") * positive(t, "time", "s") * efficiency(eta)
    return energy * positive(l_d, "glide ratio") / (positive(m, "mass", "kg") * g)
