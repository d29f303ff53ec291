# SPDX-License-Identifier: MIT
from concurrent.futures import ThreadPoolExecutor

import ferrule as f

joint = f.Joint(hose=("12.7 mm", "19.9 mm"), stem="12.95 mm", ferrule=("2.4 mm", "25.6 mm"))
uncertainties = f.Uncertainties(hose_inside="0.08 mm", hose_outside="0.10 mm", stem_outside="0.02 mm", ferrule_wall="0.03 mm",
                  diameter="0.05 mm")
allowed = f.RatioRange("15 %", "25 %")


def share(first):
    """Ten blocks of 16384 trials, from a block on."""
    return f.simulate_shares(joint, uncertainties, allowed, "23.51 mm", trials=f.Trials(seed=1, first_block=first, blocks=10))


with ThreadPoolExecutor() as pool:
    first, *others = pool.map(share, range(0, 100, 10))
for other in others:
    first = f.merge_counts(first, other)
simulated = f.find_simulated_shares(first)
print(f"simulated {simulated.shares.inside:.3f %} ± {simulated.standard_error:.3f %}")
print(f"exact     {f.conforming_share(joint, uncertainties, allowed, '23.51 mm').inside:.3f %}")
