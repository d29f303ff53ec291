#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""No component is larger than sizes.csv allows (1 kB is 1000 bytes).

Usage: sizes.py [--compiler COMMAND] [--list]

Counted is what a program has of a component that uses all of it: code, constants and data of its objects at -Os, stripped. Words
and numbers of the statuses lie in base; those of a status count for the first component, in the order of the table, that gives it.
The last row is a file: a shared library of two components, stripped.
"""
import argparse
import csv
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
TABLE = ROOT / "tests/guard/sizes/sizes.csv"
FLAGS = ["-std=c11", "-Os", "-fPIC", "-fvisibility=hidden", "-fno-asynchronous-unwind-tables", "-ffp-contract=off", "-fno-math-errno",
         "-DFER_BUILDING", "-I", ROOT / "include", "-I", ROOT / "lib"]
ORDER = ["base", "crimp", "judge", "inspect", "chance", "bulk", "batch", "shop"]


def run(*command):
    return subprocess.run([str(word) for word in command], check=True, capture_output=True, text=True).stdout


def components():
    return [path.name for path in sorted((ROOT / "lib").iterdir(), key=lambda path: (ORDER + [path.name]).index(path.name))
            if path.is_dir()]


def compiled(compiler, component, folder):
    objects = []
    for source in sorted((ROOT / "lib" / component).rglob("*.c")):
        objects.append(folder / ("_".join(source.relative_to(ROOT / "lib").parts) + ".o"))
        run(compiler, *FLAGS, "-c", source, "-o", objects[-1])
    return objects


def bytes_of(objects):
    """Code with constants, and data."""
    rows = [line.split() for line in run("size", *objects).splitlines()[1:]]
    return sum(int(row[0]) + int(row[1]) for row in rows)


def statuses(compiler):
    """Bytes of each status: name and sentence with their ends, number and place."""
    source = '#include <ferrule/status.h>\n#define ROW(name, number, ...) ROW_OF name LAST(__VA_ARGS__)\nFER_STATUS_LIST(ROW)\n'
    text = subprocess.run([compiler, "-E", "-P", "-I", str(ROOT / "include"), "-x", "c", "-"], input=source, check=True,
                          capture_output=True, text=True).stdout
    found = {}
    for name, words in re.findall(r"ROW_OF (\w+) LAST\((.*?)\)(?= *(?:ROW_OF|$))", text.replace("\n", " ")):
        sentence = "".join(re.findall(r'"((?:[^"\\]|\\.)*)"', words))
        found[name] = len(name) + 1 + len(sentence.encode()) + 1 + 4
    return found


def owners(names):
    """By status: the first component that gives it. What none gives is base's."""
    texts = {component: "".join(path.read_text(encoding="utf-8") for path in (ROOT / "lib" / component).rglob("*.[ch]"))
             for component in components()}
    return {name: next((component for component, text in texts.items() if re.search(rf"\bFER_{name}\b", text)), "base")
            for name in names}


def measure(compiler):
    sizes = {}
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        objects = {component: compiled(compiler, component, folder) for component in components()}
        for component, files in objects.items():
            sizes[component] = bytes_of(files)
        names = statuses(compiler)
        assert len(names) > 100, "the list of statuses was not read"
        for status, owner in owners(names).items():
            sizes["base"] -= names[status]
            sizes[owner] += names[status]
        library = folder / "library.so"
        run(compiler, "-shared", "-s", "-Wl,-z,noseparate-code", "-o", library, *objects["base"], *objects["crimp"], "-lm")
        shared = library.stat().st_size
    return sizes, shared


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--compiler", default="gcc")
    parser.add_argument("--list", action="store_true")
    arguments = parser.parse_args()
    sizes, shared = measure(arguments.compiler)
    with TABLE.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    troubles = [f"{component} has no row in sizes.csv" for component in sizes
                if not any(component in row["what"].split(" + ") for row in rows)]
    for row in rows:
        parts = row["what"].removesuffix(", shared").split(" + ")
        if row["why"] == "to come" and parts[0] not in sizes:
            continue
        found = shared if row["what"].endswith("shared") else sum(sizes[part] for part in parts)
        if arguments.list:
            print(f"{row['what']:24}{found / 1000:8.1f} kB of {row['kB']}")
        if found > 1000 * float(row["kB"]):
            troubles.append(f"{row['what']}: {found} bytes, and {row['kB']} kB are allowed")
    sys.exit("\n".join(troubles) or 0)


if __name__ == "__main__":
    main()
