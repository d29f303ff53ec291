# SPDX-License-Identifier: MIT
"""Pictures with matplotlib (the extra ferrule[plot]): how compression goes with the crimp diameter, the chance to be inside, what
the dies of a rack reach. Each function draws into axes that are given, or into new ones, and returns them.

    from ferrule import plot
    plot.compression(joint, "23.51 mm")
    plot.chance(joint, uncertainties)
    plot.reach(["16 mm", "19 mm", "22 mm"], over=("14 mm", "32 mm"), targets=["23.51 mm"])
"""
import collections.abc
import importlib
from typing import Any

import ferrule

try:
    pyplot: Any = importlib.import_module("matplotlib.pyplot")
except ImportError:
    raise ImportError("ferrule.plot needs matplotlib: install ferrule[plot], or matplotlib itself") from None

__all__ = ["compression", "chance", "reach"]
USUAL = ("15 %", "25 %")
MODELS = (("plain formula", "NONE", "-"), ("ends free", "ENDS_FREE", "--"), ("ends fixed", "ENDS_FIXED", ":"))
INK = ("#12507b", "#a8481a", "#3c474f")
STEPS = 120


def compression(joint: Any, crimp: Any = None, allowed: Any = USUAL, axes: Any = None) -> Any:
    """Compression against crimp diameter by each model that the joint's measurements allow, with the window of the range.

    crimp: a crimp diameter, or a Setup, to be marked. What is allowed belongs to the plain formula.
    """
    axes = _axes(axes)
    joint = joint.joint if isinstance(joint, ferrule.Order) else joint
    limits, window = ferrule.RatioRange(*allowed), ferrule.crimp_window(joint, allowed)
    at = None if crimp is None else (crimp.target if isinstance(crimp, ferrule.Setup) else ferrule.Length(crimp))
    first, last = _around(window, at, 0.6)
    axes.axvspan(window.lower.mm, window.upper.mm, color="#e8eef3", label=f"window of {limits.lower:.0f %} to {limits.upper:.0f %}")
    for (words, flow, dash), ink in zip(MODELS, INK):
        points = [(d.mm, c.percent) for d in _steps(first, last) if (c := _try(ferrule.compression, joint, d, {"flow": flow}))]
        if points:
            axes.plot(*zip(*points), dash, color=ink, linewidth=2, label=words)
    if at is not None:
        axes.axvline(at.mm, color=INK[2], linewidth=0.9)
        axes.annotate(f"{at:.2f mm}", (at.mm, 1), xycoords=("data", "axes fraction"), xytext=(4, -12), textcoords="offset points")
    axes.set(xlabel="crimp diameter in mm", ylabel="compression in %", xlim=(first.mm, last.mm))
    axes.legend(frameon=False)
    return axes


def chance(joint: Any, uncertainties: Any, allowed: Any = USUAL, axes: Any = None) -> Any:
    """Share of joints inside a range of compression against the crimp diameter aimed at, by the plain formula."""
    axes = _axes(axes)
    window = ferrule.crimp_window(joint, allowed)
    target, best = ferrule.best_target(joint, uncertainties, allowed)
    first, last = _around(window, target, 0.25)
    shares = [(d.mm, y) for d in _steps(first, last) if (y := _try(ferrule.conforming_share, joint, uncertainties, allowed, d))]
    for words, part, dash, ink in (("inside", "inside", "-", INK[0]), ("too much compression", "above", "--", INK[1]),
                                   ("too little", "below", ":", INK[2])):
        axes.plot([d for d, _ in shares], [getattr(y, part).percent for _, y in shares], dash, color=ink, linewidth=2, label=words)
    axes.axvline(target.mm, color=INK[2], linewidth=0.9)
    axes.annotate(f"best {target:.2f mm}: {best.inside:.1f %}", (target.mm, 0.3), xycoords=("data", "axes fraction"),
                  xytext=(5, 0), textcoords="offset points")
    axes.set(xlabel="crimp diameter aimed at, in mm", ylabel="share of joints in %", xlim=(first.mm, last.mm), ylim=(0, 102))
    axes.legend(frameon=False, loc="center left")
    return axes


def reach(dies: collections.abc.Iterable[Any], over: Any = None, targets: collections.abc.Iterable[Any] = (), axes: Any = None) -> Any:
    """Which crimp diameters each die of a rack reaches, the gaps between them, and targets as lines.

    over: the diameters to look at, from and to; without it those that the dies reach.
    """
    axes = _axes(axes)
    rack = sorted((die if isinstance(die, ferrule.Die) else ferrule.Die(die) for die in dies), key=lambda die: die.size)
    usual = ferrule.mm(ferrule.DIE_REACH_USUAL_MM)
    spans = [(die.size, die.size + (die.reach or usual)) for die in rack]
    if over is None:
        over = (min(s for s, _ in spans), max(e for _, e in spans)) if spans else ("10 mm", "60 mm")
    looked = ferrule.LengthRange(*over)
    for gap in ferrule.find_coverage_gaps(rack, looked):
        axes.axvspan(gap.lower.mm, gap.upper.mm, facecolor="none", edgecolor=INK[1], hatch="//", linewidth=0)
    for place, (start, end) in enumerate(spans):
        axes.barh(place, (end - start).mm, left=start.mm, color="#c9d6e2", edgecolor=INK[0])
    for target in map(ferrule.Length, targets):
        axes.axvline(target.mm, color=INK[2], linewidth=0.9, linestyle="--")
        axes.annotate(f"{target:.2f mm}", (target.mm, 1), xycoords=("data", "axes fraction"), xytext=(3, -12), textcoords="offset points")
    axes.set_yticks(range(len(spans)), [f"{die.size:.1f mm}" for die in rack])
    axes.set(xlabel="crimp diameter in mm; hatched: no die reaches it", ylabel="die", xlim=(looked.lower.mm, looked.upper.mm))
    return axes


def _axes(axes: Any) -> Any:
    return pyplot.subplots(layout="constrained")[1] if axes is None else axes


def _around(window: Any, at: Any, share: float) -> tuple[Any, Any]:
    """From and to of a picture: the window and a diameter with a margin."""
    lower, upper = (window.lower, window.upper) if at is None else (min(window.lower, at), max(window.upper, at))
    margin = (window.upper - window.lower) * share
    return lower - margin, upper + margin


def _steps(first: Any, last: Any) -> list[Any]:
    return [first + (last - first) * (i / STEPS) for i in range(STEPS + 1)]


def _try(function: Any, *arguments: Any) -> Any:
    """A figure, or nothing where it cannot be computed, so that the line ends there."""
    try:
        return function(*arguments)
    except ferrule.Error:
        return None
