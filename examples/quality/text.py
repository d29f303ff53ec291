# SPDX-License-Identifier: MIT
"""The report as plain text, at most 100 characters wide."""
from textwrap import wrap

WIDTH, LABEL = 100, 52


def _item(text, mark="- "):
    return wrap(text, WIDTH, initial_indent="  " + mark, subsequent_indent="  " + " " * len(mark))


def _press(row):
    lines = wrap(f"{row.sign} {row.press} ({row.count} measured): {row.word}. {row.why}", WIDTH, initial_indent="  ",
                 subsequent_indent="      ")
    return lines + (wrap(row.next, WIDTH, initial_indent="      -> ", subsequent_indent="         ") if row.next else [])


def _findings(report):
    lines = []
    for heading, found in report.findings.items():
        lines.append(heading)
        for where, text in found:
            lines += _item(f"{where}: {text}")
    return lines


def _figures(report):
    lines = []
    for group in report.groups:
        lines += ["", group.title.upper()]
        for label, value in group.lines:
            lines += wrap(value, WIDTH, initial_indent=f"  {label:{LABEL}} ", subsequent_indent=" " * (LABEL + 3))
    return lines


def write(report):
    """The report's lines."""
    lines = [report.title.upper(), *wrap(report.subject, WIDTH), "", f"{report.sign} DIAMETERS: {report.word.upper()}",
             *wrap(report.meaning, WIDTH), *wrap(report.not_said, WIDTH), "", "EACH PRESS BY ITSELF"]
    for row in report.presses:
        lines += _press(row)
    lines += ["", "DO NEXT"]
    for place, text in enumerate(report.do_next, 1):
        lines += _item(text, f"{place}. ")
    lines += ["", "WHAT WAS FOUND, THE GRAVEST FIRST", *_findings(report), *_figures(report), "", "TAKE CARE"]
    for text in report.cautions:
        lines += _item(text)
    return [*lines, "", *wrap(report.invented, WIDTH)]
