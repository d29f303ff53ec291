# SPDX-License-Identifier: MIT
"""Every SQL function in a PostgreSQL server of its own, for any bytes: arguments of each type, out of constants and out of rows
(short, packed and stored apart), arrays with NULLs and several dimensions, text of several bytes a character, in a database of
UTF-8 and in one of LATIN1.

Usage: fuzz_postgresql.py BUILD run SECONDS FOUND_FOLDER SEEDS_FOLDER
       fuzz_postgresql.py BUILD merge TO_FOLDER FROM_FOLDER...   the fewest inputs that reach the same
       fuzz_postgresql.py BUILD show FILE...                     what a call is and what comes out

The extension is built with sanitizers (build/fuzz); fuzz_server.c makes each piece of the server's memory a block of just its
size and tells which inputs reach new places of the code. What has to hold: the process of the server lives; an answer has the
bits, an error the message of the same call in SQLite, with the right SQLSTATE; NULL gives NULL; memory does not grow.
"""
import base64
import hashlib
import json
import math
import os
import pathlib
import platform
import random
import re
import shutil
import sqlite3
import struct
import subprocess
import sys
import time

HERE = pathlib.Path(__file__).resolve().parent
SEED = 20261126  # of the changes that are tried


def with_runtime():
    """Starts again with the sanitizers' runtime, which SQLite's module needs; the server gets it too, what else is started not."""
    runtime = subprocess.run(["clang", f"-print-file-name=libclang_rt.asan-{platform.machine()}.so"], check=True, text=True,
                             stdout=subprocess.PIPE).stdout.strip()
    if os.environ.get("LD_PRELOAD") != runtime:
        options = "detect_leaks=0:" + os.environ.get("ASAN_OPTIONS", "")
        os.execve(sys.executable, [sys.executable, "-B", *sys.argv], {**os.environ, "LD_PRELOAD": runtime, "ASAN_OPTIONS": options})
    return {name: os.environ.pop(name) for name in ("LD_PRELOAD", "ASAN_OPTIONS")}


BUILD = pathlib.Path(sys.argv[1]).resolve()
SANITIZERS = with_runtime()
sys.path[:0] = [str(HERE), str(HERE.parents[1] / "agree/sql"), str(BUILD / "tests/guard/fuzz")]
import psycopg2  # noqa: E402
import psycopg2.extensions  # noqa: E402
import psycopg2.extras  # noqa: E402
import server  # noqa: E402
from calls import USUAL  # noqa: E402
from described import ENUMS, FUNCTIONS, LIMITS, STRUCTS, UNITS  # noqa: E402
from inputs import Input, number  # noqa: E402

TEXTS = ["", " ", "20", "mm", "1 mm", "20 %", "1 1/4 in", "-3/8\"", "1e400 mm", "9" * 390 + " mm", "1,5 mm", "WALL", "plain", "x" * 130,
         "\u2212" + "1 mm", "5 \u00b5m", "1\u202fmm", "nan mm", "0x1p3 mm", "\u00e9" * 70, "\U0001f642" * 9, "\uff12\uff10 mm", "20 \u00b0C",
         "x" * 3000, "".join(hashlib.sha256(bytes([i])).hexdigest() for i in range(80)), "16 mm" + " " * 2500, "\u00ff", "a\tb\nc\"'\\{},"]
JSONS = ["null", "1e999", "-0.0", "{}", "[]", "true", "[[[[[]]]]]", "{\"a\":1}", "\"\\u00b5\"", "1e308", "\"20 %\"", "12345678901234567890",
         "[null]", "{\"joint\": null}", "[" * 40 + "]" * 40, " [ 1 , 2 ] ", "{\"size\": \"16 mm\", \"size_mm\": 16}", "\"\u00e9\U0001f642\""]
WHOLE = [0, 1, 2, 8, -1, 2 ** 31 - 1, 2 ** 31, -2 ** 31, -2 ** 31 - 1, 2 ** 32 + 1, 2 ** 63 - 1, -2 ** 63, 2 ** 53 + 1]
SYMBOLS = {"mm": ("mm", 1), "fraction": ("%", 100), "mpa": ("MPa", 1), "rad": ("rad", 1), "newton": ("N", 1), "celsius": ("\u00b0C", 1),
           "mm2": ("mm\u00b2", 1), "per_mm": ("1/mm", 1)}
TYPES = {"double precision": "f", "bigint": "w", "boolean": "b", "text": "x", "json": "j", "double precision[]": "fa", "text[]": "xa"}
EACH = 32  # columns of a type in the table that arguments come from
BASES = {unit: kind for kind, units in UNITS.items() for unit in units}


class Broken(Exception):
    """A promise that does not hold."""


def promise(condition, *about):
    if not condition:
        raise Broken(" ".join(str(a) for a in about))


# ---- databases ----------------------------------------------------------------------------------------------------

class Refused:
    """An error: message, SQLSTATE and the name of the status, as far as they are given."""

    def __init__(self, message, state, status):
        self.message, self.state, self.status = message, state, status

    def __repr__(self):
        return f"{self.message} [{self.status}] ({self.state})"


class SanitizedServer(server.Server):
    def run(self, *command, **more):
        if pathlib.Path(command[0]).name == "postgres":
            more["env"] = {**os.environ, **SANITIZERS, "UBSAN_OPTIONS": "print_stacktrace=1",
                           "LD_PRELOAD": f"{SANITIZERS['LD_PRELOAD']}:{self.under(server.config('pkglibdir'))}/fuzz_preload.so"}
        return super().run(*command, **more)

    def copy_installation(self, build):
        super().copy_installation(build)
        for name in ("fuzz_server.so", "fuzz_preload.so"):
            shutil.copy(build / "tests/guard/fuzz" / name, self.under(server.config("pkglibdir")))


class Postgresql:
    """A process of the server, in a database with an encoding."""

    def __init__(self, process, encoding, counters):
        self.server, self.encoding = process, encoding
        here = process.environment["PGHOST"]
        first = psycopg2.connect(host=here, user="postgres", dbname="postgres")
        first.autocommit = True
        first.cursor().execute(f"CREATE DATABASE {encoding.lower()} ENCODING '{encoding}' LOCALE 'C' TEMPLATE template0")
        first.close()
        self.db = psycopg2.connect(host=here, user="postgres", dbname=encoding.lower(), client_encoding="UTF8")
        self.db.autocommit = True
        psycopg2.extras.register_default_json(self.db, loads=lambda words: words)
        self.ask("CREATE EXTENSION ferrule")
        columns = [f"{short}{i} {type_}" for type_, short in TYPES.items() for i in range(EACH)]
        self.ask(f"CREATE TABLE wide (place serial, {', '.join(columns)})")
        for name, given in (("taken()", "bigint"), ("reached()", "bigint"), ("places()", "bigint"), ("features()", "bigint"),
                            ("watch(text, text, bigint, bigint)", "void")):
            self.ask(f"CREATE FUNCTION fuzz_{name} RETURNS {given} AS '$libdir/fuzz_server', 'fuzz_{name.partition('(')[0]}' LANGUAGE C")
        self.ask("LOAD '$libdir/fuzz_server'")
        self.ask("SELECT fuzz_watch('$libdir/ferrule', 'sql_version', %s, %s)", counters)
        self.process = self.ask("SELECT pg_backend_pid()")[0][0]

    def ask(self, query, values=None):
        with self.db.cursor() as cursor:
            cursor.execute(query, values)
            return cursor.fetchall() if cursor.description else []

    def try_to(self, query, values):
        try:
            return self.ask(query, values)
        except psycopg2.Error as error:
            if error.pgcode is None:
                raise
            status = re.match(r"Status (\w+),", error.diag.message_detail or "")
            return Refused(error.diag.message_primary, error.pgcode, status[1] if status else "")

    def one(self, function):
        return self.ask(f"SELECT fuzz_{function}()")[0][0]


class Sqlite:
    def __init__(self):
        self.db = sqlite3.connect(":memory:")
        self.db.enable_load_extension(True)
        self.db.load_extension(str(BUILD / "sqlite" / "mod_ferrule"))

    def try_to(self, query, values):
        try:
            return self.db.execute(query, values).fetchall()
        except sqlite3.Error as error:
            status = re.search(r" \[([A-Z0-9_]+)\]$", str(error))
            return Refused(str(error)[:status.start()] if status else str(error), "", status[1] if status else "")


def counters_of(module):
    """Where the compiler put its counters: place and size in the file that is loaded."""
    said = subprocess.run(["readelf", "-SW", module], check=True, text=True, stdout=subprocess.PIPE).stdout
    found = re.search(r"__sancov_cntrs\s+\w+\s+([0-9a-f]+)\s+[0-9a-f]+\s+([0-9a-f]+)", said)
    return int(found[1], 16), int(found[2], 16)


# ---- values -------------------------------------------------------------------------------------------------------

class Value:
    """An argument for both: an expression with its text for PostgreSQL, a value for SQLite."""

    def __init__(self, type_, words, other, comparable=True):
        self.type, self.words, self.other, self.comparable = type_, words, other, comparable


def limits_of(name):
    """What a number of this name usually is, from and to: by the longest name that is known at its begin or its end."""
    unit = next((u for u in BASES if name.endswith("_" + u)), "")
    bare = name.removesuffix("_" + unit)
    found = max((n for n in USUAL if bare.startswith(n) or bare.endswith("_" + n)), key=len, default=None)
    return (USUAL[found], 0.0, 10.0 * USUAL[found]) if found else (1.0, 0.0, 10.0)


def some_number(source, limits):
    return float(min(number(source, limits), 2 ** 1000))


def quantity_text(source, limits, unit):
    symbol, times = SYMBOLS.get(unit, (unit or "", 1))
    return f"{some_number(source, limits) * times!r} {symbol}".strip() if source.byte() < 230 else source.choose(TEXTS)


def some_json(source, kind, limits, depth=0):
    """What a member of a struct may be."""
    if source.byte() > 246 or depth > 5:
        return json.loads(source.choose(JSONS[:-3]).replace("1e999", "1"))
    if kind in UNITS:
        return quantity_text(source, limits, UNITS[kind][0])
    if kind in STRUCTS:
        made = {}
        for member, inner, inner_limits, count, optional in STRUCTS[kind]:
            if optional and source.byte() % 3 == 0:
                continue
            if inner in UNITS and source.byte() % 4 == 3:
                made[f"{member}_{source.choose(UNITS[inner])}"] = some_number(source, inner_limits)
            elif count:
                made[member] = [some_json(source, inner, inner_limits, depth + 1)] * min(count, 4)
            else:
                made[member] = some_json(source, inner, inner_limits, depth + 1)
        return made
    if kind in ENUMS:
        words = ENUMS[kind]
        return source.choose(words)
    return source.byte() % 2 == 1 if kind == "bool" else source.byte() if kind == "int" else some_number(source, limits)


def json_value(source, kind, is_list):
    way = source.byte()
    if way > 240:
        words = source.choose(JSONS)
    else:
        thing = [some_json(source, kind, LIMITS.get(kind, (1.0, 0.0, 10.0)), 1) for _ in range(source.byte() % 5)] if is_list else (
            some_json(source, kind, LIMITS.get(kind, (1.0, 0.0, 10.0))))
        words = json.dumps(thing, ensure_ascii=way % 2 == 0)
    return Value("json", words, words)


def array_literal(items, way):
    """Items as PostgreSQL writes them; in several dimensions where they fill them, and not from 1 on."""
    cell = lambda item: "NULL" if item is None else '"' + item.replace("\\", "\\\\").replace('"', '\\"') + '"'
    cells = [cell(item) for item in items]
    if way % 4 == 1 and len(cells) in (2, 4, 6):
        half = len(cells) // 2
        return "{{" + ",".join(cells[:half]) + "},{" + ",".join(cells[half:]) + "}}"
    if way % 4 == 2 and cells:
        return f"[-2:{len(cells) - 3}]={{{','.join(cells)}}}"
    return "{" + ",".join(cells) + "}"


def array_value(source, type_, kind, name):
    way, count = source.byte(), source.byte() % 7
    count = count if way < 250 else 300
    if type_ == "double precision[]":
        items = [None if source.byte() > 240 else some_number(source, limits_of(name)) for _ in range(count)]
        words = [None if i is None else repr(i) for i in items]
        finite = lambda i: i if i is None or math.isfinite(i) else "NaN" if i != i else "Infinity" if i > 0 else "-Infinity"
        other = json.dumps([finite(i) for i in items])
    else:
        items = words = [None if source.byte() > 240 else quantity_text(source, limits_of(name), UNITS.get(kind, ["mm"])[0]) for _ in range(count)]
        other = json.dumps(items)
    return Value(type_, array_literal(words, way), other)


def some_value(source, type_, p, library):
    """A value of a type for a parameter of a function."""
    name = p["name"]
    if source.byte() > 250:
        return Value(type_, None, None)
    if type_ == "double precision":
        n = some_number(source, limits_of(name))
        return Value(type_, repr(n), n, n == n)
    if type_ == "boolean":
        truth = source.byte() % 2
        return Value(type_, "true" if truth else "false", truth)
    if type_ == "bigint":
        usual = int(limits_of(name)[0]) + source.byte() % 8
        whole = source.choose(WHOLE) if source.byte() > 220 else usual
        whole = whole % 3 if name.endswith("blocks") and 3 <= whole <= 1000 else whole
        return Value(type_, str(whole), whole)
    if type_ == "text":
        if p.get("reads") == "WORD":
            last = name.split("_")[-1].title()
            words = ENUMS.get(last) or source.choose(list(ENUMS.values()))
            words = source.choose(words) if source.byte() < 220 else source.choose(TEXTS)
            words = words.lower() if source.byte() % 2 else words.replace("_", " ")
        else:
            words = quantity_text(source, limits_of(name), p.get("unit"))
        return Value(type_, words, words)
    argument = next((a for a in FUNCTIONS.get(library, []) if a[0] in (p.get("path"), name)), None)
    kind = argument[1] if argument else "Length"
    return json_value(source, kind, bool(argument and argument[2])) if type_ == "json" else array_value(source, type_, kind, name)


# ---- calls --------------------------------------------------------------------------------------------------------

class Function:
    """A function as one of the databases declares it, with what functions.json knows of it."""

    def __init__(self, about, types, gives_set):
        self.name, self.library, self.shape, self.required = about["name"], about["library"], about["shape"], about["required"]
        self.parameters, self.types, self.gives_set = about["parameters"], types, gives_set
        if self.library is None:  # of a unit
            unit = about["unit"] if self.shape != "UNIT_FROM_BASE" else about["base"]
            said = {"decimal": {"default": ".", "reads": "WORD"}, "decimals": {"default": "-1"}}
            self.parameters = [{**p, "unit": unit, "default": "-1", **said.get(p["name"], {})} for p in self.parameters]


def functions_of(postgresql):
    about = {row["name"]: row for row in json.loads((BUILD / "script" / "sql" / "functions.json").read_text())}
    rows = postgresql.ask("SELECT proname, ARRAY(SELECT format_type(t, NULL) FROM unnest(proargtypes::oid[]) AS t), proretset FROM pg_proc "
                          "WHERE proname LIKE 'fer\\_%%' AND NOT 'internal'::regtype = ANY(proargtypes) ORDER BY 1, 2", ())
    found = [Function(about[name], types, gives_set) for name, types, gives_set in rows if name in about]
    promise(len(found) > len(about) * 0.99, "functions are missing")
    return found


class Call:
    """A call in both languages."""

    def __init__(self, source, functions):
        first = source.byte()
        self.function = f = functions[(first << 8 | source.byte()) % len(functions)]
        self.way = source.byte()
        self.in_latin = source.byte() % 4 == 1
        self.from_rows = source.byte() % 4 == 2
        is_aggregate = f.shape == "AGGREGATE"
        count = len(f.types) if is_aggregate or self.way < 128 else f.required + self.way % (len(f.types) - f.required + 1)
        self.rows = [[some_value(source, t, p, f.library) for t, p in zip(f.types[:count], f.parameters)]
                     for _ in range(1 + self.way % 5 if is_aggregate else 1)]
        left = [i for i in range(f.required, count) if not is_aggregate and source.byte() % 4 == 0]
        self.left_out = left if self.way % 2 else []

    def values(self):
        return [v for row in self.rows for v in row]

    def expressions(self):
        return [f"%s::{v.type}" for v in self.rows[0]]

    def columns(self):
        """Columns of the table for the arguments."""
        used, names = {}, []
        for v in self.rows[0]:
            names.append(f"{TYPES[v.type]}{used.get(v.type, 0)}")
            used[v.type] = used.get(v.type, 0) + 1
        return names

    def fill(self):
        """Puts the arguments into the table; None where they are constants."""
        if not (self.from_rows and self.rows[0]):
            return None
        rows = ", ".join("(" + ", ".join(self.expressions()) + ")" for _ in self.rows)
        return f"INSERT INTO wide ({', '.join(self.columns())}) VALUES {rows}", [v.words for v in self.values()]

    def for_postgresql(self):
        f, from_rows = self.function, self.fill() is not None
        given = [a for i, a in enumerate(self.columns() if from_rows else self.expressions()) if i not in self.left_out]
        names = [p["name"] for i, p in enumerate(f.parameters[:len(self.rows[0])]) if i not in self.left_out]
        words = [v.words for i, v in enumerate(self.rows[0]) if i not in self.left_out]
        if f.shape == "AGGREGATE":
            if from_rows:
                return f"SELECT {f.name}({', '.join(given)}) FROM (SELECT * FROM wide ORDER BY place) AS wide", []
            rows = ", ".join("(" + ", ".join(self.expressions()) + ")" for _ in self.rows)
            columns = [f"c{i}" for i in range(len(given))]
            return f"SELECT {f.name}({', '.join(columns)}) FROM (VALUES {rows}) AS v({', '.join(columns)})", [v.words for v in self.values()]
        if self.left_out:
            given = [f'"{n}" => {g}' for n, g in zip(names, given)]
        call = f"{f.name}({', '.join(given)})"
        if f.shape != "ROWS":
            query = f"SELECT {call}" + (" FROM wide" if from_rows else "")
        elif from_rows:
            query = f"SELECT r.* FROM wide, {call} AS r"
        elif self.way % 8 == 7 and not f.gives_set and not any(v.words is None for v in self.rows[0]):
            query = f"SELECT (r).* FROM (SELECT {call} AS r OFFSET 0) AS q"
        else:
            query = f"SELECT * FROM {call} AS r"
        return query, [] if from_rows else words

    def for_sqlite(self):
        f = self.function
        if f.shape == "AGGREGATE":
            width = len(self.rows[0])
            rows = ", ".join("(" + ", ".join("?" * width) + ")" for _ in self.rows)
            return (f"SELECT {f.name}({', '.join(f'column{i + 1}' for i in range(width))}) FROM (VALUES {rows})",
                    [v.other for v in self.values()])
        values = [v.other if i not in self.left_out else default_of(f.parameters[i]) for i, v in enumerate(self.rows[0])]
        call = f"{f.name}({', '.join('?' * len(values))})"
        return (f"SELECT * FROM {call}" if f.shape == "ROWS" else f"SELECT {call}"), values


def default_of(p):
    default = p["default"]
    if p.get("reads") in ("TEXT", "WORD", "JSON", "LIST"):
        return default
    return 0 if default == "false" else int(default) if re.fullmatch(r"-?\d+", default) else float(default)


# ---- what has to hold ---------------------------------------------------------------------------------------------

# The server refuses these before a function is called, or when it gives the answer to the client.
SERVERS_OWN = re.compile(r"invalid input syntax for type|character with byte sequence|conversion between|malformed array|"
                         r"stack depth limit|multidimensional arrays must|unsupported Unicode escape")


def expected_state(status):
    if status.startswith("TEXT_"):
        return "22P02"
    return "22003" if status.endswith("_OUT_OF_RANGE") else "22023"


def bits(cell):
    if isinstance(cell, bool):
        return int(cell)
    return struct.pack(">d", cell) if isinstance(cell, float) else cell


def check(call, here, there):
    """The answer of PostgreSQL against that of SQLite."""
    f = call.function
    about = (call.for_postgresql(), here, there)
    has_null = any(v.words is None for i, v in enumerate(call.rows[0]) if i not in call.left_out)
    if isinstance(here, Refused) and SERVERS_OWN.search(here.message):
        return
    if has_null and f.shape not in ("ROWS", "AGGREGATE"):
        promise(here == [(None,)], "NULL does not give NULL", *about)
    if isinstance(here, Refused):
        promise(here.message.startswith(f.name + ":"), "an error without the name of its function", *about)
        promise(here.state == expected_state(here.status), "wrong SQLSTATE", *about)
    if not isinstance(here, Refused):
        promise(all(math.isfinite(cell) for row in here for cell in row if isinstance(cell, float)), "a number that is not finite", *about)
    if not all(v.comparable for i, v in enumerate(call.values()) if i not in call.left_out):
        return  # NaN is NULL in SQLite; whether it is refused where it counts is known from the other targets
    if f.shape == "ROWS" and there == [] and any(v.words is None for v in call.rows[0][16:]):
        promise(f.gives_set or set(here[0]) == {None}, "NULL does not give NULL", *about)
        return  # SQLite looks at the arguments behind the sixteenth itself, and finds that NULL is not equal to NULL
    if isinstance(here, Refused) or isinstance(there, Refused):
        promise(isinstance(here, Refused) and isinstance(there, Refused), "one refuses", *about)
        promise((here.message, here.status) == (there.message, there.status), "other errors", *about)
        return
    one, other = ([[bits(cell) for cell in row] for row in rows] for rows in (here, there))
    promise(one == other, "other answers", *about)


class Player:
    def __init__(self):
        self.server = SanitizedServer(BUILD, {"jit": "off"})
        try:
            counters = counters_of(BUILD / "postgresql" / "ferrule.so")
            self.utf, self.latin = Postgresql(self.server, "UTF8", counters), Postgresql(self.server, "LATIN1", counters)
            self.sqlite = Sqlite()
            self.functions = functions_of(self.utf)
        except BaseException:
            print((self.server.folder / "log").read_text(errors="replace")[-6000:])
            self.server.stop()
            raise

    def play(self, data, show=False):
        """Plays an input; how much of the code it is the first to reach."""
        call = Call(Input(data), self.functions)
        place = self.latin if call.in_latin else self.utf
        fill, here = call.fill(), None
        if fill:
            place.ask("BEGIN")
            here = place.try_to(*fill)
        if not isinstance(here, Refused):
            here = place.try_to(*call.for_postgresql())
        if fill:
            place.ask("ROLLBACK")
        there = self.sqlite.try_to(*call.for_sqlite())
        if show:
            print(f"{place.encoding}, {'rows' if fill else 'constants'}: {call.for_postgresql()} {[v.words for v in call.values()]}\n"
                  f"PostgreSQL: {here}\nSQLite:     {there}")
        check(call, here, there)
        return place.one("reached")

    def check_memory(self, inputs):
        """The same calls over and over: what is taken may not grow each time."""
        taken = []
        for _ in range(5):
            for data in inputs:
                self.play(data)
            taken.append([place.one("taken") for place in (self.utf, self.latin)])
        for before, *after in zip(*taken):
            steps = [b - a for a, b in zip([before, *after], after)][1:]
            promise(None not in after and min(steps) <= 512, "memory grows:", before, *after)

    def check_processes(self):
        for place in (self.utf, self.latin):
            promise(place.ask("SELECT pg_backend_pid(), fer_version()")[0][0] == place.process, "another process")

    def features(self):
        """Of the process that most calls go to."""
        return [self.utf.one(name) for name in ("places", "features")]


def change(chance, data, corpus):
    """Another input out of one."""
    made = bytearray(data)
    for _ in range(chance.choice([1, 1, 2, 3, 5, 8])):
        at, way = chance.randrange(len(made) + 1), chance.randrange(7)
        if way == 0 and made:
            made[at % len(made)] = chance.randrange(256)
        elif way == 1 and made:
            made[at % len(made)] ^= 1 << chance.randrange(8)
        elif way == 2:
            made[at:at] = bytes(chance.randrange(256) for _ in range(chance.randrange(1, 6)))
        elif way == 3:
            del made[at:at + chance.randrange(1, 6)]
        elif way == 4:
            other = chance.choice(corpus)
            begin = chance.randrange(len(other) + 1)
            made[at:at + chance.randrange(20)] = other[begin:begin + chance.randrange(1, 40)]
        elif way == 5:
            made += bytes(chance.choice([0, chance.randrange(256)]) for _ in range(chance.randrange(1, 40)))
        elif len(made) > 1:
            made[0:2] = bytes((chance.randrange(256), chance.randrange(256)))
    return bytes(made[:600])


def read_folder(folder):
    return [file.read_bytes() for file in sorted(pathlib.Path(folder).iterdir())]


def name_of(data):
    return hashlib.sha1(data).hexdigest()


def play_or_tell(player, data):
    try:
        return player.play(data)
    except (Broken, psycopg2.Error) as error:
        path = BUILD / "broken" / f"postgresql-{name_of(data)}"
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)
        time.sleep(1)  # until the server has written what it has to say
        print(f"{error}\n{(player.server.folder / 'log').read_text(errors='replace')[-6000:]}\nbroken by {path}: {base64.b64encode(data).decode()}")
        sys.exit(1)


def run(player, seconds, found, seeds):
    chance, begin, runs = random.Random(SEED), time.monotonic(), 0
    corpus, recent = [], []
    kept = read_folder(found)
    waiting = [*read_folder(seeds), *kept, bytes(20)]
    reported = begin
    while time.monotonic() - begin < seconds:
        is_new = not waiting
        data = change(chance, chance.choice(corpus), corpus) if is_new else waiting.pop()
        runs += 1
        recent.append(data)
        if play_or_tell(player, data) or not corpus:
            corpus.append(data)
            if is_new:
                (pathlib.Path(found) / name_of(data)).write_bytes(data)
        if runs % 2000 == 0:
            player.check_processes()
            player.check_memory(recent[-150:])
            del recent[:]
        if time.monotonic() - reported > 20:
            reported = time.monotonic()
            print(f"#{runs} pulse cov: {player.features()[0]} ft: {player.features()[1]} corp: {len(corpus)}/{sum(map(len, corpus))}b", flush=True)
    player.check_processes()
    player.check_memory(recent[-100:])
    places, features = player.features()
    print(f"#{runs} DONE cov: {places} ft: {features} corp: {len(corpus)}/{sum(map(len, corpus))}b")
    print(f"Done {runs} runs in {time.monotonic() - begin:.0f} second(s)\nstat::number_of_executed_units: {runs}")


def merge(player, to, folders):
    """The short ones first; those that reach nothing new are left out."""
    inputs = sorted({data for folder in folders for data in read_folder(folder)}, key=lambda data: (len(data), data))
    for data in inputs:
        if play_or_tell(player, data):
            (pathlib.Path(to) / name_of(data)).write_bytes(data)


def main():
    what, *rest = sys.argv[2:]
    player = Player()
    try:
        if what == "run":
            run(player, float(rest[0]), *rest[1:])
        elif what == "merge":
            merge(player, rest[0], rest[1:])
        else:
            for path in rest:
                player.play(pathlib.Path(path).read_bytes(), show=True)
    finally:
        player.utf.db.close(), player.latin.db.close()
        player.server.stop()


if __name__ == "__main__":
    main()
