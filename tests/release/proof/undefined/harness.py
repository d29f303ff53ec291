# SPDX-License-Identifier: MIT
"""Writes harnesses for Eva: what calls of public functions may be given, out of bindings/api/api.json.

Usage: harness.py OUTPUT.c [NAME...]     all functions where none is named

Inputs hold any bits, results nothing yet. A pointer points at one value, or is null; a list has 0 to 3 elements and ends where its
memory ends, and so do the places for results. Text has up to 8 bytes. Working memory holds nothing yet: none, too little, or much. A column's rows are side by side, or one value serves for
all; a step of its own is the caller's promise. The function `prove` calls the harnesses one after the other; `probe_math` sees that no
function of math.h hides what follows a NaN.
"""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[4]
sys.path[:0] = [str(ROOT / "tests/guard/fuzz"), str(ROOT / "bindings/api")]
import calls  # noqa: E402
import describe  # noqa: E402

LIST, TEXT, TEXT_PLACES, WORDS = 3, 8, (0, 1, 2, 5, 9, 33, 400), (0, 20, 400)
HEAD = """/* Written by harness.py. */
#include <ferrule/bulk.h>
#include <ferrule/ferrule.h>
#include <math.h>
#include "__fc_builtin.h"
#define ANY(x) Frama_C_make_unknown((char *)&(x), sizeof(x))
#define MAYBE(pointer) (Frama_C_interval(0, 1) ? (pointer) : 0)
"""
PROBE = """void probe_math(void)
{
    double x; ANY(x);
    double y; ANY(y);
"""


def base_of(type_):
    return type_.removeprefix("const ").removesuffix(" *")


class Harness:
    """The lines of a function's harness, and its arguments: text, and whether it is a pointer."""

    def __init__(self, columns, function):
        self.columns, self.said = columns, function
        self.lines, self.arguments = [], []
        self.is_bulk = [p["name"] for p in function["parameters"][:1]] == ["rows"]
        parameters = function["parameters"]
        for place, p in enumerate(parameters):
            count = parameters[place + 1]["name"] if p["role"] in ("list", "results", "work") else "rows" if self.is_bulk else ""
            self.take(p, count)

    def number(self, name, values):
        """A number of elements: Eva looks at each alone."""
        self.lines.append(f"size_t {name} = Frama_C_interval(0, {values[-1]});")
        if values != tuple(range(values[-1] + 1)):
            self.lines.append(f"if ({' && '.join(f'{name} != {v}' for v in values)}) {{ return; }}")
        self.lines.append(f"/*@ split {name}; */ ;")

    def array(self, name, base, count, size, is_known):
        """Elements that end where their memory ends, so that one too many is seen."""
        self.lines.append(f"{base} {name}[{size}];" + (f" ANY({name});" if is_known else ""))
        return f"{name} + ({size} - {count})"

    def column(self, name, said):
        """A column by value: rows side by side, one for all, or none."""
        base = base_of(said["members"][0]["type"])
        first = self.array(f"{name}_rows", base, "rows", LIST, True)
        self.lines.append(f"{base} {name}_same; ANY({name}_same);")
        self.lines.append(f"{said['name']} {name} = {{MAYBE({first}), 0, 0}};")
        self.lines.append(f"if (Frama_C_interval(0, 1)) {{ {name}.first = MAYBE(&{name}_same); {name}.same = 1; }}")

    def columns_of(self, name, said):
        """Several columns in a struct."""
        inner = {s["name"]: s for s in self.columns}
        for member in said["members"]:
            self.column(f"{name}_{member['name']}", inner[member["type"]])
        members = ", ".join(f"{name}_{m['name']}" for m in said["members"])
        self.lines.append(f"{said['name']} {name} = {{{members}}};")

    def take(self, p, count):
        name, type_, role = p["name"], p["type"], p["role"]
        base = base_of(type_)
        columns = {s["name"]: s for s in self.columns}.get(base)
        is_text = count and base == "char"
        if columns:
            (self.columns_of if columns["members"][0]["type"] in {s["name"] for s in self.columns} else self.column)(name, columns)
            self.arguments.append((f"&{name}" if type_.endswith("*") else name, type_.endswith("*")))
        elif role in ("count", "capacity", "words") or self.is_bulk and name == "rows":
            self.arguments.append((name, False))
            if name == "rows":
                self.number(name, tuple(range(LIST + 1)))
        elif not type_.endswith("*"):
            self.lines.append(f"{base} {name}; ANY({name});")
            self.arguments.append((name, False))
        elif count and role in ("list", "results", "result"):
            if role != "result":
                self.number(count, tuple(range(TEXT + 1)) if is_text and role == "list" else TEXT_PLACES if is_text
                            else tuple(range(LIST + 1)))
            size = TEXT if is_text and role == "list" else TEXT_PLACES[-1] if is_text else LIST
            self.arguments.append((self.array(name, base, count, size, role == "list"), True))
        elif role == "work":
            self.number(count, WORDS)
            self.arguments.append((self.array(name, base, count, WORDS[-1], False), True))
        elif role == "input":
            self.lines.append(f"{base} {name}; ANY({name});")
            self.arguments.append((f"&{name}", True))
        elif role in ("result", "found"):
            self.lines.append(f"{base} {name};")
            self.arguments.append((f"&{name}", True))
        else:
            sys.exit(f"harness.py: no rule for {type_} {name} of {self.said['name']}")

    def text(self):
        arguments = ", ".join(f"MAYBE({text})" if is_pointer else text for text, is_pointer in self.arguments)
        call = f"{self.said['returns']} returned = {self.said['name']}({arguments});"
        shown = "Frama_C_show_each_end(returned);" if self.said["returns"] == "fer_status" else "Frama_C_show_each_end();"
        return "\n".join([f"void prove_{self.said['name']}(void)", "{", *(f"    {line}" for line in self.lines + [call, shown]), "}", ""])


def pointed(api):
    """Structs of columns: those that hold a pointer, and those that hold such a struct."""
    found = [s for s in api["structs"] if "*" in s["members"][0]["type"]]
    names = {s["name"] for s in found}
    return found + [s for s in api["structs"] if s["members"][0]["type"] in names]


def functions(api):
    """All public functions as api.json has them."""
    return [f | {"parameters": f.get("parameters", [])} for f in api.said["functions"]]


def named_statuses(api):
    """By function: the names of the statuses that its comment allows; none where any is allowed or it returns none."""
    caller = calls.Caller(api)
    return {f.c_name: {"FER_" + name.removeprefix("FER_") for name in caller.statuses(f, set())}
            for f in caller.functions if f.type == "fer_status" and not caller.any_status(f)}


def probe():
    """For each function of math.h: the end with a NaN is reached."""
    text = (pathlib.Path(__file__).parent / "math.h").read_text(encoding="ascii")
    known = [("fabs", "x"), ("fmin", "x, y"), ("fmax", "x, y")]
    for name, arguments in re.findall(r"extern double (\w+)\(([^)]*)\);", text):
        if "*" not in arguments:
            known.append((name, "x" if "," not in arguments else "x, (int)0" if "int" in arguments else "x, y"))
    lines = [f"    {{ double r = {name}({arguments}); if (r != r) {{ Frama_C_show_each_nan_{name}(); }} }}" for name, arguments in known]
    return "\n".join([PROBE.rstrip(), *lines, "}", ""]), [name for name, _ in known]


def write(path, names=()):
    api = describe.Api()
    columns = pointed(api.said)
    said = {f["name"]: f for f in functions(api)}
    chosen = {name: Harness(columns, said[name]).text() for name in names or said}
    calls_ = "".join(f"    Frama_C_show_each_begin_{name}();\n    prove_{name}();\n" for name in chosen)
    texts = [probe()[0], *chosen.values(), f"void prove(void)\n{{\n{calls_}    Frama_C_show_each_begin_nothing();\n}}\n"]
    pathlib.Path(path).write_text(HEAD + "\n".join(texts), encoding="ascii")


if __name__ == "__main__":
    write(sys.argv[1], sys.argv[2:])
