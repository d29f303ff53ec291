# SPDX-License-Identifier: MIT
"""The depot's hoselines: cut list by hand, drawings to scale, records that say the same again, and the tables that keep them."""
import hashlib
import math
import os
import pathlib
import re
import sqlite3
import subprocess
import sys

import pytest

EXAMPLES = pathlib.Path(__file__).resolve().parents[3] / "examples"
sys.path[:0] = [os.environ["FERRULE_PYTHON"], str(EXAMPLES / "hoselines")]
from ferrule import record  # noqa: E402
import hoselines  # noqa: E402


@pytest.fixture(scope="module")
def day(tmp_path_factory):
    folder = tmp_path_factory.mktemp("hoselines")
    done = subprocess.run([sys.executable, str(EXAMPLES / "hoselines" / "hoselines.py"), "--page", str(folder / "page.html"),
                           "--records", str(folder / "records.jsonl")], capture_output=True, text=True, timeout=60,
                          env={**os.environ, "PYTHONPATH": os.environ["FERRULE_PYTHON"], "PYTHONIOENCODING": "utf-8"})
    assert done.returncode == 1, done.stderr  # some orders cannot be cut
    return done.stdout, (folder / "page.html").read_text(encoding="utf-8"), folder / "records.jsonl"


def test_the_cut_list_by_hand(day):
    lines = {line.split()[0]: line for line in day[0].splitlines() if line[:1].isdigit()}
    assert "1389.1 mm" in lines["601"] and "1444 mm to 1470 mm" in lines["601"] and "55.0 MPa" in lines["601"]  # 1450 - 58.5 - 2.4; twice 27.5
    assert "1035.6 mm" in lines["602"]  # 1100 - 62 - 2.4
    assert all("DO NOT CUT" in lines[order] for order in ("603", "604", "605"))
    assert "working pressure of hose or coupling is not given" in day[0] and "bends of neighbouring corners do not fit" in day[0]
    bent = 1000 - 2 * 191.55 + math.pi / 2 * 191.55  # 603: one corner of 90° between legs of 500
    assert f"takes {bent:.0f} mm of hose, and to have that at its shortest it needs {bent / 0.96:.0f} mm" in day[0]


def test_what_is_not_to_be_cut_has_no_boxes_to_tick(day):
    sheets = day[1].split("<section>")[1:]
    assert len(sheets) == 5
    for sheet in sheets:
        assert ("STOP" in sheet) == ("&#9744;" not in sheet) == ("DO NOT CUT" in sheet)
    assert "Nobody is near while there is pressure" in day[1] and "invented" in day[1].lower()


def test_drawings_are_to_scale(day):
    """The path of 601 is as long as its route, measured with its own bar of 100 mm."""
    svg = day[1].split("Hoseline 601 from above")[1].split("</svg>")[0]
    scale = float(re.search(r'd="M\d [\d.]+h([\d.]+)', svg)[1]) / 100
    path = re.search(r'd="(M[^"]+)" fill="none" stroke="#555" stroke-width="([\d.]+)"', svg)
    numbers = r"(-?[\d.]+) (-?[\d.]+)"
    start, bend, radius, end, last = (re.search(pattern, path[1]).groups() for pattern in (
        f"M{numbers}", f"L{numbers}A", r"A([\d.]+) ", f"A[\\d.]+ [\\d.]+ 0 0 [01] {numbers}", f"L{numbers}$"))
    start, bend, end, last = ([float(x) for x in point] for point in (start, bend, end, last))
    assert float(radius[0]) / scale == pytest.approx(191.55, abs=0.1)
    assert math.dist(bend, end) / scale == pytest.approx(191.55 * math.sqrt(2), abs=0.1)
    drawn = (math.dist(start, bend) + math.dist(end, last) + math.pi / 2 * float(radius[0])) / scale
    assert drawn == pytest.approx(1370 - 2 * 191.55 + math.pi / 2 * 191.55, abs=0.2)
    assert float(path[2]) / scale == pytest.approx(23.1, abs=0.1)


def test_the_records_say_the_same_again(day):
    records = record.read(day[2])
    assert len(records) == 5 and record.broken_link(records) is None
    assert [record.replay(one) for one in records] == [[]] * 5
    assert day[0].splitlines()[-1].endswith(record.digest(records[-1]))


def test_a_file_that_is_wrong_is_said(tmp_path, capsys):
    orders = tmp_path / "orders.csv"
    orders.write_text("order,overall\n1,1250 mm\n", encoding="utf-8")
    assert hoselines.main(["--orders", str(orders)]) == 2
    assert "route" in capsys.readouterr().err


def test_the_table_keeps_a_chain_that_nobody_changes(day):
    lines = day[2].read_text(encoding="utf-8").splitlines()
    db = sqlite3.connect(":memory:")
    db.executescript((EXAMPLES / "erp" / "sqlite" / "records.sql").read_text(encoding="utf-8"))

    def insert(line):
        db.execute("INSERT INTO records (line, digest) VALUES (?, ?)", (line, hashlib.sha256(line.encode()).hexdigest()))
    insert(lines[0])
    insert(lines[1])
    for wrong in (lines[0], lines[1], lines[3]):
        with pytest.raises(sqlite3.IntegrityError, match="hash of the last"):
            insert(wrong)
    with pytest.raises(sqlite3.IntegrityError, match="nobody changes"):
        db.execute("UPDATE records SET digest = 'x'")
    with pytest.raises(sqlite3.IntegrityError, match="nobody removes"):
        db.execute("DELETE FROM records")
    insert(lines[2])
    assert db.execute("SELECT count(*) FROM records").fetchone() == (3,)
    assert db.execute("SELECT result FROM record_calls WHERE job = 'hoseline 601' AND function = 'cut_length'").fetchone() == ("1389.1 mm",)
    assert db.execute("SELECT says FROM record_facts WHERE number = 1").fetchone() == ("route of 3 points",)
