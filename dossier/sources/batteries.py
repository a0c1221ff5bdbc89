"""Sources of cells and batteries: tables, models, their ageing and heat, the format of logs."""

from __future__ import annotations

from dossier.published_work import Source

BATTERIES: tuple[Source, ...] = (
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
        "wang-2014",
        "Wang and others: Degradation of lithium ion batteries employing graphite negatives and "
        "nickel-cobalt-manganese oxide + spinel manganese oxide positives, part 1, aging mechanisms and life "
        "estimation",
        "Journal of Power Sources 269, 937-948",
        "2014",
        "read (secondary)",
        "highlights read; constants read in the open library SCooDER (Lawrence Berkeley National "
        "Laboratory), the term of the rate, the 1.5 Ah and four points of a figure in three other public "
        "programs; the paper itself was not opened",
    ),
    Source(
        "bui-2021",
        "Bui and others: tests by cycles and in storage of a 21700 cell of 5 Ah, NMC811 and graphite with "
        "silicon",
        "IEEE Xplore, document 9617644",
        "2021",
        "read (secondary)",
        "constants and range of the fit read in the open library BLAST-Lite 1.1.1 (NREL); the paper itself "
        "was not opened",
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
        "cell-specific-heat",
        "Specific heat capacity of lithium ion cells",
        "batterydesign.net",
        "undated",
        "read (secondary)",
        "literature gives 800 to 1100 J/(kg K); NCA 830, NMC 1040, iron phosphate 1130",
    ),
)
