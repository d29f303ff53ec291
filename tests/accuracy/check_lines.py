#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""The accuracy lines of the headers promise nothing that table.csv contradicts, and no function is without a judge.

A line that names units in the last place or powers of ten has to name at least what was measured; `exact` has to be so.
Every public function with a status is in the table, or in ELSEWHERE with what judges it.
"""
import csv
import pathlib
import re
import sys

HERE = pathlib.Path(__file__).parent
HEADERS = HERE.parents[1] / "include/ferrule"
COMMENT = re.compile(r"/\*\*((?:(?!\*/).)*)\*/\s*FER_API ([\w ]+[ *])(fer_\w+)\(", re.S)
DECIDES = "decides, does not calculate: its tests compare with brute force, published examples or by hand"
CALLS = "calls functions of the table: its tests compare with them"
ELSEWHERE = {
    "fer_check_joint": DECIDES, "fer_check_material": DECIDES, "fer_check_press": DECIDES,
    "fer_find_coverage_gaps": DECIDES, "fer_choose_purchases": DECIDES, "fer_find_outliers": DECIDES,
    "fer_plan_setup": CALLS, "fer_inspect_crimp": CALLS, "fer_summarise_sections": CALLS,
    "fer_find_acceptance_zone": "the zone of fer_judge()", "fer_find_shown_zone": "whole steps: by hand in tests/c",
    "fer_find_compression_share": "against fer_crimp_yield() and SciPy in tests/c", "fer_learn_priors": "a sum",
    "fer_simulate_yield": "counts: exactly those of its trials (fer_summarise_tally), against the exact yield in tests/simulation",
    "fer_simulate_compression": "as fer_simulate_yield()", "fer_simulate_to_digits": "as fer_simulate_yield()",
    "fer_simulate_setups": "as fer_simulate_yield()", "fer_find_simulated_yield": "under fer_summarise_tally",
    "fer_merge_counts": "sums of whole numbers", "fer_merge_tallies": "sums of whole numbers",
    "fer_find_tally_quantile": "within the class that the trials fell into: 1/32 of the standard uncertainty by definition",
    "fer_best_target": "under fer_cheapest_target",
}


def stated():
    """Accuracy text by function, of those that return a status and work on one row."""
    for header in sorted(HEADERS.glob("*.h")):
        if header.name in ("bulk.h", "text.h"):
            continue  # the bits of the functions on one row; correctly rounded, against exact fractions in tests/python
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
    wrong, count = [], 0
    for name, text in stated():
        rows = [row for row in table if row["function"] == name]
        count += 1
        if not rows and name not in ELSEWHERE:
            wrong.append(f"{name}: neither measured nor in the list of what is judged otherwise")
        if rows and not text:
            wrong.append(f"{name}: measured, but its comment does not say so")
        wrong += complaints(name, text, rows)
    for row in table:
        if float(row["largest"]) > float(row["bound"]):
            wrong.append(f"{row['function']}, {row['result']}: above its bound")
    print("\n".join(wrong) or f"{count} functions, {len(table)} rows: nothing promised that was not measured")
    return bool(wrong)


if __name__ == "__main__":
    sys.exit(main())
