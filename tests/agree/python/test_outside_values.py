# SPDX-License-Identifier: MIT
"""The values out of publications that stand in the tests: how many there are, and that each names where it comes from.

That the library agrees with them is tested where they stand: published.csv by every language, the others by the C tests.
"""
import collections
import csv
import pathlib
import sys

import pytest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "vectors"))
import outside  # noqa: E402


def test_there_are_a_hundred_and_fifty():
    found = outside.values()
    assert len(found) >= 150
    assert sum(value.how != outside.FORMULA for value in found) >= 150  # printed there, not worked out from a printed formula


def test_they_come_from_many_works():
    works = collections.Counter(value.publication for value in outside.values())
    assert len(works) >= 10


def test_no_value_is_counted_twice():
    seen = collections.Counter((value.publication, value.place) for value in outside.values())
    assert [place for place, times in seen.items() if times > 1] == []


@pytest.mark.parametrize("source", ["", "any table", "GUM; ; from memory", "GUM; table G.2", "; table G.2; from memory",
                                    "GUM; table G.2; measured"])
def test_a_row_without_a_publication_is_refused(tmp_path, source):
    with outside.TABLE.open(newline="", encoding="utf-8") as file:
        head, first, *_ = csv.reader(file)
    table = tmp_path / "published.csv"
    with table.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([head, [*first[:-1], source]])
    with pytest.raises(outside.SourceMissing, match="published.csv:2"):
        list(outside.of_table(table))


@pytest.mark.parametrize("call", ['PUBLISHED(1.0, "any table")', "PUBLISHED(1.0, SOURCE)"])
def test_a_mark_without_a_publication_is_refused(tmp_path, call):
    test = tmp_path / "test_joint.c"
    test.write_text(f"static void a_case(void **state)\n{{\n    CHECK_NEAR(1.0, {call}, 0.0);\n}}\n", encoding="utf-8")
    with pytest.raises(outside.SourceMissing, match="test_joint.c"):
        list(outside.of_unit_test(test))
