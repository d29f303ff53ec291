# SPDX-License-Identifier: MIT
"""The day's page in a browser: wide, narrow, on paper, without colour."""
import re
from math import isclose, pi, sin

import pytest

import by_hand
from browser import (OVERLAPS, open_browser, paper_overlaps, paper_texts, paper_words, print_page,
                     printed_sizes, set_width)
from programs import read_day, read_list, run_day

ORDERS = ("101", "107", "108", "102", "103", "104", "105", "106")
STOPPED = ("104", "106")


@pytest.fixture(scope="module", name="folder")
def make_folder(tmp_path_factory):
    return tmp_path_factory.mktemp("page")


@pytest.fixture(scope="module", name="day")
def run(folder):
    output = run_day(folder / "day.html")
    assert output.status == 1
    (folder / "day.txt").write_text(output.text, encoding="utf-8")
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
    assert figures["dial"] == "1.35 mm"


@pytest.mark.parametrize("order", ORDERS)
def test_lists_and_crimps_are_those_of_the_text(page, day, order):
    sheet = day[0][order]
    remarks = ask(page, """order => [...document.querySelectorAll(`#order-${order} .remarks`)].map(part =>
        [part.querySelector('h3').textContent.toUpperCase(), [...part.querySelectorAll('li')].map(item => item.textContent)])""", order)
    assert [(heading, texts) for heading, texts in remarks] == list(sheet.remarks.items())
    state = ask(page, TEXTS, f"#order-{order} .state")[0]
    assert sheet.word.split("] ")[1] in state and sheet.readiness.split(": ", 1)[1] in state
    for style, texts in (("findings", sheet.findings), ("piece", sheet.first_piece), ("assemblies", sheet.assemblies)):
        assert ask(page, TEXTS, f"#order-{order} .{style} li") == texts
    assert ask(page, TEXTS, f"#order-{order} .care li") == sheet.take_care
    rows = ask(page, """order => [...document.querySelectorAll(`#order-${order} .crimps tbody tr`)]
        .map(row => [...row.children].map(cell => cell.textContent))""", order)
    assert rows == sheet.crimps


def test_first_sheet(page, day, folder):
    assert ask(page, TEXTS, ".left li") == day[1]
    places = ask(page, """() => Object.fromEntries([...document.querySelectorAll('.overview tbody')]
        .map(part => [part.querySelector('.needs').textContent, [...part.querySelectorAll('tr:not(.needs)')]
            .map(row => [row.querySelector('svg').dataset.sign, row.children[1].textContent, row.children[0].textContent])]))""")
    wanted = read_list((folder / "day.txt").read_text(encoding="utf-8"))
    assert {place: [(text.replace(" ", "_"), text, order) for sign, text, order in rows] for place, rows in places.items()} == {
        place: [(word.split("] ")[1].replace(" ", "_"), word.split("] ")[1], order) for word, order in rows]
        for place, rows in wanted.items()}
    assert all(sign == text.replace(" ", "_") for rows in places.values() for sign, text, _ in rows)
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
    const drawing = document.querySelector(`#order-${order} svg.drawing`);
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
    if order in STOPPED:
        assert drawing["section"] == "" and "die" not in drawing["texts"]
        assert "no die is shown" in drawing["about"]
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
        shown = ask(narrow, """order => {const box = document.querySelector(`#order-${order} svg.drawing`)
            .getBoundingClientRect(); return [box.width, box.height]}""", order)
        assert min(shown) > 250
    labels = ask(narrow, """() => getComputedStyle(document.querySelector('.crimps td'), '::before').content""")
    assert "gauge" in labels


# ---- paper -------------------------------------------------------------------------------------------------

def plain(text):
    return " ".join(text.split())


def sheets_of(paper):
    """Text by order; an order may take more than one sheet, and each begins one."""
    first, *sheets = paper_texts(paper)
    found, order = {"": first}, ""
    for text in sheets:
        numbers = re.findall(r"Order (\d+):", text)
        assert len(numbers) <= 1 and plain(text).startswith("Order ") == bool(numbers)
        order = numbers[0] if numbers else order
        found[order] = found.get(order, "") + text
    return found


def test_each_order_begins_a_sheet(paper):
    sheets = sheets_of(paper)
    assert tuple(sheets) == ("", *ORDERS) and sheets[""].startswith("A day at the depot")
    assert len(paper_texts(paper)) <= 1 + 2 * len(ORDERS)


def test_nothing_is_missing_on_paper(paper, day):
    sheets = sheets_of(paper)
    words = [set(text.split()) for text in sheets.values()]
    for order, found in zip(ORDERS, words[1:]):
        sheet, text = day[0][order], sheets[order]
        texts = [*sheet.figures, *sheet.figures.values(), *sheet.check_first, *sheet.take_care, *sheet.findings, *sheet.first_piece,
                 *sheet.assemblies, sheet.readiness.split("] ")[1].split(":")[0]]
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


def test_text_on_paper_is_large_enough(page, paper):
    """8 pt at least, cautions 9; in the drawings a word's box, which is higher than its letters, 8."""
    assert min(printed_sizes(page, "main > :not(article), article > :not(.columns), .columns section")) >= 8
    assert min(printed_sizes(page, ".care li")) >= 9
    heights = [bottom - top for _, _, (_, top, _, bottom), _ in paper_words(paper)]
    assert min(heights) >= 8


# ---- boxes of text -----------------------------------------------------------------------------------------

@pytest.mark.parametrize("width", [1000, 390])
def test_no_two_texts_overlap(page, width):
    """Neither on the page nor in the drawings, where the caption stood on the scale once."""
    set_width(page, width)
    assert ask(page, OVERLAPS) == []
    set_width(page, 1000)


def test_no_two_texts_overlap_on_paper(paper):
    assert paper_overlaps(paper) == []


def test_the_test_of_overlaps_finds_one(page):
    moved = ask(page, """() => {const text = [...document.querySelectorAll('svg text')].find(text => text.textContent.includes('broken'));
        text.setAttribute('y', text.getAttribute('y') - 20); text.setAttribute('x', 80); return true}""")
    assert moved and len(ask(page, OVERLAPS)) == 1
    page.refresh()


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
