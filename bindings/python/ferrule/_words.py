# SPDX-License-Identifier: MIT
"""Words: the classes of enums. The C part of the package calls this where one is asked for."""
import enum


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
