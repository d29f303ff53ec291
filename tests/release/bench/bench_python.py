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
    return ours / theirs


if __name__ == "__main__":
    main()
