# SPDX-License-Identifier: MIT
"""Pictures of the report, drawn by matplotlib, as SVG that stands inside the page: colours are the page's, for light, dark and paper.

Matplotlib writes its styles into attributes that a page with a strict policy refuses, and gives the same names in each picture: both
are rewritten here. Text stays text, so that it can be searched and read aloud.
"""
import io
from xml.etree import ElementTree

import matplotlib

matplotlib.use("svg")
import ferrule  # noqa: E402
import matplotlib.pyplot as plot  # noqa: E402
from matplotlib.ticker import MaxNLocator  # noqa: E402

from judge import CHARTING, STRENGTHS, on_one_sheet, shown_so_far  # noqa: E402

# Stand-ins for the page's colours; nothing else is drawn in these.
INK, SOFT, FAINT, BAD = "#010203", "#020304", "#030405", "#040506"
SERIES = ("#050607", "#060708", "#070809", "#08090a")
MARKERS = ("o", "s", "^", "D")  # distinguished by shape as well as by colour
COLOURS = {INK: "var(--ink)", SOFT: "var(--soft)", FAINT: "var(--faint)", BAD: "var(--bad)",
           **{colour: f"var(--series-{place})" for place, colour in enumerate(SERIES)}}
PLAIN = {"--ink": "#14181d", "--soft": "#566370", "--faint": "#c3cbd2", "--bad": "#b3261e", "--series-0": "#0b5c8a",
         "--series-1": "#b3541e", "--series-2": "#5b3f99", "--series-3": "#37711f"}
LETTERS = 44  # of a name in a picture; the page has the whole of it

plot.rcParams.update({
    "svg.fonttype": "none", "text.parse_math": False, "font.size": 9, "axes.spines.top": False, "axes.spines.right": False,
    "axes.edgecolor": SOFT, "axes.labelcolor": INK, "xtick.color": SOFT, "ytick.color": SOFT, "xtick.labelcolor": INK,
    "ytick.labelcolor": INK, "text.color": INK, "legend.frameon": False, "legend.fontsize": 8.5, "axes.linewidth": 0.8})

SVG = "http://www.w3.org/2000/svg"
HREF = "{http://www.w3.org/1999/xlink}href"


def short(text, beside=1):
    """A name for a picture that has so many of them beside each other: no longer than there is space for."""
    letters = max(3, LETTERS // beside)
    return text if len(text) <= letters else text[:letters - 1] + "…"


# ---- from matplotlib's file to the page's --------------------------------------------------------------------

def _coloured(value):
    return COLOURS.get(value, value)


def _split_style(element):
    """The style attribute as attributes of its own; a font becomes its size."""
    for rule in filter(None, map(str.strip, element.attrib.pop("style", "").split(";"))):
        key, value = (part.strip() for part in rule.split(":", 1))
        if key == "font":
            element.set("font-size", next(word for word in value.split() if word.endswith("px")).removesuffix("px"))
        else:
            element.set(key, _coloured(value))


def _rename(element, prefix):
    """Names that are this picture's only."""
    if "id" in element.attrib:
        element.set("id", prefix + element.get("id"))
    if HREF in element.attrib:
        element.set("href", "#" + prefix + element.attrib.pop(HREF).removeprefix("#"))
    for key, value in element.items():
        if value.startswith("url(#"):
            element.set(key, value.replace("url(#", "url(#" + prefix))


def _without(tree, names):
    for parent in list(tree.iter()):
        for child in [child for child in parent if child.tag in names]:
            parent.remove(child)


def to_page(figure, name, about):
    """The picture as an element of the page; `about` is what it shows, for those who cannot see it."""
    text = io.BytesIO()
    figure.savefig(text, format="svg", transparent=True, metadata={"Date": None, "Creator": None})
    plot.close(figure)
    ElementTree.register_namespace("", SVG)
    tree = ElementTree.fromstring(text.getvalue())
    _without(tree, {f"{{{SVG}}}metadata", f"{{{SVG}}}style"})
    for element in tree.iter():
        _split_style(element)
        _rename(element, f"{name}-")
    for size in ("width", "height"):
        tree.attrib.pop(size)
    tree.set("class", "picture")
    tree.set("role", "img")
    tree.set("aria-label", about)
    return ElementTree.tostring(tree, encoding="unicode")


def _open(name, height, rows=1, columns=1, **settings):
    plot.rcParams["svg.hashsalt"] = name
    figure, axes = plot.subplots(rows, columns, figsize=(4.7, height), layout="constrained", **settings)
    return figure, axes


def _legend(axes, columns):
    axes.legend(loc="lower left", bbox_to_anchor=(-0.02, 1.0), ncols=columns, handlelength=1.2, columnspacing=1.0, borderaxespad=0.2)


# ---- the pictures ------------------------------------------------------------------------------------------
# Each takes what was found by the library and draws it; nothing is computed here but places on paper.

def short_run(series, sums, signals):
    """All dies on one sheet. series: name, places, scores of each; sums: places, what was above, below; signals: (place, score)."""
    figure, (axes, below) = _open("short-run", 4.2, rows=2, sharex=True, height_ratios=(3, 2))
    for place, (name, places, scores) in enumerate(series):
        axes.plot(places, scores, MARKERS[place % 4], color=SERIES[place % 4], ms=4.5, label=short(name, 2))
    if signals:
        axes.plot(*zip(*signals), "o", mfc="none", mec=BAD, mew=1.4, ms=10, label="signal")
    places, up, down = sums
    limit = CHARTING["decision"]
    below.step(places, up, color=INK, lw=1.3, where="mid")
    below.step(places, [-low for low in down], color=INK, lw=1.3, where="mid")
    below.fill_between(places, limit, up, where=[high > limit for high in up], step="mid", color=BAD, alpha=0.35, lw=0)
    below.fill_between(places, -limit, [-low for low in down], where=[low > limit for low in down], step="mid", color=BAD, alpha=0.35, lw=0)
    for part, end in ((axes, CHARTING["beyond"]), (below, limit)):
        part.axhline(0, color=FAINT, lw=0.8)
        for line in (-end, end):
            part.axhline(line, color=SOFT, lw=0.9, ls="--")
    axes.set(ylabel="score of a crimp")
    below.set(ylabel="added up", xlabel="crimps in the order they were measured")
    _legend(axes, 2)
    return figure


def index_over_pieces(panels, asked):
    """Index with its limits over the number of pieces, a panel for each press: (name, counts, values, lower, upper)."""
    figure, all_axes = _open("index", 2.7, columns=len(panels), sharey=True)
    for place, (axes, (name, counts, values, lower, upper)) in enumerate(zip(_each(all_axes), panels)):
        axes.fill_between(counts, lower, upper, color=SERIES[place % 4], alpha=0.18, lw=0)
        axes.plot(counts, values, "-", color=SERIES[place % 4], lw=1.6)
        axes.plot(counts, lower, "--", color=SERIES[place % 4], lw=1.2)
        if asked:
            axes.axhline(asked, color=INK, lw=0.9)
        axes.set_title(short(name, len(panels)), fontsize=9, color=INK)
        axes.set_xlabel("crimps")
        axes.xaxis.set_major_locator(MaxNLocator(3, integer=True))
    _each(all_axes)[0].set(ylabel="index", ylim=(0, 4))
    return figure


def gauge_study(people):
    """Readings of each person, off the mean of all readings of that part: (name, deviations in micrometres)."""
    figure, axes = _open("gauge", 2.7)
    for place, (_, deviations) in enumerate(people):
        shifts = [place + 0.5 * ((i + 0.5) / len(deviations) - 0.5) for i in range(len(deviations))]
        axes.plot(shifts, deviations, MARKERS[place % 4], color=SERIES[place % 4], ms=4)
        axes.plot([place - 0.32, place + 0.32], [sum(deviations) / len(deviations)] * 2, "-", color=INK, lw=2)
    axes.axhline(0, color=FAINT, lw=0.8)
    axes.set_xticks(range(len(people)), [short(name, len(people)) for name, _ in people])
    axes.set(ylabel="off the part's mean, in µm", xlim=(-0.6, len(people) - 0.4))
    return figure


def burst_bounds(bursts, stopped, limit, bounds):
    """Bursts, the limit, and the pressure that the share holds by each model: bounds are (name, pressure or None), in bar."""
    figure, axes = _open("bursts", 2.5)
    rows = len(bounds)
    axes.plot(bursts, [rows] * len(bursts), "o", color=SERIES[0], ms=5)
    axes.plot(stopped, [rows] * len(stopped), ">", mfc="none", mec=SERIES[0], ms=6)
    for row, (_, bound) in enumerate(reversed(bounds)):
        if bound is None:
            axes.annotate("shows nothing yet", (limit, row), xytext=(6, 0), textcoords="offset points", va="center", color=INK)
        else:
            axes.plot([bound], [row], "|", color=SERIES[1], ms=16, mew=3)
    axes.axvline(limit, color=BAD, lw=1.4)
    axes.annotate("has to hold", (limit, rows + 0.45), xytext=(4, 0), textcoords="offset points", va="center", color=BAD)
    axes.set_yticks(range(rows + 1), [*(name for name, _ in reversed(bounds)), "bursts"])
    axes.set(xlabel="pressure in bar", ylim=(-0.6, rows + 0.8))
    axes.margins(x=0.08)
    return figure


def _each(axes):
    return list(getattr(axes, "flat", [axes]))


# ---- what is drawn of a batch ------------------------------------------------------------------------------

SUMS = {ferrule.ChartSignal.CUSUM_UP, ferrule.ChartSignal.CUSUM_DOWN}


def _draw_short_run(judged):
    scored = [(place, point, row) for place, (point, row) in enumerate(zip(on_one_sheet(judged), judged.batch.rows), 1)
              if point.score == point.score]
    series = []
    for lot in judged.presses:
        drawn = [(place, point.score) for place, point, row in scored if row["press"] == lot.name]
        series.append((lot.name, [place for place, _ in drawn], [score for _, score in drawn]))
    sums = [place for place, _, _ in scored], [point.up for _, point, _ in scored], [point.down for _, point, _ in scored]
    signals = [(place, point.score) for place, point, _ in scored if set(point.signals) - SUMS]
    return short_run(series, sums, signals)


def _draw_index(judged):
    panels = []
    for lot in judged.presses:
        counts = range(len(lot.rows), 2, -max(1, len(lot.rows) // POINTS))
        found = [(count, shown_so_far(judged, lot, count)) for count in reversed(counts)]
        found = [(count, index.value, index.lower, INFINITE if index.upper != index.upper else index.upper) for count, index in found if index]
        panels.append((lot.name, *([list(column) for column in zip(*found)] or [[], [], [], []])))
    return index_over_pieces(panels, judged.tables.batch["index"])


def _draw_gauge(judged):
    means, readings = {}, judged.tables.study
    for row in readings:
        means.setdefault(row["part"], []).append(row["diameter"].mm)
    people = {}
    for row in readings:
        mean = sum(means[row["part"]]) / len(means[row["part"]])
        people.setdefault(row["person"], []).append(1000 * (row["diameter"].mm - mean))
    return gauge_study(list(people.items()))


def _draw_bursts(judged):
    rows = judged.tables.bursts
    bounds = []
    for strength, verdict in judged.bursts.items():
        shown = not isinstance(verdict, ferrule.Error) and verdict.bound.bar == verdict.bound.bar
        bounds.append((STRENGTHS[strength], verdict.bound.bar if shown else None))
    return burst_bounds([row["pressure"].bar for row in rows if row["burst"]], [row["pressure"].bar for row in rows if not row["burst"]],
                        judged.bursts["WEIBULL"].limit.bar, bounds)


POINTS = 60  # of a line in a picture: each is a sample of its own
INFINITE = 1e3  # an upper limit that there is none of: beyond the picture
DRAWN = {
    "short-run": (_draw_short_run, "Does a press wander? All dies on one sheet",
                  "Each mark is a crimp, measured against those of its own press and die before it: near 0 is as before. Beyond a broken line, "
                  "or ringed, something changed. Below, what was above or below 0 is added up: a small move that stays grows there."),
    "index": (_draw_index, "Is it shown yet? What the pieces so far show",
              "The thick line is what the crimps look like, the broken one what they show for certain enough. It has to reach "
              "the black line, the index asked. More crimps lift it; a press that moved does not."),
    "gauge": (_draw_gauge, "Is the gauge good enough? Do people read alike?",
              "Each mark is a reading, off the mean of all readings of the same part. A bar off the line is a person who reads high or low."),
    "bursts": (_draw_bursts, "Do the bursts show that the pressure holds?",
               "Points are bursts. Each bar is the pressure that is shown to hold, if burst pressures follow that shape: the first "
               "counts, as long as nobody knows the shape."),
}


def for_page(judged):
    """Name, title, what it shows, and the picture, for web.py."""
    return [(name, title, about, to_page(draw(judged), name, title)) for name, (draw, title, about) in DRAWN.items()]


def for_files(judged):
    """Name and picture as a file of its own, in the colours of a light page."""
    for name, (draw, title, _) in DRAWN.items():
        picture = to_page(draw(judged), name, title)
        for place, colour in PLAIN.items():
            picture = picture.replace(f"var({place})", colour)
        yield name, picture.replace("<svg ", '<svg font-family="DejaVu Sans, sans-serif" ', 1) + "\n"
