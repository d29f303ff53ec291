# SPDX-License-Identifier: MIT
"""Press cards: one for each order, for A5 paper or the screen of a phone. Only what is done at the press stands on them; all other
figures are on the engineer's sheet (page.py). An order that is not ready, or waits for somebody, has a card that says so, and on
it nothing to set.
"""
from datetime import date
from html import escape

import ferrule
from ferrule import show

import figures
import signs

STYLE = """
:root{color-scheme:light}
*{box-sizing:border-box}
body{margin:0 auto;max-width:34rem;padding:.6rem;font:1rem/1.3 system-ui,sans-serif;color:#111;background:#fff}
h1{font-size:1.3rem;margin:0 0 .6rem}
h2,h3,p,ul,ol{margin:0;padding:0}
.card{border-top:5px solid #111;padding:.5rem 0 1.2rem;overflow-wrap:anywhere}
.head{display:flex;gap:.6rem;align-items:center}
.sign{flex:none;width:3rem;height:3rem}
.word{font-size:1.5rem;font-weight:bold;line-height:1.1}
.set{display:flex;flex-wrap:wrap;border:3px solid #111;margin:.4rem 0}
.set div{flex:1 1 auto;padding:.1rem .5rem;min-width:0}
.set .zone{flex-basis:100%;border-top:1px solid #111}
.label{font-size:.9rem}
.value{font-size:min(36pt,8.6vw);font-weight:bold;line-height:1.05;white-space:nowrap;font-variant-numeric:tabular-nums}
h3{font-size:1rem;margin-top:.4rem}
ul{padding-left:1.1rem}
.figures{border-collapse:collapse}
.figures th{text-align:left;font-weight:normal;padding-right:1rem}
.figures td{font-weight:bold}
.steps{list-style:none;counter-reset:step}
.steps li{counter-increment:step;display:flex;gap:.35rem;align-items:baseline;padding:.15rem 0;border-bottom:1px solid #999}
.steps li::before{content:counter(step);min-width:1.2em;text-align:right}
.box{flex:none;display:inline-block;width:.95em;height:.95em;border:1.5px solid #111;vertical-align:-.12em}
.text{flex:1;min-width:0}
.next{margin-left:1.2em}
.blank{display:inline-block;border-bottom:1px solid #111;width:3.6em;height:1em;vertical-align:-.15em;margin-left:.3em}
.steps li{position:relative}
.where{flex:none;width:5.5rem}
.where text{font:bold 9.6px sans-serif;fill:#111;text-anchor:middle}
.care{margin-top:.4rem}
.foot{font-size:.85rem;border-top:1px solid #111;margin-top:.4rem}
@page{size:A5;margin:5mm}
@media print{
 body{max-width:none;padding:0;font-size:8.6pt;line-height:1.08}
 h1{display:none}
 .card{break-before:page;break-inside:avoid;border:0;padding:0;display:flex;flex-direction:column;
  min-height:199mm}
 .card:first-of-type{break-before:auto}
 .sign{width:10.5mm;height:10.5mm}
 .word{font-size:17pt}
 .set{margin:.6mm 0;border-width:.6mm}
 .set div{padding:0 2mm}
 .label{font-size:8pt;line-height:1}
 .value{font-size:36.5pt;line-height:.98}
 h3{font-size:8.6pt;margin-top:.5mm}
 .steps li{padding:.15mm 0}
 .blank{width:11.5mm}
 .where{position:absolute;right:0;top:.2mm;width:22mm;background:#fff}
 .care{font-size:10pt;line-height:1.04;margin-top:.8mm}
 .care h3,.care ul,.care li{display:inline;font-size:10pt;padding:0}
 .care li::before{content:" \\25aa\\a0"}
 .foot{font-size:8pt;margin:auto 0 0}
 .large{font-size:11pt;line-height:1.25}
 .large h3{font-size:12pt;margin-top:2mm}
}
"""


def _list(heading, texts, style):
    items = "".join(f"<li>{escape(text)}</li>" for text in texts)
    return f'<section class="{style}"><h3>{escape(heading)}</h3><ul>{items}</ul></section>' if items else ""


def _head(job):
    row, answer = {name: escape(text) for name, text in job.row.texts.items()}, job.setup.readiness
    return (f'<div class="head">{signs.draw(answer)}<div><h2 class="word">{show.word(answer)}</h2>'
            f'<p class="sentence">{escape(answer.sentence)}</p><p><b>Order {row["order"]}: {row["machine"]}</b>, hose {row["hose"]}, '
            f'coupling {row["coupling"]}, pieces: {row["pieces"]}</p></div></div>')


def _remarks(job, style=""):
    return "".join(_list(heading, texts, f"remarks {style}") for heading, texts in figures.remarks(job))


# ---- what is set -------------------------------------------------------------------------------------------

def _value(label, value, style=""):
    return f'<div class="{style}"><p class="label">{escape(label)}</p><p class="value">{escape(value)}</p></div>'


def _zone(job):
    """The zone in the gauge's unit and steps; without one nothing is accepted."""
    shown = show.zone_ends(job.setup, figures.zone_step(job))
    if shown is None:
        return _value(f"accept {figures.accept(job)}", "HOLD", "zone")
    unit, places = job.gauge_unit, figures.gauge_decimals(job)
    lower, upper = (f"{getattr(end, unit):.{places}f}" for end in (shown.accept.lower, shown.accept.upper))
    return _value(f"accept, in {'inches' if unit == 'inch' else unit}, as {job.row['gauge']} shows it", f"{lower} to {upper}", "zone")


def _set(job):
    setup, (dial, taken_off) = job.setup, figures.dial_number(job)
    size = f"{setup.die.die.size.mm:.3f}".rstrip("0").rstrip(".")
    change = " (change it)" if setup.die.adapter_change else ""
    return ('<section class="set">' + _value(f"adapter{change}", figures.adapter(setup)) + _value(f"die {job.die_name}, in mm", size)
            + _value("dial, in mm" + (", springback taken off" if taken_off else ""), dial) + _zone(job) + "</section>")


# ---- steps -------------------------------------------------------------------------------------------------

BLANK = '<span class="blank"></span>'
BOX = '<span class="box"></span>'
NEXT = f'<span class="next">{BOX}</span> '


def _insertion(setup):
    if setup.insertion:
        return f"Mark the hose {figures.depth(setup.insertion)} from its end; push it in to the mark"
    return f"Insertion depth: look it up, measure to the stop, mark the hose: {BLANK} mm"


def _skives(setup):
    found = figures.skives(setup)
    return [("Skive the hose: " + ", ".join(f"{name.removeprefix('skive ')} {length}" for name, length in found))] if found else []


def _bore(job):
    limit = job.order.minimum_bore
    gauge = f"go gauge {limit.mm:.3f}".rstrip("0").rstrip(".") + " mm" if limit else "go gauge"
    return f"Bore: {gauge} passes" + ("" if limit else f" (its size is not given: look it up: {BLANK} mm)")


def _steps(job):
    """In the order in which they are done; the parts of a text that come out of a table are escaped here."""
    setup, row = job.setup, {name: escape(text) for name, text in job.row.texts.items()}
    readings, (dial, taken_off) = BLANK * 4, figures.dial_number(job)
    return [
        f"Parts as ordered, unused: hose {row['hose']}, coupling {row['coupling']} with its ferrule; hose made {BLANK}",
        *_skives(setup),
        _insertion(setup),
        f"Press isolated: adapter {escape(dict(figures.to_set(job).lines)['adapter'])}{NEXT}die {escape(job.die_name)}{NEXT}"
        f"dial {dial} mm" + (", springback taken off" if taken_off else ""),
        "Crimp one piece; the mark still stands at the ferrule",
        f"Measure at 1, over middles of segments {readings}",
        f"Measure at 2, over middles of segments {readings}",
        "Looks, all round: not too tight, not too loose, not damaged",
        _bore(job),
        f"First piece accepted: initials {BLANK} date {BLANK}",
    ]


# The ferrule from the side: where the two sections are.
WHERE = ('<svg class="where" viewBox="0 0 72 27" role="img" aria-label="Side view: section 1 is near the collar, section 2 near the '
         'ferrule\'s open end"><path d="M1 12.5h7v9H1zM8 9h4v16H8zM12 11h38v12H12zM50 13h21M50 21h21" fill="none" stroke="#111"/>'
         '<path d="M20 9v16M42 9v16" stroke="#111" fill="none" stroke-width="1.4" stroke-dasharray="3 1.5"/>'
         '<text x="20" y="8">1</text><text x="42" y="8">2</text></svg>')


def _first(*points):
    return "; ".join(point.sentence for point in points)


def _outcomes():
    points = ferrule.EndPoint
    return "".join(f"<p><b>{word}</b> {escape(text)}</p>" for word, text in (
        ("Reject:", f"{_first(points.DIAMETER_READ_AGAIN)}; outside again: {ferrule.Disposition.SCRAP.sentence}; crimp nothing more"),
        ("Undecided:", f"{_first(points.DIAMETER_UNDECIDED)}; until then {ferrule.Disposition.HOLD.sentence.split(':')[0]}"),
        ("First piece again", "after any change of die, dial, adapter, hose, coupling, gauge or press.")))


def _left(job):
    """A box for each piece; where there are too many to tick, a blank."""
    count = job.row["pieces"]
    boxes = (BOX + " ") * count if count <= 24 else BLANK
    return f'<p class="left"><b>Pieces left</b> of {count}: {boxes}</p>'


# ---- the card ----------------------------------------------------------------------------------------------

def _ready(job):
    steps = "".join(f'<li>{BOX}<span class="text">{text}</span>{WHERE if text.startswith("Measure at 1") else ""}</li>'
                    for text in _steps(job))
    return _set(job) + _remarks(job) + f'<ol class="steps">{steps}</ol>' + _outcomes() + _left(job)


def _table(title, lines):
    rows = "".join(f'<tr><th scope="row">{escape(name)}</th><td>{escape(value)}</td></tr>' for name, value in lines)
    return f'<h3>{title}</h3><table class="figures">{rows}</table>' if rows else ""


def _waiting(job):
    """What stands in the way, and for whom it waits; a new card is printed when it is ready."""
    looked_at = _table("Figures to look at", figures.to_confirm(job).lines)
    if looked_at:
        looked_at += f"<p>Confirmed by {BLANK}{BLANK} date {BLANK}: enter it in confirmations.csv and print the card again.</p>"
    to_get = _table("To get", figures.to_get(job).lines[1:])
    return _remarks(job, "large") + f'<div class="large">{to_get}{looked_at}<p>Crimp nothing by this card.</p></div>'


def _card(job, press, day):
    body = _ready(job) if job.setup.readiness == ferrule.Readiness.READY else _waiting(job)
    cautions = _list("Take care", [caution.text for caution in job.setup.cautions], "care")
    return (f'<article class="card" id="card-{escape(job.number)}">{_head(job)}{body}{cautions}'
            f'<p class="foot">Order {escape(job.number)}, {escape(press)}, ferrule {ferrule.__version__}, {day}. Invented data: do not '
            "crimp anything by it.</p></article>")


def write(shop, jobs):
    """All cards as text, in the order in which the orders are run."""
    cards = "".join(_card(job, shop.name, date.today()) for job in jobs)
    return ('<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
            '<meta name="viewport" content="width=device-width, initial-scale=1"><title>Press cards</title>'
            f"<style>{STYLE}</style></head><body><main><h1>Press cards</h1>{cards}</main></body></html>\n")
