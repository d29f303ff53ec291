#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Two rules of every source of lib, each first tried on lines that break it.

- Results that are not there are written by the macros of lib/base/value_private.h: no NaN is typed into a struct or a result.
- It opens with three lines: what it does, by which method, where the formulas stand.
"""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[3]
TYPED = re.compile(r"\{\s*\{\s*NAN\s*\}|(?:->|\.)\w+ = (?:[\w>.-]+ = )*NAN;|\*\w+ = NAN;")


def typed(text):
    return [(number, line.strip()) for number, line in enumerate(text.splitlines(), 1) if TYPED.search(line)]


def opens_well(text):
    lines = text.splitlines()[1:4]
    return (len(lines) == 3 and re.match(r"/\* [A-Z].*\.$", lines[0]) and re.match(r" \* Method: .+\.$", lines[1])
            and re.match(r" \* Formulas: .+\. \*/$", lines[2]))


def main():
    good = "/* licence */\n/* Adds.\n * Method: counting.\n * Formulas: none. */\n"
    assert opens_well(good) and not opens_well(good.replace("Method: ", "")) and not opens_well("/* licence */\n#include <math.h>\n")
    for bad in ("const fer_shares none = {{NAN}, {NAN}};", "outlook->setting.mm = outlook->diameter.mm = NAN;", "use->fraction = NAN;",
                "    *number = NAN;"):
        assert typed(bad), bad
    found = [f"{path.relative_to(ROOT)}:{number}: {line} (write FER_LEAVE_OUT(result) of base/value_private.h instead)" for path in sorted((ROOT / "lib").rglob("*.[ch]"))
             for number, line in typed(path.read_text(encoding="utf-8"))]
    found += [f"{path.relative_to(ROOT)} does not open with what it does, Method: and Formulas:, as lib/crimp/joint.c does"
              for path in sorted((ROOT / "lib").rglob("*.c")) if not opens_well(path.read_text(encoding="utf-8"))]
    sys.exit("\n".join(found) or 0)


if __name__ == "__main__":
    main()
