# Function: fer_learn_priors
# Code: count_causes of lib/inspect/diagnosis.c
# Bound: 1 unit in the last place
# t w + n, the number of pieces n exact. The sum is scaled to the binade from 1 to 2 by a power of two.
@rnd = float<ieee_64, ne>;
t = rnd(tx); w = rnd(wx); n = rnd(nx);
product = t * w;
p = rnd(product);
X = p + n;
R = rnd(X);
M = product + n;
{ product in [0,2] /\ n in [0,2] /\ M in [1,2] /\ X in [0.5,2] -> |R - M| <= 1b-52 }
{ product in [0,2] /\ n in [0,2] /\ M in [1,2] /\ X in [2,3] -> |R - M| <= 1b-52 }
R - M -> (R - X) + (X - M);
X - M -> p - product;
