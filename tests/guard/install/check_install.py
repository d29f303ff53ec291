# SPDX-License-Identifier: MIT
"""Install into a folder, move the folder, and build a small outside project against it, by CMake and by pkg-config,
in C and C++, with the shared and the static library, with gcc and clang where they are there.

Usage: check_install.py BUILD_FOLDER
"""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
EXPECTED = "23.51 mm\n"  # worked joint by hand: 12.95 + 2 x 2.4 + (19.9 - 12.7) x 0.8
STRICT = ["-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Wshadow", "-Werror"]


def run(*command, **environment):
    result = subprocess.run([str(word) for word in command], text=True, stdout=subprocess.PIPE,
                            stderr=subprocess.STDOUT, env={**os.environ, **environment})
    if result.returncode:
        sys.exit(f"{' '.join(map(str, command))}\n{result.stdout}\nexit status {result.returncode}")
    return result.stdout


def expect(what, printed):
    if printed != EXPECTED:
        sys.exit(f"{what}: printed {printed!r}, not {EXPECTED!r}")
    print(f"{what}: {printed.strip()}")


def check_folder(prefix, old, build):
    """Everything is there, and nothing knows where it was built or first installed."""
    names = {str(path.relative_to(prefix)) for path in prefix.rglob("*")}
    for wanted in ["include/ferrule/ferrule.h", "lib/libferrule.a", "lib/libferrule.so",
                   "lib/cmake/ferrule/ferrule-config.cmake", "lib/cmake/ferrule/ferrule-config-version.cmake",
                   "lib/pkgconfig/ferrule.pc", "share/ferrule/api.json"]:
        if wanted not in names:
            sys.exit(f"{wanted} is not installed; there are {sorted(names)}")
    headers = {path.name for path in (HERE.parents[2] / "include" / "ferrule").iterdir()}
    if {path.name for path in (prefix / "include" / "ferrule").iterdir()} != headers:
        sys.exit("the installed headers are not those of include/ferrule")
    for path in prefix.rglob("*"):
        if path.suffix in {".cmake", ".pc", ".h"} and any(str(place) in path.read_text() for place in (old, build)):
            sys.exit(f"{path} holds the path of the build or of the first installation")


def check_places(build, prefix):
    """`cmake --install` writes nothing outside the prefix that it is given."""
    outside = [name for name in (build / "install_manifest.txt").read_text().split("\n") if not name.startswith(f"{prefix}/")]
    if outside:
        sys.exit(f"installed outside {prefix}: {outside}")


def by_cmake(prefix, folder, c, cpp):
    run("cmake", "-S", HERE / "outside", "-B", folder, f"-DCMAKE_PREFIX_PATH={prefix}", f"-DCMAKE_C_COMPILER={c}",
        f"-DCMAKE_CXX_COMPILER={cpp}", f"-DCMAKE_C_FLAGS={' '.join(STRICT)}", f"-DCMAKE_CXX_FLAGS={' '.join(STRICT)}")
    run("cmake", "--build", folder)
    for program in ["c_ferrule", "c_ferrule_static", "cpp_ferrule", "cpp_ferrule_static"]:
        expect(f"CMake, {c}, {program}", run(folder / program))


def by_pkg_config(prefix, folder, c, cpp):
    os.environ["PKG_CONFIG_PATH"] = str(prefix / "lib" / "pkgconfig")
    flags = run("pkg-config", "--cflags", "--libs", "ferrule").split()
    static = run("pkg-config", "--cflags", "--libs", "--static", "ferrule").replace("-lferrule", "-l:libferrule.a").split()
    folder.mkdir()
    for compiler, source, standard in [(c, "outside.c", "-std=c11"), (cpp, "outside.cpp", "-std=c++11")]:
        for kind, words in [("shared", flags), ("static", static)]:
            program = folder / f"{source}_{kind}"
            run(compiler, standard, *STRICT, HERE / "outside" / source, "-o", program, *words)
            expect(f"pkg-config, {compiler}, {kind}", run(program, LD_LIBRARY_PATH=str(prefix / "lib")))


def main():
    build = pathlib.Path(sys.argv[1]).resolve()
    with tempfile.TemporaryDirectory() as name:
        work = pathlib.Path(name)
        run("cmake", "--install", build, "--prefix", work / "first")
        check_places(build, work / "first")
        (work / "first").rename(work / "moved")
        check_folder(work / "moved", work / "first", build)
        for c, cpp in [("gcc", "g++"), ("clang", "clang++")]:
            if shutil.which(c) and shutil.which(cpp):
                by_cmake(work / "moved", work / f"cmake_{c}", c, cpp)
                by_pkg_config(work / "moved", work / f"pkg_config_{c}", c, cpp)


main()
