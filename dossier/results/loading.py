"""What may be on board: every battery, pilot and ballast, inside the limits or not, and by how much."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from dossier.compute import envelope as envelopes
from dossier.compute import weights
from dossier.compute.envelope import Envelope
from dossier.compute.load_cases import Corner, Load, LoadCases, combine, corners, pilot_masses_to_check
from dossier.figures import Figure, evaluate, given, taken
from dossier.findings import Finding
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery
from dossier.model.loading import Station
from dossier.results.empty import EmptyAircraft
from dossier.results.margins import margin_figures
from dossier.results.pilot_limits import pilot_limits

PILOT_STEPS = 5
"""How many pilot masses the table shows between the lightest and the heaviest, ends included."""


@dataclass(frozen=True)
class LoadRow:
    """One loading. Masses in kg, arms in m; margins negative outside, None where no limit is laid down."""

    option: str
    pilot: float
    ballast: float
    mass: float
    cg: float
    forward: float | None
    aft: float | None
    below_limit: float
    inside: bool
    baggage: float = 0.0


@dataclass(frozen=True)
class Loadings:
    """All loadings of one aircraft."""

    rows: tuple[LoadRow, ...]
    worst: tuple[Corner, ...]
    """The cases nearest to, or farthest beyond, each limit, over all batteries, pilots,
    ballast and baggage."""
    ballast_pieces: Mapping[str, int | None]
    """Battery -> pieces that bring the lightest pilot inside, with any baggage; None if no number does."""
    figures: tuple[Figure, ...]
    envelope: Envelope | None
    findings: tuple[Finding, ...]


def loadings(empty: EmptyAircraft, aircraft: Aircraft, battery: Battery) -> Loadings:
    """Compute every loading, with every battery that the type may fly with."""
    envelope = _envelope(aircraft)
    findings: list[Finding] = []
    figures: list[Figure] = []
    rows: list[LoadRow] = []
    pieces: dict[str, int | None] = {}
    for name in battery.options:
        rows += _rows(name, empty, aircraft, envelope)
        pieces[name] = _pieces(name, empty, aircraft, envelope)
        for made in pilot_limits(name, str(battery.options[name].name), empty, aircraft):
            figures += made.figures
            findings += made.findings
    figures += _general(empty, aircraft, battery)
    worst = _worst(empty, aircraft, battery, envelope)
    figures += margin_figures(worst, empty, aircraft, battery)
    return Loadings(tuple(rows), worst, pieces, tuple(figures), envelope, tuple(findings))


def _envelope(aircraft: Aircraft) -> Envelope | None:
    """The envelope up to the limit of take-off mass."""
    points = aircraft.loading.envelope
    if not points:
        return None
    whole = Envelope(
        *(tuple(getattr(point, part).value for point in points) for part in ("mass", "forward", "aft"))
    )
    limit = mass_limit(aircraft)
    return whole.up_to(limit) if limit < whole.max_mass else whole


def mass_limit(aircraft: Aircraft) -> float:
    """Return the limit of take-off mass in kg."""
    return aircraft.limits[aircraft.loading.maximum_take_off_mass].value.value


def _pilots(aircraft: Aircraft) -> list[float]:
    seat = aircraft.loading.seat
    low, high = seat.minimum.value, seat.maximum.value
    return [low + (high - low) * step / (PILOT_STEPS - 1) for step in range(PILOT_STEPS)]


def _ballasts(aircraft: Aircraft) -> list[Load]:
    ballast = aircraft.loading.ballast
    if ballast is None:
        return [Load("no ballast", 0.0, 0.0)]
    return [
        Load(
            f"{count} pieces of ballast" if count else "no ballast",
            count * ballast.piece.value,
            ballast.arm.value,
        )
        for count in range(ballast.pieces + 1)
    ]


def _baggages(aircraft: Aircraft) -> list[Load]:
    """The least and the most that the baggage station holds in flight."""
    station = aircraft.loading.baggage
    if station is None:
        return [Load("no baggage", 0.0, 0.0)]
    return [_baggage(mass, station) for mass in sorted({station.minimum.value, station.maximum.value})]


def _baggage(mass: float, station: Station) -> Load:
    return Load(f"baggage of {mass:.0f} kg" if mass else "no baggage", mass, station.arm.value)


def _rows(option: str, empty: EmptyAircraft, aircraft: Aircraft, envelope: Envelope | None) -> list[LoadRow]:
    return [
        _row(option, empty, pilot, (ballast, baggage), aircraft, envelope)
        for baggage in _baggages(aircraft)
        for ballast in _ballasts(aircraft)
        for pilot in _pilots(aircraft)
    ]


def _row(
    option: str,
    empty: EmptyAircraft,
    pilot: float,
    extra: tuple[Load, Load],
    aircraft: Aircraft,
    envelope: Envelope | None,
) -> LoadRow:
    mass, arm = (figure.value for figure in empty.with_option[option])
    ballast, baggage = extra
    masses = [mass, pilot, ballast.mass, baggage.mass]
    total = weights.total_mass(masses)
    cg = weights.centre_of_gravity(masses, [arm, aircraft.loading.seat.arm.value, ballast.arm, baggage.arm])
    left = mass_limit(aircraft) - total
    if envelope is None:
        return LoadRow(option, pilot, ballast.mass, total, cg, None, None, left, left >= 0, baggage.mass)
    margins = envelopes.margins([total], [cg], envelope)
    beyond = left < 0
    return LoadRow(
        option,
        pilot,
        ballast.mass,
        total,
        cg,
        None if beyond else float(margins.forward[0]),
        None if beyond else float(margins.aft[0]),
        left,
        bool(margins.inside[0]),
        baggage.mass,
    )


def _worst(
    empty: EmptyAircraft, aircraft: Aircraft, battery: Battery, envelope: Envelope | None
) -> tuple[Corner, ...]:
    """Find the worst cases by computation: at the ends and wherever a limit bends between them."""
    if envelope is None:
        return ()
    found: dict[str, Corner] = {}
    for name in battery.options:
        mass, arm = (figure.value for figure in empty.with_option[name])
        for cases in _cases(Load(str(name), mass, arm), aircraft, envelope):
            for corner in corners(cases, envelope):
                if corner.limit not in found or corner.margin < found[corner.limit].margin:
                    found[corner.limit] = corner
    return tuple(found[limit] for limit in ("forward", "aft", "mass") if limit in found)


def _cases(ready: Load, aircraft: Aircraft, envelope: Envelope) -> Iterator[LoadCases]:
    """Let pilot and baggage take any mass of theirs. A margin is smallest where one of them is at an end
    of its range."""
    seat, shelf = aircraft.loading.seat, aircraft.loading.baggage
    ends = (seat.minimum.value, seat.maximum.value)
    for ballast in _ballasts(aircraft):
        for baggage in _baggages(aircraft):
            pilots = pilot_masses_to_check(_together(ready, ballast, baggage), seat.arm.value, ends, envelope)
            yield combine(
                [ready], [Load("pilot", mass, seat.arm.value) for mass in pilots], [ballast], [baggage]
            )
        for pilot in (Load("pilot", mass, seat.arm.value) for mass in ends if shelf):
            yield combine(
                [ready],
                [pilot],
                [ballast],
                _baggages_to_check(_together(ready, ballast, pilot), aircraft, envelope),
            )


def _together(*loads: Load) -> Load:
    masses = [load.mass for load in loads]
    return Load(
        loads[0].name,
        weights.total_mass(masses),
        weights.centre_of_gravity(masses, [load.arm for load in loads]),
    )


def _baggages_to_check(without: Load, aircraft: Aircraft, envelope: Envelope | None) -> list[Load]:
    """The ends of the baggage, and the masses between at which a limit bends."""
    shelf = aircraft.loading.baggage
    if shelf is None or envelope is None:
        return _baggages(aircraft)
    ends = (shelf.minimum.value, shelf.maximum.value)
    return [_baggage(mass, shelf) for mass in pilot_masses_to_check(without, shelf.arm.value, ends, envelope)]


def _pieces(option: str, empty: EmptyAircraft, aircraft: Aircraft, envelope: Envelope | None) -> int | None:
    """Count the pieces that bring the lightest pilot inside, by trying each number: what is printed is
    what was checked."""
    seat = aircraft.loading.seat
    pilot = Load("pilot", seat.minimum.value, seat.arm.value)
    ready = Load(option, *(figure.value for figure in empty.with_option[option]))
    for count, ballast in enumerate(_ballasts(aircraft)):
        baggages = _baggages_to_check(_together(ready, ballast, pilot), aircraft, envelope)
        if all(
            _row(option, empty, pilot.mass, (ballast, baggage), aircraft, envelope).inside
            for baggage in baggages
        ):
            return count
    return None


def _general(empty: EmptyAircraft, aircraft: Aircraft, battery: Battery) -> list[Figure]:
    """Useful load as the aircraft is, or with its heaviest battery if the bay is empty; then
    with each one."""
    heaviest = max((pair[0] for pair in empty.with_option.values()), key=lambda figure: figure.value)
    base = empty.fitted[0] if empty.fitted else heaviest
    each = [
        _useful_load(f".{option}", f" with {battery.options[option].name}", pair[0], aircraft)
        for option, pair in empty.with_option.items()
    ]
    return [_useful_load("", "", base, aircraft), *each]


def _useful_load(suffix: str, words: str, mass: Figure, aircraft: Aircraft) -> Figure:
    limit = aircraft.limits[aircraft.loading.maximum_take_off_mass]
    inputs = {"m_max": given(limit.value, str(limit.name)), "m": taken(mass)}
    return evaluate(envelopes.mass_margin, f"useful_load{suffix}", f"Useful load{words}", "mass", inputs)
