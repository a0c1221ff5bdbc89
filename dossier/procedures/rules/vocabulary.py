"""Words of the trade that the checks on wording know. Who writes other words is only checked less."""

from __future__ import annotations

import re
from functools import cache


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


SIDES = (("left", "right"), ("upper", "lower"), ("front", "rear"))
"""Words of which a part has one and its twin the other."""

MAKES = frozenset(
    [
        "attach",
        "clip",
        "close",
        "connect",
        "engage",
        "fasten",
        "fit",
        "hook",
        "insert",
        "install",
        "join",
        "latch",
        "lock",
        "mount",
        "plug",
        "safety",
        "screw",
        "secure",
        "shut",
        "tighten",
        "torque",
    ]
)
"""First words of a step that join something."""
UNDOES = frozenset(
    [
        "detach",
        "disconnect",
        "loosen",
        "open",
        "part",
        "release",
        "remove",
        "unclip",
        "undo",
        "unfasten",
        "unhook",
        "unlatch",
        "unlock",
        "unplug",
        "unscrew",
        "untie",
    ]
)
"""First words of a step that part something."""

LOOKS = frozenset(["check", "feel", "inspect", "listen", "look", "read", "see", "smell", "watch"])
"""First words of a step that only look."""
SPEAKS = _words("answer ask call choose compare count name note photograph say stay tell wait write")
"""First words of a step that lays no hand on the aircraft, and does not look either."""
HOLDS = _words("against block blocked blocks grip gripped grips held hold holding holds")
"""Words for a surface that somebody holds while another person works its control."""
TRIES = _words(
    "compare count feel follow hear hold inspect lift listen look measure move press pull push read "
    "repeat rock say see shine smell tap touch try turn twist watch"
)
"""What a second check does: looks, touches, pulls, or says what is seen."""
EYES = frozenset(["glance", "look", "observe", "see", "view", "watch"])
"""First words of a step that only uses its eyes."""
PULLS = frozenset(
    (
        *("draw", "hang", "lean", "lift", "load", "move", "press", "pull", "push", "raise", "rock"),
        *("shake", "swing", "tap", "try", "tug", "turn", "twist"),
    )
)
"""What is done to a joint to try it."""
READS = frozenset(["read", "measure", "weigh"])
"""First words of a step that takes a value from something."""
QUANTITIES = frozenset(
    (
        *("angle", "capacity", "cell", "charge", "current", "difference", "distance", "force", "gap"),
        *("mass", "play", "pressure", "resistance", "speed", "spread", "temperature", "torque", "travel"),
        *("voltage", "weight", "wind"),
    )
)
"""What is read as a value; a date or a fault memory is read as well."""
WORKS = frozenset(
    (
        *("call", "carry", "charge", "clean", "discharge", "drain", "fold", "hang", "lay", "leave", "lift"),
        *("lower", "move", "note", "pack", "place", "put", "roll", "set", "sit", "slide", "stow", "switch"),
        *("take", "tell", "tie", "turn", "warm", "wipe", "write"),
    )
)
"""First words of a step that works, neither joining nor looking."""
DIRECTIONS = frozenset(
    [
        "up",
        "down",
        "left",
        "right",
        "rise",
        "rises",
        "rising",
        "fall",
        "falls",
        "raise",
        "raises",
        "lower",
        "lowers",
        "forward",
        "back",
        "backward",
        "backwards",
        "aft",
        "rearward",
        "upward",
        "upwards",
        "downward",
        "downwards",
        "inward",
        "outward",
    ]
)
"""Words for the way in which a surface goes."""
SAYS_NOTHING = frozenset(
    [
        "ok",
        "okay",
        "o.k",
        "checked",
        "check",
        "done",
        "good",
        "correct",
        "fine",
        "yes",
        "as required",
        "as expected",
        "normal",
        "satisfactory",
        "all good",
        "all right",
        "in order",
        "complete",
        "completed",
    ]
)
"""Words that answer whether somebody looked, and not what is seen."""

TOOLS = frozenset(
    [
        "wrench",
        "spanner",
        "screwdriver",
        "hammer",
        "mallet",
        "pliers",
        "flashlight",
        "torch",
        "mirror",
        "gauge",
        "drift",
        "ratchet",
        "multimeter",
        "voltmeter",
        "ohmmeter",
        "crowbar",
    ]
)
"""Tools that a step may name only if they are laid out."""

_NUMBERS = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
    "twenty",
]
_UNITS = (
    r"(?:%|°|[kmc]?m\b|in\b|ft\b|kg\b|lbf?\b|kt\b|mph\b|k?N\b|m?V\b|A\b|Ah\b|k?Wh?\b|psi\b|bar\b|s\b|min\b|h\b|in-lb|"
    r"degrees?\b|minutes?\b|inch|hours?\b)"
)
_DIGITS = re.compile(rf"(?<![\w./-])(\d{{1,3}})(?![\w/-]|\.\d| ?{_UNITS})")
_SMALL = frozenset(
    ["the", "of", "and", "for", "a", "an", "in", "on", "to", "its", "with", "by", "at", "from"]
)
_PLAIN = frozenset(word for pair in SIDES for word in pair)
_BOTH_WAYS = re.compile(r"\b(?:left and right|right and left|left or right|left to right|left, right)\b")
_WAYS = re.compile(
    r"\b(?:stick|pedals?|lever|wheel|bar|yoke|handle|knob|key|trim)"
    r"(?: (?:fully|hard|once|all the way|gently|a little))*"
    r" (?:to the )?(?:left|right)\b|\b(?:to the )?(?:left|right) (?:pedal|foot|hand|thumb)\b"
)
"""Ways in which a control is moved, and hands: no side of the aircraft."""
_LEFT_OVER = re.compile(
    r"\b(?:is|are|be|was|were|what|nothing|none|has) left\b|\bleft (?:over|behind|out|in the|on the)\b"
)


@cache
def tokens(text: str) -> frozenset[str]:
    """Return the words of a text, small, in the singular; a ``left`` that is no side is left out.

    Kept, as is what follows: every variant of a list asks the same few texts again.
    """
    plain = _WAYS.sub(" ", _BOTH_WAYS.sub(" ", _LEFT_OVER.sub(" ", text.lower())))
    return frozenset(_singular(word) for word in re.findall(r"[a-z]+", plain))


@cache
def significant(text: str) -> frozenset[str]:
    """Return the words of a name without its side and without small words."""
    return tokens(text) - _SMALL - _PLAIN


@cache
def verbs(text: str) -> frozenset[str]:
    """Return the words of a text, each as it stands and without the ending of the third person."""
    said = re.findall(r"[a-z]+", text.lower())
    plain = (word[: -len(ending)] for word in said for ending in ("s", "es") if word.endswith(ending))
    return frozenset((*said, *plain))


def numbers_in(text: str) -> list[int]:
    """Return the whole numbers up to 999 in a text, in digits or in words, but for measured values."""
    return [number for number, _ in counted_in(text)]


def counted_in(text: str) -> list[tuple[int, frozenset[str]]]:
    """Return each whole number of a text with the words behind it, up to the next number or comma."""
    plain = _DIGITS.sub(lambda found: f" {found[1]} ", text.lower())
    found: list[tuple[int, frozenset[str]]] = []
    for part in re.split(r"[,;.:]|\band\b", plain):
        words = re.findall(r"[a-z]+|(?<![\w/-])\d{1,3}(?![\w/-])", part)
        at = [
            index
            for index, word in enumerate(words)
            if word in _NUMBERS or (word.isdigit() and word in _digits(part))
        ]
        for place, index in enumerate(at):
            behind = words[index + 1 : at[place + 1] if place + 1 < len(at) else None]
            number = int(words[index]) if words[index].isdigit() else _NUMBERS.index(words[index])
            found.append((number, frozenset(map(_singular, behind))))
    return found


def _digits(text: str) -> list[str]:
    return _DIGITS.findall(text)


def _singular(word: str) -> str:
    return word[:-1] if word.endswith("s") and not word.endswith("ss") and len(word) > 3 else word
