# SPDX-License-Identifier: MIT
"""Write the Java classes out of api.json: quantities, records, enums, and Crimp with the
functions. What does not depend on the headers is in the .java files of this folder.

Usage: write_classes.py OUTPUT_FOLDER --script
"""
import html
import pathlib
import sys
import textwrap

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "api"))
from shapes import Shapes, camel, caps, layout_source, outdated, result_text, text_variants, write  # noqa: E402

RESERVED = {"default", "new", "class", "switch", "case", "return", "short", "long", "double", "int", "final", "char"}
HEAD = "// SPDX-License-Identifier: MIT\n// Written by write_classes.py out of the headers.\npackage ferrule;\n\n"


def name_of(name):
    name = camel(name)
    return name + "_" if name in RESERVED else name


class Writer:
    def __init__(self, shapes):
        self.s = shapes
        self.files = {}

    # ---- types and words ----

    def type(self, base, is_list=False):
        form = self.s.form(base)
        if is_list:
            return f"List<{self.boxed(base)}>"
        if form == "SET":
            return f"Set<{self.s.enum_of(base)}>"
        if form in ("NUMBER", "BOOL", "TEXT"):
            return {"NUMBER": "double", "BOOL": "boolean", "TEXT": "String"}[form]
        if form == "INTEGER":
            return "int" if base == "int" else "long"
        return caps(base)

    def reader_type(self, function):
        return "String" if function.type == "const char *" else self.type(function.type)

    def boxed(self, base):
        plain = self.type(base)
        return {"int": "Integer", "long": "Long", "double": "Double", "boolean": "Boolean"}.get(plain, plain)

    def read(self, base, count=None):
        form = self.s.form(base)
        if count:
            return f"w.takeList({count}, {self.reader(base)})"
        if form == "SET":
            return f"{self.s.enum_of(base)}.readSet(w)"
        if form == "INTEGER":
            return "(int) w.take()" if base == "int" else "w.take()"
        return {"NUMBER": "w.takeNumber()", "BOOL": "w.take() != 0", "TEXT": "w.takeText()"}.get(form, f"{caps(base)}.read(w)")

    def reader(self, base):
        return f"{caps(base)}::read" if self.s.is_class(base) or self.s.form(base) == "ENUM" else f"each -> {self.read(base).replace('w.', 'each.')}"

    def write(self, base, value, count=None):
        form = self.s.form(base)
        if count:
            return f"for ({self.boxed(base)} one : {value}) {{ {self.write(base, 'one')} }}"
        if form == "SET":
            return f"{self.s.enum_of(base)}.writeSet({value}, w);"
        if form in ("INTEGER", "BOOL", "NUMBER"):
            return {"INTEGER": f"w.put({value});", "BOOL": f"w.put({value} ? 1 : 0);", "NUMBER": f"w.putNumber({value});"}[form]
        return f"{caps(base)}.write({value}, w);"

    def argument(self, function, name, base, is_list, optional):
        where, form = f'"{function}", "{name}"', self.s.form(base)
        own = name_of(name)
        if is_list:
            return f"{caps(base)}.arguments({own}, {where})"
        if form in ("NUMBER", "INTEGER"):
            return f"Words.of({own})"
        if form == "BOOL":
            return f"Words.of({own} ? 1 : 0)"
        if form == "TEXT":
            return f"Words.of({own})"
        if optional:
            return f"{own} == null ? null : {caps(base)}.argument({own}, {where})"
        return f"{caps(base)}.argument({own}, {where})"

    # ---- comments ----

    def comment(self, text, indent=""):
        escaped = html.escape(self.s.named(text, name_of), quote=False).replace("@", "&#64;").replace("*/", "*&#47;")
        escaped = escaped.replace("{&#64;link ", "{@link ").replace("{&#64;code ", "{@code ")  # these are ours
        return textwrap.wrap(escaped, 110 - len(indent), break_long_words=False, break_on_hyphens=False) or [""]

    def doc(self, paragraphs, tags=(), indent=""):
        lines = []
        for i, paragraph in enumerate(paragraphs):
            if paragraph:
                lines += ([""] if i else []) + self.comment(("<p>" if i else "") + paragraph, indent)
        lines = [line.replace("&lt;p&gt;", "<p>", 1) for line in lines]
        for tag, text in tags:
            first, *rest = self.comment(text, indent + "    ")
            lines += [f"{tag} {first}"] + ["    " + line for line in rest]
        return [f"{indent}/**"] + [f"{indent} * {line}".rstrip() for line in lines] + [f"{indent} */"]

    # ---- classes ----

    def add(self, name, lines, imports=()):
        used = "\n".join(lines)
        needed = [one for one in ("java.util.List", "java.util.Set", *imports) if f"{one.rsplit('.', 1)[1]}<" in used or one in imports]
        head = "".join(f"import {one};\n" for one in sorted(set(needed)))
        self.files[f"{name}.java"] = HEAD + head + ("\n" if head else "") + used + "\n"

    def passing(self, base):
        """What every class has to travel as words."""
        kind = caps(base)
        return [
            f"    static final int WORDS = {self.s.size(base)};", "",
            f"    static long[] argument({kind} value, String function, String name) {{",
            "        Words w = new Words(WORDS);",
            f'        write(Words.given(value, "{kind}", function, name), w);',
            "        return w.words();", "    }", "",
            f"    static long[] arguments(java.util.Collection<{kind}> values, String function, String name) {{",
            f'        return Words.list(values, {kind}.class, "{kind}", WORDS, {kind}::write, function, name);', "    }"]

    def texts(self, base):
        kind = caps(base)
        unit = self.s.structs[base].units[0] if self.s.structs[base].units else "mm"
        return ["", *self.doc([f"Reads text with a unit, such as {{@code \"41 {unit}\"}}."],
                              [("@param text", "number and unit"), ("@return", "the value")], "    "),
                f"    public static {kind} of(String text) {{",
                f'        return of(text, "{kind}", "text");', "    }", "",
                f"    static {kind} of(String text, String function, String name) {{",
                f'        return read(Words.read("{kind}", function, name, text));', "    }", "",
                *self.doc(["Reads texts with a unit."], [("@param texts", "number and unit, each"),
                                                         ("@return", "a list that does not change")], "    "),
                f"    public static java.util.List<{kind}> listOf(String... texts) {{",
                f"        return java.util.Arrays.stream(texts).map({kind}::of).toList();", "    }"]

    def quantity(self, s):
        kind, base = s.name, s.c_name
        own = self.s.base_unit(base)
        out = self.doc([s.text, "A number that carries its unit. It does not change."])
        out += [f"public final class {kind} extends Quantity implements Comparable<{kind}> {{",
                f"    static final {kind} NOT_GIVEN = new {kind}(0);", *self.passing(base), "",
                f"    {kind}(double base) {{", "        super(base);", "    }", "",
                f"    static {kind} read(Words w) {{", f"        return new {kind}(w.takeNumber());", "    }", "",
                f"    static void write({kind} value, Words w) {{", "        w.putNumber(value.base);", "    }", "",
                "    @Override", "    long[] words() {", f'        return argument(this, "{kind}", "value");', "    }",
                *self.texts(base), "",
                *self.doc(["Reads text with a unit whose decimal sign is the comma, or the point."],
                          [("@param text", "number and unit"), ("@param decimal", "',' or '.'"), ("@return", "the value")], "    "),
                f"    public static {kind} of(String text, char decimal) {{",
                f'        return read(Words.parse("{kind}", text, decimal));', "    }"]
        for unit in s.units:
            made = f"new {kind}(number)" if unit == own else f"read(new Words(NativeJNI.{unit}(Words.of(number))))"
            out += ["", *self.doc([f"A value of a number in the unit {unit}."],
                                  [("@param number", f"number in {unit}"), ("@return", "the value")], "    "),
                    f"    public static {kind} {name_of(unit)}(double number) {{", f"        return {made};", "    }", "",
                    *self.doc([f"The number in the unit {unit}."], [("@return", f"the number in {unit}")], "    "),
                    f"    public double {name_of(unit)}() {{",
                    f"        return {'base' if unit == own else f'in({chr(34)}{unit}{chr(34)})'};", "    }"]
        out += ["", *self.doc(["Compares by size."], [("@param other", "another value"), ("@return", "below, at, above 0")], "    "),
                "    @Override", f"    public int compareTo({kind} other) {{",
                "        return Double.compare(base, other.base);", "    }"]
        if self.s.is_amount(base):
            out += self.arithmetic(kind)
        self.add(kind, out + ["}"])

    def arithmetic(self, kind):
        rows = [("plus", f"{kind} other", kind, "base + other.base", "The sum."),
                ("minus", f"{kind} other", kind, "base - other.base", "The difference."),
                ("times", "double factor", kind, "base * factor", "The multiple."),
                ("times", "Ratio factor", kind, "base * factor.base", "The multiple."),
                ("dividedBy", "double divisor", kind, "base / Words.divisor(divisor, this)", "The part."),
                ("dividedBy", "Ratio divisor", kind, "base / Words.divisor(divisor.base, this)", "The part."),
                ("negated", "", kind, "-base", "The value with the other sign."),
                ("abs", "", kind, "Math.abs(base)", "The value without its sign.")]
        if kind != "Ratio":
            rows.append(("dividedBy", f"{kind} divisor", "Ratio", "base / Words.divisor(divisor.base, this)", "The ratio."))
        out = []
        for name, given, result, sum_, text in rows:
            tags = [(f"@param {given.split()[1]}", "the other operand")] if given else []
            out += ["", *self.doc([text], tags + [("@return", "a new value")], "    "),
                    f"    public {result} {name}({given}) {{", f"        return new {result}({sum_});", "    }"]
        return out

    def enum(self, e):
        maximum = max(number for *_, number in e.values)
        out = self.doc([e.text or "Words."]) + [f"public enum {e.name} {{"]
        for name, c_name, text, number in e.values:
            sentence = text or name.lower().replace("_", " ")
            out += [*self.doc([sentence], indent="    "), f"    {name.upper()}({number}),"]
        out[-1] = out[-1][:-1] + ";"
        out += ["", f"    private static final {e.name}[] BY_NUMBER = new {e.name}[{maximum + 1}];", "",
                "    static {", f"        for ({e.name} one : values()) {{", "            BY_NUMBER[one.number] = one;", "        }",
                "    }", "", "    private final int number;", "",
                f"    {e.name}(int number) {{", "        this.number = number;", "    }", "",
                *self.doc(["The number of this word in C."], [("@return", "the number")], "    "),
                "    public int number() {", "        return number;", "    }", "",
                f"    static {e.name} read(Words w) {{", "        return of((int) w.take());", "    }", "",
                f"    static {e.name} of(int number) {{", "        return BY_NUMBER[number];", "    }", "",
                f"    static void write({e.name} value, Words w) {{", "        w.put(value.number);", "    }", "",
                f"    static long[] argument({e.name} value, String function, String name) {{",
                f'        return Words.of(Words.given(value, "{e.name}", function, name).number);', "    }"]
        for name, f in e.readers.items():
            out += ["", *self.doc([(f.text or ["What there is to say about it."])[0]], [("@return", "text" if f.type == "const char *" else "the word")], "    "),
                    f"    public {self.reader_type(f)} {name_of(name)}() {{", f"        return Crimp.{name_of(f.name)}(this);", "    }"]
        if any(s.element == e.c_name for s in self.s.structs.values()):
            out += ["", f"    static Set<{e.name}> readSet(Words w) {{", "        long bits = w.take();",
                    f"        java.util.EnumSet<{e.name}> set = java.util.EnumSet.noneOf({e.name}.class);",
                    f"        for ({e.name} one : values()) {{", "            if ((bits >> one.number & 1) != 0) {",
                    "                set.add(one);", "            }", "        }",
                    "        return java.util.Collections.unmodifiableSet(set);", "    }", "",
                    f"    static void writeSet(Set<{e.name}> set, Words w) {{", "        long bits = 0;",
                    f"        for ({e.name} one : set) {{", "            bits |= 1L << one.number;", "        }",
                    "        w.put(bits);", "    }"]
        self.add(e.name, out + ["}"])

    def check_member(self, s, m):
        """The line of a record's constructor for a member: not null, or what stands for null."""
        name, form = name_of(m.name), self.s.form(m.type)
        if m.array:
            return f'{name} = Words.exactly({name}, {m.array}, "{s.name}", "{m.name}");'
        if form in ("NUMBER", "BOOL", "INTEGER"):
            return None
        if s.form == "FOUND":
            return f"{name} = {name} == null ? Status.OK : {name};" if m.type == "fer_status" else None
        if form == "SET":
            return f'{name} = Words.set({name}, {self.s.enum_of(m.type)}.class, {str(m.optional).lower()}, "{s.name}", "{m.name}");'
        if m.optional:
            none = f"{caps(m.type)}.of(0)" if form == "ENUM" else f"{caps(m.type)}.NOT_GIVEN"
            return f"{name} = {name} == null ? {none} : {name};"
        return f'Words.given({name}, "{caps(m.type)}", "{s.name}", "{m.name}");'

    def record(self, s):
        fields = ", ".join(f"{self.type(m.type, bool(m.array))} {name_of(m.name)}" for m in s.members)
        tags = [(f"@param {name_of(m.name)}", m.text or m.name.replace("_", " ")) for m in s.members]
        out = self.doc([s.text, "Does not change; {@code with...} gives a copy with another member."], tags)
        out += [f"public record {s.name}({fields}) {{", *self.passing(s.c_name)]
        if s.form == "STRUCT":
            out += ["", f"    static final {s.name} NOT_GIVEN = read(new Words(WORDS));"]
        else:
            out += ["", f"    static final {s.name} NOT_GIVEN = new {s.name}({caps(s.members[0].type)}.NOT_GIVEN, Status.OK);"]
        checks = [line for line in (self.check_member(s, m) for m in s.members) if line]
        out += ["", *self.doc(["Of all members; null for those that may be left out."], tags, "    "),
                f"    public {s.name} {{", *("        " + line for line in checks), "    }"]
        out += self.constructors(s)
        if self.s.takes_text(s.c_name):
            out += self.texts(s.c_name)
        out += ["", *self.read_write(s)]
        out += ["", *self.doc(["Members and values, as text."], [("@return", "text")], "    "), "    @Override",
                "    public String toString() {",
                f'        return Words.written("{s.name}", argument(this, "{s.name}", "value"), "");', "    }"]
        if s.form == "FOUND":
            out += ["", *self.doc(["Whether there is a value."], [("@return", "true where status is OK")], "    "),
                    "    public boolean isFound() {", "        return status == Status.OK;", "    }"]
        else:
            for m in s.members:
                out += self.wither(s, m)
        self.add(s.name, out + ["}"])

    def read_write(self, s):
        reads = [self.read(m.type, m.array) for m in s.members]
        writes = [self.write(m.type, f"value.{name_of(m.name)}", m.array) for m in s.members]
        before = []
        if s.form == "FOUND":
            words = self.s.size(s.members[0].type)
            before = ["boolean isThere = w.take() != 0;", f"{caps(s.members[0].type)} value = {reads[0]};"]
            reads[0] = "isThere ? value : null"
            writes = ["w.put(value.value == null ? 0 : 1);",
                      f"if (value.value == null) {{ w.skip({words}); }} else {{ {writes[0]} }}", *writes[1:]]
        return [f"    static {s.name} read(Words w) {{", *("        " + line for line in before),
                f"        return new {s.name}(" + ",\n            ".join(reads) + ");", "    }", "",
                f"    static void write({s.name} value, Words w) {{", *("        " + line for line in writes), "    }"]

    def constructors(self, s):
        """Of what may not be left out, as values and as text."""
        out, needed = [], [m for m in s.members if not m.optional]
        if s.form == "FOUND":
            return out
        textual = [self.s.takes_text(m.type) and not m.array for m in needed]
        ways = ([[False] * len(needed)] if len(needed) < len(s.members) else []) + (
            text_variants(textual) if sum(textual) <= 4 and needed else [])
        default = lambda m: {"NUMBER": "0", "BOOL": "false", "INTEGER": "0"}.get(self.s.form(m.type), "null")
        for way in ways:
            given = ", ".join(f"{'String' if text else self.type(m.type, bool(m.array))} {name_of(m.name)}"
                              for m, text in zip(needed, way))
            texts = dict(zip((m.name for m in needed), way))
            passed = [default(m) if m.optional else
                      f'{caps(m.type)}.of({name_of(m.name)}, "{s.name}", "{m.name}")' if texts[m.name] else name_of(m.name)
                      for m in s.members]
            tags = [(f"@param {name_of(m.name)}", m.text or m.name.replace("_", " ")) for m in needed]
            out += ["", *self.doc(["Without what may be left out." if needed else "With nothing given."], tags, "    "),
                    f"    public {s.name}({given}) {{", f"        this({', '.join(passed)});", "    }"]
        return out

    def wither(self, s, m):
        name = name_of(m.name)
        title = "with" + name[0].upper() + name[1:]
        passed = ", ".join(name_of(other.name) for other in s.members)
        doc = self.doc([f"A copy with another {m.name.replace('_', ' ')}."],
                       [(f"@param {name}", m.text or m.name.replace("_", " ")), ("@return", "the copy")], "    ")
        out = ["", *doc, f"    public {s.name} {title}({self.type(m.type, bool(m.array))} {name}) {{",
               f"        return new {s.name}({passed});", "    }"]
        if self.s.takes_text(m.type) and not m.array:
            out += ["", *doc, f"    public {s.name} {title}(String {name}) {{",
                    f'        return {title}({caps(m.type)}.of({name}, "{s.name}", "{m.name}"));', "    }"]
        return out

    # ---- functions ----

    def function(self, f):
        call = self.s.calls[f.name]
        results = call.results
        name, class_ = name_of(f.name), caps(f.name) + "Results"
        result = "void" if not results else self.type(*results[0][1:3]) if len(results) == 1 else class_
        tags = [(f"@param {name_of(n)}", (f.notes.get(n) or n) + ("; null: none of it given" if o else ""))
                for n, _, _, o in call.arguments]
        returned = [(result_text(f, n), n) for n, *_ in results]
        if results:
            tags.append(("@return", "; ".join(text or n.replace("_", " ") for text, n in returned)))
        if f.type == "fer_status":
            statuses = [f"{n}: {text}" for n, text in f.statuses if n not in ("OK", "ARGUMENT_MISSING")]
            tags.append(("@throws FerruleException", "; ".join(statuses) or "where an argument is not valid"))
        said = list(f.text[:1]) + f.text[1:]
        said += [f"{title}: {f.sections[title]}" for title in ("Formula", "Accuracy", "Source") if title in f.sections]
        old = outdated(f)
        out = ["", *self.doc(said or [f.name], tags + ([("@deprecated", old)] if old else []), "    "), *(["    @Deprecated"] if old else [])]
        arguments = call.arguments
        given = ", ".join(f"{self.type(b, is_list)} {name_of(n)}" for n, b, is_list, _ in arguments)
        passed = "".join("\n            " + self.argument(f.name, *a) + "," for a in arguments)[:-1]
        out += [f"    public static {result} {name}({given}) {{"]
        call_ = f"new Words(NativeJNI.{f.name}({passed}))"
        if not results:
            out += [f"        {call_};"]
        else:
            reads = [f"w.takeList({self.reader(b)})" if is_list else self.read(b) for _, b, is_list, _ in results]
            value = reads[0] if len(reads) == 1 else f"new {class_}({', '.join(reads)})"
            out += [f"        Words w = {call_};", f"        return {value};"]
        out += ["    }", *self.overloads(f, call, name, result)]
        if len(results) > 1:
            fields = ", ".join(f"{self.type(b, is_list)} {name_of(n)}" for n, b, is_list, _ in results)
            out += ["", *self.doc([f"What {name} gives."], [(f"@param {name_of(n)}", text or n.replace("_", " "))
                                                             for text, n in returned], "    "),
                    f"    public record {class_}({fields}) {{}}"]
        return out

    def overloads(self, f, call, name, result):
        out = []
        arguments = call.arguments
        textual = [self.s.takes_text(b) and not is_list and not optional for _, b, is_list, optional in arguments]
        needed = sum(not a[3] for a in arguments)
        link = ", ".join(self.type(b, is_list).split("<")[0] for _, b, is_list, _ in arguments)
        for way in [[False] * len(arguments)] + text_variants(textual):
            for count in range(needed, len(arguments) + 1):
                if count == len(arguments) and not any(way):
                    continue
                given = ", ".join(f"{'String' if text else self.type(b, is_list)} {name_of(n)}"
                                  for (n, b, is_list, _), text in list(zip(arguments, way))[:count])
                passed = [f'{caps(b)}.of({name_of(n)}, "{f.name}", "{n}")' if text else name_of(n)
                          for (n, b, _, _), text in list(zip(arguments, way))[:count]]
                passed += ["null"] * (len(arguments) - count)
                head = f"As {{@link #{name}({link})}}" + (", with text for quantities." if any(way) else ", without what may be left out.")
                tags = [(f"@param {name_of(n)}", f.notes.get(n) or n) for n, *_ in arguments[:count]]
                tags += [("@return", "the same")] if result != "void" else []
                typed = [f"({caps(b)}) null" if p == "null" else p for p, (_, b, _, _) in zip(passed, arguments)]
                old = outdated(f)
                out += ["", *self.doc([head], tags + ([("@deprecated", old)] if old else []), "    "),
                        *(["    @Deprecated"] if old else []), f"    public static {result} {name}({given}) {{",
                        f"        {'' if result == 'void' else 'return '}{name}({', '.join(typed)});", "    }"]
        return out

    def constants(self):
        out = []
        for name, type_ in self.s.api.constants.items():
            read = f"new Words(NativeJNI.{name}_get())"
            if name.endswith("_MM"):
                out += [f"    /** A length of the headers. */", f"    public static final Length {name[:-3]} = Length.read({read});"]
            elif type_ == "float":
                out += [f"    /** A number of the headers. */", f"    public static final double {name} = {read}.takeNumber();"]
            else:
                out += [f"    /** A number of the headers. */", f"    public static final int {name} = (int) {read}.take();"]
        return out

    def all(self):
        for s in self.s.structs.values():
            if s.form == "QUANTITY":
                self.quantity(s)
            elif s.form != "SET":
                self.record(s)
        for e in self.s.enums.values():
            self.enum(e)
        out = self.doc(["The functions of ferrule: engineering mathematics of crimping hose couplings.",
                        "Every value is plain and does not change, and every function may be called from any thread."])
        out += ["public final class Crimp {", "    private Crimp() {", "    }", "", *self.constants()]
        for f in self.s.functions:
            out += self.function(f)
        self.add("Crimp", out + ["}"])
        self.files["Layout.java"] = HEAD + ("/** What the words of values are. */\nfinal class Layout {\n"
                                            f'    static final String TEXT = "{self.s.layout()}";\n\n    private Layout() {{\n    }}\n}}\n')
        return self.files


def main():
    shapes = Shapes()
    output = pathlib.Path(sys.argv[1])
    files = Writer(shapes).all()
    write(output / "ferrule", files)
    write(output, {"typed_layout.c": layout_source(shapes),
                   "sources.txt": "".join(f'"{(output / "ferrule" / name).resolve()}"\n' for name in sorted(files))})


if __name__ == "__main__":
    main()
