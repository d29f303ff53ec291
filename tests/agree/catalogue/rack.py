# SPDX-License-Identifier: MIT
"""Rows of rack.h."""
from catalogue.shared import *  # noqa: F403

row("fer_find_rack_curve", """17 + 8 = 25 reaches both targets, 18 + 5 = 23 only the first
>>> offers = [Offer(Die("18 mm", reach="5 mm"), 90), Offer(Die("17 mm", reach="8 mm"), 120)]
>>> [(rack.price, f"{rack.reached:.0f %}") for rack in find_rack_curve([], ["20 mm", "25 mm"], offers, [])]
[(0.0, '0 %'), (90.0, '50 %'), (120.0, '100 %')]
""", judged=DECIDES, dies=RACK, demands=DEMANDS, offers=OFFERS, adapters=[{"adapter": 1, "price": (1, 5)}], aim={"segments": any_of(0, 8)})

row("fer_choose_rack", """up to a price of 100 the die of 18 mm, which reaches one target of two
>>> offers = [Offer(Die("18 mm", reach="5 mm"), 90), Offer(Die("17 mm", reach="8 mm"), 120)]
>>> purchases, rack = choose_rack([], ["20 mm", "25 mm"], offers, [], RackAim(price_maximum=100))
>>> purchases, rack.price, rack.optimal
([0], 90.0, True)
""", judged=DECIDES, dies=RACK, demands=DEMANDS, offers=OFFERS, adapters=[{"adapter": 1, "price": (1, 5)}], aim={"segments": any_of(0, 8)})

row("fer_find_demand_prices", """no die does both targets, so two dies are needed
>>> find_demand_prices([], ["20 mm", "28 mm"], [Offer("18 mm"), Offer("22 mm"), Offer("19 mm")], 8)
([1.0, 1.0], 2.0)
""", judged=DECIDES, dies=RACK, demands=DEMANDS, offers=OFFERS, segments=(3, 64))

row("fer_rank_dies", """without the die of 22 mm that of 19 mm takes 23.51 over, with 3 mm more offset; without that of 30 mm 33 has none
>>> for worth in rank_dies(["19 mm", "22 mm", "30 mm"], ["23.51 mm", "33 mm"], 8):
...     print(worth.index, worth.serves, worth.lost, worth.offset_more, worth.substitute)
2 1.0 1.0 0 mm 3
1 1.0 0.0 3 mm 0
0 0.0 0.0 0 mm 3
""", judged=DECIDES, dies=RACK, demands=DEMANDS, segments=(3, 64))

row("fer_rank_offers", """23.51 has a die; 33 would be reached by one of 30 mm
>>> [(worth.index, worth.gain) for worth in rank_offers(["19 mm"], ["23.51 mm", "33 mm"], [Offer("22 mm"), Offer("30 mm")], 8)]
[(1, 1.0), (0, 0.0)]
""", judged=DECIDES, dies=RACK, demands=DEMANDS, offers=OFFERS, segments=(3, 64))
