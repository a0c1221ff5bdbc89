"""One packet to one finished folder."""

from __future__ import annotations

import logging
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException

from dossier.compose.packet import Packet
from dossier.places import base_configuration
from dossier.replacing import replace_all, workshop
from dossier.web.plugin import DossierPlugin


class SiteNotBuilt(Exception):  # noqa: N818 - says what did not happen
    """The generator refused the packet; nothing was written. Carries every complaint in order."""

    def __init__(self, complaints: list[str]) -> None:
        """Keep the complaints as they came."""
        self.complaints = complaints
        super().__init__("\n".join(complaints))

    def __reduce__(self) -> tuple[type[SiteNotBuilt], tuple[list[str]]]:
        """Travel whole from a worker process."""
        return type(self), (self.complaints,)


def build_site(packet: Packet, destination: Path, *, epoch: int) -> None:
    """Build a strict, self-contained site into ``destination``, which is replaced as a whole.

    ``epoch`` is the time of the build in seconds since 1970, from the record or the command, never the clock.
    The same packet and the same versions give the same bytes. Raises :class:`SiteNotBuilt`, and then leaves
    ``destination`` as it was. MkDocs is not thread-safe: use processes to build several sites at a time.
    """
    destination = destination.resolve()
    destination.parent.mkdir(parents=True, exist_ok=True)
    with workshop(destination.parent) as made:
        new = made / "new" / destination.name
        _build(packet, new, epoch)
        replace_all([new], destination.parent, made)


def _build(packet: Packet, folder: Path, epoch: int) -> None:
    with _complaints() as complaints, _build_date(epoch):
        try:
            _run(packet, folder)
        except MkDocsException as error:
            lines = [line for said in complaints for line in said.splitlines()]
            raise SiteNotBuilt(lines or [str(error)]) from error


def _run(packet: Packet, folder: Path) -> None:
    file = str(base_configuration())
    config = load_config(file, config_file_path=file, site_dir=str(folder), strict=True)
    plugin = config.plugins["dossier"]
    assert isinstance(plugin, DossierPlugin)
    plugin.packet = packet
    try:
        build(config)
    finally:
        plugin.packet = None  # MkDocs keeps the plugin object for the next configuration in this process


@contextmanager
def _build_date(epoch: int) -> Iterator[None]:
    """MkDocs reads the date of a build from the environment, and from nowhere else but the clock."""
    before = os.environ.get("SOURCE_DATE_EPOCH")
    os.environ["SOURCE_DATE_EPOCH"] = str(epoch)
    try:
        yield
    finally:
        if before is None:
            del os.environ["SOURCE_DATE_EPOCH"]
        else:
            os.environ["SOURCE_DATE_EPOCH"] = before


class _Complaints(logging.Handler):
    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.said: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.said.append(record.getMessage())


@contextmanager
def _complaints() -> Iterator[list[str]]:
    """Keep what MkDocs complains of; otherwise it would go to the terminal, which belongs to the command."""
    logger = logging.getLogger("mkdocs")
    handler, propagates = _Complaints(), logger.propagate
    logger.addHandler(handler)
    logger.propagate = False
    try:
        yield handler.said
    finally:
        logger.removeHandler(handler)
        logger.propagate = propagates
