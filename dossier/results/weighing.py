"""The aircraft on scales: net masses, empty mass and centre of gravity, with the errors that scales share."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import sqrt
from statistics import fmean, stdev

from uncertainties import UFloat

from dossier.compute import weights
from dossier.figures import Figure, Input, error_source, evaluate, given, taken
from dossier.findings import Finding
from dossier.model.events import Correction, Weighing
from dossier.model.instruments import Scale, Support
from dossier.results.intermediate import balance
from dossier.results.weighing_arms import instrument_errors, measured_arm
from dossier.results.weighing_checks import weighing_findings


@dataclass(frozen=True)
class SupportRow:
    """One line of the weighing record. Masses in kg, arm in m."""

    name: str
    scale: str
    readings: tuple[str, ...]
    """As written."""
    gross: float
    tare: float
    net: Figure
    moment: Figure
    arm: Input
    lateral_arm: Input | None


@dataclass(frozen=True)
class CorrectionRow:
    """Something aboard that is no part of the empty aircraft (negative), or a part that was missing."""

    name: str
    mass: Input
    arm: Input


@dataclass(frozen=True)
class WeighingResult:
    """What a weighing gives."""

    event: Weighing
    rows: tuple[SupportRow, ...]
    corrections: tuple[CorrectionRow, ...]
    mass: Figure
    moment: Figure
    """The sum of all moments, in the attitude in which the aircraft stood."""
    balance: tuple[Figure, ...]
    """The steps to the centre of gravity, which is the last."""
    lateral_cg: Figure | None
    findings: tuple[Finding, ...]

    @property
    def cg(self) -> Figure:
        """The centre of gravity."""
        return self.balance[-1]

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        lateral = (self.lateral_cg,) if self.lateral_cg else ()
        rows = (figure for row in self.rows for figure in (row.net, row.moment))
        return (*rows, self.mass, self.moment, *self.balance, *lateral)


def slug(name: str) -> str:
    """Make a part of a figure's name from a name for readers."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")


def slugs(names: Iterable[str]) -> tuple[str, ...]:
    """Make parts of figures' names, each its own: one that is empty or taken gets its number in the
    list behind it."""
    made: list[str] = []
    for number, name in enumerate(names, 1):
        part = slug(name)
        made.append(f"{part}-{number}".removeprefix("-") if not part or part in made else part)
    return tuple(made)


def weigh(event: Weighing) -> WeighingResult:
    """Compute mass and centre of gravity of the aircraft as it stood on the scales, corrected to
    the empty condition.

    Raises:
        OutsideRange: the readings cannot be those of an aircraft on its supports.
    """
    certificates = _calibration_errors(event)
    names = slugs(str(support.name) for support in event.supports)
    instruments = instrument_errors(event)
    arms_of_supports = [measured_arm(support, event.instruments, instruments) for support in event.supports]
    rows = tuple(
        _row(support, name, event.scales[str(support.scale)], certificates, arm)
        for support, name, arm in zip(event.supports, names, arms_of_supports, strict=True)
    )
    corrections = tuple(_correction(item, -1) for item in event.remove) + tuple(
        _correction(item, 1) for item in event.add
    )
    masses = [taken(row.net) for row in rows] + [row.mass for row in corrections]
    arms = [row.arm for row in rows] + [row.arm for row in corrections]
    mass = evaluate(
        weights.total_mass, "weighed_mass", "Mass as weighed, in the empty condition", "mass", {"m_i": masses}
    )
    moment = evaluate(
        weights.total_moment,
        "weighed_moment",
        "Moment as weighed, in the empty condition",
        "mass_moment",
        {"m_i": masses, "x_i": arms},
    )
    return WeighingResult(
        event,
        rows,
        corrections,
        mass,
        moment,
        _levelled(event, masses, arms),
        _lateral(rows),
        weighing_findings(event),
    )


def _calibration_errors(event: Weighing) -> Mapping[str, UFloat]:
    """One random error for each certificate, in units of the standard uncertainty: scales that share a
    certificate share it."""
    errors = {}
    for certificate in sorted({str(scale.certificate) for scale in event.scales.values()}):
        scales = [str(scale.name) for scale in event.scales.values() if scale.certificate == certificate]
        errors[certificate] = error_source(
            f"calibration of {', '.join(scales)} ({certificate})", 1.0, bounded=True
        )
    return errors


def _row(
    support: Support, name: str, scale: Scale, certificates: Mapping[str, UFloat], arm: Input
) -> SupportRow:
    gross = _reading(support, scale, certificates)
    tare = given(support.tare, f"tare, {support.name}") if support.tare else None
    no_tare = Input(f"tare, {support.name}: none", "mass", 0.0, support.place or "not in a file")
    net = evaluate(
        weights.net_mass,
        f"net_mass.{name}",
        f"Net mass, {support.name}",
        "mass",
        {"m_scale": gross, "m_tare": tare or no_tare},
    )
    moment = evaluate(
        weights.moment,
        f"moment.{name}",
        f"Moment, {support.name}",
        "mass_moment",
        {"m": taken(net), "x": arm},
    )
    return SupportRow(
        str(support.name),
        str(scale.name),
        tuple(reading.text for reading in support.readings),
        gross.value,
        tare.value if tare else 0.0,
        net,
        moment,
        arm,
        given(support.lateral_arm, f"lateral arm, {support.name}") if support.lateral_arm else None,
    )


def _reading(support: Support, scale: Scale, certificates: Mapping[str, UFloat]) -> Input:
    """Mean of the readings with its errors: calibration (shared), resolution, repeatability.

    The largest permissible error and the last digit are bounds: rectangular, u = a/√3 (JCGM 100:2008, 4.3.7).
    """
    values = [reading.value for reading in support.readings]
    shared = scale.maximum_permissible_error.value / sqrt(3)
    last_digit = scale.resolution.value / 2 / sqrt(3)
    estimate = fmean(values) + certificates[str(scale.certificate)] * shared
    if last_digit:
        estimate = estimate + error_source(
            f"last digit of {scale.name}, {support.name}", last_digit, bounded=True
        )
    if len(values) > 1 and stdev(values) > 0:
        estimate = estimate + error_source(
            f"repeatability, {support.name}", stdev(values) / sqrt(len(values))
        )
    label = f"reading, {support.name}" + (f" (mean of {len(values)})" if len(values) > 1 else "")
    text = ", ".join(reading.text for reading in support.readings)
    return Input(label, "mass", estimate, support.readings[0].place or "not in a file", text)


def _correction(item: Correction, sign: int) -> CorrectionRow:
    mass = given(item.mass, str(item.name))
    word = "removed" if sign < 0 else "added"
    return CorrectionRow(
        str(item.name),
        Input(f"{item.name} ({word})", "mass", mass.estimate * sign, mass.origin, mass.text),
        given(item.arm, f"arm, {item.name}"),
    )


def _levelled(event: Weighing, masses: list[Input], arms: list[Input]) -> tuple[Figure, ...]:
    """Return the centre of gravity, last, and what it took to free it of the levelling error where the
    record states one."""
    name, label = "weighed_cg", "Centre of gravity as weighed"
    sums = {"m_i": masses, "x_i": arms}
    if event.pitch_error is None or event.height_of_cg is None:
        return (
            evaluate(
                weights.centre_of_gravity,
                name,
                label,
                "length",
                sums,
                style="arm",
                steps=balance(masses, arms),
            ),
        )
    raw = evaluate(
        weights.centre_of_gravity,
        f"{name}.as_stood",
        f"{label}, in the attitude it stood in",
        "length",
        sums,
        style="arm",
        steps=balance(masses, arms),
    )
    shift = evaluate(
        weights.levelling_error,
        "levelling_error",
        "Error of the arm from levelling",
        "length",
        {
            "h_CG": given(event.height_of_cg, "height of the centre of gravity"),
            "alpha": given(event.pitch_error, "pitch while weighed"),
        },
        style="arm",
    )
    level = evaluate(
        weights.levelled_arm, name, label, "length", {"x": taken(raw), "dx_level": taken(shift)}, style="arm"
    )
    return (raw, shift, level)


def _lateral(rows: tuple[SupportRow, ...]) -> Figure | None:
    if any(row.lateral_arm is None for row in rows):
        return None
    return evaluate(
        weights.centre_of_gravity,
        "weighed_lateral_cg",
        "Centre of gravity to the right of the centre line, as weighed",
        "length",
        {
            "m_i": [taken(row.net) for row in rows],
            "x_i": [row.lateral_arm for row in rows if row.lateral_arm],
        },
        style="arm",
    )
