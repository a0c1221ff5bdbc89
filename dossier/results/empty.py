"""The empty aircraft as of a date: the weighing, carried on through changes of equipment and packs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from dossier.compute import weights
from dossier.figures import Figure, Input, evaluate, given, taken
from dossier.findings import Finding, Severity
from dossier.model.aircraft import Aircraft
from dossier.model.battery import Battery
from dossier.model.events import PackFitted
from dossier.replay import State
from dossier.results.intermediate import balance
from dossier.results.weighing import WeighingResult


@dataclass(frozen=True)
class ChangeRow:
    """One step from the weighed aircraft to the empty aircraft of today. The mass has its sign."""

    what: str
    date: str
    mass: Input
    arm: Input


FAR = 0.05
"""Part of the list's mass beyond which the list and the scales are not of one aircraft (own choice)."""


@dataclass(frozen=True)
class EmptyAircraft:
    """Mass and centre of gravity on each basis."""

    rows: tuple[ChangeRow, ...]
    """From the weighing to the aircraft without battery."""
    without_battery: tuple[Figure, Figure]
    """Mass and arm."""
    fitted: tuple[Figure, Figure] | None
    """With the pack that is in the bay; none if the bay is empty."""
    with_option: Mapping[str, tuple[Figure, Figure]]
    """With each battery that the type may fly with."""
    with_every_option: Mapping[str, Figure]
    """Mass with each of those batteries and every optional item of the type's list: with those that this
    serial was built without, by the mass of the list. A number that the builder publishes of the type is
    held against it."""
    chord: tuple[Figure, ...]
    """Centres of gravity in parts of the mean aerodynamic chord."""
    designed: tuple[Figure, Figure]
    """The sum of the type's list of masses, without battery."""
    above_design: Figure
    """What the weighing found more than the list says, without battery."""
    findings: tuple[Finding, ...] = ()

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All figures, in the order of their making."""
        pairs = [self.without_battery, *([self.fitted] if self.fitted else []), *self.with_option.values()]
        return (
            *(figure for pair in pairs for figure in pair),
            *self.with_every_option.values(),
            *self.chord,
            *self.designed,
            self.above_design,
        )


def empty_aircraft(
    weighing: WeighingResult, state: State, aircraft: Aircraft, battery: Battery
) -> EmptyAircraft:
    """Carry the weighed aircraft on to the date of the state.

    Raises:
        OutsideRange: more was taken out than there was.
    """
    rows = tuple(_changes(state, battery))
    masses = [taken(weighing.mass), *(row.mass for row in rows)]
    arms = [taken(weighing.cg), *(row.arm for row in rows)]
    bare = _pair("without_battery", "without battery", masses, arms)
    packs = {str(pack.option): pack for pack in state.packs}
    with_option = {
        name: _with_pack(bare, f"{name}", f"with {option.name}", *_pack(packs.get(name), name, battery))
        for name, option in battery.options.items()
    }
    fitted = None
    if state.packs:
        pack = state.packs[0]
        fitted = _with_pack(bare, "", "with the battery fitted", *_pack(pack, str(pack.option), battery))
    pairs = [bare, *([fitted] if fitted else []), *with_option.values()]
    chord = (
        tuple(_chord(arm, aircraft) for _, arm in pairs) if aircraft.geometry.mean_aerodynamic_chord else ()
    )
    listed = designed(aircraft, state)
    every = {
        name: _with_every_option(name, str(battery.options[name].name), pair[0], aircraft, state)
        for name, pair in with_option.items()
    }
    above = _above(bare[0], listed[0])
    findings = tuple(_far_from_design(above, listed[0], state))
    return EmptyAircraft(rows, bare, fitted, with_option, every, chord, listed, above, findings)


def _far_from_design(above: Figure, listed: Figure, state: State) -> Iterator[Finding]:
    """Warn where the scales and the type's list of masses cannot both be right."""
    if state.weighing and abs(above.value) > 2 * above.standard_uncertainty + FAR * listed.value:
        share = above.value / listed.value
        yield Finding(
            "W008",
            f"the aircraft as weighed is {abs(100 * share):.0f} % {'heavier' if share > 0 else 'lighter'} "
            "than "
            "the type's list of masses",
            "look for a support, a tare or an item that was forgotten; if the weighing is right, correct "
            "the list",
            state.weighing.place_of_key("supports"), Severity.WARNING,
        )  # fmt: skip


def _changes(state: State, battery: Battery) -> list[ChangeRow]:
    rows = [
        ChangeRow(
            f"Battery {pack.pack}, aboard when weighed",
            str(state.weighing.date if state.weighing else ""),
            _signed(mass, -1),
            arm,
        )
        for pack in state.packs_at_weighing
        for mass, arm in [_pack(pack, str(pack.option), battery)]
    ]
    for event in state.changes:
        for item, sign in [*((item, 1) for item in event.fitted), *((item, -1) for item in event.removed)]:
            mass, arm = given(item.mass, str(item.name)), given(item.arm, f"arm, {item.name}")
            rows.append(
                ChangeRow(
                    f"{item.name}, {'fitted' if sign > 0 else 'removed'}",
                    str(event.date),
                    _signed(mass, sign),
                    arm,
                )
            )
    return rows


def _signed(mass: Input, sign: int) -> Input:
    word = "" if sign > 0 else " (taken off)"
    return Input(mass.label + word, mass.kind, mass.estimate * sign, mass.origin, mass.text)


def _pack(pack: PackFitted | None, option: str, battery: Battery) -> tuple[Input, Input]:
    """Mass and arm of a battery: of the one that is fitted, else of the option as designed."""
    design = battery.options[option]
    if pack is None:
        return given(design.mass, f"{design.name}, mass"), given(design.arm, f"{design.name}, arm")
    # a value of the design keeps the label of the design: it is shared by serials, and its error has one name
    # in all of them
    arm = (
        given(pack.arm, f"battery {pack.pack}, arm") if pack.arm else given(design.arm, f"{design.name}, arm")
    )
    return given(pack.mass, f"battery {pack.pack}, mass"), arm


def _pair(suffix: str, words: str, masses: list[Input], arms: list[Input]) -> tuple[Figure, Figure]:
    dot = f".{suffix}" if suffix else ""
    return (
        evaluate(weights.total_mass, f"empty_mass{dot}", f"Empty mass {words}", "mass", {"m_i": masses}),
        evaluate(
            weights.centre_of_gravity,
            f"empty_cg{dot}",
            f"Empty centre of gravity {words}",
            "length",
            {"m_i": masses, "x_i": arms},
            style="arm",
            steps=balance(masses, arms),
        ),
    )


def _with_pack(
    bare: tuple[Figure, Figure], suffix: str, words: str, mass: Input, arm: Input
) -> tuple[Figure, Figure]:
    return _pair(suffix, words, [taken(bare[0]), mass], [taken(bare[1]), arm])


def _with_every_option(name: str, words: str, mass: Figure, aircraft: Aircraft, state: State) -> Figure:
    left_out = [item for key, item in aircraft.items.items() if item.optional and key in state.left_out]
    added = ", ".join(str(item.name) for item in left_out)
    note = (
        f"Not in this serial, and added with the mass of the type's list: {added}."
        if added
        else "Every optional item is in this serial."
    )
    return evaluate(
        weights.total_mass,
        f"empty_mass.{name}.every_option",
        f"Empty mass with {words} and every optional item of the type",
        "mass",
        {"m_i": [taken(mass), *(given(item.mass, str(item.name)) for item in left_out)]},
        note=note,
    )


def _above(weighed: Figure, listed: Figure) -> Figure:
    return evaluate(
        weights.total_mass,
        "mass_above_design",
        "Empty mass without battery, weighed less designed",
        "mass",
        {
            "m_i": [
                taken(weighed),
                Input(f"{listed.label} (taken off)", "mass", -1 * listed.estimate, listed.name),
            ]
        },
    )


def _chord(arm: Figure, aircraft: Aircraft) -> Figure:
    geometry = aircraft.geometry
    assert geometry.mean_aerodynamic_chord
    assert geometry.leading_edge_of_chord
    return evaluate(
        weights.chord_fraction,
        arm.name.replace("empty_cg", "empty_cg_chord"),
        f"{arm.label}, on the mean aerodynamic chord",
        "ratio",
        {
            "x_CG": taken(arm),
            "x_LEMAC": given(geometry.leading_edge_of_chord, "leading edge of the mean aerodynamic chord"),
            "c_MAC": given(geometry.mean_aerodynamic_chord, "mean aerodynamic chord"),
        },
    )


def designed(aircraft: Aircraft, state: State) -> tuple[Figure, Figure]:
    """Add up the type's list of masses for this aircraft, without battery."""
    items = [item for name, item in aircraft.items.items() if name not in state.left_out]
    masses = [given(item.mass, str(item.name)) for item in items]
    arms = [given(item.arm, f"arm, {item.name}") for item in items]
    return (
        evaluate(
            weights.total_mass,
            "designed_mass.without_battery",
            "Empty mass without battery, from the list of the design",
            "mass",
            {"m_i": masses},
        ),
        evaluate(
            weights.centre_of_gravity,
            "designed_cg.without_battery",
            "Empty centre of gravity without battery, from the list of the design",
            "length",
            {"m_i": masses, "x_i": arms},
            style="arm",
            steps=balance(masses, arms),
        ),
    )
