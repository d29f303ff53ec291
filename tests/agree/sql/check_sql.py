# SPDX-License-Identifier: MIT
"""The SQL functions in a real database: the shared tables, bad calls, memory, a million rows.

Usage: check_sql.py sqlite|postgresql BUILD_FOLDER FUNCTIONS_JSON
       check_sql.py record BUILD_FOLDER   writes tests/release/proof/records/databases.json out of what both found
FERRULE_PYTHON_PATH in the environment: where the Python package is.

rows      every row of tests/agree/vectors in each form that has it: the value that the table expects within its tolerance, and
          the very bits of the Python package; with NULL for one argument it is NULL; and every row of its tables of decisions
setups    the rows of a query become set-ups with the bits of ferrule.bulk: numbers, words, remarks, the status and path of a bad row
shapes    every function in the list is there; lists, aggregates, rows, JSON with numbers and units, words
bad       each bad call is an error that names function, value and rule, with the right SQLSTATE in PostgreSQL
odd       arguments of every sort to every function: a value or an error of ours, and the database goes on
interrupt a long call ends where the database is asked to end it, and the session goes on
failing   200,000 failing calls leave the memory of the process as it was
big       a million rows: not more than 1.5 times the time of the formula in plain SQL without checks; in PostgreSQL by
          parallel workers
page      the example of the manual's page prints what stands below it
shop      PostgreSQL: examples/erp says what it says in SQLite, also after pg_dump and restoring, with its constraints; so does
          examples/quality
still     the modules hold nothing that changes, but for what SQLite itself needs
valgrind  SQLite: bad and other calls without invalid access and without a leak
"""
import hashlib
import json
import math
import os
import pathlib
import random
import re
import sqlite3
import statistics
import struct
import subprocess
import sys
import tempfile
import threading
import time

HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parent / "languages"), str(HERE)]
import check_language  # noqa: E402
from check_language import BASES, ferrule, python_says, test_decisions, test_vectors  # noqa: E402

MAXIMUM_RATIO = 1.5
ROWS = 1_000_000
ROUNDS = 7


class Refused(Exception):
    """An error of the database: its message, SQLSTATE or "", name of the status or ""."""

    def __init__(self, message, state, status):
        super().__init__(message)
        self.message, self.state, self.status = message, state, status


class Sqlite:
    name = "sqlite"

    def __init__(self, build):
        self.module = str(pathlib.Path(build, "sqlite", "mod_ferrule"))
        self.db = sqlite3.connect(":memory:", check_same_thread=False)  # a thread interrupts
        self.db.enable_load_extension(True)
        self.db.load_extension(self.module)
        self.version = "SQLite " + sqlite3.sqlite_version

    def ask(self, query, values=()):
        try:
            return self.db.execute(query, values).fetchall()
        except sqlite3.Error as error:
            status = re.search(r" \[([A-Z0-9_]+)\]$", str(error))
            raise Refused(str(error), "", status[1] if status else "") from None

    def columns(self, query):
        return [c[0] for c in self.db.execute(query).description]

    @staticmethod
    def json(text):
        return text

    @staticmethod
    def flag(word):
        return "1" if word == "true" else "0"

    @staticmethod
    def call(function, given):
        """In their order; what lies between two that are given is said to be left out."""
        parameters = function["parameters"]
        last = max((i for i, p in enumerate(parameters) if p["name"] in given), default=-1)
        values = [given.get(p["name"], literal_default(p)) for p in parameters[:last + 1]]
        return f"{function['name']}({', '.join(values)})"

    def start_afresh(self):
        pass

    def ask_and_interrupt(self, query):
        """What interrupted the query after a while, and after how many seconds; None: nothing."""
        timer = threading.Timer(0.3, self.db.interrupt)
        timer.start()
        begin = time.monotonic()
        try:
            self.ask(query)
        except Refused as refused:
            return str(refused), time.monotonic() - begin
        finally:
            timer.join()
        return None, 0

    def memory(self):
        return resident(os.getpid())

    def time(self, query):
        begin = os.times()
        self.ask(query)
        end = os.times()
        return (end.user + end.system - begin.user - begin.system) * 1000, None

    def loop(self, query, rounds):
        for _ in range(rounds):
            try:
                self.ask(query)
            except Refused:
                pass


class Postgresql:
    name = "postgresql"

    def __init__(self, build):
        import psycopg2
        import server
        self.errors = psycopg2.Error
        self.server = server.Server(build)
        try:
            self.connect = lambda: psycopg2.connect(host=self.server.environment["PGHOST"], user="postgres", dbname="postgres")
            self.start_afresh()
            self.ask("CREATE EXTENSION ferrule")
            self.version = "PostgreSQL " + self.ask("SHOW server_version")[0][0].split()[0]
        except BaseException:
            self.server.stop()
            raise

    def start_afresh(self):
        """Another process of the server, without memory that was used and given back."""
        self.db = self.connect()
        self.db.autocommit = True

    def ask(self, query, values=None):
        with self.db.cursor() as cursor:
            try:
                cursor.execute(query, values)
                return cursor.fetchall() if cursor.description else []
            except self.errors as error:
                if error.pgcode is None:
                    raise
                status = re.match(r"Status (\w+),", error.diag.message_detail or "")
                raise Refused(error.diag.message_primary, error.pgcode, status[1] if status else "") from None

    def columns(self, query):
        with self.db.cursor() as cursor:
            cursor.execute(query)
            return [c.name for c in cursor.description]

    @staticmethod
    def json(text):
        return f"{text}::json"

    @staticmethod
    def flag(word):
        return word

    @staticmethod
    def call(function, given):
        words = [f'"{name}" => {value}' for name, value in given.items()]
        return f"{function['name']}({', '.join(words)})"

    def ask_and_interrupt(self, query):
        begin = time.monotonic()
        self.ask("SET statement_timeout = '300ms'")
        try:
            self.ask(query)
        except Refused as refused:
            return refused.state, time.monotonic() - begin
        finally:
            self.ask("RESET statement_timeout")
        return None, 0

    def memory(self):
        return resident(self.ask("SELECT pg_backend_pid()")[0][0])

    def time(self, query):
        plan = self.ask("EXPLAIN (ANALYZE, TIMING OFF, FORMAT JSON) " + query)[0][0][0]
        return plan["Execution Time"], plan["Plan"]

    def loop(self, query, rounds):
        self.ask(f"DO $do$ BEGIN FOR i IN 1..{rounds} LOOP BEGIN PERFORM {query.removeprefix('SELECT ')}; "
                 "EXCEPTION WHEN data_exception THEN NULL; END; END LOOP; END $do$")


def literal_default(p):
    if p["reads"] in ("TEXT", "WORD", "JSON"):
        return text(p["default"])
    return "0" if p["default"] == "false" else p["default"]


def resident(pid):
    return int(re.search(r"VmRSS:\s+(\d+)", pathlib.Path(f"/proc/{pid}/status").read_text())[1])


def text(words):
    return "'" + str(words).replace("'", "''") + "'"


def bits(number):
    return struct.pack(">d", number).hex()


# ---- rows of the shared tables ----------------------------------------------------------------------------------

def arguments(function, row, db):
    """What a row of the tables gives, as literals for this form of the function; None: it cannot be said in it."""
    flat = dict(item.split("=", 1) for item in row["arguments"].split("; "))
    nested = test_vectors.nest(row["arguments"])
    given, used = {}, set()
    for p in function["parameters"]:
        path = p["path"]
        if path in flat:
            used.add(path)
            if p["reads"] == "NUMBER" and p["unit"]:
                given[p["name"]] = repr(base_number(flat[path]))
            else:
                given[p["name"]] = (flat[path] if p["reads"] in ("NUMBER", "WHOLE") else
                                    db.flag(flat[path]) if p["reads"] == "BOOL" else text(flat[path]))
        elif path in nested:
            used |= {name for name in flat if name.split(".")[0] == path}
            given[p["name"]] = db.json(text(json.dumps(nested[path])))
    missing = [p["name"] for p in function["parameters"] if not p["optional"] and p["name"] not in given]
    return given if used == set(flat) and not missing else None


def base_number(words):
    for kind, unit in BASES.items():
        try:
            return getattr(getattr(ferrule, kind)(words), unit)
        except ferrule.Error:
            pass
    raise ValueError(words)


def path_in(document, path):
    for name in path:
        document = document[name]
    return document


def said_by(db, function, given, row):
    """What the database says for the figure of a row: bits, a whole number, "status NAME"; None: not in this form."""
    path = row["result"].split(".")
    call = db.call(function, given)
    shape = function["shape"]
    wanted_status = row["expected"].startswith("status ")
    try:
        if shape == "ROWS":
            column = next((c for c in function["columns"] if c["path"] == row["result"]), None)
            if column is None and not wanted_status:
                return None
            name = column["name"] if column else function["columns"][0]["name"]
            value = db.ask(f'SELECT "{name}" FROM {call} AS r')[0][0]
        elif shape == "NUMBER" and not wanted_status and [c["path"] for c in function["columns"]] != [row["result"]]:
            return None
        else:
            value = db.ask(f"SELECT {call}")[0][0]
    except Refused as refused:
        return f"status {refused.status}"
    if shape == "STATUS":
        return f"status {value}" if wanted_status else ("as before" if value == "OK" else value)
    if shape == "TEXT" and function["gives"] == "JSON":
        document = json.loads(value) if isinstance(value, str) else value
        # One struct is the document itself; it may have a member of its own name, as a grip has.
        inner = document.get(path[0])
        value = path_in(document, path if len(path) == 1 or isinstance(inner, dict) and path[1] in inner else path[1:])
    if isinstance(value, str):
        value = base_number(value)
    return str(int(value)) if isinstance(value, (bool, int)) else bits(value)


def check_rows(db, functions):
    wrong = calls = nulls = 0
    shown, in_forms = 0, {}
    table = [case.values[0] for case in test_vectors.rows()]
    for row in table:
        figure = python_says(row)
        forms = 0
        for function in functions[row["function"]]:
            given = arguments(function, row, db) if function["shape"] in ("TEXT", "NUMBER", "ROWS", "STATUS") else None
            one = said_by(db, function, given, row) if given is not None else None
            if one is None:
                continue
            forms += 1
            calls += 1
            in_forms[function["shape"]] = in_forms.get(function["shape"], 0) + 1
            right = one == "as before" or check_language.same(one, figure) and check_language.near(one, row, figure)
            if not right:
                wrong += 1
                print(f"{function['name']}({row['arguments']}): {one}, not {row['expected']}; Python: {figure!r}")
            if calls % 7 == 0 and function["shape"] != "ROWS":  # a NULL for one of them gives NULL
                name = random.choice(list(given))
                nulls += 1
                call = db.call(function, given | {name: "NULL" if "json" not in given[name] else "NULL::json"})
                if db.ask(f"SELECT {call}")[0][0] is not None:
                    wrong += 1
                    print(f"{call} is not NULL")
        shown += forms > 0
    print(f"rows: {len(table)}, in some form: {shown}; calls: {calls} {in_forms}, with a NULL besides: {nulls}; wrong: {wrong}")
    return not wrong and shown == len(table) > 500, f"{shown} of {len(table)}", calls


# ---- tables of decisions ------------------------------------------------------------------------------------------

def as_literals(function, cell, db, **besides):
    """A call of a function with what a cell of the tables names, each argument as its form takes it."""
    flat = dict(item.split("=", 1) for item in filter(None, cell.split("; ")))
    nested, given = test_decisions.nest(cell), dict(besides)
    for p in function["parameters"]:
        words = flat.get(p["path"])
        if words is not None and p["reads"] == "JSON":
            given[p["name"]] = db.json(text(json.dumps(path_in(nested, p["path"].split(".")))))
        elif words is not None:
            given[p["name"]] = words if p["reads"] in ("NUMBER", "WHOLE") else db.flag(words) if p["reads"] == "BOOL" else text(words)
        elif p["name"] not in given and (p["path"] in nested or p["reads"] == "LIST"):
            given[p["name"]] = db.json(text(json.dumps(nested.get(p["path"], []))))
    return db.call(function, given)


def document_says(document, path, expected):
    """Whether a JSON document holds a word, words, a flag, a whole number or a length at a path."""
    found = path_in(document, path.split(".")[1:])
    if isinstance(expected, int) and not isinstance(expected, bool):
        return found == expected and not isinstance(found, bool)
    if isinstance(expected, (bool, ferrule.Length)):
        return found is expected if isinstance(expected, bool) else abs(base_number(found) - expected.mm) <= test_decisions.SIX_DECIMALS
    return ", ".join(map(test_decisions.plain, found if isinstance(found, list) else [found])) == expected


def check_decisions(db, functions):
    """May it be crimped, may it be accepted, and why: planned, and confirmed or inspected, in one query."""
    form = {name: next(f for f in functions[name] if f["shape"] == "TEXT") for name in ("plan_setup", "confirm_setup", "inspect_crimp",
                                                                                       "release_assembly", "check_first_piece", "judge_batch")}
    wrong, documents = 0, {}
    for row, first, order, second, given, path, expected in test_decisions.queries():
        if (order, given) not in documents:
            besides = {"setup": db.json(f"({as_literals(form[first], order, db)})")} if first else {}
            try:
                answer, = db.ask("SELECT " + as_literals(form[second], given, db, **besides))[0]
            except Refused as refused:
                answer = {"status": f"status {refused.status}"}
            documents[order, given] = json.loads(answer) if isinstance(answer, str) else answer
        document = documents[order, given]
        if document.get("status") != expected if not path else not document_says(document, path, expected):
            wrong += 1
            print(f"{row['source']}: {path} is not {expected} but {document if not path else path_in(document, path.split('.')[1:])}")
    print(f"decisions: {len(documents)} documents, wrong: {wrong}")
    return not wrong and len(documents) > 300


# ---- shapes -----------------------------------------------------------------------------------------------------

MIXED = '[16, {"size_inch": 1}, "19 mm"]'
WORKED = "12.7, 19.9, 12.95, 2.4"
TWO_OBJECTS = '[{"size" : "16 mm"}, {"size":"22 mm"}]'  # a name stands once in each
TRIALS = '[{"setting_mm": 1.51, "diameter_mm": 23.61}]'
ORDER = ('{"joint": {"hose": {"inside_mm": 12.7, "outside_inch": 0.78346456692913}, "stem": {"outside": "12.95 mm"}, '
         '"ferrule": {"wall_mm": 2.4, "outside_mm": 25.6, "length_mm": null}}, "published_mm": null}')


def check_shapes(db, functions):
    """What the tables do not reach: plain facts, by hand."""
    j = db.json
    facts = [
        ("fer_mm('5/8 in')", 15.875), ("fer_inch('41 mm')", 41 / 25.4), ("fer_mm_of_inch(1)", 25.4), ("fer_inch_of_mm(25.4)", 1),
        ("fer_mm_text(12.7)", "12.7 mm"), ("fer_inch_text(0.5, 3)", "0.500 in"), ("fer_percent(fer_percent_text(20))", 20),
        ("fer_celsius_of_fahrenheit(212)", 100),
        ("fer_mm('12,7 mm', ',')", 12.7), ("fer_mm('12.7 mm', '.')", 12.7), ("fer_mm('1½ IN')", 38.1), ("fer_inch('500 mils')", 0.5),
        ("fer_inch_text(1.25, -64)", "1 1/4 in"), ("fer_inch_text(0.3, -16)", "5/16 in"),
        (f"fer_crimp_diameter_mm({WORKED}, 0.2)", 23.51),  # 12.95 + 2 x 2.4 + 7.2 x 0.8
        (f"fer_crimp_diameter_mm({WORKED}, 0.2, 0, 0, 0, 0, 'wall')", 23.51),
        (f"fer_crimp_diameter_status({WORKED}, 0.2)", "OK"),
        ("fer_crimp_diameter_status(19.9, 12.7, 12.95, 2.4, 0.2)", "HOSE_OUTSIDE_NOT_ABOVE_INSIDE"),
        (f"fer_check_joint_ok({WORKED})", True),
        (f"fer_choose_die_die_size_mm({j(text('[16, 22, 19.5]'))}, 23.51)", 22),
        (f"fer_choose_die_die_size_mm({j(text(MIXED))}, 26)", 25.4),
        (f"fer_choose_die_found({j(text('[]'))}, 26)", False),
        (f"fer_choose_die_die_size_mm({j(text(TWO_OBJECTS))}, 23.51)", 22),
        ("fer_judge_decision(23.5, 0.02, 23.15, 23.87)", "ACCEPT"),
        # 0.10 mm too large at 1.51: 1.41; the limits may be left out
        (f"fer_correct_dial_setting_mm({j(text(TRIALS))}, 23.51)", 1.41),
        (f"fer_correct_dial_setting_mm({j(text(TRIALS))}, 23.51, 0, 0, 23, 24)", 1.41),
        (f"fer_correct_dial_status({j(text(TRIALS))}, 23.51, 0, 0, 24, 23)", "LIMIT_WRONG_ORDER"),
        ("fer_status_sentence('die above diameter')", "die size is above the crimp diameter"),
        (f"fer_crimp_diameter_mm({WORKED}, NULL)", None), ("fer_mm(NULL)", None),
        (f"fer_draw_joint_status({WORKED}, {j(text('{}'))}, 23.51, 0)", "OK"),
    ]
    facts.append(("(SELECT fer_choose_die_over(s, 23.51) ->> 'index' FROM (SELECT 16.0 AS s UNION ALL SELECT NULL UNION ALL "
                  "SELECT 22.0) AS d)", 1))
    facts += [("(SELECT fer_mm(fer_summarise_readings_over(d) ->> 'mean') FROM (SELECT 23.5 AS d UNION ALL SELECT 23.54) AS r)", 23.52),
              ("(SELECT fer_summarise_readings_over(d) FROM (SELECT 23.5 AS d WHERE 1 = 0) AS r)", None),
              ("(SELECT fer_summarise_readings_over(d) ->> 'count' FROM (SELECT 23.5 AS d UNION ALL SELECT NULL) AS r)", 1),
              ("(SELECT fer_mm(fer_correct_dial_over(s, d, 23.51) ->> 'setting') FROM (SELECT CAST(NULL AS double precision) AS s, CAST(NULL AS double precision) AS d UNION ALL SELECT 1.51, 23.61) AS r)",
               1.41),
              ("(SELECT fer_choose_die_over(s, t) FROM (SELECT 16.0 AS s, CAST(NULL AS double precision) AS t UNION ALL SELECT 22, NULL) AS d)", None),
              ("(SELECT sum(upper_mm - lower_mm) FROM " + f"fer_find_coverage_gaps_rows({j(text('[16, 30]'))}, 10, 40) AS g)", 6 + 7 + 3),
              ("(SELECT count(*) FROM " + f"fer_find_coverage_gaps_rows({j('NULL')}, 10, 40) AS g)", 0),
              ("(SELECT count(*) FROM " + f"fer_choose_die_row({j('NULL')}, 40) AS g)", 1),
              (f"(SELECT dial_setting_mm FROM fer_plan_setup_row({j(text(ORDER))}, {j(text('[16, 22]'))}, 0.05) AS s)", 1.5),
              (f"(SELECT remarks FROM fer_plan_setup_row({j(text(ORDER))}, {j(text('[16, 22]'))}, 0.05) AS s)",
               ["TARGET_COMPUTED", "APPROVAL_NOT_STATED", "OPENING_NOT_KNOWN", "INSERTION_NOT_GIVEN", "UNCERTAINTIES_NOT_GIVEN",
                "GAUGE_TAKEN_AS_EXACT"])]
    if db.name == "postgresql":
        facts += [("fer_choose_die_die_size_mm(ARRAY[16, 22, 19.5], 23.51)", 22), ("fer_choose_die_found(ARRAY[]::float8[], 26)", False),
                  ("(fer_choose_die_row(ARRAY[16, 22], 23.51)).offset_mm", 23.51 - 22),
                  ("fer_choose_die(ARRAY['16 mm', '22 mm'], '23.51 mm') ->> 'offset'", f"{23.51 - 22!r} mm"),
                  ("(SELECT bool_and(provolatile = 'i' AND proisstrict AND proparallel = 's') FROM pg_proc WHERE proname LIKE 'fer\\_%' "
                   "AND prokind = 'f' AND NOT 'internal'::regtype = ANY(proargtypes) AND proname <> 'fer_plan_setups_rows')", True)]
        there = {name for name, in db.ask("SELECT proname FROM pg_proc WHERE proname LIKE 'fer\\_%'")}
    else:
        # SQLITE_DETERMINISTIC and SQLITE_INNOCUOUS of every function
        facts.append(("(SELECT count(*) FROM pragma_function_list WHERE name LIKE 'fer\\_%' ESCAPE '\\' AND flags & 0x200800 <> 0x200800)", 0))
        db.ask("CREATE TABLE checked (x REAL, y REAL AS (fer_inch_of_mm(x)) STORED, CHECK (fer_check_joint_ok(x, 19.9, 12.95, 2.4)))")
        db.ask("CREATE INDEX of_inches ON checked (fer_inch_of_mm(x))")
        db.ask("PRAGMA trusted_schema = OFF")
        db.ask("INSERT INTO checked VALUES (12.7)")
        facts.append(("(SELECT y FROM checked)", 0.5))
        there = {name for name, in db.ask("SELECT DISTINCT name FROM pragma_function_list UNION SELECT name FROM pragma_module_list")}
    passed = True
    for expression, wanted in facts:
        got = db.ask(f"SELECT {expression}")[0][0]
        if isinstance(wanted, list) and isinstance(got, str):
            got = json.loads(got)
        if isinstance(wanted, (int, float)) and not isinstance(wanted, bool):
            got = float(got)
        same = got == wanted if not isinstance(wanted, float) else math.isclose(got, wanted, rel_tol=1e-14)
        if not same:
            passed = False
            print(f"{expression} is {got!r}, not {wanted!r}")
    missing = {f["name"] for rows in functions.values() for f in rows} - there
    print(f"shapes: {len(facts)} facts; functions that are not there: {sorted(missing)}")
    return passed and not missing


# ---- set-ups of the rows of a query ------------------------------------------------------------------------------

WORKPLACES = ('[{"press": {"graduation": "0.05 mm", "opening_mm": 20, "capacity": "400 kN"}, "dies": ["16 mm", {"size_mm": 22}, 19, "25 mm"]},'
              ' {"press": {}, "dies": []}]')
SETUP_QUERY = ("SELECT number AS row_key, press AS workplace, inside AS hose_inside_mm, outside AS hose_outside_mm, 12.95 AS stem_outside_mm, "
               "'2.4 mm' AS ferrule_wall_mm, 25.6 AS ferrule_outside_mm, published AS published_mm, 0.2 AS tolerance_mm, approval, "
               "amount AS hose_inside_amount_mm, amount AS hose_outside_amount_mm, other AS diameter_amount_mm, 0.01 AS gauge_standard_uncertainty_mm, "
               "1 = 0 AS guard_without, 30 AS ferrule_length_mm, metal AS ferrule_metal_elastic_modulus_mpa, CASE WHEN metal > 0 THEN 0.3 END AS "
               "ferrule_metal_poisson_fraction, CASE WHEN metal > 0 THEN 300 END AS ferrule_metal_yield_strength_mpa FROM orders_to_plan ORDER BY number")
# query, workplaces (None: those above), what the message says
BAD_SETUPS = [
    ("SELECT 1 AS hose_inside_cm", None, ["hose_inside_cm", "hose_inside_mm"]), ("DELETE FROM orders_to_plan", None, ["DELETE"]),
    ("SELECT 1 AS tolerance_mm, 2 AS tolerance_mm", None, ["tolerance_mm stands twice"]), ("SELECT FROM WHERE", None, ["syntax error"]),
    (SETUP_QUERY, "[]", ["workplaces", "at least one press"]), (SETUP_QUERY, '[{"press": {}}]', ["workplaces[0]", "press and dies"]),
    (SETUP_QUERY, '[{"press": {"graduation": "0.05"}, "dies": []}]', ["workplaces[0]", "graduation", "'0.05'"]),
    (SETUP_QUERY, '[{"press": {}, "dies": ["x"]}]', ["workplaces[0]", "'x'"]), (SETUP_QUERY, "[{", ["workplaces is not JSON"])]


def orders_to_plan(rows):
    """So many orders, one in seven odd."""
    odd = [{"inside": None}, {"outside": 12.7}, {"published": None}, {"press": 1}, {"press": 2}, {"approval": "not approved"}, {"approval": "maybe"},
           {"amount": 0.05, "other": 0.05}, {"amount": 0.05}, {"metal": 206000.0}, {"published": -1.0}, {"press": None, "approval": None}]
    found = []
    for i in range(rows):
        row = {"number": i, "press": 0, "inside": 12.7 + 0.001 * random.random(), "outside": 19.9 + 0.1 * random.random(), "published": 23.5, "approval":
               "approved", "amount": None, "other": None, "metal": None}
        found.append(row | (odd[i // 7 % len(odd)] if i % 7 == 0 else {}))
    return found


def same_figure(got, wanted, word):
    """A figure of the database and one of ferrule.bulk: NULL is NaN, or 0 of a whole number; a word its number, a list of words a set."""
    if isinstance(got, str) and got.startswith("["):
        got = json.loads(got)
    if isinstance(got, list):
        return sum(1 << int(word[name]) for name in got) == int(wanted)
    if isinstance(got, str):
        return int(word[got]) == int(wanted)
    return wanted != wanted or wanted.dtype.kind != "f" and not wanted if got is None else float(got) == float(wanted)


def check_setups(db):
    """More rows than two blocks."""
    import numpy
    from ferrule import bulk
    rows = orders_to_plan(700)
    press = ferrule.Press(graduation="0.05 mm", opening="20 mm", capacity="400 kN")
    column = lambda name: numpy.array([numpy.nan if row[name] is None else row[name] for row in rows], float)
    number = {"approved": 1, "not approved": 2, "maybe": -1, None: 0}
    expected = bulk.plan_setup(
        hose_inside_mm=column("inside"), hose_outside_mm=column("outside"), stem_outside_mm=12.95, ferrule_wall_mm=2.4, ferrule_outside_mm=25.6,
        published_mm=column("published"), tolerance_mm=0.2, approval=numpy.array([number[row["approval"]] for row in rows]), ferrule_length_mm=30,
        hose_inside_amount_mm=column("amount"), hose_outside_amount_mm=column("amount"), diameter_amount_mm=column("other"),
        gauge_standard_uncertainty_mm=0.01, ferrule_metal_elastic_modulus_mpa=column("metal"), ferrule_metal_poisson_fraction=0 * column("metal") + 0.3,
        ferrule_metal_yield_strength_mpa=0 * column("metal") + 300, workplaces=[(press, ["16 mm", "22 mm", "19 mm", "25 mm"]), (ferrule.Press(), ())],
        workplace=[row["press"] or 0 for row in rows])
    db.ask("CREATE TABLE orders_to_plan (number INTEGER, press INTEGER, inside double precision, outside double precision, published double precision, "
           "approval TEXT, amount double precision, other double precision, metal double precision)")
    for row in rows:
        values = ", ".join("NULL" if v is None else text(v) if isinstance(v, str) else repr(v) for v in row.values())
        db.ask(f"INSERT INTO orders_to_plan VALUES ({values})")
    words = {"readiness": ferrule.Readiness, "remarks": ferrule.Remark, "cautions": ferrule.Caution, "confirmed": ferrule.Remark,
             "source": ferrule.TargetSource, "hose_limits_which": ferrule.HoseLimit}
    names = [name for name in expected._fields if name in setup_columns(db) and name not in ("status", "path")]
    found = db.ask(f"SELECT row_number, row_key, status, path, {', '.join(names)} FROM fer_plan_setups_rows({text(SETUP_QUERY)}, {text(WORKPLACES)})")
    wrong = [] if len(found) == len(rows) else [f"{len(found)} rows"]
    for i, (row_number, key, status, path, *figures) in enumerate(found):
        failed = int(expected.status[i])
        right = row_number == i + 1 and str(key) == str(i) and ferrule.Status[status] == failed and path == expected.path[i]
        bad = [n for n, got in zip(names, figures) if not (got is None if failed else same_figure(
            got, getattr(expected, n)[i], words.get(n) or word_of_column(n)))]
        if not right or bad:
            wrong.append(f"row {i}: {status} {path}, not {failed} {expected.path[i]}; {bad}")
    statuses = {row[2] for row in found}
    for query, workplaces, shown in BAD_SETUPS:
        try:
            wrong.append(f"{query}, {workplaces} gave {db.ask(f'SELECT count(*) FROM fer_plan_setups_rows({text(query)}, {text(workplaces or WORKPLACES)})')}")
        except Refused as refused:
            if not all(part in refused.message for part in shown):
                wrong.append(f"{query}, {workplaces}: {refused.message}, and was to say {shown}")
    if db.ask("SELECT count(*) FROM orders_to_plan")[0][0] != len(rows) or db.ask(
            f"SELECT count(*) FROM fer_plan_setups_rows(NULL, {text(WORKPLACES)})")[0][0] != 0:
        wrong.append("rows are gone, or NULL is a query")
    print(f"set-ups of rows: {len(found)}, {len(names)} columns, {len(statuses)} statuses; wrong: {len(wrong)}", *wrong[:5], sep="\n")
    return not wrong and len(names) > 60 and len(statuses) >= 6


def setup_columns(db):
    """The columns of the rows that the database gives."""
    return db.columns(f"SELECT * FROM fer_plan_setups_rows({text('SELECT 1 AS workplace')}, {text(WORKPLACES)})")


def word_of_column(name):
    """The enum of a column of words, by the last word of its name."""
    return {"side": ferrule.Side, "applies_to": ferrule.AppliesTo, "compression_source": ferrule.CompressionSource,
            "largest_measurement": ferrule.Measurement}.get(name.removeprefix("zone_"))


# ---- bad calls --------------------------------------------------------------------------------------------------

DIAMETER = "fer_crimp_diameter('12.7 mm', '19.9 mm', '12.95 mm', '2.4 mm', {})"
NUMBERS = "fer_crimp_diameter_mm({}, 0.2)"
# call with {json ...} for a JSON literal: status, SQLSTATE, what the message says
BAD = {
    "missing unit": (DIAMETER.format("'20'"), "TEXT_UNIT_MISSING", "22P02", ["fer_crimp_diameter", "compression", "'20'", "20 %"]),
    "other kind": (DIAMETER.format("'41 mm'"), "TEXT_UNIT_OTHER_KIND", "22P02", ["compression", "'41 mm'", "fraction, percent"]),
    "no text": (DIAMETER.format("''"), "TEXT_EMPTY", "22P02", ["compression", "no text"]),
    "no number": (DIAMETER.format("'NaN'"), "TEXT_NUMBER_MISSING", "22P02", ["compression", "'NaN'"]),
    "too long text": (DIAMETER.format("'" + "1" * 2000 + " %'"), "TEXT_TOO_LONG", "22P02", ["compression", "1000 bytes"]),
    "unknown word": (DIAMETER.format("'20 %', '', '', '', '', 'wal'"), "", "22023", ["model_basis", "FITTED_WALL", "'wal'"]),
    "rule": (NUMBERS.format("12.7, 19.9, 19.9, 2.4"), "STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE", "22023",
             ["fer_crimp_diameter_mm", "stem: {outside: 19.9 mm}", "not below"]),
    "range": (NUMBERS.format("-1, 19.9, 12.95, 2.4"), "HOSE_INSIDE_OUT_OF_RANGE", "22003", ["inside: -1 mm", "1,000,000 mm"]),
    "infinity": (NUMBERS.format("{infinity}, 19.9, 12.95, 2.4"), "HOSE_INSIDE_OUT_OF_RANGE", "22003", ["inside: inf mm"]),
    "empty list": ("fer_summarise_readings({json []})", "ARGUMENT_COUNT_ZERO", "22023", ["fer_summarise_readings", "empty"]),
    "not JSON": ("fer_choose_die_found({json [16, 22}, 23.5)", "", "22023", ["dies is not JSON"]),
    "not a list": ("fer_choose_die_found({json {\"size\": \"16 mm\"}}, 23.5)", "", "22023", ["dies has to be a list"]),
    "bare number": ("fer_choose_die({json [16]}, '23.5 mm')", "", "22023", ["dies[0]", "16 mm"]),
    "null in list": ("fer_choose_die({json [\"16 mm\", null]}, '23.5 mm')", "", "22023", ["dies[1]", "null"]),
    "unknown member": ("fer_choose_die({json [{\"size_mm\": 16, \"width_mm\": 3}]}, '23.5 mm')", "", "22023", ["dies[0]", "width_mm"]),
    "given twice": ("fer_choose_die({json [{\"size_mm\": 16, \"size\": \"16 mm\"}]}, '23.5 mm')", "", "22023", ["size_mm"]),
    "unit of the item": ("fer_choose_die({json [{\"size\": \"16\"}]}, '23.5 mm')", "TEXT_UNIT_MISSING", "22P02", ["dies[0].size", "'16'"]),
    "missing member": ("fer_conforming_share_inside_fraction(12.7, 19.9, 12.95, 2.4, {json {\"hose_inside\": 3}}, 0.15, 0.25, 23.5)", "",
                       "22023", ["uncertainties.hose_inside"]),
    "too large": ("fer_lobe_height_mm(23.5, 22, 5000000000)", "", "22023", ["segments", "out of range"]),
    "empty uncertainties": ("fer_conforming_share_inside_fraction(12.7, 19.9, 12.95, 2.4, {json {}}, 0.15, 0.25, 23.5)", "UNCERTAINTY_EMPTY", "22023",
                     ["fer_conforming_share_inside_fraction"]),
    "too many blocks": ("fer_simulate_shares(" + "'12.7 mm', '19.9 mm', '12.95 mm', '2.4 mm', {json {\"hose_inside\": {\"amount\": \"0.1 mm\"}}},"
                        " '15 %', '25 %', '23.5 mm', '', '', '', '', '', '', 0, 0, 100000)", "TRIALS_BLOCKS_OUT_OF_RANGE", "22003", ["trials"]),
    "name twice": ("fer_choose_die({json " + '[{"size": "16 mm", "adapter": 1, "size": "22 mm"}]' + "}, '23.5 mm')", "", "22023",
                   ["fer_choose_die", 'dies has "size" twice']),
    "name twice, deeper": ("fer_plan_setup({json " + '{"hose": 1, "joint": {"hose": {"inside": "1 mm", "inside" :"2 mm"}}}' + "}, {json []}, '0.05 mm')",
                           "", "22023", ["fer_plan_setup", 'order has "inside" twice']),
    "name twice, once as an escape": ("fer_choose_die({json " + '[{"size": "16 mm", "\\u0073ize": "22 mm"}]' + "}, '23.5 mm')", "", "22023",
                                      ["dies has a name twice"]),
    "name twice in a long text": ("fer_choose_die({json [" + '"16 mm", ' * 4000 + '{"size": "16 mm", "size": "22 mm"}]' + "}, '23.5 mm')", "",
                                  "22023", ["dies has a name twice"]),
    "deep JSON": ("fer_choose_die({json " + "[" * 500 + "]" * 500 + "}, '23.5 mm')", "", "22023", ["dies is not JSON"]),
    "aggregate": ("fer_summarise_readings_over(d) FROM (SELECT 23.5 AS d UNION ALL SELECT -1) AS r", "READING_OUT_OF_RANGE", "22003",
                  ["fer_summarise_readings_over"]),
    "reading without its section": ("fer_summarise_readings_over(d, s, 0, 1 = 0) FROM (SELECT 23.5 AS d, 1 AS s UNION ALL SELECT 23.6, NULL) AS r", "",
                                    "22023", ["fer_summarise_readings_over", "section is NULL", "diameter_mm is not"]),
    "die without its reach": ("fer_choose_die_over(s, 23.51, r, 0, 0) FROM (SELECT 16.0 AS s, NULL AS r UNION ALL SELECT 22, 7.0) AS t", "",
                              "22023", ["fer_choose_die_over", "reach_mm is NULL"]),
    "diameter without its setting": ("fer_correct_dial_over(s, d, 23.51) FROM (SELECT 1.5 AS s, 23.6 AS d UNION ALL SELECT NULL, 23.7) AS t", "",
                                     "22023", ["fer_correct_dial_over", "setting_mm is NULL", "diameter_mm is not"]),
    "target of some rows": ("fer_choose_die_over(s, t) FROM (SELECT 16.0 AS s, 23.51 AS t UNION ALL SELECT 22, NULL) AS t", "", "22023",
                            ["fer_choose_die_over", "target_mm is for all rows"]),
    "target of later rows": ("fer_choose_die_over(s, t) FROM (SELECT 16.0 AS s, CAST(NULL AS double precision) AS t UNION ALL SELECT 22, 23.51) AS t", "", "22023",
                             ["fer_choose_die_over", "target_mm is for all rows"]),
    "rows": ("* FROM fer_find_coverage_gaps_rows({json [16]}, 60, 10) AS g", "DIAMETER_RANGE_WRONG_ORDER", "22023",
             ["fer_find_coverage_gaps_rows", "lower"]),
    "unit function": ("fer_mm('5/8 bar')", "TEXT_UNIT_OTHER_KIND", "22P02", ["fer_mm", "'5/8 bar'"]),
    "decimal comma": ("fer_mm('12,7 mm')", "TEXT_COMMA", "22P02", ["fer_mm", "'12,7 mm'", "say that the comma"]),
    "point beside a comma": ("fer_mm('1.234 mm', ',')", "TEXT_POINT", "22P02", ["fer_mm", "'1.234 mm'"]),
    "another decimal sign": ("fer_mm('12;7 mm', ';')", "", "22023", ["fer_mm", "decimal", "'.' or ','"]),
    "parts of a fraction": ("fer_mm_text(1, -3)", "TEXT_DECIMALS_OUT_OF_RANGE", "22P02", ["fer_mm_text"]),
    "decimals": ("fer_mm_text(1, 99)", "TEXT_DECIMALS_OUT_OF_RANGE", "22P02", ["fer_mm_text", "99"]),
    "limits": ("fer_judge_decision(23.5, 0.01, 23.87, 23.15)", "LIMIT_WRONG_ORDER", "22023",
               ["(limits: {lower: 23.87 mm, upper: 23.15 mm})"]),
    "left out": ("fer_judge_decision(23.5, -1, 23.15, 23.87)", "UNCERTAINTY_OUT_OF_RANGE", "22003",
                 ["standard_uncertainty: '-1 mm', limits: {lower: 23.15 mm, upper: 23.87 mm})"]),
    "too far": ("fer_mm_of_foot(1e308)", "TEXT_VALUE_NOT_FINITE", "22P02", ["fer_mm_of_foot", "1e+308"]),
}
BAD_SQLITE = {
    "arity": ("fer_crimp_diameter_mm(12.7, 19.9)", "", "", ["fer_crimp_diameter_mm", "compression_fraction", "2 given"]),
    "too many": ("fer_check_joint_ok(1, 2, 3, 4, 5, 6, 7, 8, 9)", "", "", ["fer_check_joint_ok", "9 given"]),
    "text for number": (NUMBERS.format("'12.7 mm', 19.9, 12.95, 2.4"), "", "", ["hose_inside_mm", "number in the unit mm", "'12.7 mm'"]),
    "number for text": (DIAMETER.format("20"), "", "", ["compression", "20 %"]),
    "bytes": (NUMBERS.format("x'00ff', 19.9, 12.95, 2.4"), "", "", ["hose_inside_mm", "bytes"]),
    "zero byte": (DIAMETER.format("'20 %' || char(0)"), "TEXT_UNIT_UNKNOWN", "", ["compression", "'20 %?'"]),
    "JSON without its end": ("fer_choose_die('[\"16 mm\"', '23.5 mm')", "", "", ["dies is not JSON", "byte 8", "[..., ...]"]),
    "zero byte in JSON": ("fer_choose_die('[' || char(0) || ']', '23.5 mm')", "", "", ["dies is not JSON"]),
    "bad UTF-8": (DIAMETER.format("CAST(x'3230ff' AS TEXT)"), "TEXT_UNIT_UNKNOWN", "", ["compression"]),
    "rows without argument": ("* FROM fer_find_coverage_gaps_rows('[16]', 60)", "", "", ["fer_find_coverage_gaps_rows", "over_upper_mm"]),
    "infinity in JSON": ("fer_choose_die_found('[1e999]', 23.5)", "TEXT_NUMBER_MISSING", "", ["dies[0]", "Infinity"]),
}
BAD_POSTGRESQL = {
    "arity": ("fer_crimp_diameter_mm(12.7, 19.9)", "", "42883", ["fer_crimp_diameter_mm"]),
    "NaN": (NUMBERS.format("'NaN', 19.9, 12.95, 2.4"), "HOSE_INSIDE_OUT_OF_RANGE", "22003", ["inside: nan mm"]),
    "empty array": ("fer_summarise_readings(ARRAY[]::text[])", "ARGUMENT_COUNT_ZERO", "22023", ["empty"]),
    "NaN in an array": ("fer_choose_die_found(ARRAY['NaN'::float8], 23.5)", "TEXT_NUMBER_MISSING", "22P02", ["dies[0]", "'NaN'"]),
    "NULL in an array": ("fer_choose_die_found(ARRAY[16, NULL], 23.5)", "", "22023", ["dies[1]", "null"]),
    "unit in an array": ("fer_choose_die(ARRAY['16 mm', '19'], '23.5 mm')", "TEXT_UNIT_MISSING", "22P02", ["dies[1]", "'19'"]),
    "text for number": (NUMBERS.format("'12.7 mm', 19.9, 12.95, 2.4"), "", "22P02", ["12.7 mm"]),
    "overflow": ("fer_choose_die_found('[1e999]'::json, 23.5)", "TEXT_NUMBER_MISSING", "22P02", ["dies[0]", "Infinity"]),
}


def bad_calls(db):
    return BAD | (BAD_SQLITE if db.name == "sqlite" else BAD_POSTGRESQL)


def bad_query(db, call):
    call = re.sub(r"\{json (.*?)\}(?=[,)]($|,| )|,|\)$)", lambda m: db.json(text(m[1])), call)
    return "SELECT " + call.replace("{infinity}", "9e999" if db.name == "sqlite" else "'Infinity'")


def check_bad(db):
    passed = True
    cases = bad_calls(db)
    for name, (call, status, state, shown) in cases.items():
        query = bad_query(db, call)
        if db.name == "postgresql" and name in ("not JSON",):
            status, state, shown = "", "22P02", ["json"]  # the type json says it before
        try:
            got = db.ask(query)
            print(f"{name}: {query[:200]} gave {got}")
            passed = False
        except Refused as refused:
            right = refused.status == status and (refused.state == state or db.name == "sqlite")
            right &= all(part in refused.message for part in shown)
            if not right:
                passed = False
                print(f"{name}: {refused.state} {refused.status}: {refused.message}\nand was to be: {state} {status}, {shown}")
    print(f"bad calls: {len(cases)}")
    return passed, len(cases)


# ---- what nothing stops ------------------------------------------------------------------------------------------

NO_OUTSIDE = '{"joint": {"hose": {"inside": "12.7 mm"}, "stem": "12.95 mm", "ferrule": "2.4 mm"}}'
# function without its end and arguments: status, what the message says
UNSTOPPED = [
    ("fer_crimp_diameter", f"{WORKED}, 0.2", "OK", None),
    ("fer_crimp_diameter", "0, 19.9, 12.95, 2.4, 0.2", "HOSE_INSIDE_MISSING", ["hose inside diameter is not given"]),
    ("fer_crimp_diameter", "'12.7 mm', '19.9 mm', '12.95 mm', '2.4 mm', '20 %'", "OK", None),
    ("fer_crimp_diameter", "'12.7 mm', '19.9 mm', '12.95 mm', '2.4', '20 %'", "TEXT_UNIT_MISSING", ["ferrule_wall", "'2.4'"]),
    ("fer_crimp_diameter", "'twelve', '19.9 mm', '12.95 mm', '2.4 mm', '20 %'", "TEXT_NUMBER_MISSING", ["hose_inside", "'twelve'"]),
    ("fer_crimp_diameter", f"{WORKED}, 0.2, 0, 0, 0, 0, 'wal'", "ARGUMENT_UNREADABLE", ["model_basis", "'wal'"]),
    ("fer_plan_setup", f"{text(ORDER)}, '[\"22 mm\"]'", "OK", None),
    ("fer_plan_setup", f"{text(NO_OUTSIDE)}, '[]'", "HOSE_OUTSIDE_MISSING", ["joint.hose", "outside"]),
    ("fer_plan_setup", text(NO_OUTSIDE.replace('"12.7 mm"', '"12.7 mm", "outside": null')) + ", '[]'", "HOSE_OUTSIDE_MISSING",
     ["joint.hose", "outside"]),
    ("fer_plan_setup", f"{text(ORDER)}, '[{{}}]'", "DIE_SIZE_MISSING", ["dies[0]", "size"]),
    ("fer_plan_setup", f"{text(ORDER[:-1])}, '[]'", "ARGUMENT_UNREADABLE", ["order is not JSON"]),
    ("fer_plan_setup", f"{text(ORDER)}, '[\"x\"]'", "TEXT_NUMBER_MISSING", ["dies[0]", "'x'"]),
    ("fer_plan_setup", text(ORDER.replace('"joint"', '"joints"')) + ", '[]'", "ARGUMENT_UNREADABLE", ["joints"]),
    ("fer_mm", "'5/8 in'", "OK", None),
    ("fer_mm", "'5/8 bar'", "TEXT_UNIT_OTHER_KIND", ["'5/8 bar'"]),
    ("fer_mm", "''", "TEXT_EMPTY", ["no text"]),
]


def check_unstopped(db):
    passed = True
    for name, given, status, shown in UNSTOPPED:
        said, message = db.ask(f"SELECT {name}_status({given}), {name}_error({given})")[0]
        right = said == status and (message is None if shown is None else message is not None and all(part in message for part in shown))
        if not right:
            passed = False
            print(f"{name}({given}): {said}, {message}\nand was to be: {status}, {shown}")
    # a whole column of text, of which one row cannot be read
    rows = "(SELECT '12 mm' AS t UNION ALL SELECT 'a dozen' UNION ALL SELECT '1/2 in') AS r"
    counted = db.ask(f"SELECT count(*) FROM {rows} WHERE fer_mm_status(t) = 'OK'")[0][0]
    summed = db.ask(f"SELECT sum(CASE WHEN fer_mm_error(t) IS NULL THEN fer_mm(t) END) FROM {rows}")[0][0]
    print(f"calls that nothing stops: {len(UNSTOPPED)}")
    return passed and counted == 2 and abs(summed - 24.7) < 1e-9


# ---- arguments of every sort ------------------------------------------------------------------------------------

ODD = {
    "NUMBER": ["0", "1", "-1", "12.7", "19.9", "23.5", "1e-300", "1e308", "-0.0", "0.2", "2.4", "NULL"],
    "WHOLE": ["0", "1", "-1", "2", "8", "64", "65", "-9223372036854775807", "9223372036854775807", "4294967296", "NULL"],
    "BOOL": ["1 = 1", "1 = 0", "NULL"],
    "TEXT": ["'12.7 mm'", "'20 %'", "','", "'12,7 mm'", "''", "' '", "'1/0 in'", "'-5 mm'", "'206 GPa'", "'1e400 mm'", "'µ'", "'" + "9" * 5000 + "'", "NULL"],
    "WORD": ["'wall'", "'free'", "''", "'OK'", "'fitted wall'", "'" + "x" * 5000 + "'", "'accept'", "NULL"],
    "JSON": ["'{}'", "'[]'", "'null'", "'3'", "'\"12 mm\"'", "'{\"joint\": 3}'", "'[[[[[[1]]]]]]'", text(ORDER),
             "'{\"hose_inside\": {\"amount\": \"0.1 mm\"}}'", "'{\"value\": 3}'", "NULL"],
    "LIST": ["'[]'", "'[16, 19]'", "'[\"16 mm\", \"19 mm\"]'", "'[null]'", "'[{}]'", "'[[1, 2], [3]]'", "'{}'", "'7'",
             "'[{\"size_mm\": 16}]'", "'[{\"diameter\": \"23.5 mm\"}, \"23.6 mm\"]'", "NULL"],
}


def odd_value(p, rounds, db):
    reads = p.get("reads") or ("TEXT" if p["name"] in ("text", "decimal") else "WHOLE" if p["name"] == "decimals" else "NUMBER")
    if "trials_blocks" in p["name"] or "digits" in p["name"]:
        return rounds.choice(["0", "1", "2"])
    if db.name == "sqlite":
        if rounds.random() < 0.2:
            return rounds.choice(["x'00'", "3", "'[]'", "char(0)", "9e999", "CAST(x'ff' AS TEXT)", "1.5", "NULL"])
        return rounds.choice(ODD[reads])
    return f"({rounds.choice(ODD[reads])})" + {"NUMBER": "::float8", "WHOLE": "::int8", "BOOL": "::bool", "TEXT": "::text",
                                              "WORD": "::text", "JSON": "::json", "LIST": "::json"}[reads]


def never_stops(function, given, db):
    """A status or a message is given for every argument; what PostgreSQL itself cannot read as JSON does not come so far."""
    gives = re.search("STATUS|ERROR", function["shape"]) is not None
    return gives and not (db.name == "postgresql" and any("::json" in words for words in given))


def check_odd(db, functions, rounds):
    chance = random.Random(8)
    calls = refused = 0
    for function in [f for rows in functions.values() for f in rows]:
        for _ in range(rounds):
            parameters = function["parameters"]
            counts = [len(parameters)] if function["shape"] == "AGGREGATE" else range(function["required"], len(parameters) + 1)
            given = [odd_value(p, chance, db) for p in parameters[:chance.choice(list(counts))]]
            call = f"{function['name']}({', '.join(given)})"
            query = f"SELECT * FROM {call} AS r" if function["shape"] == "ROWS" else f"SELECT {call} FROM (SELECT 1 UNION ALL SELECT 2) AS t"
            calls += 1
            try:
                db.ask(query)
            except Refused as error:
                refused += 1
                if never_stops(function, given, db):
                    print(f"{query[:300]}: {error.message}: nothing was to stop it")
                    return False, calls
                # XX000 is an inner error, 58 and 57 one of the system
                if db.name == "postgresql" and error.state[:2] != "22" or "memory" in error.message:
                    print(f"{query[:300]}: {error.state} {error.message}")
                    return False, calls
    print(f"odd calls: {calls}, refused: {refused}; and the database goes on: {db.ask('SELECT fer_version()')[0][0]}")
    return True, calls


# ---- memory -----------------------------------------------------------------------------------------------------

FAILING = ["rule", "missing unit", "unit of the item", "null in list", "unknown word", "deep JSON", "aggregate", "missing member",
           "empty list", "unknown member", "rows"]


SHOP = ('{"joint": {"hose": {"inside_mm": 12.7, "outside_mm": 19.9}, "stem": {"outside_mm": 12.95}, "ferrule": {"wall_mm": 2.4, '
        '"outside_mm": 25.6}}, "uncertainties": {"hose_inside": {"amount_mm": 0.08}}}')


def check_interrupt(db, functions):
    """Trials that would take ten seconds and more, in a call and over rows; in SQLite also a long list, by a function that interrupts."""
    forms = {f["name"]: f for f in functions["simulate_setups"]}
    given = {"order": db.json(text(SHOP)), "dies": db.json(text('["16 mm", "22 mm"]')), "trials_blocks": "1000"}
    over = forms["fer_simulate_setups_over"]
    figures = given | {"size_mm": "s", "press_graduation_mm": "0.05"}
    values = [figures.get(p["name"]) or ("1 = 0" if p["default"] == "false" else literal_default(p)) for p in over["parameters"]]
    queries = ["SELECT " + db.call(forms["fer_simulate_setups"], given | {"press_graduation": "'0.05 mm'"}),
               "SELECT " + db.call(forms["fer_simulate_setups_status"], given | {"press_graduation_mm": "0.05"}),
               f"SELECT fer_simulate_setups_over({', '.join(values)}) FROM (SELECT 16.0 AS s UNION ALL SELECT 22) AS r"]
    wanted = "interrupted" if db.name == "sqlite" else "57014"
    passed = True
    for query in queries:
        found, seconds = db.ask_and_interrupt(query)
        passed &= found == wanted and seconds < 3 and db.ask("SELECT fer_mm('1 in')")[0][0] == 25.4
        if not passed:
            print(f"{query}\n  gives {found} after {seconds:.1f} s")
    if db.name == "sqlite":
        passed &= check_interrupt_in_a_list(db)
    print("interrupt: " + ("long calls end" if passed else "WRONG"))
    return passed


def check_interrupt_in_a_list(db):
    """SQLite itself looks for interrupts between rows only: what comes after our function in the same row is called, unless ours ended."""
    called = []
    db.db.create_function("interrupt_now", 0, db.db.interrupt)
    db.db.create_function("note", 1, called.append)
    for count in (10, 10000):
        dies = text("[" + "16," * count + "16]")
        try:
            db.ask(f"SELECT interrupt_now(), note(fer_choose_die_found({dies}, 16.5))")
        except Refused as refused:
            if str(refused) != "interrupted":
                return False
    return called == [1]


def check_failing(db, rounds=200_000):
    """The first quarter lets the process find its size; then all of them."""
    names = FAILING + (["NULL in an array", "unit in an array"] if db.name == "postgresql" else [])
    queries = [bad_query(db, bad_calls(db)[name][0]) for name in names]
    db.start_afresh()
    for query in queries:
        db.loop(query, rounds // 4 // len(queries))
    before = db.memory()
    for query in queries:
        db.loop(query, rounds // len(queries))
    after = db.memory()
    print(f"{rounds} failing calls: {before} kB before, {after} kB after")
    return after - before <= 256, f"{before} kB before, {after} kB after"


# ---- a million rows ---------------------------------------------------------------------------------------------

PLAIN = "stem_outside_mm + 2 * ferrule_wall_mm + (hose_outside_mm - hose_inside_mm) * (1 - compression)"
OURS = "fer_crimp_diameter_mm(hose_inside_mm, hose_outside_mm, stem_outside_mm, ferrule_wall_mm, compression)"


def make_rows(db):
    columns = ("12.7 + (i % 97) * 0.001", "19.9 + (i % 89) * 0.001", "12.95 + (i % 83) * 0.001", "2.4 + (i % 71) * 0.0005",
               "0.15 + (i % 101) * 0.001")
    names = "hose_inside_mm, hose_outside_mm, stem_outside_mm, ferrule_wall_mm, compression"
    if db.name == "sqlite":
        db.ask(f"CREATE TABLE joints AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < {ROWS}) SELECT "
               + ", ".join(f"{c} AS {n}" for c, n in zip(columns, names.split(", "))) + " FROM n")
    else:
        db.ask(f"CREATE TABLE joints AS SELECT " + ", ".join(f"({c})::float8 AS {n}" for c, n in zip(columns, names.split(", ")))
               + f" FROM generate_series(1, {ROWS}) AS i")
        db.ask("VACUUM ANALYZE joints")


def find_node(plan, name):
    found = [plan] if plan["Node Type"] == name else []
    return found + [n for inner in plan.get("Plans", []) for n in find_node(inner, name)]


def check_big(db):
    """Turn and turn about, and the median of the ratios: what else runs on the machine disturbs both."""
    make_rows(db)
    same, = db.ask(f"SELECT count(*), sum(CASE WHEN abs(({PLAIN}) - {OURS}) < 1e-12 THEN 1 ELSE 0 END) FROM joints")
    ratios, plain_times, our_times, workers = [], [], [], []
    for _ in range(ROUNDS):
        plain, _ = db.time(f"SELECT sum({PLAIN}) FROM joints")
        ours, plan = db.time(f"SELECT sum({OURS}) FROM joints")
        ratios.append(ours / plain)
        plain_times.append(plain)
        our_times.append(ours)
        workers += [g["Workers Launched"] for g in find_node(plan, "Gather")] if plan else []
    ratio = statistics.median(ratios)
    print(f"{ROWS} rows: plain SQL {statistics.median(plain_times):.0f} ms, ours {statistics.median(our_times):.0f} ms, ratio of "
          f"{ROUNDS} turns {ratio:.2f} ({min(ratios):.2f} to {max(ratios):.2f}); parallel workers launched: {workers or 'none'}")
    passed = ratio <= MAXIMUM_RATIO and same[0] == same[1] == ROWS
    if db.name == "postgresql":
        passed &= len(workers) == ROUNDS and max(workers) >= 1
        print("\n".join(line for line, in db.ask(f"EXPLAIN (ANALYZE, TIMING OFF, COSTS OFF) SELECT sum({OURS}) FROM joints")))
    return passed, f"{ratio:.2f} ({min(ratios):.2f} to {max(ratios):.2f}), {statistics.median(our_times):.0f} ms", ", ".join(map(str, workers)) or "SQLite has none"


# ---- valgrind ---------------------------------------------------------------------------------------------------

def check_valgrind(db):
    calls = [bad_query(db, call) for call, *_ in bad_calls(db).values()]
    calls += [f"SELECT fer_crimp_diameter_mm({WORKED}, 0.2)", f"SELECT * FROM fer_plan_setup_row({text(ORDER)}, '[16, 22]', 0.05)",
              "SELECT fer_choose_die_over(s, 23.5) FROM (SELECT 16 AS s UNION ALL SELECT 22)",
              "SELECT fer_plan_setup(" + text(ORDER) + ", '[\"16 mm\"]')"]
    script = f".load {db.module}\n" + "".join(c + ";\n" for c in calls)
    with tempfile.NamedTemporaryFile("r") as log:
        done = subprocess.run(["valgrind", "--error-exitcode=9", "--leak-check=full", "--errors-for-leak-kinds=definite,indirect",
                               f"--log-file={log.name}", "sqlite3", ":memory:"], input=script, text=True, stdout=subprocess.PIPE,
                              stderr=subprocess.PIPE)
        said = log.read()
    passed = done.returncode != 9 and "ERROR SUMMARY: 0 errors" in said and "23.51" in done.stdout
    print(f"valgrind: {len(calls)} calls, {'no errors and no leaks' if passed else said[-4000:] + done.stderr[-2000:]}")
    return passed


# ---- the manual's page, the example, memory ---------------------------------------------------------------

def check_page(db):
    page = HERE.parents[2] / "docs" / "examples" / "databases"
    lines = []
    for query in re.sub(r"^--.*\n", "", page.with_suffix(".sql").read_text(), flags=re.MULTILINE).split(";\n"):
        if query.strip():
            lines += ["|".join(str(cell) for cell in row) for row in db.ask(query)]
    passed = lines == page.with_suffix(".txt").read_text().splitlines()
    print("page: as shown" if passed else f"page: {lines}")
    return passed


def check_records(run):
    """A chain of records in the restored database: two go in with the hash that the library gave them, a wrong link and changes do not."""
    lines = (HERE.parent / "vectors" / "records-0.2.0.jsonl").read_text(encoding="utf-8").splitlines()
    digests = [hashlib.sha256(line.encode()).hexdigest() for line in lines]

    def ask(text):
        return run("psql", "-qAtX", "-v", "ON_ERROR_STOP=1", "-c", "SET search_path = ferrule_erp, public", "-c", text, database="restored")

    def insert(line):
        return ask("INSERT INTO records (line) VALUES ($line$" + line + "$line$)")
    answers = [insert(lines[1]), insert(lines[0]), insert(lines[0]), insert(lines[2]), insert(lines[1]), ask("UPDATE records SET digest = 'x'"),
               ask("DELETE FROM records"), ask("SELECT digest FROM records ORDER BY number"), ask("SELECT count(*) > 5 FROM record_calls")]
    refused = [word in answer for answer, word in ((answers[0], "hash of the last"), (answers[2], "hash of the last"), (answers[3], "hash of the last"),
                                                   (answers[5], "nobody"), (answers[6], "nobody"))]
    passed = answers[1] == answers[4] == "" and all(refused) and answers[7].split() == digests[:2] and answers[8] == "t\n"
    print(f"records: {'in a chain' if passed else answers}")
    return passed


def check_shop(db):
    example = HERE.parents[2] / "examples" / "erp"
    environment = {**os.environ, **db.server.environment}

    def run(*command, database="postgres", text_in=None):
        done = subprocess.run([str(c) for c in command], env={**environment, "PGDATABASE": database}, text=True, input=text_in,
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        return done.stdout if done.returncode == 0 else f"exit status {done.returncode}: {done.stderr}"
    module = pathlib.Path(sys.argv[2], "sqlite", "mod_ferrule")
    in_sqlite = run("sh", example / "run.sh", module)
    in_postgresql = run("sh", example / "run.sh", "--postgresql")
    report = run("psql", "-qAtX", "-c", "SET search_path = ferrule_erp, public", "-f", example / "report.sql")
    dump = run("pg_dump", "--schema", "ferrule_erp", "--extension", "ferrule")
    db.ask("CREATE DATABASE restored")
    run("psql", "-qX", "-v", "ON_ERROR_STOP=1", database="restored", text_in=dump)
    restored = run("psql", "-qAtX", "-c", "SET search_path = ferrule_erp, public", "-f", example / "report.sql", database="restored")
    refused = run("psql", "-qAtX", "-v", "ON_ERROR_STOP=1", "-c", "UPDATE ferrule_erp.joints SET hose_outside_mm = 5", database="restored")
    records = check_records(run)
    quality = [run("sh", example.parent / "quality" / "run.sh", argument) for argument in (module, "--postgresql")]
    # who is no superuser, but owns a database; and the way to a new version
    db.ask("CREATE ROLE shop LOGIN")
    db.ask("CREATE DATABASE own OWNER shop")
    own = run("psql", "-qAtX", "-v", "ON_ERROR_STOP=1", "-U", "shop", "-c", "CREATE EXTENSION ferrule", "-c", "ALTER EXTENSION ferrule UPDATE",
              "-c", "SELECT fer_mm('1 in')", database="own")
    passed = (records and own == "25.4\n" and in_sqlite == in_postgresql and in_sqlite.startswith("Order 101") and report == restored and report.startswith("Order 101")
              and "hose outside diameter is not above its inside diameter" in refused and "fer_crimp_diameter" not in dump and quality[0] == quality[1] and quality[0].startswith("Order 120, "))
    print(f"shop: {len(in_sqlite.splitlines())} lines, {'the same in both and after restoring' if passed else (in_sqlite, in_postgresql, dump[:500], restored, refused, own, quality)}")
    return passed


def check_still(build):
    """No symbol of the modules' own objects is in memory that can be written."""
    objects = [o for o in pathlib.Path(build).rglob("*.o") if re.search(r"ferrule_(sql|script|sqlite|postgresql)\.dir", str(o))]
    said = subprocess.run(["nm", "--format=posix", *map(str, objects)], text=True, stdout=subprocess.PIPE, check=True).stdout
    # d with .rel.ro is written once by the loader; nm says d for both, so the sections are asked
    changing = set()
    for path in objects:
        table = subprocess.run(["objdump", "-t", str(path)], text=True, stdout=subprocess.PIPE, check=True).stdout
        changing |= {line.split()[-1] for line in table.splitlines()
                     if re.search(r"\sO\s+\.(data|bss|tdata|tbss)(?!\.rel\.ro)", line) or "*COM*" in line}
    print(f"still: {len(objects)} objects, {len(said.splitlines())} symbols, changing: {sorted(changing)}")
    return len(objects) >= 7 and changing <= {"sqlite3_api"}


# ---- the record -------------------------------------------------------------------------------------------------

COLUMNS = ["database", "rows of the tables", "calls with them", "ratio to plain SQL, 1,000,000 rows", "parallel workers launched",
           "bad calls", "odd calls", "200,000 failing calls"]


def write_record(build):
    sys.path.insert(0, str(HERE.parents[1] / "release/proof"))
    import record
    rows = [json.loads(pathlib.Path(build, f"sql_{name}.json").read_text()) for name in ("postgresql", "sqlite")]
    record.write("databases", title="The same functions in databases", order=110, said=(
        "The SQL functions in SQLite, and in a PostgreSQL server that the test starts. Every row of the shared tables gives the very bits of "
        "the Python package in every form that can say it: text with units, numbers, rows, status. A million rows are compared with the same "
        "formula in plain SQL without any check, turn and turn about in one run: the ratio is the median of the turns, with the lowest and "
        "the greatest. The plan in PostgreSQL is Finalize Aggregate, Gather, Partial Aggregate, Parallel Seq Scan. "
        "Bad calls and arguments of every sort are refused with an error that names function, value and rule."),
        commands=["sh tests/agree/sql/run.sh --record"], in_tests="All of it.", columns=COLUMNS, rows=rows,
        tools=[record.tool("gcc"), *(row[0] for row in rows), record.tool("valgrind")],
        left="PostgreSQL 15 and the SQLite of Debian 12 only. Trials can be interrupted between two blocks, of which a call has 1000 at most, "
             "and lists while they are read; not while JSON-C parses, nor in the other functions, which take milliseconds.")


def main():
    name, build, *listed = sys.argv[1:]
    if name == "record":
        return write_record(build)
    functions = {}
    listed, *part = listed
    for row in json.loads(pathlib.Path(listed).read_text()):
        functions.setdefault(row["library"], []).append(row)
    random.seed(3)
    db = {"sqlite": Sqlite, "postgresql": Postgresql}[name](build)
    try:
        print(db.version)
        passed, rows, calls = check_rows(db, functions)
        passed &= check_decisions(db, functions)
        passed &= check_setups(db) & check_shapes(db, functions) & check_page(db) & check_still(build)
        bad_passed, bad_count = check_bad(db)
        bad_passed &= check_unstopped(db)
        odd_passed, odd_count = check_odd(db, functions, 12)
        if part:
            return not (passed and bad_passed and odd_passed)
        passed &= check_interrupt(db, functions)
        failing_passed, memory = check_failing(db)
        big_passed, ratio, workers = check_big(db)
        passed &= bad_passed & odd_passed & failing_passed & big_passed
        passed &= check_valgrind(db) if name == "sqlite" else check_shop(db)
        pathlib.Path(build, f"sql_{name}.json").write_text(json.dumps(
            [db.version, rows, str(calls), ratio, workers, str(bad_count), str(odd_count), memory]))
    finally:
        if name == "postgresql":
            db.db.close()
            db.server.stop()
    return not passed


if __name__ == "__main__":
    sys.exit(main())
