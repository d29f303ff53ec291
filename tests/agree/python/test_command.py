# SPDX-License-Identifier: MIT
"""python -m ferrule, as it is run."""
import doctest
import json
import os
import re
import subprocess
import sys

import pytest

import ferrule
from ferrule import show
from conftest import PACKAGE_PATH

JOINT = ["--hose-inside", "12.7 mm", "--hose-outside", "19.9 mm", "--stem-outside", "12.95mm", "--ferrule-wall", "2.4mm",
         "--ferrule-outside", "25.6 mm"]


def run(*words, **environment):
    return subprocess.run([sys.executable, "-m", "ferrule", *words], capture_output=True, text=True, check=False,
                          env={**os.environ, "PYTHONPATH": PACKAGE_PATH, **environment})


def lines(result):
    assert result.stderr == "", result.stderr
    return {m[1]: m[2] for m in re.finditer(r"^  (\S.*?)  +(.*)$", result.stdout, re.MULTILINE)}


READY = ["--dies", "16 mm", "19 mm", "22 mm", "--graduation", "0.05 mm", "--opening", "32 mm", "--approval", "approved", "--insertion",
         "31 mm", "--gauge", "0.01 mm", "--resolution", "0.01 mm", "--published", "23.50 mm", "--tolerance", "0.2 mm", "--known", "0.08 mm",
         "0.10 mm", "0.02 mm", "0.03 mm", "0.03 mm", "0.05 mm"]
COMPUTED = [word for word in READY if word not in ("--published", "23.50 mm", "--tolerance", "0.2 mm")]


def headings(result):
    """Lines that begin a group, the first line without its sentence."""
    return [line.split(":")[0] for line in result.stdout.splitlines() if line and not line.startswith(" ")]


def test_plan():
    result = run("plan", *JOINT, *READY)
    said = lines(result)
    # By hand: 23.5 - 22 on a dial of 0.05; window 12.95 + 2 * 2.4 + 7.2 * 0.75, * 0.85; (7.2 - (23.5 - 4.8 - 12.95)) / 7.2 = 20.14 %.
    # Zone: 1.65 * sqrt(0.01^2 + 0.01^2 / 12) = 0.0172 inside 23.3 and 23.7, to the step of 0.01.
    assert result.returncode == 0 and result.stdout.startswith("[OK] READY: crimp one piece and check it")
    assert headings(result) == ["[OK] READY", "Set", "Expect", "Target", "Compression", "Cautions"]
    assert said["target"] == "23.50 mm, published" and said["window"] == "23.15 mm to 23.87 mm, compression 15.0 % to 25.0 %"
    assert said["die"] == "22.00 mm" and said["dial"] == "1.50 mm" and said["crimp diameter"] == "23.50 mm"
    assert said["accept"] == "23.32 mm to 23.68 mm, as the gauge shows it" and said["limits"] == "23.30 mm to 23.70 mm"
    assert said["look at first"] == "20.1 % by the plain formula" and said["uncertainty"] == "1.8 % points (standard)"
    assert "best target" not in said  # a diameter is published
    assert ferrule.Caution.CLOSING_DIES.text in result.stdout and ferrule.Caution.MANUFACTURERS_DATA_FIRST.text in result.stdout


def test_plan_computed_waits_for_a_name_and_for_the_figures_that_were_looked_at():
    result = run("plan", *JOINT, *COMPUTED)
    said = lines(result)
    assert result.returncode == 3 and headings(result)[:2] == ["[?] AFTER CONFIRMING", "CONFIRM"]
    assert said["target"] == "23.51 mm, computed" and said["best target"].startswith("23.5")
    assert "  --looked-at 23.5100mm - 22.0000mm 20.00%\n" in result.stdout and "\n  - TARGET_COMPUTED\n" in result.stdout
    looked = ["--looked-at", "23.5100mm", "-", "22.0000mm", "20.00%"]
    done = run("plan", *JOINT, *COMPUTED, "--confirm", "TARGET_COMPUTED", "specification owner, K.R.", *looked)
    assert done.returncode == 0 and "confirmed by specification owner, K.R.: no diameter is published" in done.stdout
    for changed in ("23.5mm", "23.52mm"):  # other figures than today's: void
        void = run("plan", *JOINT, *COMPUTED, "--confirm", "TARGET_COMPUTED", "K.R.", "--looked-at", changed, *looked[2:])
        assert void.returncode == 3 and ferrule.Remark.CONFIRMATION_STALE.sentence in void.stdout
        assert "not confirmed: no diameter is published" in void.stdout and "confirmed by" not in void.stdout


def test_what_is_not_ready_has_nothing_to_set():
    """Published 21 mm: (7.2 - (21 - 4.8 - 12.95)) / 7.2 = 54.9 %, by hand."""
    result = run("plan", *JOINT, *READY, "--published", "21 mm")
    assert result.returncode == 1 and headings(result)[:3] == ["[X] NOT READY", "STOP", "CONFIRM"]
    assert not {"Set", "Expect"} & set(headings(result)) and not {"die", "dial", "adapter", "accept", "shape"} & set(lines(result))
    assert "looked-at" not in result.stdout and "54.9 %" in result.stdout
    data = json.loads(run("plan", "--json", *JOINT, *READY, "--published", "21 mm").stdout)
    assert data["readiness"] == "NOT_READY" and not {"die", "dial", "springback_dial"} & set(data["set_up"])
    assert [r["severity"] for r in data["remarks"]][:2] == ["STOP", "CONFIRM"]
    assert data["remarks"][0]["name"] == "COMPRESSION_TOO_HIGH" and not data["remarks"][1]["confirmed"]


def test_plan_as_json():
    result = run("plan", "--json", *JOINT, *READY)
    data = json.loads(result.stdout)
    assert result.returncode == 0 and list(data)[0] == "readiness" and data["set_up"]["die"]["die"]["size"] == "22 mm"
    assert data["cautions"] and data["remarks"] == []
    assert ferrule.Setup(**data["set_up"]).readiness == ferrule.Readiness.READY


def test_a_negative_correction_is_a_value():
    for words in (["--correction", "-0.15mm"], ["--correction=-0.15mm"], ["--correction", "-0.15 mm"], ["--correction", "-.15mm"]):
        assert lines(run("plan", *JOINT, *READY, *words))["dial"] == "1.35 mm"  # 23.5 - 22 - 0.15
    assert "expected one argument" in run("plan", *JOINT, *READY, "--correction").stderr


def test_plan_in_inches_published_and_without_a_die():
    said = lines(run("plan", *JOINT, *READY, "--published", "0.925 in", "--tolerance", "0.004 in", "--in", "inch"))
    assert said["target"] == "0.9250 in, published" and said["limits"] == "0.9210 in to 0.9290 in"
    result = run("plan", *JOINT[:-2])  # without the ferrule's outside no growth can be computed: said once
    assert result.stdout.count("not computed: ferrule outside") == 1
    result = run("plan", *JOINT)
    assert result.returncode == 1 and lines(result)["die"] == "none; one of 16.51 mm to 23.51 mm would do"  # 23.51 - 7
    assert "To get" in headings(result) and "Set" not in headings(result)


def test_judge():
    # The mean of 23.50, 23.52, 23.51 is 23.51; limits 0.36 away: nothing to doubt.
    result = run("judge", "23.50 mm", "23.52 mm", "23.51 mm", "--limits", "23.15 mm", "23.87 mm", "--gauge", "0.01 mm")
    assert result.returncode == 0 and lines(result)["verdict"] == "diameter: accept"
    assert lines(result)["mean"] == "23.51 mm of 3 readings, 23.50 mm to 23.52 mm"
    assert lines(result)["conforms"] == "with a probability of > 99.9 %"
    result = run("judge", "24.50 mm", "24.50 mm", "--limits", "23.15 mm", "23.87 mm", "--gauge", "0.01 mm", "--json")
    data = json.loads(result.stdout)
    assert result.returncode == 1 and data["decision"] == "REJECT" and data["readings"]["count"] == 2
    assert ferrule.Caution.SCRAP_NOT_REPAIR.text in data["cautions"]
    result = run("judge", "24.50 mm", "24.50 mm", "--limits", "23.15 mm", "23.87 mm", "--gauge", "0.01 mm")
    assert lines(result)["verdict"] == "diameter: reject" and lines(result)["conforms"] == "with a probability of < 0.1 %"
    result = run("judge", "23.86 mm", "23.86 mm", "--limits", "23.15 mm", "23.87 mm", "--gauge", "0.02 mm")
    assert lines(result)["mean"].startswith("23.86 mm of 2 readings,")
    assert result.returncode == 3 and lines(result)["verdict"] == "diameter: undecided"
    assert ferrule.Caution.SCRAP_NOT_REPAIR.text not in result.stdout  # nobody cuts up what is undecided


def test_judge_without_a_gauge_accepts_nothing():
    words = ["judge", "23.50 mm", "23.52 mm", "23.51 mm", "--limits", "23.15 mm", "23.87 mm"]
    result = run(*words)
    assert result.returncode == 3 and lines(result)["verdict"] == "diameter: undecided"
    assert "the gauge is not given (--gauge)" in lines(result)["accept"]
    assert ferrule.Finding.GAUGE_TAKEN_AS_EXACT.sentence in result.stdout
    assert run("judge", "24.50 mm", "24.50 mm", *words[4:]).returncode == 1  # too large is too large
    result = run(*words, "--without-guard")
    assert result.returncode == 0 and lines(result)["verdict"] == "diameter: accept"
    for word in ("accept", "reject", "undecided"):  # the verdict on a diameter is never called by its word alone
        assert not re.search(rf"^\s*(verdict)?\s+{word}$", result.stdout, re.MULTILINE)


def test_every_reading_counts_where_the_limits_say_so():
    """Readings 23.28 and 23.72 in turn, limits 23.3 to 23.7: the mean is right, and no reading is."""
    words = ["judge", *["23.28 mm", "23.72 mm"] * 4, "--limits", "23.3 mm", "23.7 mm", "--gauge", "0.01 mm"]
    assert run(*words, "--applies-to", "mean").returncode in (0, 3)
    assert run(*words, "--applies-to", "every_reading").returncode == 1
    assert run(*words).returncode == 3


def test_exit_status_is_documented():
    for task in ("plan", "judge"):
        said = " ".join(run(task, "--help").stdout.split())
        assert "Exit status: 0 " in said and "; 1 " in said and "3 " in said and "2 something given is wrong" in said
    assert "%%" not in run("--help").stdout and '"20 %"' in run("--help").stdout


def test_the_examples_of_the_words():
    assert doctest.testmod(show).failed == 0 and doctest.testmod(show).attempted >= 4


@pytest.mark.parametrize("share, said", [
    (0.99900001, "> 99.9 %"), (1.0, "> 99.9 %"), (0.999, "99.9 %"), (0.9986, "99.9 %"), (0.9831, "98.3 %"), (0.001, "0.1 %"),
    (0.00099999, "< 0.1 %"), (0.0, "< 0.1 %")])
def test_a_printed_probability_stops(share, said):
    assert show.probability(ferrule.fraction(share)) == said


@pytest.mark.parametrize("step, places", [("0.05 mm", 2), ("0.1 mm", 1), ("1 mm", 0), ("0.001 mm", 3), ("0.025 mm", 3), ("0.001 in", 4),
                                          ("0 mm", 3)])
def test_a_dial_has_as_many_decimals_as_its_graduation(step, places):
    assert show.decimals(step) == places


def test_units():
    said = lines(run("units"))
    assert said["Pressure"].startswith("mpa (MPa), bar, psi") and len(said) == 8
    assert {name for row in json.loads(run("units", "--json").stdout).values() for name in row} == {u.name for u in ferrule.Unit}
    assert lines(run("units", "4.96 in", "mm")) == {"mm": "125.984 mm"}  # 4.96 * 25.4
    assert lines(run("units", "25 MPa"))["bar"] == "250 bar"
    assert json.loads(run("units", "212 °F", "--json").stdout)["values"]["celsius"] == 100


def test_about():
    result = run("about")
    said = lines(result)
    assert said["version"] == ferrule.__version__ and "ferrule.bulk" in said["numpy"]
    assert all(caution.text in result.stdout for caution in ferrule.Caution)
    data = json.loads(run("about", "--json").stdout)
    assert data["version"] == ferrule.__version__ and set(data["packages"]) == {"numpy", "pandas", "pint", "matplotlib"}


@pytest.mark.parametrize("words, reported", [
    (["plan"], "required: --hose-inside"),
    ([], "required: plan, judge, replay, units or about"),
    (["plann"], "invalid choice: 'plann'"),
    (["plan", "--hose-inside", "12.7", *JOINT[2:]], "--hose-inside: '12.7': a number without a unit"),
    (["plan", "--hose-inside", "12.7 bar", *JOINT[2:]], "--hose-inside: '12.7 bar': the unit belongs to another kind"),
    (["plan", "--hose-inside", "nan mm", *JOINT[2:]], "--hose-inside: 'nan mm': the text does not begin with a number"),
    (["plan", "--hose-inside", "9" * 2000 + " mm", *JOINT[2:]], "longer than"),
    (["plan", "--hose-inside", "22 mm", *JOINT[2:]], "hose outside diameter is not above its inside diameter (hose: Hose(inside=\"22 mm\""),
    (["plan", *JOINT, "--dies", "-3 mm"], "plan_setup: "),
    (["plan", *JOINT, "--segments", "many"], "--segments: invalid int value: 'many'"),
    (["plan", *JOINT, "--segments", "9" * 30], "segments"),
    (["plan", *JOINT, "--confirm", "TARGET_COMPUTED"], "--confirm: expected 2 arguments"),
    (["plan", *JOINT, "--confirm", "TARGET_COMPUTED", "K.R."], "--confirm needs --looked-at"),
    (["plan", *JOINT, "--confirm", "TARGET_COMPUTED", " ", "--looked-at", "23.51mm", "-", "-", "20%"], "nobody is named"),
    (["plan", *JOINT, "--confirm", "NO_DIE", "K.R.", "--looked-at", "23.51mm", "-", "-", "20%"], "only a remark with the severity CONFIRM"),
    (["plan", *JOINT, "--confirm", "TARGETS", "K.R.", "--looked-at", "23.51mm", "-", "-", "20%"], "remark has to be a word of Remark"),
    (["plan", *JOINT, "--confirm", "TARGET_COMPUTED", "K.R.", "--looked-at", "23.51", "-", "-", "20%"], "a number without a unit"),
    (["judge", "23 mm"], "required: --limits"),
    (["judge", "--limits", "1 mm", "2 mm"], "required: READING"),
    (["judge", "23 mm", "--limits", "2 mm", "1 mm"], "the lower limit is not below the upper limit"),
    (["units", "5"], "'5': a number without a unit"),
    (["units", "5 furlongs"], "'5 furlongs': the unit is not one of those known"),
    (["units", "5 mm", "bar"], "'bar': not a unit of Length; its units: mm"),
    (["units", "5 mm", "mm", "cm"], "unrecognized arguments: cm")])
def test_what_is_wrong_is_reported_in_one_line(words, reported):
    result = run(*words)
    assert result.returncode == 2 and result.stdout == ""
    assert result.stderr.startswith("python -m ferrule: ") and result.stderr.count("\n") == 1 and reported in result.stderr, result.stderr


def test_bytes_that_are_no_text_and_a_plain_terminal():
    result = subprocess.run([sys.executable, "-m", "ferrule", "units", b"5 \xff"], capture_output=True, check=False,
                            env={**os.environ, "PYTHONPATH": PACKAGE_PATH})
    assert result.returncode == 2 and b"Traceback" not in result.stderr and result.stderr.count(b"\n") == 1
    assert run("units", PYTHONIOENCODING="ascii").returncode == 0


def test_help_names_every_task():
    result = run("--help")
    assert result.returncode == 0 and all(word in result.stdout for word in ("plan", "judge", "units", "about"))
    for task in ("plan", "judge", "units", "about"):
        more = run(task, "--help")
        assert more.returncode == 0 and "%%" not in result.stdout + more.stdout


def test_who_reads_may_go():
    process = subprocess.Popen([sys.executable, "-m", "ferrule", "about"], stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                               env={**os.environ, "PYTHONPATH": PACKAGE_PATH})
    process.stdout.close()
    assert process.wait() == 0 and process.stderr.read() == b""
    process.stderr.close()
