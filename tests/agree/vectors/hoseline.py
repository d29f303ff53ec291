# SPDX-License-Identifier: MIT
"""Writes hoseline.csv: lengths, bends, orientation, pressures and grip with mpmath at 40 digits; the library is not called.

    python3 tests/agree/vectors/hoseline.py

Run it again only when a row is to be added; the file is committed and read by the tests of every language. A test looks whether it
still is what this script writes. Orientations come from a direction that is carried along the rounded corners in small turns, not from
the library's product of rotations.
"""
import csv
import io
import pathlib

from mpmath import acos, atan2, log, matrix, mp, mpf, nstr, pi, sin, sqrt, tan

mp.dps = 40
HERE = pathlib.Path(__file__).parent
HEADER = ("function", "arguments", "result", "expected", "tolerance", "source")
BY_HAND, MPMATH = "by hand", "tests/agree/vectors/hoseline.py, mpmath 40 digits"
ROWS = []


def add(function, arguments, results, unit="mm", tolerance="1e-10", source=MPMATH):
    for result, value in results.items():
        if isinstance(value, str):
            ROWS.append((function, arguments, result, value, "0", "the rule that is broken"))
        else:
            ROWS.append((function, arguments, result, f"{nstr(mpf(value), 17)} {unit}", f"{tolerance} {unit}", source))


ENDS = "first.cut_off=27.5 mm; second.cut_off=31 mm"
GROWN = ENDS + "; first.growth=1.2 mm; second.growth=1.2 mm"
add("cut_length", f"overall=1250 mm; {ENDS}", {"length": mpf("1191.5")}, source=BY_HAND)
add("cut_length", f"overall=1250 mm; {GROWN}", {"length": mpf("1189.1")}, source=BY_HAND)
add("cut_length", f"overall=49.25 in; {ENDS}", {"length": mpf("49.25") * mpf("25.4") - mpf("58.5")}, source=BY_HAND)
add("cut_length", f"overall=0 mm; {ENDS}", {"length": "status OVERALL_LENGTH_MISSING"})
add("cut_length", f"overall=58 mm; {ENDS}", {"length": "status CUT_LENGTH_NOT_POSITIVE"})
add("cut_length", "overall=1250 mm; first.cut_off=27.5 mm; second.cut_off=0 mm", {"length": "status CUT_OFF_MISSING"})
add("cut_length", "overall=1250 mm; first.cut_off=-1 mm; second.cut_off=31 mm", {"length": "status CUT_OFF_OUT_OF_RANGE"})
add("overall_length", f"cut=1189.1 mm; {GROWN}", {"overall": mpf(1250)}, source=BY_HAND)
add("overall_length", f"cut=-1 mm; {ENDS}", {"overall": "status CUT_LENGTH_OUT_OF_RANGE"})
BRAIDED = "change.lower=-4 %; change.upper=2 %"
add("length_under_pressure", f"length=1250 mm; {BRAIDED}", {"lengths.lower": mpf(1200), "lengths.upper": mpf(1275)}, source=BY_HAND)
add("length_under_pressure", "length=1250 mm; change.lower=2 %; change.upper=-4 %", {"lengths.lower": "status LENGTH_CHANGE_WRONG_ORDER"})
add("length_under_pressure", "length=1250 mm; change.lower=-60 %; change.upper=0 %", {"lengths.lower": "status LENGTH_CHANGE_OUT_OF_RANGE"})
add("length_before_pressure", f"shortest=601.772073 mm; {BRAIDED}", {"length": mpf("601.772073") / mpf("0.96")})
add("length_before_pressure", "shortest=600 mm; change.lower=1 %; change.upper=2 %", {"length": mpf(600)}, source=BY_HAND)

TABLE = ("rows.0.bore_maximum=25 mm; rows.0.length_maximum=630 mm; rows.0.plus=7 mm; rows.0.minus=3 mm; rows.1.bore_maximum=25 mm; "
         "rows.1.length_maximum=1250 mm; rows.1.plus=12 mm; rows.1.minus=4 mm; rows.2.bore_maximum=25 mm; rows.2.length_maximum=8000 mm; "
         "rows.2.plus_share=1.5 %; rows.2.minus_share=0.5 %; rows.3.bore_maximum=50 mm; rows.3.plus=12 mm; rows.3.minus=4 mm")
DIN = "DIN 20066 (from memory)"
for length, bore, lower, upper in ((630, 12, 627, 637), (1250, 12, 1246, 1262), (6000, 25, 5970, 6090), (6000, 32, 5996, 6012)):
    add("find_length_limits", f"{TABLE}; bore={bore} mm; length={length} mm", {"limits.lower": lower, "limits.upper": upper}, source=DIN)
add("find_length_limits", f"{TABLE}; bore=51 mm; length=600 mm", {"limits.lower": "status LENGTH_ROW_MISSING"})
add("find_length_limits", f"{TABLE}; bore=12 mm; length=2 mm", {"limits.lower": "status LENGTH_LIMITS_NOT_POSITIVE"})
add("find_length_limits", "rows.0.plus=7 mm; rows.0.plus_share=1 %; bore=12 mm; length=600 mm", {"limits.upper": "status LENGTH_ROW_TWO_TOLERANCES"})
add("find_length_limits", f"{TABLE}; bore=0 mm; length=600 mm", {"limits.lower": "status HOSE_BORE_MISSING"})

BEND = "bend_radius=180 mm; hose_outside=23.1 mm"
RADIUS = 180 + mpf("23.1") / 2
add("bend_length", f"{BEND}; angle=180 deg", {"length": pi * RADIUS})
add("bend_length", f"{BEND}; angle=90 deg", {"length": pi * RADIUS / 2})
add("bend_length", "bend_radius=180 mm; hose_outside=0 mm; angle=90 deg", {"length": "status HOSE_OUTSIDE_MISSING"})
add("bend_length", f"{BEND}; angle=361 deg", {"length": "status BEND_ANGLE_OUT_OF_RANGE"})
for offset in (1, 200, 500):
    turn = acos(1 - mpf(offset) / (2 * RADIUS))
    add("find_offset_bend", f"{BEND}; offset={offset} mm", {"bend.run": 2 * RADIUS * sin(turn), "bend.length": 2 * RADIUS * turn})
    add("find_offset_bend", f"{BEND}; offset={offset} mm", {"bend.angle": turn}, "rad", "1e-14")
add("find_offset_bend", f"{BEND}; offset=767 mm", {"bend.run": "status BEND_OFFSET_OUT_OF_RANGE"})
add("moving_bend_length", f"{BEND}; stroke=800 mm; straight=50 mm", {"length": pi * RADIUS + 500})
add("moving_bend_length", f"{BEND}; stroke=-1 mm; straight=0 mm", {"length": "status STROKE_OUT_OF_RANGE"})
add("moving_bend_length", "bend_radius=0 mm; hose_outside=23.1 mm; stroke=800 mm; straight=0 mm", {"length": "status BEND_RADIUS_MISSING"})


# ---- orientation: small turns ---------------------------------------------------------------------------------

def inner(a, b):
    return sum(x * y for x, y in zip(a, b))


def cross(a, b):
    return matrix([a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]])


def carried(v, a, b, steps=64):
    """Along an arc from direction a to b: reflected twice for each small turn (double reflection keeps the frame)."""
    angle = acos(inner(a, b))
    before = a
    for step in range(1, steps + 1):
        after = (sin((1 - mpf(step) / steps) * angle) * a + sin(mpf(step) / steps * angle) * b) / sin(angle)
        mirror = before + after
        v = 2 * inner(v, mirror) / inner(mirror, mirror) * mirror - v  # a half turn about the middle direction ...
        v = 2 * inner(v, after) * after - v                            # ... and one about the new direction: the smallest turn
        before = after
    return v


def orientation(points, first_tip, last_tip, radius):
    p = [matrix([mpf(x) for x in point]) for point in points]
    runs = [b - a for a, b in zip(p, p[1:])]
    along = [run / mp.norm(run) for run in runs]
    v = matrix([mpf(x) for x in first_tip]) - p[0]
    v -= inner(v, along[0]) * along[0]
    length = sum(mp.norm(run) for run in runs)
    for a, b in zip(along, along[1:]):
        angle = acos(inner(a, b))
        length -= radius * (2 * tan(angle / 2) - angle)
        v = carried(v, a, b)
    w = matrix([mpf(x) for x in last_tip]) - p[-1]
    w -= inner(w, along[-1]) * along[-1]
    return length, atan2(inner(along[-1], cross(v, w)), inner(v, w)) % (2 * pi)


def route(points, first_tip, last_tip, radius):
    places = "; ".join(f"points.{i}.{axis}={value} mm" for i, point in enumerate(points) for axis, value in zip("xyz", point))
    tips = "; ".join(f"{name}.{axis}={value} mm" for name, tip in (("first_tip", first_tip), ("last_tip", last_tip)) for axis, value in zip("xyz", tip))
    arguments = f"{places}; bend_radius={radius - 10} mm; hose_outside=20 mm; {tips}"
    length, angle = orientation(points, first_tip, last_tip, radius)
    add("find_orientation", arguments, {"orientation.length": length})
    add("find_orientation", arguments, {"orientation.angle": angle}, "rad", "1e-13")
    return arguments


CORNERS = [(0, 0, 0), (400, 0, 0), (400, 300, 0), (400, 300, 250)]
route(CORNERS, (0, 0, 50), (440, 300, 250), 60)
route(CORNERS[::-1], (440, 300, 250), (0, 0, 50), 60)
route([(0, 0, 0), (500, 20, -30), (700, 400, 80), (300, 900, 500), (350, 1400, 900)], (20, 60, 10), (400, 1380, 990), 90)
route([(0, 0, 0), (500, 0, 0)], (0, 40, 0), (500, -20, -20), 60)
BAD = route([(0, 0, 0), (800, 0, 0), (800, 200, 0)], (0, 0, 50), (800, 200, 50), 60)
add("find_orientation", BAD.replace("bend_radius=50", "bend_radius=195"), {"orientation.length": "status ROUTE_STRAIGHT_TOO_SHORT"})
add("find_orientation", BAD.replace("first_tip.z=50", "first_tip.z=0"), {"orientation.angle": "status ELBOW_ALONG_HOSE"})
add("find_orientation", BAD.replace("points.2.x=800 mm", "points.2.x=-9000 mm").replace("points.2.y=200", "points.2.y=1"),
    {"orientation.angle": "status ROUTE_TURNS_BACK"})
for made, ordered, twist in ((100, 90, 10), (350, 10, -20), (10, 350, 20)):
    add("find_twist", f"made={made} deg; ordered={ordered} deg; length=500 mm", {"twist.angle": twist, "twist.per_metre": 2 * twist}, "deg", source=BY_HAND)
add("find_twist", "made=600 deg; ordered=0 deg; length=500 mm", {"twist.angle": "status ELBOW_ANGLE_OUT_OF_RANGE"})

# ---- pressures, thrust, grip ----------------------------------------------------------------------------------

RATED = "ratings.hose=27.5 MPa; ratings.first=35 MPa; ratings.second=40 MPa"
add("find_proof_pressure", RATED, {"pressures.working": mpf("27.5"), "pressures.proof_pressure": 55, "pressures.burst": 110}, "MPa", source="EN 853, 2SN of DN 12 (from memory)")
add("find_proof_pressure", f"{RATED}; ratings.asked=20 MPa; factors.proof_pressure=1.5; factors.burst=3", {"pressures.proof_pressure": 30, "pressures.burst": 60}, "MPa", source=BY_HAND)
add("find_proof_pressure", "ratings.hose=27.5 MPa; ratings.first=35 MPa; ratings.second=0 MPa", {"pressures.proof_pressure": "status RATING_MISSING"})
add("find_proof_pressure", f"{RATED}; ratings.asked=30 MPa", {"pressures.proof_pressure": "status RATING_BELOW_ASKED"})
add("find_proof_pressure", f"{RATED}; ratings.allowed=50 MPa", {"pressures.proof_pressure": "status PROOF_ABOVE_ALLOWED"})
add("find_proof_pressure", f"{RATED}; factors.proof_pressure=0.5", {"pressures.proof_pressure": "status PROOF_FACTOR_OUT_OF_RANGE"})
STEM = mpf("12.95")
for pressure in ("27.5", "55", "110"):
    add("end_thrust", f"pressure={pressure} MPa; seal_diameter=12.95 mm", {"thrust": mpf(pressure) * pi / 4 * STEM**2}, "N", "1e-9")
add("end_thrust", "pressure=55 MPa; seal_diameter=0 mm", {"thrust": "status SEAL_DIAMETER_MISSING"})
HELD = "holding.pressure=55 MPa; holding.stem_outside=12.95 mm; holding.length=34 mm; holding.squeeze=12 MPa"
FIXED = f"{HELD}; holding.ferrule_bore=18.71 mm; holding.ferrule_fixed=true; holding.friction=25 %; holding.ferrule_outside=23.51 mm; " \
        "holding.yield_strength=280 MPa"
THRUST, ON_STEM, ON_BORE = 55 * pi / 4 * STEM**2, pi * STEM * 34, pi * mpf("18.71") * 34
add("find_grip", HELD, {"grip.friction_needed": THRUST / (12 * ON_STEM)}, "fraction", "1e-14")
add("find_grip", FIXED, {"grip.friction_needed": THRUST / (12 * (ON_STEM + ON_BORE)), "grip.margin.value": 3 * (ON_STEM + ON_BORE) / THRUST},
    "fraction", "1e-14")
add("find_grip", FIXED, {"grip.thrust": THRUST, "grip.friction_grip.value": 3 * (ON_STEM + ON_BORE), "grip.unsealed.value": THRUST * (mpf("18.71") / STEM)**2},
    "N", "1e-9")
add("find_grip", FIXED, {"grip.squeeze_maximum.value": 2 / sqrt(mpf(3)) * 280 * log(mpf("23.51") / mpf("18.71"))}, "MPa", "1e-11")
add("find_grip", HELD.replace("squeeze=12", "squeeze=0"), {"grip.thrust": "status SQUEEZE_MISSING"})
add("find_grip", f"{HELD}; holding.ferrule_bore=12 mm", {"grip.thrust": "status FERRULE_BORE_NOT_ABOVE_STEM"})
add("find_grip", f"{HELD}; holding.friction=300 %", {"grip.thrust": "status FRICTION_OUT_OF_RANGE"})


def text():
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADER)
    writer.writerows(ROWS)
    return out.getvalue()


if __name__ == "__main__":
    (HERE / "hoseline.csv").write_text(text(), encoding="utf-8", newline="")
