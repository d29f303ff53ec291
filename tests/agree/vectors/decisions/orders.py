# SPDX-License-Identifier: MIT
"""Writes orders.csv: may this be crimped? Cases by hand, answers by the rules as they are stated here, without the library.

    python3 tests/agree/vectors/decisions/orders.py [--write]     without --write: looks whether the table is that

Each case is the order below, of which nothing is to be said, with some of its figures changed. Springback and force are those of
tests/agree/catalogue/forming_model.py, the model of the manual's page Forming with mpmath.
"""
import functools
import pathlib
import sys

from mpmath import cos, diff, exp, findroot, fsum, isnan, log, mp, mpf, ncdf, pi, sin, sqrt

sys.path[:0] = [str(pathlib.Path(__file__).resolve().parent), str(pathlib.Path(__file__).resolve().parents[2])]
from catalogue.forming_model import Stroke  # noqa: E402
from cells import (at, down, flat, guarded, items, nest, reading_uncertainty, shown, write_or_check, zone_text)  # noqa: E402

# In the order in which a person has to know them; what each asks for.
STOP = ["no die", "target not touching", "target closes on stem", "compression too low", "compression too high", "ferrule too narrow",
        "does not pass", "dial out of range", "graduation too coarse", "force above capacity", "closes below die",
        "stem yields through", "bore below limit", "not approved", "gauge cannot accept", "limits too uncertain"]
CONFIRM = ["published above window", "published below window", "target computed", "measurements uncertain", "window not computed",
           "no tolerance", "lobe above maximum", "approval not stated", "bore near limit", "stem yields",
           "force near capacity"]
DO_FIRST = ["adapter comes out", "adapter goes in", "try fit", "opening not known", "insertion not given"]
KNOW = ["lobe above tolerance", "wall growth leaves range", "compression uncertain", "uncertainties not given",
        "ferrule outside not known", "die length not known", "ferrule outgrows die", "gap wide", "hose pressure not known",
        "correction not measured", "gauge taken as exact", "confirmation stale"]
ORDER = STOP + CONFIRM + DO_FIRST + KNOW
NAN = mp.nan
INPUTS = ("hose_inside", "hose_outside", "stem_outside", "ferrule_wall", "ferrule_outside", "diameter")


# ---- figures of the joint ---------------------------------------------------------------------------------------------------

class Joint:
    def __init__(self, tree):
        self.sizes = [at(tree, path) for path in ("hose.inside", "hose.outside", "stem.outside", "ferrule.wall", "ferrule.outside")]
        self.inside, self.outside, self.stem, self.wall, self.ferrule = self.sizes
        self.soft = at(tree, "hose.reinforcement")
        self.length, self.bore = at(tree, "ferrule.length"), at(tree, "stem.bore")

    def moved(self, sizes):
        other = object.__new__(Joint)
        other.__dict__.update(self.__dict__)
        other.sizes = sizes
        other.inside, other.outside, other.stem, other.wall, other.ferrule = sizes
        return other

    def on_stem(self):
        """Outside diameter of the hose on the stem: its cross-section stays."""
        if self.stem <= self.inside:
            return self.outside
        return sqrt(self.outside**2 - self.inside**2 + self.stem**2)

    def wall_after(self, diameter, flow):
        if flow == "none":
            return self.wall
        if flow == "ends fixed":  # constant area of the metal
            return (diameter - sqrt(diameter**2 - 4 * self.wall * (self.ferrule - self.wall))) / 2

        def miss(wall):
            thin = wall / diameter
            return wall - self.wall * exp(log((self.ferrule - self.wall) / (diameter - wall)) * (1 - 2 * thin) / (2 - thin))
        return findroot(miss, self.wall)

    def share(self, diameter, basis="wall", flow="none"):
        """Compression, whatever the diameter."""
        bore = diameter - 2 * self.wall_after(diameter, flow)
        gap, walls = bore - self.stem, self.outside - self.inside
        if basis == "area":
            return 1 - (bore**2 - self.stem**2) / (self.outside**2 - self.inside**2)
        if basis == "fitted wall":
            return 1 - gap / (self.on_stem() - self.stem)
        return (walls - gap) / (walls - (2 * self.soft if basis == "soft wall" else 0))

    def trouble(self, diameter, flow="none"):
        """Why there is no compression at a diameter; None: there is one."""
        if self.ferrule and diameter > self.ferrule:
            return "target not touching"
        if diameter <= 2 * self.wall_after(diameter, flow):
            return "target closes on stem"
        bore = diameter - 2 * self.wall_after(diameter, flow)
        if bore <= self.stem:
            return "target closes on stem"
        return "target not touching" if bore >= self.on_stem() else None

    def diameter(self, compression, basis="wall", flow="none"):
        """None: no such crimp."""
        found = self.stem + 2 * self.wall + (self.outside - self.inside) * (1 - compression)
        if (basis, flow) != ("wall", "none"):
            found = findroot(lambda d: self.share(d, basis, flow) - compression, found)
        return None if self.trouble(found, flow) else found


def fits(joint, basis, flow):
    """Whether the model has the measurements that it needs."""
    return not (basis == "soft wall" and not joint.soft or flow != "none" and not joint.ferrule)


def combined(function, sizes, amounts):
    """First order (JCGM 100, 5.1.2), slopes by mpmath.diff."""
    total = mpf(0)
    for i, amount in enumerate(amounts):
        if amount:
            slope = diff(lambda x, i=i: function(sizes[:i] + [x] + sizes[i + 1:]), sizes[i])
            total += (slope * amount) ** 2
    return sqrt(total)


def share_inside(joint, order, amounts, target, lower, upper, u):
    """By the plain formula c < x exactly where D - 2w - s - (1 - x)(do - di) > 0, which is normal; else c itself is taken so."""
    basis, flow = at(order, "model.basis", "wall"), at(order, "model.flow", "none")
    if (basis, flow) != ("wall", "none"):
        c = joint.share(target, basis, flow)
        return ncdf((upper - c) / u) - ncdf((lower - c) / u)

    def below(x):
        left = 1 - x
        middle = target - 2 * joint.wall - joint.stem - left * (joint.outside - joint.inside)
        slopes = (left, left, 1, 2, 0, 1)
        return ncdf(middle / sqrt(fsum((s * a) ** 2 for s, a in zip(slopes, amounts))))
    return below(upper) - below(lower)


# ---- figures of die, press and metal ------------------------------------------------------------------------------------------

def choose_die(dies, target, mounted, length):
    near = [(at(die, "size"), at(die, "adapter") == mounted, -i) for i, die in enumerate(dies)
            if at(die, "size") <= target <= at(die, "size") + (at(die, "reach") or 7)
            and not (length and 0 < at(die, "length") < length)]
    return dies[-max(near)[2]] if near else None


def dial(press, die, target):
    """Setting that the dial can show, halves up; None: it cannot be set."""
    exact, step = target - at(die, "size") + at(press, "correction"), at(press, "graduation")
    setting = down(exact / step + mpf("0.5")) * step if step else exact
    most = at(press, "dial_maximum")
    return (None, NAN) if setting < 0 or most and setting > most else (setting, setting - exact)


def shape(diameter, size, segments):
    """Lobe height and gap of arcs of the die's radius whose centres have moved out."""
    offset, radius, angle = (diameter - size) / 2, size / 2, pi / segments
    edge = sqrt(offset**2 + radius**2 + 2 * offset * radius * cos(angle))
    return diameter / 2 - edge, (diameter - size) * sin(angle)


def metal_of(tree):
    names = {"e": "elastic_modulus", "nu": "poisson", "y": "yield_strength", "h": "hardening"}
    return tuple((key, mp.nstr(at(tree, name), 15)) for key, name in names.items()) if tree else None


@functools.cache
def formed(wall, outside, crimp, metal, restraint, hose):
    """Closing diameter and what the dies make of the ferrule there."""
    with mp.workdps(36):
        closing = mpf(crimp)
        for _ in range(5):
            results = Stroke(wall, outside, closing, dict(metal), mpf(restraint), mpf(hose), points=8).results()
            closing = mpf(crimp) - results["springback"]
    return closing, results


class Stem:
    """Thick tube with fixed ends under pressure from outside (Lamé, von Mises with the mean of the other two stresses)."""

    def __init__(self, joint, metal, restraint):
        assert restraint == 1, "stems with fixed ends only"
        self.outer, self.inner = joint.stem / 2, joint.bore / 2
        figures = {key: mpf(text) for key, text in metal}
        self.e, self.nu, strength = figures["e"], figures["nu"], figures["y"]
        root = sqrt(1 - self.nu + self.nu**2)
        self.first = strength * (self.outer**2 - self.inner**2) / (2 * self.outer**2 * root)
        self.full = 2 / sqrt(mpf(3)) * strength * log(self.outer / self.inner)

    def reduction(self, pressure):
        """Of the bore's diameter while it is elastic; NaN where it yields through."""
        if pressure >= self.full:
            return NAN
        assert pressure <= self.first, "partly plastic: take another case"
        return 4 * (1 - self.nu**2) * pressure * self.outer**2 * self.inner / (self.e * (self.outer**2 - self.inner**2))


# ---- the rules ------------------------------------------------------------------------------------------------------------------

def plan(tree):
    """Remarks, zone, and the figures that a confirmation names."""
    order, press, dies = tree["order"], tree.get("press", {}), items(tree, "dies")
    joint = Joint(order["joint"])
    basis, flow = at(order, "model.basis", "wall"), at(order, "model.flow", "none")
    lower, upper = at(order, "range.lower"), at(order, "range.upper")
    if not (lower or upper):
        assert (basis, flow) == ("wall", "none")
        lower, upper = mpf("0.15"), mpf("0.25")
    published, tolerance = at(order, "published"), at(order, "tolerance")
    aim = at(order, "aim") or (lower + upper) / 2
    target = published or joint.diameter(aim, basis, flow)
    assert target is not None
    said = set()

    def say(applies, remark):
        if applies:
            said.add(remark)

    # the target itself: nothing is crimped below 5 % or above 45 % of plain compression, two standard uncertainties allowed for, at
    # most 5 points
    amounts = [at(order, f"uncertainties.{name}.amount") for name in INPUTS]
    known = any(amounts[i] for i in range(6) if i != 4 or flow != "none")
    trouble = joint.trouble(target)
    say(trouble, trouble)
    say(joint.ferrule and joint.trouble(target, "ends free") == "target closes on stem", "target closes on stem")
    plain = NAN if trouble else joint.share(target)

    def uncertainty(of_basis, of_flow):
        return combined(lambda x: joint.moved(x[:5]).share(x[5], of_basis, of_flow), joint.sizes + [target], amounts)
    allowed = mpf(0) if trouble else min(2 * uncertainty("wall", "none"), mpf("0.05"))
    say(plain + allowed < mpf("0.05"), "compression too low")
    say(plain - allowed > mpf("0.45"), "compression too high")

    # the window of the measurements, or where it is not there the compression
    can = fits(joint, basis, flow)
    ends = [joint.diameter(c, basis, flow) for c in (upper, lower)] if can else [None, None]
    window = None if None in ends else ends
    by_model = joint.share(target, basis, flow) if can and not joint.trouble(target, flow) else NAN
    if published:
        say(target > window[1] if window else by_model < lower, "published above window")
        say(target < window[0] if window else by_model > upper, "published below window")
        say(not window and isnan(by_model), "window not computed")
        say(not tolerance, "no tolerance")
    say(not published, "target computed")

    # ferrule and hose
    narrow = joint.on_stem() - (joint.ferrule - 2 * joint.wall) if joint.ferrule else NAN
    allowed = 2 * combined(lambda x: joint.moved(x).on_stem() - (x[4] - 2 * x[3]), joint.sizes, amounts[:5])
    say(narrow > allowed, "ferrule too narrow")
    say(-allowed <= narrow <= allowed, "try fit")
    say(not joint.ferrule, "ferrule outside not known")

    # how sure the compression is
    if known and can and not joint.trouble(target, flow):
        u = uncertainty(basis, flow)
        unsure = share_inside(joint, order, amounts, target, lower, upper, u) < mpf("0.95")
    else:
        unsure = known
    say(unsure and not published, "measurements uncertain")
    say(unsure and published, "compression uncertain")
    say(not known, "uncertainties not given")
    if flow == "none" and joint.ferrule and not joint.trouble(target, "ends free"):
        say(lower <= plain <= upper < joint.share(target, "wall", "ends free"), "wall growth leaves range")

    # parts
    approval = at(order, "approval", "not stated")
    say(approval == "not approved", "not approved")
    say(approval == "not stated", "approval not stated")
    say(not at(order, "insertion"), "insertion not given")

    # what the gauge in hand accepts; limits that were computed are narrowed by their own uncertainty first
    gauge, guard = order.get("gauge", {}), order.get("guard", {})
    limits = (target - tolerance, target + tolerance) if tolerance else None if published else window
    zone, too_uncertain = limits, False
    if limits and not tolerance and not at(guard, "without", False):
        own = [combined(lambda x, c=c: joint.moved(x).diameter(c, basis, flow), joint.sizes, amounts[:5]) for c in (upper, lower)]
        if all(own):
            zone = guarded(*limits, max(own), {k: v for k, v in guard.items() if k != "without"})
            too_uncertain = zone is None
    if zone:
        zone = shown(guarded(*zone, reading_uncertainty(gauge), guard), gauge, guard)
    say(too_uncertain, "limits too uncertain")
    say(limits and not zone and not too_uncertain, "gauge cannot accept")
    say(not at(gauge, "standard_uncertainty") and not at(guard, "without", False), "gauge taken as exact")

    # metal
    restraint, hose = at(order, "load.restraint"), at(order, "load.hose_pressure")
    metal = metal_of(order.get("ferrule_metal"))
    figures = dict(metal) if metal else None
    most = mpf(figures["y"]) / 2 if metal else mpf(0)  # beyond it nothing is computed

    def pressed(ends, pressure):
        """Closing diameter, what the ferrule becomes, force."""
        closing, forming = formed(mp.nstr(joint.wall, 15), mp.nstr(joint.ferrule, 15), mp.nstr(target, 20), metal, mp.nstr(ends, 15),
                                  mp.nstr(pressure, 15))
        return closing, forming, forming["pressure"] * pi * closing * joint.length * forming["stretch"]
    closing, forming, force = pressed(restraint, hose) if metal and hose <= most else (NAN, None, NAN)
    capacity = at(press, "capacity")
    say(forming and not hose, "hose pressure not known")
    if metal and capacity and joint.length:
        # ends that are not known to move need most
        over = pressed(restraint or mpf(1), min(hose, most))[2] > capacity
        decided = restraint and forming
        above = force > capacity or over and restraint and not decided
        say(above, "force above capacity")
        little = not hose and pressed(restraint or mpf(1), min(mpf(25), most))[2] > capacity  # hardly more than the ferrule alone
        say(((over or hose > most) and not decided or little) and not above, "force near capacity")

    # die and press
    assert limits or published
    die = choose_die(dies, target, at(order, "adapter_mounted"), joint.length)
    say(not die, "no die")
    if die:
        size = at(die, "size")
        changed = at(die, "adapter") != at(order, "adapter_mounted")
        say(changed and at(die, "adapter"), "adapter goes in")
        say(changed and not at(die, "adapter"), "adapter comes out")
        setting, remainder = dial(press, die, target)
        say(setting is None, "dial out of range")
        say(limits and not limits[0] <= target + remainder <= limits[1] and setting is not None, "graduation too coarse")
        widest, opening = max(at(order, "widest"), joint.ferrule), at(press, "opening")
        say(opening and widest and size + opening < widest, "does not pass")
        say(not (opening and widest), "opening not known")
        say(joint.length and not at(die, "length"), "die length not known")
        say(forming and at(die, "length") and joint.length * forming["stretch"] > at(die, "length"), "ferrule outgrows die")
        lobe, gap = shape(max(closing if forming else target, size), size, at(press, "segments") or 8)
        most = at(order, "lobe_maximum")
        say(most and lobe > most, "lobe above maximum")
        say(limits and 2 * lobe > (limits[1] - limits[0]) / 2, "lobe above tolerance")
        say(gap > joint.wall, "gap wide")
        say(forming and closing < size, "closes below die")
        say(forming and not (at(press, "correction_measured", False) or at(press, "correction")), "correction not measured")

    # bore of the stem: at the mean pressure of the hose, and at 2.5 times that
    metal, least = metal_of(order.get("stem_metal")), at(order, "minimum_bore")
    margin = NAN
    say(joint.bore and least and joint.bore < least, "bore below limit")
    if metal and joint.bore:
        stem = Stem(joint, metal, restraint)
        say(hose >= stem.full, "stem yields through")
        say(stem.first < hose < stem.full, "stem yields")
        if hose and least and hose < stem.full:
            margin = joint.bore - stem.reduction(hose) - least
            say(margin < 0, "bore below limit")
            say(margin >= 0 and not joint.bore - stem.reduction(mpf("2.5") * hose) - least >= 0, "bore near limit")
    return {"said": said, "zone": zone_text(zone) if limits else "status TOLERANCE_MISSING", "target": target, "tolerance": tolerance,
            "die": at(die, "size") if die else mpf(0), "compression": plain}


def confirm(planned, confirmations):
    """What is confirmed: of each remark that is made the figures that were looked at, to 0.0005 mm and 0.05 points."""
    confirmed = set()
    for one in confirmations:
        assert one["remark"] in CONFIRM
        if one["remark"] in planned["said"]:
            holds = all(abs(at(one, name) - planned[name]) <= mpf("0.0005") for name in ("target", "tolerance", "die", "compression"))
            (confirmed if holds else planned["said"]).add(one["remark"] if holds else "confirmation stale")
    return confirmed


def answer(arguments, confirmations):
    planned = plan(nest(arguments))
    confirmed = confirm(planned, items(nest(confirmations), "confirmations"))
    said = planned["said"]
    ready = ("not ready" if said & set(STOP) else "after confirming" if (said - confirmed) & set(CONFIRM) else "ready")
    return [ready, *(", ".join(r for r in ORDER if r in chosen) for chosen in (said, confirmed)), planned["zone"]]


# ---- cases ------------------------------------------------------------------------------------------------------------------------

CLEAN = {
    "order.joint.hose.inside": "12.7 mm", "order.joint.hose.outside": "19.9 mm", "order.joint.stem.outside": "12.95 mm",
    "order.joint.ferrule.wall": "2.4 mm", "order.joint.ferrule.outside": "25.6 mm",
    "order.published": "23.51 mm", "order.tolerance": "0.15 mm", "order.uncertainties.hose_inside.amount": "0.08 mm",
    "order.uncertainties.hose_outside.amount": "0.1 mm", "order.uncertainties.stem_outside.amount": "0.02 mm",
    "order.uncertainties.ferrule_wall.amount": "0.03 mm", "order.uncertainties.diameter.amount": "0.05 mm",
    "order.gauge.standard_uncertainty": "0.01 mm", "order.gauge.resolution": "0.01 mm", "order.approval": "approved",
    "order.insertion": "32 mm", "press.graduation": "0.05 mm", "press.correction": "0.04 mm", "press.opening": "20 mm",
    "dies.0.size": "16 mm", "dies.1.size": "19 mm", "dies.2.size": "22 mm", "dies.3.size": "25 mm"}
LENGTHS = {"order.joint.ferrule.length": "28 mm"} | {f"dies.{i}.length": "30 mm" for i in range(1, 4)}
ADAPTER = {"dies.0.adapter": "1"}
EXACT = {f"order.uncertainties.{name}.amount": None for name in INPUTS}
ONLY = EXACT | {"order.uncertainties.diameter.amount": "0.001 mm"}
NO_DIES = {path: None for path in CLEAN if path.startswith("dies.")}
FROM_WINDOW = NO_DIES | {"order.published": None, "order.tolerance": None, "dies.0.reach": "8 mm"}
STEEL = {"elastic_modulus": "206000 MPa", "poisson": "30 %", "yield_strength": "300 MPa"}
FERRULE_METAL = {f"order.ferrule_metal.{name}": text for name, text in STEEL.items()}
STEM_METAL = {f"order.stem_metal.{name}": text for name, text in STEEL.items()} | {"order.joint.stem.bore": "9 mm"}
FIXED = {"order.load.restraint": "100 %", "order.load.hose_pressure": "30 MPa"}
FORMED = LENGTHS | FERRULE_METAL | FIXED | {"order.published": "23.55388 mm"}
BORE = STEM_METAL | FIXED
NOTHING_ELSE = {path: None for path in CLEAN if not path.startswith("order.joint")} | {"dies.0.size": "22 mm", "press.segments": "8"}
SOFT = {"order.model.basis": "soft wall", "order.range.lower": "5 %", "order.range.upper": "40 %"}
NO_WINDOW = ONLY | {"order.range.lower": "19.95 %", "order.range.upper": "100 %"}
WIDE = {"order.joint.ferrule.outside": "35 mm", "order.joint.hose.outside": "29.62 mm"}
AREA = {"order.model.basis": "area", "order.range.lower": "15 %", "order.range.upper": "30 %"}
HELD = {"order.model.flow": "ends fixed", "order.range.lower": "20 %", "order.range.upper": "35 %"}


def mm(text):
    return f"{text} mm"


def published(text, **more):
    return {"order.published": mm(text)} | {f"order.{name}": text for name, text in more.items()}


def looked_at(*remarks, target="23.51", tolerance="0.15", die="22", compression="20"):
    figures = {"target": mm(target), "tolerance": mm(tolerance), "die": mm(die), "compression": f"{compression} %"}
    return flat({f"confirmations.{i}.{name}": text for i, remark in enumerate(remarks)
                 for name, text in ({"remark": remark} | figures).items()})


WINDOW = "c = 1 - (D - 17.75)/7.2: window 23.15 to 23.87 mm"
DANGER = "must not pass: "
# changes, confirmations, why
CASES = [
    ({}, "", "nothing is to be said"),
    (NOTHING_ELSE, "", "nothing is given but the joint and a die"),
    # what is published
    (published("21"), "", DANGER + "54.9 % (23.51 mm for this joint)"),
    (published("21") | EXACT, "", DANGER + "54.9 %, uncertainties not given"),
    (published("21") | {"order.uncertainties.hose_outside.amount": "2 mm"}, "", DANGER + "54.9 %, however badly the hose was measured"),
    (published("33") | EXACT, "", "larger than the ferrule, uncertainties not given"),
    (published("33"), "", DANGER + "larger than the ferrule of 25.6 mm"),
    (published("32"), "", "die 25 mm reaches 32 mm"),
    (published("32.001"), "", "one thousandth above the reach of die 25 mm"),
    (NO_DIES, "", "an empty rack"),
    (published("24.859"), "", "touches: hose on the stem sqrt(19.9^2 - 12.7^2 + 12.95^2) = 20.0605 mm, and two walls"),
    (published("24.862"), "", "does not touch: 24.8605 mm"),
    (published("17.751") | {"order.joint.ferrule.outside": None}, "", "just open: stem and two walls are 17.75 mm"),
    (published("17.749") | {"order.joint.ferrule.outside": None}, "", "closes on the stem"),
    (published("17.751"), "", "open by the plain formula; where the ferrule lengthens freely its thicker wall closes on the stem"),
    (published("4.8"), "", "two walls fill the ferrule"),
    (published("24.589") | ONLY, "", "5 %: 17.75 + 0.95 x 7.2 = 24.59 mm"),
    (published("24.591") | ONLY, "", "below 5 %; u of the diameter 0.001 mm allows for 0.03 points"),
    (published("24.593") | ONLY, "", "below 5 % by more than 2 u"),
    (published("21.711") | ONLY, "", "45 %: 17.75 + 0.55 x 7.2 = 21.71 mm"),
    (published("21.709") | ONLY, "", "above 45 % by less than 2 u"),
    (published("21.707") | ONLY, "", "above 45 % by more than 2 u"),
    (published("21.52"), "", "47.6 %, u 1.45 %: 2 u are allowed for"),
    (published("21.48"), "", "48.2 %, u 1.45 %: above 45 % by more than 2 u"),
    (published("21.48") | {"order.uncertainties.hose_outside.amount": "1 mm"}, "", "48.2 %: at most 5 points are allowed for"),
    (published("21.34") | {"order.uncertainties.hose_outside.amount": "1 mm"}, "", "50.1 %: at most 5 points are allowed for"),
    (published("23.869") | ONLY, "", WINDOW),
    (published("23.871") | ONLY, "", WINDOW),
    (published("23.151") | ONLY, "", WINDOW),
    (published("23.149") | ONLY, "", WINDOW),
    (published("22.0") | {"order.joint.ferrule.outside": "23.6 mm"}, "", "41 %; that the ferrule is narrow hides nothing"),
    (published("22.0") | {"order.joint.ferrule.outside": "23.6 mm", "order.range.lower": "0.5 %", "order.range.upper": "25 %"}, "",
     "no window (0.5 % is beyond the ferrule), 41 % is above the range all the same"),
    (published("24.8") | EXACT | {"order.range.lower": "3 %", "order.range.upper": "25 %", "order.joint.ferrule.outside": "24.9 mm"}, "",
     "2.1 % is below the range"),
    (published("23.51") | NO_WINDOW, "", "no window (100 % closes on the stem), 20 % is in the range all the same"),
    (published("23.52") | NO_WINDOW, "", "no window (100 % closes on the stem), 19.9 % is below the range all the same"),
    (published("23.51", tolerance=None), "", "published without a tolerance"),
    (published("23.51", tolerance="0.001 mm") | {"order.gauge.standard_uncertainty": "0.0001 mm", "order.gauge.resolution": None}, "",
     "a tolerance, however small"),
    # nothing is published
    ({"order.published": None}, "", "12.95 + 4.8 + 0.8 x 7.2 = 23.51 mm is computed"),
    ({"order.published": None, "order.aim": "24 %"} | ONLY, "", "23.222 mm; with ends free the wall grows beyond 25 %"),
    ({"order.published": None, "order.uncertainties.hose_outside.amount": "0.15 mm"}, "", "share inside by the exact law, above 95 %"),
    ({"order.published": None, "order.uncertainties.hose_outside.amount": "0.2 mm"}, "", "share inside below 95 %"),
    ({"order.uncertainties.hose_outside.amount": "0.15 mm"}, "", "published: share inside above 95 %"),
    ({"order.uncertainties.hose_outside.amount": "0.2 mm"}, "", "published: share inside below 95 % is good to know"),
    ({"order.published": None, "order.tolerance": None}, "", "limits are the window, narrowed by its own uncertainty"),
    ({"order.published": None, "order.tolerance": None} | EXACT, "", "limits are the window, taken as exact"),
    ({"order.published": None, "order.tolerance": None, "order.uncertainties.hose_outside.amount": "0.6 mm"}, "",
     "of the window nothing is left"),
    ({"order.published": None, "order.tolerance": None, "order.uncertainties.hose_outside.amount": "0.6 mm", "order.guard.without": "true"},
     "", "limits as they are"),
    # the model
    (SOFT | {"order.joint.hose.reinforcement": "1 mm"}, "", "soft wall with its reinforcement"),
    (SOFT, "", "soft wall without its reinforcement: no window"),
    (SOFT | EXACT, "", "soft wall without its reinforcement, uncertainties not given either"),
    (AREA, "", "share of the cross-section: 1 - (18.71^2 - 12.95^2)/(19.9^2 - 12.7^2)"),
    (AREA | published("24.2"), "", "below 15 % of the cross-section"),
    (HELD, "", "ends fixed: 27.6 %"),
    (HELD | {"order.range.lower": "26 %", "order.range.upper": "32 %"}, "", "ends fixed: 27.6 %, u by slopes"),
    (HELD | published("23.099"), "", "ends fixed: 35 % at 23.0984 mm"),
    (HELD | published("23.098"), "", "ends fixed: 35 % at 23.0984 mm"),
    # ferrule and hose; u of hose on the stem minus bore: 0.1272 mm
    ({"order.joint.ferrule.outside": "25.12 mm"}, "", "bore 20.32 mm: wider than the hose on the stem by more than 2 u"),
    ({"order.joint.ferrule.outside": "25.11 mm"}, "", "bore 20.31 mm: by less than 2 u"),
    ({"order.joint.ferrule.outside": "24.61 mm"}, "", "bore 19.81 mm: narrower by less than 2 u"),
    ({"order.joint.ferrule.outside": "24.60 mm"}, "", "bore 19.80 mm: narrower by more than 2 u"),
    ({"order.joint.ferrule.outside": "24.862 mm"} | EXACT, "", "uncertainties not given: 24.8605 mm decides"),
    ({"order.joint.ferrule.outside": "24.859 mm"} | EXACT, "", "uncertainties not given: 24.8605 mm decides"),
    ({"order.joint.stem.outside": "12.7 mm", "order.joint.ferrule.outside": "24.94 mm", "order.published": "23.26 mm"}, "",
     "a stem that does not widen the hose: u 0.1166 mm"),
    ({"order.joint.ferrule.outside": None}, "", "ferrule not measured outside"),
    (EXACT, "", "no uncertainties"),
    (published("23.25") | ONLY, "", "ends free: wall growth, 25 % at 23.363 mm; plain 23.6 %"),
    (published("23.4") | ONLY, "", "ends free: 24.4 %"),
    # press and die
    ({"order.widest": "42 mm"}, "", "22 + 20 mm"),
    ({"order.widest": "42.001 mm"}, "", "22 + 20 mm"),
    ({"order.widest": "20 mm", "press.opening": "3.5 mm"}, "", "ferrule 25.6 mm, not the widest diameter given: 25.599 mm open"),
    ({"press.opening": "3.601 mm"}, "", "ferrule 25.6 mm just passes"),
    ({"press.opening": None}, "", "opening not known"),
    ({"order.joint.ferrule.outside": None, "order.widest": "27 mm"}, "", "widest diameter given, ferrule not measured"),
    ({"press.dial_maximum": "1.55 mm"}, "", "23.51 - 22 + 0.04 = 1.55 mm"),
    ({"press.dial_maximum": "1.54 mm"}, "", "1.55 mm is beyond the dial"),
    ({"press.dial_maximum": "1.54 mm", "press.graduation": "0.1 mm"}, "", "1.6 mm is what the dial would show, beyond its range"),
    ({"press.dial_maximum": "1.58 mm", "press.graduation": "0.2 mm"}, "", "1.55 is rounded to 1.6 mm, beyond the dial"),
    ({"press.correction": "-1.6 mm"}, "", "23.51 - 22 - 1.6 is below zero"),
    ({"press.graduation": "0.5 mm", "order.published": "23.24 mm", "order.tolerance": "0.23 mm"} | ONLY, "", "1.28 is dialled as 1.5: 0.22 mm"),
    ({"press.graduation": "0.5 mm", "order.published": "23.24 mm", "order.tolerance": "0.21 mm"} | ONLY, "", "1.28 is dialled as 1.5: 0.22 mm"),
    ({"press.graduation": "0.5 mm", "order.published": "23.70 mm", "order.tolerance": "0.23 mm"} | ONLY, "", "1.74 is dialled as 1.5: -0.24 mm"),
    ({"order.lobe_maximum": "0.054 mm"}, "", "lobe 0.05390 mm"),
    ({"order.lobe_maximum": "0.0538 mm"}, "", "lobe 0.05390 mm"),
    ({"order.lobe_maximum": "0.0538 mm", "press.segments": "10"}, "", "ten segments: lobe 0.0347 mm"),
    ({"order.tolerance": "0.1079 mm"}, "", "twice the lobe 0.05390 mm"),
    ({"order.tolerance": "0.1077 mm"}, "", "twice the lobe 0.05390 mm"),
    (FROM_WINDOW | {"dies.0.size": "17.5 mm"}, "", "limits from the window, half of it 0.36 mm; twice the lobe 0.342 mm"),
    (FROM_WINDOW | {"dies.0.size": "16 mm"}, "", "limits from the window, half of it 0.36 mm; twice the lobe 0.392 mm"),
    (WIDE | published("31.27"), "", "die 25: gap 6.27 sin 22.5 = 2.3994 mm"),
    (WIDE | published("31.28"), "", "die 25: gap 2.4033 mm beside a wall of 2.4"),
    ({"order.adapter_mounted": "2"}, "", "die 22 mm goes without"),
    ({"dies.2.adapter": "1"}, "", "die 22 mm with adapter set 1"),
    ({"dies.2.adapter": "1", "order.adapter_mounted": "1"}, "", "adapter set 1 is in the press"),
    (ADAPTER | {"order.published": "18.99 mm"}, "", "die 16 mm needs adapter set 1"),
    (ADAPTER | {"order.published": "19 mm"}, "", "die 19 mm needs none"),
    (ADAPTER | {"order.published": "18.99 mm", "order.adapter_mounted": "1"}, "", "it is in the press"),
    (ADAPTER | {"order.published": "18.99 mm", "order.adapter_mounted": "3"}, "", "another one is in the press"),
    (LENGTHS | {"dies.2.length": None}, "", "length of the die not known"),
    (LENGTHS | {"dies.2.length": None, "order.joint.ferrule.length": None}, "", "no length of the ferrule to compare"),
    (LENGTHS | {"order.joint.ferrule.length": "30 mm"}, "", "die 30 mm is as long"),
    (LENGTHS | {"order.joint.ferrule.length": "30.001 mm"}, "", "longer than each die that is near enough"),
    # parts, insertion
    ({"order.approval": "not stated"}, "", "nobody looked"),
    ({"order.approval": "not approved"}, "", "not approved stops"),
    ({"order.insertion": None}, "", "a mark without a depth checks nothing"),
    # the gauge in hand: +-0.15 mm accepts by both tails while u is below 0.15/1.9578
    ({"order.gauge.standard_uncertainty": "0.076 mm"}, "", "Phi(1.65) inside: u up to 0.0766 mm"),
    ({"order.gauge.standard_uncertainty": "0.077 mm"}, "", DANGER + "a gauge that can accept nothing"),
    ({"order.gauge.standard_uncertainty": "0.029 mm", "order.gauge.resolution": None}, "", "5 u below 0.3 mm: guard band"),
    ({"order.gauge.standard_uncertainty": "0.01 mm", "order.gauge.resolution": "0.5 mm"}, "", "no step of the gauge inside"),
    ({"order.gauge.standard_uncertainty": None}, "", "gauge without uncertainty: planned by its step alone; no reading of it is accepted"),
    ({"order.gauge.standard_uncertainty": None, "order.gauge.resolution": None}, "", "gauge without uncertainty; no reading of it is accepted"),
    ({"order.gauge.standard_uncertainty": None, "order.guard.without": "true"}, "", "the limits alone are to decide"),
    ({"order.gauge.correction": "0.02 mm"}, "", "the correction is taken off what the gauge shows"),
    ({"order.gauge.resolution": "0.02 mm"}, "", "rounded inwards to steps of 0.02 mm"),
    ({"order.guard.factor": "2", "order.guard.side": "upper"}, "", "only the upper limit, two standard uncertainties"),
    ({"order.guard.side": "lower"}, "", "only the lower limit"),
    # metal: closing to 23.51 mm springs back by 0.04386 mm, 119.16 MPa x pi x 23.51 x 28 = 246.43 kN
    (FORMED | {"press.capacity": "247 kN"}, "", "246.4 kN"),
    (FORMED | {"press.capacity": "246 kN"}, "", "246.4 kN"),
    (FORMED | {"order.load.hose_pressure": "60 MPa", "press.capacity": "309 kN"}, "", "at 60 MPa the bore yields on release; 308.5 kN all the same"),
    (FORMED | {"order.load.hose_pressure": "60 MPa", "press.capacity": "308 kN"}, "", DANGER + "at 60 MPa the bore yields on release; 308.5 kN"),
    (FORMED | {"order.load.hose_pressure": "150 MPa", "press.capacity": "500 kN"}, "", "half of the yield strength: 494.4 kN"),
    (FORMED | {"order.load.hose_pressure": "151 MPa", "press.capacity": "500 kN"}, "", "beyond half of the yield strength, 494.4 kN there: nobody knows"),
    (FORMED | {"order.load.hose_pressure": "151 MPa", "press.capacity": "494 kN"}, "", "half of the yield strength alone needs 494.4 kN"),
    (FORMED | {"order.load.restraint": None, "press.capacity": "247 kN"}, "", "ends free 203.8 kN, fixed 246.4 kN"),
    (FORMED | {"order.load.restraint": None, "press.capacity": "246 kN"}, "", "ends free 203.8 kN, fixed 246.4 kN: which is it?"),
    (FORMED | {"order.load.restraint": None, "press.capacity": "203 kN"}, "", "ends free 203.8 kN"),
    (FORMED | {"order.load.restraint": None, "order.load.hose_pressure": None, "press.capacity": "185 kN"}, "", "no hose: ends free 147, fixed 184.3 kN: the press allows 0.3 MPa"),
    (FORMED | {"order.load.restraint": None, "order.load.hose_pressure": None, "press.capacity": "184 kN"}, "",
     "no hose: ends free 147, fixed 184.3 kN, and a hose is still to come"),
    (FORMED | {"order.load.restraint": None, "order.load.hose_pressure": None, "press.capacity": "237 kN"}, "", "no hose: 184.3 kN; with 25 MPa 236.1 kN"),
    (FORMED | {"order.load.restraint": None, "order.load.hose_pressure": None, "press.capacity": "236 kN"}, "",
     "no hose: 184.3 kN, but hardly any hose presses less than 25 MPa: 236.1 kN"),
    (FORMED | {"order.load.hose_pressure": None, "press.capacity": "237 kN"}, "", "ends fixed, no squeeze given: with 25 MPa 236.1 kN"),
    (FORMED | {"order.load.hose_pressure": None, "press.capacity": "236 kN"}, "", "ends fixed, no squeeze given: with 25 MPa 236.1 kN"),
    (FORMED | {"order.load.hose_pressure": "1 MPa", "press.capacity": "236 kN"}, "", "a squeeze of 1 MPa was given: 186.4 kN"),
    (FORMED | published("22.047"), "", "closes to 22.004 mm or so: above the die"),
    (FORMED | published("22.03"), "", "would have to close below die 22 mm"),
    (FORMED | {"order.load.hose_pressure": None}, "", "pressure of the hose not known"),
    (FORMED | {"press.correction": None}, "", "no correction measured: springback is to come"),
    (FORMED | {"press.correction": None, "press.correction_measured": "true"}, "", "measured, and found to be 0"),
    (FORMED | {"order.load.restraint": None, "order.joint.ferrule.length": "28.2 mm"}, "", "ends free: longer by 6.2 %: 29.95 mm"),
    (FORMED | {"order.load.restraint": None, "order.joint.ferrule.length": "28.3 mm"}, "", "ends free: 30.05 mm under a die of 30"),
    # bore: 9 mm under 30 MPa becomes smaller by 0.00461 mm (Lamé, ends fixed), under 2.5 times that by 0.01153 mm
    (BORE | {"order.minimum_bore": "8.98 mm"}, "", "margin 0.0154 mm"),
    (BORE | {"order.minimum_bore": "8.988 mm"}, "", "margin 0.0005 mm at 2.5 times the mean pressure"),
    (BORE | {"order.minimum_bore": "8.989 mm"}, "", "margin 0.0064 mm, at 2.5 times the mean pressure none"),
    (BORE | {"order.minimum_bore": "8.995 mm"}, "", "margin 0.0004 mm"),
    (BORE | {"order.minimum_bore": "8.996 mm"}, "", "margin -0.0006 mm"),
    (BORE | {"order.minimum_bore": "9.0004 mm"}, "", DANGER + "bore margin -0.005 mm"),
    (BORE | {"order.minimum_bore": "9 mm", "order.load.hose_pressure": None}, "", "bore as it is, no pressure known"),
    (BORE | {"order.minimum_bore": "9.001 mm", "order.load.hose_pressure": None}, "", "bore too small before it is pressed"),
    (BORE | {"order.load.hose_pressure": "87 MPa"}, "", "first yield 87.26 MPa"),
    (BORE | {"order.load.hose_pressure": "88 MPa"}, "", "first yield 87.26 MPa"),
    (BORE | {"order.load.hose_pressure": "126 MPa"}, "", "full yield 2/sqrt(3) 300 ln(12.95/9) = 126.05 MPa"),
    (BORE | {"order.load.hose_pressure": "126.1 MPa"}, "", DANGER + "the stem yields through its whole wall"),
    (BORE | {"order.load.hose_pressure": "126.1 MPa", "order.minimum_bore": "8 mm"}, "", DANGER + "no bore is left to compare: not the milder remark"),
    (BORE | {"order.load.hose_pressure": "51 MPa", "order.minimum_bore": "8.9 mm"}, "", "127.5 MPa where the reinforcement presses: no bore is left there"),
    # confirmations
    ({"order.approval": "not stated"}, looked_at("approval not stated"), "confirmed as it was looked at"),
    ({"order.approval": "not stated", "order.tolerance": None}, looked_at("approval not stated", tolerance="0"), "one of two"),
    ({"order.approval": "not stated", "order.tolerance": None}, looked_at("no tolerance", "approval not stated", tolerance="0"), "both"),
    ({"order.approval": "not stated"}, looked_at("approval not stated", target="23.5104"), "written down to a thousandth"),
    ({"order.approval": "not stated"}, looked_at("approval not stated", target="23.5106"), "another target"),
    ({"order.approval": "not stated"}, looked_at("approval not stated", tolerance="0.1506"), "another tolerance"),
    ({"order.approval": "not stated"}, looked_at("approval not stated", die="22.0006"), "another die"),
    ({"order.approval": "not stated"}, looked_at("approval not stated", compression="20.04"), "written down to a tenth of a per cent"),
    ({"order.approval": "not stated"}, looked_at("approval not stated", compression="20.06"), "another compression"),
    (published("21", approval="not stated"), looked_at("approval not stated"), DANGER + "confirmed at 20 %, planned at 54.9 %"),
    (published("21", approval="not stated"), looked_at("approval not stated", target="21", die="19", compression="54.861"),
     DANGER + "nothing lifts a stop"),
    (published("23.14") | ONLY, looked_at("published below window", target="23.14", compression="25.139"), "25.1 %: answered for"),
    ({"order.published": None}, looked_at("target computed"), "a trial piece was tested and cut open"),
    ({"order.published": None, "order.uncertainties.hose_outside.amount": "0.2 mm"}, looked_at("target computed"),
     "the measurements are still too uncertain"),
    ({"order.published": None, "order.uncertainties.hose_outside.amount": "0.2 mm"}, looked_at("measurements uncertain", "target computed"), "both"),
    ({"order.approval": "not stated"}, looked_at("approval not stated") + "; " + looked_at("approval not stated", die="19").replace(".0.", ".1."),
     "an old one beside the new one: void, and the new one holds"),
    ({}, looked_at("no tolerance"), "a remark that is not made: nothing changes"),
    ({"order.approval": "not stated"} | NO_DIES, looked_at("approval not stated", die="0"), "no die: confirmed, and stopped all the same"),
]
HEADER = ["arguments", "confirmations", "readiness", "remarks", "confirmed", "zone", "source"]


def rows():
    for changes, confirmations, source in CASES:
        arguments = flat(CLEAN | changes)
        yield [arguments, confirmations, *answer(arguments, confirmations), source]


def main():
    table = list(rows())
    said = [set(row[3].split(", ")) for row in table]
    for remark in ORDER:
        assert any(remark in s for s in said) and any(remark not in s for s in said), remark
    write_or_check("orders.csv", HEADER, table, "--write" in sys.argv)


if __name__ == "__main__":
    main()
