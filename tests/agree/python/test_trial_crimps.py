# SPDX-License-Identifier: MIT
"""The example with the trial crimps finds the cause that was put into its data."""
import os
import pathlib
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
    assert ": accept" in printed["1"] and "causes of the diameter" not in printed["1"]
    assert "nothing is wrong" in printed["1"].splitlines()[5]


def test_what_was_seen_and_the_cautions_are_reported(printed):
    assert "seen on the pieces: too loose, too loose" in printed["6"]
    said = {caution for caution in ferrule.Caution if printed["all"].count(caution.text) == 1}
    assert said == {caution for stage in ("planning", "trial", "failure") for caution in ferrule.stage_cautions(stage)}


def test_the_dial_is_corrected_once(printed):
    assert printed["7"].count("set it to 2.00 mm") == 1 and printed["7"].count("leave it") == 2


def test_every_row_was_read_and_the_data_are_said_to_be_invented(printed):
    assert "NOT READ" not in printed["all"] and "invented" in printed["all"]
    for file in (ROOT / "examples" / "trial_crimps").glob("*.csv"):
        assert file.read_text(encoding="utf-8").startswith("# Invented data")
