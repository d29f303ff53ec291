# SPDX-License-Identifier: MIT
"""Rows of compression.h."""
from catalogue.shared import *  # noqa: F403

row("Model", """words of an enum are text or members of its class
>>> Model(flow="ends_free") == Model(flow=Flow.ENDS_FREE) != Model()
True
""")

row("fer_crimped_wall", """ends fixed: (23.51 - sqrt(23.51² - 4 × 2.4 × 23.2))/2, by hand
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", Ferrule("2.4 mm", outside="25.6 mm"))
>>> f"{crimped_wall(joint, '23.51 mm', Model(flow='ends_fixed')):.4f mm}"
'2.6720 mm'
""", joint=JOINT, diameter=CRIMPED, model=MODEL)


@case("fer_crimped_wall", "ulp", 2)
def crimped_wall(rng):
    numbers, j, _, flow, model, _, diameter = crimp(rng, ("none", "ends_fixed"))
    exact = ref.wall_after(mpf(numbers["wall"]), mpf(numbers["outside"]), mpf(diameter), flow)
    return {flow: (f.crimped_wall(j, mm(diameter), model).mm, exact)}


@case("fer_crimped_wall", "relative", 1e-13, 0.1)
def crimped_wall_free(rng):
    numbers, j, _, _, model, _, diameter = crimp(rng, ("ends_free",))
    exact = ref.wall_after(mpf(numbers["wall"]), mpf(numbers["outside"]), mpf(diameter), "ends_free")
    return {"ends_free": (f.crimped_wall(j, mm(diameter), model).mm, exact)}


row("fer_crimp_diameter", """12.95 + 2 × 2.4 + 7.2 × 0.8, by hand
>>> joint = Joint(hose=Hose("12.7 mm", "19.9 mm"), stem=Stem("12.95 mm"), ferrule=Ferrule("2.4 mm", outside="25.6 mm"))
>>> f"{crimp_diameter(joint, '20 %'):.2f mm}"
'23.51 mm'
>>> f"{crimp_diameter(joint, '20 %', Model(flow='ends_free')):.4f mm}"
'23.6936 mm'
""", joint=JOINT, compression=(0.05, 0.375), model=MODEL)


@case("fer_crimp_diameter", "ulp", 2)
def crimp_diameter(rng):
    numbers, _, basis, flow, _, c, diameter = crimp(rng, ("none", "ends_fixed"))
    di, do, s, w, fo = (mpf(numbers[k]) for k in ("di", "do", "s", "wall", "outside"))
    if basis == "area":
        bore = sqrt(s**2 + (do**2 - di**2) * (1 - mpf(c)))
    else:
        walls = ref.fitted_outside(numbers) - s if basis == "fitted wall" and s > di else do - di
        taken = walls - 2 * mpf(numbers["a"]) if basis == "soft wall" else walls
        bore = s + walls - mpf(c) * taken
    exact = sqrt(bore**2 + fo**2 - (fo - 2 * w) ** 2) if flow == "ends_fixed" else bore + 2 * w
    return {f"{basis}, {flow}": (diameter, exact)}


@case("fer_crimp_diameter", "relative", 1e-13, 0.1)
def crimp_diameter_free(rng):
    numbers, j, basis, flow, model, c, diameter = crimp(rng, ("ends_free",))
    # the compression at the exact diameter is c: error of the diameter by the error of the compression and the slope
    miss = ref.compression(numbers, diameter, basis, flow) - mpf(c)
    step = mpf(diameter) * mpf(10) ** -25
    slope = (ref.compression(numbers, mpf(diameter) + step, basis, flow)
             - ref.compression(numbers, diameter, basis, flow)) / step
    return {f"{basis}, free": (diameter, mpf(diameter) - miss / slope)}


row("fer_compression", """(7.2 - 23.51 + 4.8 + 12.95)/7.2, by hand; the second a worked figure
>>> joint = Joint(hose=Hose("12.7 mm", "19.9 mm"), stem=Stem("12.95 mm"), ferrule=Ferrule("2.4 mm", outside="25.6 mm"))
>>> f"{compression(joint, '23.51 mm'):.3f %}"
'20.000 %'
>>> f"{compression(joint, '23.51 mm', Model(flow='ends_fixed')):.3f %}"
'27.557 %'
""", joint=JOINT, diameter=CRIMPED, model=MODEL)


@case("fer_compression", "ulp", 2)
def compression(rng):
    numbers, j, basis, flow, model, _, diameter = crimp(rng, ("none", "ends_fixed"))
    if basis == "area" and numbers["do"] - numbers["di"] < 1e-4 * numbers["do"]:
        return None  # squares of both diameters agree in all but their last digits
    return {f"{basis}, {flow}": (f.compression(j, mm(diameter), model).fraction,
                                 ref.compression(numbers, diameter, basis, flow))}


@case("fer_compression", "relative", 1e-13, 0.1)
def compression_free(rng):
    numbers, j, basis, flow, model, _, diameter = crimp(rng, ("ends_free",))
    exact = ref.compression(numbers, diameter, basis, flow)
    return {f"{basis}, free, of the metal's share": (
        f.compression(j, mm(diameter), model).fraction, exact,
        max(abs(exact), 2 * mpf(numbers["wall"]) / (mpf(numbers["do"]) - mpf(numbers["di"]))))}


row("fer_crimped_length", """a ferrule with its ends fixed cannot lengthen
>>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", Ferrule("2.4 mm", outside="25.6 mm", length="34 mm"))
>>> crimped_length(joint, "23.51 mm", Model(flow="ends_fixed"))
Length("34 mm")
""", joint=JOINT, diameter=CRIMPED, model=MODEL)


@case("fer_crimped_length", "relative", 1e-13, 0.1)
def crimped_length(rng):
    numbers, j, _, _, model, _, diameter = crimp(rng, ("ends_free",))
    return {"ends_free": (f.crimped_length(j, mm(diameter), model).mm, ref.length_after(numbers, diameter))}


row("fer_touch_diameter", """hose on the stem 20.0605 and two walls of 2.4, by hand
>>> f"{touch_diameter(Joint(('12.7 mm', '19.9 mm'), '12.95 mm', '2.4 mm')):.4f mm}"
'24.8605 mm'
""", joint=JOINT, model=MODEL)


@case("fer_touch_diameter", "ulp", 2)
def touch_diameter(rng):
    numbers, j = joint(rng)
    flow = rng.choice(("none", "ends_fixed"))
    w, fo = mpf(numbers["wall"]), mpf(numbers["outside"])
    fitted = ref.fitted_outside(numbers)
    exact = sqrt(fitted**2 + fo**2 - (fo - 2 * w) ** 2) if flow == "ends_fixed" else fitted + 2 * w
    if fitted >= fo - 2 * w:
        exact = fo
    return {flow: (f.touch_diameter(j, f.Model(flow=flow.upper())).mm, exact)}


row("fer_find_compression_slopes", """plain formula: one by the 7.2 mm of both hose walls, by hand
>>> slopes = find_compression_slopes(Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), "23.51 mm")
>>> f"{slopes.diameter:.5f 1/mm}"
'-0.13889 1/mm'
""", joint=JOINT, diameter=CRIMPED, model=MODEL)


@case("fer_find_compression_slopes", "relative", 1e-14, 0.05)
def find_compression_slopes(rng):
    numbers, j, basis, flow, model, _, diameter = crimp(rng)
    if jumps(numbers):
        return None  # the slope of the fitted wall jumps where the stem begins to widen the hose
    found = f.find_compression_slopes(j, mm(diameter), model)
    exact = compression_slopes(numbers, diameter, basis, flow)
    largest = max(abs(value) for value in exact.values()) * thinness(numbers)
    return {f"{name}, of the largest by thinness": (getattr(found, name).per_mm, exact[key], largest) for key, name in SLOPES.items()}


row("fer_find_diameter_slopes", """derivatives of s + 2w + W(1 - c), by hand
>>> slopes = find_diameter_slopes(Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm"), "20 %")
>>> f"{slopes.ferrule_wall:.1f fraction}", f"{slopes.hose_outside:.1f fraction}", f"{slopes.compression:.1f mm}"
('2.0 fraction', '0.8 fraction', '-7.2 mm')
""", joint=JOINT, compression=(0.05, 0.375), model=MODEL)


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
