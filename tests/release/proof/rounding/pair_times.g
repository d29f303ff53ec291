# Function: fer_find_die_force: all four forces
# Code: fer_pair_times of lib/base/numeric/pair.h
# Bound: 1.02 units in the last place
# The pair is a product of pairs: 2^-100 of it is missing at most, with what pi and the sine leave out (pair_product.g, sine.g for
# the resultants). Its high part and the pressure are from 1 to 2; powers of two drop out.
@rnd = float<ieee_64, ne>;
ah = rnd(ahx); al = rnd(alx); b = rnd(bx);
p = rnd(ah * b);
q rnd= al * b;
X = p + q;
R = rnd(X);
M = (ah + al) * b;
{ ah in [1,2] /\ b in [1,2] /\ |al| <= 1b-53 /\ M in [1,2] /\ X in [0.5,2] /\ ah * b in [0.5,2] -> |R - M| <= 0x1.01p-52 }
{ ah in [1,2] /\ b in [1,2] /\ |al| <= 1b-53 /\ M in [1,2] /\ X in [2,3] /\ ah * b in [0.5,2] -> |R - M| <= 0x1.01p-52 }
{ ah in [1,2] /\ b in [1,2] /\ |al| <= 1b-53 /\ M in [1,2] /\ ah * b in [2,3] /\ X in [0.5,2] -> |R - M| <= 0x1.01p-52 }
{ ah in [1,2] /\ b in [1,2] /\ |al| <= 1b-53 /\ M in [1,2] /\ ah * b in [2,3] /\ X in [2,3] -> |R - M| <= 0x1.01p-52 }
{ ah in [1,2] /\ b in [1,2] /\ |al| <= 1b-53 /\ M in [2,4] /\ X in [1,4] /\ ah * b in [1,4] -> |R - M| <= 0x1.01p-51 }
{ ah in [1,2] /\ b in [1,2] /\ |al| <= 1b-53 /\ M in [2,4] /\ X in [4,5] /\ ah * b in [1,4] -> |R - M| <= 0x1.01p-51 }
R - M -> (R - X) + (X - M);
X - M -> (p - ah * b) + (q - al * b);
ah * b -> M - al * b;
