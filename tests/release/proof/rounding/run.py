# SPDX-License-Identifier: MIT
"""Proves with Gappa what the comments promise of closed-form arithmetic in units in the last place: rounding/NAME.g.

The first lines of a file say of which functions, where their code stands, and the bound. Each goal in braces is a case; Gappa is
given one of them at a time with the definitions before and the hints after the goals: all together take it a hundred
times as long. Exit status 1 where a case was not proven.

    run.py [NAME...]      those; all where none is named
    run.py --record       all, and the record for the manual
"""
import pathlib
import re
import subprocess
import sys
import time

FOLDER = pathlib.Path(__file__).resolve().parent
GOAL = re.compile(r"^\{.*?\}$", re.M | re.S)
FALSE = "x = float<ieee_64, ne>(y);\n{ y in [1,2] -> x - y in [0,0] }\n"  # a double is not any number


def refused(script):
    """What Gappa says where it does not prove a script; nothing where it does."""
    run = subprocess.run(["gappa"], input=script, text=True, capture_output=True, timeout=300)
    return run.stderr or "no reason given" if run.returncode != 0 else ""


def cases(text):
    """Scripts of a file, one for each of its goals."""
    goals, parts = GOAL.findall(text), GOAL.split(text)
    return [parts[0] + goal + "".join(parts[1:]) for goal in goals]


def said(text):
    return dict(re.findall(r"^# (Function|Code|Bound): (.*)$", text, re.M))


def prove(path):
    """Line of the record; ends the program where a case was not proven."""
    text, began = path.read_text(encoding="ascii"), time.monotonic()
    head, scripts = said(text), cases(text)
    if len(head) != 3 or not scripts:
        sys.exit(f"{path.name}: the first lines do not say Function, Code and Bound, or there is no goal")
    for script in scripts:
        why = refused(script)
        if why:
            sys.exit(f"{path.name}: not proven:\n{GOAL.search(script)[0]}\n{why}")
    print(f"{path.name:28}{len(scripts):4} cases {time.monotonic() - began:6.1f} s   {head['Bound']}", flush=True)
    return [path.stem, head["Function"], head["Bound"], str(len(scripts))]


def write_record(rows):
    sys.path.insert(0, str(FOLDER.parent))
    import record
    record.write(
        "rounding", title="Rounding of closed formulas", order=25,
        said="The bounds that the comments of the functions state in units in the last place, for every input of the range: proven with "
             "Gappa from the arithmetic as it is written in the code. What Knuth's and Dekker's sums and products of two doubles keep is taken "
             "from their theorems. Powers of two themselves and what lies just below them are cases of their own.",
        commands=["/usr/bin/python3 tests/release/proof/rounding/run.py"], in_tests="sh tests/run.sh rounding",
        tools=[record.tool("gappa")], columns=["file", "of", "bound", "cases"], rows=rows,
        left="Sines, cosines, arcs and logarithms of the C library: edge angle, arcs diameter and jaws of fer_crimp_shape() and "
             "fer_arc_radius() are sampled against mpmath only; so are fer_dial_setting() and fer_dialled_diameter(), whose correction may be "
             "finer than any length, fer_compression() with a flow or another basis, and all results with a relative accuracy. How the bounds "
             "of pairs add up over a formula is worked out by hand in the files' comments. That the code is what the "
             "files say of it is for the reader; the bounds are sampled as well.")


def main():
    names = [name for name in sys.argv[1:] if name != "--record"]
    if not refused(FALSE):
        sys.exit("Gappa proves what is false")
    rows = [prove(path) for path in sorted(FOLDER.glob("*.g")) if not names or path.stem in names]
    if "--record" in sys.argv:
        write_record(rows)


if __name__ == "__main__":
    main()
