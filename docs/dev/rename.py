#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Renames what version 0.2 names otherwise, in sources of any language: rename.py [options] FILE-OR-FOLDER...

The names are in renames.csv beside this file. Names that can be nothing else (fer_crimp_yield, crimp_spread, FER_SPREAD_EMPTY,
CrimpYield ...) are renamed wherever they stand. Words that may be anything (least, most, yield, spread, free, held, user, maker,
next) are renamed in code only, where they are a member of one of ferrule's structs: behind a dot or an arrow, as designated
initialiser, as keyword argument, as key of a dictionary. In C and C++ the type of what stands before the dot decides, where the
file declares it; elsewhere its name. What is not certain is printed with file and line: "guess" was changed, "look" was not.

  --dry-run    writes nothing, prints what would change
  --project    for ferrule's own sources: private names, locals and file names, too; clang-format afterwards
  --changelog  prints the table of the changelog

A second run changes nothing.
"""
import argparse
import csv
import functools
import io
import pathlib
import re
import subprocess

HERE = pathlib.Path(__file__).resolve().parent
C = {".c", ".h", ".i", ".cpp", ".cc", ".cxx", ".hpp"}
BRACES = {".java", ".cs", ".js", ".mjs", ".ts"}
HASH = {".py", ".rb", ".pl", ".pm", ".tcl", ".sh", ".r", ".cmake", ".pyi", ".jl"}
DASHES = {".lua", ".sql"}
LEFT = re.compile(r"(^|/)(build|\.git|__pycache__|records|corpus)(/|$)|\.(abi|svg|png|pdf|so|o|pyc)$|(^|/)(renames\.csv|rename\.py)$"
                  r"|(^|/)CHANGELOG\.md$")
UNITS = r"_(?:mm2|mm|metre|inch|fraction|percent|mpa|bar|psi|newton|kn|rad|deg|celsius|per_mm)"
PUBLIC = ("module", "header", "function", "type", "member", "parameter", "enumerator", "macro", "status", "exception", "column",
          "script function", "package")
WORDS = ("least", "most", "yield", "yield_", "spread", "free", "held", "user", "maker", "next", "yields")
SUMMARY = ("fer_reading_summary", "fer_section_summary")
# What a name says of its type, where nothing else does: in order, the first that fits
HINTS = [(re.compile(p), t) for p, t in [
    (r"summar|section", "fer_reading_summary"), (r"(^|_)(metal|material|steel|brass|aluminium)s?$", "fer_material"),
    (r"process", "fer_process"), (r"order", "fer_order"), (r"set_?up", "fer_setup"), (r"risks", "fer_risks"),
    (r"diagnosis|said", "fer_diagnosis"), (r"simulated|counted|found$|^y$", "fer_simulated_yield"),
    (r"range|window|limits|interval|gap|buy|accept|reject|value|allowed|over|worst|tolerated", "fer_length_range")]]
FLOWS = {"held": "ends_fixed", "free": "ends_free", "HELD": "ENDS_FIXED", "FREE": "ENDS_FREE", "Held": "EndsFixed", "Free": "EndsFree"}
SIDES = {"least": "lower", "most": "upper", "LEAST": "LOWER", "MOST": "UPPER", "Least": "Lower", "Most": "Upper"}
ENUMERATORS = [(re.compile(r"(\b[fF]low(?:\.|::|[\\\"']*(?:[=:]|=>|,| )[ \\\"'{]*))(held|free|HELD|FREE|Held|Free)\b(?!\.)"), FLOWS),
               (re.compile(r"(\b[sS]ide(?:\.|::|[\\\"']*(?:[=:]|=>|,| )[ \\\"'{]*))(least|most|LEAST|MOST|Least|Most)\b"), SIDES)]
RARE = {"free", "held", "user", "maker", "next"}  # common as other people's members: only where the type is known or named so
TYPE_WORDS = {"return", "sizeof", "else", "case", "goto", "const", "static", "in", "not", "and", "or", "volatile"}
C_TOKEN = re.compile(r"/\*.*?\*/|//[^\n]*|\"(?:\\.|[^\"\\\n])*\"|'(?:\\.|[^'\\\n])*'|[A-Za-z_]\w*|\s+|->|::|[-+*/=!<>]=|.", re.S)
HASH_TOKEN = re.compile(r"#[^\n]*|[rRbBfF]{0,2}\"\"\".*?\"\"\"|[rRbBfF]{0,2}'''.*?'''|[rRbBfF]{0,2}\"(?:\\.|[^\"\\\n])*\"|"
                        r"[rRbBfF]{0,2}'(?:\\.|[^'\\\n])*'|[A-Za-z_]\w*|\s+|->|::|[-+*/=!<>]=|.", re.S)
DASH_TOKEN = re.compile(r"--[^\n]*|\"(?:\\.|[^\"\\\n])*\"|'(?:\\.|[^'\\\n])*'|[A-Za-z_]\w*|\s+|->|::|[-+*/=!<>~]=|.", re.S)
TEXT_TOKEN = re.compile(r"`[^`\n]*`|[A-Za-z_]\w*|\s+|.", re.S)
NAME = re.compile(r"[A-Za-z_]\w*")
INNER = re.compile(r"(?<![\w.'\"])[A-Za-z_]\w*(?![\w'\"])")
BETWEEN = {"in", "if", "and", "or", "for", "else", "is", "not", "return", "lambda", "import", "as", "del", "assert", "def", "elif", "IN", "LISTS",
           "while", "yield", "from", "foreach"}


def camel(name):
    first, *rest = name.split("_")
    return first + "".join(part.capitalize() for part in rest)


def pascal(name):
    return "".join(part.capitalize() for part in name.split("_"))


class Names:
    def __init__(self, project):
        with (HERE / "renames.csv").open(encoding="utf-8") as file:
            self.rows = list(csv.DictReader(file))
        self.project, self.exact, self.members, self.capital = project, {}, {}, {}
        self.locals, self.script_locals, self.files, self.texts, self.columns, self.code, self.takers = {}, {}, {}, [], {}, {}, {}
        for row in self.rows:
            self.take(row["kind"], row["old"], row["new"])

    def take(self, kind, old, new):
        if kind in ("function", "type", "enumerator", "macro", "status"):
            self.exact[old] = new
            short, becomes = (re.sub("^(fer|FER)_", "", name) for name in (old, new))
            if kind in ("macro", "enumerator"):
                short, becomes = (re.sub("_(MM|FLOW)$|^FLOW_", "", name) for name in (short, becomes))
                if "_" in short:
                    self.exact[pascal(short.lower())] = pascal(becomes.lower())
            if kind == "type":
                table = self.exact if "_" in short else self.capital
                table[pascal(short)] = pascal(becomes)
            elif "_" in short:
                self.exact[short] = becomes
            if kind == "type" and "_" in short:
                self.exact[short] = becomes
            if kind == "function":
                self.exact[camel(short)], self.exact[pascal(short)] = camel(becomes), pascal(becomes)
        elif kind == "member":
            struct, name = old.split(".")
            if "_" in name:
                for form in (str, camel, pascal):
                    self.exact[form(name)] = form(new)
            else:
                self.members.setdefault(name, {})[struct] = new
            self.takers.setdefault(name, {})[pascal(struct[4:])] = new
        elif kind == "parameter":
            function, name = old.rstrip(")").split("(")
            self.takers.setdefault(name, {})[function[4:]] = new
        elif kind == "exception":
            self.exact[old] = new
        elif kind in ("header", "package"):
            self.texts.append((re.compile(r"(?<![\w.])" + re.escape(old) + r"(?![\w]|\.\d)"), new))
        elif kind == "script function":
            self.code[old] = new
        elif kind == "column":
            self.columns[old] = new
        elif not self.project:
            return
        elif kind == "private":
            self.exact[old] = new
        elif kind == "local":
            type_, name = old.rsplit(" ", 1)
            self.locals.setdefault(name, {})[type_] = new
        elif kind == "script local":
            file, name = old.rsplit(" ", 1)
            self.script_locals.setdefault(name, {})[file] = new
        elif kind == "file":
            self.files[old] = new
            self.texts.append((re.compile(r"(?<![\w.-])" + re.escape(old) + r"(?!\w)"), new))
        elif kind == "text":
            self.texts.append((re.compile(r"(?<!\w)" * old[0].isalnum() + re.escape(old) + r"(?!\w)" * old[-1].isalnum()), new))

    @functools.cache
    def whole(self, word):
        """The new form of a name that can be nothing else; the same where it is not one."""
        if word in self.exact:
            return self.exact[word]
        match = re.fullmatch(rf"(\w+?)({UNITS})?", word)
        base, unit = match[1], match[2] or ""
        if unit and base in self.exact:
            return self.exact[base] + unit
        if word.startswith("fer_"):
            for old in sorted((o for o in self.exact if o.startswith("fer_") and word.startswith(o + "_")), key=len)[-1:]:
                return self.exact[old] + self.tail(word[len(old):])
            for old in ("_free", "_held", "_user", "_maker"):
                if unit and base.endswith(old) and re.search("setup" if old in ("_free", "_held") else "risks", base):
                    return base[:-len(old)] + "_" + next(iter(self.members[old[1:]].values())) + unit
            if base.endswith("_next") and "diagnose" in base:
                return base + "_check"
        if unit and (word.startswith("fer_") or self.project):
            return self.tail(word)
        if word in self.columns and self.project:
            return self.columns[word]
        return word

    def tail(self, word):
        lower, upper = ("minimum", "maximum") if re.search("summar", word) else ("lower", "upper")
        for old, new in (("least", lower), ("most", upper)):
            word = re.sub(rf"(^|_){old}(?={UNITS}$)", rf"\1{new}", word)
        word = re.sub(rf"(metal|material)_yield(?={UNITS}$)", r"\1_yield_strength", word)
        return re.sub(rf"process_spread(?={UNITS}$)", "process_standard_deviation", word)


class Source:
    """One file: its tokens, and what is decided of them."""

    def __init__(self, names, path, text):
        self.names, self.file, self.notes = names, path, []
        for pattern, new in names.texts:
            text = pattern.sub(new.replace("\\", "\\\\"), text)
        for pattern, table in ENUMERATORS:
            text = pattern.sub(lambda m, table=table: m[1] + table[m[2]], text)
        self.kind = self.language(path)
        pattern = {"c": C_TOKEN, "braces": C_TOKEN, "hash": HASH_TOKEN, "dashes": DASH_TOKEN}.get(self.kind, TEXT_TOKEN)
        self.tokens = [m.group() for m in pattern.finditer(text)]
        self.code = [i for i, t in enumerate(self.tokens) if not t.isspace() and not self.is_comment(t)]
        self.place = {i: n for n, i in enumerate(self.code)}
        self.types, self.chunk_of = {}, []
        if self.kind == "c":
            self.read_types()

    @staticmethod
    def language(path):
        suffix = path.suffix.lower()
        if path.name in ("CMakeLists.txt", "examples.txt"):
            return "hash"
        return "c" if suffix in C else "braces" if suffix in BRACES else "hash" if suffix in HASH else \
            "dashes" if suffix in DASHES else "text"

    def is_comment(self, token):
        return token.startswith(("/*", "//")) and self.kind in ("c", "braces") or \
            token.startswith("#") and len(token) > 1 and self.kind == "hash" or token.startswith("--") and self.kind == "dashes"

    def near(self, i, step):
        n = self.place[i] + step
        return self.tokens[self.code[n]] if 0 <= n < len(self.code) else ""

    def line(self, i):
        return sum(t.count("\n") for t in self.tokens[:i]) + 1

    def note(self, sure, i, old, new):
        self.notes.append((sure, self.line(i), old, new))

    # ---- types in C: of a name in its function (from one closing brace in the first column to the next), else in the file

    def read_types(self):
        chunk, before = 0, ""
        for i, token in enumerate(self.tokens):
            self.chunk_of.append(chunk)
            if token.isspace() and "\n" in token:
                is_header = self.file.suffix == ".h"
                if before == "}" and self.starts_line(i - 1) or is_header and token.count("\n") > 1:
                    chunk += 1
            else:
                before = token
        for i in self.code:
            if NAME.fullmatch(self.tokens[i]):
                type_ = self.declared(i)
                if type_:
                    self.types.setdefault((self.chunk_of[i], self.tokens[i]), type_)
                    self.types.setdefault((None, self.tokens[i]), type_)

    def starts_line(self, i):
        return i == 0 or self.tokens[i - 1].endswith("\n")

    def declared(self, i):
        """The type that this place gives the name, if it is a declaration."""
        n = self.place[i] - 1
        at = lambda k: self.tokens[self.code[k]] if k >= 0 else ";"
        stars = 0
        while at(n) in ("*", "const", "restrict"):
            stars += at(n) == "*"
            n -= 1
        first = at(n)
        if NAME.fullmatch(first) and first not in TYPE_WORDS:
            begins = at(n - 1) in ("(", ",", ";", "{", "}", "const", "static", "struct", "inline", ")", "extern", "FER_API", "enum")
            goes_on = stars or at(n - 1) in ("=", "+", "-", "/", "<", ">", "return", "?", ":", "&", "|")
            return first if begins or not goes_on else None
        if first == "}" and at(n + 1) == self.tokens[i]:
            return None
        if first == "{" and at(n - 1) == "enum":
            return "enum"
        if first != ",":
            return None
        depth, k = 0, n
        while k >= 0 and not (depth == 0 and at(k) in (";", "(", "}") or depth == 0 and at(k) == "{"):
            depth += (at(k) in (")", "]", "}")) - (at(k) in ("(", "[", "{"))
            if depth < 0:
                return None
            if at(k) == "}" and k != n and depth == 1 and self.statement_end(k):
                break
            k -= 1
        if at(k) == "(":
            return None
        if at(k) == "{" and at(k - 1) == "enum":
            return "enum"
        k += 1
        while at(k) in ("const", "static", "volatile", "register"):
            k += 1
        is_declaration = NAME.fullmatch(at(k)) and at(k) not in TYPE_WORDS and (NAME.fullmatch(at(k + 1)) or at(k + 1) == "*")
        return at(k) if is_declaration else None

    def statement_end(self, k):
        after = self.tokens[self.code[k + 1]] if k + 1 < len(self.code) else ""
        return NAME.fullmatch(after) is not None

    def type_of(self, i, name):
        chunk = self.chunk_of[i] if self.chunk_of else None
        return self.types.get((chunk, name)) or self.types.get((None, name))

    # ---- members

    def receiver(self, i):
        """The last name before the dot or arrow at code place i - 1, without indices and calls."""
        n = self.place[i] - 2
        while n >= 0 and self.tokens[self.code[n]] in ("]", ")"):
            depth = 0
            while n >= 0:
                t = self.tokens[self.code[n]]
                depth += (t in ("]", ")")) - (t in ("[", "("))
                n -= 1
                if depth == 0:
                    break
        token = self.tokens[self.code[n]] if n >= 0 else ""
        is_member = n > 0 and self.tokens[self.code[n - 1]] in (".", "->")
        return token, is_member

    def member(self, i, name, type_, receiver, certain=True):
        """The new name of member `name` of something of this type; the old one where it is not ours."""
        bare = name.rstrip("_")
        choices = self.names.members.get(bare)
        if not choices:
            return self.own(i, name, type_) if self.names.project and self.kind == "c" else name
        if type_ in choices:
            return choices[type_]
        if type_ and (type_.startswith("fer_") or self.kind == "c"):
            if type_.startswith("fer_") or not self.names.project:
                return name
            return self.own(i, name, type_)
        hint = next((t for p, t in HINTS if p.search(receiver.lower())), None)
        if hint in choices:
            return choices[hint]
        if self.names.project and self.kind == "c":
            return self.own(i, name)
        if self.file.name in self.names.script_locals.get(name, {}):
            return self.names.script_locals[name][self.file.name]
        if bare in RARE or receiver in ("self", "this"):
            self.note("look", i, f"{receiver}.{name}", " or ".join(sorted(set(choices.values()))))
            return name
        default = {"least": "lower", "most": "upper", "yield": "shares", "spread": "uncertainties"}.get(bare, name)
        self.note("guess", i, f"{receiver}.{name}", default)
        return default

    def own(self, i, name, around=None):
        """A member of a struct of ferrule's own sources: the type that the file declares it with decides."""
        return self.local(i, name, self.type_of(i, name) or "?", around)

    def local(self, i, name, type_, around=None):
        """A private member or a local of ferrule's own C sources."""
        choices = self.names.locals.get(name, {})
        return choices.get(around) or choices.get(type_) or choices.get("*", name)

    def enclosing_call(self, i):
        depth = 0
        for n in range(self.place[i] - 1, -1, -1):
            t = self.tokens[self.code[n]]
            depth += (t in (")", "]", "}")) - (t in ("(", "[", "{"))
            if depth < 0:
                return (self.tokens[self.code[n - 1]] if n > 0 else ""), t
        return "", ""

    def struct_around(self, i):
        """Name of the struct whose declaration holds this place."""
        depth = 0
        for n in range(self.place[i] - 1, -1, -1):
            t = self.tokens[self.code[n]]
            depth += (t == "}") - (t == "{")
            if depth < 0:
                words = [self.tokens[self.code[k]] for k in range(max(0, n - 2), n)]
                if "struct" not in words:
                    return None
                return words[-1] if words[-1] != "struct" else self.name_behind(n)
        return None

    def name_behind(self, n):
        """The name that a typedef gives the struct which opens at code place n."""
        depth = 0
        for k in range(n, len(self.code) - 1):
            t = self.tokens[self.code[k]]
            depth += (t == "{") - (t == "}")
            if depth == 0:
                return self.tokens[self.code[k + 1]]
        return "?"

    def designated_type(self, i):
        """Type of the initialiser that holds `.name =`."""
        depth = 0
        for n in range(self.place[i] - 1, -1, -1):
            t = self.tokens[self.code[n]]
            depth += (t in ("}", ")")) - (t in ("{", "("))
            if depth < 0:
                before = [self.tokens[self.code[k]] for k in range(max(0, n - 6), n)]
                for word in reversed(before):
                    if word.startswith("fer_") or self.type_of(i, word):
                        return word if word.startswith("fer_") else self.type_of(i, word)
                return None
        return None

    # ---- one token

    def renamed(self, i):
        token = self.tokens[i]
        if self.kind == "text":
            return self.in_text(i, token)
        if token.isspace():
            return token
        if self.is_comment(token):
            return self.in_comment(i, token)
        if token[-1] in "\"'" and len(token) > 1:
            return self.in_string(i, token)
        if not NAME.fullmatch(token):
            return token
        new = self.names.whole(token)
        if new != token or token in self.names.code:
            return self.names.code.get(token, new)
        return self.in_c(i, token) if self.kind == "c" else self.in_script(i, token)

    def in_c(self, i, token):
        before, after = self.near(i, -1), self.near(i, 1)
        if token not in self.names.members and token not in self.names.locals:
            return token
        if before in (".", "->"):
            opens = self.near(i, -2)
            if before == "." and opens in ("{", ",") and after in ("=", "."):
                type_ = self.designated_type(i)
                return self.member(i, token, type_, "")
            receiver, is_member = self.receiver(i)
            type_ = None if is_member and self.hinted(receiver) else self.type_of(i, receiver)
            return self.member(i, token, type_, receiver)
        struct = self.struct_around(i) if after in (";", ",", "[") else None
        if struct and struct in self.names.members.get(token, {}):
            return self.names.members[token][struct]
        if not self.names.project or after == "(" and token in ("free", "user", "maker"):
            return token
        return self.own(i, token, struct)

    @staticmethod
    def hinted(receiver):
        return any(p.search(receiver.lower()) for p, _ in HINTS)

    def in_script(self, i, token):
        before, after = self.near(i, -1), self.near(i, 1)
        if token in self.names.capital and (before in (".", "::", "new", ",", "import", ":") or after in ("(", ".", ",", ")", "\n")):
            return self.names.capital[token]
        if before in (".", "->", "::") and token in WORDS and token != "yields":
            return self.member(i, token, None, self.receiver(i)[0])
        call, bracket = self.enclosing_call(i)
        if after == "=" and bracket == "(":
            taken = self.names.takers.get(token.rstrip("_"), {}).get(call) or self.names.columns.get(token)
            if taken:
                return self.kept_locals(token, taken) if self.names.project else taken
        if after in (":", "=>") and bracket == "{" and token in ("least", "most", "spread"):
            return {"least": "lower", "most": "upper", "spread": "uncertainties"}[token]
        if self.names.project and (self.file.name == "CMakeLists.txt" or not self.is_prose(i)):
            return self.kept_locals(token, token, True)
        return token

    def is_prose(self, i):
        """Whether a word stands beside this one, which no language but English has."""
        blank = re.compile(r"[ \t]+")
        pairs = [self.tokens[k:k + 2] for k in (i + 1,)] + [self.tokens[max(0, i - 2):i][::-1]]
        return any(len(pair) == 2 and blank.fullmatch(pair[0]) and NAME.fullmatch(pair[1]) and pair[1] not in BETWEEN for pair in pairs)

    def kept_locals(self, token, new, local=False):
        choices = self.names.script_locals.get(token, {})
        if local:
            return choices.get(self.file.name) or choices.get("*", token)
        return choices[self.file.name] if choices.get(self.file.name) == token else new

    # ---- words in comments, strings and text

    PATH = re.compile(r"\b([a-z_]+)(\[\d*\])?\.(least|most|yield_?|spread|free|held|next|user|maker)\b(?!\w)")
    FIRST = re.compile(r"(?<![\w.])(spread(?=\.[a-z{])|yield(?=\.(?:inside|below|above)\b))")

    def path(self, i, text):
        """Members written as a path: order.spread, spread.hose_inside, range.least."""
        text = self.FIRST.sub(lambda m: "shares" if m[1] == "yield" else "uncertainties", text)

        def change(m):
            known = self.hinted(m[1]) or self.file.name in self.names.script_locals.get(m[3], {})
            if m[1] in ("e", "i") or not known and m[3] in RARE:
                return m[0]
            return f"{m[1]}{m[2] or ''}." + self.member(i, m[3], None, m[1])
        return self.PATH.sub(change, text)

    def plain(self, text):
        return NAME.sub(lambda m: self.names.whole(m[0]), text)

    def in_comment(self, i, token):
        token = self.path(i, self.plain(token))
        if self.names.project:
            token = re.sub(r"(@param(?:\[\w+\])? +)(\w+)", lambda m: m[1] + self.parameter(i, m[2]), token)
            token = re.sub(r"`(\w+)`", lambda m: "`" + self.quoted(i, m[1]) + "`", token)
            token = re.sub(r"\bfer_(\w+)::(\w+)", lambda m: f"fer_{m[1]}::" + self.of_struct(m[1], m[2]), token)
        return token

    def of_struct(self, struct, name):
        olds = {new: old for old, new in self.names.exact.items() if new == "fer_" + struct}
        return self.names.members.get(name, {}).get(olds.get("fer_" + struct, "fer_" + struct), name)

    def parameter(self, i, name):
        return self.local(i, name, self.type_of(i, name) or "?") if self.kind == "c" else name

    def quoted(self, i, word):
        default = {"least": "lower", "most": "upper", "spread": "uncertainties", "held": "ends_fixed", "free": "ends_free"}
        return default.get(word, word) if self.names.project else word

    KEY = re.compile(r"""((?:\\?["'{,] ?|^)\\?["']?)(least|most|spread)(\\?["']?\s*(?::|=>))""")

    def in_string(self, i, token):
        head = re.match(r"[A-Za-z]*", token)[0]
        quote = '"""' if token[len(head):].startswith('"""') else token[-1]
        body = token[len(head) + len(quote):len(token) - len(quote)]
        new = self.path(i, self.plain(body))
        new = re.sub(r"^\w+(?=:|$)", lambda m: self.names.code.get(m[0], m[0]), new)
        new = self.KEY.sub(lambda m: m[1] + self.key(i, m[2]) + m[3], new)
        if self.kind == "c" and self.names.project:
            new = FLOWS.get(new, new)
        elif self.names.project and new in self.names.capital:
            new = self.names.capital[new]
        elif new in (*WORDS, *FLOWS, "rooms"):
            new = self.whole_string(i, new)
        if "f" in head.lower() and self.kind == "hash" and self.names.project:
            new = re.sub(r"\{[^{}]*\}", lambda m: INNER.sub(lambda n: self.kept_locals(n[0], n[0], True), m[0]), new)
        return head + quote + new + quote

    def key(self, i, word):
        return {"least": "lower", "most": "upper", "spread": "uncertainties"}[word]

    def whole_string(self, i, word):
        """A string that is nothing but one of the words: a key, or a name in a list of names."""
        after, before = self.near(i, 1), self.near(i, -1)
        if self.names.project and word in ("rooms", *FLOWS):
            return (FLOWS | {"rooms": "modules"})[word]
        sure = after in (":", "=>", "]") and before in ("{", ",", "[")
        if word in ("least", "most", "spread") and (sure or self.names.project):
            return self.key(i, word)
        if word in WORDS:
            self.note("look", i, f'"{word}"', " or ".join(sorted(set(self.names.members.get(word, {word: "?"}).values()))))
        return word

    def in_text(self, i, token):
        if token.startswith("`") and len(token) > 2:
            return "`" + self.quoted(i, self.path(i, self.plain(token[1:-1]))) + "`"
        return self.names.whole(token) if NAME.fullmatch(token) else token

    def result(self):
        out = [self.renamed(i) for i in range(len(self.tokens))]
        text = "".join(out)
        if self.kind == "text":
            text = self.path(0, text) if self.path_file() else text
        return text

    def path_file(self):
        return self.file.suffix in (".csv", ".md", ".txt", ".in", ".doxy", ".json")


class Snippets:
    """Lines of ferrule's own C sources that tables of tests quote: a quotation changes as its line does."""

    def __init__(self):
        self.lines, self.word = {}, {}

    def learn(self, old, new):
        for before, after in zip(old.split("\n"), new.split("\n")):
            if before != after:
                pairs = dict(p for p in zip(NAME.findall(before), NAME.findall(after)) if p[0] != p[1])
                self.lines.setdefault(before.strip(), pairs)

    def pairs(self, text):
        if text.strip() in self.lines:
            return self.lines[text.strip()]
        parts = [part.strip() for part in text.split("\\n")]
        found = {}
        for line, pairs in self.lines.items():
            if any(part and part in line for part in parts):
                found = pairs | found
        return found

    def change(self, text, pairs):
        return NAME.sub(lambda m: pairs.get(m[0], m[0]), text)

    def table(self, text):
        """A table of broken lines, with its columns line, rule and becomes; None: it is another table."""
        head, *rows = csv.reader(io.StringIO(text, newline="")) if text else [[]]
        if "line" not in head or "rule" not in head:
            return None
        out = io.StringIO()
        csv.writer(out, lineterminator="\n").writerow(head)
        for row in rows:
            pairs = self.pairs((row + [""] * len(head))[head.index("line")])
            cells = [self.change(cell, pairs) if name in ("line", "rule", "becomes") else cell for name, cell in zip(head, row)]
            csv.writer(out, lineterminator="\n").writerow(cells + row[len(head):])
        return out.getvalue()

    CHANGE = re.compile(r'^    \("\w+", "(?:\\.|[^"\\])*",.*?\)(?:,\n|\]?\n)(?=    \(|\]|\n)', re.S | re.M)

    def script(self, text):
        """Tuples of break_formulas.py: what is quoted from the third string on."""
        def change(m):
            strings = list(re.finditer(r'"(?:\\.|[^"\\\n])*"', m[0]))
            out, last = "", 0
            pairs = {}
            for string in strings[2:]:
                pairs = self.pairs(string[0][1:-1].replace('\\"', '"')) | pairs
            for string in strings[2:]:
                out += m[0][last:string.start()] + self.change(string[0], pairs)
                last = string.end()
            return out + m[0][last:]
        return self.CHANGE.sub(change, text)


def files_in(paths):
    for path in map(pathlib.Path, paths):
        found = sorted(p for p in path.rglob("*") if p.is_file()) if path.is_dir() else [path]
        if path.is_dir() and (path / ".git").exists():
            listed = subprocess.run(["git", "ls-files"], cwd=path, capture_output=True, text=True, check=True).stdout.split("\n")
            found = [path / name for name in listed if name and (path / name).is_file()]
        yield from (p for p in found if not path.is_dir() or not LEFT.search(p.relative_to(path).as_posix()))


def read(path):
    try:
        return path.read_bytes().decode("utf-8")
    except UnicodeDecodeError:
        return None


def move(path, names, dry):
    new = names.files.get(path.name)
    if new and not dry:
        path.rename(path.with_name(new))
        return path.with_name(new)
    return path


def rename(paths, names, dry):
    snippets, changed, quoting = Snippets(), [], []
    for path in files_in(paths):
        text = read(path)
        if text is None:
            continue
        source = Source(names, path, text)
        new = source.result()
        if source.kind == "c":
            snippets.learn(text, new)
        for sure, line, old, becomes in source.notes:
            print(f"{sure}: {path}:{line}: {old} -> {becomes}")
        if names.project and (path.name == "break_formulas.py" or path.suffix == ".csv"):
            quoting.append((path, text, new))
        elif new != text or path.name in names.files:
            changed.append(store(path, names, new, text, dry))
    for path, text, new in quoting:
        made = snippets.script(new) if path.suffix == ".py" else snippets.table(new) or new
        if made != text:
            changed.append(store(path, names, made, text, dry))
    return changed


def store(path, names, new, text, dry):
    if dry:
        before, after = text.split("\n"), new.split("\n")
        for number, (a, b) in enumerate(zip(before, after), 1):
            if a != b:
                print(f"{path}:{number}:\n  - {a.strip()}\n  + {b.strip()}")
    elif new != text:
        path.write_bytes(new.encode("utf-8"))
    return move(path, names, dry)


def changelog(names):
    print("| kind | 0.1 | 0.2 | why |\n| --- | --- | --- | --- |")
    for row in names.rows:
        if row["kind"] in PUBLIC and row["old"] != "FERRULE_SPREAD_H":
            print(f"| {row['kind']} | `{row['old']}` | `{row['new']}` | {row['why']} |")


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("paths", nargs="*", metavar="FILE-OR-FOLDER")
    parser.add_argument("--dry-run", action="store_true")
    parser.add_argument("--project", action="store_true", help="for ferrule's own sources")
    parser.add_argument("--changelog", action="store_true", help="print the table of the changelog")
    arguments = parser.parse_args()
    names = Names(arguments.project)
    if arguments.changelog:
        changelog(names)
        return
    changed = rename(arguments.paths, names, arguments.dry_run)
    sources = [str(p) for p in changed if p.suffix in (".c", ".h")]
    if arguments.project and sources and not arguments.dry_run:
        subprocess.run(["clang-format", "-i", *sources], check=True)
    print(f"{len(changed)} files {'would change' if arguments.dry_run else 'changed'}")


if __name__ == "__main__":
    main()
