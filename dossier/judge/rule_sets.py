"""The rule sets that the tool ships."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType

from dossier.model.rule_set import RuleSet
from dossier.model.validation import validate
from dossier.read.yaml_text import read_yaml

FOLDER = Path(__file__).parent / "rule_sets"


@cache
def known_rule_sets() -> Mapping[str, RuleSet]:
    """Read the rule sets that the tool ships, in order of their names.

    Raises:
        Rejected: one of them is broken.
    """
    return MappingProxyType({path.stem: _read(path) for path in sorted(FOLDER.glob("*.yaml"))})


def _read(path: Path) -> RuleSet:
    return validate(RuleSet, read_yaml(path, f"dossier/judge/rule_sets/{path.name}"))
