# SPDX-License-Identifier: MIT
"""Many rows and single calls against what people write today, in one run: a table, and the same as JSON.

Usage: PYTHONPATH=build/release/python /usr/bin/python3 tests/release/bench/bench_bulk.py [--rows N] [--short] [JSON]

The comparisons stand below, each beside its check that both sides agree. Ours and the comparison take turns; the times
are processor times, which other work on the machine disturbs only little; medians of the rounds. --short uses few rows and
rounds, to see that everything runs and agrees, and not how fast it is. Monte Carlo and yield: bench_chance.py.
"""
import argparse
import json
import os
import pathlib
import platform
import statistics
import subprocess
import sys
import time
import timeit
import tracemalloc

import numpy as np
from scipy.optimize import newton

import ferrule
from bench_python import PlainJoint, PlainLength, PlainRatio, plain_crimp_diameter
from ferrule import bulk


def take_turns(rounds, **calls):
    """Median processor time of each call, in seconds; the first round only warms up."""
    times = {name: [] for name in calls}
    for _ in range(rounds + 1):
        for name, call in calls.items():
            begin = time.process_time()
            call()
            times[name].append(time.process_time() - begin)
    return {name: statistics.median(t[1:]) for name, t in times.items()}


def take_turns_of_small(rounds, **calls):
    """The same for calls that are too short for a clock."""
    timers = {name: timeit.Timer(call, timer=time.process_time) for name, call in calls.items()}
    counts = {name: max(1, int(timer.autorange()[0] / 10)) for name, timer in timers.items()}
    times = {name: [] for name in calls}
    for _ in range(rounds):
        for name, timer in timers.items():
            times[name].append(timer.timeit(counts[name]) / counts[name])
    return {name: statistics.median(t) for name, t in times.items()}


# ---- the plain formula -------------------------------------------------------------------------------------------


def numpy_formula(inside, outside, stem, wall, compression):
    return stem + 2 * wall + (outside - inside) * (1 - compression)


def numpy_checked(inside, outside, stem, wall, compression):
    """The formula with the library's checks: one status per row (0 or 1), NaN where it is not 0."""
    left = 1 - compression
    gap = (outside - inside) * left
    diameter = stem + 2 * wall + gap
    right = (inside >= 0.001) & (outside <= 1e6) & (inside < outside) & (stem >= 0.001) & (stem < outside)
    right &= (wall >= 0.001) & (wall <= 1e6) & (left > 0)
    right &= np.where(stem > inside, left * (gap + 2 * stem) < outside + inside, stem + gap < outside)
    return np.where(right, diameter, np.nan), (~right).astype(np.uint16)


def plain_rows(rows):
    random = np.random.default_rng(1)
    inside, outside, stem, wall = (base * random.uniform(1, 1.01, rows) for base in (12.7, 19.9, 12.95, 2.4))
    return inside, outside, stem, wall, random.uniform(0.15, 0.25, rows)


def bench_plain(rows, rounds):
    columns = plain_rows(rows)
    named = dict(zip(("hose_inside_mm", "hose_outside_mm", "stem_outside_mm", "ferrule_wall_mm", "compression_fraction"), columns))
    out, status = np.empty(rows), np.empty(rows, np.uint16)
    # as many bytes as we read and write: 5 columns of 8, results of 8 and 2 a row, half of them read and half written
    source, target = np.ones(25 * rows, np.uint8), np.ones(25 * rows, np.uint8)
    ours = lambda: bulk.crimp_diameter(**named, out=out, status=status, errors="mark")
    ours()
    expected, marks = numpy_checked(*columns)
    assert np.max(np.abs(out / expected - 1)) < 5e-16 and not status.any() and not marks.any()
    t = take_turns(rounds, ours=ours, fresh=lambda: bulk.crimp_diameter(**named), copy=lambda: np.copyto(target, source),
                   formula=lambda: numpy_formula(*columns), checked=lambda: numpy_checked(*columns))
    a_row = {name: seconds / rows * 1e9 for name, seconds in t.items()}
    note = f"{a_row['ours']:.2f} ns a row; with fresh results {a_row['fresh']:.2f}"
    yield "crimp_diameter, 50 bytes a row, against np.copyto", t["copy"] / t["ours"], 0.9, f"{note}; copying {a_row['copy']:.2f}"
    yield "… against the bare NumPy expression", t["formula"] / t["ours"], 4, f"{a_row['formula']:.2f} ns a row"
    yield "… against NumPy with the same checks", t["checked"] / t["ours"], 8, f"{a_row['checked']:.2f} ns a row"


# ---- flow with ends free -----------------------------------------------------------------------------------------------------


def scipy_free_flow(inside, outside, stem, wall, compression, ferrule):
    """The wall equation by SciPy's vectorised Newton iteration with the derivative; the growth of the wall is unknown."""
    bore = stem + (outside - inside) * (1 - compression)

    def miss(growth):
        now = wall * (1 + growth)
        diameter = bore + 2 * now
        thin = now / diameter
        return np.log1p(growth) - np.log((ferrule - wall) / (diameter - now)) * (1 - 2 * thin) / (2 - thin)

    def slope(growth):
        now = wall * (1 + growth)
        diameter = bore + 2 * now
        thin = now / diameter
        rest = 2 - thin
        strain = np.log((ferrule - wall) / (diameter - now))
        return 1 / (1 + growth) + wall * ((1 - 2 * thin) / rest / (diameter - now) + 3 / rest**2 * strain * bore / diameter**2)

    return bore + 2 * wall * (1 + newton(miss, np.zeros_like(bore), fprime=slope, tol=1e-14))


def bench_free_flow(rows, rounds):
    inside, outside, stem, wall, compression = plain_rows(rows)
    found = np.random.default_rng(2).uniform(25.9, 26.2, rows)
    named = {"hose_inside_mm": inside, "hose_outside_mm": outside, "stem_outside_mm": stem, "ferrule_wall_mm": wall,
             "ferrule_outside_mm": found, "compression_fraction": compression, "flow": "ends_free"}
    ours = lambda: bulk.crimp_diameter(**named)
    theirs = lambda: scipy_free_flow(inside, outside, stem, wall, compression, found)
    apart = np.max(np.abs(ours() / theirs() - 1))
    assert apart < 1e-15, apart
    t = take_turns(max(3, rounds // 3), ours=ours, scipy=theirs)
    yield ("flow with ends free against scipy.optimize.newton", t["scipy"] / t["ours"], 40,
           f"{t['ours'] / rows * 1e9:.1f} and {t['scipy'] / rows * 1e9:.0f} ns a row; {apart:.0e} apart")


# ---- single calls --------------------------------------------------------------------------------------------------


def bench_single(rounds):
    joint, ratio = ferrule.Joint(("12.7 mm", "19.9 mm"), "13 mm", "1.5 mm"), ferrule.percent(20)
    plain_joint = PlainJoint(PlainLength(12.7), PlainLength(19.9), PlainLength(13.0), PlainLength(1.5))
    plain_ratio = PlainRatio(0.2)
    crimp_diameter = ferrule.crimp_diameter
    assert abs(crimp_diameter(joint, ratio).mm - plain_crimp_diameter(plain_joint, plain_ratio).mm) < 1e-12
    calls = {"ours": lambda: crimp_diameter(joint, ratio), "python": lambda: plain_crimp_diameter(plain_joint, plain_ratio),
             "empty": lambda: None}
    calls.update(with_erfa())
    calls.update(with_pint(crimp_diameter(joint, ratio).mm))
    t = take_turns_of_small(rounds, **calls)
    ns = {name: f"{seconds * 1e9:.0f} ns" for name, seconds in t.items()}
    yield ("a single call against validated pure Python", t["python"] / t["ours"], 2.5,
           f"{ns['ours']} and {ns['python']}, of which the empty call takes {ns['empty']}")
    if "erfa" in t:
        yield "… against a scalar call of an ERFA ufunc (anp)", t["erfa"] / t["ours"], 4, ns["erfa"]
    if "pint" in t:
        yield "… against the formula in pint", t["pint"] / t["ours"], 200, ns["pint"]


def with_erfa():
    try:
        from erfa import ufunc
    except ImportError:
        return {}
    return {"erfa": lambda: ufunc.anp(7.0)}


def with_pint(expected):
    try:
        import pint
    except ImportError:
        return {}
    registry = pint.UnitRegistry()
    inside, outside, stem, wall = (number * registry.mm for number in (12.7, 19.9, 13.0, 1.5))
    share = 0.2 * registry.dimensionless
    formula = lambda: stem + 2 * wall + (outside - inside) * (1 - share)
    assert abs(formula().to("mm").magnitude - expected) < 1e-12
    return {"pint": formula}


def bench_budget(rounds):
    """The budget of a compression: contributions, combined and expanded uncertainty."""
    try:
        from uncertainties import ufloat
    except ImportError:
        return
    joint = ferrule.Joint(("12.7 mm", "19.9 mm"), "13 mm", "1.5 mm")
    amounts = {"hose_inside": 0.05, "hose_outside": 0.1, "stem_outside": 0.01, "ferrule_wall": 0.02, "diameter": 0.03}
    uncertainties = ferrule.Uncertainties(**{name: ferrule.mm(amount) for name, amount in amounts.items()})
    diameter, coverage = ferrule.mm(21.76), ferrule.percent(95)
    numbers = {"hose_inside": 12.7, "hose_outside": 19.9, "stem_outside": 13.0, "ferrule_wall": 1.5, "diameter": 21.76}

    def theirs():
        u = {name: ufloat(number, amounts[name]) for name, number in numbers.items()}
        compression = 1 - (u["diameter"] - 2 * u["ferrule_wall"] - u["stem_outside"]) / (u["hose_outside"] - u["hose_inside"])
        return compression.nominal_value, compression.std_dev, compression.error_components()

    ours = lambda: ferrule.uncertainty_budget(joint, uncertainties, diameter, coverage)
    assert abs(ours().standard_uncertainty.fraction / theirs()[1] - 1) < 1e-12
    t = take_turns_of_small(rounds, ours=ours, uncertainties=theirs)
    yield ("budget against uncertainties", t["uncertainties"] / t["ours"], 100,
           f"{t['ours'] * 1e6:.2f} and {t['uncertainties'] * 1e6:.0f} µs")


# ---- import, heap --------------------------------------------------------------------------------------------------


def bench_import(rounds):
    script = "import time; t = time.process_time(); import ferrule; print(time.process_time() - t)"
    package = str(pathlib.Path(ferrule.__file__).parents[1])
    run = lambda: float(subprocess.run([sys.executable, "-c", script], check=True, capture_output=True, text=True,
                                       env={**os.environ, "PYTHONPATH": package}).stdout)
    taken = statistics.median(run() for _ in range(rounds)) * 1e3
    yield "import, of 20 ms allowed", 20 / taken, 1, f"{taken:.1f} ms"


def bench_heap(rows):
    """Bytes that a call takes besides its results: eight and two a row."""
    columns = dict(zip(("hose_inside_mm", "hose_outside_mm", "stem_outside_mm", "ferrule_wall_mm", "compression_fraction"),
                       plain_rows(rows)))
    bulk.crimp_diameter(**columns)
    tracemalloc.start()
    result = bulk.crimp_diameter(**columns, status=True)
    maximum = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    besides = maximum - sum(array.nbytes for array in result)
    yield "heap besides the results, of 64 kB allowed", 65536 / max(besides, 1), 1, f"{besides} bytes for {rows} rows"


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--rows", type=int, default=10_000_000)
    parser.add_argument("--short", action="store_true")
    parser.add_argument("json", nargs="?")
    given = parser.parse_args()
    rows, rounds = (20_000, 3) if given.short else (given.rows, 15)
    table = []
    for part in (bench_plain(rows, rounds), bench_free_flow(max(rows // 10, 20_000), rounds), bench_single(rounds), bench_budget(rounds),
                 bench_import(rounds), bench_heap(rows)):
        table += part
    print(f"{'work':55}{'ratio':>8}{'at least':>10}  what")
    for name, ratio, target, note in table:
        print(f"{name:55}{ratio:8.2f}{target:10}{'  ' if ratio >= target else '! '}{note}")
    if given.json:
        about = {"machine": platform.processor() or platform.machine(), "rows": rows, "rounds": rounds, "python": platform.python_version(),
                 "numpy": np.__version__}
        rows_of = [{"work": n, "ratio": round(r, 3), "at_least": target, "what": note} for n, r, target, note in table]
        pathlib.Path(given.json).write_text(json.dumps({**about, "table": rows_of}, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
