"""``aircraft.yaml``: the type. What was designed, by whom, within which limits."""

from __future__ import annotations

import re
from typing import Annotated

from dossier.model.aerodynamics import Aerodynamics
from dossier.model.base import Part
from dossier.model.drawing import Numbered
from dossier.model.loading import Loading
from dossier.model.plan_view import PlanView
from dossier.model.scalars import (
    AnyQuantity,
    Area,
    Count,
    Duration,
    Flag,
    Key,
    Length,
    Mass,
    Name,
    OneOf,
    Power,
    Ratio,
    Speed,
    Temperature,
    Text,
)

PLACEHOLDER = re.compile(r"\{([^{}]*)\}")
"""``{name_of_a_limit}`` in a text stands for the value of that limit."""
OF_A_LIST = "list."
"""``{list.name-of-its-file}`` in a text stands for the title of another list."""


class Identification(Part):
    """What the type is called."""

    name: Text
    """The name of the type, as it stands on the cover."""
    designation: Text
    """The short code that stands before a serial number."""
    description: Text
    """One sentence: what kind of aircraft this is."""
    layout: Annotated[str, OneOf("three-axis", "weight-shift", "two-axis")]
    """How it is controlled."""
    design_revision: Text
    """The state of the drawings that this file describes."""
    invented: Flag = False
    """True for a demonstration: every page says so."""


class Builder(Part):
    """Who vouches for the aircraft."""

    name: Text
    address: list[Text]
    contact: Text
    responsible_person: Text
    """The name that stands under the declaration."""
    function: Text
    """What that person is in the firm."""


class Presentation(Part):
    """How pages show values."""

    units: Annotated[str, OneOf("si-first", "us-first")]
    """Which system comes first; the other follows in brackets."""
    airspeed: Annotated[str, OneOf("kt", "km/h", "mph")]
    """The unit that the airspeed indicator shows."""
    paper: Annotated[str, OneOf("a4", "letter")]
    """The sheet for print."""


class Datum(Part):
    """From where arms are measured. Behind it they are positive."""

    description: Text
    """Such as: leading edge of the wing at the root rib."""
    levelling: Text
    """How the aircraft is brought to the attitude in which arms are measured."""


class Geometry(Part):
    """The airframe's measures."""

    wing_span: Length
    wing_area: Area
    length: Length
    height: Length
    mean_aerodynamic_chord: Length | None = None
    leading_edge_of_chord: Length | None = None
    """The arm of the leading edge of the mean aerodynamic chord."""


class Limit(Part):
    """One limit. Placards, marks, cautions and tables are made from it and from nowhere else."""

    name: Text
    value: AnyQuantity
    reason: Text
    """Where the limit comes from: calculation, test, maker's sheet, rule."""
    basis: Text | None = None
    """For a speed: CAS or IAS; for a mass: what is in it."""


class Mark(Part):
    """A mark on an instrument: at one limit, or from one to another."""

    mark: Annotated[
        str,
        OneOf("red line", "yellow arc", "green arc", "white arc", "blue line", "yellow triangle", "red arc"),
    ]
    at: Name | None = None
    start: Name | None = None
    end: Name | None = None
    meaning: Text


class Instrument(Part):
    """An instrument on the panel and its marks."""

    name: Text
    marks: list[Mark]


class Placard(Part):
    """A placard. ``{name_of_a_limit}`` in its text stands for the value of that limit."""

    where: Text
    text: Text


class Item(Numbered):
    """A component or a piece of equipment in the design's list of masses."""

    name: Text
    group: Annotated[
        str,
        OneOf(
            "structure",
            "controls",
            "undercarriage",
            "propulsion",
            "electrical",
            "instruments",
            "furnishing",
            "safety",
        ),
    ]
    mass: Mass
    arm: Length
    optional: Flag = False
    """True if a serial may be built without it."""
    allowance: Annotated[str, OneOf("parachute", "float", "hull", "outrigger")] | None = None
    """What a rule may leave out of the empty weight."""


class Efficiency(Part):
    """The chain from pack to thrust."""

    battery: Ratio
    controller: Ratio
    motor: Ratio
    propeller: Ratio
    reason: Text
    """Where the values come from."""


class Propulsion(Part):
    """Motor, controller and propeller."""

    motor: Text
    controller: Text
    propeller: Text
    maximum_power: Power
    """Electrical power from the pack at full throttle."""
    efficiency: Efficiency


class GlidePerformance(Part):
    """Measured or calculated performance without power."""

    minimum_sink: Speed
    at_mass: Mass
    at_speed: Speed
    best_glide_ratio: Ratio | None = None
    reason: Text


class Use(Part):
    """How one aircraft is used in a year, for the years of its battery."""

    hours_per_year: Duration
    """In the air."""
    flights_per_year: Count
    charge_before_flight: Ratio
    """State of charge at which a flight usually begins."""
    charge_after_flight: Ratio
    """State of charge at which it usually ends."""
    storage_charge: Ratio
    """State of charge between flights."""
    storage_temperature: Temperature
    """The mean over the year where the battery is kept."""
    retirement_limit: Name | None = None
    """Name of the limit of capacity, of the nominal one, at which a battery is retired. Left out: 80 %, which
    is the habit."""
    coldest_take_off_limit: Name | None = None
    """Name of the limit of temperature below which the battery must not be flown."""
    hottest_battery_limit: Name | None = None
    """Name of the limit of temperature above which the battery must not be used: the estimate of its heat is
    held against it."""
    landing_charge_limit: Name | None = None
    """Name of the limit of the battery's charge at which to land: the gauge card has a row for it, and it is
    held against the reserve."""
    landing_voltage_limit: Name | None = None
    """Name of the limit of the battery's voltage, read in level flight, at which to land: it is held against
    the reserve."""


class Phase(Part):
    """One part of the flight that the energy table is made for."""

    name: Text
    kind: Annotated[str, OneOf("ground", "take-off", "climb", "cruise", "soaring", "go-around", "reserve")]
    power: Power | None = None
    """Power from the pack. Left out for a cruise: level flight at the sink of ``glide`` and the
    chain of efficiencies."""
    duration: AnyQuantity | None = None
    """Left out for a climb (computed from the height) and for the one cruise that uses up the pack."""
    height: Length | None = None
    """The height gained, for a climb or a go-around."""


class Control(Part):
    """A control that the pilot works."""

    name: Text
    where: Text
    does: Text
    detents: list[Text] = []
    marking: Text


class System(Part):
    """A system and what its user must know of it."""

    name: Text
    description: Text
    cautions: list[Name] = []
    """Hazards, by name, that stand before the description."""


class Aircraft(Part):
    """The type file."""

    identification: Identification
    builder: Builder
    presentation: Presentation
    datum: Datum
    geometry: Geometry
    limits: dict[Key, Limit]
    instruments: list[Instrument] = []
    placards: list[Placard] = []
    loading: Loading
    items: dict[Key, Item]
    """The list of components and equipment with mass and arm, from which the empty mass as designed is computed."""  # noqa: E501 - its first line is the help where the key is missing
    propulsion: Propulsion
    glide: GlidePerformance
    aerodynamics: Aerodynamics | None = None
    """Left out: no polar is computed, and ``glide`` stands for the sink."""
    use: Use | None = None
    """Left out: no years of the battery are estimated."""
    plan_view: PlanView | None = None
    """The outline from above. Left out: the preflight list has no drawing."""
    profile: list[Phase]
    """The flight of the energy table, in order."""
    controls: list[Control]
    systems: list[System]
