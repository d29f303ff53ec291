# SPDX-License-Identifier: MIT
"""After a long run of tests/guard/fuzz/run.sh: keep the shortest inputs that reach the same, and write the record.

Usage: keep.py [FOUND_FOLDER [LOG_FOLDER]]   or   keep.py --unpack FOLDER
FOUND_FOLDER/TARGET holds what a run found, LOG_FOLDER/TARGET.*txt what it printed: where nothing is given build/fuzz/found and
build/fuzz. Without the second the record is not written. The committed inputs, tests/guard/fuzz/corpus/TARGET.txt, have one input in base64 a line, the short ones first,
and together stay below LARGEST bytes; TARGET_faults.txt holds those that found a fault, one that was planted too, put
there by hand.
"""
import base64
import hashlib
import json
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[2]
TARGETS = {"text": "parser and writer of quantities", "structs": "every function that takes quantities and structs",
           "lists": "die lists, readings, trials, rows in bulk", "trials": "simulation, tallies, diagnosis",
           "sql": "every SQL function, through SQLite", "python": "the Python package, in CPython",
           "numpy": "ferrule.bulk: columns of any type and layout", "postgresql": "every SQL function, in a PostgreSQL server"}
ENGINES = {"postgresql": "own, by what is reached"}  # the others: libFuzzer
LARGEST = 260_000
PROGRAMS = ROOT / "build/fuzz/tests/guard/fuzz"


def merge(target, found, to):
    """The fewest inputs that reach what all of them reach."""
    if target == "postgresql":
        subprocess.run([sys.executable, "-B", HERE / "fuzz_postgresql.py", ROOT / "build" / "fuzz", "merge", to, *found], check=True,
                       timeout=1800)
        return
    subprocess.run([PROGRAMS / f"fuzz_{target}", "-merge=1", "-max_len=600", to, *found],
                   env={"ASAN_OPTIONS": "detect_leaks=0", "PATH": "/usr/bin"}, check=True, capture_output=True, timeout=1800)


def load(target):
    """The committed inputs, and before them those that once found a fault, which stay for ever."""
    paths = [HERE / "corpus" / f"{target}{end}.txt" for end in ("_faults", "")]
    return [base64.b64decode(line) for path in paths if path.exists() for line in path.read_text().splitlines()]


def unpack(folder):
    """Writes them as files, as fuzzers want them."""
    for target in TARGETS:
        (folder / target).mkdir(parents=True, exist_ok=True)
        for data in load(target):
            (folder / target / hashlib.sha1(data).hexdigest()).write_bytes(data)


def keep(target, found):
    """Merges what was found into the committed inputs, the short ones first; number and bytes."""
    with tempfile.TemporaryDirectory() as folder:
        unpack(pathlib.Path(folder) / "old")
        new = pathlib.Path(folder) / "new"
        new.mkdir()
        merge(target, [found, pathlib.Path(folder) / "old" / target], new)
        inputs = sorted((file.read_bytes() for file in new.iterdir()), key=lambda data: (len(data), data))
    lines, module = [], LARGEST // len(TARGETS)
    for line in (base64.b64encode(data).decode() + "\n" for data in inputs):
        if len(line) <= module:
            lines.append(line)
            module -= len(line)
    (HERE / "corpus" / f"{target}.txt").write_text("".join(lines))
    return len(lines), LARGEST // len(TARGETS) - module


def read_logs(folder, target):
    """Runs and seconds of all its logs together; edges, features and inputs of the last."""
    runs = seconds = 0
    last = None
    for log in sorted(folder.glob(f"{target}.*txt"), key=lambda path: path.stat().st_mtime):
        text = log.read_text(errors="replace")
        done = re.search(r"stat::number_of_executed_units: *(\d+)", text)
        speed = re.search(r"stat::average_exec_per_sec: *(\d+)", text)
        runs += int(done[1]) if done else 0
        finished = re.search(r"Done \d+ runs in (\d+) second", text)
        seconds += int(finished[1]) if finished else int(done[1]) // max(1, int(speed[1])) if done else 0
        steps = re.findall(r"cov: (\d+) ft: (\d+) corp: (\d+)/", text)
        last = steps[-1] if steps else last
    return runs, seconds, last


def read_second_engine(logs, target):
    """What AFL++ did, out of afl_TARGET/default/fuzzer_stats."""
    path = logs / f"afl_{target}" / "default" / "fuzzer_stats"
    if not path.exists():
        return None
    stats = dict(re.split(r"\s*:\s*", line, maxsplit=1) for line in path.read_text().splitlines() if ":" in line)
    return int(stats["execs_done"]), int(stats["run_time"]), stats["edges_found"]


def package_version(name):
    return subprocess.run(["dpkg-query", "-W", "-f=${Version}", name], capture_output=True, text=True, check=True).stdout


def new_rows(target, kept, logs, faults):
    """What was measured now: a row of each engine that ran."""
    rows = []
    if target in kept:
        runs, seconds, last = read_logs(logs, target)
        edges, features = last[:2] if last else ("", "")
        rows.append([target, TARGETS[target], ENGINES.get(target, "libFuzzer"), f"{runs:,}", f"{seconds / 60:.0f} min", edges, features,
                     f"{kept[target][0]}, {kept[target][1] / 1000:.0f} kB", faults[target]])
    second = read_second_engine(logs, target)
    if second:
        rows.append([target, "", "AFL++", f"{second[0]:,}", f"{second[1] / 60:.0f} min", second[2], "", "", ""])
    return rows


def record(kept, logs):
    """The table for the manual's page of verifications; what did not run again stays. What cannot be counted is in said.json."""
    sys.path.insert(0, str(ROOT / "tests/release/proof"))
    import record as proof
    said = json.loads((HERE / "said.json").read_text())
    faults, rows = said.pop("faults"), []
    old = json.loads((ROOT / "tests/release/proof" / "records" / "fuzzing.json").read_text())["rows"]
    for target in TARGETS:
        made = new_rows(target, kept, logs, faults)
        rows += made + [row for row in old if row[0] == target and row[2] not in [m[2] for m in made]]
    proof.write("fuzzing", title="Any bytes at all", order=30,
                commands=["sh tests/guard/fuzz/run.sh 1800", "sh tests/guard/fuzz/afl.sh 900", "/usr/bin/python3 tests/guard/fuzz/keep.py"],
                columns=["target", "what is called", "engine", "runs", "time", "edges", "features", "committed inputs",
                         "faults found, all mended"], rows=rows,
                tools=[proof.tool("clang"), f"AFL++ {package_version('afl++')}", proof.tool("sqlite3"), proof.tool("/usr/bin/python3"),
                       f"NumPy {package_version('python3-numpy')}", f"PostgreSQL {package_version('postgresql-15')}"], **said)


def main():
    given = [pathlib.Path(word) for word in sys.argv[1:]] or [ROOT / "build" / "fuzz" / "found", ROOT / "build" / "fuzz"]
    if sys.argv[1:2] == ["--unpack"]:
        unpack(given[1])
        return
    found = given[0]
    kept = {}
    for target in TARGETS:
        if (found / target).is_dir():
            kept[target] = keep(target, found / target)
            print(f"{target}: {kept[target][0]} inputs, {kept[target][1]} bytes", flush=True)
    if len(given) > 1:
        record(kept, given[1])


if __name__ == "__main__":
    main()
