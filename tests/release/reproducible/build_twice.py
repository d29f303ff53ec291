# SPDX-License-Identifier: MIT
"""Build twice under different circumstances and compare what is installed, byte by byte.

Usage: build_twice.py [--full] [--record]

The second build has another folder of another length, another umask, language, time zone, order of files, number of jobs, and
sources that were written at another time. Compared are names, permissions and bytes of everything that `cmake --install` writes.
short   the library: shared, static, headers, CMake package, pkg-config file; and the SQL functions for SQLite and PostgreSQL
--full  also the library with debug information, and the packages of Python, Lua, Tcl, Perl, Ruby, Java and C#
--record writes the record, tests/release/proof/records/reproducible.json
After that, a build with one other digit in a source is to be found different.
"""
import functools
import hashlib
import os
import pathlib
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
sys.path.insert(0, str(ROOT / "tests/release/proof"))
LIBRARY = ["-DFERRULE_PYTHON=OFF", "-DFERRULE_TESTS=OFF", "-DFERRULE_EXAMPLES=OFF"]
DATABASES = ["-DFERRULE_SQLITE=ON", "-DFERRULE_POSTGRESQL=ON", "-DPG_CONFIG=/usr/lib/postgresql/15/bin/pg_config"]
SQL = ("/mod_ferrule.so", "/15/lib/ferrule.so", "/ferrule.control")
LANGUAGES = ["-DFERRULE_PYTHON=ON", "-DFERRULE_TESTS=OFF", "-DFERRULE_EXAMPLES=OFF", "-DFERRULE_LUA=ON", "-DFERRULE_TCL=ON",
             "-DFERRULE_PERL=ON", "-DFERRULE_RUBY=ON", "-DFERRULE_JAVA=ON", "-DFERRULE_CSHARP=ON"]
FIRST = {"folder": "a", "umask": 0o022, "jobs": "2", "written": 1_000_000_000,
         "environment": {"LC_ALL": "C", "TZ": "UTC", "USER": "one", "PYTHONHASHSEED": "1"}}
SECOND = {"folder": "another folder/of-a-longer-name", "umask": 0o077, "jobs": "1", "written": 1_700_000_000,
          "environment": {"LC_ALL": "C.UTF-8", "TZ": "Asia/Kathmandu", "USER": "two", "PYTHONHASHSEED": "2"}}


@functools.cache
def sources():
    """What git knows, as it stands in the working folder when this begins."""
    names = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, check=True, stdout=subprocess.PIPE).stdout.decode().split("\0")
    return {name: (ROOT / name).read_bytes() for name in names if name and (ROOT / name).is_file()}


def copy_sources(folder, written):
    for name, content in sources().items():
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
        os.utime(target, (written, written))


def with_databases():
    """The options for the SQL functions; where the headers of PostgreSQL's server are, tests/agree/sql knows."""
    found = subprocess.run(["sh", "-c", ". tests/agree/sql/headers.sh; postgresql_headers"], cwd=ROOT, check=True, text=True,
                           stdout=subprocess.PIPE).stdout.strip()
    return [*LIBRARY, *DATABASES, f"-DFERRULE_POSTGRESQL_INCLUDE_DIR={found}"]


def build(base, how, options, edit=None):
    """The installed files of one build."""
    old = os.umask(how["umask"])
    try:
        source = base / how["folder"]
        copy_sources(source, how["written"])
        if edit:
            path, before, after = edit
            text = (source / path).read_text(encoding="utf-8")
            assert before in text, before
            (source / path).write_text(text.replace(before, after, 1), encoding="utf-8")
        environment = {**os.environ, **how["environment"], "DESTDIR": str(base / (how["folder"] + " installed"))}
        commands = (["cmake", "-S", source, "-B", source / "build", "-DCMAKE_INSTALL_PREFIX=/usr", *options],
                    ["cmake", "--build", source / "build", "-j", how["jobs"], "--target", "all",
                     *(["languages"] if "-DFERRULE_LUA=ON" in options else [])],
                    ["cmake", "--install", source / "build"],
                    *([["cmake", "--install", source / "build", "--component", "postgresql"]] if DATABASES[1] in options else []))
        for command in commands:
            done = subprocess.run(list(map(str, command)), env=environment, text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
            if done.returncode:
                sys.exit(f"{' '.join(map(str, command))}\n{done.stdout[-4000:]}")
        return installed(pathlib.Path(environment["DESTDIR"]))
    finally:
        os.umask(old)


def installed(folder):
    found = {}
    for path in sorted(folder.rglob("*")):
        name = str(path.relative_to(folder))
        if path.is_symlink():
            found[name] = ("link", os.readlink(path))
        elif path.is_file():
            found[name] = (oct(path.stat().st_mode & 0o777), hashlib.sha256(path.read_bytes()).hexdigest(), path.stat().st_size)
    return found


def differences(one, other):
    return [f"{name}: {one.get(name, 'missing')} and {other.get(name, 'missing')}" for name in sorted(one | other)
            if one.get(name) != other.get(name)]


def compare(title, options):
    with tempfile.TemporaryDirectory() as name:
        base = pathlib.Path(name)
        one, other = build(base, FIRST, options), build(base, SECOND, options)
    wrong = differences(one, other)
    print(f"{title}: {len(one)} files, {sum(len(f) > 2 and f[2] for f in one.values()):,} bytes, {len(wrong)} differ")
    print("".join(f"    {line}\n" for line in wrong), end="")
    missing = [end for end in ("/libferrule.so", *(SQL if DATABASES[1] in options else ())) if not any(f.endswith(end) for f in one)]
    if missing:
        sys.exit(f"not among what was installed: {missing}")
    return one, wrong


def try_difference(one):
    """A comparison that cannot fail would be worth nothing."""
    with tempfile.TemporaryDirectory() as name:
        other = build(pathlib.Path(name), SECOND, LIBRARY, ("lib/base/numeric/pi.h", "3.14159265358979", "3.14159265358978"))
        names = [line.split(":")[0] for line in differences({name: file for name, file in one.items() if name in other}, other)]
    if not any("libferrule.so" in n for n in names) or not any("libferrule.a" in n for n in names):
        sys.exit(f"one digit in a source was changed, and the libraries are said to be the same: {names}")
    print(f"one digit changed in a source: {len(names)} files differ, as they should")


def write_record(results):
    import record
    rows = [[title, str(len(one)), f"{sum(f[2] for f in one.values() if len(f) > 2):,}", str(len(wrong))] for title, one, wrong in results]
    bad = [f"{name} differs" for name in sorted({pathlib.Path(line.split(":")[0]).name for _, _, wrong in results for line in wrong})]
    record.write(
        "reproducible", title="Two builds, the same bytes", order=80,
        said="The project was copied to two folders with names of different length, and built and installed in each: with another "
             "umask, language, time zone, user's name, number of jobs, and time at which the sources were written. Names, permissions and "
             "bytes of all installed files were compared. A build in which one digit of a source was changed was found different.",
        commands=["/usr/bin/python3 tests/release/reproducible/build_twice.py --full --record"],
        in_tests="the library and the SQL functions, without the packages of the languages",
        tools=[*(record.tool(name) for name in ("gcc", "cmake", "ld", "doxygen", "javac", "mcs")), record.tool("swig", "-version")],
        columns=["what", "files", "bytes", "files that differ"], rows=rows,
        left="".join(f"{line}. " for line in bad) +
             "The same machine and compilers built both; other compilers give other bytes (their results are compared elsewhere).")


def main():
    full, records = "--full" in sys.argv, "--record" in sys.argv
    parts = [("library and SQL functions for SQLite and PostgreSQL", with_databases())]
    if full:
        parts += [("library with debug information", [*LIBRARY, "-DCMAKE_BUILD_TYPE=RelWithDebInfo"]),
                  ("library and packages of Python, Lua, Tcl, Perl, Ruby, Java, C#", LANGUAGES)]
    results = [(title, *compare(title, options)) for title, options in parts]
    try_difference(results[0][1])
    if records:
        write_record(results)
    sys.exit(any(wrong for _, _, wrong in results))


if __name__ == "__main__":
    main()
