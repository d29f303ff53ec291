# SPDX-License-Identifier: MIT
"""Build back end of the Python package (PEP 517).

In the repository it makes a tree that stands by itself: the C sources of the library, its headers, what SWIG and
the generators write, the modules in Python, the tests that run against the installed package. A source distribution is
that tree, and a wheel is built of it by setuptools with a C compiler alone (setup.py). In an unpacked source
distribution the tree is there already.
"""
import gzip
import io
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tarfile
import tempfile

from setuptools import build_meta

HERE = pathlib.Path(__file__).resolve().parents[1]  # of pyproject.toml
ROOT = HERE.parents[1]
IS_REPOSITORY = not (HERE / "csource").is_dir()
GENERATED = ["ferrule_wrap.c", "functions_table.c", "kinds_list.h", "kinds_table.c", "layouts.c", "loops.c"]
RUNTIME = ["fail.c", "kinds.c", "kinds.h", "parts.c", "parts.h", "quantity.c", "say.c", "say.h", "script.h", "take.c"]
# Tests of the installed package, and what they read.
TESTS = ["tests/agree/python", "tests/agree/vectors", "docs/examples", "examples/trial_crimps", "examples/depot", "LICENSE", "README.md"]


def get_requires_for_build_sdist(config_settings=None):
    return []


def get_requires_for_build_wheel(config_settings=None):
    return []


def build_wheel(wheel_directory, config_settings=None, metadata_directory=None):
    return in_tree(lambda: build_meta.build_wheel(wheel_directory, config_settings, None))


def build_sdist(sdist_directory, config_settings=None):
    def build():
        name = build_meta.build_sdist(sdist_directory, config_settings)
        make_plain(pathlib.Path(sdist_directory) / name)
        return name
    return in_tree(build)


def in_tree(build):
    """Runs a step of setuptools in the tree that stands by itself."""
    if not IS_REPOSITORY:
        return build()
    before = os.getcwd()
    with tempfile.TemporaryDirectory() as folder:
        tree = pathlib.Path(folder, "tree")
        make_tree(tree, pathlib.Path(folder, "build"))
        os.chdir(tree)
        try:
            return build()
        finally:
            os.chdir(before)


def make_tree(tree, build):
    """The repository's files and the generated ones, in the places that setup.py expects."""
    run("cmake", "-S", ROOT, "-B", build, "-DCMAKE_BUILD_TYPE=Release", "-DFERRULE_TESTS=OFF", "-DFERRULE_EXAMPLES=OFF",
        f"-DPython3_EXECUTABLE={sys.executable}")
    run("cmake", "--build", build, "--target", "ferrule_python_sources")
    made = build / "bindings" / "python"
    for file in ["pyproject.toml", "setup.py", "packaging/backend.py"]:
        copy(HERE / file, tree / file)
    for folder, pattern in ((ROOT / "include", "**/*.h"), (ROOT / "lib", "**/*.[ch]"), (HERE, "ferrule/*.py"), (HERE, "ferrule/py.typed")):
        copy_files(folder, pattern, tree / folder.relative_to(ROOT) if folder != HERE else tree / "src")
    for file in [*HERE.glob("*.[ch]"), *(ROOT / "bindings" / "runtime" / f for f in RUNTIME), *(made / f for f in GENERATED)]:
        copy(file, tree / "csource" / file.name)
    for file in (build / "python" / "ferrule").glob("*.py*"):
        copy(file, tree / "src" / "ferrule" / file.name)
    copy(ROOT / "bindings" / "api" / "api.json", tree / "src" / "ferrule" / "api.json")
    for name in TESTS:
        copy_files(ROOT, f"{name}/**/*" if (ROOT / name).is_dir() else name, tree)
    (tree / "csource" / "options.json").write_text(json.dumps(compiler_options(build), indent=1) + "\n", encoding="utf-8")
    (tree / "MANIFEST.in").write_text("graft csource\ngraft src\ngraft include\ngraft lib\ngraft packaging\ngraft tests\n"
                                      "graft docs\ngraft examples\nglobal-exclude *.pyc\n", encoding="utf-8")


def compiler_options(build):
    """By the library's source: the options that make its bits and its speed, as CMake has them."""
    commands = json.loads((build / "compile_commands.json").read_text(encoding="utf-8"))
    wanted = re.compile(r"-(O\w|std=\S+|f[\w=-]+|D(?:NDEBUG|FER_\w+))")
    options = {}
    for command in commands:
        source = pathlib.Path(command["file"])
        if source.is_relative_to(ROOT / "lib") and re.search(r"CMakeFiles/ferrule_\w+\.dir", command["command"]):
            options[str(source.relative_to(ROOT))] = [w for w in command["command"].split() if wanted.fullmatch(w)]
    return dict(sorted(options.items()))


def make_plain(archive):
    """The same archive for the same files: sorted, without owners, all times that of SOURCE_DATE_EPOCH or zero."""
    time = int(os.environ.get("SOURCE_DATE_EPOCH", "0"))
    with tarfile.open(archive) as tar:
        members = sorted(((m, tar.extractfile(m).read()) for m in tar.getmembers() if m.isfile()), key=lambda pair: pair[0].name)
    plain = io.BytesIO()
    with tarfile.open(fileobj=plain, mode="w", format=tarfile.PAX_FORMAT) as tar:
        for member, data in members:
            info = tarfile.TarInfo(member.name)
            info.size, info.mtime, info.mode = len(data), time, 0o644
            tar.addfile(info, io.BytesIO(data))
    with open(archive, "wb") as file, gzip.GzipFile("", "wb", 9, file, mtime=time) as packed:
        packed.write(plain.getvalue())


def copy_files(folder, pattern, to):
    for file in folder.glob(pattern):
        if file.is_file() and "__pycache__" not in file.parts:
            copy(file, to / file.relative_to(folder))


def copy(file, to):
    to.parent.mkdir(parents=True, exist_ok=True)
    shutil.copy(file, to)


def run(*command):
    done = subprocess.run([str(word) for word in command], text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    if done.returncode:
        sys.exit(f"{' '.join(map(str, command))} failed:\n{done.stdout[-4000:]}")
