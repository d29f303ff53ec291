# SPDX-License-Identifier: MIT
"""Charts against NumPy and SciPy, and against R and its package spc where they are installed, in one run: a table of ratios, and as JSON.

Usage: PYTHONPATH=build/release/python /usr/bin/python3 tests/release/bench/bench_chart.py [STATIC_LIBRARY] [JSON]

The library is called from C (chart_calls.c). Best of rounds, processor time. chart_constants_n12 gives d2, d3, c4 and all factors; SciPy and R are
asked for d3, which takes most of it.
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
from scipy import integrate, stats

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[2]


def library_times(archive):
    with tempfile.TemporaryDirectory() as folder:
        program = pathlib.Path(folder) / "calls"
        subprocess.run(["gcc", "-std=c11", "-O2", "-DFER_STATIC", "-I", ROOT / "include", HERE / "chart_calls.c", archive, "-lm", "-o", program],
                       check=True)
        lines = subprocess.run([program], capture_output=True, text=True, check=True).stdout.split("\n")
    return {name: float(value) for name, value in (line.split() for line in lines if line)}


def ewma(weight, limit, shift=0.0, points=80):
    x, w = np.polynomial.legendre.leggauss(points)
    end = limit * math.sqrt(weight / (2 - weight))
    y, w = end * x, end * w
    kernel = w / weight * stats.norm.pdf((y[None, :] - (1 - weight) * y[:, None]) / weight - shift)
    return 1 + (w / weight * stats.norm.pdf(y / weight - shift)) @ np.linalg.solve(np.eye(points) - kernel, np.ones(points))


def cusum(k, h, points=80):
    x, w = np.polynomial.legendre.leggauss(points)
    z, w = np.append(h / 2 * (1 + x), 0.0), h / 2 * w
    matrix = np.eye(points + 1)
    matrix[:, :points] -= w * stats.norm.pdf(z[:points][None, :] + k - z[:, None])
    matrix[:, points] -= stats.norm.cdf(k - z)
    return np.linalg.solve(matrix, np.ones(points + 1))[points] / 2


def range_deviation(n=12):
    mean = integrate.quad(lambda x: 1 - stats.norm.cdf(x) ** n - stats.norm.sf(x) ** n, -9, 9)[0]
    below = lambda w: n * integrate.quad(lambda x: stats.norm.pdf(x) * (stats.norm.cdf(x + w) - stats.norm.cdf(x)) ** (n - 1), -9, 9)[0]  # noqa: E731
    return math.sqrt(integrate.quad(lambda w: 2 * w * (1 - below(w)), 0, 12)[0] - mean ** 2)


PYTHON = {"run_length_ewma_32": (lambda: ewma(0.1, 2.814), 5), "run_length_ewma_48": (lambda: ewma(0.05, 3.0), 5),
          "run_length_ewma_shift_1": (lambda: ewma(0.1, 2.814, 1.0), 5), "run_length_cusum_32": (lambda: cusum(0.5, 4.77), 5),
          "run_length_cusum_48": (lambda: cusum(0.1, 18.5), 5), "chart_constants_n12": (range_deviation, 1)}
R_PROGRAM = """t <- function(name, f, n) { b <- Inf; for (k in 1:5) { s <- proc.time()[1]; for (i in 1:n) f(); b <- min(b, (proc.time()[1] - s)/n) }
cat(name, 1e6*b, "\\n") }
d3 <- function(n) sqrt(integrate(function(w) 2*w*ptukey(w, n, Inf, lower.tail = FALSE), 0, 12, rel.tol = 1e-10)$value
                       - integrate(function(x) 1 - pnorm(x)^n - pnorm(x, lower.tail = FALSE)^n, -9, 9, rel.tol = 1e-10)$value^2)
t("chart_constants_n12", function() d3(12), 50)
if (requireNamespace("spc", quietly = TRUE)) {
t("run_length_ewma_32", function() spc::xewma.arl(0.1, 2.814, 0, sided = "two"), 500)
t("run_length_ewma_48", function() spc::xewma.arl(0.05, 3.0, 0, sided = "two"), 500)
t("run_length_ewma_shift_1", function() spc::xewma.arl(0.1, 2.814, 1, sided = "two"), 500)
t("run_length_cusum_32", function() spc::xcusum.arl(0.5, 4.77, 0, sided = "two"), 300)
t("run_length_cusum_48", function() spc::xcusum.arl(0.1, 18.5, 0, sided = "two"), 300)
t("ewma_limit_for_500", function() spc::xewma.crit(0.1, 500, sided = "two"), 50) }
"""


def python_times():
    times = {}
    for name, (call, count) in PYTHON.items():
        call()
        rounds = []
        for _ in range(4):
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
    ours, theirs, r = library_times(archive), python_times(), r_times()
    print(f"{'call':28}{'here':>10}{'NumPy':>12}{'ratio':>8}{'R':>12}{'ratio':>8}   microseconds")
    for name, here in ours.items():
        cells = "".join(f"{other[name]:12.1f}{other[name] / here:8.0f}" if name in other else f"{'-':>12}{'-':>8}" for other in (theirs, r))
        print(f"{name:28}{here:10.2f}{cells}")
    if len(sys.argv) > 2:
        result = {"machine": platform.machine(), "scipy": scipy.__version__, "library": ours, "NumPy": theirs, "R": r}
        pathlib.Path(sys.argv[2]).write_text(json.dumps(result, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
