# SPDX-License-Identifier: MIT
"""Write the SQL functions out of api.json.

Usage: make_sql.py OUTPUT_FOLDER VERSION [--manual]   --manual: only sql_functions.inc

functions.c          the table of SQL functions, and for each function of the library the call itself (see call.h)
frames.h             a struct for arguments and results of each function of the library
quick.h              the short way of a function from numbers to a number, for each database to include
symbols.h            X(symbol, SQL function, takes arrays): what PostgreSQL's script links to
ferrule--VERSION.sql what CREATE EXTENSION runs
sql_functions.inc     the manual's table
functions.json       the same for programs: forms, names, arguments, results

Rules, and no list of special cases:
- each function has a form that takes text with units, and words; one result that is no struct is itself, anything else JSON
- where the results are up to 16 figures and no list, each is a function that takes and gives numbers; the unit stands
  in the names of function and arguments; "_ok" and "_status" stand for a result that is only whether it can be computed
- a function with a struct, several results, or one list as result has a form that gives rows
- a function of one list has an aggregate over rows, which gives JSON
- an argument that is a struct of up to 8 figures is one argument per figure, any other struct and every list is JSON;
  what may be left out comes last; a struct of structs lends no name to its figures
- fer_plan_setups_rows(query, workplaces) is written by hand (setups.c): set-ups of all rows of a query, in blocks. Its columns are those
  of fer_plan_setup_row; the query's are the numbers of an order by the names that ferrule.bulk gives them
- trials have a limit of their own: a query is no place for more
- each unit has functions that read text, write text, and change from and to the base unit
"""
import json
import os
import re
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "api"))
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "python"))
import describe  # noqa: E402
import make_ufuncs  # noqa: E402

describe.FOR_SCRIPT = True
MAXIMUM_FIGURES_AN_ARGUMENT = 8
MAXIMUM_FIGURES_A_RESULT = 16
SQL = {"NUMBER": "double precision", "TEXT": "text", "WHOLE": "bigint", "BOOL": "boolean", "WORD": "text", "JSON": "json",
       "LIST": "json"}
GIVEN = {"NUMBER": "double precision", "WHOLE": "bigint", "BOOL": "boolean", "WORD": "text", "TEXT": "text", "JSON": "json"}


class Figure:
    """A number, word or document at a place: of an argument, a result, an item of a list."""

    def __init__(self, api, base, path, optional, found=None, name=None):
        self.base, self.path, self.optional, self.found = base, path, optional, found
        self.form = form(api, base)
        self.unit = api.base_units.get(base)
        self.plain = "_".join(path if name is None else name)
        self.name = "_".join(filter(None, [self.plain, self.unit]))
        self.is_item = False

    def first_word(self, api):
        return next(word for word, _, _, number in api.enums[self.base].values if number == 0).lower().replace("_", " ")


def form(api, base):
    if base in api.structs:
        return api.structs[base].form
    if base in api.enums:
        return "ENUM"
    return {"double": "NUMBER", "bool": "BOOL", "char": "TEXT"}.get(base, "INTEGER")


def figures(api, base, path, optional=False, found=None):
    """The figures of a type, or None where it has an array."""
    kind = form(api, base)
    if kind not in ("STRUCT", "FOUND"):
        return [Figure(api, base, path, optional, found)]
    out = []
    for m in api.structs[base].members:
        if kind == "FOUND" and m.c_name == "status":
            continue
        inner = None if m.array else figures(api, m.type, path + ((m.c_name,) if kind == "STRUCT" else ("value",)),
                                             optional or m.optional, path + ("status",) if kind == "FOUND" else found)
        if inner is None:
            return None
        out += inner
    return out


def has_structs(api, base):
    return any(form(api, m.type) == "STRUCT" for m in api.structs[base].members)


class Library:
    """A function of the library: its frame, its arguments and results."""

    def __init__(self, api, f):
        self.f, self.name, self.call = f, f.name, describe.Call(api, f)
        self.call.results = [("result" if r[0] == "return" else r[0], *r[1:]) for r in self.call.results]
        self.parameters = []
        for name, base, is_list, optional in self.call.arguments:
            kind = form(api, base)
            many = figures(api, base, (name,), optional) if kind in ("STRUCT", "FOUND") and not is_list else None
            if is_list:
                self.parameters.append(Figure(api, base, (name,), False))
                self.parameters[-1].form = "LIST"
            elif many and len(many) <= MAXIMUM_FIGURES_AN_ARGUMENT:
                for figure in many:
                    if has_structs(api, base):
                        figure = Figure(api, figure.base, figure.path, figure.optional, name=figure.path[1:])
                    self.parameters.append(figure)
            else:
                self.parameters.append(Figure(api, base, (name,), optional))
        names = [p.name for p in self.parameters]
        assert len(set(names)) == len(names), (self.name, names)
        self.results = self.find_results(api)
        self.lists = [a for a in self.call.arguments if a[2]]

    def find_results(self, api):
        """The figures of all results; None where one is a list or has an array."""
        results = self.call.results
        if any(is_list for _, _, is_list, _ in results):
            return None
        out = []
        for name, base, *_ in results:
            inner = figures(api, base, (name,))
            if inner is None:
                return None
            if len(results) == 1:
                inner = [Figure(api, r.base, r.path, False, r.found, name=tuple(n for n in r.path[1:] if n != "value"))
                         for r in inner]
            else:
                inner = [Figure(api, r.base, r.path, False, r.found, name=tuple(n for n in r.path if n != "value"))
                         for r in inner]
            out += inner
        return out

    def row_results(self, api):
        """The columns of the row form, and the list that has the rows; None where there is no such form."""
        if self.results is not None:
            is_struct = len(self.results) > 1 or any(form(api, r[1]) in ("STRUCT", "FOUND") for r in self.call.results)
            return (self.results, None) if is_struct else None
        if len(self.call.results) != 1 or not self.call.results[0][2]:
            return None
        name, base, *_ = self.call.results[0]
        inner = figures(api, base, ())
        if inner is None:
            return None
        columns = [Figure(api, r.base, r.path, False, r.found, name=tuple(n for n in r.path if n != "value")) for r in inner]
        for c in columns:
            if not c.path:
                c.name = c.plain = name + (f"_{c.unit}" if c.unit else "")
        return columns, self.call.results[0]


def reads(figure, numbers):
    if figure.form == "LIST":
        return "LIST"
    if figure.form == "QUANTITY":
        return "NUMBER" if numbers else "TEXT"
    return {"STRUCT": "JSON", "FOUND": "JSON", "SET": "JSON", "ENUM": "WORD", "BOOL": "BOOL", "INTEGER": "WHOLE",
            "NUMBER": "NUMBER", "TEXT": "WORD"}[figure.form]


def gives(figure):
    return {"QUANTITY": "NUMBER", "NUMBER": "NUMBER", "INTEGER": "WHOLE", "BOOL": "BOOL", "ENUM": "WORD", "TEXT": "WORD",
            "SET": "JSON"}[figure.form]


class Function:
    """A function of SQL. `columns` has one figure, or more where it gives rows; none: JSON, text or a truth."""

    def __init__(self, api, library, shape, name, columns=(), given=None, rows=None):
        self.api, self.library, self.shape, self.name = api, library, shape, "fer_" + name
        self.columns, self.rows, self.is_aggregate = list(columns), rows, shape == "AGGREGATE"
        self.of_text = shape.endswith("_OF_TEXT")  # the same name with other types, for a database that has types
        self.numbers = shape != "TEXT" and not self.of_text
        self.c_name = self.name + ("_of_text" if self.of_text else "")
        parameters = self.of_items() if self.is_aggregate else library.parameters
        self.parameters = [p for p in parameters if not p.optional] + [p for p in parameters if p.optional]
        self.required = sum(not p.optional for p in parameters)
        self.given = given or (gives(self.columns[0]) if columns and not self.gives_rows else "JSON")

    @property
    def gives_rows(self):
        return self.shape == "ROWS"

    def of_items(self):
        """An aggregate takes the figures of an item in place of the list; the first of them has to be given."""
        name, base, *_ = self.library.lists[0]
        items = figures(self.api, base, ())
        for i, item in enumerate(items):
            item.is_item, item.optional = True, item.optional and i > 0
            if not item.path:
                item.name = item.plain = name + (f"_{item.unit}" if item.unit else "")
        taken = {i.name for i in items}
        others = [p for p in self.library.parameters if p.form != "LIST"]
        for p in others:
            assert p.name not in taken, (self.library.name, p.name)
        return items + others

    def parameter_name(self, p):
        return p.name if self.numbers or self.of_text or p.form == "LIST" else p.plain

    def c_offset(self, p):
        if not p.path:
            return "0"
        of = self.library.lists[0][1] if p.is_item else f"frame_{self.library.name}"
        return f"offsetof({of}, {'.'.join(p.path)})"

    def c_parameter(self, p):
        kind = "NULL" if p.base == "char" else f"&bind_kinds[BIND_{p.base}]"
        count = f"offsetof(frame_{self.library.name}, {p.path[0]}_count)" if p.form == "LIST" else "0"
        return (f"    {{{quoted(self.parameter_name(p))}, {kind}, SQL_READS_{reads(p, self.numbers)}, {int(p.is_item)}, "
                f"{int(p.optional)}, {self.c_offset(p)}, {count}}},")

    def c_column(self, c):
        kind = "NULL" if c.base == "char" else f"&bind_kinds[BIND_{c.base}]"
        of = self.rows[1] if self.rows else f"frame_{self.library.name}"
        at = f"offsetof({of}, {'.'.join(c.path)})" if c.path else "0"
        found = f"offsetof({of}, {'.'.join(c.found)})" if c.found else "SQL_ALWAYS"
        return f"    {{{quoted(c.name)}, {kind}, SQL_GIVES_{gives(c)}, {at}, {found}}},"

    def default(self, p):
        if p.form == "ENUM":
            return f"'{p.first_word(self.api)}'"
        if p.form == "SET":
            return "'[]'"
        return {"NUMBER": "0", "WHOLE": "0", "BOOL": "false", "TEXT": "''", "JSON": "'{}'"}[reads(p, self.numbers)]


def quoted(text):
    return describe.quoted(text)


def takes_arrays(api, library):
    """Whether a number or a text can stand for each item of its lists."""
    def first(base):
        while form(api, base) == "STRUCT" and api.structs[base].shorthand():
            base = api.structs[base].members[0].type
        return form(api, base)
    return bool(library.lists) and all(first(base) == "QUANTITY" for _, base, *_ in library.lists)


def functions_of(api, library):
    """All forms of a function of the library."""
    one = library.call.results[0] if len(library.call.results) == 1 else None
    kind = form(api, one[1]) if one and not one[2] else None
    text_given = "BOOL" if not library.call.results else "JSON"
    if kind and kind not in ("STRUCT", "FOUND", "SET"):
        text_given = {"QUANTITY": "TEXT", "ENUM": "WORD", "TEXT": "WORD", "BOOL": "BOOL", "NUMBER": "NUMBER"}.get(kind, "WHOLE")
    out = [Function(api, library, "TEXT", library.name, given=text_given)]
    takes_numbers = any(p.unit or p.form == "LIST" for p in library.parameters)
    if library.results is not None and len(library.results) <= MAXIMUM_FIGURES_A_RESULT and takes_numbers:
        if not library.results:
            out.append(Function(api, library, "NUMBER", library.name + "_ok", given="BOOL"))
        for r in library.results:
            # a number without a unit and a name would have that of the form for texts
            out.append(Function(api, library, "NUMBER", f"{library.name}_{r.name or 'value'}", [r]))
    if library.f.type == "fer_status":
        for shape, end in (("STATUS", "_status"), ("ERROR", "_error")):
            out.append(Function(api, library, shape, library.name + end, given="WORD"))
            # What is left out may not leave two functions to choose from.
            if any(sql_type(p, True) != sql_type(p, False, True) for p in library.parameters if not p.optional):
                out.append(Function(api, library, shape + "_OF_TEXT", library.name + end, given="WORD"))
    rows = library.row_results(api)
    if rows and takes_numbers:
        out.append(Function(api, library, "ROWS", library.name + "_row" + ("s" if rows[1] else ""), rows[0], rows=rows[1]))
    if len(library.lists) == 1 and figures(api, library.lists[0][1], ()):
        out.append(Function(api, library, "AGGREGATE", library.name + "_over"))
    return out


# ---- C ----------------------------------------------------------------------------------------------------------

def c_frame(library):
    out = [f"typedef struct frame_{library.name} {{"]
    for name, base, is_list, _ in library.call.arguments + library.call.results:
        c_base = {"bool": "int"}.get(base, base)
        if base == "char":
            out.append(f"    const char *{name};")
        elif is_list:
            out += [f"    {c_base} *{name};", f"    size_t {name}_count;"]
        else:
            out.append(f"    {c_base} {name};")
    if not library.call.arguments + library.call.results:
        out.append("    int none;")
    return out + [f"}} frame_{library.name};"]


def c_call(library):
    """The call, with the arguments as C wants them."""
    words, lists = [], {name for name, _, is_list, _ in library.call.results if is_list}
    parameters, i = library.f.parameters, 0
    while i < len(parameters):
        name, type_ = parameters[i]
        if name in lists:
            words += [f"f->{name}", "SQL_MAXIMUM_RESULTS", f"&f->{name}_count"]
            i += 2
        elif name in {n for n, _, is_list, _ in library.call.arguments if is_list}:
            words += [f"f->{name}", f"f->{name}_count"]
            i += 1
        elif library.f.roles[i] == "work":
            words += [name, f"{name} ? FER_WORK_USUAL : 0"]
            i += 1
        else:
            words.append(f"f->{name}" if type_ == "const char *" or not type_.endswith("*") else f"&f->{name}")
        i += 1
    call = f"{library.f.c_name}({', '.join(words)})"
    out = [f"static fer_status call_{library.name}(void *frame, bind_stop *stop)", "{",
           f"    frame_{library.name} *f = frame;\n    (void)stop;"]
    for name, type_ in parameters:
        if type_ == "fer_trials":
            out += [f"    if (f->{name}.blocks > SQL_MAXIMUM_BLOCKS)", "        return FER_TRIALS_BLOCKS_OUT_OF_RANGE;"]
    work = [name for (name, _), role in zip(parameters, library.f.roles) if role == "work"]
    if work:
        out += [f"    fer_work *{work[0]} = malloc(FER_WORK_USUAL * sizeof *{work[0]});",
                f"    const fer_status status = {call};", f"    free({work[0]});", "    return status;"]
    elif library.f.type == "fer_status":
        out.append(f"    return {call};")
    else:
        out += [f"    f->result = {call};", "    return FER_OK;"]
    return out + ["}"]


def is_quick(f):
    """Numbers, whole numbers and words to one number: what is called for each of a million rows."""
    return (f.shape == "NUMBER" and f.given == "NUMBER" and not f.columns[0].found
            and all(reads(p, True) in ("NUMBER", "WORD", "BOOL") or p.base == "int" for p in f.parameters))


def c_member(figure, unit):
    return "f." + ".".join(figure.path) + (f".{unit}" if unit else "")


def c_quick(f):
    """Anything out of the ordinary gives 0, and the long way then finds out what it is, and says it."""
    out = [f"static int quick_{f.name}(SQL_SOURCE from, double *number)", "{", f"    frame_{f.library.name} f = {{0}};"]
    for place, p in enumerate(f.parameters):
        to = c_member(p, p.unit)
        out.append({"NUMBER": f"    SQL_QUICK_NUMBER({place}, {to});", "WHOLE": f"    SQL_QUICK_WHOLE({place}, {to});",
                    "BOOL": f"    SQL_QUICK_BOOL({place}, {to});",
                    "WORD": f"    SQL_QUICK_WORD({place}, {p.base}, {to});"}[reads(p, True)])
    call = c_call(f.library)[3].strip().removeprefix("return ").rstrip(";").replace("f->", "f.")
    return out + [f"    if ({call} != FER_OK)", "        return 0;", f"    *number = {c_member(f.columns[0], f.columns[0].unit)};",
                  "    return *number - *number == 0;", "}"]


def frames(libraries):
    return "\n".join(["/* Written by make_sql.py. */"] + [line for library in libraries for line in c_frame(library)]) + "\n"


def quick(functions):
    return "\n".join(["/* Written by make_sql.py. */"] + [line for f in functions if is_quick(f) for line in c_quick(f)]) + "\n"


def c_table(api, libraries, functions, units, setups):
    out = ["/* Written by make_sql.py. */", "#define BIND_STOP stop", '#include "call.h"', "", "#include <ferrule/bulk.h>", "#include <stddef.h>", "#include <stdlib.h>", "", '#include "frames.h"']
    for library in libraries:
        out += c_call(library)
        for title, items in (("arguments", library.call.arguments), ("results", library.call.results)):
            out.append(f"static const sql_place {library.name}_{title}[] = {{")
            for name, base, is_list, _ in items:
                kind = "NULL" if base == "char" else f"&bind_kinds[BIND_{base}]"
                count = f"offsetof(frame_{library.name}, {name}_count)" if is_list else "0"
                out.append(f"    {{{quoted(name.rstrip('_'))}, {kind}, offsetof(frame_{library.name}, {name}), {count}}},")
            out.append("    {0}};")
        out.append(f"static const sql_library {library.name}_library = {{{quoted(library.name)}, call_{library.name}, "
                   f"sizeof(frame_{library.name}), {library.name}_arguments, {library.name}_results}};")
    out.append("typedef union any_frame {")
    out += [f"    frame_{library.name} {library.name}_;" for library in libraries]
    out += ["} any_frame;", "_Static_assert(sizeof(any_frame) <= SQL_FRAME_BYTES, \"raise SQL_FRAME_BYTES\");"]
    for f in functions:
        if f.parameters:
            out += [f"static const sql_parameter {f.c_name}_parameters[] = {{"] + [f.c_parameter(p) for p in f.parameters] + ["};"]
        if f.columns:
            out += [f"static const sql_column {f.name}_columns[] = {{"] + [f.c_column(c) for c in f.columns] + ["};"]
    out.append(UNIT_PARAMETERS)
    out.append("const sql_function sql_functions[] = {")
    for f in functions:
        name = f.library.name
        rows = f"&{name}_results[0]" if f.rows else "NULL"
        items = next((f"&{name}_arguments[{i}]" for i, a in enumerate(f.library.call.arguments) if a[2]), "NULL") \
            if f.is_aggregate else "NULL"
        out.append(f"    {{{quoted(f.name)}, &{name}_library, SQL_{f.shape}_FORM, SQL_GIVES_{f.given}, "
                   f"{f.c_name + '_parameters' if f.parameters else 'NULL'}, {len(f.parameters)}, {f.required}, "
                   f"{f.name + '_columns' if f.columns else 'NULL'}, {len(f.columns)}, {rows}, {items}, 0, 0}},")
    for u in units:
        out.append(f"    {{{quoted(u.name)}, NULL, SQL_{u.shape}, SQL_GIVES_{u.given}, {u.shape.lower()}_parameters, "
                   f"{len(u.parameters)}, {u.required}, NULL, 0, NULL, NULL, FER_UNIT_{u.unit}, FER_UNIT_{u.base_unit}}},")
    out.append("};")
    out.append("const size_t sql_function_count = sizeof sql_functions / sizeof sql_functions[0];")
    out += setups.c_lines()
    return "\n".join(out) + "\n"


# ---- set-ups of the rows of a query ------------------------------------------------------------------------------


SETUPS = "fer_plan_setups_rows"
SETUPS_OWN = [("row_number", "bigint"), ("row_key", "text"), ("status", "text"), ("path", "text")]


class Setups:
    """The columns that fer_plan_setups_rows() takes and gives."""

    def __init__(self, api, libraries):
        library = next(l for l in libraries if l.name == "plan_setup")
        self.figures = [Figure(api, r.base, r.path, False, r.found, name=tuple(n for n in r.path if n != "value"))
                        for r in figures(api, "fer_setup", ())]
        self.function = Function(api, library, "ROWS", "plan_setups_rows", self.figures, rows=("setups", "fer_setup"))
        layout = make_ufuncs.Layout(describe.Api(), "fer_order")
        places = make_ufuncs.places_of_orders(layout)
        self.columns = [(c, place) for c, place in zip(layout.columns, places) if place]

    def c_column(self, c, place):
        kind = c.type if c.enum else f"fer_{make_ufuncs_name(c.quantity)}" if c.quantity else None
        amount = c.name.endswith("_amount_mm")
        blank = 1 if amount else 2 if c.name.endswith("degrees_of_freedom") else 0
        path = c.place.removesuffix("." + c.name.rpartition("_")[2]) if c.quantity else c.place
        return (f"    {{{quoted(c.name)}, {quoted(path)}, {f'&bind_kinds[BIND_{kind}]' if kind else 'NULL'}, offsetof(fer_order, {c.place}), "
                f"offsetof(fer_order_columns, {place}), sizeof(((fer_order *)0)->{c.place}), {int(c.type == 'bool')}, {blank}}},")

    def c_lines(self):
        return (["const sql_order_column sql_order_columns[] = {"] + [self.c_column(*c) for c in self.columns] + ["};"] +
                ["const size_t sql_order_column_count = sizeof sql_order_columns / sizeof sql_order_columns[0];"] +
                ["static const sql_column setups_columns[] = {"] + [self.function.c_column(c) for c in self.figures] + ["};"] +
                ["static const sql_parameter setups_parameters[] = {",
                 '    {"query", NULL, SQL_READS_WORD, 0, 0, 0, 0}, {"workplaces", NULL, SQL_READS_LIST, 0, 0, 0, 0}};',
                 f"const sql_function sql_plan_setups_function = {{{quoted(SETUPS)}, &plan_setup_library, SQL_ROWS_FORM, SQL_GIVES_JSON, "
                 f"setups_parameters, 2, 2, setups_columns, {len(self.figures)}, NULL, NULL, 0, 0}};"])

    def script(self):
        columns = ", ".join([f'"{n}" {t}' for n, t in SETUPS_OWN] + [f'"{c.name}" {GIVEN[gives(c)]}' for c in self.figures])
        about = "Set-ups of all rows of a query, planned in blocks. Takes the query as text, gives rows."
        return (f"CREATE TYPE {SETUPS} AS ({columns});\n"
                f"CREATE FUNCTION {SETUPS}(query text, workplaces text) RETURNS SETOF {SETUPS} AS 'MODULE_PATHNAME', 'sql_plan_setups_rows' "
                "LANGUAGE C STABLE STRICT PARALLEL RESTRICTED;\n"
                f"COMMENT ON FUNCTION {SETUPS}(text, text) IS {sql_string(about)};")

    def manual(self):
        taken = ", ".join(["row_key", "workplace"] + [c.name for c, _ in self.columns])
        return (f"<b>{SETUPS}</b>: Set-ups of all rows of a query.\n\n- `{SETUPS}` (query, workplaces) → rows of "
                f"{', '.join(n for n, _ in SETUPS_OWN)}, and the columns of `fer_plan_setup_row`. The query's columns: {taken}\n")


def make_ufuncs_name(quantity):
    return re.sub(r"(?<!^)([A-Z])", r"_\1", quantity).lower()


UNIT_PARAMETERS = """static const sql_parameter unit_read_parameters[] = {
    {"text", NULL, SQL_READS_WORD, 0, 0, 0, 0}, {"decimal", NULL, SQL_READS_WORD, 0, 1, 0, 0}};
static const sql_parameter unit_write_parameters[] = {
    {"number", &bind_kinds[BIND_double], SQL_READS_NUMBER, 0, 0, 0, 0},
    {"decimals", &bind_kinds[BIND_int], SQL_READS_WHOLE, 0, 1, 0, 0}};
#define unit_status_parameters    unit_read_parameters
#define unit_error_parameters     unit_read_parameters
#define unit_from_base_parameters unit_write_parameters
#define unit_to_base_parameters unit_write_parameters"""


class Unit:
    """A function of a unit; `shape` is also the name of its parameters."""

    def __init__(self, shape, name, unit, base_unit, about):
        self.shape, self.name, self.unit, self.base_unit, self.about = shape, "fer_" + name, unit, base_unit, about
        number = "number" if shape == "UNIT_WRITE" else f"number_{base_unit if shape == 'UNIT_FROM_BASE' else unit}"
        self.parameters = {"UNIT_READ": [("text", "text", None), ("decimal", "text", "'.'")],
                           "UNIT_STATUS": [("text", "text", None), ("decimal", "text", "'.'")],
                           "UNIT_ERROR": [("text", "text", None), ("decimal", "text", "'.'")],
                           "UNIT_WRITE": [("number", "double precision", None), ("decimals", "bigint", "-1")]}.get(
                               shape, [(number, "double precision", None)])
        self.required = 1
        self.given = "NUMBER" if shape in ("UNIT_READ", "UNIT_FROM_BASE", "UNIT_TO_BASE") else "WORD"


def unit_functions(api):
    out = []
    for s in api.structs.values():
        for unit in s.units if s.form == "QUANTITY" else []:
            base, kind = api.base_units[s.c_name], s.name.lower() if s.name != "PerLength" else "number per length"
            out.append(Unit("UNIT_READ", unit, unit, base, f"Text of a {kind} to its number in the unit {unit}; its decimal sign is '.' or ','"))
            out.append(Unit("UNIT_STATUS", unit + "_status", unit, base, f"Whether text is a {kind}: OK, or the status that says why not"))
            out.append(Unit("UNIT_ERROR", unit + "_error", unit, base, f"Why text is no {kind}; NULL where it is one"))
            out.append(Unit("UNIT_WRITE", unit + "_text", unit, base,
                            f"Number in the unit {unit} to text; the fewest digits that read back the same, or so many "
                            "decimals, or with -64 the nearest 64th"))
            if unit != base:
                out.append(Unit("UNIT_FROM_BASE", f"{unit}_of_{base}", unit, base, f"From {base} to {unit}"))
                out.append(Unit("UNIT_TO_BASE", f"{base}_of_{unit}", unit, base, f"From {unit} to {base}"))
    return out


# ---- PostgreSQL -------------------------------------------------------------------------------------------------

def sql_type(p, numbers, of_text=False):
    type_ = SQL[reads(p, numbers)]
    return "text" if of_text and type_ == "json" else type_


def symbol_of(f):
    return "sql_" + f.name[4:] + ("_of_text" if f.of_text else "")


def sql_parameter(f, p, arrays, with_default):
    type_ = sql_type(p, f.numbers, f.of_text)
    if p.form == "LIST" and arrays:
        type_ = "double precision[]" if f.numbers else "text[]"
    default = f" DEFAULT {f.default(p)}" if p.optional and with_default else ""
    return f'"{f.parameter_name(p)}" {type_}{default}'


def sql_string(text):
    return "'" + text.replace("'", "''") + "'"


def sql_about(f):
    about = (f.library.f.text or [""])[0]
    forms = {"TEXT": "Takes text with units.", "NUMBER": "Takes numbers.", "ROWS": "Takes numbers, gives rows.",
             "STATUS": "Takes numbers; the status in place of a result or an error.",
             "ERROR": "Takes numbers; the message of the error, NULL where there is none.",
             "STATUS_OF_TEXT": "Takes text with units; the status in place of a result or an error.",
             "ERROR_OF_TEXT": "Takes text with units; the message of the error, NULL where there is none.", "AGGREGATE": "Takes numbers, over rows."}
    return f"{about} {forms[f.shape]}"


ATTRIBUTES = "LANGUAGE C IMMUTABLE STRICT PARALLEL SAFE"


def sql_function(f, arrays):
    symbol = symbol_of(f) + ("_of_arrays" if arrays else "")
    listed = ", ".join(sql_parameter(f, p, arrays, True) for p in f.parameters)
    given = f"{'SETOF ' if f.rows else ''}{f.name}" if f.gives_rows else GIVEN[f.given]
    types = ", ".join(sql_parameter(f, p, arrays, False).split('" ')[1] for p in f.parameters)
    return (f"CREATE FUNCTION {f.name}({listed}) RETURNS {given} AS 'MODULE_PATHNAME', '{symbol}' {ATTRIBUTES};\n"
            f"COMMENT ON FUNCTION {f.name}({types}) IS {sql_string(sql_about(f))};")


def sql_aggregate(f):
    """Aggregates have no defaults: one for each number of arguments that makes sense."""
    items = [p for p in f.parameters if p.is_item]
    counts = sorted({f.required, len(f.parameters)} | {f.required + sum(p.optional for p in items)})
    out = [f"CREATE FUNCTION {f.name}_end(internal) RETURNS json AS 'MODULE_PATHNAME', 'sql_aggregate_end' LANGUAGE C "
           "IMMUTABLE PARALLEL SAFE;"]
    for count in counts:
        listed = ", ".join(sql_parameter(f, p, False, False) for p in f.parameters[:count])
        types = ", ".join(sql_parameter(f, p, False, False).split('" ')[1] for p in f.parameters[:count])
        out.append(f"CREATE FUNCTION {f.name}_step(internal, {types}) RETURNS internal AS 'MODULE_PATHNAME', "
                   f"'sql_{f.name[4:]}_step' LANGUAGE C IMMUTABLE PARALLEL SAFE;")
        out.append(f"CREATE AGGREGATE {f.name}({listed}) (SFUNC = {f.name}_step, STYPE = internal, FINALFUNC = {f.name}_end, "
                   "PARALLEL = SAFE);")
        out.append(f"COMMENT ON AGGREGATE {f.name}({types}) IS {sql_string(sql_about(f))};")
    return "\n".join(out)


def sql_unit(u):
    listed = ", ".join(f'"{n}" {t}' + (f" DEFAULT {d}" if d else "") for n, t, d in u.parameters)
    types = ", ".join(t for _, t, _ in u.parameters)
    return (f"CREATE FUNCTION {u.name}({listed}) RETURNS {GIVEN[u.given]} AS 'MODULE_PATHNAME', 'sql_{u.name[4:]}' "
            f"{ATTRIBUTES};\nCOMMENT ON FUNCTION {u.name}({types}) IS {sql_string(u.about + '.')};")


def script(api, functions, units, setups):
    out = ["-- Written by make_sql.py out of the library's headers.",
           '\\echo Use "CREATE EXTENSION ferrule" to load this file. \\quit']
    out.append("CREATE FUNCTION fer_version() RETURNS text AS 'MODULE_PATHNAME', 'sql_version' " + ATTRIBUTES + ";\n"
               "COMMENT ON FUNCTION fer_version() IS 'Version of the library that the functions come from.';")
    for f in functions:
        if f.gives_rows:
            columns = ", ".join(f'"{c.name}" {GIVEN[gives(c)]}' for c in f.columns)
            out.append(f"CREATE TYPE {f.name} AS ({columns});")
        if f.is_aggregate:
            out.append(sql_aggregate(f))
        else:
            out.append(sql_function(f, False))
            if takes_arrays(api, f.library) and not f.of_text:
                out.append(sql_function(f, True))
    return "\n".join(out + [setups.script()] + [sql_unit(u) for u in units]) + "\n"


def symbols(api, functions, units):
    out = ["/* Written by make_sql.py: X(symbol, place in the table, takes arrays), Q where\n * there is a short way of that name, Y for the steps of aggregates. */"]
    rows = []
    for place, f in enumerate(functions):
        if f.is_aggregate:
            rows.append(f"Y(sql_{f.name[4:]}_step, {place})")
        else:
            rows.append(f"{'Q' if is_quick(f) else 'X'}({symbol_of(f)}, {place}, {f.name if is_quick(f) else 0})")
            if takes_arrays(api, f.library) and not f.of_text:
                rows.append(f"X(sql_{f.name[4:]}_of_arrays, {place}, 1)")
    rows += [f"X(sql_{u.name[4:]}, {len(functions) + i}, 0)" for i, u in enumerate(units)]
    return "\n".join(out + rows) + "\n"


# ---- manual -----------------------------------------------------------------------------------------------------

def manual(libraries, functions, units, setups):
    out = []
    for library in libraries:
        mine = [f for f in functions if f.library is library and not f.of_text]
        text = (library.f.text or [""])[0]
        out.append(f"<b>fer_{library.name}</b>: {text}\n")
        seen = None
        for f in mine:
            shown = ", ".join(f.parameter_name(p) for p in f.parameters[:f.required])
            optional = [f.parameter_name(p) for p in f.parameters[f.required:]]
            shown += ("; may be left out: " if shown else "may be left out: ") + ", ".join(optional) if optional else ""
            same = seen == shown
            result = "rows of " + ", ".join(c.name for c in f.columns) if f.gives_rows else \
                {"NUMBER": "number", "WHOLE": "whole number", "BOOL": "truth", "WORD": "text", "TEXT": "text with unit",
                 "JSON": "JSON"}[f.given]
            out.append(f"- `{f.name}` ({'the same' if same else shown}) → {result}")
            seen = shown
        out.append("")
    out += [setups.manual(), "<b>Units</b>\n"]
    for u in units:
        out.append(f"- `{u.name}` ({', '.join(n for n, *_ in u.parameters)}): {u.about[0].lower() + u.about[1:]}")
    return "\n".join(out) + "\n"


def as_data(libraries, functions, units):
    rows = []
    for f in functions:
        rows.append({"name": f.name, "library": f.library.name, "shape": f.shape, "gives": f.given, "required": f.required,
                     "lists": [a[0] for a in f.library.lists],
                     "parameters": [{"name": f.parameter_name(p), "path": ".".join(p.path),
                                     "reads": "TEXT" if sql_type(p, f.numbers) != sql_type(p, f.numbers, f.of_text) else reads(p, f.numbers),
                                     "unit": p.unit, "item": p.is_item, "optional": p.optional,
                                     "default": f.default(p).strip("'") if p.optional else None}
                                    for p in f.parameters],
                     "columns": [{"name": c.name, "path": ".".join(c.path), "gives": gives(c), "unit": c.unit}
                                 for c in f.columns]})
    rows += [{"name": u.name, "library": None, "shape": u.shape, "gives": u.given, "required": u.required, "unit": u.unit,
              "base": u.base_unit, "parameters": [{"name": n} for n, *_ in u.parameters]} for u in units]
    return json.dumps(rows, indent=1)


def main():
    output, version = sys.argv[1:3]
    api = describe.Api()
    api.base_units = {s.c_name: s.members[0].c_name for s in api.structs.values() if s.form == "QUANTITY"}
    makers = {unit for s in api.structs.values() for unit in s.units}
    libraries = [Library(api, f) for f in api.functions if f.name not in makers]
    functions = [f for library in libraries for f in functions_of(api, library)]
    units, setups = unit_functions(api), Setups(api, libraries)
    names = [f.name for f in functions if not f.of_text] + [u.name for u in units] + ["fer_version", SETUPS]
    twice = {n for n in names if names.count(n) > 1}
    if twice or any(len(n) > 63 for n in names):
        sys.exit(f"make_sql.py: names that stand twice or are longer than 63 bytes: {twice or [n for n in names if len(n) > 63]}")
    for f in functions:
        if f.gives_rows and len(f.parameters) > 31:
            sys.exit(f"make_sql.py: {f.name} has more than 31 arguments")
    written = {"frames.h": frames(libraries), "quick.h": quick(functions), "functions.c": c_table(api, libraries, functions, units, setups), "symbols.h": symbols(api, functions, units),
               f"ferrule--{version}.sql": script(api, functions, units, setups), "sql_functions.inc": manual(libraries, functions, units, setups),
               "functions.json": as_data(libraries, functions, units)}
    if "--manual" in sys.argv:
        written = {"sql_functions.inc": written["sql_functions.inc"]}
    for name, text in written.items():
        with open(os.path.join(output, name), "w", encoding="utf-8") as file:
            file.write(text)


if __name__ == "__main__":
    main()
