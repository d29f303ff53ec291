# SPDX-License-Identifier: MIT
"""The tables of decisions are what the scripts beside them make of their cases: mpmath and SciPy, without the library."""
import importlib
import pathlib
import sys

import pytest
import mpmath  # noqa: F401
import scipy.stats  # noqa: F401

FOLDER = pathlib.Path(__file__).parents[1] / "vectors" / "decisions"
sys.path.insert(0, str(FOLDER))


@pytest.mark.parametrize("name", ["orders", "inspections"])
def test_table_is_what_its_rules_say(name, monkeypatch):
    monkeypatch.setattr(sys, "argv", [name])
    importlib.import_module(name).main()


def test_racks_are_what_their_script_finds(monkeypatch):
    monkeypatch.syspath_prepend(str(FOLDER.parent))
    assert importlib.import_module("shop").written() == (FOLDER.parent / "shop.csv").read_text(encoding="utf-8")


def test_scripts_do_not_know_the_library():
    for script in (*FOLDER.glob("*.py"), FOLDER.parent / "shop.py"):
        text = script.read_text(encoding="utf-8")
        assert "import ferrule" not in text and "from ferrule" not in text
