# SPDX-License-Identifier: MIT
"""What the library exports, what it needs, and what it keeps.

Usage: check_symbols.py SHARED_LIBRARY STATIC_LIBRARY EXPORTED_SYMBOLS [--write]

- The shared library exports exactly the names in the reviewed list; --write writes the list anew, for review.
- The Debian package's list has the same names, each with the version that it came with; --write writes that one, too.
- The objects need nothing but mathematical functions and functions on memory and strings.
- The objects hold no data that can change.
- The rooms that plan and judge a crimp are below 126 kB when stripped, the whole shared library below 172 kB.
Each check is first tried on an object that breaks the rule.
"""
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
LARGEST = 172_000
LARGEST_CORE = 126_000
# The rooms that plan and judge a crimp; what else they need is numerics, and forming for the set-up.
CORE = """status text joint compression lobe spread window die press setup reading conformity inspection caution forming
          decimal special quadrature moments line mixture zone""".split()
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
    symbols = names(objects)
    defined = {name for kind, name in symbols if kind != "U"}
    return {name for kind, name in symbols if kind == "U"} - defined - MEMORY - MATHEMATICS - COMPILER


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


def core_size(static, folder):
    """Size of a shared library of the core's objects alone."""
    objects = folder / "objects"
    objects.mkdir()
    subprocess.run(["ar", "x", static.resolve()], cwd=objects, check=True)
    chosen = [path for path in objects.iterdir() if path.name.split(".")[0] in CORE]
    assert len(chosen) > 12, chosen
    output("cc", "-shared", "-o", folder / "core.so", *chosen, "-lm")
    return stripped_size(folder / "core.so", folder)


def version():
    text = (ROOT / "include" / "ferrule" / "version.h").read_text()
    return ".".join(re.search(rf"FER_VERSION_{part} (\d+)", text)[1] for part in ("MAJOR", "MINOR", "PATCH"))


def in_package(found, write):
    """Names in the list of the Debian package; a name that is new there came with this version."""
    listed, = (ROOT / "bindings" / "debian").glob("libferrule*.symbols")
    head, *lines = listed.read_text().splitlines()
    since = dict(re.fullmatch(r" (\w+)@Base (\S+)", line).groups() for line in lines)
    if write:
        since = {name: since.get(name, version()) for name in found}
        listed.write_text("".join([head + "\n", *(f" {name}@Base {since[name]}\n" for name in found)]))
    return listed.name, list(since)


def try_checks(folder):
    """The checks find an allocation and a variable where there are some."""
    source, made = folder / "bad.c", folder / "bad.o"
    source.write_text(BREAKS_RULES)
    output("cc", "-O1", "-fPIC", "-c", source, "-o", made)
    assert foreign(made) == {"malloc"}, foreign(made)
    assert changeable(made) == [".bss"], changeable(made)


def main():
    shared, static, listed = map(pathlib.Path, sys.argv[1:4])
    found = exported(shared)
    if "--write" in sys.argv:
        listed.write_text("\n".join(found) + "\n")
    wanted = listed.read_text().split()
    troubles = [f"exported, but not in {listed.name}: {name}" for name in sorted(set(found) - set(wanted))]
    troubles += [f"in {listed.name}, but not exported: {name}" for name in sorted(set(wanted) - set(found))]
    if found != wanted:
        troubles.append("what is exported is a promise: review it, then let this script --write the list")
    package, packaged = in_package(found, "--write" in sys.argv)
    if packaged != found:
        troubles.append(f"{package} has other names: {sorted(set(packaged) ^ set(found))}")
    if wanted != sorted(wanted):
        troubles.append(f"{listed.name} is not in order")
    with tempfile.TemporaryDirectory() as name:
        try_checks(pathlib.Path(name))
        size, core = stripped_size(shared, pathlib.Path(name)), core_size(static, pathlib.Path(name))
    troubles += [f"needs {name}" for name in sorted(foreign(static))]
    troubles += [f"holds data that can change, in {section}" for section in changeable(static)]
    if size >= LARGEST:
        troubles.append(f"{size} bytes when stripped; the limit is {LARGEST}")
    if core >= LARGEST_CORE:
        troubles.append(f"the core is {core} bytes when stripped; its limit is {LARGEST_CORE}")
    print(f"{len(found)} exported symbols, {size} bytes when stripped, {core} of them for the core")
    sys.exit("\n".join(troubles) if troubles else 0)


main()
