# SPDX-License-Identifier: MIT
"""The day as plain text, at most 100 characters wide."""
from itertools import zip_longest
from textwrap import wrap

from ferrule import show

import figures

WIDTH = 100
LABEL = 44


def _item(text, mark="- "):
    return wrap(text, WIDTH, initial_indent="  " + mark, subsequent_indent="  " + " " * len(mark))


def _field(label, value):
    return wrap(value, WIDTH, initial_indent=f"  {label:{LABEL}}", subsequent_indent=" " * (LABEL + 2))


def _crimp_lines(crimps):
    """A table with columns as wide as they have to be; the verdict comes last and may take several lines."""
    rows = [(crimp.piece, crimp.gauge, *crimp.figures) for crimp in crimps]
    heading, last = figures.CRIMP_COLUMNS[:-1], figures.CRIMP_COLUMNS[-1]
    widths = [max(map(len, column)) for column in zip_longest(heading, *rows, fillvalue="")]
    lines = []
    for texts, verdict in zip([heading, *rows], [last, *(crimp.verdict for crimp in crimps)]):
        start = "  " + "".join(f"{text:{width}}  " for text, width in zip(texts, widths))
        lines += wrap(verdict, WIDTH, initial_indent=start, subsequent_indent=" " * len(start))
    return lines


def _list(heading, texts):
    lines = [heading] if texts else []
    for text in texts:
        lines += _item(text)
    return lines


def order(job):
    """Lines of one order."""
    row = job.row.texts
    lines = ["=" * WIDTH, f"ORDER {job.number}: {row['machine']}",
             f"hose {row['hose']}, coupling {row['coupling']}, pieces: {row['pieces']}", *wrap(show.readiness(job.setup), WIDTH), ""]
    for heading, texts in figures.remarks(job):
        lines += _list(heading, texts)
    for group in figures.groups(job):
        lines += [group.title.upper()] if group.lines else []
        for label, value in group.lines:
            lines += _field(label, value)
    if job.pieces:
        lines += ["CRIMPS", *_crimp_lines(figures.crimps(job))]
    lines += _list("FINDINGS", figures.findings(job))
    lines += _list("FIRST PIECE", figures.first_piece(job))
    lines += _list("ASSEMBLIES", figures.assemblies(job))
    return lines + _list("TAKE CARE", figures.cautions(job)) + [""]


def day(jobs):
    """The day's list: what needs the same adapter, die and dial stands together."""
    lines = ["TODAY'S ORDERS, IN THE ORDER IN WHICH THEY ARE RUN"]
    for place in figures.places(jobs):
        lines += wrap(place.needs or "not to be crimped", WIDTH, initial_indent="  ", subsequent_indent="    ")
        for job in place.jobs:
            text = f"{show.sign(job.setup.readiness)} {show.word(job.setup.readiness)}: order {job.number}, {job.row.texts['machine']}"
            lines += _item(text, "  ")
    return lines + [""]


def not_done(texts):
    """What is left of the day; no lines where nothing is."""
    lines = ["=" * WIDTH] if texts else []
    return lines + _list("NOT DONE", texts) + [""]
