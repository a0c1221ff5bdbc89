"""The starter project with one more list, short enough to tick in a test."""

from __future__ import annotations

from pathlib import Path

from dossier.starter import write_starter

NAME = "inspection-field"
PAGE = f"{NAME}.html"
PROCEDURE = """title: Field list
kind: inspection
purpose: Shows that a list can be ticked.
people: 2
loose_items: [2 main pins, 2 safety pins]
hazards: [live-battery]
sections:
  - title: Wings
    steps:
      - do: Pull the red plug of the battery.
        expect: The plug hangs free and both halves are capped.
      - do: Push the main pin of the left wing fully home.
        expect: The head of the pin lies flush.
        critical: true
      - do: Fit the safety pin of the left main pin.
        expect: The safety pin holds when pulled.
        critical: true
        second_check: The second person pulls the safety pin and sees it hold.
        if_not: Take the wing off again and find out why.
{more}closing: All pins counted and fitted, nothing left over.
"""
OTHER = """title: Other list
kind: inspection
purpose: Keeps the first from being the only one of its kind, so that its page has the name of its file.
people: 1
sections:
  - title: All
    steps:
      - {do: Look., expect: Seen.}
closing: Done.
"""


def write_project(folder: Path, more: str = "") -> Path:
    """Write the project; ``more`` stands behind the third step."""
    write_starter(folder)
    (folder / f"procedures/{NAME}.yaml").write_text(PROCEDURE.format(more=more), encoding="utf-8")
    (folder / "procedures/inspection-other.yaml").write_text(OTHER, encoding="utf-8")
    return folder
