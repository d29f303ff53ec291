# SPDX-License-Identifier: MIT
"""Engineering mathematics of crimping hose couplings.

Quantities carry their unit: Length("41 mm"), inch(4.96), "20 %" where a function takes text. Structs are values that
do not change; replace() makes another. A call that fails raises a subclass of Error, which is a ValueError.
"""
from ._ferrule import *
from . import _ferrule

__version__ = f"{_ferrule.VERSION_MAJOR}.{_ferrule.VERSION_MINOR}.{_ferrule.VERSION_PATCH}"
