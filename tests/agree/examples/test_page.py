# SPDX-License-Identifier: MIT
"""The day's page in a browser: wide, narrow, on paper, without colour."""
import re
from math import isclose, pi, sin

import pytest

import by_hand
from browser import open_browser, paper_texts, paper_words, print_page, set_width
from programs import read_day, run_day

ORDERS = ("101", "102", "103", "104", "105", "106", "107")
WITHOUT_DIE = "106"


@pytest.fixture(scope="module", name="folder")
def make_folder(tmp_path_factory):
    return tmp_path_factory.mktemp("page")


@pytest.fixture(scope="module", name="day")
def run(folder):
    output = run_day(folder / "day.html")
    assert output.status == 1
    return read_day(output.text)


@pytest.fixture(scope="module", name="page")
def open_page(day, folder):
    assert day
    with open_browser() as driver:
        set_width(driver, 1000)
        driver.get((folder / "day.html").as_uri())
        yield driver


@pytest.fixture(scope="module", name="paper")
def print_day(page, folder):
    print_page(page, folder / "day.pdf")
    return folder / "day.pdf"


def ask(page, script, *arguments):
    return page.execute_script("return (" + script + ")(...arguments)", *arguments)


FIGURES = """order => Object.fromEntries([...document.querySelectorAll(`#order-${order} .pairs tr`)]
    .map(row => [row.querySelector('th').innerText, row.querySelector('td').innerText]))"""
TEXTS = "selector => [...document.querySelectorAll(selector)].map(found => found.textContent)"


# ---- what is on it -----------------------------------------------------------------------------------------

def test_every_order_once_in_order(page):
    assert ask(page, "() => [...document.querySelectorAll('article')].map(order => order.id)") == \
        [f"order-{order}" for order in ORDERS]


@pytest.mark.parametrize("order", ORDERS)
def test_figures_are_those_of_the_text(page, day, order):
    """The text's figures are checked by themselves in test_day.py."""
    assert ask(page, FIGURES, order) == day[0][order].figures


def test_some_figures_by_hand(page):
    joint = by_hand.Joint(12.7, 19.9, 12.95, 2.4, 25.6)
    figures = ask(page, FIGURES, "101")
    assert figures["target"] == f"{by_hand.crimp_diameter(joint, 0.2):.2f} mm"
    assert figures["offset"] == f"{by_hand.crimp_diameter(joint, 0.2) - 22:.3f} mm"
    assert figures["ferrule cannot lengthen"] == f"{100 * by_hand.ends_fixed(joint, 23.51):.1f} %"
    assert figures["dial"] == "1.350 mm"


@pytest.mark.parametrize("order", ORDERS)
def test_lists_and_crimps_are_those_of_the_text(page, day, order):
    sheet = day[0][order]
    assert ask(page, TEXTS, f"#order-{order} .first li") == sheet.check_first
    assert ask(page, TEXTS, f"#order-{order} .care li") == sheet.take_care
    rows = ask(page, """order => [...document.querySelectorAll(`#order-${order} .crimps tbody tr`)]
        .map(row => [...row.children].map(cell => cell.textContent))""", order)
    assert rows == sheet.crimps


def test_first_sheet(page, day):
    assert ask(page, TEXTS, ".left li") == day[1]
    dials = ask(page, """() => Object.fromEntries([...document.querySelectorAll('.overview tbody tr')]
        .map(row => [row.children[0].innerText, row.children[4].innerText]))""")
    assert dials == {order: day[0][order].figures.get("dial", "-") for order in ORDERS}
    assert "invented" in ask(page, "() => document.body.innerText")


def test_one_file_without_scripts(folder, day):
    assert day
    text = (folder / "day.html").read_text(encoding="utf-8")
    assert not re.search(r"<script|<link|<img|<iframe|<object|<embed|@import|\son\w+=", text)
    assert all(target.startswith("#") for target in re.findall(r'(?:href|src)="([^"]*)"', text))
    assert all(target.startswith("#") for target in re.findall(r"url\(([^)]*)\)", text))


def test_can_be_read_aloud(page):
    assert ask(page, "() => document.documentElement.lang") == "en"
    assert ask(page, "() => document.querySelectorAll('h1').length") == 1
    assert ask(page, "() => [...document.querySelectorAll('table')].every(table => table.querySelector('th[scope]'))")
    assert ask(page, "() => [...document.querySelectorAll('th')].every(head => head.scope)")
    twice = ask(page, """() => {const ids = [...document.querySelectorAll('[id]')].map(found => found.id);
        return ids.filter((id, place) => ids.indexOf(id) !== place)}""")
    assert twice == []


# ---- the drawings ------------------------------------------------------------------------------------------

DRAWING = """order => {
    const drawing = document.querySelector(`#order-${order} svg`);
    const named = drawing.getAttribute('aria-labelledby').split(' ').map(id => document.getElementById(id));
    const circles = [...drawing.querySelectorAll(':scope > circle.edge')].map(circle => circle.r.baseVal.value);
    const [section, detail] = drawing.querySelectorAll('path.die');
    return {
        role: drawing.getAttribute('role'), title: named[0].textContent, about: named[1].textContent, circles,
        texts: [...drawing.querySelectorAll('text')].map(text => text.textContent),
        section: section ? section.getAttribute('d') : '', detail: detail ? detail.getAttribute('d') : '',
        outline: drawing.querySelector(':scope > path.edge').getAttribute('d'),
        bars: [...drawing.querySelectorAll('.bar')].map(bar => bar.getBBox().width),
        size: [drawing.getBoundingClientRect().width, drawing.getBoundingClientRect().height],
        fills: [...drawing.querySelectorAll(':scope > .edge')].map(part => part.getAttribute('fill')),
    }}"""

LOW_CARBON = by_hand.Metal(206000, 0.30, 280)
JOINT_105 = by_hand.Joint(31.75, 44.45, 32.0, 3.2004, 52.3875)
CLOSING_105 = by_hand.fixed_closing(JOINT_105, by_hand.Metal(195000, 0.29, 250), 1300 * 0.45359237 * 9.80665 / 25.4**2,
                                   by_hand.crimp_diameter(JOINT_105, 0.2))
CLOSING_102 = by_hand.fixed_closing(by_hand.Joint(16.1, 23.3, 16.4, 2.6, 29.8), LOW_CARBON, 11.0, 27.30)

# Diameter at which the dies stand (102, 105: springback known and off), stem, die, wall of the ferrule that lengthens freely (by hand; 107: as it was), segments.
DRAWN = {
    "101": (23.51, 12.95, 22, by_hand.free_wall(by_hand.Joint(12.7, 19.9, 12.95, 2.4, 25.6), 23.51)),
    "102": (CLOSING_102, 16.4, 25, by_hand.free_wall(by_hand.Joint(16.1, 23.3, 16.4, 2.6, 29.8), CLOSING_102)),
    "103": (15.32, 6.6, 13, by_hand.free_wall(by_hand.Joint(6.4, 13.3, 6.6, 1.6, 18.2), 15.32)),
    "105": (CLOSING_105, 32.0, 46, by_hand.free_wall(JOINT_105, CLOSING_105)),
    "107": (0.925 * 25.4, 0.510 * 25.4, 22, 0.094 * 25.4),
}


def points(path):
    """Points that a path goes through, without the radii and flags of its arcs."""
    path = re.sub(r"A[\d.]+ [\d.]+ \d \d \d ", "L", path)
    return [tuple(map(float, pair)) for pair in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", path)]


def distance(first, second):
    return ((first[0] - second[0])**2 + (first[1] - second[1])**2)**0.5


@pytest.mark.parametrize("order", DRAWN)
def test_section_is_to_scale(page, order):
    drawing, (diameter, stem, die, wall) = ask(page, DRAWING, order), DRAWN[order]
    bore, stem_drawn = drawing["circles"][:2]
    scale = stem_drawn / (stem / 2)
    assert isclose(bore, (diameter / 2 - wall) * scale, abs_tol=0.02)
    centre = (170, 132)
    edges = points(drawing["outline"].split("Z")[0])
    edge_radius = (diameter / 2 - by_hand.lobe_height(diameter, die, 8)) * scale
    assert len(edges) == 16
    assert all(isclose(distance(edge, centre), edge_radius, abs_tol=0.03) for edge in edges)
    gaps = [distance(edges[place], edges[(place + 1) % 16]) for place in range(1, 16, 2)]
    assert all(isclose(width, by_hand.gap(diameter, die, 8) * scale, abs_tol=0.03) for width in gaps)
    arcs = re.findall(r"A([\d.]+) ", drawing["outline"].split("Z")[0])
    assert len(arcs) == 8 and all(isclose(float(radius), die / 2 * scale, abs_tol=0.03) for radius in arcs)


@pytest.mark.parametrize("order", DRAWN)
def test_scale_bars_and_enlargement(page, order):
    drawing, (diameter, stem, die, _) = ask(page, DRAWING, order), DRAWN[order]
    scale = drawing["circles"][1] / (stem / 2)
    enlarged = 324 / (diameter * sin(pi / 8))
    lengths = [float(text.split()[0]) for text in drawing["texts"] if re.fullmatch(r"[\d.]+ mm", text)]
    assert len(drawing["bars"]) == len(lengths) == 2
    assert isclose(drawing["bars"][0], lengths[0] * scale, abs_tol=0.02)
    assert isclose(drawing["bars"][1], lengths[1] * enlarged, abs_tol=0.02)
    face = float(re.search(r"A([\d.]+) ", drawing["detail"])[1])
    assert isclose(face, die / 2 * enlarged, abs_tol=0.02)
    assert f"{enlarged / scale:.1f} times the upper drawing; broken line: round" in drawing["texts"]


@pytest.mark.parametrize("order", ORDERS)
def test_drawing_has_its_dimensions_and_names(page, day, order):
    drawing, figures = ask(page, DRAWING, order), day[0][order].figures
    assert drawing["role"] == "img" and order in drawing["title"]
    assert f"crimp diameter {figures['target']}" in drawing["texts"]
    assert any(text.startswith("stem ") for text in drawing["texts"])
    assert any(text.startswith("ferrule bore ") for text in drawing["texts"])
    assert {"ferrule", "hose", "stem"} <= set(drawing["texts"])
    assert min(drawing["size"]) > 150
    if order == WITHOUT_DIE:
        assert drawing["section"] == "" and "die" not in drawing["texts"]
        assert "no die is near enough" in drawing["about"]
    else:
        words = f"gap {figures['gap between segments']}, lobe height {figures['lobe height']}"
        assert drawing["section"].count("M") == 8 and {"die", words} <= set(drawing["texts"])
        assert figures["lobe height"] in drawing["about"]


# ---- metal -------------------------------------------------------------------------------------------------

def test_reasons_are_not_printed_as_if_they_were_figures(page, day):
    weights = ask(page, """() => [...document.querySelectorAll('.metal td')]
        .map(cell => [cell.innerText.startsWith('not computed: '), getComputedStyle(cell).fontWeight])""")
    assert {tuple(weight) for weight in weights} == {(True, "400"), (False, "700")}
    reasons = sum(text.startswith("not computed: ") for sheet in day[0].values() for text in sheet.figures.values())
    assert sum(is_reason for is_reason, _ in weights) == reasons > 0


# ---- narrow screen -----------------------------------------------------------------------------------------

@pytest.fixture(name="narrow")
def narrow_page(page):
    set_width(page, 360)
    yield page
    set_width(page, 1000)


def test_nothing_is_wider_than_a_narrow_screen(narrow):
    assert ask(narrow, "() => [innerWidth, document.documentElement.scrollWidth]") == [360, 360]
    beyond = ask(narrow, """() => [...document.querySelectorAll('main *')]
        .filter(found => !found.closest('clipPath, defs, thead, g, path'))
        .filter(found => found.getBoundingClientRect().right > 360.5).map(found => found.outerHTML.slice(0, 80))""")
    assert beyond == []


def test_text_is_large_enough_on_a_narrow_screen(narrow):
    smallest = ask(narrow, """() => Math.min(...[...document.querySelectorAll('main *')]
        .filter(found => found.children.length === 0 && found.textContent.trim() && !found.closest('svg'))
        .map(found => parseFloat(getComputedStyle(found).fontSize)))""")
    assert smallest >= 12
    drawn = ask(narrow, """() => Math.min(...[...document.querySelectorAll('svg text')]
        .map(text => text.getBoundingClientRect().height))""")
    assert drawn >= 10


def test_figures_and_drawings_show_on_a_narrow_screen(narrow, day):
    for order in ORDERS:
        assert ask(narrow, FIGURES, order) == day[0][order].figures
        shown = ask(narrow, """order => {const box = document.querySelector(`#order-${order} svg`)
            .getBoundingClientRect(); return [box.width, box.height]}""", order)
        assert min(shown) > 250
    labels = ask(narrow, """() => getComputedStyle(document.querySelector('.crimps td'), '::before').content""")
    assert "gauge" in labels


# ---- paper -------------------------------------------------------------------------------------------------

def plain(text):
    return " ".join(text.split())


def test_one_order_a_sheet(paper):
    sheets = [plain(text) for text in paper_texts(paper)]
    assert len(sheets) == 1 + len(ORDERS)
    assert sheets[0].startswith("A day at the depot")
    for order, text in zip(ORDERS, sheets[1:]):
        assert re.findall(r"Order (\d+):", text) == [order]


def test_nothing_is_missing_on_paper(paper, day):
    sheets = paper_texts(paper)
    words = [set(text.split()) for text in sheets]
    for order, text, found in zip(ORDERS, sheets[1:], words[1:]):
        sheet = day[0][order]
        texts = [*sheet.figures, *sheet.figures.values(), *sheet.check_first, *sheet.take_care]
        texts += [cell for line in sheet.crimps for cell in line]
        missing = {word for line in texts for word in line.split()} - found
        assert missing == set(), f"order {order}"
        assert f"crimp diameter {sheet.figures['target']}" in plain(text)
    assert {word for line in day[1] for word in line.split()} <= words[0]


def test_nothing_is_cut_off_on_paper(paper):
    margin = 9.5 / 25.4 * 72
    for sheet, (width, height), (left, top, right, bottom), word in paper_words(paper):
        assert isclose(width, 595, abs_tol=1) and isclose(height, 842, abs_tol=1)
        inside = left > margin and right < width - margin and top > margin and bottom < height - margin
        assert inside, f"sheet {sheet + 1}: {word}"


# ---- without colour ----------------------------------------------------------------------------------------

def luminance(colour):
    """Relative luminance by WCAG 2.1."""
    parts = [int(part) / 255 for part in re.findall(r"\d+", colour)[:3]]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055)**2.4 for part in parts]
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear))


def test_no_text_says_anything_by_colour(page):
    """All text has one colour on one ground, so that nothing can hang on it; contrast 7 to 1 (WCAG 2.1, 1.4.6)."""
    colours = ask(page, """() => [...new Set([...document.querySelectorAll('main *')]
        .filter(found => found.textContent.trim() && !found.closest('defs'))
        .map(found => found.closest('svg text') ? getComputedStyle(found).fill : getComputedStyle(found).color))]""")
    grounds = ask(page, """() => [...new Set([...document.querySelectorAll('body, main *')]
        .map(found => getComputedStyle(found).backgroundColor))].filter(colour => !colour.endsWith(', 0)'))""")
    assert len(colours) == 1 and grounds == ["rgb(255, 255, 255)"]
    assert 1.05 / (luminance(colours[0]) + 0.05) >= 7


@pytest.mark.parametrize("order", ORDERS)
def test_parts_of_the_drawing_differ_by_hatching(page, order):
    patterns = ask(page, """order => Object.fromEntries([...document.querySelectorAll(`#order-${order} pattern`)]
        .map(pattern => [pattern.id, [...pattern.querySelectorAll('line, circle, path')]
            .map(mark => mark.tagName).sort().join() + pattern.getAttribute('patternTransform')]))""", order)
    assert len(patterns) == 3 and len(set(map(tuple, patterns.values()))) == 3
    fills = [fill for fill in ask(page, DRAWING, order)["fills"] if fill != "#fff"]
    assert {f"url(#{name})" for name in patterns} == set(fills)
