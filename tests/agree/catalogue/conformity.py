# SPDX-License-Identifier: MIT
"""Rows of conformity.h."""
from catalogue.shared import *  # noqa: F403

row("fer_judge", """JCGM 106:2012, 7.3 (from memory): -5.47 with u 0.05 below an upper limit of -5.40 conforms with 0.919
>>> verdict = judge("-5.47 mm", "0.05 mm", ("-6 mm", "-5.40 mm"), Guard(side="upper"))
>>> verdict.decision.name, f"{verdict.conforming:.1f %}"
('UNDECIDED', '91.9 %')
""", value=(22.75, 23.75), standard_uncertainty=(0.005, 0.05), limits={"lower": 23, "upper": 23.5})

ONE_SIDED = f.Guard(side="LOWER")


@case("fer_judge", "relative", 1e-13)
def normal_tail(rng):
    """The normal distribution itself: value 0, uncertainty 1, so that nothing is rounded before."""
    z = rng.choice([rng.uniform(-37, 8), rng.gauss(0, 1)])
    found = f.judge(mm(0.0), mm(1.0), (mm(z), mm(100)), ONE_SIDED)
    return {"below, normal": (found.below.fraction, ref.ncdf(mpf(z))), "conforming, normal": (found.conforming.fraction, ref.ncdf(-mpf(z)))}


@case("fer_judge", "relative", 1e-13, 0.1)
def student_tails(rng):
    """Student's distribution itself, where its probabilities are above 1e-300."""
    v = rng.choice([1.0, 2.0, rng.uniform(1, 50), 10 ** rng.uniform(1, 6)])
    t = rng.choice([10 ** rng.uniform(-6, 1), rng.gauss(0, 2)])
    guard = f.Guard(side="LOWER", degrees_of_freedom=v)
    found = f.judge(mm(0.0), mm(1.0), (mm(-abs(t)), mm(100)), guard)
    return {"below, Student": (found.below.fraction, student_tail(abs(t), v)),
            "conforming, Student": (found.conforming.fraction, 1 - student_tail(abs(t), v))}


@case("fer_judge", "relative", 1e-13)
def judge(rng):
    lower = length(rng, 0.1, 1e5)
    width = lower * 10 ** rng.uniform(-6, -1)
    upper, u = lower + width, width * rng.uniform(0.001, 0.24)
    value = lower + width * rng.uniform(-0.2, 1.2)
    limits = (mm(lower), mm(upper))
    process = f.Process(mm(lower + width * rng.random()), mm(width * rng.uniform(0.01, 1))) if rng.random() < 0.5 else None
    found = f.judge(mm(value), mm(u), limits, None, process)
    if found.zone_empty:
        return None
    y, v = mpf(value), mpf(u) ** 2
    if process:
        tau = mpf(process.standard_deviation.mm) ** 2
        y, v = (y * tau + mpf(process.mean.mm) * v) / (tau + v), tau * v / (tau + v)
    below, above = ref.ncdf((mpf(lower) - y) / sqrt(v)), ref.ncdf((y - mpf(upper)) / sqrt(v))
    # the place of the value is known to its last digit: one place of it in uncertainties is what a probability can tell
    scale = mpf(1) + y / sqrt(v) / 10
    return {"value": (found.value.mm, y), "standard_uncertainty": (found.standard_uncertainty.mm, sqrt(v)),
            "below, absolute": (found.below.fraction, below, scale),
            "above, absolute": (found.above.fraction, above, scale),
            "conforming, absolute": (found.conforming.fraction, 1 - below - above, scale)}


row("fer_find_risks", """1.96 standard deviations either way hold 95 % of a normal distribution (NIST/SEMATECH e-Handbook, 1.3.6.7.1, from memory)
>>> risks = find_risks(Process(mean="23.5 mm", standard_deviation="0.1 mm"), "0.01 mm", ("23.304 mm", "23.696 mm"))
>>> f"{risks.conforming:.1f %}"
'95.0 %'
""", process={"mean": (23.125, 23.375), "standard_deviation": (0.05, 0.125)}, standard_uncertainty=(0.005, 0.05), limits={"lower": 23,
    "upper": 23.5})


@case("fer_find_risks", "relative", 1e-13, 0.01)
def find_risks(rng):
    mean, uncertainties = rng.uniform(23.3, 23.7), 10 ** rng.uniform(-2, -0.5)
    u = uncertainties * rng.choice([10 ** rng.uniform(-3, 0), rng.uniform(0.01, 0.2)])
    lower, upper = 23.0, 24.0
    if u > 0.19:
        return None
    found = f.find_risks(f.Process(mm(mean), mm(uncertainties)), mm(u), (mm(lower), mm(upper)))
    m, s, v, g = mpf(mean), mpf(uncertainties), mpf(u), mpf(1.65) * mpf(u)
    low, high, both = mpf(lower) + g, mpf(upper) - g, sqrt(s**2 + v**2)

    def wrongly(x):
        accepted = ref.ncdf((high - x) / v) - ref.ncdf((low - x) / v)
        return exp(-((x - m) / s) ** 2 / 2) / (s * sqrt(2 * pi)) * accepted
    places = sorted({p for k in range(0, 14, 2) for p in (lower - k * v, upper + k * v)})
    user = quad(wrongly, [p for p in places if p <= lower]) + quad(wrongly, [p for p in places if p >= upper])
    accepted = ref.ncdf((high - m) / both) - ref.ncdf((low - m) / both)
    conforming = ref.ncdf((upper - m) / s) - ref.ncdf((lower - m) / s)
    return {"accepted, absolute": (found.accepted.fraction, accepted, mpf(1)),
            "conforming, absolute": (found.conforming.fraction, conforming, mpf(1)),
            "consumer, absolute": (found.consumer.fraction, user, mpf(1)),
            "producer, absolute": (found.producer.fraction, conforming - (accepted - user), mpf(1))}


row("fer_find_acceptance_zone", """1.65 times 0.02 inside each limit, by hand
>>> zone = find_acceptance_zone(("23.4 mm", "23.6 mm"), "0.02 mm")
>>> f"{zone.accept.lower:.3f mm} to {zone.accept.upper:.3f mm}"
'23.433 mm to 23.567 mm'
""", judged="the zone of fer_judge()", limits={"lower": 23, "upper": 23.5},
    standard_uncertainty=(0, 0.2), guard={"side": any_of("BOTH", "LOWER", "UPPER"), "degrees_of_freedom": any_of(0.0, 3.0)})

row("fer_find_shown_zone", """the same in steps of 0.01 mm, inwards
>>> zone = find_shown_zone(find_acceptance_zone(("23.4 mm", "23.6 mm"), "0.02 mm"), Gauge(resolution="0.01 mm"))
>>> f"{zone.accept.lower:.2f mm} to {zone.accept.upper:.2f mm}"
'23.44 mm to 23.56 mm'
""", judged="whole steps: by hand in tests/unit", zone={"accept": {"lower": (23, 23.25), "upper": (23.25, 23.5)},
    "guard": 0.02, "side": any_of("BOTH", "LOWER", "UPPER")}, gauge={"correction": (-0.05, 0.05), "resolution": any_of(0.0, 0.01, 0.02, 0.3)})

row("fer_find_compression_share", """on an end of the window that is uncertain it is one half
>>> window = UncertainWindow(("23.15 mm", "23.87 mm"), "0.1 mm", "0.1 mm")
>>> f"{find_compression_share('23.87 mm', '0.01 mm', window):.1f %}"
'50.0 %'
""", diameter=(22.75, 24), standard_uncertainty=(0, 0.05), window={"range": {"lower": 23, "upper": 23.5},
    "lower_uncertainty": (0, 0.2), "upper_uncertainty": (0, 0.2)})


@case("fer_find_compression_share", "relative", 1e-14)
def compression_share(rng):
    """Both ends are uncertain, the diameter with them: the normal distribution of each difference, of steps that no double rounds."""
    lower, upper, diameter = 23.0, 23.0 + rng.randint(8, 64) / 64, 23.0 + rng.randint(-16, 80) / 64
    low, high, u = (10 ** rng.uniform(-3, -0.5) for _ in range(3))
    found = f.find_compression_share(mm(diameter), mm(u), f.UncertainWindow((mm(lower), mm(upper)), mm(low), mm(high)))
    above = ref.ncdf((mpf(upper) - mpf(diameter)) / sqrt(mpf(high) ** 2 + mpf(u) ** 2))
    below = ref.ncdf((mpf(lower) - mpf(diameter)) / sqrt(mpf(low) ** 2 + mpf(u) ** 2))
    return {"share, absolute": (found.fraction, max(above - below, mpf(0)), mpf(1))}
