# SPDX-License-Identifier: MIT
"""A table of orders and the readings of their first pieces; all figures are invented."""
import pandas

import ferrule
from ferrule import bulk

orders = pandas.DataFrame({
    "order": ["a", "b", "c"],
    "hose_inside_mm": [12.7, 12.7, None],
    "hose_outside": ["19.9 mm", "20.1 mm", "19.9 mm"],
    "published_mm": [23.5, None, 23.5],
}).set_index("order")
setups = bulk.plan_setup(orders, stem_outside_mm=12.95, ferrule_wall_mm=2.4, tolerance_mm=0.2, approval="approved", insertion_mm=31,
                         gauge_standard_uncertainty_mm=0.01, press=ferrule.Press(graduation="0.05 mm", opening="20 mm"),
                         dies=["19 mm", "22 mm"])
shown = setups[["target_mm", "die_size_mm", "dial_setting_mm", "path"]].round(2)
shown.insert(0, "readiness", bulk.words(setups.readiness, "Readiness"))
print(shown.to_string())
print(bulk.has(setups.remarks, "TARGET_COMPUTED"))

found = bulk.inspect_crimp(setups, diameters_mm=[[23.50, 23.52], [23.60, None], [None, None]], gauge_standard_uncertainty_mm=0.01)
print(bulk.words(found.decision, "Decision"), [ferrule.Status(n).name for n in found.status])
