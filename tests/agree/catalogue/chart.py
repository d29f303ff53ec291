# SPDX-License-Identifier: MIT
"""Rows of chart.h."""
from catalogue.shared import *  # noqa: F403


def phi(x):
    return exp(-x * x / 2) / sqrt(2 * pi)


def below(x):
    return erfc(-x / sqrt(mpf(2))) / 2


def quantile(p):
    return sqrt(mpf(2)) * mp.erfinv(2 * mpf(p) - 1)


def trapezoid(function, step, ends):
    """The trapezoidal rule, whose error falls geometrically for functions as smooth as these."""
    return step * sum(function(step * i) for i in range(-int(ends / step), int(ends / step) + 1))


def gauss(count, low, high):
    """Points and weights of Gauss and Legendre's rule."""
    points, weights = [], []
    for i in range(count):
        x = mp.cos(pi * (mpf(i) + mpf("0.75")) / (count + mpf("0.5")))
        for _ in range(60):
            p0, p1 = mpf(1), x
            for k in range(2, count + 1):
                p0, p1 = p1, ((2 * k - 1) * x * p1 - (k - 1) * p0) / k
            slope = count * (x * p1 - p0) / (x * x - 1)
            step = p1 / slope
            x -= step
            if abs(step) < mpf(10) ** -25:
                break
        points.append((low + high) / 2 + (high - low) / 2 * x)
        weights.append((high - low) / ((1 - x * x) * slope ** 2))
    return points, weights


def range_below(w, n):
    return n * trapezoid(lambda x: phi(x) * (below(x + w) - below(x)) ** (n - 1), mpf("0.1") if n > 12 else mpf("0.2"), mpf(9))


def range_constants(n):
    """The second moment by Gauss and Legendre's rule, 24 points on each of seven pieces."""
    d2 = trapezoid(lambda x: 1 - below(x) ** n - below(-x) ** n, mpf("0.15"), mpf(10))
    points, weights = gauss(24, mpf(-1), mpf(1))
    squares = sum(weight * 2 * w * (1 - range_below(w, n)) for piece in range(7) for point, weight in zip(points, weights)
                  for w in [2 * piece + 1 + point])
    return d2, sqrt(squares - d2 ** 2), sqrt(2 * pi / (n - 1)) / mp.beta(mpf("0.5"), mpf(n - 1) / 2)


def patnaik(relative_variance):
    return 1 / (2 * (sqrt(1 + 2 * relative_variance) - 1))


row("fer_find_chart_constants", """any table of factors for groups of five
>>> constants = find_chart_constants(5, 0)
>>> f"{constants.range_mean:.3f} {constants.range_deviation:.3f} {constants.deviation_mean:.4f} {constants.means_by_range:.3f}"
'2.326 0.864 0.9400 0.577'
""", pieces=(2, 100), groups=(0, 40))


@case("fer_find_chart_constants", "relative", 1e-11, 0.002)
def find_chart_constants(rng):
    n, groups = rng.choice([2, 3, rng.randint(2, 12), rng.choice([2, 30])]), rng.choice([0, 1, 20])
    found = f.find_chart_constants(n, groups)
    with mp.workprec(80):
        d2, d3, c4 = range_constants(n)
        g, root, rest = max(groups, 1), sqrt(mpf(n)), sqrt(1 - c4 ** 2) / c4
        return {"d2": (found.range_mean, d2), "d3": (found.range_deviation, d3), "c4": (found.deviation_mean, c4),
                "A2": (found.means_by_range, 3 / (d2 * root)), "A3": (found.means_by_deviation, 3 / (c4 * root)),
                "D3, of 1": (found.range_lower, max(mpf(0), 1 - 3 * d3 / d2), mpf(1)), "D4": (found.range_upper, 1 + 3 * d3 / d2),
                "B3, of 1": (found.deviation_lower, max(mpf(0), 1 - 3 * rest), mpf(1)), "B4": (found.deviation_upper, 1 + 3 * rest),
                "E2": (found.singles_by_range, 3 / (2 / sqrt(pi))), "d2*": (found.range_root_mean_square, sqrt(d2 ** 2 + d3 ** 2 / g)),
                "degrees": (found.range_degrees, patnaik(d3 ** 2 / (g * d2 ** 2)))}


row("fer_find_chart_limits", """ranges of 0.03, 0.03 and 0.03 mm: 1.023 times 0.03 mm from the mean (A2 of three, any table)
>>> diameters = [23.50, 23.52, 23.49, 23.53, 23.55, 23.52, 23.49, 23.48, 23.51]
>>> pieces = [SamplePiece(mm(x), i // 3) for i, x in enumerate(diameters)]
>>> limits = find_chart_limits(pieces, "means by range")
>>> f"{limits.level_centre:.4f mm} {limits.level.upper - limits.level_centre:.4f mm}"
'23.5100 mm 0.0307 mm'
""", pieces=GROUPED_PIECES, chart=CHART_KINDS, rule=LIMIT_RULE)


def student_above(t, v):
    return betainc(mpf(v) / 2, mpf("0.5"), 0, v / (v + t * t), regularized=True) / 2


def student_quantile_near(found, tail, v):
    """One step of Newton's from the library's own figure: its error squared is left."""
    t, v = mpf(found), mpf(v)
    density = exp(-(v + 1) / 2 * mp.log(1 + t * t / v)) / (sqrt(v) * mp.beta(mpf("0.5"), v / 2))
    return t + (student_above(t, v) - tail) / density


def chi_below(x, v):
    return mp.gammainc(mpf(v) / 2, 0, mpf(x) / 2, regularized=True)


def chi_near(found, p, v):
    x, a = mpf(found), mpf(v) / 2
    return x - (chi_below(x, v) - p) / (exp((a - 1) * mp.log(x / 2) - x / 2 - mp.loggamma(a)) / 2)


def groups_of(rng):
    size, count = rng.randint(2, 6), rng.randint(2, 12)
    deviation = 10 ** rng.uniform(-3, -1)
    return size, count, [(23.5 + deviation * rng.gauss(0, 1), i // size) for i in range(size * count)]


def pooled(data, size):
    values = [mpf(x) for x, _ in data]
    parts = [values[i:i + size] for i in range(0, len(values), size)]
    squares = sum((x - sum(part) / size) ** 2 for part in parts for x in part)
    return values, sqrt(squares / (len(values) - len(parts)))


@case("fer_find_chart_limits", "relative", 1e-11, 0.1)
def find_chart_limits(rng):
    """Groups by their pooled standard deviation: Student, and chi-square for the groups' own."""
    size, count, data = groups_of(rng)
    alarms = rng.choice([0.0, 0.01, 0.001])
    tail = below(mpf(-3)) if alarms == 0 else mpf(alarms) / 2
    values, s = pooled(data, size)
    pieces = [f.SamplePiece(mm(x), group) for x, group in data]
    plain = f.find_chart_limits(pieces, "means by deviation", f.LimitRule("plain", f.fraction(alarms)))
    expected = f.find_chart_limits(pieces, "means by deviation", f.LimitRule("expected", f.fraction(alarms)))
    v, mean, root = count * (size - 1), sum(values) / len(values), sqrt(mpf(size))
    wide = sqrt(1 + 1 / mpf(count))
    t = student_quantile_near(mpf(expected.factor) / wide, tail, v)
    own = size - 1
    chi = {end: chi_near((mpf(getattr(plain.scatter, end).mm) / s) ** 2 * own, p, own) for end, p in (("lower", tail), ("upper", 1 - tail))}
    return {"deviation": (plain.deviation.mm, s), "centre": (plain.level_centre.mm, mean),
            "plain, of a limit's distance": (plain.level.upper.mm, mean + quantile(1 - tail) * s / root, mean),
            "expected": (expected.factor, t * wide), "lower": (plain.scatter.lower.mm, s * sqrt(chi["lower"] / own)),
            "upper": (plain.scatter.upper.mm, s * sqrt(chi["upper"] / own))}


row("fer_find_limits_from_figures", """3.532 standard deviations keep on the average what 3 do where they are known (Student, 19 degrees of freedom)
>>> figures = ChartFigures("23.5 mm", "0.03 mm", 20)
>>> limits = find_limits_from_figures(figures, "singles by deviation", LimitRule("expected"))
>>> f"{limits.factor:.3f} {limits.level.upper:.3f mm}"
'3.532 23.606 mm'
""", figures={"mean": (23.4, 23.6), "scatter": (0.02, 0.06), "pieces": (2, 8), "groups": (2, 30)}, chart=CHART_KINDS, rule=LIMIT_RULE)


@case("fer_find_limits_from_figures", "relative", 1e-9, 0.001)
def find_limits_from_figures(rng):
    """Ranges: one step of Newton's on their distribution from the library's own limit."""
    size, count, scatter, alarms = rng.randint(2, 10), rng.randint(2, 30), 10 ** rng.uniform(-3, -1), rng.choice([0.1, 0.01, 0.0027])
    found = f.find_limits_from_figures(f.ChartFigures(mm(23.5), mm(scatter), count, size), "means by range",
                                       f.LimitRule("plain", f.fraction(alarms)))
    with mp.workprec(80):
        d2, d3, _ = range_constants(size)
        s, results = mpf(scatter) / d2, {}
        for end, p in (("lower", mpf(alarms) / 2), ("upper", 1 - mpf(alarms) / 2)):
            w = mpf(getattr(found.scatter, end).mm) / s
            density = size * (size - 1) * trapezoid(lambda x: phi(x) * phi(x + w) * (below(x + w) - below(x)) ** (size - 2), mpf("0.1") if size > 12 else mpf("0.2"), mpf(9))
            results[end] = (getattr(found.scatter, end).mm, s * (w - (range_below(w, size) - p) / density))
        return {**results, "deviation": (found.deviation.mm, s), "factor": (found.factor, quantile(1 - mpf(alarms) / 2)),
                "degrees": (found.degrees_of_freedom, patnaik(d3 ** 2 / (count * d2 ** 2)))}


row("fer_chart_points", """the score of the sixth piece by SciPy's Student's distribution
>>> points = chart_points(["23.51 mm", "23.49 mm", "23.52 mm", "23.50 mm", "23.53 mm", "23.58 mm"], Charting(beyond=2))
>>> f"{points[5].score:.4f}", [signal.name for signal in points[5].signals]
('2.4185', ['BEYOND'])
""", pieces=[{"diameter": (23.4, 23.6), "kind": any_of(0, 1)} for _ in range(14)], charting=CHARTING)


def student_score(t, v):
    tail = student_above(abs(t), v)
    return (1 if t > 0 else -1) * -quantile(tail)


@case("fer_chart_points", "relative", 1e-9, 0.1)
def chart_points(rng):
    """Scores of the last piece, and the sums over all of them."""
    n, deviation = rng.randint(3, 12), 10 ** rng.uniform(-3, -1)
    x = [23.5 + deviation * rng.gauss(0, 1) for _ in range(n)]
    weight, allowance = rng.uniform(0.05, 1), rng.uniform(0.1, 3)
    found = f.chart_points([mm(v) for v in x], f.Charting(weight=weight, allowance=allowance))
    values, ewma, up, score = [mpf(v) for v in x], mpf(0), mpf(0), mpf(0)
    for r in range(3, n + 1):
        before = values[:r - 1]
        mean = sum(before) / (r - 1)
        s = sqrt(sum((v - mean) ** 2 for v in before) / (r - 2))
        score = student_score(sqrt(mpf(r - 1) / r) * (values[r - 1] - mean) / s, r - 2)
        ewma = mpf(weight) * score + (1 - mpf(weight)) * ewma
        up = max(mpf(0), up + score - mpf(allowance))
    return {"score, of 1": (found[-1].score, score, 1 + abs(score)), "ewma, of 1": (found[-1].ewma, ewma, 1 + abs(ewma)),
            "up, of 1": (found[-1].up, up, 1 + up),
            "ewma_limit": (found[-1].ewma_limit, 3 * sqrt(mpf(weight) / (2 - mpf(weight)) * (1 - (1 - mpf(weight)) ** (2 * (n - 2)))))}


row("fer_next_point", """as the list has it
>>> known = Charting(deviation="0.02 mm")
>>> first = next_point("23.51 mm", charting=known)
>>> second = next_point("23.49 mm", first, first, known)
>>> f"{second.score:.4f}"
'-0.7071'
""", judged="the bits of fer_chart_points(), in tests/unit", last=CHART_POINT, last_of_kind=CHART_POINT, piece={"diameter": (23.4, 23.6), "kind": 0},
    charting=CHARTING)


row("fer_find_run_length", """Lucas and Saccucci 1990 (from memory): 500 and 10.3
>>> length = find_run_length(Charting(weight=0.1, limit=2.814), 1)
>>> f"{length.mean_unshifted:.0f} {length.mean:.1f}"
'500 10.3'
""", charting=RUN_CHARTING, shift=any_of(0.0, 0.5, 2.0))


def ewma_length(weight, limit, shift, count=40):
    weight = mpf(weight)
    end = mpf(limit) * sqrt(weight / (2 - weight))
    y, w = gauss(count, -end, end)
    k = matrix(count, count)
    for i in range(count):
        for j in range(count):
            k[i, j] = (1 if i == j else 0) - w[j] / weight * phi((y[j] - (1 - weight) * y[i]) / weight - shift)
    a = lu_solve(k, matrix([1] * count))
    return 1 + sum(w[j] / weight * phi(y[j] / weight - shift) * a[j] for j in range(count))


def cusum_side(k, h, shift, count=40):
    off = mpf(k) - shift
    y, w = gauss(count, mpf(0), mpf(h))
    m = matrix(count + 1, count + 1)
    for i in range(count + 1):
        z = y[i] if i < count else mpf(0)
        for j in range(count):
            m[i, j] = (1 if i == j else 0) - w[j] * phi(y[j] + off - z)
        m[i, count] = (1 if i == count else 0) - below(off - z)
    return lu_solve(m, matrix([1] * (count + 1)))[count]


@case("fer_find_run_length", "relative", 1e-8, 0.001)
def find_run_length(rng):
    """The same integral equations with forty points of one rule, at 25 digits."""
    shift = rng.choice([0.0, 0.5, 1.0, 2.0])
    with mp.workprec(85):
        if rng.random() < 0.5:
            weight, limit = rng.uniform(0.1, 1), rng.uniform(2, 3.2)
            found = f.find_run_length(f.Charting(weight=weight, limit=limit), shift)
            return {"EWMA": (found.mean, ewma_length(weight, limit, shift)), "EWMA, unshifted": (found.mean_unshifted, ewma_length(weight, limit, 0))}
        k, h = rng.uniform(0.25, 1.5), rng.uniform(1, 5)
        found = f.find_run_length(f.Charting(allowance=k, decision=h), shift) if 2 * k * h < 9 else None
        if found is None:
            return None
        return {"CUSUM": (found.mean, 1 / (1 / cusum_side(k, h, shift) + 1 / cusum_side(k, h, -shift)))}


row("fer_find_charting_limit", """Lucas and Saccucci 1990 (from memory): 2.814
>>> f"{find_charting_limit(500, Charting(weight=0.1)).limit:.3f}"
'2.814'
""", judged="fer_find_run_length() at the limit found, and r-cran-spc's limits, in tests/unit", run_length=any_of(100.0, 370.0),
    charting={"weight": any_of(0.0, 0.1, 0.4), "allowance": any_of(0.0, 0.5)})

row("fer_choose_charting", """half the shift to be found, as texts have it, to the hundredth
>>> charting = choose_charting(370, 1, "CUSUM")
>>> f"{charting.allowance:.1f} {charting.decision:.1f}"
'0.5 4.8'
""", judged="neighbouring weights and allowances, in tests/unit", run_length=any_of(100.0, 370.0), shift=any_of(0.5, 1.0, 2.5),
    method=any_of("EWMA", "CUSUM"))

row("fer_find_change", """two levels 0.065 mm apart, by hand; the bound by mpmath
>>> diameters = ["23.50 mm", "23.52 mm", "23.49 mm", "23.51 mm", "23.56 mm", "23.58 mm", "23.57 mm"]
>>> change, places = find_change(diameters)
>>> change.last_before, f"{change.after - change.before:.3f mm} {change.p_upper:.1f %} {places[3]:.0f %}"
(3, '0.065 mm 0.5 % 94 %')
""", pieces=[{"diameter": (23.4, 23.5)} for _ in range(5)] + [{"diameter": (23.45, 23.6)} for _ in range(6)])


@case("fer_find_change", "relative", 1e-9, 0.01)
def find_change(rng):
    n, deviation = rng.randint(4, 14), 10 ** rng.uniform(-3, -1)
    data = [23.5 + deviation * (rng.gauss(0, 1) + (2 if i > n // 2 else 0)) for i in range(n)]
    found, places = f.find_change([mm(v) for v in data])
    with mp.workprec(90):
        x = [mpf(v) for v in data]
        mean = sum(x) / n
        squares = sum((v - mean) ** 2 for v in x)
        between = [sum(v - mean for v in x[:j]) ** 2 * n / (j * (n - j)) for j in range(1, n)]
        weights = [(mpf(j) * (n - j)) ** mpf("-0.5") * (squares - b) ** (-mpf(n - 2) / 2) for j, b in zip(range(1, n), between)]
        j = between.index(max(between)) + 1
        t = sqrt((n - 2) * between[j - 1] / (squares - between[j - 1]))
        c = t / sqrt(n - 2 + t * t)
        bound = 2 * (n - 1) * student_above(t, n - 2)
        for i in range(1, n - 1):
            angle = mp.acos(sqrt(mpf(i) * (n - i - 1) / (mpf(i + 1) * (n - i))))

            def both(a):
                half = mp.acos(min(mpf(1), c / sin(a)))
                return (max(mpf(0), 2 * half - angle) + max(mpf(0), 2 * half - pi + angle)) / pi * (n - 3) * sin(a) * cos(a) ** (n - 4)
            ends = [mp.asin(c / share) for share in (cos(angle / 2), sin(angle / 2)) if c < share]
            if ends:
                bound -= quad(both, ends + [pi / 2])
        return {"t": (found.t_statistic, t), "before": (found.before.mm, sum(x[:j]) / j), "after": (found.after.mm, sum(x[j:]) / (n - j)),
                "p, of 1": (found.p_upper.fraction, min(bound, mpf(1)), mpf(1)),
                "place, of 1": (places[j - 1].fraction, weights[j - 1] / sum(weights), mpf(1))}


row("fer_track_press", """a level between the last checks and their mean; with it goes what the dial takes
>>> checks = [(0, "0.02 mm"), (30, "0.05 mm"), (61, "0.01 mm"), (61, "0.06 mm"), (90, "0.09 mm"), (121, "0.07 mm"), (150, "0.12 mm"), (181, "0.10 mm")]
>>> level = track_press(checks, 181, "0.25 mm", "90 %")
>>> f"{level.level:.3f mm} {level.lower:.3f mm} {level.upper:.3f mm}", level.due, level.due_day
('0.087 mm 0.049 mm 0.127 mm', False, 1051)
""", checks=[{"day": 30 * n, "deviation": (0.01 * n, 0.01 * n + 0.04)} for n in range(8)], today=any_of(210, 230), limit=0.2, coverage=any_of(0.9, 0.95))


def filtered(values, days, ratio, gap):
    level, variance, squares, logs = values[0], mpf(1), mpf(0), mpf(0)
    for i in range(1, len(values)):
        ahead = variance + ratio * (days[i] - days[i - 1]) / gap
        away = values[i] - level
        squares += away ** 2 / (ahead + 1)
        logs += mp.log(ahead + 1)
        level += away * ahead / (ahead + 1)
        variance = ahead / (ahead + 1)
    return level, variance, squares, logs


@case("fer_track_press", "relative", 1e-9, 0.1)
def track_press(rng):
    """Level and uncertainty of the mixture; checks every ten days, none below the step of a gauge."""
    n, walk = rng.randint(4, 30), rng.choice([0.0, 0.01, 0.05])
    level, data = 0.0, []
    for _ in range(n):
        level += walk * rng.gauss(0, 1)
        data.append(level + 0.03 * rng.gauss(0, 1))
    days, ahead = [10 * i for i in range(n)], rng.randint(0, 40)
    found = f.track_press([(day, mm(v)) for day, v in zip(days, data)], days[-1] + ahead, mm(10), "90 %")
    values, v, floor = [mpf(x) for x in data], n - 1, (n - 1) * mpf("0.01") ** 2 / 12
    ratios = [mpf(0)] + [mpf("0.001") * exp(mp.log(mpf(10) ** 5) / 23 * i) for i in range(24)]
    parts = []
    for ratio in ratios:
        at, variance, squares, logs = filtered(values, days, ratio, mpf(10))
        noise = max(squares, floor) / v
        parts.append((at, noise * (variance + ratio * ahead / mpf(10)), exp(-(v * mp.log(noise) + logs) / 2)))
    total = sum(weight for _, _, weight in parts)
    mean = sum(at * weight for at, _, weight in parts) / total
    spread = sum(weight * (square * v / (mpf(v) - 2) + (at - mean) ** 2) for at, square, weight in parts) / total
    results = {"level, of its uncertainty": (found.level.mm, mean, abs(mean) + sqrt(spread)), "uncertainty": (found.uncertainty.mm, sqrt(spread))}
    for end, p in (("lower", mpf("0.05")), ("upper", mpf("0.95"))):
        x = mpf(getattr(found, end).mm)
        share, density = mpf(0), mpf(0)
        for at, square, weight in parts:
            t = (x - at) / sqrt(square)
            share += weight / total * (1 - student_above(t, v) if t > 0 else student_above(-t, v))
            density += weight / total * exp(-mpf(n) / 2 * mp.log(1 + t * t / v)) / (sqrt(v * square) * mp.beta(mpf("0.5"), mpf(v) / 2))
        results[end + ", of its uncertainty"] = (x, x - (share - p) / density, abs(x) + sqrt(spread))
    return results


row("fer_chart_signal_name", """the name is the word itself
>>> chart_signal_name("same side")
'SAME_SIDE'
""", signal=(0, 11))

row("fer_chart_signal_sentence", """the sentence of the list
>>> chart_signal_sentence("beyond")
'this piece is beyond the limit: look at it, and at what was touched before it'
""", signal=(0, 11))
