# SPDX-License-Identifier: MIT
"""Every public header compiles alone, twice in a row, in each language standard, without a warning.

Usage: check_headers.py
"""
import itertools
import pathlib
import shutil
import subprocess
import sys

INCLUDE = pathlib.Path(__file__).resolve().parents[3] / "include"
STRICT = ["-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Wshadow", "-Werror", "-fsyntax-only"]
LANGUAGES = [("gcc", "c", "c11"), ("gcc", "c", "c17"), ("g++", "c++", "c++11"), ("g++", "c++", "c++17"),
             ("g++", "c++", "c++20"), ("clang", "c", "c11"), ("clang", "c", "c17"), ("clang++", "c++", "c++11"),
             ("clang++", "c++", "c++17")]


def main():
    headers = sorted(INCLUDE.glob("ferrule/*.h"))
    languages = [language for language in LANGUAGES if shutil.which(language[0])]
    failed = 0
    for header, (compiler, language, standard) in itertools.product(headers, languages):
        text = f"#include <ferrule/{header.name}>\n" * 2 + "extern int declared;\n"
        command = [compiler, f"-std={standard}", *STRICT, "-I", str(INCLUDE), "-x", language, "-"]
        result = subprocess.run(command, input=text, text=True, stderr=subprocess.PIPE)
        if result.returncode:
            failed += 1
            print(f"{header.name} by {compiler} -std={standard}:\n{result.stderr}")
    print(f"{len(headers)} headers, {len(languages)} languages, {failed} failed")
    sys.exit(1 if failed or not headers or not languages else 0)


main()
