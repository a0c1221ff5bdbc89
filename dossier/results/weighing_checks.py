"""How far a weighing can be trusted: readings that were not repeated, zeros that moved, calibrations
out of date."""

from __future__ import annotations

from collections.abc import Iterator

from dossier.findings import Finding, Severity
from dossier.model.events import Weighing
from dossier.model.instruments import ArmInstrument, Scale


def weighing_findings(event: Weighing) -> tuple[Finding, ...]:
    """Tell what a weighing leaves in doubt: its readings, its scales and tapes, and what it says by half."""
    return (*_half_said(event), *_read_once(event), *_scales(event), *_calibrated_later(event))


def _read_once(event: Weighing) -> Iterator[Finding]:
    for support in event.supports:
        if len(support.readings) < 2:
            yield Finding(
                "W001",
                f"the support {str(support.name)!r} was read once, so nothing shows how well a reading "
                "repeats",
                "take the aircraft off and on again and add the second reading",
                support.place_of_key("readings"),
                Severity.WARNING,
            )


def _scales(event: Weighing) -> Iterator[Finding]:
    for scale in event.scales.values():
        if _zero_moved(scale):
            yield Finding(
                "W002",
                f"the zero of {scale.name} moved by more than its last digit while weighing",
                "weigh again with a settled scale",
                scale.place_of_key("zero_after"),
                Severity.WARNING,
            )
        if (event.date - scale.calibrated).days > 2 * 365.25:
            yield Finding(
                "W003",
                f"{scale.name} was calibrated on {scale.calibrated}, more than two years before this "
                "weighing",
                "have it calibrated (AMC1 SPO.POL.105(b) asks for two years)",
                scale.place_of_key("calibrated"),
                Severity.WARNING,
            )


def _calibrated_later(event: Weighing) -> Iterator[Finding]:
    calibrated: tuple[Scale | ArmInstrument, ...] = (*event.scales.values(), *event.instruments.values())
    for one in calibrated:
        if one.calibrated > event.date:
            yield Finding(
                "W004",
                f"{one.name} was calibrated on {one.calibrated}, after this weighing",
                "correct the date",
                one.place_of_key("calibrated"),
                Severity.WARNING,
            )


def _zero_moved(scale: Scale) -> bool:
    if scale.zero_before is None or scale.zero_after is None:
        return False
    if scale.resolution.value <= 0:
        return scale.zero_after.value != scale.zero_before.value
    digits = (scale.zero_after.as_written - scale.zero_before.as_written) / scale.resolution.as_written
    same_unit = scale.zero_after.unit == scale.zero_before.unit == scale.resolution.unit
    moved = (
        digits if same_unit else (scale.zero_after.value - scale.zero_before.value) / scale.resolution.value
    )
    # readings are whole digits of the scale: rounding only takes off the noise of floats
    return round(abs(moved), 6) > 1


def _half_said(event: Weighing) -> Iterator[Finding]:
    """What the record begins to say and does not finish: nothing is computed from it, and that is told."""
    if (event.pitch_error is None) != (event.height_of_cg is None):
        there, missing = (
            ("pitch_error", "height_of_cg") if event.height_of_cg is None else ("height_of_cg", "pitch_error")
        )
        yield Finding(
            "W006",
            f"{there} stands without {missing}, so the centre of gravity is not freed of the error of "
            "levelling",
            f"add {missing}, or take {there} out",
            event.place_of_key(there),
            Severity.WARNING,
        )
    without = [support for support in event.supports if support.lateral_arm is None]
    if len(without) < len(event.supports):
        for support in without:
            yield Finding(
                "W007",
                f"the support {str(support.name)!r} has no lateral arm and others have one, so there is no "
                "lateral centre of gravity",
                'add for example  lateral_arm: "0 m"',
                support.place,
                Severity.WARNING,
            )
