# SPDX-License-Identifier: MIT
"""Tables of orders and readings against a loop in Python over the single calls, in one run: a table, and the same as JSON.

Usage: PYTHONPATH=build/release/python /usr/bin/python3 tests/release/bench/bench_setups.py [--rows N] [--short] [JSON]

The loop makes an Order of each row and plans it, which is what people write without tables. Both sides take turns, on processor times;
medians of the rounds. All figures of the rows are invented.
"""
import argparse
import json
import math
import pathlib
import platform

import numpy as np

import ferrule
from bench_bulk import take_turns
from ferrule import bulk

PRESS = ferrule.Press(graduation="0.05 mm", opening="20 mm", capacity="1500 kN")
DIES = [ferrule.Die(size, length="60 mm") for size in ("16 mm", "19 mm", "22 mm", "25 mm")]
STEEL = ferrule.Material(ferrule.mpa(206000), ferrule.fraction(0.3), ferrule.mpa(300))
FEW = ["readiness", "target_mm", "die_size_mm", "dial_setting_mm", "zone_accept_lower_mm", "zone_accept_upper_mm", "remarks"]


def orders(rows):
    random = np.random.default_rng(1)
    return {"hose_inside_mm": random.normal(12.7, 0.05, rows), "hose_outside_mm": random.normal(19.9, 0.1, rows),
            "stem_outside_mm": random.normal(12.95, 0.02, rows), "ferrule_wall_mm": random.normal(2.4, 0.03, rows),
            "published_mm": random.normal(23.5, 0.1, rows), "tolerance_mm": np.full(rows, 0.2)}


COMMON = {"approval": "approved", "insertion_mm": 31.0, "gauge_standard_uncertainty_mm": 0.01, "gauge_resolution_mm": 0.01}
MEASURED = {"ferrule_outside_mm": 25.6, "hose_inside_amount_mm": 0.05, "hose_outside_amount_mm": 0.1, "stem_outside_amount_mm": 0.02,
            "ferrule_wall_amount_mm": 0.03, "diameter_amount_mm": 0.05}
METALS = {f"{part}_{name}": number for part in ("ferrule_metal", "stem_metal") for name, number in
          (("elastic_modulus_mpa", 206000.0), ("poisson_fraction", 0.3), ("yield_strength_mpa", 300.0))}
METALS |= {"stem_bore_mm": 10.0, "ferrule_length_mm": 30.0, "load_hose_pressure_mpa": 20.0, "minimum_bore_mm": 9.0}


def loop(columns, common):
    """The same by single calls: readiness, target and dial of each row."""
    mm = ferrule.mm
    gauge = ferrule.Gauge("0.01 mm", resolution="0.01 mm")
    known = ferrule.Uncertainties(hose_inside="0.05 mm", hose_outside="0.1 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm",
                                  diameter="0.05 mm") if "hose_inside_amount_mm" in common else None
    outside = {"outside": mm(25.6)} if "ferrule_outside_mm" in common else {}
    more = {"uncertainties": known} if known else {}
    bore = {}
    if "stem_bore_mm" in common:
        outside["length"], bore = mm(30), {"bore": mm(10)}
        more |= {"ferrule_metal": STEEL, "stem_metal": STEEL, "load": ferrule.FormingLoad(hose_pressure="20 MPa"), "minimum_bore": mm(9)}
    found = []
    for inside, hose, stem, wall, published, tolerance in zip(*columns.values()):
        joint = ferrule.Joint(ferrule.Hose(mm(inside), mm(hose)), ferrule.Stem(mm(stem), **bore), ferrule.Ferrule(mm(wall), **outside))
        order = ferrule.Order(joint, mm(published), mm(tolerance), approval="approved", insertion="31 mm", gauge=gauge, **more)
        setup = ferrule.plan_setup(order, PRESS, DIES)
        found.append((int(setup.readiness), setup.target.mm, setup.dial.value.setting.mm if setup.dial.value else math.nan))
    return found


def bench_plan(rows, rounds, words, common, allowed, least):
    columns = orders(rows)
    part = {name: column[:max(rows // 20, 50)] for name, column in columns.items()}
    ours = lambda results=None: bulk.plan_setup(columns, press=PRESS, dies=DIES, **common, results=results)
    setups = bulk.plan_setup(part, press=PRESS, dies=DIES, **common)
    expected = list(zip(setups.readiness.tolist(), setups.target_mm.tolist(), setups.dial_setting_mm.tolist()))
    assert repr(loop(part, common)) == repr(expected) and not setups.status.any()
    t = take_turns(rounds, all=ours, few=lambda: ours(FEW), loop=lambda: loop(part, common))
    a_row = {name: seconds / (len(part["published_mm"]) if name == "loop" else rows) * 1e6 for name, seconds in t.items()}
    note = f"{a_row['few']:.2f} µs a row; all {len(setups._fields)} columns {a_row['all']:.2f}; the loop {a_row['loop']:.1f}"
    yield f"set-ups {words}, of {allowed} µs a row allowed", allowed / a_row["few"], 1, note
    yield "… against a loop over the single call", a_row["loop"] / a_row["few"], least, note


def bench_inspect(rows, rounds, words, applies_to, allowed):
    random = np.random.default_rng(2)
    columns = orders(rows)
    setups = bulk.plan_setup(columns, press=PRESS, dies=DIES, applies_to=applies_to, **COMMON)
    diameters = random.normal(setups.target_mm[:, None], 0.03, (rows, 4))
    rules = {"gauge_standard_uncertainty_mm": 0.01, "gauge_resolution_mm": 0.01}
    part = max(rows // 20, 50)
    gauge, mm = ferrule.Gauge("0.01 mm", resolution="0.01 mm"), ferrule.mm
    order = ferrule.Order(ferrule.Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), "23.5 mm", "0.2 mm", applies_to=applies_to)
    setup = ferrule.plan_setup(order, PRESS, DIES)
    single = lambda: [ferrule.inspect_crimp(setup, [mm(d) for d in row], gauge) for row in diameters[:part].tolist()]
    t = take_turns(rounds, ours=lambda: bulk.inspect_crimp(setups, diameters_mm=diameters, results=["decision", "deviation_mm"], **rules),
                   loop=single)
    ours, looped = t["ours"] / rows * 1e6, t["loop"] / part * 1e6
    note = f"{ours:.2f} µs a row of four readings; the loop {looped:.1f}"
    yield f"inspections {words}, of {allowed} µs a row allowed", allowed / ours, 1, note
    yield "… against a loop over the single call", looped / ours, 1, note


def bench_zones(rows, rounds, allowed):
    target = orders(rows)["published_mm"]
    named = {"limits_lower_mm": target - 0.2, "limits_upper_mm": target + 0.2, "standard_uncertainty_mm": 0.01}
    part = max(rows // 20, 50)
    mm, u = ferrule.mm, ferrule.mm(0.01)
    single = lambda: [ferrule.find_acceptance_zone((mm(t - 0.2), mm(t + 0.2)), u) for t in target[:part].tolist()]
    assert [zone.accept.lower.mm for zone in single()] == bulk.find_acceptance_zone(**named).accept_lower_mm[:part].tolist()
    t = take_turns(rounds, ours=lambda: bulk.find_acceptance_zone(**named), loop=single)
    ours, looped = t["ours"] / rows * 1e6, t["loop"] / part * 1e6
    note = f"{ours:.3f} µs a row; the loop {looped:.1f}"
    yield f"acceptance zones, of {allowed} µs a row allowed", allowed / ours, 1, note
    yield "… against a loop over the single call", looped / ours, 5, note


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--rows", type=int, default=200_000)
    parser.add_argument("--short", action="store_true")
    parser.add_argument("json", nargs="?")
    given = parser.parse_args()
    rows, rounds = (2000, 2) if given.short else (given.rows, 9)
    table = []
    for part in (bench_plan(rows, rounds, "without metals", COMMON, 1.0, 5),
                 bench_plan(rows, rounds, "without metals, uncertainties given", COMMON | MEASURED, 1.0, 5),
                 bench_plan(rows // 10, rounds, "with metals", COMMON | MEASURED | METALS, 15.0, 1),
                 bench_inspect(rows // 20, rounds, "by section means", "section_means", 1.0),
                 bench_inspect(rows // 20, rounds, "by every reading", "every_reading", 1.0), bench_zones(rows, rounds, 1.0)):
        table += part
    print(f"{'work':68}{'ratio':>8}{'at least':>10}  what")
    for name, ratio, target, note in table:
        print(f"{name:68}{ratio:8.2f}{target:10}{'  ' if ratio >= target else '! '}{note}")
    if given.json:
        about = {"machine": platform.processor() or platform.machine(), "rows": rows, "rounds": rounds, "python": platform.python_version(),
                 "numpy": np.__version__}
        rows_of = [{"work": n, "ratio": round(r, 3), "at_least": target, "what": note} for n, r, target, note in table]
        pathlib.Path(given.json).write_text(json.dumps({**about, "table": rows_of}, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
