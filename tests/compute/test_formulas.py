"""Every formula of ``compute`` is a complete data sheet and has a test that calls it."""

from __future__ import annotations

import ast
import copy
import inspect
import pickle
import pkgutil
from importlib import import_module
from pathlib import Path

import pytest

import dossier.compute
from dossier.figures import Formula
from dossier.glossary import SYMBOLS
from dossier.sources import SOURCES
from dossier.units import KINDS

NAMES = [module.name for module in pkgutil.iter_modules(dossier.compute.__path__)]
MODULES = [import_module(f"dossier.compute.{name}") for name in NAMES]
FORMULAS: dict[str, Formula] = {
    f"{module.__name__.rpartition('.')[2]}.{name}": value
    for module in MODULES
    for name, value in sorted(vars(module).items())
    if isinstance(value, Formula) and value.__module__ == module.__name__
}
everyone = pytest.mark.parametrize("formula", FORMULAS.values(), ids=FORMULAS.keys())


def calls(path: Path) -> set[str]:
    """Name every function that a test file calls, with or without its module."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Call):
            target = node.func
            found.add(target.attr if isinstance(target, ast.Attribute) else getattr(target, "id", ""))
    return found


CALLED = set().union(*(calls(path) for path in sorted(Path(__file__).parent.glob("test_*.py"))))


def test_there_are_formulas_to_look_at() -> None:
    assert len(FORMULAS) > 30


@everyone
def test_every_parameter_stands_in_the_glossary(formula: Formula) -> None:
    assert set(formula.parameters) <= SYMBOLS.keys()


@everyone
def test_the_result_stands_in_the_glossary(formula: Formula) -> None:
    assert formula.result in SYMBOLS


@everyone
def test_the_source_is_a_known_one(formula: Formula) -> None:
    assert SOURCES[formula.source.source.key] is formula.source.source


@everyone
def test_the_range_of_validity_is_stated(formula: Formula) -> None:
    assert formula.valid


@everyone
def test_the_formula_begins_with_the_symbol_of_its_result(formula: Formula) -> None:
    assert formula.latex.startswith(SYMBOLS[formula.result].latex + " =")


@everyone
def test_a_test_of_compute_calls_it(formula: Formula) -> None:
    assert formula.name in CALLED


@everyone
def test_it_has_at_most_four_positional_parameters(formula: Formula) -> None:
    parameters = inspect.signature(formula.function).parameters.values()
    assert sum(parameter.kind is not parameter.KEYWORD_ONLY for parameter in parameters) <= 4


@everyone
def test_it_goes_to_another_worker_by_name(formula: Formula) -> None:
    assert pickle.loads(pickle.dumps(formula)) is formula
    assert copy.deepcopy(formula) is formula


@pytest.mark.parametrize("symbol", SYMBOLS.values(), ids=SYMBOLS.keys())
def test_every_symbol_measures_a_known_kind(symbol: object) -> None:
    assert getattr(symbol, "kind", None) in KINDS
