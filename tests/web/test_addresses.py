from __future__ import annotations

import pytest

from dossier.compose.packet import Asset, Packet, Page
from dossier.web.addresses import faults


def test_a_sound_packet_has_no_fault(packet_of):
    assert faults(packet_of(assets=(Asset("evidence/log.csv", b""),))) == []


@pytest.mark.parametrize(
    "path", ["/etc/x.txt", "../x.txt", "a/../../x.txt", "a//x.txt", "./x.txt", "a\\x.txt", ""]
)
def test_a_path_that_could_leave_the_site_is_a_fault(packet_of, path):
    assert f"{path!r} is not a plain relative path" in faults(packet_of(assets=(Asset(path, b""),)))


def test_a_path_used_twice_is_a_fault_even_if_only_case_differs(packet_of):
    twice = (Asset("Log.csv", b""), Asset("log.csv", b""))
    assert faults(packet_of(assets=twice)) == ["'log.csv' is used 2 times"]


def test_an_asset_that_would_become_a_page_is_a_fault(packet_of):
    found = faults(packet_of(assets=(Asset("notes.md", b""),)))
    assert found == ["the asset 'notes.md' ends with .md, use .txt"]


def test_a_packet_without_a_cover_is_a_fault(packet_of):
    packet = Packet(packet_of().title_block, (Page("two.txt", "Two", "", ""),))
    assert faults(packet)[-1] == "the first page is not the cover, 'index.md'"
