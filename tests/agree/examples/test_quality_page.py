# SPDX-License-Identifier: MIT
"""The report on a batch as a page: the figures of the text, on a phone, a tablet, a screen and paper, light and dark, with hostile names."""
import csv
import re

import pytest

from browser import OVERLAPS, open_browser, paper_overlaps, paper_texts, paper_words, print_page, set_width
from programs import QUALITY, copy_data, read_quality, run_quality

WIDTHS = (390, 820, 1280)
LONG = "W" * 120
HOSTILE = ("<script>document.title='x'</script>", "\"><img src=x onerror=alert(1)>", "$\\frac{1}{2}$ ${x} {{7*7}} %s", "&lt;b&gt; ]]> <!--", LONG)
BAD = {  # what each text field of the tables holds besides
    "batch": {"order": HOSTILE[0], "parts": HOSTILE[1]}, "gauge": {"gauge": HOSTILE[3]},
    "crimps": {"press": HOSTILE, "die": HOSTILE[2], "person": HOSTILE[1]}, "study": {"person": HOSTILE},
}


@pytest.fixture(scope="module", name="folder")
def make_folder(tmp_path_factory):
    return tmp_path_factory.mktemp("quality")


@pytest.fixture(scope="module", name="report")
def run(folder):
    output = run_quality("--page", folder / "batch.html")
    assert output.status == 1, output.errors
    return read_quality(output.text)


@pytest.fixture(scope="module", name="page")
def open_page(report, folder):
    assert report
    with open_browser() as driver:
        set_width(driver, 1280)
        driver.get((folder / "batch.html").as_uri())
        yield driver


@pytest.fixture(scope="module", name="hostile")
def make_hostile(tmp_path_factory):
    """A page made of tables with hostile names in every text field: names of several presses, dies and people stay different."""
    folder = tmp_path_factory.mktemp("hostile")
    copy_data(folder, QUALITY)
    for table, fields in BAD.items():
        path = folder / f"{table}.csv"
        rows = list(csv.DictReader(line for line in path.read_text(encoding="utf-8").splitlines() if not line.startswith("#")))
        for column, hostile in fields.items():
            names = list(dict.fromkeys(row[column] for row in rows))
            for row in rows:
                place = names.index(row[column])
                row[column] = f"{hostile[place] if isinstance(hostile, tuple) else hostile} {place + 1}"
        with path.open("w", newline="", encoding="utf-8") as out:
            writer = csv.DictWriter(out, rows[0])
            writer.writeheader()
            writer.writerows(rows)
    output = run_quality("--page", folder / "batch.html", data=folder)
    assert output.status == 1, output.errors
    return folder / "batch.html"


def ask(page, script, *arguments):
    return page.execute_script("return (" + script + ")(...arguments)", *arguments)


def said(text):
    """A figure stays with its unit on the page; in the text it need not."""
    return text.replace("\N{NO-BREAK SPACE}", " ").strip()


TEXTS = "selector => [...document.querySelectorAll(selector)].map(found => found.textContent)"
PAIRS = """() => [...document.querySelectorAll('.columns section')].map(part => [part.querySelector('h3').textContent,
    [...part.querySelectorAll('tr')].map(row => [...row.children].map(cell => cell.textContent))])"""
ROWS = "() => [...document.querySelectorAll('.presses tbody tr')].map(row => [...row.children].map(cell => cell.textContent))"


# ---- what is on it -----------------------------------------------------------------------------------------

def test_page_says_what_the_text_says(page, report):
    assert said(ask(page, TEXTS, "h1")[0]).upper() == report.title
    assert said(ask(page, TEXTS, "#decision .word")[0]).upper() == report.decision.split("] ")[1]
    assert " ".join(said(text) for text in ask(page, TEXTS, "#decision p:not(.word)")) == report.meaning
    assert said(ask(page, TEXTS, "h1 + p")[0]) == report.subject
    assert {row[0]: tuple(map(said, row[1:])) for row in ask(page, ROWS)} == {
        press: (count, word, why, step) for press, (_, count, word, why, step) in report.presses.items()}
    assert list(map(said, ask(page, TEXTS, ".next li"))) == report.do_next
    assert list(map(said, ask(page, TEXTS, ".care li"))) == report.cautions
    found = ask(page, """() => [...document.querySelectorAll('.findings h3')].map(head => [head.textContent,
        [...head.nextElementSibling.children].map(item => item.textContent)])""")
    assert {heading: list(map(said, items)) for heading, items in found} == report.findings
    assert {head.upper(): {said(label): said(value) for label, value in rows} for head, rows in ask(page, PAIRS)} == report.figures


def test_decision_and_do_next_come_first(page, report):
    """On a phone's first screen: decision, what it is about, and the first press."""
    set_width(page, 390)
    tops = ask(page, """() => ['#decision .word', '#decision p:last-child', '.presses tbody tr'].map(selector =>
        document.querySelector(selector).getBoundingClientRect().bottom)""")
    set_width(page, 1280)
    assert all(top <= 800 for top in tops), tops
    assert len(ask(page, TEXTS, ".decision")) == 1
    signs = ask(page, "() => [...document.querySelectorAll('.sign')].map(sign => sign.dataset.sign)")
    assert len(signs) == 1 + len(report.presses)


def test_first_screen_needs_no_statistics(page):
    text = " ".join(ask(page, TEXTS, "h1, .decision, .presses")).lower()
    for term in ("deviation", "variance", "confidence", "probability", "index", "capab", "significan", "sigma", "quantile", "distribution",
                 "hypothesis", "p-value", "estimate", "tolerance limit"):
        assert term not in text, term


def test_signs_and_words_belong_together(page):
    wanted = {"accept": "READY", "reject": "NOT_READY", "find out first": "AFTER_CONFIRMING"}
    pairs = ask(page, """() => [...document.querySelectorAll('.answer')].filter(cell => cell.querySelector('svg'))
        .map(cell => [cell.textContent, cell.querySelector('svg').dataset.sign])""")
    assert pairs and all(wanted[word] == sign for word, sign in pairs)


def test_one_file_without_scripts_and_with_a_policy(folder, page):
    text = (folder / "batch.html").read_text(encoding="utf-8")
    policy = ask(page, "() => document.querySelector('meta[http-equiv=Content-Security-Policy]').content")
    assert "default-src 'none'" in policy and "unsafe" not in policy
    assert not re.search(r"<script|<link|<img|<iframe|<object|<embed|@import|\son\w+=|\sstyle=|xlink|javascript:", text)
    assert all(target.startswith("#") for target in re.findall(r'(?:href|src)="([^"]*)"', text))
    assert all(target.startswith("#") for target in re.findall(r"url\(([^)]*)\)", text))
    assert page.get_log("browser") == []
    assert ask(page, "() => getComputedStyle(document.querySelector('main')).maxWidth") != "none", "the style is not applied"


def test_can_be_read_aloud(page):
    assert ask(page, "() => document.documentElement.lang") == "en"
    assert ask(page, "() => document.querySelectorAll('h1').length") == 1
    assert ask(page, "() => [...document.querySelectorAll('th')].every(head => head.scope)")
    assert ask(page, "() => [...document.querySelectorAll('svg.picture')].every(picture => picture.getAttribute('aria-label'))")
    twice = ask(page, """() => {const ids = [...document.querySelectorAll('[id]')].map(found => found.id);
        return ids.filter((id, place) => ids.indexOf(id) !== place)}""")
    assert twice == []
    dead = ask(page, """() => [...document.querySelectorAll('use')].map(use => use.getAttribute('href'))
        .filter(name => !document.getElementById(name.slice(1)))""")
    assert dead == []


# ---- how it looks ------------------------------------------------------------------------------------------

# Texts that end outside of the screen, or outside of their picture.
CUT = """() => {
    const found = [], walker = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
        const parent = walker.currentNode.parentElement;
        if (!walker.currentNode.textContent.trim() || getComputedStyle(parent.closest('thead, body')).clipPath !== 'none') continue;
        const range = document.createRange();
        range.selectNodeContents(walker.currentNode);
        const picture = parent.closest('svg'), edge = picture ? picture.getBoundingClientRect() :
            {left: 0, right: document.documentElement.clientWidth};
        for (const box of range.getClientRects())
            if (box.width > 1 && (box.left < edge.left - 1 || box.right > edge.right + 1)) found.push(walker.currentNode.textContent.trim());
    }
    return found;
}"""
# The contrast of each text with what is behind it, by WCAG 2: pairs that are below 4.5.
FAINT = """() => {
    const rgba = text => { const parts = text.match(/[\\d.]+/g).map(Number); return parts.length > 3 ? parts : [...parts, 1]; };
    const light = colour => { const [r, g, b] = colour.map(part => (part /= 255) <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4);
        return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
    const found = [], walker = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
        const parent = walker.currentNode.parentElement;
        if (!walker.currentNode.textContent.trim()) continue;
        const style = getComputedStyle(parent), ink = rgba(parent.closest('svg') ? style.fill : style.color);
        let behind = parent, paper = [0, 0, 0, 0];
        for (; behind && !paper[3]; behind = behind.parentElement) paper = rgba(getComputedStyle(behind).backgroundColor);
        const [high, low] = [light(ink), light(paper)].sort((one, other) => other - one);
        if (!paper[3] || (high + 0.05) / (low + 0.05) < 4.5) found.push([walker.currentNode.textContent.trim(), ink, paper]);
    }
    return found;
}"""


@pytest.mark.parametrize("width", WIDTHS)
def test_fits_the_screen(page, width):
    set_width(page, width)
    try:
        assert ask(page, "() => document.documentElement.scrollWidth <= document.documentElement.clientWidth")
        assert ask(page, CUT) == []
        assert ask(page, OVERLAPS) == []
        sizes = ask(page, """() => [...document.querySelectorAll('svg.picture')].map(picture => {
            const scale = picture.getBoundingClientRect().width / picture.viewBox.baseVal.width;
            return Math.min(...[...picture.querySelectorAll('text')].map(text => scale * parseFloat(text.getAttribute('font-size'))))})""")
        assert len(sizes) == 4 and min(sizes) >= 8, sizes
    finally:
        set_width(page, 1280)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_is_legible_in_light_and_dark(page, scheme):
    page.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": scheme}]})
    try:
        dark = ask(page, "() => getComputedStyle(document.body).backgroundColor") != "rgb(255, 255, 255)"
        assert dark == (scheme == "dark")
        assert ask(page, FAINT) == []
        colours = ask(page, """() => [...new Set([...document.querySelectorAll('svg.picture text')].map(text => getComputedStyle(text).fill))]""")
        assert "rgb(1, 2, 3)" not in colours, "a stand-in colour was not replaced"
    finally:
        page.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": []})


def test_prints_on_a4(page, folder):
    print_page(page, folder / "batch.pdf")
    sheets = paper_texts(folder / "batch.pdf")
    assert 2 <= len(sheets) <= 4
    assert "do the diameters pass?" in sheets[0] and "Do next" in sheets[0]
    assert "Take care" in sheets[-1] and "invented" in sheets[-1], "the cautions stand together"
    words = list(paper_words(folder / "batch.pdf"))
    assert {tuple(round(side) for side in size) for _, size, _, _ in words} == {(595, 842)}
    assert all(30 <= left and right <= 565 and 28 <= top and bottom <= 814 for _, _, (left, top, right, bottom), _ in words)
    assert paper_overlaps(folder / "batch.pdf") == []


# ---- names from elsewhere ----------------------------------------------------------------------------------

@pytest.mark.parametrize("width", WIDTHS)
def test_hostile_names_stay_text(page, folder, hostile, width):
    set_width(page, width)
    page.get(hostile.as_uri())
    try:
        assert ask(page, "() => document.querySelectorAll('script, img, iframe, b:not(figcaption b)').length") == 0
        assert page.title.startswith("Order <script>")
        assert [row[0] for row in ask(page, ROWS)] == [f"{HOSTILE[place]} {place + 1}" for place in range(3)]
        body = ask(page, "() => document.body.textContent")
        assert f"{HOSTILE[1]} 1" in body and f"{HOSTILE[3]} 1" in body and "49" not in ask(page, TEXTS, ".presses tbody tr")[2]
        assert page.get_log("browser") == []
        assert ask(page, "() => document.documentElement.scrollWidth <= document.documentElement.clientWidth")
        assert ask(page, CUT) == []
        assert ask(page, OVERLAPS) == []
        if width == 1280:
            print_page(page, folder / "hostile.pdf")
            assert paper_overlaps(folder / "hostile.pdf") == []
    finally:
        set_width(page, 1280)
        page.get((folder / "batch.html").as_uri())
