# SPDX-License-Identifier: MIT
"""The shared tables of tests/agree/vectors/ through the Python functions, every row."""
import csv
import pathlib
import re

import pytest

import ferrule

TABLES = pathlib.Path(__file__).parent.parent / "vectors"


def rows():
    for table in sorted(TABLES.glob("*.csv")):
        with open(table, newline="", encoding="utf-8") as file:
            for number, row in enumerate(csv.DictReader(file), 2):
                yield pytest.param(row, id=f"{table.stem}:{number}")


def plain(value):
    """A value without a unit is a number, all others stay text."""
    if value == "true":
        return True
    if re.fullmatch(r"-?\d+", value):
        return int(value)
    return float(value) if re.fullmatch(r"-?\d+\.\d*", value) else value


def nest(arguments):
    """`a.b=1; l.0.c=2` as {"a": {"b": "1"}, "l": [{"c": "2"}]}."""
    tree = {}
    for item in arguments.split("; "):
        path, value = item.split("=", 1)
        *parents, last = path.split(".")
        node = tree
        for name in parents:
            node = node.setdefault(name, {})
        node[last] = plain(value)
    return {name: list_if_numbered(node) for name, node in tree.items()}


def list_if_numbered(node):
    if isinstance(node, dict) and all(key.isdigit() for key in node):
        return [node[str(i)] for i in range(len(node))]
    return node


def call(row):
    return getattr(ferrule, row["function"])(**nest(row["arguments"]))


def result_names(function):
    """Names of the results, in order, as the docstring says them."""
    results = getattr(ferrule, function).__doc__.split("Results:")[1].split("\n\n")[0]
    return [name.rstrip("_") for name in re.findall(r"^\s+(\w+) \(", results, re.MULTILINE)]


def figure(function, result, path):
    """The figure at a path that begins with the name of the C result argument."""
    first, *rest = path.split(".")
    names = result_names(function)
    assert first in names
    if len(names) > 1:
        result = result[names.index(first)]
    for name in rest:
        result = getattr(result, name)
    return result


def difference(actual, expected, tolerance):
    """How far the figure is off and how far it may be, in one unit."""
    if isinstance(actual, int):
        return abs(int(actual) - int(expected)), int(tolerance)
    kind = type(actual)
    return abs(actual - kind(expected)), kind(tolerance)


@pytest.mark.parametrize("row", rows())
def test_row(row):
    if row["expected"].startswith("status "):
        with pytest.raises(ferrule.Error) as caught:
            call(row)
        assert caught.value.code.name == row["expected"].removeprefix("status ")
        assert caught.value.function == row["function"]
    else:
        off, allowed = difference(figure(row["function"], call(row), row["result"]), row["expected"], row["tolerance"])
        assert off <= allowed, row["source"]


def test_no_table_is_empty():
    assert len(list(rows())) > 500
