# SPDX-License-Identifier: MIT
"""An old name that is kept as an alias: compilers warn, programs run, and the bindings say what to use instead.

Usage: test_old_names.py STATIC_LIBRARY [C_COMPILER...]

Nothing of the library is deprecated yet, so this adds an old name to a copy of a header, as docs/dev/releases.md says.
"""
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
OLD = """
/**
 * Crimp diameter that gives a compression.
 *
 * @outdated since 0.2: use fer_crimp_diameter(); goes with 0.3
 *
 * @param[in] joint  @as fer_crimp_diameter()
 * @param[in] compression  @as fer_crimp_diameter()
 * @param[in] model  @as fer_crimp_diameter()
 * @param[out] diameter  as fer_crimp_diameter()
 * @retval FER_OK  done
 */
FER_API FER_DEPRECATED("fer_crimp_diameter") fer_status fer_diameter_of(const fer_joint *joint, fer_ratio compression,
                                                                       fer_model model, fer_length *diameter);
"""
ALIAS = """
#include <ferrule/compression.h>
fer_status fer_diameter_of(const fer_joint *joint, fer_ratio compression, fer_model model, fer_length *diameter)
{
    return fer_crimp_diameter(joint, compression, model, diameter);
}
"""
PROGRAM = """
#include <ferrule/ferrule.h>
int main(void)
{
    fer_joint joint = {{fer_mm(12.7), fer_mm(19.9), {0}}, {fer_mm(12.95), {0}}, {fer_mm(2.4), {0}, {0}}};
    fer_model plain = {FER_BASIS_WALL, FER_FLOW_NONE};
    fer_length before, now;
    if (fer_diameter_of(&joint, fer_percent(20), plain, &before) || fer_crimp_diameter(&joint, fer_percent(20), plain, &now))
        return 1;
    return before.mm != now.mm;
}
"""
SAID = "use fer_crimp_diameter"


def run(*command, folder=None):
    return subprocess.run([str(word) for word in command], text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, cwd=folder)


def must(*command, folder=None):
    done = run(*command, folder=folder)
    if done.returncode:
        sys.exit(f"{' '.join(map(str, command))}\n{done.stdout}")
    return done.stdout


def check(truth, what):
    if not truth:
        sys.exit(f"not so: {what}")


def copy_tree(folder):
    for part in ("include", "bindings"):
        shutil.copytree(ROOT / part, folder / part, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(ROOT / "tests" / "agree" / "catalogue", folder / "tests" / "agree" / "catalogue", ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "docs").mkdir()
    shutil.copy(ROOT / "docs" / "aliases.doxy", folder / "docs")
    header = folder / "include" / "ferrule" / "compression.h"
    text = header.read_text(encoding="utf-8")
    end = "\n#ifdef __cplusplus\n}\n#endif"
    check(text.count(end) == 1, "compression.h ends as it did")
    header.write_text(text.replace(end, OLD + end), encoding="utf-8")


def check_compiler(compiler, library, folder):
    """A warning that names the new function, an error for who asks for errors, and the same result."""
    language = ["-x", "c++"] if "++" in compiler else []
    source, program = folder / "program.c", folder / "program"
    source.write_text(PROGRAM)
    (folder / "alias.c").write_text(ALIAS)
    must("cc", "-I", folder / "include", "-c", folder / "alias.c", "-o", folder / "alias.o", "-Wno-deprecated-declarations")
    command = [compiler, "-Wall", "-I", folder / "include", *language, source, "-x", "none", folder / "alias.o", library, "-lm", "-o", program]
    said = must(*command)
    check(SAID in said, f"{compiler} says what to use: {said}")
    must(program)
    check(run(*command, "-Werror").returncode != 0, f"{compiler} refuses it where warnings are errors")


def described(folder, *options):
    """What describe.py writes for the bindings."""
    made = folder / ("script" if options else "python")
    made.mkdir()
    must(sys.executable, "-B", folder / "bindings" / "api" / "describe.py", ".", *options, folder=made)
    return made


def wrapped(folder, made, language, *options):
    """The body of the wrapper of the old name in what SWIG writes."""
    wrap = made / f"{language}_wrap.c"
    must("swig", f"-{language}", *options, f"-I{ROOT / 'bindings' / language}", f"-I{ROOT / 'bindings' / 'runtime'}", f"-I{made}",
         f"-I{folder / 'include'}", "-outdir", made, "-o", wrap, ROOT / "bindings" / "runtime" / "ferrule.i", folder=made)
    text = wrap.read_text(encoding="utf-8")
    return next(part for part in re.split(r"\n}\n", text) if "result = (fer_status)fer_diameter_of(" in part.replace("\n", " "))


def check_bindings(folder):
    said = "since 0.2: use crimp_diameter(); goes with 0.3"
    must(sys.executable, "-B", folder / "bindings" / "api" / "read_headers.py", "--write")
    made = described(folder)
    stub = (made / "__init__.pyi").read_text(encoding="utf-8")
    check(f"Deprecated: {said}" in stub, "the stub says that the name is old")
    check(stub.count("Deprecated:") == 1, "and no other")
    call = f'FER_WARN_OLD("diameter_of is deprecated {said}")'
    check(call in wrapped(folder, made, "python", "-keyword", "-O"), "Python warns before the call")
    made = described(folder, "--script")
    for language, options in (("lua", ["-module", "ferrule_core"]), ("tcl8", ["-module", "ferrule", "-namespace"]),
                              ("perl5", ["-module", "Ferrule", "-noproxy"]), ("ruby", ["-initname", "core"])):
        name = language.rstrip("58")
        check(call in wrapped(folder, made, name, *options), f"{name} warns before the call")
    for language, file, mark in (
            ("java", "ferrule/Crimp.java", "@Deprecated\n    public static Length diameterOf(Joint joint, Ratio compression, Model model)"),
            ("csharp", "Crimping.cs", '[Obsolete("since 0.2: use CrimpDiameter(); goes with 0.3")]\n        public static Length DiameterOf(')):
        must(sys.executable, "-B", folder / "bindings" / language / "write_classes.py", language, "--script", folder=made)
        check(mark in (made / language / file).read_text(encoding="utf-8"), f"{language} marks the old name, so that the compiler warns")


def main():
    library, *compilers = sys.argv[1:]
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        copy_tree(folder)
        for compiler in compilers or [c for c in ("gcc", "g++", "clang", "clang++") if shutil.which(c)]:
            check_compiler(compiler, library, folder)
        check_bindings(folder)
    print("An old name warns, works, and says what to use.")


main()
