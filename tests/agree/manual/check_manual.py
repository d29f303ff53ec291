# SPDX-License-Identifier: MIT
"""Look at the built manual in a browser without a screen.

Usage: check_manual.py MANUAL_FOLDER [BROWSER]

Every page with formulas shows them, without an error of the formula renderer; no page needs the network; no page is
wider than a phone's screen; every link inside the manual leads somewhere; every function stands in a table.
"""
import html
import html.parser
import json
import pathlib
import re
import subprocess
import sys
import tempfile

PHONE = 390
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[3] / "bindings" / "api"))
import symbols  # noqa: E402


# Loads every page into a frame as wide as a phone's screen, one after the other, and writes down what is there.
PROBE = """<!DOCTYPE html><meta charset="utf-8"><body><script>
const pages = PAGES, found = {};
function next() {
    const page = pages.shift();
    if (!page) {
        const out = document.createElement('pre');
        out.textContent = JSON.stringify(found);
        document.body.append(out);
        return;
    }
    const frame = document.createElement('iframe');
    frame.width = WIDTH;
    frame.height = 800;
    frame.onload = function () {
        const seen = frame.contentWindow, dom = frame.contentDocument;
        function look() {
            found[page] = {wide: Math.max(dom.documentElement.scrollWidth, dom.body.scrollWidth),
                           formulas: dom.querySelectorAll('.MathJax_SVG').length,
                           errors: dom.querySelectorAll('svg [fill="rgb(204, 0, 0)"], svg [fill="red"]').length};
            frame.remove();
            next();
        }
        if (seen.MathJax) { seen.MathJax.Hub.Queue(look); } else { setTimeout(look, 50); }
    };
    frame.src = page;
    document.body.append(frame);
}
next();
</script>"""


class Links(html.parser.HTMLParser):
    def __init__(self, page):
        super().__init__()
        self.targets, self.names, self.loaded = [], set(), []
        self.feed(page)

    def handle_starttag(self, tag, attributes):
        found = dict(attributes)
        self.names |= {found[key] for key in ("id", "name") if found.get(key)}
        if tag == "a" and found.get("href"):
            self.targets.append(found["href"])
        self.loaded += [found[key] for key in ("src", "href") if tag in ("script", "link", "img") and found.get(key)]


def links(folder):
    """Troubles with links between the pages, and with what they load from elsewhere."""
    pages = {path.name: Links(path.read_text(encoding="utf-8")) for path in folder.glob("*.html")}
    for name, page in pages.items():
        for target in page.targets:
            file, _, place = target.partition("#")
            if target.startswith(("http:", "https:", "javascript:", "mailto:")):
                continue
            if file and not (folder / file).exists():
                yield f"{name}: {target} leads nowhere"
            elif place and (file or name) in pages and place not in pages[file or name].names:
                yield f"{name}: {target} has no such place"
        for target in page.loaded:
            if re.match(r"(https?:)?//", target) or not (folder / target.split("?")[0]).exists():
                yield f"{name}: loads {target}"


def listed(folder):
    """Functions that the library exports and that are missing in the table of them."""
    shown = set(re.findall(r"\bfer_\w+", (folder / "functions.html").read_text(encoding="utf-8")))
    for name in symbols.exported():
        if name not in shown:
            yield f"functions.html: {name} is missing"


def seen(browser, folder, names):
    """What the browser finds on each page."""
    probe = folder / "probe.html"
    probe.write_text(PROBE.replace("PAGES", json.dumps(names)).replace("WIDTH", str(PHONE)), encoding="utf-8")
    try:
        with tempfile.TemporaryDirectory() as profile:
            dom = subprocess.run([browser, "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={profile}",
                                  "--allow-file-access-from-files", "--virtual-time-budget=600000", "--dump-dom",
                                  probe.as_uri()], text=True, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
                                 timeout=300).stdout
    finally:
        probe.unlink()
    found = re.search(r"<pre>(.*?)</pre>", dom, re.S)
    return json.loads(html.unescape(found[1])) if found else {}


def shown(folder, browser):
    """Troubles with what a browser shows."""
    texts = {path.name: path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.html"))}
    found = seen(browser, folder, list(texts))
    for name, text in texts.items():
        wanted = len(re.findall(r"\\\(|\\\[", text))
        page = found.get(name, {"wide": PHONE + 1, "formulas": 0, "errors": 0})
        if page["errors"] or page["formulas"] < wanted:
            yield f"{name}: {page['formulas']} of {wanted} formulas shown, {page['errors']} with an error"
        if page["wide"] > PHONE:
            yield f"{name}: {page['wide']} pixels wide on a screen of {PHONE}"
    if sum(page["formulas"] for page in found.values()) < 100:
        yield "hardly a formula shown in the whole manual"


def main():
    folder, browser = pathlib.Path(sys.argv[1]).resolve(), (sys.argv[2:] or ["chromium"])[0]
    troubles = [*links(folder), *listed(folder), *shown(folder, browser)]
    print("\n".join(troubles) or "The manual is whole.")
    sys.exit(1 if troubles else 0)


main()
