# SPDX-License-Identifier: MIT
"""The shop: dies against all sets of offers, the days of one and two presses by their lists and due times; the page holds what the text says."""
import csv
import html
import itertools
import re

import pytest
from programs import EXAMPLES, run_shop

SHOP = EXAMPLES / "shop"


def table(name):
    with (SHOP / name).open(encoding="utf-8") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def number(text):
    return 0.0 if text == "-" else float(text.split()[0])


@pytest.fixture(scope="module")
def shown(tmp_path_factory):
    page = tmp_path_factory.mktemp("shop") / "shop.html"
    done = run_shop(page)
    assert (done.status, done.errors) == (0, "")
    return done.text, page.read_text(encoding="utf-8")


def test_every_price_reaches_what_the_best_of_all_sets_does(shown):
    """Sets of up to four dies with and without the adapter set of 350, on dies of 22 and 28 mm that are owned."""
    year = [(number(row["target"]), float(row["pieces"]), number(row["margin"])) for row in table("year.csv")]
    offers = [(number(row["size"]), number(row["reach"]) or 7.0, int(row["adapter"]), float(row["price"])) for row in table("offers.csv")]
    total = sum(pieces for _, pieces, _ in year)

    def reached(dies):
        return sum(pieces for target, pieces, margin in year
                   if any(size <= target - margin + 1e-9 and target + margin <= size + reach + 1e-9 for size, reach in dies))
    points = re.findall(r"^(\d+) +(\d+) +([\d.]+) % ", shown[0], re.MULTILINE)
    assert len(points) > 5 and points[0][:2] == ("0", "0")
    for price, dies, share in points:
        if int(dies) <= 4:
            best = max(reached([(22.0, 7.0), (28.0, 7.0), *((size, reach) for size, reach, _, _ in chosen)])
                       for count in range(5) for chosen in itertools.combinations(offers, count)
                       if sum(die[3] for die in chosen) + 350 * any(die[2] for die in chosen) <= float(price))
            assert float(share) == pytest.approx(100 * best / total, abs=0.051)


def test_the_witness_needs_a_die_each(shown):
    said = re.search(r"Fewer than (\d+) dies more will not do: no die does two of (.*)\.\n", shown[0])
    targets = [number(text) for text in said[2].split(", ")]
    assert len(targets) == int(said[1]) > 2
    for row in table("offers.csv"):
        size, reach = number(row["size"]), number(row["reach"]) or 7.0
        assert sum(size <= target <= size + reach for target in targets) <= 1


def test_the_days_list_every_order_once_and_planning_saves(shown):
    orders = [row["order"] for row in table("orders.csv")]
    one, two = shown[0].split("The day on one press")[1].split("What planning saves"), shown[0].split("The day on two presses: press 1")[1]
    assert sorted(re.findall(r"^(1\d\d) ", one[0], re.MULTILINE)) == orders
    assert sorted(re.findall(r"^(1\d\d) ", two, re.MULTILINE)) == orders
    ways = dict(re.findall(r"^(planned|planned, nearest dies only|as they came|by die size) +([\d.]+) min", one[1], re.MULTILINE))
    times = {name: float(value) for name, value in ways.items()}
    assert len(times) == 4 and times["planned"] <= times["planned, nearest dies only"] < min(times["as they came"], times["by die size"])
    assert "nothing is late" in two


def test_page_says_what_the_text_says(shown):
    text, page = shown
    assert "invented" in page
    words = re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]+>", " ", page)))
    for row in table("orders.csv"):
        assert row["order"] in words
    for line in re.findall(r"^(?:Fewer|No rack|Both).*$", text, re.MULTILINE):
        assert line.strip() in words
