# SPDX-License-Identifier: MIT
"""The depot's tables as other programs write them: separators, order of columns, decimal sign, encoding, ends of lines."""
import csv
import io
import os
import re
import subprocess
import sys

import pytest

from programs import DEPOT, copy_data, read_day, run_day

TABLES = sorted(path.name for path in DEPOT.glob("*.csv"))
AS_WRITTEN = ("hose inside", "hose outside", "stem outside", "stem bore", "ferrule wall", "ferrule outside", "ferrule length",
              "widest diameter")  # shown as the cell has them


@pytest.fixture(scope="module", name="day")
def plain_day(tmp_path_factory):
    """What the tables give as they are."""
    output = run_day(tmp_path_factory.mktemp("day") / "day.html")
    assert output.status == 1
    return output


def rewrite(folder, change, tables=TABLES):
    """Change the bytes of tables by a function of their text."""
    for name in tables:
        changed = change((folder / name).read_text(encoding="utf-8"))
        (folder / name).write_bytes(changed if isinstance(changed, bytes) else changed.encode())


def by_rows(change, separator=","):
    """A function that changes the cells of each row; comments stay."""
    def rewritten(text):
        out = io.StringIO()
        writer = csv.writer(out, delimiter=separator, lineterminator="\n")
        for line in text.splitlines():
            if not line or line.startswith("#"):
                out.write(line + "\n")
            else:
                writer.writerow(change(next(csv.reader([line]))))
        return out.getvalue()
    return rewritten


def same(cells):
    return cells


def with_comma(cells):
    return [re.sub(r"(?<=\d)\.(?=\d)", ",", cell) for cell in cells]


def figures_of(output):
    """Everything that is printed of the orders but the cells as they were written."""
    sheets, _ = read_day(output.text)
    return {order: ({k: v for k, v in sheet.figures.items() if k not in AS_WRITTEN}, sheet.check_first, sheet.take_care, sheet.crimps)
            for order, sheet in sheets.items()}


@pytest.mark.parametrize("change", [
    by_rows(same, ";"), by_rows(same, "\t"), by_rows(lambda cells: [*cells, "", ""] if len(cells) != 10 else cells, ";"),
    lambda text: b"\xef\xbb\xbf" + text.encode(), lambda text: text.replace("\n", "\r"), lambda text: text.replace("\n", "\r\n"),
    lambda text: text.encode("utf-16"), lambda text: b"\xfe\xff" + text.encode("utf-16-be"),
    lambda text: re.sub("^(#.*)$", r'"\1"', text, flags=re.MULTILINE),
    lambda text: by_rows(same, ";")(text).replace("\n", "\r\n").encode("utf-16"),
], ids=["semicolons", "tabs", "empty columns", "mark of UTF-8", "CR", "CR LF", "UTF-16", "UTF-16 big-endian", "quoted comments",
        "semicolons, CR LF, UTF-16"])
def test_the_same_tables_in_another_form_give_the_same_day(tmp_path, day, change):
    rewrite(copy_data(tmp_path), change)
    output = run_day(tmp_path / "day.html", tmp_path)
    page = re.compile("(The same as a page to print|Press cards): .*")
    assert output.errors == "" and page.sub("", output.text) == page.sub("", day.text)


def test_columns_may_stand_in_any_order(tmp_path, day):
    rewrite(copy_data(tmp_path), by_rows(lambda cells: cells[::-1]))
    output = run_day(tmp_path / "day.html", tmp_path)
    assert read_day(output.text)[0] == read_day(day.text)[0]
    letters = [re.search(r'column "(.*?)" \(([A-Z]+)\d+\)', text) for text in read_day(output.text)[1] if "orders.csv" in text]
    assert ("hose inside", "I") in [match.groups() for match in letters]  # the ninth of fourteen from the other end is the sixth


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("tables, option", [(TABLES, []), (["orders.csv"], ["orders.csv"]), (["dies.csv", "crimps.csv"], ["dies.csv", "crimps.csv"])])
def test_a_decimal_comma_that_is_said(tmp_path, day, separator, tables, option):
    rewrite(copy_data(tmp_path), by_rows(with_comma, separator), tables)
    output = run_day(tmp_path / "day.html", tmp_path, "--decimal-comma", *option)
    assert figures_of(output) == figures_of(day)


def test_a_decimal_comma_that_is_not_said(tmp_path):
    rewrite(copy_data(tmp_path), by_rows(with_comma, ";"), ["orders.csv"])
    output = run_day(tmp_path / "day.html", tmp_path)
    sheets, not_done = read_day(output.text)
    assert output.status == 1 and sheets == {}
    assert any('"12,7 mm": a comma in a number can mean two things' in text and "--decimal-comma" in text for text in not_done)


def test_a_point_where_a_comma_is_said(tmp_path):
    copy_data(tmp_path)
    output = run_day(tmp_path / "day.html", tmp_path, "--decimal-comma", "orders.csv")
    sheets, not_done = read_day(output.text)
    assert output.status == 1 and sheets == {}
    assert any('"12.7 mm": a point in a number whose decimal sign is the comma' in text for text in not_done)


def test_a_comma_of_a_file_that_is_not_there(tmp_path):
    output = run_day(tmp_path / "day.html", copy_data(tmp_path), "--decimal-comma", "order.csv")
    assert output.status == 2 and "there is no order.csv" in output.errors


LATIN = {"orders": ("102,harvester 2 saw motor", "102,Kr\u00f6te 2 saw motor"), "measuring": ("0.08 mm", "\u00bd mils")}


@pytest.mark.parametrize("encoding", ["latin-1", "cp1252"])
def test_one_byte_a_character_has_to_be_said(tmp_path, encoding):
    copy_data(tmp_path, **LATIN)
    as_utf8 = run_day(tmp_path / "day.html", tmp_path)
    assert "Kr\u00f6te 2" in as_utf8.text and as_utf8.status == 1
    rewrite(tmp_path, lambda text: text.encode(encoding))
    refused = run_day(tmp_path / "day.html", tmp_path)
    assert refused.status == 2 and "it is not text in UTF-8; of a file in Latin-1 say so: --encoding latin-1" in refused.errors
    said = run_day(tmp_path / "day.html", tmp_path, "--encoding", encoding)
    assert said == as_utf8


@pytest.mark.parametrize("change, cause", [
    (lambda text: text.encode("utf-16-le"), "in UTF-16 without a byte order mark"),
    (lambda text: b"\xff\xfe" + text.encode("utf-16-le") + b"\x00\xd8", "it begins as utf-16 and goes on as something else"),
    (lambda text: text.encode("utf-32"), "it is no text"),
    (lambda text: b"\xef\xbb\xbf" + text.encode() + b"\xff", "it begins as utf-8-sig"),
    (lambda text: text.replace("order,machine,", "order,"), 'separated by commas, has to name each column once: it lacks "machine"'),
    (lambda text: text.replace("order,machine", "order,truck"), 'it lacks "machine"; of no meaning here: "truck"'),
    (lambda text: text.replace("order,machine", "order,order,machine"), 'twice: "order"'),
    (lambda text: by_rows(same, ";")(text).replace("order;machine", "order;truck"), 'separated by semicolons, has to name each column once'),
    (lambda text: by_rows(same, "|")(text), "it lacks"),
    (lambda text: "", "it lacks"),
])
def test_what_cannot_be_read_names_its_cause(tmp_path, change, cause):
    rewrite(copy_data(tmp_path), change, ["orders.csv"])
    output = run_day(tmp_path / "day.html", tmp_path)
    assert (output.status, output.text) == (2, "")
    assert output.errors.startswith("orders.csv") and cause in output.errors
    assert not (tmp_path / "day.html").exists()


def test_a_comma_without_quotes_is_explained(tmp_path):
    copy_data(tmp_path, orders=("boom lift,A,A1,6,12.7 mm", "boom lift,A,A1,6,12,7 mm"))
    output = run_day(tmp_path / "day.html", tmp_path)
    assert "the row has 15 cells, the heading has 14: a cell with the separator in it needs quotes" in " ".join(output.text.split())


COUNT_CALLS = """
import sys, pathlib
sys.path[:0] = [sys.argv[1], sys.argv[2]]
import shop
calls = 0
def count(frame, event, argument):
    global calls
    calls += event == "call"
sys.setprofile(count)
shop, jobs = shop.run_day(pathlib.Path(sys.argv[3]))
sys.setprofile(None)
print(calls, len(jobs), len(shop.troubles))
"""


def calls_of_a_day(folder, orders, wrong):
    """How many calls of Python's functions a day of so many orders takes, of which some are doubled, and one piece each."""
    copy_data(folder)
    heading, row = (line for line in (DEPOT / "orders.csv").read_text(encoding="utf-8").splitlines() if line.startswith(("order,", "101,")))
    numbers = [str(1000 + i - i % 2) if i < wrong else str(1000 + i) for i in range(orders)]
    (folder / "orders.csv").write_text("\n".join([heading, *(number + row[3:] for number in numbers)]) + "\n", encoding="utf-8")
    crimps = [f"{number},1,1,{angle} deg,23.5{angle // 90} mm,caliper 1" for number in numbers for angle in (0, 90)]
    for name in ("confirmations", "ends", "assemblies"):  # of orders that are not in this day
        heading_alone = next(line for line in (DEPOT / f"{name}.csv").read_text(encoding="utf-8").splitlines() if line.startswith("order,"))
        (folder / f"{name}.csv").write_text(heading_alone + "\n", encoding="utf-8")
    (folder / "crimps.csv").write_text("\n".join(["order,piece,section,angle,diameter,gauge", *crimps]) + "\n", encoding="utf-8")
    done = subprocess.run([sys.executable, "-c", COUNT_CALLS, os.environ["FERRULE_PYTHON"], DEPOT, folder], text=True, check=True,
                          stdout=subprocess.PIPE)
    return map(int, done.stdout.split())


@pytest.mark.parametrize("share", [0, 1])
def test_twice_as_many_orders_take_twice_as_many_calls(tmp_path, share):
    """Counted, not timed, so that nothing depends on the machine."""
    few, many = tmp_path / "few", tmp_path / "many"
    few.mkdir()
    many.mkdir()
    calls, jobs, _ = calls_of_a_day(few, 400, 400 * share)
    more_calls, more_jobs, troubles = calls_of_a_day(many, 800, 800 * share)
    assert (jobs, more_jobs) == ((400, 800) if not share else (200, 400)) and troubles == share * 400
    assert more_calls < 2.1 * calls
