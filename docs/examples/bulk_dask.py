# SPDX-License-Identifier: MIT
import concurrent.futures
import tempfile

import dask
import dask.array as da
import numpy as np
from ferrule import bulk

# Columns that need not fit into memory: here files that are read block by block.
with tempfile.TemporaryDirectory() as folder:
    random = np.random.default_rng(1)
    for name, base in (("inside", 12.7), ("outside", 19.9), ("stem", 12.95), ("wall", 2.4)):
        np.save(f"{folder}/{name}.npy", base * random.uniform(1, 1.01, 1_000_000))
    read = lambda name: da.from_array(np.load(f"{folder}/{name}.npy", mmap_mode="r"), chunks=100_000)
    diameter, status = bulk.crimp_diameter(hose_inside_mm=read("inside"), hose_outside_mm=read("outside"),
                                           stem_outside_mm=read("stem"), ferrule_wall_mm=read("wall"), compression_percent=20,
                                           errors="mark", status=True)
    # Nothing has been computed yet. Threads are enough: no block holds the interpreter's lock.
    mean, failed = dask.compute(diameter.mean(), (status != 0).sum(), scheduler="threads", num_workers=2)
print(f"{mean:.2f} mm on average, {failed} failed")

# The same with plain threads: each writes its own part of the results.
inside = 12.7 * random.uniform(1, 1.01, 1_000_000)
result = np.empty_like(inside)


def compute(rows):
    bulk.crimp_diameter(hose_inside_mm=inside[rows], hose_outside_mm=19.9, stem_outside_mm=12.95, ferrule_wall_mm=2.4,
                        compression_percent=20, out=result[rows])


with concurrent.futures.ThreadPoolExecutor(2) as pool:
    list(pool.map(compute, (slice(i, i + 100_000) for i in range(0, 1_000_000, 100_000))))
print(f"{result.mean():.2f} mm on average")
