# SPDX-License-Identifier: MIT
"""Rows of window.h."""
from catalogue.shared import *  # noqa: F403

row("fer_crimp_window", """12.95 + 4.8 + 7.2 × 0.75 and × 0.85, by hand
>>> window = crimp_window(Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), ("15 %", "25 %"))
>>> f"{window.lower:.2f mm} to {window.upper:.2f mm}"
'23.15 mm to 23.87 mm'
""", joint=JOINT, range=RANGE, model=MODEL)


@case("fer_crimp_window", "ulp", 2)
def crimp_window(rng):
    numbers, j = joint(rng)
    low, high = sorted((share(rng), share(rng)))
    found = f.crimp_window(j, (f.fraction(low), f.fraction(high)))
    walls, s, w = mpf(numbers["do"]) - mpf(numbers["di"]), mpf(numbers["s"]), mpf(numbers["wall"])
    return {"lower": (found.lower.mm, s + 2 * w + (1 - mpf(high)) * walls),
            "upper": (found.upper.mm, s + 2 * w + (1 - mpf(low)) * walls)}


row("fer_best_target", """worked figures 23.49794 and 0.994227
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> uncertainties = Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm", diameter="0.05 mm")
>>> target, share = best_target(joint, uncertainties, ("15 %", "25 %"))
>>> f"{target:.4f mm}, {share.inside:.2f %}"
'23.4979 mm, 99.42 %'
""", judged="under fer_cheapest_target", joint=JOINT, uncertainties=UNCERTAINTIES, range=RANGE)

row("fer_cheapest_target", """equal costs: the best target, a worked figure
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> uncertainties = Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm", diameter="0.05 mm")
>>> f"{cheapest_target(joint, uncertainties, ('15 %', '25 %'), 1, 1)[0]:.4f mm}"
'23.4979 mm'
""", joint=JOINT, uncertainties=UNCERTAINTIES, range=RANGE, cost_too_loose=(1, 8), cost_too_tight=(1, 8))


@case("fer_cheapest_target", "relative", 1e-13)
def cheapest_target(rng):
    numbers, j = shop_joint(rng)
    amounts, r, uncertainties = normal_uncertainties(rng, numbers)
    low, high = rng.uniform(0.05, 0.2), rng.uniform(0.21, 0.4)
    loose, tight = (1.0, 1.0) if rng.random() < 0.5 else (10 ** rng.uniform(-2, 2), 10 ** rng.uniform(-2, 2))
    call = f.best_target if loose == tight else f.cheapest_target
    costs = () if loose == tight else (loose, tight)
    found, _ = call(j, uncertainties, (f.fraction(low), f.fraction(high)), *costs)
    a, sigma_a = margins(numbers, amounts, r, low)
    c, sigma_c = margins(numbers, amounts, r, high)
    # equal densities: loose N(D; a, sigma_a) = tight N(D; c, sigma_c), solved by Newton's rule from the library's answer
    d = mpf(found.mm)
    for _ in range(6):
        miss = (log(mpf(loose) / sigma_a) - ((d - a) / sigma_a) ** 2 / 2
                - log(mpf(tight) / sigma_c) + ((d - c) / sigma_c) ** 2 / 2)
        slope = -(d - a) / sigma_a**2 + (d - c) / sigma_c**2
        d -= miss / slope
    return {"best_target" if loose == tight else "cheapest_target": (found.mm, d)}


row("fer_best_graduated_target", """the step of 0.05 mm that is nearest to the worked figure 23.49794
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> uncertainties = Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm", diameter="0.05 mm")
>>> f"{best_graduated_target(joint, uncertainties, ('15 %', '25 %'), '22 mm', '0.05 mm')[0]:.2f mm}"
'23.50 mm'
""", joint=JOINT, uncertainties=UNCERTAINTIES, range=RANGE, anchor=(15, 25), graduation=0.1)


@case("fer_best_graduated_target", "relative", 1e-13, 0.1)
def best_graduated_target(rng):
    """Yield at the step that was chosen by that at the best one, by brute force over the steps between the limits."""
    numbers, j = shop_joint(rng)
    amounts, r, uncertainties = normal_uncertainties(rng, numbers)
    low, high = rng.uniform(0.05, 0.2), rng.uniform(0.21, 0.4)
    a, sigma_a = margins(numbers, amounts, r, low)
    c, sigma_c = margins(numbers, amounts, r, high)
    anchor, step = round(float(c), 1), rng.choice([0.01, 0.05, 0.1, 0.127])
    found, _ = f.best_graduated_target(j, uncertainties, (f.fraction(low), f.fraction(high)), mm(anchor), mm(step))

    def inside(diameter):
        return 1 - ref.ncdf((diameter - a) / sigma_a) - ref.ncdf((c - diameter) / sigma_c)
    first, last = math.floor((float(c) - anchor) / step) - 2, math.ceil((float(a) - anchor) / step) + 2
    best = max(inside(mpf(anchor) + k * mpf(step)) for k in range(first, last + 1))
    return {"share by the best share, absolute": (float(inside(mpf(found.mm))), best, mpf(1))}
