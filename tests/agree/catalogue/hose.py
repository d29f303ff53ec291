# SPDX-License-Identifier: MIT
"""Rows of hose.h. What is seen of a closing comes from the model with mpmath, forwards; the library goes back."""
from catalogue import forming_model
from catalogue.forming import forming_job
from catalogue.shared import *  # noqa: F403

row("fer_find_effective_yield_strength", """finite elements of a ferrule of 300 MPa: 67.202 MPa in the closed dies, 1.05876 times as long; sizes after opening by Lamé
>>> steel, ferrule = Material("206 GPa", "30 %", "300 MPa"), Ferrule("2.4 mm", outside="25.6 mm")
>>> bare = Closing("126.126 kN", "23.5416 mm", "24 mm", "25.3968 mm")
>>> f"{find_effective_yield_strength(ferrule, bare, steel):.0f MPa}"
'300 MPa'
""", ferrule=TWIN_FERRULE, bare=BARE_CLOSING, material=STEEL)

row("fer_find_hose_pressure", """finite elements with an even pressure of 30 MPa on the bore: 92.801 MPa in the closed dies, 1.06238 times as long
>>> steel, ferrule = Material("206 GPa", "30 %", "300 MPa"), Ferrule("2.4 mm", outside="25.6 mm")
>>> joint, bare = Closing("174.763 kN", "23.5536 mm", "24 mm", "25.479 mm"), Closing("126.126 kN", "23.5416 mm", "24 mm", "25.3968 mm")
>>> squeeze = find_hose_pressure(ferrule, joint, steel, bare, ClosingUncertainties("1 %", "8 %", diameter="0.03 mm", wall="0.02 mm", length="0.035 mm"))
>>> f"{squeeze.pressure:.0f MPa}", f"{squeeze.standard_uncertainty:.0f MPa}"
('30 MPa', '4 MPa')
""", ferrule=TWIN_FERRULE, closing=HOSE_CLOSING, material=STEEL, bare=BARE_CLOSING, uncertainties=CLOSING_UNCERTAINTIES)

row("fer_find_restraint", """half of the lengthening of ends free, e^(0.5 ln 1.0588) = 1.029, without what is elastic: half restrained
>>> steel, ferrule = Material("206 GPa", "30 %", "300 MPa"), Ferrule("2.4 mm", outside="25.6 mm")
>>> f"{find_restraint(ferrule, Closing('0 N', '23.545 mm', '24 mm', '24.685 mm'), steel, '0 MPa'):.0f %}"
'50 %'
""", ferrule=TWIN_FERRULE, closing={"force": 0.0, "diameter": (23.5, 23.6), "before": 24.0, "after": (24.2, 25.3)}, material=STEEL,
    hose_pressure=(0, 30))

row("fer_hose_pressure_from_bore", """Lamé: 4 × 60 × 10² × 5/(206,000 × (10² - 5²)) = 0.007767 mm of a bore of 10 mm, by hand
>>> f"{hose_pressure_from_bore(Stem('20 mm', bore='10 mm'), '0.007767 mm', Material('206 GPa', '30 %', '400 MPa')):.2f MPa}"
'60.00 MPa'
""", stem={"outside": (14, 20), "bore": plus("outside", -6, -4)}, reduction=(0, 0.004), material=STEEL, load={"restraint": 1})


def closings(rng, hardening, hose):
    """A closing of the model: restraint 0 to 1, pressure of the hose up to half of the yield strength."""
    (wall, outside, diameter, metal, restraint, _), ferrule, material, _ = forming_job(rng, hardening)
    q = metal["y"] * rng.uniform(0, 0.45) if hose else 0.0
    exact = forming_model.Stroke(wall, outside, diameter, metal, restraint, q, points=8).results()
    force, size = exact["pressure"] * pi * mpf(diameter) * 24 * exact["stretch"], exact["crimp_diameter"]
    seen = f.Closing(f.newton(float(force)), mm(float(size)), mm(24), mm(float(24 * exact["crimp_stretch"])))
    return ferrule, material, seen, mpf(q), mpf(restraint), exact["pressure"], metal


def found_pressure(rng, hardening):
    ferrule, material, seen, q, restraint, dies, _ = closings(rng, hardening, True)
    squeeze = f.find_hose_pressure(ferrule, seen, material)
    return {"pressure, of the dies'": (squeeze.pressure.mpa, q, dies), "restraint, of fixed": (squeeze.restraint.fraction, restraint, 1)}


# As near as the model of fer_form_ferrule() to its own equations.
@case("fer_find_hose_pressure", "relative", 1e-3, 0.002)
def pressure_of_hardening(rng):
    return found_pressure(rng, True)


@case("fer_find_hose_pressure", "relative", 1e-4, 0.002)
def pressure_without_hardening(rng):
    return found_pressure(rng, False)


@case("fer_find_effective_yield_strength", "relative", 1e-4, 0.002)
def effective_yield_strength(rng):
    ferrule, material, seen, _, _, _, metal = closings(rng, False, False)
    return {"yield_strength": (f.find_effective_yield_strength(ferrule, seen, material).mpa, mpf(metal["y"]))}


@case("fer_find_restraint", "relative", 1e-4, 0.002)
def restraint_of_length(rng):
    ferrule, material, seen, q, restraint, _, _ = closings(rng, False, True)
    return {"restraint, of fixed": (f.find_restraint(ferrule, seen, material, f.mpa(float(q))).fraction, restraint, 1)}


@case("fer_hose_pressure_from_bore", "relative", 1e-13)
def hose_pressure_from_bore(rng):
    """Elastic and partly plastic: the textbook's formulas the other way round."""
    outside, fixed = length(rng, 0.01), rng.random() < 0.5
    inside = outside * rng.uniform(0.3, 0.95)
    m = metal(rng)
    e, nu, y, r = mpf(m["e"]), mpf(m["nu"]), mpf(m["y"]), mpf(fixed)
    a, b = mpf(inside) / 2, mpf(outside) / 2
    first = y * (b**2 - a**2) / (2 * b**2 * sqrt(1 - r * nu + (r * nu) ** 2))
    slope = 4 * b**2 * a / (e * (b**2 - a**2)) * (1 - r * nu**2)
    depth = rng.uniform(0, 1.1) if fixed and nu >= 0.2 else rng.uniform(0, 1)
    reduction = float(slope * first * min(depth, 1)) if depth <= 1 else float(slope * first * ((1 + (depth - 1) * (b / a - 1)) ** 2))
    if reduction >= inside:
        return None
    found = f.hose_pressure_from_bore(f.Stem(mm(outside), mm(inside)), mm(reduction), as_material(m), f.FormingLoad(f.fraction(float(r))))
    if reduction <= slope * first:
        return {"elastic": (found.mpa, mpf(reduction) / slope)}
    c2 = mpf(reduction) * e * a / (4 * (1 - nu**2) * (k := y / (2 * sqrt(1 - nu + nu**2))))
    return {"partly plastic": (found.mpa, k * (log(c2 / a**2) + 1 - c2 / b**2))}
