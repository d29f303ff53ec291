# SPDX-License-Identifier: MIT
"""Draw the manual's pictures with the library itself.

Usage: pictures.py OUTPUT_FOLDER   (the Python package on PYTHONPATH)
"""
import pathlib
import random
import re
import sys

import matplotlib

matplotlib.use("svg")
import matplotlib.pyplot as plot  # noqa: E402
import ferrule as f  # noqa: E402

WORKED = f.Joint(hose=f.Hose(inside="12.7 mm", outside="19.9 mm"), stem=f.Stem(outside="12.95 mm"),
                 ferrule=f.Ferrule(wall="2.4 mm", outside="25.6 mm"))
SIMULATION = pathlib.Path(__file__).resolve().parents[1] / "tests/agree/simulation"
# Distinguished by dash and place as well as by colour.
LINES = [("plain formula", f.Flow.NONE, "-", "#1d2733"), ("ferrule lengthens freely", f.Flow.ENDS_FREE, "--", "#0b5c8a"),
         ("ends fixed", f.Flow.ENDS_FIXED, ":", "#b3541e")]


def steps(first, last, count):
    return [first + (last - first) * i / count for i in range(count + 1)]


def finish(figure, path):
    figure.tight_layout()
    figure.savefig(path, metadata={"Date": None})
    plot.close(figure)


def compression_by_model(path):
    figure, axes = plot.subplots(figsize=(7, 4.2))
    axes.axhspan(15, 25, color="#eef1f4", label="15 to 25 %, for the plain formula")
    for words, flow, dash, colour in LINES:
        touch = f.touch_diameter(WORKED, f.Model(flow=flow)).mm
        diameters = [d for d in steps(22.8, 24.4, 160) if d < touch]
        compressions = [f.compression(WORKED, f.mm(d), f.Model(flow=flow)).percent for d in diameters]
        axes.plot(diameters, compressions, dash, color=colour, linewidth=2, label=words)
        at = f.compression(WORKED, "23.51 mm", f.Model(flow=flow)).percent
        axes.plot([23.51], [at], "o", color=colour, markersize=5)
        place = (-42, -12) if flow == f.Flow.NONE else (6, 5)
        axes.annotate(f"{at:.1f} %", (23.51, at), xytext=place, textcoords="offset points", color=colour)
    axes.axvline(23.51, color="#9aa5b0", linewidth=0.8)
    axes.set(xlabel="crimp diameter in mm", ylabel="compression in %", xlim=(22.8, 24.4))
    axes.legend(frameon=False)
    finish(figure, path)


def shape_against_offset(path):
    size, targets = 22.0, steps(22.0, 32.0, 100)
    shapes = [f.crimp_shape(f.mm(d), f.mm(size), 8) for d in targets]
    offsets = [d - size for d in targets]
    figure, (left, right) = plot.subplots(1, 2, figsize=(7, 3.6))
    left.plot(offsets, [s.lobe_height.mm for s in shapes], color="#0b5c8a", linewidth=2)
    left.set(xlabel="offset in mm", ylabel="lobe height in mm", title="22 mm die, eight segments")
    # Area inside the outline against D, on a hose wall difference of 7.2 mm: (D - equivalent)/W.
    points = [(d - s.chords_diameter.mm) / 7.2 * 100 for d, s in zip(targets, shapes)]
    right.plot(offsets, points, color="#b3541e", linewidth=2)
    right.set(xlabel="offset in mm", ylabel="points", title="more compression than at D, W = 7.2 mm")
    for axes in (left, right):
        axes.axvline(7, color="#9aa5b0", linewidth=0.8, linestyle="--")
        axes.annotate("usual reach", (7, 0), xytext=(4, 4), textcoords="offset points", color="#5b6875")
        axes.set_ylim(bottom=0)
        axes.set_xlim(0, 10)
        axes.title.set_fontsize(10)
    finish(figure, path)


def verdict_bands(path):
    limits, u = (f.mm(23.4), f.mm(23.6)), f.mm(0.02)
    values = steps(23.3, 23.7, 400)
    verdicts = [f.judge(f.mm(v), u, limits) for v in values]
    accept, reject = verdicts[0].accept, verdicts[0].reject
    figure, axes = plot.subplots(figsize=(7, 3.4))
    axes.plot(values, [v.conforming.percent for v in verdicts], color="#0b5c8a", linewidth=2)
    for low, high, words, colour in [(23.3, reject.lower.mm, "reject", "#f3e1d8"), (reject.lower.mm, accept.lower.mm, "undecided", "#ffffff"),
                                     (accept.lower.mm, accept.upper.mm, "accept", "#dfeaf2"),
                                     (accept.upper.mm, reject.upper.mm, "undecided", "#ffffff"), (reject.upper.mm, 23.7, "reject", "#f3e1d8")]:
        axes.axvspan(low, high, color=colour, linewidth=0)
        axes.text((low + high) / 2, 106, words, ha="center", fontsize=9)
    for limit in (23.4, 23.6):
        axes.axvline(limit, color="#1d2733", linewidth=0.8, linestyle="--")
    axes.axhline(95, color="#9aa5b0", linewidth=0.8)
    axes.set(xlabel="measured diameter in mm", ylabel="conforms with, in %", xlim=(23.3, 23.7), ylim=(0, 104))
    finish(figure, path)


def trial_rows():
    """Name, setting error and share inside of each rule, from the simulation's table."""
    text = (SIMULATION / "trials.txt").read_text(encoding="utf-8")
    for name, trials, errors, inside in re.findall(
            r"\n([\w ]+)\n +after n trials([\d ]+)\n +setting error, mm \(rms\)([\d. ]+)\n +next crimp inside, %([\d. ]+)\n", text):
        yield name, [int(n) for n in trials.split()], [float(e) for e in errors.split()], [float(i) for i in inside.split()]


def convergence_of_trials(path):
    figure, (left, right) = plot.subplots(1, 2, figsize=(7, 3.6))
    styles = [("-", "o", "#b3541e"), ("--", "s", "#0b5c8a"), (":", "^", "#1d2733")]
    for (name, trials, errors, inside), (dash, mark, colour) in zip(trial_rows(), styles, strict=True):
        left.plot(trials[1:], errors[1:], dash, marker=mark, color=colour, label=name, markersize=4)
        right.plot(trials[1:], inside[1:], dash, marker=mark, color=colour, label=name, markersize=4)
    left.set(xlabel="trials", ylabel="setting error in mm (root mean square)", ylim=(0, 0.06))
    right.set(xlabel="trials", ylabel="next crimp inside, in %", ylim=(90, 100))
    left.legend(frameon=False, fontsize=8)
    finish(figure, path)


def confusion(path):
    text = (SIMULATION / "diagnosis.txt").read_text(encoding="utf-8")
    part = text.split("Confusion")[1].split("\nCases")[0].splitlines()[1:]
    rows = [(int(line[:2]), [float(cell) if cell != "." else 0.0 for cell in line[21:].split()])
            for line in part if line[:2].strip().isdigit() and not line.startswith(" " * 21)]
    figure, axes = plot.subplots(figsize=(7, 5.6))
    axes.imshow([cells for _, cells in rows], cmap="Greys", vmin=0, vmax=160, aspect="auto")
    for i, (_, cells) in enumerate(rows):
        for j, cell in enumerate(cells):
            if cell >= 1:
                axes.text(j, i, f"{cell:.0f}", ha="center", va="center", fontsize=7)
    words = [f.Cause(cause).name.lower().replace("_", " ") for cause in range(len(rows[0][1]))]
    axes.set_xticks(range(len(words)), words, rotation=60, ha="right", fontsize=7)
    axes.set_yticks(range(len(rows)), [words[cause] for cause, _ in rows], fontsize=7)
    axes.set(xlabel="ranked first", ylabel="true cause")
    finish(figure, path)


def reliability(path):
    text = (SIMULATION / "diagnosis.txt").read_text(encoding="utf-8").split("Reliability")[1]
    rows = re.findall(r"\d+ to +\d+ % +([\d.]+) +([\d.]+) +(\d+)\n", text)
    figure, axes = plot.subplots(figsize=(4.2, 4))
    axes.plot([0, 1], [0, 1], color="#9aa5b0", linewidth=0.8)
    axes.plot([float(row[0]) for row in rows], [float(row[1]) for row in rows], "o", color="#0b5c8a", markersize=5)
    axes.set(xlabel="stated probability", ylabel="share that came true", xlim=(0, 1), ylim=(0, 1), aspect="equal")
    finish(figure, path)


def short_runs(path):
    """Three dies in turn, twenty pieces each, invented; those of the third come out larger from piece 31 on."""
    sizes, deviations = [20.1, 23.5, 31.2], [0.02, 0.03, 0.04]
    numbers = random.Random(20261201)
    pieces = []
    for i in range(60):
        kind = i // 5 % 3
        moved = 0.05 if kind == 2 and i >= 30 else 0.0
        pieces.append(f.SamplePiece(f.mm(sizes[kind] + moved + numbers.gauss(0, deviations[kind])), 0, kind))
    points = f.chart_points(pieces, f.Charting(allowance=0.5, decision=4.0))
    figure, (top, bottom) = plot.subplots(2, 1, figsize=(7, 5), sharex=True)
    for kind, (mark, colour) in enumerate((("o", "#1d2733"), ("s", "#0b5c8a"), ("^", "#b3541e"))):
        own = [(i + 1, p.score) for i, p in enumerate(points) if p.kind == kind and p.count > 2]
        top.plot(*zip(*own), mark, color=colour, markersize=4, label=f"die {kind + 1}")
    for limit in (-3, 3):
        top.axhline(limit, color="#9aa5b0", linewidth=0.8)
    top.set(ylabel="score", ylim=(-4.5, 4.5))
    top.legend(frameon=False, fontsize=8, ncol=3, loc="lower left")
    numbered = list(range(1, 61))
    bottom.plot(numbered, [p.up for p in points], "-", color="#b3541e", label="above")
    bottom.plot(numbered, [-p.down for p in points], "--", color="#0b5c8a", label="below")
    for limit in (-4, 4):
        bottom.axhline(limit, color="#9aa5b0", linewidth=0.8)
    bottom.axvline(30.5, color="#9aa5b0", linewidth=0.8, linestyle=":")
    bottom.set(xlabel="piece, in the order made", ylabel="sums of both sides")
    bottom.legend(frameon=False, fontsize=8, loc="lower left")
    finish(figure, path)


def burst_bounds(path):
    """Five invented bursts: bound of the pressure that 95 % hold, over the confidence, by distribution."""
    bursts = ["1180 bar", "1220 bar", "1245 bar", "1262 bar", "1290 bar"]
    confidences = [0.51 + 0.01 * k for k in range(48)] + [0.985, 0.99]
    figure, axes = plot.subplots(figsize=(6.4, 3.4))
    for strength, line in (("weibull", "-"), ("normal", "--"), ("lognormal", ":")):
        bounds = [10 * f.judge_bursts(bursts, f.BurstAim("275 bar", confidence=f.fraction(c)), strength).bound.mpa
                  for c in confidences]
        axes.plot(bounds, [100 * c for c in confidences], line, color="black", label=strength.replace("weibull", "Weibull"))
    axes.axvline(1100, color="0.6")
    axes.annotate("four times the working pressure", (1100, 52), xytext=(4, 0), textcoords="offset points", fontsize=8, color="0.35")
    axes.plot([float(text.split()[0]) for text in bursts], [50] * len(bursts), "x", color="black", clip_on=False, label="bursts")
    axes.set(xlabel="pressure that 95 % hold, bar", ylabel="confidence, %", ylim=(50, 100), xlim=(850, 1300))
    axes.legend(frameon=False)
    finish(figure, path)


def day_of_changes(path):
    """The depot's day of docs/examples/schedule.c, with 10 min of work each: as it came with nearest dies, and planned; invented."""
    orders = [("23.51 mm", 1, 1), ("27.3 mm", 2, 2), ("15.32 mm", 3, 3), ("29.6 mm", 4, 4), ("48.5608 mm", 5, 5), ("23.495 mm", 1, 6)]
    jobs = [f.Job(target, reel=reel, bin=number, work_seconds=600) for target, reel, number in orders]
    dies = [f.Die("13 mm", reach="4 mm", adapter=1)] + [f.Die(f"{size} mm") for size in (19, 22, 25, 28, 46)]
    given = dict(press=f.Press(graduation="0.05 mm", correction="-0.15 mm"), dies=dies, times=f.ChangeTimes(480, 240, 180, 90, 30),
                 mounted=f.Mounted(die_mounted=True, die=2, setting="1.35 mm", reel=1, bin=1))
    as_came = f.time_schedule(jobs, **given, aim=f.ScheduleAim(nearest_only=True))
    figure, axes = plot.subplots(figsize=(7.2, 2.3))
    for row, (turns, schedule) in enumerate((f.plan_schedule(jobs, **given), as_came)):
        for turn in turns:
            begin = turn.start_seconds / 60
            axes.barh(row, turn.change_seconds / 60, left=begin, height=0.5, color="#b3541e")
            axes.barh(row, 10, left=begin + turn.change_seconds / 60, height=0.5, color="#0b5c8a")
            axes.text(begin + turn.change_seconds / 60 + 5, row, f"{turn.job + 1}", ha="center", va="center", fontsize=8, color="white")
        axes.text(schedule.end_seconds / 60 + 1, row, f"{schedule.change_seconds / 60:g} min of changes", va="center", fontsize=8)
    axes.set(yticks=[0, 1], yticklabels=["planned", "as it came,\nnearest dies"], xlabel="minutes", xlim=(0, 145))
    finish(figure, path)


def orientation_of_elbows(path):
    """Two routes with the same elbows: how far the far elbow stands, for one who looks along the hose from the near one."""
    tip = f.Point("0 mm", "0 mm", "50 mm")
    routes = {"straight hose": [(0, 0, 0), (500, 0, 0)], "with a corner": [(0, 0, 0), (500, 0, 0), (500, 400, 300)]}
    figure, both = plot.subplots(1, 2, figsize=(7, 3.4), subplot_kw={"projection": "polar"})
    for axes, (words, corners) in zip(both, routes.items(), strict=True):
        points = [f.Point(*map(f.mm, corner)) for corner in corners]
        x, y, z = corners[-1]
        found = f.find_orientation(points, "180 mm", "20 mm", tip, f.Point(f.mm(x), f.mm(y + 50), f.mm(z)))
        axes.set_theta_zero_location("N")
        axes.set_theta_direction(-1)
        axes.plot([0, 0], [0, 1], "-", color="#1d2733", linewidth=6, solid_capstyle="butt", label="near elbow")
        axes.plot([found.angle.rad] * 2, [0, 1], "--", color="#b3541e", linewidth=4, label="far elbow")
        axes.set_title(f"{words}: {found.angle:.0f deg}", fontsize=10)
        axes.set(yticks=[], ylim=(0, 1.1))
    both[1].legend(frameon=False, fontsize=8, loc="lower right", bbox_to_anchor=(1.25, -0.12))
    finish(figure, path)


def drawings(folder):
    from ferrule import drawing
    setup = f.plan_setup(WORKED, f.Press(graduation="0.05 mm"), ["19 mm", "22 mm", "25 mm"])
    drawing.section(WORKED.replace(stem={"bore": "9.5 mm"}), setup).save(folder / "section.svg")
    drawing.die(setup).save(folder / "die.svg")


def main():
    folder = pathlib.Path(sys.argv[1])
    plot.rcParams.update({"svg.hashsalt": "ferrule", "font.size": 10, "axes.spines.top": False,
                          "axes.spines.right": False})
    compression_by_model(folder / "compression.svg")
    shape_against_offset(folder / "lobe.svg")
    verdict_bands(folder / "verdict.svg")
    convergence_of_trials(folder / "trials.svg")
    confusion(folder / "confusion.svg")
    reliability(folder / "reliability.svg")
    short_runs(folder / "short_runs.svg")
    burst_bounds(folder / "bursts.svg")
    day_of_changes(folder / "schedule.svg")
    orientation_of_elbows(folder / "orientation.svg")
    drawings(folder)


main()
