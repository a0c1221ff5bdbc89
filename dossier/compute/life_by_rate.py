"""Full cycles until a part of the capacity is lost, by the rate of the discharge: three published models side
by side, and how far the rate alone takes them apart."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from dossier.compute.ageing import cycling_loss, window_voltage
from dossier.compute.ageing_by_rate import blended_cycling_loss, high_nickel_cycling_loss
from dossier.compute.bounds import positive
from dossier.figures import OutsideRange

HOUR = 3600.0
WARM = 298.15
"""25 °C, at which the years are reckoned. A fast discharge warms the cell; that is not in it."""
LOSS = 0.2
"""To 80 % of the capacity when new, the usual end of life (common practice, no source)."""


@dataclass(frozen=True)
class RateModel:
    """A model of the loss by full cycles at a rate."""

    key: str
    power: float
    """To which the loss rises with the number of cycles."""
    first: Callable[[float, float], float]
    """The loss of one cycle, from the temperature in K and the rate."""

    def cycles(self, rate: float, loss: float, temperature: float) -> float:
        """Return the full cycles until a part of the capacity is lost by use alone.

        Raises:
            OutsideRange: the rate or the temperature is outside the tests of this model.
        """
        one = self.first(temperature, rate)
        return float((positive(loss, "loss") / one) ** (1 / self.power))


def _without_rate() -> float:
    """Return what the model that knows neither rate nor temperature says."""
    return cycling_loss(window_voltage(0.0, 1.0), 1.0, 1.0)


MODELS = (
    RateModel("no_rate", 0.5, lambda *_: _without_rate()),
    RateModel("blended", 1.0, lambda temperature, rate: blended_cycling_loss(temperature, rate, 1.0, 1.0)),
    RateModel("high_nickel", 0.442, lambda temperature, rate: high_nickel_cycling_loss(temperature, rate, 1)),
)


@dataclass(frozen=True)
class RateLife:
    """One rate: full cycles by each model of :data:`MODELS`; None where it lies outside its tests."""

    rate: float
    """In capacities an hour."""
    cycles: tuple[float | None, ...]


def at_rate(rate: float, loss: float = LOSS, temperature: float = WARM) -> RateLife:
    """Ask each model for the full cycles until a part of the capacity is lost by use alone.

    Args:
        rate: of the discharge, in capacities an hour.
        loss: part of the capacity when new.
        temperature: of the cell, in K.

    Raises:
        OutsideRange: the rate or the loss is not positive.
    """
    positive(rate, "rate")
    positive(loss, "loss")
    return RateLife(rate, tuple(_answer(model, rate, loss, temperature) for model in MODELS))


def _answer(model: RateModel, rate: float, loss: float, temperature: float) -> float | None:
    try:
        return model.cycles(rate, loss, temperature)
    except OutsideRange:
        return None


def mean_rate(depth: float, time: float) -> float:
    """Return the mean rate in capacities an hour of a discharge of a depth in a time in s.

    Raises:
        OutsideRange: one of them is not positive.
    """
    return positive(depth, "depth of the discharge") / (positive(time, "time", "s") / HOUR)


def gentle_over_hard(gentle: float, hard: float, temperature: float = WARM) -> tuple[float | None, ...]:
    """Return, by each model, how many times as many cycles the gentler of two rates gives.

    None where one of the rates lies outside the tests of a model. Rates in capacities an hour.

    Raises:
        OutsideRange: a rate is not positive.
    """
    pairs = zip(
        at_rate(gentle, temperature=temperature).cycles,
        at_rate(hard, temperature=temperature).cycles,
        strict=True,
    )
    return tuple(None if one is None or other is None else one / other for one, other in pairs)
