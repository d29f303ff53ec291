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
    """The page on A4 paper, with the margins that it asks for."""
    answer = driver.execute_cdp_cmd("Page.printToPDF", {"preferCSSPageSize": True, "printBackground": False})
    path.write_bytes(base64.b64decode(answer["data"]))


def paper_texts(path):
    """Text of each sheet of a PDF file."""
    text = subprocess.run(["pdftotext", "-raw", path, "-"], capture_output=True, text=True, check=True).stdout
    return text.removesuffix("\f").split("\f")


def paper_words(path):
    """Place and sheet of each word: (sheet, left, top, right, bottom, text) in points, and the sheet's size."""
    text = subprocess.run(["pdftotext", "-bbox", path, "-"], capture_output=True, text=True, check=True).stdout
    name = "{http://www.w3.org/1999/xhtml}"
    for number, sheet in enumerate(ElementTree.fromstring(text).iter(f"{name}page")):
        size = float(sheet.get("width")), float(sheet.get("height"))
        for word in sheet.iter(f"{name}word"):
            place = [float(word.get(side)) for side in ("xMin", "yMin", "xMax", "yMax")]
            yield number, size, place, word.text
