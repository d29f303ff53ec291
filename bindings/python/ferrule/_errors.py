# SPDX-License-Identifier: MIT
"""Exceptions. The C part of the package calls new_error() where a call fails."""
from . import Status


class Error(ValueError):
    """A status that is not OK: code, name, function; path and value of the field at fault, "" and None where it is not one."""

    code: int = Status.OK
    name = "OK"
    function = ""
    path = ""
    value = None


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


def new_error(function, status, message, path="", value=None):
    error = classes[class_name(status)](message)
    error.code, error.name, error.function, error.path, error.value = status, status.name, function, path, value
    return error


Error.__module__ = "ferrule"
classes = make_classes()
