# Function: fer_compression, plain formula; fer_minimum_reduction; fer_opening_clearance (0.5 units, rounded once)
# Code: fer_plain_share of lib/crimp/compression_private.h; reduction_needed of lib/crimp/forming.c
# Bound: 1.52 units in the last place
# All lengths are whole multiples of 2^-62 mm (0.001 mm is above 2^-10) and below 2^20: what is summed of do, di, D, 2w and s is a
# multiple of 2^-62 below 2^23, and a low part, below 2^-30, can hold all of its 32 places. So no sum of pairs misses
# anything, and the quotient has the bound of pair_ratio.g. The minimum reduction is such a quotient, of products of pairs.
@rnd = float<ieee_64, ne>;
low = rnd(rest);
{ @FIX(rest, -62) /\ |rest| <= 1b-30 -> low - rest in [0,0] }
