#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Changes lib/ at one place at a time, by rule, and looks whether a C test fails.

    mutate.py [--count N] [--seed TEXT] [--lowest PERCENT] [--conditions] [--again] [--add] [--jobs N] [--write]
              [--record] [FILE...]

FILE such as crimp/forming.c or base/numeric/pair.h; none: all.

Rules: an operator becomes its opposite, a comparison moves by its edge or turns round, && becomes ||, a part of a
condition is always or never so, a constant becomes another, two arguments change places, a check is dropped, a condition
is negated, a minus is lost. Of all places N are drawn (350), each file in proportion to its places. A mutant is killed
when the tests of its module, the shared tables or one of the other quick C tests fails, hangs or crashes, or valgrind, the
address or the undefined-behaviour sanitizer speaks.

--again: only what survived the last time, after tests were added; the figures count the others as they were found then.
--add: what these files give is added to what the table says of the others, so that a long run may be made in shares.
--conditions: every part of every && and ||, once always so and once never so, and nothing else (N of them where --count is
given): each of them is seen to decide by itself. --write: writes mutants.csv (conditions.csv) beside this file, one line per survivor. --record: the figures,
to tests/release/proof/records.

Survivors that no test can kill, because they mean the same, are in equivalent.csv with the reason; exit status 1 where
less than PERCENT (95) of the others are killed. The tree itself is never touched.
"""
import argparse
import concurrent.futures
import csv
import datetime
import json
import pathlib
import random
import re
import shutil
import subprocess
import sys
import tempfile
import threading

ROOT = pathlib.Path(__file__).resolve().parents[3]
sys.path.insert(0, str(ROOT / "tests/release/proof"))
import record  # noqa: E402

HERE = pathlib.Path(__file__).parent
UNSEEN = "no test sees it yet"
FLAGS = ["-std=c11", "-O1", "-w", "-fPIC", "-ffp-contract=off", "-DFER_BUILDING", "-fvisibility=default"]
SANITIZE = ["-fsanitize=address,undefined", "-fno-sanitize-recover=all"]
# what lib/ never writes is then nothing sensible: seen by results where valgrind would take a minute
FILLED = ["-ftrivial-auto-var-init=pattern"]
BATCH = ("batch", "batch_numeric", "capability", "chart", "gauge", "sampling", "vectors", "decisions")
SLOW = ("text", "chance")  # run for their own files only
SLOW_IN_VALGRIND = (*SLOW, "bulk", "lobe")
OWN = {"base/numeric/decimal.c": "text", "base/numeric/decimal.h": "text", "base/numeric/whole.h": "text", "chance/random.c": "chance",
       "chance/random_wide.c": "chance", "base/numeric/mixture.c": "uncertainties", "base/numeric/quadrature.c": "conformity",
       "base/numeric/line.c": "adjust", "base/numeric/angle.c": "lobe", "base/numeric/pair.h": "numeric", "base/numeric/moments.c": "reading", "crimp/tube.h": "forming", "crimp/joint_private.h": "joint",
       "base/numeric/special.c": "conformity", "base/numeric/processor.h": "bulk", "bulk/plain_rows.c": "bulk", "bulk/plain_rows.h": "bulk",
       **{f"batch/{name}": "capability" for name in ("index.c", "normality.c", "shares.c", "showing.c", "sample.c")},
       **{f"batch/{name}": "sampling" for name in ("stages.c", "measured.c", "bursts.c", "numeric/counts.c", "numeric/weibull.c")},
       **{f"batch/{name}": "gauge" for name in ("agreement.c", "blocks.c")},
       **{f"batch/{name}": "chart" for name in ("chart_level.c", "chart_points.c", "chart_runs.c", "press_level.c", "chart_private.h",
                                                "numeric/rule_chain.c", "numeric/run_length.c")},
       **{f"batch/numeric/{name}.c": "batch_numeric" for name in ("beta", "gamma", "mean_tail", "noncentral", "ranges", "tolerance")},
       "base/numeric/zone.c": "conformity", "base/numeric/zone.h": "conformity", "base/value.c": "numeric",
       "base/value_private.h": "press", "crimp/die_private.h": "die", "crimp/uncertainties_private.h": "uncertainties"}
COMMUTATIVE = ("fmax", "fmin", "hypot", "fer_pair_add", "fer_pair_multiply", "fer_pair_product", "fer_pair_sum")
LITERAL = r"(?<![\w.])(\d+\.\d+(?:e[-+]?\d+)?|\d+)(?![\w.])"
COMPARISON = r"\([^&|]* (?:<|>|<=|>=|==) [^&|]*\)"
BRANCHLESS = rf"{COMPARISON} [&|](?= |$)|(?<= [&|] ){COMPARISON}|\) &$"
OPERATORS = [("+", "-"), ("-", "+"), ("*", "/"), ("/", "*"), ("<", "<="), ("<=", "<"), (">", ">="), (">=", ">"), ("<", ">"),
             (">", "<"), ("==", "!="), ("!=", "=="), ("&&", "||"), ("||", "&&"), ("+=", "-="), ("-=", "+=")]


def other_constant(text):
    if "." not in text and "e" not in text:
        return str(int(text) + 1)
    return {"0.0": "1.0", "1.0": "2.0"}.get(text, repr(float(text) * 1.01))


def part_from(line, place, step, joins):
    """Where the part of a condition ends that begins beside an operator, going left or right; None: on another line."""
    depth, opening = 0, "(" if step > 0 else ")"
    after = tuple(f" {sign} " for sign in (*joins, "?"))
    while 0 <= place < len(line):
        sign = line[place]
        if sign in "()":
            depth += 1 if sign == opening else -1
            if depth < 0:
                return place
        if depth == 0:
            rest = line[place:] if step > 0 else line[:place + 1]
            if step > 0 and (rest.startswith(after) or rest in (" " + join for join in joins) or sign in ",;"):
                return place
            if step < 0 and (rest.endswith((*after, " = ", "return ", ", ", "; ", "{")) or not rest.strip()):
                return place
        place += step
    return None


def parts_of(line, before=""):
    """Begin and end of each part of a && or ||, which may be at the end of the line before; also of & and | between
    comparisons, where there is to be no branch. A part that itself stands on two lines is left out, but not the parts that
    it is made of."""
    found, joins = set(), ("&&", "||")
    if re.search(BRANCHLESS, line) or re.search(r" [&|]$", before):
        joins = (*joins, "&", "|")
    if before.endswith(tuple(" " + join for join in joins)):
        begin = len(line) - len(line.lstrip())
        found.add((begin, part_from(line, begin, 1, joins) or len(line)))
    for operator in re.finditer(rf" ({'|'.join(map(re.escape, joins))})(?= |$)", line):
        begin = part_from(line, operator.start() - 1, -1, joins)
        if begin is not None:
            found.add((begin + 1, operator.start()))
        end = part_from(line, operator.end() + 1, 1, joins)
        if end is not None:
            found.add((operator.end() + 1, end))
    return sorted(part for part in found if line[part[0]:part[1]].count("(") == line[part[0]:part[1]].count(")"))


def conditions_of(line, before=""):
    """Each part of a condition, always and never so."""
    for begin, end in parts_of(line, before):
        if line[begin:end].strip() and line[begin:end] not in ("0", "1"):
            yield f"{line[begin:end]} always", f"{line[:begin]}1{line[end:]}"
            yield f"{line[begin:end]} never", f"{line[:begin]}0{line[end:]}"


def changes_of(line, before=""):
    """What a line of code may become, as (rule, new line)."""
    yield from conditions_of(line, before)
    for old, new in OPERATORS:
        for place in re.finditer(rf"(?<= ){re.escape(old)}(?= )", line):
            yield f"{old} to {new}", line[:place.start()] + new + line[place.end():]
    for place in re.finditer(LITERAL, line):
        new = other_constant(place.group(1))
        yield f"{place.group(1)} to {new}", line[:place.start()] + new + line[place.end():]
    for place in re.finditer(r"(\w+)\((&?[\w.>-]+), (&?[\w.>-]+)([,)])", line):
        name, first, second, end = place.groups()
        if first != second and name not in COMMUTATIVE:
            yield "arguments swapped", f"{line[:place.start()]}{name}({second}, {first}{end}{line[place.end():]}"
    if re.match(r"\s+FER_REQUIRE\(.*\);$", line):
        yield "check dropped", ""
    if re.match(r"\s+FER_TRY\((.*)\);$", line):
        yield "failure ignored", re.sub(r"FER_TRY\((.*)\);$", r"(void)\1;", line)
    if re.match(r"\s+(\} else )?if \(.*\) \{$", line):
        yield "condition negated", re.sub(r"if \((.*)\) \{$", r"if (!(\1)) {", line)
    for place in re.finditer(r"(?<=[(=?:,] )-(?=[a-z0-9])|(?<=\()-(?=[a-z0-9])|(?<=return )-(?=[a-z0-9])", line):
        yield "minus lost", line[:place.start()] + line[place.end():]


def mutants_of(name, changes=changes_of):
    """All changes of a file: (file, number of the line, rule, old line, new line)."""
    lines = (ROOT / "lib" / name).read_text(encoding="utf-8").splitlines()
    comment = False
    for number, (before, line) in enumerate(zip(["", *lines], lines), 1):
        starts = line.strip().startswith("/*")
        code = re.sub(r"/\*.*?\*/", lambda found: " " * len(found.group()), line)
        comment = (comment or starts) and "*/" not in line
        if comment or starts or not line.startswith("    ") or line.strip().startswith(("*", "#")):
            continue
        for rule, new in changes(line, before):
            if code.strip() and not (line != code and new[:line.find("/*")] == line[:line.find("/*")]):
                yield name, number, rule, line, new


def draw(files, count, seed, changes=changes_of):
    """A sample, each file in proportion, always the same for the same sources and seed."""
    everything = {name: list(mutants_of(name, changes)) for name in files}
    total = sum(map(len, everything.values()))
    chosen = []
    for name, mutants in everything.items():
        number = min(len(mutants), max(1, round(count * len(mutants) / total)))
        chosen += random.Random(f"{seed} {name}").sample(mutants, number) if mutants else []
    return chosen, total


def with_parts(path):
    """A test's source and those beside it that it is linked with."""
    return [path, *([path.with_name("vector_rows.c")] if path.stem == "test_vectors" else [])]


class Bench:
    """Objects and test programs in a folder of their own."""

    def __init__(self, folder, more=(), of_library=(), only=None):
        self.folder = folder
        self.flags, self.of_library = [*FLAGS, *more], of_library
        shutil.copytree(ROOT / "lib", folder / "lib")
        shutil.copytree(ROOT / "include", folder / "include")
        self.sources = sorted(str(path.relative_to(folder / "lib")) for path in (folder / "lib").rglob("*.c"))
        self.parts = {source: self.depends(source) for source in self.sources}
        for source in self.sources:
            assert self.compile(folder / "lib", source, folder), source
        assert self.link(folder, folder, [])
        self.tests, self.test_parts = [], {}
        vectors = ROOT / "tests/agree/vectors"
        given = {"vectors": list(map(str, sorted(vectors.glob("*.csv")))), "decisions": [str(vectors / "decisions")]}
        for path in sorted((ROOT / "tests/unit").glob("test_*.c")):
            module = path.stem[len("test_"):]
            if only and module not in only:
                continue
            assert self.compile_test(folder / "lib", path, folder), path
            self.test_parts[module] = self.depends(path)
            self.tests.append((module, [str(folder / path.stem), *given.get(module, [])]))
            assert self.passes(folder, module, 300), f"test_{module} fails without a change"

    @staticmethod
    def run(command, seconds, **options):
        try:
            return subprocess.run([str(word) for word in command], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                                  timeout=seconds, **options).returncode
        except subprocess.TimeoutExpired:
            return -1

    def depends(self, source):
        found = subprocess.run(["gcc", *self.flags, "-I", self.folder / "include", "-I", self.folder / "lib", "-MM",
                                self.folder / "lib" / source], capture_output=True, text=True, check=True).stdout
        return {str(pathlib.Path(part).relative_to(self.folder / "lib"))
                for part in re.findall(rf"{self.folder}/lib/\S+", found)}

    def compile(self, library, source, out):
        return self.run(["gcc", *self.flags, *self.of_library, "-I", self.folder / "include", "-I", library, "-c", library / source, "-o",
                         out / (source.replace("/", "_") + ".o")], 300) == 0

    def compile_test(self, library, path, out):
        """path: the test's source, in the tree."""
        return self.run(["gcc", *self.flags, "-I", self.folder / "include", "-I", library, *with_parts(path), "-o", out / path.stem,
                         "-L", self.folder, "-lferrule", "-lcmocka", "-lm", "-lpthread"], 300) == 0

    def link(self, out, fallback, changed):
        objects = [(out if source in changed else fallback) / (source.replace("/", "_") + ".o") for source in self.sources]
        return self.run(["gcc", "-shared", *self.flags, "-o", out / "libferrule.so", *objects, "-lm"], 300) == 0

    def command(self, out, module):
        """A test that was compiled anew for a mutant goes before."""
        program, *tables = next(command for name, command in self.tests if name == module)
        anew = out / pathlib.Path(program).name
        return [str(anew) if anew.exists() else program, *tables]

    def passes(self, out, module, seconds):
        command = self.command(out, module)
        return self.run(command, seconds, env={"LD_LIBRARY_PATH": str(out), "ASAN_OPTIONS": "detect_leaks=0"}) == 0

    def is_clean(self, out, module):
        """Whether valgrind sees no use of what was never written; True also where it takes too long."""
        command = self.command(out, module)
        valgrind = ["valgrind", "-q", "--error-exitcode=99", "--trace-children=no", *command]
        return self.run(valgrind, 120, env={"LD_LIBRARY_PATH": str(out), "PATH": "/usr/bin:/bin"}) != 99

    def order(self, name, few):
        own = OWN.get(name, pathlib.Path(name).stem)
        rest = [] if few else [module for module, _ in self.tests if module not in SLOW + (own, "vectors", "decisions")]
        if name.startswith("batch/"):  # nothing stands on it, so that only its own tests can tell
            rest = [module for module in rest if module in BATCH]
        return [module for module in [own, "vectors", "decisions", *rest] if module in dict(self.tests)]

    def verdict(self, mutant, few=False, memory=False):
        """The test that kills it; None for a survivor; "" where it does not compile. few: its module's and the shared tables
        only; memory: its module's under valgrind only."""
        name, number, _, old, new = mutant
        with tempfile.TemporaryDirectory(dir=self.folder) as place:
            out = pathlib.Path(place)
            shutil.copytree(self.folder / "lib", out / "lib")
            path = out / "lib" / name
            lines = path.read_text(encoding="utf-8").splitlines()
            assert lines[number - 1] == old
            lines[number - 1] = new
            path.write_text("\n".join(lines) + "\n", encoding="utf-8")
            changed = [source for source in self.sources if name in self.parts[source]]
            if not all(self.compile(out / "lib", source, out) for source in changed) or not self.link(out, self.folder, changed):
                return ""
            inside = [module for module, parts in self.test_parts.items() if name in parts]  # a private header
            if not all(self.compile_test(out / "lib", ROOT / f"tests/unit/test_{module}.c", out) for module in inside):
                return ""
            if memory:
                own = self.order(name, True)[:1]
                return f"{own[0]}, valgrind" if own and own[0] not in SLOW_IN_VALGRIND and not self.is_clean(out, own[0]) else None
            return next((module for module in self.order(name, few) if not self.passes(out, module, 60)), None)


def known_equivalents():
    """Reasons, by file, old line and rule."""
    with (HERE / "equivalent.csv").open(encoding="utf-8") as file:
        return {(row["file"], row["line"], row["rule"]): row["reason"] for row in csv.DictReader(file)}


def write(survivors, figures, table):
    """One line per survivor, then the figures."""
    with (HERE / table).open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file, lineterminator="\n")
        rows.writerow(["file", "at", "line", "rule", "becomes", "why it survives"])
        for (name, number, rule, old, new), reason in survivors:
            rows.writerow([name, number, old.strip(), rule, new.strip() or "nothing", reason or UNSEEN])
        rows.writerow([])
        rows.writerow([sentence(figures)])
        rows.writerow([json.dumps(figures)])


def sentence(figures):
    same, otherwise = figures["same"], figures["unseen"]
    return (f"{figures['tried']} of {figures['total']} mutants tried, {figures['broken']} do not compile, {figures['killed']} killed, {same} "
            f"survive because they mean the same, {otherwise} survive otherwise: {share_of(figures):.1f} % killed (seed {figures['seed']}, "
            f"{figures['date']})")


def share_of(figures):
    counted = figures["killed"] + figures["unseen"]
    return 100.0 * figures["killed"] / counted if counted else 100.0


def survivors_of(table):
    """What survived when the table was written, where it stands now; and the figures of that run. A line that is gone is
    left out, there too: it can no longer be changed."""
    with (HERE / table).open(encoding="utf-8") as file:
        rows = list(csv.reader(file))
    figures, found = json.loads(rows[-1][0]), []
    for name, number, old, rule, new, _ in rows[1:-3]:
        lines = (ROOT / "lib" / name).read_text(encoding="utf-8").splitlines()
        places = [i for i, line in enumerate(lines, 1) if line.strip() == old]
        if not places:
            print(f"gone      {name}:{number}: {old}")
            figures["tried"] -= 1
            figures["total"] -= 1
            continue
        at = min(places, key=lambda i: abs(i - int(number)))
        indent = lines[at - 1][:len(lines[at - 1]) - len(lines[at - 1].lstrip())]
        found.append((name, at, rule, lines[at - 1], "" if new == "nothing" else indent + new))
    return found, figures


def write_record(figures, conditions):
    """Both kinds of run in one record; what was not run this time stays as it was."""
    path = record.FOLDER / "mutation.json"
    kinds = ("changes drawn from all rules", "every part of every condition, always and never so")
    old = {row[0]: row for row in json.loads(path.read_text(encoding="utf-8"))["rows"] if row[0] in kinds} if path.exists() else {}
    kind = kinds[bool(conditions)]
    old[kind] = [kind, *(str(figures[key]) for key in ("tried", "total", "broken", "killed", "same", "unseen")), f"{share_of(figures):.1f} %"]
    record.write("mutation", title="Tests that see a change", order=25,
                 said="Operators, comparisons, constants, conditions, arguments and checks of lib/ were changed one at a time; a change is "
                      "killed when a C test fails, hangs or crashes, or valgrind or a sanitizer speaks. What survives stands in "
                      "tests/guard/breakage/mutants.csv and conditions.csv, with the reason where it means the same.",
                 commands=["/usr/bin/python3 tests/guard/breakage/mutate.py --write --record",
                           "/usr/bin/python3 tests/guard/breakage/mutate.py --conditions --write --record"],
                 in_tests="Twelve changes drawn from four files; break_formulas.py breaks the formulas of three modules.",
                 tools=[record.tool("gcc"), record.tool("valgrind")],
                 columns=["changes", "tried", "of", "do not compile", "killed", "mean the same", "not seen", "killed of those that count"],
                 rows=[old[each] for each in kinds if each in old],
                 left="; ".join([*(f"{row[0]}: {row[6]} not seen by a test" for row in old.values() if row[6] != "0"),
                                 *(["the last run tried only what had survived, or some files: the others count as they were found before, "
                                    "on sources that have changed a little since"] if figures["in_shares"] else [])]))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int)
    parser.add_argument("--seed", default="ferrule")
    parser.add_argument("--lowest", type=float, default=95.0)
    parser.add_argument("--conditions", action="store_true")
    parser.add_argument("--again", action="store_true")
    parser.add_argument("--add", action="store_true")
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--record", action="store_true")
    parser.add_argument("files", nargs="*")
    arguments = parser.parse_args()
    files = arguments.files or sorted(str(path.relative_to(ROOT / "lib")) for path in (ROOT / "lib").rglob("*.[ch]")
                                      if path.name not in ("normal_table.h", "random_wide.c"))
    table = "conditions.csv" if arguments.conditions else "mutants.csv"
    before = {"broken": 0, "killed": 0}
    if arguments.again:
        chosen, before = survivors_of(table)
        total = before["total"]
    elif arguments.conditions:
        chosen, total = draw(files, arguments.count or 1_000_000, arguments.seed, conditions_of)
    else:
        chosen, total = draw(files, arguments.count or 350, arguments.seed)
    reasons = known_equivalents()
    killed, broken, survivors = 0, 0, []
    if arguments.again:  # what means the same needs no second try
        survivors = [(mutant, why) for mutant in chosen if (why := reasons.get((mutant[0], mutant[3].strip(), mutant[2])))]
        chosen = [mutant for mutant in chosen if (mutant[0], mutant[3].strip(), mutant[2]) not in reasons]
    tried = before.get("tried", len(chosen))
    with tempfile.TemporaryDirectory() as place:
        benches, lock = {}, threading.Lock()

        def bench(kind, *more):
            """Made when it is first needed."""
            with lock:
                if kind not in benches:
                    (pathlib.Path(place) / kind).mkdir()
                    only = BATCH if all(name.startswith("batch/") for name in files) else None
                    benches[kind] = Bench(pathlib.Path(place) / kind, *more, only=only)
                return benches[kind]

        def judge(mutant):
            """The quickest first."""
            module = bench("plain").verdict(mutant)
            module = bench("strict", SANITIZE, FILLED).verdict(mutant, few=True) if module is None else module
            return bench("plain").verdict(mutant, memory=True) if module is None else module
        with concurrent.futures.ThreadPoolExecutor(arguments.jobs) as pool:
            for mutant, module in zip(chosen, pool.map(judge, chosen)):
                name, number, rule, old, new = mutant
                killed, broken = killed + bool(module), broken + (module == "")
                if module is None:
                    reason = reasons.get((name, old.strip(), rule))
                    survivors.append((mutant, reason))
                    print(f"survived  {name}:{number}: {rule}: {new.strip() or 'nothing'}"
                          + (f"  [{reason}]" if reason else ""), flush=True)
    if arguments.add:
        others, before = survivors_of(table)
        survivors = [(mutant, reasons.get((mutant[0], mutant[3].strip(), mutant[2]))) for mutant in others if mutant[0] not in files] + survivors
        tried, total = tried + before["tried"], total + before["total"]
    same = sum(reason is not None for _, reason in survivors)
    figures = {"tried": tried, "total": total, "broken": before["broken"] + broken,
               "killed": before["killed"] + killed, "same": same, "unseen": len(survivors) - same,
               "in_shares": arguments.again or arguments.add, "seed": arguments.seed, "date": datetime.date.today().isoformat()}
    print(sentence(figures))
    if arguments.write:
        write(survivors, figures, table)
    if arguments.record:
        write_record(figures, arguments.conditions)
    return 0 if share_of(figures) >= arguments.lowest else 1


if __name__ == "__main__":
    sys.exit(main())
