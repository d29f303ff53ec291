# SPDX-License-Identifier: MIT
"""Tables as a person writes them: CSV files whose every cell is read with its unit, and whose trouble is told.

A trouble names file, line, column, value and rule; the row is left out, the others are read.
"""
import csv
from dataclasses import dataclass

import ferrule

NOT_MEASURED = "-"


@dataclass(frozen=True)
class Trouble:
    """One cell, row or file that cannot be used."""
    file: str
    line: int     # 0: the whole file
    column: str   # "": the whole row
    letter: str   # the column as a spreadsheet calls it
    value: str
    rule: str

    def __str__(self):
        place = self.file + (f":{self.line}" if self.line else "")
        cell = f', column "{self.column}" (cell {self.letter}{self.line})' if self.column else ""
        return f'{place}{cell}: "{self.value}": {self.rule}'


class Wrong(ValueError):
    """A cell breaks a rule; the message is the rule."""


# ---- what a cell can hold: each kind is a function from text to value ------------------------------------

def _quantity(kind):
    def read(text):
        try:
            return kind(text)
        except ferrule.Error as error:
            raise Wrong(error.rule) from None
    return read


length = _quantity(ferrule.Length)
force = _quantity(ferrule.Force)
angle = _quantity(ferrule.Angle)


def word(text):
    return text


def count(text):
    """A whole number, not negative."""
    if not (text.isascii() and text.isdigit()):
        raise Wrong("a whole number is wanted here, without a unit")
    return int(text)


def optional(kind):
    """A cell that may say "-"."""
    def read(text):
        return None if text == NOT_MEASURED else kind(text)
    return read


# ---- tables ------------------------------------------------------------------------------------------------

@dataclass(frozen=True)
class Row:
    """One row that could be read: values and the text they were read from, by column."""
    file: str
    line: int
    columns: tuple
    texts: dict
    values: dict

    def __getitem__(self, column):
        return self.values[column]

    def trouble(self, column, rule, value=None):
        """Trouble with one cell of this row; with column "": with the row as a whole."""
        text = self.texts.get(column, self.texts[self.columns[0]])
        return Trouble(self.file, self.line, column, _letter(self.columns, column),
                       text if value is None else value, rule)

    def blame(self, error, prefix="", otherwise=""):
        """Trouble for an error of the library: a status begins with the quantity at fault, as a column does."""
        def status_words(column):
            return (prefix + column).upper().replace(" ", "_")
        hits = [column for column in self.columns if error.name.startswith(status_words(column))]
        return self.trouble(max(hits, key=len, default=otherwise), error.rule)


def _letter(columns, column):
    if column not in columns:
        return ""
    number, letters = columns.index(column) + 1, ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def _lines(path):
    """Lines with comments made empty, so that the line numbers stay those of the file."""
    with open(path, encoding="utf-8-sig", newline="") as file:
        for line in file:
            yield "\n" if line.lstrip().startswith("#") else line


def _read_cells(file, line, columns, cells):
    """Values by column, and the trouble with the cells."""
    values, troubles = {}, []
    for (column, kind), text in zip(columns.items(), cells):
        try:
            if not text:
                raise Wrong('the cell is empty: write "-" for what was not measured'
                            if kind.__qualname__.startswith("optional") else "the cell is empty")
            values[column] = kind(text)
        except Wrong as wrong:
            troubles.append(Trouble(file, line, column, _letter(tuple(columns), column), text, str(wrong)))
    return values, troubles


def read_table(path, columns):
    """Rows of a file that could be read, in order, and the troubles with the others.

    `columns` gives the kind of each column; the file has them in the same order, named in its first row.
    """
    rows, troubles = [], []
    names = tuple(columns)
    heading_read = False
    try:
        reader = csv.reader(_lines(path))
        for cells in reader:
            line = reader.line_num
            cells = [cell.strip() for cell in cells]
            if not any(cells):
                continue
            if not heading_read:
                heading_read = True
                if tuple(cells) != names:
                    return [], [Trouble(path.name, line, "", "", ",".join(cells),
                                        "the columns have to be " + ",".join(names))]
                continue
            if len(cells) != len(names):
                troubles.append(Trouble(path.name, line, "", "", cells[0],
                                        f"the row has {len(cells)} cells, the heading {len(names)}"))
                continue
            values, wrong = _read_cells(path.name, line, columns, cells)
            troubles += wrong
            if not wrong:
                rows.append(Row(path.name, line, names, dict(zip(names, cells)), values))
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        return [], [Trouble(path.name, 0, "", "", str(path.name), f"the file cannot be read: {error}")]
    if not heading_read:
        return [], [Trouble(path.name, 0, "", "", path.name, "the file has no heading")]
    return rows, troubles
