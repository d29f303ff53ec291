# SPDX-License-Identifier: MIT
"""Words and exceptions: what needs no speed. The C part of the package calls these functions."""
import enum

classes = {}  # first word of a status: exception


class Error(ValueError):
    """A status that is not OK: code, name, function."""

    code: int = 0
    name = "OK"
    function = ""


def make_enum(name, text, words, readers):
    """words: (name, number, comment); readers: what each word can say of itself, and the function that says it."""
    cls = enum.IntEnum(name, [word[:2] for word in words], module="ferrule")
    cls.__doc__ = text
    for word, _, comment in words:
        if comment:
            cls[word].__doc__ = comment
    for reader, function in readers.items():
        setattr(cls, reader, property(function))
    return cls


def make_errors(module):
    """HoseError for all statuses that begin with HOSE; its docstring is their list."""
    module.Error, Error.__module__, Error.code = Error, "ferrule", module.Status.OK
    for status in list(module.Status)[1:]:
        word = status.name.split("_")[0]
        if word not in classes:
            classes[word] = type(f"{word.capitalize()}Error", (Error,), {"__module__": "ferrule", "__doc__": "Statuses:"})
            setattr(module, classes[word].__name__, classes[word])
        classes[word].__doc__ += f"\n{status.name}: {status.sentence}"


def make_error(function, status, about):
    """The exception for a status, about a text or the arguments of a call."""
    word = status.name.split("_")[0]
    detail = about if about is None or isinstance(about, str) else offender(word.lower(), about)
    error = classes[word](f"{function}: {status.sentence}" + (f" ({detail})" if detail else ""))
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
