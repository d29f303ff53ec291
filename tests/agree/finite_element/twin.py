# SPDX-License-Identifier: MIT
"""Module hose against finite elements: does the pressure of the hose come back from the force of the dies, where it is a hill along the
ferrule and drags it outwards?

A ferrule of finite length whose ends nothing holds, its outside pushed in by a smooth die as long as it is, without friction there; the
pressure of the hose on its bore is given, even or a hill e^2.5 times as high in the middle as at the end; friction on the bore drags
it outwards by a share of the pressure. All sizes and pressures are invented.

    FERRULE_LIBRARY=... python3 twin.py [--write]     some ten minutes: writes twin.csv, or compares with it
"""
import csv
import math
import re
import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np

import library
import solver

TABLE = Path(__file__).with_name("twin.csv")
OUTSIDE, WALL, LENGTH, CLOSING = 25.6, 2.4, 24.0, 23.51
HILL = 2.5


@dataclass(frozen=True)
class Load:
    """Pressure of the hose, mean over the length; shape of it: 0 even, else the exponent of the hill; friction on the bore."""

    pressure: float = 0.0
    hill: float = 0.0
    friction: float = 0.0


# Largest difference of what is found by length from what was put on: without friction 0.5 %, with it from -6 to +1 %.
CASES = {
    "even 30": (Load(30), 0.0), "hill 30": (Load(30, HILL), 0.0), "hill 30, friction 0.2": (Load(30, HILL, 0.2), 0.0),
    "hill 30, friction 0.4": (Load(30, HILL, 0.4), 0.0), "even 30, friction 0.2": (Load(30, 0, 0.2), 0.0),
    "hill 10, friction 0.2": (Load(10, HILL, 0.2), 0.0), "hill 60, friction 0.2": (Load(60, HILL, 0.2), 0.0),
    "hardening, hill 30, friction 0.2": (Load(30, HILL, 0.2), 1000.0),
    "hardening, hill 60, friction 0.2": (Load(60, HILL, 0.2), 1000.0),
    "hardening, hill 100, friction 0.2": (Load(100, HILL, 0.2), 1000.0),
}


def grid(radii, heights):
    """Nodes by (column, row) in half elements, and elements of eight nodes."""
    node, place = {}, []

    def middle(values, i):
        return values[i // 2] if i % 2 == 0 else 0.5 * (values[i // 2] + values[i // 2 + 1])

    for j in range(2 * len(heights) - 1):
        for i in range(2 * len(radii) - 1):
            if not (i % 2 and j % 2):
                place.append((middle(radii, i), middle(heights, j)))
                node[i, j] = len(place)
    corners = [(0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1)]
    elements = [[node[2 * e + i, 2 * b + j] for i, j in corners] for b in range(len(heights) - 1) for e in range(len(radii) - 1)]
    return node, place, elements


def deck(material, load, through, along, step):
    """Half of the ferrule, from its middle to its end."""
    node, place, elements = grid(np.linspace(OUTSIDE / 2 - WALL, OUTSIDE / 2, through + 1), np.linspace(0, LENGTH / 2, along + 1))
    lines = ["*NODE"] + [f"{n},{r:.10g},{z:.10g}" for n, (r, z) in enumerate(place, 1)]
    lines += ["*ELEMENT,TYPE=CAX8R,ELSET=TUBE"] + [",".join(map(str, [n, *e])) for n, e in enumerate(elements, 1)]
    last, top = 2 * through, 2 * along
    for name, nodes in {"OUT": [node[last, j] for j in range(top + 1)], "BOTTOM": [node[i, 0] for i in range(last + 1)],
                        "TOP": [node[i, top] for i in range(last + 1)]}.items():
        lines += [f"*NSET,NSET={name}"] + [f"{n}," for n in nodes]
    lines += material.deck() + ["*SOLID SECTION,ELSET=TUBE,MATERIAL=METAL", "*BOUNDARY", "BOTTOM,2,2",
                                "*STEP,NLGEOM,INC=5000", "*STATIC", f"{step},1.,1e-9,{step}", "*BOUNDARY",
                                f"OUT,1,1,{(CLOSING - OUTSIDE) / 2:.10g}"]
    mean, drag = 0.0, {}
    if load.pressure:
        lines.append("*DLOAD")
    for b in range(along if load.pressure else 0):
        share = load.hill * math.exp(load.hill * (1 - (b + 0.5) / along)) / (math.exp(load.hill) - 1) if load.hill else 1.0
        pressure = load.pressure * share
        mean += pressure / along
        lines.append(f"{b * through + 1},P4,{pressure:.8g}")
        # over the whole circumference of the bore, which shrinks by about 7 %: Simpson's weights of an edge
        force = load.friction * pressure * 2 * math.pi * 0.93 * (OUTSIDE / 2 - WALL) * LENGTH / 2 / along
        for j, weight in ((2 * b, 1 / 6), (2 * b + 1, 4 / 6), (2 * b + 2, 1 / 6)):
            drag[node[0, j]] = drag.get(node[0, j], 0.0) + weight * force
    if load.friction:
        lines += ["*CLOAD"] + [f"{n},2,{force:.8g}" for n, force in drag.items()]
    lines += ["*NODE PRINT,NSET=OUT,TOTALS=ONLY,FREQUENCY=1000", "RF", "*NODE PRINT,NSET=TOP,FREQUENCY=1000", "U", "*END STEP"]
    return lines, mean


def close(material, load, through=5, along=20, step=0.0125):
    """Pressure of the dies by their force, length by length before, mean pressure of the hose."""
    lines, mean = deck(material, load, through, along, step)
    text = solver.run(lines, timeout=1200)
    totals = re.findall(r"total force \(fx,fy,fz\) for set OUT.*?\n\s*(\S+)", text)
    moves = [rows for word, name, _, rows in solver.tables(text) if name == "TOP" and word == "displacements"][-1]
    stretch = 1 + moves[:, 2].mean() / solver.CORNER / (LENGTH / 2)
    force = -float(totals[-1]) * 180 * 2  # a wedge of 2 degrees, half of the length
    return force / (math.pi * CLOSING * LENGTH * stretch), stretch, mean


def extrapolated(material, load):
    """The printed reaction leaves out the hoop force of the outermost nodes' share: first order in the mesh."""
    coarse, fine = close(material, load, 5), close(material, load, 10)
    return 2 * fine[0] - coarse[0], fine[1], fine[2]


def seen(pressure, stretch, metal, load=library.Load(0.0, 0.0)):
    """The closing that has this pressure and this length in the closed dies: what the library is given is seen after they have opened."""
    formed = library.form_ferrule(library.Ferrule(WALL, OUTSIDE, 0.0), CLOSING, metal, load)
    grown = library.load_tube(formed.bore, CLOSING, 0.0, pressure, metal, library.Load(0.0, 0.0))
    return library.Closing(pressure * math.pi * CLOSING * LENGTH * stretch, CLOSING - grown.outside, LENGTH,
                           LENGTH * stretch * (1 - grown.stretch))


def found(bare, joint, metal, by_length):
    """Pressure of the hose by the library, from pressure and length of both closings by finite elements."""
    ferrule, nothing = library.Ferrule(WALL, OUTSIDE, 0.0), library.ClosingUncertainties(*([0.0] * 6))
    closings = [seen(*one, metal) for one in (joint, bare)]
    if not by_length:
        closings = [library.Closing(c.force, c.diameter, c.before, 0.0) for c in closings]
    return library.find_hose_pressure(ferrule, closings[0], metal, closings[1], nothing).pressure


def steel(hardening):
    return solver.Material(206000, 0.3, 300, hardening)


def metal(hardening=0.0):
    return library.Material(206000, 0.3, 300, hardening)


def run():
    bare = {hardening: extrapolated(steel(hardening), Load())[:2] for hardening in (0.0, 1000.0)}
    for hardening, (pressure, stretch) in bare.items():
        name = "bare, hardening" if hardening else "bare"
        ours = library.form_ferrule(library.Ferrule(WALL, OUTSIDE, 0.0), CLOSING, metal(hardening), library.Load(0.0, 0.0))
        yield name, pressure, stretch, 0.0, ours.pressure, ours.stretch
    for name, (load, hardening) in CASES.items():
        pressure, stretch, mean = extrapolated(steel(hardening), load)
        yield (name, pressure, stretch, mean, *(found(bare[hardening], (pressure, stretch), metal(), way) for way in (False, True)))


HEADER = ["case", "pressure of the dies", "stretch", "pressure of the hose put on", "ends free", "by length"]


def read_table():
    with TABLE.open(encoding="ascii") as file:
        return {row["case"]: [float(row[name]) for name in HEADER[1:]] for row in csv.DictReader(file)}


def main():
    rows = list(run())
    with (TABLE.open("w", newline="", encoding="ascii") if "--write" in sys.argv else sys.stdout) as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(HEADER)
        table.writerows([name] + [f"{value:.7g}" for value in values] for name, *values in rows)


if __name__ == "__main__":
    main()
