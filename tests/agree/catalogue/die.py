# SPDX-License-Identifier: MIT
"""Rows of die.h."""
from catalogue.shared import *  # noqa: F403

row("fer_choose_die", """the nearest below 23.51, and 23.51 - 22
>>> choice = choose_die(["16 mm", "19 mm", "22 mm", "25 mm"], "23.51 mm")
>>> choice.die.size, f"{choice.offset:.2f mm}"
(Length("22 mm"), '1.51 mm')
""", dies=RACK, target=(19, 28))


@case("fer_choose_die", "ulp", 1)
def choose_die(rng):
    size = length(rng, LEAST, 9e5)
    target = size * (1 + 10 ** rng.uniform(-15, -0.1))
    found = f.choose_die([f.Die(mm(size), mm(MOST))], mm(target))
    return {"offset": (found.offset.mm, mpf(target) - mpf(size))}


row("fer_find_coverage_gaps", """16 + 7 = 23: from there to 34 nothing
>>> find_coverage_gaps(["16 mm", "34 mm"], ("16 mm", "40 mm"))
[LengthRange(lower="23 mm", upper="34 mm")]
""", judged=DECIDES, dies=RACK, over={"lower": 15, "upper": 40})

row("fer_choose_purchases", """17 + 8 = 25 reaches both targets, 18 + 5 = 23 only the first
>>> choose_purchases([], ["20 mm", "25 mm"], [Die("18 mm", reach="5 mm"), Die("17 mm", reach="8 mm")])
[Die(size="17 mm", reach="8 mm")]
""", judged=DECIDES, dies=RACK, targets=[(17, 19), (30, 32)], offers=[{"size": (27, 29), "reach": 6}, {"size": (29, 30)}])
