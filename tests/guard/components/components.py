#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Parts of the library can be built: base and judge without texts, by CMake, are what judge_alone.c needs; a choice that lacks
something is refused with what it lacks.

Usage: components.py COMPILER
"""
import pathlib
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
HERE = pathlib.Path(__file__).resolve().parent
OFF = [f"-DFERRULE_{part}=OFF" for part in ("PYTHON", "EXAMPLES", "TESTS")]
REFUSED = [(["-DFERRULE_COMPONENTS=base;inspect"], "inspect needs crimp"),
           (["-DFERRULE_COMPONENTS=base;hose"], "there is no hose"),
           (["-DFERRULE_COMPONENTS=base", "-DFERRULE_SQLITE=ON"], "FERRULE_SQLITE=ON needs all components"),
           (["-DFERRULE_TEXTS=OFF", "-DFERRULE_LUA=ON"], "FERRULE_LUA=ON needs the texts")]


def run(*command, **options):
    return subprocess.run([str(word) for word in command], capture_output=True, text=True, **options)


def main():
    compiler = sys.argv[1]
    with tempfile.TemporaryDirectory() as name:
        build = pathlib.Path(name)
        configure = ["cmake", "-S", ROOT, "-B", build, f"-DCMAKE_C_COMPILER={compiler}", *OFF]
        for options, said in REFUSED:
            done = run(*configure, *options)
            assert done.returncode != 0 and said in " ".join(done.stderr.split()), (options, done.stderr)
            (build / "CMakeCache.txt").unlink()
        run(*configure, "-DFERRULE_COMPONENTS=base;judge", "-DFERRULE_TEXTS=OFF", check=True)
        run("cmake", "--build", build, "--target", "ferrule_static", check=True)
        for program in ("judge_alone", "leave_out"):
            run(compiler, "-std=c11", "-DFER_STATIC", "-I", ROOT / "include", HERE / f"{program}.c", build / "lib/libferrule.a", "-lm",
                "-o", build / program, check=True)
            done = run(build / program)
            assert done.returncode == 0, (program, done.stdout)


if __name__ == "__main__":
    main()
