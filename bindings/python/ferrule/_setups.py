# SPDX-License-Identifier: MIT
"""Set-ups and inspections over tables of orders and readings, for ferrule.bulk: columns in, columns out, a status and a path in each
row. The rows are computed in C (bulk.h); here columns are taken, and put together as they came."""
import collections
import functools
import inspect
import sys

import numpy as np

import ferrule
from . import _columns, _errors, _table, _ufuncs

# So many rows are computed at a time: their structs stay in the processor's cache, and Ctrl-C ends the call between two blocks.
_BLOCK_ROWS = 1024


class _Struct:
    """A struct of the library as a row of an array, and its numbers as columns."""

    def __init__(self, name):
        size, places = _ufuncs.layouts[name]
        self.name = name
        self.dtype = np.dtype({"names": [n for n, _, _ in places], "formats": [kind for _, kind, _ in places],
                               "offsets": [offset for _, _, offset in places], "itemsize": size})
        self.columns = [_Member(*row, kind, place) for place, (row, (_, kind, _)) in enumerate(zip(_table.STRUCTS[name], places))]
        self.type = getattr(ferrule, "".join(part.capitalize() for part in name.split("_")))

    def rows(self, values):
        """An array of such structs, of objects of Python or what makes them: text for a die, a dict."""
        values = [value if isinstance(value, self.type) else self.type(**value) if isinstance(value, dict) else self.type(value)
                  for value in values]
        found = np.zeros(len(values), self.dtype)
        for column in self.columns:
            found[column.name] = [column.of(value) for value in values]
        return found

    def row(self, value):
        return np.zeros(1, self.dtype) if value is None else self.rows([value])


class _Member:
    """One number of a struct: the column that it is, and the way to it."""

    def __init__(self, column, path, is_flag, kind, place):
        self.column = _columns._Column(*column)
        self.name, self.path, self.kind, self.place = self.column.name, path.removesuffix(".bits"), kind, place
        self.column.is_whole = kind != "f8"
        # Of a gauge 0 says that nothing is known of it, and then no reading is accepted.
        if self.name == "gauge_standard_uncertainty_mm":
            self.column.may_be_blank = self.column.zero_is_blank = True
        self.field = self.path.removesuffix("." + self.column.unit) if self.column.unit else self.path
        self.given = "?" if is_flag else {"f8": "f8", "u8": "u8", "P": "i8"}.get(kind, "i4")  # the kind of a column of results

    def of(self, value):
        return functools.reduce(getattr, self.path.split("."), value)

    def take(self, value, unit, unreadable):
        """The array as C takes it."""
        array = self.column.take(value, unit, unreadable)
        if self.kind == "f8":
            return np.asarray(array, float)
        if array.dtype.kind == "f":
            if not (array == np.rint(array)).all():
                raise TypeError(f"{self.name}: whole numbers are needed")
        return np.asarray(np.clip(array, -2 ** 31, 2 ** 31 - 1)).astype(np.intc)


ORDER, PRESS, DIE, SETUP, READING, GUARD, MARKS, PROCESS, INSPECTION, FAULT = map(
    _Struct, ("order", "press", "die", "setup", "reading", "guard", "marks", "process", "inspection", "fault"))
_PATHS = [ferrule.field_path(field) for field in ferrule.Field]
_UNCERTAINTIES = [m.name for m in ORDER.columns if m.name.endswith("_amount_mm")]
_VARYING = [m for m in ORDER.columns if ".correlations." not in m.path]
_GAUGE = [m for m in ORDER.columns if m.name.startswith("gauge_")]
# What an inspection looks at in a set-up.
_JUDGED = [m for m in SETUP.columns if m.name.startswith(("limits_", "window_")) or
           m.name in ("target_mm", "source", "segments", "remarks", "confirmed", "applies_to")]


class _Columns:
    """The columns of a call by their names, with any unit behind them, in a table and besides."""

    def __init__(self, function, members):
        self.function, self.members = function, members
        self.named = {f"{m.column.stem}_{unit}": (m, unit) for m in members if m.column.unit
                      for unit, (kind, *_) in _columns._UNITS.items() if kind == m.column.quantity}
        self.named.update({m.name: (m, m.column.unit) for m in members})
        self.textual = {m.column.stem: m for m in members if m.column.unit and m.column.stem not in self.named}

    def find(self, name, value):
        """The member and the unit that a name says; None where it is none of ours."""
        if name in self.named:
            return self.named[name]
        member = self.textual.get(name)
        return (member, member.column.unit) if member and _columns._has_units(value) else None

    def taken(self, table, given, unreadable):
        """By the name of each member its array, of a row or of all rows."""
        found = {}
        for name, value in given.items():
            here = self.find(name, value)
            if here is None:
                units = [full for full, (m, _) in self.named.items() if m.column.unit and m.column.stem == name]
                raise TypeError(f"{self.function}: no column is called {name!r}" +
                                (f"; the unit belongs to the name: {', '.join(units)}" if units else ""))
            if here[0].name in found:
                raise TypeError(f"{self.function}: {here[0].column.stem} is given twice")
            found[here[0].name] = (*here, value)
        for name in table.keys() if table is not None else ():
            here = self.find(name, table[name])
            if here is not None and here[0].name not in found:
                found[here[0].name] = (*here, table[name])
        arrays = {}
        for name, (member, unit, value) in found.items():
            if value is None and member.column.may_be_blank:
                continue
            bad = []
            arrays[name] = member.take(value, unit, bad)
            if arrays[name].ndim > 1:
                raise ValueError(f"{self.function}: {name} is not a column: it has {arrays[name].ndim} dimensions")
            unreadable += [(place[0] if place else slice(None), status, member) for place, status in bad]
        return arrays


def _as_table(function, table):
    """A mapping of names to columns: a DataFrame, a dict, or the result of another function here."""
    if table is None or hasattr(table, "keys"):
        return table
    if hasattr(table, "_asdict"):
        return table._asdict()
    raise TypeError(f"{function}: a table with named columns is needed, not {type(table).__name__}")


def _rows_of(function, arrays):
    """How many rows the columns have: as many as the longest; a single number counts for all."""
    lengths = {a.shape[0] for a in arrays if a.ndim == 1 and a.shape[0] != 1}
    if len(lengths) > 1:
        raise ValueError(f"{function}: the columns have different lengths: {', '.join(map(str, sorted(lengths)))}")
    return lengths.pop() if lengths else 1


def _for_all(array):
    """A column of one row counts for all rows, as a number by itself does."""
    array = np.asarray(array)
    return array.reshape(()) if array.ndim == 1 and array.shape[0] == 1 else array


def _index_of(function, table, given):
    """The index of the DataFrame or of the Series that were given, which have to be the same."""
    indexes = [v.index for v in (table, *given.values()) if _columns._package(v) == "pandas" and hasattr(v, "index")]
    if any(not i.equals(indexes[0]) for i in indexes):
        raise ValueError(f"{function}: the series do not have the same index; align them first")
    return indexes[0] if indexes else None


def _wanted(function, struct, results):
    """The members that are wanted as columns."""
    if results is None:
        return struct.columns
    known = {m.name: m for m in struct.columns}
    unknown = [name for name in results if name not in known and name not in ("status", "path")]
    if unknown:
        raise TypeError(f"{function}: no result is called {unknown[0]!r}")
    return [known[name] for name in results if name in known]


class _Results:
    """Columns that are filled block by block out of an array of structs."""

    def __init__(self, function, struct, results, rows):
        self.function, self.rows = function, rows
        self.members = _wanted(function, struct, results)
        self.block = np.zeros(min(rows, _BLOCK_ROWS), struct.dtype)
        self.parts = [(self.block[m.name], np.empty(rows, m.given)) for m in self.members]
        self.status, self.path = np.zeros(rows, np.uint16), np.full(rows, None, object)

    def keep(self, start, count):
        for part, whole in self.parts:
            whole[start:start + count] = part[:count]

    def empty_failed(self, unreadable):
        """A row that failed has no figures: NaN, and 0 in whole numbers. So it is with one whose text could not be read."""
        for rows, status, member in unreadable:
            self.status[rows], self.path[rows] = status, member.field
        failed = np.flatnonzero(self.status)
        for _, whole in self.parts if failed.size else ():
            whole[failed] = np.nan if whole.dtype.kind == "f" else 0

    def raise_first(self, value_at):
        """The exception of the first row that failed."""
        failed = np.flatnonzero(self.status)
        if failed.size:
            row, path = int(failed[0]), self.path[failed[0]] or ""
            status = ferrule.Status(int(self.status[row]))
            value = value_at(path, row)
            about = f"row {row}" + (f": {path}={value:.15g}" if value is not None else f": {path}" if path else "")
            about += f"; {failed.size} rows fail" if failed.size > 1 else ""
            error = _errors.new_error(self.function, status, f"{self.function}: {status.sentence} ({about})", path, value)
            error.row = (row,)
            raise error

    def table(self, index):
        columns = {m.name: whole for m, (_, whole) in zip(self.members, self.parts)}
        columns.update(status=self.status, path=self.path)
        if index is not None:
            pandas = sys.modules["pandas"]
            columns["path"] = pandas.Series(self.path, index=index, dtype=object)  # so that None stays None
            return pandas.DataFrame(columns, index=index)
        return collections.namedtuple(self.function, columns)(*columns.values())


def _without_half_known(arrays):
    """In a row where none of the uncertainties that are columns is there, none was given. One that is blank beside others stays NaN,
    and makes its row fail: as 0 it would say that the measurement is exact."""
    given = [arrays[name] for name in _UNCERTAINTIES if name in arrays]
    if not any(np.isnan(a).any() for a in given):
        return
    none = functools.reduce(np.logical_and, [np.isnan(a) for a in given])
    for name in _UNCERTAINTIES:
        if name in arrays:
            arrays[name] = np.where(none, 0.0, arrays[name])


def _workplaces(function, press, dies, workplaces):
    if (press is None) == (workplaces is None):
        raise TypeError(f"{function}: needed is press with dies, or workplaces, a list of pairs of a press and its dies")
    pairs = [(press, dies or ())] if workplaces is None else workplaces
    return tuple((PRESS.row(p), DIE.rows(d)) for p, d in pairs)


_ORDERS = _Columns("plan_setup", _VARYING)
_GAUGES = _Columns("inspect_crimp", _GAUGE)


def _check_errors(function, errors):
    if errors not in ("raise", "mark"):
        raise ValueError(f"{function}: errors is 'raise' or 'mark', not {errors!r}")


def plan_setup(table=None, /, *, press=None, dies=None, workplaces=None, workplace=0, order=None, results=None, errors="mark", **columns):
    """Set-ups of a table of orders: ferrule.plan_setup() on each row, with its bits.

    table       orders, such as a DataFrame: columns that have our names are taken, the others are left. What is given by name
                counts before it. The columns are the numbers of an Order: hose_inside_mm, published_inch, lower_percent,
                stem_metal_yield_strength_mpa; text with units and quantities need no unit in the name
    press, dies one press with its rack, for all rows; or
    workplaces  a list of pairs of a press and its rack, and in the column `workplace` the place of each row's in it, from 0
    order       an Order: what no column says, the correlations of uncertainties among it
    results     names of the columns that are wanted; left out: all
    errors      "mark": a row that fails has its status and path, and no figures; "raise": the first one raises

    The result has a column for each number of a Setup, and two more: status, 0 or what the row broke, and path, the field at fault,
    such as "joint.hose.outside", or None. Sets such as the remarks are whole numbers, see has() and words(). A DataFrame, or series,
    give a DataFrame with their index, all else a named tuple of arrays.

    >>> from ferrule import bulk
    >>> setups = bulk.plan_setup(hose_inside_mm=12.7, hose_outside_mm=[19.9, None], stem_outside_mm=12.95, ferrule_wall_mm=2.4,
    ...                          published="23.51 mm", press=ferrule.Press(graduation="0.05 mm"), dies=["19 mm", "22 mm"])
    >>> setups.die_size_mm.tolist(), setups.dial_setting_mm.round(2).tolist(), setups.path.tolist()
    ([22.0, nan], [1.5, nan], [None, 'joint.hose.outside'])
    """
    _check_errors("plan_setup", errors)
    table, unreadable = _as_table("plan_setup", table), []
    index = _index_of("plan_setup", table, columns)
    places = _workplaces("plan_setup", press, dies, workplaces)
    if table is not None and "workplace" in table.keys() and isinstance(workplace, int) and workplace == 0:
        workplace = table["workplace"]
    arrays = _ORDERS.taken(table, columns, unreadable)
    _without_half_known(arrays)
    arrays = {name: _for_all(a) for name, a in arrays.items()}
    which = _for_all(np.clip(np.asarray(workplace), -1, 2 ** 31 - 1).astype(np.intc))
    common = ORDER.row(order)
    rows = len(index) if index is not None else _rows_of("plan_setup", [*arrays.values(), which])
    results = _Results("plan_setup", SETUP, results, rows)
    numbers = tuple((m.place, arrays[m.name]) for m in ORDER.columns if m.name in arrays)
    faults = np.zeros(len(results.block), FAULT.dtype)
    for start in range(0, rows, _BLOCK_ROWS):
        count = min(_BLOCK_ROWS, rows - start)
        if _ufuncs.plan_setups(count, start, numbers, common, places, which, results.block, results.status[start:], faults):
            for row in np.flatnonzero(results.status[start:start + count]):
                results.path[start + row] = _path_of(faults[row])
        results.keep(start, count)
    results.empty_failed(unreadable)
    if errors == "raise":
        fields = {m.field: m.name for m in ORDER.columns}
        results.raise_first(lambda path, row: _number_at(arrays.get(fields.get(path)), row))
    return results.table(index)


def _path_of(fault):
    field = int(fault["field"])
    return _PATHS[field].replace("[]", f"[{fault['die']}]") if field < len(_PATHS) else None


def _number_at(array, row):
    return None if array is None else float(array if array.ndim == 0 else array[row])


def _matrix(name, value, unit, rows, unreadable):
    """Numbers of readings, a row each: as many rows as the table, or one for all of them."""
    member = next(m for m in READING.columns if m.column.stem == name)
    value, bad = value.to_numpy() if _columns._package(value) == "pandas" else value, []
    array = member.take(np.asanyarray(value), unit or member.column.unit, bad)
    unreadable += [(place[0] if len(place) == 2 else slice(None), status, member) for place, status in bad]
    if array.ndim not in (1, 2) or array.ndim == 2 and array.shape[0] not in (1, rows):
        raise ValueError(f"inspect_crimp: {name} has to be a row of numbers for each of {rows} rows, or one for all")
    return array


def _readings_named(given):
    """The three kinds of numbers of readings, by their names: values and unit."""
    found = {}
    for name in list(given):
        for stem, plural in (("diameter", "diameters"), ("angle", "angles"), ("section", "sections")):
            unit = name.removeprefix(plural).removeprefix("_") if name.startswith(plural) else None
            quantity = {"diameter": "Length", "angle": "Angle"}.get(stem)
            if unit is not None and (unit == "" or _columns._UNITS.get(unit, (None,))[0] == quantity):
                if unit == "" and quantity and not _columns._has_units(given[name]):
                    raise TypeError(f"inspect_crimp: no column is called {name!r}; the unit belongs to the name: {plural}_" +
                                    ("mm" if quantity == "Length" else "deg"))
                found[stem] = given.pop(name), unit
    if "diameter" not in found:
        raise TypeError("inspect_crimp: missing diameters_mm")
    return found


def inspect_crimp(setups, /, *, marks=None, guard=None, process=None, results=None, errors="mark", **columns):
    """Inspections of the pieces of a table of set-ups: ferrule.inspect_crimp() on each row, with its bits.

    setups      what plan_setup() gave, all columns or these: target, source, limits, window, applies_to, segments, remarks, confirmed
    diameters_mm=   readings, a row of them for each set-up; one that was not taken is blank. sections= and angles_deg= are
                rows of as many numbers, or one row for all
    gauge_standard_uncertainty_mm=, gauge_correction_mm=, gauge_resolution_mm=   numbers or columns
    marks, guard, process   for all rows, as in ferrule.inspect_crimp()
    results, errors         as in plan_setup()

    The result has a column for each number of an Inspection, with its status. A row whose set-up failed has SETUP_INCOMPLETE.

    >>> from ferrule import bulk
    >>> setups = bulk.plan_setup(hose_inside_mm=12.7, hose_outside_mm=[19.9, 20.1], stem_outside_mm=12.95, ferrule_wall_mm=2.4,
    ...                          published_mm=23.5, tolerance_mm=0.2, press=ferrule.Press(), dies=["19 mm", "22 mm"])
    >>> found = bulk.inspect_crimp(setups, diameters_mm=[[23.50, 23.52, 23.51], [23.80, 23.82, None]], gauge_standard_uncertainty_mm=0.01)
    >>> bulk.words(found.decision, "Decision").tolist()
    ['ACCEPT', 'REJECT']
    """
    _check_errors("inspect_crimp", errors)
    table, unreadable = _as_table("inspect_crimp", setups), []
    missing = [m.name for m in _JUDGED if m.name not in table]
    if missing:
        raise TypeError(f"inspect_crimp: the set-ups have no column {missing[0]}")
    index = table.index if _columns._package(table) == "pandas" else None
    judged = [np.atleast_1d(np.asarray(table[m.name])) for m in _JUDGED]
    rows = judged[0].shape[0]
    readings = _readings_named(columns)
    gauge = {name: _for_all(a) for name, a in _GAUGES.taken(None, columns, unreadable).items()}
    if any(a.ndim and a.shape[0] != rows for a in gauge.values()):
        raise ValueError(f"inspect_crimp: the gauge's columns do not have {rows} rows")
    taken = {stem: _matrix(stem, value, unit, rows, unreadable) for stem, (value, unit) in readings.items()}
    count = taken["diameter"].shape[-1]
    results = _Results("inspect_crimp", INSPECTION, results, rows)
    rules = MARKS.row(marks), GUARD.row(guard), PROCESS.row(process)
    columns_of_gauge = tuple(gauge.get(m.name, np.zeros(())) for m in _GAUGE)
    for start in range(0, rows, _BLOCK_ROWS):
        here = slice(start, min(start + _BLOCK_ROWS, rows))
        block = np.zeros(here.stop - start, SETUP.dtype)
        for member, column in zip(_JUDGED, judged):
            block[member.name] = column[here]
        pieces = np.zeros((len(block), count), READING.dtype)
        for stem, array in taken.items():
            name = {"diameter": "diameter_mm", "angle": "angle_rad", "section": "section"}[stem]
            pieces[name] = array[here] if array.ndim == 2 and array.shape[0] == rows else array
        pieces["angle_known"] = "angle" in taken
        _ufuncs.inspect_crimps(len(block), start, block, pieces.reshape(-1), count, columns_of_gauge, *rules, results.block,
                               results.status[start:])
        results.keep(start, len(block))
    results.empty_failed(unreadable)
    if errors == "raise":
        results.raise_first(lambda path, row: None)
    return results.table(index)


def _words_of(enum):
    return getattr(ferrule, enum) if isinstance(enum, str) else enum


def has(column, word, enum="Remark"):
    """Which rows of a column of sets have a word: has(setups.remarks, "NO_DIE")."""
    return np.asarray(column) >> np.uint64(int(_words_of(enum)[word] if isinstance(word, str) else word)) & np.uint64(1) == 1


def words(column, enum):
    """The words of a column of numbers of an enum, such as words(setups.readiness, "Readiness"), or of sets: words(setups.remarks,
    "Remark"). A set is its words in their order with a comma between them."""
    column, enum = np.asarray(column), _words_of(enum)
    if column.dtype == np.uint64:
        name = lambda bits: ", ".join(word.name for word in enum if bits >> int(word) & 1)
    else:
        name = lambda number: enum(number).name
    numbers, places = np.unique(column, return_inverse=True)
    return np.array([name(int(n)) for n in numbers], object)[places].reshape(column.shape)


def _move_to_bulk(function):
    """Shown as a function of ferrule.bulk, where it is called."""
    function.__module__ = "ferrule.bulk"
    function.__signature__ = inspect.signature(function)


for _function in (plan_setup, inspect_crimp, has, words):
    _move_to_bulk(_function)
