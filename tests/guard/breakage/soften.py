# SPDX-License-Identifier: MIT
"""Softens each severity and drops each remark and each finding, one at a time, and looks whether a test fails.

    python3 tests/guard/breakage/soften.py COMPILER LIBRARY

LIBRARY is the static library; the one object that a change concerns is compiled anew and comes before it. STOP becomes CONFIRM, DO_FIRST and
KNOW, CONFIRM becomes DO_FIRST and KNOW; of a release, where all that is open holds, STOP becomes DO_FIRST and the others KNOW. Each change has
to fail the table of orders, that of inspections, or the tests of releases. The tree itself is never touched.
"""
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
SOFTER = {"STOP": ["CONFIRM", "DO_FIRST", "KNOW"], "CONFIRM": ["DO_FIRST", "KNOW"]}
SOFTER_OF_RELEASE = {"STOP": ["DO_FIRST"], "CONFIRM": ["KNOW"], "DO_FIRST": ["KNOW"]}
SOFTER_OF_BATCH = {"STOP": ["CONFIRM", "DO_FIRST", "KNOW"], "CONFIRM": ["DO_FIRST", "KNOW"], "DO_FIRST": ["KNOW"]}
# list, header, source, what becomes of severities, the line that puts a member into its set with the name that it has there, test, its arguments
TABLES = ["tests/agree/vectors/decisions"]
LISTS = [
    ("FER_REMARK", "setup.h", "crimp/remarks.c", SOFTER, ("    if (applies) {", "remark"), "test_decisions", TABLES),
    ("FER_FINDING", "inspection.h", "inspect/inspection.c", {}, ("    if (applies) {", "finding"), "test_decisions", TABLES),
    ("FER_BATCH_FINDING", "batch.h", "batch/batch.c", SOFTER_OF_BATCH, ("    if (applies) {", "finding"), "test_batch", []),
    ("FER_END_POINT", "release.h", "inspect/release.c", SOFTER_OF_RELEASE, None, "test_release", []),
    ("FER_ASSEMBLY_POINT", "release.h", "inspect/release.c", SOFTER_OF_RELEASE, None, "test_release", []),
]


def members(prefix, header):
    """[(name, severity, the beginning of its row)] of a list X(name, number, severity, sentence)."""
    text = (ROOT / "include/ferrule" / header).read_text(encoding="utf-8")
    block = text.split(f"#define {prefix}_LIST(X)")[1].split("\n\n")[0]
    return [(m[1], m[2], m[0]) for m in re.finditer(r"X\((\w+), \d+, (\w+),", block)]


def changes():
    """(what, header or None, source, old, new, test, arguments)"""
    for prefix, header, source, softer, drop, test, arguments in LISTS:
        for name, severity, row in members(prefix, header):
            for other in softer.get(severity, []):
                yield f"{name}: {severity} becomes {other}", header, source, row, row.replace(severity, other), test, arguments
            if drop:
                line, variable = drop
                yield (f"{name} dropped", None, source, line, line.replace("applies", f"applies && {variable} != {prefix}_{name}"), test,
                       arguments)


class Workshop:
    def __init__(self, folder, compiler, library):
        self.folder, self.compiler, self.library = folder, compiler, library
        self.flags = ["-std=c11", "-w", "-DFER_STATIC", f"-I{folder}", f"-I{ROOT / 'include'}", f"-I{ROOT / 'lib'}", f"-I{ROOT / 'tests/unit'}"]
        compiled, self.linked = (subprocess.run(["pkg-config", what, "cmocka"], check=True, text=True, stdout=subprocess.PIPE).stdout.split()
                                 for what in ("--cflags", "--libs"))
        (folder / "ferrule").mkdir()
        for test in {row[5] for row in LISTS}:
            self.run(*self.flags, *compiled, "-c", ROOT / f"tests/unit/{test}.c", "-o", folder / f"{test}.o", check=True)

    def run(self, *words, check=False):
        return subprocess.run([self.compiler, *map(str, words)], check=check).returncode == 0

    def passes(self, header, source, old, new, test, arguments):
        """Whether the test passes with the change; None: it does not compile."""
        path = ROOT / "include/ferrule" / header if header else ROOT / "lib" / source
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1, (path.name, old)
        changed = self.folder / "ferrule" / header if header else self.folder / pathlib.Path(source).name
        changed.write_text(text.replace(old, new), encoding="utf-8")
        compiled = self.run(*self.flags, "-c", ROOT / "lib" / source if header else changed, "-o", self.folder / "changed.o")
        changed.unlink()
        program = self.folder / "program"
        if not compiled or not self.run(self.folder / f"{test}.o", self.folder / "changed.o", self.library, *self.linked, "-lm", "-o", program):
            return None
        done = subprocess.run([program, *(ROOT / a for a in arguments)], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=60)
        return done.returncode == 0


def main(compiler, library):
    tried, unnoticed = 0, []
    with tempfile.TemporaryDirectory() as name:
        shop = Workshop(pathlib.Path(name), compiler, library)
        for prefix, _, source, _, _, test, arguments in LISTS:  # without a change all pass
            assert shop.passes(None, source, "#include <ferrule/", "#include <ferrule/", test, arguments), test
        for what, *change in changes():
            tried += 1
            if shop.passes(*change) is not False:
                unnoticed.append(what)
                print(f"unnoticed: {what}", flush=True)
    print(f"{tried} severities softened and members dropped, {tried - len(unnoticed)} noticed")
    return 1 if unnoticed or tried < 100 else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
