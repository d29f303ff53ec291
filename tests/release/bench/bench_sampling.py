# SPDX-License-Identifier: MIT
"""Plans and bursts against SciPy, and against R where it is installed, in one run: a table of ratios, and the same as JSON.

Usage: PYTHONPATH=build/release/python /usr/bin/python3 tests/release/bench/bench_sampling.py [STATIC_LIBRARY] [JSON]

The library is called from C (sampling_calls.c). A verdict on bursts has the bound, the confidence at the limit and the share that is
shown; SciPy is asked for the bound. Best of rounds, processor time.
"""
import json
import math
import pathlib
import platform
import shutil
import subprocess
import sys
import tempfile
import time

import numpy as np
import scipy
from scipy import optimize, special, stats

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[2]


def library_times(archive):
    with tempfile.TemporaryDirectory() as folder:
        program = pathlib.Path(folder) / "calls"
        subprocess.run(["gcc", "-std=c11", "-O2", "-DFER_STATIC", "-I", ROOT / "include", HERE / "sampling_calls.c", archive, "-lm", "-o", program],
                       check=True)
        lines = subprocess.run([program], capture_output=True, text=True, check=True).stdout.split("\n")
    return {name: float(value) for name, value in (line.split() for line in lines if line)}


def plan():
    """Guenther's search with the binomial distribution."""
    for accept in range(1000):
        low, high = accept, accept + 8
        while stats.binom.cdf(accept, high, 0.15) > 0.075:
            low, high = high, 2 * high
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if stats.binom.cdf(accept, middle, 0.15) <= 0.075 else (middle, high)
        if stats.binom.cdf(accept, high, 0.05) >= 0.95:
            return high, accept
    return None


def measured_plan():
    good, bad, n = stats.norm.isf(0.05), stats.norm.isf(0.15), 3
    while True:
        t = stats.nct.isf(0.075, n - 1, math.sqrt(n) * bad)
        if stats.nct.sf(t, n - 1, math.sqrt(n) * good) >= 0.95:
            return n, t / math.sqrt(n)
        n += 1


def weibull():
    """The same integral by a fixed rule in NumPy."""
    y = np.log([128, 132, 134.5, 136.2, 139.0])
    centre, w, r = y.mean(), math.log(-math.log(0.95)), 5
    y = y - centre
    x = math.log(1.28 / y.std()) + np.linspace(-9, 2.5, 300)
    z = np.exp(x)
    sums = np.log(np.exp(np.outer(z, y)).sum(1))
    weights = np.exp((r - 1) * x - r * sums - ((r - 1) * x - r * sums).max())
    weights /= weights.sum()
    return math.exp(centre + optimize.brentq(lambda t: (weights * special.gammainc(r, np.exp(w + sums - z * t))).sum() - 0.9, -1, 1, xtol=1e-13))


SCIPY = {"plan_5_15": (plan, 3), "measured_plan_of_sample": (measured_plan, 1), "weibull_verdict_n5": (weibull, 20)}
R_PROGRAM = """t <- function(name, f, n) { b <- Inf; for (k in 1:5) { s <- proc.time()[1]; for (i in 1:n) f(); b <- min(b, (proc.time()[1] - s)/n) }
cat(name, 1e6*b, "\\n") }
plan <- function() for (c in 0:1000) { n <- c + 1; while (pbinom(c, n, 0.15) > 0.075) n <- n + 1
if (pbinom(c, n, 0.05) >= 0.95) return(c(n, c)) }
t("plan_5_15", plan, 50)
"""


def scipy_times():
    times = {}
    for name, (call, count) in SCIPY.items():
        call()
        rounds = []
        for _ in range(5):
            start = time.process_time()
            for _ in range(count):
                call()
            rounds.append(1e6 * (time.process_time() - start) / count)
        times[name] = min(rounds)
    return times


def r_times():
    if not shutil.which("Rscript"):
        return {}
    lines = subprocess.run(["Rscript", "-e", R_PROGRAM], capture_output=True, text=True, check=True).stdout.split("\n")
    return {line.split()[0]: float(line.split()[1]) for line in lines if line.strip()}


def main():
    archive = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else ROOT / "build/release/lib/libferrule.a")
    ours, theirs, r = library_times(archive), scipy_times(), r_times()
    print(f"{'call':28}{'here':>10}{'SciPy':>12}{'ratio':>8}{'R':>12}{'ratio':>8}   microseconds")
    for name, here in ours.items():
        cells = "".join(f"{other[name]:12.1f}{other[name] / here:8.0f}" if name in other else f"{'-':>12}{'-':>8}" for other in (theirs, r))
        print(f"{name:28}{here:10.2f}{cells}")
    if len(sys.argv) > 2:
        result = {"machine": platform.machine(), "scipy": scipy.__version__, "library": ours, "SciPy": theirs, "R": r}
        pathlib.Path(sys.argv[2]).write_text(json.dumps(result, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
