# SPDX-License-Identifier: MIT
"""Tables as a person writes them: CSV files whose cells carry their units, and whose trouble is reported cell by cell.

A trouble names file, line, column, value and rule. It concerns its row only: the others are read all the same.
"""
import csv
import datetime
from dataclasses import dataclass

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


# ---- what a cell can hold: each kind is a function from text to value --------------------------------------

def _quantity(kind):
    def read(text):
        try:
            return kind(text)
        except ferrule.Error as error:
            raise Wrong(error.code.sentence) from None
    return read


length = _quantity(ferrule.Length)
force = _quantity(ferrule.Force)
angle = _quantity(ferrule.Angle)
pressure = _quantity(ferrule.Pressure)
ratio = _quantity(ferrule.Ratio)


def word(text):
    """Any text."""
    return text


def count(text):
    """A whole number, not negative."""
    if not (text.isascii() and text.isdigit()):
        raise Wrong("a whole number is wanted here, without a unit")
    return int(text)


def date(text):
    """A day as 2026-11-30."""
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        raise Wrong("a date is wanted here, such as 2026-11-30") from None


def person(text):
    """Somebody who answers for something."""
    if not text.strip(" -"):
        raise Wrong("nobody is named")
    return text


def yes(text):
    """Only this word says it."""
    if text != "yes":
        raise Wrong(f'write "yes" or "{NOT_MEASURED}"')
    return True


def choice(words):
    """A word of one of the library's lists, in small letters."""
    def read_choice(text):
        try:
            return words[text.upper().replace(" ", "_").replace("-", "_")]
        except KeyError:
            known = ", ".join(word.name.lower().replace("_", " ") for word in words)
            raise Wrong(f"one of these is wanted here: {known}" if len(words) < 9 else "this word is not known") from None
    return read_choice


def not_zero(kind):
    """A quantity that is there: 0 would mean to the library that it is not."""
    def read_not_zero(text):
        value = kind(text)
        if not value:
            raise Wrong("zero is no measurement")
        return value
    return read_not_zero


def optional(kind):
    """A cell that may say "-"; its value is None then."""
    def read_optional(text):
        return None if text == NOT_MEASURED else kind(text)
    return read_optional


def _read_cell(kind, text):
    if text:
        return kind(text)
    hint = f': write "{NOT_MEASURED}" for what was not measured' if kind.__name__ == "read_optional" else ""
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


def _read_row(file, line, columns, cells):
    """A row with its values and its trouble; a row of the wrong length keeps its text only."""
    names = tuple(columns)
    row = Row(file, line, names, dict(zip(names, cells)), {})
    if len(cells) != len(names):
        rule = f"the row has {len(cells)} cells, the heading has {len(names)}"
        column = names[len(cells)] if len(cells) < len(names) else names[-1]
        return Row(file, line, names, row.texts, {}, (row.trouble(column, rule),))
    values, troubles = {}, []
    for column, text in zip(names, cells):
        try:
            values[column] = _read_cell(columns[column], text)
        except Wrong as wrong:
            troubles.append(row.trouble(column, str(wrong)))
    return Row(file, line, names, row.texts, values, tuple(troubles))


# ---- files -------------------------------------------------------------------------------------------------

def _lines(path):
    """Lines with comments made empty, so that the line numbers stay those of the file."""
    with open(path, encoding="utf-8-sig") as file:
        for line in file:
            yield "" if line.lstrip().startswith("#") else line.rstrip("\n")


def _filled_rows(path):
    """Line number and cells of each row that holds anything. Each line is a row, so that an open quote spoils its own only."""
    try:
        for number, line in enumerate(_lines(path), 1):
            cells = [cell.strip() for cell in next(csv.reader([line]), [])]
            if any(cells):
                yield number, cells
    except UnicodeDecodeError:
        raise Unreadable(Trouble(path.name, 0, path.name, "the file cannot be read: it is not text in UTF-8")) from None
    except (OSError, csv.Error) as error:
        raise Unreadable(Trouble(path.name, 0, path.name, f"the file cannot be read: {error}")) from None


def _heading_fault(heading, columns):
    """What is wrong with the first row."""
    if len(heading) == 1 and (";" in heading[0] or "\t" in heading[0]):
        return "the cells are separated by semicolons or tabs: save the table with commas"
    missing = [name for name in columns if name not in heading]
    unknown = [name for name in heading if name not in columns]
    faults = [f"{what}: {', '.join(names)}" for what, names in (("missing", missing), ("not known", unknown)) if names]
    return "columns " + "; ".join(faults) if faults else "a column stands in it twice"


def read_table(path, columns):
    """All rows of a file, in order; each tells its own trouble.

    `columns` gives the kind of each column; the first row of the file names them, in any order.
    """
    rows = _filled_rows(path)
    line, heading = next(rows, (0, []))
    if sorted(heading) != sorted(columns):
        raise Unreadable(Trouble(path.name, line, ",".join(heading), _heading_fault(heading, columns)))
    columns = {name: columns[name] for name in heading}
    return [_read_row(path.name, line, columns, cells) for line, cells in rows]
