"""What a publisher is handed: plain values, no generator in sight."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Page:
    """One page of Markdown that may hold ready HTML."""

    path: str
    """Where the page stands in the site, such as ``battery.md`` or ``working/empty-mass.md``."""
    title: str
    group: str
    """The heading under which the page stands in the navigation; empty for the top level."""
    text: str
    in_contents: bool = True
    """False for a page that only other pages lead to: it is no sheet, and search does not look in it."""


@dataclass(frozen=True)
class Asset:
    """A file that pages refer to: a photo, a log, a script."""

    path: str
    content: bytes


@dataclass(frozen=True)
class TitleBlock:
    """The identity that every sheet carries, on screen and in print. All ready strings."""

    type_name: str
    serial_number: str
    builder: str
    edition: str
    """Such as ``Edition B, 2026-05-14`` or ``Draft, not issued``."""
    as_of: str
    status: str
    """The state in words, such as ``Does not conform: 1 requirement``."""
    status_kind: str
    """``conforms``, ``fails`` or ``open``: picks a mark and a tint beside the words, never
    instead of them."""
    paper: str
    """``a4`` or ``letter``."""
    language: str = "en"
    notice: str = ""
    """A line above every page, such as ``Invented demonstration data``."""


@dataclass(frozen=True)
class Packet:
    """All that one serial's site is made from."""

    title_block: TitleBlock
    pages: tuple[Page, ...]
    """In the order of the navigation; the first is the cover, ``index.md``."""
    assets: tuple[Asset, ...] = ()
