# SPDX-License-Identifier: MIT
"""Draw the manual's pictures with the library itself.

Usage: pictures.py OUTPUT_FOLDER   (the Python package on PYTHONPATH)
"""
import pathlib
import sys

import matplotlib

matplotlib.use("svg")
import matplotlib.pyplot as plot  # noqa: E402
import ferrule as f  # noqa: E402

WORKED = f.Joint(hose=f.Hose(inside="12.7 mm", outside="19.9 mm"), stem=f.Stem(outside="12.95 mm"),
                 ferrule=f.Ferrule(wall="2.4 mm", outside="25.6 mm"))
# Told apart by dash and place as well as by colour.
LINES = [("plain formula", f.Flow.NONE, "-", "#1d2733"), ("ferrule lengthens freely", f.Flow.FREE, "--", "#0b5c8a"),
         ("ferrule held", f.Flow.HELD, ":", "#b3541e")]


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
    size, targets = 39.0, steps(39.0, 49.0, 100)
    shapes = [f.crimp_shape(f.mm(d), f.mm(size), 8) for d in targets]
    offsets = [d - size for d in targets]
    figure, (left, right) = plot.subplots(1, 2, figsize=(7, 3.6))
    left.plot(offsets, [s.lobe_height.mm for s in shapes], color="#0b5c8a", linewidth=2)
    left.set(xlabel="offset in mm", ylabel="lobe height in mm", title="39 mm die, eight segments")
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


def main():
    folder = pathlib.Path(sys.argv[1])
    plot.rcParams.update({"svg.hashsalt": "ferrule", "font.size": 10, "axes.spines.top": False,
                          "axes.spines.right": False})
    compression_by_model(folder / "compression.svg")
    shape_against_offset(folder / "lobe.svg")


main()
