# SPDX-License-Identifier: MIT
"""Compare what programs are linked to with the last release: functions, structs, numbers of enumerators (libabigail).

Usage: check.py [--write] [--record]   --write: at a release, this state becomes the one to compare with
                                      --record: writes the proof, tests/release/proof/records/stability.json

The last release stands beside this script as VERSION.abi. What is added passes. What is changed or gone fails, unless the soname
was raised and with it the version, as docs/dev/releases.md asks: before 1.0 the minor version, from then on the major one. Before the
library, a small one of the script's own is compared, with each change that is to be found and each that is to pass.
"""
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[2]
BUILD = ROOT / "build" / "abi"
CHANGED = 4  # bit of abidiff's exit status; 1 and 2 are errors
STRIP = ["--no-show-locs", "--no-corpus-path", "--no-comp-dir-path", "--no-architecture", "--no-elf-needed", "--drop-private-types",
         "--drop-undefined-syms", "--exported-interfaces-only", "--type-id-style", "hash"]

SMALL = """
typedef struct small_size { double mm; } small_size;
typedef enum small_word { SMALL_ONE, SMALL_TWO = 7, SMALL_WORD_COUNT } small_word;
typedef struct small_thing { small_size size; small_word word; } small_thing;
int small_check(const small_thing *thing) { return thing->word == SMALL_TWO; }
double small_measure(small_size size) { return size.mm; }
"""
# What is done to the small library, and whether it breaks what was linked to it.
CHANGES = [
    ("nothing", "", "", False),
    ("a function added", "double small_measure", "int small_more(void) { return 1; }\ndouble small_measure", False),
    ("an enumerator added", "SMALL_TWO = 7,", "SMALL_TWO = 7, SMALL_THREE,", False),
    ("a function gone", "double small_measure(small_size size) { return size.mm; }", "", True),
    ("a member added", "small_word word; }", "small_word word; int more; }", True),
    ("members swapped", "small_size size; small_word word; }", "small_word word; small_size size; }", True),
    ("another number", "SMALL_TWO = 7", "SMALL_TWO = 8", True),
    ("another type of argument", "small_measure(small_size size) { return size.mm; }", "small_measure(float size) { return size; }", True),
    ("another result", "double small_measure", "float small_measure", True),
]


def run(*command, **options):
    return subprocess.run([str(word) for word in command], text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, **options)


def must(*command):
    done = run(*command)
    if done.returncode:
        sys.exit(f"{' '.join(map(str, command))}\n{done.stdout}")
    return done.stdout


def dump(library, target):
    """What a library with debug information exports, as text, without indentation and without places of this machine."""
    must("abidw", *STRIP, "--headers-dir", ROOT / "include", "--out-file", target, library)
    text = re.sub(r"^ +", "", target.read_text(encoding="utf-8"), flags=re.M).replace(f"{ROOT}/", "")
    if str(ROOT) in text:
        sys.exit(f"{target.name} holds a path of this machine")
    target.write_text(text, encoding="utf-8")


def counts(text):
    """Enumerators that say how many there are: they grow with every addition."""
    return sorted(set(re.findall(r"enumerator name='(\w+_COUNT)' value='\d+'/>\s*</enum-decl>", text)))


def breaks(before, after, folder):
    """What abidiff says of changes that break a program, or nothing."""
    ignored = folder / "ignored.ini"
    ignored.write_text("[suppress_type]\n  type_kind = enum\n  changed_enumerators = " +
                       ", ".join(counts(after.read_text(encoding="utf-8"))) + "\n")
    done = run("abidiff", "--no-added-syms", "--suppressions", ignored, before, after)
    if done.returncode & 3:
        sys.exit(f"abidiff failed:\n{done.stdout}")
    return done.stdout if done.returncode & CHANGED else ""


def small_dump(source, folder, name):
    (folder / f"{name}.c").write_text(source)
    must("cc", "-g", "-fPIC", "-shared", "-Wl,-soname,libsmall.so.1", folder / f"{name}.c", "-o", folder / f"{name}.so")
    target = folder / f"{name}.abi"
    must("abidw", *STRIP, "--out-file", target, folder / f"{name}.so")
    return target


def try_changes(folder):
    before = small_dump(SMALL, folder, "before")
    for what, old, new, is_break in CHANGES:
        if old not in SMALL:
            sys.exit(f"{what}: the small library has no such text")
        after = small_dump(SMALL.replace(old, new, 1) if old else SMALL, folder, "after")
        if bool(breaks(before, after, folder)) != is_break:
            sys.exit(f"{what}: {'not found' if is_break else 'found, and is none that breaks a program'}")


def version_now():
    header = (ROOT / "include" / "ferrule" / "version.h").read_text(encoding="utf-8")
    return tuple(int(re.search(rf"FER_VERSION_{part} (\d+)", header)[1]) for part in ("MAJOR", "MINOR", "PATCH"))


def promise(version):
    """The part of a version that has to be raised before something breaks."""
    return version[:2] if version[0] == 0 else version[:1]


def build():
    must("cmake", "-S", ROOT, "-B", BUILD, "-DCMAKE_BUILD_TYPE=Debug", "-DFERRULE_PYTHON=OFF", "-DFERRULE_TESTS=OFF",
         "-DFERRULE_EXAMPLES=OFF")
    must("cmake", "--build", BUILD, "-j", "2", "--target", "ferrule")
    target = BUILD / "now.abi"
    dump(BUILD / "lib" / "libferrule.so", target)
    return target


def soname(path):
    return re.search(r"soname='([^']*)'", path.read_text(encoding="utf-8"))[1]


def show(version):
    return ".".join(map(str, version))


def count(path):
    """Functions, structs and numbers of enumerators in a dump."""
    text = path.read_text(encoding="utf-8")
    return [str(len(re.findall(what, text))) for what in ("<elf-symbol ", "<class-decl name='fer_", "<enumerator ")]


def write_record(released, last, now, said):
    sys.path.insert(0, str(ROOT / "tests/release/proof"))
    import record
    rows = [[f"release {show(released)}", *count(last), ""], ["this state", *count(now), " ".join(said.split()) or "nothing that breaks a program"]]
    rows += [[f"small library, {what}", "", "", "", "found" if is_break else "passes"] for what, _, _, is_break in CHANGES]
    record.write(
        "stability", title="What was linked keeps running", order=70,
        said="Functions, structs with their layout, and numbers of enumerators were read from the debug information and compared with the "
             "dump of the last release. What is added passes; what is changed or gone fails until soname and version are raised. The "
             "comparison was first tried on a small library with nine changes. A name that goes stays as an alias: with an old name added to "
             "a copy of the headers, both compilers warn in C and C++, the program runs, and the docstrings of five languages say what to use.",
        commands=["/usr/bin/python3 tests/guard/abi/check.py --record", "ctest --test-dir build/release -R abi_old_names"],
        in_tests="all of it", tools=[record.tool("abidw"), record.tool("gcc"), record.tool("clang"), record.tool("swig", "-version")],
        columns=["what", "functions", "structs", "numbers", "what changed"], rows=rows,
        left=f"{show(released)} is the first version, so there is no older one to compare with. It sees C on 64 bits; values are kept by the "
             "vectors, not by this.")


def main():
    writes, version, now = "--write" in sys.argv, version_now(), build()
    if writes:
        for path in HERE.glob("*.abi"):
            path.unlink()
        (HERE / f"{show(version)}.abi").write_text(now.read_text(encoding="utf-8"), encoding="utf-8")
    last, = HERE.glob("*.abi")
    released = tuple(map(int, last.stem.split(".")))
    if version < released:
        sys.exit(f"version {show(version)} is below the last release {show(released)}")
    with tempfile.TemporaryDirectory() as name:
        try_changes(pathlib.Path(name))
        said = breaks(last, now, pathlib.Path(name))
    functions = len(re.findall("<elf-symbol ", last.read_text(encoding="utf-8")))
    print(f"{functions} functions of {show(released)}; {len(CHANGES)} changes of a small library were judged rightly first")
    if "--record" in sys.argv:
        write_record(released, last, now, said)
    if not said:
        print(f"Programs linked to {show(released)} run with this state.")
    elif soname(now) != soname(last) and promise(version) > promise(released):
        print(f"{said}\nThe version was raised from {show(released)} to {show(version)}, and the soname too: this may change.")
    else:
        sys.exit(f"{said}\nPrograms linked to {show(released)} would break; the version is {show(version)}, the soname {soname(now)}. Either "
                 f"keep what was there and add beside it (an alias with FER_DEPRECATED), or raise the soname and the "
                 f"{'minor' if version[0] == 0 else 'major'} version in include/ferrule/version.h. If {show(released)} never left the house, write its state anew: "
                 f"tests/guard/abi/check.py --write")


if __name__ == "__main__":
    main()
