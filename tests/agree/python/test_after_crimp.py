# SPDX-License-Identifier: MIT
"""Readings, verdict, correction, causes against second opinions: NumPy, SciPy; and properties that must hold anywhere."""
import math

import numpy
import pytest
import scipy.integrate
import scipy.stats
from hypothesis import assume, given, settings, strategies as st

import ferrule
from ferrule import Guard, Look, Marks, Order, Piece, Press, Prior, Process, Reading, mm, rad

normal = scipy.stats.norm
diameters = st.lists(st.floats(20, 21), min_size=3, max_size=40)
RACK = ["20 mm", "22 mm", "25 mm", "28 mm"]


def readings_of(values, sections=None, angles=None):
    return [Reading(diameter=mm(v), section=0 if sections is None else int(sections[i]),
                    angle=rad(0 if angles is None else angles[i]), angle_known=angles is not None)
            for i, v in enumerate(values)]


@given(diameters)
def test_summary_is_numpys(values):
    summary = ferrule.summarise_readings(readings_of(values), ferrule.Gauge())
    assert summary.mean.mm == pytest.approx(numpy.mean(values), abs=1e-13)
    assert summary.scatter.value.mm == pytest.approx(numpy.std(values, ddof=1), abs=1e-12)
    assert summary.range.mm == pytest.approx(numpy.ptp(values), abs=1e-14)


@given(diameters, st.integers(0, 1000))
def test_grubbs_by_scipy(values, seed):
    assume(numpy.ptp(values) > 1e-6)
    rng = numpy.random.default_rng(seed)
    values = numpy.array(values) + rng.normal(0, 0.1, len(values))
    n, deviates = len(values), numpy.abs(values - values.mean()) / values.std(ddof=1)
    t = scipy.stats.t.ppf(1 - 0.05 / (2 * n), n - 2)
    critical = (n - 1) * t / math.sqrt(n * (n - 2 + t * t))
    assume(abs(deviates.max() - critical) > 1e-9)
    summary = ferrule.summarise_readings(readings_of(values), ferrule.Gauge())
    assert summary.outlier_found == (deviates.max() > critical)
    assert summary.outlier_index == deviates.argmax()


@settings(deadline=None)
@given(st.integers(0, 10**6), st.integers(3, 12))
def test_lobes_by_numpys_least_squares(seed, segments):
    rng = numpy.random.default_rng(seed)
    angles, sections = rng.uniform(0, 2 * math.pi, 40), rng.integers(0, 3, 40)
    assume(len(set(sections)) == 3)
    h = segments if segments % 2 == 0 else 2 * segments
    columns = [sections == k for k in range(3)]
    columns += [numpy.cos(2 * angles), numpy.sin(2 * angles), numpy.cos(h * angles), numpy.sin(h * angles)]
    matrix = numpy.array(columns, float).T
    values = 23 + rng.normal(0, 0.05, 40)
    solution, rest, rank, _ = numpy.linalg.lstsq(matrix, values, rcond=None)
    assume(rank == 7)
    fit = ferrule.fit_lobes(readings_of(values, sections, angles), ferrule.Gauge(), Marks(segments=segments))
    assert fit.mean.mm == pytest.approx(solution[:3].mean(), abs=1e-10)
    assert fit.ovality.mm == pytest.approx(2 * math.hypot(*solution[3:5]), abs=1e-10)
    assert fit.lobe.mm == pytest.approx(2 * math.hypot(*solution[5:7]), abs=1e-10)
    assert fit.scatter.value.mm == pytest.approx(math.sqrt(rest[0] / 33), abs=1e-10)
    weights = numpy.array([1 / 3] * 3 + [0] * 4)
    factor = weights @ numpy.linalg.inv(matrix.T @ matrix) @ weights
    assert fit.mean_uncertainty.mm == pytest.approx(math.sqrt(rest[0] / 33 * factor), abs=1e-10)


@given(st.floats(22.5, 24.5), st.floats(0.001, 0.2))
def test_conformity_probability_by_scipy(value, u):
    verdict = ferrule.judge(mm(value), mm(u), ("23 mm", "24 mm"))
    expected = normal.cdf((24 - value) / u) - normal.cdf((23 - value) / u)
    assert verdict.conforming.fraction == pytest.approx(expected, abs=1e-14)
    assert verdict.above.fraction == pytest.approx(normal.sf((24 - value) / u), rel=1e-11, abs=1e-300)
    if verdict.decision == ferrule.Decision.ACCEPT:
        assert expected >= 0.95
    if verdict.decision == ferrule.Decision.REJECT:
        assert expected <= 0.05


@given(st.floats(22.5, 24.5), st.floats(0.001, 0.1), st.floats(1, 50))
def test_conformity_probability_with_degrees_of_freedom(value, u, degrees):
    asked = normal.cdf(1.65)
    assume(scipy.stats.t.cdf(0.5 / u, degrees) * 2 - 1 > asked + 1e-9)
    verdict = ferrule.judge(mm(value), mm(u), ("23 mm", "24 mm"), Guard(degrees_of_freedom=degrees))
    t = scipy.stats.t(degrees)
    expected = t.cdf((24 - value) / u) - t.cdf((23 - value) / u)
    assert verdict.conforming.fraction == pytest.approx(expected, abs=1e-12)
    if abs(expected - asked) > 1e-9:
        assert (verdict.decision == ferrule.Decision.ACCEPT) == (expected > asked)


@given(st.floats(23, 24), st.floats(0.02, 0.2), st.floats(23.2, 23.8), st.floats(0.05, 0.5))
def test_a_known_process_by_integration(value, u, mean, standard_deviation):
    process = Process(mean=mm(mean), standard_deviation=mm(standard_deviation))
    verdict = ferrule.judge(mm(value), mm(u), ("23 mm", "24 mm"), Guard(without=True), process)
    x = numpy.linspace(19, 28, 90001)
    log = -0.5 * ((x - mean) / standard_deviation) ** 2 - 0.5 * ((x - value) / u) ** 2
    density = numpy.exp(log - log.max())
    posterior_mean = (density * x).sum() / density.sum()
    assert verdict.value.mm == pytest.approx(posterior_mean, abs=1e-9)
    variance = (density * (x - posterior_mean) ** 2).sum() / density.sum()
    assert verdict.standard_uncertainty.mm == pytest.approx(math.sqrt(variance), rel=1e-9)


@settings(deadline=None, max_examples=60)
@given(st.floats(22.8, 24.2), st.floats(0.02, 0.4), st.floats(0.005, 0.15), st.booleans())
def test_risks_by_the_bivariate_normal_distribution(mean, standard_deviation, u, without):
    guard = Guard(without=without)
    risks = ferrule.find_risks(Process(mean=mm(mean), standard_deviation=mm(standard_deviation)), mm(u), ("23 mm", "24 mm"), guard)
    accept = ferrule.judge("23.5 mm", mm(u), ("23 mm", "24 mm"), guard).accept
    covariance = [[standard_deviation**2, standard_deviation**2], [standard_deviation**2, standard_deviation**2 + u**2]]

    def share(low, high):
        corners = [(high, accept.upper.mm), (low, accept.upper.mm), (high, accept.lower.mm), (low, accept.lower.mm)]
        a, b, c, d = (scipy.stats.multivariate_normal.cdf(corner, [mean, mean], covariance, abseps=1e-10, releps=1e-10)
                      for corner in corners)
        return a - b - c + d

    good = share(23, 24)
    accepted = normal.cdf(accept.upper.mm, mean, math.hypot(standard_deviation, u)) - normal.cdf(accept.lower.mm, mean, math.hypot(standard_deviation, u))
    conforming = normal.cdf(24, mean, standard_deviation) - normal.cdf(23, mean, standard_deviation)
    assert risks.consumer.fraction == pytest.approx(accepted - good, abs=1e-6)
    assert risks.producer.fraction == pytest.approx(conforming - good, abs=1e-6)
    assert risks.accepted.fraction == pytest.approx(accepted, abs=1e-13)
    assert risks.accepted.fraction + risks.rejected.fraction + risks.undecided.fraction == pytest.approx(1, abs=1e-14)


def test_risks_by_quadrature():
    """The double integral of JCGM 106:2012, 9.5, by scipy.integrate.quad."""
    limits, u, mean, standard_deviation = (23.0, 24.0), 0.07, 23.7, 0.2
    risks = ferrule.find_risks(Process(mean=mm(mean), standard_deviation=mm(standard_deviation)), mm(u), (mm(23), mm(24)))
    low, high = limits[0] + 1.65 * u, limits[1] - 1.65 * u

    def accepted(y):
        return normal.pdf(y, mean, standard_deviation) * (normal.cdf((high - y) / u) - normal.cdf((low - y) / u))

    outside = sum(scipy.integrate.quad(accepted, a, b, epsabs=1e-15)[0] for a, b in ((22, 23), (24, 24.5), (24.5, 26)))
    inside = sum(scipy.integrate.quad(accepted, a, b, epsabs=1e-15)[0] for a, b in ((23, 23.5), (23.5, 24)))
    assert risks.consumer.fraction == pytest.approx(outside, abs=1e-13)
    assert risks.producer.fraction == pytest.approx(risks.conforming.fraction - inside, abs=1e-13)


@given(st.lists(st.tuples(st.floats(10, 60), st.floats(-0.2, 0.2), st.floats(0.01, 0.3)), min_size=4, max_size=30))
def test_weighted_line_by_numpy(rows):
    x, e, u = (numpy.array(column) for column in zip(*rows))
    assume(numpy.ptp(x) > 1)
    y = 0.1 + 1.002 * x + e
    matrix = numpy.vstack([numpy.ones(len(x)), x]).T / u[:, None]
    solution, rest, _, _ = numpy.linalg.lstsq(matrix, y / u, rcond=None)
    points = [ferrule.CalibrationPoint(set=mm(a), measured=mm(b), standard_uncertainty=mm(c)) for a, b, c in zip(x, y, u)]
    fit = ferrule.fit_calibration(points)
    # a point of mean weight is not better than its uncertainty says: points on a line still scatter
    scatter = max(1, math.sqrt((rest[0] if len(rest) else 0) / (len(x) - 2)))
    assert fit.intercept.mm == pytest.approx(solution[0], abs=1e-8)
    assert fit.slope.fraction == pytest.approx(solution[1], abs=1e-9)
    expected = scatter * math.sqrt(numpy.linalg.inv(matrix.T @ matrix)[1, 1])
    assert fit.slope_uncertainty.fraction == pytest.approx(expected, rel=1e-5, abs=1e-9)


@given(st.integers(0, 10**6), st.floats(0.5, 0.999))
def test_prediction_and_its_inverse_agree(seed, coverage):
    rng = numpy.random.default_rng(seed)
    x = rng.uniform(15, 45, 12)
    y = x + rng.normal(0, 0.05, 12)
    fit = ferrule.fit_calibration([ferrule.CalibrationPoint(set=mm(a), measured=mm(b)) for a, b in zip(x, y)])
    back = ferrule.find_set(fit, "30 mm", ferrule.fraction(coverage))
    assert ferrule.predict_diameter(fit, back.value, ferrule.fraction(coverage)).value.mm == pytest.approx(30, abs=1e-10)
    assert ferrule.predict_diameter(fit, back.upper, ferrule.fraction(coverage)).lower.mm == pytest.approx(30, abs=1e-8)
    assert ferrule.predict_diameter(fit, back.lower, ferrule.fraction(coverage)).upper.mm == pytest.approx(30, abs=1e-8)


@given(st.lists(st.tuples(st.floats(1, 3), st.floats(-0.3, 0.3)), min_size=1, max_size=8), st.floats(0.01, 0.1),
       st.floats(0.05, 1))
def test_correction_is_the_least_expected_square(rows, standard_deviation, setting_deviation):
    """Posterior of the setting error on a grid: its mean is the estimate, its deviation the uncertainty."""
    trials = [ferrule.Trial(setting=mm(s), diameter=mm(23.5 + (s - rows[0][0]) + e)) for s, e in rows]
    result = ferrule.correct_dial(ferrule.DialScale(), trials, "23.5 mm", adjusting=ferrule.Adjusting(
        crimp_deviation=mm(standard_deviation), setting_deviation=mm(setting_deviation)))
    grid = numpy.linspace(-1.5, 1.5, 60001)
    log = -0.5 * (grid / setting_deviation) ** 2
    for _, e in rows:
        log -= 0.5 * ((e - grid) / standard_deviation) ** 2
    weight = numpy.exp(log - log.max())
    mean = (weight * grid).sum() / weight.sum()
    deviation = math.sqrt((weight * (grid - mean) ** 2).sum() / weight.sum())
    assert result.exact.mm == pytest.approx(rows[0][0] - mean, abs=1e-5)
    assert result.uncertainty.value.mm == pytest.approx(deviation, rel=1e-3)


def planned(published="23.5 mm", **more):
    press = Press(graduation="0.05 mm", correction="0.3 mm", dial_maximum="9 mm")
    joint = ferrule.Joint(hose=("12.7 mm", "19.9 mm"), stem="12.95 mm", ferrule=("2.4 mm", "25.6 mm"))
    return joint, press, ferrule.plan_setup(Order(joint, published=published, tolerance="0.1 mm", **more), press, RACK)


@settings(deadline=None)
@given(st.lists(st.floats(18, 32), min_size=1, max_size=5), st.floats(0.1, 50))
def test_probabilities_are_probabilities(values, weight):
    _, press, setup = planned()
    middle = sum(values) / len(values)  # pieces of one setting: the scatter is stated as 0.03 mm
    values = [middle + 0.01 * math.tanh(v - middle) for v in values]
    suspects, diagnosis = ferrule.diagnose_diameter(setup, press, RACK, [Piece(diameter=mm(v)) for v in values],
                                                    [Prior(cause="other die", weight=ferrule.fraction(weight))])
    assert sum(s.probability.fraction for s in suspects) == pytest.approx(1, abs=1e-12)
    assert all(a.probability.fraction >= b.probability.fraction for a, b in zip(suspects, suspects[1:]))
    assert diagnosis.first == suspects[0].cause
    assert 0 <= diagnosis.bits <= 1


def test_causes_weighed_by_scipy():
    """Every cause's likelihood by scipy.stats, from what happens at the dial."""
    _, press, setup = planned()
    pieces = [23.27, 23.24]
    known = ferrule.Diagnosing(crimp_deviation="0.03 mm", setting_deviation="0.02 mm", dial_turn="1 mm")
    suspects, diagnosis = ferrule.diagnose_diameter(setup, press, RACK, [Piece(diameter=mm(v)) for v in pieces], [], known)
    s = 1.8
    variants = {"HEALTHY": [(1, 0, 0)], "DIAL_ONE_STEP": [(1, 0.05, 0), (1, -0.05, 0)],
                "DIAL_ONE_TURN": [(1, 1, 0), (1, -1, 0)], "DIAL_DECIMAL": [(1, -0.9 * s, 0)],
                "INCH_FOR_MM": [(1, s / 25.4 - s, 0)], "CORRECTION_LEFT_OUT": [(1, -0.3, 0)],
                "CORRECTION_WRONG_WAY": [(1, -0.6, 0)], "PRESS_DRIFT": [(1, 0, 0.15)], "GAUGE_ZERO": [(1, 0, 0.1)],
                "OTHER_DIE": [(1 / (1 + abs(d - 22)), d - 22, 0) for d in (20, 25, 28)]}
    jaws = (23.5 - 22) * (1 - math.cos(math.pi / 8))
    variants["OVER_GAPS"] = [(1, -0.725 * jaws, 0.072 * jaws)]
    seen = numpy.mean(pieces) - 23.5
    noise = math.sqrt(0.03**2 / 2 + 0.02**2)
    weights = {"NONE_OF_THESE": scipy.stats.cauchy.pdf(seen)}
    for name, rows in variants.items():
        shares = sum(row[0] for row in rows)
        weights[name] = sum(q * normal.pdf(seen, m, math.hypot(v, noise)) for q, m, v in rows) / shares
    usual = {c.name: ferrule.usual_weight(c).fraction for c in (suspect.cause for suspect in suspects)}
    assert set(usual) == set(weights)
    total = sum(usual[name] * weights[name] for name in weights)
    for suspect in suspects:
        name = suspect.cause.name
        assert suspect.probability.fraction == pytest.approx(usual[name] * weights[name] / total, rel=1e-9, abs=1e-12)
    assert diagnosis.standard_uncertainty.mm == pytest.approx(noise, rel=1e-12)


def test_looks_weighed_by_scipy():
    joint, _, setup = planned("24.2 mm")
    suspects, _ = ferrule.diagnose_look(joint, setup, "24.2 mm", [Look(kind="too loose"), Look(kind="good")], [])
    x = numpy.linspace(-2, 2.5, 900001)
    looks = normal.cdf((0.15 - x) / 0.02) * (1 - normal.cdf((x - 0.25) / 0.02)) * (1 - normal.cdf((0.15 - x) / 0.02))

    def plain(inside=12.7, outside=19.9, stem=12.95, wall=2.4):
        return (outside - inside - 24.2 + 2 * wall + stem) / (outside - inside)

    def agreeing(compression, more=0.0):
        return normal.pdf(x, 0.2, 0.025) * normal.pdf(compression, x, math.hypot(0.018, more))

    densities = {
        "HEALTHY": agreeing(plain()), "HOSE_OVER_COVER": agreeing(plain(outside=17.9)),
        "HOSE_SKIVED": agreeing(plain(outside=21.9)), "STEM_BETWEEN_RIDGES": agreeing(plain(stem=13.95)),
        "HOSE_INSIDE_NOMINAL": agreeing(plain(inside=13.05), 0.35 * 0.8 / 6.85), "WALL_TWICE": agreeing(plain(wall=1.2)),
        "WALL_ON_RIDGE": agreeing(plain(wall=1.9)),
        "OTHER_COUPLING": normal.pdf(x, 0.2, 0.15) * normal.pdf(plain(), x, 0.018),
        "OTHER_HOSE": normal.pdf(plain(), 0.2, math.hypot(0.025, 0.018))
        * normal.pdf(x, plain(), math.hypot(0.018, 1.2 * 0.8 / 7.2)),
        "NONE_OF_THESE": normal.pdf(plain(), 0.2, 0.25) * normal.pdf(x, 0.2, 0.25)}
    weights = {name: ferrule.usual_weight(ferrule.Cause[name]).fraction * (density * looks).sum()
               for name, density in densities.items()}
    assert {s.cause.name for s in suspects} == set(weights)
    for suspect in suspects:
        expected = weights[suspect.cause.name] / sum(weights.values())
        assert suspect.probability.fraction == pytest.approx(expected, rel=1e-6, abs=1e-12)


@pytest.mark.parametrize("kind, status, call", [
    (ferrule.LimitError, "LIMIT_WRONG_ORDER", lambda: ferrule.judge("23.5 mm", "0.5 mm", ("24 mm", "23 mm"))),
    (ferrule.ReadingError, "READING_ANGLE_NOT_MARKED",
     lambda: ferrule.summarise_readings([Reading(diameter="23.5 mm", angle="45 deg")], ferrule.Gauge())),
    (ferrule.CalibrationError, "CALIBRATION_TOO_FEW_POINTS", lambda: ferrule.fit_calibration([])),
    (ferrule.TrialError, "TRIAL_DIAMETER_MISSING",
     lambda: ferrule.correct_dial(ferrule.DialScale(), [ferrule.Trial("1 mm", "0 mm")], "23.5 mm")),
])
def test_bad_input_is_an_exception_of_its_own(kind, status, call):
    with pytest.raises(kind) as caught:
        call()
    assert caught.value.code.name == status


# ---- judging: what an acceptance asks for -----------------------------------------------------------------------

GAUGE = ferrule.Gauge("0.01 mm", resolution="0.01 mm")


def inspected(readings, applies_to="not stated", gauge=GAUGE, process=None, guard=None):
    order = Order(ferrule.Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), published="23.5 mm", tolerance="0.2 mm",
                  applies_to=applies_to)
    setup = ferrule.plan_setup(order, Press(), ["22 mm"])
    return ferrule.inspect_crimp(setup, [f"{r} mm" for r in readings], gauge, None, guard, process)


def test_every_reading_outside_is_not_accepted_for_its_mean():
    in_turn = [23.28, 23.72] * 4
    assert inspected(in_turn).decision == ferrule.Decision.UNDECIDED
    assert inspected(in_turn, "every reading").decision == ferrule.Decision.REJECT
    good = inspected([23.45, 23.52, 23.50, 23.48])
    assert good.decision == good.verdict.decision == ferrule.Decision.ACCEPT and set(good.findings) <= {ferrule.Finding.SETUP_NOT_CONFIRMED}
    assert (good.zone.accept.lower, good.zone.accept.upper) == (mm(23.32), mm(23.68))
    assert (good.worst_index, good.worst) == (0, mm(23.45))


@pytest.mark.parametrize("finding, call", [
    ("TOO_FEW_READINGS", lambda: inspected([23.5])),
    ("GAUGE_TAKEN_AS_EXACT", lambda: inspected([23.5, 23.5], gauge=ferrule.Gauge())),
    ("PROCESS_NOT_USED", lambda: inspected([23.6, 23.6, 23.61], process=Process("23.5 mm", "0.005 mm"))),
    ("GAUGE_CANNOT_ACCEPT", lambda: inspected([23.5, 23.5], gauge=ferrule.Gauge("0.2 mm"))),
    ("READINGS_SCATTER", lambda: inspected([20.0, 27.0, 21.0, 26.5])),
    ("LIMITS_NOT_STATED", lambda: inspected([23.69, 23.50, 23.50, 23.50, 23.50, 23.50])),
])
def test_doubts_leave_a_piece_undecided(finding, call):
    inspection = call()
    assert inspection.decision == ferrule.Decision.UNDECIDED
    assert ferrule.Finding[finding] in inspection.findings


def test_guard_of_few_readings_by_scipy():
    """The gauge's part by the normal distribution, the scatter's by Student's, added in quadrature."""
    upper = inspected([23.52, 23.50, 23.54], guard=Guard(side="upper"))
    factor = scipy.stats.t.ppf(normal.cdf(1.65), 2)
    assert upper.verdict.guard.mm == pytest.approx(math.hypot(1.65 * 0.01, factor * 0.02 / math.sqrt(3)), rel=1e-9)


def test_contradictions_have_no_single_cause():
    joint, press, setup = planned()
    for call in (lambda: ferrule.diagnose_diameter(setup, press, RACK, [Piece("20.5 mm"), Piece("26.5 mm")], []),
                 lambda: ferrule.diagnose_look(joint, setup, "23.5 mm", [Look(kind="too tight"), Look(kind="too loose")], [])):
        with pytest.raises(ferrule.DiagnosisError) as caught:
            call()
        assert caught.value.name == "DIAGNOSIS_MORE_THAN_ONE_CAUSE"
    with pytest.raises(ferrule.DiagnosisError) as caught:
        ferrule.diagnose_look(joint, setup, "24.6 mm", [Look(kind="too loose")], [])
    assert caught.value.name == "DIAGNOSIS_DIAMETER_WRONG"


def test_learned_weights():
    priors = {p.cause.name: p.weight.fraction for p in ferrule.learn_priors([("healthy", 20), ("press drift", 7)], "10 %")}
    assert priors["HEALTHY"] == 28 and priors["PRESS_DRIFT"] == pytest.approx(7.2) and len(priors) == 24
