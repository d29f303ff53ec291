# SPDX-License-Identifier: MIT
"""Writes C that prints the structs of the API: structs.h, for evaluate.c.

Usage: structs.py OUTPUT

For each struct show_NAME prints its members' bits in their order, and show_layouts prints how each lies in memory. Structs
that hold pointers belong to the caller and are never a result: only their layout is printed.
"""
import json
import pathlib
import sys

API = pathlib.Path(__file__).resolve().parents[2] / "bindings" / "api" / "api.json"
WHOLE = {"int": "int", "size_t": "size", "uint64_t": "word", "int64_t": "signed", "uint32_t": "word", "double": "double"}


def read():
    """{struct: (type, name, number of elements or None) of each member}, those that others use first."""
    api = json.loads(API.read_text(encoding="utf-8"))
    quantities = [q | {"members": [q["member"]]} for q in api["quantities"]]
    structs = sorted(quantities + api["structs"], key=lambda s: s["header"])
    found = {s["name"]: [(m["type"], m["name"], m.get("array")) for m in s["members"]] for s in structs}
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
    yield "/* Made by structs.py. */"
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
    target, structs = pathlib.Path(sys.argv[1]), read()
    assert len(structs) > 60 and all(structs.values()), structs
    target.write_text("\n".join(write(structs)) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
