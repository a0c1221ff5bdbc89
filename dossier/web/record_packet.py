"""From a project folder to the pages of one serial, for the plugin."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from dossier.compose.packet import Packet
from dossier.compose.pages import packet
from dossier.findings import Finding, Rejected
from dossier.pipeline import run
from dossier.project import serial_numbers


def packet_for(project_folder: Path, serial_number: str | None, as_of: date | None) -> Packet:
    """Make the pages of one serial, the first of the project if none is named.

    Raises:
        Rejected: with every problem of the record.
    """
    known = serial_numbers(project_folder)
    if serial_number is None and not known:
        what = f"the project {project_folder.name!r} has no serial"
        raise Rejected([Finding("P004", what, "write serials/0001/record.yaml")])
    return packet(run(project_folder, serial_number or known[0], as_of))
