# SPDX-License-Identifier: MIT
"""The shop's database in SQLite: what its views say against the Python package, from the same invented data."""
import os
import pathlib
import re
import sqlite3
import subprocess
import sys

import pytest

sys.path.insert(0, os.environ["FERRULE_PYTHON"])
import ferrule  # noqa: E402

ERP = pathlib.Path(__file__).resolve().parents[3] / "examples" / "erp"
MODULE = os.environ["FERRULE_SQLITE_MODULE"].removesuffix(".so")


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """The script's text, and a connection to the database that it leaves."""
    file = tmp_path_factory.mktemp("erp") / "shop.db"
    done = subprocess.run(["sh", str(ERP / "run.sh"), MODULE], capture_output=True, text=True, timeout=100, check=False,
                          env={**os.environ, "FERRULE_ERP_FILE": str(file)})
    assert done.returncode == 0, done.stderr
    db = sqlite3.connect(file)
    db.enable_load_extension(True)
    db.load_extension(MODULE)
    db.row_factory = sqlite3.Row
    yield done.stdout, db
    db.close()


def mm(number):
    return ferrule.Length(mm=number) if number is not None else None


def plan(db, joint):
    press = db.execute("SELECT * FROM presses").fetchone()
    dies = [ferrule.Die(size=mm(d["size_mm"]), reach=mm(d["reach_mm"]), adapter=d["adapter"], length=mm(d["length_mm"]))
            for d in db.execute("SELECT * FROM dies ORDER BY size_mm")]
    order = ferrule.Order(
        joint=ferrule.Joint(hose=ferrule.Hose(inside=mm(joint["hose_inside_mm"]), outside=mm(joint["hose_outside_mm"])),
                            stem=ferrule.Stem(outside=mm(joint["stem_outside_mm"]), bore=mm(joint["stem_bore_mm"])),
                            ferrule=ferrule.Ferrule(wall=mm(joint["ferrule_wall_mm"]), outside=mm(joint["ferrule_outside_mm"]),
                                                    length=mm(joint["ferrule_length_mm"]))),
        published=mm(joint["published_mm"]), tolerance=mm(joint["tolerance_mm"]), widest=mm(joint["widest_mm"]))
    return ferrule.plan_setup(order, ferrule.Press(
        graduation=mm(press["graduation_mm"]), correction=mm(press["correction_mm"]), dial_maximum=mm(press["dial_maximum_mm"]),
        opening=mm(press["opening_mm"]), capacity=ferrule.Force(newton=press["capacity_newton"]), segments=press["segments"]), dies)


def test_views_say_what_python_says(shop):
    _, db = shop
    rows = db.execute("SELECT * FROM set_ups JOIN joints USING (joint)").fetchall()
    assert len(rows) == 7
    for row in rows:
        setup = plan(db, row)
        assert row["target_mm"] == setup.target.mm
        assert row["dial_setting_mm"] == (setup.dial.value.setting.mm if setup.dial else None)
        assert row["die_die_size_mm"] == (setup.die.die.size.mm if setup.die.found else 0)
        assert row["limits_lower_mm"] == (setup.limits.value.lower.mm if setup.limits else None)
        assert row["plain_fraction"] == setup.plain.value.fraction
        assert re.findall(r"[A-Z_]+", row["remarks"]) == [r.name for r in setup.remarks]


def test_verdicts_say_what_python_says(shop):
    _, db = shop
    verdicts = db.execute("SELECT * FROM verdicts ORDER BY order_number, piece").fetchall()
    assert [v["decision"] for v in verdicts] == ["ACCEPT", "ACCEPT", "ACCEPT", "REJECT", "UNDECIDED", "ACCEPT"]
    for v in verdicts:
        own = ferrule.judge(mm(v["mean_mm"]), mm(v["uncertainty_mm"]), (mm(v["limits_lower_mm"]), mm(v["limits_upper_mm"])))
        assert (v["decision"], v["conforming_fraction"]) == (own.decision.name, own.conforming.fraction)
        readings = [r["diameter_mm"] for r in db.execute("SELECT * FROM crimps WHERE order_number = ? AND piece = ?",
                                                         (v["order_number"], v["piece"]))]
        correction, = db.execute("SELECT correction_mm FROM gauges WHERE gauge = ?", (v["gauge"],)).fetchone()
        assert v["mean_mm"] == pytest.approx(sum(readings) / len(readings) + correction, abs=1e-9)


def test_first_order_by_hand(shop):
    """12.95 + 2 x 2.4 + 7.2 x 0.8 = 23.51; dial 23.51 - 22 - 0.15 = 1.36, to the step 0.05: 1.35."""
    text, _ = shop
    assert text.startswith("Order 101, harvester 2 boom lift, 6 pieces of hose A, coupling A1: target 23.51 mm (computed), "
                           "accept 23.15 mm to 23.87 mm, die 6, dial 1.35 mm, compression 20.0 %\n")


def test_bad_joints_do_not_get_in(shop):
    text, db = shop
    assert "hose outside diameter is not above its inside diameter (hose: {inside: 26.9 mm, outside: 19.1 mm})" in text
    assert "a number without a unit" in text
    with pytest.raises(sqlite3.Error, match="HOSE_OUTSIDE_NOT_ABOVE_INSIDE"):
        db.execute("UPDATE joints SET hose_outside_mm = 5")
    with pytest.raises(sqlite3.Error, match="PRESS_GRADUATION_OUT_OF_RANGE"):
        db.execute("UPDATE presses SET graduation_mm = 20")
    assert db.execute("SELECT count(*) FROM joints").fetchone()[0] == 7


def test_an_order_that_cannot_be_planned_does_not_stop_the_others(shop):
    _, db = shop
    db.execute("INSERT INTO joints SELECT 'thin', hose, coupling, 12, 12.5, 12.4, NULL, 2.4, 40, NULL, NULL, NULL, NULL FROM joints LIMIT 1")
    db.execute("INSERT INTO orders VALUES (300, 'harvester 9', 'thin', 'bench press', 1)")
    rows = db.execute("SELECT order_number, status, target_mm FROM set_ups ORDER BY 1").fetchall()
    assert len(rows) == 8 and all(row["target_mm"] for row in rows[:7])
    db.execute("UPDATE joints SET published_mm = 2000000 WHERE joint = 'thin'")
    row = db.execute("SELECT * FROM set_ups WHERE order_number = 300").fetchone()
    assert (row["status"], row["target_mm"]) == ("PUBLISHED_DIAMETER_OUT_OF_RANGE", None)
    db.rollback()
