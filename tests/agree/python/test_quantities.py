# SPDX-License-Identifier: MIT
"""Quantities: made, read, computed with, compared, written."""
import copy
import math
import pickle
import inspect
import struct

import pint
import pytest
from hypothesis import given, strategies

import ferrule
from ferrule import Length, Pressure, Ratio, Temperature, inch, mm, percent

numbers = strategies.floats(allow_nan=False, allow_infinity=False)
KINDS = {"Length": "mm", "Area": "mm2", "Force": "newton", "Pressure": "mpa", "Angle": "rad", "Ratio": "fraction",
         "Temperature": "celsius", "PerLength": "per_mm"}
# Our name of each unit, and the same unit in pint's registry, which is the second opinion.
UNITS = {
    "Length": {"mm": "mm", "cm": "cm", "metre": "m", "micrometre": "um", "inch": "inch", "foot": "foot", "thou": "thou"},
    "Area": {"mm2": "mm**2", "cm2": "cm**2", "square_inch": "inch**2"},
    "Force": {"newton": "N", "kn": "kN", "lbf": "lbf", "tonne_force": "metric_ton * standard_gravity"},
    "Pressure": {"mpa": "MPa", "bar": "bar", "psi": "psi", "kpa": "kPa", "gpa": "GPa"},
    "Angle": {"rad": "rad", "deg": "deg"},
    "Ratio": {"fraction": "dimensionless", "percent": "0.01"},
    "Temperature": {"celsius": "degC", "fahrenheit": "degF"},
    "PerLength": {"per_mm": "1/mm", "per_inch": "1/inch"},
}


def bits(number):
    return struct.pack("d", number + 0.0)  # all but the sign of zero, which text does not have


def units_of(kind):
    return [name for name, value in vars(kind).items() if inspect.isgetsetdescriptor(value)]


@pytest.mark.parametrize("kind", KINDS)
def test_units_agree_with_pint(kind):
    registry = pint.UnitRegistry()
    cls = getattr(ferrule, kind)
    assert set(units_of(cls)) == set(UNITS[kind])
    for unit, theirs in UNITS[kind].items():
        for number in (1.0, 4.96, -40.0, 1234.5):
            expected = registry.Quantity(number, theirs) if theirs != "0.01" else registry.Quantity(number * 0.01, "")
            base = expected.to(UNITS[kind][KINDS[kind]]).magnitude
            made = cls(**{unit: number})
            assert getattr(made, KINDS[kind]) == pytest.approx(base, rel=4e-15, abs=1e-13)
            assert getattr(made, unit) == pytest.approx(number, rel=4e-15)
            assert made == getattr(ferrule, unit)(number)


def test_text_is_understood():
    assert Length("41 mm").mm == 41.0
    assert Length("1 1/4 in") == mm(31.75) == inch(1.25)
    assert Length('4.96"') == inch(4.96)
    assert Ratio("20 %").fraction == 0.2
    assert Pressure("350 bar").mpa == 35.0
    assert Length(mm(3)) == mm(3)


def test_a_comma_is_a_decimal_sign_where_it_is_said():
    assert Length("12,7 mm", decimal=",") == Length("12.7 mm", decimal=".") == mm(12.7)
    assert Ratio("12,5 %", decimal=",").percent == 12.5
    for text, decimal, name in (("12,7 mm", ".", "TEXT_COMMA"), ("1.234 mm", ",", "TEXT_POINT"), ("1.234,5 mm", ",", "TEXT_POINT")):
        with pytest.raises(ferrule.TextError) as refused:
            Length(text, decimal=decimal)
        assert refused.value.name == name and text in str(refused.value)
    with pytest.raises(ferrule.TextError, match="say that the comma is the decimal sign"):
        Length("12,7 mm")
    for decimal in (";", "", ",,", ",\0"):
        with pytest.raises(ValueError, match='decimal has to be'):
            Length("12,7 mm", decimal=decimal)
    for wrong in (12, mm(1), None, ["1 mm"]):
        with pytest.raises(TypeError):
            Length(wrong, decimal=",")


def test_units_may_be_in_capitals_where_that_says_nothing():
    assert Length("12.7 MM") == Length("½ IN") == Length("500 Mils") == Length("12.7 millimeters") == mm(12.7)
    assert Pressure("5 MPA") == Pressure("5 Mpa") == Pressure("50 BAR")
    for wrong in ("5 mPa", "5 mpa"):
        with pytest.raises(ferrule.TextError):
            Pressure(wrong)


@pytest.mark.parametrize("spec, width", [(">10", ">10"), ("<12", "<12"), ("^13", "^13"), ("10", ">10"), ("*^13", "*^13"), (">>9", ">>9"),
                                         ("é<9", "é<9"), ("1", "1"), ("<", "<")])
@pytest.mark.parametrize("form", ["", ".2f", ".2f in", "in", ".1/64 in"])
def test_width_is_that_of_pythons_own_text(spec, width, form):
    d = Length("1 1/4 in")
    assert format(d, spec + form) == format(format(d, form), width)


def test_fractions_are_written():
    assert f"{Length('1 1/4 in'):.1/64 in}" == f"{Length('1 1/4 in'):.1/64in}" == "1 1/4 in" and f"{mm(1.5):.1/64}" == "1 1/2 mm"
    assert f"{mm(23.5):.1/16 inch}" == "15/16 in"
    assert Length(f"{mm(23.5):.1/64 in}") == inch(59 / 64)


@pytest.mark.parametrize("kind", KINDS)
@given(number=numbers)
def test_repr_evaluates_to_the_same_bits(kind, number):
    quantity = getattr(ferrule, kind)(**{KINDS[kind]: number})
    again = eval(repr(quantity), vars(ferrule))
    assert type(again) is type(quantity) and bits(getattr(again, KINDS[kind])) == bits(number)
    assert str(quantity) == eval(repr(quantity), {kind: str})


def test_repr_of_what_is_not_finite():
    assert repr(mm(math.inf)) == 'Length(mm=float("inf"))' and str(mm(-math.inf)) == "-inf mm"
    assert math.isnan(eval(repr(percent(math.nan)), vars(ferrule)).percent)


def test_written():
    d = mm(41)
    assert (repr(d), str(d), repr(percent(20))) == ('Length("41 mm")', "41 mm", 'Ratio("20 %")')
    assert f"{d}|{d:.2f}|{d:.3f in}|{d:cm}|{d:inch}" == f"41 mm|41.00 mm|1.614 in|4.1 cm|{d.inch!r} in"
    for wrong in (".2f bar", ".2", "5d", ".99f", "=10", "010.2f", "\0", "mm x", ">x", ".1/", ".1/3 in", ".1/256 in", ".3/64 in"):
        with pytest.raises(ValueError):
            format(d, wrong)


def test_arithmetic():
    assert mm(3) + inch(1) == mm(28.4) and mm(3) - mm(4) == mm(-1) and -mm(3) == mm(-3) == -(+mm(3))
    assert abs(mm(-3)) == mm(3) and 2 * mm(3) == mm(3) * 2.0 == mm(6) and mm(3) / 2 == mm(1.5)
    assert mm(3) / mm(4) == percent(75) and percent(20) * mm(50) == mm(50) * percent(20) == mm(10)
    assert mm(10) / percent(20) == mm(50) and percent(50) * percent(50) == percent(25)
    assert sum([mm(1), mm(2)], mm(0)) == mm(3)


@pytest.mark.parametrize("wrong", [
    lambda: mm(3) + percent(3), lambda: percent(3) + mm(3), lambda: mm(3) + 3, lambda: 3 - mm(3), lambda: mm(3) * mm(3),
    lambda: 3 / mm(3), lambda: percent(3) / mm(3), lambda: mm(3) * "3", lambda: mm(3) * True, lambda: mm(3) + "3 mm",
    lambda: percent(20) + 1, lambda: mm(3) ** 2, lambda: float(mm(3)), lambda: int(mm(3)), lambda: round(mm(3)),
    lambda: mm(3) < percent(3), lambda: mm(3) < 3, lambda: mm(3) >= "3 mm", lambda: mm(3) * None, lambda: mm(3) // 2,
    lambda: ferrule.celsius(3) + ferrule.celsius(4), lambda: ferrule.celsius(3) * 2, lambda: -ferrule.celsius(3),
    lambda: ferrule.celsius(3) / ferrule.celsius(4), lambda: percent(20) * ferrule.celsius(3), lambda: math.sin(mm(3))])
def test_refused_arithmetic(wrong):
    with pytest.raises(TypeError):
        wrong()


def test_refused_numbers_explain_themselves():
    with pytest.raises(TypeError, match=r'^Length needs a unit: write "41 mm" or ferrule.mm\(41\), not 41$'):
        Length(41)
    with pytest.raises(TypeError, match=r"not a number without a unit: ask for one, as in \.mm"):
        float(mm(3))
    with pytest.raises(ZeroDivisionError):
        mm(3) / 0
    with pytest.raises(ZeroDivisionError):
        mm(3) / mm(0)
    with pytest.raises(OverflowError):
        mm(3) * 10 ** 400


@pytest.mark.parametrize("args, kwargs, error", [
    ((), {}, TypeError), (("1 mm", "2 mm"), {}, TypeError), (("1 mm",), {"mm": 1}, TypeError), ((), {"bar": 1}, TypeError),
    ((), {"mm": 1, "inch": 1}, TypeError), ((None,), {}, ferrule.QuantityError), ((True,), {}, TypeError), ((b"1 mm",), {}, TypeError),
    ((percent(1),), {}, TypeError), ((), {"mm": "1"}, TypeError), ((), {"mm": True}, TypeError), ((), {"mm": None}, ferrule.QuantityError),
    ((), {"mm": mm(1)}, TypeError), ((), {"mm": 1j}, TypeError), ((), {"mm": 10 ** 400}, OverflowError),
    (("41",), {}, ferrule.TextError), (("41 bar",), {}, ferrule.TextError), (("",), {}, ferrule.TextError),
    (("41 mm\0",), {}, ferrule.TextError), (("\ud800",), {}, ValueError), (("4" * 10 ** 5 + " mm",), {}, ferrule.TextError)])
def test_refused_constructors(args, kwargs, error):
    with pytest.raises(error):
        Length(*args, **kwargs)


@given(a=numbers, b=numbers)
def test_comparison_and_hash(a, b):
    assert (mm(a) == mm(b)) == (a == b) and (mm(a) < mm(b)) == (a < b) and (mm(a) >= mm(b)) == (a >= b)
    assert (mm(a) != mm(b)) == (a != b) and mm(a) != percent(100 * a) and mm(a) != a
    assert hash(mm(a)) == hash(Length(mm=a)) and bool(mm(a)) == (a != 0)
    assert hash(mm(0.0)) == hash(mm(-0.0)) and mm(math.nan) != mm(math.nan)
    assert len({mm(a), Length(mm=a), percent(a)}) == 2


@given(number=strategies.floats())
def test_pickle_and_copy(number):
    for protocol in range(pickle.HIGHEST_PROTOCOL + 1):
        assert bits(pickle.loads(pickle.dumps(mm(number), protocol)).mm) == bits(number) or math.isnan(number)
    assert bits(copy.deepcopy(copy.copy(mm(number))).mm) == bits(number) or math.isnan(number)


def test_values_do_not_change():
    for change in (lambda d: setattr(d, "mm", 3), lambda d: delattr(d, "mm"), lambda d: setattr(d, "colour", 3),
                   lambda d: object.__setattr__(d, "mm", 3), lambda d: setattr(d, "__class__", Ratio)):
        d = mm(41)
        with pytest.raises((AttributeError, TypeError)):
            change(d)
        assert d.mm == 41.0
    for change in (lambda: setattr(Length, "mm", 3), lambda: type("Longer", (Length,), {}), lambda: object.__new__(Length),
                   lambda: Length.__new__(Length), lambda: Length.__new__(Ratio, "1 mm"), lambda: Length.__new__(int)):
        with pytest.raises((TypeError, ValueError)):
            change()
    with pytest.raises(AttributeError):
        mm(41).milimetre
    assert not isinstance(Temperature("20 °C"), Length) and Temperature("68 °F").celsius == pytest.approx(20, rel=1e-15)
