"""Prints the generic rest voltages that are made from parameter sets, as dossier/tables/rest_voltages.yaml
has them. Needs the test extra; run from the project folder with

    PYTHONPATH=tests python tests/benchmarks/rest_voltages.py
"""

from __future__ import annotations

import sys

from parameter_sets import CHEN, KIM, MOHTAT, rest_voltages

TWENTIETHS = {number / 20 for number in range(21)}
POINTS = {
    "nca": (KIM, TWENTIETHS | {0.005, 0.01, 0.02, 0.03, 0.04}),
    "nmc532": (MOHTAT, TWENTIETHS),
    "nmc811": (CHEN, TWENTIETHS | {0.01, 0.02, 0.03, 0.04}),
}
"""Table -> its parameter set and its states of charge: closer where the curve bends."""


def main() -> None:
    """Print a pair of columns for each table, voltages to 0.1 mV."""
    for name, (one, points) in sorted(POINTS.items()):
        charges = sorted(points)
        volts, _ = rest_voltages(one.name, charges)
        columns = {"state_of_charge": charges, "value": [round(volt, 4) for volt in volts]}
        lines = [f"    {key}: [{', '.join(map(str, column))}]" for key, column in columns.items()]
        sys.stdout.write("\n".join([f"{name}:", *lines, ""]))


if __name__ == "__main__":
    main()
