# SPDX-License-Identifier: MIT
"""How columns are taken, and given back as the kind that they came in. The functions themselves are in ferrule.bulk."""
import collections
import functools
import inspect
import re
import sys
import time

import numpy as np

import ferrule
from . import _errors, _table, _ufuncs

# unit: kind of quantity, numerator, denominator, zero
_UNITS = {unit: (kind.title().replace("_", ""), *numbers) for unit, (kind, *numbers) in _ufuncs.units.items()}


# More rows than these are looked through for blanks only where one fails.
_MANY = 1 << 16


class _Column:
    """An argument or a result: its name with and without the unit, what it is."""

    def __init__(self, name, quantity, enum, optional, needed, note):
        self.name, self.quantity, self.enum, self.optional, self.note = name, quantity, enum, optional, note
        # What is left blank is not measured. Of an uncertainty 0 would say that it is exact, and of a zone that it is not empty.
        self.may_be_blank = optional and not re.search("uncertainty|amount|degrees_of_freedom|^zone_", name)
        # So is what is needed, where 0 is no number that it can have: then the status says that it is not given.
        self.zero_is_blank = self.may_be_blank or needed
        self.is_whole = False
        self.stem, self.unit = (name[:-len(unit)].rstrip("_"), unit) if (unit := _unit_of(name, quantity)) else (name, None)

    def take(self, value, unit, unreadable=None, pending=None):
        """The array of a value that was given in a unit, in the base unit. Text that cannot be read is an error, or NaN and noted as
        (place, status) in the list `unreadable`. Many numbers are noted by our name in the list `pending`, where there is one, and
        keep their NaN: with_zeros() takes as long as many a function, and is needed only where a row fails."""
        value = _without_mask(value)
        if self.enum and not isinstance(value, (int, np.integer)) and getattr(value, "dtype", np.dtype("O")).kind in "OU":
            return self.number_of_words(value, unreadable)
        if self.quantity and isinstance(value, (str, getattr(ferrule, self.quantity))):
            return np.float64(getattr(getattr(ferrule, self.quantity)(value), self.unit))
        if isinstance(value, np.ma.MaskedArray):
            raise TypeError(f"{self.name}: a masked array; give the rows that count, or fill it with NaN")
        array = self.without_blanks(np.asanyarray(value))
        if self.quantity and array.dtype.kind in "OU" and array.size:
            return self.numbers_of_text(array, unreadable)
        if array.dtype.kind == "b" and not self.quantity:
            array = array.astype(np.int64)  # a flag
        if array.dtype.kind not in "fiu":
            seen = f"text such as {str(array.flat[0])!r}" if array.dtype.kind == "U" and array.size else array.dtype
            raise TypeError(f"{self.name}: numbers are needed, not {seen}")
        if array.dtype.itemsize > 8:
            array = array.astype(float)
        if self.quantity and pending is not None and array.size > _MANY and type(array) is np.ndarray:
            pending.append(self.name)
            return array if unit == self.unit else self.in_base_unit(array, unit)
        if self.quantity is None or unit == self.unit:
            return self.with_zeros(array)
        return self.with_zeros(self.in_base_unit(array, unit))

    @staticmethod
    def in_base_unit(array, unit):
        _, times, by, zero = _UNITS[unit]
        # In the order of the library's own constructors of quantities, so that the bits are theirs.
        with np.errstate(all="ignore"):  # a number that is too large is reported by the status of its row
            return (array.astype(float) - zero) * times / by

    def without_blanks(self, array):
        """Numbers and blanks (None, pandas' NA) as numbers and NaN."""
        if array.dtype.kind != "O":
            return array
        blank = np.asarray(np.frompyfunc(_is_blank, 1, 1)(array), dtype=bool)
        numbers = array[~blank]
        if not all(isinstance(n, (float, int, np.floating, np.integer)) and not isinstance(n, bool) for n in numbers.flat):
            return array
        found = np.full(array.shape, np.nan)
        found[~blank] = numbers.astype(float)
        return found

    def numbers_of_text(self, array, unreadable):
        """A column of text with units, quantities and blanks, as numbers in the base unit."""
        quantity = getattr(ferrule, self.quantity)
        found, known, failed = np.full(array.shape, np.nan), {}, []
        for place, text in np.ndenumerate(array):
            if _is_blank(text) or isinstance(text, str) and not text.strip():
                continue
            if not isinstance(text, (str, quantity)):
                raise TypeError(f"{self.name}: numbers, or text with a unit, are needed, not {text!r}")
            number = known.get(text)
            if number is None:
                number = known[text] = _number_of_text(quantity, self.unit, text)
            if isinstance(number, ferrule.Error) and unreadable is None:
                number.row = place
                raise number
            if isinstance(number, ferrule.Error):
                failed.append(place)
                unreadable.append((place, number.code))
            else:
                found[place] = number
        found = self.with_zeros(found)
        for place in failed:
            found[place] = np.nan
        return found

    def with_zeros(self, array):
        """NaN of what may be left out is 0, which says that it was not measured; of what is needed, that it is not given."""
        if not self.zero_is_blank or array.dtype.kind != "f":
            return array
        blank = np.isnan(array)
        array = np.where(blank, 0.0, array) if blank.any() else array
        # A column of whole numbers with blanks in it comes as floats.
        return array.astype(np.int64) if blank.any() and self.is_whole and (array == np.rint(array)).all() else array

    def number_of_words(self, value, unreadable=None):
        """A word that is not in the list is an error; where those are noted it is -1, which makes its row fail."""
        enum, known = getattr(ferrule, self.enum), {}

        def number(word):
            if self.may_be_blank and _is_blank(word):
                return 0
            if isinstance(word, str) and word not in known:
                known[word] = int(enum[word.upper()]) if unreadable is None or word.upper() in enum.__members__ else -1
            return known[word] if isinstance(word, str) else int(enum(word))

        try:
            if isinstance(value, (str, enum)) or value is None:
                return np.int64(number(value))
            return np.array([number(word) for word in value], dtype=np.int64)
        except KeyError as error:
            words = ", ".join(f'"{word.name}"' for word in enum)
            raise TypeError(f"{self.name} has to be one of {words}, not {error.args[0]!r}") from None


def _unit_of(name, quantity):
    """The unit behind the name of a column: the longest that fits."""
    fitting = [unit for unit, (kind, *_) in _UNITS.items() if kind == quantity and name.endswith(unit)]
    return max(fitting, key=len, default=None)


def _has_units(value):
    """Text or quantities, such as Length: each has its unit, and so the name of the column needs none."""
    if _package(value) == "dask":
        return False
    array = np.asanyarray(value)
    first = next((v for v in array.flat if not _is_blank(v)), None) if array.dtype.kind in "OU" else None
    return first is not None and (isinstance(first, str) or type(first).__module__.partition(".")[0] == "ferrule")


def _number_of_text(quantity, unit, text):
    """In the unit; or the error that says what is wrong with the text."""
    try:
        return getattr(quantity(text), unit)
    except ferrule.Error as error:
        return error


def _without_mask(value):
    """pandas' numbers that may be NA (Float64, Int64, boolean) as floats with NaN, in one go."""
    kind = getattr(getattr(value, "dtype", None), "kind", None)
    if _package(value) == "pandas" and not isinstance(value.dtype, np.dtype) and kind in tuple("fiub"):
        return value.to_numpy(dtype=float, na_value=np.nan)
    return value


def _is_blank(value):
    """What tables have where nothing is: None, NaN, pandas' NA."""
    return value is None or isinstance(value, float) and value != value or type(value).__name__ == "NAType"


def _package(value):
    """The package that an array comes from; nothing is imported to find it out."""
    return type(value).__module__.partition(".")[0]


# Many rows are computed block by block: between two blocks Python looks for signals, so that Ctrl-C ends the call. The first block
# has so many rows; one that took less than so many seconds is followed by one that is four times as large.
_BLOCK_ROWS, _BLOCK_SECONDS = 1 << 14, 0.05


def _loop_shape(array, core):
    """The shape of an array without the axis of its list, if it has one."""
    return np.shape(array)[:np.ndim(array) - core]


def _part(array, core, axis, rows):
    """The rows of an array along an axis that is counted from the last of those that are looped over, -1."""
    shape = _loop_shape(array, core)
    if array is None or len(shape) < -axis or shape[axis] == 1:
        return array
    return array[(Ellipsis, rows, *[slice(None)] * (-axis - 1 + core))]


class _Function:
    """One function of the library over columns."""

    def __init__(self, name):
        inputs, outputs = _table.FUNCTIONS[name]
        self.__name__ = self.__qualname__ = name
        self.__module__ = "ferrule.bulk"
        self.ufunc = getattr(_ufuncs, name)
        self.inputs = [_Column(*row) for row in inputs]
        self.results = [_Column(*row) for row in outputs[:-1]]
        self.columns = {f"{c.stem}_{unit}": (c, unit) for c in self.inputs if c.unit
                        for unit, (kind, *_) in _UNITS.items() if kind == c.quantity}
        self.columns.update({c.name: (c, c.unit) for c in self.inputs})
        self.textual = {c.stem: c for c in self.inputs if c.unit and c.stem not in self.columns}
        self.bundle = collections.namedtuple(name, [c.name for c in self.results]) if len(self.results) > 1 else None
        # Columns of a list, such as the rack: their last axis is the list.
        inner = self.ufunc.signature.partition("->")[0].split(",") if self.ufunc.signature else []
        self.lists = [c.name for c, core in zip(self.inputs, inner) if core == "(k)"]
        # Of the very type that the universal function takes, so that it has nothing to convert.
        types = self.ufunc.types[0].partition("->")[0]
        self.nothing = {c.name: np.zeros((), code) for c, code in zip(self.inputs, types)}
        for c, code in zip(self.inputs, types):
            c.is_whole = code != "d"
        self.__doc__ = self.text()
        rows = sorted(self.inputs, key=lambda c: c.optional)
        kinds = inspect.Parameter
        self.__signature__ = inspect.Signature(
            [kinds("table", kinds.POSITIONAL_ONLY, default=None)] +
            [kinds(c.name, kinds.KEYWORD_ONLY, default=0 if c.optional else kinds.empty) for c in rows] +
            [kinds("out", kinds.KEYWORD_ONLY, default=None), kinds("where", kinds.KEYWORD_ONLY, default=True),
             kinds("errors", kinds.KEYWORD_ONLY, default="raise"), kinds("status", kinds.KEYWORD_ONLY, default=False)])

    def text(self):
        head, _, tail = inspect.getdoc(getattr(ferrule, self.__name__)).partition("\n\nExample (")[0].partition("\nArguments:")
        lines = [head.rstrip(), "", "Columns:"]
        lines += [f"    {c.name}{' (may be left out)' if c.optional else ''}: {c.note}" for c in self.inputs]
        lines += ["", "Results:"] + [f"    {c.name}: {c.note}" for c in self.results]
        return "\n".join(lines) + ("\n\nRaises:" + tail.partition("\nRaises:")[2] if "\nRaises:" in tail else "")

    def __repr__(self):
        return f"<function ferrule.bulk.{self.__name__}>"

    def __reduce__(self):
        return self.__name__  # by name, as a function is pickled

    def __call__(self, table=None, /, *, out=None, where=True, errors="raise", status=False, **given):
        if table is not None:
            return self.of_table(table, given, out=out, where=where, errors=errors, status=status)
        if errors not in ("raise", "mark"):
            raise ValueError(f"{self.__name__}: errors is 'raise' or 'mark', not {errors!r}")
        given = self.named(given)
        packages = {_package(value) for value, _ in given.values()}
        for package, way in (("dask", _with_dask), ("pint", _with_pint), ("pandas", _with_pandas)):
            if package in packages:
                return way(self, given, out=out, where=where, errors=errors, status=status)
        return self.compute(given, out, where, errors, status)

    def of_table(self, table, given, **options):
        """A table, such as a DataFrame: its columns that have our names are taken; of what is given besides, that counts."""
        if not hasattr(table, "keys"):
            raise TypeError(f"{self.__name__}: a table with named columns is needed, not {type(table).__name__}")
        columns = {name: c for name, (c, _) in self.columns.items()}
        own = {(columns.get(name) or self.textual[name]).name for name in given if name in columns or name in self.textual}
        taken = {name: table[name] for name in table.keys() if name in columns and columns[name].name not in own}
        taken.update({name: table[name] for name in table.keys()
                      if name in self.textual and self.textual[name].name not in own and _has_units(table[name])})
        computed = self(**taken, **given, **options)
        if _package(table) != "pandas" or options["out"] is not None:
            return computed
        results, statuses = computed if options["status"] is not False else (computed, None)
        results = self.frame(results, table)
        return results if statuses is None else (results, statuses)

    def frame(self, results, table):
        """The results with the index of a DataFrame: a Series, or a DataFrame where they are several."""
        pandas = sys.modules["pandas"]
        names = [c.name for c in self.results]
        series = [pandas.Series(np.broadcast_to(r, len(table)) if np.ndim(r) == 0 else r, index=table.index, name=name)
                  for r, name in zip(results if self.bundle else (results,), names)]
        return pandas.DataFrame(dict(zip(names, series))) if self.bundle else series[0]

    def named(self, given):
        """By the column's own name: value and unit."""
        found = {}
        for name, value in given.items():
            if name in self.textual and _has_units(value):
                name = self.textual[name].name
            if name not in self.columns:
                raise TypeError(f"{self.__name__}: no column is called {name!r}{self.similar(name)}")
            column, unit = self.columns[name]
            if column.name in found:
                raise TypeError(f"{self.__name__}: {column.stem} is given twice")
            found[column.name] = value, unit
        for name in [name for name, (value, _) in found.items() if value is None and self.columns[name][0].may_be_blank]:
            del found[name]  # a whole column that was not measured
        missing = [c.name for c in self.inputs if not c.optional and c.name not in found]
        if missing:
            raise TypeError(f"{self.__name__}: missing {', '.join(missing)}")
        return found

    def similar(self, name):
        """What to write instead of a name without its unit."""
        units = [full for full, (c, _) in self.columns.items() if c.unit and c.stem == name]
        return f"; the unit belongs to the name: {', '.join(units)}" if units else ""

    def arrays(self, given, unreadable=None, pending=None):
        arrays = {}
        for c in self.inputs:
            bad = None if unreadable is None else []
            arrays[c.name] = self.fitting(c, c.take(*given[c.name], bad, pending)) if c.name in given else self.nothing[c.name]
            if bad:
                unreadable.append((c, arrays[c.name].shape, bad))
        if self.lists:
            arrays.update(zip(self.lists, np.broadcast_arrays(*(np.atleast_1d(arrays[name]) for name in self.lists))))
        return list(arrays.values())

    def fitting(self, column, array):
        """NumPy takes no unsigned numbers of 64 bits for signed ones: those above are as large as any that is refused."""
        is_unsigned = array.dtype.kind == "u" and array.dtype.itemsize == 8 and self.nothing[column.name].dtype.kind == "i"
        return np.minimum(array, np.uint64(2 ** 63 - 1)).astype(np.int64) if is_unsigned else array

    def compute(self, given, out, where, errors, status):
        pending, unreadable = [], None if errors == "raise" else []
        arrays = self.arrays(given, unreadable, pending)
        outs = (None,) * len(self.results) if out is None else out if isinstance(out, tuple) else (out,)
        if len(outs) != len(self.results):
            raise TypeError(f"{self.__name__}: out needs {len(self.results)} arrays")
        statuses = status if isinstance(status, np.ndarray) else None
        options = {}
        if where is not True:
            options["where"] = where
            outs, statuses = self.with_blank(arrays, outs, statuses, where)
        if pending and self.shares_memory(arrays, (*outs, statuses)):
            arrays, pending = self.with_zeros(arrays, pending), []
        *results, statuses = self.run(arrays, (*outs, statuses), options)
        if pending and np.max(statuses, initial=0) > 0:
            found, arrays = arrays, self.with_zeros(arrays, pending)
            if any(array is not before for array, before in zip(arrays, found)):
                *results, statuses = self.run(arrays, (*results, statuses), options)
        if unreadable:
            self.mark_unreadable(statuses := np.asarray(statuses), unreadable, where)
        if errors == "raise" and np.any(statuses):
            # An array for the status keeps what stood in it before, where nothing was computed.
            self.raise_first(arrays, np.where(where, statuses, 0))
        result = self.bundle(*results) if self.bundle else results[0]
        return (result, statuses) if status is not False else result

    def mark_unreadable(self, statuses, unreadable, where):
        """Text that cannot be read was NaN, which made its row fail; the status says what is wrong with the text. The first column counts."""
        for column, shape, bad in reversed(unreadable):
            codes = np.zeros(shape, np.uint16)
            for place, code in reversed(bad):
                codes[place] = code
            if column.name in self.lists and codes.ndim:
                codes = np.take_along_axis(codes, np.expand_dims((codes != 0).argmax(-1), -1), -1)[..., 0]  # the first of the list
            codes = np.broadcast_to(codes, statuses.shape)
            np.copyto(statuses, codes, where=np.asarray(where) & (codes != 0) & (statuses != 0))

    def run(self, arrays, outs, options):
        """The universal function over all rows, block by block where they are many."""
        cores = [int(core == "(k)") for core in self.ufunc.signature.partition("->")[0].split(",")] if self.lists else [0] * len(arrays)
        shape = np.broadcast_shapes(*map(_loop_shape, arrays, cores), *(o.shape for o in outs if isinstance(o, np.ndarray)))
        if np.prod(shape, dtype=float) <= _BLOCK_ROWS or not self.can_be_parted(arrays, outs):
            return self.ufunc(*arrays, out=outs, **options)
        types = self.ufunc.types[0].partition("->")[2]
        outs = [np.empty(shape, code) if out is None else out for out, code in zip(outs, types)]
        axis = int(np.argmax(shape)) - len(shape)
        start, step = 0, max(1, int(_BLOCK_ROWS * shape[axis] / np.prod(shape, dtype=float)))
        while start < shape[axis]:
            begin, rows = time.perf_counter(), slice(start, start + step)
            parts = [_part(array, core, axis, rows) for array, core in zip(arrays, cores)]
            where = {name: _part(np.asarray(value), 0, axis, rows) for name, value in options.items()}
            self.ufunc(*parts, out=tuple(_part(out, 0, axis, rows) for out in outs), **where)
            start, step = rows.stop, step * 4 if time.perf_counter() - begin < _BLOCK_SECONDS else step
        return outs

    def with_zeros(self, arrays, pending):
        return [c.with_zeros(array) if c.name in pending else array for c, array in zip(self.inputs, arrays)]

    @staticmethod
    def shares_memory(arrays, outs):
        return any(np.may_share_memory(out, array) for out in outs if isinstance(out, np.ndarray) for array in arrays)

    @staticmethod
    def can_be_parted(arrays, outs):
        """Not where kinds of arrays of somebody else's make the results, nor where results are written over what is still to be read."""
        given = [out for out in outs if out is not None]
        return all(type(array) in (np.ndarray, np.float64, np.int64) for array in (*arrays, *given)) and not any(
            np.may_share_memory(out, array) for out in given for array in arrays)

    def with_blank(self, arrays, outs, statuses, where):
        """Results in which a row that is left out says so."""
        if self.lists:
            raise TypeError(f"{self.__name__}: where does not go with a list")
        shape = np.broadcast_shapes(np.shape(where), *map(np.shape, arrays))
        blank = lambda c: np.full(shape, np.nan) if c.quantity or not self.is_whole(c) else np.zeros(shape, np.int64)
        outs = tuple(blank(c) if o is None else o for c, o in zip(self.results, outs))
        return outs, np.zeros(shape, np.uint16) if statuses is None else statuses

    def is_whole(self, column):
        return self.ufunc.types[0].partition("->")[2][self.results.index(column)] == "l"

    def raise_first(self, arrays, statuses):
        """The exception of the first row that failed, if there is one."""
        if not np.any(statuses):
            return
        row = tuple(int(i) for i in np.argwhere(statuses)[0])
        failed = int(np.count_nonzero(statuses))
        about = f"row {row[0] if len(row) == 1 else row}" if row else ""
        shown = []
        for column, array in zip(self.inputs, arrays):
            if column.name not in self.lists:
                number = np.broadcast_to(array, statuses.shape)[row]
                if not column.optional or number:
                    shown.append(f"{column.name}={number:.15g}")
        about += (": " if about and shown else "") + ", ".join(shown) + (f"; {failed} rows fail" if failed > 1 else "")
        error = _errors.make_error(self.__name__, ferrule.Status(int(statuses[row])), about or None)
        error.row = row
        raise error


# ---- other kinds of arrays: taken apart, computed, put together as they came ------------------------------------


def _each(function, result, give):
    """The same done to each array of a result of compute()."""
    if isinstance(result, tuple):
        parts = [_each(function, part, give) for part in result]
        return type(result)(*parts) if hasattr(result, "_fields") else tuple(parts)
    return give(result)


def _plain(series):
    """Numbers that may be NA as floats; all else as NumPy has it."""
    return _without_mask(series) if isinstance(_without_mask(series), np.ndarray) else series.to_numpy()


def _with_pandas(function, given, **options):
    """Series that all have the same index; the results have it too."""
    series = [value for value, _ in given.values() if _package(value) == "pandas"]
    index = series[0].index
    if any(not s.index.equals(index) for s in series if hasattr(s, "index")) or any(s.ndim != 1 for s in series):
        raise ValueError(f"{function.__name__}: the series do not have the same index; align them first")
    plain = {name: (_plain(value) if _package(value) == "pandas" else value, unit) for name, (value, unit) in given.items()}
    where = options["where"]
    options["where"] = where.to_numpy() if _package(where) == "pandas" else where
    computed = function.compute(plain, **options)
    return _each(function, computed, lambda array: type(series[0])(array, index=index))


def _with_pint(function, given, **options):
    """Quantities in any unit; results in the base units of the columns, of the same registry."""
    registry = next(value._REGISTRY for value, _ in given.values() if _package(value) == "pint")
    spelling = {"fraction": "dimensionless", "mpa": "megapascal", "per_mm": "1/mm", "mm2": "mm**2", "rad": "radian",
                "celsius": "degC"}
    plain = {}
    for name, (value, unit) in given.items():
        if _package(value) == "pint":
            column = function.columns[name][0]
            value, unit = value.to(spelling.get(column.unit, column.unit)).magnitude, column.unit
        plain[name] = value, unit
    packages = {_package(value) for value, _ in plain.values()}
    way = _with_dask if "dask" in packages else _with_pandas if "pandas" in packages else None
    computed = way(function, plain, **options) if way else function.compute(plain, **options)
    results, statuses = computed if options["status"] is not False else (computed, None)
    give = lambda column, array: registry.Quantity(array, spelling.get(column.unit, column.unit)) if column.unit else array
    arrays = results if function.bundle else (results,)
    made = [give(column, array) for column, array in zip(function.results, arrays)]
    result = function.bundle(*made) if function.bundle else made[0]
    return (result, statuses) if statuses is not None else result


def _block(*values, function, columns, units, lists, errors):
    """One block of a dask array: the results and the status as the fields of one structured array."""
    result, statuses = function.compute({**lists, **dict(zip(columns, zip(values, units)))}, None, True, errors, True)
    block = np.empty(np.shape(statuses), _block_type(function))
    for field, array in zip(block.dtype.names, (*(result if function.bundle else (result,)), statuses)):
        block[field] = array
    return block


def _block_type(function):
    return np.dtype([(c.name, "i8" if function.is_whole(c) else "f8") for c in function.results] + [("status", "u2")])


def _with_dask(function, given, **options):
    """A dask array of the results: nothing is computed yet, and errors="raise" raises when it is."""
    import dask.array

    if options["out"] is not None or options["where"] is not True or isinstance(options["status"], np.ndarray):
        raise TypeError(f"{function.__name__}: dask arrays go with neither out, where nor an array for the status")
    lists = {name: given.pop(name) for name in function.lists if name in given}
    columns = list(given)
    enums = {c.name for c in function.inputs if c.enum}
    values = [function.columns[n][0].take(*given[n]) if n in enums else given[n][0] for n in columns]
    units = [given[n][1] for n in columns]
    block = functools.partial(_block, function=function, columns=columns, units=units, lists=lists, errors=options["errors"])
    blocks = dask.array.core.elemwise(block, *values, dtype=_block_type(function))
    parts = [blocks[c.name] for c in function.results]
    result = function.bundle(*parts) if function.bundle else parts[0]
    return (result, blocks["status"]) if options["status"] is not False else result


def make_functions():
    """By name. A class each, as the stub has it."""
    return {name: type(f"_{name}", (_Function,), {"__module__": "ferrule.bulk"})(name) for name in _table.FUNCTIONS}
