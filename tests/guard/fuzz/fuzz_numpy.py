# SPDX-License-Identifier: MIT
"""ferrule.bulk for any bytes: columns of every type and layout, broadcast, left out, overlapping with the results, few rows
or many. Every row has the bits and the status of the call in the singular, inputs stay as they were, NumPy warns of nothing.

The rows of a call are some different ones, repeated: each of these is called in the singular once. What the columns of a
function are comes from described.py, by the rules of bindings/python/make_ufuncs.py.
"""
import numpy as np

import fuzz_python as plain
import inputs
from described import ENUMS, FUNCTIONS, STRUCTS, UNITS
from fuzz_python import EXPECTED, ferrule
from ferrule import _ufuncs, bulk

BARE = {"joint", "model", "range", "uncertainties"}
LEFT_OUT = {("Uncertainties", "correlations"), ("Uncertainty", "degrees_of_freedom")}
BY_BLOCKS = ("crimp_diameter", "compression")  # they have a twin in C that takes whole columns
FEW = [0, 1, 2, 3, 4, 5, 7, 8, 63, 64, 65, 100, 127, 128, 129, 511, 512, 513, 600]
MANY = [1023, 1024, 1025, 16383, 16384, 16385, 16384 + 200, 20000, 32768, 33000]
WHOLE = [0, 1, 2, 3, 8, -1, 64, 2 ** 31 - 1, 2 ** 31, -2 ** 31, -2 ** 31 - 1, 2 ** 32, 2 ** 32 + 1, 2 ** 63 - 1, -2 ** 63]
FLOATS = ["f8", "f8", "f8", "f8", "f8", ">f8", "f4", ">f4", "f2", "i8", "i4", ">i2", "u1", "g"]
WHOLES = ["i8", "i8", "i8", ">i8", "i4", "i2", "u1", "u4", "u8"]
WRONG = EXPECTED + (OverflowError,)


# ---- what the columns are -----------------------------------------------------------------------------------------

class Leaf:
    """A number of an argument: its column, its way in the argument, what it is."""

    def __init__(self, name, kind, limits, optional, is_list):
        self.name, self.kind, self.limits, self.optional, self.is_list = name, kind, limits, optional, is_list
        self.units = UNITS.get(kind, [""])
        self.is_float = kind in UNITS or kind == "float"
        # NaN is then what was not measured, as 0 is; of these 0 would say that it is exact, or not empty
        self.may_be_blank = optional and not any(w in name for w in ("uncertainty", "amount", "degrees_of_freedom")) and name[:5] != "zone_"
        # NaN of what is needed, and cannot be 0, is 0 too: the status says that it is not given, and not that it is out of range
        self.is_zero_where_blank = self.is_float and (self.may_be_blank or not optional and limits[1] > 0)


def parts(kind):
    return [m for m in STRUCTS[kind] if (kind, m[0]) not in LEFT_OUT]


def leaves(name, kind, limits, optional, is_list):
    """The columns of an argument or a member, in their order."""
    if kind in UNITS:
        return [Leaf(f"{name}_{UNITS[kind][0]}", kind, limits, optional, is_list)]
    if kind not in STRUCTS:
        return [Leaf(name, kind, limits, optional, is_list)]
    return [leaf for member, inner, inner_limits, _, may in parts(kind)
            for leaf in leaves(member if name == "" else f"{name}_{member}", inner, inner_limits, optional or may, is_list)]


def build(kind, numbers):
    """The argument in the singular, of the numbers of its columns, taken one after the other."""
    if kind in UNITS:
        unit, number = next(numbers)
        return getattr(ferrule, unit)(number)
    if kind in STRUCTS:
        return getattr(ferrule, kind)(**{m[0]: build(m[1], numbers) for m in parts(kind)})
    _, number = next(numbers)
    if kind == "float":
        return float(number)
    number = min(max(int(number), -2 ** 31), 2 ** 31 - 1)  # as every column of whole numbers is taken
    if kind == "bool" and number not in (0, 1):
        raise ValueError
    return bool(number) if kind == "bool" else number if kind == "int" else getattr(ferrule, kind)(number)


def flat(value, kind):
    """All numbers of a result in the order of its columns; None where there is none."""
    if kind in UNITS:
        return [None if value is None else getattr(value, UNITS[kind][0])]
    if kind in STRUCTS:
        return [n for m in parts(kind) for n in flat(None if value is None else getattr(value, m[0]), m[1])]
    return [None if value is None else float(value) if kind == "float" else int(value)]


def first_name(argument):
    name, _, is_list, *_ = argument
    return "" if name in BARE else name.removesuffix("s") if is_list else name


class Function:
    def __init__(self, name):
        self.name, self.call, self.ufunc = name, getattr(bulk, name), getattr(_ufuncs, name)
        self.arguments = FUNCTIONS[name]
        self.groups = [leaves(first_name(a), a[1], a[4], a[3], a[2]) for a in self.arguments]
        self.leaves = [leaf for group in self.groups for leaf in group]
        assert [leaf.name for leaf in self.leaves] == [c.name for c in self.call.inputs], name
        self.whole = [self.call.is_whole(c) for c in self.call.results]


FUNCTIONS_IN_BULK = [Function(name) for name in bulk.names]


# ---- values -------------------------------------------------------------------------------------------------------

def some_values(source, leaf, shape):
    """Numbers of a column, of the type that it will have."""
    count = int(np.prod(shape))
    if leaf.is_float:
        dtype = source.choose(FLOATS)
        made = [float(min(inputs.number(source, leaf.limits), 2 ** 1000)) for _ in range(count)]
    else:
        dtype = source.choose(WHOLES)
        usual = range(len(ENUMS[leaf.kind])) if leaf.kind in ENUMS else (0, 1) if leaf.kind == "bool" else (int(leaf.limits[0]), 1, 3)
        made = [source.choose(WHOLE) if source.byte() > 240 else source.choose(usual) for _ in range(count)]
    with np.errstate(all="ignore"):
        if np.dtype(dtype).kind in "iu":
            made = [int(m) if abs(m) < 2 ** 62 else 7 for m in made]
            bits, low = 8 * np.dtype(dtype).itemsize, 0 if np.dtype(dtype).kind == "u" else 2 ** (8 * np.dtype(dtype).itemsize - 1)
            made = [(m + low) % 2 ** bits - low for m in made]
        return np.array(made, dtype=dtype).reshape(shape)


class Given:
    """A column of a call: its different values, how it is broadcast and in which unit it is given."""

    def __init__(self, source, leaf, kinds, items):
        self.leaf, self.unit = leaf, source.choose(leaf.units) if source.byte() % 8 == 0 else leaf.units[0]
        self.left_out = leaf.optional and source.byte() % 2 == 0
        way = source.byte() % 8
        self.over = (way not in (5, 7), way not in (6, 7))  # along which axes it has more than one value
        shape = tuple(k if over else 1 for k, over in zip(kinds, self.over)) + ((items,) if leaf.is_list else ())
        self.values = np.zeros(shape, "f8" if leaf.is_float else "i8") if self.left_out else some_values(source, leaf, shape)

    def name(self):
        leaf = self.leaf
        return leaf.name if self.unit == leaf.units[0] else leaf.name[:-len(leaf.units[0])].rstrip("_") + "_" + self.unit

    def numbers(self, row, place):
        """Unit and number of a row, of an item of it."""
        values = self.values[tuple(r if over else 0 for r, over in zip(row, self.over))]
        number = values[place] if self.leaf.is_list else values
        if self.leaf.is_zero_where_blank and np.isnan(number):
            return self.leaf.units[0], 0.0
        with np.errstate(all="ignore"):
            return self.unit, float(number) if self.leaf.is_float else int(number)

    def column(self, source, patterns, squeezed):
        index = tuple(p if over else np.zeros(1, int) for p, over in zip(patterns, self.over))
        column = self.values[np.ix_(*index)]
        if squeezed:
            column = column[:, 0]
        if not any(self.over) and source.byte() % 2:
            column = column.reshape(column.shape[2 - squeezed:])  # one for all rows
        return lay_out(source.byte(), column)


def lay_out(way, a):
    """The same numbers, elsewhere in memory."""
    way %= 16
    if way == 1 and a.ndim:
        return np.repeat(a, 3, axis=-1)[..., ::3]
    if way == 2 and a.ndim:
        return a[::-1].copy()[::-1]
    if way == 3:
        return misaligned(a)
    if way == 4 and a.ndim:
        return np.asfortranarray(a)
    if way == 5:
        wide = np.zeros((*a.shape, 5), a.dtype)
        wide[..., 2] = a
        return wide[..., 2]
    if way == 6:
        made = np.zeros(a.shape, np.dtype([("before", "u1"), ("x", a.dtype), ("after", "f8")]))
        made["x"] = a
        return made["x"]
    if way == 7:
        a = a.copy()
        a.flags.writeable = False
        return a
    if way == 8 and 0 < a.size < 100 and a.dtype.kind == "f" and a.dtype.itemsize == 8:
        return a.tolist()
    if way == 9 and a.ndim:
        return a[..., ::-1].copy()[..., ::-1]
    if way == 10 and a.size and (a == a.flat[0]).all():
        return np.broadcast_to(a.flat[0], a.shape)
    return a.copy()


def misaligned(a):
    module = np.zeros(a.nbytes + 1, np.uint8)
    moved = module[1:].view(a.dtype).reshape(a.shape)
    moved[...] = a
    return moved


# ---- what has to come out -----------------------------------------------------------------------------------------

def single(function, columns, row, items):
    """Numbers and status of a row by the call in the singular; None: it cannot be said in the singular."""
    by_name = {g.leaf.name: g for g in columns}
    arguments = []
    try:
        for argument, group in zip(function.arguments, function.groups):
            one = lambda place: build(argument[1], iter([by_name[leaf.name].numbers(row, place) for leaf in group]))
            arguments.append([one(place) for place in range(items)] if argument[2] else one(0))
    except WRONG:
        return None
    try:
        result = getattr(ferrule, function.name)(*arguments)
    except ferrule.Error as error:
        return None, int(error.code)
    except WRONG:
        return None
    several = type(result) is tuple or hasattr(result, "_fields")
    return [n for part in (result if several else (result,)) for n in flat(part, kind_of(part))], 0


def kind_of(value):
    name = type(value).__name__
    return name if name in STRUCTS or name in UNITS else "float" if isinstance(value, float) else "int"


def expected_columns(function, columns, kinds, items):
    """For each row that differs: numbers, status, whether it is known."""
    results = [np.zeros(kinds, "i8" if whole else "f8") for whole in function.whole]
    absent = [np.ones(kinds, bool) for _ in function.whole]
    status, known = np.zeros(kinds, "u2"), np.zeros(kinds, bool)
    for row in np.ndindex(*kinds):
        answer = single(function, columns, row, items)
        if answer is None:
            continue
        known[row], status[row] = True, answer[1]
        if answer[0]:
            assert len(answer[0]) == len(results), function.name
            for place, number in enumerate(answer[0]):
                if number is not None:
                    results[place][row], absent[place][row] = number, False
    return results, absent, status, known


def same(found, wanted):
    """Bit by bit; any NaN is as good as another, and so is any zero: Python's quantities have none below 0."""
    found, wanted = np.ascontiguousarray(found), np.ascontiguousarray(wanted)
    if found.dtype.kind != "f":
        return found == wanted.astype(found.dtype)
    bits = f"u{found.itemsize}"
    return (found.view(bits) == wanted.astype(found.dtype).view(bits)) | np.isnan(found) & np.isnan(wanted) | (found == 0) & (wanted == 0)


def check(function, place, found, wanted, absent, failed, counted):
    """Each row of a result that counts. The status of a figure may say why it is not there, whatever the row's own is."""
    if function.call.results[place].name.endswith("_status"):
        counted = counted & ~failed
    nothing = np.isnan(found) | (found == 0) if found.dtype.kind == "f" else found == 0
    with np.errstate(all="ignore"):
        right = np.where(failed | absent, nothing, same(found, wanted))
    wrong = ~right & counted
    assert not wrong.any(), (function.name, function.call.results[place].name, np.argwhere(wrong)[:3], found[wrong][:3], wanted[wrong][:3])


# ---- calls --------------------------------------------------------------------------------------------------------

def some_out(source, function, shape, arrays):
    """Arrays for the results: of our own, or those of the inputs."""
    outs = []
    for whole in function.whole:
        way = source.byte() % 8
        fitting = [a for a in arrays if isinstance(a, np.ndarray) and a.shape == shape and a.dtype == ("i8" if whole else "f8")
                   and a.flags.writeable and not any(a is o for o in outs)]
        if way == 0:
            outs.append(None)
        elif way < 3 and fitting:
            outs.append(source.choose(fitting) if way == 1 or not shape else source.choose(fitting)[::-1])
        else:
            types = ["i8", "i8", "i4", ">i8"] if whole else ["f8", "f8", ">f8", "f4"]
            made = lay_out(source.choose([0, 1, 2, 3, 4, 5, 6, 9]), np.full(shape, 77, source.choose(types)))
            outs.append(made)
    own = [o for o in outs if o is not None]
    return None if any(np.may_share_memory(a, b) for i, a in enumerate(own) for b in own[:i]) else tuple(outs)


def call(source):
    function = source.choose(FUNCTIONS_IN_BULK)
    way = source.byte()
    kinds = (1 + source.byte() % 4, 1 + source.byte() % 3 if way % 2 else 1)
    items = source.byte() % 6 if any(leaf.is_list for leaf in function.leaves) else 1
    count = FEW[way // 2 % len(FEW)] if way < 236 else MANY[way % len(MANY)]
    count = count if function.name in BY_BLOCKS else min(count, 1025)
    sizes = (count, source.byte() % 4 if kinds[1] > 1 else 1)
    squeezed = kinds[1] == 1 and source.byte() % 4 != 3
    sizes = sizes if not squeezed else (count, 1)
    columns = [Given(source, leaf, kinds, items) for leaf in function.leaves]
    if all(g.left_out for g in columns if g.leaf.is_list):
        items = 1  # as NumPy has it: one of nothing
        for g in columns:
            g.values = np.zeros((*(k if over else 1 for k, over in zip(kinds, g.over)), 1)) if g.leaf.is_list else g.values
    patterns = [np.arange(size) * 40503 // 7 % k for size, k in zip(sizes, kinds)]
    given = {g.name(): g.column(source, patterns, squeezed) for g in columns if not g.left_out}
    shape = np.broadcast_shapes(*(np.shape(value)[:np.ndim(value) - g.leaf.is_list]
                                  for g, value in zip((g for g in columns if not g.left_out), given.values())))
    options = some_options(source, function, shape, list(given.values()))
    if source.byte() > 250:
        return call_with_junk(source, function, given, options)
    used = [p if len(p) == size else np.zeros(size, int) for p, size in zip(patterns, (*shape, 1, 1))]
    spread = lambda a: a[np.ix_(*used)].reshape(shape)
    judge(function, given, options, shape, spread, expected_columns(function, columns, kinds, items))


def some_options(source, function, shape, arrays):
    options = {"errors": "raise" if source.byte() % 4 == 3 else "mark", "status": True}
    if source.byte() % 3 == 0:
        options["out"] = some_out(source, function, shape, arrays)
    if source.byte() % 5 == 4 and shape:
        rows = (np.arange(np.prod(shape)).reshape(shape) * 7 // 3) % 3 != 0
        options["where"] = lay_out(source.choose([0, 1, 2, 5]), rows)
    if source.byte() % 4 == 3 and shape:
        options["status"] = lay_out(source.choose([0, 1, 2, 3, 5]), np.full(shape, 99, "u2"))
    return options


def judge(function, given, options, shape, spread, expected):
    wanted, absent, statuses, known = expected
    rows = np.array(options.get("where", np.ones(shape, bool)))
    outs = options.get("out") or (None,) * len(wanted)
    before = {name: np.array(value) for name, value in given.items()}
    fills = [None if o is None else o.copy() for o in outs]
    failed, counted = spread(statuses).astype(bool), rows & spread(known)
    failing = np.argwhere(failed & rows)
    try:
        with np.errstate(all="ignore" if any(o is not None and o.itemsize < 8 for o in outs) else "raise"):
            found, got = function.call(**given, **options)
    except ferrule.Error as error:
        assert options["errors"] == "raise" and rows[error.row], (function.name, error)
        if spread(known)[rows].all():
            assert len(failing) and tuple(error.row) == tuple(failing[0]), (function.name, error.row, failing[:1])
            assert int(error.code) == spread(statuses)[error.row], (function.name, error.code)
        return
    except TypeError as error:
        assert "where" in options and function.ufunc.signature, (function.name, error)
        return
    assert options["errors"] == "mark" or not (counted & failed).any(), function.name
    assert got.shape == shape and (got == spread(statuses))[counted].all(), (function.name, got, spread(statuses))
    for place, result in enumerate(found if function.call.bundle else (found,)):
        result = np.asarray(result)
        assert result.shape == shape and (outs[place] is None or result is outs[place]), (function.name, result.shape, shape)
        check(function, place, result, spread(wanted[place]), spread(absent[place]), failed, counted)
        if fills[place] is not None:
            assert same(result, fills[place])[~rows].all(), function.name
    for name, value in given.items():
        if not any(isinstance(value, np.ndarray) and o is not None and np.may_share_memory(value, o) for o in outs):
            assert np.array(value).tobytes() == before[name].tobytes(), (function.name, name)


def call_with_junk(source, function, given, options):
    try:
        given[source.choose([*given, "nonsense"])] = plain.junk(source, 0)
        with np.errstate(all="ignore"):
            function.call(**given, **options)
    except WRONG:
        pass


def play(data):
    call(inputs.Input(data))


if __name__ == "__main__":
    inputs.play_lists(play)
