# SPDX-License-Identifier: MIT
import pandas
import pint

import ferrule

# Quantities of pint are arguments, and come back.
units = pint.UnitRegistry()
joint = ferrule.Joint(hose=(12.7 * units.mm, 1.99 * units.cm), stem="12.95 mm", ferrule="2.4 mm")
target = ferrule.crimp_diameter(joint, "20 %")
print(f"{target:.2f mm}, as a quantity of pint {target.to_pint(units).to('inch'):.4f}")

# A table of pandas goes in, a Series or a table comes back.
orders = pandas.DataFrame({"hose_inside_mm": [12.7, 12.5], "hose_outside_mm": [19.9, 20.1], "stem_outside_mm": 12.95,
                           "ferrule_wall_mm": 2.4}, index=["A-101", "A-102"])
orders["target_mm"] = ferrule.bulk.crimp_diameter(orders, compression_percent=20)
window = ferrule.bulk.crimp_window(orders, lower_percent=15, upper_percent=25)
print(orders[["target_mm"]].join(window).round(2))
