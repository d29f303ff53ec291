# SPDX-License-Identifier: MIT
"""The example of a page prints the text that the page shows, with the package as it is built and as it is installed.

Usage: check_example.py EXAMPLE CMAKE FOLDER COMMAND...   FOLDER: where CMake built the language
"""
import os
import pathlib
import subprocess
import sys
import tempfile


def compiled(source, folder, libraries):
    """The example as a program of C#, which has to be compiled before."""
    program = pathlib.Path(folder, "embed.exe")
    subprocess.run(["mcs", "-warn:4", "-warnaserror", f"-r:{libraries}/Ferrule.dll", f"-out:{program}", source], check=True, timeout=60)
    return program


def run(source, command, **environment):
    if source.suffix == ".cs":
        with tempfile.TemporaryDirectory() as folder:
            return run(compiled(source, folder, (os.environ | environment)["MONO_PATH"]), command, **environment)
    done = subprocess.run([*command, source], text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=60,
                          env=os.environ | environment)
    return done.stdout if done.returncode == 0 else f"{done.stdout}\nexit status {done.returncode}"


def installed_places(language, root):
    """How the language finds what was installed below a folder."""
    found = {path.name: path.parent for path in root.rglob("*") if path.is_file()}
    if language == "lua":
        return [], {"LUA_PATH": f"{found['ferrule.lua']}/?.lua", "LUA_CPATH": f"{found['core.so'].parent}/?.so"}
    if language == "tcl":
        return [], {"TCLLIBPATH": str(found["pkgIndex.tcl"].parent)}
    if language == "java":
        return ["-cp", str(found["ferrule.jar"] / "ferrule.jar")], {}
    if language == "cs":
        return [], {"MONO_PATH": str(found["Ferrule.dll"])}
    if language == "pl":
        return [f"-I{found['Ferrule.pm']}"], {}
    return [f"-I{found['ferrule.rb']}", f"-I{found['core.so'].parent}"], {}


def main():
    example, cmake, folder, program, *options = sys.argv[1:]
    source = pathlib.Path(example)
    language = source.suffix[1:]
    expected = source.with_name(f"embed_{language}.txt").read_text(encoding="utf-8")
    pages = "".join(page.read_text(encoding="utf-8") for page in source.parents[1].glob("*.md"))
    said = {"built": run(source, [program, *options])}
    with tempfile.TemporaryDirectory() as root:
        prefix = pathlib.Path(root, "prefix")
        subprocess.run([cmake, f"-DCMAKE_INSTALL_PREFIX={prefix}", "-P", f"{folder}/cmake_install.cmake"], check=True,
                       stdout=subprocess.PIPE)
        places, environment = installed_places(language, prefix)
        said["installed"] = run(source, [program, *places], **environment)
    for how, text in said.items():
        print(f"{how}:\n{text}")
    sys.exit(any(text != expected for text in said.values()) or f"\\include {source.name}" not in pages)


main()
