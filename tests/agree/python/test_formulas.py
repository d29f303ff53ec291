# SPDX-License-Identifier: MIT
"""The formulas against second opinions: mpmath, SciPy, uncertainties, pint; and properties that must hold anywhere."""
import itertools
import math
import pathlib
import random
import sys
from fractions import Fraction

import pint
import pytest
import scipy.integrate
import scipy.optimize
import scipy.stats
import uncertainties
from hypothesis import assume, given, settings, strategies as st

import ferrule
from ferrule import Hose, Joint, Length, Model, Press, Ratio, Uncertainties, Stem, mm, percent

sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "vectors"))
import reference  # noqa: E402

BASES = ("wall", "fitted wall", "soft wall", "area")
FLOWS = ("none", "ends_fixed", "ends_free")
MODELS = [Model(basis=basis, flow=flow) for basis in BASES for flow in FLOWS]
WORKED = Joint(hose=Hose("12.7 mm", "19.9 mm"), stem="12.95 mm", ferrule=("2.4 mm", "25.6 mm"))
USUAL = ("15 %", "25 %")


def ulps(actual, exact):
    """Distance in units in the last place of the exact value."""
    return abs(reference.mpf(actual) - exact) / math.ulp(abs(float(exact)))


@st.composite
def joints(draw):
    """Joints as a shop has them and beyond: DN 4 to DN 100, thin and thick metal."""
    inside = draw(st.floats(4, 100))
    wall = draw(st.floats(1.0, 10))
    stem = inside + draw(st.floats(-0.3, 0.25)) * min(wall, inside) * 0.8
    metal = draw(st.floats(0.5, 6))
    outside = inside + 2 * wall + 2 * metal + draw(st.floats(0.3, 4))
    return Joint(hose=Hose(mm(inside), mm(inside + 2 * wall), mm(draw(st.floats(0.1, 0.5)) * wall)),
                 stem=Stem(mm(stem)), ferrule=(mm(metal), mm(outside), mm(30)))


def as_reference(joint):
    return {"di": joint.hose.inside.mm, "do": joint.hose.outside.mm, "a": joint.hose.reinforcement.mm,
            "s": joint.stem.outside.mm, "wall": joint.ferrule.wall.mm, "outside": joint.ferrule.outside.mm,
            "length": joint.ferrule.length.mm}


compressions = st.floats(0.08, 0.5)
models = st.sampled_from(MODELS)


def diameter_or_skip(joint, compression, model):
    try:
        return ferrule.crimp_diameter(joint, ferrule.fraction(compression), model)
    except (ferrule.CompressionError, ferrule.FerruleError):
        assume(False)


# ---- accuracy ------------------------------------------------------------------------------------------------

@given(joints(), compressions, models)
@settings(max_examples=120, deadline=None)
def test_crimp_diameter_against_mpmath(joint, compression, model):
    diameter = diameter_or_skip(joint, compression, model)
    basis, flow = model.basis.name.lower().replace("_", " "), model.flow.name.lower()
    exact = reference.crimp_diameter(as_reference(joint), compression, basis, flow)
    assert ulps(diameter.mm, exact) <= 2


def test_the_plain_diameter_against_fractions():
    """The bound of tests/release/proof/rounding, sampled: joints as a shop has them, very thin metal and stems, which leave
    nearly all to the gap, and diameters about a power of two."""
    rng, worst = random.Random(20), 0
    for i in range(20000):
        outside = rng.uniform(4, 120) if i % 2 else rng.choice((4, 32, 512)) * rng.uniform(0.98, 1.4)
        inside = outside * rng.uniform(0.01 if i % 3 else 0.4, 0.8)
        stem = inside * rng.uniform(0.02 if i % 3 else 0.9, 1)
        wall, compression = outside * rng.uniform(0.0005, 0.2), rng.uniform(0.05, 0.5)
        joint = Joint(hose=Hose(mm(inside), mm(outside)), stem=Stem(mm(stem)), ferrule=mm(wall))
        found = ferrule.crimp_diameter(joint, ferrule.fraction(compression)).mm
        exact = Fraction(stem) + 2 * Fraction(wall) + (Fraction(outside) - Fraction(inside)) * (1 - Fraction(compression))
        nearest = float(exact)
        below = nearest if nearest <= exact else math.nextafter(nearest, 0)
        worst = max(worst, abs(Fraction(found) - exact) / Fraction(math.ulp(below)))
    assert 1 < worst < 1.51


@given(joints(), compressions, models)
@settings(max_examples=120, deadline=None)
def test_compression_against_mpmath(joint, compression, model):
    diameter = diameter_or_skip(joint, compression, model)
    basis, flow = model.basis.name.lower().replace("_", " "), model.flow.name.lower()
    exact = reference.compression(as_reference(joint), diameter.mm, basis, flow)
    actual = ferrule.compression(joint, diameter, model).fraction
    if flow == "ends_free":  # the wall comes from a root, good to 1e-15 of the whole
        assert abs(actual - exact) <= 2e-15
    else:
        assert ulps(actual, exact) <= 2


@given(st.floats(0.01, 200), st.floats(0, 20), st.integers(3, 64))
@settings(max_examples=300, deadline=None)
def test_shape_against_mpmath(size, offset, segments):
    diameter = size + offset
    exact = reference.shape(diameter, size, segments)
    shape = ferrule.crimp_shape(mm(diameter), mm(size), segments)
    assert ferrule.lobe_height(mm(diameter), mm(size), segments) == shape.lobe_height
    if diameter > size:
        assert ulps(shape.lobe_height.mm, exact["lobe_height"]) <= 3
    for name, value in exact.items():
        if value > 1e-40:  # a die at its own size is round but for the last digit of the reference
            assert ulps(getattr(shape, name).mm, value) <= 3, name


# ---- properties ----------------------------------------------------------------------------------------------

@given(joints(), compressions, models)
def test_backward_undoes_forward(joint, compression, model):
    diameter = diameter_or_skip(joint, compression, model)
    assert ferrule.compression(joint, diameter, model).fraction == pytest.approx(compression, abs=5e-13)


@given(joints(), compressions, models, st.floats(0.001, 0.05))
def test_more_compression_needs_a_smaller_diameter(joint, compression, model, more):
    diameter = diameter_or_skip(joint, compression, model)
    assert diameter_or_skip(joint, compression + more, model) < diameter


@given(joints(), compressions, models, st.sampled_from([0.5, 2.0, 25.4, 1 / 25.4]))
def test_a_joint_of_another_scale_has_the_same_compression(joint, compression, model, scale):
    diameter = diameter_or_skip(joint, compression, model)
    hose, stem, metal = joint.hose, joint.stem, joint.ferrule
    scaled = Joint(hose=Hose(hose.inside * scale, hose.outside * scale, hose.reinforcement * scale),
                   stem=Stem(stem.outside * scale), ferrule=(metal.wall * scale, metal.outside * scale))
    try:
        other = ferrule.compression(scaled, diameter * scale, model)
    except ferrule.DiameterError:
        return  # on the very edge the scaled numbers round to the other side
    assert other.fraction == pytest.approx(compression, abs=1e-12)


@given(joints(), compressions, models)
@settings(max_examples=60, deadline=None)
def test_slopes_against_complex_step_free_differences(joint, compression, model):
    diameter = diameter_or_skip(joint, compression, model)
    if abs(joint.stem.outside.mm - joint.hose.inside.mm) < 1e-3:
        return  # the slope of the fitted wall jumps there
    numbers = as_reference(joint)
    basis, flow = model.basis.name.lower().replace("_", " "), model.flow.name.lower()
    slopes = ferrule.find_compression_slopes(joint, diameter, model)
    step = reference.mpf(10) ** -16

    def derivative(key):
        more, less = dict(numbers), dict(numbers)
        more[key], less[key] = numbers[key] + step, numbers[key] - step
        return (reference.compression(more, diameter.mm, basis, flow)
                - reference.compression(less, diameter.mm, basis, flow)) / (2 * step)
    names = {"di": "hose_inside", "do": "hose_outside", "a": "hose_reinforcement", "s": "stem_outside",
             "wall": "ferrule_wall", "outside": "ferrule_outside"}
    largest = max(abs(getattr(slopes, name).per_mm) for name in names.values())
    for key, name in names.items():
        assert abs(getattr(slopes, name).per_mm - derivative(key)) <= 1e-11 * largest, name


@given(st.floats(0.3, 4), st.floats(0.5, 0.9), st.floats(0.05, 0.2))
def test_units_make_no_difference(outside_inch, ratio, wall_share):
    """The same joint in inches and in millimetres, converted by pint."""
    ureg = test_units_make_no_difference.registry
    inches = {"outside": outside_inch, "inside": outside_inch * ratio, "wall": outside_inch * wall_share}
    in_mm = {k: ureg.Quantity(v, "inch").to("mm").magnitude for k, v in inches.items()}
    by_inch = Joint(hose=Hose(ferrule.inch(inches["inside"]), ferrule.inch(inches["outside"])),
                    stem=Stem(ferrule.inch(inches["inside"])), ferrule=ferrule.Ferrule(ferrule.inch(inches["wall"])))
    by_mm = Joint(hose=Hose(mm(in_mm["inside"]), mm(in_mm["outside"])), stem=Stem(mm(in_mm["inside"])),
                  ferrule=ferrule.Ferrule(mm(in_mm["wall"])))
    a, b = ferrule.crimp_diameter(by_inch, "20 %"), ferrule.crimp_diameter(by_mm, "20 %")
    assert a.inch == pytest.approx(ureg.Quantity(b.mm, "mm").to("inch").magnitude, rel=1e-14)


test_units_make_no_difference.registry = pint.UnitRegistry()


# ---- uncertainty ---------------------------------------------------------------------------------------------

AMOUNTS = {"hose_inside": 0.08, "hose_outside": 0.10, "stem_outside": 0.02, "ferrule_wall": 0.03, "diameter": 0.05}


def uncertainties_of(amounts, **correlations):
    return Uncertainties(**{name: mm(u) for name, u in amounts.items()},
                  correlations={name: ferrule.fraction(r) for name, r in correlations.items()})


def test_the_budget_against_the_package_uncertainties():
    """Linear propagation by automatic differentiation, with a correlation of both hose diameters."""
    r = 0.5
    covariance = [[0.08**2, r * 0.08 * 0.10], [r * 0.08 * 0.10, 0.10**2]]
    di, do = uncertainties.correlated_values([12.7, 19.9], covariance)
    s, w, d = uncertainties.ufloat(12.95, 0.02), uncertainties.ufloat(2.4, 0.03), uncertainties.ufloat(23.51, 0.05)
    expected = 1 - (d - 2 * w - s) / (do - di)
    budget = ferrule.uncertainty_budget(WORKED, uncertainties_of(AMOUNTS, hose_inside_hose_outside=r), "23.51 mm", "95 %")
    assert budget.compression.fraction == pytest.approx(expected.nominal_value, abs=1e-14)
    assert budget.standard_uncertainty.fraction == pytest.approx(expected.std_dev, rel=1e-12)


@pytest.mark.parametrize("degrees, coverage", itertools.product([1, 2, 5, 16, 30.7, 1000], [0.5, 0.95, 0.99, 0.9999]))
def test_coverage_factors_against_scipy(degrees, coverage):
    uncertainties = Uncertainties(diameter=ferrule.Uncertainty("0.05 mm", degrees_of_freedom=degrees))
    budget = ferrule.uncertainty_budget(WORKED, uncertainties, "23.51 mm", ferrule.fraction(coverage))
    # the quantile of SciPy 1.10 is good to 1e-9 only, its distribution function to all digits
    factor = budget.coverage_factor
    assert factor == pytest.approx(scipy.stats.t.ppf(0.5 * (1 + coverage), math.floor(degrees)), rel=1e-8)
    assert scipy.stats.t.sf(factor, math.floor(degrees)) == pytest.approx(0.5 * (1 - coverage), rel=2e-13)
    uncertainties = Uncertainties(diameter="0.05 mm")
    normal = ferrule.uncertainty_budget(WORKED, uncertainties, "23.51 mm", ferrule.fraction(coverage))
    assert normal.coverage_factor == pytest.approx(scipy.stats.norm.ppf(0.5 * (1 + coverage)), rel=1e-13)


def test_the_shares_against_scipy_by_another_road():
    """Not the linear form but an integral over the hose wall of the conditional normal probability."""
    share = ferrule.conforming_share(WORKED, uncertainties_of(AMOUNTS), USUAL, "23.51 mm")
    wall = scipy.stats.norm(7.2, math.hypot(0.10, 0.08))
    rest = scipy.stats.norm(23.51 - 4.8 - 12.95, math.sqrt(0.05**2 + 4 * 0.03**2 + 0.02**2))

    def tail(limit, upper):
        # c < limit <=> D - 2w - s > (1 - limit) W
        def part(w):
            gap = (1 - limit) * w
            return wall.pdf(w) * (rest.cdf(gap) if upper else rest.sf(gap))
        return scipy.integrate.quad(part, 7.2 - 1.5, 7.2 + 1.5, epsabs=1e-13, limit=200)[0]
    assert share.below.fraction == pytest.approx(tail(0.15, False), abs=1e-11)
    assert share.above.fraction == pytest.approx(tail(0.25, True), abs=1e-11)


@pytest.mark.parametrize("loose, tight", [(1, 1), (1, 4), (6, 1)])
def test_the_best_target_against_numerical_search(loose, tight):
    uncertainties = uncertainties_of(AMOUNTS, hose_inside_hose_outside=0.3)

    def cost(diameter):
        share = ferrule.conforming_share(WORKED, uncertainties, USUAL, mm(diameter))
        return loose * share.below.fraction + tight * share.above.fraction
    found = scipy.optimize.minimize_scalar(cost, bounds=(23.2, 23.8), method="bounded", options={"xatol": 1e-9})
    target, _ = ferrule.cheapest_target(WORKED, uncertainties, USUAL, loose, tight)
    assert target.mm == pytest.approx(found.x, abs=1e-5)
    assert cost(target.mm) <= found.fun + 1e-15


@given(joints(), compressions, models, st.lists(st.floats(-1, 1), min_size=6, max_size=6))
def test_no_joint_inside_the_limits_leaves_the_worst_case(joint, compression, model, where):
    diameter = diameter_or_skip(joint, compression, model)
    half = 0.02
    names = ("hose_inside", "hose_outside", "stem_outside", "ferrule_wall", "ferrule_outside", "diameter")
    uncertainties = Uncertainties(**{n: ferrule.Uncertainty(mm(half), "rectangular") for n in names})
    try:
        worst = ferrule.worst_case(joint, uncertainties, diameter, model)
    except (ferrule.UncertaintyError, ferrule.DiameterError):
        assume(False)
    di, do, s, w, fo, d = (mm(half * x) for x in where)
    moved = Joint(hose=Hose(joint.hose.inside + di, joint.hose.outside + do, joint.hose.reinforcement),
                  stem=Stem(joint.stem.outside + s), ferrule=(joint.ferrule.wall + w, joint.ferrule.outside + fo))
    c = ferrule.compression(moved, diameter + d, model)
    assert worst.lower.fraction - 1e-12 <= c.fraction <= worst.upper.fraction + 1e-12


# ---- dies and dial -------------------------------------------------------------------------------------------

dies = st.lists(st.builds(lambda size, reach: ferrule.Die(mm(size), mm(reach)), st.integers(8, 60), st.integers(0, 9)),
                max_size=8)


@given(dies, st.floats(5, 70))
def test_the_die_is_the_largest_that_may_be_used(rack, target):
    choice = ferrule.choose_die(rack, mm(target))
    may = [d.size.mm for d in rack if d.size.mm <= target <= d.size.mm + (d.reach.mm or 7)]
    assert choice.found == bool(may)
    if may:
        assert choice.die.size.mm == max(may)
        assert choice.offset.mm == target - max(may)
    else:
        assert (choice.buy.lower.mm, choice.buy.upper.mm) == (max(target - 7, 0.001), target)


@given(dies, st.floats(8, 70))
def test_a_diameter_in_a_gap_has_no_die_and_outside_one_has(rack, diameter):
    gaps = ferrule.find_coverage_gaps(rack, ("8 mm", "70 mm"))
    inside = any(g.lower.mm < diameter < g.upper.mm for g in gaps)
    on_edge = any(diameter in (g.lower.mm, g.upper.mm) for g in gaps)
    if not on_edge:
        assert ferrule.choose_die(rack, mm(diameter)).found != inside


@given(st.floats(22, 29), st.sampled_from([0.01, 0.02, 0.05, 0.1, 0.5]), st.floats(-0.5, 0))
def test_the_dial_gives_back_what_it_expects(target, graduation, correction):
    press = Press(graduation=mm(graduation), correction=mm(correction))
    try:
        dial = ferrule.dial_setting(press, "22 mm", mm(target))
    except ferrule.DialError:
        assume(False)
    back = ferrule.dialled_diameter(press, "22 mm", dial.setting)
    assert back.mm == pytest.approx(dial.expected.mm, abs=1e-13)
    assert abs(dial.remainder.mm) <= graduation * (0.5 + 1e-8)
    assert isinstance(dial.setting, Length)


def test_percent_is_a_ratio():
    assert Ratio("20 %") == percent(20)
