# SPDX-License-Identifier: MIT
"""Engineering mathematics of crimping hose couplings.

Quantities carry their unit: Length("41 mm"), inch(4.96), "20 %" where a function takes text. Structs are values that
do not change; replace() makes another. A call that fails raises a subclass of Error, which is a ValueError.
ferrule.bulk has the same functions over NumPy's arrays; NumPy is imported when it is used.
"""
from ._ferrule import *
from . import _ferrule

__version__ = f"{_ferrule.VERSION_MAJOR}.{_ferrule.VERSION_MINOR}.{_ferrule.VERSION_PATCH}"


def __getattr__(name):
    """ferrule.bulk without an import of its own, and without NumPy for those who do not use it."""
    if name == "bulk":
        import importlib
        return importlib.import_module(".bulk", __name__)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
