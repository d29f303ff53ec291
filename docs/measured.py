#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Puts what was measured into the accuracy lines of a header: a filter for Doxygen, `measured.py HEADER`.

The figures are those of tests/agree/accuracy/table.csv. Lines stay where they are.
"""
import csv
import pathlib
import re
import sys

TABLE = pathlib.Path(__file__).parents[1] / "tests/agree/accuracy/table.csv"
WORDS = {"ulp": "units in the last place", "relative": "relative"}


def sentences():
    """What was measured of each function."""
    largest = {}
    with TABLE.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            known = largest.setdefault(row["function"], {}).setdefault(row["measure"], row)
            if float(row["largest"]) > float(known["largest"]):
                largest[row["function"]][row["measure"]] = row
    return {name: "measured against 200 bits: at most " + ", ".join(f"{row['largest']} {WORDS[measure]} ({row['result']})"
                                                                  for measure, row in rows.items())
            for name, rows in largest.items()}


def completed(text, measured):
    """The header with the figures at the beginning of each accuracy line."""
    lines, waiting = text.splitlines(), None
    for number, line in enumerate(lines):
        if " * @accuracy " in line:
            waiting = number
        declared = re.match(r"FER_API [\w ]+[ *](fer_\w+)\(", line)
        if declared and waiting is not None:
            if declared.group(1) in measured:
                lines[waiting] = lines[waiting].replace("@accuracy ", f"@accuracy {measured[declared.group(1)]}. Kept to: ", 1)
            waiting = None
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    sys.stdout.write(completed(pathlib.Path(sys.argv[1]).read_text(encoding="utf-8"), sentences()))
