# SPDX-License-Identifier: MIT
"""What a notebook shows: tables of structs, drawings to scale."""
import html.parser
import math
import re
import xml.etree.ElementTree as ElementTree

import pytest

import ferrule
from ferrule import drawing

SVG = "{http://www.w3.org/2000/svg}"
# The worked joint (tests/agree/vectors/worked.csv), with a stem bore and a ferrule outside besides.
JOINT = ferrule.Joint(hose=ferrule.Hose("12.7 mm", "19.9 mm"), stem=ferrule.Stem("12.95 mm", bore="9 mm"),
                      ferrule=ferrule.Ferrule("2.4 mm", outside="25.6 mm"))
PRESS, RACK = ferrule.Press(graduation="0.05 mm"), ["16 mm", "19 mm", "22 mm", "25 mm"]
SETUP = ferrule.plan_setup(JOINT, PRESS, RACK)


class Table(html.parser.HTMLParser):
    """Rows as lists of cells; every element has to be closed."""

    def __init__(self, text):
        super().__init__()
        self.rows, self.open, self.titles = [], [], []
        self.feed(text)
        self.close()
        assert not self.open

    def handle_starttag(self, tag, attrs):
        if tag != "br":
            self.open.append(tag)
        if tag == "tr":
            self.rows.append([])
        if tag in ("th", "td"):
            self.rows[-1].append("")
            self.titles.append(dict(attrs).get("title"))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if self.open and self.open[-1] in ("th", "td"):
            self.rows[-1][-1] += data


def rows_of(value):
    return [tuple(row) for row in Table(value._repr_html_()).rows]


def test_a_set_up_as_a_table():
    rows = rows_of(SETUP)
    # 12.95 + 2 * 2.4 + 7.2 * 0.8, 12.95 + 4.8 + 7.2 * 0.75, die 22 below it, 1.51 on a dial of 0.05: by hand
    for row in (("target", "23.51 mm"), ("source", "computed"), ("size", "22 mm"), ("offset", "1.51 mm"), ("setting", "1.5 mm"),
                ("plain", "20 %"), ("window",), ("lower", "23.15 mm"), ("found", "yes"), ("reach", "the usual 7 mm"),
                ("gap", "0.577852 mm"), ("segments", "8")):
        assert row in rows, row
    assert ("shares", "not computed: " + ferrule.Status.UNCERTAINTY_EMPTY.sentence) in rows
    said = dict(row for row in rows if len(row) == 2)
    assert "Keep hands out of the closing dies" in said["cautions"] and said["remarks"].count(".") <= 3


def caption_of(setup):
    """What stands before any figure, without its tags."""
    caption = re.search("<caption.*</caption>", setup._repr_html_(), re.DOTALL)[0]
    return html.unescape(re.sub("<[^>]*>", "\n", caption))


def in_order(text, *parts):
    places = [text.index(part) for part in parts]
    assert places == sorted(places), parts


def test_readiness_stands_first_then_remarks_by_severity_then_cautions():
    in_order(caption_of(SETUP), "[?] AFTER CONFIRMING: not to be crimped before", "CONFIRM\n",
             "not confirmed: no diameter is published", "DO FIRST\n", "the insertion depth is not given", "GOOD TO KNOW\n",
             "nothing is known of the gauge", "CAUTIONS\n", "Keep hands out of the closing dies")
    both = [ferrule.confirm_remark(SETUP, name) for name in ("TARGET_COMPUTED", "APPROVAL_NOT_STATED")]
    in_order(caption_of(ferrule.confirm_setup(SETUP, both)), "[OK] READY: crimp one piece", "CONFIRM\n", "\nconfirmed: no diameter",
             "\nconfirmed: it is not stated")
    assert repr(SETUP).startswith('Setup(readiness="AFTER_CONFIRMING", ')


def test_what_is_not_ready_shows_nothing_to_set():
    """Published 21 mm on the worked joint: 54.9 % by hand, (19.9 - 12.7 - (21 - 4.8 - 12.95)) / 7.2."""
    setup = ferrule.plan_setup(ferrule.Order(JOINT, published="21 mm", tolerance="0.2 mm", approval="approved"), PRESS, RACK)
    assert setup.die.found and setup.dial  # they are there, and are not shown
    in_order(caption_of(setup), "[X] NOT READY: not to be crimped", "STOP\n", "the plain compression is above 45 %", "CONFIRM\n")
    said, names = dict(row for row in rows_of(setup) if len(row) == 2), ("die", "dial", "springback dial", "zone", "shape")
    assert all(said[name] == "not shown: this is not to be crimped" for name in names)
    assert "19 mm" not in setup._repr_html_() and "2 mm" not in said.values() and "<svg" not in setup._repr_html_()
    assert said["plain"] == "54.8611 %"
    nothing = ferrule.plan_setup(JOINT, PRESS, ["16 mm"])
    assert ("buy",) in rows_of(nothing) and "[X] NOT READY" in caption_of(nothing)  # what to buy is shown


def test_what_is_left_out_says_what_that_means():
    rows = rows_of(ferrule.Order(JOINT))
    assert ("range", "the usual 15 to 25 %") in rows and ("model", "plain formula") in rows and ("reinforcement", "not known") in rows
    assert ("published", "12 mm") in rows_of(ferrule.Order(JOINT, published="12 mm"))


def test_every_struct_has_a_table():
    uncertainties = ferrule.Uncertainties("0.08 mm", "0.1 mm", diameter=("0.05 mm", "rectangular"))
    verdict = ferrule.judge("23.5 mm", "0.01 mm", ("23.4 mm", "23.6 mm"))
    budget = ferrule.uncertainty_budget(JOINT, uncertainties, "23.51 mm", "95 %")
    for value in (JOINT, JOINT.hose, PRESS, SETUP.shape.value, SETUP.shape, uncertainties, verdict, budget, ferrule.FoundLength(status="UNCERTAINTY_EMPTY"),
                  ferrule.RandomWords((1, 2, 3, 4)), ferrule.find_random_words(ferrule.RandomWords((0, 0, 0, 0)), 0)):
        assert rows_of(value) and value._repr_html_().count("<caption") == 1
    assert ("distribution", "rectangular") in rows_of(uncertainties) and ("decision", "accept") in rows_of(verdict)


def test_everything_is_escaped():
    for value in (SETUP, JOINT, ferrule.Order(JOINT)):
        text = value._repr_html_()
        assert re.sub(r"&(amp|lt|gt|quot|#x27);", "", text).count("&") == 0
        assert "<script" not in text and "http" not in text.replace("http://www.w3.org/2000/svg", "")
    from ferrule import _html
    assert _html.row("a<b", 'say "<i>"', "<b>&", "<", 0).count("<") == 6  # tr, th, td: open and closed


def parse(drawn):
    return ElementTree.fromstring(drawn.svg)


def circle_radii(root):
    return sorted(float(c.get("r")) for c in root.iter(f"{SVG}circle") if float(c.get("r")) > 3)


def arcs(root):
    """Radii of the half rings of a section."""
    return sorted({float(r) for path in root.iter(f"{SVG}path") for r in re.findall(r"A([\d.]+) ", path.get("d"))})


def bar(root):
    """Units of the drawing a millimetre, by its bar."""
    size = next(float(t.text.split()[0]) for t in root.iter(f"{SVG}text") if re.fullmatch(r"[\d.]+ mm", t.text or "") and t.get("x") != "210")
    long = next(float(m[1]) for p in root.iter(f"{SVG}path") if (m := re.search(r"v5h([\d.]+)v-5", p.get("d"))))
    return long / size


@pytest.mark.parametrize("outside, crimp", [("25.6 mm", "23.51 mm"), ("40 mm", "24 mm"), ("27 mm", "23 mm")])
def test_a_section_is_to_scale(outside, crimp):
    joint = JOINT.replace(ferrule={"outside": outside})
    root = parse(drawing.section(joint, crimp))
    on_stem = math.sqrt(19.9 ** 2 - 12.7 ** 2 + 12.95 ** 2)
    expected = sorted({float(outside.split()[0]), float(outside.split()[0]) - 4.8, on_stem, 12.95, 9, float(crimp.split()[0]),
                       float(crimp.split()[0]) - 4.8})
    assert [r * 2 / bar(root) for r in arcs(root)] == pytest.approx(expected, abs=0.02)


def test_a_joint_alone_is_to_scale():
    root = parse(drawing.section(JOINT))
    on_stem = math.sqrt(19.9 ** 2 - 12.7 ** 2 + 12.95 ** 2)
    found = sorted({round(r * 2 / bar(root), 1) for r in circle_radii(root)})
    assert found == pytest.approx(sorted({9, 12.95, on_stem, 20.8, 25.6}), abs=0.06)


def test_a_section_carries_its_dimensions():
    texts = [t.text for t in parse(drawing.section(JOINT, SETUP)).iter(f"{SVG}text")]
    for words in ("stem 12.95 mm", "hose 20.06 mm", "ferrule 25.60 mm", "bore 18.71 mm", "crimp 23.51 mm", "before", "after", "stem", "hose"):
        assert words in texts
    # (19.9 - 12.7)/2, (20.0605 - 12.95)/2 and (23.51 - 4.8 - 12.95)/2, by hand; 20 % are those of the first
    assert "compression 20.0 %" in texts and "hose wall 3.60 mm, on the stem 3.56 mm, crimped 2.88 mm" in texts
    order = ferrule.Order(JOINT, model=ferrule.Model(flow="ends_fixed"))
    assert "bore 18.17 mm" in [t.text for t in parse(drawing.section(order, "23.51 mm")).iter(f"{SVG}text")]  # sqrt(330.0001)


def test_the_die_is_to_scale():
    root = parse(drawing.die(SETUP))
    assert [r * 2 / bar(root) for r in circle_radii(root)] == pytest.approx([23.51], abs=0.02)
    assert [r * 2 / bar(root) for r in arcs(root)] == pytest.approx([22], abs=0.02)  # the faces of the segments
    outline = next(p.get("d") for p in root.iter(f"{SVG}path") if "edge" in (p.get("class") or "") and "A" in p.get("d"))
    points = [tuple(map(float, p.split())) for p in re.findall(r"(?:M|L|0 0 0 )(-?[\d.]+ -?[\d.]+)", outline)]
    assert len(points) == 16
    gaps = [math.dist(points[i], points[(i + 1) % 16]) / bar(root) for i in range(1, 16, 2)]
    assert gaps == pytest.approx([1.51 * math.sin(math.pi / 8)] * 8, abs=0.02)


def test_without_a_die_the_target_is_drawn():
    setup = ferrule.plan_setup(JOINT, PRESS, ["16 mm"])
    root = parse(drawing.die(setup))
    assert [r * 2 / bar(root) for r in circle_radii(root)] == pytest.approx([23.51], abs=0.02)
    assert "<svg" in setup._repr_html_() and "no die" in setup._repr_html_()


def test_what_cannot_be_drawn_still_has_a_table():
    joint = JOINT.replace(hose={"outside": "10 mm"})
    assert "<svg" not in joint._repr_html_() and ("outside", "10 mm") in rows_of(joint)
    with pytest.raises(ferrule.HoseError):
        drawing.section(joint)
    assert "not measured" in drawing.section(JOINT.replace(ferrule={"outside": None})).svg


def test_drawings_on_one_page_do_not_mix_their_hatchings(tmp_path):
    one, other = drawing.section(JOINT), drawing.section(JOINT)
    names = [set(re.findall(r' id="([^"]+)"', drawn.svg)) for drawn in (one, other)]
    assert len(names[0]) == 5 and not names[0] & names[1]
    for drawn in (one, other):
        assert set(re.findall(r"url\(#([^)]+)\)", drawn.svg)) <= set(re.findall(r' id="([^"]+)"', drawn.svg))
    one.save(tmp_path / "a.svg")
    assert (tmp_path / "a.svg").read_text(encoding="utf-8") == one._repr_svg_() and repr(one).startswith("<drawing: ")


@pytest.mark.more
def test_a_notebook_takes_them():
    """What Jupyter sends to its pages, by its own formatter."""
    formatters = pytest.importorskip("IPython.core.formatters")
    show = formatters.DisplayFormatter()
    data, _ = show.format(SETUP)
    assert "<table" in data["text/html"] and data["text/plain"].startswith("Setup(")
    assert "<svg" in data["text/html"]
    data, _ = show.format(drawing.section(JOINT, SETUP))
    assert data["image/svg+xml"].startswith("<svg") and "text/html" not in data
