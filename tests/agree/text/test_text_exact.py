# SPDX-License-Identifier: MIT
"""Module `text` against exact fractions.

The reference is Python's own arithmetic on whole numbers: a Fraction has no rounding, and the quotient of two
whole numbers is a correctly rounded double. The factors of the units are written here once more, from their
definitions (NIST SP 811, from memory), so that a wrong factor in the library is seen too.

Use: test_text_exact.py PROGRAM [CASES], where PROGRAM is built from tests/agree/text/text_rows.c.
"""
import math
import random
import subprocess
import sys
import unicodedata
from fractions import Fraction


def arctangent_of_inverse(n, one):
    """arctan(1/n) in units of 1/one, by its series."""
    term = one // n
    total, k, sign = term, 3, -1
    while term:
        term //= n * n
        total += sign * (term // k)
        k, sign = k + 2, -sign
    return total


def pi(digits=1200):
    """Machin's formula: pi/4 = 4 arctan(1/5) - arctan(1/239)."""
    one = 10 ** (digits + 10)
    return Fraction(4 * (4 * arctangent_of_inverse(5, one) - arctangent_of_inverse(239, one)), one)


INCH = Fraction("25.4")
POUND_FORCE = Fraction("0.45359237") * Fraction("9.80665")
FACTORS = {
    "mm": 1, "cm": 10, "metre": 1000, "micrometre": Fraction(1, 1000),
    "inch": INCH, "foot": 12 * INCH, "thou": INCH / 1000,
    "mm2": 1, "cm2": 100, "square_inch": INCH**2,
    "newton": 1, "kn": 1000, "lbf": POUND_FORCE, "tonne_force": Fraction("9806.65"),
    "mpa": 1, "bar": Fraction(1, 10), "psi": POUND_FORCE / INCH**2, "kpa": Fraction(1, 1000), "gpa": 1000,
    "rad": 1, "deg": pi() / 180,
    "fraction": 1, "percent": Fraction(1, 100),
    "celsius": 1, "fahrenheit": Fraction(5, 9),
    "per_mm": 1, "per_inch": 1 / INCH,
}
ZEROS = {"fahrenheit": 32}


def nearest(exact):
    """The double nearest to a fraction, ties to even; infinity beyond all doubles."""
    try:
        return exact.numerator / exact.denominator
    except OverflowError:
        return math.inf if exact > 0 else -math.inf


def base_of(number, unit):
    return (number - ZEROS.get(unit, 0)) * FACTORS[unit]


def number_of(base, unit):
    return base / FACTORS[unit] + ZEROS.get(unit, 0)


def some_double(dice):
    if dice.random() < 0.5:
        return dice.choice((-1, 1)) * math.ldexp(dice.randint(1, 2**53 - 1), dice.randint(-1074, 971))
    if dice.random() < 0.3:
        return dice.choice((-1, 1)) * math.ldexp(1.0, dice.randint(-1074, 1023))
    return round(dice.uniform(-1000, 1000), dice.randint(0, 6))


def some_digits(dice, maximum):
    return "".join(dice.choice("0123456789") for _ in range(dice.randint(1, maximum)))


def plain_case(dice, unit):
    del unit
    digits = some_digits(dice, 400 if dice.random() < 0.02 else 25)
    point = dice.randint(0, len(digits))
    text = digits[:point] + "." + digits[point:]
    if dice.random() < 0.5:
        text += "e%d" % dice.randint(-400, 400)
    return text, Fraction(text)


def short_case(dice, unit):
    """About the border of what the library does with one double division."""
    del unit
    text = "%de%d" % (dice.randint(1, 10 ** dice.randint(1, 16)), dice.randint(-18, 18))
    return text, Fraction(text)


VULGAR = {c: Fraction(unicodedata.numeric(c)).limit_denominator(10) for c in "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}


def vulgar_case(dice, unit):
    """Fractions of one character, with their values out of Python's own table of Unicode, and the typographic bar."""
    del unit
    whole, character = dice.randint(0, 10 ** dice.randint(0, 20)), dice.choice(list(VULGAR))
    if dice.random() < 0.3:
        return character, VULGAR[character]
    if dice.random() < 0.3:
        return "%d\N{FRACTION SLASH}7" % whole, Fraction(whole, 7)
    return "%d%s%s" % (whole, dice.choice(("", " ", "-", "\N{NO-BREAK SPACE}")), character), whole + VULGAR[character]


def fraction_case(dice, unit):
    del unit
    maximum = 120 if dice.random() < 0.1 else dice.choice((2, 3, 12, 22))
    upper, lower = int(some_digits(dice, maximum)), int(some_digits(dice, maximum)) + 1
    if dice.random() < 0.5:
        return "%d/%d" % (upper, lower), Fraction(upper, lower)
    whole = some_digits(dice, maximum)
    return "%s%s%d/%d" % (whole, dice.choice(" -"), upper % lower, lower), int(whole) + Fraction(upper % lower, lower)


def near_tie_case(dice, unit):
    """The middle between two doubles, to at most 60 more digits, and its neighbours on either side."""
    x = abs(some_double(dice))
    middle = (Fraction(x) + Fraction(math.nextafter(x, math.inf) if x < 1e308 else x)) / 2
    number = abs(number_of(middle, unit))
    places = 60 - (len(str(number.numerator)) - len(str(number.denominator)))
    if places > 400:
        return plain_case(dice, unit)
    digits = math.floor(number * Fraction(10) ** places) + dice.choice((0, 0, 1, -1))
    if digits < 0 or len(str(digits)) > 400:
        return plain_case(dice, unit)
    return "%de%d" % (digits, -places), digits / Fraction(10) ** places


def in_some_case(dice, symbol):
    """In capitals, where they cannot be taken for another unit: a single letter may."""
    return symbol.upper() if dice.random() < 0.3 and len(symbol) > 1 and symbol.isascii() else symbol


def parse_case(dice, kind, unit, symbol):
    text, number = dice.choice((plain_case, short_case, fraction_case, vulgar_case, near_tie_case, near_tie_case))(dice, unit)
    if dice.random() < 0.3:
        text, number = "-" + text, -number
    expected = nearest(base_of(number, unit)) + 0.0

    def check(answer):
        status, _, value = answer.split()
        if math.isinf(expected):
            return status == "TEXT_NUMBER_TOO_LARGE"
        return status == "OK" and float.fromhex(value) == expected

    is_comma = dice.random() < 0.3
    text = text.replace(".", ",") if is_comma else text
    return "%s %s %s %s" % ("c" if is_comma else "p", kind, text, in_some_case(dice, symbol)), check, "%r" % expected


def fixed_case(dice, kind, unit, symbol):
    del kind
    x, decimals = some_double(dice), dice.randint(0, 30)
    if dice.random() < 0.3:  # on a tie or very near to one
        tie = Fraction(2 * dice.randint(0, 10**6) + 1, 2 * 10 ** dice.randint(0, 6))
        x, decimals = nearest(base_of(tie, unit)), dice.randint(0, 6)
    if unit == "deg" and abs(x) > 1e30:
        x = math.fmod(x, 1e30)  # the library's pi has 77 digits, so that a text of 300 digits cannot be exact
    scaled = round(number_of(Fraction(x), unit) * 10**decimals)  # half to even
    digits = str(abs(scaled)).rjust(decimals + 1, "0")
    split = len(digits) - decimals
    expected = "-" * (scaled < 0) + digits[:split] + ("." + digits[split:] if decimals else "") + " " + symbol
    return "f %s %d %s" % (unit, decimals, x.hex()), lambda answer: answer == "OK " + expected, expected


def interval_of(x):
    """All fractions that read as x: both ends, and whether they belong to it."""
    size = abs(x)
    above = math.nextafter(size, math.inf)
    above = Fraction(above) if above < math.inf else Fraction(2) ** 1024
    below = Fraction(math.nextafter(size, 0.0))
    ends = sorted((Fraction(size) + side) / 2 * (1 if x > 0 else -1) for side in (below, above))
    even = math.frexp(size)[0] * 2**53 % 2 == 0 if size >= 2.0**-1022 else size / 5e-324 % 2 == 0
    return ends, even


def is_shortest(text, x, unit):
    """Whether text reads as x, no number of fewer digits does, and none of as many digits is nearer."""
    number, exact = Fraction(text), number_of(Fraction(x), unit)
    if nearest(base_of(number, unit)) != x or "e" in text:
        return False
    low, high = sorted(number_of(end, unit) for end in interval_of(x)[0])
    even = interval_of(x)[1]
    within = (lambda y: low <= y <= high) if even else (lambda y: low < y < high)
    if number == 0 or not within(number):
        return within(number)
    digits = text.strip("-").replace(".", "").strip("0")
    last = Fraction(10) ** (-len(text.split(".")[1]) if "." in text else len(text) - len(text.rstrip("0")))
    if number % (10 * last) == 0 or number % last != 0 or not digits:
        return False
    coarse = 10 * last
    if any(within(y) for y in (math.floor(exact / coarse) * coarse, math.ceil(exact / coarse) * coarse)):
        return False
    others = (number - last, number + last)
    return all(abs(number - exact) <= abs(y - exact) for y in others if within(y))


def parts_case(dice, kind, unit, symbol):
    """The nearest fraction of 2 to 128 parts, in lowest terms."""
    del kind
    x, parts = some_double(dice), 2 ** dice.randint(1, 7)
    if dice.random() < 0.4:  # on a tie or very near to one
        x = nearest(base_of(Fraction(dice.randint(-10**4, 10**4), 2 * parts), unit))
    if unit == "deg" and abs(x) > 1e30:
        x = math.fmod(x, 1e30)
    count = round(number_of(Fraction(x), unit) * parts)  # half to even
    whole, rest = divmod(abs(count), parts)
    words = ([str(whole)] if whole or not rest else []) + ([str(Fraction(rest, parts))] if rest else [])
    expected = "-" * (count < 0) + " ".join(words) + " " + symbol
    return "f %s %d %s" % (unit, -1000 - parts, x.hex()), lambda answer: answer == "OK " + expected, expected


def shortest_case(dice, kind, unit, symbol):
    del kind
    x = some_double(dice)
    if dice.random() < 0.3:
        x = nearest(base_of(Fraction(some_digits(dice, 6)) / 10 ** dice.randint(0, 6), unit))
    if unit == "fahrenheit" and dice.random() < 0.2:
        x = -math.ldexp(1.0, dice.randint(-60, 4))  # the narrow side of a power of two is the other one here
    if x == 0:
        x = 1.0

    def check(answer):
        status, text, *rest = answer.split(" ")
        if status != "OK" or rest != [symbol] or not is_shortest(text, x, unit):
            return False
        # A second opinion where the unit is the base: the shortest digits that Python writes.
        return FACTORS[unit] != 1 or Fraction(repr(x)) == Fraction(text)

    return "f %s -1 %s" % (unit, x.hex()), check, "the shortest of %r" % x


def main():
    program, count = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 2000
    listing = subprocess.run([program, "units"], capture_output=True, text=True, check=True, encoding="utf-8").stdout
    units = [line.split(" ") for line in listing.splitlines()]
    assert sorted(unit for _, unit, _ in units) == sorted(FACTORS), "a unit has no factor here, or the reverse"
    dice = random.Random(20240229)
    cases = [
        make(dice, kind, unit, symbol)
        for kind, unit, symbol in units
        for make in (parse_case, parse_case, fixed_case, parts_case, shortest_case)
        for _ in range(count // 5)
    ]
    lines = "".join(line + "\n" for line, _, _ in cases)
    answers = subprocess.run([program], input=lines, capture_output=True, text=True, check=True, encoding="utf-8")
    answers = answers.stdout.splitlines()
    assert len(answers) == len(cases), "%d answers to %d lines" % (len(answers), len(cases))
    wrong = [(line, answer, expected) for (line, check, expected), answer in zip(cases, answers) if not check(answer)]
    for line, answer, expected in wrong[:10]:
        print("%s\n  gives %s\n  not   %s" % (line, answer, expected))
    print("%d cases in %d units, %d wrong" % (len(cases), len(units), len(wrong)))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
