"""Do the examples in the docstrings give what they say?"""

import doctest
import importlib
import inspect
import pkgutil

import pytest

from interview import engineering

MODULES = sorted(
    module.name
    for module in pkgutil.iter_modules(engineering.__path__, "interview.engineering.")
    if module.name != "interview.engineering.threads"
)


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name: str) -> None:
    module = importlib.import_module(name)
    result = doctest.testmod(module, verbose=False)
    assert result.failed == 0


@pytest.mark.parametrize("name", [n for n in MODULES if not n.endswith((".errors", ".viscosity_index_table"))])
def test_every_public_function_has_an_example(name: str) -> None:
    module = importlib.import_module(name)
    for label, function in inspect.getmembers(module, inspect.isfunction):
        if function.__module__ != name or label.startswith("_"):
            continue
        text = inspect.getdoc(function) or ""
        assert ">>>" in text, f"{name}.{label} has no example"
