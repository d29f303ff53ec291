#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Lines and branches of lib/ that the C tests reach, by gcov and gcovr, from a build without optimisation.

Usage: measure.py [--record] [BUILD_FOLDER]     without one: build/coverage; --record: tests/release/proof/records/coverage.json

Prints one line per file, then every line and branch that no test reaches, then what is excluded, with the reason that
stands beside the marker. A branch is one outcome of one condition: && and || have two for each of their parts, so
that each part is seen to decide. Exit status 1: less is reached than LINES or BRANCHES says, or a marker gives no
reason. GCOVR_EXCL_BR_LINE and GCOVR_EXCL_BR_START to STOP, followed by ": reason", are the only markers allowed.
"""
import json
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[3]
sys.path.insert(0, str(ROOT / "tests/release/proof"))
import record  # noqa: E402

LINES = 100.0  # per cent that were reached when this was last raised
BRANCHES = 100.0
MARKER = re.compile(r"GCOVR?_EXCL_\w+")
REASON = re.compile(r"GCOVR_EXCL_BR_(?:LINE|START): (\w.{15,}?)\s*(?:\*/)?$")


def run(*command, **options):
    done = subprocess.run([str(word) for word in command], cwd=ROOT, text=True, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, timeout=1800, **options)
    if done.returncode != 0:
        sys.exit(f"{' '.join(map(str, command))}\n{done.stdout[-8000:]}")
    return done.stdout


def measure(build):
    """gcovr's figures of lib/, after a run of the C tests alone."""
    run("cmake", "-S", ".", "-B", build, "-DCMAKE_BUILD_TYPE=Debug", "-DCMAKE_C_FLAGS=--coverage -O0 -fprofile-update=atomic",
        "-DFERRULE_PYTHON=OFF", "-DFERRULE_EXAMPLES=OFF", "-DFERRULE_TESTS=unit")
    run("cmake", "--build", build, "-j", "2")
    for counts in build.rglob("*.gcda"):
        counts.unlink()
    run("ctest", "--test-dir", build, "-R", "^c_", "-j", "2", "--output-on-failure")
    figures = build / "coverage.json"
    objects = [build / "lib", build / "tests/unit"]
    run("gcovr", "--root", ".", "--filter", "lib/", "--json", figures, *objects)
    return json.loads(figures.read_text())["files"]


def count(file):
    """Reached and all of a file's lines and branches, and what is not reached."""
    lines = [line for line in file["lines"] if not line["gcovr/noncode"]]
    branches = [(line["line_number"], branch) for line in lines for branch in line["branches"]]
    missed = [line["line_number"] for line in lines if line["count"] == 0]
    half = [number for number, branch in branches if branch["count"] == 0]
    return len(lines) - len(missed), len(lines), len(branches) - len(half), len(branches), missed, half


def exclusions():
    """Markers in lib/ with their reasons; None for one that gives none or may not be used."""
    for path in sorted((ROOT / "lib").rglob("*.[ch]")):
        for number, text in enumerate(path.read_text().splitlines(), 1):
            if MARKER.search(text) and "EXCL_BR_STOP" not in text:
                reason = REASON.search(text)
                yield f"{path.relative_to(ROOT)}:{number}", reason and reason.group(1)


def here(files):
    """The files without what only a processor with AVX-512 runs, where this one has none; says so in the list of what is left out."""
    if "avx512dq" in pathlib.Path("/proc/cpuinfo").read_text():
        return files
    with (ROOT / "build/log/left_out.txt").open("a") as left_out:
        print("Coverage: this processor has no AVX-512; random_wide.c, and what calls it, is not counted.", file=left_out)
    for file in files:
        source = (ROOT / file["file"]).read_text().splitlines()
        wide = {number for number, text in enumerate(source, 1) if "wide" in text}
        file["lines"] = [line for line in file["lines"] if line["line_number"] not in wide]
    return [file for file in files if not file["file"].endswith("/random_wide.c")]


def per_cent(part, whole):
    return 100.0 * part / whole if whole else 100.0


def report(files):
    """Prints all, returns per cent of lines and branches, and one row per file."""
    totals = [0, 0, 0, 0]
    rows = []
    gaps = []
    for file in sorted(files, key=lambda file: file["file"]):
        *figures, missed, half = count(file)
        totals = [a + b for a, b in zip(totals, figures)]
        rows.append([file["file"], f"{figures[0]} of {figures[1]}", f"{figures[2]} of {figures[3]}"])
        print(f"{file['file']:28} {figures[0]:5}/{figures[1]:<5} {figures[2]:5}/{figures[3]:<5}")
        source = (ROOT / file["file"]).read_text().splitlines()
        for number in sorted(set(missed + half)):
            what = "line" if number in missed else f"{half.count(number)} branches"
            gaps.append(f"{file['file']}:{number}: {what} not reached: {source[number - 1].strip()}")
    print("\n".join(gaps))
    rows.append(["all", f"{totals[0]} of {totals[1]}", f"{totals[2]} of {totals[3]}"])
    return per_cent(*totals[:2]), per_cent(*totals[2:]), rows


def write_record(lines, branches, rows):
    excluded = list(exclusions())
    record.write("coverage", title="Every line and every branch", order=20,
                 said=f"The C tests reach {lines:.2f} % of the lines and {branches:.2f} % of the branches of lib/, built without "
                      "optimisation. A branch is one outcome of one part of a condition: && and || have two for each of their parts. "
                      "That each part decides by itself is shown by forcing it (record of mutation).",
                 commands=["/usr/bin/python3 tests/guard/coverage/measure.py --record"], in_tests="The same measurement; less than 100 % fails.",
                 tools=[record.tool("gcc"), record.tool("gcovr")], columns=["file", "lines", "branches"], rows=rows,
                 left=" ".join(f"Not counted: {place}, {reason}." for place, reason in excluded))


def main():
    arguments = [word for word in sys.argv[1:] if word != "--record"]
    (ROOT / "build/log").mkdir(parents=True, exist_ok=True)
    build = pathlib.Path(arguments[0] if arguments else ROOT / "build/coverage").resolve()
    print(f"{'file':28} {'lines':>11} {'branches':>11}")
    lines, branches, rows = report(here(measure(build)))
    unexplained = [place for place, reason in exclusions() if not reason]
    for place, reason in exclusions():
        print(f"{place}: excluded: {reason or 'NO REASON'}")
    print(f"\nlines {lines:.2f} %, branches {branches:.2f} %")
    if "--record" in sys.argv:
        write_record(lines, branches, rows)
    if lines < LINES or branches < BRANCHES or unexplained:
        sys.exit(f"less than {LINES} % of lines or {BRANCHES} % of branches, or an exclusion without a reason")


if __name__ == "__main__":
    main()
