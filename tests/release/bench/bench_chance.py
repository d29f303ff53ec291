# SPDX-License-Identifier: MIT
"""Monte Carlo and exact share against NumPy doing the same, in one run: a table, and the same as JSON.

Usage: PYTHONPATH=build/release/python /usr/bin/python3 tests/release/bench/bench_chance.py [STATIC_LIBRARY] [JSON]

The comparison is simulate_numpy() below: the default generator, five normal inputs, both limits counted, a million trials
at once and in pieces of a block that stay in the cache. Medians of rounds in which all take their turn.
"""
import json
import os
import pathlib
import platform
import statistics
import subprocess
import sys
import tempfile
import threading
import time

import ferrule as f
import numpy as np

HERE = pathlib.Path(__file__).resolve().parent
JOINT = f.Joint(hose=("12.7 mm", "19.9 mm"), stem="12.95 mm", ferrule=("2.4 mm", "25.6 mm"))
UNCERTAINTIES = f.Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm",
                  diameter="0.05 mm")
RANGE, TARGET = f.RatioRange("15 %", "25 %"), f.mm(23.51)
BLOCKS = 61  # a million trials, nearly
TRIALS = BLOCKS * f.TRIALS_A_BLOCK


def simulate_numpy(generator, number):
    inside = generator.normal(12.7, 0.08, number)
    outside = generator.normal(19.9, 0.10, number)
    stem = generator.normal(12.95, 0.02, number)
    wall = generator.normal(2.4, 0.03, number)
    diameter = generator.normal(23.51, 0.05, number)
    compression = 1 - (diameter - 2 * wall - stem) / (outside - inside)
    return np.count_nonzero(compression < 0.15), np.count_nonzero(compression > 0.25)


def ours(blocks=BLOCKS, first=0, sequence="random", model=None):
    return f.simulate_shares(JOINT, UNCERTAINTIES, RANGE, TARGET, model, f.Trials(seed=1, first_block=first, blocks=blocks,
                                                                          sequence=sequence))


def two_threads(blocks):
    threads = [threading.Thread(target=ours, args=(blocks // 2, i * blocks // 2)) for i in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()


def timed(clock, call):
    start = clock()
    call()
    return clock() - start


def rounds(calls, count, clock=time.process_time):
    """Median seconds of each call, all in turn."""
    found = {name: [] for name in calls}
    for _ in range(count):
        for name, call in calls.items():
            found[name].append(timed(clock, call))
    return {name: statistics.median(times) for name, times in found.items()}


def exact_shares(library):
    with tempfile.TemporaryDirectory() as folder:
        program = pathlib.Path(folder, "exact_shares")
        subprocess.run([os.environ.get("CC", "cc"), "-std=c11", "-D_POSIX_C_SOURCE=200809L", "-O2", "-DFER_STATIC",
                        "-I", HERE.parents[2] / "include", HERE / "exact_shares.c", library, "-lm", "-o", program], check=True)
        return [float(x) for x in subprocess.run([program], check=True, text=True, stdout=subprocess.PIPE).stdout.split()]


def main():
    library = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else HERE.parents[2] / "build/release/lib/libferrule.a")
    generator = np.random.default_rng(1)
    free = f.Model(flow="ends_free")
    seconds = rounds({
        "ours": ours, "numpy": lambda: simulate_numpy(generator, TRIALS),
        "numpy in blocks": lambda: [simulate_numpy(generator, f.TRIALS_A_BLOCK) for _ in range(BLOCKS)],
        "sobol": lambda: ours(sequence="sobol"),
        "tally": lambda: f.simulate_compression(JOINT, UNCERTAINTIES, RANGE, TARGET, None, f.Trials(seed=1, blocks=BLOCKS))}, 9)
    few = rounds({"ends free": lambda: ours(4, model=free)}, 5)
    share = rounds({"one": lambda: ours(1000), "two": lambda: two_threads(1000)}, 7)
    wall = rounds({"one": lambda: ours(2000), "two": lambda: two_threads(2000)}, 7, time.perf_counter)
    normal, correlated, rectangular, in_bulk = exact_shares(library)
    ns = {name: s / TRIALS * 1e9 for name, s in seconds.items()}
    ns["ends free"] = few["ends free"] / (4 * f.TRIALS_A_BLOCK) * 1e9
    simulated = f.find_simulated_shares(ours(6104))
    exact = f.conforming_share(JOINT, UNCERTAINTIES, RANGE, TARGET).inside.fraction
    miss = (simulated.shares.inside.fraction - exact) / simulated.standard_error.fraction
    rows = [("Monte Carlo, five normal inputs, both limits: ns per trial", ns["ours"], None),
            ("  NumPy, a million at once: ns per trial", ns["numpy"], None),
            ("  NumPy, in blocks of 16384: ns per trial", ns["numpy in blocks"], None),
            ("  times as fast as NumPy at once", ns["numpy"] / ns["ours"], 8.0),
            ("  times as fast as NumPy in blocks", ns["numpy in blocks"] / ns["ours"], 8.0),
            ("  two threads by one, on the clock (needs an idle machine)", wall["one"] / wall["two"], 1.9),
            ("  two threads by one, by their processor time", 2 * share["one"] / share["two"], 1.9),
            ("  load of the machine while this ran", os.getloadavg()[0], None),
            ("  Sobol's points: ns per trial", ns["sobol"], None),
            ("  with mean, deviation and quantiles: ns per trial", ns["tally"], None),
            ("  flow with ends free, implicit wall: ns per trial", ns["ends free"], None),
            ("exact share in C, normal: ns", normal, -300.0),
            ("exact share in C, normal, a row in bulk: ns", in_bulk, -60.0),
            ("exact share in C, correlated: ns", correlated, None),
            ("exact share in C, one rectangular input: ns", rectangular, None),
            (f"exact against {simulated.trials} trials: standard errors", abs(miss), -3.9)]
    for words, value, wanted in rows:
        asked = "" if wanted is None else f"   asked: {'at most' if wanted < 0 else 'at least'} {abs(wanted):g}"
        print(f"{words:62}{value:10.2f}{asked}")
    if len(sys.argv) > 2:
        pathlib.Path(sys.argv[2]).write_text(json.dumps({
            "processor": processor(), "python": platform.python_version(), "numpy": np.__version__,
            "rows": [{"what": words.strip(), "value": round(value, 3), "asked": wanted and abs(wanted),
                      "side": None if wanted is None else "at most" if wanted < 0 else "at least"}
                     for words, value, wanted in rows]}, indent=1) + "\n")


def processor():
    info = pathlib.Path("/proc/cpuinfo")
    names = [line.split(":")[1].strip() for line in info.read_text().splitlines() if line.startswith("model name")] \
        if info.exists() else []
    return f"{names[0] if names else platform.machine()}, {os.cpu_count()} processors"


if __name__ == "__main__":
    main()
