# SPDX-License-Identifier: MIT
"""Racks against all sets of dies, against linear programmes solved by HiGHS (SciPy), and by the rules of the die alone."""
import itertools
import random

import ferrule
import pytest
from ferrule import AdapterOffer, Demand, Die, Offer, RackAim

KINDS = ("one reach", "any reach", "margin", "lengths in order", "any length")


def draw(rng, kind):
    """Dies (size, reach, length, price) and demands (target, margin, ferrule length, weight), in whole and half millimetres."""
    dies, demands = [], []
    for _ in range(rng.randint(1, 8)):
        size = rng.randint(10, 40)
        length = {"lengths in order": 30 + size, "any length": rng.choice([40, 60, 80])}.get(kind, 0)
        reach = 7 if kind in ("one reach", "margin") else rng.randint(2, 10)
        dies.append((size, reach, length, rng.choice([1, 1, 2, 3, 5])))
    for _ in range(rng.randint(1, 9)):
        margin = rng.choice([0, 0.5, 1]) if kind == "margin" else 0
        length = rng.randint(40, 80) if "length" in kind else 0
        demands.append((rng.randint(20, 90) / 2, margin, length, rng.randint(1, 9)))
    return dies, demands


def does(die, demand):
    size, reach, length, _ = die
    target, margin, ferrule_length, _ = demand
    return size <= target - margin and target + margin <= size + reach and (length == 0 or length >= ferrule_length)


def worth(die, demand, cost):
    return demand[3] * max(0, 1 - cost * (demand[0] - die[0])) if does(die, demand) else 0


def all_sets(owned, offers, demands, cost):
    """Rising price and value of the best sets, by trying all."""
    best = {}
    for number in range(len(offers) + 1):
        for chosen in itertools.combinations(offers, number):
            price = sum(die[3] for die in chosen)
            value = sum(max((worth(die, demand, cost) for die in [*owned, *chosen]), default=0) for demand in demands)
            best[price] = max(value, best.get(price, -1))
    front = []
    for price in sorted(best):
        if not front or best[price] > front[-1][1] + 1e-9:
            front.append((price, best[price]))
    return front


def die_of(die):
    return Die(f"{die[0]} mm", reach=f"{die[1]} mm", length=f"{die[2]} mm")


def asked(owned, offers, demands):
    return ([die_of(die) for die in owned],
            [Demand(f"{target} mm", weight, margin=f"{margin} mm", ferrule_length=f"{length} mm") for target, margin, length, weight in demands],
            [Offer(die_of(die), die[3]) for die in offers])


@pytest.mark.parametrize("cost", (0, 0.05, 0.3))
@pytest.mark.parametrize("kind", KINDS)
def test_racks_are_the_best_of_all_sets(kind, cost):
    rng, in_order = random.Random(f"{kind} {cost}"), 0
    for _ in range(120):
        dies, demands = draw(rng, kind)
        cut = rng.randint(0, len(dies) // 2)
        owned, offers = dies[:cut], dies[cut:]
        total = sum(demand[3] for demand in demands)
        best = all_sets(owned, offers, demands, cost)
        points = ferrule.find_rack_curve(*asked(owned, offers, demands), [], RackAim(offset_cost=f"{cost} 1/mm"))
        found = [(point.price, point.value.fraction * total) for point in points]
        in_order += points[0].in_order
        if points[0].in_order or (cost == 0 and "length" not in kind):
            assert found == [(price, pytest.approx(value, abs=1e-9)) for price, value in best]
            assert all(point.optimal for point in points)
        for point, (price, value) in zip(points, found):
            best_here = max(v for p, v in best if p <= price)
            assert value <= best_here + 1e-9 <= point.bound.fraction * total + 2e-9
            assert not point.optimal or value == pytest.approx(best_here, abs=1e-9)
    assert in_order > 90


def test_a_price_limit_ends_the_curve():
    rng = random.Random(3)
    for _ in range(100):
        dies, demands = draw(rng, "any reach")
        question = asked([], dies, demands)
        limit = rng.randint(1, 8)
        within = [point for point in ferrule.find_rack_curve(*question, []) if point.price <= limit]
        assert ferrule.find_rack_curve(*question, [], RackAim(price_maximum=limit)) == within
        purchases, rack = ferrule.choose_rack(*question, [], RackAim(price_maximum=limit))
        assert rack == within[-1]
        assert sum(dies[place][3] for place in purchases) == rack.price
        reached = sum(demand[3] for demand in demands if any(does(dies[place], demand) for place in purchases))
        assert reached / sum(demand[3] for demand in demands) == pytest.approx(rack.reached.fraction)


@pytest.mark.parametrize("kind", ("one reach", "margin", "any reach"))
def test_ranks_are_those_of_all_sets(kind):
    rng, exact = random.Random(f"ranks {kind}"), 0
    for _ in range(60):
        dies, demands = draw(rng, kind)
        cut = rng.randint(0, len(dies) // 2)
        owned, offers = dies[:cut], dies[cut:]
        limit, cost = rng.randint(1, 9), rng.choice([0, 0.05])
        total = sum(demand[3] for demand in demands)
        values = sorted((sum(max((worth(die, demand, cost) for die in [*owned, *chosen]), default=0) for demand in demands)
                         for number in range(len(offers) + 1) for chosen in itertools.combinations(offers, number)
                         if sum(die[3] for die in chosen) <= limit), reverse=True)
        seen = set()
        for rank in range(2, 8):
            aim = RackAim(price_maximum=limit, offset_cost=f"{cost} 1/mm", rank=rank)
            if rank > len(values):
                with pytest.raises(ferrule.RackError):
                    ferrule.choose_rack(*asked(owned, offers, demands), [], aim)
                continue
            purchases, rack = ferrule.choose_rack(*asked(owned, offers, demands), [], aim)
            value = rack.value.fraction * total
            truly = sum(max((worth(die, demand, cost) for die in [*owned, *(offers[place] for place in purchases)]), default=0) for demand in demands)
            assert value == pytest.approx(truly, abs=1e-9)
            assert values[rank - 1] <= rack.bound.fraction * total + 1e-9
            assert not rack.optimal or value == pytest.approx(values[rank - 1], abs=1e-9)
            assert rack.optimal or not rack.in_order
            exact += rack.optimal
            assert tuple(purchases) not in seen or not rack.in_order
            seen.add(tuple(purchases))
    assert exact > (200 if kind != "any reach" else 100)


def test_a_search_that_ends_early_has_racks_that_hold():
    rng = random.Random(2)
    offers = [(rng.uniform(8, 60), rng.choice([3, 5, 7, 9]), 0, rng.choice([90, 110, 140, 180])) for _ in range(40)]
    demands = [(rng.uniform(8, 66), 0, 0, rng.randint(1, 30)) for _ in range(100)]
    best, searched = ferrule.find_rack_curve(*asked([], offers, demands), []), []
    for steps in (10, 1000, 10000, 1e9):
        points = ferrule.find_rack_curve(*asked([], offers, demands), [], RackAim(steps=steps))
        for point in points:
            here = max(other.reached for other in best if other.price <= point.price)
            assert point.reached <= here <= point.bound
        searched.append(points[0].searched.fraction)
    assert searched == sorted(searched) and searched[0] < 0.1 and searched[-1] == 1 and points == best


def test_adapters_are_bought_as_by_trying_all():
    rng = random.Random(8)
    for _ in range(60):
        dies, demands = draw(rng, "any reach")
        needs = [rng.choice([0, 1, 2]) for _ in dies]
        prices = {1: rng.randint(1, 4), 2: rng.randint(1, 4)}
        offers = [Offer(Die(f"{die[0]} mm", reach=f"{die[1]} mm", adapter=need), die[3]) for die, need in zip(dies, needs)]
        best = {}
        for bought in itertools.chain.from_iterable(itertools.combinations((1, 2), n) for n in range(3)):
            usable = [die for die, need in zip(dies, needs) if need in (0, *bought)]
            for price, value in all_sets([], usable, demands, 0):
                price += sum(prices[adapter] for adapter in bought)
                best[price] = max(value, best.get(price, 0))
        front = []
        for price in sorted(best):
            if not front or best[price] > front[-1][1]:
                front.append((price, best[price]))
        _, wanted, _ = asked([], [], demands)
        points = ferrule.find_rack_curve([], wanted, offers, [AdapterOffer(number, price) for number, price in prices.items()])
        total = sum(demand[3] for demand in demands)
        assert [(point.price, round(point.value.fraction * total, 9)) for point in points] == front


@pytest.mark.parametrize("kind", KINDS)
def test_prices_of_demands_bound_the_cost(kind):
    rng, equal = random.Random(f"prices {kind}"), 0
    for _ in range(150):
        dies, demands = draw(rng, kind)
        prices, minimum = ferrule.find_demand_prices(*asked([], dies, demands), 8)
        for die in dies:
            assert sum(price for price, demand in zip(prices, demands) if does(die, demand)) <= die[3] + 1e-9
        reachable = [demand for demand in demands if any(does(die, demand) for die in dies)]
        full = sum(demand[3] for demand in reachable)
        cost = min(price for price, value in all_sets([], dies, reachable, 0) if value == full)
        assert minimum <= cost + 1e-9
        assert minimum == pytest.approx(sum(prices))
        equal += abs(minimum - cost) < 1e-9
    assert equal >= (150 if kind != "any length" else 120)


def test_large_racks_against_mixed_integer_programmes():
    """The same values from HiGHS: a binary for each offer, a share for each demand that the offers bought do."""
    optimize = pytest.importorskip("scipy.optimize")
    sparse, np = pytest.importorskip("scipy.sparse"), pytest.importorskip("numpy")
    rng = random.Random(60)
    offers = [(rng.uniform(8, 60), rng.choice([3, 5, 7, 9]), 0, rng.choice([90, 110, 140, 180])) for _ in range(60)]
    demands = [(rng.uniform(8, 66), 0, 0, rng.randint(1, 30)) for _ in range(200)]
    total = sum(demand[3] for demand in demands)
    table = sparse.csr_matrix([[float(does(die, demand)) for die in offers] for demand in demands])
    weights, prices = np.array([demand[3] for demand in demands]), np.array([die[3] for die in offers])
    rows = sparse.hstack([-table, sparse.identity(len(demands))])
    question = asked([], offers, demands)
    for limit in (300, 700, 1200):
        solved = optimize.milp(np.concatenate([np.zeros(len(offers)), -weights]), bounds=optimize.Bounds(0, 1),
                               integrality=np.concatenate([np.ones(len(offers)), np.zeros(len(demands))]),
                               constraints=[optimize.LinearConstraint(rows, -np.inf, 0),
                                            optimize.LinearConstraint(np.concatenate([prices, np.zeros(len(demands))]), 0, limit)])
        assert solved.success
        _, rack = ferrule.choose_rack(*question, [], RackAim(price_maximum=limit))
        assert rack.optimal
        assert rack.reached.fraction * total == pytest.approx(-solved.fun, abs=1e-6)


def test_the_nearest_die_is_that_of_choose_die():
    """What each die serves, and who takes over, by fer_choose_die() of the rack with and without it."""
    rng = random.Random(12)
    for _ in range(60):
        dies, demands = draw(rng, rng.choice(KINDS[:2]))
        dies = list({die[0]: die for die in dies}.values())  # of equal sizes the first would serve
        rack, wanted, _ = asked(dies, [], demands)
        served, lost = [0.0] * len(dies), [0.0] * len(dies)
        for demand in wanted:
            choice = ferrule.choose_die(rack, demand.target)
            if choice.found:
                served[choice.index] += demand.weight
                others = rack[:choice.index] + rack[choice.index + 1:]
                lost[choice.index] += demand.weight * (not ferrule.choose_die(others, demand.target).found)
        worths = ferrule.rank_dies(rack, wanted, 8)
        assert sorted(worth.index for worth in worths) == list(range(len(dies)))
        for worth in worths:
            assert (worth.serves, worth.lost) == (served[worth.index], lost[worth.index])
        assert [worth.lost for worth in worths] == sorted(lost, reverse=True)


def test_bad_input_names_the_member():
    with pytest.raises(ferrule.DemandError) as said:
        ferrule.find_rack_curve([], [Demand("20 mm", -1)], [Offer("18 mm")], [])
    assert said.value.name == "DEMAND_WEIGHT_OUT_OF_RANGE" and said.value.path == "demands"
    with pytest.raises(ferrule.OfferError) as said:
        ferrule.rank_offers([], ["20 mm"], [Offer("18 mm", 3), Offer("19 mm")], 8)
    assert said.value.name == "OFFER_PRICE_MISSING"
    with pytest.raises(ferrule.ArgumentError):
        ferrule.choose_rack([], [], [Offer("18 mm")], [])
