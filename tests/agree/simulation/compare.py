#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Compares a table with the committed one: compare.py COMMITTED COMMAND...

Words have to be the same, numbers nearly: the last digits of libm differ between machines."""
import re
import subprocess
import sys

NUMBER = re.compile(r"^-?\d+(\.\d+)?%?$")


def near(a, b):
    x, y = float(a.rstrip("%")), float(b.rstrip("%"))
    return abs(x - y) <= 0.02 * max(abs(x), abs(y)) + 0.5 * 10.0 ** -len(a.partition(".")[2].rstrip("%"))


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        committed = file.read().split()
    run = subprocess.run(sys.argv[2:], stdout=subprocess.PIPE, text=True)
    written = run.stdout.split()
    wrong = [(a, b) for a, b in zip(committed, written)
             if a != b and not (NUMBER.match(a) and NUMBER.match(b) and near(a, b))]
    for pair in wrong[:10]:
        print("committed %s, now %s" % pair)
    if len(committed) != len(written):
        print("committed table has %d words, now %d" % (len(committed), len(written)))
    print("".join(line + "\n" for line in run.stdout.splitlines() if line.startswith("FAILS")), end="")
    return run.returncode or bool(wrong) or len(committed) != len(written)


if __name__ == "__main__":
    sys.exit(main())
