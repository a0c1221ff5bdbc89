"""From an example in pounds and inches to the record of a project, and from its figures back to the printed
units."""

from __future__ import annotations

from typing import Any

from published import Example, example
from sample_project import Draft, Tree, item, support, weighing

from dossier.dossier import Dossier
from dossier.results.loading import LoadRow

POUND, INCH = 0.45359237, 0.0254
"""In kg and m, both exact (international yard and pound, 1959)."""


def book(name: str) -> Example:
    """Return an example of weight_and_balance.yaml."""
    return example("weight_and_balance", name)


def weighed(*rows: tuple[Any, Any], on: str = "2026-03-01", **more: Any) -> Tree:
    """Write a weighing on one support for each mass in lb and arm in inches."""
    supports = [
        support(f"support {n}", f"{mass} lb", arm=f"{arm} in") for n, (mass, arm) in enumerate(rows, 1)
    ]
    return weighing(*supports, on=on, **more)


def rows_of(table: Example) -> list[tuple[str, str]]:
    """Return mass and arm of the items of an example, as printed."""
    return [(row["weight_lb"], row["arm_in"]) for row in table.given["items"]]


def item_lb(name: str, mass: Any, arm: Any) -> Tree:
    """Write an item with its mass in lb and its arm in inches."""
    return item(name, f"{mass} lb", f"{arm} in")


def without_battery(draft: Draft) -> Draft:
    """Make the battery of the project weigh nothing, so that it takes no part in a loading."""
    draft.battery["options"]["standard-pack"] |= {"mass": "0 lb", "arm": "0 in"}
    return draft


def limits(draft: Draft, mass: Any, *corners: tuple[Any, Any, Any]) -> Draft:
    """Give the type a take-off mass in lb and corners of its envelope: mass in lb, forward and aft
    limit in inches."""
    draft.aircraft["limits"]["take_off_mass"]["value"] = f"{mass} lb"
    draft.aircraft["loading"]["envelope"] = [
        {"mass": f"{corner} lb", "forward": f"{forward} in", "aft": f"{aft} in"}
        for corner, forward, aft in corners
    ]
    return draft


def in_pounds(dossier: Dossier, name: str) -> float:
    """Return a figure in lb."""
    return dossier.figures[name].value / POUND


def in_inches(dossier: Dossier, name: str) -> float:
    """Return a figure in inches."""
    return dossier.figures[name].value / INCH


def moment_lb_in(dossier: Dossier, mass: str, arm: str) -> float:
    """Return the moment of a mass figure at an arm figure in lb in."""
    return in_pounds(dossier, mass) * in_inches(dossier, arm)


def fullest(dossier: Dossier) -> LoadRow:
    """Return the loading with everything aboard."""
    assert dossier.loadings is not None
    return max(dossier.loadings.rows, key=lambda row: row.mass)
