# SPDX-License-Identifier: MIT
"""Quantities of pint into ours and back. pint itself is imported by those who use it, or by to_pint()."""
import importlib
from typing import Any

import ferrule

# pint's spelling of our units; of each kind the base unit comes first.
SPELLING = {
    "Length": {"mm": "millimeter", "cm": "centimeter", "metre": "meter", "micrometre": "micrometer", "inch": "inch",
               "foot": "foot", "thou": "thou"},
    "Area": {"mm2": "millimeter ** 2", "cm2": "centimeter ** 2", "square_inch": "inch ** 2"},
    "Force": {"newton": "newton", "kn": "kilonewton", "lbf": "force_pound", "tonne_force": "force_metric_ton"},
    "Pressure": {"mpa": "megapascal", "bar": "bar", "psi": "pound_force_per_square_inch", "kpa": "kilopascal", "gpa": "gigapascal"},
    "Angle": {"rad": "radian", "deg": "degree"},
    "Ratio": {"fraction": "dimensionless"},
    "Temperature": {"celsius": "degree_Celsius", "fahrenheit": "degree_Fahrenheit"},
    "PerLength": {"per_mm": "1 / millimeter", "per_inch": "1 / inch"},
}


def from_pint(kind: str, quantity: Any) -> float | str:
    """The number in the base unit of a kind, or how the quantity reads where it is of another kind or no single number."""
    units = SPELLING[kind]
    base, spelled = next(iter(units.items()))
    unit = str(quantity.units)
    try:
        for name, words in units.items():
            if unit == words:  # by our own constructor, so that the bits are those of our text
                return float(getattr(getattr(ferrule, kind)(**{name: float(quantity.magnitude)}), base))
        if kind != "Angle" and unit in ("radian", "degree"):  # an angle is no ratio here, whatever pint holds
            return f"{quantity}"
        if kind == "Angle" and quantity.dimensionless:
            return f"{quantity}"
        return float(quantity.to(spelled).magnitude)
    except (TypeError, ValueError, AttributeError):  # pint's error of dimensions is a TypeError
        return f"{quantity}"


def to_pint(quantity: Any, registry: Any = None) -> Any:
    """The quantity in its base unit, in a registry of pint."""
    if registry is None:
        try:
            pint: Any = importlib.import_module("pint")
        except ImportError:
            raise ImportError("to_pint needs pint: install ferrule[units], or pint itself") from None
        registry = pint.get_application_registry()
    base, spelled = next(iter(SPELLING[type(quantity).__name__].items()))
    return registry.Quantity(getattr(quantity, base), registry.parse_units(spelled))
