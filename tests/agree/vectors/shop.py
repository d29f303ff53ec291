# SPDX-License-Identifier: MIT
"""Writes shop.csv: racks by trying all sets of dies, schedules by trying all orders with all dies. Invented shops, drawn with a fixed seed; the library is not called.

    python3 tests/agree/vectors/shop.py

Run it again only when a row is to be added; the file is committed and read by the tests of every language. A test looks whether it
still is what this script writes.
"""
import csv
import io
import itertools
import pathlib
import random

HERE = pathlib.Path(__file__).parent
HEADER = ("function", "arguments", "result", "expected", "tolerance", "source")
ALL_SETS = "tests/agree/vectors/shop.py, all sets of dies"


def all_sets(dies):
    return itertools.chain.from_iterable(itertools.combinations(dies, number) for number in range(len(dies) + 1))


# ---- racks ---------------------------------------------------------------------------------------------------

def draw_rack(rng):
    """Dies owned and on offer (size, reach, adapter, price), demands (target, weight, margin); one adapter set is on offer."""
    die = lambda: (rng.randint(14, 34), rng.randint(3, 7), rng.choice([0, 0, 1]), rng.randint(2, 9))  # noqa: E731
    owned, offers = [die() for _ in range(2)], [die() for _ in range(6)]
    demands = [(rng.randint(32, 74) / 2, rng.randint(1, 9), rng.choice([0, 0, 0.5])) for _ in range(7)]
    return owned, offers, rng.randint(1, 5), demands


def does(die, demand):
    size, reach = die[:2]
    target, _, margin = demand
    return size <= target - margin and target + margin <= size + reach


def weight_of(dies, demands):
    return sum(demand[1] for demand in demands if any(does(die, demand) for die in dies))


def best_rack(owned, offers, adapter_price, demands, limit):
    """Greatest weight, then the lowest price for it."""
    best = None
    for adapter in (0, 1):
        usable = [die for die in owned if die[2] <= adapter]
        for chosen in all_sets([die for die in offers if die[2] <= adapter]):
            price = sum(die[3] for die in chosen) + adapter * adapter_price
            if price <= limit:
                rank = (-weight_of([*usable, *chosen], demands), price)
                best = min(best or rank, rank)
    return -best[0], best[1]


def describe_die(path, die, member=""):
    return [f"{path}.{member}size={die[0]} mm", f"{path}.{member}reach={die[1]} mm"]


def describe_demands(demands):
    rows = []
    for i, (target, weight, margin) in enumerate(demands):
        rows += [f"demands.{i}.target={target} mm", f"demands.{i}.weight={weight}.0"]
        rows += [f"demands.{i}.margin={margin} mm"] if margin else []
    return rows


def describe_rack(owned, offers, demands, with_adapters):
    rows = []
    for i, die in enumerate(owned):
        rows += describe_die(f"dies.{i}", die) + ([f"dies.{i}.adapter={die[2]}"] if with_adapters and die[2] else [])
    rows += describe_demands(demands)
    for i, die in enumerate(offers):
        rows += describe_die(f"offers.{i}", die, "die.") + ([f"offers.{i}.die.adapter={die[2]}"] if with_adapters and die[2] else [])
        rows.append(f"offers.{i}.price={die[3]}.0")
    return rows


def rack_rows():
    rng = random.Random(17)
    for _ in range(7):
        owned, offers, adapter_price, demands = draw_rack(rng)
        total = sum(demand[1] for demand in demands)
        for limit in (6, 15):
            weight, price = best_rack(owned, offers, adapter_price, demands, limit)
            arguments = [*describe_rack(owned, offers, demands, True), "adapters.0.adapter=1", f"adapters.0.price={adapter_price}.0",
                         f"aim.price_maximum={limit}.0"]
            yield "choose_rack", arguments, "rack.reached", f"{weight / total!r} fraction", "1e-14 fraction", ALL_SETS
            yield "choose_rack", arguments, "rack.price", f"{price}.0", "0.0", ALL_SETS
            left = sum(not any(does(die, demand) for die in [*owned, *offers]) for demand in demands)
            yield "choose_rack", arguments, "rack.left_out", str(left), "0", ALL_SETS


def price_rows():
    """In order: reaches are equal, so the prices of the demands sum to the price of the cheapest rack that reaches all that can be."""
    rng = random.Random(18)
    for _ in range(7):
        owned, offers, _, demands = draw_rack(rng)
        owned, offers = [(die[0], 6, 0, 0) for die in owned[:1]], [(die[0], 6, 0, die[3]) for die in offers]
        full = weight_of([*owned, *offers], demands)
        minimum = min(sum(die[3] for die in chosen) for chosen in all_sets(offers) if weight_of([*owned, *chosen], demands) == full)
        arguments = [*describe_rack(owned, offers, demands, False), "segments=8"]
        yield "find_demand_prices", arguments, "minimum", f"{minimum}.0", "1e-12", ALL_SETS


def refused_rows():
    owned, offers, _, demands = draw_rack(random.Random(19))
    whole = [*describe_rack(owned, offers, demands, False), "adapters.0.adapter=1", "adapters.0.price=1.0"]
    for wrong, status in (("demands.0.weight=-1.0", "DEMAND_WEIGHT_OUT_OF_RANGE"), ("demands.1.margin=-1.0 mm", "DEMAND_MARGIN_OUT_OF_RANGE"),
                          ("demands.1.lobe_maximum=-1 mm", "DEMAND_LOBE_OUT_OF_RANGE"), ("offers.0.price=-1.0", "OFFER_PRICE_OUT_OF_RANGE"),
                          ("offers.0.price=0.0", "OFFER_PRICE_MISSING"), ("adapters.0.price=-1.0", "ADAPTER_PRICE_OUT_OF_RANGE"),
                          ("aim.price_maximum=-1.0", "RACK_PRICE_OUT_OF_RANGE"), ("aim.rank=2", "RACK_RANK_OUT_OF_RANGE"),
                          ("aim.steps=-1.0", "RACK_STEPS_OUT_OF_RANGE")):
        kept = [item for item in whole if not item.startswith(wrong.split("=")[0] + "=")]
        yield "choose_rack", [*kept, wrong], "rack.left_out", f"status {status}", "", "out of range"


# ---- schedules -----------------------------------------------------------------------------------------------

TIMES = {"adapter": 480, "die": 240, "dial": 180, "reel": 90, "bin": 30}
DIES = [(16, 5, 0), (19, 7, 0), (13, 4, 1), (22, 7, 0)]  # size, reach, adapter set
MOUNTED = (0, 3, 15, 1, 1)  # adapter set, die, setting in tenths, reel, bin


def modes_of(job):
    return [(adapter, i, round(10 * (job["target"] - size)), job["reel"], job["bin"]) for i, (size, reach, adapter) in enumerate(DIES)
            if size <= job["target"] <= size + reach]


def changes(a, b):
    return (TIMES["adapter"] * (a[0] != b[0]) + TIMES["die"] * (a[1] != b[1]) + TIMES["dial"] * (a[1:3] != b[1:3])
            + TIMES["reel"] * (a[3] != b[3]) + TIMES["bin"] * (a[4] != b[4]))


def best_schedule(orders):
    """Smallest greatest lateness, then the earliest end, over orders and all dies of each job."""
    best = None
    for order in orders:
        for way in itertools.product(*(modes_of(job) for job in order)):
            here, end, late = MOUNTED, 0, 0
            for job, mode in zip(order, way):
                end, here = end + changes(here, mode) + job["work"], mode
                late = max(late, end - job["due"]) if job["due"] else late
            best = min(best or (late, end), (late, end))
    return best


def least_changes(jobs):
    """Of the order as listed, with the dies for which changing takes the shortest time."""
    return min(sum(map(changes, (MOUNTED, *way), way)) for way in itertools.product(*map(modes_of, jobs)))


def describe_day(jobs):
    rows = []
    for i, job in enumerate(jobs):
        rows += [f"jobs.{i}.target={job['target']} mm", f"jobs.{i}.reel={job['reel']}", f"jobs.{i}.bin={job['bin']}", f"jobs.{i}.work_seconds={job['work']}"]
        rows += [f"jobs.{i}.due_seconds={job['due']}"] if job["due"] else []
    rows += ["press.graduation=0.1 mm"]
    for i, (size, reach, adapter) in enumerate(DIES):
        rows += [f"dies.{i}.size={size} mm", f"dies.{i}.reach={reach} mm"] + ([f"dies.{i}.adapter={adapter}"] if adapter else [])
    rows += [f"times.{name}_seconds={seconds}" for name, seconds in TIMES.items()]
    return rows + ["mounted.die_mounted=true", "mounted.die=3", "mounted.setting=1.5 mm", "mounted.reel=1", "mounted.bin=1"]


def schedule_rows():
    rng = random.Random(20)
    source = "tests/agree/vectors/shop.py, all orders and dies"
    for i in range(8):
        jobs = [{"target": rng.choice([14.2, 16.6, 20.4, 23.5, 24.0, 27.1]), "reel": rng.randint(1, 2), "bin": rng.randint(1, 2),
                 "work": 60 * rng.randint(0, 9), "due": 60 * rng.randint(5, 40) if i % 2 and rng.random() < 0.7 else 0} for _ in range(5)]
        late, end = best_schedule(itertools.permutations(jobs))
        for member, value in (("end_seconds", end), ("late_seconds", late), ("end_bound", end), ("late_bound", late)):
            yield "plan_schedule", describe_day(jobs), f"schedule.{member}", str(value), "0", source
        yield "time_schedule", describe_day(jobs), "schedule.change_seconds", str(least_changes(jobs)), "0", source
    for wrong, status in (("jobs.0.work_seconds=-1", "JOB_WORK_OUT_OF_RANGE"), ("jobs.0.due_seconds=-1", "JOB_DUE_OUT_OF_RANGE"),
                          ("jobs.0.reel=-1", "JOB_REEL_OUT_OF_RANGE"), ("jobs.0.bin=-1", "JOB_BIN_OUT_OF_RANGE"), ("times.die_seconds=-1", "CHANGE_TIME_OUT_OF_RANGE"),
                          ("mounted.die=4", "MOUNTED_DIE_UNKNOWN"), ("mounted.setting=-1 mm", "MOUNTED_SETTING_OUT_OF_RANGE"),
                          ("mounted.reel=-1", "MOUNTED_NUMBER_OUT_OF_RANGE"), ("aim.steps=-1.0", "SCHEDULE_STEPS_OUT_OF_RANGE")):
        kept = [item for item in describe_day(jobs) if not item.startswith(wrong.split("=")[0] + "=")]
        yield "plan_schedule", [*kept, wrong], "schedule.left_out", f"status {status}", "", "out of range"


def written():
    file = io.StringIO()
    rows = csv.writer(file, lineterminator="\n")
    rows.writerow(HEADER)
    for function, arguments, *rest in (*rack_rows(), *price_rows(), *refused_rows(), *schedule_rows()):
        rows.writerow([function, "; ".join(arguments), *rest])
    return file.getvalue()


if __name__ == "__main__":
    (HERE / "shop.csv").write_text(written(), encoding="utf-8")
