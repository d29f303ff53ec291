# SPDX-License-Identifier: MIT
"""Tables as a person writes them: CSV files whose cells carry their units, and whose trouble is reported cell by cell.

A trouble names file, line, column, value and rule. It concerns its row only: the others are read all the same.

What a file itself shows is taken from it: the order of its columns and their separator (comma, semicolon or tab) from its heading,
UTF-16 from its byte order mark, the ends of its lines. What it cannot show has to be said, and is never guessed: a decimal comma,
and an encoding of one byte a character. Without it the cells and files concerned are trouble.
"""
import codecs
import csv
import datetime
import io
from dataclasses import dataclass, replace
from pathlib import Path

import ferrule

NOT_MEASURED = "-"


@dataclass(frozen=True)
class Trouble:
    """One cell, row or file that cannot be used."""
    file: str
    line: int          # 0: the whole file
    value: str
    rule: str
    column: str = ""   # "": the whole row
    letter: str = ""   # the column as a spreadsheet calls it

    def __str__(self):
        place = self.file + (f", line {self.line}" if self.line else "")
        cell = f', column "{self.column}" ({self.letter}{self.line})' if self.column else ""
        return f'{place}{cell}: "{self.value}": {self.rule}'


class Wrong(ValueError):
    """A cell breaks a rule; the message is the rule."""


class Unreadable(ValueError):
    """A file as a whole cannot be used; the argument is the trouble."""


# ---- files and what is said of them ------------------------------------------------------------------------

@dataclass(frozen=True)
class File:
    """A table, and what it cannot show by itself."""
    path: Path
    decimal: str = "."    # the decimal sign of its quantities
    encoding: str = ""    # where it is neither UTF-8 nor begins with a byte order mark

    @property
    def name(self):
        return self.path.name


@dataclass(frozen=True)
class Folder:
    """A folder of tables; `folder / name` is one of them."""
    path: Path
    decimal_comma: tuple = ()   # names of the files whose decimal sign is the comma; EVERY_FILE: all
    encoding: str = ""

    def __truediv__(self, name):
        is_comma = self.decimal_comma == EVERY_FILE or name in self.decimal_comma
        return File(self.path / name, "," if is_comma else ".", self.encoding)


EVERY_FILE = ("*",)


# ---- what a cell can hold: each kind is a function from text and decimal sign to value -----------------------

def _quantity(kind):
    def read(text, decimal):
        try:
            return kind(text) if decimal == "." else kind(text, decimal=decimal)
        except ferrule.Error as error:
            hint = ", for all of the file by --decimal-comma" if error.name == "TEXT_COMMA" else ""
            raise Wrong(error.code.sentence + hint) from None
    return read


length = _quantity(ferrule.Length)
force = _quantity(ferrule.Force)
angle = _quantity(ferrule.Angle)
pressure = _quantity(ferrule.Pressure)
ratio = _quantity(ferrule.Ratio)


def word(text, _decimal):
    """Any text."""
    return text


def count(text, _decimal):
    """A whole number, not negative."""
    if not (text.isascii() and text.isdigit()):
        raise Wrong("a whole number is wanted here, without a unit")
    return int(text)


def date(text, _decimal):
    """A day as 2026-11-30."""
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        raise Wrong("a date is wanted here, such as 2026-11-30") from None


def person(text, _decimal):
    """Somebody who answers for something."""
    if not text.strip(" -"):
        raise Wrong("nobody is named")
    return text


def yes(text, _decimal):
    """Only this word says it."""
    if text != "yes":
        raise Wrong(f'write "yes" or "{NOT_MEASURED}"')
    return True


def choice(words):
    """A word of one of the library's lists, in small letters."""
    def read_choice(text, _decimal):
        try:
            return words[text.upper().replace(" ", "_").replace("-", "_")]
        except KeyError:
            known = ", ".join(word.name.lower().replace("_", " ") for word in words)
            raise Wrong(f"one of these is wanted here: {known}" if len(words) < 9 else "this word is not known") from None
    return read_choice


def not_zero(kind):
    """A quantity that is there: 0 would mean to the library that it is not."""
    def read_not_zero(text, decimal):
        value = kind(text, decimal)
        if not value:
            raise Wrong("zero is no measurement")
        return value
    return read_not_zero


def optional(kind):
    """A cell that may say "-"; its value is None then."""
    def read_optional(text, decimal):
        return None if text == NOT_MEASURED else kind(text, decimal)
    return read_optional


class _Column:
    """Reads the cells of one column. Equal texts have equal values, and most texts of a long table come again and again."""

    def __init__(self, name, kind, decimal):
        self.name, self.kind, self.decimal, self.known = name, kind, decimal, {}

    def read(self, text):
        value = self.known.get(text, self)  # itself: not known
        if value is self:
            value = self.known[text] = self._read_new(text)
        return value

    def _read_new(self, text):
        if text:
            return self.kind(text, self.decimal)
        hint = f': write "{NOT_MEASURED}" for what was not measured' if self.kind.__name__ == "read_optional" else ""
        raise Wrong("the cell is empty" + hint)


# ---- rows --------------------------------------------------------------------------------------------------

@dataclass(frozen=True)
class Row:
    """One row: the text of its cells and the values that could be read, by column, and the trouble with the rest."""
    file: str
    line: int
    columns: tuple
    texts: dict
    values: dict
    troubles: tuple = ()

    def __getitem__(self, column):
        return self.values[column]

    def trouble(self, column, rule):
        """Trouble with one cell; with column "" with the row, which is then named by its first cell."""
        text = self.texts.get(column or self.columns[0], "")  # a row that is too short has no text there
        return Trouble(self.file, self.line, text, rule, column, _letter(self.columns, column))

    def blame(self, error, prefix="", otherwise=""):
        """Trouble for an error of the library.

        The name of a status begins with the quantity at fault, HOSE_OUTSIDE_..., and so does its column's.
        """
        def begins(column):
            return error.name.startswith((prefix + column).upper().replace(" ", "_"))
        return self.trouble(max(filter(begins, self.columns), key=len, default=otherwise), error.code.sentence)


def _letter(columns, column):
    if column not in columns:
        return ""
    number, letters = columns.index(column) + 1, ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def _read_row(file, line, columns, names, cells):
    """A row with its values and its trouble; a row of the wrong length keeps its text only."""
    row = Row(file, line, names, dict(zip(names, cells)), {})
    if len(cells) != len(names):
        hint = ": a cell with the separator in it needs quotes" if len(cells) > len(names) else ""
        rule = f"the row has {len(cells)} cells, the heading has {len(names)}{hint}"
        column = names[len(cells)] if len(cells) < len(names) else names[-1]
        return replace(row, troubles=(row.trouble(column, rule),))
    troubles = []
    for column, text in zip(columns, cells):
        try:
            row.values[column.name] = column.read(text)
        except Wrong as wrong:
            troubles.append(row.trouble(column.name, str(wrong)))
    return replace(row, troubles=tuple(troubles)) if troubles else row


# ---- text out of bytes -------------------------------------------------------------------------------------

MARKS = {codecs.BOM_UTF8: "utf-8-sig", codecs.BOM_UTF16_LE: "utf-16", codecs.BOM_UTF16_BE: "utf-16"}


def _unreadable(file, why):
    return Unreadable(Trouble(file.name, 0, file.name, f"the file cannot be read: {why}"))


def _decode(file, data):
    """By its byte order mark, else as UTF-8, else in the encoding that is said of it."""
    marked = next((encoding for mark, encoding in MARKS.items() if data.startswith(mark)), "")
    try:
        return data.decode(marked or "utf-8")
    except UnicodeDecodeError:
        if marked:
            raise _unreadable(file, f"it begins as {marked} and goes on as something else") from None
    if not file.encoding:
        raise _unreadable(file, "it is not text in UTF-8; of a file in Latin-1 say so: --encoding latin-1") from None
    try:
        return data.decode(file.encoding)
    except UnicodeDecodeError:
        raise _unreadable(file, f"it is neither text in UTF-8 nor in {file.encoding}") from None


def _lines(file):
    """Numbered lines, whatever ends them, without the comments."""
    try:
        text = _decode(file, file.path.read_bytes())
    except OSError as error:
        raise _unreadable(file, error) from None
    if "\0" in text:
        raise _unreadable(file, "it is no text, or in UTF-16 without a byte order mark: save it as CSV in UTF-8")
    for number, line in enumerate(io.StringIO(text, newline=None), 1):
        if line.strip() and not line.lstrip().startswith(("#", '"#')):  # programs put quotes round a comment with commas
            yield number, line.rstrip("\n")


# ---- tables ------------------------------------------------------------------------------------------------

SEPARATORS = {",": "commas", ";": "semicolons", "\t": "tabs"}


def _split(file, line, separator):
    """Cells of one line. Each line is a row, so that an open quote spoils its own only."""
    try:
        return [cell.strip() for cell in next(csv.reader([line], delimiter=separator), [])]
    except csv.Error as error:
        raise _unreadable(file, error) from None


def _without_empty_end(cells, count):
    """Spreadsheets write empty cells behind the last column."""
    while len(cells) > count and not cells[-1]:
        cells.pop()
    return cells


def _quoted(names):
    return ", ".join(f'"{name}"' for name in names)


def _refuse_heading(file, number, line, names, separator, columns):
    lacks, others = [c for c in columns if c not in names], [n for n in names if n not in columns]
    twice = sorted({name for name in names if names.count(name) > 1 and name in columns})
    said = [f"{what} {_quoted(which)}" for what, which in (("it lacks", lacks), ("of no meaning here:", others), ("twice:", twice)) if which]
    rule = f"the heading, separated by {SEPARATORS[separator]}, has to name each column once: {'; '.join(said)}"
    raise Unreadable(Trouble(file.name, number, line, rule))


def _read_heading(file, number, line, columns):
    """Separator and names, in whatever order: the separator is the one that gives the names that are wanted."""
    found = {separator: _without_empty_end(_split(file, line, separator), 1) for separator in SEPARATORS}
    best = max(found, key=lambda separator: len(set(found[separator]) & set(columns)))
    if sorted(found[best]) != sorted(columns):
        _refuse_heading(file, number, line, found[best], best, columns)
    return best, tuple(found[best])


def read_table(file, columns):
    """All rows of a file, in order; each tells its own trouble.

    `columns` gives the kind of each column; the first row of the file names them, in any order. A path stands for a file of which
    nothing has to be said.
    """
    file = File(file) if isinstance(file, Path) else file
    lines = _lines(file)
    number, line = next(lines, (0, ""))
    separator, names = _read_heading(file, number, line, columns)
    readers = [_Column(name, columns[name], file.decimal) for name in names]
    rows = ((number, _without_empty_end(_split(file, line, separator), len(names))) for number, line in lines)
    return [_read_row(file.name, number, readers, names, cells) for number, cells in rows if any(cells)]
