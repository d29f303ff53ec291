# SPDX-License-Identifier: MIT
"""Rows of uncertainties.h."""
from catalogue.shared import *  # noqa: F403

row("Uncertainties", """a bare length is a standard uncertainty of a normal distribution
>>> Uncertainties(hose_outside="0.1 mm").hose_outside
Uncertainty(amount="0.1 mm")
""")

row("fer_uncertainty_budget", """worked figure
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> uncertainties = Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm", diameter="0.05 mm")
>>> f"{uncertainty_budget(joint, uncertainties, '23.51 mm', '95 %').standard_uncertainty:.1f %}"
'1.8 %'
""", joint=JOINT, diameter=CRIMPED, uncertainties=UNCERTAINTIES, coverage=0.95, model=MODEL)


@case("fer_uncertainty_budget", "relative", 1e-12, 0.1)
def uncertainty_budget(rng):
    numbers, j = shop_joint(rng)
    basis, flow = rng.choice(BASES), rng.choice(("none", "ends_fixed", "ends_free"))
    model = f.Model(basis=basis.replace(" ", "_").upper(), flow=flow.upper())
    diameter = f.crimp_diameter(j, f.fraction(rng.uniform(0.1, 0.4)), model).mm
    if jumps(numbers):
        return None
    amounts, r, uncertainties = normal_uncertainties(rng, numbers)
    found = f.uncertainty_budget(j, uncertainties, mm(diameter), f.fraction(0.95), model)
    slopes = compression_slopes(numbers, diameter, basis, flow)
    parts = {name: slopes[key] * mpf(amounts[name]) for name, key in zip(INPUTS, KEYS)}
    square = sum(x**2 for x in parts.values()) + 2 * mpf(r) * parts["hose_inside"] * parts["hose_outside"]
    factor = sqrt(mpf(2)) * mp.erfinv(mpf(0.95))
    return {"standard_uncertainty": (found.standard_uncertainty.fraction, sqrt(square)),
            "expanded_uncertainty": (found.expanded_uncertainty.fraction, sqrt(square) * factor)}


@case("fer_uncertainty_budget", "relative", 1e-13, 0.05)
def coverage_factor(rng):
    degrees = rng.choice([0, 1, 2, rng.randint(3, 100), 10 ** rng.randint(3, 9)])
    coverage = share(rng)
    tail = 0.5 * (1 - coverage)
    uncertainties = f.Uncertainties(diameter=f.Uncertainty(mm(0.1), degrees_of_freedom=degrees))
    found = f.uncertainty_budget(WORKED, uncertainties, mm(23.51), f.fraction(coverage)).coverage_factor
    exact = quantile(tail, degrees)
    return {"coverage_factor, Student" if degrees else "coverage_factor, normal": (found, exact, max(exact, mpf("1e-3")))}


row("fer_second_order_uncertainty", """worked figure of the first order
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> uncertainties = Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm", diameter="0.05 mm")
>>> f"{second_order_uncertainty(joint, uncertainties, '23.51 mm').first_order:.1f %}"
'1.8 %'
""", joint=JOINT, diameter=CRIMPED, uncertainties=UNCERTAINTIES, model=MODEL)


@case("fer_second_order_uncertainty", "relative", 1e-6, 0.02)
def second_order_uncertainty(rng):
    """JCGM 100:2008, note to 5.1.2, by differences at 200 bits."""
    numbers, j = shop_joint(rng)
    basis, flow = rng.choice(("wall", "area", "soft wall")), rng.choice(("none", "ends_fixed"))
    model = f.Model(basis=basis.replace(" ", "_").upper(), flow=flow.upper())
    diameter = f.crimp_diameter(j, f.fraction(rng.uniform(0.15, 0.35)), model).mm
    wall = numbers["do"] - numbers["di"]
    drawn = {name: (wall * 10 ** rng.uniform(-3, -1.5), rng.choice(list(DISTRIBUTIONS))) for name in INPUTS}
    uncertainties = f.Uncertainties(**{name: f.Uncertainty(mm(amount), shape) for name, (amount, shape) in drawn.items()})
    found = f.second_order_uncertainty(j, uncertainties, mm(diameter), model)
    u = [mpf(drawn[name][0]) / DISTRIBUTIONS[drawn[name][1]][0] for name in INPUTS]
    kurtosis = [DISTRIBUTIONS[drawn[name][1]][1] for name in INPUTS]
    at, h = dict(numbers, diameter=diameter), mpf(wall) * mpf(10) ** -9

    def value(*moves):
        moved = {key: mpf(number) for key, number in at.items()}
        for i, times in moves:
            moved[KEYS[i]] += times * h
        return ref.compression(moved, moved["diameter"], basis, flow)
    first, second, third = {}, {}, {}
    for i in range(6):
        first[i] = (value((i, 1)) - value((i, -1))) / (2 * h)
        third[i] = (value((i, 2)) - 2 * value((i, 1)) + 2 * value((i, -1)) - value((i, -2))) / (2 * h**3)
        for k in range(6):
            second[i, k] = (value((i, 1), (k, 1)) - value((i, 1), (k, -1)) - value((i, -1), (k, 1)) + value((i, -1), (k, -1))) / (4 * h**2) \
                if i != k else (value((i, 1)) - 2 * value() + value((i, -1))) / h**2
    linear = sum((first[i] * u[i]) ** 2 for i in range(6))
    square, shift = linear, sum(second[i, i] * u[i] ** 2 for i in range(6)) / 2
    for i in range(6):
        square += ((kurtosis[i] - 1) / 4 * second[i, i] ** 2 + kurtosis[i] / 3 * first[i] * third[i]) * u[i] ** 4
        for k in range(6):
            if k != i:
                bent = (value((i, 1), (k, 1)) - 2 * value((i, 1)) + value((i, 1), (k, -1))
                        - value((i, -1), (k, 1)) + 2 * value((i, -1)) - value((i, -1), (k, -1))) / (2 * h**3)
                square += (second[i, k] ** 2 / 2 + first[i] * bent) * (u[i] * u[k]) ** 2
    return {"first_order": (found.first_order.fraction, sqrt(linear)), "second_order": (found.second_order.fraction, sqrt(square)),
            "shift, of the uncertainty": (found.shift.fraction, shift, sqrt(square))}


row("fer_worst_case", """20 % and 0.1/7.2 either way, by hand
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> case = worst_case(joint, Uncertainties(diameter=("0.1 mm", "rectangular")), "23.51 mm")
>>> f"{case.lower:.2f %} to {case.upper:.2f %}"
'18.61 % to 21.39 %'
""", joint=JOINT, diameter=CRIMPED, uncertainties=LIMITED, model=MODEL)


@case("fer_worst_case", "ulp", 2)
def worst_case(rng):
    numbers, j = shop_joint(rng)
    diameter = f.crimp_diameter(j, f.fraction(rng.uniform(0.1, 0.4))).mm
    half = {key: 2.0 ** rng.randint(-8, -5) for key in KEYS}
    uncertainties = f.Uncertainties(**{name: f.Uncertainty(mm(half[key]), "RECTANGULAR") for name, key in zip(INPUTS, KEYS)})
    found = f.worst_case(j, uncertainties, mm(diameter))
    # corners move by powers of two, which the sums of doubles nearly hold: the scale is the moved figures' own rounding
    def corner(tight):
        at = {key: mpf(numbers[key]) for key in ("di", "do", "s", "wall", "outside")}
        at["di"], at["do"] = at["di"] - tight * mpf(half["di"]), at["do"] + tight * mpf(half["do"])
        at["s"], at["wall"] = at["s"] + tight * mpf(half["s"]), at["wall"] + tight * mpf(half["wall"])
        return 1 - (mpf(diameter) - tight * mpf(half["diameter"]) - 2 * at["wall"] - at["s"]) / (at["do"] - at["di"])
    scale = mpf(numbers["outside"]) / (mpf(numbers["do"]) - mpf(numbers["di"]))
    return {"lower, of diameter by hose wall": (found.lower.fraction, corner(-1), scale),
            "upper, of diameter by hose wall": (found.upper.fraction, corner(1), scale)}


row("fer_conforming_share", """worked figure 0.99401852
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> uncertainties = Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm", diameter="0.05 mm")
>>> f"{conforming_share(joint, uncertainties, ('15 %', '25 %'), '23.51 mm').inside:.4f %}"
'99.4019 %'
""", joint=JOINT, diameter=CRIMPED, uncertainties=UNCERTAINTIES, range=RANGE)


@case("fer_conforming_share", "relative", 1e-13)
def conforming_share(rng):
    numbers, j = shop_joint(rng)
    amounts, r, uncertainties = normal_uncertainties(rng, numbers)
    low, high = rng.uniform(0.05, 0.2), rng.uniform(0.21, 0.4)
    a, sigma_a = margins(numbers, amounts, r, low)
    c, sigma_c = margins(numbers, amounts, r, high)
    diameter = float(c + (a - c) * mpf(rng.uniform(-0.2, 1.2)))
    found = f.conforming_share(j, uncertainties, (f.fraction(low), f.fraction(high)), mm(diameter))
    below = ref.ncdf((mpf(diameter) - a) / sigma_a)
    above = ref.ncdf((c - mpf(diameter)) / sigma_c)
    return {"inside, absolute": (found.inside.fraction, 1 - below - above, mpf(1)),
            "below, absolute": (found.below.fraction, below, mpf(1)),
            "above, absolute": (found.above.fraction, above, mpf(1))}


row("fer_rank_measurements", """at 20 % the squares are 0.8² × 0.10², 4 × 0.03², 0.8² × 0.08², 0.05²: the first is the greatest
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> uncertainties = Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm", diameter="0.05 mm")
>>> rank_measurements(joint, uncertainties, ("15 %", "25 %"), "23.51 mm")[0].measurement.name
'HOSE_OUTSIDE'
""", joint=JOINT, diameter=CRIMPED, uncertainties=UNCERTAINTIES, range=RANGE)


@case("fer_rank_measurements", "relative", 1e-13, 0.1)
def rank_measurements(rng):
    numbers, j = shop_joint(rng)
    amounts, _, uncertainties = normal_uncertainties(rng, numbers)
    uncertainties = uncertainties.replace(correlations=f.Correlations())
    low, high = rng.uniform(0.05, 0.2), rng.uniform(0.21, 0.4)
    a, c = (margins(numbers, amounts, 0, limit)[0] for limit in (low, high))
    diameter = float(c + (a - c) * mpf(rng.random()))

    def inside(changed):
        ends = [margins(numbers, dict(amounts, **changed), 0, limit) for limit in (low, high)]
        if any(deviation == 0 for _, deviation in ends):
            return mpf(1) if c < diameter < a else mpf(0)
        return ref.ncdf((ends[0][0] - diameter) / ends[0][1]) - ref.ncdf((ends[1][0] - diameter) / ends[1][1])
    results = {}
    for gain in f.rank_measurements(j, uncertainties, (f.fraction(low), f.fraction(high)), mm(diameter)):
        name = gain.measurement.name.lower()
        for member, share_left in (("exact", mpf(0)), ("halved", mpf(1) / 2)):
            exact = inside({name: mpf(amounts[name]) * share_left}) - inside({})
            results[f"{member}, absolute"] = (getattr(gain, member).fraction, exact, mpf(1))
    return results
