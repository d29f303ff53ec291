# SPDX-License-Identifier: MIT
"""The model of fer_form_ferrule() once more with mpmath: its equations as they stand in the manual, page Forming.

The library integrates over the wall by a rule of five points, over the stroke in one, two or four steps of a Runge-Kutta rule of
sixth order, and goes round between sizes and elastic strains five times, most of them without a new integral. Here: twelve points, extrapolation to 1e-20 over the stroke
(Gragg, Bulirsch and Stoer), as many rounds as it takes. All lengths are radii.
"""
from mpmath import mp, mpf, sqrt, log, exp, expm1

THREE = sqrt(mpf(3))


def gauss(count):
    """Places from 0 to 1 and weights of the rule of Gauss and Legendre."""
    def value_and_slope(x):
        value = mp.legendre(count, x)
        return value, count * (x * value - mp.legendre(count - 1, x)) / (x * x - 1)

    roots = [mp.cos(mp.pi * (4 * i + 3) / (4 * count + 2)) for i in range(count)]
    for _ in range(8):
        roots = [x - value / slope for x, (value, slope) in ((x, value_and_slope(x)) for x in roots)]
    slopes = [value_and_slope(x)[1] for x in roots]
    return [((1 - x) / 2, 1 / ((1 - x * x) * slope**2)) for x, slope in zip(roots, slopes)]


class Section:
    """Metal between two circles that flows: `part` of the outer circle is metal, departures of the yield strength at the points."""

    def __init__(self, rule, part, hose, departures):
        self.part, self.alpha, self.hose = part, 1 - part, hose
        self.points = [(weight * x, 1 - place * part) for (place, weight), x in zip(rule, departures)]

    def pressure(self, m):
        inner, outer = sqrt(1 + (self.alpha * m) ** 2), sqrt(1 + m**2)
        even = -log(self.alpha) + log((1 + inner) / (1 + outer))
        return (even + self.part * sum(w / (q * sqrt(1 + (m * q) ** 2)) for w, q in self.points)) / THREE

    def force(self, m):
        even = m * (1 - self.alpha**2) / (sqrt(1 + m**2) + sqrt(1 + (self.alpha * m) ** 2))
        return even + self.part * sum(w * m * q / sqrt(1 + (m * q) ** 2) for w, q in self.points)

    def free(self):
        """m without axial force."""
        def miss(m):
            return self.force(m) - self.hose * self.part - self.pressure(m)
        return mp.findroot(miss, (mpf("0.58") + self.hose, mpf("0.6") + self.hose), solver="secant", tol=mpf(10) ** -60,
                           maxsteps=60)

    def flow(self, restraint):
        if restraint == 1:
            return mpf(0)
        m = self.free()
        share = (1 - restraint) * m / (m + THREE)
        return THREE * share / (1 - share)


def extrapolate(slope, start):
    """y(1) of y' = slope(x, y), y(0) = start."""
    table = []
    for k in range(1, 9):
        steps, before, now = 2 * k, start, None
        width = mpf(1) / steps
        now = [y + width * s for y, s in zip(start, slope(mpf(0), start))]
        for i in range(1, steps):
            rate = slope(i * width, now)
            before, now = now, [y + 2 * width * s for y, s in zip(before, rate)]
        rate = slope(mpf(1), now)
        row = [[(a + b + width * s) / 2 for a, b, s in zip(now, before, rate)]]
        for j in range(1, k):
            ratio = (mpf(2 * k) / (2 * (k - j))) ** 2
            row.append([a + (a - b) / (ratio - 1) for a, b in zip(row[j - 1], table[-1][j - 1])])
        table.append(row)
    return table[-1][-1]


class Stroke:
    def __init__(self, wall, outside, diameter, metal, restraint, hose, points=12):
        self.rule = gauss(points)
        self.before, self.b = mpf(outside) / 2, mpf(diameter) / 2
        self.metal_area = self.before**2 - (self.before - mpf(wall)) ** 2
        self.e, self.nu, self.y, self.h = (mpf(metal[key]) for key in ("e", "nu", "y", "h"))
        self.r, self.q = mpf(restraint), mpf(hose)
        self.a = sqrt(self.b**2 - self.metal_area)
        self.elastic = self.drift = self.reduction = mpf(0)
        self.set_state([mpf(0)] * (points + 1))
        for _ in range(40):
            bore, stretch = self.a, self.round()
            if abs(self.a - bore) < mpf(10) ** -25 * self.b:
                break
        self.stretch = stretch

    def mean_strain(self, now):
        return sum(weight * strain for (_, weight), strain in zip(self.rule, now[1:]))

    def section(self, now, part, hose):
        mean = self.mean_strain(now)
        mean_yield_strength = self.y + self.h * mean
        return Section(self.rule, part, hose / mean_yield_strength, [self.h * (x - mean) / mean_yield_strength for x in now[1:]]), mean_yield_strength

    def set_state(self, now):
        here, self.yield_strength = self.section(now, 1 - (self.a / self.b) ** 2, self.q)
        self.m, self.strain = here.flow(self.r), self.mean_strain(now)
        self.p = self.q + self.yield_strength * here.pressure(self.m)
        self.mean = (self.q * self.a**2 - self.p * self.b**2) / (self.b**2 - self.a**2)
        self.axial = self.mean + self.yield_strength * here.force(self.m) / here.part

    def speed(self, fraction, now):
        plastic = self.reduction * fraction
        part = self.metal_area * exp(-now[0]) / (self.before * exp(-plastic)) ** 2
        hose = self.q * expm1(-self.elastic - plastic) / expm1(-self.elastic - self.reduction)
        here, _ = self.section(now, part, hose)
        flow = here.flow(self.r)
        share = flow / (flow + THREE) + self.drift / (2 * self.reduction)
        m = THREE * share / (1 - share)
        rate = 2 * self.reduction / (m + THREE)
        return [m * rate] + [rate * sqrt(m**2 + (1 - place * part) ** -2) for place, _ in self.rule]

    def elastic_hoop(self):
        """Elastic hoop strain at the middle of the wall, carried to the outside as the flow carries it."""
        middle = (self.a + self.b) / 2
        inner = Section(self.rule, 1 - (self.a / middle) ** 2, mpf(0), [mpf(0)] * len(self.rule))
        m = self.m * (middle / self.b) ** 2
        radial = -self.q - self.yield_strength * inner.pressure(m)
        hoop = radial - 2 / THREE * self.yield_strength / sqrt(1 + m**2)
        axial = (radial + hoop) / 2 + self.yield_strength * m / sqrt(1 + m**2)
        carried = (THREE + self.m) / (THREE * (self.b / middle) ** 2 + self.m)
        return carried * (hoop - self.nu * (radial + axial)) / self.e

    def round(self):
        plane, axial = 2 * self.mean, self.axial
        volume = 1 + (1 - 2 * self.nu) * (plane + axial) / self.e
        spring = (1 - self.r) * -2 * self.nu * self.mean / self.e
        self.drift = spring - (axial - self.nu * plane) / self.e
        self.elastic = -self.elastic_hoop()
        self.reduction = log(self.before / self.b) - self.elastic
        end = extrapolate(self.speed, [mpf(0)] * (len(self.rule) + 1))
        stretch = exp(end[0] - self.drift + spring)
        self.a = sqrt(self.b**2 - self.metal_area / stretch * volume)
        self.set_state(end)
        return stretch

    def change(self, inner, outer, radius):
        """Lamé: how far a radius moves under two pressures."""
        mean = (inner * self.a**2 - outer * self.b**2) / (self.b**2 - self.a**2)
        shear = (inner - outer) * (self.a * self.b) ** 2 / ((self.b**2 - self.a**2) * radius**2)
        free = -2 * self.nu * mean / self.e
        return radius * (((1 - self.nu) * mean + (1 + self.nu) * shear) / self.e + self.r * self.nu * free), free

    def results(self):
        """Members of fer_forming, in mm, MPa and fractions."""
        alone, _ = self.change(mpf(0), -self.p, self.a)
        inner = self.q * alone / self.a
        (out, free), (bore, _) = self.change(inner, -self.p, self.b), self.change(inner, -self.p, self.a)
        return {"wall": self.b - self.a, "bore": 2 * self.a, "stretch": self.stretch, "pressure": self.p,
                "hose_share": self.q / self.p, "springback": 2 * out, "crimp_diameter": 2 * (self.b + out),
                "crimp_wall": self.b - self.a + out - bore, "crimp_bore": 2 * (self.a + bore),
                "crimp_stretch": self.stretch * (1 + (1 - self.r) * free), "plastic_strain": self.strain,
                "effective_yield_strength": self.yield_strength}
