"""Handbooks, guides to measurement, and what needs no work: laws of physics, definitions, habits."""

from __future__ import annotations

from dossier.published_work import Source

_FAA = "Federal Aviation Administration"

HANDBOOKS: tuple[Source, ...] = (
    Source(
        "faa-h-8083-30b",
        "Aviation Maintenance Technician Handbook: General (FAA-H-8083-30B), chapter 6",
        _FAA,
        "2023",
        "read",
    ),
    Source(
        "faa-h-8083-25c",
        "Pilot's Handbook of Aeronautical Knowledge (FAA-H-8083-25C), chapter 10",
        _FAA,
        "2023",
        "read",
    ),
    Source(
        "faa-h-8083-1b",
        "Aircraft Weight and Balance Handbook (FAA-H-8083-1B)",
        _FAA,
        "2016",
        "read",
        "single pages read",
    ),
    Source(
        "ac-43-13-1b",
        "AC 43.13-1B, Acceptable Methods, Techniques, and Practices",
        _FAA,
        "change 1, 2001",
        "read",
    ),
    Source(
        "faa-h-8083-31",
        "Aviation Maintenance Technician Handbook: Airframe (FAA-H-8083-31), chapter 9",
        _FAA,
        "2012",
        "read (secondary)",
        "the drop of voltage in main power wires read in two public transcriptions",
    ),
    Source(
        "jcgm-100",
        "JCGM 100:2008, Guide to the expression of uncertainty in measurement",
        "BIPM/JCGM",
        "2008",
        "memory",
        "the worked example H.1 agrees with four public transcriptions; the guide itself was not opened",
    ),
    Source(
        "jcgm-106",
        "JCGM 106:2012, The role of measurement uncertainty in conformity assessment",
        "BIPM/JCGM",
        "2012",
        "memory",
    ),
    Source(
        "ilac-g8",
        "ILAC-G8:09/2019, Guidelines on decision rules and statements of conformity",
        "ILAC",
        "2019",
        "read",
        "pages 8, 9 and 15 read",
    ),
    Source(
        "iso-iec-17050-1",
        "ISO/IEC 17050-1:2004, Supplier's declaration of conformity",
        "ISO/IEC",
        "2004",
        "read (secondary)",
        "items 1 to 5 read second-hand, the rest recalled",
    ),
    Source(
        "ohm",
        "Arithmetic of series and parallel connection (Ohm's and Kirchhoff's laws)",
        "",
        "",
        "common practice",
    ),
    Source("definition", "Definition of the quantity", "", "", "own"),
    Source("derived", "Derived in this project", "", "", "own"),
    Source("practice", "Habit of the trade", "", "", "common practice"),
    Source(
        "cgpm-3",
        "Standard value of the acceleration of gravity, 3rd General Conference on Weights and Measures",
        "BIPM",
        "1901",
        "memory",
        "9.80665 m/s², the value in scipy.constants",
    ),
    # battery
)
