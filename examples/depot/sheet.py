# SPDX-License-Identifier: MIT
"""The day as plain text, at most 100 characters wide."""
from textwrap import wrap

import figures

WIDTH = 100
LABEL = 40


def _item(text, mark="- "):
    return wrap(text, WIDTH, initial_indent="  " + mark, subsequent_indent="  " + " " * len(mark))


def _field(label, value):
    return wrap(value, WIDTH, initial_indent=f"  {label:{LABEL}}", subsequent_indent=" " * (LABEL + 2))


def _crimp_lines(rows):
    """A table with columns as wide as they have to be; the verdict comes last and may take several lines."""
    widths = [max(len(row[column]) for row in (*rows, figures.CRIMP_COLUMNS)) for column in range(6)]
    lines = []
    for row in (figures.CRIMP_COLUMNS, *rows):
        start = "  " + "".join(f"{text:{width}}  " for text, width in zip(row, widths))
        lines += wrap(row[6], WIDTH, initial_indent=start, subsequent_indent=" " * len(start))
    return lines


def order(job):
    """Lines of one order."""
    row = job.row.texts
    lines = ["=" * WIDTH, f"ORDER {job.number}: {row['machine']}",
             f"hose {row['hose']}, coupling {row['coupling']}, pieces: {row['pieces']}", ""]
    if figures.remarks(job):
        lines.append("CHECK FIRST")
        for remark in figures.remarks(job):
            lines += _item(remark)
    for group in figures.groups(job):
        lines += [group.title.upper()] if group.lines else []
        for label, value in group.lines:
            lines += _field(label, value)
    if job.pieces:
        lines += ["CRIMPS", *_crimp_lines(figures.crimps(job))]
    lines.append("TAKE CARE")
    for caution in figures.cautions(job):
        lines += _item(caution)
    return lines + [""]


def not_done(texts):
    """What is left of the day; no lines where nothing is."""
    lines = ["=" * WIDTH, "NOT DONE"] if texts else []
    for text in texts:
        lines += _item(text)
    return lines + [""]
