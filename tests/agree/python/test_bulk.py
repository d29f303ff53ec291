# SPDX-License-Identifier: MIT
"""ferrule.bulk against the calls in the singular, bit by bit, and what NumPy, pandas, pint and dask expect of it."""
import concurrent.futures
import inspect
import os
import pickle
import subprocess
import sys
import threading

import numpy as np
import pytest

import ferrule
from conftest import PACKAGE_PATH
from ferrule import bulk

JOINT = ["hose_inside_mm", "hose_outside_mm", "stem_outside_mm", "ferrule_wall_mm", "ferrule_outside_mm"]
BAD = [0.0, -1.0, np.nan, np.inf, -np.inf, 1e7, 5e-324, 19.9, 1e300]


def not_measured(function):
    """Columns in which NaN is 0: what may be left out, and what is needed and cannot be 0."""
    return {c.name for c in function.inputs if c.zero_is_blank}


def joints(random, count):
    """Columns of joints about the worked one, an eighth of them with a number that a check has to catch."""
    columns = dict(zip(JOINT, (low + (high - low) * random.random(count) for low, high in
                               [(12, 13.5), (19, 21), (11.5, 14), (1, 3), (23, 29)])))
    spoil(random, columns)
    return columns


def spoil(random, columns):
    for column in columns.values():
        rows = random.random(len(column)) < 0.125 / len(columns)
        column[rows] = random.choice(BAD, rows.sum())


def joint_of(row):
    mm = {name: ferrule.mm(row[name]) for name in JOINT}
    return ferrule.Joint(hose=(mm["hose_inside_mm"], mm["hose_outside_mm"]), stem=mm["stem_outside_mm"],
                         ferrule=ferrule.Ferrule(mm["ferrule_wall_mm"], mm["ferrule_outside_mm"]))


def columns_for(name, random, count):
    """Columns of a function, and the call in the singular for a row of them."""
    mm, fraction = ferrule.mm, ferrule.fraction
    c = joints(random, count)
    more = {"compression_fraction": random.uniform(-0.05, 0.6, count)}
    diameter = c["stem_outside_mm"] + 2 * c["ferrule_wall_mm"] + random.uniform(3, 8, count)
    call = None
    if name == "crimp_diameter":
        call = lambda r: ferrule.crimp_diameter(joint_of(r), fraction(r["compression_fraction"]), r["model"])
    elif name == "compression":
        more = {"diameter_mm": diameter}
        call = lambda r: ferrule.compression(joint_of(r), mm(r["diameter_mm"]), r["model"])
    elif name == "crimp_window":
        more = {"lower_fraction": random.uniform(0.05, 0.25, count), "upper_fraction": random.uniform(0.2, 0.4, count)}
        call = lambda r: ferrule.crimp_window(joint_of(r), (fraction(r["lower_fraction"]), fraction(r["upper_fraction"])), r["model"])
    elif name == "crimped_wall":
        more = {"diameter_mm": diameter}
        call = lambda r: ferrule.crimped_wall(joint_of(r), mm(r["diameter_mm"]), r["model"])
    elif name == "conforming_share":
        more = {"diameter_mm": diameter, "lower_fraction": np.full(count, 0.1), "upper_fraction": np.full(count, 0.3),
                "hose_outside_amount_mm": random.uniform(0, 0.2, count), "stem_outside_amount_mm": random.uniform(0, 0.05, count)}
        call = lambda r: ferrule.conforming_share(
            joint_of(r), ferrule.Uncertainties(hose_outside=mm(r["hose_outside_amount_mm"]), stem_outside=mm(r["stem_outside_amount_mm"])),
            (fraction(r["lower_fraction"]), fraction(r["upper_fraction"])), mm(r["diameter_mm"]))
    elif name == "lobe_height":
        c, more = {}, {"diameter_mm": diameter, "die_size_mm": diameter - random.uniform(-0.5, 7, count),
                       "segments": random.integers(1, 70, count)}
        call = lambda r: ferrule.lobe_height(mm(r["diameter_mm"]), mm(r["die_size_mm"]), int(r["segments"]))
    elif name == "dial_setting":
        c, more = {}, {"target_mm": diameter, "die_size_mm": diameter - random.uniform(-0.5, 7, count),
                       "press_graduation_mm": random.choice([0, 0.05, 0.1, 20], count)}
        call = lambda r: ferrule.dial_setting(ferrule.Press(graduation=mm(r["press_graduation_mm"])), mm(r["die_size_mm"]),
                                              mm(r["target_mm"]))
    elif name == "judge":
        c, more = {}, {"value_mm": diameter, "standard_uncertainty_mm": random.uniform(0, 0.2, count),
                       "limits_lower_mm": np.full(count, 21.0), "limits_upper_mm": np.full(count, 23.0)}
        call = lambda r: ferrule.judge(mm(r["value_mm"]), mm(r["standard_uncertainty_mm"]),
                                       (mm(r["limits_lower_mm"]), mm(r["limits_upper_mm"])))
    elif name == "form_ferrule":
        c = {name: c[name] for name in ("ferrule_wall_mm", "ferrule_outside_mm")}
        more = {"diameter_mm": diameter, "material_yield_strength_mpa": random.uniform(200, 400, count),
                "material_elastic_modulus_mpa": np.full(count, 205000.0), "material_poisson_fraction": np.full(count, 0.29)}
        call = lambda r: ferrule.form_ferrule(
            ferrule.Ferrule(mm(r["ferrule_wall_mm"]), mm(r["ferrule_outside_mm"])), mm(r["diameter_mm"]),
            ferrule.Material(ferrule.mpa(r["material_elastic_modulus_mpa"]), fraction(r["material_poisson_fraction"]),
                             ferrule.mpa(r["material_yield_strength_mpa"])))
    spoil(random, {k: v for k, v in more.items() if v.dtype == float})
    return {**c, **more}, call


def numbers(value):
    """All numbers of a result in the singular, in the order of the columns."""
    if isinstance(value, (bool, int, float)):
        return [float(value)]
    if hasattr(value, "__match_args__"):
        return [n for name in value.__match_args__ for n in numbers(getattr(value, name))]
    return [getattr(value, {"Length": "mm", "Ratio": "fraction", "Pressure": "mpa"}[type(value).__name__])]


MODELS = [(basis, flow) for basis in ("wall", "fitted_wall", "area", "soft_wall") for flow in ("none", "ends_fixed", "ends_free")]
CASES = [(name, *model) for name in ("crimp_diameter", "compression", "crimp_window") for model in MODELS]
CASES += [("crimped_wall", None, flow) for flow in ("none", "ends_fixed", "ends_free")]
CASES += [(name, None, None) for name in ("conforming_share", "lobe_height", "dial_setting", "judge", "form_ferrule")]


@pytest.mark.parametrize("name, basis, flow", CASES)
def test_rows_have_the_bits_of_single_calls(name, basis, flow):
    random = np.random.default_rng(len(name) + 17 * len(basis or "") + 5 * len(flow or ""))
    count = 300
    columns, call = columns_for(name, random, count)
    model = {k: v for k, v in (("basis", basis), ("flow", flow)) if v}
    function = getattr(bulk, name)
    found, status = function(**columns, **model, errors="mark", status=True)
    arrays = found if isinstance(found, tuple) else (found,)
    failed = 0
    for i in range(count):
        row = {k: 0.0 if k in not_measured(function) and np.isnan(v[i]) else float(v[i]) for k, v in columns.items()}
        row["model"] = ferrule.Model(**model)
        try:
            expected = numbers(call(row))
        except ferrule.Error as error:
            assert status[i] == error.code, (row, error)
            assert all(np.isnan(a[i]) if a.dtype == float else a[i] == 0 for a in arrays)
            failed += 1
            continue
        assert status[i] == 0, row
        assert [float(a[i]).hex() for a in arrays] == [n.hex() for n in expected], row
    assert basis == "soft_wall" and failed == count or 0 < failed < count


def plain(count=50000, seed=3):
    random = np.random.default_rng(seed)
    columns = dict(zip(JOINT[:4], (base * random.uniform(1, 1.01, count) for base in (12.7, 19.9, 12.95, 2.4))))
    return {**columns, "compression_fraction": random.uniform(0.15, 0.25, count)}


@pytest.fixture(scope="module")
def expected():
    return bulk.crimp_diameter(**plain())


def same(a, b):
    return np.array_equal(np.asarray(a).view(np.int64), np.asarray(b).view(np.int64))


def test_formula(expected):
    c = plain()
    formula = c["stem_outside_mm"] + 2 * c["ferrule_wall_mm"] + (c["hose_outside_mm"] - c["hose_inside_mm"]) * (1 - c["compression_fraction"])
    assert np.max(np.abs(expected / formula - 1)) < 5e-16 and len(expected) == 50000


@pytest.mark.parametrize("change", [
    lambda a: np.repeat(a, 3)[::3], lambda a: a[::-1].copy()[::-1], lambda a: a.astype(">f8"),
    lambda a: unaligned(a),
    lambda a: np.lib.stride_tricks.as_strided(a, a.shape, a.strides, writeable=False),
    lambda a: np.rec.fromarrays([a, a + 1, a + 2], names="x,y,z")["x"]])
def test_any_memory(change, expected):
    assert same(bulk.crimp_diameter(**{k: change(v) for k, v in plain().items()}), expected)


def unaligned(a):
    module = np.zeros(a.nbytes + 1, np.uint8)
    moved = module[1:].view(np.float64)
    moved[:] = a
    assert not moved.flags.aligned
    return moved


def test_results_where_they_are_wanted(expected):
    out, status = np.empty((50000, 2))[:, 1], np.empty(100000, np.uint16)[::2]
    assert bulk.crimp_diameter(**plain(), out=out, status=status)[0] is out
    assert same(out.copy(), expected) and not status.any()
    status[:] = 1
    found, given = bulk.crimp_diameter(**plain(), status=status)
    assert given is status and same(found, expected) and not status.any()
    columns = plain()
    assert bulk.crimp_diameter(**columns, out=columns["hose_inside_mm"]) is columns["hose_inside_mm"]
    assert same(columns["hose_inside_mm"], expected)
    half = np.empty(50000, np.float32)
    bulk.crimp_diameter(**plain(), out=half)
    assert np.array_equal(half, expected.astype(np.float32))
    with pytest.raises(TypeError, match="2 arrays"):
        bulk.crimp_window(**{k: plain()[k] for k in JOINT[:4]}, lower_percent=15, upper_percent=25, out=out)


def test_where(expected):
    where = np.arange(50000) % 3 == 0
    found, status = bulk.crimp_diameter(**plain(), where=where, status=True)
    assert same(found[where], expected[where]) and np.isnan(found[~where]).all() and not status.any()
    out = np.full(50000, -1.0)
    bulk.crimp_diameter(**plain(), where=where, out=out)
    assert same(out[where], expected[where]) and (out[~where] == -1).all()
    bad = plain()
    bad["hose_inside_mm"][1] = np.nan
    bulk.crimp_diameter(**bad, where=where)  # the bad row is left out
    decision = bulk.judge(value_mm=[22.0, 30.0], standard_uncertainty_mm=0.01, limits_lower_mm=21, limits_upper_mm=23,
                          where=[True, False]).decision
    assert decision.dtype == np.int64 and decision.tolist() == [ferrule.Decision.ACCEPT, 0]


def test_broadcasting():
    compression = np.linspace(0.15, 0.25, 5)
    grid = bulk.crimp_diameter(hose_inside_mm=np.array([12.6, 12.7, 12.8])[:, None], hose_outside_mm=19.9, stem_outside_mm=12.95,
                               ferrule_wall_mm=2.4, compression_fraction=compression)
    assert grid.shape == (3, 5)
    joint = ferrule.Joint(("12.7 mm", "19.9 mm"), "12.95 mm", "2.4 mm")
    assert grid[1].tolist() == [ferrule.crimp_diameter(joint, ferrule.fraction(c)).mm for c in compression]
    models = bulk.crimp_diameter(hose_inside_mm=12.7, hose_outside_mm=19.9, stem_outside_mm=12.95, ferrule_wall_mm=2.4,
                                 ferrule_outside_mm=25.6, compression_percent=20, basis=["wall", "area"], flow=["none", "ends_free"])
    assert models.shape == (2,) and models[0] == grid[1, 2]
    again = bulk.crimp_diameter(hose_inside_mm=12.7, hose_outside_mm=19.9, stem_outside_mm=12.95, ferrule_wall_mm=2.4,
                                compression_percent=20, basis=["wall", "area"])
    assert again[0] == models[0] != again[1]
    single = bulk.crimp_diameter(hose_inside_mm=12.7, hose_outside_mm=19.9, stem_outside_mm=12.95, ferrule_wall_mm=2.4,
                                 compression_percent=20)
    assert isinstance(single, float) and single == ferrule.crimp_diameter(joint, "20 %").mm
    empty = bulk.crimp_diameter(**{k: v[:0] for k, v in plain().items()})
    assert empty.shape == (0,)


@pytest.mark.parametrize("dtype", [np.float32, np.float16, np.longdouble, np.int64, np.int8, np.uint64])
def test_other_numbers(dtype):
    inside = np.array([12, 13], dtype)
    found = bulk.crimp_diameter(hose_inside_mm=inside, hose_outside_mm=19.9, stem_outside_mm=13.1, ferrule_wall_mm=2.4,
                                compression_percent=20)
    assert found.dtype == np.float64
    assert same(found, bulk.crimp_diameter(hose_inside_mm=[12.0, 13.0], hose_outside_mm=19.9, stem_outside_mm=13.1,
                                           ferrule_wall_mm=2.4, compression_percent=20))


def test_units():
    joint = ferrule.Joint((ferrule.inch(0.503), ferrule.inch(0.79)), ferrule.inch(0.51), "2.4 mm")
    found = bulk.crimp_diameter(hose_inside_inch=[0.503], hose_outside_inch=0.79, stem_outside_inch=0.51,
                                ferrule_wall_mm="2.4 mm", compression_percent=20)
    assert found[0] == ferrule.crimp_diameter(joint, ferrule.percent(20)).mm
    sizes, targets = np.random.default_rng(1).uniform(0.5, 1, 1000), np.random.default_rng(2).uniform(1, 1.2, 1000)
    exact = bulk.dial_setting(die_size_inch=sizes, target_inch=targets).exact_mm
    assert exact.tolist() == [ferrule.dial_setting(ferrule.Press(), ferrule.inch(s), ferrule.inch(t)).exact.mm
                              for s, t in zip(sizes, targets)]
    mixed = bulk.crimp_diameter(hose_inside_mm=ferrule.inch(0.503), hose_outside_inch=0.79, stem_outside_mm="0.51 in",
                                ferrule_wall_mm=2.4, compression_fraction="20 %")
    assert abs(mixed - found[0]) <= np.spacing(found[0])  # a text is rounded once, 0.51 by two roundings


@pytest.mark.parametrize("given, message", [
    ({"hose_inside": 12.7}, r"hose_inside.*unit belongs to the name: hose_inside_mm.*hose_inside_inch"),
    ({"hose_inside_psi": 12.7}, "no column is called 'hose_inside_psi'"),
    ({"nonsense": 1}, "no column is called 'nonsense'"), ({}, "missing hose_inside_mm"),
    ({"hose_inside_mm": 12.7, "hose_inside_inch": 0.5}, "given twice"),
    ({"hose_inside_mm": [12.7 + 0j]}, "complex"), ({"hose_inside_mm": [object()]}, "object"),
    ({"hose_inside_mm": [True]}, "bool"),
    ({"hose_inside_mm": [12.7, object()]}, "numbers, or text with a unit, are needed"),
    ({"hose_inside": [12.7]}, "the unit belongs to the name"),
    ({"hose_inside_mm": np.ma.masked_array([12.7], [True])}, "masked"),
    ({"hose_inside_mm": np.zeros(3, "f8,f8")}, "numbers are needed"), ({"hose_inside_mm": 12.7, "hose_bore": 1}, "no column")])
def test_what_is_refused(given, message):
    rest = {k: 1.0 for k in ("hose_outside_mm", "stem_outside_mm", "ferrule_wall_mm", "compression_fraction")}
    with pytest.raises(TypeError, match=message):
        bulk.crimp_diameter(**rest, **given)
    with pytest.raises(TypeError):
        bulk.crimp_diameter(12.7, 19.9, 12.95, 2.4, 0.2)


def test_errors():
    columns = {k: v[:10] for k, v in plain().items()}
    columns["stem_outside_mm"][[3, 7]] = 50, np.nan
    with pytest.raises(ferrule.StemError, match=r"crimp_diameter: stem outside.*row 3: .*stem_outside_mm=50.*2 rows fail") as caught:
        bulk.crimp_diameter(**columns)
    assert caught.value.row == (3,) and caught.value.code == ferrule.Status.STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE
    found, status = bulk.crimp_diameter(**columns, errors="mark", status=True)
    assert np.flatnonzero(np.isnan(found)).tolist() == [3, 7] and np.flatnonzero(status).tolist() == [3, 7]
    assert ferrule.Status(int(status[7])) == ferrule.Status.STEM_OUTSIDE_MISSING
    assert np.isnan(bulk.crimp_diameter(**columns, errors="mark")).sum() == 2
    with pytest.raises(ValueError, match="'raise' or 'mark'"):
        bulk.crimp_diameter(**columns, errors="ignore")
    for words in ("volume", ["wall", "volume"]):
        with pytest.raises(TypeError, match="basis has to be one of \"WALL\", .*not '(?i:volume)'"):
            bulk.crimp_diameter(**columns, basis=words)
    with np.errstate(all="raise"):
        bulk.crimp_diameter(**columns, errors="mark", flow="ends_free")


def test_status_of_rows_that_are_left_out():
    """An array for the statuses may hold anything before; only the rows of where are looked at."""
    columns = {k: v[:10] for k, v in plain().items()}
    where, status = np.arange(10) % 2 == 0, np.full(10, 99, np.uint16)
    found, given = bulk.crimp_diameter(**columns, where=where, status=status)
    assert given is status and status.tolist() == [0, 99] * 5 and np.isnan(found).tolist() == [False, True] * 5
    columns["stem_outside_mm"][4] = np.nan
    with pytest.raises(ferrule.StemError) as caught:
        bulk.crimp_diameter(**columns, where=where, status=status)
    assert caught.value.row == (4,)


def test_unsigned_whole_numbers():
    segments = np.array([8, 0, 2 ** 64 - 1], np.uint64)
    height, status = bulk.lobe_height(diameter_mm=24.0, die_size_mm=22.0, segments=segments, errors="mark", status=True)
    assert height[0] == ferrule.lobe_height("24 mm", "22 mm", 8).mm
    assert status.tolist() == [0] + [ferrule.Status.SEGMENTS_OUT_OF_RANGE] * 2


def test_numbers_too_large_in_their_unit_are_reported_by_the_status():
    with np.errstate(all="raise"):
        found, status = bulk.dial_setting(die_size_inch=[0.8, 1e308], target_inch=1.0, errors="mark", status=True)
    assert status[0] == 0 != status[1] and np.isnan(found.exact_mm[1])


def test_a_list_of_nothing_is_the_same_as_in_the_singular():
    with pytest.raises(ferrule.Error) as single:
        ferrule.fit_lobes([], ferrule.Gauge())
    with pytest.raises(ferrule.Error) as rows:
        bulk.fit_lobes(reading_diameter_mm=[])
    assert rows.value.code == single.value.code


def test_choice_out_of_a_rack():
    target = np.array([15.0, 16.0, 20.0, 23.0, 26.5, np.nan])
    rack = [ferrule.Die("16 mm"), ferrule.Die("19 mm"), ferrule.Die("19 mm", adapter=1), ferrule.Die("40 mm")]
    found, status = bulk.choose_die(target_mm=target, die_size_mm=[16, 19, 19, 40], die_adapter=[0, 0, 1, 0],
                                    needs_adapter_mounted=[[0], [1]], errors="mark", status=True)
    assert found.index.shape == (2, 6)
    for k in range(2):
        for i, t in enumerate(target[:-1]):
            expected = ferrule.choose_die(rack, ferrule.mm(t), ferrule.DieNeeds(adapter_mounted=k))
            assert (found.found[k, i], found.index[k, i]) == (expected.found, expected.index)
            assert found.offset_mm[k, i] == expected.offset.mm and found.buy_lower_mm[k, i] == expected.buy.lower.mm
    assert status[:, -1].tolist() == [ferrule.Status.TARGET_MISSING] * 2
    assert bulk.choose_die(target_mm=target[:3], die_size_mm=[]).index.tolist() == [0, 0, 0]


# ---- other kinds of arrays --------------------------------------------------------------------------------------


@pytest.mark.more
def test_pandas(expected):
    pandas = pytest.importorskip("pandas")
    frame = pandas.DataFrame(plain(), index=np.arange(50000) * 2)
    found, status = bulk.crimp_diameter(**{k: frame[k] for k in frame}, status=True)
    assert isinstance(found, pandas.Series) and found.index.equals(frame.index) and same(found.to_numpy(), expected)
    assert isinstance(status, pandas.Series) and status.dtype == np.uint16
    window = bulk.crimp_window(**{k: frame[k] for k in JOINT[:4]}, lower_percent=15, upper_percent=25)
    assert isinstance(window.lower_mm, pandas.Series) and (window.lower_mm < window.upper_mm).all()
    other = frame["hose_inside_mm"].sort_index(ascending=False)
    with pytest.raises(ValueError, match="same index"):
        bulk.crimp_diameter(**{k: frame[k] for k in frame if k != "hose_inside_mm"}, hose_inside_mm=other)


@pytest.mark.more
def test_pint(expected):
    registry = pytest.importorskip("pint").UnitRegistry()
    columns = plain()
    inches = {"hose_inside_mm": registry.Quantity(columns.pop("hose_inside_mm") / 25.4, "inch"),
              "compression_fraction": registry.Quantity(columns.pop("compression_fraction") * 1000, "mm/m")}
    found = bulk.crimp_diameter(**columns, **inches)
    assert found.units == registry.mm and np.max(np.abs(found.magnitude / expected - 1)) < 1e-15
    with pytest.raises(Exception, match="[Cc]annot convert"):
        bulk.crimp_diameter(**columns, **{**inches, "hose_inside_mm": registry.Quantity(1.0, "kg")})
    window = bulk.crimp_window(**columns, hose_inside_mm=inches["hose_inside_mm"], lower_percent=15,
                               upper_percent=25, status=True)
    assert window[0].lower_mm.units == registry.mm and window[1].dtype == np.uint16


def dask_columns():
    dask_array = pytest.importorskip("dask.array")
    return {k: dask_array.from_array(v, chunks=7000) for k, v in plain().items()}


@pytest.mark.more
@pytest.mark.parametrize("scheduler", ["synchronous", "threads", "processes"])
def test_dask(scheduler, expected):
    import dask

    found, status = bulk.crimp_diameter(**dask_columns(), status=True)
    assert isinstance(found, dask.array.Array) and found.dtype == float and status.dtype == np.uint16 and found.npartitions == 8
    path = os.pathsep.join([PACKAGE_PATH, os.environ.get("PYTHONPATH", "")])
    os.environ["PYTHONPATH"], before = path, os.environ.get("PYTHONPATH")
    try:
        computed, marks = dask.compute(found, status, scheduler=scheduler, num_workers=2)
    finally:
        os.environ.pop("PYTHONPATH") if before is None else os.environ.update(PYTHONPATH=before)
    assert same(computed, expected) and not marks.any()


@pytest.mark.more
def test_dask_raises_when_it_computes():
    columns = dask_columns()
    columns["hose_inside_mm"] = columns["hose_inside_mm"] * 2
    found = bulk.crimp_diameter(**columns)
    with pytest.raises(ferrule.Error):
        found.compute(scheduler="synchronous")
    marked = bulk.crimp_diameter(**columns, errors="mark", ferrule_outside_mm=26.0, flow="ends_free")
    assert np.isnan(marked.compute()).all()
    index = bulk.choose_die(target_mm=dask_columns()["stem_outside_mm"] + 10, die_size_mm=[16, 19]).index
    assert set(np.unique(index.compute())) == {1}
    with pytest.raises(TypeError, match="neither out"):
        bulk.crimp_diameter(**columns, out=np.empty(50000))


LARGER_THAN_MEMORY = """
import resource
import dask, dask.array as da
from ferrule import bulk
rows, chunk = 30_000_000, 500_000  # five columns of 240 MB
source = da.random.RandomState(1)
column = lambda base: base * source.uniform(1, 1.01, rows, chunks=chunk)
diameter, status = bulk.crimp_diameter(hose_inside_mm=column(12.7), hose_outside_mm=column(19.9), stem_outside_mm=column(12.95),
                                       ferrule_wall_mm=column(2.4), compression_percent=20, errors="mark", status=True)
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
lowest, highest, failed = dask.compute(diameter.min(), diameter.max(), (status != 0).sum(), num_workers=2)
grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before
assert 23.3 < lowest < 23.5 < highest < 24.2 and failed == 0, (lowest, highest, failed)
print(grown // 1024)
"""


@pytest.mark.more
def test_more_rows_than_memory_takes():
    """Memory grows by some chunks, not by the 1.2 GB of the columns."""
    pytest.importorskip("dask.array")
    run = subprocess.run([sys.executable, "-c", LARGER_THAN_MEMORY], capture_output=True, text=True, timeout=300,
                         env={**os.environ, "PYTHONPATH": PACKAGE_PATH}, check=False)
    assert run.returncode == 0, run.stderr
    assert int(run.stdout) < 400


# ---- threads, and what belongs to a Python package ---------------------------------------------------------------


def test_threads(expected):
    columns = plain()
    out, status = np.empty(50000), np.empty(50000, np.uint16)
    blocks = [slice(i, i + 3001) for i in range(0, 50000, 3001)]
    work = lambda rows: bulk.crimp_diameter(**{k: v[rows] for k, v in columns.items()}, out=out[rows], status=status[rows])
    with concurrent.futures.ThreadPoolExecutor(4) as pool:
        list(pool.map(work, blocks))
    assert same(out, expected) and not status.any()


def test_the_lock_of_the_interpreter_is_let_go():
    """While a thread computes, this one goes on, although the interpreter would not take its turn away for an hour."""
    rows = 500000
    columns = {**{k: np.resize(v, rows) for k, v in plain().items()}, "basis": "area"}
    done, overlapped, interval = [], False, sys.getswitchinterval()
    sys.setswitchinterval(3600)
    try:
        for _ in range(5):
            del done[:]
            thread = threading.Thread(target=lambda: done.append(bulk.crimp_diameter(**columns)))
            thread.start()
            overlapped = overlapped or not done
            thread.join()
    finally:
        sys.setswitchinterval(interval)
    assert overlapped


def test_numpy_is_imported_when_it_is_used():
    script = "import sys, ferrule; assert 'numpy' not in sys.modules; ferrule.bulk; assert 'numpy' in sys.modules"
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False,
                         env={**os.environ, "PYTHONPATH": PACKAGE_PATH})
    assert run.returncode == 0, run.stderr
    with pytest.raises(AttributeError, match="nonsense"):
        ferrule.nonsense


def test_functions_can_be_looked_at():
    assert {"crimp_diameter", "compression", "crimp_window", "lobe_height", "choose_die", "dial_setting", "conforming_share", "judge",
            "form_ferrule"} <= set(bulk.names)
    for name in bulk.names:
        function = getattr(bulk, name)
        assert pickle.loads(pickle.dumps(function)) is function and name in repr(function)
        assert function.ufunc.nin == len(function.inputs) and function.ufunc.nout == len(function.results) + 1
        assert isinstance(function.ufunc, np.ufunc) and "Columns:" in function.__doc__
        assert hasattr(ferrule, name)
    signature = inspect.signature(bulk.crimp_diameter)
    assert list(signature.parameters)[:3] == ["table", "hose_inside_mm", "hose_outside_mm"]
    assert all(p.kind == p.KEYWORD_ONLY for p in [*signature.parameters.values()][1:])


# ---- what was not measured -----------------------------------------------------------------------------------------

WORKED = {"hose_inside_mm": 12.7, "hose_outside_mm": 19.9, "stem_outside_mm": 12.95, "ferrule_wall_mm": 2.4, "compression_percent": 20}


@pytest.mark.parametrize("blank", [np.array([25.6, np.nan, 25.6, np.nan]), [25.6, None, 25.6, None], [25.6, np.nan, 25.6, None]])
def test_a_blank_of_what_may_be_left_out_was_not_measured(blank):
    given = bulk.crimp_diameter(**WORKED, ferrule_outside_mm=[25.6, 0, 25.6, 0])
    assert same(bulk.crimp_diameter(**WORKED, ferrule_outside_mm=blank), given)
    found, status = bulk.crimp_diameter(**WORKED, ferrule_outside_mm=blank, flow="ends_free", errors="mark", status=True)
    needed = int(ferrule.Status.FERRULE_OUTSIDE_MISSING)
    assert status.tolist() == [0, needed, 0, needed] and np.isnan(found).tolist() == [False, True, False, True]


def test_blanks_in_a_frame():
    pandas = pytest.importorskip("pandas")
    frame = pandas.DataFrame({**WORKED, "ferrule_outside_inch": pandas.array([1.0, None, pandas.NA], dtype="Float64"),
                              "flow": ["ends_free", None, pandas.NA], "stem_bore_mm": [None, 9.0, float("nan")]})
    expected = bulk.crimp_diameter(**WORKED, ferrule_outside_inch=[1.0, 0, 0], flow=["ends_free", "none", "none"])
    assert same(bulk.crimp_diameter(frame).to_numpy(), expected)
    frame["hose_outside_mm"] = [19.9, None, 19.9]
    assert np.isnan(bulk.crimp_diameter(frame, errors="mark")).tolist() == [False, True, False]
    with pytest.raises(ferrule.HoseError, match="hose outside diameter is not given"):
        bulk.crimp_diameter(frame)


def test_whole_numbers_with_blanks():
    found = bulk.choose_die(target_mm=[23.5], die_size_mm=[22.0, 16.0, 22.0], die_adapter=[2, 1, None], needs_adapter_mounted=[np.nan])
    assert (found.found[0], found.index[0], found.adapter_change[0]) == (1, 2, 0)
    with pytest.raises(TypeError):
        bulk.choose_die(target_mm=[23.5], die_size_mm=[22.0], die_adapter=[1.5])


@pytest.mark.parametrize("column", ["hose_inside_amount_mm", "stem_outside_amount_mm"])
def test_an_uncertainty_that_is_blank_is_not_taken_as_exact(column):
    joint = {name: value for name, value in WORKED.items() if name != "compression_percent"}
    amounts = {"hose_inside_amount_mm": 0.05, "stem_outside_amount_mm": 0.05, column: [0.05, np.nan, None]}
    _, status = bulk.conforming_share(**joint, **amounts, diameter_mm=23.5, lower_percent=15, upper_percent=25, errors="mark", status=True)
    wrong = int(ferrule.Status.UNCERTAINTY_AMOUNT_OUT_OF_RANGE)
    assert status.tolist() == [0, wrong, wrong]


def test_what_is_needed_and_blank_is_an_error():
    for column in ("hose_inside_mm", "ferrule_wall_mm", "compression_percent"):
        with pytest.raises(ferrule.Error):
            bulk.crimp_diameter(**{**WORKED, column: [WORKED[column], None]})
        with pytest.raises(ferrule.Error):
            bulk.crimp_diameter(**{**WORKED, column: None})
    assert bulk.crimp_diameter(**WORKED, ferrule_outside_mm=None, flow=None) == bulk.crimp_diameter(**WORKED)


def test_blanks_of_many_rows_are_those_of_few():
    """Many rows are looked through for blanks only where one fails: the same results and statuses as of a few at a time."""
    rows, part = 70_000, 1000
    random = np.random.default_rng(7)
    columns = {"hose_inside_mm": random.uniform(12.6, 12.8, rows), "hose_outside_mm": random.uniform(19.8, 20, rows),
               "stem_outside_mm": random.uniform(12.8, 13, rows), "ferrule_wall_mm": random.uniform(2.3, 2.5, rows),
               "ferrule_outside_inch": random.uniform(1.02, 1.04, rows), "compression_percent": random.uniform(15, 25, rows)}

    def in_parts(given):
        each = [bulk.crimp_diameter(**{name: column[i:i + part] for name, column in given.items()}, errors="mark", status=True)
                for i in range(0, rows, part)]
        return [np.concatenate(them) for them in zip(*each)]

    for blank in (None, "ferrule_outside_inch", "ferrule_wall_mm", "compression_percent"):
        given = {name: column.copy() for name, column in columns.items()}
        if blank:
            given[blank][::97] = np.nan
        expected, marks = in_parts(given)
        found, statuses = bulk.crimp_diameter(**given, errors="mark", status=True)
        np.testing.assert_array_equal(found.view(np.int64), expected.view(np.int64))
        np.testing.assert_array_equal(statuses, marks)
        assert np.count_nonzero(marks) == (rows // 97 + 1 if blank in ("ferrule_wall_mm", "compression_percent") else 0)
        place = given["hose_inside_mm"]  # where the results go
        found = bulk.crimp_diameter(**given, out=place, errors="mark")
        np.testing.assert_array_equal(found.view(np.int64), expected.view(np.int64))
    columns["ferrule_wall_mm"][5] = np.nan
    with pytest.raises(ferrule.FerruleError) as caught:
        bulk.crimp_diameter(**columns)
    assert caught.value.row == (5,) and "not given" in str(caught.value)
