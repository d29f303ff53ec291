# SPDX-License-Identifier: MIT
"""The outside values: what a publication says, and a test compares with the library.

They stand in two places: rows of published.csv, and PUBLISHED(value, "source") in the C tests. A source is publication, place and
how the value came here, with "; " between. The manual's page is made from here (docs/tables.py); test_outside_values.py counts.
"""
import collections
import csv
import pathlib
import re

ROOT = pathlib.Path(__file__).resolve().parents[3]
TABLE = pathlib.Path(__file__).with_name("published.csv")
UNIT_TESTS = ROOT / "tests/unit"
MARK = re.compile(r"\bPUBLISHED\(\s*([^,()]+?),\s*((?:\"[^\"]*\"\s*)+)\)")
FORMULA = "the formula from memory and worked out by hand"
HOWS = ("from memory", "data and value from memory", FORMULA)

Value = collections.namedtuple("Value", "publication place how value checked where")


class SourceMissing(ValueError):
    """A value whose source does not name publication, place and how it came here."""


def taken_apart(source, where):
    parts = source.split("; ", 2)
    if len(parts) != 3 or not all(part.strip() for part in parts) or not parts[2].startswith(HOWS):
        raise SourceMissing(f"{where}: {source!r} is not publication; place; how the value came here")
    return parts


def of_table(table=TABLE):
    with table.open(newline="", encoding="utf-8") as file:
        for number, row in enumerate(csv.DictReader(file), 2):
            publication, place, how = taken_apart(row["source"], f"{table.name}:{number}")
            yield Value(publication, place, how, row["expected"], f"fer_{row['function']}()", f"{table.name}, line {number}")


def function_before(text, position):
    """Name of the test function that holds a place of a C file."""
    return re.findall(r"^static [^\n]*?(\w+)\(", text[:position], re.MULTILINE)[-1]


def of_unit_test(path):
    text = path.read_text(encoding="utf-8")
    marks = list(MARK.finditer(text))
    if len(marks) != text.count("PUBLISHED(") - text.count("#define PUBLISHED("):
        raise SourceMissing(f"{path.name}: a PUBLISHED that is not a value and a source")
    for mark in marks:
        where = f"{path.name}, {function_before(text, mark.start())}"
        source = "".join(re.findall(r"\"([^\"]*)\"", mark[2]))
        publication, place, how = taken_apart(source, where)
        yield Value(publication, place, how, mark[1], f"module {path.stem.removeprefix('test_')}", where)


def values():
    """All outside values, those of one publication together."""
    found = [*of_table(), *(value for path in sorted(UNIT_TESTS.glob("*.[ch]")) for value in of_unit_test(path))]
    return sorted(found, key=lambda value: value.publication.lower())
