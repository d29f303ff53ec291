# Function: fer_crimp_diameter and fer_crimp_window, plain formula
# Code: fer_plain_forward of lib/crimp/compression_private.h
# Bound: 1.27 units in the last place
# M = s + 2w + (do - di)(1 - c). M is scaled to the binade from 1 to 2, and the hose walls A = do - di to the same, by powers
# of two; T = s + 2w, which is above 2^-31 of M, G = A(1 - c). Both differences and T have what their rounding takes in the low
# part of a pair, exactly (Dekker, Knuth), since 1 - c is below 2^53 wherever the ferrule touches.
@rnd = float<ieee_64, ne>;
walls = rnd(A); walls_low = A - walls;
left = rnd(C); left_low = C - left;
metal = rnd(T); metal_low = T - metal;
p rnd= walls * left_low;
q rnd= walls_low * left;
r rnd= p + q;
lost rnd= r + metal_low;
product = walls * left;
gap = rnd(product);
all = metal + lost;
rest = rnd(all);
X = rest + gap;
D = rnd(X);
G = A * C;
M = T + G;

# The last sum: what lies below and above 2 apart.
{ M in [1,2] /\ |X - M| <= 0x0.c2p-52 /\ X in [0.5,2] -> |D - M| <= 0x1.45p-52 }
{ M in [1,2] /\ |X - M| <= 0x0.c2p-52 /\ X in [2,3] -> |D - M| <= 0x1.45p-52 }
{ M in [1,2] /\ |X - M| <= 0x1.02p-52 /\ X in [0.5,2] /\ @FIX(X,-52) -> |D - M| <= 0x1.45p-52 }
{ M in [1,2] /\ |X - M| <= 0x1.02p-52 /\ X in [2,3] /\ @FIX(X,-52) -> |D - M| <= 0x1.45p-52 }

# Until there: where metal or gap is the larger, and each rounded sum and product below and above a power of two.
{ A in [1,2] /\ M in [1,2] /\ T in [1,2] /\ G in [0,1b-4] /\ product in [0,1] /\ all in [0,2] -> |X - M| <= 0x0.c2p-52 }
{ A in [1,2] /\ M in [1,2] /\ T in [1,2] /\ G in [0,1b-4] /\ product in [0,1] /\ all in [2,3] -> |X - M| <= 0x0.c2p-52 }
{ A in [1,2] /\ M in [1,2] /\ T in [1,1.9375] /\ G in [1b-4,1] /\ product in [0,1] /\ all in [0,2] -> |X - M| <= 0x0.c2p-52 }
{ A in [1,2] /\ M in [1,2] /\ T in [1,1.9375] /\ G in [1b-4,1] /\ product in [1,2] /\ all in [0.5,1] -> |X - M| <= 0x0.c2p-52 }
{ A in [1,2] /\ M in [1,2] /\ T in [1,1.9375] /\ G in [1b-4,1] /\ product in [1,2] /\ all in [1,2] -> |X - M| <= 0x1.02p-52 /\ @FIX(X,-52) }
{ A in [1,2] /\ M in [1,2] /\ T in [1,1.9375] /\ G in [1b-4,1] /\ all in [2,3] -> 0 >= 1 }
{ A in [1,2] /\ M in [1,2] /\ T in [1b-31,1] /\ G in [1,0x1.fffffffep0] /\ product in [0.5,1] /\ all in [0,1] -> |X - M| <= 0x0.c2p-52 }
{ A in [1,2] /\ M in [1,2] /\ T in [1b-31,1] /\ G in [1,0x1.fffffffep0] /\ product in [1,3] /\ all in [0,1] -> |X - M| <= 0x0.c2p-52 }
{ A in [1,2] /\ M in [1,2] /\ T in [1b-31,1] /\ G in [1,0x1.fffffffep0] /\ product in [0.5,1] /\ all in [1,2] -> |X - M| <= 0x0.c2p-52 }
{ A in [1,2] /\ M in [1,2] /\ T in [1b-31,1] /\ G in [1,0x1.fffffffep0] /\ product in [1,3] /\ all in [1,2] -> |X - M| <= 0x1.02p-52 /\ @FIX(X,-52) }
{ A in [1,2] /\ M in [1,2] /\ T in [0,1] /\ G in [0,1] /\ product in [0,1] -> |X - M| <= 0x0.c2p-52 }
{ A in [1,2] /\ M in [1,2] /\ T in [0,1] /\ G in [0,1] /\ product in [1,2] /\ all in [0,1] -> |X - M| <= 0x0.c2p-52 }
{ A in [1,2] /\ M in [1,2] /\ T in [0,1] /\ G in [0,1] /\ product in [1,2] /\ all in [1,2] -> |X - M| <= 0x1.02p-52 /\ @FIX(X,-52) }

C -> G / A { A <> 0 };
all -> T + r + (lost - (r + metal_low));
product -> G - A * left_low - walls_low * left;
X - M -> (rest - all) + (lost - (r + metal_low)) + (r - (p + q)) + (p - walls * left_low)
  + (q - walls_low * left) + (gap - product) - walls_low * left_low;
D - M -> (D - X) + (X - M);
M -> X - (X - M);
