# SPDX-License-Identifier: MIT
"""The report as one page for screen, phone and paper: no scripts, nothing from elsewhere, and a policy that says so to the browser.

Every text of a table goes through escape(): a name that looks like HTML is shown as it was written.
"""
import base64
import hashlib
import html
import re

import signs

STYLE = """
:root{color-scheme:light dark;--page:#fff;--card:#f3f5f7;--ink:#14181d;--soft:#566370;--faint:#c3cbd2;--bad:#b3261e;--wait:#8a5200;
 --good:#14653a;--series-0:#0b5c8a;--series-1:#b3541e;--series-2:#5b3f99;--series-3:#37711f}
@media (prefers-color-scheme:dark){:root{--page:#14181d;--card:#1e252c;--ink:#e9edf0;--soft:#a3afba;--faint:#46515b;--bad:#ff8f85;
 --wait:#ffc46b;--good:#80d69d;--series-0:#6cc0ef;--series-1:#ffad7a;--series-2:#c3abff;--series-3:#9bd67e}}
*{box-sizing:border-box}
body{margin:0;padding:1rem;font:1rem/1.45 system-ui,sans-serif;color:var(--ink);background:var(--page)}
main{max-width:68rem;margin:0 auto}
h1{font-size:1.45rem;line-height:1.2;margin:0 0 .3rem}
h2{font-size:1.2rem;line-height:1.25;margin:2rem 0 .5rem}
h3{font-size:1rem;margin:1rem 0 .2rem}
p{margin:.25rem 0 .6rem}
h1,h2,h3,p,li,td,th,figcaption,summary{overflow-wrap:anywhere}
ul,ol{margin:.2rem 0 .6rem;padding-left:1.3rem}
li{margin:.25rem 0}
.quiet{color:var(--soft)}
.decision{border:2px solid var(--tone);border-left-width:.7rem;border-radius:.4rem;padding:.7rem 1rem;margin:.8rem 0;background:var(--card)}
.decision .word{display:flex;gap:.7rem;align-items:center;font-size:1.5rem;line-height:1.15;font-weight:bold;color:var(--tone);margin:0 0 .4rem}
.decision p:last-child{margin-bottom:0}
.sign{flex:none;width:2rem;height:2rem}
.sign path{stroke:currentColor}
.ACCEPT{--tone:var(--good)}
.REJECT{--tone:var(--bad)}
.UNDECIDED{--tone:var(--wait)}
table{width:100%;border-collapse:collapse;font-variant-numeric:tabular-nums}
caption{text-align:left;font-weight:bold;padding:.2rem 0 .3rem}
th,td{text-align:left;vertical-align:top;padding:.35rem .8rem .35rem 0;border-bottom:1px solid var(--faint)}
thead th{border-bottom:2px solid var(--soft)}
.presses{table-layout:fixed}
.presses th.press{width:14%}
.presses th.count{width:9%}
.presses th.answer{width:21%}
.presses .answer{font-weight:bold;color:var(--tone)}
.presses .sign{width:1.2rem;height:1.2rem;vertical-align:-.25rem;margin-right:.35rem}
.pairs th{font-weight:normal;width:62%}
.pairs td{font-weight:bold}
.findings h3{border-bottom:2px solid var(--soft)}
.where{font-weight:bold}
.pictures{display:grid;grid-template-columns:minmax(0,1fr);gap:1.2rem;align-items:start}
figure{margin:0;padding:.8rem;border:1px solid var(--faint);border-radius:.4rem}
figcaption{margin-bottom:.5rem}
figcaption b{display:block}
.picture{display:block;width:100%;height:auto;font-family:"DejaVu Sans",system-ui,sans-serif;stroke-linejoin:round}
.columns{display:grid;grid-template-columns:minmax(0,1fr);gap:0 2rem}
.care{font-size:.92rem}
@media (min-width:48rem){.pictures,.columns{grid-template-columns:repeat(2,minmax(0,1fr))}}
@media screen and (max-width:39.99rem){
 .presses thead{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden}
 .presses tr{display:grid;grid-template-columns:auto 1fr;gap:0 .8rem;border-bottom:1px solid var(--faint);padding:.4rem 0}
 .presses tr>*{border:0;padding:.05rem 0}
 .presses .answer{text-align:right;white-space:nowrap}
 .presses .next{font-weight:bold}
 .presses .next::before{content:"Do next: "}
 .presses .why,.presses .next{grid-column:1/-1}
 .presses .count{display:none}
}
@page{size:A4;margin:12mm 13mm}
@media print{
 :root{color-scheme:light;--page:#fff;--card:#fff;--ink:#000;--soft:#444;--faint:#aaa;--bad:#8f1d17;--wait:#6b3f00;--good:#0e4f2d;
  --series-0:#0b5c8a;--series-1:#a1461a;--series-2:#4c3490;--series-3:#2c5c18}
 body{padding:0;font-size:9.5pt;line-height:1.3}
 main{max-width:none}
 h1{font-size:15pt}
 h2{font-size:12pt;margin:5mm 0 1.5mm;break-after:avoid}
 h3{font-size:9.5pt;break-after:avoid}
 .decision .word{font-size:15pt}
 .pictures{grid-template-columns:repeat(2,minmax(0,1fr));gap:4mm}
 figure{padding:2.5mm}
 tr,li,figure,.decision{break-inside:avoid}
 .care{font-size:9pt;line-height:1.2}
 .care ul{columns:2;column-gap:6mm}
 .columns{grid-template-columns:repeat(3,minmax(0,1fr));gap:0 5mm}
 .pairs th{width:60%}
 .columns td,.columns th{font-size:8.5pt;padding-right:1.5mm}
 th,td{padding:.7mm 3mm .7mm 0}
}
"""

UNIT = re.compile(r"(?<=\d) (?=mm\b|bar\b|%)")


def escape(text):
    """A text as it was written; a figure stays with its unit."""
    return UNIT.sub("\N{NO-BREAK SPACE}", html.escape(text))


# The outlines of the press cards: an octagon, a diamond, a circle, with a mark in each, so that no colour is needed.
SIGNS = {"REJECT": "NOT_READY", "UNDECIDED": "AFTER_CONFIRMING", "ACCEPT": "READY"}


def _policy():
    """Nothing is loaded, nothing runs, no form is sent; the one style is this one."""
    digest = base64.b64encode(hashlib.sha256(STYLE.encode()).digest()).decode()
    return f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"


class _Sign:
    """What signs.draw() takes of a readiness."""

    def __init__(self, decision):
        self.name = SIGNS.get(decision, "NOT_READY")


def _sign(decision):
    return signs.draw(_Sign(decision))


def _list(texts, tag="ul"):
    return f"<{tag}>{''.join(f'<li>{escape(text)}</li>' for text in texts)}</{tag}>"


def _decision(report):
    word = f'<p class="word">{_sign(report.decision)}<span>Diameters: {escape(report.word)}</span></p>'
    return (f'<section class="decision {report.decision}" id="decision">{word}<p>{escape(report.meaning)}</p>'
            f'<p class="quiet">{escape(report.not_said)}</p></section>')


COLUMNS = {"press": "press", "count": "crimps", "answer": "diameters", "why": "why", "next": "do next"}


def _press(row):
    cells = "".join(f'<td class="{key}">{_sign(row.decision) if key == "answer" else ""}{escape(text)}</td>'
                    for key, text in zip([*COLUMNS][1:], (row.count, row.word, row.why, row.next)))
    return f'<tr class="{row.decision}"><th scope="row">{escape(row.press)}</th>{cells}</tr>'


def _presses(report):
    heading = "".join(f'<th scope="col" class="{key}">{text}</th>' for key, text in COLUMNS.items())
    return (f'<table class="presses"><caption>Each press by itself</caption><thead><tr>{heading}</tr></thead>'
            f"<tbody>{''.join(map(_press, report.presses))}</tbody></table>")


def _findings(report):
    parts = []
    for heading, found in report.findings.items():
        items = "".join(f'<li><span class="where">{escape(where)}:</span> {escape(text)}</li>' for where, text in found)
        parts.append(f"<h3>{escape(heading)}</h3><ul>{items}</ul>")
    return f'<section class="findings"><h2>What was found, the gravest first</h2>{"".join(parts)}</section>'


def _pictures(pictures):
    figures = "".join(f'<figure id="{name}"><figcaption><b>{escape(title)}</b>{escape(about)}</figcaption>{svg}</figure>'
                      for name, title, about, svg in pictures)
    return f'<section><h2>To look at</h2><div class="pictures">{figures}</div></section>'


def _pairs(group):
    rows = "".join(f'<tr><th scope="row">{escape(label)}</th><td>{escape(value)}</td></tr>' for label, value in group.lines)
    return f'<section><h3>{escape(group.title)}</h3><table class="pairs"><tbody>{rows}</tbody></table></section>'


def write(report, pictures):
    """The page as text."""
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        f'<meta http-equiv="Content-Security-Policy" content="{html.escape(_policy())}">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{escape(report.title)}</title><style>{STYLE}</style></head><body><main>"
        f'<h1>{escape(report.title)}</h1><p class="quiet">{escape(report.subject)}</p>'
        f"{_decision(report)}{_presses(report)}"
        f'<section class="next"><h2>Do next</h2>{_list(report.do_next, "ol")}</section>'
        f"{_findings(report)}{_pictures(pictures)}"
        f'<section><h2>Figures</h2><div class="columns">{"".join(map(_pairs, report.groups))}</div></section>'
        f'<section class="care"><h2>Take care</h2>{_list(report.cautions)}</section>'
        f'<p class="quiet">{escape(report.invented)}</p></main></body></html>\n'
    )
