#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""A morning with trial crimps: each one judged, and where it is wrong, how far to correct the dial and what to check.

What is not ready has neither die nor dial, is not judged and gets no correction; what was crimped all the same is looked at for
causes only.

All data are invented. Run it from anywhere: PYTHONPATH=build/release/python /usr/bin/python3 examples/trial_crimps/morning.py
"""
import itertools
import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "depot"))

import ferrule  # noqa: E402
from ferrule import show  # noqa: E402
from shop import open_shop  # noqa: E402
from tables import angle, choice, count, length, read_table, word  # noqa: E402

SET_UPS = {"set-up": word, "hose inside": length, "hose outside": length, "stem outside": length, "ferrule wall": length,
           "ferrule outside": length, "crimp diameter": length, "tolerance": length, "applies to": choice(ferrule.AppliesTo),
           "approval": choice(ferrule.Approval), "insertion": length, "gauge": word}
CRIMPS = {"set-up": word, "trial": count, "dial": length, "angle": angle, "diameter": length, "gauge": word}
LOOKS = {"set-up": word, "look": word}
FACTS = {"fact": word, "length": length}


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
            print(f"      {show.probability(suspect.probability):>8}  {suspect.cause.sentence}")
    if diagnosis.undecidable:
        print("      the first two predict the same: only a check can distinguish them")
    if not diagnosis.decided or diagnosis.first != ferrule.Cause.HEALTHY:
        print(f"      check next: {diagnosis.next_check.sentence} ({diagnosis.bits:.2f} bits)")


def is_ready(setup):
    return setup.readiness == ferrule.Readiness.READY


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
        said = f"not judged, the set-up is {show.word(setup.readiness)}"
        if is_ready(setup):
            said = f"{show.verdict(result.decision)} (conforms with {show.probability(result.verdict.conforming)})"
            self.cautions.update(result.cautions)
        print(f"   trial {rows[0]['trial']}, dial {rows[0]['dial']:.2f mm}: mean {result.summary.mean:.3f mm}, ovality "
              f"{result.summary.ovality.value:.3f mm}, {result.deviation.mm:+.3f} mm off the target: {said}")
        return result

    def correct(self, setup, trials):
        rule = ferrule.Adjusting(crimp_deviation=self.known.crimp_deviation, setting_deviation="0.15 mm")
        scale = ferrule.DialScale(self.shop.press.graduation, self.shop.press.dial_maximum)
        done = ferrule.correct_dial(scale, trials, setup.target, setup.limits.value, rule)
        self.cautions.update(done.cautions)
        advice = "leave it" if done.leave else f"set it to {done.setting:.2f mm}"
        print(f"      dial: {advice}; the next crimp is inside with {show.probability(done.probability_now.value)} as it is, "
              f"{show.probability(done.probability_next.value)} at {done.setting:.2f mm}")

    def plan(self, row):
        order = ferrule.Order(joint=joint_of(row), published=row["crimp diameter"], tolerance=row["tolerance"],
                              applies_to=row["applies to"], approval=row["approval"], insertion=row["insertion"],
                              gauge=self.shop.gauges[row["gauge"]], uncertainties=self.shop.uncertainties)
        setup = ferrule.plan_setup(order, self.shop.press, self.shop.dies)
        self.cautions.update(setup.cautions)
        print(f"\nset-up {row['set-up']}: {show.readiness(setup)}")
        for remark in show.remarks(setup):
            print(f"   {remark.heading}: {remark.text}")
        return setup

    def print_setting(self, setup):
        """Nothing while it is not ready."""
        if not show.may_be_set(setup):
            return
        setting, taken_off = show.dial(setup)
        print(f"   target {setup.target:.2f mm}, die {self.shop.die_names[setup.die.index]}, dial {setting.value.setting:.2f mm}"
              + (", springback taken off" if taken_off else ""))
        print(f"   accept {show.zone(setup, lambda end: f'{end:.3f mm}', '0.001 mm')}")

    def check_piece(self, name, result):
        """Diameter, looks and bore together: a good diameter outweighs no bad look."""
        seen = [row["look"] for row in self.looks if row["set-up"] == name]
        looks = choice(ferrule.EndLook)(seen[-1], ".") if seen else "not_done"
        found = ferrule.check_first_piece(ferrule.FirstPieceChecks(ferrule.EndChecks(ferrule.enter_inspection(result), looks)))
        self.cautions.update(found.cautions)
        print("   first piece: " + ("accepted" if found.rest_allowed else "not accepted, crimp nothing more"))
        for point in found.points:
            print(f"      {point.sentence}")

    def run(self, row):
        setup = self.plan(row)
        self.print_setting(setup)
        trials, results = [], []
        for rows in self.trials_of(row["set-up"]):
            results.append(self.judge(setup, rows))
            trials.append(ferrule.Trial(rows[0]["dial"], results[-1].summary.mean))
            if is_ready(setup) and abs(results[-1].deviation.mm) < 0.5:
                self.correct(setup, trials)
        if is_ready(setup):
            self.check_piece(row["set-up"], results[-1])
        self.explain_diameter(setup, joint_of(row), results)
        self.explain_look(row["set-up"], joint_of(row), setup, results)

    def explain_diameter(self, setup, joint, results):
        if results[-1].decision == ferrule.Decision.ACCEPT:
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
