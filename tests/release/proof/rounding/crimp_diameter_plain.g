# Function: fer_crimp_diameter and fer_crimp_window, plain formula
# Code: fer_plain_forward of lib/crimp/compression_private.h
# Bound: 1.51 units in the last place
# M = a + b + (do - di)(1 - c), where a and b are s and 2w, the larger first. M is scaled to the binade from 1 to 2, and the hose
# walls A = do - di to the same, by powers of two; G = A(1 - c). Both differences have what their rounding takes in the low part of
# a pair, exactly (Dekker, Knuth), since 1 - c is below 2^53 wherever the ferrule touches.
@rnd = float<ieee_64, ne>;
a = rnd(a_); b = rnd(b_);
walls = rnd(A); walls_low = A - walls;
left = rnd(C); left_low = C - left;
p rnd= walls * left_low;
q rnd= walls_low * left;
lost rnd= p + q;
product = walls * left;
gap = rnd(product);
little = b + lost;
tail = rnd(little);
all = a + tail;
rest = rnd(all);
X = rest + gap;
D = rnd(X);
G = A * C;
M = a + b + G;

# The last sum: what lies below and above 2 apart.
{ M in [1,2] /\ |X - M| <= 0x1.02p-52 /\ X in [0.5,2] -> |D - M| <= 0x1.83p-52 }
{ M in [1,2] /\ |X - M| <= 0x0.e2p-52 /\ X in [2,3] -> |D - M| <= 0x1.83p-52 }
{ M in [1,2] /\ |X - M| <= 0x1.02p-52 /\ X in [2,3] /\ @FIX(X,-53) -> |D - M| <= 0x1.83p-52 }
{ M in [1,2] /\ |X - M| <= 0x1.42p-52 /\ X in [1,2] /\ @FIX(X,-52) -> |D - M| <= 0x1.83p-52 }
{ M in [1,2] /\ |X - M| <= 0x1.42p-52 /\ X in [2,3] /\ @FIX(X,-52) -> |D - M| <= 0x1.83p-52 }

# Until there, with metal above 1. The smaller part is at most 1 - G/2, and `lost` below G 2^-51: together they are below 1.
{ A in [1,2] /\ M in [1,2] /\ a in [0,2] /\ little in [0,1] /\ G in [0,2] /\ all in [1,2] /\ product in [0.5,1] -> |X - M| <= 0x1.02p-52 /\ @FIX(X,-53) }
{ A in [1,2] /\ M in [1,2] /\ a in [0,2] /\ little in [0,1] /\ G in [0,2] /\ all in [1,2] /\ product in [0,0.5] -> |X - M| <= 0x0.e2p-52 }
{ A in [1,2] /\ M in [1,2] /\ a in [0,2] /\ little in [0,1] /\ G in [0,2] /\ all in [1,2] /\ product in [1,3] -> |X - M| <= 0x1.42p-52 /\ @FIX(X,-52) }
{ A in [1,2] /\ M in [1,2] /\ a in [0,2] /\ little in [0,1] /\ G in [0,2] /\ all in [2,4] /\ product in [0,1b-53] -> |X - M| <= 0x0.e2p-52 }
{ A in [1,2] /\ M in [1,2] /\ a in [0,2] /\ little in [0,1] /\ G in [0,2] /\ all in [2,4] /\ product in [1b-53,3] -> 0 >= 1 }

# Below 1, the smaller part at most half of it, but for `lost`; metal is above 2^-31 of M.
{ A in [1,2] /\ M in [1,2] /\ a in [0,2] /\ little in [0,0.5] /\ G in [0,2] /\ all in [0,1] /\ product in [0,1] -> |X - M| <= 0x0.e2p-52 }
{ A in [1,2] /\ M in [1,2] /\ a in [0,2] /\ little in [0,0.5] /\ G in [0,0x1.fffffffep0] /\ all in [0,1] /\ product in [1,3] -> |X - M| <= 0x0.e2p-52 }
{ A in [1,2] /\ M in [1,2] /\ a in [0,2] /\ little in [0.5,0.51] /\ G in [0,2] /\ all in [0.5,1] /\ product in [0,1] -> |X - M| <= 0x0.e2p-52 }
{ A in [1,2] /\ M in [1,2] /\ a in [0,2] /\ little in [0.5,0.51] /\ G in [0,2] /\ all in [0.5,1] /\ product in [1,3] -> |X - M| <= 0x1.02p-52 /\ @FIX(X,-53) }

C -> G / A { A <> 0 };
product -> G - A * left_low - walls_low * left;
X - M -> (rest - all) + (tail - little) + (lost - (p + q)) + (p - walls * left_low)
  + (q - walls_low * left) + (gap - product) - walls_low * left_low;
D - M -> (D - X) + (X - M);
M -> X - (X - M);
