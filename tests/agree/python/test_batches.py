# SPDX-License-Identifier: MIT
"""Samples and gauge studies against SciPy, with fixed seeds; against R where it is installed (ring `all` of a machine that has it)."""
import math
import random
import shutil
import subprocess

import numpy as np
import pytest
from scipy import optimize, stats

import ferrule
from ferrule import mm

R = shutil.which("Rscript")


def known(count, mean, deviation):
    return ferrule.SampleSummary(count, mm(mean), ferrule.FoundLength(mm(deviation)))


@pytest.mark.parametrize("seed", range(20))
def test_limits_of_an_index(seed):
    """SciPy's noncentral t, solved for the shift; its absolute error is about 1e-11."""
    rng = random.Random(seed)
    n, confidence, distance = rng.randint(2, 50), rng.choice([0.6, 0.9, 0.95]), rng.uniform(1, 6)
    found = ferrule.find_capability(known(n, 20, 1), ferrule.Wanted((mm(0), mm(20 + distance)), side="upper"), ferrule.fraction(confidence))
    root = math.sqrt(n)
    for share, limit in ((confidence, found.nearer.lower), (1 - confidence, found.nearer.upper)):
        shift = optimize.brentq(lambda d: stats.nct.cdf(distance * root, n - 1, d) - share, -10, 3 * distance * root + 20, xtol=1e-12)
        assert limit == pytest.approx(shift / (3 * root), rel=1e-7, abs=1e-9)


@pytest.mark.parametrize("seed", range(20))
def test_tolerance_factors(seed):
    rng = random.Random(seed)
    n, content, confidence = rng.randint(2, 60), rng.choice([0.9, 0.95, 0.99]), rng.choice([0.6, 0.9, 0.95])
    found = ferrule.find_tolerance_factor(n, 0, ferrule.fraction(content), ferrule.fraction(confidence), "upper")
    assert found == pytest.approx(stats.nct.ppf(confidence, n - 1, math.sqrt(n) * stats.norm.ppf(content)) / math.sqrt(n), rel=1e-7)
    both = ferrule.find_tolerance_factor(n, 0, ferrule.fraction(content), ferrule.fraction(confidence), "both")
    z, weights = np.polynomial.legendre.leggauss(400)
    z, weights = 9 * z, 9 * weights * stats.norm.pdf(9 * z)
    reach = [optimize.brentq(lambda r, a=a: stats.norm.cdf(a + r) - stats.norm.cdf(a - r) - content, 0, abs(a) + 10) for a in z / math.sqrt(n)]
    held = (weights * stats.chi2.sf((n - 1) * np.square(reach) / both ** 2, n - 1)).sum()
    assert held == pytest.approx(confidence, abs=1e-9)


@pytest.mark.parametrize("seed", range(20))
def test_normality_and_groups(seed):
    rng = random.Random(seed)
    n = rng.randint(8, 60)
    values = [23.5 + 0.03 * rng.gauss(0, 1) + (0.05 if rng.random() < 0.2 else 0) for _ in range(n)]
    normality, _ = ferrule.test_normality([mm(x) for x in values])
    shapiro = stats.shapiro(values)
    assert normality.shapiro == pytest.approx(shapiro.statistic, abs=1e-6)
    assert normality.shapiro_p.fraction == pytest.approx(shapiro.pvalue, rel=1e-4, abs=1e-6)
    assert normality.anderson == pytest.approx(stats.anderson(values).statistic, abs=1e-9)
    summary = ferrule.summarise_sample([(mm(x), i % 3) for i, x in enumerate(values)])
    groups = [[x for i, x in enumerate(values) if i % 3 == k] for k in range(3)]
    assert summary.groups_p.value.fraction == pytest.approx(stats.f_oneway(*groups).pvalue, abs=1e-9)


@pytest.mark.parametrize("seed", range(10))
def test_shares_outside(seed):
    """Both limits together by an integral over the deviation where the library has one over the mean."""
    rng = random.Random(seed)
    n, confidence = rng.choice([5, 10, 30]), rng.choice([0.9, 0.95])
    low, high = rng.uniform(2.5, 4), rng.uniform(2.5, 4)
    found = ferrule.find_share_outside(known(n, 20, 1), ferrule.Wanted((mm(20 - low), mm(20 + high))), ferrule.fraction(confidence))
    share, x = found.outside_upper.fraction, 0.5 * (high - low)
    width = 0.5 * (low + high)

    def farthest(sigma):
        """How far the mean may be from the middle of the limits."""
        outside = lambda d: stats.norm.cdf((d - width) / sigma) + stats.norm.cdf((-d - width) / sigma) - share  # noqa: E731
        return optimize.brentq(outside, 0, width + 40 * sigma) if outside(0) < 0 else -1.0

    largest = width / -stats.norm.ppf(share / 2)
    nodes, weights = np.polynomial.legendre.leggauss(300)
    ends = np.array([(n - 1) / largest ** 2, stats.chi2.isf(1e-13, n - 1)])
    root = math.sqrt(ends[1] - ends[0])  # the integrand begins like a root
    places = ends[0] + (0.5 * root * (nodes + 1)) ** 2
    held = 0.0
    for place, weight, node in zip(places, weights, nodes):
        sigma = math.sqrt((n - 1) / place)
        reach, error = farthest(sigma), sigma / math.sqrt(n)
        if reach >= 0:
            inside = stats.norm.cdf((x + reach) / error) - stats.norm.cdf((x - reach) / error)
            held += weight * 0.5 * root * root * (node + 1) * stats.chi2.pdf(place, n - 1) * inside
    assert held == pytest.approx(confidence, abs=2e-6)


@pytest.mark.parametrize("seed", range(10))
def test_opinions(seed):
    rng = random.Random(seed)
    bad = rng.randint(5, 60)
    passed = [rng.random() < 0.2 for _ in range(bad)]
    found = ferrule.find_agreement([(i, 0, 1 if p else 2, 2) for i, p in enumerate(passed)] + [(0, 1, 1 if passed[0] else 2, 2)], "95 %")
    wrong = sum(passed) + passed[0]
    assert found.bad_passed_upper.fraction == pytest.approx(stats.beta.ppf(0.95, wrong + 1, bad + 1 - wrong), rel=1e-9)


@pytest.mark.skipif(R is None, reason="R is not installed")
def test_against_r():
    """R's noncentral t below the shift where it becomes an approximation, its chi-square and Shapiro and Wilk's test."""
    program = ("options(digits = 15); n <- 10; x <- c(148, 154, 158, 160, 161, 162, 166, 170, 182, 195, 236);"
               "d <- uniroot(function(d) pt(4*sqrt(n), n - 1, d) - 0.9, c(0, 30), tol = 1e-13)$root;"
               "s <- shapiro.test(x); cat(d/(3*sqrt(n)), sqrt(qchisq(0.1, 9)/9), s$statistic, s$p.value)")
    limit, ratio, w, p = map(float, subprocess.run([R, "-e", program], capture_output=True, text=True, check=True).stdout.split())
    found = ferrule.find_capability(known(10, 20, 1), ferrule.Wanted((mm(16), mm(24))), "90 %")
    assert found.nearer.lower == pytest.approx(limit, rel=1e-9)
    assert found.potential.lower / found.potential.value == pytest.approx(ratio, rel=1e-12)
    normality, _ = ferrule.test_normality([mm(v) for v in (148, 154, 158, 160, 161, 162, 166, 170, 182, 195, 236)])
    assert normality.shapiro == pytest.approx(w, rel=1e-9)
    assert normality.shapiro_p.fraction == pytest.approx(p, rel=1e-7)
