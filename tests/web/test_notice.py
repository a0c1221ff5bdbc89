"""The theme's announcement to authors of documentation stays away from a builder's terminal."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from dossier.places import base_configuration

ENVIRONMENT = {name: value for name, value in os.environ.items() if name != "NO_MKDOCS_2_WARNING"}
LOADS = f"from mkdocs.config import load_config; load_config({str(base_configuration())!r})"


def said_by(program: str, statements: str) -> str:
    """Run statements in a fresh interpreter that takes itself for the named program."""
    code = f"import sys; sys.argv = [{program!r}]; {statements}"
    command = [sys.executable, "-c", code]
    ran = subprocess.run(command, env=ENVIRONMENT, capture_output=True, text=True, check=True)
    return ran.stdout + ran.stderr


@pytest.mark.parametrize("program", ["mkdocs", "dossier"])
def test_the_configuration_loads_without_a_word(program):
    assert said_by(program, LOADS) == ""


def test_the_theme_alone_would_have_said_something():
    assert "end of life" in said_by("mkdocs", "import material.templates")
