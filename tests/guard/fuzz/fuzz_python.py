# SPDX-License-Identifier: MIT
"""What is done with the Python package for any bytes: calls with right, odd and wrong values, and what has to hold.

The arguments of each function and the members of each struct come from described.py, which calls.py writes out of the
headers. Only the usual exceptions may come; a result is of its kind, is what its repr() says, and keeps no argument.
"""
import copy
import decimal
import fractions
import importlib.machinery
import math
import pickle
import sys


class LinkedIn:
    """Finds the modules that are part of the program."""

    @staticmethod
    def find_spec(name, path=None, target=None):
        found = name in ("ferrule._ferrule", "ferrule._ufuncs") and name in sys.builtin_module_names
        return importlib.machinery.ModuleSpec(name, importlib.machinery.BuiltinImporter, origin="built-in") if found else None


sys.meta_path.insert(0, LinkedIn)
import ferrule  # noqa: E402
from inputs import NUMBERS, Input, number, play_lists  # noqa: E402
from described import ENUMS, FUNCTIONS, LIMITS, STRUCTS, UNITS  # noqa: E402


class Odd(Exception):
    """Raised by values that do not behave."""


EXPECTED = (TypeError, ValueError, ArithmeticError, AttributeError, RecursionError, Odd)
TEXTS = ["", " ", "20", "mm", "1 mm", "20 %", "1 1/4 in", "-3/8\"", "1e400 mm", "9" * 390 + " mm", "1 mm\0", "\0", "\ud800", "1,5 mm",
         "wall", "plain", "x" * 3000, "\u2212" + "1 mm", "\u00b5m", "1\u202fmm", "nan mm", "inf mm", "0x1p3 mm"]


class Raises:
    """Each way of looking at it raises."""

    def fail(self, *args):
        raise Odd

    __index__ = __float__ = __int__ = __iter__ = __len__ = __getitem__ = __hash__ = __repr__ = __str__ = __bool__ = __eq__ = fail


class Liar:
    """Says that it is longer or shorter than it is."""

    def __init__(self, items, length):
        self.items, self.length = items, length

    def __len__(self):
        return self.length

    def __getitem__(self, place):
        return self.items[place]


class Index:
    def __index__(self):
        return 5

    def __float__(self):
        return 1.5


class Text(str):
    """A text of another class."""


def growing(items):
    """A list that grows while it is read."""
    yield from items
    yield items[0] if items else None
    raise Odd


def junk(source, depth):
    way = source.byte() % 24
    if way < 3:
        return source.choose([None, True, False, object(), int, Ellipsis, 1j, b"1 mm", bytearray(b"\0"), range(3), ferrule])
    if way < 6:
        return source.choose(NUMBERS)
    if way < 9:
        return source.choose(TEXTS)
    if way == 9:
        return source.take(source.byte() % 40).decode("utf-8", "surrogateescape")
    if way == 10:
        return source.choose([Raises(), Index(), Text("1 mm"), fractions.Fraction(1, 3), decimal.Decimal("NaN"), memoryview(b"12")])
    if way == 11:
        return Liar([junk(source, depth + 1)] if depth < 3 else [], source.byte() - 2)
    if way == 12:
        return growing([junk(source, depth + 1)] if depth < 3 else [])
    if way == 13:
        loop = []
        loop.append(loop)
        return loop
    if depth > 3:
        return None
    if way < 17:
        return [junk(source, depth + 1) for _ in range(source.byte() % 4)]
    if way < 19:
        return {source.choose(["inside", "size", "value", "status", "mm", "", "basis", 3]): junk(source, depth + 1)
                for _ in range(source.byte() % 4)}
    if way < 21:
        return (junk(source, depth + 1),) * (source.byte() % 5)
    kind = source.choose(KINDS)
    return value(source, kind, LIMITS.get(kind, (1.0, 0.0, 10.0)), False, depth + 1)


KINDS = [*STRUCTS, *ENUMS, *UNITS, "int", "float"]


def quantity(source, kind, limits):
    """A quantity as its class, as text, by a unit."""
    way, base = source.byte() % 8, number(source, limits)
    unit = UNITS[kind][0]
    if way == 1:
        return f"{base!r} {source.choose(['mm', 'in', '%', 'MPa', 'psi', '°', 'N'])}"
    if way == 2:
        return source.choose(TEXTS)
    unit = source.choose(UNITS[kind]) if way == 3 else unit
    return getattr(ferrule, unit)(base)


def record(source, kind, depth):
    """A struct as its class, as a dict, as a tuple."""
    way = source.byte() % 8
    if depth > 6:
        return None
    values = {}
    for name, inner, limits, count, optional in STRUCTS[kind]:
        if not (optional and source.byte() % 4 == 0):
            made = [value(source, inner, limits, optional, depth + 1) for _ in range(min(count, 3) or 1)]
            values[name] = (made * count)[:count] if count else made[0]
    if way == 1:
        return values
    if way == 2:
        return tuple(values.values())
    return getattr(ferrule, kind)(**values)


def value(source, kind, limits, optional, depth=0):
    """Almost always what is wanted."""
    if source.byte() > 247:
        return junk(source, depth)
    if kind in UNITS:
        return quantity(source, kind, limits)
    if kind in ENUMS:
        words = ENUMS[kind]
        return [source.choose(words)] if kind.endswith("s") and kind[:-1] in ENUMS else (
            getattr(ferrule, kind)[source.choose(words)] if source.byte() % 2 else source.choose(words).lower())
    if kind in STRUCTS:
        return record(source, kind, depth)
    if kind == "bool":
        return source.byte() % 2 == 1
    if kind == "int":
        return int(limits[0]) if source.byte() % 4 else source.byte()
    if kind == "str":
        return source.choose(TEXTS)
    return number(source, limits)


def arguments(source, function):
    """Values for a call: by position or by name, sometimes one too few or too many."""
    made, names = [], []
    for name, kind, is_list, optional, limits in FUNCTIONS[function]:
        if optional and source.byte() % 2 == 0:
            break
        if is_list:
            items = [value(source, kind, limits, False, 1) for _ in range(source.byte() % 6)]
            made.append(source.choose([items, items, tuple(items), iter(items), growing(items), Liar(items, len(items) + 1)]))
        else:
            made.append(value(source, kind, limits, optional))
        names.append(name)
    way = source.byte()
    if way > 250:
        made = made[:-1] if way % 2 else made + [junk(source, 0)]
    cut = way % (len(names) + 1) if 100 < way <= 250 else len(made)
    keywords = dict(zip(names[cut:], made[cut:]))
    if way in (99, 98):
        keywords[source.choose([*names, "nonsense", ""])] = junk(source, 0)
    return made[:cut], keywords


def is_ours(thing):
    return type(thing).__module__ == "ferrule"


def same(one, other):
    """Equal, NaN in the same places included."""
    return one == other or repr(one) == repr(other)


def check_value(thing):
    """What holds for every value of ours."""
    text = repr(thing)
    assert same(thing, thing) and isinstance(text, str)
    if isinstance(thing, int):
        return
    assert hash(thing) == hash(copy.copy(thing))
    assert same(pickle.loads(pickle.dumps(thing)), thing)
    if not any(word in text for word in ("nan", "inf", "None")) and len(text) < 2000:  # None: a number that is not there
        assert same(eval(text, vars(ferrule)), thing), text


def walk(result):
    if isinstance(result, (list, tuple)) and not is_ours(result):
        for item in result[:8]:
            walk(item)
    elif is_ours(result):
        check_value(result)


def call(source):
    function = source.choose(NAMES)
    positional, keywords = arguments(source, function)
    counts = [sys.getrefcount(a) for a in positional]
    try:
        result = getattr(ferrule, function)(*positional, **keywords)
    except EXPECTED as error:
        assert not isinstance(error, ferrule.Error) or error.code != ferrule.Status.OK
        del error
    else:
        walk(result)
        del result
    after = [sys.getrefcount(a) for a in positional]
    kept = [a for a, n, m in zip(positional, counts, after) if m > n and type(a) not in (int, str, float, bool, type(None), type)]
    assert not kept, (function, kept)


def make(source):
    """A value made, taken apart, changed, computed with."""
    kind = source.choose(KINDS)
    thing = value(source, kind, LIMITS.get(kind, (1.0, 0.0, 10.0)), False)
    other = junk(source, 0) if source.byte() % 2 else value(source, kind, (2.0, 0.0, 10.0), False)
    way = source.byte() % 16
    if is_ours(thing):
        check_value(thing)
    if way == 0:
        thing == other, thing != other, thing < other
    elif way == 1:
        walk(thing + other)
    elif way == 2:
        walk(thing / other)
    elif way == 3:
        walk(other * thing)
    elif way == 4:
        walk(-thing), walk(abs(thing)), bool(thing)
    elif way == 5:
        format(thing, source.choose(["", ".2f in", ".2", ">10", "mm", "\0", ".31f", ".9999999999999999999f", ".f", ".1f  %", "\ud800"]))
    elif way == 6:
        type(thing)(*[other] * (source.byte() % 3))
    elif way == 7:
        type(thing)(**{source.choose(["mm", "percent", "inside", "", "value"]): other})
    elif way == 8:
        names = getattr(type(thing), "__match_args__", ("mm",))
        walk(thing.replace(**{source.choose([*names, "nonsense"]): other}))
    elif way == 9:
        thing.to_dict()
    elif way == 10:
        setattr(thing, source.choose(["mm", "inside", "nonsense", "__class__"]), other)
    elif way == 11:
        walk(type(thing)(thing))
    elif way == 12:
        function, arguments_ = thing.__reduce__()[:2]
        walk(function(*arguments_))
    elif way == 13:
        type(thing).__new__(source.choose([type(thing), int, ferrule.Length, ferrule.Joint]), other)
    elif way == 14:
        for name in dir(type(thing))[source.byte() % 60::7]:
            getattr(thing, name)
    else:
        {thing: other}, [thing, other].index(other)


def play(data):
    source = Input(data)
    try:
        call(source) if source.byte() % 4 else make(source)
    except EXPECTED:
        pass


NAMES = [name for name in FUNCTIONS if not any(kind in ("Trials", "Look", "Piece", "Tally", "CrimpCount") for _, kind, *_ in
                                               FUNCTIONS[name])]


if __name__ == "__main__":
    play_lists(play)
