"""What the tests of verdicts share."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from invented import Serial, compliance, serial

from dossier.judge.verdict import Judgement


@pytest.fixture
def judged(tmp_path: Path) -> Any:
    def judge(rule_set: str, one: Serial | None = None, **changes: Any) -> Judgement:
        return (one or serial()).judged(compliance(tmp_path, rule_set, **changes))

    return judge
