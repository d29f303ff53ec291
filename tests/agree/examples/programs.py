# SPDX-License-Identifier: MIT
"""Runs the example programs and reads what they print."""
import os
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

DEPOT = Path(__file__).resolve().parents[3] / "examples" / "depot"


@dataclass(frozen=True)
class Output:
    status: int
    text: str
    errors: str


def _run(command, **environment):
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True, timeout=100, check=False,
                          env={**os.environ, **environment})
    return Output(done.returncode, done.stdout, done.stderr)


def run_day(page, data=DEPOT, *options):
    """The day at the depot as a user runs it."""
    return _run([sys.executable, DEPOT / "day.py", "--data", data, "--page", page, *options],
                PYTHONPATH=os.environ["FERRULE_PYTHON"])


def run_sheet(*words):
    """The C example."""
    return _run([os.environ["FERRULE_SET_UP_SHEET"], *words])


def copy_data(folder, **changes):
    """The depot's tables with some text changed: orders=(old, new) concerns orders.csv."""
    for table in DEPOT.glob("*.csv"):
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


@dataclass(frozen=True)
class Sheet:
    """What is printed of one order: figures by label, and the lines of the lists."""
    figures: dict
    check_first: list
    take_care: list
    crimps: list


def read_sheet(lines):
    """One order of either program."""
    groups = _groups(lines)
    figures = {}
    for heading in ("SET", "EXPECT", "MEASURED", "TARGET", "COMPRESSION AT THE TARGET", "METAL", "DIAL"):
        figures.update(_fields(groups.get(heading, [])))
    def texts(heading):
        return [line.removeprefix("- ") for line in groups.get(heading, [])]
    crimps = [re.split(r"\s{2,}", line) for line in groups.get("CRIMPS", [])]
    return Sheet(figures, texts("CHECK FIRST"), texts("TAKE CARE"), crimps[1:])


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
