# SPDX-License-Identifier: MIT
"""Exceptions. The C part of the package calls make_error() where a call fails."""
from . import Status


class Error(ValueError):
    """A status that is not OK: code, name, function."""

    code: int = Status.OK
    name = "OK"
    function = ""


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


def make_error(function, status, about):
    """The exception for a status, about a text or the arguments of a call."""
    detail = about if about is None or isinstance(about, str) else offender(status.name.split("_")[0].lower(), about)
    error = classes[class_name(status)](f"{function}: {status.sentence}" + (f" ({detail})" if detail else ""))
    error.code, error.name, error.function = status, status.name, function.split(":")[0]
    return error


def offender(word, arguments):
    """What a status is about: the struct that its first word names, the arguments named so, or all arguments."""
    for argument in arguments.values():
        struct = find_struct(argument, word)
        if struct is not None:
            return f"{word}: {struct!r}"
    named = {name: argument for name, argument in arguments.items() if name.startswith(word)}
    return ", ".join(f"{name}: {shown(argument)}" for name, argument in (named or arguments).items())


def find_struct(value, name):
    """The struct of this name in a value of ours: itself or what it holds."""
    if type(value).__module__ != "ferrule":
        return None
    if type(value).__name__.lower() == name:
        return value
    members = (find_struct(getattr(value, member), name) for member in getattr(type(value), "__match_args__", ()))
    return next((member for member in members if member is not None), None)


def shown(value):
    """An argument in a message: itself, or its type where it is long or cannot say what it is."""
    try:
        text = repr(value) if not hasattr(value, "__len__") or len(value) <= 200 else ""
    except Exception:
        text = ""
    return text if 0 < len(text) <= 200 else type(value).__name__


Error.__module__ = "ferrule"
classes = make_classes()
