# SPDX-License-Identifier: MIT
"""Builds the library for other machines and compilers and compares what evaluate prints, bit for bit, with the reference.

Usage: run.py [--packages | --ci | --record | --build FOLDER | --jobs N] [TARGET...]     without targets: all

--packages  only print which Debian packages the targets need
--ci        the targets that tests/run.sh builds
--record    write tests/proof/records/platforms.json

Each target's program runs twice. With the same mathematical functions on every machine (same_math.c) it must print what the
reference prints, to the bit; where it does not, this fails. With the machine's own ones the differences are counted.
"""
import argparse
import collections
import json
import os
import pathlib
import subprocess
import sys
import time

from targets import BY_NAME, HERE, REFERENCE, TARGETS

ROOT = HERE.parents[1]
TABLES = ["tests/vectors/worked.csv", "tests/vectors/computed.csv"]
RECORD = ROOT / "tests" / "proof" / "records" / "platforms.json"
SECONDS = 900


class Failure(Exception):
    pass


def run(words, folder=ROOT, environment=None, must=True):
    result = subprocess.run([str(word) for word in words], cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                            timeout=SECONDS, env={**os.environ, **(environment or {})}, errors="replace", text=True)
    if must and result.returncode:
        raise Failure(f"{' '.join(map(str, words))}\n{(result.stdout + result.stderr)[-3000:]}")
    return result


def build(target, folder, jobs):
    """Configures and builds; a target that has to be refused is."""
    done = run(["cmake", "-S", HERE, "-B", folder, *target.settings], must=not target.refused)
    if not done.returncode:
        done = run(["cmake", "--build", folder, "-j", jobs, "--target", "evaluate", "evaluate_same"],
                   must=not target.refused)
    if target.refused:
        if not done.returncode or target.refused not in done.stdout + done.stderr:
            raise Failure(f"not refused with '{target.refused}':\n{(done.stdout + done.stderr)[-2000:]}")
        return False
    return True


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


def ordered(bits):
    """A double's bits as a whole number that grows with the double."""
    return bits if bits < 1 << 63 else (1 << 63) - bits


class Difference:
    def __init__(self):
        self.values = self.other = self.decisions = 0
        self.functions = collections.Counter()
        self.calls = collections.Counter()
        self.ulp = collections.Counter()

    def row(self, function, wanted, found):
        for a, b in zip(wanted, found):
            if len(a) == len(b) == 16 and a != b:
                ulp = abs(ordered(int(a, 16)) - ordered(int(b, 16)))
                self.ulp[function] = max(self.ulp[function], ulp)
                self.functions[function] += 1
            elif a != b:
                self.decisions += 1
                self.functions[function] += 1
        self.calls[function] += 1


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
                difference.calls[a[0]] += 1
            else:
                difference.row(a[0], a[1:], b[1:])
    return difference


def worst(difference, count=4):
    names = sorted(difference.functions, key=lambda name: -difference.ulp[name])[:count]
    return ", ".join(f"{name} {difference.ulp[name]}" for name in names)


def examine(target, build_folder, jobs, reference):
    folder = build_folder / (target.like or target.name)
    row = {"target": target.name, "about": target.about}
    if not target.like and not build(target, folder, jobs):
        return {**row, "refused": True}
    outputs = {}
    for program in ["evaluate_same", "evaluate"]:
        printed = outputs[program] = output(target, folder, program, *TABLES)
        (build_folder / f"{target.name}.{program}.txt").write_text(printed)
    outputs["layout"] = output(target, folder, "evaluate", "--layout")
    (build_folder / f"{target.name}.layout.txt").write_text(outputs["layout"])
    if not reference:
        reference.update(outputs)
        check_reference(outputs["evaluate"])
    same, own = (compare(reference[program], outputs[program]) for program in ["evaluate_same", "evaluate"])
    return {**row, "same": same, "own": own, "layout": outputs["layout"] == reference["layout"]}


def check_reference(printed):
    """Every function that is exported has been called."""
    called = {line.split(" ")[0] for line in printed.splitlines()}
    exported = {name.removeprefix("fer_") for name in (ROOT / "lib" / "exported_symbols.txt").read_text().split()}
    missing = exported - called - {"columns_of_joints"}
    if missing:
        raise Failure(f"evaluate.c does not call {', '.join(sorted(missing))}")


def said(row):
    if row.get("refused"):
        return "refused by the compiler, as it has to be"
    same, own = row["same"], row["own"]
    text = f"same functions: {'every bit' if not same.functions else f'DIFFERS: {dict(same.functions)}'}"
    if not own.functions:
        return f"{text}; own functions: every bit"
    return (f"{text}; own functions: {sum(own.functions.values())} of {own.values} values in {len(own.functions)} functions "
            f"differ, {own.decisions} of them not numbers; most units in the last place: {worst(own)}")


def version(compiler):
    text = run([compiler, "--version"]).stdout.splitlines()[0]
    return text.split(" (")[0] + " " + text.rsplit(" ", 1)[1] if "gcc" in text else text


def cells(row):
    if row.get("refused"):
        return [row["about"], "refused", "refused", "", ""]
    own = row["own"]
    if not own.functions:
        return [row["about"], "every bit", "every bit", "", ""]
    share = f"{sum(own.functions.values())} of {own.values}"
    return [row["about"], "every bit", share, str(len(own.functions)), worst(own)]


def record(rows, targets):
    versions = sorted({version(target.compiler) for target in targets if not target.like})
    values = next(row["own"].values for row in rows if "own" in row)
    RECORD.parent.mkdir(parents=True, exist_ok=True)
    RECORD.write_text(json.dumps({
        "title": "Same answer everywhere", "order": 50,
        "said": f"Every public function is called with the same inputs on each of these {len(rows)} machines and builds, and the "
                f"bits of {values} values are compared with those of gcc on x86-64. With the same exp, log, sin and the like "
                "on every machine, every value has the same bits: nothing else in the library depends on machine, compiler "
                "or flags. With the machine's own functions the counted values differ, by so many units in the last place.",
        "commands": ["sh tests/platforms/run.sh --record"],
        "in_tests": "gcc and clang at several levels, musl, i386",
        "date": time.strftime("%Y-%m-%d"), "tools": versions,
        "columns": ["machine and build", "same functions", "own functions: values that differ", "functions that differ",
                    "most units in the last place"],
        "rows": [cells(row) for row in rows], "left": ""}, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")


def main():
    parser = argparse.ArgumentParser()
    for option in ["--packages", "--ci", "--record"]:
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
            row = examine(target, options.build, options.jobs, reference)
            rows.append(row)
            if not row.get("refused") and row["same"].functions:
                failed.append(target.name)
            print(f"{target.name:14} {said(row)} ({time.time() - start:.0f} s)", flush=True)
        except (Failure, subprocess.TimeoutExpired) as trouble:
            failed.append(target.name)
            print(f"{target.name:14} FAILED\n{trouble}", flush=True)
    if failed:
        sys.exit(f"not the same: {', '.join(failed)}")
    if options.record:
        record(rows, wanted)


if __name__ == "__main__":
    main()
