# SPDX-License-Identifier: MIT
"""Racks and schedules against HiGHS (SciPy) and plain Python, in one run: a table of ratios, and the same as JSON.

Usage: PYTHONPATH=build/release/python /usr/bin/python3 tests/release/bench/bench_shop.py [STATIC_LIBRARY] [JSON]

A whole curve is compared with one point of it by HiGHS; a day of 12 kinds against the same recursion in Python and against the
mixed-integer programme of tests/agree/python/test_schedule.py, which takes HiGHS most of a minute. Processor time, the lowest of rounds of the library; others once.
"""
import json
import pathlib
import platform
import random
import subprocess
import sys
import tempfile
import time

import numpy as np
import scipy
from scipy import optimize, sparse

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[2]
sys.path.insert(0, str(ROOT / "tests/agree/python"))
import test_schedule as days  # noqa: E402


def shop(rng, offers, demands, prices):
    sizes = [rng.randrange(20, 181) / 2 for _ in range(offers)]
    dies = [(size, 3 if size < 16 else 5 if size < 19 else 7, rng.choice(prices)) for size in sizes]
    draws = (lambda: rng.gauss(22, 4), lambda: rng.gauss(33, 6), lambda: rng.gauss(52, 12), lambda: rng.uniform(12, 90))
    return dies, [(round(min(max(rng.choice(draws)(), 11), 95), 2), rng.randint(1, 60)) for _ in range(demands)]


def timed(call):
    start = time.process_time()
    value = call()
    return 1e3 * (time.process_time() - start), value


def one_point(dies, demands):
    """Most weight for half the price of all that is worth having, by HiGHS."""
    table = sparse.csr_matrix([[float(size <= target <= size + reach) for size, reach, _ in dies] for target, _ in demands])
    weights, prices = np.array([weight for _, weight in demands]), np.array([die[2] for die in dies])
    rows = sparse.hstack([-table, sparse.identity(len(demands))])
    return optimize.milp(np.concatenate([np.zeros(len(dies)), -weights]), bounds=optimize.Bounds(0, 1),
                         integrality=np.concatenate([np.ones(len(dies)), np.zeros(len(demands))]),
                         constraints=[optimize.LinearConstraint(rows, -np.inf, 0),
                                      optimize.LinearConstraint(np.concatenate([prices, np.zeros(len(demands))]), 0, 6 * prices.mean())])


def recursion(jobs):
    best = {(1 << i, mode): days.change(days.START, mode) for i, job in enumerate(jobs) for mode in days.modes(job)}
    modes = [days.modes(job) for job in jobs]
    for _ in range(len(jobs) - 1):
        new = {}
        for (done, before), spent in best.items():
            for i, own in enumerate(modes):
                for mode in own if not done >> i & 1 else ():
                    key, here = (done | 1 << i, mode), spent + days.change(before, mode)
                    if here < new.get(key, 1e9):
                        new[key] = here
        best = new
    return min(best.values())


def distinct(rng, kind, kinds, due=()):
    jobs = list(dict.fromkeys(days.draw(rng, 6 * kinds, kind)))[:kinds]
    return jobs if not due else [(*rng.choice(jobs)[:3], 60 * rng.randint(2, 12), rng.choice(due)) for _ in range(28)]


def lines(cases):
    for name, (kind, content) in cases.items():
        if kind == "curve":
            yield from (f"offer {size} {reach} {price}" for size, reach, price in content[0])
            yield from (f"demand {target} {weight}" for target, weight in content[1])
        else:
            yield from (f"die {size} {reach} {adapter}" for size, reach, adapter in days.RACK)
            yield from (f"job {target} {reel} {bin_} {due}" for target, reel, bin_, _, due in content)
        yield f"{kind} {name}"


def main():
    archive = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else ROOT / "build/release/lib/libferrule.a")
    rng = random.Random(7)
    cases = {"curve_60_offers_300_demands": ("curve", shop(rng, 60, 300, [1])),
             "curve_100_offers_600_demands_five_prices": ("curve", shop(rng, 100, 600, [180, 240, 310, 420, 560])),
             "day_12_kinds_exact": ("day", distinct(rng, "crossing", 12)), "day_16_kinds_exact": ("day", distinct(rng, "depot", 16)),
             "day_60_kinds": ("day", distinct(rng, "depot", 60)), "day_160_kinds_crossing": ("day", distinct(rng, "crossing", 160)),
             "day_28_orders_8_kinds_3_due_times": ("day", distinct(rng, "depot", 8, (7200, 14400, 28800)))}
    with tempfile.TemporaryDirectory() as folder:
        program = pathlib.Path(folder) / "calls"
        subprocess.run(["gcc", "-std=c11", "-O2", "-DFER_STATIC", "-I", ROOT / "include", HERE / "shop_calls.c", archive, "-lm", "-o", program], check=True)
        said = subprocess.run([program], input="\n".join(lines(cases)), capture_output=True, text=True, check=True).stdout
    ours = {line.split()[0]: float(line.split()[1]) for line in said.splitlines()}
    figures = {line.split()[0]: [int(word) for word in line.split()[2:]] for line in said.splitlines()}
    twelve = cases["day_12_kinds_exact"][1]
    python, value = timed(lambda: recursion(twelve))
    assert value == figures["day_12_kinds_exact"][1]
    highs = {name: timed(lambda content=content: one_point(*content))[0] for name, (kind, content) in cases.items() if kind == "curve"}
    highs["day_12_kinds_exact"], value = timed(lambda: days.programme(twelve, None))
    assert abs(value - figures["day_12_kinds_exact"][1]) < 1e-3
    print(f"{'call':44}{'here':>10}{'HiGHS':>12}{'ratio':>8}{'Python':>12}{'ratio':>8}   milliseconds; gap")
    for name, here in ours.items():
        cells = "".join(f"{other[name]:12.1f}{other[name] / here:8.0f}" if name in other else f"{'-':>12}{'-':>8}" for other in (highs, {"day_12_kinds_exact": python}))
        gap = "" if name.startswith("curve") or "due" in name else f"   {100 * (figures[name][1] / figures[name][2] - 1):.1f} %"
        print(f"{name:44}{here:10.2f}{cells}{gap}")
    if len(sys.argv) > 2:
        result = {"machine": platform.machine(), "scipy": scipy.__version__, "library": ours, "HiGHS": highs, "Python": {"day_12_kinds_exact": python}}
        pathlib.Path(sys.argv[2]).write_text(json.dumps(result, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
