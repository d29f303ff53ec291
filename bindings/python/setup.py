# SPDX-License-Identifier: MIT
"""The C part of the Python package, in the tree that packaging/backend.py makes: the library's sources with CMake's own options
for each, then the two modules round them. Without NumPy the package comes without ferrule.bulk."""
import json
import pathlib
import re

from setuptools import Extension, setup
from setuptools.command.build_ext import build_ext
from setuptools.command.build_py import build_py

try:
    import numpy
except ImportError:
    numpy = None

BULK = ["bulk.py", "_columns.py", "_setups.py", "_table.py", "bulk.pyi", "_ufuncs.pyi"]
FOLDERS = ["csource", "include", "lib"]


def version():
    header = pathlib.Path("include/ferrule/version.h").read_text(encoding="utf-8")
    return ".".join(re.findall(r"#define FER_VERSION_(?:MAJOR|MINOR|PATCH) (\d+)", header))


def numpy_needed():
    """A module that was built against NumPy 1 does not load with NumPy 2; the other way it does."""
    if numpy is None:
        return []
    major = int(numpy.__version__.partition(".")[0])
    return ["numpy>=1.21,<2" if major < 2 else "numpy>=1.25"]


def extensions():
    sources = ["value.c", "convert.c", "host.c", "say.c", "fail.c", "quantity.c", "kinds.c", "parts.c", "kinds_table.c",
               "functions_table.c", "ferrule_wrap.c"]
    found = [Extension("ferrule._ferrule", [f"csource/{name}" for name in sources], include_dirs=FOLDERS)]
    if numpy is not None:
        found.append(Extension("ferrule._ufuncs", ["csource/_ufuncs.c"], include_dirs=[*FOLDERS, numpy.get_include()]))
    return found


class BuildModules(build_ext):
    """The library is compiled once, for both modules."""

    def build_extensions(self):
        is_unix = self.compiler.compiler_type == "unix"
        options = json.loads(pathlib.Path("csource/options.json").read_text(encoding="utf-8"))
        objects = []
        for source, own in options.items():
            objects += self.compiler.compile([source], output_dir=self.build_temp, include_dirs=["include", "lib"],
                                             extra_postargs=["-fPIC", "-g0", *own] if is_unix else [])
        for extension in self.extensions:
            extension.extra_objects = objects
            extension.define_macros = [("FER_STATIC", None)]
            if is_unix:
                extension.extra_compile_args = ["-std=c11", "-O3", "-g0", "-DNDEBUG", "-fvisibility=hidden", "-ffp-contract=off"]
                extension.extra_link_args = ["-Wl,-s"] if not self.debug else []
                extension.libraries = ["m"]
        super().build_extensions()


class BuildPython(build_py):
    """Without ferrule.bulk where there was no NumPy."""

    def find_package_modules(self, package, package_dir):
        found = super().find_package_modules(package, package_dir)
        return [row for row in found if numpy is not None or pathlib.Path(row[2]).name not in BULK]

    def find_data_files(self, package, src_dir):
        found = super().find_data_files(package, src_dir)
        return [name for name in found if numpy is not None or pathlib.Path(name).name not in BULK]


setup(version=version(), ext_modules=extensions(), cmdclass={"build_ext": BuildModules, "build_py": BuildPython},
      extras_require={"bulk": numpy_needed(), "table": [*numpy_needed(), "pandas>=1.5"], "units": ["pint>=0.19"],
                      "plot": ["matplotlib>=3.6"]})
