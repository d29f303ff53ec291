# SPDX-License-Identifier: MIT
"""The library on bare microcontrollers: what it needs, how large it is, how much stack its functions take.

Usage: freestanding.py [--record]     needs gcc-arm-none-eabi and libnewlib-arm-none-eabi

Fails where an object holds data, calls anything but mathematical and memory functions (no heap, no stdio, no errno), where
a function calls itself, or where its stack is not known. Writes stack.csv beside this file with --record.
That it also runs there, and gives the same bits, is a matter of run.py cortex-m0 cortex-m4 cortex-m7.
"""
import collections
import csv
import os
import pathlib
import re
import subprocess
import sys

from targets import HERE

ROOT = HERE.parents[2]
sys.path[:0] = [str(ROOT / "tests/release/proof"), str(ROOT / "bindings" / "api")]
import record  # noqa: E402
import symbols  # noqa: E402

BUILD = ROOT / "build" / "freestanding"
STACK = HERE / "stack.csv"
CORES = {"Cortex-M0": ("cortex-m0", "-mfloat-abi=soft"),
         "Cortex-M4F": ("cortex-m4", "-mfpu=fpv4-sp-d16 -mfloat-abi=hard"),
         "Cortex-M7": ("cortex-m7", "-mfpu=fpv5-d16 -mfloat-abi=hard")}
MEMORY = {"memcpy", "memset", "memmove", "memcmp", "strlen", "strcmp"}
# What IEEE 754 fixes to the last bit, and what differs from one library of mathematical functions to the next.
EXACT = {"sqrt", "fabs", "floor", "ceil", "rint", "round", "trunc", "fmod", "remainder", "ldexp", "frexp", "copysign",
         "fmin", "fmax"}
FREE = {"exp", "expm1", "log", "log1p", "log2", "log10", "pow", "sin", "cos", "sincos", "atan2", "hypot", "erfc", "tgamma"}
# Functions that call themselves, and how often at most: for each of the six inputs that is not normal, and once more.
DEEPEST = {"above": 7, "list_breaks": 7}
EXAMPLES = {
    "crimp diameter of a joint, plain formula":
        "fer_length d; fer_joint j = {0}; (void)fer_crimp_diameter(&j, fer_percent(20), (fer_model){0}, &d); return (int)d.mm;",
    "choice of a die and dial setting":
        "fer_die_choice c; fer_dial s; fer_die d = {0}; fer_press p = {0}; "
        "(void)fer_choose_die(&d, 1, fer_mm(20), (fer_die_needs){0}, &c); "
        "(void)fer_dial_setting(&p, &d, fer_mm(20), &s); return (int)s.setting.mm + c.found;",
    "the whole set-up of a job":
        "fer_order o = {0}; fer_press p = {0}; fer_die d = {0}; static fer_setup s; "
        "(void)fer_plan_setup(&o, &p, &d, 1, &s); return (int)s.target.mm;",
}


def output(*words):
    result = subprocess.run([str(word) for word in words], text=True, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                            timeout=600)
    if result.returncode:
        sys.exit(f"{' '.join(map(str, words))}\n{(result.stdout + result.stderr)[-3000:]}")
    return result.stdout


def build(core):
    cpu, fpu = CORES[core]
    folder = BUILD / cpu
    output("cmake", "-S", HERE, "-B", folder, f"-DCMAKE_TOOLCHAIN_FILE={HERE}/toolchains/microcontroller.cmake",
           f"-DFERRULE_CPU={cpu}", f"-DFERRULE_FPU={fpu}", f"-DFERRULE_START={HERE}/start.c",
           "-DCMAKE_BUILD_TYPE=MinSizeRel", "-DFERRULE_MORE_FLAGS=-fcallgraph-info=su")
    output("cmake", "--build", folder, "-j", os.cpu_count() or 2, "--target", "ferrule_static")
    return sorted((folder / "ferrule" / "lib" / "CMakeFiles").rglob("*.c.obj"))


def name_of(path):
    return path.name.split(".")[0]


def sizes(path):
    """Code with constants, data, zeroed data."""
    return [int(word) for word in output("arm-none-eabi-size", path).splitlines()[1].split()[:3]]


def needs(paths):
    """{object: names that it needs and that no object of the library has}"""
    wanted, defined = {}, set()
    for path in paths:
        rows = [line.split() for line in output("arm-none-eabi-nm", path).splitlines()]
        defined |= {row[2] for row in rows if len(row) == 3}
        wanted[path] = {row[1] for row in rows if row[0] == "U"}
    return {path: names - defined for path, names in wanted.items()}


def check_needs(needed):
    runtime = re.compile(r"__aeabi_\w+|__gnu_thumb1_case_\w+|__(clz|ctz|popcount)\w+|_GLOBAL_OFFSET_TABLE_")
    for path, names in needed.items():
        foreign = {name for name in names - MEMORY - EXACT - FREE if not runtime.fullmatch(name)}
        if foreign:
            sys.exit(f"{name_of(path)} needs {', '.join(sorted(foreign))}")


# ---- stack -----------------------------------------------------------------------------------------------------------

class Graph:
    """Who calls whom, and how much stack each takes, from gcc's -fcallgraph-info=su."""

    def __init__(self, paths):
        self.own, self.file, self.calls = {}, {}, collections.defaultdict(set)
        for path in paths:
            text = path.with_suffix(".ci").read_text()
            for title, label in re.findall(r'node: \{ title: "([^"]+)" label: "([^"]*)"', text):
                stack = re.search(r"\\n(\d+) bytes \((\w+)\)", label)
                if stack:
                    if stack[2] != "static":
                        sys.exit(f"stack of {title} is {stack[2]}")
                    self.own[title], self.file[title] = int(stack[1]), name_of(path)
            for caller, called in re.findall(r'edge: \{ sourcename: "([^"]+)" targetname: "([^"]+)"', text):
                self.calls[caller].add(called)
        direct = {called for names in self.calls.values() for called in names}
        # a function that nobody calls by name and that is not public is called through a pointer
        self.pointed = collections.defaultdict(set)
        for title in self.own:
            if title not in direct and ":" in title:
                self.pointed[self.file[title]].add(title)
        self.neighbours = collections.defaultdict(set)
        for caller, names in self.calls.items():
            for called in names & self.own.keys():
                self.neighbours[self.file[called]].add(self.file[caller])
                self.neighbours[self.file[caller]].add(self.file[called])

    def targets(self, title):
        """Functions that may be called, those behind a pointer too: of the same file, otherwise of the files beside it."""
        for called in self.calls[title]:
            if called in self.own:
                yield called, False
            elif called == "__indirect_call":
                file = self.file[title]
                near = self.pointed[file] or set().union(*(self.pointed[other] for other in self.neighbours[file]))
                yield from ((name, True) for name in near)

    def worst(self, title, above=()):
        """Bytes of the deepest path from here, and the path."""
        deepest, path, word = 0, (), title.split(":")[-1]
        for called, by_pointer in self.targets(title):
            if called in above or called == title:
                if not by_pointer and not (called == title and word in DEEPEST):
                    sys.exit(f"{title} calls itself by way of {called}")
                continue
            bytes_below, below = self.worst(called, (*above, title))
            if bytes_below > deepest:
                deepest, path = bytes_below, below
        return self.own[title] * DEEPEST.get(word, 1) + deepest, (title, *path)


def stacks(paths):
    graph = Graph(paths)
    exported = list(symbols.exported())
    missing = [name for name in exported if name not in graph.own]
    if missing:
        sys.exit(f"no stack known of {missing}")
    return {name: (graph.file[name], *graph.worst(name)) for name in exported}


# ---- programs --------------------------------------------------------------------------------------------------------

def linked_size(core, body):
    """Code and constants of a program that does nothing but these calls, what it needs of the C library with it."""
    cpu, fpu = CORES[core]
    folder = BUILD / cpu
    source, program = folder / "program.c", folder / "program"
    source.write_text(f"#define FER_STATIC\n#include <ferrule/ferrule.h>\nint main(void) {{ {body} }}\n")
    output("arm-none-eabi-gcc", f"-mcpu={cpu}", "-mthumb", *fpu.split(), "-Os", "-ffunction-sections", "-fdata-sections",
           "--specs=nosys.specs", "--specs=nano.specs", "-Wl,--gc-sections", "-w", "-I", ROOT / "include", source,
           folder / "ferrule" / "lib" / "libferrule.a", "-lm", "-o", program)
    return sizes(program)[0]


def example_rows():
    empty = {core: linked_size(core, "return 0;") for core in CORES}
    for words, body in EXAMPLES.items():
        yield [f"linked: {words}", *(f"{linked_size(core, body) - empty[core]:,}" for core in CORES), "", "", ""]


def module_rows(built, needed, stack):
    """One row per source: sizes, deepest public function, mathematical functions that it needs."""
    first = next(iter(CORES))
    for path in built[first]:
        name = name_of(path)
        text = [f"{next(sizes(other)[0] for other in built[core] if name_of(other) == name):,}" for core in CORES]
        public = {f: rest for f, rest in stack["Cortex-M4F"].items() if rest[0] == name}
        deepest = max(public, key=lambda f: public[f][1], default=None)
        mathematics = sorted(needed[path] & (FREE | EXACT))
        yield [name, *text, f"{public[deepest][1]:,}" if deepest else "", deepest or "", " ".join(mathematics)]


def write_record(rows):
    record.write(
        "freestanding", title="On bare microcontrollers", order=60,
        said="Built with -ffreestanding for three Arm cores, as MinSizeRel (-Os throughout). No object has data or zeroed data, "
             "needs heap, stdio or errno, or calls anything but the mathematical functions named and memory functions. Code and "
             "constants in bytes, module by module; the stack of the deepest path from the module's deepest function on a Cortex-M4F, "
             "without that of the C library's own functions (every function: tests/guard/platforms/stack.csv). These are upper bounds: "
             "what is called through a pointer may be any function that the file or its neighbours so call. The two functions that "
             "call themselves (of the mixtures in uncertainties) do so seven times at most. Linked: by how much a program with these "
             "calls alone is larger than an empty one, the C library's functions with it. The programs that compare the bits run "
             "on all three under QEMU: see Same answer everywhere.",
        commands=["sh tests/guard/platforms/freestanding.sh"],
        tools=[record.tool("arm-none-eabi-gcc")],
        columns=["source", *(f"{core}, bytes" for core in CORES), "stack, bytes", "by", "mathematical functions"], rows=rows,
        left="QEMU's boards, not real ones; the Cortex-M0 build runs on QEMU's Cortex-M4, which knows all of its instructions, "
             "since QEMU's board with a Cortex-M0 has too little memory for the test program.")


def write_stack(stack):
    with STACK.open("w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file, lineterminator="\n")
        rows.writerow(["function", *(f"{core} bytes" for core in CORES), "deepest path on Cortex-M4F"])
        for function, (_, _, path) in stack["Cortex-M4F"].items():
            rows.writerow([function, *(stack[core][function][1] for core in CORES),
                           " > ".join(step.split(":")[-1] for step in path[1:])])


def main():
    built = {core: build(core) for core in CORES}
    for core, paths in built.items():
        for path in paths:
            if any(sizes(path)[1:]):
                sys.exit(f"{name_of(path)} on {core} holds data: {sizes(path)}")
        check_needs(needs(paths))
    stack = {core: stacks(paths) for core, paths in built.items()}
    needed = needs(built["Cortex-M4F"])
    first = {name_of(path): path for path in built["Cortex-M4F"]}
    by_name = {path: needed[first[name_of(path)]] for path in built[next(iter(CORES))]}
    rows = list(module_rows(built, by_name, stack))
    total = ["total", *(f"{sum(sizes(path)[0] for path in built[core]):,}" for core in CORES), "", "",
             " ".join(sorted(set().union(*needed.values()) & (FREE | EXACT)))]
    rows += [total, *example_rows()]
    for row in rows:
        print("  ".join(row))
    if "--record" in sys.argv:
        write_record(rows)
        write_stack(stack)


main()
