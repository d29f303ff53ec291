# SPDX-License-Identifier: MIT
"""Reads the structs of the public headers and writes C that prints them: structs.h, for evaluate.c.

Usage: structs.py HEADER_FOLDER OUTPUT

For each struct show_NAME prints its members' bits in their order, and show_layouts prints how each lies in memory. Structs
that hold pointers belong to the caller and are never a result: only their layout is printed.
"""
import pathlib
import re
import sys

STRUCT = re.compile(r"typedef struct (fer_\w+)\s*\{(.*?)\}\s*\1;", re.S)
WHOLE = {"int": "int", "size_t": "size", "uint64_t": "word", "int64_t": "signed", "uint32_t": "word", "double": "double"}


def members(body):
    """(type, name, number of elements or None) of each member; None for a pointer's number stands in the type."""
    for line in body.split(";"):
        words = re.fullmatch(r"(.+?)(\s+\**|\s*\*)(\w+)(?:\[(\w+)\])?", " ".join(line.split()))
        if words:
            yield words[1] + words[2].strip(), words[3], words[4]


def read(folder):
    """{struct: its members}, those that others use first."""
    found = {}
    for path in sorted(folder.glob("*.h")):
        text = re.sub(r"/\*.*?\*/", "", path.read_text(encoding="utf-8"), flags=re.S)
        for name, body in STRUCT.findall(text):
            found[name] = list(members(body))
    order = []

    def add(name):
        if name not in order:
            for kind, _, _ in found[name]:
                if kind in found:
                    add(kind)
            order.append(name)
    for name in found:
        add(name)
    return {name: found[name] for name in order}


def show_member(kind, name, count, structs):
    value = f"x->{name}" if count is None else f"x->{name}[i]"
    if kind in structs:
        call = f"show_{kind}(&{value});"
    elif kind in WHOLE:
        call = f"show_{WHOLE[kind]}({value});"
    else:
        call = f"show_int((int){value});"  # an enum
    return f"    {call}" if count is None else f"    for (size_t i = 0; i < {count}; i++) {{\n        {call}\n    }}"


def write(structs):
    yield "/* Made by structs.py out of the public headers. */"
    for name, parts in structs.items():
        if any("*" in kind for kind, _, _ in parts) or any("column" in kind for kind, _, _ in parts):
            continue
        yield f"static inline void show_{name}(const {name} *x)\n{{"
        yield from (show_member(*part, structs) for part in parts)
        yield "}\n"
    yield "static inline void show_layouts(void)\n{"
    for name, parts in structs.items():
        yield f'    show_layout("{name}", sizeof({name}), _Alignof({name}));'
        yield from (f'    show_offset("{name}.{part}", offsetof({name}, {part}));' for _, part, _ in parts)
    yield "}"


def main():
    folder, target = map(pathlib.Path, sys.argv[1:3])
    structs = read(folder)
    assert len(structs) > 60 and all(structs.values()), structs
    target.write_text("\n".join(write(structs)) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
