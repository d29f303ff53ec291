# SPDX-License-Identifier: MIT
"""A language with fixed types (Java, C#): as check_language.py, where much is refused by the compiler already.

Usage: check_typed.py LANGUAGE REFUSED COMPILER... -- WORDS LIBRARY -- COMMAND...

REFUSED   a source with lines that COMPILER has to refuse, each named behind it, and none besides
WORDS     words.c, and the compiled library that it calls, under valgrind: the machines of Java and C# do not run in it;
          nothing where C# is not built
COMMAND   runs play.* of the language
FERRULE_RECORD=1 in the environment writes measured_LANGUAGE.json for the table of languages, see measure.py.
"""
import os
import pathlib
import re
import subprocess
import sys
import tempfile

import check_language
import measure
from check_language import BAD, ask, ferrule

COMPILED = {"bare_number", "other_kind", "too_few", "too_many", "unknown_word", "unknown_member", "missing_member", "not_a_list",
            "second_list", "wrong_struct", "not_whole", "too_large"}
BESIDES = {"java": {"sum_of_kinds", "sum_of_temperatures", "other_unit"},
           "csharp": {"sum_of_kinds", "sum_of_temperatures", "other_unit", "change", "change_of_member"}}
# What is left when a program runs: text, null, and what is right in its type only.
LATE = {name: BAD[name] for name in BAD if name not in COMPILED} | {
    "bad_item": ("Text", "TEXT_UNIT_MISSING", "Die", ["'19'", "19 mm"]),
    "null_struct": ("Type", "", "crimp_diameter", ["joint", "hose, stem, ferrule", "null"]),
    "null_text": ("Type", "", "crimp_diameter", ["compression", "Ratio", "20 %", "null"]),
    "null_list": ("Type", "", "choose_die", ["dies", "list"]),
    "null_item": ("Type", "", "choose_die", ["dies[1]", "Die", "null"]),
    "null_member": ("Type", "", "Hose", ["outside", "Length", "null"]),
    "second_list": ("Type", "", "choose_purchases", ["offers[1]", "null"]),
    "other_length": ("Type", "", "RandomWords", ["word", "list of 4"]),
    "divided_by_zero": ("Type", "", "Length", ["divided by zero"]),
}
OWN = {"java": {"null_quantity": ("Type", "", "crimp_diameter", ["compression", "Ratio", "null"]),
                "null_word": ("Type", "", "cause_name", ["cause", "HEALTHY", "null"]),
                "too_large": ("Type", "", "find_random_words", ["counter.word[2]", "out of range"])},
       "csharp": {"unknown_word": ("Type", "", "crimp_diameter", ["model.basis", "FITTED_WALL", "99"])}}
VERSIONS = {"java": ["java", "-version"], "csharp": ["mono", "--version"]}
TITLES = {"java": "Java", "csharp": "C#"}


def squashed(name):
    return name.replace("_", "").lower()


def spelled(language, name):
    """A function as the language spells it; a class stays."""
    parts = name.split("_")
    if "_" not in name or language == "csharp":
        return "".join(part[:1].upper() + part[1:] for part in parts)
    return parts[0] + "".join(part.capitalize() for part in parts[1:])


def check_functions(command):
    ours = {squashed(name) for name, value in vars(ferrule).items() if type(value).__name__ == "builtin_function_or_method"}
    theirs = {squashed(name) for name in ask(command, "functions").split()}
    print(f"functions: {len(theirs)}; missing: {sorted(ours - theirs)}, besides: {sorted(theirs - ours)}")
    return ours == theirs and len(ours) > 70


def check_refused(language, source, compiler):
    """The compiler complains of each line with a name, and of no other."""
    lines = pathlib.Path(source).read_text(encoding="utf-8").splitlines()
    names = {number: match[1] for number, line in enumerate(lines, 1) if (match := re.search(r"; // (\w+)$", line))}
    with tempfile.TemporaryDirectory() as folder:
        out = ["-d", folder] if language == "java" else ["-target:library", f"-out:{folder}/refused.dll"]
        done = subprocess.run([*compiler, *out, source], text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=120)
    found = {int(number) for number in re.findall(r"refused\.\w+[:(](\d+)[^\n]*?: error", done.stdout)}
    wrong = {names[n] for n in names.keys() - found} | {f"line {n}" for n in found - names.keys()}
    print(f"refused by the compiler: {len(found)} of {len(names)} lines; wrong: {sorted(wrong)}")
    if wrong:
        print(done.stdout[-3000:])
    return done.returncode != 0 and not wrong and set(names.values()) == COMPILED | BESIDES[language]


def check_bad(language, command):
    expected = {name: (class_, status, spelled(language, function), shown)
                for name, (class_, status, function, shown) in (LATE | OWN[language]).items()}
    paths = check_language.PATHS | {"bad_item": "text", "too_large": "counter.word[]"}
    return check_language.check_bad(command, expected, paths)


def check_words(words):
    """The library under valgrind; and as it is, for its memory at the end."""
    passed = True
    for how in (["valgrind", "--quiet", "--error-exitcode=9", "--leak-check=full",
                 "--errors-for-leak-kinds=definite,indirect,possible"], []):
        done = subprocess.run([*how, *words, "20" if how else "300"], text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                              timeout=300)
        print(f"{' '.join(how[:1])} words: {done.stdout.strip()}")
        passed &= done.returncode == 0
    return passed


def check_memory(command):
    before, after = map(int, ask(command, "failing", "100000").split())
    print(f"100,000 failing calls: {before} kB before, {after} kB after")
    return after - before <= 256, f"100,000; {after - before:+d} kB"


def version(language):
    done = subprocess.run(VERSIONS[language], text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=True)
    name = {"java": "OpenJDK", "csharp": "Mono"}[language]
    return f"{name} {re.search(r'[0-9]+(?:[.][0-9]+)+', done.stdout)[0]}"


def record(language, rows, failing, speed):
    """For the table of languages; what is said of a bare system is kept."""
    path = measure.file_of(language)
    bare = measure.load(language)["bare_system"] if path.exists() else measure.NOT_YET
    example = {"java": "embed.java", "csharp": "embed.cs"}[language]
    measure.store(language, {
        "language": TITLES[language], "version": version(language), "vectors": f"{rows} of {rows}, the same bits as Python",
        "calls_per_second": f"{round(speed, -3):,.0f}", "failing_calls": failing, "page": f"embed_{language}.md",
        "example": f"{example}: prints what its page shows", "bare_system": bare})


def main():
    language, refused, *rest = sys.argv[1:]
    compiler, rest = rest[:rest.index("--")], rest[rest.index("--") + 1:]
    words, command = rest[:rest.index("--")], rest[rest.index("--") + 1:]
    passed = check_language.check_rows(command) & check_language.check_decisions(command)
    passed &= check_functions(command)
    passed &= check_refused(language, refused, compiler)
    passed &= check_bad(language, command)
    ask(command, "own")
    print(ask(command, "odd", "100").strip())
    is_flat, failing = check_memory(command)
    passed &= is_flat and (not words or check_words(words))
    speed = max(float(ask(command, "speed", "300000")) for _ in range(2))
    print(f"crimp diameters a second: {speed:,.0f}")
    if passed and os.environ.get("FERRULE_RECORD"):
        rows = sum(1 for _ in check_language.test_vectors.rows())
        record(language, rows, failing, speed)
    sys.exit(not passed)


if __name__ == "__main__":
    main()
