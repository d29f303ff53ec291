# SPDX-License-Identifier: MIT
"""The tables of decisions in tests/agree/vectors/decisions: orders and inspections, through the Python functions, every row.

Other languages and the databases ask the same questions, and those of the table of releases, which test_release.py reads here:
queries() has them for tests/agree/languages and tests/agree/sql.
"""
import csv
import pathlib
import re

import pytest

import ferrule

TABLES = pathlib.Path(__file__).parents[1] / "vectors" / "decisions"
SETS = {"needed", "changed"}
SIX_DECIMALS = 1e-6  # of a zone in mm; ends of a gauge without steps are written with ten


def rows(name):
    with (TABLES / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def value(text):
    """A flag, a number, otherwise the text: a quantity with its unit, a word."""
    if text in ("true", "false"):
        return text == "true"
    return int(text) if text.removeprefix("-").isdigit() else float(text) if re.fullmatch(r"-?\d+\.\d+", text) else text


def nest(cell):
    """`a.b=1; l.0.c=2 mm` as nested dicts, with lists where the names are numbers."""
    tree = {}
    for item in filter(None, cell.split("; ")):
        path, text = item.split("=", 1)
        *parents, last = path.split(".")
        node = tree
        for name in parents:
            node = node.setdefault(name, {})
        node[last] = text.split(", ") if last in SETS else value(text)
    return with_lists(tree)


def with_lists(node):
    if not isinstance(node, dict):
        return node
    node = {name: with_lists(below) for name, below in node.items()}
    return [node[str(i)] for i in range(len(node))] if node and all(name.isdigit() for name in node) else node


def plain(name):
    """A word as the tables write it."""
    return name.lower().replace("_", " ")


def words(chosen):
    return ", ".join(plain(one.name) for one in chosen)


def plan(cell):
    given = nest(cell)
    return ferrule.plan_setup(given["order"], given.get("press", {}), given.get("dies", []))


def inspect(setup, cell):
    given = nest(cell)
    return ferrule.inspect_crimp(setup, given["readings"], *(given.get(name, {}) for name in ("gauge", "marks", "guard", "process")))


def zone_of(text):
    """What a cell says of a zone, as figures and paths of the set-up: [(path, expected)]."""
    if text.startswith("status "):
        return [("zone.status", text.removeprefix("status ").replace("_", " ").lower())]
    if text == "empty":
        return [("zone.status", "ok"), ("zone.value.empty", True)]
    lower, upper = text.split(" to ")
    return [("zone.status", "ok"), ("zone.value.empty", False), ("zone.value.accept.lower", ferrule.Length(lower)),
            ("zone.value.accept.upper", ferrule.Length(upper))]


def queries_of_release():
    for row in rows("release"):
        given = row["arguments"] or "checks.hose_age=0"
        if row["decision"].startswith("status "):
            yield row, "", "", row["function"], given, "", row["decision"]
        elif row["function"] == "check_first_piece":
            yield row, "", "", row["function"], given, "first_piece.rest_allowed", row["decision"] == "true"
            yield row, "", "", row["function"], given, "first_piece.points", row["first"]
        else:
            for column in ("decision", "first", "second", "assembly", "left_out"):
                yield row, "", "", row["function"], given, f"release.{column}", row[column]


def queries_of_batches():
    for row in rows("batches"):
        for column in ("decision", "findings", "more_pieces"):
            expected = int(row[column]) if column == "more_pieces" else row[column]
            yield row, "", "", "judge_batch", row["arguments"], f"answer.{column}", expected


def queries():
    """(row, first call, its arguments, second call on its set-up, arguments, path of the result, expected): a word or a set of words
    as the tables write them, a length, a flag, a whole number, or `status NAME`. Of a release or a batch there is one call, the second."""
    yield from queries_of_release()
    yield from queries_of_batches()
    for row in rows("orders"):
        for column in ("readiness", "remarks", "confirmed"):
            yield row, "plan_setup", row["arguments"], "confirm_setup", row["confirmations"], f"confirmed.{column}", row[column]
        for path, expected in zone_of(row["zone"]):
            yield row, "plan_setup", row["arguments"], "confirm_setup", row["confirmations"], f"confirmed.{path}", expected
    for row in rows("inspections"):
        for column in ("decision", "findings", "worst"):
            expected = ferrule.Length(row[column]) if column == "worst" else row[column]
            yield row, "plan_setup", row["order"], "inspect_crimp", row["arguments"], f"inspection.{column}", expected


def at(result, path):
    for name in path.split("."):
        result = getattr(result, name)
    return result


def says(result, path, expected):
    found = at(result, path)
    if isinstance(expected, ferrule.Length):
        return abs(found.mm - expected.mm) <= SIX_DECIMALS
    if isinstance(expected, bool):
        return found is expected
    return (words(found) if isinstance(found, tuple) else plain(ferrule.Status(found).name if path.endswith("status") else found.name)) == expected


@pytest.mark.parametrize("row", rows("orders"), ids=range(2, len(rows("orders")) + 2))
def test_order(row):
    setup = ferrule.confirm_setup(plan(row["arguments"]), nest(row["confirmations"]).get("confirmations", []))
    assert [plain(setup.readiness.name), words(setup.remarks), words(setup.confirmed)] == [row["readiness"], row["remarks"], row["confirmed"]]
    assert all(says(setup, path, expected) for path, expected in zone_of(row["zone"])), setup.zone


@pytest.mark.parametrize("row", rows("inspections"), ids=range(2, len(rows("inspections")) + 2))
def test_inspection(row):
    inspection = inspect(plan(row["order"]), row["arguments"])
    assert [plain(inspection.decision.name), words(inspection.findings)] == [row["decision"], row["findings"]]
    assert inspection.verdict.decision == inspection.decision
    assert says(inspection, "worst", ferrule.Length(row["worst"]))


def test_tables_reach_everything():
    """Each remark and each finding is made by a row and not by another; each readiness and each decision is reached."""
    for table, column, all_of in (("orders", "remarks", ferrule.Remark), ("inspections", "findings", ferrule.Finding)):
        said = [row[column].split(", ") for row in rows(table)]
        assert len(said) >= 60
        for one in all_of:
            assert 0 < sum(plain(one.name) in cell for cell in said) < len(said), one
    assert {row["readiness"] for row in rows("orders")} == {plain(one.name) for one in ferrule.Readiness}
    assert {row["decision"] for row in rows("inspections")} == {plain(one.name) for one in ferrule.Decision}
    assert len(list(queries())) > 1000


def test_what_must_not_pass_does_not():
    danger = [row for row in rows("orders") if row["source"].startswith("must not pass")]
    assert len(danger) >= 9 and all(row["readiness"] == "not ready" for row in danger)
    danger = [row for row in rows("inspections") if row["source"].startswith("must not pass")]
    assert len(danger) >= 9 and all(row["decision"] != "accept" for row in danger)


def readiness_by(severity, row):
    open_ones = set(filter(None, row["remarks"].split(", "))) - set(row["confirmed"].split(", "))
    stopped = any(severity[name] == "STOP" for name in filter(None, row["remarks"].split(", ")))
    return "not ready" if stopped else "after confirming" if any(severity[name] == "CONFIRM" for name in open_ones) else "ready"


@pytest.mark.parametrize("remark", ferrule.Remark, ids=lambda remark: remark.name)
def test_no_severity_and_no_remark_can_change_unseen(remark):
    """With any other severity, up or down, a row of the table has another readiness; a remark that is dropped is missing there."""
    severity = {plain(one.name): ferrule.remark_severity(one).name for one in ferrule.Remark}
    own, name = severity[plain(remark.name)], plain(remark.name)
    for other in ({"STOP", "CONFIRM", "KNOW"} if own != "DO_FIRST" else {"STOP", "CONFIRM"}) - {own}:
        changed = severity | {name: other}
        assert any(readiness_by(changed, row) != row["readiness"] for row in rows("orders")), f"{own} as {other}"
    assert all(readiness_by(severity, row) == row["readiness"] for row in rows("orders"))
