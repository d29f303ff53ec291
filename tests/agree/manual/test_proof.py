# SPDX-License-Identifier: MIT
"""The records of what was verified are whole, and one with a fault makes no page.

Usage: test_proof.py
"""
import copy
import json
import pathlib
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[2] / "release/proof"))
import page  # noqa: E402
import record  # noqa: E402

GOOD = {"title": "A thing", "order": 10, "said": "It was done.", "commands": ["sh tests/run.sh"], "in_tests": "", "date": "2026-01-31",
        "tools": ["cc 1.0"], "columns": ["what", "how many"], "rows": [["a | b", "3 of 4"]], "left": "One is left. The reason."}
# What is changed, and what the fault has to say.
BAD = [
    (lambda r: r.pop("left"), "left is missing"),
    (lambda r: r.update(more="x"), "more is not a key"),
    (lambda r: r.update(order="10"), "order is not of type int"),
    (lambda r: r.update(order=True), "order is not of type int"),
    (lambda r: r.update(title=""), "title is empty"),
    (lambda r: r.update(commands=[]), "commands is empty"),
    (lambda r: r.update(commands=["sh tests/no_such.sh"]), "there is no tests/no_such.sh"),
    (lambda r: r.update(tools=[12]), "tools[0] is no text"),
    (lambda r: r["rows"].append(["one", 2]), "rows[1][1] is no text"),
    (lambda r: r["rows"].append(["one"]), "rows[1] has not one cell"),
    (lambda r: r["rows"].append("one"), "rows[1] has not one cell"),
    (lambda r: r.update(date="26.11.2026"), "date is not like"),
    (lambda r: r.update(said="Done in /home/somebody/x."), "path of a machine"),
    (lambda r: r["rows"].append(["cc -I/tmp/x", ""]), "path of a machine"),
    (lambda r: r.update(commands=["/work/x/run"]), "path of a machine"),
    (lambda r: r.update(tools=["cc of https://example.org"]), "address"),
    (lambda r: r.update(left="two\nlines"), "not printed"),
]


def check(truth, what):
    if not truth:
        sys.exit(f"not so: {what}")


def check_faults():
    check(record.faults(GOOD) == [], f"the good record is good: {record.faults(GOOD)}")
    check(record.faults([]) != [], "a list is no record")
    for change, said in BAD:
        broken = copy.deepcopy(GOOD)
        change(broken)
        found = record.faults(broken)
        check(any(said in fault for fault in found), f"{said}: {found}")


def check_folder():
    """One bad file among good ones ends the program."""
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        (folder / "later.json").write_text(json.dumps(GOOD | {"order": 20}))
        (folder / "sooner.json").write_text(json.dumps(GOOD))
        check(list(record.load(folder)) == ["sooner", "later"], "records come in their order")
        for file, text in (("bad.json", "{"), ("bad.json", "{}"), ("bad.txt", "")):
            (folder / file).write_text(text)
            try:
                record.load(folder)
            except SystemExit as error:
                check("bad." in str(error), "the bad file is named")
            else:
                sys.exit(f"{file} passed")
            (folder / file).unlink()


def check_page():
    text = page.page({"thing": GOOD})
    for part in ("\\ref verification_thing \"A thing\"", "{#verification_thing}", "| a \\| b | 3 of 4 |", "sh tests/run.sh", "2026-01-31", "cc 1.0",
                 "**One is left**", "**Left or failed:** One is left. The reason."):
        check(part in text, f"the page has {part}")
    check("Left or failed: nothing." in page.page({"thing": GOOD | {"left": ""}}), "nothing left is said")
    check(page.shown("`a_b` -- 5 %d #1 @x <i>") == "<code>a\\_b</code> \\-- 5 \\%d \\#1 \\@x \\<i\\>", "signs of Doxygen are quoted")


check_faults()
check_folder()
check_page()
print(f"{len(record.load())} records are whole")
