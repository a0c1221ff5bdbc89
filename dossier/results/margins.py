"""The worst loadings as figures: how far inside the limits, with uncertainty."""

from __future__ import annotations

from dossier.compute import envelope as envelopes
from dossier.compute import weights
from dossier.compute.load_cases import Corner
from dossier.figures import Figure, Input, evaluate, given, taken
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery
from dossier.results.empty import EmptyAircraft
from dossier.results.intermediate import balance

WORDS = {"forward": "Furthest forward loading", "aft": "Furthest aft loading", "mass": "Heaviest loading"}


def margin_figures(
    worst: tuple[Corner, ...], empty: EmptyAircraft, aircraft: Aircraft, battery: Battery
) -> tuple[Figure, ...]:
    """Make mass, centre of gravity and margin of each worst loading."""
    return tuple(figure for corner in worst for figure in _corner(corner, empty, aircraft, battery))


def _corner(corner: Corner, empty: EmptyAircraft, aircraft: Aircraft, battery: Battery) -> list[Figure]:
    aircraft_load, pilot, ballast, baggage = corner.loads
    mass, arm = empty.with_option[aircraft_load.name]
    words = (
        f"{WORDS[corner.limit]}: {battery.options[aircraft_load.name].name}, pilot {pilot.mass:.0f} kg, "
        f"{ballast.name}"
    )
    if aircraft.loading.baggage:
        words += f", {baggage.name}"
    masses = [taken(mass), _load(f"pilot of {pilot.mass:.0f} kg", pilot.mass, aircraft)]
    arms = [taken(arm), given(aircraft.loading.seat.arm, "arm of the seat")]
    if aircraft.loading.ballast and ballast.mass:
        masses.append(_load(ballast.name, ballast.mass, aircraft))
        arms.append(given(aircraft.loading.ballast.arm, "arm of the ballast"))
    if aircraft.loading.baggage and baggage.mass:
        masses.append(_load(baggage.name, baggage.mass, aircraft))
        arms.append(given(aircraft.loading.baggage.arm, "arm of the baggage"))
    total = evaluate(
        weights.total_mass, f"loaded_mass.worst_{corner.limit}", f"{words}, mass", "mass", {"m_i": masses}
    )
    cg = evaluate(
        weights.centre_of_gravity,
        f"loaded_cg.worst_{corner.limit}",
        f"{words}, centre of gravity",
        "length",
        {"m_i": masses, "x_i": arms},
        style="arm",
        steps=balance(masses, arms),
    )
    return [total, cg, _margin(corner, words, total, cg, aircraft)]


def _load(label: str, mass: float, aircraft: Aircraft) -> Input:
    return Input(label, "mass", mass, aircraft.loading.place or "not in a file", "")


def _margin(corner: Corner, words: str, total: Figure, cg: Figure, aircraft: Aircraft) -> Figure:
    name = f"margin.worst_{corner.limit}"
    if corner.limit == "mass":
        limit = aircraft.limits[aircraft.loading.maximum_take_off_mass]
        return evaluate(
            envelopes.mass_margin,
            name,
            f"{words}, left below the limit",
            "mass",
            {"m_max": given(limit.value, str(limit.name)), "m": taken(total)},
        )
    points = aircraft.loading.envelope
    side, symbol, formula = (
        ("forward", "x_fj", envelopes.forward_margin)
        if corner.limit == "forward"
        else ("aft", "x_aj", envelopes.aft_margin)
    )
    # At the very mass limit a mass moved up by its uncertainty has no arm limit any more, so the limit is
    # taken at the mass as computed.
    at_mass = Input(total.label, "mass", total.value, total.name)
    return evaluate(
        formula,
        name,
        f"{words}, distance inside the {side} limit",
        "length",
        {
            "m": at_mass,
            "x_CG": taken(cg),
            "m_j": [given(point.mass, f"mass at corner {number}") for number, point in enumerate(points, 1)],
            symbol: [
                given(getattr(point, side), f"{side} limit at corner {number}")
                for number, point in enumerate(points, 1)
            ],
        },
        style="arm",
        note="The limit is taken at the mass as computed; the uncertainty of that mass acts through the "
        "centre of gravity alone.",
    )
