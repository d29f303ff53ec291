# SPDX-License-Identifier: MIT
"""Rows of capability.h."""
from catalogue.shared import *  # noqa: F403


def part_of(data):
    return [mpf(x) for x in data]


def sample(rng, low=2):
    """Diameters in groups."""
    n, groups = rng.choice([low, rng.randint(low, 12), rng.randint(low, 60)]), rng.choice([1, 2, 5])
    middle, deviation = rng.uniform(5, 60), 10 ** rng.uniform(-4, -1)
    return [(middle + deviation * rng.gauss(0, 1), rng.randrange(groups)) for _ in range(n)]


def pieces_of(data):
    return [f.SamplePiece(mm(x), group) for x, group in data]


def summary_of(rng, low=3):
    n = rng.choice([low, rng.randint(low, 12), rng.randint(low, 60)])
    mean, deviation = rng.uniform(23.4, 23.6), 10 ** rng.uniform(-2, -1)
    return f.SampleSummary(count=n, mean=mm(mean), scatter=f.FoundLength(mm(deviation))), n, mpf(mean), mpf(deviation)


def chi_above(x, v):
    return mp.gammainc(mpf(v) / 2, mpf(x) / 2, mp.inf, regularized=True)


def noncentral(t, v, delta):
    """P(T <= t) and its slope by the shift, by integrating over the scale with 30 digits."""
    with mp.workprec(110):
        t, v, delta = mpf(t), mpf(v), mpf(delta)
        front = v / 2 * mp.log(v / 2) - mp.loggamma(v / 2) + mp.log(2)
        width = 1 / sqrt(2 * v)
        centre = delta / t if t else mpf(1)
        end = 1 + 16 * width + mpf(16) / v
        edges = [1 + k * width for k in range(-12, 17, 2)] + [centre + k / abs(t) for k in (-8, -4, -2, 0, 2, 4, 8) if t]
        edges = sorted({edge for edge in edges if 0 < edge < end} | {mpf(0), end})

        def density(y):
            return exp(front + (v - 1) * mp.log(y) - v * y * y / 2) if y else mpf(0)
        value = quad(lambda y: density(y) * erfc(-(t * y - delta) / sqrt(mpf(2))) / 2, edges)
        slope = -quad(lambda y: density(y) * exp(-(t * y - delta) ** 2 / 2) / sqrt(2 * pi), edges)
        return value, slope


def shift_near(found, p, t, v):
    """The shift that gives p, one step of Newton's from what the library says: its error squared is left."""
    value, slope = noncentral(t, v, found)
    return mpf(found) - (value - mpf(p)) / slope


row("fer_summarise_sample", """mean 23.52 and standard deviation 0.02, by hand
>>> summary = summarise_sample(["23.50 mm", "23.52 mm", "23.54 mm"])
>>> f"{summary.mean:.2f mm}", f"{summary.scatter.value:.2f mm}", summary.count
('23.52 mm', '0.02 mm', 3)
""", pieces=SAMPLE_PIECES)


@case("fer_summarise_sample", "relative", 1e-12)
def summarise_sample(rng):
    data = sample(rng)
    found = f.summarise_sample(pieces_of(data))
    x, n = part_of(value for value, _ in data), len(data)
    mean = sum(x) / n
    squares = sum((value - mean) ** 2 for value in x)
    logs = [mp.log(value) for value in x]
    log_mean = sum(logs) / n
    groups = {}
    for value, (_, group) in zip(x, data):
        groups.setdefault(group, []).append(value)
    means = {group: sum(values) / len(values) for group, values in groups.items()}
    inside = sum((value - means[group]) ** 2 for group, values in groups.items() for value in values)
    free = n - len(groups)
    results = {"mean": (found.mean.mm, mean), "scatter": (found.scatter.value.mm, sqrt(squares / (n - 1))),
               "lag, of 1": (found.lag, sum((a - mean) * (b - mean) for a, b in zip(x, x[1:])) / squares, mpf(1)),
               "log_deviation, of the logarithm's digits": (found.log_deviation, sqrt(sum((value - log_mean) ** 2 for value in logs) / (n - 1)),
                                                            abs(log_mean))}
    if len(groups) > 1 and free > 0:
        between = sum(len(values) * (means[group] - mean) ** 2 for group, values in groups.items()) / (len(groups) - 1)
        ratio, v, w = between / (inside / free), mpf(len(groups) - 1), mpf(free)
        results["within"] = (found.within.value.mm, sqrt(inside / free))
        results["groups_p, of 1"] = (found.groups_p.value.fraction, betainc(w / 2, v / 2, 0, w / (w + v * ratio), regularized=True), mpf(1))
    else:
        results["within, of neighbours"] = (found.within.value.mm, sqrt(sum((a - b) ** 2 for a, b in zip(x, x[1:])) / (2 * (n - 1))))
    return results


row("fer_test_normality", """weights of eleven men, Shapiro and Wilk 1965: W 0.79 (from memory)
>>> weights = [148, 154, 158, 160, 161, 162, 166, 170, 182, 195, 236]
>>> normality, sorted_values = test_normality([mm(weight) for weight in weights])
>>> f"{normality.shapiro:.4f} {normality.anderson:.4f} {normality.shapiro_p:.2f %}"
'0.7888 0.9468 0.67 %'
""", pieces=SAMPLE_PIECES, measuring={"resolution": any_of(0.0, 0.01)})


@case("fer_test_normality", "relative", 1e-9, 0.2)
def test_normality(rng):
    """Values without a step; W by Royston's weights as his paper has them, A² by its definition."""
    data = sample(rng, 4)
    found, _ = f.test_normality(pieces_of(data))
    x, n = sorted(part_of(value for value, _ in data)), len(data)
    m = [sqrt(mpf(2)) * mp.erfinv(2 * (mpf(i) - mpf("0.375")) / (mpf(n) + mpf("0.25")) - 1) for i in range(1, n + 1)]
    squares, small = sum(value ** 2 for value in m), 1 / sqrt(mpf(n))

    def polynomial(*texts):
        return sum(mpf(text) * small ** (i + 1) for i, text in enumerate(texts))
    last = polynomial("0.221157", "-0.147981", "-2.071190", "4.434685", "-2.706056") + m[-1] / sqrt(squares)
    ends = {n - 1: last}
    if n > 5:
        ends[n - 2] = polynomial("0.042981", "-0.293762", "-1.752461", "5.682633", "-3.582633") + m[-2] / sqrt(squares)
    scale = sqrt((squares - 2 * sum(m[i] ** 2 for i in ends)) / (1 - 2 * sum(a ** 2 for a in ends.values())))
    weights = [ends.get(i, -ends[n - 1 - i] if n - 1 - i in ends else m[i] / scale) for i in range(n)]
    mean = sum(x) / n
    deviations = sum((value - mean) ** 2 for value in x)
    w = sum(a * value for a, value in zip(weights, x)) ** 2 / deviations
    z = [(value - mean) / sqrt(deviations / (n - 1)) for value in x]
    a = -n - sum((2 * i + 1) * (mp.log(ref.ncdf(z[i])) + mp.log(ref.ncdf(-z[n - 1 - i]))) for i in range(n)) / mpf(n)
    return {"shapiro": (found.shapiro, w), "anderson, of 1": (found.anderson, a, mpf(1))}


row("fer_find_capability", """half the tolerance by three standard deviations, by hand; the lower limit of the smaller one: R's noncentral t
>>> summary = SampleSummary(count=10, mean="23.5 mm", scatter=FoundLength("0.025 mm"))
>>> capability = find_capability(summary, Wanted(("23.4 mm", "23.6 mm")), "90 %")
>>> f"{capability.nearer.value:.4f} {capability.nearer.lower:.4f}"
'1.3333 0.8845'
""", summary=SAMPLE_SUMMARY, wanted=WANTED, confidence=BATCH_CONFIDENCE, settings={"scatter": any_of("OVERALL", "WITHIN"), "measuring": MEASURING,
                                                                     "stable": (0, 1)})


@case("fer_find_capability", "relative", 1e-11, 0.004)
def capability_without_gauge(rng):
    summary, n, mean, deviation = summary_of(rng, 2)
    lower, upper, confidence = 23.0, 24.0, rng.choice([0.6, 0.9, 0.95, 0.999])
    found = f.find_capability(summary, f.Wanted((mm(lower), mm(upper))), f.fraction(confidence))
    below, above, root = (mean - mpf(lower)) / (3 * deviation), (mpf(upper) - mean) / (3 * deviation), 3 * sqrt(mpf(n))
    near = min(below, above)
    squares = (n - 1) / mpf(n) * deviation ** 2 + (mean - mpf(23.5)) ** 2
    z = sqrt(mpf(2)) * mp.erfinv(2 * mpf(confidence) - 1)
    return {"nearer": (found.nearer.value, near),
            "nearer, lower": (found.nearer.lower, shift_near(mpf(found.nearer.lower) * root, confidence, near * root, n - 1) / root),
            "to_upper, upper": (found.to_upper.upper, shift_near(mpf(found.to_upper.upper) * root, 1 - mpf(confidence), above * root, n - 1) / root),
            "about_target": (found.about_target.value, mpf(upper - lower) / (6 * sqrt(squares))),
            "text_lower": (found.text_lower, near - z * sqrt(1 / mpf(9 * n) + near ** 2 / (2 * (n - 1))), near)}


def gauge_confidence(index, distance, deviation, n, gauge, common):
    """Confidence that the index is reached, by integrating over the deviation of the mean; 25 digits."""
    def tail(z):
        mean_variance = common ** 2 + gauge ** 2 / n
        squares = 9 * index ** 2 - z ** 2 / n
        if squares <= 0 and z > 0:
            return mpf(1)
        own = (3 * index * distance + z * sqrt(distance ** 2 / n + squares * mean_variance)) / squares
        return chi_above((n - 1) * deviation ** 2 / (own ** 2 + gauge ** 2), n - 1)
    end = min(mpf(10), 3 * index * sqrt(mpf(n)))
    edges = sorted({mpf(k) for k in range(-10, 11, 2) if k < end} | {end})
    inside = quad(lambda z: tail(z) * exp(-z * z / 2) / sqrt(2 * pi), edges)
    return inside + ref.ncdf(-end)


@case("fer_find_capability", "relative", 1e-9, 0.001)
def capability_with_gauge(rng):
    n, deviation, confidence = rng.choice([5, 10, 30]), mpf(1), rng.choice([0.9, 0.95])
    gauge, common, distance = rng.choice([0.25, 0.5]), rng.choice([0.0, 0.25]), rng.choice([3.0, 4.0, 5.0])
    summary = f.SampleSummary(count=n, mean=mm(20), scatter=f.FoundLength(mm(1)))
    found = f.find_capability(summary, f.Wanted(("0 mm", mm(20 + distance)), side="UPPER"), f.fraction(confidence),
                              f.CapabilitySettings(measuring=f.Measuring(mm(gauge), common=mm(common)))).nearer.lower
    with mp.workprec(90):
        here, step = mpf(found), mpf(found) * mpf(10) ** -6
        values = [gauge_confidence(here + k * step, mpf(distance), deviation, n, mpf(gauge), mpf(common)) for k in (-1, 0, 1)]
        exact = here - (values[1] - mpf(confidence)) * 2 * step / (values[2] - values[0])
    return {"nearer, lower, gauge taken off": (found, exact)}


row("fer_find_share_outside", """Student's distribution in R: the next piece
>>> summary = SampleSummary(count=10, mean="23.505 mm", scatter=FoundLength("0.03 mm"))
>>> share = find_share_outside(summary, Wanted(("23.4 mm", "23.6 mm")), "90 %")
>>> f"{share.next_below:.4f %} {share.next_above:.4f %} {share.outside_upper:.4f %}"
'0.4350 % 0.7248 % 3.1677 %'
""", summary=SAMPLE_SUMMARY, wanted=WANTED, confidence=BATCH_CONFIDENCE, measuring=MEASURING)


@case("fer_find_share_outside", "relative", 1e-11, 0.004)
def share_outside(rng):
    summary, n, mean, deviation = summary_of(rng)
    upper, confidence = 24.0, rng.choice([0.6, 0.9, 0.99])
    found = f.find_share_outside(summary, f.Wanted(("0 mm", mm(upper)), side="UPPER"), f.fraction(confidence))
    q, root = (mpf(upper) - mean) / deviation, sqrt(mpf(n))
    x = max(mpf(0), mpf(1) / 2 - q * root / (2 * (n - 1)))
    half = mpf(n) / 2 - 1
    shares = {"above, of 1": (found.above.fraction, betainc(half, half, 0, x, regularized=True), mpf(1)),
              "next_above, of 1": (found.next_above.fraction, student_tail(q / sqrt(1 + 1 / mpf(n)), n - 1), mpf(1))}
    if found.above_upper.fraction > 1e-40:
        shift = -sqrt(mpf(2)) * mp.erfinv(2 * mpf(found.above_upper.fraction) - 1) * root
        exact = ref.ncdf(-shift_near(shift, confidence, q * root, n - 1) / root)
        # a limit of a share is as uncertain as the index is, of which it is the tail
        shares["above_upper, of its sensitivity"] = (found.above_upper.fraction, exact, exact * (1 + shift ** 2 / n))
    return shares


row("fer_find_rest_inside", """one further piece: Student's distribution in R
>>> summary = SampleSummary(count=10, mean="23.505 mm", scatter=FoundLength("0.03 mm"))
>>> f"{find_rest_inside(summary, Wanted(('23.4 mm', '23.6 mm')), 1):.4f %}"
'98.8402 %'
""", summary=SAMPLE_SUMMARY, wanted=WANTED, further=(0, 300), measuring=MEASURING)


@case("fer_find_rest_inside", "relative", 1e-10, 0.1)
def rest_inside(rng):
    """One further piece, which has Student's distribution; of more tests/unit has integrals from R."""
    summary, n, mean, deviation = summary_of(rng, 2)
    found = f.find_rest_inside(summary, f.Wanted((mm(23.2), mm(24.0))), 1)
    width = deviation * sqrt(1 + 1 / mpf(n))
    tails = [student_tail(abs(d), n - 1) if d > 0 else 1 - student_tail(abs(d), n - 1)
             for d in ((mean - mpf(23.2)) / width, (mpf(24.0) - mean) / width)]
    return {"one further, of 1": (found.fraction, 1 - sum(tails), mpf(1))}


row("fer_find_tolerance_factor", """ISO 16269-6 (from memory): 95 % of the pieces with 95 %, six pieces, both ends and one
>>> f"{find_tolerance_factor(6, 0, '95 %', '95 %', 'both'):.4f} {find_tolerance_factor(6, 0, '95 %', '95 %', 'upper'):.4f}"
'4.4222 3.7077'
""", pieces=(2, 60), degrees_of_freedom=(1, 100), content=(0.5, 0.999), confidence=BATCH_CONFIDENCE, side=any_of("BOTH", "LOWER", "UPPER"))


@case("fer_find_tolerance_factor", "relative", 1e-11, 0.004)
def one_sided_factor(rng):
    n, content, confidence = rng.choice([2, rng.randint(2, 100)]), rng.choice([0.9, 0.95, 0.99, 0.9973]), rng.choice([0.6, 0.9, 0.95, 0.99])
    found = f.find_tolerance_factor(n, 0, f.fraction(content), f.fraction(confidence), "upper")
    root = sqrt(mpf(n))
    delta = root * sqrt(mpf(2)) * mp.erfinv(2 * mpf(content) - 1)
    with mp.workprec(110):
        t, step = mpf(found) * root, mpf(found) * root * mpf(10) ** -8
        values = [noncentral(t + k * step, n - 1, delta)[0] for k in (-1, 0, 1)]
        exact = t - (values[1] - mpf(confidence)) * 2 * step / (values[2] - values[0])
    return {"factor, one side": (found, exact / root)}


def reach(away, content):
    start = float(away) + 2
    return mp.findroot(lambda r: ref.ncdf(away + r) - ref.ncdf(away - r) - content, mpf(start))


@case("fer_find_tolerance_factor", "relative", 1e-11, 0.001)
def two_sided_factor(rng):
    n, content, confidence = rng.choice([2, 5, 10, 30]), rng.choice([0.9, 0.95, 0.99]), rng.choice([0.9, 0.95])
    found = f.find_tolerance_factor(n, 0, f.fraction(content), f.fraction(confidence), "both")
    with mp.workprec(90):
        def held(k):
            return 2 * quad(lambda z: chi_above((n - 1) * reach(z / sqrt(mpf(n)), mpf(content)) ** 2 / k ** 2, n - 1)
                            * exp(-z * z / 2) / sqrt(2 * pi), [0, 1, 2, 3, 4, 6, 9])
        k, step = mpf(found), mpf(found) * mpf(10) ** -6
        values = [held(k + i * step) for i in (-1, 0, 1)]
        exact = k - (values[1] - mpf(confidence)) * 2 * step / (values[2] - values[0])
    return {"factor, both sides": (found, exact)}


row("fer_find_tolerance_limits", """4.436909 standard deviations: mpmath, 30 digits
>>> summary = SampleSummary(count=10, mean="23.5 mm", scatter=FoundLength("0.01 mm"))
>>> limits = find_tolerance_limits(summary, "99 %", "95 %", "both")
>>> f"{limits.lower:.5f mm} {limits.upper:.5f mm}"
'23.45563 mm 23.54437 mm'
""", judged=CALLS, summary=SAMPLE_SUMMARY, content=(0.5, 0.999), confidence=BATCH_CONFIDENCE, side=any_of("BOTH", "LOWER", "UPPER"))

row("fer_find_free_tolerance", """ISO 16269-6 (from memory): 95 % between the smallest and the greatest value needs 77 pieces for 90 %
>>> tolerance = find_free_tolerance(50, "95 %", "90 %", "both")
>>> tolerance.needed, tolerance.rank, f"{tolerance.reached:.1f %}"
(77, 0, '72.1 %')
""", count=(2, 300), content=(0.5, 0.99), confidence=BATCH_CONFIDENCE, side=any_of("BOTH", "LOWER", "UPPER"))


@case("fer_find_free_tolerance", "relative", 1e-11)
def free_tolerance(rng):
    n, content, confidence = rng.choice([2, rng.randint(2, 400)]), rng.uniform(0.3, 0.999), rng.uniform(0.51, 0.999)
    both = rng.random() < 0.5
    found = f.find_free_tolerance(n, f.fraction(content), f.fraction(confidence), "both" if both else "lower")
    rank = max(found.rank, 1) * (2 if both else 1)
    return {"reached, of 1": (found.reached.fraction, 1 - betainc(n - rank + 1, rank, 0, mpf(content), regularized=True), mpf(1))}


row("fer_find_index_to_show", """noncentral t in R and SciPy
>>> f"{find_index_to_show(10, 4 / 3, '90 %'):.6f} {find_index_to_show(50, 4 / 3, '90 %'):.6f}"
'1.982152 1.548611'
""", count=(2, 60), index=(0.5, 2), confidence=BATCH_CONFIDENCE)


@case("fer_find_index_to_show", "relative", 1e-11, 0.004)
def index_to_show(rng):
    n, index, confidence = rng.choice([2, rng.randint(2, 100)]), rng.uniform(0.3, 2.5), rng.choice([0.6, 0.9, 0.95, 0.99])
    found = f.find_index_to_show(n, index, f.fraction(confidence))
    root = 3 * sqrt(mpf(n))
    with mp.workprec(110):
        t, step = mpf(found) * root, mpf(found) * root * mpf(10) ** -8
        values = [noncentral(t + k * step, n - 1, mpf(index) * root)[0] for k in (-1, 0, 1)]
        exact = t - (values[1] - mpf(confidence)) * 2 * step / (values[2] - values[0])
    return {"required": (found, exact / root)}


row("fer_find_pieces_to_show", """noncentral t in SciPy
>>> showing = find_pieces_to_show(1.33, "90 %", 1.67, "90 %")
>>> showing.pieces, f"{showing.required:.4f}", f"{showing.power:.3f %}"
(72, '1.5033', '90.229 %')
""", index=(0.5, 1.5), confidence=BATCH_CONFIDENCE, expected=plus("index", 0.2, 1), power=(0.3, 0.95))


@case("fer_find_pieces_to_show", "relative", 1e-11, 0.004)
def pieces_to_show(rng):
    index, confidence = rng.uniform(0.5, 1.7), rng.choice([0.8, 0.9, 0.95])
    found = f.find_pieces_to_show(index, f.fraction(confidence), index * rng.uniform(1.2, 1.8), "80 %")
    n, root = found.pieces, 3 * sqrt(mpf(found.pieces))
    exact = shift_near(mpf(index) * root, confidence, mpf(found.required) * root, n - 1) / root
    return {"required, as the index that it shows": (index, exact)}
