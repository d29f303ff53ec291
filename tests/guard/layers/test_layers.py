#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""layers.py says what is wrong with a tree in which one include or one table was changed, and nothing of the tree as it is."""
import pathlib
import shutil
import sys
import tempfile

import layers

ROOT = pathlib.Path(__file__).resolve().parents[3]
CHANGES = [
    ("lib/base/status.c", '#include "base/words.h"', '#include "base/words.h"\n#include <ferrule/text.h>', "a cycle: "),
    ("include/ferrule/value.h", "#include <ferrule/status.h>", "#include <ferrule/status.h>\n#include <ferrule/die.h>", "below it"),
    ("lib/judge/reading.c", "#include <ferrule/reading.h>", "#include <ferrule/reading.h>\n#include <ferrule/joint.h>",
     "reading of component judge uses joint of component crimp"),
    ("lib/base/numeric/pair.h", "#ifndef", "#include <ferrule/value.h>\n#ifndef", "a cycle: "),
    ("include/ferrule/ferrule.h", "#include <ferrule/text.h>\n", "", "ferrule.h does not list text.h"),
    ("DEVELOPERS.md", "| 1 |", "| 2 |", "stale"),
]


def main():
    failed = layers.check(ROOT, write=False)
    for name, old, new, said in CHANGES:
        with tempfile.TemporaryDirectory() as folder:
            root = pathlib.Path(folder)
            for part in ("include", "lib", "docs"):
                shutil.copytree(ROOT / part, root / part)
            shutil.copy(ROOT / "DEVELOPERS.md", root)
            text = (root / name).read_text(encoding="utf-8")
            (root / name).write_text(text.replace(old, new, 1), encoding="utf-8")
            troubles = layers.check(root, write=False)
            if old not in text or not any(said in trouble for trouble in troubles):
                failed.append(f"{name} with {new!r}: not seen; {troubles}")
    sys.exit("\n".join(failed) or 0)


if __name__ == "__main__":
    main()
