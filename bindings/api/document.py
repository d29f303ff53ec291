# SPDX-License-Identifier: MIT
"""Write the documentation of the scripting languages out of api.json, each in its own words.

Usage: document.py OUTPUT_FOLDER

lua/help.lua, tcl/help.tcl, perl/Help.pm, ruby/help.rb   what help("crimp_diameter") says: signature, arguments, results, errors
lua/annotations.lua                                      types for editors that read annotations (---@meta)
perl/Functions.pod, perl/Values.pod, tcl/ferrule.pod     pages for perldoc and, by pod2man, for man
ruby/ferrule.rbs                                         types of all methods and classes

Names, units, rules and sources are those of the headers (describe.py); only how a call, a type, a word and an error look is a
language's own. help() also knows the structs, quantities and lists of words.
"""
import os
import re
import sys
import textwrap

sys.argv.append("--script")  # names as in C
from describe import INTEGERS, Api, Call, function_parts, text_of  # noqa: E402


class Tongue:
    """How a language writes things; the classes below say what is different."""
    text, number, whole, truth, list_of, left_out = "text", "number", "integer", "boolean", "list of ", ", may be left out"

    def __init__(self, api):
        self.api = api

    def type_of(self, api, base, is_list, is_argument=True):
        kind = api.structs.get(base) or api.enums.get(base)
        if not kind:
            name = {"char": self.text, "double": self.number, "bool": self.truth}.get(base, self.whole)
        elif kind.form == "ENUM":
            name = f"{kind.name}, a word"
        elif kind.form == "SET":
            name = f"{self.list_of}words of {api.enums[kind.element].name}"
        else:
            name = kind.name + (" or text" if is_argument and kind.form == "QUANTITY" else "")
        return (self.list_of if is_list else "") + name

    def word(self, name):
        return name

    def signature(self, name, arguments):
        raise NotImplementedError

    def error(self, word):
        raise NotImplementedError

    def parts(self, f):
        result = lambda api, base, is_list: self.type_of(api, base, is_list, False)
        return function_parts(self.api, f, self.type_of, result)

    def function(self, f):
        arguments = [(name, optional) for name, _, _, optional in Call(self.api, f).arguments]
        return self.signature(f.name, arguments) + "\n\n" + text_of(self.parts(f), self.error, self.left_out, "Errors")

    def rows(self, kind):
        """Names inside a kind, each with what it is: members, words or units."""
        if kind.form == "ENUM":
            return [(self.word(name), "", text) for name, _, text, _ in kind.values]
        if kind.form == "QUANTITY":
            return [(unit, "", "") for unit in kind.units]
        return [(m.name, self.type_of(self.api, m.type, m.array is not None) + (self.left_out if m.optional else ""), m.text)
                for m in kind.members]

    def kind(self, kind):
        title = {"ENUM": "Words", "QUANTITY": "Units"}.get(kind.form, "Members")
        rows = [f"    {name}" + (f" ({type_})" if type_ else "") + (f": {text}" if text else "") for name, type_, text in self.rows(kind)]
        if kind.form == "QUANTITY":
            rows = ["    " + ", ".join(kind.units)]
        return "\n".join([kind.name, "", capital(kind.text)] + (["", f"{title}:"] + rows if kind.form != "SET" else []))

    def kinds(self):
        return [k for k in [*self.api.structs.values(), *self.api.enums.values()]]

    def all(self):
        """Every name that help() knows, with its text."""
        return {f.name: self.function(f) for f in self.api.functions} | {k.name: self.kind(k) for k in self.kinds()}


def capital(text):
    text = text.strip()
    return text if not text else text[0].upper() + text[1:] + ("" if text[-1] in ".!?" else ".")


class Lua(Tongue):
    text, list_of = "string", "table of "

    def signature(self, name, arguments):
        text = ""
        for argument, optional in arguments:
            comma = ", " if text else ""
            text += f"[{comma}{argument}]" if optional else comma + argument
        return f"ferrule.{name}({text})"

    def error(self, word):
        return f'class "{word}"'

    def help(self):
        rows = "".join(f"  [{long(name)}] = {long(text)},\n" for name, text in self.all().items())
        return f"-- SPDX-License-Identifier: MIT\n-- Written by document.py out of the headers.\nreturn {{\n{rows}}}\n"

    def annotation(self, base, is_list, is_argument):
        kind = self.api.structs.get(base) or self.api.enums.get(base)
        if not kind:
            name = {"char": "string", "double": "number", "bool": "boolean"}.get(base, "integer")
        elif kind.form == "SET":
            name = f"ferrule.{self.api.enums[kind.element].name}[]"
        else:
            name = f"ferrule.{kind.name}"
            if is_argument and kind.form == "QUANTITY" or is_argument and kind.form == "STRUCT" and kind.shorthand():
                name += "|string"
            if is_argument and kind.form in ("STRUCT", "FOUND"):
                name += "|table"
        return f"({name})[]" if is_list and "|" in name else name + ("[]" if is_list else "")

    def annotated_kind(self, kind):
        out = [f"--- {line}" for line in textwrap.wrap(capital(kind.text), 110)]
        if kind.form == "ENUM":
            return out + [f"---@alias ferrule.{kind.name} string", *(f"---| '\"{n}\"' # {t}" for n, _, t in self.rows(kind)), ""]
        if kind.form == "SET":
            return []
        out.append(f"---@class ferrule.{kind.name}" + (" : ferrule.Quantity" if kind.form == "QUANTITY" else ""))
        if kind.form == "QUANTITY":
            return out + [f"---@field {unit} number" for unit in kind.units] + [""]
        return out + [f"---@field {m.name}{'?' if kind.form == 'FOUND' and m.name == 'value' else ''} "
                      f"{self.annotation(m.type, m.array is not None, False)} {m.text}" for m in kind.members] + [""]

    def annotated_function(self, f):
        call, parts = Call(self.api, f), self.parts(f)
        out = [f"--- {line}" if line else "---" for line in text_of(parts | {"arguments": [], "results": []}, self.error, "", "Errors").splitlines()]
        for (name, base, is_list, optional), (*_, text) in zip(call.arguments, parts["arguments"]):
            out.append(f"---@param {name}{'?' if optional else ''} {self.annotation(base, is_list, True)} {text}".rstrip())
        for (name, base, is_list, _), (*_, text) in zip(call.results, parts["results"]):
            out.append(f"---@return {self.annotation(base, is_list, False)} {'result' if name == 'return' else name} {text}".rstrip())
        return out + [f"function ferrule.{f.name}({', '.join(a[0] for a in call.arguments)}) end", ""]

    def annotations(self):
        out = ["---@meta ferrule", "-- SPDX-License-Identifier: MIT", "-- Written by document.py out of the headers; for editors, not to be run.",
               "", "---@class ferrule", "local ferrule = {}", "", "---@class ferrule.Quantity", "--- Text with decimals and unit: \".2f in\".",
               "---@field format fun(self, form?: string): string", ""]
        for kind in self.kinds():
            out += self.annotated_kind(kind)
        for kind in self.kinds():
            if kind.form in ("QUANTITY", "STRUCT", "FOUND"):
                out += ["---@param from string|table", f"---@return ferrule.{kind.name}", f"function ferrule.{kind.name}(from) end", ""]
        for f in self.api.functions:
            out += self.annotated_function(f)
        out += ["--- What is known about a function, a struct, a quantity, a list of words or a status.", "---@param name string",
                "---@return string", "function ferrule.help(name) end", ""]
        return "\n".join(out) + "\nreturn ferrule\n"


def long(text):
    """A Lua string of several lines."""
    return f"[==[{text}]==]" if "\n" in text else f'"{text}"'


class Tcl(Tongue):
    truth, left_out = "boolean", ", may be {}"

    def signature(self, name, arguments):
        return " ".join([f"ferrule::{name}", *(f"?{a}?" if optional else a for a, optional in arguments)])

    def error(self, word):
        return f"FERRULE {word.upper()}"

    def help(self):
        quoted = lambda text: '"' + re.sub(r'(["\\$\[\]{}])', r"\\\1", text) + '"'
        rows = "".join(f"dict set ferrule::help_texts {quoted(name)} {quoted(text)}\n" for name, text in self.all().items())
        return f"# SPDX-License-Identifier: MIT\n# Written by document.py out of the headers.\n{rows}"


class Perl(Tongue):
    truth, list_of, left_out = "1 or 0", "array of ", ", may be left out"

    def signature(self, name, arguments):
        text = ""
        for argument, optional in arguments:
            comma = ", " if text else ""
            text += f"[{comma}${argument}]" if optional else f"{comma}${argument}"
        return f"Ferrule::{name}({text})"

    def error(self, word):
        return f"Ferrule::Error::{word}"

    def help(self):
        quoted = lambda text: "'" + text.replace("\\", "\\\\").replace("'", "\\'") + "'"
        rows = "".join(f"    {quoted(name)} => {quoted(text)},\n" for name, text in self.all().items())
        return ("# SPDX-License-Identifier: MIT\n# Written by document.py out of the headers.\npackage Ferrule::Help;\n\nuse strict;\n"
                f"use warnings;\nuse utf8;\n\nour %TEXT = (\n{rows});\n\n1;\n")


class Ruby(Tongue):
    whole, list_of = "Integer", "array of "

    def signature(self, name, arguments):
        return f"Ferrule.{name}({', '.join(a + (' = nil' if optional else '') for a, optional in arguments)})"

    def error(self, word):
        return f"Ferrule::{word}Error"

    def word(self, name):
        return ":" + name.lower()

    def help(self):
        quoted = lambda text: "'" + text.replace("\\", "\\\\").replace("'", "\\'") + "'"
        rows = "".join(f"    {quoted(name)} => {quoted(text)},\n" for name, text in self.all().items())
        return ("# frozen_string_literal: true\n# SPDX-License-Identifier: MIT\n# Written by document.py out of the headers.\nmodule Ferrule\n"
                f"  HELP = {{\n{rows}  }}.freeze\n  private_constant :HELP\nend\n")

    def rbs(self, base, is_list, is_argument):
        kind = self.api.structs.get(base) or self.api.enums.get(base)
        if not kind:
            name = {"char": "String", "double": "Float", "bool": "bool"}.get(base, "Integer")
        elif kind.form == "ENUM":
            name = "word" if is_argument else "Symbol"
        elif kind.form == "SET":
            name = "Array[word]" if is_argument else "Array[Symbol]"
        elif not is_argument:
            name = kind.name
        elif kind.form == "QUANTITY":
            name = f"({kind.name} | word)"
        else:
            name = f"({kind.name} | members" + (f" | {self.rbs(kind.members[0].type, False, True)}" if kind.shorthand() else "") + ")"
        return f"Array[{name}]" if is_list else name

    def rbs_class(self, kind):
        out = [f"  # {line}" for line in textwrap.wrap(capital(kind.text), 110)]
        if kind.form == "QUANTITY":
            out += [f"  class {kind.name} < Quantity", f"    def self.new: (({kind.name} | word) value, ?decimal: String?) -> {kind.name}"]
            return out + [f"    def {unit}: () -> Float" for unit in kind.units] + ["  end", ""]
        out += [f"  class {kind.name} < Struct[untyped]", "    include Value", f"    def self.new: (?untyped given, **untyped members) -> {kind.name}",
                f"    def with: (**untyped changes) -> {kind.name}"]
        for m in kind.members:
            out += [f"    # {line}" for line in textwrap.wrap(m.text, 108)]
            missing = "?" if kind.form == "FOUND" and m.name == "value" else ""
            out.append(f"    def {m.name}: () -> {self.rbs(m.type, m.array is not None, False)}{missing}")
        return out + ["  end", ""]

    def rbs_method(self, f):
        call, parts = Call(self.api, f), self.parts(f)
        out = ["  #" + (f" {line}" if line else "") for line in text_of(parts, self.error, self.left_out, "Errors").splitlines()]
        types = [self.rbs(base, is_list, False) for _, base, is_list, _ in call.results]
        result = "nil" if not types else types[0] if len(types) == 1 else f"[{', '.join(types)}]"
        arguments = [(name, self.rbs(base, is_list, True), optional) for name, base, is_list, optional in call.arguments]
        places = ", ".join(("?" if o else "") + f"{t}{'?' if o else ''} {n}" for n, t, o in arguments)
        names = ", ".join(("?" if o else "") + f"{n}: {t}{'?' if o else ''}" for n, t, o in arguments)
        out.append(f"  def self.{f.name}: ({places}) -> {result}")
        if names:
            out.append(" " * (len(f.name) + 11) + f"| ({names}) -> {result}")
        return out + [""]

    def signatures(self):
        out = ["# SPDX-License-Identifier: MIT", "# Written by document.py out of the headers.", "module Ferrule", "  type word = String | Symbol",
               "  type members = Hash[word, untyped] | Array[untyped]", "", "  VERSION: String", "  FUNCTIONS: Hash[Symbol, Hash[Symbol, untyped]]",
               "  KINDS: Hash[String, Hash[Symbol, untyped]]", "  STATUSES: Hash[String, Hash[Symbol, untyped]]",
               *(f"  {name}: {'Float' if t == 'float' else 'Integer'}" for name, t in self.api.constants.items() if not name.startswith("VERSION")),
               "", "  # What is known about a function, a class, a list of words or a status.", "  def self.help: (word name) -> String", "",
               "  module Error", "    attr_reader function: String", "    attr_reader path: String?", "    attr_reader name: String?", "    attr_reader code: Integer?", "  end", "",
               "  class TypeError < ::TypeError", "    include Error", "  end", ""]
        words = dict.fromkeys(name.split("_")[0].capitalize() for name, *_ in self.api.enums["fer_status"].values if name != "OK")
        for word in words:
            if word != "Type":
                out += [f"  class {word}Error < ::ArgumentError", "    include Error", "  end"]
        out += ["", "  # A number that carries its unit. It does not change.", "  class Quantity", "    include Comparable",
                "    def +: (Quantity other) -> self", "    def -: (Quantity other) -> self", "    def *: (Numeric | Quantity other) -> Quantity",
                "    def /: (Numeric | Quantity other) -> Quantity", "    def -@: () -> self", "    def +@: () -> self", "    def abs: () -> self",
                "    def <=>: (untyped other) -> Integer?", "    def format: (?String form) -> String", "  end", "", "  module Value", "  end", ""]
        for kind in self.kinds():
            if kind.form in ("QUANTITY", "STRUCT", "FOUND"):
                out += self.rbs_class(kind)
        for f in self.api.functions:
            out += self.rbs_method(f)
        return "\n".join(out) + "end\n"


# ---- pages in POD ----------------------------------------------------------------------------------------------

def pod_text(text):
    safe = re.sub("[<>]", lambda m: "E<lt>" if m[0] == "<" else "E<gt>", text)
    return "Z<>" + safe if safe.startswith("=") else safe


def pod_rows(rows):
    out = ["=over 4", ""]
    for head, text in rows:
        out += [f"=item {pod_text(head)}", ""] + ([pod_text(text), ""] if text else [])
    return out + ["=back", ""]


def pod_function(tongue, f):
    """A heading, the call as code, and the parts of its comment."""
    parts = tongue.parts(f)
    call = tongue.signature(f.name, [(name, optional) for name, _, _, optional in Call(tongue.api, f).arguments])
    out = [f"=head2 {f.name}", "", f"    {call}", ""]
    for sentence in parts["sentences"]:
        out += [pod_text(sentence), ""]
    if parts["formula"]:
        out += [f"Formula: {pod_text(parts['formula'])}", ""]
    for title in ("arguments", "results"):
        if parts[title]:
            out += [f"{title.capitalize()}:", ""]
            out += pod_rows([(f"{n} ({t}{tongue.left_out if optional else ''})", text) for n, t, optional, text in parts[title]])
    if parts["statuses"]:
        out += ["Errors:", ""] + pod_rows([(f"{tongue.error(word)}, {name}", text) for word, name, text in parts["statuses"]])
    for title, text in parts["sections"]:
        out += [f"{title}: {pod_text(text)}", ""]
    return out


def pod_kind(tongue, kind):
    out = [f"=head2 {kind.name}", "", pod_text(capital(kind.text)), ""]
    if kind.form == "SET":
        return out
    if kind.form == "QUANTITY":
        return out + ["Units: " + ", ".join(kind.units) + ".", ""]
    return out + pod_rows([(name + (f" ({type_})" if type_ else ""), text) for name, type_, text in tongue.rows(kind)])


def pod_page(name, title, intro, *sections):
    out = ["=encoding utf8", "", "=for comment SPDX-License-Identifier: MIT", "", "=for comment Written by document.py out of the headers.", "",
           "=head1 NAME", "", f"{name} - {title}", "", "=head1 DESCRIPTION", "", intro, ""]
    for heading, lines in sections:
        out += [f"=head1 {heading}", "", *lines]
    return "\n".join(out) + "\n=cut\n"


def functions_pod(tongue):
    return [line for f in tongue.api.functions for line in pod_function(tongue, f)]


def kinds_pod(tongue):
    return [line for kind in tongue.kinds() for line in pod_kind(tongue, kind)]


CAUTION = ("The crimp data that the manufacturers of coupling and hose publish come first. A computed diameter is a starting point: a trial crimp and "
           "a proof test must confirm it.")


def main():
    api, folder = Api(), sys.argv[1]
    lua, tcl, perl, ruby = Lua(api), Tcl(api), Perl(api), Ruby(api)
    written = {
        "lua/help.lua": lua.help(), "lua/annotations.lua": lua.annotations(), "tcl/help.tcl": tcl.help(), "perl/Help.pm": perl.help(),
        "ruby/help.rb": ruby.help(), "ruby/ferrule.rbs": ruby.signatures(),
        "perl/Functions.pod": pod_page("Ferrule::Functions", "functions of Ferrule", f"What L<Ferrule> calculates. {CAUTION}",
                                       ("FUNCTIONS", functions_pod(perl))),
        "perl/Values.pod": pod_page("Ferrule::Values", "quantities, structs and words of Ferrule",
                                    "What L<Ferrule::Functions> takes and gives.", ("VALUES", kinds_pod(perl))),
        "tcl/ferrule.pod": pod_page("ferrule", "engineering mathematics of crimping hose couplings",
                                    "C<package require ferrule>. A quantity is text with a unit, a struct a dict, a list a list. " + CAUTION,
                                    ("COMMANDS", functions_pod(tcl)), ("VALUES", kinds_pod(tcl)))}
    for name, text in written.items():
        path = os.path.join(folder, name)
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)


if __name__ == "__main__":
    main()
