#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""What if? Sweeps, a tornado, conforming share against target, a map of compression, and exact against simulated, as pictures.

Usage: what_if.py FOLDER [--trials N] [--threads N]     (the Python package on PYTHONPATH)

For the engineer who fixes a crimp specification, for the manual, and for what_if.ipynb, which calls the same functions.
The joint and its uncertainties are invented.
"""
import argparse
import concurrent.futures
import os
import pathlib
import sys

import matplotlib
import matplotlib.pyplot as plot
import ferrule as f
from tqdm import tqdm

JOINT = f.Joint(hose=f.Hose(inside="12.7 mm", outside="19.9 mm"), stem=f.Stem(outside="12.95 mm"),
                ferrule=f.Ferrule(wall="2.4 mm", outside="25.6 mm"))
UNCERTAINTIES = f.Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm",
                  diameter="0.05 mm")
RANGE = f.RatioRange(f.fraction(f.COMPRESSION_USUAL_LOWER), f.fraction(f.COMPRESSION_USUAL_UPPER))
TARGET = f.Length("23.51 mm")
WORDS = {"HOSE_INSIDE": "hose inside", "HOSE_OUTSIDE": "hose outside", "STEM_OUTSIDE": "stem outside",
         "FERRULE_WALL": "ferrule wall", "DIAMETER": "crimp diameter"}
# Distinguished by dash and place as well as by colour.
DARK, BLUE, BROWN, GREY = "#1d2733", "#0b5c8a", "#b3541e", "#9aa5b0"


def steps(first, last, count):
    return [first + (last - first) * i / count for i in range(count + 1)]


def with_hose(outside):
    return JOINT.replace(hose=JOINT.hose.replace(outside=f.mm(outside)))


# ---- trials in threads

def simulate(blocks, threads=None, seed=1, sequence="random", joint=JOINT, uncertainties=UNCERTAINTIES, target=TARGET, model=None,
             quiet=not sys.stderr.isatty()):
    """Counts of so many blocks of trials; the same whatever the number of threads, since a block is a block."""
    threads = threads or os.cpu_count() or 1
    size = max(1, min(64, blocks // threads))
    total = f.CrimpCount(0, 0, 0, 0, 0, 0)

    def run(first):
        trials = f.Trials(seed=seed, first_block=first, blocks=min(size, blocks - first), sequence=sequence)
        return f.simulate_shares(joint, uncertainties, RANGE, target, model, trials)
    with concurrent.futures.ThreadPoolExecutor(threads) as pool:
        jobs = [pool.submit(run, first) for first in range(0, blocks, size)]
        bar = tqdm(total=blocks * f.TRIALS_A_BLOCK, unit=" trials", unit_scale=True, disable=quiet, leave=False)
        for job in concurrent.futures.as_completed(jobs):
            total = f.merge_counts(total, job.result())
            bar.update(job.result().trials)
        bar.close()
    return total


# ---- pictures

def sweep(axes):
    """Target and window against the hose outside diameter."""
    outsides = steps(19.4, 20.4, 50)
    targets = [f.crimp_diameter(with_hose(o), "20 %").mm for o in outsides]
    windows = [f.crimp_window(with_hose(o), RANGE) for o in outsides]
    axes.fill_between(outsides, [w.lower.mm for w in windows], [w.upper.mm for w in windows], color="#dce3ea",
                      label="window, 15 to 25 %")
    axes.plot(outsides, targets, color=BLUE, lw=2, label="20 %")
    axes.axhline(TARGET.mm, color=GREY, lw=0.8, ls="--")
    axes.set(xlabel="hose outside diameter in mm", ylabel="crimp diameter in mm", xlim=(19.4, 20.4))
    axes.legend(frameon=False)


def tornado(axes):
    """What each measurement does to the compression, and what it would bring to know it exactly."""
    budget = f.uncertainty_budget(JOINT, UNCERTAINTIES, TARGET, "95 %")
    ranking = f.rank_measurements(JOINT, UNCERTAINTIES, RANGE, TARGET)
    for place, one in enumerate(reversed(ranking)):
        name = f.Measurement(one.measurement).name
        points = 2 * abs(getattr(budget, name.lower()).percent)
        axes.barh(place, 2 * points, left=budget.compression.percent - points, color=BLUE, height=0.6)
        axes.annotate(f"+{one.exact.percent:.2f} points of conforming share", (budget.compression.percent + points, place),
                      xytext=(5, -3), textcoords="offset points", color=DARK, fontsize=8)
    axes.set_yticks(range(len(ranking)), [WORDS[f.Measurement(one.measurement).name] for one in reversed(ranking)])
    axes.axvline(budget.compression.percent, color=DARK, lw=0.8)
    axes.set(xlabel="compression in %, two standard uncertainties either way", xlim=(16.5, 25.5))


def shares_against_target(axes):
    """Exact, for three shapes of the same standard uncertainty, with the best dial setting."""
    targets = steps(22.9, 24.1, 120)
    for words, shape, factor, dash in (("normal", "normal", 1.0, "-"), ("triangular", "triangular", 6 ** 0.5, "--"),
                                       ("rectangular", "rectangular", 3 ** 0.5, ":")):
        uncertainties = UNCERTAINTIES.replace(**{name: (getattr(UNCERTAINTIES, name).amount * factor, shape) for name in
                                   ("hose_inside", "hose_outside", "stem_outside", "ferrule_wall", "diameter")})
        outside = [1 - f.conforming_share(JOINT, uncertainties, RANGE, f.mm(t)).inside.fraction for t in targets]
        axes.semilogy(targets, [max(o, 1e-9) * 100 for o in outside], dash, color=BLUE, lw=2, label=f"all {words}")
    best, found = f.best_target(JOINT, UNCERTAINTIES, RANGE)
    dialled, dialled_shares = f.best_graduated_target(JOINT, UNCERTAINTIES, RANGE, "22 mm", "0.1 mm")
    axes.plot([best.mm], [100 - found.inside.percent], "o", color=DARK, label=f"best target {best.mm:.3f} mm")
    axes.plot([dialled.mm], [100 - dialled_shares.inside.percent], "s", color=BROWN,
              label=f"best step of 0.1 mm: {dialled.mm:.1f} mm")
    axes.set(xlabel="target in mm", ylabel="joints outside 15 to 25 %, in %", ylim=(0.1, 100))
    axes.legend(frameon=False, fontsize=8)


def compression_map(axes):
    """Compression over hose outside and crimp diameter."""
    outsides, diameters = steps(19.4, 20.4, 40), steps(22.9, 24.1, 48)

    def at(outside, diameter):
        try:
            return f.compression(with_hose(outside), f.mm(diameter)).percent
        except f.DiameterError:
            return float("nan")
    grid = [[at(o, d) for o in outsides] for d in diameters]
    lines = axes.contour(outsides, diameters, grid, levels=[10, 15, 17.5, 20, 22.5, 25, 30], colors=BLUE,
                         linewidths=[1, 2.5, 1, 1, 1, 2.5, 1])
    axes.clabel(lines, fmt="%g %%", fontsize=8)
    uncertainties = 2 * UNCERTAINTIES.hose_outside.amount.mm, 2 * UNCERTAINTIES.diameter.amount.mm
    axes.errorbar([19.9], [TARGET.mm], xerr=[uncertainties[0]], yerr=[uncertainties[1]], color=BROWN, marker="o", capsize=3)
    axes.set(xlabel="hose outside diameter in mm", ylabel="crimp diameter in mm")


def exact_against_simulated(axes, blocks=256, threads=None):
    """How far the simulated share is from the exact one, against the number of trials."""
    exact = f.conforming_share(JOINT, UNCERTAINTIES, RANGE, TARGET).inside.fraction
    numbers = [2 ** k for k in range(blocks.bit_length()) if 2 ** k <= blocks]
    seeds = range(1, 9)
    last = {}
    for sequence, colour, dash in (("random", BLUE, "-"), ("sobol", BROWN, "--")):
        errors = []
        for number in numbers:
            found = [f.find_simulated_shares(simulate(number, threads, seed, sequence)) for seed in seeds]
            errors.append((sum((y.shares.inside.fraction - exact) ** 2 for y in found) / len(seeds)) ** 0.5)
            last[sequence] = found[0]
        axes.loglog([n * f.TRIALS_A_BLOCK for n in numbers], [e * 100 for e in errors], dash, marker="o", color=colour,
                    label={"random": "random numbers", "sobol": "Sobol's points"}[sequence])
    axes.loglog([n * f.TRIALS_A_BLOCK for n in numbers],
                [100 * (exact * (1 - exact) / (n * f.TRIALS_A_BLOCK)) ** 0.5 for n in numbers], ":", color=DARK,
                label="square root law")
    axes.set(xlabel="trials", ylabel="error of the share, points (rms of 8)")
    axes.legend(frameon=False)
    return exact, last


PICTURES = {"sweep": sweep, "tornado": tornado, "share": shares_against_target, "map": compression_map}


def save(figure, path):
    figure.tight_layout()
    figure.savefig(path, metadata={"Date": None})
    plot.close(figure)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=pathlib.Path, help="where the pictures go")
    parser.add_argument("--trials", type=int, default=4_000_000, help="trials of the largest simulation")
    parser.add_argument("--threads", type=int, help="default: as many as processors")
    options = parser.parse_args()
    matplotlib.use("svg")
    plot.rcParams.update({"svg.hashsalt": "ferrule", "font.size": 10, "axes.spines.top": False,
                          "axes.spines.right": False})
    options.folder.mkdir(parents=True, exist_ok=True)
    for name, draw in PICTURES.items():
        figure, axes = plot.subplots(figsize=(7, 3.8))
        draw(axes)
        save(figure, options.folder / f"what_if_{name}.svg")
    figure, axes = plot.subplots(figsize=(7, 3.8))
    exact, last = exact_against_simulated(axes, max(1, options.trials // f.TRIALS_A_BLOCK), options.threads)
    save(figure, options.folder / "what_if_simulated.svg")
    print(f"share, exact:            {exact * 100:.6f} %")
    for words, sequence in (("random numbers", "random"), ("Sobol's points", "sobol")):
        found = last[sequence]
        print(f"share, {words + ':':17} {found.shares.inside.percent:.6f} % +- {found.standard_error.percent:.6f} "
              f"({found.trials} trials)")
    order = f.second_order_uncertainty(JOINT, UNCERTAINTIES, TARGET)
    print(f"standard uncertainty:    {order.first_order.percent:.4f} points, second order {order.second_order.percent:.4f}")
    print("worth improving first:  ", WORDS[f.rank_measurements(JOINT, UNCERTAINTIES, RANGE, TARGET)[0].measurement.name])


if __name__ == "__main__":
    main()
