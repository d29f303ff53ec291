# SPDX-License-Identifier: MIT
"""Writes inspections.csv: may this diameter be accepted? Cases by hand, answers by the rules as they are stated here, with SciPy's normal
distribution and Student's, without the library.

    python3 tests/agree/vectors/decisions/inspections.py [--write]     without --write: looks whether the table is that

Each case is a set-up, published 23.5 mm within 0.2 mm for the worked joint, and the readings of a piece.
"""
import math
import pathlib
import statistics
import sys

from scipy.optimize import brentq
from scipy.stats import norm, t as student

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
from cells import at, flat, guarded, items, millimetres, nest, reading_uncertainty, shown, write_or_check  # noqa: E402

FINDINGS = ["gauge cannot accept", "limits too uncertain", "readings scatter", "too few readings", "gauge taken as exact",
            "limits not stated", "process not used", "near limit", "outlier", "reading outside zone", "compression uncertain",
            "limits narrowed", "limits taken as exact"]
FORBID = {"gauge cannot accept", "limits too uncertain", "too few readings", "gauge taken as exact", "process not used"}
AWAY = norm.isf(0.0005)  # both tails hold 0.1 %


# ---- the set-up: limits, and the window of the measurements with its uncertainty ---------------------------------------------

def plan(tree):
    order = tree["order"]
    inside, outside, stem, wall = (float(at(order, "joint." + path)) for path in
                                   ("hose.inside", "hose.outside", "stem.outside", "ferrule.wall"))
    amounts = [float(at(order, f"uncertainties.{name}.amount")) for name in ("hose_inside", "hose_outside", "stem_outside", "ferrule_wall")]
    lower, upper = (float(x) or y for x, y in ((at(order, "range.lower"), 0.15), (at(order, "range.upper"), 0.25)))

    def end(c):
        return stem + 2 * wall + (outside - inside) * (1 - c)

    def uncertainty(c):
        return math.sqrt(sum((slope * amount) ** 2 for slope, amount in zip((1 - c, 1 - c, 1, 2), amounts)))
    window, own = (end(upper), end(lower)), (uncertainty(upper), uncertainty(lower))
    published, tolerance = float(at(order, "published")), float(at(order, "tolerance"))
    limits = (published - tolerance, published + tolerance) if tolerance else window
    return {"limits": limits, "computed": not tolerance and not published, "window": window, "own": own,
            "applies_to": at(order, "applies_to", "not stated"), "segments": float(at(tree, "press.segments")) or 8}


# ---- readings --------------------------------------------------------------------------------------------------------------------

def over_gap(reading, marks, segments):
    """Nearer to a gap than an eighth of the angle between two; the jaws touch on both sides."""
    if not (at(reading, "angle_known", False) and at(marks, "gap_known", False)):
        return False
    between = 2 * math.pi / (float(at(marks, "segments")) or segments)
    width = float(at(marks, "gap_half_width")) or between / 8
    away = (float(at(reading, "angle")) - float(at(marks, "gap"))) % between
    return min(away, between - away) < width


def is_outlier(values, step):
    """Grubbs, two-sided, 5 %, on the reading farthest from the mean."""
    n = len(values)
    if n < 3 or statistics.stdev(values) == 0:
        return False
    far = max(abs(x - statistics.fmean(values)) for x in values)
    t = student.isf(0.05 / (2 * n), n - 2)
    return far > step and far / statistics.stdev(values) > (n - 1) / math.sqrt(n) * math.sqrt(t * t / (n - 2 + t * t))


# ---- a mean against the limits ---------------------------------------------------------------------------------------------------

def band(k, known, estimated, degrees):
    """Guard band of a mean: the known part by the normal distribution, the estimated one by Student's, in quadrature."""
    return math.hypot(k * known, student.isf(norm.sf(k), degrees) * estimated)


def same_band(k, g, u, degrees):
    """Degrees of freedom with which Student's factor times u is that band; None: the normal distribution."""
    def miss(inverse):
        return student.isf(norm.sf(k), 1 / inverse) * u - g
    if miss(1e-9) >= 0:
        return None
    return 1 / brentq(miss, 1e-9, 1 / degrees + 1e-12, xtol=1e-15)


def judge(value, u, limits, guard, degrees=None):
    """(decision, whether nothing at all can be accepted)"""
    k, side = float(at(guard, "factor")) or 1.65, at(guard, "side", "both")
    lower, upper = limits[0] if side != "upper" else -math.inf, limits[1] if side != "lower" else math.inf
    if at(guard, "without", False) or u == 0:
        return ("accept" if lower <= value <= upper else "reject"), False
    law = student(degrees) if degrees else norm
    g = law.isf(norm.sf(k)) * u
    half, away = (upper - lower) / 2, value - (lower + upper) / 2

    def inside(x):
        return law.cdf((half - x) / u) - law.cdf((-half - x) / u)
    if side != "both" or not degrees and upper - lower >= (2 * k + 1.7) * u:  # one tail alone
        accepted, rejected, empty = lower + g <= value <= upper - g, not lower - g <= value <= upper + g, False
    elif inside(0) < norm.cdf(k):
        accepted, rejected, empty = False, not lower - g <= value <= upper + g, True
    else:
        accepted, rejected, empty = inside(away) >= norm.cdf(k), inside(away) < norm.sf(k), False
    return ("accept" if accepted else "reject" if rejected else "undecided"), empty


def judge_mean(mean, u, estimated, degrees, limits, guard):
    """A mean whose scatter was estimated; also its uncertainty as a normal distribution would have the same band."""
    k = float(at(guard, "factor")) or 1.65
    given = float(at(guard, "degrees_of_freedom"))
    nu = given or (same_band(k, band(k, math.sqrt(max(0, u * u - estimated**2)), estimated, degrees), u, degrees) if degrees else None)
    wide = student.isf(norm.sf(k), nu) * u / k if nu else u
    return *judge(mean, u, limits, guard, nu), wide


def with_process(decision, empty, mean, wide, limits, guard, process, say):
    """A process takes an acceptance away, and never gives one; where the mean is far from it, it is not used."""
    middle, deviation = float(at(process, "mean")), float(at(process, "standard_deviation"))
    if not deviation:
        return decision, empty
    if abs(mean - middle) > AWAY * math.hypot(wide, deviation):
        say(True, "process not used")
        return decision, empty
    weight = deviation**2 / (deviation**2 + wide**2)
    drawn, none = judge(weight * mean + (1 - weight) * middle, math.sqrt(weight) * wide, limits, guard)
    if decision == drawn == "accept":
        return "accept", none
    return ("reject" if decision == "reject" else "undecided"), none


# ---- the rules --------------------------------------------------------------------------------------------------------------------

def inspect(setup, tree):
    gauge, guard, process, marks = (tree.get(name, {}) for name in ("gauge", "guard", "process", "marks"))
    without, side = at(guard, "without", False), at(guard, "side", "both")
    correction, step, own = (float(at(gauge, name)) for name in ("correction", "resolution", "standard_uncertainty"))
    counted = [(i, float(at(r, "diameter")), int(at(r, "section"))) for i, r in enumerate(items(tree, "readings"))
               if at(r, "diameter") and not over_gap(r, marks, setup["segments"])]
    values = [x + correction for _, x, _ in counted]
    found = set()

    def say(applies, finding):
        if applies:
            found.add(finding)

    limits = setup["limits"]
    if setup["computed"] and not without:
        if all(setup["own"]):
            narrowed = guarded(*limits, max(setup["own"]), {k: v for k, v in guard.items() if k not in ("without", "degrees_of_freedom")})
            say(narrowed is None, "limits too uncertain")
            say(narrowed is not None, "limits narrowed")
            limits = tuple(map(float, narrowed or limits))
        else:
            say(True, "limits taken as exact")

    # the mean of the piece
    n, mean = len(values), statistics.fmean(values)
    scatter = statistics.stdev(values) if n > 1 else 0
    u = math.sqrt(own**2 + max(scatter**2 / n, step**2 / 12))
    estimated = max(scatter, step / math.sqrt(12)) / math.sqrt(n)
    decision, empty, wide = judge_mean(mean, u, estimated, n - 1, limits, guard)
    decision, empty = with_process(decision, empty, mean, wide, limits, guard, process, say)
    say(n < 2 and not without, "too few readings")
    say(decision == "undecided", "near limit")

    # single readings
    zone = shown(guarded(*limits, reading_uncertainty(gauge), guard), gauge, guard)
    for _, x, _ in counted:
        say(zone is None or side != "upper" and x < float(zone[0]) - 1e-6 * step or side != "lower" and x > float(zone[1]) + 1e-6 * step,
            "reading outside zone")
    margins = {"both": lambda x: min(x - limits[0], limits[1] - x), "lower": lambda x: x - limits[0], "upper": lambda x: limits[1] - x}
    worst = min(values, key=margins[side])
    of_one = float(reading_uncertainty(gauge))

    if setup["applies_to"] in ("every reading", "not stated"):
        every = setup["applies_to"] == "every reading"
        if every and judge(worst, of_one, limits, guard)[0] == "reject":
            decision = "reject"
        if "reading outside zone" in found:
            say(not every and decision == "accept", "limits not stated")
            decision = "undecided" if decision == "accept" else decision
    elif setup["applies_to"] == "section means":
        sections = [[x for (_, _, place), x in zip(counted, values) if place == section] for section in sorted({s for *_, s in counted})]
        degrees = n - len(sections)
        pooled = math.sqrt(sum((len(s) - 1) * statistics.variance(s) for s in sections if len(s) > 1) / degrees) if degrees else 0
        say(not degrees and not without, "too few readings")
        for section in sections:
            spread = pooled / math.sqrt(len(section))
            u = math.hypot(own, max(spread, step / math.sqrt(12)))
            estimated = max(pooled, step / math.sqrt(12)) / math.sqrt(len(section))
            one = judge_mean(statistics.fmean(section), u, estimated, degrees, limits, guard)[0]
            say(one == "undecided", "near limit")
            decision = "reject" if one == "reject" else "undecided" if one == "undecided" and decision == "accept" else decision

    # what forbids acceptance whatever the readings are
    say(not own and not without, "gauge taken as exact")
    say(zone is None, "gauge cannot accept")
    say(empty and zone is not None, "readings scatter")
    say(is_outlier(values, step), "outlier")
    if found & FORBID and decision == "accept":
        decision = "undecided"
    if all(setup["own"]):
        u = math.sqrt(own**2 + max(scatter**2 / n, step**2 / 12))
        inside = [norm.cdf((end - mean) / math.hypot(e, u)) for end, e in zip(setup["window"], setup["own"])]
        say(inside[1] - inside[0] < 0.95, "compression uncertain")
    return [decision, ", ".join(f for f in FINDINGS if f in found), millimetres(worst)]


# ---- cases ------------------------------------------------------------------------------------------------------------------------

ORDER = {
    "order.joint.hose.inside": "12.7 mm", "order.joint.hose.outside": "19.9 mm", "order.joint.stem.outside": "12.95 mm",
    "order.joint.ferrule.wall": "2.4 mm", "order.published": "23.5 mm", "order.tolerance": "0.2 mm", "dies.0.size": "22 mm", "press.segments": "8"}
EVERY, SECTIONS, MEAN = ({"order.applies_to": word} for word in ("every reading", "section means", "mean"))
WINDOW = {"order.published": None, "order.tolerance": None}
KNOWN = {f"order.uncertainties.{name}.amount": f"{amount} mm" for name, amount in
         (("hose_inside", 0.08), ("hose_outside", 0.1), ("stem_outside", 0.02), ("ferrule_wall", 0.03), ("diameter", 0.05))}
NO_GAUGE = {"gauge.correction": "0 mm"}
GAUGE = {"gauge.standard_uncertainty": "0.01 mm", "gauge.resolution": "0.01 mm"}


def gauge(uncertainty, resolution=None, correction=None):
    given = {"standard_uncertainty": uncertainty, "resolution": resolution, "correction": correction}
    return {f"gauge.{name}": f"{number} mm" if number else None for name, number in given.items()}


def read(*values):
    """Diameters; (diameter, section); None: not taken."""
    cells = {}
    for i, x in enumerate(values):
        diameter, section = x if isinstance(x, tuple) else (x, None)
        cells[f"readings.{i}.diameter"] = f"{diameter or 0} mm"
        if section:
            cells[f"readings.{i}.section"] = str(section)
    return cells


def turned(diameter, angle, i):
    return {f"readings.{i}.diameter": f"{diameter} mm", f"readings.{i}.angle": f"{angle} deg", f"readings.{i}.angle_known": "true"}


def process(mean, deviation):
    return {"process.mean": f"{mean} mm", "process.standard_deviation": f"{deviation} mm"}


GOOD = read("23.50", "23.51", "23.49", "23.50")
DANGER = "must not pass: "
LIMITS = "23.3 to 23.7 mm; gauge and step 0.01 mm: single readings 23.32 to 23.68 mm"
# order, piece, why
CASES = [
    ({}, GOOD | GAUGE, "all is well"),
    (EVERY, GOOD | GAUGE, "all is well"), (SECTIONS, GOOD | GAUGE, "all is well"), (MEAN, GOOD | GAUGE, "all is well"),
    # what the limits apply to
    ({}, read(*["23.28", "23.72"] * 4) | GAUGE, DANGER + "a good mean of readings that are all outside"),
    (EVERY, read(*["23.28", "23.72"] * 4) | GAUGE, DANGER + "a good mean of readings that are all outside; they lie outside by the guard band"),
    (MEAN, read(*["23.28", "23.72"] * 4) | GAUGE, "the mean is meant: scatter 0.235 mm of eight"),
    (MEAN, read(*["23.40", "23.60"] * 4) | GAUGE, "the mean is meant: scatter 0.107 mm of eight"),
    ({}, read("23.68", "23.50", "23.50", "23.50", "23.50") | GAUGE, LIMITS),
    ({}, read("23.69", "23.50", "23.50", "23.50", "23.50") | GAUGE, LIMITS),
    ({}, read("23.32", "23.50", "23.50", "23.50", "23.50") | GAUGE, LIMITS),
    ({}, read("23.31", "23.50", "23.50", "23.50", "23.50") | GAUGE, LIMITS),
    (EVERY, read("23.69", "23.50", "23.50", "23.50", "23.50") | GAUGE, LIMITS),
    (EVERY, read("23.71", "23.50", "23.50", "23.50", "23.50") | GAUGE, LIMITS + "; rejected from 23.7172 mm"),
    (EVERY, read("23.72", "23.50", "23.50", "23.50", "23.50") | GAUGE, LIMITS + "; rejected from 23.7172 mm"),
    (EVERY, read("23.28", "23.50", "23.50", "23.50", "23.50") | GAUGE, LIMITS + "; rejected below 23.2828 mm"),
    ({}, read("23.72", "23.50", "23.50", "23.50", "23.50") | GAUGE, "not stated: the mean alone does not reject"),
    (MEAN, read("23.69", "23.50", "23.50", "23.50", "23.50") | GAUGE, "the mean is meant"),
    (SECTIONS, read(("23.50", 0), ("23.52", 0), ("23.62", 1), ("23.64", 1)) | GAUGE, "taper: both sections inside"),
    (SECTIONS, read(("23.50", 0), ("23.52", 0), ("23.66", 1), ("23.68", 1)) | GAUGE, "the second section is near the limit"),
    (SECTIONS, read(("23.48", 0), ("23.50", 0), ("23.80", 1), ("23.82", 1)) | GAUGE, DANGER + "mean 23.65 mm, the second section is outside"),
    (MEAN, read(("23.40", 0), ("23.42", 0), ("23.72", 1), ("23.74", 1)) | GAUGE, "sections 23.41 and 23.73: scatter of four"),
    (SECTIONS, read(("23.40", 0), ("23.55", 1)) | GAUGE, "one reading at each section: nothing shows how they scatter"),
    (SECTIONS, read(("23.49", 0), ("23.50", 0), ("23.55", 1)) | GAUGE, "two at one section"),
    # the mean near its limits: guard band hypot(1.65 u_B, t u_A) = 0.0174 mm for four equal readings
    (MEAN, read(*["23.68"] * 4) | GAUGE, "0.02 mm inside"),
    (MEAN, read(*["23.68"] * 4) | GAUGE | {"guard.factor": "2"}, "0.02 mm inside, two standard uncertainties"),
    (MEAN, read(*["23.69"] * 4) | GAUGE, "0.01 mm inside"),
    (MEAN, read(*["23.71"] * 4) | GAUGE, "0.01 mm outside"),
    (MEAN, read(*["23.72"] * 4) | GAUGE, "0.02 mm outside"),
    (MEAN, read(*["23.32"] * 4) | GAUGE, "0.02 mm inside"),
    (MEAN, read(*["23.31"] * 4) | GAUGE, "0.01 mm inside"),
    (MEAN, read(*["23.28"] * 4) | GAUGE, "0.02 mm outside"),
    (MEAN, read("23.65", "23.66") | GAUGE, "two readings: Student's factor 6.4 for u_A = 0.005 mm"),
    (MEAN, read("23.66", "23.67") | GAUGE, "two readings: Student's factor 6.4 for u_A = 0.005 mm"),
    (MEAN, read(*["23.66", "23.67"] * 4) | GAUGE, "the same scatter of eight readings"),
    (MEAN, read("23.66", "23.68", "23.66", "23.68") | GAUGE, "four of 0.0115 mm scatter"),
    (MEAN, read("23.67", "23.69", "23.67", "23.69") | GAUGE, "four of 0.0115 mm scatter"),
    (MEAN, read("23.67", "23.69", "23.67", "23.69") | GAUGE | {"guard.degrees_of_freedom": "30"}, "the guard has its own degrees of freedom"),
    (MEAN, read(*["23.68"] * 4) | GAUGE | {"guard.factor": "3"}, "three standard uncertainties"),
    (MEAN, read(*["23.68"] * 4) | GAUGE | {"guard.factor": "1"}, "one standard uncertainty"),
    # far outside is a verdict
    (MEAN, read("26.00", "26.00", "26.01", "26.00") | GAUGE, DANGER + "a diameter above the upper limit is rejected, never crimped again"),
    ({}, read("26.00", "26.00", "26.01", "26.00") | GAUGE, DANGER + "a diameter above the upper limit"),
    (EVERY, read("20.00", "20.01") | GAUGE, DANGER + "far below"),
    ({}, read("23.90", "23.91", "23.90") | gauge("0.2", "0.01"), "outside, by a gauge that accepts nothing and rejects nothing near"),
    ({}, read("26.90", "26.91", "26.90") | gauge("0.2", "0.01"), "far outside, by a gauge that accepts nothing"),
    ({}, read("20.0", "27.0", "21.0", "26.5") | GAUGE, "readings of 3.6 mm scatter"),
    # doubts
    ({}, read("23.50") | GAUGE, "one reading shows no scatter"),
    (EVERY, read("23.50") | GAUGE, "one reading shows no scatter"),
    ({}, read("23.50", None) | GAUGE, "the second was not taken"),
    ({}, read("23.80") | GAUGE, "one reading may reject"),
    ({}, read("23.50") | GAUGE | {"guard.without": "true"}, "the limits alone are to decide"),
    ({}, GOOD | NO_GAUGE, DANGER + "gauge without uncertainty"),
    (MEAN, GOOD | gauge(None, "0.01"), DANGER + "gauge without uncertainty: its step alone"),
    (EVERY, GOOD | NO_GAUGE | {"guard.without": "true"}, "without a guard band: the limits alone are to decide"),
    ({}, read("23.70", "23.70") | NO_GAUGE | {"guard.without": "true"}, "on the limit is inside"),
    ({}, read("23.701", "23.70") | NO_GAUGE | {"guard.without": "true"}, "mean and reading just outside"),
    ({}, GOOD | gauge("0.10", "0.01"), "both tails: u 0.10 up to 0.2/1.9578"),
    ({}, GOOD | gauge("0.103", "0.01"), "both tails: u above 0.2/1.9578 accepts nothing"),
    (MEAN, GOOD | gauge("0.103", "0.01"), "nor of a mean"),
    ({}, read("23.50", "23.50", "23.50", "23.50", "23.50", "23.50", "23.60") | GAUGE, "Grubbs: an outlier is named, and decides nothing"),
    ({}, read("23.50", "23.50", "23.50", "23.51") | GAUGE, "a deviation of one step is no outlier"),
    ({}, read("23.50", "23.51", "23.49", "23.52", "23.50", "23.49", "23.58") | GAUGE, "Grubbs: 0.066/0.0318 = 2.13 against 2.02"),
    # the gauge's correction
    ({}, read("23.66", "23.66", "23.67", "23.66") | gauge("0.01", "0.01", "0.02"), "zone as shown: up to 23.66 mm"),
    ({}, read("23.65", "23.65", "23.66", "23.65") | gauge("0.01", "0.01", "0.02"), "zone as shown: up to 23.66 mm"),
    # one limit alone
    (MEAN, read("24.50", "24.51", "24.50") | GAUGE | {"guard.side": "lower"}, "only the lower limit"),
    (MEAN, read("23.31", "23.30", "23.31") | GAUGE | {"guard.side": "lower"}, "near the lower limit"),
    (EVERY, read("23.00", "23.01", "23.00") | GAUGE | {"guard.side": "upper"}, "only the upper limit"),
    (EVERY, read("23.00", "23.01", "23.75") | GAUGE | {"guard.side": "upper"}, "only the upper limit, one reading beyond it"),
    # a process
    (MEAN, GOOD | GAUGE | process("23.5", "0.02"), "as the process makes them"),
    (MEAN, read(*["23.69"] * 4) | GAUGE | process("23.5", "0.1"), "a process never gives an acceptance"),
    (MEAN, read(*["23.68"] * 4) | GAUGE | process("23.8", "0.04"), "a process takes one away"),
    (MEAN, read(*["23.72"] * 4) | GAUGE | process("23.5", "0.08"), "nor does it lift a rejection"),
    ({}, read(*["26.00"] * 4) | GAUGE | process("23.5", "0.005"), DANGER + "four readings of 26 mm are not those of this process"),
    (MEAN, read(*["23.58"] * 4) | GAUGE | process("23.5", "0.025"), "3.2905 of hypot(0.0105, 0.025) = 0.0892 mm away it is used"),
    (MEAN, read(*["23.59"] * 4) | GAUGE | process("23.5", "0.025"), "3.2905 of hypot(0.0105, 0.025) = 0.0892 mm away it is not"),
    # limits from the measurements: window 23.15 to 23.87 mm
    (WINDOW, read(*["23.51"] * 3) | GAUGE, "window taken as exact"),
    (WINDOW | KNOWN, read(*["23.51"] * 3) | GAUGE, "window narrowed by 1.65 x 0.1266 mm"),
    (WINDOW, read(*["23.82"] * 3) | GAUGE, "window taken as exact"),
    (WINDOW | KNOWN, read(*["23.82"] * 3) | GAUGE, DANGER + "inside the window, and not surely inside its range of compression"),
    (WINDOW | KNOWN, read(*["23.64"] * 3) | GAUGE, "narrowed to 23.359 to 23.661 mm: guard band 0.0195"),
    (WINDOW | KNOWN, read(*["23.65"] * 3) | GAUGE, "narrowed to 23.359 to 23.661 mm: guard band 0.0195"),
    (WINDOW | KNOWN | {"order.uncertainties.hose_outside.amount": "0.6 mm"}, read(*["23.51"] * 3) | GAUGE, "nothing is left of the window"),
    (WINDOW | KNOWN, read(*["23.82"] * 3) | GAUGE | {"guard.without": "true"}, "the limits as they are"),
    (KNOWN, GOOD | GAUGE, "given limits stay; the compression is in its range by 99.5 %"),
    (KNOWN, read(*["23.66"] * 4) | GAUGE, "given limits stay; compression in its range by 95 % up to 23.662 mm"),
    (KNOWN, read(*["23.67"] * 4) | GAUGE, "given limits stay; compression in its range by 95 % up to 23.662 mm"),
    # readings over gaps
    ({}, turned("23.50", "22.5", 0) | turned("23.51", "67.5", 1) | turned("23.20", "0", 2) | turned("23.21", "45", 3)
     | {"marks.gap_known": "true"} | GAUGE, "two readings over gaps are left out: lobes are not errors"),
    ({}, turned("23.50", "22.5", 0) | turned("23.51", "67.5", 1) | turned("23.20", "6", 2) | {"marks.gap_known": "true"} | GAUGE,
     "6 degrees from a gap counts (5.625)"),
    ({}, turned("23.50", "22.5", 0) | turned("23.51", "67.5", 1) | turned("23.20", "5", 2) | {"marks.gap_known": "true"} | GAUGE,
     "5 degrees from a gap does not (5.625)"),
    ({}, turned("23.50", "22.5", 0) | turned("23.51", "67.5", 1) | turned("23.20", "0", 2) | GAUGE, "where no gap is marked all count"),
]
HEADER = ["order", "arguments", "decision", "findings", "worst", "source"]


def rows():
    for changes, piece, source in CASES:
        order, arguments = flat(ORDER | changes), flat(piece)
        yield [order, arguments, *inspect(plan(nest(order)), nest(arguments)), source]


def main():
    table = list(rows())
    found = [set(row[3].split(", ")) for row in table]
    for finding in FINDINGS:
        assert any(finding in f for f in found) and any(finding not in f for f in found), finding
    write_or_check("inspections.csv", HEADER, table, "--write" in sys.argv)


if __name__ == "__main__":
    main()
