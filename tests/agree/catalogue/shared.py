# SPDX-License-Identifier: MIT
"""What the formulas of several modules draw and use; MODULE.py imports all that is here."""
import math
import sys

import ferrule as f
from ferrule import mm
from mpmath import atan2, betainc, cos, erfc, exp, log, lu_solve, matrix, mp, mpf, pi, quad, sin, sqrt  # noqa: F401

from .domains import *  # noqa: F401,F403
from .exact import case, exact  # noqa: F401
from .rows import CALLS, DECIDES, ROOT, row  # noqa: F401

sys.path.extend(str(path.parent) for path in (ROOT / "tests").rglob("vectors/reference.py"))
import reference as ref  # noqa: E402

mp.prec = 200

LEAST, MOST = 0.001, 1e6


def length(rng, low=LEAST, high=MOST):
    """A length of any size, now and then an end of its range."""
    if rng.random() < 0.05:
        return rng.choice([low, high])
    return 10 ** rng.uniform(math.log10(low), math.log10(high))


def share(rng):
    """From 0 to 1, often very near to either."""
    kind = rng.randrange(4)
    if kind == 0:
        return 10 ** rng.uniform(-14, -1)
    if kind == 1:
        return 1 - 10 ** rng.uniform(-14, -1)
    return rng.random()


def joint(rng):
    """A joint of any size: thin and thick hoses, stems that fit to the last digit, metal of any thickness."""
    inside = length(rng, 0.01, 1e5)
    outside = inside * (1 + 10 ** rng.uniform(-6, 1))
    stem = rng.choice([inside, math.nextafter(inside, MOST), inside * rng.uniform(0.3, 1),
                       inside + (outside - inside) * share(rng) * 0.999])
    wall = max(outside * 10 ** rng.uniform(-5, 0.5), LEAST)
    fitted = math.sqrt(max(outside**2 - inside**2 + stem**2, outside**2))
    outer = (fitted + 2 * wall) * (1 + rng.choice([1e-15, 10 ** rng.uniform(-9, 0.5)]))
    numbers = {"di": inside, "do": outside, "a": (outside - inside) * rng.uniform(0.02, 0.49), "s": stem,
               "wall": wall, "outside": outer, "length": length(rng, 0.01, 1e5)}
    return numbers, f.Joint(hose=f.Hose(mm(inside), mm(outside), mm(numbers["a"])), stem=f.Stem(mm(stem)),
                            ferrule=f.Ferrule(mm(wall), mm(outer), mm(numbers["length"])))


BASES = ("wall", "fitted wall", "soft wall", "area")


def crimp(rng, flows=("none", "ends_fixed", "ends_free")):
    """A joint at a crimp diameter anywhere between touch and stem, with a model."""
    numbers, j = joint(rng)
    basis, flow = rng.choice(BASES), rng.choice(flows)
    model = f.Model(basis=basis.replace(" ", "_").upper(), flow=flow.upper())
    compression = share(rng)
    diameter = f.crimp_diameter(j, f.fraction(compression), model).mm
    return numbers, j, basis, flow, model, compression, diameter


def die(rng):
    """Closing diameter, die size, number of segments: from round to the widest that the die can stand open."""
    size = length(rng, LEAST, 9e5)
    offset = rng.choice([0.0, size * 10 ** rng.uniform(-15, 1)])
    return min(size + offset, MOST), size, rng.choice([3, 4, 5, 7, 8, 63, 64, rng.randint(3, 64)])


def metal(rng):
    modulus = 10 ** rng.uniform(3, 6)
    return {"e": modulus, "nu": rng.choice([0.0, 0.4999999, rng.uniform(0, 0.5)]), "y": modulus * 10 ** rng.uniform(-6, -2.31)}


def as_material(m):
    return f.Material(f.mpa(m["e"]), f.fraction(m["nu"]), f.mpa(m["y"]))


SLOPES = {"di": "hose_inside", "do": "hose_outside", "a": "hose_reinforcement", "s": "stem_outside",
          "wall": "ferrule_wall", "outside": "ferrule_outside", "diameter": "diameter"}


def compression_slopes(numbers, diameter, basis, flow):
    """Differences over a step so small that 200 bits lose nothing: good to 25 digits."""
    here = dict(numbers, diameter=diameter)
    slopes = {}
    for key in SLOPES:
        step = mpf(here[key]) * mpf(10) ** -25
        more, less = dict(here, **{key: mpf(here[key]) + step}), dict(here, **{key: mpf(here[key]) - step})
        slopes[key] = (ref.compression(more, more["diameter"], basis, flow)
                       - ref.compression(less, less["diameter"], basis, flow)) / (2 * step)
    return slopes


def jumps(numbers):
    return abs(numbers["s"] - numbers["di"]) < 1e-9 * numbers["di"]


def thinness(numbers):
    """Ferrule by hose wall: a bore in a last place of the one is so much in the other."""
    return max(mpf(1), mpf(numbers["outside"]) / (mpf(numbers["do"]) - mpf(numbers["di"])))


def number_in(quantity):
    return next(getattr(quantity, member) for member in ("mm", "mpa", "fraction") if hasattr(quantity, member))


INPUTS = ("hose_inside", "hose_outside", "stem_outside", "ferrule_wall", "ferrule_outside", "diameter")

KEYS = ("di", "do", "s", "wall", "outside", "diameter")


def shop_joint(rng):
    """Joints of a shop: what uncertainties are about."""
    inside, wall = rng.uniform(4, 100), rng.uniform(1, 10)
    s = inside + rng.uniform(-0.3, 0.25) * min(wall, inside) * 0.8
    metal_wall = rng.uniform(0.5, 6)
    outer = inside + 2 * wall + 2 * metal_wall + rng.uniform(0.3, 4)
    numbers = {"di": inside, "do": inside + 2 * wall, "a": wall * 0.3, "s": s, "wall": metal_wall, "outside": outer,
               "length": 30.0}
    return numbers, f.Joint(hose=f.Hose(mm(inside), mm(numbers["do"]), mm(numbers["a"])), stem=f.Stem(mm(s)),
                            ferrule=f.Ferrule(mm(metal_wall), mm(outer), mm(30)))


def normal_uncertainties(rng, numbers):
    wall = numbers["do"] - numbers["di"]
    amounts = {name: wall * rng.choice([0.0, 10 ** rng.uniform(-6, -1.3)]) for name in INPUTS}
    amounts["diameter"] = wall * 10 ** rng.uniform(-4, -1.3)
    r = rng.uniform(-1, 1)
    uncertainties = f.Uncertainties(**{name: mm(u) for name, u in amounts.items()},
                      correlations={"hose_inside_hose_outside": f.fraction(r)})
    return amounts, r, uncertainties


def quantile(tail, degrees):
    """The t > 0 with this much beyond it; from the library's own digits by Newton's rule."""
    tail = mpf(tail)
    t = mpf(f.uncertainty_budget(WORKED, f.Uncertainties(diameter=f.Uncertainty(mm(0.1), degrees_of_freedom=degrees)), mm(23.51),
                                 f.fraction(float(1 - 2 * tail))).coverage_factor)
    for _ in range(8):
        t += (student_tail(t, degrees) - tail) / student_density(t, degrees)
    return t


def student_tail(t, v):
    """P(T > t), t >= 0; v 0: normal."""
    t = mpf(t)
    if v == 0:
        return erfc(t / sqrt(mpf(2))) / 2
    v = mpf(v)
    return betainc(v / 2, mpf(1) / 2, 0, v / (v + t**2), regularized=True) / 2


def student_density(t, v):
    if v == 0:
        return exp(-t**2 / 2) / sqrt(2 * pi)
    v = mpf(v)
    return (1 + t**2 / v) ** (-(v + 1) / 2) / (sqrt(v) * mp.beta(v / 2, mpf(1) / 2))


WORKED = f.Joint(hose=f.Hose("12.7 mm", "19.9 mm"), stem="12.95 mm", ferrule=("2.4 mm", "25.6 mm"))


def margins(numbers, amounts, r, limit):
    """Diameter at a limit of compression, and the standard deviation about it."""
    k = 1 - mpf(limit)
    u = {name: mpf(amount) for name, amount in amounts.items()}
    variance = (u["diameter"] ** 2 + 4 * u["ferrule_wall"] ** 2 + u["stem_outside"] ** 2
                + k**2 * (u["hose_outside"] ** 2 + u["hose_inside"] ** 2
                          - 2 * mpf(r) * u["hose_outside"] * u["hose_inside"]))
    at = 2 * mpf(numbers["wall"]) + mpf(numbers["s"]) + k * (mpf(numbers["do"]) - mpf(numbers["di"]))
    return at, sqrt(variance)


DISTRIBUTIONS = {"NORMAL": (mpf(1), mpf(3)), "RECTANGULAR": (sqrt(mpf(3)), mpf(9) / 5), "TRIANGULAR": (sqrt(mpf(6)), mpf(12) / 5)}


def line(xs, ys, weights):
    xs, ys = [mpf(x) for x in xs], [mpf(y) for y in ys]
    total = sum(weights)
    weights = [w * len(xs) / total for w in weights]
    n = len(xs)
    mean_x, mean_y = (sum(w * v for w, v in zip(weights, vs)) / n for vs in (xs, ys))
    squares = sum(w * (x - mean_x) ** 2 for w, x in zip(weights, xs))
    slope = sum(w * (x - mean_x) * (y - mean_y) for w, x, y in zip(weights, xs, ys)) / squares
    rest = sum(w * (y - mean_y - slope * (x - mean_x)) ** 2 for w, x, y in zip(weights, xs, ys))
    return mean_x, mean_y, squares, slope, sqrt(rest / (n - 2)), n
