# SPDX-License-Identifier: MIT
"""The library through ctypes: needs nothing but the shared object (environment variable FERRULE_LIBRARY)."""
import ctypes
import os
from ctypes import POINTER, Structure, byref, c_double, c_int


class Quantity(Structure):
    """Any quantity is a struct of one double."""

    _fields_ = [("value", c_double)]


def structure(name, *members, status=None):
    """A struct of quantities that is made from plain numbers and read back as such; status: a last member that is one."""
    def start(self, *values):
        Structure.__init__(self, *(Quantity(value) for value in values))

    def read(self, member):
        if member.startswith("the_") or member not in members:
            raise AttributeError(member)
        return getattr(self, "the_" + member).value

    return type(name, (Structure,), {"_fields_": [("the_" + member, Quantity) for member in members] + ([(status, c_int)] if status else []),
                                     "__init__": start, "__getattr__": read})


Ferrule = structure("Ferrule", "wall", "outside", "length")
Stem = structure("Stem", "outside", "bore")
Material = structure("Material", "elastic_modulus", "poisson", "yielding", "hardening")
Load = structure("Load", "restraint", "hose_pressure")
Forming = structure("Forming", "wall", "bore", "stretch", "pressure", "hose_share", "springback", "crimp_diameter",
                    "crimp_bore", "crimp_wall", "crimp_stretch", "plastic_strain", "effective_yield_strength", status="release_status")
Closing = structure("Closing", "force", "diameter", "before", "after")
ClosingUncertainties = structure("ClosingUncertainties", "force", "scale", "yield_strength", "diameter", "wall", "length")
HoseSqueeze = structure("HoseSqueeze", "pressure", "standard_uncertainty", "restraint", "stem_maximum", "yield_strength")
TubeChange = structure("TubeChange", "inside", "outside", "stretch", "hoop_inside", "hoop_outside")
StemChange = structure("StemChange", "bore_reduction", "residual_reduction", "plastic_diameter", "residual_hoop")
StemStrength = structure("StemStrength", "first_yield_pressure", "full_yield_pressure")
DieForce = structure("DieForce", "total", "segment", "segment_resultant", "resultants")
Shape = structure("Shape", "lobe_height", "gap", "edge_angle", "edge_radius", "arcs_diameter", "chords_diameter",
                  "tape_diameter", "jaws_minimum", "jaws_maximum")

_library = ctypes.CDLL(os.environ["FERRULE_LIBRARY"])
_library.fer_status_name.restype = ctypes.c_char_p


class Refused(ValueError):
    """The library gave a status instead of a number."""


def _function(name, *arguments):
    function = getattr(_library, name)
    function.argtypes = arguments
    function.restype = c_int
    result_type = arguments[-1]._type_

    def call(*values):
        given = [byref(v) if hasattr(t, "_type_") and isinstance(v, Structure) else Quantity(v) if t is Quantity else v
                 for t, v in zip(arguments, values)]
        result = result_type(*[0.0] * sum(kind is Quantity for _, kind in result_type._fields_)) if result_type is not Quantity else Quantity()
        status = function(*given, byref(result))
        if status:
            raise Refused(_library.fer_status_name(status).decode())
        return result

    return call


form_ferrule = _function("fer_form_ferrule", POINTER(Ferrule), Quantity, POINTER(Material), Load, POINTER(Forming))
minimum_reduction = _function("fer_minimum_reduction", POINTER(Ferrule), POINTER(Material), POINTER(Quantity))
closing_diameter = _function("fer_closing_diameter", POINTER(Ferrule), Quantity, POINTER(Material), Load,
                             POINTER(Quantity))
find_die_force = _function("fer_find_die_force", Quantity, Quantity, Quantity, c_int, POINTER(DieForce))
load_tube = _function("fer_load_tube", Quantity, Quantity, Quantity, Quantity, POINTER(Material), Load,
                      POINTER(TubeChange))
find_stem_strength = _function("fer_find_stem_strength", POINTER(Stem), POINTER(Material), Load, POINTER(StemStrength))
load_stem = _function("fer_load_stem", POINTER(Stem), POINTER(Material), Load, POINTER(StemChange))
find_hose_pressure = _function("fer_find_hose_pressure", POINTER(Ferrule), POINTER(Closing), POINTER(Material), Closing,
                               ClosingUncertainties, POINTER(HoseSqueeze))
crimp_shape = _function("fer_crimp_shape", Quantity, Quantity, c_int, POINTER(Shape))
