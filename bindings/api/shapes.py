# SPDX-License-Identifier: MIT
"""What the languages with fixed types need of api.json besides describe.py: names, words, comments.

Used by write_classes.py of java and csharp. Usage of those: write_classes.py OUTPUT_FOLDER --script
"""
import hashlib
import itertools
import pathlib
import re
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import describe  # noqa: E402
from describe import Call, caps, outdated  # noqa: E402, F401

MOST_VARIANTS = 8  # of one function, with text or a quantity for each argument


def camel(name):
    first, *rest = name.strip("_").split("_")
    return first + "".join(part.capitalize() for part in rest)


class Shapes:
    """The API of describe.py, and the shape of each value."""

    def __init__(self):
        self.api = describe.Api()
        self.structs, self.enums = self.api.structs, self.api.enums
        self.units = {unit for s in self.structs.values() for unit in s.units}
        self.functions = [f for f in self.api.functions if f.name not in self.units]
        self.calls = {f.name: Call(self.api, f) for f in self.functions}
        self.words_of_c = {f.name for f in self.functions} | {m.name for s in self.structs.values() for m in s.members}

    def form(self, base):
        if base in self.structs:
            return self.structs[base].form
        if base in self.enums:
            return "ENUM"
        return {"double": "NUMBER", "bool": "BOOL", "char": "TEXT"}.get(base, "INTEGER")

    def is_class(self, base):
        return self.form(base) in ("QUANTITY", "STRUCT", "FOUND")

    def size(self, base):
        """Words of a value, as typed.c has them."""
        form = self.form(base)
        if form not in ("STRUCT", "FOUND"):
            return 1
        return (form == "FOUND") + sum(self.size(m.type) * int(m.array or 1) for m in self.structs[base].members)

    def takes_text(self, base):
        """A quantity, or a struct for which the text of its first member may stand."""
        form = self.form(base)
        if form != "STRUCT":
            return form == "QUANTITY"
        first = self.structs[base].members[0]
        return self.structs[base].shorthand() and not first.array and self.takes_text(first.type)

    def is_amount(self, base):
        return base.removeprefix("fer_") not in self.api.scales

    def base_unit(self, base):
        return self.structs[base].members[0].name

    def enum_of(self, base):
        return caps(self.structs[base].element) if self.form(base) == "SET" else caps(base)

    def layout(self):
        """A short text that differs where the words or the functions differ."""
        rows = [(s.c_name, s.form, [(m.name, m.type, m.array, m.optional) for m in s.members]) for s in self.structs.values()]
        rows += [(e.c_name, [(name, number) for name, _, _, number in e.values]) for e in self.enums.values()]
        rows += [(name, call.arguments, call.results) for name, call in self.calls.items()]
        return hashlib.sha256(repr(rows).encode()).hexdigest()[:32]

    def named(self, text, spell):
        """A comment with the names of functions and members as the language spells them."""
        return re.sub(r"\b[a-z]+(?:_[a-z0-9]+)+\b", lambda m: spell(m[0]) if m[0] in self.words_of_c else m[0], text)


def text_variants(textual):
    """For each argument whether it is text: all ways but that without text, or only all of them where that is too many."""
    places = [i for i, one in enumerate(textual) if one]
    ways = list(itertools.product((False, True), repeat=len(places)))[1:]
    if 2 ** len(places) > MOST_VARIANTS:
        ways = [(True,) * len(places)]
    return [[bool(dict(zip(places, way)).get(i)) for i in range(len(textual))] for way in ways]


def result_text(f, name):
    text = f.notes.get(name) or f.sections.get(name, "")
    return re.sub(r"[;,] (all lengths )?(NaN|empty|0) on failure$", "", text)


def layout_source(shapes):
    return ('/* Written by shapes.py. */\n#include "typed.h"\n'
            f'const char typed_layout_text[] = "{shapes.layout()}";\n')


def write(folder, files):
    """Writes the files whose text is another one, and a list of all of them."""
    folder = pathlib.Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        path = folder / name
        if not path.exists() or path.read_text(encoding="utf-8") != text:
            path.write_text(text, encoding="utf-8")
