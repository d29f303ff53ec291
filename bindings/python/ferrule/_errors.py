# SPDX-License-Identifier: MIT
"""Exceptions. The C part of the package calls new_error() where a call fails."""
import typing

from . import Status


class Fault(typing.NamedTuple):
    """One thing that is missing or wrong; check_order() gives objects with the same three attributes."""

    status: Status
    path: str
    message: str


class Error(ValueError):
    """A status that is not OK: code, name, function; path and value of the field at fault, "" and None where it is not one;
    faults, of which this is one: all of the order, joint, press and dies that were given."""

    code: int = Status.OK
    name = "OK"
    function = ""
    path = ""
    value = None
    faults = ()


def make_classes():
    """By their names: HoseError for all statuses that begin with HOSE; its docstring is their list."""
    made = {"Error": Error}
    for status in list(Status)[1:]:
        name = class_name(status)
        if name not in made:
            made[name] = type(name, (Error,), {"__module__": "ferrule", "__doc__": "Statuses:"})
        made[name].__doc__ += f"\n{status.name}: {status.sentence}"
    return made


def class_name(status):
    return status.name.split("_")[0].capitalize() + "Error"


def make_error(function, status, about=None):
    """The exception for a status, about what a text says."""
    return new_error(function, status, f"{function}: {status.sentence}" + (f" ({about})" if about else ""))


def new_error(function, status, message, path="", value=None, faults=()):
    """faults: status and path of each that is known; the one that is raised stands among them, otherwise before them."""
    error = classes[class_name(status)](message)
    error.code, error.name, error.function, error.path, error.value = status, status.name, function, path, value
    if (status, path) not in faults:
        faults = [(status, path), *faults]
    error.faults = tuple(Fault(status, path, status.sentence) for status, path in faults)
    return error


Error.__module__ = "ferrule"
classes = make_classes()
