#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Every public function has its row in the file of its module, and no row says what the headers do not have.

A row has an example, and a formula below it or what judges the function instead. Functions on many rows (bulk.h) have the bits of
those on one, and need no row while they are called by hand; those that a list macro declares have none.
"""
import ast
import pathlib
import re
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1]))
from catalogue import rows  # noqa: E402


def formulas(path):
    """Functions of C that a file has formulas for."""
    for node in ast.parse(path.read_text(encoding="utf-8")).body:
        for decorator in getattr(node, "decorator_list", []):
            if getattr(decorator.func, "id", "") == "case":
                yield decorator.args[0].value
            elif getattr(decorator.func, "id", "") == "exact":
                yield f"fer_{node.name.rstrip('_')}"


def gives_status(function):
    return function.result == "fer_status"


def complaints(module):
    path, header = rows.HERE / f"{module}.py", (rows.HEADERS / f"{module}.h").read_text(encoding="utf-8")
    declared = {name: rows.functions()[name] for _, name, _ in rows.DECLARED.findall(header)}
    text = path.read_text(encoding="utf-8") if path.exists() else ""
    written = set(re.findall(r'^row\("(\w+)"', text, re.M))
    exact = set(formulas(path)) if path.exists() else set()
    for name in sorted(written | exact):
        if name.startswith("fer_") and name not in declared:
            yield f"{path.name}: {module}.h has no {name}"
    for name, function in declared.items():
        row = rows.rows().get(name)
        if name not in written:
            if module != "bulk":
                yield f"tests/agree/catalogue/{module}.py has no row of {name}; the comment of __init__.py there shows one"
            continue
        if not row.text and not row.judged and module != "bulk":
            yield f"{name}: its row shows no example"
        if gives_status(function) and bool(row.judged) == (name in exact) and module != "bulk":
            yield f"{name}: its row wants a formula below it, or judged=\"by what\", and not both"
        wrong = set(row.arguments) - {p.name for p in function.inputs()}
        if wrong:
            yield f"{name} has no argument {', '.join(sorted(wrong))}"


def main():
    wrong = [text for path in sorted(rows.HEADERS.glob("*.h")) for text in complaints(path.stem)]
    print("\n".join(wrong) or f"{len(rows.rows())} rows, {len(rows.functions())} functions")
    return bool(wrong)


if __name__ == "__main__":
    sys.exit(main())
