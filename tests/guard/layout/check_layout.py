#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""The top level and tests/ hold what DEVELOPERS.md shows, and nothing else.

Usage: check_layout.py [ROOT]   Exit status 1: something is there that has no place, or a place is empty.
Looks at files that git knows, and at all of them where there is no git.
"""
import pathlib
import subprocess
import sys

TOP = {"README.md", "DEVELOPERS.md", "CMakeLists.txt", "CMakePresets.json", "LICENSE",
       "include/", "lib/", "bindings/", "docs/", "examples/", "tests/"}
TESTS = {"CMakeLists.txt", "run.sh", "packages.sh", "unit/", "agree/", "guard/", "release/"}
HERE = "tests/guard/layout/check_layout.py"
NOT_OURS = {"build", ".git", "__pycache__"}


def files(root):
    """Paths below root, as git knows them."""
    listed = subprocess.run(["git", "-C", root, "ls-files", "--cached", "--others", "--exclude-standard"], text=True,
                            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    if listed.returncode == 0 and listed.stdout:
        return [path for path in map(pathlib.PurePath, listed.stdout.splitlines()) if (root / path).exists()]
    return [path.relative_to(root) for path in root.rglob("*")
            if path.is_file() and not NOT_OURS & set(path.relative_to(root).parts)]


def entries(paths, folder):
    """What lies in a folder: files by name, folders with a slash."""
    depth = len(folder.parts)
    inside = [path for path in paths if path.parts[:depth] == folder.parts]
    return {path.parts[depth] + ("/" if len(path.parts) > depth + 1 else "") for path in inside}


def compare(where, found, wanted):
    complaints = [f"{where}{name} has no place there (places: DEVELOPERS.md, and TOP and TESTS in {HERE})" for name in sorted(found - wanted)]
    return complaints + [f"{where}{name} is missing" for name in sorted(wanted - found)]


def complaints_of(root):
    paths = files(root)
    complaints = compare("", {name for name in entries(paths, pathlib.PurePath()) if name[0] != "."}, TOP)
    complaints += compare("tests/", entries(paths, pathlib.PurePath("tests")), TESTS)
    unit = entries(paths, pathlib.PurePath("tests/unit"))
    complaints += [f"tests/unit/{name} is not C" for name in sorted(unit)
                   if not name.endswith((".c", ".h")) and name != "CMakeLists.txt"]
    for ring in ("agree", "guard", "release"):
        loose = [name for name in entries(paths, pathlib.PurePath("tests", ring)) if name[-1] != "/"]
        complaints += [f"tests/{ring}/{name} belongs into a folder" for name in sorted(loose)
                       if name not in ("CMakeLists.txt", "run.sh")]
    return complaints


def main():
    root = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else pathlib.Path(__file__).resolve().parents[3])
    complaints = complaints_of(root)
    print("\n".join(complaints) or "every file has its place")
    sys.exit(bool(complaints))


main()
