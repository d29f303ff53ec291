# SPDX-License-Identifier: MIT
"""Functions: arguments, results, lists, exceptions. What they compute is tested elsewhere."""
import inspect
import pickle
from decimal import Decimal

import pytest

import ferrule
from ferrule import Die, Hose, Length, LengthRange, Model, Ratio, Status, mm, percent


def test_text_quantities_and_keywords_are_the_same(joint):
    # By the plain formula 13 + 2 x 1.5 + 7.2 x 0.8 mm.
    expected = ferrule.crimp_diameter(joint, percent(20))
    assert type(expected) is Length and expected.mm == pytest.approx(21.76, rel=1e-15)
    for same in (ferrule.crimp_diameter(joint, "20 %"), ferrule.crimp_diameter(compression="20 %", joint=joint),
                 ferrule.crimp_diameter(joint, "0.2 fraction", Model()), ferrule.crimp_diameter(joint, "20 %", model=None),
                 ferrule.crimp_diameter(joint.to_dict(), "20 %", {}), ferrule.crimp_diameter(joint, "20 %", {"flow": "none"})):
        assert same == expected
    assert ferrule.crimp_diameter(joint, "20 %", Model(flow="ends_free")) > expected


def test_a_struct_may_be_left_out_where_its_comment_says_so():
    """Limits are needed to judge; without them the dial is corrected, and no probability computed."""
    given = (ferrule.DialScale(), [ferrule.Trial("1.51 mm", "23.61 mm")], "23.51 mm")
    known = ferrule.Adjusting(crimp_deviation="0.05 mm")
    for rule in (None, known):
        plain = ferrule.correct_dial(*given, adjusting=rule)
        assert plain.setting.mm == pytest.approx(1.41)  # 0.10 mm too large at 1.51
        assert plain.probability_now.status is Status.TOLERANCE_MISSING
        for none in (None, ("0 mm", "0 mm"), LengthRange("0 mm", "0 mm")):
            assert ferrule.correct_dial(*given, none, rule) == plain
    assert ferrule.correct_dial(*given, ("23 mm", "24 mm"), known).probability_now.value > percent(99)
    assert inspect.signature(ferrule.correct_dial).parameters["limits"].default is None
    assert inspect.signature(ferrule.judge).parameters["limits"].default is inspect.Parameter.empty
    for judge, about in ((ferrule.judge, "23.5 mm"), (ferrule.find_risks, {})):
        with pytest.raises(TypeError, match="missing required argument 'limits'"):
            judge(about, "0.01 mm")
        with pytest.raises(TypeError, match=r"limits has to be a LengthRange\(lower, upper\), not None"):
            judge(about, "0.01 mm", None)


def test_results(joint):
    assert ferrule.check_joint(joint) is None
    target, share = ferrule.best_target(joint, {"hose_inside": "0.1 mm"}, ("15 %", "25 %"))
    assert type(target) is Length and type(share) is ferrule.Shares
    assert ferrule.status_name("OK") == "OK" and type(ferrule.lobe_height("41 mm", "40 mm", 8)) is Length


def test_lists():
    rack = ["16 mm", Die("19 mm"), {"size": "30 mm"}]
    for dies in (rack, tuple(rack), iter(rack), (d for d in rack)):
        assert ferrule.choose_die(dies, "23.51 mm").index == 1
    # Two dies of a reach of 7 mm leave three gaps from 10 to 60 mm.
    gaps = ferrule.find_coverage_gaps(["16 mm", "30 mm"], ("10 mm", "60 mm"))
    assert gaps == [LengthRange("10 mm", "16 mm"), LengthRange("23 mm", "30 mm"), LengthRange("37 mm", "60 mm")]
    assert ferrule.choose_purchases([], [], []) == [] and not ferrule.choose_die([], "23 mm").found
    many = ferrule.find_coverage_gaps([Die(mm(10 + i), reach="0.5 mm") for i in range(9000)], ("1 mm", "10000 mm"))
    assert len(many) == 9001
    for wrong in ("16 mm", b"16 mm", Die("16 mm"), 16, None, {"16 mm": 1}, object()):
        with pytest.raises(TypeError, match="choose_die: dies has to be a list"):
            ferrule.choose_die(wrong, "20 mm")
    with pytest.raises(TypeError, match=r'choose_die: dies\[1\] needs a unit: write "19 mm" or ferrule.mm\(19\), not 19'):
        ferrule.choose_die(["16 mm", 19], "20 mm")
    with pytest.raises(TypeError, match=r"choose_die: dies\[1\].size needs a unit"):
        ferrule.choose_die(["16 mm", {"size": 3.5}], "20 mm")


def test_an_iterator_may_raise_and_a_list_may_change_meanwhile():
    def broken():
        yield "16 mm"
        raise KeyError("mine")
    with pytest.raises(KeyError, match="mine"):
        ferrule.choose_die(broken(), "20 mm")
    dies = ["16 mm"] * 50

    class Evil:
        def __index__(self):
            dies.clear()
            return 3
    dies[0] = {"size": "16 mm", "adapter": Evil()}
    assert ferrule.choose_die(dies, "20 mm").found and not dies
    change = {"size": "16 mm", "adapter": Evil()}
    Evil.__index__ = lambda self: change.clear() or 5
    with pytest.raises(TypeError, match=r"dies\[0\] changed while it was read"):
        ferrule.choose_die([change], "20 mm")


@pytest.mark.parametrize("compression, message", [
    (20, 'crimp_diameter: compression needs a unit: write "20 %" or ferrule.percent(20), '
     'or "20 fraction" or ferrule.fraction(20), not 20'),
    (0.2, 'crimp_diameter: compression needs a unit: write "0.2 %" or ferrule.percent(0.2), '
     'or "0.2 fraction" or ferrule.fraction(0.2), not 0.2'),
    (True, 'crimp_diameter: compression has to be a Ratio or text with a unit such as "20 %", not True'),
    (mm(3), 'crimp_diameter: compression has to be a Ratio or text with a unit such as "20 %", not Length("3 mm")'),
    (Decimal(20), 'crimp_diameter: compression needs a unit: write "20 %" or ferrule.percent(20), '
                  'or "20 fraction" or ferrule.fraction(20), not 20')])
def test_a_bare_number_is_refused(joint, compression, message):
    with pytest.raises(TypeError) as error:
        ferrule.crimp_diameter(joint, compression)
    assert str(error.value) == message


def test_whole_numbers():
    for wrong, error in ((8.0, TypeError), (True, TypeError), ("8", TypeError), (2 ** 31, OverflowError),
                         (-2 ** 31 - 1, OverflowError), (10 ** 30, OverflowError), (2 ** 31 - 1, ferrule.SegmentsError)):
        with pytest.raises(error):
            ferrule.lobe_height("41 mm", "40 mm", wrong)


def test_wrong_calls(joint):
    for wrong in (lambda: ferrule.crimp_diameter(joint), lambda: ferrule.crimp_diameter(), lambda: ferrule.check_joint(None),
                  lambda: ferrule.crimp_diameter(joint, "20 %", Model(), 4), lambda: ferrule.crimp_diameter(joint, compresion="20 %"),
                  lambda: ferrule.crimp_diameter(joint, "20 %", joint=joint), lambda: ferrule.crimp_diameter(joint, **{"\ud800": 1}),
                  lambda: ferrule.crimp_diameter("20 %", joint), lambda: ferrule.crimp_diameter(joint, "20 %", 3)):
        with pytest.raises(TypeError):
            wrong()


def test_exceptions(joint):
    impossible = joint.replace(hose={"outside": "10 mm"})
    with pytest.raises(ferrule.HoseError) as caught:
        ferrule.crimp_diameter(impossible, "20 %")
    error = caught.value
    assert str(error) == ("crimp_diameter: hose outside diameter is not above its inside diameter "
                          '(hose: Hose(inside="12.7 mm", outside="10 mm"))')
    assert (error.code, error.name, error.function) == (Status.HOSE_OUTSIDE_NOT_ABOVE_INSIDE, "HOSE_OUTSIDE_NOT_ABOVE_INSIDE",
                                                        "crimp_diameter")
    assert isinstance(error, ferrule.Error) and isinstance(error, ValueError) and type(error.code) is Status
    again = pickle.loads(pickle.dumps(error))
    assert (type(again), str(again), again.code) == (ferrule.HoseError, str(error), error.code)


@pytest.mark.parametrize("call, error, shown", [
    (lambda j: ferrule.crimp_diameter(j, "99 %", Model(basis="soft wall")), ferrule.HoseError, "(hose: Hose(inside="),
    (lambda j: ferrule.crimp_diameter(j, compression="999 %"), ferrule.CompressionError, "(compression: '999 %')"),
    (lambda j: ferrule.compression(j, mm(-3)), ferrule.DiameterError, '(diameter: Length("-3 mm"))'),
    (lambda j: ferrule.choose_die(["-16 mm"], "3 mm"), ferrule.DieError, "(dies: ['-16 mm'])"),
    (lambda j: ferrule.choose_die(["-16 mm"] * 99, "3 mm"), ferrule.DieError, "(dies: list)"),
    (lambda j: ferrule.crimp_window(j, ("25 %", "15 %")), ferrule.CompressionError, ', range: RatioRange(lower="25 %", upper="15 %"))'),
    (lambda j: ferrule.crimp_diameter(j, Ratio("41 mm")), ferrule.TextError, "('41 mm', byte 3; units: fraction, percent)"),
    (lambda j: ferrule.crimp_diameter(j, "20"), ferrule.TextError,
     "crimp_diameter: compression: a number without a unit: write the unit after it ('20', byte 2; write \"20 %\" or "
     "ferrule.percent(20), or \"20 fraction\" or ferrule.fraction(20); units: fraction, percent)"),
    (lambda j: Hose("20 mm", "30"), ferrule.TextError, "Hose: outside: a number without a unit")])
def test_what_an_exception_shows(joint, call, error, shown):
    with pytest.raises(error) as caught:
        call(joint)
    assert shown in str(caught.value)


@pytest.mark.parametrize("call, error, path, value", [
    (lambda j: ferrule.crimp_diameter(j, 20), TypeError, "compression", 20),
    (lambda j: ferrule.crimp_diameter(j, "20"), ferrule.TextError, "compression", "20"),
    (lambda j: ferrule.crimp_diameter(j.replace(hose={"inside": "-1 mm"}), "20 %"), ferrule.HoseError, "joint.hose.inside", mm(-1)),
    (lambda j: ferrule.check_joint({"hose": ("1 mm", 2), "stem": "1 mm", "ferrule": "1 mm"}), TypeError, "joint.hose.outside", 2),
    (lambda j: ferrule.check_joint({"hose": {"inside": "1 mm"}, "stem": "1 mm", "ferrule": "1 mm"}), TypeError,
     "joint.hose.outside", None),
    (lambda j: ferrule.choose_die(iter(["1 mm", {"size": "2 mm", "adapter": 2 ** 80}]), "3 mm"), OverflowError, "dies[1].adapter", 2 ** 80),
    (lambda j: ferrule.crimp_window(j, ("25 %", "15 %")), ferrule.CompressionError, "", None),
    (lambda j: ferrule.compression(j, mm(-3)), ferrule.DiameterError, "diameter", mm(-3)),
    (lambda j: Hose("20 mm", "30"), ferrule.TextError, "outside", "30"),
    (lambda j: j.replace(hose={"inside": 3}), TypeError, "hose.inside", 3),
    (lambda j: Length("30"), ferrule.TextError, "", "30")])
def test_an_exception_knows_the_field_and_its_value(joint, call, error, path, value):
    with pytest.raises(error) as caught:
        call(joint)
    assert (caught.value.path, caught.value.value) == (path, value)
    again = pickle.loads(pickle.dumps(caught.value))
    assert (again.path, again.value) == (path, value)


def test_every_status_has_its_class():
    for status in Status:
        if status is not Status.OK:
            error = getattr(ferrule, status.name.split("_")[0].capitalize() + "Error")
            assert issubclass(error, ferrule.Error) and error.__module__ == "ferrule"
    assert issubclass(ferrule.Error, ValueError) and ferrule.Error("mine").code is Status.OK
