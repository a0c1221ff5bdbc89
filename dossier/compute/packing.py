"""The size of what is packed on a trailer: how far each thing reaches, and what adds up to a measure.

Places count to the right of the centre line, behind the front of the trailer's body, and above the road.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum

from dossier.figures import formula


@formula
def reach_to_right(y_p: float, w_p: float) -> float:
    r"""How far a part reaches to the right of the centre line.

    Formula: b_p = y_p + \frac{w_p}{2}
    Result: b_p
    Valid: always
    Source: derived
    """
    return y_p + w_p / 2


@formula
def reach_to_left(y_p: float, w_p: float) -> float:
    r"""How far a part reaches to the left of the centre line.

    Formula: b_p = \frac{w_p}{2} - y_p
    Result: b_p
    Valid: always
    Source: derived
    """
    return w_p / 2 - y_p


@formula
def far_end(s_p: float, l_p: float) -> float:
    r"""Far end of a part: its rear end behind the front of the body, or its top above the road.

    Formula: s_e = s_p + l_p
    Result: s_e
    Valid: always
    Source: derived
    """
    return s_p + l_p


@formula
def overhang(s_p: float) -> float:
    r"""How far a part reaches ahead of the front of the body.

    Formula: s_o = -s_p
    Result: s_o
    Valid: always; below zero for a part that begins behind the front
    Source: derived
    """
    return -s_p


@formula
def packed_size(l_i: Sequence[float]) -> float:
    r"""Measure of a packed trailer: what lies side by side, or end to end, added up.

    Formula: l_s = \sum_i l_i
    Result: l_s
    Valid: always
    Source: derived
    """
    return fsum(l_i)


@formula
def room_to_limit(l_max: float, l_s: float) -> float:
    r"""What is left between a size and its limit.

    Formula: \Delta l_s = l_{max} - l_s
    Result: dl_s
    Valid: always; below zero when the size is beyond the limit
    Source: derived
    """
    return l_max - l_s
