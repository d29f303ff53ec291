# Function: fer_choose_die: offset; fer_capacity_use; fer_find_shown_zone
# Code: a difference, a quotient, a product of two doubles
# Bound: 0.5 units in the last place
@rnd = float<ieee_64, ne>;
R = rnd(M);
{ M in [1,2] -> |R - M| <= 1b-53 }
