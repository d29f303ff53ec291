# SPDX-License-Identifier: MIT
"""The table of batches (tests/agree/vectors/decisions/batches.csv) through judge_batch(), and the table against its rules, which are SciPy's."""
import csv
import importlib.util
import pathlib

import pytest
import test_vectors

import ferrule

TABLE = pathlib.Path(__file__).parent.parent / "vectors/decisions/batches.csv"


def rows():
    with open(TABLE, newline="", encoding="utf-8") as file:
        return [pytest.param(row, id=row["source"]) for row in csv.DictReader(file)]


def numbered(tree):
    """Lists at any depth."""
    if isinstance(tree, dict):
        return test_vectors.list_if_numbered({name: numbered(node) for name, node in tree.items()})
    return tree


@pytest.mark.parametrize("row", rows())
def test_row(row):
    answer = ferrule.judge_batch(**numbered(test_vectors.nest(row["arguments"])))
    assert answer.decision.name.lower() == row["decision"]
    assert ", ".join(finding.name.lower().replace("_", " ") for finding in answer.findings) == row["findings"]
    assert answer.more_pieces == int(row["more_pieces"])


def test_each_finding_is_there_and_not_there():
    found = [set(row.values[0]["findings"].split(", ")) for row in rows()]
    for finding in ferrule.BatchFinding:
        word = finding.name.lower().replace("_", " ")
        assert any(word in findings for findings in found), word
        assert word == "diameters only" or any(word not in findings for findings in found), word


@pytest.mark.more
def test_the_table_is_what_the_rules_say():
    specification = importlib.util.spec_from_file_location("batches", TABLE.with_suffix(".py"))
    batches = importlib.util.module_from_spec(specification)
    specification.loader.exec_module(batches)
    assert TABLE.read_text(encoding="utf-8") == batches.table()
