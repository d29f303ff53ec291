#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""The accuracy lines of the headers promise nothing that table.csv contradicts, and no function is without a judge.

A line that names units in the last place or powers of ten has to name at least what was measured; `exact` has to be so.
Every public function with a status is in the table, or has a row in the catalogue that says what judges it.
"""
import csv
import pathlib
import re
import sys

HERE = pathlib.Path(__file__).resolve().parent
TESTS = next(folder for folder in HERE.parents if folder.name == "tests")
sys.path[:0] = [str(folder.parent) for folder in TESTS.glob("*/catalogue")]
from catalogue.rows import HEADERS, rows  # noqa: E402

COMMENT = re.compile(r"/\*\*((?:(?!\*/).)*)\*/\s*FER_API ([\w ]+[ *])(fer_\w+)\(", re.S)


def stated():
    """Accuracy text by function, of those that return a status and work on one row."""
    for header in sorted(HEADERS.glob("*.h")):
        if header.name in ("bulk.h", "text.h"):
            continue  # the bits of the functions on one row; correctly rounded, against exact fractions in tests/agree/python
        for comment, kind, name in COMMENT.findall(header.read_text(encoding="utf-8")):
            if kind.strip() == "fer_status":
                found = re.search(r"@accuracy (.*?)(?=\n \* @|$)", comment, re.S)
                yield name, " ".join(found.group(1).replace("\n *", " ").split()) if found else ""


def complaints(name, text, rows):
    """What the measured rows contradict."""
    units = [float(x) for x in re.findall(r"([\d.]+) units? in the last place", text)]
    powers = [float(x) for x in re.findall(r"\b(\d(?:\.\d)?e-\d+)", text)]
    for row in rows:
        largest, place = float(row["largest"]), f"{name}, {row['result']}: {row['largest']} {row['measure']} measured"
        if text.startswith("exact") and "but" not in text and not units and largest > 0:
            yield f"{place}, but said to be exact"
        if row["measure"] == "ulp" and units and largest > max(units):
            yield f"{place}, but {max(units):g} units in the last place promised"
        if row["measure"] == "relative" and powers and largest > max(powers):
            yield f"{place}, but {max(powers):g} promised"


def main():
    with (HERE / "table.csv").open(encoding="utf-8") as file:
        table = list(csv.DictReader(file))
    wrong, count, judged = [], 0, {name for name, row in rows().items() if row.judged}
    for name, text in stated():
        measured = [row for row in table if row["function"] == name]
        count += 1
        if not measured and name not in judged:
            wrong.append(f"{name}: not in table.csv; PYTHONPATH=build/release/python /usr/bin/python3 tests/agree/accuracy/measure.py "
                         f"--full 3000 {name} writes it, or its row in the catalogue says judged=\"by what\"")
        if measured and not text:
            wrong.append(f"{name}: measured, but its comment in the header has no @accuracy")
        wrong += complaints(name, text, measured)
    for row in table:
        if float(row["largest"]) > float(row["bound"]):
            wrong.append(f"{row['function']}, {row['result']}: above its bound")
    print("\n".join(wrong) or f"{count} functions, {len(table)} rows: nothing promised that was not measured")
    return bool(wrong)


if __name__ == "__main__":
    sys.exit(main())
