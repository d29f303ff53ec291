# Function: fer_lobe_height, and the same of fer_crimp_shape
# Code: lobe_height of lib/crimp/lobe.c
# Bound: 1.7 units in the last place
# A ratio of pairs (pair_ratio.g, 1.52 units), whose upper pair misses the sine's own error twice (sine.g) and 2^-99: of the exact
# height M the quotient Q of the pairs is so far away. Q and M are scaled to the binade from 1 to 2.
@rnd = float<ieee_64, ne>;
R = rnd(Rx);
{ M in [1,2] /\ |Q - M| <= 0x0.24p-52 /\ |R - Q| <= 0x1.85p-52 -> |R - M| <= 0x1.b3p-52 }
R - M -> (R - Q) + (Q - M);
