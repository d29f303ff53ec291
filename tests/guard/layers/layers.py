#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Which module uses which, out of the includes of include/ and lib/.

Usage: layers.py [--write] [--root FOLDER]

Fails on a cycle, on a header that includes one which ferrule.h lists after it, and on a component that includes one which
lib/CMakeLists.txt does not say it needs. The table of layers stands in DEVELOPERS.md and in the manual between the markers
"layers: begin" and "layers: end": --write writes it, otherwise a stale one fails.

A module is a header of include/ferrule with lib/COMPONENT/MODULE.c and MODULE_private.h. What else lies in lib is a part of
its component: the folder numeric is one part, any other NAME.c and NAME.h another.
"""
import argparse
import pathlib
import re
import sys

PAGES = ("DEVELOPERS.md", "docs/rooms.md.in")
BEGIN, END = "<!-- layers: begin -->", "<!-- layers: end -->"
UMBRELLA = ("ferrule", "version")


class House:
    def __init__(self, root):
        self.root = root
        self.modules = re.findall(r"#include <ferrule/(\w+)\.h>", (root / "include/ferrule/ferrule.h").read_text(encoding="utf-8"))
        self.modules = [name for name in self.modules if name not in UMBRELLA]
        self.needs = {name: needed.strip('" ').split() for name, needed in
                      re.findall(r"^set\(needs_(\w+) (.*?)\)", (root / "lib/CMakeLists.txt").read_text(encoding="utf-8"), re.M)}
        self.component, self.uses, self.troubles = {}, {}, []
        for path in sorted([*root.glob("include/ferrule/*.h"), *root.glob("lib/*/**/*.[ch]")]):
            if path.stem not in UMBRELLA:
                self.read(path)
        for header in (path.stem for path in root.glob("include/ferrule/*.h")):
            if header not in self.modules and header not in UMBRELLA:
                self.troubles.append(f"ferrule.h does not list {header}.h")
        for name in self.uses:
            self.component.setdefault(name, "base")  # a header without a source

    def node(self, path):
        """Module or part that a file belongs to; its component where it lies in one."""
        place = path.relative_to(self.root)
        if place.parts[0] == "include":
            return path.stem, None
        stem = path.stem.removesuffix("_private")
        part = f"{place.parts[1]}/{'numeric' if 'numeric' in place.parts else stem}"
        return stem if stem in self.modules and "numeric" not in place.parts else part, place.parts[1]

    def place(self, name):
        """In the order of reading."""
        return self.modules.index(name) if name in self.modules else -1

    def read(self, path):
        name, component = self.node(path)
        if component and self.component.setdefault(name, component) != component:
            self.troubles.append(f"{name} has files in lib/{self.component[name]} and in lib/{component}")
        used = self.uses.setdefault(name, set())
        for kind, included in re.findall(r'^#include ([<"])(.+?)[>"]', path.read_text(encoding="utf-8"), re.M):
            other = self.root / "include" / included if kind == "<" else self.root / "lib" / included
            if kind == '"' and not other.exists():
                self.troubles.append(f"{path.relative_to(self.root)} includes {included}, which lib does not have")
            if not other.exists() or other.stem in UMBRELLA:
                continue
            user, target = path.relative_to(self.root).parts[0], self.node(other)[0]
            if user == "include" and (kind == '"' or self.place(target) > self.place(name)):
                self.troubles.append(f"{name}.h includes {included}, which stands below it")
            if target != name:
                used.add(target)

    def check_components(self):
        for name, used in sorted(self.uses.items()):
            component = self.component[name]
            for other in sorted(used):
                if self.component[other] not in (component, *self.needs[component]):
                    self.troubles.append(f"{name} of component {component} uses {other} of component {self.component[other]}")

    def layer(self, name, above=()):
        """Length of the longest way up, in modules; parts of a component do not count."""
        if name in above:
            self.troubles.append("a cycle: " + " > ".join((*above[above.index(name):], name)))
            return 0
        higher = [self.layer(other, (*above, name)) for other in sorted(self.uses[name])]
        return max(higher, default=0) + (name in self.modules)

    def table(self):
        layers = {name: self.layer(name) for name in self.modules}
        lines = ["| layer | " + " | ".join(self.needs) + " |", "| --- " * (len(self.needs) + 1) + "|"]
        for number in sorted(set(layers.values())):
            cells = [", ".join(f"`{name}`" for name in self.modules if layers[name] == number and self.component[name] == component)
                     for component in self.needs]
            lines.append(f"| {number} | " + " | ".join(cells) + " |")
        return "\n".join(lines)


def check(root, write):
    house = House(root)
    house.check_components()
    for name in house.uses:
        house.layer(name)
    troubles = sorted(set(house.troubles))
    if any(trouble.startswith("a cycle") for trouble in troubles):
        return troubles
    table = house.table()
    for page in PAGES:
        text = (root / page).read_text(encoding="utf-8")
        if text.count(BEGIN) != 1 or text.count(END) != 1:
            troubles.append(f"{page} has no place for the table of layers")
            continue
        before, rest = text.split(BEGIN)
        fresh = f"{before}{BEGIN}\n\n{table}\n\n{END}{rest.split(END)[1]}"
        if write:
            (root / page).write_text(fresh, encoding="utf-8")
        elif fresh != text:
            troubles.append(f"{page}: the table of layers is stale; run tests/guard/layers/layers.py --write")
    return troubles


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--root", type=pathlib.Path, default=pathlib.Path(__file__).resolve().parents[3])
    arguments = parser.parse_args()
    sys.exit("\n".join(check(arguments.root, arguments.write)) or 0)


if __name__ == "__main__":
    main()
