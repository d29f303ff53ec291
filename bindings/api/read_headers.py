# SPDX-License-Identifier: MIT
"""Read the public headers once and say what stands in them: api.json, which every build and every writer reads.

Usage: read_headers.py --write   rewrites api.json; needs Doxygen
       read_headers.py --check   fails where api.json is not what --write would write; needs Doxygen
       read_headers.py --sums    fails where a header changed after api.json was written; needs nothing

The headers are the only place where the API is written. What programs must know stands there in tags, not in turns of phrase;
docs/aliases.doxy lists them. api.json has the names of C, numbers in base units, and text as it stands in the headers.
"""
import ast
import hashlib
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree
from fractions import Fraction

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[1]
DESCRIPTION = HERE / "api.json"
SIGNS = dict(zip("alpha beta gamma delta epsilon varepsilon theta lambda mu nu pi rho varrho sigma tau varphi Delta Lambda "
                 "Sigma Phi partial sum int in le ge Leftrightarrow cdot".split(), "αβγδεεθλμνπρρστφΔΛΣΦ∂Σ∫∈≤≥⇔·"))
SQUARES = str.maketrans("23", "²³")
SECTIONS = {"Formula": "formula", "Valid range": "valid", "Accuracy": "accuracy", "Source": "source", "Deprecated": "deprecated",
            "return": "return"}


class HeadersError(Exception):
    """The headers say something that this reader has no rule for."""


# ---- text -------------------------------------------------------------------------------------------------------

def plain_formula(latex):
    """A formula as one line of plain text: D = s + 2w + W(1 - c)."""
    text = re.sub(r"\\(left|right|quad|[,;! ])", " ", latex.strip("$ "))
    text = re.sub(r"\\([A-Za-z]+)", lambda m: SIGNS.get(m[1], m[0]), text)
    text = re.sub(r"\\(sin|cos|ln|exp|notin)(?![a-z])", r" \1 ", text)
    text = re.sub(r"\^([23])(?!\d)", lambda m: m[1].translate(SQUARES), text)
    before = None
    while text != before:  # from the innermost braces outwards
        before = text
        text = re.sub(r"\\frac\{([^{}]*)\}\{([^{}]*)\}", lambda m: "/".join(
            g if re.fullmatch(r"\w+", g) else f"({g})" for g in m.groups()), text)
        text = re.sub(r"\\(?:mathrm|text)\{([^{}]*)\}|([_^])\{(\w+)\}", r"\1\2\3", text)
        text = re.sub(r"(?<!frac)(?<!\})\{([^{}]*)\}(?!\{)", r"(\1)", text)
    text = re.sub(r"\\bar\s*", "mean ", text).replace("\\", "")
    return re.sub(r"(?<=\w) (?=[(²])(?<=sin |cos | ln |exp )|(?<=[(\[]) | (?=[)\]])", "", re.sub(r"\s+", " ", text)).strip()


TAGS = {"Range:": "range", "Above:": "above", "Below:": "below", "If zero:": "optional", "If null:": "null", "1 or 0": "flag",
        "Label:": "label", "Decimals:": "decimals", "Not used:": "unused"}  # as docs/aliases.doxy shows them
MARK = "\x01"  # stands before and after the name of a tag


def words(node, formula=plain_formula):
    """All text of an XML node on one line, with the names of C; tags are marked."""
    def parts(n):
        if n.tag == "formula":
            yield formula(n.text)
        elif n.tag == "bold" and (n.text or "") in TAGS:
            yield f" {MARK}{TAGS[n.text]}{MARK} "
        elif n.tag == "bold" and n.text in ("as", "from"):
            yield f"{MARK * 2}{n.text}"
        elif n.tag not in ("parameterlist", "simplesect"):
            yield n.text or ""
            for child in n:
                yield from parts(child)
                yield child.tail or ""
    return "" if node is None else re.sub(r"\s+", " ", "".join(parts(node))).strip()


def type_text(node):
    return re.sub(r"\s*\*", " *", re.sub(r"\s+", " ", "".join(node.find("type").itertext()))).strip()


def compact(**items):
    """Without what is not there."""
    return {key: value for key, value in items.items() if value not in (None, "", [], {}, False)}


# ---- tags -------------------------------------------------------------------------------------------------------

NUMBER = r"-?\d[\d,]*(?:\.\d+)?"
LONGEST_LABEL = 40


def tagged(text):
    """A comment with its tags: the text before the first of them, and each with its words."""
    found = {}
    for word in ("as", "from"):
        said = re.search(rf"{MARK}{MARK}{word} (fer_\w+)\(\)(?: ([\w.]+)(?=$|[;,]|{MARK}))?", text)
        if said:
            found[word] = compact(function=said[1], argument=said[2])
            if said[2]:
                text = text.replace(f" {said[2]}", "", 1)
    text, *parts = text.replace(MARK * 2, "").split(MARK)
    found |= {name: words_.strip() for name, words_ in zip(parts[::2], parts[1::2])}
    return text.strip(), found


class Ranges:
    """Reads ranges: numbers in base units, or an expression of other members and arguments as it stands."""

    def __init__(self, units, quantities):
        self.factors = {(u["kind"], symbol): Fraction(u["numerator"]) / Fraction(u["denominator"]) for u in units for symbol in re.split(r"[ \0]", u["symbols"])}
        self.kinds = {q: q.removeprefix("fer_") for q in quantities}

    def end(self, text, kind, where):
        """An end of a range: {"at": number or expression, "open": not part of it}."""
        is_open = text.startswith(("above ", "below "))
        text = text.split(" ", 1)[1] if is_open else text
        number = re.fullmatch(rf"({NUMBER})\s?(\S*)", text)
        if number is None or "/" in number[2]:
            return compact(at=text.replace(",", ""), open=is_open)
        digits = number[1].replace(",", "")
        figure = float(digits) if "." in digits else int(digits)
        if number[2]:
            if (kind, number[2]) not in self.factors:
                raise HeadersError(f"{where}: {number[2]} is no unit of {kind}")
            factor = self.factors[kind, number[2]]
            figure = figure if factor == 1 else float(Fraction(digits) * factor)
        return {"at": figure} | compact(open=is_open)

    def read(self, text, type_, where):
        kind = self.kinds.get(type_)
        said = {"text": text}
        if text in ("any finite number", "any whole number"):
            return said
        more = re.fullmatch(r"(.+) or more|(above \S+( \S+)?)", text)
        if more:
            return said | {"lower": self.end(more[1] or more[2], kind, where)}
        ends = text.split(" to ")
        if len(ends) != 2:
            raise HeadersError(f"{where}: no rule for the range '{text}'")
        return said | {"lower": self.end(ends[0], kind, where), "upper": self.end(ends[1], kind, where)}


def first_words(text):
    return re.split(r"[;:,.(]", text)[0].strip()


def resolve_tags(item, ranges, type_, where):
    """Puts the tags of a member or parameter beside its text; the range with numbers."""
    item["text"], tags = tagged(item.get("text", ""))
    for name in ("above", "below", "optional", "null", "label", "as", "from"):
        if name in tags:
            item[name] = tags[name]
    if "flag" in tags:
        item["flag"] = True
    if "unused" in tags:
        item["unused"] = tags["unused"].split()
    if "decimals" in tags:
        item["decimals"] = int(tags["decimals"])
    if "range" in tags:
        item["range"] = ranges.read(tags["range"], type_, where)
    return item


# ---- rows of the lists ------------------------------------------------------------------------------------------

STRING = r'"(?:[^"\\]|\\.)*"'


def value(word):
    """A word of a list's row: text as it is in memory, a number, a name."""
    word = word.strip()
    if word.startswith('"'):
        return b"".join(ast.literal_eval("b" + piece) for piece in re.findall(STRING, word)).decode("utf-8")
    return float(word) if re.fullmatch(r"\d+\.\d+", word) else int(word) if word.isdigit() else word


def list_rows(initializer):
    """The rows of a list macro: X(name, number, "sentence") ..."""
    text = re.sub(r"/\*.*?\*/|\\\s*\n", " ", initializer, flags=re.S)
    return [[value(word) for word in re.findall(rf"(?:{STRING}\s*)+|[^,\"]+", row) if word.strip()]
            for row in re.findall(rf"X\(((?:{STRING}|[^\"()])*)\)", text)]


# ---- the headers ------------------------------------------------------------------------------------------------

def read_member(node):
    array = re.match(r"\[(.*)\]", node.findtext("argsstring") or "")
    return compact(name=node.findtext("name"), type=type_text(node), array=array and array[1],
                   text=words(node.find("detaileddescription")))


def read_enum(node, listed):
    c_name, found, number = node.findtext("name"), [], -1
    for item in node.iter("enumvalue"):
        given, name = item.findtext("initializer"), item.findtext("name")
        number = int(given.strip("= "), 0) if given else number + 1
        if not name.endswith("_COUNT"):
            found.append(compact(name=name, text=words(item.find("detaileddescription"))) | {"number": number})
    own, cut = c_name.upper().split("_")[1:], len("FER_")
    for word in own:  # the prefix that all have and that is in the enum's own name
        if all(v["name"][cut:].startswith(word + "_") for v in found):
            cut += len(word) + 1
    rows = {prefix + row["name"]: row for prefix, table in listed.values() for row in table if "number" in row}
    for v in found:
        row = rows.get(v["name"], {})
        v["word"] = v["name"][cut:]
        v.update({key: text for key, text in row.items() if key not in ("name", "number")})
        if "about" in v:
            v["about"] = v["about"].split()
    return {"name": c_name, "text": words(node.find("detaileddescription")),
            "words": [{key: v[key] for key in ("name", "word", "number", "about", "severity", "text", "sentence") if v.get(key) not in (None, [])}
                      for v in found]}


def struct_form(struct, enums):
    members = struct["members"]
    shape = [(m["type"], m["name"]) for m in members]
    if any(m["type"].endswith("*") for m in members):
        return "COLUMNS"
    if len(shape) == 1 and shape[0][0] == "double":
        return "QUANTITY"
    if shape == [("uint64_t", "bits")] and struct["name"][:-1] in enums:
        return "SET"
    return "FOUND" if [name for _, name in shape] == ["value", "status"] else "STRUCT"


def bare(type_):
    return type_.removeprefix("const ").removesuffix(" *")


def roles(parameters):
    """What each parameter is for: a value, an input, a list and its count, a result, a list of results with capacity
    and number, working memory and how much of it."""
    found, place = [], 0
    while place < len(parameters):
        name, type_ = parameters[place]
        following = [t for _, t in parameters[place + 1:place + 3]]
        after = parameters[place + 1][0] if place + 1 < len(parameters) else ""
        if not type_.endswith("*"):
            found.append("value")
        elif type_ == "fer_work *" and following[:1] == ["size_t"]:
            found += ["work", "words"]
        elif type_.startswith("const"):
            is_list = following[:1] == ["size_t"] and re.fullmatch(r"(\w+_)?count|length", after)
            found += ["list", "count"] if is_list else ["input"]
        else:
            found += ["results", "capacity", "found"] if following == ["size_t", "size_t *"] else ["result"]
        place = len(found)
    return found


def read_function(node):
    detail = node.find("detaileddescription")
    texts, statuses = {}, []
    for group in detail.iter("parameterlist"):
        for item in group.iter("parameteritem"):
            name, text = words(item.find("parameternamelist")), words(item.find("parameterdescription"))
            if group.get("kind") == "param":
                texts[name] = text
            else:
                statuses.append({"name": name, "text": text})
    pairs = [(p.findtext("declname"), type_text(p)) for p in node.findall("param") if p.find("declname") is not None]
    parameters = [compact(name=name, type=type_, role=role, text=texts.get(name)) for (name, type_), role in zip(pairs, roles(pairs))]
    sections = {}
    for section in detail.iter("simplesect"):
        title = SECTIONS.get(section.findtext("title") or section.get("kind"))
        if title is None:
            raise HeadersError(f"{node.findtext('name')} has a section without a rule: {section.findtext('title')}")
        sections[title] = " ".join(words(p) for p in section.findall("para"))
        tex = " ".join(words(p, lambda latex: latex) for p in section.findall("para"))
        if title == "formula" and tex != sections[title]:
            sections["formula_tex"] = tex
    return compact(name=node.findtext("name"), inline=node.get("static") == "yes",
                   returns=type_text(node).replace("static ", "").replace("inline ", ""),
                   text=[t for t in map(words, detail.findall("para")) if t], parameters=parameters, statuses=statuses, **sections)


def run_doxygen(folder):
    text = (HERE / "Doxyfile.in").read_text(encoding="utf-8").replace("@PROJECT_SOURCE_DIR@", str(ROOT))
    (folder / "Doxyfile").write_text(text, encoding="utf-8")
    done = subprocess.run(["doxygen", "Doxyfile"], cwd=folder, text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    if done.returncode:
        raise HeadersError(f"Doxygen failed:\n{done.stdout[-3000:]}")
    return folder / "xml"


def read_xml(folder):
    """Doxygen's XML: members by header in reading order, and a way to load what they refer to."""
    load = lambda ref: ElementTree.parse(folder / f"{ref}.xml").getroot().find("compounddef")
    files = [load(c.get("refid")) for c in ElementTree.parse(folder / "index.xml").getroot() if c.get("kind") == "file"]
    index = next(f for f in files if f.findtext("compoundname") == "ferrule.h")
    order = [i.text for i in index.findall("includes")]
    where = {f.find("location").get("file"): f for f in files}
    unlisted = sorted(set(where) - {*order, "ferrule/ferrule.h"})
    if unlisted:
        raise HeadersError(f"include/ferrule/ferrule.h does not list {', '.join(unlisted)}: include it there, below the headers that it uses")
    files = [where[name] for name in (*order, "ferrule/ferrule.h") if name in where]
    return order, files, load


def named_lists(defines):
    """The lists by the name of their macro: what stands before a row's name, and the rows by the names of their columns."""
    found = {}
    for name, node in defines.items():
        if not name.endswith("_LIST"):
            continue
        maker = next((d for d in defines.values() if d.findtext("name").endswith("_ENUMERATOR")
                      and d.findtext("name").startswith(name[:-len("_LIST")])), None) if name != "FER_KIND_LIST" else None
        columns = [p.findtext("defname") for p in maker.findall("param")] if maker is not None else ["kind", "field", "words"]
        prefix = "".join(maker.find("initializer").itertext()).split("##")[0].strip() if maker is not None else ""
        rows = list_rows("".join(node.find("initializer").itertext()))
        if any(len(row) != len(columns) for row in rows):
            raise HeadersError(f"a row of {name} has not the columns {columns}: {next(r for r in rows if len(r) != len(columns))}")
        found[name] = (prefix, [{"sentence" if key == "text" else key: cell for key, cell in zip(columns, row)} for row in rows])
    return found


def quantity(struct, units, kinds):
    kind = struct["name"].removeprefix("fer_")
    return {"name": struct["name"], "text": struct["text"], "words": next(k["words"] for k in kinds if k["kind"] == kind),
            "member": struct["members"][0],
            "units": [{"name": u["unit"], "symbols": re.split(r"[ \0]", u["symbols"]), "numerator": u["numerator"],
                       "denominator": u["denominator"], "zero": u["zero"]} for u in units if u["kind"] == kind]}


def module_purpose(file):
    text = re.search(r"Module `?(\w+)`?: (.+?[.?])(\s|$)", words(file.find("detaileddescription")))
    return (text[1], text[2].rstrip(".")) if text else (None, None)


def read_headers(folder):
    order, files, load = read_xml(folder)
    members = [(f.find("location").get("file"), m) for f in files for m in f.iter("memberdef")]
    defines = {m.findtext("name"): m for _, m in members if m.get("kind") == "define"}
    lists = named_lists(defines)
    enums = [read_enum(m, lists) | {"header": header} for header, m in members if m.get("kind") == "enum"]
    names = {e["name"] for e in enums}
    structs = []
    for file in files:
        for inner in file.findall("innerclass"):
            node = load(inner.get("refid"))
            if node.get("kind") == "union":  # working memory: C's alone
                continue
            struct = {"name": node.findtext("compoundname"), "header": file.find("location").get("file"),
                      "text": words(node.find("detaileddescription")),
                      "members": [read_member(m) for m in node.iter("memberdef") if m.get("kind") == "variable"]}
            structs.append({"name": struct["name"], "form": struct_form(struct, names)} | struct)
    units, kinds = lists["FER_UNIT_LIST"][1], lists["FER_KIND_LIST"][1]
    constants = [{"name": name, "value": words(m.find("initializer")), "text": words(m.find("detaileddescription"))}
                 for name, m in defines.items() if re.fullmatch(r"\(?-?[\d.]+\)?", words(m.find("initializer")))]
    description = {
        "constants": constants,
        "modules": [dict(zip(("name", "purpose"), module_purpose(f))) | {"header": f.find("location").get("file")}
                    for f in files if f.find("location").get("file") in order],
        "quantities": [quantity(s, units, kinds) | {"header": s["header"]} for s in structs if s["form"] == "QUANTITY"],
        "aliases": [{"name": m.findtext("name"), "type": type_text(m), "text": words(m.find("detaileddescription"))}
                    for _, m in members if m.get("kind") == "typedef" and not type_text(m).startswith("union ")
                    and m.findtext("name") not in {*names, *(s["name"] for s in structs)}],
        "enums": enums,
        "structs": [s for s in structs if s["form"] != "QUANTITY"],
        "functions": [read_function(m) | {"header": header} for header, m in members if m.get("kind") == "function"],
    }
    finish(description, units)
    return description




# ---- what is taken has a range ----------------------------------------------------------------------------------

NUMBERS = {"double", "int", "long", "unsigned", "size_t", "int32_t", "uint32_t", "int64_t", "uint64_t"}


class Taken:
    """Goes through everything that a function takes: each number has a range, each member a label and decimals."""

    def __init__(self, description):
        self.structs = {s["name"]: s for s in description["structs"]}
        self.enums = {e["name"] for e in description["enums"]}
        self.quantities = {q["name"]: q for q in description["quantities"]}
        self.functions = {f["name"]: f for f in description["functions"]}
        self.complaints = []

    def is_number(self, type_):
        return type_ in NUMBERS or type_ in self.quantities

    def argument(self, f, p):
        """The argument whose range this one has: itself, or what @as names."""
        said = p.get("as")
        if not said or "range" in p:
            return p
        other = self.functions.get(said["function"])
        names = [said.get("argument", p["name"]).split(".")[0], p["name"].removesuffix("s")]
        found = next((q for name in names for q in (other or {}).get("parameters", []) if q["name"] == name), None)
        if found is None:
            self.complaints.append(f"{f['name']}: {p['name']} is said to be as in {said['function']}, which has none of that name")
            return p
        return self.argument(other, found)

    def function(self, f):
        for p in f.get("parameters", []):
            base = bare(p["type"])
            if p["role"] not in ("value", "input", "list") or base == "char" or "from" in p:
                continue
            own = self.argument(f, p)
            p.update({key: own[key] for key in ("range", "unused") if key in own})
            if self.is_number(base) and "range" not in own and "flag" not in p:
                self.complaints.append(f"{f['name']}: {p['name']} has no range: its comment wants @range LOW to HIGH, see docs/aliases.doxy")
            self.struct(base, f"{f['name']}: {p['name']}", "range" in own)
            self.unused(f, p, base)

    def unused(self, f, p, base):
        names = {m["name"] for m in self.structs.get(base, {"members": []})["members"]}
        self.complaints += [f"{f['name']}: {p['name']} has no member {name}" for name in p.get("unused", []) if name not in names]

    def struct(self, name, where, has_range):
        struct = self.structs.get(name)
        if struct is None or struct["form"] in ("SET", "COLUMNS") or struct.get("columns"):
            return
        struct["taken"] = True
        for m in struct["members"]:
            if self.is_number(m["type"]) and not has_range and "range" not in m and "flag" not in m:
                self.complaints.append(f"{where}: {m['name']} of {name} has no range: its comment wants @range LOW to HIGH, see docs/aliases.doxy")
            self.struct(m["type"], where, has_range or "range" in m)

    def faults(self, statuses):
        """What a status is about is there: struct.member, a struct, or an argument."""
        known = {p["name"] for f in self.functions.values() for p in f.get("parameters", [])}
        known |= {name.removeprefix("fer_") for name in self.structs}
        known |= {f"{name.removeprefix('fer_')}.{m['name']}" for name, s in self.structs.items() for m in s["members"]}
        self.complaints += [f"{s['name']} is about {about}, which is nowhere" for s in statuses for about in s.get("about", [])
                            if about not in known]

    def labels(self):
        for s in self.structs.values():
            if not s.get("taken"):
                continue
            for m in s["members"]:
                m["label"] = m.get("label", first_words(m["text"]))
                if not 0 < len(m["label"]) <= LONGEST_LABEL:
                    self.complaints.append(f"{s['name']}: {m['name']} has no label of at most {LONGEST_LABEL} characters")
                if m["type"] in self.quantities:
                    m["decimals"] = m.get("decimals", self.quantities[m["type"]]["member"]["decimals"])


def finish(description, units):
    ranges = Ranges(units, [q["name"] for q in description["quantities"]])
    for q in description["quantities"]:
        resolve_tags(q["member"], ranges, None, q["name"])
    for s in description["structs"]:
        for m in s["members"]:
            resolve_tags(m, ranges, range_kind(description, m["type"]), f"{s['name']}: {m['name']}")
    for f in description["functions"]:
        for p in f.get("parameters", []):
            resolve_tags(p, ranges, range_kind(description, bare(p["type"])), f"{f['name']}: {p['name']}")
    taken = Taken(description)
    for f in description["functions"]:
        if "inline" not in f and not re.match("fer_(parse|format)_", f["name"]):
            taken.function(f)
    taken.labels()
    taken.faults(next(e["words"] for e in description["enums"] if e["name"] == "fer_status"))
    if taken.complaints:
        raise HeadersError("\n".join(dict.fromkeys(taken.complaints)))


def range_kind(description, type_):
    """The quantity of a type, or of all members of a struct."""
    struct = next((s for s in description["structs"] if s["name"] == type_), None)
    if struct and struct["form"] == "COLUMNS":
        return bare(struct["members"][0]["type"])
    kinds = {m["type"] for m in struct["members"]} if struct else {type_}
    return kinds.pop() if len(kinds) == 1 else type_


# ---- what is written --------------------------------------------------------------------------------------------

def sums():
    """A sum of each text that api.json is made of."""
    paths = [*sorted((ROOT / "include" / "ferrule").glob("*.h")), ROOT / "docs" / "aliases.doxy", pathlib.Path(__file__).resolve()]
    return {str(p.relative_to(ROOT)): hashlib.sha256(p.read_bytes()).hexdigest()[:16] for p in paths}


def numbers_of_version(constants):
    found = {c["name"]: c["value"] for c in constants}
    return ".".join(found[f"FER_VERSION_{part}"] for part in ("MAJOR", "MINOR", "PATCH")), int(found["FER_VERSION_ABI"])


def add_since(description, before):
    """The version that each exported function came with: what api.json said so far, otherwise this one. A break of the ABI
    begins anew."""
    known = {f["name"]: f["since"] for f in before.get("functions", []) if "since" in f} if before.get("abi") == description["abi"] else {}
    for f in description["functions"]:
        if "inline" not in f:
            f["since"] = known.get(f["name"], description["version"])


def describe(before):
    with tempfile.TemporaryDirectory() as folder:
        found = read_headers(run_doxygen(pathlib.Path(folder)))
    version, abi = numbers_of_version(found["constants"])
    description = {"about": "The API of ferrule, written by bindings/api/read_headers.py out of the headers. Do not edit.",
                   "version": version, "abi": abi, "sums": sums()} | found
    add_since(description, before)
    return description


def as_text(item, indent="", width=200):
    """JSON for review: what fits on a line stands on one."""
    line = json.dumps(item, ensure_ascii=False)
    if len(indent) + len(line) <= width or not isinstance(item, (dict, list)):
        return line
    inner = indent + " "
    if isinstance(item, list):
        return "[\n" + ",\n".join(inner + as_text(i, inner, width) for i in item) + f"\n{indent}]"
    return "{\n" + ",\n".join(f"{inner}{json.dumps(key)}: {as_text(i, inner, width)}" for key, i in item.items()) + f"\n{indent}}}"


REWRITE = "bindings/api/read_headers.py --write rewrites it"


def main(mode):
    before = json.loads(DESCRIPTION.read_text(encoding="utf-8")) if DESCRIPTION.exists() else {}
    if mode == "--sums":
        now = sums()
        changed = sorted(name for name in {*now, *before.get("sums", {})} if now.get(name) != before.get("sums", {}).get(name))
        return f"changed after api.json was written: {', '.join(changed)}; {REWRITE}" if changed else None
    text = as_text(describe(before)) + "\n"
    if mode == "--write":
        DESCRIPTION.write_text(text, encoding="utf-8")
    elif text != DESCRIPTION.read_text(encoding="utf-8"):
        return f"api.json is not what the headers say; {REWRITE}"
    return None


if __name__ == "__main__":
    if sys.argv[1:] not in (["--write"], ["--check"], ["--sums"]):
        sys.exit(__doc__)
    try:
        complaint = main(sys.argv[1])
    except HeadersError as error:
        complaint = str(error)
    if complaint:
        sys.exit(f"read_headers.py: {complaint}")
