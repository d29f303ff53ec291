# SPDX-License-Identifier: MIT
"""The what-if script and its notebook, run as a user runs them. Environment: FERRULE_PYTHON,
FERRULE_SIMULATE."""
import json
import os
import pathlib
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree

import pytest

FOLDER = pathlib.Path(__file__).resolve().parents[3] / "examples" / "what_if"
PICTURES = ["sweep", "tornado", "share", "map", "simulated"]


@pytest.fixture(scope="module")
def environment(tmp_path_factory):
    home = tmp_path_factory.mktemp("home")  # for what matplotlib and Jupyter keep
    paths = os.pathsep.join([os.environ["FERRULE_PYTHON"], str(FOLDER)])
    return {**os.environ, "PYTHONPATH": paths, "PYTHONDONTWRITEBYTECODE": "1", "HOME": str(home),
            "MPLCONFIGDIR": str(home), "IPYTHONDIR": str(home)}


def run_script(environment, folder, *options):
    command = [sys.executable, FOLDER / "what_if.py", folder, "--trials", "600000", *options]
    return subprocess.run(command, env=environment, check=True, text=True, stdout=subprocess.PIPE, timeout=300).stdout


def test_script(environment, tmp_path):
    printed = run_script(environment, tmp_path / "one", "--threads", "1")
    assert printed == run_script(environment, tmp_path / "three", "--threads", "3")
    for name in PICTURES:
        one, three = [(tmp_path / f / f"what_if_{name}.svg").read_bytes() for f in ("one", "three")]
        assert one == three
        paths = [e for e in ElementTree.fromstring(one).iter("{http://www.w3.org/2000/svg}path") if len(e.get("d", "")) > 20]
        assert len(paths) > 5
    # two independent scripts and tests/agree/vectors give 0.99401852 for this joint
    exact, random, sobol = [float(x) for x in re.findall(r"(\d+\.\d+) %", printed)[:3]]
    errors = [float(x) for x in re.findall(r"\+- (\d+\.\d+)", printed)]
    assert exact == pytest.approx(99.401852, abs=1e-6)
    assert abs(random - exact) < 4 * errors[0] and abs(sobol - exact) < 4 * errors[1]
    assert "hose outside" in printed.splitlines()[-1]


def test_c_program(environment):
    """Threads with a progress bar; the same line for any number of them."""
    runs = [subprocess.run([environment["FERRULE_SIMULATE"], "1", str(n)], check=True, text=True, stdout=subprocess.PIPE,
                           stderr=subprocess.PIPE, timeout=100) for n in (1, 2, 5)]
    assert len({r.stdout for r in runs}) == 1 and "inside 9" in runs[0].stdout
    assert all(r.stderr.endswith(f"[{'#' * 40}] 100 %\n") for r in runs)
    assert subprocess.run([environment["FERRULE_SIMULATE"], "x"], stderr=subprocess.DEVNULL).returncode == 2


def test_notebook(environment, tmp_path):
    pytest.importorskip("nbconvert", reason="Debian's jupyter-nbconvert and python3-ipykernel")
    command = [sys.executable, "-m", "nbconvert", "--to", "notebook", "--execute", "--output-dir", tmp_path,
               FOLDER / "what_if.ipynb"]
    subprocess.run(command, env=environment, check=True, timeout=400, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    cells = [c for c in json.loads((tmp_path / "what_if.ipynb").read_text())["cells"] if c["cell_type"] == "code"]
    assert all(c["execution_count"] for c in cells)
    pictures = [o for c in cells for o in c["outputs"] if "image/png" in o.get("data", {})]
    assert len(pictures) == len(PICTURES)


def test_committed_notebook_is_empty():
    notebook = json.loads((FOLDER / "what_if.ipynb").read_text())
    assert not any(c.get("outputs") or c.get("execution_count") for c in notebook["cells"])
