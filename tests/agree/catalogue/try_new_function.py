#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""A new public function is named by hand in five places: header, source, unit test, row of the catalogue, page of the manual.

Usage: try_new_function.py [--keep FOLDER]     --keep: builds there, and leaves it

Adds a function to a module, and a module of its own with one function, to a copy of the tree in these places alone. Runs the
commands that write what is committed and made by programs (lists of symbols, table of accuracy), builds, and asks everybody who has
to know the functions: unit tests, Python with docstring and stub, Lua, SQLite, the guard tests, the calls that are compared between
machines and threads, the manual's lists.
"""
import argparse
import csv
import os
import pathlib
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile

ROOT = next(folder for folder in pathlib.Path(__file__).resolve().parents if (folder / "include" / "ferrule").is_dir())
FUNCTIONS = ("fer_hose_mean_diameter", "fer_taper_angle")

MEAN_DECLARED = """\
/**
 * Mean diameter of the hose's wall before it is pushed over the stem.
 *
 * @formula \\f$ (d_i + d_o)/2 \\f$
 *
 * @param[in] joint  a possible joint, see fer_check_joint()
 * @param[out] diameter  mean of inside and outside diameter; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  a pointer is null
 * @retval FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE  and the other statuses of fer_check_joint()
 * @accuracy 1 unit in the last place
 * @source geometry
 */
FER_API fer_status fer_hose_mean_diameter(const fer_joint *joint, fer_length *diameter);

"""
MEAN_SOURCE = """
static fer_status find_hose_mean_diameter(const fer_joint *joint, fer_length *diameter)
{
    FER_TRY(fer_check_joint(joint));
    diameter->mm = 0.5 * (joint->hose.inside.mm + joint->hose.outside.mm);
    return FER_OK;
}

fer_status fer_hose_mean_diameter(const fer_joint *joint, fer_length *diameter)
{
    FER_REQUIRE(diameter, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*diameter);
    return find_hose_mean_diameter(joint, diameter);
}
"""
MEAN_TEST = """\
/* (12.7 + 19.9)/2, by hand. */
static void the_mean_diameter_is_half_the_sum(void **state)
{
    (void)state;
    const fer_joint joint = worked_joint();
    fer_length diameter;
    CHECK_OK(fer_hose_mean_diameter(&joint, &diameter));
    CHECK_NEAR(diameter.mm, 16.3, 1e-14);
    CHECK_STATUS(fer_hose_mean_diameter(&joint, NULL), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_hose_mean_diameter(NULL, &diameter), FER_ARGUMENT_MISSING);
    CHECK_NAN(diameter.mm);
}

"""
MEAN_ROW = '''

row("fer_hose_mean_diameter", """(12.7 + 19.9)/2, by hand
>>> f"{hose_mean_diameter(Joint(('12.7 mm', '19.9 mm'), '12.95 mm', '2.4 mm')):.2f mm}"
'16.30 mm'
""", joint=JOINT)


@exact("ulp", 1)
def hose_mean_diameter(joint):
    return {"diameter": (joint.hose.inside + joint.hose.outside) / 2}
'''
MEAN_PAGE = "\nThe mean diameter of the wall, fer_hose_mean_diameter(), is half the sum of both.\n"

TAPER_HEADER = """\
/* SPDX-License-Identifier: MIT */
/** @file
 * Module `taper`: the angle of a cone.
 */
#ifndef FERRULE_TAPER_H
#define FERRULE_TAPER_H

#include <ferrule/value.h>

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Whole angle of a cone between two diameters.
 *
 * @formula \\f$ 2 \\arctan \\frac{D - d}{2 L} \\f$
 *
 * @param[in] large  larger diameter @range 0.001 mm to 1,000,000 mm
 * @param[in] small_end  smaller diameter @range 0.001 mm to large
 * @param[in] length  distance between them @range 0.001 mm to 1,000,000 mm
 * @param[out] angle  whole angle; NaN on failure
 * @retval FER_OK  done
 * @retval FER_ARGUMENT_MISSING  the pointer is null
 * @retval FER_DIAMETER_MISSING  a length is not given
 * @retval FER_DIAMETER_OUT_OF_RANGE  one of the lengths is out of its range
 * @accuracy 3 units in the last place
 * @source geometry
 */
FER_API fer_status fer_taper_angle(fer_length large, fer_length small_end, fer_length length, fer_angle *angle);

#ifdef __cplusplus
}
#endif

#endif
"""
TAPER_SOURCE = """\
/* SPDX-License-Identifier: MIT */
/* The angle of a cone.
 * Method: closed formula.
 * Formulas: include/ferrule/taper.h; docs/taper.md. */
#include <ferrule/taper.h>

#include "base/value_private.h"

fer_status fer_taper_angle(fer_length large, fer_length small_end, fer_length length, fer_angle *angle)
{
    FER_REQUIRE(angle, FER_ARGUMENT_MISSING);
    FER_LEAVE_OUT(*angle);
    FER_TRY(fer_check_length(large, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_TRY(fer_check_length(small_end, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_TRY(fer_check_length(length, FER_DIAMETER_MISSING, FER_DIAMETER_OUT_OF_RANGE));
    FER_REQUIRE(small_end.mm <= large.mm, FER_DIAMETER_OUT_OF_RANGE);
    angle->rad = 2.0 * atan2(0.5 * (large.mm - small_end.mm), length.mm);
    return FER_OK;
}
"""
TAPER_TEST = """\
/* SPDX-License-Identifier: MIT */
#include "check.h"

/* A cone as long as half its difference of diameters has a right angle. */
static void a_right_angle(void **state)
{
    (void)state;
    fer_angle angle;
    CHECK_OK(fer_taper_angle(fer_mm(30), fer_mm(10), fer_mm(10), &angle));
    CHECK_NEAR(fer_to_deg(angle), 90.0, 1e-13);
    CHECK_STATUS(fer_taper_angle(fer_mm(10), fer_mm(30), fer_mm(10), &angle), FER_DIAMETER_OUT_OF_RANGE);
    CHECK_NAN(angle.rad);
    CHECK_STATUS(fer_taper_angle(fer_mm(30), fer_mm(10), fer_mm(0), &angle), FER_DIAMETER_MISSING);
    CHECK_STATUS(fer_taper_angle(fer_mm(30), fer_mm(10), fer_mm(10), NULL), FER_ARGUMENT_MISSING);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_right_angle)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
"""
TAPER_ROWS = '''\
# SPDX-License-Identifier: MIT
"""Rows of taper.h."""
from catalogue.shared import *  # noqa: F403

row("fer_taper_angle", """2 arctan 1, by hand
>>> f"{taper_angle('30 mm', '10 mm', '10 mm'):.1f deg}"
'90.0 °'
""", small_end=wide(0.01, 1000), large=plus("small_end", 0.01, 1000), length=wide(0.01, 1000))


@exact("ulp", 3)
def taper_angle(large, small_end, length):
    return {"angle": 2 * atan2((large - small_end) / 2, length)}
'''
TAPER_PAGE = """\
# Taper {#module_taper}

Header taper.h. The whole angle of a cone between two diameters, fer_taper_angle():

\\f[ 2 \\arctan \\frac{D - d}{2 L} \\f]
"""


# ---- the five places -------------------------------------------------------------------------------------------------

def one(folder, pattern):
    """The only file under a folder that a pattern names."""
    found = [path for path in folder.rglob(pattern) if "build" not in path.relative_to(folder).parts]
    assert len(found) == 1, f"{pattern}: {found}"
    return found[0]


def insert(path, text, before):
    """Puts text before what stands once in a file, or at its end."""
    old = path.read_text(encoding="utf-8")
    assert before is None or old.count(before) == 1, f"{path}: {before}"
    path.write_text(old + text if before is None else old.replace(before, text + before), encoding="utf-8")


def add_function(tree):
    """A function in the module joint."""
    test = one(tree / "tests", "test_joint.c")
    insert(tree / "include/ferrule/joint.h", MEAN_DECLARED, "#ifdef __cplusplus\n}")
    insert(one(tree / "lib", "joint.c"), MEAN_SOURCE, None)
    insert(test, MEAN_TEST, "int main(void)")
    insert(test, "        cmocka_unit_test(the_mean_diameter_is_half_the_sum),\n", "    };\n    return cmocka_run")
    insert(one(tree / "tests", "catalogue/joint.py"), MEAN_ROW, None)
    insert(one(tree / "docs", "joint.md"), MEAN_PAGE, None)


def add_module(tree):
    """The module taper, behind joint: the same places, and its line in the list of headers."""
    page = one(tree / "docs", "joint.md")
    anchor = re.search(r"\{#(\w*)joint\}", page.read_text(encoding="utf-8"))[1]
    (tree / "include/ferrule/taper.h").write_text(TAPER_HEADER, encoding="utf-8")
    insert(tree / "include/ferrule/ferrule.h", "#include <ferrule/taper.h>\n", "#include <ferrule/compression.h>")
    one(tree / "lib", "joint.c").with_name("taper.c").write_text(TAPER_SOURCE, encoding="utf-8")
    one(tree / "tests", "test_joint.c").with_name("test_taper.c").write_text(TAPER_TEST, encoding="utf-8")
    one(tree / "tests", "catalogue/joint.py").with_name("taper.py").write_text(TAPER_ROWS, encoding="utf-8")
    page.with_name("taper.md").write_text(TAPER_PAGE.replace("room_", anchor), encoding="utf-8")


# ---- what is asked ---------------------------------------------------------------------------------------------------

class Build:
    def __init__(self, tree):
        self.tree, self.folder = tree, tree / "build" / "new"
        self.python = {**os.environ, "PYTHONPATH": str(self.folder / "python"), "PYTHONDONTWRITEBYTECODE": "1"}

    def run(self, *words, folder=None, environment=None):
        done = subprocess.run([str(word) for word in words], cwd=folder or self.tree, env=environment or self.python, text=True,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
        if done.returncode:
            sys.exit(f"{' '.join(map(str, words))}\n{done.stdout[-4000:]}")
        return done.stdout

    def script(self, name, *words, **options):
        """A script of the tests, wherever its folder stands."""
        return self.run(sys.executable, one(self.tree / "tests", name), *words, **options)

    def configure(self):
        wanted = {"FERRULE_EXAMPLES": "OFF", "FERRULE_LUA": "ON" if shutil.which("lua5.4") else "OFF", "FERRULE_SQLITE": "ON"}
        self.run("cmake", "-S", ".", "-B", self.folder, *(f"-D{name}={value}" for name, value in wanted.items()))

    def build(self, *targets):
        self.run("cmake", "--build", self.folder, "-j", "2", *(word for target in targets for word in ("--target", target)))

    def test(self, names):
        printed = self.run("ctest", "--test-dir", self.folder, "--output-on-failure", "-R", f"^({names})$")
        assert "No tests were found" not in printed, names


def write_made_files(build):
    """The commands of docs/dev that write tables of all functions: nobody writes a name into them."""
    build.script("accuracy/measure.py", "--full", "300", *FUNCTIONS)
    build.script("undefined/run.py", "--new")


def ask_python(build):
    program = """
import ferrule, inspect
joint = ferrule.Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
assert abs(ferrule.hose_mean_diameter(joint).mm - 16.3) < 1e-12
assert abs(ferrule.taper_angle("30 mm", "10 mm", "10 mm").deg - 90) < 1e-12
try:
    ferrule.taper_angle("10 mm", "30 mm", "10 mm")
except ferrule.Error as error:
    assert "taper_angle" in str(error)
else:
    raise SystemExit("a wrong cone is taken")
for function in (ferrule.hose_mean_diameter, ferrule.taper_angle):
    assert "Example (" in function.__doc__ and ">>>" in function.__doc__, function.__doc__
"""
    build.run(sys.executable, "-c", program)
    stub = (build.folder / "python/ferrule/__init__.pyi").read_text(encoding="utf-8")
    assert all(f"def {name.removeprefix('fer_')}(" in stub for name in FUNCTIONS)
    build.run(sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-k", "not modules and not columns",
              one(build.tree / "tests", "test_examples.py"))


def ask_lua(build):
    if not shutil.which("lua5.4"):
        print("left out: Lua is not here")
        return
    program = 'local f = require "ferrule"; print(f.taper_angle("30 mm", "10 mm", "10 mm"))'
    lua = {**os.environ, "LUA_PATH": f"{build.folder}/lua/?.lua", "LUA_CPATH": f"{build.folder}/lua/?.so"}
    printed = build.run("lua5.4", "-e", program, environment=lua)
    assert "1.57" in printed or "90" in printed, printed


def ask_sqlite(build):
    connection = sqlite3.connect(":memory:")
    connection.enable_load_extension(True)
    connection.load_extension(str(next(build.folder.rglob("mod_ferrule.so"))))
    angle, mean = connection.execute("""
        SELECT fer_taper_angle('30 mm', '10 mm', '10 mm'), fer_hose_mean_diameter('12.7 mm', '19.9 mm', '12.95 mm', '2.4 mm')
        """).fetchone()
    assert re.fullmatch(r'1.5707963\d* rad', angle) and re.fullmatch(r'16.(3|29999)\d* mm', mean), (angle, mean)


def ask_guards(build):
    build.test("c_joint|c_taper|install_symbols|install_headers|accuracy_lines|api_sums|guard_sources|guard_layers|catalogue|platforms_page|breakage_list|manual_proof|undefined_lines")
    with one(build.tree / "tests", "table.csv").open(encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["function"] in FUNCTIONS]
    assert {row["function"] for row in rows} == set(FUNCTIONS) and all(float(row["largest"]) <= float(row["bound"]) for row in rows)


def ask_machines(build):
    """The calls that are compared between machines, with every function of the tables called."""
    printed = build.script("platforms/run.py", "--jobs", "2", "gcc")
    assert "every bit" in printed, printed
    said = (build.tree / "build/platforms/gcc.evaluate.txt").read_text(encoding="utf-8")
    assert all(len(re.findall(rf"^{name.removeprefix('fer_')} OK ", said, re.M)) > 20 for name in FUNCTIONS), "no calls"


def ask_threads(build):
    """The calls that are compared between threads and rounding modes: the program with the library that is built."""
    checks = one(build.tree / "tests", "everything.c").parent
    build.script("structs.py", build.folder / "structs.h")
    build.run(sys.executable, one(build.tree / "tests", "write_calls.py"), checks / "everything.c", build.folder / "calls.h")
    calls = (build.folder / "calls.h").read_text(encoding="utf-8")
    assert all(f"{name}(" in calls for name in FUNCTIONS)
    build.run("cc", "-std=c11", "-DFER_STATIC", "-I", build.tree / "include", "-I", build.folder, checks / "everything.c", checks / "threads.c",
              build.folder / "lib/libferrule.a", "-o", build.folder / "threads", "-lm", "-lpthread")
    build.run(build.folder / "threads", 2, 1)


def ask_manual(build):
    """The pages and tables that are made; a page that nobody names would be missing here."""
    made = build.folder / "generated"
    made.mkdir(exist_ok=True)
    build.run(sys.executable, build.tree / "docs/tables.py", made)
    text = "".join(path.read_text(encoding="utf-8", errors="replace") for path in made.rglob("*") if path.is_file())
    assert all(f"{name}()" in text for name in FUNCTIONS) and re.search(r"subpage \w*taper", text)


def try_both(folder):
    tree = folder / "tree"
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, check=True, stdout=subprocess.PIPE, text=True).stdout.splitlines()
    for name in listed:
        if (ROOT / name).exists():
            (tree / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / name, tree / name)
    add_function(tree)
    add_module(tree)
    build = Build(tree)
    build.run(sys.executable, "-B", "bindings/api/read_headers.py", "--write")
    build.script("layers.py", "--write")
    build.configure()
    build.build("ferrule", "ferrule_static", "ferrule_python", "test_joint", "test_taper", "databases", "languages")
    write_made_files(build)
    for ask in (ask_guards, ask_python, ask_lua, ask_sqlite, ask_threads, ask_machines, ask_manual):
        ask(build)
        print(f"{ask.__name__.removeprefix('ask_')}: knows both", flush=True)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--keep", type=pathlib.Path)
    options = parser.parse_args()
    if options.keep:
        try_both(options.keep)
        return
    with tempfile.TemporaryDirectory() as folder:
        try_both(pathlib.Path(folder))


if __name__ == "__main__":
    main()
