# SPDX-License-Identifier: MIT
"""What is compared with finite elements, and how near it has to come. All sizes and metals are invented or round."""
import math
from dataclasses import dataclass, replace

import library
import solver

STEEL = solver.Material(206000, 0.30, 300)
STAINLESS = solver.Material(195000, 0.29, 250)
ALUMINIUM = solver.Material(70000, 0.33, 150)
BRASS = solver.Material(105000, 0.34, 200)
HARDENING = solver.Material(206000, 0.30, 300, 1000)
ELASTIC = solver.Material(206000, 0.30)

# Largest relative difference allowed, by kind of case and quantity. Those with hardening and with a high yield strength are
# wider; they are stated in the comments of the functions.
TOLERANCE = {
    "ends_fixed": {"pressure": 5e-4, "wall": 5e-4, "stretch": 5e-4, "springback": 1.5e-3, "crimp bore": 5e-4},
    "ends_free": {"pressure": 1e-3, "wall": 5e-4, "stretch": 5e-4, "springback": 1.5e-3, "crimp bore": 5e-4},
    "hardening": {"pressure": 5e-3, "wall": 1e-3, "stretch": 1e-3, "springback": 5e-3, "crimp bore": 1e-3},
    "elastic": {"bore reduction": 1e-4, "outside reduction": 1e-4},
    "stem": {"bore reduction": 1e-2, "residual by reduction": 1e-2},
    "stem, to half of the wall": {"bore reduction": 1.5e-2, "residual by reduction": 1.5e-2},
    "stem, to 0.8 of the wall": {"bore reduction": 3e-2, "residual by reduction": 3e-2},
    "thick stem, to 0.8 of the wall": {"bore reduction": 6e-2, "residual by reduction": 6e-2},
    "dies": {"segment force": 2e-2, "bore": 2e-3, "tape": 5e-4},
}
SQUEEZED, SQUEEZED_TOLERANCE = 0.3, 1e-3  # hose pressure by yield strength: above it wall and length are allowed this
HIGH_YIELD_STRENGTH = 1 / 500  # by elastic modulus: above it the springback is allowed twice as much


@dataclass(frozen=True)
class Row:
    """One quantity of one case."""

    case: str
    kind: str
    quantity: str
    finite_element: float
    library: float
    tolerance: float

    @property
    def difference(self):
        return self.library / self.finite_element - 1

    @property
    def within(self):
        return abs(self.difference) <= self.tolerance


def metal(material):
    return library.Material(material.modulus, material.poisson, material.yielding, material.hardening)


def rows(case, kind, material, **quantities):
    """One row per quantity; each is a pair: finite element, library."""
    found = []
    for name, (finite_element, ours) in quantities.items():
        quantity = name.replace("_", " ")
        tolerance = TOLERANCE[kind][quantity]
        if quantity == "springback" and material.yielding > HIGH_YIELD_STRENGTH * material.modulus:
            tolerance = max(tolerance, 3e-3)
        found.append(Row(case, kind, quantity, finite_element, ours, tolerance))
    return found


def form(crimp, restraint):
    return library.form_ferrule(library.Ferrule(crimp.wall, crimp.outside, 0.0), crimp.closing, metal(crimp.material),
                                library.Load(restraint, crimp.hose_pressure))


def compare_crimp(case, crimp, finest=0.001):
    """Smooth dies: closed and opened. finest: reduction by outside diameter of one increment."""
    ours = form(crimp, 1.0 if crimp.ends_fixed else 0.0)
    share = finest / (1 - crimp.closing / crimp.outside)
    try:
        stroke, opened = crimp.push(min(0.02, share), release=not ours.release_status)
    except RuntimeError:  # some thin rings need smaller steps
        stroke, opened = crimp.push(min(0.02, share) / 5, release=not ours.release_status)
    closed = stroke[-1]
    kind = "hardening" if crimp.material.hardening else "ends_fixed" if crimp.ends_fixed else "ends_free"
    squeezed = crimp.hose_pressure > SQUEEZED * crimp.material.yielding
    in_dies = {"pressure": (closed.pressure, ours.pressure), "wall": (closed.wall, ours.wall), "stretch": (closed.stretch, ours.stretch)}
    if ours.release_status:  # the bore yields on release: no springback is given
        found = rows(case, kind, crimp.material, **in_dies)
        return [replace(row, tolerance=max(row.tolerance, SQUEEZED_TOLERANCE)) for row in found] if squeezed else found
    return rows(case, kind, crimp.material, **in_dies,
                springback=(2 * (opened.outside - closed.outside), ours.springback),
                crimp_bore=(2 * opened.bore, ours.crimp_bore))


def compare_restraint(case, crimp, restraint):
    """Ends that follow those of a ferrule with ends free by a share: what the library means by restraint."""
    free, _ = crimp.push(0.01, release=False)
    ends = [(0.0, 1.0)] + [(m.time, m.stretch ** (1 - restraint)) for m in free]
    stroke, _ = crimp.push(0.01, ends=ends, release=False)
    closed, ours = stroke[-1], form(crimp, restraint)
    return rows(case, "ends_free", crimp.material, pressure=(closed.pressure, ours.pressure), wall=(closed.wall, ours.wall),
                stretch=(closed.stretch, ours.stretch))


def compare_elastic(case, tube, pressure):
    loaded, _ = tube.load(pressure, steps=1)
    ours = library.load_tube(tube.bore, tube.outside, 0.0, pressure, metal(tube.material),
                             library.Load(float(tube.ends_fixed), 0.0))
    return rows(case, "elastic", tube.material, bore_reduction=(tube.bore - 2 * loaded.bore, -ours.inside),
                outside_reduction=(tube.outside - 2 * loaded.outside, -ours.outside))


def compare_stem(case, tube, depth, kind):
    """A stem with ends fixed whose plastic zone is so deep, by the wall."""
    material, inside, outside = tube.material, tube.bore / 2, tube.outside / 2
    radius = inside + depth * (outside - inside)
    k = material.yielding / (2 * math.sqrt(1 - material.poisson + material.poisson**2))
    pressure = k * (2 * math.log(radius / inside) + 1 - (radius / outside) ** 2)
    loaded, after = tube.load(pressure, steps=60)
    ours = library.load_stem(library.Stem(tube.outside, tube.bore), metal(material), library.Load(1.0, pressure))
    reduction = tube.bore - 2 * loaded.bore
    return rows(case, kind, material, bore_reduction=(reduction, ours.bore_reduction),
                residual_by_reduction=(1.0, 1 + (ours.residual_reduction - (tube.bore - 2 * after.bore)) / reduction))


def compare_dies(case, dies):
    """Eight dies: force of a segment, bore of the equivalent diameter, tape. And what is only reported, not judged."""
    outline = dies.close()
    shape = library.crimp_shape(dies.closing, dies.die_size, dies.segments)
    ours = library.form_ferrule(library.Ferrule(dies.wall, dies.outside, 0.0), shape.arcs_diameter,
                                metal(dies.material), library.Load(1.0, 0.0))
    force = library.find_die_force(ours.pressure, dies.closing, 1.0, dies.segments)
    judged = rows(case, "dies", dies.material, segment_force=(outline.segment_force, force.segment_resultant),
                  bore=(outline.bore(), ours.bore), tape=(outline.tape(), shape.tape_diameter))
    lobe = outline.radius(0.0) - outline.radius(shape.edge_angle)
    jaws = outline.jaws()
    half = math.pi / dies.segments
    bulge = math.hypot(*outline.outer[-1]) - shape.edge_radius * math.cos(half - shape.edge_angle)
    reported = {"lobe by that of the arcs": lobe / shape.lobe_height,
            "range of jaws by that of the arcs": (jaws.max() - jaws.min()) / (shape.jaws_maximum - shape.jaws_minimum),
            "bulge by gap": bulge / shape.gap}
    return judged, reported


CRIMPS = {
    "base": solver.Crimp(50, 3, 46, STEEL),
    "worked joint, hose 30 MPa": solver.Crimp(25.6, 2.4, 23.51, STEEL, 30),
    "thick stainless": solver.Crimp(40, 6.8, 35, STAINLESS),
    "thin aluminium, hose 10 MPa": solver.Crimp(30, 2.4, 26, ALUMINIUM, 10),
    "deep brass": solver.Crimp(60, 3.6, 48, BRASS),
    "worked joint, hose 90 MPa": solver.Crimp(25.6, 2.4, 23.51, STEEL, 90),
    "worked joint, hose half of the yield strength": solver.Crimp(25.6, 2.4, 23.51, STEEL, 150),
    "hardening steel": solver.Crimp(50, 3, 46, HARDENING),
}
STEMS = {
    "steel stem": (solver.Pressed(12.95, 9, STEEL, True), 0.25, "stem"),
    "stainless stem": (solver.Pressed(25, 19, STAINLESS, True), 0.25, "stem"),
    "brass stem": (solver.Pressed(10, 8, BRASS, True), 0.4, "stem"),
    "steel stem, half": (solver.Pressed(12.95, 9, STEEL, True), 0.5, "stem, to half of the wall"),
    "steel stem, deep": (solver.Pressed(12.95, 9, STEEL, True), 0.799, "stem, to 0.8 of the wall"),
    "stainless stem, deep": (solver.Pressed(25, 19, STAINLESS, True), 0.799, "stem, to 0.8 of the wall"),
    "brass stem, deep": (solver.Pressed(10, 8, BRASS, True), 0.799, "stem, to 0.8 of the wall"),
    "thick brass stem, deep": (solver.Pressed(20, 10, BRASS, True), 0.799, "thick stem, to 0.8 of the wall"),
}
DIES = {
    "worked joint, die 22": solver.DieCrimp(25.6, 2.4, 23.51, 22, STEEL),
    "base, die 39": solver.DieCrimp(50, 3, 46, 39, STEEL),
}


def ends_fixed(crimp, yes):
    return solver.Crimp(crimp.outside, crimp.wall, crimp.closing, crimp.material, crimp.hose_pressure, yes)


def without_contact():
    """All comparisons but those of dies in contact: (case, function that makes its rows)."""
    for name, crimp in CRIMPS.items():
        for yes in (True, False):
            case = f"{name}, {'ends fixed' if yes else 'ends free'}"
            yield case, lambda case=case, crimp=ends_fixed(crimp, yes): compare_crimp(case, crimp)
    for share in (0.5, 0.8):
        case = f"base, restraint {share}"
        yield case, lambda case=case, share=share: compare_restraint(case, CRIMPS["base"], share)
    for yes in (True, False):
        case = f"elastic tube, {'ends fixed' if yes else 'ends free'}"
        yield case, lambda case=case, yes=yes: compare_elastic(case, solver.Pressed(12.95, 9, ELASTIC, yes), 50.0)
    for name, (tube, depth, kind) in STEMS.items():
        yield name, lambda name=name, tube=tube, depth=depth, kind=kind: compare_stem(name, tube, depth, kind)
