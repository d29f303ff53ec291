# Function: gap of fer_crimp_shape, fer_gap_offset, resultants of fer_find_die_force
# Code: lib/crimp/lobe.c, find_die_force of lib/crimp/forming.c
# Bound: 1.6 units in the last place
# The sine's own error (sine.g), 0.27 times 2^-53 of the value, then the rounding of a pair (last_rounding.g, 0.51), or of a pair
# by a double (pair_times.g, 1.02 units). V is the value with the sine's error. Scaled to the binade from 1 to 2.
@rnd = float<ieee_64, ne>;
R = rnd(Rx);
{ M in [1,2] /\ |V - M| <= 0x0.48p-52 /\ |R - V| <= 0x1.05p-52 -> |R - M| <= 0x1.50p-52 }
R - M -> (R - V) + (V - M);
