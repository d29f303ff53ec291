# SPDX-License-Identifier: MIT
"""The functions of the package over arrays: NumPy's universal functions with the unit in the name of each argument.

    >>> from ferrule import bulk
    >>> bulk.crimp_diameter(hose_inside_mm=[12.7, 12.5], hose_outside_mm=[19.9, 20.1], stem_outside_mm=12.95,
    ...                     ferrule_wall_mm=2.4, compression_percent=20).round(2)  # 12.95 + 2 × 2.4 + 0.8 × 7.2 and 7.6
    array([23.51, 23.83])

Every number of the arguments of a function is a column of its own, called by the way to it: joint.hose.inside is
hose_inside_mm. Any unit of the quantity may stand behind the name: hose_inside_inch. Columns are broadcast; what may be
left out may be left out. Each row has the bits of the call in the singular.

out=, where=  as in NumPy; rows that where leaves out are NaN unless out is given
errors        "raise": the first row that fails raises, with its row; "mark": rows that fail are NaN (0 for integers)
status        True: the statuses come as a second result; an array: they are written there

A table may come first, such as a DataFrame of pandas: its columns that have our names are taken, the others are left; what is
given by name counts before the table. A DataFrame gives a Series back, or a DataFrame where there are several results.

plan_setup() and inspect_crimp() plan and judge tables of orders and readings; words() and has() read their columns of words and sets.

Arrays of floats of any width, of integers and of text with units are taken. pandas Series, pint quantities and dask arrays give the same
kind back; the universal functions themselves, with positional arguments in the base units, are in ferrule._ufuncs.
"""
try:
    from . import _columns, _setups
except ImportError as error:
    raise ImportError(f"ferrule.bulk needs NumPy: install ferrule[bulk], or NumPy itself ({error})") from None

globals().update(_functions := _columns.make_functions())
plan_setup, inspect_crimp, has, words = _setups.plan_setup, _setups.inspect_crimp, _setups.has, _setups.words
names = tuple(_functions)
__all__ = [*names, "plan_setup", "inspect_crimp", "has", "words"]
