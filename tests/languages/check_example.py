# SPDX-License-Identifier: MIT
"""Usage: check_example.py EXAMPLE COMMAND...   the example of a page prints the text that the page shows"""
import pathlib
import subprocess
import sys

example, *command = sys.argv[1:]
source = pathlib.Path(example)
expected = source.with_name(f"embed_{source.suffix[1:]}.txt").read_text(encoding="utf-8")
done = subprocess.run([*command, example], text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=60)
pages = "".join(page.read_text(encoding="utf-8") for page in source.parents[1].glob("*.md"))
print(done.stdout)
if done.stdout != expected:
    print(f"was to print:\n{expected}")
sys.exit(done.returncode or done.stdout != expected or f"\\include {source.name}" not in pages)
