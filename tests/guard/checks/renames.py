# SPDX-License-Identifier: MIT
"""The names of 0.2: each new one is in the headers and no old one is, and the script renames programs of 0.1 as it says.

Usage: renames.py
"""
import csv
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
SCRIPT = ROOT / "docs" / "dev" / "rename.py"
# By file: a program of 0.1, what the script makes of it, and what it says of it.
PROGRAMS = {
    "own.c": ("""#include <ferrule/spread.h>
struct mine { int least, most; };
static double spread(double yield) { return yield; } /* the least spread of a yield */
double own(struct mine *m, fer_length_range r, const fer_reading_summary *s, const fer_setup *set, fer_material steel)
{
    free(m);
    m->least = 3;
    const fer_material soft = {.yield = {300.0}};
    const fer_process process = {.mean = {23.5}, .spread = {0.06}};
    return r.least.mm + s->most.mm + set->limits.value.most.mm + set->free.value.fraction + steel.yield.mpa +
           set->yield.value.inside.fraction + soft.yield.mpa + process.spread.mm + FER_LENGTH_LEAST_MM;
}
""", """#include <ferrule/uncertainties.h>
struct mine { int least, most; };
static double spread(double yield) { return yield; } /* the least spread of a yield */
double own(struct mine *m, fer_length_range r, const fer_reading_summary *s, const fer_setup *set, fer_material steel)
{
    free(m);
    m->least = 3;
    const fer_material soft = {.yield_strength = {300.0}};
    const fer_process process = {.mean = {23.5}, .standard_deviation = {0.06}};
    return r.lower.mm + s->maximum.mm + set->limits.value.upper.mm + set->ends_free.value.fraction + steel.yield_strength.mpa +
           set->shares.value.inside.fraction + soft.yield_strength.mpa + process.standard_deviation.mm + FER_LENGTH_MINIMUM_MM;
}
""", []),
    "own.py": ("""import ferrule as f
metal = f.Material(elastic_modulus="206 GPa", poisson="0.3 fraction", yield_="300 MPa")
def simulate(joint, spread="the least spread"):
    yield f.crimp_yield(joint, f.Spread(diameter="0.1 mm"), {"least": "15 %", "most": "25 %"}, "23.51 mm")
print(setup.yield_.value, f"{setup.window.value.least:.2f}", f.Flow.HELD, f.Model(flow="free"), next(iter([1])), f.SpreadError)
print(f.Process(mean="1 mm", spread="2 mm"), summary.least, thing.most, thing.free, mine(spread=3))
""", """import ferrule as f
metal = f.Material(elastic_modulus="206 GPa", poisson="0.3 fraction", yield_strength="300 MPa")
def simulate(joint, spread="the least spread"):
    yield f.conforming_share(joint, f.Uncertainties(diameter="0.1 mm"), {"lower": "15 %", "upper": "25 %"}, "23.51 mm")
print(setup.shares.value, f"{setup.window.value.lower:.2f}", f.Flow.ENDS_FIXED, f.Model(flow="ends_free"), next(iter([1])), f.UncertaintyError)
print(f.Process(mean="1 mm", standard_deviation="2 mm"), summary.minimum, thing.upper, thing.free, mine(spread=3))
""", ["guess: own.py:6: thing.most -> upper", "look: own.py:6: thing.free -> ends_free"]),
    "own.sql": ("SELECT fer_crimp_window_least_mm(a, b), fer_crimp_yield_inside_fraction(c) FROM t; -- at least one\n",
                "SELECT fer_crimp_window_lower_mm(a, b), fer_conforming_share_inside_fraction(c) FROM t; -- at least one\n", []),
}


def check(truth, what):
    if not truth:
        sys.exit(f"not so: {what}")


def check_programs():
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for file, (before, _, _) in PROGRAMS.items():
            (folder / file).write_text(before, encoding="utf-8")
        run = [sys.executable, SCRIPT, *PROGRAMS]
        dry = subprocess.run([*run[:2], "--dry-run", *run[2:]], cwd=folder, text=True, check=True, stdout=subprocess.PIPE).stdout
        check(all((folder / file).read_text() == before for file, (before, _, _) in PROGRAMS.items()), "a dry run writes nothing")
        check("own.c:8:" in dry, "a dry run prints the lines that would change")
        said = subprocess.run(run, cwd=folder, text=True, check=True, stdout=subprocess.PIPE).stdout
        for file, (_, after, notes) in PROGRAMS.items():
            found = (folder / file).read_text(encoding="utf-8")
            check(found == after, f"{file} becomes\n{after}but\n{found}")
            check(sorted(line for line in said.splitlines() if f" {file}:" in line) == sorted(notes), f"{file}: {notes}\n{said}")
        subprocess.run(run, cwd=folder, check=True, stdout=subprocess.PIPE)
        check(all((folder / file).read_text() == after for file, (_, after, _) in PROGRAMS.items()), "a second run changes nothing")


def check_headers():
    headers = "\n".join(path.read_text(encoding="utf-8") for path in sorted((ROOT / "include" / "ferrule").glob("*.h")))
    structs = dict(re.findall(r"typedef struct (\w+) \{(.*?)\n\} \1;", headers, re.S))
    with (ROOT / "docs" / "dev" / "renames.csv").open(encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["why"]]
    new_names = {row["old"]: row["new"] for row in rows if row["kind"] == "type"}
    for row in rows:
        kind, old, new = row["kind"], row["old"], row["new"]
        text = headers
        if kind == "member":
            struct, old = old.split(".")
            text = re.sub(r"/\*.*?\*/", "", structs[new_names.get(struct, struct)], flags=re.S)
        elif kind in ("status", "enumerator"):
            old, new = (re.sub(r"^FER_(CAUTION_)?(?!FLOW|SIDE)", "", name) for name in (old, new))
        elif kind not in ("function", "type", "macro"):
            continue
        check(re.search(rf"\b{new}\b", text), f"{kind} {row['new']} is in the headers")
        check(not re.search(rf"\b{old}\b", text), f"{kind} {row['old']} is gone")


check_headers()
check_programs()
