# SPDX-License-Identifier: MIT
"""The names that the shared library exports: what others may link to.

Usage: symbols.py            prints them
       symbols.py --debian   prints the list of the Debian package, each name with the version that it came with
"""
import json
import pathlib
import sys

DESCRIPTION = pathlib.Path(__file__).resolve().parent / "api.json"


def exported(api=None):
    """Name and version of each, in order."""
    api = api or json.loads(DESCRIPTION.read_text(encoding="utf-8"))
    return dict(sorted((f["name"], f["since"]) for f in api["functions"] if "since" in f))


def debian():
    api = json.loads(DESCRIPTION.read_text(encoding="utf-8"))
    rows = "".join(f" {name}@Base {since}\n" for name, since in exported(api).items())
    return f"libferrule.so.{api['abi']} libferrule{api['abi']} #MINVER#\n{rows}"


if __name__ == "__main__":
    print(debian() if "--debian" in sys.argv else "\n".join(exported()), end="" if "--debian" in sys.argv else "\n")
