# SPDX-License-Identifier: MIT
"""Drawing to scale of a crimp across its axis, as inline SVG: stem, hose, ferrule, dies, dimensions, scale bars.

Every length is the library's; here they are only turned into points. Parts differ by hatching and carry their names,
so that the drawing can be read without colour.
"""
from dataclasses import dataclass
from html import escape
from math import cos, pi, sin

WIDTH = 340.0          # units of the drawing, and pixels on a narrow screen
CENTRE = (170.0, 132.0)
FERRULE_RADIUS = 92.0  # units, so that the dies round it fit
DIE_BLOCK = 26.0       # units of a die's segment that are drawn


@dataclass(frozen=True)
class Crimp:
    """What is drawn; all lengths in mm, zero where there is none."""
    order: str
    diameter: float
    wall: float
    stem: float
    stem_bore: float
    segments: int
    die_size: float       # 0: no die
    edge_radius: float
    edge_angle: float     # rad
    gap: float
    lobe_height: float
    words: dict           # text of each dimension, as it is printed elsewhere


def _number(value):
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _point(centre, radius, angle):
    """Point on a circle; angles count from the right, against the clock, as seen on the page."""
    return centre[0] + radius * cos(angle), centre[1] - radius * sin(angle)


def _text_of(point):
    return f"{_number(point[0])} {_number(point[1])}"


def _circle(centre, radius, attributes):
    return f'<circle cx="{_number(centre[0])}" cy="{_number(centre[1])}" r="{_number(radius)}" {attributes}/>'


def _label(x, y, text, attributes=""):
    return f'<text x="{_number(x)}" y="{_number(y)}" {attributes}>{escape(text)}</text>'


def _line(start, end, attributes='class="thin"'):
    return (f'<line x1="{_number(start[0])}" y1="{_number(start[1])}" '
            f'x2="{_number(end[0])}" y2="{_number(end[1])}" {attributes}/>')


# ---- outline of the dies -----------------------------------------------------------------------------------

def _middles(crimp):
    """Directions of the middles of the segments; a gap looks straight up."""
    step = 2 * pi / crimp.segments
    return [pi / 2 + (number + 0.5) * step for number in range(crimp.segments)]


def _arc(crimp, centre, scale, middle):
    """Edges of a segment's face and the path along its arc."""
    first = _point(centre, crimp.edge_radius * scale, middle - crimp.edge_angle)
    last = _point(centre, crimp.edge_radius * scale, middle + crimp.edge_angle)
    radius = _number(crimp.die_size / 2 * scale)
    return first, last, f"A{radius} {radius} 0 0 0 {_text_of(last)}"


def _ferrule_outline(crimp, centre, scale):
    """Closed path: an arc for each segment, a straight line across each gap."""
    if not crimp.die_size:
        radius = crimp.diameter / 2 * scale
        right, left = _point(centre, radius, 0), _point(centre, radius, pi)
        size = _number(radius)
        return f"M{_text_of(right)}A{size} {size} 0 1 0 {_text_of(left)}A{size} {size} 0 1 0 {_text_of(right)}Z"
    path = ""
    for middle in _middles(crimp):
        first, _, arc = _arc(crimp, centre, scale, middle)
        path += ("L" if path else "M") + _text_of(first) + arc
    return path + "Z"


def _segment(crimp, centre, scale, middle, depth):
    """Closed path of one segment: its face, and straight sides half a pitch to either side of its middle."""
    half = pi / crimp.segments
    first, last, arc = _arc(crimp, centre, scale, middle)
    back = [_point(edge, depth, middle + side) for edge, side in ((last, half), (first, -half))]
    return f'M{_text_of(first)}{arc}L{_text_of(back[0])}L{_text_of(back[1])}Z'


def _dies(crimp, centre, scale, depth):
    if not crimp.die_size:
        return ""
    path = "".join(_segment(crimp, centre, scale, middle, depth) for middle in _middles(crimp))
    return f'<path class="die" d="{path}"/>'


# ---- the section -------------------------------------------------------------------------------------------

def _ring(outline, centre, bore, attributes):
    """An outline with a round hole."""
    right, left = _point(centre, bore, 0), _point(centre, bore, pi)
    size = _number(bore)
    hole = f"M{_text_of(right)}A{size} {size} 0 1 0 {_text_of(left)}A{size} {size} 0 1 0 {_text_of(right)}Z"
    return f'<path fill-rule="evenodd" d="{outline}{hole}" {attributes}/>'


def _parts(crimp, centre, scale, key):
    bore = (crimp.diameter / 2 - crimp.wall) * scale
    drawn = [
        _circle(centre, bore, f'class="edge" fill="url(#hose-{key})"'),
        _circle(centre, crimp.stem / 2 * scale, f'class="edge" fill="url(#stem-{key})"'),
        _ring(_ferrule_outline(crimp, centre, scale), centre, bore, f'class="edge" fill="url(#ferrule-{key})"'),
    ]
    if crimp.stem_bore:
        drawn.append(_circle(centre, crimp.stem_bore / 2 * scale, 'class="edge" fill="#fff"'))
    return drawn


def _dimension(x, half, top, y, text):
    """A dimension line from x - half to x + half at height y, with lines that lead down from `top`."""
    left, right = x - half, x + half
    arrow = 5 if half > 12 else 3
    heads = "".join(f"M{_number(tip)} {_number(y)}l{_number(way * arrow)} -2.2v4.4z"
                    for tip, way in ((left, 1), (right, -1)))
    return [
        _line((left, top), (left, y + 3)), _line((right, top), (right, y + 3)),
        _line((left, y), (right, y)), f'<path class="ink" d="{heads}"/>',
        _label(x, y - 4, text, 'text-anchor="middle" class="dimension"'),
    ]


def _names(crimp, scale, key):
    """Names of the parts, each with a line to its part."""
    bore = crimp.diameter / 2 - crimp.wall
    places = [
        ("ferrule", bore + crimp.wall / 2, 2.72, 4, 22),
        ("hose", (bore + crimp.stem / 2) / 2, 3.44, 4, 246),
        ("stem", (crimp.stem + crimp.stem_bore) / 4, 5.98, WIDTH - 4, 246),
    ]
    if crimp.die_size:
        places.append(("die", crimp.diameter / 2 + DIE_BLOCK / scale / 2, 0.40, WIDTH - 4, 22))
    drawn = []
    for name, radius, angle, x, y in places:
        tip = _point(CENTRE, radius * scale, angle)
        start = (x + 3 if x < CENTRE[0] else x - 3, y + 3 if y < CENTRE[1] else y - 11)
        drawn += [_line(start, tip, 'class="lead"'), _circle(tip, 1.8, 'class="ink"'),
                  _label(x, y, name, f'class="name" text-anchor="{"start" if x < CENTRE[0] else "end"}"')]
    return drawn


def _scale_bar(x, y, scale, longest):
    """A bar of 1, 2 or 5 times a power of ten mm, at most `longest` units, with its length."""
    sizes = [base * power for power in (0.01, 0.1, 1, 10, 100, 1000) for base in (1, 2, 5)]
    size = max((size for size in sizes if size * scale <= longest), default=sizes[0])
    end = x + size * scale
    return [
        f'<path class="bar" d="M{_number(x)} {_number(y - 4)}v4H{_number(end)}v-4"/>',
        _label(end + 5, y, f"{size:g} mm", 'class="dimension"'),
    ]


def _section(crimp, key):
    scale = FERRULE_RADIUS / (crimp.diameter / 2)
    bore = crimp.diameter / 2 - crimp.wall
    x, y = CENTRE
    drawn = [_dies(crimp, CENTRE, scale, DIE_BLOCK)] + _parts(crimp, CENTRE, scale, key)
    drawn += _names(crimp, scale, key)
    drawn += _dimension(x, crimp.stem / 2 * scale, y, 276, crimp.words["stem"])
    drawn += _dimension(x, bore * scale, y, 294, crimp.words["bore"])
    drawn += _dimension(x, FERRULE_RADIUS, y, 312, crimp.words["diameter"])
    return drawn + _scale_bar(10, 334, scale, 90)


# ---- the detail between two segments -----------------------------------------------------------------------

def _detail(crimp, key, top):
    """From the middle of one segment to the middle of the next, enlarged."""
    left, width, height = 8.0, WIDTH - 16.0, 92.0
    scale = width / (crimp.diameter * sin(pi / crimp.segments))
    crown = top + 46.0
    centre = (WIDTH / 2, crown + crimp.diameter / 2 * scale)
    radius = crimp.diameter / 2 * scale
    outline = _ferrule_outline(crimp, centre, scale)
    bore = (crimp.diameter / 2 - crimp.wall) * scale
    drawn = [
        f'<clipPath id="frame-{key}"><rect x="{_number(left)}" y="{_number(top)}" '
        f'width="{_number(width)}" height="{_number(height)}"/></clipPath>',
        f'<g clip-path="url(#frame-{key})">',
        _dies(crimp, centre, scale, radius),
        _circle(centre, bore, f'class="edge" fill="url(#hose-{key})"'),
        _ring(outline, centre, bore, f'class="edge" fill="url(#ferrule-{key})"'),
        _circle(centre, radius, 'class="target"'), "</g>",
        f'<rect class="frame" x="{_number(left)}" y="{_number(top)}" width="{_number(width)}" '
        f'height="{_number(height)}"/>',
    ]
    times = scale / (FERRULE_RADIUS / (crimp.diameter / 2))
    words = crimp.words["gap"] + ", " + crimp.words["lobe"]
    drawn += [
        _label(WIDTH / 2, top + height + 14, words, 'text-anchor="middle" class="dimension"'),
        _label(WIDTH / 2, top + height + 52, f"{times:.1f} times the upper drawing; broken line: round",
               'text-anchor="middle" class="dimension"'),
    ]
    return drawn + _scale_bar(10, top + height + 32, scale, 40)


# ---- the drawing -------------------------------------------------------------------------------------------

STYLE = """
.drawing text{font:11px sans-serif;fill:#111}
.drawing .name{font-weight:bold;font-size:12px}
.drawing .dimension{paint-order:stroke;stroke:#fff;stroke-width:3px}
.drawing .edge{stroke:#111;stroke-width:1}
.drawing .die{fill:#d9d9d9;stroke:#111;stroke-width:.8}
.drawing .thin{stroke:#111;stroke-width:.5}
.drawing .lead{stroke:#111;stroke-width:.7}
.drawing .ink{fill:#111}
.drawing .bar{fill:none;stroke:#111;stroke-width:1.6}
.drawing .target{fill:none;stroke:#111;stroke-width:.9;stroke-dasharray:5 3}
.drawing .frame{fill:none;stroke:#111;stroke-width:.8}
"""


def _hatchings(key):
    """Ferrule: slanted lines; hose: dots; stem: crossed lines."""
    return (
        f'<defs><pattern id="ferrule-{key}" width="6" height="6" patternUnits="userSpaceOnUse" '
        'patternTransform="rotate(45)"><rect width="6" height="6" fill="#cfe0ee"/>'
        '<line x1="0" y1="0" x2="0" y2="6" stroke="#24475f" stroke-width="1.1"/></pattern>'
        f'<pattern id="hose-{key}" width="6" height="6" patternUnits="userSpaceOnUse">'
        '<rect width="6" height="6" fill="#f1e3cf"/><circle cx="1.5" cy="1.5" r=".9" fill="#5b4a33"/>'
        '<circle cx="4.5" cy="4.5" r=".9" fill="#5b4a33"/></pattern>'
        f'<pattern id="stem-{key}" width="7" height="7" patternUnits="userSpaceOnUse" '
        'patternTransform="rotate(45)"><rect width="7" height="7" fill="#eeeeee"/>'
        '<path d="M0 0V7M0 0H7" stroke="#555" stroke-width=".9"/></pattern></defs>'
    )


def draw(crimp):
    """The SVG element of a crimp."""
    key = escape(crimp.order, quote=True)
    drawn = _section(crimp, key)
    height = 342
    about = f"{crimp.words['diameter']}; {crimp.words['bore']}; {crimp.words['stem']}; "
    if crimp.die_size:
        drawn += _detail(crimp, key, 352)
        height = 504
        about += (f"{crimp.segments} die segments of size {crimp.words['die']}; {crimp.words['gap']}; "
                  f"{crimp.words['lobe']}. Below: the place between two segments, enlarged; the broken line is "
                  "round. The dies are drawn closed; the crimp is larger by the springback.")
    else:
        about += "no die is shown, so that the ferrule is drawn round."
    return (
        f'<svg class="drawing" viewBox="0 0 {WIDTH:g} {height}" role="img" '
        f'aria-labelledby="title-{key} about-{key}" xmlns="http://www.w3.org/2000/svg">'
        f'<title id="title-{key}">Crimp of order {key}, across the axis, to scale</title>'
        f'<desc id="about-{key}">{escape(about)}</desc>'
        + _hatchings(key) + "".join(drawn) + "</svg>"
    )
