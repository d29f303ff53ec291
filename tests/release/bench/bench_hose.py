# SPDX-License-Identifier: MIT
"""Squeeze of the hose from the force of the dies, against SciPy solving the same three equations with the library's own forward function,
in one run: a table, and as JSON. Instructions where valgrind is installed.

Usage: PYTHONPATH=build/release/python /usr/bin/python3 tests/release/bench/bench_hose.py [STATIC_LIBRARY] [JSON]

The library is called from C (hose_calls.c): best of rounds, processor time, the uncertainty included, which SciPy does not give. SciPy calls
fer_form_ferrule() from Python, so most of the ratio is Python's.
"""
import json
import pathlib
import platform
import re
import shutil
import subprocess
import sys
import tempfile
import time

import ferrule as f
import scipy
from scipy import optimize

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[2]
FERRULE, METAL = f.Ferrule("2.4 mm", "25.6 mm", "28 mm"), f.Material("206 GPa", "30 %", "300 MPa", "700 MPa")
CLOSING = f.Closing("219.2 kN", "23.55 mm", before="28 mm", after="29.41 mm")  # invented, as in hose_calls.c
COUNTED = ("form_ferrule", "find_hose_pressure", "find_hose_pressure_twin")
GOAL = 100.0  # microseconds of find_hose_pressure


def library_figures(archive):
    with tempfile.TemporaryDirectory() as folder:
        program = pathlib.Path(folder) / "calls"
        subprocess.run(["gcc", "-std=c11", "-O2", "-DFER_STATIC", "-I", ROOT / "include", HERE / "hose_calls.c", archive, "-lm", "-o", program],
                       check=True)
        lines = subprocess.run([program], capture_output=True, text=True, check=True).stdout.splitlines()
        counts = {}
        for name in COUNTED if shutil.which("valgrind") else ():
            text = subprocess.run(["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", program, name], capture_output=True, text=True,
                                  check=True).stderr
            counts[name] = round(int(re.search(r"Collected : (\d+)", text).group(1)) / 1000)
    return {name: float(value) for name, value in (line.split() for line in lines)}, counts


def by_scipy():
    """Squeeze by the same equations: force, length and diameter after opening."""
    def miss(x):
        formed = f.form_ferrule(FERRULE, f.mm(x[2]), METAL, f.FormingLoad(f.fraction(x[1]), f.mpa(300 * x[0])))
        force = f.find_die_force(formed.pressure, f.mm(x[2]), f.mm(28 * formed.stretch.fraction), 8).total.newton
        return (force / CLOSING.force.newton - 1, formed.crimp_stretch.fraction - CLOSING.after.mm / 28, formed.crimp_diameter.mm / 23.55 - 1)
    return 300 * optimize.root(miss, (0.05, 0.4, 23.5), tol=1e-9).x[0]


def best(call, rounds=15):
    times = []
    for _ in range(rounds):
        start = time.process_time()
        call()
        times.append(time.process_time() - start)
    return 1e6 * min(times)


def main():
    archive = sys.argv[1] if len(sys.argv) > 1 else ROOT / "build/release/lib/libferrule.a"
    ours = f.find_hose_pressure(FERRULE, CLOSING, METAL).pressure.mpa
    assert abs(by_scipy() / ours - 1) < 1e-6, (by_scipy(), ours)
    times, counts = library_figures(archive)
    scipy_time = best(by_scipy)
    print(f"{'call':32}{'us':>10}{'form_ferrule':>14}{'instructions':>14}")
    for name, value in times.items():
        print(f"{name:32}{value:10.2f}{value / times['form_ferrule']:14.1f}{counts.get(name, ''):>14}")
    print(f"find_hose_pressure by SciPy, without uncertainty: {scipy_time:.0f} us, {scipy_time / times['find_hose_pressure']:.0f} times as long")
    slow = max(times["find_hose_pressure"], times["find_hose_pressure_twin"])
    print(f"goal {GOAL:.0f} us: {'reached' if slow <= GOAL else 'missed'}")
    if len(sys.argv) > 2:
        with open(sys.argv[2], "w", encoding="ascii") as file:
            json.dump({"machine": platform.machine(), "scipy": scipy.__version__, "microseconds": times, "instructions": counts,
                       "SciPy": {"find_hose_pressure": scipy_time}}, file, indent=1)
            file.write("\n")


if __name__ == "__main__":
    main()
