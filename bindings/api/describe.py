# SPDX-License-Identifier: MIT
"""The API as the bindings see it, out of api.json, and what SWIG and the C of the bindings need of it.

Usage: describe.py OUTPUT_FOLDER [--script]

kinds_list.h, kinds_table.c  the table of structs and enums (see kinds.h)
api.i                        typemaps by kind, docstrings and headers for SWIG
__init__.pyi                 the stub of the Python package
functions_table.c            instead of the stub, with --script: names and arguments of the functions (see script.h)

There are rules and no list of special cases:
- a member may be left out where its comment says what that means (@optional) and every member after it may be;
  an int with @flag is a bool
- an argument that is a struct by value may be left out where all members of the struct may be, or where the function's comment
  says of the argument what that means
- a struct that holds a pointer belongs to C alone, and so does every function that takes or gives one: other languages
  have arrays of their own
- working memory (fer_work *, size_t) is no argument: the runtime gives FER_WORK_USUAL words
- a function that takes trials may run long: the language may do other things meanwhile
- a function of one enum that returns text says something about its words; fer_X and fer_to_X make and read a unit;
  one that takes columns (a pointer to quantities that is no list with its count) is left to array packages
"""
import json
import os
import re
import sys
import textwrap

from keywords import allowed

# Calls with one of these take long and are made in parts: bindings/runtime/parts.h.
LONG = ("fer_trials", "fer_rack_aim", "fer_schedule_aim")
INTEGERS = ["int", "long", "unsigned", "size_t", "int8_t", "uint8_t", "int16_t", "uint16_t", "int32_t", "uint32_t",
            "int64_t", "uint64_t"]
HERE = os.path.dirname(os.path.abspath(__file__))
TITLES = {"formula": "Formula", "valid": "Valid range", "accuracy": "Accuracy", "source": "Source", "deprecated": "Deprecated",
          "return": "return"}

type_names = set()  # fer_joint and its like, which are Joint in the bindings


def named(text):
    """A text with the names as the bindings have them."""
    name = lambda m: caps(m[1]) if m[0] in type_names else m[1]
    return re.sub(r"\bFER_(?=[A-Z])", "", re.sub(r"\bfer_(\w+)", name, text))


def caps(name):
    return "".join(part.capitalize() for part in name.removeprefix("fer_").split("_"))


def read_examples():
    """By name: where the figures come from, and a session of Python. They stand behind the headers' text in docstrings."""
    sys.path.append(os.path.join(HERE, "..", "..", "tests", "agree"))
    sys.dont_write_bytecode = True
    from catalogue.rows import examples
    return examples()


FOR_SCRIPT = "--script" in sys.argv
EXAMPLES = {} if FOR_SCRIPT else read_examples()


def sentence(said, absent="0"):
    """What stands in a comment, with its tags in words; absent: how what is left out is called."""
    parts = [("1: " if "flag" in said else "") + said.get("text", "")]
    if "range" in said and "as" not in said:
        parts.append(said["range"]["text"])
    parts += [f"{word} {said[word]}" for word in ("above", "below") if word in said]
    parts += [f"not used: {', '.join(said['unused'])}"] if "unused" in said and "as" not in said else []
    parts += [f"{word}: {said[key]}" for word, key in ((absent, "optional"), ("NULL", "null")) if key in said]
    return named("; ".join(filter(None, parts)))


class Member:
    def __init__(self, said):
        self.c_name, self.type, self.array = said["name"], said["type"], said.get("array")
        self.name, self.text = allowed(self.c_name), sentence(said)
        self.said, self.optional = said, "optional" in said
        if "flag" in said:
            self.type = "bool"


class Enum:
    form = "ENUM"

    def __init__(self, said):
        self.c_name, self.text = said["name"], named(said["text"])
        self.name, self.readers = caps(self.c_name), {}
        for w in said["words"]:
            allowed(w["word"].lower())
        self.values = [(w["word"], w["name"], named(w.get("text", "")), w["number"]) for w in said["words"]]


class Struct:
    def __init__(self, said):
        self.c_name, self.name, self.text, self.form = said["name"], caps(said["name"]), named(said["text"]), said["form"]
        self.members = [Member(m) for m in said["members"]]
        for member, following in reversed(list(zip(self.members, self.members[1:]))):
            member.optional &= following.optional  # what may be left out comes last
        self.units = []
        self.element = self.c_name[:-1] if self.form == "SET" else None
        if self.form == "FOUND":
            for member in self.members:
                member.optional = True

    def all_optional(self):
        return self.form == "STRUCT" and all(m.optional for m in self.members)

    def shorthand(self):
        """The first member stands for the whole where the others may be left out and it cannot be mistaken for one."""
        first, *others = self.members
        return self.form == "STRUCT" and all(m.optional and (not first.optional or m.type != first.type) for m in others)


class Function:
    def __init__(self, said, structs=()):
        self.c_name, self.type = said["name"], said["returns"]
        self.name = allowed(self.c_name.removeprefix("fer_"))
        self.text = [named(t) for t in said.get("text", [])]
        self.said = {p["name"]: p for p in said.get("parameters", [])}
        self.parameters = [(allowed(p["name"]), p["type"]) for p in self.said.values()]
        self.roles = [p["role"] for p in self.said.values()]
        self.notes = {name: sentence(p, "all zero" if p["type"] in structs else "0") for name, p in self.said.items()}
        self.statuses = [(named(s["name"]), named(s["text"])) for s in said.get("statuses", [])]
        self.sections = {title: named(said[key]) for key, title in TITLES.items() if key in said}
        self.is_inline = said.get("inline", False)


class Api:
    """The API as a language with exceptions and lists sees it, out of api.json."""

    def __init__(self, path=os.path.join(HERE, "api.json")):
        with open(path, encoding="utf-8") as file:
            said = self.said = json.load(file)
        kinds = [*said["quantities"], *said["structs"], *said["enums"]]
        type_names.update(k["name"] for k in [*kinds, *said["aliases"]])
        self.headers = [m["header"] for m in said["modules"]]
        self.enums = {e["name"]: Enum(e) for e in said["enums"]}
        quantities = [q | {"form": "QUANTITY", "members": [q["member"]]} for q in said["quantities"]]
        self.structs = {s["name"]: Struct(s) for s in [*quantities, *said["structs"]]}
        plain = {name for name, s in self.structs.items() if s.form == "STRUCT"}
        functions = {f["name"]: Function(f, plain) for f in said["functions"]}
        self.left_to_c = self.leave_to_c(functions)
        for f in functions.values():
            if f.name and f.name.startswith("to_") and "fer_" + f.name[3:] in functions:
                self.structs[f.parameters[0][1]].units.append(f.name[3:])
            if f.type in ("const char *", *self.enums) and len(f.parameters) == 1 and f.parameters[0][1] in self.enums:
                enum = self.enums[f.parameters[0][1]]
                if f.name.startswith(enum.c_name[4:] + "_") and not f.name.endswith("_name"):
                    enum.readers[f.name.removeprefix(enum.c_name[4:] + "_")] = f
        self.kinds = list(self.structs) + list(self.enums)
        hidden = re.compile(r"fer_(to|parse|format)_|FER_(SHORTEST|FRACTION|TEXT_CAPACITY)$")  # as in ferrule.i
        self.functions = [f for f in functions.values() if not hidden.match(f.c_name)]
        self.bulk = [f for f in self.functions if self.is_bulk(f)]
        self.functions = [f for f in self.functions if f not in self.bulk]
        self.constants = {c["name"][4:]: "float" if "." in c["value"] else "int" for c in said["constants"] if not hidden.match(c["name"])}
        # Quantities with a zero of their own, such as temperatures, have no sums and multiples.
        self.scales = {q["name"].removeprefix("fer_") for q in said["quantities"] if any(u["zero"] for u in q["units"])}
        for owner, type_ in [(s.c_name, m.type) for s in self.structs.values() for m in s.members]:
            if type_ not in self.kinds + INTEGERS + ["double", "bool"]:
                sys.exit(f"describe.py: no rule for the member type '{type_}' in {owner}")

    def leave_to_c(self, functions):
        """Takes out the structs that hold pointers, also by other structs, and the functions of these; their names."""
        columns, before = set(), -1
        while len(columns) > before:
            before = len(columns)
            columns |= {s.c_name for s in self.structs.values() for m in s.members if m.type.endswith("*") or m.type in columns}
        bare = lambda type_: type_.removeprefix("const ").removesuffix(" *")
        names = [f.c_name for f in functions.values() if columns & {bare(t) for _, t in f.parameters + [("", f.type)]}]
        self.c_functions = [functions.pop(name) for name in names]
        self.c_structs = {name: self.structs.pop(name) for name in sorted(columns)}
        return names

    def is_bulk(self, f):
        """Columns: pointers to quantities or numbers that are no lists. Not for calls with single values."""
        bases = [type_[len("const "):-len(" *")] for (_, type_), role in zip(f.parameters, f.roles) if role == "input"]
        return any(b not in self.structs or self.structs[b].form == "QUANTITY" for b in bases if b != "char")


def quoted(text):
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return '"' + "".join(c if c.isascii() else "".join(f"\\{b:03o}" for b in c.encode()) for c in escaped) + '"'


def signature(struct):
    if struct.form == "QUANTITY":
        return "text=None, /, *, " + ", ".join(f"{u}=None" for u in struct.units)
    return ", ".join(m.name + ("=None" if m.optional else "") for m in struct.members)


def struct_text(struct):
    if FOR_SCRIPT:
        return struct.text
    text = f"{struct.name}({signature(struct)})\n--\n\n{struct.text}"
    if struct.form == "QUANTITY":
        unit = struct.units[0]
        text += (f"\n\nMade of text with a unit or of one number with its unit: {struct.name}(\"41 {unit}\") or "
                 f"{struct.name}({unit}=41).\nUnits: {', '.join(struct.units)}.")
    else:
        text += "\n\n" + "\n".join(f"{m.name}: {m.text}" for m in struct.members)
    return text + (f"\n\n{EXAMPLES[struct.name]}" if struct.name in EXAMPLES else "")


def kinds_list(api):
    names = api.kinds + INTEGERS + ["double", "bool"]
    lines = ["/* Written by describe.py. */", "enum {"] + [f"    BIND_{name}," for name in names] + ["    BIND_COUNT", "};"]
    lines += ["/* Large enough for any of them. */", "typedef union bind_any {", "    double number;", "    uint64_t whole;"]
    lines += [f"    {name} {name[4:]}_;" for name in api.structs] + ["} bind_any;"]
    return "\n".join(lines) + "\n"


def kinds_table(api):
    out = ["/* Written by describe.py. */", '#include "kinds.h"', "#include <stddef.h>"]
    for s in api.structs.values():
        if s.form in ("STRUCT", "FOUND"):
            out.append(f"static const bind_member {s.c_name}_members[] = {{")
            out += [f"    {{{quoted(m.name)}, {quoted(m.text)}, &bind_kinds[BIND_{m.type}], "
                    f"offsetof({s.c_name}, {m.c_name}), {m.array or 0}, {int(m.optional)}}}," for m in s.members]
            out.append("    {0}};")
    for e in api.enums.values():
        out.append(f"static const bind_word {e.c_name}_words[] = {{")
        out += [f"    {{{quoted(name)}, {quoted(text)}, {c_name}}}," for name, c_name, text, _ in e.values] + ["    {0}};"]
        rows = "".join(f"{{{quoted(name)}, {quoted(f.name)}}}, " for name, f in e.readers.items())
        out.append(f"static const bind_reader {e.c_name}_readers[] = {{{rows}{{0}}}};")
    out.append("const bind_kind bind_kinds[BIND_COUNT] = {")
    for s in api.structs.values():
        members = f".members = {s.c_name}_members" if s.form in ("STRUCT", "FOUND") else ""
        if s.form == "SET":
            members = f".element = &bind_kinds[BIND_{s.element}]"
        out.append(f"    [BIND_{s.c_name}] = {{.name = {quoted(s.name)}, .text = {quoted(struct_text(s))}, "
                   f".form = BIND_{s.form}, .size = sizeof({s.c_name}), {members}}},")
    for e in api.enums.values():
        out.append(f"    [BIND_{e.c_name}] = {{.name = {quoted(e.name)}, .text = {quoted(e.text)}, .form = BIND_ENUM, "
                   f".size = sizeof({e.c_name}), .words = {e.c_name}_words, .readers = {e.c_name}_readers}},")
    for i in INTEGERS:
        out.append(f'    [BIND_{i}] = {{.name = "{i}", .form = BIND_INTEGER, .size = sizeof({i}), '
                   f'.is_signed = ({i})-1 < ({i})1}},')
    out += ['    [BIND_double] = {.name = "float", .form = BIND_NUMBER, .size = sizeof(double)},',
            '    [BIND_bool] = {.name = "bool", .form = BIND_BOOL, .size = sizeof(int)},', "};"]
    return "\n".join(out) + "\n"


class Call:
    """A function as a language with exceptions and lists sees it: arguments and results."""

    def __init__(self, api, f):
        self.arguments, self.results = [], []  # (name, C type, is a list, is optional)
        self.lists = []  # the parameters of each list, as SWIG is to apply a typemap to them
        self.lacking = []  # (C type, name) of what may be left out in this function, and not in every other
        for place, ((name, type_), role) in enumerate(zip(f.parameters, f.roles)):
            base = type_.removeprefix("const ").removesuffix(" *")
            following = [p[0] for p in f.parameters[place + 1:place + 3]]
            if role == "value":
                self.add_value(api, f, name, base)
            elif role in ("input", "list"):
                self.arguments.append((name, base, role == "list", False))
            elif role in ("result", "results"):
                self.results.append((name, base, role == "results", False))
            if role == "work":
                self.lists.append(f"%apply (fer_work *WORK, size_t WORDS) {{ (fer_work *{name}, size_t {following[0]}) }}")
            if role == "list":
                self.lists.append(f"%apply (const {base} *LIST, size_t COUNT) {{ (const {base} *{name}, size_t {following[0]}) }}")
            if role == "results":
                self.lists.append(f"%apply ({base} *ROOM, size_t CAPACITY, size_t *FOUND) "
                                  f"{{ ({base} *{name}, size_t {following[0]}, size_t *{following[1]}) }}")
        if f.type not in ("fer_status", "void"):
            self.results.append(("return", "char" if f.type == "const char *" else f.type, False, False))
        for name, base, *_ in self.arguments + self.results:
            if base not in api.kinds + INTEGERS + ["double", "char"]:
                sys.exit(f"describe.py: no rule for the type '{base}' of {name} in {f.c_name}")

    def add_value(self, api, f, name, base):
        by_comment = base in api.structs and api.structs[base].form == "STRUCT" and "optional" in f.said[name]
        optional = base in api.structs and (api.structs[base].all_optional() or by_comment)
        if not optional and any(a[3] for a in self.arguments):
            sys.exit(f"describe.py: {name} of {f.c_name} stands behind what may be left out")
        self.arguments.append((name, base, False, optional))
        if by_comment and not api.structs[base].all_optional():
            self.lacking.append((base, name))


def hint(api, base, is_argument):
    """Python's type of a C type, as an argument or as a result."""
    if base == "char" or base in INTEGERS + ["double", "bool"]:
        return {"char": "str", "double": "float", "bool": "bool"}.get(base, "int")
    kind = api.structs.get(base) or api.enums.get(base)
    if kind.form == "SET":
        return f"Iterable[{caps(kind.element)} | str]" if is_argument else f"tuple[{caps(kind.element)}, ...]"
    if not is_argument:
        return kind.name
    if kind.form in ("QUANTITY", "ENUM"):
        return f"{kind.name} | str"
    short = f" | {hint(api, kind.members[0].type, True)}" if kind.shorthand() else ""
    return f"{kind.name} | dict[str, Any] | tuple[Any, ...]{short}"


def returned(api, call):
    types = [f"list[{hint(api, r[1], False)}]" if r[2] else hint(api, r[1], False) for r in call.results]
    return "None" if not types else types[0] if len(types) == 1 else f"tuple[{', '.join(types)}]"


def outdated(f):
    """Since when a name is old, and what to use instead; empty for all others."""
    return f.sections.get("Deprecated", "")


def argument_hint(api, base, is_list):
    first = hint(api, base, True).replace(" | str", " or text").split(" | ")[0]
    return f"list of {first}" if is_list else first


def function_parts(api, f, argument_type, result_type):
    """What is to be said about a function: sentences, formula, rows of (name, type, text), statuses with their rules, sections."""
    call, unit = Call(api, f), next((s for s in api.structs.values() if f.name in s.units), None)
    first = [f"A {unit.name} of a number in the unit {f.name}."] if unit else f.text[:1]

    def rows(items, type_of):
        return [(n, type_of(api, b, is_list), optional,
                 re.sub(r"[;,] (all lengths )?(NaN|empty|0) on failure$", "", f.notes.get(n) or f.sections.get(n, "")))
                for n, b, is_list, optional in items]
    statuses = [(name.split("_")[0].capitalize(), name, text) for name, text in f.statuses if name not in ("OK", "ARGUMENT_MISSING")]
    return {"sentences": first + ([f"Deprecated: {outdated(f)}"] if outdated(f) else []) + f.text[1:],
            "formula": f.sections.get("Formula", ""), "arguments": rows(call.arguments, argument_type),
            "results": rows(call.results, result_type), "statuses": statuses if f.type == "fer_status" else [],
            "sections": [(title, f.sections[title]) for title in ("Accuracy", "Source") if title in f.sections]}


def text_of(parts, error_class, left_out="", raises="Raises"):
    """The parts as plain text, in the order of the headers; error_class makes a class out of a status's first word."""
    lines = parts["sentences"][:1] + [line for t in parts["sentences"][1:] for line in ("", t)]
    if parts["formula"]:
        lines += ["", f"Formula: {parts['formula']}"]
    for title in ("arguments", "results"):
        if parts[title]:
            lines += ["", f"{title.capitalize()}:"]
            lines += [f"    {n} ({t}{left_out if optional else ''}){': ' + text if text else ''}" for n, t, optional, text in parts[title]]
    if parts["statuses"]:
        lines += ["", f"{raises}:"] + [f"    {error_class(word)}, {name}: {text}" for word, name, text in parts["statuses"]]
    lines += [f"\n{title}: {text}" for title, text in parts["sections"]]
    return "\n".join(lines)


def function_text(api, f):
    arguments = ", ".join(a[0] + ("=None" if a[3] else "") for a in Call(api, f).arguments)
    parts = function_parts(api, f, argument_hint, lambda api, b, is_list: ("list of " if is_list else "") + hint(api, b, False))
    raises = lambda word: f"{word}Error"
    return f"{f.name}($module{', ' + arguments if arguments else ''})\n--\n\n" + text_of(parts, raises) + (
        f"\n\n{EXAMPLES[f.name]}" if f.name in EXAMPLES else "")


def api_i(api):
    out = ["/* Written by describe.py. */"]
    for kind in api.kinds + INTEGERS + ["double"]:
        out.append(f"FER_KIND({kind})")
        if kind in api.structs and api.structs[kind].form == "STRUCT":
            out.append(f"FER_MAY_LACK({kind})")
            if api.structs[kind].all_optional():
                out.append(f"%apply {kind} MAY_LACK {{ {kind} }};")
    out.append("FER_STATUSES_ARE_EXCEPTIONS")
    out += [f"%ignore {name};" for name in api.left_to_c]
    out += sorted({line for f in api.functions for line in Call(api, f).lists})
    out += [f"FER_LONG_CALL({f.c_name})" for f in api.functions if any(p[1] in LONG for p in f.parameters)]
    out += [f"FER_OLD_CALL({f.c_name}, {quoted(f'{f.name} is deprecated {outdated(f)}')})" for f in api.functions if outdated(f)]
    out += [f'%feature("docstring") {f.c_name} {quoted(function_text(api, f))};' for f in api.functions]
    out += [f"%ignore {f.c_name};" for f in api.bulk]
    out += [line for f in api.functions for line in declared(api, f)]
    out += [f"%include <{h}>" for h in api.headers]
    return "\n".join(out) + "\n"


def declared(api, f):
    """A function of which an argument may be left out that other functions need: SWIG sees it before the headers, and there no more."""
    lacking = Call(api, f).lacking
    if not lacking:
        return []
    names = [f"{base} {name}" for base, name in lacking]
    parameters = ", ".join(f"{type_}{name}" if type_.endswith("*") else f"{type_} {name}" for name, type_ in f.parameters)
    return [f"%apply {base} MAY_LACK {{ {base} {name} }};" for base, name in lacking] + [
        f"{f.type} {f.c_name}({parameters});"] + [f"%clear {name};" for name in names]


def functions_table(api):
    out = ["/* Written by describe.py. */", '#include "script.h"']
    rows = []
    for f in api.functions:
        call = Call(api, f)
        for title, items in (("arguments", call.arguments), ("results", call.results)):
            out.append(f"static const bind_parameter {f.name}_{title}[] = {{")
            out += [f"    {{{quoted(name)}, {'NULL' if base == 'char' else f'&bind_kinds[BIND_{base}]'}, "
                    f"{int(is_list)}, {int(optional)}}}," for name, base, is_list, optional in items] + ["    {0}};"]
        rows.append(f"    {{{quoted(f.name)}, {quoted((f.text or [''])[0])}, {f.name}_arguments, {f.name}_results}},")
    return "\n".join(out + ["const bind_function bind_functions[] = {"] + rows + ["    {0}};"]) + "\n"


def stub_doc(text, indent):
    body = text.split("\n--\n\n", 1)[-1]
    lines = textwrap.indent(body.replace("\\", "\\\\").replace('"""', "'''"), indent).splitlines()
    return [f'{indent}"""{lines[0].strip()}'] + lines[1:] + [f'{indent}"""']


def stub_type(api, m):
    return f"tuple[{hint(api, m.type, False)}, ...]" if m.array else hint(api, m.type, False)


def stub_arithmetic(name):
    factor = "float" if name == "Ratio" else "float | Ratio"
    numbers = [f"{n}(self, other: {name}, /) -> {name}" for n in ("__add__", "__sub__")]
    numbers += [f"{n}(self, other: {factor}, /) -> {name}" for n in ("__mul__", "__rmul__")]
    numbers += [f"{n}(self) -> {name}" for n in ("__neg__", "__pos__", "__abs__")]
    return [f"    def {n}: ..." for n in numbers] + [
        "    @overload", f"    def __truediv__(self, other: {name}, /) -> Ratio: ...",
        "    @overload", f"    def __truediv__(self, other: {factor}, /) -> {name}: ..."]


def stub_struct(api, s):
    out = [f"@final\nclass {s.name}:"] + stub_doc(struct_text(s), "    ")
    if s.form == "QUANTITY":
        out += ["    @overload", f"    def __new__(cls, text: str | {s.name}, /) -> {s.name}: ...",
                "    @overload", f"    def __new__(cls, text: str, /, *, decimal: Literal[',', '.']) -> {s.name}: ..."]
        for u in s.units:
            out += ["    @overload", f"    def __new__(cls, *, {u}: float) -> {s.name}: ..."]
        for u in s.units:
            out += ["    @property", f"    def {u}(self) -> float: ..."]
        numbers = [f"{n}(self, other: {s.name}, /) -> bool" for n in ("__lt__", "__le__", "__gt__", "__ge__")]
        out += [f"    def {n}: ..." for n in numbers + ["__bool__(self) -> bool", "__hash__(self) -> int",
                                                        "__format__(self, spec: str, /) -> str",
                                                        "to_pint(self, registry: Any = None) -> Any"]]
        return out + ([] if s.c_name.removeprefix("fer_") in api.scales else stub_arithmetic(s.name))
    wide = lambda m: f"Iterable[{hint(api, m.type, True)}]" if m.array else hint(api, m.type, True)
    new = ", ".join(f"{m.name}: {wide(m)}" + (" | None = None" if m.optional else "") for m in s.members)
    change = ", ".join(f"{m.name}: {wide(m)}" + (" | None" if m.optional else "") + " = ..." for m in s.members)
    match = ", ".join(f'Literal["{m.name}"]' for m in s.members)
    out += [f"    __match_args__: ClassVar[tuple[{match}]]", f"    def __new__(cls, {new}) -> {s.name}: ..."]
    for m in s.members:
        missing = " | None" if s.form == "FOUND" and m.name == "value" else ""
        out += ["    @property", f"    def {m.name}(self) -> {stub_type(api, m)}{missing}: ..."]
    if s.c_name == "fer_fault":  # in words, as value.c has it
        out += ["    @property", "    def path(self) -> str: ...", "    @property", "    def message(self) -> str: ..."]
    out += ["    def to_dict(self) -> dict[str, Any]: ...", "    def _repr_html_(self) -> str: ...",
            f"    def replace(self, *, {change}) -> {s.name}: ...",
            "    def __hash__(self) -> int: ..."]
    return out + (["    def __bool__(self) -> bool: ..."] if s.form == "FOUND" else [])


def stub(api, statuses):
    out = ["# Written by describe.py out of the headers.", "from collections.abc import Iterable",
           "from enum import IntEnum", "from typing import Any, ClassVar, Final, Literal, final, overload", "",
           "__version__: Final[str]"] + [f"{name}: Final[{t}]" for name, t in api.constants.items()] + [""]
    for e in api.enums.values():
        out += ["", f"class {e.name}(IntEnum):"] + stub_doc(e.text, "    ")
        out += [f"    {name} = {number}" for name, _, _, number in e.values]
        for name, f in e.readers.items():
            out += ["    @property", f"    def {name}(self) -> {'str' if f.type == 'const char *' else api.enums[f.type].name}: ..."]
    out += ["", "class Error(ValueError):", "    code: Status", "    name: str", "    function: str",
            "    path: str", "    value: Any",
            "    faults: tuple[Any, ...]"]
    for word in dict.fromkeys(s.split("_")[0] for s in statuses if s != "OK"):
        out += ["", f"class {word.capitalize()}Error(Error): ..."]
    for s in api.structs.values():
        if s.form != "SET":
            out += [""] + stub_struct(api, s)
    for f in api.functions:
        call = Call(api, f)
        arguments = ", ".join(f"{n}: " + (f"Iterable[{hint(api, b, True)}]" if is_list else
                              hint(api, b, True)) + (" | None = None" if optional else "")
                              for n, b, is_list, optional in call.arguments)
        out += ["", f"def {f.name}({arguments}) -> {returned(api, call)}:"] + stub_doc(function_text(api, f), "    ")
    return "\n".join(out) + "\n"


def main():
    api = Api()
    statuses = [name for name, *_ in api.enums["fer_status"].values]
    written = {"kinds_list.h": kinds_list(api), "kinds_table.c": kinds_table(api), "api.i": api_i(api)}
    written |= {"functions_table.c": functions_table(api)} | ({} if FOR_SCRIPT else {"__init__.pyi": stub(api, statuses)})
    for name, text in written.items():
        with open(os.path.join(sys.argv[1], name), "w", encoding="utf-8") as file:
            file.write(text)


if __name__ == "__main__":
    main()
