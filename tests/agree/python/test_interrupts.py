# SPDX-License-Identifier: MIT
"""Ctrl-C ends calls that take long: a signal to a process of its own, which then says what it raised."""
import json
import os
import pathlib
import signal
import subprocess
import sys
import time

import ferrule as f
import pytest

ROOT = pathlib.Path(__file__).resolve().parents[3]
BEGINNING = """
import signal, sys, threading, time
signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell in the background has it ignored
import ferrule as f
joint = f.Joint(hose=("12.7 mm", "19.9 mm"), stem="12.95 mm", ferrule=("2.4 mm", "25.6 mm"))
uncertainties = f.Uncertainties(hose_inside="0.08 mm", hose_outside="0.1 mm")
order = f.Order(joint=joint, uncertainties=uncertainties)
question = joint, uncertainties, ("15 %", "25 %"), "23.5 mm"
many = {"blocks": 10 ** 9}  # days
def begin():
    print("begun", flush=True)
"""
CALLS = {
    "simulate_shares": "f.simulate_shares(*question, trials=many)",
    "simulate_compression": "f.simulate_compression(*question, trials=many)",
    "simulate_to_digits": "f.simulate_to_digits(*question, 6, trials=many)",
    "simulate_setups": 'f.simulate_setups(order, {"graduation": "0.05 mm"}, ["16 mm", "22 mm"], many)',
}


def interrupt(program):
    """Seconds that a program went on after the signal, what it printed after "begun", and its errors."""
    process = subprocess.Popen([sys.executable, "-c", BEGINNING + program], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
                               env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)})
    try:
        assert process.stdout.readline() == "begun\n", process.stderr.read()
        time.sleep(0.5)
        assert process.poll() is None, "it was too short to be interrupted"
        process.send_signal(signal.SIGINT)
        begin = time.monotonic()
        out, errors = process.communicate(timeout=60)
        return time.monotonic() - begin, out, errors
    finally:
        process.kill()
        process.wait()


def test_every_call_that_takes_trials_is_tried():
    described = json.loads((ROOT / "bindings" / "api" / "api.json").read_text(encoding="utf-8"))["functions"]
    taking = {row["name"].removeprefix("fer_") for row in described if any(p["type"] == "fer_trials" for p in row["parameters"])}
    assert taking - {"draw_joint"} == set(CALLS)  # that one makes one trial


@pytest.mark.parametrize("name", CALLS)
def test_trials_end_by_a_signal(name):
    seconds, out, errors = interrupt(f"""
begin()
try:
    {CALLS[name]}
except KeyboardInterrupt:
    print("interrupted after", f.simulate_shares(*question).blocks, "block more")
""")
    assert (out, errors) == ("interrupted after 1 block more\n", "")
    assert seconds < 20


def test_a_search_for_racks_ends_by_a_signal():
    """400 offers of many prices with six adapter sets: minutes."""
    seconds, out, errors = interrupt("""
offers = [f.Offer(f.Die(f"{10 + 0.1 * k} mm", reach="5 mm", adapter=k % 7), 50 + k % 9) for k in range(400)]
demands = [f.Demand(f"{12 + 0.2 * k} mm", 1 + k % 5) for k in range(200)]
begin()
try:
    f.find_rack_curve([], demands, offers, [f.AdapterOffer(number, 10) for number in range(1, 7)], f.RackAim(price_maximum=2000))
except KeyboardInterrupt:
    print("interrupted")
""")
    assert (out, errors) == ("interrupted\n", "")
    assert seconds < 20


def test_a_handler_that_does_not_raise_lets_the_call_go_on():
    """The handler counts; the second signal raises."""
    program = """
seen = []
def handler(number, frame):
    seen.append(number)
    if len(seen) == 2:
        raise TimeoutError("enough")
    import os, threading
    threading.Timer(0.2, os.kill, (os.getpid(), number)).start()
signal.signal(signal.SIGINT, handler)
begin()
try:
    f.simulate_shares(*question, trials=many)
except TimeoutError as error:
    print(len(seen), error)
"""
    seconds, out, errors = interrupt(program)
    assert (out, errors) == ("2 enough\n", "") and seconds < 20


def test_other_threads_run_meanwhile():
    program = """
count = 0
def work():
    global count
    while True:
        count += 1
        time.sleep(0.001)
threading.Thread(target=work, daemon=True).start()
begin()
try:
    f.simulate_compression(*question, trials=many)
except KeyboardInterrupt:
    print(count > 5)
"""
    assert interrupt(program)[1:] == ("True\n", "")


def test_blocks_that_are_put_together_are_those_of_one_call():
    question = (f.Joint(hose=("12.7 mm", "19.9 mm"), stem="12.95 mm", ferrule=("2.4 mm", "25.6 mm")),
                f.Uncertainties(hose_inside="0.08 mm"), ("15 %", "25 %"), "23.5 mm")
    whole = f.simulate_compression(*question, trials={"blocks": 5, "seed": 3})
    parts = [f.simulate_compression(*question, trials={"first_block": i, "seed": 3}) for i in range(5)]
    for part in parts[1:]:
        parts[0] = f.merge_tallies(parts[0], part)
    assert parts[0] == whole


BULK = """
import numpy as np
from ferrule import bulk
rows = np.broadcast_to(np.float64(25.6), {shape})  # so many, without their memory
begin()
try:
    bulk.form_ferrule(ferrule_wall_mm=2.4, ferrule_outside_mm=rows, diameter_mm=23.5, material_elastic_modulus_gpa=206,
                      material_poisson_percent=30, material_yield_strength_mpa=280, material_hardening_mpa=1000, load_restraint_percent=50)
except KeyboardInterrupt:
    print("interrupted")
"""


@pytest.mark.parametrize("shape", ["(2 * 10 ** 7,)", "(3, 10 ** 7)", "(10 ** 7, 3)"])
def test_rows_in_bulk_end_by_a_signal(shape):
    pytest.importorskip("numpy")
    seconds, out, errors = interrupt(BULK.format(shape=shape))
    assert (out, errors) == ("interrupted\n", "") and seconds < 20


@pytest.mark.parametrize("rows", [1, 7, 100])
def test_rows_by_blocks_have_the_bits_of_one_call(monkeypatch, rows):
    np = pytest.importorskip("numpy")
    from ferrule import _columns, bulk

    dice = np.random.default_rng(5)
    inside, outside = dice.uniform(12, 13.5, (41, 1, 3)), dice.uniform(18, 21, (5, 1))
    ways = [dict(), dict(where=dice.random((41, 5, 3)) < 0.5, status=True), dict(out=np.full((41, 5, 3), -1.0)),
            dict(out=np.full((2, 41, 5, 3), -1.0)), dict(status=np.zeros((41, 5, 3), np.uint16))]
    dies, targets = dice.uniform(15, 30, (41, 4)), np.linspace(10, 40, 41)

    def both():
        for way in ways:
            if "out" in way:
                way["out"][...] = -1
            result = bulk.crimp_diameter(hose_inside_mm=inside, hose_outside_mm=outside, stem_outside_mm=12.95, ferrule_wall_mm=2.4,
                                         compression_percent=20, errors="mark", **way)
            yield [np.array(part) for part in (result if isinstance(result, tuple) else (result,))]
        yield [np.array(part) for part in bulk.choose_die(die_size_mm=dies, target_mm=targets, errors="mark", status=True)[0]]
    whole = list(both())
    monkeypatch.setattr(_columns, "_BLOCK_ROWS", rows)
    monkeypatch.setattr(_columns, "_BLOCK_SECONDS", -1.0)
    for one, other in zip(whole, both(), strict=True):
        assert all(a.dtype == b.dtype and a.shape == b.shape and a.tobytes() == b.tobytes() for a, b in zip(one, other, strict=True))


def test_rows_written_over_what_is_read_are_not_parted(monkeypatch):
    np = pytest.importorskip("numpy")
    from ferrule import _columns, bulk

    def shifted():
        column = np.linspace(12, 13, 1000)
        return bulk.crimp_diameter(hose_inside_mm=column[:-1], hose_outside_mm=20.0, stem_outside_mm=13.5, ferrule_wall_mm=2.4,
                                   compression_percent=20, out=column[1:]).copy()
    whole = shifted()
    monkeypatch.setattr(_columns, "_BLOCK_ROWS", 10)
    assert (shifted() == whole).all()
