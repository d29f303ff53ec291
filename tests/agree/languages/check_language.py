# SPDX-License-Identifier: MIT
"""A language's package against the shared tables, the Python package's bits, bad calls and a leak check.

Usage: check_language.py answers|memory LANGUAGE COMMAND...   COMMAND runs tests/agree/languages/play.* of the language

answers:
rows      every row of tests/agree/vectors: expected value within its tolerance, and the very bits of the Python package; and
          every row of its tables of decisions
bad       each bad call is the language's error, of the class, status and function below, and says these things
help      says of every function, struct, quantity and list of words what Python's docstring says, with the language's own errors
own       what is the language's own: operators, text, classes, arguments by name
odd       arguments of every sort to every function: it returns, or raises the package's error
memory:
failing   100,000 failing calls leave the memory as it was
valgrind  the bad and some odd calls without invalid access and without a leak from our code; not for Ruby and
          Python, whose own memory management valgrind does not understand, and without Perl's arenas: see POOLS
"""
import csv
import os
import pathlib
import re
import struct
import subprocess
import sys
import tempfile

sys.path[:0] = [os.environ["FERRULE_PYTHON_PATH"], str(pathlib.Path(__file__).resolve().parents[1] / "python")]
import ferrule  # noqa: E402
import test_decisions  # noqa: E402
import test_vectors  # noqa: E402

# name: class, status, function, what the message says; PATHS has the field at fault
UNIT = ["compression", "20 %", "20 fraction"]
BAD = {
    "bare_number": ("Type", "", "crimp_diameter", UNIT),
    "missing_unit": ("Text", "TEXT_UNIT_MISSING", "crimp_diameter", UNIT),
    "other_kind": ("Type", "", "crimp_diameter", ["compression", "Ratio", "12.7 mm"]),
    "other_kind_text": ("Text", "TEXT_UNIT_OTHER_KIND", "crimp_diameter", ["compression", "'12.7 mm'", "fraction, percent"]),
    "nan": ("Compression", "COMPRESSION_NOT_A_NUMBER", "crimp_diameter", ["compression", "nan %", "finite"]),
    "empty_list": ("Argument", "ARGUMENT_COUNT_ZERO", "summarise_readings", ["readings", "empty"]),
    "empty_text": ("Text", "TEXT_EMPTY", "crimp_diameter", ["compression", "no text"]),
    "long_text": ("Text", "TEXT_TOO_LONG", "crimp_diameter", ["compression", "1000 bytes"]),
    "zero_byte": ("Text", "TEXT_UNIT_UNKNOWN", "crimp_diameter", ["compression", "'20 "]),
    "too_few": ("Type", "", "crimp_diameter", ["takes joint, compression, model", "1 argument given"]),
    "too_many": ("Type", "", "crimp_diameter", ["takes joint, compression, model", "4 arguments given"]),
    "unknown_word": ("Type", "", "crimp_diameter", ["model.basis", "FITTED_WALL", "'wal'"]),
    "unknown_member": ("Type", "", "crimp_diameter", ["joint", "stm", "hose, stem, ferrule"]),
    "missing_member": ("Type", "", "crimp_diameter", ["joint.hose", "outside"]),
    "not_a_list": ("Type", "", "choose_die", ["dies", "list"]),
    "bad_item": ("Text", "TEXT_UNIT_MISSING", "choose_die", ["dies[", "].size", "'19'", "19 mm"]),
    "second_list": ("Type", "", "choose_purchases", ["offers[", "3 mm"]),
    "wrong_struct": ("Type", "", "crimp_diameter", ["joint", "hose, stem, ferrule"]),
    "rule": ("Stem", "STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE", "crimp_diameter", ["stem: {outside: 19.9 mm}", "not below"]),
    "not_whole": ("Type", "", "lobe_height", ["segments", "whole number", "8.5"]),
    "too_large": ("Type", "", "lobe_height", ["segments", "out of range"]),
}
# In Tcl everything is text, so that its text is what is wrong.
TCL = {
    "bare_number": BAD["missing_unit"],
    "other_kind": BAD["other_kind_text"],
    "not_a_list": ("Text", "TEXT_UNIT_MISSING", "choose_die", ["dies[0]", "16 mm"]),
    "second_list": ("Text", "TEXT_UNIT_MISSING", "choose_purchases", ["offers[1]", "3 mm"]),
    "wrong_struct": ("Type", "", "crimp_diameter", ["joint", "inside", "hose, stem, ferrule"]),
}
# Python shows a value as Python writes it, and says itself how many arguments each function takes.
PYTHON = {
    "nan": ("Compression", "COMPRESSION_NOT_A_NUMBER", "crimp_diameter", ["compression", "nan", "finite"]),
    "too_few": ("Type", "", "crimp_diameter", ["missing", "'compression'"]),
    "too_many": ("Type", "", "crimp_diameter", ["at most 3 arguments", "4 given"]),
    "wrong_struct": ("Type", "", "crimp_diameter", ["joint has to be a Joint", "Hose(inside=\"12.7 mm\""]),
    "rule": ("Stem", "STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE", "crimp_diameter", ["stem: Stem(outside=\"19.9 mm\")", "not below"]),
}
# The field at fault, wherever a language begins to count; "" where it is not one alone.
PATHS = {
    **dict.fromkeys(["bare_number", "missing_unit", "other_kind", "other_kind_text", "nan", "empty_text", "long_text", "zero_byte",
                     "null_text", "null_quantity"], "compression"),
    **dict.fromkeys(["empty_list", "too_few", "too_many", "divided_by_zero"], ""),
    **dict.fromkeys(["unknown_member", "wrong_struct", "null_struct"], "joint"),
    "unknown_word": "model.basis", "missing_member": "joint.hose.outside", "rule": "joint.stem.outside", "not_a_list": "dies",
    "null_list": "dies", "null_item": "dies[]", "bad_item": "dies[].size", "second_list": "offers[]", "null_member": "outside",
    "not_whole": "segments", "too_large": "segments", "other_length": "word", "null_word": "cause",
}
BASES = {"Length": "mm", "Area": "mm2", "Force": "newton", "Pressure": "mpa", "Angle": "rad", "Ratio": "fraction",
         "Temperature": "celsius", "PerLength": "per_mm"}


# What an interpreter takes for many of its values at once, and gives back to nobody when it ends: who happened to ask for the
# value that no longer fitted is chance. Only a block that the interpreter's own function took, directly above malloc.
POOLS = {"perl": r"at 0x\w+: [mc]alloc [^\n]*\n[^\n]*: Perl_safesys[mc]alloc [^\n]*\n[^\n]*: Perl_more_bodies "}


def ask(command, *words, text=None):
    done = subprocess.run([*command, *words], input=text, text=True, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                          timeout=600)
    if done.returncode:
        sys.exit(f"{' '.join(words)}: exit status {done.returncode}\n{done.stdout[-3000:]}\n{done.stderr[-3000:]}")
    return done.stdout


def python_says(row):
    """What the Python package gives for a row: a figure, or the status."""
    try:
        return test_vectors.figure(row["function"], test_vectors.call(row), row["result"])
    except ferrule.Error as error:
        return f"status {error.name}"


def same(said, figure):
    """Whether a language said the very figure: its bits, or a whole number, or the status."""
    if isinstance(figure, (str, int)):
        return said == str(figure if isinstance(figure, str) else int(figure))
    return said == bits(figure) or isinstance(figure, float) and said == str(int(figure)) and figure.is_integer()


def bits(figure):
    """Of a number, or of a quantity in its base unit."""
    return struct.pack(">d", figure if isinstance(figure, float) else getattr(figure, BASES[type(figure).__name__])).hex()


def near(said, row, figure):
    """Whether it is what the table expects, within the tolerance."""
    if isinstance(figure, str):
        return said == row["expected"]
    if isinstance(figure, int):
        return abs(int(said) - int(row["expected"])) <= int(row["tolerance"])
    def number(of):
        return float(of) if isinstance(figure, float) else getattr(type(figure)(of), BASES[type(figure).__name__])
    # a whole number may be said without its bits
    got = float(said) if isinstance(figure, float) and len(said) < 16 else struct.unpack(">d", bytes.fromhex(said))[0]
    return abs(got - number(row["expected"])) <= number(row["tolerance"])


def check_rows(command):
    table = [case.values[0] for case in test_vectors.rows()]
    text = "".join("\t".join([row["function"], row["arguments"], row["result"]]) + "\n" for row in table)
    said = ask(command, "rows", text=text).splitlines()
    wrong = 0
    for row, one in zip(table, said, strict=True):
        figure = python_says(row)
        if not (same(one, figure) and near(one, row, figure)):
            wrong += 1
            print(f"{row['function']}({row['arguments']}): {one}, not {row['expected']}; Python: {figure!r}")
    print(f"rows: {len(table)}, wrong: {wrong}")
    return len(table) > 500 and not wrong


def squash(words):
    return re.sub("[_ ,]", "", words.lower())


def as_expected(said, expected):
    """A word or words however the language spells them, a flag, a whole number, or the bits of a length."""
    if isinstance(expected, ferrule.Length):
        return re.fullmatch("[0-9a-f]{16}", said) and abs(struct.unpack(">d", bytes.fromhex(said))[0] - expected.mm) <= test_decisions.SIX_DECIMALS
    return squash(said) == (str(int(expected)) if isinstance(expected, int) else squash(expected))


def check_decisions(command):
    """The tables of decisions: may it be crimped, may it be accepted, and why."""
    asked = list(test_decisions.queries())
    text = "".join("\t".join([second, given, path or "release.decision", *([first, order] if first else [])]) + "\n"
                   for _, first, order, second, given, path, _ in asked)
    said = ask(command, "rows", text=text).splitlines()
    wrong = 0
    for (row, *_, path, expected), one in zip(asked, said, strict=True):
        if not as_expected(one, expected):
            wrong += 1
            print(f"{row['source']}: {path} is {one}, not {expected}")
    print(f"decisions: {len(asked)}, wrong: {wrong}")
    return len(asked) > 1000 and not wrong


def check_functions(command):
    ours = {name for name, value in vars(ferrule).items() if type(value).__name__ == "builtin_function_or_method"}
    ours = {name.rstrip("_") for name in ours}
    theirs = set(ask(command, "functions").split())
    print(f"functions: {len(theirs)}; missing: {sorted(ours - theirs)}, besides: {sorted(theirs - ours)}")
    return ours == theirs


def check_bad(command, expected, paths=None):
    passed = True
    said = {name: rest for name, *rest in (line.split("\t") for line in ask(command, "bad").splitlines())}
    for name, (*row, shown) in expected.items():
        got = said.get(name, ["nothing"] * 5)
        path = re.sub(r"\[\d\]", "[]", got[3])
        if got[:3] != row or path != (paths or PATHS)[name] or not all(part in got[4] for part in [row[2], *shown]):
            passed = False
            print(f"{name}: {got}\nand was to be: {row}, {(paths or PATHS)[name]}, {shown}")
    print(f"bad calls: {len(said)}")
    return passed and len(said) == len(expected)


ERRORS = {"lua": 'class "{}"', "tcl": "FERRULE {}", "perl": "Ferrule::Error::{}", "ruby": "Ferrule::{}Error"}
UNKNOWN = ["", "no such thing", "crimp", "nan", "__index", "{", "fer_mm"]


def sections(text):
    """The blocks of a docstring by their titles; the first is the sentence."""
    text = re.split(r"\n\nExample\b", text)[0]  # which is Python's alone
    first, *others = re.split(r"\n\n(Formula|Arguments|Results|Raises|Errors|Accuracy|Source)\b:? ?", text)
    return {"sentence": first} | dict(zip(others[::2], others[1::2]))


def rows(block):
    """Names in a block of arguments or results, each with its text; its type is the language's own."""
    return [(name, text) for name, text in re.findall(r"^ +(\w+) \([^\n]*?\)(?:: (.*))?$", block or "", re.M)]


def help_of_function(language, name, said):
    """What is wrong with the help for a function, against the Python docstring of the same."""
    call, _, rest = said.partition("\n\n")
    docstring = getattr(ferrule, name).__doc__
    ours, theirs = sections(docstring.strip()), sections(rest)
    arguments = [argument.rstrip("_") for argument, _ in rows(ours.get("Arguments"))]
    if re.findall(r"\b(?!nil\b)[a-z]\w*", re.sub(r"^(Ferrule|ferrule)(::|\.)", "", call)) != [name, *arguments]:
        yield f"the call is {call}"
    for part in ("sentence", "Formula", "Accuracy", "Source"):
        if theirs.get(part) != ours.get(part):
            yield f"{part}: {theirs.get(part)}"
    for part in ("Arguments", "Results"):
        if [(n.rstrip("_"), t) for n, t in rows(ours.get(part))] != rows(theirs.get(part)):
            yield f"{part}: {theirs.get(part)}"
    for word, status, text in re.findall(r"^ +(\w+)Error, (\w+): (.*)$", ours.get("Raises", ""), re.M):
        form = ERRORS[language].format(word.upper() if language == "tcl" else word)
        if f"    {form}, {status}: {text}" not in theirs.get("Errors", ""):
            yield f"does not say {form}, {status}: {text}"
    if len(theirs["sentence"]) < 10 or not name_is_unit(name) and any(not text for _, text in rows(theirs.get("Arguments"))):
        yield "a sentence or the text of an argument is missing"


def name_is_unit(name):
    return any(hasattr(kind, name) for kind in (getattr(ferrule, k) for k in BASES))


def help_of_kind(kind, said):
    names = getattr(kind, "__match_args__", ()) or [name for name in getattr(kind, "__members__", {})]
    listed = {name.lstrip(":").upper(): text for name, text in re.findall(r"^ {4}(:?\w+)(?: \(.*?\))?(?:: (.*))?$", said, re.M)}
    for name in names:
        if name.rstrip("_").upper() not in listed:
            yield f"says nothing of {name}"
    if len(said) < 20:
        yield "is too short"


def check_help(language, command):
    functions = ask(command, "functions").split()
    public = {name: getattr(ferrule, name) for name in dir(ferrule)}
    kinds = {name: kind for name, kind in public.items() if isinstance(kind, type) and not issubclass(kind, ferrule.Error)}
    names = [*functions, *kinds, "STEM_BORE_MISSING", *UNKNOWN]
    said = ask(command, "help", text="".join(name + "\n" for name in names)).split("\n\f\n")
    texts = dict(zip(names, said, strict=False))
    wrong = [f"{name}: {fault}" for name in functions for fault in help_of_function(language, name, texts[name])]
    wrong += [f"{name}: {fault}" for name, kind in kinds.items() for fault in help_of_kind(kind, texts[name])]
    wrong += [f"{name!r} is known" for name in UNKNOWN if texts[name] != "refused"]
    if texts["STEM_BORE_MISSING"] != "STEM_BORE_MISSING\n\n" + ferrule.status_sentence("STEM_BORE_MISSING"):
        wrong.append(f"STEM_BORE_MISSING: {texts['STEM_BORE_MISSING']}")
    print(f"help: {len(functions)} functions, {len(kinds)} kinds, {len(wrong)} wrong")
    print("".join(f"{line}\n" for line in wrong[:20]), end="")
    return len(said) == len(names) + 1 and len(functions) > 70 and not wrong


def check_memory(command, count=100_000, allowed=256):
    before, after = map(int, ask(command, "failing", str(count)).split())
    print(f"{count:,} failing calls: {before} kB before, {after} kB after")
    return after - before <= allowed


def check_valgrind(language, command, ours, *words):
    """Valgrind's own errors, and definite leaks whose stack has a function of ours, without the interpreter's pools."""
    with tempfile.TemporaryDirectory() as folder:
        log = pathlib.Path(folder, "log")
        ask(["valgrind", "--quiet", "--error-exitcode=9", "--leak-check=full", "--show-leak-kinds=definite",
             "--errors-for-leak-kinds=none", "--num-callers=30", f"--log-file={log}", *command], *words)
        blocks = re.split(r"==\d+== \n", log.read_text(errors="replace"))
    lost = [block for block in blocks if "definitely lost" in block and re.search(ours, block)]
    leaks = [block for block in lost if not re.search(POOLS.get(language, r"\Z."), block)]
    print(f"valgrind, {' '.join(words)}: no errors, {len(leaks)} leaks from our code, {len(lost) - len(leaks)} pools of the interpreter")
    print("\n".join(leaks))
    return not leaks


def check_answers(language, command):
    passed = check_rows(command) & check_decisions(command)
    passed &= check_functions(command)
    passed &= check_bad(command, BAD | {"tcl": TCL, "python": PYTHON}.get(language, {}),
                        PATHS | {"tcl": {"not_a_list": "dies[]"}}.get(language, {}))
    if language != "python":  # whose docstrings and own ways tests/agree/python looks at
        passed &= check_help(language, command)
        ask(command, "own")
        ask(command, "odd", "500")
    return passed


def check_memories(language, command):
    # Python takes memory by the megabyte, so one step may come at any time.
    passed = check_memory(command, 1_000_000, 1300) if language == "python" else check_memory(command)
    if language not in ("ruby", "python"):
        passed &= check_valgrind(language, command, r"\b(bind|host|_wrap|fer)_", "bad")
        passed &= check_valgrind(language, command, r"\b(bind|host|_wrap|fer)_", "odd", "20")
    print(f"crimp diameters a second: {float(ask(command, 'speed', '100000')):,.0f}")
    return passed


def main():
    part, language, *command = sys.argv[1:]
    sys.exit(not {"answers": check_answers, "memory": check_memories}[part](language, command))


if __name__ == "__main__":
    main()
