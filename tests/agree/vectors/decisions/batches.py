# SPDX-License-Identifier: MIT
"""Batches: what is decided on diameters, and why. Holds the cases, states the rules once more, and writes batches.csv.

Usage: batches.py --write    writes the table
       batches.py            fails where the table is not what the rules say

The rules are those of docs/batch.md, computed with SciPy: noncentral and central distributions, Shapiro and Wilk's test, an integral over the
mean. The library is not called. All readings are invented.
"""
import csv
import io
import math
import pathlib
import sys

import numpy as np
from scipy import optimize, stats

TABLE = pathlib.Path(__file__).with_suffix(".csv")
COLUMNS = ("arguments", "decision", "findings", "more_pieces", "source")
STEADY = [0.1, -0.8, 1.2, 0.4, -0.3, 0.9, -1.4, 0.2, 0.6, -0.5, -1.1, 1.6, -0.2, 0.3, -0.7, 0.8, -0.1, -1.8, 0.5, 1.0, -0.6, 0.0, -0.9, 1.3, -0.4,
          0.7, -1.2, 0.15, 0.35, -0.25]
ORDER = ("PIECE_OUTSIDE GAUGE_NOT_KNOWN NOT_NORMAL CANNOT_BE_SHOWN PIECES_UNDECIDED CHART_SIGNAL LEVEL_CHANGED GROUPS_DIFFER NO_SCATTER "
         "GAUGE_COVERS_SCATTER SHARE_NOT_SHOWN INDEX_NOT_SHOWN OFF_TARGET GAUGE_WIDE STEP_TOO_COARSE OUTLIER BURSTS_NEEDED DIAMETERS_ONLY").split()
FIRST = ORDER[:12]  # asks for something before the rest is accepted by the sample


def batch(count, mean, deviation, **changes):
    """A case: pieces about a mean, what is asked, what is changed in single pieces."""
    values = [round(mean + deviation * STEADY[i % 30], 4) for i in range(count)]
    for place, value in changes.pop("at", {}).items():
        values[place] = value
    for place, shift in changes.pop("shifted", {}).items():
        values[place:] = [round(value + shift, 4) for value in values[place:]]
    asked = {"lower": 23.4, "upper": 23.6, "repeatability": 0.003, "lot": 200, "allowed": 0.01, "confidence": 0.9, "groups": None,
             "common": 0.0, "resolution": 0.0, "index": 0.0, "target": 0.0, "without": False, "working": 0.0}
    return {**asked, "values": values, **changes}


CASES = [
    ("a good sample", batch(30, 23.505, 0.02)),
    ("ten pieces", batch(10, 23.505, 0.02)),
    ("five pieces", batch(5, 23.5, 0.02)),
    ("five pieces, one in a thousand allowed", batch(5, 23.5, 0.02, allowed=0.001)),
    ("five pieces, one in a thousand allowed, a lot of seven", batch(5, 23.5, 0.02, allowed=0.001, lot=7)),
    ("two pieces", batch(2, 23.5, 0.02)),
    ("one piece", batch(1, 23.5, 0.02)),
    ("one piece, all there is", batch(1, 23.5, 0.02, lot=1)),
    ("one piece above; must not pass", batch(30, 23.505, 0.02, at={12: 23.7})),
    ("one piece below; must not pass", batch(30, 23.505, 0.02, at={3: 23.3})),
    ("one piece above, all measured; must not pass", batch(30, 23.505, 0.02, at={12: 23.7}, lot=30)),
    ("just rejected: 23.6 mm and 1.65 times 0.003 mm; must not pass", batch(30, 23.505, 0.02, at={12: 23.605}, lot=30)),
    ("not yet rejected", batch(30, 23.505, 0.02, at={12: 23.6049}, lot=30)),
    ("just not accepted: 23.6 mm minus 1.65 times 0.003 mm", batch(30, 23.505, 0.02, at={12: 23.5951}, lot=30)),
    ("just accepted", batch(30, 23.505, 0.02, at={12: 23.595}, lot=30)),
    ("nothing known of the gauge; must not pass", batch(30, 23.505, 0.02, repeatability=0.0)),
    ("nothing known of the gauge, all measured; must not pass", batch(30, 23.505, 0.02, repeatability=0.0, lot=30)),
    ("somebody answers for the gauge", batch(30, 23.505, 0.02, repeatability=0.0, without=True)),
    ("the level rose by four standard deviations; must not pass", batch(30, 23.48, 0.01, shifted={15: 0.04})),
    ("the level rose, all measured and good", batch(30, 23.48, 0.01, shifted={15: 0.04}, lot=30)),
    ("two groups 0.03 mm apart; must not pass", batch(30, 23.5, 0.01, groups=[0] * 15 + [1] * 15, shifted={15: 0.03})),
    ("one piece far off", batch(30, 23.5, 0.01, at={20: 23.56})),
    ("all equal", batch(10, 23.5, 0.0)),
    ("all equal and measured", batch(10, 23.5, 0.0, lot=10)),
    ("the gauge scatters as much; must not pass", batch(30, 23.5, 0.003)),
    ("most of the variance is the gauge's", batch(30, 23.5, 0.0045)),
    ("a coarse step", batch(30, 23.5, 0.02, resolution=0.01)),
    ("off the target", batch(30, 23.53, 0.015)),
    ("off a target that is given", batch(30, 23.505, 0.02, target=23.52)),
    ("near the limit: more pieces", batch(30, 23.56, 0.016)),
    ("too near to the limit for any number", batch(30, 23.572, 0.014, lot=100000)),
    ("an index that is shown", batch(30, 23.505, 0.02, index=1.33)),
    ("an index that thirty do not show", batch(30, 23.505, 0.02, index=1.7)),
    ("an index that it does not have", batch(30, 23.505, 0.02, index=2.5, lot=100000)),
    ("bursts are asked for", batch(30, 23.505, 0.02, working=27.5)),
    ("common uncertainty of the caliper", batch(10, 23.505, 0.02, common=0.01)),
    ("a confidence of 99 %", batch(5, 23.5, 0.02, confidence=0.99)),
    # each on both sides of where it begins
    ("just under half of the variance is the gauge's", batch(30, 23.5, 0.0045, repeatability=0.00267, lot=30)),
    ("just over half of the variance is the gauge's", batch(30, 23.5, 0.0045, repeatability=0.00268, lot=30)),
    ("the gauge scatters just less than the values", batch(30, 23.5, 0.0045, repeatability=0.00377, lot=30)),
    ("the gauge scatters just more than the values", batch(30, 23.5, 0.0045, repeatability=0.00378, lot=30)),
    ("a step just under a quarter of the standard deviation", batch(30, 23.505, 0.02, resolution=0.00419, lot=30)),
    ("a step just over a quarter of the standard deviation", batch(30, 23.505, 0.02, resolution=0.0042, lot=30)),
    ("just on the target", batch(30, 23.505, 0.02, target=23.511, lot=30)),
    ("just off the target", batch(30, 23.505, 0.02, target=23.5111, lot=30)),
    ("just no outlier", batch(30, 23.505, 0.02, at={20: 23.5652}, lot=30)),
    ("just an outlier", batch(30, 23.505, 0.02, at={20: 23.5653}, lot=30)),
    ("the share is just shown", batch(30, 23.5522, 0.02)),
    ("the share is just not shown: one piece more", batch(30, 23.5523, 0.02)),
    ("the index is just shown", batch(30, 23.505, 0.02, index=1.566, lot=30)),
    ("the index is just not shown", batch(30, 23.505, 0.02, index=1.567, lot=30)),
]


# ---- the rules ------------------------------------------------------------------------------------------------------

def gauge_of(case):
    return max(case["repeatability"] ** 2, case["resolution"] ** 2 / 12), case["common"] ** 2


def pieces_judged(case):
    gauge, common = gauge_of(case)
    guard = 0.0 if case["without"] else 1.65 * math.sqrt(gauge + common)
    outside = sum(not case["lower"] - guard <= x <= case["upper"] + guard for x in case["values"])
    accepted = sum(case["lower"] + guard <= x <= case["upper"] - guard for x in case["values"])
    return outside, len(case["values"]) - outside - accepted


def scores(case):
    """Quesenberry's, from the third piece on; no standard deviation is below that of the step."""
    values, floor = case["values"], case["resolution"] / math.sqrt(12)
    for r in range(3, len(values) + 1):
        before = values[:r - 1]
        deviation = max(np.std(before, ddof=1), floor)
        if deviation > 0:
            yield stats.norm.ppf(stats.t.cdf(math.sqrt((r - 1) / r) * (values[r - 1] - np.mean(before)) / deviation, r - 2))


def chart_signals(case):
    up = down = 0.0
    for score in scores(case):
        up, down = max(0, up + score - 0.5), max(0, down - score - 0.5)
        if abs(score) > 3.5 or max(up, down) > 5:
            return True
    return False


def level_changed(values):
    """By Bonferroni's bound; a case must not lie between it and the single test."""
    n = len(values)
    if n < 4 or np.std(values) == 0:
        return False
    squares = np.var(values) * n
    between = max(j * (n - j) / n * (np.mean(values[:j]) - np.mean(values[j:])) ** 2 for j in range(1, n))
    best = 2 * stats.t.sf(math.sqrt((n - 2) * between / (squares - between)), n - 2)
    assert best > 0.01 or best * (n - 1) < 0.01, "a case between the bounds"
    return best * (n - 1) < 0.01


def confidence_of(case, n, mean, deviation, statement):
    """Confidence that statement(own, mean) > 0, which falls with the pieces' own standard deviation, averaged over the mean."""
    gauge, common = gauge_of(case)
    z, weights = np.polynomial.legendre.leggauss(120)
    z, weights = 8 * z, 8 * weights * stats.norm.pdf(8 * z)
    total = 0.0
    for at, weight in zip(z, weights):
        def value(log_own):
            own = math.exp(log_own)
            return statement(own, mean + at * math.sqrt((own ** 2 + gauge) / n + common))
        if value(-30) <= 0:
            continue
        own = math.exp(optimize.brentq(value, -30, 10))
        total += weight * stats.chi2.sf((n - 1) * deviation ** 2 / (own ** 2 + gauge), n - 1)
    return total


def share_kept(case, n, mean, deviation):
    def statement(own, centre):
        return case["allowed"] - stats.norm.cdf((case["lower"] - centre) / own) - stats.norm.sf((case["upper"] - centre) / own)
    return confidence_of(case, n, mean, deviation, statement) >= case["confidence"]


def index_kept(case, n, mean, deviation):
    """To the nearer limit, turned so that it is the upper one."""
    near = min(mean - case["lower"], case["upper"] - mean)
    return confidence_of(case, n, -near, deviation, lambda own, centre: -centre - 3 * case["index"] * own) >= case["confidence"]


def kept(case, n, mean, deviation):
    return share_kept(case, n, mean, deviation) and (case["index"] == 0 or index_kept(case, n, mean, deviation))


def number_needed(case, mean, deviation):
    low, high = max(len(case["values"]), 2), max(len(case["values"]), 2) + 1
    while not kept(case, high, mean, deviation):
        low, high = high, 2 * high
        if low >= 5000:
            return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if kept(case, middle, mean, deviation) else (middle, high)
    return high


def of_sample(case, found, sampled):
    """Findings of two pieces and more; how many more."""
    values, n = case["values"], len(case["values"])
    mean, deviation = float(np.mean(values)), float(np.std(values, ddof=1)) if len(set(values)) > 1 else 0.0
    gauge, common = gauge_of(case)
    seen = deviation ** 2 > gauge
    target = case["target"] or 0.5 * (case["lower"] + case["upper"])
    found["OFF_TARGET"] = abs(target - mean) > 2 * math.sqrt(deviation ** 2 / n + common)
    found["NO_SCATTER"] = deviation == 0
    found["GAUGE_COVERS_SCATTER"] = deviation > 0 and not seen
    found["GAUGE_WIDE"] = seen and gauge > 0.5 * deviation ** 2
    found["STEP_TOO_COARSE"] = deviation > 0 and case["resolution"] > 0.25 * deviation
    found["LEVEL_CHANGED"] = level_changed(values)
    found["NOT_NORMAL"] = n >= 8 and deviation > 0 and stats.shapiro(values).pvalue < 0.01
    if deviation > 0 and n > 2:
        grubbs = max(abs(x - mean) for x in values) / deviation
        t = stats.t.isf(0.05 / (2 * n), n - 2)
        found["OUTLIER"] = grubbs > (n - 1) / math.sqrt(n) * math.sqrt(t * t / (n - 2 + t * t))
    if case["groups"]:
        found["GROUPS_DIFFER"] = stats.f_oneway(*([x for x, g in zip(values, case["groups"]) if g == k] for k in set(case["groups"]))).pvalue < 0.01
    share_open = sampled and not (seen and n > 2 and share_kept(case, n, mean, deviation))
    index_open = case["index"] > 0 and not (seen and index_kept(case, n, mean, deviation))
    found["SHARE_NOT_SHOWN"], found["INDEX_NOT_SHOWN"] = share_open, index_open
    if not ((share_open or index_open) and sampled and seen and not found["PIECE_OUTSIDE"]):
        return 0
    number = number_needed(case, mean, deviation)
    found["CANNOT_BE_SHOWN"] = number is None
    return 0 if number is None else min(number, case["lot"]) - n


def judged(case):
    n, found = len(case["values"]), dict.fromkeys(ORDER, False)
    outside, undecided = pieces_judged(case)
    sampled = case["lot"] > n
    found["PIECE_OUTSIDE"], found["PIECES_UNDECIDED"] = outside > 0, undecided > 0
    found["GAUGE_NOT_KNOWN"] = sum(gauge_of(case)) == 0 and not case["without"]
    found["CHART_SIGNAL"], found["BURSTS_NEEDED"], found["DIAMETERS_ONLY"] = chart_signals(case), case["working"] > 0, True
    more = 0
    if n > 1:
        more = of_sample(case, found, sampled)
    else:
        found["SHARE_NOT_SHOWN"] = sampled
    in_the_way = FIRST if sampled else ("PIECES_UNDECIDED", "GAUGE_NOT_KNOWN")
    decision = "reject" if outside else "undecided" if any(found[name] for name in in_the_way) else "accept"
    return decision, [name.lower().replace("_", " ") for name in ORDER if found[name]], more


# ---- the table ------------------------------------------------------------------------------------------------------

def arguments_of(case):
    said = [f"pieces.{i}.diameter={value} mm" for i, value in enumerate(case["values"])]
    said += [f"pieces.{i}.group={group}" for i, group in enumerate(case["groups"] or []) if group]
    said += [f"question.wanted.limits.lower={case['lower']} mm", f"question.wanted.limits.upper={case['upper']} mm"]
    members = {"wanted.target": ("target", " mm"), "measuring.repeatability": ("repeatability", " mm"), "measuring.common": ("common", " mm"),
               "measuring.resolution": ("resolution", " mm"), "lot": ("lot", ""), "allowed": ("allowed", " fraction"),
               "confidence": ("confidence", " fraction"), "index": ("index", ""), "burst_aim.working": ("working", " MPa")}
    said += [f"question.{path}={case[name]}{unit}" for path, (name, unit) in members.items() if case[name]]
    return "; ".join(said + ["question.guard.without=true"] * case["without"])


def table():
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(COLUMNS)
    for source, case in CASES:
        decision, findings, more = judged(case)
        writer.writerow([arguments_of(case), decision, ", ".join(findings), more, source])
    return text.getvalue()


if __name__ == "__main__":
    if "--write" in sys.argv[1:]:
        TABLE.write_text(table(), encoding="utf-8")
    elif TABLE.read_text(encoding="utf-8") != table():
        sys.exit(f"{TABLE.name} is not what the rules say: batches.py --write, if the rules are right")
