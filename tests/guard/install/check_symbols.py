# SPDX-License-Identifier: MIT
"""What the library exports, what it needs, and what it keeps.

Usage: check_symbols.py SHARED_LIBRARY STATIC_LIBRARY

- The shared library exports exactly the functions of bindings/api/api.json, which is reviewed: what others may link to.
- The objects need nothing but mathematical functions and functions on memory and strings.
- The objects hold no data that can change.
Each check is first tried on an object that breaks the rule.
"""
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
sys.path.insert(0, str(ROOT / "bindings" / "api"))
import symbols  # noqa: E402

MEMORY = {"memcpy", "memset", "memmove", "memcmp", "strlen", "strcmp"}
MATHEMATICS = {"sqrt", "cbrt", "exp", "expm1", "exp2", "log", "log1p", "log2", "log10", "pow", "hypot", "fma", "ldexp",
               "frexp", "scalbn", "fmod", "remainder", "floor", "ceil", "round", "trunc", "nearbyint", "rint", "lround",
               "llround", "sin", "cos", "tan", "asin", "acos", "atan", "atan2", "sinh", "cosh", "tanh", "asinh",
               "acosh", "atanh", "erf", "erfc", "tgamma", "lgamma_r", "fabs", "fmin", "fmax", "copysign", "nextafter",
               "sincos"}
COMPILER = {"_GLOBAL_OFFSET_TABLE_", "__stack_chk_fail"}
BREAKS_RULES = """
#include <stdlib.h>
static int calls;
int *fer_bad(void) { calls++; return malloc((unsigned)calls); }
"""


def output(*command):
    return subprocess.run([str(word) for word in command], check=True, text=True, stdout=subprocess.PIPE).stdout


def names(*command):
    """Names that nm prints, as pairs of type and name."""
    lines = (line.split() for line in output("nm", *command).splitlines())
    return [(words[-2], words[-1]) for words in lines if len(words) >= 2]


def exported(library):
    return sorted(re.sub("@.*", "", name) for _, name in names("-D", "--defined-only", library))


def foreign(objects):
    """Names that the objects need and that none of them has."""
    found = names(objects)
    defined = {name for kind, name in found if kind != "U"}
    return {name for kind, name in found if kind == "U"} - defined - MEMORY - MATHEMATICS - COMPILER


def changeable(objects):
    """Writable sections that are not empty. What only the loader writes, before it makes it read-only, does not count."""
    row = re.compile(r"\]\s+(\.\S+)\s+\w+\s+[0-9a-f]+\s+[0-9a-f]+\s+([0-9a-f]+)\s+[0-9a-f]+\s+(\S+)\s")
    rows = (row.search(line) for line in output("readelf", "-SW", objects).splitlines())
    found = [(m[1], int(m[2], 16)) for m in rows if m and "W" in m[3]]
    common = [name for kind, name in names(objects) if kind == "C"]
    return common + [name for name, size in found if size and not name.startswith(".data.rel.ro")]


def stripped_size(library, folder):
    target = folder / "stripped.so"
    output("strip", "-o", target, library)
    return target.stat().st_size


def try_checks(folder):
    """The checks find an allocation and a variable where there are some."""
    source, made = folder / "bad.c", folder / "bad.o"
    source.write_text(BREAKS_RULES)
    output("cc", "-O1", "-fPIC", "-c", source, "-o", made)
    assert foreign(made) == {"malloc"}, foreign(made)
    assert changeable(made) == [".bss"], changeable(made)


def main():
    shared, static = map(pathlib.Path, sys.argv[1:3])
    found, wanted = exported(shared), list(symbols.exported())
    troubles = [f"exported, but in no public header: {name}" for name in sorted(set(found) - set(wanted))]
    troubles += [f"in api.json, but not exported: {name}" for name in sorted(set(wanted) - set(found))]
    with tempfile.TemporaryDirectory() as name:
        try_checks(pathlib.Path(name))
        size = stripped_size(shared, pathlib.Path(name))
    troubles += [f"needs {name}" for name in sorted(foreign(static))]
    troubles += [f"holds data that can change, in {section}" for section in changeable(static)]
    print(f"{len(found)} exported symbols, {size} bytes when stripped")
    sys.exit("\n".join(troubles) if troubles else 0)


main()
