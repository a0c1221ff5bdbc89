"""How the resistance of a battery has grown: as measured, or the published range for the capacity lost."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import sqrt

from dossier.compute.pack_state import GROWTH_PER_LOSS, resistance_growth
from dossier.figures import Figure, Input, constant, error_source, given, taken
from dossier.findings import Finding, Severity
from dossier.model.battery import Option
from dossier.model.events import CapacityTest, PackFitted
from dossier.replay import State
from dossier.sources import cite

SOURCE = "resistance-with-loss"
AS_NEW = "resistance as when new: the battery has lost no capacity that is known"
RANGE = (
    "Nobody measured this resistance. Two published models and the usual end of life give a growth of {:g} "
    "to {:g} times the part of the capacity that is lost: the middle stands here, and the ends are in the ±."
).format(*GROWTH_PER_LOSS)
WORTH_TELLING = 0.02
"""Part of the capacity; less is not told, for a test of capacity is hardly better."""


@dataclass(frozen=True)
class Growth:
    """Resistance over that when new, as it goes into the discharge model."""

    input: Input
    low: float
    high: float
    """The ends; both the same where there is no range."""

    @property
    def words(self) -> str:
        """Print the ends, such as ``1.06 to 1.60 times``."""
        return times(self.low, self.high)


def times(low: float, high: float) -> str:
    """Print the ends of a range of growth."""
    shown = [f"{end:.2f}" for end in (low, high)]
    return f"{shown[0]} times" if shown[0] == shown[1] else f"{shown[0]} to {shown[1]} times"


NEW = Growth(constant(AS_NEW, "number", 1.0, "definition, the condition of this figure"), 1.0, 1.0)


def growth_per_loss() -> Input:
    """Return the published range as an input: any value in it is as likely as any other."""
    low, high = GROWTH_PER_LOSS
    label = "published range of the growth of resistance with the loss of capacity"
    middle = (low + high) / 2 + error_source(label, (high - low) / 2 / sqrt(3))
    return Input(label, "number", middle, cite(SOURCE))


def last_growth(fitted: PackFitted, state: State) -> Input:
    """Return the growth of the resistance of a battery as it was last measured; 1 if it never was."""
    events = (event for event in state.events if isinstance(event, PackFitted | CapacityTest))
    stated = [event.resistance_growth for event in events if event.pack == fitted.pack]
    found = [one for one in stated if one is not None]
    if found:
        return given(found[-1], f"growth of resistance of battery {fitted.pack}, last measured")
    return constant("its resistance was never measured", "number", 1.0, "definition")


def growth_of(figures: Mapping[str, Figure]) -> Growth:
    """Return the growth of a battery from its figures; that of a new one where no loss is known."""
    figure = figures.get("resistance_growth")
    if figure is None:
        return NEW
    inputs = figure.working.inputs
    if "k_G" not in inputs:
        spread = 2 * figure.standard_uncertainty
        return Growth(taken(figure), figure.value - spread, figure.value + spread)
    known = {name: one.value for name, one in inputs.items() if isinstance(one, Input)}
    low, high = (resistance_growth(**{**known, "k_G": end}) for end in GROWTH_PER_LOSS)
    return Growth(taken(figure), low, high)


def for_health(health: float) -> tuple[float, float]:
    """Return the ends of the published range for a part of the nominal capacity that is left."""
    low, high = (1 + per_loss * (1 - min(health, 1.0)) for per_loss in GROWTH_PER_LOSS)
    return low, high


def unmeasured(figures: Mapping[str, Figure], option: Option, fitted: PackFitted | None) -> Iterator[Finding]:
    """Tell an aged battery whose resistance nobody measured."""
    figure = figures.get("resistance_growth")
    if figure is None or fitted is None or "k_G" not in figure.working.inputs:
        return
    growth = growth_of(figures)
    capacity, nominal = (figure.working.inputs[name] for name in ("Q_cell", "Q_nom"))
    assert isinstance(capacity, Input)
    assert isinstance(nominal, Input)
    lost = 1 - capacity.value / nominal.value
    if lost >= WORTH_TELLING:
        yield Finding(
            "D008",
            f"{option.name} has lost {100 * lost:.0f} % of its capacity and nobody measured its resistance: "
            f"{growth.words} that when new, the published range, is reckoned with",
            "measure it with the next test of capacity, and add it to that event, such as "
            'resistance_growth: "1.2"',
            fitted.place, Severity.NOTE,
        )  # fmt: skip
