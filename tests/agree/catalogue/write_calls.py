# SPDX-License-Identifier: MIT
"""Writes the calls of the catalogue's rows as C: one function for each that the program does not call by hand.

Usage: write_calls.py PROGRAM.c OUTPUT.h

The program offers what draw.h and say.h declare, and show_STRUCT of structs.py, and calls call_catalogue(rounds). Every number
is drawn from a seed of the function's own name in steps that no machine rounds, so a new row changes no other's values.
"""
import pathlib
import re
import sys
import zlib

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1]))
from catalogue import domains, rows  # noqa: E402

LISTED = 32  # elements of a list that is a result
WORK = 4096  # words of working memory
ROWS = 24    # rows of a column


class Unsupported(Exception):
    """What no row can describe: such a function is called by hand in the program."""


def enums():
    """Names of the types whose values are words."""
    return set(re.findall(r"^typedef enum (fer_\w+)", "".join(path.read_text(encoding="utf-8") for path in rows.HEADERS.glob("*.h")), re.M))


def enumerator(kind, word):
    """FER_FLOW_ENDS_FREE of the word FREE of fer_flow."""
    for path in sorted(rows.HEADERS.glob("*.h")):
        body = re.search(rf"typedef enum {kind} \{{(.*?)\}} {kind};", path.read_text(encoding="utf-8"), re.S)
        found = re.search(rf"\bFER_\w+?_{word}\b", body[1]) if body else None
        if found:
            return found[0]
    return f"{kind.upper()}_{word}"


def constant(kind, value):
    if isinstance(value, str):
        return enumerator(kind, value)
    return repr(float(value)) if kind == "double" else f"{int(value)}"


class Writer:
    """The lines that draw one function's arguments."""

    def __init__(self):
        self.lines, self.places = [], 0

    def line(self, text, depth=2):
        self.lines.append("    " * depth + text)

    def fill(self, place, kind, domain, scopes):
        """Lines that give a place its value. scopes: prefix in C and names drawn so far, of the structs around it."""
        if isinstance(domain, dict):
            self.fill_struct(place, kind, domain, scopes)
        elif rows.unit_of(kind):
            self.line(f"{place}.{rows.unit_of(kind)} = {self.number('double', domain, scopes)};")
        else:
            cast = f"({kind})" if kind not in ("double", "int") else ""
            self.line(f"{place} = {cast}{self.number(kind, domain, scopes)};")

    def fill_struct(self, place, kind, domain, scopes):
        kinds = {member: (inner, count) for inner, member, count in rows.structs()[kind]}
        drawn = {}
        for member, inner in domain.items():
            if member not in kinds:
                raise SystemExit(f"{kind} has no member {member}")
            drawn[member] = kinds[member][0]
            around = [*scopes, (f"{place}.", drawn)]
            if isinstance(inner, list):
                for i, each in enumerate(inner):
                    self.fill(f"{place}.{member}[{i}]", kinds[member][0], each, around)
            else:
                self.fill(f"{place}.{member}", kinds[member][0], inner, around)

    def number(self, kind, domain, scopes):
        """An expression in C."""
        if isinstance(domain, domains.plus):
            others = " + ".join(self.other(path, scopes) for path in domain[:-2])
            return f"{others} + draw_between(&state, {float(domain[-2])!r}, {float(domain[-1])!r})"
        if isinstance(domain, domains.wide):
            return f"draw_wide(&state, {float(domain[0])!r}, {float(domain[1])!r})"
        if isinstance(domain, domains.any_of):
            return self.choice(kind, domain)
        if isinstance(domain, tuple):
            low, high = domain
            return f"draw_whole(&state, {low}, {high})" if kind != "double" else f"draw_between(&state, {float(low)!r}, {float(high)!r})"
        return constant(kind, domain)

    def choice(self, kind, choices):
        self.places += 1
        name, c_kind = f"choices_{self.places}", "double" if kind == "double" else "int"
        values = ", ".join(constant(kind, value) for value in choices)
        self.line(f"static const {c_kind} {name}[] = {{{values}}};")
        return f"{name}[draw_whole(&state, 0, {len(choices) - 1})]"

    def other(self, path, scopes):
        """What has been drawn under a path, beginning in the innermost struct that has its first word."""
        first, *rest = path.split(".")
        prefix, drawn = next(((prefix, drawn) for prefix, drawn in reversed(scopes) if first in drawn), ("", {}))
        if first not in drawn:
            raise SystemExit(f"no {path} is drawn before it is needed")
        kind, place = drawn[first], prefix + first
        for member in rest:
            kind = next(inner for inner, name, _ in rows.structs()[kind] if name == member)
            place += f".{member}"
        return f"{place}.{rows.unit_of(kind)}" if rows.unit_of(kind) else place


def declare_input(writer, parameter, domain, drawn):
    """Draws one argument; how it is handed over."""
    kind, name = parameter.kind, parameter.name
    column = re.fullmatch(r"fer_(\w+)_(column|columns)", kind)
    if column:
        kind = "fer_" + column[1]
        writer.line(f"{kind} {name}[{ROWS}] = {{0}};")
        writer.line(f"for (int row = 0; row < {ROWS}; row++) {{")
        writer.fill(f"{name}[row]", kind, domain, [("", drawn)])
        writer.line("}")
        if column[2] == "column":
            return [f"fer_{column[1]}_rows({name})"]
        writer.line(f"const {parameter.kind} columns_of_{name} = fer_columns_of_{column[1]}s({name});")
        return [f"&columns_of_{name}"]
    drawn[name] = kind
    if isinstance(domain, list):
        writer.line(f"{kind} {name}[{len(domain)}];")
        writer.line(f"memset({name}, 0, sizeof {name});")
        for i, each in enumerate(domain):
            writer.fill(f"{name}[{i}]", kind, each, [("", drawn)])
        return [name, str(len(domain))]
    if kind in rows.structs():
        writer.line(f"{kind} {name};")
        writer.line(f"memset(&{name}, 0, sizeof {name});")
    else:
        writer.line(f"{kind} {name};")
    writer.fill(name, kind, domain, [("", drawn)])
    return [f"&{name}" if parameter.pointer else name]


def inputs(writer, function, row):
    """{name: how the argument is handed over}, those that the row leaves out as nothing."""
    handed, drawn = {}, {}
    given = {p.name: p for p in function.inputs()}
    for name in sorted(given, key=lambda name: [*row.arguments, name].index(name)):
        p = given[name]
        if name in row.arguments:
            handed[name] = declare_input(writer, p, row.arguments[name], drawn)
        elif function.result == "size_t" and p.kind == "size_t":
            handed[name] = [str(ROWS)]
        elif p.pointer:
            handed[name] = ["NULL", "0"] if function.counted(p) else ["NULL"]
        elif p.kind in rows.structs():
            handed[name] = [f"({p.kind}){{0}}"]
        else:
            raise Unsupported(f"the row of {function.name} says nothing of {name}")
    return handed


def outputs(writer, function):
    """Declares the results; {name: how it is handed over} and the lines that show them."""
    handed, shown, bulk = {}, [], function.result == "size_t"
    for p in function.outputs():
        shows = f"show_{p.kind}" if p.kind in rows.structs() else f"show_{rows.WHOLE.get(p.kind, 'int')}"
        address = "&" if p.kind in rows.structs() else "(int)" if p.kind in enums() else ""
        several = function.found(p)
        count = LISTED if several else ROWS if bulk else 0
        writer.line(f"{p.kind} {p.name}{f'[{count}]' if count else ''};")
        writer.line(f"memset({'' if count else '&'}{p.name}, 0x55, sizeof {p.name});")
        if several:
            found = several.name
            writer.line(f"size_t {found} = 0;")
            handed[p.name] = [p.name, str(LISTED), f"&{found}"]
            shown += [f"show_size({found});", f"for (size_t at = 0; at < {found} && at < {LISTED}; at++) {{",
                      f"    {shows}({address}{p.name}[at]);", "}"]
        elif bulk:
            handed[p.name] = [p.name]
            shown += [f"for (size_t at = 0; at < {ROWS}; at++) {{", f"    {shows}({address}{p.name}[at]);", "}"]
        else:
            handed[p.name] = [f"&{p.name}"]
            shown += [f"{shows}({address}{p.name});"]
    return handed, shown


def call(function, row):
    """The function in C that draws, calls and shows."""
    name, writer = function.name.removeprefix("fer_"), Writer()
    handed = inputs(writer, function, row)
    found, shown = outputs(writer, function)
    handed.update(found)
    for p in function.parameters:
        if p.kind == "fer_work":
            writer.line(f"fer_work {p.name}[{WORK}];")
            handed[p.name] = [p.name, str(WORK)]
    words = ", ".join(word for p in function.parameters for word in handed.get(p.name, []))
    called = f"{function.name}({words})"
    if function.result == "fer_status":
        writer.line(f'say_call("{name}", {called});')
    elif function.result == "size_t" or function.result in enums():
        writer.line(f'say("{name}");')
        writer.line(f"show_size((size_t){called});")
    elif function.result == "const char *":
        writer.line(f'say_text_of("{name}", {called});')
    elif function.result in rows.structs():
        writer.line(f"const {function.result} result = {called};")
        writer.line(f'say("{name}");')
        writer.line(f"show_{function.result}(&result);")
    else:
        raise Unsupported(f"{function.name} gives {function.result}")
    for line in shown:
        writer.line(line)
    if function.result != "const char *":
        writer.line('say("\\n");')
    return "\n".join([f"static void call_{name}(int rounds)", "{", f"    uint64_t state = {zlib.crc32(function.name.encode())};",
                      "    for (int round = 0; round < rounds; round++) {", *writer.lines, "    }", "}", ""])


def by_hand(program):
    """Functions that a program in C calls itself."""
    text = program.read_text(encoding="utf-8")
    return {f"fer_{name}" for name in re.findall(r"\b(?:SAY\w*\(\s*|fer_)(\w+)", text)}


def write(program):
    calls, called, missing = [], by_hand(program), []
    for function in rows.functions().values():
        if function.name in called:
            continue
        row = rows.rows().get(function.name)
        try:
            if not row or function.inputs() and not row.arguments:
                raise Unsupported(f"{function.name} is not called: its row in the catalogue gives no arguments")
            calls.append((function.name, call(function, row)))
        except Unsupported as reason:
            missing.append(str(reason))
    if missing:
        raise SystemExit("\n".join(missing))
    yield f"/* Made by write_calls.py out of the catalogue, for {program.name}. */"
    yield from (text for _, text in calls)
    yield "static void call_catalogue(int rounds)\n{\n    (void)rounds;"
    yield from (f"    call_{name.removeprefix('fer_')}(rounds);" for name, _ in calls)
    yield "}"


def main():
    program, target = map(pathlib.Path, sys.argv[1:3])
    target.write_text("\n".join(write(program)) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
