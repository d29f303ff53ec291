# SPDX-License-Identifier: MIT
"""The manual's page "What was verified and how", out of tests/release/proof/records.

Usage: page.py [TEMPLATE OUTPUT]   without arguments: only look at the records

Every record is looked at strictly (record.py); one fault, and there is no page.
"""
import pathlib
import re
import sys

import record

NOTHING_LEFT = "nothing"


def plain(text):
    """Text that Doxygen shows as it stands."""
    text = re.sub(r"([\\@#&$<>*_\[\]!\"])", r"\\\1", text)
    text = re.sub(r"%(?=\w)", r"\\%", text)
    return re.sub(r"(?<!-)(--{1,2})(?!-)", r"\\\1", text).replace("|", "\\|")


def shown(text):
    """What stands between backquotes is code."""
    parts = re.split(r"`([^`]+)`", text)
    return "".join(f"<code>{plain(part)}</code>" if i % 2 else plain(part).replace("`", "\\`") for i, part in enumerate(parts))


def table(head, body):
    rule = "| " + " | ".join("---" for _ in head) + " |"
    return "\n".join("| " + " | ".join(cells) + " |" for cells in [head]) + "\n" + rule + "\n" + "".join(
        "| " + " | ".join(cells) + " |\n" for cells in body)


def first_sentence(text):
    return re.split(r"(?<=[.;])\s", text)[0].rstrip(".;")


def summary(records):
    rows = [[f"\\ref verification_{name} \"{shown(r['title'])}\"", r["date"], shown(r["in_tests"]) or "no",
             f"**{shown(first_sentence(r['left']))}**" if r["left"] else NOTHING_LEFT] for name, r in records.items()]
    return table(["proof", "done", "repeated by tests/run.sh all", "left or failed"], rows)


def section(name, r):
    parts = [f"## {shown(r['title'])} {{#verification_{name}}}", shown(r["said"])]
    if r["columns"]:
        parts.append(table(list(map(shown, r["columns"])), [[shown(cell) or "&nbsp;" for cell in row] for row in r["rows"]]).rstrip())
    parts.append("To repeat it:")
    parts.append("```\n" + "\n".join(r["commands"]) + "\n```")
    parts.append(f"Repeated by tests/run.sh all: {shown(r['in_tests']) or 'no'}.".replace("..", "."))
    parts.append(f"Done on {r['date']} with " + ", ".join(map(shown, r["tools"])) + ".")
    parts.append(f"**Left or failed:** {shown(r['left'])}" if r["left"] else "Left or failed: nothing.")
    return "\n\n".join(parts) + "\n"


def page(records):
    return summary(records) + "\n" + "\n".join(section(name, r) for name, r in records.items())


def main():
    records = record.load()
    if len(sys.argv) > 2:
        template = pathlib.Path(sys.argv[1]).read_text(encoding="utf-8")
        pathlib.Path(sys.argv[2]).write_text(template.replace("@PROOFS@", page(records)), encoding="utf-8")
    print(f"{len(records)} records")


if __name__ == "__main__":
    main()
