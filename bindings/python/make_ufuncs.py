# SPDX-License-Identifier: MIT
"""Write what the NumPy functions need of the headers, by the rules that describe.py has for the other bindings.

Usage: make_ufuncs.py OUTPUT_FOLDER

loops.c         one loop per function, and the table of them
layouts.c       where the numbers of a struct lie, of those whose tables are arrays of structs
_table.py       names, units and defaults of the columns, for bulk.py
bulk.pyi, _ufuncs.pyi  the stubs

Rules: a struct becomes one column a number in it. A column is called by the way to the number with the unit behind it:
hose_inside_mm. Every function becomes one that takes at most one list, takes and gives no text, gives no list, and has at
most 32 columns with its results and status: NumPy takes no more.
"""
import os
import re
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.dirname(os.path.abspath(__file__))), "api"))
from describe import INTEGERS, Api, Call, caps  # noqa: E402

MOST = 32
# A struct whose own name says nothing beside its members'.
BARE = {"joint", "model", "range", "uncertainties"}
# Independent, and known exactly: what would be too many columns.
LEFT_OUT = {("fer_uncertainties", "correlations"), ("fer_uncertainty", "degrees_of_freedom")}


class Unfit(Exception):
    """The function cannot be a NumPy function."""


class Column:
    def __init__(self, name, place, type_, optional, note="", is_list=False, said=None):
        self.name, self.place, self.type, self.optional, self.note, self.is_list = name, place, type_, optional, note, is_list
        self.quantity = self.enum = None
        # Needed, and 0 is below its range: what is blank is 0, and the status says that it is not given.
        lower = (said or {}).get("range", {}).get("lower", {}).get("at")
        self.needed = not optional and isinstance(lower, (int, float)) and lower > 0

    def row(self):
        return f"({self.name!r}, {self.quantity!r}, {self.enum!r}, {self.optional!r}, {self.needed!r}, {self.note!r})"

    def code(self):
        return "d" if self.type in ("double",) else "H" if self.type == "fer_status" else "q"


def columns(api, type_, name, place, optional, note, is_result=False, is_list=False, said=None):
    """The columns of a value of a type."""
    if type_ in INTEGERS + ["double", "bool"] or type_ in api.enums:
        column = Column(name, place, type_, optional, note, is_list, said)
        column.enum = api.enums[type_].name if type_ in api.enums and type_ != "fer_status" else None
        return [column]
    struct = api.structs.get(type_)
    if struct is None or struct.form == "SET" or (struct.form == "FOUND" and not is_result):
        raise Unfit
    if struct.form == "QUANTITY":
        unit = struct.members[0].c_name
        column = Column(f"{name}_{unit}", f"{place}.{unit}", "double", optional, note, is_list, said)
        column.quantity = struct.name
        return [column]
    found = []
    for m in struct.members:
        if m.array:
            raise Unfit
        if (type_, m.c_name) not in LEFT_OUT:
            inner = m.name if name == "" else name if m.name == "value" and struct.form == "FOUND" else f"{name}_{m.name}"
            found += columns(api, m.type, inner, f"{place}.{m.c_name}", optional or m.optional, m.text, is_result, is_list, m.said)
    return found


# ---- structs as rows of a table --------------------------------------------------------------------------------------


class Layout:
    """The numbers of a struct as columns, sets and whole structs in it too, and where each lies: an array of such structs is a table."""

    def __init__(self, api, type_):
        self.type = type_
        self.columns = list(self.flat(api, type_, "", "", False, "", {}))

    def flat(self, api, type_, name, place, optional, note, said):
        struct = api.structs.get(type_)
        if struct is None or struct.form in ("QUANTITY", "SET"):
            found = columns(api, "uint64_t" if struct and struct.form == "SET" else type_, name, place, optional, note, True, said=said)
            if struct and struct.form == "SET":
                found[0].place += ".bits"
                found[0].enum = caps(struct.element)
            yield from found
            return
        for m in struct.members:
            # What says nothing new is left out: the value of what was found, the die of the choice of a die, the joint of an order.
            inside = "" if m.name in BARE and type_ == "fer_order" else name if m.name in ("value", name) else f"{name}_{m.name}".lstrip("_")
            if not m.array:
                yield from self.flat(api, m.type, inside, f"{place}.{m.c_name}" if place else m.c_name, optional or m.optional, m.text,
                                     m.said)

    def code(self, column):
        """What NumPy calls such a number."""
        return {"double": "f8", "uint64_t": "u8", "size_t": "P"}.get(column.type, "i4")

    def table(self):
        rows = "".join(f"\n        ({c.row()}, {c.place!r}, {c.type == 'bool'!r})," for c in self.columns)
        return f"    {self.type.removeprefix('fer_')!r}: ({rows}\n    ),"

    def c_rows(self):
        name = self.type.removeprefix("fer_")
        return ([f"static const number_place places_of_{name}[] = {{"] +
                [f'    {{"{c.name}", "{self.code(c)}", offsetof({self.type}, {c.place})}},' for c in self.columns] + ["};"])


def places_of_orders(layout):
    """Where the columns of orders stand in fer_order_columns; None: correlations are none, all orders have them in common."""
    shorter = [(r"^joint\.(\w+)\.", r"joint.\1_"), (r"^uncertainties\.(\w+)\.", r"\1_uncertainty."), (r"^load\.", ""),
               (r"^(model|range)\.", r"\1_"), (r"\.(mm|mpa|fraction)$", "")]
    places = []
    for c in layout.columns:
        place = c.place
        for pattern, by in shorter:
            place = re.sub(pattern, by, place)
        places.append(None if ".correlations." in c.place else place)
    return places


def columns_of_orders(layout):
    rows = [f"    {{offsetof(fer_order_columns, {place}), {'NPY_DOUBLE' if c.type == 'double' else 'NPY_INT'}}}," if place else
            "    {0, NPY_NOTYPE}," for c, place in zip(layout.columns, places_of_orders(layout))]
    return ["static const struct {", "    size_t offset;", "    int type;", "} columns_of_orders[] = {", *rows, "};"]


# Those that ferrule.bulk has in arrays.
LAYOUTS = ["fer_order", "fer_press", "fer_die", "fer_setup", "fer_reading", "fer_marks", "fer_guard", "fer_process", "fer_inspection",
           "fer_fault"]


class Ufunc:
    def __init__(self, api, f):
        if f.type != "fer_status":
            raise Unfit
        call = Call(api, f)
        lists = [a for a in call.arguments if a[2]]
        if not call.results or not call.arguments or len(lists) > 1 or any(r[2] for r in call.results):
            raise Unfit
        self.name, self.f, self.list = f.name, f, lists[0] if lists else None
        self.inputs, self.outputs = [], []
        for name, base, is_list, optional in call.arguments:
            prefix = "" if name in BARE else name.removesuffix("s") if is_list else name
            self.inputs += columns(api, base, prefix, f"{name}[k]" if is_list else name, optional, f.notes.get(name, ""),
                                   is_list=is_list, said=f.said.get(name))
        for name, base, *_ in call.results:
            struct = api.structs.get(base)
            alone = len(call.results) == 1 and struct is not None and struct.form == "STRUCT"
            self.outputs += columns(api, base, "" if alone else name, name, False, f.notes.get(name, ""), True)
        self.outputs.append(Column("status", "status", "fer_status", False, "0, or which rule the row broke"))
        self.outputs[-1].enum = "Status"
        names = [c.name for c in self.inputs]
        if len(self.inputs + self.outputs) > MOST or len(set(names)) < len(names):
            raise Unfit

    def loop(self):
        """The loop in C: a row of columns into the arguments, the call, the results into a row of columns."""
        n = len(self.inputs)
        out = [f"static void loop_{self.name}(char **args, const npy_intp *sizes, const npy_intp *steps, void *unused)", "{",
               "    (void)unused;"]
        if self.list:
            out += [f"    const npy_intp count = sizes[1], *const inner = steps + {n + len(self.outputs)};",
                    f"    {self.list[1]} *const {self.list[0]} = PyMem_RawCalloc((size_t)(count > 0 ? count : 1), "
                    f"sizeof({self.list[1]}));"]
        out.append("    for (npy_intp i = 0; i < sizes[0]; i++) {")
        parameters, after_list = [], False
        for name, type_ in self.f.parameters:
            if self.list and name == self.list[0]:
                parameters.append(name)
            elif after_list:
                parameters.append("(size_t)count")
            else:
                base = type_.removeprefix("const ").removesuffix(" *")
                parameters.append(f"&{name}" if type_.endswith("*") else name)
                out += [f"        {base} {name};", f"        memset(&{name}, 0, sizeof {name});"]
            after_list = self.list is not None and name == self.list[0]
        inner = 0
        for k, c in enumerate(self.inputs):
            type_ = "int" if c.type == "bool" else c.type
            take = "take_number" if c.code() == "d" else f"({type_})take_integer"
            if c.is_list:
                out += [f"        for (npy_intp k = 0; {self.list[0]} && k < count; k++)",
                        f"            {c.place} = {take}(args[{k}] + i * steps[{k}] + k * inner[{inner}]);"]
                inner += 1
            else:
                out.append(f"        {c.place} = {take}(args[{k}] + i * steps[{k}]);")
        # A list for which there was no memory is missing, and that is the status.
        out.append(f"        const fer_status status = {self.f.c_name}({', '.join(parameters)});")
        for k, c in enumerate(self.outputs, n):
            give = {"d": "give_number", "H": "give_status", "q": "give_integer"}[c.code()]
            place = f"(int64_t){c.place}" if c.code() == "q" else c.place
            out.append(f"        {give}(args[{k}] + i * steps[{k}], {place});")
        out.append("    }")
        if self.list:
            out.append(f"    PyMem_RawFree({self.list[0]});")
        return out + ["}"]

    def row(self):
        types = ", ".join({"d": "NPY_DOUBLE", "H": "NPY_USHORT", "q": "NPY_INT64"}[c.code()] for c in self.inputs + self.outputs)
        signature = "NULL"
        if self.list:
            sides = [",".join("(k)" if c.is_list else "()" for c in side) for side in (self.inputs, self.outputs)]
            signature = f'"{"->".join(sides)}"'
        places = ", ".join([f"in_{self.name}_{c.name}" for c in self.inputs] + [f"out_{self.name}_{c.name}" for c in self.outputs])
        return (f'enum {{{places}}};\nstatic const char types_{self.name}[] = {{{types}}};',
                f'    {{"{self.name}", loop_{self.name}, types_{self.name}, {len(self.inputs)}, {len(self.outputs)}, {signature}}},')

    def table(self):
        rows = lambda side: "".join(f"\n        {c.row()}," for c in side)
        return f"    {self.name!r}: (({rows(self.inputs)}\n    ), ({rows(self.outputs)}\n    )),"

    def stub(self):
        """The function in bulk.py, as it is called. No column is needed by this name: it may have another unit."""
        values = [c for c in self.outputs if c.name != "status"]
        out = [""]
        result = "Any"
        if len(values) > 1:
            result = f"_{self.name}_results"
            out += [f"class {result}(NamedTuple):"] + [f"    {c.name}: Any" for c in values] + [""]
        columns = ", ".join(f"{c.name}: Any = ..." for c in self.inputs)
        return out + [f"class _{self.name}(_Function):", f"    def __call__(self, table: Any = ..., /, *, {columns}, out: Any = ..., where: Any = ...,",
                      "                 errors: Literal['raise', 'mark'] = ..., status: Any = ..., **in_other_units: Any) -> Any: ...",
                      f"{self.name}: _{self.name}"]


def main():
    api = Api()
    ufuncs = []
    for f in api.functions:
        try:
            ufuncs.append(Ufunc(api, f))
        except Unfit:
            pass
    rows = [u.row() for u in ufuncs]
    loops = ["/* Written by make_ufuncs.py. */"] + [line for u in ufuncs for line in u.loop()]
    loops += [types for types, _ in rows] + ["static const function functions[] = {"] + [row for _, row in rows] + ["};"]
    layouts = [Layout(api, name) for name in LAYOUTS]
    table = ["# Written by make_ufuncs.py: name: inputs, results; each (name, quantity, enum, may be left out, needed, note).",
             "FUNCTIONS = {"] + [u.table() for u in ufuncs] + ["}", "# struct: columns; each (as above, place in the struct, is a bool).",
             "STRUCTS = {"] + [layout.table() for layout in layouts] + ["}"]
    placed = ["/* Written by make_ufuncs.py. */"] + [line for layout in layouts for line in layout.c_rows()]
    placed += ["static const struct {", "    const char *name;", "    size_t size;", "    const number_place *places;", "    size_t count;",
               "} layouts[] = {"]
    placed += [f'    {{"{n[4:]}", sizeof({n}), places_of_{n[4:]}, sizeof places_of_{n[4:]} / sizeof *places_of_{n[4:]}}},' for n in LAYOUTS]
    placed += ["};"] + columns_of_orders(layouts[0])
    stub = ["# Written by make_ufuncs.py out of the headers.", "from typing import Any, Literal, NamedTuple", "",
            "names: tuple[str, ...]", "class _Function:", "    ufunc: Any"]
    stub += [line for u in ufuncs for line in u.stub()]
    stub += ["", "def plan_setup(table: Any = ..., /, *, press: Any = ..., dies: Any = ..., workplaces: Any = ..., workplace: Any = ...,",
             "               order: Any = ..., results: Any = ..., errors: Literal['raise', 'mark'] = ..., **columns: Any) -> Any: ...",
             "def inspect_crimp(setups: Any, /, *, marks: Any = ..., guard: Any = ..., process: Any = ..., results: Any = ...,",
             "                  errors: Literal['raise', 'mark'] = ..., **columns: Any) -> Any: ...",
             "def has(column: Any, word: Any, enum: Any = ...) -> Any: ...", "def words(column: Any, enum: Any) -> Any: ..."]
    inner = ["# Written by make_ufuncs.py.", "from typing import Any", "units: dict[str, tuple[str, float, float, float]]",
             "layouts: dict[str, Any]", "def plan_setups(*arguments: Any) -> int: ...", "def inspect_crimps(*arguments: Any) -> int: ..."]
    inner += [f"{u.name}: Any" for u in ufuncs]
    for name, lines in (("loops.c", loops), ("layouts.c", placed), ("_table.py", table), ("bulk.pyi", stub), ("_ufuncs.pyi", inner)):
        with open(os.path.join(sys.argv[1], name), "w", encoding="utf-8") as file:
            file.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
