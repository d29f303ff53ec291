# Function: of pairs, lib/base/numeric/pair.h: fer_pair_root
# Code: fer_pair_root
# Bound: 2^-100 of the root
# The rest a - r^2 is found by pairs from a square that keeps its rounding exactly; what that misses is `lost`, 2^-101 of a at
# most (pair_sum.g). The number A is from 1 to 4, and its root M from 1
# to 2; the root of its high part alone is 2^-53 off at most, and rounded by as much.
@rnd = float<ieee_64, ne>;
A = M * M;
r rnd= sqrt(ah);
exact = A - r * r;
rest = rnd(exact + lost);
q = rest / (2 * r);
c = rnd(q);
R = r + c;
{ M in [1,2] /\ |A - ah| <= 1b-52 /\ ah in [1,4] /\ |M - r| <= 1b-51 /\ r in [1,2] /\ |lost| <= 1b-101 -> |R - M| <= 1b-100 }
R - M -> (c - q) + (rest - (exact + lost)) / (2 * r) + lost / (2 * r) + (M - r) * (M - r) / (2 * r) { r <> 0 };
exact -> (M - r) * (M + r);
