# SPDX-License-Identifier: MIT
"""Rows of diagnosis.h."""
from catalogue.shared import *  # noqa: F403

row("fer_usual_weight", """an opinion, from memory: above none
>>> usual_weight("other die") > percent(0)
True
""", cause=(0, 9))

row("fer_diagnose_diameter", """26.51 - 23.51 = 25 - 22: the die beside it
>>> press, dies = Press(graduation="0.05 mm"), ["19 mm", "22 mm", "25 mm"]
>>> setup = plan_setup(Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), press, dies)
>>> suspects, diagnosis = diagnose_diameter(setup, press, dies, ["26.5 mm"], [])
>>> suspects[0].cause.name, dies[suspects[0].die_index]
('OTHER_DIE', '25 mm')
""")

RACK = [f.Die(size=mm(size)) for size in (16, 19, 22, 25)]

PRESS = f.Press(graduation=mm(0.05), segments=8)


def weights(rng, names):
    """Priors for these causes; all others are left out."""
    drawn = {cause: rng.uniform(0.1, 10) if cause in names else 0.0 for cause in f.Cause.__members__}
    return drawn, [f.Prior(cause, f.fraction(weight)) for cause, weight in drawn.items()]


def posterior(drawn, likelihoods, suspects):
    total = sum(mpf(drawn[cause]) * likelihoods[cause] for cause in likelihoods)
    return {"probability, absolute": max(
        ((s.probability.fraction, mpf(drawn[s.cause.name]) * likelihoods[s.cause.name] / total, mpf(1)) for s in suspects),
        key=lambda pair: abs(mpf(pair[0]) - pair[1]))}


def bell(x, mean, variance):
    return exp(-(x - mean) ** 2 / (2 * variance)) / sqrt(2 * pi * variance)


@case("fer_diagnose_diameter", "relative", 1e-12, 0.05)
def diagnose_diameter(rng):
    """Bayes' rule by hand over causes whose prediction is a number and a standard deviation."""
    setup = f.plan_setup(WORKED, PRESS, RACK)
    drawn, priors = weights(rng, ("HEALTHY", "NONE_OF_THESE", "OTHER_DIE", "DIAL_ONE_STEP", "SPRINGBACK_LEFT_OUT", "PRESS_DRIFT",
                                  "GAUGE_ZERO"))
    tau, zero, drift, nothing, spring, common, crimp_sd = (10 ** rng.uniform(-2, -0.5) for _ in range(7))
    expected = setup.dial.value.expected.mm
    pieces = [(expected + rng.gauss(0, 0.3), rng.choice([0.0, 0.01])) for _ in range(rng.randint(1, 5))]
    known = f.Diagnosing(crimp_deviation=mm(crimp_sd), setting_deviation=mm(tau), gauge_uncertainty=mm(common), drift_deviation=mm(drift),
                         gauge_zero_deviation=mm(zero), none_half_width=mm(nothing), springback=mm(spring))
    suspects, found = f.diagnose_diameter(setup, PRESS, RACK, [f.Piece(mm(d), mm(u)) for d, u in pieces], priors, known)
    each = [(mpf(d) - mpf(expected), 1 / (mpf(crimp_sd) ** 2 + mpf(u) ** 2)) for d, u in pieces]
    total = sum(w for _, w in each)
    seen, variance = sum(w * d for d, w in each) / total, 1 / total + mpf(tau) ** 2 + mpf(common) ** 2
    away = [mpf(die.size.mm) - 22 for die in RACK if die.size.mm != 22]
    likelihoods = {
        "HEALTHY": bell(seen, 0, variance),
        "NONE_OF_THESE": mpf(nothing) / (pi * (mpf(nothing) ** 2 + seen**2)),
        "OTHER_DIE": sum(bell(seen, d, variance) / (1 + abs(d)) for d in away) / sum(1 / (1 + abs(d)) for d in away),
        "DIAL_ONE_STEP": (bell(seen, mpf(0.05), variance) + bell(seen, -mpf(0.05), variance)) / 2,
        "SPRINGBACK_LEFT_OUT": bell(seen, mpf(spring), variance),
        "PRESS_DRIFT": bell(seen, 0, variance + mpf(drift) ** 2),
        "GAUGE_ZERO": bell(seen, 0, variance + mpf(zero) ** 2)}
    return {**posterior(drawn, likelihoods, suspects),
            "standard_uncertainty": (found.standard_uncertainty.mm, sqrt(variance))}


row("fer_diagnose_look", """the probabilities of all causes together are 1
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> suspects, diagnosis = diagnose_look(joint, plan_setup(joint, Press(), ["22 mm"]), "23.51 mm", ["too loose"], [])
>>> f"{sum(suspect.probability.fraction for suspect in suspects):.6f}"
'1.000000'
""")


@case("fer_diagnose_look", "relative", 1e-10, 0.01)
def diagnose_look(rng):
    """The likelihood of each look, integrated over the compressions that a cause leaves possible."""
    setup = f.plan_setup(WORKED, PRESS, RACK)
    drawn, priors = weights(rng, ("HEALTHY", "HOSE_OVER_COVER", "HOSE_SKIVED", "STEM_BETWEEN_RIDGES", "WALL_TWICE", "WALL_ON_RIDGE"))
    cover, ridge, u = rng.uniform(0.5, 1.2), rng.uniform(0.2, 0.7), rng.uniform(0.005, 0.05)
    looks = [(rng.choice(("TOO_TIGHT", "TOO_LOOSE", "GOOD", "MEASURED")), rng.uniform(0.05, 0.4), rng.choice([0.0, 0.03]))
             for _ in range(rng.randint(1, 3))]
    diameter = rng.uniform(23, 24)
    suspects, _ = f.diagnose_look(WORKED, setup, mm(diameter), [f.Look(kind, f.fraction(c), f.fraction(v)) for kind, c, v in looks], priors,
                                  f.Looking(cover=mm(cover), ridge=mm(ridge), uncertainty=f.fraction(u)))
    lower, upper = mpf(setup.range.lower.fraction), mpf(setup.range.upper.fraction)

    def look(kind, c, v, x):
        v = mpf(v or 0.02)
        tight, loose = ref.ncdf((x - upper) / v), ref.ncdf((lower - x) / v)
        return {"TOO_TIGHT": tight, "TOO_LOOSE": loose, "GOOD": (1 - tight) * (1 - loose),
                "MEASURED": exp(-((mpf(c) - x) / v) ** 2 / 2)}[kind]

    def likelihood(inside, outside, stem, wall):
        hose = mpf(outside) - mpf(inside)
        mean = (hose - mpf(diameter) + 2 * mpf(wall) + mpf(stem)) / hose

        def density(x):
            product = bell(x, mean, mpf(u) ** 2)
            for kind, c, v in looks:
                product *= look(kind, c, v, x)
            return product
        # sums over even steps are exact to 20 digits for bells that are wide against the step
        step = min(mpf(u), mpf("0.02")) / 5
        with mp.workprec(90):
            reach = int(11 * mpf(u) / step)
            return step * sum(density(mean + k * step) for k in range(-reach, reach + 1))
    di, do, s, w = (mpf(x) for x in (12.7, 19.9, 12.95, 2.4))
    likelihoods = {"HEALTHY": likelihood(di, do, s, w), "HOSE_OVER_COVER": likelihood(di, do - 2 * mpf(cover), s, w),
                   "HOSE_SKIVED": likelihood(di, do + 2 * mpf(cover), s, w),
                   "STEM_BETWEEN_RIDGES": likelihood(di, do, s + 2 * mpf(ridge), w), "WALL_TWICE": likelihood(di, do, s, w / 2),
                   "WALL_ON_RIDGE": likelihood(di, do, s, w - mpf(ridge))}
    return posterior(drawn, likelihoods, suspects)


row("fer_learn_priors", """usual weight 80 and 25 pieces, by hand
>>> priors = learn_priors([RecordedCause("healthy", 20), RecordedCause("healthy", 5), RecordedCause("press drift", 7)], "100 %")
>>> priors[0].weight.fraction
105.0
""", judged="a sum: by hand in tests/unit", records=[{"cause": n, "pieces": (0, 40)} for n in range(0, 24, 3)], trust=(0.125, 4))


row("fer_cause_name", """the name is the word itself
>>> cause_name(Cause.OTHER_DIE)
'OTHER_DIE'
""", cause=(0, 9))

row("fer_cause_sentence", """a sentence without a full stop
>>> cause_sentence("other die").endswith(".")
False
""", cause=(0, 9))

row("fer_check_name", """the name is the word itself
>>> check_name("read die")
'READ_DIE'
""", check=(0, 9))

row("fer_check_sentence", """a sentence without a full stop
>>> check_sentence("read die").endswith(".")
False
""", check=(0, 9))
