# SPDX-License-Identifier: MIT
"""Records of jobs: the same bytes everywhere, every call made again, every change found."""
import copy
import json
import os
import pathlib
import random
import shutil
import struct
import subprocess
import sys
import xml.etree.ElementTree

import ferrule
import pytest
from conftest import PACKAGE_PATH
from ferrule import record

VECTORS = pathlib.Path(__file__).resolve().parents[1] / "vectors"
KEPT = VECTORS / "records-0.2.0.jsonl"
# Hash of the last of the records that version 0.2.0 wrote. It never changes: what was written then has to be read for ever.
KEPT_LAST = "f567c86f1f4537da784d5712e8cc53d59e3ddc100173f4a9025ec24392250a57"


# ---- canonical form ------------------------------------------------------------------------------------------------

def test_the_example_of_the_standard():
    """RFC 8785, 3.2.2 and 3.2.4 (from memory)."""
    data = json.loads('{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],'
                      '"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}')
    assert record.canonical(data).decode() == ('{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],'
                                               '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}')


@pytest.mark.parametrize("bits, text", [
    # RFC 8785, appendix B (from memory)
    ("0000000000000000", "0"), ("8000000000000000", "0"), ("0000000000000001", "5e-324"), ("8000000000000001", "-5e-324"),
    ("7fefffffffffffff", "1.7976931348623157e+308"), ("4340000000000000", "9007199254740992"), ("4430000000000000", "295147905179352830000"),
    ("44b52d02c7e14af5", "9.999999999999997e+22"), ("44b52d02c7e14af6", "1e+23"), ("444b1ae4d6e2ef4e", "999999999999999700000"),
    ("444b1ae4d6e2ef50", "1e+21"), ("3eb0c6f7a0b5ed8c", "9.999999999999997e-7"), ("3eb0c6f7a0b5ed8d", "0.000001"),
    ("41b3de4355555553", "333333333.3333332"), ("becbf647612f3696", "-0.0000033333333333333333")])
def test_numbers_of_the_standard(bits, text):
    number, = struct.unpack(">d", bytes.fromhex(bits))
    assert record.format_number(number) == text


def test_names_are_sorted_by_utf_16():
    """RFC 8785, 3.2.3 (from memory): an emoji comes before U+FB33, as its surrogates do."""
    data = {"\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One", "\U0001f600": "Emoji",
            "\x80": "Control", "\xf6": "Latin Small Letter O With Diaeresis"}
    assert list(json.loads(record.canonical(data))) == ["\r", "1", "\x80", "\xf6", "\u20ac", "\U0001f600", "\ufb33"]


@pytest.mark.skipif(not shutil.which("node"), reason="no node: its JSON.stringify is the rule for numbers")
def test_numbers_agree_with_ecmascript():
    rng = random.Random(8785)
    doubles = [struct.unpack("<d", rng.randbytes(8))[0] for _ in range(20000)]
    doubles = [x for x in doubles if x - x == 0] + [rng.uniform(-1, 1) * 10.0 ** rng.randint(-9, 24) for _ in range(20000)]
    program = "let t='';process.stdin.on('data',d=>t+=d).on('end',()=>process.stdout.write(JSON.stringify(JSON.parse(t))))"
    out = subprocess.run(["node", "-e", program], input=json.dumps(doubles), capture_output=True, text=True, check=True, timeout=60).stdout
    assert record.canonical(doubles).decode() == out


@pytest.mark.parametrize("value", [float("nan"), float("inf"), 2**53, {1, 2}, object(), "\ud800", {"a": [b"x"]}])
def test_what_has_no_place_is_refused(value):
    with pytest.raises((ValueError, TypeError)):
        record.canonical(value)


# ---- a shop's records ----------------------------------------------------------------------------------------------

JOINT = {"hose": {"inside": "12.7 mm", "outside": "19.9 mm"}, "stem": {"outside": "12.95 mm", "bore": "9.5 mm"},
         "ferrule": {"wall": "2.4 mm", "outside": "25.6 mm", "length": "34 mm"}}
PRESS = {"graduation": "0.05 mm", "correction": "-0.15 mm", "opening": "32 mm"}
DIES = [{"size": "19 mm"}, {"size": "22 mm"}, {"size": "25 mm"}]


def account(number, before):
    """Invented: a joint that is planned, measured and judged, a hoseline, and two calls that are refused."""
    rng = random.Random(number)
    job = record.Account(f"101-{number}", before, {"machine": "harvester 2, boom", "hose_batch": "A 24-03", "who": "bench 1",
                                                   "when": f"2026-12-01T09:{number:02}:00Z", "gauge": "caliper 3"})
    job.call("plan_setup", order={"joint": JOINT, "tolerance": "0.2 mm"}, press=PRESS, dies=DIES)
    readings = [{"diameter": f"{23.5 + rng.randint(-9, 9) / 100:.2f} mm", "angle": f"{k * 45} deg", "angle_known": True} for k in range(4)]
    job.call("summarise_readings", readings=readings, gauge={"standard_uncertainty": "0.01 mm"})
    job.call("cut_length", overall="1250 mm", first={"cut_off": "27.5 mm"}, second={"cut_off": "31 mm", "growth": "1.2 mm"})
    job.call("find_proof_pressure", ratings={"hose": "27.5 MPa", "first": "35 MPa", "second": "35 MPa"})
    job.call("choose_die", dies=DIES, target="40 mm")
    job.call("dial_setting", press=PRESS, die={"size": "22 mm"}, target="21 mm")
    return job.record


def accounts(count):
    found, before = [], record.NOTHING_BEFORE
    for number in range(count):
        found.append(account(number, before))
        before = record.digest(found[-1])
    return found


def test_every_call_says_the_same_again_also_after_reading():
    records = accounts(4)
    for one in records:
        assert record.replay(one) == []
        assert record.replay(json.loads(record.canonical(one))) == []
    assert record.broken_link(records) is None
    assert [call.get("status") for call in records[0]["calls"]][-1] == "DIE_ABOVE_DIAMETER"
    assert all(("status" in call) != ("result" in call) for call in records[0]["calls"])


def leaves(value, path=()):
    children = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else None
    if children is None:
        return [path]
    return [leaf for name, child in children for leaf in leaves(child, (*path, name))]


def changed(value, path):
    """A copy with one leaf that is another one."""
    value = copy.deepcopy(value)
    at = value
    for name in path[:-1]:
        at = at[name]
    leaf = at[path[-1]]
    at[path[-1]] = (not leaf if isinstance(leaf, bool) else leaf + 1 if isinstance(leaf, (int, float)) else "x" if leaf is None
                    else leaf.replace("1", "2", 1) if "1" in leaf else leaf + "x")
    return value


def test_each_of_two_hundred_changes_is_found():
    """By the chain alone each one; by making the calls again each change of a result, and nearly each of an argument."""
    records = accounts(5)
    last = record.digest(records[-1])
    paths = leaves(records[2])
    assert len(paths) >= 200
    chosen = random.Random(200).sample(paths, 200)
    silent = []
    for path in chosen:
        one = changed(records[2], path)
        assert record.broken_link([*records[:2], one, *records[3:]], last) is not None, path
        if path[0] == "calls":
            differences = record.replay(one)
            if path[2] == "result":
                assert differences, path
            elif not differences:
                silent.append(path)
    assert len(silent) <= 6, silent  # a die that is not chosen, the angle of a reading without consequence


def test_a_record_that_was_cut_off_is_found_by_a_hash_kept_elsewhere():
    records = accounts(3)
    last = record.digest(records[-1])
    assert record.broken_link(records[:-1]) is None
    assert record.broken_link(records[:-1], last) == 2
    assert record.broken_link(records, last) is record.broken_link(records, last[:16]) is None
    assert record.broken_link(records, last[:15]) == 3  # too little of it to say anything
    assert record.broken_link([records[1], records[0], records[2]]) == 0


def keeps(before, after):
    """Whether all that was said then is said now: members may have come, numbers may differ as another mathematical library makes them."""
    if isinstance(before, dict):
        return isinstance(after, dict) and all(name in after and keeps(value, after[name]) for name, value in before.items())
    if isinstance(before, list):
        return isinstance(after, list) and len(before) == len(after) and all(map(keeps, before, after))
    return before == after or record.is_near(before, after)


def test_the_records_of_version_0_2_0_are_read_for_ever():
    records = record.read(KEPT)
    assert len(records) == 3 and record.digest(records[-1]) == KEPT_LAST
    assert record.broken_link(records, KEPT_LAST) is None
    for one in records:
        assert all(keeps(call, record.again_of(call)) for call in one["calls"])
    assert not keeps(records[0], changed(records[0], ("calls", 2, "result")))


def test_other_numbers_are_within_the_accuracy_or_not():
    one = accounts(1)[0]
    cut = next(call for call in one["calls"] if call["function"] == "cut_length")
    cut["result"] = "1190.3000000001 mm"
    assert [(d.paths, d.within_accuracy) for d in record.replay(one)] == [(["/result"], True)]
    for other in ("1190.31 mm", "1190.3000000001 in", "1190.3", None):
        cut["result"] = other
        assert [(d.paths, d.within_accuracy) for d in record.replay(one)] == [(["/result"], False)]
    one["calls"] = [{"function": name, "arguments": {}, "result": None} for name in ("no_such", "__import__", "Length", "crimp_diameter", 7)]
    assert len(record.replay(one)) == 5 and not any(d.within_accuracy for d in record.replay(one))


# ---- files ----------------------------------------------------------------------------------------------------------

def test_a_file_grows_by_whole_records_in_their_order(tmp_path):
    file = tmp_path / "day.jsonl"
    records = accounts(3)
    for one in records:
        assert record.append(file, one) == record.digest(one)
    assert record.read(file) == records
    before = file.read_bytes()
    with pytest.raises(ValueError, match="names"):
        record.append(file, records[1])
    with pytest.raises(ValueError, match="no record"):
        record.append(file, {"form": "other"})
    assert file.read_bytes() == before


@pytest.mark.parametrize("spoil, words", [
    (lambda line: line.replace(b'"job":"101-0"', b'"job": "101-0"'), "canonical"), (lambda line: line[:-1], "line 1"),
    (lambda line: line.replace(b'{"before"', b'{"job":"x","before"'), "twice"), (lambda line: b"[]", "no record"),
    (lambda line: line.replace(b"ferrule-record-1", b"ferrule-record-2"), "no record"), (lambda line: b"\xff", "line 1"),
    (lambda line: line.replace(b'"job":"101-0"', b'"job":7'), "job"), (lambda line: line.replace(b'"form"', b'"extra":1,"form"'), "extra"),
    (lambda line: line.replace(b'"function"', b'"functions"', 1), "/calls/0")])
def test_a_line_that_is_no_record_is_refused_with_its_number(tmp_path, spoil, words):
    file = tmp_path / "day.jsonl"
    file.write_bytes(spoil(record.canonical(accounts(1)[0])) + b"\n")
    with pytest.raises(ValueError, match=words):
        record.read(file)
    assert command(file)[0] == 2


def command(*words):
    done = subprocess.run([sys.executable, "-m", "ferrule", "replay", *map(str, words)], capture_output=True, text=True, timeout=60,
                          env={**os.environ, "PYTHONPATH": PACKAGE_PATH}, check=False)
    return done.returncode, done.stdout, done.stderr


def test_the_command_says_what_differs(tmp_path):
    file = tmp_path / "day.jsonl"
    records = accounts(2)
    for one in records:
        record.append(file, one)
    last = record.digest(records[-1])
    status, out, _ = command(file, "--last", last[:16])
    assert status == 0 and "every call says the same" in out and "chain: holds" in out and last in out
    assert command(file, "--last", "0" * 16)[0] == 1
    assert json.loads(command(file, "--json")[1])["last"] == last
    spoilt = copy.deepcopy(records)
    cut = next(call for call in spoilt[1]["calls"] if call["function"] == "cut_length")
    cut["result"] = "1190.3000000001 mm"
    file.write_bytes(b"".join(record.canonical(one) + b"\n" for one in spoilt))
    status, out, _ = command(file)
    assert status == 3 and "record 2, job 101-1, call 3, cut_length: /result (within the accuracy)" in out
    cut["result"] = "1200 mm"
    file.write_bytes(b"".join(record.canonical(one) + b"\n" for one in spoilt[::-1]))
    status, out, _ = command(file)
    assert status == 1 and "chain: broken before record 1" in out
    assert command(tmp_path / "none.jsonl")[0] == 2


# ---- paper ----------------------------------------------------------------------------------------------------------

def test_page_and_label_hold_the_hash():
    one = accounts(2)[1]
    one["facts"]["who"] = "<b>&"
    page, label = record.page(one), record.label(one)
    assert record.digest(one) in page and one["before"] in page and "&lt;b&gt;&amp;" in page and "<b>&" not in page
    assert "DIE_ABOVE_DIAMETER" in page and "1190.3 mm" in page
    digits = record.digest(one)
    texts = [element.text for element in xml.etree.ElementTree.fromstring(label).iter() if element.text]
    assert texts == ["job 101-1", " ".join(digits[k:k + 4] for k in range(0, 16, 4))]
    one["facts"]["pressure"] = "27.5 MPa"
    assert "27.5 MPa" in record.label(one)


def test_what_cannot_be_kept_is_refused_at_once():
    with pytest.raises(ValueError, match="64"):
        record.Account("1", before="abc")
    job = record.Account("1")
    with pytest.raises(ValueError, match="no function"):
        job.call("Length", text="12 mm")
    with pytest.raises(TypeError):
        job.call("cut_length", overall="1250 mm")
    assert job.record["calls"] == [] and job.digest == record.digest(job.record)
    assert ferrule.__version__ in job.record["library"]
