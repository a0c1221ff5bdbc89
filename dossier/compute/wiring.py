"""Conductors and fuses: drop of voltage, temperature, and whether wire and fuse go together.

The tables of the circular are for aircraft electrical systems up to 200 V and bundles in warm air; for
traction currents they are the nearest published ones. A check here is no approval: a licensed electrician or
the authority decides.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt

from dossier.compute.bounds import positive
from dossier.figures import OutsideRange, formula

FOOT = 0.3048
COPPER_OFFSET = 234.5
"""In K below 0 °C, where the straight line of the resistance of copper meets 0 (source ac-43-13-1b, example
in 11-66 f)."""
ZERO = 273.15
LARGEST_DROP = 0.02
"""Of the voltage of a traction battery at full power (source practice, memory: 1 to 2 %; the circular ends at
200 V)."""


@dataclass(frozen=True)
class Wire:
    """One size of wire, as the circular lists it."""

    gauge: str
    ampacity: Mapping[int, float]
    """Rated temperature in °C -> current in A in a bundle."""
    ohm_per_metre: float
    """At 20 °C."""
    fuse: float | None
    """In A, the fuse that the circular names for this size; None where it names none."""


@formula
def voltage_drop(I: float, R_L: float) -> float:  # noqa: E741 - the symbol of current
    r"""Drop of voltage along a conductor, there and back.

    Formula: \Delta U = I \, R_L
    Result: dU
    Valid: direct current; the resistance of the whole way of the current
    Source: ac-43-13-1b, table 11-7
    """
    return I * R_L


@formula
def conductor_temperature(T_a: float, T_R: float, I: float, I_max: float) -> float:  # noqa: E741 - the symbol of current
    r"""Estimate of the temperature of a conductor under a current.

    Formula: T_L = T_a + (T_R - T_a) \sqrt{\frac{I}{I_{max}}}
    Result: T_L
    Valid: a current from 0 up to that which brings it to its rating; a rating above the air around
    Source: ac-43-13-1b, 11-66 f, the root from memory
    """
    positive(I_max, "current at the rating", "A")
    if not 0 <= I <= I_max:
        raise OutsideRange(
            f"the current is {I:.4g} A, and the estimate goes from 0 to the {I_max:.4g} A of the rating"
        )
    if T_a >= T_R:
        raise OutsideRange(f"the rating of {T_R - ZERO:.0f} °C is not above the air of {T_a - ZERO:.0f} °C")
    return T_a + (T_R - T_a) * sqrt(I / I_max)


@formula
def warm_resistance(R_L: float, T_L: float) -> float:
    r"""Resistance of a copper conductor when warm.

    Formula: R_h = R_L \, \frac{234.5 + T_L - 273.15}{254.5}
    Result: R_h
    Valid: copper, temperature in K, from -50 to 200 °C
    Source: ac-43-13-1b, 11-66 f
    """
    degrees = T_L - ZERO
    if not -50 <= degrees <= 200:
        raise OutsideRange(
            f"the conductor is at {degrees:.0f} °C, "
            "and the resistance of copper is a straight line from -50 to 200 °C"
        )
    return R_L * (COPPER_OFFSET + degrees) / (COPPER_OFFSET + 20)


def loop_resistance(wire: Wire, one_way: float, parallel: int = 1) -> float:
    """Return the resistance in Ω, there and back, of wires of ``one_way`` length in m side by side, at 20 °C.

    Raises:
        OutsideRange: no length, or no wire.
    """
    length = 2 * positive(one_way, "length of the wire", "m")
    return length * wire.ohm_per_metre / positive(parallel, "number of wires side by side")


@dataclass(frozen=True)
class Circuit:
    """One circuit as built, in SI."""

    wire: Wire
    rating: int
    """Temperature of the wire in °C: a column of the table."""
    one_way: float
    parallel: int
    fuse: float
    """In A."""
    current: float
    """The largest that lasts, in A."""
    voltage: float
    """Of the source in V."""


@dataclass(frozen=True)
class WiringCheck:
    """One comparison: ``value`` may be at most ``limit``."""

    name: str
    value: float
    limit: float
    kind: str
    """A key of :data:`dossier.units.KINDS`."""
    source: str

    @property
    def kept(self) -> bool:
        """True if the value is at most the limit."""
        return self.value <= self.limit


def wiring_checks(circuit: Circuit, largest_drop: float = LARGEST_DROP) -> tuple[WiringCheck, ...]:
    """Compare current, fuse, wire and drop of voltage.

    Args:
        circuit: as built.
        largest_drop: as a part of the voltage of the source.

    Raises:
        OutsideRange: the table has no such rating.
    """
    wire, n = circuit.wire, circuit.parallel
    if circuit.rating not in wire.ampacity:
        known = ", ".join(str(one) for one in sorted(wire.ampacity))
        raise OutsideRange(
            f"wire {wire.gauge} has no rating of {circuit.rating} °C in the table, which has {known}"
        )
    carries = n * wire.ampacity[circuit.rating]
    drop = voltage_drop(circuit.current, loop_resistance(wire, circuit.one_way, n))
    checks = [
        WiringCheck(
            "the current against the wire", circuit.current, carries, "current", "ac-43-13-1b, table 11-9"
        ),
        WiringCheck("the current against the fuse", circuit.current, circuit.fuse, "current", "practice"),
        WiringCheck("the fuse against the wire", circuit.fuse, carries, "current", "ac-43-13-1b, 11-48"),
        WiringCheck("the drop of voltage", drop, largest_drop * circuit.voltage, "voltage", "practice"),
    ]
    if wire.fuse is not None and n == 1:
        checks.insert(
            3,
            WiringCheck(
                "the fuse against the table of fuses",
                circuit.fuse,
                wire.fuse,
                "current",
                "ac-43-13-1b, table 11-3",
            ),
        )
    return tuple(checks)
