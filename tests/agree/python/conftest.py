# SPDX-License-Identifier: MIT
"""The package that was built, and values that many tests use. FERRULE_PYTHON_PATH says where the package is."""
import os
import pathlib
import sys

import pytest
from hypothesis import HealthCheck, settings

ROOT = pathlib.Path(__file__).resolve().parents[3]
PACKAGE_PATH = os.environ.get("FERRULE_PYTHON_PATH", str(ROOT / "build" / "release" / "python"))
sys.path.insert(0, PACKAGE_PATH)

import ferrule  # noqa: E402

# Everything of the package: words and errors are in its namespace once they were asked for.
PUBLIC = {name: getattr(ferrule, name) for name in dir(ferrule)}

# A busy machine is no error, and a run on CI draws the same examples each time.
settings.register_profile("ferrule", deadline=None, suppress_health_check=[HealthCheck.too_slow],
                          derandomize="CI" in os.environ)
settings.load_profile("ferrule")


def pytest_configure(config):
    config.addinivalue_line("markers", "more: needs packages, or time, that only the ring `all` has")


@pytest.fixture
def joint():
    return ferrule.Joint(hose=ferrule.Hose(inside="12.7 mm", outside="19.9 mm"), stem=ferrule.Stem("13 mm"),
                         ferrule=ferrule.Ferrule(wall="1.5 mm", outside="28 mm"))


@pytest.fixture
def setup(joint):
    return ferrule.plan_setup(joint, ferrule.Press(graduation="0.05 mm"), ["16 mm", "19 mm"])
