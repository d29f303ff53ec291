# SPDX-License-Identifier: MIT
"""Proves with Frama-C's Eva that a call of a public function has no undefined behaviour, whatever bits its inputs hold.

    run.py                all: rewrites functions.csv, and the record for the manual; begins with --broken
    run.py NAME...        those functions, or modules: rewrites their lines, and the record
    run.py --quick ...    the same, but only two precisions, and 20 s a function
    run.py --new          writes "not tried" for functions that have no line, and drops those that are gone; needs no Frama-C
    run.py --check        ends with 1 where functions.csv does not name every public function; needs no Frama-C
    run.py --broken       breaks the library in a few ways, and sees Eva find each
    run.py --show NAME    what Eva says of one function at the first precision

harness.py says what a call may be given; math.h what the C library is taken for. Eva works on lib/ as it is, but without the
vector instructions of one processor. A function is proven where, at one of the precisions, no alarm is left, the end of its harness
was reached, and what was called without its code is memory, strings and math.h alone. Nothing is asserted that Eva has not
proven itself. The column `note` is written by hand, and kept; `code` is a sum over lib/ and include/ as they were.
"""
import csv
import hashlib
import json
import os
import pathlib
import re
import select
import shutil
import subprocess
import sys

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[3]
BUILD = ROOT / "build/undefined"
TABLE = HERE / "functions.csv"
COLUMNS = ["function", "result", "precision", "seconds", "alarms", "reached, not named", "named, not reached", "code",
           "note"]
NEW = "added after the last run"

# Precisions of Eva, and seconds of processor time that a function may take at each.
USUAL, QUICK = ((2, 4, 9), 60), ((2, 4), 20)
QUIET = "CERT:EXP:46=inactive,parser:decimal-float=inactive,annot:missing-spec=active"
EXACT = ["ceil", "floor", "fmod", "round", "sqrt", "trunc"]
MEMORY = ["memcpy", "memmove", "memset", "strlen"]
OPTIONS = ["-eva", "-warn-special-float", "none", "-warn-invalid-pointer", "-eva-ilevel", "256", "-eva-split-return", "full",
           "-eva-unroll-recursive-calls", "10", "-eva-msg-key=-initial-state,-final-states", "-kernel-warn-key", QUIET,
           "-eva-no-builtins-auto", "-eva-builtin", ",".join(f"{name}:Frama_C_{name}" for name in EXACT + MEMORY)]
WITHOUT_CODE = {"Frama_C_make_unknown", "Frama_C_interval", "memcmp", "strcmp", *MEMORY}

# What is left out or changed, where, in which function Eva has to see it, and what it has to say.
BROKEN = [
    ("a null pointer is not refused", "crimp/remarks.c", "    FER_REQUIRE(setup, FER_ARGUMENT_MISSING);\n    FER_REQUIRE(is_to_confirm",
     "    FER_REQUIRE(is_to_confirm", "fer_confirm_remark", "out of bounds read"),
    ("an index is not checked", "crimp/faults.c", "(unsigned)field < field_count ?", "field != 0 ?", "fer_field_path", "out of bounds"),
    ("a shift by a negative number", "base/value.c", "number >= 0 && number < 64", "number < 64", "fer_remark_severity",
     "invalid RHS operand for shift"),
    ("a sum of signed numbers overflows", "chance/chance.c", "(int64_t)((uint64_t)sum->whole + (uint64_t)other->whole +",
     "(sum->whole + other->whole +", "fer_merge_tallies", "signed overflow"),
]


def share():
    return subprocess.run(["frama-c", "-print-share-path"], text=True, capture_output=True, check=True).stdout.strip()


def functions_of_math():
    return set(re.findall(r"extern double (\w+)\(", (HERE / "math.h").read_text(encoding="ascii")))


class Said:
    """What Eva said while it was at one function."""

    def __init__(self, text, is_done, seconds, precision):
        self.text, self.is_done, self.seconds, self.precision = text, is_done, seconds, precision
        alarms = re.findall(r"^\[eva:alarm\] (\S+): Warning:\s+(.*?)(?=^\[|\Z)", text, re.M | re.S)
        self.alarms = [f"{pathlib.Path(place).name}: {' '.join(what.split())}" for place, what in alarms]
        called = set(re.findall(r"using specification for function (\w+)", text))
        self.alarms += [f"without its code: {name}" for name in sorted(called - WITHOUT_CODE - functions_of_math())]
        self.alarms += re.findall(r"\[kernel:annot:missing-spec\].*|\[eva:garbled-mix.*?\].*", text)
        # calls of itself are followed so many deep; beyond, Eva says that it takes a specification instead
        deep = re.findall(r"^\[eva:recursion\] (.*?)(?=^\[|\Z)", text, re.M | re.S)
        self.alarms += [" ".join(what.split()) for what in deep if "specification" in what or "incomplete" in what]
        ends = re.findall(r"Frama_C_show_each_end:?([^\[]*)", text)
        self.has_ended = bool(ends)
        self.is_any_status = ".." in "".join(ends)
        self.statuses = {int(number) for end in ends for number in re.findall(r"\d+", end.replace("..", ""))}

    def is_proven(self):
        return self.is_done and self.has_ended and not self.alarms

    def result(self):
        if self.is_proven():
            return "proven"
        if not self.is_done:
            return f"not proven: more than {self.seconds // 10 * 10:.0f} s"
        return f"not proven: {len(self.alarms)} alarms" if self.alarms else "not proven: its end is not reached"


def processor_seconds(process):
    fields = pathlib.Path(f"/proc/{process.pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return int(fields[11]) / os.sysconf("SC_CLK_TCK")


def start(library, names, main, precision):
    """Eva on a copy of lib/ with the harnesses of some functions."""
    BUILD.mkdir(parents=True, exist_ok=True)
    harnesses = BUILD / "harnesses.c"
    subprocess.run(["/usr/bin/python3", "-B", HERE / "harness.py", harnesses, *names], check=True)
    flags = ["-nostdinc", f"-I{HERE}", f"-I{share()}/libc", f"-I{ROOT}/include", f"-I{library}", "-DFER_BUILDING",
             "-U__x86_64__", "-U__GNUC__"]  # these two: no vector instructions
    command = ["frama-c", "-c11", "-machdep", "gcc_x86_64", "-no-frama-c-stdlib", "-cpp-extra-args=" + " ".join(flags),
               harnesses, *sorted(library.rglob("*.c")), "-main", main, "-eva-precision", str(precision), *OPTIONS]
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)


def pieces(process):
    """What a process prints, as it comes; and empty text every second in which it prints nothing."""
    os.set_blocking(process.stdout.fileno(), False)
    while True:
        select.select([process.stdout], [], [], 1.0)
        piece = process.stdout.read()
        if piece == b"":
            return
        yield (piece or b"").decode(errors="replace")


def listen(library, names, precision, limit):
    """(name, what Eva said) of functions one after the other in one run: up to the first that has an alarm or takes too long.
    Eva is done with one before it begins the next, and says each alarm when it meets it."""
    process, text, began = start(library, names, "prove", precision), "", 0.0
    left, place = list(names), "Frama_C_show_each_begin_"
    marks = [f"{place}{name}" for name in names] + [f"{place}nothing"]
    try:
        for piece in pieces(process):
            text += piece
            if not began and marks[0] in text:
                began = processor_seconds(process)  # reading the library is no function's own
            while left and re.search(rf"{marks[-len(left) - 1]}\b", text) and (found := re.search(rf"{marks[-len(left)]}\b", text)):
                head, text = text[:found.start()], text[found.start():]
                now = processor_seconds(process)
                said = Said(head, True, now - began, precision)
                yield left.pop(0), said
                began = now
                if not said.is_proven():
                    return
            if left and began and processor_seconds(process) - began > limit:
                yield left.pop(0), Said(text, False, processor_seconds(process) - began, precision)
                return
    finally:
        process.kill()
        process.wait()
    if left:
        sys.exit(f"Frama-C ended early:\n{text}")


def ask(names, effort, library=ROOT / "lib"):
    """(name, what Eva says) of each function, at the lowest precision that leaves nothing; else where it leaves the fewest alarms."""
    left, (precisions, limit) = list(names), effort
    while left:
        doubtful = []
        for name, said in listen(library, left[:], precisions[0], limit):
            left.remove(name)
            if said.is_proven() or not said.is_done:
                yield name, said
            else:
                doubtful = [said]
        for precision in precisions[1:] if doubtful else ():
            doubtful += [said for _, said in listen(library, [name], precision, limit)]
            if doubtful[-1].is_proven() or not doubtful[-1].is_done:
                break
        if doubtful:
            yield name, min(doubtful, key=lambda s: (not s.is_done, not s.has_ended, len(s.alarms)))


# ---- can it find anything? ------------------------------------------------------------------------------------------------

def break_library():
    """Each change of BROKEN alone, in a copy of lib/; ends the program where Eva does not see it."""
    import harness
    for number, (what, where, old, new, name, wanted) in enumerate(BROKEN):
        folder = BUILD / f"broken_{number}"
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(ROOT / "lib", folder / "lib")
        path = folder / "lib" / where
        text = path.read_text(encoding="utf-8")
        if text.count(old) != 1:
            sys.exit(f"BROKEN: {where} does not have once: {old}")
        path.write_text(text.replace(old, new), encoding="utf-8")
        (_, said), = listen(folder / "lib", [name], USUAL[0][0], USUAL[1])
        if said.is_proven() or not any(wanted in alarm for alarm in said.alarms):
            sys.exit(f"{what}, and Eva does not say '{wanted}' of {name}:\n{said.text}")
        print(f"seen: {what} ({name})", flush=True)
    text = start(ROOT / "lib", ["fer_mm"], "probe_math", USUAL[0][0]).communicate()[0].decode()
    hidden = [name for name in harness.probe()[1] if f"show_each_nan_{name}" not in text]
    if hidden:
        sys.exit(f"math.h hides what follows a NaN of {', '.join(hidden)}")
    for folder in BUILD.glob("broken_*"):
        shutil.rmtree(folder)


# ---- the table, and the record ---------------------------------------------------------------------------------------------

def described():
    return json.loads((ROOT / "bindings/api/api.json").read_text(encoding="utf-8"))


def code():
    """A sum over the sources, by which one sees what they were when a function was looked at."""
    total = hashlib.sha256()
    for path in sorted([*(ROOT / "lib").rglob("*.[ch]"), *(ROOT / "include").rglob("*.h")]):
        total.update(path.read_bytes())
    return total.hexdigest()[:8]


def read_table():
    with TABLE.open(encoding="utf-8", newline="") as file:
        return {row["function"]: dict.fromkeys(COLUMNS, "") | row for row in csv.DictReader(file)}


def write_table(rows):
    with TABLE.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, COLUMNS, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows[f["name"]] for f in described()["functions"] if f["name"] in rows)


def line_of(name, said, own, allowed, numbers, of, note):
    """The line of a function. own: the statuses that its comment names; allowed: those too that these speak of; None where any is."""
    line = dict.fromkeys(COLUMNS, "") | {
        "function": name, "result": said.result(), "precision": said.precision, "seconds": f"{said.seconds:.1f}",
        "alarms": "; ".join(said.alarms), "code": of, "note": note.replace(NEW, "").strip("; ")}
    if allowed is not None and said.has_ended and not said.is_any_status:
        reached = {numbers[number] for number in said.statuses}
        line["reached, not named"] = " ".join(sorted(reached - allowed))
        line["named, not reached"] = " ".join(sorted(own - reached))
    return line


def add_new(rows):
    """Lines for functions that have none."""
    for f in described()["functions"]:
        rows.setdefault(f["name"], dict.fromkeys(COLUMNS, "") | {"function": f["name"], "result": "not tried", "note": NEW})
    return rows


def check():
    names, rows = [f["name"] for f in described()["functions"]], read_table()
    wrong = [f"{name} has no line" for name in names if name not in rows]
    wrong += [f"{name} is no public function" for name in rows if name not in names]
    wrong += [f"{name} is {row['result']}, and no note says why" for name, row in rows.items() if row["result"] != "proven" and not row["note"]]
    if wrong:
        sys.exit("\n".join(wrong) + "\nfunctions.csv: /usr/bin/python3 -B tests/release/proof/undefined/run.py --new")
    print(f"{len(rows)} functions, {sum(row['result'] == 'proven' for row in rows.values())} of them proven")


def write_record(rows):
    sys.path.insert(0, str(HERE.parent))
    import record
    modules = [m for m in described()["modules"] if m["name"]]
    table = []
    for module in modules:
        names = [f["name"] for f in described()["functions"] if f["header"] == module["header"]]
        proven = [name for name in names if rows[name]["result"] == "proven"]
        others = [name for name in names if name not in proven]
        if names:
            seconds = sum(float(rows[name]["seconds"] or 0) for name in proven)
            table.append([module["name"], str(len(names)), str(len(proven)), f"{seconds:.0f}", " ".join(others)])
    count, of = sum(row["result"] == "proven" for row in rows.values()), code()
    older = sum(row["result"] == "proven" and row["code"] != of for row in rows.values())
    record.write(
        "undefined", title="No undefined behaviour", order=26,
        said=f"{count} of {len(rows)} public functions: no call has undefined behaviour (a pointer or index out of bounds, what was not written "
             "is read, a signed number overflows, a double is no integer of its type, a shift is too wide), proven with Frama-C's Eva for every input of this "
             "kind: any bits in numbers and structs, each pointer null or to one value, lists and places of 0 to 3 elements, text of up to "
             "8 bytes. The mathematical functions of the C library may return anything, but for ceil, floor, fmod, round, sqrt and trunc, which are exact. Proven "
             "means that no alarm is left and nothing was assumed that Eva did not prove. The checker is tried first: it has to find a null "
             "pointer, an index, a shift and an overflow that were put in. Function by function, with precision, time, alarms, and the statuses reached: "
             "tests/release/proof/undefined/functions.csv.",
        commands=["sh tests/release/proof/undefined/run.sh"],
        tools=[record.tool("frama-c", "-version")],
        columns=["module", "functions", "proven", "seconds", "not proven or not tried"], rows=table,
        left=(f"{older} of the {count} were looked at before the last change of any source (column code), and not again. " if older else "") +
             "The functions of the last column: not tried yet, or Eva leaves alarms that may be none, or takes too long; functions.csv says "
             "which. Not looked at: the vector rows of bulk and chance, lists and text that "
             "are longer, steps of columns, what happens between threads, unsequenced accesses (left to the compilers' warnings). What the compiler makes of the code is not "
             "looked at either; the sanitizers look at that.")


def chosen(word):
    """The function or the functions of the module of this name; all where there is no word."""
    found = [f["name"] for f in described()["functions"] if word in ("", f["name"], pathlib.Path(f["header"]).stem)]
    return found or sys.exit(f"there is no function or module {word}")


def prove(names, effort):
    import harness
    api = harness.describe.Api()
    allowed = harness.named_statuses(api)
    own = {f["name"]: {s["name"] for s in f.get("statuses", [])} for f in described()["functions"]}
    numbers = {w["number"]: w["name"] for e in described()["enums"] if e["name"] == "fer_status" for w in e["words"]}
    rows, of = add_new(read_table() if TABLE.exists() else {}), code()
    for name, said in ask(names, effort):
        rows[name] = line_of(name, said, own[name], allowed.get(name), numbers, of, rows[name]["note"])
        write_table(rows)
        print(f"{name:34}{said.result():28} precision {said.precision}  {said.seconds:5.1f} s", flush=True)
    write_record(rows)


def main():
    sys.path.insert(0, str(HERE))
    words = sys.argv[1:]
    if words == ["--check"]:
        check()
    elif words == ["--new"]:
        write_table(add_new(read_table() if TABLE.exists() else {}))
    elif words[:1] == ["--show"]:
        print(start(ROOT / "lib", words[1:], "prove", USUAL[0][0]).communicate()[0].decode())
    elif words == ["--broken"]:
        break_library()
    else:
        effort = QUICK if "--quick" in words else USUAL
        words = [word for word in words if word != "--quick"]
        if not words:
            break_library()
        prove([name for word in words or [""] for name in chosen(word)], effort)


if __name__ == "__main__":
    main()
