# Function: of pairs, lib/base/numeric/pair.h: fer_pair_ratio
# Code: fer_pair_ratio
# Bound: 1.02 units in the last place, 1.52 just below a power of two
# Both high parts are from 1 to 2; powers of two drop out. The quotient Q is from 1/2 to 1, or from 1 to 2. What the
# first quotient's rounding takes is not made up for: half a unit, and the last rounding another half. X above
# 1 + 2^-53 with Q up to 1 would need a first quotient rounded up from 1 + 2^-53 by nearly half a unit: only 2 - 2^-52 by
# 2 - 2^-51 is one, Q is 1 then and X below.
@rnd = float<ieee_64, ne>;
ah = rnd(ahx); bh = rnd(bhx); al = rnd(alx); bl = rnd(blx);
f = rnd(ah / bh);
t rnd= f * bl;
e rnd= al - t;
c rnd= e / bh;
X = f + c;
R = rnd(X);
Q = (ah + al) / (bh + bl);
{ ah in [1,2] /\ bh in [1,2] /\ |al| <= 1b-53 /\ |bl| <= 1b-53 /\ Q in [0.5,1] /\ X in [0.25,1] /\ ah / bh in [0.5,1] -> |R - Q| <= 0x1.05p-53 }
{ ah in [1,2] /\ bh in [1,2] /\ |al| <= 1b-53 /\ |bl| <= 1b-53 /\ Q in [0.5,1] /\ X in [1,2] /\ ah / bh in [0.5,1] -> |R - Q| <= 0x1.05p-53 }
{ ah in [1,2] /\ bh in [1,2] /\ |al| <= 1b-53 /\ |bl| <= 1b-53 /\ Q in [0.5,1] /\ X in [0.25,1] /\ ah / bh in [1,2] -> |R - Q| <= 0x1.85p-53 }
{ ah in [1,2] /\ bh in [1,2] /\ |al| <= 1b-53 /\ |bl| <= 1b-53 /\ Q in [0.5,1] /\ X in [1,0x1.00000000000008p0] /\ ah / bh in [1,2] -> |R - Q| <= 0x1.85p-53 }
{ ah in [1,2] /\ bh in [1,2] /\ |al| <= 1b-53 /\ |bl| <= 1b-53 /\ Q in [1,2] /\ X in [0.25,2] /\ ah / bh in [0.5,2] -> |R - Q| <= 0x1.05p-52 }
{ ah in [1,2] /\ bh in [1,2] /\ |al| <= 1b-53 /\ |bl| <= 1b-53 /\ Q in [1,2] /\ X in [2,3] /\ ah / bh in [0.5,2] -> |R - Q| <= 0x1.05p-52 }
R - Q -> (R - X) + (X - Q);
X - Q -> (c - e / bh) + (e - (al - t)) / bh + (f * bl - t) / bh + (f - ah / bh) + (bl / bh) * (Q - f) { bh <> 0 };
Q - f -> (al / bh - Q * (bl / bh)) - (f - ah / bh) { bh <> 0 };
