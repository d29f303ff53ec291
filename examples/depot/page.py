# SPDX-License-Identifier: MIT
"""The engineer's sheets: the day as one page for screen and paper, each order beginning a sheet. No scripts, nothing from elsewhere.

What is needed at the press stands on the cards (card.py).
"""
from collections import Counter
from html import escape

from ferrule import show

import drawing
import figures
import signs

STYLE = """
:root{color-scheme:light}
*{box-sizing:border-box}
body{margin:0 auto;max-width:60rem;padding:.8rem;font:1rem/1.35 system-ui,sans-serif;color:#111;background:#fff}
h1{font-size:1.5rem;margin:.2rem 0 .4rem}
h2{font-size:1.3rem;margin:0}
h3{font-size:1rem;margin:.9rem 0 .25rem;border-bottom:2px solid #111}
p{margin:.2rem 0 .5rem}
ul,ol{margin:.2rem 0;padding-left:1.3rem}
li{margin:.15rem 0;overflow-wrap:anywhere}
a{color:inherit}
table{width:100%;border-collapse:collapse;font-variant-numeric:tabular-nums}
caption{text-align:left;font-weight:bold;padding:.2rem 0}
th,td{text-align:left;vertical-align:top;padding:.16rem .5rem .16rem 0;border-bottom:1px solid #999;
      overflow-wrap:break-word}
.whole{white-space:nowrap}
th{font-weight:normal}
thead th{font-weight:bold;border-bottom:2px solid #111}
.pairs th{width:48%}
.pairs td{font-weight:bold}
.order{border-top:6px solid #111;margin-top:2rem;padding-top:.5rem}
.set td{font-size:1.25rem;line-height:1.25}
.state{display:flex;gap:.6rem;align-items:center;border:3px solid #111;padding:.3rem .6rem;margin:.5rem 0}
.state b{font-size:1.25rem}
.sign{flex:none;width:2.2rem;height:2.2rem}
.overview .sign{width:1.2rem;height:1.2rem;vertical-align:-.3rem;margin-right:.3rem}
.overview .needs th{font-weight:bold;border-bottom:2px solid #111;padding-top:.6rem}
.remarks h3{border-width:1px}
.drawing{display:block;width:100%;max-width:26rem;height:auto;margin:.6rem auto 0}
.verdict{font-weight:bold}
.metal .why{font-weight:normal}
.care{font-size:.85rem}
@media (min-width:46rem),print{
 .columns{display:grid;grid-template-columns:1fr 1fr;gap:0 1.4rem}
 .columns>*{min-width:0}
 .metal th{width:30%}
 .beside tbody{display:grid;grid-template-columns:1fr 1fr;gap:0 1.4rem}
 .beside table{display:block}
 .beside tr{display:flex}
 .beside th{flex:0 0 62%}
 .beside td{flex:1}
 .crimps td:not(.verdict){white-space:nowrap}
 .crimps .verdict{width:26%}
}
@media (max-width:45.99rem){
 .wide{display:none}
 .overview td,.overview th{font-size:.9rem}
 .crimps thead{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden}
 .crimps tr{display:grid;grid-template-columns:1fr 1fr;border-bottom:2px solid #111;padding:.3rem 0}
 .crimps tbody th,.crimps td{border:0;padding:.1rem 0;font-size:.9rem}
 .crimps tbody th::before,.crimps td::before{content:attr(data-label) " ";font-weight:normal}
 .crimps tbody th,.crimps td:not(.verdict){font-weight:bold}
 .verdict{grid-column:1/-1}
}
@page{size:A4;margin:10mm 12mm}
@media print{
 body{max-width:none;padding:0;font-size:9pt;line-height:1.2}
 .order{break-before:page;margin:0;padding-top:2mm}
 section,tr,li,.state{break-inside:avoid}
 .sign{width:8mm;height:8mm}
 h2{font-size:14pt}
 h3{font-size:9.6pt;margin:1.3mm 0 .3mm;break-after:avoid}
 th,td{padding-top:.2mm;padding-bottom:.2mm}
 .set td{font-size:11.5pt;line-height:1.15}
 .drawing{max-width:none;margin-top:1mm;break-inside:avoid}
 .state{padding:.5mm 2mm;margin:1mm 0}
 .crimps{font-size:8.4pt}
 .care{font-size:9pt;line-height:1.15;break-inside:auto}
 .care ul{columns:2;column-gap:5mm;margin:0}
}
"""


# ---- pieces of the page ------------------------------------------------------------------------------------

def _cells(texts, tag="td", attributes=""):
    return "".join(f"<{tag}{attributes}>{escape(text)}</{tag}>" for text in texts)


def _why(value):
    """A reason in place of a figure is not printed as if it were one."""
    return ' class="why"' if value.startswith(figures.NOT_COMPUTED) else ""


def _metal(group):
    """Over the whole width, so that a reason takes one line; in two columns where all is there."""
    all_there = not any(_why(value) for _, value in group.lines)
    return _pairs(group, "metal beside" if all_there else "metal")


def _pairs(group, style="figures"):
    if not group.lines:
        return ""
    rows = "".join(f'<tr><th scope="row">{escape(label)}</th><td{_why(value)}>{escape(value)}</td></tr>'
                   for label, value in group.lines)
    return f'<section class="{style}"><h3>{escape(group.title)}</h3><table class="pairs">{rows}</table></section>'


def _list(title, texts, style, tag="ul"):
    if not texts:
        return ""
    items = "".join(f"<li>{escape(text)}</li>" for text in texts)
    return f'<section class="{style}"><h3>{title}</h3><{tag}>{items}</{tag}></section>'


def _crimp_row(crimp):
    """Cells that carry their heading along, since a narrow screen shows a row as a block."""
    texts = (crimp.piece, crimp.gauge, *crimp.figures)
    cells = [f'<td data-label="{name}">{escape(text)}</td>' for name, text in zip(figures.CRIMP_COLUMNS, texts)]
    cells[0] = f'<th scope="row" data-label="piece">{escape(crimp.piece)}</th>'
    across = len(figures.CRIMP_COLUMNS) - len(texts)
    verdict = f'<td class="verdict" data-label="verdict" colspan="{across}">{escape(crimp.verdict)}</td>'
    return f'<tr>{"".join(cells)}{verdict}</tr>'


def _crimps(job):
    if not job.pieces:
        return ""
    rows = "".join(_crimp_row(crimp) for crimp in figures.crimps(job))
    heading = _cells(figures.CRIMP_COLUMNS, "th", ' scope="col"')
    return (f'<section class="crimps"><h3>Crimps</h3><table><thead><tr>{heading}</tr></thead>'
            f"<tbody>{rows}</tbody></table></section>")


def _state(job):
    answer = job.setup.readiness
    return (f'<p class="state">{signs.draw(answer)}<span><b>{show.word(answer)}</b><br>{escape(answer.sentence)}</span></p>')


def _remarks(job):
    return "".join(_list(escape(heading.capitalize()), texts, "remarks") for heading, texts in figures.remarks(job))


def _order(job):
    row = job.row.texts
    confirm, set_up, expect, to_get, measured, target, compression, metal, dial = figures.groups(job)
    return (
        f'<article class="order" id="order-{escape(job.number)}">'
        f'<h2>Order {escape(job.number)}: {escape(row["machine"])}</h2>'
        f'<p>hose {escape(row["hose"])}, coupling {escape(row["coupling"])}, pieces: {escape(row["pieces"])}</p>'
        + _state(job) + _remarks(job)
        + f'<div class="columns"><div>{_pairs(confirm)}{_pairs(set_up, "set")}{_pairs(expect)}{_pairs(to_get)}{_pairs(measured)}'
        f'{_pairs(target)}</div>'
        f'<div>{drawing.draw(figures.crimp_drawing(job))}{_pairs(compression)}{_pairs(dial)}</div></div>'
        + _metal(metal) + _crimps(job)
        + _list("Findings", figures.findings(job), "findings") + _list("First piece", figures.first_piece(job), "piece")
        + _list("Assemblies", figures.assemblies(job), "assemblies")
        + _list("Take care", figures.cautions(job), "care") + "</article>"
    )


# ---- the first sheet ---------------------------------------------------------------------------------------

def _verdicts(job):
    """How many crimps came out how."""
    counts = Counter(crimp.verdict if crimp.figures else "not judged" for crimp in figures.crimps(job))
    return ", ".join(f"{number} {verdict}" for verdict, number in sorted(counts.items())) or "none measured"


OVERVIEW = {"order": "whole", "may it be crimped": "", "machine": "wide", "pieces": "", "crimps": ""}


def _overview_row(job):
    number, answer = escape(job.number), job.setup.readiness
    texts = (job.row.texts["machine"], job.row.texts["pieces"], _verdicts(job))
    cells = "".join(f'<td class="{style}">{escape(text)}</td>' for style, text in zip([*OVERVIEW.values()][2:], texts))
    return (f'<tr><th scope="row" class="whole"><a href="#order-{number}">{number}</a></th>'
            f"<td>{signs.draw(answer)}{show.word(answer)}</td>{cells}</tr>")


def _place(place):
    """Orders that need the same adapter, die and dial, under what they need."""
    heading = place.needs or "not to be crimped"
    rows = "".join(_overview_row(job) for job in place.jobs)
    return f'<tbody><tr class="needs"><th scope="rowgroup" colspan="{len(OVERVIEW)}">{escape(heading)}</th></tr>{rows}</tbody>'


def _overview(jobs):
    heading = "".join(f'<th scope="col" class="{style}">{name}</th>' for name, style in OVERVIEW.items())
    rows = "".join(_place(place) for place in figures.places(jobs))
    return ('<table class="overview"><caption>Orders, in the order in which they are run</caption>'
            f"<thead><tr>{heading}</tr></thead>{rows}</table>")


def write(shop, jobs, not_done):
    """The page as text."""
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1"><title>A day at the depot</title>'
        f"<style>{STYLE}{drawing.STYLE}</style></head><body><main><h1>A day at the depot</h1>"
        f"<p>Press: {escape(shop.name)}. All of this is invented: depot, machines, parts and figures.</p>"
        + _overview(jobs) + _list("Not done", not_done, "left")
        + "".join(_order(job) for job in jobs) + "</main></body></html>\n"
    )
