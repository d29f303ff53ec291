# SPDX-License-Identifier: MIT
"""What the project is made of: a bill of materials in SPDX 2.3 (JSON), and a look at the licence lines of all files.

Usage: sbom.py OUTPUT    write it
       sbom.py --check   every source has its line of SPDX, and the bill has what the standard asks for

It lists each file of the library with its sums and licence, the packages that a program gets with it, and what the bindings
are built with. The same sources give the same bill: its time is the date of the version in docs/CHANGELOG.md.
"""
import hashlib
import json
import pathlib
import re
import subprocess
import sys
import uuid

ROOT = pathlib.Path(__file__).resolve().parents[2]
SHIPPED = ["LICENSE", "CMakeLists.txt", "include", "lib", "bindings"]  # what a package is made of
# Files of these kinds can carry a comment, so each says its own licence; data and texts are under LICENSE.
SOURCES = (".c .h .cpp .py .pyi .sh .cmake .i .lua .pl .pm .tcl .rb .css .java .cs .sql .js .mjs").split()
LINE = re.compile(r"SPDX-License-Identifier: (\S+)")
OTHERS = [  # name, what it is for, relationship; nothing of them is inside
    ("C library", "mathematical functions and memcpy and its like, of the system that a program runs on", "DEPENDS_ON"),
    ("SWIG", "writes the wrappers of the bindings", "BUILD_TOOL_OF"),
    ("Doxygen", "reads the headers for bindings/api/api.json and the manual", "BUILD_TOOL_OF"),
    ("CMake", "builds", "BUILD_TOOL_OF"),
]


def tracked():
    """The project's files: what git knows, or what lies there where git is not at hand."""
    done = subprocess.run(["git", "-C", str(ROOT), "ls-files", "-z"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    if done.returncode == 0 and done.stdout:
        names = done.stdout.decode().split("\0")
    else:
        names = [str(path.relative_to(ROOT)) for path in ROOT.rglob("*") if path.is_file()]
    return sorted(name for name in names if name and (ROOT / name).is_file())


def shipped(names):
    return [name for name in names if name.split("/")[0] in SHIPPED and "__pycache__" not in name]


def licence(name):
    """What a file says of itself in its first lines; NONE where it cannot or does not."""
    head = (ROOT / name).read_bytes()[:1000].decode("utf-8", "replace")
    found = LINE.search(head)
    return found[1] if found else "NONE"


def without_line(names):
    is_source = lambda name: pathlib.Path(name).suffix in SOURCES or name.endswith("CMakeLists.txt")
    return [name for name in names if is_source(name) and licence(name) != "MIT"]


def version():
    header = (ROOT / "include" / "ferrule" / "version.h").read_text(encoding="utf-8")
    return ".".join(re.search(rf"FER_VERSION_{part} (\d+)", header)[1] for part in ("MAJOR", "MINOR", "PATCH"))


def date(of):
    changes = (ROOT / "docs" / "CHANGELOG.md").read_text(encoding="utf-8")
    found = re.search(rf"^## {re.escape(of)}\b.*?(\d{{4}}-\d\d-\d\d)", changes, re.M)
    if not found:
        sys.exit(f"docs/CHANGELOG.md has no date for version {of}")
    return found[1]


def file_entry(name):
    data = (ROOT / name).read_bytes()
    return {"SPDXID": "SPDXRef-File-" + re.sub(r"[^A-Za-z0-9.]", "-", name), "fileName": "./" + name,
            "checksums": [{"algorithm": "SHA1", "checksumValue": hashlib.sha1(data).hexdigest()},
                          {"algorithm": "SHA256", "checksumValue": hashlib.sha256(data).hexdigest()}],
            "licenseConcluded": "MIT", "licenseInfoInFiles": [licence(name)], "copyrightText": "NOASSERTION"}


def bill(names):
    files = [file_entry(name) for name in shipped(names)]
    sums = "".join(sorted(f["checksums"][0]["checksumValue"] for f in files))
    code, of = hashlib.sha1(sums.encode()).hexdigest(), version()
    copyright_line = re.search(r"^Copyright.*$", (ROOT / "LICENSE").read_text(encoding="utf-8"), re.M)[0]
    ours = {"name": "ferrule", "SPDXID": "SPDXRef-ferrule", "versionInfo": of, "downloadLocation": "NOASSERTION", "filesAnalyzed": True,
            "packageVerificationCode": {"packageVerificationCodeValue": code}, "licenseConcluded": "MIT", "licenseDeclared": "MIT",
            "licenseInfoFromFiles": sorted({f["licenseInfoInFiles"][0] for f in files}), "copyrightText": copyright_line,
            "primaryPackagePurpose": "LIBRARY", "summary": "Engineering mathematics of crimping hose couplings"}
    others, relations = [], [("SPDXRef-DOCUMENT", "DESCRIBES", "SPDXRef-ferrule")]
    for name, purpose, relation in OTHERS:
        identifier = "SPDXRef-" + name.replace(" ", "-")
        others.append({"name": name, "SPDXID": identifier, "downloadLocation": "NOASSERTION", "filesAnalyzed": False,
                       "licenseConcluded": "NOASSERTION", "licenseDeclared": "NOASSERTION", "copyrightText": "NOASSERTION",
                       "comment": purpose + "; nothing of it is inside"})
        relations.append(("SPDXRef-ferrule", relation, identifier) if relation == "DEPENDS_ON" else (identifier, relation, "SPDXRef-ferrule"))
    relations += [("SPDXRef-ferrule", "CONTAINS", f["SPDXID"]) for f in files]
    return {"spdxVersion": "SPDX-2.3", "dataLicense": "CC0-1.0", "SPDXID": "SPDXRef-DOCUMENT", "name": f"ferrule-{of}",
            "documentNamespace": f"urn:uuid:{uuid.uuid5(uuid.NAMESPACE_OID, code)}",
            "creationInfo": {"created": f"{date(of)}T00:00:00Z", "creators": ["Tool: bindings/packaging/sbom.py", "Organization: the ferrule authors"]},
            "packages": [ours, *others], "files": files,
            "relationships": [dict(zip(("spdxElementId", "relationshipType", "relatedSpdxElement"), r)) for r in relations]}


def faults(document):
    """What SPDX 2.3 asks for and the bill has not (sections 6 to 8 and 11 of the standard)."""
    def need(where, thing, keys):
        return [f"{where}: no {key}" for key in keys.split() if not thing.get(key) and thing.get(key) is not False]
    found = need("document", document, "spdxVersion dataLicense SPDXID name documentNamespace creationInfo packages files relationships")
    found += need("creationInfo", document["creationInfo"], "created creators")
    for package in document["packages"]:
        found += need(package["name"], package, "name SPDXID downloadLocation filesAnalyzed licenseConcluded licenseDeclared copyrightText")
        if package["filesAnalyzed"]:
            found += need(package["name"], package, "packageVerificationCode licenseInfoFromFiles")
    for file in document["files"]:
        found += need(file["fileName"], file, "fileName SPDXID checksums licenseConcluded licenseInfoInFiles copyrightText")
    known = [thing["SPDXID"] for thing in [document, *document["packages"], *document["files"]]]
    found += [f"{one} is there twice" for one in sorted({k for k in known if known.count(k) > 1})]
    found += [f"{one} is no identifier" for one in known if not re.fullmatch(r"SPDXRef-[A-Za-z0-9.-]+", one)]
    for relation in document["relationships"]:
        found += [f"relationship with {relation[key]}, which is not there" for key in ("spdxElementId", "relatedSpdxElement")
                  if relation[key] not in known]
    if not re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", document["creationInfo"]["created"]):
        found.append("the time of creation is not as it should be")
    return found


def check():
    names = tracked()
    document = bill(names)
    wrong = [f"{name}: no line of SPDX with the licence MIT" for name in without_line(names)] + faults(document)
    # A bill without one of its parts is found out.
    for thing, key in ((document, "dataLicense"), (document["packages"][0], "downloadLocation"), (document["files"][0], "checksums")):
        kept = thing.pop(key)
        if not faults(document):
            wrong.append(f"a bill without {key} passed")
        thing[key] = kept
    document["relationships"].append({"spdxElementId": "SPDXRef-ferrule", "relationshipType": "CONTAINS", "relatedSpdxElement": "SPDXRef-no"})
    if not faults(document):
        wrong.append("a bill with a relationship to nothing passed")
    print(f"{len(names)} files, {len(document['files'])} of them in the bill of materials")
    sys.exit("\n".join(wrong) if wrong else 0)


def main():
    if sys.argv[1:] == ["--check"]:
        check()
    text = json.dumps(bill(tracked()), indent=1, ensure_ascii=False) + "\n"
    pathlib.Path(sys.argv[1]).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
