# SPDX-License-Identifier: MIT
"""pint, pandas and matplotlib beside the package, and what is said where they are missing."""
import os
import subprocess
import sys

import pytest

import ferrule
from conftest import PACKAGE_PATH
from ferrule import Hose, Joint, Length, Ratio, Uncertainties, mm

pint = pytest.importorskip("pint")
JOINT = Joint(("12.7 mm", "19.9 mm"), "12.95 mm", ferrule.Ferrule("2.4 mm", outside="25.6 mm"))
UNITS = pint.UnitRegistry()


# ---- pint ------------------------------------------------------------------------------------------------------


def test_quantities_of_pint_are_taken():
    hose = Hose(12.7 * UNITS.mm, 1.99 * UNITS.cm)
    assert abs(hose.outside - mm(19.9)) < mm(1e-12) and hose.inside == mm(12.7)
    assert ferrule.crimp_diameter(JOINT, 0.2 * UNITS.dimensionless) == ferrule.crimp_diameter(JOINT, "20 %")
    assert Length(4.96 * UNITS.inch) == ferrule.inch(4.96)  # our own bits where the unit is one of ours
    assert ferrule.Temperature(UNITS.Quantity(212, "degF")) == ferrule.celsius(100)
    assert abs(ferrule.Pressure(1000 * UNITS.psi).mpa - 6.894757293168) < 1e-9  # NIST SP 811, B.8
    assert ferrule.Pressure(5 * UNITS.N / UNITS.mm ** 2) == ferrule.mpa(5)
    assert ferrule.choose_die([16 * UNITS.mm, 19 * UNITS.mm], 20 * UNITS.mm).die.size == mm(19)
    assert Ratio(3 * UNITS.mm / (12 * UNITS.mm)) == ferrule.percent(25)


@pytest.mark.parametrize("unit", [unit for unit in ferrule.Unit if unit.name != "percent"])
def test_every_unit_goes_to_pint_and_back(unit):
    made = getattr(ferrule, unit.name)(3.5)
    back = type(made)(made.to_pint())
    assert abs(getattr(back, unit.name) - 3.5) < 1e-12
    own = made.to_pint(UNITS)
    assert own._REGISTRY is UNITS and type(made)(own) == back
    from ferrule._pint import SPELLING
    spelled = SPELLING[type(made).__name__][unit.name]
    assert abs(own.to(spelled).magnitude - 3.5) < 1e-12
    assert type(made)(UNITS.Quantity(3.5, spelled)) == made


@pytest.mark.parametrize("wrong, reported", [
    (3 * UNITS.mm, 'compression has to be a Ratio or text with a unit such as "20 %", not 3 millimeter'),
    (3 * UNITS.degree, "not 3 degree"), ([1, 2] * UNITS.dimensionless, "not [1 2] dimensionless"),
    (UNITS.Quantity("3") * UNITS.bar, "not 3 bar")])
def test_another_kind_of_pint_is_refused(wrong, reported):
    with pytest.raises(TypeError) as error:
        ferrule.crimp_diameter(JOINT, wrong)
    assert str(error.value).startswith("crimp_diameter: compression") and reported in str(error.value)
    with pytest.raises(TypeError):
        ferrule.Angle(3 * UNITS.dimensionless)
    with pytest.raises(TypeError):
        Hose(wrong, "3 mm") if wrong.check("[pressure]") else Hose(3 * UNITS.bar, "3 mm")


def test_not_finite_goes_through_and_is_refused_where_it_is_used():
    with pytest.raises(ferrule.CompressionError):
        ferrule.crimp_diameter(JOINT, float("nan") * UNITS.dimensionless)


# ---- pandas ----------------------------------------------------------------------------------------------------


def table():
    pandas = pytest.importorskip("pandas")
    return pandas.DataFrame({"order": ["a", "b", "c"], "hose_inside_mm": [12.7, 12.8, 12.6], "hose_outside_inch": [0.78, 0.785, 0.79],
                             "stem_outside_mm": [12.95, 12.95, 12.95], "ferrule_wall_mm": [2.4, 2.4, 2.5]}, index=["x", "y", "z"])


def test_a_table_goes_in_and_comes_back():
    bulk, frame = ferrule.bulk, table()
    found = bulk.crimp_diameter(frame, compression_percent=20)
    assert type(found).__name__ == "Series" and found.name == "diameter_mm" and list(found.index) == ["x", "y", "z"]
    for name, row in frame.iterrows():
        joint = Joint((mm(row.hose_inside_mm), ferrule.inch(row.hose_outside_inch)), mm(row.stem_outside_mm), mm(row.ferrule_wall_mm))
        assert found[name] == ferrule.crimp_diameter(joint, "20 %").mm
    window = bulk.crimp_window(frame, lower_percent=15, upper_percent=25)
    assert type(window).__name__ == "DataFrame" and list(window.columns) == ["lower_mm", "upper_mm"] and list(window.index) == ["x", "y", "z"]
    assert (window.lower_mm < found).all() and (found < window.upper_mm).all()
    frame["target_mm"] = found
    assert frame.loc["x", "target_mm"] == found["x"]


def test_what_is_given_counts_before_the_table():
    bulk, frame = ferrule.bulk, table()
    given = bulk.crimp_diameter(frame, compression_percent=20, ferrule_wall_inch=0.1)
    assert given.tolist() == bulk.crimp_diameter(frame.drop(columns="ferrule_wall_mm"), compression_percent=20, ferrule_wall_mm=2.54).tolist()
    values, statuses = bulk.crimp_diameter(frame, compression_percent=[20, 20, 999], errors="mark", status=True)
    assert statuses.tolist() == [0, 0, int(ferrule.Status.COMPRESSION_CLOSES_ON_STEM)] and values.isna().tolist() == [False, False, True]
    plain = {name: column.to_numpy() for name, column in frame.items() if name != "order"}
    assert type(bulk.crimp_diameter(plain, compression_percent=20)).__module__ == "numpy"
    assert bulk.crimp_diameter(frame.iloc[:0], compression_percent=20).shape == (0,)


def test_a_column_of_text():
    """Each text has its unit, whatever the name of the column says; one that cannot be read makes its row fail, and no other."""
    bulk, frame = ferrule.bulk, table()
    numbers = bulk.crimp_diameter(frame, compression_percent=20)
    assert bulk.crimp_diameter(frame.assign(stem_outside_mm="12.95 mm"), compression_percent=20).tolist() == numbers.tolist()
    texts = frame.drop(columns="stem_outside_mm").assign(stem_outside=["12.95 mm", "1.295 cm", "12950 µm"])
    assert bulk.crimp_diameter(texts, compression_percent=20).tolist() == pytest.approx(numbers.tolist(), rel=1e-15)
    odd = frame.assign(stem_outside_mm=["12.95 mm", "thirteen", "12.95 mm"])
    with pytest.raises(ferrule.TextError, match="thirteen") as caught:
        bulk.crimp_diameter(odd, compression_percent=20)
    assert caught.value.row == (1,)
    values, statuses = bulk.crimp_diameter(odd, compression_percent=20, errors="mark", status=True)
    assert statuses.tolist() == [0, int(ferrule.Status.TEXT_NUMBER_MISSING), 0]
    assert values.isna().tolist() == [False, True, False] and values["x"] == numbers["x"] and values["z"] == numbers["z"]


def test_the_status_says_what_is_wrong_with_a_text():
    """Of two texts of one row that of the first column counts; a row that is left out keeps what stood there; a number beside it keeps its own status."""
    bulk, status = ferrule.bulk, ferrule.Status
    given = {"hose_inside": ["12.7 mm", "12.7", "12.7 mm", "12.7 bar", "-1 mm"], "hose_outside": ["wide", "x", "19.9 mm", "19.9 mm", "19.9 mm"],
             "stem_outside_mm": 12.95, "ferrule_wall_mm": 2.4, "compression_percent": 20, "errors": "mark"}
    values, statuses = bulk.crimp_diameter(status=True, **given)
    assert statuses.tolist() == [status.TEXT_NUMBER_MISSING, status.TEXT_UNIT_MISSING, 0, status.TEXT_UNIT_OTHER_KIND, status.HOSE_INSIDE_OUT_OF_RANGE]
    assert [v == v for v in values.tolist()] == [False, False, True, False, False]
    numpy = pytest.importorskip("numpy")
    mine = numpy.full(5, 5, numpy.uint16)
    bulk.crimp_diameter(status=mine, where=[False, True, True, True, True], **given)
    assert mine.tolist() == [5, *statuses.tolist()[1:]]
    _, statuses = bulk.choose_die(die_size=[["16 mm", "22 mm"], ["16 mm", "x"]], target_mm=23.5, errors="mark", status=True)
    assert statuses.tolist() == [0, status.TEXT_NUMBER_MISSING]


@pytest.mark.parametrize("wrong, reported", [
    (lambda b, f: b.crimp_diameter(f), "crimp_diameter: missing compression_fraction"),
    (lambda b, f: b.crimp_diameter(f.drop(columns="stem_outside_mm"), compression_percent=20), "missing stem_outside_mm"),
    (lambda b, f: b.crimp_diameter(f.assign(hose_inside_inch=1), compression_percent=20), "hose_inside is given twice"),
    (lambda b, f: b.crimp_diameter(3, compression_percent=20), "a table with named columns is needed, not int"),
    (lambda b, f: b.crimp_diameter(f.assign(stem_outside_mm=[{"mm": 13}] * 3), compression_percent=20),
     "stem_outside_mm: numbers, or text with a unit, are needed, not {'mm': 13}"),
    (lambda b, f: b.crimp_diameter(f.assign(stem_outside_mm=1j), compression_percent=20), "stem_outside_mm: numbers are needed, not complex128")])
def test_bad_tables(wrong, reported):
    with pytest.raises(TypeError, match=reported):
        wrong(ferrule.bulk, table())


# ---- matplotlib ------------------------------------------------------------------------------------------------


@pytest.fixture
def plot():
    pytest.importorskip("matplotlib").use("Agg")
    from ferrule import plot
    yield plot
    plot.pyplot.close("all")


def test_compression_is_drawn(plot):
    axes = plot.compression(JOINT, "23.51 mm")
    lines = {line.get_label(): line.get_xydata() for line in axes.lines}
    assert set(lines) >= {"plain formula", "ends free", "ends fixed"}
    for x, y in lines["plain formula"]:
        assert y == pytest.approx((7.2 - x + 2 * 2.4 + 12.95) / 7.2 * 100)  # the plain formula by hand
    held = dict((round(x, 3), y) for x, y in lines["ends fixed"])
    near = min(held, key=lambda x: abs(x - 23.51))
    assert held[near] == pytest.approx(27.557, abs=0.5)  # worked figure, at the nearest step
    assert axes.get_xlabel() == "crimp diameter in mm" and axes.get_ylabel() == "compression in %"
    without = plot.compression(JOINT.replace(ferrule={"outside": None}))
    assert [line.get_label() for line in without.lines] == ["plain formula"]  # the others need the ferrule outside


def test_the_chance_is_drawn(plot):
    uncertainties = Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm", diameter="0.05 mm")
    axes = plot.chance(JOINT, uncertainties)
    inside = next(line for line in axes.lines if line.get_label() == "inside").get_xydata()
    assert max(inside[:, 1]) == pytest.approx(99.4227, abs=0.05)  # worked figure of the best target
    assert "best 23.50 mm: 99.4 %" in [text.get_text() for text in axes.texts]


def test_the_reach_is_drawn(plot):
    figure, given = plot.pyplot.subplots()
    axes = plot.reach(["19 mm", ferrule.Die("16 mm", reach="5 mm")], over=("14 mm", "30 mm"), targets=["23.51 mm"], axes=given)
    assert axes is given
    bars = [(bar.get_x(), bar.get_width()) for bar in axes.patches if hasattr(bar, "get_width")]
    assert bars == pytest.approx([(16, 5), (19, 7)])
    assert [t.get_text() for t in axes.get_yticklabels()] == ["16.0 mm", "19.0 mm"]
    assert plot.reach(["16 mm"]).get_xlim() == pytest.approx((16, 23)) and plot.reach([]).get_xlim() == pytest.approx((10, 60))


def test_a_bad_range_is_refused(plot):
    with pytest.raises(ferrule.CompressionError):
        plot.compression(JOINT, allowed=("25 %", "15 %"))


# ---- without them ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("code, reported", [
    ("from ferrule import plot", "ferrule.plot needs matplotlib: install ferrule[plot]"),
    ("ferrule.bulk", "ferrule.bulk needs NumPy: install ferrule[bulk]"),
    ("ferrule.mm(3).to_pint()", "to_pint needs pint: install ferrule[units]")])
def test_what_is_missing_is_named(code, reported):
    block = "import sys; sys.modules.update(dict.fromkeys(('numpy', 'matplotlib', 'matplotlib.pyplot', 'pint', 'pandas'))); import ferrule; "
    result = subprocess.run([sys.executable, "-c", block + code], capture_output=True, text=True, check=False,
                            env={**os.environ, "PYTHONPATH": PACKAGE_PATH})
    assert result.returncode == 1 and result.stderr.splitlines()[-1].startswith("ImportError: " + reported), result.stderr


def test_notebook_and_command_need_none_of_them():
    block = ("import sys; sys.modules.update(dict.fromkeys(('numpy', 'matplotlib', 'pint', 'pandas'))); import ferrule; "
             "from ferrule import drawing; ferrule.Joint(('12.7 mm', '19.9 mm'), '12.95 mm', '2.4 mm')._repr_html_(); "
             "from ferrule.__main__ import main; sys.exit(main(['about']))")
    result = subprocess.run([sys.executable, "-c", block], capture_output=True, text=True, check=False,
                            env={**os.environ, "PYTHONPATH": PACKAGE_PATH})
    assert result.returncode == 0 and result.stderr == ""


def test_quantities_of_pint_leave_nothing():
    import gc
    right, wrong = 20 * UNITS.mm, 3 * UNITS.bar

    def work(times):
        for _ in range(times):
            Length(right), Length(right).to_pint(UNITS)
            for bad in (lambda: Length(wrong), lambda: ferrule.choose_die([right, wrong], "30 mm"), lambda: Length(UNITS)):
                try:
                    bad()
                except TypeError:
                    continue
                raise AssertionError("no error")
        gc.collect()
        return sys.getallocatedblocks()
    work(300)
    counts = [work(1000) for _ in range(4)]
    assert min(after - before for before, after in zip(counts, counts[1:])) < 200  # others may make caches meanwhile, not each time
