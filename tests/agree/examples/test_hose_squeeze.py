# SPDX-License-Identifier: MIT
"""The twin crimp, run as a user runs it. Its readings are put into the model with mpmath (tests/agree/catalogue/forming_model.py), which does
not call the library. Environment: FERRULE_PYTHON."""
import os
import pathlib
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree

import pytest
from mpmath import mp, mpf, pi

ROOT = pathlib.Path(__file__).resolve().parents[3]
FOLDER = ROOT / "examples" / "hose_squeeze"
sys.path.insert(0, str(ROOT / "tests" / "agree" / "catalogue"))
from forming_model import Stroke  # noqa: E402

STEEL = {"e": 206000, "nu": mpf("0.3"), "h": 0}


@pytest.fixture(scope="module")
def printed(tmp_path_factory):
    home = tmp_path_factory.mktemp("home")
    environment = {**os.environ, "PYTHONPATH": os.environ["FERRULE_PYTHON"], "PYTHONDONTWRITEBYTECODE": "1", "MPLCONFIGDIR": str(home)}
    texts, pictures = [], []
    for name in ("one.svg", "two.svg"):
        texts.append(subprocess.run([sys.executable, FOLDER / "hose_squeeze.py", home / name], env=environment, check=True, text=True,
                                    stdout=subprocess.PIPE, timeout=120).stdout)
        pictures.append((home / name).read_bytes())
    assert texts[0] == texts[1] and pictures[0] == pictures[1]
    return texts[0], pictures[0]


@pytest.fixture(scope="module")
def sections(printed):
    """Lines below each title."""
    found = {}
    for block in printed[0].split("\n\n"):
        title, *lines = block.splitlines()
        found[title] = [line.strip() for line in lines]
    return found


def force_and_stretch(strength, restraint, squeeze):
    """At the crimp diameter of both pieces, 23.55 mm, and 28 mm long."""
    with mp.workdps(30):
        diameter = mpf("23.51")
        for _ in range(2):  # the springback hardly follows the diameter
            found = Stroke("2.4", "25.6", diameter, STEEL | {"y": strength}, restraint, squeeze, points=2).results()
            diameter = mpf("23.55") - found["springback"]
    return found["pressure"] * pi * diameter * 28 * found["stretch"] / 1000, 28 * found["crimp_stretch"]


def test_readings_come_back(sections):
    """What was found, as it is printed, needs the forces that were read. The bare piece is as restrained as its length says."""
    first = next(lines for title, lines in sections.items() if title.startswith("Squeeze of the hose in the crimp (not oil pressure)"))
    squeeze, u, strength, restraint = (float(x) for x in re.search(
        r"twin crimp: (\d+) MPa, standard uncertainty (\d+) MPa; yield strength (\d+) MPa, restraint (-?\d+) %", first[0]).groups())
    force, length = force_and_stretch(strength, restraint / 100, squeeze)
    # printed to 1 MPa and 1 %: half of each is worth 0.3 % of the force and 0.01 mm
    assert float(force) == pytest.approx(219.2, rel=6e-3) and float(length) == pytest.approx(29.41, abs=0.015)
    bare = [force_and_stretch(strength, r, 0) for r in (0.0, 0.1)]
    share = (29.62 - float(bare[0][1])) / float(bare[1][1] - bare[0][1])
    assert float(bare[0][0] + share * (bare[1][0] - bare[0][0])) == pytest.approx(171.0, rel=4e-3)
    certificate = [float(x) for x in re.search(r"certificate alone: (\d+) MPa, standard uncertainty (\d+) MPa", first[1]).groups()]
    assert u < squeeze / 4 and certificate[1] > certificate[0] / 2
    assert abs(float(re.search(r"at most (\d+) MPa", first[2]).group(1)) - 2.5 * squeeze) <= 2.5 * 0.5 + 0.5


@pytest.mark.parametrize("press, before, after", [
    ("bench press of 2000 kN", "READY", "READY"), ("small press of 240 kN", "AFTER CONFIRMING", "READY"),
    ("small press of 210 kN", "AFTER CONFIRMING", "NOT READY")])
def test_what_it_changes(sections, press, before, after):
    unknown, known = sections[f"{press}, nothing known of the squeeze"], sections[f"{press}, after the twin crimp"]
    assert unknown[1] == before and known[1] == after
    assert "at least" in unknown[0] and "at least" not in known[0]
    assert any("is not known" in line for line in unknown[2:]) and not any("is not known" in line for line in known[2:])
    assert any("may be too weak" in line for line in unknown[2:]) == (before != "READY")
    capacity = float(re.search(r"(\d+) kN", press).group(1))
    use = float(re.search(r"(\d+) % of the capacity", known[0]).group(1))
    assert "force 219 kN" in known[0] and use == pytest.approx(100 * 219.2 / capacity, abs=0.6)
    assert ("needs more force than the press is rated for" in " ".join(known)) == (capacity < 219)


def test_what_it_does_not_promise(printed):
    assert "a proof test decides" in printed[0] and "cut up" in printed[0] and "oil pressure" in printed[0]


def test_picture(printed):
    """Two curves, and the marks of the two readings on them."""
    tree = ElementTree.fromstring(printed[1])
    curves = [e.get("d") for e in tree.iter("{http://www.w3.org/2000/svg}path") if e.get("d", "").count("L") >= 60]
    assert len(curves) == 2
    marks = [(float(use.get("x")), float(use.get("y"))) for group in tree.iter("{http://www.w3.org/2000/svg}g") if group.get("clip-path")
             for use in group.iter("{http://www.w3.org/2000/svg}use")]
    assert len(marks) == 2
    for x, y in marks:
        points = [tuple(map(float, point.split())) for curve in curves for point in re.split("[ML]", curve) if point.strip()]
        assert min(abs(px - x) + abs(py - y) for px, py in points) < 9
