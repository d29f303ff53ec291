# SPDX-License-Identifier: MIT
"""Rows of hoseline.h."""
from catalogue.shared import *  # noqa: F403

row("fer_cut_length", """1250 - 27.5 - 31, by hand
>>> cut_length("1250 mm", HoseEnd("27.5 mm"), HoseEnd("31 mm"))
Length("1191.5 mm")
""", overall=wide(250, 1e5), first=HOSE_END, second=HOSE_END)


@exact("ulp", 1)
def cut_length(overall, first, second):
    return {"length": overall - first.cut_off - first.growth - second.cut_off - second.growth}


row("fer_overall_length", """1191.5 + 27.5 + 31, by hand
>>> overall_length("1191.5 mm", HoseEnd("27.5 mm"), HoseEnd("31 mm"))
Length("1250 mm")
""", cut=wide(1, 1e5), first=HOSE_END, second=HOSE_END)


@exact("ulp", 1)
def overall_length(cut, first, second):
    return {"overall": cut + first.cut_off + first.growth + second.cut_off + second.growth}


row("fer_length_under_pressure", """1250 minus 4 % and plus 2 %, by hand
>>> length_under_pressure("1250 mm", ("-4 %", "2 %"))
LengthRange(lower="1200 mm", upper="1275 mm")
""", length=wide(1, 1e5), change=LENGTH_CHANGE)


@exact("ulp", 2)
def length_under_pressure(length, change):
    return {"lower": length * (1 + change.lower), "upper": length * (1 + change.upper)}


row("fer_length_before_pressure", """1200 is 4 % less than 1250, by hand
>>> length_before_pressure("1200 mm", ("-4 %", "2 %"))
Length("1250 mm")
""", shortest=wide(1, 1e5), change=LENGTH_CHANGE)


@exact("ulp", 2)
def length_before_pressure(shortest, change):
    return {"length": shortest / (1 + change.lower)}


row("fer_find_length_limits", """1250 minus 4 and plus 12 mm, by hand
>>> find_length_limits([LengthRow("25 mm", "1250 mm", "12 mm", "4 mm")], "12 mm", "1250 mm")
LengthRange(lower="1246 mm", upper="1262 mm")
""", rows=[{"bore_maximum": 25.0, "length_maximum": 500.0, "plus": (1, 9), "minus": (1, 9)},
           {"bore_maximum": 25.0, "plus_share": (0.01, 0.03), "minus_share": (0.005, 0.01)}], bore=(6, 25), length=wide(100, 1e4))


@exact("ulp", 2)
def find_length_limits(rows, bore, length):
    first, second = rows
    plus, minus = (first.plus, first.minus) if length <= 500 else (second.plus_share * length, second.minus_share * length)
    return {"lower": length - minus, "upper": length + plus}


row("fer_bend_length", """pi (180 + 23.1/2), by hand; with two straights of 25.4 mm SAE J343 has 652.57 mm (from memory)
>>> f"{bend_length('180 mm', '23.1 mm', '180 deg'):.2f mm}"
'601.77 mm'
""", angle=(0.01, 6.28), **BEND)


@exact("ulp", 2)
def bend_length(bend_radius, hose_outside, angle):
    return {"length": (bend_radius + hose_outside / 2) * angle}


row("fer_find_offset_bend", """1 - cos 60° is half of the offset by the radius of the centre line, 200/200, by hand
>>> bend = find_offset_bend("190 mm", "20 mm", "200 mm")
>>> f"{bend.angle:.2f deg}", f"{bend.run:.2f mm}", f"{bend.length:.2f mm}"
('60.00 °', '346.41 mm', '418.88 mm')
""", offset=wide(0.01, 40), **BEND)


@exact("ulp", 4)
def find_offset_bend(bend_radius, hose_outside, offset):
    r = bend_radius + hose_outside / 2
    angle = 2 * mp.asin(sqrt(offset / (4 * r)))
    return {"angle": angle, "run": 2 * r * sin(angle), "length": 2 * r * angle}


row("fer_moving_bend_length", """pi 191.55 + 100 + 400, by hand
>>> f"{moving_bend_length('180 mm', '23.1 mm', '800 mm', '50 mm'):.2f mm}"
'1101.77 mm'
""", stroke=(0, 2000), straight=(0, 200), **BEND)


@exact("ulp", 3)
def moving_bend_length(bend_radius, hose_outside, stroke, straight):
    return {"length": pi * (bend_radius + hose_outside / 2) + 2 * straight + stroke / 2}


row("fer_find_orientation", """straight along x; from y to z is a quarter turn, clockwise for one who looks along x
>>> points = [Point("0 mm", "0 mm", "0 mm"), Point("500 mm", "0 mm", "0 mm")]
>>> found = find_orientation(points, "180 mm", "20 mm", Point("0 mm", "40 mm", "0 mm"), Point("500 mm", "0 mm", "40 mm"))
>>> found.length, f"{found.angle:.1f deg}"
(Length("500 mm"), '90.0 °')
""", points=ROUTE, bend_radius=(20, 60), hose_outside=(10, 20), first_tip={"x": 0.0, "y": (30, 60), "z": (200, 300)},
    last_tip={"x": (1200, 1500), "y": (700, 900), "z": (0, 900)})


def as_vector(point):
    return matrix([point.x, point.y, point.z])


def inner(a, b):
    return sum(x * y for x, y in zip(a, b))


def cross(a, b):
    return matrix([a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]])


def square_to(v, along):
    return v - along * inner(v, along)


@exact("relative", 1e-13, 0.2)
def find_orientation(points, bend_radius, hose_outside, first_tip, last_tip):
    """By a frame carried in small steps would be slow: by the angle to the normal of each corner's plane, which a corner keeps."""
    p = [as_vector(one) for one in points]
    runs = [b - a for a, b in zip(p, p[1:])]
    r, along = bend_radius + hose_outside / 2, [run / mp.norm(run) for run in runs]
    angles = [mp.acos(inner(a, b)) for a, b in zip(along, along[1:])]
    tangents = [0, *(r * mp.tan(angle / 2) for angle in angles), 0]
    straights = [mp.norm(run) - a - b for run, a, b in zip(runs, tangents, tangents[1:])]

    def bearing(v, reference, axis):
        return atan2(inner(axis, cross(reference, v)), inner(reference, v))

    normals = [cross(a, b) / mp.norm(cross(a, b)) for a, b in zip(along, along[1:])]
    total = bearing(normals[0], square_to(as_vector(first_tip) - p[0], along[0]), along[0])
    total += sum(bearing(after, before, axis) for before, after, axis in zip(normals, normals[1:], along[1:]))
    total += bearing(square_to(as_vector(last_tip) - p[-1], along[-1]), normals[-1], along[-1])
    turn = total - 2 * pi * mp.floor(total / (2 * pi))
    return {"length": sum(straights) + r * sum(angles), "angle": (turn, mpf(100)), "straight_minimum": (min(straights), mpf(1000))}


row("fer_find_twist", """350° is 20° short of 10°, over half a metre
>>> twist = find_twist("350 deg", "10 deg", "500 mm")
>>> f"{twist.angle:.1f deg}", f"{twist.per_metre:.1f deg}"
('-20.0 °', '-40.0 °')
""", made=(0, 3), ordered=(0, 3), length=wide(100, 1e4))


@exact("relative", 1e-15)
def find_twist(made, ordered, length):
    turn = made - ordered
    return {"angle": (turn, mpf(4)), "per_metre": (turn / (length / 1000), mpf(4) / (length / 1000))}


row("fer_find_proof_pressure", """the first coupling has the lowest rating; twice and four times that (EN 853, from memory)
>>> found = find_proof_pressure(Ratings(hose="35 MPa", first="27.5 MPa", second="40 MPa"))
>>> found.working, found.proof_pressure, found.burst
(Pressure("27.5 MPa"), Pressure("55 MPa"), Pressure("110 MPa"))
""", ratings=RATED, factors={"proof_pressure": any_of(0.0, 1.5, 2.5), "burst": any_of(0.0, 3.0, 5.0)})


@exact("ulp", 1)
def find_proof_pressure(ratings, factors):
    working = ratings.asked or min(ratings.hose, ratings.first, ratings.second)
    return {"working": working, "proof_pressure": (factors.proof_pressure or 2) * working, "burst": (factors.burst or 4) * working}


row("fer_end_thrust", """55 MPa on a stem of 12.95 mm: 55 pi 12.95²/4, by hand
>>> f"{end_thrust('55 MPa', '12.95 mm'):.1f N}"
'7244.2 N'
""", pressure=wide(0.01, 4000), seal_diameter=wide(0.01, 1e4))


@exact("ulp", 3)
def end_thrust(pressure, seal_diameter):
    return {"thrust": pressure * pi * seal_diameter**2 / 4}


row("fer_find_grip", """the worked joint at its proof pressure, by hand: 7244 N by 12 MPa on two faces of 34 mm; friction 0.25
>>> grip = find_grip(Holding("55 MPa", "12.95 mm", "34 mm", "12 MPa", ferrule_bore="18.71 mm", ferrule_fixed=True,
...                          friction="25 %"))
>>> f"{grip.friction_needed:.2f %}", f"{grip.friction_grip.value:.0f N}", f"{grip.margin.value:.0f %}", grip.below_thrust
('17.85 %', '10145 N', '140 %', False)
""", holding={"pressure": wide(1, 400), "stem_outside": wide(3, 60), "hose_inside": any_of(0.0, 12.7), "length": wide(5, 100),
              "squeeze": wide(1, 100), "ferrule_bore": plus("stem_outside", 1, 9), "ferrule_fixed": any_of(False, True), "friction": (0.05, 0.6),
              "ferrule_outside": plus("ferrule_bore", 2, 9), "yield_strength": (200, 500)})


@exact("ulp", 8)
def find_grip(holding):
    h = holding
    seal = max(h.stem_outside, h.hose_inside)
    area = pi * h.length * (h.stem_outside + (h.ferrule_bore if h.ferrule_fixed else 0))
    most = 2 / sqrt(mpf(3)) * h.yield_strength * log(h.ferrule_outside / h.ferrule_bore)
    thrust, squeeze = h.pressure * pi * seal**2 / 4, min(h.squeeze, most)
    return {"thrust": thrust, "area": area, "friction_needed": thrust / (squeeze * area),
            "unsealed.value": h.pressure * pi * max(h.ferrule_bore, h.hose_inside)**2 / 4, "friction_grip.value": h.friction * squeeze * area,
            "margin.value": h.friction * squeeze * area / thrust, "squeeze_maximum.value": most, "grip_maximum.value": h.friction * most * area}


row("fer_check_assembly_length", """16 mm of tolerance, 1.65 mm of guard band at each end
>>> [check_assembly_length(f"{length} mm", "1 mm", ("1246 mm", "1262 mm")) for length in (1254, 1247, 1244)]
[<Outcome.PASSED: 1>, <Outcome.UNDECIDED: 3>, <Outcome.FAILED: 2>]
""", judged=DECIDES, measured=(1240, 1270), standard_uncertainty=any_of(0.0, 1.0), limits={"lower": 1246.0, "upper": 1262.0})

row("fer_check_orientation", """5° either way, 0.8° of guard band
>>> [check_orientation(f"{angle} deg", "0.5 deg", "0 deg", "5 deg") for angle in (3, 356, 355, 354)]
[<Outcome.PASSED: 1>, <Outcome.PASSED: 1>, <Outcome.UNDECIDED: 3>, <Outcome.FAILED: 2>]
""", judged=DECIDES, measured=(0, 6), standard_uncertainty=any_of(0.0, 0.01), ordered=(0, 6), tolerance=(0.05, 0.5))
