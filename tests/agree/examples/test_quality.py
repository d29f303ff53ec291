# SPDX-License-Identifier: MIT
"""The report on a batch as text: what is hidden in the invented data is found, bad tables give no report, and the database agrees."""
import os
import re
import shutil
import sqlite3
import subprocess
import sys

import pytest

from programs import QUALITY, copy_data, read_quality, run_quality

sys.path[:0] = [*os.environ["FERRULE_PYTHON"].split(os.pathsep), str(QUALITY)]
import ferrule  # noqa: E402
from judge import judge  # noqa: E402
from read import Folder, Refused, read_tables  # noqa: E402


@pytest.fixture(scope="module", name="report")
def run():
    output = run_quality()
    assert output.status == 1, output.errors
    return read_quality(output.text)


def change(folder, name, old, new, count=1):
    """Every text that a pattern finds in a table, replaced; as many as are expected."""
    path = folder / f"{name}.csv"
    text, found = re.subn(old, new, path.read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert found == count, f"{old} stands {found} times in {path.name}"
    path.write_text(text, encoding="utf-8")


@pytest.fixture(name="data")
def copy(tmp_path):
    folder = tmp_path / "data"
    folder.mkdir()
    return copy_data(folder, QUALITY)


# ---- the data ----------------------------------------------------------------------------------------------

def test_data_are_what_the_script_makes(tmp_path):
    for name in ("batch.csv", "gauge.csv"):
        shutil.copy(QUALITY / name, tmp_path)
    subprocess.run([sys.executable, QUALITY / "make_data.py", tmp_path], check=True, timeout=60)
    made = sorted(path.relative_to(tmp_path) for path in tmp_path.rglob("*.csv"))
    assert made == sorted(path.relative_to(QUALITY) for path in QUALITY.rglob("*.csv")) and len(made) == 12
    for name in made:
        assert (tmp_path / name).read_text(encoding="utf-8") == (QUALITY / name).read_text(encoding="utf-8"), name
        assert "Invented" in (QUALITY / name).read_text(encoding="utf-8")


# ---- what is found -----------------------------------------------------------------------------------------

def test_one_decision_comes_first(report):
    assert report.title == "ORDER 120: DO THE DIAMETERS PASS?"
    assert report.decision == "[?] DIAMETERS: FIND OUT FIRST"
    assert "never by a sample of diameters" in report.meaning
    assert {press: word for press, (_, _, word, _, _) in report.presses.items()} == {
        "press 1": "accept", "press 2": "find out first", "press 3": "find out first"}
    assert {press: sign for press, (sign, *_) in report.presses.items()} == {"press 1": "[OK]", "press 2": "[?]", "press 3": "[?]"}


def test_the_press_that_moved_is_found_where_it_moved(report):
    """make_data.py: press 2 is at 23.492 mm up to its eleventh piece, which is crimp 29, and 0.060 mm higher from its twelfth on."""
    step = r"press 2: find what was touched there: it (.*); 90 % sure: between crimp (\d+) \(.*\) and crimp (\d+) \(.*\)\."
    moved, earliest, latest = re.fullmatch(step, report.do_next[0]).groups()
    assert report.presses["press 2"][3] == moved
    before, after, last = re.fullmatch(r"moved from ([\d.]+) mm to ([\d.]+) mm after crimp (\d+) \(.*\)", moved).groups()
    assert float(before) == pytest.approx(23.492, abs=0.015) and float(after) - float(before) == pytest.approx(0.06, abs=0.02)
    assert int(earliest) <= 29 <= int(latest) and int(earliest) <= int(last) <= int(latest)


def test_the_low_press_is_corrected_up_and_measured_more(report):
    """make_data.py: press 3 is at 23.468 mm, 0.042 mm below the target, with seven pieces."""
    step = report.presses["press 3"][4]
    more, correction = re.fullmatch(r"measure (\d+) more crimps; then .* correct the dial by ([+-][\d.]+) mm, .*", step).groups()
    assert float(correction) == pytest.approx(0.042, abs=0.012) and int(more) > 0


def test_people_and_gauge_are_found(report):
    """make_data.py: T.L. reads 0.011 mm high, and the micrometer 0.005 mm; each reading scatters by 0.0025 mm."""
    figures = report.figures["GAUGE: MICROMETER 1"]
    assert float(figures["reads high by"].split()[0]) == pytest.approx(0.005, abs=0.0012)
    assert float(figures["repeatability, one person"].split()[0]) == pytest.approx(0.0025, abs=0.0006)
    assert any("people read differently by more than chance" in text for text in report.findings["DO FIRST"])


def test_five_bursts_show_it_by_one_shape_only(report):
    figures = report.figures["BURSTS"]
    assert figures["has to hold"] == "1100 bar" and figures["answer, by the most cautious model"] == "find out first"
    assert int(figures["95 % hold, Weibull"].split()[0]) < 1100 < int(figures["95 % hold, normal"].split()[0])
    step, = (text for text in report.do_next if text.startswith("Bursts: "))
    assert re.match(r"Bursts: burst [1-9]\d* more assemblies", step)
    assert "45 in all show it, none of which bursts" in step, "0.95^45 = 0.0994, 0.95^44 = 0.1047"


def test_cautions_are_the_library_s(report):
    texts = {ferrule.caution_text(caution) for caution in ferrule.Caution}
    assert report.cautions and set(report.cautions) <= texts
    assert ferrule.caution_text(ferrule.Caution.LAW_AND_LICENCE) in report.cautions


def test_lines_are_short_and_need_no_matplotlib(tmp_path):
    (tmp_path / "matplotlib.py").write_text("raise ImportError('not here')", encoding="utf-8")
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join([str(tmp_path), os.environ["FERRULE_PYTHON"]])}
    done = subprocess.run([sys.executable, QUALITY / "quality.py"], capture_output=True, text=True, timeout=100, check=False, env=environment)
    assert done.returncode == 1 and max(map(len, done.stdout.splitlines())) <= 100


# ---- other batches -----------------------------------------------------------------------------------------

def test_the_good_press_alone_is_accepted(data):
    change(data, "crimps", r"^\d+,[\d:]+,press [23],.*\n", "", 27)
    output = run_quality(data=data)
    assert output.status == 0, output.errors
    report = read_quality(output.text)
    assert report.decision == "[OK] DIAMETERS: ACCEPT" and report.presses["press 1"][2] == "accept"


def test_where_every_crimp_was_measured_each_press_passes_by_its_crimps(data):
    """All inside, all measured: nothing is left to be shown, and what moved is good to know."""
    change(data, "batch", ",240,", ",45,")
    report = read_quality(run_quality(data=data).text)
    assert report.decision == "[OK] DIAMETERS: ACCEPT" and {row[2] for row in report.presses.values()} == {"accept"}


@pytest.mark.parametrize("reading", ["23.380 mm", "23.651 mm"])
def test_a_crimp_outside_its_limits_rejects(data, reading):
    """Below 23.39 mm, above 23.63 mm by more than the gauge can be wrong; its correction is -0.005 mm."""
    change(data, "crimps", r"^(26,.*),[\d.]+ mm$", rf"\1,{'23.350 mm' if reading < '23.5' else '23.670 mm'}")
    output = run_quality(data=data)
    report = read_quality(output.text)
    assert output.status == 1 and report.decision == "[X] DIAMETERS: REJECT"
    assert report.presses["press 1"][2] == "reject" and "STOP" in report.findings
    assert report.presses["press 1"][4].startswith("measure every crimp, and scrap what is outside")


def test_a_burst_below_the_limit_stops(data):
    change(data, "bursts", r"1235 bar", "1095 bar")
    report = read_quality(run_quality(data=data).text)
    assert any(text.startswith("Bursts: one burst below 1100 bar") for text in report.do_next)
    assert report.figures["BURSTS"]["answer, by the most cautious model"] == "reject"


def test_a_press_with_one_crimp_shows_nothing_and_stops_no_other(data):
    change(data, "crimps", r"^45,(.*),press [123],", r"45,\1,press 4,")
    report = read_quality(run_quality(data=data).text)
    assert report.presses["press 4"][1:] == ("1", "find out first", "too few crimps were measured to show that the others are inside the limits",
                                             "measure some more crimps")
    assert report.presses["press 1"][2] == "accept"


# ---- the database ------------------------------------------------------------------------------------------

MODULE = os.environ.get("FERRULE_SQLITE_MODULE", "").removesuffix(".so")


def in_database(file, *folder):
    return subprocess.run(["sh", QUALITY / "run.sh", MODULE, *folder], capture_output=True, text=True, timeout=100, check=False,
                          env={**os.environ, "FERRULE_QUALITY_FILE": str(file)})


@pytest.fixture(scope="module", name="database")
def fill(tmp_path_factory):
    """The script's text, and a connection to the database that it leaves."""
    file = tmp_path_factory.mktemp("quality") / "quality.db"
    done = in_database(file)
    assert done.returncode == 0 and not done.stderr, done.stderr
    db = sqlite3.connect(file)
    db.enable_load_extension(True)
    db.load_extension(MODULE)
    db.row_factory = sqlite3.Row
    yield done.stdout, db
    db.close()


@pytest.fixture(scope="module", name="judged")
def judge_once():
    return judge(read_tables(QUALITY))


def test_view_has_one_row_for_each_press_with_its_decision(database, judged, report):
    rows = {row["press"]: row for row in database[1].execute("SELECT * FROM press_decisions")}
    assert sorted(rows) == [lot.name for lot in judged.presses] == ["press 1", "press 2", "press 3"]
    for lot in judged.presses:
        row, answer = rows[lot.name], lot.answer
        assert (row["status"], row["decision"], row["measured"]) == ("OK", answer.decision.name, len(lot.rows))
        assert row["diameters"] == report.presses[lot.name][2]
        assert row["mean_mm"] == pytest.approx(answer.mean.mm, abs=1e-12)
        assert row["deviation_mm"] == pytest.approx(answer.deviation.mm, rel=1e-9)
        assert row["index_lower"] == pytest.approx(answer.index_lower, rel=1e-9)
        assert row["outside_upper_fraction"] == pytest.approx(answer.outside_upper.fraction, rel=1e-8, abs=1e-12)
        assert row["more_pieces"] == answer.more_pieces
        off = ferrule.BatchFinding.OFF_TARGET in answer.findings
        assert row["correction_mm"] == (pytest.approx(answer.correction.mm, abs=1e-12) if off else 0)
        figures = report.figures[lot.name.upper()]
        assert f"{row['mean_mm']:.3f} mm" == figures["mean"] and f"{row['deviation_mm']:.4f} mm" == figures["standard deviation, gauge taken off"]
        assert float(figures["index, at least"]) == pytest.approx(row["index_lower"] - 0.005, abs=0.0051)
        assert row["finding"] == answer.findings[0].name and row["why"] == (
            None if answer.decision == ferrule.Decision.ACCEPT else answer.findings[0].sentence)


def test_every_finding_is_there_by_severity_and_what_is_good_to_know_once(judged, report):
    headings = {"STOP": "STOP", "CONFIRM": "CONFIRM", "DO_FIRST": "DO FIRST", "KNOW": "GOOD TO KNOW"}
    listed = [(heading, text) for heading, texts in report.findings.items() for text in texts]
    for lot in (judged.batch, *judged.presses):
        for finding in lot.answer.findings:
            severity = ferrule.batch_finding_severity(finding).name
            said = (headings[severity], f"{lot.name}: {finding.sentence}")
            assert said in listed or severity == "KNOW" and finding in judged.batch.answer.findings
    assert len(set(listed)) == len(listed) and list(report.findings) == [heading for heading in headings.values() if heading in report.findings]
    assert sum(ferrule.BatchFinding.DIAMETERS_ONLY.sentence in text for _, text in listed) == 1


def test_batch_and_bursts_are_those_of_the_page(database, judged, report):
    text, db = database
    row, = db.execute("SELECT * FROM batch_decision")
    assert (row["decision"], row["measured"], row["crimps"]) == (judged.batch.answer.decision.name, len(judged.batch.rows), 240)
    burst, = db.execute("SELECT * FROM burst_decision")
    verdict = judged.bursts["WEIBULL"]
    assert (burst["decision"], burst["more"]) == (verdict.decision.name, verdict.more)
    assert burst["bound_mpa"] == pytest.approx(verdict.bound.mpa, rel=1e-9)
    lines = text.splitlines()
    assert lines[0] == "Order 120, 45 of 240 crimps measured: diameters: " + report.decision.split(": ")[1].lower()
    for press, (_, count, word, _, _) in report.presses.items():
        assert any(line.startswith(f"{press}, {count} measured: diameters: {word}") for line in lines)
    assert "never by a sample of diameters" in lines[-1]


def test_a_press_with_one_crimp_stops_no_other_in_the_database(data, tmp_path):
    change(data, "crimps", r"^45,(.*),press [123],", r"45,\1,press 4,")
    done = in_database(tmp_path / "quality.db", data)
    assert done.returncode == 0, done.stderr
    assert "press 4, 1 measured: diameters: find out first; " + ferrule.BatchFinding.SHARE_NOT_SHOWN.sentence in done.stdout
    assert "press 1, 18 measured: diameters: accept" in done.stdout


def test_the_database_refuses_what_cannot_be_read(tmp_path):
    done = in_database(tmp_path / "quality.db", QUALITY / "wrong")
    assert done.returncode != 0 and "Order" not in done.stdout and "fer_" in done.stderr


# ---- bad tables --------------------------------------------------------------------------------------------

def refused(output):
    """Where, and what is wrong: file, line, column, rule."""
    assert output.status == 2 and output.text == ""
    first, *lines = output.errors.splitlines()
    assert first == "There is no report: a table has to be put right first."
    return refusals(lines)


def refusals(lines):
    """File, line, column, value and rule of each."""
    pattern = r'(\w+\.csv)(?:, line (\d+))?(?:, column "([^"]*)" \(\w+\))?: "(.*?)": (.*)'
    return [re.fullmatch(pattern, line).groups() for line in lines]


def test_typing_errors_are_named_and_nothing_is_written(tmp_path):
    page = tmp_path / "batch.html"
    page.write_text("as it was", encoding="utf-8")
    found = refused(run_quality("--page", page, data=QUALITY / "wrong"))
    assert [row[:4] for row in found] == [
        ("batch.csv", "5", "confidence", "90"), ("gauge.csv", "5", "expansion", ""), ("crimps.csv", "21", "diameter", "23.5l5 mm"),
        ("study.csv", "9", "diameter", "23.478"), ("blocks.csv", "13", "reading", "22,004 mm"), ("bursts.csv", "7", "burst", "maybe")]
    assert page.read_text(encoding="utf-8") == "as it was" and [path.name for path in tmp_path.iterdir()] == ["batch.html"]
    lines = (QUALITY / "wrong" / "crimps.csv").read_text(encoding="utf-8").splitlines()
    assert "23.5l5 mm" in lines[20], "the line is that of the file"


STATUSES = [  # table, pattern, what stands there, and what is named: file, column, status
    ("batch", "90 %", "40 %", "batch.csv", "confidence", "CONFIDENCE_OUT_OF_RANGE"),
    ("batch", "23.39 mm", "23.64 mm", "batch.csv", "upper", "LIMIT_WRONG_ORDER"),
    ("batch", "23.39 mm", "-2000000 mm", "batch.csv", "lower", "LIMIT_OUT_OF_RANGE"),
    ("batch", "23.51 mm", "23.70 mm", "batch.csv", "target", "TARGET_OUTSIDE_LIMITS"),
    ("batch", ",1.33,", ",0.001,", "batch.csv", "index", "INDEX_OUT_OF_RANGE"),
    ("batch", "1 %,90", "60 %,90", "batch.csv", "outside", "BATCH_ALLOWED_OUT_OF_RANGE"),
    ("batch", ",240,", ",44,", "batch.csv", "crimps", "BATCH_LOT_OUT_OF_RANGE"),
    ("batch", "275 bar", "-", "batch.csv", "working pressure", "BURST_WORKING_MISSING"),
    ("batch", "275 bar", "27500000 bar", "batch.csv", "working pressure", "BURST_WORKING_OUT_OF_RANGE"),
    ("batch", "275 bar,4", "275 bar,0.5", "batch.csv", "burst multiple", "BURST_MULTIPLE_OUT_OF_RANGE"),
    ("gauge", "0.001 mm", "20 mm", "gauge.csv", "resolution", "BLOCK_OUT_OF_RANGE"),
    ("gauge", "0.0002 mm", "-1 mm", "gauge.csv", "block uncertainty", "BLOCK_OUT_OF_RANGE"),
    ("gauge", "0.0058 %", "5 %", "gauge.csv", "expansion", "BLOCK_OUT_OF_RANGE"),
    ("crimps", "^(7,.*),[\\d.]+ mm$", r"\1,-23.5 mm", "crimps.csv", "diameter", "READING_OUT_OF_RANGE"),
    ("study", "^(3,K.R.,)[\\d.]+ mm(?=[\\s\\S]*^3,K.R.)", r"\g<1>-1 mm", "study.csv", "diameter", "STUDY_READING_OUT_OF_RANGE"),
    ("study", "^3(,K.R.,[\\d.]+ mm)(?=[\\s\\S]*^3,K.R.)", r"1000\1", "study.csv", "part", "STUDY_NUMBER_OUT_OF_RANGE"),
    ("study", "^3,T.L.,[\\d.]+ mm\\n(?=[\\s\\S]*^3,T.L.)", "", "study.csv", "part", "STUDY_TOO_SMALL"),
    ("study", "^(3,T.L.,[\\d.]+ mm\\n)(?=[\\s\\S]*^3,T.L.)", r"\1\1", "study.csv", "part", "STUDY_NOT_BALANCED"),
    ("blocks", "^30 mm,(30.*\\n)(?=30)(?=(30.*\\n){2}\\Z)", r"2000000 mm,\1", "blocks.csv", "reading", "BLOCK_OUT_OF_RANGE"),
    ("bursts", "1310 bar", "0 bar", "bursts.csv", "pressure", "BURST_PRESSURE_MISSING"),
    ("bursts", "1225 bar", "-5 bar", "bursts.csv", "pressure", "BURST_PRESSURE_OUT_OF_RANGE"),
    ("bursts", "1310 bar", "-5 bar", "bursts.csv", "pressure", "BURST_PRESSURE_OUT_OF_RANGE"),
    ("bursts", "^[2345],.*\\n", "", "bursts.csv", None, "BURST_TOO_FEW"),
]


@pytest.mark.parametrize("name, old, new, file, column, status", STATUSES)
def test_what_the_library_refuses_is_named(data, name, old, new, file, column, status):
    """In this process, since there are many: that the program writes nothing then is seen above."""
    change(data, name, old, new, 4 if status == "BURST_TOO_FEW" else 1)
    with pytest.raises(Refused) as found:
        judge(read_tables(Folder(data)))
    (where, line, named, value, rule), = refusals(map(str, found.value.args[0]))
    assert (where, named) == (file, column) and rule.endswith(f"[{status}]") and ferrule.Status[status].sentence in rule
    if file == "study.csv" and status in ("STUDY_TOO_SMALL", "STUDY_NOT_BALANCED"):
        assert value == "3" and f"part 3 by T.L.: {1 if new == '' else 3} readings, others 2" in rule
    if column:
        assert new == "" or "\\" in new or status == "LIMIT_WRONG_ORDER" or value in new, "the cell that is wrong, and no other"
        assert value and value in (data / file).read_text(encoding="utf-8").splitlines()[int(line) - 1]


@pytest.mark.parametrize("name, text", [("study", ""), ("batch", ""), ("crimps", "piece,time\n")])
def test_a_table_that_is_none(data, name, text):
    (data / f"{name}.csv").write_text(text, encoding="utf-8")
    found = refused(run_quality(data=data))
    assert found[0][0] == f"{name}.csv"


def test_crimps_out_of_order_are_refused(data):
    change(data, "crimps", r"^12,", "10,")
    (where, line, column, value, rule), = refused(run_quality(data=data))
    assert (where, line, column, value) == ("crimps.csv", "15", "piece", "10") and "in the order they were made" in rule


def test_a_page_that_cannot_be_written(tmp_path):
    output = run_quality("--page", tmp_path / "no folder" / "batch.html")
    assert output.status == 2 and output.text == "" and "cannot be written" in output.errors


def test_names_that_cannot_be_seen_are_refused(data):
    change(data, "gauge", "micrometer 1", "micro\x1b[31mmeter")
    (where, _, column, _, rule), = refused(run_quality(data=data))
    assert (where, column) == ("gauge.csv", "gauge") and "printed" in rule


def test_tables_with_a_decimal_comma(data, report):
    for name in ("crimps", "study", "blocks"):
        path = data / f"{name}.csv"
        path.write_text(re.sub(r"([\d.]+ mm)", lambda found: f'"{found[1].replace(".", ",")}"', path.read_text(encoding="utf-8")),
                        encoding="utf-8")
    output = run_quality("--decimal-comma", "crimps.csv", "study.csv", "blocks.csv", data=data)
    assert read_quality(output.text).figures == report.figures
