# SPDX-License-Identifier: MIT
"""The record of a job: the calls that were made, with what they were given and what they said, in a chain that shows changes.

    >>> from ferrule import record
    >>> job = record.Account("101-7", facts={"who": "bench 1", "hose_batch": "A 24-03"})
    >>> job.call("cut_length", overall="1250 mm", first={"cut_off": "27.5 mm"}, second={"cut_off": "31 mm"})
    '1191.5 mm'
    >>> record.replay(job.record)
    []

The functions are pure, so anybody can make a record's calls again: replay() does, and names what differs. A record is one line of
JSON in the canonical form of RFC 8785, so that its hash is the same in every language; `before` holds the hash of the record before it.

A chain that one person holds alone shows nothing against that person: keep the day's last hash where others have it, too - on the
label, in the customer's papers. A record does not make an assembly safe: what was not called stands in none.
"""
import collections.abc
import hashlib
import json
import math
import os
import pathlib
import typing
from typing import Any

import ferrule

__all__ = ["Account", "Difference", "FORM", "NOTHING_BEFORE", "append", "broken_link", "canonical", "digest", "format_number", "label",
           "page", "read", "replay"]
FORM = "ferrule-record-1"
NOTHING_BEFORE = "0" * 64
# Another version or another mathematical library may differ by so much in a number; never in a word, a status or a count.
WITHIN = 1e-9


# ---- canonical form: RFC 8785 --------------------------------------------------------------------------------

def format_number(number: float) -> str:
    """A number as ECMAScript writes it: the fewest digits that read back to the same bits.

        >>> format_number(1e21), format_number(0.000001), format_number(4.50), format_number(-0.0)
        ('1e+21', '0.000001', '4.5', '0')
    """
    if not math.isfinite(number):
        raise ValueError(f"{number} has no place in a record: it is not a finite number")
    if number == 0:
        return "0"
    digits, _, power = f"{abs(number)!r}".partition("e")
    whole, _, part = digits.partition(".")
    figures = (whole + part).lstrip("0")
    point = len(whole) + int(power or 0) - (len(whole + part) - len(figures))  # figures in front of the decimal point
    figures = figures.rstrip("0")
    if len(figures) <= point <= 21:
        text = figures + "0" * (point - len(figures))
    elif 0 < point <= 21:
        text = f"{figures[:point]}.{figures[point:]}"
    elif -6 < point <= 0:
        text = f"0.{'0' * -point}{figures}"
    else:
        text = f"{figures[0]}{'.' * (len(figures) > 1)}{figures[1:]}e{'+' * (point > 0)}{point - 1}"
    return "-" * (number < 0) + text


def _utf16(name: str) -> bytes:
    """RFC 8785 sorts by code units of UTF-16."""
    return name.encode("utf-16-be")


def written(value: Any) -> str:
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, int):
        if abs(value) >= 2**53:
            raise ValueError(f"{value} has no place in a record: a whole number beyond 2^53 - 1 is not the same in every language")
        return str(value)
    if isinstance(value, float):
        return format_number(value)
    if isinstance(value, (list, tuple)):
        return f"[{','.join(map(written, value))}]"
    if isinstance(value, dict):
        members = (f"{written(name)}:{written(value[name])}" for name in sorted(value, key=_utf16))
        return f"{{{','.join(members)}}}"
    raise TypeError(f"{type(value).__name__} has no place in a record: text, numbers, true, false, lists and dicts have")


def canonical(value: Any) -> bytes:
    """Plain data as canonical JSON (RFC 8785): the same bytes in every language.

        >>> canonical({"b": 1e30, "a": [True, None, "€"]}).decode()
        '{"a":[true,null,"€"],"b":1e+30}'
    """
    return written(value).encode("utf-8")  # a lone surrogate is no text, and refused here


def digest(record: Any) -> str:
    """SHA-256 (FIPS 180-4) of the canonical bytes, 64 hexadecimal digits."""
    return hashlib.sha256(canonical(record)).hexdigest()


# ---- calls ---------------------------------------------------------------------------------------------------

def plain(value: Any) -> Any:
    """Values of the library as plain data: quantities and words as text, sets as lists."""
    if isinstance(value, dict):
        return {str(name): plain(one) for name, one in value.items()}
    if hasattr(value, "to_dict"):
        return plain(value.to_dict())
    if isinstance(value, (list, tuple, set, frozenset)):
        return [plain(one) for one in value]
    if isinstance(value, float) and not math.isfinite(value):
        return None
    if value is None or type(value) in (bool, int, float, str):
        return value
    return value.name if hasattr(value, "name") else str(value)


def function_named(name: Any) -> Any:
    """A function of the library; a record names no other."""
    function = getattr(ferrule, name, None) if isinstance(name, str) and not name.startswith("_") else None
    if type(function).__name__ != "builtin_function_or_method":
        raise ValueError(f"{name!r} is no function of the library")
    return function


def made(name: str, arguments: dict[str, Any]) -> dict[str, Any]:
    """A call with what it said: its result, or the status that refuses it."""
    call: dict[str, Any] = {"arguments": plain(arguments), "function": name}
    try:
        call["result"] = plain(function_named(name)(**arguments))
    except ferrule.Error as error:
        call["status"] = error.name
    return call


class Account:
    """Makes calls and keeps them: `record` is the record so far.

    job: number or name of the job; before: hash of the record before this one; facts: what no function knows, such as who, when,
    batches of hose and couplings, press and gauge.
    """

    def __init__(self, job: str, before: str = NOTHING_BEFORE, facts: collections.abc.Mapping[str, Any] | None = None) -> None:
        if not is_digest(before):
            raise ValueError(f"before is {before!r}, and not the 64 hexadecimal digits of a hash")
        self.record: dict[str, Any] = {"before": before, "calls": [], "facts": plain(dict(facts or {})), "form": FORM, "job": str(job),
                                       "library": f"ferrule {ferrule.__version__}"}

    def call(self, function: str, **arguments: Any) -> Any:
        """Makes a call of the library, keeps it, and gives its result as plain data; None where its status refuses it."""
        call = made(function, plain(arguments))
        canonical(call)  # what cannot be written is refused now, and not when the day is over
        self.record["calls"].append(call)
        return call.get("result")

    @property
    def digest(self) -> str:
        """The hash of the record so far, which the next record names as the one before."""
        return digest(self.record)


# ---- replay ----------------------------------------------------------------------------------------------------

class Difference(typing.NamedTuple):
    """A call that says something else when it is made again."""
    call: int             #: its place in the record, from 0
    function: str         #: the function that was called
    paths: list[str]      #: what differs
    within_accuracy: bool  #: only numbers differ, by no more than another mathematical library may


def replay(record: collections.abc.Mapping[str, Any]) -> list[Difference]:
    """Makes every call of a record again: those that do not say the same; empty where all do, to the last byte.

        >>> job = Account("1")
        >>> _ = job.call("end_thrust", pressure="55 MPa", seal_diameter="12.95 mm")
        >>> job.record["calls"][0]["arguments"]["pressure"] = "50 MPa"
        >>> replay(job.record)[0].paths
        ['/result']
    """
    check_form(record)
    found = []
    for place, call in enumerate(record["calls"]):
        again = again_of(call)
        if canonical(again) != canonical(call):
            paths = list(differing(call, again, ""))
            found.append(Difference(place, str(call.get("function")), [path for path, _ in paths], all(near for _, near in paths)))
    return found


def again_of(call: Any) -> Any:
    """The call made again; of one that cannot be made, why."""
    try:
        return made(call["function"], call["arguments"])
    except (AttributeError, KeyError, TypeError, ValueError, ferrule.Error) as error:
        return {"impossible": str(error)}


def differing(before: Any, after: Any, path: str) -> collections.abc.Iterator[tuple[str, bool]]:
    """Paths that differ, each with whether it is a number within the accuracy."""
    if isinstance(before, dict) and isinstance(after, dict):
        for name in sorted(before.keys() | after.keys()):
            yield from differing(before.get(name), after.get(name), f"{path}/{name}")
    elif isinstance(before, list) and isinstance(after, list) and len(before) == len(after):
        for place, pair in enumerate(zip(before, after)):
            yield from differing(*pair, f"{path}/{place}")
    elif before != after or type(before) is not type(after):
        yield path, is_near(before, after)


def is_near(before: Any, after: Any) -> bool:
    """Numbers of one unit, or bare ones, within a billionth."""
    if isinstance(before, str) and isinstance(after, str):
        (a, _, unit), (b, _, other) = before.partition(" "), after.partition(" ")
        try:
            return unit == other and math.isclose(float(a), float(b), rel_tol=WITHIN, abs_tol=WITHIN)
        except ValueError:
            return False
    return type(before) is float and type(after) is float and math.isclose(before, after, rel_tol=WITHIN, abs_tol=WITHIN)


# ---- on paper --------------------------------------------------------------------------------------------------

def leaves(value: Any, path: str) -> collections.abc.Iterator[tuple[str, str]]:
    """Paths and what stands there, as words for a person."""
    if isinstance(value, dict) and value:
        for name in sorted(value):
            yield from leaves(value[name], f"{path} · {name}" if path else name)
    elif isinstance(value, list) and value:
        for place, one in enumerate(value, 1):
            yield from leaves(one, f"{path} {place}")
    else:
        yield path, "–" if value in (None, [], {}) else {True: "yes", False: "no"}.get(value, str(value)) if isinstance(value, bool) else str(value)


def page(record: collections.abc.Mapping[str, Any]) -> str:
    """The record as a page of HTML to print: facts, calls, and all 64 digits of its hash and of the one before."""
    import html
    check_form(record)

    def table(pairs: collections.abc.Iterable[tuple[str, str]]) -> str:
        rows = "".join(f"<tr><th scope=row>{html.escape(name)}</th><td>{html.escape(text)}</td></tr>\n" for name, text in pairs)
        return f"<table>\n{rows}</table>\n"

    calls = "".join(f"<h2>{place}. {html.escape(str(call['function']))}</h2>\n" + table([
        *leaves(call["arguments"], ""), *(leaves(call["result"], "→") if "result" in call else [("→ refused", str(call["status"]))])])
        for place, call in enumerate(record["calls"], 1))
    return f"""<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>Record of job {html.escape(record["job"])}</title>
<style>body{{font:10pt/1.35 sans-serif;max-width:180mm;margin:10mm auto;color:#111}}table{{border-collapse:collapse;width:100%}}
th,td{{text-align:left;vertical-align:top;border-bottom:1px solid #bbb;padding:.5mm 2mm}}th{{font-weight:normal;width:50%;color:#333}}
code{{font-size:9pt;overflow-wrap:anywhere}}h2{{font-size:11pt;margin:5mm 0 1mm;break-after:avoid}}tr{{break-inside:avoid}}</style></head><body>
<h1>Record of job {html.escape(record["job"])}</h1>
{table([*leaves(record["facts"], ""), ("computed with", record["library"])])}{calls}<h2>Hash</h2>
<p>This record: <code>{digest(record)}</code><br>The one before: <code>{record["before"]}</code></p>
<p>The calls can be made again by anybody (python -m ferrule replay FILE). A chain of hashes shows changes only to those who keep a later
hash themselves. The record states what was computed; it does not release an assembly, and it certifies nothing.</p>
</body></html>
"""


def label(record: collections.abc.Mapping[str, Any], width: float = 60, height: float = 24) -> str:
    """A label as SVG, in mm: job, facts `made`, `pressure` and `mark` where they are given, and 16 digits of the hash.

    16 digits find an accident, not an attacker: the page has all 64. What has to be marked on an assembly is for its standard to say.
    """
    import html
    check_form(record)
    words = [f"job {record['job']}", " ".join(str(record["facts"][name]) for name in ("mark", "made", "pressure") if name in record["facts"]),
             " ".join(digest(record)[place:place + 4] for place in range(0, 16, 4))]
    lines = "".join(f'<text x="2" y="{height * (place + 0.75) / 3:.2f}" font-size="{height / 5:.2f}" textLength="{min(width - 4, 0.55 * len(text) * height / 5):.2f}" '
                    f'lengthAdjust="spacingAndGlyphs" font-family="sans-serif">{html.escape(text)}</text>' for place, text in enumerate(words) if text)
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">'
            f'<rect width="{width}" height="{height}" fill="#fff"/>{lines}</svg>')


# ---- files: a line for each record ------------------------------------------------------------------------------------

def is_digest(text: Any) -> bool:
    return isinstance(text, str) and len(text) == 64 and set(text) <= set("0123456789abcdef")


def check_form(record: Any) -> None:
    """Refuses what is no record of this form, with what is wrong."""
    kinds = {"before": str, "calls": list, "facts": dict, "form": str, "job": str, "library": str}
    if not isinstance(record, dict) or record.get("form") != FORM:
        raise ValueError(f"no record of the form {FORM}")
    for name, kind in kinds.items():
        if not isinstance(record.get(name), kind):
            raise ValueError(f"{name} of the record is missing or no {'text' if kind is str else kind.__name__}")
    if set(record) - set(kinds):
        raise ValueError(f"the record has {', '.join(sorted(set(record) - set(kinds)))}, which its form does not know")
    for place, call in enumerate(record["calls"]):
        if not isinstance(call, dict) or set(call) not in ({"arguments", "function", "result"}, {"arguments", "function", "status"}) \
                or not isinstance(call["arguments"], dict):
            raise ValueError(f"/calls/{place} is no call: it wants arguments, function, and result or status")


def no_twins(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    members = dict(pairs)
    if len(members) != len(pairs):
        raise ValueError("a member stands twice in one object")
    return members


def read(path: str | os.PathLike[str]) -> list[dict[str, Any]]:
    """The records of a file; ValueError with the line where one cannot be read or is not in canonical form."""
    records = []
    for number, line in enumerate(pathlib.Path(path).read_bytes().split(b"\n"), 1):
        if not line:
            continue
        try:
            record = json.loads(line.decode("utf-8"), object_pairs_hook=no_twins)
            check_form(record)
            if canonical(record) != line:
                raise ValueError("not in canonical form: somebody or something has written this line anew")
        except ValueError as error:
            raise ValueError(f"{path}, line {number}: {error}") from None
        records.append(record)
    return records


def broken_link(records: collections.abc.Sequence[collections.abc.Mapping[str, Any]], last: str | None = None) -> int | None:
    """Place of the first record that does not name the hash of the one before it; None where the chain holds.

    last: the hash of the last record as somebody else has kept it, whole or its first digits; where it does not fit, the place behind
    the last record. Without it nobody sees that records at the end were changed or cut off.
    """
    before = NOTHING_BEFORE
    for place, record in enumerate(records):
        if record["before"] != before:
            return place
        before = digest(record)
    return None if last is None or (len(last) >= 16 and before.startswith(last)) else len(records)


def append(path: str | os.PathLike[str], record: collections.abc.Mapping[str, Any]) -> str:
    """Adds a record to a file, whole or not at all, and gives its hash. It has to name the hash of the last record there."""
    check_form(record)
    file = pathlib.Path(path)
    before = digest(read(file)[-1]) if file.exists() and file.stat().st_size else NOTHING_BEFORE
    if record["before"] != before:
        raise ValueError(f"{path}: the last record has the hash {before}, and this one names {record['before']} as the one before")
    line = canonical(record) + b"\n"
    with file.open("ab") as out:
        start = out.tell()
        try:
            out.write(line)
            out.flush()
            os.fsync(out.fileno())
        except OSError:
            out.truncate(start)
            raise
    return digest(record)
