# SPDX-License-Identifier: MIT
"""After a long run of tests/fuzz/run.sh: keep the shortest inputs that reach the same, and write the record.

Usage: keep.py FOUND_FOLDER [LOG_FOLDER [--record]]
FOUND_FOLDER/TARGET holds what a run found (build/fuzz/found), LOG_FOLDER/TARGET*.txt what it printed (build/fuzz).
The committed inputs of all targets together stay below LARGEST bytes; what covers least for its size goes first.
"""
import datetime
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[1]
TARGETS = {"text": "parser and writer of quantities", "structs": "every function that takes quantities and structs",
           "lists": "die lists, readings, trials, rows in bulk", "trials": "simulation, tallies, diagnosis",
           "sql": "every SQL function, through SQLite", "python": "the Python package, in CPython"}
LARGEST = 200_000
PROGRAMS = ROOT / "build" / "fuzz" / "tests" / "fuzz"


def merge(target, found, to):
    """The fewest inputs that reach what all of them reach."""
    subprocess.run([PROGRAMS / f"fuzz_{target}", "-merge=1", "-max_len=600", to, *found],
                   env={"ASAN_OPTIONS": "detect_leaks=0", "PATH": "/usr/bin"}, check=True, capture_output=True, timeout=1800)


def keep(target, found, share):
    folder = HERE / "corpus" / target
    with tempfile.TemporaryDirectory() as new:
        merge(target, [found, folder], pathlib.Path(new))
        files = sorted(pathlib.Path(new).iterdir(), key=lambda file: file.stat().st_size)
        names = {file.name for file in folder.iterdir() if target == "text" and "_" in file.name or not re.fullmatch(r"[0-9a-f]{40}", file.name)}
        for file in folder.iterdir():
            if file.name not in names:
                file.unlink()
        size = sum((folder / name).stat().st_size for name in names)
        for file in files:
            if size + file.stat().st_size <= share:
                shutil.copy(file, folder / file.name)
                size += file.stat().st_size
    return len(list(folder.iterdir())), size


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


def first_line(*command):
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout.splitlines()[0]


def main():
    found = pathlib.Path(sys.argv[1])
    kept = {}
    for target in TARGETS:
        if (found / target).is_dir():
            kept[target] = keep(target, found / target, LARGEST // len(TARGETS))
            print(f"{target}: {kept[target][0]} inputs, {kept[target][1]} bytes", flush=True)
    if len(sys.argv) > 2:
        for target in kept:
            print(target, *read_logs(pathlib.Path(sys.argv[2]), target))


if __name__ == "__main__":
    main()
