# SPDX-License-Identifier: MIT
"""Rows of lobe.h."""
from catalogue.shared import *  # noqa: F403

row("fer_lobe_height", """worked figure
>>> f"{lobe_height('23.51 mm', '22 mm', 8):.4f mm}"
'0.0539 mm'
""", die_size=(15, 30), diameter=plus("die_size", 0.5, 2), segments=(3, 16))


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


row("fer_crimp_shape", """gap (23.51 - 22) sin 22.5°, by hand; the others worked figures
>>> shape = crimp_shape("23.51 mm", "22 mm", 8)
>>> f"{shape.gap:.4f mm}", f"{shape.arcs_diameter:.3f mm}", f"{shape.tape_diameter:.3f mm}"
('0.5779 mm', '23.474 mm', '23.471 mm')
""", die_size=(15, 30), diameter=plus("die_size", 0.5, 2), segments=(3, 16))


@case("fer_crimp_shape", "ulp", 2)
def crimp_shape(rng):
    diameter, size, n = die(rng)
    found, exact = f.crimp_shape(mm(diameter), mm(size), n), exact_shape(diameter, size, n)
    if diameter == size:
        exact["gap"] = exact["lobe_height"] = mpf(0)
    results = {name: (getattr(found, name).mm, value) for name, value in exact.items() if name != "edge_angle"}
    results["edge_angle"] = (found.edge_angle.rad, exact["edge_angle"])
    return results


row("fer_arc_radius", """over the middle of a segment half the diameter
>>> f"{arc_radius('23.51 mm', '22 mm', 8, '0 deg'):.3f mm}"
'11.755 mm'
""", die_size=(15, 30), diameter=plus("die_size", 0.5, 2), segments=(3, 16), angle=(-0.15, 0.15))


@case("fer_arc_radius", "ulp", 2)
def arc_radius(rng):
    diameter, size, n = die(rng)
    edge = f.crimp_shape(mm(diameter), mm(size), n).edge_angle.rad
    angle = edge * rng.choice([0.0, 1.0 - 1e-15, -1.0 + 1e-15, rng.uniform(-1, 1)])
    delta, r, t = (mpf(diameter) - mpf(size)) / 2, mpf(size) / 2, mpf(angle)
    return {"radius": (f.arc_radius(mm(diameter), mm(size), n, f.rad(angle)).mm,
                       delta * cos(t) + sqrt(r**2 - (delta * sin(t)) ** 2))}


row("fer_jaws_reading", """over the middles of facing segments the diameter itself
>>> f"{jaws_reading('23.51 mm', '22 mm', 8, '0 deg'):.2f mm}"
'23.51 mm'
""", die_size=(15, 30), diameter=plus("die_size", 0.5, 2), segments=(3, 16), angle=(-7, 7))


@case("fer_jaws_reading", "relative", 1e-12)
def jaws_reading(rng):
    diameter, size, n = die(rng)
    angle = rng.uniform(-4, 4) * math.pi
    big, d, a = mpf(diameter), mpf(size), pi / n

    def from_middle(t):
        return abs(t - 2 * a * mp.nint(t / (2 * a)))
    exact = d + (big - d) * (cos(from_middle(mpf(angle))) + cos(from_middle(mpf(angle) + pi))) / 2
    return {"reading": (f.jaws_reading(mm(diameter), mm(size), n, f.rad(angle)).mm, exact)}


row("fer_lobe_offset", """the worked figure of lobe_height(), backwards
>>> f"{lobe_offset('22 mm', 8, '0.0539 mm'):.2f mm}"
'1.51 mm'
""", die_size=(15, 30), segments=(3, 16), height=(0.01, 0.1))


@case("fer_lobe_offset", "relative", 1e-13)
def lobe_offset(rng):
    _, size, n = die(rng)
    greatest = size * math.sin(math.pi / n / 2) ** 2
    height = greatest * min(share(rng), 0.9)
    h, d = mpf(height), mpf(size)
    return {"offset, up to 0.9 of the greatest": (f.lobe_offset(mm(size), n, mm(height)).mm,
                                                  h * (d - h) / (d * sin(pi / n / 2) ** 2 - h))}


row("fer_gap_offset", """0.5 × 2.4/sin 22.5°, by hand
>>> f"{gap_offset('2.4 mm', 8, '50 %'):.4f mm}"
'3.1358 mm'
""", wall=(0.5, 3), segments=(3, 16), share=(0, 1))


@case("fer_gap_offset", "ulp", 2)
def gap_offset(rng):
    wall, n, beta = length(rng), rng.randint(3, 64), rng.choice([0.0, 100.0, 10 ** rng.uniform(-9, 2)])
    return {"offset": (f.gap_offset(mm(wall), n, f.fraction(beta)).mm, mpf(beta) * mpf(wall) / sin(pi / n))}


row("fer_find_equivalent_crimp", """(7.2 - 23.47389 + 4.8 + 12.95)/7.2, by hand with the worked figure of crimp_shape()
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
>>> f"{find_equivalent_crimp(joint, '23.51 mm', '22 mm', 8).compression:.2f %}"
'20.50 %'
""", joint=JOINT, diameter=CRIMPED, die_size=plus("diameter", -0.3, 0), segments=(4, 12), model=MODEL)


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
