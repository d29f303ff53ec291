#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""A batch of crimps from a shift's tables to a report: may its diameters go on, what was found, what to do next. As text, and as a page.

All data that come with it are invented. Diameters only: an assembly is released by its own checks, never by a sample.

Exit status: 0 the diameters are accepted; 1 they are rejected, or something has to be found out first; 2 there is no report: a table
cannot be read, or the page not be written. Nothing is written then, and a page that was there before stays as it was.
"""
import argparse
import os
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))

import report as reports  # noqa: E402
import text  # noqa: E402
from judge import judge  # noqa: E402
from read import EVERY_FILE, Folder, Refused, read_tables  # noqa: E402

ACCEPTED, NOT_ACCEPTED, IMPOSSIBLE = 0, 1, 2


def _arguments():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--data", type=Path, default=Path(__file__).resolve().parent, metavar="FOLDER",
                        help="folder with the tables (usual: the invented ones beside this program)")
    parser.add_argument("--page", type=Path, metavar="FILE", help="where the page is written (usual: text only); needs matplotlib")
    parser.add_argument("--decimal-comma", nargs="*", metavar="FILE",
                        help="the files whose decimal sign is the comma, such as crimps.csv; without names: all (usual: none)")
    parser.add_argument("--encoding", choices=("latin-1", "cp1252"), default="",
                        help="of files that are neither in UTF-8 nor begin with a byte order mark (usual: there are none)")
    parser.add_argument("--pictures", type=Path, metavar="FOLDER", help="only the pictures, as files of their own; exit status 0; needs matplotlib")
    arguments = parser.parse_args()
    for name in arguments.decimal_comma or ():
        if not (arguments.data / name).is_file():
            parser.error(f"--decimal-comma: there is no {name} in {arguments.data}")
    return arguments


def _folder(arguments):
    names = arguments.decimal_comma
    return Folder(arguments.data, EVERY_FILE if names == [] else tuple(names or ()), arguments.encoding)


def _write(path, content):
    """The whole file or none: a report that ends in the middle could be read as one that found nothing."""
    with tempfile.NamedTemporaryFile("w", encoding="utf-8", dir=path.resolve().parent, prefix=".quality-", delete=False) as part:
        try:
            part.write(content)
            part.close()
            os.chmod(part.name, 0o644)
            os.replace(part.name, path)
        except BaseException:
            os.unlink(part.name)
            raise


def _draw(arguments, judged, report):
    """Page and pictures, where they are wanted; matplotlib is loaded for these only."""
    import pictures
    import web
    if arguments.page:
        _write(arguments.page, web.write(report, pictures.for_page(judged)))
    if arguments.pictures:
        for name, picture in pictures.for_files(judged):
            _write(arguments.pictures / f"quality_{name}.svg", picture)


def main():
    arguments = _arguments()
    try:
        judged = judge(read_tables(_folder(arguments)))
    except Refused as refused:
        print("There is no report: a table has to be put right first.", file=sys.stderr)
        for trouble in refused.args[0]:
            print(trouble, file=sys.stderr)
        return IMPOSSIBLE
    report = reports.make(judged)
    try:
        if arguments.page or arguments.pictures:
            _draw(arguments, judged, report)
    except OSError as error:
        print(f"the page cannot be written: {error}", file=sys.stderr)
        return IMPOSSIBLE
    if not arguments.pictures:
        print("\n".join(text.write(report)))
    if arguments.page:
        print(f"\nThe same as a page: {arguments.page}")
    return ACCEPTED if report.decision == "ACCEPT" or arguments.pictures else NOT_ACCEPTED


if __name__ == "__main__":
    sys.exit(main())
