# SPDX-License-Identifier: MIT
"""Forming against SciPy: the same flow theory, integrated by another hand, in the limit of a very stiff metal."""
import math

import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

import ferrule as f

STIFF = 1_000_000.0  # MPa; with a yield strength of 1 MPa elastic strains are a millionth


def stresses(m, a, b, yields):
    """Pressure of the metal and axial force of a section that flows with m, by quadrature of Levy and Mises' rule."""
    def shear(r):  # hoop stress minus radial stress, downwards
        return 2 / math.sqrt(3) * yields(r) / math.hypot(1, m * r * r / b**2)

    def beyond(r):  # axial stress beyond the mean of the two
        return yields(r) * m * r * r / b**2 / math.hypot(1, m * r * r / b**2)

    pressure = quad(lambda r: shear(r) / r, a, b, epsabs=1e-13)[0]
    return pressure, quad(lambda r: beyond(r) * 2 * r, a, b, epsabs=1e-13)[0]


def free_m(a, b, hose):
    def force(m):
        pressure, axial = stresses(m, a, b, lambda r: 1.0)
        return axial - (b * b * (hose + pressure) - a * a * hose)
    return brentq(force, 1e-9, 50, xtol=1e-13)


def by_scipy(outside, wall, closing, hose, restraint):
    """Wall, length ratio and pressure of a rigid-plastic tube of yield strength 1 whose hose pressure grows with the reduction."""
    b0, section = outside / 2, wall * (outside - wall)
    end = closing / 2

    def rate(b, state):
        a = math.sqrt(b * b - section * math.exp(-state[0]))
        m = free_m(a, b, hose * (b0 - b) / (b0 - end)) if restraint < 1 else 0.0
        return [-(1 - restraint) * 2 * m / (m + math.sqrt(3)) / b]

    stretch = solve_ivp(rate, (b0, end), [0.0], rtol=1e-10, atol=1e-13).y[0, -1]
    a = math.sqrt(end * end - section * math.exp(-stretch))
    share = (1 - restraint) * free_m(a, end, hose) / (free_m(a, end, hose) + math.sqrt(3))
    pressure, _ = stresses(math.sqrt(3) * share / (1 - share), a, end, lambda r: 1.0)
    return end - a, math.exp(stretch), hose + pressure


@pytest.mark.parametrize("outside, wall, closing, hose, restraint", [
    (50, 3, 46, 0.0, 0.0), (50, 3, 46, 0.0, 0.5), (50, 3, 46, 0.0, 1.0), (25.6, 2.4, 23.51, 0.1, 0.0),
    (40, 6.8, 33, 0.0, 0.0), (40, 7.1, 36, 0.05, 0.3), (30, 1.2, 21.3, 0.02, 0.8),
])
def test_flow_against_scipy(outside, wall, closing, hose, restraint):
    metal = f.Material(elastic_modulus=f.mpa(STIFF), poisson="0.3 fraction", yield_strength="1 MPa")
    load = f.FormingLoad(restraint=f.fraction(restraint), hose_pressure=f.mpa(hose))
    found = f.form_ferrule(f.Ferrule(wall=f.mm(wall), outside=f.mm(outside)), f.mm(closing), metal, load)
    expected_wall, stretch, pressure = by_scipy(outside, wall, closing, hose, restraint)
    assert found.wall.mm == pytest.approx(expected_wall, rel=3e-6)
    assert found.stretch.fraction == pytest.approx(stretch, rel=3e-6)
    assert found.pressure.mpa == pytest.approx(pressure, rel=3e-6)


@pytest.mark.parametrize("hose, bounds", [(0.0, {10: 0.2, 20: 0.8, 30: 2.0}), (0.1, {10: 0.7, 20: 1.0, 30: 1.2})])
@pytest.mark.parametrize("yielding, fixed_bound", [(294, 0.3), (1030, 1.0)])
def test_how_far_off_the_quick_forms_are(hose, bounds, yielding, fixed_bound):
    """The bounds in % that the comments of crimped_wall and crimped_length state; the flow itself: tests/agree/finite_element."""
    metal = f.Material("206 GPa", "30 %", f.mpa(yielding))
    for reduction in range(4, 31, 2):
        bound = next(bound for upper, bound in bounds.items() if reduction <= upper)
        for thickness in (0.03, 0.06, 0.1, 0.14, 0.179):
            ferrule, diameter = f.Ferrule(f.mm(30 * thickness), "30 mm", "10 mm"), f.mm(30 - 0.3 * reduction)
            joint = f.Joint(("0.01 mm", "29 mm"), "0.005 mm", ferrule)
            for flow, restraint, wall_bound in (("ends_free", 0, bound), ("ends_fixed", 100, fixed_bound)):
                load = f.FormingLoad(f.percent(restraint), f.mpa(hose * yielding))
                try:
                    formed = f.form_ferrule(ferrule, diameter, metal, load)
                except f.DiameterError:  # too little
                    continue
                if formed.release_status != f.Status.OK:  # no crimp: it yields on release
                    continue
                wall = f.crimped_wall(joint, diameter, f.Model(flow=flow)) / formed.wall
                assert abs(wall.percent - 100) <= wall_bound, (flow, reduction, thickness)
                length = f.crimped_length(joint, diameter, f.Model(flow=flow)) / f.mm(10) / formed.stretch.fraction
                assert abs(length.percent - 100) <= {10: 0.4, 20: 0.8, 30: 1.6}[-(-reduction // 10) * 10]


def test_hardening_against_scipy():
    """Ends fixed: the strain at each radius is that of a point that moved inwards, r0^2 = r^2 + b0^2 - b^2."""
    b0, a0, b, hardening = 25.0, 20.0, 21.0, 3.0
    moved = b0**2 - b**2
    a = math.sqrt(a0**2 - moved)
    pressure, _ = stresses(0.0, a, b, lambda r: 1 + hardening * math.log(1 + moved / r**2) / math.sqrt(3))
    metal = f.Material(elastic_modulus=f.mpa(STIFF), poisson="0.3 fraction", yield_strength="1 MPa", hardening=f.mpa(hardening))
    found = f.form_ferrule(f.Ferrule(wall=f.mm(b0 - a0), outside=f.mm(2 * b0)), f.mm(2 * b), metal,
                           f.FormingLoad(restraint="100 %"))
    assert found.wall.mm == pytest.approx(b - a, rel=1e-5)
    assert found.pressure.mpa == pytest.approx(pressure, rel=3e-5)


def test_free_ferrule_against_plane_stress():
    """Nadai, Theory of Flow and Fracture of Solids, vol. 1 (1950; from memory): ring in plane stress at full yield, by a parameter; hose pressure included."""
    for hose in (0.0, 0.02, 0.05):
        metal = f.Material(elastic_modulus=f.mpa(STIFF), poisson="0.3 fraction", yield_strength="1 MPa")
        found = f.form_ferrule(f.Ferrule(wall="3 mm", outside="50 mm"), "46 mm", metal,
                               f.FormingLoad(hose_pressure=f.mpa(hose)))
        ratio = math.log(46 / found.bore.mm)
        start = math.asin(math.sqrt(3) * hose / 2)

        def depth(psi):
            return (math.sqrt(3) / 2 * (psi - start)
                    - math.log(math.cos(psi + math.pi / 6) / math.cos(start + math.pi / 6)) / 2 - ratio)
        psi = brentq(depth, start, math.pi / 3 - 1e-9)
        assert found.pressure.mpa == pytest.approx(2 / math.sqrt(3) * math.sin(psi), rel=1e-3)
