# SPDX-License-Identifier: MIT
"""The tables of decisions through python -m ferrule: every row that its options can say."""
import json

import pytest

import ferrule
import test_decisions
from ferrule.__main__ import main
from test_decisions import nest, plain, rows

OPTIONS = {f"order.{path}": f"--{option}" for path, option in {
    "joint.hose.inside": "hose-inside", "joint.hose.outside": "hose-outside", "joint.stem.outside": "stem-outside", "joint.stem.bore": "stem-bore",
    "joint.ferrule.wall": "ferrule-wall", "joint.ferrule.outside": "ferrule-outside", "joint.ferrule.length": "ferrule-length",
    "published": "published", "tolerance": "tolerance", "widest": "widest", "insertion": "insertion", "approval": "approval",
    "applies_to": "applies-to", "gauge.standard_uncertainty": "gauge", "gauge.resolution": "resolution"}.items()} | {
    f"press.{name}": f"--{name}" for name in ("graduation", "correction", "opening", "segments")}
KNOWN = [f"order.uncertainties.{name}.amount" for name in ("hose_inside", "hose_outside", "stem_outside", "ferrule_wall", "ferrule_outside",
                                                           "diameter")]
RANGE = ["order.range.lower", "order.range.upper"]
IN_WORDS = {"order.approval", "order.applies_to"}
EXITS = {"ready": 0, "after confirming": 3, "not ready": 1, "accept": 0, "undecided": 3, "reject": 1}


def flat(cell):
    return dict(item.split("=", 1) for item in filter(None, cell.split("; ")))


def plan_words(row):
    """The command; None: it has no option for something in the row."""
    given = flat(row["arguments"])
    sizes = [given.pop(f"dies.{i}.size") for i in range(len(given)) if f"dies.{i}.size" in given]
    reaches = {given.pop(path) for path in list(given) if path.endswith(".reach")}
    words = ["plan", "--json", "--dies", *sizes] + [word for reach in reaches for word in ("--reach", reach)]
    for option, paths in (("--known", KNOWN), ("--range", RANGE)):
        if any(path in given for path in paths):
            words += [option, *(given.pop(path, "0 mm") for path in paths)]
    confirmed = nest(row["confirmations"]).get("confirmations", [])
    figures = {tuple(str(one[name]) for name in ("target", "tolerance", "die", "compression")) for one in confirmed}
    if len(figures) > 1 or len(reaches) > 1 or not given.keys() <= OPTIONS.keys():
        return None
    words += [word for one in confirmed for word in ("--confirm", one["remark"], "who answers for it")]
    words += [word for four in figures for word in ("--looked-at", *("-" if word == "0 mm" else word for word in four))]
    return words + [word for path, text in given.items() for word in (OPTIONS[path], text.replace(" ", "_") if path in IN_WORDS else text)]


def judge_words(row):
    """As above; limits alone, readings of one section."""
    order, piece = flat(row["order"]), flat(row["arguments"])
    applies_to = order.pop("order.applies_to", "not stated")
    readings = [piece.pop(f"readings.{i}.diameter") for i in range(len(piece)) if f"readings.{i}.diameter" in piece]
    if piece.pop("gauge.correction", "0 mm") != "0 mm" or "0 mm" in readings or not order.get("order.tolerance") or any("uncert" in p for p in order):
        return None
    words = ["judge", "--json", *readings, "--limits", *(str(ferrule.Length(order["order.published"]) + sign * ferrule.Length(
        order["order.tolerance"])) for sign in (-1, 1)), "--applies-to", applies_to.replace(" ", "_")]
    words += ["--without-guard"] if piece.pop("guard.without", "") == "true" else []
    for path, option in (("gauge.standard_uncertainty", "--gauge"), ("gauge.resolution", "--resolution")):
        words += [option, piece.pop(path)] if path in piece else []
    return None if piece else words


def run(words, capsys):
    status = main(words)
    said = capsys.readouterr()
    assert not said.err
    return status, json.loads(said.out)


def cases(table, words_of):
    return [pytest.param(row, words_of(row), id=str(number)) for number, row in enumerate(rows(table), 2) if words_of(row)]


@pytest.mark.parametrize("row, words", cases("orders", plan_words))
def test_order(row, words, capsys):
    status, said = run(words, capsys)
    assert plain(said["readiness"]) == row["readiness"] and status == EXITS[row["readiness"]]
    assert ", ".join(plain(one["name"]) for one in said["remarks"]) == row["remarks"]
    assert ", ".join(plain(one["name"]) for one in said["remarks"] if one["confirmed"]) == row["confirmed"]
    for path, expected in test_decisions.zone_of(row["zone"]):
        found = said["set_up"]
        for name in path.split("."):
            found = found[name]
        if isinstance(expected, ferrule.Length):
            assert abs(ferrule.Length(found).mm - expected.mm) <= test_decisions.SIX_DECIMALS
        else:
            assert found == expected or plain(found) == expected
    if row["readiness"] == "not ready":  # nothing that a label printer could take for a setting
        assert "dial" not in said["set_up"] and "springback_dial" not in said["set_up"]


@pytest.mark.parametrize("row, words", cases("inspections", judge_words))
def test_inspection(row, words, capsys):
    status, said = run(words, capsys)
    assert plain(said["decision"]) == row["decision"] and status == EXITS[row["decision"]]
    assert ", ".join(plain(one["name"]) for one in said["findings"]) == row["findings"]


@pytest.mark.parametrize("row, words", cases("orders", plan_words))
def test_what_may_not_be_crimped_shows_nothing_to_set(row, words, capsys):
    main([word for word in words if word != "--json"])
    said = capsys.readouterr().out
    assert ("\nSet\n" in said) == (row["readiness"] != "not ready")


def test_most_rows_can_be_said():
    assert len(cases("orders", plan_words)) >= 60 and len(cases("inspections", judge_words)) >= 45
