# SPDX-License-Identifier: MIT
"""The formulas once more, written straight from the geometry with mpmath at 50 digits.

A second opinion for the library: no rearranged formula, no shared code. What has no closed form is found by
bisection and secants in the defining equation.
"""
from mpmath import mp, mpf, sqrt, log, exp, pi, sin, cos, atan2, ncdf

mp.dps = 50


def root(function, low, high):
    """Root in a bracket: halved until the secant is safe, then secants to all digits."""
    at_low, at_high = function(low), function(high)
    if at_low == 0:
        return low
    assert at_low * at_high < 0
    for _ in range(24):
        middle = (low + high) / 2
        value = function(middle)
        if value * at_low > 0:
            low, at_low = middle, value
        else:
            high, at_high = middle, value
    for _ in range(12):
        if at_high == at_low or abs(high - low) < mpf(10) ** -45 * abs(high):
            break
        low, at_low, high = high, at_high, high - at_high * (high - low) / (at_high - at_low)
        at_high = function(high)
    return high


def bore(joint, diameter, flow):
    """Bore of the crimped ferrule."""
    w, fo, d = mpf(joint["wall"]), mpf(joint["outside"]), mpf(diameter)
    return d - 2 * wall_after(w, fo, d, flow)


def wall_after(w, fo, d, flow):
    if flow == "none":
        return w
    if flow == "ends_fixed":  # same cross-section: d^2 - b^2 = fo^2 - (fo - 2w)^2
        return (d - sqrt(d**2 - fo**2 + (fo - 2 * w) ** 2)) / 2
    def miss(x):
        lam = x / d
        return log(x / w) - log((fo - w) / (d - x)) * (1 - 2 * lam) / (2 - lam)
    return root(miss, w, d / 2)


def length_after(joint, diameter):
    """Length of a ferrule that lengthens freely."""
    w, fo, d = mpf(joint["wall"]), mpf(joint["outside"]), mpf(diameter)
    x = wall_after(w, fo, d, "ends_free")
    lam = x / d
    return mpf(joint["length"]) * exp(log((fo - w) / (d - x)) * (1 + lam) / (2 - lam))


def fitted_outside(joint):
    di, do, s = (mpf(joint[k]) for k in ("di", "do", "s"))
    return sqrt(do**2 - di**2 + s**2) if s > di else do


def compression(joint, diameter, basis, flow):
    di, do, s = (mpf(joint[k]) for k in ("di", "do", "s"))
    b = bore(joint, diameter, flow)
    gap = (b - s) / 2
    if basis == "wall":
        return 1 - 2 * gap / (do - di)
    if basis == "fitted wall":
        return 1 - gap / ((fitted_outside(joint) - s) / 2 if s > di else (do - di) / 2)
    if basis == "soft wall":
        return ((do - di) - 2 * gap) / ((do - di) - 2 * mpf(joint["a"]))
    return 1 - (b**2 - s**2) / (do**2 - di**2)


def crimp_diameter(joint, c, basis, flow):
    """The inverse of compression, which falls with the diameter."""
    low, high = mpf(joint["s"]) + 2 * mpf(joint["wall"]), mpf(joint["outside"])
    if flow != "none":
        low = sqrt(mpf(joint["s"]) ** 2 + 4 * mpf(joint["wall"]) * (high - mpf(joint["wall"]))) if flow == "ends_fixed" else low
    return root(lambda d: compression(joint, d, basis, flow) - mpf(c), low, high)


def shape(d_closing, d_die, n):
    """Lobe, gap and equivalent diameters, from the arcs themselves."""
    D, d, a = mpf(d_closing), mpf(d_die), pi / n
    delta, r = (D - d) / 2, d / 2
    edge = (delta + r * cos(a), r * sin(a))  # of the arc round (delta, 0)
    re, phi = sqrt(edge[0] ** 2 + edge[1] ** 2), atan2(edge[1], edge[0])
    sector = r**2 * a / 2 + delta * r * sin(a) / 2  # from the centre, middle to edge: sector + triangle
    gap = 2 * (edge[0] * sin(a) - edge[1] * cos(a))  # distance of the edge from the plane between two segments
    chord = edge[0] * cos(a) + edge[1] * sin(a)
    area = n * (2 * sector + gap * chord / 2)
    return {
        "lobe_height": D / 2 - re,
        "gap": gap,
        "edge_radius": re,
        "arcs_diameter": 2 * sqrt(n * 2 * sector / (n * phi)),
        "chords_diameter": 2 * sqrt(area / pi),
        "tape_diameter": (n * (2 * a * r + gap)) / pi,
    }


def conforming_share(joint, u, r_hose, low, high, diameter):
    """Shares inside, below, above for normal inputs, from the linear form."""
    di, do, s, w = (mpf(joint[k]) for k in ("di", "do", "s", "wall"))

    def z(x):
        k = 1 - mpf(x)
        lam = mpf(diameter) - 2 * w - s - k * (do - di)
        var = (mpf(u["diameter"]) ** 2 + 4 * mpf(u["wall"]) ** 2 + mpf(u["s"]) ** 2
               + k**2 * (mpf(u["do"]) ** 2 + mpf(u["di"]) ** 2 - 2 * mpf(r_hose) * mpf(u["do"]) * mpf(u["di"])))
        return lam / sqrt(var)
    below, above = ncdf(z(low)), ncdf(-z(high))
    return 1 - below - above, below, above
