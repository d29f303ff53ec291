# SPDX-License-Identifier: MIT
"""The table of the languages: what each was measured to do. One file per language, tests/agree/languages/measured_NAME.json.

Usage: measure.py BUILD_FOLDER [NAME...]        measure Python, Lua, Tcl, Perl, Ruby as they were built there
       measure.py --bare NAME=WHAT...           what bare_system.sh said of an installed package, into the files
       measure.py --record                      join all files, also those of other languages, into the record (tests/release/proof)
       measure.py --check                       look at the files

Keys: language, version, vectors, calls_per_second, failing_calls, page, example, bare_system; all of them text.
"""
import json
import os
import pathlib
import re
import subprocess
import sys

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[2]
KEYS = ["language", "version", "vectors", "calls_per_second", "failing_calls", "page", "example", "bare_system"]
NOT_YET = "not tried"
# name: how it is called, what runs it in a build folder, with which environment, its example, and how it says its version
LANGUAGES = {
    "python": ("Python", ["/usr/bin/python3"], {"PYTHONPATH": "{build}/python"}, "embed.py", ["--version"]),
    "lua": ("Lua", ["lua5.4"], {"LUA_PATH": "{build}/lua/?.lua", "LUA_CPATH": "{build}/lua/?.so"}, "embed.lua", ["-v"]),
    "tcl": ("Tcl", ["tclsh8.6"], {"TCLLIBPATH": "{build}/tcl"}, "embed.tcl", []),
    "perl": ("Perl", ["perl", "-I{build}/perl"], {}, "embed.pl", ["-v"]),
    "ruby": ("Ruby", ["ruby", "-W1", "-I{build}/ruby"], {}, "embed.rb", ["--version"]),
}
PLAYS = {"python": "play.py", "lua": "play.lua", "tcl": "play.tcl", "perl": "play.pl", "ruby": "play.rb"}


def file_of(name):
    return HERE / f"measured_{name}.json"


def load(name):
    return json.loads(file_of(name).read_text(encoding="utf-8"))


def store(name, found):
    text = json.dumps({key: found[key] for key in KEYS}, indent=2, ensure_ascii=False)
    file_of(name).write_text(text + "\n", encoding="utf-8")


def faults(name):
    found = load(name)
    if sorted(found) != sorted(KEYS):
        return [f"{name}: the keys are {sorted(found)}"]
    wrong = [f"{name}: {key} is no text, or empty" for key in KEYS if not isinstance(found[key], str) or not found[key]]
    page, example = ROOT / "docs" / found["page"], ROOT / "docs" / "examples" / found["example"].split(":")[0]
    wrong += [f"{name}: there is no {path.name}" for path in (page, example) if not path.is_file()]
    if page.is_file() and example.is_file() and f"\\include {example.name}" not in page.read_text(encoding="utf-8"):
        wrong.append(f"{name}: {page.name} does not show {example.name}")
    return wrong


def known():
    return sorted(path.stem.removeprefix("measured_") for path in HERE.glob("measured_*.json"))


def measure(name, build):
    import check_language
    title, program, settings, example, version = LANGUAGES[name]
    program = [word.format(build=build) for word in program]
    environment = os.environ | {key: value.format(build=build) for key, value in settings.items()}
    os.environ.update(environment)
    command = [*program, str(HERE / PLAYS[name])]
    rows = [case.values[0] for case in check_language.test_vectors.rows()]
    passed = check_language.check_rows(command)
    speed = max(float(check_language.ask(command, "speed", "200000")) for _ in range(3))
    before, after = map(int, check_language.ask(command, "failing", "100000").split())
    said = subprocess.run([*program, ROOT / "docs" / "examples" / example], env=environment, text=True, stdout=subprocess.PIPE).stdout
    suffix = example.split(".")[1]
    expected = ROOT / "docs" / "examples" / ("embed.txt" if suffix == "py" else f"embed_{suffix}.txt")
    number = subprocess.run([*program, *version], input="puts [info patchlevel]\n", env=environment, text=True, stdout=subprocess.PIPE,
                            check=True).stdout
    return {"language": title, "version": re.search(r"\d+(\.\d+)+", number)[0],
            "vectors": (f"{len(rows)} of {len(rows)}" + (", the same bits as Python" if name != "python" else "") if passed
                        else f"not all of {len(rows)}"),
            "calls_per_second": f"{round(speed, -3):,.0f}", "failing_calls": f"100,000; {after - before:+d} kB", "page": f"embed_{name}.md",
            "example": f"{example}: " + ("prints what its page shows" if said == expected.read_text(encoding="utf-8") else "prints something else"),
            "bare_system": load(name)["bare_system"] if file_of(name).exists() else NOT_YET}


def write_record():
    sys.path.insert(0, str(ROOT / "tests/release/proof"))
    import record
    found = [load(name) for name in known()]
    columns = ["language", "vectors passed", "calls a second", "failing calls, memory", "page", "example", "package on a bare system"]
    rows = [[f"{f['language']} {f['version']}", *(f[key] for key in KEYS[2:])] for f in found]
    missing = [f["language"] for f in found if f["bare_system"] == NOT_YET]
    left = ["Times are of one machine, and of a crimp diameter with values that were made before."]
    left.append("Python's interpreter takes memory in steps of up to 1 MB: in 4,000,000 failing calls there was one, in the first half million.")
    left += [f"Not tried on a bare system: {', '.join(missing)}."] if missing else []
    record.write(
        "languages", title="The same answers in every language", order=100,
        said="Each language ran the shared tables of vectors, and gave the bits of the Python package. It was asked 21 wrong things (no "
             "unit, another kind of quantity, not a number, an empty list, text too long, a zero byte in text, too few and too many arguments "
             "and others); each raised the language's own error, which names function, value and rule, where not the compiler refuses it "
             "already (Java, C#). 100,000 such calls were made, and the memory looked at.",
        commands=["cmake --workflow --preset languages", "/usr/bin/python3 tests/agree/languages/measure.py build/release",
                  "sh tests/release/bare/run.sh 'BARE_SYSTEM=yes sh tests/agree/languages/bare_system.sh'", "/usr/bin/python3 tests/agree/languages/measure.py --record"],
        in_tests="all but the times and the bare system", tools=[f"{f['language']} {f['version']}" for f in found], columns=columns, rows=rows,
        left=" ".join(left))


def main():
    words = sys.argv[1:]
    if words[0] == "--bare":
        for word in words[1:]:
            name, what = word.split("=", 1)
            store(name, load(name) | {"bare_system": what})
    elif words[0] not in ("--record", "--check"):
        build = pathlib.Path(words[0]).resolve()
        os.environ["FERRULE_PYTHON_PATH"] = str(build / "python")
        for name in words[1:] or LANGUAGES:
            store(name, measure(name, build))
            print(load(name))
    wrong = [fault for name in known() for fault in faults(name)]
    if wrong:
        sys.exit("\n".join(wrong))
    if words[0] == "--record":
        write_record()


if __name__ == "__main__":
    main()
