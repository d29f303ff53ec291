# SPDX-License-Identifier: MIT
"""Writes C that prints the structs of the public headers.

Usage: structs.py SHOW.h [LAYOUTS.h]

For each struct show_NAME prints its members' bits in their order; show_layouts prints how each lies in memory. Structs that hold
pointers belong to the caller and are never a result: only their layout is printed.
"""
import json
import pathlib
import sys

TESTS = next(folder for folder in pathlib.Path(__file__).resolve().parents if folder.name == "tests")
sys.path[:0] = [str(folder.parent) for folder in TESTS.rglob("catalogue")]
from catalogue.rows import WHOLE, structs  # noqa: E402


def show_member(kind, name, count):
    value = f"x->{name}" if count is None else f"x->{name}[i]"
    if kind in structs():
        call = f"show_{kind}(&{value});"
    elif kind == "double" or kind in WHOLE:
        call = f"show_{WHOLE.get(kind, kind)}({value});"
    else:
        call = f"show_int((int){value});"  # an enum
    return f"    {call}" if count is None else f"    for (size_t i = 0; i < {count}; i++) {{\n        {call}\n    }}"


def write_shows():
    yield "/* Made by structs.py out of the public headers. */"
    for name, parts in structs().items():
        if any("*" in kind for kind, _, _ in parts) or any("column" in kind for kind, _, _ in parts):
            continue
        yield f"static inline void show_{name}(const {name} *x)\n{{"
        yield from (show_member(*part) for part in parts)
        yield "}\n"


def write_layouts():
    yield "/* Made by structs.py out of the public headers. */"
    yield "static inline void show_layouts(void)\n{"
    for name, parts in structs().items():
        yield f'    show_layout("{name}", sizeof({name}), _Alignof({name}));'
        yield from (f'    show_offset("{name}.{part}", offsetof({name}, {part}));' for _, part, _ in parts)
    yield "}"


def main():
    assert len(structs()) > 60 and all(structs().values()), structs()
    for path, lines in zip(sys.argv[1:], (write_shows(), write_layouts())):
        pathlib.Path(path).write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
