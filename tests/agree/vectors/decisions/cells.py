# SPDX-License-Identifier: MIT
"""What the tables of decisions have in common: cells with units, and where readings of a gauge are accepted.

Thirty digits (mpmath), so that a threshold lies where the decimals say. Nothing here calls the library.
"""
import csv
import pathlib

from mpmath import mp, mpf, findroot, floor, ncdf, sqrt

mp.dps = 30
HERE = pathlib.Path(__file__).resolve().parent
UNITS = {"mm": 1, "in": mpf("25.4"), "%": mpf("0.01"), "MPa": 1, "N": 1, "kN": 1000, "deg": mp.pi / 180}
USUAL = mpf("1.65")


def value(cell):
    """A quantity in mm, MPa, N or as a share; a flag, a whole number, otherwise the word."""
    if cell in ("true", "false"):
        return cell == "true"
    number, _, unit = cell.partition(" ")
    if unit in UNITS:
        return mpf(number) * UNITS[unit]
    return mpf(cell) if cell.replace(".", "", 1).replace("-", "", 1).isdigit() else cell


def nest(cell):
    """`a.b=1; l.0.c=2 mm` as nested dicts; an item of a list has its place as its name."""
    tree = {}
    for item in filter(None, cell.split("; ")):
        path, text = item.split("=", 1)
        *parents, last = path.split(".")
        node = tree
        for name in parents:
            node = node.setdefault(name, {})
        node[last] = value(text)
    return tree


def at(tree, path, otherwise=mpf(0)):
    for name in path.split("."):
        if name not in tree:
            return otherwise
        tree = tree[name]
    return tree


def items(tree, name):
    listed = tree.get(name, {})
    return [listed[str(i)] for i in range(len(listed))]


def flat(changes):
    return "; ".join(f"{path}={text}" for path, text in changes.items() if text is not None)


def reading_uncertainty(gauge):
    """Of the gauge, and of the rounding to its step, which is rectangular."""
    return sqrt(at(gauge, "standard_uncertainty") ** 2 + at(gauge, "resolution") ** 2 / 12)


def guarded(lower, upper, u, guard, cdf=ncdf):
    """(lower, upper) of what is accepted, None: nothing. Guard band k u (ISO 14253-1); where the tolerance is below
    (2 k + 1.7) u both tails count (JCGM 106): a value is accepted while the probability is that of k on one side."""
    k = at(guard, "factor") or USUAL
    side = at(guard, "side", "both")
    if at(guard, "without", False) or u == 0:
        return lower, upper
    if side != "both" or upper - lower >= (2 * k + mpf("1.7")) * u:
        return lower + k * u if side != "upper" else lower, upper - k * u if side != "lower" else upper
    middle, half = (lower + upper) / 2, (upper - lower) / 2

    def less(away):
        return cdf((half - away) / u) - cdf((-half - away) / u) - cdf(k)
    if less(0) < 0:
        return None
    away = findroot(less, (mpf(0), half), solver="anderson", tol=1e-40)
    return middle - away, middle + away


def down(steps):
    """A whole number of steps that is there in decimals is there."""
    return floor(steps + mpf(10) ** -20)


def shown(zone, gauge, guard):
    """As the gauge shows it: without its correction, inwards to its step; None where no step is left."""
    if zone is None:
        return None
    side, step, correction = at(guard, "side", "both"), at(gauge, "resolution"), at(gauge, "correction")
    lower, upper = zone
    if side != "upper":
        lower -= correction
        lower = -down(-lower / step) * step if step else lower
    if side != "lower":
        upper -= correction
        upper = down(upper / step) * step if step else upper
    return None if side == "both" and lower > upper else (lower, upper)


def millimetres(number):
    """Ten decimals at most, none that says nothing."""
    return mp.nstr(mp.nint(number * 10**10) / 10**10, 14).rstrip("0").rstrip(".") + " mm"


def zone_text(zone):
    return "empty" if zone is None else " to ".join(map(millimetres, zone))


def write_or_check(name, header, rows, wanted):
    """Writes the table, or says where it is not what the rules make of its cases."""
    path = HERE / name
    lines = [dict(zip(header, row, strict=True)) for row in rows]
    if wanted:
        with path.open("w", encoding="utf-8", newline="") as file:
            out = csv.DictWriter(file, header, lineterminator="\n")
            out.writeheader()
            out.writerows(lines)
        print(f"{name}: {len(lines)} rows")
        return
    with path.open(encoding="utf-8", newline="") as file:
        there = list(csv.DictReader(file))
    assert there == lines, [(a, b) for a, b in zip(there, lines) if a != b][:1] or (len(there), len(lines))
