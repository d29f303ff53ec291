# SPDX-License-Identifier: MIT
"""The shop's tables to the library's values, all or nothing: a batch is judged from every row or not at all.

A crimp that is left out changes what a sample shows, so there is no report while a single cell cannot be read. Each trouble names
file, line, column, value and rule, and the library's status where it is the library that refuses.
"""
import pathlib
import sys
from dataclasses import dataclass
from datetime import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "depot"))

import ferrule  # noqa: E402
from tables import (EVERY_FILE, Folder, Trouble, Unreadable, Wrong, count, length, optional, pressure, ratio,  # noqa: E402,F401
                    read_table, yes)


class Refused(ValueError):
    """There is no report; the argument is the list of what is wrong."""


# ---- cells -------------------------------------------------------------------------------------------------

def clock(text, _decimal):
    """A time of day."""
    try:
        return time.fromisoformat(text)
    except ValueError:
        raise Wrong("a time of day is wanted here, such as 06:15") from None


def number(text, _decimal):
    """A number without a unit, such as an index."""
    try:
        value = float(text)
    except ValueError:
        raise Wrong("a number is wanted here, without a unit") from None
    if not abs(value) < 1e9:
        raise Wrong("a number is wanted here, without a unit")
    return value


def name(text, _decimal):
    """A name that can be seen: no marks that move a cursor or turn the direction of writing round."""
    if not text.strip(" -"):
        raise Wrong("a name is wanted here")
    if not text.isprintable():
        raise Wrong("a name has only characters that can be printed")
    return text


def some(text, decimal):
    """A whole number above 0: how many there are is never taken as known."""
    if not count(text, decimal):
        raise Wrong("a whole number above 0 is wanted here")
    return count(text, decimal)


BATCH = {"order": name, "parts": name, "crimps": some, "target": optional(length), "lower": length, "upper": length,
         "outside": optional(ratio), "confidence": optional(ratio), "index": optional(number),
         "working pressure": optional(pressure), "burst multiple": optional(number)}
CRIMPS = {"piece": count, "time": clock, "press": name, "die": name, "person": name, "diameter": length}
STUDY = {"part": count, "person": name, "diameter": length}
BLOCKS = {"block": length, "reading": length}
GAUGE = {"gauge": name, "resolution": length, "block uncertainty": length, "expansion": ratio}
BURSTS = {"piece": name, "pressure": pressure, "burst": optional(yes)}


# ---- files -------------------------------------------------------------------------------------------------

def _rows(folder, file, columns, troubles):
    """All rows of a file; what is wrong with them goes to `troubles`."""
    try:
        rows = read_table(folder / file, columns)
    except Unreadable as unreadable:
        troubles.extend(unreadable.args)
        return []
    for row in rows:
        troubles.extend(row.troubles)
    if not rows:
        troubles.append(Trouble(file, 0, file, "there is not a single row in it"))
    return rows


def _in_order(rows, troubles):
    """Crimps are judged in the order they were made: their numbers rise."""
    for before, row in zip(rows, rows[1:]):
        if "piece" in before.values and "piece" in row.values and row["piece"] <= before["piece"]:
            troubles.append(row.trouble("piece", "crimps are numbered in the order they were made: this number is not above the one before"))


def _row(folder, file, columns, troubles):
    """The only row of a file."""
    rows = _rows(folder, file, columns, troubles)
    if len(rows) != 1 and not any(trouble.file == file for trouble in troubles):
        troubles.append(Trouble(file, 0, f"{len(rows)} rows", "one row is wanted here"))
    return rows[0] if rows else None


@dataclass(frozen=True)
class Tables:
    """Rows as they were written; all of them could be read."""
    batch: object
    gauge: object
    crimps: list
    study: list
    blocks: list
    bursts: list


def read_tables(folder):
    """Every table of a folder, or Refused with all that is wrong in any of them."""
    troubles = []
    tables = Tables(batch=_row(folder, "batch.csv", BATCH, troubles), gauge=_row(folder, "gauge.csv", GAUGE, troubles),
                    crimps=_rows(folder, "crimps.csv", CRIMPS, troubles), study=_rows(folder, "study.csv", STUDY, troubles),
                    blocks=_rows(folder, "blocks.csv", BLOCKS, troubles), bursts=_rows(folder, "bursts.csv", BURSTS, troubles))
    _in_order(tables.crimps, troubles)
    if troubles:
        raise Refused(troubles)
    return tables


# ---- what the library refuses ------------------------------------------------------------------------------

def refuse(file, error, row=None, column="", where=""):
    """Refused for an error of the library: with the row that is at fault, where there is one, otherwise with the file."""
    rule = f"{error.code.sentence}{f' ({where})' if where else ''} [{error.name}]"
    raise Refused([row.trouble(column, rule) if row else Trouble(file, 0, file, rule)]) from None


# Statuses that are about what is asked, by the column of batch.csv that asks it.
ASKED = {"CONFIDENCE_OUT_OF_RANGE": "confidence", "LIMIT_WRONG_ORDER": "upper", "LIMIT_OUT_OF_RANGE": "lower",
         "STUDY_TOLERANCE_OUT_OF_RANGE": "upper", "TARGET_OUTSIDE_LIMITS": "target", "BURST_WORKING_MISSING": "working pressure",
         "INDEX_OUT_OF_RANGE": "index", "BATCH_ALLOWED_OUT_OF_RANGE": "outside", "BATCH_LOT_OUT_OF_RANGE": "crimps",
         "BURST_WORKING_OUT_OF_RANGE": "working pressure", "BURST_MULTIPLE_OUT_OF_RANGE": "burst multiple"}
# Statuses of a row that are about another column than that of its figure.
OTHER_COLUMN = {"STUDY_NUMBER_OUT_OF_RANGE": "part", "SAMPLE_KIND_OUT_OF_RANGE": "die"}


def ask(tables, file, call, rows, column):
    """What the library answers to a list of rows; where it refuses, Refused names the cell that it is about, if there is one.

    An error of a list does not say which of its items is at fault: it is the last of the shortest list that is refused for it.
    """
    try:
        return call(rows)
    except ferrule.Error as error:
        if error.name in ASKED:
            refuse("batch.csv", error, tables.batch, ASKED[error.name])
        if error.name.endswith(("_OUT_OF_RANGE", "_MISSING")):
            ends = (end for end in range(1, len(rows)) if _error_of(call, rows[:end]) == error.name)
            refuse(file, error, rows[next(ends, len(rows)) - 1], OTHER_COLUMN.get(error.name, column))
        refuse(file, error)


def _error_of(call, rows):
    try:
        call(rows)
    except ferrule.Error as error:
        return error.name
    return ""


def numbered(names):
    """A number for each name, in the order in which they come."""
    return {name: place for place, name in enumerate(dict.fromkeys(names))}
