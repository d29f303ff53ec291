#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Largest error of every numeric public function against mpmath at 200 bits.

Usage: measure.py                 short form: few samples, fails above a bound
       measure.py --full SAMPLES  all samples, writes table.csv beside this file (see docs/accuracy.md)
       measure.py NAME...         functions whose name contains one of these, short form, with the place of the largest error

Needs the Python package (PYTHONPATH) and mpmath.
"""
import csv
import datetime
import math
import pathlib
import platform
import random
import sys

import mpmath

import cases
import ferrule

TABLE = pathlib.Path(__file__).with_name("table.csv")
COLUMNS = ("function", "result", "measure", "bound", "largest", "samples", "seed", "date")
SHORT = 60


def error_of(measure, actual, exact, scale=None):
    """Error in units in the last place of the scale, or by the scale; a result that is exactly right has none."""
    miss = abs(cases.mpf(actual) - exact)
    if miss == 0:
        return 0.0
    scale = abs(exact if scale is None else scale)
    return float(miss / math.ulp(float(scale))) if measure == "ulp" else float(miss / scale)


def measure_case(function, measure, draw, samples):
    """Largest error and its seed, and how many samples were taken, for each result."""
    largest = {}
    for number in range(samples):
        seed = f"{draw.__name__} {number}"
        try:
            results = draw(random.Random(seed))
        except ferrule.Error:
            continue  # arguments outside the domain
        for result, values in (results or {}).items():
            error = error_of(measure, *values)
            if not error < math.inf:
                sys.exit(f"{function}, {result}: {values} with seed {seed}")
            known = largest.setdefault(result, [-1.0, "", 0])
            known[2] += 1
            if error > known[0]:
                known[:2] = error, seed
    return largest


def run(names, samples):
    """Rows of the table, and those above their bound."""
    today = datetime.date.today().isoformat()
    rows, failed = [], []
    for function, measure, bound, share, draw in cases.CASES:
        if names and not any(name in function or name == draw.__name__ for name in names):
            continue
        least = 20 if share >= 0.005 else 3  # some take seconds
        largest = measure_case(function, measure, draw, max(least, int(samples * share)))
        if not largest:
            sys.exit(f"{function}: {draw.__name__} never gave a result")
        for result, (error, seed, count) in largest.items():
            row = dict(zip(COLUMNS, (function, result, measure, f"{bound:g}", f"{error:.2g}", count, seed, today)))
            rows.append(row)
            if not error <= bound:
                failed.append(row)
    return rows, failed


def show(row):
    return f"{row['function']:28} {row['result']:40} {row['largest']:>8} {row['measure']:8} (bound {row['bound']}, " \
           f"{row['samples']} samples, seed \"{row['seed']}\")"


def main():
    arguments = sys.argv[1:]
    full = bool(arguments) and arguments[0] == "--full"
    rows, failed = run(arguments if not full else [], int(arguments[1]) if full else SHORT)
    for row in rows if full or arguments else failed:
        print(show(row))
    if full:
        with TABLE.open("w", newline="") as file:
            writer = csv.DictWriter(file, COLUMNS, lineterminator="\n")
            writer.writeheader()
            writer.writerows(rows)
        print(f"mpmath {mpmath.__version__}, Python {platform.python_version()}, {platform.machine()}")
    if failed:
        sys.exit("above the bound:\n" + "\n".join(show(row) for row in failed))
    print(f"{len(rows)} results of {len({row['function'] for row in rows})} functions within their bounds")


if __name__ == "__main__":
    main()
