# SPDX-License-Identifier: MIT
"""Compile and run the examples of the manual and of the README, and compare what they print with what stands beside them.

Usage: check_examples.py [--more] C_COMPILER STATIC_LIBRARY [PYTHON_FOLDER]

docs/examples: NAME.c and NAME.py print NAME.txt, and each is shown on a page. README.md: what a block of C or Python
prints stands in the next block of text. Without PYTHON_FOLDER the Python examples are left out.
--more: only the examples that import packages of others (MORE), which are left out otherwise.
"""
import os
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
EXAMPLES = ROOT / "docs" / "examples"
STRICT = ["-std=c11", "-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Wshadow", "-Werror"]


def run(*command, **environment):
    result = subprocess.run([str(word) for word in command], text=True, stdout=subprocess.PIPE,
                            stderr=subprocess.STDOUT, env={**os.environ, **environment})
    return result.stdout if result.returncode == 0 else f"{result.stdout}\nexit status {result.returncode}\n"


MORE = re.compile(r"^\s*(import|from) (pandas|dask|pint|scipy|matplotlib)\b", re.M)


class Runner:
    def __init__(self, compiler, library, python_folder, folder):
        self.compiler, self.library, self.python_folder, self.folder = compiler, library, python_folder, folder

    def __call__(self, source):
        """What a program prints; None where it cannot be run here."""
        if source.suffix == ".py":
            return run(sys.executable, source, PYTHONPATH=self.python_folder) if self.python_folder else None
        program = self.folder / "program"
        program.unlink(missing_ok=True)
        said = run(self.compiler, *STRICT, "-I", ROOT / "include", source, self.library, "-lm", "-o", program)
        return run(program) if program.exists() else said


def readme_blocks(text):
    """Pairs of language and program, each with what it is said to print."""
    return re.findall(r"```(c|python)\n(.*?)```\n.*?```(?:text)?\n(.*?)```", text, re.S)


def main():
    more = sys.argv[1] == "--more"
    compiler, library, *rest = sys.argv[1 + more:]
    pages = "".join(page.read_text(encoding="utf-8") for page in (ROOT / "docs").glob("*.md"))
    failed = checked = 0

    def check(name, printed, expected):
        nonlocal failed, checked
        if printed is None:
            return
        checked += 1
        if printed != expected:
            failed += 1
            print(f"{name} printed:\n{printed}\nand was to print:\n{expected}")

    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        runner = Runner(compiler, library, rest[0] if rest else None, folder)
        for source in sorted([*EXAMPLES.glob("*.c"), *EXAMPLES.glob("*.py")]):
            if bool(MORE.search(source.read_text(encoding="utf-8"))) != more:
                continue
            check(source.name, runner(source), source.with_suffix(".txt").read_text(encoding="utf-8"))
            if source.name not in pages:
                failed += 1
                print(f"{source.name} stands on no page")
        blocks = readme_blocks((ROOT / "README.md").read_text(encoding="utf-8"))
        if sorted(language for language, _, _ in blocks) != ["c", "python"]:
            failed += 1
            print("README.md is to have one example in C and one in Python, each with what it prints")
        for language, program, expected in [] if more else blocks:
            source = folder / f"readme.{'c' if language == 'c' else 'py'}"
            source.write_text(program, encoding="utf-8")
            check(f"README.md, {language}", runner(source), expected)
    print(f"{checked} examples, {failed} failed")
    sys.exit(1 if failed or not checked else 0)


main()
