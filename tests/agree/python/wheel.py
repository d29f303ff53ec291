#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""The Python package as it is handed on: source distribution, wheel, virtual environment.

Usage: wheel.py [--all] [--record]

Builds the source distribution, then the wheel out of that alone where neither SWIG, Doxygen nor CMake can be run; lists what
is in both; installs the wheel into two new virtual environments without a network: one with nothing else, one that sees NumPy
and pytest, in which the tests of the source distribution run against what is installed; compares the bits of every row of
tests/agree/vectors with those of the package in build/release, where that is built; takes the package out again and looks what is left.

--all     every test of tests/agree/python, and both archives built twice: the same bytes?
--record  also writes tests/release/proof/records/packages_python.json
"""
import argparse
import hashlib
import json
import os
import pathlib
import re
import subprocess
import sys
import tarfile
import tempfile
import zipfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
QUICK = ["vectors", "examples", "structs", "command", "notebook", "neighbours", "package"]
LIMIT = 1200  # seconds for a command
# Everything in a wheel besides its description, and what it is.
CONTENTS = {
    "__init__.py": "the package", "__init__.pyi": "its stub, written from the headers", "__main__.py": "python -m ferrule",
    "api.json": "what stands in the headers",
    "_columns.py": "columns of arrays, pandas, pint, dask", "_errors.py": "exceptions", "_html.py": "tables for notebooks",
    "_pint.py": "quantities of pint", "_setups.py": "tables of orders and readings", "_table.py": "names and units of columns, written from the headers",
    "_ufuncs.pyi": "stub of the module below", "_words.py": "classes of words", "bulk.py": "functions over arrays",
    "bulk.pyi": "their stub, written from the headers", "drawing.py": "drawings to scale as SVG",
    "plot.py": "pictures with matplotlib", "record.py": "records of jobs", "show.py": "words that front ends show alike", "py.typed": "says that types are there",
    "_ferrule.SUFFIX": "C: the library, its functions and values", "_ufuncs.SUFFIX": "C: the library, its NumPy functions",
}
ROWS = '''
import json, sys
sys.path[:0] = [sys.argv[1], sys.argv[2]]
import conftest, ferrule, test_vectors
found = []
for row in test_vectors.rows():
    try:
        result = test_vectors.call(row.values[0])
        found.append(repr(result))  # the shortest text that gives the same bits
    except ferrule.Error as error:
        found.append(str(error))
print(json.dumps([ferrule.__file__, found]))
'''


def run(*command, folder=ROOT, **environment):
    done = subprocess.run([str(word) for word in command], cwd=folder, text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                          timeout=LIMIT, env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1", **environment})
    if done.returncode:
        sys.exit(f"{' '.join(map(str, command))}\nended with {done.returncode}:\n{done.stdout[-6000:]}")
    return done.stdout


def build(kind, source, to, **environment):
    run(sys.executable, "-m", "build", "--no-isolation", f"--{kind}", "--outdir", to, source, **environment)
    return next(to.glob("*.tar.gz" if kind == "sdist" else "*.whl"))


def without_generators(folder):
    """A PATH on which SWIG, Doxygen and CMake fail."""
    folder.mkdir()
    for name in ("swig", "swig4.0", "doxygen", "cmake", "ninja"):
        file = folder / name
        file.write_text("#!/bin/sh\necho $0 must not be run >&2\nexit 1\n", encoding="utf-8")
        file.chmod(0o755)
    return f"{folder}:{os.environ['PATH']}"


def check_source(archive):
    with tarfile.open(archive) as tar:
        names = [name.partition("/")[2] for name in tar.getnames()]
        for member in tar.getmembers():
            assert str(ROOT).encode() not in (tar.extractfile(member).read() if member.isfile() else b""), f"{member.name} names this machine"
    for folder, files in (("include/ferrule", ROOT.glob("include/ferrule/*.h")), ("lib", ROOT.glob("lib/**/*.[ch]")),
                          ("tests/agree/vectors", ROOT.glob("tests/agree/vectors/*.csv"))):
        missing = {str(f.relative_to(ROOT)) for f in files} - set(names)
        assert not missing, f"not in the source distribution: {folder}: {sorted(missing)}"
    for name in ("csource/ferrule_wrap.c", "csource/loops.c", "csource/kinds_table.c", "LICENSE", "PKG-INFO", "src/ferrule/__init__.pyi"):
        assert name in names, f"not in the source distribution: {name}"
    return names


def check_wheel(wheel, folder):
    """Exactly the files that belong into it, of a version that the header says; and what the C modules need."""
    version = ".".join(re.findall(r"#define FER_VERSION_(?:MAJOR|MINOR|PATCH) (\d+)", (ROOT / "include/ferrule/version.h").read_text(encoding="utf-8")))
    suffix = run(sys.executable, "-c", "import sysconfig; print(sysconfig.get_config_var('EXT_SUFFIX')[1:])").strip()
    with zipfile.ZipFile(wheel) as file:
        files = {i.filename: i.file_size for i in file.infolist()}
        file.extractall(folder)
    about = f"ferrule-{version}.dist-info/"
    expected = {"ferrule/" + name.replace("SUFFIX", suffix) for name in CONTENTS}
    expected |= {about + name for name in ("LICENSE", "METADATA", "RECORD", "WHEEL", "top_level.txt")}
    assert set(files) == expected, f"more: {sorted(set(files) - expected)}, missing: {sorted(expected - set(files))}"
    metadata = (folder / about / "METADATA").read_text(encoding="utf-8")
    for line in (f"Version: {version}", "License: MIT", "Requires-Python: >=3.10", "Provides-Extra: plot", "Provides-Extra: bulk",
                 "Provides-Extra: table", "Provides-Extra: units"):
        assert f"\n{line}\n" in metadata, f"METADATA lacks {line}"
    assert not re.search(r"^Requires-Dist: (?!.*; extra == )", metadata, re.MULTILINE), "something is needed that should be an extra"
    modules = [folder / name for name in files if name.endswith(".so")]
    needed, symbols = set(), set()
    for module in modules:
        needed |= set(re.findall(r"NEEDED.*\[(.*)\]", run("readelf", "-d", module)))
        symbols |= {tuple(map(int, v.split("."))) for v in re.findall(r"GLIBC_([\d.]+)", run("readelf", "-V", module))}
        assert str(ROOT).encode() not in module.read_bytes() and b"/tmp/" not in module.read_bytes(), f"{module.name} names a path"
    assert needed <= {"libc.so.6", "libm.so.6"}, needed
    return files, needed, ".".join(map(str, max(symbols)))


def new_environment(folder, wheels, *options):
    run(sys.executable, "-m", "venv", *options, folder)
    python = folder / "bin" / "python"
    run(python, "-m", "pip", "install", "--no-index", "--find-links", wheels, "ferrule", PIP_DISABLE_PIP_VERSION_CHECK="1")
    return python


def check_bare(python, folder):
    """Without NumPy and without the source tree: import, a set-up, the command line, the messages about what is missing."""
    code = ("import sys, ferrule; assert ferrule.__file__.startswith(sys.prefix), ferrule.__file__; "
            "j = ferrule.Joint(('12.7 mm', '19.9 mm'), '12.95 mm', '2.4 mm'); "
            "print(f\"{ferrule.crimp_diameter(j, '20 %'):.2f mm}\"); assert '<svg' in j._repr_html_()")
    assert run(python, "-c", code, folder=folder) == "23.51 mm\n"  # 12.95 + 2 * 2.4 + 7.2 * 0.8, by hand
    assert "not installed: ferrule.bulk" in run(python, "-m", "ferrule", "about", folder=folder)
    versions = "import ferrule, importlib.metadata as m; print(m.version('ferrule') == ferrule.__version__)"
    assert run(python, "-c", versions, folder=folder) == "True\n", "the wheel's version is not the package's"
    for name in ("bulk", "plot"):
        reported = run(python, "-c", f"try:\n    from ferrule import {name}\nexcept ImportError as e:\n    print(e)", folder=folder)
        assert reported.startswith(f"ferrule.{name} needs "), reported


def rows_of(python, package, tests):
    file, rows = json.loads(run(python, "-c", ROWS, package, tests, FERRULE_PYTHON_PATH=str(package)))
    assert file.startswith(str(package)), file
    return rows


def run_tests(python, installed, tree, names):
    """The tests of the source distribution; its package in Python stands in src, where nothing finds it."""
    files = [tree / "tests/agree/python" / f"test_{name}.py" for name in names] or [tree / "tests/agree/python"]
    fewer = ["-k", "not stub"] if names else []  # mypy takes half a minute
    reported = run(python, "-m", "pytest", "-q", *fewer, "-p", "no:cacheprovider", "-W", "ignore", *files, folder=tree,
               FERRULE_PYTHON_PATH=str(installed), MYPY_CACHE_DIR=str(tree / ".mypy"))
    return int(re.search(r"(\d+) passed", reported)[1]), reported


def check_removed(python, installed):
    run(python, "-m", "pip", "uninstall", "-y", "ferrule")
    left = [str(path) for path in installed.glob("*errule*")]
    assert not left, f"left after the package was taken out: {left}"


def digest(path):
    return hashlib.sha256(path.read_bytes()).hexdigest()


def build_again(work, source, wheel):
    """Both once more, at another place."""
    again = work / "again"
    again.mkdir()
    other = build("sdist", ROOT / "bindings" / "python", again, SOURCE_DATE_EPOCH="0")
    with tarfile.open(other) as tar:
        tar.extractall(again / "tree")
    second = build("wheel", next((again / "tree").iterdir()), again, SOURCE_DATE_EPOCH="315532800")
    return digest(other) == digest(source), digest(second) == digest(wheel)


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--all", action="store_true")
    options.add_argument("--record", action="store_true")
    given = options.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        found = check(pathlib.Path(folder), given.all)
    if given.record:
        write_record(found, given.all)


def check(work, everything):
    source = build("sdist", ROOT / "bindings" / "python", work, SOURCE_DATE_EPOCH="0")
    names = check_source(source)
    print(f"{source.name}: {source.stat().st_size} bytes, {len(names)} files")
    with tarfile.open(source) as tar:
        tar.extractall(work / "source")
    tree = next((work / "source").iterdir())
    (work / "wheels").mkdir()
    wheel = build("wheel", tree, work / "wheels", PATH=without_generators(work / "bin"), SOURCE_DATE_EPOCH="315532800")
    files, needed, libc = check_wheel(wheel, work / "unpacked")
    print(f"{wheel.name}: {wheel.stat().st_size} bytes, {len(files)} files, needs {', '.join(sorted(needed))}, symbols up to glibc {libc}")
    for name, size in sorted(files.items()):
        print(f"  {size:8}  {name}")
    (work / "elsewhere").mkdir()
    bare = new_environment(work / "bare", work / "wheels")
    check_bare(bare, work / "elsewhere")
    python = new_environment(work / "full", work / "wheels", "--system-site-packages")
    installed = next((work / "full").glob("lib/python*/site-packages"))
    passed, _ = run_tests(python, installed, tree, [] if everything else QUICK)
    print(f"{passed} tests passed against the installed wheel")
    built, rows = ROOT / "build" / "release" / "python", None
    if (built / "ferrule").is_dir():
        ours, theirs = (rows_of(python, package, tree / "tests/agree/python") for package in (installed, built))
        assert ours == theirs and len(ours) > 500, "the wheel and the package of the build do not give the same bits"
        rows = len(ours)
        print(f"{rows} rows of tests/agree/vectors: the bits of the wheel are those of the package in build/release")
    same = build_again(work, source, wheel) if everything else None
    if same:
        print(f"built again at another place: source distribution the same bytes: {same[0]}, wheel: {same[1]}")
    for environment, where in ((bare, next((work / "bare").glob("lib/python*/site-packages"))), (python, installed)):
        check_removed(environment, where)
    print("taken out again: nothing left")
    return {"source": (source.name, source.stat().st_size, len(names)), "wheel": (wheel.name, wheel.stat().st_size), "files": files,
            "needed": needed, "libc": libc, "passed": passed, "rows": rows, "same": same}


def write_record(found, everything):
    what = {re.sub("SUFFIX", "", name): words for name, words in CONTENTS.items()}
    rows = [[name, str(size), next((words for start, words in what.items() if pathlib.PurePath(name).name.startswith(start)
                                    and (start.endswith(".") or pathlib.PurePath(name).name == start)), "description of the wheel")]
            for name, size in sorted(found["files"].items())]
    version = lambda *command: run(*command).splitlines()[0]
    source, wheel = found["source"], found["wheel"]
    same = "" if found["same"] is None else (" Built a second time at another place, the source distribution has "
                                             f"{'the same' if found['same'][0] else 'other'} bytes and the wheel "
                                             f"{'the same' if found['same'][1] else 'other'} bytes.")
    sys.path.insert(0, str(ROOT / "tests/release/proof"))
    import record
    versions = "import importlib.metadata as m; print(*(f'{n} {m.version(n)}' for n in ('setuptools', 'wheel', 'build', 'numpy', 'pytest')), sep='\\n')"
    record.write(
        "packages_python", title="The Python package", order=120,
        said=f"The source distribution ({source[0]}, {source[1]:,} bytes, {source[2]} files) holds the C sources and all that SWIG and "
             f"the generators write, and the wheel ({wheel[0]}, {wheel[1]:,} bytes) was built of it without them; it needs "
             f"{' and '.join(sorted(found['needed']))} (symbols up to glibc {found['libc']}) and nothing else. Installed without a network into a "
             f"new virtual environment, {found['passed']} tests passed against it, and the {found['rows']} rows of tests/agree/vectors gave the same "
             f"figures to the last digit as the package of the CMake build; taken out again, nothing is left.{same}",
        commands=["/usr/bin/python3 tests/agree/python/wheel.py --all --record"],
        in_tests=f"the same with the tests {', '.join(QUICK)}, without building twice", tools=[version(sys.executable, "--version"), record.tool("gcc"),
                                                                       *run(sys.executable, "-c", versions).split("\n")[:-1]],
        columns=["file in the wheel", "bytes", "what it is"], rows=rows,
        left="The wheel's tag is that of this Python and of Linux on this processor. The limited API was not taken: the values are static types "
             "read without a call, which is what makes a single call cheap. Windows and macOS were not tried."
             + ("" if everything else " Recorded by the short form of the check."))


main()
