# SPDX-License-Identifier: MIT
"""The package as a whole: docstrings, stubs, names, import, and that nothing of a header is left out."""
import inspect
import os
import pathlib
import pickle
import re
import resource
import subprocess
import sys

import pytest

import ferrule
from conftest import PACKAGE_PATH, PUBLIC, ROOT

# Module bulk is C's own: it is made of pointers, and Python has arrays.
HEADERS = "\n".join(path.read_text() for path in sorted((ROOT / "include" / "ferrule").glob("*.h")) if path.name != "bulk.h")
FUNCTIONS = [name for name, value in PUBLIC.items() if inspect.isbuiltin(value)]
TYPES = [value for value in PUBLIC.values() if isinstance(value, type)]


def run(*command, **environment):
    return subprocess.run(command, capture_output=True, text=True, env={**os.environ, **environment}, check=False)


def test_everything_public_is_there():
    declared = set(re.findall(r'^FER_API (?:FER_DEPRECATED\("\w+"\) )?[\w *]*?\bfer_(\w+)\(', HEADERS, re.MULTILINE))
    assert len(declared) > 20 and declared <= set(FUNCTIONS)
    units = set(re.findall(r"^    X\(\w+, \w+, (\w+), [\d.]+, [\d.]+,", HEADERS, re.MULTILINE))
    assert {"mm", "inch", "psi", "percent"} < units and units <= set(FUNCTIONS)
    structs = re.findall(r"^typedef (?:struct|enum) fer_(\w+)", HEADERS, re.MULTILINE)
    missing = {s for s in structs if not hasattr(ferrule, "".join(w.capitalize() for w in s.split("_")))}
    assert missing == {"assembly_points", "batch_findings", "cautions", "changes", "chart_signals", "end_points", "findings", "needs", "remarks", "study_findings"} & missing  # sets of words are tuples
    members = {s: re.findall(r"^    \w+ (\w+)(?:\[.*\])?;", body, re.MULTILINE) for body, s in
               re.findall(r"^typedef struct fer_\w+ \{\n(.*?)\} fer_(\w+);", HEADERS, re.MULTILINE | re.DOTALL)}
    assert members["hose"] == ["inside", "outside", "reinforcement"]
    assert ferrule.Hose.__match_args__ == tuple(members["hose"])
    assert not [n for n in PUBLIC if n.lower().startswith(("swig", "fer_")) or n.startswith(("to_", "parse_", "format_"))]


@pytest.mark.parametrize("name", FUNCTIONS)
def test_docstrings_of_functions(name):
    function = getattr(ferrule, name)
    assert re.match(r"[A-Z0-9]", function.__doc__) and "fer_" not in function.__doc__ and "\\" not in function.__doc__
    assert function.__module__ == "ferrule" and pickle.loads(pickle.dumps(function)) is function
    for parameter in inspect.signature(function).parameters:
        assert f"    {parameter} (" in function.__doc__


def test_docstrings_of_types():
    for type_ in TYPES:
        assert type_.__doc__ and type_.__module__ == "ferrule", type_
        for member in getattr(type_, "__match_args__", ()):
            assert getattr(type_, member).__doc__
    text = ferrule.fitted_outside.__doc__
    assert "Formula: sqrt(d_o² - d_i² + s²) where the stem is thicker" in text
    assert "HoseError, HOSE_OUTSIDE_NOT_ABOVE_INSIDE" in text and "Source: geometry" in text and "Accuracy: 1 unit" in text
    assert str(inspect.signature(ferrule.crimp_diameter)) == "(joint, compression, model=None)"
    assert str(inspect.signature(ferrule.Hose)) == "(inside, outside, reinforcement=None)"


@pytest.mark.more
def test_stub_and_module_agree():
    result = run("stubtest", "ferrule", PYTHONPATH=PACKAGE_PATH, MYPYPATH=PACKAGE_PATH)
    assert result.returncode == 0, result.stdout + result.stderr


@pytest.mark.more
def test_stub_is_enough_for_strict_checking(tmp_path):
    good = pathlib.Path(__file__).with_name("typed_example.py")
    typed = [str(pathlib.Path(ferrule.__file__).with_name(f"{name}.py")) for name in ("drawing", "plot", "show", "_html", "_pint", "__main__")]
    result = run("mypy", "--strict", "--cache-dir", str(tmp_path), str(good), *typed, MYPYPATH=PACKAGE_PATH)
    assert result.returncode == 0, result.stdout
    bad = tmp_path / "bad.py"
    bad.write_text("import ferrule\nferrule.mm(3) + ferrule.percent(3)\nferrule.mm(3).milimetre\nferrule.Hose('1 mm')\n"
                   "ferrule.crimp_diameter(1, 2)\nferrule.celsius(3) * 2\nferrule.mm(3).mm = 3\n")
    result = run("mypy", "--strict", "--cache-dir", str(tmp_path), str(bad), MYPYPATH=PACKAGE_PATH)
    lines = {int(n) for n in re.findall(r"bad\.py:(\d+): error", result.stdout)}
    assert lines == {2, 3, 4, 5, 6, 7}, result.stdout


def test_import_is_quick_and_brings_little():
    def seconds(code):  # of processor time, the shortest of ten runs: others may be at work
        def used():
            usage = resource.getrusage(resource.RUSAGE_CHILDREN)
            return usage.ru_utime + usage.ru_stime
        times = []
        for _ in range(10):
            start = used()
            subprocess.run([sys.executable, "-S", "-c", code], check=True, env={**os.environ, "PYTHONPATH": PACKAGE_PATH})
            times.append(used() - start)
        return min(times)
    assert seconds("import ferrule") - seconds("pass") < 0.010
    loaded = run(sys.executable, "-S", "-c", "import sys, ferrule; print(*sys.modules)", PYTHONPATH=PACKAGE_PATH).stdout.split()
    assert "ferrule" in loaded and not {"enum", "numpy", "dataclasses", "inspect", "typing", "re"} & set(loaded)


@pytest.mark.parametrize("code", [
    "from ferrule import *; assert Status.OK == 0 and issubclass(HoseError, Error) and 'bulk' not in globals()",
    "import ferrule; from ferrule import Status, DieError; assert ferrule.Status is Status and ferrule.DieError is DieError",
    "import ferrule; assert {'Status', 'Error', 'HoseError', 'mm', 'Hose'} <= set(dir(ferrule)) == set(dir(ferrule))",
    "import ferrule\ntry: ferrule.Length('x')\nexcept ferrule.TextError as e: assert e.code is ferrule.Status[e.name] and e.code",
    "import ferrule, pickle; word = ferrule.FoundLength(status='TEXT_EMPTY').status; assert pickle.loads(pickle.dumps(word)) is word",
    "import ferrule; assert ferrule.FoundLength(status='TEXT_EMPTY').status.sentence == ferrule.Status.TEXT_EMPTY.sentence",
    "import ferrule\nfor name in ('Nothing', 'NoError', 'Cautions', '_ENUM', ''):\n    assert not hasattr(ferrule, name)",
])
def test_words_and_errors_are_there_when_they_are_asked_for(code):
    result = run(sys.executable, "-c", code, PYTHONPATH=PACKAGE_PATH)
    assert result.returncode == 0, result.stderr


def test_threads_that_ask_at_once_get_the_same_class():
    code = ("import ferrule, threading; start = threading.Barrier(8); got = []\n"
            "def ask(): start.wait(); got.append((ferrule.Status, ferrule.FoundLength(status='TEXT_EMPTY').status.__class__, ferrule.HoseError))\n"
            "all = [threading.Thread(target=ask) for _ in range(8)]\nfor t in all: t.start()\nfor t in all: t.join()\n"
            "assert len(got) == 8 and len({*sum(got, ())}) == 2, got")
    for _ in range(5):
        result = run(sys.executable, "-c", code, PYTHONPATH=PACKAGE_PATH)
        assert result.returncode == 0, result.stderr


# What each interpreter of a process does by itself, and leaves to the next.
IN_EACH = """
import sys
sys.path[:] = {path!r}
import ferrule
joint = ferrule.Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
for _ in range(2):
    try:
        ferrule.crimp_diameter(joint, "999 %", ferrule.Model(basis=ferrule.Basis.AREA))
        raise AssertionError("no error")
    except ferrule.CompressionError as error:
        assert error.code is ferrule.Status[error.name] and type(error.code) is ferrule.Status and error.code.sentence in str(error)
    assert repr(ferrule.Model(basis=ferrule.Basis.AREA).basis) == repr(ferrule.Basis.AREA)
    assert ferrule.Error.__mro__[1] is ValueError and ferrule.Status.OK == 0
"""


@pytest.mark.parametrize("order", ["OOO", "OMO", "MOOM", "ABabAB", "AMBaMbM"])
def test_interpreters_of_one_process_come_and_go(order):
    """M: the main one; O: one that ends at once; A, B: one that lives on; a, b: its end."""
    pytest.importorskip("_xxsubinterpreters")
    code = (f"import sys\nimport _xxsubinterpreters as all\ncode, alive = {IN_EACH!r}.format(path=sys.path), {{}}\n"
            f"for step in {order!r}:\n"
            "    if step == 'M': exec(code, {})\n"
            "    elif step.islower(): all.destroy(alive.pop(step.upper()))\n"
            "    else:\n"
            "        made = alive.get(step) or all.create()\n"
            "        all.run_string(made, code)\n"
            "        if step == 'O': all.destroy(made)\n"
            "        else: alive[step] = made\n"
            "print('all went well')")
    result = run(sys.executable, "-c", code, PYTHONPATH=PACKAGE_PATH)
    assert result.returncode == 0 and "all went well" in result.stdout, result.stderr


def test_needs_no_other_library():
    module = next(pathlib.Path(PACKAGE_PATH, "ferrule").glob("_ferrule*.so"))
    needed = re.findall(r"NEEDED.*\[(.*)\]", run("readelf", "-d", str(module)).stdout)
    assert needed and all(re.match(r"lib[cm]\.so|libasan|libubsan", library) for library in needed)


def test_version():
    assert ferrule.__version__ == ".".join(re.findall(r"FER_VERSION_[MP]\w+ (\d+)", HEADERS))
