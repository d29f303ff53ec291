# Function: of pairs, lib/base/numeric/angle.h: fer_sine_pair, of half a segment's angle (gap of fer_crimp_shape, fer_gap_offset, resultants of fer_find_die_force) and of a quarter of it (lobe height)
# Code: fer_sine_pair of lib/base/numeric/angle.c
# Bound: 0.28 times 2^-53 of the sine up to pi/3, 0.07 up to pi/6
# What is taken off the angle t is t^3/6, of which 2^-98 is missing at most (pair_product.g), by the rest of the series,
# 1 - t^2/20 (1 - t^2/42 (...)), in doubles: within 1.2 times 2^-53 of its exact value, for the outermost difference is rounded
# once, what its product misses is a twentieth, and the series is complete to 1e-20. sin t is above 0.827 t up to pi/3,
# above 0.954 t up to pi/6.
t_squared = t * t;
part = t * t_squared / 6 + lost_part;
S = t - part * rest + lost_sum;
M = t - t * t_squared / 6 * exact;
{ t in [0.04,1.04720] /\ exact in [0.94,1] /\ |rest - exact| <= 0x1.34p-53 /\ |lost_part| <= 1b-98 /\ |lost_sum| <= 1b-98
  -> |(S - M) / t| <= 0x0.39p-53 }
{ t in [0.04,0.52360] /\ exact in [0.94,1] /\ |rest - exact| <= 0x1.34p-53 /\ |lost_part| <= 1b-98 /\ |lost_sum| <= 1b-98
  -> |(S - M) / t| <= 0x0.0fp-53 }
(S - M) / t -> t_squared / 6 * (exact - rest) + (lost_sum - lost_part * rest) / t { t <> 0 };
