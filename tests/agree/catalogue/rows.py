# SPDX-License-Identifier: MIT
"""Reads the rows of the catalogue without their formulas, and the headers' declarations that belong to them."""
import ast
import dataclasses
import functools
import pathlib
import re
import textwrap

from . import domains

HERE = pathlib.Path(__file__).resolve().parent
ROOT = next(folder for folder in HERE.parents if (folder / "include" / "ferrule").is_dir())
HEADERS = ROOT / "include" / "ferrule"
DECIDES = "decides, does not calculate: its tests compare with brute force, published examples or by hand"
WHOLE = {"int": "int", "double": "double", "size_t": "size", "uint64_t": "word", "int64_t": "signed", "uint32_t": "word"}
CALLS = "calls functions of the table: its tests compare with them"
DECLARED = re.compile(r"^FER_API\s+([\w ]+?[ *]+)(fer_\w+)\(([^)]*)\);", re.M)


@dataclasses.dataclass
class Row:
    name: str                  # the C function, or the name of a type or unit in Python
    text: str = ""             # where the figures come from, then a session
    judged: str = ""           # by what, where there is no formula
    arguments: dict = dataclasses.field(default_factory=dict)


def row(name, text="", /, judged="", **arguments):
    return Row(name, text, judged, arguments)


def modules():
    """The modules in the order in which ferrule.h lists them."""
    listed = re.findall(r"#include <ferrule/(\w+)\.h>", (HEADERS / "ferrule.h").read_text(encoding="utf-8"))
    return [name for name in listed if (HERE / f"{name}.py").exists()]


@functools.cache
def rows():
    """{name: Row} of all modules."""
    known = {**vars(domains), "row": row, "DECIDES": DECIDES, "CALLS": CALLS}
    found = {}
    for module in modules():
        path = HERE / f"{module}.py"
        for statement in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Call) and \
                    getattr(statement.value.func, "id", "") == "row":
                read = eval(compile(ast.Expression(statement.value), path, "eval"), known)
                if read.name in found:
                    raise SystemExit(f"{path}: {read.name} has two rows")
                found[read.name] = read
    return found


def examples():
    """By name in Python: the end of a docstring, which says where its figures come from and shows a session."""
    found = {}
    for name, read in rows().items():
        if read.text:
            source, _, session = read.text.partition("\n")
            name = name.removeprefix("fer_")
            found[name] = f"Example ({source}):\n" + textwrap.indent(session.rstrip(), "    ")
    return found


# ---- declarations ------------------------------------------------------------------------------------------------------

@dataclasses.dataclass
class Parameter:
    kind: str                  # the type without const and star
    name: str
    pointer: bool
    constant: bool


@dataclasses.dataclass
class Function:
    name: str
    result: str
    parameters: list


    def counted(self, array):
        """Whether the number of elements stands behind it."""
        behind = self.parameters[self.parameters.index(array) + 1:]
        return array.pointer and bool(behind) and behind[0].kind == "size_t" and not behind[0].pointer

    def inputs(self):
        """Without the number of elements behind an array."""
        counts = [self.parameters[at + 1] for at, p in enumerate(self.parameters) if self.counted(p)]
        return [p for p in self.parameters if (p.constant or not p.pointer) and p not in counts]

    def found(self, listed):
        """Where the number of elements of a list that is a result is written: behind the list and its capacity."""
        behind = self.parameters[self.parameters.index(listed) + 1:][:2]
        return behind[1] if len(behind) == 2 and behind[0].kind == "size_t" and behind[1].pointer and not listed.constant and listed.kind != "fer_work" else None

    def outputs(self):
        founds = [self.found(p) for p in self.parameters if p.pointer]
        return [p for p in self.parameters if p.pointer and not p.constant and p not in founds and p.kind != "fer_work"]


def parameter(text):
    constant, kind, star, name = re.fullmatch(r"(const )?(\w+) ?(\*?)(\w+)(?:\[\w*\])?", " ".join(text.split())).groups()
    return Parameter(kind, name, bool(star), bool(constant))


@functools.cache
def functions():
    """{name: Function} of all public headers; those that a list macro declares are not among them."""
    found = {}
    for header in sorted(HEADERS.glob("*.h")):
        for result, name, parameters in DECLARED.findall(header.read_text(encoding="utf-8")):
            words = [part for part in parameters.split(",") if part.strip() != "void"]
            found[name] = Function(name, " ".join(result.split()), [parameter(word) for word in words])
    return found


@functools.cache
def structs():
    """{struct: [(type, member, number of elements or None)]}, those that others use first."""
    found = {}
    for path in sorted(HEADERS.glob("*.h")):
        text = re.sub(r"/\*.*?\*/", "", path.read_text(encoding="utf-8"), flags=re.S)
        for name, body in re.findall(r"typedef struct (fer_\w+)\s*\{(.*?)\}\s*\1;", text, re.S):
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


def members(body):
    for line in body.split(";"):
        words = re.fullmatch(r"(.+?)(\s+\**|\s*\*)(\w+)(?:\[(\w+)\])?", " ".join(line.split()))
        if words:
            yield words[1] + words[2].strip(), words[3], words[4]


def inputs(name):
    return functions()[name].inputs()


def outputs(name):
    return functions()[name].outputs()


def unit_of(kind):
    """The member of a quantity, such as mm of fer_length; None for what is no quantity."""
    parts = structs().get(kind, [])
    return parts[0][1] if len(parts) == 1 and parts[0][0] == "double" else None
