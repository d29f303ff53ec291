# SPDX-License-Identifier: MIT
"""Runs the example programs and reads what they print."""
import os
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"
DEPOT, QUALITY = EXAMPLES / "depot", EXAMPLES / "quality"


@dataclass(frozen=True)
class Output:
    status: int
    text: str
    errors: str


def _run(command, **environment):
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True, timeout=100, check=False,
                          env={**os.environ, **environment})
    return Output(done.returncode, done.stdout, done.stderr)


def run_shop(page):
    return _run([sys.executable, EXAMPLES / "shop/shop.py", "--page", page], PYTHONPATH=os.environ["FERRULE_PYTHON"])


def run_day(page, data=DEPOT, *options):
    """The day at the depot as a user runs it."""
    return _run([sys.executable, DEPOT / "day.py", "--data", data, "--page", page, *options],
                PYTHONPATH=os.environ["FERRULE_PYTHON"])


def run_quality(*options, data=QUALITY):
    """A batch of crimps to a report, as a user runs it."""
    return _run([sys.executable, QUALITY / "quality.py", "--data", data, *options], PYTHONPATH=os.environ["FERRULE_PYTHON"],
                PYTHONDONTWRITEBYTECODE="1")


def run_sheet(*words):
    """The C example."""
    return _run([os.environ["FERRULE_SET_UP_SHEET"], *words])


def copy_data(folder, source=DEPOT, **changes):
    """The depot's tables, or another program's, with some text changed: orders=(old, new) concerns orders.csv."""
    for table in source.glob("*.csv"):
        shutil.copy(table, folder)
    for name, (old, new) in changes.items():
        table = folder / f"{name}.csv"
        text = table.read_text(encoding="utf-8")
        assert text.count(old) == 1, f"{old} stands {text.count(old)} times in {table.name}"
        table.write_text(text.replace(old, new), encoding="utf-8")
    return folder


def _groups(lines):
    """Lines of an order by heading; a line that is indented further goes on with the one before."""
    groups, heading = {}, None
    for line in lines:
        if re.fullmatch(r"[A-Z ]+", line):
            heading = groups.setdefault(line, [])
        elif heading is not None and line.startswith("    ") and heading:
            heading[-1] += " " + line.strip()
        elif heading is not None and line.startswith("  "):
            heading.append(line.strip())
    return groups


def _fields(lines):
    return dict(re.split(r"\s{2,}", line, maxsplit=1) for line in lines)


SEVERITIES = ("STOP", "CONFIRM", "DO FIRST", "GOOD TO KNOW")
FIGURES = ("TO CONFIRM", "SET", "EXPECT", "TO GET", "MEASURED", "TARGET", "COMPRESSION AT THE TARGET", "METAL", "DIAL")


@dataclass(frozen=True)
class Sheet:
    """What is printed of one order: its first line, remarks by severity, figures by label, the lines of the other lists."""
    readiness: str
    remarks: dict
    figures: dict
    groups: list
    take_care: list
    crimps: list
    findings: list
    first_piece: list
    assemblies: list

    @property
    def word(self):
        """READY, AFTER CONFIRMING or NOT READY, with its sign."""
        return self.readiness.split(":")[0]

    @property
    def check_first(self):
        """All remarks, the gravest first, without who confirmed them and without what is void."""
        texts = [text for heading in SEVERITIES for text in self.remarks.get(heading, []) if not text.startswith("void: ")]
        return [re.sub("^(not )?confirmed( by [^:]*)?: ", "", text) for text in texts]


def read_sheet(lines):
    """One order of either program."""
    groups = _groups(lines)
    figures = {}
    for heading in FIGURES:
        figures.update(_fields(groups.get(heading, [])))
    def texts(heading):
        return [line.removeprefix("- ") for line in groups.get(heading, [])]
    crimps = [re.split(r"\s{2,}", line) for line in groups.get("CRIMPS", [])]
    first = next((line for line in lines if line.startswith("[")), "")
    return Sheet(first, {heading: texts(heading) for heading in SEVERITIES if texts(heading)}, figures, list(groups),
                 texts("TAKE CARE"), crimps[1:], texts("FINDINGS"), texts("FIRST PIECE"), texts("ASSEMBLIES"))


def read_list(text):
    """The day's list: what is needed on the press, and the orders below it with their readiness."""
    lines = text.split("=" * 100)[0].splitlines()[1:]
    places = {}
    for line in lines:
        if line.startswith("    "):
            places[place].append(tuple(re.match(r"    (.*): order (\d+),", line).groups()))
        elif line.strip():
            place = line.strip()
            places[place] = []
    return places


def read_day(text):
    """Sheets by order number, and the lines under NOT DONE."""
    sheets, not_done = {}, []
    for block in text.split("=" * 100 + "\n")[1:]:
        lines = block.splitlines()
        if lines[0] == "NOT DONE":
            not_done = [line.removeprefix("- ") for line in _groups(lines)["NOT DONE"]]
        else:
            number = re.match(r"ORDER (\d+):", lines[0])[1]
            sheets[number] = read_sheet(lines[1:])
    return sheets, not_done


@dataclass(frozen=True)
class Quality:
    """The report on a batch: its first lines, presses, lists, and figures by subject."""
    title: str
    subject: str
    decision: str
    meaning: str
    presses: dict     # name: (sign, measured, word, why, next)
    do_next: list
    findings: dict    # heading of the severity: list
    figures: dict     # subject: {label: value}
    cautions: list


def _joined(lines, first):
    """Items that begin as the pattern says; a line that does not goes on with the one before."""
    items = []
    for line in lines:
        if re.match(first, line):
            items.append(re.sub(first, "", line))
        elif line.strip():
            items[-1] += " " + line.strip()
    return items


def _sections(lines):
    """Lines below each heading in capitals, in order."""
    sections, heading = {}, ""
    for line in lines:
        if line and line == line.upper() and not line.startswith(" "):
            heading = line
            sections[heading] = []
        elif line:
            sections.setdefault(heading, []).append(line)
    return sections


PRESS = re.compile(r"(\[\S+\]) (.*) \((\d+) measured\): ([a-z ]+)\. (.*) -> (.*)")


def read_quality(text):
    """The report of quality.py."""
    head, _, rest = text.partition("\nEACH PRESS BY ITSELF\n")
    lines = head.splitlines()
    at = next(place for place, line in enumerate(lines) if line.startswith("["))
    presses, _, rest = rest.partition("\nDO NEXT\n")
    do_next, _, rest = rest.partition("\nWHAT WAS FOUND, THE GRAVEST FIRST\n")
    found, _, rest = rest.partition("\n\n")
    figures, _, care = rest.partition("\nTAKE CARE\n")
    rows = [PRESS.fullmatch(row).groups() for row in _joined(presses.splitlines(), r"  (?=\[)")]
    return Quality(
        lines[0], " ".join(line for line in lines[1:at] if line), lines[at], " ".join(line for line in lines[at + 1:] if line),
        {name: (sign, count, word, why, step) for sign, name, count, word, why, step in rows},
        _joined(do_next.splitlines(), r"  \d+\. "),
        {heading: _joined(items, r"  - ") for heading, items in _sections(found.splitlines()).items()},
        {subject: dict(re.split(r"\s{2,}", line, maxsplit=1) for line in _joined(items, r"  (?=\S)"))
         for subject, items in _sections(figures.splitlines()).items()},
        _joined([line for line in care.splitlines() if line.startswith("  ")], r"  - "))
