# SPDX-License-Identifier: MIT
"""Drawings to scale, as SVG: a joint across its axis before and after the crimp, and the shape that the die leaves.

    >>> from ferrule import Joint, Press, drawing, plan_setup
    >>> joint = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
    >>> drawing.section(joint, "23.51 mm")  # in a notebook it shows itself; .save("crimp.svg") writes a file
    <drawing: Joint across its axis, to scale>
    >>> drawing.die(plan_setup(joint, Press(), ["22 mm"]))
    <drawing: Closed die and the outline that it leaves, to scale>

Every length is the library's; here they only become points. Parts differ by hatching and carry their names, so that no
colour is needed to read them.
"""
from html import escape
from itertools import count
from math import cos, pi, sin
from typing import Any

import ferrule

__all__ = ["Drawing", "section", "die"]
WIDTH, RADIUS = 420.0, 150.0  # of the drawing, and of what is largest in it
CENTRE = WIDTH / 2, 178.0
_number = count(1)  # of drawings: a page may hold many, and each has hatchings of its own

STYLE = """<style>.ferrule-drawing text{{font:12px sans-serif;fill:#16202a}}
.ferrule-drawing .line{{stroke:#16202a;stroke-width:.7;fill:none}}.ferrule-drawing .edge{{stroke:#16202a;stroke-width:1.1}}
.ferrule-drawing .broken{{stroke:#16202a;stroke-width:.9;fill:none;stroke-dasharray:6 3}}.ferrule-drawing .ink{{fill:#16202a}}
.ferrule-drawing .paper{{fill:#fff}}.ferrule-drawing .die{{fill:#dde1e4;stroke:#16202a;stroke-width:.8}}</style>
<defs><pattern id="{key}-ferrule" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
<rect width="7" height="7" fill="#c9d6e2"/><path d="M0 0V7" stroke="#3b5366" stroke-width="1.2"/></pattern>
<pattern id="{key}-hose" width="6" height="6" patternUnits="userSpaceOnUse"><rect width="6" height="6" fill="#e9ddcb"/>
<circle cx="2" cy="2" r=".9" fill="#6a563c"/><circle cx="5" cy="5" r=".9" fill="#6a563c"/></pattern>
<pattern id="{key}-stem" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
<rect width="7" height="7" fill="#e8eaec"/><path d="M0 0V7" stroke="#7b858e" stroke-width="1.2"/></pattern></defs>"""


class Drawing:
    """A drawing: .svg is its text."""

    def __init__(self, title: str, about: str, height: float, body: str, key: str) -> None:
        self.title = title
        self.svg = (f'<svg class="ferrule-drawing" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {height:g}" '
                    f'width="{WIDTH:g}" height="{height:g}" role="img" aria-labelledby="{key}-title {key}-about" '
                    f'style="background:#fff"><title id="{key}-title">{escape(title)}</title>'
                    f'<desc id="{key}-about">{escape(about)}</desc>{STYLE.format(key=key)}{body}</svg>')

    def __repr__(self) -> str:
        return f"<drawing: {self.title}>"

    def _repr_svg_(self) -> str:
        return self.svg

    def save(self, path: Any) -> None:
        """Write the drawing as a file."""
        with open(path, "w", encoding="utf-8") as file:
            file.write(self.svg)


# ---- pieces --------------------------------------------------------------------------------------------------


def _n(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _at(radius: float, angle: float) -> tuple[float, float]:
    """A point round the centre; angles from the right, against the clock."""
    return CENTRE[0] + radius * cos(angle), CENTRE[1] - radius * sin(angle)


def _xy(point: tuple[float, float]) -> str:
    return f"{_n(point[0])} {_n(point[1])}"


def _half(radius: float, inner: float, side: int, style: str) -> str:
    """Half of a ring: side -1 the left half, 1 the right one."""
    x, y = CENTRE
    out, back = (1, 0) if side > 0 else (0, 1)
    r, b = _n(radius), _n(inner)
    path = f"M{_n(x)} {_n(y - radius)}A{r} {r} 0 0 {out} {_n(x)} {_n(y + radius)}"
    path += f"V{_n(y + inner)}A{b} {b} 0 0 {back} {_n(x)} {_n(y - inner)}Z" if inner > 0 else "Z"
    return f'<path d="{path}" {style}/>'


def _text(x: float, y: float, words: str, anchor: str = "middle", more: str = "") -> str:
    return f'<text x="{_n(x)}" y="{_n(y)}" text-anchor="{anchor}" {more}>{escape(words)}</text>'


def _lead(tip: tuple[float, float], x: float, y: float, words: str) -> str:
    """A part's name with a line to it."""
    left = x < CENTRE[0]
    elbow = x + (-4 if not left else 4)
    return (f'<path class="line" d="M{_n(elbow)} {_n(y + (5 if y < CENTRE[1] else -13))}L{_xy(tip)}"/>'
            f'<circle class="ink" cx="{_n(tip[0])}" cy="{_n(tip[1])}" r="2"/>'
            + _text(x, y, words, "start" if left else "end", 'font-weight="bold"'))


def _dimension(half: float, y: float, side: int, words: str) -> str:
    """A radius drawn, a diameter written: from the middle line to the edge, with its diameter beside it."""
    x, edge = CENTRE[0], CENTRE[0] + side * half
    arrow = f"M{_n(edge)} {_n(y)}l{_n(-side * 7)} -2.6v5.2z"
    return (f'<path class="line" d="M{_n(edge)} {_n(CENTRE[1])}V{_n(y + 4)}M{_n(x)} {_n(y)}H{_n(edge)}"/><path class="ink" d="{arrow}"/>'
            + _text(x + side * 6, y - 4, words, "start" if side > 0 else "end", 'paint-order="stroke" stroke="#fff" stroke-width="3"'))


def _bar(scale: float, y: float) -> str:
    """A bar of 1, 2 or 5 times a power of ten millimetres, at most 90 units long."""
    sizes = [first * 10.0 ** power for power in range(-3, 7) for first in (1, 2, 5)]
    size = max((s for s in sizes if s * scale <= 90), default=sizes[0])
    return (f'<path class="edge" fill="none" d="M12 {_n(y - 5)}v5h{_n(size * scale)}v-5"/>'
            + _text(18 + size * scale, y, f"{size:g} mm", "start"))


# ---- a joint before and after ----------------------------------------------------------------------------------


def section(joint: Any, crimp: Any = None, model: Any = None) -> Drawing:
    """A joint across its axis, to scale: on the left before the crimp, on the right after it.

    joint: a Joint or an Order. crimp: a crimp diameter, or a Setup, of which its target is taken; without it only the joint
    before the crimp is drawn. model: what the ferrule's metal does, as in crimped_wall(). The hose is drawn as it sits on
    the stem, with its wall unchanged in area.
    """
    if isinstance(joint, ferrule.Order):
        model, joint = joint.model if model is None else model, joint.joint
    on_stem, diameter = ferrule.fitted_outside(joint), None
    if crimp is not None:
        diameter = crimp.target if isinstance(crimp, ferrule.Setup) else ferrule.Length(crimp)
    wall, stem = joint.ferrule.wall, joint.stem.outside
    outside = joint.ferrule.outside or on_stem + 2 * wall
    scale = RADIUS / max(outside.mm, diameter.mm if diameter else 0.0)  # of diameters to radii on the drawing
    key = f"ferrule-{next(_number)}"
    body, words = _before(joint, on_stem, outside, scale, key, whole=diameter is None), [
        f"before: stem {stem:.2f mm}, hose on the stem {on_stem:.2f mm}, ferrule "
        + (f"{outside:.2f mm}" if joint.ferrule.outside else "not measured outside, drawn as if it touched the hose")]
    height = 420.0
    if diameter is not None:
        after = ferrule.crimped_wall(joint, diameter, model)
        bore = diameter - 2 * after
        share = ferrule.compression(joint, diameter, model)
        walls = (f"hose wall {(joint.hose.outside - joint.hose.inside) / 2:.2f mm}, on the stem {(on_stem - stem) / 2:.2f mm}, "
                 f"crimped {(bore - stem) / 2:.2f mm}")
        body += _after(joint, diameter, bore, scale, key)
        words.append(f"after: crimp diameter {diameter:.2f mm}, ferrule bore {bore:.2f mm}, wall {after:.2f mm}; "
                     f"{walls}; compression {share:.1f %}")
        body += f'<path class="broken" d="M{_n(CENTRE[0])} 4V{_n(CENTRE[1] + RADIUS + 12)}"/>'
        body += (_text(CENTRE[0] - 12, 16, "before", "end") + _text(CENTRE[0] + 12, 16, "after", "start")
                 + _text(CENTRE[0], 424, f"compression {share:.1f %}") + _text(CENTRE[0], 440, walls))
        height = 452.0
    body += _lead(_at((stem + joint.stem.bore).mm / 2 * scale, 5.5), WIDTH - 6, 322, "stem")
    return Drawing("Joint across its axis, to scale", "; ".join(words), height, body + _bar(2 * scale, 404), key)


def _rings(rings: list[tuple[str, float, float]], side: int, key: str) -> str:
    return "".join(_half(outer, inner, side, f'class="edge" fill="url(#{key}-{name})"') for name, outer, inner in rings)


def _ring(name: str, outer: float, inner: float, key: str) -> str:
    """A whole ring, its hole in the colour of the paper; what lies inside is drawn after it."""
    circle = f'<circle cx="{CENTRE[0]:g}" cy="{CENTRE[1]:g}" r="'
    hole = f'{circle}{_n(inner)}" class="paper edge"/>' if inner > 0 else ""
    return f'{circle}{_n(outer)}" class="edge" fill="url(#{key}-{name})"/>{hole}'


def _before(joint: Any, on_stem: Any, outside: Any, scale: float, key: str, whole: bool) -> str:
    stem, wall = joint.stem.outside, joint.ferrule.wall
    half = {name: length.mm * scale for name, length in
            {"stem": stem, "bore": joint.stem.bore, "hose": on_stem, "ferrule": outside, "inner": outside - 2 * wall}.items()}
    rings = [("ferrule", half["ferrule"], max(half["inner"], half["stem"])), ("hose", half["hose"], half["stem"]),
             ("stem", half["stem"], half["bore"])]
    body = "".join(_ring(*ring, key) for ring in rings) if whole else _rings(rings, -1, key)
    body += _lead(_at((half["ferrule"] + half["inner"]) / 2, 2.45), 6, 18, "ferrule")
    body += _lead(_at((half["hose"] + half["stem"]) / 2, 3.66), 6, 322, "hose")
    for y, name, words in ((346, "stem", f"stem {stem:.2f mm}"), (366, "hose", f"hose {on_stem:.2f mm}"),
                           (386, "ferrule", f"ferrule {outside:.2f mm}" if joint.ferrule.outside else "ferrule not measured")):
        body += _across(half[name], y, words) if whole else _dimension(half[name], y, -1, words)
    return body


def _after(joint: Any, diameter: Any, bore: Any, scale: float, key: str) -> str:
    crimp, inner, stem = diameter.mm * scale, bore.mm * scale, joint.stem.outside.mm * scale
    body = _rings([("ferrule", crimp, inner), ("hose", inner, stem), ("stem", stem, joint.stem.bore.mm * scale)], 1, key)
    body += _dimension(inner, 366, 1, f"bore {bore:.2f mm}") + _dimension(crimp, 386, 1, f"crimp {diameter:.2f mm}")
    return body + _lead(_at((crimp + inner) / 2, 0.7), WIDTH - 6, 18, "crimped")


# ---- the shape that the die leaves -------------------------------------------------------------------------------


def die(setup: Any) -> Drawing:
    """The closed die of a set-up and the outline that it leaves, to scale; without a die the round target alone.

    The closing diameter is drawn where the springback is known, otherwise the target.
    """
    key = f"ferrule-{next(_number)}"
    closed = setup.closing.value if setup.closing else setup.target
    name = "closes to" if setup.closing else "target"
    if not (setup.die.found and setup.shape):
        scale = RADIUS / setup.target.mm
        body = f'<circle cx="{CENTRE[0]:g}" cy="{CENTRE[1]:g}" r="{_n(RADIUS / 2)}" class="broken"/>'
        body += _across(RADIUS / 2, 346, f"target {setup.target:.2f mm}") + _text(CENTRE[0], 20, "no die on the rack is near enough")
        return Drawing("Target of a set-up, to scale", f"target {setup.target:.2f mm}; no die", 420, body + _bar(scale, 404), key)
    scale = 0.74 * 2 * RADIUS / closed.mm
    shape, size = setup.shape.value, setup.die.die.size
    outline, segments = _faces(setup, shape, size, scale)
    body = f'<path class="die" d="{segments}"/><path class="edge" fill="url(#{key}-ferrule)" d="{outline}"/>'
    body += f'<circle cx="{CENTRE[0]:g}" cy="{CENTRE[1]:g}" r="{_n(closed.mm * scale / 2)}" class="broken"/>'
    body += _lead(_at(closed.mm * scale / 2 + 14, 2.3), 6, 18, f"die {size:.2f mm}")
    body += _lead(_at(closed.mm * scale / 2 * 0.9, 0.82), WIDTH - 6, 18, "ferrule")
    body += _across(closed.mm * scale / 2, 358, f"{name} {closed:.2f mm}")
    body += _text(CENTRE[0], 384, f"{setup.segments} segments, gap {shape.gap:.2f mm}, lobe {shape.lobe_height:.3f mm}; broken line: round")
    words = (f"die of size {size:.2f mm} with {setup.segments} segments, {name} {closed:.2f mm}, gap {shape.gap:.2f mm}, "
             f"lobe {shape.lobe_height:.3f mm}")
    return Drawing("Closed die and the outline that it leaves, to scale", words, 420, body + _bar(scale, 408), key)


def _faces(setup: Any, shape: Any, size: Any, scale: float) -> tuple[str, str]:
    """The ferrule's outline, an arc for each segment and a straight line across each gap; and the segments."""
    outline, segments, pitch = "", "", 2 * pi / setup.segments
    arc = _n(size.mm / 2 * scale)
    for number in range(setup.segments):
        middle = pi / 2 + (number + 0.5) * pitch
        first, last = (_at(shape.edge_radius.mm * scale, middle + way * shape.edge_angle.rad) for way in (-1, 1))
        face = f"{_xy(first)}A{arc} {arc} 0 0 0 {_xy(last)}"
        outline += ("L" if outline else "M") + face
        depth = 30.0
        back = [(p[0] + depth * cos(middle + way * pitch / 2), p[1] - depth * sin(middle + way * pitch / 2))
                for p, way in ((last, 1), (first, -1))]
        segments += f"M{face}L{_xy(back[0])}L{_xy(back[1])}Z"
    return outline + "Z", segments


def _across(half: float, y: float, words: str) -> str:
    """A diameter with its dimension line below."""
    left, right = CENTRE[0] - half, CENTRE[0] + half
    heads = f"M{_n(left)} {_n(y)}l7 -2.6v5.2zM{_n(right)} {_n(y)}l-7 -2.6v5.2z"
    return (f'<path class="line" d="M{_n(left)} {_n(CENTRE[1])}V{_n(y + 4)}M{_n(right)} {_n(CENTRE[1])}V{_n(y + 4)}M{_n(left)} {_n(y)}H{_n(right)}"/>'
            f'<path class="ink" d="{heads}"/>' + _text(CENTRE[0], y - 5, words, more='paint-order="stroke" stroke="#fff" stroke-width="3"'))
