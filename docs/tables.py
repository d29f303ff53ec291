# SPDX-License-Identifier: MIT
"""Write the manual's tables out of the public headers, so that no list is kept twice.

Usage: tables.py C_COMPILER OUTPUT_FOLDER

accuracy.inc  the table of tests/accuracy
languages.inc the table of tests/languages
units.inc, and status.inc, caution.inc, remark.inc ... for each list   tables that the pages include
rooms.md, functions.md   the same with .in, with the rooms, the functions (Doxygen takes subpages and headings from a page
              itself only, not from what it includes)
examples      the examples without the line of their licence
members.dox   a comment for each member that a macro makes: enumerators of the lists, units, their functions
"""
import ast
import csv
import json
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[1]
HEADERS = ROOT / "include" / "ferrule"
EXAMPLES = [ROOT / "tests" / "simulation" / "judging.txt", *(ROOT / "docs" / "examples").iterdir(), *(ROOT / "tests" / "install" / "outside").iterdir()]
KIND_WORDS = {"per_length": "number per length"}


def rows(compiler, header, macro):
    """The rows of a list macro, as the compiler sees them: a list of lists of values."""
    if not re.search(rf"#define {macro}\b", (HEADERS / header).read_text(encoding="utf-8")):
        raise SystemExit(f"{header} has no {macro}")
    source = f"#include <ferrule/{header}>\n{macro}(ROW_OF_LIST)\n"
    text = subprocess.run([compiler, "-E", "-P", "-I", str(ROOT / "include"), "-x", "c", "-"], input=source, text=True,
                          check=True, stdout=subprocess.PIPE).stdout
    text = text[text.index("ROW_OF_LIST"):]
    string = r'"(?:[^"\\]|\\.)*"'
    return [[value(word) for word in re.findall(rf"(?:{string}\s*)+|[^,\"]+", row) if word.strip()]
            for row in re.findall(rf"ROW_OF_LIST\(((?:{string}|[^\"()])*)\)", text)]


def value(word):
    word = word.strip()
    if word.startswith('"'):
        pieces = re.findall(r'"((?:[^"\\]|\\.)*)"', word)
        return b"".join(ast.literal_eval(f'b"{piece}"') for piece in pieces).decode("utf-8")
    return word


def table(head, body):
    line = "| " + " | ".join(head) + " |\n"
    return line + "| " + " | ".join("---" for _ in head) + " |\n" + "".join(
        "| " + " | ".join(cells) + " |\n" for cells in body)


def capital(sentence):
    return sentence[0].upper() + sentence[1:]


def code(symbol):
    return f"<code>{symbol.replace('|', '&#124;').replace('<', '&lt;').replace(chr(34), '&quot;')}</code>"


def unit_table(units):
    body = [[KIND_WORDS.get(kind, kind), "fer_" + name + "()", "fer_to_" + name + "()",
             ", ".join(code(symbol) for symbol in re.split(r"[ \0]", symbols))]
            for kind, _, name, _, _, _, symbols in units]
    return table(["kind", "make", "read", "in text"], body)


def lists():
    """The lists whose rows are name, number, perhaps severity, and sentence: header, what stands before a name, macro."""
    for header in sorted(HEADERS.glob("*.h")):
        found = re.findall(r"#define \w+_ENUMERATOR\(name, number, (?:severity, )?\w+\)\s+(?:\\\n\s*)?(FER_\w*?)##name = number,\n\s*(FER_\w+_LIST)\(",
                           header.read_text(encoding="utf-8"))
        yield from ((header.name, prefix, macro) for prefix, macro in found)


def list_table(prefix, members):
    """A list as a table; that of statuses says which exception each is in Python; cautions are numbered sentences."""
    if prefix == "FER_CAUTION_":
        return "".join(f"{int(number) + 1}. {text}\n" for _, number, text in members)
    if prefix == "FER_":
        return table(["number", "name", "rule that was broken", "Python"],
                     [[number, f"#FER_{name}", sentence, exception(name)] for name, number, sentence in members])
    severity = ["severity"] if len(members[0]) == 4 else []
    return table(["number", "name", *severity, "sentence"],
                 [[number, f"#{prefix}{name}", *grave, sentence] for name, number, *grave, sentence in members])


def exception(name):
    return "" if name == "OK" else code(name.split("_")[0].capitalize() + "Error")


def comments(header):
    """Functions of a header in their order: name and first sentence of its comment."""
    text = (HEADERS / header).read_text(encoding="utf-8")
    found = re.findall(r"/\*\*((?:(?!\*/).)*)\*/\s*FER_API\s(?:FER_DEPRECATED\(\"\w+\"\)\s)?[^;(]*?(fer_\w+)\(", text, re.S)
    return [(name, re.split(r"(?<=[.:])\s", re.sub(r"\s*\n\s*\*\s?", " ", comment).strip())[0].rstrip(".:"))
            for comment, name in found]


def room_order():
    """The rooms in the order of the whole library's header; the version is no room."""
    names = re.findall(r"<ferrule/(\w+)\.h>", (HEADERS / "ferrule.h").read_text(encoding="utf-8"))
    return [name for name in names if name != "version"]


def room_purpose(room):
    text = (HEADERS / f"{room}.h").read_text(encoding="utf-8")
    purpose = re.search(rf"Room `{room}`: (.+?[.?])\s", text, re.S)
    if not purpose:
        raise SystemExit(f"{room}.h does not begin with the purpose of its room")
    return re.sub(r"\s*\n\s*\*\s*", " ", purpose[1]).rstrip(".")


def room_page(room):
    """The name by which pages refer to a room's page: its first heading gives it."""
    file = ROOT / "docs" / f"{room}.md"
    if file.exists():
        name = re.match(r"#[^\n]*\{#(\w+)\}", file.read_text(encoding="utf-8"))
        if not name:
            raise SystemExit(f"the first line of {file.name} is not a heading with a name, such as # Dies {{#die}}")
        return name[1]
    raise SystemExit(f"room {room} has no page docs/{room}.md")


def room_list(rooms):
    return "".join(f"- \\subpage {room_page(room)} — {room_purpose(room)} ({room}.h)\n" for room in rooms)


def text_functions(kinds):
    """Functions of room text that a macro makes, a pair a kind of quantity."""
    for kind, _, words in kinds:
        yield f"fer_parse_{kind}", f"Read {article(words)} {words} from text"
        yield f"fer_format_{kind}", f"Write {article(words)} {words} as text"


def article(words):
    return "an" if words[0] in "aeiou" else "a"


def function_tables(rooms, kinds):
    parts = []
    for room in rooms:
        functions = comments(f"{room}.h") + (list(text_functions(kinds)) if room == "text" else [])
        if functions:
            parts.append(f"## {room}.h {{#functions_{room}}}\n\n" +
                         table(["function", "what it gives"], [[f"{name}()", words] for name, words in functions]))
    return "\n".join(parts)


def filled(page, **parts):
    """A page with what is made for it in its places."""
    text = (ROOT / "docs" / f"{page}.md.in").read_text(encoding="utf-8")
    for place, made in parts.items():
        text = text.replace(f"@{place}@", made)
    return text


def without_licence(text):
    return re.sub(r"\A(/\*|#|//|--) SPDX-License-Identifier.*\n", "", text)


def member_comments(listed, units, kinds):
    """Doxygen comments, apart from the code, for what macros make."""
    parts = [f"/** @var {prefix}{name}\n * {sentence} */\n"
             for prefix, members in listed.items() for name, *_, sentence in members]
    for kind, field, name, _, _, _, symbols in units:
        first = re.split(r"[ \0]", symbols)[0].replace("%", "\\%")
        words = KIND_WORDS.get(kind, kind)
        parts.append(f"/** @var FER_UNIT_{name}\n * {words} in {first} */\n")
        parts.append(f"/** @fn fer_{kind} fer_{name}(double number)\n * {capital(article(words))} {words} from its number in "
                     f"{first}.\n * @param[in] number  in {first}; NaN and infinity go through\n"
                     f" * @return the {words} */\n")
        parts.append(f"/** @fn double fer_to_{name}(fer_{kind} quantity)\n * Number of {article(words)} {words} in {first}.\n"
                     f" * @param[in] quantity  the {words}\n * @return the number in {first} */\n")
    for kind, _, words in kinds:
        parts.append(f"""/** @fn fer_status fer_parse_{kind}(const char *text, size_t length, fer_{kind} *quantity, size_t *stop)
 * Read {article(words)} {words} from text: number and unit; the grammar stands with the group.
 * @param[in] text  not one byte beyond length is read; need not end in a zero byte
 * @param[in] length  bytes of text
 * @param[out] quantity  the nearest double; NaN on failure
 * @param[out] stop  byte at which reading ended
 * @return #FER_OK or one of FER_TEXT_… */
/** @fn fer_status fer_format_{kind}(fer_{kind} quantity, fer_unit unit, int decimals, char *text, size_t capacity, size_t *length)
 * Write {article(words)} {words} as number, blank and unit.
 * @param[in] quantity  any finite value
 * @param[in] unit  one of the kind's own units
 * @param[in] decimals  0 to 30, or #FER_SHORTEST
 * @param[out] text  with a closing zero byte; empty on failure
 * @param[in] capacity  bytes that text can hold
 * @param[out] length  bytes written without the closing zero; 0 on failure
 * @return #FER_OK or one of FER_TEXT_…, FER_UNIT_… */
""")
    return "".join(parts)


def accuracy_table():
    """Largest errors as they were measured, and when."""
    with (ROOT / "tests" / "accuracy" / "table.csv").open(encoding="utf-8") as file:
        measured = list(csv.DictReader(file))
    body, known = [], ""
    for row in measured:
        name = re.sub(r"^fer_\w+$", r"\g<0>()", row["function"]) if row["function"] != known else ""
        known = row["function"]
        body.append([name, row["result"], row["largest"] + " " + row["measure"], row["bound"], row["samples"]])
    dates = sorted({row["date"] for row in measured})
    return table(["function", "result", "largest error", "bound", "samples"], body) + f"\nMeasured {' to '.join(dates)}.\n"


def language_table():
    """What measure.py found of each language."""
    found = [json.loads(path.read_text(encoding="utf-8")) for path in sorted((ROOT / "tests" / "languages").glob("measured_*.json"))]
    body = [[f"\\ref {f['page'].removesuffix('.md')} \"{f['language'].replace('#', chr(92) + '#')}\" {f['version']}", f["vectors"],
             f["calls_per_second"], f["failing_calls"], f["bare_system"].replace("--", "\\--")] for f in found]
    return table(["language", "vectors passed", "calls a second", "failing calls, memory", "package on a bare system"], body)


def main():
    compiler, folder = sys.argv[1], pathlib.Path(sys.argv[2])
    found = list(lists())
    listed = {prefix: rows(compiler, header, macro) for header, prefix, macro in found}
    units = rows(compiler, "quantity.h", "FER_UNIT_LIST")
    kinds = rows(compiler, "text.h", "FER_KIND_LIST")
    rooms = room_order()
    written = {"accuracy.inc": accuracy_table(), "languages.inc": language_table(), "units.inc": unit_table(units),
               "functions.md": filled("functions", FUNCTIONS=function_tables(rooms, kinds)),
               "rooms.md": filled("rooms", ROOMS=room_list(rooms)),
               "members.dox": member_comments(listed, units, kinds)}
    for _, prefix, macro in found:
        written[macro[len("FER_"):-len("_LIST")].lower() + ".inc"] = list_table(prefix, listed[prefix])
    (folder / "examples").mkdir(parents=True, exist_ok=True)
    for name, text in written.items():
        (folder / name).write_text(text, encoding="utf-8")
    for path in EXAMPLES:
        (folder / "examples" / path.name).write_text(without_licence(path.read_text(encoding="utf-8")), encoding="utf-8")


if __name__ == "__main__":
    main()
