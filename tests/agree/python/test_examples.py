# SPDX-License-Identifier: MIT
"""The examples of the docstrings: every function has one, and all of them run."""
import doctest
import inspect
import pathlib
import types

import pytest

import ferrule
from conftest import PUBLIC

FLAGS = doctest.ELLIPSIS
EXAMPLES = {name: value for name, value in PUBLIC.items() if (inspect.isbuiltin(value) or isinstance(value, type)) and
            ">>>" in (value.__doc__ or "")}
UNITS = {unit.name for unit in ferrule.Unit}


def run(name, text, scope):
    test = doctest.DocTestParser().get_doctest(text, scope, name, None, 0)
    runner, reported = doctest.DocTestRunner(optionflags=FLAGS, verbose=False), []
    runner.run(test, out=reported.append)
    assert runner.tries and not runner.failures, "".join(reported)


@pytest.mark.parametrize("name", EXAMPLES)
def test_example(name):
    run(name, EXAMPLES[name].__doc__, {k: v for k, v in PUBLIC.items() if not k.startswith("_")})


def test_every_function_has_an_example():
    functions = {name for name, value in PUBLIC.items() if inspect.isbuiltin(value)} - UNITS
    assert len(functions) > 60
    missing = sorted(functions - set(EXAMPLES))
    assert not missing, f"write them in tests/agree/catalogue: {missing}"


def test_examples_say_where_their_figures_come_from():
    for name, value in EXAMPLES.items():
        head = value.__doc__.partition(">>>")[0].rstrip().splitlines()[-1]
        assert head.startswith("Example (") and head.endswith("):") and len(head) > len("Example (a b):"), name


def test_a_wrong_figure_fails():
    with pytest.raises(AssertionError, match="23.52"):
        run("wrong", ">>> f\"{crimp_diameter(Joint(('12.7 mm', '19.9 mm'), '12.95 mm', '2.4 mm'), '20 %'):.2f mm}\"\n'23.52 mm'\n", PUBLIC.copy())


@pytest.mark.parametrize("name", ["drawing", "bulk"])
def test_examples_of_modules(name):
    if name == "bulk":
        pytest.importorskip("numpy")
    run(name, __import__(f"ferrule.{name}", fromlist=["x"]).__doc__, {})


def test_columns_do_not_show_the_example_of_single_values():
    pytest.importorskip("numpy")
    for name in ferrule.bulk.names:
        text = getattr(ferrule.bulk, name).__doc__
        assert "Columns:" in text and ">>>" not in text and "Example" not in text


@pytest.mark.parametrize("name", ["drawing", "bulk", pytest.param("plot", marks=pytest.mark.more), "__main__"])
def test_modules_say_what_they_are(name):
    if name == "plot":
        pytest.importorskip("matplotlib").use("Agg")
    module = __import__(f"ferrule.{name}", fromlist=["x"])
    assert isinstance(module, types.ModuleType) and len(module.__doc__) > 80
    assert pathlib.Path(module.__file__).parent == pathlib.Path(ferrule.__file__).parent
