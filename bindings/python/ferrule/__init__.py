# SPDX-License-Identifier: MIT
"""Engineering mathematics of crimping hose couplings.

Quantities carry their unit: Length("12.7 mm"), inch(0.5), "20 %" where a function takes text. Structs are values that
do not change; replace() makes another. A call that fails raises a subclass of Error, which is a ValueError.
ferrule.bulk has the same functions over NumPy's arrays; NumPy is imported when it is used.
"""
from ._ferrule import *
from . import _ferrule

__version__ = f"{_ferrule.VERSION_MAJOR}.{_ferrule.VERSION_MINOR}.{_ferrule.VERSION_PATCH}"


def __getattr__(name):
    """What takes longer than all the rest is made when it is asked for: words, errors, and ferrule.bulk, which needs NumPy."""
    if name == "bulk":
        import importlib
        return importlib.import_module(".bulk", __name__)
    if name == "__all__":
        return [known for known in __dir__() if not known.startswith("_")]
    value = _ferrule._make_enum(name)
    if value is None and name.endswith("Error"):
        from . import _errors
        value = _errors.classes.get(name)
    if value is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    globals()[name] = value
    return value


def __dir__():
    from . import _errors
    return sorted({*globals(), *_ferrule._ENUMS, *_errors.classes})
