# SPDX-License-Identifier: MIT
"""Write calls.c for the fuzzers: how each public function is called with arguments made of bytes.

Usage: calls.py OUTPUT_FOLDER

Also writes kinds_list.h and kinds_table.c, the table of structs that the bindings use. There is no list of functions: a
new one is called by its declaration, and its comment says which numbers are usual and which statuses are allowed. Text is
left to fuzz_text.c.
"""
import os
import re
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "..", "bindings", "api"))
import describe  # noqa: E402

# What a member or an argument usually is, in base units, where its range does not say it well: a joint whose parts fit.
# A name that is not here gets a number of its range or of its kind.
USUAL = {
    "fer_hose.inside": 12.7, "fer_hose.outside": 22.0, "fer_hose.reinforcement": 1.5, "fer_stem.outside": 13.5,
    "fer_stem.bore": 9.0, "fer_ferrule.wall": 1.5, "fer_ferrule.outside": 28.0, "fer_ferrule.length": 30.0,
    "hose_inside": 12.7, "hose_outside": 22.0, "hose_reinforcement": 1.5, "stem_outside": 13.5, "stem_bore": 9.0,
    "ferrule_wall": 1.5, "ferrule_outside": 28.0, "ferrule_length": 30.0, "uncrimped": 28.0,
    "diameter": 24.0, "diameters": 24.0, "target": 24.0, "targets": 24.0, "die_size": 22.5, "die_sizes": 22.5, "size": 22.5,
    "setting": 1.5, "published": 24.0, "widest": 30.0, "crimp_diameter": 24.0, "measured": 24.0, "set": 24.0,
    "compression": 0.2, "compressions": 0.2, "aim": 0.2, "lower": 0.15, "upper": 0.25, "coverage": 0.95,
    "fer_length_range.lower": 23.5, "fer_length_range.upper": 24.5, "value": 24.0, "values": 24.0, "mean": 24.0,
    "amount": 0.05, "segments": 8, "graduation": 0.01, "correction": 0.05, "opening": 20.0, "capacity": 1e6,
    "standard_uncertainty": 0.01, "standard_uncertainties": 0.01, "standard_deviation": 0.05, "tolerance": 0.1, "deviation": 0.02,
    "crimp_deviation": 0.03, "setting_deviation": 0.1, "resolution": 0.01, "elastic_modulus": 210000.0, "poisson": 0.3,
    "yield_strength": 300.0, "hardening": 500.0, "hose_pressure": 10.0, "pressure": 100.0, "inner_pressure": 5.0,
    "outer_pressure": 20.0, "restraint": 0.5, "inside": 20.0, "outside": 28.0, "reduction": 0.1, "gauge": 8.5, "length": 30.0,
    "force": 1e5, "height": 0.01, "wall": 1.5, "share": 0.5, "gain": 1.0, "asked": 0.95, "limit": 0.1, "digits": 2,
    "probability": 0.4, "reach": 7.0, "weight": 1.0, "factor": 1.65, "degrees_of_freedom": 12.0,
    "minimum_bore": 8.0, "adapter": 1, "blocks": 1, "number": 17, "anchor": 22.45, "trials": 3, "day": 10, "today": 100,
}
BY_KIND = {"fer_length": 20.0, "fer_area": 100.0, "fer_force": 1e5, "fer_pressure": 100.0, "fer_angle": 0.3,
           "fer_ratio": 0.2, "fer_temperature": 20.0, "fer_per_length": 0.1, "double": 1.0}
COUNTS = {"4": 4, "FER_TALLY_CLASSES": 512, "TALLY_CLASSES": 512}


def limits(owner, name, type_, said):
    """{usual, lower, upper} as C has it, out of what api.json says of a member or an argument."""
    named = USUAL.get(f"{owner}.{name}", USUAL.get(name))
    usual = BY_KIND.get(type_, 1.0) if named is None else named
    lower, upper = (said.get("range", {}).get(end, {}).get("at") for end in ("lower", "upper"))
    lower = 0.0 if lower is None or isinstance(lower, str) else float(lower)
    upper = max(10.0 * abs(usual), 1.0, 10.0 * lower) if upper is None or isinstance(upper, str) else float(upper)
    if named is None and not lower <= usual <= upper:
        usual = (lower + upper) / 2 if lower <= 0.0 else (lower * upper) ** 0.5
    return f"{{{usual!r}, {lower!r}, {upper!r}}}"


def key(name):
    """Sixteen bits that stand for a function in the input: they stay when functions come and go."""
    value = 0x811C9DC5
    for byte in name.encode():
        value = (value ^ byte) * 0x01000193 & 0xFFFFFFFF
    return value >> 16 ^ value & 0xFFFF


# Rows of whole structs, with a press for each: compared with single calls by tests/agree/python/test_setup_tables.py.
ROWS_OF_STRUCTS = ("fer_plan_setups", "fer_inspect_crimps")


class Caller:
    def __init__(self, api):
        self.api = api
        self.functions = sorted((f for f in api.functions + api.bulk + api.c_functions if f.c_name not in ROWS_OF_STRUCTS), key=lambda f: (key(f.c_name), f.c_name))
        self.by_name = {f.c_name.removeprefix("fer_"): f for f in self.functions}
        self.elements = {name: s.members[0].type.removeprefix("const ").removesuffix(" *")
                         for name, s in api.c_structs.items() if s.members[0].c_name == "first"}

    def kind(self, base):
        name = {"char": "int8_t", "fer_row_status": "uint16_t", "fer_work": "double"}.get(base, base)
        if name not in self.api.kinds + describe.INTEGERS + ["double"]:
            sys.exit(f"calls.py: no rule for the type '{base}'")
        return f"&bind_kinds[BIND_{name}]"

    def parameters(self, f):
        """Role, name, base type and number of C parameters of each argument."""
        rest, is_bulk = list(f.parameters), f.parameters[:1] == [("rows", "size_t")]
        place = 0
        while place < len(rest):
            name, type_ = rest[place]
            base = type_.removeprefix("const ").removesuffix(" *")
            following, width = [t for _, t in rest[place + 1:place + 3]], 1
            after = rest[place + 1][0] if place + 1 < len(rest) else ""
            if is_bulk and place == 0:
                role = "ROWS"
            elif base in self.api.c_structs:
                role = "COLUMNS" if not type_.endswith("*") else "COLUMNS_POINTER"
            elif not type_.endswith("*"):
                role = "VALUE"
            elif type_.startswith("const"):
                is_list = following[:1] == ["size_t"] and re.fullmatch(r"(\w+_)?count|length", after)
                role, width = ("LIST", 2) if is_list else ("INPUT", 1)
            elif base == "fer_work":
                role, width = "WORK", 2
            elif following == ["size_t", "size_t *"]:
                role, width = "CAPACITY", 3
            else:
                role = "ROW_RESULT" if is_bulk else "RESULT"
            yield role, name, base, place, width
            place += width

    def statuses(self, f, seen):
        """Names of the statuses that the comment allows, those of the functions that it names included."""
        if f.c_name in seen:
            return set()
        seen.add(f.c_name)
        names = {name for name, _ in f.statuses}
        for _, text in f.statuses:
            for other in re.findall(r"(\w+)\(\)", text):
                if other in self.by_name:
                    names |= self.statuses(self.by_name[other], seen)
        return names

    def any_status(self, f):
        return any("any other status" in text for _, text in f.statuses)

    def call(self, f):
        arguments = []
        for place, (_, type_) in enumerate(f.parameters):
            arguments.append(f"at[{place}]" if type_.endswith("*") else f"*({type_} *)at[{place}]")
        text = f"{f.c_name}({', '.join(arguments)})"
        if f.type == "fer_status":
            return f"*status = (int){text};"
        if f.type == "size_t":
            return f"*failed = {text};"
        if f.type == "const char *":
            return f"*text = {text};"
        if f.type == "void" or f.type in self.api.c_structs:
            return f"(void){text};"
        return f"*({f.type} *)at[{len(f.parameters)}] = {text};"

    def described(self):
        """The same for Python: what each function takes and each struct holds."""
        api = self.api

        def kind(base):
            name = {"double": "float", "char": "str", "bool": "bool"}.get(base, "int" if base in describe.INTEGERS else "")
            return name or describe.caps(base)

        def numbers(owner, name, base, said):
            return eval(limits(owner, name, base, said).replace("{", "(").replace("}", ")"))

        functions = {}
        for f in api.functions:
            functions[f.name] = [(name, kind(base), is_list, optional,
                                  numbers(f.name, name, base, f.said[name]))
                                 for name, base, is_list, optional in describe.Call(api, f).arguments]
        structs = {s.name: [(m.name, kind(m.type), numbers(s.c_name, m.c_name, m.type, m.said),
                             COUNTS.get(m.array, 0) if m.array else 0, m.optional) for m in s.members]
                   for s in api.structs.values() if s.form in ("STRUCT", "FOUND")}
        enums = {e.name: [value[0] for value in e.values] for e in api.enums.values()}
        enums |= {s.name: enums[describe.caps(s.element)] for s in api.structs.values() if s.form == "SET"}
        units = {s.name: s.units for s in api.structs.values() if s.form == "QUANTITY"}
        usual = {s.name: numbers(s.c_name, "", s.c_name, {}) for s in api.structs.values() if s.form == "QUANTITY"}
        tables = {"FUNCTIONS": functions, "STRUCTS": structs, "ENUMS": enums, "UNITS": units, "LIMITS": usual}
        return "# Written by calls.py.\n" + "".join(f"{name} = {table!r}\n" for name, table in tables.items())

    def column_rows(self, owner, struct, offset=""):
        """Columns of a struct, those of structs inside it too; a pointer to one struct stays null."""
        for m in struct.members:
            place = f"{offset}{m.c_name}"
            if m.type in self.elements:
                kind = self.elements[m.type]
                yield (f'{{offsetof({owner}, {place}), {self.kind(kind)}, "{m.c_name}", '
                       f"{limits(struct.c_name, m.c_name, kind, m.said)}, {int('optional' in m.said)}}}")
            elif m.type in self.api.c_structs:
                yield from self.column_rows(owner, self.api.c_structs[m.type], place + ".")

    def columns(self):
        for name, s in self.api.c_structs.items():
            rows = ([f'{{0, {self.kind(self.elements[name])}, "", {{0, 0, 0}}, 0}}'] if name in self.elements
                    else list(self.column_rows(name, s)))
            used = any(name in type_ for f in self.functions for _, type_ in f.parameters)
            if rows and used:
                yield f"static const fuzz_column {name}_columns[] = {{{', '.join(rows)}, {{0}}}};"

    def write(self):
        api, out = self.api, ["/* Written by calls.py. */", '#include "frame.h"', "#include <stddef.h>"]
        for s in api.structs.values():
            rows = ", ".join(limits(s.c_name, m.c_name, m.type, m.said) for m in s.members)
            out.append(f"static const fuzz_limits limits_of_{s.c_name}[] = {{{rows}}};")
        rows = ", ".join(f"[BIND_{s}] = limits_of_{s}" for s in api.structs)
        out += [f"const fuzz_limits *const fuzz_member_limits[BIND_COUNT] = {{{rows}}};"] + list(self.columns())
        table, makers = [], {}
        for number_, f in enumerate(self.functions):
            rows = []
            parameters = list(self.parameters(f))
            too_large = " ".join(text for name, text in f.statuses if name.endswith("ARGUMENT_COUNT_TOO_LARGE"))
            for role, name, base, place, _ in parameters:
                said = f.said[name]
                is_columns = role.startswith("COLUMNS")
                kind = "NULL" if is_columns else self.kind(base)
                columns = f"{base}_columns, sizeof({base})" if is_columns else "NULL, 0"
                element = self.elements.get(base, base)
                optional = base in api.structs and api.structs[base].all_optional() or "optional" in said
                rows.append(f'    {{FUZZ_{role}, "{name}", {kind}, {columns}, {place}, {int("null" in said)}, '
                            f"{int(optional)}, {int(role == 'LIST' and f' {name}' in too_large)}, "
                            f"{limits(f.name, name, element, said)}}},")
                inputs = [b for r, _, b, *_ in parameters if r in ("INPUT", "VALUE", "LIST")]
                struct = api.structs.get(base)
                if role == "RESULT" and struct and len(struct.members) > 2 and base not in inputs:
                    makers.setdefault(base, (number_, len(rows) - 1))
            if f.type in api.kinds and f.type != "fer_status":
                rows.append(f'    {{FUZZ_RETURN, "return", {self.kind(f.type)}, NULL, 0, {len(f.parameters)}, 0, 0, 0, {{0, 0, 0}}}},')
            out += [f"static const fuzz_parameter {f.name}_parameters[] = {{"] + rows + ["    {0}};"]
            allowed = self.statuses(f, set())
            names = ", ".join(f"FER_{name.removeprefix('FER_')}" for name in sorted(allowed))
            out.append(f"static const int {f.name}_statuses[] = {{{names + ', ' if names else ''}-1}};")
            out += [f"static void call_{f.name}(void *const *at, int *status, size_t *failed, const char **text)", "{",
                    "    (void)at, (void)status, (void)failed, (void)text;", f"    {self.call(f)}", "}"]
            is_slow = any(t.removeprefix("const ").removesuffix(" *") in ("fer_trials", "fer_tally", "fer_crimp_count", "fer_look", "fer_piece")
                          for _, t in f.parameters)
            table.append(f'    {{"{f.name}", {key(f.c_name)}, call_{f.name}, {f.name}_parameters, '
                         f'{"NULL" if self.any_status(f) or f.type != "fer_status" else f.name + "_statuses"}, '
                         f"{int(f.type == 'const char *')}, {int(f.type == 'fer_status')}, {int(is_slow)}}},")
            if self.any_status(f) or f.type != "fer_status":
                out.pop(next(i for i in range(len(out) - 1, 0, -1) if out[i].startswith(f"static const int {f.name}_st")))
        out += ["const fuzz_call fuzz_calls[] = {"] + table + ["};",
                f"const size_t fuzz_call_count = {len(table)};"]
        rows = ", ".join(f"[BIND_{base}] = {{&fuzz_calls[{n}], {p}}}" for base, (n, p) in makers.items())
        usual = ", ".join(f'{{"{name}", {number!r}}}' for name, number in USUAL.items() if "." not in name)
        out.append(f"const fuzz_usual fuzz_usuals[] = {{{usual}, {{0}}}};")
        out.append(f"const fuzz_maker fuzz_makers[BIND_COUNT] = {{{rows}}};")
        return "\n".join(out) + "\n"


def main():
    api = describe.Api()
    written = {"kinds_list.h": describe.kinds_list(api), "kinds_table.c": describe.kinds_table(api),
               "calls.c": Caller(api).write(), "described.py": Caller(api).described()}
    for name, text in written.items():
        with open(os.path.join(sys.argv[1], name), "w", encoding="utf-8") as file:
            file.write(text)


if __name__ == "__main__":
    main()
