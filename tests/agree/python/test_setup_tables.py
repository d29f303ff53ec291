# SPDX-License-Identifier: MIT
"""Tables of orders and readings against the single calls, row by row and bit by bit; blanks, text, frames, and one bad row among many."""
import itertools
import math
import struct

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

import ferrule
from ferrule import _setups, bulk

# Invented, as all orders here.
JOINT = {"hose_inside_mm": 12.7, "hose_outside_mm": 19.9, "stem_outside_mm": 12.95, "ferrule_wall_mm": 2.4}
PRESS = ferrule.Press(graduation="0.05 mm", opening="20 mm", capacity="1500 kN")
DIES = ["16 mm", "19 mm", ferrule.Die("22 mm", length="40 mm"), {"size": "23 mm", "adapter": 1}]
PLACE = {"press": PRESS, "dies": DIES}


def bits(number):
    return struct.pack("d", float(number))


# ---- the single call on a row -------------------------------------------------------------------------------------------


def quantity(member, number):
    if member.column.enum:
        return getattr(ferrule, member.column.enum)(number)
    return getattr(ferrule, member.column.quantity)(**{member.column.unit: number}) if member.column.quantity else number


def order_of(row):
    """An Order of the numbers of a row, by the ways to them; what is blank in an optional column is left out."""
    tree = {}
    for member in _setups.ORDER.columns:
        number = row.get(member.name)
        if number is not None:
            *path, last = member.field.split(".")
            here = tree
            for part in path:
                here = here.setdefault(part, {})
            here[last] = quantity(member, number)
    tree.setdefault("joint", {})
    return made(ferrule.Order, tree)


TYPES = {"joint": "Joint", "hose": "Hose", "stem": "Stem", "ferrule": "Ferrule", "range": "RatioRange", "model": "Model",
         "uncertainties": "Uncertainties", "ferrule_metal": "Material", "stem_metal": "Material", "load": "FormingLoad", "gauge": "Gauge",
         "guard": "Guard", "hose_inside": "Uncertainty", "hose_outside": "Uncertainty", "stem_outside": "Uncertainty",
         "ferrule_wall": "Uncertainty", "ferrule_outside": "Uncertainty", "diameter": "Uncertainty"}
ZERO = {"Hose": {"inside": ferrule.mm(0), "outside": ferrule.mm(0)}, "Stem": {"outside": ferrule.mm(0)}, "Ferrule": {"wall": ferrule.mm(0)},
        "Joint": {"hose": None, "stem": None, "ferrule": None}, "Uncertainty": {"amount": ferrule.mm(0)},
        "Material": {"elastic_modulus": ferrule.mpa(0), "poisson": ferrule.fraction(0), "yield_strength": ferrule.mpa(0)},
        "RatioRange": {"lower": ferrule.fraction(0), "upper": ferrule.fraction(0)}}


def made(type_, tree):
    """An object of what is given of it, and 0 for what it needs besides."""
    given = {name: made(getattr(ferrule, TYPES[name]), part) if isinstance(part, dict) else part for name, part in tree.items()}
    for name, zero in ZERO.get(type_.__name__, {}).items():
        given.setdefault(name, made(getattr(ferrule, TYPES[name]), {}) if zero is None else zero)
    return type_(**given)


def numbers_of(struct_, value):
    """The numbers of a result in the singular by the names of the columns: NaN and 0 where a figure was not found."""
    found = {}
    for member in struct_.columns:
        here = value
        for part in member.path.split("."):
            here = None if here is None else getattr(here, part)
        if isinstance(here, tuple):
            here = sum(1 << int(word) for word in here)
        found[member.name] = here
    return found


def check_row(struct_, table, i, value):
    for name, number in numbers_of(struct_, value).items():
        found = getattr(table, name)[i]
        if number is None:
            assert math.isnan(found) if found.dtype.kind == "f" else found == 0, name
        else:
            assert bits(found) == bits(number) if found.dtype.kind == "f" else int(found) == int(number), (name, found, number)


def check_table(setups, rows, call):
    """Each row of a table is what the single call says of it: its figures, or its status and the path of the first fault."""
    for i, row in enumerate(rows):
        try:
            check_row(_setups.SETUP, setups, i, call(row))
            assert (setups.status[i], setups.path[i]) == (0, None)
        except ferrule.Error as error:
            assert setups.status[i] == error.code and setups.path[i] == error.path, (setups.path[i], error, error.path)
            assert math.isnan(setups.target_mm[i]) and math.isnan(setups.dial_setting_mm[i]) and setups.readiness[i] == 0


# ---- random orders ---------------------------------------------------------------------------------------------------------

LENGTHS = {"hose_inside_mm": (12, 13.5), "hose_outside_mm": (19, 21), "stem_outside_mm": (11.5, 14), "ferrule_wall_mm": (1, 3)}
MORE = {"ferrule_outside_mm": (24, 29), "ferrule_length_mm": (20, 40), "stem_bore_mm": (8, 11), "published_mm": (22, 25),
        "tolerance_mm": (0.05, 0.4), "widest_mm": (20, 40), "insertion_mm": (20, 40), "hose_outside_amount_mm": (0, 0.2),
        "diameter_amount_mm": (0, 0.1), "gauge_standard_uncertainty_mm": (0, 0.02), "gauge_resolution_mm": (0, 0.02),
        "load_restraint_fraction": (0, 1), "load_hose_pressure_mpa": (0, 30), "minimum_bore_mm": (8, 10), "guard_factor": (0, 3),
        "lobe_maximum_mm": (0.01, 0.2), "skive_outside_mm": (10, 30)}
WORDS = {"basis": 4, "flow": 3, "approval": 3, "applies_to": 4, "guard_side": 3, "adapter_mounted": 3, "diameter_distribution": 3}
METAL = {"elastic_modulus_mpa": 210000.0, "poisson_fraction": 0.3, "yield_strength_mpa": 250.0, "hardening_mpa": 500.0}
HOSTILE = [0.0, -1.0, math.inf, -math.inf, 1e7, 5e-324, 19.9, 1e300, 0.001, 1e6]

number = lambda low, high: st.one_of(st.floats(low, high), st.floats(low, high), st.floats(low, high), st.sampled_from(HOSTILE))


@st.composite
def orders(draw):
    row = {name: draw(number(*between)) for name, between in LENGTHS.items()}
    for name, between in MORE.items():
        if draw(st.booleans()):
            row[name] = draw(number(*between))
    for name, words in WORDS.items():
        if draw(st.integers(0, 3)) == 0:
            row[name] = draw(st.integers(0, words - 1))
    for metal in ("ferrule_metal_", "stem_metal_"):
        if draw(st.integers(0, 3)) == 0:
            row.update({metal + name: value for name, value in METAL.items()})
    if draw(st.integers(0, 3)) == 0:
        row.update(lower_fraction=draw(st.floats(0, 0.2)), upper_fraction=draw(st.floats(0.15, 0.4)))
    return row


@given(st.lists(orders(), min_size=1, max_size=12))
@settings(max_examples=60)
def test_each_row_is_the_single_call(rows):
    names = sorted(set(itertools.chain(*rows)))
    whole = {m.name for m in _setups.ORDER.columns if m.kind != "f8"}
    columns = {name: [row.get(name, 0 if name in whole else 0.0) for row in rows] for name in names}
    check_table(bulk.plan_setup(**columns, **PLACE), rows, lambda row: ferrule.plan_setup(order_of(row), PRESS, DIES))


def worked(count=2500, seed=5):
    random = np.random.default_rng(seed)
    columns = {name: random.uniform(*between, count) for name, between in LENGTHS.items()}
    columns.update(published_mm=random.uniform(22.5, 24.5, count), tolerance_mm=np.full(count, 0.2),
                   approval=random.integers(0, 3, count))
    return columns


def test_more_rows_than_a_block_in_any_memory():
    columns = worked()
    expected = bulk.plan_setup(**columns, **PLACE)
    rows = [dict(zip(columns, row)) for row in zip(*columns.values())]
    for i in range(0, len(rows), 37):
        check_row(_setups.SETUP, expected, i, ferrule.plan_setup(order_of({**rows[i], "approval": int(rows[i]["approval"])}), PRESS, DIES))
    shapes = {"strided": lambda a: np.repeat(a, 3)[::3], "backwards": lambda a: a[::-1].copy()[::-1],
              "big-endian": lambda a: a.astype(a.dtype.newbyteorder(">")), "list": list, "Fortran": lambda a: np.stack([a, a], 1)[:, 0]}
    for name, change in shapes.items():
        found = bulk.plan_setup(**{k: change(v) for k, v in columns.items()}, **PLACE)
        for column in found._fields:
            if column != "path":
                assert getattr(found, column).tobytes() == getattr(expected, column).tobytes(), (name, column)


# ---- blanks -----------------------------------------------------------------------------------------------------------------

BLANKS = [np.nan, None]


@pytest.mark.parametrize("blank", BLANKS)
@pytest.mark.parametrize("name", ["ferrule_outside_mm", "ferrule_length_mm", "published_mm", "tolerance_mm", "insertion_mm", "widest_mm",
                                  "gauge_standard_uncertainty_mm", "load_hose_pressure_mpa", "lower_fraction"])
def test_what_may_be_left_out_and_is_blank_was_not_measured(name, blank):
    without = bulk.plan_setup(**JOINT, approval="approved", **PLACE)
    found = bulk.plan_setup(**JOINT, approval="approved", **{name: [blank, blank]}, **PLACE)
    for column in without._fields:
        if column != "path":
            assert bits_of(getattr(found, column)) == 2 * bits_of(getattr(without, column)), column


def bits_of(array):
    return array.tobytes()


@pytest.mark.parametrize("blank", [*BLANKS, ""])
@pytest.mark.parametrize("name, path, status", [
    ("hose_inside_mm", "joint.hose.inside", "HOSE_INSIDE_MISSING"), ("hose_outside_mm", "joint.hose.outside", "HOSE_OUTSIDE_MISSING"),
    ("stem_outside_mm", "joint.stem.outside", "STEM_OUTSIDE_MISSING"), ("ferrule_wall_mm", "joint.ferrule.wall", "FERRULE_WALL_MISSING")])
def test_what_is_needed_and_blank_is_missing_in_its_row(name, path, status, blank):
    column = [JOINT[name], blank, JOINT[name]] if blank != "" else [f"{JOINT[name]} mm", blank, f"{JOINT[name]} mm"]
    found = bulk.plan_setup(**{**JOINT, name: column}, **PLACE)
    assert found.status.tolist() == [0, ferrule.Status[status], 0] and found.path.tolist() == [None, path, None]
    assert found.plain_fraction[0] == found.plain_fraction[2]
    with pytest.raises(ferrule.Error) as caught:
        bulk.plan_setup(**{**JOINT, name: column}, **PLACE, errors="raise")
    assert (caught.value.path, caught.value.row, caught.value.name) == (path, (1,), status)


def test_one_uncertainty_that_is_blank_beside_others_is_not_exact():
    found = bulk.plan_setup(**JOINT, hose_outside_amount_mm=[0.1, None, 0.1], stem_outside_amount_mm=[0.02, None, None], **PLACE)
    assert found.status.tolist() == [0, 0, ferrule.Status.UNCERTAINTY_AMOUNT_OUT_OF_RANGE]
    assert found.path.tolist() == [None, None, "uncertainties.stem_outside.amount"]
    assert bulk.has(found.remarks, "UNCERTAINTIES_NOT_GIVEN").tolist() == [False, True, False]


# ---- text, quantities, units --------------------------------------------------------------------------------------------------


def test_text_and_quantities():
    ways = [{"published_mm": ["23.5 mm", "2.36 cm"]}, {"published": ["23.5 mm", "23.6 mm"]}, {"published": ferrule.mm(23.5)},
            {"published_inch": [23.5 / 25.4, 23.6 / 25.4]}, {"published": [ferrule.mm(23.5), "23.6 mm"]}]
    for way in ways:
        found = bulk.plan_setup(**{**JOINT, "hose_inside_mm": ["0.5 in", "12.7 mm"]}, **way, **PLACE)
        assert found.target_mm.round(9).tolist() == ([23.5, 23.5] if isinstance(way.get("published"), ferrule.Length) else [23.5, 23.6])


def test_text_that_cannot_be_read_fails_its_row_alone():
    found = bulk.plan_setup(**{**JOINT, "hose_inside_mm": ["12.7 mm", "12.7", "wide", "12.7 kg", "12.7 mm"]}, **PLACE)
    names = [ferrule.Status(int(n)).name for n in found.status]
    assert names == ["OK", "TEXT_UNIT_MISSING", "TEXT_NUMBER_MISSING", names[3], "OK"] and names[3].startswith("TEXT_UNIT")
    assert found.path.tolist() == [None, *["joint.hose.inside"] * 3, None]
    assert np.isnan(found.target_mm).tolist() == [False, True, True, True, False]
    with pytest.raises(ferrule.Error) as caught:
        bulk.plan_setup(**{**JOINT, "hose_inside_mm": ["12.7 mm", "12.7"]}, **PLACE, errors="raise")
    assert (caught.value.name, caught.value.row) == ("TEXT_UNIT_MISSING", (1,))


def test_words():
    found = bulk.plan_setup(**JOINT, approval=["approved", "not_stated", ferrule.Approval.NOT_APPROVED, None], **PLACE)
    assert bulk.has(found.remarks, "NOT_APPROVED").tolist() == [False, False, True, False]
    assert bulk.has(found.remarks, ferrule.Remark.APPROVAL_NOT_STATED).tolist() == [False, True, False, True]
    assert bulk.words(found.readiness, "Readiness").tolist() == ["AFTER_CONFIRMING", "AFTER_CONFIRMING", "NOT_READY", "AFTER_CONFIRMING"]
    wrong = bulk.plan_setup(**JOINT, approval=["approved", "aproved"], **PLACE)
    assert wrong.status.tolist() == [0, ferrule.Status.APPROVAL_UNKNOWN] and wrong.path.tolist() == [None, "approval"]
    one = ferrule.plan_setup(ferrule.Order(order_of(JOINT).joint, approval="approved"), PRESS, DIES)
    assert bulk.words(found.remarks, ferrule.Remark)[0] == ", ".join(remark.name for remark in one.remarks)


# ---- tables ---------------------------------------------------------------------------------------------------------------------


def frame_of(pandas):
    return pandas.DataFrame({"order": ["a", "b", "c"], "hose_inside_mm": pandas.array([12.7, None, 12.7], dtype="Float64"),
                             "hose_outside": ["19.9 mm", "19.9 mm", None], "stem_outside_mm": np.float32([12.95] * 3),
                             "ferrule_wall_mm": [2.4, 2.4, 2.4], "published_mm": pandas.array([23, pandas.NA, 24], dtype="Int64"),
                             "approval": pandas.Categorical(["approved", None, "approved"])}, index=[7, 3, 5])


def test_frames():
    pandas = pytest.importorskip("pandas")
    frame = frame_of(pandas)
    found = bulk.plan_setup(frame, **PLACE, stem_bore_mm=[9.0, None, pandas.NA])
    assert isinstance(found, pandas.DataFrame) and found.index.tolist() == [7, 3, 5] and len(found.columns) == len(_setups.SETUP.columns) + 2
    assert found.status.tolist() == [0, ferrule.Status.HOSE_INSIDE_MISSING, ferrule.Status.HOSE_OUTSIDE_MISSING]
    assert found.path.tolist() == [None, "joint.hose.inside", "joint.hose.outside"]
    assert found.target_mm[7] == 23.0 and found.target_mm.isna().tolist() == [False, True, True]
    assert found.die_found.dtype == bool and found.remarks.dtype == np.uint64 and found.status.dtype == np.uint16
    few = bulk.plan_setup(frame, **PLACE, results=["readiness", "dial_setting_mm"])
    assert list(few.columns) == ["readiness", "dial_setting_mm", "status", "path"]
    series = bulk.plan_setup(hose_inside_mm=frame.hose_inside_mm, hose_outside_mm=19.9, stem_outside_mm=12.95, ferrule_wall_mm=2.4, **PLACE)
    assert series.index.tolist() == [7, 3, 5]
    with pytest.raises(ValueError, match="index"):
        bulk.plan_setup(frame, ferrule_outside_mm=pandas.Series([26.0] * 3), **PLACE)


def test_functions_that_were_there_take_the_same_tables():
    pandas = pytest.importorskip("pandas")
    frame = frame_of(pandas).drop(columns="approval")
    found, status = bulk.crimp_diameter(frame, compression_percent=["20 %", "20 %", "20 %"], errors="mark", status=True)
    assert status.tolist() == [0, ferrule.Status.HOSE_INSIDE_MISSING, ferrule.Status.HOSE_OUTSIDE_MISSING]
    assert found.iloc[0] == bulk.crimp_diameter(**{**JOINT, "stem_outside_mm": float(np.float32(12.95))}, compression_percent=20)
    with pytest.raises(ferrule.Error) as caught:
        bulk.crimp_diameter(hose_inside=["12.7 mm", "wide"], hose_outside_mm=19.9, stem_outside_mm=12.95, ferrule_wall_mm=2.4,
                            compression_percent=20)
    assert (caught.value.name, caught.value.row) == ("TEXT_NUMBER_MISSING", (1,))
    marked = bulk.crimp_diameter(hose_inside=["12.7 mm", "wide"], hose_outside_mm=19.9, stem_outside_mm=12.95, ferrule_wall_mm=2.4,
                                 compression_percent=20, errors="mark")
    assert np.isnan(marked).tolist() == [False, True]


# ---- workplaces, what is refused ---------------------------------------------------------------------------------------------------


def test_a_workplace_for_each_row():
    places = [(PRESS, DIES), ({"graduation": "0.1 mm"}, ["20 mm"]), (ferrule.Press(), [])]
    which = [1, 0, 2, 7, -1, 1]
    found = bulk.plan_setup(**JOINT, workplaces=places, workplace=which)
    for i, number in enumerate(which):
        if 0 <= number < 3:
            press, dies = places[number]
            check_row(_setups.SETUP, found, i, ferrule.plan_setup(order_of(JOINT), press if number != 1 else ferrule.Press("0.1 mm"), dies))
    assert found.status.tolist() == [0, 0, 0, *[ferrule.Status.WORKPLACE_UNKNOWN] * 2, 0] and found.path[3] is None
    assert bulk.plan_setup({"workplace": which[:2], **JOINT}, workplaces=places).die_size_mm.tolist() == found.die_size_mm[:2].tolist()
    bad = bulk.plan_setup(**JOINT, press=PRESS, dies=["22 mm", {"size": "22 mm", "adapter": -1}])
    assert (bad.status[0], bad.path[0]) == (ferrule.Status.DIE_ADAPTER_OUT_OF_RANGE, "dies[1].adapter")


def test_what_rows_have_in_common():
    correlated = ferrule.Uncertainties(hose_inside="0.05 mm", hose_outside="0.1 mm",
                                       correlations=ferrule.Correlations(hose_inside_hose_outside=ferrule.fraction(0.5)))
    order = ferrule.Order(order_of(JOINT).joint, published="23.5 mm", uncertainties=correlated)
    found = bulk.plan_setup(order=order, hose_outside_mm=[19.9, 20.0], **PLACE)
    for i, outside in enumerate((19.9, 20.0)):
        hose = order.joint.hose.replace(outside=ferrule.mm(outside))
        check_row(_setups.SETUP, found, i, ferrule.plan_setup(order.replace(joint=order.joint.replace(hose=hose)), PRESS, DIES))


@pytest.mark.parametrize("call, error, said", [
    (lambda: bulk.plan_setup(**JOINT), TypeError, "press"),
    (lambda: bulk.plan_setup(**JOINT, **PLACE, workplaces=[(PRESS, DIES)]), TypeError, "press"),
    (lambda: bulk.plan_setup(**JOINT, **PLACE, published=23.5), TypeError, "published_mm"),
    (lambda: bulk.plan_setup(**JOINT, **PLACE, hose=1), TypeError, "hose"),
    (lambda: bulk.plan_setup(**JOINT, **PLACE, hose_inside_inch=0.5), TypeError, "twice"),
    (lambda: bulk.plan_setup(**JOINT, **PLACE, results=["size"]), TypeError, "size"),
    (lambda: bulk.plan_setup(**JOINT, **PLACE, errors="warn"), ValueError, "errors"),
    (lambda: bulk.plan_setup(**{**JOINT, "hose_inside_mm": [1, 2]}, ferrule_outside_mm=[1, 2, 3], **PLACE), ValueError, "lengths"),
    (lambda: bulk.plan_setup(**{**JOINT, "hose_inside_mm": [[1.0]]}, **PLACE), ValueError, "dimensions"),
    (lambda: bulk.plan_setup(**JOINT, adapter_mounted=[1.5], **PLACE), TypeError, "whole"),
    (lambda: bulk.plan_setup(5, **PLACE), TypeError, "table"),
    (lambda: bulk.inspect_crimp({"target_mm": [1.0]}, diameters_mm=[23.5]), TypeError, "source"),
    (lambda: bulk.inspect_crimp(bulk.plan_setup(**JOINT, **PLACE)), TypeError, "diameters_mm"),
    (lambda: bulk.inspect_crimp(bulk.plan_setup(**JOINT, **PLACE), diameters=[23.5]), TypeError, "diameters_mm"),
    (lambda: bulk.inspect_crimp(bulk.plan_setup(**JOINT, **PLACE), diameters_mm=[[1.0], [2.0]]), ValueError, "rows"),
])
def test_what_is_refused(call, error, said):
    with pytest.raises(error, match=said):
        call()


# ---- inspections ---------------------------------------------------------------------------------------------------------------------


def test_inspections_are_the_single_calls():
    random = np.random.default_rng(3)
    columns = {name: values[:60] for name, values in worked().items()}
    columns["hose_inside_mm"][5] = np.nan
    setups = bulk.plan_setup(**columns, **PLACE)
    diameters = random.normal(setups.target_mm[:, None], 0.05, (60, 4))
    diameters[random.random(diameters.shape) < 0.2] = np.nan
    gauge = {"gauge_standard_uncertainty_mm": random.choice([0.005, 0.0, -1.0], 60, p=[0.8, 0.1, 0.1]), "gauge_resolution_mm": 0.01}
    guard, marks = ferrule.Guard(2.0), ferrule.Marks(gap="10 deg", gap_known=True)
    found = bulk.inspect_crimp(setups, diameters_mm=diameters, sections=[0, 0, 1, 1], angles_deg=[0, 90, 0, 90], guard=guard,
                               marks=marks, **gauge)
    decided = set()
    for i in range(60):
        readings = [ferrule.Reading(ferrule.mm(0.0 if math.isnan(d) else d), section, ferrule.deg(angle), True)
                    for d, section, angle in zip(diameters[i], [0, 0, 1, 1], [0, 90, 0, 90])]
        one = ferrule.Gauge(ferrule.mm(gauge["gauge_standard_uncertainty_mm"][i]), ferrule.mm(0), ferrule.mm(0.01))
        try:
            if i == 5:
                assert found.status[i] != 0
                continue
            order = order_of({name: values[i].item() for name, values in columns.items()})
            check_row(_setups.INSPECTION, found, i, ferrule.inspect_crimp(ferrule.plan_setup(order, PRESS, DIES), readings, one, marks, guard))
            decided.add(int(found.decision[i]))
        except ferrule.Error as error:
            assert found.status[i] == error.code and found.decision[i] == 0
    assert found.status[5] == ferrule.Status.SETUP_INCOMPLETE and len(decided) > 1
    with pytest.raises(ferrule.Error):
        bulk.inspect_crimp(setups, diameters_mm=diameters, errors="raise")


def test_inspections_of_a_frame():
    pandas = pytest.importorskip("pandas")
    setups = bulk.plan_setup(pandas.DataFrame(JOINT, index=[4, 2]), published_mm=23.5, tolerance_mm=0.2, **PLACE)
    found = bulk.inspect_crimp(setups, diameters=[["23.5 mm", "23.51 mm"], ["23.9 mm", "wide"]], gauge_standard_uncertainty_mm=0.005,
                               results=["decision", "deviation_mm"])
    assert found.index.tolist() == [4, 2] and list(found.columns) == ["decision", "deviation_mm", "status", "path"]
    assert found.status.tolist() == [0, ferrule.Status.TEXT_NUMBER_MISSING]


def test_zones_have_the_bits_of_single_calls():
    lower, upper, u = np.array([23.3, 23.4, 23.7, np.nan]), 23.7, np.array([0.01, 0.2, 0.0, 0.01])
    found, status = bulk.find_acceptance_zone(limits_lower_mm=lower, limits_upper_mm=upper, standard_uncertainty_mm=u, errors="mark", status=True)
    for i in range(4):
        try:
            zone = ferrule.find_acceptance_zone((ferrule.mm(lower[i]), ferrule.mm(upper)), ferrule.mm(u[i]))
            assert bits(found.accept_lower_mm[i]) == bits(zone.accept.lower.mm) and found.empty[i] == zone.empty and status[i] == 0
        except ferrule.Error as error:
            assert status[i] == error.code and math.isnan(found.accept_lower_mm[i])
