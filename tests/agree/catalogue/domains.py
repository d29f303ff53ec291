# SPDX-License-Identifier: MIT
"""From where an argument is drawn. Numbers are in the base unit of the argument: mm, MPa, N, rad, fraction, degrees Celsius.

    12.5                     always this
    (3, 64)                  evenly from 3 to 64, the ends among them; whole for a whole number
    wide(0.01, 1e5)          over orders of magnitude
    any_of("NONE", "ENDS_FREE")   one of these: words of an enum, or numbers
    plus("die_size", 0, 2)   another argument and from 0 to 2 more; the sum of several: plus("hose.outside", "wall", 0, 2).
                             A path begins in the innermost struct that has its first word, and names what stands before it
    {"size": (10, 60)}       a struct: its members; those left out are 0
    [domain, domain]         an array of two
    repeated(5, domain)      an array of five

A struct's domain can have a name (JOINT) and be changed: {**JOINT, "hose": HOSE}.
"""
import math


class wide(tuple):
    def __new__(cls, low, high):
        assert 0 < low < high
        return super().__new__(cls, (low, high))

    def draw(self, rng):
        if rng.random() < 0.05:
            return float(rng.choice(self))
        return min(max(10 ** rng.uniform(*map(math.log10, self)), self[0]), self[1])


class any_of(tuple):
    def __new__(cls, *choices):
        return super().__new__(cls, choices)

    def draw(self, rng):
        return rng.choice(self)


class plus(tuple):
    def __new__(cls, *others_low_high):
        return super().__new__(cls, others_low_high)


def repeated(count, domain):
    return [domain] * count


# ---- structs of more than one module --------------------------------------------------------------------------------

HOSE = {"inside": (6, 40), "outside": plus("inside", 4, 12), "reinforcement": (0.25, 1.5)}
STEM = {"outside": plus("hose.inside", -0.25, 0.75), "bore": plus("outside", -4, -1)}
JOINT = {"hose": HOSE, "stem": STEM, "ferrule": {
    "wall": (1, 3), "outside": plus("hose.outside", "wall", "wall", 0.5, 1.5), "length": (20, 60)}}
CRIMPED = plus("joint.hose.outside", "joint.ferrule.wall", "joint.ferrule.wall", -1.2, -0.75)  # diameter at 5 % to 35 %
MODEL = {"basis": any_of("WALL", "FITTED_WALL", "SOFT_WALL", "AREA"), "flow": any_of("NONE", "ENDS_FIXED", "ENDS_FREE")}
FERRULE = {"wall": (1, 3), "outside": (20, 60), "length": (20, 60)}
STEEL = {"elastic_modulus": (190e3, 215e3), "poisson": (0.25, 0.33), "yield_strength": (200, 500), "hardening": (0, 900)}
RANGE = {"lower": (0.0625, 0.125), "upper": (0.25, 0.375)}
UNCERTAINTIES = {name: {"amount": (0.01, 0.125)} for name in ("hose_inside", "hose_outside", "stem_outside", "ferrule_wall", "diameter")}
LIMITED = {name: {"amount": (0.01, 0.125), "distribution": any_of("RECTANGULAR", "TRIANGULAR")} for name in UNCERTAINTIES}
DIE = {"size": (10, 60)}
RACK = [{"size": (16, 17), "reach": (1, 4)}, {"size": (18, 19)}, {"size": (22, 23)}, {"size": (25, 26), "reach": (5, 6)}]
PRESS = {"graduation": any_of(0.0, 0.05), "correction": (-0.25, 0.25), "opening": (20, 40), "capacity": (5e5, 3e6),
         "segments": any_of(6, 8, 12)}
DEMANDS = [{"target": (19, 20), "weight": (1, 9)}, {"target": (25, 30), "weight": (1, 9)}, {"target": (23, 24), "margin": any_of(0.0, 0.5)}]
OFFERS = [{"die": {"size": (18, 19), "reach": (4, 9)}, "price": (1, 5)}, {"die": {"size": (22, 24)}, "price": (1, 5)}]
JOBS = [{"target": (23, 24), "reel": any_of(1, 2), "bin": any_of(1, 2), "work_seconds": any_of(0, 600), "due_seconds": any_of(0, 0, 900, 3600)},
        {"target": (25, 26), "reel": any_of(1, 2), "bin": any_of(1, 2)}, {"target": (19, 31), "lobe_maximum": any_of(0.0, 0.1)},
        {"target": (23, 24), "reel": any_of(1, 2), "bin": any_of(1, 2), "widest": (30, 60), "work_seconds": any_of(0, 300)}]
CHANGE_TIMES = {"adapter_seconds": any_of(0, 480), "die_seconds": any_of(0, 240), "dial_seconds": any_of(60, 180),
                "reel_seconds": any_of(0, 90), "bin_seconds": any_of(0, 30)}
MOUNTED = {"die_mounted": any_of(0, 1), "die": any_of(0, 1, 2), "setting": any_of(0.0, 1.5), "reel": any_of(1, 2), "bin": any_of(1, 2)}
OUTCOME = any_of("NOT_DONE", "PASSED", "PASSED", "FAILED", "UNDECIDED")
END = {"diameter": {"outcome": OUTCOME, "limit": any_of("NOT_STATED", "NOT_STATED", "NOT_STATED", "UPPER"),
                    "by_sample": any_of(0, 0, 1), "read_again": (0, 1)},
       "looks": any_of("NOT_DONE", "GOOD", "GOOD", "TOO_TIGHT", "TOO_LOOSE", "DAMAGED", "UNDECIDED"),
       "insertion": OUTCOME, "bore": OUTCOME}
CHECKS = {"first": END, "second": END, "hose_age": (0, 60), "straight": (0, 1),
          **{name: OUTCOME for name in ("parts", "length", "orientation", "cleanliness", "marking")},
          "proof": {"pressure": OUTCOME, "leak": OUTCOME, "movement": OUTCOME, "rig_leak": any_of(0, 0, 1)}}

# ---- assemblies

HOSE_END = {"cut_off": wide(1, 100), "growth": (-2, 2)}
LENGTH_CHANGE = {"lower": (-0.1, -0.01), "upper": (0, 0.1)}
BEND = {"bend_radius": wide(10, 1000), "hose_outside": wide(5, 80)}
RATED = {"hose": (30, 40), "first": (30, 40), "second": (30, 40), "asked": any_of(0.0, 25.0), "allowed": any_of(0.0, 900.0)}
# Corners far enough apart for any bend drawn here; elbows well off the hose's direction.
ROUTE = [{"x": (-9, 9), "y": (-9, 9), "z": (-9, 9)}, {"x": (400, 500), "y": (-9, 90), "z": (-90, 9)},
         {"x": (500, 900), "y": (400, 500), "z": (-90, 90)}, {"x": (500, 900), "y": (500, 600), "z": (400, 900)}]

# ---- samples, and what is asked of them

SAMPLE_PIECES = repeated(12, {"diameter": (23.4, 23.6), "group": any_of(0, 1, 2)})
SAMPLE_SUMMARY = {"count": (3, 60), "groups": 1, "mean": (23.45, 23.55), "scatter": {"value": (0.02, 0.05)}, "within": {"value": (0.02, 0.05)},
           "within_degrees": (1, 3), "log_mean": (3.155, 3.16), "log_deviation": (0.001, 0.002)}
MEASURING = {"repeatability": any_of(0.0, 0.01, 0.015), "repeatability_degrees": any_of(0.0, 0.0, 20.0), "common": any_of(0.0, 0.005),
             "resolution": any_of(0.0, 0.01)}
WANTED = {"limits": {"lower": (23.3, 23.4), "upper": (23.6, 23.7)}, "side": any_of("BOTH", "BOTH", "LOWER", "UPPER")}
BATCH_CONFIDENCE = (0.6, 0.99)
# Figures that fit together: a ferrule of the worked joint closed by some 170 kN on its hose, by some 125 kN without one.
TWIN_FERRULE = {"wall": 2.4, "outside": 25.6}
HOSE_CLOSING = {"force": (165e3, 190e3), "diameter": (23.5, 23.6), "before": 24.0, "after": (24.9, 25.3)}
BARE_CLOSING = {"force": (115e3, 130e3), "diameter": (23.5, 23.6), "before": 24.0, "after": (25.2, 25.39)}
CLOSING_UNCERTAINTIES = {"force": (0, 0.02), "scale": (0, 0.1), "yield_strength": (0, 0.1),
                         "diameter": (0, 0.05), "wall": (0, 0.03), "length": (0, 0.05)}
PLAN = {"pieces": (20, 80), "accept": (0, 9), "lot": any_of(0, 0, 100, 5000)}
PLAN_AIM = {"good": (0.001, 0.05), "producer_risk": any_of(0.0, 0.02, 0.1), "bad": (0.1, 0.4), "consumer_risk": any_of(0.0, 0.02, 0.2),
            "lot": any_of(0, 0, 200)}
BURST_AIM = {"working": (20, 28), "multiple": any_of(0.0, 3.0, 4.0), "share": any_of(0.0, 0.8, 0.99), "confidence": any_of(0.0, 0.7, 0.95)}

# ---- charts

LIMIT_RULE = {"basis": any_of("PLAIN", "EXPECTED", "ASSURED"), "false_alarms": any_of(0.0, 0.01), "assurance": any_of(0.0, 0.95)}
GROUPED_PIECES = [{"diameter": (23.4, 23.6), "group": n // 3} for n in range(12)]
CHART_KINDS = any_of("MEANS_BY_RANGE", "MEANS_BY_DEVIATION", "SINGLES_BY_RANGE", "SINGLES_BY_DEVIATION")
CHARTING = {"weight": any_of(0.0, 0.2), "limit": any_of(0.0, 2.7), "allowance": any_of(0.0, 0.5), "decision": any_of(0.0, 4.0),
            "beyond": any_of(0.0, 2.0), "two_of_three": (0, 1), "four_of_five": (0, 1), "same_side": any_of(0, 3), "rising": any_of(0, 3),
            "alternating": any_of(0, 4), "inside": any_of(0, 3), "outside": any_of(0, 2), "deviation": any_of(0.0, 0.03),
            "resolution": any_of(0.0, 0.01)}
CHART_POINT = {"score": (-2.0, 2.0), "ewma": (-0.5, 0.5), "ewma_limit": 1.0, "up": (0.0, 2.0), "down": (0.0, 2.0), "kind": 0, "count": (3, 9),
         "mean": (23.4, 23.6), "scatter": (0.02, 0.05), "scored": (6, 7), "last_score": (-2.0, 2.0), "history": (0, 4095), "side_run": (-3, 3),
         "trend_run": (-3, 3), "alternating_run": (0, 3), "inside_run": (0, 3), "outside_run": (0, 3)}
RUN_CHARTING = {"weight": any_of(0.0, 0.1, 0.3), "limit": any_of(0.0, 2.7), "allowance": any_of(0.0, 0.0, 0.5), "decision": any_of(0.0, 4.0),
        "beyond": any_of(0.0, 0.0, 3.0), "two_of_three": any_of(0, 0, 1), "same_side": any_of(0, 0, 8)}
