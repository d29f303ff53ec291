#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Which dies to buy for a year's work, and the order of a day on one press and on two. All data invented.

Usage: PYTHONPATH=build/release/python /usr/bin/python3 examples/shop/shop.py [--page FILE.html]

The depot owns the dies of 22 and 28 mm. What is bought for which price comes from find_rack_curve(), why fewer dies will not do from
find_demand_prices(), the order of the day from plan_schedule(). Times of changes are invented, too: measure your own.
"""
import argparse
import csv
import html
import itertools
import pathlib

import ferrule as f

HERE = pathlib.Path(__file__).parent
OWNED = [f.Die("22 mm"), f.Die("28 mm")]
DIES = [f.Die("13 mm", reach="4 mm", adapter=1), f.Die("16 mm", reach="5 mm"), f.Die("19 mm"), f.Die("22 mm"), f.Die("25 mm"), f.Die("28 mm"), f.Die("47 mm")]
PRESS = f.Press(graduation="0.05 mm", correction="-0.15 mm")
SECOND_PRESS = f.Press(graduation="0.1 mm", correction="0.05 mm")
TIMES = f.ChangeTimes(adapter_seconds=480, die_seconds=240, dial_seconds=180, reel_seconds=90, bin_seconds=30)
MOUNTED = f.Mounted(die_mounted=True, die=3, setting="1.35 mm", reel=1, bin=1)
START = 7 * 3600
ADAPTERS = [f.AdapterOffer(1, 350)]


def rows(name):
    """Rows of a table; a cell "-" is not given."""
    with (HERE / name).open(encoding="utf-8") as file:
        for row in csv.DictReader(line for line in file if not line.startswith("#")):
            yield {key: value for key, value in row.items() if value != "-"}


def clock(seconds):
    return f"{(START + seconds) // 3600}:{(START + seconds) // 60 % 60:02}"


def due_seconds(text):
    hours, minutes = text.split(":")
    return int(hours) * 3600 + int(minutes) * 60 - START


def minutes(seconds):
    return f"{seconds / 60:g} min"


# ---- which dies to buy ----------------------------------------------------------------------------------------

def buy():
    demands = [f.Demand(row["target"], int(row["pieces"]), margin=row.get("margin")) for row in rows("year.csv")]
    offers = [f.Offer(f.Die(row["size"], reach=row.get("reach"), adapter=int(row["adapter"])), int(row["price"])) for row in rows("offers.csv")]
    table = [("price", "dies", "pieces of the year", "buy", "no rack of this price is better")]
    for point in f.find_rack_curve(OWNED, demands, offers, ADAPTERS):
        purchases, rack = f.choose_rack(OWNED, demands, offers, ADAPTERS, f.RackAim(price_maximum=max(point.price, 1)))
        sizes = ", ".join(f"{offers[place].die.size:.0f mm}" for place in purchases)
        table.append((f"{rack.price:.0f}", str(rack.bought), f"{rack.reached:.1f %}", sizes or "nothing", "yes" if rack.optimal else "not known"))
    prices, minimum = f.find_demand_prices(OWNED, demands, offers, 8)
    dear = [f"{demand.target} ({price:.0f})" for demand, price in zip(demands, prices) if price > 0]
    notes = [f"No rack that does all that can be done costs less than {minimum:.0f}, adapter sets not counted: these targets bear prices "
             f"that no die's work exceeds: {', '.join(dear)}."]
    ones, number = f.find_demand_prices(OWNED, demands, [f.Offer(offer.die) for offer in offers], 8)
    witness = ", ".join(str(demand.target) for demand, price in zip(demands, ones) if price > 0)
    notes.append(f"Fewer than {number:.0f} dies more will not do: no die does two of {witness}.")
    left = rack.left_out
    notes.append(f"{left} target has no die, owned or on offer." if left == 1 else f"{left} targets have no die, owned or on offer.")
    return "Dies to buy for the year", table, notes


# ---- the day ------------------------------------------------------------------------------------------------------

def jobs_of_the_day():
    orders = list(rows("orders.csv"))
    return [row["order"] for row in orders], [
        f.Job(row["target"], lobe_maximum=row["lobe"], reel=int(row["reel"]), bin=int(row["bin"]), work_seconds=60 * int(row["work"].split()[0]),
              due_seconds=due_seconds(row["due"]) if "due" in row else 0) for row in orders]


def nearest(jobs):
    """Place of the nearest die of each job."""
    return [turn.die for turn in sorted(f.time_schedule(jobs, PRESS, DIES, TIMES, MOUNTED, f.ScheduleAim(nearest_only=True))[0], key=lambda turn: turn.job)]


def list_turns(numbers, jobs, turns):
    table = [("order", "die", "dial", "change", "takes", "from", "done", "late")]
    for turn in turns:
        changes = [word for word in ("adapter", "die", "dial", "reel", "bin") if getattr(turn, f"{word}_changes")]
        table.append((numbers[turn.job], f"{DIES[turn.die].size:.0f mm}", f"{turn.setting:.2f mm}", ", ".join(changes) or "nothing", minutes(turn.change_seconds),
                      clock(turn.start_seconds), clock(turn.end_seconds), minutes(turn.late_seconds) if turn.late_seconds else ""))
    return table


def run_day():
    numbers, jobs = jobs_of_the_day()
    given = PRESS, DIES, TIMES, MOUNTED
    turns, planned = f.plan_schedule(jobs, *given)
    dies = nearest(jobs)
    by_size = [jobs[i] for i in sorted(range(len(jobs)), key=lambda i: (dies[i], jobs[i].target.mm))]
    one_die = f.ScheduleAim(nearest_only=True)
    ways = [("planned", planned), ("planned, nearest dies only", f.plan_schedule(jobs, *given, one_die)[1]),
            ("as they came", f.time_schedule(jobs, *given, one_die)[1]), ("by die size", f.time_schedule(by_size, *given, one_die)[1])]
    compared = [("order of the jobs", "changes", "done", "latest by", "highest lobe")]
    compared += [(name, minutes(way.change_seconds), clock(way.end_seconds), minutes(way.late_seconds), f"{way.lobe_maximum:.3f mm}") for name, way in ways]
    notes = ["No order takes less." if planned.optimal else f"No order saves more than {minutes(planned.end_seconds - planned.end_bound)} against this one.",
             "A first piece is measured and accepted after every change before the rest is crimped."]
    return [("The day on one press", list_turns(numbers, jobs, turns), notes), ("What planning saves", compared, [])]


def split_presses(jobs, presses):
    """The jobs of each press, each die at one of them: smallest greatest lateness, then the earliest end. All sets of dies are tried."""
    dies, best = nearest(jobs), None
    used = sorted(set(dies))
    for places in itertools.product(range(len(presses)), repeat=len(used)):
        parts = [[job for job, die in enumerate(dies) if places[used.index(die)] == press] for press in range(len(presses))]
        plans = [f.plan_schedule([jobs[i] for i in part], press, DIES, TIMES, mounted, f.ScheduleAim(nearest_only=True))
                 for part, (press, mounted) in zip(parts, presses)]
        rank = max(plan[1].late_seconds for plan in plans), max(plan[1].end_seconds for plan in plans)
        if best is None or rank < best[0]:
            best = rank, parts, plans
    return best


def run_two_presses():
    numbers, jobs = jobs_of_the_day()
    (late, end), parts, plans = split_presses(jobs, [(PRESS, MOUNTED), (SECOND_PRESS, f.Mounted())])
    out = []
    for number, (part, (turns, _)) in enumerate(zip(parts, plans), 1):
        out.append((f"The day on two presses: press {number}", list_turns([numbers[i] for i in part], jobs, turns), []))
    out[-1][2].append(f"Both are done at {clock(end)}, " + (f"the latest order {minutes(late)} late." if late else "and nothing is late.") +
                      " Each die is at one press, each job takes its nearest; no other split of the dies is better.")
    return out


# ---- showing --------------------------------------------------------------------------------------------------------

def as_text(title, table, notes):
    widths = [max(map(len, column)) for column in zip(*table)]
    lines = ["  ".join(cell.ljust(width) for cell, width in zip(row, widths)).rstrip() for row in table]
    return "\n".join([title, "", *lines, *([""] if notes else []), *notes, ""])


def as_page(sections):
    def cells(row, tag):
        return "<tr>" + "".join(f"<{tag}>{html.escape(cell)}</{tag}>" for cell in row) + "</tr>"
    body = "".join(f"<h2>{html.escape(title)}</h2><table>{cells(table[0], 'th')}{''.join(cells(row, 'td') for row in table[1:])}</table>"
                   + "".join(f"<p>{html.escape(note)}</p>" for note in notes) for title, table, notes in sections)
    style = "body{font:15px sans-serif;margin:1.5em;max-width:60em}table{border-collapse:collapse}th,td{text-align:left;padding:.2em .8em .2em 0;border-bottom:1px solid #9aa5b0}"
    return (f'<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Shop</title><style>{style}</style></head><body><h1>Dies and days of a depot</h1>'
            f"<p>All data are invented. Do not crimp anything by them.</p>{body}</body></html>\n")


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--page", type=pathlib.Path, help="write an HTML page there as well")
    given = options.parse_args()
    sections = [buy(), *run_day(), *run_two_presses()]
    for section in sections:
        print(as_text(*section))
    if given.page:
        given.page.parent.mkdir(parents=True, exist_ok=True)
        given.page.write_text(as_page(sections), encoding="utf-8")


if __name__ == "__main__":
    main()
