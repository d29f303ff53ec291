# SPDX-License-Identifier: MIT
"""Rows of quantity.h."""
from catalogue.shared import *  # noqa: F403

row("Length", """1 in = 25.4 mm, NIST SP 811, B.8
>>> Length("0.5 in") == inch(0.5) == Length(inch=0.5)
True
>>> f"{Length('0.5 in'):.3f mm}", Length("1 1/4 in").mm
('12.700 mm', 31.75)
>>> 2 * mm(3) + cm(1) < inch(1)
True
""")

row("Ratio", """a length by a length is a ratio
>>> mm(3) / mm(12)
Ratio("25 %")
>>> percent(20).fraction
0.2
""")

row("Pressure", """1 bar = 0.1 MPa; 1 psi = 6.894757 kPa, NIST SP 811, B.8
>>> Pressure("350 bar").mpa, f"{psi(1000):.3f MPa}"
(35.0, '6.895 MPa')
""")

row("Force", """1 kN = 1000 N
>>> Force("1.5 kN").newton
1500.0
""")

row("Area", """10 mm by 10 mm
>>> Area("1 cm2").mm2
100.0
""")

row("Angle", """half a turn is 180 degrees
>>> f"{rad(3.141592653589793):.1f deg}"
'180.0 °'
""")

row("Temperature", """freezing and boiling of water
>>> fahrenheit(212).celsius, celsius(0).fahrenheit
(100.0, 32.0)
""")

row("inch", """1 in = 25.4 mm, NIST SP 811, B.8
>>> inch(1).mm
25.4
""")

row("percent", """20 of 100
>>> percent(20) == Ratio("0.2 fraction")
True
""")

INCH, POUND = mpf("25.4"), mpf("4.4482216152605")

# NIST SP 811 (2008), appendix B.8 and B.9: unit, member of the base, factor
UNITS = [("cm", "mm", 10), ("metre", "mm", 1000), ("micrometre", "mm", mpf(1) / 1000), ("inch", "mm", INCH),
         ("foot", "mm", 12 * INCH), ("thou", "mm", INCH / 1000), ("cm2", "mm2", 100), ("square_inch", "mm2", INCH**2),
         ("kn", "newton", 1000), ("lbf", "newton", POUND), ("tonne_force", "newton", mpf("9806.65")),
         ("bar", "mpa", mpf(1) / 10), ("psi", "mpa", POUND / INCH**2), ("kpa", "mpa", mpf(1) / 1000), ("gpa", "mpa", 1000),
         ("deg", "rad", pi / 180), ("percent", "fraction", mpf(1) / 100), ("per_inch", "per_mm", 1 / INCH)]


@case("units of quantity.h", "ulp", 2)
def units(rng):
    """pi is a double in the factor of the degree: a third rounding."""
    unit, base, factor = rng.choice(UNITS)
    number = rng.choice([-1, 1]) * 10 ** rng.uniform(-12, 12)
    made = getattr(f, unit)(number)
    return {"into the base": (getattr(made, base), mpf(number) * factor),
            "out of the base": (getattr(getattr(f, base)(number), unit), mpf(number) / factor)}


@case("units of quantity.h", "ulp", 2)
def fahrenheit(rng):
    number = rng.uniform(-400, 4000)
    return {"fahrenheit, of the number": (f.fahrenheit(number).celsius, (mpf(number) - 32) * 5 / 9, abs(number) + 32),
            "to fahrenheit, of the number": (f.celsius(number).fahrenheit, mpf(number) * 9 / 5 + 32, abs(number) * 2 + 32)}
