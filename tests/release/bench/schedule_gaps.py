# SPDX-License-Identifier: MIT
"""How far schedules are from the best and from their bounds, over random days of a fixed seed: writes schedule_gaps.csv.

Usage: PYTHONPATH=build/release/python /usr/bin/python3 tests/release/bench/schedule_gaps.py [DAYS]

Days are those of tests/agree/python/test_schedule.py. Up to 12 kinds the programme says what is best, and the improved order is what the
library gives where the steps do not do for it. Times of two ways without planning stand beside: as the orders came, and by die size,
both with the nearest die.
"""
import csv
import pathlib
import random
import statistics
import sys

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parents[1] / "agree/python"))
import ferrule  # noqa: E402
import test_schedule as days  # noqa: E402

HEADER = ("days", "kinds", "number of days", "gap, mean", "gap, most", "shown to be the best", "as they came", "by die size", "improved by best, mean", "most")


def listed(jobs):
    return ferrule.time_schedule(days.asked(jobs), {}, days.DIES, days.GIVEN, days.MOUNTED, ferrule.ScheduleAim(nearest_only=True))[1].change_seconds


def by_size(jobs):
    return sorted(jobs, key=lambda job: max(mode[1] for mode in days.modes(job)) * 1e4 + job[0])


def one(jobs, small):
    whole = days.plan(jobs)[1]
    improved = days.plan(jobs, steps=2e5)[1].change_seconds if small else whole.change_seconds
    bound = max(whole.end_bound, 1)
    return whole.kinds, whole.change_seconds / bound - 1, whole.optimal, listed(jobs) / whole.change_seconds, \
        listed(by_size(jobs)) / whole.change_seconds, improved / whole.change_seconds


def rows(count):
    for kind in ("depot", "crossing"):
        rng = random.Random(f"gaps {kind}")
        for kinds in (12, 24, 40, 60):
            drawn = [list(dict.fromkeys(days.draw(rng, 4 * kinds, kind)))[:kinds] for _ in range(count)]
            number, gaps, optimal, came, size, improved = zip(*(one(jobs, kinds == 12) for jobs in drawn))
            best = [f"{statistics.mean(improved):.4f}", f"{max(improved):.3f}"] if kinds == 12 else ["", ""]
            yield [kind, f"{min(number)} to {max(number)}", count, f"{100 * statistics.mean(gaps):.2f} %", f"{100 * max(gaps):.1f} %",
                   f"{100 * sum(optimal) / count:.0f} %", f"{statistics.mean(came):.2f}", f"{statistics.mean(size):.2f}", *best]


def main():
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    with (HERE / "schedule_gaps.csv").open("w", newline="", encoding="ascii") as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(HEADER)
        for row in rows(count):
            print(*row, sep=", ", flush=True)
            table.writerow(row)


if __name__ == "__main__":
    main()
