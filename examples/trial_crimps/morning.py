#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""A morning with trial crimps: each one judged, and where it is wrong, how far to correct the dial and what to check.

All data are invented. Run it from anywhere: PYTHONPATH=build/release/python /usr/bin/python3 examples/trial_crimps/morning.py
"""
import itertools
import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "depot"))

import ferrule  # noqa: E402
from shop import open_shop  # noqa: E402
from tables import angle, count, length, read_table, word  # noqa: E402

SET_UPS = {"set-up": word, "hose inside": length, "hose outside": length, "stem outside": length, "ferrule wall": length,
           "ferrule outside": length, "crimp diameter": length, "tolerance": length}
CRIMPS = {"set-up": word, "trial": count, "dial": length, "angle": angle, "diameter": length, "gauge": word}
LOOKS = {"set-up": word, "look": word}
FACTS = {"fact": word, "length": length}
DECISIONS = {ferrule.Decision.ACCEPT: "accept", ferrule.Decision.REJECT: "reject",
             ferrule.Decision.UNDECIDED: "undecided"}


def table(name, columns):
    rows = read_table(HERE / name, columns)
    for trouble in itertools.chain.from_iterable(row.troubles for row in rows):
        print("NOT READ", trouble)
    return [row for row in rows if not row.troubles]


def joint_of(row):
    return ferrule.Joint(hose=ferrule.Hose(row["hose inside"], row["hose outside"]), stem=ferrule.Stem(row["stem outside"]),
                         ferrule=ferrule.Ferrule(row["ferrule wall"], row["ferrule outside"]))


def readings_of(rows):
    return [ferrule.Reading(diameter=row["diameter"], angle=row["angle"], angle_known=True) for row in rows]


def print_causes(suspects, diagnosis):
    for suspect in suspects[:3]:
        if suspect.probability.fraction >= 0.005:
            print(f"      {suspect.probability.percent:5.1f} %  {suspect.cause.sentence}")
    if diagnosis.undecidable:
        print("      the first two predict the same: only a check can distinguish them")
    if not diagnosis.decided or diagnosis.first != ferrule.Cause.HEALTHY:
        print(f"      check next: {diagnosis.next_check.sentence} ({diagnosis.bits:.2f} bits)")


class Morning:
    """Press, rack and what is known of them."""

    def __init__(self):
        self.shop = open_shop(HERE.parent / "depot")
        facts = {row["fact"].replace(" ", "_"): row["length"] for row in table("press_facts.csv", FACTS)}
        self.known = ferrule.Diagnosing(**facts)
        self.crimps = table("crimps.csv", CRIMPS)
        self.looks = table("looks.csv", LOOKS)
        self.cautions = set()

    def trials_of(self, name):
        rows = [row for row in self.crimps if row["set-up"] == name]
        return [list(group) for _, group in itertools.groupby(rows, key=lambda row: row["trial"])]

    def judge(self, setup, rows):
        gauge = self.shop.gauges[rows[0]["gauge"]]
        result = ferrule.inspect_crimp(setup, readings_of(rows), gauge)
        self.cautions.update(result.cautions)
        word_of = DECISIONS[result.verdict.decision]
        print(f"   trial {rows[0]['trial']}, dial {rows[0]['dial']:.2f mm}: mean {result.summary.mean:.3f mm}, ovality "
              f"{result.summary.ovality.value:.3f mm}, {result.deviation.mm:+.3f} mm off the target: {word_of} "
              f"(conforms with {result.verdict.conforming.percent:.1f} %)")
        return result

    def correct(self, setup, trials):
        rule = ferrule.Adjusting(crimp_deviation=self.known.crimp_deviation, setting_deviation="0.15 mm")
        scale = ferrule.DialScale(self.shop.press.graduation, self.shop.press.dial_maximum)
        done = ferrule.correct_dial(scale, trials, setup.target, setup.limits.value, rule)
        self.cautions.update(done.cautions)
        advice = "leave it" if done.leave else f"set it to {done.setting:.2f mm}"
        print(f"      dial: {advice}; the next crimp is inside with {done.probability_now.value.percent:.0f} % as it is, "
              f"{done.probability_next.value.percent:.0f} % at {done.setting:.2f mm}")

    def run(self, row):
        joint = joint_of(row)
        order = ferrule.Order(joint=joint, published=row["crimp diameter"], tolerance=row["tolerance"])
        setup = ferrule.plan_setup(order, self.shop.press, self.shop.dies)
        self.cautions.update(setup.cautions)
        die = self.shop.die_names[setup.die.index]
        print(f"\nset-up {row['set-up']}: target {setup.target:.2f mm}, die {die}, dial {setup.dial.value.setting:.2f mm}")
        trials, results = [], []
        for rows in self.trials_of(row["set-up"]):
            results.append(self.judge(setup, rows))
            trials.append(ferrule.Trial(rows[0]["dial"], results[-1].summary.mean))
            if abs(results[-1].deviation.mm) < 0.5:
                self.correct(setup, trials)
        self.explain_diameter(setup, joint, results)
        self.explain_look(row["set-up"], joint, setup, results)

    def explain_diameter(self, setup, joint, results):
        if results[-1].verdict.decision == ferrule.Decision.ACCEPT:
            return
        pieces = [ferrule.Piece(r.summary.mean, r.summary.standard_uncertainty) for r in results]
        known = self.known.replace(uncrimped=joint.ferrule.outside)
        print("   causes of the diameter:")
        print_causes(*ferrule.diagnose_diameter(setup, self.shop.press, self.shop.dies, pieces, [], known))

    def explain_look(self, name, joint, setup, results):
        looks = [ferrule.Look(kind=row["look"]) for row in self.looks if row["set-up"] == name]
        if looks:
            print("   seen on the pieces: " + ", ".join(row["look"] for row in self.looks if row["set-up"] == name))
            print("   causes of the look:")
            print_causes(*ferrule.diagnose_look(joint, setup, results[-1].summary.mean, looks, []))


def main():
    print("Trial crimps of a morning. All data are invented: do not crimp anything by them.")
    morning = Morning()
    for row in table("set_ups.csv", SET_UPS):
        morning.run(row)
    print()
    for caution in sorted(morning.cautions):
        print("-", ferrule.caution_text(caution))


if __name__ == "__main__":
    main()
