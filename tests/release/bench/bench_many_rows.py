# SPDX-License-Identifier: MIT
"""examples/many_rows with all its ways, on ten million rows: pandas, dask, PostgreSQL, DuckDB out of Parquet, which all have to agree.

Usage: /usr/bin/python3 tests/release/bench/bench_many_rows.py [--rows N] [JSON]    after sh tests/run.sh build_all

DuckDB comes from PyPI, into an environment of its own below build/; the server of PostgreSQL is one of the tests. Times are by the clock, and
contain reading the rows: of CSV, a table or Parquet. The rows are written to build/many_rows, and removed.
"""
import argparse
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[3]
BUILD = ROOT / "build"
sys.path.insert(0, str(ROOT / "tests/agree/sql"))


def python_with_duckdb():
    python = BUILD / "duckdb/bin/python"
    if not python.exists():
        subprocess.run([sys.executable, "-m", "venv", "--system-site-packages", BUILD / "duckdb"], check=True)
    subprocess.run([python, "-m", "pip", "install", "--quiet", "duckdb"], check=True)
    return python


def main():
    import server
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--rows", type=int, default=10_000_000)
    parser.add_argument("json", nargs="?", type=pathlib.Path)
    given = parser.parse_args()
    folder = BUILD / "many_rows"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    python = python_with_duckdb()
    try:
        with server.Server(str(BUILD / "release")) as database:
            done = subprocess.run([python, ROOT / "examples/many_rows/many_rows.py", "--rows", str(given.rows), "--postgresql", "--duckdb",
                                   folder / "rows.csv"], text=True, stdout=subprocess.PIPE, check=True,
                                  env={**os.environ, **database.environment, "PYTHONPATH": str(BUILD / "release/python")})
    finally:
        shutil.rmtree(folder)
    print(done.stdout, end="")
    rows = [re.match(r"(.{24})\s*([\d.]+) s   (\d+ rows, \d+ failed, \d+ steps); (.*)", line).groups() for line in done.stdout.splitlines()]
    if len(rows) != 7 or len({answer for _, _, answer, _ in rows}) != 1:
        sys.exit("the ways do not agree, or one is missing")
    if given.json:
        table = [{"way": way.strip(), "seconds": float(seconds), "note": note} for way, seconds, _, note in rows]
        about = {"answer": rows[0][2], "cores": os.cpu_count(), "load": round(os.getloadavg()[1], 1), "table": table}
        given.json.write_text(json.dumps(about, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
