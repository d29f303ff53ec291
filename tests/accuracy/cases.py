# SPDX-License-Identifier: MIT
"""Each numeric function once more with mpmath at 200 bits, over its declared domain.

A case draws arguments (random, at the edges, nearly degenerate), calls the library and returns
{result: (what the library says, exact value[, scale])}, or None where the library refuses the arguments. Without a
scale the error counts against the exact value itself. Formulas are written as they stand in a text, not as the library
rearranges them. Where no formula can be more than a model (fer_form_ferrule and what calls it), finite elements are the
judge: tests/finite_element; where everything is counting or chance: tests/simulation.
"""
import math
import pathlib
import sys

import ferrule as f
from ferrule import mm

sys.path.insert(0, str(pathlib.Path(__file__).parents[1] / "vectors"))
import forming_model  # noqa: E402
import reference as ref  # noqa: E402
from mpmath import mp, mpf, sqrt, log, exp, pi, sin, cos, atan2, erfc, betainc, quad, matrix, lu_solve  # noqa: E402

mp.prec = 200
LEAST, MOST = 0.001, 1e6
CASES = []


def case(function, measure, bound, share=1.0):
    """Registers a case. measure: "ulp" (units in the last place) or "relative"; share: of the samples, for slow ones."""
    def register(draw):
        CASES.append((function, measure, bound, share, draw))
        return draw
    return register


# ---- drawing -------------------------------------------------------------------------------------------------

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


def crimp(rng, flows=("none", "held", "free")):
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


# ---- quantity ---------------------------------------------------------------------------------------------------

INCH, POUND = mpf("25.4"), mpf("4.4482216152605")
# NIST SP 811 (2008), appendix B.8 and B.9: unit, member of the base, factor
UNITS = [("cm", "mm", 10), ("metre", "mm", 1000), ("micrometre", "mm", mpf(1) / 1000), ("inch", "mm", INCH),
         ("foot", "mm", 12 * INCH), ("thou", "mm", INCH / 1000), ("cm2", "mm2", 100), ("square_inch", "mm2", INCH**2),
         ("kn", "newton", 1000), ("lbf", "newton", POUND), ("tonne_force", "newton", mpf("9806.65")),
         ("bar", "mpa", mpf(1) / 10), ("psi", "mpa", POUND / INCH**2), ("kpa", "mpa", mpf(1) / 1000), ("gpa", "mpa", 1000),
         ("deg", "rad", pi / 180), ("percent", "fraction", mpf(1) / 100), ("per_inch", "per_mm", 1 / INCH)]


@case("units of quantity.h", "ulp", 2)
def units(rng):
    """pi is a double in the factor of the degree: a third rounding."""
    unit, base, factor = rng.choice(UNITS)
    number = rng.choice([-1, 1]) * 10 ** rng.uniform(-12, 12)
    made = getattr(f, unit)(number)
    return {"into the base": (getattr(made, base), mpf(number) * factor),
            "out of the base": (getattr(getattr(f, base)(number), unit), mpf(number) / factor)}


@case("units of quantity.h", "ulp", 2)
def fahrenheit(rng):
    number = rng.uniform(-400, 4000)
    return {"fahrenheit, of the number": (f.fahrenheit(number).celsius, (mpf(number) - 32) * 5 / 9, abs(number) + 32),
            "to fahrenheit, of the number": (f.celsius(number).fahrenheit, mpf(number) * 9 / 5 + 32, abs(number) * 2 + 32)}


# ---- joint, compression -----------------------------------------------------------------------------------------

@case("fer_fitted_outside", "ulp", 2)
def fitted_outside(rng):
    numbers, j = joint(rng)
    return {"outside": (f.fitted_outside(j).mm, ref.fitted_outside(numbers))}


@case("fer_crimp_diameter", "ulp", 2)
def crimp_diameter(rng):
    numbers, _, basis, flow, _, c, diameter = crimp(rng, ("none", "held"))
    di, do, s, w, fo = (mpf(numbers[k]) for k in ("di", "do", "s", "wall", "outside"))
    if basis == "area":
        bore = sqrt(s**2 + (do**2 - di**2) * (1 - mpf(c)))
    else:
        walls = ref.fitted_outside(numbers) - s if basis == "fitted wall" and s > di else do - di
        taken = walls - 2 * mpf(numbers["a"]) if basis == "soft wall" else walls
        bore = s + walls - mpf(c) * taken
    exact = sqrt(bore**2 + fo**2 - (fo - 2 * w) ** 2) if flow == "held" else bore + 2 * w
    return {f"{basis}, {flow}": (diameter, exact)}


@case("fer_crimp_diameter", "relative", 1e-13, 0.1)
def crimp_diameter_free(rng):
    numbers, j, basis, flow, model, c, diameter = crimp(rng, ("free",))
    # the compression at the exact diameter is c: error of the diameter by the error of the compression and the slope
    miss = ref.compression(numbers, diameter, basis, flow) - mpf(c)
    step = mpf(diameter) * mpf(10) ** -25
    slope = (ref.compression(numbers, mpf(diameter) + step, basis, flow)
             - ref.compression(numbers, diameter, basis, flow)) / step
    return {f"{basis}, free": (diameter, mpf(diameter) - miss / slope)}


@case("fer_compression", "ulp", 2)
def compression(rng):
    numbers, j, basis, flow, model, _, diameter = crimp(rng, ("none", "held"))
    if basis == "area" and numbers["do"] - numbers["di"] < 1e-4 * numbers["do"]:
        return None  # squares of both diameters agree in all but their last digits
    return {f"{basis}, {flow}": (f.compression(j, mm(diameter), model).fraction,
                                 ref.compression(numbers, diameter, basis, flow))}


@case("fer_compression", "relative", 1e-13, 0.1)
def compression_free(rng):
    numbers, j, basis, flow, model, _, diameter = crimp(rng, ("free",))
    exact = ref.compression(numbers, diameter, basis, flow)
    return {f"{basis}, free, of the metal's share": (
        f.compression(j, mm(diameter), model).fraction, exact,
        max(abs(exact), 2 * mpf(numbers["wall"]) / (mpf(numbers["do"]) - mpf(numbers["di"]))))}


@case("fer_crimped_wall", "ulp", 2)
def crimped_wall(rng):
    numbers, j, _, flow, model, _, diameter = crimp(rng, ("none", "held"))
    exact = ref.wall_after(mpf(numbers["wall"]), mpf(numbers["outside"]), mpf(diameter), flow)
    return {flow: (f.crimped_wall(j, mm(diameter), model).mm, exact)}


@case("fer_crimped_wall", "relative", 1e-13, 0.1)
def crimped_wall_free(rng):
    numbers, j, _, _, model, _, diameter = crimp(rng, ("free",))
    exact = ref.wall_after(mpf(numbers["wall"]), mpf(numbers["outside"]), mpf(diameter), "free")
    return {"free": (f.crimped_wall(j, mm(diameter), model).mm, exact)}


@case("fer_crimped_length", "relative", 1e-13, 0.1)
def crimped_length(rng):
    numbers, j, _, _, model, _, diameter = crimp(rng, ("free",))
    return {"free": (f.crimped_length(j, mm(diameter), model).mm, ref.length_after(numbers, diameter))}


@case("fer_touch_diameter", "ulp", 2)
def touch_diameter(rng):
    numbers, j = joint(rng)
    flow = rng.choice(("none", "held"))
    w, fo = mpf(numbers["wall"]), mpf(numbers["outside"])
    fitted = ref.fitted_outside(numbers)
    exact = sqrt(fitted**2 + fo**2 - (fo - 2 * w) ** 2) if flow == "held" else fitted + 2 * w
    if fitted >= fo - 2 * w:
        exact = fo
    return {flow: (f.touch_diameter(j, f.Model(flow=flow.upper())).mm, exact)}


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


@case("fer_find_compression_slopes", "relative", 1e-14, 0.05)
def find_compression_slopes(rng):
    numbers, j, basis, flow, model, _, diameter = crimp(rng)
    if jumps(numbers):
        return None  # the slope of the fitted wall jumps where the stem begins to widen the hose
    found = f.find_compression_slopes(j, mm(diameter), model)
    exact = compression_slopes(numbers, diameter, basis, flow)
    largest = max(abs(value) for value in exact.values()) * thinness(numbers)
    return {f"{name}, of the largest by thinness": (getattr(found, name).per_mm, exact[key], largest) for key, name in SLOPES.items()}


@case("fer_find_diameter_slopes", "relative", 1e-14, 0.05)
def find_diameter_slopes(rng):
    numbers, j, basis, flow, model, c, diameter = crimp(rng)
    if jumps(numbers):
        return None
    found = f.find_diameter_slopes(j, f.fraction(c), model)
    slopes = compression_slopes(numbers, diameter, basis, flow)
    exact = {key: -value / slopes["diameter"] for key, value in slopes.items()}
    largest = max(abs(exact[key]) for key in SLOPES if key != "diameter") * thinness(numbers)
    results = {f"{name}, of the largest by thinness": (getattr(found, name).fraction, exact[key], largest)
               for key, name in SLOPES.items() if key != "diameter"}
    results["compression"] = (found.compression.mm, 1 / slopes["diameter"])
    return results


# ---- forming ------------------------------------------------------------------------------------------------------

def forming_job(rng, hardening):
    """A ferrule that can be formed: outside, wall, closing diameter, metal, load."""
    outside = 10 ** rng.uniform(0, 3)
    wall, modulus = outside * rng.uniform(0.01, 0.17), 10 ** rng.uniform(4.5, 5.5)
    strength = modulus * 10 ** rng.uniform(-3.5, -2.6)
    metal = {"e": modulus, "nu": rng.choice([0.0, 0.3, 0.45]), "y": strength, "h": strength * rng.uniform(0.1, 4) if hardening else 0.0}
    restraint, hose = rng.choice([0.0, 1.0, rng.random()]), strength * rng.choice([0.0, rng.uniform(0, 0.15)])
    diameter = outside * (1 - rng.uniform(0.06, 0.25))
    material = f.Material(f.mpa(modulus), f.fraction(metal["nu"]), f.mpa(strength), f.mpa(metal["h"]))
    return (wall, outside, diameter, metal, restraint, hose), f.Ferrule(mm(wall), mm(outside)), material, \
        f.FormingLoad(f.fraction(restraint), f.mpa(hose))


def formed(rng, hardening):
    model, ferrule, material, load = forming_job(rng, hardening)
    found = f.form_ferrule(ferrule, mm(model[2]), material, load)
    exact = forming_model.Stroke(*model, points=8).results()
    kind = "hardening" if hardening else "held" if model[4] == 1.0 else "free or restrained"
    return {f"{name}, {kind}": (number_in(getattr(found, name)), value) for name, value in exact.items()}


def number_in(quantity):
    return next(getattr(quantity, member) for member in ("mm", "mpa", "fraction") if hasattr(quantity, member))


# A model, integrated in six steps: its own error against finite elements is 0.05 % and more.
@case("fer_form_ferrule", "relative", 1e-4, 0.002)
def form_hardening(rng):
    return formed(rng, True)


@case("fer_form_ferrule", "relative", 1e-5, 0.002)
def form_without_hardening(rng):
    return formed(rng, False)


@case("fer_closing_diameter", "relative", 1e-8, 0.002)
def closing_diameter(rng):
    """The model's crimp diameter at the closing diameter that was found is the one asked for, to what the slope leaves."""
    model, ferrule, material, load = forming_job(rng, False)
    asked = model[2]
    found = f.closing_diameter(ferrule, mm(asked), material, load).mm
    exact = forming_model.Stroke(*model[:2], found, *model[3:], points=2).results()["crimp_diameter"]
    return {"diameter": (found, mpf(found) - (exact - mpf(asked)))}


@case("fer_least_reduction", "ulp", 2)
def least_reduction(rng):
    outside, m = length(rng, 0.01), metal(rng)
    wall = max(LEAST, outside * 10 ** rng.uniform(-4, -0.8))
    exact = 5 * sqrt(mpf(3)) * mpf(m["y"]) / mpf(m["e"]) * mpf(outside) / 2
    return {"reduction": (f.least_reduction(f.Ferrule(mm(wall), mm(outside)), as_material(m)).mm, exact)}


@case("fer_find_die_force", "ulp", 2)
def find_die_force(rng):
    p, d, l, n = 10 ** rng.uniform(-6, 6), length(rng), length(rng), rng.randint(3, 64)
    found = f.find_die_force(f.mpa(p), mm(d), mm(l), n)
    face = mpf(p) * mpf(d) * mpf(l)
    return {"total": (found.total.newton, pi * face), "segment": (found.segment.newton, pi * face / n),
            "segment_resultant": (found.segment_resultant.newton, face * sin(pi / n)),
            "resultants": (found.resultants.newton, n * face * sin(pi / n))}


def tube(rng):
    outside = length(rng, 0.01)
    inside = max(LEAST, outside * rng.choice([rng.random(), 1 - 10 ** rng.uniform(-12, -1)]))
    return inside, outside, rng.choice([0.0, 1.0, rng.random()])


def displacement(a, b, pi_, po, m, r, radius):
    """Lamé, on radii."""
    e, nu, section = mpf(m["e"]), mpf(m["nu"]), b**2 - a**2
    mean = (pi_ * a**2 - po * b**2) / section
    shear = (pi_ - po) * a**2 * b**2 / (section * radius**2)
    return radius / e * ((1 - nu) * mean + (1 + nu) * shear + nu * r * (-2 * nu * mean)), mean, shear


@case("fer_load_tube", "relative", 1e-13)
def load_tube(rng):
    inside, outside, r = tube(rng)
    m, p_in, p_out = metal(rng), rng.choice([0.0, 10 ** rng.uniform(-3, 3)]), rng.choice([0.0, 10 ** rng.uniform(-3, 3)])
    found = f.load_tube(mm(inside), mm(outside), f.mpa(p_in), f.mpa(p_out), as_material(m), f.FormingLoad(f.fraction(r)))
    a, b, pi_, po = mpf(inside) / 2, mpf(outside) / 2, mpf(p_in), mpf(p_out)
    at_a, mean, shear_a = displacement(a, b, pi_, po, m, mpf(r), a)
    at_b, _, shear_b = displacement(a, b, pi_, po, m, mpf(r), b)
    # two pressures of nearly the same size may cancel: the scale is what the greater of them does alone
    scale = sum(abs(displacement(a, b, *alone, m, mpf(0), b)[0]) for alone in ((pi_, mpf(0)), (mpf(0), po)))
    stress = sum(abs(x) for alone in ((pi_, mpf(0)), (mpf(0), po))
                 for x in displacement(a, b, *alone, m, mpf(0), a)[1:])
    stretch = -2 * mpf(m["nu"]) * mean / mpf(m["e"]) * (1 - mpf(r))
    return {"inside, of the larger pressure": (found.inside.mm, 2 * at_a, max(scale, abs(2 * at_a))),
            "outside, of the larger pressure": (found.outside.mm, 2 * at_b, max(scale, abs(2 * at_b))),
            "stretch, of the larger pressure": (found.stretch.fraction, stretch, stress / mpf(m["e"])),
            "hoop_inside, of the larger pressure": (found.hoop_inside.mpa, mean + shear_a, stress),
            "hoop_outside, of the larger pressure": (found.hoop_outside.mpa, mean + shear_b, stress)}


def stem(rng):
    inside, outside, r = tube(rng)
    return inside, outside, r, metal(rng)


@case("fer_find_stem_strength", "relative", 1e-13)
def find_stem_strength(rng):
    inside, outside, r, m = stem(rng)
    found = f.find_stem_strength(f.Stem(mm(outside), mm(inside)), as_material(m), f.FormingLoad(f.fraction(r)))
    a, b, y, nu = mpf(inside), mpf(outside), mpf(m["y"]), mpf(m["nu"])
    results = {"first_yield": (found.first_yield.mpa, y * (b**2 - a**2) / (2 * b**2 * sqrt(1 - r * nu + (r * nu) ** 2)))}
    if r == 1.0:
        results["full_yield, held"] = (found.full_yield.mpa, y / sqrt(1 - nu + nu**2) * log(b / a))
    else:
        results["full_yield, free"] = (found.full_yield.mpa, free_full_yield(a, b, y, mpf(r)))
    return results


def free_full_yield(a, b, y, r):
    """Flow of a free tube without hose: the root of force = pressure, then the share that the restraint leaves."""
    alpha = (a / b) ** 2

    def pressure(m):
        outer, inner = sqrt(1 + m**2), sqrt(1 + (alpha * m) ** 2)
        return (log((1 + inner) / (1 + outer)) - log(alpha)) / sqrt(mpf(3))

    def miss(m):
        return m * (1 - alpha**2) / (sqrt(1 + m**2) + sqrt(1 + (alpha * m) ** 2)) - pressure(m)
    m = ref.root(miss, mpf(10) ** -30, 1000 / alpha)
    x = (1 - r) * m / (m + sqrt(mpf(3)))
    return y * pressure(sqrt(mpf(3)) * x / (1 - x))


@case("fer_load_stem", "relative", 1e-13)
def load_stem(rng):
    inside, outside, r, m = stem(rng)
    s, load = f.Stem(mm(outside), mm(inside)), {"restraint": f.fraction(r)}
    strength = f.find_stem_strength(s, as_material(m), f.FormingLoad(**load))
    q = strength.full_yield.mpa * rng.uniform(0, 1)
    found = f.load_stem(s, as_material(m), f.FormingLoad(hose_pressure=f.mpa(q), **load))
    a, b, e, nu = mpf(inside) / 2, mpf(outside) / 2, mpf(m["e"]), mpf(m["nu"])
    elastic = 4 * mpf(q) * b**2 * a / (e * (b**2 - a**2)) * (1 - mpf(r) * nu**2)
    if q <= strength.first_yield.mpa:
        return {"elastic": (found.bore_reduction.mm, elastic)}
    k = mpf(m["y"]) / (2 * sqrt(1 - nu + nu**2))
    c = ref.root(lambda c: k * (2 * log(c / a) + 1 - c**2 / b**2) - mpf(q), a, b)
    reduction = 4 * (1 - nu**2) * k * c**2 / (e * a)
    hoop = 2 * mpf(q) * b**2 / (b**2 - a**2)
    return {"plastic_diameter": (found.plastic_diameter.mm, 2 * c), "bore_reduction": (found.bore_reduction.mm, reduction),
            "residual_reduction, of the whole": (found.residual_reduction.mm, reduction - elastic, reduction),
            "residual_hoop, of the elastic": (found.residual_hoop.mpa, hoop - 2 * k, hoop)}


@case("fer_bore_margin", "ulp", 2)
def bore_margin(rng):
    bore = length(rng, 0.01)
    reduction, gauge = bore * share(rng) * 0.999, bore * rng.uniform(0.9, 1.1)
    found = f.bore_margin(f.Stem(mm(2 * bore if bore < 5e5 else MOST), mm(bore)), mm(reduction), mm(gauge)).mm
    return {"margin, of the bore": (found, mpf(bore) - mpf(reduction) - mpf(gauge), mpf(bore))}


# ---- lobe -----------------------------------------------------------------------------------------------------------

def exact_shape(diameter, size, n):
    exact = ref.shape(diameter, size, n)
    big, d, a = mpf(diameter), mpf(size), pi / n
    delta, r = (big - d) / 2, d / 2
    exact["edge_angle"] = atan2(r * sin(a), delta + r * cos(a))
    if n % 2 == 0:
        exact["jaws_least"], exact["jaws_most"] = d + (big - d) * cos(a), big
    else:
        exact["jaws_least"], exact["jaws_most"] = d + (big - d) * (1 + cos(a)) / 2, d + (big - d) * cos(a / 2)
    return exact


@case("fer_lobe_height", "ulp", 2)
def lobe_height(rng):
    diameter, size, n = die(rng)
    exact = ref.shape(diameter, size, n)["lobe_height"] if diameter > size else mpf(0)
    return {"height": (f.lobe_height(mm(diameter), mm(size), n).mm, exact)}


@case("fer_crimp_shape", "ulp", 2)
def crimp_shape(rng):
    diameter, size, n = die(rng)
    found, exact = f.crimp_shape(mm(diameter), mm(size), n), exact_shape(diameter, size, n)
    if diameter == size:
        exact["gap"] = exact["lobe_height"] = mpf(0)
    results = {name: (getattr(found, name).mm, value) for name, value in exact.items() if name != "edge_angle"}
    results["edge_angle"] = (found.edge_angle.rad, exact["edge_angle"])
    return results


@case("fer_arc_radius", "ulp", 2)
def arc_radius(rng):
    diameter, size, n = die(rng)
    edge = f.crimp_shape(mm(diameter), mm(size), n).edge_angle.rad
    angle = edge * rng.choice([0.0, 1.0 - 1e-15, -1.0 + 1e-15, rng.uniform(-1, 1)])
    delta, r, t = (mpf(diameter) - mpf(size)) / 2, mpf(size) / 2, mpf(angle)
    return {"radius": (f.arc_radius(mm(diameter), mm(size), n, f.rad(angle)).mm,
                       delta * cos(t) + sqrt(r**2 - (delta * sin(t)) ** 2))}


@case("fer_jaws_reading", "relative", 1e-12)
def jaws_reading(rng):
    diameter, size, n = die(rng)
    angle = rng.uniform(-4, 4) * math.pi
    big, d, a = mpf(diameter), mpf(size), pi / n

    def from_middle(t):
        return abs(t - 2 * a * mp.nint(t / (2 * a)))
    exact = d + (big - d) * (cos(from_middle(mpf(angle))) + cos(from_middle(mpf(angle) + pi))) / 2
    return {"reading": (f.jaws_reading(mm(diameter), mm(size), n, f.rad(angle)).mm, exact)}


@case("fer_lobe_offset", "relative", 1e-13)
def lobe_offset(rng):
    _, size, n = die(rng)
    greatest = size * math.sin(math.pi / n / 2) ** 2
    height = greatest * min(share(rng), 0.9)
    h, d = mpf(height), mpf(size)
    return {"offset, up to 0.9 of the greatest": (f.lobe_offset(mm(size), n, mm(height)).mm,
                                                  h * (d - h) / (d * sin(pi / n / 2) ** 2 - h))}


@case("fer_gap_offset", "ulp", 2)
def gap_offset(rng):
    wall, n, beta = length(rng), rng.randint(3, 64), rng.choice([0.0, 100.0, 10 ** rng.uniform(-9, 2)])
    return {"offset": (f.gap_offset(mm(wall), n, f.fraction(beta)).mm, mpf(beta) * mpf(wall) / sin(pi / n))}


@case("fer_find_equivalent_crimp", "relative", 1e-12, 0.2)
def find_equivalent_crimp(rng):
    numbers, j, basis, flow, model, _, diameter = crimp(rng, ("none", "held"))
    size, n = diameter * (1 - rng.random() * 0.2), rng.randint(3, 64)
    found = f.find_equivalent_crimp(j, mm(diameter), mm(size), n, model)
    exact = ref.shape(diameter, size, n)
    at = exact["arcs_diameter"]
    wall = ref.wall_after(mpf(numbers["wall"]), mpf(numbers["outside"]), at, flow)
    # the arcs diameter is rounded once before it is used: the walls of the hose are the scale
    scale = at / (mpf(numbers["do"]) - mpf(numbers["di"]))
    return {"diameter": (found.diameter.mm, at), "bore, of the diameter": (found.bore.mm, at - 2 * wall, at),
            "pin, of the diameter": (found.pin.mm, 2 * (exact["edge_radius"] - wall), at),
            "compression, of diameter by hose wall": (found.compression.fraction,
                                                      ref.compression(numbers, at, basis, flow), max(scale, mpf(1)) * 10)}


# ---- spread, window -------------------------------------------------------------------------------------------------

INPUTS = ("hose_inside", "hose_outside", "stem_outside", "ferrule_wall", "ferrule_outside", "diameter")
KEYS = ("di", "do", "s", "wall", "outside", "diameter")


def shop_joint(rng):
    """Joints of a shop: what spreads are about."""
    inside, wall = rng.uniform(4, 100), rng.uniform(1, 10)
    s = inside + rng.uniform(-0.3, 0.25) * min(wall, inside) * 0.8
    metal_wall = rng.uniform(0.5, 6)
    outer = inside + 2 * wall + 2 * metal_wall + rng.uniform(0.3, 4)
    numbers = {"di": inside, "do": inside + 2 * wall, "a": wall * 0.3, "s": s, "wall": metal_wall, "outside": outer,
               "length": 30.0}
    return numbers, f.Joint(hose=f.Hose(mm(inside), mm(numbers["do"]), mm(numbers["a"])), stem=f.Stem(mm(s)),
                            ferrule=f.Ferrule(mm(metal_wall), mm(outer), mm(30)))


def normal_spread(rng, numbers):
    wall = numbers["do"] - numbers["di"]
    amounts = {name: wall * rng.choice([0.0, 10 ** rng.uniform(-6, -1.3)]) for name in INPUTS}
    amounts["diameter"] = wall * 10 ** rng.uniform(-4, -1.3)
    r = rng.uniform(-1, 1)
    spread = f.Spread(**{name: mm(u) for name, u in amounts.items()},
                      correlations={"hose_inside_hose_outside": f.fraction(r)})
    return amounts, r, spread


def quantile(tail, degrees):
    """The t > 0 with this much beyond it; from the library's own digits by Newton's rule."""
    tail = mpf(tail)
    t = mpf(f.uncertainty_budget(WORKED, f.Spread(diameter=f.Uncertainty(mm(0.1), degrees_of_freedom=degrees)), mm(23.51),
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


@case("fer_uncertainty_budget", "relative", 1e-12, 0.1)
def uncertainty_budget(rng):
    numbers, j = shop_joint(rng)
    basis, flow = rng.choice(BASES), rng.choice(("none", "held", "free"))
    model = f.Model(basis=basis.replace(" ", "_").upper(), flow=flow.upper())
    diameter = f.crimp_diameter(j, f.fraction(rng.uniform(0.1, 0.4)), model).mm
    if jumps(numbers):
        return None
    amounts, r, spread = normal_spread(rng, numbers)
    found = f.uncertainty_budget(j, spread, mm(diameter), f.fraction(0.95), model)
    slopes = compression_slopes(numbers, diameter, basis, flow)
    parts = {name: slopes[key] * mpf(amounts[name]) for name, key in zip(INPUTS, KEYS)}
    square = sum(x**2 for x in parts.values()) + 2 * mpf(r) * parts["hose_inside"] * parts["hose_outside"]
    factor = sqrt(mpf(2)) * mp.erfinv(mpf(0.95))
    return {"standard_uncertainty": (found.standard_uncertainty.fraction, sqrt(square)),
            "expanded_uncertainty": (found.expanded_uncertainty.fraction, sqrt(square) * factor)}


@case("fer_uncertainty_budget", "relative", 1e-13, 0.05)
def coverage_factor(rng):
    degrees = rng.choice([0, 1, 2, rng.randint(3, 100), 10 ** rng.randint(3, 9)])
    coverage = share(rng)
    tail = 0.5 * (1 - coverage)
    spread = f.Spread(diameter=f.Uncertainty(mm(0.1), degrees_of_freedom=degrees))
    found = f.uncertainty_budget(WORKED, spread, mm(23.51), f.fraction(coverage)).coverage_factor
    exact = quantile(tail, degrees)
    return {"coverage_factor, Student" if degrees else "coverage_factor, normal": (found, exact, max(exact, mpf("1e-3")))}


@case("fer_worst_case", "ulp", 2)
def worst_case(rng):
    numbers, j = shop_joint(rng)
    diameter = f.crimp_diameter(j, f.fraction(rng.uniform(0.1, 0.4))).mm
    half = {key: 2.0 ** rng.randint(-8, -5) for key in KEYS}
    spread = f.Spread(**{name: f.Uncertainty(mm(half[key]), "RECTANGULAR") for name, key in zip(INPUTS, KEYS)})
    found = f.worst_case(j, spread, mm(diameter))
    # corners move by powers of two, which the sums of doubles nearly hold: the scale is the moved figures' own rounding
    def corner(tight):
        at = {key: mpf(numbers[key]) for key in ("di", "do", "s", "wall", "outside")}
        at["di"], at["do"] = at["di"] - tight * mpf(half["di"]), at["do"] + tight * mpf(half["do"])
        at["s"], at["wall"] = at["s"] + tight * mpf(half["s"]), at["wall"] + tight * mpf(half["wall"])
        return 1 - (mpf(diameter) - tight * mpf(half["diameter"]) - 2 * at["wall"] - at["s"]) / (at["do"] - at["di"])
    scale = mpf(numbers["outside"]) / (mpf(numbers["do"]) - mpf(numbers["di"]))
    return {"least, of diameter by hose wall": (found.least.fraction, corner(-1), scale),
            "most, of diameter by hose wall": (found.most.fraction, corner(1), scale)}


def margins(numbers, amounts, r, limit):
    """Diameter at a limit of compression, and the standard deviation about it."""
    k = 1 - mpf(limit)
    u = {name: mpf(amount) for name, amount in amounts.items()}
    variance = (u["diameter"] ** 2 + 4 * u["ferrule_wall"] ** 2 + u["stem_outside"] ** 2
                + k**2 * (u["hose_outside"] ** 2 + u["hose_inside"] ** 2
                          - 2 * mpf(r) * u["hose_outside"] * u["hose_inside"]))
    at = 2 * mpf(numbers["wall"]) + mpf(numbers["s"]) + k * (mpf(numbers["do"]) - mpf(numbers["di"]))
    return at, sqrt(variance)


@case("fer_crimp_yield", "relative", 1e-13)
def crimp_yield(rng):
    numbers, j = shop_joint(rng)
    amounts, r, spread = normal_spread(rng, numbers)
    low, high = rng.uniform(0.05, 0.2), rng.uniform(0.21, 0.4)
    a, sigma_a = margins(numbers, amounts, r, low)
    c, sigma_c = margins(numbers, amounts, r, high)
    diameter = float(c + (a - c) * mpf(rng.uniform(-0.2, 1.2)))
    found = f.crimp_yield(j, spread, (f.fraction(low), f.fraction(high)), mm(diameter))
    below = ref.ncdf((mpf(diameter) - a) / sigma_a)
    above = ref.ncdf((c - mpf(diameter)) / sigma_c)
    return {"inside, absolute": (found.inside.fraction, 1 - below - above, mpf(1)),
            "below, absolute": (found.below.fraction, below, mpf(1)),
            "above, absolute": (found.above.fraction, above, mpf(1))}


@case("fer_crimp_window", "ulp", 2)
def crimp_window(rng):
    numbers, j = joint(rng)
    low, high = sorted((share(rng), share(rng)))
    found = f.crimp_window(j, (f.fraction(low), f.fraction(high)))
    walls, s, w = mpf(numbers["do"]) - mpf(numbers["di"]), mpf(numbers["s"]), mpf(numbers["wall"])
    return {"least": (found.least.mm, s + 2 * w + (1 - mpf(high)) * walls),
            "most": (found.most.mm, s + 2 * w + (1 - mpf(low)) * walls)}


@case("fer_cheapest_target", "relative", 1e-13)
def cheapest_target(rng):
    numbers, j = shop_joint(rng)
    amounts, r, spread = normal_spread(rng, numbers)
    low, high = rng.uniform(0.05, 0.2), rng.uniform(0.21, 0.4)
    loose, tight = (1.0, 1.0) if rng.random() < 0.5 else (10 ** rng.uniform(-2, 2), 10 ** rng.uniform(-2, 2))
    call = f.best_target if loose == tight else f.cheapest_target
    costs = () if loose == tight else (loose, tight)
    found, _ = call(j, spread, (f.fraction(low), f.fraction(high)), *costs)
    a, sigma_a = margins(numbers, amounts, r, low)
    c, sigma_c = margins(numbers, amounts, r, high)
    # equal densities: loose N(D; a, sigma_a) = tight N(D; c, sigma_c), solved by Newton's rule from the library's answer
    d = mpf(found.mm)
    for _ in range(6):
        miss = (log(mpf(loose) / sigma_a) - ((d - a) / sigma_a) ** 2 / 2
                - log(mpf(tight) / sigma_c) + ((d - c) / sigma_c) ** 2 / 2)
        slope = -(d - a) / sigma_a**2 + (d - c) / sigma_c**2
        d -= miss / slope
    return {"best_target" if loose == tight else "cheapest_target": (found.mm, d)}


@case("fer_best_graduated_target", "relative", 1e-13, 0.1)
def best_graduated_target(rng):
    """Yield at the step that was chosen by that at the best one, by brute force over the steps between the limits."""
    numbers, j = shop_joint(rng)
    amounts, r, spread = normal_spread(rng, numbers)
    low, high = rng.uniform(0.05, 0.2), rng.uniform(0.21, 0.4)
    a, sigma_a = margins(numbers, amounts, r, low)
    c, sigma_c = margins(numbers, amounts, r, high)
    anchor, step = round(float(c), 1), rng.choice([0.01, 0.05, 0.1, 0.127])
    found, _ = f.best_graduated_target(j, spread, (f.fraction(low), f.fraction(high)), mm(anchor), mm(step))

    def inside(diameter):
        return 1 - ref.ncdf((diameter - a) / sigma_a) - ref.ncdf((c - diameter) / sigma_c)
    first, last = math.floor((float(c) - anchor) / step) - 2, math.ceil((float(a) - anchor) / step) + 2
    best = max(inside(mpf(anchor) + k * mpf(step)) for k in range(first, last + 1))
    return {"yield by the best yield, absolute": (float(inside(mpf(found.mm))), best, mpf(1))}


@case("fer_rank_measurements", "relative", 1e-13, 0.1)
def rank_measurements(rng):
    numbers, j = shop_joint(rng)
    amounts, _, spread = normal_spread(rng, numbers)
    spread = spread.replace(correlations=f.Correlations())
    low, high = rng.uniform(0.05, 0.2), rng.uniform(0.21, 0.4)
    a, c = (margins(numbers, amounts, 0, limit)[0] for limit in (low, high))
    diameter = float(c + (a - c) * mpf(rng.random()))

    def inside(changed):
        ends = [margins(numbers, dict(amounts, **changed), 0, limit) for limit in (low, high)]
        if any(deviation == 0 for _, deviation in ends):
            return mpf(1) if c < diameter < a else mpf(0)
        return ref.ncdf((ends[0][0] - diameter) / ends[0][1]) - ref.ncdf((ends[1][0] - diameter) / ends[1][1])
    results = {}
    for gain in f.rank_measurements(j, spread, (f.fraction(low), f.fraction(high)), mm(diameter)):
        name = gain.measurement.name.lower()
        for member, share_left in (("exact", mpf(0)), ("halved", mpf(1) / 2)):
            exact = inside({name: mpf(amounts[name]) * share_left}) - inside({})
            results[f"{member}, absolute"] = (getattr(gain, member).fraction, exact, mpf(1))
    return results


DISTRIBUTIONS = {"NORMAL": (mpf(1), mpf(3)), "RECTANGULAR": (sqrt(mpf(3)), mpf(9) / 5), "TRIANGULAR": (sqrt(mpf(6)), mpf(12) / 5)}


@case("fer_second_order_uncertainty", "relative", 1e-6, 0.02)
def second_order_uncertainty(rng):
    """JCGM 100:2008, note to 5.1.2, by differences at 200 bits."""
    numbers, j = shop_joint(rng)
    basis, flow = rng.choice(("wall", "area", "soft wall")), rng.choice(("none", "held"))
    model = f.Model(basis=basis.replace(" ", "_").upper(), flow=flow.upper())
    diameter = f.crimp_diameter(j, f.fraction(rng.uniform(0.15, 0.35)), model).mm
    wall = numbers["do"] - numbers["di"]
    drawn = {name: (wall * 10 ** rng.uniform(-3, -1.5), rng.choice(list(DISTRIBUTIONS))) for name in INPUTS}
    spread = f.Spread(**{name: f.Uncertainty(mm(amount), shape) for name, (amount, shape) in drawn.items()})
    found = f.second_order_uncertainty(j, spread, mm(diameter), model)
    u = [mpf(drawn[name][0]) / DISTRIBUTIONS[drawn[name][1]][0] for name in INPUTS]
    kurtosis = [DISTRIBUTIONS[drawn[name][1]][1] for name in INPUTS]
    at, h = dict(numbers, diameter=diameter), mpf(wall) * mpf(10) ** -9

    def value(*moves):
        moved = {key: mpf(number) for key, number in at.items()}
        for i, times in moves:
            moved[KEYS[i]] += times * h
        return ref.compression(moved, moved["diameter"], basis, flow)
    first, second, third = {}, {}, {}
    for i in range(6):
        first[i] = (value((i, 1)) - value((i, -1))) / (2 * h)
        third[i] = (value((i, 2)) - 2 * value((i, 1)) + 2 * value((i, -1)) - value((i, -2))) / (2 * h**3)
        for k in range(6):
            second[i, k] = (value((i, 1), (k, 1)) - value((i, 1), (k, -1)) - value((i, -1), (k, 1)) + value((i, -1), (k, -1))) / (4 * h**2) \
                if i != k else (value((i, 1)) - 2 * value() + value((i, -1))) / h**2
    linear = sum((first[i] * u[i]) ** 2 for i in range(6))
    square, shift = linear, sum(second[i, i] * u[i] ** 2 for i in range(6)) / 2
    for i in range(6):
        square += ((kurtosis[i] - 1) / 4 * second[i, i] ** 2 + kurtosis[i] / 3 * first[i] * third[i]) * u[i] ** 4
        for k in range(6):
            if k != i:
                bent = (value((i, 1), (k, 1)) - 2 * value((i, 1)) + value((i, 1), (k, -1))
                        - value((i, -1), (k, 1)) + 2 * value((i, -1)) - value((i, -1), (k, -1))) / (2 * h**3)
                square += (second[i, k] ** 2 / 2 + first[i] * bent) * (u[i] * u[k]) ** 2
    return {"first_order": (found.first_order.fraction, sqrt(linear)), "second_order": (found.second_order.fraction, sqrt(square)),
            "shift, of the uncertainty": (found.shift.fraction, shift, sqrt(square))}


# ---- die, press -------------------------------------------------------------------------------------------------------

@case("fer_choose_die", "ulp", 1)
def choose_die(rng):
    size = length(rng, LEAST, 9e5)
    target = size * (1 + 10 ** rng.uniform(-15, -0.1))
    found = f.choose_die([f.Die(mm(size), mm(MOST))], mm(target))
    return {"offset": (found.offset.mm, mpf(target) - mpf(size))}


def press_and_die(rng):
    size = length(rng, 0.1, 9e5)
    correction = rng.choice([0.0, rng.uniform(-1, 1) * min(size, 100)])
    return size, correction, rng.choice([0.0, 0.1, 0.05, 0.01, 0.0254])


@case("fer_dial_setting", "ulp", 2)
def dial_setting(rng):
    size, correction, step = press_and_die(rng)
    target = min(size * (1 + 10 ** rng.uniform(-9, -0.1)), MOST)
    found = f.dial_setting(f.Press(mm(step), mm(correction)), mm(size), mm(target))
    exact = mpf(target) - mpf(size) + mpf(correction)
    return {"exact": (found.exact.mm, exact), "expected": (found.expected.mm, mpf(target) + mpf(found.setting.mm) - exact),
            "remainder": (found.remainder.mm, mpf(found.setting.mm) - exact) if step else (0.0, mpf(0))}


@case("fer_dialled_diameter", "ulp", 2)
def dialled_diameter(rng):
    size, correction, _ = press_and_die(rng)
    setting = length(rng, 1e-6, 1e5)
    found = f.dialled_diameter(f.Press(correction=mm(correction)), mm(size), mm(setting)).mm
    return {"diameter": (found, mpf(setting) - mpf(correction) + mpf(size))}


@case("fer_opening_clearance", "ulp", 2)
def opening_clearance(rng):
    size, opening = length(rng), length(rng)
    widest = min(MOST, max(LEAST, (size + opening) * rng.choice([1.0, 1 + 1e-15, rng.uniform(0.5, 1.5)])))
    found = f.opening_clearance(f.Press(opening=mm(opening)), mm(size), mm(widest)).mm
    return {"clearance": (found, mpf(size) + mpf(opening) - mpf(widest))}


@case("fer_capacity_use", "ulp", 1)
def capacity_use(rng):
    force, capacity = 10 ** rng.uniform(-6, 12), 10 ** rng.uniform(-6, 12)
    return {"use": (f.capacity_use(f.Press(capacity=f.newton(capacity)), f.newton(force)).fraction,
                    mpf(force) / mpf(capacity))}


# ---- reading ----------------------------------------------------------------------------------------------------------

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


# ---- conformity ---------------------------------------------------------------------------------------------------------

ONE_SIDED = f.Guard(side="LEAST")


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
    guard = f.Guard(side="LEAST", degrees_of_freedom=v)
    found = f.judge(mm(0.0), mm(1.0), (mm(-abs(t)), mm(100)), guard)
    return {"below, Student": (found.below.fraction, student_tail(abs(t), v)),
            "conforming, Student": (found.conforming.fraction, 1 - student_tail(abs(t), v))}


@case("fer_judge", "relative", 1e-13)
def judge(rng):
    least = length(rng, 0.1, 1e5)
    width = least * 10 ** rng.uniform(-6, -1)
    most, u = least + width, width * rng.uniform(0.001, 0.24)
    value = least + width * rng.uniform(-0.2, 1.2)
    limits = (mm(least), mm(most))
    process = f.Process(mm(least + width * rng.random()), mm(width * rng.uniform(0.01, 1))) if rng.random() < 0.5 else None
    found = f.judge(mm(value), mm(u), limits, None, process)
    if found.zone_empty:
        return None
    y, v = mpf(value), mpf(u) ** 2
    if process:
        tau = mpf(process.spread.mm) ** 2
        y, v = (y * tau + mpf(process.mean.mm) * v) / (tau + v), tau * v / (tau + v)
    below, above = ref.ncdf((mpf(least) - y) / sqrt(v)), ref.ncdf((y - mpf(most)) / sqrt(v))
    # the place of the value is known to its last digit: one place of it in uncertainties is what a probability can tell
    scale = mpf(1) + y / sqrt(v) / 10
    return {"value": (found.value.mm, y), "standard_uncertainty": (found.standard_uncertainty.mm, sqrt(v)),
            "below, absolute": (found.below.fraction, below, scale),
            "above, absolute": (found.above.fraction, above, scale),
            "conforming, absolute": (found.conforming.fraction, 1 - below - above, scale)}


@case("fer_find_risks", "relative", 1e-13, 0.01)
def find_risks(rng):
    mean, spread = rng.uniform(23.3, 23.7), 10 ** rng.uniform(-2, -0.5)
    u = spread * rng.choice([10 ** rng.uniform(-3, 0), rng.uniform(0.01, 0.2)])
    least, most = 23.0, 24.0
    if u > 0.19:
        return None
    found = f.find_risks(f.Process(mm(mean), mm(spread)), mm(u), (mm(least), mm(most)))
    m, s, v, g = mpf(mean), mpf(spread), mpf(u), mpf(1.65) * mpf(u)
    low, high, both = mpf(least) + g, mpf(most) - g, sqrt(s**2 + v**2)

    def wrongly(x):
        accepted = ref.ncdf((high - x) / v) - ref.ncdf((low - x) / v)
        return exp(-((x - m) / s) ** 2 / 2) / (s * sqrt(2 * pi)) * accepted
    places = sorted({p for k in range(0, 14, 2) for p in (least - k * v, most + k * v)})
    user = quad(wrongly, [p for p in places if p <= least]) + quad(wrongly, [p for p in places if p >= most])
    accepted = ref.ncdf((high - m) / both) - ref.ncdf((low - m) / both)
    conforming = ref.ncdf((most - m) / s) - ref.ncdf((least - m) / s)
    return {"accepted, absolute": (found.accepted.fraction, accepted, mpf(1)),
            "conforming, absolute": (found.conforming.fraction, conforming, mpf(1)),
            "user, absolute": (found.user.fraction, user, mpf(1)),
            "maker, absolute": (found.maker.fraction, conforming - (accepted - user), mpf(1))}


# ---- adjust -------------------------------------------------------------------------------------------------------------

@case("fer_correct_dial", "relative", 1e-12, 0.2)
def correct_dial(rng):
    target = length(rng, 1, 1e4)
    sigma, tau, gain = 10 ** rng.uniform(-3, -1), 10 ** rng.uniform(-2, 0), rng.uniform(0.5, 2)
    trials = [(5 + rng.gauss(0, tau), target + rng.gauss(0, sigma)) for _ in range(rng.randint(1, 8))]
    found = f.correct_dial(f.Press(), [f.Trial(mm(s), mm(d)) for s, d in trials], mm(target),
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
            "probability_now, of target by spread": (found.probability_now.value.fraction, now, mpf(target) / mpf(sigma))}


@case("fer_expected_deviation", "ulp", 2)
def expected_deviation(rng):
    sigma, tau, gain = 10 ** rng.uniform(-4, 2), 10 ** rng.uniform(-4, 2), rng.uniform(0.1, 10)
    step, n = rng.choice([0.0, 0.1]), rng.choice([0, 1, 1000000, rng.randint(1, 50)])
    found = f.expected_deviation(f.Press(mm(step)), n, f.Adjusting(mm(sigma), mm(tau), f.fraction(gain)))
    s, t = mpf(sigma) ** 2, mpf(tau) ** 2
    setting = s / (n + s / t) + ((mpf(step) * mpf(gain)) ** 2 / 12 if n else 0)
    return {"setting": (found.setting.mm, sqrt(setting)), "diameter": (found.diameter.mm, sqrt(setting + s))}


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


@case("fer_predict_diameter", "relative", 1e-12, 0.1)
def predict_diameter(rng):
    c, _ = calibration(rng)
    at, coverage = rng.uniform(10, 100), rng.choice([0.5, 0.95, 0.99])
    found = f.predict_diameter(c, mm(at), f.fraction(coverage))
    t = quantile(0.5 - 0.5 * coverage, c.count - 2)
    away = mpf(at) - mpf(c.set_mean.mm)
    value = mpf(c.measured_mean.mm) + mpf(c.slope.fraction) * away
    half = t * mpf(c.scatter.mm) * sqrt(1 + mpf(1) / c.count + away**2 / mpf(c.set_squares.mm2))
    return {"value": (found.value.mm, value), "least": (found.least.mm, value - half, value), "most": (found.most.mm, value + half)}


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
    return {"value": (found.value.mm, mean + d / b, scale), "least": (found.least.mm, mean + (-q - root) / (2 * p), scale),
            "most": (found.most.mm, mean + (-q + root) / (2 * p), scale)}


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


# ---- diagnosis ----------------------------------------------------------------------------------------------------------

RACK = [f.Die(size=mm(size)) for size in (16, 19, 22, 25)]
PRESS = f.Press(graduation=mm(0.05), segments=8)


def weights(rng, names):
    """Priors for these causes; all others are left out."""
    drawn = {cause: rng.uniform(0.1, 10) if cause in names else 0.0 for cause in f.Cause.__members__}
    return drawn, [f.Prior(cause, f.fraction(weight)) for cause, weight in drawn.items()]


def posterior(drawn, likelihoods, suspects):
    total = sum(mpf(drawn[cause]) * likelihoods[cause] for cause in likelihoods)
    return {"probability, absolute": max(
        ((s.probability.fraction, mpf(drawn[s.cause.name]) * likelihoods[s.cause.name] / total, mpf(1)) for s in suspects),
        key=lambda pair: abs(mpf(pair[0]) - pair[1]))}


def bell(x, mean, variance):
    return exp(-(x - mean) ** 2 / (2 * variance)) / sqrt(2 * pi * variance)


@case("fer_diagnose_diameter", "relative", 1e-12, 0.05)
def diagnose_diameter(rng):
    """Bayes' rule by hand over causes whose prediction is a number and a spread."""
    setup = f.plan_setup(WORKED, PRESS, RACK)
    drawn, priors = weights(rng, ("HEALTHY", "NONE_OF_THESE", "OTHER_DIE", "DIAL_ONE_STEP", "SPRINGBACK_LEFT_OUT", "PRESS_DRIFT",
                                  "GAUGE_ZERO"))
    tau, zero, drift, nothing, spring, common, crimp_sd = (10 ** rng.uniform(-2, -0.5) for _ in range(7))
    expected = setup.dial.value.expected.mm
    pieces = [(expected + rng.gauss(0, 0.3), rng.choice([0.0, 0.01])) for _ in range(rng.randint(1, 5))]
    known = f.Diagnosing(crimp_spread=mm(crimp_sd), setting_spread=mm(tau), gauge_uncertainty=mm(common), drift_spread=mm(drift),
                         gauge_zero_spread=mm(zero), none_spread=mm(nothing), springback=mm(spring))
    suspects, found = f.diagnose_diameter(setup, PRESS, RACK, [f.Piece(mm(d), mm(u)) for d, u in pieces], priors, known)
    each = [(mpf(d) - mpf(expected), 1 / (mpf(crimp_sd) ** 2 + mpf(u) ** 2)) for d, u in pieces]
    total = sum(w for _, w in each)
    seen, variance = sum(w * d for d, w in each) / total, 1 / total + mpf(tau) ** 2 + mpf(common) ** 2
    away = [mpf(die.size.mm) - 22 for die in RACK if die.size.mm != 22]
    likelihoods = {
        "HEALTHY": bell(seen, 0, variance),
        "NONE_OF_THESE": mpf(nothing) / (pi * (mpf(nothing) ** 2 + seen**2)),
        "OTHER_DIE": sum(bell(seen, d, variance) / (1 + abs(d)) for d in away) / sum(1 / (1 + abs(d)) for d in away),
        "DIAL_ONE_STEP": (bell(seen, mpf(0.05), variance) + bell(seen, -mpf(0.05), variance)) / 2,
        "SPRINGBACK_LEFT_OUT": bell(seen, mpf(spring), variance),
        "PRESS_DRIFT": bell(seen, 0, variance + mpf(drift) ** 2),
        "GAUGE_ZERO": bell(seen, 0, variance + mpf(zero) ** 2)}
    return {**posterior(drawn, likelihoods, suspects),
            "standard_uncertainty": (found.standard_uncertainty.mm, sqrt(variance))}


@case("fer_diagnose_look", "relative", 1e-10, 0.01)
def diagnose_look(rng):
    """The likelihood of each look, integrated over the compressions that a cause leaves possible."""
    setup = f.plan_setup(WORKED, PRESS, RACK)
    drawn, priors = weights(rng, ("HEALTHY", "HOSE_OVER_COVER", "HOSE_SKIVED", "STEM_BETWEEN_RIDGES", "WALL_TWICE", "WALL_ON_RIDGE"))
    cover, ridge, u = rng.uniform(0.5, 1.2), rng.uniform(0.2, 0.7), rng.uniform(0.005, 0.05)
    looks = [(rng.choice(("TOO_TIGHT", "TOO_LOOSE", "GOOD", "MEASURED")), rng.uniform(0.05, 0.4), rng.choice([0.0, 0.03]))
             for _ in range(rng.randint(1, 3))]
    diameter = rng.uniform(23, 24)
    suspects, _ = f.diagnose_look(WORKED, setup, mm(diameter), [f.Look(kind, f.fraction(c), f.fraction(v)) for kind, c, v in looks], priors,
                                  f.Looking(cover=mm(cover), ridge=mm(ridge), uncertainty=f.fraction(u)))
    least, most = mpf(setup.range.least.fraction), mpf(setup.range.most.fraction)

    def look(kind, c, v, x):
        v = mpf(v or 0.02)
        tight, loose = ref.ncdf((x - most) / v), ref.ncdf((least - x) / v)
        return {"TOO_TIGHT": tight, "TOO_LOOSE": loose, "GOOD": (1 - tight) * (1 - loose),
                "MEASURED": exp(-((mpf(c) - x) / v) ** 2 / 2)}[kind]

    def likelihood(inside, outside, stem, wall):
        hose = mpf(outside) - mpf(inside)
        mean = (hose - mpf(diameter) + 2 * mpf(wall) + mpf(stem)) / hose

        def density(x):
            product = bell(x, mean, mpf(u) ** 2)
            for kind, c, v in looks:
                product *= look(kind, c, v, x)
            return product
        # sums over even steps are exact to 20 digits for bells that are wide against the step
        step = min(mpf(u), mpf("0.02")) / 5
        with mp.workprec(90):
            reach = int(11 * mpf(u) / step)
            return step * sum(density(mean + k * step) for k in range(-reach, reach + 1))
    di, do, s, w = (mpf(x) for x in (12.7, 19.9, 12.95, 2.4))
    likelihoods = {"HEALTHY": likelihood(di, do, s, w), "HOSE_OVER_COVER": likelihood(di, do - 2 * mpf(cover), s, w),
                   "HOSE_SKIVED": likelihood(di, do + 2 * mpf(cover), s, w),
                   "STEM_BETWEEN_RIDGES": likelihood(di, do, s + 2 * mpf(ridge), w), "WALL_TWICE": likelihood(di, do, s, w / 2),
                   "WALL_ON_RIDGE": likelihood(di, do, s, w - mpf(ridge))}
    return posterior(drawn, likelihoods, suspects)


# ---- chance: what is not chance in it -----------------------------------------------------------------------------------

def philox(counter, key):
    """Philox 4x32-10, Salmon et al. 2011, figure 2."""
    a, b, c, d = counter
    low, high = key & 0xFFFFFFFF, key >> 32
    for _ in range(10):
        first, second = 0xD2511F53 * a, 0xCD9E8D57 * c
        a, b, c, d = (second >> 32) ^ b ^ low, second & 0xFFFFFFFF, (first >> 32) ^ d ^ high, first & 0xFFFFFFFF
        low, high = (low + 0x9E3779B9) & 0xFFFFFFFF, (high + 0xBB67AE85) & 0xFFFFFFFF
    return a, b, c, d


def uniforms(seed, number):
    """The six uniform numbers of a trial, each in the middle of its step of 2^-42."""
    words = [philox((number & 0xFFFFFFFF, number >> 32, k, 0), seed) for k in (0, 1)]
    upper, rest = (*words[0], *words[1][:2]), words[1][2:]
    return [(2 * (upper[i] << 10 | rest[i // 3] >> 10 * (i % 3) & 1023) + 1) * mpf(2) ** -43 for i in range(6)]


@case("fer_find_random_words", "ulp", 0)
def random_words(rng):
    counter, key = [rng.getrandbits(32) for _ in range(4)], rng.getrandbits(64)
    found = f.find_random_words(f.RandomWords(counter), key)
    return {"words": (float(sum(a != b for a, b in zip(found.word, philox(counter, key)))), mpf(0))}


@case("fer_draw_joint", "relative", 1.3e-10, 0.2)
def draw_joint(rng):
    """Deviates by the inverse of their distributions."""
    seed, number = rng.getrandbits(64), rng.randrange(2**54)
    shapes = {name: rng.choice(list(DISTRIBUTIONS)) for name in INPUTS}
    spread = f.Spread(**{name: f.Uncertainty(mm(100), shape) for name, shape in shapes.items()})
    drawn, diameter = f.draw_joint(WORKED, spread, mm(23.51), number, f.Trials(seed=seed))
    found = (drawn.hose.inside.mm, drawn.hose.outside.mm, drawn.stem.outside.mm, drawn.ferrule.wall.mm, drawn.ferrule.outside.mm, diameter.mm)
    results = {}
    for name, value, mean, u in zip(INPUTS, found, (12.7, 19.9, 12.95, 2.4, 25.6, 23.51), uniforms(seed, number)):
        tail = 2 * u - 1
        with mp.workprec(120):
            exact = {"NORMAL": lambda: sqrt(mpf(2)) * mp.erfinv(tail), "RECTANGULAR": lambda: tail,
                     "TRIANGULAR": lambda: mp.sign(tail) * (1 - sqrt(1 - abs(tail)))}[shapes[name]]()
        results[f"{shapes[name].lower()}, of 1"] = ((value - mean) / 100, exact, mpf(1))
    return results


@case("fer_summarise_tally", "relative", 1e-11, 0.0005)
def summarise_tally(rng):
    """One block: mean and deviation of its trials, drawn one by one; and the share inside, counted."""
    spread = f.Spread(hose_outside=mm(rng.uniform(0.02, 0.2)), diameter=mm(rng.uniform(0.02, 0.1)))
    trials, limits = f.Trials(seed=rng.getrandbits(64), first_block=rng.randrange(1000)), (f.fraction(0.15), f.fraction(0.25))
    tally = f.simulate_compression(WORKED, spread, limits, mm(23.51), None, trials)
    counted = f.find_simulated_yield(f.simulate_yield(WORKED, spread, limits, mm(23.51), None, trials))
    found, values = f.summarise_tally(tally, 2), []
    for number in range(trials.first_block * f.TRIALS_A_BLOCK, (trials.first_block + 1) * f.TRIALS_A_BLOCK):
        joint, at = f.draw_joint(WORKED, spread, mm(23.51), number, trials)
        hose = mpf(joint.hose.outside.mm) - mpf(joint.hose.inside.mm)
        values.append(1 - (mpf(at.mm) - 2 * mpf(joint.ferrule.wall.mm) - mpf(joint.stem.outside.mm)) / hose)
    mean = sum(values) / len(values)
    deviation = sqrt(sum((x - mean) ** 2 for x in values) / (len(values) - 1))
    inside = mpf(sum(mpf(0.15) <= x <= mpf(0.25) for x in values)) / len(values)
    return {"mean": (found.mean.fraction, mean), "standard_uncertainty": (found.standard_uncertainty.fraction, deviation),
            "fer_find_simulated_yield: inside": (counted.yield_.inside.fraction if hasattr(counted, "yield_") else
                                                 getattr(counted, "yield").inside.fraction, inside),
            "fer_find_simulated_yield: standard_error": (counted.standard_error.fraction, sqrt(inside * (1 - inside) / len(values)))}
