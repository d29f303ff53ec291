# SPDX-License-Identifier: MIT
"""What the reader of the headers refuses, what it notices, and what it keeps; each tried on a copy of the headers.

Usage: test_reader.py   (needs Doxygen)
"""
import json
import pathlib
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
NEW = """
/**
 * Twice a length.
 *
 * @param[in] length  any length @range 0 mm or more
 * @param[out] twice  the result; NaN on failure
 * @retval FER_OK  done
 */
FER_API fer_status fer_twice(fer_length length, fer_length *twice);

#ifdef __cplusplus
}
#endif

#endif
"""
REFUSED = [  # header, what stands there, what shall stand there, what the reader says
    ("joint.h", "inside diameter @range 0.001 mm to 1,000,000 mm", "inside diameter", "inside of fer_hose has no range"),
    ("joint.h", "inside diameter @range 0.001 mm to 1,000,000 mm", "inside diameter @range 0.001 kg to 1 kg", "kg is no unit of length"),
    ("joint.h", "inside diameter @range 0.001 mm to 1,000,000 mm", "inside diameter @range some", "no rule for the range"),
    ("joint.h", "@label bore", "@label bore that carries the fluid from one end to the other", "has no label of at most"),
    ("die.h", "crimp diameter @range 0.001 mm to 1,000,000 mm", "crimp diameter", "fer_choose_die: target has no range"),
    ("status.h", '"hose.inside"', '"hose.inner"', "about hose.inner, which is nowhere"),
]


def check(truth, what):
    if not truth:
        sys.exit(f"not so: {what}")


def copied(folder):
    shutil.copytree(ROOT / "include", folder / "include")
    shutil.copytree(ROOT / "bindings" / "api", folder / "bindings" / "api", ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "docs").mkdir()
    shutil.copy(ROOT / "docs" / "aliases.doxy", folder / "docs")


def reader(folder, option):
    done = subprocess.run([sys.executable, "-B", folder / "bindings" / "api" / "read_headers.py", option], text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    return done.returncode, done.stdout


def changed(folder, header, old, new):
    path = folder / "include" / "ferrule" / header
    before = path.read_text(encoding="utf-8")
    check(old in before, f"{header} has {old!r}")
    path.write_text(before.replace(old, new, 1), encoding="utf-8")
    return lambda: path.write_text(before, encoding="utf-8")


def main():
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        copied(folder)
        check(reader(folder, "--sums") == (0, ""), "the sums of the headers as they are are right")
        for header, old, new, words in REFUSED:
            undo = changed(folder, header, old, new)
            code, said = reader(folder, "--write")
            check(code and words in said, f"{new!r} is refused with {words!r}: {said}")
            code, said = reader(folder, "--sums")
            check(code and header in said, f"without Doxygen it is noticed that {header} changed: {said}")
            undo()
        changed(folder, "version.h", "FER_VERSION_PATCH ", "FER_VERSION_PATCH 7")
        changed(folder, "joint.h", "\n#ifdef __cplusplus\n}\n#endif\n\n#endif\n", NEW)
        check(reader(folder, "--check")[0], "api.json is stale")
        check(reader(folder, "--write") == (0, ""), "it is written anew")
        check(reader(folder, "--check") == (0, ""), "then it is right")
        before = {f["name"]: f.get("since") for f in json.loads((ROOT / "bindings" / "api" / "api.json").read_text(encoding="utf-8"))["functions"]}
        api = json.loads((folder / "bindings" / "api" / "api.json").read_text(encoding="utf-8"))
        after = {f["name"]: f.get("since") for f in api["functions"]}
        check(after.pop("fer_twice") == api["version"] and after == before, "a new function came with this version, the others with theirs")
    print("The reader refuses what it has to, notices what changed, and keeps since when a function is there.")


main()
