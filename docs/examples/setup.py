# SPDX-License-Identifier: MIT
from ferrule import Die, Ferrule, Gauge, Hose, Joint, Order, Press, Readiness, Stem, plan_setup, remark_severity

worked = Joint(
    hose=Hose(inside="12.7 mm", outside="19.9 mm"),
    stem=Stem(outside="12.95 mm"),
    ferrule=Ferrule(wall="2.4 mm", outside="25.6 mm"),
)
gauge = Gauge(standard_uncertainty="0.01 mm", resolution="0.01 mm")
order = Order(joint=worked, widest="38 mm", approval="approved", insertion="31 mm", gauge=gauge)
press = Press(graduation="0.05 mm", opening="25 mm")
rack = [Die(size="16 mm"), Die(size="19 mm"), Die(size="22 mm", adapter=1), Die(size="25 mm")]
setup = plan_setup(order, press, rack)

print(f"{setup.readiness.name}: {setup.readiness.sentence}")
for remark in setup.remarks:
    severity = remark_severity(remark).name.lower().replace("_", " ")
    print(f"- {severity}: {remark.sentence}")
limits, zone = setup.limits.value, setup.zone.value.accept
print(f"target {setup.target:.2f mm}, from {limits.lower.mm:.2f} to {limits.upper:.2f mm}")
print(f"compression {setup.plain.value:.1f %} plain, {setup.ends_free.value:.1f %} ends free, {setup.ends_fixed.value:.1f %} ends fixed")
if setup.readiness != Readiness.NOT_READY:
    dial = setup.dial.value
    print(f"die {setup.die.die.size:.0f mm}, dial {dial.setting:.2f mm}, expect {dial.expected:.2f mm}; "
          f"accept {zone.lower.mm:.2f} to {zone.upper:.2f mm}")
