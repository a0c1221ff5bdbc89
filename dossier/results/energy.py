"""Where the energy goes: each phase of the profile, and how long the cruise lasts with what is left."""

from __future__ import annotations

from dataclasses import dataclass

from dossier.compute import energy
from dossier.figures import Figure, OutsideRange, evaluate, given
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery
from dossier.results.attempt import attempt, reason
from dossier.results.battery import PackResult
from dossier.results.empty import EmptyAircraft
from dossier.results.loading import mass_limit
from dossier.results.profile import Flight, ProfileFlight


@dataclass(frozen=True)
class Energy:
    """All flights of the energy table."""

    flights: tuple[Flight, ...]
    """For each battery the lightest pilot, one in the middle, and the heaviest that the
    take-off mass allows."""
    figures: tuple[Figure, ...]
    findings: tuple[Finding, ...]


PILOTS = ("lightest_pilot", "middle_pilot", "heaviest_pilot")


def energy_table(
    empty: EmptyAircraft, aircraft: Aircraft, battery: Battery, packs: tuple[PackResult, ...]
) -> Energy:
    """Fly the profile with every battery and three pilots."""
    flights: list[Flight] = []
    findings: list[Finding] = []
    made = attempt(
        lambda: _drive_efficiency(aircraft),
        "the efficiency of the drive",
        aircraft.propulsion.efficiency.place,
    )
    drive = made.figure
    if drive is None:
        return Energy((), (), made.findings)
    for result in packs:
        if "usable_energy" not in result.figures:
            continue
        name = str(battery.options[result.option].name)
        left = mass_limit(aircraft) - empty.with_option[result.option][0].value
        if left < aircraft.loading.seat.minimum.value:
            findings.append(
                _finding(
                    f"with {name} the take-off mass leaves {left:.1f} kg for a pilot, less than the "
                    "lightest considered",
                    aircraft,
                )
            )
            continue
        for word, pilot in zip(PILOTS, pilot_masses(left, aircraft), strict=True):
            try:
                flights.append(ProfileFlight(result, word, pilot, empty, aircraft, drive, name).fly())
            except OutsideRange as error:
                findings.append(
                    _finding(
                        f"the profile cannot be flown with {name} and a pilot of {pilot:.0f} kg: "
                        f"{reason(error)}",
                        aircraft,
                    )
                )
    return Energy(
        tuple(flights), (drive, *(figure for flight in flights for figure in flight.figures)), tuple(findings)
    )


def _drive_efficiency(aircraft: Aircraft) -> Figure:
    chain = aircraft.propulsion.efficiency
    links = [
        given(getattr(chain, link), f"efficiency of the {link}")
        for link in ("controller", "motor", "propeller")
    ]
    return evaluate(
        energy.efficiency_chain,
        "drive_efficiency",
        "Efficiency from the battery's terminals to the thrust",
        "ratio",
        {"eta_i": links},
    )


def pilot_masses(left: float, aircraft: Aircraft) -> tuple[float, float, float]:
    """Lightest, middle and heaviest pilot that seat and take-off mass allow."""
    seat = aircraft.loading.seat
    low, high = seat.minimum.value, min(seat.maximum.value, left)
    return low, (low + high) / 2, high


def _finding(message: str, aircraft: Aircraft) -> Finding:
    return Finding(
        "C004",
        message,
        "correct the profile, the power, the masses or the battery",
        aircraft.place_of_key("profile"),
        Severity.WARNING,
    )
