# SPDX-License-Identifier: MIT
"""All faults at once, and what an exception says of them."""
import pickle

import pytest

import ferrule
from ferrule import Die, Hose, Order, Press, Status, mm

RACK = ["16 mm", "19 mm", "22 mm", "25 mm"]


def worked(**changes):
    """Invented."""
    return Order(joint={"hose": ("12.7 mm", "19.9 mm"), "stem": "12.95 mm", "ferrule": ("2.4 mm", "25.6 mm")}).replace(**changes)


def seen(faults):
    return [(f.path, f.status.name) for f in faults]


def test_a_sound_order_has_no_fault():
    assert list(ferrule.check_order(worked(), Press(), RACK)) == []
    assert ferrule.plan_setup(worked(), Press(), RACK).die.found


def test_all_faults_of_an_order_a_press_and_a_rack():
    order = worked(joint={"hose": {"outside": "0 mm"}}, tolerance="-1 mm")
    faults = ferrule.check_order(order, Press(graduation="11 mm"), [*RACK[:3], "0 mm"])
    assert seen(faults) == [("joint.hose.outside", "HOSE_OUTSIDE_MISSING"), ("tolerance", "TOLERANCE_OUT_OF_RANGE"),
                            ("press.graduation", "PRESS_GRADUATION_OUT_OF_RANGE"), ("dies[3].size", "DIE_SIZE_MISSING")]
    assert [f.message for f in faults] == [f.status.sentence for f in faults]
    assert faults[0].message == "hose outside diameter is not given"
    assert [f.die for f in faults] == [0, 0, 0, 3] and faults[3].field.path == "dies[].size"


def test_an_exception_has_all_faults_and_is_the_first_of_them():
    order, press = worked(joint={"stem": {"outside": "0 mm"}}), Press(segments=2, capacity="-1 N")
    with pytest.raises(ferrule.StemError) as caught:
        ferrule.plan_setup(order, press, RACK)
    error, faults = caught.value, ferrule.check_order(order, press, RACK)
    assert (error.code, error.path, error.value) == (Status.STEM_OUTSIDE_MISSING, "joint.stem.outside", mm(0))
    assert seen(error.faults) == seen(faults) == [
        ("joint.stem.outside", "STEM_OUTSIDE_MISSING"), ("press.capacity", "PRESS_CAPACITY_OUT_OF_RANGE"),
        ("press.segments", "PRESS_SEGMENTS_OUT_OF_RANGE")]
    assert [f.message for f in error.faults] == [f.message for f in faults]
    assert seen(pickle.loads(pickle.dumps(error)).faults) == seen(faults)


@pytest.mark.parametrize("call, status, path, value, others", [
    (lambda: ferrule.plan_setup(worked(), Press(), ["16 mm", Die("19 mm", length="-1 mm")]),
     "DIE_LENGTH_OUT_OF_RANGE", "dies[1].length", mm(-1), []),
    (lambda: ferrule.plan_setup(worked(aim="99 %"), Press(), iter(RACK)), "COMPRESSION_AIM_OUTSIDE_RANGE", "aim",
     ferrule.percent(99), []),
    (lambda: ferrule.plan_setup({"joint": worked().joint, "tolerance": "1"}, Press(), []), "TEXT_UNIT_MISSING", "tolerance", "1", []),
    (lambda: ferrule.dial_setting(Press(opening="-1 mm"), Die("0 mm"), "20 mm"), "PRESS_OPENING_OUT_OF_RANGE", "press.opening",
     mm(-1), [("die.size", "DIE_SIZE_MISSING")]),
    (lambda: ferrule.check_joint({"hose": ("0 mm", "0 mm"), "stem": "5 mm", "ferrule": "1 mm"}), "HOSE_INSIDE_MISSING",
     "joint.hose.inside", mm(0), [("joint.hose.outside", "HOSE_OUTSIDE_MISSING")]),
    # about an argument of its own, with a joint beside that is sound, and with one that is not
    (lambda: ferrule.compression(worked().joint, "0 mm"), "DIAMETER_MISSING", "diameter", "0 mm", []),
    (lambda: Hose("12.7 mm", "20"), "TEXT_UNIT_MISSING", "outside", "20", [])])
def test_path_value_and_faults(call, status, path, value, others):
    with pytest.raises(ferrule.Error) as caught:
        call()
    error = caught.value
    assert (error.name, error.path, error.value) == (status, path, value)
    assert seen(error.faults) == [(path, status), *others]


def test_an_error_of_ones_own_has_no_faults():
    assert ferrule.Error("mine").faults == ()


class NAType:
    """As pandas' NA is called, where pandas is not installed."""


def blanks():
    try:
        import pandas
        return [None, float("nan"), pandas.NA]
    except ImportError:
        return [None, float("nan"), NAType()]


@pytest.mark.parametrize("blank", blanks(), ids=str)
@pytest.mark.parametrize("call, error, status, path", [
    (lambda x: Hose(x, "19.9 mm"), ferrule.HoseError, "HOSE_INSIDE_MISSING", "inside"),
    (lambda x: worked().joint.replace(hose={"outside": x}), ferrule.HoseError, "HOSE_OUTSIDE_MISSING", "hose.outside"),
    (lambda x: ferrule.plan_setup({"joint": {"hose": ("12.7 mm", "19.9 mm"), "stem": {"outside": x}, "ferrule": "2.4 mm"}}, Press(), []),
     ferrule.StemError, "STEM_OUTSIDE_MISSING", "joint.stem.outside"),
    (lambda x: ferrule.compression(worked().joint, x), ferrule.DiameterError, "DIAMETER_MISSING", "diameter"),
    (lambda x: ferrule.choose_die(["16 mm", {"size": x}], "20 mm"), ferrule.DieError, "DIE_SIZE_MISSING", "dies[1].size"),
    (lambda x: ferrule.dial_setting(Press(), "16 mm", x), ferrule.TargetError, "TARGET_MISSING", "target")])
def test_a_needed_quantity_that_is_none_or_nan(blank, call, error, status, path):
    with pytest.raises(error) as caught:
        call(blank)
    assert (caught.value.name, caught.value.path, seen(caught.value.faults)) == (status, path, [(path, status)])
    assert caught.value.value is blank and str(caught.value).endswith(f"{caught.value.code.sentence} ({shown(blank)})")


def shown(blank):
    return repr(blank) if blank is None or isinstance(blank, float) else "NAType"


@pytest.mark.parametrize("call", [lambda x: ferrule.crimp_diameter(worked().joint, x), lambda x: ferrule.Length(x)])
def test_one_that_has_no_status_of_its_own(call):
    for blank, status in zip(blanks(), ("QUANTITY_MISSING", "QUANTITY_NOT_A_NUMBER", "QUANTITY_NOT_A_NUMBER")):
        with pytest.raises(ferrule.QuantityError) as caught:
            call(blank)
        assert caught.value.name == status
    with pytest.raises(ferrule.QuantityError):
        ferrule.mm(None)


def test_what_may_be_left_out_may_be_none_and_not_nan():
    assert Hose("12.7 mm", "19.9 mm", None) == Hose("12.7 mm", "19.9 mm")
    with pytest.raises(ferrule.Error) as caught:
        Hose("12.7 mm", "19.9 mm", float("nan"))
    assert (caught.value.path, caught.value.name) == ("reinforcement", "QUANTITY_NOT_A_NUMBER")
    for wrong in (12.7, True, object()):
        with pytest.raises(TypeError):
            Hose(wrong, "19.9 mm")
