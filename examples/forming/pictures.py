# SPDX-License-Identifier: MIT
"""What the ferrule metal does, as pictures: for the engineer who fixes a crimp specification, and for the manual.

Usage: pictures.py OUTPUT_FOLDER   (the Python package on PYTHONPATH)     sizes and metals are invented
"""
import pathlib
import sys

import matplotlib

matplotlib.use("svg")
import matplotlib.pyplot as plot  # noqa: E402
import ferrule as f  # noqa: E402

STEEL = f.Material(elastic_modulus="206 GPa", poisson="0.3 fraction", yield_strength="300 MPa")
JOINT = f.Joint(hose=f.Hose(inside="12.7 mm", outside="19.9 mm"), stem=f.Stem(outside="12.95 mm"),
                ferrule=f.Ferrule(wall="2.4 mm", outside="25.6 mm"))
# Distinguished by dash and place as well as by colour.
RESTRAINTS = [("ends_fixed", 1.0, ":", "#b3541e"), ("half restrained", 0.5, "-.", "#5b6875"), ("ends_free", 0.0, "--", "#0b5c8a")]


def steps(first, last, count):
    return [first + (last - first) * i / count for i in range(count + 1)]


def finish(figure, path):
    figure.tight_layout()
    figure.savefig(path, metadata={"Date": None})
    plot.close(figure)


def formed(part, diameter, restraint, hose="0 MPa"):
    load = f.FormingLoad(restraint=f.fraction(restraint), hose_pressure=hose)
    return f.form_ferrule(part, f.mm(diameter), STEEL, load)


def wall_growth(path):
    """Growth of the wall, and of the length, against the reduction of the diameter."""
    part, outside = f.Ferrule(wall="3 mm", outside="50 mm"), 50.0
    figure, (left, right) = plot.subplots(1, 2, figsize=(7, 3.6))
    reductions = steps(1.0, 15.0, 56)
    for words, restraint, dash, colour in RESTRAINTS:
        found = [formed(part, outside * (1 - r / 100), restraint) for r in reductions]
        left.plot(reductions, [(x.wall.mm / 3.0 - 1) * 100 for x in found], dash, color=colour, lw=2, label=words)
        right.plot(reductions, [x.stretch.percent - 100 for x in found], dash, color=colour, lw=2, label=words)
    left.set(ylabel="growth of the wall in %", title="50 mm outside, 3 mm wall")
    right.set(ylabel="growth of the length in %")
    for axes in (left, right):
        axes.set(xlabel="reduction of the diameter in %", xlim=(0, 15))
        axes.set_ylim(bottom=-0.3)
        axes.legend(frameon=False)
    finish(figure, path)


def compression_after_forming(path):
    """Plain compression, and that of the bore after springback with the wall as it has become."""
    hose_wall, stem = 19.9 - 12.7, 12.95
    figure, axes = plot.subplots(figsize=(7, 3.8))
    diameters = steps(22.8, 24.2, 60)
    plain = [f.compression(JOINT, f.mm(d)).percent for d in diameters]
    axes.plot(diameters, plain, color="#1d2733", lw=2, label="plain formula")
    for words, restraint, dash, colour in RESTRAINTS:
        bores = []
        for d in diameters:
            load = f.FormingLoad(restraint=f.fraction(restraint), hose_pressure="30 MPa")
            closing = f.closing_diameter(JOINT.ferrule, f.mm(d), STEEL, load)
            bores.append(f.form_ferrule(JOINT.ferrule, closing, STEEL, load).crimp_bore.mm)
        axes.plot(diameters, [100 * (1 - (b - stem) / hose_wall) for b in bores], dash, color=colour, lw=2,
                  label=f"with the wall's growth, {words}")
    axes.axhspan(15, 25, color="#eef1f4", zorder=0)
    axes.set(xlabel="crimp diameter in mm", ylabel="compression in %", xlim=(22.8, 24.2))
    axes.legend(frameon=False)
    finish(figure, path)


def lobe_and_gap(path):
    """Reach of a die by what it leaves: curves of equal lobe height, and offsets that keep the gap below the wall."""
    figure, (left, right) = plot.subplots(1, 2, figsize=(7, 3.6))
    sizes = steps(12, 100, 88)
    for height, dash in ((0.05, ":"), (0.1, "-."), (0.2, "--"), (0.3, "-")):
        offsets = [f.lobe_offset(f.mm(d), 8, f.mm(height)).mm for d in sizes]
        left.plot(sizes, offsets, dash, color="#0b5c8a", lw=2, label=f"lobe {height:g} mm")
    left.axhline(7, color="#9aa5b0", lw=0.8)
    left.annotate("usual reach", (60, 7), xytext=(0, 4), textcoords="offset points", color="#5b6875")
    left.set(xlabel="die size in mm", ylabel="offset in mm", ylim=(0, 17), title="eight segments")
    walls = steps(1, 6, 50)
    for share, dash in ((0.5, ":"), (1.0, "--"), (1.5, "-")):
        right.plot(walls, [f.gap_offset(f.mm(w), 8, f.fraction(share)).mm for w in walls], dash, color="#b3541e", lw=2,
                   label=f"gap {share:g} walls")
    right.axhline(7, color="#9aa5b0", lw=0.8)
    right.set(xlabel="ferrule wall in mm", ylabel="offset in mm", ylim=(0, 12))
    left.legend(frameon=False, loc="upper right")
    right.legend(frameon=False, loc="lower right")
    finish(figure, path)


def force_map(path):
    """Force by outside diameter and wall: steel ferrules with ends fixed, as long as they are wide, reduced by 8 %."""
    figure, axes = plot.subplots(figsize=(7, 4.2))
    outsides, walls = steps(15, 80, 40), steps(1.0, 6.0, 40)
    table = []
    for wall in walls:
        row = []
        for outside in outsides:
            if wall > 0.18 * outside:
                row.append(float("nan"))
                continue
            closing = 0.92 * outside
            found = formed(f.Ferrule(wall=f.mm(wall), outside=f.mm(outside)), closing, 1.0)
            force = f.find_die_force(found.pressure, f.mm(closing), f.mm(outside), 8)
            row.append(force.total.kn)
        table.append(row)
    lines = axes.contour(outsides, walls, table, levels=[50, 100, 200, 400, 800, 1200, 1600, 2000], colors="#0b5c8a")
    axes.clabel(lines, fmt="%g kN")
    axes.set(xlabel="ferrule outside diameter in mm", ylabel="ferrule wall in mm",
             title="steel, yield strength 300 MPa, ends fixed, as long as wide, closed by 8 %, without the hose")
    axes.title.set_fontsize(10)
    finish(figure, path)


def main():
    folder = pathlib.Path(sys.argv[1])
    plot.rcParams.update({"svg.hashsalt": "ferrule", "font.size": 10, "axes.spines.top": False,
                          "axes.spines.right": False})
    wall_growth(folder / "wall_growth.svg")
    compression_after_forming(folder / "compression_after_forming.svg")
    lobe_and_gap(folder / "reach.svg")
    force_map(folder / "force_map.svg")


main()
