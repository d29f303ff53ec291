# SPDX-License-Identifier: MIT
"""Write the manual's tables out of api.json and the records of the tests, so that no list is kept twice.

Usage: tables.py OUTPUT_FOLDER

accuracy.inc  the table of tests/agree/accuracy, with the bounds of tests/release/proof/rounding
speed_bulk.inc, speed_setups.inc   the tables of tests/release/bench
hose_elements.inc   the table of tests/agree/finite_element/twin.csv
outside.inc   the values out of publications that stand in the tests
schedule_gaps.inc   the table of tests/release/bench/schedule_gaps.csv
languages.inc the table of tests/agree/languages
units.inc, and status.inc, caution.inc, remark.inc ... for each list   tables that the pages include
modules.md, functions.md   the same with .in, with the modules, the functions (Doxygen takes subpages and headings from a page
              itself only, not from what it includes)
examples      the examples without the line of their licence
members.dox   a comment for each member that a macro makes: enumerators of the lists, units, their functions
"""
import csv
import json
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests/agree/vectors"))
import outside  # noqa: E402

API = json.loads((ROOT / "bindings" / "api" / "api.json").read_text(encoding="utf-8"))
EXAMPLES = [*(ROOT / "docs" / "examples").iterdir(), *(ROOT / "tests/guard/install/outside").iterdir(), ROOT / "tests/agree/simulation/judging.txt",
            ROOT / "tests/agree/simulation/squeeze.txt"]
KIND_WORDS = {"per_length": "number per length"}


def table(head, body):
    line = "| " + " | ".join(head) + " |\n"
    return line + "| " + " | ".join("---" for _ in head) + " |\n" + "".join(
        "| " + " | ".join(cells) + " |\n" for cells in body)


def capital(sentence):
    return sentence[0].upper() + sentence[1:]


def code(symbol):
    return f"<code>{symbol.replace('|', '&#124;').replace('<', '&lt;').replace(chr(34), '&quot;')}</code>"


def unit_table():
    body = [[KIND_WORDS.get(kind, kind), "fer_" + unit["name"] + "()", "fer_to_" + unit["name"] + "()",
             ", ".join(code(symbol) for symbol in unit["symbols"])] for kind, unit in units()]
    return table(["kind", "make", "read", "in text"], body)


def units():
    """Kind and unit, in their order."""
    return [(q["name"].removeprefix("fer_"), unit) for q in API["quantities"] for unit in q["units"]]


def kinds():
    """The kinds of quantity and the words for each."""
    return [(q["name"].removeprefix("fer_"), q["words"]) for q in API["quantities"]]


def lists():
    """The lists with sentences: name of the page's part, what stands before a name, rows of name, number, perhaps severity, and sentence."""
    for enum in sorted(API["enums"], key=lambda e: e["header"]):
        words = enum["words"]
        if "sentence" in words[0]:
            prefix = words[0]["name"].removesuffix(words[0]["word"])
            yield enum["name"].removeprefix("fer_"), prefix, [(w["word"], w["number"], *([w["severity"]] if "severity" in w else []), w["sentence"]) for w in words]


def list_table(prefix, members):
    """A list as a table; that of statuses says which exception each is in Python; cautions are numbered sentences."""
    if prefix == "FER_CAUTION_":
        return "".join(f"{number + 1}. {text}\n" for _, number, text in members)
    if prefix == "FER_":
        return table(["number", "name", "rule that was broken", "Python"],
                     [[str(number), f"#FER_{name}", sentence, exception(name)] for name, number, sentence in members])
    severity = ["severity"] if len(members[0]) == 4 else []
    return table(["number", "name", *severity, "sentence"],
                 [[str(number), f"#{prefix}{name}", *grave, sentence] for name, number, *grave, sentence in members])


def exception(name):
    return "" if name == "OK" else code(name.split("_")[0].capitalize() + "Error")


def comments(header):
    """Exported functions of a header in their order: name and first sentence of the comment."""
    return [(f["name"], re.split(r"(?<=[.:])\s", f["text"][0])[0].rstrip(".:"))
            for f in API["functions"] if f["header"] == header and "since" in f and "text" in f]


def module_order():
    """The modules in the order of the whole library's header; the version is no module."""
    return [m["name"] for m in API["modules"] if m["name"]]


def module_purpose(module):
    return next(m["purpose"] for m in API["modules"] if m["name"] == module)


def module_page(module):
    """The name by which pages refer to a module's page: its first heading gives it."""
    file = ROOT / "docs" / f"{module}.md"
    if file.exists():
        name = re.match(r"#[^\n]*\{#(\w+)\}", file.read_text(encoding="utf-8"))
        if not name:
            raise SystemExit(f"the first line of {file.name} is not a heading with a name, such as # Dies {{#die}}")
        return name[1]
    raise SystemExit(f"module {module} has no page docs/{module}.md")


def module_list(modules):
    return "".join(f"- \\subpage {module_page(module)} — {module_purpose(module)} ({module}.h)\n" for module in modules)


def text_functions():
    """Functions of module text that a macro makes, for each kind of quantity."""
    for kind, words in kinds():
        yield f"fer_parse_{kind}", f"Read {article(words)} {words} from text"
        yield f"fer_parse_comma_{kind}", f"Read {article(words)} {words} from text with a decimal comma"
        yield f"fer_format_{kind}", f"Write {article(words)} {words} as text"


def article(words):
    return "an" if words[0] in "aeiou" else "a"


def function_tables(modules):
    parts = []
    for module in modules:
        functions = comments(f"ferrule/{module}.h") + (list(text_functions()) if module == "text" else [])
        if functions:
            parts.append(f"## {module}.h {{#functions_{module}}}\n\n" +
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


def member_comments(listed):
    """Doxygen comments, apart from the code, for what macros make."""
    parts = [f"/** @var {prefix}{name}\n * {sentence} */\n"
             for prefix, members in listed.items() for name, *_, sentence in members]
    for kind, unit in units():
        name, first = unit["name"], unit["symbols"][0].replace("%", "\\%")
        words = KIND_WORDS.get(kind, kind)
        parts.append(f"/** @var FER_UNIT_{name}\n * {words} in {first} */\n")
        parts.append(f"/** @fn fer_{kind} fer_{name}(double number)\n * {capital(article(words))} {words} from its number in "
                     f"{first}.\n * @param[in] number  in {first}; NaN and infinity go through\n"
                     f" * @return the {words} */\n")
        parts.append(f"/** @fn double fer_to_{name}(fer_{kind} quantity)\n * Number of {article(words)} {words} in {first}.\n"
                     f" * @param[in] quantity  the {words}\n * @return the number in {first} */\n")
    for kind, words in kinds():
        parts.append(f"""/** @fn fer_status fer_parse_{kind}(const char *text, size_t length, fer_{kind} *quantity, size_t *stop)
 * Read {article(words)} {words} from text: number and unit; the grammar stands with the group.
 * @param[in] text  not one byte beyond length is read; need not end in a zero byte
 * @param[in] length  bytes of text
 * @param[out] quantity  the nearest double; NaN on failure
 * @param[out] stop  byte at which reading ended
 * @return #FER_OK or one of FER_TEXT_… */
/** @fn fer_status fer_parse_comma_{kind}(const char *text, size_t length, fer_{kind} *quantity, size_t *stop)
 * Read {article(words)} {words} from text whose decimal sign is the comma; the grammar stands with the group.
 * @param[in] text  not one byte beyond length is read; need not end in a zero byte
 * @param[in] length  bytes of text
 * @param[out] quantity  the nearest double; NaN on failure
 * @param[out] stop  byte at which reading ended
 * @return #FER_OK or one of FER_TEXT_… */
/** @fn fer_status fer_format_{kind}(fer_{kind} quantity, fer_unit unit, int decimals, char *text, size_t capacity, size_t *length)
 * Write {article(words)} {words} as number, blank and unit.
 * @param[in] quantity  any finite value
 * @param[in] unit  one of the kind's own units
 * @param[in] decimals  0 to 30, #FER_SHORTEST, or #FER_FRACTION of so many parts
 * @param[out] text  with a closing zero byte; empty on failure
 * @param[in] capacity  bytes that text can hold
 * @param[out] length  bytes written without the closing zero; 0 on failure
 * @return #FER_OK or one of FER_TEXT_…, FER_UNIT_… */
""")
    return "".join(parts)


def gappa_bounds():
    """By function: bounds in the last place by Gappa, and the file that says for which inputs."""
    found = {}
    for path in sorted((ROOT / "tests/release/proof/rounding").glob("*.g")):
        head = dict(re.findall(r"^# (Function|Bound): (.*)$", path.read_text(encoding="utf-8"), re.M))
        bound = re.match(r"[\d.]+(?= units? in the last place)", head["Bound"])
        if bound and not head["Function"].startswith("of pairs"):
            for name in dict.fromkeys(re.findall(r"fer_\w+", head["Function"])):
                found.setdefault(name, []).append(f"{bound[0]} ({path.name})")
            if "constructors" in head["Function"]:
                found["units of quantity.h"] = [f"{bound[0]} ({path.name})"]
    return found


def speed_table(name):
    """What a benchmark found, out of what it wrote."""
    said = json.loads((ROOT / f"tests/release/bench/{name}.json").read_text(encoding="utf-8"))
    body = [[escaped(row["work"]), f"{row['ratio']:.3g}", f"{row['at_least']:g}", escaped(row["what"])] for row in said["table"]]
    return table(["work", "ratio found", "at least", "what it was"], body) + f"\n{said['rows']:,} rows, medians of {said['rounds']} rounds.\n"


def accuracy_table():
    """Largest errors as they were measured, and when; beside them the bounds of Gappa."""
    bounds = gappa_bounds()
    with (ROOT / "tests/agree/accuracy/table.csv").open(encoding="utf-8") as file:
        measured = list(csv.DictReader(file))
    body, known = [], ""
    for row in measured:
        name = re.sub(r"^fer_\w+$", r"\g<0>()", row["function"]) if row["function"] != known else ""
        known = row["function"]
        body.append([name, row["result"], row["largest"] + " " + row["measure"], row["bound"], row["samples"],
                     ", ".join(bounds.get(row["function"], [])) if name else ""])
    dates = sorted({row["date"] for row in measured})
    return table(["function", "result", "largest error", "bound", "samples", "Gappa"], body) + f"\nMeasured {' to '.join(dates)}.\n"


def outside_tables():
    """The values out of publications: how many by work, then a table for each work."""
    works = {}
    for value in outside.values():
        works.setdefault(value.publication, []).append(value)
    parts = [table(["publication", "values"], [[work, str(len(found))] for work, found in works.items()] +
                   [["all", str(sum(map(len, works.values())))]])]
    for work, found in works.items():
        body = [[escaped(v.place), code(v.value), escaped(v.how), v.checked, escaped(v.where)] for v in found]
        parts.append(f"### {work}\n\n" + table(["place", "value there", "how it came here", "compared with", "where"], body))
    return "\n".join(parts)


def escaped(words):
    """Words of a source as a cell: no bar, no mark of Doxygen or Markdown."""
    for mark in "\\`*_<>@#|":
        words = words.replace(mark, f"&#{ord(mark)};")
    return words


def twin_table():
    """What finite elements and the library find of a twin crimp."""
    with (ROOT / "tests/agree/finite_element/twin.csv").open(encoding="ascii") as file:
        rows = [row for row in csv.DictReader(file) if not row["case"].startswith("bare")]

    def found(row, way):
        put_on, value = float(row["pressure of the hose put on"]), float(row[way])
        return f"{value:.2f} ({100 * (value / put_on - 1):+.1f} %)"
    return table(["case", "dies press", "length by length before", "hose presses", "found, ends taken as free", "found by length"],
                 [[row["case"], f"{float(row['pressure of the dies']):.3f}", f"{float(row['stretch']):.5f}",
                   f"{float(row['pressure of the hose put on']):.2f}", found(row, "ends free"), found(row, "by length")] for row in rows])


def gap_table():
    """How far schedules were from their bounds."""
    with (ROOT / "tests/release/bench/schedule_gaps.csv").open(encoding="ascii") as file:
        rows = list(csv.DictReader(file))
    return table(list(rows[0]), [list(row.values()) for row in rows])


def language_table():
    """What measure.py found of each language."""
    found = [json.loads(path.read_text(encoding="utf-8")) for path in sorted((ROOT / "tests/agree/languages").glob("measured_*.json"))]
    body = [[f"\\ref {f['page'].removesuffix('.md')} \"{f['language'].replace('#', chr(92) + '#')}\" {f['version']}", f["vectors"],
             f["calls_per_second"], f["failing_calls"], f["bare_system"].replace("--", "\\--")] for f in found]
    return table(["language", "vectors passed", "calls a second", "failing calls, memory", "package on a bare system"], body)


def main():
    folder = pathlib.Path(sys.argv[1])
    found, modules = list(lists()), module_order()
    written = {"accuracy.inc": accuracy_table(), "hose_elements.inc": twin_table(), "outside.inc": outside_tables(), "languages.inc": language_table(), "units.inc": unit_table(),
               "schedule_gaps.inc": gap_table(),
               "functions.md": filled("functions", FUNCTIONS=function_tables(modules)),
               "modules.md": filled("modules", MODULES=module_list(modules)),
               "members.dox": member_comments({prefix: members for _, prefix, members in found})}
    written |= {f"speed_{name}.inc": speed_table(name) for name in ("bulk", "setups")}
    for name, prefix, members in found:
        written[f"{name}.inc"] = list_table(prefix, members)
    (folder / "examples").mkdir(parents=True, exist_ok=True)
    for name, text in written.items():
        (folder / name).write_text(text, encoding="utf-8")
    for path in EXAMPLES:
        (folder / "examples" / path.name).write_text(without_licence(path.read_text(encoding="utf-8")), encoding="utf-8")


if __name__ == "__main__":
    main()
