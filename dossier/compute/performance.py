"""Speeds and loadings of the whole aircraft."""

from __future__ import annotations

from math import sqrt

from dossier.compute.bounds import positive
from dossier.figures import elementwise, formula


@formula
def speed_at_mass(v_ref: float, m: float, m_ref: float) -> float:
    r"""Calibrated stalling speed at another mass, at the same lift coefficient.

    Formula: v = v_{ref} \sqrt{\frac{m}{m_{ref}}}
    Result: v
    Valid: positive masses; same lift coefficient, calibrated airspeed; no change of compressibility or of
        scale effect
    Source: derived, from lift in proportion to the square of speed
    """
    return v_ref * sqrt(positive(m, "mass", "kg") / positive(m_ref, "reference mass", "kg"))


@formula
def wing_loading(m: float, S: float) -> float:
    r"""Mass carried by each square metre of wing.

    Formula: \sigma = \frac{m}{S}
    Result: sigma
    Valid: a positive area
    Source: definition
    """
    return m / positive(S, "wing area", "m²")


@elementwise
def as_stated(y: float) -> float:
    r"""A value taken as the record states it, without any change.

    Formula: y = y_{stated}
    Result: y
    Valid: always
    Source: definition
    """
    return y
