# SPDX-License-Identifier: MIT
"""Builds the library for other machines and compilers and compares what evaluate prints, bit for bit, with the reference.

Usage: run.py [--packages] [--ci] [--record] [--resume] [--build FOLDER] [--jobs N] [TARGET...]     without targets: all

--packages  only print which Debian packages the targets need
--ci        the targets that tests/run.sh builds
--record    write tests/release/proof/records/platforms.json
--resume    what an earlier run found for the same sources is not done again

Each target's program runs twice. With the same mathematical functions on every machine (same_math.c) it must print what the
reference prints, to the bit; where it does not, this fails. With the machine's own ones the differences are counted.
"""
import argparse
import collections
import hashlib
import json
import os
import pathlib
import struct
import subprocess
import sys
import time

from targets import BY_NAME, HERE, REFERENCE, TARGETS

ROOT = HERE.parents[2]
sys.path[:0] = [str(ROOT / "tests/release/proof"), str(ROOT / "bindings" / "api")]
import record  # noqa: E402
import symbols  # noqa: E402

COLUMNS = ["machine and build", "same functions", "the system's functions", "functions that differ", "largest ratio",
           "largest difference of small values"]
TABLES = ["tests/agree/vectors/worked.csv", "tests/agree/vectors/computed.csv"]
SECONDS = 3600


class Failure(Exception):
    pass


def run(words, folder=ROOT, environment=None, must=True):
    result = subprocess.run([str(word) for word in words], cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                            timeout=SECONDS, env={**os.environ, **(environment or {})}, errors="replace", text=True)
    if must and result.returncode:
        raise Failure(f"{' '.join(map(str, words))}\n{(result.stdout + result.stderr)[-3000:]}")
    return result


def build(target, folder, jobs):
    run(["cmake", "-S", HERE, "-B", folder, *target.settings], environment=target.environment)
    programs = ["evaluate", "evaluate_same"] + (["evaluate_dll"] if target.program == ".exe" else [])
    run(["cmake", "--build", folder, "-j", jobs, "--target", *programs], environment=target.environment)


def check_refused(target):
    """Each source that computes is refused; those that hold words only need not be."""
    words_only = {"status.c", "caution.c", "words.c"}
    for source in sorted((ROOT / "lib").rglob("*.c")):
        command = [*target.refused.split(), "-Iinclude", "-Ilib", "-fsyntax-only", source]
        printed = run(command, must=False).stderr
        if source.name not in words_only and "#error" not in printed:
            raise Failure(f"{source.name} is not refused: {printed[-1000:]}")


def output(target, folder, program, *words):
    path = folder / (program + target.program)
    command = target.run.split()
    command = [str(path) if word == "{}" else word for word in command] if "{}" in command else [*command, str(path)]
    if command[-1].startswith("enable="):  # semihosting has its own way to hand over the words
        command[-1] += "".join(f",arg={word}" for word in words)
    else:
        command += words
    printed = run(command, environment=target.environment).stdout
    if not printed.endswith("end\n") and "--layout" not in words:
        raise Failure(f"{' '.join(command)} stopped before its end")
    return printed


SMALL = 1e-6


class Difference:
    """How two outputs differ. Small values are mostly probabilities and differences of larger numbers: for them the
    difference itself counts, for the others its ratio to the value."""

    def __init__(self, values=0, decisions=0, functions=(), ratio=(), small=0.0):
        self.values, self.decisions, self.small = values, decisions, small
        self.functions, self.ratio = collections.Counter(functions), collections.Counter(ratio)

    def value(self, function, one, other):
        self.functions[function] += 1
        if len(one) != 16 or len(other) != 16:
            self.decisions += 1
            return
        a, b = (struct.unpack(">d", bytes.fromhex(word))[0] for word in (one, other))
        if abs(a) < SMALL:
            self.small = max(self.small, abs(a - b))
        else:
            self.ratio[function] = max(self.ratio[function], abs(a - b) / abs(a))

    def row(self, function, wanted, found):
        for a, b in zip(wanted, found):
            if a != b:
                self.value(function, a, b)


def compare(wanted, found):
    """What differs, function by function. Lines that are not of the same shape are a failure of the comparison itself."""
    difference, one, other = Difference(), wanted.splitlines(), found.splitlines()
    if len(one) != len(other):
        raise Failure(f"{len(other)} lines, not {len(one)}")
    for a, b in zip(one, other):
        a, b = a.split(" "), b.split(" ")
        difference.values += len(a) - 1
        if a != b:
            if a[0] != b[0] or len(a) != len(b):
                difference.decisions += 1
                difference.functions[a[0]] += 1
            else:
                difference.row(a[0], a[1:], b[1:])
    return difference


def worst(difference, count=3):
    """The functions that differ most."""
    return ", ".join(f"{name} {ratio:.1e}" for name, ratio in difference.ratio.most_common(count))


def examine(target, build_folder, jobs, reference):
    folder = build_folder / (target.like or target.name)
    row = {"target": target.name, "about": target.about}
    if target.refused:
        check_refused(target)
        return {**row, "refused": True}
    if not target.like:
        build(target, folder, jobs)
    outputs = {}
    for program in ["evaluate_same", "evaluate"]:
        printed = outputs[program] = output(target, folder, program, *TABLES)
        (build_folder / f"{target.name}.{program}.txt").write_text(printed)
    if target.program == ".exe" and output(target, folder, "evaluate_dll", *TABLES) != outputs["evaluate"]:
        raise Failure("the library as a DLL gives other bits than as a part of the program")
    outputs["layout"] = output(target, folder, "evaluate", "--layout")
    (build_folder / f"{target.name}.layout.txt").write_text(outputs["layout"])
    if not reference:
        reference.update(outputs)
        check_reference(outputs["evaluate"])
    same, own = (compare(reference[program], outputs[program]) for program in ["evaluate_same", "evaluate"])
    return {**row, "same": same, "own": own, "layout": outputs["layout"] == reference["layout"]}


def sources():
    """One number for all that a comparison depends on."""
    digest = hashlib.sha256()
    for folder in ["include", "lib", "tests/guard/platforms", "tests/agree/vectors", "tests/unit", "tests/agree/catalogue"]:
        for path in sorted((ROOT / folder).rglob("*")):
            if path.suffix in {".c", ".h", ".txt", ".csv", ".cmake", ".ld"} or path.name in {"targets.py", "structs.py"} or path.parent.name == "catalogue" and path.suffix == ".py":
                digest.update(path.read_bytes())
    return digest.hexdigest()


def examine_once(target, options, reference):
    """As examine, or what an interrupted run found for the same sources."""
    kept, key = options.build / f"{target.name}.row.json", sources()
    if options.resume and target.name != REFERENCE and kept.exists():
        row = json.loads(kept.read_text(encoding="utf-8"))
        if row["sources"] == key:
            return {name: Difference(**value) if name in ("same", "own") else value for name, value in row.items()}
    row = examine(target, options.build, options.jobs, reference)
    if sources() != key:
        raise Failure("the sources were changed meanwhile")
    kept.write_text(json.dumps({**row, "sources": key}, default=vars), encoding="utf-8")
    return row


def check_reference(printed):
    """Every function that is exported has been called."""
    called = {line.split(" ")[0] for line in printed.splitlines()}
    exported = {name.removeprefix("fer_") for name in symbols.exported()}
    missing = exported - called - {"columns_of_joints"}
    if missing:
        raise Failure(f"neither evaluate.c nor the catalogue calls {', '.join(sorted(missing))}")


def said(row):
    if row.get("refused"):
        return "refused by the compiler, as it has to be"
    same, own = row["same"], row["own"]
    text = f"same functions: {'every bit' if not same.functions else f'DIFFERS: {dict(same.functions)}'}"
    if not own.functions:
        return f"{text}; own functions: every bit"
    return (f"{text}; own functions: {sum(own.functions.values())} of {own.values} values in {len(own.functions)} functions "
            f"differ, {own.decisions} of them not numbers; most: {worst(own)}; small values by {own.small:.1e}")


def cells(row):
    if row.get("refused"):
        return [row["about"], "refused", "refused", "", "", ""]
    same, own = row["same"], row["own"]
    first = "every bit" if not same.functions else f"{sum(same.functions.values())} differ"
    if not own.functions:
        return [row["about"], first, "every bit", "", "", ""]
    return [row["about"], first, f"{sum(own.functions.values())} differ", str(len(own.functions)), worst(own),
            f"{own.small:.1e}"]


def write_record(rows, targets):
    compilers = dict.fromkeys(target.compiler for target in targets if not target.like)
    values = next(row["own"].values for row in rows if "own" in row)
    layouts = [row["target"] for row in rows if "layout" in row and not row["layout"]]
    without = [target.name for target in TARGETS if target.name not in {row["target"] for row in rows}]
    record.write(
        "platforms", title="Same answer everywhere", order=50,
        said=f"Every public function is called with the same inputs on each of these {len(rows)} machines and builds, all rows of "
             f"the test vectors among them, and the bits of {values} values are compared with those of gcc on x86-64. With the "
             "same exp, log, sin and the like on every machine (tests/guard/platforms/same_math.c) every value has the same bits: "
             "nothing else in the library depends on machine, compiler or flags. With the system's own such functions so many "
             "values differ; the ratio to the value is given for values above 1e-6, the difference itself for smaller ones. No "
             "count, choice, text or status differs anywhere. Structs lie in memory in another way than on x86-64 on: "
             f"{', '.join(layouts) or 'none'}.",
        commands=["sh tests/guard/platforms/run.sh"], in_tests="gcc, clang, musl, i386 (step platforms)",
        tools=[record.tool(compiler) for compiler in compilers], columns=COLUMNS, rows=[cells(row) for row in rows],
        left="Windows runs under Wine, the other processors under QEMU: no real ones were at hand. GCC 12's software sum of "
             "doubles for Arm cores like the Cortex-M4 is not rightly rounded in rare cases (two of the values here); the first "
             "column has a right one in its place there. Compilers other than gcc and clang were not tried."
             + (f" Targets that were left out of this run: {', '.join(without)}." if without else ""))


def main():
    parser = argparse.ArgumentParser()
    for option in ["--packages", "--ci", "--record", "--resume"]:
        parser.add_argument(option, action="store_true")
    parser.add_argument("--build", type=pathlib.Path, default=ROOT / "build" / "platforms")
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("targets", nargs="*")
    options = parser.parse_args()
    wanted = [BY_NAME[name] for name in options.targets] or [t for t in TARGETS if t.ci or not options.ci]
    if options.packages:
        print(" ".join(dict.fromkeys(" ".join(target.packages for target in wanted).split())))
        return
    if REFERENCE not in options.targets and wanted[0].name != REFERENCE:
        wanted.insert(0, BY_NAME[REFERENCE])
    options.build.mkdir(parents=True, exist_ok=True)
    rows, reference, failed = [], {}, []
    for target in wanted:
        start = time.time()
        try:
            row = examine_once(target, options, reference)
            rows.append(row)
            if not row.get("refused") and (row["same"].functions or row["own"].decisions):
                failed.append(target.name)
            print(f"{target.name:14} {said(row)} ({time.time() - start:.0f} s)", flush=True)
        except (Failure, subprocess.TimeoutExpired) as trouble:
            failed.append(target.name)
            print(f"{target.name:14} FAILED\n{trouble}", flush=True)
    if failed:
        sys.exit(f"not the same: {', '.join(failed)}")
    if options.record:
        write_record(rows, wanted)


if __name__ == "__main__":
    main()
