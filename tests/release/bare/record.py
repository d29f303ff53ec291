# SPDX-License-Identifier: MIT
"""Writes the records of the bare system and of the Debian packages.

Usage: record.py bare ROWS COUNT         ROWS: command, exit status, seconds, last line, with tabs between; COUNT: packages
       record.py packages FOLDER LINE... FOLDER: of the packages; LINE: what the trial printed
"""
import collections
import pathlib
import subprocess
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "proof"))
import record  # noqa: E402


def output(*command):
    return subprocess.run([str(word) for word in command], check=True, text=True, stdout=subprocess.PIPE).stdout


def bare(rows, count):
    rows = [line.split("\t") for line in pathlib.Path(rows).read_text(encoding="utf-8").splitlines()]
    failed = [row[0] for row in rows if row[1] != "0"]
    record.write(
        "bare", title="On a bare machine", order=90, commands=["sh tests/release/bare/run.sh"],
        said=f"A Debian 12 was made with debootstrap (minimal variant, git added: {count} packages) and the project cloned into "
             "it; then the commands of the README were run as they stand there. They install what they need themselves.",
        tools=[record.tool("debootstrap"), "Debian " + pathlib.Path("/etc/debian_version").read_text().strip()],
        columns=["command", "exit status", "seconds, with fetching the packages", "last line"], rows=rows,
        left=" ".join([*(["Failed: " + ", ".join(failed) + "."] if failed else []),
                       "No layers can be mounted in such a system: there the tests that install packages say that they were left out."]))


def contents(package):
    """Folders of a package with the names of their files, or how many they are."""
    folders = collections.defaultdict(list)
    for line in output("dpkg-deb", "--contents", package).splitlines():
        words = line.split(maxsplit=5)
        if not words[0].startswith("d"):
            path = pathlib.PurePosixPath(words[5].split(" -> ")[0].lstrip("."))
            if not (str(path).startswith("/usr/share/doc/") and path.name in {"changelog.Debian.gz", "copyright"}):
                folders["/usr/share/doc/ferrule-doc/html" if "/ferrule-doc/" in str(path) else str(path.parent)].append(path.name)
    return "; ".join(f"`{folder}`: " + (", ".join(names) if len(names) < 7 else f"{len(names)} files")
                     for folder, names in sorted(folders.items()))


def packages(folder, *said):
    rows = []
    for package in sorted(pathlib.Path(folder).glob("*.deb")):
        if "-dbgsym_" not in package.name:
            name, depends = (output("dpkg-deb", "-f", package, field).strip() for field in ("Package", "Depends"))
            rows.append([name, f"{package.stat().st_size / 1000:.0f}", depends or "nothing", contents(package)])
    complaints = pathlib.Path(folder, "lintian.txt").read_text().split("\n")
    record.write(
        "packages_debian", title="Debian packages", order=120, commands=["sh tests/release/bare/packages.sh --bare"],
        said="Built twice in two folders, with the same bytes; lintian's errors and warnings: "
             f"{sum(bool(line) for line in complaints)}. Installed on a minimal Debian 12 with what they need, and used there without "
             "the source: a C program by pkg-config, shared and static, and each of these languages and databases. " + " ".join(said),
        left="",
        in_tests="built without the debugging symbols, looked at, installed and used in a layer over the machine's own system",
        tools=[record.tool("dpkg-buildpackage"), record.tool("lintian"), f"debhelper {output('dpkg-query', '-W', '-f=${Version}', 'debhelper')}"],
        columns=["package", "kB", "depends on", "holds"], rows=rows)


{"bare": bare, "packages": packages}[sys.argv[1]](*sys.argv[2:])
