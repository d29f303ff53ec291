# SPDX-License-Identifier: MIT
"""Second way to every figure of a set-up: short formulas of their own, in plain mm and fractions.

Sources: compression, window, die, dial: common practice, no source. Ferrule that cannot lengthen: constant area of its
section. Ferrule that lengthens freely: wall equation of the project's Mathematics page, solved by bisection. Lobe, gap:
circles and their chords. Uncertainty: JCGM 100:2008, 5.1.2. Yield: distribution of a linear form of normal errors; best
target by search. Guard band: ISO 14253-1:2017; zone rounded inwards to the gauge's step. Ferrule with ends fixed, without hardening: pressure at full plasticity of a thick tube
in plane strain (Hill, The Mathematical Theory of Plasticity, ch. V, from memory). Springback, stem: Lamé.
"""
from dataclasses import dataclass
from math import atan2, ceil, cos, erf, exp, floor, log, pi, sin, sqrt
from statistics import mean, stdev

LOWER, UPPER, AIM = 0.15, 0.25, 0.20
REACH = 7.0


@dataclass(frozen=True)
class Joint:
    """Hose, stem and ferrule in mm."""
    inside: float
    outside: float
    stem: float
    wall: float
    ferrule: float = 0.0

    @property
    def hose_wall(self):
        """Both walls together."""
        return self.outside - self.inside


# Standard uncertainties in mm: hose inside, hose outside, stem, ferrule wall, crimp diameter.
@dataclass(frozen=True)
class Known:
    inside: float
    outside: float
    stem: float
    wall: float
    diameter: float


def crimp_diameter(joint, compression):
    return joint.stem + 2 * joint.wall + joint.hose_wall * (1 - compression)


def compression_of_bore(joint, bore):
    return 1 - (bore - joint.stem) / joint.hose_wall


def plain(joint, diameter):
    return compression_of_bore(joint, diameter - 2 * joint.wall)


def ends_fixed(joint, diameter):
    metal = joint.ferrule**2 - (joint.ferrule - 2 * joint.wall)**2
    return compression_of_bore(joint, sqrt(diameter**2 - metal))


def free_wall(joint, diameter):
    def excess(wall):
        share = wall / diameter
        strain = log((joint.ferrule - joint.wall) / (diameter - wall))
        return wall - joint.wall * exp(strain * (1 - 2 * share) / (2 - share))
    low, high = joint.wall, diameter / 2
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if excess(middle) < 0 else (low, middle)
    return low


def ends_free(joint, diameter):
    return compression_of_bore(joint, diameter - 2 * free_wall(joint, diameter))


def compression_uncertainty(joint, known, diameter):
    """By small changes of each measurement, one after the other."""
    step = 1e-6
    def changed(inside=0, outside=0, stem=0, wall=0, more=0):
        return plain(Joint(joint.inside + inside, joint.outside + outside, joint.stem + stem, joint.wall + wall),
                     diameter + more)
    slopes = {
        "inside": changed(inside=step) - changed(inside=-step),
        "outside": changed(outside=step) - changed(outside=-step),
        "stem": changed(stem=step) - changed(stem=-step),
        "wall": changed(wall=step) - changed(wall=-step),
        "diameter": changed(more=step) - changed(more=-step),
    }
    return sqrt(sum((slope / (2 * step) * getattr(known, name))**2 for name, slope in slopes.items()))


def _below(joint, known, diameter, limit):
    """Share of joints with a compression below a limit."""
    share = 1 - limit
    centre = diameter - 2 * joint.wall - joint.stem - share * joint.hose_wall
    standard_deviation = sqrt(known.diameter**2 + 4 * known.wall**2 + known.stem**2
                  + share**2 * (known.inside**2 + known.outside**2))
    return 0.5 * (1 + erf(centre / standard_deviation / sqrt(2)))


def inside_range(joint, known, diameter):
    return _below(joint, known, diameter, UPPER) - _below(joint, known, diameter, LOWER)


def best_target(joint, known):
    """By golden section between the ends of the window."""
    low, high = crimp_diameter(joint, UPPER), crimp_diameter(joint, LOWER)
    ratio = (sqrt(5) - 1) / 2
    for _ in range(100):
        first, second = high - ratio * (high - low), low + ratio * (high - low)
        if inside_range(joint, known, first) < inside_range(joint, known, second):
            low = first
        else:
            high = second
    return (low + high) / 2


def choose_die(dies, target):
    """Largest of (size, reach) that is not above the target and reaches it; None: none."""
    fitting = [size for size, reach in dies if size <= target <= size + reach]
    return max(fitting, default=None)


def lobe_height(diameter, die, segments):
    """Middle minus edge of a segment's arc, by the law of cosines."""
    shift, radius = (diameter - die) / 2, die / 2
    edge = sqrt(shift**2 + radius**2 + 2 * shift * radius * cos(pi / segments))
    return diameter / 2 - edge


def gap(diameter, die, segments):
    return (diameter - die) * sin(pi / segments)


def arcs_diameter(diameter, die, segments):
    """Of the circle that has the same area as the ferrule's outline under the arcs, over the angle of the arcs."""
    shift, radius, half = (diameter - die) / 2, die / 2, pi / segments
    edge_angle = atan2(radius * sin(half), shift + radius * cos(half))
    area = radius**2 * half + shift * radius * sin(half)
    return 2 * sqrt(area / edge_angle)


@dataclass(frozen=True)
class Metal:
    """Elastic modulus and yield in MPa, Poisson's ratio."""
    modulus: float
    poisson: float
    yielding: float


def fixed_ferrule(joint, metal, hose_pressure, closing):
    """Pressure of the dies and springback of the diameter, ends fixed, no hardening.

    The section shrinks by the mean elastic dilatation: in plane strain the axial stress is half the sum of the other two,
    whose mean over the section follows from the pressures at its edges by equilibrium.
    """
    outside, area = closing / 2, (joint.ferrule / 2)**2 - (joint.ferrule / 2 - joint.wall)**2
    section = area
    for _ in range(50):
        inside = sqrt(outside**2 - section)
        pressure = hose_pressure + 2 / sqrt(3) * metal.yielding * log(outside / inside)
        mean_stress = (hose_pressure * inside**2 - pressure * outside**2) / section
        section = area * (1 + 3 * (1 - 2 * metal.poisson) / metal.modulus * mean_stress)
    growth = (1 + metal.poisson) / metal.modulus * pressure * outside
    growth *= ((1 - 2 * metal.poisson) * outside**2 + inside**2) / (outside**2 - inside**2)
    return pressure, 2 * growth


def fixed_closing(joint, metal, hose_pressure, diameter):
    """Closing diameter of a crimp diameter, by bisection."""
    low, high = 0.99 * diameter, diameter
    for _ in range(60):
        middle = (low + high) / 2
        _, springback = fixed_ferrule(joint, metal, hose_pressure, middle)
        low, high = (middle, high) if middle + springback < diameter else (low, middle)
    return low


def bore_reduction(outside, bore, metal, hose_pressure, ends_fixed):
    """Elastic stem under pressure from outside: Lamé, ends free or plane strain."""
    outer, inner = outside / 2, bore / 2
    free_ends = 4 * hose_pressure * outer**2 * inner / (metal.modulus * (outer**2 - inner**2))
    return free_ends * (1 - metal.poisson**2) if ends_fixed else free_ends


def mean_and_uncertainty(readings, gauge, resolution):
    """Mean of readings in mm and its standard uncertainty."""
    scatter = stdev(readings)**2 / len(readings)
    return mean(readings), sqrt(gauge**2 + max(scatter, resolution**2 / 12))


def narrowed_window(joint, known):
    """Ends of the window, a guard band of the larger of their standard uncertainties inside: measurements alone, JCGM 100, 5.1.2."""
    larger = max(sqrt(known.stem**2 + 4 * known.wall**2 + (1 - share)**2 * (known.inside**2 + known.outside**2))
                 for share in (LOWER, UPPER))
    return crimp_diameter(joint, UPPER) + 1.65 * larger, crimp_diameter(joint, LOWER) - 1.65 * larger


def zone(limits, gauge, resolution, correction):
    """Readings that are accepted: limits, a guard band inside, as the gauge shows them."""
    guard = 1.65 * sqrt(gauge**2 + resolution**2 / 12)
    lower, upper = limits[0] + guard - correction, limits[1] - guard - correction
    return ceil(lower / resolution - 1e-6) * resolution, floor(upper / resolution + 1e-6) * resolution


def verdict(value, uncertainty, lower, upper):
    guard = 1.65 * uncertainty
    if lower + guard <= value <= upper - guard:
        return "accept"
    return "reject" if value < lower - guard or value > upper + guard else "undecided"
