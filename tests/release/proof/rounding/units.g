# Function: the constructors and readers of units, fer_inch() and its like
# Code: FER_DEFINE_UNIT of include/ferrule/quantity.h
# Bound: 1.5 units in the last place
# A product and a quotient with whole numbers, or with pi, from 1 to 2 each; powers of two drop out.
@rnd = float<ieee_64, ne>;
p = rnd(x * n);
X = p / d;
R = rnd(X);
M = x * n / d;
{ x in [1,2] /\ n in [1,2] /\ d in [1,2] /\ x * n in [1,2] /\ M in [0.5,1] /\ X in [0.25,1] -> |R - M| <= 0x1.81p-53 }
{ x in [1,2] /\ n in [1,2] /\ d in [1,2] /\ x * n in [1,2] /\ M in [0.5,1] /\ X in [1,2] -> |R - M| <= 0x1.81p-53 }
{ x in [1,2] /\ n in [1,2] /\ d in [1,2] /\ x * n in [1,2] /\ M in [1,2] /\ X in [0.25,2] -> |R - M| <= 0x1.81p-52 }
{ x in [1,2] /\ n in [1,2] /\ d in [1,2] /\ x * n in [1,2] /\ M in [1,2] /\ X in [2,3] -> |R - M| <= 0x1.81p-52 }
{ x in [1,2] /\ n in [1,2] /\ d in [1,2] /\ x * n in [2,4] /\ M in [1,2] /\ X in [0.25,2] -> |R - M| <= 0x1.81p-52 }
{ x in [1,2] /\ n in [1,2] /\ d in [1,2] /\ x * n in [2,4] /\ M in [1,2] /\ X in [2,3] -> |R - M| <= 0x1.81p-52 }
{ x in [1,2] /\ n in [1,2] /\ d in [1,2] /\ x * n in [2,4] /\ M in [2,4] /\ X in [1,4] -> |R - M| <= 0x1.81p-51 }
{ x in [1,2] /\ n in [1,2] /\ d in [1,2] /\ x * n in [2,4] /\ M in [2,4] /\ X in [4,5] -> |R - M| <= 0x1.81p-51 }
R - M -> (R - X) + (X - M);
X - M -> (p - x * n) / d { d <> 0 };
