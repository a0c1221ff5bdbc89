"""One broken record for each finding code: an edit of the starter project."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Broken:
    """What is changed in the starter project. Each edit replaces a text that must be there."""

    code: str
    edits: tuple[tuple[str, str, str], ...] = ()
    """File, text, new text."""
    whole: dict[str, bytes] = field(default_factory=dict)
    """Files written as a whole."""
    absent: tuple[str, ...] = ()
    """Files taken away."""
    only: str | None = None
    """The serial that is asked for."""


AIRCRAFT, BATTERY, COMPLIANCE, HAZARDS = "aircraft.yaml", "battery.yaml", "compliance.yaml", "hazards.yaml"
RECORD, PROCEDURE, ASSEMBLY = "serials/0001/record.yaml", "procedures/rigging.yaml", "assembly.yaml"
DEEP = b"hazards: " + b"[" * 60 + b"]" * 60 + b"\n"
PACK_FITTED = (
    "  - event: pack-fitted\n    date: 2026-05-02\n    by: A. Builder\n    pack: P-001\n"
    '    option: standard-pack\n    mass: "18.4 kg ± 0.1 kg"\n'
)
SECOND_RECORD = b"""serial_number: "0002"
build: {started: 2026-01-12, built_at: Sampletown, design_revision: "1"}
events:
  - event: pack-fitted
    date: 2026-05-02
    by: A. Builder
    pack: P-001
    option: standard-pack
    mass: "18.4 kg"
"""
NONCONFORMITY = """nonconformities:
  - number: NC-1
    step: main-pins
    found: 2026-02-20
    description: One pin has a scratch along its length.
"""
REWORKED = """    disposition: rework
    reason: The pin was polished.
    decided_by: C. Colleague
    closed: 2026-03-01
"""
MOTOR_OUT = """  - event: equipment-change
    date: 2026-02-01
    by: A. Builder
    item: motor
    removed: [{name: Motor, mass: "9.5 kg", arm: "1.9 m"}]
"""
CURED = '    cure: {time: "20 h", lowest: "19 °C", highest: "23 °C"}\n'
LOGGED_CURE = """    cure:
      time: "20 h"
      lowest: "19 °C"
      highest: "23 °C"
      log: {file: evidence/cure.csv, time: Time / h, temperature: Mould / °C, within: "0.4 °C"}
    evidence:
      - {file: evidence/cure.csv, shows: "The mould while the spar bond hardened"}
"""
AILERON = """  aileron:
    name: Aileron connector
    kind: manual control
    between: [fuselage, wing]
    lock: none
    critical: true
    ways: [{control: stick, moves: left, surface: left aileron, goes: up}]
circuits:
"""
SENSES = """        critical: true
        second_check: "Hold the aileron. Stick left: the left aileron is up"
        senses: [aileron]
        done_by: builder
        checked_by: second person
  - name: Acceptance
"""
PINS_END = "        done_by: builder\n        checked_by: second person\n  - name: Acceptance\n"
HOOKED_UP = (("rigging.yaml", "circuits:\n", AILERON), (ASSEMBLY, PINS_END, SENSES))
SAW = (RECORD, 'measured: "0.05 mm",', 'measured: "0.05 mm", seen: [{}],')
SAW_UP = "{control: stick, moves: left, surface: left aileron, goes: up}"
MAINTENANCE = "maintenance.yaml"
DUE = b"""tasks:
  yearly: {name: Inspection, every: {months: 3}, level: builder, source: own}
"""
BY_LIST = DUE.replace(b"level:", b"procedure: preflight, level:").replace(b"months: 3", b"months: 99")
TICKED = (
    "events:\n  - {event: list-completed, date: 2026-01-20, by: A. Builder, procedure: preflight, digest: "
    + "0" * 64
    + ", people: [A. Builder], steps_done: 4, second_checks_done: 0}\n"
)
LIFE = b"""life_limits:
  motor: {component: motor, name: Motor, life: {months: 3}, source: own}
"""
FLOWN = """events:
  - {event: inspection, date: 2026-01-20, by: A. Builder, what: all, result: good, \
flight_hours: "5 h", cycles: 9}
  - {event: inspection, date: 2026-01-21, by: A. Builder, what: all, result: good, \
flight_hours: "4 h", cycles: 8}
"""
SHELF = '  baggage: {name: Shelf, arm: "0.80 m", minimum: "0 kg", maximum: "5 kg"}\n'
REMOVED = "  - event: pack-removed\n    date: 2026-05-02\n    by: A. Builder\n    pack: P-001\n"
RULE_SET_HEAD = (
    b"rule_set: us-14-cfr-103\ntitle: Own\njurisdiction: here\nrevision: first\n"
    b"last_checked: 2026-01-01\nscope: nothing\nsources: {}\nrequirements: {}\n"
)


RESISTANCE = """    resistance:               # at 25 °C: (rest voltage - voltage under a lasting current) \
/ current
      - {state_of_charge: "10 %", resistance: "45 mΩ"}
      - {state_of_charge: "30 %", resistance: "35 mΩ"}
      - {state_of_charge: "90 %", resistance: "33 mΩ"}
"""
REST = """    open_circuit_voltage:     # at rest, from empty to full
      - {state_of_charge: "0 %", voltage: "2.9 V"}
      - {state_of_charge: "10 %", voltage: "3.3 V"}
      - {state_of_charge: "50 %", voltage: "3.7 V"}
      - {state_of_charge: "90 %", voltage: "4.08 V"}
      - {state_of_charge: "100 %", voltage: "4.2 V"}
"""
IRON_PHOSPHATE = (
    (BATTERY, "chemistry: lithium-nmc", "chemistry: lithium-iron-phosphate"),
    (BATTERY, REST, "    generic_open_circuit_voltage: lfp\n"),
    (BATTERY, 'full_cell_voltage: "4.15 V"', 'full_cell_voltage: "3.5 V"'),
    (BATTERY, 'empty_cell_voltage: "3.2 V"', 'empty_cell_voltage: "2.8 V"'),
)
USE = """use:
  hours_per_year: "40 h"
  flights_per_year: 60
  charge_before_flight: "95 %"
  charge_after_flight: "20 %"
  storage_charge: "95 %"
  storage_temperature: "15 °C"
"""
SHORT_LIST = b"""title: Winter check
kind: storage
purpose: What is looked at before the first flight of a year.
people: 1
sections: [{title: Fuselage, steps: [{do: Look into the fuselage., expect: It is dry.}]}]
closing: Complete.
"""
TWO_NAMES = (
    "      - {file: evidence/notes.md, shows: what was seen}\n"
    "      - {file: evidence/notes.md.txt, shows: what was seen as well}\n"
)
LOGGED = (
    PACK_FITTED
    + """    measured_capacity: "{stated}"
    evidence:
      - {{file: {cited}, shows: A discharge of the whole battery}}
    log: {{file: evidence/discharge.csv, discharge: positive}}
"""
)


def discharge(first: float, last: float) -> bytes:
    """Write a log at 20 A whose voltage falls on a straight line from the first row under load
    to the last."""
    rows = ((second, first - (first - last) * second / 10920) for second in (1, *range(120, 10921, 120)))
    lines = "".join(f"{second},{volts:.2f},20\n" for second, volts in rows)
    return f"Test Time / s,Voltage / V,Current / A\n0,58.10,0\n{lines}13000,44.90,0\n".encode()


DISCHARGE = discharge(57.4, 44.0)
ASKED_OF_A_BATTERY = """limits:
  retirement: {name: Retired below, value: "80 %", reason: own}
  hottest_battery: {name: Hottest battery, value: "60 °C", reason: own}
"""
UNUSED_HAZARD = """hazards:
  dust:
    word: caution
    topic: ground
    hazard: Dust from sanding.
    consequence: It hurts the lungs.
    avoidance: Wear a mask.
"""
PICTURE = (
    PROCEDURE,
    "        expect: The plug hangs free and both halves are capped.\n",
    (
        "        expect: The plug hangs free and both halves are capped.\n"
        "        picture: {file: pictures/plug.png, shows: Both halves under their caps.}\n"
    ),
)
PNG_HEAD = b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR"
WIDE_PNG = (
    PNG_HEAD
    + b"\x00\x00\x20\x00\x00\x00\x00\x10"
    + b"\x08\x00\x00\x00\x00"
    + b"\x00" * 30
    + b"IEND\xaeB`\x82"
)
DISPLAY_FUSE = """    display-fuse:
      name: Display fuse
      rated_current: "10 A"
      rated_voltage: "58 V"
      interrupt_rating: "1 kA"
      source: sheet
"""
WIRING = (
    """wiring:
  coldest_battery: "10 °C"
  conductors:
    main:
      name: Main cable
      gauge: "2/0"
      insulation: silicone
      rated_temperature: "200 °C"
      rated_voltage: "600 V"
      one_way_length: "1.2 m"
      laid: bundle
      fuse: main-fuse
      through: [plug]
    display:
      name: Display feed
      gauge: "16"
      insulation: ETFE
      rated_temperature: "150 °C"
      rated_voltage: "600 V"
      one_way_length: "1.5 m"
      laid: bundle
      load: {current: "6 A", voltage: "14 V", source: sum of the sheets}
      fuse: display-fuse
  fuses:
    main-fuse:
      name: Main fuse
      rated_current: "270 A"
      rated_voltage: "80 V"
      interrupt_rating: "20 kA"
      burst: {current: "400 A", time: "60 s"}
      source: sheet
"""
    + DISPLAY_FUSE
    + """  connectors:
    plug:
      name: Main plug
      kind: plug
      rated_current: "250 A"
      rated_voltage: "150 V"
      burst: {current: "350 A", time: "60 s"}
      source: sheet

"""
)
LIST_EVENT = b"""event: list-completed
date: 2026-05-03
by: A. Builder
procedure: rigging
digest: 3f2a
people: [A. Builder]
steps_done: 3
second_checks_done: 0
"""


def cured(code: str, hours: int, temperature: float, swing: float) -> Broken:
    """A log of a cure, a row each half hour, that swings about a temperature."""
    rows = "".join(
        f"{half / 2:g},{temperature + swing * (1 if half % 4 < 2 else -1):g}\n"
        for half in range(2 * hours + 1)
    )
    log = f"Time / h,Mould / °C\n{rows}".encode()
    return Broken(code, ((RECORD, CURED, LOGGED_CURE),), {"serials/0001/evidence/cure.csv": log})


def hooked_up(code: str, seen: str, *edits: tuple[str, str, str]) -> Broken:
    """A starter whose second step looks at the sense of an aileron; its entry says what was seen."""
    return Broken(code, (*HOOKED_UP, (*SAW[:2], SAW[2].format(seen)), *edits))


def edit(code: str, file: str, old: str, new: str) -> Broken:
    """Break one place."""
    return Broken(code, ((file, old, new),))


def wired(code: str, old: str, new: str) -> Broken:
    """Break one place of a wiring that is good as it stands."""
    return Broken(code, ((BATTERY, "charger: {", WIRING + "charger: {"), (BATTERY, old, new)))


AERODYNAMICS = """aerodynamics:
  zero_lift_drag_coefficient: {value: "0.0172 ± 0.0010", reason: calculation}
  oswald_factor: {value: "0.80 ± 0.06", reason: calculation}
  maximum_lift_coefficient: {value: "1.50 ± 0.08", reason: calculation}

"""
RUNS = """  - event: flight-test
    date: 2026-05-02
    by: A. Builder
    results:
      - {quantity: stall_speed, value: "45 km/h ± 1 km/h", basis: CAS, configuration: mean, at_mass: "200 kg"}
    stalls:
      at_mass: "200 kg"
      runs: [{calibrated_speed: "40 km/h"}, {calibrated_speed: "39 km/h"}]
"""
TAKE_OFF = """  take_off:
    lift_off_factor: {value: "1.15", reason: own}
    rolling_friction: {value: "0.05", reason: own}
    rolling_lift_coefficient: {value: "0.5", reason: own}
    propeller_diameter: "1.30 m"
    propeller_merit: {value: "0.6", reason: own}

plan_view:
  wing:
    - {lateral_arm: "0 m", leading_edge: "0.1 m", trailing_edge: "1.2 m"}
    - {lateral_arm: "5 m", leading_edge: "0.1 m", trailing_edge: "1.2 m"}
  fuselage: [{arm: "0 m", half_width: "0.3 m"}, {arm: "3 m", half_width: "0.1 m"}]
  propeller: {arm: "1.9 m", diameter: "1.20 m"}
"""
FLIGHT_TEST = """  - event: flight-test
    date: 2026-05-02
    by: A. Builder
    results: []
    glide_points:
"""
RIGHT_WHEEL = (
    '      - {name: right wheel, scale: right, readings: ["53.05 kg", "53.05 kg"], tare: "0.40 kg", '
    'arm: "0.35 m ± 0.002 m", lateral_arm: "0.40 m"}\n'
)
TAIL_SKID = (
    '      - {name: tail skid, scale: tail, readings: ["11.10 kg", "11.15 kg"], '
    'arm: "3.60 m ± 0.005 m", lateral_arm: "0.00 m"}\n'
)
STALL = (
    '      - {quantity: stall_speed, value: "22 kt ± 0.5 kt", basis: CAS, configuration: power off, '
    'at_mass: "220 kg"}\n'
)
SINK_TEST = """  - event: flight-test
    date: 2026-05-02
    by: A. Builder
    results:
      - {quantity: minimum_sink, value: "1.10 m/s ± 0.05 m/s", configuration: motor off, at_mass: "205 kg"}
"""
STALL_TEST = f"""  - event: flight-test
    date: 2026-05-02
    by: A. Builder
    results:
{STALL}"""
SLOWER = STALL_TEST.replace("22 kt", "30 kt")
LAST_LINE = "      - {file: evidence/weighing.csv, shows: readings as written down}\n"


def landing(code: str, charge: str) -> Broken:
    """State a limit of charge at which to land."""
    limit = f'  land_at: {{name: Charge at which to land, value: "{charge}", reason: own choice}}\n'
    use = USE.replace('"95 %"\n  storage_t', '"50 %"\n  storage_t') + "  landing_charge_limit: land_at\n"
    return Broken(
        code, ((AIRCRAFT, "limits:\n", "limits:\n" + limit), (AIRCRAFT, "profile:", use + "profile:"))
    )


def cold_limit(code: str) -> Broken:
    """Allow a take-off at a temperature at which no flight has an answer: the cell falls off in the cold."""
    limit = '  coldest: {name: Coldest battery for take-off, value: "0 °C", reason: own choice}\n'
    use = USE.replace('"95 %"\n  storage_t', '"50 %"\n  storage_t') + "  coldest_take_off_limit: coldest\n"
    return Broken(
        code,
        (
            (AIRCRAFT, "limits:\n", "limits:\n" + limit),
            (AIRCRAFT, "profile:", use + "profile:"),
            (
                BATTERY,
                "application: power ",
                'resistance_temperature_constant: "9000 K"\n    application: power ',
            ),
        ),
    )


def flown(code: str, *glides: tuple[float, str]) -> Broken:
    """Break the glides of a flight test: each a speed in m/s and a sink."""
    points = "".join(
        f'      - {{speed: "{speed} m/s", sink: "{sink} m/s ± 0.02 m/s"}}\n' for speed, sink in glides
    )
    return Broken(
        code,
        (
            (AIRCRAFT, "\nprofile:", f"\n{AERODYNAMICS}profile:"),
            (RECORD, LAST_LINE, LAST_LINE + FLIGHT_TEST + points),
        ),
    )


CASES: tuple[Broken, ...] = (
    Broken("R001", whole={HAZARDS: b"#" * 2_000_001}),
    Broken("R002", whole={HAZARDS: b"hazards:\n  a: {hazard: \xff}\n"}),
    Broken("R003", whole={HAZARDS: b"- a list\n"}),
    edit("R004", HAZARDS, "    topic: battery", "\ttopic: battery"),
    edit("R005", HAZARDS, "topic: battery", "topic: bat\u200btery"),
    edit("R006", HAZARDS, "word: warning", "word: warning: yes"),
    Broken("R007", whole={HAZARDS: DEEP}),
    edit("R008", HAZARDS, "  joint-not-locked:", "---\n  joint-not-locked:"),
    edit("R009", HAZARDS, "word: danger", "<<: {word: danger}"),
    edit("R010", HAZARDS, "word: danger", "word: !!str danger"),
    edit("R011", HAZARDS, "    word: danger", "    [word]: danger"),
    edit("R012", HAZARDS, "    word: danger", "    word: danger\n    word: caution"),
    edit("R014", RECORD, "evidence/weighing.csv", "evidence/wieghing.csv"),
    edit("M001", HAZARDS, "    consequence: The wing separates and you die.\n", ""),
    edit("M002", HAZARDS, "avoidance: Pull", "avoidence: Pull"),
    edit("M003", HAZARDS, "word: danger", "word: [danger]"),
    edit(
        "M004",
        HAZARDS,
        "hazard: The battery is live whenever its plug is in, and cells cannot be switched off.",
        'hazard: " "',
    ),
    edit("M005", COMPLIANCE, "  guarded: {kind", "  Guarded Rule: {kind"),
    edit("M006", RECORD, 'serial_number: "0001"', 'serial_number: "00/01"'),
    edit("M007", RECORD, "started: 2026-01-12", "started: 12.1.2026"),
    edit("M008", AIRCRAFT, "invented: true ", "invented: yes "),
    edit("M009", BATTERY, "series: 14", "series: 14.5"),
    Broken("M015", whole={"serials/0001/events/rigged.yaml": LIST_EVENT}),
    edit("M010", RECORD, "evidence/weighing.csv", "../0002/weighing.csv"),
    edit("M011", RECORD, 'readings: ["53.20 kg", "53.25 kg"]', "readings: [53.20, 53.25 lbs]"),
    edit("M012", PROCEDURE, "kind: rigging", "kind: riging"),
    Broken(
        "M013",
        (
            (
                RECORD,
                "events:\n",
                "events:\n  - {event: edition, date: 2026-01-20, by: A. Builder, letter: a, reason: first}\n",
            ),
        ),
    ),
    edit("M014", PROCEDURE, "loose_items: [2 main pins, 2 safety pins]", "loose_items: 2 main pins"),
    Broken("P001", absent=(AIRCRAFT,)),
    Broken("P002", absent=(HAZARDS,)),
    edit("P003", RECORD, 'serial_number: "0001"', 'serial_number: "1"'),
    Broken("P004", only="0099"),
    edit("P010", PROCEDURE, "hazards: [joint-not-locked]", "hazards: [joint-not-lockd]"),
    edit("P011", AIRCRAFT, 'value: "225 kg"', 'value: "225 kt"'),
    edit(
        "P012",
        AIRCRAFT,
        "{mark: red line, at: never_exceed_speed, meaning: never exceed}",
        "{mark: red line, start: never_exceed_speed, meaning: never exceed}",
    ),
    edit("P013", AIRCRAFT, '  leading_edge_of_chord: "0.02 m"\n', ""),
    edit("P014", AIRCRAFT, '{mass: "150 kg", forward: "0.20 m"', '{mass: "250 kg", forward: "0.50 m"'),
    edit(
        "P015", AIRCRAFT, "{name: Cruise, kind: cruise}", '{name: Cruise, kind: cruise, duration: "20 min"}'
    ),
    edit("P016", AIRCRAFT, '{name: Climb, kind: climb, height: "300 m"}', "{name: Climb, kind: climb}"),
    edit("P017", AIRCRAFT, 'controller: "0.96 ± 0.02"', 'controller: "96"'),
    edit("P018", RECORD, 'readings: ["53.20 kg", "53.25 kg"]', "readings: []"),
    edit("P019", BATTERY, "  standard-pack:\n", "  without_battery:\n"),
    edit(
        "P020",
        BATTERY,
        '{state_of_charge: "50 %", voltage: "3.7 V"}',
        '{state_of_charge: "50 %", voltage: "3.2 V"}',
    ),
    edit("P021", BATTERY, 'full_cell_voltage: "4.15 V"', 'full_cell_voltage: "4.25 V"'),
    edit(
        "P023",
        AIRCRAFT,
        "limits:\n",
        'plan_view:\n  wing:\n    - {lateral_arm: "0 m", leading_edge: "1.2 m", trailing_edge: "0.1 m"}\n\n'
        "limits:\n",
    ),
    Broken("P030", whole={"rule_sets/us-14-cfr-103.yaml": RULE_SET_HEAD}),
    edit("P031", COMPLIANCE, ", coverage: 95 %", ""),
    edit("P040", HAZARDS, "hazards:\n", UNUSED_HAZARD),
    Broken(
        "P041",
        (
            (
                PROCEDURE,
                "        by: pilot\n",
                (
                    "        by: pilot\n"
                    "        on_card: {do: Pull the red plug of the battery., second_check: Look.}\n"
                ),
            ),
        ),
    ),
    edit("P043", PROCEDURE, "closing: ", "closing: Go on with the list {list.de-riging}. "),
    edit("P042", PROCEDURE, "  - title: Wings\n", "  - title: Wings, below {take_off_mass}\n"),
    edit("P050", RECORD, "assembly:\n", "items_left_out: [wing]\nassembly:\n"),
    Broken("P051", whole={"serials/0002/record.yaml": SECOND_RECORD}),
    Broken("P070", whole={"hazard.yaml": b"hazards: {}\n", "procedures/winter.yml": SHORT_LIST}),
    Broken("P071", whole={"procedure/winter.yaml": SHORT_LIST}),
    Broken("P072", whole={"rule_sets": b"rules\n"}),
    Broken("P073", whole={"serials/0002/evidence/weighing.csv": b"support,kg\n"}),
    Broken("P074", whole={"procedures/winter.yaml": SHORT_LIST, "procedures/Winter.yaml": SHORT_LIST}),
    edit(
        "E001",
        RECORD,
        "  - event: weighing\n    date: 2026-05-02",
        "  - event: weighing\n    date: 2026-04-30",
    ),
    edit("E002", RECORD, "option: standard-pack", "option: long-pack"),
    edit("E003", RECORD, "  - event: weighing", PACK_FITTED + "  - event: weighing"),
    edit(
        "E004",
        RECORD,
        "  - event: weighing",
        REMOVED + "    retired: true\n" + PACK_FITTED + "  - event: weighing",
    ),
    edit(
        "E005", RECORD, "  - event: weighing", PACK_FITTED.replace("P-001", "P-002") + "  - event: weighing"
    ),
    edit("E006", RECORD, "  - event: weighing", REMOVED.replace("P-001", "P-009") + "  - event: weighing"),
    Broken(
        "E007",
        (
            (
                RECORD,
                "events:\n",
                (
                    "events:\n"
                    "  - {event: edition, date: 2026-01-20, by: A. Builder, letter: B, reason: first}\n"
                    "  - {event: edition, date: 2026-01-21, by: A. Builder, letter: A, reason: second}\n"
                ),
            ),
        ),
    ),
    edit(
        "E008",
        RECORD,
        "  - event: weighing",
        "  - {event: capacity-test, date: 2026-05-02, by: A. Builder, pack: P-009, capacity: 68 Ah, "
        "conditions: 10 A at 20 °C}\n  - event: weighing",
    ),
    Broken("E010", ((RECORD, RIGHT_WHEEL, ""), (RECORD, TAIL_SKID, ""))),
    edit("E011", RECORD, TAIL_SKID, ""),
    edit("E012", RECORD, "name: right wheel", "name: left wheel"),
    edit("E013", RECORD, LAST_LINE, LAST_LINE + STALL_TEST + STALL.replace("22 kt", "30 kt")),
    edit("E014", RECORD, LAST_LINE, LAST_LINE + STALL_TEST.replace("05-02", "06-02")),
    edit("E015", RECORD, LAST_LINE, LAST_LINE + SLOWER + STALL_TEST),
    Broken("R016", (PICTURE,)),
    Broken(
        "R018",
        (PICTURE,),
        {"pictures/plug.png": b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>"},
    ),
    Broken("R019", (PICTURE,), {"pictures/plug.png": WIDE_PNG}),
    Broken(
        "R024",
        ((RECORD, LAST_LINE, LAST_LINE + TWO_NAMES),),
        {
            "serials/0001/evidence/notes.md": b"calm air\n",
            "serials/0001/evidence/notes.md.txt": b"calm air\n",
        },
    ),
    edit("A001", RECORD, "step: main-pins", "step: main-pin"),
    edit("A002", RECORD, "    checked: 2026-02-04\n", "    checked: 2026-02-24\n"),
    edit("A003", RECORD, "step: main-pins, date: 2026-02-20", "step: main-pins, date: 2025-12-20"),
    edit("A004", RECORD, "made: 2025-11-20", "made: 2025-01-20"),
    edit("A005", RECORD, "    materials: [{material: adhesive, lot: AD-7, made: 2025-11-20}]\n", ""),
    edit("A006", RECORD, 'measured: "0.05 mm"', 'measured: "0.09 mm"'),
    Broken("A007", ((RECORD, "events:\n", NONCONFORMITY + "events:\n"),)),
    Broken("A008", ((RECORD, "events:\n", NONCONFORMITY + "    closed: 2026-02-21\nevents:\n"),)),
    edit("A009", RECORD, "  wing: {serial_number: W-1}\n", ""),
    edit("A010", RECORD, "by: A. Builder, checked_by: C. Colleague, measured", "by: A. Builder, measured"),
    edit("A011", ASSEMBLY, 'minimum: "0.02 mm"', 'minimum: "0.12 mm"'),
    edit(
        "A012",
        RECORD,
        'measured: "0.05 mm", result: done',
        'measured: "0.05 mm", result: accepted with reason',
    ),
    edit("A013", ASSEMBLY, "        checked_by: second person\n        hold: true", "        hold: true"),
    edit("A014", ASSEMBLY, "      weighed: {", "      main-pins: {"),
    cured("A022", hours=15, temperature=21.0, swing=1.0),
    Broken(
        "A023",
        (
            (RECORD, CURED, LOGGED_CURE),
            (
                ASSEMBLY,
                '        cure: {time: "16 h", lowest: "18 °C", highest: "30 °C", source: maker\'s sheet}\n',
                "",
            ),
        ),
        {"serials/0001/evidence/cure.csv": b"Time / h,Mould / \xc2\xb0C\n0,21\n10,22\n20,21\n"},
    ),
    edit(
        "A024",
        ASSEMBLY,
        "        do: Clearance of the main pins\n",
        "        do: Clearance of the main pins\n        joins: [left-main-pin, right-main-pin]\n",
    ),
    hooked_up("A025", SAW_UP, (ASSEMBLY, "left aileron is up", "left aileron is down")),
    hooked_up("A026", SAW_UP, (RECORD, "2026-02-20, by: A. Builder", "2026-02-20, by: C. Colleague")),
    hooked_up("A027", SAW_UP.replace("goes: up", "goes: down")),
    Broken("A028", (HOOKED_UP[0],)),
    cured("L013", hours=20, temperature=21.0, swing=0.0),
    edit("A015", RECORD, 'measured: "0.05 mm"', 'measured: "0.079 mm ± 0.004 mm"'),
    Broken("A016", ((RECORD, "events:\n", NONCONFORMITY + REWORKED + "events:\n"),)),
    Broken("A017", ((RECORD, "events:\n", "events:\n" + MOTOR_OUT),)),
    edit("A018", ASSEMBLY, "        hold: true            #", "        binds: [main-pins]    #"),
    Broken(
        "A019",
        (
            ("aircraft.yaml", "  wing: {name: Wing,", "  wing: {part_number: W-100, issue: B, name: Wing,"),
            (
                RECORD,
                "  wing: {serial_number: W-1}\n",
                "  wing: {serial_number: W-1, part_number: W-100, issue: A}\n",
            ),
        ),
    ),
    edit("A020", RECORD, 'design_revision: "1"}', 'design_revision: "0"}'),
    Broken(
        "A021",
        (
            (ASSEMBLY, "shelf_life: 12}", 'shelf_life: 12, pot_life: "60 min"}'),
            (RECORD, "lot: AD-7, made: 2025-11-20}", 'lot: AD-7, made: 2025-11-20, worked: "75 min"}'),
        ),
    ),
    Broken(
        "S001",
        ((RECORD, 'design_revision: "1"}', 'design_revision: "1", completed: 2026-01-31}'),),
        {MAINTENANCE: DUE},
    ),
    Broken(
        "S002",
        ((RECORD, 'design_revision: "1"}', 'design_revision: "1", completed: 2026-01-31}'),),
        {MAINTENANCE: LIFE},
    ),
    Broken("S003", ((RECORD, "events:\n", FLOWN),)),
    Broken("S004", whole={MAINTENANCE: DUE.replace(b"months: 3", b"")}),
    Broken("S005", whole={MAINTENANCE: DUE.replace(b"months: 3", b"limit: never_exceed_speed")}),
    Broken("S006", ((RECORD, "events:\n", TICKED),), {MAINTENANCE: BY_LIST}),
    edit("W006", RECORD, "    scales:\n", '    pitch_error: "0.5 deg"\n    scales:\n'),
    edit("W007", RECORD, ', lateral_arm: "0.00 m"', ""),
    edit("W001", RECORD, 'readings: ["11.10 kg", "11.15 kg"]', 'readings: ["11.10 kg"]'),
    edit(
        "W002",
        RECORD,
        "serial_number: S-3, calibrated",
        'zero_before: "0.00 kg", zero_after: "0.15 kg", serial_number: S-3, calibrated',
    ),
    edit(
        "W003",
        RECORD,
        "{name: Tail scale, serial_number: S-3, calibrated: 2026-03-01",
        "{name: Tail scale, serial_number: S-3, calibrated: 2023-03-01",
    ),
    edit(
        "W004",
        RECORD,
        "{name: Tail scale, serial_number: S-3, calibrated: 2026-03-01",
        "{name: Tail scale, serial_number: S-3, calibrated: 2026-06-01",
    ),
    Broken(
        "W005",
        (
            (
                RECORD,
                "  - event: weighing",
                (
                    "  - event: inspection\n    date: 2026-05-03\n    by: A. Builder\n    what: all\n"
                    "    result: good\n  - event: weighing"
                ),
            ),
            (
                RECORD,
                "    date: 2026-05-02\n    by: A. Builder\n    place_of_weighing",
                "    date: 2026-06-02\n    by: A. Builder\n    place_of_weighing",
            ),
        ),
    ),
    edit(
        "W008",
        RECORD,
        'tare: "0.40 kg", arm: "0.35 m ± 0.002 m", lateral_arm: "-0.40 m"',
        'tare: "14.0 kg", arm: "0.35 m ± 0.002 m", lateral_arm: "-0.40 m"',
    ),
    edit("D001", BATTERY, RESISTANCE, ""),
    edit("D002", BATTERY, RESISTANCE, RESISTANCE.replace(" mΩ", "0 mΩ")),
    Broken(
        "D003",
        ((BATTERY, "application: power ", "application: energy"), (BATTERY, "4.9 Ah ± 0.1 Ah", "3.5 Ah")),
    ),
    edit("D004", BATTERY, '"30 %", resistance: "35 mΩ"', '"30 %", resistance: "150 mΩ"'),
    Broken("D005", ((AIRCRAFT, "profile:", USE + "profile:"),)),
    edit("D006", BATTERY, REST, "    generic_open_circuit_voltage: nmc811\n"),
    Broken("D007", IRON_PHOSPHATE),
    edit("D008", RECORD, PACK_FITTED, PACK_FITTED + '    health: "88 %"\n'),
    Broken("D009", IRON_PHOSPHATE),
    landing("D010", "20 %"),
    landing("D011", "60 %"),
    cold_limit("D012"),
    edit("P027", BATTERY, REST, ""),
    Broken(
        "L009",
        ((RECORD, PACK_FITTED, LOGGED.format(stated="80 Ah ± 1 Ah", cited="evidence/discharge.csv")),),
        {"serials/0001/evidence/discharge.csv": DISCHARGE},
    ),
    Broken(
        "L010",
        ((RECORD, PACK_FITTED, LOGGED.format(stated="68 Ah ± 1 Ah", cited="evidence/discharge.csv")),),
        {"serials/0001/evidence/discharge.csv": discharge(57.4, 40.0)},
    ),
    Broken(
        "L011",
        ((RECORD, PACK_FITTED, LOGGED.format(stated="68 Ah ± 1 Ah", cited="evidence/discharge.csv")),),
        {"serials/0001/evidence/discharge.csv": DISCHARGE.replace(b"\n1,57.40", b"\n1,55.40")},
    ),
    Broken(
        "L012",
        (
            (RECORD, PACK_FITTED, LOGGED.format(stated="68 Ah ± 1 Ah", cited="evidence/discharge.csv")),
            (
                BATTERY,
                "charger: {",
                (
                    "acceptance: {least_capacity_limit: retirement, hottest_limit: hottest_battery}\n\n"
                    "charger: {"
                ),
            ),
            (AIRCRAFT, "limits:\n", ASKED_OF_A_BATTERY),
        ),
        {"serials/0001/evidence/discharge.csv": DISCHARGE},
    ),
    edit("C007", RECORD, PACK_FITTED, PACK_FITTED + '    health: "60 % ± 1 %"\n'),
    Broken(
        "P045",
        (
            (
                RECORD,
                PACK_FITTED,
                LOGGED.format(stated="68 Ah ± 1 Ah", cited="evidence/discharge.csv").replace(
                    "discharge: positive", "discharge: positive, cells: [Cell 1 / V, Cell 2 / V]"
                ),
            ),
        ),
        {"serials/0001/evidence/discharge.csv": DISCHARGE},
    ),
    Broken(
        "P024",
        ((RECORD, PACK_FITTED, LOGGED.format(stated="68 Ah ± 1 Ah", cited="evidence/other.csv")),),
        {"serials/0001/evidence/discharge.csv": DISCHARGE, "serials/0001/evidence/other.csv": DISCHARGE},
    ),
    Broken("P025", ((AIRCRAFT, "profile:", USE.replace('"20 %"', '"97 %"') + "profile:"),)),
    edit("P026", BATTERY, '"30 %", resistance', '"3 %", resistance'),
    edit("P046", BATTERY, "parallel: 14", "parallel: 36"),
    wired("P028", 'gauge: "16"', 'gauge: "16"\n      area: "1.5 mm²"'),
    wired("P029", "      through: [plug]\n", ""),
    wired("C010", 'gauge: "2/0"', 'gauge: "4"'),
    wired("C011", '"1.5 m"', '"4 m"'),
    wired("C012", '"270 A"', '"150 A"'),
    wired("C013", '"10 A"', '"15 A"'),
    wired("C014", '"80 V"', '"58 V"'),
    wired("C015", '"250 A"', '"100 A"'),
    wired("C016", '"20 kA"', '"1.2 kA"'),
    Broken(
        "C017",
        (
            (
                BATTERY,
                "charger: {",
                WIRING.replace("      fuse: display-fuse\n", "").replace(DISPLAY_FUSE, "") + "charger: {",
            ),
        ),
    ),
    wired("C018", '      interrupt_rating: "20 kA"\n', ""),
    wired("C019", 'gauge: "2/0"', 'gauge: "250 kcmil"'),
    edit("C001", AIRCRAFT, 'value: "225 kg"', 'value: "110 kg"'),
    edit("C002", AIRCRAFT, 'maximum_power: "9 kW"', 'maximum_power: "14 kW"'),
    edit("C003", BATTERY, 'bay:\n  size: {length: "450 mm"', 'bay:\n  size: {length: "430 mm"'),
    edit("C004", AIRCRAFT, 'maximum_power: "9 kW"', 'maximum_power: "2 kW"'),
    edit(
        "C005",
        RECORD,
        'tare: "0.40 kg", arm: "0.35 m ± 0.002 m", lateral_arm: "-0.40 m"',
        'tare: "60 kg", arm: "0.35 m ± 0.002 m", lateral_arm: "-0.40 m"',
    ),
    Broken(
        "C006",
        (
            (
                AIRCRAFT,
                "  maximum_take_off_mass: take_off_mass\n",
                SHELF + "  maximum_take_off_mass: take_off_mass\n",
            ),
            (
                AIRCRAFT,
                '{mass: "150 kg", forward: "0.20 m", aft: "0.45 m"}',
                '{mass: "150 kg", forward: "0.20 m", aft: "0.42 m"}',
            ),
        ),
    ),
    edit("P032", COMPLIANCE, "    relation: at least", "    quantity: level_power\n    relation: at least"),
    Broken(
        "P022",
        (
            (
                RECORD,
                LAST_LINE,
                LAST_LINE
                + FLIGHT_TEST
                + '      - {speed: "15 m/s", sink: "0.70 m/s", temperature: "10 °C"}\n',
            ),
        ),
    ),
    flown("F001", (13, "0.427"), (15, "0.344"), (18, "0.262"), (22, "0.194")),
    flown("F002", (12, "0.606"), (13, "0.602"), (15, "0.626"), (18, "0.735"), (22, "1.017")),
    flown("F003", (11.0, "0.919"), (11.5, "0.896"), (12, "0.878"), (12.5, "0.864")),
    flown("F004", (15, "0.843"), (17, "0.881"), (19, "0.963"), (22, "1.166")),
    flown("F005", (12, "0.878"), (15, "0.843"), (22, "1.166")),
    flown("F006", (11, "0.9"), (12, "0.9"), (15, "0.8"), (18, "0.9"), (22, "1.2")),
    flown("F007", (11, "1.102"), (12, "0.746"), (15, "0.970"), (18, "0.825"), (22, "1.282")),
    Broken(
        "F008",
        (
            (AIRCRAFT, "\nprofile:", f"\n{AERODYNAMICS}profile:"),
            (AIRCRAFT, "0.75 m/s ± 0.08 m/s", "0.45 m/s ± 0.02 m/s"),
        ),
    ),
    Broken("P047", ((AIRCRAFT, "\nprofile:", f"\n{AERODYNAMICS.rstrip()}\n{TAKE_OFF}\nprofile:"),)),
    Broken("P048", ((RECORD, LAST_LINE, LAST_LINE + RUNS.replace("calibrated_speed", "indicated_speed")),)),
    Broken("F010", ((RECORD, LAST_LINE, LAST_LINE + RUNS.replace(', {calibrated_speed: "39 km/h"}', "")),)),
    Broken("F011", ((RECORD, LAST_LINE, LAST_LINE + RUNS),)),
    Broken(
        "F008",
        (
            (AIRCRAFT, "\nprofile:", f"\n{AERODYNAMICS}profile:"),
            (AIRCRAFT, "0.75 m/s ± 0.08 m/s", "0.45 m/s ± 0.02 m/s"),
        ),
    ),
    Broken(
        "F009",
        ((AIRCRAFT, "\nprofile:", f"\n{AERODYNAMICS}profile:"), (RECORD, LAST_LINE, LAST_LINE + SINK_TEST)),
    ),
)
