"""Flight tests brought to standard conditions: timed descents, stalls, level runs.

At the same lift coefficient speeds and sinks go with the root of mass over density and powers follow. The
formulas are exact for that; that the lift coefficient at the stall and the efficiency of the drive stay is
an assumption.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt
from statistics import stdev

import numpy as np

from dossier.compute.atmosphere import (
    SEA_LEVEL_DENSITY,
    air_density,
    standard_pressure,
    standard_temperature,
)
from dossier.compute.bounds import positive
from dossier.compute.glide import Polar, drag
from dossier.compute.level import top_speed
from dossier.figures import Input, OutsideRange, error_source, formula, propagate


@formula
def timed_sink(dh_p: float, t: float, T: float, h_p: float) -> float:
    r"""True sink rate from the time for a drop of pressure altitude.

    Formula: w = \frac{\Delta h_p}{t} \, \frac{T}{288.15\,\mathrm{K} - 0.0065\,\mathrm{K/m} \cdot h_p}
    Result: w
    Valid: steady speed; temperature and pressure altitude at the middle of the drop
    Source: derived, pressure falls with height as the density of the air is
    """
    warmer = positive(T, "temperature", "K") / standard_temperature(h_p)
    return positive(dh_p, "drop", "m") / positive(t, "time", "s") * warmer


@formula
def sink_at_standard(w_t: float, m_t: float, m: float, rho: float) -> float:
    r"""Sink rate at another mass and at sea level in the standard atmosphere, at the same lift coefficient.

    Formula: w = w_t \sqrt{\frac{m \, \rho}{m_t \cdot 1.225\,\mathrm{kg/m^3}}}
    Result: w
    Valid: positive masses and density
    Source: derived, from lift and drag in proportion to density and the square of speed
    """
    return w_t * _root(m_t, m, rho)


@formula
def speed_at_standard(v_TAS: float, m_t: float, m: float, rho: float) -> float:
    r"""Speed at another mass, calibrated, at the same lift coefficient.

    Formula: v = v_{TAS} \sqrt{\frac{m \, \rho}{m_t \cdot 1.225\,\mathrm{kg/m^3}}}
    Result: v
    Valid: positive masses and density; below 60 m/s, where compressibility does not count
    Source: derived, from lift in proportion to density and the square of speed
    """
    return v_TAS * _root(m_t, m, rho)


@formula
def power_at_standard(P_t: float, m_t: float, m: float, rho: float) -> float:
    r"""Power of level flight at another mass and at sea level in standard air: same lift coefficient.

    Formula: P = P_t \left(\frac{m}{m_t}\right)^{3/2} \sqrt{\frac{\rho}{1.225\,\mathrm{kg/m^3}}}
    Result: P
    Valid: positive masses and density; efficiency of the drive unchanged
    Source: derived, from drag in proportion to weight and speed
    """
    return P_t * _root(m_t, m, rho) * m / m_t


@formula
def standard_top_speed(v: float, P_t: float, P: float, m: float, *, S: float, C_D0: float, K: float) -> float:
    r"""Top speed at full power, from a level run whose power at standard conditions was another.

    Formula: v_H = \max\left\{x : A x^3 + \frac{B}{x} = \frac{P}{P_t}\left(A v^3 + \frac{B}{v}\right)\right\}
    Result: v_H
    Valid: run and power already at standard conditions and the same mass; efficiency of the drive the same
    at both
    Source: derived, power of thrust in proportion to electric power
    """
    polar = Polar(C_D0, K, S, lift_maximum=1e6)  # the stall is not asked for: the run was flown above it
    at = drag(polar, m, SEA_LEVEL_DENSITY)
    least = float(at.least_power_speed)
    if v < least:
        raise OutsideRange(f"the run at {v:.4g} m/s is slower than {least:.4g} m/s, the speed of least power")
    thrust_power = float(at.force(np.asarray(v)) * v)
    more = positive(P, "power", "W") / positive(P_t, "power of the run", "W")
    answer = top_speed(polar, thrust_power * more, m, SEA_LEVEL_DENSITY)
    if not answer.answered:
        raise OutsideRange(f"{P:.6g} W do not keep level flight, if {P_t:.6g} W gave {v:.4g} m/s")
    return float(answer.computed["speed"])


@formula
def sink_of_descent(h_1: float, h_2: float, t: float, T: float, *, m_t: float, m: float, dw: float) -> float:
    r"""Sink rate of a timed descent at another mass and at sea level in the standard atmosphere.

    Formula: w = \left(\frac{h_1 - h_2}{t} \, \frac{T}{T_0(h_p)} + \delta w\right)
        \sqrt{\frac{m \, \rho(h_p, T)}{m_t \cdot 1.225\,\mathrm{kg/m^3}}}, \quad h_p = \frac{h_1 + h_2}{2}
    Result: w
    Valid: steady speed; heights of pressure; temperature at the middle of the drop
    Source: derived, timed_sink and sink_at_standard
    """
    middle = (h_1 + h_2) / 2
    sink = timed_sink(h_1 - h_2, t, T, middle) + dw
    return sink_at_standard(sink, m_t, m, air_density(standard_pressure(middle), T))


@formula
def full_power_speed(
    v_CAS: float, P_t: float, P: float, m: float, *, h_p: float, T: float, S: float, C_D0: float, K: float
) -> float:
    r"""Top speed at full power at sea level in standard air, from a level run that the power held.

    Formula: v_H = v_H\left(v_{CAS}, P_t \sqrt{\frac{\rho(h_p, T)}{1.225\,\mathrm{kg/m^3}}}, P\right)
    Result: v_H
    Valid: a run at the mass that is meant, held by the power and not by a stop; efficiency of the drive the
    same; below 60 m/s, where compressibility does not count
    Source: derived, power_at_standard and standard_top_speed
    """
    at_standard = power_at_standard(P_t, m, m, air_density(standard_pressure(h_p), T))
    return standard_top_speed(v_CAS, at_standard, P, m, S=S, C_D0=C_D0, K=K)


@formula
def mean_of_runs(v_ri: Sequence[float], dv_s: float) -> float:
    r"""Mean of runs.

    Formula: \bar v = \frac{1}{n} \sum_i v_{r,i} + \delta v_s, \quad
        u(\delta v_s) = \frac{s(v_{r,i})}{\sqrt{n}}
    Result: v_m
    Valid: two runs or more of one kind; what is random within each run is not in the runs as well
    Source: jcgm-100, 4.2.3
    """
    return _mean(v_ri) + dv_s


def _root(m_t: float, m: float, rho: float) -> float:
    heavier = positive(m, "mass", "kg") / positive(m_t, "mass of the test", "kg")
    return sqrt(heavier * positive(rho, "density", "kg/m³") / SEA_LEVEL_DENSITY)


@dataclass(frozen=True)
class Descent:
    """One timed descent at a steady speed."""

    drop: Input
    """Of pressure altitude, in m."""
    time: Input
    """In s."""
    true_speed: Input
    """In m/s."""
    pressure_altitude: Input
    """At the middle, in m."""
    temperature: Input
    """At the middle, in K."""
    mass: Input
    """In kg."""


@dataclass(frozen=True)
class Reduced:
    """A descent at standard mass at sea level in the standard atmosphere, with its uncertainty."""

    speed: Input
    """Calibrated, in m/s."""
    sink: Input
    """In m/s."""


def reduce_descent(descent: Descent, standard_mass: Input) -> Reduced:
    """Bring a timed descent to the standard mass and to sea level.

    Raises:
        OutsideRange: a reading outside its range, or within one standard uncertainty of it.
    """
    around = {
        "h_p": descent.pressure_altitude,
        "T": descent.temperature,
        "m_t": descent.mass,
        "m": standard_mass,
    }
    sink = propagate(_reduced_sink, around | {"dh_p": descent.drop, "t": descent.time})
    speed = propagate(_reduced_speed, around | {"v_TAS": descent.true_speed})
    origin = "timed descent"
    return Reduced(
        Input("reduced speed", "speed", speed, origin), Input("reduced sink", "speed", sink, origin)
    )


def _reduced_sink(dh_p: float, t: float, T: float, h_p: float, m_t: float, m: float) -> float:
    return sink_at_standard(timed_sink(dh_p, t, T, h_p), m_t, m, air_density(standard_pressure(h_p), T))


def _reduced_speed(v_TAS: float, T: float, h_p: float, m_t: float, m: float) -> float:
    return speed_at_standard(v_TAS, m_t, m, air_density(standard_pressure(h_p), T))


def repeated(runs: Sequence[Input], label: str) -> Input:
    """Return the mean of runs, with what they share and, on top, how far they scatter.

    Args:
        runs: at least two, all of one kind; what they share, such as a calibration, must be the same
        variable in
            each.
        label: what a reader calls the mean.

    The scatter is their standard deviation over the root of their number (JCGM 100:2008, 4.2.3), so what is
    random within each run must not be in the runs as well, or it counts twice. With three runs the scatter
    itself is known to half of its value only (JCGM 100:2008, table E.1).

    Raises:
        OutsideRange: fewer than two runs.
    """
    if len(runs) < 2:
        raise OutsideRange(f"the {label} has {len(runs)} run, and scatter shows from two")
    mean = propagate(_mean, {"y_i": list(runs)})
    scatter = stdev(run.value for run in runs) / sqrt(len(runs))
    estimate = mean + error_source(f"scatter of the {label}", scatter) if scatter else mean
    return Input(label, runs[0].kind, estimate, f"mean of {len(runs)} runs")


def _mean(y_i: Sequence[float]) -> float:
    return fsum(y_i) / len(y_i)
