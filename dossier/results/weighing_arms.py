"""The arms of a weighing with their errors: each its own, and those of the instruments that they share."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import copysign, sqrt

from uncertainties import UFloat

from dossier.figures import Input, error_source, given
from dossier.model.events import Weighing
from dossier.model.instruments import ALIKE, ArmInstrument, Support


def instrument_errors(event: Weighing) -> Mapping[str, UFloat]:
    """One random error for each certificate, in units of the standard uncertainty.

    Instruments that share a certificate share it, as scales do.
    """
    errors = {}
    for certificate in sorted({str(one.certificate) for one in event.instruments.values()}):
        names = [str(one.name) for one in event.instruments.values() if one.certificate == certificate]
        label = f"calibration of {', '.join(names)} ({certificate})"
        errors[certificate] = error_source(label, 1.0, bounded=True)
    return errors


def measured_arm(
    support: Support, instruments: Mapping[str, ArmInstrument], errors: Mapping[str, UFloat]
) -> Input:
    """Take the arm of a support with its own error and those of the instruments that it was measured with.

    The largest permissible error is a bound: rectangular, u = a/√3 (JCGM 100:2008, 4.3.7). One that acts
    outward has the sign of the arm, for it makes the length from the datum too long on either side.
    """
    arm = given(support.arm, f"arm, {support.name}")
    estimate = arm.estimate
    for name in support.arm_measured_with:
        one = instruments[str(name)]
        outward = copysign(1.0, arm.value) if arm.value else 0.0
        sign = 1.0 if one.acts == ALIKE else outward
        bound = one.maximum_permissible_error.value
        estimate = estimate + errors[str(one.certificate)] * (sign * bound / sqrt(3))
    return replace(arm, estimate=estimate)
