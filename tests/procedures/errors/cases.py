"""One broken record for each code of the verifier: an edit of the bench."""

from __future__ import annotations

from dataclasses import dataclass

from procedures.workbench import AFTER, DERIG, MODEL, PREFLIGHT, RIG, Edit, step, swapped, without


@dataclass(frozen=True)
class Broken:
    """The code and the edits that bring it about."""

    code: str
    edits: tuple[Edit, ...]
    absent: tuple[str, ...] = ()
    """Files taken away."""


def edit(code: str, file: str, old: str, new: str) -> Broken:
    """Break one place."""
    return Broken(code, (Edit(file, old, new),))


def lacking(code: str, file: str, text: str) -> Broken:
    """Leave one step out."""
    return Broken(code, (without(file, text),))


def _turn(text: str, position: str) -> str:
    return (
        f"      - do: {text}\n        expect: Seen.\n        acts: "
        f"[{{act: set, what: rack, to: {position}}}]\n"
    )


INSPECT = (
    "        acts: [{act: safety, what: aileron}]\n        second_acts: [{act: inspect, what: aileron}]\n"
)

CASES: tuple[Broken, ...] = (
    edit("V002", RIG, "{act: check, what: wind}", "{act: lock, what: wind}"),
    edit("V003", PREFLIGHT, "starts_from: rigged", "starts_from: ready"),
    Broken(
        "V004",
        (
            Edit(MODEL, "  tail: {name: Tail,", "  tail: {option: radio, name: Tail,"),
            Edit(
                "aircraft.yaml",
                "  wing: {name: Wing,",
                '  radio: {name: Radio, group: instruments, mass: "1 kg", arm: "0 m", optional: true}\n  '
                "wing: {name: Wing,",
            ),
        ),
    ),
    edit("V005", RIG, "starts_from: trailer\nends_in: rigged\n", ""),
    edit("V006", MODEL, "    critical: true\n    looked_at: true\n", "    looked_at: true\n"),
    lacking("V010", RIG, "Carry the wing"),
    Broken("V011", (swapped(RIG, "Close the sleeve", "Fit the aileron safety"),)),
    Broken("V012", (Edit(RIG, step("Close the sleeve"), step("Close the sleeve") * 2),)),
    lacking("V013", DERIG, "Part the aileron"),
    lacking("V014", DERIG, "Take the weight"),
    edit("V015", MODEL, "  clip: {name: Clip, count: 1, kit: box}", "  clip: {name: Clip, count: 1}"),
    edit("V016", MODEL, "    marking: Red\n", ""),
    Broken("V020", (without(RIG, "Connect the battery"), without(DERIG, "Disconnect the battery"))),
    lacking("V021", RIG, "Fit the aileron safety"),
    lacking("V022", RIG, "Put the stand"),
    lacking("V023", RIG, "Move the pedals"),
    edit("V024", MODEL, "checks:\n", "checks:\n  light: {name: Daylight}\n"),
    lacking("V030", RIG, "Pull the rod"),
    edit("V031", RIG, INSPECT, INSPECT.split("\n")[0] + "\n"),
    edit(
        "V032",
        RIG,
        "second_acts: [{act: inspect, what: aileron}]",
        "second_acts: [{act: inspect, what: aileron, by: [ann]}]",
    ),
    lacking("V033", RIG, "Hold the aileron"),
    lacking("V034", RIG, "Move the stick"),
    edit(
        "V035",
        RIG,
        step("Move the pedals"),
        step("Move the pedals")
        + "      - do: Grease the connector.\n        expect: Greased.\n        acts: [{act: disturb, "
        "what: aileron}]\n",
    ),
    Broken(
        "V036",
        (
            Edit(RIG, step("Shut the hatch"), ""),
            Edit(RIG, step("Join the aileron"), step("Join the aileron") + step("Shut the hatch")),
        ),
    ),
    edit(
        "V037",
        RIG,
        "        by: Both\n        acts: [{act: positive_check, what: aileron}]",
        "        acts: [{act: positive_check, what: aileron}]",
    ),
    edit(
        "V038",
        RIG,
        "        by: Both\n        acts: [{act: check, what: rudder}]",
        "        acts: [{act: check, what: rudder}]",
    ),
    lacking("V039", PREFLIGHT, "Look at the tail joint"),
    edit("V040", RIG, "{act: fetch, what: box}", "{act: fetch, what: [box, cloth]}"),
    lacking("V041", RIG, "Count the box"),
    edit("V042", RIG, "what: box, number: 4", "what: box, number: 5"),
    lacking("V050", RIG, "Look at the isolator"),
    lacking("V051", PREFLIGHT, "Call the propeller"),
    Broken(
        "V052",
        (
            without(PREFLIGHT, "Shut the hatch"),
            Edit(
                PREFLIGHT,
                step("Energise", PREFLIGHT),
                step("Energise", PREFLIGHT) + step("Shut the hatch", PREFLIGHT),
            ),
        ),
    ),
    edit(
        "V053",
        PREFLIGHT,
        step("Energise", PREFLIGHT),
        step("Energise", PREFLIGHT) + step("Look at the tail joint", PREFLIGHT),
    ),
    lacking("V054", PREFLIGHT, "Energise"),
    edit("V060", MODEL, 'mass: "32 kg"', 'mass: "36 kg"'),
    edit("V061", MODEL, '  tail: {name: Tail, mass: "6 kg", size', "  tail: {name: Tail, size"),
    edit("V062", RIG, "people: 2", "people: 1"),
    Broken(
        "V063",
        (
            Edit(RIG, "people: 2\n", 'people: 2\nduration: "20 min"\n'),
            Edit(RIG, "        expect: Calm.\n", '        expect: Calm.\n        time: "21 min"\n'),
        ),
    ),
    Broken(
        "V070",
        (
            Edit(RIG, "        hazards: [pinch]\n", ""),
            Edit(RIG, "        expect: Flush.\n", "        expect: Flush.\n        hazards: [pinch]\n"),
        ),
    ),
    edit("V071", RIG, "        hazards: [pinch]\n", ""),
    edit("V072", "hazards.yaml", "avoidance: Pull the plug.", "avoidance: Be careful!"),
    edit("V073", MODEL, "  live-battery: {before: [plug], acts: [engage]}\n", ""),
    edit("V080", RIG, '"35 in-lb ± 5 in-lb (limits)"', '"45 in-lb ± 5 in-lb (limits)"'),
    edit(
        "V081", MODEL, "nut: shear, figure: table}", "nut: shear self-locking, figure: table, rotates: true}"
    ),
    edit("V082", RIG, "fastener: 1/4-28,", "fastener: 5/16-24 shear nut,"),
    edit("V090", RIG, "Close the sleeve.", "Close the sleeve and pull the rod."),
    edit(
        "V091",
        RIG,
        "Close the sleeve.",
        "Close the sleeve with the thumb of the right hand while the other hand holds the rod still and "
        "the eyes stay on the hole.",
    ),
    edit("V092", RIG, "        tool: wrench\n", "        tool: spanner\n"),
    edit("V093", RIG, 'Go to "Derig".', 'Go to "De-rig".'),
    Broken(
        "V094",
        (
            Edit(MODEL, "    name: Aileron connector\n", "    name: Right aileron connector\n"),
            Edit(RIG, "Join the aileron.", "Join the left aileron."),
        ),
    ),
    edit("V095", RIG, "do: Close the sleeve.", "do: Lock the tail joint."),
    edit("V096", RIG, "        expect: Four pieces.\n", "        expect: Five pieces.\n"),
    edit(
        "V097",
        RIG,
        "        expect: Flush.\n        acts: [{act: engage, what: spar}]",
        "        expect: Flush.\n        by: Ben\n        acts: [{act: engage, what: spar, by: [ann]}]",
    ),
    edit(
        "V098",
        RIG,
        step("Shut the hatch"),
        step("Shut the hatch") + "      - do: Connect the pitot line.\n        expect: It clicks.\n",
    ),
    edit("V099", RIG, "        second_check: Ben pulls the clip.\n", ""),
    lacking("V100", DERIG, "Stow the box"),
    # a crew that stops before the tail is on: its rack stands open, and the list back never shuts it
    Broken(
        "V101",
        (
            Edit(
                MODEL,
                "settings:\n",
                "settings:\n  rack: {name: Rack of the tail, home: shut, positions: {shut: , open: }}\n",
            ),
            Edit(RIG, step("Shut the hatch"), step("Shut the hatch") + _turn("Open the rack.", "open")),
            Edit(RIG, step("Place the tail"), step("Place the tail") + _turn("Shut the rack.", "shut")),
        ),
    ),
    Broken("V102", (Edit(RIG, "    stop: true\n", ""), Edit(RIG, "    stop: true\n", ""))),
    Broken(
        "V103",
        (
            Edit(MODEL, "required_in: [rig, derig]", "required_in: [rig]"),
            Edit(RIG, 'Go to "Derig".', "Stop."),
        ),
        absent=("procedures/derig.yaml",),
    ),
    edit("V104", RIG, "        expect: Calm.\n", "        expect: Checked.\n"),
    edit(
        "V105",
        RIG,
        "        critical: true\n        second_check: Ben reads the wrench.\n",
        "        second_check: Ben reads the wrench.\n",
    ),
    Broken(
        "V007",
        (
            Edit(MODEL, "  wind: {name: Wind,", "  wind: {name: Wind, option: radio, without: radio,"),
            Edit(
                "aircraft.yaml",
                "  wing: {name: Wing,",
                '  radio: {name: Radio, group: instruments, mass: "1 kg", arm: "0 m", optional: true}\n  '
                "wing: {name: Wing,",
            ),
        ),
    ),
    edit("V064", MODEL, '    size: {length: "6 m", width: "1.2 m", height: "0.2 m"}\n', ""),
    edit("V065", "trailer.yaml", "parts: [wing, tail]", "parts: [wing]"),
    edit("V106", RIG, "        expect: Left up.\n", "        expect: The left aileron is down.\n"),
    edit("V107", PREFLIGHT, "    if_not: Do not fly.\n", ""),
    edit("V108", RIG, "        expect: Calm.\n", "        expect: Not too strong.\n"),
    edit("V114", RIG, "        tool: wrench\n", ""),
    edit("V110", RIG, "do: Hold the aileron against the stick.", "do: Watch the aileron and move the stick."),
    edit("V111", RIG, "        second_check: Ben moves its loop.\n", "        second_check: Ben nods.\n"),
    edit("V112", AFTER, "kind: after-flight\n", "kind: inspection\ntools: [1 mirror]\n"),
    edit("V113", AFTER, "kind: after-flight\n", "kind: storage\n"),
    edit(
        "V118",
        MODEL,
        "  wind: {name: Wind, required_in: [rig, derig]}\n",
        "  wind: {name: Wind, required_in: [rig, derig], by_hand: true}\n",
    ),
    edit("V115", MODEL, "    name: Spar joint\n", "    name: Spar joint\n    remedy: [engage]\n"),
    edit(
        "V116", MODEL, "    name: Spar joint\n", "    name: Spar joint\n    tools: {engage: rubber mallet}\n"
    ),
    edit(
        "V117", MODEL, "    name: Spar joint\n", "    name: Spar joint\n    pictures: {engage: [rigging]}\n"
    ),
    edit("V109", RIG, "        expect: Calm.\n", '        expect: "{take_off_mass} or less."\n'),
)
