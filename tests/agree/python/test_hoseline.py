# SPDX-License-Identifier: MIT
"""Assemblies: orientation against SciPy's rotations, table of check values, what a release makes of length and orientation."""
import math
import pathlib
import random
import sys

import ferrule
import numpy as np
import pytest
from ferrule import HoseEnd, LengthRow, Outcome, Point, mm
from scipy.spatial.transform import Rotation

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "vectors"))
import hoseline  # noqa: E402


def test_the_table_is_what_its_script_writes():
    assert (hoseline.HERE / "hoseline.csv").read_text(encoding="utf-8") == hoseline.text()


def carried_by_rotations(points, first_tip, last_tip, radius):
    """Angle and length with SciPy's rotation vectors at each corner."""
    along = np.diff(points, axis=0)
    straight = np.linalg.norm(along, axis=1)
    along = along / straight[:, None]
    v = first_tip - points[0]
    length = straight.sum()
    for a, b in zip(along, along[1:]):
        axis = np.cross(a, b)
        angle = math.atan2(np.linalg.norm(axis), a @ b)
        v = Rotation.from_rotvec(axis / np.linalg.norm(axis) * angle).apply(v)
        length -= radius * (2 * math.tan(angle / 2) - angle)
    v, w = (u - (u @ along[-1]) * along[-1] for u in (v, last_tip - points[-1]))
    return length, math.atan2(along[-1] @ np.cross(v, w), v @ w) % (2 * math.pi)


def point(place):
    return Point(*(mm(float(x)) for x in place))


def test_orientation_agrees_with_rotations_and_from_both_ends():
    rng = np.random.default_rng(17)
    tried = 0
    for _ in range(400):
        points = np.cumsum(rng.normal(size=(rng.integers(2, 7), 3)) * 300, axis=0)
        tips = points[[0, -1]] + rng.normal(size=(2, 3)) * 50
        try:
            found = ferrule.find_orientation(map(point, points), "20 mm", "20 mm", point(tips[0]), point(tips[1]))
        except (ferrule.RouteError, ferrule.ElbowError):
            continue
        tried += 1
        length, angle = carried_by_rotations(points, *tips, 30)
        assert found.length.mm == pytest.approx(length, rel=1e-12)
        assert math.remainder(found.angle.rad - angle, 2 * math.pi) == pytest.approx(0, abs=1e-9)
        back = ferrule.find_orientation(map(point, points[::-1]), "20 mm", "20 mm", point(tips[1]), point(tips[0]))
        assert math.remainder(found.angle.rad - back.angle.rad, 2 * math.pi) == pytest.approx(0, abs=1e-9)
    assert tried > 200


def test_bends_follow_their_arcs():
    """The end of two arcs walked in small steps is where the offset bend says."""
    for radius, outside, offset in ((180, 23.1, 200), (50, 12, 3), (300, 40, 1200)):
        bend = ferrule.find_offset_bend(mm(radius), mm(outside), mm(offset))
        steps = 20000
        headings = np.interp((np.arange(2 * steps) + 0.5) / steps, [0, 1, 2], [0, bend.angle.rad, 0])
        step = bend.length.mm / (2 * steps)
        assert (np.cos(headings) * step).sum() == pytest.approx(bend.run.mm, abs=1e-5)
        assert (np.sin(headings) * step).sum() == pytest.approx(offset, abs=1e-5)


def test_lengths_go_there_and_back():
    rng = random.Random(17)
    for _ in range(300):
        ends = [HoseEnd(mm(rng.uniform(5, 80)), mm(rng.uniform(-2, 2))) for _ in range(2)]
        overall = mm(rng.uniform(300, 9000))
        cut = ferrule.cut_length(overall, *ends)
        assert ferrule.overall_length(cut, *ends).mm == pytest.approx(overall.mm, rel=1e-15)
        change = (ferrule.fraction(rng.uniform(-0.1, 0)), ferrule.fraction(rng.uniform(0, 0.1)))
        assert ferrule.length_under_pressure(ferrule.length_before_pressure(cut, change), change).lower.mm == pytest.approx(cut.mm, rel=1e-15)


def test_length_and_orientation_feed_the_release():
    """All else passed: a length that is too short holds the assembly, a good one releases it."""
    end = ferrule.EndChecks(diameter="passed", looks="good", insertion="passed", bore="passed")
    limits = ferrule.find_length_limits([LengthRow(plus="12 mm", minus="4 mm")], "12 mm", "1250 mm")

    def decision(length, angle):
        checks = ferrule.AssemblyChecks(
            first=end, second=end, parts="passed", hose_age=6, cleanliness="passed", marking="passed",
            length=ferrule.check_assembly_length(length, "1 mm", limits), orientation=ferrule.check_orientation(angle, "0.5 deg", "90 deg", "5 deg"),
            proof=ferrule.ProofTest(pressure="passed", leak="passed", movement="passed"))
        return ferrule.release_assembly(checks).decision

    assert decision("1252 mm", "91 deg") == ferrule.Disposition.RELEASED
    assert decision("1240 mm", "91 deg") != ferrule.Disposition.RELEASED
    assert decision("1246.5 mm", "91 deg") == ferrule.Disposition.HOLD
    assert decision("1252 mm", "100 deg") != ferrule.Disposition.RELEASED
    assert ferrule.check_assembly_length("1252 mm", "0 mm", limits) == Outcome.UNDECIDED
