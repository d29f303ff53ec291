# SPDX-License-Identifier: MIT
"""Chromium without a screen, without a network, with a profile that is thrown away."""
import base64
import shutil
import subprocess
import tempfile
from contextlib import contextmanager
from xml.etree import ElementTree

from selenium import webdriver
from selenium.webdriver.chrome.service import Service

FLAGS = ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
         "--disable-background-networking", "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage")


@contextmanager
def open_browser():
    """A browser for as long as the block lasts."""
    profile = tempfile.mkdtemp()
    options = webdriver.ChromeOptions()
    options.binary_location = shutil.which("chromium")
    for flag in (*FLAGS, f"--user-data-dir={profile}"):
        options.add_argument(flag)
    driver = webdriver.Chrome(service=Service(shutil.which("chromedriver")), options=options)
    try:
        yield driver
    finally:
        driver.quit()
        shutil.rmtree(profile, ignore_errors=True)


def set_width(driver, width, height=800):
    """Show the page as on a screen of this width in CSS pixels."""
    driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                           {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600})


def print_page(driver, path):
    """The page on the paper and with the margins that it asks for."""
    answer = driver.execute_cdp_cmd("Page.printToPDF", {"preferCSSPageSize": True, "printBackground": False})
    path.write_bytes(base64.b64decode(answer["data"]))


def paper_texts(path):
    """Text of each sheet of a PDF file."""
    text = subprocess.run(["pdftotext", "-raw", path, "-"], capture_output=True, text=True, check=True).stdout
    return text.removesuffix("\f").split("\f")


# Pairs of texts whose boxes overlap by more than a pixel: lines of text, each by the boxes that the browser has laid out.
OVERLAPS = """() => {
    const boxes = [], walker = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
        const node = walker.currentNode, parent = node.parentElement;
        if (!node.textContent.trim() || parent.closest('title, desc, defs') || getComputedStyle(parent).visibility === 'hidden' ||
            getComputedStyle(parent.closest('thead, body')).clipPath !== 'none') continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        for (const box of range.getClientRects()) {
            const inset = 0.14 * box.height;  // line boxes are higher than letters
            if (box.width > 1) boxes.push([box.left, box.top + inset, box.right, box.bottom - inset, node.textContent.trim()]);
        }
    }
    boxes.sort((one, other) => one[1] - other[1]);
    const found = [];
    boxes.forEach((one, place) => {
        for (let i = place + 1; i < boxes.length && boxes[i][1] < one[3] - 1; i++) {
            const other = boxes[i];
            if (other[0] < one[2] - 1 && other[2] > one[0] + 1) found.push([one[4], other[4]]);
        }
    });
    return found;
}"""


def paper_pieces(path):
    """Pieces of text on paper: (sheet, top, size in points, text)."""
    zoom = 3  # sizes come as whole numbers, and a larger zoom is not taken
    xml = subprocess.run(["pdftohtml", "-xml", "-i", "-stdout", "-zoom", str(zoom), path], capture_output=True, text=True, check=True).stdout
    sizes = {}
    for number, sheet in enumerate(ElementTree.fromstring(xml).iter("page")):
        sizes |= {font.get("id"): float(font.get("size")) / zoom for font in sheet.iter("fontspec")}
        for text in sheet.iter("text"):
            said = "".join(text.itertext()).strip()
            if said:
                yield number, float(text.get("top")) / zoom, sizes[text.get("font")], said


def printed_sizes(driver, selector):
    """Sizes in points that the print style asks for, of all texts below what a selector finds; drawings as large as they are shown."""
    driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    found = driver.execute_script("""return [...document.querySelectorAll(arguments[0])].flatMap(part =>
        [part, ...part.querySelectorAll('*')]).filter(found => [...found.childNodes].some(node => node.nodeType === 3 && node.data.trim()) &&
            !found.closest('title, desc'))
        .map(found => Math.round(parseFloat(getComputedStyle(found).fontSize) * 750) / 1000)""", selector)
    driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})
    return found


def paper_overlaps(path):
    """Pairs of words on paper whose boxes overlap by more than half a point; a word with a white edge comes twice, at one place."""
    found, sheets = [], {}
    for sheet, _, (left, top, right, bottom), word in paper_words(path):
        inset = 0.2 * (bottom - top)  # the box of a word is that of its font, higher than letters
        sheets.setdefault(sheet, []).append((left, top + inset, right, bottom - inset, word))
    for sheet, words in sheets.items():
        words.sort(key=lambda word: word[1])
        for place, one in enumerate(words):
            for other in words[place + 1:]:
                if other[1] > one[3] - 0.5:
                    break
                same = one[4] == other[4] and abs(one[0] - other[0]) < 0.5 and abs(one[1] + one[3] - other[1] - other[3]) < 1
                if not same and other[0] < one[2] - 0.5 and other[2] > one[0] + 0.5:
                    found.append((sheet + 1, one[4], other[4]))
    return found


def paper_words(path):
    """Place and sheet of each word: (sheet, left, top, right, bottom, text) in points, and the sheet's size."""
    text = subprocess.run(["pdftotext", "-bbox", path, "-"], capture_output=True, text=True, check=True).stdout
    name = "{http://www.w3.org/1999/xhtml}"
    for number, sheet in enumerate(ElementTree.fromstring(text).iter(f"{name}page")):
        size = float(sheet.get("width")), float(sheet.get("height"))
        for word in sheet.iter(f"{name}word"):
            place = [float(word.get(side)) for side in ("xMin", "yMin", "xMax", "yMax")]
            yield number, size, place, word.text
