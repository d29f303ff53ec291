# SPDX-License-Identifier: MIT
"""The example with many rows, with few: all ways say the same, and PostgreSQL's is shown to run in parallel workers."""
import os
import pathlib
import re
import subprocess
import sys

import pytest

ROOT = pathlib.Path(__file__).resolve().parents[3]
EXAMPLE = ROOT / "examples" / "many_rows" / "many_rows.py"
ROWS = 3000
pytest.importorskip("dask.dataframe", reason="needs python3-dask and python3-pandas")


def run(*arguments, **more):
    environment = {**os.environ, "PYTHONPATH": os.environ["FERRULE_PYTHON"], **more}
    done = subprocess.run([sys.executable, EXAMPLE, "--rows", str(ROWS), *arguments], env=environment, text=True, capture_output=True,
                          timeout=300)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout.splitlines()


def answers(lines):
    return {re.search(r"s   (\d+ rows, \d+ failed, \d+ steps);", line)[1] for line in lines}


def test_one_core_and_dask(tmp_path):
    lines = run(tmp_path / "rows.csv")
    answer, = answers(lines)
    assert len(lines) == 3 and answer.startswith(f"{ROWS} rows, {ROWS // 1000} failed, ")


def test_answers_are_those_of_fractions(tmp_path):
    """The sum by Python's own exact numbers, but for the last place of a diameter that is cut at a step."""
    from fractions import Fraction
    answer, = answers(run(tmp_path / "rows.csv"))
    steps = 0
    for row in (tmp_path / "rows.csv").read_text().splitlines()[1:]:
        inside, outside, stem, wall, compression = map(Fraction, row.split(","))
        if outside > inside:
            steps += (stem + 2 * wall + (outside - inside) * (1 - compression)) * 2**20 // 1
    assert abs(int(answer.split()[-2]) - steps) <= 2


@pytest.mark.skipif("FERRULE_POSTGRESQL_BUILD" not in os.environ, reason="the functions for PostgreSQL were not built")
def test_postgresql_takes_parallel_workers(tmp_path):
    sys.path.insert(0, str(ROOT / "tests" / "agree" / "sql"))
    import server
    tmp_path.chmod(0o755)
    with server.Server(os.environ["FERRULE_POSTGRESQL_BUILD"]) as database:
        lines = run("--postgresql", tmp_path / "rows.csv", **database.environment)
    assert len(lines) == 5 and len(answers(lines)) == 1
    assert "; 0 workers besides" in lines[3] and "; 2 workers besides" in lines[4]


def test_duckdb_reads_parquet(tmp_path):
    """Not in Debian 12: where it is installed, as in the release ring (tests/release/bench/bench_many_rows.py)."""
    pytest.importorskip("duckdb", reason="needs the package duckdb from PyPI")
    lines = run("--duckdb", tmp_path / "rows.csv")
    assert len(lines) == 5 and len(answers(lines)) == 1 and lines[3].startswith("DuckDB, 1 thread")
