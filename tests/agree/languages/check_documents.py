# SPDX-License-Identifier: MIT
"""What document.py wrote besides help(): annotations for Lua, pages in POD, types for Ruby. Their own tools read them.

Usage: check_documents.py LANGUAGE PROGRAM DOCUMENTS PACKAGE    folders of the build: script/documents and the language's package
"""
import os
import pathlib
import re
import subprocess
import sys

sys.path.insert(0, os.environ["FERRULE_PYTHON_PATH"])
import ferrule  # noqa: E402

PUBLIC = {name: getattr(ferrule, name) for name in dir(ferrule)}
FUNCTIONS = {name.rstrip("_") for name, value in PUBLIC.items() if type(value).__name__ == "builtin_function_or_method"}
KINDS = {name for name, value in PUBLIC.items() if isinstance(value, type) and not issubclass(value, ferrule.Error)}

# Every method and class that the types name is there, and every function is named. Without the library rbs only the text is looked at.
RUBY = """
require "ferrule"
begin
  require "rbs"
rescue LoadError
  puts "no rbs"
  exit
end
loader = RBS::EnvironmentLoader.new
loader.add(path: Pathname(ARGV[0]))
environment = RBS::Environment.from_loader(loader).resolve_type_names
builder = RBS::DefinitionBuilder.new(env: environment)
root = RBS::Namespace.root
methods = builder.build_singleton(RBS::TypeName.new(name: :Ferrule, namespace: root)).methods.select { |_, m| m.defined_in.to_s == "::Ferrule" }.keys
wrong = Ferrule::FUNCTIONS.keys + [:help] - methods + (methods - Ferrule.singleton_methods)
environment.class_decls.each_key do |name|
  next unless name.namespace.to_s == "::Ferrule::"
  there = Ferrule.const_get(name.name)
  next unless there.is_a?(Class)
  own = builder.build_instance(name).methods.select { |_, m| m.defined_in.to_s.start_with?("::Ferrule::") }.keys
  wrong += (own - there.instance_methods - there.private_instance_methods).map { |m| "#{name}##{m}" }
end
puts "#{methods.size} methods"
abort wrong.join(" ") unless wrong.empty?
"""


def must(*command, **options):
    done = subprocess.run([str(word) for word in command], text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, **options)
    if done.returncode:
        sys.exit(f"{' '.join(map(str, command))}\n{done.stdout}")
    return done.stdout


def same(found, wanted, what):
    if set(found) != set(wanted) or len(set(found)) != len(found):
        sys.exit(f"{what}: missing {sorted(set(wanted) - set(found))}, besides {sorted(set(found) - set(wanted))}, "
                 f"twice {sorted({f for f in found if found.count(f) > 1})}")


def check_lua(program, folder):
    file = folder / "annotations.lua"
    must(program, "-e", f'assert(loadfile("{file}"))')
    text = file.read_text(encoding="utf-8")
    blocks = re.findall(r"((?:^---.*\n)*)^function ferrule\.([a-z]\w*)\((.*)\) end$", text, re.M)
    same([name for _, name, _ in blocks], FUNCTIONS | {"help"}, "annotations.lua")
    for comment, name, arguments in blocks:
        same(re.findall(r"^---@param (\w+)", comment, re.M), re.findall(r"\w+", arguments), f"annotations.lua, {name}")
        if not re.match(r"--- \w", comment):
            sys.exit(f"annotations.lua says nothing of {name}")
    kinds = re.findall(r"^---@(?:class|alias) ferrule\.(\w+)", text, re.M)
    same([k for k in kinds if k != "Quantity"], KINDS, "annotations.lua")
    used = set(re.findall(r"ferrule\.([A-Z]\w+)", re.sub(r"^--- .*|(?<=[\])\w]) [a-z].*", "", text, flags=re.M)))
    if not used <= set(kinds):
        sys.exit(f"annotations.lua has types that it does not explain: {sorted(used - set(kinds))}")


def check_pod(files, kinds_apart):
    heads = {file: re.findall(r"^=head2 (\w+)$", file.read_text(encoding="utf-8"), re.M) for file in files}
    for file in files:
        must("podchecker", file)
    found = [head for file in files for head in heads[file]]
    same([h for h in found if h[0].islower()], FUNCTIONS, "pages")
    if not KINDS <= set(found):
        sys.exit(f"pages say nothing of {sorted(KINDS - set(found))}")
    if kinds_apart and len(files) != 2:
        sys.exit("there are two pages")


def main():
    language, program, documents, package = sys.argv[1], sys.argv[2], *map(pathlib.Path, sys.argv[3:5])
    folder = documents / language
    if language == "lua":
        check_lua(program, folder)
    elif language == "ruby":
        said = must(program, "-W1", f"-I{package}", "-e", RUBY, folder / "ferrule.rbs")
        text = (folder / "ferrule.rbs").read_text(encoding="utf-8")
        same(re.findall(r"^  def self\.(\w+):", text, re.M), FUNCTIONS | {"help"}, "ferrule.rbs")
        print(said.strip())
    else:
        check_pod(sorted(folder.glob("*.pod")), language == "perl")
    print(f"{language}: {len(FUNCTIONS)} functions, {len(KINDS)} kinds")


main()
