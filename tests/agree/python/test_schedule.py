# SPDX-License-Identifier: MIT
"""Schedules against all orders and all choices of dies, and against mixed-integer programmes solved by HiGHS (SciPy)."""
import itertools
import random
import shutil
import subprocess

import ferrule
import pytest
from ferrule import ChangeTimes, Die, Job, Mounted, ScheduleAim

# A rack, times in seconds and what is mounted; all invented. Die: size, reach, adapter set.
RACK = [(8, 3, 1), (10, 3, 1), (13, 4, 1), (16, 5, 0), (19, 7, 0), (22, 7, 0), (25, 7, 0), (28, 7, 0), (31, 7, 0), (36, 7, 0), (41, 7, 0), (46, 7, 0)]
DIES = [Die(f"{size} mm", reach=f"{reach} mm", adapter=adapter) for size, reach, adapter in RACK]
TIMES = (480, 240, 180, 90, 30)  # adapter, die, dial, reel, bin
GIVEN = ChangeTimes(*TIMES)
START = (0, 5, 151, 4, 33)  # adapter, die, setting in hundredths, reel, bin
MOUNTED = Mounted(die_mounted=True, die=5, setting="1.51 mm", reel=4, bin=33)


def modes(job):
    """The dies that do a job, with their settings."""
    target, reel, bin_ = job[:3]
    return [(adapter, die, round((target - size) * 100), reel, bin_) for die, (size, reach, adapter) in enumerate(RACK)
            if size <= target <= size + reach]


def change(a, b):
    adapter, die, dial, reel, bin_ = TIMES
    return adapter * (a[0] != b[0]) + die * (a[1] != b[1]) + dial * (a[1:3] != b[1:3]) + reel * (a[3] != b[3]) + bin_ * (a[4] != b[4])


def draw(rng, count, kind):
    """Jobs (target, reel, bin, work, due): in a depot hose, coupling and diameter go together, elsewhere they cross."""
    if kind == "depot":
        middles = (12.2, 15.3, 18.4, 21.6, 23.5, 27.3, 29.6, 38.5, 48.6)
        targets = {(i, j): round(middle + (rng.uniform(0, 1.6) if j else 0), 2) for i, middle in enumerate(middles) for j in range(2)}
        jobs = []
        for _ in range(count):
            hose, second = (4 + min(int(rng.expovariate(1 / 3.0)), 8)) % 9, rng.randint(0, 1)
            jobs.append((targets[hose, second], hose, (hose * 2 + second) * 4 + rng.randint(0, 3), 0, 0))
        return jobs
    return [(round(rng.choice([17.5, 20.5, 22.6, 24.1, 27.3, 29.9, 33.0]) + rng.choice([0, 0.4]), 2), rng.randint(0, 5), rng.randint(0, 7), 0, 0)
            for _ in range(count)]


def asked(jobs):
    return [Job(f"{target} mm", reel=reel, bin=bin_, work_seconds=work, due_seconds=due) for target, reel, bin_, work, due in jobs]


def plan(jobs, **aim):
    return ferrule.plan_schedule(asked(jobs), {}, DIES, GIVEN, MOUNTED, ScheduleAim(**aim))


def follow(jobs, order):
    """Smallest lateness and end of one order: for each die of the last job all pairs that none betters."""
    layer = {START: [(0, 0)]}
    for i in order:
        here = {}
        for mode in modes(jobs[i]):
            pairs = []
            for before, outcomes in layer.items():
                for late, end in outcomes:
                    end += change(before, mode) + jobs[i][3]
                    pairs.append((max(late, end - jobs[i][4] if jobs[i][4] else 0), end))
            kept = []
            for late, end in sorted(pairs):
                if not kept or end < kept[-1][1]:
                    kept.append((late, end))
            here[mode] = kept
        layer = here
    return min(pair for outcomes in layer.values() for pair in outcomes)


@pytest.mark.parametrize("kind", ("depot", "crossing"))
@pytest.mark.parametrize("due", (False, True))
def test_no_order_is_better(kind, due):
    rng, possible = random.Random(f"{kind} {due}"), 0
    for _ in range(30):
        jobs = draw(rng, rng.randint(1, 5), kind)
        if due:
            jobs = [job[:3] + (60 * rng.randint(2, 12), 60 * rng.choice([0, 15, 30, 45, 60, 75])) for job in jobs]
        turns, schedule = plan(jobs)
        best = min(follow(jobs, order) for order in itertools.permutations(range(len(jobs))))
        assert (schedule.late_seconds, schedule.end_seconds) == best == (schedule.late_bound, schedule.end_bound)
        assert schedule.optimal
        assert sorted(turn.job for turn in turns) == list(range(len(jobs)))
        assert follow(jobs, [turn.job for turn in turns])[0] <= schedule.late_seconds
        possible += schedule.late_seconds == 0
    assert possible > 10


def test_an_order_has_the_best_dies():
    rng = random.Random(9)
    for _ in range(60):
        jobs = draw(rng, 7, "crossing")
        turns, schedule = ferrule.time_schedule(asked(jobs), {}, DIES, GIVEN, MOUNTED)
        assert [turn.job for turn in turns] == list(range(7))
        ways = itertools.product(*map(modes, jobs))
        assert schedule.change_seconds == min(sum(map(change, (START, *way), way)) for way in ways)


@pytest.mark.parametrize("kind", ("depot", "crossing"))
def test_the_shortest_of_all_orders_and_the_bound(kind):
    """Larger days by the same recursion in Python, over sets of jobs; the order that a few steps leave is compared with the bound."""
    rng = random.Random(f"sets {kind}")
    for _ in range(3):
        jobs = list(dict.fromkeys(draw(rng, 9, kind)))
        best = {(1 << i, mode): change(START, mode) for i, job in enumerate(jobs) for mode in modes(job)}
        for _ in range(len(jobs) - 1):
            new = {}
            for (done, before), time in best.items():
                for i, job in enumerate(jobs):
                    for mode in modes(job) if not done >> i & 1 else ():
                        key = done | 1 << i, mode
                        new[key] = min(new.get(key, 1e9), time + change(before, mode))
            best = new
        least = min(best.values())
        assert plan(jobs)[1].change_seconds == least
        early = plan(jobs, steps=4000)[1]
        assert early.end_bound <= least <= early.end_seconds


def programme(jobs, path):
    """An order as a mixed-integer programme: each job is entered once, and a flow that falls by one at each job forbids rings."""
    optimize, sparse, np = (pytest.importorskip(name) for name in ("scipy.optimize", "scipy.sparse", "numpy"))
    all_modes = [(mode, i) for i, job in enumerate(jobs) for mode in modes(job)]
    arcs = [(-1, j) for j in range(len(all_modes))]
    arcs += [(i, j) for i in range(len(all_modes)) for j in range(len(all_modes)) if all_modes[i][1] != all_modes[j][1]]
    cost = [change(START if i < 0 else all_modes[i][0], all_modes[j][0]) for i, j in arcs]
    count, rows, low, high = len(arcs), [], [], []

    def add(terms, least, most):
        rows.append(terms)
        low.append(least)
        high.append(most)
    for job in range(len(jobs)):
        add({a: 1 for a, (_, j) in enumerate(arcs) if all_modes[j][1] == job}, 1, 1)
    for mode in range(len(all_modes)):
        into = [a for a, (_, j) in enumerate(arcs) if j == mode]
        out = [a for a, (i, _) in enumerate(arcs) if i == mode]
        add({a: 1 for a in out} | {a: -1 for a in into}, -np.inf, 0)
        add({count + a: 1 for a in into} | {count + a: -1 for a in out} | {a: -1 for a in into}, 0, 0)
    add({a: 1 for a, (i, _) in enumerate(arcs) if i < 0}, 1, 1)
    for a in range(count):
        add({count + a: 1, a: -len(jobs)}, -np.inf, 0)
    table = sparse.lil_matrix((len(rows), 2 * count))
    for r, terms in enumerate(rows):
        for column, value in terms.items():
            table[r, column] = value
    if path:  # in the format of CPLEX's LP files, which CBC reads
        names = [f"x{a}" for a in range(count)] + [f"f{a}" for a in range(count)]
        with open(path, "w", encoding="ascii") as file:
            file.write("Minimize\n obj: " + " + ".join(f"{c} {names[a]}" for a, c in enumerate(cost)) + "\nSubject To\n")
            for r, terms in enumerate(rows):
                text = " ".join(f"{value:+d} {names[column]}" for column, value in terms.items())
                file.write(f" r{r}: {text} {'=' if low[r] == high[r] else '<='} {high[r]:g}\n")
            file.write("Bounds\n" + "".join(f" 0 <= {name} <= {len(jobs)}\n" for name in names[count:]) + "Binaries\n " + "\n ".join(names[:count]) + "\nEnd\n")
        return None
    solved = optimize.milp(cost + [0] * count, constraints=optimize.LinearConstraint(table.tocsr(), low, high),
                           integrality=[1] * count + [0] * count, bounds=optimize.Bounds(0, [1] * count + [len(jobs)] * count))
    assert solved.success
    return solved.fun


@pytest.mark.more
def test_highs_finds_the_same_times():
    pytest.importorskip("scipy")
    rng = random.Random(7)
    for kind in ("depot", "crossing", "crossing"):
        jobs = list(dict.fromkeys(draw(rng, 6, kind)))
        assert plan(jobs)[1].change_seconds == pytest.approx(programme(jobs, None))


@pytest.mark.more
@pytest.mark.skipif(not shutil.which("cbc"), reason="CBC is not installed")
def test_cbc_finds_the_same_times(tmp_path):
    rng = random.Random(8)
    for kind in ("depot", "crossing"):
        jobs = list(dict.fromkeys(draw(rng, 6, kind)))
        programme(jobs, tmp_path / "order.lp")
        said = subprocess.run(["cbc", tmp_path / "order.lp", "solve", "quit"], capture_output=True, text=True, check=True, timeout=300).stdout
        value = next(float(line.split()[-1]) for line in said.splitlines() if line.startswith("Objective value"))
        assert plan(jobs)[1].change_seconds == pytest.approx(value)


def test_days_of_a_shop_have_bounds_near_by():
    rng = random.Random(12)
    for count in (40, 120):
        turns, schedule = plan(draw(rng, count, "depot"))
        assert len(turns) == count and schedule.complete
        assert schedule.end_bound <= schedule.end_seconds <= 1.05 * schedule.end_bound


def test_bad_input_names_the_member():
    with pytest.raises(ferrule.JobError) as said:
        ferrule.plan_schedule([Job("20 mm", due_seconds=-1)], {}, ["18 mm"], GIVEN)
    assert said.value.name == "JOB_DUE_OUT_OF_RANGE"
    with pytest.raises(ferrule.ChangeError):
        ferrule.plan_schedule(["20 mm"], {}, ["18 mm"], ChangeTimes(die_seconds=-1))
    with pytest.raises(ferrule.MountedError):
        ferrule.plan_schedule(["20 mm"], {}, ["18 mm"], GIVEN, Mounted(die_mounted=True, die=1))
