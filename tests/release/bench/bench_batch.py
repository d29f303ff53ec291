# SPDX-License-Identifier: MIT
"""Samples and gauge studies against SciPy, and against R where it is installed, in one run: a table of ratios, and the same as JSON.

Usage: PYTHONPATH=build/release/python /usr/bin/python3 tests/release/bench/bench_batch.py [STATIC_LIBRARY] [JSON]

The library is called from C (batch_calls.c); a call of find_capability gives all its indices and limits, where SciPy and R are asked for
one limit. Best of rounds, processor time.
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
from scipy import optimize, stats

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[2]
WEIGHTS = [148, 161, 182, 154, 162, 195, 158, 166, 236, 160, 170]


def library_times(archive):
    with tempfile.TemporaryDirectory() as folder:
        program = pathlib.Path(folder) / "calls"
        subprocess.run(["gcc", "-std=c11", "-O2", "-DFER_STATIC", "-I", ROOT / "include", HERE / "batch_calls.c", archive, "-lm", "-o", program],
                       check=True)
        lines = subprocess.run([program], capture_output=True, text=True, check=True).stdout.split("\n")
    return {name: float(value) for name, value in (line.split() for line in lines if line)}


def two_sided(n=10, content=0.95, confidence=0.95):
    x, w = np.polynomial.legendre.leggauss(64)
    z, w = 4.5 * (x + 1), 9 * w * stats.norm.pdf(4.5 * (x + 1))
    reach = [optimize.brentq(lambda r, a=a: stats.norm.cdf(a + r) - stats.norm.cdf(a - r) - content, 0, a + 9) for a in z / math.sqrt(n)]
    return optimize.brentq(lambda k: (w * stats.chi2.sf((n - 1) * np.square(reach) / k ** 2, n - 1)).sum() - confidence, 1, 20)


def limit(n):
    t = (23.6 - 23.52) / 0.02 * math.sqrt(n)
    return optimize.brentq(lambda d: stats.nct.cdf(t, n - 1, d) - 0.95, 0, 3 * t)


SCIPY = {"tolerance_factor_both_n10": (two_sided, 1), "noncentral_t_quantile_n10": (lambda: stats.nct.ppf(0.95, 9, 12.649), 50),
         "capability_one_limit_n10": (lambda: limit(10), 5), "capability_one_limit_n50": (lambda: limit(50), 5),
         "normality_n11": (lambda: stats.shapiro(WEIGHTS), 200)}
R_PROGRAM = """t <- function(name, f, n) { b <- Inf; for (k in 1:5) { s <- proc.time()[1]; for (i in 1:n) f(); b <- min(b, (proc.time()[1] - s)/n) }
cat(name, 1e6*b, "\\n") }
limit <- function(n) uniroot(function(d) pt(4*sqrt(n), n - 1, d) - 0.95, c(0, 37), tol = 1e-12)$root
t("noncentral_t_quantile_n10", function() qt(0.95, 9, 12.649), 2000)
t("capability_one_limit_n10", function() limit(10), 1000)
t("capability_one_limit_n50", function() limit(50), 1000)
t("normality_n11", function() shapiro.test(c(148, 161, 182, 154, 162, 195, 158, 166, 236, 160, 170)), 3000)
if (requireNamespace("spc", quietly = TRUE)) t("tolerance_factor_both_n10", function() spc::tol.lim.fac(10, 0.95, 0.05, mode = "exact"), 50)
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
    print(f"{'call':36}{'here':>10}{'SciPy':>12}{'ratio':>8}{'R':>12}{'ratio':>8}   microseconds")
    for name, here in ours.items():
        cells = "".join(f"{other[name]:12.1f}{other[name] / here:8.0f}" if name in other else f"{'-':>12}{'-':>8}" for other in (theirs, r))
        print(f"{name:36}{here:10.2f}{cells}")
    if len(sys.argv) > 2:
        result = {"machine": platform.machine(), "scipy": scipy.__version__, "library": ours, "SciPy": theirs, "R": r}
        pathlib.Path(sys.argv[2]).write_text(json.dumps(result, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
