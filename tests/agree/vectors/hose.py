# SPDX-License-Identifier: MIT
"""Rows of module hose for hose.csv: closings by the equations of fer_form_ferrule() with mpmath (tests/agree/catalogue/forming_model.py,
which does not call the library), forwards from a squeeze, a restraint and a yield strength that are known; the rows ask for these back.
Uncertainties: slopes of the same model by central differences, and one system of three linear equations. All joints are invented.

    python3 hose.py --write     some minutes
"""
import csv
import sys
from pathlib import Path

here = Path(__file__).resolve().parent
sys.path.insert(0, str(here.parent / "catalogue"))
from mpmath import log, matrix, mp, mpf, nstr, pi, sqrt  # noqa: E402

from forming_model import Stroke  # noqa: E402

mp.dps = 30
BEFORE = mpf(28)
MODEL = "tests/agree/vectors/hose.py, mpmath"
ELEMENTS = "tests/agree/finite_element/twin.csv: CalculiX, even pressure of 30 MPa on the bore; sizes after opening by Lamé"
STEEL = {"e": mpf(206000), "nu": mpf("0.3"), "y": mpf(300), "h": mpf(0)}
WORKED = {"wall": mpf("2.4"), "outside": mpf("25.6"), "diameter": mpf("23.51")}
NOT_USED = ["material.yield_strength=200 MPa"]  # with a bare ferrule
UNCERTAIN = {"force": "1 %", "scale": "8 %", "yield_strength": "11 %", "diameter": "0.03 mm", "wall": "0.02 mm", "length": "0.02 mm"}


class Closing:
    """What is seen of a ferrule that was closed: force by length before, length by length before, crimp diameter."""

    INPUTS = ("q", "y", "r", "diameter", "wall", "outside")

    def __init__(self, metal=None, q=0, r=0, size=None, lengths=True):
        self.metal, self.size, self.lengths = dict(metal or STEEL), dict(size or WORKED), lengths
        self.inputs = {"q": mpf(q), "y": self.metal["y"], "r": mpf(r)} | self.size
        self.seen = self.look(**self.inputs)

    def look(self, q, y, r, diameter, wall, outside):
        found = Stroke(wall, outside, diameter, self.metal | {"y": y}, r, q, points=12 if self.metal["h"] else 2).results()
        stretch = found["crimp_stretch"] if self.lengths else r  # which is taken as seen where the length is not
        return [found["pressure"] * pi * diameter * found["stretch"], stretch, found["crimp_diameter"]]

    def ferrule(self):
        return [f"ferrule.{name}={nstr(self.size[name], 15)} mm" for name in ("wall", "outside")]

    def material(self):
        m = self.metal
        figures = [f"elastic_modulus={nstr(m['e'], 15)} MPa", f"poisson={nstr(m['nu'], 15)} fraction", f"yield_strength={nstr(m['y'], 15)} MPa"]
        return ["material." + figure for figure in figures + [f"hardening={nstr(m['h'], 15)} MPa"] * bool(m["h"])]

    def closing(self, name, force=True):
        figures = [f"force={nstr(self.seen[0] * BEFORE, 15) if force else 0} N", f"diameter={nstr(self.seen[2], 15)} mm", f"before={nstr(BEFORE, 15)} mm"]
        return [f"{name}.{figure}" for figure in figures + [f"after={nstr(self.seen[1] * BEFORE, 15)} mm"] * self.lengths]

    def rows(self, push):
        """How what pushes follows what is seen, and each input."""
        slopes = {}
        for name in self.INPUTS:
            step = mpf(10) ** -6 * max(abs(self.inputs[name]), mpf("0.1"))
            above, below = (self.look(**self.inputs | {name: self.inputs[name] + sign * step}) for sign in (1, -1))
            slopes[name] = [(a - b) / (2 * step) for a, b in zip(above, below)]
        unknown = matrix([[slopes[name][i] for name in (push, "r", "diameter")] for i in range(3)])
        row = (unknown**-1)[0, :]
        return list(row), {name: -sum(row[i] * slopes[name][i] for i in range(3)) for name in ("y", "wall", "outside")}

    def shares(self, push, u):
        """Variance of what is measured anew; slopes by the scale of the force, by a restraint that is not known, by the yield strength."""
        (force, stretch, diameter), by = self.rows(push)
        f, s, _ = self.seen
        known = 1 if self.lengths else 0
        parts = [force * f * u["force"], diameter * u["diameter"], by["outside"] * u["diameter"], by["wall"] * u["wall"],
                 known * stretch * u["length"] / BEFORE, (force * f + known * stretch * s) * u["length"] / BEFORE]
        return sum(part**2 for part in parts), force * f, (1 - known) * stretch, by["y"]


def uncertainty(joint, bare=None):
    u = {name: mpf(text.split()[0]) / (100 if "%" in text else 1) for name, text in UNCERTAIN.items()}
    variance, scale, restraint, by_yield = joint.shares("q", u)
    variance += restraint**2 / 3
    if bare:
        own, own_scale, _, _ = bare.shares("y", u)
        variance, scale = variance + by_yield**2 * own, scale + by_yield * own_scale
    else:
        variance += (by_yield * joint.metal["y"] * u["yield_strength"]) ** 2
    return sqrt(variance + (scale * u["scale"]) ** 2)


def squeeze_rows():
    uncertain = [f"uncertainties.{name}={text}" for name, text in UNCERTAIN.items()]
    hard, soft = STEEL | {"h": mpf(700)}, {"e": mpf(70000), "nu": mpf("0.33"), "y": mpf(150), "h": mpf(200)}
    thin = {"wall": mpf("1.5"), "outside": mpf(40), "diameter": mpf(36)}
    for name, q, r, metal, size, lengths, near in (
            ("worked joint", 30, "0.4", STEEL, WORKED, True, "1e-4"), ("ends fixed", 5, 1, STEEL, WORKED, True, "1e-4"),
            ("lengths not measured, ends free", 60, 0, STEEL, WORKED, False, "1e-4"), ("dragged longer", 45, "-0.2", STEEL, WORKED, True, "1e-4"),
            ("half of the yield strength", 149, "0.3", STEEL, WORKED, True, "1e-4"), ("hardening", 60, "0.25", hard, WORKED, True, "1e-3"),
            ("thin, light alloy", 20, "0.5", soft, thin, True, "1e-3")):
        joint = Closing(metal, q, r, size, lengths)
        arguments = "; ".join(joint.ferrule() + joint.closing("closing") + joint.material() + uncertain)
        of_dies = joint.seen[0] / (pi * joint.size["diameter"] * joint.seen[1] if lengths else pi * joint.size["diameter"])
        yield arguments, "squeeze.pressure", f"{q} MPa", nstr(mpf(near) * of_dies, 2) + " MPa", f"{name}; {MODEL}"
        yield arguments, "squeeze.stem_maximum", f"{q * mpf('2.5')} MPa", nstr(mpf("2.5") * mpf(near) * of_dies, 2) + " MPa", f"{name}; {MODEL}"
        if lengths:
            yield arguments, "squeeze.restraint", f"{r} fraction", near + " fraction", f"{name}; {MODEL}"
        if not metal["h"]:
            u = uncertainty(joint)
            yield arguments, "squeeze.standard_uncertainty", nstr(u, 8) + " MPa", nstr(u / 100, 2) + " MPa", f"{name}; {MODEL}"
    for name, strength, q, lengths in (("twin crimp", 317, 40, True), ("twin crimp, lengths not measured", 317, 40, False)):
        truth = STEEL | {"y": mpf(strength)}
        joint, bare = Closing(truth, q, "0.35" if lengths else 0, None, lengths), Closing(truth, 0, "0.1" if lengths else 0, None, lengths)
        arguments = "; ".join(joint.ferrule() + joint.closing("closing") + joint.material()[:2] + NOT_USED + bare.closing("bare") + uncertain)
        yield arguments, "squeeze.pressure", f"{q} MPa", "1e-2 MPa", f"{name}; {MODEL}"
        yield arguments, "squeeze.yield_strength", f"{strength} MPa", "1e-2 MPa", f"{name}; {MODEL}"
        u = uncertainty(joint, bare)
        yield arguments, "squeeze.standard_uncertainty", nstr(u, 8) + " MPa", nstr(u / 100, 2) + " MPa", f"{name}; {MODEL}"
    elements = ("ferrule.wall=2.4 mm; ferrule.outside=25.6 mm; closing.force=174.763 kN; closing.diameter=23.5536 mm; closing.before=24 mm; "
                "closing.after=25.479 mm; material.elastic_modulus=206 GPa; material.poisson=30 %; material.yield_strength=200 MPa; bare.force=126.126 kN; bare.diameter=23.5416 mm; "
                "bare.before=24 mm; bare.after=25.3968 mm")
    yield elements, "squeeze.pressure", "30 MPa", "0.15 MPa", ELEMENTS


FIXED = "ferrule.wall=2.4 mm; ferrule.outside=25.6 mm; material.elastic_modulus=206 GPa; material.poisson=30 %; material.yield_strength=300 MPa; "
GIVEN = FIXED + "closing.force=219 kN; closing.diameter=23.55 mm; closing.before=28 mm"
REFUSED = (
    (GIVEN.replace("219 kN", "0 N"), "CLOSING_FORCE_MISSING", "the force was not read"),
    (GIVEN.replace("219 kN", "-1 kN"), "CLOSING_FORCE_OUT_OF_RANGE", "a force below 0"),
    (GIVEN.replace("28 mm", "0 mm"), "CLOSING_LENGTH_MISSING", "the length before was not measured"),
    (GIVEN + "; closing.after=2000000 mm", "CLOSING_LENGTH_OUT_OF_RANGE", "two kilometres"),
    (GIVEN + "; closing.after=27.5 mm", "CLOSING_STRETCH_OUT_OF_RANGE", "shorter than before: metal that is squeezed gets longer"),
    (GIVEN + "; closing.after=33 mm", "CLOSING_STRETCH_OUT_OF_RANGE", "1.18 times as long; with its ends free it would be 1.06"),
    (GIVEN + "; uncertainties.force=101 %", "CLOSING_UNCERTAINTY_OUT_OF_RANGE", "more than the whole"),
    (GIVEN + "; uncertainties.length=-0.01 mm", "CLOSING_UNCERTAINTY_OUT_OF_RANGE", "below 0"),
    (GIVEN.replace("219 kN", "140 kN"), "FORCE_BELOW_METAL", "147 kN is what the ferrule alone needs with its ends free"),
    (GIVEN.replace("219 kN", "600 kN"), "HOSE_PRESSURE_ABOVE_LIMIT", "494 kN with half of the yield strength, ends fixed"),
    (GIVEN.replace("23.55 mm", "25.7 mm"), "DIAMETER_ABOVE_FERRULE", "larger than the ferrule"),
    (GIVEN.replace("wall=2.4 mm", "wall=5 mm"), "FERRULE_WALL_TOO_THICK", "above 0.18 of 25.6 mm"),
)


def other_rows():
    for strength, r in ((250, "0.6"), (480, 0)):
        bare = Closing(STEEL | {"y": mpf(strength)}, 0, r)
        arguments = "; ".join(bare.ferrule() + bare.closing("bare") + bare.material()[:2] + NOT_USED)
        yield "find_effective_yield_strength", arguments, "yield_strength", f"{strength} MPa", nstr(strength * mpf("1e-5"), 2) + " MPa", MODEL
    for q, r in ((0, "0.5"), (90, "0.15"), (25, "-0.25")):
        joint = Closing(STEEL, q, r)
        arguments = "; ".join(joint.ferrule() + joint.closing("closing", False) + joint.material() + [f"hose_pressure={q} MPa"])
        yield "find_restraint", arguments, "restraint", f"{r} fraction", "1e-5 fraction", MODEL
    yield ("find_restraint", FIXED + "closing.force=0 N; closing.diameter=23.55 mm; closing.before=28 mm; hose_pressure=0 MPa", "restraint", "status CLOSING_LENGTH_MISSING", "",
           "the length after is needed here")
    # stem 12.95/9, first yield at k (1 - a^2/b^2), the plastic zone reaches c
    nu, e, y, a, b = mpf("0.3"), mpf(206000), mpf(300), mpf("4.5"), mpf("6.475")
    stem = ("stem.outside=12.95 mm; stem.bore=9 mm; material.elastic_modulus=206 GPa; material.poisson=30 %; material.yield_strength=300 MPa; "
            "load.restraint={} fraction; reduction={} mm")
    by_hand = "Lamé: 4 b^2 a (1 - r nu^2) p/(E (b^2 - a^2)), worked out with mpmath"
    for r, reduction in (("0", "0.004"), ("1", "0.011")):
        pressure = mpf(reduction) * e * (b**2 - a**2) / (4 * b**2 * a * (1 - mpf(r) * nu**2))
        yield "hose_pressure_from_bore", stem.format(r, reduction), "pressure", nstr(pressure, 20) + " MPa", "1e-11 MPa", by_hand
    k, c = y / (2 * sqrt(1 - nu + nu**2)), mpf("5.4")
    reduction = nstr(4 * (1 - nu**2) * k * c**2 / (e * a), 15)
    pressure = k * (2 * log(c / a) + 1 - (c / b) ** 2)
    yield ("hose_pressure_from_bore", stem.format("1", reduction), "pressure", nstr(pressure, 20) + " MPa", "1e-9 MPa",
           "Hill, ch. V (from memory): the plastic zone reaches 10.8 mm; worked out with mpmath")
    for r, reduction, status, why in (("0", "0.05", "STEM_YIELDS_ENDS_NOT_FIXED", "beyond first yielding with ends free"),
                                      ("1", "0.05", "BORE_REDUCTION_ABOVE_FULL_YIELD", "the plastic zone would be beyond the outside"),
                                      ("0", "9", "BORE_REDUCTION_OUT_OF_RANGE", "as much as the bore")):
        yield "hose_pressure_from_bore", stem.format(r, reduction), "pressure", "status " + status, "", why


def all_rows():
    for row in squeeze_rows():
        yield ["find_hose_pressure", *row]
    for arguments, status, why in REFUSED:
        yield ["find_hose_pressure", arguments, "squeeze.pressure", "status " + status, "", why]
    for row in other_rows():
        yield list(row)


def main():
    with (here.joinpath("hose.csv").open("w", newline="", encoding="utf-8") if "--write" in sys.argv else sys.stdout) as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(["function", "arguments", "result", "expected", "tolerance", "source"])
        writer.writerows(all_rows())


if __name__ == "__main__":
    main()
