"""A live view of one serial's dossier while the record is being written."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import mkdocs.commands.serve
from mkdocs.exceptions import MkDocsException
from mkdocs.utils.yaml import yaml_load

from dossier.findings import Finding, Rejected
from dossier.places import base_configuration


def serve(project: Path, serial: str | None, as_of: date | None, address: str) -> None:
    """Serve the dossier at ``address``, such as ``127.0.0.1:8000``, and build it again at each save.

    Does not return until interrupted. A refused record is shown as a page of findings.

    Raises:
        Rejected: the generator cannot make the site.
    """
    file = base_configuration()
    with file.open("rb") as opened:
        plugins = yaml_load(opened)["plugins"]
    options = {"project": str(project.resolve()), "serial": serial or "", "as_of": as_of or ""}
    try:
        mkdocs.commands.serve.serve(str(file), dev_addr=address, plugins={**plugins, "dossier": options})
    except MkDocsException as error:
        what, remedy = f"the site cannot be shown: {error}", "look at what the generator says above"
        raise Rejected([Finding("P063", what, remedy)]) from error
