# SPDX-License-Identifier: MIT
"""Rows of reading.h."""
from catalogue.shared import *  # noqa: F403

row("fer_find_outliers", """one reading is half a millimetre off, the others a hundredth
>>> find_outliers([f"{d} mm" for d in (23.50, 23.51, 23.49, 23.50, 24.00, 23.51, 23.50, 23.49)], Gauge())
[4]
""", judged=DECIDES, readings=repeated(24, {"diameter": (23.4, 23.6), "section": any_of(0, 1), "angle": (0, 3.25),
    "angle_known": 1}), gauge={"standard_uncertainty": 0.005, "correction": (-0.02, 0.02), "resolution": 0.01},
    marks={"segments": 8})

row("fer_fit_lobes", """readings of 23.5 + 0.1 cos 2θ: a range of 0.2
>>> import math
>>> readings = [Reading(mm(23.5 + 0.1 * math.cos(2 * math.radians(a))), angle=deg(a), angle_known=True) for a in range(0, 180, 13)]
>>> f"{fit_lobes(readings, Gauge()).ovality:.4f mm}"
'0.2000 mm'
""", readings=repeated(24, {"diameter": (23.4, 23.6), "section": any_of(0, 1), "angle": (0, 3.25), "angle_known": 1}),
    gauge={"standard_uncertainty": 0.005, "correction": (-0.02, 0.02), "resolution": 0.01}, marks={"segments": 8})


@case("fer_fit_lobes", "relative", 1e-9, 0.02)
def fit_lobes(rng):
    n, count = rng.randint(3, 12), rng.randint(14, 40)
    start, step = rng.uniform(0, 3), 2 * math.pi / count * rng.uniform(0.9, 1.1)
    angles = [start + step * i for i in range(count)]
    data = [23.5 + 0.05 * rng.gauss(0, 1) for _ in angles]
    readings = [f.Reading(mm(d), 0, f.rad(a), True) for d, a in zip(data, angles)]
    found = f.fit_lobes(readings, f.Gauge(), f.Marks(segments=n))
    k = n if n % 2 == 0 else 2 * n
    rows = [[mpf(1), cos(2 * mpf(a)), sin(2 * mpf(a)), cos(k * mpf(a)), sin(k * mpf(a))] for a in angles]
    a_matrix, b = matrix(rows), matrix([mpf(d) for d in data])
    x = lu_solve(a_matrix.T * a_matrix, a_matrix.T * b)
    return {"mean": (found.mean.mm, x[0]),
            "ovality, of the readings' range": (found.ovality.mm, 2 * sqrt(x[1] ** 2 + x[2] ** 2), mpf(0.3)),
            "lobe, of the readings' range": (found.lobe.mm, 2 * sqrt(x[3] ** 2 + x[4] ** 2), mpf(0.3))}


row("fer_summarise_readings", """mean 23.52 and standard deviation 0.02, by hand
>>> summary = summarise_readings(["23.50 mm", "23.52 mm", "23.54 mm"], Gauge())
>>> f"{summary.mean:.2f mm}", f"{summary.scatter.value:.2f mm}", f"{summary.range:.2f mm}"
('23.52 mm', '0.02 mm', '0.04 mm')
""", readings=repeated(24, {"diameter": (23.4, 23.6), "section": any_of(0, 1), "angle": (0, 3.25), "angle_known": 1}),
    gauge={"standard_uncertainty": 0.005, "correction": (-0.02, 0.02), "resolution": 0.01}, marks={"segments": 8})


def some_readings(rng):
    middle, spread = length(rng, 0.1, 1e5), 10 ** rng.uniform(-9, -2)
    return [middle * (1 + spread * rng.gauss(0, 1)) for _ in range(rng.choice([2, 3, rng.randint(4, 60)]))]


@case("fer_summarise_readings", "relative", 1e-13)
def summarise_readings(rng):
    data = some_readings(rng)
    gauge_u = rng.choice([0.0, 10 ** rng.uniform(-4, -1)])
    found = f.summarise_readings([mm(x) for x in data], f.Gauge(mm(gauge_u)))
    n, exact = len(data), [mpf(x) for x in data]
    mean = sum(exact) / n
    variance = sum((x - mean) ** 2 for x in exact) / (n - 1)
    combined = mpf(gauge_u) ** 2 + variance / n
    return {"mean": (found.mean.mm, mean), "scatter": (found.scatter.value.mm, sqrt(variance)),
            "standard_uncertainty": (found.standard_uncertainty.mm, sqrt(combined)),
            "degrees_of_freedom": (found.degrees_of_freedom, (n - 1) * combined**2 / (variance / n) ** 2)}


row("fer_summarise_sections", """means of 23.50, 23.52 and of 23.60, 23.64, by hand
>>> readings = [("23.50 mm", 0), ("23.52 mm", 0), ("23.60 mm", 1), ("23.64 mm", 1)]
>>> [f"{section.mean:.2f mm}" for section in summarise_sections(readings, Gauge())]
['23.51 mm', '23.62 mm']
""", judged=CALLS, readings=repeated(24, {"diameter": (23.4, 23.6), "section": any_of(0, 1), "angle": (0, 3.25),
    "angle_known": 1}), gauge={"standard_uncertainty": 0.005, "correction": (-0.02, 0.02), "resolution": 0.01},
    marks={"segments": 8})
