# SPDX-License-Identifier: MIT
"""A day at the depot: plans every order, judges the crimps that were measured, writes text, the engineer's sheets as a page to
print, and a press card for each order.

Exit status: 0 every order is READY and all was read; 1 something was left (listed under NOT DONE): an order that is not ready, or
waits for somebody to confirm, or what could not be read; 2 the day could not be planned, or the pages not be written.
"""
import argparse
import sys
from pathlib import Path

import card
import page
import sheet
from figures import not_done
from shop import Stop, run_day
from tables import EVERY_FILE, Folder, Unreadable

DONE, LEFT, IMPOSSIBLE = 0, 1, 2


def _arguments():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--data", type=Path, default=Path(__file__).parent, metavar="FOLDER",
                        help="folder with the tables (usual: the invented ones beside this program)")
    parser.add_argument("--page", type=Path, default=Path("day.html"), metavar="FILE",
                        help="where the page is written (usual: day.html)")
    parser.add_argument("--cards", type=Path, metavar="FILE", help="where the press cards are written (usual: cards.html beside the page)")
    parser.add_argument("--decimal-comma", nargs="*", metavar="FILE",
                        help="the files whose decimal sign is the comma, such as orders.csv; without names: all (usual: none)")
    parser.add_argument("--encoding", choices=("latin-1", "cp1252"), default="",
                        help="of files that are neither in UTF-8 nor begin with a byte order mark (usual: there are none)")
    arguments = parser.parse_args()
    for name in arguments.decimal_comma or ():
        if not (arguments.data / name).is_file():
            parser.error(f"--decimal-comma: there is no {name} in {arguments.data}")
    return arguments


def _folder(arguments):
    names = arguments.decimal_comma
    return Folder(arguments.data, EVERY_FILE if names == [] else tuple(names or ()), arguments.encoding)


def main():
    arguments = _arguments()
    try:
        shop, jobs = run_day(_folder(arguments))
    except (Stop, Unreadable) as stop:
        for trouble in stop.args[0] if isinstance(stop, Stop) else stop.args:
            print(trouble, file=sys.stderr)
        return IMPOSSIBLE
    left = not_done(jobs, shop.troubles)
    print("\n".join(sheet.day(jobs)))
    for job in jobs:
        print("\n".join(sheet.order(job)))
    print("\n".join(sheet.not_done(left)))
    cards = arguments.cards or arguments.page.with_name("cards.html")
    try:
        arguments.page.write_text(page.write(shop, jobs, left), encoding="utf-8")
        cards.write_text(card.write(shop, jobs), encoding="utf-8")
    except OSError as error:
        print(f"the page cannot be written: {error}", file=sys.stderr)
        return IMPOSSIBLE
    print(f"The same as a page to print: {arguments.page}")
    print(f"Press cards: {cards}")
    return LEFT if left else DONE


if __name__ == "__main__":
    sys.exit(main())
