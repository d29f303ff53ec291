# SPDX-License-Identifier: MIT
"""python -m ferrule, as it is run."""
import json
import os
import re
import subprocess
import sys

import pytest

import ferrule
from conftest import PACKAGE_PATH

JOINT = ["--hose-inside", "12.7 mm", "--hose-outside", "19.9 mm", "--stem-outside", "12.95mm", "--ferrule-wall", "2.4mm",
         "--ferrule-outside", "25.6 mm"]


def run(*words, **environment):
    return subprocess.run([sys.executable, "-m", "ferrule", *words], capture_output=True, text=True, check=False,
                          env={**os.environ, "PYTHONPATH": PACKAGE_PATH, **environment})


def lines(result):
    assert result.stderr == "", result.stderr
    return {m[1]: m[2] for m in re.finditer(r"^  (\S.*?)  +(.*)$", result.stdout, re.MULTILINE)}


def test_plan():
    result = run("plan", *JOINT, "--dies", "16 mm", "19 mm", "22 mm", "--graduation", "0.05 mm")
    said = lines(result)
    # By hand: 12.95 + 2 * 2.4 + 7.2 * 0.8; * 0.75, * 0.85; 23.51 - 22 on a dial of 0.05. Wall growth: worked figures.
    assert result.returncode == 0 and said["target"] == "23.51 mm, computed"
    assert said["window"] == "23.15 mm to 23.87 mm, compression 15.0 % to 25.0 %"
    assert said["die"] == "22.00 mm, offset 1.51 mm" and said["dial"] == "1.50 mm; diameter to expect 23.50 mm"
    assert said["with wall growth"] == "22.8 % if the ferrule lengthens freely" and "27.6 % with its ends fixed" in result.stdout
    assert ferrule.Caution.CLOSING_DIES.text in result.stdout and ferrule.Caution.MANUFACTURERS_DATA_FIRST.text in result.stdout


def test_plan_as_json():
    result = run("plan", "--json", *JOINT, "--dies", "22 mm")
    data = json.loads(result.stdout)
    assert result.returncode == 0 and data["set_up"]["die"]["die"]["size"] == "22 mm"
    assert data["cautions"] and all(isinstance(text, str) for text in data["remarks"])
    assert ferrule.Setup(**data["set_up"]).die.found


def test_plan_in_inches_published_and_without_a_die():
    said = lines(run("plan", *JOINT, "--dies", "22 mm", "--published", "0.925 in", "--tolerance", "0.004 in", "--in", "inch"))
    assert said["target"] == "0.9250 in, published" and said["accept"] == "0.9210 in to 0.9290 in"
    result = run("plan", *JOINT[:-2])  # without the ferrule's outside no growth can be computed: said once
    assert result.stdout.count("not computed: ferrule outside") == 1
    result = run("plan", *JOINT)
    assert result.returncode == 1 and lines(result)["die"] == "none; one of 16.51 mm to 23.51 mm would do"  # 23.51 - 7


def test_judge():
    # The mean of 23.50, 23.52, 23.51 is 23.51; limits 0.36 away: nothing to doubt.
    result = run("judge", "23.50 mm", "23.52 mm", "23.51 mm", "--limits", "23.15 mm", "23.87 mm")
    assert result.returncode == 0 and lines(result)["verdict"] == "accept"
    assert lines(result)["mean"] == "23.51 mm of 3 readings, 23.50 mm to 23.52 mm"
    assert lines(result)["uncertainty"] == "0.01 mm (standard), the gauge assumed exact"
    result = run("judge", "24.50 mm", "--limits", "23.15 mm", "23.87 mm", "--gauge", "0.01 mm", "--json")
    data = json.loads(result.stdout)
    assert result.returncode == 1 and data["verdict"]["decision"] == "REJECT" and data["readings"]["count"] == 1
    result = run("judge", "23.86 mm", "--limits", "23.15 mm", "23.87 mm", "--gauge", "0.02 mm")
    assert lines(result)["mean"].startswith("23.86 mm of 1 reading,") and lines(result)["uncertainty"] == "0.02 mm (standard)"
    assert result.returncode == 1 and lines(result)["verdict"].startswith("undecided")
    assert ferrule.Caution.SCRAP_NOT_REPAIR.text in result.stdout


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
    ([], "required: plan, judge, units or about"),
    (["plann"], "invalid choice: 'plann'"),
    (["plan", "--hose-inside", "12.7", *JOINT[2:]], "--hose-inside: '12.7': a number without a unit"),
    (["plan", "--hose-inside", "12.7 bar", *JOINT[2:]], "--hose-inside: '12.7 bar': the unit belongs to another kind"),
    (["plan", "--hose-inside", "nan mm", *JOINT[2:]], "--hose-inside: 'nan mm': the text does not begin with a number"),
    (["plan", "--hose-inside", "9" * 2000 + " mm", *JOINT[2:]], "longer than"),
    (["plan", "--hose-inside", "22 mm", *JOINT[2:]], "hose outside diameter is not above its inside diameter (hose: Hose(inside=\"22 mm\""),
    (["plan", *JOINT, "--dies", "-3 mm"], "plan_setup: "),
    (["plan", *JOINT, "--segments", "many"], "--segments: invalid int value: 'many'"),
    (["plan", *JOINT, "--segments", "9" * 30], "segments"),
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
