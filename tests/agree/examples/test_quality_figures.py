# SPDX-License-Identifier: MIT
"""Figures of the report on a batch, computed a second time from the tables with SciPy, by formulas written down here anew."""
import csv
import math
from collections import defaultdict

import numpy
import pytest
from scipy import integrate, optimize, special, stats

from programs import QUALITY, read_quality, run_quality

LOWER, UPPER, TARGET, CONFIDENCE = 23.39, 23.63, 23.51, 0.9
STEP, BLOCKS, EXPANSION = 0.001, 0.0002, 5.8e-5


def table(name):
    lines = (QUALITY / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def number(text):
    return float(text.split()[0])


@pytest.fixture(scope="module", name="figures")
def run():
    output = run_quality()
    assert output.status == 1, output.errors
    return read_quality(output.text).figures



# ---- the gauge ---------------------------------------------------------------------------------------------

def calibration():
    """Bias, its standard uncertainty where it is used; the slope is not significant."""
    rows = [(number(row["block"]), number(row["reading"])) for row in table("blocks")]
    blocks, deviations = numpy.array([block for block, _ in rows]), numpy.array([reading - block for block, reading in rows])
    assert stats.linregress(blocks, deviations).pvalue > 1 - CONFIDENCE
    n, scatter = len(rows), deviations.std(ddof=1)
    u = math.sqrt(scatter**2 / n + BLOCKS**2 + max(0, STEP**2 / 12 - scatter**2 / n) + (TARGET * EXPANSION)**2 / 3)
    return deviations.mean(), u


def study():
    """Repeatability with its degrees of freedom and people, by mean squares of a crossed study; the interaction may be chance."""
    cells = defaultdict(list)
    for row in table("study"):
        cells[int(row["part"]), row["person"]].append(number(row["diameter"]))
    parts, people = sorted({part for part, _ in cells}), sorted({person for _, person in cells})
    x = numpy.array([[cells[part, person] for person in people] for part in parts])
    p, o, r = x.shape
    mean = x.mean()
    ss_part = o * r * ((x.mean(axis=(1, 2)) - mean)**2).sum()
    ss_person = p * r * ((x.mean(axis=(0, 2)) - mean)**2).sum()
    ss_error = ((x - x.mean(axis=2, keepdims=True))**2).sum()
    ss_both = ((x - mean)**2).sum() - ss_part - ss_person - ss_error
    df_both, df_error = (p - 1) * (o - 1), p * o * (r - 1)
    assert stats.f.sf(ss_both / df_both / (ss_error / df_error), df_both, df_error) > 0.05
    ms_error, ms_person, ms_part = (ss_error + ss_both) / (df_error + df_both), ss_person / (o - 1), ss_part / (p - 1)
    people_variance, parts_variance = (ms_person - ms_error) / (p * r), (ms_part - ms_error) / (o * r)
    return math.sqrt(ms_error), df_error + df_both, math.sqrt(people_variance), math.sqrt(parts_variance)


def test_gauge(figures):
    found = figures["GAUGE: MICROMETER 1"]
    bias, u = calibration()
    assert found["reads high by"] == f"{bias:+.4f} mm" and found["correction"] == f"{-bias:+.4f} mm"
    assert found["standard uncertainty of the correction"] == f"{u:.4f} mm"
    repeatability, _, people, parts = study()
    gauge = math.hypot(repeatability, people)
    assert found["repeatability, one person"] == f"{repeatability:.4f} mm"
    assert found["between people"] == f"{people:.4f} mm"
    assert found["gauge and people together"] == f"{gauge:.4f} mm"
    assert found["six of that take of the tolerance"] == f"{100 * 6 * gauge / (UPPER - LOWER):.1f} %"
    assert found["categories of parts that it distinguishes"] == f"{1.41 * parts / gauge:.1f}"


# ---- the presses -------------------------------------------------------------------------------------------

def diameters(press=None):
    bias, _ = calibration()
    return numpy.array([number(row["diameter"]) - bias for row in table("crimps") if press in (None, row["press"])])


def lower_limit_of_index(x):
    """Index of the nearer limit, gauge taken off, and what it is at least: by integrals over the mean and the repeatability."""
    n, nu, s, mean = len(x), len(x) - 1, x.std(ddof=1), x.mean()
    repeatability, nu_gauge, people, _ = study()
    common = math.hypot(people, calibration()[1])
    distance = min(UPPER - mean, mean - LOWER)
    z, dz = numpy.linspace(-6.5, 6.5, 27, retstep=True)
    # the gauge's variance at equally likely places of its chi-square distribution, by Gauss and Legendre
    places, weights = numpy.polynomial.legendre.leggauss(12)
    gauges = numpy.maximum(repeatability**2 * nu_gauge / stats.chi2.ppf((places + 1) / 2, nu_gauge), STEP**2 / 12)

    def reached(c, z, gauge):
        """Probability that the process has the index c, given how far its mean and the gauge are off."""
        def over(sigma):
            return distance + z * math.sqrt(sigma**2 / n + common**2) - 3 * c * math.sqrt(max(0, sigma**2 - gauge))
        low = math.sqrt(gauge)
        if over(low) < 0:
            return 0.0
        high = 2 * low
        while over(high) > 0:
            high *= 2
            if high > 1e3:
                return 1.0
        return stats.chi2.sf(nu * s**2 / optimize.brentq(over, low, high)**2, nu)

    def confidence(c):
        return sum(weight / 2 * dz * sum(stats.norm.pdf(one) * reached(c, one, gauge) for one in z) for weight, gauge in zip(weights, gauges))
    index = distance / (3 * math.sqrt(s**2 - max(repeatability**2, STEP**2 / 12)))
    return index, optimize.brentq(lambda c: confidence(c) - CONFIDENCE, 0.05, index, xtol=1e-4)


@pytest.mark.parametrize("press", ["press 1", "press 2", "press 3", None])
def test_press(figures, press):
    x, found = diameters(press), figures[(press or "whole batch").upper()]
    index, least = lower_limit_of_index(x)
    own = min(UPPER - x.mean(), x.mean() - LOWER) / (3 * index)
    assert found["crimps measured"] == str(len(x))
    assert found["mean"] == f"{x.mean():.3f} mm" and found["standard deviation, gauge taken off"] == f"{own:.4f} mm"
    assert found["index, gauge taken off"] == f"{index:.2f}"
    assert float(found["index, at least"]) == pytest.approx(least, abs=0.011) and float(found["index, at least"]) <= least + 0.001


# ---- the bursts --------------------------------------------------------------------------------------------

def weibull_bound(x, share, confidence):
    """Lawless' conditional bound, all burst, by adaptive integration over the logarithm of the shape."""
    y = numpy.log(x)
    middle = y.mean()
    y, r, w = y - middle, len(y), math.log(-math.log(share))

    def weight(u):
        z = math.exp(u)
        return math.exp((r - 1) * u + z * y.sum() - r * special.logsumexp(z * y))
    whole = integrate.quad(weight, -6, 8, limit=400)[0]

    def reached(t):
        def inner(u):
            z = math.exp(u)
            return weight(u) * special.gammainc(r, math.exp(min(700, w + special.logsumexp(z * y) - z * t)))
        return integrate.quad(inner, -6, 8, limit=400)[0] / whole
    return math.exp(middle + optimize.brentq(lambda t: reached(t) - confidence, -1, 0.2, xtol=1e-10))


def normal_bound(x, share, confidence):
    n = len(x)
    return x.mean() - stats.nct.ppf(confidence, n - 1, math.sqrt(n) * stats.norm.ppf(share)) / math.sqrt(n) * x.std(ddof=1)


def test_independent_bound_is_that_of_the_manual():
    assert weibull_bound(numpy.array([1180, 1220, 1245, 1262, 1290]), 0.95, 0.9) == pytest.approx(1053.0035, abs=1e-3)


def test_bursts(figures):
    x, found = numpy.array([number(row["pressure"]) for row in table("bursts")]), figures["BURSTS"]
    assert found["has to hold"] == f"{4 * 275} bar" and found["burst, stopped"] == f"{len(x)}, 0"
    assert found["95 % hold, Weibull"] == f"{math.floor(weibull_bound(x, 0.95, CONFIDENCE))} bar"
    assert found["95 % hold, normal"] == f"{math.floor(normal_bound(x, 0.95, CONFIDENCE))} bar"
    assert found["95 % hold, lognormal"] == f"{math.floor(math.exp(normal_bound(numpy.log(x), 0.95, CONFIDENCE)))} bar"
    assert found["95 % hold, no shape"] == "none", "0.95^5 = 0.774: five show nothing with 90 %"
