# SPDX-License-Identifier: MIT
"""How long a call from Python takes, against the same formula in validated pure Python, in one run.

Usage: PYTHONPATH=build/release/python python3 tests/release/bench/bench_python.py
"""
import math
import timeit
from dataclasses import dataclass

import ferrule


@dataclass(frozen=True)
class PlainLength:
    mm: float


@dataclass(frozen=True)
class PlainRatio:
    fraction: float


@dataclass(frozen=True)
class PlainJoint:
    inside: PlainLength
    outside: PlainLength
    stem: PlainLength
    wall: PlainLength


def is_length(length):
    return isinstance(length, PlainLength) and 0.001 <= length.mm <= 1e6


def plain_crimp_diameter(joint, compression):
    """The plain formula with the checks that the library makes: kinds, ranges, order, gap and touch."""
    if not isinstance(joint, PlainJoint) or not isinstance(compression, PlainRatio):
        raise TypeError("a joint and a compression are needed")
    if not (is_length(joint.inside) and is_length(joint.outside) and is_length(joint.stem) and is_length(joint.wall)):
        raise ValueError("a measurement is out of range")
    inside, outside, stem, wall = joint.inside.mm, joint.outside.mm, joint.stem.mm, joint.wall.mm
    share = compression.fraction
    if not outside > inside or not stem < outside or not math.isfinite(share):
        raise ValueError("the measurements are not in order")
    diameter = stem + 2 * wall + (outside - inside) * (1 - share)
    bore = diameter - 2 * wall
    fitted = math.sqrt(outside * outside - inside * inside + stem * stem) if stem > inside else outside
    if not bore > stem or not bore < fitted:
        raise ValueError("no gap is left, or the ferrule does not touch")
    return PlainLength(diameter)


def flow_by_scipy(wall, outside, diameter):
    """Wall of a rigid-plastic tube with its ends free, by SciPy's solver and root finder: the equation of the manual's page Forming,
    without the elastic strains, the pressure and the springback that form_ferrule() finds as well."""
    from scipy.integrate import solve_ivp
    from scipy.optimize import brentq
    before, after, three = outside / 2, diameter / 2, math.sqrt(3)
    area = before**2 - (before - wall) ** 2

    def force(m, alpha):
        outer, inner = math.sqrt(1 + m * m), math.sqrt(1 + (alpha * m) ** 2)
        pressure = (-math.log(alpha) + math.log((1 + inner) / (1 + outer))) / three
        return m * (1 - alpha**2) / (outer + inner) - pressure

    def slope(x, y):
        alpha = 1 - area * math.exp(-y[0] - 2 * x)
        m = brentq(force, 1e-3, 10 / alpha, (alpha,))
        return [-2 * m / (m + three)]

    stretch = solve_ivp(slope, (math.log(before), math.log(after)), [0.0], rtol=1e-8).y[0, -1]
    return after - math.sqrt(after**2 - area * math.exp(-stretch))


def forming():
    """The functions that integrate the flow of a ferrule, against SciPy."""
    ferrule_as_it_is, closed = ferrule.Ferrule("2.4 mm", outside="25.6 mm", length="34 mm"), ferrule.mm(23.51)
    steel, hardening = ferrule.Material("206 GPa", "30 %", "300 MPa"), ferrule.Material("206 GPa", "30 %", "300 MPa", "600 MPa")
    load = ferrule.FormingLoad()
    order = ferrule.Order(joint=ferrule.Joint(("12.7 mm", "19.9 mm"), ("12.95 mm", "9 mm"), ferrule_as_it_is), published="23.51 mm",
                          tolerance="0.15 mm", ferrule_metal=steel, stem_metal=steel, minimum_bore="8.9 mm",
                          load=ferrule.FormingLoad("100 %", "30 MPa"))
    press, dies = ferrule.Press(graduation="0.01 mm", segments=8), [ferrule.Die("22 mm")]
    ours, theirs = ferrule.form_ferrule(ferrule_as_it_is, closed, steel, load).wall.mm, flow_by_scipy(2.4, 25.6, 23.51)
    assert abs(ours / theirs - 1) < 1e-3
    calls = {"form_ferrule, ends free": lambda: ferrule.form_ferrule(ferrule_as_it_is, closed, steel, load),
             "form_ferrule, ends free, hardening": lambda: ferrule.form_ferrule(ferrule_as_it_is, closed, hardening, load),
             "closing_diameter, ends free": lambda: ferrule.closing_diameter(ferrule_as_it_is, closed, steel, load),
             "plan_setup with both metals": lambda: ferrule.plan_setup(order, press, dies),
             "the flow alone by SciPy": lambda: flow_by_scipy(2.4, 25.6, 23.51)}
    times = {name: nanoseconds(call) for name, call in calls.items()}
    for name, time in times.items():
        print(f"{name:45}{time / 1000:8.1f} us")
    return times


def nanoseconds(call):
    timer = timeit.Timer(call)
    count = timer.autorange()[0]
    return min(timer.repeat(7, count)) / count * 1e9


def main():
    joint = ferrule.Joint(("12.7 mm", "19.9 mm"), "13 mm", "1.5 mm")
    ratio = ferrule.percent(20)
    model = ferrule.Model(flow="none")
    plain_joint = PlainJoint(PlainLength(12.7), PlainLength(19.9), PlainLength(13.0), PlainLength(1.5))
    plain_ratio = PlainRatio(0.2)
    crimp_diameter = ferrule.crimp_diameter
    assert abs(crimp_diameter(joint, ratio).mm - plain_crimp_diameter(plain_joint, plain_ratio).mm) < 1e-12
    ours = nanoseconds(lambda: crimp_diameter(joint, ratio))
    theirs = nanoseconds(lambda: plain_crimp_diameter(plain_joint, plain_ratio))
    print(f"{'empty call, part of each figure':45}{nanoseconds(lambda: None):8.0f} ns")
    print(f"{'crimp_diameter(joint, ratio)':45}{ours:8.0f} ns")
    print(f"{'crimp_diameter(joint, ratio, model)':45}{nanoseconds(lambda: crimp_diameter(joint, ratio, model)):8.0f} ns")
    print(f"{'crimp_diameter(joint=, compression=)':45}{nanoseconds(lambda: crimp_diameter(joint=joint, compression=ratio)):8.0f} ns")
    print(f"""{"crimp_diameter(joint, '20 %')":45}{nanoseconds(lambda: crimp_diameter(joint, '20 %')):8.0f} ns""")
    print(f"{'joint.hose.outside.mm':45}{nanoseconds(lambda: joint.hose.outside.mm):8.0f} ns")
    print(f"{'pure Python with the same checks':45}{theirs:8.0f} ns")
    print(f"share of pure Python: {ours / theirs:.2f}")
    forming()
    return ours / theirs


if __name__ == "__main__":
    main()
