# SPDX-License-Identifier: MIT
"""Records of what was verified: one JSON file each in tests/release/proof/records, from which the manual's page is made.

A script writes its record with

    sys.path.insert(0, ".../tests/release/proof"); import record
    record.write("sanitizers", title=..., order=40, said=..., commands=[...], columns=[...], rows=[[...]], tools=[record.tool("gcc")])

or from a shell, which gives the keys as JSON:

    record.py NAME <keys.json

The date is today's where none is given; in_tests and left are empty where they are not given. A record with a fault is not written.
"""
import datetime
import json
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[3]
FOLDER = pathlib.Path(__file__).resolve().parent / "records"
KEYS = {"title": str, "order": int, "said": str, "commands": list, "in_tests": str, "date": str, "tools": list, "columns": list,
        "rows": list, "left": str}
MAY_BE_EMPTY = {"in_tests", "left", "columns", "rows"}
# Folders that differ from machine to machine, the network, and the machinery beside the project.
PRIVATE = re.compile(r"(?:(?<![\w.*)}])|(?<=-[A-Z]))/(work|root|home|tmp|var|mnt|srv|opt|run|Users|build)(?![\w-])|[A-Za-z]:\\|\.\./shared|\w://")


def texts(record):
    """Every string of a record, with the place where it stands."""
    for key, value in record.items():
        if isinstance(value, str):
            yield key, value
        for i, item in enumerate(value if isinstance(value, list) else []):
            for j, cell in enumerate(item if isinstance(item, list) else [item]):
                yield f"{key}[{i}]" + (f"[{j}]" if isinstance(item, list) else ""), cell


def faults_of_shape(record):
    for key in KEYS.keys() - record.keys():
        yield f"{key} is missing"
    for key in record.keys() - KEYS.keys():
        yield f"{key} is not a key of a record"
    for key in KEYS.keys() & record.keys():
        value = record[key]
        if type(value) is not KEYS[key]:
            yield f"{key} is not of type {KEYS[key].__name__}"
        elif not value and key not in MAY_BE_EMPTY:
            yield f"{key} is empty"


def faults_of_content(record):
    for place, text in texts(record):
        if not isinstance(text, str):
            yield f"{place} is no text: {text!r}"
        elif PRIVATE.search(text):
            yield f"{place} holds a path of a machine or an address: {text!r}"
        elif text != text.strip() or not text.isprintable():
            yield f"{place} has blanks round it, or signs that are not printed: {text!r}"
        elif not text and "[" in place and not place.startswith("rows"):
            yield f"{place} is empty"
    for i, row in enumerate(record["rows"]):
        if not isinstance(row, list) or len(row) != len(record["columns"]):
            yield f"rows[{i}] has not one cell for each of {len(record['columns'])} columns"
    if not re.fullmatch(r"\d{4}-\d\d-\d\d", record["date"]):
        yield f"date is not like 2026-11-26: {record['date']!r}"
    for command in record["commands"]:
        for word in re.findall(r"(?<![\w/.-])(?:tests|docs|examples|bindings|lib|cmake)/[\w./-]*\w", str(command)):
            if not (ROOT / word).exists():
                yield f"commands: there is no {word}"


def faults(record):
    """What is wrong with a record, as sentences."""
    if not isinstance(record, dict):
        return ["the file is no JSON object"]
    return list(faults_of_shape(record)) or list(faults_of_content(record))


def load(folder=FOLDER):
    """All records by the names of their files, in their order; ends the program where one has a fault."""
    found, wrong = {}, []
    for path in sorted(pathlib.Path(folder).glob("*")):
        if path.suffix != ".json":
            wrong.append(f"{path.name}: not a record")
            continue
        try:
            found[path.stem] = json.loads(path.read_text(encoding="utf-8"))
        except ValueError as error:
            wrong.append(f"{path.name}: {error}")
            continue
        wrong += [f"{path.name}: {fault}" for fault in faults(found[path.stem])]
    if wrong:
        sys.exit("\n".join(wrong))
    return dict(sorted(found.items(), key=lambda item: (item[1]["order"], item[0])))


def tool(*command):
    """Name and version of a program, out of what it says of itself: "gcc 12.2.0"."""
    words = list(command) if len(command) > 1 else [*command, "--version"]
    said = subprocess.run(words, text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=True).stdout
    version = re.search(r"\d+(\.\d+)+", said)
    return f"{pathlib.Path(command[0]).name} {version[0] if version else said.splitlines()[0]}"


def write(name, **keys):
    record = {"in_tests": "", "left": "", "date": datetime.date.today().isoformat()} | keys
    wrong = faults(record)
    if wrong:
        sys.exit(f"record {name}:\n" + "\n".join(wrong))
    FOLDER.mkdir(exist_ok=True)
    ordered = {key: record[key] for key in KEYS}
    (FOLDER / f"{name}.json").write_text(json.dumps(ordered, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")


if __name__ == "__main__":
    write(sys.argv[1], **json.load(sys.stdin))
