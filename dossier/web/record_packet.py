"""From a project folder to the pages of one serial, for the plugin."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from dossier.compose.packet import Packet
from dossier.compose.pages import packet
from dossier.pipeline import run
from dossier.project import serial_meant


def packet_for(project_folder: Path, serial_number: str | None, as_of: date | None) -> Packet:
    """Make the pages of one serial, the first of the project if none is named.

    Raises:
        Rejected: with every problem of the record.
    """
    return packet(run(project_folder, serial_meant(project_folder, serial_number), as_of))
