# SPDX-License-Identifier: MIT
"""Charts and levels against SciPy and statsmodels, with fixed seeds; run lengths against R's package spc where it is installed."""
import math
import pathlib
import random
import re
import shutil
import subprocess

import numpy as np
import pytest
from scipy import optimize, stats

import ferrule
from ferrule import mm

R = shutil.which("Rscript")
MANUAL = pathlib.Path(__file__).resolve().parents[3] / "docs" / "chart.md"


def r_says(program):
    return [float(x) for x in subprocess.run([R, "-e", "options(digits = 15); " + program], capture_output=True, text=True, check=True).stdout.split()]


def has_spc():
    return R is not None and subprocess.run([R, "-e", "library(spc)"], capture_output=True).returncode == 0


@pytest.mark.parametrize("n", [2, 5, 12, 40])
def test_ranges_against_the_studentized_range(n):
    figures = ferrule.ChartFigures(mm(50), mm(1), 12, n)
    found = ferrule.find_limits_from_figures(figures, "means by range", ferrule.LimitRule("expected", "1 %"))
    expected = stats.studentized_range.ppf([0.005, 0.995], n, found.degrees_of_freedom)
    assert [found.scatter.lower.mm / found.deviation.mm, found.scatter.upper.mm / found.deviation.mm] == pytest.approx(list(expected), rel=1e-7)
    constants = ferrule.find_chart_constants(n, 12)
    assert found.deviation.mm == pytest.approx(1 / constants.range_root_mean_square, rel=1e-12)
    assert found.factor == pytest.approx(stats.t.isf(0.005, found.degrees_of_freedom) * math.sqrt(1 + 1 / 12), rel=1e-8)


def test_moving_ranges_by_simulation():
    """Degrees of freedom of the mean moving range, by the variance of a hundred thousand of them."""
    rng = np.random.default_rng(20261201)
    for n in (3, 10, 30):
        means = np.abs(np.diff(rng.normal(size=(100000, n)), axis=1)).mean(1)
        relative = means.var() / means.mean() ** 2
        found = ferrule.find_limits_from_figures(ferrule.ChartFigures(mm(50), mm(1), n), "singles by range").degrees_of_freedom
        assert found == pytest.approx(1 / (2 * (math.sqrt(1 + 2 * relative) - 1)), rel=0.02)


@pytest.mark.parametrize("seed", range(5))
def test_scores(seed):
    rng = random.Random(seed)
    x = [23.5 + 0.03 * rng.gauss(0, 1) for _ in range(12)]
    points = ferrule.chart_points([mm(v) for v in x])
    for r in range(3, 13):
        before = np.array(x[:r - 1])
        t = math.sqrt((r - 1) / r) * (x[r - 1] - before.mean()) / before.std(ddof=1)
        assert points[r - 1].score == pytest.approx(stats.norm.ppf(stats.t.cdf(t, r - 2)), abs=1e-9)


def nystrom(weight, limit, shift, points=90):
    x, w = np.polynomial.legendre.leggauss(points)
    end = limit * math.sqrt(weight / (2 - weight))
    y, w = end * x, end * w
    kernel = w / weight * stats.norm.pdf((y[None, :] - (1 - weight) * y[:, None]) / weight - shift)
    lengths = np.linalg.solve(np.eye(points) - kernel, np.ones(points))
    return 1 + (w / weight * stats.norm.pdf(y / weight - shift)) @ lengths


@pytest.mark.parametrize("seed", range(20))
def test_run_lengths_by_one_fine_rule(seed):
    """Ninety points of one rule where the library has two or three panels of sixteen."""
    rng = random.Random(seed)
    weight = rng.uniform(0.05, 1)
    limit = rng.uniform(0.5, min(3.5, 12 * math.sqrt(weight * (2 - weight))))
    shift = rng.choice([0.0, 0.3, 1.0, 4.0])
    found = ferrule.find_run_length(ferrule.Charting(weight=weight, limit=limit), shift)
    assert found.mean == pytest.approx(nystrom(weight, limit, shift), rel=1e-8)


@pytest.mark.parametrize("seed", range(4))
def test_run_rules_by_simulation(seed):
    """Signals of fer_chart_points() itself against the chain: both have the rules once more."""
    charting = [{"beyond": 2.5}, {"two_of_three": True}, {"four_of_five": True}, {"beyond": 3.0, "two_of_three": True, "four_of_five": True, "same_side": 6}][seed]
    rng = random.Random(20261201 + seed)
    known = ferrule.Charting(**charting, deviation="0.01 mm", centre="23.5 mm")
    lengths = []
    while len(lengths) < 1500:
        points = ferrule.chart_points([mm(23.5 + 0.01 * rng.gauss(1.0, 1)) for _ in range(600)], known)
        lengths.append(next(i + 1 for i, p in enumerate(points) if p.signals))
    expected = ferrule.find_run_length(ferrule.Charting(**charting), 1).mean
    assert np.mean(lengths) == pytest.approx(expected, abs=4 * np.std(lengths) / math.sqrt(len(lengths)))


def test_the_table_of_the_manual():
    rows = re.findall(r"^\| (one beyond 3|all four rules|weighted mean, .*?|sums, .*?) \| (\d+) \| (\d+) \| ([\d.]+) \| ([\d.]+) \|$",
                      MANUAL.read_text(encoding="utf-8"), re.MULTILINE)
    chartings = [ferrule.Charting(beyond=3), ferrule.Charting(beyond=3, two_of_three=True, four_of_five=True, same_side=8),
                 ferrule.find_charting_limit(370, ferrule.Charting(weight=0.1)), ferrule.Charting(allowance=0.5, decision=4.77)]
    assert len(rows) == len(chartings)
    for (_, *printed), charting in zip(rows, chartings):
        for text, shift in zip(printed, (0, 0.5, 1, 2)):
            digits = len(text.partition(".")[2])
            assert f"{ferrule.find_run_length(charting, shift).mean:.{digits}f}" == text


@pytest.mark.skipif(not has_spc(), reason="R's package spc is not installed")
def test_against_spc():
    """Run lengths and limits of Knoth's package (two-sided, fixed limits; CUSUM by 1/A = 1/A+ + 1/A-)."""
    for weight, limit, shift in ((0.1, 2.7, 0.0), (0.3, 2.9, 1.0), (0.05, 2.5, 0.5)):
        expected, = r_says(f"cat(spc::xewma.arl({weight}, {limit}, {shift}, sided = 'two', r = 60))")
        assert ferrule.find_run_length(ferrule.Charting(weight=weight, limit=limit), shift).mean == pytest.approx(expected, rel=1e-7)
    for k, h, shift in ((0.5, 4.0, 0.0), (0.25, 6.0, 1.0), (1.0, 2.0, 2.0)):
        one, other = r_says(f"cat(spc::xcusum.arl({k}, {h}, {shift}, sided = 'one', r = 60), spc::xcusum.arl({k}, {h}, {-shift}, sided = 'one', r = 60))")
        found = ferrule.find_run_length(ferrule.Charting(allowance=k, decision=h), shift).mean
        assert found == pytest.approx(1 / (1 / one + 1 / other), rel=1e-6)
    limit, = r_says("cat(spc::xewma.crit(0.15, 400, sided = 'two', r = 60))")
    assert ferrule.find_charting_limit(400, ferrule.Charting(weight=0.15)).limit == pytest.approx(limit, abs=1e-6)


def kalman(y, days, ratio, gap):
    level, variance, squares, logs = y[0], 1.0, 0.0, 0.0
    for i in range(1, len(y)):
        ahead = variance + ratio * (days[i] - days[i - 1]) / gap
        away = y[i] - level
        squares += away ** 2 / (ahead + 1)
        logs += math.log(ahead + 1)
        level += away * ahead / (ahead + 1)
        variance = ahead / (ahead + 1)
    return level, variance, squares, logs


@pytest.mark.parametrize("seed", range(6))
def test_press_by_a_mixture(seed):
    rng = np.random.default_rng(seed)
    n, gap = int(rng.integers(4, 40)), 7
    y = np.cumsum(rng.normal(0, 0.02, n)) + rng.normal(0, 0.03, n)
    days = gap * np.arange(n)
    today = int(days[-1]) + int(rng.integers(0, 60))
    found = ferrule.track_press([(int(d), mm(v)) for d, v in zip(days, y)], today, "0.2 mm", "90 %")
    ratios = np.concatenate([[0.0], 1e-3 * np.exp(math.log(1e5) / 23 * np.arange(24))])
    levels, variances, squares, logs = np.array([kalman(y, days, ratio, gap) for ratio in ratios]).T
    squares = np.maximum(squares, (n - 1) * 0.01 ** 2 / 12)
    weights = -0.5 * ((n - 1) * np.log(squares) + logs)
    weights = np.exp(weights - weights.max())
    weights /= weights.sum()

    def below(x, day):
        scales = np.sqrt((variances + ratios * (day - days[-1]) / gap) * squares / (n - 1))
        return weights @ stats.t.cdf((x - levels) / scales, n - 1)
    assert found.level.mm == pytest.approx(weights @ levels, abs=1e-9)
    assert below(found.lower.mm, today) == pytest.approx(0.05, abs=1e-9)
    assert below(found.upper.mm, today) == pytest.approx(0.95, abs=1e-9)

    def outside(day):
        return below(-0.2, day) + 1 - below(0.2, day)
    assert found.due == (outside(today) > 0.1)
    if found.due_found and not found.due:
        assert outside(found.due_day) > 0.1 >= outside(found.due_day - 1)


def test_the_likeliest_walk_against_statsmodels():
    structural = pytest.importorskip("statsmodels.tsa.statespace.structural")
    rng = np.random.default_rng(5)
    y = np.cumsum(rng.normal(0, 0.6, 80)) + rng.normal(0, 1, 80)
    found = ferrule.track_press([(i, mm(v)) for i, v in enumerate(y)], 79, "900 mm", "90 %")
    model = structural.UnobservedComponents(y, "local level", use_exact_diffuse=True)
    fit = model.fit(disp=0, method="nm", maxiter=4000, xtol=1e-10, ftol=1e-12)
    noise, walk = fit.params
    assert found.crimp_deviation.mm ** 2 == pytest.approx(noise, rel=1e-3)
    assert found.walk_per_root_day.mm ** 2 == pytest.approx(walk, rel=1e-3)
    ratio = walk / noise
    assert found.weight == pytest.approx((math.sqrt(ratio ** 2 + 4 * ratio) - ratio) / 2, rel=1e-3)


def test_what_the_dial_takes():
    """The hand-over of the manual: the members go in as they come."""
    checks = [(0, "0.02 mm"), (30, "0.05 mm"), (61, "0.01 mm"), (90, "0.09 mm"), (121, "0.07 mm"), (150, "0.12 mm")]
    level = ferrule.track_press(checks, 160, "0.25 mm", "90 %")
    adjusting = ferrule.Adjusting(crimp_deviation=level.crimp_deviation, setting_deviation=level.uncertainty)
    before = ferrule.expected_deviation(ferrule.DialScale(), 0, adjusting)
    assert before.setting.mm == pytest.approx(level.uncertainty.mm, rel=1e-12)
    assert before.diameter.mm == pytest.approx(math.hypot(level.uncertainty.mm, level.crimp_deviation.mm), rel=1e-12)
    diagnosing = ferrule.Diagnosing(crimp_deviation=level.crimp_deviation, drift_deviation=level.uncertainty)
    assert diagnosing.drift_deviation == level.uncertainty


@pytest.mark.parametrize("seed", range(8))
def test_a_change(seed):
    """Place, statistic and probabilities by NumPy."""
    rng = np.random.default_rng(seed)
    n = int(rng.integers(4, 60))
    x = 23.5 + rng.normal(0, 0.03, n) + 0.06 * (np.arange(n) > n // 3)
    found, places = ferrule.find_change([mm(v) for v in x])
    j = np.arange(1, n)
    between = np.cumsum(x - x.mean())[:-1] ** 2 * n / (j * (n - j))
    rest = ((x - x.mean()) ** 2).sum() - between
    weights = -0.5 * np.log(j * (n - j)) - (n - 2) / 2 * np.log(rest)
    weights = np.exp(weights - weights.max())
    assert [p.fraction for p in places] == pytest.approx(list(weights / weights.sum()), abs=1e-9)
    t = math.sqrt(((n - 2) * between / rest).max())
    assert found.t_statistic == pytest.approx(t, rel=1e-9)
    assert 2 * stats.t.sf(t, n - 2) <= found.p_upper.fraction * (1 + 1e-9)
    assert found.p_upper.fraction <= min(1, 2 * (n - 1) * stats.t.sf(t, n - 2)) + 1e-12
    held = np.array([p.fraction for p in places])
    assert held[found.earliest:found.latest + 1].sum() >= 0.9 - 1e-12


def test_the_chart_that_is_chosen():
    """The best weight by SciPy's bounded search on the library's own run lengths."""
    chosen = ferrule.choose_charting(370, 1.5, "EWMA")

    def length(weight):
        return ferrule.find_run_length(ferrule.find_charting_limit(370, ferrule.Charting(weight=weight)), 1.5).mean
    best = optimize.minimize_scalar(length, bounds=(0.06, 0.95), method="bounded", options={"xatol": 1e-4}).x
    assert chosen.weight == pytest.approx(best, abs=0.011)
