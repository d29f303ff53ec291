# SPDX-License-Identifier: MIT
"""Write the C# classes out of api.json: quantities, classes, enums, and Crimp with the
functions. What does not depend on the headers is in the .cs files of this folder.

Usage: write_classes.py OUTPUT_FOLDER --script
"""
import html
import pathlib
import sys
import textwrap

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "api"))
from shapes import Shapes, camel, caps, layout_source, outdated, result_text, write  # noqa: E402

RESERVED = {"default", "new", "class", "switch", "case", "return", "short", "long", "double", "int", "params", "in", "out", "ref",
            "is", "as", "base", "checked", "fixed", "lock", "object", "operator", "string", "event", "internal", "float"}
def property_of(struct, member):
    """C# has no member with the name of its class."""
    name = caps(member.name)
    return name + "Value" if name == struct.name else name


WHOLE = {"int": "int", "uint32_t": "uint", "uint64_t": "ulong"}


def name_of(name):
    name = camel(name)
    return "@" + name if name in RESERVED else name


class Writer:
    def __init__(self, shapes):
        self.s = shapes
        self.out = ["// SPDX-License-Identifier: MIT", "// Written by write_classes.py out of the headers.", "using System;",
                    "using System.Collections.Generic;", "", "namespace Crimping", "{"]

    def type(self, base, is_list=False):
        form = self.s.form(base)
        if is_list:
            return f"IReadOnlyList<{self.type(base)}>"
        if form == "SET":
            return f"IReadOnlyList<{self.s.enum_of(base)}>"
        if form == "INTEGER":
            return WHOLE.get(base, "long")
        return {"NUMBER": "double", "BOOL": "bool", "TEXT": "string"}.get(form, caps(base))

    def is_value(self, base):
        """Whether the C# type cannot be null."""
        return self.s.form(base) in ("QUANTITY", "ENUM", "NUMBER", "BOOL", "INTEGER")

    def taken(self, base, is_list=False):
        """The type of a parameter."""
        if is_list or self.s.form(base) == "SET":
            return f"IEnumerable<{self.s.enum_of(base) if self.s.form(base) == 'SET' else self.type(base)}>"
        return f"Given<{self.type(base)}>" if self.s.takes_text(base) else self.type(base)

    def read(self, base, count=None):
        form = self.s.form(base)
        if count:
            return f"w.TakeList({count}, each => {self.read(base).replace('w.', 'each.').replace('(w)', '(each)')})"
        if form == "SET":
            return f"w.TakeSet<{self.s.enum_of(base)}>(number => ({self.s.enum_of(base)})number)"
        if form == "ENUM":
            return f"({caps(base)})w.Take()"
        if form == "INTEGER":
            return "w.Take()" if self.type(base) == "long" else f"unchecked(({self.type(base)})w.Take())"
        # in full: a member may have the name of another class
        return {"NUMBER": "w.TakeNumber()", "BOOL": "w.Take() != 0", "TEXT": "w.TakeText()"}.get(form, f"Crimping.{caps(base)}.Read(w)")

    def reads(self, base, is_list):
        return self.read(base, "(int)w.Take()") if is_list else self.read(base)

    def write(self, base, value, count=None):
        form = self.s.form(base)
        if count:
            return f"foreach (var one in {value}) {{ {self.write(base, 'one')} }}"
        if form == "SET":
            return f"w.PutSet({value}, one => (long)one);"
        if form in ("INTEGER", "ENUM"):
            return f"w.Put(unchecked((long){value}));"
        return {"NUMBER": f"w.PutNumber({value});", "BOOL": f"w.Put({value} ? 1 : 0);"}.get(form, f"{value}.Write(w);")

    def given(self, base, name, where, optional):
        """A parameter as a value that is there."""
        own, kind = name_of(name), caps(base)
        if self.s.takes_text(base):
            return f"{kind}.Take({own}, {where}, {str(optional).lower()})"
        if self.s.form(base) in ("STRUCT", "FOUND"):
            return f"{own} ?? {kind}.NotGiven" if optional else f'Words.Given({own}, "{kind}", {where})'
        return own

    def argument(self, f, name, base, is_list, optional):
        where, own = f'"{f.name}", "{name}"', name_of(name)
        if is_list:
            return f'Words.List({own}, "{caps(base)}", {self.s.size(base)}, (one, each) => one.Write(each), {where})'
        form = self.s.form(base)
        if form == "TEXT":
            return f"Words.Of({own})"
        if form in ("INTEGER", "ENUM"):
            return f"Words.Of(unchecked((long){own}))"
        if form in ("NUMBER", "BOOL"):
            return f"Words.Of({own})" if form == "NUMBER" else f"Words.Of({own} ? 1L : 0L)"
        return f"Words.Of({self.given(base, name, where, optional)}, {self.s.size(base)})" if form != "QUANTITY" else (
            f"Words.Of({self.given(base, name, where, optional)}.Base)")

    # ---- comments ----

    def comment(self, text):
        text = html.escape(self.s.named(text, camel), quote=False)
        return textwrap.wrap(text, 110, break_long_words=False, break_on_hyphens=False) or [""]

    def doc(self, summary, tags=(), remarks=(), indent="        "):
        lines = ["<summary>", *self.comment(summary), "</summary>"]
        if remarks:
            lines += ["<remarks>"] + [line for one in remarks for line in ("<para>", *self.comment(one), "</para>")] + ["</remarks>"]
        for tag, text in tags:
            first, *rest = self.comment(text)
            lines += [f"<{tag}>{first}", *rest]
            lines[-1] += f"</{tag.split()[0]}>"
        self.out += [f"{indent}/// {line}" for line in lines]

    def add(self, *lines, indent="        "):
        self.out += [indent + line if line else "" for line in lines]

    # ---- classes ----

    def quantity(self, s):
        kind, own = s.name, self.s.base_unit(s.c_name)
        self.doc(s.text, remarks=["A number that carries its unit. It does not change. Text with a unit is taken for it."], indent="    ")
        self.add(f"public struct {kind} : IEquatable<{kind}>, IComparable<{kind}>, IComparable, IFormattable", "{", indent="    ")
        self.add("internal readonly double Base;", "", f"internal {kind}(double number)", "{", "    Base = number;", "}", "",
                 f"internal static {kind} Read(Words w) {{ return new {kind}(w.TakeNumber()); }}",
                 "internal void Write(Words w) { w.PutNumber(Base); }", "")
        self.take(kind, is_class=False)
        self.doc("Reads text with a unit whose decimal sign is the comma, or the point.",
                 [('param name="text"', "number and unit"), ('param name="decimalSign"', "',' or '.'"), ("returns", "the value")])
        self.add(f"public static {kind} Parse(string text, char decimalSign)", "{",
                 f'    return Read(Words.Parse("{kind}", text, decimalSign));', "}", "")
        for unit in s.units:
            made = f"new {kind}(number)" if unit == own else f"Read(new Words(NativePINVOKE.{unit}(Words.Of(number))))"
            self.doc(f"A value of a number in the unit {unit}.", [('param name="number"', f"number in {unit}"), ("returns", "the value")])
            self.add(f"public static {kind} From{caps(unit)}(double number) {{ return {made}; }}", "")
            self.doc(f"The number in the unit {unit}.")
            read = "Base" if unit == own else f'Words.Number("{kind}", Base, "{unit}")'
            self.add(f"public double {caps(unit)} {{ get {{ return {read}; }} }}", "")
        self.doc("The shortest text that reads back as the same value.", [("returns", "number and unit")])
        self.add('public override string ToString() { return ToString("", null); }', "")
        self.doc("Text with decimals and unit, each of which may be left out.",
                 [('param name="format"', 'such as ".2f in"'), ('param name="provider"', "does not matter: the point is always a point"),
                  ("returns", "number and unit")])
        self.add('public string ToString(string format, IFormatProvider provider = null)', "{",
                 f'    return Words.Written("{kind}", Words.Of(Base), format ?? "");', "}", "")
        simple = [("Equal where the number is the same.", f"public bool Equals({kind} other) {{ return Base.Equals(other.Base); }}"),
                  ("Equal where kind and number are the same.",
                   f"public override bool Equals(object other) {{ return other is {kind} && Equals(({kind})other); }}"),
                  ("Hash of the number.", "public override int GetHashCode() { return Base.GetHashCode(); }"),
                  ("Compares by size.", f"public int CompareTo({kind} other) {{ return Base.CompareTo(other.Base); }}"),
                  ("Compares by size.", f"public int CompareTo(object other) {{ return other == null ? 1 : CompareTo(({kind})other); }}")]
        simple += [(f"Compares by size.", f"public static bool operator {o}({kind} left, {kind} right) {{ return left.Base {o} right.Base; }}")
                   for o in ("==", "!=", "<", "<=", ">", ">=")]
        if self.s.is_amount(s.c_name):
            simple += self.arithmetic(kind)
        for text, line in simple:
            self.doc(text)
            self.add(line, "")
        self.out[-1] = "    }\n"

    def arithmetic(self, kind):
        rows = [("+", kind, kind, "left.Base + right.Base", kind, "The sum."),
                ("-", kind, kind, "left.Base - right.Base", kind, "The difference."),
                ("*", kind, "double", "left.Base * right", kind, "The multiple."),
                ("*", "double", kind, "left * right.Base", kind, "The multiple."),
                ("*", kind, "Ratio", "left.Base * right.Base", kind, "The multiple."),
                ("/", kind, "double", f'left.Base / Words.Divisor(right, "{kind}")', kind, "The part."),
                ("/", kind, "Ratio", f'left.Base / Words.Divisor(right.Base, "{kind}")', kind, "The part.")]
        if kind != "Ratio":
            rows += [("*", "Ratio", kind, "left.Base * right.Base", kind, "The multiple."),
                     ("/", kind, kind, f'left.Base / Words.Divisor(right.Base, "{kind}")', "Ratio", "The ratio.")]
        return [(text, f"public static {result} operator {sign}({left} left, {right} right) {{ return new {result}({sum_}); }}")
                for sign, left, right, sum_, result, text in rows] + [
                ("The value with the other sign.", f"public static {kind} operator -({kind} value) {{ return new {kind}(-value.Base); }}"),
                ("The value without its sign.", f"public {kind} Abs() {{ return new {kind}(Math.Abs(Base)); }}")]

    def take(self, kind, is_class):
        """Of text or of a value that was passed."""
        self.doc("Reads text with a unit.", [('param name="text"', "number and unit"), ("returns", "the value")])
        self.add(f"public static {kind} Parse(string text)", "{",
                 f'    return Read(Words.Read("{kind}", "{kind}", "text", text));', "}", "")
        self.doc("Reads text with a unit.", [('param name="text"', "number and unit")])
        self.add(f"public static implicit operator {kind}(string text) {{ return Parse(text); }}", "")
        none = f"{kind}.NotGiven" if is_class else f"default({kind})"
        self.add(f"internal static {kind} Take(Given<{kind}> given, string function, string name, bool mayLack)", "{",
                 "    if (given.IsValue)", "        return given.Value;", "    if (mayLack && given.Text == null)", f"        return {none};",
                 f'    return Read(Words.Read("{kind}", function, name, given.Text));', "}", "")

    def enum(self, e):
        self.doc(e.text or "Words.", indent="    ")
        self.add(f"public enum {e.name}", "{", indent="    ")
        for name, c_name, text, number in e.values:
            self.doc(text or name.lower().replace("_", " "))
            self.add(f"{caps(name.lower())} = {number},", "")
        self.out[-1] = "    }\n"

    def parameters(self, members, is_change=False):
        rows = []
        for m in members:
            taken = self.taken(m.type, bool(m.array))
            is_nullable = not taken.startswith(("Given<", "IEnumerable<")) and self.is_value(m.type)
            if is_change and is_nullable:
                taken += "?"
            default = "" if not (m.optional or is_change) else f" = default({taken})"
            rows.append(f"{taken} {name_of(m.name)}{default}")
        return ", ".join(rows)

    def member_value(self, s, m):
        where = f'"{s.name}", "{m.name}"'
        if m.array:
            return f"Words.Exactly({name_of(m.name)}, {m.array}, {where})"
        if self.s.form(m.type) == "SET":
            return f"Words.Set({name_of(m.name)}, {str(m.optional).lower()}, {where})"
        return self.given(m.type, m.name, where, m.optional)

    def found(self, s):
        value = s.members[0]
        type_ = self.type(value.type)
        is_struct = self.is_value(value.type)
        self.doc(s.text, remarks=["Does not change."], indent="    ")
        self.add(f"public sealed class {s.name} : Value", "{", indent="    ")
        self.add(f"internal static readonly {s.name} NotGiven = Read(Words.Zero({self.s.size(s.c_name)}, 1));", "")
        self.doc((value.text or "value") + "; null where there is none")
        self.add(f"public {type_}{'?' if is_struct else ''} Value {{ get; private set; }}", "")
        self.doc(s.members[1].text or "why there is no value")
        self.add("public Status Status { get; private set; }", "")
        self.doc("Whether there is a value.")
        self.add("public bool IsFound { get { return Status == Status.Ok; } }", "")
        self.doc("A value, or why there is none.", [('param name="value"', "value; null where there is none"),
                                                   ('param name="status"', "why there is none")])
        self.add(f"public {s.name}({type_}{'?' if is_struct else ''} value, Status status = Status.Ok)", "{", "    Value = value;",
                 "    Status = status;", "}", "",
                 f"internal static {s.name} Read(Words w)", "{", "    bool isThere = w.Take() != 0;",
                 f"    var value = {self.read(value.type)};",
                 f"    return new {s.name}(isThere ? value : {f'({type_}?)null' if is_struct else 'null'}, (Status)w.Take());", "}", "",
                 "internal override void Write(Words w)", "{", "    w.Put(Value == null ? 0 : 1);", "    if (Value == null)",
                 f"        w.Skip({self.s.size(value.type)});", "    else", f"        Value{'.Value' if is_struct else ''}.Write(w);",
                 "    w.Put((long)Status);", "}", "",
                 f"internal override int WordCount {{ get {{ return {self.s.size(s.c_name)}; }} }}")
        self.out.append("    }\n")

    def struct(self, s):
        self.doc(s.text, remarks=["Does not change; With gives a copy with other members."], indent="    ")
        self.add(f"public sealed class {s.name} : Value", "{", indent="    ")
        self.add(f"internal static readonly {s.name} NotGiven = Read(Words.Zero({self.s.size(s.c_name)}, 0));", "")
        for m in s.members:
            self.doc(m.text or m.name.replace("_", " "))
            self.add(f"public {self.type(m.type, bool(m.array))} {property_of(s, m)} {{ get; private set; }}", "")
        tags = [(f'param name="{name_of(m.name).strip("@")}"', m.text or m.name.replace("_", " ")) for m in s.members]
        self.doc("Of its members; what may be left out comes last.", tags)
        self.add(f"public {s.name}({self.parameters(s.members)})", "{",
                 *(f"    {property_of(s, m)} = {self.member_value(s, m)};" for m in s.members), "}", "")
        self.add(f"private {s.name}(Words w)", "{", *(f"    {property_of(s, m)} = {self.read(m.type, m.array)};" for m in s.members), "}", "",
                 f"internal static {s.name} Read(Words w) {{ return new {s.name}(w); }}", "",
                 "internal override void Write(Words w)", "{", *("    " + self.write(m.type, property_of(s, m), m.array) for m in s.members), "}",
                 "", f"internal override int WordCount {{ get {{ return {self.s.size(s.c_name)}; }} }}", "")
        self.doc("A copy with other members.", tags + [("returns", "the copy")])
        changed = [f"Words.Else({name_of(m.name)}, {property_of(s, m)})" if self.s.takes_text(m.type) else
                   f"{name_of(m.name)} ?? {property_of(s, m)}" for m in s.members]
        self.add(f"public {s.name} With({self.parameters(s.members, True)})", "{", f"    return new {s.name}(" + ", ".join(changed) + ");", "}")
        if self.s.takes_text(s.c_name):
            self.add("")
            self.take(s.name, is_class=True)
            self.out.pop()
        self.out.append("    }\n")

    # ---- functions ----

    def function(self, f):
        call = self.s.calls[f.name]
        results = call.results
        types = [self.type(b, is_list) for _, b, is_list, _ in results]
        result = "void" if not types else types[0] if len(types) == 1 else "(" + ", ".join(
            f"{t} {caps(n)}" for t, (n, *_) in zip(types, results)) + ")"
        tags = [(f'param name="{name_of(n).strip("@")}"', (f.notes.get(n) or n) + ("; may be left out" if o else ""))
                for n, _, _, o in call.arguments]
        if results:
            tags.append(("returns", "; ".join(result_text(f, n) or n.replace("_", " ") for n, *_ in results)))
        if f.type == "fer_status":
            statuses = [f"{n}: {text}" for n, text in f.statuses if n not in ("OK", "ARGUMENT_MISSING")]
            tags.append(('exception cref="FerruleException"', "; ".join(statuses) or "where an argument is not valid"))
        remarks = f.text[1:] + [f"{t}: {f.sections[t]}" for t in ("Formula", "Accuracy", "Source") if t in f.sections]
        self.doc((f.text or [f.name])[0], tags, remarks)
        if outdated(f):
            self.add(f'[Obsolete("{self.s.named(outdated(f), caps)}")]')
        given = ", ".join(f"{self.taken(b, is_list)} {name_of(n)}" + (f" = default({self.taken(b, is_list)})" if o else "")
                          for n, b, is_list, o in call.arguments)
        passed = "".join("\n                " + self.argument(f, *a) + "," for a in call.arguments)[:-1]
        call_ = f"new Words(NativePINVOKE.{f.name}({passed}))"
        self.add(f"public static {result} {caps(f.name)}({given})", "{")
        if not results:
            self.add(f"    {call_}.Done();")
        else:
            self.add(f"    var w = {call_};")
            reads = [self.reads(b, is_list) for _, b, is_list, _ in results]
            for i, one in enumerate(reads[:-1] if len(reads) > 1 else []):
                self.add(f"    var result{i} = {one};")
            self.add(f"    return {reads[0]};" if len(reads) == 1 else
                     "    return (" + ", ".join([f"result{i}" for i in range(len(reads) - 1)] + [reads[-1]]) + ");")
        self.add("}", "")

    def constants(self):
        for name, type_ in self.s.api.constants.items():
            read = f"new Words(NativePINVOKE.{name}_get())"
            self.doc("A number of the headers.")
            if name.endswith("_MM"):
                self.add(f"public static readonly Length {caps(name[:-3].lower())} = Length.Read({read});", "")
            elif type_ == "float":
                self.add(f"public static readonly double {caps(name.lower())} = {read}.TakeNumber();", "")
            else:
                self.add(f"public static readonly int {caps(name.lower())} = (int){read}.Take();", "")

    def all(self):
        for s in self.s.structs.values():
            {"QUANTITY": self.quantity, "FOUND": self.found, "STRUCT": self.struct, "SET": lambda s: None}[s.form](s)
        for e in self.s.enums.values():
            self.enum(e)
        self.doc("The functions of ferrule: engineering mathematics of crimping hose couplings.",
                 remarks=["Every value is plain and does not change, and every function may be called from any thread."], indent="    ")
        self.add("public static class Crimp", "{", indent="    ")
        self.constants()
        for f in self.s.functions:
            self.function(f)
        for e in self.s.enums.values():
            for name, f in e.readers.items():
                self.doc((f.text or ["Text."])[0], [('param name="word"', "a word"), ("returns", "text" if f.type == "const char *" else "the word")])
                kind = "string" if f.type == "const char *" else self.type(f.type)
                self.add(f"public static {kind} {caps(name)}(this {e.name} word) {{ return {caps(f.name)}(word); }}", "")
        self.out[-1] = "    }\n"
        self.add("internal static class Layout", "{", f'    internal const string Text = "{self.s.layout()}";', "}", indent="    ")
        self.out.append("}")
        return "\n".join(self.out) + "\n"


def main():
    shapes = Shapes()
    write(sys.argv[1], {"Crimping.cs": Writer(shapes).all(), "typed_layout.c": layout_source(shapes)})


if __name__ == "__main__":
    main()
