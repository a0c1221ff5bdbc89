"""Addresses inside a packet: relative, distinct, and of the right sort."""

from __future__ import annotations

from collections import Counter
from pathlib import PurePosixPath

from dossier.compose.packet import Packet


def faults(packet: Packet) -> list[str]:
    """Say what keeps the packet's paths from becoming a site, all at once; empty if nothing does."""
    pages = [page.path for page in packet.pages]
    assets = [asset.path for asset in packet.assets]
    found = [f"{path!r} is not a plain relative path" for path in pages + assets if not _is_plain(path)]
    found += [f"the page {path!r} does not end with .md" for path in pages if not path.endswith(".md")]
    # MkDocs would make a page of it, and nobody has looked at what stands in it
    found += [f"the asset {path!r} ends with .md, use .txt" for path in assets if path.endswith(".md")]
    counted = Counter(path.lower() for path in pages + assets)
    found += [f"{path!r} is used {number} times" for path, number in sorted(counted.items()) if number > 1]
    if pages[:1] != ["index.md"]:
        found.append("the first page is not the cover, 'index.md'")
    return found


def _is_plain(path: str) -> bool:
    parts = path.split("/")
    normal = str(PurePosixPath(path)) == path and "\\" not in path
    return normal and ".." not in parts and parts[0] not in ("", ".")
