"""Where pages stand, and how one leads to another: the only place that knows the addresses."""

from __future__ import annotations

import posixpath
import re

COVER = "index.md"
DECLARATION = "declaration.md"
CONFORMITY = "conformity.md"
BALANCE = "weight-and-balance.md"
BATTERY = "battery.md"
ENERGY = "energy.md"
GAUGE = "gauge-card.md"
WIRING = "wiring.md"
PERFORMANCE = "performance.md"
CLAIMS = "claims.md"
ASSEMBLY = "assembly.md"
TRAILER = "trailer.md"
MAINTENANCE = "maintenance.md"
RECORDS = "records.md"
WORDS = "words.md"
WORKING = "working/index.md"


def relative(target: str, page: str) -> str:
    """Return a link, for use on ``page``, to an address from the root of the packet."""
    path, hash_sign, anchor = target.partition("#")
    if path == page and hash_sign:
        return f"#{anchor}"
    return posixpath.relpath(path, posixpath.dirname(page) or ".") + hash_sign + anchor


def card(list_page: str) -> str:
    """Return where the print card of a list stands, by the page of the list."""
    return f"cards/{list_page}"


def anchor(name: str) -> str:
    """Make an anchor from a name such as ``us-14-cfr-103/e-1``; a figure's name is an anchor as it stands."""
    return re.sub(r"[^A-Za-z0-9._-]+", "-", name)
