# SPDX-License-Identifier: MIT
"""Bad input: the error names function, value and rule, and nothing is left behind after a hundred thousand of them."""
import gc
import math
import resource
import sys

import pytest

import ferrule
from ferrule import Gauge, Joint, Model, mm, percent

JOINT = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
SETUP = ferrule.plan_setup(JOINT, ferrule.Press(), ["19 mm"]).to_dict()
del SETUP["remarks"]
EMPTY_TALLY = {"centre": "20 %", "scale": "1 %", "coverage": "95 %", "range": ("15 %", "25 %"), "count": (0,) * 6, **dict.fromkeys(
    ["mean", "deviation", "low", "high"], ((0, 0), (0, 0)))}
# kind of trouble: call, class, function, value, rule
BAD = {
    "no unit in text": (lambda: ferrule.crimp_diameter(JOINT, "20"), ferrule.TextError, "crimp_diameter: compression", "'20'",
                        "a number without a unit"),
    "no unit": (lambda: ferrule.crimp_diameter(JOINT, 20), TypeError, "crimp_diameter: compression", "not 20", "needs a unit"),
    "unit of another kind": (lambda: ferrule.crimp_diameter(JOINT, "20 bar"), ferrule.TextError, "crimp_diameter: compression",
                             "'20 bar'", "the unit belongs to another kind"),
    "another kind": (lambda: ferrule.crimp_diameter(JOINT, mm(3)), TypeError, "crimp_diameter: compression", 'Length("3 mm")',
                     "has to be a Ratio"),
    "not a number": (lambda: ferrule.crimp_diameter(JOINT, percent(math.nan)), ferrule.CompressionError, "crimp_diameter", "nan",
                     "not a finite number"),
    "infinite": (lambda: ferrule.compression(JOINT, mm(math.inf)), ferrule.DiameterError, "compression", "inf", "crimp diameter"),
    "not a number in text": (lambda: ferrule.crimp_diameter(JOINT, "nan %"), ferrule.TextError, "crimp_diameter", "'nan %'",
                             "does not begin with a number"),
    "empty list": (lambda: ferrule.summarise_readings([], Gauge()), ferrule.ArgumentError, "summarise_readings", "readings: []",
                   "must not be empty"),
    "short list": (lambda: ferrule.fit_calibration([("1 mm", "1 mm")]), ferrule.CalibrationError, "fit_calibration", "points: [",
                   "at least three points"),
    "no list": (lambda: ferrule.choose_die(3, "23 mm"), TypeError, "choose_die: dies", "not 3", "has to be a list"),
    "text for a list": (lambda: ferrule.choose_die("22 mm", "23 mm"), TypeError, "choose_die: dies", "not '22 mm'", "has to be a list"),
    "bad item of a list": (lambda: ferrule.choose_die(["16 mm", "19"], "23 mm"), ferrule.TextError, "choose_die: dies[1]", "'19'",
                           "a number without a unit"),
    "too long text": (lambda: ferrule.crimp_diameter(JOINT, "9" * 5000 + " %"), ferrule.TextError, "crimp_diameter: compression",
                      "'99999", "longer than"),
    "too long word": (lambda: Model(basis="x" * 5000), TypeError, "Model: basis", "'xxxxx", "has to be one of"),
    "zero byte": (lambda: ferrule.crimp_diameter(JOINT, "20 %\0"), ferrule.TextError, "crimp_diameter: compression", "'20 %\\x00'",
                  "the unit is not one of those known"),
    "zero byte in a word": (lambda: Model(basis="wall\0"), TypeError, "Model: basis", "'wall\\x00'", "has to be one of"),
    "no text": (lambda: ferrule.crimp_diameter(JOINT, ""), ferrule.TextError, "crimp_diameter: compression", "''", "there is no text"),
    "half a letter": (lambda: ferrule.crimp_diameter(JOINT, "20 \ud800"), ValueError, "", "\\ud800", "surrogates not allowed"),
    "too few": (lambda: ferrule.crimp_diameter(JOINT), TypeError, "crimp_diameter()", "'compression'", "missing"),
    "too many": (lambda: ferrule.crimp_diameter(JOINT, "20 %", None, 4), TypeError, "crimp_diameter()", "4 given", "at most 3"),
    "unknown name": (lambda: ferrule.crimp_diameter(JOINT, "20 %", modell=3), TypeError, "crimp_diameter", "'modell'", "keyword"),
    "unknown member": (lambda: ferrule.Hose(insde="1 mm", outside="2 mm"), TypeError, "Hose", "'insde'", "its members are"),
    # Of values that only the call holds, some are looked at when it fails: at every depth, in each way in.
    "dict in a dict": (lambda: ferrule.check_joint({"hose": {"inside": mm(12.7), "outside": [mm(19.9)]}, "stem": mm(13), "ferrule": mm(1)}),
                       TypeError, "check_joint: joint.hose.outside", 'Length("19.9 mm")', "has to be a Length"),
    "dict in a list": (lambda: ferrule.choose_die(iter([mm(16), {"size": [mm(19)]}]), mm(23)), TypeError, "choose_die: dies[1].size",
                       'Length("19 mm")', "has to be a Length"),
    "dict in a constructor": (lambda: Joint({"inside": mm(12.7), "outside": [mm(19.9)]}, mm(13), mm(1)), TypeError,
                              "Joint: hose.outside", 'Length("19.9 mm")', "has to be a Length"),
    "dict in a change": (lambda: JOINT.replace(hose={"inside": [mm(1.5)]}), TypeError, "Joint: hose.inside", 'Length("1.5 mm")',
                         "has to be a Length"),
    "word in a set": (lambda: ferrule.Setup(remarks=iter(["NO_DIE", ["x"]]), **SETUP), TypeError, "Setup: remarks[1]", "['x']", "has to be a word of Remark"),
    "status about a dict": (lambda: ferrule.check_joint({"hose": {"inside": mm(12.7), "outside": mm(9.25)}, "stem": mm(13), "ferrule": mm(1)}),
                            ferrule.HoseError, "check_joint", 'outside="9.25 mm"', "not above"),
    # The iterator is empty when the message is made, so that this fails as well.
    "status about an iterator": (lambda: ferrule.find_tally_quantile({**EMPTY_TALLY, "classes": iter([0] * ferrule.TALLY_CLASSES)}, "50 %"),
                                 ferrule.TallyError, "find_tally_quantile", "tally: ", ""),
    "half of a whole number": (lambda: ferrule.lobe_height("41 mm", "40 mm", 8.5), TypeError, "lobe_height: segments", "8.5",
                               "has to be a whole number"),
}


@pytest.mark.parametrize("trouble", BAD)
def test_the_error_says_function_value_and_rule(trouble):
    call, kind, function, value, rule = BAD[trouble]
    with pytest.raises(kind) as caught:
        call()
    said = str(caught.value)
    assert type(caught.value) is kind or kind is ValueError
    assert function in said and value in said and rule in said, said
    assert "\n" not in said and len(said) < 600


def test_a_hundred_thousand_errors_leave_nothing():
    def fail(times):
        for _ in range(times):
            for call, kind, *_ in BAD.values():
                try:
                    call()
                except kind:
                    continue
                raise AssertionError("no error")

    def state():
        gc.collect()
        return sys.getallocatedblocks(), resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    fail(300)
    grown = []
    blocks, memory = state()
    for _ in range(4):  # what was imported before may make caches meanwhile, but not each time
        fail(100000 // len(BAD) // 4 + 1)
        more_blocks, more_memory = state()
        grown.append((more_blocks - blocks, more_memory - memory))
        blocks, memory = more_blocks, more_memory
    assert min(b for b, _ in grown) < 200 and min(m for _, m in grown) < 2000  # kB
