"""Words of the trade that pages use, each told once to a reader who does not know them.

A definition that rests on a work names it; the others are common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

PRACTICE = "practice"
"""The source of a word that is a habit of the trade, see :mod:`dossier.sources`."""


@dataclass(frozen=True)
class Term:
    """A word and what it means here."""

    key: str
    """Its anchor on the page, such as ``guard-band``."""
    name: str
    meaning: str
    source: str = PRACTICE
    """As :func:`dossier.sources.cite` takes it."""


TERMS: tuple[Term, ...] = (
    # how surely a number is known
    Term(
        "uncertainty",
        "±, uncertainty",
        "How far the true value may lie from the printed one, by what is known of scales, readings and "
        "records. It counts no mistakes: nobody can know from it that a scale was read wrongly.",
        "jcgm-100, 2.2.3",
    ),
    Term(
        "k-2",
        "k = 2, expanded uncertainty",
        "The number behind ± is twice the standard uncertainty. If the errors are as usual, the true "
        "value lies within it about 95 times in 100.",
        "jcgm-100, 2.3.5 and 6.2",
    ),
    Term(
        "standard-uncertainty",
        "standard uncertainty",
        "The uncertainty told as one standard deviation, k = 1: half of what stands behind ±.",
        "jcgm-100, 2.3.1",
    ),
    Term(
        "limits-of-an-instrument",
        "(limits)",
        "The bounds that a certificate or a scale leaves to an error, each value between them taken as "
        "equally likely.",
        "jcgm-100, 4.3.7",
    ),
    Term(
        "by-draws",
        "by draws",
        "Computed many times with errors drawn at random, where a straight line through the estimate "
        "would say too little; the interval then need not be even on both sides.",
    ),
    Term(
        "guard-band",
        "guard band",
        "A strip beside a limit that is as wide as the measuring is unsure. A value inside it is not "
        "called conforming, though it keeps the limit.",
        "jcgm-106, 8.3",
    ),
    Term(
        "acceptance-limit",
        "what this measuring can prove",
        "The worst value that could have been shown to conform with the scales, tapes and flights at "
        "hand: the limit less its guard band.",
        "jcgm-106, 8.3",
    ),
    Term(
        "probability-of-conformity",
        "probability of conformity",
        "How likely it is, by the measurement and its uncertainty alone, that the true value keeps the "
        "limit.",
        "jcgm-106, clause 7",
    ),
    Term(
        "decision-rule",
        "decision rule",
        "How a measured value is held against a limit, agreed before the measurement: the value alone "
        "(simple), or the value with its guard band (guarded).",
        "ilac-g8",
    ),
    # how a requirement or a claim stands
    Term(
        "conforms",
        "conforms, does not conform",
        "The value keeps the limit, or breaks it, and its guard band with it where the rule is guarded.",
    ),
    Term(
        "inconclusive",
        "inconclusive",
        "The value is so near the limit that the measuring cannot tell on which side the true value lies.",
    ),
    Term(
        "not-shown",
        "not shown",
        "Something is missing: a measurement, a paper, a source that was read. It never means that all "
        "is well.",
    ),
    Term(
        "supported",
        "supported, not supported, contradicted",
        "Of what the builder says in public: the figure of this serial bears it out, does not show it, "
        "or rules it out.",
    ),
    Term(
        "condition-of-scope",
        "condition of scope",
        "What an aircraft must keep to lie outside a law. Keeping it is no conformity with that law.",
    ),
    # weight and balance
    Term(
        "datum",
        "datum",
        "The place on the aircraft from which lengths are measured. Behind it they are positive, ahead "
        "of it negative.",
        "faa-h-8083-1b",
    ),
    Term(
        "arm",
        "arm",
        "How far behind the datum something lies.",
        "faa-h-8083-1b",
    ),
    Term(
        "moment",
        "moment",
        "Mass times arm. The sum of all moments over the sum of all masses is the centre of gravity.",
        "faa-h-8083-1b",
    ),
    Term(
        "chord",
        "mean aerodynamic chord",
        "The chord of a plain wing that would stand for this one; places on it are told in per cent "
        "behind its leading edge.",
        "faa-h-8083-1b",
    ),
    Term(
        "empty-weight",
        "empty weight, empty mass",
        "The aircraft without pilot and baggage, in the condition that the weighing record tells. This "
        "dossier says weight where its laws do and means mass: what the scales show in kilograms or "
        "pounds.",
    ),
    Term(
        "counts-for-the-rule",
        "counts for the rule",
        "What is held against a limit: the empty weight less what the law leaves out, such as a "
        "parachute, with or without the battery as the basis says.",
    ),
    Term(
        "useful-load",
        "useful load",
        "What may still go aboard: the maximum take-off mass less the empty mass.",
        "faa-h-8083-1b",
    ),
    # speeds, heights and flight
    Term(
        "ias",
        "IAS, indicated airspeed",
        "What the airspeed indicator shows.",
        "faa-h-8083-25c",
    ),
    Term(
        "cas",
        "CAS, calibrated airspeed",
        "Indicated airspeed with the errors of instrument and pitot taken off. Laws set their limits in it.",
        "faa-h-8083-25c",
    ),
    Term(
        "tas",
        "TAS, true airspeed",
        "Speed through the air. In thin air it is more than CAS.",
        "faa-h-8083-25c",
    ),
    Term(
        "pressure-height",
        "pressure height, pressure altitude",
        "The height in the standard atmosphere at which the pressure is that of the place: what an "
        "altimeter set to 1013.25 hPa shows.",
        "iso-2533",
    ),
    Term(
        "density-height",
        "density height, density altitude",
        "The height in the standard atmosphere at which the air is as thin as here and now.",
        "iso-2533",
    ),
    Term(
        "polar",
        "polar",
        "The curve of sink against speed, or of drag against lift, of the aircraft without power.",
    ),
    Term(
        "glide-ratio",
        "glide ratio",
        "How far it glides for each unit of height, in still air.",
    ),
    Term(
        "oswald-factor",
        "Oswald factor, induced drag factor",
        "Two ways to tell what lift costs in drag: the closer the Oswald factor is to 1, and the "
        "smaller the induced drag factor, the less.",
        "fossee-anderson",
    ),
    Term(
        "wing-loading",
        "wing loading",
        "Mass over the area of the wing.",
    ),
    # battery
    Term(
        "nameplate-energy",
        "nameplate energy",
        "Nominal voltage times nominal capacity, as on a label. The energy that can be flown with is less.",
    ),
    Term(
        "usable-energy",
        "usable energy",
        "What is left of the energy measured or stated for this pack when the reserve is kept back.",
    ),
    Term(
        "reserve",
        "reserve",
        "The part of the charge that is not planned to be flown with.",
    ),
    Term(
        "state-of-charge",
        "charge, state of charge",
        "How full the battery is, from 0 to 100 %.",
    ),
    Term(
        "health",
        "capacity left, health",
        "Capacity as last measured over that of the cell when new, by its maker.",
    ),
    Term(
        "rest-voltage",
        "rest voltage",
        "The voltage with no current, after it has settled. Under load it is lower.",
    ),
    Term(
        "c-rate",
        "discharge rate",
        "Current over capacity, in 1/h: at 2 per hour a full battery would be empty in half an hour.",
    ),
    Term(
        "taper",
        "taper",
        "The last part of charging, in which the voltage is held and the current falls. It takes long "
        "for little energy.",
    ),
    Term(
        "basis-of-battery",
        "battery counted, battery not counted",
        "Whether the traction battery is in the weight that is held against a limit. Where the law "
        "leaves it open, both are shown, and the builder says on which he relies.",
    ),
    # the document
    Term(
        "edition",
        "edition, draft",
        "A lettered state of this dossier that the builder issued on a day. What was recorded after it, "
        "but for the handover, makes a draft of the next one.",
    ),
    Term(
        "evidence",
        "evidence",
        "A file that an event of the record cites, kept byte for byte with its digest.",
    ),
    Term(
        "sha-256",
        "digest, SHA-256",
        "A fingerprint of a file. If one byte of it is changed, the fingerprint is another.",
    ),
)
