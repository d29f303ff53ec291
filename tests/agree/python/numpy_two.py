# SPDX-License-Identifier: MIT
"""The Python package with the newest NumPy and pandas out of PyPI: built against them in a virtual environment, and tested there.
Debian has NumPy 1, with which all other tests run.

Usage: python3 numpy_two.py [BUILD_FOLDER]    needs a network, SWIG, a C compiler and python3-venv
"""
import os
import pathlib
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
TOOLS = ["build", "setuptools", "wheel", "numpy>=2", "pandas>=2", "dask[array]", "pytest", "hypothesis"]
TESTS = ["bulk", "setup_tables"]


def run(*command, **environment):
    subprocess.run([str(word) for word in command], check=True, timeout=1800, env={**os.environ, **environment})


def main():
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else name)
        run("/usr/bin/python3", "-m", "venv", folder / "venv")
        python = folder / "venv/bin/python"
        run(python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", *TOOLS)
        run(python, "-m", "build", "--no-isolation", "--wheel", "--outdir", folder / "wheels", ROOT / "bindings/python")
        run(python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--force-reinstall", "--no-deps",
            *(folder / "wheels").glob("*.whl"))
        installed = next((folder / "venv").glob("lib/python*/site-packages"))
        files = [ROOT / "tests/agree/python" / f"test_{test}.py" for test in TESTS]
        run(python, "-m", "pytest", "-q", "-p", "no:cacheprovider", *files, FERRULE_PYTHON_PATH=str(installed))
        code = "import numpy, pandas; print('NumPy', numpy.__version__, 'pandas', pandas.__version__); assert numpy.__version__ >= '2'"
        run(python, "-c", code)


main()
