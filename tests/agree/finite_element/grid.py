# SPDX-License-Identifier: MIT
"""All comparisons with finite elements, and a grid of random ones: writes results.csv, summary.md and comparison.svg.

Usage: FERRULE_LIBRARY=... python3 grid.py [FOLDER]     about five minutes; the committed files lie beside this script.
       FERRULE_LIBRARY=... python3 grid.py --squeezed   two minutes: writes squeezed.csv, pressures of the hose from 0.3 to 0.5 of the yield strength
"""
import csv
import datetime
import os
import sys
import time
from pathlib import Path

import numpy as np

import cases
import library
import solver

METALS = {  # elastic modulus, Poisson's ratio: round handbook values
    "steel": (206000, 0.30),
    "stainless": (195000, 0.29),
    "aluminium": (70000, 0.33),
    "brass": (105000, 0.34),
}
COUNT = 50
SQUEEZED = 16  # with a pressure of the hose from 0.3 to 0.5 of the yield strength
SEED = 20


def draw(random, squeezed=False):
    """One crimp anywhere in the range for which the library gives a number."""
    while True:
        outside = round(random.uniform(12, 100), 1)
        wall = round(outside * random.uniform(0.035, 0.18), 2)
        name = list(METALS)[random.integers(len(METALS))]
        modulus, poisson = METALS[name]
        yielding = float(round(modulus * random.uniform(0.0007, 0.005)))
        hardening = float(round(yielding * random.choice([0, 0, random.uniform(0.5, 5)])))
        share = random.uniform(0.3, 0.5) if squeezed else random.choice([0, 0, random.uniform(0, 0.3)])
        hose = float(round(yielding * share, 1))
        closing = round(outside * (1 - random.uniform(0.01, 0.3)), 2)
        ends_fixed = bool(random.integers(2))
        crimp = solver.Crimp(outside, wall, closing, solver.Material(modulus, poisson, yielding, hardening), hose, ends_fixed)
        try:
            cases.form(crimp, float(ends_fixed))
        except library.Refused:
            continue
        return (f"{name} {outside:g} x {wall:g} to {closing:g}, yield strength {yielding:g}, hardening {hardening:g}, "
                f"hose {hose:g}, {'ends fixed' if ends_fixed else 'ends free'}", crimp)


def comparisons():
    yield from cases.without_contact()
    random = np.random.default_rng(SEED)
    for _ in range(COUNT):
        case, crimp = draw(random)
        yield case, lambda case=case, crimp=crimp: cases.compare_crimp(case, crimp)


def draw_squeezed():
    """Pressures of the hose beyond those of the grid."""
    random = np.random.default_rng(SEED + 1)
    return [draw(random, squeezed=True) for _ in range(SQUEEZED)]


def run_all():
    found, reported, seconds = [], {}, {"without contact": 0.0, "dies": 0.0}
    for _, compare in comparisons():
        start = time.monotonic()
        found += compare()
        seconds["without contact"] += time.monotonic() - start
    for case, dies in cases.DIES.items():
        start = time.monotonic()
        judged, reported[case] = cases.compare_dies(case, dies)
        found += judged
        seconds["dies"] += time.monotonic() - start
    return found, reported, seconds


def write_table(path, found):
    with open(path, "w", newline="", encoding="ascii") as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(["case", "kind", "quantity", "finite element", "library", "difference in %", "allowed in %"])
        for row in found:
            table.writerow([row.case, row.kind, row.quantity, f"{row.finite_element:.7g}", f"{row.library:.7g}",
                            f"{100 * row.difference:+.4f}", f"{100 * row.tolerance:g}"])


def largest(found):
    """The row with the largest difference for each kind and quantity."""
    worst = {}
    for row in found:
        key = row.kind, row.quantity
        if key not in worst or abs(row.difference) > abs(worst[key].difference):
            worst[key] = row
    return worst


def write_summary(path, found, reported, seconds):
    lines = ["# Library against finite elements", "",
             f"Run on {datetime.date.today().isoformat()} with CalculiX {solver.version()}; "
             f"{len({row.case for row in found})} cases, {len(found)} comparisons, "
             f"{sum(not row.within for row in found)} beyond what is allowed. "
             f"{seconds['without contact']:.0f} s without contact, {seconds['dies']:.0f} s with dies in contact. "
             "All comparisons: results.csv.", "", "Largest difference for each quantity:", "",
             "| kind | quantity | difference in % | allowed in % | case |", "| --- | --- | --- | --- | --- |"]
    for (kind, quantity), row in largest(found).items():
        lines.append(f"| {kind} | {quantity} | {100 * row.difference:+.4f} | {100 * row.tolerance:g} | {row.case} |")
    lines += ["", "The shape that eight dies leave, by what their arcs say:", "",
              "| case | quantity | ratio |", "| --- | --- | --- |"]
    lines += [f"| {case} | {name} | {value:.4f} |" for case, values in reported.items() for name, value in values.items()]
    Path(path).write_text("\n".join(lines) + "\n", encoding="ascii")


def draw_picture(path, found):
    import matplotlib
    matplotlib.use("svg")
    matplotlib.rcParams["svg.hashsalt"] = "ferrule"
    from matplotlib import pyplot
    figure, panels = pyplot.subplots(2, 2, figsize=(9, 7), layout="constrained")
    crimp = cases.CRIMPS["base"]
    sizes = np.linspace(crimp.outside * 0.88, crimp.outside - 0.4, 60)
    for ends_fixed, colour in ((True, "C0"), (False, "C1")):
        name = "ends_fixed" if ends_fixed else "ends_free"
        deep = solver.Crimp(crimp.outside, crimp.wall, float(sizes[0]), crimp.material, 0.0, ends_fixed)
        stroke, _ = deep.push(0.01, release=False)
        ours = [cases.form(solver.Crimp(crimp.outside, crimp.wall, float(d), crimp.material), float(ends_fixed)) for d in sizes]
        reduction = 100 * (1 - sizes / crimp.outside)
        dots = stroke[5::8]
        at = [100 * (1 - 2 * m.outside / crimp.outside) for m in dots]
        for panel, quantity in ((panels[0, 0], "wall"), (panels[0, 1], "pressure"), (panels[1, 0], "stretch")):
            panel.plot(reduction, [getattr(f, quantity) for f in ours], colour, label=f"library, {name}")
            panel.plot(at, [getattr(m, quantity) for m in dots], colour + "o", ms=4, label=f"finite elements, {name}")
    for panel, label in ((panels[0, 0], "wall in mm"), (panels[0, 1], "pressure of the dies in MPa"),
                         (panels[1, 0], "length by length before")):
        panel.set(xlabel="reduction of the diameter in %", ylabel=label)
        panel.legend(frameon=False)
    panels[0, 0].set_title("Steel, 50 mm outside, wall 3 mm, yield strength 300 MPa")
    names = ["pressure", "wall", "stretch", "springback", "crimp bore"]
    for kind, colour in (("ends_fixed", "C0"), ("ends_free", "C1"), ("hardening", "C2")):
        chosen = [row for row in found if row.kind == kind and row.quantity in names]
        shift = {"ends_fixed": -0.2, "ends_free": 0.0, "hardening": 0.2}[kind]
        panels[1, 1].plot([names.index(row.quantity) + shift for row in chosen],
                          [max(abs(100 * row.difference), 1e-5) for row in chosen], colour + ".", label=kind)
    panels[1, 1].set(yscale="log", xticks=range(len(names)), ylabel="difference from finite elements in %",
                     title="All cases")
    panels[1, 1].set_xticklabels(names)
    panels[1, 1].legend(frameon=False)
    figure.savefig(path, metadata={"Date": None})


def main():
    if sys.argv[1:] == ["--squeezed"]:
        found = [row for case, crimp in draw_squeezed() for row in cases.compare_crimp(case, crimp)]
        write_table(Path(__file__).with_name("squeezed.csv"), found)
        return 0 if all(row.within for row in found) else 1
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else os.path.dirname(os.path.abspath(__file__)))
    found, reported, seconds = run_all()
    write_table(folder / "results.csv", found)
    write_summary(folder / "summary.md", found, reported, seconds)
    draw_picture(folder / "comparison.svg", found)
    print((folder / "summary.md").read_text(encoding="ascii"))
    return 0 if all(row.within for row in found) else 1


if __name__ == "__main__":
    sys.exit(main())
