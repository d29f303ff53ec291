# SPDX-License-Identifier: MIT
"""Rows of schedule.h."""
from catalogue.shared import *  # noqa: F403

row("fer_plan_schedule", """die 22 does the first and the third job at two settings, and 28 is left for the second: one die and three settings, by hand
>>> times = ChangeTimes(die_seconds=240, dial_seconds=180)
>>> turns, schedule = plan_schedule(["23.51 mm", "30 mm", "24 mm"], {}, ["22 mm", "28 mm"], times, Mounted(die_mounted=True, setting="1.51 mm"))
>>> [turn.job for turn in turns], schedule.change_seconds, schedule.optimal
([0, 2, 1], 600, True)
""", judged=DECIDES, jobs=JOBS, press=PRESS, dies=RACK, times=CHANGE_TIMES, mounted=MOUNTED, aim={"nearest_only": any_of(0, 1)})

row("fer_time_schedule", """as they come the die changes twice, and the dial is set each time, by hand
>>> times = ChangeTimes(die_seconds=240, dial_seconds=180)
>>> turns, schedule = time_schedule(["23.51 mm", "30 mm", "24 mm"], {}, ["22 mm", "28 mm"], times, Mounted(die_mounted=True, setting="1.51 mm"))
>>> [turn.change_seconds for turn in turns], schedule.change_seconds, schedule.end_bound
([0, 420, 420], 840, 600)
""", judged=DECIDES, jobs=JOBS, press=PRESS, dies=RACK, times=CHANGE_TIMES, mounted=MOUNTED, aim={"nearest_only": any_of(0, 1)})
