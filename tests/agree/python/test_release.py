# SPDX-License-Identifier: MIT
"""Release of an assembly and first piece: the table of tests/vectors/decisions, and rules that hold for anything reported."""
import csv
import itertools
import pathlib

import pytest
from hypothesis import given, strategies as st

import ferrule
from ferrule import AssemblyChecks, DiameterCheck, EndChecks, FirstPieceChecks, ProofTest, ReleaseNeeds

TABLE = pathlib.Path(__file__).parents[1] / "vectors" / "decisions" / "release.csv"
with TABLE.open(encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))
SETS = {"needed", "changed"}


def read(name, text):
    """A word, a flag, a whole number or a set."""
    if name in SETS:
        return text.split(", ")
    return True if text == "true" else int(text) if text.lstrip("-").isdigit() else text


def arguments(cell):
    """The nested dicts that a cell describes."""
    tree = {}
    for item in filter(None, cell.split("; ")):
        path, text = item.split("=")
        *way, name = path.split(".")
        place = tree
        for part in way:
            place = place.setdefault(part, {})
        place[name] = read(name, text)
    return tree


def words(points):
    return ", ".join(point.name.lower().replace("_", " ") for point in points)


def answer(row):
    given = arguments(row["arguments"])
    if row["function"] == "check_first_piece":
        piece = ferrule.check_first_piece(given["checks"])
        return [str(piece.rest_allowed).lower(), words(piece.points), "", "", ""]
    release = ferrule.release_assembly(given.get("checks", {}), given.get("needs"))
    return [release.decision.name.lower()] + [words(s) for s in (release.first, release.second, release.assembly, release.left_out)]


@pytest.mark.parametrize("row", ROWS, ids=range(2, len(ROWS) + 2))
def test_table(row):
    if row["decision"].startswith("status "):
        with pytest.raises(ferrule.Error) as caught:
            answer(row)
        assert caught.value.name == row["decision"].removeprefix("status ")
    else:
        assert answer(row) == [row[name] for name in ("decision", "first", "second", "assembly", "left_out")]


def test_table_reaches_every_point_and_change():
    said = {f"{row[name]}, " for row in ROWS for name in ("first", "second", "assembly")}
    for point in itertools.chain(ferrule.EndPoint, ferrule.AssemblyPoint):
        assert any(words([point]) + ", " in cell for cell in said), point
    assert len(ROWS) >= 60


outcomes = st.sampled_from(["not done", "passed", "failed", "undecided"])
diameters = st.builds(lambda outcome, limit, *flags: DiameterCheck(outcome, limit if outcome == "failed" else "not stated", *flags),
                      outcomes, st.sampled_from(["not stated", "lower", "upper"]), st.booleans(), st.booleans())
ends = st.builds(EndChecks, diameters, st.sampled_from(["not done", "good", "too tight", "too loose", "damaged", "undecided"]),
                 outcomes, outcomes)
assemblies = st.builds(AssemblyChecks, ends, ends, outcomes, st.integers(0, 60), outcomes, outcomes, outcomes, outcomes,
                       st.builds(ProofTest, outcomes, outcomes, outcomes, st.booleans()), st.booleans())
needs = st.builds(ReleaseNeeds, st.sets(st.sampled_from(list(ferrule.Need))), st.integers(0, 1200))


def severities(release):
    return {severity(point).name for points, severity in (
        (release.first, ferrule.end_point_severity), (release.second, ferrule.end_point_severity),
        (release.assembly, ferrule.assembly_point_severity)) for point in points}


@given(assemblies, needs)
def test_the_gravest_point_decides(checks, needed):
    release = ferrule.release_assembly(checks, needed)
    found = severities(release)
    assert (release.decision.name == "SCRAP") == ("STOP" in found)
    assert (release.decision.name == "HOLD") == (bool(found & {"CONFIRM", "DO_FIRST"}) and "STOP" not in found)
    assert (release.decision.name == "RELEASED") == (found <= {"KNOW"})


@given(assemblies, needs)
def test_released_only_where_nothing_bad_was_reported(checks, needed):
    if ferrule.release_assembly(checks, needed).decision.name == "RELEASED":
        for end in (checks.first, checks.second):
            assert end.looks.name in ("GOOD", "NOT_DONE")
            for outcome in (end.diameter.outcome, end.insertion, end.bore):
                assert outcome.name in ("PASSED", "NOT_DONE")
        assert not checks.proof.rig_leak
        for outcome in (checks.parts, checks.length, checks.orientation, checks.cleanliness, checks.marking, checks.proof.pressure,
                        checks.proof.leak, checks.proof.movement):
            assert outcome.name in ("PASSED", "NOT_DONE")


@given(assemblies, st.sampled_from(["first", "second"]), st.sampled_from(["too tight", "too loose", "damaged"]))
def test_no_diameter_outweighs_a_bad_look(checks, end, look):
    bad = getattr(checks, end).replace(diameter=DiameterCheck("passed"), looks=look)
    assert ferrule.release_assembly(checks.replace(**{end: bad})).decision.name == "SCRAP"
    assert not ferrule.check_first_piece(bad).rest_allowed


@given(ends, st.sets(st.sampled_from(list(ferrule.Change))))
def test_the_rest_is_crimped_after_a_good_first_piece_only(end, changed):
    piece = ferrule.check_first_piece(FirstPieceChecks(end, changed))
    good = (end.diameter.outcome.name == "PASSED" and not end.diameter.by_sample and end.looks.name == "GOOD"
            and end.bore.name == "PASSED" and end.insertion.name in ("PASSED", "NOT_DONE"))
    assert piece.rest_allowed == (good and not changed)
    assert set(piece.changed) == changed and set(piece.due_after) == set(ferrule.Change)
