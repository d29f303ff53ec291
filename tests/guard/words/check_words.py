#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Words that no text of the project uses, because they read archaic or mean two things.

Usage: check_words.py [ROOT] [FILE...]   Prints FILE:LINE: the words, and what to write. Exit status 1: something was found.
       check_words.py --try              plants each row's words in a text of each kind: found; its counterexample and names of variables are not

Texts are all lines of Markdown, tables, scripts and presets, and in programs the comments and strings: names of variables are free.
"""
import io
import pathlib
import re
import subprocess
import sys
import tempfile
import tokenize

ROOT = pathlib.Path(__file__).resolve().parents[3]

# words not used, what to write, an example that is found, one that is not
TABLE = [
    (r"\b[Rr]eckon", "compute", "bores are reckoned", "bores are computed"),
    (r"\b[Tt]old\b", "reported, given, distinguished", "the status is told", "the status is reported"),
    (r"\b[Ww]hoever\b", "users who, the one who", "for whoever turns the dial", "for users who turn the dial"),
    (r"\bless\b(?! than\b| often\b| likely\b| exact\b| wide\b| work\b| and\b| is (?:enough|reached|shown)\b|[.,;:)*`\"']| may be\b|$)"
     r"(?<!or less)", "minus; the difference of", "target less die size", "less than a millimetre"),
    (r"(?<!\w)(?:an?|one|each|columns?|files?|folders?|lines?|rows?|pages?|headers?|loops?|status(?:es)?|arguments?|scalars?|sheets?)"
     r" (?:(?!is|was|with|of|as|to|in|from|has|by|for|at|on|gives?|holds?|makes?|takes?|needs?|becomes?|over|per|under|than|into)[a-z]+ )?(?<!such )a "
     r"(?:row|line|page|module|room|component|kind|function|language|survivor|record|record|target|source|test|reading|remark|figure|call"
     r"|order|file|column|bound|side|piece|header|quantity|set|lot|shift|day)\b(?! (?:of|at|is|has|that|by)\b)",
     "a ... for each ..., one ... per ...", "one header a module", "as long as a row"),
    (r"\b[Rr]ooms?\b", "module; clearance; capacity, space", "see room `chance`", "see module `chance`"),
    (r"\b(?:[Ll]east|LEAST)\b(?! squares\b| common\b| likely\b)(?<!at least)(?<!of least)", "lower, minimum, smallest",
     "the least compression", "at least three readings; least squares"),
    (r"\b(?:the most (?:of|that)\b|the most[.,;\"']|[Mm]ost (?:compression|diameter|reading|bore)\b|MOST\b)",
     "upper, maximum, largest", "the most diameter allowed", "most of the calls; at most 7"),
    (r"\byield\b(?! (?:strength|point|condition|criterion|stress)s?\b)(?<!to yield)(?<!not yield)(?<!does yield)(?<!may yield)"
     r"(?<!must yield)(?<!would yield)(?<!can yield)(?<!first yield)(?<!full yield)(?<!and yield)", "yield strength; conforming share",
     "steel of yield 300 MPa", "the wall does not yield; yield strength 300 MPa"),
    (r"\byields\b (?:of|for|inside|with)\b|\b(?:simulated|exact) yields\b", "conforming shares", "yields of a column", "the stem yields in part"),
    (r"\b[Hh]eld\b", "ends fixed; restrained; kept, contained", "free and held ends", "ends free and ends fixed"),
    (r"\b[Ff]ree (?:ends?|flow|ferrules?)\b", "ends free; flow with ends free", "free ends carry no force", "ends free carry no force"),
    (r"\b(?:[Uu]ser|[Mm]aker)'s risks?\b", "consumer's, producer's risk", "the maker's risk", "the producer's risk"),
    (r"\b[Mm]akers?\b", "manufacturer; constructor of a quantity", "the hose's maker", "the hose's manufacturer"),
    (r"\b[Ss]preads?\b", "uncertainties; standard deviation; scatter", "the spread of the process", "the standard deviation"),
    (r"\b(?:one |a (?:whole |full )?)(?:turn|graduation|step) off\b|\bstood a\b", "set one turn wrong",
     "the dial stood a whole turn off", "the dial was set one turn wrong"),
    (r"\bturns and all\b", "including full turns", "as it stands, turns and all", "including full turns"),
    (r"\btaken for exact\b", "assumed exact", "the gauge taken for exact", "the gauge assumed exact"),
    (r"\b(?:hardly|scarcely) (?:begun|yielded)\b", "not yielded through its thickness", "has hardly begun to yield",
     "has not yielded through its thickness"),
    (r"\b[Pp]rove[ns]?\b(?! (?:by|with) (?:Gappa|Eva|Frama-C))|\b[Pp]roofs?\b(?! test| pressure|[/_\"-])(?<!/proof)(?<!\"proof)(?<!proof\.py)(?<!,proof)(?<!, proof)(?!\.\w|=)", "verified; agrees with; record",
     "what was proven", "a proof test must confirm it; tests/release/proof/records; proven with Gappa"),
    (r"\b(?:[Rr]ibs?|[Tt]ooth|[Tt]eeth)\b", "ridge", "ribs inside a ferrule", "ridges inside a ferrule"),
    (r"\b(?:press|set)(?:es|'s|s')?(?: own)? jaws?\b", "master dies; jaws are those of a caliper", "the press's own jaws",
     "the jaws of a caliper"),
    (r"(?<![\d.])4\.96(?!\d)", "a figure of the worked joint, such as 0.5 in", "fer_inch(4.96)", "0.4961 in"),
    (r"(?<![\d.])41 ?mm\b", "a figure of the worked joint, such as 12.7 mm", "a length of 41 mm", "12.7 mm"),
    (r"(?<![\d.])(?:39|46) ?mm\b", "a figure of the worked joint: 22 mm, 23.51 mm", "a 39 mm die", "a 22 mm die"),
    (r"\b(?:[RH]\d\d|C(?!11\b|17\b|99\b)\d\dK?)\b", "die 5, hose A, coupling A2: codes collide with hose types and tolerance classes",
     "coupling C12K on die R13", "coupling A2 on die 5"),
    (r"(?<![\w#-])M(?!0)\d\d?(?![\w.-])", "set-up 5: M5 is a thread", "set-up M5", "set-up 5; Cortex-M4"),
]

FIGURE = r"(?<![\d.])"
# Texts that have to hold such words, and why: path, row of the table (its beginning) or "" for all, reason.
ALLOWED = [
    ("docs/CHANGELOG.md", "", "names of 0.1, which users look for"),
    ("docs/dev/renames.csv", "", "names of 0.1"),
    ("docs/dev/rename.py", "", "names of 0.1"),
    ("tests/guard/checks/renames.py", "", "programs of 0.1, which the script renames"),
    ("tests/guard/abi/", "", "names of 0.1"),
    ("tests/guard/words/", "", "the table itself"),
    ("examples/depot/dies.csv", FIGURE, "sizes of a rack of twelve dies"),
    ("examples/erp/data.sql", FIGURE, "the same rack"),
    ("examples/depot/confirmations.csv", FIGURE, "a die of the same rack"),
    ("examples/depot/card.py", r"(?<![\w#-])M", "a path of SVG"),
    ("examples/depot/signs.py", r"(?<![\w#-])M", "a path of SVG"),
    ("examples/erp/postgresql/release.sql", r"\b[Pp]rove", "a member of the library"),
    ("examples/erp/sqlite/release.sql", r"\b[Pp]rove", "a member of the library"),
    ("tests/guard/breakage/", r"\bless", "quotes sources"),
    ("tests/guard/breakage/", r"\b(?:[Ll]east", "quotes sources"),
    ("bindings/api/keywords.py", r"\byield\b", "keywords of other languages"),
    ("examples/hoselines/hoselines.py", r"(?<![\w#-])M", "a path of SVG"),
    ("bindings/python/ferrule/drawing.py", r"(?<![\w#-])M", "a path of SVG"),
    ("tests/guard/fuzz/corpus/", "", "inputs"),
    ("tests/release/proof/rounding/", r"\b[Pp]rove[ns]?\b(?! (?:by|with) (?:Gappa|Eva|Frama-C))", "what Gappa proves is proven"),
    ("tests/release/proof/undefined/", r"\b[Pp]rove[ns]?\b(?! (?:by|with) (?:Gappa|Eva|Frama-C))", "what Eva proves is proven"),
    ("tests/release/proof/records/undefined.json", r"\b[Pp]rove[ns]?\b(?! (?:by|with) (?:Gappa|Eva|Frama-C))", "what Eva proves is proven"),
    ("LICENSE", "", "the licence's own words"),
]
# Check values are no examples: what a row of a table computes with is chosen for what it tests.
CHECK_VALUES = ("tests/agree/vectors/", "tests/unit/", "tests/agree/finite_element/", "tests/agree/simulation/", "tests/guard/",
                "tests/release/", "tests/agree/accuracy/", "tests/agree/sql/", "tests/agree/python/", "tests/agree/catalogue/forming.py",
                "tests/agree/examples/")

SLASHED = re.compile(r"\.(?:c|h|i|java|cs|js|ts|cpp|hpp)$")
TOKENS = re.compile(r"""/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'""", re.S)
LUA = re.compile(r"""--[^\n]*|"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'""")


def pieces(pattern, text):
    """(line, text) of all that a pattern finds."""
    for match in pattern.finditer(text):
        first = text.count("\n", 0, match.start()) + 1
        yield from enumerate(match[0].split("\n"), first)


def python_pieces(text):
    kinds = {tokenize.COMMENT, tokenize.STRING, getattr(tokenize, "FSTRING_MIDDLE", -1)}
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type in kinds:
            yield from enumerate(token.string.split("\n"), token.start[0])


def texts(path, text):
    """(line, text) of what a person reads in a file; nothing of files that are not text."""
    name = path.name
    if name.endswith(".py") or text.startswith("#!/usr/bin/python"):
        return python_pieces(text)
    if SLASHED.search(name):
        return pieces(TOKENS, text)
    if name.endswith(".lua"):
        return pieces(LUA, text)
    return enumerate(text.split("\n"), 1)


def is_allowed(path, pattern):
    if pattern.startswith(FIGURE) and path.startswith(CHECK_VALUES):
        return True
    return any(path.startswith(place) and pattern.startswith(row) for place, row, _ in ALLOWED)


def complaints(root, path):
    try:
        text = (root / path).read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return
    rows = [(row[0], row[1]) for row in TABLE if re.search(row[0], text, re.M) and not is_allowed(path, row[0])]
    for line, words in texts(pathlib.PurePath(path), text) if rows else ():
        for pattern, instead in rows:
            found = re.search(pattern, words)
            if found:
                start = max(found.start() - 30, 0)
                yield f"{path}:{line}: {words[start:found.end() + 40].strip()!r}: {found[0]!r}: {instead}"


def files(root):
    listed = subprocess.run(["git", "-C", root, "ls-files"], text=True, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    if listed.returncode == 0 and listed.stdout:
        return [path for path in listed.stdout.splitlines() if (root / path).is_file()]
    return [path.relative_to(root).as_posix() for path in root.rglob("*")
            if path.is_file() and not {"build", ".git", "__pycache__"} & set(path.relative_to(root).parts)]


PLANTED = {"page.md": "{}\n", "table.csv": "1,{}\n", "source.c": "int x; /* {} */\n", "text.h": "static const char *x = \"{}\";\n",
           "module.py": "x = 1  # {}\n", "words.lua": "local x = 1 -- {}\n", "CMakeLists.txt": "# {}\n"}


def planted(folder, words):
    """In which files the words are found, one planted in each kind of text."""
    for name, form in PLANTED.items():
        (folder / name).write_text(form.format(words), encoding="utf-8")
    return [name for name in PLANTED if list(complaints(folder, name))]


def try_table():
    wrong = []
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        for pattern, _, example, counterexample in TABLE:
            missed = set(PLANTED) - set(planted(folder, example))
            wrong += [f"{example!r} is not found in {name}" for name in sorted(missed)]
            wrong += [f"{counterexample!r} is found in {name}" for name in planted(folder, counterexample)]
        (folder / "names.c").write_text("int room, told, spread = yield + less;\n", encoding="utf-8")
        wrong += list(complaints(folder, "names.c"))
    return wrong


def main():
    if sys.argv[1:] == ["--try"]:
        found = try_table()
    else:
        root = pathlib.Path(sys.argv[1]) if sys.argv[1:] else ROOT
        found = [line for path in sys.argv[2:] or files(root) for line in complaints(root, path)]
    if found and sys.argv[1:] != ["--try"]:
        found.append("Each line: where, the text, the word found, what to write instead. Texts that have to hold one: ALLOWED in "
                     "tests/guard/words/check_words.py")
    print("\n".join(found) or "no word that is not used")
    sys.exit(bool(found))


if __name__ == "__main__":
    main()
