"""One broken record for each code of the verifier: an edit of the bench."""

from __future__ import annotations

from dataclasses import dataclass

from procedures.workbench import DERIG, MODEL, PREFLIGHT, RIG, Edit, step, swapped, without


@dataclass(frozen=True)
class Broken:
    """The code and the edits that bring it about."""

    code: str
    edits: tuple[Edit, ...]


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
    edit("V060", MODEL, 'mass: "32 kg"', 'mass: "36 kg"'),
    Broken(
        "V070",
        (
            Edit(RIG, "        hazards: [pinch]\n", ""),
            Edit(RIG, "        expect: Flush.\n", "        expect: Flush.\n        hazards: [pinch]\n"),
        ),
    ),
    edit("V071", RIG, "        hazards: [pinch]\n", ""),
    edit("V080", RIG, '"35 in-lb ± 5 in-lb (limits)"', '"45 in-lb ± 5 in-lb (limits)"'),
    edit(
        "V081", MODEL, "nut: shear, figure: table}", "nut: shear self-locking, figure: table, rotates: true}"
    ),
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
)
