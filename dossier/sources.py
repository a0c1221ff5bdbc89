"""Every source that the tool relies on: one home, cited by key."""

from __future__ import annotations

from dossier.published_work import Citation, Source


def cite(text: str) -> Citation:
    """Make a citation from ``"key"`` or ``"key, place in it"``.

    Raises:
        KeyError: there is no such source.
    """
    key, _, locator = text.partition(",")
    return Citation(SOURCES[key.strip()], locator.strip())


def _table(*sources: Source) -> dict[str, Source]:
    return {source.key: source for source in sources}


_FAA = "Federal Aviation Administration"

SOURCES: dict[str, Source] = _table(
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
    Source(
        "chen-2020",
        "Development of experimental techniques for parameterization of multi-scale lithium-ion battery "
        "models, "
        "parameter set in PyBaMM",
        "Journal of the Electrochemical Society 167, 080534",
        "2020",
        "read (secondary)",
        "rest voltages and constant-power runs were computed with PyBaMM 26.10.1.1; the library calls its "
        "set an example",
    ),
    Source(
        "mohtat-2020",
        "Mohtat and others, parameter set in PyBaMM",
        "doi 10.1149/1945-7111/aba5d1",
        "2020",
        "read (secondary)",
        "rest voltages and constant-power runs were computed with PyBaMM 26.10.1.1",
    ),
    Source(
        "kim-2011",
        "Kim, Smith, Lee, Santhanagopalan, Pesaran: Multi-domain modeling of lithium-ion batteries "
        "encompassing "
        "multi-physics in varied length scales, parameter set in PyBaMM",
        "Journal of the Electrochemical Society 158, A955-A969",
        "2011",
        "read (secondary)",
        "electrode potentials and limits read in the library, the abstract in a copy; evaluated with PyBaMM "
        "26.10.1.1",
    ),
    Source(
        "sunil-2025",
        "Sunil, Pattipati, Balasingam: Piecewise linear approximation of battery open-circuit voltage "
        "characteristics using "
        "dynamic programming, tables of points",
        "IEEE Transactions on Instrumentation and Measurement",
        "2025",
        "read (secondary)",
        "the tables were read where the authors publish their data and programs; the paper itself was not "
        "opened",
    ),
    Source(
        "lfp-hysteresis",
        "Battery hysteresis effect: a rest voltage of iron phosphate depends on whether it was charged or "
        "discharged before, "
        "by 5 to 25 mV on the flat parts",
        "ACCURE Battery Intelligence, article",
        "undated",
        "read (secondary)",
    ),
    Source(
        "resistance-with-loss",
        "Growth of resistance against loss of capacity: two published models (Schmalstieg 2014 for NMC111, "
        "Naumann 2020 for iron "
        "phosphate) run in BLAST-Lite 1.1.1, and the usual end of life, 80 % of the capacity or twice the "
        "resistance",
        "National Renewable Energy Laboratory; end of life: TWAICE battery encyclopedia",
        "2026",
        "read (secondary)",
        "the runs are stored in tests/references/cells.yaml; a third model of the library is left out, see "
        "there",
    ),
    Source(
        "pybamm",
        "Runs of the full electrochemical model (DFN) of five published parameter sets",
        "PyBaMM 26.10.1.1",
        "2026",
        "read (secondary)",
        "simulated, not measured; the runs are stored in tests/references/battery.yaml, and the tests run "
        "some of them again",
    ),
    Source(
        "equivalent-circuit",
        "Equivalent circuit of a cell: rest voltage, resistance, one resistor beside a capacitor",
        "",
        "",
        "common practice",
        "textbook circuit; share and time constant of the slow part are fitted to simulated runs",
    ),
    Source(
        "schmalstieg-2014",
        "Schmalstieg, Kaebitz, Ecker, Sauer: A holistic aging model for Li(NiMnCo)O2 based 18650 "
        "lithium-ion batteries",
        "Journal of Power Sources 257, 325-334",
        "2014",
        "read (secondary)",
        "constants and range read in the open library BLAST-Lite (NREL), class for the 2.15 Ah NMC111 cell",
    ),
    Source(
        "blast-lite",
        "BLAST-Lite, open library of battery life models",
        "National Renewable Energy Laboratory",
        "2025",
        "read (secondary)",
        "four NMC models run side by side",
    ),
    Source(
        "batterydf",
        "Battery Data Format, labels of columns (package batterydf 0.1.0)",
        "Battery Data Alliance, LF Energy",
        "2026",
        "read",
    ),
    Source(
        "heat-balance",
        "Balance of heat of a lumped mass, and of a stream of air",
        "",
        "",
        "memory",
        "textbook; specific heat of air 1005 J/(kg K)",
    ),
    Source(
        "sfsu-220",
        "Physics 220, class exercise of 23 October",
        "San Francisco State University",
        "undated",
        "read",
    ),
    # flight
    Source(
        "iso-2533",
        "ISO 2533:1975, Standard Atmosphere (the same air as ICAO Doc 7488 and the US Standard Atmosphere "
        "1976)",
        "ISO",
        "1975",
        "read (secondary)",
        "rows of ICAO Doc 7488/3 read in the test table of the open package ambiance, rows of 1976 in a "
        "public table; "
        "the standards themselves were not opened",
    ),
    Source(
        "wmo-8",
        "Guide to Instruments and Methods of Observation (WMO-No. 8), vapour pressure over water",
        "World Meteorological Organization",
        "2018",
        "memory",
    ),
    Source(
        "cas",
        "Calibrated airspeed from impact pressure, encyclopaedia entry",
        "",
        "undated",
        "read (secondary)",
        "a_0 661.48 kt and p_0 1013.25 hPa read with the formula",
    ),
    Source(
        "fossee-anderson",
        "Scilab textbook companion to Introduction to Flight (Anderson), chapter 6",
        "FOSSEE project",
        "undated",
        "read",
    ),
    Source(
        "ceiling-handout",
        "Aerodynamics II, discussion 11: ceilings and time to climb",
        "university handout",
        "undated",
        "read",
    ),
    Source("momentum-theory", "Momentum theory of a propeller disc", "spinningwing.com", "undated", "read"),
    Source(
        "roll-friction",
        "Rolling friction on take-off, a textbook chapter in copy",
        "",
        "undated",
        "read (secondary)",
        "0.02 hard surface, 0.10 moderately tall grass; another copy goes to 0.3 for very soft ground",
    ),
)
