# SPDX-License-Identifier: MIT
"""The manual's page on machines names the mathematical functions that the record of the microcontrollers found, the targets
that there are, and no stack below the largest; every source that computes says what its arithmetic has to be.

Usage: check_page.py
"""
import csv
import json
import re
import sys

from targets import BY_NAME, HERE

ROOT = HERE.parents[2]
# What IEEE 754 fixes to the last bit, and what is the same everywhere for other reasons.
EXACT = {"sqrt", "fabs", "floor", "ceil", "rint", "round", "trunc", "fmod", "remainder", "ldexp", "frexp", "copysign", "fmin",
         "fmax"}
WORDS_ONLY = {"status.c", "caution.c", "words.c"}


def includes_strict(path, seen=()):
    """Whether a source includes strict.h, itself or by a private header."""
    text = path.read_text(encoding="utf-8")
    for name in re.findall(r'#include "(.*?)"', text):
        inner = ROOT / "lib" / name
        if name == "base/numeric/strict.h" or (name not in seen and includes_strict(inner, (*seen, name))):
            return True
    return False


def main():
    page = (ROOT / "docs" / "platforms.md").read_text(encoding="utf-8")
    record = json.loads((ROOT / "tests/release/proof/records/freestanding.json").read_text(encoding="utf-8"))
    total = next(row for row in record["rows"] if row[0] == "total")
    named = set(re.findall(r"`(\w+)`", re.search(r"\n\n(`exp`.*?) are the system's", page, re.S)[1]))
    troubles = []
    if named != set(total[-1].split()) - EXACT:
        troubles.append(f"functions that differ: the page has {sorted(named)}, the record {total[-1]}")
    for line in re.findall(r"run\.sh ([a-z0-9 ]+?) *#", page):
        troubles += [f"no target {name}" for name in line.split() if name not in BY_NAME]
    with (HERE / "stack.csv").open(encoding="utf-8") as file:
        largest = max(int(row["Cortex-M4F bytes"]) for row in csv.DictReader(file))
    said = 1000 * int(re.search(r"(\d+) kB for the simulations", page)[1])
    if not 0.9 * said <= largest <= said:
        troubles.append(f"the largest stack is {largest} bytes, and the page says {said}")
    for path in sorted((ROOT / "lib").rglob("*.c")):
        if path.name not in WORDS_ONLY and not includes_strict(path):
            troubles.append(f"{path.relative_to(ROOT)} does not include base/numeric/strict.h")
    for path in sorted((ROOT / "lib").rglob("*.h")):
        if re.search(r"static inline (?!int|void|unsigned|uint)", path.read_text(encoding="utf-8")) and not includes_strict(path):
            troubles.append(f"{path.relative_to(ROOT)} has functions and does not include base/numeric/strict.h before them")
    sys.exit("\n".join(troubles) if troubles else 0)


if __name__ == "__main__":
    main()
