# Function: fer_fitted_outside; fer_crimp_diameter, fer_crimp_window and fer_crimped_wall with the ends fixed; fer_crimp_diameter with another basis; fer_gap_offset and gap and tape of fer_crimp_shape before the sine's own error; fer_expected_deviation
# Code: fer_pair_value of lib/base/numeric/pair.h
# Bound: 0.51 units in the last place
# Sums of one sign, products and roots of pairs, at most 30 of them one after the other, miss 2^-95 of the value M: 30 times
# the worst of pair_sum.g, pair_product.g and pair_root.g, put together by hand. One rounding makes a double of it. M is from 1 to 2; powers of two drop out.
@rnd = float<ieee_64, ne>;
D = rnd(X);
{ M in [1,2] /\ |X - M| <= 1b-94 /\ X in [0.5,1] -> |D - M| <= 0x0.82p-52 }
{ M in [1,2] /\ |X - M| <= 1b-94 /\ X in [1,2] -> |D - M| <= 0x0.82p-52 }
{ M in [1,2] /\ |X - M| <= 1b-94 /\ X in [2,3] -> |D - M| <= 0x0.82p-52 }
D - M -> (D - X) + (X - M);
M -> X - (X - M);
