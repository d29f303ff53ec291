# SPDX-License-Identifier: MIT
"""Rows of forming.h."""
from catalogue import forming_model
from catalogue.shared import *  # noqa: F403

row("fer_check_material", """no metal has a Poisson's ratio above one half
>>> check_material(Material("206 GPa", "30 %", "280 MPa"))
>>> check_material(Material("206 GPa", "60 %", "280 MPa"))
Traceback (most recent call last):
ferrule.MaterialError: check_material: ...
""", judged=DECIDES, material=STEEL)

row("fer_minimum_reduction", """5 × sqrt(3) × 300/206,000 × 25, by hand
>>> f"{minimum_reduction(Ferrule('3 mm', '50 mm'), Material('206 GPa', '30 %', '300 MPa')):.4f mm}"
'0.3153 mm'
""", ferrule=FERRULE, material=STEEL)


@case("fer_minimum_reduction", "ulp", 2)
def minimum_reduction(rng):
    outside, m = length(rng, 0.01), metal(rng)
    wall = max(LEAST, outside * 10 ** rng.uniform(-4, -0.8))
    exact = 5 * sqrt(mpf(3)) * mpf(m["y"]) / mpf(m["e"]) * mpf(outside) / 2
    return {"reduction": (f.minimum_reduction(f.Ferrule(mm(wall), mm(outside)), as_material(m)).mm, exact)}


row("fer_form_ferrule", """outside 50, wall 3, closed to 46, ends fixed, yield strength 300 MPa: 53.616 MPa, 3.2981 mm, 0.06628 mm by Hill and Lamé
>>> steel = Material("206 GPa", "30 %", "300 MPa")
>>> formed = form_ferrule(Ferrule("3 mm", outside="50 mm"), "46 mm", steel, FormingLoad(restraint="100 %"))
>>> f"{formed.pressure:.1f MPa}", f"{formed.wall:.3f mm}", f"{formed.springback:.3f mm}"
('53.6 MPa', '3.298 mm', '0.066 mm')
""", ferrule=FERRULE, diameter=plus("ferrule.outside", -4, -2), material=STEEL, load={"restraint": (0, 1), "hose_pressure":
    (0, 30)})


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


CLOSED = ("wall", "bore", "stretch", "pressure", "hose_share", "plastic_strain", "effective_yield_strength")


def compared(found, model, names, kind, points=8):
    exact = forming_model.Stroke(*model, points=points).results()
    return {f"{name}, {kind}": (number_in(getattr(found, name)), exact[name]) for name in names or exact}


def formed(rng, hardening):
    model, ferrule, material, load = forming_job(rng, hardening)
    found = f.form_ferrule(ferrule, mm(model[2]), material, load)
    if found.release_status != f.Status.OK:
        return {}  # closed_state() and closed_state_hardening()
    kind = "hardening" if hardening else "ends_fixed" if model[4] == 1.0 else "free or restrained"
    return compared(found, model, None, kind)


def formed_past_release(rng, hardening):
    """Where the bore yields on release there is the closed state only; its bore at least a quarter of the closing diameter."""
    while True:
        model, ferrule, material, load = forming_job(rng, hardening)
        try:
            found = f.form_ferrule(ferrule, mm(model[2]), material, load)
        except f.DiameterError:  # too little, or no bore is left
            continue
        if found.release_status != f.Status.OK and found.bore.mm >= 0.25 * model[2]:
            return compared(found, model, CLOSED, "yields on release" + ", hardening" * hardening, points=16)


# A model, integrated in one or two steps: its own error against finite elements is 0.05 % and more.
@case("fer_form_ferrule", "relative", 1e-4, 0.002)
def form_hardening(rng):
    return formed(rng, True)


@case("fer_form_ferrule", "relative", 1e-5, 0.002)
def form_without_hardening(rng):
    return formed(rng, False)


# The strain at a bore that nearly closes runs away.
@case("fer_form_ferrule", "relative", 1e-3, 0.002)
def closed_state_hardening(rng):
    return formed_past_release(rng, True)


@case("fer_form_ferrule", "relative", 5e-4, 0.002)
def closed_state(rng):
    return formed_past_release(rng, False)


row("fer_closing_diameter", """the case of form_ferrule(), backwards: 46 + 0.06628
>>> steel = Material("206 GPa", "30 %", "300 MPa")
>>> f"{closing_diameter(Ferrule('3 mm', '50 mm'), '46.06628 mm', steel, FormingLoad('100 %')):.2f mm}"
'46.00 mm'
""", ferrule=FERRULE, crimp_diameter=plus("ferrule.outside", -4, -2), material=STEEL, load={"restraint": (0, 1),
    "hose_pressure": (0, 30)})


@case("fer_closing_diameter", "relative", 1e-8, 0.002)
def closing_diameter(rng):
    """The model's crimp diameter at the closing diameter that was found is the one asked for, to what the slope leaves."""
    model, ferrule, material, load = forming_job(rng, False)
    asked = model[2]
    found = f.closing_diameter(ferrule, mm(asked), material, load).mm
    exact = forming_model.Stroke(*model[:2], found, *model[3:], points=2).results()["crimp_diameter"]
    return {"diameter": (found, mpf(found) - (exact - mpf(asked)))}


row("fer_find_die_force", """100 N/mm² × π × 20 mm × 30 mm, by hand
>>> f"{find_die_force('100 MPa', '20 mm', '30 mm', 8).total:.2f kN}"
'188.50 kN'
""", pressure=(1, 300), diameter=(10, 60), length=(20, 60), segments=(3, 12))


@case("fer_find_die_force", "ulp", 2)
def find_die_force(rng):
    p, d, l, n = 10 ** rng.uniform(-6, 6), length(rng), length(rng), rng.randint(3, 64)
    found = f.find_die_force(f.mpa(p), mm(d), mm(l), n)
    face = mpf(p) * mpf(d) * mpf(l)
    return {"total": (found.total.newton, pi * face), "segment": (found.segment.newton, pi * face / n),
            "segment_resultant": (found.segment_resultant.newton, face * sin(pi / n)),
            "resultants": (found.resultants.newton, n * face * sin(pi / n))}


row("fer_load_tube", """Lamé: hoop stress at the bore 3 × (20² + 10²)/(20² - 10²), by hand
>>> change = load_tube("10 mm", "20 mm", "3 MPa", "0 MPa", Material("206 GPa", "30 %", "300 MPa"))
>>> f"{change.hoop_inside:.3f MPa}"
'5.000 MPa'
""", inside=(5, 30), outside=plus("inside", 2, 8), inner_pressure=(1, 20), outer_pressure=(30, 60), material=STEEL,
    load={"restraint": (0, 1)})


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


row("fer_find_stem_strength", """first yield at 400 × (10² - 5²)/(2 × 10²), by hand
>>> f"{find_stem_strength(Stem('20 mm', bore='10 mm'), Material('206 GPa', '30 %', '400 MPa')).first_yield_pressure:.1f MPa}"
'150.0 MPa'
""", stem={"outside": (10, 40), "bore": plus("outside", -6, -2)}, material=STEEL, load={"restraint": (0, 1)})


def stem(rng):
    inside, outside, r = tube(rng)
    return inside, outside, r, metal(rng)


@case("fer_find_stem_strength", "relative", 1e-13)
def find_stem_strength(rng):
    inside, outside, r, m = stem(rng)
    found = f.find_stem_strength(f.Stem(mm(outside), mm(inside)), as_material(m), f.FormingLoad(f.fraction(r)))
    a, b, y, nu = mpf(inside), mpf(outside), mpf(m["y"]), mpf(m["nu"])
    results = {"first_yield_pressure": (found.first_yield_pressure.mpa, y * (b**2 - a**2) / (2 * b**2 * sqrt(1 - r * nu + (r * nu) ** 2)))}
    if r == 1.0:
        results["full_yield_pressure, ends_fixed"] = (found.full_yield_pressure.mpa, 2 / sqrt(mpf(3)) * y * log(b / a))
    else:
        results["full_yield_pressure, free"] = (found.full_yield_pressure.mpa, free_full_yield_pressure(a, b, y, mpf(r)))
    return results


row("fer_load_stem", """Lamé: 4 × 60 × 10² × 5/(206,000 × (10² - 5²)), by hand
>>> steel, load = Material("206 GPa", "30 %", "400 MPa"), FormingLoad(hose_pressure="60 MPa")
>>> f"{load_stem(Stem('20 mm', bore='10 mm'), steel, load).bore_reduction:.5f mm}"
'0.00777 mm'
""", stem={"outside": (10, 20), "bore": plus("outside", -6, -4)}, material=STEEL, load={"restraint": 1, "hose_pressure":
    (5, 200)})


def free_full_yield_pressure(a, b, y, r):
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
    q = strength.full_yield_pressure.mpa * rng.uniform(0, 1)
    found = f.load_stem(s, as_material(m), f.FormingLoad(hose_pressure=f.mpa(q), **load))
    a, b, e, nu = mpf(inside) / 2, mpf(outside) / 2, mpf(m["e"]), mpf(m["nu"])
    elastic = 4 * mpf(q) * b**2 * a / (e * (b**2 - a**2)) * (1 - mpf(r) * nu**2)
    if q <= strength.first_yield_pressure.mpa:
        return {"elastic": (found.bore_reduction.mm, elastic)}
    k = mpf(m["y"]) / (2 * sqrt(1 - nu + nu**2))
    c = ref.root(lambda c: k * (2 * log(c / a) + 1 - c**2 / b**2) - mpf(q), a, b)
    reduction = 4 * (1 - nu**2) * k * c**2 / (e * a)
    hoop = 2 * mpf(q) * b**2 / (b**2 - a**2)
    return {"plastic_diameter": (found.plastic_diameter.mm, 2 * c), "bore_reduction": (found.bore_reduction.mm, reduction),
            "residual_reduction, of the whole": (found.residual_reduction.mm, reduction - elastic, reduction),
            "residual_hoop, of the elastic": (found.residual_hoop.mpa, hoop - 2 * k, hoop)}


row("fer_bore_margin", """9.5 - 0.03 - 9.4, by hand
>>> f"{bore_margin(Stem('12.95 mm', bore='9.5 mm'), '0.03 mm', '9.4 mm'):.2f mm}"
'0.07 mm'
""", stem={"outside": (10, 40), "bore": plus("outside", -6, -2)}, reduction=(0, 0.5), gauge=plus("stem.bore", -0.5, 0.25))


@case("fer_bore_margin", "ulp", 2)
def bore_margin(rng):
    bore = length(rng, 0.01)
    reduction, gauge = bore * share(rng) * 0.999, bore * rng.uniform(0.9, 1.1)
    found = f.bore_margin(f.Stem(mm(2 * bore if bore < 5e5 else MOST), mm(bore)), mm(reduction), mm(gauge)).mm
    return {"margin, of the bore": (found, mpf(bore) - mpf(reduction) - mpf(gauge), mpf(bore))}
