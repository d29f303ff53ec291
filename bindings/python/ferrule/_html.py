# SPDX-License-Identifier: MIT
"""Structs as tables for a notebook. The C part of the package calls html()."""
import re
from enum import IntEnum
from html import escape
from typing import Any

import ferrule
from . import show

CELL = 'style="text-align:left;padding:.1em .8em .1em {0}em;vertical-align:top;{1}"'
DIGITS = 6  # that are shown; the whole number stands in the cell's title


# What there is to set and what follows from it: not shown of a set-up that is not ready.
TO_SET = ("die", "dial", "springback_dial", "shape", "equivalent", "clearance", "zone")
NOT_SHOWN = "not shown: this is not to be crimped"


def html(value: Any, _: Any = None) -> str:
    """A table of names and values; a set-up with its readiness, remarks and cautions before it, and a joint, with their drawing."""
    rows = "".join(row(*line) for line in lines(value, 0))
    name = escape(type(value).__name__)
    if isinstance(value, ferrule.Setup):
        name += head(value)
    table = f'<table><caption style="text-align:left;font-weight:bold">{name}</caption><tbody>{rows}</tbody></table>'
    picture = drawn(value)
    return f'<div style="display:flex;flex-wrap:wrap;gap:1em;align-items:flex-start">{table}{picture}</div>' if picture else table


def head(setup: Any) -> str:
    """Whether it may be crimped, then remarks by severity and cautions: what comes before any figure."""
    said = (f'<div style="border:3px solid;padding:.3em .6em;margin:.3em 0;font-size:1.2em">{escape(show.readiness(setup))}</div>')
    groups: dict[str, list[str]] = {}
    for remark in show.remarks(setup):
        groups.setdefault(remark.heading, []).append(remark.text)
    groups["CAUTIONS"] = [caution.text for caution in setup.cautions]
    for heading, texts in groups.items():
        items = "".join(f"<li>{escape(text)}</li>" for text in texts)
        said += f'<div>{heading}</div><ul style="margin:0;font-weight:normal">{items}</ul>' if items else ""
    return said


def drawn(value: Any) -> str:
    """The drawing of what can be drawn; nothing where it cannot be drawn as it is."""
    from . import drawing
    try:
        if isinstance(value, ferrule.Setup):
            return drawing.die(value).svg if show.may_be_set(value) or not value.die.found else ""
        if isinstance(value, (ferrule.Joint, ferrule.Order)):
            return drawing.section(value).svg
    except ferrule.Error:
        pass
    return ""


def lines(value: Any, depth: int) -> list[tuple[str, str, str, str, int]]:
    """Of each member: name, what it means, text, exact text, how deep it stands."""
    found = []
    hidden = hidden_of(value) if isinstance(value, ferrule.Setup) else ()
    for name in type(value).__match_args__:
        if name in hidden:
            found.append((name, getattr(type(value), name).__doc__ or "", NOT_SHOWN, "", depth))
            continue
        member, about = getattr(value, name), getattr(type(value), name).__doc__ or ""
        if hasattr(type(member), "status") and hasattr(type(member), "value"):  # what may not be there
            if member.value is None:
                found.append((name, about, f"not computed: {member.status.sentence}", member.status.name, depth))
                continue
            member = member.value
        if member is None:  # of what may not be there, when it is shown itself
            found.append((name, about, "none", "", depth))
            continue
        if hasattr(type(member), "__match_args__"):
            said = meaning_of_zero(about) if is_blank(member) else ""
            if said:
                found.append((name, about, said, "", depth))
                continue
            found += [(name, about, "", "", depth), *lines(member, depth + 1)]
        else:
            found.append((name, about, left_out(member, about) or text(member), exact(member), depth))
    return found


def hidden_of(setup: Any) -> tuple[str, ...]:
    """Members that are not shown; where there is no die it is shown what to buy."""
    if show.may_be_set(setup):
        return ()
    return TO_SET if setup.die.found else TO_SET[1:]


def meaning_of_zero(about: str) -> str:
    """What 0 means in a member that may be left out: its comment says it."""
    said = re.search(r"(?<![\d.,])0: ([^;,(]+)", about)
    return said[1].strip() if said else ""


def left_out(value: Any, about: str) -> str:
    return meaning_of_zero(about) if not value and not isinstance(value, (bool, IntEnum, tuple)) else ""


def is_blank(value: Any) -> bool:
    """Whether everything in it is 0, that is, left out."""
    names = getattr(type(value), "__match_args__", None)
    return all(is_blank(getattr(value, name)) for name in names) if names else not value


def exact(value: Any) -> str:
    return "" if isinstance(value, (tuple, IntEnum, bool)) else str(value)


def text(value: Any) -> str:
    """A value as it is read: quantities with their unit, words in small letters, sets as their sentences."""
    if isinstance(value, tuple):
        return "\n".join(map(text, value)) or "none"
    if isinstance(value, IntEnum):
        said = getattr(value, "sentence", None) or getattr(value, "text", None)
        return said or value.name.lower().replace("_", " ")
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.{DIGITS}g}"
    if isinstance(value, int):
        return str(value)
    number, _, unit = str(value).partition(" ")
    return f"{short(float(number))} {unit}"


def short(number: float) -> str:
    """To the digits that are shown, without an exponent where it can be helped."""
    digits = f"{number:.{DIGITS}g}"
    return f"{number:.0f}" if "e" in digits and 1e5 <= abs(number) < 1e15 else digits


def row(name: str, about: str, said: str, whole: str, depth: int) -> str:
    style = CELL.format(0.8 + depth, "white-space:nowrap")
    head = f'<th scope="row" title="{escape(about)}" {style}>{escape(name.rstrip("_").replace("_", " "))}</th>'
    if not said:
        return f"<tr>{head.replace('<th', '<th colspan=2', 1)}</tr>"
    title = f' title="{escape(whole)}"' if whole else ""
    cell = escape(said).replace("\n", "<br>")
    return f"<tr>{head}<td{title} {CELL.format(0.8, '')}>{cell}</td></tr>"
