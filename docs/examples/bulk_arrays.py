# SPDX-License-Identifier: MIT
import numpy as np
from ferrule import bulk

inside = np.array([12.7, 9.5, 19.0, 25.4])
outside = np.array([19.9, 16.2, 16.2, 35.1])
diameter, status = bulk.crimp_diameter(hose_inside_mm=inside, hose_outside_mm=outside, stem_outside_mm=inside + 0.3,
                                       ferrule_wall_inch=0.0945, compression_percent=20, errors="mark", status=True)
print(np.round(diameter, 2), status)

# A sweep: three compressions for each of the joints that are possible.
grid = bulk.crimp_diameter(hose_inside_mm=inside, hose_outside_mm=outside, stem_outside_mm=inside + 0.3, ferrule_wall_mm=2.4,
                           compression_percent=np.array([[15], [20], [25]]), where=status == 0)
print(np.round(grid, 2))

# Many targets, one rack.
choice = bulk.choose_die(target_mm=[15.5, 22.0, 40.0], die_size_mm=[16, 19, 39])
print(choice.found, choice.index, choice.offset_mm)

try:
    bulk.crimp_diameter(hose_inside=inside, hose_outside_mm=outside, stem_outside_mm=inside, ferrule_wall_mm=2, compression_percent=20)
except TypeError as error:
    print(str(error).split(",")[0])
