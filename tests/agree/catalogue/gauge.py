# SPDX-License-Identifier: MIT
"""Rows of gauge.h."""
from catalogue.shared import *  # noqa: F403


def f_above(ratio, v, w):
    v, w = mpf(v), mpf(w)
    return betainc(w / 2, v / 2, 0, w / (w + v * ratio), regularized=True)


def chi_quantile(p, v):
    """By Newton's rule on the logarithm, from Wilson and Hilferty's approximation."""
    p, a = mpf(p), mpf(v) / 2
    z = sqrt(mpf(2)) * mp.erfinv(2 * p - 1)
    x = mp.log(a * max(1 - 1 / (9 * a) + z * sqrt(1 / (9 * a)), mpf("0.05")) ** 3)
    for _ in range(60):
        below = mp.gammainc(a, 0, exp(x), regularized=True)
        step = (below - p) / exp(a * x - exp(x) - mp.loggamma(a))
        x -= max(min(step, mpf(1)), mpf(-1))
        if abs(step) < mpf(10) ** -30:
            break
    return 2 * exp(x)


row("fer_study_gauge", """two parts, two people 2 mm apart, readings 0.1 mm apart, by hand: 0.1 by the root of 2
>>> readings = [(part, person, mm(10 + 5 * part + 2 * person + 0.1 * repeat)) for part in (0, 1) for person in (0, 1) for repeat in (0, 1)]
>>> study = study_gauge(readings, "20 mm", "90 %", StudySettings(never_pool=True))
>>> f"{study.repeatability.value:.4f mm} {study.people.value:.4f mm}", study.findings[0].name
('0.0707 mm 1.4142 mm', 'GAUGE_TOO_WIDE')
""", readings=[{"part": part, "person": person, "diameter": (23.4, 23.6)} for part in (0, 1, 2) for person in (0, 1) for _ in (0, 1)],
    tolerance=any_of(0.0, 1.0), confidence=BATCH_CONFIDENCE, settings={"never_pool": (0, 1), "calibration": any_of(0.0, 0.01),
                                                                       "resolution": any_of(0.0, 0.01)})


def some_study(rng):
    p, o, r = rng.randint(2, 8), rng.randint(2, 4), rng.randint(2, 3)
    parts, people = [rng.gauss(0, 0.1) for _ in range(p)], [rng.gauss(0, 0.02) for _ in range(o)]
    readings = [(part, person, 23.5 + parts[part] + people[person] + rng.gauss(0, 0.02)) for part in range(p) for person in range(o)
                for _ in range(r)]
    rng.shuffle(readings)
    return p, o, r, readings


@case("fer_study_gauge", "relative", 1e-11, 0.1)
def study_gauge(rng):
    """Never pooled: mean squares by their definitions, limits of sums by chi-square's quantiles."""
    p, o, r, readings = some_study(rng)
    confidence = rng.choice([0.6, 0.9, 0.975])
    found = f.study_gauge([f.StudyReading(part, person, mm(x)) for part, person, x in readings], mm(1), f.fraction(confidence),
                          f.StudySettings(never_pool=True))

    def mean(*wanted):
        values = [mpf(x) for part, person, x in readings if all(w in (None, have) for w, have in zip(wanted, (part, person)))]
        return sum(values) / len(values)
    everything, parts, people = mean(None, None), [mean(i, None) for i in range(p)], [mean(None, j) for j in range(o)]
    cells = [[mean(i, j) for j in range(o)] for i in range(p)]
    ms_p = o * r * sum((x - everything) ** 2 for x in parts) / (p - 1)
    ms_o = p * r * sum((x - everything) ** 2 for x in people) / (o - 1)
    ms_po = r * sum((cells[i][j] - parts[i] - people[j] + everything) ** 2 for i in range(p) for j in range(o)) / ((p - 1) * (o - 1))
    ms_e = sum((mpf(x) - cells[part][person]) ** 2 for part, person, x in readings) / (p * o * (r - 1))
    degrees = {"o": o - 1, "po": (p - 1) * (o - 1), "e": p * o * (r - 1)}
    terms = {"o": ms_o / (p * r), "po": (p - 1) * ms_po / (p * r), "e": (r - 1) * ms_e / r}
    gauge = sum(terms.values())
    above = sqrt(sum((term * (degrees[key] / chi_quantile(1 - mpf(confidence), degrees[key]) - 1)) ** 2 for key, term in terms.items()))
    results = {"repeatability": (found.repeatability.value.mm, sqrt(ms_e)), "gauge": (found.gauge.value.mm, sqrt(gauge)),
               "repeatability, upper": (found.repeatability.upper.mm, sqrt(ms_e * degrees["e"] / chi_quantile(1 - mpf(confidence), degrees["e"]))),
               "gauge, upper": (found.gauge.upper.mm, sqrt(gauge + above)),
               "interaction_p, of 1": (found.interaction_p.fraction, f_above(ms_po / ms_e, degrees["po"], degrees["e"]), mpf(1)),
               "people_p, of 1": (found.people_p.fraction, f_above(ms_o / ms_po, degrees["o"], degrees["po"]), mpf(1))}
    if ms_p > 1.1 * ms_po:
        results["parts"] = (found.parts.value.mm, sqrt((ms_p - ms_po) / (o * r)))
    return results


row("fer_study_gauge_by_ranges", """all ranges are 0.1 mm; d2 of two is 1.128 (any table), d2* of four groups 1.206
>>> readings = [(part, person, mm(10 + 5 * part + 2 * person + 0.1 * repeat)) for part in (0, 1) for person in (0, 1) for repeat in (0, 1)]
>>> f"{study_gauge_by_ranges(readings, mm(0)).repeatability:.4f mm}"
'0.0829 mm'
""", readings=[{"part": part, "person": person, "diameter": (23.4, 23.6)} for part in (0, 1, 2) for person in (0, 1) for _ in (0, 1)],
    tolerance=any_of(0.0, 1.0))


@case("fer_study_gauge_by_ranges", "relative", 1e-11, 0.1)
def study_gauge_by_ranges(rng):
    """Two readings of each: the range of two has its constants in closed form."""
    p, o = rng.randint(2, 6), 2
    readings = [(part, person, 23.5 + 0.1 * part + rng.gauss(0, 0.02)) for part in range(p) for person in range(o) for _ in range(2)]
    found = f.study_gauge_by_ranges([f.StudyReading(part, person, mm(x)) for part, person, x in readings], mm(0))
    d2, d3 = 2 / sqrt(pi), sqrt(2 - 4 / pi)
    ranges = [abs(mpf(a[2]) - mpf(b[2])) for a, b in zip(readings[::2], readings[1::2])]
    repeat = sum(ranges) / len(ranges) / sqrt(d2 ** 2 + d3 ** 2 / (p * o))
    means = [sum(mpf(x) for _, person, x in readings if person == who) / (2 * p) for who in range(o)]
    people = (abs(means[0] - means[1]) / sqrt(d2 ** 2 + d3 ** 2)) ** 2 - repeat ** 2 / (2 * p)
    return {"repeatability": (found.repeatability.mm, repeat), "gauge": (found.gauge.mm, sqrt(repeat ** 2 + max(people, mpf(0))))}


row("fer_calibrate_gauge", """deviations of 1, 2 and 3 hundredths, by hand
>>> check = calibrate_gauge([("20 mm", "20.01 mm"), ("20 mm", "20.02 mm"), ("20 mm", "20.03 mm")], "95 %")
>>> f"{check.bias:.2f mm} {check.scatter:.2f mm} {check.gauge.correction:.2f mm}"
'0.02 mm 0.01 mm -0.02 mm'
""", readings=repeated(12, {"block": any_of(5.0, 10.0, 20.0), "reading": (19.9, 20.1)}), confidence=BATCH_CONFIDENCE,
    blocks={"standard_uncertainty": any_of(0.0, 0.0005), "resolution": any_of(0.0, 0.01), "expansion": any_of(0.0, 0.00006),
            "used_at": any_of(0.0, 15.0)})


@case("fer_calibrate_gauge", "relative", 1e-12)
def calibrate_gauge(rng):
    blocks = [float(rng.choice([4, 8, 16, 32])) for _ in range(rng.randint(3, 30))]
    readings = [block + rng.randint(-64, 64) / 1024 for block in blocks]  # deviations that are doubles
    found = f.calibrate_gauge([f.BlockReading(mm(a), mm(b)) for a, b in zip(blocks, readings)], "95 %")
    x, d, n = [mpf(v) for v in blocks], [mpf(b) - mpf(a) for a, b in zip(blocks, readings)], len(blocks)
    bias, middle = sum(d) / n, sum(x) / n
    squares, all_squares = sum((v - middle) ** 2 for v in x), sum((v - bias) ** 2 for v in d)
    if squares == 0 or all_squares == 0:
        return None
    slope = sum((a - middle) * (b - bias) for a, b in zip(x, d)) / squares
    rest = sum((b - bias - slope * (a - middle)) ** 2 for a, b in zip(x, d))
    error = sqrt(all_squares / (n - 1) / n)
    return {"bias, of the scatter": (found.bias.mm, bias, abs(bias) + error), "bias_uncertainty": (found.bias_uncertainty.mm, error),
            "bias_p, of 1": (found.bias_p.fraction, 2 * student_tail(abs(bias / error), n - 1), mpf(1)),
            "slope, of its error": (found.slope.fraction, slope, abs(slope) + sqrt(rest / max(n - 2, 1) / squares)),
            "intercept, of the line": (found.intercept.mm, bias - slope * middle, abs(bias) + abs(slope * middle))}


row("fer_rate_measuring", """0.003 and 0.004 make 0.005 mm; 0.02 by 0.2, by hand
>>> rate = rate_measuring("0.2 mm", "0 mm", Measuring("0.003 mm", common="0.004 mm"))
>>> f"{rate.process:.0f %} {rate.process_index:.0f}"
'10 % 4'
""", tolerance=(0.1, 0.5), bias=any_of(0.0, 0.002), measuring=MEASURING)


@exact("relative", 1e-15)
def rate_measuring(tolerance, bias, measuring):
    alone = sqrt(max(measuring.repeatability ** 2, measuring.resolution ** 2 / 12) + bias ** 2 / 3)
    both = sqrt(alone ** 2 + measuring.common ** 2)
    if both == 0 or alone == 0:
        return {"system": 4 * alone / tolerance, "process": 4 * both / tolerance}
    return {"system": 4 * alone / tolerance, "process": 4 * both / tolerance, "system_index": tolerance / (20 * alone),
            "process_index": tolerance / (10 * both)}


row("fer_choose_guard", """the risk that is asked, with the smallest guard band
>>> choice = choose_guard(Process("23.5 mm", "0.06 mm"), "0.015 mm", ("23.4 mm", "23.6 mm"), "0.1 %")
>>> f"{choice.risks.consumer:.3f %}", 1 < choice.guard.factor < 2
('0.100 %', True)
""", judged="fer_find_risks() at the factor found and beside it, in tests/unit", process={"mean": (23.45, 23.55), "standard_deviation": (0.03, 0.08)},
    standard_uncertainty=(0.01, 0.02), limits={"lower": 23.4, "upper": 23.6}, consumer=any_of(0.0005, 0.002, 0.2))

row("fer_find_agreement", """two people on four pieces, one of which they see differently, by hand: 0.75 of 1, half of it by chance
>>> opinions = [(piece, person, 2 if piece > 1 else 1) for piece in range(4) for person in (0, 1)]
>>> opinions[7] = (3, 1, 1)
>>> agreement = find_agreement(opinions, "90 %")
>>> agreement.kappa, f"{agreement.between:.0f %}"
(0.5, '75 %')
""", opinions=[{"piece": piece, "person": person, "said": (1, 2), "truth": truth} for piece, truth in enumerate((1, 2, 1, 2, 0))
               for person in (0, 1, 2)], confidence=BATCH_CONFIDENCE)


@case("fer_find_agreement", "relative", 1e-11)
def find_agreement(rng):
    n = rng.randint(4, 20)
    said = [(rng.randint(1, 2), rng.randint(1, 2), rng.randint(1, 2)) for _ in range(n)]  # one, other, truth
    found = f.find_agreement([f.Opinion(i, person, row[person], row[2]) for i, row in enumerate(said) for person in (0, 1)], "95 %")
    one, other = (mpf(sum(row[k] == 1 for row in said)) / n for k in (0, 1))
    chance = one * other + (1 - one) * (1 - other)
    passed = sum(row[k] == 1 for row in said if row[2] == 2 for k in (0, 1))
    bad = 2 * sum(row[2] == 2 for row in said)
    results = {}
    if chance != 1:
        observed = mpf(sum(row[0] == row[1] for row in said)) / n
        results["kappa, of 1"] = (found.kappa, (observed - chance) / (1 - chance), mpf(1))
    if passed < bad:
        upper = mpf(found.bad_passed_upper.fraction)
        a, b = mpf(passed + 1), mpf(bad - passed)
        density = upper ** (a - 1) * (1 - upper) ** (b - 1) / mp.beta(a, b)
        results["bad_passed_upper"] = (upper, upper - (betainc(a, b, 0, upper, regularized=True) - mpf(0.95)) / density)
    return results


row("fer_study_finding_name", """the name is the word itself
>>> study_finding_name("people differ")
'PEOPLE_DIFFER'
""", finding=(0, 31))

row("fer_study_finding_sentence", """the sentence of the list
>>> study_finding_sentence("gauge wide")
'the gauge takes more than 10 % of the tolerance'
""", finding=(0, 31))

row("fer_study_finding_severity", """the severity of the list
>>> study_finding_severity("people differ").name
'DO_FIRST'
""", finding=(0, 31))
