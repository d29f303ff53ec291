# SPDX-License-Identifier: MIT
"""Ten million crimp diameters from one file: on one core with pandas, on several with dask, in PostgreSQL with parallel workers,
out of Parquet with DuckDB.

Usage: PYTHONPATH=build/release/python /usr/bin/python3 examples/many_rows/many_rows.py [--rows N] [--postgresql] [--duckdb] [FILE]

The rows are invented: joints about a worked one, each measurement a little off; every 1000th is wrong on purpose, its hose larger
inside than outside. FILE, rows.csv where none is named, is written first unless it is there. Each way reads that file (PostgreSQL:
a table that the file was copied into; DuckDB: a folder of Parquet files made from it, FILE with .parquet behind it) and says how many rows failed, and the sum of the diameters in steps of 2^-20 mm,
cut off: whole numbers, whose sum does not depend on who adds what first. All ways have to say the same; then the exit status is 0.
Needs python3-pandas and python3-dask; with --postgresql the database that psql finds, with the extension ferrule;
with --duckdb Python's package duckdb, which Debian 12 does not have (`pip install duckdb`, in an environment with --system-site-packages).
"""
import argparse
import concurrent.futures
import pathlib
import subprocess
import sys
import time

import dask
import dask.dataframe
import numpy as np
import pandas as pd
from ferrule import bulk

COLUMNS = ["hose_inside_mm", "hose_outside_mm", "stem_outside_mm", "ferrule_wall_mm", "compression_fraction"]
STEPS = 2.0**20
ARGUMENTS = ", ".join(COLUMNS)
QUERY = f"""SELECT count(*), count(*) - count(diameter), sum(floor(diameter * {STEPS:.0f})::bigint) FROM (
    SELECT CASE WHEN fer_crimp_diameter_status({ARGUMENTS}) = 'OK' THEN fer_crimp_diameter_mm({ARGUMENTS}) END AS diameter
    FROM joints) AS crimped"""


def write_rows(path, rows, at_once=1_000_000):
    random = np.random.default_rng(1)
    path.write_text(",".join(COLUMNS) + "\n")
    for first in range(0, rows, at_once):
        count = min(at_once, rows - first)
        frame = pd.DataFrame({name: (base * random.uniform(1, 1.01, count)).round(4)
                              for name, base in zip(COLUMNS, (12.7, 19.9, 12.95, 2.4))})
        frame[COLUMNS[4]] = random.uniform(0.15, 0.25, count).round(4)
        wrong = (np.arange(first, first + count) % 1000) == 999
        frame.loc[wrong, ["hose_inside_mm", "hose_outside_mm"]] = frame.loc[wrong, ["hose_outside_mm", "hose_inside_mm"]].to_numpy()
        frame.to_csv(path, mode="a", header=False, index=False)


def summary(frame):
    """Of a table, or of a part of it: rows, failed rows, sum of the diameters in steps."""
    diameter, status = bulk.crimp_diameter(**{name: frame[name].to_numpy() for name in COLUMNS}, errors="mark", status=True)
    return np.array([len(frame), np.count_nonzero(status), np.floor(diameter[status == 0] * STEPS).astype(np.int64).sum()])


def one_core(path):
    frame = pd.read_csv(path, float_precision="round_trip")
    begin = time.perf_counter()
    found = summary(frame)
    return found, f"of it {time.perf_counter() - begin:.2f} s to compute, the rest to read the file"


def with_dask(path, workers):
    """Parts of the file by processes of their own: it is reading text that takes the time, and that holds the interpreter's lock."""
    parts = dask.dataframe.read_csv(path, float_precision="round_trip", blocksize="32MB").to_delayed()
    found = dask.compute(*[dask.delayed(summary)(part) for part in parts], scheduler="processes", num_workers=workers)
    return sum(found), f"{len(parts)} parts"


def psql(*lines):
    """Answers of the lines, by line; what goes wrong is an error."""
    done = subprocess.run(["psql", "-qAtX", "-v", "ON_ERROR_STOP=1"], input="".join(f"{line}\n" for line in lines), text=True,
                          stdout=subprocess.PIPE, check=True)
    return done.stdout.splitlines()


def fill_postgresql(path):
    psql("DROP TABLE IF EXISTS joints;", f"CREATE UNLOGGED TABLE joints ({', '.join(f'{name} float8' for name in COLUMNS)});",
         f"\\copy joints FROM '{path}' WITH (FORMAT csv, HEADER)", "ANALYZE joints;", "CREATE EXTENSION IF NOT EXISTS ferrule;")


def with_postgresql(workers):
    """The settings make even a few rows worth several workers; with many rows PostgreSQL takes them by itself."""
    settings = [f"SET max_parallel_workers_per_gather = {workers};", "SET min_parallel_table_scan_size = 0;", "SET parallel_setup_cost = 0;",
                "SET parallel_tuple_cost = 0;"]
    answer, *plan = psql(*settings, QUERY + ";", f"EXPLAIN (ANALYZE, COSTS OFF, TIMING OFF) {QUERY};")
    launched = sum(int(line.split(":")[1]) for line in plan if "Workers Launched" in line)
    took = next(float(line.split()[-2]) / 1000 for line in plan if "Execution Time" in line)
    return np.array([int(x) for x in answer.split("|")]), f"{launched} workers besides the server's own process, {took:.2f} s by EXPLAIN ANALYZE"


def fill_parquet(path, rows_a_part=250_000):
    """A folder of Parquet files, each with so many rows."""
    import duckdb
    folder = path.with_name(path.name + ".parquet")
    if folder.exists():
        return folder
    folder.mkdir()
    with duckdb.connect() as database:
        database.execute(f"CREATE TABLE joints ({', '.join(f'{name} DOUBLE' for name in COLUMNS)})")
        database.execute("COPY joints FROM $file (HEADER)", {"file": str(path)})
        rows, = database.execute("SELECT count(*) FROM joints").fetchone()
        for first in range(0, rows, rows_a_part):
            database.execute(f"COPY (SELECT * FROM joints WHERE rowid >= {first} AND rowid < {first + rows_a_part}) "
                             f"TO '{folder / f'{first // rows_a_part:04}.parquet'}' (FORMAT parquet)")
    return folder


def with_duckdb(folder, threads):
    """A thread takes a file at a time: DuckDB reads it into arrays of NumPy, and neither it nor the rows in C hold the interpreter's lock."""
    import duckdb
    files = sorted(folder.glob("*.parquet"))

    def part(file):
        with duckdb.connect(config={"threads": 1}) as database:
            return summary(pd.DataFrame(database.execute(f"SELECT {ARGUMENTS} FROM read_parquet($file)", {"file": str(file)}).fetchnumpy(), copy=False))

    with concurrent.futures.ThreadPoolExecutor(threads) as pool:
        found = list(pool.map(part, files))
    return sum(found), f"{len(files)} files of Parquet"


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--rows", type=int, default=10_000_000)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--postgresql", action="store_true")
    parser.add_argument("--duckdb", action="store_true")
    parser.add_argument("file", nargs="?", type=pathlib.Path, default=pathlib.Path("rows.csv"))
    given = parser.parse_args()
    path = given.file.resolve()
    if not path.exists():
        write_rows(path, given.rows)
    ways = {"pandas, one core": lambda: one_core(path),
            "dask, 1 process": lambda: with_dask(path, 1), f"dask, {given.workers} processes": lambda: with_dask(path, given.workers)}
    if given.postgresql:
        fill_postgresql(path)
        ways["PostgreSQL, no workers"] = lambda: with_postgresql(0)
        ways[f"PostgreSQL, {given.workers} workers"] = lambda: with_postgresql(given.workers)
    if given.duckdb:
        folder = fill_parquet(path)
        ways["DuckDB, 1 thread"] = lambda: with_duckdb(folder, 1)
        ways[f"DuckDB, {given.workers} threads"] = lambda: with_duckdb(folder, given.workers)
    answers = []
    for name, way in ways.items():
        begin = time.perf_counter()
        found, note = way()
        answers.append(tuple(int(x) for x in found))
        print(f"{name:24}{time.perf_counter() - begin:8.2f} s   {answers[-1][0]} rows, {answers[-1][1]} failed, {answers[-1][2]} steps; {note}")
    if len(set(answers)) > 1:
        sys.exit("the ways do not agree")


if __name__ == "__main__":
    main()
