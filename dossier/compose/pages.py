"""The packet: all pages of one serial, in the order in which a reader wants them."""

from __future__ import annotations

from dossier.compose import (
    assembly,
    balance,
    battery,
    claims,
    conformity,
    cover,
    declaration,
    energy,
    gauge_card,
    glossary_page,
    maintenance,
    operating,
    performance,
    pictures,
    records,
    trailer,
    wiring,
)
from dossier.compose.evidence_files import assets
from dossier.compose.packet import Packet
from dossier.compose.title_block import title_block
from dossier.compose.working import pages as working
from dossier.dossier import Dossier


def packet(dossier: Dossier) -> Packet:
    """Make the packet of one serial."""
    pages = (
        *cover.pages(dossier),
        *declaration.pages(dossier),
        *conformity.pages(dossier),
        *claims.pages(dossier),
        *balance.pages(dossier),
        *battery.pages(dossier),
        *energy.pages(dossier),
        *gauge_card.pages(dossier),
        *wiring.pages(dossier),
        *performance.pages(dossier),
        *trailer.pages(dossier),
        *operating.pages(dossier),
        *maintenance.pages(dossier),
        *assembly.pages(dossier),
        *records.pages(dossier),
        *glossary_page.pages(dossier),
        *working.pages(dossier),
        *operating.cards(dossier),
    )
    return Packet(title_block(dossier), pages, (*assets(dossier), *pictures.assets(dossier)))
