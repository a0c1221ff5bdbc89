"""Pictures of steps in the packet: each once, under a name that tells its content."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import PurePosixPath

from dossier.compose.limit_text import one_line
from dossier.compose.packet import Asset
from dossier.dossier import Dossier
from dossier.model.assembly import AssemblyStep
from dossier.model.procedure import Picture, ProcedureStep
from dossier.read.picture import PictureFile


@dataclass(frozen=True)
class PictureText:
    """A picture as a page of the root shows it. All ready strings."""

    link: str
    shows: str
    width: int
    """Pixels: the browser keeps the place free until the picture is there."""
    height: int
    sha256: str

    @property
    def name(self) -> str:
        """The name of its file in the packet."""
        return PurePosixPath(self.link).name


def picture_text(dossier: Dossier, picture: Picture | None) -> PictureText | None:
    """Make the words and the link of a step's picture; None for a step that has none."""
    if picture is None:
        return None
    file = dossier.project.pictures[str(picture.file)]
    return PictureText(published_path(file), one_line(picture.shows), file.width, file.height, file.sha256)


def published_path(file: PictureFile) -> str:
    """Return where a picture stands in the packet: the name of its file, then the beginning of its digest."""
    path = PurePosixPath(file.path)
    name = re.sub(r"[^a-z0-9]+", "-", path.stem.lower()).strip("-") or "picture"
    return f"pictures/{name}-{file.sha256[:8]}{path.suffix.lower()}"


def assets(dossier: Dossier) -> tuple[Asset, ...]:
    """Read each picture that a step of this serial shows, once."""
    files = {published_path(file): file for file in _shown(dossier)}
    return tuple(Asset(path, file.located.read_bytes()) for path, file in sorted(files.items()))


def _shown(dossier: Dossier) -> Iterator[PictureFile]:
    project, left_out = dossier.project, dossier.state.left_out
    steps: list[ProcedureStep | AssemblyStep] = [
        step
        for one in project.procedures.values()
        for section in one.sections
        for step in section.steps
        if step.applies(left_out, dossier.battery_of_lists)
    ]
    steps += [
        record.step
        for record in dossier.assembly.steps
        if record.step and (record.step.option is None or str(record.step.option) not in left_out)
    ]
    for step in steps:
        if step.picture:
            yield project.pictures[str(step.picture.file)]
