#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""A door checks each of its arguments once: plans one set-up with metals and four dies, all its figures found, and counts by
gcov how often each check ran.

Usage: check_once.py [--list] [--source OLD NEW]   --list: prints the counts; --source: lib/crimp/setup.c with a change in it
"""
import argparse
import json
import pathlib
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
# How often each check runs at most: once for each thing that there is one of. The four dies, the two metals and the six
# uncertainties are checked once each, and the ferrule's flow once for each of the models (the order's, ends free, ends fixed, none).
TIMES = {"fer_check_die": 4, "fer_check_die_rules": 4, "check_metal": 2, "fer_check_material_rules": 2, "check_modulus": 2, "check_yield_strength": 2,
         "check_uncertainty": 6, "fer_check_flow": 4}
# Rules on what is computed on the way, which is another number each time: no argument of the door.
COMPUTED = {"check_diameter", "fer_check_closing", "fer_check_deep_closing", "fer_check_setting"}
MUST_RUN = {"fer_check_joint_rules", "fer_check_press_rules", "fer_check_dies", "fer_check_die_rules", "fer_check_uncertainty_rules",
            "fer_check_material_rules", "fer_check_load", "fer_check_gauge_rules", "fer_check_guard_rules", "check_order"}


def counts_of(change=None):
    """By name of file and function: how often a check ran."""
    counts = {}
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        sources = sorted((ROOT / "lib").rglob("*.c"))
        if change:
            text = (ROOT / "lib/crimp/setup.c").read_text(encoding="utf-8")
            assert change[0] in text, "the text that is to be changed is not there"
            (folder / "setup.c").write_text(text.replace(*change), encoding="utf-8")
            sources = [folder / "setup.c" if source.name == "setup.c" else source for source in sources]
        include = ["-I", ROOT / "include", "-I", ROOT / "lib"]
        subprocess.run(["gcc", "-std=c11", "-O0", "--coverage", *include, *sources, ROOT / "tests/guard/doors/plan_once.c", "-o",
                        folder / "plan_once", "-lm"], cwd=folder, check=True)
        subprocess.run([folder / "plan_once"], cwd=folder, check=True)
        for data in sorted(folder.glob("*.gcda")):
            said = subprocess.run(["gcov", "--json-format", "--stdout", data], cwd=folder, check=True, capture_output=True)
            for line in said.stdout.splitlines():
                for file in json.loads(line)["files"]:
                    for function in file["functions"]:
                        if "check_" in function["name"] and file["file"].endswith(".c"):
                            counts[pathlib.Path(file["file"]).name, function["name"]] = function["execution_count"]
    return counts


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--list", action="store_true")
    parser.add_argument("--source", nargs=2)
    arguments = parser.parse_args()
    counts = counts_of(arguments.source)
    ran = {name for (_, name), times in counts.items() if times > 0}
    troubles = [f"{name} did not run: the test is not what it says" for name in sorted(MUST_RUN - ran)]
    for (file, name), times in sorted(counts.items()):
        if arguments.list and times:
            print(f"{times:4}  {file}: {name}")
        if name not in COMPUTED and times > TIMES.get(name, 1):
            troubles.append(f"{file}: {name} ran {times} times for one set-up")
    sys.exit("\n".join(troubles) or 0)


if __name__ == "__main__":
    main()
