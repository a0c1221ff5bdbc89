"""No list of a demonstration leaves the name of a limit in braces where its value belongs."""

from __future__ import annotations

import re

import pytest
from demos import demo

from dossier.compose.pages import packet

IN_BRACES = re.compile(r"\{[a-z][a-z_]+\}")


@pytest.mark.parametrize(("project", "serial"), [("quillet-e1", "0003"), ("barrow-t2", "T2-007")])
def test_every_limit_in_braces_is_filled_in(project: str, serial: str) -> None:
    pages = packet(demo(project)[serial]).pages
    lists = [page for page in pages if "working/" not in page.path]
    assert len(lists) > 20
    left = {page.path: IN_BRACES.findall(page.text) for page in lists}
    assert {path: found for path, found in left.items() if found} == {}
