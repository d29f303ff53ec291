# SPDX-License-Identifier: MIT
"""Rows of adjust.h."""
from catalogue.shared import *  # noqa: F403

row("fer_correct_dial", """0.10 mm too large at 1.51: 1.41, by hand
>>> trials = [Trial(setting="1.51 mm", diameter="23.61 mm")]
>>> f"{correct_dial(DialScale(), trials, '23.51 mm').setting:.2f mm}"
'1.41 mm'
""", scale={"graduation": any_of(0.0, 0.05)}, target=(20, 30), trials=repeated(4, {"setting": (1, 1.5), "diameter": plus("target", -0.2, 0.2)}),
    limits={"lower": plus("target", -0.2, -0.1), "upper": plus("target", 0.1, 0.2)}, adjusting={"crimp_deviation": 0.05,
    "setting_deviation": 0.25})


@case("fer_correct_dial", "relative", 1e-12, 0.2)
def correct_dial(rng):
    target = length(rng, 1, 1e4)
    sigma, tau, gain = 10 ** rng.uniform(-3, -1), 10 ** rng.uniform(-2, 0), rng.uniform(0.5, 2)
    trials = [(5 + rng.gauss(0, tau), target + rng.gauss(0, sigma)) for _ in range(rng.randint(1, 8))]
    found = f.correct_dial(f.DialScale(), [f.Trial(mm(s), mm(d)) for s, d in trials], mm(target),
                           (mm(target - 3 * sigma), mm(target + 3 * sigma)),
                           f.Adjusting(mm(sigma), mm(tau), f.fraction(gain)))
    g, ratio, first = mpf(gain), (mpf(sigma) / mpf(tau)) ** 2, mpf(trials[0][0])
    errors = [mpf(d) - mpf(target) - g * (mpf(s) - first) for s, d in trials]
    weight = 1 / (len(trials) + ratio)
    estimate = sum(errors) * weight
    deviation = estimate + g * (mpf(trials[-1][0]) - first)
    width = mpf(sigma) * sqrt(1 + weight)
    low, high = mpf(target - 3 * sigma), mpf(target + 3 * sigma)
    now = ref.ncdf((high - mpf(target) - deviation) / width) - ref.ncdf((low - mpf(target) - deviation) / width)
    return {"exact": (found.exact.mm, first - estimate / g, mpf(target)),
            "deviation, of the target": (found.deviation.mm, deviation, mpf(target)),
            "uncertainty": (found.uncertainty.value.mm, mpf(sigma) * sqrt(weight)),
            "probability_now, of target by deviation": (found.probability_now.value.fraction, now, mpf(target) / mpf(sigma))}


row("fer_expected_deviation", """0.06/sqrt(4), by hand
>>> f"{expected_deviation(DialScale(), 4, Adjusting(crimp_deviation='0.06 mm')).setting:.3f mm}"
'0.030 mm'
""", scale={"graduation": any_of(0.0, 0.05)}, trials=(0, 9), adjusting={"crimp_deviation": (0.01, 0.1), "setting_deviation": (0.1, 0.3)})


@case("fer_expected_deviation", "ulp", 2)
def expected_deviation(rng):
    sigma, tau, gain = 10 ** rng.uniform(-4, 2), 10 ** rng.uniform(-4, 2), rng.uniform(0.1, 10)
    step, n = rng.choice([0.0, 0.1]), rng.choice([0, 1, 1000000, rng.randint(1, 50)])
    found = f.expected_deviation(f.DialScale(mm(step)), n, f.Adjusting(mm(sigma), mm(tau), f.fraction(gain)))
    s, t = mpf(sigma) ** 2, mpf(tau) ** 2
    setting = s / (n + s / t) + ((mpf(step) * mpf(gain)) ** 2 / 12 if n else 0)
    return {"setting": (found.setting.mm, sqrt(setting)), "diameter": (found.diameter.mm, sqrt(setting + s))}


row("fer_fit_calibration", """a slope of 1 through the means 20 and 20.1, by hand
>>> line = fit_calibration([("10 mm", "10.12 mm"), ("20 mm", "20.06 mm"), ("30 mm", "30.12 mm")])
>>> f"{line.slope:.3f fraction}", f"{line.intercept:.3f mm}"
('1.000 fraction', '0.100 mm')
""", points=[{"set": at, "measured": (at - 0.05, at + 0.1)} for at in range(10, 45, 5)])


def calibration(rng):
    n, weighted = rng.randint(3, 12), rng.random() < 0.5
    xs = [rng.uniform(10, 100) for _ in range(n)]
    ys = [x * 1.001 + 0.05 * rng.gauss(0, 1) for x in xs]
    us = [rng.uniform(0.01, 0.1) if weighted else 0.0 for _ in range(n)]
    found = f.fit_calibration([f.CalibrationPoint(mm(x), mm(y), mm(u)) for x, y, u in zip(xs, ys, us)])
    *fitted, scatter, n = line(xs, ys, [1 / mpf(u) ** 2 if weighted else mpf(1) for u in us])
    # not below the uncertainty of a point of mean weight, or the rectangular share of a step of 0.01 mm
    floor = sqrt(n / sum(1 / mpf(u) ** 2 for u in us)) if weighted else mpf("0.01") / sqrt(mpf(12))
    return found, (*fitted, max(scatter, floor), n)


@case("fer_fit_calibration", "relative", 1e-12)
def fit_calibration(rng):
    found, (mean_x, mean_y, squares, slope, scatter, n) = calibration(rng)
    intercept = mean_y - slope * mean_x
    return {"slope": (found.slope.fraction, slope), "intercept, of the mean": (found.intercept.mm, intercept, mean_y),
            "scatter": (found.scatter.mm, scatter), "slope_uncertainty": (found.slope_uncertainty.fraction, scatter / sqrt(squares)),
            "intercept_uncertainty": (found.intercept_uncertainty.mm, scatter * sqrt(mpf(1) / n + mean_x**2 / squares))}


row("fer_predict_diameter", """on the line of fit_calibration(): 25 + 0.1, by hand
>>> line = fit_calibration([("10 mm", "10.12 mm"), ("20 mm", "20.06 mm"), ("30 mm", "30.12 mm")])
>>> f"{predict_diameter(line, '25 mm', '95 %').value:.2f mm}"
'25.10 mm'
""")


@case("fer_predict_diameter", "relative", 1e-12, 0.1)
def predict_diameter(rng):
    c, _ = calibration(rng)
    at, coverage = rng.uniform(10, 100), rng.choice([0.5, 0.95, 0.99])
    found = f.predict_diameter(c, mm(at), f.fraction(coverage))
    t = quantile(0.5 - 0.5 * coverage, c.count - 2)
    away = mpf(at) - mpf(c.set_mean.mm)
    value = mpf(c.measured_mean.mm) + mpf(c.slope.fraction) * away
    half = t * mpf(c.scatter.mm) * sqrt(1 + mpf(1) / c.count + away**2 / mpf(c.set_squares.mm2))
    return {"value": (found.value.mm, value), "lower": (found.lower.mm, value - half, value), "upper": (found.upper.mm, value + half)}


row("fer_find_set", """on the line of fit_calibration(), backwards: 25.1 - 0.1, by hand
>>> line = fit_calibration([("10 mm", "10.12 mm"), ("20 mm", "20.06 mm"), ("30 mm", "30.12 mm")])
>>> f"{find_set(line, '25.1 mm', '95 %').value:.2f mm}"
'25.00 mm'
""")


@case("fer_find_set", "relative", 1e-12, 0.1)
def find_set(rng):
    c, _ = calibration(rng)
    wanted, coverage = rng.uniform(10, 100), rng.choice([0.5, 0.95, 0.99])
    found = f.find_set(c, mm(wanted), f.fraction(coverage))
    half = quantile(0.5 - 0.5 * coverage, c.count - 2) * mpf(c.scatter.mm)
    b, d, squares = mpf(c.slope.fraction), mpf(wanted) - mpf(c.measured_mean.mm), mpf(c.set_squares.mm2)
    # (d - b x)^2 = half^2 (1 + 1/n + x^2/squares), x from the mean
    p, q, r = b**2 - half**2 / squares, -2 * b * d, d**2 - half**2 * (1 + mpf(1) / c.count)
    root, mean = sqrt(q**2 - 4 * p * r), mpf(c.set_mean.mm)
    scale = max(abs(mean), abs(-q + root) / p)
    if p < b**2 / 100:
        return None  # the limits run off to infinity: no digits are left to compare
    return {"value": (found.value.mm, mean + d / b, scale), "lower": (found.lower.mm, mean + (-q - root) / (2 * p), scale),
            "upper": (found.upper.mm, mean + (-q + root) / (2 * p), scale)}


row("fer_check_drift", """0.01 mm in 100 days are 0.0365 mm in 365
>>> checks = [(0, "0.001 mm"), (100, "0.009 mm"), (200, "0.021 mm"), (300, "0.029 mm")]
>>> drift = check_drift(checks, 310, "0.05 mm", "95 %")
>>> drift.drifting, f"{drift.change_per_year:.2f mm}"
(True, '0.04 mm')
""", checks=[{"day": (30 * n, 30 * n + 9), "deviation": (0.01 * n, 0.01 * n + 0.04)} for n in range(8)], today=300,
    limit=0.2, coverage=0.95)


@case("fer_check_drift", "relative", 1e-12, 0.2)
def check_drift(rng):
    n = rng.randint(3, 20)
    days = sorted(rng.randint(0, 2000) for _ in range(n))
    values = [1e-4 * day + 0.01 * rng.gauss(0, 1) for day in days]
    today = days[-1] + rng.randint(0, 100)
    found = f.check_drift([f.DriftPoint(day, mm(v)) for day, v in zip(days, values)], today, mm(1), f.fraction(0.95))
    mean_x, mean_y, squares, slope, scatter, n = line(days, values, [mpf(1)] * n)
    scatter = max(scatter, mpf("0.01") / sqrt(mpf(12)))  # the rectangular share of a step
    away = today - mean_x
    return {"deviation, of the largest part": (found.deviation.mm, mean_y + slope * away, abs(mean_y) + abs(slope * away)),
            "uncertainty": (found.uncertainty.mm, scatter * sqrt(mpf(1) / n + away**2 / squares)),
            "change_per_year": (found.change_per_year.mm, mpf(365.25) * slope), "scatter": (found.scatter.mm, scatter)}
