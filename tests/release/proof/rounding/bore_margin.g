# Function: fer_bore_margin
# Code: fer_bore_margin_checked of lib/crimp/forming.c
# Bound: 1 unit in the last place of the bore
# The bore is from 1 to 2; the gauge may be as large as twice the bore here, and is larger by so much only where the margin is
# far below 0. The reduction is below the bore.
@rnd = float<ieee_64, ne>;
b = rnd(bx); g = rnd(gx); r = rnd(rx);
m = rnd(b - g);
R = rnd(m - r);
M = b - g - r;
{ b in [1,2] /\ g in [0,2] /\ r in [0,1] /\ m - r in [-2,2] -> |R - M| <= 1b-52 }
R - M -> (R - (m - r)) + (m - (b - g));
