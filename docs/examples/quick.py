# SPDX-License-Identifier: MIT
from ferrule import Die, Ferrule, Hose, Joint, Press, Stem, plan_setup

joint = Joint(
    hose=Hose(inside="12.7 mm", outside="19.9 mm"),
    stem=Stem(outside="12.95 mm"),
    ferrule=Ferrule(wall="2.4 mm", outside="25.6 mm"),
)
rack = [Die(size=size) for size in ["16 mm", "19 mm", "22 mm", "25 mm"]]
setup = plan_setup(joint, Press(graduation="0.05 mm"), rack)

window = setup.window.value
print(f"crimp to {setup.target:.2f mm}, from {window.lower:.2f mm} to {window.upper:.2f mm}")
print(f"die {setup.die.die.size:.0f mm}, dial {setup.dial.value.setting:.2f mm}")
print(f"compression {setup.plain.value:.1f %} by the plain formula")
