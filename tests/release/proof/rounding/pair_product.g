# Function: of pairs, lib/base/numeric/pair.h: fer_pair_multiply
# Code: fer_pair_multiply
# Bound: 2^-102 of the product
# The product of the high parts keeps its rounding exactly (Dekker). Both high parts are from 1 to 2; powers of two drop out.
@rnd = float<ieee_64, ne>;
p = rnd(ah * bh); p_low = ah * bh - p;
c rnd= ah * bl;
d rnd= al * bh;
e rnd= c + d;
l rnd= p_low + e;
R = p + l;
M = (ah + al) * (bh + bl);
{ ah in [1,2] /\ bh in [1,2] /\ |al| <= 1b-53 /\ |bl| <= 1b-53 -> |(R - M) / M| <= 1b-102 }
R - M -> (l - (p_low + e)) + (e - (c + d)) + (c - ah * bl) + (d - al * bh) - al * bl;
