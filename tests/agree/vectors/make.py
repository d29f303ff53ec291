# SPDX-License-Identifier: MIT
"""Writes computed.csv: rows that reference.py computes for invented joints drawn with a fixed seed.

    python3 tests/agree/vectors/make.py

Run it again only when a row is to be added; the file is committed and read by the tests of every language.
"""
import csv
import pathlib
import random

from mpmath import nstr

import reference

SOURCE = "tests/agree/vectors/reference.py, mpmath 50 digits"
here = pathlib.Path(__file__).parent


def draw_joint(rng):
    """A plausible joint with decimal measurements, so that the doubles are those of the text."""
    di = round(rng.uniform(4, 60), 1)
    wall = round(rng.uniform(2, 9), 2)
    do = round(di + 2 * wall, 2)
    s = round(di + rng.uniform(-0.3, 0.8), 2)
    fw = round(rng.uniform(1.0, 4.0), 2)
    outside = round(do + 2 * fw + rng.uniform(0.8, 3.0), 2)
    return {"di": str(di), "do": str(do), "s": str(s), "wall": str(fw), "outside": str(outside),
            "length": str(round(rng.uniform(15, 60), 1)), "a": str(round(wall / 4, 2))}


def describe(joint):
    keys = {"di": "joint.hose.inside", "do": "joint.hose.outside", "a": "joint.hose.reinforcement",
            "s": "joint.stem.outside", "wall": "joint.ferrule.wall", "outside": "joint.ferrule.outside",
            "length": "joint.ferrule.length"}
    return "; ".join(f"{keys[k]}={joint[k]} mm" for k in keys)


def as_doubles(joint):
    return {k: float(v) for k, v in joint.items()}


def joint_rows(rng):
    for _ in range(12):
        text = draw_joint(rng)
        joint = as_doubles(text)
        yield ["fitted_outside", describe(text), "outside", nstr(reference.fitted_outside(joint), 25) + " mm",
               "1e-14 mm", SOURCE]
        for basis in ("wall", "fitted wall", "soft wall", "area"):
            for flow in ("none", "ends_fixed", "ends_free"):
                arguments = f"{describe(text)}; model.basis={basis}; model.flow={flow}"
                c = rng.randint(12, 30)
                d = reference.crimp_diameter(joint, c / 100.0, basis, flow)
                if not reference.bore(joint, d, flow) < reference.fitted_outside(joint) or d > joint["outside"]:
                    continue
                yield ["crimp_diameter", f"{arguments}; compression={c} %", "diameter", nstr(d, 25) + " mm",
                       "2e-14 mm", SOURCE]
                rounded = float(nstr(d, 5))
                share = reference.compression(joint, rounded, basis, flow)
                if not 0.01 < share < 0.99:
                    continue
                yield ["compression", f"{arguments}; diameter={rounded!r} mm", "compression",
                       nstr(share, 25) + " fraction", "2e-15 fraction", SOURCE]
        d = round(joint["outside"] - rng.uniform(0.3, 2.0), 2)
        if d > 2 * joint["wall"]:
            for flow in ("ends_fixed", "ends_free"):
                arguments = f"{describe(text)}; model.flow={flow}; diameter={d} mm"
                wall = reference.wall_after(*map(reference.mpf, (joint["wall"], joint["outside"], d)), flow)
                yield ["crimped_wall", arguments, "wall", nstr(wall, 25) + " mm", "2e-15 mm", SOURCE]
            yield ["crimped_length", f"{describe(text)}; model.flow=ends_free; diameter={d} mm", "length",
                   nstr(reference.length_after(joint, d), 25) + " mm", "4e-14 mm", SOURCE]


def shape_rows(rng):
    for n in (3, 4, 6, 8, 8, 8, 9, 12, 16, 64):
        size = rng.randint(8, 120)
        diameter = round(size + rng.uniform(0.01, 9.0), 2)
        arguments = f"diameter={diameter} mm; die_size={size} mm; segments={n}"
        figures = reference.shape(float(diameter), float(size), n)
        yield ["lobe_height", arguments, "height", nstr(figures["lobe_height"], 25) + " mm", "1e-14 mm", SOURCE]
        for name, value in figures.items():
            yield ["crimp_shape", arguments, "shape." + name, nstr(value, 25) + " mm", "1e-13 mm", SOURCE]


def shares_rows(rng):
    for _ in range(12):
        text = draw_joint(rng)
        joint = as_doubles(text)
        u = {k: str(round(rng.uniform(0.01, 0.08), 3)) for k in ("di", "do", "s", "wall", "diameter")}
        r = rng.choice([-0.4, 0.0, 0.0, 0.5, 0.9])
        diameter = round(joint["s"] + 2 * joint["wall"] + (joint["do"] - joint["di"]) * rng.uniform(0.74, 0.86), 2)
        shares = reference.conforming_share(joint, as_doubles(u), r, 0.15, 0.25, diameter)
        names = {"di": "hose_inside", "do": "hose_outside", "s": "stem_outside", "wall": "ferrule_wall",
                 "diameter": "diameter"}
        arguments = describe(text) + "; " + "; ".join(f"uncertainties.{names[k]}.amount={u[k]} mm" for k in names)
        arguments += f"; uncertainties.correlations.hose_inside_hose_outside={r} fraction"
        arguments += f"; range.lower=15 %; range.upper=25 %; diameter={diameter} mm"
        for name, share in zip(("inside", "below", "above"), shares):
            yield ["conforming_share", arguments, "shares." + name, nstr(share, 25) + " fraction", "1e-13 fraction", SOURCE]


def main():
    rng = random.Random(20261125)
    with open(here / "computed.csv", "w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(["function", "arguments", "result", "expected", "tolerance", "source"])
        for rows in (joint_rows(rng), shape_rows(rng), shares_rows(rng)):
            writer.writerows(rows)


if __name__ == "__main__":
    main()
