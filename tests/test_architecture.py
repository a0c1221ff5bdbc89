"""The laws of the design, read from the code: who imports whom, how long things are, what is explained."""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
PACKAGE = ROOT / "dossier"
MODULES = tuple(sorted(path.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py")))

LONGEST_MODULE = 300
LONGEST_FUNCTION = 50
MOST_PARAMETERS = 7

GROUND = frozenset(
    {
        "__init__",
        "findings",
        "finding_codes",
        "units",
        "quantities",
        "figures",
        "halton",
        "sampling",
        "glossary",
        "terms",
        "sources",
        "published_work",
        "display",
        "styles",
        "steps",
        "located",
        "places",
        "battery_log",
        "cure_log",
        "months",
        "replacing",
    }
)
"""Everyone may import these; they import at most each other."""
RECORD = {"model", "read", "project", "replay"}
PARTS_OF_A_DOSSIER = {"dossier", "model", "project", "replay", "results", "judge", "procedures", "read"}
"""A page takes these apart for their types; it asks none of them to compute."""

MAY_IMPORT: dict[str, set[str]] = {
    "compute": set(),
    "model": set(),
    "read": set(),
    "project": {"model", "read"},
    "schemas": {"model", "project"},
    "replay": {"model"},
    "results": {"model", "compute", "replay", "tables"},
    "judge": {"model", "compute", "read"},  # its rule sets are YAML files, read as records are
    "procedures": {"model", "project", "results"},
    "references": {"model", "project", "replay", "judge", "procedures", "tables"},
    "dossier": PARTS_OF_A_DOSSIER - {"dossier"},
    "summary": {"dossier", "judge", "compose"},  # the points that are open, in the words of the cover
    "results_file": PARTS_OF_A_DOSSIER | {"results_tables"},
    "results_tables": PARTS_OF_A_DOSSIER,
    "cited_files": {"model", "project", "read", "replay", "results", "compute"},
    "pipeline": PARTS_OF_A_DOSSIER | {"references", "tables", "cited_files"},
    "fleet": {"dossier", "pipeline"},
    "compose": PARTS_OF_A_DOSSIER,
    "tables": {"model", "read", "compute"},  # published tables that the tool ships, read as records are
    "own_output": {"results_file"},
    "replacing": set(),
    "web": {"compose", "pipeline", "project", "replacing"},
    "starter": set(),
    "completed_lists": {
        "model",
        "read",
        "project",
        "replay",
        "pipeline",
        "compose",
    },  # it compares with a list as printed
    "publish": {
        "dossier",
        "project",
        "fleet",
        "pipeline",
        "compose",
        "web",
        "own_output",
        "replacing",
        "results_file",
    },
    "cli": {
        "dossier",
        "project",
        "references",
        "fleet",
        "pipeline",
        "publish",
        "completed_lists",
        "schemas",
        "starter",
        "summary",
        "results_file",
        "compose",
        "web",
    },
    "__main__": {"cli"},
}
"""Room -> rooms that it may import, besides the ground and itself (design: one direction, from record to
page)."""

TYPES_ONLY: dict[tuple[str, str], set[str]] = {
    ("compose", "compute"): {"Envelope", "Corner"},
    ("results_tables", "compute"): {"Corner"},
    # the one decision rule, for the tolerances of the assembly; and what the judge is told of what is fitted
    ("results", "judge"): {"Limit", "decide", "Allowance"},
}
"""Room and room -> what may be imported all the same: types of what a Dossier holds, and nothing that
computes."""

ONLY_IN: dict[str, tuple[str, ...]] = {
    "yaml": ("read",),
    "pint": ("units",),
    "uncertainties": ("quantities", "figures", "results", "judge"),
    "pydantic": ("model", "project", "schemas"),
    "pydantic_core": ("model",),
    "jinja2": ("compose", "web"),  # the web room hands the theme its environment
    "markupsafe": ("compose",),
    "matplotlib": ("compose",),
    "latex2mathml": ("compose",),
    "pylatexenc": ("compose",),
    "mkdocs": ("web",),
}
"""Third-party package -> rooms that may import it."""

DISTRIBUTION = {
    "yaml": "pyyaml",
    "pydantic_core": "pydantic",
    "markupsafe": "jinja2",
    "material": "mkdocs-material",
}
"""Package -> what brings it, where the names differ or it is part of another."""


@cache
def tree_of(module: str) -> ast.Module:
    return ast.parse((PACKAGE / module).read_text("utf-8"))


def room_of(module: str) -> str:
    """``compute/weights.py`` is in ``compute``; ``cli.py`` is ``cli``."""
    return module.partition("/")[0].removesuffix(".py")


def imports(module: str) -> Iterator[tuple[str, int]]:
    """Every imported name with its line, also inside functions and for types only; no relative import
    escapes."""
    for node in ast.walk(tree_of(module)):
        if isinstance(node, ast.Import):
            yield from ((alias.name, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}:{node.lineno} imports by dots"
            assert node.module is not None
            if node.module == "dossier":
                yield from ((f"dossier.{alias.name}", node.lineno) for alias in node.names)
            else:
                yield node.module, node.lineno


def own(module: str) -> list[tuple[str, int]]:
    """Rooms of this package that a module imports."""
    return [
        (name.split(".")[1] if "." in name else "__init__", line)
        for name, line in imports(module)
        if name.split(".")[0] == "dossier"
    ]


def types_of_a_dossier(module: str) -> set[int]:
    """Lines that import nothing but the types that :data:`TYPES_ONLY` lists."""
    found = set()
    for node in ast.walk(tree_of(module)):
        if isinstance(node, ast.ImportFrom) and node.module:
            room = [*node.module.split("."), ""][1]
            if {alias.name for alias in node.names} <= TYPES_ONLY.get((room_of(module), room), set()):
                found.add(node.lineno)
    return found


def foreign(module: str) -> list[tuple[str, int]]:
    """Third-party packages that a module imports."""
    tops = [(name.split(".")[0], line) for name, line in imports(module)]
    return [(top, line) for top, line in tops if top != "dossier" and top not in sys.stdlib_module_names]


# --- who imports whom


def test_every_room_has_a_law() -> None:
    assert {room_of(module) for module in MODULES} - GROUND <= set(MAY_IMPORT)


@pytest.mark.parametrize("module", MODULES)
def test_a_module_imports_only_what_its_room_may(module: str) -> None:
    room = room_of(module)
    allowed = GROUND if room in GROUND else GROUND | MAY_IMPORT[room] | {room}
    types = types_of_a_dossier(module)
    broken = [
        f"dossier/{module}:{line} imports {name}"
        for name, line in own(module)
        if name not in allowed and name != "__version__" and line not in types
    ]
    assert broken == []


@pytest.mark.parametrize("module", MODULES)
def test_a_third_party_package_is_imported_in_its_own_room_only(module: str) -> None:
    room = room_of(module)
    broken = [
        f"dossier/{module}:{line} imports {package}"
        for package, line in foreign(module)
        if package in ONLY_IN and room not in ONLY_IN[package]
    ]
    assert broken == []


def dependencies() -> set[str]:
    """Names of the packages that pyproject.toml installs, without tests and development."""
    listed = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["dependencies"]
    return {re.split(r"[<>=!~\[; ]", text)[0].lower().replace("_", "-") for text in listed}


@pytest.mark.parametrize("module", MODULES)
def test_every_third_party_package_is_a_dependency(module: str) -> None:
    missing = [
        package for package, _ in foreign(module) if DISTRIBUTION.get(package, package) not in dependencies()
    ]
    assert missing == []


def test_every_dependency_is_used_or_is_a_theme() -> None:
    used = {DISTRIBUTION.get(package, package) for module in MODULES for package, _ in foreign(module)}
    assert dependencies() - used <= {"mkdocs-material"}


@pytest.mark.parametrize("module", [module for module in MODULES if module != "cli.py"])
def test_only_the_command_line_prints(module: str) -> None:
    calls = [
        f"dossier/{module}:{node.lineno}"
        for node in ast.walk(tree_of(module))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "print"
    ]
    assert calls == []


# --- names and lengths


VAGUE = re.compile(
    r"(^|_)(utils?|helpers?|managers?|handlers?|misc|common|data|info|process)(_|$)", re.IGNORECASE
)


@pytest.mark.parametrize("module", MODULES)
def test_no_module_has_a_vague_name(module: str) -> None:
    assert not [part for part in module.removesuffix(".py").split("/") if VAGUE.search(part)]


@pytest.mark.parametrize("module", MODULES)
def test_no_class_has_a_vague_name(module: str) -> None:
    words = re.compile(r"(Utils?|Helper|Manager|Handler|Misc)\b|(Data|Info)$")
    assert not [
        node.name
        for node in ast.walk(tree_of(module))
        if isinstance(node, ast.ClassDef) and words.search(node.name)
    ]


@pytest.mark.parametrize("module", MODULES)
def test_no_module_is_longer_than_its_limit(module: str) -> None:
    assert len((PACKAGE / module).read_text("utf-8").splitlines()) <= LONGEST_MODULE


Function = ast.FunctionDef | ast.AsyncFunctionDef


def functions(module: str) -> list[Function]:
    return [node for node in ast.walk(tree_of(module)) if isinstance(node, Function)]


def length(function: Function) -> int:
    """Lines from ``def`` to the end, without the docstring."""
    first = function.body[0]
    told = (
        isinstance(first, ast.Expr)
        and isinstance(first.value, ast.Constant)
        and isinstance(first.value.value, str)
    )
    skipped = (first.end_lineno or 0) - first.lineno + 1 if told else 0
    return (function.end_lineno or 0) - function.lineno + 1 - skipped


@pytest.mark.parametrize("module", MODULES)
def test_no_function_is_longer_than_its_limit(module: str) -> None:
    long = [
        f"dossier/{module}:{one.lineno} {one.name}: {length(one)}"
        for one in functions(module)
        if length(one) > LONGEST_FUNCTION
    ]
    assert long == []


@pytest.mark.parametrize("module", MODULES)
def test_no_function_has_more_parameters_than_its_limit(module: str) -> None:
    many = [
        f"dossier/{module}:{one.lineno} {one.name}"
        for one in functions(module)
        if len([arg for arg in (*one.args.posonlyargs, *one.args.args) if arg.arg not in ("self", "cls")])
        > MOST_PARAMETERS
    ]
    assert many == []


# --- what is explained


def public(module: str) -> Iterator[ast.ClassDef | Function]:
    """Public classes and functions of a module, and the public methods of its public classes."""
    for node in tree_of(module).body:
        if isinstance(node, ast.ClassDef | Function) and not node.name.startswith("_"):
            yield node
            if isinstance(node, ast.ClassDef):
                yield from (
                    one for one in node.body if isinstance(one, Function) and not one.name.startswith("_")
                )


@pytest.mark.parametrize("module", MODULES)
def test_everything_public_says_what_it_is(module: str) -> None:
    silent = [
        f"dossier/{module}:{node.lineno} {node.name}"
        for node in public(module)
        if not ast.get_docstring(node)
    ]
    assert silent == []


@pytest.mark.parametrize("module", MODULES)
def test_every_module_says_what_it_is(module: str) -> None:
    assert ast.get_docstring(tree_of(module))


# --- the check can fail


def test_a_forbidden_import_would_be_seen() -> None:
    assert ("compose", "pipeline") not in {
        (room, name) for room, names in MAY_IMPORT.items() for name in names
    }
    seen = {
        room_of(module): {name for name, _ in own(module)} for module in MODULES if module == "pipeline.py"
    }
    assert "results" in seen["pipeline"]
    assert {package for package, _ in foreign("read/yaml_text.py")} == {"yaml"}
