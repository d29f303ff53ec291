# Function: of pairs, lib/base/numeric/pair.h: fer_pair_add of numbers of one sign
# Code: fer_pair_add
# Bound: 2^-103 of the sum
# Both sums of two doubles keep their rounding exactly (Knuth), and so does the quick sum (Dekker). The larger high part is from 1
# to 2; powers of two drop out.
@rnd = float<ieee_64, ne>;
s = rnd(ah + bh); s_low = ah + bh - s;
t = rnd(al + bl); t_low = al + bl - t;
q rnd= s_low + t;
u = rnd(s + q); u_low = s + q - u;
v rnd= u_low + t_low;
R = u + v;
M = ah + al + bh + bl;
{ ah in [1,2] /\ bh in [0,2] /\ |al| <= 1b-53 /\ |bl| <= 1b-53 -> |(R - M) / M| <= 1b-103 }
R - M -> (q - (s_low + t)) + (v - (u_low + t_low));
