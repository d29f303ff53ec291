#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Results that are not there are written by the macros of lib/base/value_private.h: nobody types NaN into a struct or a result.

The check itself is first tried on lines that break the rule.
"""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[3]
TYPED = re.compile(r"\{\s*\{\s*NAN\s*\}|(?:->|\.)\w+ = (?:[\w>.-]+ = )*NAN;|\*\w+ = NAN;")


def typed(text):
    return [(number, line.strip()) for number, line in enumerate(text.splitlines(), 1) if TYPED.search(line)]


def main():
    for bad in ("const fer_yield none = {{NAN}, {NAN}};", "outlook->setting.mm = outlook->diameter.mm = NAN;", "use->fraction = NAN;",
                "    *number = NAN;"):
        assert typed(bad), bad
    found = [f"{path.relative_to(ROOT)}:{number}: {line}" for path in sorted((ROOT / "lib").rglob("*.[ch]"))
             for number, line in typed(path.read_text(encoding="utf-8"))]
    sys.exit("\n".join(found) or 0)


if __name__ == "__main__":
    main()
