"""The lightest and the heaviest pilot with a battery: with the least baggage, with the most, with any."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dossier.compute import envelope as envelopes
from dossier.compute import loading, weights
from dossier.figures import Figure, Formula, Input, Inputs, evaluate, given, taken
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.loading import Station
from dossier.results.attempt import Attempt, attempt
from dossier.results.empty import EmptyAircraft
from dossier.results.intermediate import balance

BY_MASS, BY_ENVELOPE, LIGHTEST = (
    "maximum_pilot_mass_by_mass",
    "maximum_pilot_mass_by_envelope",
    "minimum_pilot_mass",
)
"""Beginnings of the names of the figures; the battery follows, then ``full_baggage`` where it is aboard."""
HEAVIEST = "maximum_pilot_mass"
FULL, ANY = "full_baggage", "any_baggage"


@dataclass(frozen=True)
class _Ready:
    """The aircraft with its battery and some baggage, ready but for the pilot."""

    suffix: str
    words: str
    """Behind the name of a limit: with which baggage and battery."""
    what: str
    """The same in a sentence."""
    mass: Input
    arm: Input


def pilot_limits(option: str, name: str, empty: EmptyAircraft, aircraft: Aircraft) -> list[Attempt]:
    """Compute the limits with a battery.

    Where there is a baggage station, the limits that hold with any baggage come last. They rest on the two
    ends of the baggage, which is exact for an envelope that does not bend inward.
    """
    mass, arm = empty.with_option[option]
    shelf = aircraft.loading.baggage
    if shelf is None:
        return list(_limits(_Ready(option, f", {name}", name, taken(mass), taken(arm)), aircraft))
    bare = _Ready(option, f", no baggage, {name}", f"{name} without baggage", taken(mass), taken(arm))
    loaded: list[Figure] = []
    ends = [bare]
    if shelf.minimum.value > 0:
        ends = [_with(bare, shelf, "least", loaded, name)]
    ends.append(_with(bare, shelf, "most", loaded, name))
    made = [limit for ready in ends for limit in _limits(ready, aircraft)]
    figures = {figure.name: figure for one in made for figure in one.figures}
    return [
        *(Attempt(figure, None) for figure in loaded),
        *made,
        *_with_any(option, name, figures, aircraft),
    ]


def _with(bare: _Ready, shelf: Station, which: str, loaded: list[Figure], name: str) -> _Ready:
    """Put the least or the most baggage aboard."""
    amount = shelf.maximum if which == "most" else shelf.minimum
    suffix = f"{bare.suffix}.{FULL}" if which == "most" else bare.suffix
    words = f", the {which} baggage, {name}"
    masses = [bare.mass, given(amount, f"the {which} baggage")]
    arms = [bare.arm, given(shelf.arm, "arm of the baggage")]
    total = evaluate(
        weights.total_mass, f"ready_mass.{suffix}", f"Mass but for the pilot{words}", "mass", {"m_i": masses}
    )
    cg = evaluate(
        weights.centre_of_gravity, f"ready_cg.{suffix}", f"Centre of gravity but for the pilot{words}",
        "length", {"m_i": masses, "x_i": arms}, style="arm", steps=balance(masses, arms),
    )  # fmt: skip
    loaded += [total, cg]
    return _Ready(suffix, words, f"{name} with the {which} baggage", taken(total), taken(cg))


def _limits(ready: _Ready, aircraft: Aircraft) -> Iterator[Attempt]:
    limit = aircraft.limits[aircraft.loading.maximum_take_off_mass]
    by_mass: Inputs = {"m_max": given(limit.value, str(limit.name)), "m_0": ready.mass}
    yield attempt(
        lambda: evaluate(
            loading.pilot_mass_under_mass_limit, f"{BY_MASS}.{ready.suffix}",
            f"Heaviest pilot by take-off mass{ready.words}", "mass", by_mass,
        ),
        f"the heaviest pilot by take-off mass, {ready.what},", limit.place,
    )  # fmt: skip
    if aircraft.loading.envelope:
        place = aircraft.loading.place
        yield attempt(
            lambda: _by_envelope(loading.minimum_pilot_mass, LIGHTEST, ready, aircraft),
            f"the lightest pilot, {ready.what},",
            place,
        )
        yield attempt(
            lambda: _by_envelope(loading.maximum_pilot_mass, BY_ENVELOPE, ready, aircraft),
            f"the heaviest pilot by the envelope, {ready.what},",
            place,
        )


def _by_envelope(formula: Formula, short: str, ready: _Ready, aircraft: Aircraft) -> Figure:
    label = "Lightest pilot without ballast" if short == LIGHTEST else "Heaviest pilot by the envelope"
    seat = given(aircraft.loading.seat.arm, "arm of the seat")
    inputs: Inputs = {"m_0": ready.mass, "x_0": ready.arm, "x_P": seat, **corner_inputs(aircraft)}
    return evaluate(formula, f"{short}.{ready.suffix}", f"{label}{ready.words}", "mass", inputs)


def corner_inputs(aircraft: Aircraft) -> Inputs:
    """Take the corners of the envelope as inputs."""
    points = aircraft.loading.envelope
    return {
        "m_j": [given(point.mass, f"mass at corner {number}") for number, point in enumerate(points, 1)],
        "x_fj": [
            given(point.forward, f"forward limit at corner {number}")
            for number, point in enumerate(points, 1)
        ],
        "x_aj": [given(point.aft, f"aft limit at corner {number}") for number, point in enumerate(points, 1)],
    }


def _with_any(option: str, name: str, figures: dict[str, Figure], aircraft: Aircraft) -> Iterator[Attempt]:
    """The stricter of both ends; nothing where one of them has no answer, which has its finding."""
    words = f", any baggage, {name}"
    ends = (option, f"{option}.{FULL}")
    envelope = bool(aircraft.loading.envelope)
    light = [f"{LIGHTEST}.{end}" for end in ends] if envelope else []
    heavy = [f"{BY_MASS}.{ends[1]}", *(f"{BY_ENVELOPE}.{end}" for end in ends if envelope)]
    made: dict[str, Figure] = {}
    for formula, short, label, names in (
        (loading.lightest_in_every_case, LIGHTEST, "Lightest pilot without ballast", light),
        (loading.heaviest_in_every_case, HEAVIEST, "Heaviest pilot", heavy),
    ):
        if names and all(one in figures for one in names):
            cases: Inputs = {"m_Pi": [taken(figures[one]) for one in names]}
            made[short] = evaluate(formula, f"{short}.{option}.{ANY}", f"{label}{words}", "mass", cases)
            yield Attempt(made[short], None)
    yield from (Attempt(None, finding) for finding in _doubts(name, made, aircraft))


def _doubts(name: str, made: dict[str, Figure], aircraft: Aircraft) -> Iterator[Finding]:
    if not made:
        return
    if LIGHTEST in made and HEAVIEST in made and made[LIGHTEST].value > made[HEAVIEST].value:
        fault = f"with {name} no pilot fits with any baggage: what one baggage allows another one does not"
        yield _finding(fault, "limit the baggage, or say in its own limit for whom it holds", aircraft)
    points = aircraft.loading.envelope
    columns = (tuple(getattr(point, part).value for point in points) for part in ("mass", "forward", "aft"))
    if points and not envelopes.bends_outward(envelopes.Envelope(*columns)):
        fault = (
            f"the envelope bends inward, so with {name} a pilot near the limits may be outside with "
            "a baggage between the least and the most"
        )
        remedy = "work such a loading out before the flight, or lay the envelope down without the bend"
        yield _finding(fault, remedy, aircraft)


def _finding(fault: str, remedy: str, aircraft: Aircraft) -> Finding:
    return Finding("C006", fault, remedy, aircraft.loading.place_of_key("envelope"), Severity.WARNING)
