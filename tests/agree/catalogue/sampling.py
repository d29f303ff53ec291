# SPDX-License-Identifier: MIT
"""Rows of sampling.h."""
from catalogue.shared import *  # noqa: F403


def normal_quantile(p):
    return sqrt(mpf(2)) * mp.erfinv(2 * mpf(p) - 1)


def binomial(c, n, p):
    return sum(mp.binomial(n, x) * p ** x * (1 - p) ** (n - x) for x in range(c + 1))


def hypergeometric(c, n, bad, lot):
    return sum(mp.binomial(bad, x) * mp.binomial(lot - bad, n - x) for x in range(max(0, n + bad - lot), min(c, n, bad) + 1)) / mp.binomial(lot, n)


def plan_acceptance(pieces, accept, lot, bad):
    return hypergeometric(accept, pieces, math.floor(bad * lot + 1e-9), lot) if lot else binomial(accept, pieces, mpf(bad))


def noncentral_above(t, v, delta, bits=80):
    """P(T > t) of noncentral t, integrated over the scale."""
    with mp.workprec(bits):
        t, v, delta = mpf(t), mpf(v), mpf(delta)
        front = v / 2 * mp.log(v / 2) - mp.loggamma(v / 2) + mp.log(2)
        width = 1 / sqrt(2 * v)
        edges = [1 + k * width for k in range(-12, 17, 2)] + [delta / t + k / abs(t) for k in (-8, -4, -2, 0, 2, 4, 8)]
        end = 1 + 16 * width + 16 / v
        edges = sorted({edge for edge in edges if 0 < edge < end} | {mpf(0), end})
        return quad(lambda y: exp(front + (v - 1) * mp.log(y) - v * y * y / 2) * erfc((t * y - delta) / sqrt(mpf(2))) / 2 if y else mpf(0), edges)


row("fer_find_acceptance", """a plan of the manual of R's AcceptanceSampling (from memory): a producer's risk of 4.66 %, a consumer's of 7.27 %
>>> plan = Plan(pieces=80, accept=7)
>>> f"{find_acceptance(plan, '5 %'):.2f %} {find_acceptance(plan, '15 %'):.2f %}"
'95.34 % 7.27 %'
""", plan=PLAN, bad=(0, 0.3))


@case("fer_find_acceptance", "relative", 1e-12, 0.1)
def find_acceptance(rng):
    n, lot = rng.choice([1, 5, 30, rng.randint(1, 400)]), rng.choice([0, 0, 400, rng.randint(400, 100000)])
    c, bad = rng.randrange(min(n, rng.choice([1, 5, 400]))), rng.choice([0.0, 1.0, 0.05, rng.random(), 10 ** rng.uniform(-5, 0)])
    return {"probability, of 1": (f.find_acceptance(f.Plan(n, c, lot), f.fraction(bad)).fraction, plan_acceptance(n, c, lot, bad), mpf(1))}


row("fer_choose_plan", """manual of R's AcceptanceSampling (from memory)
>>> choice = choose_plan(PlanAim(good="5 %", producer_risk="5 %", bad="15 %", consumer_risk="7.5 %"))
>>> choice.plan.pieces, choice.plan.accept, f"{choice.producer_risk:.2f %} {choice.consumer_risk:.2f %}"
(80, 7, '4.66 % 7.27 %')
""", aim=PLAN_AIM)


@case("fer_choose_plan", "relative", 1e-12, 0.1)
def choose_plan(rng):
    good, bad, lot = rng.choice([0.0, 0.01, 0.05]), rng.choice([0.1, 0.2, 0.5]), rng.choice([0, 0, 50, 300])
    found = f.choose_plan(f.PlanAim(f.fraction(good), f.fraction(bad), "5 %", "10 %", lot))
    plan = found.plan
    return {"producer's risk, of 1": (found.producer_risk.fraction, 1 - plan_acceptance(plan.pieces, plan.accept, lot, good), mpf(1)),
            "consumer's risk, of 1": (found.consumer_risk.fraction, plan_acceptance(plan.pieces, plan.accept, lot, bad), mpf(1))}


row("fer_find_clean_pieces", """ln 0.1/ln 0.95 = 44.9; five bad ones of 100: R's phyper
>>> find_clean_pieces("95 %", "90 %", 0).pieces, find_clean_pieces("95 %", "90 %", 100).pieces
(45, 37)
""", share=(0.5, 0.99), confidence=BATCH_CONFIDENCE, lot=any_of(0, 30, 1000))


@case("fer_find_clean_pieces", "relative", 1e-12)
def find_clean_pieces(rng):
    share_, confidence, lot = rng.uniform(0.3, 0.999), rng.uniform(0.51, 0.9999), rng.choice([0, 0, 10, 200, 5000])
    found = f.find_clean_pieces(f.fraction(share_), f.fraction(confidence), lot)
    bad = max(1, math.floor((1 - share_) * lot + 1e-9))
    reached = 1 - hypergeometric(0, found.pieces, bad, lot) if lot else 1 - mpf(share_) ** found.pieces
    return {"reached, of 1": (found.reached.fraction, reached, mpf(1))}


row("fer_choose_stages", """Wald's lines of the e-Handbook (from memory): accepted from the 24th piece on
>>> stages = choose_stages(PlanAim(good="1 %", producer_risk="5 %", bad="10 %", consumer_risk="10 %"))
>>> len(stages), stages[22].accept, stages[23].accept, stages[18].refuse, stages[19].refuse
(71, -1, 0, 2, 3)
""", judged=CALLS, aim=PLAN_AIM)

row("fer_curtail_plan", """by hand: with none bad accepted, the first bad one refuses
>>> [(stage.accept, stage.refuse) for stage in curtail_plan(Plan(pieces=3))]
[(-1, 1), (-1, 1), (0, 1)]
""", judged=CALLS, plan=PLAN)

row("fer_find_stages_risk", """by hand: none bad of twenty is 0.9 to the 20th, (1 - that)/0.1 pieces on average
>>> risk = find_stages_risk(curtail_plan(Plan(pieces=20)), 0, "10 %")
>>> f"{risk.accepted:.3f %} {risk.pieces:.4f}"
'12.158 % 8.7842'
""", stages=[{"accept": -1, "refuse": 2}, {"accept": 0, "refuse": 2}, {"accept": 1, "refuse": 2}], lot=any_of(0, 10), bad=(0, 1))


@case("fer_find_stages_risk", "relative", 1e-12, 0.1)
def find_stages_risk(rng):
    """Curtailed plans: accepted as by the plan; the mean by each number of pieces at which it can end."""
    n, lot = rng.randint(1, 30), rng.choice([0, 0, 40, 500])
    c, bad = rng.randrange(n), rng.choice([0.05, 0.3, rng.random()])
    found = f.find_stages_risk(f.curtail_plan(f.Plan(n, c, lot)), lot, f.fraction(bad))
    defects = math.floor(bad * lot + 1e-9)

    def undecided(i):
        """Probability that i pieces have not decided: c - (n - i) < x <= c bad ones."""
        low = max(0, c - (n - i) + 1)
        if lot:
            return sum(mp.binomial(defects, x) * mp.binomial(lot - defects, i - x) for x in range(low, min(c, i) + 1)) / mp.binomial(lot, i)
        return sum(mp.binomial(i, x) * mpf(bad) ** x * (1 - mpf(bad)) ** (i - x) for x in range(low, min(c, i) + 1))
    return {"accepted, of 1": (found.accepted.fraction, plan_acceptance(n, c, lot, bad), mpf(1)),
            "pieces": (found.pieces, sum(undecided(i) for i in range(n)))}


row("fer_choose_measured_plan", """the formula, and noncentral t in R and SciPy
>>> aim = PlanAim(good="1 %", producer_risk="5 %", bad="5 %", consumer_risk="10 %")
>>> known, of_sample = choose_measured_plan(aim, "0.03 mm"), choose_measured_plan(aim, "0 mm")
>>> known.plan.pieces, f"{known.pieces_exact:.4f} {known.plan.factor:.6f}", of_sample.plan.pieces, f"{of_sample.plan.factor:.6f}"
(19, '18.4393 1.943298', 55, '1.948071')
""", aim=PLAN_AIM, deviation=any_of(0.02, 0.03), measuring=MEASURING)


@case("fer_choose_measured_plan", "relative", 1e-10, 0.004)
def choose_measured_plan(rng):
    good, bad, producer, consumer = rng.uniform(0.001, 0.02), rng.uniform(0.05, 0.3), rng.uniform(0.01, 0.2), rng.uniform(0.01, 0.2)
    aim = f.PlanAim(f.fraction(good), f.fraction(bad), f.fraction(producer), f.fraction(consumer))
    gauge, common = rng.choice([0.0, 0.25]), rng.choice([0.0, 0.125])
    known = f.choose_measured_plan(aim, mm(1), f.Measuring(mm(gauge), common=mm(common)))
    zp, zc, z0, z1 = (-normal_quantile(x) for x in (producer, consumer, good, bad))
    exact_n = (1 + mpf(gauge) ** 2) / (((z0 - z1) / (zp + zc)) ** 2 - mpf(common) ** 2)
    sampled = f.choose_measured_plan(aim, mm(0))
    n, root = sampled.plan.pieces, sqrt(mpf(sampled.plan.pieces))
    t = mpf(sampled.plan.factor) * root
    values = [noncentral_above(t * (1 + k * mpf(10) ** -8), n - 1, root * z1) for k in (-1, 0, 1)]
    root_t = t - (values[1] - mpf(consumer)) * 2 * t * mpf(10) ** -6 / (values[2] - values[0])
    return {"pieces_exact": (known.pieces_exact, exact_n), "factor, known": (known.plan.factor, (z0 * zc + z1 * zp) / (zp + zc)),
            "factor, of the sample": (sampled.plan.factor, root_t / root)}


row("fer_find_measured_acceptance", """mean at the limit of acceptance: one half
>>> f"{find_measured_acceptance(MeasuredPlan(pieces=10, factor=1.6448536, deviation_known=True), '5 %'):.4f %}"
'50.0000 %'
""", plan={"pieces": (3, 60), "factor": (1, 2.5), "deviation_known": (0, 1), "mean_deviation": any_of(0.0, 0.2)}, bad=(0.001, 0.3))


@case("fer_find_measured_acceptance", "relative", 1e-12, 0.004)
def find_measured_acceptance(rng):
    n, factor, bad = rng.randint(2, 60), rng.uniform(0.5, 3), rng.uniform(0.001, 0.4)
    z = -normal_quantile(bad)
    known = f.find_measured_acceptance(f.MeasuredPlan(n, factor, True), f.fraction(bad)).fraction
    sampled = f.find_measured_acceptance(f.MeasuredPlan(n, factor), f.fraction(bad)).fraction
    root = sqrt(mpf(n))
    return {"known, of 1": (known, ref.ncdf(root * (z - mpf(factor))), mpf(1)),
            "of the sample, of 1": (sampled, noncentral_above(mpf(factor) * root, n - 1, root * z), mpf(1))}


row("fer_judge_bursts", """integrals in R: the Weibull bound; arithmetic: 45 pieces without a shape
>>> bursts = ["1180 bar", "1220 bar", "1245 bar", "1262 bar", "1290 bar"]
>>> verdict = judge_bursts(bursts, BurstAim("275 bar"), "weibull")
>>> verdict.decision.name, f"{verdict.bound:.2f bar} {verdict.confidence_reached:.2f %}"
('UNDECIDED', '1053.00 bar 77.35 %')
>>> judge_bursts(bursts, BurstAim("275 bar"), "any").more
40
""", bursts=repeated(5, {"pressure": (90, 140), "stopped": any_of(0, 0, 0, 1)}), aim=BURST_AIM,
    strength=any_of("WEIBULL", "WEIBULL", "NORMAL", "LOGNORMAL", "ANY"))


def weibull_confidence(y, reached, centre, t, share_):
    """Confidence that the share lies above t, by integrating over the shape; 20 digits. t near what is looked for, so that its slope is
    found by differences."""
    def below(x):
        """The incomplete gamma function of a whole number."""
        return 1 - exp(-x) * sum(x ** k / mp.factorial(k) for k in range(len(reached)))
    with mp.workprec(80):
        y, r = [v - centre for v in y], len(reached)
        total = sum(v - centre for v in reached)
        w = mp.log(-mp.log(mpf(share_)))
        scale = 1 / sqrt(sum(v * v for v in y) / len(y))

        def density(z):
            return z ** (r - 2) * exp(z * total) / sum(exp(z * v) for v in y) ** r
        edges = [scale * k for k in (0, 0.5, 1, 2, 4, 8, 16, 32, 64)]
        norm = quad(density, edges)

        def confidence(at):
            return quad(lambda z: density(z) * below(exp(w) * sum(exp(z * (v - at + centre)) for v in y)), edges) / norm
        return confidence(t), (confidence(t + mpf(10) ** -9) - confidence(t - mpf(10) ** -9)) / (2 * mpf(10) ** -9)


@case("fer_judge_bursts", "relative", 1e-11, 0.003)
def judge_bursts_by_weibull(rng):
    n, deviation = rng.randint(2, 8), rng.choice([0.02, 0.05])
    stopped = rng.choice([0, 0, rng.randrange(n)])
    pressures = sorted(120 * (1 + deviation * rng.gauss(0, 1)) for _ in range(n))
    reached = n - stopped
    if reached < 2:
        return None
    pressures = pressures[:reached] + [pressures[reached - 1]] * stopped
    share_, confidence = rng.choice([0.9, 0.95]), rng.choice([0.7, 0.9])
    found = f.judge_bursts([f.Burst(f.mpa(x), i >= reached) for i, x in enumerate(pressures)],
                           f.BurstAim(f.mpa(25), share=f.fraction(share_), confidence=f.fraction(confidence)), "weibull")
    y = [mp.log(mpf(x)) for x in pressures]
    centre, t = sum(y[:reached]) / reached, mp.log(mpf(found.bound.mpa))
    at_bound, slope = weibull_confidence(y, y[:reached], centre, t, share_)
    bound = exp(t - (at_bound - mpf(confidence)) / slope) * (1 - mpf("1e-12"))
    at_limit, _ = weibull_confidence(y, y[:reached], centre, mp.log(mpf(100)), share_)
    # a bound far away in the logarithm is as uncertain as that is
    return {"Weibull, bound": (found.bound.mpa, bound, bound * (1 + abs(t - centre))),
            "Weibull, confidence, of 1": (found.confidence_reached.fraction, at_limit, mpf(1))}


@case("fer_judge_bursts", "relative", 1e-11, 0.004)
def judge_bursts_by_normal(rng):
    n, confidence = rng.randint(2, 12), rng.choice([0.7, 0.9])
    pressures = [120 * (1 + 0.04 * rng.gauss(0, 1)) for _ in range(n)]
    aim = f.BurstAim(f.mpa(25), confidence=f.fraction(confidence))
    found = f.judge_bursts([f.mpa(x) for x in pressures], aim, "normal")
    x, root = [mpf(v) for v in pressures], sqrt(mpf(n))
    mean = sum(x) / n
    s = sqrt(sum((v - mean) ** 2 for v in x) / (n - 1))
    reached = 1 - noncentral_above((mean - 100) / s * root, n - 1, root * normal_quantile(0.95))
    return {"normal, confidence, of 1": (found.confidence_reached.fraction, reached, mpf(1))}


row("fer_find_bursts_needed", """noncentral t in SciPy
>>> needed = find_bursts_needed(BurstAim("25 MPa"), "124 MPa", "4 %", "90 %")
>>> needed.pieces, f"{needed.reached:.4f %}"
(6, '95.9212 %')
""", aim=BURST_AIM, mean=(120, 150), variation=(0.02, 0.06), power=(0.5, 0.95))


@case("fer_find_bursts_needed", "relative", 1e-11, 0.003)
def find_bursts_needed(rng):
    mean, variation = rng.uniform(115, 150), rng.uniform(0.02, 0.06)
    needed = f.find_bursts_needed(f.BurstAim(f.mpa(25)), f.mpa(mean), f.fraction(variation), "80 %")
    n, root = needed.pieces, sqrt(mpf(needed.pieces))
    t = root * mpf(f.find_tolerance_factor(n, 0, "95 %", "90 %", "upper"))  # a row of its own
    reached = noncentral_above(t, n - 1, root * (mpf(mean) - 100) / (mpf(variation) * mpf(mean)))
    return {"reached, of 1": (needed.reached.fraction, reached, mpf(1))}


row("fer_find_bursts_without_failure", """ln 0.1/(1.1^20 ln 0.95) = 6.6727, by hand
>>> find_bursts_without_failure(BurstAim("25 MPa"), 1.1, 20).pieces, find_bursts_without_failure(BurstAim("25 MPa"), 0, 0).pieces
(7, 45)
""", aim=BURST_AIM, raised=(1, 1.5), shape=(0, 30))


@case("fer_find_bursts_without_failure", "relative", 1e-12)
def find_bursts_without_failure(rng):
    raised, shape = rng.uniform(1, 1.3), rng.choice([0.0, rng.uniform(1, 20)])
    share_, confidence = rng.uniform(0.5, 0.999), rng.uniform(0.51, 0.999)
    needed = f.find_bursts_without_failure(f.BurstAim("25 MPa", share=f.fraction(share_), confidence=f.fraction(confidence)), raised, shape)
    log_share = mp.log(mpf(share_)) * mpf(raised) ** mpf(shape)
    return {"reached, of 1": (needed.reached.fraction, -mp.expm1(needed.pieces * log_share), mpf(1))}
