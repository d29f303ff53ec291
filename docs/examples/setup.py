# SPDX-License-Identifier: MIT
from ferrule import Die, Ferrule, Hose, Joint, Order, Press, Stem, plan_setup, remark_sentence

worked = Joint(
    hose=Hose(inside="12.7 mm", outside="19.9 mm"),
    stem=Stem(outside="12.95 mm"),
    ferrule=Ferrule(wall="2.4 mm", outside="25.6 mm"),
)
order = Order(joint=worked, widest="38 mm")
press = Press(graduation="0.05 mm", opening="25 mm")
rack = [Die(size="16 mm"), Die(size="19 mm"), Die(size="22 mm", adapter=1), Die(size="25 mm")]
setup = plan_setup(order, press, rack)

limits, dial = setup.limits.value, setup.dial.value
print(f"target {setup.target:.2f mm}, from {limits.lower.mm:.2f} to {limits.upper:.2f mm}")
print(f"compression {setup.plain.value:.1f %} plain, {setup.ends_free.value:.1f %} ends free, {setup.ends_fixed.value:.1f %} ends fixed")
print(f"die {setup.die.die.size:.0f mm}, dial {dial.setting:.2f mm}, expect {dial.expected:.2f mm}")
for remark in setup.remarks:
    print("-", remark_sentence(remark))
