# SPDX-License-Identifier: MIT
"""Writes shop.csv: racks by trying all sets of dies. Invented shops, drawn with a fixed seed; the library is not called.

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
    """Greatest weight, then the least price for it."""
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
        least = min(sum(die[3] for die in chosen) for chosen in all_sets(offers) if weight_of([*owned, *chosen], demands) == full)
        arguments = [*describe_rack(owned, offers, demands, False), "segments=8"]
        yield "find_demand_prices", arguments, "minimum", f"{least}.0", "1e-12", ALL_SETS


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


def written():
    file = io.StringIO()
    rows = csv.writer(file, lineterminator="\n")
    rows.writerow(HEADER)
    for function, arguments, *rest in (*rack_rows(), *price_rows(), *refused_rows()):
        rows.writerow([function, "; ".join(arguments), *rest])
    return file.getvalue()


if __name__ == "__main__":
    (HERE / "shop.csv").write_text(written(), encoding="utf-8")
