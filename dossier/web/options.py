"""What the plugin can be told in ``mkdocs.yml``, or by the environment for one run of plain ``mkdocs``."""

from __future__ import annotations

import os
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from mkdocs.config import config_options as option
from mkdocs.config.base import Config
from mkdocs.exceptions import PluginError


class DossierOptions(Config):  # type: ignore[no-untyped-call] # MkDocs leaves one hook of its class untyped
    """Options of the plugin; each may be left out."""

    project = option.Type(str, default="")
    """Project folder, relative to the configuration file. Environment: ``DOSSIER_PROJECT``.
    Empty: the first folder in ``projects``."""
    serial = option.Type(str, default="")
    """Serial number, as text: write ``"0012"``. Environment: ``DOSSIER_SERIAL``. Empty: the first serial."""
    as_of = option.Type((str, date), default="")
    """Date such as ``2026-05-14``. Environment: ``DOSSIER_AS_OF``. Empty: after the last event."""


@dataclass(frozen=True)
class Choice:
    """Which serial to show, in which state."""

    project: Path
    serial: str | None
    as_of: date | None


def chosen(options: DossierOptions, configuration_file: str) -> Choice:
    """Settle the options; the environment goes before the file.

    MkDocs' own ``!ENV`` is not used: it would read the serial number 0012 as the number ten.
    """
    project = os.environ.get("DOSSIER_PROJECT") or options.project
    serial = os.environ.get("DOSSIER_SERIAL") or options.serial
    as_of = os.environ.get("DOSSIER_AS_OF") or str(options.as_of)
    home = Path(configuration_file).parent
    folder = home / project if project else _first_project(home / "projects")
    return Choice(folder, serial or None, _day(as_of) if as_of else None)


def _first_project(folder: Path) -> Path:
    projects = sorted(path for path in folder.glob("*") if path.is_dir())
    if not projects:
        raise PluginError(f"no project: {folder.name} holds none, and the option `project` names none")
    return projects[0]


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise PluginError(f"as_of: {text!r} is not a date; write it as 2026-05-14") from None
