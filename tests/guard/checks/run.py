#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Sanitizers, valgrind, analysers, standards, compilers and levels of optimisation, beyond the presets of CMake.

    run.py                 every check, about half an hour on one core
    run.py --short         those that tests/run.sh repeats
    run.py NAME...         those named
    run.py --record        as well: tests/release/proof/records/sanitizers.json and static_analysis.json
    run.py --list          what there is

Needs gcc, g++, clang, valgrind, cppcheck, cmocka. Exit status 1: one of them found something.
"""
import argparse
import concurrent.futures
import itertools
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[3]
sys.path.insert(0, str(ROOT / "tests/release/proof"))
import record  # noqa: E402

HERE = pathlib.Path(__file__).parent
SOURCES = sorted((ROOT / "lib").rglob("*.c"))
HEADERS = sorted((ROOT / "include/ferrule").glob("*.h"))
INCLUDE = ["-I", ROOT / "include", "-I", ROOT / "lib", "-DFER_BUILDING"]
WARNINGS = ["-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Wshadow", "-Werror"]
STRICT_C = ["-Wstrict-prototypes", "-Wmissing-prototypes"]
EXACT = ["-ffp-contract=off", "-fno-math-errno"]
# What C++ says of C's {0}, which stands for "and the rest is 0", and of counts in a quotient of doubles.
AS_CPP = ["-Wno-missing-field-initializers", "-Wno-missing-braces", "-Wno-enum-float-conversion", "-Wno-pedantic"]
CHECKS = {}


class Found(Exception):
    """What a check found."""


def check(table, short=False):
    """Registers a check for one of the two records; its docstring says what it does, what it returns is the result."""
    def register(function):
        CHECKS[function.__name__] = (function, table, short)
        return function
    return register


def run(*command, seconds=900, **options):
    """Output of a command that has to succeed."""
    words = [str(word) for word in command]
    try:
        done = subprocess.run(words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace",
                              timeout=seconds, **options)
    except subprocess.TimeoutExpired:
        raise Found(f"{' '.join(words)}\ntakes longer than {seconds} s") from None
    if done.returncode != 0:
        raise Found(f"{' '.join(words)}\n{done.stdout[-6000:]}")
    return done.stdout


def both(work, items):
    """Two at a time; the results in order."""
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        return list(pool.map(work, items))


def objects(compiler, flags, folder, sources=SOURCES):
    """Compiles sources; the objects."""
    def one(source):
        out = folder / (str(source.relative_to(ROOT)).replace("/", "_") + ".o")
        run(*compiler, *flags, *EXACT, *INCLUDE, "-c", source, "-o", out)
        return out
    return both(one, sources)


def everything(program, compiler, flags, folder):
    """One of the programs of this folder, with the library's sources."""
    run(sys.executable, "-B", HERE.parent / "platforms/structs.py", folder / "structs.h")
    run(sys.executable, "-B", ROOT / "tests/agree/catalogue/write_calls.py", HERE / "everything.c", folder / "calls.h")
    parts = [*SOURCES, HERE / "everything.c", HERE / f"{program}.c"]
    built = objects([compiler], ["-std=c11", "-DFER_STATIC", "-I", folder, *flags], folder, parts)
    run(compiler, *flags, *built, "-o", folder / program, "-lm", "-lpthread")
    return folder / program


def c_tests(compiler, flags, folder, library_compiler=None, only_public=False):
    """All C tests against a library built with these flags; name and command of each. The library is shared, and shows
    its private functions too."""
    built = objects(library_compiler or [compiler, "-std=c11"], ["-fPIC", "-fvisibility=default", *flags], folder)
    run(*(library_compiler or [compiler])[:1], "-shared", *flags, *built, "-o", folder / "libferrule.so", "-lm")
    vectors = ROOT / "tests/agree/vectors"
    given = {"vectors": sorted(vectors.glob("*.csv")), "decisions": [vectors / "decisions"]}
    private = {"numeric", "free_flow", "chance"} if only_public else set()

    def one(path):
        module = path.stem[len("test_"):]
        if module in private:
            return None
        made = folder / path.stem
        parts = [path, *([path.with_name("vector_rows.c")] if module == "vectors" else [])]
        run(compiler, "-std=c11", *flags, *EXACT, *INCLUDE, *parts, "-o", made, "-L", folder, "-lferrule", "-lcmocka", "-lm",
            "-lpthread")
        return module, [made, *given.get(module, [])]
    return [test for test in both(one, sorted((ROOT / "tests/unit").glob("test_*.c"))) if test]


def run_tests(tests, folder, before=(), seconds=900):
    """Runs them, each behind `before`."""
    environment = {**os.environ, "LD_LIBRARY_PATH": str(folder)}
    both(lambda test: run(*before, *test[1], seconds=seconds, env=environment), tests)
    return f"{len(tests)} test programs pass"


# ---- sanitizers -------------------------------------------------------------------------------------------------------

@check("sanitizers", short=True)
def threads(folder):
    """clang -fsanitize=thread: eight threads call all plural functions, the trials and every function on one row at once on
    shared const inputs; the bits are those of one thread"""
    return run(everything("threads", "clang", ["-O1", "-g", "-fsanitize=thread"], folder), 8, 2).strip()


@check("sanitizers", short=True)
def unwritten(folder):
    """clang -fsanitize=memory: the same calls, nothing is read that was not written"""
    flags = ["-O1", "-g", "-fsanitize=memory", "-fno-sanitize-recover=all"]
    return run(everything("threads", "clang", flags, folder), 1, 1).strip()


@check("sanitizers", short=True)
def modes(folder):
    """Rounding upwards, downwards, towards zero, and subnormal numbers as 0: every function comes back, no crash, no endless
    loop, figures within 1e-9; the last digits hold for rounding to nearest only"""
    return run(everything("modes", "gcc", ["-O2", "-frounding-math"], folder), seconds=120).strip().replace("\n", "; ")


# Random numbers by counting and whole numbers of many limbs wrap round on purpose, and cut off what is above a limb.
WRAPS = "\n".join(["[unsigned-integer-overflow|unsigned-shift-base|implicit-unsigned-integer-truncation]",
                   "src:*/lib/chance/random*.c", "src:*/lib/base/numeric/whole.h", "src:*/lib/base/numeric/decimal.c",
                   "src:*/checks/*", "src:*/platforms/draw.h", "src:*/tests/unit/*", "src:*/lib/chance/chance.c", ""])


def integer_flags(folder):
    listed = folder / "wraps.txt"
    listed.write_text(WRAPS)
    return ["-O1", "-g", "-fsanitize=undefined,integer,float-cast-overflow,implicit-conversion,nullability,local-bounds",
            "-fno-sanitize-recover=all", f"-fsanitize-ignorelist={listed}"]


@check("sanitizers", short=True)
def integers(folder):
    """clang -fsanitize=undefined,integer,float-cast-overflow,implicit-conversion,nullability,local-bounds: the same calls;
    left out are the files in which words wrap round on purpose (random numbers, exact decimals, merged sums)"""
    return run(everything("threads", "clang", integer_flags(folder), folder), 1, 1).strip()


@check("sanitizers")
def integers_in_tests(folder):
    """The same sanitizers in the library under all C tests; the tests' own random numbers wrap round, too"""
    tests = c_tests("clang", [*integer_flags(folder), "-w"], folder)
    return run_tests(tests, folder)


@check("sanitizers")
def memcheck(folder):
    """valgrind memcheck with full leak check over all C tests: no wrong access, nothing unwritten read, no leak"""
    tests = c_tests("gcc", ["-O1", "-g", "-w"], folder)
    valgrind = ["valgrind", "-q", "--error-exitcode=99", "--leak-check=full", "--show-leak-kinds=definite,indirect,possible",
                "--errors-for-leak-kinds=definite,indirect,possible", "--track-origins=yes"]
    # valgrind has no long double: what flow with ends free is compared with is not exact there, so only what valgrind finds counts
    inexact = [test for test in tests if test[0] == "free_flow"]
    run_tests([test for test in tests if test not in inexact], folder, valgrind, seconds=3000)
    run_tests(inexact, folder, ["sh", "-c", '"$@"; [ $? != 99 ]', "sh", *valgrind], seconds=3000)
    return f"{len(tests)} test programs pass"


@check("sanitizers")
def addresses(folder):
    """clang -fsanitize=address,undefined with leak check and use after return over all C tests"""
    flags = ["-O1", "-g", "-w", "-fsanitize=address,undefined", "-fno-sanitize-recover=all"]
    tests = c_tests("clang", flags, folder)
    os.environ["ASAN_OPTIONS"] = "detect_leaks=1:detect_stack_use_after_return=1:strict_string_checks=1"
    try:
        return run_tests(tests, folder)
    finally:
        del os.environ["ASAN_OPTIONS"]


@check("sanitizers")
def filled(folder):
    """gcc -ftrivial-auto-var-init=pattern and =zero in lib/, as builds that are made hard to attack use them: all C tests
    pass, so nothing unwritten decides, and the compiler's filling spoils nothing"""
    lines = []
    for fill in ("pattern", "zero"):
        place = folder / fill
        place.mkdir()
        filling = ["gcc", "-std=c11", f"-ftrivial-auto-var-init={fill}"]
        lines.append(f"{fill}: {run_tests(c_tests('gcc', ['-O2', '-w'], place, filling), place)}")
    return "; ".join(lines)


@check("sanitizers")
def races(folder):
    """valgrind helgrind over four threads of the same program"""
    program = everything("threads", "gcc", ["-O1", "-g"], folder)
    return run("valgrind", "-q", "--tool=helgrind", "--error-exitcode=99", program, 4, 1, seconds=3000).strip()


# ---- standards, compilers, levels ---------------------------------------------------------------------------------------

@check("static_analysis", short=True)
def standards(folder):
    """Warnings as errors (-Wall -Wextra -Wpedantic -Wconversion -Wshadow and prototypes): lib/ as C11, C17 and C2x with gcc
    and clang, lib/ as C++17 with g++ and clang++, every public header by itself as C11, C2x, C++11,
    C++17 and C++20"""
    work = [[compiler, f"-std={standard}", *WARNINGS, *STRICT_C, "-fsyntax-only", *SOURCES]
            for compiler, standard in itertools.product(("gcc", "clang"), ("c11", "c17", "c2x"))]
    work += [[compiler, "-x", "c++", "-std=c++17", *WARNINGS, *AS_CPP, "-fsyntax-only", *SOURCES] for compiler in ("g++", "clang++")]
    alone = [folder / f"{header.stem}.c" for header in HEADERS]
    for header, path in zip(HEADERS, alone):
        path.write_text(f"#include <ferrule/{header.name}>\nextern int nothing_else;\n")
    for compiler, standard in itertools.product(("gcc", "clang"), ("c11", "c2x")):
        work.append([compiler, f"-std={standard}", *WARNINGS, "-fsyntax-only", *alone])
    for compiler, standard in itertools.product(("g++", "clang++"), ("c++11", "c++17", "c++20")):
        work.append([compiler, "-x", "c++", f"-std={standard}", *WARNINGS, "-fsyntax-only", *alone])
    both(lambda words: run(*words, *INCLUDE), work)
    return f"{len(SOURCES)} sources and {len(HEADERS)} headers, {len(work)} combinations, no warning"


@check("static_analysis", short=True)
def fast_math(folder):
    """-Ofast, -ffast-math, -funsafe-math-optimizations and -ffinite-math-only are refused by an #error; without it every
    check of an argument against NaN would be gone"""
    refused = 0
    for compiler, flag in itertools.product(("gcc", "clang"), ("-Ofast", "-ffast-math", "-ffinite-math-only", "-funsafe-math-optimizations")):
        if compiler == "clang" and flag == "-funsafe-math-optimizations":
            continue  # clang does not say so to the program
        done = subprocess.run([compiler, "-std=c11", flag, *map(str, INCLUDE), "-fsyntax-only", ROOT / "lib/crimp/joint.c"], capture_output=True,
                              text=True, timeout=100)
        if done.returncode == 0 or "ferrule" not in done.stderr:
            raise Found(f"{compiler} {flag} is not refused\n{done.stderr}")
        refused += 1
    return f"{refused} combinations refused"


@check("static_analysis")
def levels(folder):
    """All C tests with gcc and clang at -O0, -O1, -O2, -O3, -Os, -O3 -march=native and with link-time optimisation"""
    lines = []
    for compiler in ("gcc", "clang"):
        for flags in (["-O0"], ["-O1"], ["-O2"], ["-O3"], ["-Os"], ["-O3", "-march=native"], ["-O2", "-flto"]):
            if compiler == "clang" and "-flto" in flags and not shutil.which("ld.lld"):
                flags = ["-O2", "-flto", "-fuse-ld=gold"] if gold_plugin() else None
            if flags is None:
                lines.append("clang -flto left out: neither lld nor the gold plugin is here")
                continue
            place = folder / f"{compiler}{''.join(flags)}".replace("=", "_")
            place.mkdir()
            lines.append(f"{compiler} {' '.join(flags)}: {run_tests(c_tests(compiler, [*flags, '-w'], place), place)}")
            print(f"  {lines[-1]}", flush=True)
    return "; ".join(lines)


def gold_plugin():
    return any(pathlib.Path("/usr/lib").glob("llvm-*/lib/LLVMgold.so"))


@check("static_analysis")
def as_cpp(folder):
    """lib/ compiled as C++17 by g++ and clang++ passes the C tests of all public modules"""
    for compiler, cpp in (("gcc", "g++"), ("clang", "clang++")):
        place = folder / cpp.replace("+", "p")
        place.mkdir()
        tests = c_tests(compiler, ["-O2", "-w"], place, [cpp, "-x", "c++", "-std=c++17"], only_public=True)
        result = run_tests(tests, place)
    return f"with both, {result}"


# ---- analysers -----------------------------------------------------------------------------------------------------------

@check("static_analysis", short=True)
def analyzer(folder):
    """gcc -fanalyzer over lib/ with every one of its findings an error"""
    def one(source):
        run("gcc", "-std=c11", "-O2", "-fanalyzer", "-fanalyzer-transitivity", "-Wall", "-Wextra", "-Werror", *EXACT, *INCLUDE, "-c",
            source, "-o", folder / f"{source.stem}.o")
    both(one, SOURCES)
    return f"{len(SOURCES)} sources, no finding"


@check("static_analysis")
def clang_analyzer(folder):
    """clang --analyze with the checkers core, deadcode, nullability, optin.portability, security.FloatLoopCounter, unix and
    the experimental alpha.core, through all calls"""
    # without ArrayBoundV2, which takes a count to be 0 or less and then above 0 all the same, and alpha.unix.cstring, which
    # has copies of no byte overflow
    checkers = ("core,deadcode,nullability,optin.portability,security.FloatLoopCounter,unix,alpha.core.BoolAssignment,"
                "alpha.core.CastSize,alpha.core.Conversion,alpha.core.IdenticalExpr,"
                "alpha.core.PointerArithm,alpha.core.PointerSub,alpha.core.SizeofPtr,alpha.core.TestAfterDivZero,"
                "alpha.security.ReturnPtrRange")

    def one(source):
        done = run("clang", "--analyze", "-std=c11", "-Xclang", f"-analyzer-checker={checkers}", "-Xclang", "-analyzer-output=text",
                   "-Xclang", "-analyzer-opt-analyze-nested-blocks", *EXACT, *INCLUDE, source, "-o", folder / f"{source.stem}.plist")
        if "warning:" in done:
            raise Found(done[-4000:])
    both(one, SOURCES)
    return f"{len(SOURCES)} sources, no finding"


# What cppcheck's --enable=all says besides, and why it is left out:
CPPCHECK_LEFT = {
    "missingIncludeSystem": "the C library's headers are not for it to check",
    "unusedFunction": "the functions of a library are called by others",
    "variableScope": "it does not see that a loop carries a variable from one round to the next",
    "bitwiseOnBoolean": "& between comparisons is meant where a loop is to become vector instructions: no branch",
    "unmatchedSuppression": "a suppression counts for the preset in which it is needed",
}


@check("static_analysis")
def cppcheck(folder):
    """cppcheck --enable=all --inconclusive over lib/; left out: headers of the C library, unused functions (others call
    them), scope of a variable that a loop carries on, & between comparisons (no branch is wanted there)"""
    run("cppcheck", "--std=c11", "--enable=all", "--inconclusive", "--inline-suppr", "--error-exitcode=1", "--quiet", "-j", 2,
        *[f"--suppress={name}" for name in CPPCHECK_LEFT], "-I", ROOT / "include", "-I", ROOT / "lib", ROOT / "lib")
    return "no finding"


@check("static_analysis")
def tidy(folder):
    """clang-tidy with the list in .clang-tidy (bugprone, cert, clang-analyzer, concurrency, misc, performance, portability,
    readability) over lib/; what is off stands there with its reason"""
    both(lambda source: run("clang-tidy", "--quiet", source, "--", "-std=c11", *INCLUDE), SOURCES)
    return f"{len(SOURCES)} sources, no finding"


# ---- the whole -------------------------------------------------------------------------------------------------------------

TITLES = {
    "sanitizers": ("Nothing read or written that should not be", 40, "threads unwritten modes integers",
                   "Every public function was called under the thread, memory, address, undefined-behaviour and integer sanitizers and "
                   "under valgrind. Nothing was read before it was written, nothing outside its array, nothing leaked, and threads "
                   "that call the same functions at once on the same inputs find the bits that one thread finds alone.",
                   "The preset `sanitize` (address, undefined behaviour) over all C tests; of this table:"),
    "static_analysis": ("Analysers, standards and compilers", 45, "standards fast_math analyzer",
                        "The sources of the library pass four analysers and the strict warnings of two compilers in six dialects of C and "
                        "C++; the C tests pass at every level of optimisation. Options that give up IEEE arithmetic are refused.",
                        "clang-tidy and cppcheck over lib/; of this table:"),
}


def write_records(results):
    """Rows of checks that were not run this time stay as they were."""
    for name, (title, order, short, said, in_tests) in TITLES.items():
        new = {check: [check, " ".join(CHECKS[check][0].__doc__.split()), result] for check, result in results
               if CHECKS[check][1] == name}
        path = record.FOLDER / f"{name}.json"
        old = {row[0]: row for row in json.loads(path.read_text(encoding="utf-8"))["rows"]} if path.exists() else {}
        rows = [(old | new)[check] for check in CHECKS if check in old | new and CHECKS[check][1] == name]
        if not new:
            continue
        left = [f"{check} failed." for check, _, result in rows if result.startswith("FOUND")]
        if name == "static_analysis":
            left.append("clang does not tell a program of -funsafe-math-optimizations alone: with clang that option is not refused.")
        record.write(name, title=title, order=order, said=said, in_tests=f"{in_tests} {short.replace(' ', ', ')}.",
                     commands=["/usr/bin/python3 tests/guard/checks/run.py --record"], left=" ".join(left),
                     tools=[record.tool(tool) for tool in ("gcc", "clang", "clang-tidy", "valgrind", "cppcheck")],
                     columns=["check", "what it does", "result"], rows=rows)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--short", action="store_true")
    parser.add_argument("--record", action="store_true")
    parser.add_argument("--list", action="store_true")
    parser.add_argument("names", nargs="*")
    arguments = parser.parse_args()
    chosen = arguments.names or [name for name, (_, _, short) in CHECKS.items() if short or not arguments.short]
    if arguments.list:
        for name, (function, _, short) in CHECKS.items():
            print(f"{name:18} {'short  ' if short else '       '}{' '.join(function.__doc__.split())}")
        return 0
    results = []
    for name in chosen:
        start = time.monotonic()
        with tempfile.TemporaryDirectory() as place:
            try:
                result = CHECKS[name][0](pathlib.Path(place))
            except Found as found:
                result = f"FOUND {found}"
        print(f"{name:18} {time.monotonic() - start:5.0f} s  {result}", flush=True)
        results.append((name, result))
    if arguments.record:
        write_records([(name, "FOUND something" if result.startswith("FOUND") else result) for name, result in results])
    return int(any(result.startswith("FOUND") for _, result in results))


if __name__ == "__main__":
    sys.exit(main())
