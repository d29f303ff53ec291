# SPDX-License-Identifier: MIT
"""The example with the trial crimps finds the cause that was put into its data."""
import os
import pathlib
import re
import subprocess
import sys

import pytest

import ferrule
from conftest import PACKAGE_PATH, ROOT

CAUSES = {"2": "one turn wrong", "3": "another die of the rack", "4": "inches and millimetres",
          "5": "the adapter set was left out", "6": "for another coupling"}


@pytest.fixture(scope="module")
def printed():
    run = subprocess.run([sys.executable, str(ROOT / "examples" / "trial_crimps" / "morning.py")], text=True, check=True,
                         stdout=subprocess.PIPE, cwd=pathlib.Path("/"),
                         env={**os.environ, "PYTHONPATH": PACKAGE_PATH, "PYTHONDONTWRITEBYTECODE": "1"})
    parts = run.stdout.split("\n\n")
    return {part.split(":")[0].removeprefix("set-up "): part for part in parts} | {"all": run.stdout}


@pytest.mark.parametrize("name, words", CAUSES.items())
def test_the_cause_comes_first(printed, name, words):
    causes = printed[name].split("causes of the ")[1].splitlines()
    assert words in causes[1]
    assert "check next" in printed[name]


def test_the_good_one_is_accepted(printed):
    assert "diameter: accept" in printed["1"] and "causes of the diameter" not in printed["1"]
    lines = printed["1"].splitlines()
    assert "nothing is wrong" in lines[lines.index("   causes of the look:") + 1]


def test_readiness_stands_first_and_what_is_not_ready_is_not_judged(printed):
    for name in "123457":
        assert printed[name].startswith(f"set-up {name}: [OK] READY: ")
    assert printed["6"].startswith("set-up 6: [?] AFTER CONFIRMING: ")
    remark = "CONFIRM: not confirmed: at the published diameter the compression is below its range"
    assert printed["6"].index(remark) < printed["6"].index("GOOD TO KNOW") < printed["6"].index("trial 1")
    assert "not judged, the set-up is AFTER CONFIRMING" in printed["6"]
    assert not any(words in printed["6"] for words in ("diameter: accept", "dial: leave it", "first piece", "conforms"))


def test_the_zone_is_that_of_the_gauge(printed):
    """27.3 - 0.12 + 1.65 sqrt(0.004^2 + 0.001^2 / 12) + 0.002, and 27.3 + 0.12 - the same, + 0.002; to the step of 0.001 mm inwards."""
    assert "accept 27.189 mm to 27.415 mm, as the gauge shows it" in printed["1"]


def test_a_verdict_is_of_the_diameter_and_the_first_piece_needs_more(printed):
    assert not re.search(r"target: (accept|reject|undecided)", printed["all"])
    assert "first piece: not accepted, crimp nothing more\n      bore: not checked" in printed["1"]
    assert "looks: not looked at" in printed["7"] and "first piece: accepted" not in printed["all"]


def test_nearly_sure_is_not_printed_as_if_it_were_known(printed):
    assert "conforms with > 99.9 %" in printed["1"] and "conforms with < 0.1 %" in printed["2"] and "100.0 %" not in printed["all"]


def test_what_was_seen_and_the_cautions_are_reported(printed):
    assert "seen on the pieces: too loose, too loose" in printed["6"]
    said = {caution for caution in ferrule.Caution if printed["all"].count(caution.text) == 1}
    assert said == {caution for stage in ("planning", "trial", "failure", "hold") for caution in ferrule.stage_cautions(stage)}


def test_the_dial_is_corrected_once(printed):
    assert printed["7"].count("set it to 2.00 mm") == 1 and printed["7"].count("leave it") == 2


def test_every_row_was_read_and_the_data_are_said_to_be_invented(printed):
    assert "NOT READ" not in printed["all"] and "invented" in printed["all"]
    for file in (ROOT / "examples" / "trial_crimps").glob("*.csv"):
        assert file.read_text(encoding="utf-8").startswith("# Invented data")
