#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Largest error of every numeric public function against mpmath at 200 bits.

Usage: measure.py                 short form: few samples, fails above a bound
       measure.py --full SAMPLES [NAME...]  all samples, writes table.csv beside this file (see docs/accuracy.md); with
                                  names only the rows of these functions, the others stay
       measure.py --record        tests/release/proof/records/accuracy.json out of table.csv, without measuring
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

import ferrule

TESTS = next(folder for folder in pathlib.Path(__file__).resolve().parents if folder.name == "tests")
sys.path[:0] = [str(folder.parent) for name in ("catalogue", "proof/record.py") for folder in TESTS.rglob(name)]
import record  # noqa: E402
from catalogue.exact import cases, mpf  # noqa: E402

TABLE = pathlib.Path(__file__).with_name("table.csv")
COLUMNS = ("function", "result", "measure", "bound", "largest", "samples", "seed", "date")
SHORT = 60


def error_of(measure, actual, exact, scale=None):
    """Error in units in the last place of the scale, or by the scale; a result that is exactly right has none."""
    miss = abs(mpf(actual) - exact)
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
    for function, measure, bound, share, draw in cases():
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


def kind_of(row):
    """What a row of the table is measured by, as the record says it."""
    if row["measure"] == "ulp":
        return "closed forms, in units in the last place (bound 2)"
    return f"relative or absolute, bound {row['bound']}"


def write_record():
    """A row a kind of bound: how many functions and results, the largest error and where."""
    with TABLE.open(encoding="utf-8") as file:
        table = list(csv.DictReader(file))
    rows = []
    for kind in sorted({kind_of(row) for row in table}):
        these = [row for row in table if kind_of(row) == kind]
        worst = max(these, key=lambda row: float(row["largest"]) / max(float(row["bound"]), 1e-300))
        rows.append([kind, str(len({row["function"] for row in these})), str(len(these)), worst["largest"],
                     f"{worst['function']}, {worst['result']}", str(sum(int(row["samples"]) for row in these))])
    above = [f"{row['function']}, {row['result']}: {row['largest']}" for row in table if float(row["largest"]) > float(row["bound"])]
    record.write("accuracy", title="Right to the last digits", order=10,
                 said="Every numeric public function was compared with the same formula at 200 bits, written independently as it stands "
                      "in a text, over its whole domain: random, at its ends, nearly degenerate. The table of each function's largest "
                      "error, and where it is, is on the page of measured accuracy, and the accuracy lines of the functions are made "
                      "from it.",
                 commands=["/usr/bin/python3 tests/agree/accuracy/measure.py --full 20000", "/usr/bin/python3 tests/agree/accuracy/measure.py --record"],
                 in_tests="60 samples of each function (3 of the slowest) against the same bounds; no header may promise more than was "
                          "measured, and no function be without a judge (tests/agree/accuracy/check_lines.py).",
                 tools=[f"mpmath {mpmath.__version__}", f"Python {platform.python_version()}", record.tool("gcc")],
                 columns=["measured by", "functions", "results", "largest error", "of", "samples"], rows=rows,
                 left=" ".join([*(f"Above the bound: {text}." for text in above),
                                "The model of forming is solved by rules of integration to some 1e-5, not to 1e-13: finite elements put "
                                "the model itself at 0.05 % to 0.5 %."]))


def write_table(rows):
    """These rows, and those of cases that were not measured now, in the order of the functions."""
    measured = {(row["function"], row["measure"], row["bound"]) for row in rows}
    with TABLE.open(encoding="utf-8") as file:
        kept = [row for row in csv.DictReader(file) if (row["function"], row["measure"], row["bound"]) not in measured]
    order = {function: place for place, (function, *_) in reversed(list(enumerate(cases())))}
    with TABLE.open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, COLUMNS, lineterminator="\n")
        writer.writeheader()
        writer.writerows(sorted((row for row in kept + rows if row["function"] in order), key=lambda row: order[row["function"]]))


def main():
    arguments = sys.argv[1:]
    if arguments == ["--record"]:
        write_record()
        return
    full = bool(arguments) and arguments[0] == "--full"
    rows, failed = run(arguments[2:] if full else arguments, int(arguments[1]) if full else SHORT)
    for row in rows if full or arguments else failed:
        print(show(row))
    if full:
        write_table(rows)
        print(f"mpmath {mpmath.__version__}, Python {platform.python_version()}, {platform.machine()}")
    if failed:
        sys.exit("above the bound:\n" + "\n".join(show(row) for row in failed))
    print(f"{len(rows)} results of {len({row['function'] for row in rows})} functions within their bounds")


if __name__ == "__main__":
    main()
