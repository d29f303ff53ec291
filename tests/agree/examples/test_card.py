# SPDX-License-Identifier: MIT
"""The press cards in a browser: on A5 paper and on the screen of a phone; what stands on them, how large, and what does not."""
import datetime
import os
import re
import sys

import pytest

from browser import OVERLAPS, open_browser, paper_overlaps, paper_pieces, paper_texts, paper_words, print_page, printed_sizes, set_width
from programs import copy_data, read_day, run_day

sys.path.insert(0, os.environ["FERRULE_PYTHON"])
import ferrule  # noqa: E402

ORDERS = ("101", "107", "108", "102", "103", "104", "105", "106")
READY, NOT_READY = ("101", "108", "102", "103"), ("107", "104", "105", "106")
# What is set, by hand: adapter, die, dial, zone. The figures of these orders are derived in test_day.py.
SET = {
    "101": ["none", "22", "1.35", "23.41 to 23.61"],
    "108": ["none", "22", "1.35", "23.41 to 23.61"],
    "102": ["none", "25", "2.15", "27.109 to 27.495"],
    "103": ["set 1", "13", "2.15", "0.600 to 0.606"],
}


@pytest.fixture(scope="module", name="folder")
def make_folder(tmp_path_factory):
    return tmp_path_factory.mktemp("card")


@pytest.fixture(scope="module", name="day")
def run(folder):
    return read_day(run_day(folder / "day.html").text)


@pytest.fixture(scope="module", name="cards")
def open_cards(day, folder):
    assert day
    with open_browser() as driver:
        set_width(driver, 1000)
        driver.get((folder / "cards.html").as_uri())
        yield driver


@pytest.fixture(scope="module", name="paper")
def print_cards(cards, folder):
    print_page(cards, folder / "cards.pdf")
    return folder / "cards.pdf"


@pytest.fixture(name="phone")
def phone_screen(cards):
    set_width(cards, 390)
    yield cards
    set_width(cards, 1000)


def ask(cards, script, *arguments):
    return cards.execute_script("return (" + script + ")(...arguments)", *arguments)


def texts(cards, order, selector):
    return ask(cards, "selector => [...document.querySelectorAll(selector)].map(found => found.textContent)", f"#card-{order} {selector}")


# ---- what stands on a card ---------------------------------------------------------------------------------

def test_one_card_for_each_order(cards):
    assert ask(cards, "() => [...document.querySelectorAll('article')].map(card => card.id)") == [f"card-{order}" for order in ORDERS]


@pytest.mark.parametrize("order", ORDERS)
def test_whether_it_may_be_crimped_comes_first_by_word_and_sign(cards, day, order):
    word, sentence = day[0][order].readiness.split("] ")[1].split(": ", 1)
    head, = texts(cards, order, ".head")
    assert head.startswith(word + sentence) and f"Order {order}: " in head
    assert ask(cards, "id => document.getElementById(id).firstElementChild.className", f"card-{order}") == "head"
    signs = ask(cards, """id => [...document.querySelectorAll(`#${id} .sign path`)].map(path => path.getAttribute('d'))""", f"card-{order}")
    assert len(signs) == 2
    return signs


def test_the_three_signs_differ_in_outline_and_mark(cards, day):
    signs = [test_whether_it_may_be_crimped_comes_first_by_word_and_sign(cards, day, order) for order in ("101", "105", "104")]
    assert len({outline for outline, _ in signs}) == len({mark for _, mark in signs}) == 3


@pytest.mark.parametrize("order", READY)
def test_what_is_set_and_accepted(cards, day, order):
    assert texts(cards, order, ".set .value") == SET[order]
    figures = day[0][order].figures
    assert figures["dial"] == SET[order][2] + " mm" and figures["die"].startswith(SET[order][1] + ".00 mm, die ")
    assert [end.split()[0] for end in figures["accept"].split(" to ")] == SET[order][3].split(" to ")
    labels = texts(cards, order, ".set .label")
    assert labels[0].startswith("adapter") and figures["die"].split(", ")[1] in labels[1] and labels[2] == "dial, in mm"
    assert labels[3].startswith("accept, in ") and labels[3].endswith(" shows it")


STEPS = ("Parts as ordered", "Mark the hose", "Press isolated: adapter", "Crimp one piece", "Measure at 1", "Measure at 2", "Looks",
         "Bore: go gauge", "First piece accepted: initials")


@pytest.mark.parametrize("order", READY)
def test_steps_in_their_order_each_with_a_box(cards, order):
    steps = [step for step in texts(cards, order, ".steps li") if not step.startswith("Skive")]
    assert [step.startswith(beginning) for step, beginning in zip(steps, STEPS)] == [True] * len(STEPS) and len(steps) == len(STEPS)
    boxes = ask(cards, "id => [...document.querySelectorAll(`#${id} .steps li`)].map(step => step.querySelectorAll('.box').length)",
                f"card-{order}")
    assert sorted(set(boxes)) == [1, 3]  # adapter, die and dial are ticked each
    blanks = ask(cards, "id => [...document.querySelectorAll(`#${id} .steps li`)].map(step => step.querySelectorAll('.blank').length)",
                 f"card-{order}")
    assert blanks.count(4) == 2 and blanks[-1] == 2 and blanks[0] == 1  # readings; initials and date; date of the hose


def test_insertion_skive_and_go_gauge(cards):
    assert "Mark the hose 35.0 mm from its end" in "".join(texts(cards, "102", ".steps li"))
    assert "Skive the hose: outside 33.0 mm" in texts(cards, "102", ".steps li")
    assert "Bore: go gauge 12.45 mm passes" in texts(cards, "102", ".steps li")
    assert "its size is not given" in "".join(texts(cards, "103", ".steps li"))


@pytest.mark.parametrize("order", READY)
def test_what_to_do_on_reject_and_undecided_and_how_many_are_left(cards, order):
    said = "\n".join(texts(cards, order, "> p"))
    assert "Reject: diameter: outside its limits: put the gauge on its setting ring" in said and "scrap" in said
    assert "Undecided: diameter: undecided: measure again" in said and "on hold" in said
    undecided = said[said.index("Undecided:"):said.index("First piece again")]
    assert "scrap" not in undecided and "cut" not in undecided  # nobody cuts up what is undecided
    pieces = {"101": 6, "102": 4, "103": 10, "108": 3}[order]
    assert ask(cards, "id => document.querySelectorAll(`#${id} .left .box`).length", f"card-{order}") == pieces


@pytest.mark.parametrize("order", ORDERS)
def test_remarks_by_severity_and_cautions(cards, day, order):
    found = ask(cards, """id => [...document.querySelectorAll(`#${id} .remarks`)].map(part =>
        [part.querySelector('h3').textContent, [...part.querySelectorAll('li')].map(item => item.textContent)])""", f"card-{order}")
    assert [tuple(part) for part in found] == list(day[0][order].remarks.items())
    planning = [caution.text for caution in sorted(ferrule.stage_cautions("planning"))]
    assert texts(cards, order, ".care li") == planning


@pytest.mark.parametrize("order", ORDERS)
def test_order_press_version_and_date_stand_below(cards, order):
    foot, = texts(cards, order, ".foot")
    assert foot.startswith(f"Order {order}, bench press, ferrule {ferrule.__version__}, {datetime.date.today()}") and "Invented" in foot


@pytest.mark.parametrize("order", NOT_READY)
def test_a_card_that_is_not_ready_has_nothing_to_set(cards, day, order):
    card, = ask(cards, "id => [document.getElementById(id).textContent]", f"card-{order}")
    assert ask(cards, "id => document.querySelectorAll(`#${id} :is(.set, .value, .steps, .left)`).length", f"card-{order}") == 0
    assert "Crimp nothing by this card." in card
    if order in ("107", "105"):  # the figures that somebody has to look at
        rows = dict(ask(cards, "id => [...document.querySelectorAll(`#${id} tr`)].map(row => [...row.children].map(c => c.textContent))",
                        f"card-{order}"))
        wanted = day[0][order].figures
        assert rows == {name: wanted[name] for name in wanted if name.endswith("looked at")} and len(rows) == 4
    else:
        assert "looked at" not in card and "dial" not in card
    assert ("buy or borrow a die of" in card) == (order == "106")


def test_where_the_springback_is_taken_off_the_card_says_so(tmp_path, day):
    assert day
    copy_data(tmp_path, press=("-0.15 mm,20 mm", "-,20 mm"))
    figures = read_day(run_day(tmp_path / "day.html", tmp_path).text)[0]["102"].figures
    text = (tmp_path / "cards.html").read_text(encoding="utf-8")
    card = text[text.index('id="card-102"'):text.index('id="card-103"')]
    dial = figures["dial"].removesuffix(" mm, springback taken off")
    assert dial != figures["dial"] and f'dial, in mm, springback taken off</p><p class="value">{dial}</p>' in card
    assert f"dial {dial} mm, springback taken off" in card


def test_names_from_the_tables_are_escaped(tmp_path):
    copy_data(tmp_path, orders=("101,harvester 2 boom lift", "101,<script>alert(1)</script>"))
    run_day(tmp_path / "day.html", tmp_path)
    for page in ("day.html", "cards.html"):
        assert "<script" not in (tmp_path / page).read_text(encoding="utf-8")


def test_one_file_without_scripts(folder, day):
    assert day
    text = (folder / "cards.html").read_text(encoding="utf-8")
    assert not re.search(r"<script|<link|<img|<iframe|<object|<embed|@import|\son\w+=|url\(", text)


def test_can_be_read_aloud(cards):
    assert ask(cards, "() => document.documentElement.lang") == "en"
    assert ask(cards, "() => [...document.querySelectorAll('svg')].every(drawn => drawn.ariaHidden || drawn.getAttribute('aria-label'))")
    assert ask(cards, "() => [...document.querySelectorAll('th')].every(head => head.scope)")


# ---- paper -------------------------------------------------------------------------------------------------

def test_each_card_is_one_sheet_of_a5(paper):
    sheets = paper_texts(paper)
    assert len(sheets) == len(ORDERS)
    for order, text in zip(ORDERS, sheets):
        assert re.findall(r"Order (\d+):", text) == [order] and text.count("do not crimp anything by it.") == 1
    sizes = {size for _, size, _, _ in paper_words(paper)}
    assert len(sizes) == 1
    (width, height), = sizes
    assert abs(width - 148 / 25.4 * 72) < 1 and abs(height - 210 / 25.4 * 72) < 1


def test_nothing_is_cut_off(paper):
    margin = 4.5 / 25.4 * 72
    for sheet, (width, height), (left, top, right, bottom), word in paper_words(paper):
        if word != "\u25aa":
            assert left > margin and right < width - margin and top > 3 and bottom < height - 9, f"sheet {sheet + 1}: {word}"


def test_sizes_that_the_print_style_asks_for(cards):
    """What is set and accepted 36 pt, cautions 10 pt, all else 8 pt at least."""
    assert min(printed_sizes(cards, ".value")) >= 36 and min(printed_sizes(cards, ".care")) >= 10
    assert min(printed_sizes(cards, "article > :not(.steps), .steps li .text")) >= 8


def test_sizes_on_paper(paper):
    """The same read from the paper, where sizes come in thirds of a point: the browser has shrunk nothing."""
    for number, order in enumerate(ORDERS):
        pieces = [piece for piece in paper_pieces(paper) if piece[0] == number]
        large = [text for _, _, size, text in pieces if size >= 36]
        assert large == SET.get(order, []), order
        start = next(top for _, top, _, text in pieces if text.startswith("Take care"))
        foot = next(top for _, top, _, text in pieces if text.startswith(f"Order {order}, bench press"))
        cautions = [size for _, top, size, _ in pieces if start - 1 <= top < foot - 1]
        assert len(cautions) > 8 and min(cautions) >= 10, order
        assert min(size for _, _, size, _ in pieces) >= 8, order


def test_no_two_texts_overlap_on_paper(paper):
    assert paper_overlaps(paper) == []


def test_nothing_is_missing_on_paper(cards, paper):
    for order, sheet in zip(ORDERS, paper_texts(paper)):
        words = set(ask(cards, "id => document.getElementById(id).innerText", f"card-{order}").split()) - {"\u25aa"}
        assert words <= set(sheet.replace("\ufb01", "fi").split()), order


# ---- a phone's screen --------------------------------------------------------------------------------------

def test_a_phone_scrolls_in_one_direction(phone):
    assert ask(phone, "() => [innerWidth, document.documentElement.scrollWidth]") == [390, 390]
    beyond = ask(phone, """() => [...document.querySelectorAll('main *')].filter(found => !found.closest('svg'))
        .filter(found => found.getBoundingClientRect().right > 390.5).map(found => found.outerHTML.slice(0, 80))""")
    assert beyond == []


@pytest.mark.parametrize("width", [390, 1000])
def test_no_two_texts_overlap(cards, width):
    set_width(cards, width)
    assert ask(cards, OVERLAPS) == []
    set_width(cards, 1000)


def test_text_is_large_enough_on_a_phone(phone):
    sizes = ask(phone, """() => [...document.querySelectorAll('main *')].filter(found => found.children.length === 0 &&
        found.textContent.trim() && !found.closest('svg')).map(found => [found.className, parseFloat(getComputedStyle(found).fontSize)])""")
    assert min(size for _, size in sizes) >= 13.5 and min(size for name, size in sizes if name == "value") >= 32


# ---- without colour ----------------------------------------------------------------------------------------

def test_a_card_can_be_read_without_colour(cards):
    """All text has one colour on white ground, and so has all that is drawn: nothing can hang on a colour."""
    colours = ask(cards, """() => [...new Set([...document.querySelectorAll('main *')].map(found => getComputedStyle(found).color))]""")
    drawn = ask(cards, """() => [...new Set([...document.querySelectorAll('svg path')].flatMap(path =>
        [getComputedStyle(path).stroke, getComputedStyle(path).fill]))]""")
    grounds = ask(cards, """() => [...new Set([...document.querySelectorAll('body, main *')]
        .map(found => getComputedStyle(found).backgroundColor))].filter(colour => !colour.endsWith(', 0)'))""")
    assert colours == ["rgb(17, 17, 17)"] and sorted(drawn) == ["none", "rgb(17, 17, 17)"] and grounds == ["rgb(255, 255, 255)"]
