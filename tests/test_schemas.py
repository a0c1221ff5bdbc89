"""The schemas accept what the tool accepts and refuse what it refuses, as far as a schema can."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator

from dossier.schemas import FILES, schemas

PROJECTS = Path(__file__).parents[1] / "projects"
DEMO_FILES = [
    pytest.param(kind, path, id=str(path.relative_to(PROJECTS)))
    for kind, pattern in FILES.items()
    for project in sorted(PROJECTS.iterdir())
    for path in sorted(project.glob(pattern))
]


@pytest.mark.parametrize("name", FILES)
def test_each_schema_is_a_valid_schema(name: str) -> None:
    Draft202012Validator.check_schema(schemas()[name])


@pytest.mark.parametrize(("kind", "path"), DEMO_FILES)
def test_every_demo_file_follows_its_schema(kind: str, path: Path) -> None:
    data = yaml.load(path.read_text(encoding="utf-8"), Loader=_Json)
    assert list(Draft202012Validator(schemas()[kind]).iter_errors(data)) == []


def test_a_misspelt_key_is_refused_by_the_schema() -> None:
    errors = list(Draft202012Validator(schemas()["hazards"]).iter_errors({"hazzards": {}}))
    assert {error.validator for error in errors} == {"additionalProperties", "required"}


class _Json(yaml.SafeLoader):
    """What an editor's YAML 1.2 support makes of a file: dates stay text."""


_Json.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in resolvers if tag != "tag:yaml.org,2002:timestamp"]
    for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
