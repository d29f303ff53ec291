# SPDX-License-Identifier: MIT
"""Structs: made, read, compared, written; and what the headers say about optional members, sets and words."""
import copy
import json
import math
import pickle

import pytest

import ferrule
from ferrule import Basis, Die, FoundLength, Hose, Joint, Model, Remark, Setup, Uncertainties, Status, Stem, Uncertainty, mm


def test_made_by_place_name_tuple_dict_and_first_member():
    hose = Hose(mm(12.7), "19.9 mm")
    assert hose == Hose(inside="12.7 mm", outside="19.9 mm", reinforcement=None) == Hose(**{"inside": "12.7 mm"}, outside=mm(19.9))
    joint = Joint(hose, "13 mm", "1.5 mm")
    assert joint.stem == Stem(outside="13 mm") and joint.hose.inside == mm(12.7) and joint.hose.reinforcement == mm(0)
    assert joint == Joint(("12.7 mm", "19.9 mm"), {"outside": "13 mm"}, ferrule.Ferrule(wall="1.5 mm"))
    assert Uncertainties(hose_inside="0.08 mm").hose_inside == Uncertainty(amount="0.08 mm", distribution="normal")


@pytest.mark.parametrize("wrong, message", [
    (lambda: Hose(), "Hose: a Hose needs inside, outside"),
    (lambda: Hose("1 mm"), "Hose: a Hose needs outside"),
    (lambda: Hose("1 mm", "2 mm", "0 mm", "3 mm"), "Hose has fewer members than are given"),
    (lambda: Hose("1 mm", inside="1 mm"), "Hose: inside is given twice"),
    (lambda: Hose(insde="1 mm", outside="2 mm"),
     "Hose: Hose has no member 'insde'; its members are inside, outside, reinforcement"),
    (lambda: Hose(1, 2), 'Hose: inside needs a unit: write "1 mm" or ferrule.mm(1), not 1'),
    (lambda: Joint(Hose("1 mm", "2 mm"), {"outside": 3}, "1 mm"),
     'Joint: stem.outside needs a unit: write "3 mm" or ferrule.mm(3), not 3'),
    (lambda: Joint("1 mm", "2 mm", "3 mm"), "Joint: hose has to be a Hose(inside, outside, ...), not '1 mm'"),
    (lambda: Joint({"inside": "1 mm"}, "2 mm", "3 mm"), "Joint: hose: a Hose needs outside"),
    (lambda: Joint({5: "1 mm"}, "2 mm", "3 mm"), "Joint: hose: Hose has no member 5; its members are inside, outside, reinforcement"),
    (lambda: Model(basis=1), 'Model: basis has to be one of "WALL", "FITTED_WALL", "AREA", "SOFT_WALL", not 1'),
    (lambda: Model(basis=ferrule.Flow.ENDS_FIXED),
     'Model: basis has to be one of "WALL", "FITTED_WALL", "AREA", "SOFT_WALL", not Flow'),
    (lambda: Die("1 mm", adapter=True), "Die: adapter has to be a whole number, not True"),
    (lambda: Uncertainty("1 mm", degrees_of_freedom="3"), "Uncertainty: degrees_of_freedom has to be a number, not '3'"),
    (lambda: FoundLength(), "FoundLength needs a value, or the status that says why there is none"),
    (lambda: Uncertainties("0.1 mm", **{"hose_inside": "0.1 mm"}), "Uncertainties: hose_inside is given twice")])
def test_refusals(wrong, message):
    with pytest.raises(TypeError) as error:
        wrong()
    assert str(error.value) == message


def test_peers_are_not_taken_for_each_other(joint):
    # One length could be any of a press's or of uncertainties: only a first member that nothing else is like stands for all.
    with pytest.raises(TypeError, match="uncertainties has to be a Uncertainties"):
        ferrule.best_target(joint, "0.1 mm", ("15 %", "25 %"))
    with pytest.raises(TypeError, match="press has to be a Press"):
        ferrule.check_press("0.05 mm")


def test_words():
    assert Model(basis="fitted wall") == Model(basis=Basis.FITTED_WALL) == Model("Fitted-Wall")
    assert Model().basis is Basis.WALL and Basis.WALL == 0 and Basis["AREA"].name == "AREA"
    for wrong in ("fitted", "fitted wall ", "wall\0", "", "\ud800"):
        with pytest.raises((TypeError, ValueError)):
            Model(basis=wrong)
    assert Status.HOSE_OUTSIDE_NOT_ABOVE_INSIDE.sentence == "hose outside diameter is not above its inside diameter"
    assert "die" in Remark.NO_DIE.sentence and ferrule.Caution.CLOSING_DIES.text.startswith("Keep hands out")
    assert not any(name.endswith("COUNT") for name in (*Remark.__members__, *ferrule.Unit.__members__))
    assert ferrule.TargetSource.COMPUTED == 2 and ferrule.Unit.inch.symbol == "in"
    assert "plain formula" in Basis.WALL.__doc__ and Basis.AREA.__doc__ != Basis.WALL.__doc__


def test_sets_are_tuples_of_words(setup):
    assert all(type(remark) is Remark for remark in setup.remarks) and setup.remarks
    assert setup.replace(remarks=["confirmation stale", Remark.NO_DIE]).remarks == (Remark.NO_DIE, Remark.CONFIRMATION_STALE)
    assert setup.replace(remarks=()).remarks == ()
    for wrong in ("NO_DIE", None, 3, ["nonsense"], [0]):
        with pytest.raises(TypeError):
            setup.replace(remarks=wrong)


def test_what_may_not_be_there(setup):
    assert setup.window and setup.window.value.lower == mm(21.4) and setup.window.status is Status.OK
    assert not setup.shares and setup.shares.value is None and setup.shares.status is Status.UNCERTAINTY_EMPTY
    missing = FoundLength(status="UNCERTAINTY_EMPTY")
    assert not missing and missing.value is None and missing == FoundLength("3 mm", "uncertainty empty") and FoundLength("3 mm")
    assert repr(missing) == 'FoundLength(status="UNCERTAINTY_EMPTY")'
    assert missing.replace(value="3 mm", status="OK") == FoundLength("3 mm")


def test_bool_members(setup):
    assert setup.die.found is True and setup.die.adapter_change is False
    with pytest.raises(TypeError, match="found has to be True or False, not 1"):
        setup.die.replace(found=1)


def test_repr_dict_pickle_hash(joint, setup):
    for value in (joint, setup, setup.die, Model(flow="ends_free"), FoundLength("3 mm"), Hose("1 mm", "2 mm")):
        assert eval(repr(value), vars(ferrule)) == value
        again = type(value)(**json.loads(json.dumps(value.to_dict())))
        assert again == value and hash(again) == hash(value) and not again != value
        for protocol in range(pickle.HIGHEST_PROTOCOL + 1):
            assert pickle.loads(pickle.dumps(value, protocol)) == value
        assert copy.deepcopy(value) == value
    assert repr(joint.hose) == 'Hose(inside="12.7 mm", outside="19.9 mm")'
    assert joint.to_dict()["stem"] == {"outside": "13 mm", "bore": "0 mm"}
    assert joint != joint.hose and joint.hose != ("12.7 mm", "19.9 mm") and joint != joint.replace(stem="14 mm")
    assert hash(joint) != hash(joint.replace(stem="14 mm"))
    with pytest.raises(TypeError):
        joint < joint


def test_a_figure_that_could_not_be_computed_is_nan_everywhere(joint, setup):
    """A look has no deviation, and no status says so: it is NaN itself, in repr, text and table; JSON has no NaN."""
    _, diagnosis = ferrule.diagnose_look(joint, setup, "21.76 mm", [{"kind": "too loose"}], [])
    assert math.isnan(diagnosis.deviation.mm) and str(diagnosis.deviation) == "nan mm"
    assert eval(repr(diagnosis), vars(ferrule)) == diagnosis
    bare = ferrule.Guard(factor=math.nan)  # a number without a unit
    assert math.isnan(bare.factor) and repr(bare) == 'Guard(factor=float("nan"))' and repr(bare) != repr(ferrule.Guard())
    assert eval(repr(bare), vars(ferrule)) == bare and repr(bare.replace(factor=-math.inf)) == 'Guard(factor=float("-inf"))'
    assert ">nan mm<" in diagnosis._repr_html_() and ">nan<" in bare._repr_html_()
    assert diagnosis.to_dict()["deviation"] is None and bare.to_dict()["factor"] is None


def test_replace(joint):
    assert joint.replace(stem="14 mm").stem == Stem("14 mm") and joint.replace() == joint
    bored = joint.replace(stem={"bore": "8 mm"})
    assert bored.stem == Stem("13 mm", bore="8 mm") and bored.stem.replace(bore=None) == joint.stem
    assert joint.replace(hose={"outside": "21 mm"}).hose == Hose("12.7 mm", "21 mm") and joint.hose.outside == mm(19.9)
    for wrong in (lambda: joint.replace(hoze="1 mm"), lambda: joint.replace(hose={"outsde": "1 mm"}), lambda: joint.replace("1 mm"),
                  lambda: joint.replace(hose=None)):
        with pytest.raises(TypeError):
            wrong()


def test_match(joint):
    match joint:
        case Joint(Hose(inside, outside), stem=Stem(outside=stem)):
            assert (inside, outside, stem) == (mm(12.7), mm(19.9), mm(13))
    assert Joint.__match_args__ == ("hose", "stem", "ferrule")


def test_values_do_not_change(joint):
    for change in (lambda: setattr(joint, "hose", joint.hose), lambda: setattr(joint.hose, "inside", mm(3)),
                   lambda: delattr(joint, "hose"), lambda: setattr(joint, "hoze", 3)):
        with pytest.raises(AttributeError, match="a value and does not change: make another by replace"):
            change()
    assert joint.hose.inside == mm(12.7)
    for change in (lambda: setattr(Hose, "inside", 3), lambda: type("Pipe", (Hose,), {}), lambda: object.__new__(Hose),
                   lambda: Hose.__new__(Hose), lambda: Hose.__new__(Stem, "1 mm", "2 mm"), lambda: joint.__reduce__(3)):
        with pytest.raises(TypeError):
            change()
    with pytest.raises(AttributeError):
        joint.hoze
